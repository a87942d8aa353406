#!/usr/bin/env python3
"""Doctors a copy of the tree in one place at a time, and looks for pages.py telling it.

    pages_test.py --waxwright BIN --tree TREE
"""

import argparse
import shutil
import sys
import tempfile
import unittest
from pathlib import Path

import pages

WAXWRIGHT, TREE = None, None  # from the call
FOLDERS = ("compiler/findings", "docs", "tests/golden", "examples")


class PagesTest(unittest.TestCase):
    def setUp(self):
        keep = tempfile.TemporaryDirectory()
        self.addCleanup(keep.cleanup)
        self.tree = Path(keep.name)
        for folder in FOLDERS:
            shutil.copytree(TREE / folder, self.tree / folder)

    def page(self, name):
        return self.tree / f"docs/rules/{name}.md"

    def change(self, path, old, new):
        text = path.read_text("utf-8")
        self.assertIn(old, text)
        path.write_text(text.replace(old, new, 1), "utf-8")

    def told(self, *wanted):
        """The faults of the whole copy, among which each of `wanted` is."""
        faults = list(pages.faults_of(WAXWRIGHT, self.tree))
        for each in wanted:
            self.assertTrue(any(each in fault for fault in faults), f"{each}: {faults}")
        return faults

    def form_of(self, name):
        """The faults of one page's form and examples."""
        rules = pages.rules_of(self.tree)
        text = self.page(name).read_text("utf-8")
        return [*pages.try_form(rules[name], text),
                *pages.try_examples(rules[name], rules, text, WAXWRIGHT, self.tree)]

    def doctored(self, name, old, new, wanted):
        self.change(self.page(name), old, new)
        faults = self.form_of(name)
        self.assertTrue(any(wanted in fault for fault in faults), faults)

    def test_the_tree_as_it_is(self):
        self.assertEqual(list(pages.faults_of(WAXWRIGHT, self.tree)), [])

    def test_a_page_is_missing_and_one_too_many(self):
        self.page("no-stir").rename(self.page("no-spoon"))
        self.told("`no-stir` has no page", "there is no rule `no-spoon`")

    def test_golden_cases(self):
        (self.tree / "tests/golden/check/pass_no-stir.candle").unlink()
        for path in (self.tree / "tests/golden").rglob("*.expected"):
            path.write_bytes(path.read_bytes().replace(b"[lead-core]", b"[iron-core]"))
        name = self.tree / "tests/golden/check/warn_no-spoon"
        name.with_suffix(".candle").write_text("")
        self.told("no case pass_no-stir", "[lead-core] is found", "finds `iron-core`",
                  "warn_no-spoon: is named")

    def test_the_registry_says_otherwise(self):
        self.change(self.tree / "compiler/findings/rules.def", '"no-stir", heat, warning',
                    '"no-stir", heat, error')
        self.told("no-stir.md: the head should be", "no-stir.md: an error can't be allowed",
                  "is found as warning, not error", "does not list the rules")

    def test_the_binary_has_another_page(self):
        self.change(self.page("no-stir"), "less than a minute", "less than an hour")
        self.assertEqual(self.told(), ["docs/rules/no-stir.md: `waxwright why` prints otherwise"])

    def test_head(self):
        self.doctored("no-stir", "# no-stir (warning)", "# no-stir (note)", "the head should be")

    def test_parts(self):
        self.doctored("no-stir", "## What to do", "## To do", "its parts should be")
        self.doctored("no-pour", "## Where this is from\n\nThe", "## Where this is from\n\n## The",
                      "nothing stands under `Where this is from`")

    def test_allow(self):
        self.doctored("no-stir", "allow no-stir because", "allow it because", "how it is allowed")
        self.doctored("unused-name", "It can't be allowed, because", '`allow unused-name because "…"`',
                      "is not allowed by the line")
        self.doctored("no-pour", "No. An", 'No. `allow no-pour because "…"`. An',
                      "can't be allowed")

    def test_the_wrong_example_is_right(self):
        self.doctored("no-stir", "stir 20 s", "stir 2 min", "should find no-stir")

    def test_the_wrong_example_is_wrong_otherwise(self):
        self.doctored("no-stir", "pour at 60 °C", "pour at 72 °C", "should find no-stir")

    def test_the_right_example_is_wrong(self):
        text = self.page("no-stir").read_text("utf-8")
        front, back = text.split("## Right")
        self.page("no-stir").write_text(front + "## Right" + back.replace("70 °C", "69 °C"))
        self.assertTrue(any("should find nothing" in fault for fault in self.form_of("no-stir")))

    def test_a_note_too_many(self):
        self.doctored("no-stir", "{ ifra-cat-12: 20% of total }", "{ about: \"no papers\" }",
                      "should find no-stir")

    def test_also_names_what_is_not_found(self):
        self.doctored("scent-over-flash-on-heat", "also: scent-over-flash ", "also: no-stir ",
                      "should find no-stir")
        self.doctored("direct-heat", "<!-- wrong: direct-heat -->",
                      "<!-- wrong: direct-heat -->\n<!-- also: no-spoon -->", "names `no-spoon`")

    def test_marks(self):
        self.doctored("no-stir", "<!-- wrong: no-stir -->\n", "", "is not marked")
        self.doctored("no-pour", "```candle", "```text", "one example under `Wrong`")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, type=Path)
    parser.add_argument("--tree", required=True, type=Path)
    options, others = parser.parse_known_args()
    WAXWRIGHT, TREE = options.waxwright.resolve(), options.tree.resolve()
    unittest.main(argv=[sys.argv[0], *others])
