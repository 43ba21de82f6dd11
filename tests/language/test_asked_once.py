"""A sentence with commas asks once, what is nought is nothing given, and who asks says nothing."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from backbud.session import Session

Written = Callable[..., Session]
TREE = "tree hoshi\n  kind trident maple\n2026-03-01\nhoshi\n  "


def test_a_comma_sentence_is_one_problem(written: Written) -> None:
    line = "repotted, old soil full of 3 worms, smelled of 2 things, dust at 4 corners"
    session = written(f"{TREE}{line}\n", any_problems=True)
    assert [one.message for one in session.problems() if one.line == 5] == [
        "“old soil full of 3 worms”, “smelled of 2 things” and “dust at 4 corners” are not"
        " understood here"
    ]


def test_the_same_is_not_asked_twice(written: Written) -> None:
    line = "watered, 3 of the big ones, 4 of the little ones"
    session = written(f"{TREE}{line}\n", any_problems=True)
    assert [one.message for one in session.problems() if one.line == 5] == [
        "“of” is no unit known here"
    ]


@pytest.mark.parametrize("line", ["fed 0", "feed 0", "watered 0 L", "fed 0 g/L", "treated 0 mL/L"])
def test_nothing_that_was_given_is_no_giving(written: Written, line: str) -> None:
    session = written(f"{TREE}{line}\n", any_problems=True)
    [entry] = session.histories.trees["hoshi"].entries
    assert entry.event.held == ("fed" if line.startswith("fe") else line.split()[0])


def test_no_figure_of_a_feed_is_nothing(written: Written) -> None:
    session = written(f"{TREE}fed 0-10-10\n")
    assert [one.event.act for one in session.histories.trees["hoshi"].entries] == ["fed"]


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        (
            "died? no, buds moving",
            "Where it is so, begin the line with died; where it is not, with noted.",
        ),
        (
            "sold? he thinks about it",
            "Where it is so, begin the line with sold; where it is not, with noted.",
        ),
    ],
)
def test_who_asks_is_kept_as_words(written: Written, line: str, hint: str) -> None:
    session = written(f"{TREE}{line}\n")
    [entry] = session.histories.trees["hoshi"].entries
    assert (entry.event.act, entry.event.kept) == ("noted", (line,))
    assert [one.hint for one in session.words_kept()] == [hint]


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        ("took 6 more", "Where cuttings were taken, write struck 6 cuttings."),
        ("freed L1", "Write unwired, and where: unwired on left 1."),
        (
            "picked up by marrow",
            "Write returned where its owner came for it, received where it came to you.",
        ),
        ("unwired R1", "A part of the tree stands after “on”: on R1."),
    ],
)
def test_the_hint_names_what_was_meant(written: Written, line: str, hint: str) -> None:
    session = written(f"{TREE}{line}\n", any_problems=True)
    assert hint in [one.hint for one in session.problems()]


def test_roots_are_no_branches(written: Written) -> None:
    session = written(f"{TREE}pruned roots by a third\n", any_problems=True)
    [entry] = session.histories.trees["hoshi"].entries
    assert entry.event.held == "pruned"
