#!/usr/bin/env python3
"""Turns schema/ into C++ at build, so that the binary needs no file beside it.

  embed_schema.py SCHEMA_DIR OUT_DIR

writes OUT_DIR/kinds/thresholds.h (one constant a row, so that a misspelt key or a wrong unit does not
compile), OUT_DIR/kinds/cautions.h, OUT_DIR/model/catalogue.cpp and OUT_DIR/book/migrations.h.
"""
import csv
import json
import pathlib
import sys

# The unit of a threshold: its C++ type, its dimension, and base value = (typed - zero) x factor. The
# unit tests read every row once more with the program's own unit table and compare.
UNITS = {
    "F": ("Celsius", "kTemperature", 5 / 9, 32),
    "C": ("Celsius", "kTemperature", 1, 0),
    "K": ("Kelvins", "kTemperatureDifference", 1, 0),
    "%": ("Fraction", "kFraction", 0.01, 0),
    "ppm": ("Fraction", "kFraction", 1e-6, 0),
    "kg": ("Kilograms", "kMass", 1, 0),
    "L": ("Litres", "kVolume", 1, 0),
    "m2": ("SquareMetres", "kArea", 1, 0),
    "m": ("Metres", "kLength", 1, 0),
    "in": ("Metres", "kLength", 0.0254, 0),
    "pH": ("Ph", "kAcidity", 1, 0),
    "dS/m": ("DecisiemensPerMetre", "kConductivity", 1, 0),
    "kPa": ("Kilopascals", "kPressure", 1, 0),
    "kWh": ("KilowattHours", "kEnergy", 1, 0),
    "W": ("Watts", "kPower", 1, 0),
    "days": ("Days", "kDuration", 1, 0),
    "hours": ("Days", "kDuration", 1 / 24, 0),
    "weeks": ("Days", "kDuration", 7, 0),
    "C.d": ("DegreeDays", "kDegreeDays", 1, 0),
}
DO_NOT_EDIT = "// Made by scripts/embed_schema.py from schema/. Edit there.\n"


def text(s):
    """A C++ string literal."""
    return json.dumps(s, ensure_ascii=False)


def number(value):
    return repr(float(value))


def rows(path):
    with open(path, encoding="utf-8", newline="") as f:
        yield from csv.DictReader(f)


def write(path, content):
    """Only where it changed, so that a second build is quick."""
    path.parent.mkdir(parents=True, exist_ok=True)
    if not path.exists() or path.read_text(encoding="utf-8") != content:
        path.write_text(content, encoding="utf-8")


def standing(source):
    """A source as it is printed. The tables say which values were written down from memory, for whoever checks them;
    to the person who reads a report they are the judgement of the trade, beside whatever source is named."""
    plain = source.replace("own judgement, from memory", "judgement of the trade")
    plain = plain.replace("this value from memory", "this value by judgement of the trade")
    plain = plain.replace("from memory", "judgement of the trade")
    return text(plain.replace("own judgement", "judgement of the trade"))


def thresholds(schema):
    out = [DO_NOT_EDIT, "#pragma once\n\n#include <array>\n\n#include \"model/rules.h\"\n\n"]
    names = []
    for path in sorted((schema / "thresholds").glob("*.csv")):
        kind = path.stem
        out.append(f"namespace kinds::thresholds::{kind} {{\n")
        for row in rows(path):
            key, unit = row["key"], row["unit"]
            if not key.startswith(kind + ".") or not row["meaning"] or not row["source"]:
                sys.exit(f"{path}: row '{key}' needs the file's kind, a meaning and a source")
            scalar, dimension, factor, zero = UNITS.get(unit, ("Number", "kNumber", 1, 0))
            label = "" if unit in UNITS else unit
            typed = row["value"] if scalar == "Number" else f"{row['value']} {unit}"
            name = key[len(kind) + 1:].replace(".", "_")
            si = (float(row["value"]) - zero) * factor
            out.append(
                f"inline constexpr model::ThresholdInfo {name}_info{{{text(key)}, {text(kind)}, "
                f"measure::Dimension::{dimension}, {number(si)}, {text(typed)}, {text(label)}, "
                f"{text(row['meaning'])}, {standing(row['source'])}}};\n"
                f"inline constexpr model::Threshold<measure::{scalar}> {name}{{&{name}_info}};\n")
            names.append(f"&{kind}::{name}_info")
        out.append(f"}}  // namespace kinds::thresholds::{kind}\n\n")
    out.append("namespace kinds::thresholds {\n"
               f"inline constexpr std::array<const model::ThresholdInfo*, {len(names)}> kAll{{\n    "
               + ",\n    ".join(names) + "};\n}  // namespace kinds::thresholds\n")
    return "".join(out)


HAZARDS = {"gas": "kGas", "fire": "kFire", "carbon monoxide": "kCarbonMonoxide", "germs": "kGerms",
           "pressure": "kPressure", "height": "kHeight", "bites and dust": "kBitesAndDust",
           "drinking": "kDrinking", "electric": "kElectric"}
MOST_COLUMNS = 44  # of a caution's short form, which stands under its job


def cautions(schema):
    """A constant a row, and all of them in the table's order."""
    out = [DO_NOT_EDIT, "#pragma once\n\n#include <array>\n\n#include \"model/caution.h\"\n\n"
           "namespace kinds::cautions {\n"]
    ids = []
    for row in rows(schema / "cautions.csv"):
        for column in ("id", "hazard", "kinds", "moments", "short", "full", "source"):
            if not row[column]:
                sys.exit(f"cautions.csv: row '{row['id']}' lacks its {column}")
        if row["hazard"] not in HAZARDS:
            sys.exit(f"cautions.csv: row '{row['id']}': no hazard '{row['hazard']}'; there are {', '.join(HAZARDS)}")
        if len(row["short"]) > MOST_COLUMNS:
            sys.exit(f"cautions.csv: row '{row['id']}': its short form has {len(row['short'])} columns, "
                     f"more than {MOST_COLUMNS}")
        if row["id"] in ids:
            sys.exit(f"cautions.csv: two rows are called '{row['id']}'")
        ids.append(row["id"])
        fields = ", ".join(text(row[c]) for c in ("kinds", "moments", "short", "full", "source"))
        out.append(f"inline constexpr model::Caution {row['id'].replace('.', '_')}{{{text(row['id'])}, "
                   f"model::Hazard::{HAZARDS[row['hazard']]}, {fields}}};\n")
    names = ", ".join(i.replace(".", "_") for i in ids)
    out.append(f"inline constexpr std::array<model::Caution, {len(ids)}> kAll{{{names}}};\n"
               "}  // namespace kinds::cautions\n")
    return "".join(out)


def catalogue(schema):
    """Two plain tables: thousands of std::string initialisers would take the compiler minutes."""
    properties = {"moisture": "kMoisture", "carbon": "kCarbon", "nitrogen": "kNitrogen", "ammonium": "kAmmonium",
                  "cn": "kCarbonNitrogen", "phosphorus": "kPhosphorus", "potassium": "kPotassium",
                  "calcium": "kCalcium", "bulk_density": "kBulkDensity",
                  "volatile_solids": "kVolatileSolids", "methane": "kMethane",
                  "protein": "kProtein", "fat": "kFat", "ash": "kAsh"}
    materials = list(rows(schema / "materials.csv"))
    index = {row["material"]: i for i, row in enumerate(materials)}
    out = [DO_NOT_EDIT, "#include \"model/catalogue_rows.h\"\n\nnamespace model {\nnamespace {\n\n"
           "constexpr MaterialRow kMaterials[] = {\n"]
    for row in materials:
        out.append("    {" + ", ".join(text(row[c]) for c in
                                       ("material", "group", "aliases", "flags", "meaning")) + "},\n")
    out.append("};\n\nconstexpr FigureRow kFigures[] = {\n")
    figures = sorted(rows(schema / "material-figures.csv"), key=lambda row: index[row["material"]])
    for row in figures:
        value = float(row["value"]) * (0.01 if row["unit"] == "%" else 1)
        out.append(f"    {{{index[row['material']]}, Property::{properties[row['property']]}, "
                   f"{number(value)}, {standing(row['source'])}}},\n")
    out.append("};\n\n}  // namespace\n\n"
               "std::span<const MaterialRow> material_rows() { return kMaterials; }\n"
               "std::span<const FigureRow> figure_rows() { return kFigures; }\n\n"
               "}  // namespace model\n")
    return "".join(out)


def migrations(schema):
    paths = sorted(schema.glob("[0-9]*.sql"))
    parts = [f"    R\"sql({p.read_text(encoding='utf-8')})sql\",\n" for p in paths]
    return (DO_NOT_EDIT + "#pragma once\n\n#include <array>\n#include <string_view>\n\n"
            "namespace book {\n\n// The n-th takes a logbook from schema n to n + 1.\n"
            f"inline constexpr std::array<std::string_view, {len(paths)}> kMigrations{{\n"
            + "".join(parts) + "};\n\n}  // namespace book\n")


def main():
    schema, out = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    write(out / "kinds" / "thresholds.h", thresholds(schema))
    write(out / "kinds" / "cautions.h", cautions(schema))
    write(out / "model" / "catalogue.cpp", catalogue(schema))
    write(out / "book" / "migrations.h", migrations(schema))


if __name__ == "__main__":
    main()
