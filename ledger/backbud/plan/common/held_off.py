"""Says whether fleece, a frame or unheated glass keep a winter's coldest night from a tree's roots.

Ours, no source, but for the ratings of tops.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from backbud.climate.degrees import degrees
from backbud.species import Temperature, Year
from backbud.tongue import phrase

# What they hold off for a whole cold week.
HELD_OFF_K = 8.0
# With less than this to spare they hardly do, and the keeper is told.
_HARDLY_K = 1.0


class HeldOff(NamedTuple):
    """Whether they are enough, hardly, or not; what is to be done then; and the figures, to be
    put behind another sentence. The caution has no figure of the tree, so that it stands once for
    trees of several kinds."""

    enough: Literal["yes", "hardly", "no"]
    caution: str = ""
    datum: str = ""


ENOUGH = HeldOff("yes")


def held_off(year: Year, coldest_c: float, bears: Temperature) -> HeldOff:
    """Whether they keep a night (°C) from roots that bear so much.

    Mulch keeps the roots alone: of no help to a tree whose top dies in such a night (an olive, an
    azalea).
    """
    below, top = bears.celsius - coldest_c, year.top_bears_c
    if below < HELD_OFF_K - _HARDLY_K:
        return ENOUGH
    close = phrase(
        " That is {below_k:.1f} K below what its roots bear, and such a cover holds off about "
        "{held_off_k:.0f} K for a cold week (ours, no source).",
        below_k=below,
        held_off_k=HELD_OFF_K,
    )
    if below < HELD_OFF_K:
        said = phrase(
            "Fleece or a frame alone is near its limit in such a night: have a place that stays "
            "near 0 °C at hand."
        )
        return HeldOff("hardly", said, close)
    if top is None or coldest_c >= top:
        said = phrase(
            "Fleece or a frame alone does not hold off nights so far below that: sink the pot in "
            "the ground under mulch, or give it a place that stays near 0 °C."
        )
        return HeldOff("no", said, close)
    said = phrase(
        "Fleece or a frame alone does not hold off nights so far below that, and mulch would keep "
        "the roots alone, not the top. Give it a place that stays near 0 °C."
    )
    rated = phrase(" Its top is rated for {degrees}.", degrees=degrees(top, ".0f"))
    return HeldOff("no", said, f"{close}{rated}")
