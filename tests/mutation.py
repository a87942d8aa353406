#!/usr/bin/env python3
"""Breaks one token at a time in the examples and holds that the program finds it, there.

    mutation.py --waxwright BIN --tree FOLDER [--all] [--seed N] [--list]

A mutant is an example with one token changed. Only changes that are a fault whatever the rest of
the file says are made; what they are is told by the kind of token, never by asking the program:

- an opening or closing brace, a quote, the colon of a property, a `=` of a let taken away;
- a kind, key, verb, joining word or unit misspelt (`qz` put behind it, which makes no word);
- a unit turned into one of another dimension;
- a name where it is used misspelt;
- a comma, an operator or a bracket that can't stand there put in front of a value; a key doubled,
  swapped with its colon, a number doubled;
- a line of junk put between two lines.

Each mutant must have an error on the changed line or on the line behind it, and no error on any
other line that the change has nothing to do with. A lost brace or quote may be told where the
block ends instead, but once. Comments are not touched.

Without --all every mutant has the same chance to be among MANY, by the seed. Exit status 0: all
found; 1: some not; 2: a wrong call.
"""

import argparse
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

MANY = 1500  # mutants of a run without --all
BATCH = 100  # mutants a process checks
PATIENCE = 300  # seconds for one process
FOUND = re.compile(r"^m(\d+)\.candle:(\d+):\d+: (error|warning): .*\[([a-z0-9-]+)\]$")
TOKEN = re.compile(r"""(?P<comment>\#.*) | (?P<text>"(?:\\.|[^"\\])*") |
    (?P<date>\d{4}-\d\d-\d\d(?:[ T]\d\d:\d\d)?) | (?P<number>\d+/\d+|\d+(?:\.\d+)?) |
    (?P<degree>[°][CF]|[CF]°|[CF](?![\w-])) | (?P<word>[A-Za-z][\w-]*) | (?P<mark>\S)""",
                   re.VERBOSE)
KINDS = {"wax", "oil", "substance", "additive", "vessel", "wick", "pot", "scale", "extra",
         "recipe", "batch", "stock", "test-burn", "maker"}
VERBS = {"wipe", "set", "warm", "melt", "hold", "off", "add", "stir", "cool", "pour", "leave",
         "poke", "second", "smooth", "trim", "lid", "label", "cure", "note"}
JOINING = {"to", "of", "at", "for", "over", "with", "in-room", "across", "deep"}
OTHER = {"mm": "g", "cm": "g", "g": "mm", "kg": "mm", "mg": "mm", "lb": "mm", "oz": "mm",
         "ml": "mm", "l": "mm", "cl": "mm", "min": "mm", "h": "mm", "days": "mm", "weeks": "mm",
         "°C": "mm", "°F": "mm", "kW": "mm", "in": "g"}
JUNK = ["§§", "what is this {", "= 5", "12 g 3", ", ,", "%% of wax"]


class Token:
    def __init__(self, kind, text, line, begin):
        self.kind, self.text, self.line, self.begin = kind, text, line, begin
        self.end = begin + len(text)


def tokens_of(lines):
    """Each line's tokens, comments left out. No text goes over lines."""
    for number, line in enumerate(lines):
        yield [Token(m.lastgroup, m.group(), number, m.start()) for m in TOKEN.finditer(line)
               if m.lastgroup != "comment"]


class Mutant:
    """`lines` as changed; `at` is the changed line, from 1; `loose`: a block or text has lost its
    end, so what follows may be told; `names`: words whose lines may be told as well."""

    def __init__(self, file, what, lines, at, loose=False, names=()):
        self.file, self.what, self.lines, self.at = file, what, lines, at
        self.loose, self.names = loose, set(names)


def replaced(lines, token, text):
    line = lines[token.line]
    return (lines[:token.line] + [line[:token.begin] + text + line[token.end:]]
            + lines[token.line + 1:])


def mutants_of(file, lines):
    """All mutants of one file."""
    steps = False  # within `steps {`
    depth = 0
    for number, tokens in enumerate(tokens_of(lines)):
        def mutant(what, token, text, **more):
            return Mutant(file, f"{number + 1}: {what} `{token.text}`",
                          replaced(lines, token, text), number + 1, **more)
        if not tokens:
            continue
        first = tokens[0]
        is_key = len(tokens) > 1 and tokens[1].text == ":" and depth > 0
        head = depth == 0 and first.text in KINDS
        declared = tokens[1].text if head or first.text == "let" else None
        if depth > 0:  # junk on a line of its own, where any line is a member or a step
            junk = JUNK[number % len(JUNK)] if not steps else "§§ 12"
            if "{" not in junk:
                yield Mutant(file, f"{number + 1}: junk line `{junk}`",
                             lines[:number] + [junk] + lines[number:], number + 1)
        for index, token in enumerate(tokens):
            before = tokens[index - 1] if index else None
            behind = tokens[index + 1] if index + 1 < len(tokens) else None
            if token.text in "{}" and token.kind == "mark":
                yield mutant("lost", token, "", loose=True)
                if token.text == "}":
                    yield mutant("doubled", token, "} }", loose=True)
            elif token.kind == "text":
                yield mutant("lost end of", token, token.text[:-1], loose=True)
                yield mutant("lost start of", token, token.text[1:], loose=True)
                yield mutant("single quotes for", token, "'" + token.text[1:-1] + "'")
            elif token.text == ":" and index == 1 and is_key:
                yield mutant("lost", token, " ")
                yield mutant("equals for", token, "=")
                yield mutant("doubled", token, ": :")
            elif token.text == "=" and first.text == "let":
                yield mutant("lost", token, " ", names=[declared])
            elif index == 0 and head:
                yield mutant("misspelt kind", token, token.text + "qz")
            elif index == 0 and is_key:
                yield mutant("misspelt key", token, token.text + "qz")
                yield mutant("key swapped with its colon", token, ": " + token.text)
            elif index == 0 and steps and token.text in VERBS:
                yield mutant("misspelt verb", token, token.text + "qz")
            elif token.text in JOINING and index and behind and token.kind == "word":
                yield mutant("misspelt joining word", token, token.text + "qz")
            elif token.text in OTHER and before and before.kind == "number":
                yield mutant("misspelt unit", token, token.text + "qz")
                if not (behind and behind.text in "/+*-") and first.text not in ("sold", "left"):
                    yield mutant("another unit for", token, OTHER[token.text])
            elif token.kind == "number" and is_key or token.kind == "number" and steps:
                yield mutant("comma in front of", token, "," + token.text)
                yield mutant("decimal comma in", token, token.text.split(".")[0] + ",5")
                yield mutant("junk behind", token, token.text + " ~")
        # Where the braces stand from the next line on.
        for token in tokens:
            if token.kind == "mark" and token.text == "{":
                depth += 1
                steps = steps or first.text == "steps"
            elif token.kind == "mark" and token.text == "}":
                depth -= 1
                steps = steps and depth > 1


def problems_of(mutant, found):
    """What is wrong with the findings of a mutant: (line, severity, rule)."""
    errors = [(line, rule) for line, severity, rule in found if severity == "error"]
    if not errors:
        return "is not found"
    here = [line for line, _ in errors if mutant.at <= line <= mutant.at + 1]
    if mutant.loose:
        # One finding, here or where the block ends; a text that lost its end is on its line.
        after = [line for line, _ in errors if line >= mutant.at]
        return None if after and len(errors) <= 2 else f"is told {len(errors)} times: {errors}"
    if not here:
        return f"is told elsewhere: {errors}"
    strange = [(line, rule) for line, rule in errors if not mutant.at <= line <= mutant.at + 1
               and not any(name in mutant.lines[line - 1] for name in mutant.names)]
    if strange:
        return f"also tells {strange}"
    if len(errors) > 2:
        return f"is told {len(errors)} times: {errors}"
    return None


def check(binary, folder, mutants):
    """The findings of each, from one process."""
    names = []
    for index, mutant in enumerate(mutants):
        names.append(f"m{index}.candle")
        (folder / names[-1]).write_text("\n".join(mutant.lines) + "\n", encoding="utf-8")
    done = subprocess.run([binary, "check", *names], cwd=folder, capture_output=True,
                          stdin=subprocess.DEVNULL, timeout=PATIENCE)
    found = [[] for _ in mutants]
    for line in done.stdout.decode("utf-8").split("\n"):
        match = FOUND.match(line)
        if match:
            found[int(match.group(1))].append((int(match.group(2)), match.group(3),
                                               match.group(4)))
    return done, found


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--tree", required=True, type=Path, metavar="FOLDER")
    parser.add_argument("--all", action="store_true", help="all mutants, however long it takes")
    parser.add_argument("--seed", type=int, default=20261205)
    parser.add_argument("--list", action="store_true", help="say which mutants there are")
    options = parser.parse_args()
    binary = str(Path(options.waxwright).resolve())
    if not os.access(binary, os.X_OK):
        parser.error(f"{options.waxwright} is no program")
    mutants = []
    examples = sorted((options.tree / "examples").glob("*.candle"))
    for path in examples:
        mutants += mutants_of(path.name, path.read_text(encoding="utf-8").split("\n")[:-1])
    whole = len(mutants)
    if options.list:
        for mutant in mutants:
            print(f"{mutant.file}:{mutant.what}")
        return 0
    if not options.all and whole > MANY:
        mutants = random.Random(options.seed).sample(mutants, MANY)
    failed = 0
    with tempfile.TemporaryDirectory(prefix="waxwright-mutation-") as name:
        folder = Path(name)
        for path in examples:
            shutil.copy(path, folder)
        for start in range(0, len(mutants), BATCH):
            part = mutants[start:start + BATCH]
            done, found = check(binary, folder, part)
            if done.returncode != 1 or done.stderr:
                failed += 1
                print(f"mutation: exit status {done.returncode}: {done.stderr.decode()[:500]}")
            for mutant, findings in zip(part, found):
                problem = problems_of(mutant, findings)
                if problem:
                    failed += 1
                    print(f"mutation: {mutant.file}:{mutant.what} {problem}")
            # One of each batch by itself: the exit status is its own.
            if subprocess.run([binary, "check", "m0.candle"], cwd=folder, capture_output=True,
                              stdin=subprocess.DEVNULL, timeout=PATIENCE).returncode != 1:
                failed += 1
                print(f"mutation: {part[0].file}:{part[0].what} does not exit with 1")
    print(f"mutation: {len(mutants)} of {whole} mutants, {failed} failed")
    return 1 if failed or not mutants else 0


if __name__ == "__main__":
    sys.exit(main())
