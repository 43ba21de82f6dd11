"""Whether a plan, a skip or a put-off is in doubt or wants a reason, and an act another time."""

from __future__ import annotations

import re

from backbud_grammar.scribbles.draft import Draft
from backbud_grammar.scribbles.plain import is_harmless

_WORD = re.compile(r"[^\W\d_]+")
# Words of a reason that make a question of it.
_DOUBTS = frozenset(
    _WORD.findall(
        "maybe perhaps might but or why rest yet if unless probably possibly think guess ask asked "
        "whether depends see hm hmm forgot forgotten"
    )
)

# A share that nobody cuts by is a day: `mekiri 7/8`.
_A_DAY = re.compile(r"(?!(?:1/[2-5]|2/[35]|3/[45])$)\d{1,2}/\d{1,2}")
_TONIGHT = re.compile(r".* (?:tonight|today|this evening)", re.IGNORECASE)


def is_for_another_time(draft: Draft) -> bool:
    """Whether an act may be for that evening, `soap tonight`, or another day."""
    if draft.form.word == "treated" and len(draft.pieces) == 1 and _TONIGHT.fullmatch(draft.raw):
        return True
    return any(_A_DAY.fullmatch(said) for said, _ in draft.pieces)


def is_no_plan(draft: Draft) -> bool:
    """Whether an act that names another is only noted."""
    if not draft.form.names_act or not draft.raw:
        return False
    if "?" in draft.raw or "?" in draft.remark:
        return True
    words = set(_WORD.findall(draft.remark.casefold()))
    is_bare = draft.needs_reason and is_harmless(draft.remark, fillers_only=True)
    return is_bare or not words.isdisjoint(_DOUBTS)
