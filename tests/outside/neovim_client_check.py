#!/usr/bin/env python3
"""Looks at waxwright.lua in Neovim, with programs that are only called `waxwright`.

    neovim_client_check.py --files FOLDER

FOLDER is what waxwright-editor-files has written. Where there is no program, or one without a
language server, or one whose server ends at once, two recipe files are opened without a word, and
nothing is tried twice; a server that answers is started once for the two, and attached to both, with
its keys where none were set. Without a server the keys say why, and change nothing. Of a server's
answers the right things are made: what is chosen is put where it belongs, with what comes with it;
findings are shown, the gravest first; a new name and a tidy form say what was done.
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

def span(line, begin, end):
    return {"start": {"line": line, "character": begin}, "end": {"line": line, "character": end}}

def item(at, begin, end, label, text, **more):
    return {"label": label, "textEdit": {"range": span(at["line"], begin, end), "newText": text}, **more}

def answer(method, params):
    if method == "initialize":
        return {"capabilities": {"textDocumentSync": 2, "hoverProvider": True, "renameProvider": True}}
    if method == "textDocument/completion":
        at = params["position"]
        end = at["character"]
        oils = {"additionalTextEdits": [{"range": span(0, 0, 0), "newText": "use oils\n"}]}
        if end > 9:
            return [item(at, 9, end + 2, "pine", "pine", sortText="2", **oils),
                    item(at, 9, end + 2, "pinecone", "pinecone", sortText="3"),
                    item(at, 9, end + 2, "rest pine", "rest pine", sortText="1")]
        if end == 5:
            return [item(at, 2, end, "wax", "wax: "), item(at, 2, end, "note", 'note ""')]
        return [item(at, 2, end, "cool to 65", "cool to 65", filterText="let cool"),
                item(at, 2, end, "steps", "steps {\n    ")]
    if method == "textDocument/inlayHint":
        return [{"position": {"line": line, "character": 9}, "label": "= %d g" % grams}
                for line, grams in ((0, 1), (1, 80), (1, 20))]
    if method == "textDocument/formatting":
        return []
    if method == "textDocument/prepareRename":
        return {"range": span(0, 0, 3), "placeholder": "lan"}
    if method == "textDocument/rename":
        if params["newName"] == "9":
            raise Exception("`9` can't be a name: " + "it says so in more words " * 9)
        uri = params["textDocument"]["uri"]
        return {"changes": {each: [{"range": span(0, 0, 0), "newText": ""}]
                            for each in (uri, uri.replace("a.candle", "b.candle"))}}
    return None

def send(message):
    body = json.dumps({"jsonrpc": "2.0", **message}).encode()
    sys.stdout.buffer.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
    sys.stdout.buffer.flush()

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
        try:
            send({"id": asked["id"], "result": answer(asked["method"], asked.get("params"))})
        except Exception as refused:
            send({"id": asked["id"], "error": {"code": -32803, "message": str(refused)}})
    elif asked["method"] == "textDocument/didOpen" and "findings" in sys.argv:
        send({"method": "textDocument/publishDiagnostics", "params": {
            "uri": asked["params"]["textDocument"]["uri"], "diagnostics": [
                {"range": span(0, 0, 3), "severity": 4, "code": "c", "message": "a note"},
                {"range": span(0, 5, 6), "severity": 1, "code": "b", "message": "second"},
                {"range": span(0, 4, 5), "severity": 1, "code": "a", "message": "first\nits hint"},
                {"range": span(2, 1, 2), "severity": 3, "code": "c", "message": "a note"}]}})
'''
# omnifunc, tagfunc, is there the command, and what the keys do: `grn` was set before, and is kept
SET_UP = re.compile(r"v:lua\.(?:vim\.lsp\.omnifunc|waxwright_complete) v:lua\.vim\.lsp\.tagfunc 2 <Lua <Lua :min <Lua")
# What neovim_keys.lua tells, with Neovim up to 0.10; `!` stands where the cursor was in the end
TOLD = """\
ends: 0  ■ first|1   ·  = 80 g + 20 g|2  ■ a note
findings:  error: first [a] |   its hint | error: second [b] | note: a note [c]\x20
closed: true
]d: 1|4
[d: 1|0
asked: New name: lan
said: not tidied: mend the errors first|1 other file was changed too, and not saved yet: `:wa` saves all|\
`9` can't be a name: it says so in more words it says so in more wo…
longest: true
complete   LET co: language 1|  cool to 65!|end
complete   scent: PI--: use oils|language 1|  scent: pine!|end
complete   scent: pin: use oils|language 1|  scent: pine!|end
complete   st: language 1|  steps {|    !|end
complete   nothing: language 1|  nothing!|end
complete   wax: language 1|  wax: soy!|end
complete   not: language 1|  note "a"!|end
indent: 2|4|2|0
NUL: 0
formatoptions: true
completeopt here: menuone,noinsert
completeopt there: menu,preview
"""
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
normal K
sleep 200m
call writefile([string(map(range(1, bufnr('$')), 'luaeval("#vim.lsp.buf_get_clients(_A)", v:val)')),
      \\ &omnifunc . ' ' . &tagfunc . ' ' . exists(':CandleTidy') . ' ' .
      \\ join(map(['K', 'gra', 'grn', 'grr'], 'maparg(v:val, "n")[:3]')), execute('messages')], 'out')
qall!
"""


def lay_out(folder, files, body):
    """Two recipes, a program `waxwright` that does `body`, and the files of the editor."""
    site = folder / "site"
    shutil.copytree(files / "vim", site)
    (site / "plugin").mkdir()
    shutil.copy(files / "nvim/waxwright.lua", site / "plugin")
    shutil.copytree(files / "nvim/lua", site / "lua")
    (folder / "server.py").write_text(SERVER)
    (folder / "look.vim").write_text(SCRIPT.format(site=site))
    (folder / "bin").mkdir()
    for letter in "ab":
        (folder / f"{letter}.candle").write_text("language 1\n\n  end\n")
    if body:
        program = folder / "bin/waxwright"
        program.write_text(LOGGED.format(path=os.environ["PATH"], log=folder / "log") + body)
        program.chmod(0o755)


def run(nvim, folder, *arguments):
    """What the script has written to `out`, and what Neovim has said."""
    done = subprocess.run([nvim, "--headless", "-n", "-u", "NONE", "-i", "NONE", *arguments],
                          cwd=folder, capture_output=True, timeout=60,
                          env={**os.environ, "HOME": str(folder), "PATH": f"{folder}/bin:/bin"})
    out = (folder / "out").read_text() if (folder / "out").exists() else "nothing"
    return out, done.stderr.decode("utf-8", "replace")


def faults_of_keys(nvim, files):
    """What neovim_keys.lua tells otherwise than is right."""
    version = subprocess.run([nvim, "--version"], capture_output=True, text=True).stdout
    if tuple(map(int, re.search(r"v(\d+)\.(\d+)", version).groups())) >= (0, 11):
        return []  # it has a completion and windows of its own
    with tempfile.TemporaryDirectory(prefix="waxwright-neovim-") as home:
        folder = Path(home)
        lay_out(folder, files, WITH + f"exec {sys.executable} server.py findings\n")
        out, said = run(nvim, folder, "--cmd", f"set runtimepath^={folder}/site",
                        "-c", "runtime! plugin/waxwright.lua | filetype plugin on",
                        "-S", Path(__file__).parent / "editor/neovim_keys.lua")
    told, right = out.splitlines(), TOLD.splitlines()
    faults = [f"keys: {a!r}, not {b!r}" for a, b in zip(told, right) if a != b]
    if len(told) != len(right):
        faults.append(f"keys: {out} {said}")
    return faults


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--files", required=True, type=lambda p: Path(p).resolve())
    options = parser.parse_args()
    nvim = shutil.which("nvim")
    if not nvim:
        print("neovim: install neovim")
        return 2
    # What stands behind the log; clients of the two buffers; how often it was called; what K says.
    cases = {
        "no program": (None, "[0, 0]", [], "not on your path"),
        "no server": (WITHOUT, "[0, 0]", ["--help"], "has no language server"),
        "a server that ends": (ENDS, None, ["--help", "lsp"], "is not running"),
        "a server": (WITH + f"exec {sys.executable} server.py\n", "[1, 1]", ["--help", "lsp"],
                     "nothing to explain here"),
    }
    faults = faults_of_keys(nvim, options.files)
    for name, (body, clients, calls, words) in cases.items():
        with tempfile.TemporaryDirectory(prefix="waxwright-neovim-") as home:
            folder = Path(home)
            lay_out(folder, options.files, body)
            out, said = run(nvim, folder, "-S", "look.vim")
            log = folder / "log"
            called = log.read_text().splitlines() if log.exists() else []
            if called != calls:
                faults.append(f"{name}: called with {called}, not {calls}")
            if clients and out.splitlines()[0] != clients:
                faults.append(f"{name}: clients {out!r}, not {clients}")
            if name == "a server" and not SET_UP.fullmatch(out.splitlines()[1]):
                faults.append(f"{name}: set up as {out.splitlines()[1]!r}")
            if clients == "[0, 0]" and out.splitlines()[1] != "  2 <Lua <Lua :min <Lua":
                faults.append(f"{name}: set up as {out.splitlines()[1]!r}")
            if words not in out:
                faults.append(f"{name}: K says {out!r}, not {words!r}")
            if "Error" in out + said or "E5108" in out + said or out == "nothing":
                faults.append(f"{name}: {out} {said}")
    for fault in faults:
        print(f"neovim: {fault}")
    print(f"neovim: {len(cases)} kinds of program, what the keys do, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
