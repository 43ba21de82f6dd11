"""A part of the tree as the bench writes it, without its `on`."""

from __future__ import annotations

import re

# A part of the tree with no word that says more than where.
_PLACE_WORD = (
    r"(?:left|right|front|back|apex|top|crown|mid|middle|low|lower|upper|high|inner|outer|inside|first|second"
    r"|third|trunk|leader|branch|branches|side|of|tree|half way|\d{1,2})"
)
PLACE_WORDS = frozenset(re.findall(r"[a-z]+", _PLACE_WORD.replace("\\d", "")))
_PART = (
    r"(?P<part>(?!\d)(?!side|of|tree)"
    r"(?!(?:first|second|third)(?! (?:left|right|branch|front|back)))"
    rf"{_PLACE_WORD}(?: {_PLACE_WORD})*)"
)
_IS_PART = re.compile(
    rf"(?:only |just )?(?:up |in |at |on |the )*{_PART}"
    r"(?: side)?(?: too| as well| only| mostly| mainly)?",
    re.IGNORECASE,
)
_STAY = re.compile(r"(?:candles|shoots|buds|leaves|pairs|branches)$", re.IGNORECASE)
# On that side, or left as they are.
_MAY_STAY = re.compile(
    r"(?:branch(?:es)?|(?:lower|low|lowest|upper|top|bottom) \d) left$", re.IGNORECASE
)
_THEN_PART = re.compile(
    rf"(?P<measure>.*\d (?:mm|cm|inch|%|Al|Cu|candles|shoots|buds|leaves|pairs|branches)) "
    rf"(?:up |in |at |the )*{_PART}",
    re.IGNORECASE,
)


def part_said(text: str) -> str:
    """A part of the tree as the tables have it; "" where it is none.

    >>> part_said("low left"), part_said("2 mm left 1"), part_said("dry")
    ('on low left', '2 mm on left 1', '')
    """
    found = _IS_PART.fullmatch(text)
    if found is not None:
        return "" if _MAY_STAY.search(found["part"]) else f"on {found['part']}"
    found = _THEN_PART.fullmatch(text)
    if found is not None and found["part"].casefold() == "left" and _STAY.search(found["measure"]):
        # Two leaves that are left.
        return ""
    return f"{found['measure']} on {found['part']}" if found is not None else ""
