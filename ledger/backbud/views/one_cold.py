"""Gathers how cold a winter gets for the trees of one round: one sentence, however many limits."""

from __future__ import annotations

from collections.abc import Sequence

from backbud.climate.degrees import degrees
from backbud.tongue import day_and_month, phrase
from backbud.views.work import WorkView


def one_cold(works: Sequence[WorkView]) -> str:
    """How cold it gets, and what the least hardy of these trees bears; "" where they say the same,
    or say nothing of it. Each tree's own figures stand on its page."""
    found = [work.cold for work in works if work.cold is not None]
    if len({work.said for work in works if work.cold is not None}) < 2:
        return ""
    coldest = min(found, key=lambda one: one.coldest_c)
    bears = degrees(max(one.bears_c for one in found))
    night = degrees(coldest.coldest_c, ".0f")
    if coldest.since is not None:
        return phrase(
            "From {day} on still as cold as {coldest} here in one winter of ten, "
            "± {give_or_take_k:.0f} K; the least hardy of these bears {bears}.",
            day=day_and_month(coldest.since),
            coldest=night,
            give_or_take_k=coldest.give_or_take_k,
            bears=bears,
        )
    return phrase(
        "As cold as {coldest} here in one winter of ten, ± {give_or_take_k:.0f} K; the least hardy "
        "of these bears {bears}.",
        coldest=night,
        give_or_take_k=coldest.give_or_take_k,
        bears=bears,
    )
