"""A tree's root map and the share that may go come in; which wedges to open next comes out.

Oldest first, never all, and across from each other rather than side by side: so every part of the
ball is renewed over a few repottings, and roots that were left whole carry the tree meanwhile.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from backbud.species import Fact, Tree, Year
from backbud_species.habits.roots import (
    PART_OF_A_WEDGE,
    days_opened,
    most_share,
    sectors_of,
)

_USUAL_WEDGES = 3
_NEVER = date.min


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
    names = sectors_of(tree, opened)
    each = PART_OF_A_WEDGE / len(names)
    wanted = last_time or _USUAL_WEDGES
    within = ""
    if share is not None:
        most, place = most_share(year, share)
        wanted = min(wanted, int(most / each + 1e-9))
        within = (
            f" {wanted} wedges are about {100 * wanted * each:.0f} % of the ball's volume; with "
            f"what goes below, {100 * most:.0f} % is the most in {place} ({share.source})."
        )
    chosen = _chosen(names, opened, max(1, min(wanted, len(names) // 2)))
    return NextWedges(chosen, f"{_history(chosen, opened)}{within}")


def _chosen(names: Sequence[str], opened: dict[str, date], how_many: int) -> tuple[str, ...]:
    """The longest closed first; of those alike, the one farthest from what is chosen already."""
    chosen: list[int] = []
    while len(chosen) < how_many:
        rest = [at for at in range(len(names)) if at not in chosen]
        oldest = min(opened.get(names[at], _NEVER) for at in rest)
        turn = [at for at in rest if opened.get(names[at], _NEVER) == oldest]
        chosen.append(max(turn, key=lambda at: (_apart(at, chosen, len(names)), -at)))
    return tuple(names[at] for at in sorted(chosen))


def _apart(at: int, chosen: Sequence[int], count: int) -> int:
    """How many wedges lie between this one and the nearest chosen one."""
    gaps = (abs(at - other) % count for other in chosen)
    return min((min(gap, count - gap) for gap in gaps), default=count)


def _history(chosen: Sequence[str], opened: dict[str, date]) -> str:
    """`N and S were never opened; E not since 2023-03-12.`"""
    never = [name for name in chosen if name not in opened]
    parts = [f"{_and(never)} {'was' if len(never) == 1 else 'were'} never opened"] if never else []
    for day in sorted({opened[name] for name in chosen if name in opened}):
        parts.append(f"{_and([n for n in chosen if opened.get(n) == day])} not since {day}")
    return f"{'; '.join(parts)}."


def _and(names: Sequence[str]) -> str:
    *others, last = names
    return f"{', '.join(others)} and {last}" if others else last
