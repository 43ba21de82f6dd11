"""When wire bites: by hand, and against wood grown day by day."""

from __future__ import annotations

from datetime import date, timedelta
from math import ceil, inf, nan, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud.bench.bite import (
    bites_on,
    girth_growth_mm,
    radial_growth_since_mm,
    share_until_it_bites,
)

APRIL = date(2027, 4, 1)
# A hundred days of ten degree-days each: day n of the season ends at 10 n.
EVEN = [(APRIL + timedelta(days=n), 10.0 * (n + 1)) for n in range(100)]
# A girth of 2 pi mm a season is a radius of 1 mm a season.
ONE_MM_OF_RADIUS = 2 * pi


@pytest.mark.parametrize(
    ("wired", "wire_mm", "bites"),
    [
        # A quarter of 2 mm is 0.5 mm: half the season's 1000 degree-days, its 50th day.
        (date(2027, 2, 1), 2.0, date(2027, 5, 20)),
        # Wired at the end of the 20th day (200): so at 700, the 70th day.
        (date(2027, 4, 20), 2.0, date(2027, 6, 9)),
        # Wired on the 60th day: 0.4 mm are left of the season.
        (date(2027, 5, 30), 2.0, None),
        # A wire half as thick bites after half as much heat: at 850.
        (date(2027, 5, 30), 1.0, date(2027, 6, 24)),
        # The very last day still counts, and the day after the last one no more.
        (date(2027, 5, 20), 2.0, date(2027, 7, 9)),
        (date(2027, 5, 21), 2.0, None),
        (date(2027, 8, 1), 1.0, None),
    ],
)
def test_by_hand(wired: date, wire_mm: float, bites: date | None) -> None:
    assert bites_on(wired, EVEN, 1000, ONE_MM_OF_RADIUS, wire_mm) == bites


def test_a_wire_that_stays_on_bites_next_season() -> None:
    wired = date(2027, 5, 30)
    grown = radial_growth_since_mm(wired, EVEN, 1000, ONE_MM_OF_RADIUS)
    assert grown == pytest.approx(0.4)
    next_year = [(day.replace(year=2028), total) for day, total in EVEN]
    # 0.1 mm is left to grow: at 100 degree-days, the tenth day.
    assert bites_on(wired, next_year, 1000, ONE_MM_OF_RADIUS, 2.0, grown_before_mm=grown) == date(
        2028, 4, 10
    )
    # What has bitten already has bitten from the first day on.
    assert bites_on(wired, next_year, 1000, 1.0, 2.0, grown_before_mm=0.9) == date(2028, 4, 1)


def test_the_share_is_an_argument() -> None:
    early = bites_on(date(2027, 2, 1), EVEN, 1000, ONE_MM_OF_RADIUS, 2.0, bites_at_share=0.1)
    assert early == date(2027, 4, 20)


def test_heat_beyond_the_season_makes_no_wood() -> None:
    # 0.25 x 4 mm = 1 mm: all of a season of 500, reached on the 50th day; 1.025 mm never.
    assert bites_on(date(2027, 2, 1), EVEN, 500, ONE_MM_OF_RADIUS, 4.0) == date(2027, 5, 20)
    assert bites_on(date(2027, 2, 1), EVEN, 500, ONE_MM_OF_RADIUS, 4.1) is None


@given(
    wired=st.integers(-60, 230),
    girth=st.floats(0.5, 25),
    wire_mm=st.floats(1, 6),
)
def test_as_wood_that_grows_day_by_day(wired: int, girth: float, wire_mm: float) -> None:
    """Girth added each day by that day's share of the heat, its radius held against the wire."""
    heat = [max(0.0, 18 * sin(pi * (n + 10) / 230)) for n in range(220)]
    season = sum(heat)
    wired_on = APRIL + timedelta(days=wired)
    sums, total, around, expected = [], 0.0, 40.0, None
    near = False
    for n, warmth in enumerate(heat):
        total += warmth
        day = APRIL + timedelta(days=n)
        sums.append((day, total))
        if day > wired_on:
            around += girth * warmth / season
            short = 0.25 * wire_mm - (around - 40.0) / (2 * pi)
            near = near or abs(short) < 1e-6
            if expected is None and short <= 0:
                expected = day
    bites = bites_on(wired_on, sums, season, girth, wire_mm)
    # Within a millionth of a mm either day is right.
    assert near or bites == expected


@given(st.floats(1, 6), st.floats(1, 6), st.floats(0.5, 25), st.integers(0, 99))
def test_a_thinner_wire_bites_no_later(one: float, other: float, girth: float, day: int) -> None:
    thin, thick = sorted((one, other))
    wired = EVEN[day][0]
    first = bites_on(wired, EVEN, 1000, girth, thin) or date.max
    assert first <= (bites_on(wired, EVEN, 1000, girth, thick) or date.max)


def test_strong_wood_grows_more() -> None:
    growth = [girth_growth_mm(vigour) for vigour in (1, 2, 3, 4, 5)]
    assert growth == pytest.approx([1.8, 3.6, 6.0, 9.0, 12.0])
    assert girth_growth_mm(5, fair_growth_mm=10) == pytest.approx(20)


def test_what_makes_no_sense() -> None:
    with pytest.raises(ValueError, match="Vigour goes from 1"):
        girth_growth_mm(6)
    with pytest.raises(ValueError, match="growth of girth in mm a season, 0 or more"):
        girth_growth_mm(3, fair_growth_mm=-1)
    wired = date(2027, 4, 1)
    for season in (0, -5, nan, inf):
        with pytest.raises(ValueError, match="heat sum of the whole season"):
            bites_on(wired, EVEN, season, 6, 3)
    with pytest.raises(ValueError, match="growth of girth in mm a season, 0 or more"):
        radial_growth_since_mm(wired, EVEN, 1000, nan)
    with pytest.raises(ValueError, match="thickness in mm, above 0"):
        bites_on(wired, EVEN, 1000, 6, 0)
    with pytest.raises(ValueError, match="at which it bites, above 0"):
        bites_on(wired, EVEN, 1000, 6, 3, bites_at_share=0)
    with pytest.raises(ValueError, match="growth before this season"):
        bites_on(wired, EVEN, 1000, 6, 3, grown_before_mm=-1)


@pytest.mark.parametrize(
    "sums",
    [
        [(APRIL, 5.0), (APRIL, 6.0)],
        [(APRIL, 5.0), (date(2027, 3, 31), 6.0)],
        [(APRIL, 5.0), (date(2027, 4, 2), 4.0)],
        [(APRIL, -1.0)],
        [(APRIL, nan)],
    ],
)
def test_heat_sums_out_of_order(sums: list[tuple[date, float]]) -> None:
    with pytest.raises(ValueError, match="heat sums never fall"):
        bites_on(date(2027, 3, 1), sums, 1000, 6, 3)


def test_no_heat_known_is_no_bite_known() -> None:
    assert bites_on(APRIL, [], 1000, 6, 3) is None
    assert radial_growth_since_mm(APRIL, [], 1000, 6) == 0


@pytest.mark.parametrize("wire_mm", [1.0, 2.0, 3.0])
def test_the_share_of_a_season_until_it_bites_is_that_of_the_days(wire_mm: float) -> None:
    """Ten degree-days a day for 200 days: the share that is needed, times 200, is the day."""
    first = date(2027, 4, 1)
    sums = [(first + timedelta(days=n), 10.0 * (n + 1)) for n in range(200)]
    share = share_until_it_bites(12.0, wire_mm)
    found = bites_on(first - timedelta(days=1), sums, 2000.0, 12.0, wire_mm)
    assert found is not None
    assert (found - first).days + 1 == ceil(share * 200 - 1e-9)


def test_where_nothing_grows_nothing_bites() -> None:
    assert share_until_it_bites(0.0, 2.0) == inf
    with pytest.raises(ValueError, match="thickness"):
        share_until_it_bites(6.0, 0.0)
