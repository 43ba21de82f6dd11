"""How much a pot holds, how large its soil surface is, and how much clay it is made of.

Every pot is taken as a solid whose level section changes as a quadratic of the height: a prism, a
frustum, or for a drum a barrel with elliptic staves (part of an ellipsoid). For all of these the
prismoidal formula, V = h / 6 (A0 + 4 A1 + A2), is exact; for the barrel it gives the old gauger's
rule, V = pi h / 12 (2 D^2 + d^2). Both from memory of the standard mathematical tables; the tests
integrate the solids by slices.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

Shape = Literal["rectangle", "oval", "round", "hexagon", "drum"]

# The area of each plan as a share of the rectangle round it. A regular hexagon of side s is 2 s
# across the corners and 3^0.5 s across the flats, and 3/2 x 3^0.5 s^2 in area: three quarters.
SHARE_OF_RECTANGLE: dict[str, float] = {
    "rectangle": 1.0,
    "oval": math.pi / 4,
    "round": math.pi / 4,
    "hexagon": 0.75,
    "drum": math.pi / 4,
}
_CORNERS_TO_FLATS = 2 / math.sqrt(3)
CM3_PER_LITRE = 1000.0


class Pot(Struct, frozen=True, gc=False):
    """The inside of a pot, in cm: length and width at the rim, and depth.

    A hexagon is as long as it is across its corners and as wide as it is across its flats.
    `taper_cm`: how far each wall comes in from the rim to the floor; negative where the pot is
    narrower at its rim. `bulge_cm`: how far each wall of a drum swells out half-way up, beyond
    the straight line from rim to floor. `wall_cm`, `floor_cm`: thickness, 0 where unknown.
    """

    shape: Shape
    length_cm: float
    width_cm: float
    depth_cm: float
    taper_cm: float = 0.0
    bulge_cm: float = 0.0
    wall_cm: float = 0.0
    floor_cm: float = 0.0


def pot_from_inside(
    shape: Shape,
    sizes_cm: Sequence[float],
    *,
    taper_cm: float = 0.0,
    bulge_cm: float = 0.0,
    wall_cm: float = 0.0,
    floor_cm: float | None = None,
) -> Pot:
    """Return the pot of these inside sizes in cm, as a label gives them: the depth stands last.

    Round, drum and hexagon may be given by two sizes (diameter, or across the flats, and depth).
    `floor_cm`: as thick as the wall unless given. ValueError, with what to give, where sizes are
    missing or make no sense.
    """
    length, width, depth = _three_sizes(shape, sizes_cm)
    floor = wall_cm if floor_cm is None else floor_cm
    not_negative(wall_cm, "thickness of the wall in cm")
    not_negative(floor, "thickness of the floor in cm")
    not_negative(bulge_cm, "bulge in cm")
    if bulge_cm and shape != "drum":
        raise ValueError(f"Only a drum bulges: give a taper for a pot of shape {shape}, no bulge.")
    narrowest = min(length, width)
    if not 2 * bulge_cm < narrowest:
        raise ValueError(
            f"A bulge of {bulge_cm:g} cm does not fit a drum {narrowest:g} cm wide: give how far "
            f"one wall swells out half-way up, less than {narrowest / 2:g} cm."
        )
    if not 2 * abs(taper_cm) < narrowest:
        raise ValueError(
            f"A taper of {taper_cm:g} cm on each side does not fit a pot {narrowest:g} cm wide: "
            f"give how far one wall comes in from rim to floor, less than {narrowest / 2:g} cm."
        )
    return Pot(shape, length, width, depth, taper_cm, bulge_cm, wall_cm, floor)


def pot_from_outside(
    shape: Shape,
    sizes_cm: Sequence[float],
    *,
    wall_cm: float,
    foot_cm: float = 0.0,
    floor_cm: float | None = None,
    taper_cm: float = 0.0,
    bulge_cm: float = 0.0,
) -> Pot:
    """Return the pot of these outside sizes in cm: the height stands last, and includes the feet.

    The wall comes off each side, measured below any lip; feet and floor come off the height. The
    rest is as for `pot_from_inside`.
    """
    length, width, height = _three_sizes(shape, sizes_cm)
    positive(wall_cm, "thickness of the wall in cm")
    not_negative(foot_cm, "height of the feet in cm")
    floor = wall_cm if floor_cm is None else floor_cm
    not_negative(floor, "thickness of the floor in cm")
    across = length - 2 * wall_cm * length / width if shape == "hexagon" else length - 2 * wall_cm
    inside = (across, width - 2 * wall_cm, height - foot_cm - floor)
    if min(inside) <= 0:
        raise ValueError(
            f"Walls of {wall_cm:g} cm, a floor of {floor:g} cm and feet of {foot_cm:g} cm leave no "
            "room inside: give the outside sizes with the feet in the height, and thinner walls."
        )
    return pot_from_inside(
        shape, inside, taper_cm=taper_cm, bulge_cm=bulge_cm, wall_cm=wall_cm, floor_cm=floor
    )


def volume_litres(pot: Pot, rim_gap_cm: float = 0.0) -> float:
    """Return what a pot holds, in litres, filled to a gap below its rim (cm).

    A drum whose bulge was not measured is reckoned straight, so a little too small.
    """
    return _filled_cm3(pot, _filled_cm(pot, rim_gap_cm)) / CM3_PER_LITRE


def soil_surface_cm2(pot: Pot, rim_gap_cm: float = 0.0) -> float:
    """Return the surface of the soil, in cm², in a pot filled to a gap below its rim (cm)."""
    return _area_at(pot, _filled_cm(pot, rim_gap_cm))


def shell_litres(pot: Pot) -> float:
    """Return the volume of the clay of a pot, in litres: walls and floor, without feet and lip.

    ValueError where the thickness of the wall is not known.
    """
    positive(pot.wall_cm, "thickness of the wall in cm")
    wider = 2 * pot.wall_cm
    longer = wider * pot.length_cm / pot.width_cm if pot.shape == "hexagon" else wider
    outer = replace(pot, length_cm=pot.length_cm + longer, width_cm=pot.width_cm + wider)
    walls = _filled_cm3(outer, pot.depth_cm) - _filled_cm3(pot, pot.depth_cm)
    return (walls + pot.floor_cm * _area_at(outer, 0.0)) / CM3_PER_LITRE


def _three_sizes(shape: Shape, sizes_cm: Sequence[float]) -> tuple[float, float, float]:
    """Length, width and depth, each above 0."""
    if shape not in SHARE_OF_RECTANGLE:
        raise ValueError(f"Give the shape as one of {', '.join(SHARE_OF_RECTANGLE)}.")
    for size in sizes_cm:
        positive(size, "sizes of the pot in cm")
    if len(sizes_cm) == 3:
        length, width, depth = sizes_cm
        if shape == "round" and length != width:
            raise ValueError("A round pot is as long as it is wide: give the shape as oval.")
        if shape == "hexagon" and length < width:
            length, width = width, length
        return length, width, depth
    if len(sizes_cm) != 2 or shape in ("rectangle", "oval"):
        raise ValueError(f"Give {_SIZES_TO_GIVE[shape]}, in cm.")
    across, depth = sizes_cm
    return (across * _CORNERS_TO_FLATS if shape == "hexagon" else across), across, depth


_SIZES_TO_GIVE: dict[str, str] = {
    "rectangle": "length, width and depth of the rectangle",
    "oval": "length, width and depth of the oval",
    "round": "diameter and depth of the round pot",
    "hexagon": "the hexagon's width across the flats and its depth",
    "drum": "the drum's diameter at the rim and its depth",
}


def _filled_cm(pot: Pot, rim_gap_cm: float) -> float:
    not_negative(rim_gap_cm, "gap below the rim in cm")
    if rim_gap_cm >= pot.depth_cm:
        raise ValueError(
            f"A gap of {rim_gap_cm:g} cm leaves nothing of a pot {pot.depth_cm:g} cm deep: "
            "give how far the soil lies below the rim."
        )
    return pot.depth_cm - rim_gap_cm


def _filled_cm3(pot: Pot, height_cm: float) -> float:
    """The prismoidal formula from the floor to a height."""
    sections = (_area_at(pot, height_cm * part) for part in (0.0, 0.5, 1.0))
    floor, middle, top = sections
    return height_cm / 6 * (floor + 4 * middle + top)


def _area_at(pot: Pot, height_cm: float) -> float:
    """The level section in cm² at a height above the floor."""
    up = height_cm / pot.depth_cm
    if not pot.bulge_cm:
        return _straight_area(pot, up)
    floor, rim = _straight_area(pot, 0.0), _straight_area(pot, 1.0)
    # The straight pot's middle, each wall a bulge further out.
    middle = SHARE_OF_RECTANGLE[pot.shape] * math.prod(
        across - pot.taper_cm + 2 * pot.bulge_cm for across in (pot.length_cm, pot.width_cm)
    )
    # The quadratic through the three sections (Lagrange).
    return floor * (1 - up) * (1 - 2 * up) + middle * 4 * up * (1 - up) + rim * up * (2 * up - 1)


def _straight_area(pot: Pot, up: float) -> float:
    """The level section in cm² of a pot without a bulge, at a share of its depth."""
    narrower = 2 * pot.taper_cm * (1 - up)
    # A hexagon keeps its proportions, so its corners come in by more than its flats.
    shorter = narrower * pot.length_cm / pot.width_cm if pot.shape == "hexagon" else narrower
    plan = (pot.length_cm - shorter) * (pot.width_cm - narrower)
    return SHARE_OF_RECTANGLE[pot.shape] * plan


def positive(value: float, name: str) -> None:
    """Raise ValueError, with what to give, unless a figure is above 0."""
    if not (math.isfinite(value) and value > 0):
        raise ValueError(f"Give the {name}, above 0 (not {value:g}).")


def not_negative(value: float, name: str) -> None:
    """Raise ValueError, with what to give, where a figure is below 0."""
    if not (math.isfinite(value) and value >= 0):
        raise ValueError(f"Give the {name}, 0 or more (not {value:g}).")
