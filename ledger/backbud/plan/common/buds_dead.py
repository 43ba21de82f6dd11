"""A tree whose buds were found dead is looked at again before anybody gives it up."""

from __future__ import annotations

from datetime import timedelta

from backbud.plan.common.seasons import before_growth, in_growth
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

# It lives or is dead by then.
_LEFT = timedelta(weeks=6)
BUDS_DEAD = "buds-dead"


@after("checked", rule=BUDS_DEAD)
def scratch_it_again(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: what lives below often shoots weeks after the others."""
    if not looks_found(done, ("buds",), "dead") or done.has("again"):
        return
    grows = in_growth(done.day, year)
    window = weeks_after(done.day, 2, 4, 6) if grows else before_growth(year, done.day)
    yield Proposal(
        "checked",
        window,
        what=phrase("buds and bark: scratched, is it green below"),
        because=phrase("It may still shoot from lower down, weeks after the others."),
        cautions=(phrase("Damp, not wet, out of wind; no feed and no cut before it shoots."),),
        settled_by=(
            as_settling("checked", "buds"),
            as_settling("checked", "bark"),
            "checked strength",
            "vigour",
            "staged",
        ),
        minutes=5,
        weight=PRESSING,
        schedule=Schedule(over=window.closes + _LEFT),
    )
