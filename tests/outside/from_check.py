#!/usr/bin/env python3
"""Holds `sheet --from` against trying one count after another.

    from_check.py --waxwright BIN [--seed N] [--trials N]

Random recipes, pots, scales and amounts. The count that `--from` makes is compared with the largest
n whose sheet, made with `--make n`, takes no more than there is. What a sheet takes is added up
here from its TOML: the pots' lines, the scent's own blend, the vessels. All n up to well over the
answer are tried, because a need that is rounded pot by pot falls in places as n grows.

Then random batches of two recipes, with a melter or without: the sets in the batch's proportions
that `--from` makes, beside the largest number of them that fits, each written out as a batch.

Exit status 0: all agree; 1: something does not; 2: a wrong call.
"""

import argparse
import random
import subprocess
import sys
import tempfile
import tomllib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

MARGIN = 12  # counts tried beyond the answer, and half as many again


def recipe_text(luck):
    """A recipe of two waxes, three oils or one, a dye in traces, and a bench."""
    several = luck.random() < 0.6
    scent = "2 parts mint + 3 parts clove + 1 part thyme" if several else "mint"
    pot = luck.choice(["", "  pot: can\n", "  pot: can\n"])
    scale = luck.choice(["", "  scale: shop\n"])
    return f"""language 1
wax dune {{ density: 0.9 g/ml, liquid-density: 0.86 g/ml at 60 °C, 0.84 g/ml at 80 °C
  melts: 48 to 54 °C, max-load: 12% of wax, ceiling: 90 °C }}
wax reed like dune {{ density: 0.92 g/ml }}
oil mint {{ density: 0.9 g/ml, flash-point: 93 °C closed cup, limit: 12% of total }}
oil clove like mint {{ density: 1.05 g/ml }}
oil thyme like mint {{ density: 0.93 g/ml }}
additive dye {{ density: 0.95 g/ml, limit: 5% of wax }}
vessel tub {{ fill: {luck.choice([18, 60, 117, 243])} ml, bore: 60 mm, of: glass, made-for: candles }}
wick rush {{ suits: 40 to 80 mm, core: cotton }}
pot can {{ brimful: {luck.choice([420, 700, 1300, 2900])} ml, heated: water-bath
  clings: {luck.choice([0, 0.3, 4, 11])} g }}
scale shop {{ reads: {luck.choice(["0.1 g", "1 g", "5 g", "0.05 oz"])} }}
recipe tide {{
  makes: 2 tub
  wax: {luck.choice([50, 70, 93])}% dune + rest reed
  load: {luck.choice([4, 6.3, 9])}% of wax
  scent: {scent}
  additives: {luck.choice(["0.05", "0.3", "1.7"])}% dye
  wick: 2 rush
  spare: {luck.choice([0, 2, 3.7])}%
{pot}{scale}  steps {{
    melt to 75 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 60 °C
  }}
}}
"""


def batch_text(recipe, melter, spare, counts):
    """The same bench, and a batch of that recipe and a milder one."""
    return recipe + f"""recipe ebb like tide {{ load: 3.1% of wax, scent: mint }}
pot tap {{ brimful: 5 l, heated: melter, clings: 7 g }}
batch market {{
  pour {counts[0]} tide
  pour {counts[1]} ebb
  spare: {spare}%
{melter}}}
"""


def taken(sheet):
    """g, or pieces, of everything."""
    needs = {}

    def add(name, amount):
        needs[name] = needs.get(name, 0) + amount

    for pot in sheet["pot"]:
        for line in pot["weigh"]:
            if "melt" not in sheet or line["kind"] != "wax":  # else it is drawn from the melter
                add(line["name"], pot["pots"] * line["weigh_g"])
    for melt in sheet.get("melt", []):
        for line in melt["weigh"]:
            add(line["name"], melt["fillings"] * line["weigh_g"])
    for recipe in sheet["recipe"]:
        for line in recipe.get("premix", []):
            add(line["name"], line["weigh_g"])
    needs["tub"] = sheet["count"]
    needs["rush"] = 2 * sheet["count"]
    return needs


class Bench:
    def __init__(self, waxwright, folder):
        self.waxwright = waxwright
        self.folder = Path(folder)

    def sheet(self, *words):
        done = subprocess.run([self.waxwright, "sheet", *words, "--as", "toml"],
                              cwd=self.folder, capture_output=True, timeout=60)
        if done.returncode == 0:
            return tomllib.loads(done.stdout.decode())
        if done.returncode == 1 and b"not enough for " in done.stderr:
            return None
        raise SystemExit(f"{words}: {done.returncode}: {done.stderr.decode()}")

    def trial(self, luck):
        """What is wrong, or nothing."""
        text = recipe_text(luck)
        (self.folder / "tide.candle").write_text(text, encoding="utf-8")
        tide = ("tide.candle", "--make")
        goal = taken(self.sheet(*tide, str(luck.randint(1, 40))))
        names = luck.sample(sorted(set(goal) - {"scent"}), luck.choice([1, 1, 2]))
        names = [name for name in names if goal[name] > 0] or ["dune"]
        there = {name: round(goal[name] * luck.choice([1, 1, 1.03, 0.98]), 3) for name in names}
        for name in there:
            if name in ("tub", "rush"):
                there[name] = max(1, int(there[name]))
        asked = " + ".join(f"{amount:.3f} g {name}" if name not in ("tub", "rush")
                           else f"{amount} {name}" for name, amount in there.items())
        sheet = self.sheet("tide.candle", "--from", asked)
        got = sheet["count"] if sheet else 0
        upto = got + got // 2 + MARGIN
        with ThreadPoolExecutor(4) as pool:
            sheets = pool.map(lambda n: self.sheet(*tide, str(n)), range(1, upto + 1))
            fitting = [n for n, made in enumerate(sheets, 1)
                       if all(taken(made).get(name, 0) <= amount * (1 + 1e-9)
                              for name, amount in there.items())]
        most = max(fitting, default=0)
        if most == got:
            return None
        return f"--from '{asked}' made {got}, and {most} fit:\n{text}"

    def batch(self, recipe, melter, spare, counts, *words):
        name = f"market-{counts[0]}-{counts[1]}.candle"
        text = batch_text(recipe, melter, spare, counts)
        (self.folder / name).write_text(text, encoding="utf-8")
        return self.sheet(name, "market", *words)

    def batch_trial(self, luck):
        recipe = recipe_text(luck)
        while "5 g" in recipe.partition("scale shop")[2]:  # too coarse for a trace of dye
            recipe = recipe_text(luck)
        bench = (recipe, luck.choice(["", "  melter: tap\n"]), luck.choice([0, 2.5]))
        one, other = luck.choice([(2, 1), (1, 1), (3, 2)])
        times = luck.randint(1, 9)
        goal = taken(self.batch(*bench, (one * times, other * times)))
        there = {name: round(goal[name] * luck.choice([1, 1, 1.03, 0.97]), 3)
                 for name in luck.sample(["dune", "reed", "mint"], luck.choice([1, 2]))}
        asked = " + ".join(f"{amount:.3f} g {name}" for name, amount in there.items())
        # As the batch is written it may be any multiple: the proportions count.
        sheet = self.batch(*bench, (4 * one, 4 * other), "--from", asked)
        got = sheet["count"] // (one + other) if sheet else 0
        fitting = []
        for n in range(1, got + got // 2 + MARGIN):
            needs = taken(self.batch(*bench, (n * one, n * other)))
            if all(needs[name] <= amount * (1 + 1e-9) for name, amount in there.items()):
                fitting.append(n)
        most = max(fitting, default=0)
        if most == got:
            return None
        return f"--from '{asked}' made {got} sets of {one} and {other}, and {most} fit:\n{recipe}"


def main():
    words = argparse.ArgumentParser()
    words.add_argument("--waxwright", required=True, type=Path)
    words.add_argument("--seed", type=int, default=20261125)
    words.add_argument("--trials", type=int, default=25)
    options = words.parse_args()
    luck = random.Random(options.seed)
    faults = 0
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(options.waxwright.resolve(), folder)
        for _ in range(options.trials):
            for fault in (bench.trial(luck), bench.batch_trial(luck)):
                if fault:
                    print(fault)
                    faults += 1
    print(f"{options.trials} trials, {faults} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
