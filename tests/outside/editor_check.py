#!/usr/bin/env python3
"""The language server in talk with clients that are not ours.

    editor_check.py --waxwright BIN --client neovim
    editor_check.py --waxwright BIN --client protocol --modules FOLDER

`neovim` is Debian's Neovim, headless, with its own client of LSP. `protocol` is the client library
and the type guards of the protocol's makers, vscode-languageserver-protocol 3.17.5, installed from
the npm registry into FOLDER as tests/outside/editor/package-lock.json has it; it counts in UTF-16
once, and in UTF-8 once. Each dialogue runs in a copy of editor/desk, and what the client has in the
end must be what editor/CLIENT.expected says. REBLESS=1 writes that anew.

Exit 0: as recorded. 1: not. 77: the client could not be had (no npm, no registry), so that nothing
was tested; this is said loudly. 2: a wrong call.
"""

import argparse
import difflib
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent / "editor"
SKIPPED = 77
LONGEST = 300  # seconds


def desk(folder):
    """A copy of the desk, in a folder whose name an address has to write otherwise."""
    place = Path(folder) / "a desk é"
    shutil.copytree(HERE / "desk", place)
    return place


def run(command, place, **environment):
    done = subprocess.run(command, cwd=place, env={**os.environ, **environment}, timeout=LONGEST,
                          capture_output=True, text=True, check=False)
    if done.returncode != 0:
        print(f"{Path(command[0]).name} ended with {done.returncode}:")
        print(done.stdout + done.stderr)
    return done.returncode == 0


def neovim(asked, folder):
    told = Path(folder) / "dialogue"
    good = run(["nvim", "--clean", "--headless", "-n", "-S", str(HERE / "neovim.lua")],
               desk(folder), WAXWRIGHT=asked.waxwright, DIALOGUE=str(told),
               XDG_STATE_HOME=folder, XDG_CACHE_HOME=folder)
    return good, told.read_text(encoding="utf-8") if told.exists() else ""


def installed(modules):
    """Installs the client library, unless it is there; False where that can't be."""
    if not shutil.which("npm") or not shutil.which("node"):
        return False
    lock = (HERE / "package-lock.json").read_bytes()
    modules.mkdir(parents=True, exist_ok=True)
    mark = modules / "package-lock.json"
    if (modules / "node_modules").is_dir() and mark.exists() and mark.read_bytes() == lock:
        return True
    for name in ("package.json", "package-lock.json"):
        shutil.copy(HERE / name, modules / name)
    try:
        done = subprocess.run(["npm", "ci", "--no-audit", "--no-fund", "--ignore-scripts"],
                              cwd=modules, timeout=LONGEST, capture_output=True, text=True,
                              check=False)
    except subprocess.TimeoutExpired:
        return False
    if done.returncode != 0:
        print(done.stderr)
        shutil.rmtree(modules / "node_modules", ignore_errors=True)
    return done.returncode == 0


def protocol(asked, folder):
    text = ""
    for encoding in ("utf-16", "utf-8"):
        place, told = Path(folder) / encoding, Path(folder) / f"{encoding}.dialogue"
        place.mkdir()
        good = run(["node", str(HERE / "client.cjs"), asked.waxwright, str(told), encoding],
                   desk(place), NODE_PATH=str(asked.modules / "node_modules"))
        text += told.read_text(encoding="utf-8") if told.exists() else ""
        if not good:
            return False, text
    return True, text


def main():
    parser = argparse.ArgumentParser(description="the language server and clients of others")
    parser.add_argument("--waxwright", required=True)
    parser.add_argument("--client", required=True, choices=["neovim", "protocol"])
    parser.add_argument("--modules", type=Path)
    asked = parser.parse_args()
    asked.waxwright = str(Path(asked.waxwright).resolve())
    if asked.client == "protocol":
        if asked.modules is None:
            parser.error("--client protocol needs --modules")
        asked.modules = asked.modules.resolve()
        if not installed(asked.modules):
            print("NOT TESTED: the client library can't be had: no npm, or no registry answers")
            return SKIPPED
    with tempfile.TemporaryDirectory() as folder:
        good, told = (neovim if asked.client == "neovim" else protocol)(asked, folder)
    expected = HERE / f"{asked.client}.expected"
    if good and os.environ.get("REBLESS") == "1":
        expected.write_text(told, encoding="utf-8")
        return 0
    recorded = expected.read_text(encoding="utf-8")
    if told != recorded:
        sys.stdout.writelines(difflib.unified_diff(
            recorded.splitlines(True), told.splitlines(True), "recorded", "now"))
    elif good:
        print(f"{told.count(chr(10))} lines of dialogue as recorded")
    return 0 if good and told == recorded else 1


if __name__ == "__main__":
    sys.exit(main())
