#!/usr/bin/env python3
"""The cautions of biogas, where hands are put to it; a leak; pressures that cannot be. And a trap of sources:
ACGIH's limit of hydrogen sulfide for 15 minutes is printed as 15 ppm on a page that is old (5 ppm since 2010;
OSHA's ceiling is 20, NIOSH's 10: Malone Rubright 2017, table 3): no number of ppm is given to work by."""
import re
import sys

from logbook import Checks, Logbook

NOW = "2027-06-30T20:00:00Z"


def check_cautions(roundbook, checks):
    """Methane burns in air from 5 to 15 % by volume (standard); hydrogen sulfide is lethal and dulls the nose;
    both are said wherever gas is let off or what holds it is opened."""
    book = Logbook(roundbook, NOW)
    said = {"start": book.run("start", "digester", "dig", "volume=2m3", "site=glass", when="2027-05-01 08:00")}
    book.run("add", "dig", "500L", "dairy manure", when="2027-05-01 09:00")
    for deed in ("vented", "drained", "renewed", "rested", "checked", "stirred"):
        said[deed] = book.run("log", "dig", deed, when="2027-05-20 08:00")
    said["let off"] = book.run("take", "dig", "100L", "biogas", "--for", "venting", when="2027-05-21 08:00")
    said["flame"] = book.run("log", "dig", "strong", when="2027-05-22 08:00")
    said["effluent"] = book.run("take", "dig", "20L", when="2027-05-23 08:00")
    fed = book.run("add", "dig", "5kg", "dairy manure", when="2027-05-24 08:00")
    again = book.run("log", "dig", "strong", "cooking=1h", "20C", when="2027-05-25 08:00")
    said["end"] = book.run("end", "dig", "--sure", when="2027-06-20 08:00")
    for what, text in said.items():
        checks.has(text, "Under glass gas gathers: open doors and vents before you go in", what)
        if what not in ("flame", "effluent"):
            checks.has(text, "explodes (5 to 15 % methane)", what)
            checks.has(text, "hydrogen sulfide deadens the nose, then kills", what)
        # The trap: no limit in ppm, old or new.
        checks.that(re.search(r"\bppm\b", text) is None, f"{what}: no ppm to work by: {text}")
    for what in ("start", "checked", "end"):
        checks.has(said[what], "licensed fitter", what)
    for what in ("start", "checked"):
        checks.has(said[what], "local code", what)
    checks.has(said["flame"], "carbon monoxide", "where gas is burned")
    # Once: not with every morning's line.
    checks.lacks(fed, "Under glass", "feeding is no work on the gas")
    checks.lacks(again, "Under glass", "the flame of three days later")


def check_leak(roundbook, checks):
    """Fire services and gas suppliers say the same everywhere (common practice): no flame, no switch, air, out,
    the valve where safe, a licensed fitter, the emergency number from outside."""
    book = Logbook(roundbook, NOW)
    book.run("start", "digester", "dig", "volume=2m3", when="2027-05-01 08:00")
    for typed in (("leaking",), ("smells", "of", "gas"), ("smells of gas",), ("leak",), ("gas", "smell")):
        book.run("log", "dig", *typed, when="2027-06-29 08:00")
        found = book.rules("dig").get("digester.leak")
        checks.that(found is not None and found["urgency"] == "now", f"{typed}: {found}")
        for said in ("no flame, no switch", "let air in", "everybody out", "only where that is safe",
                     "licensed fitter", "emergency number"):
            checks.has(found["do"], said, "what to do at a leak")
        # A check mends nothing.
        book.run("log", "dig", "leaks", "checked", when="2027-06-29 09:00")
        checks.that("digester.leak" in book.rules("dig"), "checked is not mended")
        book.run("log", "dig", "leak", "mended", when="2027-06-29 10:00")
        checks.that("digester.leak" not in book.rules("dig"), "mended ends it")
        for _ in range(3):
            book.run("undo")
    # It stays, for months and in a digester that rests.
    book.run("log", "dig", "leaking", "rested", when="2027-05-02 08:00")
    checks.that("digester.leak" in book.rules("dig"), "two months later")
    checks.has(book.run("take", "dig", "100L", "biogas", "--for", "cooking"), "light none of its gas",
               "gas of a leaking digester")


def check_pressure(roundbook, checks):
    """A holder or bag gives a few mbar, a fixed dome up to a metre of water, 98 mbar (common practice, from
    memory). 1 inH2O = 2.4909 mbar (NIST SP 811)."""
    book = Logbook(roundbook, NOW)
    book.run("start", "digester", "dig", "volume=2m3", when="2027-05-01 08:00")
    for typed in ("8mbar", "0.1psi", "4inH2O", "98mbar", "0"):
        status, text = book.ask("log", "dig", f"gas-pressure={typed}")
        checks.that(status == 0, f"{typed} is taken: {text}")
        book.run("undo")
    for typed in ("1013mbar", "8psi", "101.3kPa", "120mbar"):
        status, text = book.ask("log", "dig", f"gas-pressure={typed}")
        checks.that(status == 2 and "not a plausible gas-pressure" in text, f"{typed}: {text}")
    checks.has(book.run("log", "dig", "gas-pressure=120mbar", "--sure"), "120 mbar", "with --sure")


def main():
    checks = Checks()
    for check in (check_cautions, check_leak, check_pressure):
        check(sys.argv[1], checks)
    checks.done()


if __name__ == "__main__":
    main()
