#!/usr/bin/env python3
"""The pages for the shed, printed by Chromium: twenty batches with a dozen jobs on one side of letter and of A4,
eight labels a page, nothing asked for from anywhere.

  paper.py ROUNDBOOK
Exit 77: Chromium is not here.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

NOW = "2026-10-19T08:00:00-07:00"
SITE = ["new --site 'Tern <Hollow> & sons' --zone America/Los_Angeles --units us",
        "place 'the lower yard behind the shed'"]
for i in range(1, 7):
    SITE += [f"start pile heap-{i} volume='1 yd3' --place 'the lower yard behind the shed' --when '2026-10-01 9:00'",
             f"log heap-{i} core=16{i}F edge=121F turned --when '2026-10-17 7:00'"]
for i in range(1, 7):
    SITE += [f"start brew drum-{i} volume=50gal lid=sealed --when '2026-10-01 9:00'",
             f"log drum-{i} 60F stirred --when '2026-10-02 7:10'"]
for i in range(1, 9):
    SITE += [f"start bed bed-{i} crop=lettuce area=40ft2 --when '2026-09-15 9:00'",
             f"add bed-{i} 20lb horse manure --when '2026-09-15 9:10'"]


def pages(chromium, page, paper, folder):
    """How many sides it takes; the paper is asked for by a rule that the page's own policy allows."""
    text = page.read_text(encoding="utf-8")
    sized = folder / f"{page.stem}-{paper}.html"
    sized.write_text(text.replace("</style>", f"@page {{ size: {paper}; }}</style>", 1), encoding="utf-8")
    pdf = sized.with_suffix(".pdf")
    subprocess.run([chromium, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
                    f"--print-to-pdf={pdf}", sized.as_uri()], check=True, capture_output=True, timeout=120)
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf.read_bytes()))


def main():
    roundbook = pathlib.Path(sys.argv[1]).resolve()
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if not chromium:
        print("Chromium is not here")
        sys.exit(77)
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        env = {"PATH": "/usr/bin:/bin", "HOME": name, "LC_ALL": "C.UTF-8", "ROUNDBOOK_BOOK": "site.db",
               "ROUNDBOOK_NOW": NOW, "ROUNDBOOK_BACKUPS": "off"}
        for line in SITE + ["sheet", "sheet large.html --large", "labels"]:
            done = subprocess.run(["bash", "-c", f'"{roundbook}" {line}'], cwd=name, env=env, capture_output=True)
            assert done.returncode == 0, f"{line}: {done.stderr.decode()}"
        sheet, large, labels = (folder / f"{one}.html" for one in ("sheet", "large", "labels"))
        for page in (sheet, large, labels):
            text = page.read_text(encoding="utf-8")
            assert "Tern &lt;Hollow&gt; &amp; sons" in text and "<Hollow>" not in text
            assert "default-src 'none'" in text and "<script" not in text and " style=" not in text
            assert not re.search(r"(?:src|href)=", text), "it asks for something"
        text = sheet.read_text(encoding="utf-8")
        assert text.count('scope="row"') == 20 and text.count('class="tick"') >= 12, text.count('class="tick"')
        for paper in ("letter", "A4"):
            took = pages(chromium, sheet, paper, folder)
            assert took == 1, f"the sheet takes {took} sides of {paper}"
            assert pages(chromium, large, paper, folder) > 1, "large print is not larger"
            took = pages(chromium, labels, paper, folder)
            assert took == 3, f"20 labels take {took} sides of {paper}"
    print("one side of letter and of A4 for 20 batches; 20 labels on three")


if __name__ == "__main__":
    main()
