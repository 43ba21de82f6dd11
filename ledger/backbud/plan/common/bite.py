"""Reckons the day on which a wire begins to bite, by its thickness and how the wood grows."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import NamedTuple

from backbud.bench.bite import girth_growth_mm, share_until_it_bites
from backbud.climate.air import DAY
from backbud.plan.looks import found_on
from backbud.species import Entry, OnTree
from backbud.species.year_told import Growth
from backbud.tongue import phrase
from backbud_grammar.dates import growing_year_days

# What a look at wire may find where it does not bite.
_NOT_BITING = ("fine", "all fine", "not biting", "loose")


class Bite(NamedTuple):
    """The day a wire is reckoned to begin to bite, and how that is known, in one sentence."""

    day: date
    because: str


def bite_of(wire: OnTree, history: Sequence[Entry], growth: Growth | None) -> Bite | None:
    """When a wire bites; None where it is no wire of a known thickness, or nothing is known of the
    weather, or it does not bite in this season and the next.

    By the wood grown since it was put on; where a later look found it fine, since then. A look
    before that day changes nothing: what had grown under the wire is still there. What the last
    look saw to bite bites. `history`: of the tree, so far as its looks count.
    """
    if growth is None or wire.sort != "wire" or not wire.thickness_mm or wire.thickness_mm < 0:
        return None
    bite = _since(wire.since, wire.thickness_mm, growth)
    day, finding = _last_look(history, wire)
    if finding == "biting" and (bite is None or day < bite.day):
        return Bite(day, phrase("The wire was seen to bite."))
    if finding in _NOT_BITING and bite is not None and bite.day <= day:
        bite = _since(day, wire.thickness_mm, growth)
    return bite


def _since(wired: date, wire_mm: float, growth: Growth) -> Bite | None:
    """The first day on which so much has grown; many trees are wired on one day."""
    key = "bites", wired, wire_mm, growth.vigour, growth.girth_mm, growth.base_c
    return growth.outlook.kept(key, partial(_reckoned, wired, wire_mm, growth))


def _reckoned(wired: date, wire_mm: float, growth: Growth) -> Bite | None:
    girth_mm = girth_growth_mm(growth.vigour, growth.girth_mm)
    wanted = share_until_it_bites(girth_mm, wire_mm)
    first, last = growing_year_days(wired, growth.outlook.southern)
    for begins in (first, last + DAY):
        trace = growth.outlook.heat(begins, growth.base_c)
        season = trace.sums[-1]
        if season <= 0:
            return None
        passed = trace.at(wired) / season
        # Heat beyond the season's makes no more wood.
        day = trace.reaches((passed + wanted) * season) if passed + wanted <= 1 else None
        if day is not None:
            because = phrase(
                "{wire_mm:g} mm wire is reckoned to bite about {day}: by the heat sum "
                "of the season, at {girth_mm:g} mm of girth a year (vigour {vigour} of "
                "5; common practice, no source).",
                wire_mm=wire_mm,
                day=day,
                girth_mm=girth_mm,
                vigour=growth.vigour,
            )
            return Bite(day, because)
        wanted -= 1 - passed
    return None


def _last_look(history: Sequence[Entry], wire: OnTree) -> tuple[date, str]:
    """The last look since it was put on that tells whether a wire bites, and its finding; the day
    it was put on and "" where there is none."""
    for entry in reversed(history):
        event = entry.event
        if event.day <= wire.since:
            break
        if event.act == "checked" and event.exact and not entry.undone:
            finding = found_on(event, "wire", wire.part)
            if finding == "biting" or finding in _NOT_BITING:
                return event.day, finding
    return wire.since, ""
