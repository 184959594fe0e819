#!/usr/bin/env python3
"""Boxes of larvae whose weights and moistures were published, typed in as they would be at the bench."""
import sys

from logbook import Checks, Logbook

# Fuhrmann A., Gold M. et al. 2024, "Comprehensive industry-relevant black soldier fly bioconversion
# characterisation by a novel chamber system"; open data github.com/Nairdaf/chamber_system_git,
# data/cs_pub_runs_manual.csv, commit 1374cee. Boxes of 60 x 40 cm, fed once on day 0. Weights and
# moistures are theirs; the percentages follow from these inputs by the formulas of their own script.
#    box, days, feed g, feed moisture, larvae, mg a young larva, mg dry, frass g, its moisture, larvae g,
#    their moisture | bioconversion wet, dry; waste reduction wet, dry; ECD (all %); WRI dry %/d; FCR wet
BOXES = [
    ("CF-1a", 6, 6000, .6505, 12000, 5.597, 1.533, 1181, .3633, 1831, .7160,
     29.40, 23.92, 80.32, 64.14, 37.29, 10.690, 3.402),
    ("CF-1b", 6, 6000, .6505, 12000, 5.597, 1.533, 1310, .3110, 1563, .7010,
     24.93, 21.41, 78.17, 56.96, 37.59, 9.493, 4.011),
    ("CF-1c", 6, 6000, .6505, 12000, 5.597, 1.533, 1287, .2697, 1563, .6930,
     24.93, 22.01, 78.55, 55.18, 39.88, 9.197, 4.011),
    ("CF-2a", 6, 6000, .6505, 12000, 5.597, 1.533, 1214, .3490, 1731, .7060,
     27.73, 23.39, 79.77, 62.31, 37.54, 10.385, 3.606),
    ("CF-2b", 6, 6000, .6505, 12000, 5.597, 1.533, 1274, .2987, 1613, .7100,
     25.76, 21.43, 78.77, 57.39, 37.34, 9.566, 3.881),
    ("CF-2c", 6, 6000, .6505, 12000, 5.597, 1.533, 1231, .2437, 1577, .6980,
     25.16, 21.83, 79.48, 55.60, 39.27, 9.267, 3.974),
    ("FW-1a", 7, 7346, .7047, 10800, 13.207, 3.276, 1370, .5890, 2039, .6688,
     25.81, 29.50, 81.35, 74.04, 39.84, 10.578, 3.874),
    ("FW-1b", 7, 7346, .7047, 10800, 13.207, 3.276, 1174, .4657, 1870, .6532,
     23.51, 28.26, 84.02, 71.08, 39.76, 10.155, 4.253),
    ("FW-1c", 7, 7346, .7047, 10800, 13.207, 3.276, 1139, .3836, 1720, .6439,
     21.47, 26.60, 84.49, 67.64, 39.33, 9.662, 4.657),
    ("FW-2a", 7, 7346, .7018, 10800, 13.207, 3.276, 1309, .5976, 2009, .6886,
     25.41, 26.94, 82.18, 75.95, 35.47, 10.851, 3.936),
    ("FW-2b", 7, 7346, .7018, 10800, 13.207, 3.276, 1221, .5223, 1834, .6608,
     23.02, 26.78, 83.38, 73.37, 36.50, 10.482, 4.343),
    ("FW-2c", 7, 7346, .7018, 10800, 13.207, 3.276, 1135, .3989, 1686, .6497,
     21.01, 25.35, 84.55, 68.86, 36.81, 9.836, 4.760),
    ("FH-2a", 7, 8238.5, .7543, 10800, 6.067, 1.767, 2617, .7800, 2149, .7160,
     25.29, 29.21, 68.23, 71.56, 40.82, 10.222, 3.954),
    ("FH-2b", 7, 8238.5, .7543, 10800, 6.067, 1.767, 2221, .7500, 2193, .6910,
     25.82, 32.53, 73.04, 72.57, 44.83, 10.367, 3.872),
    ("FH-2c", 7, 8238.5, .7543, 10800, 6.067, 1.767, 1832, .7100, 2237, .6890,
     26.36, 33.43, 77.76, 73.75, 45.32, 10.536, 3.794),
]


def fill(book, code, days, feed, feed_moisture, count, young, young_dry, frass, frass_moisture, larvae,
         larvae_moisture):
    start, harvest = "2027-06-01 08:00", f"2027-06-{days + 1:02d} 08:00"
    book.run("start", "larvae", code, "area=0.24 m2", f"seeded={count}", when=start)
    book.run("add", code, f"{feed}g", "chicken feed", when=start)
    book.run("log", code, f"sample={young}mg", f"feed_moisture={100 * feed_moisture:.4f}%",
             f"young_moisture={100 * (1 - young_dry / young):.5f}%", when=start)
    book.run("take", code, f"{larvae}g", "larvae", when=harvest)
    book.run("take", code, f"{frass}g", "frass", when=harvest)
    book.run("log", code, f"frass_moisture={100 * frass_moisture:.4f}%",
             f"larvae_moisture={100 * larvae_moisture:.4f}%", when=harvest)


def check_boxes(roundbook, checks):
    book = Logbook(roundbook, "2027-06-09T08:00:00Z")
    for box, *inputs, bcr, bcr_dry, wr, wr_dry, ecd, wri, fcr in BOXES:
        code = box.lower()
        fill(book, code, *inputs)
        book.run("end", code, when=f"2027-06-{inputs[0] + 1:02d} 09:00")
        got = book.figures(code)
        for key, expected, tolerance, scale in [
                ("bioconversion", bcr, .01, 100), ("bioconversion_dry", bcr_dry, .01, 100),
                ("waste_reduction", wr, .01, 100), ("waste_reduction_dry", wr_dry, .01, 100),
                ("ecd_dry", ecd, .01, 100), ("wri_dry", wri, .001, 1), ("fcr", fcr, .001, 1)]:
            checks.near(got[f"larvae.{key}"] * scale, expected, tolerance, f"{box} {key}")
        # Identities of the definitions: bioconversion is waste reduction times ECD; FCR its inverse.
        checks.near(got["larvae.waste_reduction_dry"] * got["larvae.ecd_dry"],
                    got["larvae.bioconversion_dry"], 1e-9, f"{box} bioconversion as a product")
        checks.near(got["larvae.fcr"] * got["larvae.bioconversion"], 1, 1e-9, f"{box} FCR")
    # CF-1a, worked: loss 2097.00 - (751.94 + 501.60) = 843.46 g dry; 83.33 mg a larva a day; 5 a cm2.
    got = book.figures("cf-1a")
    checks.near(got["larvae.loss_dry"] * 1000, 843.46, .02, "CF-1a loss")
    checks.near(got["larvae.feed_per_larva"], 83.33, .01, "CF-1a feed a larva")
    checks.near(got["larvae.density"], 5.0, 1e-9, "CF-1a density")
    # Its mean larva weighed 140.5 mg at the end: (1831 / 0.1405) / 12000 = 108.6 %, by sampling error.
    book.run("log", "cf-1a", "sample=140.5mg", when="2027-06-07 08:05")
    text = book.run("show", "cf-1a", "--all")
    checks.near(book.figures("cf-1a")["larvae.survival"] * 100, 108.6, .05, "CF-1a survival")
    checks.has(text, "above 100 %: the sample or the count is off", "CF-1a survival is explained")


# github.com/MoritzGold/BSFL_agri_microbiota, data/performance_data.xlsx, commit c391545 (13 Jul 2021):
# 60 g of dry feed a container, the start mass not subtracted. Larvae counted at the end, mg dry each,
# waste reduction % (dry); bioconversion % = number x mg / 1000 / 60 x 100.
COUNTED = [
    ("food waste, open 1", 247, 52.36, 57.392, 21.555),
    ("food waste, open 2", 264, 48.621, 53.733, 21.393),
    ("food waste, closed 1", 218, 51.06, 43.992, 18.552),
    ("tomato pomace, open 1", 217, 42.576, 46.715, 15.398),
    ("white wine pomace, open 1", 205, 15.405, 37.476, 5.263),
]


def check_counted(roundbook, checks):
    """All is weighed dry there, so every moisture is 0; the young are not weighed."""
    book = Logbook(roundbook, "2027-06-30T08:00:00Z")
    for number, (what, count, mass, reduction, expected) in enumerate(COUNTED, 1):
        code, start, harvest = f"pan-{number}", "2027-06-01 08:00", "2027-06-13 08:00"
        book.run("start", "larvae", code, "seeded=300", when=start)
        book.run("add", code, "60g", "food scraps", when=start)
        book.run("log", code, f"sample={mass}mg", "feed_moisture=0%", "larvae_moisture=0%",
                 "frass_moisture=0%", when=harvest)
        book.run("take", code, count, "larvae", when=harvest)
        book.run("take", code, f"{60 * (1 - reduction / 100):.5f}g", "frass", when=harvest)
        book.run("end", code, when=harvest)
        got = book.figures(code)
        checks.near(got["larvae.bioconversion_dry"] * 100, expected, .001, what)
        checks.near(got["larvae.waste_reduction_dry"] * 100, reduction, .001, f"{what} reduction")
        checks.near(got["larvae.ecd_dry"] * 100, 100 * expected / reduction, .01, f"{what} ECD")
        checks.has(book.run("show", code, "--all"), "young larvae not weighed, taken as nothing", what)


# github.com/adrihuda/Bioconversion-of-Domestic-Waste-using-Black-Soldier-Fly,
# table8_nitrogen_protein.csv (CC BY 4.0): nitrogen -> crude protein, % of dry matter, 6.25 x N.
PROTEIN = [(1.83, 11.44), (1.88, 11.75), (1.90, 11.88), (1.94, 12.13), (5.34, 33.38), (5.47, 34.19),
           (5.62, 35.13), (6.09, 38.06), (6.42, 40.13), (6.67, 41.69)]


def check_protein(roundbook, checks):
    book = Logbook(roundbook, "2027-06-30T08:00:00Z")
    for number, (nitrogen, protein) in enumerate(PROTEIN, 1):
        code, harvest = f"bin-{number}", "2027-06-13 08:00"
        book.run("start", "larvae", code, "seeded=10000", when="2027-06-01 08:00")
        book.run("take", code, "1kg", "larvae", when=harvest)
        book.run("log", code, "larvae_moisture=60%", f"larvae_nitrogen={nitrogen}%", when=harvest)
        got = book.figures(code)
        checks.near(got["larvae.crude_protein"] * 100, protein, .00501, f"protein of {nitrogen} % N")
        # Less what their chitin holds, as the analysis code of Gold and co-workers has it: N x 4.67.
        checks.near(got["larvae.protein"], .4 * nitrogen / 100 * 4.67, 1e-6, f"N x 4.67 of {nitrogen} %")


def main():
    checks = Checks()
    check_boxes(sys.argv[1], checks)
    check_counted(sys.argv[1], checks)
    check_protein(sys.argv[1], checks)
    checks.done()


if __name__ == "__main__":
    main()
