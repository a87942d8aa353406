#!/usr/bin/env python3
"""Completion in bash, zsh and fish, each run for real.

    shells.py --waxwright BIN --tree TREE

The same lines are completed by all three. Exit status 0: all passed; 1: something did not, a line
each; 2: a wrong call.
"""

import argparse
import os
import pty
import re
import select
import shlex
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

PATIENCE = 20  # seconds for one completion

# A line up to the cursor; words that must be offered; words that must not.
LINES = [
    ("", "check tidy sheet buy compare materials why", "json"),
    ("ch", "check", "tidy sheet"),
    ("check --", "--as --notes --only --use-from --changed-since --help", "--make --units -h"),
    ("check --notes --n", "", "--notes"),
    ("check --only load-faint --on", "--only", ""),
    ("check --as ", "text json sarif", "toml markdown"),
    ("check --as j", "json", "text sarif"),
    ("sheet --as ", "markdown html toml", "json"),
    ("sheet --with cost,", "cost,buy cost,picture", "cost cost,cost"),
    ("sheet --units ", "us metric", ""),
    ("check --only load-", "load-over-limit load-near-limit load-faint", "missing-basis"),
    ("check --without missing-b", "missing-basis", ""),
    ("why over-c", "over-ceiling", "load-faint"),
    ("materials so", "soy", "lavender"),
    ("materials wa", "waxes wax", "oil"),
    ("check ti", "tide-line.candle", "notes.txt"),
    ("check ", "tide-line.candle first.candle folder/", "notes.txt"),
    ("check first.candle folder/", "folder/inside.candle", "tide-line.candle"),
    ("check --use-from ", "folder/", "tide-line.candle notes.txt"),
    ("sheet first.candle -o no", "notes.txt", "first.candle"),
    ("sheet tide-line.candle ", "tide-line tide-line-strong december-pour", "first.candle first"),
    ("buy tide-line.candle --make 3 d", "december-pour", "tide-line"),
    (r"sheet a\ space.candle n", "neap", "tide-line"),
    ("sheet 'a space.candle' n", "neap", "tide-line"),
    ("sheet gone.candle ", "", "first tide-line"),
    ("compare first.candle ti", "tide-line.candle", "notes.txt"),
    ("compare first.candle tide-line.candle ", "", "first.candle notes.txt"),
    ("check -- --", "", "--as --notes"),
    ("nonsense ", "", "check first.candle"),
    ("check --changed-since v", "v1", "main"),
    ("check --changed-since ma", "main", "v1"),
]
# bash hands an equals sign over as a word of its own; the others keep it in the word.
WITH_EQUALS = [("check --as=j", "json", "text"), ("check --use-from=fo", "folder", "first.candle")]


class Bench:
    """A folder to complete in, with the program on the path and completions where they belong."""

    def __init__(self, folder, binary, tree):
        self.folder = folder / "work"
        shutil.copytree(tree / "examples", self.folder)
        (self.folder / "notes.txt").write_text("")
        (self.folder / "a space.candle").write_text("recipe neap { makes: 6 jar }\n")
        (self.folder / "folder").mkdir()
        (self.folder / "folder/inside.candle").write_text("")
        programs = folder / "programs"
        programs.mkdir()
        (programs / "waxwright").symlink_to(binary)
        self.shells = tree / "compiler/driver/shells"
        self.home = folder / "home"
        self.home.mkdir()
        kept = {k: os.environ[k] for k in ("LANG", "LC_ALL") if k in os.environ}
        self.env = {**kept, "PATH": f"{programs}:{os.environ['PATH']}", "HOME": str(self.home),
                    "TERM": "dumb", "GIT_CONFIG_NOSYSTEM": "1", "XDG_CONFIG_HOME": str(self.home)}
        for words in (["init", "-q", "-b", "main"], ["add", "first.candle"],
                      ["-c", "user.name=a", "-c", "user.email=a@example.invalid", "commit", "-q",
                       "-m", "first"], ["tag", "v1"]):
            subprocess.run(["git", *words], cwd=self.folder, env=self.env, check=True)

    def run(self, *words, **options):
        return subprocess.run(words, cwd=self.folder, env=self.env, check=False, text=True,
                              capture_output=True, timeout=PATIENCE, **options)


def in_bash(bench, line):
    """As readline would: the words parted, an equals sign being one of its own."""
    typed = re.findall(r"""(?:'[^']*'|\\.|[^\s='\\])+|=""", "waxwright " + line)
    if line == "" or re.search(r"(?<!\\)\s$", line):
        typed.append("")
    script = (f"source {shlex.quote(str(bench.shells / 'waxwright.bash'))}\n"
              f"COMP_WORDS=({' '.join(shlex.quote(word) for word in typed)})\n"
              f"COMP_CWORD={len(typed) - 1}\n"
              "_waxwright; printf '%s\\n' \"${COMPREPLY[@]}\"")
    done = bench.run("bash", "--norc", "--noprofile", "-c", script)
    folders = {p.name for p in bench.folder.iterdir() if p.is_dir()}
    # Readline itself puts the slash behind a folder.
    return {w + "/" if w in folders and "=" not in line else w for w in done.stdout.splitlines()}


ZSHRC = """\
PROMPT= RPS1= zle_bracketed_paste=()
fpath=({shells} $fpath)
autoload -Uz compinit
compinit -u -d {home}/dump
bindkey '^I' complete-word
zstyle ':completion:*' insert-tab false
zstyle ':completion:*' completer _complete
compadd() {{
    local word
    for word in "$@"; do
        [[ $word == (-|--) ]] && break
        [[ $word == -*[OAD] ]] && {{ builtin compadd "$@"; return }}
    done
    local -a hits
    builtin compadd -A hits "$@"
    print -rl -- "${{hits[@]}}" >> {home}/got
    builtin compadd "$@"
}}
told() {{ print -r -- END >> {home}/got; comppostfuncs=(told) }}
comppostfuncs=(told)
: > {home}/ready
"""


class Zsh:
    """One zsh at a terminal of its own; what it would add is written into a file."""

    def __init__(self, bench):
        self.home = bench.home
        (bench.home / ".zshrc").write_text(ZSHRC.format(shells=bench.shells, home=bench.home))
        self.child, self.terminal = pty.fork()
        if self.child == 0:
            os.chdir(bench.folder)
            os.execvpe("zsh", ["zsh", "-d", "-i"], {**bench.env, "ZDOTDIR": str(bench.home)})
        self.wait_for(lambda: (bench.home / "ready").exists())

    def wait_for(self, holds):
        until = time.monotonic() + PATIENCE
        while not holds():
            if time.monotonic() > until:
                raise RuntimeError("zsh does not answer")
            if select.select([self.terminal], [], [], 0.02)[0]:
                os.read(self.terminal, 65536)

    def __call__(self, bench, line):
        got = self.home / "got"
        got.write_text("")
        os.write(self.terminal, b"\x15waxwright " + line.encode() + b"\t")
        # Once for all, or once for each completer; the first with words counts.
        self.wait_for(lambda: "END" in got.read_text().split("\n"))
        folders = {p.name for p in bench.folder.iterdir() if p.is_dir()}
        words = {w for w in got.read_text().splitlines() if w not in ("", "END")}
        if line.endswith("folder/"):
            words = {"folder/" + w for w in words}
        return {w + "/" if w in folders and "=" not in line else w for w in words}

    def close(self):
        os.close(self.terminal)
        os.waitpid(self.child, 0)


def in_fish(bench, line):
    stub = bench.shells / "waxwright.fish"
    done = bench.run("fish", "--no-config", "-c",
                     f"source {shlex.quote(str(stub))}; complete -C {fish_word('waxwright ' + line)}")
    words = {w.partition("\t")[0].replace("\\ ", " ") for w in done.stdout.splitlines()}
    return {w.partition("=")[2].rstrip("/") if "=" in line else w for w in words}


def fish_word(text):
    return "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"


def at_a_prompt(bench):
    """bash with readline: a word and a file with a space are put into the line."""
    child, terminal = pty.fork()
    if child == 0:
        os.chdir(bench.folder)
        os.execvpe("bash", ["bash", "--norc", "--noprofile", "-i"], {**bench.env, "PS1": "> "})
    os.write(terminal, f"source {bench.shells / 'waxwright.bash'}\n".encode())
    os.write(terminal, b"echo waxwright\x01\x0b")  # a line that is thrown away
    os.write(terminal, b"waxwright check --as j\t--no\ta\\ s\t\x01echo \x05>line 2>&1\nexit\n")
    until, shown = time.monotonic() + PATIENCE, b""
    while time.monotonic() < until:
        try:
            if select.select([terminal], [], [], 0.1)[0]:
                shown += os.read(terminal, 65536)
        except OSError:  # it has ended
            break
    os.close(terminal)
    os.waitpid(child, 0)
    line = bench.folder / "line"
    wanted = "waxwright check --as json --notes a space.candle"
    got = line.read_text().strip() if line.exists() else shown.decode()
    return [] if got == wanted else [f"bash at a prompt: {got!r}, not {wanted!r}"]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()
    for shell in ("bash", "zsh", "fish", "git"):
        if shutil.which(shell) is None:
            parser.error(f"there is no {shell}")
    faults, count = [], 0
    with tempfile.TemporaryDirectory(prefix="waxwright-shells-") as folder:
        bench = Bench(Path(folder).resolve(), options.waxwright.resolve(), options.tree.resolve())
        zsh = Zsh(bench)
        for line, wanted, unwanted in LINES + WITH_EQUALS:
            for shell, complete in (("bash", in_bash), ("zsh", zsh), ("fish", in_fish)):
                got = complete(bench, line)
                if "=" in line:
                    got = {word.rpartition("=")[2].rstrip("/") for word in got}
                count += 1
                missing, extra = set(wanted.split()) - got, set(unwanted.split()) & got
                if missing or extra or (not wanted and not unwanted and got):
                    faults.append(f"{shell}: `{line}`: not offered {missing}, offered {extra}; "
                                  f"in all {sorted(got)[:12]}")
        zsh.close()
        shown = bench.run("bash", "-c", f"source '{bench.shells / 'waxwright.bash'}'; "
                                        "complete -p waxwright")
        if shown.stdout.strip() != "complete -F _waxwright waxwright":
            faults.append(f"complete -p: {shown.stdout}{shown.stderr}")
        faults += at_a_prompt(bench)
        count += 2
    for fault in faults:
        print(f"shells: {fault}")
    print(f"shells: {count - len(faults)} passed, {len(faults)} failed")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
