"""Details that are written in a way of their own, and how each is read."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal

from backbud_grammar.accept import accepted, expected
from backbud_grammar.act_words import as_detail
from backbud_grammar.forms import Form
from backbud_grammar.items import DetailItem, extent, written_of
from backbud_grammar.kinds import STRENGTHS
from backbud_grammar.measures import Measure
from backbud_grammar.problems import Misread, did_you_mean
from backbud_grammar.sightings import is_sighting, is_weather, looks_so
from backbud_grammar.syntax import Detail

# As seen from above with the front at the bottom; the clock has 6 at the front.
WEDGES: Mapping[str, str] = {
    **{name.lower(): name for name in ("N", "NE", "E", "SE", "S", "SW", "W", "NW")},
    **{str(hour): str(hour) for hour in range(1, 13)},
    "back": "N",
    "rear": "N",
    "right": "E",
    "front": "S",
    "left": "W",
    "front-left": "SW",
    "front-right": "SE",
    "back-left": "NW",
    "back-right": "NE",
}

BETWEEN_WEDGES = ("o'clock", "o’clock", "and", "the", "&", "+")


def _wedges(form: Form, items: list[DetailItem]) -> Detail:
    """`N E S`, `front left`, `6 o'clock`: the wedges, each in one way, in the order written."""
    found: dict[str, None] = {}
    for item in items:
        for at, word in _words_at(item):
            folded = word.casefold()
            if folded in BETWEEN_WEDGES:
                continue
            if folded not in WEDGES:
                raise Misread(
                    "unknown-wedge",
                    f"“{word}” is no wedge of the root ball",
                    "Wedges: N NE E SE S SW W NW, front back left right, or the clock "
                    "1 to 12; the front is S or 6.",
                    at,
                    len(word),
                )
            found[WEDGES[folded]] = None
    if not found:
        raise Misread("no-words", "no wedge is named", "For example: wedges N E S.")
    return Detail(as_detail(form.name), " ".join(found))


def _words_at(item: DetailItem) -> Iterator[tuple[int, str]]:
    """The words of an item that commas without a space may hold: `N,E,S`."""
    at = item.offset
    for word in item.text.split(","):
        if word:
            yield at, word
        at += len(word) + 1


SCORES = {"1", "2", "3", "4", "5"}


def _ingredient(form: Form, items: list[DetailItem]) -> Detail:
    """`akadama 2`, `pumice 3-6 mm 1/2`: a name, and last its parts by volume."""
    if items[-1].text in ("part", "parts"):
        items = items[:-1] or items
    last, name = items[-1], written_of(items[:-1])
    if last.flaw is not None:
        raise last.flaw
    if last.measure is None:
        raise Misread(
            "no-measure",
            f"“{written_of(items)}” does not say how much",
            "Its parts by volume stand last: akadama 2.",
            *extent(items),
        )
    if not name:
        raise Misread(
            "no-words", "an ingredient has a name", "For example: akadama 2.", *extent(items)
        )
    return Detail(as_detail(form.name), name, accepted(form, last, items))


def _zone(form: Form, items: list[DetailItem]) -> Detail:
    """`apex 4`, `lower left weak`, `3`: a zone, and last how it grows."""
    items = [item for item in items if item.text != "on"]
    if not items:
        raise Misread("no-score", "nothing is said here", f"Expected {expected(form)}.")
    last, rest = items[-1], items[:-1]
    if not _is_score(last) and rest and _is_score(items[0]):
        last, rest = items[0], items[1:]
    if last.text.isdecimal() and last.text not in SCORES and not _is_score(items[0]):
        raise Misread(
            "out-of-range",
            f"“{last.text}” is out of range",
            "Vigour is from 1 to 5.",
            last.offset,
            last.length,
        )
    if not _is_score(last):
        near = did_you_mean(last.text, STRENGTHS, "Write 1 to 5, or weak, fair, strong: apex 4.")
        raise Misread(
            "no-score", f"“{written_of(items)}” does not say how it grows", near, *extent(items)
        )
    if rest and rest[-1].text.casefold() in _HOW_MUCH:
        raise Misread(
            "no-score",
            f"“{written_of(items)}” does not say how it grows",
            "Write 1 to 5, or weak, fair, strong: apex 1 is very weak.",
            *extent(items),
        )
    zone = written_of(rest)
    if last.text in SCORES:
        return Detail(as_detail(form.name), zone, Measure((Decimal(last.text),), "", "number"))
    return Detail(as_detail(form.name), f"{zone} {last.text.casefold()}".strip())


# No zone is called so: `apex very weak`.
_HOW_MUCH = ("very", "rather", "quite", "fairly", "still", "too", "more", "less")


def _is_score(item: DetailItem) -> bool:
    return item.text in SCORES or item.text.casefold() in STRENGTHS


_TIME = re.compile(r"([01]?\d|2[0-3]):([0-5]\d)", re.ASCII)


def _time(form: Form, items: list[DetailItem]) -> Detail:
    """`14:30`: the time of day."""
    written = written_of(items)
    found = _TIME.fullmatch(written)
    if found is None:
        raise Misread(
            "bad-time", f"“{written}” is no time of day", "Write it as 14:30.", *extent(items)
        )
    return Detail(as_detail(form.name), f"{int(found[1]):02}:{found[2]}")


def _sighting(form: Form, items: list[DetailItem]) -> Detail:
    """`"2 bites on left 2"`: what was seen, in words of the trade."""
    written = written_of(items)
    if not (is_sighting(written) or is_weather(written) or looks_so(written)):
        raise Misread(
            "unknown-word",
            f"“{written}” is no sighting of words that are known here",
            'For example: observed "2 bites on left 2". Anything else is noted.',
            *extent(items),
        )
    return Detail(as_detail(form.name), written)


READERS: Mapping[str, Callable[[Form, list[DetailItem]], Detail]] = {
    "ingredient": _ingredient,
    "wedges": _wedges,
    "zone": _zone,
    "time": _time,
    "sighting": _sighting,
}
