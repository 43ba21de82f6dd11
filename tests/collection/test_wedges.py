"""The wedges round a ball, held against plain angles: a wedge goes half its width to each side."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.collection.wedges import openings, ring, root_map, turned, wedges_in

DEGREES = {"N": 0, "NE": 45, "E": 90, "SE": 135, "S": 180, "SW": 225, "W": 270, "NW": 315} | {
    str(hour): 30 * hour % 360 for hour in range(1, 13)
}


def off(one: float, other: float) -> float:
    """How many degrees one direction lies from another, by the shorter way."""
    return abs((one - other + 180) % 360 - 180)


@pytest.mark.parametrize("count", range(2, 25))
@pytest.mark.parametrize("name", DEGREES)
def test_an_opening_lies_in_the_wedge_or_the_two_whose_angle_it_is(count, name) -> None:
    around = ring(count, [name])
    half = 180 / count
    held = {
        at
        for at, wedge in enumerate(around.wedges)
        if off(DEGREES[name], wedge.degrees) <= half + 1e-6
    }
    assert set(around.places(name)) == held
    assert sum(around.parts([name]).values()) == pytest.approx(1)


@pytest.mark.parametrize("count", range(2, 25))
def test_every_wedge_is_found_again_by_its_own_name(count) -> None:
    around = ring(count, [])
    assert len(set(around.names)) == count
    assert [around.places(name) for name in around.names] == [(at,) for at in range(count)]


def test_what_has_no_direction_lies_in_no_wedge() -> None:
    around = ring(None, ["underside"])
    assert len(around.wedges) == 8
    assert around.places("underside") == around.places(":") == ()
    assert around.last_opened([("underside", date(2024, 3, 12))]) == {}
    assert wedges_in("N underside se 12") == ("N", "SE", "12")


def test_the_last_day_counts_and_no_wedge_goes_twice() -> None:
    around = ring(4, ["N", "NE", "E"])
    days = [("N", date(2024, 3, 12)), ("NE", date(2022, 3, 12))]
    assert around.last_opened(days) == {"N": date(2024, 3, 12), "E": date(2022, 3, 12)}
    assert around.parts(["N", "NE", "E"]) == {0: 1.0, 1: 1.0}


@pytest.mark.parametrize("count", [1, 0, -3])
def test_a_ball_has_two_wedges_or_more(count) -> None:
    with pytest.raises(ValueError, match="2 or more"):
        ring(count, [])


@pytest.mark.parametrize(
    ("name", "degrees", "now"),
    [
        # A wedge of eight goes 22.5 degrees to each side; from there on it has the next one's name.
        ("E", 22.4, "E"),
        ("E", 22.5, "SE"),
        ("W", 90.0, "N"),
        # 270 and 112 are 22 degrees past the north.
        ("W", 112.0, "N"),
        ("W", 112.5, "NE"),
        ("S", -90.0, "E"),
        # An hour goes 15 degrees to each side.
        ("3", 14.9, "3"),
        ("3", 15.0, "4"),
        ("12", 15.0, "1"),
    ],
)
def test_a_wedge_is_called_by_where_its_middle_lies_once_the_tree_was_turned(
    name, degrees, now
) -> None:
    day = date(2027, 3, 6)
    assert root_map(turned(openings(name, day), degrees)) == ((now, day),)
