"""The share of a root ball's volume against small cells counted one by one."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud.bench.roots import (
    Ball,
    Cuts,
    Opened,
    ball_left,
    ball_litres,
    ball_of,
    litres_left,
    part_of_wedge,
    sector_shares,
    share_of_volume_removed,
)
from backbud.journal.events import Event
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.dates import read_date
from backbud_grammar.parse import Details
from backbud_species.habits.roots import Taken, share_taken

HALF_WAY = 0.75


def counted_share(ball: Ball, cuts: Cuts, inwards: dict[int, float]) -> float:
    """The share that went, by cells: out below, above, at the side, or in an opened wedge.

    `inwards`: how far each wedge was opened, from the rim (0) to the trunk (1).
    """
    cells = 800
    x = ((np.arange(cells) + 0.5) / cells - 0.5) * ball.length_cm
    y = ((np.arange(cells) + 0.5) / cells - 0.5) * ball.width_cm
    right, back = np.meshgrid(x, y)

    def out_from_trunk(length: float, width: float) -> np.ndarray:
        u, v = np.abs(right) / (length / 2), np.abs(back) / (width / 2)
        return np.maximum(u, v) if ball.shape == "rectangle" else np.hypot(u, v)

    was = out_from_trunk(ball.length_cm, ball.width_cm) <= 1
    reach = out_from_trunk(ball.length_cm - 2 * cuts.sides_cm, ball.width_cm - 2 * cuts.sides_cm)
    stands = reach <= 1
    # Degrees clockwise from the back; wedge 0 lies half to either side of it.
    bearing = np.degrees(np.arctan2(right, back)) % 360
    wedge = np.floor(bearing / (360 / cuts.wedges) + 0.5).astype(int) % cuts.wedges
    for number, far in inwards.items():
        stands &= ~((wedge == number) & (reach > 1 - far))
    layers = 1000
    z = (np.arange(layers) + 0.5) / layers * ball.depth_cm
    kept = np.mean((z > cuts.below_cm) & (z < ball.depth_cm - cuts.top_cm))
    return float(1 - np.sum(stands) / np.sum(was) * kept)


@pytest.mark.parametrize("shape", ["rectangle", "oval"])
@pytest.mark.parametrize(
    ("sizes", "cut", "inwards", "wedges"),
    [
        ((34, 24, 6), (2, 0, 0), {}, 8),
        ((34, 24, 6), (0, 0, 1.5), {}, 8),
        ((34, 24, 6), (2, 0.5, 0), {0: 0.5, 2: 0.5, 4: 0.5}, 8),
        ((34, 24, 6), (1.2, 0, 2), {1: 0.5, 5: 0.25, 6: 1.0}, 8),
        ((24, 34, 10), (3, 0, 0), {0: 0.5, 3: 0.5}, 12),
        ((40, 15, 5), (0, 0, 0), {0: 0.4}, 3),
        ((30, 20, 15), (5, 0, 1), {0: 1.0}, 2),
        ((30, 20, 15), (0, 1.5, 0), {4: 0.5, 6: 0.3}, 7),
    ],
)
def test_cuts_and_wedges_agree_with_cells(shape, sizes, cut, inwards, wedges):
    ball = ball_of(shape, sizes)
    opened = tuple(Opened(number, part_of_wedge(far)) for number, far in inwards.items())
    cuts = Cuts(*cut, opened, wedges)
    counted = counted_share(ball, cuts, inwards)
    assert share_of_volume_removed(ball, cuts) == pytest.approx(counted, abs=0.002)


def test_a_round_ball_agrees_with_cells_and_each_wedge_counts_the_same():
    ball = ball_of("round", (28, 9))
    cuts = Cuts(2, 0, 1, (Opened(0, HALF_WAY), Opened(3, HALF_WAY)), 8)
    counted = counted_share(ball, cuts, {0: 0.5, 3: 0.5})
    assert share_of_volume_removed(ball, cuts) == pytest.approx(counted, abs=0.002)
    equal = share_of_volume_removed(ball, cuts, by_angle=False)
    assert share_of_volume_removed(ball, cuts) == pytest.approx(equal, abs=1e-12)


def test_wedges_by_number_by_hand():
    # 5 of 15 cm off below leaves 2/3; two of eight, half-way in, leave 1 - 0.75 x 2/8 = 0.8125:
    # 0.541667 of the ball stands.
    ball = ball_of("rectangle", (30, 20, 15))
    cuts = Cuts(below_cm=5, opened=(Opened(0, HALF_WAY), Opened(2, HALF_WAY)))
    assert share_of_volume_removed(ball, cuts, by_angle=False) == pytest.approx(0.4583333)
    # 30 x 20 x 15 = 9 L, of which 4.875 are left.
    assert litres_left(ball, cuts, by_angle=False) == pytest.approx(4.875)


def test_wedges_of_a_rectangle_by_hand():
    # The right-hand wedge of 30 x 20: to the side at 15 cm, tan 22.5° = 0.414214 up and down, so
    # 15 x 6.2132 = 93.198 of 600 cm². The back one: 10 x 4.14214 = 41.421. A corner: a quarter of
    # the rest, 82.690.
    corner, back, right = 0.1378168, 0.0690356, 0.1553301
    expected = (back, corner, right, corner, back, corner, right, corner)
    shares = sector_shares(ball_of("rectangle", (30, 20, 15)), 8)
    assert shares == pytest.approx(expected, abs=1e-6)


@given(
    st.sampled_from(["rectangle", "oval"]),
    st.floats(5, 80),
    st.floats(5, 80),
    st.integers(2, 24),
)
def test_the_wedges_are_the_whole_ball(shape, length, width, wedges):
    shares = sector_shares(ball_of(shape, (length, width, 8)), wedges)
    assert len(shares) == wedges
    assert min(shares) > 0
    assert math.fsum(shares) == pytest.approx(1, abs=1e-9)


def test_all_wedges_to_the_trunk_leave_nothing_and_no_cut_takes_nothing():
    ball = ball_of("oval", (34, 24, 6))
    every = tuple(Opened(number, 1.0) for number in range(8))
    assert share_of_volume_removed(ball, Cuts(opened=every)) == pytest.approx(1)
    assert share_of_volume_removed(ball, Cuts()) == 0.0


def test_the_size_and_litres_of_a_ball():
    assert ball_litres(ball_of("rectangle", (34, 24, 6))) == pytest.approx(4.896)
    # pi / 4 x 28² x 9 = 5541.77 cm³.
    assert ball_litres(ball_of("round", (28, 9))) == pytest.approx(5.541769, rel=1e-6)
    assert ball_of("round", (28, 28, 9)) == ball_of("round", (28, 9))
    left = ball_left(ball_of("rectangle", (34, 24, 6)), Cuts(2, 0.5, 1.5))
    assert left == Ball("rectangle", 31, 21, 3.5)


@pytest.mark.parametrize("cuts", [Cuts(0.1, 0.2, 0), Cuts(0, 0, 5)])
def test_all_of_it_cut_off_is_the_whole_ball(cuts):
    assert share_of_volume_removed(ball_of("oval", (20, 10, 0.3)), cuts) == 1.0


@pytest.mark.parametrize(("inwards", "part"), [(0, 0), (0.25, 0.4375), (0.5, 0.75), (1, 1)])
def test_a_wedge_from_the_rim_inwards(inwards, part):
    assert part_of_wedge(inwards) == part


@pytest.mark.parametrize(
    ("cuts", "says"),
    [
        (Cuts(4, 3), "More is off below and top than the ball's depth of 6 cm"),
        (Cuts(sides_cm=13), "not more than 12 cm"),
        (Cuts(-1), "length cut off in cm, 0 or more (not -1)"),
        (Cuts(0, math.nan), "0 or more (not nan)"),
        (Cuts(opened=(Opened(8, 0.5),)), "wedges of the 8 that go round"),
        (Cuts(opened=(Opened(-1, 0.5),)), "wedges of the 8 that go round"),
        (Cuts(opened=(Opened(1, 0.5), Opened(1, 0.2))), "each wedge once"),
        (Cuts(opened=(Opened(1, 1.5),)), "part of a wedge that went from 0 to 1"),
        (Cuts(wedges=1), "number of wedges, 2 or more"),
    ],
)
@pytest.mark.parametrize("by_angle", [True, False])
def test_cuts_that_make_no_sense_say_what_to_give(cuts, says, by_angle):
    with pytest.raises(ValueError) as caught:
        share_of_volume_removed(ball_of("oval", (34, 24, 6)), cuts, by_angle=by_angle)
    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("shape", "sizes", "says"),
    [
        ("oval", (34, 6), "length, width and depth of the root ball"),
        ("round", (34,), "diameter and depth of the root ball"),
        ("round", (34, 30, 6), "give the shape as oval"),
        ("rectangle", (34, 24, 0), "sizes of the root ball in cm, above 0"),
        ("hexagon", (34, 24, 6), "one of rectangle, oval, round"),
    ],
)
def test_balls_that_make_no_sense_say_what_to_give(shape, sizes, says):
    with pytest.raises(ValueError) as caught:
        ball_of(shape, sizes)
    assert says in str(caught.value)


@pytest.mark.parametrize("inwards", [-0.1, 1.1, math.nan])
def test_a_wedge_cannot_be_opened_past_the_trunk(inwards):
    with pytest.raises(ValueError, match="from 0"):
        part_of_wedge(inwards)


# ------------------------------------------------------------------ from the act's own words


def read(act: str, text: str) -> Event:
    words = by_word(ACTS)
    reading = Details(words).of(words[act], text)
    assert reading.flaws == ()
    day = read_date("2027-03-06")
    named, where = reading.named, ("tree", "diary/test.txt", 1, 3)
    return Event(act, day, reading.details, text, "", named, *where, row=words[act])


def taken(text: str, root_ball: str = "", wedges: str = "") -> Taken | None:
    """What `repotted TEXT` took of a tree with this root ball on its card."""
    measured = read("measured", f"root ball {root_ball}") if root_ball else None
    tree: Any = SimpleNamespace(
        sizes={"root ball": measured.measure("root ball")} if measured else {},
        facts={"wedges": wedges} if wedges else {},
    )
    return share_taken(tree, read("repotted", text))


@pytest.mark.parametrize(
    ("text", "root_ball", "wedges", "share"),
    [
        # 2 of 6 cm off leaves 2/3; three of eight wedges leave 1 - 0.75 x 3/8 = 0.71875.
        ("2 cm off below, wedges N E S", "34 x 24 x 6 cm", "", 1 - 2 / 3 * 0.71875),
        # 1 of 8 cm off the top; a round ball of 20 cm loses 2 cm on each side: 0.8².
        ("1 cm off top, 2 cm off sides", "20 x 8 cm", "", 1 - 7 / 8 * 0.64),
        # Two of four, and one of the twelve hours.
        ("wedges N S", "34 x 24 x 6 cm", "4", 0.375),
        ("wedges 3", "34 x 24 x 6 cm", "", 0.0625),
        # Without a size, or with a size of nothing, the wedges alone are known.
        ("2 cm off below, wedges N E", "", "", 0.1875),
        ("2 cm off below, wedges N E", "34 x 24 x 0 cm", "", 0.1875),
        # More wedges named than the card says there are.
        # Of four wedges N to S lie in three.
        ("wedges N NE E SE S", "34 x 24 x 6 cm", "4", 0.5625),
    ],
)
def test_the_acts_own_words_are_reckoned(text, root_ball, wedges, share):
    found = taken(text, root_ball, wedges)
    assert found.share == pytest.approx(share)
    assert found.because == "reckoned from the cuts"


def test_cuts_larger_than_the_ball_as_last_measured_are_all_of_it():
    found = taken("8 cm off below", "34 x 24 x 6 cm")
    assert found == Taken(1.0, "the cuts are as large as the ball when it was last measured")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "off 40 % of the roots",
            "“off 40 % of the roots” is written, and read as a share of the ball's volume",
        ),
        (
            "1/3 of roots off",
            "“off 1/3 of roots” is written, and read as a share of the ball's volume",
        ),
        ("off 40 %", "About 40 % of the root ball went (as written)"),
    ],
)
def test_a_share_of_roots_is_quoted_and_never_said_to_be_one_of_the_ball(text, said):
    assert taken(text).said == said


@pytest.mark.parametrize("text", ["same pot", "2 cm off below", "same pot, soaked"])
def test_what_cannot_be_reckoned_is_not(text):
    assert taken(text) is None
