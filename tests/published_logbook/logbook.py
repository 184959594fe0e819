"""Drives the real roundbook as a person would: whole command lines, and what they answer.

Each script here is a ctest ("published: NAME"): it types published cases into a fresh logbook and holds
what comes back against the values that were printed with them. Usage of every script: NAME.py ROUNDBOOK
"""
import atexit
import json
import os
import pathlib
import subprocess
import sys
import tempfile


class Logbook:
    """A fresh logbook of its own, with its own clock. Times are UTC, so that an hour is an hour."""

    def __init__(self, roundbook, now, units="metric", zone="UTC"):
        folder = tempfile.TemporaryDirectory()
        atexit.register(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        self.roundbook = str(pathlib.Path(roundbook).resolve())
        self.now = now
        self.run("new", "--site", "X", "--zone", zone, "--units", units)

    def ask(self, *words):
        """Runs one command; its exit status and what it printed on both streams."""
        env = {"PATH": "/usr/bin:/bin", "HOME": str(self.folder), "TZ": "UTC", "LC_ALL": "C.UTF-8",
               "ROUNDBOOK_BOOK": str(self.folder / "site.db"), "ROUNDBOOK_WHO": "tester",
               "ROUNDBOOK_NOW": self.now,
               **{k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "UBSAN_", "LLVM_"))}}
        done = subprocess.run([self.roundbook, *map(str, words)], env=env, cwd=self.folder,
                              stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, timeout=120)
        return done.returncode, done.stdout.decode("utf-8")

    def run(self, *words, when=None):
        """A command that must be taken; what it printed, on one line."""
        line = [*words, *(["--when", when] if when else [])]
        status, text = self.ask(*line)
        if status != 0:
            sys.exit(f"not taken (exit {status}): roundbook {' '.join(map(str, line))}\n{text}")
        return " ".join(text.split())

    def readings(self, series, rows):
        """Many readings of one series (moment, value, unit) at one go, as a logger's file of JSON lines."""
        path = self.folder / "readings.jsonl"
        path.write_text("".join(json.dumps({"at": f"{at.replace(' ', 'T')}:00Z", "series": series,
                                            "value": value, "unit": unit}) + "\n" for at, value, unit in rows))
        self.run("import", path, "--yes")

    def json(self, *words):
        status, text = self.ask(*words, "--json")
        if status != 0:
            sys.exit(f"exit {status}: roundbook {' '.join(map(str, words))} --json\n{text}")
        return json.loads(text)

    def figures(self, code, *options):
        """The measures of a batch: key -> its SI value."""
        return {one["key"]: one["si"] for one in self.json("show", code, *options)["measures"]}

    def rules(self, code, *options):
        """What is found of a batch: rule -> the finding, the first of each."""
        found = {}
        for one in self.json("show", code, *options)["findings"]:
            found.setdefault(one["rule"], one)
        return found


class Checks:
    """Holds values against published ones; `done` says what failed."""

    def __init__(self):
        self.made = 0
        self.failed = []

    def that(self, is_so, what):
        self.made += 1
        if not is_so:
            self.failed.append(what)

    def near(self, value, expected, tolerance, what):
        self.that(value is not None and abs(value - expected) <= tolerance,
                  f"{what}: {value}, published {expected} (within {tolerance})")

    def has(self, text, words, what):
        self.that(words in text, f"{what}: no '{words}' in: {text}")

    def lacks(self, text, words, what):
        self.that(words not in text, f"{what}: '{words}' in: {text}")

    def done(self):
        for one in self.failed:
            print(one)
        print(f"{self.made - len(self.failed)} of {self.made} checks hold")
        sys.exit(1 if self.failed or not self.made else 0)
