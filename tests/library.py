#!/usr/bin/env python3
"""Holds the standard library: every figure has a source and is one that can be.

    library.py --waxwright BIN --tree TREE

- Each block of stdlib/*.candle has `about` and `source`, and the source speaks of each of its
  figures, by its name or by a word that stands for several ("the rest", "heats").
- No figure is outside what such a thing can have (LIMITS), with its doubt, and temperatures stand
  in their order: melted before the ceiling, the ceiling under the flash point.
- A file that uses all modules checks without a finding, and so does the library by itself.
- `materials` lists every block, and shows each with its figures and its source.
Exit status 0: all is so; 1: what is not is printed, a line each.
"""

import argparse
import re
import subprocess
import sys
from pathlib import Path

MODULES = {"waxes": "wax", "oils": "oil", "additives": "additive", "vessels": "vessel",
           "wicks": "wick", "extras": "extra"}
FEWEST = 80  # blocks

BLOCK = re.compile(r"^([a-z-]+) ([a-z0-9-]+) \{\n(.*?)^\}", re.M | re.S)
PROPERTY = re.compile(r"^  ([a-z0-9-]+):\s+(.*?)\s*$", re.M)
NUMBER = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?)(?: ?[^\s,+]+)?(?: \+- (\d+(?:\.\d+)?))?")

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
    ("additive", "density"): ("g/ml", 0.80, 1.20),
    ("additive", "limit"): ("% of wax", 0.1, 20),
    ("additive", "adds-at"): ("°C", 60, 100),
    ("vessel", "brimful"): ("ml", 80, 700),
    ("vessel", "bore"): ("mm", 40, 120),
    ("vessel", "mouth"): ("mm", 40, 120),
    ("vessel", "headspace"): ("mm", 6, 25),
    ("vessel", "inside"): ("mm", 40, 120),
}
# What the source may call a figure, beside its own name; `all figures` and `the rest` do for any.
CALLED = {
    "density": ["densities"],
    "liquid-density": ["liquid densit", "densities"],
    "melts": ["melting range"],
    "heat": ["heats"],
    "heat-liquid": ["heats"],
    "melting-heat": ["melting heat"],
    "inside": ["a plain shape"],
    "bore": ["width"],
}
FOR_ALL = ["all figures", "the rest"]
# What a source rests on: one of these words is in each.
GROUNDS = re.compile(
    r"seen|from memory|common practice|worked out|supplier's data sheet|plain|no figures given")


class Library:
    def __init__(self, tree):
        self.faults = []
        self.blocks = {}  # name -> (kind, properties)
        for path in sorted((tree / "stdlib").glob("*.candle")):
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

    def try_block(self, name, kind, properties):
        source = properties.get("source", "")
        if len(properties.get("about", "")) < 5:
            self.tell(name, "has no `about`")
        if not GROUNDS.search(source):
            self.tell(name, f"has no source that says what it rests on: {source}")
        for key, value in properties.items():
            if key in ("about", "source") or not NUMBER.search(value):
                continue
            words = [key.replace("-", " "), key, *CALLED.get(key, []), *FOR_ALL]
            if not any(word in source for word in words):
                self.tell(name, f"the source says nothing of `{key}`: {source}")
            if (kind, key) not in LIMITS:
                self.tell(name, f"what `{key}` can be is not known: add it to LIMITS")
            else:
                self.try_figure(name, key, value, *LIMITS[kind, key])

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
            if " ".join(value.strip('"').split()) not in flowing:
                library.tell("materials", f"the page of `{name}` does not show its `{key}`")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()

    library = Library(options.tree)
    if len(library.blocks) < FEWEST:
        library.tell("stdlib", f"only {len(library.blocks)} blocks: is this the right tree?")
    for name, (kind, properties) in library.blocks.items():
        library.try_block(name, kind, properties)
        if kind == "wax":
            library.try_wax(name)
    try_program(library, options.waxwright.resolve(), options.tree)

    for fault in library.faults:
        print(fault)
    print(f"{len(library.blocks)} blocks, {len(library.faults)} faults")
    return 1 if library.faults else 0


if __name__ == "__main__":
    sys.exit(main())
