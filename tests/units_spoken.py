#!/usr/bin/env python3
"""Whether each site is spoken to in its own units: no kg, L, m2 or kPa at a US site, no lb, gal, ft2 or psi at a metric one.

  units_spoken.py FILE...    dialogues (tests/dialogues/run.py)

A number with a unit of the other system is found in what a command printed, unless a command line of the same
dialogue has the same number with it: what a person typed is shown as it was typed. Left out are commands that ask for
the other system or print what a machine reads (--units, --json, --csv, --html, export, cat), help, and refusals. A content per
litre (mg/L), an electrical conductivity (dS/m) and a digester's loading (kg VS/m3/d) are read by everybody in one unit.
"""
import pathlib
import re
import sys

METRIC = r"kg|g|L|mL|m2|m3|ha|cm|mm|km|kPa|hPa|°C|litres?|metres?|kilograms?"
US = r"lb|lbs|oz|gal|ft2|ft3|yd3|in|ft|psi|°F|fl-oz|acres?|gallons?|pounds?|ounces?|inches|feet"
NUMBER = r"(\d[\d,]*(?:\.\d+)?)"
OF_OTHERS = {"us": re.compile(rf"(?<![\w.]){NUMBER} ?({METRIC})(?![\w/·])"),
             "metric": re.compile(rf"(?<![\w.]){NUMBER} ?({US})(?![\w/·])")}
FOR_MACHINES = re.compile(r"--(units|json|csv|html|help|version)\b|\b(export|cat|material|import|rule|sqlite3|python3|help)\b")
LOADING = re.compile(r"kg\s+VS")
# A sentence's own word and not a unit: "3 in the house", "of 5 in all".
NO_UNIT = re.compile(r"in (?=[a-z(])")


def spoken(path):
    """Each command of a dialogue with what it printed."""
    command, printed = None, []
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if line.startswith(("$ ", "# ", "@ ")):
            if command:
                yield command, printed
            command, printed = (line, []) if line.startswith("$ ") else (None, [])
        elif command:
            printed.append((number, line))
    if command:
        yield command, printed


def typed_in(text):
    """The numbers with a unit that stand on command lines, as "40kg"."""
    found = set()
    for one in OF_OTHERS.values():
        found |= {number.replace(",", "") + unit for number, unit in one.findall(text)}
    return found


def main():
    wrong = []
    looked_at = 0
    for path in map(pathlib.Path, sys.argv[1:]):
        text = path.read_text(encoding="utf-8")
        typed = typed_in("\n".join(line for line in text.splitlines() if line.startswith("$ ")))
        system = None
        for command, printed in spoken(path):
            new = re.search(r"\bnew\b.*--units[ =](us|metric)", command)
            if new:
                system = new[1]
            if system is None or FOR_MACHINES.search(command):
                continue
            if printed and printed[-1][1] == "[exit 2]":
                continue  # a refusal shows what can be typed, in either system
            for number, line in printed:
                looked_at += 1
                for found in OF_OTHERS[system].finditer(line):
                    unit_on = line[found.start(2):]
                    if NO_UNIT.match(unit_on) or LOADING.match(unit_on + " ") or found[1].replace(",", "") + found[2] in typed:
                        continue
                    wrong.append(f"{path}:{number}: {found[0]!r} at a {system} site: {line.strip()}")
    for one in wrong:
        print(one, file=sys.stderr)
    if looked_at == 0:
        print("no line was looked at", file=sys.stderr)
    sys.exit(1 if wrong or looked_at == 0 else 0)


if __name__ == "__main__":
    main()
