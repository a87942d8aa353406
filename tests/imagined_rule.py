#!/usr/bin/env python3
"""What a new limit rule or step asks for: an imagined one is added to its table, and nothing else.

    imagined_rule.py --tree TREE --compiler CXX

The registry alone must not build: the table of limits wants to know how the rule is found, and the
table of what is told how it is told. With both, it builds; and the tests then want its page and its
golden cases. So nothing can be forgotten. A verb with a plain sentence builds from its line alone.

Exit status 0: all of that is asked for; 1: something isn't.
"""

import argparse
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

LINE = ('LIMIT(imagined_limit, "imagined-limit", heat, error, nothing, stove, most, yes, '
        '"a figure of the imagination is too much")\n')
FINDER = """
void add_checks_imagined_limit(const Inputs&, const Amounts&, const LimitInfo& self, LimitChecks& into) {
    add(into, self, 0, 1.0, 2.0);
}
"""
TELLER = """
void report_imagined_limit(const Model&, const Reckoning&, const LimitCheck&, Findings&) {}
"""
VERB = ('VERB(imagine, "imagine", "imagine", duration, stands, anywhere, each(20), "imagine 2 h", '
        '"think of it", "Think of it for {for}.", "Think {for}")\n')
VERBS = "compiler/model/verbs.def"
ASK_VERBS = ("compiler/model/schema.cpp", "compiler/model/steps.cpp", "compiler/reckon/heat_profile.cpp",
             "compiler/check/heat_order.cpp", "compiler/plan/steps.cpp", "compiler/plan/briefs.cpp",
             "compiler/plan/day.cpp")
RULES = "compiler/findings/rules.def"
TABLE = "compiler/reckon/limits.cpp"
FOUND = "compiler/reckon/limits_heat.cpp"
TOLD = "compiler/check/limit_reports.cpp"
FAMILY = "compiler/check/heat.cpp"


def compiles(compiler, flags, tree, *files):
    """Whether the files compile and, as far as the imagined names go, link."""
    objects = []
    for file in files:
        target = Path(tree) / (file.replace("/", "_") + ".o")
        done = subprocess.run([compiler, "-std=c++20", "-O0", "-Werror", *flags, "-Icompiler", "-I.",
                               "-c", file, "-o", str(target)], cwd=tree, capture_output=True,
                              text=True, check=False)
        if done.returncode:
            return False, done.stderr
        objects.append(str(target))
    names = subprocess.run(["nm", "-u", *objects], capture_output=True, text=True, check=True).stdout
    known = subprocess.run(["nm", "--defined-only", *objects], capture_output=True, text=True,
                           check=True).stdout
    wanted = {word for line in names.splitlines() for word in line.split() if "imagined" in word}
    missing = [word for word in wanted if word not in known]
    return not missing, " ".join(missing)


def main():
    parser = argparse.ArgumentParser(description="what a new limit rule asks for")
    parser.add_argument("--tree", required=True)
    parser.add_argument("--compiler", required=True)
    args = parser.parse_args()
    failed = []
    with tempfile.TemporaryDirectory(prefix="waxwright-imagined-") as folder:
        tree = Path(folder)
        for part in ("compiler", "grammar"):
            shutil.copytree(Path(args.tree) / part, tree / part)
        rules = tree / RULES
        text = rules.read_text(encoding="utf-8")
        rules.write_text(text.replace("LIMIT(over_ceiling", LINE + "LIMIT(over_ceiling", 1),
                         encoding="utf-8")

        def expect(wanted, word, what, *files):
            good, said = compiles(args.compiler, [], tree, *files)
            if good != wanted or (word and word not in said):
                failed.append(f"{what}: {said[-400:] if said else 'it builds'}")

        verbs = tree / VERBS
        verbs.write_text(verbs.read_text(encoding="utf-8").replace("VERB(note,", VERB + "VERB(note,"),
                         encoding="utf-8")
        good, said = compiles(args.compiler, ["-Wall"], tree, *ASK_VERBS)
        if not good:
            failed.append(f"a verb's line alone does not build: {said[-400:]}")
        expect(False, "add_checks_imagined_limit", "no finder is asked for", TABLE, FOUND)
        expect(False, "report_imagined_limit", "no teller is asked for", TOLD, FAMILY)
        found = tree / FOUND
        text = found.read_text(encoding="utf-8")
        at = text.rindex("} // namespace waxwright")
        found.write_text(text[:at] + FINDER + text[at:], encoding="utf-8")
        family = tree / FAMILY
        text = family.read_text(encoding="utf-8")
        at = text.rindex("} // namespace waxwright")
        family.write_text(text[:at] + TELLER + text[at:], encoding="utf-8")
        expect(True, "", "three files are not enough", TABLE, FOUND, TOLD, FAMILY)

        golden = subprocess.run([sys.executable, str(Path(args.tree) / "tests/golden.py"),
                                 "--waxwright", "/bin/true", "--rules", str(rules)],
                                capture_output=True, text=True, check=False)
        for words in ("no case in which [imagined-limit] is found",
                      "no case pass_imagined-limit.candle"):
            if words not in golden.stdout:
                failed.append(f"the golden cases don't ask: {words}")
    for each in failed:
        print("FAILED:", each)
    print(f"{5 - len(failed)} passed, {len(failed)} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
