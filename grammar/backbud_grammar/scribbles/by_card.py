"""Says what a line names by the cards of its journal: a feed with how much of it, a home."""

from __future__ import annotations

import re
from collections.abc import Callable

from backbud_grammar.scribbles.named import Handles
from backbud_grammar.scribbles.water_figures import is_source

# A feed by its name, and how much of it.
_NAME_OF_FEED = re.compile(
    r"(?:with )?(?P<name>[^\W\d]+(?: [^\W\d]+)*(?: \d+-\d+-\d+)?)(?:,? (?P<much>\d[\d.,]* ?\D*))?"
)


# `soil: repotted` is no water: what is done to it is told behind.
_OF_THE_TREE = re.compile(r"(?:the )?(?:pot|soil|ball)", re.IGNORECASE)
_DEADWOOD = re.compile(r"(?:the )?(?:jins?|shari|deadwood)", re.IGNORECASE)


def feed_by_card(text: str, handles: Handles, kind_of: Callable[[str], str]) -> str:
    """A feed by the name of its card, with what was given of it; "" where it is none."""
    found = _NAME_OF_FEED.fullmatch(text)
    handle = handles.one(found["name"]) if found is not None else ""
    if found is None or kind_of(handle) != "material":
        return ""
    return ", ".join(filter(None, (f"with {handle}", found["much"])))


def is_at_home(text: str, handles: Handles, kind_of: Callable[[str], str]) -> bool:
    """Whether a piece says at whose home it was: `at Joost`."""
    first, _, who = text.partition(" ")
    return first.casefold() == "at" and kind_of(handles.one(who)) == "person"


def labels(text: str, handles: Handles, kind_of: Callable[[str], str]) -> bool:
    """Whether a piece only says at whose home it was, or of whose water the figures are."""
    return (
        (is_source(text) and not _OF_THE_TREE.fullmatch(text))
        or _DEADWOOD.fullmatch(text) is not None
        or is_at_home(text, handles, kind_of)
    )
