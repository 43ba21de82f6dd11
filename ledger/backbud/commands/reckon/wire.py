"""`reckon wire`: the wire for a branch, and the anchors and mesh for a pot."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.bench.anchors import STAPLE_MM, Anchors, Mesh, anchors, mesh
from backbud.bench.pots import Pot, volume_litres
from backbud.bench.wire import (
    METALS,
    TOO_THICK_FOR_WIRE,
    USUAL_ANGLE_DEGREES,
    Metal,
    Wire,
    WireNeed,
    choose_wire,
    metres_per_roll,
    wire_for_branch,
)
from backbud.commands.reckon.asked import (
    Asked,
    Option,
    amount,
    as_on_card,
    asked_for,
    measured,
    word,
)
from backbud.commands.reckon.pot import INSIDE_OPTIONS, POT, SHAPE, inside_pot, plan
from backbud.commands.reckon.sheet import SumLine, SumSheet, precise, sizes_of
from backbud.words import number

BRANCH = measured(
    "--branch", "thickness of the branch where it leaves the trunk", "length",
    give="a length such as 9 mm",
)  # fmt: skip
LENGTH = measured(
    "--length", "length of the branch to be wired", "length", give="a length such as 40 cm"
)
METAL = as_on_card(
    "material", "metal", "--metal", "aluminium unless given; copper is annealed", "Al or Cu"
)
ANCHORED_ON = measured(
    "--anchored-on", "thickness of the trunk or second branch that the wire is anchored on; the "
    "branch's own unless given", "length", give="a length such as 3 cm",
)  # fmt: skip
ANGLE = measured(
    "--angle", "of the coils to the branch; 45 degrees unless given", "angle", "number",
    give="an angle such as 45 degrees",
)  # fmt: skip
ROLL = measured("--roll", "weight of a roll, for its metres", "mass", give="a mass such as 1 kg")
HOLES = as_on_card(
    "pot", "holes", "--holes", "the pot's drainage holes", "a whole number such as 2"
)
HOLE = measured(
    "--hole", "diameter of a hole, for the mesh; 2 cm unless given", "length",
    give="a length such as 2 cm",
)  # fmt: skip

OPTIONS: tuple[Option, ...] = (
    BRANCH, METAL, LENGTH, ANCHORED_ON, ANGLE, ROLL, POT, SHAPE, *INSIDE_OPTIONS, HOLES, HOLE,
)  # fmt: skip
EXAMPLE = (
    'backbud reckon wire --branch "9 mm" --metal Al --length "40 cm" '
    '--pot "36 x 28 x 12 cm" --holes 2'
)

USUAL_HOLE_CM = 2.0


def reckon(asked: Asked) -> SumSheet:
    """The sheet of a wire, of a pot's anchor wires, or of both."""
    branch_mm = amount(asked, BRANCH, "mm")
    with_pot = POT.flag in asked
    if not with_pot:
        asked_for(branch_mm, BRANCH)
    lines: list[SumLine] = []
    cautions: list[str] = []
    if branch_mm is not None:
        wire = choose_wire(branch_mm, _metal(asked))
        lines += [_thickness_line(wire, branch_mm), *_length_lines(asked, branch_mm)]
        lines += _roll_lines(asked, wire)
        cautions += [] if wire.holds else [TOO_THICK_FOR_WIRE]
    if with_pot:
        pot = inside_pot(asked, POT)
        holes = int(asked_for(amount(asked, HOLES, ""), HOLES))
        hole_cm = amount(asked, HOLE, "cm")
        tied = anchors(volume_litres(pot), holes, pot.length_cm, pot.depth_cm)
        lines += _tie_lines(pot, tied)
        lines.append(_mesh_line(mesh(holes, USUAL_HOLE_CM if hole_cm is None else hole_cm)))
    return SumSheet(lines, cautions)


# ------------------------------------------------------------------ text to values


def _metal(asked: Asked) -> Metal:
    return METALS["Al" if word(asked, METAL, "Al").startswith(("A", "a")) else "Cu"]


def _need(asked: Asked, branch_mm: float) -> WireNeed | None:
    """The wire by length; None where the length was not given."""
    length_mm = amount(asked, LENGTH, "mm")
    if length_mm is None:
        return None
    on_mm, angle = amount(asked, ANCHORED_ON, "mm"), amount(asked, ANGLE, "degrees")
    return wire_for_branch(
        length_mm,
        branch_mm,
        _metal(asked),
        anchor_diameter_mm=branch_mm if on_mm is None else on_mm,
        angle_degrees=USUAL_ANGLE_DEGREES if angle is None else angle,
    )


# ------------------------------------------------------------------ values to lines


def _thickness_line(wire: Wire, branch_mm: float) -> SumLine:
    strands = f"{wire.strands} × " if wire.strands > 1 else ""
    part = round(1 / wire.metal.share_of_branch)
    return SumLine(
        "wire",
        f"{strands}{wire.thickness_mm:g} mm {wire.metal.name}",
        f"1/{part} of a branch of {branch_mm:g} mm asks for {wire.wanted_mm:.1f} mm; "
        "common practice, no source",
        {
            "branch_mm": branch_mm,
            "metal": wire.metal.name,
            "wire_wanted_mm": wire.wanted_mm,
            "wire_mm": wire.thickness_mm,
            "strands": wire.strands,
            "holds": wire.holds,
        },
    )


def _length_lines(asked: Asked, branch_mm: float) -> Iterator[SumLine]:
    need = _need(asked, branch_mm)
    if need is None:
        return
    yield SumLine(
        "length",
        precise(need.length_m, "m"),
        f"{number(need.wire.strands, 'strand')} of {precise(need.coil_m, 'm')} coil (geometry) and "
        f"{precise(need.anchor_m, 'm')} anchorage; branch and a third: "
        f"{precise(need.coil_by_trade_m, 'm')} (common practice, no source)",
        {
            "coil_m": need.coil_m,
            "coil_by_trade_m": need.coil_by_trade_m,
            "anchorage_m": need.anchor_m,
            "length_m": need.length_m,
        },
    )
    yield SumLine(
        "mass",
        precise(need.mass_g, "g"),
        f"{need.wire.metal.density_g_per_cm3:.2f} g/cm³ (CRC Handbook of Chemistry and Physics)",
        {"mass_g": need.mass_g},
    )


def _roll_lines(asked: Asked, wire: Wire) -> Iterator[SumLine]:
    roll_kg = amount(asked, ROLL, "kg")
    if roll_kg is None:
        return
    metres = metres_per_roll(roll_kg, wire.thickness_mm, wire.metal.density_g_per_cm3)
    yield SumLine(
        "roll", precise(metres, "m"), f"in {roll_kg:g} kg; by density", {"roll_m": metres}
    )


def _tie_lines(pot: Pot, tied: Anchors) -> Iterator[SumLine]:
    bar = ", over a bar under the one hole" if tied.bar else ""
    yield SumLine(
        "anchors",
        f"{tied.wires} × {tied.aluminium_mm:g} mm aluminium",
        f"{precise(tied.length_cm, 'cm')} each for {plan(pot)}{bar}; common practice, no source",
        {
            "anchor_wires": tied.wires,
            "anchor_mm": tied.aluminium_mm,
            "anchor_each_cm": tied.length_cm,
            "anchor_total_m": tied.total_m,
            "anchor_needs_bar": tied.bar,
        },
    )


def _mesh_line(over: Mesh) -> SumLine:
    return SumLine(
        "mesh",
        f"{over.pieces} of {sizes_of((over.side_cm, over.side_cm), 'cm')}",
        f"and {precise(over.staple_m, 'm')} of {STAPLE_MM:g} mm wire for the staples; "
        "common practice, no source",
        {
            "mesh_pieces": over.pieces,
            "mesh_side_cm": over.side_cm,
            "mesh_cm2": over.mesh_cm2,
            "staple_mm": STAPLE_MM,
            "staple_m": over.staple_m,
        },
    )
