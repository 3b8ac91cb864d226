#!/usr/bin/env python3
"""Runs `budclock check` on a folder of real records and holds it to a manifest.

usage: check_manifest.py BUDCLOCK MANIFEST FOLDER [--write]

The manifest has a row for each file: the options that it needs (none where the layout itself tells), the exit status,
the layout recognised, stations, first and last day of the first station. A file without a row, and a row without a
file, is a difference. --write makes the rows anew from what the program says now, keeping the options.
"""
import csv
import json
import pathlib
import shlex
import subprocess
import sys

COLUMNS = ["file", "options", "status", "layout", "stations", "first", "last", "faults"]


def look(program, folder, name, options):
    done = subprocess.run(
        [program, "check", str(folder / name), "--format", "json", *shlex.split(options)],
        capture_output=True,
        timeout=120,
    )
    row = {"file": name, "options": options, "status": str(done.returncode)}
    if not done.stdout:
        return row | {"layout": done.stderr.decode(errors="replace").strip()}
    seen = json.loads(done.stdout)["files"][0]
    stations = seen["stations"]
    faults = sum(problem["severity"] != "note" for problem in seen["problems"])
    return row | {
        "layout": seen["what"],
        "stations": str(len(stations)),
        "first": (stations[0]["first"] or "") if stations else "",
        "last": (stations[0]["last"] or "") if stations else "",
        "faults": str(faults),
    }


def main():
    program, manifest, folder, *rest = sys.argv[1:]
    folder = pathlib.Path(folder)
    with open(manifest, newline="") as table:
        wanted = {row["file"]: row for row in csv.DictReader(table)}
    names = sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())
    rows = [look(program, folder, name, wanted.get(name, {}).get("options", "")) for name in names]
    if "--write" in rest:
        with open(manifest, "w", newline="") as table:
            writer = csv.DictWriter(table, COLUMNS, lineterminator="\n", restval="")
            writer.writeheader()
            writer.writerows(rows)
        return 0
    differences = [name for name in wanted if name not in names]
    for name in differences:
        print(f"{name}: not in {folder}")
    for row in rows:
        want = wanted.get(row["file"])
        if want is None:
            print(f"{row['file']}: no row in the manifest")
            differences.append(row["file"])
            continue
        for column in COLUMNS:
            if want[column] != row.get(column, ""):
                print(f"{row['file']}: {column}: wanted {want[column]!r}, got {row.get(column, '')!r}")
                differences.append(row["file"])
    print(f"{len(rows)} files, {len(set(differences))} differ")
    return 1 if differences else 0


if __name__ == "__main__":
    sys.exit(main())
