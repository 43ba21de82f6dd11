"""The table of acts: every word that can open an act line, and the details it takes.

A plugin adds an act by adding a row; the grammar does not change.
"""

from __future__ import annotations

from backbud_grammar.forms import ANY_WORDS, ActForm, Form

_METALS = ("Al", "Cu", "aluminium", "copper", "annealed")
_TREE_OR_PLACE = ("tree", "place")


def _flag(*phrases: str, about: str = "") -> Form:
    """Words that say something by being there."""
    return Form(phrases[0], phrases, about=about)


def _words(name: str, *words: str, part: bool = True, about: str = "") -> Form:
    """Bare words of a closed list, and perhaps a part of the tree."""
    return Form(name, words=words, part=part, about=about)


def _to(label: str, *kinds: str, name: str = "", about: str = "") -> Form:
    return Form(name or label, (label,), refers=kinds, about=about)


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


def _date(label: str, name: str = "", about: str = "") -> Form:
    return Form(name or label, (label,), date=True, about=about)


# A share or a part of a whole is at most the whole.
_PERCENT = (0, 100)
_PART = Form("part", part=True, about="which part of the tree")
_MONEY = _bare("amount", "money", about="the price")
_FOR_MONEY = Form("amount", ("for", "at"), ("money",), True, about="the price")
_BY = Form("by", ("by",), refers=("person",), several=True, about="who did it, when not the keeper")
_BACK_TO = _measure(
    "back to",
    "number",
    about="how far",
    whole=True,
    part=True,
    words=(
        "leaf",
        "leaves",
        "bud",
        "buds",
        "pair",
        "pairs",
        "node",
        "nodes",
        "needles",
        "shoots",
        "shoot",
    ),
)
_EXTENT = ("all", "half", "some", "most", "strong", "medium", "weak", "outer", "inner")
_SHARE_OFF = _measure("off", "share", "fraction", "length", part=True, limits=_PERCENT)
_WIRE = Form(
    "wire", (), ("length",), bound=True, words=_METALS, part=True, about="thickness, metal, part"
)
_TIES = Form(
    "tied",
    ("tied",),
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
_INTO = _to("into", "pot", about="the new pot")
_ROOT_BALL = _measure("root ball", "size", about="what is left of it")
_MOSS = _flag("moss", "sphagnum", about="moist moss on top")
_HORMONE = _flag("rooting hormone")
_WEDGES = Form(
    "wedges",
    ("wedges", "wedge"),
    reader="wedges",
    several=True,
    about="sectors opened, seen from above with the front at the bottom: S or front, "
    "N or back, E right, W left, or the clock with 6 at the front",
)
_OFF = (
    _measure(("off below", "off the underside"), "length", about="depth taken off"),
    _measure(("off sides", "off the sides", "off all round"), "length", about="depth taken off"),
    _measure(("off top", "off the top"), "length", about="depth taken off"),
    _measure("off", "share", "fraction", about="share of the ball's volume", limits=_PERCENT),
    _WEDGES,
    _ROOT_BALL,
)
_POTTING = (
    Form("same pot", ("same pot",), not_with=("into",)),
    _INTO,
    _MIX,
    _TIES,
    _MESH,
    _flag("old ties out", "old wire out", about="every old tie and scrap of wire is out"),
    _MOSS,
    _flag("soaked"),
    _HORMONE,
    _flag("drainage layer"),
)
_ROOT_WAYS = (
    Form("bare-rooted", ("bare-rooted", "bare roots"), not_with=("no root work",)),
    _flag("washed", about="the old soil hosed out"),
    _flag("combed", "teased out", about="roots combed out, not cut"),
)
_ARRIVAL = (
    _flag("imported", about="from abroad: quarantine and papers"),
    _flag("bare-rooted", "bare roots"),
    _flag("weak"),
    _INTO,
    _MIX,
)

_TABLE: list[ActForm] = []


def _act(
    group: str,
    word: str,
    bare: str,
    *forms: Form,
    on: tuple[str, ...] = ("tree",),
    about: str = "",
    prose: bool = False,
    shared: bool = False,
    names_act: bool = False,
    needs: bool = False,
    also: tuple[str, ...] = (),
) -> None:
    with_by = forms if prose or any("by" in f.labels for f in forms) else (*forms, _BY)
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
        )
    )


# --- Arrivals and departures
_G = "Arrivals and departures"
_act(
    _G,
    "received",
    "receive",
    _to("from", "person"),
    _free("for", about="what for"),
    _flag("on loan"),
    *_ARRIVAL,
    about="came in, from its owner or for good",
)
_act(
    _G,
    "bought",
    "buy",
    _free("from"),
    _MONEY,
    _FOR_MONEY,
    _bare(
        "quantity",
        "volume",
        "mass",
        "length",
        "number",
        words=(
            "bag",
            "bags",
            "roll",
            "rolls",
            "bottle",
            "bottles",
            "box",
            "boxes",
            "tub",
            "tubs",
            "sheet",
            "sheets",
            "piece",
            "pieces",
            "seeds",
            "plants",
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
    _free("from"),
    _flag("with permit"),
    *_ARRIVAL,
    about="dug from ground, with permission",
)
_act(
    _G,
    "sown",
    "sow",
    _bare("quantity", "number", words=("seeds",), whole=True),
    _free("from"),
    _INTO,
    _MIX,
    _flag("stratified"),
)
_act(
    _G,
    "struck",
    "strike",
    _bare("quantity", "number", words=("cuttings",), whole=True),
    _to("from", "tree"),
    _INTO,
    _MIX,
    _words("way", "hardwood", "semi-ripe", "softwood"),
    _HORMONE,
    about="a cutting",
)
_act(
    _G,
    "grafted",
    "graft",
    _to("from", "tree"),
    _words("way", "approach", "thread", "cleft", "side", "veneer", "whip", "bud", "root"),
    _PART,
    _flag("taped", "sealed"),
    about="the subject is the stock",
)
_act(
    _G,
    "layered",
    "layer",
    _words("way", "ring", "tourniquet", "ground"),
    _PART,
    _bare("ring", "length"),
    _MOSS,
    _HORMONE,
    about="an air or ground layer begun",
    also=("air-layered", "air-layer"),
)
_act(
    _G,
    "separated",
    "separate",
    _PART,
    Form("as", ("as",), words=ANY_WORDS, about="the new tree's handle; it inherits kind and owner"),
    about="a layer or graft cut free",
)
_act(
    _G,
    "sold",
    "sell",
    _to("to", "person"),
    _MONEY,
    _FOR_MONEY,
    _flag("stays", "stays here", about="its owner is new, it stays in care"),
    on=("tree", "pot", "material"),
    shared=True,
)
_act(_G, "lent", "lend", _to("to", "person"), _date("until"))
_act(_G, "returned", "return", _to("to", "person"), about="went home to its owner")
_act(_G, "died", "die", _free("of"))
_act(_G, "lost", "lose", _words("how", "stolen", "missing", part=False))

# --- Branch and leaf work
_G = "Branch and leaf work"
_act(
    _G,
    "pruned",
    "prune",
    _words(
        "how",
        "hard",
        "light",
        "structural",
        "roots aside",
        "to old wood",
        "for light",
        "suckers",
        "water shoots",
        "dead twigs",
        *_EXTENT,
    ),
    _BACK_TO,
    _PART,
    _SHARE_OFF,
    about="hard, when it goes into old wood or takes a third and more",
)
_act(
    _G,
    "trimmed",
    "trim",
    _words("how", "light", "outline", "low", "top", "long shoots", "new growth", *_EXTENT),
    _BACK_TO,
    _PART,
)
_act(
    _G,
    "pinched",
    "pinch",
    _words("how", "tips", "candles", "new growth", *_EXTENT),
    _BACK_TO,
    _PART,
)
_act(
    _G,
    "decandled",
    "decandle",
    _words("how", *_EXTENT),
    _measure(("stubs", "stub"), "length", part=True),
    _PART,
    about="this year's candles off (two-flush pines)",
)
_act(
    _G,
    "plucked",
    "pluck",
    _words("how", "old needles", "needles", *_EXTENT),
    _measure("leaving", "number", words=("pair", "pairs", "needles"), whole=True, part=True),
    _PART,
    also=("needle-plucked", "needle-pluck"),
)
_act(
    _G,
    "defoliated",
    "defoliate",
    _words("how", "full", "partial", "half of each leaf", "large leaves", *_EXTENT),
    _measure("off", "share", "fraction", part=True, limits=_PERCENT),
    _PART,
    also=("leaf-pruned", "leaf-prune"),
)
_act(
    _G,
    "disbudded",
    "disbud",
    _words("how", *_EXTENT),
    _measure("leaving", "number", words=("flowers", "buds"), whole=True, part=True),
    _PART,
    about="flower buds off before they open",
)
_act(
    _G,
    "deadheaded",
    "deadhead",
    _words("how", "with the ovary", "seed pods", *_EXTENT),
    _PART,
    about="spent flowers and their seed off",
)
_act(
    _G,
    "rubbed",
    "rub",
    _words("how", "trunk buds", "buds", *_EXTENT),
    _PART,
    about="buds off trunk or wood",
)
_act(
    _G,
    "wired",
    "wire",
    _WIRE,
    _words("how", "all", "whole tree", "primary branches", "secondary branches", "fine branches"),
    _PART,
)
_act(_G, "unwired", "unwire", _words("how", "partly", "all"), _PART)
_act(
    _G,
    "guyed",
    "guy",
    Form("guy", (), ("length",), words=_METALS, part=True, about="thickness, metal, part"),
    _free("anchored to", "to"),
    _PART,
)
_act(_G, "unguyed", "unguy", _words("how", "partly", "all"), _PART)
_act(
    _G,
    "carved",
    "carve",
    _words("how", "by hand", "with power tools", "jin", "shari", "hollow"),
    _free("with"),
    _PART,
)
_act(
    _G,
    "treated-deadwood",
    "treat-deadwood",
    _words("with", "lime sulphur", "hardener", "oil"),
    _measure("diluted", "ratio"),
    _PART,
)
_act(
    _G,
    "thinned",
    "thin",
    _words("how", "shoots", "branches", "needles", "flower buds", "fruit", *_EXTENT),
    _measure(
        "leaving", "number", words=("shoots", "fruit", "branches", "pairs"), whole=True, part=True
    ),
    _PART,
)
_act(_G, "sealed", "seal", _free("with"), _PART)
_act(_G, "notched", "notch", _words("where", "above bud", "below bud"), _PART)
_act(
    _G,
    "bent",
    "bend",
    _words("how", "heavy", "light"),
    _bare("down", "length", "angle", words=("down", "up", "left", "right"), part=True),
    _free("with"),
    _PART,
)
_act(_G, "wrapped", "wrap", _words("with", "raffia", "wet raffia", "tape"), _PART)
_act(_G, "unwrapped", "unwrap", _words("how", "partly", "all"), _PART)
_act(
    _G,
    "refronted",
    "refront",
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
    *_POTTING,
    *_OFF,
    *_ROOT_WAYS,
    _flag("no root work"),
    _measure("raised", "length"),
    _measure("turned", "angle"),
)
_act(
    _G,
    "potted-on",
    "pot-on",
    *_POTTING,
    *_OFF,
    *_ROOT_WAYS,
    _flag("loosened"),
    about="into a larger pot, roots loosened; the first pot too",
    also=("potted", "potted-up", "pot-up", "pricked-out", "prick-out"),
)
_act(_G, "slipped", "slip", *_POTTING, about="moved up without root work")
_act(_G, "root-pruned", "root-prune", *_OFF, _PART)
_act(
    _G,
    "opened",
    "open",
    _words("what", "surface", "hard surface", "underside", part=False),
    _bare("depth", "length"),
    _WEDGES,
    _free("with"),
    about="the surface raked with a stick",
)
_act(
    _G,
    "top-dressed",
    "top-dress",
    _MIX,
    _free("with"),
    _bare("quantity", "volume", "length"),
    _MOSS,
)
_act(
    _G,
    "tied",
    "tie",
    Form(
        "tied",
        (),
        ("length",),
        words=_METALS,
        several=True,
        about="anchor ties: thickness x how many",
    ),
)
_act(_G, "untied", "untie", _words("how", "partly", "all", part=False))

# --- Keep
_G = "Keep"
_act(
    _G,
    "watered",
    "water",
    _bare("quantity", "volume"),
    _words(
        "how",
        "well",
        "light",
        "twice",
        "by hand",
        "overhead",
        "from below",
        "morning",
        "evening",
        part=False,
    ),
    _free("with"),
    on=_TREE_OR_PLACE,
)
_act(
    _G,
    "misted",
    "mist",
    _words("how", "twice", "morning", "evening", part=False),
    _PART,
    on=_TREE_OR_PLACE,
    about="water on the leaves",
)
_act(
    _G,
    "soaked",
    "soak",
    _bare("quantity", "volume", "number", words=("cans", "can")),
    _measure("for", "duration"),
)
_act(_G, "flushed", "flush", _bare("quantity", "volume", "number", words=("cans", "can")))
_act(
    _G,
    "fed",
    "feed",
    _bare("npk", "npk"),
    _bare("strength", "rate", "share", "concentration", words=("strength",)),
    _bare("quantity", "volume", "mass", "number", words=("cakes", "cake")),
    _words(
        "how",
        "half strength",
        "full strength",
        "liquid",
        "solid",
        "organic",
        "foliar",
        "slow release",
        part=False,
    ),
    Form("with", ("with",), refers=("material",), several=True),
    Form("with", refers=("material",), several=True, about="with or without `with`"),
    also=("fertilised", "fertilise", "fertilized", "fertilize"),
)
_act(
    _G,
    "moved",
    "move",
    Form("to", ("to", "into"), refers=("place",)),
    Form("to", refers=("place",), about="the place, with or without `to`"),
    _to("from", "place"),
    needs=True,
)
_act(
    _G,
    "turned",
    "turn",
    _bare("angle", "angle"),
    about="on the bench, towards the light",
    also=("rotated", "rotate"),
)
_act(
    _G,
    "shaded",
    "shade",
    _bare("share", "share", limits=_PERCENT),
    _words("with", "net", "fleece", part=False),
    on=_TREE_OR_PLACE,
)
_act(_G, "unshaded", "unshade", on=_TREE_OR_PLACE)
_act(
    _G,
    "planted-out",
    "plant-out",
    Form("to", ("in", "at", "to", "into"), refers=("place",)),
    Form("to", refers=("place",)),
    _flag("on a tile"),
    about="into open ground, to grow",
)
_act(
    _G,
    "protected",
    "protect",
    _free("with"),
    _free("against"),
    _words("how", "fleece", "mulch", "pot wrapped", "net", "windbreak", part=False),
    on=_TREE_OR_PLACE,
)
_act(_G, "unprotected", "unprotect", on=_TREE_OR_PLACE)
_act(_G, "weeded", "weed", on=_TREE_OR_PLACE)
_act(
    _G,
    "cleaned",
    "clean",
    _words(
        "what",
        "trunk",
        "bark",
        "deadwood",
        "moss off",
        "algae off",
        "pot",
        "pots",
        "benches",
        "dead leaves",
        "fallen leaves",
        "foliage",
        "glass",
        part=False,
    ),
    on=("tree", "place", "pot"),
)
_act(
    _G,
    "treated",
    "treat",
    Form("product", ("with",), words=ANY_WORDS, about="the product"),
    _free("number", about="authorisation number"),
    _measure("dose", "rate", "volume", "mass", "share", "ratio"),
    _bare("quantity", "volume", "mass"),
    _measure("area", "area"),
    _free("against", about="the target"),
    Form("operator", ("by",), refers=("person",), several=True),
    Form("at", ("at",), reader="time", about="the time of day"),
    _measure("re-entry", "duration", about="as the label says"),
    _measure("wind", "speed"),
    _words("how", "soil drench", "dip", "painted on", "winter wash", part=False),
    on=_TREE_OR_PLACE,
    about="pest or disease: the label and local law decide",
    also=("sprayed", "spray"),
)
_act(
    _G,
    "quarantined",
    "quarantine",
    Form("to", ("in", "at", "to"), refers=("place",)),
    Form("to", refers=("place",)),
    _date("until"),
    _free("for"),
)
_act(_G, "released", "release", about="from quarantine")

# --- Watch
_G = "Watch"
_act(
    _G,
    "checked",
    "check",
    _words(
        "what",
        "wire",
        "ties",
        "guys",
        "graft",
        "layer",
        "roots",
        "drainage",
        "pests",
        "wounds",
        "protection",
        "moss",
        "buds",
        "strength",
        "soil",
        "water",
        "mesh",
        "pot",
        "leaves",
        "needles",
        "deadwood",
        "raffia",
        "fruit",
    ),
    _words(
        "finding",
        "fine",
        "biting",
        "loose",
        "tight",
        "taken",
        "rooted",
        "not yet",
        "dry",
        "wet",
        "frozen",
        "clean",
        "healed",
        "swelling",
        "broken",
        "alive",
        "dead",
        "none",
    ),
    Form("again", ("again in", "again"), ("duration",), date=True),
    _PART,
    on=_TREE_OR_PLACE,
    about="settles the check that was asked, and sets the next",
)
_act(_G, "noted", "note", prose=True, on=("tree", "place", "pot", "person", "material", "mix"))
_act(
    _G,
    "private",
    "private",
    prose=True,
    on=("tree", "place", "pot", "person", "material", "mix"),
    about="for the keeper's eyes only",
)
_act(
    _G,
    "measured",
    "measure",
    _measure("trunk", "length"),
    _measure("height", "length"),
    _measure("spread", "length", "size"),
    _measure("nebari", "length", about="root flare, across"),
    _measure("girth", "length"),
    _measure("root ball", "size"),
    _measure(("pH", "water pH"), "number", limits=(0, 14)),
    _measure(("hardness", "water hardness"), "hardness"),
    _measure(("conductivity", "water conductivity"), "conductivity"),
    on=_TREE_OR_PLACE,
    needs=True,
)
_act(
    _G,
    "staged",
    "stage",
    _bare("stage", "number", part=True, about="BBCH growth stage", limits=(0, 99), whole=True),
    needs=True,
)
_act(
    _G,
    "germinated",
    "germinate",
    _bare("quantity", "number", words=("seeds", "seedlings"), whole=True),
)
_act(
    _G,
    "bloomed",
    "bloom",
    _words("how", "first", "full", "over", "sparse", "well", "none"),
    _bare("flowers", "number", words=("flowers",), whole=True),
    _PART,
)
_act(
    _G,
    "fruited",
    "fruit",
    _words("how", "set", "ripe", "sparse", "well", "none"),
    _bare("quantity", "number", words=("fruit",), whole=True),
    _PART,
)
_act(
    _G,
    "vigour",
    "vigour",
    Form("zone", reader="zone", several=True, about="how a zone, or the whole tree, grows"),
    needs=True,
    also=("vigor",),
)
_act(
    _G,
    "drained",
    "drain",
    _bare("time", "duration", about="for a can of water to pass"),
    needs=True,
)
_act(
    _G,
    "photographed",
    "photograph",
    Form("file", words=ANY_WORDS, about="a picture's file"),
    needs=True,
    also=("photo",),
)
_act(
    _G,
    "shown",
    "show",
    _free("at", about="the exhibition"),
    Form("award", ("award",), words=ANY_WORDS),
)
_act(_G, "valued", "value", _MONEY, on=("tree", "pot"), needs=True)

# --- Work for others
_G = "Work for others"
_act(
    _G,
    "agreed",
    "agree",
    _MONEY,
    _measure("rate", "money rate", "money"),
    _date("by", "wanted", about="when it is wanted back"),
    _free("for", about="what the price is for"),
    on=("tree", "person"),
    shared=True,
)
_act(
    _G,
    "worked",
    "work",
    _bare("time", "duration"),
    _free("on", "at", about="what at"),
    shared=True,
    needs=True,
)
_act(
    _G,
    "used",
    "use",
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
_act(_G, "ready", "ready", about="to go home")
_act(
    _G, "billed", "bill", _MONEY, _free("number"), _free("for"), on=("tree", "person"), shared=True
)
_act(
    _G,
    "paid",
    "pay",
    _MONEY,
    _words("how", "cash", "by transfer", "by card", part=False),
    _free("number"),
    on=("tree", "person"),
    shared=True,
    needs=True,
)
_act(
    _G,
    "priced",
    "price",
    _MONEY,
    on=("material", "pot"),
    about="what it costs from now on",
    needs=True,
)

# --- Plans
_G = "Plans"
_LATER = (_date("to", about="when"), _measure("in", "duration", about="counted from the page"))
_act(_G, "planned", "plan", *_LATER, names_act=True)
_act(_G, "skipped", "skip", names_act=True)
_act(_G, "put-off", "put-off", *_LATER, names_act=True)
_act(
    _G,
    "corrected",
    "correct",
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
    """Return the acts by each of their words: past, bare, and what else they are called."""
    return {word: act for act in acts for word in (*act.also, act.bare, act.word)}
