#!/usr/bin/env python3
"""Runs the golden cases and holds that every rule has its two.

    golden.py --waxwright BIN [--golden FOLDER] [--rules FILE] [CASE...]

A case is golden/STAGE/CASE.candle with CASE.expected beside it, or, where it needs several files,
a folder golden/STAGE/CASE/ with main.candle in it and CASE.expected beside the folder. What
several cases use is in golden/common/, which is no stage. `BIN check --notes --use-from ..` runs in the stage's
folder, so that file names come out short, and its standard output must be the .expected file,
byte for byte. In the stage `mend` it is `BIN check --mend` on a copy, and in the stage `tidy` it is
`BIN tidy`, and behind what it prints the .expected file has what the copy is then. Tidied again, it
stays as it is. A case whose name begins `fail_` must exit with 1 and all others with 0.

A case is named by what it does and the rule's name: fail_, warn_ or note_ where the rule finds
something, pass_ where it doesn't, and `fail_load-over-limit`; more behind that after a `_`.
Every rule of rules.def must be found by some case, and have a pass_ case in which it isn't.

REBLESS=1 in the environment writes the .expected files anew: read what changed before you commit
it. With CASEs named (`fail_syntax`, `model/fail_syntax`, or `model` for a whole stage) only those
are run, and the registry is not looked at.

Exit status 0: all passed; 1: something did not; 2: a wrong call.
"""

import argparse
import difflib
import os
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

HERE = Path(__file__).resolve().parent
SHARED = "common"
MENDED = "mend"  # the stages whose cases are written to
TIDIED = "tidy"
RULE_LINE = re.compile(r'^(?:RULE|LIMIT)\(\w+,\s*"([^"]+)"', re.MULTILINE)
DOUBTED_LINE = re.compile(r'^LIMIT\(\w+,\s*"([^"]+)".*, yes,', re.MULTILINE)
FOUND = re.compile(rb"\[([a-z0-9-]+)\]$", re.MULTILINE)  # ends a finding's first line
PREFIXES = ("fail", "warn", "note", "pass")
PATIENCE = 60  # seconds for one case


class Case:
    def __init__(self, stage, name, file):
        self.stage = stage  # Path of the folder it is run in
        self.name = name
        self.file = file  # as given to the program
        self.expected_file = stage / f"{name}.expected"

    def __str__(self):
        return f"{self.stage.name}/{self.name}"

    def expected(self):
        return self.expected_file.read_bytes() if self.expected_file.is_file() else None

    def rule(self):
        """`load-over-limit` of `fail_load-over-limit_of-total`."""
        parts = self.name.split("_")
        return parts[1] if len(parts) > 1 and parts[0] in PREFIXES else ""


def stages(golden):
    return [f for f in sorted(golden.iterdir()) if f.is_dir() and f.name != SHARED]


def cases_of(stage):
    for entry in sorted(stage.iterdir()):
        if entry.is_dir() and (entry / "main.candle").is_file():
            yield Case(stage, entry.name, f"{entry.name}/main.candle")
        elif entry.suffix == ".candle":
            yield Case(stage, entry.stem, entry.name)


def strays(stage, cases):
    """Files that belong to no case."""
    names = {case.name for case in cases}
    for entry in sorted(stage.iterdir()):
        where = f"{stage.name}/{entry.name}"
        if entry.is_dir():
            if entry.name not in names:
                yield f"{where}/: a folder without main.candle"
        elif entry.suffix == ".expected":
            if entry.stem not in names:
                yield f"{where}: an .expected without a case"
        elif entry.suffix != ".candle":
            yield f"{where}: neither a case nor its .expected"


def call(binary, words, folder, **more):
    return subprocess.run([binary, *words], cwd=folder, stdin=subprocess.DEVNULL, timeout=PATIENCE,
                          capture_output=True, **more)


def run_on_copy(binary, case, *words):
    """The same for a case of a stage that is written to, which works on a copy of the stage."""
    with tempfile.TemporaryDirectory(prefix="waxwright-golden-") as folder:
        copy = Path(folder) / case.stage.name
        shutil.copytree(case.stage, copy)
        done = call(binary, [*words, case.file], copy)
        text = (copy / case.file).read_bytes()
        other = [path.name for path in case.stage.iterdir() if path.name != case.file
                 and path.suffix == ".candle" and (copy / path.name).read_bytes() != path.read_bytes()]
        out, err = done.stdout, b"".join(b"%s was changed too\n" % name.encode() for name in other)
        if case.stage.name == TIDIED:
            out += done.stderr  # where findings go
            call(binary, [*words, case.file], copy)
            if (copy / case.file).read_bytes() != text:
                err += b"tidied again it is another\n"
        else:
            err += done.stderr
        return done.returncode, out + f"--- {case.file}\n".encode() + text, err


def run(binary, case):
    """Exit status, output and complaints of one case; the status is None if it took too long."""
    if case.stage.name == MENDED:
        return run_on_copy(binary, case, "check", "--mend")
    if case.stage.name == TIDIED:
        return run_on_copy(binary, case, "tidy")
    environment = {k: v for k, v in os.environ.items() if k not in ("NO_COLOR", "CLICOLOR_FORCE")}
    try:
        done = call(binary, ["check", "--notes", "--use-from", "..", case.file], case.stage,
                    env=environment)
        return done.returncode, done.stdout, done.stderr
    except subprocess.TimeoutExpired:
        return None, b"", b""


def difference(case, expected, got):
    def lines(data):
        text = data.decode("utf-8", "backslashreplace")
        # not splitlines(), which knows more line ends than there are
        return [line + "\n" for line in text.split("\n")]

    return "".join(difflib.unified_diff(lines(expected), lines(got),
                                        f"{case}.expected", f"{case} (as it is)"))


def problems_of(case, status, out, err, rebless):
    """What is wrong with one case's run, as texts to print."""
    if status is None:
        return [f"{case}: took over {PATIENCE} s"]
    problems = []
    wanted = 1 if case.name.startswith("fail_") else 0
    if status != wanted:
        problems.append(f"{case}: exit status {status}, and {wanted} is wanted")
    if err:
        problems.append(f"{case}: says on standard error: {err.decode('utf-8', 'replace')}")
    expected = case.expected()
    if rebless and not problems:
        if expected != out:
            case.expected_file.write_bytes(out)
            print(f"{case}: blessed")
    elif expected is None:
        problems.append(f"{case}: has no .expected; REBLESS=1 writes it")
    elif expected != out:
        problems.append(difference(case, expected, out).rstrip("\n"))
    return problems


def registry_problems(rules, cases):
    """What rules lack, and cases that do not do what their name says."""
    found = {case: set(FOUND.findall(case.expected() or b"")) for case in cases}
    anywhere = set().union(*found.values())
    passing = set()
    for case, names in found.items():
        rule, verdict = case.rule(), case.name.split("_")[0]
        if rule not in rules:
            continue
        if verdict == "pass" and rule.encode() in names:
            yield f"{case}: its .expected has [{rule}]"
        elif verdict == "pass" and case.name == f"pass_{rule}":
            passing.add(rule)
        elif verdict != "pass" and rule.encode() not in names:
            yield f"{case}: its .expected does not have [{rule}]"
    for rule in rules:
        if rule.encode() not in anywhere:
            yield f"no case in which [{rule}] is found"
        if rule not in passing:
            yield f"no case pass_{rule}.candle in which [{rule}] is not found"


def doubt_problems(rules, cases):
    """Every limit that is told in doubt has a case in which only an end of a doubt breaks it."""
    told = b"".join(case.expected() or b"" for case in cases)
    return [f"no case in which an end of a doubt would be [{rule}]" for rule in rules
            if f"this would be `{rule}`".encode() not in told]


def main():
    parser = argparse.ArgumentParser(description="Runs the golden cases.")
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--golden", type=Path, default=HERE / "golden", metavar="FOLDER")
    parser.add_argument("--rules", type=Path, metavar="FILE",
                        default=HERE.parent / "compiler" / "findings" / "rules.def")
    parser.add_argument("case", nargs="*", metavar="CASE")
    args = parser.parse_args()
    binary = str(Path(args.waxwright).resolve())
    if not os.access(binary, os.X_OK):
        parser.error(f"{args.waxwright} is no program")
    rules = RULE_LINE.findall(args.rules.read_text(encoding="utf-8"))
    if not rules:
        parser.error(f"{args.rules} has no rules")

    cases, problems = [], []
    for stage in stages(args.golden):
        here = list(cases_of(stage))
        cases += here
        problems += strays(stage, here)
    if args.case:
        wanted = {name.rstrip("/") for name in args.case}
        cases = [case for case in cases if {case.name, str(case), case.stage.name} & wanted]
        problems = []
        if not cases:
            parser.error("no such case")

    rebless = os.environ.get("REBLESS") == "1"
    failed = 0
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        for case, ran in zip(cases, pool.map(lambda each: run(binary, each), cases)):
            told = problems_of(case, *ran, rebless)
            failed += bool(told)
            for problem in told:
                print(problem)
    if not args.case:
        doubted = DOUBTED_LINE.findall(args.rules.read_text(encoding="utf-8"))
        problems += doubt_problems(doubted, cases)
        problems += registry_problems(rules, [c for c in cases if c.stage.name not in (MENDED, TIDIED)])
    for problem in problems:
        print(problem)
    passed = len(cases) - failed
    failed += len(problems)  # what is missing is a failure as well
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not cases else 0


if __name__ == "__main__":
    sys.exit(main())
