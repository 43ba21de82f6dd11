"""When a tree is due for repotting, and when its roots are only looked at instead."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import NamedTuple

from backbud.species import (
    CARE,
    ActWord,
    Event,
    OnTree,
    Proposal,
    Proposals,
    Species,
    Stage,
    Tree,
    Window,
    Year,
    counted_phrase,
    grows_all_year,
    phrase,
)
from backbud_species.habits.done import last_before
from backbud_species.habits.gates import ROOT_WORK, strength_first
from backbud_species.habits.intervals import years_between_repottings
from backbud_species.habits.roots import wedges_of
from backbud_species.habits.signs import early_signs, found_bound
from backbud_species.habits.turn import NextWedges, next_wedges

_FOUR_WEEKS, _TWELVE_WEEKS = timedelta(weeks=4), timedelta(weeks=12)
# So long a look at the roots tells how they stand: ours, no source.
_TWO_YEARS = timedelta(days=730)
_BEGINNINGS: frozenset[ActWord] = frozenset(("struck", "sown", "separated"))


class _Last(NamedTuple):
    done: Event
    years: int


def repotting(
    tree: Tree,
    year: Year,
    window: Window,
    species: Species,
    because: str,
    cautions: tuple[str, ...] = (),
) -> Proposals:
    """Propose the repotting when it is due; a check of the roots for a weak tree or a new one.

    A sick tree, or one that has not settled since it came, is looked at in its stead.
    Due is a tree whose last repotting is the usual number of years ago, or the least number where
    its roots show signs of wanting it early (signs.py). Where the diary names wedges of the root
    ball, so does the repotting: those whose turn it is (turn.py).
    """
    years = years_between_repottings(species, tree, window.best, year)
    if tree.planted_out or years is None:
        return
    last = _last(tree, window)
    if last is not None and grows_all_year(year):
        window = _round_the_day(last.done.day, years.value[1], window, year)
        last = last._replace(years=years_between(last.done.day, window.best))
    if last is None and _is_in_its_first_soil(tree, window, years.value[1]):
        return
    if last is None:
        lately = tree.done_between(window.opens - _TWO_YEARS, window.closes)
        bound = found_bound([entry.event for entry in lately if not entry.undone])
        if not bound:
            yield _look(
                window,
                phrase(
                    "Nobody knows when this tree was last repotted, so its roots are looked at "
                    "first."
                ),
                phrase("No repotting is written down."),
            )
            return
        datum = phrase("No repotting is written down, and {found}.", found=bound)
    else:
        least, usual, _ = years.value
        if last.years < min(least, usual):
            return
        signs = early_signs(tree, year, last.done, window.opens)
        if last.years < (least if signs else usual):
            return
        datum = _datum(last, usual, years.source, signs)
    if tree.weak:
        yield _look(
            window,
            phrase(
                "A weak tree is not repotted by the calendar: only if the roots stand wet or rot."
            ),
            datum,
        )
        return
    unfit = ROOT_WORK.shut(tree, window.opens, year)
    if unfit:
        yield strength_first(window, "repotted", unfit)
        return
    turn = _turn(tree, year, species, window.opens)
    yield Proposal(
        "repotted",
        window,
        what=_wedge_words(turn),
        because=because,
        datum=f"{datum} {turn.because}" if turn else datum,
        cautions=(*cautions, *_metal_out(tree)),
        wedges=turn.names if turn else (),
        weight=CARE,
    )


def until(stage: Stage, end: Stage | None) -> Window:
    """The window from a stage's first day to the usual day of a later stage."""
    return Window(stage.first, stage.day, max(end.day, stage.day) if end else stage.last)


def years_between(first: date, later: date) -> int:
    """Whole growing seasons from one day to another: a fortnight early still makes the year."""
    return round((later - first).days / 365.25)


def as_listed(names: Sequence[str]) -> str:
    """Names as a person lists them: `N, NE and E`."""
    *others, last = names
    return phrase("{others} and {last}", others=", ".join(others), last=last) if others else last


def _last(tree: Tree, window: Window) -> _Last | None:
    done = last_before(tree, window.opens, _gave_room)
    return _Last(done, years_between(done.day, window.best)) if done else None


def _round_the_day(done: date, usual: int, window: Window, year: Year) -> Window:
    """The window; where roots grow all year, round the day so many years after the last time,
    while that lies in this year. Common practice, no source."""
    due = done + timedelta(days=round(usual * 365.25))
    if not year.first <= due <= year.last:
        return window
    return Window(due - _FOUR_WEEKS, due, due + _TWELVE_WEEKS)


def _is_in_its_first_soil(tree: Tree, window: Window, usual: int) -> bool:
    """Whether it was struck, sown or taken off its mother no longer ago than soil lasts."""
    began = last_before(tree, window.closes, lambda done: done.act in _BEGINNINGS)
    return began is not None and years_between(began.day, window.best) < usual


def _datum(last: _Last, usual: int, source: str, signs: Sequence[str]) -> str:
    ago = counted_phrase(last.years, "{count} year", "{count} years")
    text = phrase(
        "Last {act} {text}, {ago} before; the usual time is {usual}",
        act=phrase(last.done.act),
        text=last.done.when.day_or_text,
        ago=ago,
        usual=usual,
    )
    early = phrase(", and {listed}", listed=as_listed(signs)) if signs else ""
    return f"{text} ({phrase(source)}){early}."


def _look(window: Window, because: str, datum: str) -> Proposal:
    return Proposal(
        "checked",
        window,
        what="roots",
        because=because,
        datum=datum,
        settled_by=("checked roots", "repotted", "root-pruned", "potted-on"),
        weight=CARE,
    )


def _turn(tree: Tree, year: Year, species: Species, before: date) -> NextWedges | None:
    """Which wedges to open, as many as the last time that any were named."""
    named = last_before(tree, before, lambda event: bool(wedges_of(event)))
    last_time = len(wedges_of(named)) if named else 0
    return next_wedges(tree, year, species.root_share, last_time)


def _wedge_words(turn: NextWedges | None) -> str:
    if turn is None:
        return ""
    return counted_phrase(
        len(turn.names),
        "and open wedge {listed}",
        "and open wedges {listed}",
        listed=as_listed(turn.names),
    )


def _metal_out(tree: Tree) -> tuple[str, ...]:
    """What has to come out of the root ball and the pot; first the ties left in it before."""
    old: list[str] = []
    now: list[str] = []
    for thing in tree.on("tie", "mesh"):
        (old if thing.sort == "tie" and thing.from_before else now).append(_counted(thing))
    said = []
    if old:
        said.append(
            phrase(
                "Not said to be out since the last potting: {listed}.",
                listed=as_listed(old),
            )
        )
    if now:
        said.append(phrase("To take out of the pot: {listed}.", listed=as_listed(now)))
    return tuple(said)


def _counted(thing: OnTree) -> str:
    """`2 mm Al tie × 2`, `mesh`."""
    what = thing.what if thing.sort in thing.what else f"{thing.what} {thing.sort}".strip()
    return f"{what} × {thing.count}" if thing.count > 1 else what


def _gave_room(event: Event) -> bool:
    """Whether it gave the roots new soil or new room."""
    return not {"fills_pot", "root_work"}.isdisjoint(event.row.traits)
