"""What highlight_check.py holds the editors against: files, and the class of each byte in them."""

import re
import subprocess

# Lines that are easily coloured wrongly: the line, and what of it is what, from left to right. What
# stands in no pair is not looked at. A line stands in the place given: in a file, a block or steps.
ODD = {
    "file": [
        ("let wax-blend = 2 parts soy-wax + 1 part wax", "Word let Declared wax-blend Number 2 "
         "Unit parts Name soy-wax Operator + Number 1 Unit part Name wax"),
        ("vessel tin-8oz like 2oz-tin {", "Kind vessel Declared tin-8oz Word like"),
        ("test-burn test-burn-2 { on: 2026-12-05 }", "Kind test-burn Declared test-burn-2 Key on "
         "Date 2026-12-05"),
        ("use waxes, oils, \"waxes.candle\"", 'Word use Module waxes Module oils '
         'Text "waxes.candle"'),
        ("use oils,  # and more", "Word use Module oils Comment #|and|more"),
        ("  waxes, wicks", "Module waxes Module wicks"),
        ("let oils-of-use = 7% of wax", "Word let Declared oils-of-use Number 7 Unit % Word of "
         "Word wax"),
        ("currency CAD # not USD", "Word currency Unit CAD Comment #|not|USD"),
        ("scale bench { reads: 1 g, most: 5 kg }", "Kind scale Declared bench Key reads Number 1 "
         "Unit g Key most Number 5 Unit kg"),
        ("language 1# 2", "Word language Number 1 Comment #|2"),
    ],
    "block": [
        ("melt-pool: 71 mm", "Key melt-pool Number 71 Unit mm"),
        ("wax: wax-blend", "Key wax Name wax-blend"),
        ("pour: pour-can  # no key", "Name pour-can Comment #|no|key"),
        ("vessel:to-go", "Key vessel Name to-go"),
        ("about: \"a # b\" # c \"d\"", 'Key about Text "a|#|b" Comment #|c|"d"'),
        ("about: \"\\u{e9}t\\u{E9}, \\\"melt to 75 \\\\\" # x", "Key about Text \" Escape \\u{e9} "
         "Text t Escape \\u{E9} Text , Escape \\\" Text melt|to|75 Escape \\\\ Text \" Comment #|x"),
        ("about: \"an open text # 3 g", "Key about Text \"an|open|text|#|3|g"),
        ("bore: 2 7/8 in", "Key bore Number 2|7/8 Unit in"),
        ("headspace: 1/2 in +- 1/16 in", "Key headspace Number 1/2 Unit in Operator +- "
         "Number 1/16 Unit in"),
        ("heat: 2.1 J/g/K ± 0.05", "Key heat Number 2.1 Unit J/g/K Operator ± Number 0.05"),
        ("load: 1 oz  per lb of total", "Key load Number 1 Unit oz|per|lb Word of Word total"),
        ("brimful: 11fl  oz", "Key brimful Number 11 Unit fl|oz"),
        ("brimful: 2 imp pints", "Key brimful Number 2 Unit imp|pints"),
        ("shock: 60C° # and 20 °C", "Key shock Number 60 Unit C° Comment #|and|20|°C"),
        ("scent-at: -5 to 70°C", "Key scent-at Number -5 Word to Number 70 Unit °C"),
        ("flash-point: 48 °C closed cup", "Key flash-point Number 48 Unit °C Word closed|cup"),
        ("flash-point: 150 °F open  cup", "Key flash-point Number 150 Unit °F Word open|cup"),
        ("bath: 8 cups hot", "Key bath Number 8 Unit cups Name hot"),
        ("cools: 75 °C to 60 °C over 18 min with 2 kg in-room 20 °C", "Key cools Number 75 Unit °C "
         "Word to Number 60 Unit °C Word over Number 18 Unit min Word with Number 2 Unit kg "
         "Word in-room Number 20 Unit °C"),
        ("inside: 84 mm to 70 mm across, 82 mm deep", "Key inside Number 84 Unit mm Word to "
         "Number 70 Unit mm Word across Number 82 Unit mm Word deep"),
        ("sold: 10 lb for $38.00, 1lb for 6.50 USD", "Key sold Number 10 Unit lb Word for Unit $ "
         "Number 38.00 Number 1 Unit lb Word for Number 6.50 Unit USD"),
        ("labour: 3 h at $18/h", "Key labour Number 3 Unit h Word at Unit $ Number 18 Unit /h"),
        ("labour: 3 h at 18 USD per h", "Key labour Number 3 Unit h Word at Number 18 "
         "Unit USD|per|h"),
        ("starts: 2026-12-05T09:00", "Key starts Date 2026-12-05T09:00"),
        ("starts: 2026-12-05 09:00", "Key starts Date 2026-12-05|09:00"),
        ("wax: (100% - 20%) soy + rest lid-wax", "Key wax Number 100 Unit % Operator - Number 20 "
         "Unit % Name soy Operator + Word rest Name lid-wax"),
        ("scent: 2 parts heat + 1 part glass by volume", "Key scent Number 2 Unit parts Name heat "
         "Operator + Number 1 Unit part Name glass Word by|volume"),
        ("headspace: finger * 1.2 / 3", "Key headspace Name finger Operator * Number 1.2 "
         "Operator / Number 3"),
        ("of: glass", "Key of Choice glass"),
        ("of: glass-house", "Key of Name glass-house"),
        ("heated :water-bath", "Key heated Choice water-bath"),
        ("goes: lid, wax: soy", "Key goes Choice lid Key wax Name soy"),
        ("sells-in: gb,  eu", "Key sells-in Choice gb Choice eu"),
        ("soot: none # heavy", "Key soot Choice none Comment #|heavy"),
        ("makes: 6 tin-8oz", "Key makes Number 6 Name tin-8oz"),
        ("allow load-near-limit because \"three burned, # 2 g\"", "Word allow Rule load-near-limit "
         "Word because Text \"three|burned,|#|2|g\""),
        ("allow-me: 3 g", "Number 3 Unit g"),
        ("have 6.5 kg shed-soy lot \"S-0911\"", "Word have Number 6.5 Unit kg Name shed-soy "
         "Word lot Text \"S-0911\""),
        ("pour 24 tide-line", "Verb pour Number 24 Name tide-line"),
        ("scent: 2.5 parts lavender + # more", "Key scent Number 2.5 Unit parts Name lavender "
         "Operator + Comment #|more"),
        ("  1/2 part rosemary", "Number 1/2 Unit part Name rosemary"),
        ("steps { melt to 75 °C }", "Word steps Verb melt Word to Number 75 Unit °C"),
    ],
    "steps": [
        ("second  pour at 62 °C because \"sinkholes\"", "Verb second|pour Word at Number 62 "
         "Unit °C Word because Text \"sinkholes\""),
        ("add scent at 70 °C, stir 2 min", "Verb add Name scent Word at Number 70 Unit °C Verb stir "
         "Number 2 Unit min"),
        ("add scent at 70 °C,stir 1 h 30 min", "Verb add Name scent Word at Number 70 Unit °C "
         "Verb stir Number 1 Unit h Number 30 Unit min"),
        ("add melt-oil at 158°F", "Verb add Name melt-oil Word at Number 158 Unit °F"),
        ("\toff heat # heat off", "Verb off|heat Comment #|heat|off"),
        ("note \"melt to 75 °C\"", "Verb note Text \"melt|to|75|°C\""),
        ("lid", "Verb lid"),
        ("cure 2 weeks", "Verb cure Number 2 Unit weeks"),
        ("trim wick to 1/4 in", "Verb trim|wick Word to Number 1/4 Unit in"),
    ],
}
FRAMES = {"file": "{}\n", "block": "recipe r {{\n  {}\n}}\n",
          "steps": "recipe r {{\n  steps {{\n    {}\n  }}\n}}\n"}


class Case:
    """A text, and tokens of it: class, first byte, byte behind the last."""

    def __init__(self, name, text, tokens):
        self.name = name
        self.text = text  # bytes
        self.tokens = tokens


def odd_case():
    """All odd lines in one file: none may colour the next."""
    text, tokens = b"", []
    for place, lines in ODD.items():
        for line, told in lines:
            frame = FRAMES[place].format(line).encode()
            at = frame.index(line.encode())
            pairs = told.split(" ")
            for which, piece in zip(pairs[::2], pairs[1::2]):
                # `|` stands for any blanks, which are not looked at
                pattern = rb"[ \t]+".join(re.escape(p.encode()) for p in piece.split("|"))
                found = re.compile(pattern).search(frame, at)
                assert found, f"{line}: {piece}"
                tokens.append((which, len(text) + found.start(), len(text) + found.end()))
                at = found.end()
            text += frame
    return Case("odd lines", text, tokens)


def table_cases(generator):
    """Every word of every table, each in a line of its own."""
    done = subprocess.run([generator, "--words"], capture_output=True, check=True, text=True)
    text, tokens = b"", []
    for row in done.stdout.splitlines():
        which, word, line = row.split("\t")
        # Behind the key that a line begins with, and else the first: `of: glass`, `on: 1 g`
        start = line.index(": ") + 2 if ": " in line and which != "Key" else 0
        at = len(text) + len(line[:line.index(word, start)].encode())
        tokens.append((which, at, at + len(word.encode())))
        text += line.encode() + b"\n"
    return [Case("words of the tables", text, tokens)]


def file_cases(generator, paths):
    """Whole files, with the classes that the compiler's own tree gives."""
    for path in paths:
        done = subprocess.run([generator, "--tokens", str(path)], capture_output=True, check=True,
                              text=True)
        rows = [row.split("\t") for row in done.stdout.splitlines()]
        yield Case(path.name, path.read_bytes(), [(c, int(a), int(b)) for c, a, b in rows])


def words_left_out(tree, odd):
    """Words that the grammar has as a `key_word` and no odd line shows as more than a name."""
    grammar = (tree / "grammar/lexical.hpp").read_text()
    spelled = re.findall(r"struct word_\w+ *: key_word<([^>]+)>", grammar)
    words = {"".join(re.findall("'(.)'", letters)) for letters in spelled}
    assert len(words) > 20, "grammar/lexical.hpp can't be read"
    shown = {word for which, begin, end in odd.tokens if which not in ("Name", "Declared", "Text")
             for word in odd.text[begin:end].decode().split()}
    return sorted(words - shown)


def uncoloured(case):
    """Bytes of words and figures that no token of the case has: something the tree forgot."""
    seen = bytearray(len(case.text))
    for _, begin, end in case.tokens:
        seen[begin:end] = b"\1" * (end - begin)
    return [at for at, c in enumerate(case.text)
            if not seen[at] and c not in b" \t\r\n{}(),:="]
