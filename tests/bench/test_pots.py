"""Pots against solids cut into thin slices, sums worked by hand, and pint for the units."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pint
import pytest

from backbud.bench.pots import (
    pot_from_inside,
    pot_from_outside,
    shell_litres,
    soil_surface_cm2,
    volume_litres,
)

UNITS = pint.get_application_registry()
SLICES = 20_000


def sliced_litres(section_cm2: Callable[[float], float], height_cm: float) -> float:
    """Thin level slices, each as large as half-way up it."""
    thick = height_cm / SLICES
    cm3 = math.fsum(section_cm2((k + 0.5) * thick) for k in range(SLICES)) * thick
    return UNITS.Quantity(cm3, "cm**3").to("litre").magnitude


def polygon_cm2(points: list[tuple[float, float]]) -> float:
    """The shoelace formula."""
    turned = points[1:] + points[:1]
    return abs(sum(x * v - u * y for (x, y), (u, v) in zip(points, turned, strict=True))) / 2


def hexagon_cm2(across_flats: float) -> float:
    """From the corners of a regular hexagon."""
    out = across_flats / math.sqrt(3)
    corners = [math.radians(60 * k) for k in range(6)]
    return polygon_cm2([(out * math.cos(a), out * math.sin(a)) for a in corners])


@pytest.mark.parametrize(
    ("shape", "sizes", "litres"),
    [
        # 38 x 27 x 7 = 7182 cm³.
        ("rectangle", (38, 27, 7), 7.182),
        # pi / 4 x 36 x 28 x 12 = 9500.176 cm³.
        ("oval", (36, 28, 12), 9.500176),
        # pi / 4 x 34² x 12 = 10895.04 cm³, given by two sizes or three.
        ("round", (34, 12), 10.895043),
        ("round", (34, 34, 12), 10.895043),
        # 3^0.5 / 2 x 18² x 16 = 4489.476 cm³ (area of a hexagon from its width across the flats).
        ("hexagon", (18, 16), 4.489476),
        # A drum whose bulge nobody measured: pi / 4 x 22² x 24 = 9123.19 cm³.
        ("drum", (22, 24), 9.123185),
    ],
)
def test_straight_pots_by_hand(shape, sizes, litres):
    assert volume_litres(pot_from_inside(shape, sizes)) == pytest.approx(litres, rel=1e-6)


@pytest.mark.parametrize("gap", [0.0, 1.5])
def test_tapered_rectangle_is_not_a_pyramid_yet_its_slices_agree(gap):
    # The walls come in by 1 cm each, so rim 48 x 34 and floor 46 x 32: not of one proportion.
    pot = pot_from_inside("rectangle", (48, 34, 7), taper_cm=1)
    sliced = sliced_litres(lambda z: (46 + 2 * z / 7) * (32 + 2 * z / 7), 7 - gap)
    assert volume_litres(pot, gap) == pytest.approx(sliced, rel=1e-7)


def test_tapered_rectangle_by_the_prismoidal_formula_by_hand():
    # 7 / 6 x (46 x 32 + 4 x 47 x 33 + 48 x 34) = 7 / 6 x 9308 = 10859.33 cm³.
    pot = pot_from_inside("rectangle", (48, 34, 7), taper_cm=1)
    assert volume_litres(pot) == pytest.approx(10.859333, rel=1e-6)


@pytest.mark.parametrize("gap", [0.0, 2.0])
@pytest.mark.parametrize("taper", [2.5, -1.5])
def test_tapered_oval_by_slices(taper, gap):
    def section(z: float) -> float:
        inwards = 2 * taper * (1 - z / 9)
        around = np.linspace(0, 2 * np.pi, 3600, endpoint=False)
        x, y = (30 - inwards) / 2 * np.cos(around), (22 - inwards) / 2 * np.sin(around)
        return float(abs(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) / 2)

    thick = (9 - gap) / 400
    sliced = sum(section((k + 0.5) * thick) for k in range(400)) * thick / 1000
    pot = pot_from_inside("oval", (30, 22, 9), taper_cm=taper)
    assert volume_litres(pot, gap) == pytest.approx(sliced, rel=1e-5)


@pytest.mark.parametrize("gap", [0.0, 3.0])
def test_tapered_hexagon_by_slices(gap):
    pot = pot_from_inside("hexagon", (18, 16), taper_cm=2)
    sliced = sliced_litres(lambda z: hexagon_cm2(14 + 4 * z / 16), 16 - gap)
    assert volume_litres(pot, gap) == pytest.approx(sliced, rel=1e-7)


def test_round_taper_is_the_frustum_of_a_cone():
    # pi h / 3 (R² + R r + r²), R = 17, r = 14, h = 12: 2892 pi = 9085.486 cm³.
    pot = pot_from_inside("round", (34, 12), taper_cm=3)
    assert volume_litres(pot) == pytest.approx(9.085486, rel=1e-6)


def test_a_hexagon_by_corners_and_flats_is_the_same_whichever_comes_first():
    # 18 cm across the flats is 18 x 2 / 3^0.5 = 20.7846 cm across the corners.
    corners = 20.784609690826528
    by_flats = volume_litres(pot_from_inside("hexagon", (18, 16)))
    assert volume_litres(pot_from_inside("hexagon", (corners, 18, 16))) == pytest.approx(by_flats)
    assert volume_litres(pot_from_inside("hexagon", (18, corners, 16))) == pytest.approx(by_flats)


@pytest.mark.parametrize("gap", [0.0, 2.0, 13.0])
def test_a_drum_is_a_slice_of_an_ellipsoid(gap):
    # 22 cm at rim and floor, 27 at the belly, 24 deep: r² = 13.5² (1 - (z - 12)² / c²), and c
    # from r = 11 at z = 0.
    c2 = 12**2 / (1 - 11**2 / 13.5**2)
    sliced = sliced_litres(lambda z: math.pi * 13.5**2 * (1 - (z - 12) ** 2 / c2), 24 - gap)
    pot = pot_from_inside("drum", (22, 24), bulge_cm=2.5)
    assert volume_litres(pot, gap) == pytest.approx(sliced, rel=1e-7)


def test_a_full_drum_by_the_gaugers_rule():
    # pi h / 12 (2 D² + d²) = pi x 24 / 12 x (2 x 27² + 22²) = 12201.946 cm³.
    pot = pot_from_inside("drum", (22, 24), bulge_cm=2.5)
    assert volume_litres(pot) == pytest.approx(12.201946, rel=1e-6)


def test_outside_sizes_lose_walls_floor_and_feet():
    # 40 x 30 x 10 outside, wall 1, feet 1.5: inside 38 x 28 x 7.5 = 7980 cm³.
    pot = pot_from_outside("rectangle", (40, 30, 10), wall_cm=1, foot_cm=1.5)
    assert (pot.length_cm, pot.width_cm, pot.depth_cm) == (38, 28, 7.5)
    assert volume_litres(pot) == pytest.approx(7.98)
    thin = pot_from_outside("rectangle", (40, 30, 10), wall_cm=1, foot_cm=1.5, floor_cm=0.5)
    assert thin.depth_cm == 8


def test_outside_of_a_hexagon_loses_two_walls_across_the_flats():
    pot = pot_from_outside("hexagon", (20, 17), wall_cm=1)
    assert volume_litres(pot) == pytest.approx(volume_litres(pot_from_inside("hexagon", (18, 16))))


def test_inches_come_out_as_the_same_litres():
    # pint: 15 x 10 x 3 inches, as a litre.
    inches = UNITS.Quantity(15 * 10 * 3, "inch**3").to("litre").magnitude
    cm = [UNITS.Quantity(side, "inch").to("cm").magnitude for side in (15, 10, 3)]
    assert volume_litres(pot_from_inside("rectangle", cm)) == pytest.approx(inches, rel=1e-12)


def test_the_soil_surface_is_the_section_at_the_gap():
    pot = pot_from_inside("rectangle", (48, 34, 7), taper_cm=1)
    assert soil_surface_cm2(pot) == 48 * 34
    # Half-way down the walls have come in by half the taper.
    assert soil_surface_cm2(pot, 3.5) == pytest.approx(47 * 33)
    drum = pot_from_inside("drum", (22, 24), bulge_cm=2.5)
    assert soil_surface_cm2(drum, 12) == pytest.approx(math.pi / 4 * 27**2)


def test_the_clay_of_a_straight_pot_is_outside_less_inside():
    pot = pot_from_outside("rectangle", (40, 30, 9), wall_cm=1)
    # 40 x 30 x 9 - 38 x 28 x 8 = 2288 cm³.
    assert shell_litres(pot) == pytest.approx(2.288)


def test_the_clay_of_a_tapered_hexagon_by_slices():
    pot = pot_from_inside("hexagon", (18, 16), taper_cm=2, wall_cm=1, floor_cm=1.5)
    walls = sliced_litres(lambda z: hexagon_cm2(16 + 4 * z / 16) - hexagon_cm2(14 + 4 * z / 16), 16)
    assert shell_litres(pot) == pytest.approx(walls + 1.5 * hexagon_cm2(16) / 1000, rel=1e-6)


@pytest.mark.parametrize(
    ("shape", "sizes", "more", "says"),
    [
        ("rectangle", (38, 27), {}, "length, width and depth of the rectangle, in cm"),
        ("oval", (38, 27), {}, "length, width and depth of the oval"),
        ("round", (34,), {}, "diameter and depth of the round pot"),
        ("drum", (), {}, "diameter at the rim and its depth"),
        ("hexagon", (1, 2, 3, 4), {}, "across the flats and its depth"),
        ("round", (34, 30, 12), {}, "give the shape as oval"),
        ("bowl", (34, 12), {}, "one of rectangle, oval, round, hexagon, drum"),
        ("round", (34, 0), {}, "sizes of the pot in cm, above 0 (not 0)"),
        ("round", (math.nan, 9), {}, "above 0 (not nan)"),
        ("round", (math.inf, 9), {}, "above 0 (not inf)"),
        ("oval", (30, 20, 9), {"taper_cm": 10}, "less than 10 cm"),
        ("oval", (30, 20, 9), {"taper_cm": -10}, "less than 10 cm"),
        ("oval", (30, 20, 9), {"taper_cm": math.nan}, "less than 10 cm"),
        ("oval", (30, 20, 9), {"bulge_cm": 1}, "Only a drum bulges"),
        ("drum", (20, 20), {"bulge_cm": 10}, "less than 10 cm"),
        ("drum", (20, 20), {"bulge_cm": -1}, "bulge in cm, 0 or more"),
        ("round", (20, 9), {"wall_cm": -1}, "thickness of the wall in cm, 0 or more"),
        ("round", (20, 9), {"floor_cm": -1}, "thickness of the floor in cm, 0 or more"),
    ],
)
def test_what_makes_no_sense_says_what_to_give(shape, sizes, more, says):
    with pytest.raises(ValueError) as caught:
        pot_from_inside(shape, sizes, **more)
    assert says in str(caught.value)
    # One sentence.
    assert str(caught.value).endswith(".")
    assert ". " not in str(caught.value)


def test_walls_that_leave_no_room():
    with pytest.raises(ValueError, match="leave no room inside"):
        pot_from_outside("oval", (30, 20, 3), wall_cm=1, foot_cm=2)
    with pytest.raises(ValueError, match="leave no room inside"):
        pot_from_outside("oval", (30, 20, 9), wall_cm=10)
    with pytest.raises(ValueError, match="thickness of the wall in cm, above 0"):
        pot_from_outside("oval", (30, 20, 9), wall_cm=0)


def test_a_gap_that_leaves_nothing_and_clay_of_no_thickness():
    pot = pot_from_inside("round", (30, 9))
    with pytest.raises(ValueError, match="leaves nothing of a pot 9 cm deep"):
        volume_litres(pot, 9)
    with pytest.raises(ValueError, match="gap below the rim in cm, 0 or more"):
        volume_litres(pot, -1)
    with pytest.raises(ValueError, match="thickness of the wall in cm, above 0"):
        shell_litres(pot)
