"""Rules for every tree, each asked by itself about a tree and a year made by hand."""

from __future__ import annotations

from datetime import date

import pytest
from msgspec.structs import replace
from tests.species.conftest import Made

from backbud.collection.state import OnTree
from backbud.plan.common.graft_takes import has_it_taken
from backbud.plan.common.slugs import on_damp_nights
from backbud.plan.common.weather_cover_off import weather_is_over
from backbud.plan.foliage import BARE, IN_LEAF, THINNED, Foliages
from backbud.species import CHANCE, Species
from backbud_species.trident_maple import TridentMaple

MADE = Made()


class Plain(Species):
    botanical = "Arbor exempli"
    common = ("plain tree",)


def days(window) -> list[str]:
    return [day.isoformat() for day in (window.opens, window.best, window.closes)]


# ------------------------------------------------------------------ graft_takes.py


@pytest.mark.parametrize(
    ("how", "looked_at"),
    [
        # 6, 8 and 10 weeks after 1 March; a thread graft takes 16, 20 and 26.
        ("side veneer", ["2027-04-12", "2027-04-26", "2027-05-10"]),
        ("thread", ["2027-06-21", "2027-07-19", "2027-08-30"]),
        ("approach", ["2027-06-21", "2027-07-19", "2027-08-30"]),
    ],
)
def test_when_a_graft_is_looked_at(how, looked_at) -> None:
    done = MADE.event("2027-03-01", "grafted", f"{how}, on left 1")
    [asked] = has_it_taken(MADE.tree(done), done, MADE.year(Plain()))
    assert days(asked.window) == looked_at


# ------------------------------------------------------------------ weather_cover_off.py


@pytest.mark.parametrize(
    ("against", "asked"), [("against frost", True), ("", True), ("against deer", False)]
)
def test_only_what_keeps_weather_off_comes_off_with_the_frost(against, asked) -> None:
    """A guard against deer stays; so does nothing that is no more on the tree."""
    done = MADE.event("2026-11-20", "protected", against)
    fleece = OnTree("protection", "fleece", "", 1, done.day, done)
    tree = replace(MADE.tree(done), on_tree=(fleece,))
    assert bool(list(weather_is_over(tree, done, MADE.year(Plain())))) is asked
    assert not list(weather_is_over(MADE.tree(done), done, MADE.year(Plain())))


# ------------------------------------------------------------------ slugs.py


@pytest.mark.parametrize(
    ("southern", "opens", "closes"),
    [(False, "2027-03-01", "2027-05-01"), (True, "2027-09-01", "2027-11-01")],
)
def test_where_nothing_is_known_of_the_weather_slugs_are_looked_for_by_months(
    southern, opens, closes
) -> None:
    species = TridentMaple()
    year = MADE.year(species, "unknown", southern=southern)
    [asked] = on_damp_nights(MADE.tree(), year.season("year"), year)
    assert (str(asked.window.opens), str(asked.window.closes)) == (opens, closes)
    assert asked.weight == CHANCE


# ------------------------------------------------------------------ foliage.py


@pytest.mark.parametrize(
    ("day", "text", "factor"),
    [
        ("2027-06-10", "full", BARE),
        ("2027-06-10", "", BARE),
        ("2027-06-10", "outer leaves", THINNED),
        # Of a month that is only roughly known nobody can say when the leaves are back.
        ("2027-06", "full", IN_LEAF),
    ],
)
def test_how_dense_its_leaves_are_from_the_day_on_which_they_came_off(day, text, factor) -> None:
    tree = MADE.tree(MADE.event(day, "defoliated", text))
    first, last = date(2027, 1, 1), date(2027, 12, 31)
    found = Foliages(None, False, first, last).of(tree, None)  # type: ignore[arg-type]
    assert found.factor(date(2027, 6, 11)) == factor
