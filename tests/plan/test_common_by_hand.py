"""Rules for every tree, each asked by itself about a tree and a year made by hand."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.species.conftest import Made

from backbud.collection.state import OnTree
from backbud.plan.common.graft_takes import has_it_taken
from backbud.plan.common.weather_cover_off import weather_is_over
from backbud.species import Species

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
