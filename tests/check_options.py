"""The tests of `check` that are about its options, its forms for programs and --mend.

Not run by itself: commands.py runs them with its own.
"""

import ctypes
import json
import os
import re

SHELF = """language 1
use oils, waxes, wicks
vessel jar {
  fill: 200 ml
  of:   tin
}
"""
RECIPE = """recipe %s {
  makes: 6 jar
  wax:   soy
  load:  %s
  scent: lavender
%s  steps {
    melt to 75 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 62 °C
  }
}
"""
WARNED = SHELF + RECIPE % ("samphire", "6% of wax", "")  # wick-missing
ALLOWED = SHELF + RECIPE % ("samphire", "6% of wax",
                            '  allow wick-missing because "it is a wax melt"\n')
WRONG = SHELF + RECIPE % ("samphire", "6%", "")  # missing-basis
SLIP = SHELF + RECIPE % ("samphire", "6,5% of wax", "")  # a decimal comma


def which_findings(t):
    t.write("warned.candle", WARNED)
    t.write("allowed.candle", ALLOWED)
    t.write("wrong.candle", WRONG)
    t.call(0, "check", "warned.candle", "--quiet", out=r"\A1 warning, \d notes in 1 file\n\Z")
    t.call(1, "check", "wrong.candle", "--quiet", out=r"\A.*error: .*\[missing-basis\]")
    t.call(1, "check", "warned.candle", "--warnings-as-errors",
           out=r"warning: .*\n(?s:.*); warnings count as errors\n\Z", err=False)
    t.call(0, "check", "allowed.candle", "--warnings-as-errors", out="1 allowed\n", err=False)
    t.call(0, "check", "warned.candle", "--warnings-as-errors", "--without", "wick-missing",
           out=r"; other findings by other rules: 1\n\Z", err=False)
    t.call(1, "check", "wrong.candle", "--only", "wick-missing",
           out=r"; errors by other rules: 1;", err=False)
    both = t.call(1, "check", "wrong.candle", "--only", "wick-missing", "--only", "missing-basis",
                  err=False).out
    t.true("--only twice does not show both", b"[wick-missing]" in both
           and b"[missing-basis]" in both)
    t.refused("check", "warned.candle", "--only", "wick-mising", err="did you mean `wick-missing`")
    t.refused("check", "warned.candle", "--without", "nonsense", err="nonsense")
    t.refused("check", "warned.candle", "--without", "over-ceiling", err="never left out")
    t.refused("check", "warned.candle", "--quiet", "--notes")
    t.refused("check", "warned.candle", "--columns", "utf16", err="--as sarif")


def our_own_words(t):
    t.write("one.candle", WARNED)
    for words, told in ((["burn"], "`burn` is no command"), ([], "say what to do"),
                        (["chek", "one.candle"], "did you mean `check`"),
                        (["check"], "`check` needs a FILE"),
                        (["check", "--note", "one.candle"], "did you mean `--notes`"),
                        (["check", "one.candle", "--as", "sariff"], "did you mean `sarif`"),
                        (["check", "one.candle", "--as"], "needs something after it"),
                        (["check", "one.candle", "--quiet=x"], "`--quiet` takes nothing after it"),
                        (["sheet", "one.candle", "--make", "40.5"],
                         r"--make takes a whole number over 0, not 40\.5"),
                        (["materials", "soy", "palm"], "one word too many")):
        t.refused(*words, err=told)


def json_lines(t):
    t.write("wrong.candle", WRONG)
    t.write("allowed.candle", ALLOWED)
    done = t.call(1, "check", "--as", "json", "wrong.candle", "allowed.candle", err=False)
    lines = [json.loads(line) for line in done.out.decode().splitlines()]
    t.true("not every severity is there", {line["severity"] for line in lines}
           == {"error", "warning", "note"})
    basis = [line for line in lines if line["rule"] == "missing-basis"]
    t.true(f"missing-basis: {basis}", len(basis) == 1 and basis[0]["recipes"] == ["samphire"]
           and basis[0]["file"] == "wrong.candle" and len(basis[0]["fixes"]) == 2
           and not any(fix["certain"] for fix in basis[0]["fixes"]))
    allowed = [line.get("allowed_because") for line in lines if line["rule"] == "wick-missing"]
    t.true(f"the reasons are {allowed}", sorted(map(str, allowed)) == ["None", "it is a wax melt"])
    t.write("clean.candle", "")
    t.call(0, "check", "--as", "json", "clean.candle", out=False, err=False)
    t.call(2, "check", "--as", "json", "clean.candle", "none.candle", out=False, err="none.candle")


def sarif(t):
    t.write("wrong.candle", WRONG)
    t.write("allowed.candle", ALLOWED)
    done = t.call(1, "check", "--as", "sarif", str(t.folder / "wrong.candle"), "allowed.candle",
                  err=False)
    t.true("there is an absolute path in it", str(t.folder).encode() not in done.out)
    again = t.run("check", "--as", "sarif", str(t.folder / "wrong.candle"), "allowed.candle")
    t.true("it is not the same twice", done.out == again.out)
    run = json.loads(done.out)["runs"][0]
    told = {s["justification"] for r in run["results"] for s in r["suppressions"]}
    t.true(f"suppressed because {told}", told == {"it is a wax melt"})
    stdin = t.call(1, "check", "--as", "sarif", "-", stdin=WRONG.encode(), err=False).out
    artifact = json.loads(stdin)["runs"][0]["artifacts"][0]
    t.true(f"standard input is {artifact}", artifact["location"]["uri"] == "standard-input")
    run = json.loads(t.call(2, "check", "--as", "sarif", "wrong.candle", "none.candle",
                            err="none.candle").out)["runs"][0]
    t.true("an unreadable file is no failure", not run["invocations"][0]["executionSuccessful"])


def mend(t):
    slip = t.write("slip.candle", SLIP)
    slip.chmod(0o640)
    t.call(0, "check", "--mend", "slip.candle", err=False,
           out=r"\Aslip\.candle:\d+:\d+: mended: `6,5` is now `6\.5` \[syntax\]\n"
               r"slip\.candle:\d+:\d+: left: warning: .*\[wick-missing\]\n"
               r"1 mended; left: 1 warning, \d notes in 1 file\n\Z")
    t.true("more than the comma was changed", slip.read_text() == SLIP.replace("6,5", "6.5"))
    t.true("the file's mode was changed", slip.stat().st_mode & 0o777 == 0o640)
    before = slip.stat().st_mtime_ns, slip.stat().st_ino
    t.call(0, "check", "--mend", "slip.candle", out=r"^slip.*\n0 mended", err=False)
    t.true("a file without a mend was written",
           before == (slip.stat().st_mtime_ns, slip.stat().st_ino))
    odd = t.write("odd.candle", ("\ufeff" + SLIP).replace("\n", "\r\n").rstrip())
    t.call(0, "check", "--mend", "odd.candle", out="1 mended")
    t.true("the mark, the line ends or the last line changed", odd.read_bytes()
           == ("\ufeff" + SLIP).replace("\n", "\r\n").rstrip().replace("6,5", "6.5").encode())
    t.refused("check", "--mend", "-", stdin=SLIP.encode(), err="--mend")
    # A used file is only written if it is named.
    shelf = t.write("shelf.candle", SHELF.replace("200 ml", "2,5 cl"))
    t.write("user.candle", 'use "shelf.candle"\n' + WARNED.replace(SHELF, "use oils, waxes\n"))
    t.call(1, "check", "--mend", "user.candle", out="not mended: .* not named", err=False)
    t.true("a used file was written", b"2,5 cl" in shelf.read_bytes())
    t.call(0, "check", "--mend", "user.candle", "shelf.candle", out="1 mended", err=False)
    t.true("a named file was not written", b"2.5 cl" in shelf.read_bytes())
    # In a form for programs the mends are told on standard error.
    t.write("slip.candle", SLIP)
    done = t.call(0, "check", "--mend", "--as", "json", "slip.candle", err="mended: `6,5`")
    t.true("what is left is not there as JSON", all(
        json.loads(line)["rule"] != "syntax" for line in done.out.decode().splitlines()))
    # --without and --only say what is mended.
    t.write("slip.candle", SLIP)
    t.call(1, "check", "--mend", "--only", "unknown-name", "slip.candle", out="0 mended")


def mend_in_a_folder(t):
    for name in ("b", "a"):
        t.write(f"shop/{name}.candle", SLIP)
    t.write("shop/wrong.candle", WRONG)
    os.symlink("a.candle", t.folder / "shop/link.candle")
    done = t.call(1, "check", "--mend", "shop", err=False, out=r"2 mended; left: .* in 3 files\n\Z")
    order = re.findall(r"^shop/(\w+)\.candle:.*: mended", done.out.decode(), re.MULTILINE)
    t.true(f"mended in the order {order}", order == ["a", "b"])
    t.true("a link is no link any more", (t.folder / "shop/link.candle").is_symlink())


def every_file_once(t):
    """A folder of a thousand: what all use is opened once, which the kernel counts."""
    t.write("range/pots.candle", "pot can {\n  brimful: 2 l\n}\n")
    for i in range(1000):
        t.write(f"range/r{i:03}.candle", 'use "pots.candle"\n' + WARNED.replace("samphire", f"s{i}"))
    libc = ctypes.CDLL(None, use_errno=True)
    watch = libc.inotify_init1(os.O_NONBLOCK)
    opened = 0x20  # IN_OPEN
    added = libc.inotify_add_watch(watch, os.fsencode(t.folder / "range/pots.candle"), opened)
    if watch < 0 or added < 0:
        t.true("this machine can't count how often a file is opened", False)
        return
    done = t.call(0, "check", "range", out=r"1000 warnings, \d+ notes in 1001 files\n\Z", err=False)
    events = len(os.read(watch, 1 << 16)) // 16
    os.close(watch)
    t.true(f"a shared file is opened {events} times", events == 1)
    t.true(f"a thousand files take {done.seconds:.1f} s", done.seconds < 30)
    files = re.findall(r"^range/(\w+)\.candle:", done.out.decode(), re.MULTILINE)
    t.true("the files are not in order", files == sorted(files))
    t.call(0, "check", "range/r001.candle", "range/../range/r001.candle",
           str(t.folder / "range/r001.candle"), out=r"1 file\n\Z", err=False)


TESTS = [which_findings, our_own_words, json_lines, sarif, mend, mend_in_a_folder, every_file_once]
