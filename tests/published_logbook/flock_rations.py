#!/usr/bin/env python3
"""Hens: published rations, eggs and manure, typed in as a keeper would."""
import sys

from logbook import Checks, Logbook


def feed_hens(book, code, hens, days, grams, feed):
    """So many grams a hen a day, in weekly lots, from 1 May 2027 on. The figures are those of the last
    evening, the findings of the morning after: both see the same 28 days."""
    book.run("start", "flock", code, f"hens={hens}", when="2027-05-01 08:00")
    for day in range(1, days + 1, 7):
        book.run("add", code, f"{hens * grams * 7 / 1000}kg", feed, when=f"2027-05-{day:02d} 08:00")
    return book.figures(code, "--as-of", "2027-05-28 20:00"), book.rules(code)


def check_rations(roundbook, checks):
    book = Logbook(roundbook, "2027-05-29T08:00:00Z")
    # "Feeding the Laying Hen" (Scribd 484516792): a hen needs 4.10 g of calcium a day; at 95 g of feed a
    # day that is 4.32 % of it, at 85 g 4.82 %. A hen that eats 85 g of the 4.32 % feed gets 3.67 g.
    for name, calcium in [("mash of 4.32", "4.32%"), ("mash of 4.82", "4.82%")]:
        book.run("material", name, "--new", "--group", "feed", "moisture=0%", f"calcium={calcium}",
                 "protein=15%")
    book.run("rule", "flock.need.calcium", "4.10")
    book.run("rule", "flock.short.below", "90%")
    got, found = feed_hens(book, "full", 10, 28, 95, "mash of 4.32")
    checks.near(got["flock.feed_a_day"], 95, .01, "95 g a hen a day")
    checks.near(got["flock.calcium_a_day"], 4.10, .01, "calcium of 95 g at 4.32 %")
    checks.that("flock.calcium" not in found, "4.10 g is what it needs")
    got, found = feed_hens(book, "less", 10, 28, 85, "mash of 4.32")
    checks.near(got["flock.calcium_a_day"], 3.67, .005, "calcium of 85 g at 4.32 %")
    checks.that("flock.calcium" in found, "3.67 of 4.10 g is short where nine tenths are asked for")
    got, found = feed_hens(book, "dense", 10, 28, 85, "mash of 4.82")
    checks.near(got["flock.calcium_a_day"], 4.10, .01, "calcium of 85 g at 4.82 %")
    checks.that("flock.calcium" not in found, "85 g at 4.82 % is enough")
    # NRC 1994, as extension texts give it: 15 g of protein a day at 100 g of feed: 15 %.
    got, found = feed_hens(book, "nrc", 10, 28, 100, "mash of 4.32")
    checks.near(got["flock.protein_a_day"], 15, .01, "protein of 100 g at 15 %")
    checks.that("flock.protein" not in found, "15 g is what it needs")


def check_larvae(roundbook, checks):
    book = Logbook(roundbook, "2027-05-29T08:00:00Z")
    # Animals 2020, 10:682, table 1: larvae hold 34.1 % dry matter, of that 1.85 % calcium; Eggink et al. 2022: about
    # 40 % of it protein. 20 g a hen a day: 6.82 g dry, 2.728 g protein (18.2 % of 15 g), 0.126 g calcium.
    got, found = feed_hens(book, "larvae", 10, 28, 20, "larvae")
    checks.near(got["flock.protein_a_day"], 2.728, .001, "protein of 20 g of larvae")
    checks.near(got["flock.protein_a_day"] / 15 * 100, 18.2, .05, "their share of 15 g")
    checks.near(got["flock.calcium_a_day"], .126, .0005, "calcium of 20 g of larvae")
    # Feeding trials: 10 % of the diet as dry larvae did no harm (Mwaniki et al. 2020, Bejaei & Cheng 2024).
    # 25 g of larvae to 100 g of feed at 11 % moisture: 8.53 / (8.53 + 89) = 8.7 %; 35 g: 11.8 %.
    for code, grams, above in [("some", 25, False), ("many", 35, True)]:
        feed_hens(book, code, 10, 28, 100, "layer feed")
        for day in (1, 8, 15, 22):
            book.run("add", code, f"{10 * grams * 7 / 1000}kg", "larvae", when=f"2027-05-{day:02d} 09:00")
        evening = ("--as-of", "2027-05-28 20:00")
        share = book.figures(code, *evening)["flock.larvae_share"]
        checks.near(share, grams * .341 / (grams * .341 + 89), 1e-4, f"share of {grams} g of larvae")
        checks.that(("flock.share" in book.rules(code, *evening)) == above, f"{grams} g: above a tenth, {share}")


# Mwaniki, Neijat & Kiarie 2018, Shaver White, weeks 19 to 27 on 0, 5.0 and 7.5 % larva meal: eggs of 100
# hen-days, g an egg; egg mass a hen a day is their product.
LAYING = [(89.4, 53.7, 48.01), (84.8, 52.3, 44.35), (87.8, 53.0, 46.53)]


def check_laying(roundbook, checks):
    book = Logbook(roundbook, "2027-05-10T20:00:00Z")
    for number, (rate, egg, mass) in enumerate(LAYING, 1):
        code = f"flock-{number}"
        book.run("start", "flock", code, "hens=1000", when="2027-05-01 06:00")
        for day in range(1, 11):
            book.run("log", code, f"eggs={rate * 10:.0f}", f"egg={egg}g", when=f"2027-05-{day:02d} 17:00")
        got = book.figures(code)
        checks.near(got["flock.laying"] * 100, rate, .01, f"flock {number} laying")
        checks.near(got["flock.egg_mass"] / got["flock.hen_days"] * 1000, mass, .01, f"flock {number} eggs")


def check_manure(roundbook, checks):
    """USDA-NRCS, manure nutrient content: hens and pullets, 250 to the unit: 11.45 short tons a year as
    excreted, with 26.93 lb N, 9.98 lb of the column P and 10.44 lb K a ton."""
    book = Logbook(roundbook, "2027-12-31T23:00:00Z")
    book.run("start", "flock", "unit", "hens=250", when="2027-01-01 00:30")
    got = book.figures("unit")
    pound, ton = .45359237, 907.18474
    checks.near(got["flock.hen_days"], 250 * 365, 1, "hen-days of a year")
    checks.near(got["flock.manure"] / ton, 11.45, .01, "manure of a unit, short tons")
    for key, pounds in [("nitrogen", 26.93), ("phosphorus", 9.98), ("potassium", 10.44)]:
        checks.near(got[f"flock.manure_{key}"] / pound / 11.45, pounds, pounds * .002, f"{key} a ton")
    # Lorimor & Xin 1999 (lib.dr.iastate.edu/abe_eng_pubs/181): after a year in the house 0.4825 g N a
    # hen-day is left, against 1.533 g excreted: 69 % is gone, and the figure says which it is.
    checks.has(book.run("show", "unit", "--all"), "fresh (USDA-NRCS); stored for a year two thirds of its "
               "nitrogen are gone", "which stage of manure it is")


def main():
    checks = Checks()
    for check in (check_rations, check_larvae, check_laying, check_manure):
        check(sys.argv[1], checks)
    checks.done()


if __name__ == "__main__":
    main()
