"""Shade in the hot weeks for trees whose leaves or roots suffer, where the summer passes 30 °C.

And no cutting of shoots in weeks of great heat, when growth stands still and bared leaves scorch,
nor of roots before it.
Common practice, no source; the figures are ours.
"""

from __future__ import annotations

from datetime import date, timedelta

from backbud.climate.outlook import Span
from backbud.species import (
    CARE,
    Figure,
    Proposal,
    Proposals,
    Rule,
    Season,
    Species,
    Tree,
    Window,
    Year,
    joined,
    phrase,
)
from backbud_species.habits.figures import DRY_SPELL_UNDER, GREAT_HEAT_OVER, SHADE_OVER

_A_WEEK = timedelta(days=7)
# So many days after the great heat shoots are cut, first, best and last; ours, no source.
_AS_IT_COOLS = (8, 22, 40)
# So long roots take to fill fresh soil; common practice, no source.
_ROOTS_TAKE = timedelta(weeks=6)
# By so much the hottest days pass the mean of their weeks, at the least; common practice.
_SINGLE_DAYS_K = 2.0


def shades_in_heat(rule_id: str, *, because: str, over: Figure = SHADE_OVER) -> Rule:
    """Shade from noon on in the hot weeks, only in a place that has them. `over`: the mean high of
    the day from which it wants it."""

    def ask(species: Species, tree: Tree, season: Season, year: Year) -> Proposals:
        for n, hot in enumerate(year.hot_spells(over.of(year))):
            # Shade that nobody took off in the cooler time between does for the second, too.
            if n and tree.on("shade"):
                return
            yield Proposal(
                "shaded",
                year.rounded(Window(hot.first - _A_WEEK, hot.first, hot.last)),
                what=phrase("from noon on, while it is hot"),
                because=because,
                datum=joined(
                    phrase(
                        "{removesuffix}, and single ones pass {celsius:.0f} °C ({name}, a setting "
                        "of ours).",
                        removesuffix=hot.because.removesuffix("."),
                        celsius=over.of(year) + _SINGLE_DAYS_K,
                        name=over.name,
                    ),
                    hot.because,
                ),
                settled_by=("shaded", "moved"),
                part="again" if n else "",
                weight=CARE,
            )

    return Rule(rule_id, "season", (), "summer", -1, ask, as_it_stands=True)


def cool_enough_to_thirst(tree: Tree, day: date, year: Year) -> bool:
    """Whether the three weeks from a day are over before days on which a dry pot kills, or after
    them."""
    return not any(
        hot.first - timedelta(weeks=3) < day <= hot.last
        for hot in year.hot_spells(DRY_SPELL_UNDER.of(year))
    )


def _great_heat(year: Year) -> tuple[Span, ...]:
    """The times of great heat; none for trees of warm countries, which take it."""
    return () if year.comes_in_below_c else year.hot_spells(GREAT_HEAT_OVER.of(year))


def heat_meets_new_roots(year: Year, window: Window) -> str:
    """That great heat comes before the roots of a work on its best day have taken; else "". Trees
    of warm countries take it."""
    begins = (hot.first for hot in _great_heat(year))
    if not any(window.best - _ROOTS_TAKE < day < window.best + _ROOTS_TAKE for day in begins):
        return ""
    return phrase(
        "After its flowers great heat comes before new roots have taken ({name}, a setting of "
        "ours): so it is done in spring, and the flower buds come off.",
        name=GREAT_HEAT_OVER.name,
    )


def after_great_heat(year: Year, window: Window, datum: str) -> tuple[Window, str]:
    """A window for cutting shoots, and the datum: after the great heat where its best day lies in
    it or in the weeks in which it cools. Trees of warm countries grow on."""
    cools = timedelta(days=_AS_IT_COOLS[1])
    found = (one for one in _great_heat(year) if one.first <= window.best <= one.last + cools)
    hot = next(found, None)
    if hot is None:
        return window, datum
    days = (hot.last + timedelta(days=n) for n in _AS_IT_COOLS)
    said = phrase(
        "{removesuffix} until {last}; growth stands still in it ({name}, a setting of ours).",
        removesuffix=hot.because.removesuffix("."),
        last=hot.last,
        name=GREAT_HEAT_OVER.name,
    )
    return year.rounded(Window(*days)), joined(said, hot.because)
