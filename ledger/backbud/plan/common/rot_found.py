"""Rot that a look found is cut out, at roots by a repotting."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.common.seasons import before_growth, in_growth
from backbud.plan.common.winter_quarters import WARMED
from backbud.plan.looks import places_found
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

ROOTS_ROT = "roots-rot"
_UNTIL_THEN = "Until then under cover, out of frost, drier, and tilted so that water runs out."


@after("checked", rule=ROOTS_ROT)
def sound_roots_and_open_soil(tree: Tree, done: Event, year: Year) -> Proposals:
    """Out of its time, too, as long as roots grow: rot does not wait. At rest in the cold none
    would grow again, and the tree waits, dry, until before growth. Common practice, no source."""
    if not places_found(done, ("roots",), "rotten", "soft"):
        return
    if any("root_work" in one.event.row.traits for one in tree.done_between(done.day, done.day)):
        # It was found as its roots were worked on.
        return
    at_once = in_growth(done.day, year) or year.cover.casefold().startswith(WARMED)
    window = days_after(done.day, 0, 3, 14) if at_once else before_growth(year, done.day)
    at_rest = () if at_once else (phrase(_UNTIL_THEN),)
    yield Proposal(
        "repotted",
        window,
        what=phrase("and cut rotten roots back to sound ones, into an open mix"),
        because=phrase("Rot goes on from root to root while the soil stays wet."),
        cautions=(
            *at_rest,
            phrase("Take no sound root, and no branch with it; keep frost, sun and wind off it."),
        ),
        settled_by=("repotted", "root-pruned", "potted-on"),
        weight=PRESSING,
        schedule=Schedule(again=before_growth(year, window.closes)),
    )


@after("checked", rule="wood-rots")
def clean_it_out(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    for part in places_found(done, ("wounds", "wound", "bark"), "rotten"):
        window = days_after(done.day, 0, 7, 28)
        yield Proposal(
            "sealed",
            window,
            what=phrase(
                "{what}, cut back to sound wood first", what=on_part(phrase("the wound"), part)
            ),
            part=part,
            because=phrase("Rot goes on into the live wood from a wound that stays wet."),
            settled_by=("sealed", "carved", "pruned", "treated-deadwood"),
            weight=PRESSING,
            schedule=Schedule(again=before_growth(year, window.closes)),
        )
    for part in places_found(done, ("deadwood", "jin", "shari"), "rotten", "soft"):
        window = days_after(done.day, 0, 14, 60)
        yield Proposal(
            "treated-deadwood",
            window,
            what=on_part(phrase("and clean out first what is soft"), part),
            part=part,
            because=phrase("Soft wood holds water, and rots on."),
            cautions=(phrase("Cover soil and live bark: it kills both."),),
            settled_by=("treated-deadwood", "carved"),
            weight=PRESSING,
            schedule=Schedule(again=before_growth(year, window.closes)),
        )
