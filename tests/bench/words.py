"""Made-up names, each unique over its file."""

# Two- and three-word names are drawn from these. No word is one that Waxwright reserves, so that
# no name can be taken for something else.
FIRST = """amber ashen blue bright calm dim drift dusk early faint fair far fine frost gilded grey
hidden high hollow hushed idle inland late lean long lost low mild misty mossy narrow near neap
north old outer pale plain quick quiet russet salt sandy shaded silver slack slow small soft south
spring still sunken tall thin umber veiled warm west white wild windy winter""".split()
MIDDLE = """bank barge bay beacon bight breakwater brine causeway channel cove creek current dike
dune ebb eddy estuary fen flood foam ford foreshore groyne gully haven heath inlet islet jetty
lagoon ledge levee marsh mere mooring mudflat pier pool quay reach reef rill saltpan sandbar shallow
shingle shoal shore slipway sluice sound strand tide weir""".split()
LAST = """avocet bittern bluff bog curlew drizzle dunlin egret eider fathom fog fleece gale glint
gull hail haze heron hush kelp knot lapwing lichen limpet lull moss mussel oyster peat pebble
pennant petrel plover rain redshank reed ripple rope rush sail samphire sedge shell silt sleet
smoke snipe squall swell teal tern thrift thistle turnstone whelk whimbrel wrack""".split()
PLANTS = """alder bedstraw birch bogbean bracken bulrush cedar clover cress fennel gorse
heather hyssop iris juniper kelp larch mallow meadowsweet mint mugwort myrtle orache pine purslane
reed samphire sage sedge sorrel spruce tansy thrift thyme vetch violet willow wormwood
yarrow""".split()


class Names:
    """Hands out names that are unique over the whole file."""

    def __init__(self, rng):
        self.rng = rng
        self.taken = set()

    def draw(self, *lists):
        tries = 0
        while True:
            words = [self.rng.choice(words) for words in lists]
            # A list of few pairs runs out in a long file: a number behind tells them apart.
            if tries > 8:
                words.append(str(self.rng.randint(2, 9999)))
            name = "-".join(words)
            if name not in self.taken and len(set(words)) == len(words):
                self.taken.add(name)
                return name
            tries += 1


def title_of(name):
    return " ".join(word.capitalize() for word in name.split("-"))
