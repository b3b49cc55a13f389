#!/usr/bin/env python3
"""Fails when an include points back up: core <- gis <- app, and within core by core/layers.txt."""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
INCLUDE = re.compile(r'^\s*#\s*include\s+[<"]([^">]+)[">]')
FORBIDDEN_IN_CORE = re.compile(r"^(gdal|ogr|cpl_|proj|Q[A-Z]|Qt|nlohmann|CLI/|expat|sqlite)")


def layers():
    lines = (ROOT / "core/layers.txt").read_text(encoding="utf-8").splitlines()
    return [line.strip() for line in lines if line.strip() and not line.startswith("#")]


def fault(path, include, order):
    top = path.parts[0]
    if include.startswith("app/") and top != "app":
        return "nothing below app may include it"
    if include.startswith("gis/") and top == "core":
        return "core may not include gis"
    if top != "core":
        return None
    if FORBIDDEN_IN_CORE.match(include):
        return "core knows no file formats, no Qt and no command line"
    if include.startswith("core/"):
        here, there = path.parts[1], include.split("/")[1]
        if there not in order or here not in order:
            return "folder is not listed in core/layers.txt"
        if order.index(there) > order.index(here):
            return f"{here} stands above {there} in core/layers.txt"
    return None


def main():
    order = layers()
    seen = 0
    faults = []
    for top in ("core", "gis", "app"):
        for file in sorted((ROOT / top).rglob("*")):
            if file.suffix not in (".h", ".cpp"):
                continue
            seen += 1
            path = file.relative_to(ROOT)
            for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), 1):
                match = INCLUDE.match(line)
                why = match and fault(path, match.group(1), order)
                if why:
                    faults.append(f"{path}:{number}: {match.group(1)}: {why}")
    print("\n".join(faults) if faults else f"{seen} files, every include points the right way")
    return 1 if faults or seen == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
