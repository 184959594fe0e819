#!/usr/bin/env python3
"""Checks the material catalogue: schema/materials.csv and schema/material-figures.csv.

Usage: check_catalogue.py SCHEMA_DIRECTORY

Errors go to standard error, one a line with its file and line number, and the exit status is 1.
Pairs of figures that would mean more than 60 % carbon are listed on standard output: handbooks
print such pairs (they average nitrogen and C:N apart), so that is information and no failure.
"""

import csv
import io
import re
import sys
from pathlib import Path

MATERIALS = "materials.csv"
FIGURES = "material-figures.csv"
MATERIALS_HEADER = ["material", "group", "aliases", "flags", "meaning"]
FIGURES_HEADER = ["material", "property", "value", "unit", "source"]

FEWEST_MATERIALS = 80
GROUPS = set(
    "brown green manure food brewery dairy paper wood feed bedding char compost frass effluent"
    " brew mineral water larvae egg crop gas energy forbidden".split())
FLAGS = set(
    "manure hoofed poultry animal dairy oil citrus woody-large forbidden glossy plant fish liquid"
    " treated unproven salty diseased synthetic edible-crop"
    " carcass pet-waste human-waste carryover".split())

# property: (unit, lowest, highest). Percentages are of dry mass, save moisture: of wet mass.
# Methane ends at what pure fat can give, 1.0125 m3/kg (Buswell equation, triolein).
PROPERTIES = {
    "moisture": ("%", 0, 100),
    "carbon": ("%", 0, 100),
    "nitrogen": ("%", 0, 50),
    "ammonium": ("%", 0, 50),
    "cn": ("1", 0.2, 2000),
    "phosphorus": ("%", 0, 50),
    "potassium": ("%", 0, 60),
    "calcium": ("%", 0, 60),
    "bulk_density": ("kg/m3", 10, 2500),
    "volatile_solids": ("%", 0, 100),
    "methane": ("m3/kgVS", 0, 1.02),
    "protein": ("%", 0, 100),
    "fat": ("%", 0, 100),
    "ash": ("%", 0, 100),
}

# What has the word on the left (a flag, or "group X") must have one of the words on the right.
IMPLICATIONS = [
    ("group manure", {"manure", "treated"}),
    ("hoofed", {"manure", "treated"}),
    ("poultry", {"manure", "treated"}),
    ("group effluent", {"manure"}),
    ("group forbidden", {"forbidden"}),
    ("forbidden", {"group forbidden"}),
    ("glossy", {"forbidden"}),
    ("group crop", {"edible-crop"}),
    ("edible-crop", {"group crop"}),
    ("group dairy", {"dairy"}),
    ("fish", {"animal"}),
    ("group water", {"liquid"}),
    ("group brew", {"liquid"}),
]

# What a person types on a working morning, and the material it must find (common practice).
DAILY_WORDS = {
    "grounds": "coffee grounds", "leaves": "leaves", "straw": "straw",
    "horse manure": "horse manure", "cow manure": "cow manure", "chicken manure": "hen manure",
    "scraps": "food scraps", "kitchen scraps": "food scraps", "cardboard": "cardboard",
    "sawdust": "sawdust",
    "chips": "wood chips", "grass": "grass clippings", "comfrey": "comfrey", "nettles": "nettles",
    "larvae": "larvae", "prepupae": "dark larvae", "frass": "frass", "effluent": "effluent",
    "digestate": "effluent", "char": "char", "biochar": "char", "compost": "compost",
    "castings": "vermicompost", "eggs": "eggs", "water": "water", "rain": "rainwater",
    "spent grain": "spent grain", "whey": "whey", "weeds": "weeds", "gas": "biogas",
    "pressure treated wood": "treated wood", "magazines": "glossy paper",
    # Words that must stay unknown, so that the program asks which: the answer matters to safety.
    "manure": None, "ash": None, "bedding": None, "oil": None, "meal": None,
    "waste": None, "brew": None,
}

NAME = re.compile(r"[a-z][a-z0-9']*(?:[ -][a-z0-9']+)*")
NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
# A citation that can be found has a year, a standard's number or a web address.
CITATION = re.compile(
    r"\b(?:19|20)[0-9]{2}\b|\bNOP [0-9]+|\b[a-z0-9]+\.(?:com|org)\b|\bweb page\b")


class Errors:
    def __init__(self):
        self.lines = []

    def add(self, where, what):
        self.lines.append(f"{where}: {what}")


def read_rows(path, header, errors):
    """The data rows as (where, row); reports encoding, line ends, header and field counts."""
    try:
        raw = path.read_bytes()
    except OSError as problem:
        errors.add(path.name, f"cannot be read: {problem.strerror}")
        return []
    if raw.startswith(b"\xef\xbb\xbf"):
        errors.add(path.name, "starts with a byte-order mark")
    if b"\r" in raw:
        errors.add(path.name, "has carriage returns; lines end with LF alone")
    if not raw.endswith(b"\n"):
        errors.add(path.name, "does not end with a line end")
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as problem:
        errors.add(path.name, f"is not UTF-8: {problem}")
        return []
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    rows = []
    try:
        if next(reader, None) != header:
            errors.add(f"{path.name}:1", f"the header must be {','.join(header)}")
        for row in reader:
            where = f"{path.name}:{reader.line_num}"
            if len(row) != len(header):
                errors.add(where, f"has {len(row)} fields, not {len(header)}")
                continue
            if any(field != field.strip() or "\n" in field for field in row):
                errors.add(where, "a field has space around it or a line break in it")
            rows.append((where, row))
    except csv.Error as problem:
        errors.add(f"{path.name}:{reader.line_num}", f"is not CSV: {problem}")
    return rows


def check_materials(rows, errors):
    """Returns the names (own names and aliases) with their material, and the set of materials."""
    names = {}
    canonical = set()
    for where, (material, group, aliases, flags, meaning) in rows:
        canonical.add(material)
        for name in [material] + (aliases.split(";") if aliases else []):
            if not NAME.fullmatch(name):
                errors.add(where, f"'{name}' is no name: lower-case words, first a letter")
            if name in names:
                errors.add(where, f"'{name}' of '{material}' already means '{names[name]}'")
            else:
                names[name] = material
        if group not in GROUPS:
            errors.add(where, f"unknown group '{group}' of '{material}'")
        flag_list = flags.split(";") if flags else []
        for flag in flag_list:
            if flag not in FLAGS:
                errors.add(where, f"unknown flag '{flag}' of '{material}'")
        if len(set(flag_list)) != len(flag_list):
            errors.add(where, f"'{material}' has a flag twice")
        words = {f"group {group}", *flag_list}
        for word, needs in IMPLICATIONS:
            if word in words and not words & needs:
                errors.add(where, f"'{material}' has {word}, so needs {' or '.join(sorted(needs))}")
        if not meaning.endswith(".") or ". " in meaning or not 10 <= len(meaning) <= 120:
            errors.add(where, f"'{material}' needs a meaning: one sentence, 10 to 120 characters")
    if len(canonical) < FEWEST_MATERIALS:
        errors.add(MATERIALS, f"has {len(canonical)} materials, fewer than {FEWEST_MATERIALS}")
    for word, wanted in DAILY_WORDS.items():
        if names.get(word) != wanted:
            errors.add(MATERIALS, f"'{word}' must mean {wanted or 'nothing by itself'},"
                                  f" not {names.get(word)}")
    return names, canonical


def check_source(where, source, errors):
    if not source:
        errors.add(where, "the source is empty")
    elif "from memory" in source:
        if not source.endswith("from memory"):
            errors.add(where, "a source from memory must end with 'from memory'")
    elif not (source == "common practice" or source.startswith("derived: ")
              or CITATION.search(source)):
        errors.add(where, f"source '{source}' names no year, number or address, and is not said to"
                          " be derived, common practice or from memory")


def check_figures(rows, canonical, errors):
    """Returns the figures as material -> {property: value}."""
    figures = {}
    for where, (material, prop, value, unit, source) in rows:
        if material not in canonical:
            errors.add(where, f"unknown material '{material}'")
        check_source(where, source, errors)
        if prop not in PROPERTIES:
            errors.add(where, f"unknown property '{prop}'")
            continue
        wanted_unit, lowest, highest = PROPERTIES[prop]
        if unit != wanted_unit:
            errors.add(where, f"{prop} has unit '{unit}', not '{wanted_unit}'")
        if not NUMBER.fullmatch(value):
            errors.add(where, f"'{value}' is no plain decimal number")
            continue
        if not lowest <= float(value) <= highest:
            errors.add(where, f"{prop} {value} of '{material}' is outside {lowest} to {highest}")
        of_material = figures.setdefault(material, {})
        if prop in of_material:
            errors.add(where, f"{prop} of '{material}' is given twice")
        of_material[prop] = float(value)
    return figures


def check_together(figures, errors):
    """Figures of one material against each other; returns the notes on implied carbon."""
    notes = []
    for material, has in figures.items():
        if {"carbon", "nitrogen", "cn"} <= has.keys():
            errors.add(FIGURES, f"'{material}' has carbon, nitrogen and cn: two fix the third")
        if has.get("protein", 0) + has.get("fat", 0) + has.get("ash", 0) > 100:
            errors.add(FIGURES, f"protein, fat and ash of '{material}' make more than 100 %")
        if {"ash", "volatile_solids"} <= has.keys() and abs(
                has["ash"] + has["volatile_solids"] - 100) > 1:
            errors.add(FIGURES, f"ash and volatile solids of '{material}' do not make 100 %")
        if "nitrogen" in has and "cn" in has and has["nitrogen"] * has["cn"] > 60:
            notes.append(f"{material}: nitrogen {has['nitrogen']:g} % x C:N {has['cn']:g}"
                         f" would mean {has['nitrogen'] * has['cn']:.1f} % carbon")
    return notes


def main(arguments):
    if len(arguments) != 2:
        print("usage: check_catalogue.py SCHEMA_DIRECTORY", file=sys.stderr)
        return 2
    schema = Path(arguments[1])
    errors = Errors()
    material_rows = read_rows(schema / MATERIALS, MATERIALS_HEADER, errors)
    figure_rows = read_rows(schema / FIGURES, FIGURES_HEADER, errors)
    names, canonical = check_materials(material_rows, errors)
    figures = check_figures(figure_rows, canonical, errors)
    notes = check_together(figures, errors)
    print(f"{len(canonical)} materials, {len(names)} names,"
          f" {sum(map(len, figures.values()))} figures")
    for note in notes:
        print(f"over 60 % carbon (the handbook's own pair): {note}")
    for line in errors.lines:
        print(line, file=sys.stderr)
    return 1 if errors.lines else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv))
