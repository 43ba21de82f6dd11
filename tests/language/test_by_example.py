"""A text that is read by the example of another says what it says when it is judged by itself."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from tests.examples import examples

from backbud.journal.by_example import ByExample
from backbud.journal.dated import Said
from backbud.journal.events import Origin
from backbud.journal.said import ActReader
from backbud.journal.things import Thing, Things
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw

TABLE = by_word(ACTS)
CARDS = {
    "tray-12": "pot",
    "tray-98": "pot",
    "bench-34": "place",
    "oak-12": "tree",
    "oak-34": "tree",
}
THINGS = Things(
    {
        handle: Thing(kind, handle, handle, (), Origin("", 1, 1), None)
        for handle, kind in CARDS.items()
    },
    {handle: handle for handle in CARDS},
)
READER = ActReader(THINGS, Details(TABLE), lambda _word, _text: None, {})
UNITS = (
    *("mm", "cm", "m", "inch", "foot", "L", "mL", "m2", "US gal", "g", "kg", "oz", "C", "F", "%"),
    *("s", "min", "h", "days", "weeks", "years", "ppm", "g/L", "mL/L", "EUR", "EUR/h", "EUR cash"),
    *("degrees", "mS/cm", "flowers", "buds", "cakes", "pairs", ""),
)


def judged(word: str, text: str) -> tuple[Said, tuple[Flaw, ...]]:
    return READER.judge.judged(TABLE[word], word, text, hints=False)


def held_together(word: str, example: str, text: str) -> bool:
    """Whether a text is read by an example; if so, it is held against what is judged."""
    by_example = ByExample(TABLE, READER.judge.kind_of)
    said, flaws = judged(word, example)
    if flaws:
        return False
    by_example.learn(TABLE[word], word, example, said)
    found = by_example.said(word, text)
    if found is None:
        return False
    assert (found, ()) == judged(word, text), (word, example, text)
    return True


@pytest.mark.parametrize(
    ("word", "example", "text"),
    [
        ("repotted", "2.3 cm off below", "1.8 cm off below"),
        ("measured", "trunk 10.8 cm", "trunk 11.2 cm"),
        ("planned", "repot, to 2027-11", "repot, to 2028-03"),
        (
            "corrected",
            "repotted 2026-04-08, 2.4 cm off below",
            "repotted 2025-11-28, 1.9 cm off below",
        ),
        ("sold", "1570 EUR", "2350 EUR"),
        ("repotted", "into tray-12", "into tray-98"),
        ("repotted", "into tray-12, 2.3 cm off below", "into tray-98, 1.8 cm off below"),
        ("drained", "34 s", "95 s"),
    ],
)
def test_another_number_or_day_is_read_by_the_example(word: str, example: str, text: str) -> None:
    assert held_together(word, example, text)


@pytest.mark.parametrize(
    ("word", "example", "text"),
    [
        # A share is no more than the whole.
        ("pruned", "off 25 %", "off 99 %"),
        # Nought is none, and a leading nought another way to write.
        ("wired", "2 mm Al", "0 mm Al"),
        ("watered", "1.5 L", "0.5 L"),
        # With three decimals an amount may be thousands.
        ("sold", "1.25 EUR", "1.250 EUR"),
        ("worked", "2 h 07", "2 h 67"),
        # There is no such month, and no such day in each year.
        ("planned", "repot, to 2027-11", "repot, to 2027-13"),
        ("planned", "repot, to 2027-11-12", "repot, to 2027-02-30"),
        ("planned", "repot, in 5 weeks", "repot, in 9 weeks"),
        ("staged", "27", "99"),
        ("wired", "2 mm Al x 2", "3 mm Al x 3"),
        ("measured", "root ball 38 x 27 x 7 cm", "root ball 38 x 27 x 8 cm"),
        ("photographed", "at Hall 2", "at Hall 3"),
        # It is of another kind, nobody knows it, or it is a tree.
        ("repotted", "into tray-12", "into bench-34"),
        ("repotted", "into tray-12", "into tray-34"),
        ("grafted", "from oak-12", "from oak-34"),
        ("pruned", "light on tray-12", "light on tray-98"),
    ],
)
def test_what_may_hang_on_the_number_is_judged(word: str, example: str, text: str) -> None:
    assert not held_together(word, example, text)


def with_other_digits(text: str, pick: some.DataObject) -> str:
    """A text as long, with other digits."""
    digits = some.sampled_from("0123456789")
    return "".join(pick.draw(digits) if sign.isdigit() else sign for sign in text)


@settings(max_examples=examples(100))
@given(pick=some.data())
def test_a_measure_of_any_form(pick: some.DataObject) -> None:
    """Each label of each act, with any number and unit, against the same with other digits."""
    form = pick.draw(some.sampled_from([one for one in ACTS if not one.prose]))
    labels = [label for one in form.forms for label in one.labels]
    words = [word for one in form.forms if one.words != "*" for word in one.words]
    label = pick.draw(some.sampled_from(["", *labels]))
    word = pick.draw(some.sampled_from(["", *words]))
    number = pick.draw(some.from_regex(r"\A[1-9][0-9]{0,3}(\.[0-9]{1,3})?\Z"))
    unit = pick.draw(some.sampled_from(UNITS))
    pieces = pick.draw(some.permutations([label, f"{number} {unit}".strip(), word]))
    text = " ".join(filter(None, pieces))
    held_together(form.word, text, with_other_digits(text, pick))


@pytest.mark.parametrize(
    "numbers", [("4.5", "7.6"), pytest.param(("12", "98"), marks=pytest.mark.long)]
)
def test_every_label_with_every_unit(numbers: tuple[str, str]) -> None:
    read = 0
    for form in ACTS:
        if form.prose:
            continue
        labels = {label for one in form.forms if one.sorts for label in one.labels}
        for label in ("", *sorted(labels)):
            for unit in UNITS:
                texts = [f"{label} {number} {unit}".strip() for number in numbers]
                read += held_together(form.word, *texts)
    assert read > 250
