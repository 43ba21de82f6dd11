"""A subject line that is read without the parser says what the grammar says."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from tests.examples import examples

import backbud_grammar.subjects as subjects
from backbud_grammar.problems import Flaw
from backbud_grammar.subjects import read_subjects
from backbud_grammar.syntax import Selection, Subjects

WORDS = (
    *("all", "ALL", "in", "of", "Of", "except", "Except", "hoshi", "tray-7", "Japanese", "black"),
    *("pine", "inn", "allium", "öl", ",", ",,", "in,"),
)


def by_the_grammar(text: str) -> Subjects | Flaw:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(subjects, "_all_of_one", lambda _text: None)
        return read_subjects(text)


@settings(max_examples=examples(400))
@given(some.lists(some.sampled_from(WORDS), min_size=1, max_size=7), some.sampled_from("  \t"))
def test_it_is_what_the_grammar_says(words: list[str], blank: str) -> None:
    for text in (blank.join(words), f"all {blank.join(words)}"):
        text = text.replace(" ,", ",")
        assert read_subjects(text) == by_the_grammar(text)


@pytest.mark.parametrize(
    ("text", "chosen", "left_out"),
    [
        ("all", Selection("all", "", 0), ()),
        ("all in tunnel", Selection("in", "tunnel", 7), ()),
        (
            "All of ada except hoshi, yuki",
            Selection("of", "ada", 7),
            (Selection("handle", "hoshi", 18), Selection("handle", "yuki", 25)),
        ),
        ("all Japanese black pine", Selection("kind", "Japanese black pine", 4), ()),
        ("all except hoshi", Selection("all", "", 0), (Selection("handle", "hoshi", 11),)),
    ],
)
def test_without_the_parser(
    text: str,
    chosen: Selection,
    left_out: tuple[Selection, ...],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(subjects, "parser", None)
    assert read_subjects(text) == Subjects((chosen,), left_out)
