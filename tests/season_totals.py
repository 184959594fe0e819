#!/usr/bin/env python3
"""The season report says one thing in all its forms, and what it says is what the file holds: figures of the
terminal, CSV, JSON and HTML are compared with each other, and the sums with sums made by SQLite over the
logbook's tables.

  season_totals.py ROUNDBOOK SAMPLE_BOOK REPOSITORY
"""
import csv
import html.parser
import json
import os
import pathlib
import re
import sqlite3
import subprocess
import sys
import tempfile

NOW = "2026-10-19T08:00:00-07:00"
wrong = []


def check(what, got, want):
    close = (abs(got - want) <= 1e-9 * max(1, abs(want))
             if isinstance(got, (int, float)) and isinstance(want, (int, float)) else got == want)
    if not close:
        wrong.append(f"{what}: {got!r}, not {want!r}")


class Figures(html.parser.HTMLParser):
    """Every <data> of the page, in order: (key, of, value, shown)."""

    def __init__(self):
        super().__init__()
        self.found, self.open = [], None

    def handle_starttag(self, tag, attributes):
        if tag == "data":
            a = dict(attributes)
            self.open = [a["data-key"], a["data-of"], float(a["value"]), ""]

    def handle_data(self, text):
        if self.open:
            self.open[3] += text

    def handle_endtag(self, tag):
        if tag == "data":
            self.found.append(tuple(self.open))
            self.open = None


def json_figures(sections):
    for section in sections:
        yield from section["figures"]
        for table in section["tables"]:
            for row in table["rows"]:
                yield from (cell for cell in row if isinstance(cell, dict))


def safe(text):
    """As render/csv.h makes a cell safe for a spreadsheet."""
    return "'" + text if text[:1] in tuple("=+-@\t") else text


def main():
    roundbook, sample, repository = (pathlib.Path(p).resolve() for p in sys.argv[1:4])
    env = {**os.environ, "ROUNDBOOK_BOOK": str(sample), "ROUNDBOOK_NOW": NOW}

    def run(*words):
        return subprocess.run([roundbook, *words], env=env, check=True, capture_output=True).stdout.decode("utf-8")

    with tempfile.TemporaryDirectory() as folder:
        report = json.loads(run("season", "--json"))
        run("season", "--csv", folder)
        run("season", "--html", f"{folder}/season.html")
        with open(f"{folder}/report.csv", encoding="utf-8", newline="") as f:
            rows = list(csv.DictReader(f))
        page = Figures()
        page.feed(pathlib.Path(f"{folder}/season.html").read_text(encoding="utf-8"))
    terminal = " ".join(run("season", "--all").split())

    figures = list(json_figures(report["sections"]))
    in_json = [(f["key"], f["of"], f["si"], f["shown"]) for f in figures]
    in_csv = [(r["key"], r["of"], float(r["si"]), r["shown"]) for r in rows]
    check("figures in CSV", len(in_csv), len(in_json))
    check("figures in HTML", len(page.found), len(in_json))
    for one, in_row in zip(in_json, in_csv):
        check("CSV", in_row, (one[0], safe(one[1]), one[2], safe(one[3])))
    # The page has them by its chapters.
    for one, on_page in zip(sorted(in_json), sorted(page.found)):
        check("HTML", on_page, one)
    for f in figures:
        # The catalogue's figures and each batch's balance are appendices, which a terminal leaves to the others.
        appendix = f["key"].startswith("materials.") or (
            f["key"].startswith("balance.") and not f["of"].startswith("the site "))
        if not appendix and " ".join(f["shown"].split()) not in terminal:
            wrong.append(f"the terminal lacks {f['key']} of {f['of'] or 'the site'}: {f['shown']}")

    # What the file holds, by SQLite. Days are the site's own; days since 1970-01-01.
    density = {}
    with open(repository / "schema/material-figures.csv", encoding="utf-8", newline="") as f:
        density = {r["material"]: float(r["value"]) for r in csv.DictReader(f) if r["property"] == "bulk_density"}
    book = sqlite3.connect(f"file:{sample}?mode=ro", uri=True)
    density.update(book.execute("SELECT material, value FROM figure WHERE property = 'bulk_density'"))
    book.create_function("kg", 3, lambda material, dimension, amount:
                         amount if dimension == "mass" else
                         amount * density[material] / 1000 if dimension == "volume" and material in density else None)
    day_of = "CAST(julianday(?) - julianday('1970-01-01') AS INTEGER)"
    span = f"BETWEEN {day_of} AND {day_of}"
    dates = (report["from"], report["to"])
    check("from", dates, ("2026-01-01", "2026-10-19"))

    def ask(sql, *values):
        return book.execute(sql, values).fetchone()[0] or 0

    total = {f["key"]: f for f in report["sections"][0]["figures"] if f["key"] != "came.counted"}
    mass = f"SELECT sum(kg(material, dimension, amount)) FROM movement WHERE day {span} AND "
    # Water is told by itself: these sums leave it out.
    with open(repository / "schema/materials.csv", encoding="utf-8", newline="") as f:
        water = ", ".join(f"'{r['material']}'" for r in csv.DictReader(f) if r["group"] == "water")
    mass += f"material NOT IN ({water}) AND "
    check("brought", total["came.brought"]["si"], ask(mass + "from_batch IS NULL", *dates))
    check("taken", total["came.taken"]["si"], ask(mass + "to_batch IS NULL", *dates))
    check("carried", total["came.carried"]["si"],
          ask(mass + "from_batch IS NOT NULL AND to_batch IS NOT NULL", *dates))
    check("brought before", total["came.brought"]["before_si"],
          ask(mass + "from_batch IS NULL", "2025-01-01", "2025-10-19"))
    check("paid", total["came.paid"]["si"],
          ask(f"SELECT sum(paid_cents) / 100.0 FROM movement WHERE day {span}", *dates))
    check("readings", total["came.readings"]["si"],
          ask("SELECT count(*) FROM reading WHERE at BETWEEN strftime('%s', '2026-01-01T08:00:00Z')"
              " AND strftime('%s', '2026-10-19T15:00:00Z')"))
    eggs = [f for f in figures if f["key"] == "came.counted" and f["of"] == "eggs"]
    check("eggs", eggs[0]["si"], ask(f"SELECT sum(amount) FROM movement WHERE material = 'eggs' AND"
                                     f" to_batch IS NULL AND day {span}", *dates))
    by_material = dict(book.execute(
        f"SELECT material, sum(kg(material, dimension, amount)) FROM movement WHERE day {span}"
        " AND from_batch IS NULL GROUP BY material", dates))
    inputs = {f["of"]: f["si"] for f in figures if f["key"] == "inputs.mass"}
    check("input materials", sorted(inputs), sorted([*(m for m, kg in by_material.items() if kg), ""]))
    for material, kg in by_material.items():
        if kg:
            check(f"input of {material}", inputs[material], kg)
    check("all inputs", inputs[""], sum(kg for m, kg in by_material.items() if kg and f"'{m}'" not in water))
    read = {f["of"]: f["si"] for f in figures if f["key"] == "completeness.read"}
    for code, run_number, latest, days in book.execute(
            "SELECT code, run, run = (SELECT max(run) FROM batch AS c WHERE c.code = b.code),"
            " (SELECT count(DISTINCT day) FROM day_roll JOIN series AS s ON s.id = day_roll.series"
            f" WHERE s.batch = b.id AND day {span}) FROM batch AS b", dates):
        label = code if latest else f"{code}/{run_number}"
        if label in read:
            check(f"days read of {label}", read[label], days)
    check("batches", len(read) - 1, total["came.batches"]["si"])

    if not re.search(r"~[0-9]", terminal):
        wrong.append("nothing in the sample is marked as an estimate")
    print("\n".join(wrong) if wrong else f"{len(in_json)} figures say the same in four forms")
    sys.exit(1 if wrong or len(in_json) < 200 else 0)


if __name__ == "__main__":
    main()
