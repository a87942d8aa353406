#!/usr/bin/env python3
"""Reads heat plans with Python's own XML reader and looks where everything stands.

usage: picture_check.py --waxwright BINARY --tree TREE

Of every recipe and batch of the examples, and of recipes made to be awkward (long and hostile names,
many steps at one minute, times that are not known, figures off the scale): the file is well-formed
XML with a title and a description that has every step; all text and lines lie within the view; no
two texts overlap, by widths estimated as DejaVu Sans has them; letters are 2.5 mm high or more at
the printed size; the curve never rises over what the steps ask for.
Exit status 0: all holds; 1: something doesn't; 2: wrong call.
"""

import argparse
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
from pathlib import Path

SVG = "{http://www.w3.org/2000/svg}"
LEAST_LETTERS = 2.5  # mm

BENCH = """language 1
use waxes, oils, vessels, wicks

pot can {
  brimful: 2 l
  heated:  water-bath
  bath:    2 l hot
  power:   1 kW
  cools:   75 °C to 60 °C over 20 min with 1 kg in-room 20 °C
}
pot bare {
  brimful: 2 l
}
"""
RECIPE = """
recipe {name} {{
  title: {title}
  makes: 4 tin-8oz
  wax:   {wax}
  {scent}
  wick:  cotton-braid-large
  pot:   {pot}
  steps {{
{steps}
  }}
}}
"""
USUAL = ["melt to 75 °C", "off heat", "add scent at 70 °C, stir 2 min", "pour at 60 °C"]
LAVENDER = "load: 6% of wax\n  scent: lavender"
MANY = (["melt to 80 °C"] + ["hold 1 min", "stir 30 s"] * 11 +
        ["off heat", "add scent at 70 °C, stir 2 min", "pour at 60 °C", "leave 30 h",
         "second pour at 62 °C"])
AWKWARD = {
    "hostile": dict(title='"<b>&amp; \\"A\\" ]]> \\u{1} \\u{FFFE} \\u{200B}"', steps=USUAL),
    "long": dict(title='"' + "Low water over the mud flats " * 12 + '"', steps=USUAL),
    "one-word": dict(title='"' + "M" * 300 + '"', steps=USUAL),
    "wide": dict(title='"' + "潮" * 90 + '"', steps=USUAL),
    "many": dict(title='"Many"', steps=MANY),
    "unknown": dict(title='"Unknown"', pot="bare", steps=MANY),
    "plain": dict(title='"Plain"', scent="", steps=["melt to 75 °C", "pour at 60 °C"]),
    "cold": dict(title='"Cold"', steps=USUAL[:3] + ["pour at 52 °C"]),
    "hot": dict(title='"Hot"', wax="palm", scent="load: 4% of wax\n  scent: vetiver",
                steps=["melt to 95 °C", "off heat", "add scent at 90 °C, stir 2 min",
                       "pour at 88 °C"]),
}


def awkward_file():
    parts = [BENCH]
    for name, recipe in AWKWARD.items():
        fields = {"wax": "soy", "scent": LAVENDER, "pot": "can", "name": name, **recipe}
        fields["steps"] = "\n".join("    " + step for step in fields["steps"])
        parts.append(RECIPE.format(**fields))
    return "".join(parts)


def width_of(text, size):
    def of(letter):
        if ord(letter) > 0x2000:
            return 1.0
        if letter in "MWmw@%":
            return 0.95
        return 0.35 if letter in " .,:;'!|ijl()[]ft/-" else 0.72 if letter.isupper() else 0.62
    return sum(map(of, text)) * size


def boxes_of(root):
    """(left, top, right, bottom, text) of every text, panels moved to their place."""
    for group in root.iter(SVG + "g"):
        down = float(re.fullmatch(r"translate\(0 ([\d.]+)\)", group.get("transform"))[1])
        for text in group.iter(SVG + "text"):
            size = float(text.get("font-size"))
            x, y = float(text.get("x")), float(text.get("y")) + down
            wide = width_of(text.text or "", size)
            left = {"start": x, "middle": x - wide / 2, "end": x - wide}[text.get("text-anchor")]
            yield left, y - 0.75 * size, left + wide, y + 0.2 * size, text.text, size


def overlaps(one, other):
    slack = 0.3  # mm: the estimate is on the wide side
    return (one[0] < other[2] - slack and other[0] < one[2] - slack and
            one[1] < other[3] - slack and other[1] < one[3] - slack)


def faults_of(text, steps):
    try:
        root = ElementTree.fromstring(text)
    except ElementTree.ParseError as error:
        yield f"no XML: {error}"
        return
    wide, high = (float(part) for part in root.get("viewBox").split()[2:])
    ids = {child.get("id"): child.text for child in root}
    named = [ids.get(part) for part in root.get("aria-labelledby").split()]
    if root.get("role") != "img" or len(named) != 2 or not all(named):
        yield "no text alternatives"
        return
    for step in steps:
        if step not in named[1]:
            yield f"the description lacks {step!r}"
    for tag in {child.tag for child in root.iter()}:
        if tag in (SVG + "script", SVG + "image", SVG + "foreignObject", SVG + "style"):
            yield f"it has {tag}"
    boxes = list(boxes_of(root))
    for left, top, right, bottom, words, size in boxes:
        if left < -1 or top < 0 or right > wide + 1 or bottom > high:
            yield f"outside of the view: {words!r}"
        if size < LEAST_LETTERS:
            yield f"letters of {size} mm: {words!r}"
    for i, one in enumerate(boxes):
        for other in boxes[i + 1:]:
            if overlaps(one, other):
                yield f"{one[4]!r} lies over {other[4]!r}"
    for line in root.iter(SVG + "line"):
        for key, most in (("x1", wide), ("x2", wide), ("y1", high), ("y2", high)):
            if not 0 <= float(line.get(key)) <= most:
                yield f"a line goes to {key} {line.get(key)}"
    if not boxes or root.find(f".//{SVG}polyline") is None and \
            root.find(f".//{SVG}line[@stroke-dasharray='1.6 1.2']") is None:
        yield "there is no curve"


def steps_on(sheet):
    """The words of the sheet that the description of every picture has too."""
    return re.findall(r"Pour at|Melt in the water bath|Draw the wax", sheet)


def sheets_of(waxwright, file):
    listed = subprocess.run([waxwright, "sheet", file], capture_output=True, text=True, check=False)
    names = re.findall(r"([a-z0-9-]+) \((?:recipe|batch)\)", listed.stderr)
    return names or [""]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True)
    parser.add_argument("--tree", required=True)
    arguments = parser.parse_args()
    failed = drawn = 0
    with tempfile.TemporaryDirectory() as folder:
        made = Path(folder) / "awkward.candle"
        made.write_text(awkward_file(), "utf-8")
        files = [path for path in sorted((Path(arguments.tree) / "examples").glob("*.candle"))
                 if path.stem not in ("bench", "shelf")]
        for file in [made, *files]:
            for name in sheets_of(arguments.waxwright, str(file)):
                picture = Path(folder) / "plan.svg"
                picture.unlink(missing_ok=True)
                call = [arguments.waxwright, "sheet", str(file), *([name] if name else []),
                        "--picture", str(picture)]
                done = subprocess.run(call, capture_output=True, text=True, check=False)
                label = f"{file.name} {name}"
                if done.returncode != 0 or not picture.exists():
                    found = [f"exit {done.returncode}: {done.stderr[-300:]}"]
                else:
                    found = list(faults_of(picture.read_text("utf-8"), steps_on(done.stdout)))
                drawn += 1
                failed += bool(found)
                for fault in found:
                    print(f"picture_check: {label}: {fault}")
    print(f"picture_check: {drawn} pictures, {failed} with faults")
    return 1 if failed or drawn < 12 else 0


if __name__ == "__main__":
    sys.exit(main())
