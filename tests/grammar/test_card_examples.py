"""A card's line that is read by the example of another says what it says when it is read itself."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from tests.examples import examples

from backbud_grammar.card_examples import CardExamples
from backbud_grammar.card_lines import read_card_line
from backbud_grammar.kinds import KINDS

LINES = tuple(
    (kind.kind, f"{label}  {value}")
    for kind in KINDS.values()
    for form in kind.forms
    for label in form.labels
    for value in (
        *("7", "12.5", "2011", "2011-03", "2011-03-06", "1992~", "tray-7", "tray-7b", "'K7'"),
        *("9 cm", "2.5 mm", "38 x 27 x 7 cm", "20 x 20 cm", "34-36 cm", "3 x 2", "1/3", "40 %"),
        *(
            "5 C",
            "-6 to -2 C",
            "14 L",
            "roll of 1 kg",
            "47 EUR/h",
            "620 EUR",
            "12 EUR/kg",
            "7 cm x 2",
        ),
        *("2.5 mm in tray-7", "6 places", "12-4-6", "shade net 40 %", "2027-03-06/2027-04-01"),
    )
)
FIGURES = some.sampled_from(
    ("0", "1", "2", "9", "07", "12", "13", "28", "30", "31", "99", "100", "999", "1900", "2099")
)


def held_together(kind: str, example: str, text: str) -> bool:
    """Whether a line is read by an example; if so, it is held against what is read of it."""
    examples, form = CardExamples(), KINDS[kind]
    examples.learn(form, example, read_card_line(form, example))
    found = examples.read(form, text)
    if found is None:
        return False
    assert repr(found) == repr(read_card_line(form, text)), (kind, example, text)
    return True


@pytest.mark.parametrize(
    ("kind", "example", "text"),
    [
        ("tree", "pot       tray-817", "pot       tray-954"),
        ("tree", "since     1992-02", "since     2024-11"),
        ("tree", "since     1992-02-28", "since     2024-11-06"),
        ("tree", "trunk     2.3 cm", "trunk     9.1 cm"),
        ("tree", "root ball 34 x 24 x 6 cm", "root ball 18 x 18 x 5 cm"),
        ("pot", "inside    20 x 20 x 9 cm", "inside    42 x 28 x 7 cm"),
        ("person", "rate      47 EUR/h", "rate      62 EUR/h"),
    ],
)
def test_other_figures_are_read_by_the_example(kind: str, example: str, text: str) -> None:
    assert held_together(kind, example, text)


@pytest.mark.parametrize(
    ("kind", "example", "text"),
    [
        # A share has a limit, a count of wedges too, and a name is whatever it says.
        ("tree", "wedges    8", "wedges    9"),
        ("tree", "name      the 4 of us", "name      the 5 of us"),
        ("tree", "since     1992-02", "since     1992-13"),
        ("tree", "since     1992-02", "since     1992-02-03"),
        ("tree", "trunk     2.3 cm", "trunk     12.3 cm"),
        ("tree", "trunk     2.3 cm", "trunk     0.3 cm"),
        ("tree", "pot       tray-817", "pot       tray-0"),
        ("tree", "pot       tray-817", "pot       tray-8"),
        ("place", "cover     shade net 40 %", "cover     shade net 50 %"),
    ],
)
def test_a_line_in_which_figures_may_decide_is_read_itself(
    kind: str, example: str, text: str
) -> None:
    assert not held_together(kind, example, text)


@settings(max_examples=examples(400))
@given(some.sampled_from(LINES), some.data())
def test_whatever_figures_stand_in_a_line(line: tuple[str, str], data: some.DataObject) -> None:
    kind, text = line
    example, other = (
        re.sub(r"\d+", lambda _: data.draw(FIGURES), text),
        re.sub(r"\d+", lambda _: data.draw(FIGURES), text),
    )
    held_together(kind, example, other)
    held_together(kind, text, other)
