#!/usr/bin/env python3
"""Prints the HTML sheets with Chromium and reads the paper: pages, and what stands on which.

usage: paper_check.py --waxwright BIN --tree TREE

For every recipe and batch of TREE/examples: the page is well formed, has no script and fetches
nothing, and says what the Markdown says. Printed to PDF at A4, letter and A5: of a recipe of one
kind of filling the dangers, the cautions, all weights and all steps stand on the first page of A4
and letter; examples/first.candle is one page of A4; examples/market.candle is five pages of A4 and
of letter at most; no line of a table of weights is cut in two. Words that look like markup stay
words. Chromium is the Debian package `chromium`, pdftotext is from `poppler-utils`.
Exit status 0: all holds; 1: something doesn't, or no Chromium; 2: wrong call.
"""

import argparse
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from html.parser import HTMLParser
from pathlib import Path

FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync",
         "--no-pdf-header-footer"]
TAGS = set("html head meta title style body article section h1 h2 h3 p ul ol li input table thead "
           "tbody tr th td strong em br".split())
SVG = set("svg title desc defs g path line rect circle polyline polygon text tspan clippath use "
          "pattern style".split())
EMPTY = {"meta", "input", "br"}


class Page(HTMLParser):
    """Its text, and what is wrong with its tags."""

    def __init__(self, text):
        super().__init__()
        self.open, self.faults, self.words, self.style = [], [], [], ""
        self.feed(text)
        self.close()
        if self.open:
            self.faults.append(f"never closed: {self.open}")

    def handle_starttag(self, tag, attrs):
        allowed = SVG if "svg" in self.open or tag == "svg" else TAGS
        if tag not in allowed:
            self.faults.append(f"the tag {tag}")
        for name, value in attrs:
            if name.startswith("on") or name in ("src", "href") or "url(" in (value or ""):
                if not (value or "").startswith(("#", "url(#")):
                    self.faults.append(f"{tag} {name}={value!r}")
        if tag not in EMPTY:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        if "svg" not in self.open and tag not in EMPTY:
            self.faults.append(f"{tag} is closed by itself")
        self.handle_starttag(tag, attrs)
        if tag not in EMPTY:
            self.open.pop()

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}> closes nothing")

    def handle_data(self, data):
        if self.open and self.open[-1] == "style":
            self.style += data
        else:
            self.words.append(data)

    def text(self):
        return flat(" ".join(self.words))


def flat(text):
    return re.sub(r"\s+", " ", text.replace("\u2060", "")).strip()


class Checker:
    def __init__(self, binary, folder):
        self.binary, self.folder = binary, Path(folder)
        self.passed = self.failed = 0

    def check(self, good, what):
        self.passed += bool(good)
        self.failed += not good
        if not good:
            print(f"paper_check: {what}")

    def run(self, *words):
        done = subprocess.run([self.binary, *map(str, words)], capture_output=True, text=True,
                              timeout=60, check=False)
        return done.returncode, done.stdout, done.stderr

    def pages(self, html, size):
        """The text of each page, printed on paper of that size."""
        source, pdf = self.folder / "page.html", self.folder / "page.pdf"
        source.write_text(html.replace("</style>", f"@page {{ size: {size} }}</style>", 1))
        pdf.unlink(missing_ok=True)
        subprocess.run([shutil.which("chromium"), *FLAGS, f"--user-data-dir={self.folder}/user",
                        f"--print-to-pdf={pdf}", source.as_uri()], capture_output=True,
                       timeout=120, check=False)
        text = subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True,
                              check=True).stdout
        return [flat(page) for page in text.split("\f")][:-1]


def steps_of(toml):
    """How each step begins, up to its first figure: after that the paper has both scales."""
    return [flat(re.match(r"[^\d]*", step["text"])[0]) for step in tomllib.loads(toml)["step"]]


def one_kind(toml):
    doc = tomllib.loads(toml)
    return len(doc["recipe"]) == 1 and len(doc["pot"]) == 1


def check_page(t, label, html):
    page = Page(html)
    for fault in page.faults:
        t.check(False, f"{label}: {fault}")
    t.check(html.startswith("<!DOCTYPE html>") and "default-src 'none'" in html,
            f"{label}: may fetch something")
    t.check(not re.search(r"@import|url\(|https?:", page.style), f"{label}: the style fetches")
    t.check(html.count("<h1>") == 1, f"{label}: {html.count('<h1>')} titles")
    return page


def check_paper(t, label, html, toml):
    """A recipe by itself: all that the hands need is on the first page."""
    for size in ("A4", "letter"):
        pages = t.pages(html, size)
        first = pages[0] if pages else ""
        wanted = ["Dangers of this batch", "Cautions", "peel the wax off", "Weigh out", "Steps"]
        for words in wanted + steps_of(toml):
            t.check(words in first, f"{label}: {words!r} is not on page one of {size}")
        if label == "first.candle first" and size == "A4":
            t.check(len(pages) == 1, f"{label}: {len(pages)} pages of A4")
    t.check(1 <= len(t.pages(html, "A5")) <= 4, f"{label}: pages of A5")


def check_examples(t, tree):
    sheets = 0
    for file in sorted(Path(tree, "examples").rglob("*.candle")):
        text = file.read_text(encoding="utf-8")
        for kind, name in re.findall(r"^(recipe|batch) +([a-z0-9-]+)", text, re.MULTILINE):
            label = f"{file.name} {name}"
            status, html, err = t.run("sheet", file, name, "--as", "html")
            _, toml, _ = t.run("sheet", file, name, "--as", "toml")
            t.check(status == 0, f"{label}: exit {status}: {err}")
            page = check_page(t, label, html)
            for words in steps_of(toml):
                t.check(words in page.text(), f"{label}: {words!r} is not on the page")
            sheets += 1
            if kind == "recipe" and one_kind(toml):
                check_paper(t, label, html, toml)
            if name == "saturday-market":
                for size in ("A4", "letter"):
                    count = len(t.pages(html, size))
                    t.check(1 < count <= 5, f"{label}: {count} pages of {size}")
    t.check(sheets > 10, f"only {sheets} sheets in the examples")


def check_words(t, tree):
    """What a maker writes stays text, and a picture stands inside where it is asked for."""
    nasty = "<script>alert(1)</script> & <b>mud</b> [mud](flat) <!-- x"
    recipe = Path(tree, "examples", "first.candle").read_text(encoding="utf-8")
    file = t.folder / "nasty.candle"
    file.write_text(recipe.replace("  makes:", f'  title: "{nasty}"\n  notes: "{nasty}"\n  makes:'))
    status, html, err = t.run("sheet", file, "--as", "html", "--with", "picture")
    t.check(status == 0, f"nasty: exit {status}: {err}")
    page = check_page(t, "nasty", html)
    t.check(page.text().count(nasty) >= 3, "nasty: the words are not there as they were written")
    t.check(html.count("<svg") == 1, "nasty: no picture inside")
    pages = t.pages(html, "A4")
    t.check(len(pages) > 1 and "Record" not in pages[-1] and "Melt to" in pages[-1],
            "nasty: the picture has no page of its own")

    tides = Path(tree, "examples", "tide-line.candle")
    status, html, _ = t.run("sheet", tides, "--all", "--as", "html")
    page = Page(html)
    t.check(status == 0 and not page.faults and html.count("<h1>") == 2 and
            html.count("<!DOCTYPE") == 1 and html.endswith("</html>\n"), "--all is no one page")
    status, _, _ = t.run("sheet", tides, "--all", "--as", "html", "-o", f"{t.folder}/")
    files = sorted(path.name for path in t.folder.glob("tide-line*.html"))
    t.check(status == 0 and files == ["tide-line-strong.html", "tide-line.html"], f"files: {files}")
    for name in files:
        check_page(t, name, (t.folder / name).read_text(encoding="utf-8"))
    status, _, err = t.run("sheet", tides, "tide-line", "--with", "picture")
    t.check(status == 2 and "--as html" in err, f"a picture in Markdown: {status} {err}")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--tree", required=True, help="the root of the sources")
    options = parser.parse_args()
    if not Path(options.waxwright).is_file():
        parser.error(f"no file {options.waxwright}")
    for tool, package in (("chromium", "chromium"), ("pdftotext", "poppler-utils")):
        if shutil.which(tool) is None:
            print(f"paper_check: no {tool}: install the Debian package `{package}`")
            print("paper_check: 0 passed, 1 failed")
            return 1
    with tempfile.TemporaryDirectory(prefix="waxwright-paper-") as folder:
        t = Checker(str(Path(options.waxwright).resolve()), folder)
        check_examples(t, options.tree)
        check_words(t, options.tree)
    print(f"paper_check: {t.passed} passed, {t.failed} failed")
    return 1 if t.failed else 0


if __name__ == "__main__":
    sys.exit(main())
