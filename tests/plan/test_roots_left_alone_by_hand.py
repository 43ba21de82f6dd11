"""While nobody would repot, nobody is asked to look at roots: on both sides of each bound.

Days are counted by hand; the terms are common practice, no source.
"""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace
from tests.plan.by_hand import due
from tests.species.conftest import Made

from backbud.collection.state import Tree
from backbud.plan.due import Due
from backbud.plan.roots_left_alone import roots_left_alone

MADE = Made()
LOOK = ("checked roots", "repotted", "root-pruned", "potted-on")


def look(best: str, closes: str = "", **more: Any) -> Due:
    given: dict[str, Any] = {"settled_by": LOOK, **more}
    return due("look", "checked", f"{best} {best} {closes or best}", rule="repot", **given)


def graft(opens: str, **more: Any) -> Due:
    window = f"{opens} {opens} 2027-12-31"
    return due("graft", "checked", window, settled_by=("checked graft", "separated"), **more)


def tree(*lines: tuple[str, str, str]) -> Tree:
    events = [MADE.event(*line) for line in lines]
    made = MADE.tree(*events)
    return replace(made, last={event.act: event for event in events})


def outcome(one: Due, of: Tree, *others: Due) -> str:
    return roots_left_alone([one, *others], of)[0].follow_up.outcome


@pytest.mark.parametrize(
    ("bend", "best", "expected"),
    [
        # Bent on 20 September 2025: a year later is 20 September 2026.
        ("heavy, on right 1", "2026-04-19", "replaced"),
        ("heavy, on right 1", "2026-09-19", "replaced"),
        ("heavy, on right 1", "2026-09-20", "open"),
        ("on right 1", "2026-04-19", "open"),
    ],
)
def test_in_the_year_after_a_heavy_bend(bend: str, best: str, expected: str) -> None:
    assert outcome(look(best), tree(("2025-09-20", "bent", bend))) == expected


def test_the_last_heavy_bend_counts() -> None:
    bends = tree(
        ("2024-09-20", "bent", "heavy"), ("2025-09-20", "bent", "heavy"), ("2026-01-10", "bent", "")
    )
    assert outcome(look("2026-09-19"), bends) == "replaced"
    assert outcome(look("2026-09-20"), bends) == "open"


@pytest.mark.parametrize(
    ("best", "expected"),
    [
        # Collected on 6 September 2025: 730 days later is 6 September 2027.
        ("2026-04-12", "replaced"),
        ("2027-04-12", "replaced"),
        ("2027-09-05", "replaced"),
        ("2027-09-06", "open"),
        ("2028-04-12", "open"),
    ],
)
def test_a_tree_from_the_wild_is_left_for_two_years(best: str, expected: str) -> None:
    assert outcome(look(best), tree(("2025-09-06", "collected", ""))) == expected


@pytest.mark.parametrize(
    ("others", "expected"),
    [
        ([graft("2026-09-10")], "replaced"),
        ([graft("2026-09-11")], "open"),
        ([graft("2026-08-23", outcome="done")], "open"),
        ([due("wire", "checked", "2026-08-23 2026-08-23 2026-09-13")], "open"),
        ([], "open"),
    ],
)
def test_while_a_graft_waits_to_be_seen_taken(others: list[Due], expected: str) -> None:
    asked = look("2026-08-26", "2026-09-10")
    assert outcome(asked, tree(("2026-05-31", "grafted", "cleft")), *others) == expected


@pytest.mark.parametrize(
    "asked",
    [
        # Roots that were seen to rot, a plan of the keeper's, a repotting, another look, what was
        # done.
        look("2026-04-19", event=MADE.event("2026-04-01", "checked", "roots rotten"), at=0),
        look("2026-04-19", planned=True, given_word=True),
        look("2026-04-19", outcome="done"),
        look("2026-04-19", settled_by=("checked roots", "checked strength")),
        due("repot", "repotted", "2026-04-19 2026-04-19 2026-04-19"),
    ],
)
def test_what_else_is_asked_of_roots_stays(asked: Due) -> None:
    bent = tree(("2025-09-20", "bent", "heavy"), ("2026-04-02", "collected", ""))
    assert roots_left_alone([asked], bent) == [asked]
