#!/usr/bin/env python3
"""Checks that the JSON Schema of sites files and the program agree on sound and spoiled files.

Spoils every member of a sound sites file in turn (deleted, misspelt, retyped, out of range, an unknown word) and asks
the program, python3-jsonschema and, with --ajv FOLDER (where `npm install ajv` was run), ajv. A key given twice is no
matter for a schema: JSON readers keep one of them.

usage: sites_schema_agrees.py CHECK_SITES SCHEMA SITES_JSON [--ajv FOLDER]
CHECK_SITES prints, for each file named on its command line, "ok" or "bad".
"""
import copy
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

AJV = """
const Ajv = require(process.argv[2] + '/node_modules/ajv/dist/2020');
const fs = require('fs');
const check = new Ajv({allErrors: false}).compile(JSON.parse(fs.readFileSync(process.argv[3])));
for (const name of process.argv.slice(4)) console.log(check(JSON.parse(fs.readFileSync(name))) ? 'ok' : 'bad');
"""


def paths(node, path=()):
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, value in items:
        yield path + (key,)
        yield from paths(value, path + (key,))


def spoiled(sound, path):
    """Each way to spoil the value at `path`."""
    def changed(change):
        root = copy.deepcopy(sound)
        parent = root
        for key in path[:-1]:
            parent = parent[key]
        change(parent, path[-1])
        return root

    def replaced(value):
        return changed(lambda parent, key: parent.__setitem__(key, value))

    parent = sound
    for key in path:
        value, parent = parent[key], parent[key]
    yield "deleted", changed(lambda parent, key: parent.pop(key))
    for other in (None, True, 5, "x", "", " ", [], {}, [5], -99999, 99999, "a\x1bb", " x", "é"):
        yield f"now {other!r}", replaced(other)
    if isinstance(value, str):
        yield "misspelt word", replaced("q" + value)
    if isinstance(path[-1], str):
        yield "misspelt key", changed(lambda parent, key: parent.__setitem__("q" + key, parent.pop(key)))


def main():
    program, schema_path, sites_path = sys.argv[1:4]
    schema = json.loads(pathlib.Path(schema_path).read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    sound = json.loads(pathlib.Path(sites_path).read_text())
    cases = [("sound", sound)]
    for path in paths(sound):
        cases += [(f"{'/'.join(map(str, path))} {how}", case) for how, case in spoiled(sound, path)]

    with tempfile.TemporaryDirectory() as folder:
        files = []
        for number, (_, case) in enumerate(cases):
            files.append(f"{folder}/{number}.json")
            pathlib.Path(files[-1]).write_text(json.dumps(case))
        verdicts = {
            "program": subprocess.run([program, *files], capture_output=True, text=True, check=True).stdout.split(),
            "jsonschema": ["ok" if validator.is_valid(case) else "bad" for _, case in cases],
        }
        if "--ajv" in sys.argv:
            script = pathlib.Path(folder) / "ajv.js"
            script.write_text(AJV)
            ajv = sys.argv[sys.argv.index("--ajv") + 1]
            run = subprocess.run(["node", script, pathlib.Path(ajv).resolve(), schema_path, *files],
                                 capture_output=True, text=True, check=True)
            verdicts["ajv"] = run.stdout.split()

    differing = 0
    for number, (name, case) in enumerate(cases):
        said = {who: verdict[number] for who, verdict in verdicts.items()}
        # A schema cannot know the pests; nor that names must differ.
        beyond = "/pests/" in name or name.split(" ")[0].endswith("/name")
        if len(set(said.values())) > 1 and not (beyond and said["program"] == "bad"):
            differing += 1
            print(name, said)
    bad = verdicts["program"].count("bad")
    print(f"{len(cases)} files, {bad} bad by the program, {differing} on which {', '.join(verdicts)} differ")
    sys.exit(1 if differing or bad == 0 or verdicts["program"][0] != "ok" else 0)


if __name__ == "__main__":
    main()
