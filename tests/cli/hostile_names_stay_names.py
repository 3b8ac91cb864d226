#!/usr/bin/env python3
"""Names and texts that try to be paths, formulas, markup or orders to a terminal stay names and texts.

usage: hostile_names_stay_names.py BUDCLOCK

Sites, clients' fields, plants, pest files, notes and weather files carry what people's tools may take for more than
text. All commands that show them run in all formats, and of what they write it is asked that
- no file appears outside the output folder, and no two sites share one;
- nothing holds a control character, or one that turns the direction of a line (Unicode 15, chapter 23.2);
- no cell of CSV starts as a formula does (CWE-1236), no text becomes an element of HTML or Markdown, no line of a
  calendar is more than a folded property (RFC 5545), JSON is JSON;
- a name that holds control characters is told and set aside, and the others are answered.
"""
import csv
import html.parser
import io
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unicodedata

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
NAMES = [
    "../../escape", "/etc/hostile", "..", ".", "a/b", "CON", "nul.txt", "-rf", "--sites", "~", "$HOME", "`id`", "*", "?",
    '=cmd()', "=HYPERLINK(\"http://x.invalid\")", "+1+1", "-2+3", "@SUM(1)", "<script>alert(1)</script>",
    '"onload="alert(1)', "'quoted'", "</text></svg><script>alert(2)</script>", "&lt;b&gt;", "<!--", "]]>",
    "| pipe | `tick` [l](javascript:alert(1)) ![i](http://x.invalid/i) *b* _u_", "# head", "1. one", "> quote", "- item",
    "Elm Street", "Elm_Street", "Elm-Street", "elmstreet",
    unicodedata.normalize("NFC", "Café"), unicodedata.normalize("NFD", "Café"), "n" * 300, "n" * 299 + "m", "ä" * 150,
    "Ⅷ 🐛", "semi;colon,comma\\back", "a\\nBEGIN:VEVENT", "END:VCALENDAR", "{} {0} %s %n", "מגדל", "\u00a0nbsp", "#1 Elm",
    "manifest.txt", "digest", ".budclock-lock", "x.budclock-new",
]  # fmt: skip
REFUSED = [
    "line\nbreak", "return\rhere", "tab\there", "escape\x1b[2J", "bell\x07", "rubout\x7f", "c1\u009b31m",
    "title\x1b]0;owned\x07", "override\u202egpj.exe", "isolate\u2066x\u2069", "embed\u202bx\u202c", "split\u2028line",
    "parted\u2029line", "nul\x00byte",
    "elm street", "ELM STREET",  # names that people take for one
]  # fmt: skip
TURNS = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u2028\u2029"
VOID = {"meta", "link", "br", "img", "path", "line", "rect", "circle", "polyline", "input", "col"}
complaints = []


def complain(what):
    complaints.append(what)
    print("FAILED:", what[:300])


def site(name):
    return {
        "name": name,
        "place": {"latitude": 40.78, "longitude": -81.92},
        "weather": {"sources": [{"files": ["record.csv"]}]},
        "plants": ["boxwood <script>alert(3)</script>", "=cmd() hackberry"],
        "contact": {"client": '=cmd()|"x"', "phone": "<b>5</b>", "access": "../gate"},
    }


def make_practice(folder):
    lines = (TOP / "examples/weather/wooster_oh_1985-2014.csv").read_text().splitlines(keepends=True)
    (folder / "record.csv").write_text(lines[0] + "".join(line for line in lines if line[:4] in ("2011", "2012")))
    everything = [site(name) for name in NAMES + REFUSED]
    (folder / "sites.json").write_text(json.dumps({"schema": "budclock/sites/1", "sites": everything}))
    pest = json.loads((TOP / "data/pests/boxwood-psyllid.json").read_text())
    pest["name"] = "boxwood <img src=x onerror=alert(4)> psyllid"
    pest["signs"] = "=cmd() <script>alert(5)</script> [l](javascript:alert(6))"
    for window in pest["windows"]:
        window["name"] = "+1 <b>" + window["name"] + "</b> | ]]>"
    (folder / "pests").mkdir()
    (folder / "pests" / "boxwood-psyllid.json").write_text(json.dumps(pest))
    pest["id"], pest["signs"] = "refused-psyllid", "override\u202e escape\x1b[2J"
    (folder / "pests" / "refused-psyllid.json").write_text(json.dumps(pest))
    with open(folder / "scouting-log.csv", "w", newline="") as file:
        log = csv.writer(file)
        log.writerow(["date", "site", "pest", "saw", "by", "note"])
        for name in NAMES:
            log.writerow(["2012-04-01", "'" + name if name[0] in "=+-@" else name, "boxwood-psyllid", "nymphs", "=by()",
                          "'=note() <script>alert(7)</script>\nsecond line"])  # fmt: skip
        for name in REFUSED[:-2]:
            log.writerow(["2012-04-01", "Elm Street", "boxwood-psyllid", "nymphs", "by", name.replace("\0", "")])


def check_plain(where, text, allowed="\n"):
    for character in sorted(set(text)):
        if unicodedata.category(character) == "Cc" and character not in allowed:
            complain(f"{where} holds the control character {character!r}")
        if character in TURNS:
            complain(f"{where} holds {unicodedata.name(character, hex(ord(character)))}")


def check_csv(where, text):
    for row in csv.reader(io.StringIO(text)):
        for cell in row:
            if cell[:1] in ("=", "+", "@", "\t", "\r") or re.match(r"-[^\d]", cell):
                complain(f"{where}: the cell {cell!r} could run")


class Page(html.parser.HTMLParser):
    """What stands in a page: its elements, all closed in order."""

    def __init__(self, where):
        super().__init__()
        self.where, self.open = where, []

    def handle_starttag(self, tag, attributes):
        if tag in ("script", "img", "iframe", "object", "a", "b"):
            complain(f"{self.where}: there is an element {tag}")
        for name, value in attributes:
            if name.startswith("on") or "javascript:" in (value or ""):
                complain(f"{self.where}: {tag} has {name}={value}")
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag in VOID:
            return
        if not self.open or self.open.pop() != tag:
            complain(f"{self.where}: {tag} is closed and was not open")
            self.open = []

    def handle_startendtag(self, tag, attributes):
        pass


def check_html(where, text):
    page = Page(where)
    page.feed(text)
    page.close()
    if page.open:
        complain(f"{where}: left open: {page.open}")


def check_markdown(where, text):
    bare = re.sub(r"\\[!-/:-@\[-`{-~]", "", text)  # without what a backslash takes its meaning from
    for mark in re.findall(r"<[a-zA-Z/!][^>\n]*>?|\]\(|`", bare):
        complain(f"{where}: {mark!r} is markup")


def check_calendar(where, text):
    text_lines = text.split("\r\n")
    if "\n" in text.replace("\r\n", "") or "\r" in text.replace("\r\n", ""):
        complain(f"{where}: a line end by itself")
    for line in text_lines:
        if len(line.encode()) > 75:
            complain(f"{where}: a line of {len(line.encode())} octets")
    lines = text.replace("\r\n ", "").split("\r\n")
    for line in lines:
        if line and not re.match(r"[A-Z-]+[:;]", line):
            complain(f"{where}: {line!r} is no property")
    if lines.count("BEGIN:VEVENT") != lines.count("END:VEVENT") or lines.count("BEGIN:VCALENDAR") != 1:
        complain(f"{where}: events are not in order")


def check(where, kind, text):
    check_plain(where, text, allowed={"ics": "\r\n", "csv": "\n\t"}.get(kind, "\n"))
    if kind == "csv":
        check_csv(where, text)
    elif kind == "html":
        check_html(where, text)
    elif kind == "md":
        check_markdown(where, text)
    elif kind == "ics":
        check_calendar(where, text)
    elif kind == "json":
        try:
            json.loads(text)
        except ValueError as error:
            complain(f"{where}: is no JSON: {error}")


def run(folder, kind, *arguments):
    done = subprocess.run([*arguments], cwd=folder, capture_output=True, timeout=300)
    where = " ".join(arguments[1:])[:160]
    if done.returncode not in (0, 1):
        complain(f"{where}: exit status {done.returncode}: {done.stderr.decode(errors='replace')[:200]}")
    check(where, kind, done.stdout.decode())
    check_plain(where + ": messages", done.stderr.decode())
    return done


def check_reports(folder):
    out = folder / "out"
    for path in sorted(out.rglob("*")):
        if path.is_file() and path.name != ".budclock-lock":
            check(str(path.relative_to(folder)), path.suffix[1:].replace("jsonl", "txt"), path.read_bytes().decode())
    for kind in ("txt", "html", "json"):
        reports = list((out / "sites").glob(f"*.{kind}"))
        names = {path.name.casefold() for path in reports}
        wanted = len(NAMES) + (len(REFUSED) if kind == "txt" else 0)
        if len(names) != wanted:
            complain(f"{len(names)} {kind} reports of {wanted} sites")
        for path in reports:
            if not re.fullmatch(r"[a-z0-9_][a-z0-9_.-]*", path.name) or len(path.name) > 100:
                complain(f"the report is called {path.name!r}")
    for name in NAMES:
        if not any(json.loads(path.read_text())["site"] == name for path in (out / "sites").glob("*.json")):
            complain(f"no report is that of {name!r}")


def main():
    budclock = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as name:
        outer = pathlib.Path(name)
        folder = outer / "a" / "b"
        folder.mkdir(parents=True)
        make_practice(folder)
        before = {path for path in outer.rglob("*")}
        common = ("--sites", "sites.json", "--pests", "pests", "--today", "2012-04-10")
        formats = "text,md,html,ics,csv,json"
        done = run(folder, "text", budclock, "nightly", *common, "--out", "out", "--format", formats, "--due")
        for refused in REFUSED:
            stem = re.match(r"\w+", refused)[0]
            if f'"{stem}' not in done.stderr.decode():
                complain(f"{refused!r} is not told")
        strangers = {path for path in outer.rglob("*") if folder / "out" not in [path, *path.parents]} - before
        for path in sorted(strangers):
            complain(f"{path.relative_to(outer)} was written")
        check_reports(folder)

        for kind in ("text", "md", "csv", "json", "html", "ics"):
            for site_name in ("=cmd()", "<script>alert(1)</script>", "../../escape", "END:VCALENDAR"):
                run(folder, kind, budclock, "when", "boxwood", f"--site={site_name}", "--why", "--format", kind, *common)
        for kind in ("text", "md", "csv", "ics"):
            run(folder, kind, budclock, "stops", "--format", kind, *common)
        for kind in ("text", "csv", "json"):
            run(folder, kind, budclock, "log", "--format", kind, *common)
            run(folder, kind, budclock, "check", "sites.json", "scouting-log.csv", "pests/boxwood-psyllid.json", "--format", kind)
        for kind in ("text", "md", "html", "csv", "json"):
            run(folder, kind, budclock, "digest", "out", "--pests", "pests", "--today", "2012-04-10", "--format", kind)
        run(folder, "text", budclock, "pests", "boxwood-psyllid", "--pests", "pests")
        for site_name in ("=cmd()", "-2+3", "@SUM(1)"):
            did = ("did", f"--site={site_name}", "--pest", "boxwood-psyllid", "--action", "prune", *common)
            run(folder, "text", budclock, *did, "--note==cmd()", "--applicator=<script>", "--plants=+1")
        for kind in ("text", "csv", "json"):
            run(folder, kind, budclock, "records", "--format", kind, *common)
        hostile = folder / "re\x1b[2J\u202e=cord.csv"
        (folder / "record.csv").rename(hostile)
        for kind in ("text", "md", "csv", "json", "html", "ics"):
            weather = ("--weather", hostile.name, "--today", "2012-04-10", "--format", kind)
            run(folder, kind, budclock, "when", "boxwood", *weather)
        for kind in ("text", "csv", "json"):
            run(folder, kind, budclock, "check", hostile.name, "--format", kind)
    print(f"{len(NAMES)} names, {len(REFUSED)} refused, {len(complaints)} complaints")
    return 1 if complaints else 0


sys.exit(main())
