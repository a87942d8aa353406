#!/usr/bin/env python3
"""Holds how the house is built.

    architecture.py TREE

TREE is the root of the sources. Looked at:
- #include lines of compiler/ and grammar/: a folder includes only itself and what stands before it
  on the way through (MAY_INCLUDE), and each foreign library stays in its own room (ROOMS);
- no file of compiler/ or grammar/ is over 400 lines; those over 300 are remarked on;
- every header begins with #pragma once;
- nothing stands at the top of the tree that is not in TOP.
Exit status 0: all is as it should be; 1: what is not is printed, a line each; 2: a wrong call.
"""

import posixpath
import re
import subprocess
import sys
from pathlib import Path

HARD_LIMIT = 400  # lines of a file
SOFT_LIMIT = 300

# The one way through, from left to right.
UP_TO_UNITS = ["source", "findings", "units"]
UP_TO_MODEL = ["source", "findings", "syntax", "units", "model"]
UP_TO_PLAN = UP_TO_MODEL + ["reckon", "check", "plan"]
MAY_INCLUDE = {
    "grammar": [],
    "source": [],
    "findings": ["source"],
    "syntax": ["source", "findings", "grammar"],
    "units": ["source", "findings"],  # the nearest words
    "model": UP_TO_MODEL,
    "reckon": UP_TO_MODEL,
    "check": UP_TO_MODEL + ["reckon"],
    "plan": UP_TO_PLAN,
    "compare": UP_TO_PLAN,  # two plans, side by side
    "emit": UP_TO_PLAN + ["compare"],
    "tidy": ["source", "findings", "syntax"],  # branches off: text to text, no model
    "pipeline": UP_TO_PLAN,  # the way itself, from text to plans
    "editor": UP_TO_PLAN + ["pipeline", "emit", "tidy"],
    # Writes what editors colour by, from the tables; a program of the build, on the core.
    "grammar/editor": UP_TO_MODEL + ["tidy"],
    "packaging": [],  # CMake only
    "driver": UP_TO_PLAN + ["compare", "emit", "tidy", "pipeline", "editor"],
}


class Room:
    """A foreign library, and the files that may include it; the tests always may."""

    def __init__(self, library, headers, places):
        self.library = library
        self.headers = re.compile(headers)
        self.places = places


ROOMS = [
    Room("PEGTL", r"tao/", ("grammar/", "compiler/syntax/parse.cpp")),
    Room("toml++", r"toml\+\+/|toml\.hpp$", ("compiler/emit/",)),
    Room("nlohmann/json", r"nlohmann/", ("compiler/emit/sarif.cpp",
                                         "compiler/emit/findings_json.cpp",
                                         "compiler/emit/comparison_json.cpp",
                                         "compiler/editor/",
                                         "grammar/editor/textmate.cpp")),
    Room("utf8proc", r"utf8proc\.h$", ("compiler/source/utf8.cpp",)),
    # The core has no files, no threads and no terminal.
    Room("threads", r"^(thread|future|mutex|atomic|condition_variable)$", ("compiler/driver/",)),
    Room("files", r"^(fstream|iostream|filesystem|cstdio|unistd\.h|sys/.*)$",
         ("compiler/driver/", "grammar/editor/main.cpp")),
    # options.cpp reads a call; options_*.cpp say what may stand in one.
    Room("CLI11", r"CLI/|CLI11\.hpp$", ("compiler/driver/options.cpp", "compiler/driver/options_",
                                       "compiler/driver/complete.cpp",
                                       "compiler/driver/man_page.cpp",
                                       "compiler/driver/wrong_call.cpp")),
]

TOP = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "grammar", "compiler", "stdlib",
       "examples", "tests", "docs"}

INCLUDE = re.compile(r'^[ \t]*#[ \t]*include(?:_next)?[ \t]*(?:"([^"\n]+)"|<([^>\n]+)>)',
                     re.MULTILINE)
COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
PRAGMA_ONCE = re.compile(r"^[ \t]*#[ \t]*pragma[ \t]+once\b", re.MULTILINE)
TYPE = re.compile(r"^(?:struct|class|enum class) (\w+)[^;\n]*\{", re.M)  # at the left margin
SOURCE_ENDS = (".cpp", ".hpp", ".h", ".cc", ".c", ".def", ".inc", ".ipp")
HEADER_ENDS = (".hpp", ".h", ".ipp")


class House:
    def __init__(self, root):
        self.root = root
        self.problems = []
        self.remarks = []
        self.files = {}  # path from the root -> text
        for folder in ("compiler", "grammar", "tests"):
            for path in sorted((root / folder).rglob("*")):
                if path.is_file() and (folder != "tests" or path.name.endswith(SOURCE_ENDS)):
                    name = path.relative_to(root).as_posix()
                    self.files[name] = path.read_text(encoding="utf-8", errors="replace")

    def tell(self, where, what):
        self.problems.append(f"{where}: {what}")

    def ours(self):
        """The files that make the compiler, and their text."""
        return [(n, t) for n, t in self.files.items() if n.startswith(("compiler/", "grammar/"))]

    # --- what includes what ------------------------------------------------------------------

    def check_includes(self):
        for name, text in self.ours():
            if not name.endswith(SOURCE_ENDS):
                continue
            # A comment goes, and leaves its lines behind.
            code = COMMENT.sub(lambda m: "\n" * m.group().count("\n"), text)
            for match in INCLUDE.finditer(code):
                line = code.count("\n", 0, match.start()) + 1
                quoted, angled = match.groups()
                self.check_include(f"{name}:{line}", name, quoted or angled, quoted is not None)

    def check_include(self, where, name, header, quoted):
        for room in ROOMS:
            if not room.headers.match(header):
                continue
            if not name.startswith(room.places):
                places = " and ".join(room.places)
                self.tell(where, f"includes {header}, but {room.library} is for {places} only")
            return
        target = self.target_of(name, header)
        if target is not None:
            self.check_way(where, name, target)
        elif quoted:
            self.tell(where, f'includes "{header}", which is no file of this tree')
        elif folder_of(name) == "grammar":
            self.tell(where, f"includes <{header}>: the grammar takes only itself and PEGTL")

    def target_of(self, name, header):
        """The file of the tree that an include means; nothing if it is a foreign one."""
        for base in ("compiler", ".", posixpath.dirname(name)):
            path = posixpath.normpath(posixpath.join(base, header))
            if path in self.files:
                return path
        return None

    def check_way(self, where, name, target):
        here, there = folder_of(name), folder_of(target)
        if there != here and there not in MAY_INCLUDE.get(here, []):
            self.tell(where, f"{here}/ may not include {there}/ ({target})")
        elif (there == "grammar" and here != "grammar" and name.endswith(HEADER_ENDS)
              and self.files[target].find("#include") >= 0):
            self.tell(where, f"a header includes {target}, and with it PEGTL")

    def check_folders(self):
        for name, _ in self.ours():
            folder = folder_of(name)
            if folder not in MAY_INCLUDE:
                self.tell(name, f"{folder}/ is no folder of the way through: put it in MAY_INCLUDE")

    # --- files ---------------------------------------------------------------------------------

    def check_lengths(self):
        for name, text in self.ours():
            lines = text.count("\n") + (not text.endswith("\n") and text != "")
            if lines > HARD_LIMIT:
                self.tell(name, f"{lines} lines, and {HARD_LIMIT} is the most")
            elif lines > SOFT_LIMIT:
                self.remarks.append(f"{name}: {lines} lines, over {SOFT_LIMIT}")

    def check_headers(self):
        for name, text in self.files.items():
            if name.endswith(HEADER_ENDS) and not PRAGMA_ONCE.search(COMMENT.sub("", text)):
                self.tell(name, "a header without #pragma once")

    def check_names(self):
        """Two headers with a type of one name are two types to the compiler and one to the linker."""
        homes = {}
        for name, text in sorted(self.files.items()):
            if not name.endswith(HEADER_ENDS) or not name.startswith("compiler/"):
                continue
            for found in TYPE.findall(COMMENT.sub("", text)):
                first = homes.setdefault(found, name)
                if first != name:
                    self.tell(name, f"`{found}` is a type of {first} too")

    def check_top(self):
        for entry in top_entries(self.root):
            if entry not in TOP and not entry.startswith(".") and not entry.startswith("build"):
                self.tell(entry, "stands at the top of the tree, and does not belong there")


def folder_of(name):
    """`check` of compiler/check/x.cpp, `grammar` of all in grammar/ but `grammar/editor`."""
    parts = name.split("/")
    if parts[:2] == ["grammar", "editor"] and len(parts) > 2:
        return "grammar/editor"
    if parts[0] != "compiler":
        return parts[0]
    return parts[1] if len(parts) > 2 else "compiler"


def top_entries(root):
    """What git tracks at the top of the tree; without git, what stands there."""
    try:
        listed = subprocess.run(["git", "-C", str(root), "ls-files", "-z"], capture_output=True,
                                check=True).stdout.decode("utf-8", "surrogateescape")
        if listed:
            return sorted({name.split("/")[0] for name in listed.split("\0") if name})
    except (OSError, subprocess.CalledProcessError):
        pass
    return sorted(entry.name for entry in root.iterdir())


def main(arguments):
    if len(arguments) != 1 or not (Path(arguments[0]) / "compiler").is_dir():
        print("usage: architecture.py TREE, the folder that has compiler/ in it", file=sys.stderr)
        return 2
    house = House(Path(arguments[0]).resolve())
    house.check_folders()
    house.check_includes()
    house.check_lengths()
    house.check_headers()
    house.check_names()
    house.check_top()
    for remark in house.remarks:
        print(f"remark: {remark}")
    for problem in house.problems:
        print(problem)
    count = len(house.problems)
    print(f"{len(house.files)} files looked at, {count} problem{'' if count == 1 else 's'}")
    return 1 if count else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
