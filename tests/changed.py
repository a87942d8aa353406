#!/usr/bin/env python3
"""`check --changed-since` with git for real.

    changed.py --waxwright BIN [--only PART]

Each test gets a repository of its own:
shelf.candle is used by recipes/tide.candle; recipes/set.candle uses tide.candle; alone.candle uses
neither. Exit status 0: all passed; 1: something did not, a line each; 2: a wrong call.
"""

import argparse
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import traceback
from pathlib import Path

from commands import RECIPE, SHELF, Test

IDENTITY = ["-c", "user.name=a maker", "-c", "user.email=maker@example.invalid",
            "-c", "commit.gpgsign=false", "-c", "init.defaultBranch=main"]
TIDE = 'use "../shelf.candle"\n' + RECIPE.format(name="tide", title="Tide", load="6% of wax")
SET = 'use "tide.candle"\nbatch neap {\n  starts: 2026-12-05 09:00\n  lot: "N"\n  pour 6 tide\n}\n'
ALONE = SHELF + RECIPE.format(name="alone", title="Alone", load="6% of wax")
ALL = {"shelf.candle": SHELF, "recipes/tide.candle": TIDE, "recipes/set.candle": SET,
       "alone.candle": ALONE}
NOTHING = r"\Anothing to check: no \.candle file has changed since `HEAD`\n\Z"


class Repository(Test):
    """A test's folder as a repository with everything committed."""

    def __init__(self, binary, folder):
        super().__init__(binary, folder)
        # Nothing of this machine's git: neither settings nor a repository further up.
        home = self.folder.parent / (self.folder.name + ".home")
        home.mkdir()
        self.home = home
        self.env = {"HOME": str(home), "GIT_CONFIG_NOSYSTEM": "1",
                    "GIT_CEILING_DIRECTORIES": str(self.folder.parent)}
        self.git("init", "-q", "-b", "main")
        for name, text in ALL.items():
            self.write(name, text)
        self.commit("all")

    def git(self, *words, cwd=None):
        done = subprocess.run(["git", *IDENTITY, *words], cwd=cwd or self.folder, text=True,
                              env={**os.environ, **self.env}, capture_output=True, check=False)
        if done.returncode != 0:
            raise RuntimeError(f"git {' '.join(words)}: {done.stderr}")
        return done.stdout

    def commit(self, message):
        self.git("add", "-A")
        self.git("commit", "-q", "-m", message)

    def run(self, *words, env=None, **options):
        return super().run(*words, env={**self.env, **(env or {})}, **options)

    def checked(self, *words, since="HEAD", cwd=None):
        """The names of the files that were checked: each has a note, for it has no wick."""
        done = self.run("check", "--changed-since", since, "--as", "json", *words,
                        cwd=cwd or self.folder)
        self.true(f"exit status {done.status}: {done.err!r}", done.status in (0, 1))
        return {json.loads(line)["file"] for line in done.out.decode().splitlines()}

    def expect(self, wanted, *words, **options):
        got = self.checked(*words, **options)
        self.true(f"{sorted(got)} were checked, not {sorted(wanted)}", got == set(wanted))

    def append(self, name, text="# changed\n"):
        with open(self.folder / name, "a", encoding="utf-8") as file:
            file.write(text)


def nothing(t):
    t.call(0, "check", "--changed-since", "HEAD", out=NOTHING, err=False)
    t.call(0, "check", "--changed-since", "HEAD", ".", out=NOTHING, err=False)
    t.call(0, "check", "--changed-since", "HEAD", "--mend", out=NOTHING, err=False)
    t.call(0, "check", "--changed-since", "HEAD", "--as", "json", out=r"\A\Z", err=False)
    log = json.loads(t.call(0, "check", "--changed-since", "HEAD", "--as", "sarif", err=False).out)
    t.true("an empty log of SARIF", log["runs"][0]["results"] == [])
    t.write("notes.txt", "not a recipe")
    t.call(0, "check", "--changed-since", "HEAD", out=NOTHING, err=False)
    t.append("alone.candle")
    t.call(0, "check", "--changed-since", "HEAD", "recipes",
           out=r"\Anothing to check: of 2 files none has changed since `HEAD`, or uses one")


def each_way_to_change(t):
    t.append("alone.candle")  # in the folder
    t.expect({"alone.candle"})
    t.git("add", "alone.candle")  # staged
    t.expect({"alone.candle"})
    (t.folder / "alone.candle").write_text(ALONE)  # staged, and taken back in the folder
    t.expect({"alone.candle"})
    t.git("commit", "-q", "-m", "alone")
    t.git("checkout", "-q", ".")
    t.call(0, "check", "--changed-since", "HEAD", out=NOTHING, err=False)
    t.expect({"alone.candle"}, since="HEAD~1")  # committed
    t.write("new.candle", ALONE)  # new
    t.expect({"new.candle"})
    t.write(".gitignore", "new.candle\n")  # new, and ignored
    t.call(0, "check", "--changed-since", "HEAD", out=NOTHING, err=False)
    t.git("mv", "alone.candle", "other.candle")  # renamed
    t.expect({"other.candle"})


def those_that_use_it(t):
    t.append("recipes/set.candle")
    t.call(0, "check", "--changed-since", "HEAD", out="in 1 file; not looked at.*: 3\n")
    t.git("checkout", "-q", ".")
    t.append("recipes/tide.candle")
    t.call(0, "check", "--changed-since", "HEAD", out="in 2 files; not looked at.*: 2\n")
    t.git("checkout", "-q", ".")
    t.append("shelf.candle")
    done = t.call(0, "check", "--changed-since", "HEAD",
                  out=r"in 3 files; not looked at, with no change since `HEAD`: 1\n\Z", err=False)
    t.true("the recipe that uses the shelf", b"recipes/tide.candle:" in done.out)
    # Only among those that are named, though the shelf is none of them.
    t.call(0, "check", "--changed-since", "HEAD", "recipes/tide.candle", "alone.candle",
           "--use-from", ".", out=r"in 1 file; not looked at, with no change since `HEAD`: 1\n\Z")
    # A change that breaks those that use it is found there.
    t.write("shelf.candle", SHELF.replace("max-load: 10%", "max-load: 5%"))
    t.call(1, "check", "--changed-since", "HEAD", out=r"recipes/tide\.candle:.*\[load-over-limit\]")


def deleted(t):
    (t.folder / "shelf.candle").unlink()
    t.call(1, "check", "--changed-since", "HEAD", out=r"recipes/tide\.candle:1:.*\[use-missing\]")
    t.git("add", "-A")
    t.call(1, "check", "--changed-since", "HEAD", out=r"recipes/tide\.candle:1:.*\[use-missing\]")
    t.git("commit", "-q", "-m", "gone")
    t.call(0, "check", "--changed-since", "HEAD", out=NOTHING)
    t.call(1, "check", "--changed-since", "HEAD~1", out=r"in 2 files; not looked at.*: 1\n\Z")
    (t.folder / "alone.candle").unlink()
    t.call(0, "check", "--changed-since", "HEAD", out=r"\Anothing to check: of 2 files none")


def loops(t):
    t.write("a.candle", 'use "b.candle"\n')
    t.write("b.candle", 'use "c.candle"\n')
    t.write("c.candle", "")
    t.commit("three")
    t.write("c.candle", 'use "a.candle"\n')
    t.call(1, "check", "--changed-since", "HEAD", out=r"in 3 files;")
    t.git("checkout", "-q", ".")
    t.write("a.candle", "")
    t.call(0, "check", "--changed-since", "HEAD", out=r"in 1 file;")


def names_of_revisions(t):
    t.git("tag", "v1")
    t.git("checkout", "-q", "-b", "stronger")
    for number in range(3):
        t.append("alone.candle", f"# {number}\n")
        t.commit(str(number))
    for revision in ("main", "v1", "HEAD~3", "HEAD~1", "@{-1}", t.git("rev-parse", "v1").strip()):
        t.expect({"alone.candle"}, since=revision)
    for revision in ("nix", "HEAD~99", "main..HEAD", "HEAD:alone.candle", "", " ", "a\nb"):
        t.refused("check", "--changed-since", revision, err="--changed-since")
    for revision in ("-x", "--help", "--output=alone.candle"):
        t.refused("check", f"--changed-since={revision}", err="takes a revision")
    t.refused("check", "--changed-since", err="needs something after it")
    t.refused("check", "--changed-since", "HEAD", "-", err="`-` is none")
    t.call(2, "check", "--changed-since", "HEAD~1", "gone.candle", err="gone.candle: No such")


def odd_names(t):
    names = ["with space.candle", "line\nend.candle", "tab\t\"quote\".candle", "Sønderø ☾.candle",
             "-dash.candle", "deep/er folder/x.candle", ":(top)magic.candle"]
    for name in names:
        t.write(name, ALONE)
    t.expect(names)
    t.commit("odd")
    t.call(0, "check", "--changed-since", "HEAD", out=NOTHING)
    t.expect(names, since="HEAD~1")
    raw = os.fsencode(t.folder) + b"/\xff\xfe.candle"  # no UTF-8
    with open(raw, "wb") as file:
        file.write(ALONE.encode())
    t.call(0, "check", "--changed-since", "HEAD", out=r"in 1 file;")
    t.git("config", "core.quotePath", "true")
    t.git("config", "diff.relative", "true")
    t.git("config", "diff.noprefix", "true")
    os.remove(raw)
    t.append("alone.candle")
    t.expect({"../alone.candle"}, cwd=t.folder / "recipes")


def from_elsewhere(t):
    t.append("shelf.candle")
    seen = t.call(0, "check", "--changed-since", "HEAD", cwd=t.folder / "recipes", out="in 3 files;")
    t.true("named as seen from the folder", b"\ntide.candle:" in b"\n" + seen.out)
    t.git("worktree", "add", "-q", "-b", "second", "../" + t.folder.name + ".home/tree")
    tree = t.home / "tree"
    t.call(0, "check", "--changed-since", "main", cwd=tree, out="nothing to check: no")
    (tree / "alone.candle").write_text(ALONE + "# changed\n")
    t.expect({"alone.candle"}, cwd=tree)
    link = t.home / "link"
    link.symlink_to(t.folder)
    t.call(0, "check", "--changed-since", "HEAD", cwd=link, out="in 3 files;")
    t.call(0, "check", "--changed-since", "HEAD", link, out="in 3 files")
    t.refused("check", "--changed-since", "HEAD", t.home, err="lies outside the repository")


def links(t):
    t.write("shelves/2026/wax.candle", SHELF)
    t.write("shelves/2027/wax.candle", SHELF)
    (t.folder / "shelves/now").symlink_to("2026")
    (t.folder / "mine.candle").symlink_to("alone.candle")
    t.write("by-link.candle", 'use "shelves/now/wax.candle"\n')
    t.commit("links")
    t.append("shelves/2026/wax.candle")
    t.call(0, "check", "--changed-since", "HEAD", "by-link.candle", out="in 1 file")
    t.git("checkout", "-q", ".")
    (t.folder / "shelves/now").unlink()
    (t.folder / "shelves/now").symlink_to("2027")
    t.call(0, "check", "--changed-since", "HEAD", "by-link.candle", out="in 1 file")


def no_git(t):
    outside = t.home / "outside"
    outside.mkdir()
    (outside / "one.candle").write_text(ALONE)
    t.refused("check", "--changed-since", "HEAD", "one.candle", cwd=outside,
              env={"GIT_CEILING_DIRECTORIES": str(t.home)}, err="not a git repository")
    t.refused("check", "--changed-since", "HEAD", cwd=t.folder / ".git",
              err="for a folder that git looks after")
    t.refused("check", "--changed-since", "HEAD", env={"PATH": str(outside)},
              err="can't be run: No such file")
    empty = t.home / "empty"
    empty.mkdir()
    t.git("init", "-q", cwd=empty)
    t.refused("check", "--changed-since", "HEAD", cwd=empty, err="knows no revision `HEAD`")


def with_other_options(t):
    t.write("alone.candle", ALONE.replace("6% of wax", "6,5% of wax"))
    t.append("shelf.candle")
    done = t.call(0, "check", "--changed-since", "HEAD", "--mend", "alone.candle", err=False,
                  out=r"mended: (?s:.*)\n1 mended; left: ")
    t.true("the decimal comma is mended", "6.5% of wax" in (t.folder / "alone.candle").read_text())
    t.write("alone.candle", ALONE.replace("6% of wax", "6%"))
    log = t.call(1, "check", "--changed-since", "HEAD", "--as", "sarif", err=False)
    found = {(r["ruleId"], r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"])
             for r in json.loads(log.out)["runs"][0]["results"]}
    t.true(f"the finding in SARIF: {found}", ("missing-basis", "alone.candle") in found)
    t.call(0, "check", "--changed-since", "HEAD", "recipes", "--use-from", ".", "--quiet",
           out=r"in 2 files\n\Z", err=False)
    t.refused("check", err="needs a FILE")


def in_a_hook(t):
    """git sets variables for its hooks; the index is another one while a part is committed."""
    hook = t.folder / ".git/hooks/pre-commit"
    hook.parent.mkdir(exist_ok=True)
    hook.write_text(f"#!/bin/sh\nexec '{t.binary}' check --changed-since HEAD >hook.log 2>&1\n")
    hook.chmod(0o755)
    t.append("alone.candle")
    t.append("recipes/set.candle")
    t.git("commit", "-q", "-m", "one of two", "alone.candle", cwd=t.folder)
    t.true("checked in the hook", " in 2 files;" in (t.folder / "hook.log").read_text())


TESTS = [nothing, each_way_to_change, those_that_use_it, deleted, loops, names_of_revisions,
         odd_names, from_elsewhere, links, no_git, with_other_options, in_a_hook]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--only", metavar="PART", default="", help="tests with this in their name")
    options = parser.parse_args()
    binary = Path(options.waxwright).resolve()
    if not binary.is_file() or shutil.which("git") is None:
        parser.error(f"no file {options.waxwright}, or no git")
    passed = failed = 0
    for test in TESTS:
        if options.only not in test.__name__:
            continue
        with tempfile.TemporaryDirectory(prefix="waxwright-changed-") as folder:
            t = None
            faults = []
            try:
                work = Path(folder).resolve() / "work"
                work.mkdir()
                t = Repository(str(binary), work)
                test(t)
            except Exception:  # one that breaks off must not hide the others
                faults.append(f"broke off: {traceback.format_exc()}")
        faults += t.faults if t else []
        passed += t.passed if t else 0
        failed += len(faults)
        for fault in faults:
            print(f"changed: {test.__name__}: {fault}")
    print(f"changed: {passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
