#!/usr/bin/env python3
"""Reads every sheet of the examples with readers that are none of ours: cmark-gfm and tomllib.

usage: sheets_check.py --waxwright BIN --tree TREE

For each recipe and batch of TREE/examples and for recipes made here of words that look like
markup: the TOML sheet keeps to its contract (toml_check.py); the Markdown sheet is UTF-8, has the
tables, the rows and the boxes to tick that the TOML asks for, no raw HTML (markdown_check.py), the
same weights as the TOML, and what the user wrote letter for letter. cmark-gfm is the Debian package
`cmark-gfm`. Exit status 0: all holds; 1: something doesn't, or no cmark-gfm; 2: wrong call.
"""

import argparse
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from datetime import date
from pathlib import Path

sys.dont_write_bytecode = True  # before the modules beside this one

# pylint: disable=wrong-import-position
from markdown_check import SPACE, find_faults, read_tree  # noqa: E402
from toml_check import check_floats, check_sheet  # noqa: E402

GRAMS = {"mg": 0.001, "g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237}
# What stands before lighting, in this order: how each line begins, and how many there are.
BEFORE = [
    ("Vessels counted", "one"),
    ("Wicks set in the vessels|Wicks counted", "some"),
    ("To hand: ", "some"),
    ("Pots clean and bone dry", "one"),
    ("(?:(?:Each on a plate of its own: )?(?:A bath|[0-9]+ baths) for [^\n]*)?Hot water at hand", "bath"),
    ("Scale level and zeroed", "more"),
    ("Thermometer to hand", "one"),
    ("Lid for each pot, and another or a fire blanket, to hand", "one"),
    ("Dry oven gloves", "one"),
    ("What smooths the tops: no hotter than a hair dryer", "some"),
    ("What warms the vessels: nothing that glows", "some"),
    ("Leftovers looked through", "leftover"),
    ("Scent blended", "premix"),
    ("(?:Wax and scent|Wax|Scent) weighed for each filling", "some"),
    ("For the second pour: a bowl", "some"),
    ("Electric kettle, well away", "some"),
    ("[^\n]+: thermostat set to", "more?"),
]

# Words that look like markup. None of it may become any.
NASTY = [
    "a | b * c _ d ` e < f & g # h [ i ] j",
    "*salt* _marsh_ **wild** __low__ ~~tide~~ `mud`",
    "# no heading",
    "- [ ] no box",
    "1. no list",
    "> no quotation",
    "| no | table |",
    "||",
    "<b>no</b> <!-- remark --> <script>alert(1)</script>",
    "&amp; &lt; &copy; &#35; &#x26; &nbsp;",
    "[mud](flat) ![mud](flat) [mud][flat] [^1] [x]: y",
    "<http://mud.invalid> http://mud.invalid www.mud.invalid mud@flat.invalid",
    "back\\slash \\| \\* \\\\ end\\",
    "` `` ``` ~~~ *** --- ___ === +++",
    "$x^2$ $$y$$ :tide: @marsh #12",
    "5 * 3 * 2 _ 1 _ 0",
    "snake_case_word *a*b*",
    'said "so" \'so\'',
    "Brûlé – 20 °C ½ 蜡 🕯 e\u0301",
]
NOTES = """# one
- two
+ three
* four
1. five
2) six
> seven
===
---
:--
| a | b |
|---|---|
    eight
<div>nine</div>
&copy; ten
[l]: /eleven
```
~~~
***
twelve | < & _ [ ] ` #"""


def quoted(text):
    """As text of the language."""
    escapes = {"\\": "\\\\", '"': '\\"', "\n": "\\n"}
    return '"' + "".join(escapes.get(c, c) for c in text) + '"'


TIME_WORDS = (r"(?:(?P<date>\d{4}-\d\d-\d\d) |(?P<days>\d+) d )?"
              r"(?P<hours>\d+):(?P<minutes>\d\d)\+?")
RECIPE = re.compile(r".*: \d+ × .*", re.DOTALL)  # the heading of a batch's recipe
TIME = re.compile(rf"^{TIME_WORDS} ")


def make_nasty():
    """(file text, {recipe or batch: (title, notes, lot)}), all of them of the words above."""
    parts = [
        "language 1\n"
        "wax marsh-wax { density: 0.9 g/ml\n melts: 45 to 55 °C\n max-load: 10% of wax\n"
        " ceiling: 90 °C\n liquid-density: 0.8 g/ml at 60 °C, 0.79 g/ml at 75 °C\n}\n"
        "oil reed { density: 0.9 g/ml\n flash-point: 80 °C closed cup\n}\n"
        "oil rush { density: 0.95 g/ml\n flash-point: 80 °C closed cup\n}\n"
        "vessel jar { fill: 200 ml\n of: tin\n}\n"
        "extra band { goes: outside\n}\n"
    ]
    wanted = {}
    for i, title in enumerate(NASTY):
        notes = NOTES if i == 0 else NASTY[-1 - i] + "\n" + title
        name = f"nasty-{i}"
        wanted[name] = (title, notes, None)
        parts.append(
            f"recipe {name} {{\n title: {quoted(title)}\n makes: {i + 1} jar\n wax: marsh-wax\n"
            " load: 9.5% of wax\n scent: 2 parts reed + 1 part rush\n extras: band\n"
            f" notes: {quoted(notes)}\n"
            f" allow load-near-limit because {quoted(title)}\n steps {{\n"
            f"  melt to 75 °C because {quoted(title)}\n  off heat\n"
            "  add scent at 70 °C, stir 2 min\n  pour at 62 °C\n"
            f"  note {quoted(NASTY[-1 - i])}\n }}\n}}\n"
        )
    pours = "".join(f" pour {i + 2} nasty-{i}\n" for i in range(len(NASTY)))
    lot, batch_notes = NASTY[0], "\n".join(NASTY)
    wanted["nasty-batch"] = ("nasty-batch", batch_notes, lot)
    parts.append(f"batch nasty-batch {{\n lot: {quoted(lot)}\n notes: {quoted(batch_notes)}\n"
                 f"{pours}}}\n")
    return "\n".join(parts), wanted


# Reading the Markdown -----------------------------------------------------------------------


def flat(node):
    """What a reader sees of it; a line's end as such."""
    text = []
    for part in node.iter():
        if part.tag in (SPACE + "text", SPACE + "code"):
            text.append(part.text or "")
        elif part.tag in (SPACE + "softbreak", SPACE + "linebreak"):
            text.append("\n")
    return "".join(text)


class Sheet:
    """A Markdown sheet as cmark-gfm reads it."""

    def __init__(self, tree):
        self.title = None
        self.parts = {}  # heading of the second order -> the nodes under it
        nodes = self.head = []
        for node in tree:
            if node.tag == SPACE + "heading" and node.get("level") == "1":
                self.title = flat(node)
            elif node.tag == SPACE + "heading" and node.get("level") == "2":
                nodes = self.parts.setdefault(flat(node), [])
            else:
                nodes.append(node)

    def under(self, part, tag):
        return [found for node in self.nodes(part) for found in node.iter(SPACE + tag)]

    def nodes(self, part):
        """Of a batch the weights and the steps stand with each recipe, under a heading each."""
        if part not in ("Weigh out", "Steps") or part in self.parts:
            return self.parts.get(part, [])
        nodes = list(self.parts.get("Weigh out for the melter", [])) if part == "Weigh out" else []
        for title, under in self.parts.items():
            if not RECIPE.fullmatch(title):
                continue
            headings = [i for i, node in enumerate(under) if flat(node) == "Steps"]
            nodes += under[:headings[0]] if part == "Weigh out" else under[headings[0]:]
        return nodes

    def tasks(self, part):
        return [flat(node) for node in self.under(part, "tasklist")]

    def tables(self, part):
        """Each a list of rows, the head first; a row is a list of cells."""
        return [
            [[flat(cell) for cell in row.iter(SPACE + "table_cell")]
             for row in table if row.tag in (SPACE + "table_header", SPACE + "table_row")]
            for table in self.under(part, "table")
        ]

    def text(self):
        nodes = self.head + [node for part in self.parts.values() for node in part]
        return "\n".join(flat(node) for node in nodes)


def grams_of(text):
    """"2 lb 3.5 oz" -> grams; None if it's no weight."""
    found = re.findall(r"([\d.]+) (mg|g|kg|oz|lb)\b", text)
    if not found or re.sub(r"[\d.]+ (mg|g|kg|oz|lb)\b", "", text).strip():
        return None
    return sum(float(number) * GRAMS[unit] for number, unit in found)


# The one against the other ------------------------------------------------------------------


def expected_before(doc):
    """The lines before lighting as a pattern over their beginnings."""
    premix = sum(1 for recipe in doc["recipe"] if "premix" in recipe)
    in_bath = any("in the bath, no higher" in step["text"] or "Bath topped up" in step["text"] for step in doc["step"])
    bath = "?" if "melt" in doc else "" if in_bath else "{0}"  # a melter's is not in the TOML
    leftover = "" if any("leftover_g" in recipe for recipe in doc["recipe"]) else "{0}"
    counts = {"leftover": leftover, "one": "", "some": "?", "more": "+", "more?": "*", "premix": f"{{{premix}}}", "bath": bath}
    return "".join(f"(?:(?:{start})[^\n]*\n){counts[how]}" for start, how in BEFORE)


def check_weights(rows, lines, total, where, melter=""):
    """A table of weights against lines of the TOML; behind several of them stands their sum.
    `melter`: what the wax is drawn from, if anything."""
    drawn = f", drawn from {melter}" if melter else ""
    wanted = [("leftover " * (line.get("kind") == "leftover") + line["name"]
               + drawn * (line.get("kind") == "wax"), line["weigh_g"]) for line in lines]
    if len(wanted) > 1:
        wanted.append(("in all", total))
    if len(rows) - 1 != len(wanted):
        yield f"{where}: {len(rows) - 1} rows where {len(wanted)} are wanted"
    for row, (name, grams) in zip(rows[1:], wanted):
        got = grams_of(row[0])
        if len(row) != 4 or row[1] != name or got is None or abs(got - grams) > 1e-6 * grams:
            yield f"{where}: the row {row}, where {name} has {grams} g"


def worked(sheet, doc):
    """The recipes as the sheet has them: a batch's in the order of its headings."""
    recipes = doc["recipe"]
    titles = [title for title in sheet.parts if RECIPE.fullmatch(title)]
    if len(titles) != len(recipes):
        return recipes
    heads = {f"{r['title']}: {r['count']} × {r['vessel']}": r for r in recipes}
    return [heads[title] for title in titles]


def check_tables(sheet, doc):
    recipes, pots = worked(sheet, doc), doc["pot"]
    melters = {name: melt["name"] for melt in doc.get("melt", []) for name in melt["recipes"]}
    wanted = [(melt["weigh"], f"melt of {melt['name']}", "") for melt in doc.get("melt", [])]
    for recipe in recipes:
        if "premix" in recipe:
            wanted.append((recipe["premix"], f"premix of {recipe['name']}", ""))
        melter = melters.get(recipe["name"], "")
        wanted += [(pot["weigh"], f"pot of {recipe['name']}", melter) for pot in pots
                   if pot["recipe"] == recipe["name"]]
    tables = sheet.tables("Weigh out")
    if len(tables) != len(wanted):
        yield f"{len(tables)} tables of weights where {len(wanted)} are wanted"
    for rows, (lines, where, melter) in zip(tables, wanted):
        total = sum(line["weigh_g"] for line in lines)
        yield from check_weights(rows, lines, total, where, melter)
    glance = sheet.tables("At a glance")
    columns = sum(len(rows[0]) - 1 for rows in glance)
    if columns != len(recipes):
        yield f"{columns} columns at a glance for {len(recipes)} recipes"
    record = sheet.tables("Record")
    if [len(rows) - 1 for rows in record] != [len(recipes)]:
        yield f"the record has {[len(rows) - 1 for rows in record]} rows"
    for rows in record:
        widths = {len(row) for row in rows}
        if widths != {9}:
            yield f"the record has rows of {widths} cells"
    planned = [row[1] for rows in record[:1] for row in rows[1:]]
    if planned != [str(recipe["count"]) for recipe in recipes]:
        yield f"planned are {planned}"


def check_tasks(sheet, doc):
    before = sheet.tasks("Before you light anything")
    lines = "".join(line.replace("\n", " ") + "\n" for line in before)
    if not re.fullmatch(expected_before(doc), lines):
        yield f"before lighting stands {before}"
    steps = sheet.tasks("Steps")
    if len(steps) != len(doc["step"]):
        yield f"{len(steps)} boxes for {len(doc['step'])} steps"
    order = [r["name"] for r in worked(sheet, doc)]
    wanted = sorted(doc["step"], key=lambda step: order.index(step["recipe"]))
    for got, step in zip(steps, wanted):
        start = re.match(r"[^\d\n]*", step["text"])[0].rstrip()  # figures differ: both scales
        if not TIME.sub("", got).startswith(start):
            yield f"the step {got!r}, where {step['text']!r} is wanted"
    if not before or not steps:
        yield "nothing to tick"


def minutes_of(clock):
    """A time of the day in minutes, from wherever the sheet counts; None if it is none."""
    found = re.fullmatch(TIME_WORDS, clock)
    if not found:
        return None
    day = date.fromisoformat(found["date"]).toordinal() * 1440 if found["date"] else 0
    days = int(found["days"] or 0) * 1440
    return day + days + int(found["hours"]) * 60 + int(found["minutes"])


def check_day(sheet, doc):
    """The rows of the day are in order, no two jobs fall together, every filling is poured."""
    tables = sheet.tables("The day")
    fillings = sum(pot["pots"] for pot in doc["pot"])
    alone = any("No times can be planned yet" in flat(node) for node in sheet.nodes("The day"))
    if len(tables) != (1 if (fillings > 1 or len(doc["recipe"]) > 1) and not alone else 0):
        yield f"{len(tables)} tables of the day for {fillings} fillings"
    for row in [row for rows in tables for row in rows[1:]]:
        if row[0] == "once cold" and not row[1]:
            continue
        if len(row) != 6 or minutes_of(row[0]) is None or (row[1] and minutes_of(row[1]) is None):
            yield f"the row {row} of the day can't be read"
            return
    for rows in tables:
        rows = [row for row in rows if row[0] != "once cold"]
        times = [minutes_of(row[0]) for row in rows[1:]]
        first = next((time for time in times if time < 100000), 0)  # rows with a date come last
        if [time for time in times if time < 100000] != sorted(t for t in times if t < 100000):
            yield "the rows of the day are not in order"
        # By hand is what has an end and is neither melting nor drawn out of the melter's sight.
        jobs = [(minutes_of(row[0]), minutes_of(row[1]), row) for row in rows[1:]
                if row[1] and not re.search(r"\b[Mm]elt( it| the wax)? to\b", row[3])]
        for (_, ends, one), (begins, _, other) in zip(jobs, jobs[1:]):
            if begins < ends - 1 and begins >= first:  # times are whole minutes
                yield f"two jobs at once: {one} and {other}"
        poured = sum("Pour at" in row[3] for row in rows[1:])
        if poured != fillings:
            yield f"{poured} rows pour {fillings} fillings"


def check_followed(sheet, doc):
    """The rows of the day, done one after another by whoever knows nothing else."""
    warmed = {step["recipe"] for step in doc["step"] if step["verb"] == "warm-vessels"}
    titles = {recipe["title"]: recipe["name"] for recipe in doc["recipe"]}
    lit, warm, drawn, melter_on, last_draw = set(), set(), False, False, False
    poured_last = {}
    for row in [row for rows in sheet.tables("The day") for row in rows[1:]]:
        when, till, which, what, meanwhile, _ = row
        owner = titles.get(which.rpartition(": ")[0], doc["recipe"][0]["name"])
        if re.search(r"\b[Mm]elt\b.*\bto\b", what) and "filling" in which:
            lit.add(which)
        if re.search(r"\b(off|out)\b", what.split(":")[0]) and which in lit:
            lit.remove(which)
        if "melter on" in what:
            melter_on = True
        if "Melter off" in what:
            if not drawn:
                yield "the melter is off before anything was drawn"
            melter_on = drawn = False
            last_draw = True  # as the row says, one more
        drawn = drawn or "draw the wax" in what.lower()
        if "draw the wax" in what.lower():
            if not melter_on and not last_draw:
                yield f"{which} draws from a melter that is off"
            last_draw = last_draw and melter_on
        if "Warm its vessels" in what:
            warm.add(which)
        if "all heat off" in what.lower() and lit:
            yield f"{row}: {lit} on"
        if re.search(r"\b[Pp]our at\b", what) and "second" not in what:
            if owner in warmed and which not in warm:
                yield f"{row}: its vessels are cold"
            poured_last[owner] = minutes_of(when)
        if "rim the wick" in what and when != "once cold":
            if owner in poured_last and minutes_of(when) - poured_last[owner] < 60:
                yield f"{row}: trimmed while it is hot"
        watched = "stay by it" in meanwhile or "keep it in sight" in meanwhile
        if melter_on and "pour" in what.lower() and not watched:
            yield f"{row}: nobody is said to watch the melter"
    if melter_on:
        yield "the melter is never off"
    if lit:
        yield f"never off: {lit}"


def check_dangers(sheet, doc):
    """What is found stands among the dangers, three at most, or behind them; in no code words."""
    dangers = [flat(node) for node in sheet.under("Dangers of this batch", "item")]
    lines = dangers + [flat(node) for node in sheet.under("More to mind", "item")]
    if len(dangers) > 3:
        yield f"{len(dangers)} dangers"
    titles = {recipe["name"]: recipe["title"] for recipe in doc["recipe"]}
    for finding in doc.get("finding", []):
        lights = finding["rule"] == "scent-over-flash" and finding["severity"] == "note"
        if lights and "because" not in finding:
            # Said in our own words, once for all recipes.
            said = [line for line in lines if line.startswith("Vapour can light")]
            if len(said) != 1:
                yield f"{len(said)} lines of vapour that can light"
            continue
        # What is for the writer of the file, behind the first clause, may be left out.
        first = finding["text"].split("; ")[0].replace("+-", "±")
        titled = first # in a batch a recipe goes by its title
        for name, title in titles.items():
            titled = titled.replace(f"`{name}`", " ".join(title.split()))
        for ways in ((first.replace("`", ""), titled), (finding.get("because", ""),)):
            if not any(part in line or part[:1].upper() + part[1:] in line
                       for part in ways for line in lines):
                yield f"not among what to mind: {ways[0]!r}"


class Checker:
    def __init__(self, binary, folder):
        self.binary = binary
        self.folder = Path(folder)
        self.passed = 0
        self.failed = 0

    def result(self, name, faults):
        """`faults` may be a generator that stumbles over what isn't there."""
        try:
            faults = list(faults)
        except (ValueError, KeyError, TypeError, IndexError, SyntaxError) as error:
            faults = [f"cut short by what can't be read: {error!r}"]
        self.failed += bool(faults)
        self.passed += not faults
        for fault in faults:
            print(f"sheets_check: {name}: {fault}")

    def run(self, *words):
        done = subprocess.run([self.binary, *map(str, words)], capture_output=True, check=False,
                              timeout=60)
        return done.returncode, done.stdout, done.stderr.decode("utf-8", "replace")

    def read(self, file, name, words):
        """(TOML text, its tables, Markdown text, its tree, its parts)."""
        status, toml, err = self.run("sheet", file, name, "--as", "toml", *words)
        status_2, markdown, _ = self.run("sheet", file, name, *words)
        if status or status_2:
            raise ValueError(f"exit {status} and {status_2}: {err}")
        path = self.folder / "sheet.md"
        toml, markdown = toml.decode("utf-8"), markdown.decode("utf-8")
        markdown = markdown.replace("\u2060", "")  # it keeps a mail address from being a link
        path.write_text(markdown, encoding="utf-8")
        tree = read_tree(str(path))
        return toml, tomllib.loads(toml), markdown, tree, Sheet(tree)

    def sheet(self, file, name, wanted=None, words=()):
        """`wanted`: (title, notes, lot) as the user wrote them."""
        label = " ".join([Path(file).name, name, *words])
        try:
            toml, doc, markdown, tree, sheet = self.read(file, name, words)
        except (ValueError, SyntaxError) as error:  # ElementTree's is a SyntaxError
            self.result(label, [f"can't be read: {error}"])
            return
        self.result(f"{label}: TOML", self.toml_faults(toml, doc, sheet, "us" in words))
        self.result(f"{label}: Markdown", self.markdown_faults(tree, markdown, doc, sheet))
        if wanted:
            self.result(f"{label}: words", self.word_faults(sheet, doc, wanted))

    @staticmethod
    def toml_faults(text, doc, sheet, in_ounces):
        yield from check_floats(text)
        scales = [line for line in sheet.tasks("Before you light anything") if " reads " in line]
        divisions = {grams_of(line.partition(" reads ")[2]) for line in scales}
        if not divisions:  # no scale: 0.1 oz or 0.01 oz, or what the check takes by itself
            divisions = {grams_of("0.1 oz"), grams_of("0.01 oz")} if in_ounces else {None}
        faults = {division: list(check_sheet(doc, division)) for division in divisions}
        # With several scales each pot is right on one of them.
        yield from set.intersection(*map(set, faults.values()))

    @staticmethod
    def markdown_faults(tree, text, doc, sheet):
        # One at a glance for four recipes, the record, and where there are several their cure.
        tables = 2 + (len(doc["recipe"]) - 1) // 4 + (len(doc["recipe"]) > 1)
        tables += len(sheet.tables("The day")) + len(doc.get("melt", [])) + len(doc["pot"])
        tables += sum("premix" in recipe for recipe in doc["recipe"])
        tasks = len(doc["step"]) + len(sheet.tasks("Before you light anything"))
        count = argparse.Namespace(tables=tables, tasks=tasks)
        yield from find_faults(tree, text, count)
        yield from check_tables(sheet, doc)
        yield from check_tasks(sheet, doc)
        yield from check_day(sheet, doc)
        yield from check_followed(sheet, doc)
        yield from check_dangers(sheet, doc)

    @staticmethod
    def word_faults(sheet, doc, wanted):
        title, notes, lot = wanted
        for what, got in (("Markdown", sheet.title), ("TOML", doc["title"])):
            if got != title:
                yield f"the title is {got!r} in the {what}, not {title!r}"
        if doc.get("lot") != lot:
            yield f"the lot is {doc.get('lot')!r}"
        text = sheet.text()
        lines = [line.strip() for line in notes.split("\n")]
        if "Notes: " + "\n".join(lines) not in text:
            yield f"not letter for letter: the notes {notes!r}"
        if lot is not None and f"Lot: {lot} · " not in text:
            yield "not letter for letter: the lot"

    def step_and_cell_faults(self, file, name, title, note):
        """The words of a recipe where they stand in steps, findings and cells."""
        _, doc, _, _, sheet = self.read(file, name, ())
        if note not in [step["text"] for step in doc["step"]]:
            yield f"no step of the TOML is {note!r}"
        if note not in sheet.tasks("Steps"):
            yield f"no box to tick has {note!r}"
        if not any(f"Why: {title}" in task for task in sheet.tasks("Steps")):
            yield f"no step has the reason {title!r}"
        reasons = [finding.get("because") for finding in doc["finding"]
                   if finding["rule"] == "load-near-limit"]
        if reasons != [title]:
            yield f"what is allowed has the reason {reasons}, not {title!r}"
        for rows in sheet.tables("Record"):
            if [row[0] for row in rows[1:]] != [title]:
                yield f"a record has {rows[1:]}, not {title!r}"


def check_examples(checker, tree):
    files = sorted(Path(tree, "examples").rglob("*.candle"))
    checker.result("examples", [] if files else [f"none in {tree}/examples"])
    sheets = 0
    for file in files:
        status, out, err = checker.run("check", file)
        checker.result(f"{file.name}: check", [] if status == 0 else [f"{out.decode()}{err}"])
        text = file.read_text(encoding="utf-8")
        for kind, name in re.findall(r"^(recipe|batch) +([a-z0-9-]+)", text, re.MULTILINE):
            sheets += 1
            checker.sheet(file, name)
            checker.sheet(file, name, words=["--units", "us"])
            if kind == "recipe":
                checker.sheet(file, name, words=["--make", "40"])
                checker.sheet(file, name, words=["--make", "1", "--units", "metric"])
    checker.result("sheets of the examples", [] if sheets else ["there are none"])


def check_nasty(checker):
    text, wanted = make_nasty()
    file = checker.folder / "nasty.candle"
    file.write_text(text, encoding="utf-8")
    for name, words in wanted.items():
        checker.sheet(file, name, wanted=words)
    for i, title in enumerate(NASTY):
        name = f"nasty-{i}"
        faults = checker.step_and_cell_faults(file, name, title, NASTY[-1 - i])
        checker.result(f"{name}: words in steps and cells", faults)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--tree", required=True, help="the root of the sources")
    options = parser.parse_args()
    if not Path(options.waxwright).is_file():
        parser.error(f"no file {options.waxwright}")
    if shutil.which("cmark-gfm") is None:
        print("sheets_check: no cmark-gfm: install the Debian package `cmark-gfm`")
        print("sheets_check: 0 passed, 1 failed")
        return 1
    with tempfile.TemporaryDirectory(prefix="waxwright-sheets-") as folder:
        checker = Checker(options.waxwright, folder)
        check_examples(checker, options.tree)
        check_nasty(checker)
    print(f"sheets_check: {checker.passed} passed, {checker.failed} failed")
    return 1 if checker.failed else 0


if __name__ == "__main__":
    sys.exit(main())
