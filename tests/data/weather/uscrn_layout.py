#!/usr/bin/env python3
"""Lays the daily values of a Climate Reference Network station out as the daily01 text files have them.

usage: uscrn_layout.py uscrn_daily_2020_OH_Wooster_3_SSE.csv FIRST LAST >OUT

The CSV holds ten columns of a year. Fields that it lacks get the layout's own mark for no value. Field widths as in
NCEI's readme.txt of daily01 (from memory).
"""
import csv
import sys

WIDTHS = [5, 8, 6, 7, 7, 7, 7, 7, 7, 7, 8, 1] + [7] * 6 + [7] * 5 + [7] * 5


def line(row):
    def number(name, digits=1):
        return f"{float(row[name]):.{digits}f}"

    fields = [row["wban"], row["lst_date"].replace("-", ""), "-9.000", number("longitude", 2), number("latitude", 2)]
    fields += [number(f"t_daily_{name}") for name in ("max", "min", "mean", "avg")]
    fields += [number("p_daily_calc"), number("solarad_daily", 2), "U"]
    fields += ["-9999.0"] * 6 + ["-99.000"] * 5 + ["-9999.0"] * 5
    return " ".join(field.rjust(width) for field, width in zip(fields, WIDTHS, strict=True))


path, first, last = sys.argv[1:]
with open(path, newline="") as file:
    for row in csv.DictReader(file):
        if first <= row["lst_date"] <= last:
            print(line(row))
