"""A problem of a journal as it is shown, and what a run made of a journal."""

from __future__ import annotations

from msgspec import Struct

from backbud_grammar.problems import Problem


class ProblemView(Struct, frozen=True):
    """What is wrong in a journal.

    `code`: a word that never changes its meaning. `severity`: error or warning. `file`, `line`,
    `column`: where; both count from 1, and a line 0 is the file as a whole. `hint`: what was
    expected, "" where nothing is known.
    """

    code: str
    severity: str
    file: str
    line: int
    column: int
    message: str
    hint: str


class MadeView(Struct, frozen=True):
    """What `backbud make` made: the paths of the first page and of the calendar of everything, how
    many trees are here, and how many works stand so on the day. `left_out`: one line on the code of
    the journal that was not run, "" where there is none."""

    pages: str
    calendar: str
    trees: int
    overdue: int
    now: int
    coming: int
    problems: tuple[ProblemView, ...]
    left_out: str


def problem_view(problem: Problem) -> ProblemView:
    """A problem as it is shown to a program."""
    return ProblemView(
        problem.code,
        problem.severity,
        problem.file,
        problem.line,
        problem.column,
        problem.message,
        problem.hint,
    )
