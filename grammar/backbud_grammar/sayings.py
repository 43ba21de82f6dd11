"""Turns of speech that begin with an act word and tell of no work: `soaked to the skin`."""

from __future__ import annotations

from collections.abc import Mapping

from backbud_grammar.act_words import ActWord
from backbud_grammar.ways_compiled import compiled_way

# By the act as its table has it, what stands behind the word where nothing was done to a tree.
_SAYINGS: Mapping[str, str] = {
    "soaked": (
        r"to the (?:skin|bone)|my |(?:him|her|my)self|in (?:memories|sun|gloom|tears|sweat|rain)"
        r"|the labels?|by (?:a |the )?(?:shower|storm)"
    ),
    "fed": r"up\b|(?:the )?(?:cat|dog|birds?|fish|hens|chickens|kids)\b",
    # `house-wall` is a place.
    "moved": r"(?:house|home|on|away|offices?|to tears)(?![\w-])",
    "lost": (
        r"(?:count|heart|hope|interest|track|patience|time|my|his|her|our"
        r"|the (?:label|tag|list|thread|plot))\b"
    ),
    "sold": r"(?:out|short|on the idea)\b",
    "shown": r"(?:to\b|off|up|round|around|the (?:door|way|ropes)|how)\b",
    "lifted": (
        r"(?:the |its )?(?:pots?|lid|cover|fleece|net|label|branch(?:es)?|moss)\b"
        r"|to (?:look|see|check|turn)\b|(?:my |our )?spirits?\b|up\b"
    ),
    "opened": (
        r"(?:the |up the )?(?:tunnel|greenhouse|glasshouse|vents?|doors?|windows?|shop|gate|box"
        r"|bag|parcel|eyes)\b"
        r"|(?:its |the )?(?:flowers?|buds?|leaves|pads|first)\b|up\b|out\b"
    ),
    "cleaned": (
        r"up (?:his|her|their|my|the) act|house\b|(?:out |up )?"
        r"(?:the )?(?:benches|bench|tunnel|greenhouse|glasshouse|shed|workshop|tools?"
        r"|scissors|secateurs|windows?|floor|paths?|gutters?)\b"
    ),
    "turned": (
        r"(?:out|up|into|down|bad|pro|tail"
        r"|(?:him|her|them) (?:away|down)|over a new leaf|a corner|turtle|heads|cold|warm|wet"
        r"|(?:to )?(?:all )?(?:yellow|gold|golden|orange|bronze|red|crimson|scarlet|pink|purple"
        r"|brown|green|black|white|grey|gray|pale|dull|colou?r|autumn)"
        r"|(?:on|off) the (?:tap|water|heater|heating|lights?|pump))\b"
    ),
    "watered": r"down\b|(?:the )?(?:lawn|garden|tomatoes|beans|veg|roses)\b",
    "protected": r"(?:species|tree|area|status|order|by (?:law|the))\b",
    "rubbed": (
        r"(?:it )?(?:in|out)\b"
        r"|(?:off )?(?:on (?:me|us|him|her|them)|(?:all )?the (?:paint|label|rust|dirt))\b"
    ),
    "shaded": r"my\b",
    "raised": r"(?:eyebrows|the question)\b",
    "carved": (
        r"up\b|(?:his |her |my )?(?:initials|names?)\b"
        r"|(?:the )?(?:roast|pumpkin|turkey|joint)\b"
    ),
    "potted-on": r"(?:history|biography|account|guide|summary|version|lecture|beauty|shrimps?)\b",
    "wired": r"in the\b|(?:up )?the (?:house|shed|tunnel|plug|fence)\b|\w+ (?:the )?money\b",
    "quoted": r"(?:in the|from|him|her|me)\b",
    "sealed": (
        r"(?:the |its |a )?(?:pots?|bag|lid|box|jar|deal|envelope|letter|parcel|floor|fence|roof)\b"
    ),
    "pruned": r"(?:the )?(?:roses?|hedges?|apple trees?|vines?)\b",
    "trimmed": r"(?:the )?(?:hedges?|lawn|edges|beard|hair)\b",
    "weeded": r"out\b|(?:the )?(?:garden|paths?|beds?|drive|gravel)\b",
    "planted-out": r"(?:the )?(?:beans|leeks|lettuces?|tomatoes)\b",
    "treated": (
        r"(?:myself|himself|herself|ourselves|us|me|him|her|the (?:fence|shed|benches|bench|boards)"
        r"|to (?:a|lunch|tea|cake)|with (?:respect|contempt|suspicion)"
        r"|(?:un)?fairly|badly|as|like)\b"
    ),
    "tied": r"(?:up|at home|(?:the )?(?:dog|boat|shoes?|laces))\b(?! with)",
    "bent": (
        r"(?:over backwards|double|spoon|out of shape|the rules"
        r"|(?:the )?(?:fork|nail|knife|blade|label))\b"
    ),
    "flushed": r"(?:with (?:success|pride|anger|wine)|the loo)\b",
    "thinned": r"(?:the )?(?:paint|soup|sauce|varnish)\b",
    "drained": r"(?:the )?(?:tank|butt|pond|battery|hose|me|pipes?)\b",
}
# Each of these says more things than one of a tree: words right behind it that nobody read may be
# what it is said of.
MANY_MEANINGS: tuple[ActWord, ...] = (
    "opened",
    "struck",
    "layered",
    "sown",
    "rooted",
    "counted",
    "lifted",
    "shown",
    "notched",
    "quarantined",
    "grafted",
    "slipped",
)


def saying_pattern(act: str) -> str:
    """What turns of speech of an act begin with, as a pattern; "" where it has none."""
    return _SAYINGS.get(act, "")


def saying(act: str, text: str) -> str:
    """The turn of speech that a text behind an act word begins with, or "".

    `act`: the past form of the act's row; `potted history` is `potted-on`.

    >>> saying("soaked", "to the skin, both of us"), saying("soaked", "20 min")
    ('to the skin', '')
    """
    pattern = _SAYINGS.get(act)
    found = compiled_way(pattern).match(text) if pattern else None
    return found[0].strip() if found is not None else ""
