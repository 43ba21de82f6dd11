"""How to hold a tree in its pot and the mix over its holes: anchor wires and mesh.

All figures here are common practice, no source.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from msgspec import Struct

from backbud.bench.pots import positive


class _Tie(NamedTuple):
    up_to_litres: float
    wires: int
    aluminium_mm: float


# The heavier the pot, the more the tree pulls at it in wind and when it is carried.
_TIES = (
    _Tie(0.5, 1, 1.0),
    _Tie(1.5, 1, 1.5),
    _Tie(5.0, 2, 2.0),
    _Tie(10.0, 2, 2.5),
    _Tie(25.0, 2, 3.0),
    _Tie(math.inf, 4, 3.0),
)
# To grip with the pliers and twist at each end.
_TWIST_CM = 5.0
# Mesh reaches a centimetre over the hole all round.
_MESH_OVER_CM = 1.0
STAPLE_MM = 1.5
# A staple: across the hole, down through it at both ends, and bent out under the pot.
_STAPLE_BY_HOLE = 4.0


class Anchors(Struct, frozen=True, gc=False):
    """Aluminium wires that tie a tree into its pot: how many, how thick (mm) and long (cm each).

    `bar`: a bar or stick under the pot is needed, since one hole gives the wires nothing to
    go over. `total_m`: metres of wire for all of them.
    """

    wires: int
    aluminium_mm: float
    length_cm: float
    bar: bool

    @property
    def total_m(self) -> float:
        return self.wires * self.length_cm / 100


class Mesh(Struct, frozen=True, gc=False):
    """Pieces of mesh over the holes and the side of each (cm); wire for their staples.

    `mesh_cm2`: of all pieces. `staple_m`: metres of wire of `STAPLE_MM`, one staple a piece.
    """

    pieces: int
    side_cm: float
    mesh_cm2: float
    staple_m: float


def anchors(pot_litres: float, holes: int, length_cm: float, depth_cm: float) -> Anchors:
    """Return the wires that tie a tree into a pot of so many litres and holes.

    A wire goes once across under the ball, up at both ends, and 5 cm more each end to twist:
    length + 2 x depth + 10 cm. ValueError for a pot without a hole, or sizes not above zero.
    """
    _check_holes(holes)
    positive(pot_litres, "volume of the pot in litres")
    positive(length_cm, "length of the pot in cm")
    positive(depth_cm, "depth of the pot in cm")
    tie = next(tie for tie in _TIES if pot_litres <= tie.up_to_litres)
    length = length_cm + 2 * depth_cm + 2 * _TWIST_CM
    return Anchors(tie.wires, tie.aluminium_mm, length, holes == 1)


def mesh(holes: int, hole_cm: float = 2.0) -> Mesh:
    """Return the mesh over a pot's holes of one diameter (cm): one piece and one staple a hole.

    ValueError for a pot without a hole, or a hole of no width.
    """
    _check_holes(holes)
    positive(hole_cm, "diameter of a hole in cm")
    side = hole_cm + 2 * _MESH_OVER_CM
    return Mesh(holes, side, holes * side**2, holes * _STAPLE_BY_HOLE * hole_cm / 100)


def _check_holes(holes: int) -> None:
    if holes < 1:
        raise ValueError(
            "Give the number of holes, 1 or more: a pot without one does not drain, and has "
            "nothing to tie the tree to."
        )
