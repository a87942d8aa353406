#!/usr/bin/env python3
"""Holds the command line to its contract: exit status, streams, files, colour, and what is refused.

    commands.py --waxwright BIN [--only PART]

Each test gets an empty folder of its own. Exit status 0: all passed; 1: something did not, a line
each; 2: a wrong call.
"""

import argparse
import os
import pty
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import tomllib
import traceback
from pathlib import Path

import check_options
import tidy_calls

PATIENCE = 60  # seconds for one call
MOST_LINES_TAKE = 400 << 20  # bytes, of a check of 100 000 lines
MOST_MEMORY = 1 << 30  # bytes, of a check of 10 MB
NOBODY = 65534
ESCAPE = b"\x1b"

SHELF = """language 1
wax marsh-wax {
  density:  0.9 g/ml
  liquid-density: 0.85 g/ml at 60 °C, 0.84 g/ml at 75 °C
  melts:    45 to 55 °C
  max-load: 10% of wax
  ceiling:  90 °C
}
oil reed-oil {
  density:     0.9 g/ml
  flash-point: 80 °C closed cup
}
vessel jar {
  fill: 200 ml
  of:   tin
}
"""
RECIPE = """recipe {name} {{
  title: "{title}"
  makes: 6 jar
  wax:   marsh-wax
  load:  {load}
  scent: reed-oil
  steps {{
    melt to 75 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 62 °C
    cure 10 days
  }}
}}
"""
BATCH = """batch low-tide {
  starts: 2026-12-05 09:00
  lot: "SM-1205"
  pour 12 samphire
  pour 6 sea-aster
}
"""


def recipe(name, title="Samphire", load="6% of wax"):
    return RECIPE.format(name=name, title=title, load=load)


ONE = SHELF + recipe("samphire")  # with a warning: no wick
SEVERAL = SHELF + recipe("samphire") + recipe("sea-aster", "Sea Aster") + BATCH
WRONG = SHELF + recipe("samphire", load="6%")  # [missing-basis]


class Done:
    """What a call gave: exit status, both streams as bytes, its peak of memory and its time."""

    def __init__(self, status, out, err, memory=0, seconds=0.0):
        self.status = status
        self.out = out or b""
        self.err = err or b""
        self.memory = memory
        self.seconds = seconds


class Test:
    """One test's folder and its expectations."""

    def __init__(self, binary, folder):
        self.binary = binary
        self.folder = Path(folder)
        self.passed = 0
        self.faults = []

    def write(self, name, text):
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
        return path

    def run(self, *words, stdin=b"", env=None, **options):
        surroundings = {k: v for k, v in os.environ.items() if k not in ("NO_COLOR", "TZ")}
        surroundings.update(env or {})
        options = {"cwd": self.folder, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE,
                   **options}
        started = time.monotonic()
        done = subprocess.run([self.binary, *map(str, words)], input=stdin, check=False,
                              env=surroundings, timeout=PATIENCE, **options)
        return Done(done.returncode, done.stdout, done.stderr, seconds=time.monotonic() - started)

    def true(self, what, holds):
        if holds:
            self.passed += 1
        else:
            self.faults.append(what)

    def call(self, status, *words, out=None, err=None, **options):
        """Runs it; `out` and `err`: True where there must be something, False where nothing, or a
        pattern that must be found."""
        done = self.run(*words, **options)
        label = " ".join(map(str, words))
        self.true(f"`{label}` exits with {done.status}, not {status}: {done.err.decode()[:300]}",
                  done.status == status)
        for stream, wanted, got in (("output", out, done.out), ("error", err, done.err)):
            if wanted is None:
                continue
            what = f"`{label}`: standard {stream} is {got.decode('utf-8', 'replace')[:300]!r}"
            if isinstance(wanted, bool):
                self.true(what, bool(got) == wanted)
            else:
                self.true(f"{what}, without {wanted!r}",
                          re.search(wanted, got.decode("utf-8", "replace")) is not None)
        return done

    def refused(self, *words, err=True, status=2, **options):
        """A call that gives nothing but words on standard error."""
        return self.call(status, *words, out=False, err=err, **options)


# check --------------------------------------------------------------------------------------


def check_streams(t):
    t.write("one.candle", ONE)
    t.write("wrong.candle", WRONG)
    done = t.call(0, "check", "one.candle", out=r"\[wick-missing\]", err=False)
    t.true("notes are shown without --notes", b": note: " not in done.out)
    last = done.out.decode().splitlines()[-1]
    t.true(f"no counts in the last line: {last}", re.search(r"\b1 warning\b.*\b1 file\b", last))
    t.call(0, "check", "--notes", "one.candle", out=": note: ", err=False)
    t.call(1, "check", "wrong.candle", err=False,
           out=r"(?m)^wrong.candle:\d+:\d+: error: .*\[missing-basis\]$")
    t.call(0, "check", "--as", "text", "one.candle", out=True, err=False)
    t.write("clean.candle", SHELF)
    t.call(0, "check", "clean.candle", out="1 file\n$", err=False)


def check_several_files(t):
    t.write("b/one.candle", ONE)
    t.write("a/wrong.candle", WRONG)
    t.write("a/deep/other.candle", WRONG.replace("samphire", "eelgrass"))
    t.write("a/remarks.txt", "no candle")
    both = t.call(1, "check", "b/one.candle", "a/wrong.candle", out=r"2 files\n$", err=False)
    t.true("findings of a file are missing", all(
        name in both.out for name in (b"a/wrong.candle:", b"b/one.candle:")))
    folder = t.call(1, "check", "a", out=r"2 errors.* 2 files\n$", err=False)
    places = re.findall(rb"^(\S+?):\d+:\d+: ", folder.out, re.MULTILINE)
    t.true(f"a folder's files are not all, or not in order: {places}",
           places == sorted(places) and set(places) == {b"a/wrong.candle", b"a/deep/other.candle"})
    t.call(0, "check", "b", out="1 file\n$", err=False)
    t.call(1, "check", "a", "b", out=r"3 files\n$", err=False)


def two_wins_over_one(t):
    t.write("wrong.candle", WRONG)
    t.write("several.candle", SEVERAL + WRONG[len(SHELF):].replace("samphire", "cord-grass"))
    t.call(2, "check", "wrong.candle", "none.candle", out=r"\[missing-basis\]", err="none.candle")
    t.call(2, "check", "none.candle", "wrong.candle", out=r"\[missing-basis\]", err="none.candle")
    t.refused("sheet", "several.candle", status=2, err="samphire")
    t.refused("sheet", "several.candle", "cod", status=2, err="cod")
    t.refused("sheet", "several.candle", "low-tide", "--make", "3", err="--make")
    t.refused("sheet", "wrong.candle", "--make", "0", err="--make")
    t.refused("sheet", "wrong.candle", status=1, err=r"\[missing-basis\]")


def unreadable(t):
    t.write("one.candle", ONE)
    t.write("folder.candle/one.candle", ONE)
    os.symlink("loop.candle", t.folder / "loop.candle")
    for words in (["check"], ["sheet"]):
        t.refused(*words, "none.candle", err="none.candle: No such file")
        t.refused(*words, "loop.candle", err="loop.candle: ")
        t.refused(*words, "one.candle/more", err="one.candle/more: ")
    t.refused("sheet", "folder.candle", err="folder.candle: ")
    with as_nobody(t) as nobody:
        secret = t.write("secret.candle", ONE)
        secret.chmod(0)
        t.refused("check", "secret.candle", err="secret.candle: Permission denied", **nobody)
        t.refused("sheet", "secret.candle", err="secret.candle: Permission denied", **nobody)


def missing_use(t):
    t.write("module.candle", "language 1\nuse driftwood\n" + ONE[len("language 1\n"):])
    t.write("file.candle", 'language 1\nuse "driftwood.candle"\n' + ONE[len("language 1\n"):])
    for name in ("module.candle", "file.candle"):
        t.call(1, "check", name, out=r"\[use-missing\]", err=False)
        t.refused("sheet", name, status=1, err=r"\[use-missing\]")


def empty_files(t):
    for name, text in (("empty", ""), ("remarks", "# nothing\n\n# but words"), ("blank", " \n\n")):
        t.write(f"{name}.candle", text)
        t.call(0, "check", f"{name}.candle", out="1 file\n$", err=False)
        t.refused("sheet", f"{name}.candle", err=True)
        t.refused("sheet", f"{name}.candle", "samphire", err="samphire")


def standard_input(t):
    t.call(0, "check", "-", stdin=ONE.encode(), out=r"\[wick-missing\]", err=False)
    t.call(1, "check", "-", stdin=WRONG.encode(), out=r"\[missing-basis\]", err=False)
    t.write("one.candle", ONE)
    t.true("a sheet of `-` is not that of the file",
           t.call(0, "sheet", "-", stdin=ONE.encode()).out == t.run("sheet", "one.candle").out)
    t.refused("sheet", "-", stdin=WRONG.encode(), status=1)
    t.call(0, "check", "-", stdin=b"", out="1 file\n$", err=False)
    t.call(1, "check", "-", "one.candle", stdin=WRONG.encode(), out="2 files\n$", err=False)


# sheet --------------------------------------------------------------------------------------


def sheet_streams(t):
    t.write("one.candle", ONE)
    sheet = t.call(0, "sheet", "one.candle", out="^# Samphire\n", err=r"\[wick-missing\]")
    t.true("a sheet differs from run to run", t.run("sheet", "one.candle").out == sheet.out)
    t.true("--as markdown is another sheet",
           t.call(0, "sheet", "one.candle", "--as", "markdown").out == sheet.out)
    t.call(0, "sheet", "one.candle", "--as", "toml", out=r'(?m)^format = "waxwright-sheet"$')
    for units in ("us", "metric"):
        t.call(0, "sheet", "one.candle", "--units", units, out=True)


def sheet_names(t):
    t.write("several.candle", SEVERAL)
    told = t.refused("sheet", "several.candle").err.decode()
    t.true(f"it is not said which sheets there are: {told}",
           all(name in told for name in ("samphire", "sea-aster", "low-tide")))
    t.refused("sheet", "several.candle", "sea-astre", err="sea-aster")  # the nearest one
    t.refused("sheet", "several.candle", "marsh-wax", err="marsh-wax")  # no recipe
    t.call(0, "sheet", "several.candle", "sea-aster", out="^# Sea Aster\n")
    t.call(0, "sheet", "several.candle", "low-tide", out="SM-1205")
    t.write("own.candle", 'use "several.candle"\n' + recipe("cord-grass", "Cord Grass"))
    t.call(0, "sheet", "own.candle", out="^# Cord Grass\n")
    t.call(0, "sheet", "own.candle", "cord-grass", out="^# Cord Grass\n")
    t.write("only.candle", 'use "several.candle"\nbatch neap {\n pour 3 samphire\n}\n')
    t.call(0, "sheet", "only.candle", out="^# neap\n")


def sheet_make(t):
    t.write("several.candle", SEVERAL)
    for count in ("1", "40", "1000"):
        words = ["sheet", "several.candle", "samphire", "--as", "toml", "--make", count]
        t.call(0, *words, out=rf"(?m)\Acount = {count}$")
    t.call(0, "sheet", "several.candle", "samphire", "--make=40", out="40")
    for wrong in ("0", "-3", "2.5", "abc", "", "4x", " 4", "1e2", "-0", "40 jars",
                  "99999999999999999999"):
        t.refused("sheet", "several.candle", "samphire", f"--make={wrong}")
        t.refused("sheet", "several.candle", "samphire", "--make", wrong)
    t.refused("sheet", "several.candle", "samphire", "--make")
    t.refused("sheet", "several.candle", "low-tide", "--make", "40", err="--make")


def picture(t):
    t.write("several.candle", SEVERAL)
    plan = t.folder / "heat.svg"
    plain = t.call(0, "sheet", "several.candle", "samphire").out
    with_it = t.call(0, "sheet", "several.candle", "samphire", "--picture", "heat.svg").out
    t.true("the sheet is the same beside a picture", plain == with_it)
    t.true("the picture is there", b"<svg " in plan.read_bytes())
    t.call(0, "sheet", "several.candle", "low-tide", "--picture", "heat.svg")
    t.true("a panel for each recipe", plan.read_bytes().count(b"<g ") == 2)
    before = plan.read_bytes()
    t.write("wrong.candle", WRONG)
    t.refused("sheet", "wrong.candle", "--picture", "heat.svg", status=1)
    t.true("an error leaves the old picture", plan.read_bytes() == before)
    t.refused("sheet", "several.candle", "--all", "--picture", "heat.svg", err="--picture")
    t.refused("sheet", "several.candle", "samphire", "--picture", "", err="names no file")
    t.refused("sheet", "several.candle", "samphire", "--picture", "plans/", err="names no file")
    (t.folder / "taken").mkdir()
    t.refused("sheet", "several.candle", "samphire", "--picture", "taken", err="taken: ")


def sheet_in_ounces(t):
    """Without a scale; the TOML of the same call has the same weights, in g."""
    t.write("several.candle", SEVERAL)
    words = ("sheet", "several.candle", "samphire", "--units", "us")
    t.call(0, *words, out=r"[*][*][0-9]+[.][0-9] oz[*][*] [|] marsh-wax")
    t.call(0, *words, "--make", "1", out=r"[*][*]0[.][0-9]{2} oz[*][*] [|] reed-oil")
    t.call(0, *words, "--as", "toml", out=r"weigh_g = [0-9]+[.][0-9]{3,}\n")
    t.call(0, *words[:3], out=r"[*][*][0-9.]+ g[*][*] [|] marsh-wax")


def sheet_from(t):
    t.write("several.candle", SEVERAL)
    words = ("sheet", "several.candle", "samphire")
    # A jar takes 160.7 g of wax (200 ml · 0.8493 g/ml / 1.06) and 9.6 g of oil.
    for what, count in (("1 kg marsh-wax", 6), ("30 jar", 30), ("jar", 1), ("97 g reed-oil", 10),
                        ("1 kg marsh-wax + 4 jar", 4), ("2 lb 3 oz marsh-wax", 6),
                        ("100 ml reed-oil", 9), ("500 g marsh-wax + 500 g marsh-wax", 6)):
        t.call(0, *words, "--as", "toml", "--from", what, out=rf"(?m)\Acount = {count}$")
    t.call(0, *words, "--from", "1 kg marsh-wax", out="Made from 1 kg marsh-wax: 6, the most there "
           "is enough for; marsh-wax runs out first[.] Left: marsh-wax 36 g[.] "
           "Taken to be at hand: reed-oil, jar[.]\n")
    t.refused(*words, "--from", "100 g marsh-wax", status=1,
              err="it takes 16[01][.]?[0-9]* g of `marsh-wax`, and there is 100 g")
    for wrong, why in (("", "stock"), ("3 kg marsh-wix", "unknown-name"),
                       ("marsh-wax", "missing-unit"), ("3 jar }", "amounts and names"),
                       ("1 kg marsh-wax\n", "amounts and names"),
                       ("-1 kg marsh-wax", "out-of-range"), ("1 kg jar", "unit-mismatch"),
                       ("1 kg marsh-wax +", "syntax"), ("samphire", "wrong-kind")):
        t.refused(*words, "--from", wrong, err=why)
    t.refused(*words, "--from", "stock", err="has no `stock`")
    t.refused(*words, "--from", "3 jar", "--make", "3", err="--make and --from")
    t.refused("sheet", "several.candle", "--all", "--from", "3 jar", err="--all")
    # A batch keeps its proportions; the least it can be made of is said where there is too little.
    t.call(0, "sheet", "several.candle", "low-tide", "--from", "9 jar",
           out="Made from 9 jar: .*, the most there is enough for in the batch's proportions; "
           "jar runs out first")
    t.refused("sheet", "several.candle", "low-tide", "--from", "1 jar", status=1,
              err="not enough for . `samphire` and . `sea-aster`: it takes")
    t.write("jars.candle", 'use "several.candle"\nvessel cup-2 like jar { of: glass }\n'
            + recipe("cord-grass").replace("6 jar", "2 jar"))
    t.refused("sheet", "jars.candle", "--from", "3 cup-2", err="`cord-grass` takes no `cup-2`")


def sheet_from_stock(t):
    def stocked(*lines):
        t.write("stocked.candle", SEVERAL + "stock shelf {\n" + "\n".join(lines) + "\n}\n")
        return ("sheet", "stocked.candle", "samphire", "--from", "stock")

    t.call(0, *stocked("have 1 kg marsh-wax", "have 5 jar"),
           out="(?s)Made from the stock: 5, .*; jar runs out first[.] Left: marsh-wax 197 g, jar 0[.] "
           "Taken to be at hand: reed-oil[.]")
    # Two lines of one thing are added up; of what stock lists nothing of its kind is at hand.
    t.call(0, *stocked('have 500 g marsh-wax lot "A"', 'have 500 g marsh-wax lot "B"'),
           out="Made from the stock: 6")
    # Other oils are listed and this one is not, so there is none.
    t.write("oils.candle", "oil other like reed-oil { limit: 5% of total }\n")
    words = stocked("have 1 kg marsh-wax", "have 50 g other")
    t.write("stocked.candle", 'use "oils.candle"\n' + (t.folder / "stocked.candle").read_text())
    t.write("oils.candle", "oil other { density: 0.9 g/ml, flash-point: 80 °C closed cup }\n")
    t.refused(*words, err="there is no `reed-oil`", status=1)
    t.refused(*stocked("have 1 kg marsh-wax", "have 0 jar"), err="not enough for one", status=1)


def sheet_all(t):
    t.write("several.candle", SEVERAL)
    names = ["samphire", "sea-aster"]
    single = {name: t.run("sheet", "several.candle", name).out for name in names}
    done = t.call(0, "sheet", "several.candle", "--all", out=True)
    at = [done.out.find(single[name]) for name in names]
    t.true(f"the sheets are not there one after another: {at}", -1 < at[0] < at[1])
    for words, end in (([], "md"), (["--as", "toml"], "toml")):
        folder = t.folder / f"sheets-{end}"
        folder.mkdir()
        t.call(0, "sheet", "several.candle", "--all", "-o", f"{folder}/", *words, out=False)
        files = sorted(path.read_bytes() for path in folder.iterdir())
        wanted = [t.run("sheet", "several.candle", name, *words).out for name in names]
        t.true(f"{folder.name} has {sorted(os.listdir(folder))}, not the sheets of {names}",
               files == sorted(wanted))
    t.call(0, "sheet", "several.candle", "--all", "-o", "all.md", out=False)
    t.true("--all -o FILE is not what --all prints", read(t, "all.md") == done.out)
    t.write("shelf.candle", SHELF)
    t.write("batch.candle", 'use "several.candle"\n' + BATCH.replace("low-tide", "high-tide"))
    t.refused("sheet", "shelf.candle", "--all", err=r"shelf\.candle: has no recipe for --all$")
    t.refused("sheet", "batch.candle", "--all", err=r"no recipe for --all; .*high-tide \(batch\)")
    t.write("wrong.candle", SEVERAL + WRONG[len(SHELF):].replace("samphire", "cord-grass"))
    (t.folder / "none").mkdir()
    t.refused("sheet", "wrong.candle", "--all", status=1)
    t.refused("sheet", "wrong.candle", "--all", "-o", "none/", status=1)
    t.true("sheets were written in spite of an error", not os.listdir(t.folder / "none"))


# -o -----------------------------------------------------------------------------------------


def read(t, name):
    path = t.folder / name
    return path.read_bytes() if path.is_file() else None


def as_nobody(t):
    """Keywords for a call that may not do all: root's own calls may. The compiler is put where
    anybody can run it."""

    class Scope:
        def __enter__(self):
            self.binary = t.binary
            if os.geteuid() != 0:
                return {}
            t.folder.chmod(0o755)
            t.binary = shutil.copy(t.binary, t.folder / "waxwright-copy")
            os.chmod(t.binary, 0o755)
            return {"user": NOBODY, "group": NOBODY, "extra_groups": []}

        def __exit__(self, *_):
            if t.binary != self.binary:
                os.unlink(t.binary)
            t.binary = self.binary

    return Scope()


def with_parts(t):
    t.write("one.candle", ONE)
    plain = t.call(0, "sheet", "one.candle").out.decode()
    t.true("money stands on a sheet unasked for", "What it costs" not in plain)
    both = t.call(0, "sheet", "one.candle", "--with", "cost,buy").out.decode()
    t.true("--with changes what stands before it", both.startswith(plain))
    t.true("--with cost,buy has not both",
           "\n## What it costs\n" in both and "\n## What to buy\n" in both)
    cost = t.call(0, "sheet", "one.candle", "--with=cost").out.decode()
    t.true("--with cost has both", "What it costs" in cost and "What to buy" not in cost)
    toml = t.call(0, "sheet", "one.candle", "--as", "toml").out
    t.true("--with changes the TOML",
           t.call(0, "sheet", "one.candle", "--as", "toml", "--with", "buy").out == toml)
    for wrong in ("labels", "", "cost,lid", "cost;buy", "Cost"):
        t.refused("sheet", "one.candle", f"--with={wrong}", err="--with")


def buy(t):
    t.write("several.candle", SEVERAL + "stock shed {\n have 3 jar\n}\n")
    t.refused("buy", "several.candle", err="sea-aster")
    t.refused("buy", "several.candle", "low-tide", "--make", "3", err="--make")
    t.refused("buy", "several.candle", "sea-astre", err="sea-aster")
    t.refused("buy")
    for words in (["--make", "0"], ["--as", "toml"], ["--all"], ["-o"]):
        t.refused("buy", "several.candle", *words)
    needed = r"(?m)^\| no pack on offer \| jar \| {} \| 3, short by {} \|"
    t.call(0, "buy", "several.candle", "samphire", out=needed.format(6, 3))
    t.call(0, "buy", "several.candle", "samphire", "--make", "40", out=needed.format(40, 37))
    done = t.call(0, "buy", "several.candle", "low-tide", out=needed.format(18, 15))
    t.call(0, "buy", "several.candle", "low-tide", "-o", "list.md", out=False)
    t.true("-o writes another list", read(t, "list.md") == done.out)
    t.write("wrong.candle", WRONG)
    t.call(1, "buy", "wrong.candle", out=False, err="nothing is written")
    t.call(2, "buy", "none.candle", out=False, err="none.candle")


MAKER = """
maker shed {
  title:    "The Shed"
  address:  "The Old Pump House, Saltmarsh Lane"
  phone:    "01632 960 014"
  sells-in: gb
}
"""


def label(t):
    t.write("several.candle", SEVERAL)
    t.refused("label", "several.candle", err="sea-aster")
    t.refused("label", "several.candle", "low-tide", "--make", "3", err="--make")
    t.refused("label")
    for words in (["--for", "fr"], ["--for", ""], ["--as", "html;"], ["--all"], ["-o"]):
        t.refused("label", "several.candle", "samphire", *words)
    heading = "(?m)^# Labels for "
    everywhere = t.call(0, "label", "several.candle", "samphire", err="maker-missing").out.decode()
    t.true("without a maker there are three markets", len(re.findall(heading, everywhere)) == 3)
    one = t.call(0, "label", "several.candle", "samphire", "--for", "eu", err="European")
    t.true("--for has one market", len(re.findall(heading, one.out.decode())) == 1)
    capitals = t.call(0, "label", "several.candle", "samphire", "--for", "EU", err="European")
    t.true("--for takes capitals", capitals.out == one.out)
    for word, meant in (("uk", "gb"), ("USA", "us"), ("Britain", "gb")):
        t.refused("label", "several.candle", "samphire", "--for", word,
                  err=re.escape(f"did you mean `{meant}`?"))
    t.call(0, "label", "several.candle", "samphire", "--for", "eu", "--make", "40",
           out=r"(?m)^40 labels of it\.$", err="European")
    t.call(0, "label", "several.candle", "samphire", "--for", "eu", "-o", "label.md", out=False,
           err="European")
    t.true("-o writes another label", read(t, "label.md") == one.out)
    t.write("sold.candle", ONE + MAKER)
    t.call(0, "label", "sold.candle", out="(?m)\\A# Labels for Great Britain$")
    t.call(0, "label", "sold.candle", out="NOT TEST BURNED")
    toml = t.call(0, "label", "sold.candle", "--as", "toml").out.decode()
    read_back = tomllib.loads(toml)
    t.true("the TOML is another label", read_back["format"] == "waxwright-label" and
           [one["market"] for one in read_back["label"]] == ["gb"])
    plain = t.call(0, "sheet", "sold.candle").out.decode()
    with_label = t.call(0, "sheet", "sold.candle", "--with", "label").out.decode()
    t.true("--with label changes what stands before it", with_label.startswith(plain))
    t.true("--with label has no label", "\n## Labels\n" in with_label)
    t.call(0, "sheet", "sold.candle", "--with", "label", "--as", "html", out="NOT TEST BURNED")
    t.refused("sheet", "sold.candle", "--with", "label", "--as", "toml", err="label --as toml")
    t.write("wrong.candle", WRONG)
    t.call(1, "label", "wrong.candle", out=False, err="nothing is written")
    t.call(2, "label", "none.candle", out=False, err="none.candle")


def out_file(t):
    t.write("one.candle", ONE)
    t.write("wrong.candle", WRONG)
    sheet = t.run("sheet", "one.candle").out
    t.call(0, "sheet", "one.candle", "-o", "new.md", out=False, err=r"\[wick-missing\]")
    t.true("-o writes another sheet", read(t, "new.md") == sheet)
    t.write("old.md", "old\n")
    os.link(t.folder / "old.md", t.folder / "second-name.md")
    t.refused("sheet", "wrong.candle", "-o", "old.md", status=1)
    t.refused("sheet", "one.candle", "eelgrass", "-o", "old.md", status=2)
    t.true("an error touched the old file", read(t, "old.md") == b"old\n")
    t.refused("sheet", "wrong.candle", "-o", "never.md", status=1)
    t.call(0, "sheet", "one.candle", "-o", "old.md", out=False)
    t.true("the old file is not replaced", read(t, "old.md") == sheet)
    t.true("the old file was written into, not renamed over",
           read(t, "second-name.md") == b"old\n")
    os.symlink("old.md", t.folder / "link.md")
    t.call(0, "sheet", "one.candle", "-o", "link.md", "--as", "toml", out=False)
    toml = t.run("sheet", "one.candle", "--as", "toml").out
    t.true("a link is no link any more", (t.folder / "link.md").is_symlink())
    t.true("what a link points to is not replaced", read(t, "old.md") == toml)
    left = sorted(os.listdir(t.folder))
    t.true(f"there is more than was asked for: {left}", left == [
        "link.md", "new.md", "old.md", "one.candle", "second-name.md", "wrong.candle"])


def out_refused(t):
    t.write("one.candle", ONE)
    (t.folder / "folder").mkdir()
    t.refused("sheet", "one.candle", "-o", "folder", err="folder")
    t.true("it is written into a folder that was not named as one",
           not os.listdir(t.folder / "folder"))
    t.refused("sheet", "one.candle", "-o", "one.candle/sheet.md", err="one.candle")
    t.refused("sheet", "one.candle", "-o", "/dev/full", err="/dev/full")
    t.refused("sheet", "one.candle", "-o", "", err=True)
    t.true("the recipe was touched", read(t, "one.candle") == ONE.encode())
    with as_nobody(t) as nobody:
        locked = t.folder / "locked"
        locked.mkdir()
        old = t.write("locked/old.md", "old\n")
        old.chmod(0o666)
        locked.chmod(0o555)
        t.refused("sheet", "one.candle", "-o", "locked/new.md", err="locked/new.md", **nobody)
        t.refused("sheet", "one.candle", "-o", "locked/old.md", err="locked/old.md", **nobody)
        t.refused("sheet", "one.candle", "--all", "-o", "locked/", err="locked", **nobody)
        t.true("something changed in a folder that may not be written to",
               os.listdir(locked) == ["old.md"] and old.read_bytes() == b"old\n")
        locked.chmod(0o755)
    left = sorted(os.listdir(t.folder))
    t.true(f"there is more than there was: {left}", left == ["folder", "locked", "one.candle"])


def full_and_closed(t):
    t.write("one.candle", ONE)
    t.write("wrong.candle", WRONG)
    calls = [["check", "one.candle"], ["check", "wrong.candle"], ["sheet", "one.candle"],
             ["sheet", "one.candle", "--all"], ["materials"], ["materials", "soy"], ["why"], ["why", "no-stir"], ["--help"],
             ["compare", "one.candle", "wrong.candle"], ["sheet", "--help"], ["--version"]]
    for words in calls:
        told = None if words[-1] in ("--help", "--version") else "standard output: "
        with open("/dev/full", "wb") as full:
            t.call(2, *words, stdout=full, err=told)
        t.call(2, *words, stdout=None, err=told, preexec_fn=lambda: os.close(1))
    t.call(0, "sheet", "one.candle", "-o", "new.md", stdout=None, preexec_fn=lambda: os.close(1))
    t.true("with standard output closed -o writes another sheet",
           read(t, "new.md") == t.run("sheet", "one.candle").out)
    # Nobody to tell: the exit status still does.
    t.call(1, "sheet", "wrong.candle", stderr=None, out=False, preexec_fn=lambda: os.close(2))
    t.true("the recipe was touched", read(t, "one.candle") == ONE.encode())
    # A reader that goes away is the end of it, by the signal or as a failed write.
    t.write("many.candle", SHELF + "".join(recipe(f"samphire-{i}") for i in range(4000)))
    with subprocess.Popen([t.binary, "sheet", "many.candle", "--all"], cwd=t.folder,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as many:
        many.stdout.read(10)
        many.stdout.close()
        status = many.wait(PATIENCE)
    t.true(f"a reader that goes away: exit {status}", status in (2, -signal.SIGPIPE))


# Surroundings -------------------------------------------------------------------------------


def has_terminals():
    """A bare chroot has no /dev/pts; everything else has."""
    try:
        for end in pty.openpty():
            os.close(end)
    except OSError:
        return False
    return True


def on_terminal(t, words, which, env):
    """What a call gives to a terminal on `which` stream; the other one is a pipe."""
    master, slave = pty.openpty()
    pipe = "stderr" if which == "stdout" else "stdout"
    surroundings = {k: v for k, v in os.environ.items() if k != "NO_COLOR"} | env
    with subprocess.Popen([t.binary, *words], cwd=t.folder, env=surroundings,
                          stdin=subprocess.DEVNULL,
                          **{which: slave, pipe: subprocess.PIPE}) as process:
        os.close(slave)
        got = b""
        while True:
            try:
                more = os.read(master, 1 << 16)
            except OSError:  # EIO: the other end is closed
                break
            if not more:
                break
            got += more
        other = getattr(process, pipe).read()
    os.close(master)
    return got, other


def colour(t):
    t.write("one.candle", ONE)
    t.write("wrong.candle", WRONG)
    calls = [["check", "--notes", "one.candle"], ["check", "wrong.candle"], ["sheet", "one.candle"],
             ["sheet", "wrong.candle"], ["materials", "soy"], ["--help"], ["sheet", "none.candle"]]
    for words in calls:
        for env in ({}, {"NO_COLOR": "1"}, {"TERM": "xterm-256color", "COLORTERM": "truecolor"}):
            done = t.run(*words, env=env)
            t.true(f"{words} has escape codes in a pipe", ESCAPE not in done.out + done.err)
    term = {"TERM": "xterm-256color"}
    if not has_terminals():
        print("commands: this machine has no pseudo-terminals: colour on one is not looked at")
        return
    for words, which in ((calls[0], "stdout"), (calls[1], "stdout"), (calls[2], "stderr"),
                         (calls[3], "stderr")):
        got, other = on_terminal(t, words, which, term)
        t.true(f"{words} has no colour on a terminal: {got[:200]}", ESCAPE in got)
        t.true(f"{words} has escape codes in the pipe beside a terminal", ESCAPE not in other)
        plain, _ = on_terminal(t, words, which, {**term, "NO_COLOR": "1"})
        t.true(f"{words} has colour in spite of NO_COLOR", plain and ESCAPE not in plain)
        bare = re.sub(rb"\x1b\[[0-9;]*[mK]", b"", got)
        t.true(f"{words}: colour changes more than the colour", bare == plain)
    sheet, _ = on_terminal(t, calls[2], "stdout", term)
    t.true("a sheet has escape codes on a terminal", sheet and ESCAPE not in sheet)


def surroundings_do_not_matter(t):
    texts = {"one": ONE, "several": SEVERAL, "wrong": WRONG}
    for folder in ("here", "there/far/away"):
        for name, text in texts.items():
            t.write(f"{folder}/range/{name}.candle", text)
    calls = [["check", "--notes", "range"], ["sheet", "range/one.candle"],
             ["sheet", "range/several.candle", "low-tide"], ["sheet", "range/wrong.candle"],
             ["sheet", "range/several.candle", "low-tide", "--as", "toml"], ["materials"],
             ["compare", "range/one.candle", "range/several.candle"]]
    settings = [{}] + [{"LANG": x, "LC_ALL": x} for x in
                       ("C", "POSIX", "C.UTF-8", "de_DE.UTF-8", "tr_TR.UTF-8", "nonsense")]
    settings += [{"TZ": x} for x in ("UTC", "Pacific/Kiritimati", "America/St_Johns", "nonsense")]
    settings += [{"HOME": "/nonexistent", "TERM": "dumb", "COLUMNS": "20"}]
    for words in calls:
        results = {}
        for env in settings:
            for folder in ("here", "there/far/away"):
                done = t.run(*words, env=env, cwd=t.folder / folder)
                results.setdefault((done.status, done.out, done.err), (env, folder))
        t.true(f"{words} depends on one of {list(results.values())}", len(results) == 1)


# Wrong calls, help, materials ---------------------------------------------------------------


def wrong_calls(t):
    t.write("one.candle", ONE)
    for words in ([], ["burn", "one.candle"], ["check"], ["sheet"], ["--frobnicate"],
                  ["check", "--frobnicate", "one.candle"], ["sheet", "one.candle", "--as", "pdf"],
                  ["sheet", "one.candle", "--units", "imperial"], ["check", "one.candle", "--as",
                  "pdf"], ["sheet", "one.candle", "samphire", "one.candle"],
                  ["materials", "soy", "palm"], ["sheet", "one.candle", "-o"],
                  ["one.candle"], ["sheet", "one.candle", "samphire", "--all"]):
        t.refused(*words)


def help_and_version(t):
    general = t.call(0, "--help", out=True, err=False).out.decode()
    listed = re.findall(r"^  ([a-z]+) {2,}\S", general.partition("Subcommands:")[2], re.MULTILINE)
    t.true(f"--help lists {listed}", {"check", "sheet", "materials"} <= set(listed))
    t.true("-h is not --help", t.call(0, "-h").out.decode() == general)
    for name in listed:
        t.call(0, name, "--help", out=rf"\b{name}\b", err=False)
    t.call(0, "sheet", "--help", out="--make", err=False)
    t.call(0, "--version", out=r"\Awaxwright \d+\.\d+\.\d+\n\Z", err=False)


def materials(t):
    done = t.call(0, "materials", out=True, err=False)
    names = re.findall(r"^ +([a-z0-9-]+)\b", done.out.decode(), re.MULTILINE)
    t.true(f"only {len(names)} materials are listed", len(names) > 50)
    for name in ("soy", "lavender", "tin-8oz", "stearic-acid", "cotton-braid-medium"):
        t.true(f"{name} is not listed", name in names)
    soy = t.call(0, "materials", "soy", out=r"\bsoy\b", err=False).out.decode()
    for wanted in ("density", "melts", "max-load", "ceiling", "flash-point", "common practice",
                   "= 118 to 135 °F", "= 1.6 oz per lb of wax; 9.09% of wax and scent together",
                   "0.87 to 0.97 g/ml", "What is doubtful\n", "- low confidence: "):
        t.true(f"soy has no {wanted}", wanted in soy)
    # The one that has the name itself, and no other that has it in its own.
    paraffin = t.call(0, "materials", "paraffin", err=False).out.decode()
    t.true("paraffin is not one page", re.findall(r"(?m)^wax (.*)", paraffin) == ["paraffin"])
    t.call(0, "materials", "carnau", out=r"\Aadditive carnauba\n", err=False)  # a part of one name
    clove = t.call(0, "materials", "clove", out=r"(?m)^  clove-bud ", err=False).out.decode()
    t.true("clove has no list", "\n  clove-leaf " in clove and "source:" not in clove)
    for word in ("oil", "oils"):
        done = t.call(0, "materials", word, out=r"(?m)^  lavender .*\n +density ", err=False)
        t.true(f"materials {word} has waxes", "  soy " not in done.out.decode())
    t.call(0, "materials", "substance", out="cas .*hazards", err=False)
    t.true("a list is too wide", all(len(line) < 100 for line in clove.splitlines()))
    whole = t.call(0, "materials", err=False).out.decode()
    t.true("a material is listed twice", whole.count("\n  coumarin ") == 1)
    t.refused("materials", "nonsense", err="nonsense")
    t.refused("materials", "lavendar", err="did you mean `lavender`?")
    t.refused("materials", "aditive", err="did you mean `additive`?")


def why(t):
    done = t.call(0, "why", out=True, err=False).out.decode()
    for wanted in ("language", "  syntax ", "bench", "  over-scale "):
        t.true(f"{wanted} is not listed", f"\n{wanted}" in f"\n{done}")
    page = t.call(0, "why", "no-stir", out=r"\A# no-stir \(warning\)\n", err=False)
    t.true("the page has no example", b"```candle" in page.out)
    for wrong, near in (("no-stirr", "no-stir"), ("load-overlimit", "load-over-limit"),
                        ("NO-STIR", "`waxwright why`")):
        t.refused("why", wrong, err=re.escape(near))
    t.refused("why", "no-stir", "no-pour")


def pointer_to_page(t):
    """`check` ends with what can be mended, and on a terminal with the page of the gravest finding."""
    if not has_terminals():
        return
    t.write("one.candle", ONE)
    t.write("wrong.candle", ONE + WRONG[len(SHELF):].replace("samphire", "sea-holly"))
    t.write("clean.candle", SHELF)
    t.write("allowed.candle", ONE.replace("cure 10 days\n  }\n",
                                          'cure 10 days\n  }\n  allow wick-missing because "a melt"\n'))
    t.write("slip.candle", ONE.replace("cure 10 days", "let cure 10 days"))
    mending = b"one of these can be mended for you: waxwright check --mend slip.candle\n"
    for name, rule in (("one", b"wick-missing"), ("wrong", b"missing-basis"), ("clean", None),
                       ("allowed", None), ("slip", b"unknown-verb")):
        piped = t.run("check", "--notes", f"{name}.candle").out
        t.true(f"{name}: a page is named in a pipe", b"waxwright why" not in piped)
        shown, _ = on_terminal(t, ["check", "--notes", f"{name}.candle"], "stdout",
                               {"NO_COLOR": "1"})
        shown = shown.replace(b"\r\n", b"\n")
        pointer = b"to read more: waxwright why " + rule + b"\n" if rule else b""
        t.true(f"{name}: what can be mended is told in a pipe",
               mending in piped if name == "slip" else b"mended for you" not in piped)
        if name == "slip": # the counts stay the last line, and this stands just before it
            t.true(f"{name}: {piped[-200:]}", piped.splitlines(True)[-2] == mending and
                   piped.splitlines()[-1].endswith(b"in 1 file"))
        t.true(f"{name} ends so on a terminal: {shown[-120:]}", shown == piped + pointer)


# Heaps --------------------------------------------------------------------------------------


def measured(t, *words):
    """A call with its output thrown away; how much memory it took at most."""
    # With the address sanitizer it is the program that is measured, and not the freed memory that
    # the sanitizer holds back to watch.
    environment = {**os.environ, "ASAN_OPTIONS": "quarantine_size_mb=16"}
    with open(os.devnull, "r+b") as nowhere:
        started = time.monotonic()
        process = subprocess.Popen([t.binary, *words], cwd=t.folder, stdin=nowhere, stdout=nowhere,
                                   stderr=nowhere, env=environment, preexec_fn=lambda: resource.setrlimit(
                                       resource.RLIMIT_CPU, (PATIENCE, PATIENCE)))
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    return Done(process.returncode, b"", b"", usage.ru_maxrss * 1024, time.monotonic() - started)


def heaps_of_garbage(t):
    size = 10_000_000
    noise = bytearray()
    seed = 20261205
    while len(noise) < size:  # the same noise each time
        seed = seed * 6364136223846793005 + 1442695040888963407 & (1 << 64) - 1
        noise += seed.to_bytes(8, "little")[2:]
    printable = bytes(b % 94 + 33 if b > 3 else 10 for b in noise)
    heaps = {
        "noise": bytes(noise),
        "printable": printable,
        "zeros": bytes(size),
        "one-line": b"x" * size,
        "parentheses": b"let a = " + b"(" * size,
        "braces": b"{" * size,
        "open-text": b'let a = "' + b"x\\" * (size // 2),
        "blocks-in-one-line": b"wax a { density: " * (size // 17),
        "program": Path(t.binary).read_bytes()[:1_000_000],
        "short-lines": b"x\n" * 250_000,
    }
    for name, text in heaps.items():
        t.write("heap.candle", text)
        calls = [["check", "heap.candle"], ["tidy", "heap.candle"], ["sheet", "heap.candle", "--all"]]
        for words in calls if name in ("noise", "program") else calls[:2]:
            done = measured(t, *words)
            label = f"{words[0]} of {name}"
            t.true(f"{label} exits with {done.status}, not 1", done.status == 1)
            t.true(f"{label} takes {done.memory >> 20} MiB", done.memory < MOST_MEMORY)
            t.true(f"{label} takes {done.seconds:.1f} s", done.seconds < PATIENCE / 2)


def many_lines(t):
    """What grows with the lines of a file, and not with their square."""
    # The batch comes first: each of its lines has a recipe read that nothing has read before.
    many = range(6000)
    pours = "".join(f"  pour 6 r{i}\n" for i in many)
    recipes = "".join(f"recipe r{i} like samphire {{ makes: 7 jar }}\n" for i in many)
    t.write("pours.candle", f"batch flood {{\n{pours}}}\n" + ONE + recipes)
    haves = "  have 6 oz marsh-wax\n" * 20_000
    t.write("haves.candle", SHELF + f"stock shelf {{\n{haves}}}\n")
    # Each file uses the one before, and sees all of its names.
    lets = "".join(f"let n{{file}}-{i} = {i} g\n" for i in range(2500))
    for file in range(60):
        use = f'use "chain-{file - 1}.candle"\n' if file else ""
        t.write(f"chain-{file}.candle", use + lets.replace("{file}", str(file)))
    for name in ("pours.candle", "haves.candle", "chain-59.candle"):
        done = measured(t, "check", name)
        t.true(f"check of {name} exits with {done.status}, not 0", done.status == 0)
        t.true(f"check of {name} takes {done.memory >> 20} MiB", done.memory < MOST_LINES_TAKE)


TESTS = [check_streams, check_several_files, two_wins_over_one, unreadable, missing_use,
         empty_files, standard_input, sheet_streams, sheet_names, sheet_make, picture,
         sheet_in_ounces, sheet_from, sheet_from_stock, sheet_all, with_parts, buy, label, out_file,
         out_refused,
         full_and_closed, colour, surroundings_do_not_matter, wrong_calls, help_and_version,
         materials, why, pointer_to_page, many_lines, heaps_of_garbage] + check_options.TESTS + tidy_calls.TESTS


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--only", metavar="PART", default="", help="tests with this in their name")
    options = parser.parse_args()
    binary = Path(options.waxwright).resolve()
    if not binary.is_file():
        parser.error(f"no file {options.waxwright}")
    passed = failed = 0
    for test in TESTS:
        if options.only not in test.__name__:
            continue
        with tempfile.TemporaryDirectory(prefix="waxwright-commands-") as folder:
            t = Test(str(binary), folder)
            try:
                test(t)
            except Exception:  # one that breaks off must not hide the others
                t.faults.append(f"broke off: {traceback.format_exc()}")
        passed += t.passed
        failed += len(t.faults)
        for fault in t.faults:
            print(f"commands: {test.__name__}: {fault}")
    print(f"commands: {passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
