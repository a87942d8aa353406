#!/usr/bin/env python3
"""Holds the standard library: every figure has a source and is one that can be.

    library.py --waxwright BIN --tree TREE

- Each block of stdlib/*.candle has `about` and `source`, and the source has a clause for each of its
  figures: `density, heat: from memory of …; melts: …`. A clause names what the figure rests on with
  one of the words of MARKS. A figure is whatever has a digit in it, `about` included.
- Where a source says what a doubt covers, and what relative densities were published, it does.
- What an oil contains is of the library's substances, and each share within the range that its
  source says.
- What is derived is derived again, by the words of its source (library_derived.py).
- No source names a place on the web. The last digit of a CAS number checks the others.
- No figure is outside what such a thing can have (LIMITS), with its doubt, and temperatures stand
  in their order: melted before the ceiling, the ceiling under the flash point.
- A file that uses all modules checks without a finding, and so does the library by itself.
- `materials` lists every block, and shows each with its figures and its source.
First the test is tried itself, on blocks that have such faults: each must be told.
Exit status 0: all is so; 1: what is not is printed, a line each.
"""

import argparse
import re
import subprocess
import sys
from pathlib import Path

from library_derived import faults_of_derived

MODULES = {"waxes": "wax", "oils": "oil", "additives": "additive", "vessels": "vessel",
           "wicks": "wick", "extras": "extra", "isolates": "oil", "substances": "substance"}
FEWEST = 100  # blocks

BLOCK = re.compile(r"^([a-z-]+) ([a-z0-9-]+) \{\n(.*?)^\}", re.M | re.S)
PROPERTY = re.compile(r"^  ([a-z0-9-]+):\s+(.*?)\s*$", re.M)
NUMBER = re.compile(r"(?<![\w.-])(\d+(?:\.\d+)?)(?: ?[^\s,+]+)?(?: \+- (\d+(?:\.\d+)?))?")

# The least and the most that each figure can be, with its doubt, in the unit it is written in.
LIMITS = {
    ("wax", "density"): ("g/ml", 0.80, 1.05),
    ("wax", "liquid-density"): ("g/ml", 0.70, 0.95),
    ("wax", "melts"): ("°C", 35, 90),
    ("wax", "max-load"): ("% of wax", 1, 15),
    ("wax", "ceiling"): ("°C", 75, 120),
    ("wax", "flash-point"): ("°C", 140, 360),
    ("wax", "scent-at"): ("°C", 50, 100),
    ("wax", "pour-at"): ("°C", 40, 100),
    ("wax", "cures"): ("days", 1, 30),
    ("wax", "heat"): ("J/g/K", 1.0, 3.5),
    ("wax", "heat-liquid"): ("J/g/K", 1.5, 3.0),
    ("wax", "melting-heat"): ("J/g", 70, 280),
    ("oil", "density"): ("g/ml", 0.80, 1.10),
    ("oil", "flash-point"): ("°C", 15, 135),
    ("oil", "contains"): ("%", 0.1, 100),
    ("substance", "m-factor"): ("", 1, 10000),
    ("substance", "specific-limit"): ("%", 0.001, 10),
    ("additive", "density"): ("g/ml", 0.80, 1.20),
    ("additive", "liquid-density"): ("g/ml", 0.80, 1.20),
    ("additive", "melts"): ("°C", 40, 90),
    ("additive", "flash-point"): ("°C", 100, 320),
    ("additive", "heat"): ("J/g/K", 1.0, 3.5),
    ("additive", "heat-liquid"): ("J/g/K", 1.5, 3.0),
    ("additive", "melting-heat"): ("J/g", 70, 280),
    ("additive", "limit"): ("% of wax", 0.1, 20),
    ("additive", "adds-at"): ("°C", 60, 100),
    ("vessel", "brimful"): ("ml", 80, 700),
    ("vessel", "bore"): ("mm", 40, 120),
    ("vessel", "mouth"): ("mm", 40, 120),
    ("vessel", "headspace"): ("mm", 6, 25),
    ("vessel", "inside"): ("mm", 40, 120),
}
# What a clause of a source rests on: one of these is in each.
MARKS = re.compile(
    r"common practice"              # a fact of the trade, nothing published behind it
    r"|from memory of \S"           # a real source whose text was not read for this
    r"|from memory, source not noted"
    r"|derived from \S"             # arithmetic, or a definition
    r"|, seen\b|, both seen|, all seen"  # a published text, or an excerpt of it, that was read
    r"|a plain shape of our own"    # geometry
    r"|as `[a-z-]+`$")              # what another property of the block rests on
TEXTS = {("substance", "hazards"), ("substance", "cas")}  # with digits, and not to be measured
COVERED = re.compile(r"doubt covers (\d+(?:\.\d+)?)(?: to (\d+(?:\.\d+)?))?")
RELATIVE = re.compile(r"d\((20|25)/(20|25)\)(?: [A-Z][a-z]+)? (\d\.\d+) to (\d\.\d+)")
WATER = {"20": 0.99820, "25": 0.99705}  # g/ml, from tables of the density of water
ROUNDED = 0.00052  # a density is written to 0.0001, its doubt to 0.001
# A place on the web, or a key of somebody's list of sources.
NO_SOURCE = re.compile(r"https?:|www\.|\.com\b|\bS\d+\b")


class Library:
    def __init__(self, paths):
        self.faults = []
        self.blocks = {}  # name -> (kind, properties)
        for path in paths:
            self.read(path)

    def tell(self, where, what):
        self.faults.append(f"{where}: {what}")

    def read(self, path):
        text = path.read_text("utf-8")
        found = BLOCK.findall(text)
        opened = len(re.findall(r"^[a-z-]+ [a-z0-9-]+.*\{", text, re.M))
        if len(found) != opened:
            self.tell(path.name, f"{opened} blocks begin and {len(found)} can be read here")
        for kind, name, body in found:
            if MODULES.get(path.stem) != kind:
                self.tell(path.name, f"`{name}` is a {kind}")
            self.blocks[name] = (kind, dict(PROPERTY.findall(body)))

    def clauses(self, name, properties):
        """What the source says of each property: key -> grounds."""
        found = {}
        for clause in properties.get("source", "").strip('"').split("; "):
            words, colon, grounds = clause.partition(": ")
            keys = words.split(", ") if colon else []
            if not keys:
                self.tell(name, f"a clause of the source does not say of what it is: {clause}")
            if keys != ["note"] and not MARKS.search(grounds):
                self.tell(name, f"does not say what it rests on: {clause}")
            for key in keys:
                if key in found and key != "note":
                    self.tell(name, f"the source speaks of `{key}` twice")
                if key not in properties and key != "note":
                    self.tell(name, f"the source speaks of `{key}`, and the block has none")
                found[key] = grounds
        return found

    def try_block(self, name, kind, properties):
        source = properties.get("source", "")
        if len(properties.get("about", "")) < 5:
            self.tell(name, "has no `about`")
        if len(source) < 5:
            self.tell(name, "has no `source`")
        if NO_SOURCE.search(source):
            self.tell(name, f"a source has a title, not an address: {source}")
        clauses = self.clauses(name, properties)
        claims = "[:;]|taken off|never" if kind in ("extra", "wick") else None
        if claims and re.search(claims, properties.get("about", "")) and "about" not in clauses:
            self.tell(name, "`about` says more than what it is, and its source nothing of that")
        for key, value in properties.items():
            if key == "source" or not re.search(r"\d", value):
                continue
            if key not in clauses:
                self.tell(name, f"the source says nothing of `{key}`")
            if key == "about":
                continue
            if key == "cas":
                self.try_cas(name, value.strip('"'))
            if (kind, key) in TEXTS:
                continue
            self.try_doubt(name, key, value, clauses.get(key, ""))
            if key == "contains" and "derived from" not in clauses.get(key, ""):
                self.try_contents(name, value, clauses.get(key, ""))
            for fault in faults_of_derived(name, key, value, clauses.get(key, "")):
                self.tell(name, fault)
            if (kind, key) not in LIMITS:
                self.tell(name, f"what `{key}` can be is not known: add it to LIMITS")
            else:
                self.try_figure(name, key, value, *LIMITS[kind, key])

    def try_cas(self, name, number):
        digits = number.replace("-", "")
        check = sum(i * int(digit) for i, digit in enumerate(reversed(digits))) % 10
        if not re.fullmatch(r"\d{2,7}-\d\d-\d", number) or check != int(digits[-1]):
            self.tell(name, f"{number} is no CAS number")

    def try_doubt(self, name, key, value, grounds):
        """Every range that the source says is covered lies within the doubt of one of the figures,
        and so does the first that was published as a relative density."""
        figures = [(float(number), float(doubt or 0)) for number, doubt in NUMBER.findall(
            re.sub(r" at \d+(\.\d+)? °C", "", value))]
        wanted = [(float(low), float(high or low), 1e-9) for low, high in COVERED.findall(grounds)]
        if match := RELATIVE.search(grounds):
            of, water, low, high = match.groups()
            if of == water:
                wanted.append((float(low) * WATER[water], float(high) * WATER[water], ROUNDED))
        for low, high, slack in wanted:
            if not any(number - doubt <= low + slack and high - slack <= number + doubt
                       for number, doubt in figures):
                self.tell(name, f"`{key}: {value}` does not cover {low:g} to {high:g}")

    def try_contents(self, name, value, grounds):
        """Each share is within what the source says of it: `linalool 20 to 45 %`, `safrole to 3 %`,
        `terpinen-4-ol from 30 %`, a name written with blanks or hyphens, or two joined by `and`."""
        for share, substance in re.findall(r"([\d.]+)% ([a-z0-9-]+)", value):
            words = substance.replace("-", "[ -]")
            said = re.search(rf"\b{words}(?: and [a-z0-9-]+)? (?:(to|from|at least) )?([\d.]+)"
                             r"(?: to ([\d.]+))? %", grounds)
            if not said:
                self.tell(name, f"the source of `contains` says no range of {substance}")
                continue
            low = 0 if said[1] == "to" else float(said[2])
            high = float(said[3] or (said[2] if said[1] == "to" else 100))
            if not low <= float(share) <= high:
                self.tell(name, f"{share}% {substance} is outside {low:g} to {high:g} %")

    def try_figure(self, name, key, value, unit, least, most):
        if unit not in value:
            self.tell(name, f"`{key}: {value}` is not in {unit}")
        # The temperature that a density was measured at is another figure.
        numbers = NUMBER.findall(re.sub(r" at \d+(\.\d+)? °C", "", value))
        for number, doubt in numbers:
            low, high = float(number) - float(doubt or 0), float(number) + float(doubt or 0)
            if low < least or high > most:
                self.tell(name, f"`{key}: {value}` is outside {least} to {most} {unit}")

    def numbers(self, name, key):
        """The figures of a property without their doubts and temperatures of measuring."""
        value = self.blocks[name][1].get(key, "")
        return [float(number) for number, _ in NUMBER.findall(re.sub(r" at \d.*?°C", "", value))]

    def try_vessel(self, name):
        """Glass and ceramic crack: nobody's candle glass says so, and a recipe with it is warned."""
        properties = self.blocks[name][1]
        made_for = properties.get("made-for")
        if made_for not in (None, "unknown"):
            self.tell(name, f"`made-for: {made_for}` is for its maker to say")
        cracks = properties.get("of") in ("glass", "ceramic")
        if cracks and made_for is None and "candle glass" not in properties["about"]:
            self.tell(name, "is no candle glass, and should say `made-for: unknown`")

    def try_wax(self, name):
        """The temperatures and densities of one wax beside one another."""
        melted, ceiling = max(self.numbers(name, "melts")), self.numbers(name, "ceiling")[0]
        for key in ("scent-at", "pour-at"):
            for temperature in self.numbers(name, key):
                if temperature > ceiling:
                    self.tell(name, f"`{key}` goes over the ceiling")
        if melted > ceiling:
            self.tell(name, "is melted over its ceiling only")
        for flash in self.numbers(name, "flash-point")[:1]:
            if flash - 16.7 <= ceiling:
                self.tell(name, "the ceiling comes near the flash point")
        solid, liquid = self.numbers(name, "density")[0], self.numbers(name, "liquid-density")
        loss = re.search(r"loses (\d+) to (\d+)% of its volume", self.blocks[name][1]["about"])
        for density in liquid if loss else []:
            if not int(loss[1]) <= 100 * (1 - density / solid) <= int(loss[2]):
                self.tell(name, f"`about` says {loss[0]}, and {density} of {solid} g/ml is another")
        if not liquid or max(liquid) > solid or liquid != sorted(liquid, reverse=True):
            self.tell(name, "the liquid should be thinner than the solid, and thinner when hotter")


def run(waxwright, *words, text=""):
    done = subprocess.run([str(waxwright), *words], input=text.encode("utf-8"),
                          capture_output=True, timeout=60)
    return done.stdout.decode("utf-8"), done.returncode


def try_program(library, waxwright, tree):
    for words, text in (
        (("check", "--notes", "-"), f"language 1\nuse {', '.join(MODULES)}\n"),
        (("check", "--notes", str(tree / "stdlib")), ""),
    ):
        report, status = run(waxwright, *words, text=text)
        if status != 0 or not report.startswith("no findings"):
            library.tell("stdlib", f"does not check clean ({status}):\n{report}")
    listed, status = run(waxwright, "materials")
    names = re.findall(r"^  ([a-z0-9-]+) ", listed, re.M)
    if status != 0 or sorted(names) != sorted(library.blocks):
        differing = sorted(set(names) ^ set(library.blocks))
        library.tell("materials", f"should list every block once; differing: {differing}")
    for name, (kind, properties) in library.blocks.items():
        page, status = run(waxwright, "materials", name)
        if status != 0 or f"{kind} {name}\n" not in page:
            library.tell("materials", f"has no page of `{name}`")
        flowing = " ".join(page.split())  # texts are broken into lines on the page
        for key, value in properties.items():
            if key == "source":  # taken apart at its clauses
                shown = all(clause.partition(": ")[2] in flowing
                            for clause in " ".join(value.strip('"').split()).split("; "))
                if not shown:
                    library.tell("materials", f"the page of `{name}` lacks part of its source")
            elif " ".join(value.strip('"').split()) not in flowing:
                library.tell("materials", f"the page of `{name}` does not show its `{key}`")


FAULTY = [  # what is wrong in a block, and what must be told of it
    ('density: 0.9 g/ml at 20 °C', 'note: nothing', "says nothing of `density`"),
    ('density: 0.9 g/ml', 'density: somebody said so', "does not say what it rests on"),
    ('density: 0.9 g/ml', 'common practice', "does not say of what"),
    ('density: 0.9 g/ml', 'density, flash-point: common practice', "the block has none"),
    ('density: 0.9 g/ml', 'density: common practice; density: derived from it', "twice"),
    ('density: 0.9 g/ml', 'density: derived from www.example, seen', "not an address"),
    ('density: 0.9 g/ml +- 0.01', 'density: common practice, doubt covers 0.88 to 0.91', "cover"),
    ('density: 0.9 g/ml +- 0.01', 'density: from memory of X, d(20/20) 0.9 to 0.92', "cover"),
    ('density: 0.9 g/ml +- 0.01', 'density: derived from 0.9 at 20 °C, seen', "derive it again"),
    ('density: 0.9 g/ml', 'density: X, seen, d(20/20) 0.911 to 0.92', "outside d(20/20)"),
    ('flash-point: 48 °C', 'flash-point: 46 °C in X, 48 °C in Y, both seen, the lowest is taken',
     "the lowest is 46"),
    ('liquid-density: 0.8825 g/ml +- 0.008 at 60 °C', "liquid-density: derived from the oil's 0.918 "
     'at 25 °C in X, seen, less 0.0007 g/ml for each degree', "0.8935"),
    ('heat: 1.9 J/g/K', 'heat: derived from 501.5 J/mol/K and 284.48 g/mol, seen', "1.7629"),
    ('density: 1.9 g/ml', 'density: common practice', "is outside"),
    ('sorrow: 3 mm', 'sorrow: common practice', "add it to LIMITS"),
    ('contains: 46% linalool', 'contains: X, seen, linalool 20 to 45 %', "outside 20 to 45 %"),
    ('contains: 46% linalool', 'contains: X, seen', "no range of linalool"),
    ('cas: "78-70-7"', 'cas: from memory of X', "no CAS number"),
]


def try_itself():
    """The faults that the test should tell of and does not."""
    missed = []
    for line, source, wanted in FAULTY:
        library = Library([])
        body = f'  about: "A thing"\n  {line}\n  source: "{source}"\n'
        library.try_block("odd", "oil", dict(PROPERTY.findall(body)))
        if not any(wanted in fault for fault in library.faults):
            missed.append(f"this test: `{line}` by `{source}` should be told of: {wanted}")
    library = Library([])
    library.try_block("even", "oil", dict(PROPERTY.findall(
        '  about: "A thing"\n  density: 0.9 g/ml\n  source: "density: common practice"\n')))
    return missed + [f"this test: nothing is wrong with {fault}" for fault in library.faults]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()

    library = Library(sorted((options.tree / "stdlib").glob("*.candle")))
    library.faults += try_itself()
    if len(library.blocks) < FEWEST:
        library.tell("stdlib", f"only {len(library.blocks)} blocks: is this the right tree?")
    for name, (kind, properties) in library.blocks.items():
        library.try_block(name, kind, properties)
        if kind == "wax":
            library.try_wax(name)
        if kind == "vessel":
            library.try_vessel(name)
    try_program(library, options.waxwright.resolve(), options.tree)

    for fault in library.faults:
        print(fault)
    print(f"{len(library.blocks)} blocks, {len(library.faults)} faults")
    return 1 if library.faults else 0


if __name__ == "__main__":
    sys.exit(main())
