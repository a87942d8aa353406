#!/usr/bin/env python3
"""The manual page, as three programs read it, and held to what `--help` says.

    man_page.py --waxwright BIN --tree TREE

Exit status 0: all is so; 1: what is not is printed, a line each; 2: a wrong call.
"""

import argparse
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

SECTIONS = ["NAME", "SYNOPSIS", "DESCRIPTION", "COMMANDS", "OPTIONS", "EXIT STATUS", "FILES",
            "EXAMPLES"]
READERS = [["man", "--warnings", "-E", "UTF-8", "-l"], ["groff", "-ww", "-man", "-Tutf8"],
           ["mandoc", "-Tlint", "-W", "warning"]]


def run(*words, **options):
    environment = {**os.environ, "LC_ALL": "C.UTF-8", "MANWIDTH": "100", "MANPAGER": "cat",
                   "MAN_KEEP_FORMATTING": "", "NO_COLOR": "1"}
    return subprocess.run([str(word) for word in words], capture_output=True, text=True,
                          env=environment, check=False, timeout=60, **options)


def try_readers(page):
    """None of them may have anything to say."""
    for reader in READERS:
        done = run(*reader, page)
        said = done.stderr + (done.stdout if reader[0] == "mandoc" else "")
        if done.returncode != 0 or said:
            yield f"{' '.join(reader)}: {said or done.returncode}"


def parts(text, head):
    """What stands under each heading, by its words."""
    pieces = re.split(head, text, flags=re.M)
    return dict(zip(pieces[1::2], pieces[2::2]))


def try_words(waxwright, page):
    """Each command with all its options, and the help of each; what stands above and below."""
    shown = re.sub(r".\x08", "", run("man", "-E", "UTF-8", "-l", page).stdout)
    shown = re.sub(r"\x1b\[[\d;]*m", "", shown)
    sections = parts(shown, r"^(\S.*)\n")
    names = [name for name in sections if not name.startswith("WAXWRIGHT(1)")]
    names = [name for name in names if not name.startswith("waxwright ")]  # the foot
    if names != SECTIONS:
        yield f"the sections are {names}"
        return
    commands = parts(sections["COMMANDS"], r"^   (\S+)\n")
    listed = run(waxwright, "--help").stdout.partition("Subcommands:")[2]
    names = re.findall(r"^  (\w+) +", listed, re.M)
    if list(commands) != names or len(names) < 5:
        yield f"the commands are {list(commands)}, not {names}"
    for name in names:
        help_text = run(waxwright, name, "--help").stdout
        for option, about in re.findall(r"^  (-[-\w]+)(?: [A-Z]+)? +(\S.*)$", help_text, re.M):
            flat = " ".join(commands.get(name, "").split())
            if option != "-h" and (option not in flat or about.replace("`", "") not in flat):
                yield f"{name}: `{option}`, {about}"
        if f"waxwright {name}" not in sections["SYNOPSIS"]:
            yield f"{name} is not in the synopsis"
    version = run(waxwright, "--version").stdout.strip()
    if version not in shown or "2026-02-03" not in shown:
        yield f"its foot has not {version} and the date"
    for status in "012":
        if not re.search(rf"^ +{status} +\S", sections["EXIT STATUS"], re.M):
            yield f"exit status {status} is not explained"


def try_examples(waxwright, tree, page):
    """Each call of EXAMPLES runs, among the examples of the documents."""
    examples = re.findall(r"^\.B (waxwright .*)\n", page.read_text().partition(".SH EXAMPLES")[2],
                          re.M)
    if len(examples) < 5:
        yield f"only {len(examples)} examples"
    with tempfile.TemporaryDirectory(prefix="waxwright-man-") as folder:
        work = Path(folder) / "work"
        shutil.copytree(tree / "examples", work)
        for words in (["init", "-q", "-b", "main"], ["add", "-A"],
                      ["-c", "user.name=a", "-c", "user.email=a@example.invalid", "commit", "-qm",
                       "all"]):
            run("git", *words, cwd=work)
        for example in examples:
            call = example.replace("\\-", "-").replace("\\&", "")
            done = run(waxwright, *shlex.split(call)[1:], cwd=work)
            if done.returncode != 0 or not done.stdout + done.stderr and "-o" not in call \
                    and "tidy" not in call:
                yield f"`{call}` exits with {done.returncode}: {done.stderr}"


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()
    waxwright = options.waxwright.resolve()
    with tempfile.TemporaryDirectory(prefix="waxwright-man-") as folder:
        page = Path(folder) / "waxwright.1"
        page.write_text(run(waxwright, "--man-page", "2026-02-03").stdout)
        faults = [*try_readers(page), *try_words(waxwright, page),
                  *try_examples(waxwright, options.tree.resolve(), page)]
    for fault in faults:
        print(f"man page: {fault}")
    print(f"man page: {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
