"""The details of an act as read, and what is read of an act whose text is prose."""

from __future__ import annotations

import re

from msgspec import Struct

from backbud_grammar.act_words import DetailName
from backbud_grammar.forms import ActForm
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Detail


class ActReading(Struct, frozen=True, gc=False):
    """The details of an act as read; `named` is the act that a plan, a skip, a correction names.

    `starts`: for each detail where its piece begins in the text; a detail's own offset counts
    from there. Flaws have `line` 0 and count from the text's first character.
    """

    named: str
    details: tuple[Detail, ...]
    starts: tuple[int, ...]
    flaws: tuple[Flaw, ...]


def prose_reading(text: str) -> ActReading:
    """The reading of an act that takes everything as prose."""
    details = (Detail("text", words=text, length=len(text)),) if text else ()
    return ActReading("", details, (0,) * len(details), ())


def corrected_prose(named: ActForm, rest: str) -> ActReading:
    """`corrected noted 2027-03-06 the left one`: the date, then prose."""
    found = re.match(r"\s*([0-9]\S*?),?(?:\s+(.*))?$", rest)
    if found is None:
        return ActReading(named.word, (), (), ())
    details = [Detail("date", date=found[1], offset=found.start(1), length=len(found[1]))]
    if found[2]:
        name: DetailName = "not done" if found[2].casefold() == "not done" else "text"
        words = "" if name == "not done" else found[2]
        details.append(Detail(name, words=words, offset=found.start(2), length=len(found[2])))
    return ActReading(named.word, tuple(details), (0,) * len(details), ())
