"""Tells whether the figures of a clause are of something else than how much an act did."""

from __future__ import annotations

import re
from collections.abc import Container

from backbud_grammar.forms import ActForm
from backbud_grammar.limiters import limiter_in
from backbud_grammar.problems import nearest
from backbud_grammar.scribbles.plain import plain_words

_TOKEN = re.compile(r"\d[\d.,/-]*(?: \d/\d)?|[^\W\d_]+(?:['’-][^\W\d_]+)*|\S")
# What is measured in each.
_UNITS = {
    **dict.fromkeys(("mm", "cm", "m", "inch", "foot"), "length"),
    **dict.fromkeys(("L", "l", "mL", "ml"), "volume"),
    **dict.fromkeys(("g", "kg", "oz", "lb"), "mass"),
    **dict.fromkeys(
        ("min", "h", "s", "days", "day", "weeks", "week", "months", "month"), "duration"
    ),
    **dict.fromkeys(("years", "year"), "duration"),
    **dict.fromkeys(("C", "F"), "temperature"),
    "%": "share",
    "degrees": "angle",
}
# Beside these a figure may be how many were done, put on, given, taken or lost, of a tree or of a
# batch; which of them it is, is asked.
_MAY_BE_DONE = plain_words(
    "shoots shoot buds bud leaves leaf branches branch candles candle needles needle tips tip "
    "twigs twig ones one pairs pair cuts cut stubs stub roots root pots pot box boxes tray trays "
    "holes hole wires wire guys guy ties tie nails screws stakes stake clamps clamp layers layer "
    "turns coats coat times cans can bags bag balls cakes lumps pellets spoons drops tablets "
    "cuttings cutting seedlings seedling whips whip trees tree plants plant seeds seed scions "
    "scion grafts graft rooted dead died lost left alive up more less others other each all per "
    "of eur usd gbp euro euros quid dollars pounds flowers flower fruits fruit pods apples haws "
    "berries suckers spurs thorns galls gal gallon gallons qt quart quarts pt pint pints tbs tbsp "
    "tsp cup cups mix off out away down to from for in on at by"
)
# What has a measure of its own, and is no object of a work on branches.
_MEASURED = plain_words(
    "wound wounds scar scars callus hollow crack cracks bark soil water trunk nebari girth "
    "temperature temp barrel tank lamp heater heating thermometer run-off drain drip spread "
    "height"
)
# Asked, reckoned, to a gallon, or how far a branch went.
_NEVER = re.compile(
    r"[?\"/=@]|\b(?:down|up|lower|lowered|raised|bent|pulled|moved|further)\b", re.IGNORECASE
)
# No part of a sentence that says so much by itself.
_LEAST_WORDS = 2
# A word as short as this may be a unit with a slip of the thumb: `2 cmm`.
_UNIT_WITH_A_SLIP = 4


def counts_another_thing(form: ActForm, own: Container[str], piece: str) -> bool:
    """Whether a clause beside what was done has figures, and each is of a thing of its own: `lamp
    14 h a day`. `own`: the words of the act's own details.

    A figure alone, or beside what the work may be counted in, is none.
    """
    if form.bearing != "does" or form.names_act or form.work == "propagation":
        return False
    if limiter_in(piece) or _NEVER.search(piece):
        return False
    tokens = _TOKEN.findall(piece)
    words = [one for one in tokens if one[0].isalpha() and one not in _UNITS]
    if len(words) < _LEAST_WORDS or not any(one[0].isdigit() for one in tokens):
        return False
    if tokens[0].casefold() in own:
        # It begins as a detail of the act does: `tied 2 strands`.
        return False
    of_its_own = tokens[0].casefold() in _MEASURED or tokens[1].casefold() in _MEASURED
    return all(
        _is_of_another(form, own, tokens[at + 1 : at + 3], of_its_own=of_its_own)
        for at, one in enumerate(tokens)
        if one[0].isdigit()
    ) and not (tokens[0][0].isdigit() and tokens[1] in _UNITS)


def _is_of_another(
    form: ActForm, own: Container[str], behind: list[str], *, of_its_own: bool
) -> bool:
    if not behind:
        return False
    sort = _UNITS.get(behind[0])
    if sort is not None:
        return of_its_own or not any(sort in one.sorts for one in form.forms)
    if len(behind[0]) <= _UNIT_WITH_A_SLIP and nearest(behind[0], _UNITS):
        return False
    return behind[0][0].isalpha() and not any(
        one.casefold() in _MAY_BE_DONE or one.casefold() in own for one in behind
    )
