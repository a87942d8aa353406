#!/usr/bin/env python3
"""Holds what `waxwright begin` promises: a set that works, all of it or nothing, over nothing.

    begin.py --waxwright BIN --tree TREE

- What it writes is what TREE/examples/begin and begin-us have; it checks without an error and
  without a warning, is tidy, and has a sheet, a sheet from the stock and a list of what to buy. Both
  sets say the same, each in its own units.
- Every line that waits behind a # is an error until its figure is there, and good with one.
- The commands it tells to type work in a shell as they stand, whatever the folder is called.
- Nothing that is there is written over; where it fails, nothing is left.
Exit status 0: all passed; 1: something did not, a line each.
"""

import argparse
import os
import re
import resource
import signal
import subprocess
import sys
import tempfile
import time
import traceback
from pathlib import Path

from commands import Test, as_nobody

SETS = {"metric": "begin", "us": "begin-us"}
NAMES = ["bench.candle", "recipe.candle", "stock.candle"]
WAITING = re.compile(r"^  # ([a-z0-9-]+: .*?)( {2,}# .*)?$", re.M)
FIGURE = re.compile(r"(?<![\w%°)])\d[\d./]*( \d/\d)?|\b(mm|ml|g|kg|l|in|oz|lb|quarts|per|GBP)\b|[°$]\S*")
TREE = Path()


def everything(folder):
    """Every path in a folder, with what a file holds and where a link leads."""
    return {str(path.relative_to(folder)): os.readlink(path) if path.is_symlink()
            else path.read_bytes() if path.is_file() else None
            for path in sorted(Path(folder).rglob("*"))}


def template(units, name):
    return (TREE / "examples" / SETS[units] / name).read_text("utf-8")


def is_whole(t, folder, units="metric"):
    there = everything(t.folder / folder)
    t.true(f"{folder} has {sorted(there)}", set(NAMES) <= set(there))
    for name in NAMES:
        t.true(f"{folder}/{name} is not the {units} one",
               there.get(name) == template(units, name).encode("utf-8"))


# What is written -------------------------------------------------------------------------------


def a_set_that_works(t):
    for units in SETS:
        words = ["--units", units] if units == "us" else []
        t.call(0, "begin", "set-" + units, *words, out=True, err=False)
        folder = f"set-{units}"
        recipe = f"{folder}/recipe.candle"
        is_whole(t, folder, units)
        t.call(0, "check", folder, out=r"\A\d notes in 3 files\n\Z", err=False)
        t.call(0, "check", "--warnings-as-errors", recipe, err=False)
        for name in NAMES:
            t.call(0, "check", f"{folder}/{name}", out=r"\A(no findings|\d notes?) in 1 file\n\Z")
        t.call(0, "tidy", "--dry", folder, out=False, err=False)
        first = r"\*\*167 °F \(75 °C\)\*\*" if units == "us" else r"\*\*75 °C \(167 °F\)\*\*"
        t.call(0, "sheet", recipe, out=first)
        t.call(0, "sheet", recipe, "--from", "stock", out="Made from the stock: ")
        t.call(0, "sheet", recipe, "--as", "html", "--with", "cost,buy", out=r"\A<!DOCTYPE html>")
        bought = t.call(0, "buy", recipe, "--make", "200", out="our-geranium")
        t.true("a price is missing", b"no price" not in bought.out)
    t.call(0, "begin", "plain", "--units", "metric")
    is_whole(t, "plain")
    t.true("it has more than it should", len(everything(t.folder / "plain")) == 3)


def two_sets_that_say_the_same(t):
    """But for figures and units, line by line; comments may speak of other figures too."""
    for name in NAMES:
        lines = {units: [FIGURE.sub("", line.partition("  #")[0]).split()
                         for line in template(units, name).splitlines()] for units in SETS}
        for number, (metric, us) in enumerate(zip(lines["metric"], lines["us"], strict=True), 1):
            if metric[:1] == ["load:"]:  # 6% of wax, 1 oz per lb of wax
                metric, us = metric[-1:], us[-1:]
            t.true(f"{name}:{number}: {metric} and {us}", metric == us)


def lines_that_wait(t):
    """Taken out of their comment, lines with dots are refused; with a figure for them, they work."""
    figures = ["9", "96", "25", "60", "70"]
    for units in SETS:
        t.call(0, "begin", units, "--units", units)
        stock = t.folder / units / "stock.candle"
        text = stock.read_text("utf-8")
        waiting = WAITING.findall(text)
        t.true(f"{len(waiting)} lines wait", len(waiting) == 5)
        for line, why in waiting:
            stock.write_text(text.replace(f"  # {line}{why}", f"  {line}{why}"), "utf-8")
            if "..." in line:
                t.call(1, "check", stock.relative_to(t.folder), out=r"error: .*\[syntax\]")
            else:
                t.call(0, "check", stock.relative_to(t.folder))
        filled = WAITING.sub(r"  \1\2", text)
        for figure in figures if units == "metric" else ["9", "205", "25", "2.4", "2.8"]:
            filled = filled.replace("...", figure, 1)
        stock.write_text(filled, "utf-8")
        t.call(0, "check", "--notes", f"{units}/recipe.candle",
               out=r"(?s)\A(?!.*limit-unknown).*\[untested\].*\n1 note in 1 file\n\Z")
        recipe = t.folder / units / "recipe.candle"
        text, burned = recipe.read_text("utf-8"), recipe.relative_to(t.folder)
        recipe.write_text(text.replace("# test-burn", "test-burn"), "utf-8")
        t.call(1, "check", burned, out=r"error: .*\[syntax\]")
        for figure in ("2026-06-20", "11" if units == "metric" else "3/8", "pass"):
            text = re.sub(r"(# test-burn.*?)\.\.\.", rf"\g<1>{figure}", text)
        recipe.write_text(text.replace("# test-burn", "test-burn"), "utf-8")
        t.call(0, "check", "--notes", burned, out=r"\Ano findings in 1 file\n\Z")


# What is told ------------------------------------------------------------------------------------


def commands_to_type(t):
    """They stand by themselves at the end, and a shell runs them."""
    odd = ["plain", "deep/er", "with space", "it's", "Salzwiese-für-Zoë", "$HOME", "`id`", "a;b",
           "*", "~", "tab\there", "line\nend", "\x1b[31mred", "\u202eturned", "-dash", "back\\slash",
           '"quoted"', "#1", "=x", "!", "{a,b}", "end/", "./here", "../" + t.folder.name + "/up"]
    for folder in odd:
        done = t.call(0, "begin", "--", folder, err=False)
        is_whole(t, folder)
        told = done.out.decode("utf-8")
        t.true(f"{folder!r}: what steers a terminal is told raw",
               not re.search(r"[\x00-\x09\x0b-\x1f\x7f\u202e]", told))
        typed = told.partition("after each change:\n\n")[2].splitlines()
        t.true(f"{folder!r}: {typed} are not two commands", len(typed) == 2)
        for command, wanted in zip(typed, (rb"^2 notes in 1 file\n$", rb"^# Low Water\n")):
            ran = subprocess.run(["bash", "-c", command], cwd=t.folder, capture_output=True,
                                 check=False)
            t.true(f"{folder!r}: {command}: {ran.stdout[:200]} {ran.stderr[:200]}",
                   ran.returncode == 0 and re.search(wanted, ran.stdout))
    done = t.call(0, "begin", "told")
    for name in NAMES:
        first = template("metric", name).splitlines()[0]
        t.true(f"what {name} is for is not told", first.strip("# ").encode() in done.out)
    t.true("the path is not as it was typed", b"  told/bench.candle\n" in done.out)
    t.true("a slash is told twice", b"//" not in t.run("begin", "slash/").out)


def here_and_behind_links(t):
    t.write("here/notes.txt", "other files may be there")
    t.write("here/other.candle", "# another recipe\n")
    t.call(0, "begin", ".", cwd=t.folder / "here", out=r"sheet \./recipe\.candle\n\Z", err=False)
    is_whole(t, "here")
    (t.folder / "real").mkdir()
    os.symlink("real", t.folder / "link")
    t.call(0, "begin", "link", out="link/bench.candle", err=False)
    is_whole(t, "real")
    t.call(0, "begin", t.folder / "absolute" / "path", out=re.escape(f"{t.folder}/absolute/path"))
    is_whole(t, "absolute/path")


def modes(t):
    t.call(0, "begin", "open", preexec_fn=lambda: os.umask(0o022))
    t.call(0, "begin", "closed", preexec_fn=lambda: os.umask(0o077))
    got = [(t.folder / name).stat().st_mode & 0o777
           for name in ("open", "open/bench.candle", "closed", "closed/bench.candle")]
    t.true(f"modes are {[oct(mode) for mode in got]}", got == [0o755, 0o644, 0o700, 0o600])


# What is refused -------------------------------------------------------------------------------


def over_nothing(t):
    t.call(0, "begin", "twice")
    (t.folder / "twice/bench.candle").write_text("# mine\n")
    before = everything(t.folder)
    again = t.refused("begin", "twice", err="nothing is written; name another folder\n")
    t.true("it does not say which", all(f"twice/{n}: is there".encode() in again.err
                                        for n in NAMES))
    t.refused("begin", "twice", "--units", "us")
    t.true("two runs change something", everything(t.folder) == before)
    for name in NAMES:
        for kind in ("file", "folder", "link", "dangling"):
            folder = t.folder / f"{kind}-{Path(name).stem}"
            folder.mkdir()
            path = folder / name
            if kind == "folder":
                path.mkdir()
            elif kind == "file":
                path.write_text("")
            else:
                os.symlink("../twice/stock.candle" if kind == "link" else "nowhere.candle", path)
            before = everything(t.folder)
            told = t.refused("begin", folder.name, err=f"{folder.name}/{name}: is there already")
            t.true(f"{folder.name}: more is told", told.err.count(b"is there already") == 1)
            t.true(f"{folder.name}: something is written", everything(t.folder) == before)


def no_folder(t):
    t.write("file", "some text")
    os.symlink("nowhere", t.folder / "dangling")
    os.symlink("circle", t.folder / "circle")
    before = everything(t.folder)
    for folder in ("file", "file/", "file/in/it", "dangling", "dangling/in", "circle", "new/../file"):
        t.refused("begin", folder, err=": is no folder; nothing is written\n")
    t.refused("begin", "n" * 300, err="File name too long; nothing is written\n")
    t.refused("begin", "made/" + "n" * 300, err="File name too long; nothing is written\n")
    t.refused("begin", "/proc/waxwright/new", err="/proc/waxwright: ")
    t.true("a refused call leaves something", everything(t.folder) == before)
    t.refused("begin", err="needs a FOLDER")
    t.refused("begin", "", err="FOLDER names no folder")
    t.refused("begin", "-", err="FOLDER names no folder")
    t.refused("begin", "first.candle", err="`.candle`")
    t.refused("begin", "a", "b", err="one word too many")
    t.refused("begin", "a", "--units", "imperial", err="--units takes us or metric")
    t.true("a wrong call leaves something", everything(t.folder) == before)


def not_writable(t):
    with as_nobody(t) as nobody:
        closed = t.folder / "closed"
        closed.mkdir()
        closed.chmod(0o555)
        t.refused("begin", "closed", err="closed/bench.candle: Permission denied; nothing", **nobody)
        t.refused("begin", "closed/new", err="closed/new: Permission denied; nothing", **nobody)
        t.true("something is there", not everything(closed))


def full(t):
    """A disk that takes one file and then no more; what was made is taken back."""
    sizes = [len(template("metric", name).encode()) for name in NAMES]

    def takes(size):
        def prepare():
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))
        return prepare

    t.write("mine/notes.txt", "mine")
    before = everything(t.folder)
    for size in sorted({0, *(s - 1 for s in sizes)}):
        for folder in ("new", "a/b/c", "mine"):
            t.refused("begin", folder, err=r"\.candle: File too large; nothing is written\n",
                      preexec_fn=takes(size))
            t.true(f"{folder}, {size} bytes: something is left", everything(t.folder) == before)
    t.call(0, "begin", "a/b/c", preexec_fn=takes(max(sizes)))
    is_whole(t, "a/b/c")
    with open("/dev/full", "wb") as nowhere:
        t.call(2, "begin", "untold", stdout=nowhere, err="standard output: No space left on device")
    is_whole(t, "untold")


def ended_early(t):
    """All of it or nothing, whenever a signal comes."""
    for step in range(40):
        folder = t.folder / f"ended-{step}"
        job = subprocess.Popen([t.binary, "begin", "a/b"], cwd=_made(folder),
                               stdout=subprocess.DEVNULL)
        time.sleep(step * 0.0003)
        job.terminate()
        job.wait(timeout=60)
        left = everything(folder)
        t.true(f"{sorted(left)} is left", not left or len(left) == len(NAMES) + 2)


def _made(folder):
    folder.mkdir()
    return folder


def several_at_once(t):
    """One of them writes the set; the others say that it is there. All wait for the same gun."""
    for step in range(40):
        gate, gun = os.pipe()
        jobs = [subprocess.Popen(["sh", "-c", 'read _; exec "$0" begin "$1"', t.binary,
                                  f"race-{step}"], cwd=t.folder, stdin=gate,
                                 stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
                for _ in range(4)]
        os.close(gate)
        os.close(gun)
        ends = sorted(job.wait(timeout=60) for job in jobs)
        t.true(f"they end with {ends}", ends == [0, 2, 2, 2])
        is_whole(t, f"race-{step}")


TESTS = [a_set_that_works, two_sets_that_say_the_same, lines_that_wait, commands_to_type,
         here_and_behind_links, modes, over_nothing, no_folder, not_writable, full, ended_early,
         several_at_once]


def main():
    global TREE
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path, metavar="BIN")
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()
    TREE = options.tree.resolve()
    passed = failed = 0
    for test in TESTS:
        with tempfile.TemporaryDirectory(prefix="waxwright-begin-") as folder:
            t = Test(str(options.waxwright.resolve()), folder)
            try:
                test(t)
            except Exception:  # one that breaks off must not hide the others
                t.faults.append(f"broke off: {traceback.format_exc()}")
        passed += t.passed
        failed += len(t.faults)
        for fault in t.faults:
            print(f"begin: {test.__name__}: {fault}")
    print(f"begin: {passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
