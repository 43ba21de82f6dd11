"""Keeping flowers from frost, and a tree from bearing more fruit than it has strength for.

Common practice, unless a rule names its source.
"""

from __future__ import annotations

from datetime import date, timedelta

from msgspec.structs import replace

from backbud.species import (
    ROUTINE,
    Proposal,
    Proposals,
    Rule,
    Species,
    Stage,
    Tree,
    Window,
    Year,
    phrase,
)
from backbud_species.habits.flowers import flowers_are_off
from backbud_species.habits.times import Time, week_of
from backbud_species.habits.warmth import UNKNOWN, under_cover
from backbud_species.habits.works import ALWAYS, watches_for, work

_TEXAS = "Texas A&M, Texas Plant Disease Handbook"


def spares_flowers(rule_id: str, when: Time, *, because: str, what: str) -> Rule:
    """Flower buds off, from any tree that is not written down as strong."""
    return work(
        rule_id,
        "disbudded",
        when,
        because=because,
        what=f"{what}; all of them on a weak tree",
        gate=ALWAYS,
        only_if=lambda tree, day, year: tree.strength != "strong",
    )


def covers_blossom(
    rule_id: str, *, because: str, frost_c: float = -2.0, buds_days: int = 10
) -> Rule:
    """Cover for swollen buds and open flowers (BBCH 60 to 69) while frosts (°C) still come.

    `buds_days`: how long before the first flower the buds are already in danger. Nothing where
    the place is covered, or where the last frost comes before the week in which the buds
    swell.
    """

    def ask(species: Species, tree: Tree, first: Stage, year: Year) -> Proposals:
        end = year.stage(69)
        if end is None or (year.cover and not under_cover(year, "open", "shade net")):
            return
        if flowers_are_off(tree, first.first, year):
            return
        opens, closes, datum = first.first - timedelta(days=buds_days), end.last, UNKNOWN
        if year.outlook is not None:
            frost = year.cold_nights_end(frost_c)
            swell = week_of(first.first) - timedelta(days=buds_days)
            if frost is None or week_of(frost.last) <= swell:
                return
            closes, datum = max(min(closes, frost.last), opens), frost.because
        yield Proposal(
            "protected",
            Window(opens, min(max(first.day, opens), closes), closes),
            what=phrase("buds and flowers against frost"),
            because=because,
            datum=datum,
            settled_by=("protected", "moved"),
            covers="any",
            weight=ROUTINE,
        )

    return Rule(rule_id, "stage", (), "year", 60, ask)


def thins_fruit(
    rule_id: str, when: Time, *, what: str, because: str, cautions: tuple[str, ...] = ()
) -> Rule:
    """Fruit thinned or taken off, unless all flowers came off in bud."""
    return work(
        rule_id,
        "thinned",
        when,
        because=because,
        what=what,
        cautions=cautions,
        only_if=_may_bear,
    )


def watches_for_fireblight(rule_id: str, when: Time) -> Rule:
    """A look for fireblight, which all of the apple tribe may take."""
    look = watches_for(
        rule_id,
        when,
        where="flowers and tips that turn black at once and hang on",
        because=(
            f"Fireblight enters through open flowers and kills down the twig, and "
            f"only the knife stops it ({_TEXAS})."
        ),
        cautions=(
            ("Cut 10 cm under the last stain, clean the blade each time, and burn what comes off."),
            "In some countries it has to be reported.",
        ),
    )
    return replace(look, source=_TEXAS)


def _may_bear(tree: Tree, day: date, year: Year) -> bool:
    return not flowers_are_off(tree, day, year)
