#!/usr/bin/env python3
"""Which feeds a jurisdiction lets larvae have, and the edges of what it asks of frass and dried larvae."""
import sys

from logbook import Checks, Logbook

WHEN = "2027-06-01 08:00"

# Regulation (EU) 2017/893, annex X of (EU) 142/2011 as amended: feed of non-animal origin, or fishmeal,
# non-ruminant blood products, eggs, milk ...; no manure, catering waste or other waste. AAFCO T60.117:
# feedstock of feed-grade materials alone. law, what is fed, taken?, words that must be said.
FEEDS = [
    ("eu", "chicken feed", True, None),
    ("eu", "dairy manure", False, "EU law does not let larvae for animals be fed dairy manure"),
    ("eu", "chicken manure", False, "EU law does not let larvae"),
    ("eu", "food scraps", False, "kitchen waste"),
    ("eu", "cooked leftovers", False, "kitchen waste"),
    ("eu", "fish meal", True, "only from non-ruminants or fish"),
    ("eu", "spoiled eggs", True, "only from non-ruminants or fish"),
    ("eu", "meat scraps", False, "EU law does not let larvae"),
    ("eu", "vegetable waste", True, "only where it never passed through a kitchen"),
    ("us", "chicken feed", True, None),
    ("us", "dairy manure", False, "is not feed-grade: larvae raised on it are no animal feed"),
    ("us", "food scraps", True, "is not feed-grade: larvae raised on it cannot be sold as feed"),
    ("none", "chicken feed", True, None),
    ("none", "dairy manure", True, "larvae carry the germs of dairy manure"),
    ("none", "food scraps", True, None),
]


def check_feeds(roundbook, checks):
    book = Logbook(roundbook, "2027-06-02T08:00:00Z")
    for number, (law, feed, taken, words) in enumerate(FEEDS, 1):
        code, what = f"bin-{number}", f"law={law}: {feed}"
        book.run("start", "larvae", code, "seeded=10000", f"law={law}", when=WHEN)
        status, text = book.ask("add", code, "1kg", feed, "--when", WHEN)
        text = " ".join(text.split())
        checks.that(status == (0 if taken else 2), f"{what}: exit {status}")
        checks.has(text, words or feed, what)
        if words is None:
            checks.lacks(text, "larvae.banned", what)
        if not taken:
            checks.has(text, "Nothing was recorded", what)
            checks.that(not book.json("show", code)["in"], f"{what}: nothing went in")
    # What the law says of the bin is said once, not with every bucket.
    book.run("start", "larvae", "daily", "seeded=10000", "law=us", when=WHEN)
    checks.has(book.run("add", "daily", "1kg", "food scraps", when=WHEN), "larvae.banned", "the first")
    checks.lacks(book.run("add", "daily", "1kg", "vegetable waste", when=WHEN), "larvae.banned", "the next")
    status, _ = book.ask("add", "daily", "1kg", "dairy manure", "--when", WHEN)
    checks.that(status == 2, "a refusal stays one")


# Regulation (EU) 2021/1925 (OJ L 393, 8.11.2021, p. 4): frass held at 70 degC for 60 minutes or more, dead
# insects at most 5 % by volume and 3 % by weight. AAFCO T60.117: dried to 10 % moisture or less.
FRASS = [
    ("70C", "60", "3%", "5%", None),
    ("69.9C", "60", "3%", "5%", "frass was heated to 69.9 °C, below 70 °C"),
    ("70C", "59", "3%", "5%", "held hot for 59 minutes, less than 60"),
    ("70C", "60", "3.1%", "5%", "3.1 % of the frass is dead insects by weight"),
    ("70C", "60", "3%", "5.1%", "5.1 % of the frass is dead insects by volume"),
]


def check_frass(roundbook, checks):
    book = Logbook(roundbook, "2027-06-12T08:00:00Z")
    for number, (heat, held, weight, volume, words) in enumerate(FRASS, 1):
        code = f"bin-{number}"
        book.run("start", "larvae", code, "seeded=10000", "law=eu", when=WHEN)
        book.run("take", code, "1kg", "frass", when="2027-06-11 08:00")
        checks.has(book.rules(code)["larvae.frass"]["says"], "no heating of it is logged", code)
        book.run("log", code, f"frass_heat={heat}", f"frass_held={held}min", f"dead_weight={weight}",
                 f"dead_volume={volume}", when="2027-06-11 09:00")
        found = book.rules(code).get("larvae.frass")
        if words is None:
            checks.that(found is None, f"exactly {heat}, {held} min, {weight}, {volume}: {found}")
        else:
            checks.has(found["says"] if found else "nothing found", words, code)
    for moisture, passes in [("10%", True), ("10.1%", False)]:
        code = f"dry-{moisture[:-1].replace('.', '-')}"
        book.run("start", "larvae", code, "seeded=10000", "law=us", when=WHEN)
        book.run("log", code, f"dried_moisture={moisture}", when="2027-06-11 09:00")
        checks.that(("larvae.dried" in book.rules(code)) != passes, f"dried larvae at {moisture}")


def main():
    checks = Checks()
    check_feeds(sys.argv[1], checks)
    check_frass(sys.argv[1], checks)
    checks.done()


if __name__ == "__main__":
    main()
