"""What label_check.py sees of a label on paper: Chromium prints, poppler reads the PDF.

Letters are taken from the outlines that `pdftocairo -svg` writes, so that a height is that of the
ink; drawings are printed one by one and measured in their bitmap. All lengths are mm.
"""

import html
import re
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree

FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync",
         "--no-pdf-header-footer"]
MM = 25.4 / 72  # of a point
# A4, on which any of the labels fits. Chromium rounds a page to its pixels and shrinks what is on it
# by as much: of A4 that is 0.01 %.
ROOM = (210, 297)
DPI = 600
BLACK = "rgb(0%,0%,0%)"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def print_pdf(page, pdf, profile):
    """An HTML text printed by Chromium."""
    source = pdf.with_suffix(".html")
    source.write_text(page, encoding="utf-8")
    pdf.unlink(missing_ok=True)
    subprocess.run([shutil.which("chromium"), *FLAGS, f"--user-data-dir={profile}",
                    f"--print-to-pdf={pdf}", source.as_uri()], capture_output=True, timeout=300,
                   check=False)
    return pdf


def book(svgs):
    """A page of ROOM for each SVG, which stands in its upper left corner."""
    style = (f"@page {{ size: {ROOM[0]}mm {ROOM[1]}mm; margin: 0 }} html, body {{ margin: 0 }}"
             f" div {{ height: {ROOM[1] - 1}mm; overflow: hidden; break-after: page }}"
             " svg { display: block }")
    pages = "".join(f"<div>{svg[svg.index('<svg'):]}</div>" for svg in svgs)
    return f"<!DOCTYPE html><meta charset='utf-8'><style>{style}</style><body>{pages}</body>"


@dataclass
class Glyph:
    """A letter's ink, y downwards from the top of the page."""
    left: float
    top: float
    right: float
    bottom: float
    baseline: float
    colour: str
    letter: str = ""

    @property
    def height(self):
        return self.bottom - self.top


def outline(path):
    numbers = [float(n) for n in NUMBER.findall(path)]
    return (min(numbers[0::2]), min(numbers[1::2]), max(numbers[0::2]), max(numbers[1::2]))


def glyphs_of(pdf, page):
    """Every letter that leaves ink on a page, with the letter it is where that can be told."""
    text = subprocess.run(["pdftocairo", "-svg", "-f", str(page), "-l", str(page), pdf, "-"],
                          capture_output=True, text=True, check=True).stdout
    boxes = {}
    for name, path in re.findall(r'<(?:symbol[^>]*|g) id="(glyph[\d-]+)">\s*<path[^>]* d="([^"]*)"',
                                 text):
        if path.strip():
            boxes[name] = outline(path)
    found = []
    for colour, uses in re.findall(r'<g style="fill:([^;"]*)[^>]*>((?:\s*<use [^>]*/>)+)', text):
        for name, x, y in re.findall(r'#(glyph[\d-]+)" x="([\d.-]+)" y="([\d.-]+)"', uses):
            if name in boxes:
                a, b, c, d = boxes[name]
                x, y = float(x), float(y)
                found.append(Glyph((x + a) * MM, (y + b) * MM, (x + c) * MM, (y + d) * MM, y * MM,
                                   colour.replace(" ", "")))
    name_letters(found, pdf, page)
    return found


def name_letters(found, pdf, page):
    """By the words that pdftotext reads at their places; a word of another length is left. What lies
    across a label is pale, and read letter by letter."""
    for word, box in words_of(pdf, page):
        if len(word) == 1 and word.isupper():
            continue
        inside = sorted((g for g in found if g.colour == BLACK
                         and box[0] - 0.1 <= (g.left + g.right) / 2 <= box[2] + 0.1
                         and box[1] <= g.baseline <= box[3]), key=lambda g: g.left)
        if len(inside) == len(word):
            for glyph, letter in zip(inside, word):
                glyph.letter = letter


def words_of(pdf, page):
    """Each word with its place: left, top, right, bottom."""
    text = subprocess.run(["pdftotext", "-bbox", "-f", str(page), "-l", str(page), pdf, "-"],
                          capture_output=True, text=True, check=True).stdout
    for box, word in re.findall(r"<word ([^>]*)>([^<]*)</word>", text):
        yield html.unescape(word), [float(n) * MM for n in NUMBER.findall(box)]


def text_of(pdf, page):
    return subprocess.run(["pdftotext", "-raw", "-f", str(page), "-l", str(page), pdf, "-"],
                          capture_output=True, text=True, check=True).stdout


def page_sizes(pdf):
    """Width and height of every page."""
    text = subprocess.run(["pdfinfo", "-f", "1", "-l", "9999", pdf], capture_output=True, text=True,
                          check=True).stdout
    return [(float(w) * MM, float(h) * MM)
            for w, h in re.findall(r"size:\s+([\d.]+) x ([\d.]+) pts", text)]


def ink_of(pdf, page, size):
    """Width and height of all that isn't white in the first `size` mm of a page."""
    side = round(size / 25.4 * DPI)
    data = subprocess.run(["pdftoppm", "-gray", "-r", str(DPI), "-f", str(page), "-l", str(page),
                           "-x", "0", "-y", "0", "-W", str(side), "-H", str(side), pdf],
                          capture_output=True, check=True).stdout
    header = re.match(rb"P5\s+(\d+)\s+(\d+)\s+\d+\s", data)
    width, height = int(header[1]), int(header[2])
    rows = [data[header.end() + i * width:header.end() + (i + 1) * width] for i in range(height)]
    inked = [i for i, row in enumerate(rows) if row.strip(b"\xff")]
    if not inked:
        return 0, 0
    left = min(width - len(rows[i].lstrip(b"\xff")) for i in inked)
    right = max(len(rows[i].rstrip(b"\xff")) for i in inked)
    return (right - left) * 25.4 / DPI, (inked[-1] + 1 - inked[0]) * 25.4 / DPI


SVG = "{http://www.w3.org/2000/svg}"


@dataclass
class Drawn:
    """A drawing of a label: its title, and the square that it may fill."""
    title: str
    x: float
    y: float
    size: float
    source: str


class LabelFile:
    """What the SVG of a label says by itself: its size, its drawings, its rules."""

    def __init__(self, text):
        root = ElementTree.fromstring(text.encode("utf-8"))
        self.width, self.height = (float(root.get(n).removesuffix("mm"))
                                   for n in ("width", "height"))
        self.view = root.get("viewBox").split()
        self.rules = [tuple(float(n) for n in NUMBER.findall(path.get("d")))
                      for path in root.findall(f"{SVG}path")]
        self.lines = [(float(t.get("x")), float(t.get("y")), float(t.get("font-size")),
                       "".join(t.itertext())) for t in root.findall(f"{SVG}text") if t.get("x")]
        self.drawn = []
        for source in re.findall(r"<g transform=.*?</g>", text, re.DOTALL):
            x, y, scale = (float(n) for n in NUMBER.findall(source)[:3])
            title = re.search(r"<title>(.*?)</title>", source)[1]
            self.drawn.append(Drawn(title, x, y, scale * 100, source))

    def alone(self, drawn):
        """One drawing by itself, 2 mm from the corner."""
        moved = re.sub(r"translate\([^)]*\)", "translate(2 2)", drawn.source, count=1)
        return (f'<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" '
                f'viewBox="0 0 60 60">{moved}</svg>')
