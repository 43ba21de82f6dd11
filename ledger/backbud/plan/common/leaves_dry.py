"""Leaves that a look found dry, or brown out of their time, have the roots looked at."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.plan.common.seasons import LEAF_FALL, leaves_last
from backbud.plan.looks import looks_found
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    after,
    days_after,
)
from backbud.tongue import phrase
from backbud_grammar.act_words import DetailWord, as_settling

# Nobody asks after them any more then: they fell, or new ones stand.
_LEFT = timedelta(weeks=8)
_LEAVES = ("leaves", "needles", "shoots")


LEAVES_DRY = "leaves-dry"


@after("checked", rule=LEAVES_DRY)
def look_at_its_roots(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if done.has("again"):
        return
    found = looks_found(done, _LEAVES, *_findings(done.day, year))
    if not found:
        return
    yield Proposal(
        "checked",
        days_after(done.day, 0, 1, 5),
        what=phrase("soil and roots: dry, sodden or rotten"),
        because=phrase(
            "Roots that give no water stand in soil that is dry inside, or so wet that they rot."
        ),
        cautions=(phrase("Until then out of sun and wind, and no feed."),),
        settled_by=(
            as_settling("checked", "soil"),
            as_settling("checked", "roots"),
            *(as_settling("checked", look.what) for look in found),
            "opened",
            "repotted",
            "died",
        ),
        minutes=5,
        weight=PRESSING,
        schedule=Schedule(over=done.day + _LEFT),
    )


def _findings(day: date, year: Year) -> tuple[DetailWord, ...]:
    """What a look finds then that no leaf has of itself."""
    if leaves_last(day, year):
        return "dry", "dead", "brown", "soft"
    return () if year.stage(LEAF_FALL) else ("dry", "dead")
