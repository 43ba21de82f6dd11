"""Details that several groups of acts take."""

from __future__ import annotations

from backbud_grammar.acts.builders import BY, METALS, bare, flag, free, listed, measure, to, words
from backbud_grammar.forms import ANY_WORDS, Form

# A share or a part of a whole is at most the whole.
PERCENT = (0, 100)
PART = Form("part", part=True, about="which part of the tree")
MONEY = bare("amount", "money", about="the price")
# Two forms, so that `at the market for 40 EUR` is two details.
FOR_MONEY = (
    Form("amount", ("for",), ("money",), True, about="the price"),
    Form("amount", ("at",), ("money",), True, about="the price"),
)
GROWTH = listed(
    "leaf, leaves, bud, buds, pair, pairs, pair of leaves, pairs of leaves, "
    "pair of buds, pairs of buds, node, nodes, needles, shoots, shoot, per shoot, "
    "per node"
)
BACK_TO = measure(("back to", "to"), "number", about="how far", whole=True, part=True, words=GROWTH)
LEAVING = measure(
    ("leaving", "to"),
    "number",
    words=(*GROWTH, "flowers", "fruit", "branches", "per branch"),
    whole=True,
    part=True,
    about="how much stays",
)
BACK_TO_LONG = Form(
    "leaving", ("back to", "to"), ("length",), True, part=True, about="how long what stays is"
)
LEAVING_LONG = measure("leaving", "length", part=True, about="how long what stays is")
LEAVING_OR_LONG = measure(
    "leaving", "number", "length", words=GROWTH, part=True, about="how much stays, or how long"
)
EXTENT = ("all", "half", "some", "most", "strong", "medium", "weak", "outer", "inner")
LIGHT = ("light", "lightly")
BY_A_SHARE = ("by half", "by a quarter", "by a third", "by two thirds")
# `off 1/3`, `by 1/3` or 1/3 alone; `by` is a person's too.
SHARE_OFF = (
    measure(("off", "by"), "share", "fraction", "length", part=True, limits=PERCENT),
    bare("off", "share", "fraction", part=True, limits=PERCENT),
    BY,
)
INVOICE = (
    free("number", "invoice number", "invoice"),
    measure(("number", "invoice number", "invoice"), "number", whole=True),
)
OUT_OF_HOW_MANY = measure("of", "number", whole=True, about="of how many")
TIMES = measure(("times", "time"), "number", whole=True, about="how often")
CANS = measure(("cans", "can"), "number", about="how many cans")
# What was left out of it.
EXCEPT = Form("except", ("except",), part=True, about="what was left as it was")
# What a batch is counted by. Of trays and their like nobody knows how many trees they hold.
PLANTS = listed(
    "cuttings, cutting, seedlings, seedling, whips, whip, plants, plant, trees, tree, layers, "
    "layer, grafts, graft, plugs, plug, seeds, seed"
)
TRAYS = listed("trays, tray, pots, pot, rows, row, handfuls, handful, bags, bag")
OF_THEM = listed("of them, of these, of those, rooted, rooted cuttings, germinated")
# How many come, or begin, under one handle.
HOW_MANY = bare("quantity", "number", words=(*PLANTS, *TRAYS), whole=True, worded=True)
# How many of a batch; bare where nothing else is counted.
SO_MANY = bare("quantity", "number", words=(*OF_THEM, *PLANTS, *TRAYS), whole=True)
SO_MANY_OF_THEM = bare(
    "quantity",
    "number",
    words=(*OF_THEM, *PLANTS, *TRAYS),
    whole=True,
    worded=True,
    about="how many of a batch",
)
ALL_OF_THEM = flag("all of them", "all", "the lot", "all of it", about="of a batch")
NEW_HANDLE = Form(
    "as", ("as",), words=ANY_WORDS, about="the handle of what begins; it inherits kind and owner"
)
# How many of what came off, or was worked on.
COUNTED = bare(
    "count",
    "number",
    words=listed(
        "candles, candle, shoots, shoot, tips, buds, bud, leaves, leaf, flowers, flower, pods, "
        "seed pods, fruit, fruits, apples, needles, twigs, twig, branches, branch, suckers, "
        "cuts, off, cut"
    ),
    whole=True,
    worded=True,
    part=True,
    about="how many",
)
STRENGTHS = ("half strength", "quarter strength", "full strength", "double strength")
AT_STRENGTH = tuple(f"at {strength}" for strength in STRENGTHS)
MATERIAL_WAYS = ("organic", "liquid", "solid", "slow release")
# What an hour, a price or a bill is for.
WORKS = listed(
    "repotting, root work, potting on, pruning, trimming, pinching, decandling, "
    "needle work, needle plucking, defoliation, defoliating, thinning, wiring, unwiring, "
    "styling, bending, guying, carving, jin, shari, deadwood, grafting, layering, "
    "cleaning, weeding, watering, feeding, spraying, inspection, advice, transport, "
    "care, show preparation, winter storage, and"
)
WIRE = Form(
    "wire", (), ("length",), bound=True, words=METALS, part=True, about="thickness, metal, part"
)
GAUGE = Form(
    "gauge",
    ("gauge",),
    ("number",),
    True,
    words=METALS,
    part=True,
    whole=True,
    limits=(0, 40),
    several=True,
    about="a gauge number, where nobody said how many mm that is",
)
TIES = Form(
    "tied",
    ("tied", "ties", "tied in"),
    ("length", "number"),
    words=METALS,
    several=True,
    about="anchor ties: thickness x how many",
)
MESH = Form("mesh", ("mesh",), ("number",), whole=True, about="over how many holes")
MIX = Form(
    "mix",
    ("mix",),
    ("volume", "mass"),
    refers=("mix",),
    several=True,
    about="what it was potted in",
)
INTO = to(("into", "onto"), "pot", about="the new pot, or slab")
OUT_OF = to(("from", "out of"), "pot", about="the old pot")
ROOT_BALL = measure("root ball", "size", about="what is left of it")
# Across a pot, or along it, that is on no card.
POT_SIZE = Form(
    "pot size",
    sorts=("length",),
    bound=True,
    words=("pot", "box", "tray", "basket"),
    worded=True,
    not_with=("same pot", "into"),
    about="of one on no card",
)
# What is on no card either, and cuttings, seed and a layer root in.
MEDIUM = Form(
    "medium",
    words=listed(
        "kanuma, akadama, pumice, perlite, vermiculite, sand, sharp sand, river sand, grit, "
        "peat, compost, seed compost, leaf mould, bark, lava, coir"
    ),
    several=True,
    about="what it stands in, by the trade's word",
)
MOSS = flag("moss", "sphagnum", about="moist moss round it")
MOSS_ON_TOP = flag("moss", "sphagnum", "moss on top", "sphagnum on top", about="moist moss on top")
HORMONE = flag("rooting hormone", "hormone", "rooting powder", "rooting gel")
BOTTOM_HEAT = flag("bottom heat")
WEDGES = Form(
    "wedges",
    ("wedges", "wedge"),
    reader="wedges",
    several=True,
    about="sectors opened, seen from above with the front at the bottom: S or front, "
    "N or back, E right, W left, or the clock with 6 at the front",
)
# `wedges N, E, S`: what follows a comma stands alone.
MORE_WEDGES = Form(
    "wedges",
    words=("N", "NE", "E", "SE", "S", "SW", "W", "NW"),
    several=True,
    about="more wedges after a comma",
)
OFF = (
    measure(
        ("off below", "off the underside", "off the bottom"), "length", about="depth taken off"
    ),
    # A third of its depth is a third of the ball.
    Form(
        "off",
        ("off below", "off the underside", "off the bottom"),
        ("share", "fraction"),
        bound=True,
        limits=PERCENT,
        about="share of the ball's depth",
    ),
    measure(("off sides", "off the sides", "off all round"), "length", about="depth taken off"),
    measure(("off top", "off the top"), "length", about="depth taken off"),
    measure(
        "off",
        "share",
        "fraction",
        words=(
            "roots",
            "the roots",
            "of roots",
            "of the roots",
            "the root ball",
            "of the root ball",
        ),
        about="share of the ball's volume",
        limits=PERCENT,
    ),
    WEDGES,
    MORE_WEDGES,
    ROOT_BALL,
    measure(("roots shortened", "roots cut back"), "length"),
    words(
        "roots",
        *listed(
            "rootbound, root-bound, crossing roots off, circling roots off, thick roots off, "
            "thick roots shortened, dead roots off, taproot off, taproot cut, "
            "taproot shortened, cuts sealed"
        ),
        part=False,
        about="what was found and cut",
    ),
)
POTTING = (
    Form("same pot", ("same pot",), not_with=("into",)),
    INTO,
    MIX,
    TIES,
    MESH,
    flag(
        "old ties out",
        "old wire out",
        "old ties cut",
        about="every old tie and scrap of wire is out",
    ),
    Form(
        "old ties left",
        ("old ties left in", "old ties left", "old ties in", "old ties still in"),
        not_with=("old ties out",),
        about="old ties are still in the ball; of a repotting that says nothing they are out",
    ),
    MOSS_ON_TOP,
    Form("soaked", ("soaked",), ("duration",), about="pot and all stood in water"),
    flag("watered in", "watered"),
    Form("same mix", ("same mix",), not_with=("mix",)),
    HORMONE,
    BOTTOM_HEAT,
    MEDIUM,
    flag("drainage layer"),
)
ROOT_WAYS = (
    Form("bare-rooted", ("bare-rooted", "bare roots"), not_with=("no root work",)),
    flag("half bare-rooted", about="the old soil off one half, the other left alone"),
    flag("washed", "washed out", "old soil washed out", about="the old soil hosed out"),
    flag("combed", "combed out", "teased out", "roots combed", about="combed out, not cut"),
    measure(("combed", "combed out", "teased out"), "length", about="how deep all round"),
)
ARRIVAL = (
    flag("imported", about="from abroad: quarantine and papers"),
    flag("bare-rooted", "bare roots"),
    flag("weak"),
    INTO,
    MIX,
)

DEADWOOD_PRODUCTS = ("lime sulphur", "hardener", "wood hardener", "oil", "preservative")
