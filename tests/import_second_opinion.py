#!/usr/bin/env python3
"""A second opinion on `import`: files that Python's csv module (RFC 4180) writes from random readings, with
quotes, line breaks in remarks, delimiters, decimal commas and encodings, must arrive as Python has them; times
by Python's zoneinfo.

  import_second_opinion.py ROUNDBOOK
"""
import contextlib
import csv
import datetime
import io
import os
import pathlib
import random
import sqlite3
import subprocess
import sys
import tempfile
import zoneinfo

ZONE = zoneinfo.ZoneInfo("America/Los_Angeles")
REMARKS = ["", "plain", "a, b", "a; b", 'he said "hot"', "two\nlines", "tab\there", "½ bucket", '"']
FORMS = {"year-first": "%Y-%m-%d %H:%M:%S", "day-first": "%d/%m/%Y %H:%M:%S", "month-first": "%m/%d/%Y %I:%M:%S %p"}


def main():
    roundbook = pathlib.Path(sys.argv[1]).resolve()
    chance = random.Random(8)
    rows = 0
    with tempfile.TemporaryDirectory() as folder:
        env = {**os.environ, "ROUNDBOOK_WHO": "tester",
               "ROUNDBOOK_NOW": "2027-05-03T07:15:00-07:00"}

        def run(*words):
            done = subprocess.run([roundbook, *words], env=env, capture_output=True, text=True, stdin=subprocess.DEVNULL)
            if done.returncode != 0:
                sys.exit(f"{words}: {done.stdout}{done.stderr}")

        for trial in range(40):
            env["ROUNDBOOK_BOOK"] = f"{folder}/{trial}.db"
            run("new", "--site", "X", "--zone", ZONE.key, "--units", "us")
            run("start", "pile", "heap-1", "--when", "2026-01-01")
            delimiter, decimal = chance.choice([(",", "."), (";", ","), (";", "."), ("\t", ","), ("\t", ".")])
            order = chance.choice(list(FORMS))
            encoding = chance.choice(["utf-8", "utf-8-sig", "utf-16", "cp1252"])
            at = datetime.datetime(2026, 1, 2, tzinfo=datetime.timezone.utc)
            expected = {}
            text = io.StringIO()
            table = csv.writer(text, delimiter=delimiter, lineterminator=chance.choice(["\r\n", "\n"]))
            table.writerow(["remark", "when", "core (°C)"])
            for _ in range(chance.randint(5, 400)):
                at += datetime.timedelta(seconds=chance.randint(60, 100_000))
                value = round(chance.uniform(40, 60), 2)
                local = at.astimezone(ZONE).replace(tzinfo=None)
                table.writerow([chance.choice(REMARKS), local.strftime(FORMS[order]), str(value).replace(".", decimal)])
                # In the doubled hour a lone time is the first, in Python (fold=0) as here.
                second = local.replace(tzinfo=ZONE)
                expected[int(second.timestamp())] = value
            path = pathlib.Path(folder, "file.csv")
            path.write_bytes(text.getvalue().encode(encoding))
            run("import", str(path), "core (°C)=heap-1.core", "when=time", "--dates", order, "--yes")
            with contextlib.closing(sqlite3.connect(env["ROUNDBOOK_BOOK"])) as book:
                there = dict(book.execute("SELECT at, value FROM reading"))
                rolled = book.execute("SELECT (SELECT coalesce(sum(n), 0) FROM day_roll) +"
                                      " (SELECT coalesce(sum(n), 0) FROM day_mark)").fetchone()[0]
            if there != expected or rolled != len(expected):
                sys.exit(f"trial {trial} ({delimiter!r} {decimal} {order} {encoding}): {len(expected)} readings were "
                         f"written, {len(there)} arrived, {len(set(there.items()) ^ set(expected.items()))} differ")
            rows += len(expected)
    print(f"{rows} readings in 40 files arrived as Python has them")


if __name__ == "__main__":
    main()
