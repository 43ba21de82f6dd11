"""Acts that look, measure and write down."""

from __future__ import annotations

from backbud_grammar.act_words import DetailWord
from backbud_grammar.acts.builders import (
    DOES,
    ENDS,
    KEEPS,
    TREE_OR_PLACE,
    act,
    bare,
    flag,
    free,
    listed,
    measure,
    to,
    words,
)
from backbud_grammar.acts.shared import (
    ALL_OF_THEM,
    FOR_MONEY,
    MONEY,
    OUT_OF_HOW_MANY,
    PART,
    PERCENT,
)
from backbud_grammar.forms import ANY_WORDS, ActForm, Form

GROUP = "Watch"
# Each is one word: a check of `wire ties` is two.
_LOOKED_AT = listed(
    "wire, ties, guys, graft, layer, roots, drainage, pests, aphids, scale, mites, "
    "mealybug, weevils, slugs, mildew, mould, mice, wounds, wound, protection, frost, "
    "moss, buds, candles, shoots, strength, soil, surface, water, mesh, pot, leaves, needles, "
    "bark, deadwood, jin, shari, raffia, fruit, seedlings, cuttings"
)
_FOUND = listed(
    "fine, all fine, biting, not biting, loose, tight, taken, not taken, rooted, "
    "roots showing, white roots, no roots, rootbound, root-bound, not yet, dry, damp, "
    "wet, waterlogged, frozen, slow, fast, clean, healed, closed, closing, callus, "
    "callused, callusing, swelling, opening, open, broken, cracked, damaged, rotten, "
    "alive, dead, weak, fair, strong, healthy, green, yellow, brown, spots, sticky, "
    "eaten, some, many, none, hard, soft"
)
# A second count adds to the first, or stands for both.
MORE_OR_IN_ALL = (flag("more"), flag("in all", "altogether", "in total"))
_HOW_LONG = listed(
    "long, average, on average, at most, longest, shortest, on top, on apex, top, low, on low, "
    "inside, on inside, low inside, on low inside, up top, new"
)
# Of a group or a batch: which of them it is.
_OF_SEVERAL = listed("biggest, thickest, largest, tallest, smallest, thinnest, least, average")
# What lives on a tree and harms it, as far as a look names it.
PESTS: tuple[DetailWord, ...] = (
    "pests",
    "aphids",
    "scale",
    "mites",
    "mealybug",
    "weevils",
    "slugs",
    "mildew",
    "mould",
)
# Of these `not yet` is a finding; of all else it says that nobody looked.
AWAITED = frozenset({"graft", "layer", "roots", "buds"})

ACTS: tuple[ActForm, ...] = (
    act(
        GROUP,
        "checked",
        "check",
        ENDS,
        words("what", *_LOOKED_AT),
        Form("what", ("for",), words=ANY_WORDS, about="what was looked for"),
        flag("everything", "all", "all over", about="as a check that names nothing"),
        words("finding", *_FOUND),
        Form("again", ("again in", "again"), ("duration",), date=True),
        PART,
        on=TREE_OR_PLACE,
        about="settles the check that was asked, sets the next, and what it found is answered",
        work="watch",
        minutes=5,
        traits=("any_day", "daily_keep"),
        called=("inspection",),
        plainly="looked over",
    ),
    act(
        GROUP,
        "noted",
        "note",
        KEEPS,
        prose=True,
        on=("tree", "place", "pot", "person", "material", "mix"),
        work="watch",
        traits=("no_work", "anywhere", "ahead"),
    ),
    act(
        GROUP,
        "private",
        "private",
        KEEPS,
        prose=True,
        on=("tree", "place", "pot", "person", "material", "mix"),
        about="for the keeper's eyes only",
        work="watch",
        traits=("no_work", "anywhere", "ahead", "for_keeper"),
    ),
    act(
        GROUP,
        "measured",
        "measure",
        KEEPS,
        measure(("trunk", "trunk diameter", "diameter"), "length", words=_OF_SEVERAL),
        measure("height", "length", words=_OF_SEVERAL),
        measure(("spread", "width"), "length", "size"),
        measure("nebari", "length", about="root flare, across"),
        measure("girth", "length", words=_OF_SEVERAL),
        measure("root ball", "size"),
        measure(("candles", "candle"), "length", words=_HOW_LONG),
        measure(("needles", "needle", "new needles"), "length", words=_HOW_LONG),
        measure(("shoots", "shoot"), "length", words=_HOW_LONG),
        measure(("internodes", "internode"), "length", words=_HOW_LONG),
        Form("weight", ("weight",), ("mass",), True, words=("dry", "wet"), several=True),
        measure(("pH", "water pH"), "number", limits=(0, 14)),
        measure("soil pH", "number", limits=(0, 14)),
        measure(("hardness", "water hardness"), "hardness"),
        measure(("conductivity", "water conductivity", "EC"), "conductivity"),
        measure(
            "was", "length", "mass", "conductivity", "number", about="what it was at the last look"
        ),
        measure("soil temperature", "temperature", negative=True),
        measure("water temperature", "temperature"),
        free("of", about="whose water it is, or where it was taken"),
        on=TREE_OR_PLACE,
        needs=True,
        work="watch",
        traits=("no_work",),
    ),
    act(
        GROUP,
        "staged",
        "stage",
        KEEPS,
        bare("stage", "number", part=True, about="BBCH growth stage", limits=(0, 99), whole=True),
        Form("stage", ("BBCH",), ("number",), True, part=True, limits=(0, 99), whole=True),
        needs=True,
        work="watch",
        traits=("no_work",),
    ),
    act(
        GROUP,
        "germinated",
        "germinate",
        DOES,
        bare("quantity", "number", words=("seeds", "seedlings"), whole=True),
        OUT_OF_HOW_MANY,
        *MORE_OR_IN_ALL,
        bare("share", "share", limits=PERCENT),
        work="propagation",
    ),
    act(
        GROUP,
        "rooted",
        "rooted",
        DOES,
        bare("quantity", "number", words=("cuttings", "layers", "of them"), whole=True),
        OUT_OF_HOW_MANY,
        *MORE_OR_IN_ALL,
        ALL_OF_THEM,
        bare("share", "share", limits=PERCENT),
        about="cuttings that have roots",
        work="propagation",
    ),
    act(
        GROUP,
        "bloomed",
        "bloom",
        KEEPS,
        words("how", "first", "full", "over", "sparse", "well", "early", "late", "none"),
        bare("flowers", "number", words=("flowers",), whole=True),
        PART,
        also=("flowered",),
        work="propagation",
        traits=("no_work",),
    ),
    act(
        GROUP,
        "fruited",
        "fruit",
        KEEPS,
        words("how", "set", "ripe", "sparse", "well", "none"),
        bare("quantity", "number", words=("fruit", "fruits"), whole=True),
        PART,
        work="propagation",
        traits=("no_work",),
    ),
    act(
        GROUP,
        "vigour",
        "vigour",
        KEEPS,
        Form("zone", reader="zone", several=True, about="how a zone, or the whole tree, grows"),
        needs=True,
        also=("vigor",),
        work="watch",
        traits=("no_work",),
    ),
    act(
        GROUP,
        "drained",
        "drain",
        KEEPS,
        bare("time", "duration", about="for a can of water to pass"),
        Form("time", ("in",), ("duration",), True),
        needs=True,
        work="watch",
        plainly="water poured on, and the time taken until it had passed",
        traits=("no_work",),
    ),
    act(
        GROUP,
        "photographed",
        "photograph",
        KEEPS,
        words("side", "front", "back", "left", "right", "above", "roots", "detail"),
        Form(
            "for",
            words=("for owner", "for the owner", "for public"),
            several=True,
            about="who may see it, beside the keeper",
        ),
        Form("file", words=ANY_WORDS, about="a picture's file"),
        needs=True,
        also=("photo",),
        also_bare=("photo",),
        work="watch",
        traits=("no_work",),
    ),
    act(
        GROUP,
        "shown",
        "show",
        KEEPS,
        free("at", about="the exhibition"),
        free("award", "prize", "medal"),
        to("in pot", "pot", about="the pot for the day"),
        free("stand", "on stand", about="what it stood on"),
        free("accent", "with accent", about="the plant beside it"),
        free("scroll", "with scroll"),
        also=("exhibited", "exhibit"),
        also_bare=("exhibit",),
        work="business",
        plainly="shown at an exhibition",
        traits=("keepers_affair",),
    ),
    act(
        GROUP,
        "valued",
        "value",
        KEEPS,
        MONEY,
        *FOR_MONEY,
        free("for", about="what for"),
        on=("tree", "pot"),
        needs=True,
        work="business",
        traits=("no_work", "anywhere", "not_told", "keepers_affair"),
    ),
)
