"""An answer is kept by what was asked, and of very many those go that nobody asked for again."""

from __future__ import annotations

import pytest

from backbud.climate import once
from backbud.climate.once import Answers
from backbud.climate.outlook import Outlook


class Sums(Answers):
    def __init__(self) -> None:
        super().__init__()
        self.asked: list[int] = []

    @once.once
    def square(self, number: int) -> int:
        self.asked.append(number)
        return number * number


def test_a_question_is_answered_once() -> None:
    sums = Sums()
    assert [sums.square(3), sums.square(3), sums.kept(("square", 3), lambda: 0)] == [9, 9, 9]
    assert sums.asked == [3]


def test_of_very_many_answers_those_go_that_nobody_asked_for_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(once, "MOST_ANSWERS", 4)
    sums = Sums()
    assert [sums.square(number) for number in range(6)] == [0, 1, 4, 9, 16, 25]
    # Four are older: of these one is asked for again, and so stays with the two that are new.
    assert sums.square(1) == 1
    assert [sums.square(number) for number in (6, 7, 8)] == [36, 49, 64]
    assert sums.asked == [0, 1, 2, 3, 4, 5, 6, 7, 8]
    assert [sums.square(1), sums.square(4), sums.square(0)] == [1, 16, 0]
    assert sums.asked == [0, 1, 2, 3, 4, 5, 6, 7, 8, 0]


def test_no_more_than_twice_so_many_answers_are_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(once, "MOST_ANSWERS", 4)
    sums = Sums()
    for number in range(100):
        sums.square(number)
        assert len(sums._answers) + len(sums._older) <= 8


def test_what_every_tree_of_a_place_asks_is_answered_once() -> None:
    """Each goes through half a year or more, day by day."""
    asked = ("thaws", "warms_to", "heat", "stage", "mean", "usual_mean", "stays_over", "hot_spells")
    assert [name for name in asked if not hasattr(getattr(Outlook, name), "__wrapped__")] == []


class SumsOfTrees(Sums):
    def is_of_one(self, key: tuple[object, ...]) -> bool:
        return int(str(key[1])) > 10


def test_what_one_alone_asks_pushes_out_nothing_that_many_ask(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(once, "MOST_ANSWERS", 4)
    sums = SumsOfTrees()
    assert [sums.square(3), sums.square(12), sums.square(12)] == [9, 144, 144]
    for number in range(11, 100):
        sums.square(number)
    sums.square(3)
    assert sums.asked == [3, 12, 11, *range(13, 100)]
