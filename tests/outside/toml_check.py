#!/usr/bin/env python3
"""Reads a TOML sheet with Python's own reader and holds it to the contract.

usage: toml_check.py FILE.toml [--division GRAMS]

Checked: every key that must be there is, each has its type, and none is unknown; floats are the
shortest text that reads back; a recipe's exact lines add up to its wax, scent and additives, and
their shares to one; a pot's weighings add up to its mass in whole divisions (with --division the
scale's; without it 0.1 g where a line is under 20 g, else 1 g); the recipes' counts and the pots'
vessels add up to the whole; what is to be bought is no more than what is weighed or counted, its
packs cover it with none to spare, and their prices add up; a figure lies between the
ends of its doubt, where it has them.
Exit status 0: all holds; 1: something doesn't; 2: wrong call.
"""

import argparse
import datetime
import math
import re
import sys
import tomllib

# Types of the keys; True: it is always there.
HEAD = {
    "format": (str, True),
    "edition": (int, True),
    "name": (str, True),
    "title": (str, True),
    "lot": (str, False),
    "count": (int, True),
    "recipe": (list, True),
    "pot": (list, True),
    "step": (list, True),
    "finding": (list, False),
    "melt": (list, False),
    "buy": (list, False),
    "cost": (dict, False),
}
RECIPE = {
    "name": (str, True),
    "title": (str, True),
    "count": (int, True),
    "vessel": (str, True),
    "fill_ml": (float, True),
    "mass_g": (float, True),
    "first_pour_g": (float, True),
    "second_pour_g": (float, True),
    "kept_g": (float, True),
    "load_of_wax": (float, True),
    "load_of_total": (float, True),
    "limit_of_wax": (float, False),
    "ceiling_c": (float, False),
    "flash_c": (float, False),
    "burn_h": (float, False),
    "wax_g": (float, True),
    "scent_g": (float, True),
    "additive_g": (float, True),
    "leftover_g": (float, False),
    "weigh": (list, True),
    "premix": (list, False),
}
# The ends of a figure that hangs on doubtful ones, both or neither, and the figure between them.
ENDS = {
    "mass_{}_g": "mass_g",
    "first_pour_{}_g": "first_pour_g",
    "load_of_wax_{}": "load_of_wax",
    "load_of_total_{}": "load_of_total",
    "wax_{}_g": "wax_g",
    "scent_{}_g": "scent_g",
    "additive_{}_g": "additive_g",
    "leftover_{}_g": "leftover_g",
}
# The same of whole numbers, whose figure is in the pots: how many fillings, and the most vessels
# in one.
WHOLE_ENDS = ("fillings_{}", "most_vessels_{}")
for end in ("low", "high"):
    RECIPE |= {name.format(end): (float, False) for name in ENDS}
    RECIPE |= {name.format(end): (int, False) for name in WHOLE_ENDS}
RECIPE_WEIGH = {
    "kind": (str, True),
    "name": (str, True),
    "mass_g": (float, True),
    "share": (float, True),
}
PREMIX = {"name": (str, True), "weigh_g": (float, True)}
POT = {
    "recipe": (str, True),
    "name": (str, False),
    "pots": (int, True),
    "vessels": (int, True),
    "mass_g": (float, True),
    "volume_ml": (float, True),
    "weigh": (list, True),
}
POT_WEIGH = {"kind": (str, True), "name": (str, True), "weigh_g": (float, True)}
STEP = {
    "recipe": (str, True),
    "verb": (str, True),
    "of": (str, False),
    "at_c": (float, False),
    "length_mm": (float, False),
    "minutes": (float, False),
    "starts": (datetime.datetime, False),
    "text": (str, True),
}
MELT = {
    "name": (str, True),
    "recipes": (list, True),
    "fillings": (int, True),
    "at_c": (float, True),
    "volume_ml": (float, False),
    "minutes": (float, False),
    "weigh": (list, True),
}
FINDING = {
    "rule": (str, True),
    "severity": (str, True),
    "text": (str, True),
    "because": (str, False),
}
BUY = {
    "name": (str, True),
    "need_g": (float, False),
    "need_each": (int, False),
    "packs": (list, False),
    "cost": (float, False),
}
PACK = {"count": (int, True), "size": (str, True), "price": (float, True)}
COST = {
    "currency": (str, True),
    "batch": (float, True),
    "each": (float, True),
    "to_buy": (float, True),
    "so_far": (bool, False),
}
# Weights as a pack says its size.
GRAMS = {"mg": 0.001, "g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237}
# Kind of an exact line -> the sum it is part of.
SUMS = {"wax": "wax_g", "oil": "scent_g", "additive": "additive_g", "leftover": "leftover_g"}


def check_keys(table, keys, where):
    for key, (kind, needed) in keys.items():
        if key not in table:
            if needed:
                yield f"{where}: no {key}"
        elif type(table[key]) is not kind:  # a bool is no int here
            yield f"{where}: {key} is {type(table[key]).__name__}, not {kind.__name__}"
        elif kind is float and not math.isfinite(table[key]):
            yield f"{where}: {key} is no number"
    for key in table.keys() - keys.keys():
        yield f"{where}: unknown key {key}"


def is_close(a, b):
    return math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-9)


def check_recipe(recipe, where):
    for line in recipe["weigh"]:
        yield from check_keys(line, RECIPE_WEIGH, f"{where}.weigh")
    for line in recipe.get("premix", []):
        yield from check_keys(line, PREMIX, f"{where}.premix")
    for kind, key in SUMS.items():
        lines = [line for line in recipe["weigh"] if line["kind"] == kind]
        total = math.fsum(line["mass_g"] for line in lines)
        if not is_close(total, recipe.get(key, 0)):
            yield f"{where}: {kind} lines add up to {total}, {key} is {recipe.get(key)}"
        if kind == "leftover":  # shares of the whole
            whole = math.fsum(recipe.get(each, 0) for each in SUMS.values())
            if not all(is_close(line["share"] * whole, line["mass_g"]) for line in lines):
                yield f"{where}: shares of leftovers are not of the whole"
        elif lines and not is_close(math.fsum(line["share"] for line in lines), 1):
            yield f"{where}: shares of {kind} don't add up to 1"
    oils = [line["name"] for line in recipe["weigh"] if line["kind"] == "oil"]
    premix = [line["name"] for line in recipe.get("premix", [])]
    if premix != (oils if len(oils) > 1 else []):
        yield f"{where}: the premix is {premix}, the oils are {oils}"
    if {line["kind"] for line in recipe["weigh"]} - SUMS.keys():
        yield f"{where}: unknown kind"
    leftovers = [line for line in recipe["weigh"] if line["kind"] == "leftover"]
    if ("flash_c" in recipe) and not oils and not leftovers:
        yield f"{where}: a flash point without scent"


def check_ends(recipe, pots, where):
    figures = {name: recipe.get(figure, 0) for name, figure in ENDS.items()}
    figures["fillings_{}"] = sum(pot["pots"] for pot in pots)
    figures["most_vessels_{}"] = max((pot["vessels"] for pot in pots), default=0)
    for name, figure in figures.items():
        low, high = recipe.get(name.format("low")), recipe.get(name.format("high"))
        if low is None and high is None:
            continue
        if low is None or high is None:
            yield f"{where}: one end only of {name.format('…')}"
        elif not (low <= figure <= high and low < high):
            yield f"{where}: {name.format('…')} goes from {low} to {high} round {figure}"


def check_pot(pot, where, division):
    for line in pot["weigh"]:
        yield from check_keys(line, POT_WEIGH, f"{where}.weigh")
        if line["kind"] not in ("wax", "leftover", "additive", "scent"):
            yield f"{where}: unknown kind {line['kind']}"
    weights = [line["weigh_g"] for line in pot["weigh"]]
    if division is None:
        division = 0.1 if min(weights, default=0) < 20 else 1.0
    for weight in weights:
        if not is_close(weight / division, round(weight / division)):
            yield f"{where}: {weight} g is not in whole divisions of {division} g"
    total = math.fsum(weights)
    if abs(total - pot["mass_g"]) > division * (0.5 + 1e-9):
        yield f"{where}: lines add up to {total}, its mass {pot['mass_g']} rounds to another"


def weighed(sheet):
    """Name of a material -> g of it on the scale, over all pots; blended oils by their own table."""
    grams = {}
    for pot in sheet["pot"]:
        for line in pot["weigh"]:
            blend = line["kind"] == "scent" and line["name"] == "scent"
            drawn = line["kind"] == "wax" and "melt" in sheet
            if not blend and not drawn:
                grams.setdefault(line["name"], 0.0)
                grams[line["name"]] += pot["pots"] * line["weigh_g"]
    for melt in sheet.get("melt", []):
        for line in melt["weigh"]:
            grams.setdefault(line["name"], 0.0)
            grams[line["name"]] += melt["fillings"] * line["weigh_g"]
    for recipe in sheet["recipe"]:
        for line in recipe.get("premix", []):
            grams[line["name"]] = grams.get(line["name"], 0.0) + line["weigh_g"]
    return grams


def size_of(text, by_weight):
    """g or pieces of a pack; nothing where it is sold by volume."""
    number, _, unit = text.replace("\u202f", "").partition(" ")
    if not by_weight:
        return float(number)
    return float(number) * GRAMS[unit] if unit in GRAMS else None


def check_buy(buy, grams, where):
    yield from check_keys(buy, BUY, where)
    if ("need_g" in buy) == ("need_each" in buy):
        yield f"{where}: needs one of need_g and need_each"
        return
    by_weight = "need_g" in buy
    need = buy["need_g"] if by_weight else buy["need_each"]
    if need <= 0:
        yield f"{where}: nothing is needed"
    if by_weight and need > grams.get(buy["name"], 0.0) * (1 + 1e-9):
        yield f"{where}: needs {need} g, and {grams.get(buy['name'])} g are weighed"
    if ("packs" in buy) != ("cost" in buy):
        yield f"{where}: packs without cost, or cost without packs"
    for pack in buy.get("packs", []):
        yield from check_keys(pack, PACK, f"{where}.packs")
    packs = buy.get("packs", [])
    if packs and not is_close(math.fsum(p["count"] * p["price"] for p in packs), buy["cost"]):
        yield f"{where}: the packs' prices don't add up to {buy['cost']}"
    sizes = [size_of(pack["size"], by_weight) for pack in packs]
    if packs and None not in sizes:
        amount = math.fsum(p["count"] * size for p, size in zip(packs, sizes))
        # A size is printed with two decimals or so.
        if amount < need * (1 - 1e-3):
            yield f"{where}: {amount} is bought, {need} is needed"
        if any(p["count"] < 1 or (p["price"] > 0 and amount - size >= need * (1 + 1e-3))
               for p, size in zip(packs, sizes)):
            yield f"{where}: a pack could be left out"


def check_cost(sheet):
    yield from check_keys(sheet["cost"], COST, "cost")
    cost = sheet["cost"]
    if not re.fullmatch("[A-Z]{3}", cost["currency"]):
        yield f"cost: no currency {cost['currency']}"
    if not is_close(cost["each"] * sheet["count"], cost["batch"]):
        yield "cost: each times count is not batch"
    total = math.fsum(buy.get("cost", 0.0) for buy in sheet.get("buy", []))
    if not is_close(total, cost["to_buy"]):
        yield f"cost: to_buy is {cost['to_buy']}, the packs cost {total}"


def check_sheet(sheet, division):
    yield from check_keys(sheet, HEAD, "sheet")
    if sheet["format"] != "waxwright-sheet" or sheet["edition"] != 1:
        yield "sheet: another format or edition"
    parts = (("recipe", RECIPE), ("pot", POT), ("melt", MELT), ("step", STEP))
    parts += (("finding", FINDING),)
    for part, keys in parts:
        for i, table in enumerate(sheet.get(part, [])):
            yield from check_keys(table, keys, f"{part} {i + 1}")
    for i, recipe in enumerate(sheet["recipe"]):
        yield from check_recipe(recipe, f"recipe {i + 1}")
        own = [pot for pot in sheet["pot"] if pot["recipe"] == recipe["name"]]
        if len(sheet["recipe"]) == 1:
            yield from check_ends(recipe, own, f"recipe {i + 1}")
    for i, pot in enumerate(sheet["pot"]):
        yield from check_pot(pot, f"pot {i + 1}", division)
    for i, finding in enumerate(sheet.get("finding", [])):
        if finding["severity"] not in ("warning", "note"):
            yield f"finding {i + 1}: severity {finding['severity']}"

    grams = weighed(sheet)
    for i, buy in enumerate(sheet.get("buy", [])):
        yield from check_buy(buy, grams, f"buy {i + 1}")
    if "cost" in sheet:
        yield from check_cost(sheet)

    counts = sum(recipe["count"] for recipe in sheet["recipe"])
    vessels = sum(pot["pots"] * pot["vessels"] for pot in sheet["pot"])
    if counts != sheet["count"] or vessels != sheet["count"]:
        yield f"sheet: count {sheet['count']}, recipes {counts}, vessels in pots {vessels}"
    names = {recipe["name"] for recipe in sheet["recipe"]}
    for part in ("pot", "step"):
        for table in sheet[part]:
            if table["recipe"] not in names:
                yield f"{part}: unknown recipe {table['recipe']}"


def check_floats(text):
    """Python's repr of a float is the shortest text that reads back."""
    for line in text.splitlines():
        found = re.fullmatch(r"\s*\w+ = (-?\d[\d.e+-]*)", line)
        if not found or re.fullmatch(r"-?\d+", found[1]):
            continue
        digits = re.sub(r"e.*|[.-]", "", found[1]).strip("0")
        shortest = re.sub(r"e.*|[.-]", "", repr(float(found[1]))).strip("0")
        if len(digits) > len(shortest):
            yield f"{line.strip()}: {float(found[1])!r} is shorter"


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("file")
    parser.add_argument("--division", type=float)
    arguments = parser.parse_args()
    try:
        with open(arguments.file, encoding="utf-8") as file:
            text = file.read()
        sheet = tomllib.loads(text)
    except (OSError, UnicodeDecodeError) as error:
        print(f"toml_check: {error}", file=sys.stderr)
        return 2
    except tomllib.TOMLDecodeError as error:
        print(f"{arguments.file}: {error}")
        return 1
    faults = list(check_floats(text))
    try:
        faults += check_sheet(sheet, arguments.division)
    except (KeyError, TypeError) as error:
        faults.append(f"cut short by a key that is not as it must be: {error!r}")
    for fault in faults:
        print(f"{arguments.file}: {fault}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
