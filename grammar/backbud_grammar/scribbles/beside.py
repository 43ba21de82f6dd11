"""What may stand beside an act that needs every word to be read: whole pieces that fit what it says.

Each is held against a whole piece, and says no more of the act than why, or how it was found.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from backbud_grammar.scribbles.days import WEEKDAY

_DEGREES = r"(?:minus |-)?\d+(?:[.,]\d)?(?: ?(?:C|F|degrees))?"
_WEATHER = (
    rf"(?:(?:low|high|min|max|minimum|forecast|frost|nights?|gusts?)(?: of| is| are| was| at)? )?"
    rf"{_DEGREES}(?: (?:at night|said|night|nights?|forecast|tonight|last night|this week|outside|said|announced))*"
    r"|(?:hard |first |late |ground )?frosts? (?:tonight|forecast|coming|last night|due|expected)"
    r"|(?:hail|storm|snow|gale|heat ?wave|rain) (?:tonight|forecast|coming|due|expected|warning)"
    r"|too (?:hot|cold|wet|dry|windy|bright|dark|much sun|much rain|much wind)(?: there| outside)?"
    r"|(?:more|less) (?:sun|light|shade|air|wind|room)|nice and (?:warm|cool|dry|shady)(?: again| there)?"
    r"|(?:leaf |sun |wind )?(?:scorch(?:ed)?|scald(?:ed)?)(?: on (?:the )?(?:edges|leaves))?"
    r"|(?:full|part|half|light|deep) (?:sun|shade)(?: now| there)?"
    r"|out of (?:the )?(?:wind|sun|rain|frost|wet|heat)|(?:leaf|sun|wind) ?(?:scorch|burn)(?: seen)?"
    r"|rain (?:marks|spoils|ruins) (?:the )?(?:petals|flowers|blooms)"
    r"|for (?:the )?(?:winter|summer|winters|season|show|good|flowering|wind|shade|warmth|light|sun)"
    r"|because(?: of)? (?:the )?[^\W\d]+(?: [^\W\d]+){0,4}"
)
_MARKS = (
    r"(?:(?:no|slight|faint|light|small|few|some|a few|hardly any|deep|bad|one|two|\d) )+(?:(?:bite|wire) )?"
    r"(?:marks?|scars?|bite|rings?)"
    r"(?: (?:left|right|seen|thank god|luckily|at all|on|at|low|high|the|side|apex|top|back|front|branch|\d|darn it))*"
    r"|(?:scars?|marks?) (?:at|on|in) (?:the )?(?:apex|top|trunk|bark|branch(?:es)?|(?:left|right) \d)"
    r"|branch(?:es)? (?:are |is )?staying|nothing marked|(?:slightly |badly |just |was |were |a bit )*biting"
    r"(?: in)?(?: a little| a bit| slightly| badly)?|bit in(?: a little| a bit| slightly| badly| at \w+)?"
    r"|just in time|held(?: (?:well|nicely|fine))?|(?:branch|branches) (?:held|set|stays?|stayed)(?: well)?"
    r"|no bites?(?: yet)?|bit|(?:left|right) \d (?:scarred|marked)(?: slightly| a little| a bit| badly)?|\d+ (?:rings?|marks?|scars?)(?: on (?:left|right) \d)?|marked(?: in)?(?: a little| a bit| slightly| badly)?|set (?:well|nicely)"
    r"|(?:was |were |just |slightly |starting to )*(?:cut(?:ting)?|eat(?:ing)?|dig(?:ging)?) in(?: a (?:little|bit))?"
    r"|(?:it['’]?s |it is |they['’]?re |all |has )?set(?: now)?|scarred(?: a (?:little|bit))?"
    r"|wire (?:bit|was biting|biting|dug)(?: in)?(?: at \w+| a little| slightly| badly)?"
)
# Who was told that a tree can be fetched.
_WORD_TO = r"(?:rung|rang|phoned|called|told|texted|e-?mailed|mailed|wrote(?: to)?|messaged) (?:[^\W\d]+\.?(?: |$)){1,3}"
# Who comes for it, and when.
_COMES = (
    r"(?:[^\W\d]+ )?(?:comes|is coming|coming|fetches|collects|picks up)(?: for it| it)?(?: on)?"
    rf" (?:{WEEKDAY}|tomorrow|next week)"
)
_ROOTED = (
    r"(?:the )?roots? (?:are |is |have |all )?(?:hold|holding|holds|firm|took|taken|anchored)"
    r"(?: (?:it|well|now|firm))?"
    r"|(?:well |firmly |all )?(?:rooted|anchored)(?: in)?(?: well| now)?"
    r"|(?:tree |it |she |he )?(?:stands|stood|sits|is) firm(?:ly)?(?: now)?"
)
_TABLE: Mapping[str, str] = {
    **dict.fromkeys(("moved", "watered", "misted", "soaked", "shaded", "protected"), _WEATHER),
    "unprotected": (
        rf"{_WEATHER}|mild(?: enough)?|warm(?: enough)?|all clear"
        r"|no (?:more )?frosts?(?: (?:forecast|coming|now|expected|due|this week))?"
        r"|(?:mild|warm) (?:nights?|weather|week|spell)(?: (?:ahead|now|forecast))?"
    ),
    "unshaded": rf"{_WEATHER}|mild(?: enough)?|(?:dull|cloudy)(?: weather| week| days?| spell| again)?",
    # What its owner would have done, and how it looked.
    "received": (
        r"(?:(?:she|he|they|[^\W\d]+) )?(?:wants?|wanted)(?! (?:it |her |him |them )?(?:back|home|away|out)\b)"
        r" [^?\d]*"
        r"|(?:yellow|brown|pale|green|wet|dry|weak|strong|root-?bound|pot-?bound)"
        r"(?: (?:inside|feet|roots|leaves|needles|soil|tips|all over|at (?:the )?tips|in places))*"
    ),
    "paid": (
        r"(?:still )?owes(?: me| us)? \d+(?:[.,]\d\d)?(?: [A-Z]{3})?(?: still| more)?"
        r"|\d+(?:[.,]\d\d)?(?: [A-Z]{3})? (?:to come|outstanding|still (?:open|owed|owing|to pay)|open|owing)"
    ),
    "ready": rf"{_WORD_TO}|{_COMES}",
    "planted-out": r"(?:for|to) (?:thickening|thicken|girth|growing on|grow on|bulk up)(?: up)?(?: the trunk)?",
    "unwired": _MARKS,
    "unguyed": _MARKS,
    "unwrapped": _MARKS,
    # What it was, beside what it is.
    "measured": (
        r"(?:was|before|last (?:year|time)|a year ago)(?: at)?:? \d+(?:[.,]\d+)?(?: (?:mm|cm|m|inch))?"
        r"(?: (?:last year|before|then))?"
    ),
    "thinned": r"\d+ (?:in all|altogether|in total)(?: (?:left|stay|kept))?",
    "untied": rf"{_MARKS}|{_ROOTED}",
}
# What is left on: said beside a part that it came off from, it says no more than that part does.
_STAYS = re.compile(
    r"(?:the )?(?:rest|(?:top|bottom) (?:two|three|2|3)|(?:other )?branches|(?:lower|low|inner|small|weak|bottom|upper|outer)(?: (?:branches|ones|leaves|shoots|candles))?|others?|left|right|all others?|other wires?|rest of (?:the )?wires?|top|apex|remaining)"
    r"(?: (?:of (?:it|them)|is|are|wires?|ones?|all))*"
    r" (?:stays?(?: on)?|on|keeps? (?:theirs|its|it|the wire)|left on|left|leave|ok|okay|fine|kept|untouched|loose|good)"
    r"(?: (?:on|leave|for now|as is|it|(?:till|until|til) (?:spring|summer|autumn|fall|winter|[^\W\d]+)))*",
    re.IGNORECASE,
)


@cache
def _pattern(act: str) -> re.Pattern[str] | None:
    said = _TABLE.get(act)
    return re.compile(rf"(?:{said})", re.IGNORECASE) if said else None


def is_beside(act: str, piece: str) -> bool:
    """Whether a piece only tells why an act was done, or how things were found.

    Of what ends a tree or sends it away every word must be read: it has no row here.

    >>> is_beside("moved", "frost tonight"), is_beside("moved", "if frost tonight")
    (True, False)
    """
    pattern = _pattern(act)
    return pattern is not None and pattern.fullmatch(piece) is not None


_COUNTS = re.compile(r"\d+(?: nights?)?", re.IGNORECASE)
_IS_WEATHER = re.compile(rf"(?:{_WEATHER})", re.IGNORECASE)


def is_weather(piece: str) -> bool:
    """Whether a piece only tells the weather in figures, and so why: `-4 tonight`."""
    # A figure alone may be a count, and of nights how long it is.
    is_told = any(map(str.isdigit, piece)) and not _COUNTS.fullmatch(piece)
    return is_told and _IS_WEATHER.fullmatch(piece) is not None


def all_else_stays(piece: str) -> bool:
    """Whether a piece says that all else stays as it is: `rest ok leave`."""
    return _STAYS.fullmatch(piece) is not None
