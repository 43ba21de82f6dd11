"""How much of a root ball went when it was cut or opened, as a share of its volume.

The share is of the ball's volume, never of its roots: how many roots stood in what was cut,
nobody has counted. The ball is a straight-sided block, rectangular or oval in plan. Wedges are
numbered from 0, clockwise as seen from above: the middle of wedge 0 lies at the back, and the
ball's length runs from left to right of someone who faces the front. The geometry is plain;
the tests integrate it by small cells.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from msgspec import Struct

from backbud.bench.pots import CM3_PER_LITRE, SHARE_OF_RECTANGLE, not_negative, positive

BallShape = Literal["rectangle", "oval", "round"]

_SHAPES: tuple[BallShape, ...] = ("rectangle", "oval", "round")


class Ball(Struct, frozen=True, gc=False):
    """A root ball: its length, width and depth in cm; a round one is as long as it is wide."""

    shape: BallShape
    length_cm: float
    width_cm: float
    depth_cm: float


class Opened(NamedTuple):
    """A wedge of the root ball by its number, and the share of that wedge that went, 0 to 1."""

    wedge: int
    part: float


class Cuts(Struct, frozen=True, gc=False):
    """What was taken off a root ball, in cm off below, off the top and off each side.

    `opened`: wedges out of what then stands, of `wedges` that go round it. A wedge goes from the
    rim inwards.
    """

    below_cm: float = 0.0
    top_cm: float = 0.0
    sides_cm: float = 0.0
    opened: tuple[Opened, ...] = ()
    wedges: int = 8


def ball_of(shape: BallShape, sizes_cm: Sequence[float]) -> Ball:
    """Return the root ball of these sizes in cm, the depth last; two sizes are a round ball's.

    ValueError, with what to give, where sizes are missing or make no sense.
    """
    if shape not in _SHAPES:
        raise ValueError(f"Give the shape of the ball as one of {', '.join(_SHAPES)}.")
    if len(sizes_cm) not in (2, 3) or (len(sizes_cm) == 2 and shape != "round"):
        needed = "diameter and depth" if shape == "round" else "length, width and depth"
        raise ValueError(f"Give {needed} of the root ball, in cm.")
    for size in sizes_cm:
        positive(size, "sizes of the root ball in cm")
    *across, depth = sizes_cm
    if shape == "round" and across[0] != across[-1]:
        raise ValueError("A round ball is as long as it is wide: give the shape as oval.")
    return Ball(shape, across[0], across[-1], depth)


def ball_litres(ball: Ball) -> float:
    """Return the volume of a root ball in litres."""
    return _plan_cm2(ball) * ball.depth_cm / CM3_PER_LITRE


def ball_left(ball: Ball, cuts: Cuts) -> Ball:
    """Return the size that is left after the cuts off below, top and sides; 0 where nothing is.

    An oval cut back all round is taken as a smaller oval. ValueError where more is cut off than
    there is.
    """
    for cut in (cuts.below_cm, cuts.top_cm, cuts.sides_cm):
        not_negative(cut, "length cut off in cm")
    # Rounded, so that 0.1 and 0.2 off 0.3 cm is all of it.
    depth = round(ball.depth_cm - cuts.below_cm - cuts.top_cm, 9)
    length = round(ball.length_cm - 2 * cuts.sides_cm, 9)
    width = round(ball.width_cm - 2 * cuts.sides_cm, 9)
    if depth < 0:
        raise ValueError(
            f"More is off below and top than the ball's depth of {ball.depth_cm:g} cm: give what "
            "was cut, or the size the ball had before."
        )
    if min(length, width) < 0:
        narrowest = min(ball.length_cm, ball.width_cm)
        raise ValueError(
            f"Off each side of a ball {narrowest:g} cm wide not more than {narrowest / 2:g} cm "
            "can be cut: give what was cut, or the size the ball had before."
        )
    return Ball(ball.shape, length, width, depth)


def share_of_volume_removed(ball: Ball, cuts: Cuts, *, by_angle: bool = True) -> float:
    """Return the share of a root ball's volume that went, 0 to 1.

    share left = depth left / depth x plan left / plan x (1 - sum of part x sector share).
    `by_angle`: wedges are sectors of one angle, so that on an oblong ball those at its ends hold
    more; False counts each as one of N, where the plan, or how it lies to the front, is unknown.
    ValueError where cuts or wedges make no sense.
    """
    left = ball_left(ball, cuts)
    _check_opened(cuts)
    if min(left.length_cm, left.width_cm, left.depth_cm) == 0:
        return 1.0
    shares = sector_shares(left, cuts.wedges) if by_angle else (1 / cuts.wedges,) * cuts.wedges
    out = math.fsum(opened.part * shares[opened.wedge] for opened in cuts.opened)
    return 1 - ball_litres(left) / ball_litres(ball) * (1 - out)


def litres_left(ball: Ball, cuts: Cuts, *, by_angle: bool = True) -> float:
    """Return the volume of the root ball that is left, in litres; the rest as for the share."""
    return ball_litres(ball) * (1 - share_of_volume_removed(ball, cuts, by_angle=by_angle))


def part_of_wedge(inwards: float) -> float:
    """Return the share of a wedge that goes when it is opened a share of the way to its point.

    What stands is the wedge on a smaller scale, so 1 - (1 - inwards)^2: half-way in takes three
    quarters. Holds for every plan. ValueError outside 0 to 1.
    """
    if not 0 <= inwards <= 1:
        raise ValueError("Give how far in the wedge was opened, from 0 (rim) to 1 (trunk).")
    return 1 - (1 - inwards) ** 2


def sector_shares(ball: Ball, wedges: int) -> tuple[float, ...]:
    """Return the share of the plan that each of N wedges of one angle holds, clockwise from back.

    ValueError for fewer than two wedges.
    """
    _check_wedges(wedges)
    half = math.pi / wedges
    middles = (2 * half * wedge for wedge in range(wedges))
    share = _rectangle_share if ball.shape == "rectangle" else _ellipse_share
    return tuple(share(ball, middle - half, middle + half) for middle in middles)


def _plan_cm2(ball: Ball) -> float:
    return SHARE_OF_RECTANGLE[ball.shape] * ball.length_cm * ball.width_cm


def _check_wedges(wedges: int) -> None:
    if wedges < 2:
        raise ValueError("Give the number of wedges, 2 or more.")


def _check_opened(cuts: Cuts) -> None:
    _check_wedges(cuts.wedges)
    numbers = [opened.wedge for opened in cuts.opened]
    if any(not 0 <= number < cuts.wedges for number in numbers):
        raise ValueError(f"Give wedges of the {cuts.wedges} that go round the ball.")
    if len(set(numbers)) < len(numbers):
        raise ValueError("Give each wedge once, with the whole part of it that went.")
    if any(not 0 <= opened.part <= 1 for opened in cuts.opened):
        raise ValueError("Give the part of a wedge that went from 0 to 1.")


def _ellipse_share(ball: Ball, start: float, end: float) -> float:
    """The share of an ellipse between two angles: squeezed to a circle, areas keep their ratio."""
    turn = _angle_in_circle(ball, end) - _angle_in_circle(ball, start)
    return turn % math.tau / math.tau


def _angle_in_circle(ball: Ball, angle: float) -> float:
    return math.atan2(math.sin(angle) / ball.length_cm, math.cos(angle) / ball.width_cm)


def _rectangle_share(ball: Ball, start: float, end: float) -> float:
    """The share of a rectangle between two angles: the fan of triangles to rim and corners."""
    angles = [start, *_corners_between(ball, start, end), end]
    rim = [_on_rim(ball, angle) for angle in angles]
    doubled = math.fsum(abs(x1 * y2 - x2 * y1) for (x1, y1), (x2, y2) in pairwise(rim))
    return doubled / 2 / _plan_cm2(ball)


def _corners_between(ball: Ball, start: float, end: float) -> Iterator[float]:
    first = math.atan2(ball.length_cm, ball.width_cm)
    for turn in (-math.tau, 0.0, math.tau):
        for corner in (first, math.pi - first, math.pi + first, math.tau - first):
            if start < corner + turn < end:
                yield corner + turn


def _on_rim(ball: Ball, angle: float) -> tuple[float, float]:
    """Where the ray at an angle, clockwise from the back, leaves the rectangle."""
    right, back = math.sin(angle), math.cos(angle)
    reach = 1 / max(2 * abs(right) / ball.length_cm, 2 * abs(back) / ball.width_cm)
    return right * reach, back * reach
