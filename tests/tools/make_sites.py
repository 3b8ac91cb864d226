#!/usr/bin/env python3
"""Makes a practice of invented sites over the real records of examples/weather, a share of them poisoned.

usage: make_sites.py FOLDER SITES PERCENT

Writes FOLDER/all.json (a site a line), FOLDER/healthy.json (the same without the poisoned ones), FOLDER/poisoned.csv
(name, way, line of all.json) and the poisoned weather files. The same arguments give the same bytes. Poison comes in
ten ways, in turn.
"""
import csv
import gzip
import json
import pathlib
import random
import sys

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
RECORDS = [  # record, latitude, longitude, plants
    ("wooster_oh_1985-2014.csv", 40.78, -81.92, ["boxwood hedge", "hackberry", "Norway spruce"]),
    ("greer_sc_1985-2012.csv", 34.91, -82.21, ["boxwood parterre", "pecan", "Carolina hemlock"]),
    ("ithaca_ny_2000-2018.csv", 42.45, -76.45, ["eastern hemlock", "white pine", "grapevine"]),
    ("amherst_ma_2000-2018.csv", 42.39, -72.54, ["boxwood", "eastern hemlock", "Norway spruce"]),
    ("cornwall_vt_2000-2018.csv", 43.96, -73.21, ["balsam fir", "blue spruce", "white pine"]),
    ("state_college_pa_2000-2018.csv", 40.79, -77.87, ["Douglas-fir", "blue spruce", "hickory"]),
    ("milwaukee_wi_1997-2026.csv", 42.95, -87.9, ["boxwood", "coneflower bed", "hackberry street trees"]),
    ("front_royal_va_2001-2018.csv", 38.89, -78.14, ["eastern hemlock", "grape", "boxwood"]),
]
LINES = (TOP / "examples" / "weather" / RECORDS[0][0]).read_text().splitlines(keepends=True)


def set_files(site, name):
    site["weather"] = {"sources": [{"files": [name]}]}


def weather_file(write):
    """A way of poisoning the file of a site: `write` makes its bytes."""

    def poison(site, path):
        path.write_bytes(write())
        set_files(site, path.name)

    return poison


def missing_file(site, path):
    set_files(site, path.name)


def broken_number(site, path):
    site["place"]["latitude"] = "forty"


def latitude_out_of_range(site, path):
    site["place"]["latitude"] = 140.78


def unknown_key(site, path):
    site["elevaton_m"] = 300


def rows(count):
    return "".join(LINES[:count]).encode()


def bad_dates():
    header = next(line for line in LINES if not line.startswith("#"))
    return (header + "".join(f"2012-13-{day:02},54.0,31.0\n" for day in range(1, 29))).encode()


WAYS = {
    "missing file": missing_file,
    "broken number": broken_number,
    "empty file": weather_file(lambda: b""),
    "header only": weather_file(lambda: b"date,tmax_f,tmin_f\n"),
    "no unit": weather_file(lambda: b"date,tmax,tmin\n" + b"".join(b"2012-01-%02d,41,25\n" % d for d in range(1, 31))),
    "binary": weather_file(lambda: random.Random(7).randbytes(4096)),
    "bad dates": weather_file(bad_dates),
    "cut off gzip": weather_file(lambda: gzip.compress(rows(4000), mtime=0)[:5000]),
    "latitude out of range": latitude_out_of_range,
    "unknown key": unknown_key,
}


def make_site(number):
    record, latitude, longitude, plants = RECORDS[number % len(RECORDS)]
    site = {"name": f"Invented site {number:05}", "place": {"latitude": latitude, "longitude": longitude}}
    set_files(site, str(TOP / "examples" / "weather" / record))
    return site | {"plants": plants}


def main():
    folder, count, percent = pathlib.Path(sys.argv[1]), int(sys.argv[2]), float(sys.argv[3])
    folder.mkdir(parents=True, exist_ok=True)
    poisoned = set(random.Random(1).sample(range(count), round(count * percent / 100)))
    sites, ways = [], []
    for number in range(count):
        site = make_site(number)
        if number in poisoned:
            way = list(WAYS)[len(ways) % len(WAYS)]
            ways.append((site["name"], way, number + 2))  # the first line of the file is a bracket
            WAYS[way](site, folder / f"poison_{number:05}.csv")
        sites.append(site)

    def write(name, chosen):
        lines = ",\n".join(json.dumps(site) for site in chosen)
        (folder / name).write_text(f'{{"schema": "budclock/sites/1", "sites": [\n{lines}\n]}}\n')

    write("all.json", sites)
    write("healthy.json", [site for number, site in enumerate(sites) if number not in poisoned])
    with open(folder / "poisoned.csv", "w", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows([("name", "way", "line"), *ways])


main()
