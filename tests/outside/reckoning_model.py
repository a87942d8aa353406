"""The reckoning of a batch, said a second time: exact fractions, and nothing of the compiler's.

Inside everything is g, ml, mm, °C and h, as a Fraction. Only pi is rounded, to fifty digits, so a
tie between two remainders is a tie here, and a whole division is whole.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, floor

PI = Fraction("3.14159265358979323846264338327950288419716939937510")
# g/ml at 20 °C; from memory of the standard tables of water density (998.2 kg/m3)
WATER = Fraction("0.99820")
# of a wax's solid density: the thin side of molten wax; common practice
THIN_SIDE = Fraction("0.86")
# of the density, for each C°; common practice
THERMAL = Fraction("0.0008")
# what an open cup reads over a closed one at the most, C°; common practice
OPEN_CUP = 10
# of brimful: what is over it counts as filled to the brim; common practice
FULLEST = Fraction("0.95")
NEAR = Fraction(1, 10**9)  # values this near to each other, in proportion, are the same


@dataclass
class Wax:
    name: str
    density: Fraction  # solid
    liquid: list  # of (°C, g/ml): none, one or two
    limit: Fraction  # scent to wax
    ceiling: Fraction


@dataclass
class Oil:
    name: str
    density: Fraction
    flash: Fraction
    closed: bool
    limit: Fraction | None = None
    limit_of_total: bool = True


@dataclass
class Additive:
    name: str
    density: Fraction | None


@dataclass
class Blend:
    """`items` are (amount, thing), a thing being a material or another blend; an amount of None
    is the rest of a hundred."""

    items: list
    by_volume: bool = False


@dataclass
class Vessel:
    name: str
    fill: Fraction | None = None
    brimful: Fraction | None = None
    across: tuple = ()  # one diameter, or mouth and base
    deep: Fraction | None = None
    headspace: Fraction | None = None
    bore: Fraction | None = None
    mouth: Fraction | None = None


@dataclass
class Pot:
    name: str
    brimful: Fraction
    headroom: Fraction
    clings: Fraction


@dataclass
class Recipe:
    name: str
    title: str
    count: int
    vessel: Vessel
    wax: Blend
    melt: Fraction
    pour: Fraction
    hottest: Fraction  # of all steps
    second: bool = False
    keep: tuple | None = None  # ("wax" or "total", share), or ("mass", g of each vessel)
    keep_in: Pot | None = None
    scent: Blend | None = None
    load: Fraction = Fraction(0)
    load_of_total: bool = False
    additives: list = field(default_factory=list)  # of (share of the wax, Additive)
    pot: Pot | None = None
    division: Fraction | None = None
    spare: Fraction = Fraction(0)
    headspace: Fraction | None = None
    wicks: int = 0
    burns: Fraction | None = None  # g/h a wick
    stop_at: Fraction = Fraction(12)


# How much goes into a vessel -----------------------------------------------------------------


def frustum(d1, d2, height):
    """ml, of mm."""
    return PI / 12 * height * (d1 * d1 + d1 * d2 + d2 * d2) / 1000


def brimful(vessel):
    if vessel.brimful is not None:
        return vessel.brimful
    return frustum(vessel.across[0], vessel.across[-1], vessel.deep)


def across_at(vessel, depth):
    """The inside diameter so far under the mouth."""
    mouth, base = vessel.across[0], vessel.across[-1]
    return mouth + (base - mouth) * depth / vessel.deep


def headspace_of(recipe):
    return recipe.vessel.headspace if recipe.headspace is None else recipe.headspace


def fill(recipe):
    vessel = recipe.vessel
    if vessel.fill is not None:
        return vessel.fill
    empty = headspace_of(recipe)
    if len(vessel.across) == 2:
        return brimful(vessel) - frustum(vessel.across[0], across_at(vessel, empty), empty)
    top = vessel.mouth or vessel.bore or vessel.across[0]
    return brimful(vessel) - frustum(top, top, empty)


def last_ml(recipe):
    """The wax in the bottom that must not burn; None where the vessel's width isn't known."""
    vessel, rest = recipe.vessel, recipe.stop_at
    if vessel.across:
        return frustum(across_at(vessel, vessel.deep - rest), vessel.across[-1], rest)
    return frustum(vessel.bore, vessel.bore, rest) if vessel.bore else None


# Blends and what they weigh ------------------------------------------------------------------


def amounts(blend):
    said = sum(amount for amount, _ in blend.items if amount is not None)
    return [(100 - said if amount is None else amount, thing) for amount, thing in blend.items]


def shares(blend):
    """By weight, of one: {name: (share, material)} in the order in which they come."""
    parts = []
    for amount, thing in amounts(blend):
        inner = shares(thing) if isinstance(thing, Blend) else {thing.name: (Fraction(1), thing)}
        if blend.by_volume:
            amount *= 1 / sum(share / each.density for share, each in inner.values())
        parts += [(amount * share, each) for share, each in inner.values()]
    whole = sum(amount for amount, _ in parts)
    merged = {}
    for amount, each in parts:
        before = merged[each.name][0] if each.name in merged else 0
        merged[each.name] = (before + amount / whole, each)
    return merged


def liquid(wax, at):
    if not wax.liquid:
        return wax.density
    (t1, rho1), (t2, rho2) = wax.liquid[0], wax.liquid[-1]
    if len(wax.liquid) == 1:
        return rho1 * (1 - THERMAL * (at - t1))
    return rho1 + (rho2 - rho1) * (at - t1) / (t2 - t1)


def room(wax, at):
    """What it is taken for where the question is whether there is room."""
    return liquid(wax, at) if wax.liquid else THIN_SIDE * wax.density


class Mixture:
    """Wax, oils and additives in the proportions of a recipe, the wax being one."""

    def __init__(self, recipe):
        self.waxes = shares(recipe.wax)
        self.oils = shares(recipe.scent) if recipe.scent else {}
        self.additives = recipe.additives
        self.a = sum((share for share, _ in recipe.additives), Fraction(0))
        self.f = recipe.load
        if recipe.load_of_total:
            self.f = recipe.load * (1 + self.a) / (1 - recipe.load)
        self.whole = 1 + self.f + self.a

    def density(self, of_wax):
        """`of_wax` gives a wax's density in this question."""
        wax_volume = sum(share / of_wax(wax) for share, wax in self.waxes.values())
        volume = wax_volume
        volume += sum(self.f * share / oil.density for share, oil in self.oils.values())
        for share, additive in self.additives:
            volume += share * wax_volume if additive.density is None else share / additive.density
        return self.whole / volume

    def limit(self):
        return sum(share * wax.limit for share, wax in self.waxes.values())


# Masses, pots and the scale ------------------------------------------------------------------


def rounded(mass, division):
    """In whole divisions; halves upward."""
    return floor(mass / division + Fraction(1, 2))


def weigh_out(lines, division):
    """[(kind, name, mass)] -> the same with whole divisions, which add up to the sum's own."""
    if division is None:
        division = Fraction(1, 10) if min(mass for *_, mass in lines) < 20 else Fraction(1)
    whole = [floor(mass / division) for *_, mass in lines]
    left = rounded(sum(mass for *_, mass in lines), division) - sum(whole)
    order = sorted(range(len(lines)), key=lambda i: (whole[i] - lines[i][2] / division, i))
    for i in order[:left]:
        whole[i] += 1
    return division, [(kind, name, n) for (kind, name, _), n in zip(lines, whole)]


def whole_down(value):
    return floor(value * (1 + NEAR))


class Job:
    """A recipe as it is made: so many, in this pot, on this scale. `refusals` are the rules that
    forbid it; with one of them nothing else need be there."""

    def __init__(self, recipe, count=None, batch=None):
        self.recipe = recipe
        self.count = count or recipe.count
        batch = batch or {}
        self.pot = batch.get("pot", recipe.pot)
        self.division = batch.get("division", recipe.division)
        self.spare = batch.get("spare", recipe.spare)
        self.mixture = Mixture(recipe)
        self.refusals = self._blend_refusals()
        self.fill = fill(recipe)
        if recipe.vessel.fill is None and self._overfull():
            self.refusals.add("overfull")
        if self.fill > 0:
            self._masses()
            self._pots()

    def _blend_refusals(self):
        mixture, found = self.mixture, set()
        if mixture.f > mixture.limit() * (1 + NEAR):
            found.add("load-over-limit")
        for share, oil in mixture.oils.values():
            of = mixture.whole if oil.limit_of_total else 1
            if oil.limit is not None and mixture.f * share / of > oil.limit * (1 + NEAR):
                found.add("oil-over-limit")
        return found

    def _overfull(self):
        vessel = self.recipe.vessel
        if vessel.deep is not None and headspace_of(self.recipe) >= vessel.deep:
            return True
        return self.fill <= 0 or self.fill > FULLEST * brimful(vessel) * (1 + NEAR)

    def _masses(self):
        recipe, mixture = self.recipe, self.mixture
        solid = mixture.density(lambda wax: wax.density)
        self.first = self.fill * mixture.density(lambda wax: liquid(wax, recipe.pour))
        sunk = self.fill * solid - self.first if recipe.second else Fraction(0)
        sunk = max(sunk, Fraction(0))
        self.kept = self._kept(sunk) if recipe.second else Fraction(0)
        self.second = min(sunk, self.kept)
        self.mass = self.first + self.second
        self.melted = self.first + self.kept
        self.burn = None
        last = last_ml(recipe)
        if recipe.burns and last is not None:
            hours = (self.mass - last * solid) / (recipe.wicks * recipe.burns)
            self.burn = 5 * whole_down(hours / 5)

    def _kept(self, sunk):
        """As much as sinks, or what the recipe says; of wax that is known not to sink, none."""
        recipe, mixture = self.recipe, self.mixture
        known = all(wax.liquid for _, wax in mixture.waxes.values())
        if recipe.keep is None or (known and sunk == 0):
            return sunk
        of, amount = recipe.keep
        if of == "mass":
            return amount
        # melted = first + kept, and kept is `amount` of melted, or of the wax in it
        kept_of_melted = amount if of == "total" else amount / mixture.whole
        return self.first / (1 - kept_of_melted) - self.first

    def _pots(self):
        """`pots`: [(how many, vessels in each)], the fuller ones first."""
        each = self.melted * (1 + self.spare)
        jug = self.recipe.keep_in if self.kept > 0 else None
        jug_clings = jug.clings if jug else Fraction(0)
        self.hot = self.mixture.density(lambda wax: room(wax, self.recipe.hottest))
        if self.pot is None:
            self.pots, self.clings = [(1, self.count)], jug_clings
        else:
            usable = self.pot.brimful * (1 - self.pot.headroom) * self.hot
            most = floor((usable * (1 + NEAR) - self.pot.clings - jug_clings) / each)
            if most < 1:
                self.refusals.add("pot-too-small")
                return
            fillings = ceil(Fraction(self.count, most))
            less, more = divmod(self.count, fillings)
            self.pots = [(n, v) for n, v in ((more, less + 1), (fillings - more, less)) if n]
            self.clings = self.pot.clings + jug_clings
        if self.recipe.keep_in and self.recipe.second:
            self._jug(self.recipe.keep_in)
        self.total = self.count * each + self.clings * sum(n for n, _ in self.pots)
        self.wax = self.total / self.mixture.whole

    def _jug(self, jug):
        """What is kept back of the fullest filling has to go into it."""
        held = max(v for _, v in self.pots) * self.kept * (1 + self.spare) + jug.clings
        if held / self.hot > jug.brimful * (1 - jug.headroom) * (1 + NEAR):
            self.refusals.add("pot-too-small")

    def pot_mass(self, vessels):
        return vessels * self.melted * (1 + self.spare) + self.clings

    def materials(self):
        """[(kind, name, mass, share of its kind)] for all pots."""
        mixture, lines = self.mixture, []
        lines += [("wax", n, self.wax * s, s) for n, (s, _) in mixture.waxes.items()]
        lines += [("oil", n, self.wax * mixture.f * s, s) for n, (s, _) in mixture.oils.items()]
        for share, additive in mixture.additives:
            lines.append(("additive", additive.name, self.wax * share, share / mixture.a))
        return lines

    def pot_lines(self, vessels):
        """[(kind, name, mass)] of a pot: the oils in one line."""
        part = self.pot_mass(vessels) / self.total
        lines = [(k, n, m * part) for k, n, m, _ in self.materials() if k != "oil"]
        oils = list(self.mixture.oils)
        if oils:
            name = oils[0] if len(oils) == 1 else "scent"
            lines.append(("scent", name, self.wax * self.mixture.f * part))
        return lines

    def premix(self):
        oils = [("oil", n, m) for k, n, m, _ in self.materials() if k == "oil"]
        return oils if len(oils) > 1 else []

    def flash(self):
        oils = [oil for _, oil in self.mixture.oils.values()]
        return min((oil.flash - (0 if oil.closed else OPEN_CUP) for oil in oils), default=None)

    def ceiling(self):
        return min(wax.ceiling for _, wax in self.mixture.waxes.values())
