"""What became of a due, on both sides of each bound; dues and lines are made by hand.

The days are counted by hand; the figures themselves are common practice, no source. Of a window
that opens on 1 June 2027, 28 days before is 4 May, 60 days 2 April and 180 days 3 December.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from msgspec.structs import replace
from tests.plan.by_hand import days, due
from tests.species.conftest import Made

from backbud.collection.state import Entry, OnTree, Tree
from backbud.journal.events import Event
from backbud.plan.due import Due
from backbud.plan.followups import FollowUp, Reason
from backbud.plan.settle import settled
from backbud.species import CHANCE, PRESSING, ROUTINE, STAYS_ON, Foretold, Weight

MADE = Made()
JUNE = "2027-06-01 2027-06-08 2027-06-15"
# The lines that a due hangs on stand before all others.
WIRED = MADE.event("2026-03-01", "wired", "2 mm Al on left 2")
PRUNED = MADE.event("2026-03-01", "pruned")
Line = tuple[str, str, str] | tuple[str, str]


def a_tree(*lines: Line, first: Event = PRUNED, on: tuple[OnTree, ...] = ()) -> Tree:
    """A tree with one line before all others, and these."""
    events = [
        replace(MADE.event(*line), line=n) for n, line in enumerate(lines, start=first.line + 1)
    ]
    return replace(MADE.tree(first, *events), on_tree=on)


def after(
    dues: list[Due],
    tree: Tree,
    *,
    southern: bool = False,
    cover: str = "",
    plans: tuple[Due, ...] = (),
) -> dict[str, FollowUp]:
    """What became of each due, by id."""
    found = settled(
        dues,
        tree,
        southern,
        lambda event: Reason("plan", event.act),
        lambda event, at: plans,
        lambda event: cover,
    )
    return {one.follow_up.id: one.follow_up for one in found}


def outcome(one: Due, *lines: Line, cover: str = "", first: Event = PRUNED) -> str:
    return after([one], a_tree(*lines, first=first), cover=cover)[one.follow_up.id].outcome


def outcomes(dues: list[Due], *lines: Line) -> dict[str, str]:
    return {ident: one.outcome for ident, one in after(dues, a_tree(*lines)).items()}


# ------------------------------------------------------------------ how early a work counts


@pytest.mark.parametrize(
    ("act", "more", "last", "first"),
    [
        ("trimmed", {}, "2027-05-03", "2027-05-04"),
        ("trimmed", {"planned": True}, "2027-04-01", "2027-04-02"),
        # Nobody cuts roots twice in half a year.
        ("repotted", {}, "2026-12-02", "2026-12-03"),
        ("slipped", {}, "2026-12-02", "2026-12-03"),
        ("root-pruned", {}, "2026-12-02", "2026-12-03"),
        ("root-pruned", {"planned": True}, "2026-12-02", "2026-12-03"),
        # As the rule says.
        ("trimmed", {"early": timedelta(10)}, "2027-05-21", "2027-05-22"),
        ("repotted", {"early": timedelta(10)}, "2027-05-21", "2027-05-22"),
        ("trimmed", {"event": PRUNED, "at": 0}, "2027-05-03", "2027-05-04"),
        ("unwired", {}, "2027-05-03", "2027-05-04"),
    ],
)
def test_how_early_a_work_counts(act, more, last, first) -> None:
    one = due("one", act, JUNE, **more)
    assert outcome(one, (last, act)) == "open"
    assert outcome(one, (first, act)) == "done"


@pytest.mark.parametrize(
    ("day", "line", "expected"),
    [
        # Common practice, no source: a week. The window opens on 1 June 2027.
        ("2027-05-24", ("checked", "pests none"), "open"),
        ("2027-05-25", ("checked", "pests none"), "done"),
        ("2027-05-24", ("treated", "soap"), "open"),
        ("2027-05-25", ("treated", "soap"), "done"),
        ("2027-05-24", ("checked", ""), "open"),
        ("2027-05-25", ("checked", ""), "done"),
        ("2027-06-15", ("checked", "pests none"), "done"),
    ],
)
def test_what_comes_in_its_own_weeks_is_not_seen_long_before_them(day, line, expected) -> None:
    one = due("one", "checked", JUNE, settled_by=("checked pests", "treated"))
    assert outcome(one, (day, *line)) == expected


@pytest.mark.parametrize(
    ("line", "more", "expected"),
    [
        # Roots stand as they did four weeks before; a planned look is the keeper's own.
        (("2027-05-04", "checked", "roots fine"), {"settled_by": ("checked roots",)}, "done"),
        (("2027-04-02", "checked", "pests none"), {"planned": True}, "done"),
        # Nor is it a look for pests that a treatment and a look may settle, but a treatment.
        (("2027-05-04", "treated", "soap"), {"act": "treated"}, "done"),
    ],
)
def test_other_works_count_as_early_as_ever(line, more, expected) -> None:
    by_default = {"act": "checked", "settled_by": ("checked pests", "treated")}
    asked = {**by_default, **more}
    assert outcome(due("one", asked.pop("act"), JUNE, **asked), line) == expected


@pytest.mark.parametrize(
    ("settled_by", "line", "more", "expected"),
    [
        # What comes off comes off on any day, where an act put it on.
        ("unwired", ("2026-03-02", "unwired"), {}, "done"),
        ("unwired", ("2026-03-02", "unwired"), {"planned": True}, "done"),
        # A look at what is named counts on any day; a bare one when it is time, as does any look
        # at what the keeper planned.
        ("checked wire", ("2026-03-02", "checked", "wire fine"), {}, "done"),
        ("checked wire", ("2026-03-02", "checked", ""), {}, "open"),
        ("checked wire", ("2027-05-03", "checked", ""), {}, "open"),
        ("checked wire", ("2027-05-04", "checked", ""), {}, "done"),
        ("checked wire", ("2027-05-21", "checked", "wire fine"), {"early": timedelta(10)}, "open"),
        ("checked wire", ("2027-05-22", "checked", "wire fine"), {"early": timedelta(10)}, "done"),
        ("checked wire", ("2027-04-01", "checked", "wire fine"), {"planned": True}, "open"),
        ("checked wire", ("2027-04-02", "checked", "wire fine"), {"planned": True}, "done"),
    ],
)
def test_what_an_act_asked_for_is_done_on_any_day(settled_by, line, more, expected) -> None:
    act = settled_by.split()[0]
    one = due("one", act, JUNE, settled_by=(settled_by,), event=WIRED, at=0, **more)
    assert outcome(one, line, first=WIRED) == expected


def test_what_was_planned_to_end_ends_on_any_day() -> None:
    """But a look: it is planned for a time."""
    apart = MADE.event("2026-03-01", "quarantined")
    one = due("one", "released", JUNE, event=apart, at=0, planned=True)
    assert outcome(one, ("2026-03-02", "released"), first=apart) == "done"


def test_nothing_before_its_cause_counts() -> None:
    tree = a_tree(("2027-06-02", "trimmed"), ("2027-06-03", "watered"))
    for at, expected in ((-1, "done"), (0, "done"), (1, "open"), (2, "open")):
        one = due("one", "trimmed", JUNE, event=PRUNED, at=at)
        assert after([one], tree)["one"].outcome == expected


# ------------------------------------------------------------------ what settles it


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        (("2027-06-02", "trimmed"), "done"),
        (("2027-09-02", "trimmed"), "done"),
        (("2027-06-02", "pruned"), "open"),
    ],
)
def test_its_act_settles_a_work(line, expected) -> None:
    assert outcome(due("one", "trimmed", JUNE), line) == expected


def test_what_is_done_in_part_is_not_done() -> None:
    assert outcome(due("one", "unwired", JUNE), ("2027-06-02", "unwired", "partly")) == "open"
    assert outcome(due("one", "unwired", JUNE), ("2027-06-02", "unwired")) == "done"


def test_what_is_summed_up_is_settled_by_no_line() -> None:
    assert outcome(due("one", "fed", JUNE, by_sum=True), ("2027-06-02", "fed")) == "open"
    assert outcome(due("one", "fed", JUNE), ("2027-06-02", "fed")) == "done"


def test_the_first_line_that_settles_it_is_told() -> None:
    tree = a_tree(("2027-06-02", "trimmed"), ("2027-06-09", "trimmed"))
    one = after([due("one", "trimmed", JUNE)], tree)["one"]
    assert one.settled is not None
    assert one.settled.day == date(2027, 6, 2)


@pytest.mark.parametrize(
    ("said", "expected"), [("", "done"), ("against frost", "done"), ("against cats", "open")]
)
def test_a_net_against_cats_is_no_shelter_from_the_cold(said, expected) -> None:
    assert outcome(due("one", "protected", JUNE), ("2027-06-02", "protected", said)) == expected


def test_what_is_treated_against_need_not_be_weather() -> None:
    assert (
        outcome(due("one", "treated", JUNE), ("2027-06-02", "treated", "against scale")) == "done"
    )


@pytest.mark.parametrize(
    ("covers", "line", "cover", "expected"),
    [
        ("", ("2027-06-02", "moved", "tunnel"), "open", "done"),
        ("any", ("2027-06-02", "moved", "tunnel"), "open", "open"),
        ("any", ("2027-06-02", "moved", "tunnel"), "cold frame", "done"),
        ("warm", ("2027-06-02", "moved", "tunnel"), "cold frame", "open"),
        ("warm", ("2027-06-02", "moved", "tunnel"), "heated glass 5 C", "done"),
        # Any act but a move brings what it says.
        ("warm", ("2027-06-02", "protected", "against frost"), "open", "done"),
    ],
)
def test_a_move_into_the_open_brings_no_shelter(covers, line, cover, expected) -> None:
    one = due("one", "moved", JUNE, covers=covers, settled_by=("moved", "protected"))
    assert outcome(one, line, cover=cover) == expected


@pytest.mark.parametrize(
    ("day", "expected"), [("2027-06-30", "done"), ("2027-07-01", "open"), ("2027-07-02", "open")]
)
def test_from_its_day_on_the_next_one_stands_for_it(day, expected) -> None:
    one = due("one", "trimmed", JUNE, next_cycle=date(2027, 7, 1))
    assert outcome(one, (day, "trimmed")) == expected


@pytest.mark.parametrize("state", ["skipped", "replaced", "lapsed"])
def test_what_is_settled_stays_so(state) -> None:
    assert outcome(due("one", "trimmed", JUNE, state), ("2027-06-02", "trimmed")) == state


def test_a_line_that_is_taken_back_settles_nothing() -> None:
    tree = a_tree(("2027-06-02", "trimmed"))
    [first, trim] = tree.history
    left = after([due("one", "trimmed", JUNE)], replace(tree, history=(first, taken_back(trim))))
    assert left["one"].outcome == "open"


def taken_back(entry: Entry) -> Entry:
    """It with a later line that says that it was not done."""
    later = MADE.event("2027-07-01", "corrected", "trimmed 2027-06-02, not done")
    undone = Entry(replace(entry.event, details=later.details), corrected_by=later)
    assert undone.undone
    return undone


# ------------------------------------------------------------------ one after another


LATE_JUNE = "2027-06-20 2027-06-25 2027-07-05"


@pytest.mark.parametrize(
    ("day", "more", "done"),
    [
        # Those whose turn it is: before the first window that alone, and each once it has opened.
        ("2027-05-25", {}, {"one"}),
        ("2027-06-10", {}, {"one"}),
        ("2027-06-19", {}, {"one"}),
        ("2027-06-20", {}, {"one", "two"}),
        # On another part it was done to all that it was done to; of another rule each by itself.
        ("2027-06-10", {"where": "left 2"}, {"one", "two"}),
        ("2027-06-10", {"rule": "other"}, {"one", "two"}),
        ("2027-06-10", {"cause": "2028"}, {"one", "two"}),
    ],
)
def test_of_works_one_after_another_those_are_done_whose_turn_it_is(day, more, done) -> None:
    dues = [due("two", "trimmed", LATE_JUNE, **more), due("one", "trimmed", JUNE)]
    found = outcomes(dues, (day, "trimmed"))
    assert {ident for ident, state in found.items() if state == "done"} == done


def test_two_that_open_on_one_day_are_done_together_before_it() -> None:
    dues = [due("one", "trimmed", JUNE), due("two", "trimmed", JUNE)]
    assert outcomes(dues, ("2027-05-25", "trimmed")) == {"one": "done", "two": "done"}


def test_the_second_time_settles_the_second() -> None:
    dues = [due("one", "trimmed", JUNE), due("two", "trimmed", LATE_JUNE)]
    lines = (("2027-06-10", "trimmed"), ("2027-06-12", "trimmed"))
    assert outcomes(dues, *lines) == {"one": "done", "two": "done"}


# ------------------------------------------------------------------ parts of the tree


@pytest.mark.parametrize(
    ("where", "event", "said", "expected"),
    [
        ("left 2", WIRED, "", "done"),
        ("left 2", WIRED, "on left 2", "done"),
        ("left 2", WIRED, "on left", "done"),
        ("left 2", WIRED, "on right 2", "open"),
        ("left 2", None, "on right 2", "open"),
        # Off one branch says nothing of the others; but for what no act put on.
        ("", WIRED, "", "done"),
        ("", WIRED, "on left 2", "open"),
        ("", None, "on left 2", "done"),
    ],
)
def test_where_a_work_was_done(where, event, said, expected) -> None:
    one = due("one", "unwired", JUNE, where=where, event=event, at=0)
    # So that nothing is told by what is on the tree in the end.
    wire = OnTree("wire", "2 mm Al", "left 2", 1, WIRED.day, WIRED)
    tree = a_tree(("2027-06-02", "unwired", said), first=WIRED, on=(wire,))
    assert after([one], tree)["one"].outcome == expected


def test_a_work_on_one_part_is_done_where_it_need_not_be_told_of_the_others() -> None:
    one = due("one", "trimmed", JUNE, event=PRUNED, at=0)
    assert outcome(one, ("2027-06-02", "trimmed", "on left 2")) == "done"
    # What is cut free is one part of the tree.
    apart = due("one", "separated", JUNE, event=PRUNED, at=0)
    line = ("2027-06-02", "separated", "on left 2, as hina")
    assert outcome(apart, line) == "done"


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("wire fine", "done"),
        ("", "done"),
        ("ties fine", "open"),
        ("ties fine, wire fine", "done"),
        ("wire fine on left 2", "open"),
        # Where it bites, and when to look again, is said after a look at all of it.
        ("wire biting on left 2", "done"),
        ("wire fine on left 2, again in 4 weeks", "done"),
        ("wire not biting on left 2", "open"),
    ],
)
def test_a_look_settles_what_was_looked_at(said, expected) -> None:
    one = due("one", "checked", JUNE, settled_by=("checked wire",), event=WIRED, at=0)
    assert outcome(one, ("2027-06-02", "checked", said), first=WIRED) == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [("wire fine on left 2", "done"), ("wire biting on right 1", "open"), ("wire fine", "done")],
)
def test_a_look_at_a_part_settles_that_part(said, expected) -> None:
    one = due(
        "one", "checked", JUNE, settled_by=("checked wire",), where="left 2", event=WIRED, at=0
    )
    assert outcome(one, ("2027-06-02", "checked", said), first=WIRED) == expected


@pytest.mark.parametrize(
    ("said", "expected"), [("pot", "done"), ("", "done"), ("trunk", "open"), ("pot, trunk", "done")]
)
def test_a_word_behind_the_act_is_asked_for(said, expected) -> None:
    one = due("one", "cleaned", JUNE, settled_by=("cleaned pot",))
    assert outcome(one, ("2027-06-02", "cleaned", said)) == expected
    assert outcome(due("one", "cleaned", JUNE), ("2027-06-02", "cleaned", said)) == "done"


def test_any_of_its_acts_settles_it() -> None:
    one = due("one", "checked", JUNE, settled_by=("checked ties", "untied", "repotted"))
    for line, expected in (
        (("2027-06-02", "checked", "wire fine"), "open"),
        (("2027-06-02", "untied"), "done"),
        (("2027-06-02", "repotted", "same pot"), "done"),
        (("2027-06-02", "unwired"), "open"),
    ):
        assert outcome(one, line) == expected


def test_who_wires_anew_has_taken_the_old_wire_off() -> None:
    one = due("one", "unwired", JUNE, where="left 2", event=WIRED, at=0)
    line = ("2027-06-02", "wired", "3 mm Al on left 2")
    again = OnTree("wire", "3 mm Al", "left 2", 1, date(2027, 6, 2), WIRED)
    for said, expected in (("", "open"), (", old wire off", "done")):
        tree = a_tree((*line[:2], line[2] + said), first=WIRED, on=(again,))
        assert after([one], tree)["one"].outcome == expected


# ------------------------------------------------------------------ none of it is left


@pytest.mark.parametrize(
    ("where", "more", "on", "expected"),
    [
        # Off left 2, where alone it was: that is all of it.
        ("", {}, (), "done"),
        ("", {}, ("left 2",), "open"),
        ("", {}, ("right 1",), "open"),
        ("right 1", {}, ("left 2",), "done"),
        ("right 1", {}, ("right 1",), "open"),
        ("", {"settled_by": ("checked wire", "unwired")}, (), "done"),
        ("", {"settled_by": ("checked wire",)}, (), "open"),
        ("", {"event": None}, (), "done"),
    ],
)
def test_what_was_to_come_off_is_done_once_none_of_it_is_on(where, more, on, expected) -> None:
    one = due("one", "unwired", JUNE, where=where, **{"event": WIRED, "at": 0, **more})
    wires = tuple(OnTree("wire", "2 mm Al", part, 1, WIRED.day, WIRED) for part in on)
    tree = a_tree(("2027-06-02", "unwired", "on left 2"), first=WIRED, on=wires)
    assert after([one], tree)["one"].outcome == expected


def test_what_came_off_before_it_was_put_on_settles_nothing() -> None:
    again = replace(MADE.event("2027-02-01", "wired", "2 mm Al on left 2"), line=9)
    one = due("one", "unwired", JUNE, event=again, at=1)
    tree = MADE.tree(MADE.event("2027-01-01", "unwired", "on left 1"), again)
    assert after([one], tree)["one"].outcome == "open"
    off = replace(MADE.event("2027-03-01", "unwired", "on left 1"), line=10)
    done = after([one], MADE.tree(again, off))["one"]
    assert (done.outcome, done.settled) == ("done", off)


def test_what_came_off_in_part_is_not_told_done_by_its_own_line() -> None:
    part = MADE.event("2027-06-02", "unwired", "partly")
    one = due("one", "unwired", JUNE, event=part, at=0)
    assert after([one], MADE.tree(part))["one"].outcome == "open"


def test_what_was_skipped_is_not_done_when_it_comes_off() -> None:
    one = due("one", "unwired", JUNE, "skipped", event=WIRED, at=0)
    tree = a_tree(("2027-06-02", "unwired", "on left 2"), first=WIRED)
    assert after([one], tree)["one"].outcome == "skipped"


def test_of_a_season_nothing_is_told_by_what_is_on_the_tree() -> None:
    one = due("one", "unwired", JUNE)
    # Too early to count.
    assert outcome(one, ("2027-03-02", "unwired", "on left 2"), first=WIRED) == "open"


# ------------------------------------------------------------------ skipped


@pytest.mark.parametrize(
    ("day", "weight", "expected"),
    [
        # 399 days before it opens it is the next; 400 days before nobody speaks of it.
        ("2026-04-27", CHANCE, "open"),
        ("2026-04-28", CHANCE, "skipped"),
        ("2027-06-15", CHANCE, "skipped"),
        # It is over, but for what stays.
        ("2027-06-16", CHANCE, "open"),
        ("2027-06-16", PRESSING, "skipped"),
    ],
)
def test_what_a_skip_speaks_of(day, weight, expected) -> None:
    assert outcome(due("one", "trimmed", JUNE, weight=weight), (day, "skipped", "trim")) == expected


def test_a_skip_is_told_with_its_line() -> None:
    said = Reason("rule", "Because it grows.")
    one = replace(due("one", "trimmed", JUNE), follow_up=follow_up(because=(said,)))
    left = after([one], a_tree(("2027-06-02", "skipped", "trim")))["one"]
    assert left.because == (said, Reason("plan", "skipped"))
    assert left.settled is not None
    assert left.settled.act == "skipped"


def follow_up(**more: Any) -> FollowUp:
    return replace(due("one", "trimmed", JUNE).follow_up, **more)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        (("2027-06-02", "skipped", "trim"), "skipped"),
        (("2027-06-02", "put-off", "trim"), "skipped"),
        (("2027-06-02", "skipped", "prune"), "open"),
        # On a day that is only roughly known nothing is skipped.
        (("2027-06", "skipped", "trim"), "open"),
    ],
)
def test_what_is_skipped_is_named(line, expected) -> None:
    assert outcome(due("one", "trimmed", JUNE), line) == expected


def test_a_skip_without_an_act_or_taken_back_leaves_all_as_it_was() -> None:
    tree = a_tree(("2027-06-02", "skipped", "trim"))
    [first, skip] = tree.history
    for entry in (Entry(replace(skip.event, named="")), taken_back(skip)):
        left = after([due("one", "trimmed", JUNE)], replace(tree, history=(first, entry)))
        assert left["one"].outcome == "open"


def test_what_its_line_caused_later_is_not_skipped() -> None:
    tree = a_tree(("2027-06-02", "watered"), ("2027-06-03", "skipped", "trim"))
    for at, expected in ((1, "skipped"), (2, "open"), (3, "open")):
        one = due("one", "trimmed", JUNE, event=PRUNED, at=at)
        assert after([one], tree)["one"].outcome == expected


@pytest.mark.parametrize(
    ("where", "said", "expected"),
    [
        ("", "trim", "skipped"),
        ("left 2", "trim", "skipped"),
        ("left 2", "trim on left 2", "skipped"),
        ("left 2", "trim on right 1", "open"),
        ("", "trim on right 1", "open"),
    ],
)
def test_a_skip_of_a_part(where, said, expected) -> None:
    assert outcome(due("one", "trimmed", JUNE, where=where), ("2027-06-02", "skipped", said)) == (
        expected
    )


def test_what_is_due_now_is_skipped_and_not_what_comes() -> None:
    later = "2027-06-30 2027-07-05 2027-07-10"
    dues = [due("one", "trimmed", JUNE), due("two", "trimmed", later, rule="other")]
    # 28 days before 30 June is 2 June.
    assert outcomes(dues, ("2027-06-01", "skipped", "trim")) == {"one": "skipped", "two": "open"}
    assert outcomes(dues, ("2027-06-02", "skipped", "trim")) == {"one": "skipped", "two": "skipped"}


def test_of_what_comes_the_next_is_skipped_and_what_opens_before_it_is_over() -> None:
    one = due("one", "trimmed", "2027-08-01 2027-08-10 2027-08-20")
    for opens, expected in (("2027-08-20", "skipped"), ("2027-08-21", "open")):
        two = due("two", "trimmed", f"{opens} 2027-09-01 2027-09-10", rule="other")
        found = outcomes([one, two], ("2027-06-01", "skipped", "trim"))
        assert found == {"one": "skipped", "two": expected}


@pytest.mark.parametrize(("day", "expected"), [("2027-05-31", "open"), ("2027-06-01", "skipped")])
def test_a_word_before_what_is_foretold_speaks_of_another_spell(day, expected) -> None:
    one = due("one", "shaded", JUNE, foretold=Foretold("heat", date(2027, 6, 1), "34 °C"))
    assert outcome(one, (day, "skipped", "shade")) == expected


@pytest.mark.parametrize(
    ("day", "event", "expected"),
    [
        # Said when it was over it speaks of the season that was; 120 days after 30 June is
        # 28 October.
        ("2027-10-27", None, "open"),
        ("2027-10-28", None, "skipped"),
        # What an act asked for is another thing.
        ("2027-10-27", PRUNED, "skipped"),
    ],
)
def test_just_after_a_season_a_word_speaks_of_that_season(day, event, expected) -> None:
    over = due("over", "trimmed", "2027-06-01 2027-06-10 2027-06-30", weight=CHANCE, cause="2027")
    coming = due(
        "next", "trimmed", "2028-06-01 2028-06-10 2028-06-30",
        weight=CHANCE, cause="2028", event=event, at=0 if event else -1,
    )  # fmt: skip
    assert outcomes([over, coming], (day, "skipped", "trim")) == {"over": "open", "next": expected}


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ({}, "open"),
        # What speaks of no season that is over leaves the next one to be meant: another act, done,
        # a part that is not meant, one that stays, and what came of a later line.
        ({"act": "pruned"}, "skipped"),
        ({"act": "pruned", "settled_by": ("pruned", "trimmed")}, "open"),
        ({"outcome": "done"}, "skipped"),
        ({"settled_by": ("pruned",)}, "open"),
        ({"weight": PRESSING}, "open"),
        ({"event": PRUNED, "at": 1}, "skipped"),
    ],
)
def test_which_season_is_just_over(more, expected) -> None:
    given = {"act": "trimmed", "outcome": "open", "weight": CHANCE, **more}
    act, state = given.pop("act"), given.pop("outcome")
    over = due("over", act, "2027-06-01 2027-06-10 2027-06-30", state, **given)
    coming = due("next", "trimmed", "2028-06-01 2028-06-10 2028-06-30", weight=CHANCE)
    found = outcomes([over, coming], ("2027-08-01", "skipped", "trim"))
    assert found["next"] == expected


def test_a_season_of_another_part_is_not_the_one_that_is_over() -> None:
    over = due("over", "trimmed", JUNE, weight=CHANCE, where="right 1")
    coming = due("next", "trimmed", "2028-06-01 2028-06-10 2028-06-30", where="left 2")
    assert outcomes([over, coming], ("2027-08-01", "skipped", "trim on left 2")) == {
        "over": "open", "next": "skipped",
    }  # fmt: skip


# ------------------------------------------------------------------ what a skip means


@pytest.mark.parametrize(
    ("weight", "more", "expected"),
    [
        # What is on the tree stays on it: who skips a repotting does not leave the ties in.
        (STAYS_ON, {}, "open"),
        (STAYS_ON, {"given_word": True}, "skipped"),
        (STAYS_ON, {"moved_from": "2027-05-01 2027-05-05 2027-05-10"}, "skipped"),
        (ROUTINE, {}, "skipped"),
        (PRESSING, {}, "skipped"),
    ],
)
def test_what_a_repotting_settles_too_is_skipped_with_it_but_for_what_stays(
    weight, more, expected
) -> None:
    ties = due("ties", "untied", JUNE, settled_by=("untied", "repotted"), weight=weight, **more)
    assert outcomes([ties], ("2027-06-02", "skipped", "repot")) == {"ties": expected}


def test_what_has_the_very_act_is_meant_before_what_it_settles_too() -> None:
    roots = due("roots", "repotted", JUNE)
    look = due("look", "checked", JUNE, settled_by=("checked roots", "repotted"))
    found = outcomes([roots, look], ("2027-06-02", "skipped", "repot"))
    assert found == {"roots": "skipped", "look": "open"}
    assert outcomes([look], ("2027-06-02", "skipped", "repot")) == {"look": "skipped"}
    assert outcomes([look], ("2027-06-02", "skipped", "wire")) == {"look": "open"}


def test_of_looks_the_one_at_what_is_named_is_skipped() -> None:
    wire = due("wire", "checked", JUNE, settled_by=("checked wire", "unwired"))
    ties = due("ties", "checked", JUNE, settled_by=("checked ties",))
    found = outcomes([wire, ties], ("2027-06-02", "skipped", "check wire"))
    assert found == {"wire": "skipped", "ties": "open"}
    found = outcomes([wire, ties], ("2027-06-02", "skipped", "check"))
    assert found == {"wire": "skipped", "ties": "skipped"}


def test_what_a_look_settles_is_skipped_by_its_first_word() -> None:
    ties = due("ties", "untied", JUNE, settled_by=("untied", "checked ties"), weight=ROUTINE)
    assert outcomes([ties], ("2027-06-02", "skipped", "check ties")) == {"ties": "skipped"}
    assert outcomes([ties], ("2027-06-02", "skipped", "check wire")) == {"ties": "open"}


# ------------------------------------------------------------------ put off


def test_what_is_put_off_is_the_keepers_word_and_shows_where_it_was() -> None:
    one = due("one", "trimmed", JUNE, weight=CHANCE, next_cycle=date(2028, 1, 1), cause="pruned")
    left = after([one], a_tree(("2027-06-02", "put-off", "trim, to 2027-08")))["one"]
    assert (left.outcome, left.next_cycle) == ("open", None)
    # The middle of 31 days.
    assert left.window == days("2027-08-01 2027-08-16 2027-08-31")
    assert left.moved_from == days(JUNE)
    assert left.weight == Weight("style", must=True, once_past="stays")
    assert left.because == (Reason("plan", "put-off"),)


def test_what_is_put_off_twice_was_where_it_began() -> None:
    lines = (
        ("2027-06-02", "put-off", "trim, to 2027-08"),
        ("2027-08-02", "put-off", "trim, to 2027-09"),
    )
    left = after([due("one", "trimmed", JUNE, cause="pruned")], a_tree(*lines))["one"]
    assert left.window == days("2027-09-01 2027-09-15 2027-09-30")
    assert left.moved_from == days(JUNE)


def test_what_is_put_off_is_done_in_its_new_time() -> None:
    one = due("one", "trimmed", JUNE, cause="pruned")
    lines = (("2027-06-02", "put-off", "trim, to 2027-08"), ("2027-08-05", "trimmed"))
    assert outcome(one, *lines) == "done"


def test_what_was_put_off_with_nothing_due_is_a_plan() -> None:
    plan = due("plan", "pruned", "2027-08-01 2027-08-16 2027-08-31", planned=True)
    tree = a_tree(("2027-06-02", "put-off", "prune, to 2027-08"), ("2027-08-05", "pruned"))
    left = after([due("one", "trimmed", JUNE)], tree, plans=(plan,))
    assert {ident: one.outcome for ident, one in left.items()} == {"one": "open", "plan": "done"}
    # With something due it is that; skipped, it is none.
    both = after([due("two", "pruned", JUNE)], tree, plans=(plan,))
    assert "plan" not in both
    skip = a_tree(("2027-06-02", "skipped", "prune"))
    assert "plan" not in after([due("one", "trimmed", JUNE)], skip, plans=(plan,))


def test_what_is_put_off_without_an_act_is_no_plan() -> None:
    plan = due("plan", "pruned", "2027-08-01 2027-08-16 2027-08-31", planned=True)
    tree = a_tree(("2027-06-02", "put-off", "prune, to 2027-08"))
    nameless = Entry(replace(tree.history[1].event, named=""))
    left = after([], replace(tree, history=(tree.history[0], nameless)), plans=(plan,))
    assert left == {}
    assert set(after([], tree, plans=(plan,))) == {"plan"}


REPOT = "hoshi/repot/2027"


@pytest.mark.parametrize(
    ("ident", "more", "to", "southern", "now"),
    [
        # To another year it is that year's.
        (REPOT, {}, "2028-03", False, "hoshi/repot/2028"),
        (REPOT, {}, "2027-09", False, REPOT),
        ("hoshi/repot/2027/apex", {}, "2028-03", False, "hoshi/repot/2028/apex"),
        # In the south a year begins with July.
        ("hoshi/repot/2026-27", {"cause": "2026-27"}, "2027-09", True, "hoshi/repot/2027-28"),
        ("hoshi/repot/2026-27", {"cause": "2026-27"}, "2027-06", True, "hoshi/repot/2026-27"),
        # What hangs on an act, or is a plan, keeps its cause.
        (REPOT, {"event": PRUNED, "at": 0}, "2028-03", False, REPOT),
        ("hoshi/repot/pruned-1", {"cause": "pruned-1"}, "2028-03", False, "hoshi/repot/pruned-1"),
    ],
)
def test_what_is_put_off_to_another_year_is_that_years(ident, more, to, southern, now) -> None:
    one = due(ident, "repotted", JUNE, **{"rule": "repot", "cause": "2027", **more})
    tree = a_tree(("2027-06-02", "put-off", f"repot, to {to}"))
    left = after([one], tree, southern=southern)
    assert {i: o.outcome for i, o in left.items()} == (
        {ident: "open"} if now == ident else {ident: "replaced", now: "open"}
    )
    assert left[now].window.opens == date.fromisoformat(f"{to}-01")
    if now != ident:
        assert left[ident].settled is None
        assert left[now].group == "repot/" + now.split("/")[2]


def test_what_is_put_off_takes_the_place_of_that_years_own() -> None:
    one = due(REPOT, "repotted", JUNE, rule="repot", cause="2027")
    own = due("hoshi/repot/2028", "repotted", "2028-03-01 2028-03-10 2028-03-20", rule="repot",
              cause="2028")  # fmt: skip
    other = due("hoshi/repot/2028", "slipped", "2028-03-01 2028-03-10 2028-03-20", rule="repot",
                cause="2028")  # fmt: skip
    tree = a_tree(("2027-06-02", "put-off", "repot, to 2028-04"))
    left = after([one, own], tree)
    assert {i: o.outcome for i, o in left.items()} == {REPOT: "replaced", own.follow_up.id: "open"}
    assert left[own.follow_up.id].window.opens == date(2028, 4, 1)
    # Where that year has another work under the name, each keeps its own.
    left = after([one, other], tree)
    assert (left[REPOT].outcome, left[REPOT].window.opens) == ("open", date(2028, 4, 1))
    assert left[other.follow_up.id].window.opens == date(2028, 3, 1)


def test_what_was_put_off_to_another_year_waits_from_that_line_on() -> None:
    one = due(REPOT, "repotted", JUNE, rule="repot", cause="2027")
    lines = (("2027-06-02", "put-off", "repot, to 2028-04"), ("2028-04-05", "repotted", "same pot"))
    left = after([one], a_tree(*lines))
    assert left["hoshi/repot/2028"].outcome == "done"
