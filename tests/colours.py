#!/usr/bin/env python3
"""The colours of the report's lines and bands are told apart by whoever looks at them: in full colour, with each
of the three common colour blindnesses, and in grey; and they stand out from the paper.

  colours.py STYLE_SHEET

The difference is CIEDE2000 (Sharma, Wu and Dalal 2005, Color Research and Application 30:21; its first three test
pairs are checked here). Colour blindness is simulated after Machado, Oliveira and Fernandes 2009 (IEEE Trans. Vis.
Comput. Graph. 15:1291), severity 1, matrices from memory. That 10 is plainly different side by side is common practice;
contrast of 3 to 1 for what carries meaning is WCAG 2.1, criterion 1.4.11.
"""
import itertools
import math
import re
import sys

LEAST, LEAST_CONTRAST = 10, 3
SIMULATED = {
    "full colour": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "no red": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "no green": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "no blue": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
    "grey": ((0.2126, 0.7152, 0.0722),) * 3,
}


def linear(hexadecimal):
    parts = [int(hexadecimal[i:i + 2], 16) / 255 for i in (1, 3, 5)]
    return [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]


def lab(rgb):
    r, g, b = (min(max(c, 0), 1) for c in rgb)
    xyz = (0.4124 * r + 0.3576 * g + 0.1805 * b, 0.2126 * r + 0.7152 * g + 0.0722 * b,
           0.0193 * r + 0.1192 * g + 0.9505 * b)
    f = [t ** (1 / 3) if t > 216 / 24389 else (24389 / 27 * t + 16) / 116
         for t in (xyz[0] / 0.95047, xyz[1], xyz[2] / 1.08883)]
    return 116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])


def ciede2000(one, other):
    (l1, a1, b1), (l2, a2, b2) = one, other
    mean7 = ((math.hypot(a1, b1) + math.hypot(a2, b2)) / 2) ** 7
    g = 0.5 * (1 - math.sqrt(mean7 / (mean7 + 25 ** 7)))
    a1, a2 = a1 * (1 + g), a2 * (1 + g)
    c1, c2 = math.hypot(a1, b1), math.hypot(a2, b2)
    h1, h2 = (math.degrees(math.atan2(b, a)) % 360 for a, b in ((a1, b1), (a2, b2)))
    turn = 0 if c1 * c2 == 0 else (h2 - h1 + 180) % 360 - 180
    dl, dc, dh = l2 - l1, c2 - c1, 2 * math.sqrt(c1 * c2) * math.sin(math.radians(turn / 2))
    lm, cm = (l1 + l2) / 2, (c1 + c2) / 2
    hm = h1 + h2 if c1 * c2 == 0 else (h1 + turn / 2) % 360
    t = (1 - 0.17 * math.cos(math.radians(hm - 30)) + 0.24 * math.cos(math.radians(2 * hm))
         + 0.32 * math.cos(math.radians(3 * hm + 6)) - 0.20 * math.cos(math.radians(4 * hm - 63)))
    sl = 1 + 0.015 * (lm - 50) ** 2 / math.sqrt(20 + (lm - 50) ** 2)
    sc, sh = 1 + 0.045 * cm, 1 + 0.015 * cm * t
    rt = (-2 * math.sqrt(cm ** 7 / (cm ** 7 + 25 ** 7))
          * math.sin(math.radians(60 * math.exp(-((hm - 275) / 25) ** 2))))
    return math.sqrt((dl / sl) ** 2 + (dc / sc) ** 2 + (dh / sh) ** 2 + rt * dc / sc * dh / sh)


def contrast(one, other):
    light = sorted(0.2126 * r + 0.7152 * g + 0.0722 * b for r, g, b in (linear(one), linear(other)))
    return (light[1] + 0.05) / (light[0] + 0.05)


def main():
    for one, other, known in (((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
                              ((50, 3.1571, -77.2803), (50, 0, -82.7485), 2.8615),
                              ((50, 2.8361, -74.0200), (50, 0, -82.7485), 3.4412)):
        assert abs(ciede2000(one, other) - known) < 5e-5, (one, other, ciede2000(one, other))
    sheet = open(sys.argv[1], encoding="utf-8").read()
    roots = re.findall(r":root \{(.*?)\}", sheet, re.S)
    wrong, nearest = [], 1e9
    for theme, root in zip(("light", "dark"), roots):
        colours = dict(re.findall(r"--([a-z0-9-]+): (#[0-9a-f]{6})", root))
        for family in (["line-0", "line-1", "line-2", "line-3"], ["came", "on", "back", "left"], ["bar", "second"]):
            for name in family:
                if name != "second" and contrast(colours[name], colours["paper"]) < LEAST_CONTRAST:
                    wrong.append(f"{theme}: {name} does not stand out from the paper")
            for one, other in itertools.combinations(family, 2):
                for eye, matrix in SIMULATED.items():
                    seen = [lab([sum(m * c for m, c in zip(row, linear(colours[n]))) for row in matrix])
                            for n in (one, other)]
                    apart = ciede2000(*seen)
                    nearest = min(nearest, apart)
                    if apart < LEAST:
                        wrong.append(f"{theme}: {one} and {other} are {apart:.1f} apart: {eye}")
    print("\n".join(wrong) if wrong else f"every pair is {nearest:.1f} apart or more")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
