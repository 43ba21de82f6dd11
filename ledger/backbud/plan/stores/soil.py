"""Reckons the litres of mix that a potting took, or will take, where they are not written.

That is the pot, filled to a gap below its rim, less the root ball that is left, plus what the mix
settles by (bench/mixes.py).
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from backbud.bench.mixes import substrate_needed
from backbud.bench.pots import Pot, volume_litres
from backbud.bench.roots import (
    Ball,
    BallShape,
    Cuts,
    Opened,
    ball_litres,
    ball_of,
    litres_left,
    part_of_wedge,
)
from backbud.collection.state import Tree
from backbud.collection.wedges import openings
from backbud.journal.events import Event
from backbud.journal.things import Thing, Things
from backbud.plan.stores.figures import ROOTS_OFF, SETTLES
from backbud.plan.vessels import RIM_GAP, Unknown, pot_of_card
from backbud.tongue import phrase
from backbud_grammar.act_words import DetailName
from backbud_grammar.measures import Measure

WRITE_LITRES = "the litres it took, as: repotted same pot, mix maple 4.5 L"
# A wedge is taken to be opened from the rim half-way to the trunk: ours, no source.
_PART_OF_A_WEDGE = part_of_wedge(0.5)


class Soil(Struct, frozen=True, gc=False):
    """Litres of a mix, poured loose; `because` says what they were reckoned from."""

    litres: float
    because: str


def soil_of_potting(
    event: Event | None, before: Tree, pot: str, mix: str, things: Things,
    figures: Mapping[str, float],
) -> Soil | Unknown:  # fmt: skip
    """The mix that a potting takes, or what must be written down first.

    `event`: None where it lies ahead. `pot`, `mix`: the handles of those it goes into.
    """
    there, said = filled(pot, things, figures)
    if there is None:
        return Unknown(said)
    ball = _ball_before(before, things, figures)
    if ball is None:
        return Unknown(WRITE_LITRES)
    try:
        left, because = _left(event, ball, figures)
        needed = substrate_needed(volume_litres(there), left, settles_percent(mix, things, figures))
    except ValueError:
        return Unknown(WRITE_LITRES)
    return Soil(needed.loose_litres, f"{because} {needed.because}".strip())


def settles_percent(mix: str, things: Things, figures: Mapping[str, float]) -> float:
    """What a mix settles by: as its card says, else the usual."""
    card = things.find(mix) if mix else None
    settles = card.measure("settles") if card is not None else None
    percent = settles.within("%") if settles is not None else SETTLES.among(figures)
    return min(max(percent, 0.0), 90.0)


def filled(handle: str, things: Things, figures: Mapping[str, float]) -> tuple[Pot | None, str]:
    """The room in a pot as far as it is filled, as a pot; or None, and what to write."""
    card = things.find(handle) if handle else None
    if card is None:
        return None, phrase(
            "its pot: a line “pot” on its card, and a card of that pot with its inside"
        )
    pot, said = pot_of_card(card, figures)
    if pot is None:
        return None, said
    gap_cm = RIM_GAP.among(figures)
    if not 0 <= gap_cm < pot.depth_cm:
        gap_cm = 0.0
    return lower(pot, gap_cm), ""


def lower(pot: Pot, gap_cm: float) -> Pot:
    """The pot cut off at the soil. A tapered pot is a little narrower there; that is left out."""
    return Pot(
        pot.shape, pot.length_cm, pot.width_cm, pot.depth_cm - gap_cm, pot.taper_cm, pot.bulge_cm
    )


def _ball_before(
    tree: Tree, things: Things, figures: Mapping[str, float]
) -> tuple[Ball, float] | None:
    """The root ball and its litres: as measured, else as it filled the pot it stood in."""
    size = tree.sizes.get("root ball")
    card = things.find(tree.pot) if tree.pot else None
    if size is not None:
        ball = _ball(size, card)
        return (ball, ball_litres(ball)) if ball is not None else None
    pot, _ = filled(tree.pot, things, figures)
    if pot is None:
        return None
    shape: BallShape = "rectangle" if pot.shape == "rectangle" else "oval"
    ball = Ball(shape, pot.length_cm, pot.width_cm, pot.depth_cm)
    return ball, volume_litres(pot)


def _ball(size: Measure, pot: Thing | None) -> Ball | None:
    sizes_cm = size.sizes_in("cm")
    rectangle = pot is None or pot.text("shape") in ("", "rectangle")
    shape: BallShape = "round" if len(sizes_cm) == 2 else "rectangle" if rectangle else "oval"
    try:
        return ball_of(shape, sizes_cm)
    except ValueError:
        return None


def _left(
    event: Event | None, before: tuple[Ball, float], figures: Mapping[str, float]
) -> tuple[float, str]:
    """The litres of root ball that are left, and what was taken for granted."""
    ball, litres = before
    if event is None:
        return litres * (1 - _usual_share(figures)), _by_rule(figures)
    left = event.measure("root ball")
    if left is not None:
        after = ball_of("round" if len(left.numbers) == 2 else ball.shape, left.sizes_in("cm"))
        return ball_litres(after), ""
    if event.has("bare-rooted"):
        return 0.0, ""
    if event.act == "slipped" or event.has("no root work"):
        return litres, ""
    share = _share_off(event)
    if share is not None:
        return litres * (1 - share), ""
    cuts = _cuts(event)
    if cuts == Cuts():
        if event.act == "potted-on":
            return litres, ""
        return litres * (1 - _usual_share(figures)), _by_rule(figures)
    # The card does not say which way the ball lies, so each wedge counts the same.
    return litres * litres_left(ball, cuts, by_angle=False) / ball_litres(ball), ""


def _usual_share(figures: Mapping[str, float]) -> float:
    return min(max(ROOTS_OFF.among(figures), 0.0), 1.0)


def _by_rule(figures: Mapping[str, float]) -> str:
    return phrase(
        "{usual_share:.0%} of the root ball is taken for gone ({name}).",
        usual_share=_usual_share(figures),
        name=ROOTS_OFF.name,
    )


def _share_off(event: Event) -> float | None:
    measure = event.measure("off")
    if measure is None:
        return 0.5 if event.has("half bare-rooted") else None
    if measure.sort == "fraction":
        return float(measure.numbers[0] / measure.numbers[1])
    return measure.within("%") / 100


_OFF: tuple[DetailName, ...] = ("off below", "off top", "off sides")


def _cuts(event: Event) -> Cuts:
    below, top, sides = (_cm(event, name) for name in _OFF)
    named = [
        opening
        for detail in event.all("wedges")
        for opening in openings(detail.words, event.day)
        if opening.degrees is not None
    ]
    points = named[0].points if named else Cuts().wedges
    opened = tuple(Opened(n, _PART_OF_A_WEDGE) for n in range(min(len(named), points)))
    return Cuts(below, top, sides, opened, points)


def _cm(event: Event, detail: DetailName) -> float:
    measure = event.measure(detail)
    return measure.within("cm") if measure is not None else 0.0
