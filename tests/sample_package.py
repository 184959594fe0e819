#!/usr/bin/env python3
"""The sample site's package is what its command lines come to: the replayed logbook, the kept package, and the
logbook made of that package say the same in every table, and `check` finds nothing in the logbook made of it.
Only what is given anew each time may differ: names without a meaning (uid), when a line was typed, and the
digests of both.

  sample_package.py ROUNDBOOK SAMPLE_BOOK PACKAGE            compares
  UPDATE=1 sample_package.py ROUNDBOOK SAMPLE_BOOK PACKAGE   writes the package
"""
import csv
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

UID = re.compile(r"(?<![0-9a-f])[0-9a-f]{32}(?![0-9a-f])")
GIVEN_ANEW = {"recorded_at", "made_at", "digest"}


def tables(folder):
    """Each table's rows as written, with its uids numbered by where each first stands."""
    uids = {}
    number = lambda uid: uids.setdefault(uid.group(), f"uid {len(uids)}")
    all_tables = {}
    for path in sorted(folder.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            rows = list(csv.reader(file))
        hidden = {i for i, name in enumerate(rows[0]) if name in GIVEN_ANEW}
        all_tables[path.stem] = [
            ["" if row and i in hidden else UID.sub(number, cell) for i, cell in enumerate(line)]
            for row, line in enumerate(rows)]
    return all_tables


def differences(name, got, want):
    for table in sorted(got.keys() | want.keys()):
        one, other = got.get(table, []), want.get(table, [])
        for row, (a, b) in enumerate(zip(one, other)):
            if a != b:
                yield f"{table}.csv, row {row}: the lines give {b}, {name} has {a}"
                break
        else:
            if len(one) != len(other):
                yield f"{table}.csv: the lines give {len(other)} rows, {name} has {len(one)}"


def main():
    roundbook, sample, package = (pathlib.Path(p).resolve() for p in sys.argv[1:4])
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        env = {k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "UBSAN_", "LLVM_"))}
        env |= {"PATH": "/usr/bin:/bin", "HOME": name, "LC_ALL": "C.UTF-8", "ROUNDBOOK_BACKUPS": "off"}

        def run(book, *words):
            done = subprocess.run([roundbook, "--book", book, *words], env=env, stdout=subprocess.PIPE,
                                  stderr=subprocess.STDOUT, text=True)
            if done.returncode != 0:
                sys.exit(f"'{words[0]}' ended with {done.returncode}: {done.stdout}")

        shutil.copy(sample, folder / "typed.db")
        run(folder / "typed.db", "export", folder / "typed")
        if os.environ.get("UPDATE"):
            # The same rows as JSON lines are of no use here; `import` does not ask for them.
            (folder / "typed" / "logbook.jsonl").unlink()
            shutil.rmtree(package, ignore_errors=True)
            package.mkdir()
            for file in (folder / "typed").iterdir():
                shutil.copyfile(file, package / file.name)
        run(folder / "read.db", "import", package)
        run(folder / "read.db", "check")
        run(folder / "read.db", "export", folder / "read")
        typed = tables(folder / "typed")
        if not typed:
            sys.exit("the logbook gave no table")
        wrong = [*differences("the package", tables(package), typed),
                 *differences("the logbook made of it", tables(folder / "read"), typed)]
    for line in wrong:
        print(line)
    if wrong:
        sys.exit("sample-data/tern-hollow is not what sample-data/tern-hollow.txt comes to: "
                 "DEVELOPERS.md says how it is made again")


if __name__ == "__main__":
    main()
