#!/usr/bin/env python3
"""Runs a program and checks that what it prints stands in a document: a table that is shown must be what comes out.

usage: table_in_document.py DOCUMENT FIRST LAST PROGRAM ARGUMENT...
Of the output, the lines from the first one that begins with FIRST up to the next one that begins with LAST (and with
it) must follow each other in the document. Runs in the project's top."""
import pathlib
import subprocess
import sys

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
document, first, last, *command = sys.argv[1:]
done = subprocess.run(command, cwd=TOP, capture_output=True, text=True, check=True)
lines = done.stdout.splitlines()
start = next(i for i, line in enumerate(lines) if line.startswith(first))
end = next(i for i, line in enumerate(lines) if i >= start and line.startswith(last))
wanted = lines[start : end + 1]
if "\n".join(wanted) not in (TOP / document).read_text():
    print(f"{document} does not show what `{' '.join(command)}` prints:\n" + "\n".join(wanted))
    sys.exit(1)
