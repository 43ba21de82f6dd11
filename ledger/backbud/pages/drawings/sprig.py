"""Draws what one kind of tree asks for in the year ahead: a branch, and a twig for each work.

A twig leaves the branch in the week in which its work may first be done, is the thicker the more
trees it is open of, and bears a bud in each week in which the work stands: filled where it may be
done today, unfilled where it is foreseen, a diamond where it is late.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from html import escape
from typing import NamedTuple

from backbud import words
from backbud.pages.drawings.year_line import (
    ACROSS,
    month_letters,
    month_marks,
    stretched,
    swelling,
)
from backbud.plan.season import WEEK, WEEKS
from backbud.tongue import act_phrase, phrase
from backbud.views.twigs import SprigView, TwigView

# Pixels: a twig's room with its name above it, and what stands below the last.
LANE, FOOT = 29.0, 22.0
# A twig, by how many trees it is open of; it grows no thicker than its room.
THIN, A_TREE, THICKEST = 1.4, 0.8, 11.0
# A letter of a name on a telephone, and how far a name stands from the start of its twig: a
# thousand are the drawing's width.
LETTER, INDENT = 21.0, 16.0
NAME_ABOVE = 9.0
# How far across it is from the branch to where a twig is level.
RISE = 22.0
STEP = ACROSS / WEEKS
# So many windows of one work are told one by one; of more only how far they reach.
MOST_TOLD = 6


class PlacedTwig(NamedTuple):
    """A twig and its room: lanes count from 0 at the top; `name_at`: where its name begins."""

    twig: TwigView
    lane: int
    name_at: float


def draw(ident: str, sprig: SprigView, first: date, today: date) -> str:
    """The drawing of one kind. `first`: the Monday of this week."""
    end = first + WEEKS * WEEK
    placed, lanes, branch_lane = _places(sprig.twigs)
    height = LANE * lanes + FOOT
    branch = LANE * branch_lane + LANE / 2 + 6
    bodies = "".join(_body(one, _level(one.lane)) for one in placed)
    threads = "".join(_thread(one, _level(one.lane), branch) for one in placed)
    drawn = stretched(
        height,
        f"{month_marks(first, end, height - FOOT + 4)}"
        f'<path class="thread" d="{threads}"/>'
        f'<path class="wooden" d="{_branch(branch)}{bodies}"/>',
    )
    title = phrase("{kind}: when each work may be done", kind=sprig.kind)
    about = "; ".join(
        f"{act_phrase(one.work)}: {when_it_may_be(one, today)}" for one in sprig.twigs
    )
    return (
        f'<svg class="sprig" role="img" aria-labelledby="{ident}-title" '
        f'aria-describedby="{ident}-about" width="100%" height="{height:.0f}">'
        f'<title id="{ident}-title">{escape(title)}</title>'
        f'<desc id="{ident}-about">{escape(about)}.</desc>'
        f'<rect class="stem" x="0" y="{branch - 2.5:.1f}" width="2" height="5"/>'
        f"{drawn}{''.join(_buds(placed))}{''.join(map(_name, placed))}"
        f"{month_letters(first, end, height - 3)}</svg>"
    )


# ------------------------------------------------------------------ where each stands


def _places(twigs: Sequence[TwigView]) -> tuple[list[PlacedTwig], int, int]:
    """Each twig in a lane where neither it nor its name meets another; how many lanes there are,
    and which of them is the branch's."""
    above: list[list[tuple[float, float]]] = []
    below: list[list[tuple[float, float]]] = []
    found: list[tuple[TwigView, bool, int, float]] = []
    for twig in twigs:
        span, name_at = _span(twig)
        side, lane = _free(above, below, span)
        found.append((twig, side is above, lane, name_at))
    placed = [
        PlacedTwig(twig, len(above) - 1 - lane if is_above else len(above) + 1 + lane, name_at)
        for twig, is_above, lane, name_at in found
    ]
    return placed, len(above) + 1 + len(below), len(above)


def _free(
    above: list[list[tuple[float, float]]], below: list[list[tuple[float, float]]],
    span: tuple[float, float],
) -> tuple[list[list[tuple[float, float]]], int]:  # fmt: skip
    """The free lane nearest to the branch, those above first."""
    for lane in range(max(len(above), len(below)) + 1):
        for side in (above, below):
            if lane == len(side) and lane <= min(len(above), len(below)):
                side.append([])
            if lane < len(side) and all(
                span[1] < begin or end < span[0] for begin, end in side[lane]
            ):
                side[lane].append(span)
                return side, lane
    raise AssertionError("a lane of its own is free")


def _span(twig: TwigView) -> tuple[tuple[float, float], float]:
    """From where to where a twig and its name reach, and where its name begins."""
    begins = twig.first_week * STEP
    ends = max((n + 1 for n, trees in enumerate(twig.open_trees) if trees), default=0) * STEP
    ends = max(ends, (twig.buds[-1].week + 1) * STEP)
    wide = LETTER * (len(label(twig)) + 1)
    name_at = min(begins + INDENT, max(ACROSS - wide, 0.0))
    return (min(begins, name_at), max(ends, name_at + wide)), name_at


def _level(lane: int) -> float:
    return LANE * lane + LANE / 2 + 6


# ------------------------------------------------------------------ what is drawn


def _branch(level: float) -> str:
    """The branch of a kind: thinner towards its end."""
    return (
        f"M0 {level - 2.5:.1f}L{ACROSS:.0f} {level - 0.5:.1f}V{level + 0.5:.1f}"
        f"L0 {level + 2.5:.1f}Z"
    )


def _half(trees: int) -> float:
    return min(THIN + A_TREE * trees, THICKEST) / 2


def _body(one: PlacedTwig, level: float) -> str:
    """The twig, a piece for each time in which it is open, pointed at both ends."""
    weeks = one.twig.open_trees
    pieces = []
    n = 0
    while n < len(weeks):
        if not weeks[n]:
            n += 1
            continue
        begin = n
        while n < len(weeks) and weeks[n]:
            n += 1
        points = [((week + 0.5) * STEP, _half(weeks[week])) for week in range(begin, n)]
        pieces.append(swelling([(begin * STEP, 0.5), *points, (n * STEP, 0.3)], level))
    return "".join(pieces)


def _thread(one: PlacedTwig, level: float, branch: float) -> str:
    """From the branch to where the twig is level, and on to its last week: what it hangs on."""
    begins = one.twig.first_week * STEP
    open_weeks = [n for n, trees in enumerate(one.twig.open_trees) if trees]
    last = max([*open_weeks, *(bud.week for bud in one.twig.buds)])
    from_x = max(begins - RISE / 2, 0)
    return (
        f"M{from_x:.0f} {branch:.0f}C{from_x + RISE * 0.7:.0f} {branch:.0f} {begins:.0f} "
        f"{level:.0f} {begins + RISE * 0.7:.0f} {level:.0f}H{(last + 0.7) * STEP:.0f}"
    )


def _buds(placed: Sequence[PlacedTwig]) -> Iterator[str]:
    for one in placed:
        for bud in one.twig.buds:
            sort = "diamond" if bud.late else "bud"
            mark = "burst" if bud.late else "bud" if bud.open_now else "bud ahead"
            yield (
                f'<use class="{mark}" href="#{sort}" x="{100 * (bud.week + 0.5) / WEEKS:.1f}%" '
                f'y="{_level(one.lane):.0f}"/>'
            )


def label(twig: TwigView) -> str:
    """What a twig is called, and of how many trees: `repot 3`."""
    return f"{twig.work.replace('-', ' ')} {twig.trees}"


def _name(one: PlacedTwig) -> str:
    x, y = one.name_at / ACROSS * 100, _level(one.lane) - NAME_ABOVE
    return f'<text x="{x:.1f}%" y="{y:.0f}">{escape(label(one.twig))}</text>'


# ------------------------------------------------------------------ in words


def when_it_may_be(twig: TwigView, today: date) -> str:
    """When a work may be done, in words."""
    late = sum(bud.trees for bud in twig.buds if bud.late)
    said = (
        [phrase("{trees} past the time for it", trees=words.number(late, "tree"))] if late else []
    )
    if len(twig.windows) <= MOST_TOLD:
        said += [
            words.between(opens, closes, today.year)
            + (phrase(" ({trees} trees)", trees=trees) if trees > 1 else "")
            for opens, closes, trees in twig.windows
        ]
    else:
        first = min(opens for opens, _, _ in twig.windows)
        last = max(closes for _, closes, _ in twig.windows)
        said.append(
            phrase(
                "{windows} windows, the first from {day}, the last until {day_2}",
                windows=len(twig.windows),
                day=words.day(first, today.year),
                day_2=words.day(last, today.year),
            )
        )
    return ", ".join(said)
