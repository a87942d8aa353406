"""One content in two spellings: the values and the writer of a .candle and a .toml file."""


class Both:
    """A value in its spellings: Waxwright text, and what TOML holds for it, full or light.

    Full TOML takes a blend, a count or a step apart into tables, so that a program has only
    quantities left to read. Light TOML leaves each of these as text, which is shorter to write
    and quicker to parse, and leaves the program more to do afterwards.
    """

    def __init__(self, candle, full, light):
        self.candle = candle
        self.toml = {"full": full, "light": light}


def plain(text):
    """A quantity or a word: the same letters in both files."""
    return Both(text, text, text)


def quoted(text):
    return Both(candle_string(text), text, text)


def counted(count, name, unsaid=False):
    """So many of a name; unsaid leaves a 1 out."""
    text = name if unsaid else f"{count} {name}"
    return Both(text, {"count": count, "of": name}, text)


def number(value):
    """The shortest decimal spelling, without an exponent."""
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    return text if text else "0"


def candle_string(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


def toml_value(value):
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, str):
        # These three are all that can turn up here, and TOML escapes them as Waxwright does.
        return candle_string(value)
    if isinstance(value, list):
        return "[" + ", ".join(toml_value(item) for item in value) + "]"
    if isinstance(value, dict):
        inside = ", ".join(f"{key} = {toml_value(item)}" for key, item in value.items())
        return "{ " + inside + " }"
    raise TypeError(type(value))


class Writer:
    """Gathers the two files side by side, so that neither can say more than the other."""

    def __init__(self, style):
        self.style = style
        self.candle = []
        self.toml = []

    def comment(self, text):
        self.candle.append(f"# {text}")
        self.toml.append(f"# {text}")

    def gap(self):
        self.candle.append("")
        self.toml.append("")

    def head(self):
        self.candle.append("language 1")
        self.toml.append("language = 1")

    def lets(self, bindings):
        self.toml.append("[let]")
        for name, value in bindings:
            self.candle.append(f"let {name} = {value.candle}")
            self.toml.append(f"{name} = {toml_value(value.toml[self.style])}")
        self.gap()

    def block(self, kind, name, properties, like=None, steps=None, allow=()):
        self.candle.append(f"{kind} {name} like {like} {{" if like else f"{kind} {name} {{")
        self.toml.append(f"[{kind}.{name}]")
        if like:
            self.toml.append(f"like = {toml_value(like)}")
        width = max((len(key) for key, _ in properties), default=0) + 1
        for key, value in properties:
            self.candle.append(f"  {key + ':':<{width}} {value.candle}")
            self.toml.append(f"{key} = {toml_value(value.toml[self.style])}")
        if steps is not None:
            self.candle.append("  steps {")
            self.toml.append("steps = [")
            for step in steps:
                self.candle.append(f"    {step.candle}")
                self.toml.append(f"  {toml_value(step.toml[self.style])},")
            self.candle.append("  }")
            self.toml.append("]")
        for rule, reason in allow:
            self.candle.append(f"  allow {rule} because {candle_string(reason)}")
        if allow:
            table = [{"rule": rule, "because": reason} for rule, reason in allow]
            self.toml.append(f"allow = {toml_value(table)}")
        self.candle.append("}")
        self.gap()


def blend(items, mode):
    """A blend of (name, amount): parts, percents, or percents whose last is the rest."""
    if len(items) == 1:
        return plain(items[0][0])
    written = []
    listed = []
    for index, (name, amount) in enumerate(items):
        last = index == len(items) - 1
        if mode == "rest" and last:
            written.append(f"rest {name}")
            listed.append({"of": name, "rest": True})
        elif mode in ("percent", "rest"):
            written.append(f"{number(amount)}% {name}")
            listed.append({"of": name, "percent": amount})
        else:
            word = "part" if amount <= 1 else "parts"
            written.append(f"{'1/2' if amount == 0.5 else number(amount)} {word} {name}")
            listed.append({"of": name, "parts": amount})
    # A long blend goes on after a `+` at the end of its line, as a maker would break it.
    joint = " +\n          " if len(written) > 3 else " + "
    text = joint.join(written)
    if mode == "volume":
        text += " by volume"
        listed.append("by volume")
        written.append("by volume")
    return Both(text, listed, written)


def shares_of(items):
    total = sum(amount for _, amount in items)
    return [(name, amount / total) for name, amount in items]
