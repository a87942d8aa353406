"""Calls of `tidy`: what is read, what is written, what is told. For commands.py."""

import os
import re
import resource
import subprocess
import time

UNTIDY = b"language 1\r\nuse waxes\r\nwax grey like soy {ceiling:92C,cures:3 days} # ours\r\n"
TIDY = b"""language 1
use waxes
wax grey like soy {
  ceiling: 92 \xc2\xb0C
  cures:   3 days
}  # ours
"""
BROKEN = b"use waxes\nwax grey   like soy {\n  ceiling 92 C\n}\n"
ERROR = r"(?m)^broken.candle:3:11: error: .*\[syntax\]$"


def content(t, name):
    return (t.folder / name).read_bytes()


def left_over(t):
    return [name for name in os.listdir(t.folder) if name.startswith(".waxwright")]


def tidy_writes(t):
    file = t.write("one.candle", UNTIDY)
    file.chmod(0o640)
    t.call(0, "tidy", "one.candle", out=False, err=False)
    t.true("another form is written", content(t, "one.candle") == TIDY)
    t.true("its permissions are others", file.stat().st_mode & 0o777 == 0o640)
    os.utime(file, (1_000_000_000, 1_000_000_000))
    before = file.stat()
    t.call(0, "tidy", "one.candle", "./one.candle", out=False, err=False)
    after = file.stat()
    t.true("a tidy file is touched", (before.st_mtime_ns, before.st_ino) == (after.st_mtime_ns, after.st_ino))
    t.true(f"left over: {left_over(t)}", not left_over(t))


def tidy_several(t):
    for name in ("a/one.candle", "a/deep/two.candle", "three.candle"):
        t.write(name, UNTIDY)
    t.write("a/remarks.txt", UNTIDY)
    t.write("broken.candle", BROKEN)
    t.call(1, "tidy", "broken.candle", "a", "three.candle", out=False, err=ERROR)
    t.true("a file beside a broken one is not tidied", all(
        content(t, name) == TIDY for name in ("a/one.candle", "a/deep/two.candle", "three.candle")))
    t.true("what is no recipe file or is broken is changed",
           content(t, "broken.candle") == BROKEN and content(t, "a/remarks.txt") == UNTIDY)
    t.write("three.candle", UNTIDY)
    t.call(2, "tidy", "none.candle", "broken.candle", "three.candle", out=False,
           err=r"none.candle: No such file.*\n(.*\n)*broken.candle:3:")
    t.true("a file beside one that isn't there is not tidied", content(t, "three.candle") == TIDY)
    (t.folder / "empty").mkdir()
    t.refused("tidy", "empty", err="empty: has no .candle files")
    # Recipes that can't be made are tidied like any other.
    t.write("wrong.candle", "recipe ebb like nobody{load:6%}")
    t.call(0, "tidy", "wrong.candle", out=False, err=False)
    t.true("a recipe with errors is not tidied",
           content(t, "wrong.candle") == b"recipe ebb like nobody {\n  load: 6%\n}\n")


def tidy_standard_input(t):
    done = t.call(0, "tidy", "-", stdin=UNTIDY, err=False)
    t.true(f"`-` gives {done.out!r}", done.out == TIDY)
    t.true("a tidy text is not given back", t.call(0, "tidy", "-", stdin=TIDY).out == TIDY)
    t.refused("tidy", "-", stdin=BROKEN, status=1, err=r"(?m)^-:3:11: error: .*\[syntax\]$")
    t.call(1, "tidy", "--dry", "-", stdin=UNTIDY, out=r"\A--- -\n\+\+\+ -\n@@ -1,3 \+1,6 @@\n", err=False)
    t.call(0, "tidy", "--dry", "-", stdin=TIDY, out=False, err=False)


def tidy_dry(t):
    names = ["one.candle", "of two words.candle", 'a "quoted" one.candle', "ends-bare.candle"]
    for name in names:
        t.write(name, UNTIDY)
    t.write("ends-bare.candle", TIDY[:-1])
    t.write("tidy.candle", TIDY)
    t.write("broken.candle", BROKEN)
    t.call(0, "tidy", "--dry", "tidy.candle", out=False, err=False)
    t.call(1, "tidy", "--dry", "broken.candle", out=False, err=ERROR)
    t.call(2, "tidy", "--dry", "one.candle", "none.candle", out=r"\A--- one.candle\n", err="none.candle")
    done = t.call(1, "tidy", "--dry", "tidy.candle", *names, err=False)
    t.true("--dry writes", content(t, "one.candle") == UNTIDY)
    for program in (["patch", "--binary", "-p0", "-s"], ["git", "apply", "-p0"]):
        for name in names:
            t.write(name, UNTIDY if name != names[-1] else TIDY[:-1])
        ran = subprocess.run(program, cwd=t.folder, input=done.out, capture_output=True, check=False,
                             env={**os.environ, "GIT_CEILING_DIRECTORIES": "/", "GIT_DIR": "none"})
        for name in names:
            t.true(f"{program} makes another file of {name}: {ran.stdout} {ran.stderr}",
                   content(t, name) == TIDY)
    # Far apart they are hunks of their own, and near by one.
    far = b"# 1\n" * 3 + b"let a  = 1 g\n" + b"# 2\n" * 7 + b"let b  = 1 g\n" + b"# 3\n" * 6 + b"let c  = 1 g\n"
    heads = re.findall(rb"(?m)^@@.*@@$", t.run("tidy", "--dry", "-", stdin=far).out)
    t.true(f"other hunks: {heads}", heads == [b"@@ -1,7 +1,7 @@", b"@@ -9,11 +9,11 @@"])


def tidy_links(t):
    t.write("deep/one.candle", UNTIDY)
    os.symlink("deep/one.candle", t.folder / "link.candle")
    os.symlink("nowhere.candle", t.folder / "dangling.candle")
    t.call(0, "tidy", "link.candle", "deep/one.candle", out=False, err=False)
    t.true("a link is no link any more", os.readlink(t.folder / "link.candle") == "deep/one.candle")
    t.true("what a link leads to is not tidied", content(t, "deep/one.candle") == TIDY)
    t.refused("tidy", "dangling.candle", err="dangling.candle: No such file")
    t.true("a file came up", not (t.folder / "nowhere.candle").exists())
    t.refused("tidy", "/dev/stdin", stdin=UNTIDY, err="/dev/stdin: is no plain file")


def tidy_refused(t):
    t.write("one.candle", UNTIDY)
    t.refused("tidy", err="`tidy` needs a FILE")
    t.refused("tidy", "one.candle", "--dr", err="has no option `--dr`; did you mean `--dry`?")
    t.refused("tidy", "one.candle", "--dry=often")
    for words in (["tidy", "-"], ["tidy", "--dry", "one.candle"]):
        with open("/dev/full", "wb") as full:
            t.call(2, *words, stdin=UNTIDY, stdout=full, err="standard output: ")

    def little_space():
        resource.setrlimit(resource.RLIMIT_FSIZE, (64, 64))

    t.call(2, "tidy", "one.candle", err="one.candle: File too large", preexec_fn=little_space)
    t.true("a file that can't be written is touched", content(t, "one.candle") == UNTIDY)
    t.true(f"left over: {left_over(t)}", not left_over(t))


def tidy_takes_no_time(t):
    """A file of 20 000 lines, all of them another way, in proportion to its length."""
    block = "wax grey-{} like soy {{\n" + "".join(
        f"      {key}:1 g # {key}\n" for key in ("a", "bc", "def", "ghij")) * 4 + "      }}\n\n"
    t.write("long.candle", "".join(block.format(i) for i in range(1100)))
    started = time.monotonic()
    done = t.call(1, "tidy", "--dry", "long.candle", err=False)
    t.true("20 000 lines take long", time.monotonic() - started < 20)
    t.true("not every line is in it", done.out.count(b"\n+") > 18_000)
    t.write("wide.candle", f"wax grey {{ {'k' * 100_000}: 1 g }}\n" + "wax b { a: 1 g }\n" * 10
            + "wax b {\n  " + "k" * 100_000 + ":  1 g # c\n" + "  a: 1 g # c\n" * 5000 + "}\n")
    t.call(0, "tidy", "wide.candle", out=False, err=False)
    t.true("a wide key makes a file wide", len(content(t, "wide.candle")) < 400_000)


TESTS = [tidy_writes, tidy_several, tidy_standard_input, tidy_dry, tidy_links, tidy_refused,
         tidy_takes_no_time]
