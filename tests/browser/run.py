#!/usr/bin/env python3
"""Makes the sample site's season report, with a note that holds markup, and looks at it in Chromium.

  run.py ROUNDBOOK SAMPLE_BOOK [FOLDER FOR SCREENSHOTS]

Says so and exits 77 (skipped) where chromium, node or npm is not installed, or npm's packages cannot be had.
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
NOTE = "</script><script>window.ran=1</script><img src=x onerror=window.ran=1> & <b>bold</b>"


def main():
    roundbook, sample = (pathlib.Path(p).resolve() for p in sys.argv[1:3])
    for program in ("chromium", "node", "npm"):
        if shutil.which(program) is None:
            print(f"skipped: {program} is not installed")
            sys.exit(77)
    if subprocess.run([HERE / "setup"]).returncode != 0:
        print("skipped: npm could not fetch playwright-core and axe-core")
        sys.exit(77)
    with tempfile.TemporaryDirectory() as folder:
        book = shutil.copy(sample, f"{folder}/book.db")
        env = {**os.environ, "ROUNDBOOK_BOOK": book, "ROUNDBOOK_NOW": "2026-10-19T08:00:00-07:00",
               "ROUNDBOOK_WHO": "teacher", "HOME": folder}
        subprocess.run([roundbook, "log", "heap-4", "--note", NOTE], env=env, check=True, stdout=subprocess.DEVNULL)
        page = f"{folder}/season.html"
        subprocess.run([roundbook, "season", "--html", page], env=env, check=True, stdout=subprocess.DEVNULL)
        done = subprocess.run(["node", HERE / "report.mjs", shutil.which("chromium"), page, *sys.argv[3:4]],
                              env={**os.environ, "HOME": folder})
        sys.exit(done.returncode)


if __name__ == "__main__":
    main()
