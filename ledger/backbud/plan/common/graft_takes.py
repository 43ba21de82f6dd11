"""A graft is looked at when it should have taken."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    a_year_later,
    after,
    parts_of,
    weeks_after,
)
from backbud.tongue import phrase


@after("grafted", rule="graft-check")
def has_it_taken(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: thread and approach grafts take by thickening, so slowly."""
    slow = done.says("thread", "approach")
    weeks = (16, 20, 26) if slow else (6, 8, 10)
    window = weeks_after(done.day, *weeks)
    for part in parts_of(done):
        yield Proposal(
            "checked",
            window,
            what=on_part("graft", part),
            part=part,
            because=phrase(
                "A thread or approach graft has taken when it is thicker behind than before."
            )
            if slow
            else phrase("A graft shows in six to ten weeks whether it has taken."),
            settled_by=("checked graft", "separated"),
            minutes=5,
            weight=PRESSING,
            schedule=Schedule(again=a_year_later(window)),
        )
