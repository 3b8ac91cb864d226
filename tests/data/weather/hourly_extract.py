#!/usr/bin/env python3
"""Prints a year of ten-minute temperatures as one row a day.

In:  columns when ("2015-01-01 00:10:00") and temperature (degrees Celsius, two decimals), any others after them.
Out: date, then the 144 readings of that day in tenths of a degree Celsius.

usage: hourly_extract.py macleish_whately_2015_10min.csv > whately_ma_2015_10min.csv
"""
import sys


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: hourly_extract.py FILE")
    days = {}
    with open(sys.argv[1], encoding="ascii") as lines:
        next(lines)
        for line in lines:
            when, temperature = line.split(",")[:2]
            days.setdefault(when[:10], []).append(round(float(temperature) * 10))
    print("date," + ",".join(f"{m // 60:02}:{m % 60:02}" for m in range(0, 1440, 10)))
    for day, readings in sorted(days.items()):
        print(day + "," + ",".join(map(str, readings)))


if __name__ == "__main__":
    main()
