"""`reckon pot`: what a pot holds, how much mix a repotting takes, and what it all weighs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import cast, get_args

from backbud.bench.mixes import USUAL_SETTLES_PERCENT, substrate_needed
from backbud.bench.pots import (
    Pot,
    Shape,
    pot_from_inside,
    pot_from_outside,
    shell_litres,
    soil_surface_cm2,
    volume_litres,
)
from backbud.bench.roots import Ball, BallShape, ball_litres, ball_of
from backbud.bench.weights import (
    CERAMIC_KG_PER_LITRE,
    ONE_PERSON_KG,
    PotWeight,
    lifting_caution,
    pot_weight,
    shell_kg,
    trunk_kg,
)
from backbud.commands.reckon.asked import (
    Asked,
    Option,
    amount,
    as_on_card,
    asked_for,
    asked_measure,
    chosen,
    measured,
    sizes_cm,
    word,
)
from backbud.commands.reckon.mix import DENSITY, MIX, own_densities, recipe_parts
from backbud.commands.reckon.sheet import SumLine, SumSheet, precise, sizes_of

SIZES = "sizes such as 36 x 28 x 12 cm"
SHAPES: tuple[Shape, ...] = get_args(Shape)

SHAPE = chosen("--shape", "the pot's outline; a rectangle unless given, round by two sizes", SHAPES)
INSIDE = as_on_card(
    "pot", "inside", "--inside", "length x width x depth at the rim, or across x depth", SIZES
)
OUTSIDE = as_on_card(
    "pot", "outside", "--outside", "the same outside, feet included; needs --wall", SIZES
)
WALL = measured("--wall", "thickness of the wall", "length", give="a length such as 8 mm")
FLOOR = measured(
    "--floor", "thickness of the floor, as the wall unless given", "length",
    give="a length such as 10 mm",
)  # fmt: skip
FEET = as_on_card("pot", "feet", "--feet", "height of the feet", "a length such as 15 mm")
TAPER = as_on_card(
    "pot", "taper", "--taper", "how much narrower the floor is than the rim",
    "a length such as 2 cm, or a share of the width such as 10 %",
)  # fmt: skip
BULGE = measured("--bulge", "how far each wall of a drum swells out half-way up", "length")
RIM_GAP = measured("--rim-gap", "how far the soil lies below the rim", "length")
# The pot of another sum.
POT = as_on_card("pot", "inside", "--pot", "the pot inside, length x width x depth", SIZES)

BALL = as_on_card(
    "tree", "root ball", "--root-ball", "length x width x depth of the ball left",
    "sizes such as 30 x 22 x 8 cm",
)  # fmt: skip
SETTLES = as_on_card(
    "mix", "settles", "--settles", "how much of its loose volume the mix settles by",
    "a share such as 10 %",
)  # fmt: skip
WARE = chosen("--ware", "the pot's clay, for its weight by --wall", tuple(CERAMIC_KG_PER_LITRE))
POT_WEIGHS = measured("--pot-weighs", "weight of the empty pot", "mass", give="a mass such as 4 kg")
TRUNK = as_on_card(
    "tree", "trunk", "--trunk", "thickness of the trunk, for its weight", "a length such as 9 cm"
)
HEIGHT = as_on_card(
    "tree", "height", "--height", "height of the tree, for its weight", "a length such as 60 cm"
)
LIFTS = measured(
    "--one-person", "what one person may lift; 25 kg unless given", "mass",
    give="a mass such as 16 kg",
)  # fmt: skip

INSIDE_OPTIONS = (TAPER, BULGE, RIM_GAP)
OPTIONS: tuple[Option, ...] = (
    SHAPE, INSIDE, OUTSIDE, WALL, FLOOR, FEET, *INSIDE_OPTIONS, BALL, SETTLES,
    MIX, DENSITY, WARE, POT_WEIGHS, TRUNK, HEIGHT, LIFTS,
)  # fmt: skip
EXAMPLE = (
    'backbud reckon pot --shape oval --inside "36 x 28 x 12 cm" '
    '--root-ball "30 x 22 x 8 cm" --settles "10 %" --mix "akadama 2, pumice 1, lava 1"'
)

# A ball takes the outline of the pot it grew in.
_BALL_SHAPES: Mapping[Shape, BallShape] = {"rectangle": "rectangle"}


def reckon(asked: Asked) -> SumSheet:
    """The sheet of a pot."""
    pot = _pot(asked)
    gap_cm = _or_none(amount(asked, RIM_GAP, "cm"))
    litres = volume_litres(pot, gap_cm)
    lines = [*_pot_lines(pot, gap_cm, litres), _mix_line(asked, pot, gap_cm, litres)]
    weight = _weight(asked, pot, litres)
    if weight is None:
        return SumSheet(lines)
    one_person_kg = amount(asked, LIFTS, "kg")
    caution = lifting_caution(
        weight.wet_kg, ONE_PERSON_KG if one_person_kg is None else one_person_kg
    )
    return SumSheet([*lines, *_weight_lines(weight)], [caution] if caution else [])


def inside_pot(asked: Asked, option: Option) -> Pot:
    """The pot whose inside sizes an option gives."""
    given = asked_for(sizes_cm(asked, option), option)
    shape = _shape(asked, given)
    return pot_from_inside(
        shape,
        given,
        taper_cm=_taper_cm(asked, given),
        bulge_cm=_or_none(amount(asked, BULGE, "cm")),
    )


def plan(pot: Pot) -> str:
    """A pot in words: `oval 36 × 28 × 12 cm inside`."""
    return f"{pot.shape} {sizes_of((pot.length_cm, pot.width_cm, pot.depth_cm), 'cm')} inside"


# ------------------------------------------------------------------ text to values


def _pot(asked: Asked) -> Pot:
    inside, outside = sizes_cm(asked, INSIDE), sizes_cm(asked, OUTSIDE)
    if inside is not None and outside is not None:
        raise ValueError("Give the pot by --inside or by --outside, not by both.")
    given = asked_for(outside if inside is None else inside, INSIDE)
    shape, taper_cm = _shape(asked, given), _taper_cm(asked, given)
    bulge_cm = _or_none(amount(asked, BULGE, "cm"))
    wall_cm, floor_cm = amount(asked, WALL, "cm"), amount(asked, FLOOR, "cm")
    feet_cm = amount(asked, FEET, "cm")
    if inside is None:
        return pot_from_outside(
            shape,
            given,
            wall_cm=asked_for(wall_cm, WALL),
            foot_cm=_or_none(feet_cm),
            floor_cm=floor_cm,
            taper_cm=taper_cm,
            bulge_cm=bulge_cm,
        )
    if feet_cm is not None:
        raise ValueError("Give --feet with --outside: inside sizes leave the feet out.")
    return pot_from_inside(
        shape,
        given,
        taper_cm=taper_cm,
        bulge_cm=bulge_cm,
        wall_cm=_or_none(wall_cm),
        floor_cm=floor_cm,
    )


def _shape(asked: Asked, given: tuple[float, ...]) -> Shape:
    return cast(Shape, word(asked, SHAPE, "round" if len(given) == 2 else "rectangle"))


def _taper_cm(asked: Asked, given: tuple[float, ...]) -> float:
    """How far each wall comes in: half of how much narrower the floor is."""
    taper = amount(asked, TAPER, "cm") if _is_length(asked) else None
    if taper is not None:
        return taper / 2
    percent = amount(asked, TAPER, "%")
    return 0.0 if percent is None else percent / 100 * min(given[:-1]) / 2


def _is_length(asked: Asked) -> bool:
    found = asked_measure(asked, TAPER)
    return found is not None and found.sort == "length"


def _or_none(value: float | None) -> float:
    """Nothing where it was not given."""
    return 0.0 if value is None else value


def _ball(asked: Asked, pot: Pot, filled_cm: float) -> Ball | None:
    given = sizes_cm(asked, BALL)
    if given is None:
        return None
    shape: BallShape = "round" if len(given) == 2 else _BALL_SHAPES.get(pot.shape, "oval")
    ball = ball_of(shape, given)
    across = sorted((ball.length_cm, ball.width_cm))
    room = sorted((pot.length_cm, pot.width_cm))
    if any(mine > its for mine, its in zip(across, room, strict=True)):
        raise ValueError(
            f"Give --root-ball as it is once it is cut: one of {sizes_of(given, 'cm')} does not go "
            f"into a pot {sizes_of(room[::-1], 'cm')} inside."
        )
    if ball.depth_cm > filled_cm:
        raise ValueError(
            f"Give --root-ball only as deep as it stands in the soil, {filled_cm:g} cm at the most "
            f"(not {ball.depth_cm:g} cm)."
        )
    return ball


def _weight(asked: Asked, pot: Pot, litres: float) -> PotWeight | None:
    """The weight of the full pot; None where the mix is not known."""
    parts = recipe_parts(asked)
    if parts is None:
        return None
    trunk_cm, height_cm = amount(asked, TRUNK, "cm"), amount(asked, HEIGHT, "cm")
    if (trunk_cm is None) != (height_cm is None):
        raise ValueError("Give --trunk and --height both: the trunk is weighed as a cone.")
    return pot_weight(
        parts,
        litres,
        shell_kg=_empty_pot_kg(asked, pot),
        tree_kg=trunk_kg(_or_none(trunk_cm), _or_none(height_cm)),
        own=own_densities(asked, parts),
    )


def _empty_pot_kg(asked: Asked, pot: Pot) -> float:
    weighed_kg = amount(asked, POT_WEIGHS, "kg")
    if weighed_kg is not None:
        return weighed_kg
    ware = word(asked, WARE, "stoneware")
    return shell_kg(shell_litres(pot), ware) if pot.wall_cm else 0.0


# ------------------------------------------------------------------ values to lines


def _pot_lines(pot: Pot, gap_cm: float, litres: float) -> Iterator[SumLine]:
    filled = f", filled to {gap_cm:g} cm below the rim" if gap_cm else ""
    taper = f", each wall in by {pot.taper_cm:g} cm at the floor" if pot.taper_cm else ""
    yield SumLine(
        "volume",
        precise(litres, "L"),
        f"{plan(pot)}{taper}{filled}; geometry (prismoidal formula)",
        {
            "shape": pot.shape,
            "length_cm": pot.length_cm,
            "width_cm": pot.width_cm,
            "depth_cm": pot.depth_cm,
            "volume_litres": litres,
        },
    )
    surface = soil_surface_cm2(pot, gap_cm)
    yield SumLine(
        "soil surface", precise(surface, "cm²"), "geometry of the outline",
        {"soil_surface_cm2": surface},
    )  # fmt: skip


def _mix_line(asked: Asked, pot: Pot, gap_cm: float, litres: float) -> SumLine:
    ball = _ball(asked, pot, pot.depth_cm - gap_cm)
    given = amount(asked, SETTLES, "%")
    settles = USUAL_SETTLES_PERCENT if given is None else given
    substrate = substrate_needed(litres, ball_litres(ball) if ball else 0.0, settles)
    source = "as given" if given is not None else "common practice, no source"
    left = "the empty pot"
    if ball is not None:
        taken = f"{precise(substrate.ball_left_litres, 'L')} of root ball ({ball.shape})"
        left = f"{precise(substrate.room_litres, 'L')} of room beside {taken}"
    return SumLine(
        "mix, loose",
        precise(substrate.loose_litres, "L"),
        f"fills {left}; settles by {settles:g} % ({source})",
        {
            "root_ball_litres": substrate.ball_left_litres,
            "room_litres": substrate.room_litres,
            "settles_percent": settles,
            "mix_loose_litres": substrate.loose_litres,
        },
    )


def _weight_lines(weight: PotWeight) -> Iterator[SumLine]:
    pot = "pot" if weight.shell_kg else "no pot (--wall or --pot-weighs)"
    tree = "trunk" if weight.tree_kg else "no tree (--trunk, --height)"
    yield SumLine(
        "weight dry",
        precise(weight.dry_kg, "kg"),
        f"mix, {pot}, {tree}; the root ball counts as mix",
        {
            "dry_kg": weight.dry_kg,
            "mix_dry_kg": weight.mix_dry_kg,
            "pot_kg": weight.shell_kg,
            "tree_kg": weight.tree_kg,
        },
    )
    yield SumLine(
        "weight soaked",
        precise(weight.wet_kg, "kg"),
        f"with {precise(weight.water_litres, 'L')} of water, once drained",
        {"soaked_kg": weight.wet_kg, "water_held_litres": weight.water_litres},
    )
    yield SumLine("weights from", "", "; ".join(weight.sources))
