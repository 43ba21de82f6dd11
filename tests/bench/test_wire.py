"""Wire: thickness by the trade's rule, length by integration, mass by `pint`."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import cos, dist, inf, log, nan, pi, radians, sin, sqrt, tan

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud.bench.wire import (
    ALUMINIUM,
    ANNEALED_COPPER,
    METALS,
    Metal,
    anchor_length_mm,
    choose_wire,
    helix_length_mm,
    length_by_trade_mm,
    mass_g,
    metres_per_roll,
    pitch_mm,
    wire_for_branch,
)

SIZES_MM = st.floats(0.5, 80)


@pytest.mark.parametrize(
    ("branch_mm", "metal", "strands", "thickness_mm"),
    [
        # A third of the branch, by hand: 9 / 3 = 3.
        (9, ALUMINIUM, 1, 3.0),
        # 9.1 / 3 = 3.03: the next size up.
        (9.1, ALUMINIUM, 1, 3.5),
        (13.5, ALUMINIUM, 1, 4.5),
        # Thinner than any that is sold.
        (1, ALUMINIUM, 1, 1.0),
        (18, ALUMINIUM, 1, 6.0),
        # 19 / 3 = 6.33: two, each 6.33 / 1.26 = 5.03 or thicker.
        (19, ALUMINIUM, 2, 5.5),
        # A fifth of the branch, for copper: 6 x 0.2 is a little above 1.2 in binary.
        (6, ANNEALED_COPPER, 1, 1.2),
        (9, ANNEALED_COPPER, 1, 2.0),
        (20, ANNEALED_COPPER, 1, 4.0),
        # 21 / 5 = 4.2: two, each 4.2 / 1.26 = 3.33 or thicker.
        (21, ANNEALED_COPPER, 2, 4.0),
    ],
)
def test_the_thinnest_that_is_sold_and_holds(
    branch_mm: float, metal: Metal, strands: int, thickness_mm: float
) -> None:
    wire = choose_wire(branch_mm, metal)
    assert (wire.strands, wire.thickness_mm, wire.holds) == (strands, thickness_mm, True)


def test_two_wires_hold_as_much_as_their_sections_say() -> None:
    """The plastic section modulus, integrated over the disc: what a round wire sets with."""

    def modulus(diameter_mm: float, slices: int = 20_000) -> float:
        radius = diameter_mm / 2
        high = radius / slices
        heights = ((n + 0.5) * high for n in range(slices))
        return 2 * sum(y * 2 * sqrt(radius**2 - y**2) * high for y in heights)

    # The thickest branch two of 6 mm hold: one wire with both their moduli, times three.
    single_mm = 6.0 * (2 * modulus(6.0) / modulus(6.0)) ** (1 / 3)
    assert modulus(single_mm) == pytest.approx(2 * modulus(6.0), rel=1e-6)
    thickest_mm = 3 * single_mm
    assert thickest_mm == pytest.approx(22.68, abs=0.005)
    assert choose_wire(thickest_mm - 0.01).holds
    beyond = choose_wire(thickest_mm + 0.01)
    assert (beyond.strands, beyond.thickness_mm, beyond.holds) == (2, 6.0, False)


@given(SIZES_MM)
def test_copper_is_thinner_than_aluminium(branch_mm: float) -> None:
    copper, aluminium = choose_wire(branch_mm, ANNEALED_COPPER), choose_wire(branch_mm, ALUMINIUM)
    assert copper.wanted_mm < aluminium.wanted_mm
    assert copper.thickness_mm * copper.strands <= aluminium.thickness_mm * aluminium.strands


def test_sizes_are_an_argument() -> None:
    stocked = Metal("aluminium", 1 / 3, 2.70, (2.0, 4.0))
    assert choose_wire(7, stocked).thickness_mm == 4.0
    with pytest.raises(ValueError, match="which sizes of brass"):
        choose_wire(7, Metal("brass", 0.25, 8.5, ()))


def test_metals_by_their_symbols() -> None:
    """Densities: `periodictable` 2.1.0 has 2.6989 for aluminium and 8.96 for copper."""
    assert METALS["Al"].density_g_per_cm3 == pytest.approx(2.6989, rel=1e-3)
    assert METALS["Cu"].density_g_per_cm3 == pytest.approx(8.96, rel=1e-3)


def _integrated_mm(
    branch_mm: float,
    radius_mm: Callable[[float], float],
    turned: Callable[[float], float],
    steps: int = 40_000,
) -> float:
    """The length of a curve round an axis, by adding up straight pieces."""
    points = [
        (radius_mm(z) * cos(turned(z)), radius_mm(z) * sin(turned(z)), z)
        for z in (branch_mm * n / steps for n in range(steps + 1))
    ]
    return sum(dist(here, there) for here, there in pairwise(points))


@pytest.mark.parametrize(
    ("branch_mm", "diameter_mm", "wire", "pitch"),
    [(300, 9, 3, 20), (120, 4, 1.5, 8), (450, 15, 5, 90), (80, 20, 6, 25)],
)
def test_a_helix_is_as_long_as_its_pieces(
    branch_mm: float, diameter_mm: float, wire: float, pitch: float
) -> None:
    pieces_mm = _integrated_mm(
        branch_mm, lambda _: (diameter_mm + wire) / 2, lambda along: 2 * pi * along / pitch
    )
    assert helix_length_mm(branch_mm, diameter_mm, wire, pitch) == pytest.approx(
        pieces_mm, rel=1e-6
    )


def test_a_taper_changes_nothing_at_a_constant_angle() -> None:
    """A branch of 12 mm that ends at 5 mm, coiled at 50 degrees all along, by integration."""
    slope, wide, angle = 3.5 / 300, 8.0, radians(50)  # radius to the middle of a 4 mm wire

    def turned(along: float) -> float:
        # d(turned) / d(along) = tan(angle) / radius; of a cone that is a logarithm.
        return -tan(angle) / slope * log((wide - slope * along) / wide)

    pieces_mm = _integrated_mm(300, lambda along: wide - slope * along, turned)
    need = wire_for_branch(300, 12, anchor_diameter_mm=30, angle_degrees=50)
    assert need.wire.thickness_mm == 4.0
    assert 1000 * need.coil_m == pytest.approx(pieces_mm, rel=1e-3)


def test_the_angle_gives_the_pitch() -> None:
    # By hand: at 45 degrees pitch and girth are equal, pi x (9 + 3) = 37.70 mm.
    assert pitch_mm(9, 3) == pytest.approx(37.699, abs=0.001)
    # At 60 degrees the girth is 3^0.5 times the pitch.
    assert pitch_mm(9, 3, 60) == pytest.approx(37.699 / 1.73205, abs=0.001)


def test_the_rule_of_a_third_stands_beside_the_helix() -> None:
    assert length_by_trade_mm(300) == pytest.approx(400)
    # A helix is a third longer at acos(3/4) = 41.4 degrees: near the 45 of the usual coil.
    at_the_rule = helix_length_mm(300, 9, 3, pitch_mm(9, 3, 41.4096))
    assert at_the_rule == pytest.approx(400, abs=0.01)
    need = wire_for_branch(300, 9, anchor_diameter_mm=30)
    # 300 x 2^0.5 at 45 degrees.
    assert (need.coil_m, need.coil_by_trade_m) == pytest.approx((0.42426, 0.4), abs=1e-5)


def test_an_anchorage_goes_round_the_trunk() -> None:
    # By hand: 1.5 x pi x (30 + 3) = 155.5 mm.
    assert anchor_length_mm(30, 3) == pytest.approx(155.51, abs=0.01)
    assert anchor_length_mm(30, 3, turns=0) == 0


def test_all_of_a_branch_by_hand() -> None:
    # 19 mm: two of 5.5 mm. Coil 400 x 2^0.5 = 565.7; anchor 1.5 x pi x 65.5 = 308.7 mm.
    need = wire_for_branch(400, 19, anchor_diameter_mm=60)
    assert need.length_m == pytest.approx(2 * (0.5657 + 0.3087), abs=2e-4)
    # pi / 4 x 5.5² = 23.76 mm²; x 2.70 = 64.15 g a metre.
    assert need.mass_g == pytest.approx(64.15 * 1.7487, abs=0.05)


@pytest.mark.parametrize(("thickness", "density"), [(1.0, 2.70), (3.5, 2.70), (1.6, 8.96)])
def test_mass_and_rolls_as_pint_has_them(thickness: float, density: float) -> None:
    units = pint.get_application_registry()
    section = pi / 4 * (thickness * units.mm) ** 2
    mass = (12.5 * units.m * section * density * units.g / units.cm**3).to("g").magnitude
    assert mass_g(12.5, thickness, density) == pytest.approx(mass)
    roll = (0.5 * units.kg / (section * density * units.g / units.cm**3)).to("m").magnitude
    assert metres_per_roll(0.5, thickness, density) == pytest.approx(roll)


def test_a_roll_by_hand() -> None:
    # 2 mm aluminium: 3.1416 mm² x 2.70 = 8.482 g a metre, so a kilogram is 117.9 m.
    assert metres_per_roll(1, 2.0, 2.70) == pytest.approx(117.9, abs=0.05)
    # Copper of that thickness is 8.96 / 2.70 times as heavy.
    assert metres_per_roll(1, 2.0, 8.96) == pytest.approx(35.5, abs=0.05)


@pytest.mark.parametrize("wrong", [0, -3, nan, inf])
def test_sizes_that_make_no_sense(wrong: float) -> None:
    for sum_ in (
        lambda: choose_wire(wrong),
        lambda: helix_length_mm(wrong, 9, 3, 30),
        lambda: helix_length_mm(300, 9, 3, wrong),
        lambda: length_by_trade_mm(wrong),
        lambda: anchor_length_mm(30, wrong),
        lambda: mass_g(wrong, 3, 2.7),
        lambda: mass_g(1, 3, wrong),
        lambda: metres_per_roll(wrong, 3, 2.7),
    ):
        with pytest.raises(ValueError, match=r"Give the .*, above 0 \(not"):
            sum_()


def test_coils_that_cannot_be_laid() -> None:
    with pytest.raises(ValueError, match=r"lie on one another at a pitch of 2\.9 mm"):
        helix_length_mm(300, 9, 3, 2.9)
    for angle in (0, 90, nan):
        with pytest.raises(ValueError, match="between 0 and 90 degrees"):
            pitch_mm(9, 3, angle)
    with pytest.raises(ValueError, match="turns of the anchorage, 0 or more"):
        anchor_length_mm(30, 3, turns=-1)
