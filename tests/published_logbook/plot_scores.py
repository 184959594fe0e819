#!/usr/bin/env python3
"""What is read of a trial's plots, compared: the example that R ships as PlantGrowth.

Dried weights of plants under a control and a treatment (Dobson, An Introduction to Statistical Modelling, 1983,
table 9.1; datasets::PlantGrowth), here typed as each plot's score, whose scale is the person's own, and as heights.
R's t.test(weight ~ group) of the first two groups prints: means 5.032 and 4.661, t = 1.1913, df = 16.524,
p = 0.2504, 95 % from -0.2875 to 1.0295 (from memory).
"""
import sys

from logbook import Logbook

CONTROL = [4.17, 5.58, 5.18, 6.11, 4.50, 4.61, 5.17, 4.53, 5.33, 5.14]
TREATED = [4.81, 4.17, 4.41, 3.59, 5.87, 3.83, 6.03, 4.89, 4.32, 4.69]
# Treated less control.
PRINTED = {"t": -1.1913, "degrees": 16.524, "p": 0.2504, "low": -1.0295, "high": 0.2875}


def main():
    book = Logbook(sys.argv[1], "2027-06-20T12:00:00Z")
    codes = {"c": [], "t": []}
    for side, scores in (("c", CONTROL), ("t", TREATED)):
        for number, score in enumerate(scores, 1):
            code = f"{side}{number}"
            codes[side].append(code)
            book.run("start", "bed", code, "area=1m2", when="2027-06-01 08:00")
            book.run("log", code, f"score={score}", f"height={score * 10:.1f}cm", f"emerged={number}",
                     when="2027-06-15 08:00")
    wrong = 0
    for measure, scale in (("score", 1), ("height", 0.1)):  # 5.032 typed as 50.32 cm is 0.5032 m
        found = book.json("compare", *codes["t"], "against", *codes["c"], "--measure", measure, "--no-pairs",
                          "--by-lot")
        means = [side["mean"] / scale for side in found["sides"]]
        pairs = [("treated mean", means[0], 4.661), ("control mean", means[1], 5.032)]
        for key, printed in PRINTED.items():
            pairs.append((key, found["student"][key] / (scale if key in ("low", "high") else 1), printed))
        for what, ours, printed in pairs:
            # The last digit printed is rounded.
            if abs(ours - printed) > (5.1e-4 if what == "degrees" or "mean" in what else 5.1e-5):
                wrong += 1
                print(f"{measure}, {what}: {ours} here, {printed} printed")
    counted = book.json("compare", *codes["t"], "against", *codes["c"], "--measure", "emerged", "--no-pairs",
                        "--by-lot")
    if counted["difference"]["si"] != 0:
        wrong += 1
        print(f"plants come up: {counted['difference']} between the same counts")
    sys.exit(1 if wrong else 0)


main()
