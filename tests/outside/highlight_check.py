#!/usr/bin/env python3
"""Holds the colours of editors against the compiler: real editors, on every recipe file of the tree.

    highlight_check.py --generator BIN --files FOLDER --tree TREE ENGINE...

BIN is waxwright-editor-files, FOLDER what it has written. ENGINE is one of vim, neovim, gtksourceview,
nano, textmate; see highlight_engines.py. Looked at, with each:
- every token of every example and of every file of the standard library is taken for what the
  compiler's own tree says it is;
- every word of every table is coloured as what it is;
- the odd lines of highlight_cases.py, which have every word of the grammar;
- the language specification of GtkSourceView is valid by its own schema (with that engine).
nano does not look ahead and has but eight colours, so that it is held to colours, and not where a
comment behind something has a text in it.
For textmate, npm fetches two packages. Exit status 0: all of it is so; 1: what is not is printed;
2: a wrong call, or an editor is not there; 77: with textmate alone, no npm or no registry answers.
"""

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import highlight_cases as cases
import highlight_engines as engines

PACKAGES = ["vscode-textmate@9.3.2", "vscode-oniguruma@2.0.1"]
SCHEMA = Path("/usr/share/gtksourceview-4/language-specs/language2.rng")


class Check:
    def __init__(self):
        self.passed = 0
        self.faults = []

    def compare(self, engine, case, classes, same):
        """Every byte of every token but blanks, one fault for a token."""
        self.true(f"{engine}: {case.name}: {len(classes)} bytes of {len(case.text)}",
                  len(classes) >= len(case.text))
        for which, begin, end in case.tokens:
            said = {classes[at] for at in range(begin, end) if case.text[at] not in b" \t\r"}
            wrong = {s for s in said if not same(which, s)}
            line = case.text.count(b"\n", 0, begin) + 1
            token = case.text[begin:end].decode("utf-8", "replace")
            self.true(f"{engine}: {case.name}:{line}: `{token}` is {which}, not "
                      f"{', '.join(map(str, wrong))}", not wrong)

    def true(self, what, is_so):
        if is_so:
            self.passed += 1
        else:
            self.faults.append(what)


def same_class(whole_texts):
    """A text of the compiler's has its escapes in it; the odd lines name them apart."""
    return lambda which, said: which == said or (whole_texts and (which, said) == ("Text", "Escape"))


def same_colour(table):
    colours = {row[0]: row[4] for row in table}

    def same(which, said):
        return said == colours["Text" if which == "Escape" else which]
    return same


def without_quoted_comments(case):
    """What nano can't do: a text within a comment that stands behind something."""
    def keeps(which, begin, end):
        if which != "Comment" or b'"' not in case.text[begin:end]:
            return True
        head = case.text[case.text.rfind(b"\n", 0, begin) + 1:begin]
        return not head.strip()
    # Nor a text without an end, which is none to it.
    texts = [t for t in case.tokens if t[0] != "Text" or case.text[t[1]:t[2]].endswith(b'"')]
    return cases.Case(case.name, case.text, [t for t in texts if keeps(*t)])


def npm_modules(folder):
    """Fetches the engine into a folder; False, and why, where that can't be done."""
    if not shutil.which("npm"):
        return "there is no npm"
    done = subprocess.run(["npm", "install", "--prefix", folder, "--no-audit", "--no-fund",
                           "--no-package-lock", "--ignore-scripts", "--fetch-retries=1",
                           "--fetch-timeout=30000", *PACKAGES],
                          cwd=folder, capture_output=True, timeout=300)
    return None if done.returncode == 0 else done.stderr.decode("utf-8", "replace")[-600:]


def look(check, engine, options, paths, all_cases, modules):
    if engine == "textmate":
        found = engines.textmate(options.tree, options.files, paths, modules)
    else:
        found = getattr(engines, engine)(options.tree, options.files, paths)
    for case, path, classes in zip(all_cases, paths, found):
        if engine == "nano":
            table = engines.class_table(options.tree)
            check.compare(engine, without_quoted_comments(case), classes, same_colour(table))
        elif engine == "gtksourceview":
            shown = {row[0] for row in engines.class_table(options.tree) if row[3]}
            tokens = [(w if w in shown else None, b, e) for w, b, e in case.tokens]
            check.compare(engine, cases.Case(case.name, case.text, tokens), classes,
                          same_class(case.name != "odd lines"))
        else:
            check.compare(engine, case, classes, same_class(case.name != "odd lines"))


def with_debians_python():
    """Two engines want modules of Debian's, which another Python on the machine doesn't have."""
    debians = "/usr/bin/python3"
    try:
        import gi
        import pyte
    except ImportError:
        if Path(sys.executable).resolve() != Path(debians).resolve() and Path(debians).exists():
            os.execv(debians, [debians, *sys.argv])


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--generator", required=True, metavar="BIN")
    parser.add_argument("--files", required=True, type=lambda p: Path(p).resolve())
    parser.add_argument("--tree", required=True, type=Path)
    parser.add_argument("engines", nargs="+", choices=["vim", "neovim", "gtksourceview", "nano",
                                                       "textmate"], metavar="ENGINE")
    options = parser.parse_args()
    if {"nano", "gtksourceview"} & set(options.engines):
        with_debians_python()
    check = Check()
    recipes = sorted([*(options.tree / "examples").glob("*.candle"),
                      *(options.tree / "stdlib").glob("*.candle")])
    all_cases = [cases.odd_case(), *cases.table_cases(options.generator),
                 *cases.file_cases(options.generator, recipes)]
    left_out = cases.words_left_out(options.tree, all_cases[0])
    check.true(f"words of the grammar that no odd line has: {left_out}", not left_out)
    for case in all_cases[2:]:
        check.true(f"{case.name}: bytes {cases.uncoloured(case)[:5]} have no token",
                   not cases.uncoloured(case))
    with tempfile.TemporaryDirectory(prefix="waxwright-colours-") as folder:
        modules = Path(folder, "modules")
        modules.mkdir()
        if "textmate" in options.engines:
            why_not = npm_modules(str(modules))
            if why_not:
                print(f"SKIPPED: the TextMate grammar was looked at by no engine: {why_not}")
                return 77
        paths = []
        for number, case in enumerate(all_cases):
            paths.append(Path(folder, f"{number}.candle"))
            paths[-1].write_bytes(case.text)
        for engine in options.engines:
            before = check.passed, len(check.faults)
            look(check, engine, options, paths, all_cases, modules)
            print(f"{engine}: {check.passed - before[0]} passed, "
                  f"{len(check.faults) - before[1]} failed")
    if "gtksourceview" in options.engines:
        done = subprocess.run(["xmllint", "--noout", "--relaxng", str(SCHEMA),
                               str(options.files / "gtksourceview/candle.lang")],
                              capture_output=True)
        check.true(f"candle.lang is not valid: {done.stderr!r}", done.returncode == 0)
    for fault in check.faults[:60]:
        print(f"highlight: {fault}")
    print(f"highlight: {check.passed} passed, {len(check.faults)} failed")
    return 1 if check.faults or not check.passed else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, ImportError, RuntimeError, subprocess.SubprocessError) as error:
        print(f"highlight: {error}")
        sys.exit(2)
