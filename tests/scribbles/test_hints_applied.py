"""What a message about a scribbled line offers is done literally: the line then reads as meant."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

import pytest
from tests.scribbles.score import HANDS, OTHERS, YEARS, Line, Verdict, read_lines, verdicts

from backbud_grammar.problems import Problem

_NEAR = re.compile(r"Did you mean “(?P<near>[^”]+)”\?")
_BELONGS = re.compile(r"write a line “(?P<line>[^”]+)”")
_MEANT = re.compile(r"It may have meant (?P<act>[\w-]+)")
# The line says more than its scorer's note does: the pot is the tree's own, which the test tree has
# not; and what stands behind the dashes was the first of its acts.
MORE_THAN_TOLD = (
    "repot straight after: kanuma neat, blue again, 1/3 off below, sphag top, no feed 4 wks"
    " -- sides teased 1in",
    "hosed off first, checked under lvs, clean -- in 28-9",
)
_REST_NOTED = "the rest goes on a line that begins with noted"
_AFTER_DASHES = "Free words go after “ -- ”"


def _without(text: str, marked: str) -> str:
    """The line without a piece, and without the comma beside it."""
    at = text.index(marked)
    before, after = text[:at].rstrip(" ,.;"), text[at + len(marked) :].lstrip(" ,.;")
    return ", ".join(filter(None, (before, after)))


def _applied(problem: Problem) -> Iterator[str]:
    """The lines that a hint asks for, where it says what to write."""
    text = problem.source.strip()
    marked = problem.source[problem.column - 1 : problem.column - 1 + problem.length]
    # The hint is about what the message quotes; the mark may reach further.
    quoted = re.match(r"“([^”]+)”", problem.message)
    if quoted and quoted[1] in text:
        marked = quoted[1]
    if found := _NEAR.search(problem.hint):
        yield text.replace(marked, found["near"], 1)
    elif found := _BELONGS.search(problem.hint):
        yield f"{_without(text, marked)}\n{found['line']}"
    elif found := _MEANT.search(problem.hint):
        yield f"{found['act']} {text}"
    elif _REST_NOTED in problem.hint:
        yield f"{_without(text, marked)}\nnoted {marked}"
    if _AFTER_DASHES in problem.hint:
        yield f"{_without(text, marked)} -- {marked}"


def _same(problem: Problem, other: Problem) -> bool:
    return (problem.code, problem.message) == (other.code, other.message)


@cache
def _tried(hand: str) -> tuple[tuple[Verdict, Problem, Verdict], ...]:
    """Each line, a problem of it, and how the line reads that its hint asks for."""
    cases = [
        (verdict, problem, text)
        for verdict in verdicts(hand)
        for problem in verdict.problems
        for text in _applied(problem)
    ]
    lines = [
        Line(1000 + n, text, verdict.line.acts, verdict.line.effects)
        for n, (verdict, _, text) in enumerate(cases)
    ]
    after = read_lines(hand, lines)
    return tuple((case[0], case[1], now) for case, now in zip(cases, after, strict=True))


# Of the years' lines those that were written last; all of them with `-m long`.
TRIED = [
    *HANDS,
    *(
        pytest.param(hand, marks=() if hand.startswith("again") else pytest.mark.long)
        for hand in (*YEARS, *OTHERS)
    ),
]


@pytest.mark.parametrize("hand", TRIED)
def test_what_a_hint_offers_puts_the_problem_right(hand: str) -> None:
    wrong = [
        (now.line.text, problem.message, problem.hint)
        for _, problem, now in _tried(hand)
        if problem.severity != "kept" and any(_same(problem, one) for one in now.problems)
    ]
    assert wrong == []


@pytest.mark.parametrize("hand", TRIED)
def test_a_hint_followed_leads_to_no_wrong_act(hand: str) -> None:
    """Nothing changes that the line does not change, but where the act itself was asked about."""
    wrong = [
        (now.line.text, now.acts)
        for _, problem, now in _tried(hand)
        if now.how == "misread" and not _MEANT.search(problem.hint)
    ]
    assert [one for one in wrong if one[0] not in MORE_THAN_TOLD] == []


@pytest.mark.parametrize("hand", TRIED)
def test_the_act_that_may_have_been_meant_is_then_read(hand: str) -> None:
    """`It may have meant treated`: the line that begins with it is that act, or asks about it."""
    wrong = [
        now.line.text
        for _, problem, now in _tried(hand)
        if _MEANT.search(problem.hint) and now.acts[:1] != (now.line.text.split()[0],)
    ]
    assert wrong == []


def test_many_hints_are_tried() -> None:
    assert sum(len(_tried(hand)) for hand in HANDS) >= 60
