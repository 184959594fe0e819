#!/usr/bin/env python3
"""A month of mornings, typed as people type, and whether what is printed stays short enough to be read.

  month.py ROUNDBOOK [FILE...]   (without a file: all of months/*.txt)

A file holds command lines without the program's name, oldest first. "@ 2026-10-05 07:20" sets the clock for
what follows, in the site's zone. "today" alone on its line is a morning: it is printed at each width. "? ..."
is a line that is refused; it stays in, for refusals are part of a real month. "# ..." is a remark.

Lines are typed at the first width into a logbook that lasts for the file. Answers are those of log, add, take,
start and end that were taken; the limits hold for those of the month, from the first morning on. What was typed
before it, the past of a site that has just been founded, is counted apart and has no limit.

This is a test of form: a morning that does not fit a terminal, or a line that is wider, fails it; a mean that is
above what is wanted is said. The limits are goals of our own for a person with ten minutes and a phone, no standard;
the two sites are invented, and so is each reading.
"""
import json
import math
import pathlib
import re
import shlex
import statistics
import subprocess
import sys
import tempfile
import unicodedata
import zoneinfo
from datetime import datetime

WIDTHS = (80, 40)
MORNING_MEAN_LINES = 18
MORNING_MEAN_WORDS = 140
MORNING_LONGEST_LINES = 24
ANSWER_MEDIAN_WORDS = 20
ANSWER_NINETIETH_WORDS = 60  # it stays below
FIRST_LINES = 10             # what wants hands that day is among these

ENTRIES = ("log", "add", "take", "start", "end")
ANSI = re.compile(r"\x1b\[[0-9;?]*[ -/]*[@-~]|\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)")
NUMBERED = re.compile(r"^ *(\d+) +\S")


def width(line):
    """The columns that a line takes on a terminal."""
    return sum(0 if unicodedata.combining(c) or unicodedata.category(c) == "Cf"
               else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in line)


def plain(text):
    return ANSI.sub("", text)


def words(text):
    return len(text.split())


def ninetieth(values):
    """By nearest rank."""
    return sorted(values)[math.ceil(0.9 * len(values)) - 1] if values else 0


def mean(values):
    return sum(values) / len(values) if values else 0.0


def share(part, whole):
    return f"{100 * part / whole:.0f} %" if whole else "-"


class Morning:
    """What one morning printed at one width, and where its jobs stand in it."""

    def __init__(self, text):
        lines = text.rstrip("\n").split("\n")
        self.lines = len(lines)
        self.words = words(text)
        self.at = {}  # a job's number, and the line it begins on
        for index, line in enumerate(lines):
            numbered = NUMBERED.match(line)
            # Numbers go up by one, which no line that goes on from the one above does.
            if numbered and int(numbered[1]) == len(self.at) + 1:
                self.at[int(numbered[1])] = index


class Month:
    def __init__(self, roundbook, path, folder):
        self.roundbook = roundbook
        self.path = path
        self.env = {
            "PATH": "/usr/bin:/bin", "HOME": folder, "TZ": "UTC", "LC_ALL": "C.UTF-8",
            "ROUNDBOOK_BOOK": f"{folder}/site.db", "ROUNDBOOK_WHO": "tester", "ROUNDBOOK_BACKUPS": "off",
        }
        self.folder = folder
        self.zone = None
        self.mornings = {columns: [] for columns in WIDTHS}
        self.answers = []
        self.before = []  # answers before the first morning
        self.refusals = 0
        self.jobs = 0
        self.new = 0
        self.stood = 0
        self.yesterday = set()
        self.wrong = []
        self.longest_answer = ""

    def run(self, arguments, columns):
        done = subprocess.run([self.roundbook, *arguments], cwd=self.folder,
                              env={**self.env, "COLUMNS": str(columns)}, stdin=subprocess.DEVNULL,
                              capture_output=True, timeout=120)
        out = plain(done.stdout.decode("utf-8", "backslashreplace"))
        error = plain(done.stderr.decode("utf-8", "backslashreplace"))
        return done.returncode, out, error

    def look_for_wide(self, number, text, columns):
        for line in text.split("\n"):
            if width(line) > columns:
                self.wrong.append(f"{self.path.name}:{number}: {width(line)} columns of {columns}: {line}")

    def morning(self, number):
        for columns in WIDTHS:
            code, out, error = self.run(["today"], columns)
            if code != 0:
                self.wrong.append(f"{self.path.name}:{number}: today: exit {code}: {error.strip()}")
                return
            self.look_for_wide(number, out, columns)
            self.mornings[columns].append(Morning(out))
        code, out, error = self.run(["today", "--json"], WIDTHS[0])
        if code != 0:
            self.wrong.append(f"{self.path.name}:{number}: today --json: exit {code}: {error.strip()}")
            return
        jobs = {}
        for finding in json.loads(out)["findings"]:
            if finding.get("job") is not None:
                jobs.setdefault(finding["job"], []).append(finding)
        for columns in WIDTHS:
            self.mornings[columns][-1].jobs = len(jobs)
        today = set()
        for findings in jobs.values():
            keys = {(finding["batch"], finding["rule"]) for finding in findings}
            today |= keys
            self.new += any(finding["new"] for finding in findings)
            self.stood += bool(keys & self.yesterday)
        self.jobs += len(jobs)
        self.yesterday = today

    def type(self, number, line):
        if line.startswith("@ "):
            moment = datetime.strptime(line[2:].strip(), "%Y-%m-%d %H:%M")
            self.env["ROUNDBOOK_NOW"] = moment.replace(tzinfo=self.zone or zoneinfo.ZoneInfo("UTC")).isoformat()
            return
        if line == "today":
            self.morning(number)
            return
        refused = line.startswith("? ")
        arguments = shlex.split(line[2:] if refused else line)
        if arguments[0] == "new":
            self.zone = zoneinfo.ZoneInfo(arguments[arguments.index("--zone") + 1])
        code, out, error = self.run(arguments, WIDTHS[0])
        self.look_for_wide(number, out + "\n" + error, WIDTHS[0])
        if code not in (0, 2):
            self.wrong.append(f"{self.path.name}:{number}: exit {code}: {line}\n  {error.strip()}")
        elif code == 2:
            self.refusals += 1
            if not refused:
                self.wrong.append(f"{self.path.name}:{number}: refused: {line}\n  {error.strip()}")
        elif refused:
            self.wrong.append(f"{self.path.name}:{number}: taken, and marked as refused: {line}")
        if code == 0 and arguments[0] in ENTRIES:
            of_the_month = bool(self.mornings[WIDTHS[0]])
            (self.answers if of_the_month else self.before).append(words(out))
            if of_the_month and words(out) >= max(self.answers):
                self.longest_answer = f"line {number}: {line}"

    def report(self):
        print(f"{self.path.name}: {len(self.mornings[WIDTHS[0]])} mornings")
        for columns in WIDTHS:
            mornings = self.mornings[columns]
            if not mornings:
                self.wrong.append(f"{self.path.name}: no morning")
                return
            lines = [m.lines for m in mornings]
            count = [m.words for m in mornings]
            early = sum(sum(1 for index in m.at.values() if index < FIRST_LINES) for m in mornings)
            print(f"  today at {columns}: lines mean {mean(lines):.1f}, longest {max(lines)}; "
                  f"words mean {mean(count):.0f}, longest {max(count)}; numbered lines mean "
                  f"{mean([len(m.at) for m in mornings]):.1f}; in the first {FIRST_LINES} lines "
                  f"{share(early, sum(len(m.at) for m in mornings))} of them, "
                  f"{share(early, self.jobs)} of all jobs")
            if columns == WIDTHS[0]:  # on a phone the longest counts
                self.goal(f"at {columns}, lines mean", mean(lines), mean(lines) <= MORNING_MEAN_LINES, MORNING_MEAN_LINES)
                self.goal(f"at {columns}, words mean", mean(count), mean(count) <= MORNING_MEAN_WORDS, MORNING_MEAN_WORDS)
            self.limit(f"at {columns}, longest, lines", max(lines), max(lines) <= MORNING_LONGEST_LINES,
                       MORNING_LONGEST_LINES)
        print(f"  jobs a morning: mean {self.jobs / len(self.mornings[WIDTHS[0]]):.1f}; new "
              f"{share(self.new, self.jobs)}; stood the morning before {share(self.stood, self.jobs)}")
        for name, answers in (("answers", self.answers), ("answers before the month", self.before)):
            if answers:
                print(f"  {name}: {len(answers)}; words median {statistics.median(answers):.0f}, ninetieth "
                      f"percentile {ninetieth(answers)}, longest {max(answers)}"
                      + (f" ({self.longest_answer})" if answers is self.answers else ""))
        if self.answers:
            median = statistics.median(self.answers)
            self.goal("answers, words median", median, median <= ANSWER_MEDIAN_WORDS, ANSWER_MEDIAN_WORDS)
            self.goal("answers, words, ninetieth percentile", ninetieth(self.answers),
                       ninetieth(self.answers) < ANSWER_NINETIETH_WORDS, f"below {ANSWER_NINETIETH_WORDS}")
        print(f"  refusals: {self.refusals}")

    def goal(self, what, value, kept, limit):
        if not kept:
            print(f"  goal missed: {what}: {value:.1f}, wanted {limit}")

    def limit(self, what, value, kept, limit):
        if not kept:
            self.wrong.append(f"{self.path.name}: {what}: {value:.1f}, limit {limit}")


def main():
    roundbook = str(pathlib.Path(sys.argv[1]).resolve())
    paths = [pathlib.Path(name) for name in sys.argv[2:]]
    if not paths:
        paths = sorted((pathlib.Path(__file__).resolve().parent / "months").glob("*.txt"))
    wrong = []
    for path in paths:
        with tempfile.TemporaryDirectory() as folder:
            month = Month(roundbook, path, folder)
            for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
                if line.strip() and not line.startswith("#"):
                    month.type(number, line.strip())
            month.report()
            wrong += month.wrong
    for line in wrong:
        print(line, file=sys.stderr)
    sys.exit(1 if wrong or not paths else 0)


if __name__ == "__main__":
    main()
