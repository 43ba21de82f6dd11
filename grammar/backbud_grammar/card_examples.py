"""Reads a card's line that differs from an earlier one in nothing but plain figures by that one.

`pot  tray-7`, `since  2011-03` and `inside  38 x 27 x 7 cm` stand on many a card. Which figures
they are decides nothing there, where a size has no limits, so such a line is read but once.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from msgspec.structs import replace

from backbud_grammar.details import Reading
from backbud_grammar.forms import Form, KindForm
from backbud_grammar.syntax import Detail

# A month or a day that there is in each year; a number that is not nought and has no more digits
# than most; what ends a handle. Each stands at the end of a word.
_FIGURES = re.compile(
    r"(?<!\S)(?P<day>(?:19|20)\d\d-(?:0[1-9]|1[0-2])(?:-(?:0[1-9]|1\d|2[0-8]))?)(?!\S)"
    r"|(?<!\S)[1-9]\d{0,3}(?:\.\d{1,2})?(?!\S)"
    r"|(?<=[a-z]-)(?P<handle>[1-9]\d{0,4})(?!\S)",
    re.ASCII,
)
# What stands for a digit of a number, of a day and of a handle.
_OF_NUMBER, _OF_DAY, _OF_HANDLE = (
    dict.fromkeys(range(ord("0"), ord("9") + 1), sign) for sign in "\1\2\3"
)
# What these measure may be much or little.
_SORTS = frozenset({"length", "size", "area", "volume", "mass", "money", "money rate"})


class CardExamples:
    """Lines of cards that were read, by kind and what lines are alike by."""

    def __init__(self) -> None:
        self._read: dict[tuple[str, str], tuple[KindForm, Detail] | None] = {}

    def read(self, kind: KindForm, text: str) -> Reading | None:
        """What a line of a card says; None where it must be read by itself."""
        known = self._read.get((kind.kind, _alike(text)))
        if known is None or known[0] is not kind:
            return None
        return Reading((_with(known[1], _written(text)),))

    def learn(self, kind: KindForm, text: str, reading: Reading) -> None:
        """Keep a line that was read, if it can be an example of others."""
        key = kind.kind, _alike(text)
        if key not in self._read:
            fits = reading.flaw is None and len(reading.details) == 1
            fits = fits and not any(map(str.isdigit, key[1]))
            fits = fits and _is_of_its_figures(reading.details[0], _written(text), kind.forms)
            self._read[key] = (kind, reading.details[0]) if fits else None


def _alike(text: str) -> str:
    return _FIGURES.sub(_without_digits, text)


def _without_digits(found: re.Match[str]) -> str:
    by = _OF_DAY if found["day"] else _OF_HANDLE if found["handle"] else _OF_NUMBER
    return found[0].translate(by)


def _written(text: str) -> list[str]:
    return [found[0] for found in _FIGURES.finditer(text)]


def _is_of_its_figures(detail: Detail, written: Sequence[str], forms: Sequence[Form]) -> bool:
    """Whether the figures of a line are its detail's, and nothing hangs on which they are."""
    if not written or detail.words or detail.part or detail.share:
        return False
    for form in forms:
        if any(any(map(str.isdigit, word)) for word in (*form.labels, *form.words)):
            return False
        if form.name == detail.name and (form.reader or form.list_of or form.limits or form.whole):
            return False
    measure = detail.measure
    if measure is not None:
        plain = measure.upper is None and measure.count == 1 and measure.sort in _SORTS
        is_alone = not (detail.date or detail.handle)
        return plain and is_alone and measure.numbers == tuple(map(Decimal, written))
    if detail.date:
        return not detail.handle and [detail.date] == written
    return len(written) == 1 and detail.handle.endswith(f"-{written[0]}")


def _with(example: Detail, written: Sequence[str]) -> Detail:
    """The same detail with these figures."""
    if example.measure is not None:
        measure = replace(example.measure, numbers=tuple(map(Decimal, written)))
        return replace(example, measure=measure)
    if example.date:
        return replace(example, date=written[0])
    return replace(example, handle=f"{example.handle.rpartition('-')[0]}-{written[0]}")
