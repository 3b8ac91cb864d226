#!/usr/bin/env python3
"""Makes the two extracts beside it from the Harvard Forest files; see ORIGIN.md.
usage: extract_harvard_forest.py hf003-03-spring.csv DAILY_1964_2002.csv DAILY_2001_ON.csv OUTDIR"""
import collections
import csv
import datetime
import pathlib
import statistics
import sys

spring, old_weather, new_weather, out = sys.argv[1:]
FIRST, LAST = "1990-01-01", "2014-12-31"


def number(text):
    return None if text in ("", "NA") else float(text)


def visits():
    """species -> year -> day -> tree -> percent of buds that have broken; a tree's line read once."""
    seen = collections.defaultdict(lambda: collections.defaultdict(lambda: collections.defaultdict(dict)))
    for row in csv.DictReader(open(spring, newline="")):
        percent = number(row["bbrk"])
        if percent is not None:
            seen[row["species" if "species" in row else "tree.id"][:4]][int(row["date"][:4])][row["date"]][
                row["tree.id"]] = percent
    return seen


def bounds(days):
    """The last visit on which fewer than half the marked trees had half their buds broken, and the first after it.
    A tree counts as broken from its first such visit on; one not read on a day keeps its last state."""
    broken, known = set(), set()
    last_not = None
    for day in sorted(days):
        for tree, percent in days[day].items():
            known.add(tree)
            if percent >= 50:
                broken.add(tree)
        if 2 * len(broken) >= len(known):
            return last_not, day
        last_not = day
    return last_not, None


rows = []
for species, years in sorted(visits().items()):
    for year, days in sorted(years.items()):
        last_not, first = bounds(days)
        if last_not and first:
            rows.append((year, species, last_not, first))
years_of = collections.Counter(species for _, species, _, _ in rows)
kept = [row for row in rows if years_of[row[1]] >= 23 or row[1] == "TSCA"]
with open(pathlib.Path(out) / "harvard_forest_bud_break_1990-2014.csv", "w", newline="") as file:
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(["year", "species", "last_visit_before", "first_visit_after"])
    writer.writerows(kept)

days = {}
for path in (old_weather, new_weather):  # the newer station takes over where it begins
    for row in csv.DictReader(open(path, newline="")):
        tmax, tmin = number(row["airtmax"]), number(row["airtmin"])
        if FIRST <= row["date"] <= LAST and (tmax is not None or tmin is not None):
            days[row["date"]] = (row["airtmax"].replace("NA", ""), row["airtmin"].replace("NA", ""))
with open(pathlib.Path(out) / "harvard_forest_weather_1990-2014.csv", "w", newline="") as file:
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(["date", "tmax_c", "tmin_c"])
    for day in sorted(days):
        writer.writerow([day, *days[day]])
missing = (datetime.date.fromisoformat(LAST) - datetime.date.fromisoformat(FIRST)).days + 1 - len(days)
widths = [(datetime.date.fromisoformat(b) - datetime.date.fromisoformat(a)).days for _, _, a, b in kept]
print(f"{len(kept)} species-years, interval median {statistics.median(widths)} days; {missing} days without weather")
print({species: years_of[species] for species in sorted({row[1] for row in kept})})
print("others:", {s: n for s, n in years_of.items() if n < 23 and s != "TSCA"})
