#!/usr/bin/env python3
"""Checks that JSON files keep to a schema, and that the schema is one. usage: schema_accepts.py SCHEMA FILE..."""
import json
import sys

import jsonschema

schema = json.load(open(sys.argv[1]))
jsonschema.Draft202012Validator.check_schema(schema)
faults = [
    f"{path}: {'/'.join(map(str, fault.absolute_path))}: {fault.message}"
    for path in sys.argv[2:]
    for fault in jsonschema.Draft202012Validator(schema).iter_errors(json.load(open(path)))
]
print("\n".join(faults) or f"{len(sys.argv) - 2} accepted")
sys.exit(1 if faults else 0)
