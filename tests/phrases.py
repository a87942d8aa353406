#!/usr/bin/env python3
"""The phrase book, row by row and line by line.

usage: phrases.py --waxwright BIN --tree TREE

Every row of compiler/model/phrases_steps.def and phrases_lines.def is written into a recipe, with figures in its holes: a
certain one is mended to the line that it promises, by one run of `check --mend`, and nothing is left
to find there; another gets its question, and the file stays as it is. docs/phrases.md has the same
rows (REBLESS=1 writes them). tests/phrases.txt has lines as makers write them, each with what a careful person would answer.
A second run of `--mend` changes nothing.
Exit status 0: all holds; 1: something doesn't; 2: wrong call.
"""

import argparse
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

TABLES = ["phrases_steps.def", "phrases_lines.def"] # in the order in which they are read
FRAME = {
    "vessel": "vessel jam-jar {", "brimful": "  brimful: 289 g of water",
    "bore": "  bore: 74 mm", "headspace": "  headspace: 12 mm", "of": "  of: glass",
    "made-for": "  made-for: candles\n}",
    "scale": "scale bench {", "reads": "  reads: 1 g\n}",
    "pot": "pot steel-pot {", "pot-brimful": "  brimful: 2 l", "heated": "  heated: water-bath\n}",
    "waxes": "wax my-wax like soy {", "in-wax": "  about: \"\"\n}",
    "oils": "oil my-oil like lavender {", "in-oil": "  about: \"\"\n}",
    "dyes": "additive my-dye {", "in-additive": "  about: \"\"\n}",
    "parts": "substance my-part {", "in-substance": "  about: \"\"\n}",
    "extras": "extra my-lid {", "in-extra": "  about: \"\"\n}",
    "recipe": "recipe kitchen {", "title": "  notes: \"\"", "makes": "  makes: 6 jam-jar", "wax": "  wax: soy",
    "load": "  load: 7% of wax", "scent": "  scent: lavender",
    "wick": "  wick: cotton-braid-large", "steps": "  steps {", "wipe": "    wipe vessels",
    "set": "    set wick", "melt": "    melt to 75 °C", "off": "    off heat",
    "add": "    add scent at 70 °C, stir 2 min", "pour": "    pour at 60 °C",
    "leave": "    leave 4 h", "cure": "    cure 14 days", "end": "  }\n}",
    "batch": "batch market-day {", "starts": "  starts: 2026-12-05 09:00",
    "pours": "  pour 6 kitchen\n}", "shelf": "stock shelf {", "have": "  have 6 jam-jar\n}",
    "maker": "maker studio {", "studio": "  title: \"Marsh\"\n}", "file": "",
}
# What a line stands in the place of, by how it or its meaning begins; the first that fits.
PLACES = [("lid", "leave"), ("label", "leave"), ("headspace", "headspace"), ("bore", "bore"), ("made", "made-for"), ("of:", "of"),
          ("reads", "reads"), ("heated:", "heated"), ("starts", "starts"), ("brimful", "brimful"), ("fill", "brimful"), ("makes", "makes"), ("jar", "makes"),
          ("wax", "wax"), ("load", "load"), ("fragrance: #", "load"), ("fragrance load", "load"),
          ("scent load", "load"), ("scent:", "scent"), ("fragrance", "scent"),
          ("essential", "scent"), ("scent oil", "scent"), ("wick:", "wick"), ("size", "brimful"),
          ("off", "off"), ("melt", "melt"), ("add", "add"), ("pour", "pour"), ("title", "title"), ("notes", "title"),
          ("dye", "title"), ("colo", "title"), ("cost", "title"), ("price", "title"),
          ("room", "title"), ("pot", "title"), ("scale", "title"), ("wipe", "wipe"),
          ("warm v", "wipe"), ("set", "set"), ("recipe", "recipe"), ("vessel", "vessel")]

# The same for a row of one kind of block.
PLACES_IN = {"vessel": "of", "recipe": "title", "oil": "in-oil", "additive": "in-additive",
             "substance": "in-substance", "wax": "in-wax", "batch": "pours"}


def place_of(line, meant):
    if meant.startswith("second"):
        return "leave"
    if re.match(r"pour\b(?! again)|fill at", line):
        return "pour"
    for text in (meant, line):
        for begin, place in PLACES:
            if text and text.startswith(begin):
                return place
    return "leave"


WORDS = {"1": "one", "4": "four", "6": "six", "7": "seven", "20": "twenty", "1/4": "¼", "1/2": "half"}


def row_sample(said, meant, question):
    """A line of the row, what it should become and be asked, with figures in the holes; a row that
    only turns a word into a number has the word, and one that is only for capitals has these."""
    degrees = re.search(r"\b(to|at) [*#]|# ~", said) and "trim" not in meant
    scent = re.match("scent|fragrance|essential", said)
    values = {"^": "tbsp", "@": "lavender" if scent else "soy" if "wax" in said else "jam-jar"}
    if "about *" in said:
        values["*"] = "75 °C" if "melt" in said else "70 °C" if "scent" in said else "60 °C"
    elif re.search("#% @", said) and "load" not in said:
        two = ["soy", "coconut"] if "wax" in said else ["lavender", "rosemary"]
        values.update({"#": "50", "@": two})
    elif re.match("jar: #|holds: #|shows: #", said):
        values.update({"#": "9", "*": "fl oz"})
    elif said == "fragrance: *":
        values["*"] = "something strong"
    elif re.match("(stir|leave|cure|hold|rest|wait) #.* @", said):
        values.update({"#": "4", "@": "min" if re.match("stir|hold", said) else "weeks",
                       "*": "or so"})
    elif "stir # @" in said and "add" in said:
        values.update({"#": ["70", "2"], "@": "minutes"})
    elif said.startswith("pour # ") and "@" in said:
        values["@"], values["#"] = "kitchen", "4"
    elif re.match("makes: # .*#", said):
        values.update({"#": ["6", "200"], "@": ["cans", "ml"] if "@ of" in said else "ml"})
    elif said.startswith("load: # ^"):
        values.update({"#": "7", "*": "per jar"})
    elif said == "makes: # @ @":
        values.update({"#": "4", "@": ["jam", "jar"]})
    elif said.startswith("name:"):
        values["*"] = '"Low Tide"'
    elif said.startswith(("title", "notes")):
        values.update({"@": "Low", "#": "2", "*": "Tide, strong"})
    elif "stir" in meant and "add" in meant and "#" in said:
        values.update({"*": "2 min", "#": "70"})
    elif "ml to the brim" in said:
        values["#"] = "300"
    elif said.startswith("bore: # mm"):
        values["#"] = "20"
    elif said.startswith("headspace"):
        values["#"] = "4" if "# mm" in said else "1/2"
    elif re.search("@ #|@ and", said):
        values.update({"#": "80", "*": "%"})
    elif "trim" in meant:
        values.update({"*": "mm" if "# *" in said else "6 mm",
                       "#": "1/4" if re.search("# in", said) else "6"})
    elif said == "melt # *":
        values.update({"#": "75", "*": "°C"})
    elif "load" in said or said.startswith("fragrance: #"):
        values.update({"*": "% of wax" if "# *" in said else "7% of wax", "#": "7"})
        if re.search("pound|lb", said):
            values.update({"#": "1", "*": "of wax"})
    elif said.startswith("jar"):
        values["*"] = "jam-jar"
    elif degrees:
        hot = "70" if "scent" in meant else "60" if "pour" in meant or "cool" in meant else "75"
        hot = "30" if "warm vessels" in meant and "melt" not in meant else hot
        values.update({"*": hot + " °C", "#": hot})
    elif "water" in said:
        values["#"] = "289" if " g" in said else "10"
    else:
        values.update({"*": "min" if re.match("stir|hold", meant) else "h", "#": "4"})

    def fill(text, words=False):
        lists = {hole: iter(each) for hole, each in values.items() if isinstance(each, list)}
        def one(hole):
            if hole[0][0] == "{": # the hole of that number
                wanted = re.findall("[*#@~^]", said)[:int(hole[0][1])]
                value = values[wanted[-1]]
                return value[wanted.count(wanted[-1]) - 1] if isinstance(value, list) else value
            if hole[0] == "##":
                return "#"
            if hole[0] == "~":
                return "deg C" if text is said else "°C"
            if hole[0] in lists:
                return next(lists[hole[0]])
            if hole[0] == "#" and words:
                return WORDS.get(values.get("#"), values.get("#", "#"))
            return values.get(hole[0], hole[0])
        return re.sub(r"##|\{\d\}|[*#@~^]", one, text)
    asked = re.sub("`[^`]*`", lambda part: fill(part[0]), question)
    if said == meant and not re.match("stir|leave|cure|hold|makes|trim wick to #|headspace|bore|.*~", said):
        said = said.title() # a row for capitals
        return fill(said), fill(meant), asked
    in_words = said == meant or said == "load: # oz per lb" # in digits it has a rule of its own
    return fill(said, in_words), fill(meant), asked


class Checker:
    def __init__(self, binary, folder):
        self.binary, self.folder = binary, Path(folder)
        self.passed = self.failed = 0

    def check(self, good, what):
        self.passed += bool(good)
        self.failed += not good
        if not good:
            print(f"phrases: {what}")

    def run(self, *words):
        return subprocess.run([self.binary, "check", *words, self.file()], capture_output=True,
                              text=True, timeout=60, check=False).stdout

    def file(self):
        return str(self.folder / "kitchen.candle")

    def look(self, line, place):
        """(findings of the line, its line after --mend, whether a second --mend changes more)."""
        frame = dict(FRAME)
        indent = re.match(" *", frame[place])[0]
        frame[place] = indent + line + ("\n}" if frame[place].endswith("\n}") else "")
        parts = list(frame.values())
        text = "use waxes, oils, vessels, wicks\n\n" + "\n".join(parts) + "\n"
        number = text[:text.index("\n" + indent + line + "\n") + 1].count("\n") + 1
        Path(self.file()).write_text(text, encoding="utf-8")
        told = re.findall(rf"^\S+:{number}:\d+: error: (.*) \[([a-z-]+)\]\n(?:.*\n){{2}}"
                          r"(?:    hint: (.*)\n)?", self.run(), re.M)
        self.run("--mend")
        once = Path(self.file()).read_text(encoding="utf-8")
        self.run("--mend")
        again = Path(self.file()).read_text(encoding="utf-8") != once
        return told, once.split("\n")[number - 1].strip(), again


def check_row(t, kind, said, meant, certain, question):
    line, promised, question = row_sample(said, meant, question)
    place = place_of(line.lower() if not said.startswith("fragrance: #") else "load", meant)
    place = PLACES_IN.get(kind, place)
    if re.match("width|diameter|across", said): # what it holds, said as well, is another question
        place = "brimful"
    told, after, again = t.look(line, place)
    where = f"`{said}` ({line})"
    t.check(told, f"{where}: nothing is found")
    t.check(not again, f"{where}: a second --mend changes more")
    hints = [hint for _, _, hint in told]
    if certain:
        t.check(after == promised, f"{where}: mended to {after!r}, promised {promised!r}")
        told, _, _ = t.look(promised, place)
        t.check(not told, f"{where}: the promised {promised!r} is found fault with: {told}")
    else:
        t.check(after == line, f"{where}: is mended to {after!r}")
        t.check(question and question in hints, f"{where}: asks {hints}, not {question!r}")


def rows_of(table):
    """(kind or empty, said, meant, sure, question) of each row."""
    rows = re.findall(r'^PHRASE(?:_IN\((\w+), |\()"(.*?)", "(.*?)", (certain|asks), "(.*?)"\)$',
                      table.replace('\\"', "\0"), re.M)
    return [[part.replace("\0", '"') for part in row] for row in rows]


def as_page(said, question):
    """With the holes themselves where the table has their numbers."""
    holes = re.findall("[*#@~^]", said)
    return re.sub(r"\{(\d)\}", lambda number: holes[int(number[1]) - 1], question)


def write_page(tree, table):
    """The page's tables again, from the table's own headings and rows."""
    page = Path(tree, "docs/phrases.md")
    lines = [page.read_text(encoding="utf-8").split("\n## ")[0].rstrip()]
    for line in table.splitlines():
        if heading := re.fullmatch("// ([A-Z][a-z ]+)", line):
            lines += ["", f"## {heading[1]}", "", "| you write | Waxwright has | |", "|---|---|---|"]
        elif line.startswith("PHRASE"):
            (kind, said, meant, sure, question), = rows_of(line)
            said += f"` in {'an' if kind[0] in 'aeiou' else 'a'} `{kind}" if kind else ""
            meant = f"`{meant}`" if meant else ""
            told = sure if sure == "certain" else as_page(said, question)
            lines.append(f"| `{said}` | {meant} | {told} |".replace("##", "#"))
    page.write_text("\n".join(lines) + "\n", encoding="utf-8")


def check_rows(t, tree):
    text = "\n".join(Path(tree, "compiler/model", name).read_text(encoding="utf-8")
                     for name in TABLES)
    rows = rows_of(text)
    t.check(len(rows) == len(re.findall("^PHRASE", text, re.M)) > 100, f"{len(rows)} rows are read")
    for kind, said, meant, sure, question in rows:
        check_row(t, kind, said, meant, sure == "certain", question)
    if os.environ.get("REBLESS"):
        write_page(tree, text)
    page = Path(tree, "docs/phrases.md").read_text(encoding="utf-8")
    listed = re.findall(r"^\| `(.*?)`(?: in an? `(\w+)`)? \| (?:`(.*?)`)? ?\| (.*) \|$", page, re.M)
    wanted = [(said, kind, meant.replace("##", "#"),
               "certain" if sure == "certain" else as_page(said, question).replace("##", "#"))
              for kind, said, meant, sure, question in rows]
    t.check(listed == wanted, f"docs/phrases.md differs: {set(listed) ^ set(wanted)}")


def check_lines(t, tree):
    """`line | rule | => mended` or `line | rule | ? words of the hint`; `line | ok`. In brackets
    before the line, a place of FRAME where it doesn't follow from the line."""
    count = 0
    for raw in Path(tree, "tests/phrases.txt").read_text(encoding="utf-8").splitlines():
        if not raw.strip() or raw.startswith("#"):
            continue
        count += 1
        line, rule, *answer = [part.strip() for part in raw.split(" | ")]
        answer = answer[0] if answer else ""
        meant = answer[3:] if answer.startswith("=> ") else ""
        place, line = re.fullmatch(r"(?:\[([a-z-]+)\] )?(.*)", line).groups()
        told, after, again = t.look(line, place or place_of(line, meant))
        t.check(not again, f"{line}: a second --mend changes more")
        if rule == "ok":
            t.check(not told, f"{line}: {told}")
            continue
        t.check(rule in [each for _, each, _ in told], f"{line}: {told}, not {rule}")
        if meant:
            t.check(after == meant, f"{line}: mended to {after!r}, not {meant!r}")
        else:
            t.check(after == line, f"{line}: mended to {after!r}")
            words = answer.removeprefix("? ")
            t.check(any(words in hint or words in message for message, _, hint in told),
                    f"{line}: {told}, not {words!r}")
    t.check(count >= 200, f"only {count} lines")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--tree", required=True, help="the root of the sources")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="waxwright-phrases-") as folder:
        t = Checker(options.waxwright, folder)
        check_rows(t, options.tree)
        check_lines(t, options.tree)
    print(f"phrases: {t.passed} passed, {t.failed} failed")
    return 1 if t.failed else 0


if __name__ == "__main__":
    sys.exit(main())
