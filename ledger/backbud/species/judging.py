"""Judges a work, done or planned, by a species' own times and by what it is never given."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import timedelta
from typing import TYPE_CHECKING

from backbud.collection.state import Tree
from backbud.species.deed import Deed
from backbud.species.windows import Window
from backbud.species.year import Year
from backbud_grammar.act_words import ActWord

if TYPE_CHECKING:
    from backbud.species.rules import Rule

# So long before and after its time a work still does; common practice, no source.
_BEFORE, _AFTER = timedelta(days=28), timedelta(days=21)


# One sentence that speaks against a work on a tree in a year, or "".
Judge = Callable[[Tree, Deed, Year], str]


def judged(
    rules: Sequence[Rule], judges: Sequence[Judge], tree: Tree, deed: Deed, year: Year
) -> tuple[str, ...]:
    """What speaks against a work: a sentence for each reason."""
    found = (_out_of_its_time(rules, deed, year), *(judge(tree, deed, year) for judge in judges))
    return tuple(dict.fromkeys(filter(None, found)))


def _out_of_its_time(rules: Sequence[Rule], deed: Deed, year: Year) -> str:
    """Against root work outside the days that the species has for it at this place."""
    if not (deed.roots and deed.hard):
        return ""
    windows = times_of(rules, "repotted", year)
    if not windows or any(
        one.opens - _BEFORE <= deed.last and deed.first <= one.closes + _AFTER for one in windows
    ):
        return ""
    times = " or ".join(f"from {one.opens} to {one.closes}" for one in windows)
    return f"It was {deed.said}: root work has its time here {times}."


def times_of(rules: Sequence[Rule], act: ActWord, year: Year) -> tuple[Window, ...]:
    """The windows that a species' own rules have for a work."""
    return tuple(_windows(rules, act, year))


def _windows(rules: Sequence[Rule], act: ActWord, year: Year) -> Iterator[Window]:
    """The days that the species' own rules have for a work, in this growing year and beside it."""
    for rule in rules:
        if rule.time is None or rule.time.act != act:
            continue
        given = year.season(rule.season) if rule.hangs_on == "season" else year.stage(rule.stage)
        if given is not None:
            yield rule.time.window(given, year)
