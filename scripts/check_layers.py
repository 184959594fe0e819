#!/usr/bin/env python3
"""Which layer may include which: reads every #include "layer/file.h" below src/ against one table, and
the headers that a layer must not use at all. A tripwire, not a proof.

  check_layers.py SRC_DIR
"""
import pathlib
import re
import sys

MAY_USE = {
    "measure": {"measure"},
    "science": {"science", "measure"},
    "model": {"model", "measure"},
    "kinds": {"kinds", "model", "science", "measure"},
    "book": {"book", "model", "measure"},
    "season": {"season", "kinds", "model", "science", "measure"},
    "render": {"render", "season", "model", "measure"},
    "cli": {"cli", "render", "book", "season", "kinds", "model", "science", "measure"},
}
# A system header, and the layers that may include it.
ONLY_IN = {
    "sqlite3.h": {"book"},
    "SQLiteCpp/": {"book"},
    "CLI/": {"cli"},
    "nlohmann/": {"render"},
    "utf8proc.h": {"render"},
    "lpsolve/": {"science"},
    "boost/": {"science"},
    "fstream": {"book", "cli"},
    "iostream": set(),
    "cstdlib": {"cli"},
}
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.M)


def main():
    src = pathlib.Path(sys.argv[1])
    wrong = []
    files = 0
    for path in sorted(src.glob("*/*.h")) + sorted(src.glob("*/*.cpp")):
        files += 1
        layer = path.parent.name
        if layer not in MAY_USE:
            wrong.append(f"{path}: '{layer}' is no layer of this table")
            continue
        for bracket, name in INCLUDE.findall(path.read_text(encoding="utf-8")):
            if bracket == '"':
                target = name.split("/")[0]
                if "/" not in name:
                    wrong.append(f"{path}: includes \"{name}\" without naming its layer")
                elif target not in MAY_USE[layer]:
                    wrong.append(f"{path}: {layer} may not include {name}")
                continue
            for header, layers in ONLY_IN.items():
                if name.startswith(header) and layer not in layers:
                    wrong.append(f"{path}: {layer} may not include <{name}>")
    print("\n".join(wrong) if wrong else f"{files} files keep to their layers")
    sys.exit(1 if wrong or files == 0 else 0)


if __name__ == "__main__":
    main()
