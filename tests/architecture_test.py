#!/usr/bin/env python3
"""Feeds architecture.py small trees, each with one thing wrong, and looks for its being told."""

import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

SCRIPT = Path(__file__).resolve().parent / "architecture.py"

HEADER = "#pragma once\n"
# A house in order: every folder there is, each including what it may.
GOOD = {
    "CMakeLists.txt": "",
    "README.md": "",
    ".gitignore": "build*/\n",
    "build-debug/object.o": "",
    "docs/rules.md": "",
    "stdlib/waxes.candle": "",
    "grammar/lexical.hpp": HEADER + "#include <tao/pegtl.hpp>\n",
    "grammar/rules.hpp": HEADER + '#include "grammar/lexical.hpp"\n',
    "grammar/editor/main.cpp": '#include <fstream>\n#include "model/model.hpp"\n',
    "compiler/source/source.hpp": HEADER + "#include <string>\n",
    "compiler/findings/rules.def": 'RULE(syntax, "syntax", language, error, "")\n',
    "compiler/findings/finding.hpp":
        HEADER + '#include "source/source.hpp"\n#include "findings/rules.def"\n',
    "compiler/syntax/tree.hpp": HEADER + '#include "source/source.hpp"\n',
    "compiler/syntax/parse.cpp":
        '#include <tao/pegtl.hpp>\n#include "grammar/rules.hpp"\n#include "syntax/tree.hpp"\n'
        '#include "findings/finding.hpp"\n',
    "compiler/units/unit.hpp": HEADER,
    "compiler/units/hints.cpp": '#include "units/unit.hpp"\n#include "findings/finding.hpp"\n',
    "compiler/model/model.hpp": HEADER + '#include "syntax/tree.hpp"\n#include "units/unit.hpp"\n',
    "compiler/reckon/reckoning.hpp": HEADER + '#include "model/model.hpp"\n',
    "compiler/check/heat.cpp": '#include "reckon/reckoning.hpp"\n',
    "compiler/plan/plan.hpp": HEADER + '#include "reckon/reckoning.hpp"\n',
    "compiler/emit/toml.cpp": '#include <toml++/toml.h>\n#include "plan/plan.hpp"\n',
    "compiler/emit/toml.hpp": HEADER,
    "compiler/tidy/tidy.hpp": HEADER + '#include "syntax/tree.hpp"\n',
    "compiler/editor/editor.cpp": '#include "model/model.hpp"\n',
    "compiler/driver/options.cpp": "#include <CLI/CLI.hpp>\n",
    "compiler/driver/run.cpp": '#include "emit/toml.hpp"\n#include "tidy/tidy.hpp"\n',
    "tests/unit/parse.cpp": "#include <tao/pegtl.hpp>\n#include <toml++/toml.h>\n",
    "tests/unit/sample.hpp": HEADER,
}


class ArchitectureTest(unittest.TestCase):
    def look(self, changes, git=False):
        """Exit status and output for the good tree with some files written anew or added."""
        with tempfile.TemporaryDirectory() as folder:
            root = Path(folder)
            for name, text in {**GOOD, **changes}.items():
                path = root / name
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(text, encoding="utf-8")
            if git:
                for command in (["init", "-q"], ["add", "-A", "."]):
                    subprocess.run(["git", "-C", folder, *command], check=True)
                (root / "untracked.txt").write_text("not of the house", encoding="utf-8")
            done = subprocess.run([sys.executable, SCRIPT, folder], capture_output=True, text=True)
            return done.returncode, done.stdout

    def assert_told(self, changes, *told, count=1):
        status, out = self.look(changes)
        self.assertEqual(status, 1, out)
        for text in told:
            self.assertIn(text, out)
        self.assertIn(f" {count} problem", out)

    def assert_silent(self, changes):
        status, out = self.look(changes)
        self.assertEqual(status, 0, out)
        self.assertIn(" 0 problems", out)

    def test_a_house_in_order(self):
        self.assert_silent({})

    def test_each_step_back_on_the_way(self):
        headers = {
            "grammar": "grammar/lexical.hpp",
            "source": "source/source.hpp",
            "findings": "findings/finding.hpp",
            "syntax": "syntax/tree.hpp",
            "units": "units/unit.hpp",
            "model": "model/model.hpp",
            "reckon": "reckon/reckoning.hpp",
            "check": "check/heat.cpp",
            "plan": "plan/plan.hpp",
            "emit": "emit/toml.hpp",
            "tidy": "tidy/tidy.hpp",
            "editor": "editor/editor.cpp",
            "driver": "driver/run.cpp",
        }
        way = ["source", "findings", "syntax", "units", "model", "reckon", "check", "plan", "emit",
               "tidy", "editor", "driver"]
        back = [(here, there) for i, here in enumerate(way) for there in way[i + 1:]]
        back += [("units", "syntax"), ("tidy", "model"), ("model", "grammar"), ("emit", "grammar")]
        for here, there in back:
            with self.subTest(here=here, there=there):
                self.assert_told({f"compiler/{here}/new.cpp": f'\n#include "{headers[there]}"\n'},
                                 f"compiler/{here}/new.cpp:2: {here}/ may not include {there}/")

    def test_the_grammar_takes_only_itself_and_pegtl(self):
        for line, told in (('"source/source.hpp"', "grammar/ may not include source/"),
                           ("<vector>", "includes <vector>")):
            self.assert_told({"grammar/rules.hpp": f"{HEADER}#include {line}\n"},
                             f"grammar/rules.hpp:2: {told}")

    def test_what_editors_colour_by_stands_apart(self):
        self.assert_told({"grammar/editor/new.cpp": '#include "plan/plan.hpp"\n'},
                         "grammar/editor/new.cpp:1: grammar/editor/ may not include plan/")
        self.assert_told({"grammar/editor/classes.hpp": HEADER,
                          "compiler/emit/new.cpp": '#include "grammar/editor/classes.hpp"\n'},
                         "compiler/emit/new.cpp:1: emit/ may not include grammar/editor/")

    def test_other_ways_to_write_an_include(self):
        for line in ('#include <driver/run.cpp>', '  #  include "driver/run.cpp"',
                     '#include "../driver/run.cpp"', '#include "compiler/driver/run.cpp"',
                     '/* a\n b */ #include "driver/run.cpp"'):
            with self.subTest(line=line):
                self.assert_told({"compiler/check/new.cpp": line + "\n"},
                                 "check/ may not include driver/")

    def test_an_include_in_a_comment_is_none(self):
        self.assert_silent({"compiler/check/new.cpp":
                            '// #include "driver/run.cpp"\n/*\n#include "driver/run.cpp"\n*/\n'})

    def test_an_include_of_nothing(self):
        self.assert_told({"compiler/check/new.cpp": '#include "check/lost.hpp"\n'},
                         "compiler/check/new.cpp:1:", "no file of this tree")

    def test_a_header_that_brings_pegtl_along(self):
        self.assert_told({"compiler/syntax/tree.hpp": HEADER + '#include "grammar/rules.hpp"\n'},
                         "compiler/syntax/tree.hpp:2: a header includes grammar/rules.hpp")

    def test_libraries_outside_their_rooms(self):
        for name, header, library in (
                ("compiler/syntax/tree.cpp", "<tao/pegtl.hpp>", "PEGTL"),
                ("compiler/driver/run.cpp", "<tao/pegtl/contrib/analyze.hpp>", "PEGTL"),
                ("compiler/plan/plan.cpp", "<toml++/toml.h>", "toml++"),
                ("compiler/driver/run.cpp", "<toml.hpp>", "toml++"),
                ("compiler/driver/run.cpp", "<CLI/CLI.hpp>", "CLI11"),
                ("compiler/driver/options.hpp", '"CLI11.hpp"', "CLI11")):
            with self.subTest(name=name, header=header):
                self.assert_told({name: f"{HEADER}#include {header}\n"}, f"{name}:2:",
                                 f"but {library} is for ")

    def test_long_files(self):
        for name in ("compiler/check/heat.cpp", "grammar/rules.hpp", "compiler/model/keys.def"):
            with self.subTest(name=name):
                self.assert_silent({name: HEADER + "\n" * 399})
                self.assert_told({name: HEADER + "\n" * 400}, f"{name}: 401 lines")
                self.assert_told({name: HEADER + "\n" * 399 + "// no end"}, f"{name}: 401 lines")

    def test_files_that_grow_long_are_remarked_on(self):
        status, out = self.look({"compiler/check/heat.cpp": "\n" * 301,
                                 "compiler/check/wick.cpp": "\n" * 300})
        self.assertEqual(status, 0, out)
        self.assertIn("remark: compiler/check/heat.cpp: 301 lines", out)
        self.assertNotIn("wick.cpp", out)

    def test_a_header_without_pragma_once(self):
        for name in ("compiler/units/unit.hpp", "grammar/lexical.hpp", "tests/unit/sample.hpp"):
            with self.subTest(name=name):
                self.assert_told({name: "// #pragma once\n"},
                                 f"{name}: a header without #pragma once")

    def test_one_name_for_two_types(self):
        one = HEADER + "struct Supply {\n};\n"
        self.assert_told({"compiler/check/a.hpp": one, "compiler/check/b.hpp": one},
                         "compiler/check/b.hpp: `Supply` is a type of compiler/check/a.hpp too")
        self.assert_silent({"compiler/check/a.hpp": one,
                            "compiler/check/b.hpp": HEADER + "struct Supply;\n"})

    def test_a_folder_that_is_new(self):
        for name in ("compiler/heat/heat.cpp", "compiler/heat.cpp"):
            with self.subTest(name=name):
                self.assert_told({name: ""}, f"{name}: ", "put it in MAY_INCLUDE")

    def test_what_does_not_belong_at_the_top(self):
        self.assert_told({"notes.txt": "", "scratch/x.cpp": ""}, "notes.txt: stands at the top",
                         "scratch: stands at the top", count=2)

    def test_git_says_what_is_at_the_top(self):
        status, out = self.look({}, git=True)
        self.assertEqual(status, 0, out)
        status, out = self.look({"notes.txt": ""}, git=True)
        self.assertEqual(status, 1, out)
        self.assertIn("notes.txt: stands at the top", out)
        self.assertNotIn("untracked.txt", out)

    def test_a_wrong_call(self):
        for arguments in ([], ["/nowhere/at/all"], ["a", "b"]):
            done = subprocess.run([sys.executable, SCRIPT, *arguments], capture_output=True)
            self.assertEqual(done.returncode, 2)


if __name__ == "__main__":
    unittest.main()
