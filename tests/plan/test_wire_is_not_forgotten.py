"""Whatever wire is on a tree, a look at it or its taking off stays asked for."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from textwrap import dedent

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.examples import examples
from tests.plan.conftest import WANTED

from backbud.session import Session

CARDS = "tree hoshi\n  kind  trident maple\n"
WIRED = "2024-03-20\nhoshi\n  wired  2 mm Al on left 1, 2 mm Al on left 2\n"
PARTS = ("left 1", "left 2")
FINDINGS = ("fine", "tight", "biting")


def asked_about(session: Session) -> set[str]:
    """The parts of the tree whose wire is asked about: "" is all of it."""
    return {
        next((part for part in PARTS if part in f.title), "")
        for f in session.plan().follow_ups["hoshi"]
        if f.state(session.today) in WANTED
        and ("checked wire" in f.settled_by or f.act == "unwired")
    }


def is_remembered(session: Session) -> bool:
    tree = session.plan().trees["hoshi"]
    asked = asked_about(session)
    return all("" in asked or thing.part in asked for thing in tree.on("wire"))


def test_a_look_at_one_branch_leaves_the_other_asked_for(written) -> None:
    """The second look sets its own next day; it says nothing of the first branch."""
    session = written(
        CARDS
        + WIRED
        + dedent("""\
        2024-08-20
        hoshi
          checked  wire on left 1, fine
        2024-10-20
        hoshi
          checked  wire on left 2, fine, again in 6 weeks
        """),
        "2026-11-25",
    )
    assert asked_about(session) >= {"left 1", "left 2"}


def test_looking_does_not_take_off(written) -> None:
    """Wire that has been on for a year is to come off, however often it was looked at."""
    looks = "".join(f"2024-{month:02d}-20\nhoshi\n  checked  wire fine\n" for month in range(4, 12))
    session = written(CARDS + WIRED + looks, "2025-06-01")
    off = [
        f
        for f in session.plan().follow_ups["hoshi"]
        if "/wire-off/" in f.id and f.state(session.today) in WANTED
    ]
    assert {f.title for f in off} == {"unwire on left 1", "unwire on left 2"}


checks = st.lists(
    st.tuples(
        st.integers(10, 900),
        st.sampled_from((*PARTS, "")),
        st.sampled_from(FINDINGS),
        st.sampled_from(("", ", again in 6 weeks", ", again in 3 months")),
    ),
    max_size=6,
)


@settings(
    max_examples=examples(40),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(checks=checks, taken_off=st.sampled_from((None, *PARTS)), later=st.integers(0, 400))
def test_wire_on_a_tree_is_asked_about(
    written: Callable[..., Session],
    checks: list[tuple[int, str, str, str]],
    taken_off: str | None,
    later: int,
) -> None:
    lines = [
        (day, f"checked  wire {finding}{f' on {part}' if part else ''}{again}")
        for day, part, finding, again in checks
    ]
    if taken_off:
        lines.append((500, f"unwired  on {taken_off}"))
    first = date(2024, 3, 20)
    pages = "".join(
        f"{first + timedelta(days=day)}\nhoshi\n  {line}\n" for day, line in sorted(set(lines))
    )
    on = first + timedelta(days=max([day for day, _ in lines], default=0) + later)
    session = written(CARDS + WIRED + pages, on.isoformat())
    assert is_remembered(session), (pages, asked_about(session))


@pytest.mark.parametrize(
    "found",
    ["biting on left 1, loose", "fine, some biting on left 1", "biting on left 1, fine on left 2"],
)
def test_what_bites_is_not_put_right_by_what_else_was_found(written, found: str) -> None:
    pages = f"2024-05-20\nhoshi\n  checked  wire {found}\n"
    session = written(CARDS + WIRED + pages, "2024-05-21")
    off = {
        (f.title, f.window.opens, f.window.closes)
        for f in session.plan().follow_ups["hoshi"]
        if "/wire-check-again/" in f.id and f.act == "unwired"
    }
    # It comes off within a week of the day on which it was seen to bite.
    assert ("unwire on left 1", date(2024, 5, 20), date(2024, 5, 27)) in off


@pytest.mark.parametrize(
    "found",
    ["fine on left 1, biting on left 2", "fine on left 1, wire biting on left 2",
     "biting on left 2, fine on left 1", "fine, biting on left 2"],
)  # fmt: skip
def test_it_comes_off_where_it_bites_and_nowhere_else(written, found: str) -> None:
    pages = f"2024-05-20\nhoshi\n  checked  wire {found}\n"
    session = written(CARDS + WIRED + pages, "2024-05-21")
    asked = {
        (f.title, f.window.opens, f.window.closes)
        for f in session.plan().follow_ups["hoshi"]
        if "/wire-check-again/" in f.id
    }
    assert asked == {
        ("unwire on left 2", date(2024, 5, 20), date(2024, 5, 27)),
        ("check wire", date(2024, 6, 10), date(2024, 7, 1)),
    }


def test_wire_found_tight_is_looked_at_sooner_and_the_rest_when_it_was_due(written) -> None:
    """Common practice, no source: what is tight bites next."""
    pages = "2024-05-20\nhoshi\n  checked  wire fine on left 1, tight on left 2\n"
    session = written(CARDS + WIRED + pages, "2024-05-21")
    asked = {
        f.title: (f.window.opens, f.window.best, f.window.closes)
        for f in session.plan().follow_ups["hoshi"]
        if "/wire-check-again/" in f.id
    }
    assert asked == {
        "check wire on left 1": (date(2024, 6, 10), date(2024, 6, 17), date(2024, 7, 1)),
        "check wire on left 2": (date(2024, 5, 27), date(2024, 6, 3), date(2024, 6, 10)),
    }
