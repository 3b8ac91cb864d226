#!/usr/bin/env python3
"""Makes the N-th system call of a run fail, for every N, by strace: what was there stays whole, and the run says so.

usage: faults_lose_nothing.py BUDCLOCK [STEP [FIRST]]

Runs a small nightly run, a `seen` and a `did` again and again; in each, one call fails (open, read, write, fsync,
rename, stat, ...) with one error. With STEP, every STEP-th of these faults only, from the FIRST on; by hand, all of
them: faults_lose_nothing.py build/budclock. Of each it is asked that
- the program ends by itself with a documented exit status, and not with a status that claims more than was done;
- where the outcome is not that of a run without a fault, a message names a file of ours, why, and what to do;
- each file is wholly that of before or wholly that of after: none is torn, half or gone;
- the next run without a fault makes exactly what it would have made, and leaves no temporary file;
- a row of a log is there once, or not at all and then exit status 4 (or 3, 2) said so.
Exit status 77 where strace is missing or may not trace.
"""
import collections
import csv
import hashlib
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

SKIPPED = 77
EXAMPLES = pathlib.Path(__file__).resolve().parent.parent.parent / "examples"
# Which errors each call is made to give: an ailing disk, a full one, rights taken away, too many open files.
ERRORS = {
    "openat": ("EACCES", "EIO", "EMFILE", "ENOSPC"),
    "read": ("EIO", "EISDIR"),
    "pread64": ("EIO",),
    "write": ("EIO", "ENOSPC"),
    "pwrite64": ("EIO", "ENOSPC"),
    "fsync": ("EIO", "ENOSPC"),
    "rename": ("EIO", "EACCES", "ENOSPC"),
    "unlink": ("EIO", "EACCES"),
    "mkdir": ("EACCES", "ENOSPC"),
    "flock": ("EIO", "ENOLCK"),
    "ftruncate": ("EIO",),
    "fchmod": ("EPERM",),
    "newfstatat": ("EACCES", "EIO"),
    "fstat": ("EIO",),
    "getdents64": ("EIO",),
    "lseek": ("EIO",),
    "close": ("EIO",),
}
REASONS = {
    "EACCES": "Permission denied", "EIO": "Input/output error", "EMFILE": "Too many open files",
    "ENOSPC": "No space left on device", "EISDIR": "Is a directory", "ENOLCK": "No locks available",
    "EPERM": "Operation not permitted",
}  # fmt: skip
LEFTOVER = ".budclock-new"

Fault = collections.namedtuple("Fault", "call error number where")
Result = collections.namedtuple("Result", "status out err")


def make_practice(folder):
    """Three invented sites on three years of a real record, one of them without; the scouting log has a row."""
    lines = (EXAMPLES / "weather" / "wooster_oh_1985-2014.csv").read_text().splitlines(keepends=True)
    years = tuple(f"{year}-" for year in range(2010, 2013))
    (folder / "records").mkdir()
    (folder / "records" / "wooster.csv").write_text(lines[0] + "".join(line for line in lines if line.startswith(years)))
    (folder / "sites.csv").write_text(
        "name,latitude,longitude,weather,plants\n"
        "Mill Lane,40.78,-81.92,records/woo*.csv,boxwood\n"
        "Elm Court,40.79,-81.93,records/wooster.csv,boxwood;hackberry\n"
        "Quarry Farm,40.8,-81.9,gone.csv,boxwood\n"
    )
    (folder / "scouting-log.csv").write_text("date,site,pest,saw,note\n2012-04-01,Mill Lane,boxwood-psyllid,nymphs,first\n")
    (folder / "pests").mkdir()
    shutil.copy(EXAMPLES.parent / "data" / "pests" / "boxwood-psyllid.json", folder / "pests")


def kept(path):
    """What of a file must stand. A day's temperatures are looked up: an action is recorded without them, too."""
    if path.name != "action-log.csv":
        return path.read_bytes()
    rows = list(csv.reader(path.read_text().splitlines()))
    looked_up = [column for column, name in enumerate(rows[0]) if name.startswith(("tmin", "tmax"))] if rows else []
    return repr([[cell for column, cell in enumerate(row) if column not in looked_up] for row in rows]).encode()


def content(folder):
    """Of each file what must stand, by its path; a lock is no content."""
    return {
        str(path.relative_to(folder)): hashlib.sha256(kept(path)).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.endswith("lock")
    }


def run(arguments, folder, strace=()):
    quiet = os.environ | {"ASAN_OPTIONS": "detect_leaks=0"}  # leaks cannot be looked for while strace traces
    done = subprocess.run([*strace, *arguments], cwd=folder, capture_output=True, text=True, timeout=120, env=quiet)
    return Result(done.returncode, done.stdout, done.stderr)


def calls_of(arguments, folder, trace):
    """The calls that the program makes on files of ours: (call, its number among calls of that name, where)."""
    run(arguments, folder, ("strace", "-f", "-y", "-s", "0", "-o", trace, "-e", "trace=" + ",".join(ERRORS)))
    counts, found = collections.Counter(), []
    for line in pathlib.Path(trace).read_text().splitlines():
        match = re.match(r"\d+ +(\w+)\((.*)", line)
        if not match or match[1] not in ERRORS:
            continue
        counts[match[1]] += 1
        if match[1] in ("write",) and re.match(r"[12]<", match[2]):
            found.append((match[1], counts[match[1]], "the message stream" if match[2][0] == "2" else "the output"))
        elif str(folder) in match[2] or re.search(r'"[^/"][^"]*"', match[2]):
            found.append((match[1], counts[match[1]], match[2].split(", ")[-1 if match[1] == "rename" else 0]))
    return found


class Scenario:
    """One command on a copy of `before`, with what it makes of it when nothing fails."""

    def __init__(self, name, budclock, before, arguments):
        self.name, self.before = name, before
        self.arguments = [str(budclock), *arguments]
        self.work = before.parent / "work"
        self.renew()
        self.old = content(self.work)
        self.good = run(self.arguments, self.work)
        self.new = content(self.work)
        self.renew()
        self.calls = calls_of(self.arguments, self.work, str(before.parent / "trace.txt"))

    def renew(self):
        shutil.rmtree(self.work, ignore_errors=True)
        shutil.copytree(self.before, self.work, symlinks=True)

    def faults(self):
        return [Fault(call, error, number, where) for call, number, where in self.calls for error in ERRORS[call]]

    def meet(self, fault):
        """The complaints about one fault."""
        self.renew()
        inject = f"inject={fault.call}:error={fault.error}:when={fault.number}"
        # only the call in question is stopped at: the run is several times as fast
        strace = ("strace", "-f", "-qq", "-o", "/dev/null", "-e", f"trace={fault.call}", "-e", inject)
        result = run(self.arguments, self.work, strace)
        complaints = list(self.complaints(result, content(self.work), fault))
        again = run(self.arguments, self.work)
        complaints += self.after_a_good_run(result, again)
        return complaints, result

    def complaints(self, result, now, fault):
        if result.status not in range(0, 6):
            yield f"exit status {result.status}"
        yield from self.torn(now)
        healthy = now == self.new and result.status == self.good.status and result.out == self.good.out
        told = result.err if fault.where != "the message stream" else self.good.err
        if healthy:
            return
        if fault.where == "the message stream":
            return
        reason = REASONS[fault.error]
        # glob(3) does not tell a folder whose reading stops from one that ends there.
        unlisted = fault.call == "getdents64" and "no file fits" in told
        if reason not in told and not unlisted:
            yield f"no message says why ({reason})"
        if now == self.old and result.status in (self.good.status, 0):
            yield f"nothing was done, with exit status {result.status}"
        yield from self.unsaid(result, now)

    def torn(self, now):
        for name in sorted(now):
            if LEFTOVER in name:
                yield f"{name} was left"
            elif now[name] not in (self.old.get(name), self.new.get(name)) and not self.may_differ(name):
                yield f"{name} is neither that of before nor that of after"
        for name in sorted(set(self.old) & set(self.new) - set(now)):
            if not self.may_differ(name):
                yield f"{name} is gone"

    def may_differ(self, name):
        return False

    def unsaid(self, result, now):
        return ()

    def after_a_good_run(self, result, again):
        now = content(self.work)
        if now != self.new:
            different = sorted(name for name in set(now) | set(self.new) if now.get(name) != self.new.get(name))
            yield f"after a good run these differ: {', '.join(different)}"


class Nightly(Scenario):
    """A site whose record cannot be read gets a report that says so: its files, and the digests, are then others."""

    def complaints(self, result, now, fault):
        self.met = result
        yield from super().complaints(result, now, fault)

    def may_differ(self, name):
        return self.met.status in (1, 3) and name.startswith("out/")

    def unsaid(self, result, now):
        if result.status == 4 and now == self.new and self.good.out == result.out:
            yield "all was written, with exit status 4"
        if result.status == 4 and "run it again" not in result.err and "check the folder" not in result.err:
            if "the output could not be written" not in result.err:
                yield f"no remedy: {result.err.splitlines()[:1]}"


class Question(Scenario):
    """What was asked is answered, or the exit status says that it is not."""

    def unsaid(self, result, now):
        if result.status == self.good.status:
            yield f"another answer with the same exit status {result.status}"


class Record(Scenario):
    """Recording a row; the same row a second time is a duplicate, told by exit status 1."""

    def unsaid(self, result, now):
        if result.status == 0 and now != self.new:
            yield "exit status 0, and the row is not there"

    def after_a_good_run(self, result, again):
        yield from super().after_a_good_run(result, again)
        if again.status not in (0, 1):
            yield f"the run after it gave exit status {again.status}"


def scenarios(budclock, folder):
    practice = folder / "practice"
    practice.mkdir()
    make_practice(practice)
    nightly = ["nightly", "--sites", "sites.csv", "--out", "out", "--jobs", "1", "--format", "text,csv", "--due"]
    nightly += ["--pests", "pests"]
    run([str(budclock), *nightly, "--today", "2012-04-10"], practice)
    assert (practice / "out" / "digest.txt").exists(), "the nightly run does not work at all"
    text = (practice / "sites.csv").read_text()  # the report of Elm Court is to go
    (practice / "sites.csv").write_text(text.replace("Elm Court", "Elm Yard"))
    sites = ["--sites", "sites.csv", "--today", "2012-04-10"]
    seen = ["seen", "--site", "Mill Lane", "--pest", "boxwood-psyllid", "--saw", "nymphs", *sites]
    did = ["did", "--site", "Mill Lane", "--pest", "boxwood-psyllid", "--action", "prune", *sites]
    assert run([str(budclock), *did, "--note", "first"], practice).status == 0, "did does not work at all"
    empty = folder / "empty"
    shutil.copytree(practice, empty)
    shutil.rmtree(empty / "out")
    for name in ("scouting-log.csv", "action-log.csv", "scouting-log.csv.lock", "action-log.csv.lock"):
        (empty / name).unlink(missing_ok=True)
    yield Nightly("nightly, the second day", budclock, practice, [*nightly, "--today", "2012-04-11"])
    yield Nightly("nightly, a new folder", budclock, empty, [*nightly, "--today", "2012-04-11"])
    yield Question("when", budclock, practice, ["when", "--site", "Mill Lane", "--pests", "pests", *sites])
    yield Record("seen", budclock, practice, seen)
    yield Record("seen, a new log", budclock, empty, seen)
    yield Record("did", budclock, practice, did)
    yield Record("did, a new log", budclock, empty, did)


def main():
    budclock = pathlib.Path(sys.argv[1]).resolve()
    step, first = int((sys.argv[2:] or ["1"])[0]), int((sys.argv[3:] or ["0"])[0])
    try:
        probe = subprocess.run(["strace", "-o", "/dev/null", "true"], capture_output=True)
    except FileNotFoundError:
        print("strace is not here: nothing was tried")
        return SKIPPED
    if probe.returncode != 0:
        print(f"strace may not trace: nothing was tried: {probe.stderr.decode()}")
        return SKIPPED
    tried, failed, statuses = 0, 0, collections.Counter()
    with tempfile.TemporaryDirectory() as name:
        for scenario in scenarios(budclock, pathlib.Path(os.path.realpath(name))):
            faults = scenario.faults()[first::step]
            for fault in faults:
                complaints, result = scenario.meet(fault)
                tried += 1
                statuses[result.status] += 1
                failed += bool(complaints)
                for complaint in complaints:
                    print(f"FAILED: {scenario.name}: {fault}: {complaint}\n    {result.err.strip()[:400]}")
            print(f"{scenario.name}: {len(faults)} faults", flush=True)
    ends = ", ".join(f"{status}: {count}" for status, count in sorted(statuses.items()))
    print(f"{tried} faults, {tried - failed} clean exits (by exit status {ends})")
    return 1 if failed or not tried else 0


sys.exit(main())
