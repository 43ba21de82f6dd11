"""Leaves that a look found dry, or brown out of their time, have the roots looked at."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.plan.common.seasons import LEAF_FALL, in_growth
from backbud.plan.looks import looks_found
from backbud.species import CARE, Event, Proposal, Proposals, Tree, Year, after, days_after
from backbud.tongue import phrase
from backbud_grammar.act_words import DetailWord, as_settling

_LEAVES = ("leaves", "needles", "shoots")
# Leaves turn brown by themselves from so long before their fall is over.
_AUTUMN = timedelta(weeks=6)


@after("checked", rule="leaves-dry")
def look_at_its_roots(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if done.has("again"):
        return
    found = looks_found(done, _LEAVES, *_findings(done.day, year))
    if not found:
        return
    yield Proposal(
        "checked",
        days_after(done.day, 0, 1, 10),
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
        weight=CARE,
    )


def _findings(day: date, year: Year) -> tuple[DetailWord, ...]:
    """What a look finds then that no leaf has of itself."""
    if in_growth(day, year) and in_growth(day + _AUTUMN, year):
        return "dry", "dead", "brown", "soft"
    return () if year.stage(LEAF_FALL) else ("dry", "dead")
