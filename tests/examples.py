#!/usr/bin/env python3
"""The examples, and the whole file by which the language was laid down, as a maker would use them.

    examples.py --waxwright BIN --tree TREE

- Each file of examples/ checks with exit status 0, without an error and without a warning.
- Each recipe and batch has a sheet, as Markdown and as TOML, alone and with --all; its figures are
  such as a maker would believe.
- --make 40 makes forty, and the masses grow as they should.
- The whole file (WHOLE_FILE) compiles with a bench.candle beside it.
Exit status 0: all is so; 1: what is not is printed, a line each.
"""

import argparse
import re
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

FEWEST = 8  # files
SINGLE = re.compile(r"^(recipe|batch) ([a-z0-9-]+)", re.M)

WHOLE_FILE = """\
# Salt marsh range, winter 2026
language 1
use waxes, oils, wicks              # modules of the standard library
use "bench.candle"                  # a file beside this one: pots, scale

let house-load = 7% of wax

vessel dune-tumbler {
  about:     "30 cl candle glass, heat-rated by its maker, measured on the bench"
  brimful:   318 g of water         # or a volume: 10.75 fl oz, 30 cl
  bore:      74 mm                  # inside diameter where the wax is
  headspace: 12 mm
  of:        glass
  made-for:  candles
  sold:      24 for $41.50, 6 for $12.00
}

recipe tide-line {
  title:  "Tide Line"
  makes:  6 dune-tumbler
  wax:    80% soy + rest coconut
  load:   house-load                # or: 1 oz per lb of wax
  scent:  3 parts lavender + 2 parts rosemary + 1 part cedarwood-virginia
  wick:   1 cotton-braid-14
  steps {
    melt to 75 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 60 °C
    leave 4 h
    second pour at 62 °C
    trim wick to 6 mm
    cure 14 days
  }
}

recipe tide-line-strong like tide-line {
  title: "Tide Line, strong"
  load:  9.5% of wax
  allow load-near-limit because "burned three to the end, all clean, 2026-03-02"
}

batch december-market {
  starts: 2026-12-05 09:00
  lot:    "SM-1205"
  pour 24 tide-line
  pour 12 tide-line-strong
  pot:    2 pour-can                # how many stand on the stove at once
  scale:  bench-scale
  room:   20 °C
  spare:  2%
}
"""

# What the six cautions of a sheet must say, a line each; where it is from stands in docs/safety.md.
CAUTIONS = [
    ("Never leave melting wax",),
    ("heat off if you can reach it without leaning", "lid or fire blanket", "leave it on",
     "never move", "never water"),
    ("everyone out", "door shut", "fire service", "rated for burning liquids", "has used one"),
    ("bone dry", "drip or steam", "topped up and never boils dry", "can't float or tip"),
    ("cool running water for 20 minutes", "don't peel"),
    ("gloves", "air the room", "children and pets"),
]
LONGEST = 180  # letters of a caution: two lines of a printed page


def all_of(recipe):
    """g of all that is weighed for it."""
    return (recipe["wax_g"] + recipe["scent_g"] + recipe["additive_g"]
            + recipe.get("leftover_g", 0))


class Trial:
    def __init__(self, waxwright):
        self.waxwright = waxwright
        self.faults = []
        self.sheets = 0

    def tell(self, where, what):
        self.faults.append(f"{where}: {what}")

    def run(self, folder, *words):
        """Standard output, standard error and the exit status."""
        done = subprocess.run([str(self.waxwright), *words], cwd=folder, capture_output=True,
                              timeout=60)
        return done.stdout.decode("utf-8"), done.stderr.decode("utf-8"), done.returncode

    def check(self, path, but=()):
        """`but`: the warnings that belong there, by their rules in the order of the report."""
        report, _, status = self.run(path.parent, "check", path.name)
        counts = report.splitlines()[-1] if report else "nothing was printed"
        warnings = re.findall(r": warning: .* \[([a-z0-9-]+)\]$", report, re.M)
        if status != 0 or "error" in counts or warnings != list(but):
            self.tell(path.name, f"does not check clean ({status}): {report}")

    def sheet(self, path, name, *more):
        """The TOML sheet; nothing if there is none, which is told."""
        words = ("sheet", path.name, name, *more)
        text, errors, status = self.run(path.parent, *words)
        where = f"{path.name}, {name} {' '.join(more)}"
        if status != 0 or not text.startswith("# "):
            self.tell(where, f"no Markdown sheet ({status}): {errors}")
        for heading in ("## Cautions", "Steps", "## At a glance", "## Record"):
            if f"{heading}\n" not in text:
                self.tell(where, f"the sheet has no {heading}")
        self.look_at_cautions(where, text)
        text, errors, status = self.run(path.parent, *words, "--as", "toml")
        try:
            sheet = tomllib.loads(text)
        except tomllib.TOMLDecodeError as fault:
            self.tell(where, f"the TOML sheet can't be read: {fault}")
            return None
        if status != 0 or not sheet:
            self.tell(where, f"no TOML sheet ({status}): {errors}")
            return None
        self.sheets += 1
        self.look_at(where, sheet)
        return sheet

    def look_at_cautions(self, where, text):
        part = text.partition("\n## Cautions\n")[2].partition("\n## ")[0]
        lines = re.findall(r"^- (.+)$", part, re.M)
        if len(lines) != len(CAUTIONS) or max(map(len, lines), default=0) > LONGEST:
            self.tell(where, f"the cautions should be {len(CAUTIONS)} short lines: {lines}")
        for line, wanted in zip(lines, CAUTIONS):
            for words in wanted:
                if words.lower() not in line.lower():
                    self.tell(where, f"this caution should say `{words}`: {line}")

    def look_at(self, where, sheet):
        """What any believable sheet of a kitchen is like."""
        for recipe in sheet["recipe"]:
            density = recipe["mass_g"] / recipe["fill_ml"]
            for what, good in (
                ("30 to 1000 ml to the line", 30 < recipe["fill_ml"] < 1000),
                ("0.80 to 1.00 g in each ml", 0.80 < density < 1.00),
                ("under 15 % of the candle kept back",
                 recipe["second_pour_g"] < 0.15 * recipe["mass_g"]),
                ("two pours that make the candle", same(
                    recipe["first_pour_g"] + recipe["second_pour_g"], recipe["mass_g"])),
                ("a load within its limit", recipe["load_of_wax"] <= recipe["limit_of_wax"]),
                ("a ceiling of 80 to 110 °C", 80 <= recipe["ceiling_c"] <= 110),
                ("5 to 100 h of burning", 5 <= recipe.get("burn_h", 5) <= 100),
                ("exact lines that add up", same(
                    sum(line["mass_g"] for line in recipe["weigh"]),
                    all_of(recipe))),
            ):
                if not good:
                    self.tell(where, f"{recipe['name']} should have {what}: {recipe}")
        poured = sum(pot["pots"] * pot["vessels"] for pot in sheet["pot"])
        if poured != sheet["count"]:
            self.tell(where, f"the pots fill {poured} vessels of {sheet['count']}")
        for pot in sheet["pot"]:
            weighed = sum(line["weigh_g"] for line in pot["weigh"])
            if abs(weighed - pot["mass_g"]) > 1.5:
                self.tell(where, f"a pot of {pot['mass_g']} g is weighed out as {weighed} g")

    def try_recipe(self, path, name):
        sheet = self.sheet(path, name)
        forty = self.sheet(path, name, "--make", "40")
        if sheet is None or forty is None:
            return
        one, many = sheet["recipe"][0], forty["recipe"][0]
        if forty["count"] != 40 or many["count"] != 40:
            self.tell(path.name, f"--make 40 of {name} makes {forty['count']}")
        if not same(one["mass_g"], many["mass_g"]):
            self.tell(path.name, f"a candle of {name} weighs otherwise when forty are made")
        # Spare goes with the vessels. What clings goes with the pots: at most 50 g of each.
        pots = sum(pot["pots"] for pot in forty["pot"])
        least = 40 * many["mass_g"]
        whole = all_of(many)
        if not least * (1 - 1e-9) <= whole <= least * 1.1 + 50 * pots:
            self.tell(path.name, f"forty of {name} are {least} g and take {whole} g")
        for key in ("scent_g", "additive_g"):
            if not same(one[key] * many["wax_g"], many[key] * one["wax_g"]):
                self.tell(path.name, f"{key} of {name} does not go with the wax")

    def try_file(self, path, but=()):
        self.check(path, but)
        blocks = SINGLE.findall(path.read_text("utf-8"))
        recipes = [name for kind, name in blocks if kind == "recipe"]
        for kind, name in blocks:
            if kind == "recipe":
                self.try_recipe(path, name)
            else:
                self.sheet(path, name)
        if not recipes:
            return 0
        text, errors, status = self.run(path.parent, "sheet", path.name, "--all")
        if status != 0 or text.count("\n## Cautions\n") != len(recipes):
            self.tell(path.name, f"--all should print {len(recipes)} sheets ({status}): {errors}")
        return len(blocks)


def same(one, other):
    return abs(one - other) <= 1e-9 * max(abs(one), abs(other))


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()
    trial = Trial(options.waxwright.resolve())

    files = sorted((options.tree / "examples").rglob("*.candle"))
    if len(files) < FEWEST:
        trial.tell(options.tree / "examples", f"only {len(files)} files")
    for path in files:
        trial.try_file(path)

    with tempfile.TemporaryDirectory() as folder:
        whole = Path(folder) / "whole.candle"
        whole.write_text(WHOLE_FILE, encoding="utf-8")
        bench = (options.tree / "examples/bench.candle").read_text("utf-8")
        (Path(folder) / "bench.candle").write_text(bench, encoding="utf-8")
        # Its two recipes have no test burn, which is a warning where a batch pours them.
        if trial.try_file(whole, ("untested", "untested")) != 3:
            trial.tell("whole.candle", "has not two recipes and a batch")

    for fault in trial.faults:
        print(fault)
    print(f"{len(files)} files, {trial.sheets} sheets, {len(trial.faults)} faults")
    return 1 if trial.faults else 0


if __name__ == "__main__":
    sys.exit(main())
