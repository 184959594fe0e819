#!/usr/bin/env python3
"""At a terminal, words that are no readings are offered as a remark: Enter keeps them, n drops them; from a pipe
nobody is asked. A pseudo-terminal stands for the person's.

  remark_at_terminal.py ROUNDBOOK
"""
import os
import pathlib
import pty
import sqlite3
import subprocess
import sys
import tempfile


def main():
    roundbook = str(pathlib.Path(sys.argv[1]).resolve())
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        path = f"{folder}/site.db"
        env = {"PATH": "/usr/bin:/bin", "HOME": folder, "LC_ALL": "C.UTF-8", "ROUNDBOOK_BOOK": path,
               "ROUNDBOOK_WHO": "tester", "ROUNDBOOK_NOW": "2027-05-03T07:15:00-07:00", "COLUMNS": "80"}
        env.update({k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "UBSAN_", "LLVM_"))})
        for line in (["new", "--site", "X", "--zone", "America/Los_Angeles", "--units", "us"],
                     ["start", "bed", "bed-3"]):
            subprocess.run([roundbook, *line], env=env, check=True, stdout=subprocess.DEVNULL)

        def notes():
            with sqlite3.connect(path) as book:
                return [row[0] for row in book.execute("SELECT text FROM note ORDER BY id")]

        def typed(key):
            ours, theirs = pty.openpty()
            done = subprocess.Popen([roundbook, "log", "bed-3", "1st", "frost", "touched"], env=env, stdin=theirs,
                                    stdout=theirs, stderr=theirs)
            os.close(theirs)
            os.write(ours, key)
            shown = b""
            try:
                while chunk := os.read(ours, 4096):
                    shown += chunk
            except OSError:
                pass  # the other end is closed
            os.close(ours)
            return done.wait(timeout=60), shown.decode()

        for key, status, kept in ((b"n\n", 2, []), (b"\x04", 2, []), (b"\n", 0, ["1st frost touched"])):
            came, shown = typed(key)
            if came != status or notes() != kept or "as a remark? [Enter: yes, n: no]" not in shown:
                wrong += 1
                print(f"after {key!r}: exit {came}, notes {notes()}\n{shown}")
        piped = subprocess.run([roundbook, "log", "bed-3", "2nd", "frost"], env=env, stdin=subprocess.DEVNULL,
                               capture_output=True, text=True)
        if piped.returncode != 2 or "[Enter" in piped.stderr:
            wrong += 1
            print(f"from a pipe: exit {piped.returncode}\n{piped.stderr}")
    sys.exit(1 if wrong else 0)


main()
