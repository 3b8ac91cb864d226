#!/usr/bin/env python3
"""Types command lines into an interactive shell, with the Tab key, and looks at what words the shell then has.

usage: completion_typed.py SHELL BUDCLOCK COMPLETION-SCRIPT
SHELL is bash or zsh. Ends with 77 (skipped) where that shell is not installed."""
import os
import pathlib
import pty
import re
import select
import shutil
import sys
import tempfile
import termios
import time

shell, budclock, script = sys.argv[1], *map(os.path.realpath, sys.argv[2:4])
if shutil.which(shell) is None:
    print(f"skipped: {shell} is not installed")
    sys.exit(77)

NAMES = ["Mill Lane", '"Al\'s ""Old"" Yard"', "$(touch executed)", "`touch executed`;x", "Hi! you"]
# What is typed (\t is the Tab key), and the words it must become.
CASES = [
    ("nigh\t", ["nightly"]),
    ("when --form\tht\t", ["when", "--format", "html"]),
    ("when box\t", ["when", "boxwood-psyllid"]),
    ("when --site Mi\t", ["when", "--site", "Mill Lane"]),
    ('when --site "Mi\t', ["when", "--site", "Mill Lane"]),
    ("when --site 'Mi\t", ["when", "--site", "Mill Lane"]),
    ("when --site=Mi\t", ["when", "--site=Mill Lane"]),
    ("when --site A\t", ["when", "--site", 'Al\'s "Old" Yard']),
    ("when --site \\$\t", ["when", "--site", "$(touch executed)"]),
    ("when --site \\`\t", ["when", "--site", "`touch executed`;x"]),
    ("when --site H\t", ["when", "--site", "Hi! you"]),
    ('when --site "H\t', ["when", "--site", "Hi! you"]),
    ("when --sites other\t--site E\t", ["when", "--sites", "other sites.csv", "--site", "Elsewhere"]),
    ("when --weather we\t", ["when", "--weather", "weather one.csv"]),
]

work = pathlib.Path(tempfile.mkdtemp())
bin_folder = work / "bin"
bin_folder.mkdir()
(bin_folder / "budclock").symlink_to(budclock)
(work / "functions").mkdir()
shutil.copy(script, work / "functions" / "_budclock")
(work / "budclock-sites.csv").write_text("name,latitude,longitude,weather\n" + "".join(f"{name},40,-81,a.csv\n" for name in NAMES))
(work / "other sites.csv").write_text("name,latitude,longitude,weather\nElsewhere,40,-81,a.csv\n")
(work / "weather one.csv").write_text("")
environment = {"PATH": f"{bin_folder}:/usr/bin:/bin", "HOME": str(work), "TERM": "dumb", "LC_ALL": "C.UTF-8"}

process, terminal = pty.fork()
if process == 0:
    os.chdir(work)
    termios.tcsetwinsize(0, (24, 200))  # no line is scrolled sideways
    start = {"bash": ["bash", "--norc", "--noprofile", "-i"], "zsh": ["zsh", "-f", "-i"]}[shell]
    os.execvpe(start[0], start, environment)


def typed(text, until, seconds=20):
    """Types `text` and returns what the terminal shows up to a line that matches `until`."""
    os.write(terminal, text.encode())
    shown, end = "", time.monotonic() + seconds
    while not re.search(until, shown):
        if time.monotonic() > end:
            raise SystemExit(f"{shell} did not come to {until!r}; it showed {shown!r}")
        if select.select([terminal], [], [], 0.1)[0]:
            shown += os.read(terminal, 65536).decode(errors="replace")
    return shown


if shell == "bash":
    typed(f"source {script}; bind 'set bell-style none'; PS1='read''y> '\n", "ready> ")
else:
    typed(f"fpath=({work}/functions $fpath); autoload -Uz compinit; compinit -u -D; unsetopt beep; "
          "bindkey -e; PS1='read''y> '\n", "ready> ")

def words_after(text, number, wait):
    """The words that the line becomes; `wait`: seconds for the shell to ask the program after each Tab."""
    for place, piece in enumerate(text.split("\t")[:-1]):
        os.write(terminal, (("budclock " if place == 0 else "") + piece + "\t").encode())
        time.sleep(wait)
    # Back to the beginning of the line, where another command is put in front: it shows the words.
    os.write(terminal, b"\x01")
    shown = typed(f"printf '<%s>' e{number}nd ", ".")
    shown += typed("\n", rf"(?s)<e{number}nd><budclock>.*ready> |[\r\n]d?quote> |\n> ", 5)
    match = re.search(f"<e{number}nd><budclock>((?:<[^<>]*>)+)", shown)
    if match:
        return re.findall("<([^<>]*)>", match.group(1))
    os.write(terminal, b"\x03")
    time.sleep(0.2)
    return f"no words: {shown[-200:]!r}"


failed = False
for number, (text, expected) in enumerate(CASES):
    words = words_after(text, number, 0.5)
    if words != expected:  # a busy machine may need longer
        words = words_after(text, 100 + number, 4)
    if words != expected:
        failed = True
        print(f"{shell}: {text!r} became {words}, not {expected}")
os.write(terminal, b"\x15exit\n")
os.close(terminal)
if (work / "executed").exists():
    failed = True
    print("a name was carried out")
shutil.rmtree(work, ignore_errors=True)
sys.exit(1 if failed else 0)
