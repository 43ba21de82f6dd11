"""How much of the root ball a work took, how much may go, and a caution where it was more.

A wedge that was opened is reckoned to half-way from the rim to the trunk: ours, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
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
from backbud.species import (
    CARE,
    DetailName,
    Event,
    Fact,
    Proposal,
    Proposals,
    Ring,
    Tree,
    Year,
    days_after,
    phrase,
    ring,
    wedges_in,
)
from backbud_species.habits.done import is_root_work, share_of
from backbud_species.habits.warmth import summer

# From the rim half-way to the trunk.
PART_OF_A_WEDGE = part_of_wedge(0.5)
# Where no size is known, only the wedges can be reckoned, and for them every ball does.
_ANY_BALL = Ball("round", 1.0, 1.0, 1.0)


class Taken(NamedTuple):
    """The share of the root ball's volume that went, 0 to 1, and what it was reckoned from.

    `written`: the diary's own words, where they speak of roots and not of the ball.
    """

    share: float
    because: str
    written: str = ""

    @property
    def said(self) -> str:
        """What went, in words; nobody has counted roots, so a share of them is only quoted."""
        if self.written:
            return phrase(
                "“{written}” is written, and read as a share of the ball's volume",
                written=self.written,
            )
        return phrase(
            "About {value:.0f} % of the root ball went ({because})",
            value=100 * self.share,
            because=self.because,
        )


def share_taken(tree: Tree, done: Event) -> Taken | None:
    """How much of the root ball a work took; None where the diary does not say."""
    if done.has("bare-rooted"):
        return Taken(1.0, phrase("bare-rooted"))
    stated = share_of(done, "off")
    if stated is not None:
        return Taken(stated, phrase("as written"), _of_roots(done))
    ball = _ball_before(tree, done)
    wedges = _opened(tree, done)
    cuts = wedges if ball is None else _with_lengths(wedges, done)
    try:
        # The card says neither whether the ball is square or oval, nor which way it lies.
        share = share_of_volume_removed(ball or _ANY_BALL, cuts, by_angle=False)
    except ValueError:
        return Taken(1.0, phrase("the cuts are as large as the ball when it was last measured"))
    return Taken(share, phrase("reckoned from the cuts")) if share > 0 else None


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
        what=phrase("strength closely: leaves, and water in the pot"),
        because=phrase("More went at once than this tree bears here, so it is watched closely."),
        datum=summer(year).after(
            phrase(
                "{said}; {value:.0f} % is the most in {place} ({source})",
                said=taken.said,
                value=100 * most,
                place=place,
                source=phrase(bearable.source),
            )
        ),
        cautions=(
            phrase(
                "Too much root is off: shade, still air, water with care and no other "
                "hard work until it grows."
            ),
        ),
        settled_by=("checked strength", "checked roots", "vigour"),
        weight=CARE,
    )


def _of_roots(done: Event) -> str:
    """A share off as it was written, `off 40 % of the roots`; "" where no roots are named."""
    off = done.first("off")
    if off is None or "roots" not in off.words.split():
        return ""
    return f"off {off.measure} {off.words}"


def most_share(year: Year, bearable: Fact[tuple[float, float]]) -> tuple[float, str]:
    """The share of the ball that may go at this place, and what kind of place it is."""
    cool, warm = bearable.value
    return (
        (warm, phrase("a warm place"))
        if summer(year).cool is False
        else (cool, phrase("a cool place"))
    )


def days_opened(tree: Tree) -> dict[str, date]:
    """Each wedge of the ball as it is reckoned now that was ever opened, with the last day."""
    return sectors_of(tree, (name for name, _ in tree.opened)).last_opened(tree.opened)


def wedges_of(done: Event) -> tuple[str, ...]:
    """The wedges a work names: `wedges N E front` gives N, E and S."""
    return tuple(name for detail in done.all("wedges") for name in wedges_in(detail.words))


def sectors_of(tree: Tree, named: Iterable[str]) -> Ring:
    """Every wedge of the ball: as many as the card says, by the names the diary gives them."""
    count = tree.facts.get("wedges", "")
    return ring(int(count) if count.isdecimal() and int(count) >= 2 else None, named)


def ball_of_tree(tree: Tree) -> Ball | None:
    """The root ball as last measured; None where no size, or a size of 0, is written."""
    size = tree.sizes.get("root ball")
    return _ball(size.sizes_in("cm") if size is not None else ())


def _ball(sizes_cm: Sequence[float]) -> Ball | None:
    if len(sizes_cm) not in (2, 3) or min(sizes_cm) <= 0:
        return None
    return ball_of("round" if len(sizes_cm) == 2 else "rectangle", sizes_cm)


def _ball_before(tree: Tree, done: Event) -> Ball | None:
    """The ball a work began with. One that a work measures is what it left: its cuts go back on."""
    measured = done.measure("root ball")
    if measured is None:
        return ball_of_tree(tree)
    left = _ball(measured.sizes_in("cm"))
    if left is None:
        return None
    below, top, sides = _lengths_cm(done)
    return Ball(
        left.shape,
        left.length_cm + 2 * sides,
        left.width_cm + 2 * sides,
        left.depth_cm + below + top,
    )


def _opened(tree: Tree, done: Event) -> Cuts:
    """The wedges a work opened."""
    named = wedges_of(done)
    around = sectors_of(tree, named)
    opened = (Opened(at, part * PART_OF_A_WEDGE) for at, part in around.parts(named).items())
    return Cuts(opened=tuple(opened), wedges=len(around.wedges))


def _with_lengths(wedges: Cuts, done: Event) -> Cuts:
    return Cuts(*_lengths_cm(done), wedges.opened, wedges.wedges)


_OFF: tuple[DetailName, ...] = ("off below", "off top", "off sides")


def _lengths_cm(done: Event) -> tuple[float, float, float]:
    """What came off below, off the top and off each side."""
    below, top, sides = (_off_cm(done, name) for name in _OFF)
    return below, top, sides


def _off_cm(done: Event, detail: DetailName) -> float:
    measure = done.measure(detail)
    return measure.within("cm") if measure is not None else 0.0
