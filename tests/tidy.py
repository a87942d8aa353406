#!/usr/bin/env python3
"""Tidies every recipe file there is, and files made odd by chance, and holds what tidying promises.

    tidy.py --waxwright BIN --tree FOLDER [--seed N] [--variants N]

The files: examples, the standard library, the faulty files of tests/corpus, the golden cases (which
are what fuzzing begins with), and of each that has no mistake of writing some variants: blanks,
line ends and blocks written otherwise, and comments put in wherever one may stand. Held of each:

- a file with a mistake of writing is left as it is, and no other file is;
- tidied twice it is as tidied once;
- every comment is there still, and in the same order;
- so is every token, but for the spelling of a few units and commas between properties on one line;
- what `check` finds is the same, but for places and for the hint that shows a line as written;
- the sheets are the same, byte for byte, Markdown and TOML;
- however the blanks of a file stand, it has one tidy form;
- `tidy --dry` prints a diff with which `patch` makes the tidy file of the untidy one;
- no line has blanks at its end, no two blank lines follow one another, and the lines end with LF.

Exit status 0: all held; 1: something did not; 2: a wrong call.
"""

import argparse
import json
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

FOLDERS = ["examples", "stdlib", "tests/corpus", "tests/golden"]
FEWEST = 600  # files, variants not counted
PATIENCE = 300  # seconds for one process
TOKEN = re.compile(r"""(?P<comment>\#[^\r\n]*) | (?P<text>"(?:\\.|[^"\\\r\n])*") |
    (?P<date>\d{4}-\d\d-\d\d(?:[ T]\d\d:\d\d)?) | (?P<number>-?\d+/\d+|-?\d+(?:\.\d+)?) |
    (?P<degree>°[A-Za-z]?|[A-Za-z]°) | (?P<word>[A-Za-z][\w-]*) | (?P<doubt>\+-|±) |
    (?P<mark>[^\s])""", re.VERBOSE)
UNITS = {"C": "°C", "F": "°F", "mL": "ml", "L": "l"}
SPELLINGS = {plain: other for other, plain in UNITS.items()}
BLANKS = ["", " ", "  ", "\t", "   "]
KEY = re.compile(r"[A-Za-z][\w-]*[ \t]*:")
GROUP = re.compile(r"(?m)^([a-z-]+ [a-z0-9-]+(?: like [a-z0-9-]+)?) \{\n((?:  [a-z0-9-]+: .*\n)+)\}$")


class Token:
    def __init__(self, match, gap):
        self.kind, self.text, self.gap = match.lastgroup, match.group(), gap


def tokens_of(text):
    """The tokens, each with the blanks and line ends before it, and what is left at the end."""
    at, tokens = 0, []
    for match in TOKEN.finditer(text):
        tokens.append(Token(match, text[at:match.start()]))
        at = match.end()
    return tokens, text[at:]


def comments_of(text):
    return [t.text.rstrip(" \t") for t in tokens_of(text)[0] if t.kind == "comment"]


def words_of(text):
    """What the file says: its tokens, units spelt in one way, commas between properties left out."""
    tokens = [t for t in tokens_of(text.lstrip("\ufeff"))[0] if t.kind != "comment"]
    words = []
    for i, token in enumerate(tokens):
        follows_key = i + 2 < len(tokens) and tokens[i + 1].kind == "word" and tokens[i + 2].text == ":"
        if token.text == "," and follows_key:
            continue
        words.append(UNITS.get(token.text, token.text))
    return words


# --- variants --------------------------------------------------------------------------------


def is_operator(tokens, i):
    """A sum's operator, which has room on both sides."""
    behind = tokens[i + 1].gap if i + 1 < len(tokens) else ""
    return tokens[i].text in set("+-*/") and tokens[i].gap != "" and behind != ""


def other_blanks(rng, tokens, i):
    """The gap before a token, on one line, written otherwise."""
    before, token = tokens[i - 1].text, tokens[i]
    if token.gap == "":
        free = (before in ",:{}(=" or token.text in ",:{}()=" or token.kind == "doubt"
                or token.kind == "comment" or tokens[i - 1].kind == "doubt"
                or (tokens[i - 1].kind == "number" and token.text == "%") or before in "$€£")
        return rng.choice(BLANKS) if free else ""
    joined = before in ",:{}(=" or token.text in ",:{}()=" or token.text == "%"
    joined = joined and not (before == "," and token.kind == "number")  # `3,6`
    joined = joined or (token.kind == "degree" and token.text != "°")
    # A `-` or `+` needs its blanks, and so does what is no mark.
    joined = joined and not is_operator(tokens, i) and not is_operator(tokens, i - 1)
    return rng.choice(BLANKS if joined else BLANKS[1:])


def other_lines(rng, gap):
    """The gap over line ends: other indents, more blank lines where there is one."""
    count = len(re.findall(r"\r\n|\r|\n", gap))
    if count > 1:
        count += rng.choice([0, 0, 1, 3])
    return rng.choice(BLANKS) + "\n" + "".join(rng.choice(BLANKS) + "\n" for _ in range(count - 1)) \
        + rng.choice(BLANKS)


def comment(rng):
    return "#" + rng.choice(["", " ", "! ", " { ", ' "', " é, "]) + str(rng.randrange(10**6)) \
        + rng.choice(BLANKS)


def with_comments(rng, gap):
    """The gap over line ends, with comments at the line's end and on lines of their own."""
    first = rng.random() < 0.3
    lines = rng.choice(BLANKS) + (comment(rng) if first else "") + "\n"
    while rng.random() < 0.2:
        lines += rng.choice(["", rng.choice(BLANKS) + comment(rng)]) + "\n"
    return lines + gap.lstrip(" \t\r\n") + rng.choice(BLANKS) if gap.strip() else lines + gap.split("\n")[-1]


def rewritten(rng, text, comments):
    """The text with other blanks; with `comments`, with comments and line ends put in too."""
    tokens, rest = tokens_of(text)
    result, depth = "", 0
    for i, token in enumerate(tokens):
        if "\n" in token.gap or "\r" in token.gap:
            had = i > 0 and tokens[i - 1].kind == "comment"
            if comments and not had and rng.random() < 0.3:
                result += with_comments(rng, "\n" + token.gap.split("\n")[-1])
            else:
                result += other_lines(rng, token.gap)
        elif i == 0:
            result += token.gap
        else:
            room = depth > 0 and (tokens[i - 1].text == "(" or token.text == ")"
                                  or is_operator(tokens, i))
            behind = is_operator(tokens, i - 1) or tokens[i - 1].text == ","
            ahead = "".join(t.gap + t.text for t in tokens[i:i + 2])
            if (comments and (room or behind) and token.kind != "comment"
                    and not KEY.match(ahead.strip()) and token.text not in ("}", "allow", "let", "use")
                    and rng.random() < 0.2):
                result += with_comments(rng, "\n")
            else:
                result += other_blanks(rng, tokens, i)
        depth += (token.text == "(") - (token.text == ")")
        unit = i > 0 and tokens[i - 1].kind == "number" and token.text in SPELLINGS
        result += SPELLINGS[token.text] if unit and rng.random() < 0.3 else token.text
    return result + rest


def on_one_line(rng, text):
    """Some blocks of properties alone go on one line."""
    def joined(match):
        if "#" in match[2] or rng.random() < 0.5:
            return match[0]
        return f"{match[1]} {{ {', '.join(line.strip() for line in match[2].splitlines())} }}"
    return GROUP.sub(joined, text)


def with_line_ends(rng, text):
    text = text.replace("\n", rng.choice(["\n", "\n", "\r\n", "\r"]))
    return rng.choice(["", "", "\ufeff"]) + text


def variants_of(rng, text, count):
    """Pairs of a variant and whether it has the very tidy form of the text."""
    text = text.lstrip("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    for number in range(count):
        if number % 2 == 0:
            yield with_line_ends(rng, rewritten(rng, on_one_line(rng, text), False)), True
        else:
            yield with_line_ends(rng, rewritten(rng, text, True)), False


# --- what is held ----------------------------------------------------------------------------


class Tests:
    def __init__(self, binary):
        self.binary = binary
        self.passed = 0
        self.failed = 0

    def check(self, good, what):
        if good:
            self.passed += 1
            return
        self.failed += 1
        if self.failed <= 40:
            print(f"tidy: {what}")

    def run(self, folder, *words, stdin=b""):
        return subprocess.run([self.binary, *words], cwd=folder, input=stdin, capture_output=True,
                              timeout=PATIENCE)


def read(path):
    return path.read_bytes().decode("utf-8", "surrogateescape")


def without_places(value):
    """A finding's words, whatever blanks and spellings are in what it quotes of the file."""
    if isinstance(value, list):
        return [without_places(each) for each in value]
    if not isinstance(value, dict):
        if isinstance(value, str):
            value = re.sub(r"(\d\s*)(C|F|mL|L)(?![\w°])", lambda m: m[1] + UNITS[m[2]], value)
            return "".join(value.split())
        return value
    return {key: without_places(each) for key, each in value.items()
            if "line" not in key and "column" not in key}


def told_of(findings, file, is_variant):
    """What is compared of a file's findings. Some hints and fixes, which quote a line, are made
    only for blanks as people write them; so of a variant it is only what is wrong."""
    found = findings.get(str(file), [])
    if is_variant:
        found = [{key: each[key] for key in ("rule", "severity", "message", "recipes", "batches")}
                 for each in found]
    return without_places(found)


def findings_of(t, folder, use_from):
    """What is found, by file."""
    found = {}
    done = t.run(folder, "check", "--as", "json", "--use-from", use_from, ".")
    for line in done.stdout.decode("utf-8", "surrogateescape").split("\n"):
        if line:
            finding = json.loads(line)
            found.setdefault(finding["file"], []).append(finding)
    return found


def sheets_of(t, path, names):
    """All sheets of a file, in both forms; `names` are those of its batches."""
    calls = [["--all"]] + [[name] for name in names]
    return [t.run(path.parent, "sheet", path.name, *call, "--as", form, "--use-from", "..").stdout
            for call in calls for form in ("markdown", "toml")]


def patched(before, diff):
    """What `patch` makes of it."""
    with tempfile.TemporaryDirectory(prefix="waxwright-tidy-") as folder:
        file = Path(folder) / "x"
        file.write_bytes(before)
        done = subprocess.run(["patch", "--binary", "--silent", "-F0", "x"], cwd=folder, input=diff,
                              capture_output=True, timeout=PATIENCE)
        return file.read_bytes() if done.returncode == 0 else done.stdout + done.stderr


def hold_form(t, name, before, after):
    t.check(comments_of(before) == comments_of(after), f"{name}: other comments")
    t.check(words_of(before) == words_of(after), f"{name}: other tokens")
    lines = after.split("\n")
    t.check("\r" not in after and not after.startswith(("\ufeff", "\n")), f"{name}: CR, mark or blank line")
    t.check(after == "" or (lines[-1] == "" and lines[-2] != ""), f"{name}: how it ends")
    t.check(all(line == line.rstrip(" \t") for line in lines), f"{name}: blanks at a line's end")
    t.check("\n\n\n" not in after and "{\n\n" not in after and not re.search(r"\n\n *\}", after),
            f"{name}: blank lines")


def copied(tree, work):
    for folder in FOLDERS:
        shutil.copytree(tree / folder, work / folder)
    return sorted(path.relative_to(work) for path in work.rglob("*.candle"))


def add_variants(t, work, files, broken, args):
    """Variants beside their files; of each the file whose tidy form it has, or nothing."""
    rng = random.Random(args.seed)
    origin = {}
    for file in files:
        text = read(work / file)
        if file in broken or len(text) > 200_000:
            continue
        for number, (variant, same) in enumerate(variants_of(rng, text, args.variants)):
            name = file.with_name(f"{file.stem}~{number}.candle")
            (work / name).write_bytes(variant.encode("utf-8", "surrogateescape"))
            origin[name] = file if same else None
    return origin


def broken_files(t, folder, findings):
    """Files that are not tidied because of mistakes in reading them."""
    done = t.run(folder, "tidy", "--dry", ".")
    told = re.findall(r"(?m)^(\S+\.candle):\d+:\d+: error: .*\[(?:syntax|nesting)\]$",
                      done.stderr.decode("utf-8", "replace"))
    for file in set(told):
        t.check(any(each["rule"] in ("syntax", "nesting") for each in findings[file]),
                f"{file}: `tidy` finds a mistake and `check` none")
    return {Path(file) for file in told}


def tidy_all(t, folder):
    done = t.run(folder, "tidy", ".")
    t.check(done.returncode == 1 and done.stdout == b"", f"tidy . exits with {done.returncode}")


def hold_file(t, roots, file, origin, broken, findings):
    before, after, twice = ((root / file).read_bytes() for root in roots)
    t.check(after == twice, f"{file}: tidied twice it is another")
    if file in broken:
        t.check(before == after, f"{file}: has mistakes and is not left as it is")
        return
    old, new = read(roots[0] / file), read(roots[1] / file)
    hold_form(t, file, old, new)
    if origin.get(file):
        t.check(after == (roots[1] / origin[file]).read_bytes(), f"{file}: has another tidy form")
    found = [told_of(each, file, file in origin) for each in findings]
    t.check(found[0] == found[1], f"{file}: finds otherwise: "
            f"{[f for f in found[0] if f not in found[1]][:1]} {[f for f in found[1] if f not in found[0]][:1]}")
    dry = t.run(roots[0], "tidy", "--dry", str(file))
    t.check(dry.returncode == int(before != after), f"{file}: --dry exits with {dry.returncode}")
    t.check((dry.stdout != b"") == (before != after), f"{file}: --dry and no difference")
    if dry.stdout:
        t.check(patched(before, dry.stdout) == after, f"{file}: patch makes something else")
    if not any(each["severity"] == "error" for each in findings[0].get(str(file), [])):
        names = re.findall(r"(?m)^batch ([a-z0-9-]+)", new)
        sheets = [sheets_of(t, root / file, names) for root in roots[:2]]
        t.check(sheets[0] == sheets[1], f"{file}: other sheets")


def main():
    parser = argparse.ArgumentParser(description="what tidying promises")
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--tree", type=Path, required=True, metavar="FOLDER")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--variants", type=int, default=2, metavar="N")
    args = parser.parse_args()
    t = Tests(os.path.abspath(args.waxwright))

    with tempfile.TemporaryDirectory(prefix="waxwright-tidy-") as parent:
        roots = [Path(parent) / name for name in ("work", "once", "twice")]
        roots[0].mkdir()
        files = copied(args.tree.resolve(), roots[0])
        t.check(len(files) >= FEWEST, f"{len(files)} files, and {FEWEST} are wanted")
        broken = broken_files(t, roots[0], findings_of(t, roots[0], "."))
        origin = add_variants(t, roots[0], files, broken, args)
        found = findings_of(t, roots[0], ".")
        now_broken = broken_files(t, roots[0], found)
        for file in sorted(now_broken - broken):
            t.check(False, f"{file}: a variant has mistakes: {[f for f in found[str(file)] if f['rule']=='syntax'][:1]}")
        for before, after in ((roots[0], roots[1]), (roots[1], roots[2])):
            shutil.copytree(before, after)
            tidy_all(t, after)
        findings = [found, findings_of(t, roots[1], ".")]
        everything = files + sorted(origin)
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            list(pool.map(lambda file: hold_file(t, roots, file, origin, now_broken, findings),
                          everything))
    print(f"tidy: {len(everything)} files, {t.passed} passed, {t.failed} failed")
    return 1 if t.failed else 0


if __name__ == "__main__":
    sys.exit(main())
