#!/usr/bin/env python3
"""Checks that includes go one way: each folder uses only the folders below it, and outside libraries stay where they
belong. usage: include_graph.py [TOP]"""
import pathlib
import re
import sys

TOP = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ".").resolve()

# Each folder and what it may use; a folder may always use itself. Order is from the bottom up.
USES = {
    "core": [],
    "files": ["core"],
    "document": ["core"],
    "degree_day": ["core"],
    "weather": ["core", "document"],
    "rules": ["core", "document", "degree_day"],
    "sites": ["core", "document", "weather", "rules"],
    "journal": ["core", "files", "document", "weather", "rules", "sites"],
    "forecast": ["core", "weather", "degree_day", "rules", "sites", "journal"],
    "report": ["core", "document", "weather", "degree_day", "rules", "sites", "journal", "forecast"],
    "cli": ["core", "files", "weather", "degree_day", "rules", "sites", "journal", "forecast", "report"],
}
# Outside libraries and the folders that may include them.
ONLY_IN = {"CLI/": ["cli"], "nlohmann/": ["document", "report"], "zlib.h": ["weather"]}

INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^>"]+)[>"]')


def faults():
    order = list(USES)
    for folder, uses in USES.items():
        for used in uses:
            if order.index(used) >= order.index(folder):
                yield f"the table itself goes upwards: {folder} uses {used}"
    for root in (TOP / "src", TOP / "include" / "budclock"):
        for path in sorted(root.rglob("*.[ch]pp")):
            folder = path.relative_to(root).parts[0]
            for number, line in enumerate(path.read_text().splitlines(), 1):
                match = INCLUDE.match(line)
                if not match:
                    continue
                name = match.group(1)
                place = f"{path.relative_to(TOP)}:{number}"
                if name.startswith("budclock/"):
                    used = name.split("/")[1]
                    if used != folder and used not in USES[folder]:
                        yield f"{place}: {folder} must not use {used}"
                for library, folders in ONLY_IN.items():
                    if name.startswith(library) and folder not in folders:
                        yield f"{place}: {library} belongs in {', '.join(folders)} only"


found = list(faults())
print("\n".join(found) or "includes go one way")
sys.exit(1 if found else 0)
