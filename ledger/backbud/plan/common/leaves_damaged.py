"""Leaves that a look found damaged are spared feed and cuts until new ones stand."""

from __future__ import annotations

from datetime import timedelta

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
    weeks_after,
)
from backbud.tongue import phrase
from backbud_grammar.act_words import as_settling

# Nobody asks after them any more then: they fell, or new ones stand.
_LEFT = timedelta(weeks=10)
LEAVES_DAMAGED = "leaves-damaged"


@after("checked", rule=LEAVES_DAMAGED)
def until_new_ones_stand(tree: Tree, done: Event, year: Year) -> Proposals:
    """By frost, hail, sun or wind. Common practice, no source."""
    found = looks_found(done, ("leaves", "needles", "shoots", "candles", "frost"), "damaged")
    if not found or done.has("again"):
        return
    if year.stage(LEAF_FALL) and not leaves_last(done.day, year):
        # They fall by themselves.
        return
    yield Proposal(
        "checked",
        weeks_after(done.day, 2, 3, 5),
        what=phrase("new leaves and shoots"),
        because=phrase("What was damaged feeds the tree less until new leaves stand."),
        cautions=(
            phrase("Keep it from the next frost, hard sun and wind; no feed and no cut meanwhile."),
        ),
        settled_by=(
            *(as_settling("checked", what) for what in ("leaves", "needles", "shoots", "buds")),
            "checked strength",
            "vigour",
        ),
        minutes=5,
        weight=PRESSING,
        schedule=Schedule(over=done.day + _LEFT),
    )
