"""What behind an act says when the same work, or the rest of it, is to be done, or why not."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from backbud_grammar.scribbles.days import WEEKDAY, when_of
from backbud_grammar.scribbles.draft import Piece
from backbud_grammar.scribbles.openings.row import SPRAY

# What is done again and again, so that the next time is a plan.
REPEATED = ("treated", "fed", "flushed", "misted", "trimmed", "pinched")
AGAIN = re.compile(
    r"(?:do it again |(?:and )?(?:again|repeat(?:ed)?|next(?: one| spray| feed| dose)?|once more"
    r"|(?:# ?|no\.? ?)\d|(?:second|third)(?: (?:one|spray|go|round|dose|time))?)"
    r" (?:in |after )?|in (?=\d+ (?:days?|weeks?|months?) again$))"
    rf"(?P<after>\d+ (?:days?|weeks?|months?))(?: again)?|(?:and )?again (?:on )?(?P<on>{WEEKDAY})",
    re.IGNORECASE,
)
# What is left of a work, and when it is done.
REST = re.compile(
    r"(?:the )?(?:(?:weak|strong|other|second|small|big) (?:lot|half|batch|candles|shoots)"
    r"|rest|remainder|others|last bit|weak(?:er)?(?: ones)?(?! lot)|strong(?: ones)?(?! lot))"
    r"(?: of (?:it|them|the tree))? "
    r"(?:to (?:do|follow) )?(?:in (?=\d))?(?P<when>.+)",
    re.IGNORECASE,
)
# Another product, another day: `then oil in 5 days`.
_THEN_ANOTHER = re.compile(
    rf"(?:then |and then |next )?(?P<product>{SPRAY}) (?:in (?=\d)|on )?"
    rf"(?P<when>\d+ (?:days?|weeks?)|next week|tomorrow|{WEEKDAY})",
    re.IGNORECASE,
)
# What a look at the wire promises: `off in 2 weeks`.
_COMES_OFF = re.compile(r"(?:comes? |to come |take )?off (?:in (?=\d))?(?P<when>.+)", re.IGNORECASE)
# Why a work was left, in words that are details of some.
WHY_NOT = ("weak", "too weak", "very weak", "half-rooted", "late", "too late", "sick", "tired")


class NextWork(Struct, frozen=True):
    """A work that is to follow, when, as a plan says it, and with what. `work`: "" for the same."""

    when: str
    work: str = ""
    remark: str = ""


def next_work(
    act: str, opened_by: str, pieces: Sequence[Piece], piece: str, page: date | None
) -> NextWork | None:
    """What a look or a spray says is to come: `off in 2 weeks`, `then oil on Friday`.

    `opened_by`: the piece that the act began with. `pieces`: what was read of it so far.
    """
    if not pieces or opened_by.casefold().endswith(" first"):
        # `soap first, then oil on Friday` is all to come.
        return None
    if act == "checked" and (found := _COMES_OFF.fullmatch(piece)) is not None:
        work = {"wire": "unwire", "layer": "separate"}.get(pieces[0][0].split()[0], "")
        when = when_of(found["when"], page)
        return NextWork(when, work) if when and work else None
    if act == "treated" and (found := _THEN_ANOTHER.fullmatch(piece)) is not None:
        when = when_of(found["when"], page)
        return NextWork(when, remark=found["product"]) if when else None
    return None
