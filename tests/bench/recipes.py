"""The recipes of a benchmark file."""

from materials import BATH_MOST, FAMILIES, ROOM, Materials
from two_files import Both, blend, candle_string, counted, number, plain, quoted, shares_of
from words import FIRST, LAST, MIDDLE, title_of


class Recipes(Materials):
    """Draws recipes from the materials, each choice inside the limits of what it uses."""

    def draw_wax(self):
        """A wax blend: what is written, and the share of each wax in it."""
        if self.chance(0.15):
            house = self.rng.choice(list(self.house_waxes))
            family, inner = self.house_waxes[house]
            if self.chance(0.6):
                return plain(house), inner
            # One blend inside another, with a wax that may be in the inner one too.
            other = self.wax_items(family, 1)[0][0]
            most = self.between(60, 90, 5)
            shares = [(name, share * most / 100) for name, share in inner]
            shares.append((other, (100 - most) / 100))
            return blend([(house, most), (other, 100 - most)], "rest"), shares
        items = self.wax_items(self.rng.choice(list(FAMILIES)), self.rng.choice([1, 2, 2, 3]))
        mode = self.rng.choice(["percent", "rest", "rest", "parts"])
        if mode == "parts":
            # By fives, so that percents of 5 make whole parts.
            items = [(name, amount // 5) for name, amount in items]
        return blend(items, mode), shares_of(items)

    def draw_scent(self):
        """A scent of one to five oils or accords."""
        many = self.rng.choice([1, 2, 2, 3, 3, 4, 5])
        oils = self.rng.sample(self.oils, many)
        if self.chance(0.2):
            oils[0] = self.rng.choice(self.accords)
        if many == 1:
            return plain(oils[0])
        mode = self.rng.choice(["parts", "parts", "percent", "rest", "volume"])
        if mode in ("parts", "volume"):
            choices = [0.5, 1, 2, 3] if many < 4 else [1, 2, 3]
            # An accord has no density of its own to be measured by volume with.
            if oils[0] in self.accords:
                mode = "parts"
            return blend([(oil, self.rng.choice(choices)) for oil in oils], mode)
        # The last takes what the others leave: with five, each other has 20 % at the most.
        each = {2: (20, 80), 3: (15, 40), 4: (15, 25), 5: (10, 20)}[many]
        items = [(oil, self.between(*each, 5)) for oil in oils[:-1]]
        items.append((oils[-1], 100 - sum(amount for _, amount in items)))
        return blend(items, mode)

    def draw_load(self, most, additives):
        """A load between a third of the limit and 90 % of it, on one basis or another.

        `most` is the limit as scent over wax, `additives` all of them as a fraction of the wax.
        """
        low, high = most * 0.42, most * 0.87
        way = self.rng.random()
        if way < 0.3:
            fitting = [name for name, load in self.loads if low <= load <= high]
            if fitting:
                return plain(self.rng.choice(fitting))
        if way < 0.4 and low <= 1 / 16 <= high:
            return plain("1 oz per lb of wax")
        if way < 0.6:
            # f of wax is f / (1 + f + a) of the total; both ends are drawn in a little.
            of_total = self.between(100 * low / (1 + low + additives) + 0.1,
                                    100 * high / (1 + high + additives) - 0.1, 0.1)
            return plain(f"{number(of_total)}% of total")
        return plain(f"{number(self.between(100 * low, 100 * high, 0.1))}% of wax")

    def draw_steps(self, blended, vessel, additives, scented):
        """Steps in their order, every temperature inside the range of every wax in the blend."""
        waxes = [self.waxes[name] for name, _ in blended]
        scent_low = max(wax["scent"][0] for wax in waxes)
        scent_high = min(wax["scent"][1] for wax in waxes)
        pour_low = max(wax["pour"][0] for wax in waxes)
        pour_high = min(wax["pour"][1] for wax in waxes)
        # 4 C° under the ceiling is clear of a thermometer's error; 8 over the top melts it all.
        hottest = min(min(wax["ceiling"] for wax in waxes) - 4, BATH_MOST)
        melted = max(wax["melts"][1] for wax in waxes) + 8
        scent_at = self.between(max(scent_low, pour_low), min(scent_high, hottest))
        # Never hotter than the scent went in.
        pour_at = self.between(pour_low, min(pour_high, scent_at))
        again_at = self.between(pour_at, min(pour_high, scent_at))
        melt_at = self.between(max(melted, scent_at), hottest)
        shock = self.vessels[vessel]["shock"]

        steps = []

        def say(text, reason=None, /, **fields):
            told = dict(fields)
            if reason:
                text += f" because {candle_string(reason)}"
                told["because"] = reason
            steps.append(Both(text, told, text))

        if self.chance(0.7):
            say("wipe vessels", verb="wipe vessels")
        say("set wick", verb="set wick")
        if (shock is not None and again_at - ROOM > shock - 2) or self.chance(0.2):
            say("warm vessels to 40 °C", "cold walls chill the first pour",
                verb="warm vessels", to="40 °C")
        heat = self.degrees(melt_at)
        say(f"melt to {heat}", verb="melt", to=heat)
        if self.chance(0.4):
            time = f"{self.between(5, 20)} min"
            say(f"hold {time}", verb="hold", **{"for": time})
        for name in additives:
            heat = self.degrees(melt_at)
            time = f"{self.between(1, 3)} min"
            say(f"add {name} at {heat}, stir {time}", verb="add", of=name, at=heat, stir=time)
        say("off heat", verb="off heat")
        if scented:
            heat = self.degrees(scent_at)
            time = self.rng.choice(["2 min", "3 min", "150 s", "2 min 30 s"])
            if self.chance(0.7):
                say(f"add scent at {heat}, stir {time}", verb="add", of="scent", at=heat, stir=time)
            else:
                say(f"add scent at {heat}", verb="add", of="scent", at=heat)
                say(f"stir {time}", verb="stir", **{"for": time})
        if self.chance(0.4):
            heat = self.degrees(pour_at)
            say(f"cool to {heat}", verb="cool", to=heat)
        heat = self.degrees(pour_at)
        reason = f"as the {self.rng.choice(LAST)} trial showed" if self.chance(0.15) else None
        say(f"pour at {heat}", reason, verb="pour", at=heat)
        time = self.rng.choice(["4 h", "1 h 30 min", "12 h", "1 day"])
        say(f"leave {time}", verb="leave", **{"for": time})
        if self.chance(0.3):
            if self.chance(0.5):
                say("poke holes", verb="poke holes")
            heat = self.degrees(again_at)
            say(f"second pour at {heat}", verb="second pour", at=heat)
            say("leave 6 h", verb="leave", **{"for": "6 h"})
        elif self.chance(0.2):
            say("smooth top", verb="smooth top")
        length = f"{self.between(5, 6, 0.5)} mm"
        say(f"trim wick to {length}", verb="trim wick", to=length)
        if self.chance(0.2):
            text = f"stand them {self.rng.choice(['apart', 'on slate', 'out of the sun'])}"
            say(f"note {candle_string(text)}", verb="note", text=text)
        # Two weeks and more: no wax above cures longer.
        time = self.rng.choice(["14 days", "2 weeks", "16 days", "3 weeks"])
        say(f"cure {time}", verb="cure", **{"for": time})
        return steps

    def write_recipe(self):
        name = self.names.draw(FIRST, MIDDLE, LAST)
        vessel = self.rng.choice(list(self.vessels))
        bore = self.vessels[vessel]["bore"]
        wax, blended = self.draw_wax()
        most = sum(share * self.waxes[part]["most"] for part, share in blended)
        scented = self.chance(0.95)
        makes = self.between(12, 60)
        properties = [("title", quoted(title_of(name))),
                      ("makes", counted(makes, vessel)),
                      ("wax", wax)]
        allow = []
        additives = []
        if self.chance(0.25):
            items = [(part, self.between(0.5, 2, 0.25))
                     for part in self.rng.sample(self.additives, self.rng.choice([1, 1, 2]))]
            additives = [part for part, _ in items]
            listed = [{"of": part, "percent": amount} for part, amount in items]
            written = [f"{number(amount)}% {part}" for part, amount in items]
            properties.append(("additives", Both(" + ".join(written), listed, written)))
            amount_of_additives = sum(amount for _, amount in items) / 100
        else:
            amount_of_additives = 0
        if scented:
            if self.chance(0.04):
                # Over 90 % of the limit, on purpose, so that the finding is there to be allowed.
                load = plain(f"{number(round(most * 95, 2))}% of wax")
                allow.append(("load-near-limit", f"burned {self.between(3, 6)} to the end, clean"))
            else:
                load = self.draw_load(most, amount_of_additives)
            properties.append(("load", load))
            properties.append(("scent", self.draw_scent()))
        # A millimetre clear of both ends of the band.
        fitting = [wick for band, wicks in self.wicks.items() for wick in wicks
                   if band[0] + 1 <= bore <= band[1] - 1]
        wick = self.rng.choice(fitting)
        properties.append(("wick", counted(1, wick, unsaid=self.chance(0.2))))
        if self.chance(0.25):
            extra = self.rng.choice(self.extras)
            properties.append(("extras", counted(1, extra)))
        pots = self.rng.randint(1, 3)
        pot = self.rng.choice(self.pots)
        properties.append(("pot", counted(pots, pot, unsaid=pots == 1)))
        properties.append(("scale", plain(self.rng.choice(self.scales))))
        if self.chance(0.3):
            properties.append(("thermometer-error", plain("1.5 C°")))
        if self.chance(0.3):
            properties.append(("spare", plain(f"{self.between(1, 4)}%")))
        # A vessel with a fill line has no headspace to be set.
        if self.vessels[vessel]["form"] != "fill" and self.chance(0.15):
            more = self.rng.choice(["", " + 1 mm", " + 2 mm"])
            properties.append(("headspace", plain(self.headspace + more)))
        if self.chance(0.2):
            properties.append(("stop-at", plain(f"{self.between(10, 14)} mm")))
        if self.chance(0.3):
            properties.append(("notes", quoted(self.sentence())))
        if self.chance(0.2):
            self.out.comment(self.sentence())
        steps = self.draw_steps(blended, vessel, additives, scented)
        self.out.block("recipe", name, properties, steps=steps, allow=allow)
        self.recipes.append(dict(name=name, most=most, additives=amount_of_additives,
                                 scented=scented, vessel=vessel))

    def write_variant(self):
        """A recipe like an earlier one: another load, scent or count, all else carried over."""
        # From the last few, as variants stand near what they vary.
        base = self.rng.choice(self.recipes[-40:])
        name = self.names.draw(FIRST, MIDDLE, LAST)
        makes = self.between(12, 60)
        vessel = base["vessel"]
        properties = [("title", quoted(title_of(name)))]
        if self.chance(0.4):
            properties.append(("makes", counted(makes, vessel)))
        if base["scented"]:
            # Always a load of its own: what was allowed for the other is not allowed here.
            properties.append(("load", self.draw_load(base["most"], base["additives"])))
            if self.chance(0.5):
                properties.append(("scent", self.draw_scent()))
        if self.chance(0.3):
            properties.append(("notes", quoted(self.sentence())))
        self.out.block("recipe", name, properties, like=base["name"])
        self.recipes.append(dict(base, name=name))

    def write_recipes(self):
        self.out.comment("Recipes.")
        for _ in range(self.count):
            if self.recipes and self.chance(0.15):
                self.write_variant()
            else:
                self.write_recipe()
