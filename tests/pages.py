#!/usr/bin/env python3
"""Holds the rules' pages together with the registry, the golden cases and the program.

    pages.py --waxwright BIN --tree TREE

- Every rule has a page, docs/rules/NAME.md, a golden case in which it is found and one, `pass_`, in
  which it isn't. No page, no golden case and no finding is of a rule that does not exist.
- A page's head names the rule and its severity, and its parts come in their order. An error's page
  offers no `allow`; the others' pages do, and the line that they give works.
- The wrong example is found fault with by its rule alone, notes included, and the right one by
  nothing. A comment `<!-- also: RULE … -->` names what else is found, exactly.
- `waxwright why RULE` prints the page, byte for byte, and `waxwright why` lists all rules.

How blocks are marked stands in DEVELOPERS.md, under "Documents". Exit status 0: all is well; 1:
something is not, a line each; 2: a wrong call.
"""

import argparse
import re
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import docs
import golden

RULE = re.compile(r'^(?:RULE|LIMIT)\(\w+,\s*"([^"]+)",\s*(\w+),\s*(\w+),[\w, ]+"([^"]+)"\)', re.M)
HEAD = re.compile(r"\A# ([a-z0-9-]+) \((error|warning|note)\)\n\n\S")
PARTS = ["Why it matters", "What to do", "Wrong", "Right", "May it be allowed?",
         "Where this is from"]

# Notes about what only a whole candle has, which was burned and cured. An example is not one, and
# is not asked for it, except on the pages of these rules.
OF_A_WHOLE_CANDLE = {"untested", "no-trim", "cure-short"}


@dataclass
class Rule:
    name: str
    family: str
    severity: str
    about: str


def rules_of(tree):
    text = docs.read(tree / "compiler/findings/rules.def")
    return {found[0]: Rule(*found) for found in RULE.findall(text)}


def pages_of(tree):
    return {path.stem: path for path in sorted((tree / "docs/rules").glob("*.md"))}


def try_names(rules, pages):
    for name in sorted(set(rules) - set(pages)):
        yield f"docs/rules/{name}.md: `{name}` has no page"
    for name in sorted(set(pages) - set(rules)):
        yield f"docs/rules/{name}.md: there is no rule `{name}`"


def try_golden(rules, tree):
    cases = [case for stage in golden.stages(tree / "tests/golden")
             for case in golden.cases_of(stage)]
    yield from golden.registry_problems(list(rules), cases)
    for case in cases:
        for name in {name.decode() for name in golden.FOUND.findall(case.expected() or b"")}:
            if name not in rules:
                yield f"{case}: finds `{name}`, and there is no such rule"
        # In `language` many cases are about one rule, `syntax`, and are named by the mistake.
        if case.stage.name in ("check", "model") and case.rule() not in rules:
            yield f"{case}: is named by a rule that does not exist"


def is_offered(rule, text):
    """True if the page says how the rule is allowed."""
    return f"allow {rule.name} because" in docs.section_of(text, "May it be allowed?")


def try_form(rule, text):
    head = HEAD.match(text)
    if not head or head.groups() != (rule.name, rule.severity):
        yield f"the head should be `# {rule.name} ({rule.severity})`, and the finding under it"
    prose = docs.prose_of(text)
    if re.findall(r"^## (.+)$", prose, re.M) != PARTS:
        yield f"its parts should be: {', '.join(PARTS)}"
    for part in PARTS:
        if part not in ("Wrong", "Right") and not docs.section_of(prose, part).strip():
            yield f"nothing stands under `{part}`"
    if rule.severity == "error" and is_offered(rule, text):
        yield "an error can't be allowed"
    elif rule.severity != "error" and not is_offered(rule, text) and "It can't be" not in prose:
        yield "it doesn't say how it is allowed, or that it can't be"
    if any(len(line) > 100 for line in prose.splitlines()):
        yield "a line is longer than 100 columns"


def examples_of(text):
    """The blocks under `Wrong` and under `Right`."""
    found, part = {"Wrong": [], "Right": []}, None
    blocks = iter(docs.blocks_of(text))
    inside = False
    for line in text.splitlines():
        if line.startswith("```"):
            if not inside and (block := next(blocks)).language == "candle" and part in found:
                found[part].append(block)
            inside = not inside
        elif not inside and line.startswith("## "):
            part = line[3:]
    return found


def try_example(rule, rules, text, part, block, bench):
    at = f"line {block.line}"
    wanted = set(block.directives.get("also", "").split())
    for name in sorted(wanted - set(rules)):
        yield f"{at}: `also` names `{name}`, and there is no such rule"
    if block.directives.get("wrong") != (rule.name if part == "Wrong" else None):
        yield f"{at}: this is not marked as the example under `{part}` is"
    if part == "Wrong":
        wanted.add(rule.name)
    _, _, report, status = docs.check_block(bench, block)
    severities = {name: severity for severity, name in docs.FINDING.findall(report)[::-1]}
    found = set(severities) - (OF_A_WHOLE_CANDLE - {rule.name})
    if found != wanted or status not in (0, 1):
        yield (f"{at}: should find {', '.join(sorted(wanted)) or 'nothing'}, "
               f"and nothing else:\n{report}")
    elif part == "Wrong" and severities[rule.name] != rule.severity:
        yield f"{at}: is found as {severities[rule.name]}, not {rule.severity}"
    elif part == "Wrong" and is_offered(rule, text):
        # The recipe stands last in these examples: a line more, and the finding is allowed.
        block.lines[-1:] = [f'  allow {rule.name} because "tried"', "}"]
        loud, notes, report, _ = docs.check_block(bench, block)
        if {rule.name, "syntax"} & (loud | notes):
            yield f"{at}: is not allowed by the line that the page gives:\n{report}"


def try_examples(rule, rules, text, waxwright, tree):
    bench = docs.Bench(waxwright, tree)
    with bench.keep:
        for part, blocks in examples_of(text).items():
            tried = [block for block in blocks if not docs.keep_beside(bench, block)]
            if len(tried) == 1:
                yield from try_example(rule, rules, text, part, tried[0], bench)
            else:
                yield f"there should be one example under `{part}`, not {len(tried)}"


def why(waxwright, *words):
    done = subprocess.run([waxwright, "why", *words], stdin=subprocess.DEVNULL, timeout=60,
                          capture_output=True)
    if done.returncode != 0 or done.stderr:
        return None
    return done.stdout


def try_list(rules, waxwright):
    printed = (why(waxwright) or b"").decode("utf-8")
    family, listed = "", []
    for line in printed.splitlines():
        row = re.fullmatch(r"  (\S+) +(\w+) +(.+)", line)
        if row:
            listed.append(Rule(row[1], family, row[2], row[3]))
        elif re.fullmatch(r"[a-z]+", line):
            family = line
    if listed != list(rules.values()):
        yield "`waxwright why` does not list the rules as rules.def does"


def faults_of(waxwright, tree):
    """All that is wrong; the pages one by one."""
    rules, pages = rules_of(tree), pages_of(tree)
    if len(rules) < 80:
        yield f"only {len(rules)} rules were found: is this the right tree?"
    yield from try_names(rules, pages)
    yield from try_golden(rules, tree)
    yield from try_list(rules, waxwright)
    for name in sorted(set(rules) & set(pages)):
        rule, text = rules[name], docs.read(pages[name])
        try:
            faults = [*try_form(rule, text), *try_examples(rule, rules, text, waxwright, tree)]
        except docs.Fault as fault:
            faults = [str(fault)]
        if why(waxwright, name) != pages[name].read_bytes():
            faults.append("`waxwright why` prints otherwise")
        yield from (f"docs/rules/{name}.md: {fault}" for fault in faults)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()
    tree = options.tree.resolve()
    faults = list(faults_of(options.waxwright.resolve(), tree))
    for fault in faults:
        print(fault)
    print(f"{len(pages_of(tree))} pages, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
