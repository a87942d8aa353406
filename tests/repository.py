#!/usr/bin/env python3
"""docs/repository.md, tried for real: what it gives as a hook, a job and a workflow is taken from
the page as it stands, and run in a repository of our own.

    repository.py --waxwright BIN --tree TREE

Exit status 0: all is so; 1: what is not is printed, a line each; 2: a wrong call.
"""

import argparse
import json
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

RECIPE = """\
use waxes, oils, vessels, wicks

recipe first {
  makes: 6 tin-8oz
  wax:   soy
  load:  6% of wax
  scent: lavender
  wick:  cotton-braid-large
  steps {
    melt to 75 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 60 °C
  }
}
"""
SHELF = 'vessel jar {\n  fill: 200 ml\n  of:   tin\n}\n'
USER = 'use "../shelf.candle"\n' + RECIPE.replace("6 tin-8oz", "6 jar")
WRONG = RECIPE.replace("6% of wax", "6%")
UNTIDY = RECIPE.replace("  wax:   soy", "  wax: soy")


def blocks(page):
    """The blocks of the page that say that they are tried, by name."""
    return dict(re.findall(r"^<!-- tried: ([\w-]+) -->\n```\w+\n(.*?)^```$", page, re.M | re.S))


class Repository:
    def __init__(self, folder, waxwright):
        self.folder, self.faults, self.passed = folder / "my recipes", [], 0
        self.folder.mkdir()
        programs = folder / "programs"
        programs.mkdir()
        (programs / "waxwright").symlink_to(waxwright)
        self.scratch = folder / "scratch"
        self.scratch.mkdir()
        self.env = {**os.environ, "PATH": f"{programs}:{os.environ['PATH']}", "HOME": str(folder),
                    "GIT_CONFIG_NOSYSTEM": "1", "TMPDIR": str(self.scratch),
                    "GIT_CEILING_DIRECTORIES": str(folder)}
        for name in ("AUTHOR", "COMMITTER"):
            self.env |= {f"GIT_{name}_NAME": "a maker", f"GIT_{name}_EMAIL": "a@example.invalid"}

    def run(self, *words, cwd=None):
        return subprocess.run(words, cwd=cwd or self.folder, env=self.env, capture_output=True,
                              text=True, check=False, timeout=60)

    def write(self, name, text):
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    def true(self, what, holds):
        self.passed += 1 if holds else 0
        self.faults += [] if holds else [what]

    def commits(self, what, good, *words, said="", cwd=None):
        """Commits what is staged; whether that goes through, and what is said if it doesn't."""
        before = self.run("git", "rev-parse", "-q", "--verify", "HEAD").stdout
        done = self.run("git", "commit", "-q", "-m", what, *words, cwd=cwd)
        after = self.run("git", "rev-parse", "-q", "--verify", "HEAD").stdout
        self.true(f"{what}: {'refused' if good else 'let through'}: {done.stderr}",
                  (before != after) == good and (done.returncode == 0) == good)
        self.true(f"{what}: says {done.stderr!r}", said in done.stderr)
        self.true(f"{what}: leaves {os.listdir(self.scratch)}", not os.listdir(self.scratch))


def try_hook(t, tried):
    t.run("git", "init", "-q", "-b", "main")
    t.write("hooks/pre-commit", tried["hook"])
    done = t.run("sh", "-euc", tried["set-hook"])
    t.true(f"the hook is set: {done.stderr}", done.returncode == 0)
    t.run("git", "add", "hooks")
    t.commits("no recipe yet", True)
    t.write("shelf.candle", SHELF)
    t.write("winter scents/fir & \"frost\".candle", USER)
    t.write("-first.candle", RECIPE)
    t.run("git", "add", "-A")
    t.commits("clean, with odd names and a used file", True)

    t.write("-first.candle", WRONG)
    t.run("git", "add", "-A")
    t.commits("an error", False, said="[missing-basis]")
    t.write("-first.candle", RECIPE)  # mended in the folder, but not staged
    t.commits("staged bad, folder good", False, said="-first.candle:")
    t.write("-first.candle", RECIPE.replace("stir 2 min", "stir 3 min"))
    t.run("git", "add", "-A")
    t.write("-first.candle", WRONG)  # the other way round
    t.write("new.candle", WRONG)  # not staged at all
    t.commits("staged good, folder bad", True)
    t.write("-first.candle", RECIPE)
    (t.folder / "new.candle").unlink()

    t.write("-first.candle", UNTIDY)
    t.run("git", "add", "-A")
    t.commits("untidy", False, said="waxwright tidy")
    t.write("-first.candle", RECIPE)
    t.run("git", "add", "-A")
    t.run("git", "rm", "-q", "--cached", "shelf.candle")
    t.commits("the used file is not in it", False, said="[use-missing]")
    t.run("git", "reset", "-q", "--hard")

    t.write("shelf.candle", SHELF.replace("200", "210"))
    t.write("-first.candle", WRONG)
    t.run("git", "add", "-A")
    t.commits("one file of two, the other is wrong", True, "shelf.candle")
    t.commits("from a folder below", False, said="[missing-basis]", cwd=t.folder / "hooks")
    t.run("git", "reset", "-q", "--hard")
    t.run("git", "worktree", "add", "-q", "-b", "other", "../other")
    other = t.folder.parent / "other"
    (other / "-first.candle").write_text(WRONG, encoding="utf-8")
    done = t.run("git", "commit", "-qam", "wrong", cwd=other)
    t.true("in a second worktree", done.returncode != 0 and "[missing-basis]" in done.stderr)


def try_job(t, tried):
    t.write("check-recipes.sh", tried["job"])
    done = t.run("sh", "check-recipes.sh")
    t.true(f"the job, clean: {done.stdout}{done.stderr}", done.returncode == 0)
    log = json.loads((t.folder / "findings.sarif").read_text(encoding="utf-8"))
    t.true("SARIF of a clean run", log["version"] == "2.1.0")
    for what, text in (("an error", WRONG), ("a warning", RECIPE.replace("6% of wax", "9.5% of wax")),
                       ("untidy", UNTIDY)):
        t.write("-first.candle", text)
        done = t.run("sh", "check-recipes.sh")
        t.true(f"the job, {what}: {done.stdout}{done.stderr}", done.returncode == 1)
    t.write("-first.candle", WRONG)
    t.run("sh", "check-recipes.sh")
    log = json.loads((t.folder / "findings.sarif").read_text(encoding="utf-8"))
    found = [result["ruleId"] for result in log["runs"][0]["results"]]
    t.true(f"SARIF has the error: {found}", "missing-basis" in found)
    changed = tried["job"].replace("--warnings-as-errors .",
                                   "--warnings-as-errors --changed-since main .")
    t.true("the line for --changed-since", changed != tried["job"])
    t.write("check-recipes.sh", changed)
    done = t.run("sh", "check-recipes.sh")
    t.true(f"with --changed-since: {done.stdout}",
           done.returncode == 1 and "not looked at, with no change since `main`: 2" in done.stdout)


def try_workflow(t, tried):
    """The steps run what the page has, and hand on the file that the job writes."""
    text = tried["workflow"]
    t.true("it runs the job", "- run: sh check-recipes.sh\n" in text)
    t.true("it hands on what the job writes", "sarif_file: findings.sarif" in text
           and "> findings.sarif" in tried["job"])
    try:
        import yaml
    except ImportError:
        return
    steps = yaml.safe_load(text)["jobs"]["check"]["steps"]
    t.true("each step does one thing", all(("run" in step) != ("uses" in step) for step in steps))


def try_install(t, tried, tree):
    """The commands are those that the test of the package runs, with a folder of its own."""
    script = (tree / "tests/package.py").read_text(encoding="utf-8")
    for name in ("install", "uninstall", "package"):
        words = [f'"{w}"' for w in tried[name].split() if w != "build"]
        at = [script.find(word) for word in words]
        t.true(f"{name}: {tried[name]}", -1 not in at)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()
    tree = options.tree.resolve()
    tried = blocks((tree / "docs/repository.md").read_text(encoding="utf-8"))
    with tempfile.TemporaryDirectory(prefix="waxwright-repository-") as folder:
        t = Repository(Path(folder).resolve(), options.waxwright.resolve())
        try_hook(t, tried)
        try_job(t, tried)
        try_workflow(t, tried)
        try_install(t, tried, tree)
    for fault in t.faults:
        print(f"repository: {fault}")
    print(f"repository: {t.passed} passed, {len(t.faults)} failed")
    return 1 if t.faults or not t.passed else 0


if __name__ == "__main__":
    sys.exit(main())
