"""A tree's page says whole what cannot wait, the rest in a line, each reason and caution once.

How it should be is the project's own; the words are worked out by hand.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from tests.pages.conftest import TODAY, around, plan, tree

from backbud.pages.told_once import Care, Cautioned, cautions_once, reasons_once
from backbud.pages.tree import laid_out, shown_tree, tree_sheets
from backbud.pages.work import works_on_page
from backbud.plan.followups import FollowUp, Reason
from backbud.species import CHANCE, PRESSING, PROMISE, PROTECTION, Window
from backbud.views.day import works_of
from backbud.views.narrow import only_tree
from backbud.views.nursery import Nursery
from backbud.views.reasoned import keeps_reason
from backbud.views.work import WorkView

STAGE = Reason("season", "First leaves (BBCH 10), 2027; its usual day is from memory.")
LATER = (100, 120, 140)


def feed(title: str, days: tuple[int, int, int] = LATER, **given: Any) -> FollowUp:
    return plan("hoshi", "fed", title, around(*days), **given)


def shown(*plans: FollowUp) -> tuple[WorkView, ...]:
    return works_of(plans, tree("hoshi"), {}, TODAY)


def test_a_long_reason_is_pointed_to_where_it_comes_again() -> None:
    weak, main = Reason("rule", "A weak feed is enough."), Reason("rule", "The main feed.")
    works = shown(feed("feed weakly", because=(STAGE, weak)), feed("feed", because=(STAGE, main)))
    first, second = reasons_once(works)
    assert first == (STAGE, weak)
    assert second == (Reason("season", "as for “Feed weakly” above"), main)


@pytest.mark.parametrize(("letters", "again"), [(47, False), (48, True)])
def test_a_short_reason_is_said_again(letters: int, again: bool) -> None:
    reason = Reason("rule", "x" * letters)
    _, second = reasons_once(shown(feed("one", because=(reason,)), feed("two", because=(reason,))))
    assert (second[0].text == "as for “One” above") is again


def test_a_pointer_leads_to_the_line_of_the_diary_too() -> None:
    line = Reason("diary", "12 March 2026: repotted same pot, 2 cm off below.", "d.txt", 7, 3)
    _, second = reasons_once(shown(feed("one", because=(line,)), feed("two", because=(line,))))
    assert (second[0].text, second[0].at) == ("as for “One” above", "d.txt:7")


def test_cautions_of_several_works_are_numbered_in_their_order() -> None:
    works = shown(
        feed("one", cautions=("Gloves.",)),
        feed("two", cautions=("Label.", "Glasses.")),
        feed("three", cautions=("Glasses.", "Label.", "Mask.")),
        feed("four", cautions=("Label.",)),
    )
    assert list(cautions_once(works)) == [
        Cautioned((Care(0, "Gloves."),), ()),
        Cautioned((Care(1, "Label."), Care(2, "Glasses.")), ()),
        Cautioned((Care(0, "Mask."),), (1, 2)),
        Cautioned((), (1,)),
    ]


@pytest.mark.parametrize(
    ("work", "whole"),
    [
        (feed("opens tomorrow", (1, 5, 9), weight=CHANCE), False),
        (feed("opens tomorrow", (1, 5, 9), weight=PRESSING), False),
        (feed("opens today", (0, 5, 9), weight=CHANCE), True),
        (feed("is late", (-9, -5, -1), weight=PRESSING), True),
        (feed("may kill", LATER, weight=PROTECTION), True),
        (feed("was promised", LATER, weight=PROMISE), True),
        (feed("was planned", LATER, weight=CHANCE, planned=True), True),
        (feed("was put off", LATER, moved_from=Window(*around(1, 2, 3))), True),
    ],
)
def test_what_cannot_wait_keeps_its_reason(work: FollowUp, whole: bool) -> None:
    assert keeps_reason(*shown(work)) is whole


def test_the_next_three_are_whole_and_what_is_further_stands_by_its_best_days() -> None:
    days = [(130, 150, 160), (90, 140, 150), (100, 120, 140), (200, 210, 220)]
    due = shown(
        *(feed(name) for name in ("one", "two", "three")),
        *(feed(f"far {n}", those) for n, those in enumerate(days)),
        feed("shelter", LATER, weight=PROTECTION),
        feed("one day", (300, 300, 300)),
    )
    found = works_on_page(due, TODAY)
    assert [row.task for row in found.next] == ["One", "Two", "Three"]
    assert [row.task for row in found.more] == ["Shelter"]
    # Today is 25 November 2026; worked out on a calendar.
    assert date(2026, 11, 25) == TODAY
    assert [(one.task, one.when) for one in found.further] == [
        ("Far 2", "best 25 March 2027, 5 March to 14 April"),
        ("Far 1", "best 14 April 2027, 23 February to 24 April"),
        ("Far 0", "best 24 April 2027, 4 April to 4 May"),
        ("Far 3", "best 23 June 2027, 13 June to 3 July"),
        ("One day", "only on 21 September 2027"),
    ]


def test_the_command_that_says_why_stands_on_the_keeper_s_page_alone(nursery: Nursery) -> None:
    """Whoever reads a page that leaves the house has no journal to ask."""
    hoshi = next(one for one in nursery.trees if one.handle == "hoshi")
    own = only_tree(nursery, hoshi)
    assert [sheet.why for sheet in tree_sheets((own,))] == ["hoshi"]
    assert laid_out(own, shown_tree(own, hoshi)).why == ""
