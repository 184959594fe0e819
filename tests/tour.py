#!/usr/bin/env python3
"""Keeps the tour in README.md true: runs its console blocks on a fresh copy of the sample site, in order,
and compares what is printed with what stands there.

  tour.py ROUNDBOOK SAMPLE_BOOK README          compares
  UPDATE=1 tour.py ROUNDBOOK SAMPLE_BOOK README  writes what was printed
"""
import difflib
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

NOW = "2026-10-19T08:00:00-07:00"  # the sample's morning, as the README has it
BLOCK = re.compile(r"(```console\n)(.*?)(```\n)", re.S)


def main():
    roundbook, sample, readme = (pathlib.Path(p).resolve() for p in sys.argv[1:4])
    text = readme.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        os.mkdir(f"{folder}/bin")
        os.symlink(roundbook, f"{folder}/bin/roundbook")
        shutil.copy(sample, f"{folder}/tern-hollow.db")
        env = {"PATH": f"{folder}/bin:/usr/bin:/bin", "HOME": folder, "TZ": "UTC", "LC_ALL": "C.UTF-8",
               "ROUNDBOOK_BOOK": f"{folder}/tern-hollow.db", "ROUNDBOOK_WHO": "teacher", "ROUNDBOOK_NOW": NOW,
               **{k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "UBSAN_", "LLVM_"))}}

        def run(block):
            out = []
            for line in block.group(2).splitlines():
                if not line.startswith("$ "):
                    continue
                done = subprocess.run(["bash", "-c", line[2:]], cwd=folder, env=env, stdin=subprocess.DEVNULL,
                                      stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=120)
                out += [line, done.stdout.decode("utf-8").replace(folder + "/", "").rstrip("\n")]
            return block.group(1) + "\n".join(part for part in out if part) + "\n" + block.group(3)

        is_now = BLOCK.sub(run, text)
    if not BLOCK.search(text):
        sys.exit("the README holds no console block")
    if is_now == text:
        return
    if os.environ.get("UPDATE"):
        readme.write_text(is_now, encoding="utf-8")
        return
    sys.stdout.writelines(difflib.unified_diff(text.splitlines(True), is_now.splitlines(True),
                                               "README.md", "README.md as it is printed now"))
    sys.exit(1)


if __name__ == "__main__":
    main()
