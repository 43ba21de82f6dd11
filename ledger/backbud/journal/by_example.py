"""Reads what differs from a sound text in nothing but plain numbers and days by that example.

`mix maple 4.5 L` stands in a diary with many a number, `planned repot, to 2028-03` with many a
month, `into tray-12` with many a pot. Which one it is decides nothing, where a measure has no
limits, a number is written with as many digits, a day is one of any month, and what is numbered is
of the same kind; so such a text is judged but once.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal

from msgspec.structs import replace

from backbud.journal.dated import Said
from backbud_grammar.forms import ActForm, Form
from backbud_grammar.syntax import Detail

# A month or a day that there is in each year, near enough to any page; or a number that is not
# nought and has no more digits than most: with three decimals it must be asked whether they are
# thousands; or a handle with a number. Each stands by itself.
_VARIES = re.compile(
    r"(?<!\S)(?:((?:19|20|21)\d\d-(?:0[1-9]|1[0-2])(?:-(?:0[1-9]|1\d|2[0-8]))?)"
    r"|[1-9]\d{0,3}(?:\.\d{1,2})?|([^\W\d_]{2,}-)\d{1,4})(?=,?(?:\s|$))",
    re.ASCII,
)
# What stands for a digit of a number, of a day, and of a handle, in what texts are alike by.
_OF_NUMBER, _OF_DAY, _OF_HANDLE = (
    dict.fromkeys(range(ord("0"), ord("9") + 1), sign) for sign in "\1\2\3"
)
# What these measure may be much or little. A number may be a year, a share more than the whole.
_SORTS = frozenset({"length", "area", "volume", "mass", "concentration", "rate", "money"})
# A time may be too long for a plan, unless it is one of these.
_SHORT = frozenset({"s", "min", "h"})
# What is done to one tree may be said of another.
_NO_EXAMPLE = frozenset({"", "tree", "group"})


class ByExample:
    """What was judged sound; `acts`: the table of acts. `kind_of`: what a handle is of."""

    def __init__(self, acts: Mapping[str, ActForm], kind_of: Callable[[str], str]) -> None:
        self._acts, self._kind_of = acts, kind_of
        # By act as it is written and what texts are alike by; none of what is no example.
        self._examples: dict[tuple[str, str], Said | None] = {}

    def said(self, word: str, text: str) -> Said | None:
        """What an act says by a text; None where it must be judged."""
        alike, varies = self._parted(text)
        example = self._examples.get((word, alike))
        return None if example is None else _with(example, varies)

    def learn(self, form: ActForm, word: str, text: str, said: Said) -> None:
        """Keep a text that was judged sound, if it can be an example of others."""
        alike, varies = self._parted(text)
        key = (word, alike)
        if key not in self._examples:
            fits = not said.held and not said.kept and not any(map(str.isdigit, alike))
            named = self._acts[said.named].forms if said.named else ()
            fits = fits and _is_example(said, varies, (*form.forms, *named))
            self._examples[key] = said if fits else None

    def _parted(self, text: str) -> tuple[str, list[str]]:
        """What texts are alike by, without the digits of days, numbers and handles; and these."""
        varies: list[str] = []

        def blanked(found: re.Match[str]) -> str:
            written, of = found[0], _OF_NUMBER
            if found[1] is not None:
                of = _OF_DAY
            elif found[2] is not None:
                kind = self._kind_of(written)
                if kind in _NO_EXAMPLE:
                    return written
                varies.append(written)
                return f"{kind} {written.translate(_OF_HANDLE)}"
            varies.append(written)
            return written.translate(of)

        return _VARIES.sub(blanked, text), varies


def _is_example(said: Said, varies: Sequence[str], forms: Sequence[Form]) -> bool:
    """Whether the days, numbers and handles of a text are those of its details, each of one and in
    their order, and nothing hangs on which they are."""
    if not varies or len(set(varies)) < len(varies):
        return False
    found: list[str | Decimal] = []
    for detail in said.details:
        words = f"{detail.words}{detail.part}"
        measure, numbered = detail.measure, _is_numbered(detail)
        if any(map(str.isdigit, words)) or (measure is not None) + bool(detail.date) + numbered > 1:
            return False
        if measure is None and not detail.date and not numbered:
            continue
        for form in forms:
            if form.name == detail.name and (
                form.reader or form.list_of or form.limits or form.whole
            ):
                return False
        if measure is None:
            found.append(detail.date or detail.handle)
            continue
        short = measure.sort == "duration" and measure.unit in _SHORT
        if len(measure.numbers) > 1 or measure.upper is not None or measure.count != 1:
            return False
        if not short and measure.sort not in _SORTS:
            return False
        found.append(measure.numbers[0])
    return found == [one if "-" in one else Decimal(one) for one in varies]


def _is_numbered(detail: Detail) -> bool:
    return any(map(str.isdigit, detail.handle))


def _with(example: Said, varies: Sequence[str]) -> Said:
    """The same with these days, numbers and handles."""
    left = iter(varies)
    details: list[Detail] = []
    for detail in example.details:
        if detail.date:
            detail = replace(detail, date=next(left))
        elif detail.measure is not None:
            measure = replace(detail.measure, numbers=(Decimal(next(left)),))
            detail = replace(detail, measure=measure)
        elif _is_numbered(detail):
            detail = replace(detail, handle=next(left))
        details.append(detail)
    return replace(example, details=tuple(details))
