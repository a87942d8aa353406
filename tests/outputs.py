#!/usr/bin/env python3
"""What may be written and what may be read: nothing is lost, and nothing is told that isn't ours.

    outputs.py --waxwright BIN

An output that is an input, or another output, by whatever spelling or link, is a wrong call, and
nothing is written. Files outside the recipe's folder, and files that are no recipes, are not read
by `use`. A call ends in a sentence where there are no threads and no memory to be had. What was
half written is taken away when a signal comes.

Exit status 0: all passed; 1: something did not.
"""

import argparse
import json
import os
import resource
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

RECIPE = """use waxes, oils, vessels, wicks
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


class Tests:
    def __init__(self, binary):
        self.binary = os.path.abspath(binary)
        self.passed = 0
        self.failed = 0

    def check(self, good, what):
        if good:
            self.passed += 1
        else:
            self.failed += 1
            print(f"FAILED: {what}")

    def run(self, folder, *words, **options):
        done = subprocess.run([self.binary, *words], cwd=folder, capture_output=True, text=True,
                              stdin=subprocess.DEVNULL, timeout=60, **options)
        return done.returncode, done.stdout, done.stderr


def snapshot(folder):
    """Every file with its bytes, and every link with where it leads."""
    return {str(path.relative_to(folder)):
            os.readlink(path) if path.is_symlink() else path.read_bytes()
            for path in sorted(Path(folder).rglob("*")) if path.is_symlink() or path.is_file()}


def folder_with_recipe(parent, name):
    folder = Path(parent) / name
    folder.mkdir()
    (folder / "first.candle").write_text('use "bench.candle"\n' + RECIPE)
    (folder / "bench.candle").write_text("pot can { brimful: 2 l, heated: water-bath }\n")
    (folder / "notes.txt").write_text(RECIPE)
    (folder / "deep").mkdir()
    return folder


def writes_over_nothing(t, parent):
    folder = folder_with_recipe(parent, "over")
    os.symlink("first.candle", folder / "link.md")
    os.link(folder / "bench.candle", folder / "hard.md")
    (folder / "other.candle").write_text("# another one\n")
    calls = [
        ["sheet", "first.candle", "-o", "first.candle"],
        ["sheet", "first.candle", "-o", "./deep/../first.candle"],
        ["sheet", "first.candle", "-o", str(folder / "first.candle")],
        ["sheet", "first.candle", "-o", "link.md"],
        ["sheet", "first.candle", "-o", "bench.candle"],
        ["sheet", "first.candle", "-o", "hard.md"],
        ["sheet", "first.candle", "-o", "other.candle"],
        ["sheet", "first.candle", "--picture", "first.candle"],
        ["sheet", "first.candle", "--picture", "other.candle"],
        ["sheet", "first.candle", "-o", "x.md", "--picture", "x.md"],
        ["sheet", "first.candle", "-o", "x.md", "--picture", "deep/../x.md"],
        ["sheet", "notes.txt", "-o", "notes.txt"],
        ["buy", "first.candle", "-o", "first.candle"],
        ["buy", "first.candle", "-o", "bench.candle"],
        ["buy", "first.candle", "-o", "link.md"],
        ["buy", "first.candle", "-o", "other.candle"],
        ["label", "first.candle", "-o", "first.candle"],
        ["label", "first.candle", "-o", "bench.candle"],
        ["label", "first.candle", "-o", "link.md"],
        ["label", "first.candle", "-o", "other.candle"],
    ]
    before = snapshot(folder)
    for call in calls:
        status, out, err = t.run(folder, *call)
        t.check(status == 2, f"{call}: exit status {status}, and 2 is wanted")
        t.check(out == "" and err.startswith("waxwright: "), f"{call}: says {out!r} {err!r}")
        t.check(snapshot(folder) == before, f"{call}: wrote something")
    os.symlink("first.candle", folder / "out.md")
    folder_call = ["sheet", "first.candle", "--all", "-o", "./"]
    os.symlink("bench.candle", folder / "first.md")
    before = snapshot(folder)
    status, _, _ = t.run(folder, *folder_call)
    t.check(status == 2 and snapshot(folder) == before, "a sheet of --all over a used file")


def writes_where_it_may(t, parent):
    folder = folder_with_recipe(parent, "may")
    os.symlink("deep/later.md", folder / "dangling.md")
    status, _, err = t.run(folder, "sheet", "first.candle", "-o", "dangling.md")
    t.check(status == 0 and (folder / "deep/later.md").is_file(), f"a dangling link: {err!r}")
    t.check((folder / "dangling.md").is_symlink(), "the link is a link still")
    os.symlink("round.md", folder / "round.md")
    status, _, err = t.run(folder, "sheet", "first.candle", "-o", "round.md")
    t.check(status == 2 and "circle" in err, f"a link to itself: {err!r}")
    long_name = "n" * 247 + ".md"
    status, _, err = t.run(folder, "sheet", "first.candle", "-o", long_name)
    t.check(status == 0 and (folder / long_name).is_file(), f"a name of 250 bytes: {err!r}")
    status, _, err = t.run(folder, "sheet", "first.candle", "-o", "n" * 300)
    t.check(status == 2 and "too long" in err, f"a name of 300 bytes: {err!r}")
    status, _, _ = t.run(folder, "sheet", "first.candle", "-o", "/dev/null", "--picture",
                         "/dev/null")
    t.check(status == 0, "a device takes two outputs")
    t.check(not [name for name in os.listdir(folder) if name.startswith(".waxwright")],
            "no temporary file is left")


def reads_only_recipes(t, parent):
    folder = folder_with_recipe(parent, "read")
    secret = Path(parent) / "secret.candle"
    secret.write_text("the-word-nobody-may-see\n")
    (folder / "inside.txt").write_text("the-word-nobody-may-see\n")
    os.symlink(secret, folder / "led-out.candle")
    os.mkfifo(folder / "pipe.candle")
    for used in ["../secret.candle", str(secret), "inside.txt", "led-out.candle", "pipe.candle",
                 "deep", "/etc/passwd", "/dev/stdin"]:
        (folder / "asks.candle").write_text(f'use "{used}"\n{RECIPE}')
        status, out, err = t.run(folder, "check", "asks.candle")
        t.check(status == 1 and "[use-missing]" in out, f"use of {used}: {out!r}")
        t.check("nobody-may-see" not in out + err and "root:" not in out + err,
                f"use of {used} shows what is in it")
    (folder / "asks.candle").write_text('use "../shelf/bench.candle"\n' + RECIPE)
    (Path(parent) / "shelf").mkdir()
    (Path(parent) / "shelf/bench.candle").write_text("scale shelf-scale { reads: 1 g }\n")
    status, out, _ = t.run(folder, "check", "asks.candle")
    t.check(status == 1 and "--use-from" in out, f"the hint says how: {out!r}")
    status, out, _ = t.run(folder, "check", "--use-from", "../shelf", "asks.candle")
    t.check(status == 0, f"--use-from allows it: {out!r}")


def ends_in_a_sentence(t, parent):
    folder = folder_with_recipe(parent, "small")
    many = RECIPE + "".join(f"recipe n{i}x like first {{ }}\n".replace("n", "n").replace(
        f"n{i}x", "n" + "".join(chr(97 + int(d)) for d in str(i))) for i in range(300))
    (folder / "many.candle").write_text(many)
    status, out, err = t.run(folder, "sheet", "many.candle", "--all")
    t.check(status == 0 and out.count("\n# ") == 300, f"with threads: {status} {err[-200:]!r}")

    def no_threads():
        resource.setrlimit(resource.RLIMIT_NPROC, (1, 1))

    if os.geteuid() == 0:  # root is not held by that limit: somebody else is asked
        def as_nobody():
            resource.setrlimit(resource.RLIMIT_NPROC, (1, 1))
            os.setgid(65534)
            os.setuid(65534)
        limit = as_nobody
    else:
        limit = no_threads
    os.chmod(parent, 0o755)
    os.chmod(folder, 0o755)
    # Looking for leaks takes a thread of its own.
    alone = t.run(folder, "sheet", "many.candle", "--all", preexec_fn=limit,
                  env={**os.environ, "ASAN_OPTIONS": "detect_leaks=0"})
    t.check(alone[0] == 0 and alone[1] == out, f"without threads: {alone[0]} {alone[2][-200:]!r}")

    def little_memory():
        resource.setrlimit(resource.RLIMIT_AS, (48 << 20, 48 << 20))

    # A build with sanitizers reserves terabytes of addresses, and can't be held to so few.
    if t.run(folder, "--version", preexec_fn=little_memory)[0] != 0:
        print("left out: this build can't run in little memory")
        return
    (folder / "big.candle").write_text(RECIPE + "# " + "x" * (20 << 20) + "\n")
    status, _, err = t.run(folder, "check", "big.candle", preexec_fn=little_memory)
    t.check(status == 2 and err.startswith("waxwright: ") and err.count("\n") == 1,
            f"without memory: {status} {err[-200:]!r}")


def signals_leave_nothing(t, parent):
    folder = folder_with_recipe(parent, "signal")
    (folder / "many.candle").write_text(RECIPE + "".join(
        "recipe no-" + "".join(chr(97 + int(d)) for d in str(i)) + " like first { }\n"
        for i in range(2000)))

    def little_space():
        signal.signal(signal.SIGXFSZ, signal.SIG_DFL)
        resource.setrlimit(resource.RLIMIT_FSIZE, (65536, 65536))

    before = snapshot(folder)
    done = subprocess.run([t.binary, "sheet", "many.candle", "--all", "-o", "all.md"], cwd=folder,
                          capture_output=True, preexec_fn=little_space, timeout=60, check=False)
    t.check(done.returncode == 2 and b"large" in done.stderr,
            f"a file over the limit: {done.returncode} {done.stderr!r}")
    t.check(snapshot(folder) == before, "a file over the limit leaves something")
    t.check(not [name for name in os.listdir(folder) if name.startswith(".waxwright")],
            "a temporary file is left")

    # Ended at any moment: either the file is whole or there is none, and nothing beside it.
    _, whole, _ = t.run(folder, "sheet", "many.candle", "--all")
    ended = 0
    for step in range(12):
        job = subprocess.Popen([t.binary, "sheet", "many.candle", "--all", "-o", "all.md"],
                               cwd=folder, stderr=subprocess.DEVNULL)
        time.sleep(step * 0.02)
        job.terminate()
        ended += job.wait(timeout=60) == -signal.SIGTERM
        left = folder / "all.md"
        t.check(not left.exists() or left.read_text() == whole, "half a file after SIGTERM")
        left.unlink(missing_ok=True)
        t.check(snapshot(folder) == before, "SIGTERM leaves something")
    t.check(ended > 0, "no run was ended early")


def texts_stay_texts(t, parent):
    """Marks that turn the direction of writing, and addresses that Markdown would make links of."""
    folder = folder_with_recipe(parent, "texts")
    for mark in "\u202e\u2066\u061c\u200f":
        for title in (mark, f"\\u{{{ord(mark):X}}}"):
            (folder / "turned.candle").write_text(
                RECIPE.replace("  makes:", f'  title: "safe {title} elbatsnu"\n  makes:'))
            status, out, err = t.run(folder, "sheet", "turned.candle")
            t.check(status == 1 and "[syntax]" in err and mark not in out + err,
                    f"U+{ord(mark):04X}: {status} {err!r}")
            for form in ("text", "json", "sarif"):
                _, out, _ = t.run(folder, "check", "turned.candle", "--as", form)
                t.check(mark not in out, f"U+{ord(mark):04X} in --as {form}")
        name = f"a{mark}b.candle"
        (folder / name).write_text("recipe r { oops }\n")
        _, out, _ = t.run(folder, "check", name, "--as", "json")
        t.check(mark not in out and json.loads(out.splitlines()[0])["file"] == name,
                f"U+{ord(mark):04X} in a file's name, as json")
    (folder / "links.candle").write_text(RECIPE.replace(
        "  makes:", '  title: "WWW.a.example, http://a.example/x, me@a.example"\n'
        '  notes: "see https://b.example or you+me@b.example or ftp://c.example"\n  makes:'))
    status, out, err = t.run(folder, "sheet", "links.candle")
    html = subprocess.run(["cmark-gfm", "-e", "autolink", "-e", "table"], input=out, text=True,
                          capture_output=True, check=True).stdout
    t.check(status == 0 and "a.example" in html and "<a " not in html, "a text became a link")


def main():
    parser = argparse.ArgumentParser(description="what may be written and read")
    parser.add_argument("--waxwright", required=True)
    t = Tests(parser.parse_args().waxwright)
    with tempfile.TemporaryDirectory(prefix="waxwright-outputs-") as parent:
        writes_over_nothing(t, parent)
        writes_where_it_may(t, parent)
        reads_only_recipes(t, parent)
        ends_in_a_sentence(t, parent)
        signals_leave_nothing(t, parent)
        texts_stay_texts(t, parent)
    print(f"{t.passed} passed, {t.failed} failed")
    return 1 if t.failed else 0


if __name__ == "__main__":
    sys.exit(main())
