"""A twig for each work of each kind of tree: in which weeks of how many trees it may be done."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import partial
from itertools import chain

from msgspec import Struct

from backbud.memo import NO_MEMO, Identical, Memo
from backbud.plan.season import WEEK, PlacedWork, Week, WeeksAhead


class BudView(Struct, frozen=True):
    """A week in which a work stands, by its number from 0: of how many trees, for how long.

    `open_now`: some of them have their window open today; else it is foreseen. `late`: of some it
    is past.
    """

    week: int
    trees: int
    minutes: int
    open_now: bool
    late: bool


class TwigView(Struct, frozen=True):
    """One work of one kind of tree.

    `work`: what it is called. `trees`: how many trees it is wanted of in all; `open_trees`: of each
    week from the first, of how many trees its window is open. `windows`: first and last day of each
    window, and how many trees have it.
    """

    work: str
    trees: int
    open_trees: tuple[int, ...]
    buds: tuple[BudView, ...]
    windows: tuple[tuple[date, date, int], ...]

    @property
    def first_week(self) -> int:
        """The first week in which it may be done, or stands."""
        opens = next((n for n, trees in enumerate(self.open_trees) if trees), len(self.open_trees))
        return min(opens, *(bud.week for bud in self.buds))


class SprigView(Struct, frozen=True):
    """The twigs of one kind, what may be done first before the rest; `trees`: of the kind that want
    anything."""

    kind: str
    trees: int
    minutes: int
    twigs: tuple[TwigView, ...]


def sprigs_of(
    season: WeeksAhead, kinds: Mapping[str, str], today: date, kept: Memo = NO_MEMO
) -> tuple[SprigView, ...]:
    """A sprig for each kind, the one that takes longest first. `kinds`: by the tree's handle.

    `kept`: what an earlier run of this process left.
    """
    kinds = kept.same("kinds of trees", kinds)
    alike: dict[str, _ByWork] = {}
    for n, week in enumerate(season.weeks):
        inputs = (n, Identical(week), Identical(kinds))
        of_week = kept.once(("alike", week.monday), inputs, partial(_alike_in, n, week, kinds))
        for kind, called, those in of_week:
            alike.setdefault(kind, {}).setdefault(called, []).extend(those)
    first, weeks = season.weeks[0].monday, len(season.weeks)
    sprigs = [
        kept.once(
            ("sprig", kind),
            (by_work, first, weeks, today),
            partial(_sprig, kind, by_work, first, weeks, today, kept),
        )
        for kind, by_work in alike.items()
    ]
    return tuple(sorted(sprigs, key=lambda one: (-one.minutes, one.kind)))


# Works by what they are called, each with the number of its week.
_ByWork = dict[str, list[tuple[int, PlacedWork]]]


def _alike_in(
    n: int, week: Week, kinds: Mapping[str, str]
) -> list[tuple[str, str, list[tuple[int, PlacedWork]]]]:
    """The works of a week that are of one kind and called the same."""
    alike: dict[tuple[str, str], list[tuple[int, PlacedWork]]] = {}
    for placed in week.works:
        alike.setdefault((kinds[placed.work.tree], placed.work.called), []).append((n, placed))
    return [(kind, called, those) for (kind, called), those in alike.items()]


def _sprig(
    kind: str, by_work: _ByWork, first: date, weeks: int, today: date, kept: Memo
) -> SprigView:
    twigs = [
        kept.once(
            ("twig", kind, called),
            (those, first, weeks, today),
            partial(_twig, called, those, first, weeks, today),
        )
        for called, those in by_work.items()
    ]
    every = list(chain.from_iterable(by_work.values()))
    return SprigView(
        kind,
        len({placed.work.tree for _, placed in every}),
        sum(placed.work.minutes for _, placed in every),
        tuple(sorted(twigs, key=lambda twig: (twig.first_week, twig.work))),
    )


def _twig(
    called: str, works: Sequence[tuple[int, PlacedWork]], first: date, weeks: int, today: date
) -> TwigView:
    return TwigView(
        called,
        len({placed.work.tree for _, placed in works}),
        _open_trees((placed for _, placed in works), first, weeks),
        tuple(_buds(works, today)),
        _windows(placed for _, placed in works),
    )


def _open_trees(works: Iterable[PlacedWork], first: date, weeks: int) -> tuple[int, ...]:
    """Of each week, how many trees have a window open in it."""
    open_in: dict[str, set[range]] = {}
    for placed in works:
        opens, closes = placed.work.window
        begin, end = (opens - first).days // WEEK.days, (closes - first).days // WEEK.days
        open_in.setdefault(placed.work.tree, set()).add(range(max(begin, 0), min(end + 1, weeks)))
    counts: Counter[int] = Counter()
    for windows in open_in.values():
        counts.update(set(chain.from_iterable(windows)) if len(windows) > 1 else windows.pop())
    return tuple(counts[n] for n in range(weeks))


def _windows(works: Iterable[PlacedWork]) -> tuple[tuple[date, date, int], ...]:
    trees: dict[tuple[date, date], set[str]] = {}
    for placed in works:
        if not placed.work.late:
            trees.setdefault(placed.work.window, set()).add(placed.work.tree)
    return tuple((*window, len(those)) for window, those in sorted(trees.items()))


def _buds(works: Sequence[tuple[int, PlacedWork]], today: date) -> Iterator[BudView]:
    by_week: dict[int, list[PlacedWork]] = {}
    for n, placed in works:
        by_week.setdefault(n, []).append(placed)
    for n, those in sorted(by_week.items()):
        yield BudView(
            n,
            len({one.work.tree for one in those}),
            sum(one.work.minutes for one in those),
            any(one.work.window[0] <= today for one in those),
            any(one.work.late for one in those),
        )
