#!/usr/bin/env python3
"""Looks at waxwright.lua in Neovim, with programs that are only called `waxwright`.

    neovim_client_check.py --files FOLDER

FOLDER is what waxwright-editor-files has written. Where there is no program, or one without a
language server, or one whose server ends at once, two recipe files are opened without a word, and
nothing is tried twice; a server that answers is started once for the two, and attached to both, with
its keys where none were set.
Exit status 0: all of it is so; 1: what is not is printed; 2: Neovim is not there.
"""

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

LOGGED = '#!/bin/sh\nPATH={path}\necho "$@" >> {log}\n'
WITHOUT = "echo '  check   Print every finding'\nexit 0\n"
WITH = "if [ \"$1\" = --help ]; then echo; echo '  lsp   Speak to an editor'; exit 0; fi\n"
ENDS = WITH + "exit 2\n"
SERVER = r'''
import json, sys
while True:
    head = b""
    while not head.endswith(b"\r\n\r\n"):
        byte = sys.stdin.buffer.read(1)
        if not byte:
            sys.exit()
        head += byte
    asked = json.loads(sys.stdin.buffer.read(int(head.lower().split(b"content-length:")[1].split()[0])))
    if asked.get("method") == "exit":
        sys.exit()
    if "id" in asked:
        told = {"capabilities": {"textDocumentSync": 1}} if asked["method"] == "initialize" else None
        body = json.dumps({"jsonrpc": "2.0", "id": asked["id"], "result": told}).encode()
        sys.stdout.buffer.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
        sys.stdout.buffer.flush()
'''
# omnifunc, tagfunc, is there the command, and what the keys do: `grn` was set before, and is kept
SET_UP = re.compile(r"v:lua\.vim\.lsp\.omnifunc v:lua\.vim\.lsp\.tagfunc 2 <Lua <Lua :min <Lua")
SCRIPT = """
set noswapfile hidden
let &runtimepath = '{site},' . &runtimepath
runtime! plugin/waxwright.lua
filetype plugin on
nnoremap grn :mine<CR>
edit a.candle
sleep 400m
edit b.candle
sleep 400m
call writefile([string(map(range(1, bufnr('$')), 'luaeval("#vim.lsp.buf_get_clients(_A)", v:val)')),
      \\ &omnifunc . ' ' . &tagfunc . ' ' . exists(':CandleTidy') . ' ' .
      \\ join(map(['K', 'gra', 'grn', 'grr'], 'maparg(v:val, "n")[:3]')), execute('messages')], 'out')
qall!
"""


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--files", required=True, type=lambda p: Path(p).resolve())
    options = parser.parse_args()
    nvim = shutil.which("nvim")
    if not nvim:
        print("neovim: install neovim")
        return 2
    cases = {  # what stands behind the log; clients of the two buffers; how often it was called
        "no program": (None, "[0, 0]", []),
        "no server": (WITHOUT, "[0, 0]", ["--help"]),
        "a server that ends": (ENDS, None, ["--help", "lsp"]),
        "a server": (WITH + f"exec {sys.executable} server.py\n", "[1, 1]", ["--help", "lsp"]),
    }
    faults = []
    for name, (body, clients, calls) in cases.items():
        with tempfile.TemporaryDirectory(prefix="waxwright-neovim-") as home:
            folder = Path(home)
            site = folder / "site"
            shutil.copytree(options.files / "vim", site)
            (site / "plugin").mkdir()
            shutil.copy(options.files / "nvim/waxwright.lua", site / "plugin")
            (folder / "server.py").write_text(SERVER)
            (folder / "look.vim").write_text(SCRIPT.format(site=site))
            (folder / "bin").mkdir()
            for letter in "ab":
                (folder / f"{letter}.candle").write_text("language 1\n")
            if body:
                program = folder / "bin/waxwright"
                program.write_text(LOGGED.format(path=os.environ["PATH"], log=folder / "log") + body)
                program.chmod(0o755)
            done = subprocess.run([nvim, "--headless", "-u", "NONE", "-i", "NONE", "-S", "look.vim"],
                                  cwd=home, capture_output=True, timeout=60,
                                  env={**os.environ, "HOME": home, "PATH": f"{home}/bin:/bin"})
            out = (folder / "out").read_text() if (folder / "out").exists() else "nothing"
            log = folder / "log"
            called = log.read_text().splitlines() if log.exists() else []
            said = done.stderr.decode("utf-8", "replace")
            if called != calls:
                faults.append(f"{name}: called with {called}, not {calls}")
            if clients and out.splitlines()[0] != clients:
                faults.append(f"{name}: clients {out!r}, not {clients}")
            if name == "a server" and not SET_UP.fullmatch(out.splitlines()[1]):
                faults.append(f"{name}: set up as {out.splitlines()[1]!r}")
            if clients == "[0, 0]" and out.splitlines()[1] != "  0   :min ":
                faults.append(f"{name}: set up as {out.splitlines()[1]!r}")
            if "Error" in out + said or "E5108" in out + said or out == "nothing":
                faults.append(f"{name}: {out} {said}")
    for fault in faults:
        print(f"neovim: {fault}")
    print(f"neovim: {len(cases)} kinds of program, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
