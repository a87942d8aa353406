"""Recipes made up at random: the text of a .candle file, and what a reader of it would know.

Every figure is written in one of its units, and its value is that of the text, exactly.
"""

from fractions import Fraction

from reckoning_model import WATER, Additive, Blend, Job, Oil, Pot, Recipe, Vessel, Wax

GRAM = Fraction(1)
OUNCE = Fraction("28.349523125")  # from memory of NIST Handbook 44, appendix C
FLUID_OUNCE = Fraction("29.5735295625")  # the same
PINT = 16 * FLUID_OUNCE
IMP_FLUID_OUNCE = Fraction("28.4130625")  # UK Weights and Measures Act 1985: gallon / 160
INCH = Fraction("25.4")  # 16 CFR 500.19

# Unit -> how much of the inside unit, decimals it is written with.
MASS = {"g": (GRAM, 1), "kg": (1000 * GRAM, 4), "oz": (OUNCE, 2), "lb": (16 * OUNCE, 3)}
VOLUME = {
    "ml": (Fraction(1), 1),
    "cl": (Fraction(10), 1),
    "l": (Fraction(1000), 4),
    "fl oz": (FLUID_OUNCE, 2),
    "imp fl oz": (IMP_FLUID_OUNCE, 2),
    "pints": (PINT, 3),
}
LENGTH = {"mm": (Fraction(1), 1), "cm": (Fraction(10), 2), "in": (INCH, 3)}
RATE = {"g/h": (GRAM, 2), "oz/h": (OUNCE, 3)}

REEDS = "samphire sea-lavender glasswort cord-grass sea-aster bladderwrack eelgrass".split()
BIRDS = "curlew avocet redshank dunlin plover whimbrel godwit turnstone".split()


class Maker:
    """Makes one file. `rng` decides everything."""

    def __init__(self, rng, number):
        self.rng = rng
        self.number = number
        self.blocks = []  # what the text is made of
        self.taken = 0
        self.limits = {}  # a wax's name -> its limit as load() gives it

    # Figures: each gives the text and its value ------------------------------------------------

    def chance(self, share):
        return self.rng.random() < share

    def decimal(self, low, high, places):
        value = Fraction(round(self.rng.uniform(low, high) * 10**places), 10**places)
        return decimal_text(value, places), value

    def figure(self, table, low, high):
        """Between two values in the inside unit, in a unit of the table."""
        unit = self.rng.choice(list(table))
        factor, places = table[unit]
        low, high = low / float(factor), high / float(factor)
        if places > 1 and self.chance(0.15):  # a vulgar fraction, where it comes near
            eighths = round(self.rng.uniform(low, high) * 8)
            if eighths % 8 and low * 8 <= eighths <= high * 8:
                whole = f"{eighths // 8} " if eighths > 8 else ""
                return f"{whole}{eighths % 8}/8 {unit}", Fraction(eighths, 8) * factor
        text, value = self.decimal(low, high, places)
        if unit == "lb" and value > 1 and self.chance(0.5):  # 1 lb 3.2 oz
            ounces = Fraction(round((value - int(value)) * 160), 10)
            text = f"{int(value)} lb {decimal_text(ounces, 1)} oz"
            return text, int(value) * factor + ounces * OUNCE
        return f"{text} {unit}", value * factor

    def volume(self, low, high):
        """A volume, or the water that fills it."""
        if not self.chance(0.4):
            return self.figure(VOLUME, low, high)
        text, mass = self.figure(MASS, low, high)
        return f"{text} of water", mass / WATER

    def point(self, low, high):
        if self.chance(0.3):
            text, value = self.decimal(low * 1.8 + 32, high * 1.8 + 32, 0)
            return f"{text} °F", (value - 32) * Fraction(5, 9)
        text, value = self.decimal(low, high, self.rng.choice([0, 0, 1]))
        return f"{text} °C", value

    def percent(self, low, high, places=2):
        text, value = self.decimal(low, high, places)
        return f"{text}%", value / 100

    def load(self, low, high):
        """(text, value, whether it is of the total); between two shares of the wax."""
        kind = self.rng.choice(["wax", "wax", "total", "ounces"])
        if kind == "ounces":
            halves = max(1, round(self.rng.uniform(low, high) * 32))
            text = {1: "1/2", 2: "1", 3: "1 1/2"}.get(halves, decimal_text(Fraction(halves, 2), 1))
            return f"{text} oz per lb of wax", Fraction(halves, 32), False
        text, value = self.percent(100 * low, 100 * high)
        if kind == "total":
            return f"{text} of total", value, True
        return f"{text} of wax", value, False

    # Blocks --------------------------------------------------------------------------------

    def name(self, kind):
        self.taken += 1
        return f"{self.rng.choice(REEDS)}-{kind}-{self.taken}"

    def block(self, kind, name, properties):
        lines = [f"  {key}: {value}\n" for key, value in properties]
        self.blocks.append(f"{kind} {name} {{\n{''.join(lines)}}}\n")

    def wax(self):
        name = self.name("wax")
        text, solid = self.decimal(0.87, 0.97, 4)
        properties = [("density", f"{text} g/ml at 20 °C")]
        points = []
        for low in self.rng.choice([[], [60], [70], [55, 75], [80, 58]]):
            at_text, at = self.point(low, low + 4)
            text, value = self.decimal(0.77, 0.86 if low > 65 else 0.9, 4)
            points.append((at, value, f"{text} g/ml at {at_text}"))
        if points:
            properties.append(("liquid-density", ", ".join(text for *_, text in points)))
        self.limits[name] = text, limit, of_total = self.load(0.08, 0.15)
        limit = limit / (1 - limit) if of_total else limit
        ceiling_text, ceiling = self.point(101, 115)
        properties += [("melts", "45 to 55 °C"), ("max-load", text), ("ceiling", ceiling_text)]
        self.block("wax", name, properties)
        return Wax(name, solid, [point[:2] for point in points], limit, ceiling)

    def oil(self):
        name = self.name("oil")
        text, density = self.decimal(0.83, 1.07, 4)
        flash_text, flash = self.point(40, 90)
        cup = self.rng.choice([" closed cup", " closed cup", " open cup", ""])
        properties = [("density", f"{text} g/ml"), ("flash-point", flash_text + cup)]
        oil = Oil(name, density, flash, cup == " closed cup")
        if self.chance(0.3):
            text, oil.limit = self.percent(*((6, 12) if self.chance(0.95) else (0.5, 1)))
            oil.limit_of_total = self.chance(0.6)
            properties.append(("limit", text + (" of total" if oil.limit_of_total else " of wax")))
        self.block("oil", name, properties)
        return oil

    def additive(self):
        name, density, properties = self.name("additive"), None, []
        if self.chance(0.5):
            text, density = self.decimal(0.8, 1.3, 3)
            properties.append(("density", f"{text} g/ml"))
        self.block("additive", name, properties)
        return Additive(name, density)

    def blend(self, things, nested=True):
        """(text, Blend) of the things, some of them put into an accord first."""
        things, items, texts = list(things), [], []
        if nested and len(things) > 2 and self.chance(0.4):
            inner_text, inner = self.blend(things[:2], nested=False)
            accord = self.name("accord")
            self.blocks.append(f"let {accord} = {inner_text}\n")
            # One of its materials may stand beside it as well: they are merged.
            things = [inner] + things[1 if self.chance(0.4) else 2 :]
            names = [accord] + [each.name for each in things[1:]]
        else:
            names = [each.name for each in things]
        if len(things) == 1 and self.chance(0.7):
            return names[0], Blend([(Fraction(1), things[0])])
        parts = self.chance(0.5)
        if parts:
            for name, thing in zip(names, things):
                halves = self.rng.randint(1, 12)
                text = decimal_text(Fraction(halves, 2), 1) + (" part" if halves == 2 else " parts")
                texts.append(f"{text} {name}")
                items.append((Fraction(halves, 2), thing))
        else:
            left = Fraction(100)
            for name, thing in zip(names[:-1], things[:-1]):
                text, value = self.percent(5, float(left) / 2, self.rng.choice([0, 1]))
                left -= 100 * value
                texts.append(f"{text} {name}")
                items.append((100 * value, thing))
            rest = self.chance(0.5)
            texts.append(("rest " if rest else decimal_text(left, 1) + "% ") + names[-1])
            items.append((None if rest else left, things[-1]))
        by_volume = parts and self.chance(0.35)
        return " + ".join(texts) + (" by volume" if by_volume else ""), Blend(items, by_volume)

    def vessel(self):
        vessel = Vessel(self.name("vessel"))
        properties = [("of", self.rng.choice(["glass", "tin", "ceramic"])), ("made-for", "candles")]

        def length(key, low, high):
            text, value = self.figure(LENGTH, low, high)
            properties.append((key, text))
            return value

        shape = self.rng.choice(["fill", "brimful", "brimful", "cylinder", "taper"])
        if shape == "fill":
            text, vessel.fill = self.volume(80, 500)
            properties.append(("fill", text))
            if self.chance(0.5):
                vessel.bore = length("bore", 60, 80)
            return self.done(vessel, properties)
        if shape == "brimful":
            text, vessel.brimful = self.volume(200, 600)
            properties.append(("brimful", text))
            vessel.bore = length("bore", 66, 78)
            if self.chance(0.4):
                vessel.mouth = length("mouth", 55, 65)
        else:
            mouth, wide = self.figure(LENGTH, 70, 90)
            base, narrow = self.figure(LENGTH, 55, 69)
            deep, vessel.deep = self.figure(LENGTH, 60, 120)
            vessel.across = (wide, narrow) if shape == "taper" else (wide,)
            across = f"{mouth} to {base}" if shape == "taper" else mouth
            properties.append(("inside", f"{across} across, {deep} deep"))
        low, high = (0.5, 1.5) if self.chance(0.03) else (10, 20)  # the first is overfull
        vessel.headspace = length("headspace", low, high)
        return self.done(vessel, properties)

    def done(self, vessel, properties):
        self.block("vessel", vessel.name, properties)
        return vessel

    def pot(self):
        text, size = self.volume(*((900, 5000) if self.chance(0.97) else (120, 300)))
        pot = Pot(self.name("pot"), size, Fraction(1, 5), Fraction(0))
        properties = [("brimful", text), ("heated", "water-bath")]
        if self.chance(0.5):
            text, pot.headroom = self.percent(0, 40, 1)
            properties.append(("headroom", text))
        if self.chance(0.6):
            text, pot.clings = self.figure({"g": MASS["g"], "oz": MASS["oz"]}, 2, 25)
            properties.append(("clings", text))
        self.block("pot", pot.name, properties)
        return pot

    def scale(self):
        name = self.name("scale")
        text, value = self.rng.choice(
            [("1 g", 1), ("0.1 g", Fraction("0.1")), ("0.01 oz", OUNCE / 100), ("5 g", 5)]
        )
        self.block("scale", name, [("reads", text)])
        return name, Fraction(value)

    def wick(self):
        name = self.name("wick")
        text, burns = self.figure(RATE, 2.5, 8)
        self.block("wick", name, [("core", "cotton"), ("burns", text)])
        return name, burns

    # Recipes and batches --------------------------------------------------------------------

    def steps(self, recipe, additives):
        lines, points = [], []

        def at(words, low, high):
            text, value = self.point(low, high)
            lines.append(f"{words} {text}")
            points.append(value)
            return value

        if self.chance(0.2):
            lines.append("warm vessels to 45 °C")
        recipe.melt = at("melt to", 76, 92)
        lines += [f"add {additive.name} at 75 °C" for _, additive in additives]
        lines.append("off heat")
        if recipe.scent:
            at("add scent at", 60, 75)
            lines[-1] += ", stir 2 min"
        recipe.pour = at("pour at", 58, 72)
        if recipe.second:
            lines.append("leave 3 h")
            at("second pour at", 58, 94 if self.chance(0.1) else 75)
        recipe.hottest = max(points)
        lines.append("cure 10 days")
        return "".join(f"    {line}\n" for line in lines)

    def recipe(self):
        blank = Fraction(0)
        vessel = self.vessel()
        waxes = [self.wax() for _ in range(self.rng.choice([1, 1, 2, 2, 3]))]
        text, blend = self.blend(waxes)
        name = f"{self.rng.choice(BIRDS)}-{self.number}-{self.taken}"
        recipe = Recipe(name, name, self.rng.choice([1, 2, 3, 6, 12, 17, 24, 40]), vessel, blend,
                        blank, blank, blank, second=self.chance(0.5))
        properties = [("makes", f"{recipe.count} {vessel.name}"), ("wax", text)]
        if self.chance(0.6):
            recipe.title = f"Tide at the {name.split('-')[0]} bank, no. {self.number}"
            properties.append(("title", f'"{recipe.title}"'))
        if self.chance(0.85):
            self.add_scent(recipe, properties)
        if self.chance(0.5):
            self.add_additives(recipe, properties)
        self.add_bench(recipe, properties)
        if recipe.second and self.chance(0.5):
            self.add_keep(recipe, properties)
        additives = recipe.additives if self.chance(0.7) else []
        lines = [f"  {key}: {value}\n" for key, value in properties]
        steps = self.steps(recipe, additives)
        self.blocks.append(f"recipe {name} {{\n{''.join(lines)}  steps {{\n{steps}  }}\n}}\n")
        return recipe

    def add_scent(self, recipe, properties):
        text, recipe.scent = self.blend([self.oil() for _ in range(self.rng.randint(1, 5))])
        properties.append(("scent", text))
        high = 0.18 if self.chance(0.03) else 0.065  # the first is often over the limit
        said = self.load(0.02, high)
        if len(recipe.wax.items) == 1 and self.chance(0.1):  # as much as it holds, to the last bit
            said = self.limits[recipe.wax.items[0][1].name]
        text, recipe.load, recipe.load_of_total = said
        if self.chance(0.2):
            name = self.name("load")
            self.blocks.append(f"let {name} = {text}\n")
            text = name
        properties.append(("load", text))

    def add_additives(self, recipe, properties):
        texts = []
        for _ in range(self.rng.randint(1, 2)):
            additive = self.additive()
            text, share = self.percent(0.1, 6)
            texts.append(f"{text} {additive.name}")
            recipe.additives.append((share, additive))
        properties.append(("additives", " + ".join(texts)))

    def add_keep(self, recipe, properties):
        kind = self.rng.choice(["wax", "total", "mass", None])
        if kind == "mass":
            text, value = self.figure({"g": MASS["g"], "oz": MASS["oz"]}, 5, 60)
            properties.append(("keep", text))
            recipe.keep = (kind, value)
        elif kind:
            text, value = self.percent(2, 30)
            properties.append(("keep", f"{text} of {kind}"))
            recipe.keep = (kind, value)
        if self.chance(0.5):
            recipe.keep_in = self.pot()
            jugs = self.rng.choice(["", "1 ", "3 "])
            properties.append(("keep-in", jugs + recipe.keep_in.name))

    def add_bench(self, recipe, properties):
        vessel = recipe.vessel
        if (vessel.bore or vessel.across) and self.chance(0.6):
            name, recipe.burns = self.wick()
            recipe.wicks = self.rng.choice([1, 1, 2])
            properties.append(("wick", f"{recipe.wicks} {name}"))
            if self.chance(0.3):
                text, recipe.stop_at = self.figure(LENGTH, 8, 20)
                properties.append(("stop-at", text))
        if self.chance(0.6):
            recipe.pot = self.pot()
            at_once = self.rng.choice(["", "1 ", "2 "])
            properties.append(("pot", at_once + recipe.pot.name))
        if self.chance(0.6):
            name, recipe.division = self.scale()
            properties.append(("scale", name))
        if self.chance(0.4):
            text, recipe.spare = self.percent(0, 8, 1)
            properties.append(("spare", text))
        if vessel.headspace is not None and self.chance(0.2):
            text, recipe.headspace = self.figure(LENGTH, 10, 25)
            properties.append(("headspace", text))

    def batch(self, recipes):
        """(name, jobs): some of the recipes' own things replaced."""
        name = self.name("batch")
        lines, replaced = [], {}
        if self.chance(0.5):
            replaced["pot"] = self.pot()
            lines.append(f"pot: 2 {replaced['pot'].name}")
        if self.chance(0.5):
            scale, replaced["division"] = self.scale()
            lines.append(f"scale: {scale}")
        if self.chance(0.5):
            text, replaced["spare"] = self.percent(0, 8, 1)
            lines.append(f"spare: {text}")
        jobs = []
        for recipe in recipes:
            count = self.rng.randint(1, 30)
            lines.append(f"pour {count} {recipe.name}")
            jobs.append(Job(recipe, count, replaced))
        self.blocks.append(f"batch {name} {{\n  " + "\n  ".join(lines) + "\n}\n")
        return name, jobs


def decimal_text(value, places):
    """Without zeros at its end."""
    text = f"{value.numerator * 10**places // value.denominator:0{places + 1}d}"
    if places:
        text = f"{text[:-places]}.{text[-places:]}".rstrip("0").rstrip(".")
    return text


def make_file(rng, number):
    """(text, sheets): a sheet is (NAME and options, title, jobs)."""
    maker = Maker(rng, number)
    recipes = [maker.recipe() for _ in range(rng.choice([1, 1, 1, 2, 3]))]
    sheets = [([recipe.name], recipe.title, [Job(recipe)]) for recipe in recipes]
    if rng.random() < 0.4:
        count, recipe = rng.choice([1, 4, 7, 40, 120]), recipes[0]
        words = [recipe.name, "--make", str(count)]
        sheets.append((words, recipe.title, [Job(recipe, count)]))
    if len(recipes) > 1 or rng.random() < 0.2:
        name, jobs = maker.batch(recipes)
        sheets.append(([name], name, jobs))
    return "# Salt marsh studio\nlanguage 1\n\n" + "\n".join(maker.blocks), sheets
