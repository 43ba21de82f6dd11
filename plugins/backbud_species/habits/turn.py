"""Which wedges of the root ball to open next, so that each has its turn.

Oldest first, never all, and across from each other and from those opened last rather than side by
side: so every part of the ball is renewed over a few repottings, and roots that were left whole
carry the tree meanwhile.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import combinations
from math import comb, floor
from typing import NamedTuple

from backbud.species import Fact, Ring, Tree, Year, phrase
from backbud_species.habits.roots import (
    PART_OF_A_WEDGE,
    ball_of_tree,
    days_opened,
    most_share,
    sectors_of,
)

_USUAL_WEDGES = 3
_NEVER = date.min
# Lengths off below are told in steps of half a centimetre.
_STEPS_PER_CM = 2
# Beyond so many ways to choose, only evenly spread ones are compared.
_MOST_TRIES = 500


class NextWedges(NamedTuple):
    """The wedges whose turn it is, in the order round the ball, and why, in one sentence."""

    names: tuple[str, ...]
    because: str


def next_wedges(
    tree: Tree, year: Year, share: Fact[tuple[float, float]] | None, last_time: int
) -> NextWedges | None:
    """Which wedges to open next; None where no wedge was ever written down.

    `last_time`: how many were opened the last time, 0 where none was.
    """
    opened = days_opened(tree)
    if not opened:
        return None
    around = sectors_of(tree, (name for name, _ in tree.opened))
    count = len(around.wedges)
    each = PART_OF_A_WEDGE / count
    wanted = last_time or _USUAL_WEDGES
    if share is not None:
        most, _ = most_share(year, share)
        wanted = min(wanted, int(most / each + 1e-9))
    chosen = _chosen(around, opened, max(1, min(wanted, count // 2)))
    within = "" if share is None else f" {_within(tree, year, share, len(chosen), each)}"
    return NextWedges(chosen, f"{_history(chosen, opened)}{within}")


def _within(
    tree: Tree, year: Year, share: Fact[tuple[float, float]], how_many: int, each: float
) -> str:
    """What the wedges are of the ball, what is the most here, and what that leaves for below."""
    most, place = most_share(year, share)
    wedges = how_many * each
    are = (
        phrase("1 wedge is")
        if how_many == 1
        else phrase("{how_many} wedges are", how_many=how_many)
    )
    says = phrase("{are} about {value:.0f} % of the ball's volume", are=are, value=100 * wedges)
    limit = phrase(
        "{value:.0f} % is the most in {place} ({source})",
        value=100 * most,
        place=place,
        source=phrase(share.source),
    )
    if wedges > most + 1e-9:
        return phrase(
            "{says} when opened half-way; {limit}, so open it less far in.", says=says, limit=limit
        )
    ball = ball_of_tree(tree)
    if most >= 1:
        return f"{says}; {limit}."
    if ball is None:
        return phrase("{says}; with what goes below, {limit}.", says=says, limit=limit)
    below_cm = _below_cm(ball.depth_cm, wedges, most)
    return phrase(
        "{says}; {limit}, so {value} goes below.",
        says=says,
        limit=limit,
        value=phrase("about {below_cm:g} cm", below_cm=below_cm) if below_cm else phrase("nothing"),
    )


def _below_cm(depth_cm: float, wedges: float, most: float) -> float:
    """How much may go below beside these wedges: 1 - (1 - below / depth) (1 - wedges) <= most.

    Rounded down to half a centimetre.
    """
    below_cm = depth_cm * (1 - (1 - most) / (1 - wedges))
    return floor(below_cm * _STEPS_PER_CM + 1e-9) / _STEPS_PER_CM


def _chosen(around: Ring, opened: dict[str, date], how_many: int) -> tuple[str, ...]:
    """The longest closed first; of those alike, the ones that lie farthest apart."""
    days = [opened.get(name, _NEVER) for name in around.names]
    last = [at for at, day in enumerate(days) if day == max(days)]
    chosen: list[int] = []
    for day in sorted(set(days)):
        turn = [at for at, its_day in enumerate(days) if its_day == day]
        chosen += _apart(turn, how_many - len(chosen), chosen, last, len(days))
    return tuple(around.names[at] for at in sorted(chosen))


def _apart(
    turn: Sequence[int], how_many: int, chosen: Sequence[int], last: Sequence[int], count: int
) -> tuple[int, ...]:
    """So many of those whose turn it is, across from each other and from those opened last."""
    if how_many >= len(turn):
        return tuple(turn)
    if how_many <= 0:
        return ()
    tries: Iterator[tuple[int, ...]] = combinations(turn, how_many)
    if comb(len(turn), how_many) > _MOST_TRIES:
        tries = _evenly(turn, how_many)
    return max(tries, key=lambda some: _spread((*chosen, *some), last, count))


def _evenly(turn: Sequence[int], how_many: int) -> Iterator[tuple[int, ...]]:
    """So many of them at even steps, beginning with each in turn."""
    for first in range(len(turn)):
        steps = (first + step * len(turn) // how_many for step in range(how_many))
        yield tuple(turn[at % len(turn)] for at in steps)


def _spread(taken: Sequence[int], last: Sequence[int], count: int) -> tuple[int, ...]:
    """How well wedges lie apart: first the nearest two of all, then all among themselves."""
    among = [_gap(at, [other for other in taken if other != at], count) for at in taken]
    from_last = [_gap(at, last, count) for at in taken]
    return min(*among, *from_last), min(among), sum(among), sum(from_last)


def _gap(at: int, others: Iterable[int], count: int) -> int:
    """How many wedges on the nearest of the others lies; all round where there is none."""
    steps = (abs(at - other) for other in others)
    return min((min(step, count - step) for step in steps), default=count)


def _history(chosen: Sequence[str], opened: dict[str, date]) -> str:
    """`N and S were never opened; E not since 2023-03-12.`"""
    never = [name for name in chosen if name not in opened]
    parts = (
        [
            phrase(
                "{value} {value_2} never opened",
                value=_and(never),
                value_2=phrase("was") if len(never) == 1 else phrase("were"),
            )
        ]
        if never
        else []
    )
    for day in sorted({opened[name] for name in chosen if name in opened}):
        parts.append(
            phrase(
                "{value} not since {day}",
                value=_and([n for n in chosen if opened.get(n) == day]),
                day=day,
            )
        )
    return f"{'; '.join(parts)}."


def _and(names: Sequence[str]) -> str:
    *others, last = names
    return phrase("{others} and {last}", others=", ".join(others), last=last) if others else last
