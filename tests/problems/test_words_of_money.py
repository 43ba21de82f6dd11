"""A card's label for what a thing costs or is worth points to the one that its kind has."""

from __future__ import annotations

import pytest


@pytest.mark.parametrize(
    ("kind", "line", "hint"),
    [
        ("pot tray-7", "price  40 EUR", "On a pot this is “value”: value  40 EUR"),
        ("pot tray-7", "Cost 40 EUR", "On a pot this is “value”: value  40 EUR"),
        ("tree kaya", "price 300 EUR", "On a tree this is “value”: value  300 EUR"),
        ("material lava", "value 14 EUR", "On a material this is “price”: price  14 EUR"),
    ],
)
def test_the_label_of_the_kind_is_named(tell, kind, line, hint) -> None:
    cards = f"place yard\n{kind}\n  {line}\n"
    problem = tell("", cards=cards).only()
    assert (problem.code, problem.hint) == ("unknown-label", hint)
    # Written as the hint has it, the line is read.
    right = hint.partition(": ")[2]
    assert tell("", cards=f"place yard\n{kind}\n  {right}\n").problems == []


def test_a_kind_that_says_no_such_thing_lists_its_labels(tell) -> None:
    problem = tell("", cards="place yard\n  price 3 EUR\n").only()
    assert problem.code == "unknown-label"
    assert "this is" not in problem.hint
