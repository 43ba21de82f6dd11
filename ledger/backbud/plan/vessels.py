"""Measures what a tree's water hangs on, canopy, pot and water held, or tells what to write down.

What was not measured is reckoned by a rule of thumb, and the rule says so beside its figure. The
rules are common practice, no source; each is a setting under its name.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct

from backbud.bench.pots import Pot, pot_from_inside, pot_from_outside, soil_surface_cm2
from backbud.bench.pots import volume_litres as litres_of
from backbud.bench.water import SHARE_HELD, canopy_area_m2
from backbud.bench.weights import water_held_litres
from backbud.collection.state import Tree
from backbud.journal.things import Thing, Things
from backbud.species import Figure
from backbud.tongue import phrase
from backbud_grammar.measures import Measure

SPREAD_OF_HEIGHT = Figure("spread_of_height", 0.8, "Width of a crown over the tree's height.")
SPREAD_OF_POT = Figure("spread_of_pot", 1.2, "Width of a crown over the length of its pot.")
SPREAD_OF_TRUNK = Figure("spread_of_trunk", 5.0, "Width of a crown over the trunk's thickness.")
RIM_GAP = Figure("rim_gap_cm", 1.0, "How far in cm the soil lies below the rim of a pot.")
POT_WALL = Figure("pot_wall_cm", 1.0, "Thickness in cm of a pot measured outside only.")
HELD_SHARE = Figure("held_share", SHARE_HELD, "Share of a pot that an unknown mix holds as water.")

VESSEL_FIGURES = (
    SPREAD_OF_HEIGHT,
    SPREAD_OF_POT,
    SPREAD_OF_TRUNK,
    RIM_GAP,
    POT_WALL,
    HELD_SHARE,
)
CM2_PER_M2 = 10_000.0

NO_POT = (
    "its pot: a line “pot” on its card, and a card of that pot with its inside size, "
    "as: inside 38 x 27 x 7 cm"
)


class Vessel(Struct, frozen=True, gc=False):
    """A canopy over a pot: areas in m² as seen from above, litres of the pot and of water held.

    `guessed`: what was not measured, each with the rule that stands for it.
    """

    canopy_area_m2: float
    pot_area_m2: float
    pot_litres: float
    held_litres: float
    guessed: tuple[str, ...] = ()


class Unknown(Struct, frozen=True, gc=False):
    """What must be written down before a tree's water can be reckoned."""

    to_write: str


def vessel_of(tree: Tree, things: Things, figures: Mapping[str, float]) -> Vessel | Unknown:
    """What a tree's water hangs on, from its own measures and the cards of its pot and mix."""
    pot, said = _pot(tree, things, figures)
    if pot is None:
        return Unknown(said)
    gap_cm = RIM_GAP.among(figures)
    gap_cm = gap_cm if 0 <= gap_cm < pot.depth_cm else 0.0
    litres = litres_of(pot, gap_cm)
    area_m2, by_rule = _canopy(tree, pot, figures)
    held, mix_said = _held(tree, things, litres, figures)
    return Vessel(
        area_m2,
        soil_surface_cm2(pot, gap_cm) / CM2_PER_M2,
        litres,
        held,
        tuple(filter(None, (by_rule, said, mix_said))),
    )


def _canopy(tree: Tree, pot: Pot, figures: Mapping[str, float]) -> tuple[float, str]:
    """The canopy's area in m², and the rule of thumb where its spread was not measured."""
    spread = tree.sizes.get("spread")
    if spread is not None:
        first, *rest = spread.sizes_in("cm")
        return canopy_area_m2(first, rest[0] if rest else None), ""
    rules: tuple[tuple[Figure, float | None, str], ...] = (
        (SPREAD_OF_HEIGHT, _cm(tree.sizes.get("height")), phrase("its height")),
        (SPREAD_OF_POT, pot.length_cm, phrase("the length of its pot")),
    )
    if not tree.pot:
        # A root ball says less of the crown than the trunk does.
        rules = (
            rules[0],
            (SPREAD_OF_TRUNK, _cm(tree.sizes.get("trunk")), phrase("its trunk")),
            rules[1],
        )
    figure, size_cm, of = next(rule for rule in rules if rule[1])
    assert size_cm is not None
    across_cm = max(figure.among(figures), 0.0) * size_cm
    return canopy_area_m2(across_cm), (
        phrase(
            "crown taken as {across_cm:.0f} cm across, {among:g} × {of}",
            across_cm=across_cm,
            among=figure.among(figures),
            of=of,
        )
    )


def _cm(measure: Measure | None) -> float | None:
    return None if measure is None else measure.within("cm")


# ------------------------------------------------------------------ the pot


def _pot(tree: Tree, things: Things, figures: Mapping[str, float]) -> tuple[Pot | None, str]:
    """The pot, and what was taken for granted; or None, and what to write down."""
    card = things.find(tree.pot) if tree.pot else None
    if card is not None:
        return pot_of_card(card, figures)
    ball = tree.sizes.get("root ball")
    if ball is None:
        return None, phrase(NO_POT)
    sizes_cm = ball.sizes_in("cm")
    if len(sizes_cm) < 2 or min(sizes_cm) <= 0:
        return None, phrase(NO_POT)
    shape: Literal["rectangle", "round"] = "round" if len(sizes_cm) == 2 else "rectangle"
    return pot_from_inside(shape, sizes_cm), phrase("its root ball stands for a pot")


def pot_of_card(card: Thing, figures: Mapping[str, float]) -> tuple[Pot | None, str]:
    """The pot of a card, and what was taken for granted; or None, and what to write on the card."""
    inside, outside = card.measure("inside"), card.measure("outside")
    sizes = inside or outside
    if sizes is None:
        return None, phrase(
            "the inside size on the card of {title}, as: inside 38 x 27 x 7 cm", title=card.title
        )
    sizes_cm = sizes.sizes_in("cm")
    said = []
    shape = card.text("shape")
    if not shape:
        shape = "rectangle" if len(sizes_cm) == 3 else "round"
        said.append(phrase("pot taken as {shape}", shape=phrase(shape)))
    taper_cm = _taper_cm(card.measure("taper"), min(sizes_cm[:-1]))
    try:
        if inside is not None:
            pot = pot_from_inside(shape, sizes_cm, taper_cm=taper_cm)  # type: ignore[arg-type]
        else:
            wall_cm = POT_WALL.among(figures)
            pot = pot_from_outside(
                shape,  # type: ignore[arg-type]
                sizes_cm,
                wall_cm=wall_cm,
                foot_cm=_cm(card.measure("feet")) or 0.0,
                taper_cm=taper_cm,
            )
            said.append(
                phrase(
                    "pot measured outside, its wall taken as {wall_cm:g} cm",
                    wall_cm=wall_cm,
                )
            )
    except ValueError as error:
        return None, phrase("on the card of {title}: {error}", title=card.title, error=error)
    return pot, ", ".join(said)


def _taper_cm(taper: Measure | None, width_cm: float) -> float:
    """How far each wall comes in: half of how much narrower the floor is than the rim."""
    if taper is None:
        return 0.0
    narrower = taper.within("%") / 100 * width_cm if taper.sort == "share" else taper.within("cm")
    return narrower / 2


# ------------------------------------------------------------------ the mix


def _held(
    tree: Tree, things: Things, litres: float, figures: Mapping[str, float]
) -> tuple[float, str]:
    """The water in litres that the mix holds when drained; and the share taken where unknown."""
    card = things.find(tree.mix) if tree.mix else None
    if card is not None:
        try:
            return water_held_litres(parts_of_card(card), litres), ""
        except ValueError:
            pass
    share = min(max(HELD_SHARE.among(figures), 0.0), 1.0)
    of = (
        phrase("the mix {title}", title=card.title)
        if card is not None
        else phrase("a mix that nobody wrote down")
    )
    return litres * share, (phrase("{of} taken to hold {share:.0%} water", of=of, share=share))


def parts_of_card(mix: Thing) -> dict[str, float]:
    """The recipe of a mix's card: parts by volume, by ingredient."""
    parts: dict[str, float] = {}
    for line in mix.lines:
        measure = line.detail.measure
        if line.detail.name == "ingredient" and measure is not None:
            name = line.detail.words
            parts[name] = parts.get(name, 0.0) + _part(measure)
    return parts


def _part(measure: Measure) -> float:
    if measure.sort == "fraction":
        above, below = measure.numbers
        return float(above / below)
    return measure.within("%") / 100 if measure.sort == "share" else float(measure.number)
