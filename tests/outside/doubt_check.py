#!/usr/bin/env python3
"""Compares the ends of doubts on the sheets with all corners, tried one by one.

usage: doubt_check.py --waxwright BIN [--recipes N] [--seed N] [--keep FOLDER]

Makes up recipes at random (the same ones each time) with up to six doubtful figures, and has BIN
print the sheet. Then it writes the same recipe once for each of the 2^n corners, with every doubt
replaced by one of its ends, has BIN print those too, and holds the least and the greatest of each
figure against the ends on the first sheet: the same to 1e-9, and none where the corners agree. A
total has what clings to each filling of a pot in it; where the corners differ in fillings it may
be out by so much. Exit status 0: all agree; 1: something differs, or over a tenth of the recipes
could not be printed; 2: wrong call.
"""

import argparse
import itertools
import random
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

TOLERANCE = 1e-9  # relative
MOST_REFUSED = 0.1
MOST_DOUBTS = 6
SMOOTH = {
    "mass_{}_g": "mass_g",
    "first_pour_{}_g": "first_pour_g",
    "load_of_wax_{}": "load_of_wax",
    "load_of_total_{}": "load_of_total",
}
TOTALS = {
    "wax_{}_g": "wax_g",
    "scent_{}_g": "scent_g",
    "additive_{}_g": "additive_g",
}

BENCH = """language 1
use wicks
"""

RECIPE = """
wax wa-{n} {{
  density: {solid-a} g/ml
  liquid-density: {liquid-a}
  melts: 45 to 50 °C
  max-load: 20% of wax
  ceiling: 120 °C
}}
wax wb-{n} {{
  density: {solid-b} g/ml
  liquid-density: {liquid-b}
  melts: 44 to 50 °C
  max-load: 20% of wax
  ceiling: 120 °C
}}
oil oa-{n} {{ density: {oil-a} g/ml, flash-point: 120 °C closed cup }}
oil ob-{n} {{ density: {oil-b} g/ml, flash-point: 120 °C closed cup }}
additive ad-{n} {{ {additive-density} made-for: candles, base: oil }}
vessel ve-{n} {{ {vessel}, of: ceramic, made-for: candles }}
pot po-{n} {{ brimful: {pot} ml, headroom: {headroom}%, clings: {clings} g, heated: water-bath }}
recipe re-{n} {{
  makes: {count} ve-{n}
  wax: ({share-a}%) wa-{n} + rest wb-{n}
  load: {load}% of {basis}
  scent: 2 parts oa-{n} + 1 part ob-{n}
  additives: ({additive}%) ad-{n}
  pot: po-{n}
  spare: {spare}%
  steps {{
    melt to {hot} °C
    add ad-{n} at {hot} °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at {pour} °C
    {second}
  }}
}}
"""


def pick(rng, low, high, digits):
    return round(rng.uniform(low, high), digits)


def figures_of(rng):
    """Every figure of a recipe, none of them doubtful yet, with the doubt it could have."""
    return {
        "solid-a": (pick(rng, 0.88, 0.94, 3), 0.02),
        "solid-b": (pick(rng, 0.88, 0.94, 3), 0.02),
        "hot-a": (pick(rng, 0.83, 0.86, 3), 0.01),
        "cool-a": (pick(rng, 0.84, 0.87, 3), 0.008),
        "hot-b": (pick(rng, 0.83, 0.86, 3), 0.01),
        "oil-a": (pick(rng, 0.82, 1.1, 3), 0.05),
        "oil-b": (pick(rng, 0.82, 1.1, 3), 0.01),
        "additive-density": (pick(rng, 0.85, 1.0, 3), 0.03),
        "brimful": (pick(rng, 250, 400, 0), 12),
        "fill": (pick(rng, 200, 300, 0), 8),
        "bore": (pick(rng, 65, 85, 0), 2),
        "headspace": (pick(rng, 10, 20, 0), 1.5),
        "mouth": (pick(rng, 70, 90, 0), 1),
        "base": (pick(rng, 60, 80, 0), 1),
        "depth": (pick(rng, 70, 100, 0), 2),
        "pot": (pick(rng, 900, 4000, 0), 90),
        "headroom": (pick(rng, 10, 25, 0), 4),
        "clings": (pick(rng, 0, 9, 1) + 2, 1.5),
        "share-a": (pick(rng, 30, 90, 0), 3),
        "load": (pick(rng, 4, 10, 1), 0.5),
        "additive": (pick(rng, 1, 5, 1), 0.4),
        "spare": (pick(rng, 1, 5, 1), 0.5),
        "hot": (pick(rng, 74, 88, 0), 2),
        "pour": (pick(rng, 55, 69, 0), 3),
    }


UNITS = {
    "g/ml": ("solid-a", "solid-b", "oil-a", "oil-b", "hot-a", "cool-a", "hot-b",
             "additive-density"),
    "ml": ("brimful", "fill", "pot"),
    "mm": ("bore", "headspace", "mouth", "base", "depth"),
    "%": ("headroom", "share-a", "load", "additive", "spare"),
    "g": ("clings",),
    "°C": ("hot", "pour"),
}
UNIT_OF = {name: unit for unit, names in UNITS.items() for name in names}


class Recipe:
    def __init__(self, rng):
        self.count = rng.randint(1, 40)
        self.basis = rng.choice(["wax", "total"])
        self.vessel = rng.choice(["fill", "brimful", "straight", "taper"])
        self.points = rng.choice([1, 2])
        self.dense = rng.random() < 0.6
        self.second = rng.choice(["leave 3 h\n    second pour at 62 °C", "leave 3 h"])
        self.figures = figures_of(rng)
        used = [name for name in self.figures if "{" + name + "}" in self.skeleton()]
        self.doubtful = sorted(rng.sample(used, rng.randint(1, MOST_DOUBTS)))

    def skeleton(self):
        liquid = {"liquid-a": "{hot-a} at 80 °C" + (", {cool-a} at 60 °C" * (self.points - 1)),
                  "liquid-b": "{hot-b} at 75 °C"}
        vessel = {
            "fill": "fill: {fill}, bore: {bore}",
            "brimful": "brimful: {brimful}, bore: {bore}, headspace: {headspace}",
            "straight": "inside: {mouth} across, {depth} deep, headspace: {headspace}",
            "taper": "inside: {mouth} to {base} across, {depth} deep, headspace: {headspace}",
        }[self.vessel]
        text = RECIPE.replace("{{", "<<").replace("}}", ">>")
        for unit in (" g/ml", "%", " ml", " g", " °C"):  # the figure brings its own
            text = text.replace("}" + unit, "}")
        for name, part in liquid.items():
            text = text.replace("{" + name + "}", part)
        density = "density: {additive-density}," if self.dense else ""
        text = text.replace("{additive-density}", density).replace("{vessel}", vessel)
        for name, value in (("count", self.count), ("basis", self.basis), ("second", self.second)):
            text = text.replace("{" + name + "}", str(value))
        return text

    def written(self, number, choice=None):
        """With its doubts; or with `choice`, the end taken of each doubtful figure, without."""
        text = self.skeleton().replace("{n}", str(number))
        for name, (value, half) in self.figures.items():
            unit = UNIT_OF[name]
            shown = f"{value:.12g}"
            if name in self.doubtful and choice is None:
                shown = f"{value:.12g}{'' if unit == '%' else ' '}{unit} +- {half}"
            else:
                if name in self.doubtful:
                    shown = f"{value + choice[self.doubtful.index(name)] * half:.12g}"
                shown += ("" if unit == "%" else " ") + unit
            text = text.replace("{" + name + "}", shown)
        return text.replace("<<", "{").replace(">>", "}")

    def corners(self):
        return itertools.product((-1, 1), repeat=len(self.doubtful))


def sheets_of(binary, folder, text):
    """All recipes of a file, in order; nothing where it is refused."""
    path = folder / "recipes.candle"
    path.write_text(text, encoding="utf-8")
    out = folder / "sheets"
    done = subprocess.run([binary, "sheet", "--all", path, "--as", "toml", "-o", f"{out}/"],
                          capture_output=True, check=False, timeout=120)
    if done.returncode != 0:
        lines = done.stderr.decode("utf-8").splitlines()
        return next((line for line in lines if ": error: " in line), str(lines[:1])), []
    sheets = []
    for i in range(text.count("\nrecipe re-")):
        sheets.append(tomllib.loads((out / f"re-{i}.toml").read_text(encoding="utf-8")))
    return "", sheets


def fillings(sheet):
    return sum(pot["pots"] for pot in sheet["pot"])


def most_vessels(sheet):
    return max(pot["vessels"] for pot in sheet["pot"])


def differ(sheet, corners, clings):
    """Faults of the ends on the sheet, one line each."""
    own = sheet["recipe"][0]
    pots = [fillings(corner) for corner in [sheet, *corners]]
    spread = (max(pots) - min(pots)) * clings
    for keys, slack in ((SMOOTH, 0), (TOTALS, spread)):
        for key, figure in keys.items():
            values = [corner["recipe"][0][figure] for corner in [sheet, *corners]]
            least, greatest = min(values), max(values)
            low = own.get(key.format("low"), own[figure])
            high = own.get(key.format("high"), own[figure])
            room = TOLERANCE * greatest + slack
            if abs(low - least) > room or abs(high - greatest) > room:
                yield f"{figure}: {low} to {high}, and the corners go from {least} to {greatest}"
    for name, measure in (("fillings", fillings), ("most_vessels", most_vessels)):
        values = [measure(corner) for corner in [sheet, *corners]]
        low = own.get(f"{name}_low", measure(sheet))
        high = own.get(f"{name}_high", measure(sheet))
        if (low, high) != (min(values), max(values)):
            yield f"{name}: {low} to {high}, and the corners {min(values)} to {max(values)}"


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True)
    parser.add_argument("--recipes", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--keep", type=Path, help="leave the files of what differs here")
    options = parser.parse_args()
    rng = random.Random(options.seed)
    faults = refused = compared = 0
    for number in range(options.recipes):
        recipe = Recipe(rng)
        text = BENCH + recipe.written(0)
        for i, choice in enumerate(recipe.corners()):
            text += recipe.written(i + 1, choice)
        with tempfile.TemporaryDirectory() as folder:
            problem, sheets = sheets_of(options.waxwright, Path(folder), text)
        if not sheets:
            refused += 1
            print(f"recipe {number}: refused: {problem}")
            continue
        compared += len(sheets) - 1
        value, half = recipe.figures["clings"]
        for fault in differ(sheets[0], sheets[1:], value + half):
            faults += 1
            print(f"recipe {number} ({', '.join(recipe.doubtful)}): {fault}")
            if options.keep:
                options.keep.mkdir(exist_ok=True)
                (options.keep / f"{number}.candle").write_text(text, encoding="utf-8")
    print(f"{options.recipes} recipes, {compared} corners, {refused} refused, {faults} faults")
    return 1 if faults or refused > MOST_REFUSED * options.recipes else 0


if __name__ == "__main__":
    sys.exit(main())
