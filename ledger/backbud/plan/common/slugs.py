"""In a damp mild spell, while leaves are young, slugs are looked for: once a spring."""

from __future__ import annotations

from datetime import timedelta

from backbud.climate.dryness import ARID_UNDER, aridity
from backbud.climate.slug_weather import DAYS
from backbud.plan.common.outdoors import growth_begins, lives_outdoors, usually_over, warms_to
from backbud.plan.common.spell_ahead import stands_open
from backbud.species import (
    CHANCE,
    ROUTINE,
    Proposal,
    Proposals,
    Season,
    Tree,
    Weight,
    Window,
    Year,
    each,
)
from backbud.tongue import phrase

# BBCH, leaf fall over: leaves and needles that stay all winter are too tough for them. Under every
# pot they are looked for as it is cleaned (spring_clean.py).
_BARE = 97
# At such a mean of the day leaves are out or come, and so long they are soft; ours, no source.
SOFT_FROM_C = 9.0
_BY_MONTHS = (3, 1), (3, 20), (5, 1)
_BEFORE, _SOFT_FOR, _LASTS = timedelta(days=14), timedelta(days=42), timedelta(days=14)


@each("year", rule="slugs", as_it_stands=True)
def on_damp_nights(tree: Tree, season: Season, year: Year) -> Proposals:
    """By the place's warmth and, where its rain is known, by damp nights: so one round does for all
    trees, and in a dry or cold spring nobody is asked. Common practice, no source."""
    if year.stage(_BARE) is None or not lives_outdoors(tree, year) or not stands_open(year):
        return
    if not growth_begins(year):
        return
    found = _when(year)
    if found is None:
        return
    window, datum, weight = found
    yield Proposal(
        "checked",
        window,
        what=phrase("for slugs: under pots and rims, by torch after dark"),
        because=phrase("On damp mild nights they graze young leaves, buds and moss."),
        datum=datum,
        cautions=(
            phrase("Pick them off. If bait is used, its label decides, and nothing else eats it."),
        ),
        settled_by=("checked slugs", "checked pests"),
        weight=weight,
    )


def _when(year: Year) -> tuple[Window, str, Weight] | None:
    """When, why, and how much it matters: where no damp night is known of, keepers look for some
    trees and not for others. None where it is not the weather for them."""
    if year.outlook is None:
        return year.months(*_BY_MONTHS), year.no_weather, CHANCE
    soft, datum = _soft_leaves(year)
    lately = min(soft.opens, year.today) - timedelta(days=DAYS)
    if not year.outlook.tells_rain(lately, min(soft.closes, year.today)):
        dry = aridity(year.outlook.air.means, year.outlook.latitude, soft.opens, soft.closes)
        return (year.rounded(soft), datum, CHANCE) if dry is None or dry >= ARID_UNDER else None
    damp = year.outlook.slug_nights(soft.opens, soft.closes)
    if damp is None:
        return None
    said = (
        phrase(
            "In the week up to {day} {rain_mm:.0f} mm will have fallen, in mild nights.",
            day=damp.day,
            rain_mm=damp.rain_mm,
        )
        if damp.day > year.today
        else phrase(
            "In the week up to {day} {rain_mm:.0f} mm fell, in mild nights.",
            day=damp.day,
            rain_mm=damp.rain_mm,
        )
    )
    return Window(damp.day, damp.day, damp.day + _LASTS), said, ROUTINE


def _soft_leaves(year: Year) -> tuple[Window, str]:
    """When leaves are soft at a place; by months where no winter week is so cold."""
    warm = warms_to(year, SOFT_FROM_C)
    if warm is None:
        return year.months(*_BY_MONTHS), year.by_months
    return Window(warm - _BEFORE, warm, warm + _SOFT_FOR), usually_over(SOFT_FROM_C, warm)
