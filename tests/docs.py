#!/usr/bin/env python3
"""Holds the documents to the program: docs/ with its folders, README.md and DEVELOPERS.md.

- Every ```candle block compiles, and every ```console block is what the program prints.
- The tables of the language, the rules, the TOML sheet and the commands have what the program has.
- Every relative link leads somewhere.

How a block says what it is stands in DEVELOPERS.md, under "Documents". REBLESS=1 rewrites the
console blocks from what the program prints.
"""

import argparse
import datetime
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from dataclasses import dataclass
from pathlib import Path

ELLIPSIS = "…"  # a line of its own in a console block: any lines, left out
FINDING = re.compile(r"^\S+:\d+:\d+: (error|warning|note): .* \[([a-z0-9-]+)\]$", re.M)
DIRECTIVE = re.compile(r"^<!-- (file|beside|with|in|wrong|also): (.+) -->$")


class Fault(Exception):
    """Something a person has to mend; its text says what."""


def read(path):
    return path.read_text("utf-8")


@dataclass
class Block:
    line: int  # of its opening fence, from 1
    language: str
    lines: list[str]
    directives: dict[str, str]

    @property
    def text(self):
        return "".join(line + "\n" for line in self.lines)


def blocks_of(text):
    """The fenced blocks of a page, each with the comments right above it."""
    blocks, directives, block = [], {}, None
    for number, line in enumerate(text.splitlines(), 1):
        if block is not None:
            if line == "```":
                blocks.append(block)
                block = None
            else:
                block.lines.append(line)
        elif line.startswith("```"):
            block = Block(number, line[3:], [], directives)
            directives = {}
        elif match := DIRECTIVE.match(line):
            directives[match[1]] = match[2]
        elif directives:
            raise Fault(f"line {number}: the comment above has no block under it")
    if block is not None:
        raise Fault(f"line {block.line}: the block is never closed")
    return blocks


class Bench:
    """A folder in which the blocks of one page are tried."""

    def __init__(self, waxwright, tree):
        self.keep = tempfile.TemporaryDirectory()
        self.folder = Path(self.keep.name)
        shutil.copytree(tree / "examples", self.folder / "examples")
        programs = self.folder / ".programs"
        programs.mkdir()
        (programs / "waxwright").symlink_to(waxwright)
        path = f"{programs}:{os.environ['PATH']}"
        self.environment = {**os.environ, "PATH": path, "NO_COLOR": "1"}

    def run(self, command):
        """What the command prints, errors and output together, and its exit status."""
        done = subprocess.run(["sh", "-c", command], cwd=self.folder, env=self.environment,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=60)
        return done.stdout.decode("utf-8"), done.returncode

    def check(self, source, name=".block.candle"):
        """The rules that fire (of errors and warnings, of notes), the report and the status."""
        (self.folder / name).write_text(source, encoding="utf-8")
        report, status = self.run(f"waxwright check --notes {name}")
        found = FINDING.findall(report)
        loud = {rule for severity, rule in found if severity != "note"}
        return loud, {rule for severity, rule in found if severity == "note"}, report, status


# Blocks


def whole_file(bench, block):
    """The block as a file: behind the file it goes with, or in the block it belongs to."""
    if "with" in block.directives:
        return read(bench.folder / block.directives["with"]) + "\n" + block.text
    if "in" in block.directives:
        name, kind, base = block.directives["in"].split()
        front = read(bench.folder / name)
        return f"{front}\n{kind} a-snippet like {base} {{\n{block.text}}}\n"
    return block.text


def check_block(bench, block):
    """What Bench.check gives of the block, which is kept under its name if it has one."""
    name = block.directives.get("file", "")
    if name.startswith("examples/"):  # beside what it uses; it must not write what it is held to
        name = str(Path(name).with_name(".block.candle"))
    return bench.check(whole_file(bench, block), *([name] if name else []))


def keep_beside(bench, block):
    """Keeps a block that is tried only by what uses it; false if it is not such a one."""
    name = block.directives.get("beside")
    if name is not None:
        (bench.folder / name).write_text(whole_file(bench, block), encoding="utf-8")
    return name is not None


def try_candle(bench, block):
    if keep_beside(bench, block):
        return
    loud, notes, report, status = check_block(bench, block)
    name = block.directives.get("file", "")
    if name.startswith("examples/") and read(bench.folder / name) != whole_file(bench, block):
        yield f"this is not what {name} says"
    wanted = block.directives.get("wrong")
    others = loud - {wanted} - set(block.directives.get("also", "").split())
    if wanted is None and (status != 0 or others):
        yield f"the recipe is not clean:\n{report}"
    elif wanted is not None and (others or wanted not in loud | notes):
        yield f"only `{wanted}` should fire here:\n{report}"


def runs_of(shown):
    """The shown lines between ellipses."""
    runs = [[]]
    for line in shown:
        if line == ELLIPSIS:
            runs.append([])
        else:
            runs[-1].append(line)
    return runs


def is_shown(shown, printed):
    runs = runs_of(shown)
    if len(runs) == 1:
        return shown == printed
    first, last = runs[0], runs[-1]
    if printed[: len(first)] != first or (last and printed[-len(last):] != last):
        return False
    at, end = len(first), len(printed) - len(last)
    for run in runs[1:-1]:
        while at + len(run) <= end and printed[at : at + len(run)] != run:
            at += 1
        at += len(run)
    return at <= end


def shown_anew(shown, printed):
    """The same excerpts of a new output: as many lines, from a line like each one's first."""
    runs = runs_of(shown)
    if len(runs) == 1:
        return printed
    result, at = [], 0
    for index, run in enumerate(runs):
        result += [ELLIPSIS] if index > 0 else []
        if index > 0 and run:
            if run[0] not in printed[at:]:
                raise Fault(f"cannot rebless: the output has no line {run[0]!r}")
            at = printed.index(run[0], at)
        result += printed[at : at + len(run)]
        at += len(run)
    return result


def play(bench, block):
    """Runs a console block: each command with the lines shown of its output and those printed."""
    pieces = []
    for line in block.lines:
        if line.startswith("$ "):
            pieces.append((line[2:], []))
        elif not pieces:
            raise Fault(f"line {block.line}: a console block begins with `$ waxwright …`")
        else:
            pieces[-1][1].append(line)
    status = 0
    for command, shown in pieces:
        if command == "echo $?":
            output = str(status)
        elif command.startswith("waxwright "):
            output, status = bench.run(command)
        else:
            raise Fault(f"line {block.line}: only waxwright is run here, not `{command}`")
        yield command, shown, output.splitlines()


def try_console(bench, block):
    for command, shown, printed in play(bench, block):
        if not is_shown(shown, printed):
            yield "`{}` prints otherwise:\n{}\n".format(command, "\n".join(printed))


def try_toml(bench, block):
    try:
        tomllib.loads(block.text)
    except tomllib.TOMLDecodeError as fault:
        yield f"this is no TOML: {fault}"


def try_page(path, waxwright, tree):
    """The faults of a page's blocks, and how many blocks there were."""
    bench = Bench(waxwright, tree)
    trials = {"candle": try_candle, "console": try_console, "toml": try_toml}
    faults, count = [], 0
    for block in blocks_of(read(path)):
        if block.language in trials:
            count += 1
            if block.language == "candle":
                faults += try_wicks(f"{path}:{block.line}", block.text)
            found = trials[block.language](bench, block)
            faults += [f"{path}:{block.line}: {fault}" for fault in found]
        elif block.directives or block.language not in ("sh", "text", "yaml"):
            faults.append(f"{path}:{block.line}: no such kind of block: {block.language}")
    return faults, count


def rebless(path, waxwright, tree):
    bench = Bench(waxwright, tree)
    text = read(path)
    lines, moved = text.splitlines(), 0
    for block in blocks_of(text):
        if block.language == "candle":
            list(try_candle(bench, block))
        if block.language != "console":
            continue
        fresh = []
        for command, shown, printed in play(bench, block):
            fresh += ["$ " + command, *shown_anew(shown, printed)]
        begin = block.line + moved
        lines[begin : begin + len(block.lines)] = fresh
        moved += len(fresh) - len(block.lines)
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


# Wicks

# A wick of the library that a recipe takes, or one of the maker's own with a size in it.
SIZED = re.compile(r" *wick:.*\b(cotton-|paper-core|wood-|zinc-core|tin-core)|wick [a-z-]+ .*\{")


def try_wicks(where, text):
    """A size of wick is copied by beginners: on its line or the one above it says that it is for
    show, and where to get one's own."""
    lines = text.splitlines()
    for above, line in zip(["", *lines], lines):
        if SIZED.match(line) and "for show" not in line and "for show" not in above:
            yield f"{where}: does not say that the size is for show: {line.strip()}"


# Links


def prose_of(text):
    """The page without its fenced blocks."""
    return re.sub(r"^```.*?^```$", "", text, flags=re.M | re.S)


def slugs_of(text):
    """The anchors of a page's headings, as GitHub makes them."""
    headings = re.findall(r"^#+ (.+)$", prose_of(text), re.M)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}


def try_links(path):
    for target in re.findall(r"\]\(([^)\s]+)\)", prose_of(read(path))):
        if re.match(r"[a-z]+:", target):
            continue
        place, _, anchor = target.partition("#")
        there = path.parent / place if place else path
        if not there.exists():
            yield f"{path}: `{target}` leads nowhere"
        elif anchor and anchor not in slugs_of(read(there)):
            yield f"{path}: `{target}` names no heading"


# Tables


def section_of(text, heading):
    """What stands under a heading, up to the next heading of any level."""
    match = re.search(rf"^#+ {re.escape(heading)}$\n(.*?)(?=^#|\Z)", text, re.M | re.S)
    return match[1] if match else ""


def rows_of(text):
    """The cells of each row of the tables in a text, without heads."""
    rows = re.findall(r"^\| (.+) \|$", text, re.M)
    cells = [re.split(r"(?<!\\) \| ", row) for row in rows]
    return [row for row in cells if row[0].startswith("`")]


def differ(what, documented, real):
    """Faults where two sets that should be one are not."""
    faults = [f"{what}: `{name}` is not documented" for name in sorted(set(real) - set(documented))]
    faults += [f"{what}: there is no `{name}`" for name in sorted(set(documented) - set(real))]
    return faults if real else [f"{what}: nothing was found to compare with"]


# A block of each kind to be like, in which the example of a property is tried.
CONTEXT = """\
use "examples/tide-line.candle", vessels, additives, extras
test-burn a-burn { of: tide-line }
maker a-maker { about: "nobody" }
leftover tide-ends { wax: soy, load: 6% of wax, scent: lavender }
leftover plain-ends { wax: soy }
"""
BASES = {"wax": "soy", "oil": "lavender", "substance": "linalool", "additive": "stearic-acid",
         "vessel": "tin-8oz", "wick": "cotton-braid-medium", "pot": "pour-can", "scale": "bench-scale",
         "extra": "gift-box", "recipe": "tide-line", "batch": "december-pour",
         "test-burn": "a-burn", "maker": "a-maker", "leftover": "tide-ends"}

# What is kept only, though a property of that name is used of other kinds.
KEPT = {("additive", key) for key in (
    "melts", "liquid-density", "flash-point", "heat", "heat-liquid", "melting-heat")}


def properties_of(tree):
    """Of each kind of block its properties: the key, how the source spells it, if it is needed, its
    examples."""
    keys = dict(re.findall(r'KEY\((\w+), "(.+?)"\)', read(tree / "compiler/model/keys.def")))
    table = read(tree / "compiler/model/schema_table.cpp")
    kinds = {}
    for kind, key, rest in re.findall(r"\{\.block = (\w+), \.key = Key::(\w+),(.*)\}", table):
        row = kinds.setdefault(kind.replace("_", "-"), {})
        example = re.search(r'\.example = "(.+?)"', rest)
        row[keys[key]] = (key, ".needed = true" in rest, example and example[1])
    return kinds


def try_properties(bench, tree, page):
    """Each kind's table: all its properties, with their marks, and examples that compile."""
    used = "".join(read(path) for folder in ("check", "reckon", "plan", "driver")
                   for path in (tree / "compiler" / folder).rglob("*.cpp"))
    used += read(tree / "compiler/model/model.cpp")  # which reads `sells-in`
    used += read(tree / "compiler/emit/material_page.cpp")  # which prints `about` and `source`
    kinds = properties_of(tree)
    if len(kinds) < len(BASES):
        yield "language.md: the schema's table can't be read"
    for kind, mine in kinds.items():
        heading = "Every block" if kind == "unknown" else kind
        rows = {cells[0].split("`")[1]: cells for cells in rows_of(section_of(page, heading))}
        yield from differ(f"language.md, {heading}", rows, mine)
        for key in rows.keys() & mine.keys():
            code, needed, shown = mine[key]
            if ("\\*" in rows[key][0]) != needed:
                yield f"language.md, {heading}: `{key}` and its *"
            unused = re.search(rf"Key::{code}\b", used) is None or (kind, key) in KEPT
            if ("○" in rows[key][0]) != unused:
                yield f"language.md, {heading}: `{key}` and its ○"
            of = kind if kind in BASES else "vessel"
            examples = re.findall(r"`([^`]+)`", rows[key][1])
            if shown and shown.split("; ") != examples:
                yield f"language.md, {heading}: `{key}` and the example that editors show, {shown}"
            for example in examples:
                _, _, report, status = bench.check(
                    f"{CONTEXT}{of} an-example like {BASES[of]} {{\n{key}: {example}\n}}\n")
                if status != 0:
                    yield f"language.md, {heading}: `{key}: {example}`:\n{report}"


def try_language(bench, tree):
    page = read(tree / "docs/language.md")
    yield from try_properties(bench, tree, page)
    verbs = re.findall(r'(?m)^VERB\(\w+, "([^"]+)"', read(tree / "compiler/model/verbs.def"))
    steps = [cells[0].strip("`") for cells in rows_of(section_of(page, "Steps"))]
    yield from differ("language.md, steps", steps, verbs)
    units = re.findall(r'\{\{"([^"]+)", ', read(tree / "compiler/units/unit_table.cpp"))
    words = set(re.findall(r"`([^`]+)`", section_of(page, "Quantities")))
    yield from differ("language.md, units", words & set(units), units)
    modules = [path.stem for path in (tree / "stdlib").glob("*.candle")]
    words = set(re.findall(r"`(\w+)`", section_of(page, "use")))
    yield from differ("language.md, use", words, modules)


def try_rules(tree):
    rule = re.compile(r'^(?:RULE|LIMIT)\(\w+, "([^"]+)", (\w+), (\w+),', re.M)
    real = rule.findall(read(tree / "compiler/findings/rules.def"))
    row = re.compile(r"^\| \[`([^`]+)`\]\(([^)]+)\) \| (\w+) \|", re.M)
    documented = []
    page = read(tree / "docs/rules.md")
    for heading in re.findall(r"^## (.+)$", page, re.M):
        family = heading.split(":")[0].lower()
        for name, place, severity in row.findall(section_of(page, heading)):
            documented.append(f"{name} {family} {severity}")
            if place != f"rules/{name}.md":
                yield f"rules.md: `{name}` leads to {place}"
    yield from differ("rules.md", documented, [" ".join(rule) for rule in real])
    counted = re.search(r"<!-- rules -->(\d+)<!-- /rules -->", read(tree / "README.md"))
    if not counted or int(counted[1]) != len(real):
        yield f"README.md does not say that there are {len(real)} rules"


def types_in(table, path, found):
    """The type of every key of a TOML table and of those in it, under `path.key`."""
    names = {str: "string", int: "integer", float: "float", list: "array of tables",
             dict: "table", bool: "boolean"}
    for key, value in table.items():
        found[f"{path}{key}"] = names.get(type(value), "local date-time")
        if type(value) is datetime.date:
            found[f"{path}{key}"] = "local date"
        for part in {list: value, dict: [value]}.get(type(value), []):
            if isinstance(part, (str, int)):
                words = "array of strings" if isinstance(part, str) else "array of integers"
                found[f"{path}{key}"] = words
            else:
                types_in(part, f"{path}{key}.", found)


def try_sheet_page(bench, tree):
    """Every key that the sheets of the examples have, with its type, and no other."""
    real, documented = {}, {}
    sheets = ("first.candle first", "tide-line.candle december-pour", "metric.candle hedge-bank",
              "sea-lavender.candle sea-lavender", "winter-fair.candle winter-fair",
              "market.candle saturday-market", "doubts.candle half-tide",
              "leftovers.candle slack-water")
    for sheet in sheets:
        output, _ = bench.run(f"waxwright sheet examples/{sheet} --as toml 2> .errors")
        types_in(tomllib.loads(output), "", real)
    page = read(tree / "docs/toml-sheet.md")
    for heading in re.findall(r"^##+ (.+)$", page, re.M):
        path = "" if heading == "The sheet" else heading.strip("`[]") + "."
        for cells in rows_of(section_of(page, heading)):
            documented[path + cells[0].strip("`")] = cells[1]
    yield from differ("toml-sheet.md", [" ".join(pair) for pair in documented.items()],
                      [" ".join(pair) for pair in real.items()])


SUPPLIED = """use "examples/metric.candle"
oil told like field-geranium {
  supplier-label:      "GHS07", "Warning", "H317 May cause an allergic skin reaction.",
                       "P302+P352 IF ON SKIN: Wash with plenty of water."
  supplier-label-load: 8% of total
}
recipe told-hedge like hedge-bank { scent: told }
"""
MILD = """use "examples/pump-house.candle"
recipe mild like pump-house { load: 2% of total }
"""


def try_label_page(bench, tree):
    """The same of labels: every key that those of some candles have, and no other."""
    (bench.folder / "told.candle").write_text(SUPPLIED, encoding="utf-8")
    (bench.folder / "mild.candle").write_text(MILD, encoding="utf-8")
    real, documented = {}, {}
    for label in ("examples/pump-house.candle pump-house-day", "told.candle told-hedge",
                  "mild.candle mild", "examples/tide-line.candle tide-line",
                  "examples/doubts.candle half-tide"):
        output, _ = bench.run(f"waxwright label {label} --as toml 2> .errors")
        types_in(tomllib.loads(output), "", real)
    page = read(tree / "docs/label-toml.md")
    for heading in re.findall(r"^##+ (.+)$", page, re.M):
        path = "" if heading == "The file" else heading.strip("`[]") + "."
        for cells in rows_of(section_of(page, heading)):
            documented[path + cells[0].strip("`")] = cells[1]
    yield from differ("label-toml.md", [" ".join(pair) for pair in documented.items()],
                      [" ".join(pair) for pair in real.items()])


def try_comparison_page(tree):
    """Everything that a comparison looks at, by the name that programs get."""
    real = re.findall(r'(?m)^ASPECT\(\w+, "([^"]+)"', read(tree / "compiler/compare/aspects.def"))
    page = read(tree / "docs/comparison-json.md")
    documented = [cells[0].strip("`") for cells in rows_of(section_of(page, "What it is about"))]
    yield from differ("comparison-json.md", documented, real)


def try_commands(bench, tree):
    page = read(tree / "docs/commands.md")
    documented, real = [], []
    names = bench.run("waxwright --help")[0].partition("Subcommands:")[2]
    for command in re.findall(r"^  (\w+) +", names, re.M):
        text, _ = bench.run(f"waxwright {command} --help")
        options = set(re.findall(r"^  (-[-\w]+)", text, re.M)) - {"-h"}
        real += [command, *(f"{command} {option}" for option in options)]
        section = section_of(page, command)
        documented += [command] if section else []
        rows = {cells[0].strip("`").split()[0] for cells in rows_of(section)}
        documented += [f"{command} {option}" for option in rows if option[0] == "-"]
    yield from differ("commands.md", documented, real)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()
    waxwright, tree = options.waxwright.resolve(), options.tree.resolve()

    pages = [tree / "README.md", tree / "DEVELOPERS.md", *sorted((tree / "docs").rglob("*.md"))]
    faults, blocks = [], 0
    for page in pages:
        try:
            if os.environ.get("REBLESS") == "1":
                rebless(page, waxwright, tree)
            found, count = try_page(page, waxwright, tree)
            faults += found + list(try_links(page))
            blocks += count
        except (Fault, OSError) as fault:
            faults.append(f"{page}: {fault}")
    if blocks < 30:
        faults.append(f"only {blocks} blocks were found: is this the right tree?")
    for example in sorted((tree / "examples").rglob("*.candle")):
        faults += try_wicks(example, read(example))
    bench = Bench(waxwright, tree)
    faults += [*try_language(bench, tree), *try_rules(tree), *try_sheet_page(bench, tree),
               *try_label_page(bench, tree),
               *try_comparison_page(tree), *try_commands(bench, tree)]
    for fault in faults:
        print(fault)
    print(f"{len(pages)} pages, {blocks} blocks, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
