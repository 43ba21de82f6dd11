"""Raffia comes off after one growing season."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.common.seasons import before_growth
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


@after("wrapped", rule="wrap-off")
def off_after_a_season(tree: Tree, done: Event, year: Year) -> Proposals:
    """In a month after one growing season, else in the last weeks of each rest. Common practice, no
    source."""
    for part in parts_of(done):
        window = weeks_after(done.day, 20, 30, 34)
        yield Proposal(
            "unwrapped",
            window,
            what=on_part("", part),
            part=part,
            because=phrase("Raffia rots and keeps bark wet after a growing season."),
            weight=STAYS_ON,
            schedule=Schedule(again=before_growth(year, window.closes)),
        )
