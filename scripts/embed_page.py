#!/usr/bin/env python3
"""Turns the season report's style sheet and scripts into C++ at build, with the libraries that they use as
Debian ships them and the licence of each before it.

  embed_page.py PAGE_DIR OUT_FILE

The page forbids itself every script but this one, by its SHA-256.
"""
import base64
import hashlib
import pathlib
import re
import sys

DYGRAPHS = "/usr/share/javascript/dygraphs/dygraph.min"
# Modules of D3 in the order in which they need each other.
D3 = ["array", "collection", "color", "format", "interpolate", "time", "time-format", "scale", "path", "shape",
      "selection", "axis"]
# g++ takes longer literals, the standard promises no more than 65,536 characters.
PIECE = 30000


def read(path, package):
    try:
        return pathlib.Path(path).read_text(encoding="utf-8")
    except FileNotFoundError:
        sys.exit(f"{path} is missing: install the Debian package {package} (scripts/build does)")


def library(path, package):
    """A library with its licence as a comment before it."""
    code = re.sub(r"^//# sourceMappingURL=.*$|/\*# sourceMappingURL=.*?\*/", "", read(path, package), flags=re.M)
    licence = read(f"/usr/share/doc/{package}/copyright", package).replace("*/", "* /")
    return f"/*! {package}, as Debian ships it.\n\n{licence.strip()}\n*/\n{code.strip()}\n"


def checked(text, what):
    if re.search(r"</(script|style)|<!--", text, re.I):
        sys.exit(f"{what} holds text that would end its element")
    return text


def array(name, text):
    """Pieces cut at characters, not bytes; the delimiter does not occur in them."""
    delimiter = "page"
    assert f"){delimiter}\"" not in text
    pieces = [text[i:i + PIECE] for i in range(0, len(text), PIECE)]
    return (f"constexpr std::string_view {name}[] = {{\n"
            + "".join(f"    R\"{delimiter}({piece}){delimiter}\",\n" for piece in pieces) + "};\n\n")


def digest(text):
    return base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode("ascii")


def main():
    page, out = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    style = checked(library(DYGRAPHS + ".css", "libjs-dygraphs")
                    + (page / "report.css").read_text(encoding="utf-8"), "the style sheet")
    script = library(DYGRAPHS + ".js", "libjs-dygraphs")
    for module in D3:
        script += library(f"/usr/share/nodejs/d3-{module}/dist/d3-{module}.min.js", f"node-d3-{module}")
    script = checked(script + (page / "report.js").read_text(encoding="utf-8"), "the script")
    # A page is read with line feeds only; the hash is of what the browser then sees.
    style, script = style.replace("\r", ""), script.replace("\r", "")
    content = ("// Made by scripts/embed_page.py. Edit src/render/page/.\n#include \"render/html_parts.h\"\n\n"
               "namespace render {\nnamespace {\n\n" + array("kStyle", style) + array("kScript", script)
               + "}  // namespace\n\nconst PageAssets& page_assets() {\n"
               f"  static const PageAssets assets{{kStyle, kScript, \"{digest(script)}\"}};\n"
               "  return assets;\n}\n\n}  // namespace render\n")
    out.parent.mkdir(parents=True, exist_ok=True)
    if not out.exists() or out.read_text(encoding="utf-8") != content:
        out.write_text(content, encoding="utf-8")


if __name__ == "__main__":
    main()
