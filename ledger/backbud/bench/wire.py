"""How thick a wire a branch asks for, how long it has to be, and how heavy it is.

Lengths on the tree are in mm, lengths of wire in m, masses in g, angles in degrees.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot, pi, radians, tan

from msgspec import Struct

from backbud.bench.pots import not_negative, positive

# A half of a tenth is not always a twentieth in binary: this much is no thicker a branch.
_ROUNDING = 1e-9


class Metal(Struct, frozen=True, gc=False):
    """A wire's metal: how thick it must be for a branch, how heavy it is, which sizes are sold.

    `share_of_branch`: thickness of wire over thickness of branch. `sizes_mm`: rising.
    """

    name: str
    share_of_branch: float
    density_g_per_cm3: float
    sizes_mm: tuple[float, ...]


# Densities: CRC Handbook of Chemistry and Physics (`periodictable` 2.1.0 has 2.6989 and 8.96).
# The shares and sizes are common practice, no source: a third of the branch for aluminium;
# annealed copper hardens as it is bent and holds at three fifths of that.
ALUMINIUM = Metal("aluminium", 1 / 3, 2.70, (1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0))
ANNEALED_COPPER = Metal("annealed copper", 1 / 5, 8.96, (0.7, 0.9, 1.2, 1.6, 2.0, 2.6, 3.2, 4.0))
METALS: Mapping[str, Metal] = {"Al": ALUMINIUM, "Cu": ANNEALED_COPPER}

# Common practice, no source: coils lie at about 45 degrees to the branch (60 at the most).
USUAL_ANGLE_DEGREES = 45.0
# Common practice, no source: a wire is cut a third longer than its branch.
LONGER_BY = 1 / 3
# Common practice, no source: one and a half turns round the trunk or a second branch hold it.
ANCHOR_TURNS = 1.5

TOO_THICK_FOR_WIRE = (
    "Two of the thickest wires hold no branch so thick: guy it, or bend it in steps."
)


class Wire(Struct, frozen=True, gc=False):
    """A wire for a branch: `strands` wires of `thickness_mm`, laid side by side.

    `wanted_mm`: what the rule asks of a single wire. `holds`: False where even two of the
    thickest are too thin (TOO_THICK_FOR_WIRE).
    """

    metal: Metal
    thickness_mm: float
    strands: int
    wanted_mm: float
    holds: bool = True


class WireNeed(Struct, frozen=True, gc=False):
    """The wire a branch takes; `coil_m`, `coil_by_trade_m` and `anchor_m` are of one strand.

    `coil_m`: the helix along the branch. `coil_by_trade_m`: the same by the rule of a third
    longer, to hold beside it.
    """

    wire: Wire
    coil_m: float
    coil_by_trade_m: float
    anchor_m: float

    @property
    def length_m(self) -> float:
        """All strands, with their anchorage, in m."""
        return self.wire.strands * (self.coil_m + self.anchor_m)

    @property
    def mass_g(self) -> float:
        """All strands, with their anchorage, in g."""
        return mass_g(self.length_m, self.wire.thickness_mm, self.wire.metal.density_g_per_cm3)


def choose_wire(branch_diameter_mm: float, metal: Metal = ALUMINIUM) -> Wire:
    """Return the thinnest wire sold that holds a branch, two strands where no single one does.

    The branch is measured where it leaves the trunk. Two wires side by side bend like one that is
    2^(1/3) times as thick: a round wire resists lasting bending by d³/6 (plastic section modulus).
    ValueError where the branch has no thickness, or the metal no sizes.
    """
    positive(branch_diameter_mm, "branch's thickness in mm")
    if not metal.sizes_mm:
        raise ValueError(f"Say which sizes of {metal.name} wire are sold.")
    wanted_mm = branch_diameter_mm * metal.share_of_branch
    for strands in (1, 2):
        for size_mm in metal.sizes_mm:
            if size_mm * strands ** (1 / 3) >= wanted_mm - _ROUNDING:
                return Wire(metal, size_mm, strands, wanted_mm)
    return Wire(metal, metal.sizes_mm[-1], 2, wanted_mm, holds=False)


def pitch_mm(
    branch_diameter_mm: float, wire_mm: float, angle_degrees: float = USUAL_ANGLE_DEGREES
) -> float:
    """Return how far apart (mm, along the branch) coils lie at an angle to the branch's axis.

    girth of the coil / tan(angle). ValueError unless the angle is between 0 and 90 degrees.
    """
    positive(branch_diameter_mm, "branch's thickness in mm")
    positive(wire_mm, "wire's thickness in mm")
    if not 0 < angle_degrees < 90:
        raise ValueError(f"A coil's angle lies between 0 and 90 degrees, not {angle_degrees:g}.")
    return _coil_girth_mm(branch_diameter_mm, wire_mm) / tan(radians(angle_degrees))


def helix_length_mm(
    branch_length_mm: float, branch_diameter_mm: float, wire_mm: float, pitch_mm: float
) -> float:
    """Return the length (mm) of a wire coiled along a branch, one coil each `pitch_mm`.

    Each coil is the long side of a triangle of pitch and girth, measured along the middle of the
    wire. At a constant angle it is branch length / cos(angle), so that a taper changes nothing.
    ValueError where a size is not above zero, or the coils would lie on one another.
    """
    positive(branch_length_mm, "branch's length in mm")
    positive(branch_diameter_mm, "branch's thickness in mm")
    positive(wire_mm, "wire's thickness in mm")
    positive(pitch_mm, "distance from coil to coil in mm")
    girth_mm = _coil_girth_mm(branch_diameter_mm, wire_mm)
    coil_mm = hypot(girth_mm, pitch_mm)
    # Square to the wire, neighbouring coils are pitch * sin(angle to the axis) apart.
    if pitch_mm * girth_mm / coil_mm < wire_mm:
        raise ValueError(
            f"Coils of {wire_mm:g} mm wire lie on one another at a pitch of {pitch_mm:g} mm."
        )
    return branch_length_mm / pitch_mm * coil_mm


def length_by_trade_mm(branch_length_mm: float, longer_by: float = LONGER_BY) -> float:
    """Return the length (mm) of a wire by the trade's rule: the branch and a third (no source)."""
    positive(branch_length_mm, "branch's length in mm")
    return branch_length_mm * (1 + longer_by)


def anchor_length_mm(
    anchor_diameter_mm: float, wire_mm: float, turns: float = ANCHOR_TURNS
) -> float:
    """Return the length (mm) that holds a wire: so many turns round a trunk or second branch.

    None of it (`turns` 0) where one wire runs over two branches and holds itself.
    """
    positive(anchor_diameter_mm, "thickness in mm of what the wire is anchored on")
    positive(wire_mm, "wire's thickness in mm")
    not_negative(turns, "turns of the anchorage")
    return turns * _coil_girth_mm(anchor_diameter_mm, wire_mm)


def wire_for_branch(
    branch_length_mm: float,
    branch_diameter_mm: float,
    metal: Metal = ALUMINIUM,
    *,
    anchor_diameter_mm: float,
    anchor_turns: float = ANCHOR_TURNS,
    angle_degrees: float = USUAL_ANGLE_DEGREES,
) -> WireNeed:
    """Return which wire a branch takes, and how much of it, held on a trunk or second branch.

    ValueError where a size is not above zero, or the coils would lie on one another.
    """
    wire = choose_wire(branch_diameter_mm, metal)
    apart_mm = pitch_mm(branch_diameter_mm, wire.thickness_mm, angle_degrees)
    coil_mm = helix_length_mm(branch_length_mm, branch_diameter_mm, wire.thickness_mm, apart_mm)
    return WireNeed(
        wire,
        coil_mm / 1000,
        length_by_trade_mm(branch_length_mm) / 1000,
        anchor_length_mm(anchor_diameter_mm, wire.thickness_mm, anchor_turns) / 1000,
    )


def mass_g(length_m: float, thickness_mm: float, density_g_per_cm3: float) -> float:
    """Return the mass (g) of a round wire; a square mm, a metre long, is a cubic cm."""
    positive(length_m, "length of the wire in m")
    return length_m * _mass_of_a_metre_g(thickness_mm, density_g_per_cm3)


def metres_per_roll(roll_kg: float, thickness_mm: float, density_g_per_cm3: float) -> float:
    """Return how many metres of round wire a roll of so many kg holds."""
    positive(roll_kg, "weight of the roll in kg")
    return 1000 * roll_kg / _mass_of_a_metre_g(thickness_mm, density_g_per_cm3)


def _mass_of_a_metre_g(thickness_mm: float, density_g_per_cm3: float) -> float:
    positive(thickness_mm, "wire's thickness in mm")
    positive(density_g_per_cm3, "metal's density in g/cm³")
    return pi / 4 * thickness_mm**2 * density_g_per_cm3


def _coil_girth_mm(core_diameter_mm: float, wire_mm: float) -> float:
    """The girth along the middle of a wire that lies on a branch or trunk."""
    return pi * (core_diameter_mm + wire_mm)
