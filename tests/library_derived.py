"""Derives the figures of the standard library again, by the words of their sources.

Each way of deriving is a pattern that finds the numbers in a source's own words, and the sum that is
done with them. What comes out must be the figure, within its doubt; one without a doubt, to its last
digit. A source that says `derived` and fits no pattern is a fault: nobody could follow it.
"""

import re

WATER = {15: 0.99910, 20: 0.99820, 25: 0.99705}  # g/ml, from tables of the density of water
FIGURE = re.compile(r"(\d+(?:\.\d+)?) [^\s,]+(?: \+- (\d+(?:\.\d+)?))?(?: at (\d+(?:\.\d+)?) °C)?")
RELATIVE = re.compile(r"d\((\d+)/(\d+)\)(?: [A-Z][a-z]+)? (\d\.\d+) to (\d\.\d+)")
RANGE = r"(\d+(?:\.\d+)?) to (\d+(?:\.\d+)?)"


def lund(saponification, iodine, slope, expansion):
    """Lund's equation gives an oil at 15 °C against water at 15 °C."""
    at_15 = (0.8475 + 0.00030 * saponification + 0.00014 * iodine) * WATER[15]
    at_75 = at_15 - slope * (75 - 15)
    return {75: at_75, 60: at_75 * (1 + expansion * (75 - 60))}


def oil_at(celsius, low, high, hotter, slope):
    """The middle of a range against water at 20 °C, and the same oil hotter."""
    there = (low + high) / 2 * WATER[20]
    return {celsius: there, hotter: there - slope * (hotter - celsius)}


# (kind of figure, what its source says, the sum): {°C: figure}, or {None: figure} for any.
WAYS = [
    ("liquid-density",
     r"saponification value (\d+) and iodine value (\d+) \(.* against water at 15 °C\), "
     r"less ([\d.]+) g/ml for each degree to 75 °C, .* and back to 60 °C by ([\de.-]+) per K", lund),
    ("liquid-density",
     r"d\((\d+)/20\) ([\d.]+) to ([\d.]+), at (\d+) °C derived from it, "
     r"less ([\d.]+) g/ml for each degree", oil_at),
    ("liquid-density",
     r"derived from ([\d.]+) at 98 to 99 °C, .* plus [\d.]+ g/ml for each degree down to "
     r"([\d.]+) °C, as tristearin has ([\d.]+) at (\d+) °C and ([\d.]+) at (\d+) °C",
     lambda value, celsius, warm, low, hot, high:
     {celsius: value + (warm - hot) / (high - low) * (98.5 - celsius)}),
    ("liquid-density",
     r"([\d.]+) at (\d+) °C .*, at (\d+) °C derived from it by ([\de.-]+) per K",
     lambda value, celsius, hotter, expansion:
     {celsius: value, hotter: value * (1 - expansion * (hotter - celsius))}),
    ("liquid-density",
     r"derived from the oil's ([\d.]+) at (\d+) °C .* less ([\d.]+) g/ml for each degree",
     lambda value, celsius, slope:
     {hot: value - slope * (hot - celsius) for hot in (60, 75)}),
    ("heat", r"derived from ([\d.]+) J/mol/K and ([\d.]+) g/mol",
     lambda molar, weight: {None: molar / weight}),
    ("contains", r"derived from its name()", lambda _: {None: 100}),
    ("brimful", RANGE + r" ml, the middle", lambda low, high: {None: (low + high) / 2}),
]


def figures_of(value):
    """[(figure, doubt or half of its last digit, °C or None)]"""
    found = []
    for number, doubt, celsius in FIGURE.findall(value):
        last = 10.0 ** -len(number.partition(".")[2])
        found.append((float(number), float(doubt) if doubt else last / 2,
                      float(celsius) if celsius else None))
    return found


def differing(value, wanted):
    for number, doubt, celsius in figures_of(value):
        again = wanted.get(celsius, wanted.get(None))
        if again is None:
            yield f"`{value}`: its source derives nothing at {celsius} °C"
        elif abs(again - number) > doubt * (1 + 1e-9):
            yield f"`{value}`: {number} is {again:.4f} by the words of its source"


def faults_of_derived(name, key, value, grounds):
    ways = [(match, sum_of) for kind, words, sum_of in WAYS
            if kind == key and (match := re.search(words, grounds))]
    for match, sum_of in ways[:1]:
        yield from differing(value, sum_of(*[float(word or 0) for word in match.groups()]))
    if re.search(r"(?<!-)derived", grounds) and not ways:
        yield f"`{key}` is derived in words from which nobody could derive it again: {grounds}"
    if key == "contains" and "from its name" in grounds:
        if value != f"100% {name.removesuffix('-isolate')}":
            yield f"`{value}` is not what the name says"
    yield from faults_of_relative(key, value, grounds)
    yield from faults_of_lowest(key, value, grounds)


def faults_of_relative(key, value, grounds):
    """A density from a relative one lies in the published range, whatever its doubt."""
    match = RELATIVE.search(grounds)
    if key != "density" or not match or match[1] != match[2]:
        return
    low, high = (float(end) * WATER[int(match[2])] for end in (match[3], match[4]))
    number = figures_of(value)[0][0]
    if not low - 5e-5 <= number <= high + 5e-5:
        yield f"`{key}: {value}` is outside {match[0]}"


def faults_of_lowest(key, value, grounds):
    if "the lowest is taken" not in grounds:
        return
    published = re.findall(r"(\d+(?:\.\d+)?)(?: (?:to|and) \d+(?:\.\d+)?)? °C", grounds)
    lowest = min(map(float, published))
    if figures_of(value)[0][0] != lowest:
        yield f"`{key}: {value}`, and the lowest is {lowest:g} °C"
