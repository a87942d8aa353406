#!/usr/bin/env python3
"""Prints labels with Chromium and measures the paper.

usage: label_check.py --dump PROGRAM --waxwright BIN --tree TREE

PROGRAM draws made-up labels of every sort into a folder (dump_labels.cpp). Each is printed at its
true size and measured: the heights of letters and figures, the sides of pictograms, the height of
signs, the distance of lines, and that nothing lies over anything else or beyond the edge. The
limits below are this file's own, each with its source. Then sheets of A4 and letter: as many labels
as the batch has, at the same size, with cut marks off the labels, and a line of 50 mm that is 50 mm
long. Then the same of every recipe of TREE/examples, for every market, as `label --as svg` draws it.
At last labels are broken on purpose, and each fault has to be found.
Chromium is the Debian package `chromium`, pdftocairo and the rest are of `poppler-utils`, the
letters of `fonts-liberation`. Exit status 0: all holds; 1: something doesn't; 2: wrong call.
"""

import argparse
import json
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

from label_paper import (BLACK, LabelFile, book, glyphs_of, ink_of, page_sizes, print_pdf, text_of)

# Regulation (EU) 2024/2865, by three consultancies' summaries: up to so many litres, mm.
X_HEIGHTS = [(0.5, 1.2), (3, 1.4), (50, 1.8)]
LINES_APART = 1.2  # of the size of the letters; the same regulation
# CLP Annex I 1.2.1, Table 1.3: up to so many litres, the least label (mm) and pictogram's side.
LABELS = [(3, 52, 74, 10), (50, 74, 105, 23)]
SHARE = 1 / 15  # of the least label, that a pictogram covers at the least; CLP Annex I 1.2.1
LEAST_AREA = 100  # mm², of a pictogram; the same
SIGN = 5  # mm, the height of a supplementary symbol; EN 15494:2019, by a test house's newsletter
EDGE = 2  # mm, free all around; our own
SLACK = 0.02  # mm, what outlines are rounded by
FLAT = "vwxz"  # letters as high as x, without what goes over the lines


def row_for(rows, litres):
    return next(row for row in rows if litres <= row[0])


def meet(a, b, by=0.0):
    """True if two boxes (left, top, right, bottom) lie over one another by more than that."""
    return (min(a[2], b[2]) - max(a[0], b[0]) > by and min(a[3], b[3]) - max(a[1], b[1]) > by)


def box(glyph):
    return (glyph.left, glyph.top, glyph.right, glyph.bottom)


class Checker:
    def __init__(self):
        self.passed, self.faults = 0, []

    def check(self, good, what):
        if good:
            self.passed += 1
        else:
            self.faults.append(what)


def check_letters(t, name, about, glyphs):
    # Of the European Union alone; elsewhere the least of them, which is our own.
    least = (row_for(X_HEIGHTS, about["contents_ml"] / 1000) if about["market"] == "eu"
             else X_HEIGHTS[0])[1]
    flat = [g for g in glyphs if g.letter and g.letter in FLAT]
    t.check(len(flat) > 1, f"{name}: only {len(flat)} letters to measure")
    for glyph in flat:
        t.check(glyph.height >= least - SLACK,
                f"{name}: {glyph.letter} is {glyph.height:.3f} mm high, not {least}")
    t.check(all(g.colour == BLACK for g in glyphs), f"{name}: letters that aren't black")


def check_net(t, name, about, glyphs, label):
    """The last line: its figures are high enough, and it stands by itself."""
    if not about["net"]:
        return
    foot = label.lines[-1][1]
    figures = [g for g in glyphs if g.letter.isdigit() and abs(g.baseline - foot) < 0.1]
    t.check(figures, f"{name}: no figures at the foot")
    for glyph in figures:
        t.check(glyph.height >= about["figure_mm"] - SLACK,
                f"{name}: figure {glyph.letter} is {glyph.height:.3f} mm high")
    net = [line for line in label.lines if line[2] == label.lines[-1][2]]
    its = [g for g in glyphs if any(abs(g.baseline - y) < 0.1 and g.left > x - 0.5
                                    for x, y, _, _ in net)]
    top, right = min(g.top for g in its), max(g.right for g in its if abs(g.baseline - foot) < 0.1)
    above = [g.bottom for g in glyphs if g.bottom < min(y - size * 0.8 for _, y, size, _ in net)
             and net[0][0] < g.right and g.left < right]
    high = max((g.height for g in figures), default=0)
    t.check(top - max(above, default=0) >= high, f"{name}: nothing free above the net quantity")


def check_places(t, name, glyphs, label):
    """Nothing over anything else, and nothing beyond the edge."""
    cells = [(d.x, d.y, d.x + d.size, d.y + d.size) for d in label.drawn]
    rules = [(left, y - 0.1, right, y + 0.1) for left, y, right in label.rules]
    inner = (EDGE, EDGE, label.width - EDGE, label.height - EDGE)
    for what in [box(g) for g in glyphs] + cells + rules:
        t.check(what[0] >= inner[0] and what[1] >= inner[1] and what[2] <= inner[2]
                and what[3] <= inner[3], f"{name}: beyond the edge: {what}")
    for i, cell in enumerate(cells):
        for other in cells[i + 1:] + rules:
            t.check(not meet(cell, other, 0.05), f"{name}: drawings meet: {cell} {other}")
    lines = {}
    for glyph in glyphs:
        place = box(glyph)
        t.check(not any(meet(place, other) for other in cells + rules),
                f"{name}: {glyph.letter!r} lies over a drawing: {place}")
        lines.setdefault(round(glyph.baseline, 1), []).append(place)
    bands = sorted(lines.items())
    for i, (_, above) in enumerate(bands):
        for _, below in bands[i + 1:i + 3]:
            t.check(not any(meet(a, b) for a in above for b in below), f"{name}: lines meet")


def check_lines(t, name, label):
    """Lines of one paragraph: the next one below at the same place and size."""
    for x, y, size, words in label.lines:
        below = [line for line in label.lines if line[1] > y and abs(line[0] - x) < 0.01
                 and line[2] == size]
        if below:
            apart = min(line[1] for line in below) - y
            t.check(apart >= LINES_APART * size - 0.01,
                    f"{name}: {words!r}: the next line is {apart:.2f} mm below")


def check_room(t, name, about, label):
    """No wider than a half of what is round the vessel, but where it is a band as low as that."""
    around, tall = about["around_mm"], about["tall_mm"]
    if around > 0:
        band = label.height <= tall and label.width < around
        t.check(band or label.width <= max(around / 2, 52), f"{name}: wider than its vessel lets it be")
    if name.endswith(("-on-the-front", "-on-a-half", "-band")):
        t.check(label.height <= tall, f"{name}: {label.height} mm is higher than {tall} mm")
        share = {"front": 1 / 3, "half": 1 / 2, "band": 1}[name.rsplit("-", 1)[1]]
        t.check(label.width <= around * share, f"{name}: {label.width} mm of {around} mm")
    if about["market"] == "us" and label.width * label.height > 5 * 25.4 ** 2:
        # In the lower 30 % of a panel of over 5 square inches: 16 CFR 500.6, from memory.
        net = [y - size for _, y, size, words in label.lines if words in about["net"].split("\n")]
        t.check(all(top >= 0.7 * label.height for top in net), f"{name}: the net quantity is too high up")


def check_drawings(t, name, about, label, inks):
    _, least_width, least_height, least_side = row_for(LABELS, about["contents_ml"] / 1000)
    # 52 × 74 mm, on whichever of its sides it lies.
    if about["market"] != "us":
        t.check(min(label.width, label.height) >= least_width
                and max(label.width, label.height) >= least_height, f"{name}: a small label")
    check_room(t, name, about, label)
    pictograms = signs = 0
    for drawn, (width, height) in zip(label.drawn, inks):
        if drawn.title.startswith("GHS"):
            side = min(width, height) / 2 ** 0.5
            pictograms += 1
            t.check(abs(width - height) < 0.1, f"{name}: {drawn.title} is no square")
            t.check(side >= least_side, f"{name}: {drawn.title} has a side of {side:.2f} mm")
            t.check(side ** 2 >= max(least_width * least_height * SHARE, LEAST_AREA),
                    f"{name}: {drawn.title} has {side ** 2:.1f} mm²")
        else:
            signs += 1
            t.check(height >= SIGN, f"{name}: {drawn.title} is {height:.2f} mm high")
    t.check(pictograms == about["pictograms"], f"{name}: {pictograms} pictograms")
    wanted = 1 if about["market"] == "us" else 1 + about["cautions"]
    t.check(signs == wanted, f"{name}: {signs} signs")


def check_words(t, name, about, text):
    """All of it is there, and the wide letters that no font here has may be lost."""
    def bare(words):
        return "".join(c for c in words if c.isascii() and not c.isspace())
    seen = bare(text)
    for words in [*about["words"], about["net"]]:
        t.check(bare(words) in seen, f"{name}: {words!r} is not on it")
    t.check(("NOTTESTBURNED" in seen) == about["not_burned"], f"{name}: burned or not")


def check_labels(t, folder, svgs, about):
    """All labels printed in one go, a page each; then each of their drawings."""
    labels = {name: LabelFile(svg) for name, svg in svgs.items()}
    pdf = print_pdf(book(svgs.values()), folder / "labels.pdf", folder / "user")
    every = [(name, drawn) for name, label in labels.items() for drawn in label.drawn]
    ink = print_pdf(book(labels[name].alone(drawn) for name, drawn in every),
                    folder / "drawings.pdf", folder / "user")
    known = {}
    for page, (_, drawn) in enumerate(every, 1):
        key = re.sub(r"translate\([^)]*\)", "", drawn.source)
        known[key] = known.get(key) or ink_of(ink, page, 60)
    for page, (name, label) in enumerate(labels.items(), 1):
        told = about[name]
        glyphs = glyphs_of(pdf, page)
        if told["not_burned"]:
            pale = [g for g in glyphs if g.colour != BLACK]
            t.check(len(pale) == 13, f"{name}: {len(pale)} letters across it")
            glyphs = [g for g in glyphs if g.colour == BLACK]
        check_letters(t, name, told, glyphs)
        check_net(t, name, told, glyphs, label)
        check_places(t, name, glyphs, label)
        check_lines(t, name, label)
        inks = [known[re.sub(r"translate\([^)]*\)", "", d.source)] for d in label.drawn]
        check_drawings(t, name, told, label, inks)
        check_words(t, name, told, text_of(pdf, page))
    return pdf


def check_sheets(t, folder, name, about, labels_pdf, page):
    """A4 and letter: as many as asked, at the same size, inside what a printer reaches."""
    label = LabelFile((folder / f"{name}.svg").read_text(encoding="utf-8"))
    alone = [box(g) for g in glyphs_of(labels_pdf, page) if g.colour == BLACK]
    for paper, width, height in (("a4", 210, 297), ("letter", 215.9, 279.4)):
        html = (folder / f"{name}-{paper}.html").read_text(encoding="utf-8")
        t.check("default-src 'none'" in html and not re.search(r"<script|https?://(?!www.w3.org)|url\(",
                                                              html), f"{name}: fetches something")
        pdf = print_pdf(html, folder / "sheet.pdf", folder / "user")
        sizes = page_sizes(pdf)
        t.check(all(abs(w - width) < 0.5 and abs(h - height) < 0.5 for w, h in sizes),
                f"{name}: {paper}: pages of {sizes}")
        columns = max(1, int((width - 20 + 4) / (label.width + 4)))
        rows = max(1, int((height - 20 + 4) / (label.height + 4)))
        count = max(1, about["count"])
        t.check(len(sizes) == -(-count // (columns * rows)), f"{name}: {len(sizes)} of {paper}")
        seen = [[g for g in glyphs_of(pdf, i + 1) if g.colour == BLACK] for i in range(len(sizes))]
        footer = [g for page_ in seen for g in page_ if g.top > height - 10]
        t.check(sum(map(len, seen)) - len(footer) == count * len(alone),
                f"{name}: {paper}: not {count} labels")
        first = [box(g) for g in seen[0] if g.top <= height - 10][:len(alone)]
        moved = {(round(a[i] - b[i] - 10, 1) + 0.0) for a, b in zip(first, alone) for i in range(4)}
        t.check(moved <= {-0.1, 0.0, 0.1}, f"{name}: {paper}: not at true size: {sorted(moved)}")
        measure = re.search(r'd="M10 ([\d.]+)v-1.5m0 .75h50m0', html)
        t.check(measure, f"{name}: {paper}: no line to measure")
        for g in (g for page_ in seen for g in page_):
            t.check(5 < g.left and g.right < width - 5 and 4 < g.top and g.bottom < height - 4,
                    f"{name}: {paper}: {g.letter!r} is beyond the margin")


def told_by_toml(label):
    """What is on a label, by `label --as toml`."""
    hazards, net = label["hazards"], label["net"]
    said = ([] if hazards["none"] else [hazards.get("instead", ""), hazards.get("signal", ""),
            hazards.get("euh208", ""), *hazards.get("named", []),
            *(s["text"] for s in hazards.get("statement", []) + hazards.get("precaution", []))])
    cautions = [c["text"] for c in label["fire"]["caution"]]
    sizes = label["sizes"]
    return {"market": label["market"],
            "contents_ml": sizes.get("contents_high_ml", sizes.get("contents_ml", 0)),
            "around_mm": sizes.get("around_mm", 0), "tall_mm": sizes.get("tall_mm", 0),
            "count": label["count"], "net": net.get("words", ""),
            "figure_mm": net.get("figure_height_mm", 0), "cautions": len(cautions),
            "pictograms": len(hazards.get("pictograms", [])), "not_burned": label["not_burned"],
            "words": [label["title"], *label.get("maker", []), *said, *cautions]}


def check_examples(t, folder, binary, tree):
    svgs, about = {}, {}

    def run(*words):
        return subprocess.run([binary, "label", *map(str, words)], capture_output=True, text=True,
                              timeout=60, check=False)

    for file in sorted(Path(tree, "examples").rglob("*.candle")):
        for name in re.findall(r"^recipe +([a-z0-9-]+)", file.read_text(encoding="utf-8"), re.M):
            for market in ("us", "eu", "gb"):
                svg = run(file, name, "--as", "svg", "--for", market)
                toml = run(file, name, "--as", "toml", "--for", market)
                what = f"{file.name} {name} {market}"
                t.check(svg.returncode == 0 == toml.returncode, f"{what}: {svg.stderr}")
                if svg.returncode == 0 == toml.returncode:
                    svgs[what] = svg.stdout
                    about[what] = told_by_toml(tomllib.loads(toml.stdout)["label"][0])
    t.check(len(svgs) > 30, f"only {len(svgs)} labels of examples")
    check_labels(t, folder, svgs, about)
    first = Path(tree, "examples", "first.candle")
    done = run(first, "--paper", "a4")
    t.check(done.returncode == 2 and "--as html" in done.stderr, "--paper without --as html")
    for paper in ("a4", "letter"):
        done = run(first, "--for", "eu", "--as", "html", "--paper", paper)
        t.check(done.stdout.count('href="#label-1"') == 5, f"{paper}: not six labels")
    page = subprocess.run([binary, "sheet", first, "--as", "html", "--with", "label"],
                          capture_output=True, text=True, check=False).stdout
    drawn = LabelFile(svgs["first.candle first eu"])
    t.check(page.count("<svg") == 3 and f'width="{drawn.width:.2f}mm"' in page
            and "<script" not in page, "sheet --with label: no three labels at true size")


def broken(svg, how):
    """A label with one fault, and a word of what has to be said of it."""
    label = LabelFile(svg)
    small = min(size for _, _, size, _ in label.lines)
    ghs = next(d for d in label.drawn if d.title.startswith("GHS"))
    sign = next(d for d in label.drawn if not d.title.startswith("GHS"))
    last = max(label.lines, key=lambda line: line[1])

    def scaled(drawn, by):
        old = re.search(r"scale\(([\d.]+)\)", drawn.source)
        new = drawn.source.replace(old[0], f"scale({float(old[1]) * by:.5f})", 1)
        return svg.replace(drawn.source, new, 1)

    return {
        "small letters": lambda: svg.replace(f'font-size="{small:.3f}"',
                                             f'font-size="{small * 0.95:.3f}"'),
        "small figures": lambda: svg.replace(f'font-size="{last[2]:.3f}"',
                                             f'font-size="{last[2] * 0.95:.3f}"'),
        "small pictogram": lambda: scaled(ghs, 0.99),
        "small sign": lambda: scaled(sign, 0.95),
        "close lines": lambda: svg.replace(f'y="{label.lines[-2][1]:.2f}"',
                                           f'y="{label.lines[-2][1] - 0.3:.2f}"'),
        "over a drawing": lambda: svg.replace(f"translate({ghs.x:.3f}", f"translate({ghs.x + 2:.3f}"),
        "beyond the edge": lambda: svg.replace(f'y="{last[1]:.2f}"', f'y="{last[1] + 2:.2f}"'),
        "pale": lambda: svg.replace("<text ", '<text fill="#777" ', 1),
        "a word lost": lambda: svg.replace("Keep out", "Keep", 1),
    }[how]()


FAULTS = {"small letters": "mm high, not", "small figures": ": figure", "small pictogram": "mm²",
          "small sign": "general warning sign is", "close lines": "the next line is",
          "over a drawing": "lies over a drawing", "beyond the edge": "beyond the edge",
          "pale": "aren't black", "a word lost": "is not on it"}


def check_faults(t, folder, svg, about):
    """Each fault has to be found, in its own words."""
    svgs = {how: broken(svg, how) for how in FAULTS}
    found = Checker()
    check_labels(found, folder, svgs, {how: about for how in FAULTS})
    for how, words in FAULTS.items():
        t.check(svgs[how] != svg, f"{how}: nothing was broken")
        t.check(any(f.startswith(f"{how}:") and words in f for f in found.faults),
                f"{how}: not found")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--dump", required=True, metavar="PROGRAM")
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--tree", required=True, help="the root of the sources")
    options = parser.parse_args()
    for file in (options.dump, options.waxwright):
        if not Path(file).is_file():
            parser.error(f"no file {file}")
    for tool, package in (("chromium", "chromium"), ("pdftocairo", "poppler-utils")):
        if shutil.which(tool) is None:
            print(f"label_check: no {tool}: install the Debian package `{package}`")
            print("label_check: 0 passed, 1 failed")
            return 1
    t = Checker()
    with tempfile.TemporaryDirectory(prefix="waxwright-label-") as name:
        folder = Path(name)
        done = subprocess.run([options.dump, folder], capture_output=True, text=True, check=True)
        about = json.loads(done.stdout)
        svgs = {name: (folder / f"{name}.svg").read_text(encoding="utf-8") for name in about}
        pdf = check_labels(t, folder, svgs, about)
        pages = {name: page for page, name in enumerate(svgs, 1)}
        for name in ("eu", "us", "eu-large", "long", "eu-none"):
            check_sheets(t, folder, name, about[name], pdf, pages[name])
        check_examples(t, folder, options.waxwright, options.tree)
        check_faults(t, folder, svgs["eu"], about["eu"])
    for fault in t.faults[:40]:
        print(f"label_check: {fault}")
    print(f"label_check: {t.passed} passed, {len(t.faults)} failed")
    return 1 if t.faults else 0


if __name__ == "__main__":
    sys.exit(main())
