#!/usr/bin/env python3
"""The documents keep to the truth: every path that README.md and DEVELOPERS.md name exists, and every
command and kind of the program stands in the README.

  check_documents.py REPOSITORY
"""
import pathlib
import re
import sys

KIND = re.compile(r'^const (?:Old)?Kind k\w+\{\s*\.name = "([a-z]+)"', re.M)
PATH = re.compile(r"`((?:src|schema|tests|scripts|sample-data|\.ci)/[A-Za-z0-9_./-]*)`")


def main():
    root = pathlib.Path(sys.argv[1])
    wrong = []
    for name in ("README.md", "DEVELOPERS.md"):
        text = (root / name).read_text(encoding="utf-8")
        for path in PATH.findall(text):
            if not (root / path).exists():
                wrong.append(f"{name} names {path}, which does not exist")
    readme = (root / "README.md").read_text(encoding="utf-8")
    table = (root / "src/cli/shell/command_table.cpp").read_text(encoding="utf-8")
    for command in re.findall(r'Command\{"([a-z]+)"', table):
        if f"`{command}" not in readme and f"roundbook {command}" not in readme:
            wrong.append(f"README.md does not speak of the command '{command}'")
    for path in sorted((root / "src/kinds").rglob("*.cpp")):
        for kind in KIND.findall(path.read_text(encoding="utf-8")):
            if f"`{kind}`" not in readme:
                wrong.append(f"README.md does not speak of the kind '{kind}'")
    print("\n".join(wrong) if wrong else "the documents name what there is")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
