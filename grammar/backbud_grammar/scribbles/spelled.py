"""Spells out what is written short at the bench: abbreviations, inches, hours, counts, sides.

Only what can be meant in one way stands here; what could be two things stays as it was written.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import lru_cache

from backbud_grammar.scribbles.plain import plain_words

# Each by its whole word, in any case. Nothing here is a handle or changes which act is meant.
_WORDS: Mapping[str, str] = {
    short: long
    for long, shorts in {
        "leaves": "lvs lfs leafs leafes",
        "layered": "airlayered air-layered",
        "layer": "airlayer air-layer",
        "greenhouse": "ghse grnhse",
        "house": "hse",
        "bench": "bnch",
        "top-dressed": "topdressed",
        "sphagnum": "mizugoke sphag",
        "shoots": "shts",
        "candles": "cndls",
        "feed": "fert fertilizer fertiliser",
        "pine": "pn",
        "leaf": "lf",
        "branch": "br brch brnch",
        "branches": "brs brchs",
        "roots": "rts",
        "buds": "bds",
        "flowers": "fl fls flrs flwrs",
        "needles": "ndls",
        "below": "btm underneath unten onder",
        "aphids": "luizen bladluizen läuse blattläuse",
        "mildew": "meeldauw mehltau",
        "spider mites": "spint spintmijt spinnmilben",
        "scale": "schildluis schildläuse",
        "mealybug": "wolluis wollläuse",
        "snails": "slakken schnecken",
        "caterpillars": "rupsen raupen",
        "with": "w w/ w. wi",
        "without": "w/o",
        "repotted": "rptd reptd",
        "lightly": "lite",
        "horticultural": "hort",
        "minutes": "minuts",
        "repot": "rpt",
        "bought": "bgt",
        "watered": "wtrd wtd",
        "pruned": "prnd",
        "moved": "mvd",
        "received": "rcvd rec'd recd recieved",
        "treated": "trtd",
        "sprayed": "sprd",
        "checked": "chkd ckd chk",
        "collected": "coll'd",
        "photographed": "phot'd photo'd photographd",
        "measured": "msrd",
        "against": "agst agnst",
        "aluminium": "aluminum alu alum",
        "lime sulphur": "lime-sulphur lime-sulfur",
        "sulphur": "sulfur",
        "again": "agn",
        "delivered": "dlvd delvd",
        "severed": "svrd",
        "balance": "bal",
        "paid": "pd",
        "this": "ths",
        "through": "thru",
        "tonight": "tonite",
        "night": "nite nt",
        "nights": "nts nites",
        "forecast": "fcst fc",
        "weeks": "wks",
        "week": "wk",
        "years": "yrs",
        "year": "yr",
        "spring": "spr",
        "tomorrow": "tmrw tmrow tom'w",
        "temperature": "temp",
        "average": "avg",
        "pair": "pr",
        "pairs": "prs",
        "left": "lh lhs",
        "right": "rh rhs",
        "medium": "med",
        "half strength": "half-strength",
        "pieces": "pcs pc",
        "each": "ea",
        "ponderosa": "pondo",
        "seedlings": "sdlgs",
        "cuttings": "ctgs cttgs",
        "temporarily": "temp'ly",
        "approximately": "approx approx.",
        "second": "2nd",
        "first": "1st",
        "third": "3rd",
    }.items()
    for short in shorts.split()
}
# A way to write something short, what it is in full, and the words or signs of which one stands in
# every text of ASCII that it fits.
_ROWS: tuple[tuple[str, str, str], ...] = (
    # Inches and feet stand right behind their number, or before what is measured.
    (r"(\d)\s?(?:\"|”|″)", r"\1 inch ", '"'),
    (r"(?<![\w.,])\.(\d)", r"0.\1", "."),
    (r"\bhalf (?:an )?inch\b", "1/2 inch", "inch"),
    (
        r"(\d/\d) ins?\b(?=\s+(?:ring|this|last|now|long|average|avg|high|stubs?|left)\b)",
        r"\1 inch",
        "in ins",
    ),
    (
        r"(\d) ins?\b(?=\s+(?:ring|stubs?|off|wounds?|scars?|cuts?|hollow|callus)\b)",
        r"\1 inch",
        "in ins",
    ),
    (r"(\d)(?:in|ins)\b(?!-)", r"\1 inch", "in ins"),
    (
        r"(\d/\d|\d\.\d+) ins?\b(?=$|,| (?:off|from|below|all|of)\b)",
        r"\1 inch",
        "in ins",
    ),
    (
        r"(\d) ins?\b(?= (?:all (?:round|over|along)|each side|shorter|of (?:the )?(?:pot|rim|edge))\b)",
        r"\1 inch",
        "in ins",
    ),
    (
        r"(\d) ins?\b(?= (?:from|liners?|(?:(?:pond|training|grow|growing|plastic|clay|nursery|square|round|wooden) )*"
        r"(?:pots?|modules?|box|boxes|trays?|pans?|baskets?|bowls?|cans?|tubs?))\b)",
        r"\1 inch",
        "in ins",
    ),
    (r"(\b(?:pot|box|tray|pan|basket|bowl) \d+(?:[./]\d+)?) ins?(?=$|,)", r"\1 inch", "in ins"),
    (
        r"(\b(?:raked|teased|combed|shaved|washed|cut|sawn)(?: (?:out|off|back|in))? \d+(?:[./]\d+)?) ins?\b(?=$|,)",
        r"\1 inch",
        "in ins",
    ),
    (r"(\b(?:back to|down to|by) \d+) ins?\b(?=$|,)", r"\1 inch", "in ins"),
    # At the end of a piece, behind what is so long or wide: `stub 2 in`, `potted on 3 in`.
    (
        r"(\b(?:ring(?:ed)?|set at|stubs?|liners?|potted (?:on|up)|spread|height|candles?|needles?|shoots?|(?:candle|needle|shoot) length|tips?|whips?|wounds?|scars?|callus|hollow"
        r"|growth|extensions?) (?:\d+ )?\d+(?:[./]\d+)?) ins?(?=$|,)",
        r"\1 inch",
        "in ins",
    ),
    (
        r"(\b(?:per|every|to the|to each) \d+(?:[./]\d+)?) ins?\b(?=$|,| (?:of|rim|pot)\b)",
        r"\1 inch",
        "in ins",
    ),
    (r"\bhalf a dozen\b", "6", "dozen"),
    (r"\b(?:a|one) dozen\b", "12", "dozen"),
    (r"\btwo dozen\b", "24", "dozen"),
    (r"\b(in|for|after|every|again|next|another) (\d{1,2})\s?d\b", r"\1 \2 days", "d"),
    (r"\bfls? buds?\b", "flower buds", "fl fls"),
    (
        r"(\b(?:candles?|needles?|shoots?|growth|height|spread) \d+(?:[./]\d+)?) ins?\b(?= (?:top|apex|low|inside|at|on|round|across|wide|long|avg|average|now)\b)",
        r"\1 inch",
        "in ins",
    ),
    (r"\bL side\b", "left side", "l"),
    (r"\bR side\b", "right side", "r"),
    (
        r"(\d) ins?\b(?=\s+(?:on|up|across|high|off|below|deep|long|wide|thick|left|stays)\b)",
        r"\1 inch",
        "in ins",
    ),
    (r"(\d)\s?(?:ft|feet)\b\.?", r"\1 foot", "ft feet"),
    # Hours, minutes, weeks.
    (r"\b(\d+)\s?(?:hrs?|h)\s?(\d\d)\b(?:\s?mins?)?", r"\1 h \2", "hr hrs h"),
    (r"(\d)\s?(?:hrs?|hours?|h)\b\.?(?! \d\d\b)", r"\1 h", "hr hrs hour hours h"),
    (r"(\d)\s?mins?\b\.?", r"\1 min", "min mins"),
    (r"(\d)\s?secs?\b\.?", r"\1 s", "sec secs"),
    (r"(\d)\s?(?:wks?)\b\.?", r"\1 weeks", "wk wks"),
    (r"(\d)\s?d\b(?![.:/])", r"\1 days", "d"),
    (r"(\d)\s?(?:mths?|mos?)\b\.?", r"\1 months", "mth mths mo mos"),
    (r"(\d)\s?(?:yrs?)\b\.?", r"\1 years", "yr yrs"),
    (r"\b(?:a |an )?half an? hour\b", "30 min", "hour"),
    (r"\ban hour\b", "1 h", "hour"),
    (r"\ball day\b", "all day", "day"),
    # A share, a rate, a dose.
    (r"(\d)\s?(?:pct|percent|per cent)\b\.?", r"\1 %", "pct percent per"),
    (r"(\d)(%)", r"\1 \2", "%"),
    (
        r"(\d)\s?(ml|g|mg)(?:\s?/\s?|\s+(?:per|a|to the|to a)\s+)(?:l|litre|liter)\b",
        r"\1 \2/L",
        "l litre liter",
    ),
    (r"\bg/l\b", "g/L", "l"),
    (r"\bml/l\b", "mL/L", "l"),
    (r"(\d)\s?(?:gm|gms|grams?)\b", r"\1 g", "gm gms gram grams"),
    (r"(\d)\s?(?:kgs|kilos?)\b", r"\1 kg", "kgs kilo kilos"),
    (
        r"(\d)\s?(?:lt|ltr|ltrs|litres?|liters?)\b\.?",
        r"\1 L",
        "lt ltr ltrs litre litres liter liters",
    ),
    (r"\bhalf[- ]str(?:ength|\.)?(?!\w)", "half strength", "str strength"),
    (r"\bquarter[- ]str(?:ength|\.)?(?!\w)", "quarter strength", "str strength"),
    (r"\bfull[- ]str(?:ength|\.)?(?!\w)", "full strength", "str strength"),
    # Money whose sign says which.
    (r"€\s?(\d+(?:[.,]\d+)?)", r"\1 EUR", "€"),
    (r"(\d+(?:[.,]\d+)?)\s?(?:€|euros?\b|eur\b)", r"\1 EUR", "euro euros eur"),
    (r"£\s?(\d+(?:[.,]\d+)?)", r"\1 GBP", "£"),
    (r"(\d+(?:[.,]\d+)?)\s?(?:£|quid\b)", r"\1 GBP", "quid"),
    (r"\s?@\s?(?=\d)", " at ", "@"),
    (r"(?<=\d) [-–] (?=\d)", "-", "-"),
    (r"\bw/\s?", "with ", "w"),
    # No look at a tree is numbered so high.
    (
        r"\b(?:chk|ck|check) (?:for )?(?=\d{3,}(?:[.,]\d\d)?(?:$|,))",
        "cheque ",
        "chk ck check",
    ),
    # How often.
    (r"\b(\d) ?[x×] ?/ ?(?:d|day)\b", r"\1 times a day", "d day"),
    (r"\b(\d)x(?=\s*$|,| (?:this|today|in a|a) )", r"\1 times", "x"),
    (r"\b(?:two|2) times\b", "twice", "times"),
    # Sides: `L1`, `R2`; `L` and `R` alone only where a part is wanted.
    (r"\bL(\d{1,2})\b(?!\s?(?:mm|cm|inch|[.,]\d))", r"left \1", "l"),
    (r"\bR(\d{1,2})\b(?!\s?(?:mm|cm|inch|[.,]\d))", r"right \1", "r"),
    (r"\b(\d)(?:st|nd|rd|th) (left|right)\b(?: branch)?", r"\2 \1", "left right"),
    (r"\b(?:first|1st) (left|right)\b(?: branch)?", r"\1 1", "left right"),
    (r"\b(?:second|2nd) (left|right)\b(?: branch)?", r"\1 2", "left right"),
    (r"\b(?:third|3rd) (left|right)\b(?: branch)?", r"\1 3", "left right"),
    # Wire.
    (r"(\d)\s?(mm|cm)\b", r"\1 \2", "mm cm"),
    (r"\b(al)\b(?=\s|,|$)(?<=\d mm al)", "Al", "al"),
    (r"\b(cu)\b(?=\s|,|$)(?<=\d mm cu)", "Cu", "cu"),
    (r"(\d) ?(?:deg|degs|°)\b\.?(?![CF])", r"\1 degrees", "deg degs"),
    (r"(\d)deg\b", r"\1 degrees", "deg"),
    (r"(\d) ?degr\b", r"\1 degrees", "degr"),
)
PHRASES = tuple((re.compile(pattern, re.IGNORECASE), written) for pattern, written, _ in _ROWS)
# By such a word or sign the phrases that need one of it, a bit each.
_NEEDING: dict[str, int] = {}
for _at, (_, _, _needs) in enumerate(_ROWS):
    for _need in _needs.split():
        _NEEDING[_need] = _NEEDING.get(_need, 0) | 1 << _at
_RUN = re.compile(r"[a-z]+|[^a-z\s\d]")
# `16/4 left`, the `L` in `low L`; only behind a word of place.
_SIDE = re.compile(r"\b(low|lower|upper|top|back|front|high|inner|outer) (L|R)\b")
_TOKEN = re.compile(r"[^\s,;:()]+")


# With none of these signs a text holds at most the words below, and most texts hold neither.
_SIGNS = re.compile(r"[\d@/€£]")
_IN_WORDS = re.compile(
    r"\b(?:[LR] side|half|quarter|full|hour|dozen|first|second|third|[gm]l?/l|fls? buds?)\b",
    re.IGNORECASE,
)
# The words of these, and the sides.
_BESIDE = plain_words("l r half quarter full hour dozen first second third")


def _expanded(found: re.Match[str]) -> str:
    written = found[0]
    folded = written.casefold()
    return _WORDS.get(folded) or _WORDS.get(folded.rstrip("."), "") or written


def is_spelled_out(word: str) -> bool:
    """Whether a word of plain letters, in small ones, is one that `in_full` may write otherwise, by
    itself or beside others."""
    return word in _WORDS or word.rstrip(".") in _WORDS or not _BESIDE.isdisjoint(word.split("-"))


@lru_cache(4096)
def in_full(text: str) -> str:
    """The same words, each in full.

    >>> in_full('rptd, 3/4" off btm, 1h30')
    'repotted, 3/4 inch off below, 1 h 30'
    """
    if " L" in text or " R" in text:
        text = _SIDE.sub(lambda one: f"{one[1]} {'left' if one[2] == 'L' else 'right'}", text)
    if _SIGNS.search(text) or _IN_WORDS.search(text):
        text = phrases_in_full(text)
    return " ".join(_TOKEN.sub(_expanded, text).split())


def phrases_in_full(text: str) -> str:
    """The text with each phrase in full that is written short, one after another."""
    left = phrases_in(text)
    while left:
        bit = left & -left
        pattern, written = PHRASES[bit.bit_length() - 1]
        said = pattern.sub(written, text)
        left ^= bit
        if said != text:
            # What follows is held against what it is now.
            text, left = said, phrases_in(said) & -bit << 1
    return text


def phrases_in(text: str) -> int:
    """The phrases that may be written short in a text, a bit each."""
    if not text.isascii():
        return (1 << len(PHRASES)) - 1
    found = 0
    for run in _RUN.findall(text.lower()):
        found |= _NEEDING.get(run, 0)
    return found


def without_idle_words(text: str, fillers: Callable[[str], bool]) -> tuple[str, tuple[str, ...]]:
    """The text without words that bear on nothing, and those words."""
    words = text.split()
    kept = tuple(word for word in words if fillers(word))
    return " ".join(word for word in words if not fillers(word)), kept
