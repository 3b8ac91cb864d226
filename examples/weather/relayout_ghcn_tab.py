#!/usr/bin/env python3
"""Prints a headerless GHCN-Daily extract as a plain daily CSV.

In:  one line a day of four tab-separated, space-padded numbers: YYYYMMDD, tmax, tmin, precipitation; temperatures
     in tenths of a degree Celsius, -9999 where there is none.
Out: columns date,tmax_c,tmin_c; ISO dates; degrees Celsius with one decimal; an empty cell where there is none.

usage: relayout_ghcn_tab.py USC00339312.txt > wooster_oh_1985-2014.csv
"""
import sys


def degrees(tenths):
    value = int(tenths)
    if value == -9999:
        return ""
    sign = "-" if value < 0 else ""
    return f"{sign}{abs(value) // 10}.{abs(value) % 10}"


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: relayout_ghcn_tab.py FILE")
    print("date,tmax_c,tmin_c")
    with open(sys.argv[1], encoding="ascii") as lines:
        for number, line in enumerate(lines, start=1):
            fields = line.split("\t")
            if len(fields) != 4 or len(fields[0]) != 8:
                sys.exit(f"{sys.argv[1]}:{number}: expected YYYYMMDD, tmax, tmin, precipitation between tabs")
            date, tmax, tmin, _ = fields
            print(f"{date[:4]}-{date[4:6]}-{date[6:]},{degrees(tmax)},{degrees(tmin)}")


if __name__ == "__main__":
    main()
