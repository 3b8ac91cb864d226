#!/usr/bin/env python3
"""Times whole runs of budclock, each against a yardstick in the same run, and prints one table.

usage: run.py BUILD-FOLDER [PART...]     parts: reading when nightly growth (default: all)
  cmake -S . -B build-bench -G Ninja -DCMAKE_BUILD_TYPE=Release -DBUDCLOCK_TESTS=OFF -DBUDCLOCK_BENCHMARKS=ON
  ninja -C build-bench && tests/bench/run.py build-bench

Needs mawk, 2 GB of temporary disk and 4 to 8 minutes. A run and its yardstick take turns, and each ratio is of one
turn; the table has the median of the ratios and, in brackets, the least and the greatest. The target stands beside it.
`wall` is elapsed time, `cpu` user and system time, which other programs on the machine disturb less. BENCH_ROUNDS
multiplies the number of turns, BENCH_STATIONS (200) sets the stations of the large file; BENCH_DATA names a folder in
which the made data are kept for the next time.
"""
import os
import pathlib
import platform
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
BUILD = pathlib.Path(sys.argv[1]).resolve()
PARTS = sys.argv[2:] or ["reading", "when", "nightly", "growth"]
ROUNDS = float(os.environ.get("BENCH_ROUNDS", "1"))
BUDCLOCK = str(BUILD / "budclock")
STATIONS = int(os.environ.get("BENCH_STATIONS", "200"))
TODAY = "2014-04-10"


def yardstick(name):
    return str(BUILD / "tests" / "bench" / f"bench_{name}")


class Ran:
    """One process that has ended: seconds elapsed and of the processor, MB of memory at its peak."""

    def __init__(self, command, out=os.devnull):
        actions = [(os.POSIX_SPAWN_OPEN, 1, str(out), os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o644),
                   (os.POSIX_SPAWN_OPEN, 2, os.devnull, os.O_WRONLY, 0)]
        begun = time.perf_counter()
        child = os.posix_spawnp(command[0], command, os.environ, file_actions=actions)
        _, status, usage = os.wait4(child, 0)
        self.wall = time.perf_counter() - begun
        self.cpu = usage.ru_utime + usage.ru_stime
        self.memory = usage.ru_maxrss * 1024 / 1e6
        if os.waitstatus_to_exitcode(status) not in (0, 1):
            sys.exit(f"failed: {' '.join(command)}")


def turns(rounds, *runs):
    """Each of `runs` in turn, so many times after a first that does not count: a list of what each gave."""
    for run in runs:
        run()
    given = [[run() for run in runs] for _ in range(max(1, round(rounds * ROUNDS)))]
    return list(zip(*given))


def spread(values, digits=2):
    return f"{statistics.median(values):.{digits}f} ({min(values):.{digits}f}-{max(values):.{digits}f})"


def ratios(over, under, what):
    return [getattr(a, what) / getattr(b, what) for a, b in zip(over, under)]


def milliseconds(runs, what="wall"):
    return f"{statistics.median(getattr(run, what) for run in runs) * 1e3:.1f} ms"


def row(what, values, target, note=""):
    shown = values if isinstance(values, str) else spread(values)
    print(f"| {what} | {shown} | {target} | {note} |", flush=True)


def record(data, years):
    """A station's record that ends with 2014."""
    path = data / f"record-{years}.csv"
    if not path.exists():
        with open(path, "wb") as file:
            subprocess.run([yardstick("make_weather"), "1", str(2015 - years), str(years)], stdout=file, check=True)
    return path


def records(data, stations, years):
    folder = data / f"records-{stations}-{years}"
    if not folder.exists():
        folder.mkdir()
        subprocess.run([yardstick("make_weather"), str(stations), str(2015 - years), str(years), str(folder)],
                       check=True)
    return folder


def sites_file(data, folder, sites, to_a_record):
    """Sites by number, so many of them for each record of the folder, with the plants of all pests."""
    path = data / f"{folder.name}-{sites}-{to_a_record}.csv"
    plants = ("boxwood; hackberry; Norway spruce; eastern hemlock; white pine; grapevine; balsam fir; Douglas-fir; "
              "hickory; coneflower; pecan; blue spruce")
    lines = ["name,latitude,longitude,weather,plants\n"]
    lines += [f"Site {n:05},40.8,-81.9,{folder.name}/STN{n // to_a_record:04}.csv,{plants}\n" for n in range(sites)]
    path.write_text("".join(lines))
    return path


def fresh(out):
    """A folder that was never there. ext4 looks long for a place for a new file where many have just been deleted
    (recently_deleted() in fs/ext4/ialloc.c: up to five minutes), so nothing is deleted before all is measured."""
    out.mkdir(exist_ok=True)
    return tempfile.mkdtemp(dir=out)


def nightly(sites, out, *more):
    return Ran([BUDCLOCK, "nightly", "--sites", str(sites), "--out", fresh(out), "--today", TODAY, *more])


def reading(data):
    """The first dates of all stations of one file."""
    big = data / "big.csv"
    if not big.exists():
        with open(big, "wb") as file:
            subprocess.run([yardstick("make_weather"), str(STATIONS), "1985", "30"], stdout=file, check=True)
    tally = [BUDCLOCK, "tally", "--weather", str(big), "--lower", "50F", "--first-at", "200,500,1000", "--method",
             "average,single-sine", "--jobs"]
    limit, mawk = [yardstick("limit"), str(big)], ["mawk", "-f", str(HERE / "sums.awk"), str(big)]
    limits, one, two, checked, checked_two = turns(5, lambda: Ran(limit), lambda: Ran([*tally, "1", "--keep-doubtful"]),
                                                   lambda: Ran([*tally, "2", "--keep-doubtful"]),
                                                   lambda: Ran([*tally, "1"]), lambda: Ran([*tally, "2"]))
    awk = [Ran(mawk)]
    name = f"`tally --first-at`, {STATIONS} stations x 30 years"
    for how in ("wall", "cpu"):
        row(f"{name}, row checks / the limit loop, one core, {how}", ratios(one, limits, how), "<= 2",
            f"{milliseconds(one, how)} / {milliseconds(limits, how)}")
    row("`--jobs 1` / `--jobs 2`, row checks, wall", ratios(one, two, "wall"), ">= 1.8", milliseconds(two))
    row("mawk, doing only the sums / `--jobs 1`, row checks, cpu",
        [awk[0].cpu / run.cpu for run in one], ">= 5", milliseconds(awk, "cpu"))
    row("peak memory, MB", [run.memory for run in two + checked_two], "<= 32")
    row(f"{name}, climatological checks too / row checks, cpu", ratios(checked, one, "cpu"), "", milliseconds(checked, "cpu"))
    row("`--jobs 1` / `--jobs 2`, all checks, wall", ratios(checked, checked_two, "wall"), "", milliseconds(checked_two))


def when(data):
    for what, years, yard, of_yard, target in [
            ("one season", 1, [yardstick("nothing")], "an empty C++ program", "<= 8"),
            ("30 years with the ensemble", 30, [yardstick("limit"), str(record(data, 30))], "the limit loop", "<= 5")]:
        ask = [BUDCLOCK, "when", "--weather", str(record(data, years)), "--today", TODAY]
        asked, under = turns(40, lambda: Ran(ask), lambda: Ran(yard))
        for how in ("wall", "cpu"):
            row(f"`when`, {what}, all pests / {of_yard}, {how}", ratios(asked, under, how), target,
                f"{milliseconds(asked, how)} / {milliseconds(under, how)}")


def write_loop(made, out):
    done = subprocess.run([yardstick("write_loop"), str(made), fresh(out)], capture_output=True, check=True)

    class Loop:
        wall = float(done.stdout)

    return Loop


def nightly_writes(data):
    out = data / "out"
    sites = sites_file(data, records(data, 2000, 1), 2000, 1)
    made = fresh(out)
    subprocess.run([BUDCLOCK, "nightly", "--sites", str(sites), "--out", made, "--today", TODAY],
                   stderr=subprocess.DEVNULL, check=False)
    run, loop = turns(3, lambda: nightly(sites, out), lambda: write_loop(made, out))
    row("`nightly`, 2,000 sites of one season / a bare loop that writes the same bytes the same way, wall",
        ratios(run, loop, "wall"), "<= 2.5", f"{milliseconds(run)} / {milliseconds(loop)}")


def nightly_is_flat(data):
    out = data / "out"
    folder = records(data, 500, 30)
    few, many = sites_file(data, folder, 100, 20), sites_file(data, folder, 10000, 20)
    csv = ("--format", "csv", "--jobs")
    nightly(few, out)
    small = [nightly(few, out, *csv, "1") for _ in range(5)]
    two, one = [nightly(many, out, *csv, "2")], [nightly(many, out, *csv, "1")]
    for what in ("wall", "cpu"):
        row(f"`nightly`, 30 years, 20 sites a station: a site of 10,000 / a site of 100, {what}",
            [getattr(one[0], what) / getattr(run, what) / 100 for run in small], "0.9 to 1.1",
            f"{getattr(one[0], what) / 10:.2f} ms a site")
    row("`--jobs 1` / `--jobs 2`, wall", ratios(one, two, "wall"), ">= 1.8", milliseconds(two))
    row("peak memory, MB", [run.memory for run in two], "< 300")


def growth(data):
    out = data / "out"
    three = ["boxwood", "hemlock", "cooley"]
    six = three + ["pine", "hackberry", "hickory"]
    years = {n: records(data, 40, n) for n in (15, 30)}
    sites = {(n, s): sites_file(data, years[n], s, 1) for n, s in [(15, 20), (15, 40), (30, 20), (30, 40)]}
    base, more_sites, more_years, more_pests = turns(
        5, lambda: nightly(sites[15, 20], out, *three, "--jobs", "1"),
        lambda: nightly(sites[15, 40], out, *three, "--jobs", "1"),
        lambda: nightly(sites[30, 20], out, *three, "--jobs", "1"),
        lambda: nightly(sites[15, 20], out, *six, "--jobs", "1"))
    for what, grown in [("sites, 20 to 40", more_sites), ("years, 15 to 30", more_years), ("pests, 3 to 6", more_pests)]:
        row(f"`nightly` with twice the {what}, cpu", ratios(grown, base, "cpu"), "<= 2", milliseconds(grown, "cpu"))


def main():
    compiler = subprocess.run(["c++", "--version"], capture_output=True, text=True, check=True).stdout.splitlines()[0]
    with open("/proc/cpuinfo", encoding="utf-8") as file:
        models = [line.split(":")[1].strip() for line in file if line.startswith("model name")]
    print(f"{len(os.sched_getaffinity(0))} processors ({models[0] if models else platform.machine()}), {compiler}, "
          f"Release, {time.strftime('%Y-%m-%d')}, load {os.getloadavg()[0]:.1f}\n")
    print("| what | median (range) | target | |")
    print("|---|---|---|---|", flush=True)
    kept = os.environ.get("BENCH_DATA")
    with tempfile.TemporaryDirectory() as made:
        data = pathlib.Path(kept or made)
        data.mkdir(exist_ok=True)
        parts = {"reading": [reading], "when": [when], "nightly": [nightly_writes, nightly_is_flat], "growth": [growth]}
        for part in PARTS:
            for measure in parts[part]:
                measure(data)
        shutil.rmtree(data / "out", ignore_errors=True)


if __name__ == "__main__":
    main()
