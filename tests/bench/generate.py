#!/usr/bin/env python3
"""Write one benchmark input twice: as a Waxwright source and as TOML 1.0.

    generate.py N OUTDIR [--seed S] [--toml light|full]

writes OUTDIR/bench-N.candle, N recipes with every wax, oil, vessel and tool they use, and
OUTDIR/bench-N.toml, which says the same, block for table and property for key. The same N and
seed give the same bytes, and the .candle file does not depend on --toml. Every name is made up.

Light TOML (the default) leaves a step, a count and each item of a blend as text; full TOML takes
them apart into inline tables.

The recipes are meant to be ones a compiler accepts without an error: a small model of the rules
(temperatures, loads, wick sizes) is kept here so that each choice is made inside its limits.
"""

import argparse
import os
import sys

# The modules beside this one are read at every run and should leave no folder of byte code.
sys.dont_write_bytecode = True

from recipes import Recipes


def write(count, folder, seed, style):
    draw = Recipes(count, seed, style)
    out = draw.out
    recipes = "1 recipe" if count == 1 else f"{count} recipes"
    out.comment(f"Made by tests/bench/generate.py: {recipes} of a made-up studio by a salt marsh.")
    out.head()
    out.gap()
    draw.write_materials()
    draw.write_recipes()
    os.makedirs(folder, exist_ok=True)
    for ending, lines in (("candle", out.candle), ("toml", out.toml)):
        path = os.path.join(folder, f"bench-{count}.{ending}")
        # The line end is said, so that the bytes are the same on every system.
        with open(path, "w", encoding="utf-8", newline="\n") as file:
            file.write("\n".join(lines))


def main():
    parser = argparse.ArgumentParser(description="write bench-N.candle and bench-N.toml")
    parser.add_argument("count", metavar="N", type=int, help="how many recipes")
    parser.add_argument("folder", metavar="OUTDIR")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--toml", choices=["light", "full"], default="light")
    arguments = parser.parse_args()
    if arguments.count < 1:
        parser.error("N is a whole number from 1")
    write(arguments.count, arguments.folder, arguments.seed, arguments.toml)
    return 0


if __name__ == "__main__":
    sys.exit(main())
