#!/usr/bin/env python3
"""Holds `check --as sarif` to the schema of SARIF 2.1.0, and its regions and fixes to the text.

    sarif_check.py --waxwright BIN --tree TREE

The schema is sarif/schema.json; a general validator (python3-jsonschema) looks at the log of every
example, of every golden case, and of a few files made to be hard: CRLF, a byte order mark, signs
outside the BMP, blanks and signs in a file's name. For each log it is also looked at
- that a region read out of the file by its columns is the same text in both kinds of columns;
- that each fix, carried out by its region, gives the text that the JSON form's fix gives;
- that there are as many results as lines of `--as json`, and both say the same;
- that every URI is relative, and nothing looks like an absolute path.
Exit status 0: all of it is so; 1: what is not is printed; 2: a wrong call, or no validator.
"""

import argparse
import json
import subprocess
import sys
import tempfile
from pathlib import Path
from urllib.parse import unquote

try:
    import jsonschema
except ImportError:
    print("sarif: no validator: install python3-jsonschema")
    sys.exit(2)

SCHEMA = Path(__file__).resolve().parent / "sarif" / "schema.json"

HARD = {
    "plain.candle": 'vessel jar {\n  fill: 200 grams\n  of: glas\n}\n',
    "crlf.candle": 'vessel jar {\r\n  fill: 2,5 cl\r\n  of: glas\r\n}',
    "mark.candle": '\ufefflet a = 3 grams\nvessel jar {\n  fill: 2,500 g\n}\n',
    "wide \U0001f56f, 50%.candle": 'maker m {\n  address: "\U0001f56f\U0001f56f" x\n}\n'
                                   'vessel jar {\n  about: "\U0001f56f" ;\n  fill: .5 l\n}\n',
    "empty.candle": "",
    "nothing-but-a-fault.candle": "x",
    "not-utf8.candle": b'vessel jar {\n  about: "\xff\xfe"\n  fill: 2,5 cl\n}\n',
}


class Check:
    def __init__(self, binary):
        self.binary = str(Path(binary).resolve())
        schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
        kind = jsonschema.validators.validator_for(schema)
        kind.check_schema(schema)
        self.validator = kind(schema)
        self.passed = 0
        self.faults = []

    def true(self, what, is_so):
        if is_so:
            self.passed += 1
        else:
            self.faults.append(what)

    def run(self, folder, *words):
        done = subprocess.run([self.binary, "check", *words], cwd=folder, capture_output=True,
                              stdin=subprocess.DEVNULL, timeout=60)
        self.true(f"{words} says on standard error: {done.stderr!r}", not done.stderr)
        self.true(f"{words}: exit {done.returncode}", done.returncode in (0, 1))
        return done.stdout.decode("utf-8")

    def log(self, folder, name):
        points = json.loads(self.run(folder, "--as", "sarif", name))
        utf16 = json.loads(self.run(folder, "--as", "sarif", "--columns", "utf16", name))
        lines = [json.loads(line) for line in self.run(folder, "--as", "json", name).splitlines()]
        for log in (points, utf16):
            for error in self.validator.iter_errors(log):
                self.faults.append(f"{name}: {list(error.absolute_path)}: {error.message[:200]}")
        self.true(f"{name}: columnKind", (points["runs"][0]["columnKind"],
                                          utf16["runs"][0]["columnKind"])
                  == ("unicodeCodePoints", "utf16CodeUnits"))
        files = Files(folder)
        results = points["runs"][0]["results"], utf16["runs"][0]["results"]
        self.true(f"{name}: {len(results[0])} results and {len(lines)} lines of JSON",
                  len(results[0]) == len(results[1]) == len(lines))
        for one, other, line in zip(*results, lines):
            self.result(f"{name}:{line['line']}", files, points["runs"][0], one, other, line)
        for artifact in points["runs"][0]["artifacts"]:
            uri = artifact["location"]["uri"]
            self.true(f"{name}: {uri} is no relative reference",
                      not uri.startswith("/") and ":" not in uri and " " not in uri)

    def result(self, where, files, run, one, other, line):
        rule = run["tool"]["driver"]["rules"][one["ruleIndex"]]
        self.true(f"{where}: ruleIndex", rule["id"] == one["ruleId"] == line["rule"])
        self.true(f"{where}: level", one["level"] == line["severity"])
        self.true(f"{where}: message", one["message"]["text"].startswith(line["message"]))
        self.true(f"{where}: suppressions", bool(one["suppressions"])
                  == ("allowed_because" in line))
        place = one["locations"][0]["physicalLocation"]
        there = other["locations"][0]["physicalLocation"]
        text = files.slice(place, "points")
        self.true(f"{where}: the kinds of columns differ in what they hold",
                  text == files.slice(there, "utf16"))
        region = place["region"]
        self.true(f"{where}: the place in JSON",
                  [line[key] for key in ("line", "column", "end_line", "end_column")]
                  == [region[key] for key in ("startLine", "startColumn", "endLine", "endColumn")])
        self.true(f"{where}: how many fixes", len(one.get("fixes", [])) == len(line["fixes"]))
        for fix, mine in zip(one.get("fixes", []), line["fixes"]):
            self.true(f"{where}: the fix's words", fix["description"]["text"] == mine["title"])
            for change in fix["artifactChanges"]:
                told = [r.get("insertedContent", {}).get("text", "") for r in change["replacements"]]
                self.true(f"{where}: the fix's text", told == [e["text"] for e in mine["edits"]])


class Files:
    """Texts by URI, cut by line and column as a consumer would."""

    def __init__(self, folder):
        self.folder = Path(folder)

    def slice(self, place, kind):
        path = self.folder / unquote(place["artifactLocation"]["uri"])
        if not path.is_file():  # a module of the library
            return None
        text = path.read_bytes().decode("utf-8", "surrogateescape").removeprefix("\ufeff")
        # surrogateescape: a bad byte is one character in both kinds, as it is in the program
        lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        region = place["region"]
        if kind == "utf16":
            cut = lambda s, a, b: s.encode("utf-16-le", "surrogatepass")[2 * a:b and 2 * b].decode(
                "utf-16-le", "surrogatepass")
        else:
            cut = lambda s, a, b: s[a:b]
        first, last = region["startLine"] - 1, region["endLine"] - 1
        if first == last:
            return cut(lines[first], region["startColumn"] - 1, region["endColumn"] - 1)
        parts = [cut(lines[first], region["startColumn"] - 1, None), *lines[first + 1:last],
                 cut(lines[last], 0, region["endColumn"] - 1) if region["endColumn"] > 1 else ""]
        return "\n".join(parts)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    parser.add_argument("--tree", required=True, type=Path)
    options = parser.parse_args()
    check = Check(options.waxwright)
    for example in sorted((options.tree / "examples").glob("*.candle")):
        check.log(options.tree, f"examples/{example.name}")
    for stage in sorted((options.tree / "tests" / "golden").iterdir()):
        # Every fourth: the log of one has all rules in it, and is slow to validate.
        for case in sorted(stage.glob("*.candle"))[::4]:
            check.log(stage, case.name)
    with tempfile.TemporaryDirectory(prefix="waxwright-sarif-") as folder:
        for name, text in HARD.items():
            data = text if isinstance(text, bytes) else text.encode("utf-8")
            (Path(folder) / name).write_bytes(data)
            check.log(folder, name)
    for fault in check.faults[:40]:
        print(f"sarif: {fault}")
    print(f"sarif: {check.passed} passed, {len(check.faults)} failed")
    return 1 if check.faults or not check.passed else 0


if __name__ == "__main__":
    sys.exit(main())
