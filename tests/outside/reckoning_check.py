#!/usr/bin/env python3
"""Compares the sheets of the compiler with a reckoning said a second time, in exact fractions.

usage: reckoning_check.py --waxwright BIN [--files N] [--seed N] [--keep FOLDER]

Makes up recipes at random (the same ones each time), has BIN print each as TOML, and compares
every number of the sheet with reckoning_model.py to 1e-9 of its value, and every weight to be
weighed in whole divisions. Then the worked cases of reckoning_cases.py. A recipe that breaks a
rule must be refused for just that rule. Exit status 0: all agree; 1: something differs, or over 5 %
of the recipes were refused for a reason that was not foreseen; 2: wrong call.
"""

import argparse
import random
import re
import subprocess
import sys
import tempfile
import tomllib
from collections import Counter
from pathlib import Path

sys.dont_write_bytecode = True  # before the modules beside this one

# pylint: disable=wrong-import-position
from reckoning_cases import CASES, Bench  # noqa: E402
from reckoning_model import weigh_out  # noqa: E402
from reckoning_recipes import make_file  # noqa: E402

TOLERANCE = 1e-9  # relative
MOST_UNFORESEEN = 0.05


class Program:
    """The compiler, run on texts in a folder of their own."""

    def __init__(self, binary, folder):
        self.binary = binary
        self.folder = Path(folder)

    def write(self, name, text):
        path = self.folder / f"{name}.candle"
        path.write_text(text, encoding="utf-8")
        return path

    def run(self, *words):
        command = [self.binary, *map(str, words)]
        done = subprocess.run(command, capture_output=True, check=False, timeout=60)
        return done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8")

    def sheet(self, path, words):
        return self.run("sheet", path, *words, "--as", "toml")


class Comparison:
    """One sheet against what it should be; `wrong` are the differences."""

    def __init__(self):
        self.wrong = []
        self.numbers = 0

    def same(self, what, got, wanted):
        if got != wanted:
            self.wrong.append(f"{what}: {got!r}, not {wanted!r}")

    def near(self, what, got, wanted):
        self.numbers += 1
        if wanted is None or not isinstance(got, float):
            self.same(what, got, wanted)
        elif not abs(got - float(wanted)) <= TOLERANCE * abs(float(wanted)):
            self.wrong.append(f"{what}: {got!r}, not {float(wanted)!r}")

    def lines(self, what, got, wanted):
        """Lines to be weighed against [(kind or None, name, mass)], whole divisions of a scale."""
        division, whole = wanted
        self.same(what, [(line.get("kind", "oil"), line["name"]) for line in got],
                  [(kind, name) for kind, name, _ in whole])
        for line, (_, name, count) in zip(got, whole):
            self.numbers += 1
            weigh = line["weigh_g"]
            exact = float(count * division)
            if round(weigh / float(division)) != count or abs(weigh - exact) > 1e-12 * exact:
                self.wrong.append(f"{what}: {name}: {weigh!r} g, not {count} divisions of "
                                  f"{float(division)!r} g")


def compare_recipe(comparison, got, job, prefix):
    mixture, premix = job.mixture, job.premix()
    comparison.same(prefix + "name", got.get("name"), job.recipe.name)
    comparison.same(prefix + "vessel", got.get("vessel"), job.recipe.vessel.name)
    comparison.same(prefix + "count", got.get("count"), job.count)
    for key, wanted in {
        "fill_ml": job.fill,
        "mass_g": job.mass,
        "first_pour_g": job.first,
        "second_pour_g": job.second,
        "kept_g": job.kept,
        "load_of_wax": mixture.f,
        "load_of_total": mixture.f / mixture.whole,
        "limit_of_wax": mixture.limit(),
        "ceiling_c": job.ceiling(),
        "flash_c": job.flash(),
        "burn_h": job.burn,
        "wax_g": job.wax,
        "scent_g": job.wax * mixture.f,
        "additive_g": job.wax * mixture.a,
    }.items():
        comparison.near(prefix + key, got.get(key), wanted)
    materials = job.materials()
    weighed = {(line["kind"], line["name"]): line for line in got.get("weigh", [])}
    comparison.same(prefix + "weigh", sorted(weighed), sorted(m[:2] for m in materials))
    for kind, name, mass, share in materials:
        line = weighed.get((kind, name), {})
        comparison.near(f"{prefix}weigh {name} mass_g", line.get("mass_g"), mass)
        comparison.near(f"{prefix}weigh {name} share", line.get("share"), share)
    if premix:
        comparison.lines(prefix + "premix", got.get("premix", []), weigh_out(premix, job.division))
    else:
        comparison.same(prefix + "premix", got.get("premix"), None)


def compare_pots(comparison, got, job, prefix):
    comparison.same(prefix + "pots and vessels", [(p["pots"], p["vessels"]) for p in got], job.pots)
    for pot, (_, vessels) in zip(got, job.pots):
        what = f"{prefix}pot of {vessels} "
        mass = job.pot_mass(vessels)
        comparison.same(what + "name", pot.get("name"), job.pot.name if job.pot else None)
        comparison.near(what + "mass_g", pot.get("mass_g"), mass)
        comparison.near(what + "volume_ml", pot.get("volume_ml"), mass / job.hot)
        wanted = weigh_out(job.pot_lines(vessels), job.division)
        comparison.lines(what + "weigh", pot.get("weigh", []), wanted)


def compare_sheet(text, sheet):
    words, title, jobs = sheet
    comparison = Comparison()
    doc = tomllib.loads(text)
    comparison.same("format", doc.get("format"), "waxwright-sheet")
    comparison.same("edition", doc.get("edition"), 1)
    comparison.same("name", doc.get("name"), words[0])
    comparison.same("title", doc.get("title"), title)
    comparison.same("count", doc.get("count"), sum(job.count for job in jobs))
    recipes = doc.get("recipe", [])
    comparison.same("recipes", [r.get("name") for r in recipes], [j.recipe.name for j in jobs])
    for got, job in zip(recipes, jobs):
        prefix = f"{job.recipe.name}: "
        compare_recipe(comparison, got, job, prefix)
        pots = [pot for pot in doc.get("pot", []) if pot["recipe"] == job.recipe.name]
        compare_pots(comparison, pots, job, prefix)
    return comparison


class Tally:
    def __init__(self):
        self.passed = 0
        self.failed = 0
        self.numbers = 0
        self.sheets = 0
        self.refused = Counter()
        self.unforeseen = Counter()

    def result(self, name, wrong):
        if wrong:
            self.failed += 1
            print(f"reckoning_check: {name}:")
            for line in wrong:
                print(f"    {line}")
        else:
            self.passed += 1

    def add(self, name, answer, sheet, forbidden):
        """`forbidden`: the rules for which the whole file must be refused."""
        status, out, err = answer
        self.sheets += 1
        rules = set(re.findall(r": error: .*\[([a-z0-9-]+)\]$", err, re.MULTILINE))
        if forbidden:
            self.refused.update(forbidden)
            wrong = [] if status == 1 and not out else [f"exit {status}, where 1 is due"]
            if rules != forbidden:
                wrong.append(f"refused for {sorted(rules)}, not for {sorted(forbidden)}")
            self.result(name, wrong)
        elif status == 1:
            self.unforeseen.update(rules or {"no reason"})
            print(f"reckoning_check: {name}: refused, unforeseen: {err}")
        elif status != 0:
            self.result(name, [f"exit {status}: {err}"])
        else:
            comparison = compare_sheet(out, sheet)
            self.numbers += comparison.numbers
            self.result(name, comparison.wrong)


def refusals(sheet, sheets):
    """Of a call: what is wrong with any recipe or batch of the file, each as many as it says; only
    the call's own recipe is made as often as `--make` has it."""
    words, *_, own = sheet
    others = [jobs for other, _, jobs in sheets if "--make" not in other and other[0] != words[0]]
    return set().union(*(job.refusals for jobs in [own, *others] for job in jobs))


def check_random(program, tally, files, seed):
    for number in range(files):
        text, sheets = make_file(random.Random(f"{seed} {number}"), number)
        path = program.write(f"file-{number}", text)
        for sheet in sheets:
            forbidden = refusals(sheet, sheets)
            name = f"{path.name} {' '.join(sheet[0])}"
            tally.add(name, program.sheet(path, sheet[0]), sheet, forbidden)


def check_cases(program, tally):
    for case in CASES:
        bench = Bench(program, case.__name__.replace("_", "-"))
        case(bench)
        tally.result(case.__name__, bench.wrong)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--files", type=int, default=250)
    parser.add_argument("--seed", type=int, default=20261205)
    parser.add_argument("--keep", metavar="FOLDER", help="write the recipes here, and leave them")
    options = parser.parse_args()
    if not Path(options.waxwright).is_file():
        parser.error(f"no file {options.waxwright}")

    tally = Tally()
    with tempfile.TemporaryDirectory(prefix="waxwright-reckoning-") as own:
        folder = Path(options.keep or own)
        folder.mkdir(parents=True, exist_ok=True)
        program = Program(options.waxwright, folder)
        check_random(program, tally, options.files, options.seed)
        unforeseen = sum(tally.unforeseen.values())
        if unforeseen > MOST_UNFORESEEN * tally.sheets:
            tally.result("unforeseen refusals", [f"{unforeseen} of {tally.sheets} sheets"])
        check_cases(program, tally)
    print(f"reckoning_check: {tally.sheets} sheets at random, {tally.numbers} numbers compared")
    for what, counter in (("as due", tally.refused), ("unforeseen", tally.unforeseen)):
        reasons = ", ".join(f"{n} {rule}" for rule, n in sorted(counter.items()))
        print(f"reckoning_check: refused, {what}: {reasons or 'none'}")
    print(f"reckoning_check: {tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
