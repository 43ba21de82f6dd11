"""An answer is kept by what was asked, and of very many the oldest are let go."""

from __future__ import annotations

import pytest

from backbud.climate import once
from backbud.climate.once import Answers


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


def test_of_very_many_answers_the_oldest_are_let_go(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(once, "MOST_ANSWERS", 8)
    sums = Sums()
    assert [sums.square(number) for number in range(9)] == [0, 1, 4, 9, 16, 25, 36, 49, 64]
    # The ninth let the first quarter go: two of eight.
    assert [sums.square(number) for number in (2, 8, 0, 1)] == [4, 64, 0, 1]
    assert sums.asked == [0, 1, 2, 3, 4, 5, 6, 7, 8, 0, 1]
