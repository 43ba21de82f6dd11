"""The follow-ups of a written journal, by a part of their id."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

import pytest

from backbud.plan.followups import FollowUp
from backbud.plan.run import Plan, plan_all
from backbud.session import Session
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Season,
    Species,
    Stage,
    StageMonths,
    Tree,
    Window,
    Year,
    after,
    days_after,
    each,
    when,
)

ROUNDS = frozenset({"spring-clean", "slugs"})
WANTED = ("overdue", "now", "coming")


class Pattern(Species):
    """A species for tests: a few plain rules, whose windows are easy to reckon."""

    botanical = "Arbor exempli"
    common = ("pattern tree",)
    stage_months: ClassVar[StageMonths] = {1: ((3, 1), (3, 15), (3, 31))}

    @when(1, rule="repot")
    def repot(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Three years after the last time."""
        last = tree.last_of("repotted", "potted-on")
        if last is not None and stage.day.year - last.day.year >= 3:
            yield Proposal(
                "repotted",
                Window(stage.first, stage.day, stage.last),
                "It is repotted every three years.",
                datum=f"Last on {last.day}.",
                weight=PRESSING,
            )

    @each("spring", rule="feed-spring")
    def feed_in_spring(self, tree: Tree, season: Season, year: Year) -> Proposals:
        yield Proposal(
            "fed", year.months((4, 1), (4, 10), (4, 30)), "It is fed in spring.", weight=PRESSING
        )

    @each("autumn", rule="feed-autumn")
    def feed_in_autumn(self, tree: Tree, season: Season, year: Year) -> Proposals:
        yield Proposal(
            "fed", year.months((9, 15), (10, 1), (10, 15)), "It is fed in autumn.", weight=PRESSING
        )

    @each("summer", rule="trim")
    def trim(self, tree: Tree, season: Season, year: Year) -> Proposals:
        yield Proposal(
            "trimmed",
            year.months((6, 1), (6, 5), (6, 15)),
            "Low shoots first.",
            what="low shoots",
            part="low",
            weight=PRESSING,
        )
        yield Proposal(
            "trimmed",
            year.months((6, 20), (6, 25), (7, 5)),
            "Then the rest.",
            what="the rest",
            part="rest",
            weight=PRESSING,
        )

    @each("summer", rule="trim-late")
    def trim_late(self, tree: Tree, season: Season, year: Year) -> Proposals:
        yield Proposal(
            "trimmed", year.months((8, 1), (8, 10), (8, 20)), "The second flush.", weight=PRESSING
        )

    @after("pruned", rule="shelter")
    def in_and_out(self, tree: Tree, done: Event, year: Year) -> Proposals:
        yield Proposal(
            "moved", days_after(done.day, 0, 1, 7), "Under glass.", part="in", weight=PRESSING
        )
        yield Proposal(
            "moved", days_after(done.day, 14, 21, 28), "Out again.", part="out", weight=PRESSING
        )


def _plan(session: Session, species: Species | None) -> Plan:
    """The plan; with a species, as if every tree were of it."""
    if species is None:
        return session.plan()
    return plan_all(
        session.journal, session.histories, lambda kind: species, session.weather, session.today
    ).value


@pytest.fixture
def pattern() -> Species:
    return Pattern()


@pytest.fixture
def find() -> Callable[..., FollowUp]:
    """`find(session, "wire-check/")`: the one follow-up whose id holds it; more or none fails."""

    def one(session: Session, part: str, species: Species | None = None) -> FollowUp:
        plan = _plan(session, species)
        found = plan.find(part)
        assert len(found) == 1, (part, [f.id for f in plan.all()])
        return found[0]

    return one


@pytest.fixture
def states() -> Callable[..., dict[str, str]]:
    """The state of every follow-up whose id holds a word, by id; without the rounds that every tree
    outdoors is asked each year (test_outdoors.py)."""

    def of(session: Session, part: str = "", species: Species | None = None) -> dict[str, str]:
        found = [
            f for f in _plan(session, species).all() if not ROUNDS.intersection(f.id.split("/"))
        ]
        return {f.id: f.state(session.today) for f in found if part in f.id}

    return of


@pytest.fixture
def wanted(states: Callable[..., dict[str, str]]) -> Callable[..., set[str]]:
    """The ids that hold a word and want doing."""

    def of(session: Session, part: str = "", species: Species | None = None) -> set[str]:
        found = states(session, part, species)
        return {ident for ident, state in found.items() if state in WANTED}

    return of


@pytest.fixture
def days() -> Callable[[FollowUp], list[str]]:
    """The first, best and last day of a window."""

    def of(follow_up: FollowUp) -> list[str]:
        window = follow_up.window
        return [day.isoformat() for day in (window.opens, window.best, window.closes)]

    return of
