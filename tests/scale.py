#!/usr/bin/env python3
"""How the work grows: four times as much of a thing takes less than six times the work.

    scale.py --waxwright BIN

Work is counted in instructions (valgrind's callgrind), which a busy machine doesn't change; never
in seconds. Each case is a file with n of something, made again with 4 n; what the program does
before it reads a line (measured with an empty recipe) is taken off both. One case is of memory, and
one holds recipes that are sold against the same ones that aren't.

Exit status 0: all stay within; 1: one doesn't; 2: no valgrind.
"""

import argparse
import os
import re
import resource
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

MOST = 6.0
MEMORY = 1 << 30  # bytes, for a batch of 20 000 lines

HEAD = """use waxes, oils, wicks, vessels
"""
RECIPE = """recipe first {
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


def letters(number):
    return "".join(chr(ord("a") + int(digit)) for digit in str(number))


def with_steps(lines):
    return HEAD + RECIPE.replace("    pour at", "".join(lines) + "    pour at")


def recipes(n):
    return HEAD + RECIPE + "".join(f"recipe r{letters(i)} like first {{ }}\n" for i in range(n))


def unknown_names(n):
    return HEAD + RECIPE + "".join(
        f"recipe r{letters(i)} like first {{ wax: zz{letters(i)}q }}\n" for i in range(n))


def doubtful(n):
    """n recipes, each with doubtful figures of its own."""
    return HEAD + RECIPE + "".join(
        f"vessel v{letters(i)} {{ brimful: 240 ml +- 5, bore: 80 mm +- 1, headspace: 9 mm +- 1, "
        f"of: tin }}\nrecipe r{letters(i)} like first {{ makes: 6 v{letters(i)}, load: (6 +- 0.2)% "
        f"of wax }}\n" for i in range(n))


def lets(n):
    return HEAD + "".join(f"let l{letters(i)} = {i + 1} g\n" for i in range(n)) + RECIPE


def batch_lines(n):
    return HEAD + RECIPE + "batch fair {\n" + "  pour 6 first\n" * n + "}\n"


def stock_lines(n):
    return HEAD + RECIPE + "stock shelf {\n" + '  have 1 kg soy lot "A"\n' * n + "}\n"


def one_line(n):
    return HEAD + RECIPE + "wax w { " + "x: 1 zz, " * n + "}\n"


def openers(n):
    return "recipe r { steps {" * n


def parentheses(n):
    return HEAD + "".join(f"let l{letters(i)} = ((((2))))\n" for i in range(n)) + RECIPE


def steps(n):
    return with_steps(["    hold 1 min\n"] * n)


def long_title(n):
    return HEAD + RECIPE.replace("  makes:", f'  title: "{"x" * n}"\n  makes:')


def comments(n):
    return HEAD + "# a remark\n" * n + RECIPE


def untidy(n):
    return HEAD + RECIPE + "".join(
        f"wax w{letters(i)} like soy {{melts:48 to  57C # {i}\n  cures :7 days}}\n" for i in range(n))


# name, what makes the text, n, the call; the picture goes to the null device.
PICTURE = ["sheet", "FILE", "--picture", "/dev/null", "-o", "/dev/null"]
CASES = [
    ("recipes", recipes, 100, ["check", "FILE"]),
    ("sheets", recipes, 50, ["sheet", "FILE", "--all", "-o", "/dev/null"]),
    ("unknown names", unknown_names, 300, ["check", "FILE"]),
    ("doubtful figures", doubtful, 30, ["check", "FILE"]),
    ("lets", lets, 300, ["check", "FILE"]),
    ("batch lines", batch_lines, 60, ["sheet", "FILE", "fair", "-o", "/dev/null"]),
    ("stock lines", stock_lines, 200, ["buy", "FILE", "first", "-o", "/dev/null"]),
    ("findings of one line", one_line, 300, ["check", "FILE"]),
    ("blocks within blocks on a line", openers, 400, ["check", "FILE"]),
    ("parentheses", parentheses, 300, ["check", "FILE"]),
    ("steps of a picture", steps, 150, PICTURE),
    ("letters of a title", long_title, 10000, PICTURE),
    ("lines of remarks", comments, 3000, ["check", "FILE"]),
    ("lines to tidy", untidy, 500, ["tidy", "--dry", "FILE"]),
]


SOLD = 1.4  # times
CONTAINS = "\n  contains: 20% wrack + 6% eelgrass + 0.5% holly + 73.5% rest-of-it"
SUBSTANCES = """
substance wrack { hazards: skin-sens-1b, skin-irrit-2 }
substance eelgrass { hazards: aquatic-chronic-1, m-factor: 10 }
substance holly { hazards: skin-sens-1a }
substance rest-of-it { hazards: none }
"""


def instructions(binary, folder, name, text, call):
    path = Path(folder) / f"{name}.candle"
    path.write_text(text, encoding="utf-8")
    words = [str(path) if word == "FILE" else word for word in call]
    done = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", binary,
                           *words], capture_output=True, text=True, check=False,
                          stdin=subprocess.DEVNULL, timeout=300)
    counted = re.search(r"Collected : (\d+)", done.stderr)
    if not counted:
        raise RuntimeError(f"{name}: {done.stderr[-300:]}")
    return int(counted[1])


def grows(binary, folder, case):
    """Of one case: how many times the work of n that of 4 n is."""
    name, make, n, call = case
    slug = name.replace(" ", "-")
    before = instructions(binary, folder, f"{slug}-0", make(1), call)
    once = instructions(binary, folder, f"{slug}-1", make(n), call) - before
    four = instructions(binary, folder, f"{slug}-4", make(4 * n), call) - before
    return name, once, four / max(once, 1)


def sold(binary, folder):
    """How many times the work a check is where each recipe has a label, of oils that say what they
    contain: those of tests/bench."""
    bench = Path(__file__).resolve().parent / "bench" / "generate.py"
    subprocess.run([sys.executable, bench, "200", folder], check=True, stdout=subprocess.DEVNULL)
    text = (Path(folder) / "bench-200.candle").read_text(encoding="utf-8")
    text = re.sub(r"(?m)^oil [^{\n]*\{", lambda found: found[0] + CONTAINS, text) + SUBSTANCES
    plain = instructions(binary, folder, "not-sold", text, ["check", "FILE"])
    text += 'maker the-studio { title: "A", address: "B", phone: "C", sells-in: eu, gb }\n'
    return instructions(binary, folder, "sold", text, ["check", "FILE"]) / plain


def memory_of_batch(binary, folder):
    path = Path(folder) / "batch.candle"
    path.write_text(batch_lines(20000), encoding="utf-8")
    child = subprocess.Popen([binary, "check", str(path)], stdout=subprocess.DEVNULL,
                             stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL,
                             preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS,
                                                                   (2 * MEMORY, 2 * MEMORY)))
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    return child.returncode, used.ru_maxrss * 1024


def main():
    parser = argparse.ArgumentParser(description="how the work grows")
    parser.add_argument("--waxwright", required=True)
    binary = os.path.abspath(parser.parse_args().waxwright)
    if not shutil.which("valgrind"):
        print("scale: valgrind is needed", file=sys.stderr)
        return 2
    failed = 0
    with tempfile.TemporaryDirectory(prefix="waxwright-scale-") as folder:
        with ThreadPoolExecutor(2) as pool:
            for name, once, times in pool.map(lambda case: grows(binary, folder, case), CASES):
                good = times <= MOST and once > 0
                failed += not good
                print(f"{'' if good else 'FAILED '}{name}: {once:,} instructions, "
                      f"and {times:.2f} times that for four times as many")
        times = sold(binary, folder)
        failed += times > SOLD
        print(f"{'FAILED ' if times > SOLD else ''}recipes that are sold: {times:.2f} times those "
              "that are not")
        status, used = memory_of_batch(binary, folder)
        good = status == 0 and used < MEMORY
        failed += not good
        print(f"{'' if good else 'FAILED '}a batch of 20 000 lines: {used >> 20} MiB, "
              f"exit status {status}")
    print(f"{len(CASES) + 2 - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
