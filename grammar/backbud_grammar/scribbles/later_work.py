"""What a piece behind an act says is to follow: a look at it, or the rest of what came off."""

from __future__ import annotations

import re
from datetime import date

from backbud_grammar.act_words import ActWord
from backbud_grammar.scribbles.days import WHEN, when_of
from backbud_grammar.scribbles.draft import Draft

# By its bare form, as a plan names it.
_CHECK = "check"
_LOOK = re.compile(
    rf"(?P<rest>(?:the )?(?:others?|rest) )?(?:check|look)(?: at (?:it|them)| it)?(?: again)?"
    rf"(?: in| after| on)? (?P<when>{WHEN})",
    re.IGNORECASE,
)
_STAYS = re.compile(
    r"(?:the )?rest(?: of (?:it|the wires?))? (?:stays? |is left |left |leave )?(?:on )?(?:for )?"
    r"(?:another )?(?P<when>\d+ (?:days?|weeks?|months?))(?: more| longer)",
    re.IGNORECASE,
)
# What came off some part, so that there is a rest.
_OFF: tuple[ActWord, ...] = ("unwired", "unguyed", "untied")


def later_work(draft: Draft, piece: str, page: date | None) -> tuple[str, str] | None:
    """The bare form of the work that is to follow, and when, as a plan says it; None where the
    piece says nothing of the kind, or the day can be meant in two ways."""
    form = draft.form
    if form.names_act or form.prose or "no_work" in form.traits:
        return None
    of_part = form.word in _OFF and any(" on " in f" {said}" for said, _ in draft.pieces)
    stays = _STAYS.fullmatch(piece) if of_part else None
    look = _LOOK.fullmatch(piece) if stays is None else None
    if look is not None and not (of_part if look["rest"] else form.bearing == "does"):
        return None
    found = stays or look
    when = when_of(found["when"], page) if found is not None else ""
    if not when:
        return None
    return (form.bare if stays is not None else _CHECK), when
