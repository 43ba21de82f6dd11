"""Reads what differs from a sound text in nothing but plain numbers and days by that example.

`mix maple 4.5 L` stands in a diary with many a number, `planned repot, to 2028-03` with many a
month. Which one it is decides nothing, where a measure has no limits, a number is written with as
many digits and a day is one of any month; so such a text is judged but once.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from msgspec.structs import replace

from backbud.journal.dated import Said
from backbud_grammar.forms import ActForm, Form
from backbud_grammar.syntax import Detail

# A month or a day that there is in each year, near enough to any page; or a number that is not
# nought and has no more digits than most: with three decimals it must be asked whether they are
# thousands. Each stands by itself.
_DAY_OR_NUMBER = re.compile(
    r"(?<!\S)(?:((?:19|20|21)\d\d-(?:0[1-9]|1[0-2])(?:-(?:0[1-9]|1\d|2[0-8]))?)"
    r"|[1-9]\d{0,3}(?:\.\d{1,2})?)(?=,?(?:\s|$))",
    re.ASCII,
)
# What stands for a digit of a number, and of a day, in what texts are alike by.
_OF_NUMBER, _OF_DAY = (dict.fromkeys(range(ord("0"), ord("9") + 1), sign) for sign in "\1\2")
# What these measure may be much or little. A number may be a year, a share more than the whole.
_SORTS = frozenset({"length", "area", "volume", "mass", "concentration", "rate", "money"})
# A time may be too long for a plan, unless it is one of these.
_SHORT = frozenset({"s", "min", "h"})


class ByExample:
    """What was judged sound; `acts`: the table of acts."""

    def __init__(self, acts: Mapping[str, ActForm]) -> None:
        self._acts = acts
        # By act as it is written and what texts are alike by; none of what is no example.
        self._examples: dict[tuple[str, str], Said | None] = {}

    def said(self, word: str, text: str) -> Said | None:
        """What an act says by a text; None where it must be judged."""
        example = self._examples.get((word, _alike(text)))
        return None if example is None else _with(example, _days_and_numbers(text))

    def learn(self, form: ActForm, word: str, text: str, said: Said) -> None:
        """Keep a text that was judged sound, if it can be an example of others."""
        key = (word, _alike(text))
        if key not in self._examples:
            fits = not said.held and not said.kept and not any(map(str.isdigit, key[1]))
            named = self._acts[said.named].forms if said.named else ()
            fits = fits and _is_example(said, _days_and_numbers(text), (*form.forms, *named))
            self._examples[key] = said if fits else None


def _alike(text: str) -> str:
    """The text without the digits of its days and numbers."""
    return _DAY_OR_NUMBER.sub(_blanked, text)


def _blanked(found: re.Match[str]) -> str:
    return found[0].translate(_OF_NUMBER if found[1] is None else _OF_DAY)


def _days_and_numbers(text: str) -> list[str]:
    return [found[0] for found in _DAY_OR_NUMBER.finditer(text)]


def _is_example(said: Said, written: Sequence[str], forms: Sequence[Form]) -> bool:
    """Whether the days and numbers of a text are those of its details, each of one and in their
    order, and nothing hangs on which they are."""
    if not written or len(set(written)) < len(written):
        return False
    found: list[str | Decimal] = []
    for detail in said.details:
        words = f"{detail.words}{detail.handle}{detail.part}"
        measure = detail.measure
        if any(map(str.isdigit, words)) or (measure is not None and detail.date):
            return False
        if measure is None and not detail.date:
            continue
        for form in forms:
            if form.name == detail.name and (
                form.reader or form.list_of or form.limits or form.whole
            ):
                return False
        if measure is None:
            found.append(detail.date)
            continue
        short = measure.sort == "duration" and measure.unit in _SHORT
        if len(measure.numbers) > 1 or measure.upper is not None or measure.count != 1:
            return False
        if not short and measure.sort not in _SORTS:
            return False
        found.append(measure.numbers[0])
    return found == [one if "-" in one else Decimal(one) for one in written]


def _with(example: Said, written: Sequence[str]) -> Said:
    """The same with these days and numbers."""
    left = iter(written)
    details: list[Detail] = []
    for detail in example.details:
        if detail.date:
            detail = replace(detail, date=next(left))
        elif detail.measure is not None:
            measure = replace(detail.measure, numbers=(Decimal(next(left)),))
            detail = replace(detail, measure=measure)
        details.append(detail)
    return replace(example, details=tuple(details))
