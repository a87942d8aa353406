#!/usr/bin/env python3
"""Compares the standard library's own figures with published ones.

usage: library_check.py --waxwright BIN

Reads figures off the pages of `waxwright materials` and off TOML sheets of recipes made of library
materials. Each check names the text it is made against; "from memory" where that text was not read.
Exit status 0: all agree; 1: something differs, a line each; 2: wrong call.
"""

import argparse
import re
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

WATER = {15: 0.9991026, 20: 0.9982071, 25: 0.9970479}  # g/ml: tables of the density of water
PINT_ML, FL_OZ_ML = 473.176473, 29.5735295625  # NIST Handbook 44, appendix C, from memory
DENSITY = re.compile(r"([\d.]+) g/ml(?: \+- ([\d.]+))?(?: at ([\d.]+) °C)?")
FIGURE = re.compile(r"([\d.]+)(?:[^\d+]* \+- ([\d.]+))?")


class Library:
    def __init__(self, binary):
        self.binary = binary
        self.wrong = []
        self.checks = 0

    def run(self, *words):
        done = subprocess.run([self.binary, *words], capture_output=True, check=False, timeout=60)
        return done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8")

    def written(self, name, key):
        """A property as the library has it; a long one is broken into lines."""
        _, page, _ = self.run("materials", name)
        match = re.search(rf"^  {key} +(\S.*(?:\n {{18}}[^ =s].*)*)$", page, re.M)
        if not match:
            self.wrong.append(f"{name} shows no {key}")
            return "0"
        return " ".join(match[1].split())

    def densities(self, name, key):
        """[(g/ml, doubt, °C or None)]"""
        return [(float(value), float(doubt or 0), float(at) if at else None)
                for value, doubt, at in DENSITY.findall(self.written(name, key))]

    def density(self, name, key="density", at=None):
        for value, doubt, celsius in self.densities(name, key):
            if at in (None, celsius):
                return value, doubt
        self.wrong.append(f"{name} has no {key} at {at} °C")
        return 1.0, 0.0

    def figure(self, name, key):
        value, doubt = FIGURE.match(self.written(name, key)).groups()
        return float(value), float(doubt or 0)

    def sheet(self, *lines, own=""):
        """The one recipe of the TOML sheet of a recipe of library materials, 250 ml of it. `own`:
        blocks of its own."""
        return self.whole_sheet(own, "recipe r-one {", "makes: 1 jar", *lines, "}").get(
            "recipe", [{}])[0]

    def whole_sheet(self, *lines, of=()):
        text = "\n".join([
            "language 1", "use waxes, oils", "vessel jar { fill: 250 ml, bore: 70 mm, of: glass,"
            " made-for: candles }", *lines, ""])
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "one.candle"
            path.write_text(text, encoding="utf-8")
            status, out, err = self.run("sheet", str(path), *of, "--as", "toml")
        if status != 0:
            self.wrong.append(f"refused: {err}")
            return {}
        return tomllib.loads(out)

    def near(self, what, got, wanted, within):
        self.checks += 1
        if not abs(got - wanted) <= within * (1 + 1e-9):
            self.wrong.append(f"{what}: {got:.5f}, not {wanted} +- {within}")

    def between(self, what, got, low, high):
        self.checks += 1
        if not low <= got <= high:
            self.wrong.append(f"{what}: {got:.5f} is not in {low:.5f} to {high:.5f}")


def shrinkage(lib):
    """1 - liquid / solid, by the library's own densities."""
    # CRC Handbook and NIST by an encyclopedia's data box: stearic acid 0.9408 at 20 °C, 0.847 at
    # 70 °C, which is -9.97 %.
    solid, _ = lib.density("stearic-acid")
    liquid, _ = lib.density("stearic-acid", "liquid-density", 70)
    lib.near("stearic acid shrinks", 1 - liquid / solid, 0.0997, 0.00005)
    # Common practice and Lund's equation: soy 0.920 and 0.870 at 75 °C, -5.43 %.
    solid, _ = lib.density("soy")
    liquid, _ = lib.density("soy", "liquid-density", 75)
    lib.near("soy shrinks", 1 - liquid / solid, 0.0543, 0.00005)
    # Zalba et al. 2003, Appl. Therm. Eng. 23:251, from memory: paraffin 0.916 at 24 °C, 0.790 at
    # 65 °C, -13.76 %. The library's solid paraffin is another; the doubts must leave room for it.
    solid, doubt = lib.density("paraffin")
    liquid, liquid_doubt = lib.density("paraffin", "liquid-density", 65)
    lib.near("liquid paraffin at 65 °C", liquid, 0.790, 0)
    lib.between("paraffin of Zalba", 0.916, solid - doubt, solid + doubt)
    lib.between("paraffin shrinks by Zalba", 0.1376, 1 - (liquid + liquid_doubt) / (solid - doubt),
                1 - (liquid - liquid_doubt) / (solid + doubt))
    # PMC11876593, table 2: cast beeswax rods shrink 1.2 to 3.4 % in length, which is 3.56 to 9.86 %
    # in volume; that is after they have set, so from the melt it is more.
    solid, _ = lib.density("beeswax")
    liquid, _ = lib.density("beeswax", "liquid-density")
    lib.between("beeswax shrinks", 1 - liquid / solid, 1 - (1 - 0.034) ** 3, 0.15)


def steps(*pouring):
    """With a second pour, so that the vessel ends up full of set wax."""
    lines = ["melt to 85 °C", "off heat", *pouring, "leave 3 h", "second pour at 75 °C"]
    return "steps {\n" + "\n".join(lines) + "\n}"


def shrinkage_on_the_sheet(lib):
    """The same, worked out by the compiler: what is kept back for a second pour. Soy as above; a
    paraffin that is Zalba's; stearic acid poured by itself, by its own two densities."""
    waxes = (("soy", "", 0.0543),
             ("zalba", "density: 0.916 g/ml\nliquid-density: 0.790 g/ml at 75 °C", 0.1376),
             ("stearin", "density: 0.9408 g/ml\nliquid-density: 0.847 g/ml at 75 °C", 0.0997))
    for name, figures, wanted in waxes:
        own = f"wax {name} like soy {{\n{figures}\n}}" if figures else ""
        got = lib.sheet(f"wax: {name}", steps("pour at 75 °C"), own=own)
        lib.near(f"{name} kept back", got.get("second_pour_g", 0) / got.get("mass_g", 1), wanted,
                 0.00005)


def mixtures(lib):
    """Volume additivity, 1/d = sum(w/d): the law of mixtures (a Springer reference work entry)."""
    # 80 % of 0.920 and 20 % of 0.960
    got = lib.sheet("wax: 80% soy + 20% beeswax", steps("pour at 65 °C"))
    lib.near("soy with beeswax", got.get("mass_g", 0) / 250, 0.92773, 0.000005)
    # 92 % of 0.920 and 8 % of lavender, d(20/20) 0.885: 0.91710 by d, here by g/ml
    got = lib.sheet("wax: soy", "scent: lavender", "load: 8% of total",
                    steps("add scent at 75 °C, stir 2 min", "pour at 65 °C"))
    lib.near("soy with lavender", got.get("mass_g", 0) / 250,
             1 / (0.92 / 0.92 + 0.08 / (0.885 * WATER[20])), 0.00001)
    # 50, 30 and 20 % of d(20/20) 0.846, 1.050 and 0.963 are 0.92216; their arithmetic mean, which
    # would be wrong, is 0.93060. Half of what is poured, by weight, is that blend.
    got = lib.sheet("wax: porous", "scent: 50% orange + 30% clove-bud + 20% patchouli",
                    "load: 50% of total", steps("add scent at 75 °C, stir 2 min", "pour at 65 °C"),
                    own="wax porous like soy { max-load: 100% of wax }")
    blend = 0.5 / (250 / got.get("mass_g", 1) - 0.5 / 0.92)
    lib.near("orange, clove and patchouli", blend / WATER[20], 0.92216, 0.0001)


def lund(lib):
    """Soy's liquid densities by Lund's equation for oils at 15 °C, E. H. Pryde, Physical Properties
    of Soybean Oil, ch. 3: 0.8475 + 0.00030 SV + 0.00014 IV, which is 0.9132 at 191 and 60."""
    for celsius in (60, 75):
        got = lib.sheet("wax: soy", steps(f"pour at {celsius} °C"))
        doubt = lib.density("soy", "liquid-density", celsius)[1]
        for slope in (0.00067, 0.0007):
            there = 0.9132 * WATER[15] - slope * (celsius - 15)
            lib.near(f"soy at {celsius} °C by Lund", got.get("first_pour_g", 0) / 250, there, doubt)


def expansion(lib):
    """How fast the liquids thin."""
    # CRC Handbook by an encyclopedia's data box: tristearin 0.862 at 80 °C and 0.8559 at 90 °C,
    # 0.00061 g/ml for each degree. Fats are near it.
    for name in ("soy", "coconut", "palm", "rapeseed"):
        (warm, _, low), (hot, _, high) = lib.densities(name, "liquid-density")
        lib.near(f"{name} thins", (warm - hot) / (high - low), 0.00061, 0.0001)
    # Allen's Commercial Organic Analysis, from memory: molten at 98 to 99 °C paraffin 0.753,
    # beeswax 0.822, carnauba 0.842.
    (warm, _, low), (hot, doubt, high) = lib.densities("paraffin", "liquid-density")
    there = hot - (warm - hot) / (high - low) * (98.5 - high)
    lib.near("paraffin at 98.5 °C", there, 0.753, doubt)
    value, doubt, at = lib.densities("beeswax", "liquid-density")[0]
    lib.near("beeswax at 98.5 °C", value - 0.00061 * (98.5 - at), 0.822, doubt)
    lib.near("carnauba at 98.5 °C", lib.density("carnauba", "liquid-density", 98.5)[0], 0.842, 0)


def relative_densities(lib):
    """Oils whose d(20/20) was read: sandalwood by ISO 3518:1979, lavandin by the revision of ISO
    3054:1976, Ceylon citronella by ISO 3849:1981 (abstracts); patchouli, clove leaf, cinnamon leaf
    and Virginia cedarwood by a handbook. And of Codex CXS 210, from memory, d(T/20)."""
    for name, low, high in (
            ("sandalwood", 0.968, 0.983), ("lavandin", 0.885, 0.897),
            ("citronella-ceylon", 0.894, 0.910), ("patchouli", 0.952, 0.975),
            ("clove-leaf", 1.039, 1.049), ("cinnamon-leaf", 1.037, 1.053),
            ("cedarwood-virginia", 0.941, 0.965)):
        value, doubt = lib.density(name)
        lib.near(f"{name}, the middle", value, (low + high) / 2 * WATER[20], 0.0008)
        lib.between(f"{name}, low", low * WATER[20], value - doubt - 0.0005, value)
        lib.between(f"{name}, high", high * WATER[20], value, value + doubt + 0.0005)
    for name, at, low, high in (("coconut", 40, 0.908, 0.921), ("palm", 60, 0.881, 0.891)):
        value, doubt = lib.density(name, "liquid-density", at)
        lib.between(f"{name}, low", low * WATER[20], value - doubt - 0.0005, value)
        lib.between(f"{name}, high", high * WATER[20], value, value + doubt + 0.0005)


def heats(lib):
    # CRC Handbook and NIST by an encyclopedia's data box: 501.5 J/mol/K of 284.48 g/mol
    lib.near("stearic acid, solid", lib.figure("stearic-acid", "heat")[0], 501.5 / 284.48, 0.005)
    value, doubt = lib.figure("stearic-acid", "melting-heat")
    # CRC Handbook, from memory: 61.2 kJ/mol; reviews of phase-change materials: 199 to 203 J/g
    lib.between("stearic acid melts", round(61200 / 284.48), value - doubt, value + doubt)
    lib.between("stearic acid melts", 199, value - doubt, value + doubt)
    # Engineering ToolBox, latent heat of melting: 147; Zalba et al. 2003, from memory: 173.6; Putra
    # et al. 2016, from memory: 141; PMC12131709, table 1: beeswax 206, coconut oil 133; Kahwaji and
    # White 2019: coconut oil 105 +- 11
    for name, published in (("paraffin", (147, 173.6, 200, 220)), ("beeswax", (141, 177, 206)),
                            ("coconut", (94, 105, 116, 133))):
        value, doubt = lib.figure(name, "melting-heat")
        for other in published:
            lib.between(f"{name} melts", other, value - doubt, value + doubt)


def heating(lib):
    """q = m [c_s (T_m - T_1) + L + c_l (T_2 - T_m)], worked by hand, against the minutes that a kettle
    on low heat on a hotplate of 1 kW takes, 0.6 of half of which gets into the wax: kJ of so many
    kilograms."""
    stearic = "heat: 1.763 J/g/K\nheat-liquid: 2.3 J/g/K\nmelting-heat: 199 J/g"
    for like, own, melts, room, to, kilograms, wanted in (
            ("paraffin", "", 58, 20, 80, 1.0, 308.2), ("soy", "", 52, 20, 85, 0.4, 101.3),
            ("paraffin", stearic, 69.3, 25, 80, 1.0, 301.7)):
        sheet = lib.whole_sheet(
            f"wax tried like {like} {{\nmelts: {melts} °C\n{own}\n}}",
            "pot kettle { brimful: 2 l, heated: hotplate, power: 1 kW }",
            "recipe r-one {", "makes: 4 jar", "wax: tried",
            f"steps {{\nmelt to {to} °C\npour at 75 °C\n}}", "}",
            f"batch b-one {{\npour 4 r-one\npot: kettle\nroom: {room} °C\n}}", of=["b-one"])
        melt = next((step for step in sheet.get("step", []) if step["verb"] == "melt"), {})
        grams = sheet.get("pot", [{"mass_g": 1}])[0]["mass_g"]
        lib.near(f"{kilograms} kg of {like} to {to} °C, in kJ",
                 melt.get("minutes", 0) * 60 * 0.3 / grams * 1000 * kilograms, wanted, 0.06)


def vessels(lib):
    """What is called a pint, 4 oz or 8 oz holds so much, and the brim is not below it."""
    for name, nominal in (("pint-jar", PINT_ML), ("half-pint-jar", PINT_ML / 2),
                          ("tin-4oz", 4 * FL_OZ_ML), ("tin-8oz", 8 * FL_OZ_ML)):
        value, _ = lib.figure(name, "brimful")
        lib.between(f"{name} to the brim", value, nominal, 1.15 * nominal)
    # a text on jars and lids after the USDA: about 2 3/8 in
    lib.near("the pint jar's mouth", lib.figure("pint-jar", "mouth")[0], 2.375 * 25.4, 0.5)


CHECKS = [shrinkage, shrinkage_on_the_sheet, mixtures, lund, expansion, relative_densities, heats,
          heating, vessels]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--waxwright", required=True, metavar="BIN")
    lib = Library(Path(parser.parse_args().waxwright).resolve())
    for check in CHECKS:
        before, checks = len(lib.wrong), lib.checks
        check(lib)
        print(f"{check.__name__}: {lib.checks - checks} compared, {len(lib.wrong) - before} wrong")
    for line in lib.wrong:
        print(line)
    return 1 if lib.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
