"""Tells whether a shelter lies where the tree stands, as mulch does, and stays there without it."""

from __future__ import annotations

import re

# What lies on the ground or the soil, or is the ground; and what is bound round a tree or its pot,
# whatever it is stuffed with. Common speech, no source.
_LIES = re.compile(
    r"\b(?:mulch\w*|straw|bark|bracken|leaves|leaf mould|leaf litter|(?:pine )?needles|peat|sand"
    r"|soil|compost|(?:wood ?)?chips?|heeled in|plunged|sunk|bedded|buried|on the ground)\b",
    re.IGNORECASE,
)
_BOUND = re.compile(
    r"\b(?:wrap\w*|fleece|hessian|burlap|sack\w*|net\w*|mesh|quilt|blanket|cloth|foil|film|bag\w*"
    r"|mats?|raffia|tied|bound)\b",
    re.IGNORECASE,
)


def lies_there(said: str) -> bool:
    """Whether a shelter stays behind where the tree is lifted out of it, by what is said of it.

    >>> lies_there("5 cm mulch"), lies_there("hessian and straw"), lies_there("pot wrapped")
    (True, False, False)
    """
    return bool(_LIES.search(said)) and not _BOUND.search(said)
