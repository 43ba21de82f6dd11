"""A tree and root work done to it go in; how much of the root ball went comes out, and a caution.

A wedge that was opened is reckoned to half-way from the rim to the trunk: ours, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from backbud.species import Event, Fact, Proposal, Proposals, Tree, Year, days_after
from backbud_species.habits.done import is_root_work, share_of
from backbud_species.habits.warmth import summer

# As seen from above with the front at the bottom; the clock has 6 at the front.
COMPASS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
CLOCK = tuple(str(hour) for hour in range(1, 13))
_SIDES = {"BACK": "N", "RIGHT": "E", "FRONT": "S", "LEFT": "W"}

# A sector from half the radius outwards is three quarters of the whole sector.
PART_OF_A_WEDGE = 0.75


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
    left = _height_left(tree, done) * _plan_left(tree, done) * _wedges_left(tree, done)
    return Taken(1 - left, "reckoned from the cuts") if left < 1 else None


def over_share(
    tree: Tree, done: Event, year: Year, bearable: Fact[tuple[float, float]]
) -> Proposals:
    """A close check, at once, where more went than the species bears at this place."""
    taken = share_taken(tree, done) if is_root_work(done) else None
    if taken is None:
        return
    warmth = summer(year)
    most = bearable.value[1] if warmth.cool is False else bearable.value[0]
    if taken.share <= most + 1e-9:
        return
    place = "a warm place" if warmth.cool is False else "a cool place"
    yield Proposal(
        "checked",
        days_after(done.day, 0, 7, 42),
        what="strength closely: leaves, and water in the pot",
        because="More of the root ball went than this tree bears here, so it is watched closely.",
        datum=warmth.after(
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


def wedges_least_recent(tree: Tree, how_many: int) -> tuple[str, ...]:
    """The wedges whose turn it is: first those never opened, then those opened longest ago."""
    opened: dict[str, date] = {}
    for written, day in tree.opened:
        for name in _wedges((written,)):
            opened[name] = max(day, opened.get(name, day))
    if not opened:
        return ()
    names = _sectors(tree, opened)
    # The sort is stable: among equals the order round the ball stays.
    turn = sorted(names, key=lambda name: opened.get(name, date.min))
    return tuple(sorted(turn[:how_many], key=names.index))


def wedges_of(done: Event) -> tuple[str, ...]:
    """The wedges a work names: `wedges N E front` gives N, E and S."""
    return _wedges(word for detail in done.all("wedges") for word in detail.words.split())


def _wedges(words: Iterable[str]) -> tuple[str, ...]:
    """The words that name a wedge, each in one way; others, as `underside`, are left out."""
    names = (_SIDES.get(word.upper(), word.upper()) for word in words)
    return tuple(name for name in names if name in COMPASS or name in CLOCK)


def _sectors(tree: Tree, named: Iterable[str]) -> tuple[str, ...]:
    """Every wedge of the ball, by the clock or the compass as the diary names them."""
    if any(name in CLOCK for name in named):
        return CLOCK
    return COMPASS[::2] if tree.facts.get("wedges") == "4" else COMPASS


def _ball_cm(tree: Tree) -> tuple[float, ...]:
    """Length, width and depth in cm; () where the tree has no root ball on its card."""
    size = tree.sizes.get("root ball")
    return size.sizes_in("cm") if size is not None else ()


def _off_cm(done: Event, detail: str) -> float:
    measure = done.measure(detail)
    return measure.within("cm") if measure is not None else 0.0


def _height_left(tree: Tree, done: Event) -> float:
    ball = _ball_cm(tree)
    if not ball:
        return 1.0
    return max(0.0, 1 - (_off_cm(done, "off below") + _off_cm(done, "off top")) / ball[-1])


def _plan_left(tree: Tree, done: Event) -> float:
    left = 1.0
    across = _ball_cm(tree)[:-1]
    # A round ball has one measure across: it counts for both directions.
    for width in across if len(across) == 2 else across * 2:
        left *= max(0.0, 1 - 2 * _off_cm(done, "off sides") / width)
    return left


def _wedges_left(tree: Tree, done: Event) -> float:
    wedges = wedges_of(done)
    opened = len(wedges) / len(_sectors(tree, wedges))
    return max(0.0, 1 - PART_OF_A_WEDGE * opened)
