"""Tells whether a clause only names one thing or somebody: `the path`, `the child`."""

from __future__ import annotations

import re

from backbud_grammar.scribbles.plain import OBSERVED, SEEN, plain_words

_ONE_THING = re.compile(
    r"(?:the|a|an|my|our|his|her|their|some) (?P<what>[^\W\d_]+)", re.IGNORECASE
)
_OF_THE_WORK = plain_words(
    "usual lot works same whole rest old way hard easy first last second best worst other others "
    "strong weak big small long short lower upper inner outer top bottom"
)


def names_one_thing(text: str) -> bool:
    """Whether a text only names one thing or somebody, which may be what was worked on, or who did
    it: `the path`, `the child`."""
    found = _ONE_THING.fullmatch(text)
    if found is None:
        return False
    what = found["what"].casefold()
    return what not in SEEN and what not in OBSERVED and what not in _OF_THE_WORK
