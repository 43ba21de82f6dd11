"""`reckon roots`: how much of a root ball was cut off, as a share of its volume."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import cast, get_args

from msgspec.structs import replace

from backbud.bench.roots import (
    Ball,
    BallShape,
    Cuts,
    Opened,
    ball_left,
    ball_litres,
    ball_of,
    litres_left,
    part_of_wedge,
    share_of_volume_removed,
)
from backbud.commands.reckon.asked import (
    Asked,
    Option,
    amount,
    as_on_card,
    asked_for,
    chosen,
    detail,
    measured,
    sizes_cm,
    word,
)
from backbud.commands.reckon.sheet import SumLine, SumSheet, precise, sizes_of
from backbud_grammar.forms import Form

LENGTH = "a length such as 2 cm"
SHAPES: tuple[BallShape, ...] = get_args(BallShape)

BALL = as_on_card(
    "tree", "root ball", "--ball", "length x width x depth before the work, or across x depth",
    "sizes such as 34 x 24 x 6 cm",
)  # fmt: skip
SHAPE = chosen("--shape", "of the ball; a rectangle unless given, round by two sizes", SHAPES)
BELOW = measured("--below", "taken off below", "length", give=LENGTH)
TOP = measured("--top", "taken off the top", "length", give=LENGTH)
SIDES = measured("--sides", "taken off each side", "length", give=LENGTH)
WEDGES = Option(
    "--wedges", "opened, by compass or clock, the front at S or 6",
    Form("wedges", ("--wedges",), reader="wedges"), "wedges such as “N E S” or “12 3 6”",
)  # fmt: skip
OF = as_on_card(
    "tree", "wedges", "--of", "how many wedges go round; 8 unless given, 12 by the clock",
    "a whole number from 2 to 24",
)  # fmt: skip
INWARDS = measured(
    "--inwards", "how far in from the rim they were opened; to the trunk unless given",
    "share", "fraction", give="a share such as 50 %, or 1/2",
)  # fmt: skip

OPTIONS: tuple[Option, ...] = (BALL, SHAPE, BELOW, TOP, SIDES, WEDGES, OF, INWARDS)
EXAMPLE = 'backbud reckon roots --ball "34 x 24 x 6 cm" --below "2 cm" --wedges "N E S"'

_COMPASS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
_HOURS = 12


def reckon(asked: Asked) -> SumSheet:
    """The sheet of a root ball."""
    ball, cuts = _ball(asked), _cuts(asked)
    return SumSheet(_lines(ball, cuts, asked))


def wedge_of(name: str, wedges: int) -> int:
    """Return which of N wedges a name means, clockwise from 0 at the back: `E` of 8 is 2.

    The wedge that the direction lies in; ValueError where it lies between two.
    """
    if name in _COMPASS:
        turn = Fraction(_COMPASS.index(name), len(_COMPASS))
    else:
        turn = Fraction(int(name), _HOURS)
    place = turn * wedges
    if place.denominator == 2:
        raise ValueError(
            f"Give --of as a number in which “{name}” is one wedge, such as 8 or 12: of {wedges} "
            "it lies between two."
        )
    return round(place) % wedges


# ------------------------------------------------------------------ text to values


def _ball(asked: Asked) -> Ball:
    given = asked_for(sizes_cm(asked, BALL), BALL)
    shape = word(asked, SHAPE, "round" if len(given) == 2 else "rectangle")
    return ball_of(cast(BallShape, shape), given)


def _cuts(asked: Asked) -> Cuts:
    lengths = [amount(asked, option, "cm") for option in (BELOW, TOP, SIDES)]
    names = _names(asked)
    if not names and all(length is None for length in lengths):
        raise ValueError(f"Give what was cut: --below {LENGTH}, or --wedges “N E S”.")
    if not names and (OF.flag in asked or INWARDS.flag in asked):
        raise ValueError(f"Give --wedges as {WEDGES.give}: which of them were opened.")
    below_cm, top_cm, sides_cm = (0.0 if length is None else length for length in lengths)
    wedges = _wedges(asked, names)
    return Cuts(below_cm, top_cm, sides_cm, _opened(asked, names, wedges), wedges)


def _names(asked: Asked) -> list[str]:
    found = detail(asked, WEDGES)
    return found.words.split() if found else []


def _wedges(asked: Asked, names: Sequence[str]) -> int:
    given = amount(asked, OF, "")
    if given is not None:
        return int(given)
    return _HOURS if any(name.isdecimal() for name in names) else len(_COMPASS)


def _opened(asked: Asked, names: Sequence[str], wedges: int) -> tuple[Opened, ...]:
    inwards = amount(asked, INWARDS, "%")
    part = 1.0 if inwards is None else part_of_wedge(inwards / 100)
    taken: dict[int, str] = {}
    for name in names:
        number = wedge_of(name, wedges)
        if number in taken:
            raise ValueError(
                f"Give each wedge once in --wedges: of {wedges}, “{taken[number]}” and “{name}” "
                "are one."
            )
        taken[number] = name
    return tuple(Opened(number, part) for number in taken)


# ------------------------------------------------------------------ values to lines


def _lines(ball: Ball, cuts: Cuts, asked: Asked) -> list[SumLine]:
    before, left = ball_litres(ball), litres_left(ball, cuts)
    rest = ball_left(ball, cuts)
    share_percent = 100 * share_of_volume_removed(ball, cuts)
    names = _names(asked)
    opened = f", {len(names)} of {cuts.wedges} wedges out of it: {' '.join(names)}" if names else ""
    if names and ball.shape != "round":
        opened += " (by angle, the front on a long side)"
    return [
        SumLine(
            "root ball",
            precise(before, "L"),
            f"{ball.shape} {sizes_of((ball.length_cm, ball.width_cm, ball.depth_cm), 'cm')}; "
            "geometry, straight sides",
            {"shape": ball.shape, "ball_litres": before},
        ),
        SumLine(
            "taken off",
            f"{share_percent:.0f} %",
            "share of the ball's volume, never of its roots: nobody has counted those"
            + (f"; {_how_far(asked)}" if names else ""),
            {"share_of_volume_percent": share_percent, "taken_off_litres": before - left},
        ),
        *([_half_way_line(ball, cuts)] if names else []),
        SumLine(
            "left",
            precise(left, "L"),
            f"{sizes_of((rest.length_cm, rest.width_cm, rest.depth_cm), 'cm')}{opened}",
            {
                "left_litres": left,
                "left_length_cm": rest.length_cm,
                "left_width_cm": rest.width_cm,
                "left_depth_cm": rest.depth_cm,
                "wedges_opened": " ".join(names),
                "wedges": cuts.wedges,
            },
        ),
    ]


def _how_far(asked: Asked) -> str:
    inwards = amount(asked, INWARDS, "%")
    if inwards is None:
        return "each wedge opened to the trunk (--inwards 1/2: half-way)"
    return f"each wedge opened {inwards:g} % of the way to the trunk"


def _half_way_line(ball: Ball, cuts: Cuts) -> SumLine:
    """The same cuts as the follow-ups of a journal reckon them, who cannot know how far it was."""
    half_way = replace(
        cuts, opened=tuple(Opened(one.wedge, part_of_wedge(0.5)) for one in cuts.opened)
    )
    share_percent = 100 * share_of_volume_removed(ball, half_way, by_angle=False)
    return SumLine(
        "half-way in",
        f"{share_percent:.0f} %",
        "as a journal's follow-ups reckon it: wedges opened half-way, each alike; ours, no source",
        {"share_of_volume_half_way_percent": share_percent},
    )
