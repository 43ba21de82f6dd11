"""Puts what an entry says into few words: a title that a phone shows whole, and a short note."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date
from itertools import islice
from typing import Protocol

from backbud.calendar.lines import one_line
from backbud.tongue import phrase, verb_comes_last
from backbud.words import WindowDays, day, minutes

LONGEST_TITLE = 39
LONGEST_NOTE = 199
# A link that is longer leaves a note no room; the entry's URL has it all the same.
_LONGEST_LINK = 110
# With less room than this for names a caution is told on the page.
_FEWEST_NAMES = 30
MORE_CAUTIONS = "Caution: more on its page."
# Where a title may end early and still be true.
_CLAUSE, _LESSER = re.compile(r"\s*[:;(]|\s–\s"), re.compile(r",\s")
# A sum, or the name of a setting: they are for the page.
_SUM, _SETTING = "degree-days", re.compile(r"\w_\w")


def title(text: str, room: int = LONGEST_TITLE) -> str:
    """The text on one line, as much of it as there is room for: `den zweiten Austrieb… stutzen` in
    a language whose verb comes last, since without it nobody knows what is to be done."""
    text = one_line(text)
    if len(text) <= room:
        return text
    text = _CLAUSE.split(text, maxsplit=1)[0] or text
    if len(text) <= room:
        return text
    commas = [found.start() for found in _LESSER.finditer(text) if 0 < found.start() <= room]
    if commas:
        return text[: commas[-1]]
    if verb_comes_last():
        named, _, verb = _LESSER.split(text, maxsplit=1)[0].rpartition(" ")
        kept = named[: room - len(verb) - 1].rpartition(" ")[0]
        if kept:
            return f"{kept}… {verb}"
    cut = text[: room - 1]
    return f"{cut.rsplit(' ', 1)[0] if ' ' in cut else cut}…"


def led(lead: str, text: str, end: str = "") -> str:
    """What stands before, as much of the text as there is room for, and its end, such as a count:
    a title that is short of room gives up the end of its text, never what it is of."""
    return f"{lead}{title(text, LONGEST_TITLE - len(lead) - len(end))}{end}"


def tree_first(tree: str, work: str, before: str = "", end: str = "") -> str:
    """A tree and its work: the tree first, and whole; then what stands before and behind it."""
    return led(f"{title(tree, LONGEST_TITLE // 2)}: {before}", work, end)


def first_that_fits(*titles: str) -> str:
    """The first of some titles, the fullest first, that needs no cut; "" where none is so short."""
    return next((one for one in map(one_line, titles) if len(one) <= LONGEST_TITLE), "")


def names_counted(lead: str, count: str, names: Sequence[str]) -> str:
    """What there is, how much of it, and as many names of whose it is as there is room for."""
    lead, shown = led("", lead, count), ""
    for at, name in enumerate(names):
        longer = f"{shown}, {one_line(name)}" if shown else f"{lead}: {one_line(name)}"
        if len(longer) > LONGEST_TITLE - (2 if at + 1 < len(names) else 0):
            return f"{shown} …" if shown else lead
        shown = longer
    return shown or lead


def note_of_trees(
    names: Sequence[str], days: str, takes: int, cautions: Sequence[str], link: str = ""
) -> str:
    """A note that begins with whose it is: as many names as leave room for each caution."""
    rest = note(days, takes, cautions, (), link)
    room = LONGEST_NOTE - len(rest) - 1
    if room < _FEWEST_NAMES:
        rest = note(days, takes, (), (phrase(MORE_CAUTIONS),) if cautions else (), link)
        room = LONGEST_NOTE - len(rest) - 1
    line = names_line(names, room)
    return f"{line}\n{rest}" if line else rest


def note(
    days: str, takes: int, cautions: Sequence[str], after: Iterable[str] = (), link: str = ""
) -> str:
    """What a calendar shows below a title: the days, how long it takes, what to beware of, then
    what else there is room for. A caution is told whole or not at all, and then it is said that
    there is one.

    `takes`: minutes, 0 where nobody knows. `after`: lines, those that are wanted most first.
    """
    lines = [
        phrase("{days} About {minutes}.", days=days, minutes=minutes(takes)) if takes else days
    ]
    end = [link] if link and len(link) <= _LONGEST_LINK else []
    left = [phrase("Caution: {one_line}", one_line=one_line(one)) for one in cautions]
    while left and _fits(lines, [left[0]], end, [phrase(MORE_CAUTIONS)] if left[1:] else []):
        lines.append(left.pop(0))
    if left:
        lines.append(phrase(MORE_CAUTIONS))
    for line in map(one_line, after):
        if _fits(lines, [line], end):
            lines.append(line)
    return "\n".join((*lines, *end))


def _fits(*parts: list[str]) -> bool:
    return len("\n".join(line for part in parts for line in part)) <= LONGEST_NOTE


class _Told(Protocol):
    """A reason: which sort it is of, and its sentence."""

    @property
    def sort(self) -> str: ...
    @property
    def text(self) -> str: ...


def reasons(found: Iterable[_Told]) -> Sequence[str]:
    """The reasons that a calendar may show: without sums and settings, the rule before the rest."""
    in_order = sorted(found, key=lambda one: one.sort not in ("rule", "plan"))
    plain = (one for one in in_order if not _is_for_the_page(one.text))
    return tuple(phrase("Why: {text}", text=one.text) for one in islice(plain, 1))


def _is_for_the_page(text: str) -> bool:
    return _SUM in text or ("_" in text and _SETTING.search(text) is not None)


def names_line(names: Sequence[str], room: int) -> str:
    """As many names as there is room for, and how many more there are."""
    for count in range(len(names), 0, -1):
        more = phrase(" and {names} more", names=len(names) - count) if count < len(names) else ""
        line = f"{', '.join(names[:count])}{more}."
        if len(line) <= room:
            return one_line(line)
    return ""


def window(days: WindowDays) -> str:
    """`From 3 to 24 April, best 10 April.`, with the year where the days are of two."""
    if days.opens == days.closes:
        return phrase("On {day}.", day=day(days.best, days.best.year))
    year = days.best.year
    if days.closes == date.max:
        return phrase(
            "From {day} on, best {day_2}.", day=day(days.opens, year), day_2=day(days.best, year)
        )
    return phrase(
        "From {day} to {day_2}, best {day_3}.",
        day=day(days.opens, year),
        day_2=day(days.closes, year),
        day_3=day(days.best, year),
    )
