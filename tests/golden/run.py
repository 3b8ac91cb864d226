#!/usr/bin/env python3
"""Runs the program on one case or all of them and compares every byte with what was approved.

usage: run.py BUDCLOCK [--approve] CASE...

A case is a folder here: `args` (one line, as typed in a shell, run from the project's top; {tmp} is a new folder, gone
afterwards, and called {tmp} in what is compared), optionally `stdin`, and the approved `out`, `err` and `status`. --approve writes what the program gives now; read the change before you
commit it.
"""
import pathlib
import shlex
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
TOP = HERE.parent.parent


def run(program, case):
    stdin = case / "stdin"
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(
            [program, *shlex.split((case / "args").read_text().replace("{tmp}", folder))],
            cwd=TOP,
            input=stdin.read_bytes() if stdin.exists() else b"",
            capture_output=True,
            env={"PATH": "/usr/bin:/bin", "TZ": "UTC"},
            timeout=60,
        )
    out, err = (text.replace(folder.encode(), b"{tmp}") for text in (done.stdout, done.stderr))
    return {"out": out, "err": err, "status": f"{done.returncode}\n".encode()}


def main():
    program, *rest = sys.argv[1:]
    approve = "--approve" in rest
    names = [name for name in rest if name != "--approve"]
    failed = 0
    for name in names or sorted(path.parent.name for path in HERE.glob("*/args")):
        case = HERE / name
        for part, got in run(str(pathlib.Path(program).resolve()), case).items():
            path = case / part
            want = path.read_bytes() if path.exists() else b""
            if got == want and (path.exists() or part == "err"):
                continue
            if approve:
                if got or part != "err":
                    path.write_bytes(got)
                else:
                    path.unlink(missing_ok=True)
                continue
            failed += 1
            print(f"{name}/{part} differs:\n--- approved\n{want.decode(errors='replace')}")
            print(f"+++ now\n{got.decode(errors='replace')}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
