"""Tells whether the figures of a clause are of something else than how much an act did."""

from __future__ import annotations

import re
from collections.abc import Container

from backbud_grammar.forms import ActForm
from backbud_grammar.limiters import limiter_in
from backbud_grammar.scribbles.plain import plain_words

_TOKEN = re.compile(r"\d[\d.,/-]*(?: \d/\d)?|[^\W\d_]+(?:['’-][^\W\d_]+)*|\S")
_UNITS = plain_words(
    "mm cm m inch foot L l mL ml g kg oz lb min h s day days week weeks month months year years "
    "C F degrees"
)
# What has a measure of its own, and is no object of any work and no measure of the tree.
_MEASURED = plain_words(
    "wound wounds scar scars callus hollow lamp lamps heater heating thermometer run-off"
)
# Asked, reckoned, to a gallon, or how far a branch went.
_NEVER = re.compile(
    r"[?\"/=@]|\b(?:cut|sealed|paste|pasted|each|left|right|down|up|lower|lowered|raised|bent|pulled|moved|further)\b",
    re.IGNORECASE,
)
# No part of a sentence that says so much by itself.
_LEAST_WORDS = 2


def counts_another_thing(form: ActForm, own: Container[str], piece: str) -> bool:
    """Whether a clause beside what was done is about a thing that has its figures to itself: `lamp
    14 h a day`. `own`: the words of the act's own details.
    """
    if form.bearing != "does" or form.names_act or form.work == "propagation":
        return False
    if limiter_in(piece) or _NEVER.search(piece):
        return False
    tokens = _TOKEN.findall(piece)
    words = [one for one in tokens if one[0].isalpha() and one not in _UNITS]
    if len(words) < _LEAST_WORDS or not any(one[0].isdigit() for one in tokens):
        return False
    return tokens[0].casefold() in _MEASURED and tokens[0].casefold() not in own
