#!/usr/bin/env python3
"""Comparisons of two versions of a file, as a maker and as git would make them.

    compare.py --waxwright BIN --tree TREE [--only PART]

- Each example compared with itself: nothing is printed, exit status 0.
- Each example with one figure changed, one after another: that figure is told, and nothing that
  doesn't hang on it.
- Exit status, streams, files written, and what each version is worked with.
- The two ways of docs/commands.md to have git do it, word for word, in a repository of our own.
Exit status 0: all is so; 1: what is not is printed, a line each.
"""

import argparse
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

# What may change with a figure: what hangs on it, as a maker would expect. Findings may always.
WEIGHTS = {"weigh", "premix", "filling", "cost", "cost-so-far", "left", "burns", "duration"}
POURS = {"first-pour", "second-pour", "finished", "kept"}
LOADS = {"load-of-wax", "load-of-total"}
# Each: what it is, a line's pattern with the figure as its second group, by how much it grows, what
# must be told, what else may.
FIGURES = [
    ("load", r"^(  load: +)([\d.]+)(% of (?:wax|total))", 0.3, LOADS, WEIGHTS | POURS | {"test-other"}),
    ("scent's temperature", r"^( +add scent at )(\d+)( °[CF])", 1, {"temperature"}, {"duration"}),
    ("pouring temperature", r"^( +pour at )(\d+)( °[CF])", -1, {"temperature"},
     WEIGHTS | POURS),
    ("stirring", r"^( +add scent .*, stir )(\d+)( min)", 1, {"duration"}, set()),
    ("cure", r"^( +cure )(\d+)( days)", 2, {"cure", "duration"}, {"ready"}),
    ("trim", r"^( +trim wick to )(\d+)( mm)", 1, {"length"}, set()),
    ("count", r"^(  makes: +)(\d+)( )", 1, {"count"},
     WEIGHTS | {"extra", "pots-at-once", "bath"}),
    ("poured of a recipe", r"^(  pour )(\d+)( )", 1, {"count"}, WEIGHTS | {"extra", "pots-at-once", "ready", "bath"}),
    ("additives", r"^(  additives: +)(\d+)(%)", 1, {"additive"},
     LOADS | WEIGHTS | POURS | {"test-other"}),
    ("leftovers", r"^(  leftovers: +)(\d+)(%)", 5, {"leftover"},
     LOADS | WEIGHTS | POURS | {"test-other", "limit-of-wax", "ceiling"}),
    ("blend", r"^(  wax: +)(\d+)(% \S+ \+ rest)", -1, {"wax"},
     LOADS | WEIGHTS | POURS | {"test-other", "limit-of-wax", "ceiling", "cure-wanted"}),
    ("wicks", r"^(  wick: +)()([a-z])", "2 ", {"wick"}, {"cost", "cost-so-far", "left", "burns", "test-other"}),
    ("reason", r'^(    .* because ")()(.*")', "truly, ", {"reason"}, set()),
    ("start", r"^(  starts: +\d+-\d+-\d+ )(\d+)(:\d\d)", 1, {"starts"}, {"ready"}),
]
FEWEST_CHANGES = 60  # of all figures in all examples


class Tests:
    def __init__(self, binary, tree):
        self.binary, self.tree = str(binary), tree
        self.passed, self.faults = 0, []
        self.name, self.folder = "", Path()

    def true(self, what, holds):
        if holds:
            self.passed += 1
        else:
            self.faults.append(f"{self.name}: {what}")

    def run(self, *words, cwd=None, **options):
        done = subprocess.run([self.binary, *map(str, words)], cwd=cwd or self.folder, check=False,
                              capture_output=True, text=True, timeout=60, **options)
        return done.returncode, done.stdout, done.stderr

    def call(self, status, *words, out=None, err=None, **options):
        """`out` and `err`: a pattern that must be found, or "" where there must be nothing."""
        got = self.run("compare", *words, **options)
        label = " ".join(map(str, words))
        self.true(f"`{label}` exits with {got[0]}, not {status}: {got[2][:300]}", got[0] == status)
        for stream, wanted, text in (("output", out, got[1]), ("error", err, got[2])):
            if wanted is not None:
                good = not text if wanted == "" else re.search(wanted, text)
                self.true(f"`{label}`: standard {stream} is {text[:400]!r}, not {wanted!r}", good)
        return got

    def json(self, *words, **options):
        return json.loads(self.run("compare", *words, "--as", "json", **options)[1])

    def write(self, name, text):
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path


def parts_of(comparison):
    """Every recipe that is different, by itself and in batches; batches too."""
    for sheet in comparison["recipes"] + comparison["batches"]:
        yield sheet
        yield from sheet.get("recipes", [])


def shown_now(comparison, whats):
    """What the new version shows of these."""
    for part in parts_of(comparison):
        for change in part["changes"] + [change for step in part.get("steps", [])
                                         for change in step["changes"]]:
            if change["what"] in whats:
                yield change["new_shown"] or ""


def told(comparison):
    """What of all the file is told: the words of `what`, of steps too, and fates but `changed`."""
    words = set()
    for part in parts_of(comparison):
        words |= {change["what"] for change in part["changes"]}
        words |= {part["fate"]} - {"changed"}
        for step in part.get("steps", []):
            words |= {change["what"] for change in step["changes"]} | {step["fate"]} - {"changed"}
    return words


# Figures ------------------------------------------------------------------------------------


def with_itself(t):
    for path in sorted((t.tree / "examples").glob("*.candle")):
        t.call(0, path, path, out="", err="")
        same = t.json(path, path)
        t.true(f"{path.name} differs from itself: {same}", same["same"] and not any(
            same[key] for key in ("recipes", "batches", "findings")))


def in_sheet(text, place):
    """True within a recipe or a batch: a test burn has loads and wicks too."""
    kinds = re.findall(r"(?m)^([a-z-]+) [^\n]*\{", text[:place])
    return bool(kinds) and kinds[-1] in ("recipe", "batch")


def changed_texts(text):
    """Each figure of the text changed by itself: what it is, the rules for it, the figure, the
    new text."""
    for what, pattern, by, must, may in FIGURES:
        for match in re.finditer(pattern, text, re.M):
            if not in_sheet(text, match.start()):
                continue
            figure = by if isinstance(by, str) else f"{round(float(match[2]) + by, 2):g}"
            if isinstance(by, (int, float)) and len(match[2]) == 2 and match[2][0] == "0":
                figure = f"{int(figure):02}"  # of a clock
            yield (what, must, may, figure,
                   text[:match.start(2)] + figure + text[match.end(2):])


def one_figure(t):
    """The new version stands in a folder of its own, with its own used files."""
    tried = 0
    for path in sorted((t.tree / "examples").glob("*.candle")):
        text = path.read_text("utf-8")
        for what, must, may, figure, changed in changed_texts(text):
            after = t.write(path.name, changed)
            comparison = t.json(path, after)
            if comparison["new_has_errors"]:
                continue
            tried += 1
            words = told(comparison)
            t.true(f"{path.name}, {what}: {words} is told, and not {must}", must & words)
            t.true(f"{path.name}, {what}: {words - must - may} is told as well",
                   words <= must | may)
            shown = list(shown_now(comparison, must))
            # With leftovers a load is told as it is in the finished candle.
            mixed = what == "load" and re.search(r"(?m)^  leftovers:", text)
            t.true(f"{path.name}, {what}: {figure} is not in {shown}",
                   mixed or any(figure in each for each in shown))
            t.true(f"{path.name}, {what}: exit status", t.run("compare", path, after)[0] == 1)
    print(f"compare: {tried} figures changed")
    t.true(f"only {tried} figures were changed", tried >= FEWEST_CHANGES)


def used_file(t):
    """A price and a density of the shelf, and a can of the bench."""
    for name in ("old", "new"):
        shutil.copytree(t.tree / "examples", t.folder / name)
    shelf = t.folder / "new/shelf.candle"
    text = shelf.read_text("utf-8")
    shelf.write_text(text.replace("10 kg for £64.00", "10 kg for £70.00"), "utf-8")
    t.call(1, "old/tide-line.candle", "new/tide-line.candle", err="",
           out=r"- A candle costs: [\d.]+ GBP → [\d.]+ GBP, [\d.]+ GBP more\n")
    words = told(t.json("old/tide-line.candle", "new/tide-line.candle"))
    t.true(f"a price changes {words}", "cost" in words and words <= {"cost", "left"})
    shelf.write_text(text, "utf-8")
    bench = t.folder / "new/bench.candle"
    bench.write_text(bench.read_text("utf-8").replace("bath:     2 l hot", "bath:     3 l hot"), "utf-8")
    comparison = t.json("old/tide-line.candle", "new/tide-line.candle")
    t.true(f"a bath changes {told(comparison)}", "bath" in told(comparison))
    # What has no sheet of its own can't be compared, unless it is the same.
    t.call(2, "old/bench.candle", "new/bench.candle", out="", err="neither version has a recipe")
    t.call(0, "old/shelf.candle", "new/shelf.candle", out="", err="")


def step_by_step(t):
    text = (t.tree / "examples/first.candle").read_text("utf-8")
    old = t.write("old.candle", text)
    stir = "    add scent at 70 °C, stir 2 min\n"
    new = t.write("new.candle", text.replace(stir, stir + "    note \"count to ten\"\n"))
    t.call(1, old, new, out=r"\n## first\n\n- New step 5: count to ten\n\Z")
    t.call(1, new, old, out=r"\n## first\n\n- Gone, step 5: count to ten\n\Z")
    new = t.write("new.candle", text.replace(
        "recipe first {", 'recipe ebb {\n  title: "Ebb"'))
    t.call(1, old, new, out=r"\n## Ebb: renamed\n\n- Name: first → ebb\n- Title: first → Ebb\n\Z")
    new = t.write("new.candle", text + text[text.index("\nrecipe"):].replace("first", "other"))
    t.call(1, old, new, out=r"\n## other: new\n\n- Makes: 6\n")
    t.call(1, new, old, out=r"\n## other: gone\n\n- Makes: 6\n")


# Calls --------------------------------------------------------------------------------------


def versions(t):
    text = (t.tree / "examples/first.candle").read_text("utf-8")
    t.write("old.candle", text)
    t.write("new.candle", text.replace("6% of wax", "7% of wax"))
    t.write("wrong.candle", text.replace("6% of wax", "6%"))
    return text


def streams(t):
    text = versions(t)
    t.call(1, "old.candle", "new.candle", err="", out=r"\A# From old.candle to new.candle\n\n## first\n")
    t.call(1, "old.candle", "new.candle", "--as", "markdown", err="", out=r"\A# From ")
    t.call(1, "old.candle", "new.candle", "--as", "json", err="", out=r'\A\{"format":"waxwright-comparison",.*\}\n\Z')
    t.call(0, "old.candle", "old.candle", "--as", "json", err="", out=r'"same":true')
    t.call(1, "/dev/null", "new.candle", err="", out=r"\A# new.candle: a new file\n\n## first: new\n")
    t.call(1, "new.candle", "/dev/null", err="", out=r"\A# new.candle: the file is gone\n\n## first: gone\n")
    t.call(0, "/dev/null", "/dev/null", out="", err="")
    for words in (("-", "new.candle"), ("new.candle", "-")):
        t.call(1, *words, input=text, err="", out=r"Scent load, of the wax")
    t.call(0, "-", "old.candle", input=text, out="", err="")
    t.call(1, "old.candle", "new.candle", "--units", "us", out=r"lavender for the pot \(6 vessels\): [\d.]+ oz →")
    for words in ([], ["old.candle"], ["-", "-"], ["old.candle", "new.candle", "x.candle"],
                  ["old.candle", "none.candle"], ["none.candle", "old.candle"], ["old.candle", "."],
                  ["old.candle", "new.candle", "--as", "toml"], ["--git", "a", "b"],
                  ["old.candle", "new.candle", "--git", "a"]):
        t.call(2, *words, out="", err="waxwright: ", input="")


def errors(t):
    versions(t)
    sentence = r"The {} has errors: there are no two sheets to compare.*\n\n## What the check finds\n"
    done = t.call(1, "old.candle", "wrong.candle", err=r"\[missing-basis\](.*\n)+.*no sheet to compare\n\Z",
                  out=sentence.format("new version"))
    t.true("an error that is new isn't told", "- New error: a load of 6 % does not say" in done[1])
    t.call(1, "wrong.candle", "old.candle", err=r"\[missing-basis\]", out=sentence.format("old version"))
    t.call(1, "wrong.candle", "wrong.candle", err=r"\[missing-basis\]", out="Both versions have errors")
    got = t.json("wrong.candle", "old.candle")
    t.true(f"errors in JSON: {got}", got["old_has_errors"] and not got["new_has_errors"]
           and not got["same"] and {"gone"} == {each["fate"] for each in got["findings"]
                                                if each["severity"] == "error"})
    t.call(2, "wrong.candle", "none.candle", out="")


def out_file(t):
    versions(t)
    t.call(1, "old.candle", "new.candle", "-o", "deep/what.md", out="", err="")
    written = t.folder / "deep/what.md"
    t.true("-o is not what is printed", written.read_text("utf-8")
           == t.run("compare", "old.candle", "new.candle")[1])
    t.call(0, "old.candle", "old.candle", "-o", "deep/what.md", out="", err="")
    t.true("an old comparison is left", written.read_bytes() == b"")
    written.write_text("before", "utf-8")
    os.symlink("../old.candle", t.folder / "deep/link.md")
    (t.folder / "plain.md").write_bytes((t.folder / "old.candle").read_bytes())
    before = {path: path.read_bytes() for path in t.folder.rglob("*") if path.is_file()}
    for out, why in (("old.candle", "would be overwritten"), ("new.candle", "a recipe file"),
                     ("deep/link.md", "would be overwritten"), ("wrong.candle", "a recipe file"),
                     ("deep", "deep: "), ("", "names no file")):
        t.call(2, "old.candle", "new.candle", "-o", out, out="", err=why)
    t.call(2, "plain.md", "new.candle", "-o", "plain.md", out="", err="would be overwritten")
    t.call(2, "new.candle", "plain.md", "-o", "./plain.md", out="", err="would be overwritten")
    t.call(2, "old.candle", "none.candle", "-o", "deep/what.md", out="", err="none.candle")
    t.true("a refused call writes", before == {
        path: path.read_bytes() for path in t.folder.rglob("*") if path.is_file()})


def beside(t):
    """A version under a temporary name finds what it uses beside the other, or where it is told."""
    shutil.copytree(t.tree / "examples", t.folder / "recipes")
    for name in ("a", "b"):
        (t.folder / name).mkdir()
        shutil.copy(t.folder / "recipes/tide-line.candle", t.folder / name / "tmp.candle")
    real = "recipes/tide-line.candle"
    t.call(0, "a/tmp.candle", real, out="", err="")
    t.call(0, real, t.folder / "a/tmp.candle", out="", err="")
    t.call(1, "a/tmp.candle", "b/tmp.candle", err=r"use-missing")
    t.call(0, "--beside", "recipes", "a/tmp.candle", "b/tmp.candle", out="", err="")
    text = (t.folder / real).read_text("utf-8")
    t.call(0, "-", real, input=text, out="", err="")
    t.call(1, "-", "/dev/null", input=text, err="use-missing")
    t.call(1, "-", "/dev/null", "--beside", "recipes", input=text, err="", out="gone")
    # Its own neighbours go first: the can of `a` is another one.
    for name in ("bench.candle", "shelf.candle"):
        shutil.copy(t.folder / "recipes" / name, t.folder / "a" / name)
    bench = t.folder / "a/bench.candle"
    bench.write_text(bench.read_text("utf-8").replace("clings:   6 g", "clings:   9 g"), "utf-8")
    t.true("a version's own files don't go first", "weigh" in told(t.json("a/tmp.candle", real)))
    # Nothing beyond that folder is read.
    t.write("secret.candle", "pot pour-can { brimful: 9 l }\n")
    t.write("c/x.candle", 'use "../secret.candle"\n')
    t.call(1, "c/x.candle", real, err="use-missing")
    done = t.run("sheet", "--beside", "recipes", "b/tmp.candle", "tide-line")
    t.true("sheet --beside is another sheet", done[:2] == t.run("sheet", real, "tide-line")[:2])
    done = t.run("sheet", "--beside", "recipes", "-", "tide-line", input=text)
    t.true("sheet --beside of `-` is another sheet", done[0] == 0)


# git ----------------------------------------------------------------------------------------


class Repository:
    """The examples under recipes/, committed, and what docs/commands.md tells git to do with them."""

    def __init__(self, t):
        self.folder = t.folder / "shed"
        programs = t.folder / "programs"
        programs.mkdir()
        (programs / "waxwright").symlink_to(t.binary)
        self.env = {"PATH": f"{programs}:{os.environ['PATH']}", "HOME": str(t.folder),
                    "GIT_CONFIG_NOSYSTEM": "1", "GIT_PAGER": "cat", "LC_ALL": "C.UTF-8",
                    **{f"GIT_{who}_{what}": "shed@example.invalid" for who in ("AUTHOR", "COMMITTER")
                       for what in ("NAME", "EMAIL")}}
        self.page = (t.tree / "docs/commands.md").read_text("utf-8").partition("### In git\n")[2]
        shutil.copytree(t.tree / "examples", self.folder / "recipes")
        self.git("init", "-q")
        attributes = re.search(r"```text\n(.*diff=candle)\n```", self.page)[1]
        (self.folder / ".gitattributes").write_text(attributes + "\n")
        self.commit()

    def git(self, *words, cwd=None):
        done = subprocess.run(["git", *words], cwd=cwd or self.folder, env=self.env, text=True,
                              capture_output=True, timeout=60, check=False)
        return done.returncode, done.stdout, done.stderr

    def commit(self):
        self.git("add", "-A")
        self.git("commit", "-q", "-m", "as it is")

    def configure(self, key):
        """Runs the document's own line."""
        line = re.search(rf"(?m)^git config diff\.candle\.{key} .*$", self.page)[0]
        subprocess.run(["sh", "-c", line], cwd=self.folder, env=self.env, check=True, timeout=60)

    def change(self, name, old, new):
        path = self.folder / "recipes" / name
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new), "utf-8")


def git_command(t):
    shed = Repository(t)
    shed.configure("command")
    t.true("git diff of nothing", shed.git("diff") == (0, "", ""))
    shed.change("tide-line.candle", "pour at 60 °C", "pour at 58 °C")
    wanted = r"\A# recipes/tide-line.candle\n\n## Tide Line\n\n(- .*\n)*- Step 8, pour: 60 °C \(140 °F\) → 58 °C"
    for folder in (shed.folder, shed.folder / "recipes"):
        status, out, err = shed.git("diff", cwd=folder)
        t.true(f"git diff: {status}, {out}, {err}", status == 0 and re.search(wanted, out) and not err)
    # Both versions from the repository, each under a temporary name.
    shed.commit()
    done = shed.git("diff", "HEAD~1", "HEAD")
    t.true(f"git diff of two commits: {done}", done == (0, out, ""))
    done = shed.git("show", "--ext-diff")
    t.true(f"git show: {done}", done[0] == 0 and done[1].endswith(out))
    # Everything at once: a comment, a new name, a new file, one that is gone, materials, a mistake.
    shed.change("first.candle", "# A first recipe", "# The first recipe")
    shed.change("bench.candle", "clings:   6 g", "clings:   9 g")
    shed.change("metric.candle", "% of total", "%")
    shed.git("mv", "recipes/us-kitchen.candle", "recipes/porch.candle")
    shed.change("porch.candle", "trim wick to 1/4 in", "trim wick to 3/8 in")
    (shed.folder / "recipes/doubts.candle").unlink()
    shutil.copy(shed.folder / "recipes/first.candle", shed.folder / "recipes/second.candle")
    shed.git("add", "-A")
    status, out, err = shed.git("diff", "-M", "--cached")
    t.true(f"git diff of much exits with {status}: {err}", status == 0 and not err)
    for wanted in (r"(?m)^recipes/first.candle: nothing is different at the bench\n\n",
                   r"(?m)^recipes/bench.candle: has no recipe and no batch",
                   r"# recipes/metric.candle\n\nThe new version has errors",
                   r"- New error: a load of .* does not say",
                   r"# From recipes/us-kitchen.candle to recipes/porch.candle\n",
                   r"trim wick: length 1/4 in → 3/8 in",
                   r"# recipes/doubts.candle: the file is gone\n\n## Half Tide: gone",
                   r"# recipes/second.candle: a new file\n\n## first: new"):
        t.true(f"git diff has no {wanted!r}: {out}", re.search(wanted, out))
    t.true("git diff --no-ext-diff has no lines",
           "\n+    trim wick to 3/8 in" in shed.git("diff", "-M", "--cached", "--no-ext-diff")[1])


def git_not_merged(t):
    shed = Repository(t)
    shed.configure("command")
    shed.git("branch", "other")
    for branch, load in ((None, "5%"), ("other", "4%")):
        if branch:
            shed.git("checkout", "-q", branch)
        shed.change("first.candle", "6% of wax", f"{load} of wax")
        shed.commit()
    t.true("the merge has no conflict", shed.git("merge", "-")[0] != 0)
    status, out, err = shed.git("diff")
    t.true(f"git diff while merging: {status}, {out}, {err}",
           status == 0 and "first.candle" in out)


def git_textconv(t):
    shed = Repository(t)
    shed.configure("textconv")
    shed.change("tide-line.candle", "pour at 60 °C", "pour at 58 °C")
    status, out, err = shed.git("diff")
    t.true(f"textconv: {status}, {out}, {err}", status == 0 and not err
           and re.search(r"(?m)^\+- \[ \] Pour at \*\*58 °C \(136 °F\)", out))
    shed.commit()
    t.true("git log -p differs from git diff",
           "+- [ ] Pour at **58 °C" in shed.git("log", "-1", "-p")[1])
    # Without a sheet, and with a mistake, a file is compared as it is.
    shed.change("bench.candle", "clings:   6 g", "clings:   9 g")
    shed.change("first.candle", "6% of wax", "6%")
    status, out, err = shed.git("diff")
    t.true(f"textconv of files without sheets: {status}, {out}, {err}", status == 0
           and "\n+  clings:   9 g" in out and "\n+  load:  6%  " in out)


def old_state_in_a_folder(t):
    """The document's way to see what a changed file does to those that use it."""
    shed = Repository(t)
    shed.change("shelf.candle", "10 kg for £64.00", "10 kg for £70.00")
    shed.commit()
    lines = re.search(r"```sh\n(git worktree .*?)```", shed.page, re.S)[1]
    done = subprocess.run(["sh", "-c", lines], cwd=shed.folder, env=shed.env, text=True,
                          capture_output=True, timeout=60, check=False)
    t.true(f"two folders: {done}", done.returncode == 1 and "- A candle costs: " in done.stdout)


TESTS = [with_itself, one_figure, used_file, step_by_step, streams, errors, out_file, beside,
         git_command, git_not_merged, git_textconv, old_state_in_a_folder]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    parser.add_argument("--only", default="", help="tests with this in their name")
    options = parser.parse_args()
    t = Tests(options.waxwright.resolve(), options.tree.resolve())
    for test in TESTS:
        if options.only not in test.__name__:
            continue
        if "git" in test.__name__ and shutil.which("git") is None:
            print(f"compare: {test.__name__}: this machine has no git, so it is not looked at")
            continue
        with tempfile.TemporaryDirectory(prefix="waxwright-compare-") as folder:
            t.name, t.folder = test.__name__, Path(folder)
            test(t)
    for fault in t.faults:
        print(f"compare: {fault}")
    print(f"compare: {t.passed} passed, {len(t.faults)} failed")
    return 1 if t.faults or not t.passed else 0


if __name__ == "__main__":
    sys.exit(main())
