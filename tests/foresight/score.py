#!/usr/bin/env python3
"""How well the program foresees real piles, and the widths its intervals start with.

    score.py ROUNDBOOK FILE...            scores the piles of the files, each as the first of its site
    score.py ROUNDBOOK FILE... --held-out the same, each with the figures and the widths that the other piles give
                                          (some minutes: every figure of FIGURES is tried with every other)
    score.py ROUNDBOOK FILE... --widths   the widths that all of them give: pile.foresee.width.1 to 7
    --check FORESEEN                      fails where that is worse than naive or its interval holds under 70 % or
                                          over 95 % of them ("temperature", "cooled")

A file has the columns pile,series,when,what,value: `pile` groups the series of one pile (each pile counts the
same, however many probes it had), `when` is YYYY-MM-DD HH:MM, `what` is core or air (value in degrees Celsius)
or turned. What may be shipped is in tests/data/piles; a series whose owner states no licence is scored where it
lies, by its path.
"""
import argparse
import csv
import itertools
import json
import pathlib
import sys

sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "published_logbook"))
from logbook import Logbook  # noqa: E402

AHEAD = range(1, 8)
# Widths that are tried, shares of the room there is.
GRID = [round(0.03 * 1.22**i, 3) for i in range(13)]
# What else of the method is set by real piles: pile.foresee.NAME, with the values that are tried.
FIGURES = {
    "cooling": ["0.02", "0.03", "0.05"],
    "trend": ["0.25", "0.4", "0.55"],
    "trend_left": ["0.4", "0.6"],
    "warming": ["0.08", "0.12", "0.18"],
    "warming_to": ["55C", "60C"],
}


def series_of(paths):
    """(pile, series) -> rows, in the order of the files."""
    found = {}
    for path in paths:
        with open(path, encoding="utf-8", newline="") as f:
            for row in csv.DictReader(line for line in f if not line.startswith("#")):
                found.setdefault((row["pile"], row["series"]), []).append(row)
    return found


class Scored:
    """One series in a logbook of its own: scored at any widths."""

    def __init__(self, roundbook, rows):
        moments = sorted(row["when"] for row in rows)
        self.figures = {}
        self.book = Logbook(roundbook, moments[-1].replace(" ", "T") + ":59Z")
        self.book.run("start", "pile", "heap-1", when=moments[0])
        for what in ("core", "air"):
            read = [(row["when"], float(row["value"]), "C") for row in rows if row["what"] == what]
            if read:
                self.book.readings(f"heap-1.{what}", read)
        for row in rows:
            if row["what"] == "turned":
                self.book.run("log", "heap-1", "turned", "--sure", when=row["when"])
        self.book.run("end", "heap-1", "--sure")

    def at(self, widths=None, figures=None):
        """(what, days ahead) -> its row of list --foresight."""
        for ahead, width in (widths or {}).items():
            self.book.run("rule", f"pile.foresee.width.{ahead}", width)
        for name, value in (figures or {}).items():
            if self.figures.get(name) != value:
                self.book.run("rule", f"pile.foresee.{name}", value)
                self.figures[name] = value
        rows = self.book.json("list", "pile", "--foresight")["foresight"][0]["horizons"]
        return {(row["what"], row["days_ahead"]): row for row in rows if row["forecasts"] > 0}


def mean(values):
    values = list(values)
    return sum(values) / len(values) if values else None


def by_pile(per_series):
    """The mean over piles of the mean over a pile's series, of {(pile, series): value or None}."""
    piles = {}
    for (pile, _), value in per_series.items():
        if value is not None:
            piles.setdefault(pile, []).append(value)
    return mean(mean(values) for values in piles.values())


def share_of_naive(rows):
    """Mean over the days ahead of the error as a share of naive's."""
    return mean(row["mean_error_K"] / row["naive_mean_error_K"]
                for (what, _), row in rows.items() if what == "temperature" and row["naive_mean_error_K"] > 0)


def figures_tried(scored):
    """Every choice of figures -> (pile, series) -> its error as a share of naive's."""
    found = {}
    for values in itertools.product(*FIGURES.values()):
        figures = dict(zip(FIGURES, values))
        found[values] = {name: share_of_naive(one.at(figures=figures)) for name, one in scored.items()}
    return found


def figures_of(found, without):
    """Those with the least error over the piles but for one."""
    best = min(found, key=lambda values: by_pile({n: e for n, e in found[values].items() if n[0] != without}))
    return dict(zip(FIGURES, best))


def coverage(scored, figures=None):
    """(pile, series) -> ahead -> width -> share within."""
    found = {name: {ahead: {} for ahead in AHEAD} for name in scored}
    for width in GRID:
        for name, one in scored.items():
            rows = one.at({ahead: width for ahead in AHEAD}, figures)
            for ahead in AHEAD:
                row = rows.get(("temperature", ahead))
                found[name][ahead][width] = row["within"] if row else None
    return found


def widths_of(found, without=None):
    """The least width that holds four of five, over the piles but for one; between two of the grid by a line."""
    widths = {}
    for ahead in AHEAD:
        before = (0.0, 0.0)
        for width in GRID:
            held = by_pile({name: one[ahead][width] for name, one in found.items() if name[0] != without}) or 0
            if held >= 0.8:
                widths[ahead] = round(before[0] + (width - before[0]) * (0.8 - before[1]) / (held - before[1]), 3)
                break
            before = (width, held)
        else:
            widths[ahead] = GRID[-1]
    return widths


def table(results, checked):
    """Prints a row a forecast; returns what a check of those minds."""
    minds, seen = [], 0
    print(f"{'foreseen':12}{'ahead':>6}{'piles':>7}{'forecasts':>11}{'error':>9}{'naive':>8}{'within':>8}  of a pile")
    for key in sorted({key for rows in results.values() for key in rows}, key=lambda k: (k[0] != "temperature", k[1] or 0)):
        rows = {name: one[key] for name, one in results.items() if key in one}
        unit = "K" if key[0] == "temperature" else "days"
        error = by_pile({name: row[f"mean_error_{unit}"] for name, row in rows.items()})
        naive = by_pile({name: row[f"naive_mean_error_{unit}"] for name, row in rows.items()})
        within = {name: row["within"] for name, row in rows.items()}
        held, piles = by_pile(within), sorted({name[0] for name in within})
        each = [by_pile({n: w for n, w in within.items() if n[0] == pile}) for pile in piles]
        print(f"{key[0]:12}{key[1] or '':>6}{len(piles):>7}{sum(row['forecasts'] for row in rows.values()):>11}"
              f"{error:>7.2f} {unit[0]}{naive:>6.2f} {unit[0]}{100 * held:>6.0f} %  "
              f"{100 * min(each):.0f} to {100 * max(each):.0f} %")
        if key[0] != checked:
            continue
        seen += 1
        if error > naive:
            minds.append(f"{key}: error {error:.2f} above naive {naive:.2f}")
        if not 0.70 <= held <= 0.95:
            minds.append(f"{key}: {100 * held:.0f} % within")
    if checked and seen == 0:
        minds.append(f"nothing of {checked} was scored")
    return minds


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("roundbook")
    parser.add_argument("files", nargs="+")
    parser.add_argument("--held-out", action="store_true")
    parser.add_argument("--widths", action="store_true")
    parser.add_argument("--check")
    parser.add_argument("--each", action="store_true", help="a line a series as well")
    options = parser.parse_args()
    scored = {name: Scored(options.roundbook, rows) for name, rows in series_of(options.files).items()}
    if options.widths:
        print(json.dumps(widths_of(coverage(scored))))
        return
    if options.held_out:
        results, tried = {}, figures_tried(scored)
        for pile in sorted({name[0] for name in scored}):
            figures = figures_of(tried, pile)
            print(pile, "by the others:", json.dumps(figures))
            widths = widths_of(coverage(scored, figures), pile)
            results.update({name: one.at(widths, figures) for name, one in scored.items() if name[0] == pile})
    else:
        results = {name: one.at() for name, one in scored.items()}
    if options.each:
        for (pile, series), rows in results.items():
            print(f"{pile + ' ' + series:24}", " ".join(
                f"{row['mean_error_K']:.1f}/{row['naive_mean_error_K']:.1f}/{100 * row['within']:.0f}"
                for (what, _), row in rows.items() if what == "temperature"))
    minds = table(results, options.check)
    if minds:
        sys.exit("\n".join(minds))


if __name__ == "__main__":
    main()
