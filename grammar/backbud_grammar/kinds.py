"""The table of cards: each kind of thing that exists, and the labels its card may carry."""

from __future__ import annotations

from backbud_grammar.acts.shared import PLANTS, TRAYS
from backbud_grammar.forms import ANY_WORDS, Form, KindForm

COVERS = (
    "open",
    "shade net",
    "cold frame",
    "tunnel",
    "unheated glass",
    "heated glass",
    "indoors",
)
POT_SHAPES = ("rectangle", "oval", "round", "hexagon", "drum")
STRENGTHS = ("weak", "fair", "strong")


def _text(label: str, about: str, *also: str) -> Form:
    return Form(label, (label, *also), prose=True, about=about)


def _measure(
    label: str,
    about: str,
    *sorts: str,
    also: tuple[str, ...] = (),
    negative: bool = False,
    whole: bool = False,
    limits: tuple[int, int] | None = None,
) -> Form:
    return Form(
        label,
        (label, *also),
        sorts,
        bound=True,
        negative=negative,
        about=about,
        whole=whole,
        limits=limits,
    )


def _list(label: str, about: str, of: str, *, negative: bool = False) -> Form:
    return Form(label, (label,), ("list",), bound=True, negative=negative, about=about, list_of=of)


def _ref(label: str, about: str, *kinds: str) -> Form:
    return Form(label, (label,), refers=kinds, about=about)


def _choice(
    label: str,
    about: str,
    words: tuple[str, ...],
    *sorts: str,
    limits: tuple[int, int] | None = None,
) -> Form:
    return Form(label, (label,), sorts, words=words, negative=True, about=about, limits=limits)


_SINCE = Form("since", ("since",), date=True, about="from when it was so")
_FORMERLY = Form("formerly", ("formerly",), words=ANY_WORDS, about="older handles, oldest first")
_NAME = _text("name", "what people call it")
_VALUE = _measure("value", "what it is worth", "money")
_NOTE = _text("note", "anything else, for the keeper", "notes")

KINDS: dict[str, KindForm] = {
    form.kind: form
    for form in (
        KindForm(
            "tree",
            (
                _text("kind", "by common or botanical name; cultivar in quotes", "species"),
                _NAME,
                _SINCE,
                _FORMERLY,
                _ref("owner", "whose it is, when not the keeper's", "person"),
                _ref("place", "where it stands", "place"),
                _ref("pot", "the pot it stands in", "pot"),
                _ref("mix", "the mix it stands in", "mix"),
                _measure("trunk", "thickness above the root flare", "length"),
                _measure("height", "above the soil", "length"),
                _measure("spread", "across the crown", "length", "size", also=("width",)),
                _measure("nebari", "root flare, across", "length"),
                _measure("girth", "round the trunk", "length"),
                _measure("root ball", "length x width x depth", "size"),
                _measure(
                    "wedges",
                    "how many sectors the root ball is reckoned in",
                    "number",
                    whole=True,
                    limits=(2, 24),
                ),
                _text("front", "how to know the front"),
                _text("style", "upright, cascade, group …"),
                _text("origin", "where it came from"),
                _text("passport", "plant passport or import number"),
                _choice("strength", "as it grows now", STRENGTHS),
                Form(
                    "count",
                    ("count",),
                    ("number",),
                    True,
                    words=(*PLANTS, *TRAYS),
                    whole=True,
                    limits=(1, 99_999),
                    about="how many, where one handle stands for a batch: 50 cuttings",
                ),
                _VALUE,
                Form(
                    "wanted",
                    ("wanted", "wanted by"),
                    date=True,
                    about="when its owner wants it back",
                ),
                _choice("public", "yes: it may be shown to anybody, under no name", ("yes", "no")),
                _NOTE,
            ),
            "a tree",
        ),
        KindForm(
            "place",
            (
                _NAME,
                _SINCE,
                _FORMERLY,
                _choice(
                    "cover", "what is over it", COVERS, "share", "temperature", limits=(0, 100)
                ),
                _ref("within", "the place it is part of", "place"),
                _text("town", "the nearest town"),
                Form(
                    "latitude",
                    ("latitude",),
                    ("number", "angle"),
                    True,
                    words=("N", "S"),
                    negative=True,
                    limits=(-90, 90),
                    about="degrees, north positive",
                ),
                Form(
                    "longitude",
                    ("longitude",),
                    ("number", "angle"),
                    True,
                    words=("E", "W"),
                    negative=True,
                    limits=(-180, 180),
                    about="degrees, east positive",
                ),
                _measure("elevation", "above the sea", "length", negative=True, also=("altitude",)),
                _list("low", "mean daily low of the twelve months", "temperature", negative=True),
                _list("high", "mean daily high of the twelve months", "temperature", negative=True),
                _list("rain", "mean rain of the twelve months", "length"),
                _measure(
                    "coldest", "the coldest night of about ten years", "temperature", negative=True
                ),
                _text("hardiness zone", "USDA zone of the place: 8b"),
                _text("weather", "a weather file in the journal's folder; one line for each file"),
                _NOTE,
            ),
            "a place where trees stand",
        ),
        KindForm(
            "pot",
            (
                _NAME,
                _SINCE,
                _FORMERLY,
                _choice("shape", "its outline", POT_SHAPES),
                _measure("inside", "length x width x depth, or across x depth", "size"),
                _measure("outside", "length x width x depth, or across x depth", "size"),
                _measure("taper", "how much narrower the floor is", "length", "share"),
                _measure("holes", "drainage holes", "number", whole=True),
                _measure("feet", "height of the feet", "length"),
                _text("colour", "glaze or clay", "color", "glaze"),
                _text("maker", "who made it, or its mark"),
                _ref("owner", "whose it is, when not the keeper's", "person"),
                _VALUE,
                _NOTE,
            ),
            "a pot",
        ),
        KindForm(
            "person",
            (
                _NAME,
                _SINCE,
                _FORMERLY,
                _text("contact", "how to reach them; for the keeper's eyes only"),
                _text("address", "street and house, as bills to them ask for"),
                _text("town", "where they live"),
                _ref("place", "the place their trees go home to", "place"),
                _text("experience", "beginner, some years …"),
                _measure("rate", "what an hour costs", "money rate", "money"),
                _choice(
                    "pages",
                    "yes: a folder of pages of their trees is made for them; as helper: one of all "
                    "works and trees, without money",
                    ("yes", "no", "as helper"),
                ),
                Form(
                    "consent",
                    ("consent",),
                    date=True,
                    about="since when, or from when to when, they agree that their trees with "
                    "`public yes` are shown to anybody",
                ),
                Form(
                    "forgotten",
                    ("forgotten",),
                    date=True,
                    about="since when they are a number wherever the law does not keep their name",
                ),
                _NOTE,
            ),
            "an owner, a customer, a helper",
        ),
        KindForm(
            "mix",
            (
                _NAME,
                _SINCE,
                _FORMERLY,
                Form("settles", ("settles",), ("share",), True, about="how much it settles"),
                _measure("pH", "acidity", "number", limits=(0, 14)),
                _NOTE,
                Form(
                    "ingredient",
                    (),
                    ("number", "fraction", "share"),
                    True,
                    free_label=True,
                    reader="ingredient",
                    about="one line an ingredient with its parts by volume",
                ),
            ),
            "a substrate mix",
        ),
        KindForm(
            "material",
            (
                _NAME,
                _SINCE,
                _FORMERLY,
                Form(
                    "sold in",
                    ("sold in",),
                    ("volume", "mass", "length", "number"),
                    True,
                    words=(
                        "bag of",
                        "bag",
                        "roll of",
                        "roll",
                        "bottle of",
                        "bottle",
                        "box of",
                        "box",
                        "tub of",
                        "tub",
                        "sheet of",
                        "sheet",
                        "pack of",
                        "pack",
                        "pieces",
                    ),
                    about="the unit of sale",
                ),
                _measure("price", "what one of them costs", "money"),
                _measure("label", "N-P-K as printed on it", "npk"),
                _measure("lasts", "how long a feed goes on: 5 weeks", "duration"),
                _choice("metal", "of a wire", ("aluminium", "Al", "copper", "Cu")),
                Form("density", ("density",), ("rate",), True, about="mass of a volume: 0.6 kg/L"),
                _NOTE,
            ),
            "something bought and used up",
        ),
        KindForm(
            "group",
            (
                _NAME,
                _SINCE,
                _FORMERLY,
                Form("trees", ("trees",), words=ANY_WORDS, about="their handles, with commas"),
                _NOTE,
            ),
            "trees that are often meant together",
        ),
        KindForm(
            "words",
            (
                Form(
                    "since",
                    ("since",),
                    date=True,
                    about="the day from which on the words below it are read so; may stand again "
                    "above words that came later",
                ),
                Form(
                    "past",
                    ("past",),
                    words=("yes", "no"),
                    about="`yes`: earlier pages are read so, too; `no`: they stay as they are, and "
                    "nothing more is said of it",
                ),
                _NOTE,
            ),
            "the keeper's own words",
        ),
    )
}

RESERVED_HANDLES = frozenset(KINDS) | {"all", "except", "each"}
