#!/usr/bin/env python3
"""Checks that what must not compile does not, and for the right reason.

  check_compile_fail.py FOLDER COMPILER [FLAG...]

Each FOLDER/*.cpp must compile as it is. With WRONG defined it must not: every error must be on a line
that ends in "// ERROR: PATTERN", and its message must match that pattern. (An error anywhere else, such
as a header that is not found, is a broken test and no success.)
"""
import os
import pathlib
import re
import subprocess
import sys

EXPECTED = re.compile(r"//\s*ERROR:\s*(.+?)\s*$")
ERROR = re.compile(r"^(?P<file>.+?):(?P<line>\d+):(?:\d+:)? (?:fatal )?error: (?P<message>.*)$", re.M)


def compile_errors(command, source):
    """The exit status, and each error as (file, line, message)."""
    done = subprocess.run([*command, str(source)], capture_output=True, text=True,
                          env={**os.environ, "LC_ALL": "C"})
    errors = [(m["file"], int(m["line"]), m["message"]) for m in ERROR.finditer(done.stderr)]
    return done.returncode, errors, done.stderr


def complaint(command, source):
    """What is wrong with one snippet, or None."""
    status, _, output = compile_errors(command, source)
    if status != 0:
        return f"does not compile as it is:\n{output}"
    expected = {}
    for number, line in enumerate(source.read_text(encoding="utf-8").splitlines(), 1):
        if found := EXPECTED.search(line):
            expected[number] = re.compile(found[1])
    if not expected:
        return "names no error that it expects"
    status, errors, output = compile_errors([*command, "-DWRONG"], source)
    if status == 0:
        return "compiles, and must not"
    for file, line, message in errors:
        if pathlib.Path(file).name != source.name or line not in expected:
            return f"fails elsewhere, at {file}:{line}: {message}"
        if not expected[line].search(message):
            return f"fails at {line} for another reason: {message}"
    missing = sorted(set(expected) - {line for _, line, _ in errors})
    if missing:
        return f"has no error at line {missing[0]}:\n{output}"
    return None


def main():
    folder, command = pathlib.Path(sys.argv[1]), [*sys.argv[2:], "-fsyntax-only"]
    snippets = sorted(folder.glob("*.cpp"))
    failed = False
    for source in snippets:
        wrong = complaint(command, source)
        failed = failed or wrong is not None
        print(f"{source.name}: {wrong or 'is refused as it should be'}")
    sys.exit(1 if failed or not snippets else 0)


if __name__ == "__main__":
    main()
