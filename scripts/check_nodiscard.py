#!/usr/bin/env python3
"""Fails when a header declares a function that returns Result<...> without [[nodiscard]]."""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
DECLARATION = re.compile(r"^\s*(?:virtual |static |inline )*Result<.*\(")


def main():
    seen = 0
    faults = []
    for top in ("core", "gis", "app"):
        for file in sorted((ROOT / top).rglob("*.h")):
            lines = file.read_text(encoding="utf-8").splitlines()
            for number, line in enumerate(lines, 1):
                seen += "[[nodiscard]]" in line and "Result<" in line
                before = lines[number - 2] if number > 1 else ""
                if DECLARATION.match(line) and "[[nodiscard]]" not in line + before:
                    faults.append(f"{file.relative_to(ROOT)}:{number}: add [[nodiscard]]")
    print("\n".join(faults) if faults else f"{seen} functions return Result, all [[nodiscard]]")
    return 1 if faults or seen == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
