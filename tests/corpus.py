#!/usr/bin/env python3
"""Checks faulty files as makers write them, and holds that each mistake is told once and no other.

    corpus.py --waxwright BIN [--corpus FOLDER] [--rules FILE] [CASE...]

Each file in corpus/FAMILY/ begins with a comment that says what a careful person finds in it,
written before the program was asked: `# finds: 6 missing-unit, 9 syntax` is one error or warning
of that rule on line 6 and one on line 9; a rule stands as often as it is found there. The comment
counts as line 1. Wording and columns are the golden cases' business. corpus/shed.candle is what
the files use; it must be in order.

Notes are not looked at, nor is what only says that something has not been tried yet (UNTRIED): a
file's own faults are the same before and after its first test burn.

With CASEs (`lexical`, `lexical/tabs`) only those are run. Exit status 0: all as expected; 1: some
are not; 2: a wrong call.
"""

import argparse
import os
import re
import subprocess
import sys
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

HERE = Path(__file__).resolve().parent
PATIENCE = 60  # seconds for one file
FEWEST = 150  # files
UNTRIED = {"untested", "end-not-tested", "test-stale"}
RULE_LINE = re.compile(r'^(?:RULE|LIMIT)\(\w+,\s*"([^"]+)",\s*\w+,\s*(\w+)', re.MULTILINE)
EXPECTED = re.compile(r"\A\ufeff?# finds: ([^\r\n]*)")
FOUND = re.compile(r"^(.+?):(\d+):\d+: (error|warning): .*\[([a-z0-9-]+)\]$")


def expectation(path, rules):
    """What the file's first line says, as (line, rule) with how often; or what is wrong with it."""
    said = EXPECTED.match(path.read_text(encoding="utf-8"))
    if not said:
        return None, "its first line does not say what it finds"
    expected = Counter()
    for entry in said.group(1).split(","):
        words = entry.split()
        if len(words) != 2 or not words[0].isdigit() or words[1] not in rules:
            return None, f"`{entry.strip()}` is no line and rule"
        expected[int(words[0]), words[1]] += 1
    return expected, None


def run(binary, path):
    """Exit status and findings of one file by itself."""
    done = subprocess.run([binary, "check", "--use-from", "..", path.name], cwd=path.parent, capture_output=True,
                          stdin=subprocess.DEVNULL, timeout=PATIENCE)
    found = Counter()
    other = []
    for line in done.stdout.decode("utf-8").split("\n"):
        match = FOUND.match(line)
        if match and match.group(4) not in UNTRIED:
            if match.group(1) == path.name:
                found[int(match.group(2)), match.group(4)] += 1
            else:
                other.append(line)
    if done.stderr:
        other.append(done.stderr.decode("utf-8", "replace"))
    return done.returncode, found, other


def told(difference):
    return ", ".join(f"{line} {rule}" for line, rule in sorted(difference.elements()))


def problems_of(binary, path, rules):
    expected, problem = expectation(path, rules)
    if problem:
        return [problem]
    status, found, other = run(binary, path)
    problems = [f"also says: {line}" for line in other]
    if expected - found:
        problems.append(f"hidden: {told(expected - found)}")
    if found - expected:
        problems.append(f"invented: {told(found - expected)}")
    wanted = int(any(rules[rule] == "error" for _, rule in expected))
    if status != wanted:
        problems.append(f"exits with {status}, and {wanted} is wanted")
    return problems


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--corpus", type=Path, default=HERE / "corpus", metavar="FOLDER")
    parser.add_argument("--rules", type=Path, metavar="FILE",
                        default=HERE.parent / "compiler" / "findings" / "rules.def")
    parser.add_argument("case", nargs="*", metavar="CASE")
    args = parser.parse_args()
    binary = str(Path(args.waxwright).resolve())
    if not os.access(binary, os.X_OK):
        parser.error(f"{args.waxwright} is no program")
    rules = dict(RULE_LINE.findall(args.rules.read_text(encoding="utf-8")))
    files = sorted(args.corpus.glob("*/*.candle"))
    bench = args.corpus / "shed.candle"
    failed = 0
    if args.case:
        files = [f for f in files
                 if {f.parent.name, f.stem, f"{f.parent.name}/{f.stem}"} & set(args.case)]
    elif len(files) < FEWEST:
        print(f"corpus: {len(files)} files, and {FEWEST} are wanted")
        failed += 1
    if not files:
        parser.error("no such case")
    status, found, other = run(binary, bench)
    if status or found or other:
        print(f"corpus: {bench.name} is not in order")
        failed += 1
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        for path, problems in zip(files, pool.map(lambda f: problems_of(binary, f, rules), files)):
            failed += bool(problems)
            for problem in problems:
                print(f"corpus: {path.parent.name}/{path.name}: {problem}")
    print(f"corpus: {len(files)} files, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
