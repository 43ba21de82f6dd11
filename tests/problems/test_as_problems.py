"""What steps found wrong, in any order, becomes problems: each once, in order, a flood cut."""

from __future__ import annotations

from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, as_problems, flaw_at, placed
from backbud_grammar.problems import Flaw

TEXTS = {"a.txt": b"2027-03-06\nhoshi\n  turnd\n", "b.txt": b"pot\n"}


def test_each_is_told_once_in_its_place_with_its_line() -> None:
    # The section begins in line 2 of the file (1, from 0), and the flaw is one line below that.
    section = placed("a.txt", 1, [Flaw("unknown-act", 1, 3, 5, "no act"), Flaw("x", 0, 1, 1, "y")])
    # Five characters behind column 2.
    origin = flaw_at(Origin("b.txt", 1, 2), "unknown-kind", "no kind", "", 5, 3, "warning")
    told = as_problems((origin, *section, *section), TEXTS)
    assert [(p.file, p.line, p.column, p.code, p.severity, p.source) for p in told] == [
        ("a.txt", 2, 1, "x", "error", "hoshi"),
        ("a.txt", 3, 3, "unknown-act", "error", "  turnd"),
        ("b.txt", 1, 7, "unknown-kind", "warning", "pot"),
    ]


def test_of_a_file_200_are_told_and_the_rest_is_counted() -> None:
    def flaws(file: str, count: int) -> list[PlacedFlaw]:
        return [PlacedFlaw(file, n, Flaw("x", 0, 1, 1, "y")) for n in reversed(range(count))]

    told = as_problems([*flaws("b.txt", 203), *flaws("a.txt", 200)], TEXTS)
    assert len(told) == 401
    assert [p.line for p in told[:200]] == [p.line for p in told[200:400]] == [*range(1, 201)]
    last = told[-1]
    assert (last.code, last.file, last.line) == ("many-problems", "b.txt", 1)
    assert last.message == "3 more problems in this file"
