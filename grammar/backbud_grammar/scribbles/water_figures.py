"""What figures of water and soil look like, and whose water they are of."""

from __future__ import annotations

import re

# Whose water it is, or where it was taken.
SOURCE = r"(?:(?:the )?(?:tap|rain|barrel|rain ?barrel|butt|water butt|tank|pond|well|can|drain|drainage|run[- ]?off|soil|pot|mix|saucer)(?: ?water)?)"
_UNIT = r"(?: ?(?:mS(?:/cm)?|µS(?:/cm)?|dS/m|°?dH|C|degrees))?"
FIGURE = rf"(?:(?:EC|pH|dH|hardness)(?: (?:is|now|still))? ?\d[\d.,]*{_UNIT})"
_ONE = rf"(?:(?:EC|pH|dH|hardness)(?: (?:of (?:the )?)?{SOURCE})?(?: (?:is|was|now|still|at|about|down to|up to|before|after))* ?\d[\d.,]*{_UNIT}(?: ?(?:->|=>|→|to) ?(?:now )?\d[\d.,]*{_UNIT})?(?: (?:before|after|now))?)"
_READING = re.compile(
    rf"(?:{SOURCE}:? )?{_ONE}(?:(?: |, ?| / ?){_ONE})*(?: (?:after|before) (?:the )?(?:rain|storm|flush(?:ing)?|feed(?:ing)?|watering))?",
    re.IGNORECASE,
)


def is_source(piece: str) -> bool:
    """Whether a clause only names a water or the soil: `tap`."""
    return re.fullmatch(SOURCE, piece, re.IGNORECASE) is not None


def is_reading(piece: str) -> bool:
    """Whether a clause says what water, soil or run-off measured, and no more.

    >>> is_reading("EC now 0,5"), is_reading("run-off EC 1,8 -> 0,5"), is_reading("EC up")
    (True, True, False)
    """
    return any(map(str.isdigit, piece)) and _READING.fullmatch(piece) is not None
