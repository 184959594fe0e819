#!/usr/bin/env python3
"""Which layer may include which: reads every #include "layer/file.h" below src/ against one table, and
the headers that a layer must not use at all; whether a kind's folder is included, or a kind named in a
string, where none may be; whether a reading, word or setting is looked up by a literal; and whether two
headers of a namespace define a type of one name. A tripwire, not a proof.

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
# A system header, and the layers, or the one file, that may include it.
ONLY_IN = {
    "sqlite3.h": {"book"},
    "SQLiteCpp/": {"book"},
    "CLI/": {"cli"},
    "nlohmann/": {"render/json_value.cpp"},
    "utf8proc.h": {"render"},
    "lpsolve/": {"science"},
    "boost/": {"science"},
    "fstream": {"book", "cli"},
    "iostream": set(),
    "cstdlib": {"cli"},
}
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.M)

NAMESPACE = re.compile(r'^namespace ([\w:]+) \{', re.M)
TYPE = re.compile(r'^(?:struct|class|enum class) (\w+)(?: final)?(?: :[^:;{][^;{]*)? \{', re.M)


def type_names(path, text, seen):
    """A type of one name in two headers of a namespace compiles, links, and is two things at once."""
    space = NAMESPACE.search(text)
    for name in TYPE.findall(text) if space else []:
        whole = f"{space.group(1)}::{name}"
        if whole in seen:
            yield f"{path}: {whole} is also in {seen[whole]}"
        seen[whole] = path


# A kind is named in its own folder and in the help's examples; elsewhere code asks for its role. Its names
# that are a group of materials too stand beside the materials.
MAY_NAME_KINDS = {"cli/shell/command_table.cpp", "model/material.cpp", "model/material_groups.h"}
# What is looked up by a name of the vocabulary: by its constant, so that a misspelt one does not compile.
LOOKED_UP = re.compile(r'(?:\.|->)(?:find|all|last_deed|last_sensed|deeds_since|text|number|setting)\("([a-z][a-z_-]*)"')


def kinds_of(src):
    return sorted(path.name for path in (src / "kinds").iterdir() if path.is_dir())


def strangers(path, where, text, kinds):
    """Kinds named or included where none may be, and names looked up by a literal."""
    parts = where.parts
    own = parts[1] if parts[0] == "kinds" and len(parts) > 2 else None
    for bracket, name in INCLUDE.findall(text):
        folder = name.split("/")
        if bracket == '"' and folder[0] == "kinds" and len(folder) > 2 and folder[1] != own:
            yield f"{path}: includes {name}, which is the {folder[1]}'s own"
    if own is None and parts[0] != "kinds" and str(where) not in MAY_NAME_KINDS:
        code = re.sub(r"//.*", "", text)
        for name in re.findall(r'"(%s)[".]' % "|".join(kinds), code):
            yield f"{path}: names the kind '{name}'; ask for its role"
    if parts[0] in ("kinds", "season"):
        for name in LOOKED_UP.findall(text):
            yield f"{path}: looks up \"{name}\" by a literal; use the constant of its row"


def main():
    src = pathlib.Path(sys.argv[1])
    kinds = kinds_of(src)
    wrong = []
    files = 0
    seen = {}
    for path in sorted(src.glob("*/**/*.h")) + sorted(src.glob("*/**/*.cpp")):
        files += 1
        layer = path.relative_to(src).parts[0]
        if layer not in MAY_USE:
            wrong.append(f"{path}: '{layer}' is no layer of this table")
            continue
        text = path.read_text(encoding="utf-8")
        if path.suffix == ".h":
            wrong.extend(type_names(path, text, seen))
        wrong.extend(strangers(path, path.relative_to(src), text, kinds))
        for bracket, name in INCLUDE.findall(text):
            if bracket == '"':
                target = name.split("/")[0]
                if "/" not in name:
                    wrong.append(f"{path}: includes \"{name}\" without naming its layer")
                elif target not in MAY_USE[layer]:
                    wrong.append(f"{path}: {layer} may not include {name}")
                continue
            for header, layers in ONLY_IN.items():
                if name.startswith(header) and not layers & {layer, str(path.relative_to(src))}:
                    wrong.append(f"{path}: may not include <{name}>")
    print("\n".join(wrong) if wrong else f"{files} files keep to their layers")
    sys.exit(1 if wrong or files == 0 else 0)


if __name__ == "__main__":
    main()
