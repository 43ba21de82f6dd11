"""Parts what the bench joins though it is two things: hours and talk, a price and its buyer."""

from __future__ import annotations

import re

# What stands in the place of a sign or a word, which is as long: every piece keeps its place.
_HOURS = re.compile(
    r"(?<=\d)(\s?(?:hrs?|h|mins?)) (?:\+|&) (?=[^\W\d][^\d,;+&]*(?:$|[,;.]))", re.IGNORECASE
)
# Which is longer by a sign: nothing is told of what stands behind.
_DAYS = re.compile(
    r"(?<=\d)(\s?(?:hrs?|h)) (?=(?:over|in) (?:\d|two|three|four) ?d(?:ays)?\b)", re.IGNORECASE
)
_BUYER = re.compile(
    r"(?<=\d)((?:\s?(?:[A-Z]{3}|eur|€))?) to (?=(?:an? |the |some )?(?:old |young )?"
    r"(?:chap|man|woman|lady|gent|couple|lad|girl|bloke|guy|collector|dealer|beginner|visitor"
    r"|neighbou?r|friend|club member|regular|stranger|buyer)\b)"
)


# When it is done again, behind what was done: `neem 5 ml/L after 3 d again`.
_AFTER = re.compile(
    r"(?<=[\w)]) (?=after \d+ ?(?:d|days?|wks?|weeks?) again(?:$|[,.;]))", re.IGNORECASE
)
_AND_AGAIN = re.compile(
    r"(?<=[\w)]) [+&] (?=again (?:in |after )?\d+ ?(?:d|days?|wks?|weeks?)(?:$|[,.;]))", re.I
)
# Hours and what was rested of them.
_PAUSE = re.compile(
    r"(?<=\d)(\s?(?:hrs?|h)) (?=(?:w|with|incl\.?|without) (?:a )?(?:pause|break|coffee|tea|lunch)\b)",
    re.I,
)
# How long what was put on is on; longer by a sign, as of days.
_FOR_SO_LONG = re.compile(
    r"(?:(?<=%)|(?<= on)|(?<=eece)|(?<=over)|(?<=loth)|(?<=wrap)) (?=for (?:the (?:first|next) )?\d+ ?(?:d|days|nights|wks?|weeks|months)(?:$|[,.;]))",
    re.I,
)
# What is cut off behind a layer that was looked at is the layer.
_CUT_OFF = re.compile(r", (?:cut|sawn|taken) off (?:and|&|\+) potted\b", re.I)
# What stands in brackets is a clause of its own.
_IN_BRACKETS = re.compile(r"(?<=[^\W]) \(([^()\"]+)\)(?=$|[\s,.;!])")
_LIFTED = re.compile(
    r"^(lifted|dug(?: up)?|dug out) (?:\+|&|and) (?=(?:in|into|straight into) )", re.I
)


def with_two_things_apart(line: str) -> str:
    """The line with a comma between them.

    >>> with_two_things_apart("needles out, 2 h + resin on all fingers")
    'needles out, 2 h,  resin on all fingers'
    """
    if "(" in line:
        line = _IN_BRACKETS.sub(r", \1 ", line)
    if line[:9].casefold().startswith(("toriki", "layer", "air layer", "airlayer", "air-layer")):
        line = _CUT_OFF.sub(", layer off, potted ", line)
    line = _LIFTED.sub(r"\1,   ", line)
    if "again" in line:
        line = _AND_AGAIN.sub(",  ", _AFTER.sub(", ", line))
    if " + " in line or " & " in line:
        line = _HOURS.sub(r"\1,  ", line)
    if " for " in line:
        line = _FOR_SO_LONG.sub(", ", line)
    if " w" in line or " incl" in line:
        line = _PAUSE.sub(r"\1, ", line)
    if " over " in line or " in " in line:
        line = _DAYS.sub(r"\1, ", line)
    if " to " in line:
        line = _BUYER.sub(r"\1,   ", line)
    return line
