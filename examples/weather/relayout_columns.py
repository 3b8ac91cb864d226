#!/usr/bin/env python3
"""Prints the days and temperatures of a published CSV as a plain daily CSV.

In:  a CSV with a header line; the columns are named on the command line, as they stand in the header (spaces around a
     name do not count). The date is one column, or three separated by commas: year, month, day.
Out: columns date,tmax_U,tmin_U with ISO dates, where U is the file's unit; values as published, except that float noise
     past the second decimal is rounded away; an empty cell where there is none.

usage: relayout_columns.py FILE UNIT DATE TMAX TMIN [FIRST_YEAR [DIVISOR]] > OUT
       relayout_columns.py USC00190120.csv c Year,month,day Tmax Tmin > amherst_ma_2000-2018.csv
DIVISOR is 10 for a file in tenths of a degree.
"""
import csv
import sys
from decimal import Decimal

MISSING = {"", "NA", "-9999"}


def value(text, divisor):
    text = text.strip()
    if text in MISSING:
        return ""
    number = (Decimal(text) / divisor).quantize(Decimal("0.01")).normalize()
    return f"{number:f}"


def main():
    if len(sys.argv) not in (6, 7, 8):
        sys.exit(__doc__)
    path, unit, date, tmax, tmin = sys.argv[1:6]
    first_year = int(sys.argv[6]) if len(sys.argv) > 6 else 0
    divisor = int(sys.argv[7]) if len(sys.argv) > 7 else 1
    print(f"date,tmax_{unit},tmin_{unit}")
    with open(path, encoding="utf-8", newline="") as file:
        rows = csv.reader(file)
        names = [name.strip() for name in next(rows)]
        when = [names.index(name) for name in date.split(",")]
        high, low = names.index(tmax), names.index(tmin)
        for row in rows:
            if len(when) == 3:
                year, month, day = (int(row[i]) for i in when)
            else:
                year, month, day = map(int, row[when[0]].split("-"))
            if year >= first_year:
                print(f"{year:04}-{month:02}-{day:02},{value(row[high], divisor)},{value(row[low], divisor)}")


if __name__ == "__main__":
    main()
