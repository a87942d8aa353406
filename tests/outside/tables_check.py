#!/usr/bin/env python3
"""Renders every page of the documents with cmark-gfm, GitHub's own reader of Markdown, and counts.

usage: tables_check.py --tree TREE

Every line of a page that is meant as a row of a table (it begins with `|`, outside a fenced block) is
one in what is rendered, head and lines of dashes counted, and has as many cells as its table's head:
a reader of GitHub's kind drops what is over, and a blank line breaks a table off. First the check is
tried itself on tables that are broken.
Exit status 0: all holds; 1: something doesn't, a line each; 2: no cmark-gfm.
"""

import argparse
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

SPACE = "{http://commonmark.org/xml/1.0}"
FEWEST = 40  # tables


def rendered(text):
    command = ["cmark-gfm", "-e", "table", "-t", "xml"]
    try:
        run = subprocess.run(command, input=text.encode("utf-8"), capture_output=True, check=True)
    except (OSError, subprocess.CalledProcessError) as error:
        print(f"tables_check: {error}", file=sys.stderr)
        sys.exit(2)
    return ElementTree.fromstring(run.stdout)


def tables_meant(text):
    """The tables as their writer meant them: runs of lines that begin with a bar."""
    prose = re.sub(r"^```.*?^```$", "", text, flags=re.M | re.S)
    return [run.splitlines() for run in re.findall(r"(?:^\|.*\n?)+", prose, re.M)]


def cells_of(line):
    return len(re.split(r"(?<!\\)\|", line.strip().strip("|")))


def faults_of(text):
    meant = tables_meant(text)
    real = list(rendered(text).iter(SPACE + "table"))
    for lines in meant:
        for line in lines:
            if cells_of(line) != cells_of(lines[0]):
                yield f"{cells_of(line)} cells where the head has {cells_of(lines[0])}: {line}"
    rows = sum(len(list(table)) + 1 for table in real)  # the line of dashes is no row
    wanted = sum(len(lines) for lines in meant)
    if len(real) != len(meant) or rows != wanted:
        yield (f"{len(real)} tables with {rows} lines are rendered, and {len(meant)} with {wanted} "
               "are written")


BROKEN = ["| a | b |\n|---|---|\n| 1 | 2 |\n\n| 3 | 4 |\n", "| a | b |\n|---|\n| 1 | 2 |\n",
          "| a | b |\n|---|---|\n| 1 | 2 | 3 |\n", "text\n\n| a | b |\n"]
WHOLE = "text\n\n| a | b |\n|---|--:|\n| 1 \\| 2 | `3` |\n\n```text\n| no table\n```\n"


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--tree", required=True, type=Path)
    tree = parser.parse_args().tree
    faults = [f"this check: should be told of: {text!r}" for text in BROKEN
              if not list(faults_of(text))]
    faults += [f"this check: {fault}" for fault in faults_of(WHOLE)]
    pages = [tree / "README.md", tree / "DEVELOPERS.md", *sorted((tree / "docs").rglob("*.md"))]
    tables = 0
    for page in pages:
        text = page.read_text("utf-8")
        tables += len(tables_meant(text))
        faults += [f"{page}: {fault}" for fault in faults_of(text)]
    if tables < FEWEST:
        faults.append(f"only {tables} tables were found: is this the right tree?")
    for fault in faults:
        print(fault)
    print(f"{len(pages)} pages, {tables} tables, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
