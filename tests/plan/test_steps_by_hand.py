"""Single steps of the plan, each asked by itself of what is made by hand; days counted by hand."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from msgspec.structs import replace
from tests.climate.conftest import even_means
from tests.plan.by_hand import ROWS, due
from tests.species.climates import year_at
from tests.species.conftest import Made

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.outlook import Outlook
from backbud.collection.state import OnTree
from backbud.plan.common.bite import bite_of
from backbud.plan.contained import made_of_plan
from backbud.plan.feed_pauses import paused
from backbud.plan.followups import FollowUp
from backbud.plan.not_judged import keep_judged, not_judged, trees_with_lines
from backbud.plan.rests_frozen import resting_while_frozen
from backbud.plan.run import Plan
from backbud.plan.season import minutes_over
from backbud.plan.sent_plan import CannotBeSent, sent_tree, tree_that_came
from backbud.publish.memory import MemoryOf
from backbud.species import CHANCE, ROUTINE
from backbud.species.year_told import Growth
from backbud_species.mugo_pine import MugoPine

MADE = Made()
WINTER = "2027-01-05 2027-01-20 2027-02-10"
HOSHI, YUKI = "tree hoshi\n  kind trident maple\n", "tree yuki\n  kind trident maple\n"


# ------------------------------------------------------------------ bite.py


@pytest.mark.parametrize(
    ("looked_at", "finding", "bites"),
    [
        (None, "", "2027-03-24"),
        # A look before that day, or on it, at what does not bite yet.
        ("2027-03-23", "fine", "2027-03-24"),
        ("2027-03-24", "fine", "2027-06-05"),
        # What bites does so from the day on which it was seen.
        ("2027-03-23", "biting", "2027-03-23"),
        ("2027-03-24", "biting", "2027-03-24"),
    ],
)
def test_a_wire_found_fine_on_the_day_it_should_bite_bites_later(looked_at, finding, bites) -> None:
    """At a steady 15 °C each of 366 days has the same share of the heat. A wire of 2 mm bites after
    a quarter of it, 0.5 mm: of 15.9 mm of girth, so 2.531 mm of radius, 0.1976 of the year, 72.3
    days. From 10 January on that is the 83rd day, and from there the 156th."""
    on = MADE.event("2027-01-10", "wired", "2 mm Al on left 1")
    looks = [MADE.event(looked_at, "checked", f"wire {finding}")] if looked_at else []
    air = PlaceAir({}, even_means(15.0, 15.0), date(2029, 1, 1), "means")
    growth = Growth(Outlook(air, OPEN_AIR, latitude=50.0, southern=False), 5.0, 3, 15.9)
    wire = OnTree("wire", "2 mm Al", "left 1", 1, on.day, on, 2.0)
    bite = bite_of(wire, MADE.tree(on, *looks).history, growth)
    assert bite is not None and str(bite.day) == bites


# ------------------------------------------------------------------ contained.py


def test_what_cannot_be_made_even_of_a_tree_without_works_is_made_of_the_others(written) -> None:
    plan = written(HOSHI + YUKI).plan()
    told: list[tuple[str, str]] = []

    def made(some: Plan) -> list[str]:
        if "yuki" in some.trees:
            raise ValueError("yuki")
        return list(some.trees)

    found = made_of_plan("the page", plan, made, lambda what, tree, _: told.append((what, tree)))
    assert (found, told) == (["hoshi"], [("the page of yuki", "yuki")])


# ------------------------------------------------------------------ feed_pauses.py


@pytest.mark.parametrize(
    ("fed", "best"),
    [
        # Pellets of 1 May last four weeks; those of 3 April are used up as the window opens.
        ("2027-05-01", "2027-05-29"),
        ("2027-04-03", "2027-05-15"),
        (None, "2027-05-15"),
    ],
)
def test_a_season_s_feed_waits_for_what_was_given(fed, best) -> None:
    tree = MADE.tree(*([MADE.event(fed, "fed")] if fed else []))
    [found] = paused([due("feed", "fed", "2027-05-01 2027-05-15 2027-06-30")], tree, {})
    assert str(found.follow_up.window.best) == best


# ------------------------------------------------------------------ not_judged.py


def test_what_another_version_judged_is_judged_again(written, tmp_path: Path) -> None:
    journal = written(f"{HOSHI}2026-06-01\nhoshi\n  pruned  hard\n").journal
    memory, today = MemoryOf(str(tmp_path)), date(2026, 6, 20)
    keep_judged(journal, today, "one version", memory)
    left = [not_judged(journal, today, of, memory) for of in ("one version", "another version")]
    assert [len(one.lines) for one in left] == [0, 1]


def test_the_trees_of_a_work_are_those_whose_line_it_is(written) -> None:
    """A potting into another pot moves a tree, and so does what was done to yuki."""
    session = written(
        f"place bench\npot tray\n{HOSHI}{YUKI}"
        "2026-06-01\nhoshi\n  repotted  into tray\nyuki\n  moved  bench\n",
        "2026-06-20",
    )
    left = not_judged(session.journal, session.today, "", None)
    assert trees_with_lines(left.lines, session.histories) == ("hoshi",)


# ------------------------------------------------------------------ rests_frozen.py


@pytest.mark.parametrize(
    ("weight", "outcome", "promised", "rests"),
    [
        (CHANCE, "open", False, True),
        (ROUTINE, "open", False, False),
        (CHANCE, "done", False, False),
        (CHANCE, "open", True, False),
    ],
)
def test_only_what_may_be_done_rests_while_wood_is_frozen(weight, outcome, promised, rests) -> None:
    """At Minneapolis the weeks of January and February are frozen."""
    year = replace(year_at(MugoPine(), "Minneapolis"), today=date(2027, 1, 4))
    one = due("wire", "wired", WINTER, outcome, weight=weight, given_word=promised)
    [found] = resting_while_frozen([one], year)
    assert (found != one) is rests


@pytest.mark.parametrize(("closes", "rests"), [("2027-01-03", True), ("2027-01-04", False)])
def test_a_look_at_wire_rests_once_its_time_is_over(closes, rests) -> None:
    year = replace(year_at(MugoPine(), "Minneapolis"), today=date(2027, 1, 4))
    when = f"2026-12-01 2026-12-20 {closes}"
    look = due("look", "checked", when, weight=ROUTINE, settled_by=("checked wire",))
    [found] = resting_while_frozen([look], year)
    assert (found.follow_up.schedule.rests is not None) is rests


# ------------------------------------------------------------------ run.py


def test_an_id_that_another_one_begins_with_is_found_alone() -> None:
    ids = ("hoshi/wire/2027", "hoshi/wire/2027-04-01")
    works = [due(one, "wired", WINTER).follow_up for one in ids]
    plan = Plan({}, {"hoshi": works}, {})
    found = {wanted: [one.id for one in plan.find(wanted)] for wanted in (ids[0], "wire/2027")}
    assert found == {ids[0]: [ids[0]], "wire/2027": list(ids)}


# ------------------------------------------------------------------ season.py


def test_the_minutes_over_a_limit_are_those_of_the_weeks_over_it() -> None:
    assert minutes_over([30, 60, 61, 90], 60) == 31


# ------------------------------------------------------------------ sent_plan.py


def test_what_is_planned_comes_back_as_it_was_sent_and_no_row_of_another_table_is() -> None:
    tree = MADE.tree(MADE.event("2027-01-10", "wired", "2 mm Al on left 1"))
    settled = replace(due("wire", "wired", WINTER).follow_up, settled=tree.history[0].event)

    def sent(one: FollowUp) -> bytes:
        return sent_tree("hoshi", [one], (None,), tree.history, ROWS)

    came = tree_that_came(sent(settled), lambda handle: tree.history, ROWS)
    assert came == ("hoshi", (settled,), (None,))
    with pytest.raises(CannotBeSent, match="wired"):
        sent(replace(settled, row=replace(settled.row)))
