#!/usr/bin/env python3
"""Reads a Markdown sheet with cmark-gfm, GitHub's own reader of it, and counts what it finds.

usage: markdown_check.py FILE.md [--tables N] [--tasks N]

Checked always: the title and the parts behind it stand in their order, every table row has
as many cells as its table's head, and no raw HTML got through. With --tables and --tasks: there are
so many tables and task list items.
Exit status 0: all holds; 1: something doesn't; 2: wrong call, or no cmark-gfm.
"""

import argparse
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

# The parts in their order, a line each, as a pattern: a batch has one for each recipe.
RECIPE_PARTS = re.compile(r"""Dangers of this batch
Cautions
Weigh out
Steps
Before you light anything
(The day
)?(More to mind
)?At a glance
Leave, cure, ready
Record
""")
BATCH_PARTS = re.compile(r"""Dangers of this batch
Cautions
Before you light anything
Order of work
(Weigh out for the melter
)?(?P<recipes>(.*: \d+ × .*
)+?)(The day
)?Record
(More to mind
)?At a glance
Leave, cure, ready
""")
SPACE = "{http://commonmark.org/xml/1.0}"


def read_tree(path):
    command = ["cmark-gfm", "-e", "table", "-e", "tasklist", "-t", "xml", path]
    try:
        run = subprocess.run(command, capture_output=True, check=True)
    except (OSError, subprocess.CalledProcessError) as error:
        fail_call(error)
    return ElementTree.fromstring(run.stdout)


def fail_call(error):
    print(f"markdown_check: {error}", file=sys.stderr)
    sys.exit(2)


def text_of(node):
    return "".join(part.text or "" for part in node.iter() if part.tag.endswith(("}text", "}code")))


def find_faults(tree, raw, arguments):
    count = {tag: sum(1 for _ in tree.iter(SPACE + tag)) for tag in ("table", "tasklist")}
    if arguments.tables is not None and count["table"] != arguments.tables:
        yield f"{count['table']} tables where {arguments.tables} are wanted"
    if arguments.tasks is not None and count["tasklist"] != arguments.tasks:
        yield f"{count['tasklist']} task list items where {arguments.tasks} are wanted"

    headings = [(node.get("level"), text_of(node)) for node in tree.iter(SPACE + "heading")]
    if [level for level, _ in headings].count("1") != 1 or headings[0][0] != "1":
        yield "the sheet does not begin with its one title"
    parts = [text for level, text in headings if level == "2"]
    lines = "".join(part.replace("\n", " ") + "\n" for part in parts)
    if not RECIPE_PARTS.fullmatch(lines) and not BATCH_PARTS.fullmatch(lines):
        yield f"the parts are {parts}"

    if any(node.tag.startswith(SPACE + "html") for node in tree.iter()):
        yield "there is raw HTML in it"
    yield from find_ragged_tables(raw)


def find_ragged_tables(raw):
    """cmark-gfm drops the cells that are too many, so they are counted in the text."""
    width = None
    for number, line in enumerate(raw.splitlines(), 1):
        if not line.startswith("|"):
            width = None
            continue
        bars = len(re.findall(r"(?<!\\)(?:\\\\)*\|", line))
        if width is not None and bars != width:
            yield f"line {number}: {bars - 1} cells where the table's head has {width - 1}"
        width = width or bars


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("file")
    parser.add_argument("--tables", type=int)
    parser.add_argument("--tasks", type=int)
    arguments = parser.parse_args()
    try:
        with open(arguments.file, encoding="utf-8") as file:
            raw = file.read()
    except (OSError, UnicodeDecodeError) as error:
        fail_call(error)
    faults = list(find_faults(read_tree(arguments.file), raw, arguments))
    for fault in faults:
        print(f"{arguments.file}: {fault}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
