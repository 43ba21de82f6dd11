"""Rot that a look found is cut out, at roots by a repotting."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.looks import places_found
from backbud.species import (
    CARE,
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Tree,
    Year,
    after,
    days_after,
)
from backbud.tongue import phrase


@after("checked", rule="roots-rot")
def sound_roots_and_open_soil(tree: Tree, done: Event, year: Year) -> Proposals:
    """Out of its time, too: rot does not wait. Common practice, no source."""
    if not places_found(done, ("roots",), "rotten"):
        return
    yield Proposal(
        "repotted",
        days_after(done.day, 0, 3, 14),
        what=phrase("and cut rotten roots back to sound ones, into an open mix"),
        because=phrase("Rot goes on from root to root while the soil stays wet."),
        cautions=(
            phrase("Take no sound root, and no branch with it; keep frost, sun and wind off it."),
        ),
        settled_by=("repotted", "root-pruned", "potted-on"),
        weight=PRESSING,
    )


@after("checked", rule="wood-rots")
def clean_it_out(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    for part in places_found(done, ("wounds", "wound", "bark"), "rotten"):
        yield Proposal(
            "sealed",
            days_after(done.day, 0, 7, 28),
            what=phrase(
                "{what}, cut back to sound wood first", what=on_part(phrase("the wound"), part)
            ),
            part=part,
            because=phrase("Rot goes on into the live wood from a wound that stays wet."),
            settled_by=("sealed", "carved", "pruned", "treated-deadwood"),
            weight=CARE,
        )
    for part in places_found(done, ("deadwood", "jin", "shari"), "rotten", "soft"):
        yield Proposal(
            "treated-deadwood",
            days_after(done.day, 0, 14, 60),
            what=on_part(phrase("and clean out first what is soft"), part),
            part=part,
            because=phrase("Soft wood holds water, and rots on."),
            cautions=(phrase("Cover soil and live bark: it kills both."),),
            settled_by=("treated-deadwood", "carved"),
            weight=CARE,
        )
