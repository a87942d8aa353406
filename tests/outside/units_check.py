#!/usr/bin/env python3
"""Compares every unit of the language with GNU units and with the published exact factors.

usage: units_check.py --dump BIN

BIN is the program built from dump_units.cpp; GNU units is the Debian package `units`. A unit that
the table below does not have, or a row that no unit has, fails: a new unit is added here as well.
Exit status 0: all agree; 1: something differs by more than 1e-12 of its value; 2: wrong call.
"""

import argparse
import os
import re
import shutil
import subprocess
import sys
from fractions import Fraction

TOLERANCE = 1e-12  # relative

# g; UK Weights and Measures Act 1985, Sch. 1; from memory of NIST HB 44, App. C s. 4
POUND = Fraction("453.59237")
# mm; 16 CFR 500.19 (2.54 cm exactly)
INCH = Fraction("25.4")
# ml; 231 cubic inches, from memory of NIST HB 44, App. C
GALLON = 231 * (INCH / 10) ** 3
# ml; from memory of the UK Weights and Measures Act 1985, Sch. 1, and of HB 44, App. C s. 3
IMPERIAL_GALLON = Fraction("4546.09")
# K; from memory of NIST SP 811, App. B.8
DEGREE_F = Fraction(5, 9)
# the prefix or the definition of the unit itself
SI = "SI"

# Dimension as the dump names it -> what GNU units calls our inside unit.
INSIDE = {
    "a mass": "g",
    "a volume": "ml",
    "a length": "mm",
    "a temperature interval": "K",
    "a time": "s",
    "an energy": "J",
    "a power (W)": "W",
    "a share (%)": "1",
}

# Symbols -> (name in GNU units, exact factor, where that stands).
UNITS = {
    "mg": ("mg", Fraction(1, 1000), SI),
    "g": ("g", 1, SI),
    "kg": ("kg", 1000, SI),
    "oz": ("ounce", POUND / 16, "HB 44 App. C s. 4: 1/16 pound"),
    "lb lbs": ("pound", POUND, "HB 44 App. C s. 4"),
    "ml mL": ("ml", 1, SI),
    "cl": ("cl", 10, SI),
    "dl": ("dl", 100, SI),
    "l L": ("l", 1000, SI),
    "tsp": ("teaspoon", GALLON / 768, "HB 44 App. C s. 4: 1/6 fluid ounce"),
    "tbsp": ("tablespoon", GALLON / 256, "HB 44 App. C s. 4: 1/2 fluid ounce"),
    "fl oz": ("usfloz", GALLON / 128, "HB 44 App. C s. 4: 1/128 gallon"),
    "cup cups": ("cup", GALLON / 16, "HB 44 App. C s. 4: 8 fluid ounces"),
    "pint pints": ("uspint", GALLON / 8, "HB 44 App. C s. 4: 1/8 gallon"),
    "quart quarts": ("usquart", GALLON / 4, "HB 44 App. C s. 4: 1/4 gallon"),
    "gallon gallons": ("usgallon", GALLON, "HB 44 App. C s. 4: 231 cubic inches"),
    "imp fl oz": ("brfloz", IMPERIAL_GALLON / 160, "HB 44 App. C s. 3: 1/160 imperial gallon"),
    "imp pint|imp pints": ("brpint", IMPERIAL_GALLON / 8, "HB 44 App. C s. 3: 1/8 imperial gallon"),
    "mm": ("mm", 1, SI),
    "cm": ("cm", 10, SI),
    "m": ("m", 1000, SI),
    "in": ("inch", INCH, "HB 44 App. C s. 4"),
    "ft": ("foot", 12 * INCH, "HB 44 App. C s. 4: 12 inches"),
    "C°": ("degC", 1, SI),
    "F°": ("degF", DEGREE_F, "SP 811 App. B.8"),
    "K": ("K", 1, SI),
    "s sec second seconds": ("s", 1, SI),
    "min minute minutes": ("min", 60, SI),
    "h hour hours": ("hour", 3600, SI),
    "d day days": ("day", 86400, SI),
    "week weeks": ("week", 7 * 86400, "seven days"),
    "J": ("J", 1, SI),
    "kJ": ("kJ", 1000, SI),
    "W": ("W", 1, SI),
    "kW": ("kW", 1000, SI),
    "%": ("percent", Fraction(1, 100), "a hundredth"),
}

# Points on a scale: symbols -> (function of GNU units, exact °C of a reading, where that stands).
POINTS = {
    "°C C": ("tempC", lambda t: t, SI),
    "°F F": ("tempF", lambda t: (t - 32) * DEGREE_F, "SP 811 App. B.8: (t - 32)/1.8"),
}
READINGS = ["-40", "0", "32", "68.5", "98.6", "140", "185", "200", "212", "475"]


def symbols(row):
    """A row's symbols: set apart by `|` if one of them has a space, else by spaces."""
    if "|" in row:
        return row.split("|")
    return [row] if row in ("fl oz", "imp fl oz") else row.split(" ")


def rows(table):
    return {symbol: row for key, row in table.items() for symbol in symbols(key)}


def gnu(have, want):
    """What GNU units makes of `have` in `want`."""
    command = ["units", "--terse", "--strict", "-o", "%.15g", have, want]
    # Its cups and pints are American or British as the locale is.
    env = dict(os.environ, LC_ALL="C", UNITS_ENGLISH="US")
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=env)
    answer = done.stdout.strip()
    if done.returncode != 0 or not re.fullmatch(r"[-+.0-9e]+", answer):
        raise SystemExit(f"units_check: {' '.join(command)}: {answer or done.stderr.strip()}")
    return float(answer)


class Check:
    def __init__(self):
        self.compared = 0
        self.wrong = 0

    def fail(self, text):
        self.wrong += 1
        print(f"units_check: {text}")

    def same(self, symbol, ours, theirs, whose, least=0.0):
        """`least`: the size under which a difference is not taken relative to the value."""
        self.compared += 1
        theirs = float(theirs)
        if not abs(ours - theirs) <= TOLERANCE * max(abs(theirs), least):
            self.fail(f"{symbol}: {ours!r} here, {theirs!r} by {whose}")


def compare_unit(check, symbol, dimension, factor, offset, row):
    name, exact, where = row
    if dimension not in INSIDE:
        check.fail(f"{symbol}: no inside unit is known for {dimension}")
        return
    if offset != 0:
        check.fail(f"{symbol}: has an offset of {offset}")
    check.same(symbol, factor, gnu(name, INSIDE[dimension]), f"GNU units ({name})")
    check.same(symbol, factor, exact, where)


def compare_point(check, symbol, dimension, factor, offset, row):
    function, exact, where = row
    if dimension != "a temperature":
        check.fail(f"{symbol}: is {dimension}")
    for reading in READINGS:  # some of them 0 on one of the scales
        ours = float(reading) * factor + offset
        theirs = gnu(f"{function}({reading})", "tempC")
        check.same(f"{reading} {symbol}", ours, theirs, f"GNU units ({function})", least=1.0)
        check.same(f"{reading} {symbol}", ours, exact(Fraction(reading)), where, least=1.0)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--dump", required=True, metavar="BIN", help="built from dump_units.cpp")
    options = parser.parse_args()
    if shutil.which("units") is None:
        print("units_check: no GNU units: install the Debian package `units`")
        return 1
    dump = subprocess.run([options.dump], capture_output=True, text=True, check=True)

    check = Check()
    units, points = rows(UNITS), rows(POINTS)
    missing = set(units) | set(points)
    lines = dump.stdout.splitlines()
    for line in lines:
        symbol, dimension, factor, offset = line.split("\t")
        missing.discard(symbol)
        if symbol in units:
            compare_unit(check, symbol, dimension, float(factor), float(offset), units[symbol])
        elif symbol in points:
            compare_point(check, symbol, dimension, float(factor), float(offset), points[symbol])
        else:
            check.fail(f"{symbol}: add it to the table of this script")
    for symbol in sorted(missing):
        check.fail(f"{symbol}: the language no longer has it")

    print(f"units_check: {len(lines)} units, {check.compared} comparisons, {check.wrong} differ")
    return 1 if check.wrong or not lines else 0


if __name__ == "__main__":
    sys.exit(main())
