"""A tree and root work done to it go in; how much of the root ball went comes out, and a caution.

A wedge that was opened is reckoned to half-way from the rim to the trunk: ours, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from backbud.bench.roots import (
    Ball,
    Cuts,
    Opened,
    ball_of,
    part_of_wedge,
    share_of_volume_removed,
)
from backbud.species import Event, Fact, Proposal, Proposals, Tree, Year, days_after
from backbud_species.habits.done import is_root_work, share_of
from backbud_species.habits.warmth import summer

# As seen from above with the front at the bottom; the clock has 6 at the front.
COMPASS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
CLOCK = tuple(str(hour) for hour in range(1, 13))
_SIDES = {"BACK": "N", "RIGHT": "E", "FRONT": "S", "LEFT": "W"}

# From the rim half-way to the trunk.
PART_OF_A_WEDGE = part_of_wedge(0.5)
# Where no size is known, only the wedges can be reckoned, and for them every ball does.
_ANY_BALL = Ball("round", 1.0, 1.0, 1.0)


class Taken(NamedTuple):
    """The share of the root ball's volume that went, 0 to 1, and what it was reckoned from."""

    share: float
    because: str


def share_taken(tree: Tree, done: Event) -> Taken | None:
    """How much of the root ball a work took; None where the diary does not say."""
    if done.has("bare-rooted"):
        return Taken(1.0, "bare-rooted")
    stated = share_of(done, "off")
    if stated is not None:
        return Taken(stated, "as written")
    ball = ball_of_tree(tree)
    wedges = _opened(tree, done)
    cuts = wedges if ball is None else _with_lengths(wedges, done)
    try:
        # The card says neither whether the ball is square or oval, nor which way it lies.
        share = share_of_volume_removed(ball or _ANY_BALL, cuts, by_angle=False)
    except ValueError:
        return Taken(1.0, "the cuts are as large as the ball when it was last measured")
    return Taken(share, "reckoned from the cuts") if share > 0 else None


def over_share(
    tree: Tree, done: Event, year: Year, bearable: Fact[tuple[float, float]]
) -> Proposals:
    """A close check, at once, where more went than the species bears at this place."""
    taken = share_taken(tree, done) if is_root_work(done) else None
    if taken is None:
        return
    most, place = most_share(year, bearable)
    if taken.share <= most + 1e-9:
        return
    yield Proposal(
        "checked",
        days_after(done.day, 0, 7, 42),
        what="strength closely: leaves, and water in the pot",
        because="More of the root ball went than this tree bears here, so it is watched closely.",
        datum=summer(year).after(
            f"About {100 * taken.share:.0f} % of the root ball went ({taken.because}); "
            f"{100 * most:.0f} % is the most in {place} ({bearable.source})"
        ),
        cautions=(
            "Too much root is off: shade, still air, water with care and no other hard work "
            "until it grows.",
        ),
        settled_by=("checked strength", "checked roots", "vigour"),
        lapses=True,
    )


def most_share(year: Year, bearable: Fact[tuple[float, float]]) -> tuple[float, str]:
    """The share of the ball that may go at this place, and what kind of place it is."""
    cool, warm = bearable.value
    return (warm, "a warm place") if summer(year).cool is False else (cool, "a cool place")


def days_opened(tree: Tree) -> dict[str, date]:
    """Each wedge that was ever opened, with the last day."""
    opened: dict[str, date] = {}
    for written, day in tree.opened:
        for name in _wedges((written,)):
            opened[name] = max(day, opened.get(name, day))
    return opened


def wedges_of(done: Event) -> tuple[str, ...]:
    """The wedges a work names: `wedges N E front` gives N, E and S."""
    return _wedges(word for detail in done.all("wedges") for word in detail.words.split())


def _wedges(words: Iterable[str]) -> tuple[str, ...]:
    """The words that name a wedge, each in one way; others, as `underside`, are left out."""
    names = (_SIDES.get(word.upper(), word.upper()) for word in words)
    return tuple(name for name in names if name in COMPASS or name in CLOCK)


def sectors_of(tree: Tree, named: Iterable[str]) -> tuple[str, ...]:
    """Every wedge of the ball, by the clock or the compass as the diary names them."""
    if any(name in CLOCK for name in named):
        return CLOCK
    return COMPASS[::2] if tree.facts.get("wedges") == "4" else COMPASS


def ball_of_tree(tree: Tree) -> Ball | None:
    """The root ball as last measured; None where no size, or a size of 0, is written."""
    size = tree.sizes.get("root ball")
    sizes_cm = size.sizes_in("cm") if size is not None else ()
    if not sizes_cm or min(sizes_cm) <= 0:
        return None
    return ball_of("round" if len(sizes_cm) == 2 else "rectangle", sizes_cm)


def _opened(tree: Tree, done: Event) -> Cuts:
    """The wedges a work opened. Which they are does not matter where all count the same."""
    named = wedges_of(done)
    sectors = len(sectors_of(tree, named))
    opened = (Opened(wedge, PART_OF_A_WEDGE) for wedge in range(min(len(named), sectors)))
    return Cuts(opened=tuple(opened), wedges=sectors)


def _with_lengths(wedges: Cuts, done: Event) -> Cuts:
    below, top, sides = (_off_cm(done, f"off {where}") for where in ("below", "top", "sides"))
    return Cuts(below, top, sides, wedges.opened, wedges.wedges)


def _off_cm(done: Event, detail: str) -> float:
    measure = done.measure(detail)
    return measure.within("cm") if measure is not None else 0.0
