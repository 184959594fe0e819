#!/usr/bin/env python3
"""`compare` against R: Immer's barley (tests/data/barley.csv) is carried out of bins by the command line,
and what `compare --json` makes of it is held against t.test, wilcox.test, aov and power.t.test.

  against_r.py ROUNDBOOK

Says so and exits 77 (skipped) where R is not installed (Debian package r-base-core).
"""
import csv
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

SKIPPED = 77
WITHIN = 1e-8  # relative
VARIETIES = ["Trebi", "Wisconsin No. 38", "Peatland"]


def yields(variety):
    path = pathlib.Path(__file__).parent / "data" / "barley.csv"
    with open(path, encoding="utf-8", newline="") as f:
        rows = sorted((r["site"], float(r["yield"])) for r in csv.DictReader(f)
                      if r["year"] == "1931" and r["variety"] == variety)
    return [value for _, value in rows]


def r_says(script):
    done = subprocess.run(["Rscript", "-e", script], capture_output=True, text=True, check=True)
    return [float(word) for word in done.stdout.split()]


def vector(values):
    return "c(" + ",".join(map(repr, values)) + ")"


class Checks:
    wrong = 0
    count = 0

    def close(self, what, ours, theirs):
        self.count += 1
        if abs(ours - theirs) > WITHIN * max(abs(theirs), 1e-12):
            self.wrong += 1
            print(f"{what}: {ours!r} here, {theirs!r} by R")


def main():
    if shutil.which("Rscript") is None:
        print("skipped: R is not installed (apt-get install r-base-core)")
        sys.exit(SKIPPED)
    checks = Checks()
    with tempfile.TemporaryDirectory() as folder:
        env = {**os.environ, "ROUNDBOOK_BOOK": f"{folder}/trial.db", "TZ": "UTC", "LC_ALL": "C.UTF-8",
               "ROUNDBOOK_NOW": "2027-09-01T08:00:00Z"}

        def roundbook(*words):
            return subprocess.run([sys.argv[1], *words], env=env, capture_output=True, text=True,
                                  check=True).stdout

        roundbook("new", "--site", "X", "--zone", "UTC", "--units", "metric")
        codes = {}
        for letter, variety in zip("abc", VARIETIES):
            codes[variety] = []
            for n, value in enumerate(yields(variety), 1):
                code = f"{letter}-{n}"
                roundbook("start", "larvae", code, "--when", "-9d")
                roundbook("take", code, f"{value}kg", "larvae", "--sure")
                codes[variety].append(code)
        first, second, third = (yields(v) for v in VARIETIES)
        x, y, z = map(vector, (first, second, third))

        def compare(*words):
            return json.loads(roundbook("compare", *words, "--measure", "larvae", "--json"))

        a, b, c = (codes[v] for v in VARIETIES)
        for pairs, flag in (("TRUE", "--pairs"), ("FALSE", "--no-pairs")):
            ours = compare(*a, "against", *b, flag, "--by-lot")
            theirs = r_says(f"options(digits=15,warn=-1);x<-{x};y<-{y};t<-t.test(x,y,paired={pairs});"
                            f"w<-wilcox.test(x,y,paired={pairs});"
                            "cat(sprintf('%.15g',c(t$statistic,t$parameter,t$p.value,t$conf.int,"
                            "w$statistic,w$p.value)))")
            student = ours["student"]
            for name, value in zip(("t", "degrees", "p", "low", "high"), theirs):
                checks.close(f"{flag} {name}", student[name], value)
            checks.close(f"{flag} ranks", ours["by_ranks"]["statistic"], theirs[5])
            checks.close(f"{flag} p by ranks", ours["by_ranks"]["p"], theirs[6])
        swaps = r_says(f"d<-{x}-{y};s<-as.matrix(expand.grid(rep(list(c(-1,1)),6)));"
                       "cat(mean(abs(s%*%d)>=abs(sum(d))-1e-9))")
        ours = compare(*a, "against", *b, "--pairs", "--by-lot")
        checks.close("p by swaps", ours["by_lots"]["p"], swaps[0])
        ways = r_says(f"v<-c({x},{y});k<-combn(12,6);m<-colSums(matrix(v[k],6));"
                      "cat(mean(abs(m-sum(v)/2)>=abs(m[1]-sum(v)/2)-1e-9))")
        ours = compare(*a, "against", *b, "--no-pairs", "--by-lot")
        checks.close("p by divisions", ours["by_lots"]["p"], ways[0])
        ours = compare(*a, "against", *b, "against", *c, "--pairs", "--by-lot")["blocks"]
        theirs = r_says(f"y<-c({x},{y},{z});b<-factor(rep(1:6,3));t<-factor(rep(1:3,each=6));"
                        "s<-summary(aov(y~b+t))[[1]];"
                        "cat(sprintf('%.15g',c(s[2,4],s[2,5],s[1,4],s[1,5],"
                        "qt(.975,10)*sqrt(2*s[3,3]/6))))")
        for name, value in zip(("f", "p", "f_blocks", "p_blocks", "least_difference"), theirs):
            checks.close(f"blocks {name}", ours[name], value)
        plan = json.loads(roundbook("compare", "--worth", "20%", "--spread", "15%", "--no-pairs", "--json"))
        needed = r_says("cat(ceiling(power.t.test(delta=20,sd=15,power=.8)$n))")
        checks.close("plots needed", plan["needed"], needed[0])
        for step in plan["steps"]:
            theirs = r_says(f"cat(sprintf('%.15g',power.t.test(n={step['plots']},"
                            f"delta={step['could_see']!r},sd=.15)$power))")
            checks.close(f"power with {step['plots']}", 0.8, theirs[0])
    print(f"{checks.count} figures held against R, {checks.wrong} differ")
    sys.exit(1 if checks.wrong else 0)


if __name__ == "__main__":
    main()
