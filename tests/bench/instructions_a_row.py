#!/usr/bin/env python3
"""Fails when a row of weather costs more instructions than it should; they do not depend on how busy a machine is.

usage: instructions_a_row.py BUDCLOCK RECORD MOST

Sums the whole RECORD and its first 2,000 rows under callgrind; the difference is the cost of the rows between.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

FEW = 2001  # lines, the header among them; more than the rows that are looked at before reading


def instructions(budclock, weather):
    done = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", budclock, "tally",
                           "--weather", str(weather), "--lower", "50F", "--first-at", "200,500,1000", "--method",
                           "average,single-sine", "--keep-doubtful", "--jobs", "1"],
                          capture_output=True, text=True, check=True)
    return int(re.search(r"refs:\s+([0-9,]+)", done.stderr).group(1).replace(",", ""))


def main():
    budclock, record, most = sys.argv[1], pathlib.Path(sys.argv[2]), int(sys.argv[3])
    lines = record.read_text(encoding="utf-8").splitlines(keepends=True)
    with tempfile.TemporaryDirectory() as folder:
        start = pathlib.Path(folder) / "start.csv"
        start.write_text("".join(lines[:FEW]), encoding="utf-8")
        a_row = (instructions(budclock, record) - instructions(budclock, start)) / (len(lines) - FEW)
    print(f"{a_row:.0f} instructions a row, {most} at most")
    return 0 if a_row <= most else 1


if __name__ == "__main__":
    sys.exit(main())
