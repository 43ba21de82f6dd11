"""The words, quoted texts, dates and measures that a detail is made of."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from itertools import pairwise

from msgspec import Struct

from backbud_grammar.measures import BY_WRITING, Measure, read_number, unit_named
from backbud_grammar.problems import Misread, nearest
from backbud_grammar.shape import Part, parts_of_detail


class DetailItem(Struct, frozen=True):
    """One thing that stands in a detail. `sort`: word, quoted, date or measure.

    What is raised of a `flaw` holds the frames that it went through, and so the item again: it must
    be seen by the collector, or a run of `watch` would grow with every misread measure.

    `end`: where it ends in the text, when that is not `offset` + its length (quotes are taken
    off). `flaw`: why a measure could not be read; it counts only where a measure is wanted.
    """

    sort: str
    text: str
    offset: int
    measure: Measure | None = None
    end: int = -1
    flaw: Misread | None = None

    @property
    def stop(self) -> int:
        return self.end if self.end >= 0 else self.offset + len(self.text)

    @property
    def length(self) -> int:
        return self.stop - self.offset


def extent(items: Sequence[DetailItem]) -> tuple[int, int]:
    if not items:
        return 0, 0
    return items[0].offset, items[-1].stop - items[0].offset


def written_of(items: Sequence[DetailItem]) -> str:
    """The items as they were written, with single spaces where there was a gap."""
    if len(items) < 2:
        return items[0].text if items else ""
    text = items[0].text
    for before, item in pairwise(items):
        text += item.text if before.stop == item.offset else f" {item.text}"
    return text


def is_plain_number(item: DetailItem) -> bool:
    return item.measure is not None and item.measure.sort == "number"


def read_item_list(text: str) -> list[DetailItem]:
    """Read the items of a detail: words, quoted text, dates, measures. Misread where none fits."""
    if _MORE_THAN_WORDS.search(text) is None:
        # Nothing but the grammar's WORDs can stand there.
        return [DetailItem("word", found[0], found.start()) for found in _WORD.finditer(text)]
    parts = parts_of_detail(text)
    if parts is None:
        raise _unclosed(text)
    return [item_of(part, text) for part in parts]


_MORE_THAN_WORDS = re.compile(r"[\d\"']")
_WORD = re.compile(r"[^ \t]+")


def _unclosed(text: str) -> Misread:
    """Only a quotation mark that is never closed has no reading at all."""
    at = max(text.rfind('"'), 0)
    if at and text[at - 1].isdigit():
        return Misread("unknown-unit", '“"” is no unit known here', "Write inch.", at, 1)
    return Misread(
        "unclosed-quote",
        "this quotation mark is never closed",
        'A text with a comma stands in "double quotes".',
        at,
        max(len(text) - at, 1),
    )


def item_of(part: Part, text: str) -> DetailItem:
    """Return one part of a detail as an item; `text` is what was parsed."""
    rule, pieces = part
    start, end = pieces[0].start, pieces[-1].end
    written = text[start:end]
    if rule == "WORD":
        return DetailItem("word", written, start)
    if rule == "QUOTED":
        # A cultivar keeps its quotes, a text loses them.
        inside = written if written[0] == "'" else written[1:-1]
        return DetailItem("quoted", inside, start, None, end)
    if rule == "date":
        return DetailItem("date", written, start)
    try:
        return DetailItem("measure", written, start, _measure(part, text))
    except Misread as error:
        error.offset, error.length = start, len(written)
        return DetailItem("measure", written, start, flaw=error)


_OR_A_DAY = "; what was done on a day stands below that day's own heading."


def _measure(part: Part, text: str) -> Measure:
    rule, (opening, *others) = part
    first = text[opening.start : opening.end]
    rest = {piece.terminal: text[piece.start : piece.end] for piece in others}
    count = _count(rest["COUNT"]) if "COUNT" in rest else 1
    unit = unit_named(rest["UNIT"]) if "UNIT" in rest else None
    symbol, sort = (unit.symbol, unit.dimension) if unit else ("", "number")
    per = _per(rest["PER"].strip().lstrip("/").strip()) if "PER" in rest else ""
    numbers = _numbers(opening.terminal, first, money=rule in ("money", "money_rate"))
    if opening.terminal == "RANGE":
        if numbers[1] <= numbers[0]:
            raise Misread(
                "falling-range",
                f"“{first}” does not rise",
                "Write the smaller number first" + ("." if unit else _OR_A_DAY),
            )
        return Measure(numbers[:1], symbol, "rate" if per else sort, numbers[1], per, count)
    if rule == "sizes":
        if sort != "length":
            raise Misread(
                "no-unit" if unit is None else "wrong-measure",
                f"“{' '.join((first, *rest.values()))}” has no unit of length",
                "The unit stands last: 38 x 27 x 7 cm.",
            )
        return Measure(numbers, symbol, "size", None, "", count)
    if rule == "hours":
        if numbers[1] >= 60:
            raise Misread(
                "too-many-minutes",
                f"“{first}” has 60 minutes and more behind its hours",
                "Write 1 h 20, or 80 min.",
            )
        return Measure((numbers[0] * 60 + numbers[1],), "min", "duration")
    if rule in ("fraction", "ratio", "part_of_unit"):
        if not all(numbers):
            raise Misread(
                "zero-ratio",
                f"“{first}” has a nought in it",
                "No number of a fraction or a ratio is 0.",
            )
        if rule == "part_of_unit":
            return Measure((_exact(first, *numbers),), symbol, sort, None, "", count)
        return Measure(numbers, "", rule)
    if rule == "npk":
        if sum(numbers) > 100:
            raise Misread(
                "out-of-range",
                f"“{first}” adds up to more than 100",
                "N-P-K are percent, as printed on the label.",
            )
        return Measure(numbers, "", "npk")
    if rule in ("money", "money_rate"):
        return Measure(numbers, rest["CURRENCY"], "money rate" if per else "money", None, per)
    return Measure(numbers, symbol, "rate" if per else sort, None, per, count)


def _count(written: str) -> int:
    digits = written.lstrip("x× \t")
    if not digits:
        return 1
    if len(digits) > 4 or not digits.isascii() or int(digits) == 0:
        raise Misread("bad-number", f"“{digits}” is no count", "Write one from 1 to 9999.")
    return int(digits)


def _exact(written: str, upper: Decimal, lower: Decimal) -> Decimal:
    """A part of a unit as a decimal: `1/2 L` is 0.5 L."""
    number = upper / lower
    if number * lower != upper:
        raise Misread("bad-number", f"“{written}” is no exact decimal", "Write it as one: 0.33.")
    return number


def _per(written: str) -> str:
    if not written:
        return ""
    if written in BY_WRITING:
        return unit_named(written).symbol
    near = nearest(written, BY_WRITING) if len(written) > 3 else ""
    raise Misread(
        "unknown-unit",
        f"“{written}” is no unit known here",
        f"Did you mean “{near}”?" if near else "A rate is 2 g/L or 45 EUR/h.",
    )


_NUMBER = re.compile(r"(?:(?<![\d.,])[-+−])?(?:\d+(?:[.,]\d+)*|[.,]\d+)")

_UNSIGNED = re.compile(r"\d+(?:[.,]\d+)*")


def _numbers(terminal: str, written: str, *, money: bool) -> tuple[Decimal, ...]:
    if terminal == "NUMBER":
        return (read_number(written, money=money),)
    if terminal in ("NPK", "HOURS", "RATIO", "SIZES") or (
        terminal == "RANGE" and " to " not in written.replace("\t", " ")
    ):
        return tuple(read_number(n) for n in _UNSIGNED.findall(written))
    if terminal == "FRACTION":
        *whole, upper, lower = (read_number(n) for n in _UNSIGNED.findall(written))
        return (upper + lower * sum(whole), lower)
    return tuple(read_number(n, money=money) for n in _NUMBER.findall(written))
