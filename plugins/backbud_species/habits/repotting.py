"""A tree and a window go in; the repotting that is due, or a check in its stead, comes out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from backbud.species import Event, Fact, Proposal, Proposals, Stage, Tree, Window, Year
from backbud_species.habits.done import last_before, last_of_before
from backbud_species.habits.figures import SLOW_DRAIN_FROM
from backbud_species.habits.roots import wedges_least_recent, wedges_of

# What gives the roots new soil or new room.
_ROOM = ("repotted", "potted-on", "slipped", "root-pruned")
_USUAL_WEDGES = 3


class _Last(NamedTuple):
    done: Event
    years: int


def repotting(
    tree: Tree,
    year: Year,
    window: Window,
    years: Fact[tuple[int, int, int]],
    because: str,
    cautions: tuple[str, ...] = (),
    by_wedges: bool = True,
) -> Proposals:
    """Propose the repotting when it is due; a check of the roots for a weak tree or a new one.

    Due is a tree whose last repotting is the usual number of years ago, or the least number when
    water has been slow to pass since. `by_wedges` names the wedges of the root ball whose turn it
    is.
    """
    if tree.planted_out:
        return
    last = _last(tree, window)
    if last is None:
        yield _look(
            window,
            "Nobody knows when this tree was last repotted, so its roots are looked at first.",
            "No repotting is written down.",
        )
        return
    slow = _slow_since(tree, year, last.done, window.opens)
    least, usual, _ = years.value
    if last.years < (least if slow else usual):
        return
    datum = _datum(last, usual, years.source, slow)
    if tree.weak:
        yield _look(
            window,
            "A weak tree is not repotted by the calendar: only if the roots stand wet or rot.",
            datum,
        )
        return
    yield Proposal(
        "repotted",
        window,
        what=_wedge_words(tree, last.done, window.opens) if by_wedges else "",
        because=because,
        datum=datum,
        cautions=(*cautions, *_old_ties(tree)),
        lapses=True,
    )


def until(stage: Stage, end: Stage | None) -> Window:
    """The window from a stage's first day to the usual day of a later stage."""
    return Window(stage.first, stage.day, max(end.day, stage.day) if end else stage.last)


def years_between(first: date, later: date) -> int:
    """Whole growing seasons from one day to another: a fortnight early still makes the year."""
    return round((later - first).days / 365.25)


def is_slow(drained: Event, year: Year) -> bool:
    """Whether a can of water took too long to pass."""
    time = drained.measure("time")
    return time is not None and time.within("s") >= SLOW_DRAIN_FROM.of(year)


def listed(names: Sequence[str]) -> str:
    """Names as a person lists them: `N, NE and E`."""
    *others, last = names
    return f"{', '.join(others)} and {last}" if others else last


def _last(tree: Tree, window: Window) -> _Last | None:
    done = last_of_before(tree, window.opens, *_ROOM)
    return _Last(done, years_between(done.day, window.best)) if done else None


def _slow_since(tree: Tree, year: Year, last: Event, before: date) -> bool:
    drained = last_of_before(tree, before, "drained")
    return drained is not None and drained.day > last.day and is_slow(drained, year)


def _datum(last: _Last, usual: int, source: str, slow: bool) -> str:
    ago = f"{last.years} year{'' if last.years == 1 else 's'}"
    text = f"Last {last.done.act} {last.done.when.text}, {ago} before; the usual time is {usual}"
    return f"{text} ({source}){', and water has been slow to pass' if slow else ''}."


def _look(window: Window, because: str, datum: str) -> Proposal:
    return Proposal(
        "checked",
        window,
        what="roots",
        because=because,
        datum=datum,
        settled_by=("checked roots", "repotted", "root-pruned", "potted-on"),
        lapses=True,
    )


def _wedge_words(tree: Tree, last: Event, before: date) -> str:
    named = last_before(tree, before, lambda event: bool(wedges_of(event)))
    wedges = wedges_least_recent(tree, len(wedges_of(named)) if named else _USUAL_WEDGES)
    if not wedges:
        return ""
    return f"and open wedge{'s' if len(wedges) > 1 else ''} {listed(wedges)}"


def _old_ties(tree: Tree) -> tuple[str, ...]:
    left = [thing.what for thing in tree.on("tie", "mesh") if thing.from_before]
    return (f"Old metal is still in the root ball: {listed(left)}.",) if left else ()
