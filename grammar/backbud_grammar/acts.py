"""The table of acts: every word that can open an act line, and the details it takes.

A plugin adds an act by adding a row; the grammar does not change.
"""

from __future__ import annotations

from backbud_grammar.forms import ANY_WORDS, ActForm, Bearing, Form

# What a line of the act does, and so how much of it must be understood (whole.py).
DOES: Bearing = "does"
ENDS: Bearing = "ends"
KEEPS: Bearing = "keeps"

_METALS = ("Al", "Cu", "aluminium", "copper", "annealed")
_TREE_OR_PLACE = ("tree", "place")


def _listed(text: str) -> tuple[str, ...]:
    """A closed list of words and phrases with commas between them."""
    return tuple(text.split(", "))


def _flag(*phrases: str, about: str = "") -> Form:
    """Words that say something by being there."""
    return Form(phrases[0], phrases, about=about)


def _words(name: str, *words: str, part: bool = True, about: str = "") -> Form:
    """Bare words of a closed list, and perhaps a part of the tree."""
    return Form(name, words=words, part=part, about=about)


def _to(labels: str | tuple[str, ...], *kinds: str, name: str = "", about: str = "") -> Form:
    labels = (labels,) if isinstance(labels, str) else labels
    return Form(name or labels[0], labels, refers=kinds, about=about)


def _free(*labels: str, about: str = "") -> Form:
    """A label and then free words."""
    return Form(labels[0], labels, words=ANY_WORDS, about=about)


def _measure(
    labels: str | tuple[str, ...],
    *sorts: str,
    about: str = "",
    words: tuple[str, ...] = (),
    negative: bool = False,
    part: bool = False,
    limits: tuple[int, int] | None = None,
    whole: bool = False,
) -> Form:
    """A label, or one of several, and a measure."""
    labels = (labels,) if isinstance(labels, str) else labels
    return Form(
        labels[0],
        labels,
        sorts,
        True,
        words=words,
        part=part,
        negative=negative,
        about=about,
        limits=limits,
        whole=whole,
    )


def _bare(
    name: str,
    *sorts: str,
    words: tuple[str, ...] = (),
    part: bool = False,
    about: str = "",
    limits: tuple[int, int] | None = None,
    whole: bool = False,
) -> Form:
    """A measure with no label."""
    return Form(
        name, (), sorts, bound=True, words=words, part=part, about=about, limits=limits, whole=whole
    )


def _date(labels: str | tuple[str, ...], name: str = "", about: str = "") -> Form:
    labels = (labels,) if isinstance(labels, str) else labels
    return Form(name or labels[0], labels, date=True, about=about)


def _span(label: str, about: str = "") -> Form:
    """A label and then a time, or free words."""
    return Form(label, (label,), ("duration",), words=ANY_WORDS, about=about)


# A share or a part of a whole is at most the whole.
_PERCENT = (0, 100)
_PART = Form("part", part=True, about="which part of the tree")
_MONEY = _bare("amount", "money", about="the price")
# Two forms, so that `at the market for 40 EUR` is two details.
_FOR_MONEY = (
    Form("amount", ("for",), ("money",), True, about="the price"),
    Form("amount", ("at",), ("money",), True, about="the price"),
)
_BY = Form("by", ("by",), refers=("person",), several=True, about="who did it, when not the keeper")
_GROWTH = _listed(
    "leaf, leaves, bud, buds, pair, pairs, pair of leaves, pairs of leaves, "
    "pair of buds, pairs of buds, node, nodes, needles, shoots, shoot, per shoot, "
    "per node"
)
_BACK_TO = _measure(
    ("back to", "to"), "number", about="how far", whole=True, part=True, words=_GROWTH
)
_LEAVING = _measure(
    ("leaving", "to"),
    "number",
    words=(*_GROWTH, "flowers", "fruit", "branches", "per branch"),
    whole=True,
    part=True,
    about="how much stays",
)
_EXTENT = ("all", "half", "some", "most", "strong", "medium", "weak", "outer", "inner")
_LIGHT = ("light", "lightly")
_BY_A_SHARE = ("by half", "by a quarter", "by a third", "by two thirds")
# `off 1/3`, `by 1/3` or 1/3 alone; `by` is a person's too.
_SHARE_OFF = (
    _measure(("off", "by"), "share", "fraction", "length", part=True, limits=_PERCENT),
    _bare("off", "share", "fraction", part=True, limits=_PERCENT),
    _BY,
)
_INVOICE = (
    _free("number", "invoice number", "invoice"),
    _measure(("number", "invoice number", "invoice"), "number", whole=True),
)
_OUT_OF_HOW_MANY = _measure("of", "number", whole=True, about="of how many")
_TIMES = _measure(("times", "time"), "number", whole=True, about="how often")
_CANS = _measure(("cans", "can"), "number", about="how many cans")
_STRENGTHS = ("half strength", "quarter strength", "full strength", "double strength")
_AT_STRENGTH = tuple(f"at {strength}" for strength in _STRENGTHS)
_MATERIAL_WAYS = ("organic", "liquid", "solid", "slow release")
# What an hour, a price or a bill is for.
_WORKS = _listed(
    "repotting, root work, potting on, pruning, trimming, pinching, decandling, "
    "needle work, needle plucking, defoliation, defoliating, thinning, wiring, unwiring, "
    "styling, bending, guying, carving, jin, shari, deadwood, grafting, layering, "
    "cleaning, weeding, watering, feeding, spraying, inspection, advice, transport, "
    "care, show preparation, winter storage, and"
)
_WIRE = Form(
    "wire", (), ("length",), bound=True, words=_METALS, part=True, about="thickness, metal, part"
)
_TIES = Form(
    "tied",
    ("tied", "ties", "tied in"),
    ("length",),
    words=_METALS,
    several=True,
    about="anchor ties: thickness x how many",
)
_MESH = Form("mesh", ("mesh",), ("number",), whole=True, about="over how many holes")
_MIX = Form(
    "mix",
    ("mix",),
    ("volume", "mass"),
    refers=("mix",),
    several=True,
    about="what it was potted in",
)
_INTO = _to(("into", "onto"), "pot", about="the new pot, or slab")
_OUT_OF = _to(("from", "out of"), "pot", about="the old pot")
_ROOT_BALL = _measure("root ball", "size", about="what is left of it")
_MOSS = _flag("moss", "sphagnum", about="moist moss round it")
_MOSS_ON_TOP = _flag(
    "moss", "sphagnum", "moss on top", "sphagnum on top", about="moist moss on top"
)
_HORMONE = _flag("rooting hormone", "hormone", "rooting powder", "rooting gel")
_BOTTOM_HEAT = _flag("bottom heat")
_WEDGES = Form(
    "wedges",
    ("wedges", "wedge"),
    reader="wedges",
    several=True,
    about="sectors opened, seen from above with the front at the bottom: S or front, "
    "N or back, E right, W left, or the clock with 6 at the front",
)
# `wedges N, E, S`: what follows a comma stands alone.
_MORE_WEDGES = Form(
    "wedges",
    words=("N", "NE", "E", "SE", "S", "SW", "W", "NW"),
    several=True,
    about="more wedges after a comma",
)
_OFF = (
    _measure(("off below", "off the underside"), "length", about="depth taken off"),
    _measure(("off sides", "off the sides", "off all round"), "length", about="depth taken off"),
    _measure(("off top", "off the top"), "length", about="depth taken off"),
    _measure(
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
        limits=_PERCENT,
    ),
    _WEDGES,
    _MORE_WEDGES,
    _ROOT_BALL,
    _measure(("roots shortened", "roots cut back"), "length"),
    _words(
        "roots",
        *_listed(
            "rootbound, root-bound, crossing roots off, circling roots off, thick roots off, "
            "thick roots shortened, dead roots off, taproot off, taproot cut, "
            "taproot shortened, cuts sealed"
        ),
        part=False,
        about="what was found and cut",
    ),
)
_POTTING = (
    Form("same pot", ("same pot",), not_with=("into",)),
    _INTO,
    _MIX,
    _TIES,
    _MESH,
    _flag(
        "old ties out",
        "old wire out",
        "old ties cut",
        about="every old tie and scrap of wire is out",
    ),
    _MOSS_ON_TOP,
    Form("soaked", ("soaked",), ("duration",), about="pot and all stood in water"),
    _flag("watered in", "watered"),
    Form("same mix", ("same mix",), not_with=("mix",)),
    _HORMONE,
    _BOTTOM_HEAT,
    _flag("drainage layer"),
)
_ROOT_WAYS = (
    Form("bare-rooted", ("bare-rooted", "bare roots"), not_with=("no root work",)),
    _flag("half bare-rooted", about="the old soil off one half, the other left alone"),
    _flag("washed", "washed out", "old soil washed out", about="the old soil hosed out"),
    _flag("combed", "combed out", "teased out", "roots combed", about="combed out, not cut"),
)
_ARRIVAL = (
    _flag("imported", about="from abroad: quarantine and papers"),
    _flag("bare-rooted", "bare roots"),
    _flag("weak"),
    _INTO,
    _MIX,
)

_DEADWOOD_PRODUCTS = ("lime sulphur", "hardener", "wood hardener", "oil", "preservative")

_TABLE: list[ActForm] = []


def _act(
    group: str,
    word: str,
    bare: str,
    bearing: Bearing,
    *forms: Form,
    on: tuple[str, ...] = ("tree",),
    about: str = "",
    prose: bool = False,
    shared: bool = False,
    names_act: bool = False,
    needs: bool = False,
    also: tuple[str, ...] = (),
    also_bare: tuple[str, ...] = (),
    undone_by: str = "",
    of_all: bool = False,
    by: bool = True,
) -> None:
    with_by = forms if prose or not by or any("by" in f.labels for f in forms) else (*forms, _BY)
    said = f"also written {', '.join(also)}" if also else ""
    _TABLE.append(
        ActForm(
            word,
            bare,
            group,
            with_by,
            on,
            prose,
            shared,
            names_act,
            needs,
            about="; ".join(filter(None, (about, said))),
            also=also,
            bearing=bearing,
            bare_words=frozenset({bare, *also_bare} - {word}),
            undone_by=undone_by,
            of_all=of_all,
        )
    )


# --- Arrivals and departures
_G = "Arrivals and departures"
_act(
    _G,
    "received",
    "receive",
    ENDS,
    _to("from", "person"),
    _free("for", about="what for"),
    _date(("wanted by", "wanted"), "wanted", "when its owner wants it back"),
    _flag("on loan"),
    _flag("as a gift", "gift"),
    _to("in", "pot", name="into", about="the pot it came in"),
    *_ARRIVAL,
    about="came in, from its owner or for good",
)
_act(
    _G,
    "bought",
    "buy",
    ENDS,
    _MONEY,
    *_FOR_MONEY,
    _free("from", "at", about="where or from whom"),
    _bare(
        "quantity",
        "volume",
        "mass",
        "length",
        "number",
        words=(
            *_listed(
                "bag, bags, roll, rolls, bottle, bottles, box, boxes, tub, tubs, sheet, "
                "sheets, piece, pieces, bale, bales, seeds, plants, trees"
            ),
        ),
    ),
    *_ARRIVAL,
    on=("tree", "pot", "material"),
    shared=True,
)
_act(
    _G,
    "collected",
    "collect",
    ENDS,
    _free("from"),
    _flag("with permit"),
    _free("permit number", "permit"),
    _ROOT_BALL,
    _flag("with field soil", "field soil kept"),
    _flag("ball wrapped"),
    *_ARRIVAL,
    about="dug from ground, with permission",
    # `collected by marrow` may say who came for it.
    by=False,
    also=("dug", "dig"),
    also_bare=("dig",),
)
_act(
    _G,
    "sown",
    "sow",
    DOES,
    _bare("quantity", "number", words=("seeds",), whole=True),
    _free("from"),
    _INTO,
    _MIX,
    Form("stratified", ("stratified", "cold stratified"), ("duration",), about="kept cold before"),
    _BOTTOM_HEAT,
)
_act(
    _G,
    "struck",
    "strike",
    DOES,
    _bare("quantity", "number", words=("cuttings",), whole=True),
    _to("from", "tree"),
    _INTO,
    _MIX,
    _words("way", "hardwood", "semi-ripe", "softwood", "with a heel", "under mist", "under glass"),
    _HORMONE,
    _BOTTOM_HEAT,
    about="a cutting",
)
_act(
    _G,
    "grafted",
    "graft",
    DOES,
    _to("from", "tree"),
    _bare("quantity", "number", words=("scions", "scion"), whole=True),
    _words(
        "way",
        *_listed(
            "approach, thread, cleft, side, veneer, whip, whip and tongue, inlay, bark, bud, "
            "chip bud, root, roots, scion"
        ),
    ),
    _PART,
    _flag("taped", "sealed"),
    _flag("bagged"),
    about="the subject is the stock",
)
_act(
    _G,
    "layered",
    "layer",
    DOES,
    _words("way", "ring", "tourniquet", "ground", "girdled"),
    _PART,
    _bare("ring", "length"),
    _MOSS,
    _HORMONE,
    _flag("in plastic", "wrapped in plastic"),
    _flag("in a pot", "in a split pot"),
    about="an air or ground layer begun",
    also=("air-layered", "air-layer"),
    also_bare=("air-layer",),
)
_act(
    _G,
    "separated",
    "separate",
    ENDS,
    _words("what", "layer", "graft"),
    _PART,
    Form("as", ("as",), words=ANY_WORDS, about="the new tree's handle; it inherits kind and owner"),
    about="a layer or graft cut free",
    also=("severed", "sever"),
    also_bare=("sever",),
)
_act(
    _G,
    "sold",
    "sell",
    ENDS,
    _to("to", "person"),
    _MONEY,
    *_FOR_MONEY,
    _free("at", about="where"),
    _flag("stays", "stays here", about="its owner is new, it stays in care"),
    on=("tree", "pot", "material"),
    shared=True,
    of_all=True,
)
_act(
    _G,
    "lent",
    "lend",
    ENDS,
    _to("to", "person"),
    _date("until"),
    _span("for", about="what for"),
    of_all=True,
)
_act(
    _G,
    "returned",
    "return",
    ENDS,
    _to("to", "person"),
    _words("how", "collected", "picked up", "delivered", "by carrier", part=False),
    about="went home to its owner",
    of_all=True,
    also=("handed-back", "hand-back"),
    also_bare=("hand-back",),
)
_act(
    _G,
    "died",
    "die",
    ENDS,
    _free("of", "from"),
    _words("when", "over winter", "in winter", "in summer", "in transit", part=False),
    of_all=True,
)
_act(
    _G,
    "lost",
    "lose",
    ENDS,
    _words("how", "stolen", "missing", part=False),
    _free("to"),
    of_all=True,
)

# --- Branch and leaf work
_G = "Branch and leaf work"
_act(
    _G,
    "pruned",
    "prune",
    DOES,
    _words(
        "how",
        "hard",
        "back hard",
        *_LIGHT,
        *_listed(
            "structural, for structure, to shape, roots aside, to old wood, trunk chop, "
            "for light, suckers, water shoots, bar branches, crossing branches, "
            "sacrifice branch, sacrifice branches, twigs, dead twigs, dead branches, dead wood, "
            "after flowering"
        ),
        *_BY_A_SHARE,
        *_EXTENT,
    ),
    _BACK_TO,
    _PART,
    *_SHARE_OFF,
    about="hard, when it goes into old wood or takes a third and more",
    also=("cut-back",),
)
_act(
    _G,
    "trimmed",
    "trim",
    DOES,
    _words(
        "how",
        *_LIGHT,
        *_listed(
            "outline, to outline, to silhouette, to shape, low, top, long shoots, "
            "new growth, all over"
        ),
        *_BY_A_SHARE,
        *_EXTENT,
    ),
    _BACK_TO,
    _PART,
    *_SHARE_OFF,
    also=("clipped", "clip"),
    also_bare=("clip",),
)
_act(
    _G,
    "pinched",
    "pinch",
    DOES,
    _words("how", "tips", "candles", "new growth", "runners", "out", *_BY_A_SHARE, *_EXTENT),
    _BACK_TO,
    _PART,
    *_SHARE_OFF,
)
_act(
    _G,
    "decandled",
    "decandle",
    DOES,
    _words(
        "how",
        *_listed("first, first round, second round, third round, first flush, second flush"),
        *_EXTENT,
    ),
    _LEAVING,
    _measure(("stubs", "stub"), "length", part=True),
    _bare("off", "share", "fraction", part=True, limits=_PERCENT),
    _PART,
    about="this year's candles off (two-flush pines)",
)
_act(
    _G,
    "plucked",
    "pluck",
    DOES,
    _words(
        "how",
        "old needles",
        "last year's needles",
        "hanging needles",
        "needles",
        *_EXTENT,
    ),
    _LEAVING,
    Form("leaving", ("pairs",), ("number",), True, part=True, whole=True, about="how many stay"),
    _PART,
    also=("needle-plucked", "needle-pluck"),
    also_bare=("needle-pluck",),
)
_act(
    _G,
    "defoliated",
    "defoliate",
    DOES,
    _words(
        "how",
        *_listed(
            "full, partial, half of each leaf, large leaves, outer leaves, old leaves, "
            "damaged leaves, half of the leaves"
        ),
        *_EXTENT,
    ),
    _flag("leaving petioles", "leaving the petioles", about="the leaf stalks stay on"),
    _measure("off", "share", "fraction", part=True, limits=_PERCENT),
    _bare("off", "share", "fraction", part=True, limits=_PERCENT),
    _PART,
    also=("leaf-pruned", "leaf-prune"),
    also_bare=("leaf-prune",),
)
_act(
    _G,
    "disbudded",
    "disbud",
    DOES,
    _words("how", "to one per shoot", "one per shoot", *_EXTENT),
    _LEAVING,
    _bare("off", "share", "fraction", part=True, limits=_PERCENT),
    _PART,
    about="flower buds off before they open",
)
_act(
    _G,
    "deadheaded",
    "deadhead",
    DOES,
    _words("how", "with the ovary", "with ovaries", "seed pods", *_EXTENT),
    _PART,
    about="spent flowers and their seed off",
)
_act(
    _G,
    "rubbed",
    "rub",
    DOES,
    _words(
        "how",
        *_listed("trunk buds, buds, back buds, adventitious buds, suckers, off, off trunk"),
        *_EXTENT,
    ),
    _PART,
    about="buds off trunk or wood",
)
_act(
    _G,
    "wired",
    "wire",
    DOES,
    _WIRE,
    _words("how", "all", "whole tree", "primary branches", "secondary branches", "fine branches"),
    _PART,
    undone_by="unwired",
)
_act(_G, "unwired", "unwire", ENDS, _words("how", "partly", "all", "whole tree"), _PART)
_act(
    _G,
    "guyed",
    "guy",
    DOES,
    Form("guy", (), ("length",), words=_METALS, part=True, about="thickness, metal, part"),
    _free("anchored to", "to"),
    _words("how", "down", "up", "left", "right"),
    _PART,
    undone_by="unguyed",
)
_act(_G, "unguyed", "unguy", ENDS, _words("how", "partly", "all"), _PART)
_act(
    _G,
    "carved",
    "carve",
    DOES,
    _words(
        "how",
        *_listed(
            "by hand, with power tools, jin, new jin, shari, new shari, hollow, deadwood, "
            "refined, texture, bark off"
        ),
    ),
    _bare("size", "length", words=("wide", "long", "deep"), part=True),
    _free("with"),
    _PART,
)
_act(
    _G,
    "treated-deadwood",
    "treat-deadwood",
    DOES,
    _words("with", *_DEADWOOD_PRODUCTS),
    _free("with"),
    _words("how", "undiluted", "one coat", "two coats", "second coat"),
    _measure("diluted", "ratio"),
    _bare("diluted", "ratio"),
    _PART,
    also=("lime-sulphured", "lime-sulphur"),
    also_bare=("lime-sulphur",),
)
_act(
    _G,
    "thinned",
    "thin",
    DOES,
    _words(
        "how",
        *_listed("shoots, twigs, buds, branches, needles, flower buds, fruit, second flush"),
        *_BY_A_SHARE,
        *_EXTENT,
    ),
    _LEAVING,
    _PART,
    *_SHARE_OFF,
)
_act(
    _G,
    "sealed",
    "seal",
    DOES,
    _words("what", "cuts", "wounds", "cut paste", "paste", "putty"),
    _free("with"),
    _PART,
)
_act(_G, "notched", "notch", DOES, _words("where", "above bud", "below bud"), _PART)
_act(
    _G,
    "bent",
    "bend",
    DOES,
    _words("how", "heavy", *_LIGHT, "down", "up", "left", "right"),
    _bare("down", "length", "angle", words=("down", "up", "left", "right"), part=True),
    _free("with"),
    _PART,
)
_act(
    _G,
    "wrapped",
    "wrap",
    DOES,
    _words("with", "raffia", "wet raffia", "tape"),
    _PART,
    undone_by="unwrapped",
)
_act(_G, "unwrapped", "unwrap", ENDS, _words("how", "partly", "all", "raffia", "tape"), _PART)
_act(
    _G,
    "styled",
    "style",
    DOES,
    _words("how", "first", "second", "again", "first styling", "whole tree"),
    _PART,
    about="shaped as a whole; what was pruned, wired or bent stands on lines of its own",
)
_act(
    _G,
    "refronted",
    "refront",
    DOES,
    _bare("angle", "angle", words=("clockwise", "anticlockwise", "counter-clockwise")),
    about="the tree has a new front",
    needs=True,
)

# --- Root work
_G = "Root work"
_act(
    _G,
    "repotted",
    "repot",
    DOES,
    *_POTTING,
    _OUT_OF,
    *_OFF,
    *_ROOT_WAYS,
    _flag("no root work"),
    _measure(("raised", "higher"), "length"),
    _measure(("lowered", "lower"), "length"),
    _measure("turned", "angle", words=("clockwise", "anticlockwise", "counter-clockwise")),
    _measure(
        "tilted",
        "angle",
        words=("to the left", "to the right", "forwards", "backwards"),
        about="a new slope",
    ),
)
_act(
    _G,
    "potted-on",
    "pot-on",
    DOES,
    *_POTTING,
    _OUT_OF,
    *_OFF,
    *_ROOT_WAYS,
    _flag("loosened"),
    _bare("quantity", "number", words=("seedlings", "cuttings"), whole=True),
    _words("how", "up", "on", "out", part=False, about="potted up, potted on, pricked out"),
    about="into a larger pot, roots loosened; the first pot too",
    also=("potted", "potted-up", "pot-up", "pricked-out", "prick-out", "pricked", "prick"),
    also_bare=("pot-up", "prick-out", "prick"),
)
_act(_G, "slipped", "slip", DOES, *_POTTING, _OUT_OF, about="moved up without root work")
_act(
    _G,
    "lifted",
    "lift",
    DOES,
    *_POTTING,
    *_OFF,
    *_ROOT_WAYS,
    _free("from"),
    _to("to", "place"),
    _flag("with field soil", "field soil kept"),
    _flag("ball wrapped"),
    about="out of open ground; the opposite of planted-out",
)
_act(
    _G,
    "root-pruned",
    "root-prune",
    DOES,
    *_OFF,
    _words("how", "in the ground", "trenched", "by spade", part=False),
    _PART,
)
_act(
    _G,
    "opened",
    "open",
    DOES,
    _words("what", "surface", "hard surface", "underside", "top", "rim", part=False),
    _bare("depth", "length", words=("deep",)),
    _WEDGES,
    _MORE_WEDGES,
    _free("with"),
    about="the surface raked with a stick",
)
_act(
    _G,
    "top-dressed",
    "top-dress",
    DOES,
    _MIX,
    _free("with"),
    _bare("quantity", "volume", "length"),
    _MOSS_ON_TOP,
)
_act(
    _G,
    "tied",
    "tie",
    DOES,
    Form(
        "tied",
        (),
        ("length",),
        words=_METALS,
        several=True,
        about="anchor ties: thickness x how many",
    ),
    undone_by="untied",
)
_act(_G, "untied", "untie", ENDS, _words("how", "partly", "all", part=False))

# --- Keep
_G = "Keep"
_act(
    _G,
    "watered",
    "water",
    DOES,
    _bare("quantity", "volume"),
    _CANS,
    _TIMES,
    _words(
        "how",
        "well",
        "in",
        "deeply",
        *_LIGHT,
        *_listed(
            "twice, by hand, overhead, from below, morning, morning and evening, evening, "
            "rainwater, tap water"
        ),
        part=False,
    ),
    _free("with"),
    on=_TREE_OR_PLACE,
)
_act(
    _G,
    "misted",
    "mist",
    DOES,
    _words("how", "twice", "morning", "morning and evening", "evening", part=False),
    _TIMES,
    _PART,
    on=_TREE_OR_PLACE,
    about="water on the leaves",
)
_act(
    _G,
    "soaked",
    "soak",
    DOES,
    _bare("quantity", "volume"),
    _CANS,
    _measure("for", "duration"),
    _bare("for", "duration"),
    _words("how", "overnight", "rainwater", part=False),
)
_act(
    _G,
    "flushed",
    "flush",
    DOES,
    _bare("quantity", "volume"),
    _CANS,
    _words("how", "until clear", "well", "twice", "rainwater", part=False),
)
_act(
    _G,
    "fed",
    "feed",
    DOES,
    _bare("npk", "npk"),
    _bare("strength", "rate", "share", "fraction", "concentration", words=("strength",)),
    Form(
        "strength",
        ("at",),
        ("rate", "share", "fraction", "concentration"),
        True,
        words=("strength",),
    ),
    _bare(
        "quantity",
        "volume",
        "mass",
        "number",
        words=("cakes", "cake", "pieces", "piece", "pellets", "spoons", "spoon", "handfuls"),
    ),
    _words("how", *_STRENGTHS, *_AT_STRENGTH, *_MATERIAL_WAYS, "foliar", part=False),
    Form("with", ("with",), refers=("material",), several=True),
    Form("with", refers=("material",), several=True, about="with or without `with`"),
    also=("fertilised", "fertilise", "fertilized", "fertilize"),
    also_bare=("fertilise", "fertilize"),
)
_act(
    _G,
    "moved",
    "move",
    ENDS,
    Form(
        "to",
        ("to", "into", "onto", "back to", "back into", "out to", "out into"),
        refers=("place",),
    ),
    Form("to", refers=("place",), about="the place, with or without `to`"),
    _to("from", "place"),
    _free("for", about="what for"),
    needs=True,
)
_act(
    _G,
    "turned",
    "turn",
    DOES,
    _bare("angle", "angle"),
    _words("how", "quarter turn", "half turn", "quarter", "half", "round", part=False),
    about="on the bench, towards the light",
    also=("rotated", "rotate"),
    also_bare=("rotate",),
)
_act(
    _G,
    "shaded",
    "shade",
    DOES,
    _bare("share", "share", limits=_PERCENT),
    _words("with", "net", "fleece", part=False),
    on=_TREE_OR_PLACE,
    undone_by="unshaded",
)
_act(_G, "unshaded", "unshade", ENDS, on=_TREE_OR_PLACE)
_act(
    _G,
    "planted-out",
    "plant-out",
    ENDS,
    Form("to", ("in", "at", "to", "into"), refers=("place",)),
    Form("to", refers=("place",)),
    _flag("on a tile"),
    about="into open ground, to grow",
)
_act(
    _G,
    "protected",
    "protect",
    DOES,
    _free("with"),
    _free("against", "from"),
    _words(
        "how",
        *_listed(
            "fleece, mulch, straw, bubble wrap, pot wrapped, pot in straw, heeled in, "
            "plunged, on the ground, net, windbreak"
        ),
        part=False,
    ),
    on=_TREE_OR_PLACE,
    undone_by="unprotected",
)
_act(_G, "unprotected", "unprotect", ENDS, on=_TREE_OR_PLACE)
_act(_G, "weeded", "weed", DOES, on=_TREE_OR_PLACE)
_act(
    _G,
    "cleaned",
    "clean",
    DOES,
    _words(
        "what",
        *_listed(
            "trunk, bark, nebari, deadwood, jin, shari, moss off, moss off trunk, algae off, "
            "lichen off, scale off, cakes off, old cakes off, snow off, soil surface, pot, "
            "pots, bench, benches, tools, floor, dead leaves, fallen leaves, old needles, "
            "foliage, leaves, glass"
        ),
    ),
    _free("with"),
    _PART,
    on=("tree", "place", "pot"),
)
_act(
    _G,
    "treated",
    "treat",
    DOES,
    Form("product", ("with",), words=ANY_WORDS, about="the product"),
    _words(
        "product",
        *_listed(
            "lime sulphur, sulphur, copper, soap, soft soap, neem, neem oil, "
            "horticultural oil, winter oil, nematodes, predatory mites, sticky traps, "
            "fungicide, insecticide, acaricide"
        ),
        part=False,
        about="the product, without `with`",
    ),
    _free("number", about="authorisation number"),
    _measure("dose", "rate", "volume", "mass", "share", "ratio"),
    _bare("dose", "rate", "share", "ratio", "concentration"),
    _bare("quantity", "volume", "mass"),
    _TIMES,
    _measure("area", "area"),
    _free("against", "for", about="the target"),
    Form("operator", ("by",), refers=("person",), several=True),
    Form("at", ("at",), reader="time", about="the time of day"),
    _measure("re-entry", "duration", about="as the label says"),
    _measure("wind", "speed"),
    _words(
        "how",
        *_listed("soil drench, dip, painted on, winter wash, systemic, by hand, water jet"),
        part=False,
    ),
    on=_TREE_OR_PLACE,
    about="pest or disease: the label and local law decide",
    also=("sprayed", "spray"),
    also_bare=("spray",),
)
_act(
    _G,
    "quarantined",
    "quarantine",
    DOES,
    Form("to", ("in", "at", "to"), refers=("place",)),
    Form("to", refers=("place",)),
    _date("until"),
    _span("for", about="how long, or what for"),
    _bare("for", "duration"),
)
_act(
    _G,
    "released",
    "release",
    ENDS,
    # From a pot it would be another thing.
    Form("from", ("from",), words=("quarantine", "the quarantine", "isolation")),
    _to("from", "place"),
    about="from quarantine",
)
_act(
    _G,
    "ventilated",
    "ventilate",
    DOES,
    _words("how", "morning", "all day", "all night", "doors", "vents", part=False),
    on=("place",),
    about="a house or frame opened for air",
)

# --- Watch
_G = "Watch"
# Each is one word: a check of `wire ties` is two.
_LOOKED_AT = _listed(
    "wire, ties, guys, graft, layer, roots, drainage, pests, aphids, scale, mites, "
    "mealybug, weevils, slugs, mildew, mould, mice, wounds, wound, protection, frost, "
    "moss, buds, candles, shoots, strength, soil, water, mesh, pot, leaves, needles, "
    "bark, deadwood, jin, shari, raffia, fruit, seedlings, cuttings"
)
_FOUND = _listed(
    "fine, all fine, biting, not biting, loose, tight, taken, not taken, rooted, "
    "roots showing, white roots, no roots, rootbound, root-bound, not yet, dry, damp, "
    "wet, waterlogged, frozen, slow, fast, clean, healed, closed, closing, callus, "
    "callused, callusing, swelling, opening, open, broken, cracked, damaged, rotten, "
    "alive, dead, weak, fair, strong, healthy, green, yellow, brown, spots, sticky, "
    "eaten, some, many, none"
)
# Of these `not yet` is a finding; of all else it says that nobody looked.
AWAITED = frozenset({"graft", "layer", "roots", "buds"})
_act(
    _G,
    "checked",
    "check",
    ENDS,
    _words("what", *_LOOKED_AT),
    Form("what", ("for",), words=ANY_WORDS, about="what was looked for"),
    _flag("everything", "all", "all over", about="as a check that names nothing"),
    _words("finding", *_FOUND),
    Form("again", ("again in", "again"), ("duration",), date=True),
    _PART,
    on=_TREE_OR_PLACE,
    about="settles the check that was asked, and sets the next",
)
_act(
    _G, "noted", "note", KEEPS, prose=True, on=("tree", "place", "pot", "person", "material", "mix")
)
_act(
    _G,
    "private",
    "private",
    KEEPS,
    prose=True,
    on=("tree", "place", "pot", "person", "material", "mix"),
    about="for the keeper's eyes only",
)
_act(
    _G,
    "measured",
    "measure",
    KEEPS,
    _measure(("trunk", "trunk diameter", "diameter"), "length"),
    _measure("height", "length"),
    _measure(("spread", "width"), "length", "size"),
    _measure("nebari", "length", about="root flare, across"),
    _measure("girth", "length"),
    _measure("root ball", "size"),
    _measure(("candles", "candle"), "length"),
    _measure(("needles", "needle"), "length"),
    _measure(("shoots", "shoot"), "length"),
    _measure(("internodes", "internode"), "length"),
    _measure("weight", "mass"),
    _measure(("pH", "water pH"), "number", limits=(0, 14)),
    _measure("soil pH", "number", limits=(0, 14)),
    _measure(("hardness", "water hardness"), "hardness"),
    _measure(("conductivity", "water conductivity", "EC"), "conductivity"),
    _measure("soil temperature", "temperature", negative=True),
    _measure("water temperature", "temperature"),
    on=_TREE_OR_PLACE,
    needs=True,
)
_act(
    _G,
    "staged",
    "stage",
    KEEPS,
    _bare("stage", "number", part=True, about="BBCH growth stage", limits=(0, 99), whole=True),
    Form("stage", ("BBCH",), ("number",), True, part=True, limits=(0, 99), whole=True),
    needs=True,
)
_act(
    _G,
    "germinated",
    "germinate",
    KEEPS,
    _bare("quantity", "number", words=("seeds", "seedlings"), whole=True),
    _OUT_OF_HOW_MANY,
    _bare("share", "share", limits=_PERCENT),
)
_act(
    _G,
    "rooted",
    "rooted",
    KEEPS,
    _bare("quantity", "number", words=("cuttings", "layers"), whole=True),
    _OUT_OF_HOW_MANY,
    _bare("share", "share", limits=_PERCENT),
    about="cuttings that have roots",
)
_act(
    _G,
    "bloomed",
    "bloom",
    KEEPS,
    _words("how", "first", "full", "over", "sparse", "well", "early", "late", "none"),
    _bare("flowers", "number", words=("flowers",), whole=True),
    _PART,
    also=("flowered",),
)
_act(
    _G,
    "fruited",
    "fruit",
    KEEPS,
    _words("how", "set", "ripe", "sparse", "well", "none"),
    _bare("quantity", "number", words=("fruit", "fruits"), whole=True),
    _PART,
)
_act(
    _G,
    "vigour",
    "vigour",
    KEEPS,
    Form("zone", reader="zone", several=True, about="how a zone, or the whole tree, grows"),
    needs=True,
    also=("vigor",),
)
_act(
    _G,
    "drained",
    "drain",
    KEEPS,
    _bare("time", "duration", about="for a can of water to pass"),
    Form("time", ("in",), ("duration",), True),
    needs=True,
)
_act(
    _G,
    "photographed",
    "photograph",
    KEEPS,
    Form("file", words=ANY_WORDS, about="a picture's file"),
    needs=True,
    also=("photo",),
    also_bare=("photo",),
)
_act(
    _G,
    "shown",
    "show",
    KEEPS,
    _free("at", about="the exhibition"),
    _free("award", "prize", "medal"),
    _to("in pot", "pot", about="the pot for the day"),
    _free("stand", "on stand", about="what it stood on"),
    _free("accent", "with accent", about="the plant beside it"),
    _free("scroll", "with scroll"),
    also=("exhibited", "exhibit"),
    also_bare=("exhibit",),
)
_act(
    _G,
    "valued",
    "value",
    KEEPS,
    _MONEY,
    *_FOR_MONEY,
    _free("for", about="what for"),
    on=("tree", "pot"),
    needs=True,
)

# --- Work for others
_G = "Work for others"
_PRICE = (
    _MONEY,
    _measure("rate", "money rate", "money"),
    _bare("rate", "money rate", about="the price of an hour"),
    _free("for", about="what the price is for"),
    _words("for", *_WORKS, part=False),
    _words(
        "how",
        *_listed(
            "fixed price, price, about, up to, at most, with materials, including materials, "
            "plus materials"
        ),
        part=False,
    ),
)
_act(
    _G,
    "quoted",
    "quote",
    KEEPS,
    *_PRICE,
    on=("tree", "person"),
    shared=True,
    about="a price named, not yet agreed",
)
_act(
    _G,
    "agreed",
    "agree",
    DOES,
    *_PRICE,
    _date("by", "wanted", about="when it is wanted back"),
    on=("tree", "person"),
    shared=True,
)
_act(
    _G,
    "worked",
    "work",
    KEEPS,
    _bare("time", "duration"),
    _free("on", "at", about="what at"),
    _words("on", *_WORKS, part=False),
    shared=True,
    needs=True,
)
_act(
    _G,
    "used",
    "use",
    DOES,
    Form(
        "material",
        (),
        ("volume", "mass", "length", "number"),
        bound=True,
        refers=("material", "mix"),
        words=("bag", "bags", "piece", "pieces", "sheet", "sheets", "cakes", "cake"),
        several=True,
    ),
    shared=True,
    needs=True,
)
_act(
    _G,
    "counted",
    "count",
    DOES,
    Form(
        "quantity",
        (),
        ("volume", "mass", "length", "number"),
        bound=True,
        words=(
            "bag",
            "bags",
            "box",
            "boxes",
            "roll",
            "rolls",
            "bottle",
            "bottles",
            "tub",
            "tubs",
            "piece",
            "pieces",
            "sheet",
            "sheets",
        ),
    ),
    on=("material",),
    about="what is on the shelf, as counted",
    needs=True,
)
_act(
    _G,
    "ready",
    "ready",
    ENDS,
    # `ready for pruning` is not ready to go.
    Form("for", ("for",), words=("collection", "pick-up", "picking up", "its owner", "home")),
    _to("for", "person"),
    _words("how", "to go home", "to go", part=False),
    about="to go home",
)
_act(
    _G,
    "billed",
    "bill",
    DOES,
    _MONEY,
    *_INVOICE,
    _free("for"),
    _words("for", *_WORKS, part=False),
    on=("tree", "person"),
    shared=True,
    also=("invoiced",),
)
_act(
    _G,
    "paid",
    "pay",
    ENDS,
    _MONEY,
    _words(
        "how",
        *_listed(
            "cash, in cash, by transfer, by bank transfer, by card, in full, in part, "
            "deposit, balance, in advance, on account"
        ),
        part=False,
    ),
    *_INVOICE,
    on=("tree", "person"),
    shared=True,
    needs=True,
)
_act(
    _G,
    "priced",
    "price",
    DOES,
    _MONEY,
    on=("material", "pot"),
    about="what it costs from now on",
    needs=True,
)

# --- Plans
_G = "Plans"
_SEASONS = tuple(
    f"{lead}{name}"
    for lead in ("in ", "next ", "this ")
    for name in ("spring", "summer", "autumn", "winter")
)
_LATER = (
    # Not named `to`: `planned move to tunnel, to 2028` holds both.
    _date(("to", "until"), "when", about="when"),
    _measure("in", "duration", about="counted from the page"),
    _words("season", *_SEASONS, part=False, about="the one that is not over on that day"),
)
_act(_G, "planned", "plan", DOES, *_LATER, names_act=True)
_act(_G, "skipped", "skip", ENDS, names_act=True)
_act(_G, "put-off", "put-off", ENDS, *_LATER, names_act=True)
_act(
    _G,
    "corrected",
    "correct",
    ENDS,
    Form("date", date=True),
    _flag("not done", about="that act never happened"),
    names_act=True,
    about="replaces only the details it names",
)

ACTS: tuple[ActForm, ...] = tuple(_TABLE)

DAY_FORMS: tuple[Form, ...] = (
    _measure("low", "temperature", negative=True),
    _measure("high", "temperature", negative=True),
    _measure("rain", "length"),
    _measure("wind", "speed"),
    _measure("sun", "duration"),
    _measure("humidity", "share", limits=_PERCENT),
    _flag("frost"),
    _flag("snow"),
    _flag("hail"),
    _to("at", "place"),
)


def by_word(acts: tuple[ActForm, ...]) -> dict[str, ActForm]:
    """Return the acts by each of their words: past, bare, and what else they are called.

    What has a hyphen may be written with a blank, unless an act begins so: `put off`, `handed
    back`, but not `treat deadwood`.
    """
    words = {word: act for act in acts for word in (*act.also, act.bare, act.word)}
    apart = {
        word.replace("-", " "): act
        for word, act in words.items()
        if word.partition("-")[0] not in words
    }
    return {**words, **apart}
