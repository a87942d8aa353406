#!/usr/bin/env python3
"""Holds what to buy to an exhaustive search of all choices of packs.

usage: cover_check.py --waxwright BIN [--runs N] [--seed N]

Makes recipes with random packs, random stock and random needs, by the piece and by weight, in
currencies with no, two and three decimals, and reads the TOML sheet. For each thing every choice of
packs is tried, from none to as many of each as cover the need alone: the sheet's must be the
cheapest, of the cheapest the fewest packs, of these the least left over. What is needed is worked
out here from the sheet's own weights and counts less the stock; the totals of money too.
Exit status 0: all hold; 1: something doesn't; 2: wrong call.
"""

import argparse
import itertools
import math
import random
import subprocess
import sys
import tempfile
import tomllib
from fractions import Fraction
from pathlib import Path

sys.dont_write_bytecode = True

# pylint: disable=wrong-import-position
from toml_check import weighed  # noqa: E402

DECIMALS = {"EUR": 2, "JPY": 0, "KWD": 3}
UNITS = {"g": Fraction(1), "kg": Fraction(1000), "oz": Fraction("28.349523125"),
         "lb": Fraction("453.59237"), "ml": Fraction("0.9")}  # of the wax, by its density
EXTRAS = 12

HEAD = """language 1
wax marsh-wax {{
  density:        0.9 g/ml
  liquid-density: 0.85 g/ml at 60 °C, 0.84 g/ml at 75 °C
  melts:          45 to 55 °C
  max-load:       10% of wax
  ceiling:        90 °C
  sold:           {}
}}
vessel jar {{
  fill: {} ml
  of:   tin
  sold: {}
}}
scale bench {{
  reads: 1 g
}}
"""


class Thing:
    def __init__(self, chance, currency, units):
        self.packs = {}  # (amount in g or pieces, price) -> as written; no two are alike
        wanted = chance.randint(1, 4)
        while len(self.packs) < wanted:
            unit = chance.choice(units)
            number = chance.randint(1, 12)
            if unit in ("g", "ml"):
                number *= 50
            minor = chance.randint(0, 40) * chance.choice((1, 5))
            price = Fraction(minor, 10 ** DECIMALS[currency])
            amount = number * UNITS.get(unit, Fraction(1))
            written = f"{number} {unit}".strip()
            self.packs.setdefault((amount, price), (written, float(price)))
        self.currency = currency

    def sold(self):
        digits = DECIMALS[self.currency]
        return ", ".join(f"{written} for {price:.{digits}f} {self.currency}"
                         for written, price in self.packs.values())

    def best(self, need):
        """(price, packs, amount) of the best choice, by trying all of them."""
        packs = list(self.packs)
        ranges = [range(math.ceil(need / amount) + 1) for amount, _ in packs]
        choices = []
        for counts in itertools.product(*ranges):
            amount = sum(count * pack[0] for count, pack in zip(counts, packs))
            if amount >= need:
                price = sum(count * pack[1] for count, pack in zip(counts, packs))
                choices.append((price, sum(counts), amount))
        return min(choices)

    def worth(self, packs):
        """The same of packs as the sheet has them."""
        by_words = {words: key for key, words in self.packs.items()}
        keys = [(pack["count"], by_words[pack["size"], pack["price"]]) for pack in packs]
        return (sum(count * key[1] for count, key in keys), sum(count for count, _ in keys),
                sum(count * key[0] for count, key in keys))


def make_case(chance):
    currency = chance.choice(list(DECIMALS))
    things = {"marsh-wax": Thing(chance, currency, list(UNITS)),
              "jar": Thing(chance, currency, [""])}
    makes = chance.randint(1, 12)
    text = HEAD.format(things["marsh-wax"].sold(), chance.randint(20, 200), things["jar"].sold())
    stock = {}
    extras = []
    for i in range(EXTRAS):
        name = f"bit-{'abcdefghijklmnop'[i]}"
        things[name] = Thing(chance, currency, [""])
        text += f"extra {name} {{\n  goes: outside\n  sold: {things[name].sold()}\n}}\n"
        extras.append((chance.randint(1, 3), name))
        if chance.random() < 0.4:
            stock[name] = chance.randint(0, 20)
    if chance.random() < 0.5:
        stock["marsh-wax"] = chance.randint(0, 900)
    text += f"recipe plain {{\n  makes: {makes} jar\n  wax: marsh-wax\n  scale: bench\n  extras: "
    text += " + ".join(f"{count} {name}" for count, name in extras)
    text += "\n  steps {\n    melt to 75 °C\n    pour at 62 °C\n  }\n}\nstock shelf {\n"
    for name, amount in stock.items():
        text += f"  have {amount}{' g' if name == 'marsh-wax' else ''} {name}\n"
    text += "}\n"
    needs = {"jar": makes, **{name: count * makes for count, name in extras}}
    return text, things, stock, needs


def check_case(sheet, things, stock, needs):
    needs = {name: Fraction(need) for name, need in needs.items()}
    needs["marsh-wax"] = Fraction(weighed(sheet)["marsh-wax"])
    bought = {buy["name"]: buy for buy in sheet.get("buy", [])}
    batch = Fraction(0)
    for name, thing in things.items():
        price, _, amount = thing.best(needs[name])
        batch += price / amount * needs[name]
        missing = max(Fraction(0), needs[name] - stock.get(name, 0))
        buy = bought.pop(name, None)
        if (buy is not None) != (missing > 0):
            yield f"{name}: {missing} is missing, the sheet has {buy}"
            continue
        if buy is None:
            continue
        told = buy["need_g"] if name == "marsh-wax" else buy["need_each"]
        if Fraction(told) != missing:
            yield f"{name}: {missing} is missing, the sheet says {told}"
        best = thing.best(missing)
        worth = thing.worth(buy["packs"])
        if worth != best or not math.isclose(float(best[0]), buy["cost"], abs_tol=1e-9):
            yield f"{name}: of {thing.sold()} for {missing} best is {best}, the sheet has {buy}"
    if bought:
        yield f"bought and not used: {', '.join(bought)}"
    if not math.isclose(float(batch), sheet["cost"]["batch"], rel_tol=1e-9, abs_tol=1e-9):
        yield f"the batch costs {float(batch)}, the sheet says {sheet['cost']['batch']}"


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True)
    parser.add_argument("--runs", type=int, default=40)
    parser.add_argument("--seed", type=int, default=2611)
    arguments = parser.parse_args()
    chance = random.Random(arguments.seed)
    faults, checked = [], 0
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "case.candle"
        for run in range(arguments.runs):
            text, things, stock, needs = make_case(chance)
            file.write_text(text, encoding="utf-8")
            done = subprocess.run([arguments.waxwright, "sheet", file, "--as", "toml"],
                                  capture_output=True, check=False, timeout=60)
            if done.returncode != 0:
                faults.append(f"run {run}: {done.stderr.decode()}\n{text}")
                continue
            sheet = tomllib.loads(done.stdout.decode())
            found = list(check_case(sheet, things, stock, needs))
            faults += [f"run {run}: {fault}" for fault in found]
            checked += len(things)
    for fault in faults:
        print(f"cover_check: {fault}")
    print(f"cover_check: {checked} covers, {len(faults)} faults")
    return 1 if faults or not checked else 0


if __name__ == "__main__":
    sys.exit(main())
