"""Editors at work on files, without a screen: each says what it takes every byte for.

An engine is called with the folder of the files for editors and a list of paths, and gives for each
path a list with the class of every byte: a name of classes.def, or None where there is no colour.
"""

import json
import os
import pty
import re
import select
import shutil
import subprocess
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent

CLASS = re.compile(r'^CLASS\(\w+, "(\w+)", "([^"]+)", "([^"]*)", "([^"]*)", "([^"]*)"\)', re.M)


def class_table(tree):
    """The rows of classes.def: name, scope, group of Vim, style of GtkSourceView, colour of nano."""
    rows = CLASS.findall((tree / "grammar/editor/classes.def").read_text())
    assert len(rows) > 10, "classes.def can't be read"
    return rows


VIM_SCRIPT = r"""
set encoding=utf-8 noswapfile
let &runtimepath = g:files . '/vim,' . &runtimepath
filetype plugin on
syntax on
for s:path in readfile(g:list)
  execute 'edit ' . fnameescape(s:path)
  if &filetype !=# 'candle' || &commentstring !=# '# %s'
    call writefile(['wrong filetype or commentstring: ' . &filetype], g:out, 'a')
  endif
  let s:out = []
  for s:line in range(1, line('$'))
    let s:length = len(getline(s:line))
    let s:names = map(range(1, s:length), 'synIDattr(synID(s:line, v:val, 1), "name")')
    call add(s:out, join(s:names, ','))
  endfor
  call writefile([s:path . "\t" . line('$')] + s:out, g:out, 'a')
endfor
qall!
"""


def vim_like(command, files, paths):
    with tempfile.TemporaryDirectory(prefix="waxwright-vim-") as folder:
        script, paths_file, out = (Path(folder) / n for n in ("look.vim", "list", "out"))
        script.write_text(VIM_SCRIPT)
        paths_file.write_text("".join(f"{path}\n" for path in paths))
        given = [f"let g:files='{files}'", f"let g:list='{paths_file}'", f"let g:out='{out}'"]
        calls = [word for each in given for word in ("--cmd", each)]
        done = subprocess.run([*command, "-es", "-i", "NONE", *calls, "-S", str(script)],
                              capture_output=True, stdin=subprocess.DEVNULL, timeout=300,
                              env={**os.environ, "LC_ALL": "C.UTF-8", "HOME": folder})
        if not out.exists():
            raise RuntimeError(f"{command}: {done.stdout!r} {done.stderr!r}")
        rows = iter(out.read_text().splitlines())
    result = []
    for path in paths:
        head = next(rows)
        if "\t" not in head:
            raise RuntimeError(f"{path}: {head}")
        classes = []
        lines = path.read_bytes().split(b"\n")
        for index in range(int(head.split("\t")[1])):
            names = next(rows).split(",")
            if len(lines[index]) == 0:
                names = []
            assert len(names) == len(lines[index]), f"{path}:{index + 1}"
            classes += [class_of_group(name) for name in names] + [None]
        result.append(classes)
    return result


def class_of_group(name):
    """`candleUnit_7_1` is candleUnit where another stretch leads to it."""
    plain = re.sub(r"(_\d+)+$", "", name.removeprefix("candle"))
    return None if plain in ("", "Mark") else plain


def vim(tree, files, paths):
    return vim_like(["vim", "-N", "-u", "NONE"], files, paths)


def neovim(tree, files, paths):
    return vim_like(["nvim", "-u", "NONE"], files, paths)


def textmate(tree, files, paths, modules):
    """A TextMate engine in Node; `modules` is the folder that has node_modules in it."""
    done = subprocess.run(["node", str(HERE / "textmate.js"), str(modules),
                           str(files / "vscode"), *map(str, paths)],
                          capture_output=True, timeout=300)
    if done.returncode != 0:
        raise RuntimeError(done.stderr.decode("utf-8", "replace"))
    names = {row[1] + ".candle": row[0] for row in class_table(tree)}
    result = []
    for path, lines in zip(paths, json.loads(done.stdout)):
        classes = []
        for line, tokens in zip(path.read_text("utf-8").split("\n"), lines):
            of_line = []
            for token in tokens:
                deepest = token["scopes"][-1]
                if deepest != "source.candle" and deepest not in names:
                    raise RuntimeError(f"{path}: unknown scope {deepest}")
                piece = js_slice(line, token["startIndex"], token["endIndex"])
                of_line += [names.get(deepest)] * len(piece)
            wanted = len(line.encode())
            classes += (of_line + [None] * wanted)[:wanted] + [None]
        result.append(classes)
    return result


def js_slice(line, begin, end):
    return line.encode("utf-16-le")[2 * begin:2 * end].decode("utf-16-le").encode()


def gtksourceview(tree, files, paths):
    """GtkSourceView's own engine, with a scheme in which each style has a colour by its number."""
    import gi
    gi.require_version("GtkSource", "4")
    from gi.repository import GtkSource
    names = [row[0] for row in class_table(tree) if row[3]]
    with tempfile.TemporaryDirectory(prefix="waxwright-gtk-") as folder:
        styles = "".join(f'<style name="candle:{name.lower()}" foreground="#0000{i + 1:02x}"/>'
                         for i, name in enumerate(names))
        Path(folder, "numbers.xml").write_text(
            f'<style-scheme id="numbers" _name="numbers" version="1.0">{styles}</style-scheme>')
        schemes = GtkSource.StyleSchemeManager()
        schemes.set_search_path([folder])
        manager = GtkSource.LanguageManager()
        manager.set_search_path([str(files / "gtksourceview"), *manager.get_search_path()])
        language = manager.guess_language("x.candle", None)
        if language is None or language.get_id() != "candle":
            raise RuntimeError("no language for x.candle")
        result = []
        for path in paths:
            buffer = GtkSource.Buffer(language=language)
            buffer.set_style_scheme(schemes.get_scheme("numbers"))
            text = path.read_text("utf-8")
            buffer.set_text(text)
            buffer.ensure_highlight(buffer.get_start_iter(), buffer.get_end_iter())
            classes = []
            place = buffer.get_start_iter()
            for char in text:
                which = None
                for tag in place.get_tags():  # the last has the highest priority
                    if tag.props.foreground_set:
                        which = names[round(tag.props.foreground_rgba.blue * 255) - 1]
                classes += [which] * len(char.encode())
                place.forward_char()
            result.append(classes)
        return result


def nano(tree, files, paths):
    """nano itself on a terminal of ours, as high as the file is long. Gives colours, not classes."""
    import pyte
    if not shutil.which("nano"):
        raise RuntimeError("there is no nano")
    return [nano_file(pyte, files / "nano" / "candle.nanorc", path) for path in paths]


def nano_file(pyte, rules, path):
    lines = path.read_text("utf-8").split("\n")
    last = max(at for at, line in enumerate(lines) if line.strip())
    height, width = len(lines) + 6, max(len(line.expandtabs(8)) for line in lines) + 10
    with tempfile.TemporaryDirectory(prefix="waxwright-nano-") as folder:
        Path(folder, "nanorc").write_text(f'include "{rules}"\n')
        child, terminal = pty.fork()
        if child == 0:
            os.environ.update(TERM="xterm-256color", LC_ALL="C.UTF-8", HOME=folder,
                              COLUMNS=str(width), LINES=str(height))
            os.execvp("nano", ["nano", f"--rcfile={folder}/nanorc", "--view", str(path)])
        screen = pyte.Screen(width, height)
        stream = pyte.ByteStream(screen)
        end = time.monotonic() + 20
        while time.monotonic() < end:
            ready, _, _ = select.select([terminal], [], [], 0.3)
            if ready:
                stream.feed(os.read(terminal, 1 << 16))
            elif lines[last].strip()[:20] in screen.display[last + 1]:
                break
        os.write(terminal, b"\x18")  # ^X
        os.close(terminal)
        os.waitpid(child, 0)
    shown = "\n".join(screen.display)
    if "Error" in shown or lines[last].strip()[:20] not in screen.display[last + 1]:
        raise RuntimeError(f"nano shows {screen.display[:3]} … {screen.display[-3:]}")
    classes = []
    for row, line in enumerate(lines):
        column = 0
        for char in line:
            cell = screen.buffer[row + 1][column]
            colour = {"default": "normal", "brown": "yellow"}.get(cell.fg, cell.fg)
            classes += [("bold," if cell.bold else "") + colour] * len(char.encode())
            column = (column // 8 + 1) * 8 if char == "\t" else column + 1
        classes.append(None)
    return classes
