"""Tells whether a text says what was seen of a tree: a mark, a wound, a pest, how leaves look.

Every word is of one of the classes that stand here: how many, of what size and colour, what it is,
where on the tree, and how it looks. No work of ours makes any of it, so that nothing that an act
did can be meant; what may be how much an act took or left is of none of them.
"""

from __future__ import annotations

import re
from collections.abc import Container
from functools import lru_cache

from backbud_grammar.ways_compiled import compiled_way

_NUMBER = r"\d{1,3}(?:[.,]\d+)?(?:-\d{1,3}(?:[.,]\d+)?)?(?: \d/\d)?|\d/\d{1,2}"
_COUNT = (
    r"(?:(?:about|abt|around|ca\.?|at least|over|some) )?"
    r"(?:\d{1,3}(?:-\d{1,3})?(?: or so| odd|ish|\+)?|one|two|three|four|five|six|a|a few|several|a couple of)"
)
_LENGTH = rf"(?:(?:about|abt|around|ca\.?|now|only) )?(?:{_NUMBER}) (?:mm|cm|inch|m)"
_LOOKS = (
    r"(?:(?:small|tiny|big|large|old|new|fresh|faint|light|slight|deep|shallow|bad|fine|short|long|soft|hard|thick|thin|live"
    r"|white|pale|yellow|orange|brown|black|grey|gray|green|red|pink|purple|silver|dark|clean|round|woolly|sticky|hairline) )*"
)
# What is found, and no work takes, gives or leaves.
_FOUND = (
    r"(?:(?:wire )?(?:marks?|bites?|rings?)|scars?|cracks?|splits?|scuffs?|bruises?|spots?|blotch(?:es)?|lesions?|cankers?|blisters?"
    r"|webs?|cocoons?|mushrooms?|toadstools?|puffballs?|sooty mould|honeydew|sawdust|frass|mould|lichen|sap (?:beads?|drops?|runs?)"
    r"|aphids?|greenfly|blackfly|whitefly|(?:spider )?mites?|thrips|scale(?: insects?)?|mealy ?bugs?|adelgids?|caterpillars?|sawfly(?: larvae)?"
    r"|grubs?|weevils?|beetles?|leaf ?miners?|leafhoppers?|lace ?bugs?|slugs?|snails?|worms?|ants?|wasps?|bees?|galls?)"
)
# What has a size of its own. Roots and the like are only of an act that says nothing of them.
_MEASURED = (
    r"(?P<measured>(?:cut )?(?:wounds?|scars?|marks?)|callus|cracks?|splits?|wire (?:marks?|bites?)|bites?|hollows?|gaps?|swelling|bulge|burr|live (?:vein|line)"
    r"|(?:new |white )?roots?|rootlets|feeders)"
)
_THING = r"(?:leaf|leaves|needles?|buds?|shoots?|tips?|twigs?|candles?|petals?|flowers?|bark|moss|foliage|sheaths?|branch(?:es)?)"
# How such a thing is found. Not `off`, `broken`, `cut` or `dead`: that may be what was done, or an end.
_STATE = (
    r"(?:yellow(?:ed|ing)?|brown(?:ed|ing)?|black(?:ed|ened)?|blackened|bleached|bronzed?|pale|red(?:dened)?|scorch(?:ed|ing)|burnt|burned|burning|singed|frosted|frost-nipped"
    r"|nipped by frost|limp|wilted|wilting|droopy|drooping|flagging|curled|curling|cupped|crinkled|spotted|speckled|mottled|streaked|stippled|chewed"
    r"|nibbled|eaten|gnawed|torn|cracked|bruised|chafed|scuffed|sticky|sooty|mouldy|mildewed|rusty|peeling|flaking|dry|crisp|soft|mushy|slimy)"
)
_PLACE = (
    r"(?:left|right|front|back|apex|top|crown|leader|trunk|base|low|lower|upper|high|inner|outer|inside|outside|middle|first|second|third|fourth|side|sides"
    r"|branch|branches|shoots?|twigs?|leaf|leaves|needles?|bark|wood|forks?|bends?|tips?|edges?|soil|surface|moss|nebari|roots?|places?|spots?|underside|undersides|paper"
    r"|shoulder|north|south|east|west|[nsew]|\d{1,2})"
)
_WHERE = rf"(?: (?:on|at|in|under|near|behind|round|around|along|inside|below|above) (?:the |its |each |both |all )*(?:{_PLACE}(?: |$))+(?<! )| (?:in|at) (?:one|two|three|\d|a few) places?| all over| everywhere| (?:low down|up top|inside|underneath|below))"
_IS = r"(?: (?:is|are|was|were|all|now|still|a bit|a little|slightly|quite|very|rather))*"
_DIMENSION = r"(?: (?:long|wide|thick|deep|high|across|round|big|short|in all|now))*"
_SEEN = (
    rf"{_COUNT} {_LOOKS}(?P<found>{_FOUND}){_WHERE}*(?: (?:seen|found|healing|healed|closing))?"
    rf"|(?:{_COUNT} )?{_LOOKS}{_THING}{_WHERE}*{_IS} {_STATE}{_WHERE}*"
    rf"|{_LOOKS}{_MEASURED}{_WHERE}?{_IS} {_LENGTH}{_DIMENSION}{_WHERE}*"
    rf"|(?:(?:the|biggest|largest|big|large|clean) )*(?P<cut>cuts?) {_LENGTH} (?:across|wide){_WHERE}*"
    rf"|{_LOOKS}(?:leaf|leaves|shoots?|candles?|buds?|new growth|growth|tips?) (?:(?:are|is|now|out|open|up|already|about) )*{_LENGTH}(?: (?:out|long|open|up))*"
    rf"|{_LENGTH}{_DIMENSION} {_LOOKS}(?:of )?(?:wound|scar|callus|crack|split|(?:wire )?mark|hollow|new growth|honeydew)s?{_WHERE}*"
)


# How a thing looks there, or at that hour: each word by itself, in any order that a hand has them.
_LOOKED_AT = frozenset(
    [
        "leaf",
        "leaves",
        "needles",
        "buds",
        "shoots",
        "tips",
        "bark",
        "moss",
        "foliage",
        "crown",
        "canopy",
        "soil",
        "ball",
        "rootball",
        "roots",
        "surface",
        "edges",
        "undersides",
        "flowers",
        "petals",
        "fruit",
        "growth",
        "trunk",
        "nebari",
    ]
)
_LOOKS_SO = frozenset(
    [
        "hollow",
        "thin",
        "thinner",
        "sparse",
        "dense",
        "weak",
        "weaker",
        "pale",
        "paler",
        "yellow",
        "yellowish",
        "yellowing",
        "brown",
        "browning",
        "bronze",
        "red",
        "reddish",
        "green",
        "greener",
        "dull",
        "glossy",
        "dry",
        "drying",
        "dusty",
        "wet",
        "damp",
        "sodden",
        "soggy",
        "boggy",
        "droopy",
        "drooping",
        "limp",
        "floppy",
        "wilted",
        "wilting",
        "flagging",
        "crisp",
        "scorched",
        "burnt",
        "frosted",
        "frozen",
        "curled",
        "curling",
        "sticky",
        "leggy",
        "slow",
        "poor",
        "heavy",
        "light",
        "soft",
        "firm",
        "hard",
    ]
)
_SAID_WITH = frozenset(
    [
        "still",
        "now",
        "already",
        "again",
        "quite",
        "very",
        "rather",
        "really",
        "mostly",
        "mainly",
        "all",
        "both",
        "some",
        "most",
        "a",
        "bit",
        "little",
        "the",
        "its",
        "side",
        "sides",
        "low",
        "lower",
        "upper",
        "top",
        "inner",
        "outer",
        "inside",
        "outside",
        "middle",
        "underneath",
        "everywhere",
        "places",
        "in",
        "on",
        "at",
        "by",
        "over",
        "under",
        "as",
        "well",
        "since",
        "noon",
        "midday",
        "morning",
        "evening",
        "and",
        "+",
        "&",
    ]
)
_SIDE = re.compile(
    r"(?:left|right|north|south|east|west|front|back|[lrnsew]) side|(?:left|right) \d{1,2}|apex",
    re.I,
)
_HOUR = re.compile(
    r"\b(?:at|by|from|since|before) \d{1,2}(?:[.:]\d\d)? ?(?:am|pm|h|o'clock)?(?![\w.,])", re.I
)
_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*|\S")


@lru_cache(2048)
def looks_so(text: str) -> bool:
    """Whether a text says how leaves, bark or soil look, where and at what hour, and no more.

    >>> looks_so("moss drying by 11"), looks_so("still hollow left side"), looks_so("moss off")
    (True, False, False)
    """
    plain = _HOUR.sub(" ", text)
    words = [one.casefold() for one in _WORD.findall(_SIDE.sub(" ", plain))]
    return (
        any(one in _LOOKED_AT for one in words)
        and any(one in _LOOKS_SO for one in words)
        and all(one in _LOOKED_AT or one in _LOOKS_SO or one in _SAID_WITH for one in words)
    )


# The weather of that day, in figures.
_DEGREES = r"(?:[-+−]?\d{1,3}(?:[.,]\d)? ?(?:°? ?[CF]|°|degrees(?: [CF])?)(?![^\W\d])|(?:low|mid|high|upper) (?:teens|\d0s)|teens)"
_WHEN = (
    r"(?: (?:tonight|overnight|at night|last night|all night|by day|today|now|already|outside|out|inside|in there|in here|in (?:the )?(?:shade|sun|tunnel|house)"
    r"|(?:by|at|before) (?:\d{1,2}(?: ?[ap]m)?|noon|midday|lunch|breakfast)|forecast|coming|announced|expected|due|all (?:day|week|night)|this week|for the week|nights?|days?|on (?:the )?(?:roof|terrace|balcony|bench|rail)))*"
)
_OF_WEATHER = (
    rf"(?:(?:(?:lows?|highs?|min|max|frosts?|nights?|days?|mornings?|air|shade|wind chill) )?(?:(?:of|at|about|abt|around|down to|up to|nearly|still) )*{_DEGREES}{_WHEN})"
    rf"|(?:lows?|highs?|min|max|frosts?|nights) (?:(?:of|at|about|abt|around|down to|up to|still|all|above|below|over|under|>|<) )*[-−]?\d{{1,3}}{_WHEN}"
    r"|(?:(?:air )?humidity|humid\.?|RH|rel\.? humidity)(?: (?:of|is|at|now|only))* \d{1,3} ?%"
    rf"|(?:winds?|gusts?)(?: (?:of|at|up to))? \d{{1,3}}(?:-\d{{1,3}})? ?(?:mph|km/h|kmh|m/s|knots)?{_WHEN}"
)

# And how the sky was beside it: `18 C + clouds`.
_SKY = (
    r"(?:clouds?|cloudy|wind|windy|sun|sunny|dry|rain|dull|overcast|fog|humid|clear|still|calm|wet)"
)
_WITH_SKY = rf"(?:{_SKY} ?(?:\+|and|&) ?)?(?:{_OF_WEATHER})(?: ?(?:\+|and|&) ?{_SKY})*"


def is_weather(text: str) -> bool:
    """Whether a text tells the weather of the day in figures.

    >>> is_weather("4 C coming"), is_weather("lows 34 now"), is_weather("4 C water")
    (True, True, False)
    """
    return compiled_way(_WITH_SKY).fullmatch(text) is not None


@lru_cache(2048)
def _fits(text: str) -> re.Match[str] | None:
    return compiled_way(_SEEN).fullmatch(text)


def is_sighting(text: str, own: Container[str] = ()) -> bool:
    """Whether a text tells only what was seen of a tree, in words of the trade.

    `own`: the words of an act's other details: what is found, or has a size, is none of these.

    >>> is_sighting("2 bites on left 2"), is_sighting("wound 1.4 cm"), is_sighting("2 twigs off")
    (True, True, False)
    """
    found = _fits(text)
    if found is None:
        return False
    nouns = (found["found"] or found["measured"] or "").casefold().split()
    return all(word not in own for word in nouns)


def is_size_of_wound(text: str) -> bool:
    """Whether a text says how large a wound is that a cut left.

    >>> is_size_of_wound("wound 3 cm"), is_size_of_wound("cut 3 cm"), is_size_of_wound("3 galls")
    (True, False, False)
    """
    found = _fits(text)
    if found is None:
        return False
    measured = (found["measured"] or "").casefold()
    return bool(found["cut"]) or measured.endswith(("wound", "wounds", "scar", "scars"))
