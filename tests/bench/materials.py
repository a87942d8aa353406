"""The materials and tools of a benchmark file, and the lets made of them."""

import math
import random

from two_files import Both, Writer, blend, number, plain, quoted, shares_of
from words import FIRST, LAST, MIDDLE, PLANTS, Names

# Every rule below that depends on temperature is met by mixing only waxes of one family: within a
# family the ranges always share some degrees, whatever is drawn. Temperatures are in °C.
FAMILIES = {
    "soft": dict(melts=((44, 47), (50, 54)), sets=(40, 43), ceiling=(88, 93),
                 scent=((62, 65), (76, 80)), pour=((54, 57), (67, 71)), load=(9, 12)),
    "even": dict(melts=((49, 52), (54, 57)), sets=(45, 48), ceiling=(90, 95),
                 scent=((65, 68), (78, 82)), pour=((57, 60), (70, 74)), load=(8, 11)),
    "firm": dict(melts=((54, 57), (58, 62)), sets=(50, 53), ceiling=(92, 98),
                 scent=((68, 71), (80, 84)), pour=((62, 65), (74, 78)), load=(7, 10)),
}
# A water bath gives no more than this with certainty.
BATH_MOST = 93
ROOM = 20

# Wicks are made for overlapping bands of inside diameters, in mm.
WICK_BANDS = [(46, 58), (55, 66), (63, 74), (71, 82), (79, 90), (87, 100)]


class Materials:
    """Draws the blocks that recipes need, and keeps what choosing among them takes."""

    def __init__(self, count, seed, style):
        self.count = count
        # The count is part of the seed: a longer file is not merely a shorter one prolonged.
        self.rng = random.Random(f"waxwright-bench {seed} {count}")
        self.names = Names(self.rng)
        self.out = Writer(style)
        self.waxes = {}
        # A house wax: its family and the share of each wax in it.
        self.house_waxes = {}
        self.oils = []
        self.accords = []
        self.loads = []
        self.additives = []
        self.vessels = {}
        self.wicks = {band: [] for band in WICK_BANDS}
        self.pots = []
        self.scales = []
        self.extras = []
        self.recipes = []

    # -- small draws ---------------------------------------------------------------------------

    def between(self, low, high, step=1.0):
        """A multiple of step in [low, high]."""
        first = math.ceil(low / step - 1e-9)
        last = math.floor(high / step + 1e-9)
        assert first <= last, (low, high, step)
        value = round(self.rng.randint(first, last) * step, 6)
        return int(value) if value == int(value) else value

    def chance(self, share):
        return self.rng.random() < share

    def degrees(self, celsius):
        """A temperature point: °C mostly, °F now and then where that comes out whole."""
        if celsius % 5 == 0 and self.chance(0.3):
            return f"{celsius * 9 // 5 + 32} °F"
        return f"{celsius} °C"

    def price(self, low, high):
        return f"${self.between(low, high, 0.05):.2f}"

    def packs(self, *offers):
        written = [f"{size} for {price}" for size, price in offers]
        listed = [{"size": size, "price": price} for size, price in offers]
        return Both(", ".join(written), listed, written)

    def sentence(self):
        rng = self.rng
        return rng.choice([
            f"measured on the bench by the {rng.choice(MIDDLE)} window, twice",
            f"kept on the {rng.choice(FIRST)} shelf, away from the stove",
            f"the {rng.choice(LAST)} lot; the one before ran {rng.choice(['darker', 'paler'])}",
            f"weighed at the {rng.choice(MIDDLE)} table with the door shut",
            f"called \"the {rng.choice(LAST)} one\" in the studio",
        ])

    # -- materials -----------------------------------------------------------------------------

    def write_waxes(self):
        self.out.comment("Waxes: the figures are invented, in the range that container waxes have.")
        families = list(FAMILIES)
        for index in range(max(6, math.ceil(self.count / 50))):
            name = self.names.draw(FIRST, LAST, ["wax", "blend", "base"])
            family = families[index % len(families)]
            limits = FAMILIES[family]
            wax = dict(
                family=family,
                melts=(self.between(*limits["melts"][0]), self.between(*limits["melts"][1])),
                sets=self.between(*limits["sets"]),
                ceiling=self.between(*limits["ceiling"]),
                scent=(self.between(*limits["scent"][0]), self.between(*limits["scent"][1])),
                pour=(self.between(*limits["pour"][0]), self.between(*limits["pour"][1])),
                cures=self.between(7, 14),
            )
            solid = self.between(0.885, 0.925, 0.005)
            liquid = self.between(0.79, 0.82, 0.005)
            properties = []
            if self.chance(0.4):
                properties.append(("about", quoted(self.sentence())))
            properties.append(("density", plain(f"{number(solid)} g/ml at 25 °C")))
            at70 = f"{number(liquid)} g/ml at 70 °C"
            at90 = f"{number(liquid - 0.015)} g/ml at 90 °C"
            properties.append(("liquid-density", Both(f"{at70}, {at90}", [at70, at90], [at70, at90])))
            properties.append(("melts", plain("{} to {} °C".format(*wax["melts"]))))
            properties.append(("sets", plain(f"{wax['sets']} °C")))
            # Kept as scent over wax, whatever basis the wax is written on.
            most = self.between(*limits["load"], 0.5)
            if self.chance(0.25):
                properties.append(("max-load", plain(f"{number(most)}% of total")))
                wax["most"] = most / (100 - most)
            else:
                properties.append(("max-load", plain(f"{number(most)}% of wax")))
                wax["most"] = most / 100
            properties.append(("ceiling", plain(f"{wax['ceiling']} °C")))
            properties.append(("flash-point", plain(f"{self.between(210, 260)} °C")))
            properties.append(("scent-at", plain("{} to {} °C".format(*wax["scent"]))))
            properties.append(("pour-at", plain("{} to {} °C".format(*wax["pour"]))))
            properties.append(("cures", plain(f"{wax['cures']} days")))
            if self.chance(0.6):
                properties.append(("heat", plain(f"{self.between(1.9, 2.3, 0.1)} J/g/K")))
                properties.append(("heat-liquid", plain(f"{self.between(2.1, 2.5, 0.1)} J/g/K")))
                properties.append(("melting-heat", plain(f"{self.between(150, 200)} J/g")))
            properties.append(("sold", self.packs(
                (f"{self.rng.choice([45, 50])} lb", self.price(120, 190)),
                (f"{self.rng.choice([5, 10])} lb", self.price(28, 48)))))
            self.out.block("wax", name, properties)
            self.waxes[name] = wax

    def write_oils(self):
        self.out.comment("Oils: flash points lie far over any temperature used below.")
        for _ in range(max(8, math.ceil(self.count / 20))):
            name = self.names.draw(FIRST + MIDDLE, PLANTS, ["oil", "scent", "leaf", "bloom"])
            density = f"{number(self.between(0.86, 1.06, 0.005))} g/ml"
            if self.chance(0.25):
                density += " +- 0.01"
            flash = f"{self.between(104, 130)} °C"
            flash += " closed cup" if self.chance(0.7) else " open cup"
            properties = []
            if self.chance(0.3):
                properties.append(("about", quoted(self.sentence())))
            properties.append(("density", plain(density)))
            properties.append(("flash-point", plain(flash)))
            # Over any load drawn below, so that an oil may be the whole scent.
            if self.chance(0.6):
                properties.append(("limit", plain(f"{self.between(14, 20)}% of wax")))
            else:
                properties.append(("ifra-cat-12", plain(f"{self.between(20, 80)}% of total")))
                properties.append(("certificate",
                                   quoted(f"paper {self.between(100, 999)}, own file")))
            properties.append(("made-for", plain("candles")))
            properties.append(("base", plain("oil")))
            properties.append(("sold", self.packs(
                ("500 g", self.price(28, 60)), ("4 oz", self.price(8, 16)))))
            self.out.block("oil", name, properties)
            self.oils.append(name)

    def write_additives(self):
        self.out.comment("Additives, dyes among them.")
        for _ in range(max(3, math.ceil(self.count / 100))):
            name = self.names.draw(FIRST, LAST, ["flake", "dye", "hardener", "powder"])
            properties = [
                ("density", plain(f"{number(self.between(0.90, 1.00, 0.01))} g/ml")),
                ("limit", plain(f"{self.between(4, 6)}% of wax")),
                ("made-for", plain("candles")),
                ("base", plain("oil")),
                ("sold", self.packs(("100 g", self.price(4, 12)))),
            ]
            self.out.block("additive", name, properties)
            self.additives.append(name)

    def write_vessels(self):
        self.out.comment("Vessels, each way of saying how much goes in.")
        forms = ["fill", "brimful", "water", "cylinder", "taper"]
        for index in range(max(6, math.ceil(self.count / 20))):
            name = self.names.draw(FIRST, MIDDLE + LAST, ["tumbler", "jar", "cup", "bowl", "pot"])
            across = self.between(50, 96)
            deep = self.between(82, 104)
            headspace = self.between(12, 16)
            # What a cylinder of this size holds, a little less for the rounded foot.
            holds = math.pi / 4 * across ** 2 * deep / 1000 * 0.96
            properties = []
            if self.chance(0.4):
                properties.append(("about", quoted(self.sentence())))
            form = forms[index % len(forms)]
            if form == "fill":
                fill = holds * (1 - headspace / deep)
                if self.chance(0.5):
                    properties.append(("fill", plain(f"{fill:.0f} g of water")))
                else:
                    properties.append(("fill", plain(f"{fill:.0f} ml")))
            elif form == "brimful":
                if self.chance(0.3):
                    brimful = f"{number(self.between(holds / 29.5735, holds / 28.9, 0.05))} fl oz"
                else:
                    brimful = f"{number(round(holds / 10, 1))} cl"
                properties.append(("brimful", plain(brimful)))
            elif form == "water":
                properties.append(("brimful", plain(f"{holds:.0f} g of water")))
            elif form == "cylinder":
                properties.append(("inside", plain(f"{across} mm across, {deep} mm deep")))
            else:
                properties.append(("inside",
                                   plain(f"{across + 4} mm to {across - 4} mm across, "
                                         f"{deep} mm deep")))
            if form != "fill":
                properties.append(("headspace", plain(f"{headspace} mm")))
            # A cylinder's bore is its width across: half of them leave it unsaid.
            if form != "cylinder" or self.chance(0.5):
                properties.append(("bore", plain(f"{across} mm")))
            properties.append(("of", plain(self.rng.choice(["glass", "glass", "ceramic", "tin"]))))
            properties.append(("made-for", plain(self.rng.choice(["candles", "candles", "heat"]))))
            shock = None
            if self.chance(0.5):
                shock = self.between(42, 70)
                properties.append(("shock", plain(f"{shock} C°")))
            properties.append(("sold", self.packs(
                ("24", self.price(30, 60)), ("6", self.price(9, 20)))))
            self.out.block("vessel", name, properties)
            self.vessels[name] = dict(bore=across, shock=shock, form=form)

    def write_wicks(self):
        self.out.comment("Cotton wicks, at least one for each band of bores.")
        for index in range(max(len(WICK_BANDS), math.ceil(self.count / 40))):
            band = WICK_BANDS[index % len(WICK_BANDS)]
            name = self.names.draw(FIRST, LAST, ["braid", "cord", "plait"])
            properties = [
                ("suits", plain(f"{band[0]} to {band[1]} mm")),
                ("core", plain("cotton")),
                ("burns", plain(f"{number(self.between(3.2, 7.0, 0.1))} g/h")),
                ("sold", self.packs(("100", self.price(7, 15)))),
            ]
            self.out.block("wick", name, properties)
            self.wicks[band].append(name)

    def write_tools(self):
        self.out.comment("The bench: pots, scales, and what goes round a candle.")
        for _ in range(max(3, math.ceil(self.count / 200))):
            name = self.names.draw(FIRST, MIDDLE, ["kettle", "can", "pan"])
            minutes = self.between(16, 26)
            properties = [
                ("brimful", plain(f"{number(self.between(3, 8, 0.5))} l")),
                ("headroom", plain(f"{self.between(15, 25)}%")),
                ("clings", plain(f"{self.between(3, 9)} g")),
                ("heated", plain("water-bath")),
                ("weighs", plain(f"{self.between(420, 900, 10)} g")),
                ("power", plain(f"{number(self.between(1, 2, 0.1))} kW")),
                ("cools", plain(f"75 °C to 60 °C over {minutes} min with 2 kg in-room {ROOM} °C")),
            ]
            self.out.block("pot", name, properties)
            self.pots.append(name)
        for _ in range(max(2, math.ceil(self.count / 1000))):
            name = self.names.draw(FIRST, MIDDLE, ["scale", "balance"])
            properties = [
                ("reads", plain("0.1 g")),
                ("most", plain(f"{self.between(12, 20)} kg")),
            ]
            self.out.block("scale", name, properties)
            self.scales.append(name)
        for _ in range(max(2, math.ceil(self.count / 200))):
            kind = self.rng.choice(["lid", "box", "outside"])
            noun = {"lid": "cover", "box": "carton", "outside": "sleeve"}[kind]
            name = self.names.draw(FIRST, MIDDLE, [noun])
            properties = [
                ("goes", plain(kind)),
                ("sold", self.packs(("50", self.price(9, 40)))),
            ]
            self.out.block("extra", name, properties)
            self.extras.append(name)

    # -- what is bound by let ------------------------------------------------------------------

    def write_lets(self):
        self.out.comment("House figures, house waxes and accords that recipes share.")
        bindings = []
        for _ in range(max(2, math.ceil(self.count / 100))):
            name = self.names.draw(FIRST, MIDDLE, ["load"])
            load = self.between(4, 8, 0.25)
            bindings.append((name, plain(f"{number(load)}% of wax")))
            self.loads.append((name, load / 100))
        self.headspace = self.names.draw(["house", "usual"], ["headspace"])
        bindings.append((self.headspace, plain("14 mm")))
        families = list(FAMILIES)
        for index in range(max(len(families), math.ceil(self.count / 100))):
            name = self.names.draw(FIRST, MIDDLE, ["house"])
            family = families[index % len(families)]
            items = self.wax_items(family, 2)
            bindings.append((name, blend(items, self.rng.choice(["percent", "rest"]))))
            self.house_waxes[name] = (family, shares_of(items))
        for _ in range(max(2, math.ceil(self.count / 40))):
            name = self.names.draw(FIRST, PLANTS, ["accord"])
            oils = self.rng.sample(self.oils, self.rng.randint(2, 3))
            items = [(oil, self.rng.choice([1, 1.5, 2])) for oil in oils]
            bindings.append((name, blend(items, "parts")))
            self.accords.append(name)
        self.out.lets(bindings)

    def write_materials(self):
        self.write_waxes()
        self.write_oils()
        self.write_additives()
        self.write_vessels()
        self.write_wicks()
        self.write_tools()
        self.write_lets()

    def wax_items(self, family, most):
        """Names and percents of up to `most` waxes of a family, one of them the largest."""
        fitting = [name for name, wax in self.waxes.items() if wax["family"] == family]
        chosen = self.rng.sample(fitting, min(most, len(fitting)))
        if len(chosen) == 1:
            return [(chosen[0], 100)]
        if len(chosen) == 2:
            first = self.between(55, 90, 5)
            return [(chosen[0], first), (chosen[1], 100 - first)]
        first = self.between(50, 70, 5)
        second = self.between(10, 20, 5)
        return [(chosen[0], first), (chosen[1], second), (chosen[2], 100 - first - second)]
