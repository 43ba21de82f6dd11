"""Shows the problems of a journal as an editor has them: in their place, with what they name."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence

from lsprotocol import types as lsp

from backbud.editor.text import OpenText
from backbud_grammar.problems import KEPT, Problem

SOURCE = "backbud"
# Words that were kept are no problem: they are told as softly as an editor can.
SEVERITY = {
    "error": lsp.DiagnosticSeverity.Error,
    "warning": lsp.DiagnosticSeverity.Warning,
    KEPT: lsp.DiagnosticSeverity.Hint,
}
# Where a message names another line of the journal.
_PLACE = re.compile(r"([^\s()“”]+\.(?:txt|toml|csv|py)):(\d+)")

TextOf = Callable[[str], OpenText | None]


def diagnostic_of(problem: Problem, text: OpenText, text_of: TextOf) -> lsp.Diagnostic:
    """A problem at its place in a text."""
    message = f"{problem.message}\n{problem.hint}" if problem.hint else problem.message
    return lsp.Diagnostic(
        range=range_of(problem, text),
        severity=SEVERITY.get(problem.severity, lsp.DiagnosticSeverity.Warning),
        code=problem.code,
        source=SOURCE,
        message=message,
        related_information=[*_related(problem, text_of)] or None,
        data={"hint": problem.hint},
    )


def range_of(problem: Problem, text: OpenText) -> lsp.Range:
    """The words that a problem is about; where they are none, the line."""
    line = problem.line - 1
    rest = len(text.line(line)) - problem.column + 1
    return text.range(line, problem.column - 1, min(max(problem.length, 1), max(rest, 0)))


def _related(problem: Problem, text_of: TextOf) -> Iterable[lsp.DiagnosticRelatedInformation]:
    for found in _PLACE.finditer(f"{problem.message} {problem.hint}"):
        text = text_of(found[1])
        if text is None:
            continue
        line = int(found[2]) - 1
        if 0 <= line < len(text.lines):
            yield lsp.DiagnosticRelatedInformation(
                lsp.Location(text.uri, text.whole_lines(line, line)), text.line(line).strip()
            )


def by_file(problems: Iterable[Problem]) -> dict[str, list[Problem]]:
    """Problems by the file that they stand in."""
    out: dict[str, list[Problem]] = {}
    for problem in problems:
        out.setdefault(problem.file, []).append(problem)
    return out


def carried(before: Sequence[Problem], old: OpenText | None, new: OpenText) -> Iterable[Problem]:
    """Problems that an earlier reading found, as far as their lines still stand there; each on
    the line that it stands on now."""
    from msgspec.structs import replace

    shift = len(new.lines) - len(old.lines) if old is not None else 0
    for problem in before:
        for line in (problem.line, problem.line + shift):
            if line >= 1 and new.line(line - 1) == problem.source:
                yield replace(problem, line=line)
                break
