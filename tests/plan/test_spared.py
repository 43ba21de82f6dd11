"""What a season asks of a tree that has to recover, on both sides of each bound; days are counted
by hand, the figures common practice, no source."""

from __future__ import annotations

from datetime import date

import pytest
from msgspec.structs import replace
from tests.plan.by_hand import due
from tests.plan.test_every_tree import MADE
from tests.plan.test_settle_by_hand import taken_back

from backbud.plan.due import Due
from backbud.plan.spared import spared
from backbud.species import Event, Tree

# Of a work that helps a tree: it was asked from 1 May on, and its days end on 12 June.
DAYS = "2027-05-01 2027-05-15 2027-06-12"
BARE = MADE.tree()


def event(act: str, *details: str, day: str = "2027-05-01") -> Event:
    return MADE.event(day, act, *details)


def care(rule: str, act: str = "repotted", **more: object) -> Due:
    return due("care", "checked", DAYS, rule=rule, event=event(act), **more)  # type: ignore[arg-type]


def asked(*dues: Due, tree: Tree = BARE, on: str = "2027-05-20") -> dict[str, str]:
    """The day from which each work is asked, or what became of it."""
    return {
        one.follow_up.id: one.follow_up.window.opens.isoformat()
        if one.follow_up.outcome == "open"
        else one.follow_up.outcome
        for one in spared(dues, tree, date.fromisoformat(on))
        if one.follow_up.id != "care"
    }


FEED = due("feed", "fed", "2027-05-10 2027-05-20 2027-07-10")
WIRE = due("wire", "wired", "2027-05-10 2027-05-20 2027-07-10")


@pytest.mark.parametrize(
    ("rule", "act", "feed", "wire"),
    [
        ("out-of-its-time", "repotted", "2027-06-13", "2027-06-13"),
        ("out-of-its-time", "defoliated", "2027-06-13", "2027-06-13"),
        # What lost its branches too late is fed on; candles cut late are fed at once.
        ("out-of-its-time", "pruned", "2027-05-10", "2027-06-13"),
        ("out-of-its-time", "decandled", "2027-05-10", "2027-05-10"),
        ("leaves-dry", "checked", "2027-06-13", "2027-06-13"),
        ("leaves-damaged", "checked", "2027-06-13", "2027-06-13"),
        ("buds-dead", "checked", "2027-06-13", "2027-06-13"),
        # Rot holds all of it back for a year.
        ("roots-rot", "checked", "replaced", "replaced"),
        ("wire-check", "wired", "2027-05-10", "2027-05-10"),
    ],
)
def test_what_a_care_that_is_open_holds_back(rule, act, feed, wire) -> None:
    assert asked(care(rule, act), FEED, WIRE) == {"feed": feed, "wire": wire}


def test_once_it_is_answered_all_is_asked_again() -> None:
    done = care("out-of-its-time", outcome="done")
    assert asked(done, FEED, WIRE) == {"feed": "2027-05-10", "wire": "2027-05-10"}


@pytest.mark.parametrize(
    ("on", "opens"),
    [
        # In its days it is taken that somebody answers it in them.
        ("2027-06-12", "2027-06-13"),
        # Late it holds back for a season of 150 days, until 9 November.
        ("2027-06-13", "replaced"),
    ],
)
def test_what_nobody_answers(on, opens) -> None:
    assert asked(care("out-of-its-time"), FEED, on=on) == {"feed": opens}
    late = due("late", "fed", "2027-11-01 2027-11-12 2027-11-30")
    assert asked(care("out-of-its-time"), late, on="2027-06-13") == {"late": "2027-11-10"}


@pytest.mark.parametrize(
    ("window", "is_left"),
    [
        # From 13 June on a week of it is left, or not.
        ("2027-05-10 2027-05-20 2027-06-19", "2027-06-13"),
        ("2027-05-10 2027-05-20 2027-06-18", "replaced"),
        # It ended before, or begins after.
        ("2027-04-01 2027-04-10 2027-04-30", "2027-04-01"),
        ("2027-06-13 2027-06-20 2027-06-24", "2027-06-13"),
    ],
)
def test_a_week_is_left_or_it_is_asked_no_more(window, is_left) -> None:
    assert asked(care("leaves-dry"), due("feed", "fed", window)) == {"feed": is_left}


def test_the_keepers_word_is_asked_in_any_case() -> None:
    own = due("own", "wired", "2027-05-10 2027-05-20 2027-07-10", given_word=True)
    put_off = due(
        "put-off", "wired", "2027-05-10 2027-05-20 2027-07-10", moved_from="2027-04-01 " * 3
    )
    after_a_work = due("after", "pruned", "2027-05-10 2027-05-20 2027-07-10", event=event("wired"))
    kept = {"own": "2027-05-10", "put-off": "2027-05-10", "after": "2027-05-10"}
    assert asked(care("leaves-dry"), own, put_off, after_a_work) == kept


@pytest.mark.parametrize(
    ("done", "wire"),
    [
        # Four weeks from 1 May end on 29 May, six on 12 June.
        (event("repotted", "off 30 %"), "2027-05-30"),
        (event("collected"), "2027-05-30"),
        (event("defoliated", "full"), "2027-06-13"),
        (event("defoliated", "partial"), "2027-05-10"),
        (event("repotted", "no root work"), "2027-05-10"),
        (event("trimmed"), "2027-05-10"),
    ],
)
def test_fresh_roots_and_bare_twigs_hold_no_work_on_the_shape(done, wire) -> None:
    tree = MADE.tree(done)
    assert asked(FEED, WIRE, tree=tree) == {"feed": "2027-05-10", "wire": wire}
    undone = replace(tree, history=tuple(map(taken_back, tree.history)))
    assert asked(WIRE, tree=undone) == {"wire": "2027-05-10"}
