"""Wire that has been on for a year comes off, set or not."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.common.seasons import before_growth
from backbud.plan.common.wire_check import CUT_IT_OFF
from backbud.species import (
    STAYS_ON,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    after,
    parts_of,
    weeks_after,
)
from backbud.tongue import phrase


@after("wired", rule="wire-off")
def off_within_the_year(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: deciduous wood sets in a season, an evergreen in a year."""
    for part in parts_of(done):
        window = weeks_after(done.day, 26, 36, 52)
        yield Proposal(
            "unwired",
            window,
            part=part,
            what=on_part("", part),
            because=phrase("Wood that has not set after a year is wired anew, not left to scar."),
            cautions=(CUT_IT_OFF,),
            minutes=15,
            weight=STAYS_ON,
            schedule=Schedule(
                after=phrase("It has been on for over a year: off before growth begins."),
                again=before_growth(year, window.closes),
            ),
        )
