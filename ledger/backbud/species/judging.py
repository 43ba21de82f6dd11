"""Judges a work, done or planned, by a species' own times and by what it is never given."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import timedelta
from typing import TYPE_CHECKING

from backbud.collection.hard_work import is_root_work, stresses
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.species.deed import Deed
from backbud.species.facts import SLOW_DRAIN_FROM
from backbud.species.no_rest import grows_all_year
from backbud.species.windows import Window
from backbud.species.year import Year
from backbud.tongue import phrase
from backbud_grammar.act_words import ActWord

if TYPE_CHECKING:
    from backbud.species.rules import Rule

# So long before and after its time a work still does; common practice, no source.
_BEFORE, _AFTER = timedelta(days=28), timedelta(days=21)
# What was found of roots counts for so long; common practice, no source.
_IN_NEED = timedelta(weeks=12)


# One sentence that speaks against a work on a tree in a year, or "".
Judge = Callable[[Tree, Deed, Year], str]


def judged(
    rules: Sequence[Rule], judges: Sequence[Judge], tree: Tree, deed: Deed, year: Year
) -> tuple[str, ...]:
    """What speaks against a work: a sentence for each reason."""
    found = (
        _out_of_its_time(rules, tree, deed, year),
        _leaves(rules, tree, deed, year),
        *(judge(tree, deed, year) for judge in judges),
    )
    return tuple(dict.fromkeys(filter(None, found)))


def _out_of_its_time(rules: Sequence[Rule], tree: Tree, deed: Deed, year: Year) -> str:
    """Against root work outside the days that the species has for it at this place; roots that
    stand wet or rot do not wait for them, nor do those that grow all the year in the tropics."""
    if not (deed.roots and deed.hard) or _in_need(tree, deed, year) or grows_all_year(year):
        return ""
    windows = tuple(dict.fromkeys(_times(rules, "repotted", year)))
    if not windows or any(
        one.opens - _BEFORE <= deed.last and deed.first <= one.closes + _AFTER for one in windows
    ):
        return ""
    times = " or ".join(
        phrase("from {opens} to {closes}", opens=one.opens, closes=one.closes) for one in windows
    )
    return phrase("{judged}: root work has its time here {times}.", judged=deed.judged, times=times)


def _leaves(rules: Sequence[Rule], tree: Tree, deed: Deed, year: Year) -> str:
    """Against taking leaves off a weak tree, after root work, or so late that no new ones ripen."""
    if deed.act != "defoliated":
        return ""
    if tree.weak:
        return phrase("{judged}, though it is written down as weak.", judged=deed.judged)
    for entry in reversed(tree.history):
        done = entry.event
        if year.first <= done.day <= deed.last and is_root_work(done) and stresses(done):
            return phrase(
                "{judged}, after its roots were cut on {day}.", judged=deed.judged, day=done.day
            )
    windows = _times(rules, "defoliated", year) if deed.hard and not grows_all_year(year) else ()
    if not windows or any(deed.first <= one.closes + _AFTER for one in windows):
        return ""
    last = max(one.closes for one in windows)
    return phrase(
        "{judged}: new leaves ripen here where the old ones come off by {last}.",
        judged=deed.judged,
        last=last,
    )


def _in_need(tree: Tree, deed: Deed, year: Year) -> bool:
    """Whether its roots were found wet or rotten, or water stood on them, in the weeks before."""
    found = tree.done_between(deed.first - _IN_NEED, deed.last)
    return any(_tells_of_need(one.event, year) for one in found)


def _tells_of_need(done: Event, year: Year) -> bool:
    if done.act == "drained":
        time = done.measure("time")
        took = time.within("s") if time is not None else None
        return took is not None and took >= SLOW_DRAIN_FROM.of(year)
    looked = done.act == "checked" and done.has("what") and done.says("roots")
    return looked and any(done.says(word) for word in ("rotten", "wet", "waterlogged", "dead"))


def _times(rules: Sequence[Rule], act: ActWord, year: Year) -> tuple[Window, ...]:
    """The same windows as the year knows them, where it does."""
    return year.times(act) if year.times_of else times_of(rules, act, year)


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
        other = rule.time.also(year) if rule.time.also else None
        if other is not None:
            yield other
