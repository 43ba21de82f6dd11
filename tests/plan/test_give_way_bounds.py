"""What stands for what, on both sides of each bound; the follow-ups are made by hand.

The days are counted by hand; the figures themselves are common practice, no source.
"""

from __future__ import annotations

from datetime import date

import pytest
from tests.plan.by_hand import ROWS, due

from backbud.journal.events import Event
from backbud.plan.common.fresh_roots_out import FRESH_ROOTS
from backbud.plan.common.root_rest import ROOT_REST
from backbud.plan.common.winter_frost import CUT_ROOTS, WINTER
from backbud.plan.due import Due
from backbud.plan.give_way import given_way
from backbud.species import Foretold, Weight
from backbud_grammar.dates import read_date

# Where something stood before it was put off.
FIRST = "2027-05-01 2027-05-05 2027-05-10"
# Two lines of 6 March 2027, that are alike and not the same.
EVENTS = tuple(
    Event("noted", read_date("2027-03-06"), (), "", "", "", "hoshi", "journal.txt", line, 3)
    for line in (7, 8)
)


def outcomes(*dues: Due) -> dict[str, str]:
    return {one.follow_up.id: one.follow_up.outcome for one in given_way(dues)}


# ------------------------------------------------------------------ one way out of a cover


@pytest.mark.parametrize(
    ("other", "gone"),
    [
        # 42 days before 10 March is 27 January, 42 days after 10 May is 21 June.
        ("2027-01-01 2027-01-20 2027-01-26", False),
        ("2027-01-01 2027-01-20 2027-01-27", True),
        ("2027-06-21 2027-06-25 2027-06-30", True),
        ("2027-06-22 2027-06-25 2027-06-30", False),
    ],
)
def test_two_ways_out_near_one_another_are_one(other, gone) -> None:
    """That of the later cause stands for the other."""
    late = due("late", "moved", "2027-03-10 2027-04-05 2027-05-10", part="out", at=5)
    early = due("early", "moved", other, part="out", at=4)
    assert outcomes(early, late) == {"late": "open", "early": "replaced" if gone else "open"}


@pytest.mark.parametrize(
    ("first", "second", "open_still"),
    [
        # A species' own goes before that of every tree, whichever came first.
        ({"rule": "winter-quarters-out", "at": 9}, {"part": "out", "at": 2}, "second"),
        ({"part": "out", "at": 2}, {"rule": "winter-quarters-out", "at": 9}, "first"),
        # Of two of the same sort that of the last cause, then the last by id.
        ({"part": "out", "at": 3}, {"part": "out", "at": 2}, "first"),
        ({"part": "out", "at": 2}, {"part": "out", "at": 2}, "second"),
        ({"rule": "winter-quarters-out", "at": 3},
         {"rule": "winter-quarters-out", "at": 2}, "first"),
    ],
)  # fmt: skip
def test_which_way_out_stands(first, second, open_still) -> None:
    window = "2027-03-10 2027-04-05 2027-05-10"
    found = outcomes(
        due("first", "moved", window, **first), due("second", "moved", window, **second)
    )
    assert [one for one, outcome in found.items() if outcome == "open"] == [open_still]


@pytest.mark.parametrize(
    "other",
    [
        # It goes in; it is another act; it is done already.
        {"act": "moved", "part": "in"},
        {"act": "moved", "part": ""},
        {"act": "unprotected", "part": "out"},
        {"act": "unprotected", "rule": "winter-quarters-out"},
        {"act": "moved", "part": "out", "outcome": "skipped"},
    ],
)
def test_what_is_no_way_out_stays(other) -> None:
    window = "2027-03-10 2027-04-05 2027-05-10"
    out = due("out", "moved", window, part="out", at=9)
    kept = due("other", window=window, **other)
    assert outcomes(out, kept) == {"out": "open", "other": kept.follow_up.outcome}


def test_what_gave_way_makes_nothing_else_give_way() -> None:
    """The second is near the first, the third is near the second and not near the first."""
    first = due("first", "moved", "2027-06-01 2027-06-05 2027-06-10", part="out", at=3)
    second = due("second", "moved", "2027-04-15 2027-04-18 2027-04-20", part="out", at=2)
    third = due("third", "moved", "2027-03-01 2027-03-05 2027-03-10", part="out", at=1)
    assert outcomes(first, second, third) == {
        "first": "open",
        "second": "replaced",
        "third": "open",
    }


# ------------------------------------------------------------------ one shelter

SPELL = Foretold("frost", date(2027, 4, 10), "-3 °C")


@pytest.mark.parametrize(
    ("window", "gone"),
    [
        ("2027-03-01 2027-03-05 2027-04-08", False),
        ("2027-03-01 2027-03-05 2027-04-09", True),
        ("2027-04-10 2027-04-12 2027-04-20", True),
        ("2027-04-11 2027-04-12 2027-04-20", False),
    ],
)
def test_the_shelter_from_a_foretold_frost_stands_for_what_it_meets(window, gone) -> None:
    spell = due(
        "spell", "protected", "2027-04-09 2027-04-09 2027-04-10", foretold=SPELL, covers="any"
    )
    winter = due("winter", "protected", window, covers="any")
    assert outcomes(winter, spell) == {"spell": "open", "winter": "replaced" if gone else "open"}


@pytest.mark.parametrize(
    "other",
    [
        # Another act, another sort of cover, another spell, and what is done.
        {"act": "moved", "covers": "any"},
        {"act": "protected", "covers": "warm"},
        {"act": "protected", "covers": ""},
        {"act": "protected", "covers": "any", "foretold": SPELL},
        {"act": "protected", "covers": "any", "outcome": "done"},
    ],
)
def test_what_asks_for_another_shelter_stays(other) -> None:
    window = "2027-04-09 2027-04-09 2027-04-10"
    spell = due("spell", "protected", window, foretold=SPELL, covers="any")
    kept = due("other", window=window, **other)
    assert outcomes(spell, kept) == {"spell": "open", "other": kept.follow_up.outcome}


@pytest.mark.parametrize(
    ("spell", "state"),
    [({}, "replaced"), ({"outcome": "skipped"}, "open"), ({"covers": ""}, "open")],
)
def test_a_frost_whose_shelter_is_done_with_stands_for_nothing(spell, state) -> None:
    window = "2027-04-09 2027-04-09 2027-04-10"
    said = {"foretold": SPELL, "covers": "any", **spell}
    found = outcomes(
        due("spell", "protected", window, **said),
        due("winter", "protected", window, covers="any"),
    )
    assert found["winter"] == state


@pytest.mark.parametrize(
    ("young", "mature", "state"),
    [
        ({"rule": CUT_ROOTS}, {"rule": WINTER}, "replaced"),
        # Only the winter's own, and only while the other asks.
        ({"rule": CUT_ROOTS}, {"rule": "some-rule"}, "open"),
        ({"rule": "some-rule"}, {"rule": WINTER}, "open"),
        ({"rule": CUT_ROOTS, "outcome": "done"}, {"rule": WINTER}, "open"),
        ({"rule": CUT_ROOTS, "covers": "warm"}, {"rule": WINTER}, "open"),
        ({"rule": CUT_ROOTS, "act": "moved"}, {"rule": WINTER}, "open"),
    ],
)
def test_shelter_for_cut_roots_stands_for_the_winters(young, mature, state) -> None:
    said = {"act": "protected", "window": "2026-11-01 2026-11-10 2026-12-01", "covers": "any"}
    found = outcomes(due("young", **{**said, **young}), due("mature", **{**said, **mature}))
    assert found["mature"] == state


OTHER_DAYS = "2026-12-02 2026-12-10 2026-12-20"


@pytest.mark.parametrize(
    ("young", "rest", "state"),
    [
        ([{}], {}, "replaced"),
        # It brings no cover of its own, and need not.
        ([{}], {"covers": ""}, "replaced"),
        ([{"rule": CUT_ROOTS}], {}, "open"),
        ([{"rule": CUT_ROOTS}, {}], {}, "replaced"),
        ([], {}, "open"),
        # Other days, another act, another rule; what is done, of either.
        ([{"window": OTHER_DAYS}], {}, "open"),
        ([{"window": OTHER_DAYS}, {"rule": CUT_ROOTS}], {}, "open"),
        ([{"act": "moved"}], {}, "open"),
        ([{}], {"rule": "some-rule"}, "open"),
        ([{"outcome": "done"}], {}, "open"),
        ([{}], {"outcome": "done"}, "done"),
    ],
)
def test_shelter_for_roots_cut_under_a_cover_stands_for_their_rest(young, rest, state) -> None:
    said = {"act": "protected", "window": "2026-11-01 2026-11-10 2026-12-01", "covers": "any"}
    dues = [
        due(f"young-{n}", **{**said, "rule": FRESH_ROOTS, **one}) for n, one in enumerate(young)
    ]
    found = outcomes(*dues, due("rest", **{**said, "rule": ROOT_REST, **rest}))
    assert found["rest"] == state


# ------------------------------------------------------------------ a plan and a proposal


@pytest.mark.parametrize(
    ("best", "state"),
    [
        # Planned for April: 42 days before 1 April is 18 February, after 30 April is 11 June.
        ("2027-02-17", "open"),
        ("2027-02-18", "replaced"),
        ("2027-06-11", "replaced"),
        ("2027-06-12", "open"),
    ],
)
def test_a_plan_stands_for_what_is_best_within_six_weeks_of_it(best, state) -> None:
    plan = due("plan", "pruned", "2027-04-01 2027-04-15 2027-04-30", planned=True)
    other = due("other", "pruned", f"{best} {best} {best}")
    assert outcomes(plan, other) == {"plan": "open", "other": state}


@pytest.mark.parametrize(
    ("best", "state"),
    [
        # It was due from 1 March: 42 days before is 18 January; put off to 30 April as above.
        ("2027-01-17", "open"),
        ("2027-01-18", "replaced"),
        ("2027-06-11", "replaced"),
        ("2027-06-12", "open"),
    ],
)
def test_what_was_put_off_stands_from_where_it_was_due_first(best, state) -> None:
    plan = due(
        "plan",
        "pruned",
        "2027-04-01 2027-04-15 2027-04-30",
        moved_from="2027-03-01 2027-03-05 2027-03-10",
    )
    other = due("other", "pruned", f"{best} {best} {best}")
    assert outcomes(plan, other) == {"plan": "open", "other": state}


@pytest.mark.parametrize(
    ("best", "state"),
    [
        # What is done once a year: 365 days before 1 April 2027 is 1 April 2026, and 180 days
        # after 30 April 2027 is 27 October.
        ("2026-03-31", "open"),
        ("2026-04-01", "replaced"),
        ("2027-10-27", "replaced"),
        ("2027-10-28", "open"),
    ],
)
def test_a_planned_repotting_stands_for_a_year_before_and_half_a_year_after(best, state) -> None:
    assert "once_a_year" in ROWS["repotted"].traits
    plan = due("plan", "repotted", "2027-04-01 2027-04-15 2027-04-30", planned=True)
    other = due("other", "repotted", f"{best} {best} {best}")
    assert outcomes(plan, other) == {"plan": "open", "other": state}


@pytest.mark.parametrize("word", ["skipped", "lapsed", "replaced"])
def test_a_plan_that_is_done_with_stands_for_nothing(word) -> None:
    window = "2027-04-01 2027-04-15 2027-04-30"
    found = outcomes(
        due("plan", "pruned", window, word, planned=True), due("other", "pruned", window)
    )
    assert found == {"plan": word, "other": "open"}


@pytest.mark.parametrize(
    ("plan", "other", "state"),
    [
        # A branch within the one that was planned, and one that is not; all of the tree.
        ("left", "left 2", "replaced"),
        ("left 2", "right 2", "open"),
        ("left 2", "", "open"),
        ("", "left 2", "replaced"),
    ],
)
def test_a_plan_of_a_part_stands_for_that_part(plan, other, state) -> None:
    window = "2027-04-01 2027-04-15 2027-04-30"
    found = outcomes(
        due("plan", "pruned", window, where=plan, planned=True),
        due("other", "pruned", window, where=other),
    )
    assert found == {"plan": "open", "other": state}


@pytest.mark.parametrize(
    ("at_stake", "becomes"),
    [("life", "life"), ("style", "harm")],
)
def test_a_plan_weighs_as_much_as_what_gave_way_to_it(at_stake, becomes) -> None:
    window = "2027-04-01 2027-04-15 2027-04-30"
    plan = due("plan", "pruned", window, planned=True, weight=Weight("harm", True, "stays"))
    other = due("other", "pruned", window, weight=Weight(at_stake, False, "lapses"))
    found = {one.follow_up.id: one.follow_up for one in given_way([plan, other])}
    # It stays as bound to be done, and as lasting, as the keeper made it.
    assert found["plan"].weight == Weight(becomes, True, "stays")
    assert found["other"].outcome == "replaced"


@pytest.mark.parametrize(
    ("second", "gone"),
    [
        # The same said twice; the first by id stays.
        ({}, True),
        ({"title": "prune hard"}, False),
        ({"window": "2027-04-01 2027-04-15 2027-04-29"}, False),
    ],
)
def test_a_plan_said_twice_stands_once(second, gone) -> None:
    said = {"act": "pruned", "window": "2027-04-01 2027-04-15 2027-04-30", "planned": True}
    both = due("a", **said), due("b", **{**said, **second})
    for order in (1, -1):
        assert outcomes(*both[::order]) == {"a": "open", "b": "replaced" if gone else "open"}


@pytest.mark.parametrize(
    ("looked_at", "state"), [("checked wire", "replaced"), ("checked ties", "open")]
)
def test_a_planned_look_stands_for_a_look_at_the_same_thing(looked_at, state) -> None:
    window = "2027-04-01 2027-04-15 2027-04-30"
    plan = due("plan", "checked", window, planned=True, settled_by=("checked wire", "checked guys"))
    other = due("other", "checked", window, settled_by=(looked_at,))
    assert outcomes(plan, other) == {"plan": "open", "other": state}


@pytest.mark.parametrize(
    ("plan", "other", "state"),
    [
        ("pruned", "trimmed", "open"),
        # Another act stays even where one line settles both.
        ("repotted", "root-pruned", "open"),
        ("pruned", "pruned", "replaced"),
    ],
)
def test_a_plan_stands_for_nothing_but_its_own_act(plan, other, state) -> None:
    window = "2027-04-01 2027-04-15 2027-04-30"
    said = {"settled_by": (plan, other)}
    found = outcomes(
        due("plan", plan, window, planned=True, **said), due("other", other, window, **said)
    )
    assert found == {"plan": "open", "other": state}


def test_works_of_one_act_need_not_be_settled_by_the_same() -> None:
    """Of a check it counts what is looked at, of any other act its word alone."""
    window = "2027-04-01 2027-04-15 2027-04-30"
    found = outcomes(
        due("plan", "bent", window, planned=True, settled_by=("bent",)),
        due("other", "bent", window, settled_by=("checked strength",)),
    )
    assert found == {"plan": "open", "other": "replaced"}


@pytest.mark.parametrize(
    ("outcome", "same_line", "state"),
    [
        ("done", True, "replaced"),
        ("done", False, "done"),
        ("skipped", True, "skipped"),
        ("lapsed", True, "lapsed"),
        ("replaced", True, "replaced"),
    ],
)
def test_of_what_is_done_with_a_plan_stands_only_for_what_its_own_line_did(
    outcome, same_line, state
) -> None:
    window = "2027-04-01 2027-04-15 2027-04-30"
    line, another = EVENTS
    plan = due("plan", "pruned", window, "done", planned=True, settled=line)
    other = due("other", "pruned", window, outcome, settled=line if same_line else another)
    assert outcomes(plan, other) == {"plan": "done", "other": state}


@pytest.mark.parametrize(
    ("one", "other", "left"),
    [
        # Both were moved there: the plan stays, whatever the ids; of two proposals the first.
        ({"planned": True, "moved_from": FIRST}, {"moved_from": FIRST}, {"one"}),
        ({"moved_from": FIRST}, {"planned": True, "moved_from": FIRST}, {"other"}),
        ({"moved_from": FIRST}, {"moved_from": FIRST}, {"one"}),
        # A proposal was moved to where a plan of it stands already; a plan to where another is.
        ({"planned": True}, {"moved_from": FIRST}, {"one"}),
        ({"moved_from": FIRST}, {"planned": True}, {"other"}),
        ({"planned": True, "title": "prune hard"}, {"moved_from": FIRST}, {"one"}),
        ({"planned": True}, {"planned": True, "moved_from": FIRST}, {"one"}),
        (
            {"planned": True, "title": "prune hard"},
            {"planned": True, "moved_from": FIRST},
            {"one", "other"},
        ),
        # What is planned in other words stands beside it, unless one word moved both.
        (
            {"planned": True, "moved_from": FIRST, "title": "prune hard"},
            {"planned": True},
            {"one", "other"},
        ),
        (
            {"planned": True, "moved_from": FIRST, "title": "prune hard"},
            {"planned": True, "moved_from": FIRST},
            {"one"},
        ),
        # Said twice, but of two parts.
        ({"planned": True, "where": "left 1"}, {"planned": True, "where": "left 1"}, {"one"}),
        ({"planned": True}, {"planned": True, "where": "left 1"}, {"one", "other"}),
    ],
)
def test_of_two_that_the_keeper_set_to_one_window_one_stays(one, other, left) -> None:
    window = "2027-06-01 2027-06-15 2027-06-30"
    for order in (1, -1):
        both = [due("one", "pruned", window, **one), due("other", "pruned", window, **other)]
        found = outcomes(*both[::order])
        assert {ident for ident, outcome in found.items() if outcome == "open"} == left


@pytest.mark.parametrize(
    ("best", "state"),
    [
        # Said on 6 March 2027: 365 days before is 6 March 2026.
        ("2026-03-05", "open"),
        ("2026-03-06", "replaced"),
    ],
)
def test_a_planned_repotting_stands_for_what_was_due_in_the_year_before_it_was_said(
    best, state
) -> None:
    plan = due(
        "plan", "repotted", "2028-04-01 2028-04-15 2028-04-30", planned=True, event=EVENTS[0]
    )
    other = due("other", "repotted", f"{best} {best} {best}")
    assert outcomes(plan, other) == {"plan": "open", "other": state}


@pytest.mark.parametrize(
    ("best", "state"),
    [
        # Nobody planned it on a day, it was put off: 365 days before 1 April 2028.
        ("2027-04-01", "open"),
        ("2027-04-02", "replaced"),
    ],
)
def test_what_an_act_asked_for_and_was_put_off_counts_from_its_first_window(best, state) -> None:
    plan = due(
        "plan",
        "repotted",
        "2028-05-01 2028-05-15 2028-05-30",
        moved_from="2028-04-01 2028-04-15 2028-04-30",
        event=EVENTS[0],
    )
    other = due("other", "repotted", f"{best} {best} {best}")
    assert outcomes(plan, other) == {"plan": "open", "other": state}


def test_a_plan_said_after_its_window_had_opened_counts_from_the_window() -> None:
    """365 days before 1 March 2027, not before 6 March, on which it was said."""
    window = "2027-03-01 2027-03-15 2027-03-30"
    plan = due("plan", "repotted", window, planned=True, event=EVENTS[0])
    for best, state in (("2026-02-28", "open"), ("2026-03-01", "replaced")):
        other = due("other", "repotted", f"{best} {best} {best}")
        assert outcomes(plan, other) == {"plan": "open", "other": state}
