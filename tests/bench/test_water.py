"""Water for a pot: by hand, by `pint`, and against a pot emptied in small steps."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from math import inf, nan

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from backbud.bench.water import (
    ESTIMATE,
    PottedTree,
    WaterCover,
    canopy_area_m2,
    days_until_half_gone,
    hottest_week,
    litres_a_day,
    litres_held,
    litres_lost_a_day,
    litres_of_rain_caught,
    shade_net,
)

# Half a square metre of canopy over a pot of 0.1 m² that holds 4 L.
TREE = PottedTree(0.5, 0.1, 4.0, canopy_factor=0.8, rain_past_canopy=0.6)
JULY = date(2027, 7, 1)


def test_a_millimetre_on_a_square_metre_is_a_litre() -> None:
    units = pint.get_application_registry()
    litres = (5.0 * units.mm * 0.5 * units.m**2).to("L").magnitude
    bare = replace(TREE, canopy_factor=1.0)
    assert litres_lost_a_day(bare, 5.0) == pytest.approx(litres) == pytest.approx(2.5)
    rain = (10 * units.mm * 0.1 * units.m**2).to("L").magnitude
    open_to_rain = replace(TREE, rain_past_canopy=1.0)
    assert litres_of_rain_caught(open_to_rain, 10) == pytest.approx(rain) == pytest.approx(1.0)


def test_a_july_day_at_lyon_by_hand() -> None:
    """5.0 mm of ET0: the example of FAO-56 for July at Lyon."""
    # 5 x 0.8 x 0.5 = 2 L lost; 2 mm of rain on 0.1 m², 0.6 of it let past: 0.12 L.
    assert litres_a_day(TREE, 5.0) == pytest.approx(2.0)
    assert litres_a_day(TREE, 5.0, rain_mm=2.0) == pytest.approx(1.88)
    # A wet dull day brings more than is lost: 0.2 L lost, 1.8 caught.
    assert litres_a_day(TREE, 0.5, rain_mm=30) == pytest.approx(-1.6)


def test_a_cover_takes_off_demand_and_rain() -> None:
    under_glass = replace(TREE, cover=WaterCover(0.64, 0.0))
    assert litres_a_day(under_glass, 5.0, rain_mm=20) == pytest.approx(2.0 * 0.64)
    # Half of the rain drips in: 2 x 0.64 less 20 mm x 0.1 m² x 0.6 x 0.5.
    leaking = replace(TREE, cover=WaterCover(0.64, 0.5))
    assert litres_a_day(leaking, 5.0, rain_mm=20) == pytest.approx(1.28 - 0.6)
    assert TREE.cover == WaterCover(1.0, 1.0)


def test_a_net_by_its_percent() -> None:
    assert shade_net(0) == WaterCover(1.0, 1.0)
    # 40 % of the light taken, seven tenths of that shown in the water: 1 - 0.28.
    assert shade_net(40).factor == pytest.approx(0.72)
    assert shade_net(40, net_effect=1.0).factor == pytest.approx(0.6)
    assert shade_net(40).rain_share == 1.0


@pytest.mark.parametrize("percent", [-1, 101, nan])
def test_a_net_that_is_none(percent: float) -> None:
    with pytest.raises(ValueError, match="the net takes, from 0 to 1"):
        shade_net(percent)


def test_a_canopy_is_an_ellipse() -> None:
    # By strips: 70 x 50 cm.
    strips = 10_000
    wide = sum(2 * 25 * (1 - ((n + 0.5) / strips) ** 2) ** 0.5 for n in range(strips))
    assert canopy_area_m2(70, 50) == pytest.approx(2 * wide * 35 / strips / 10_000, rel=1e-5)
    assert canopy_area_m2(60) == pytest.approx(0.2827, abs=1e-4)


def test_what_a_pot_holds() -> None:
    assert litres_held(8, share_held=0.5) == 4.0
    assert litres_held(10) == pytest.approx(3.5)


def test_days_until_half_is_gone_by_hand() -> None:
    # Two litres may go, at 2 L a day: a day; at 4 L half a day; at 0.8 L two days and a half.
    assert days_until_half_gone(TREE, [(5.0, 0.0)] * 7) == pytest.approx(1.0)
    assert days_until_half_gone(TREE, [(10.0, 0.0)]) == pytest.approx(0.5)
    assert days_until_half_gone(TREE, [(2.0, 0.0)] * 7) == pytest.approx(2.5)
    # 0.8 gone, then 0.8 - 0.6 = 0.2, then 0.8: 0.2 is left for a quarter of the fourth day.
    rainy = [(2.0, 0.0), (2.0, 10.0), (2.0, 0.0), (2.0, 0.0)]
    assert days_until_half_gone(TREE, rainy) == pytest.approx(3.25)
    # Rain on a full pot runs off: it is no store for the days to come.
    assert days_until_half_gone(TREE, [(0.0, 50.0), (5.0, 0.0)]) == pytest.approx(2.0)
    assert days_until_half_gone(TREE, [(2.0, 0.0)] * 2) is None
    assert days_until_half_gone(TREE, []) is None


@given(st.lists(st.tuples(st.floats(0, 9), st.floats(0, 25)), max_size=20))
def test_as_a_pot_emptied_in_small_steps(days: list[tuple[float, float]]) -> None:
    steps, water, expected = 500, 4.0, None
    for step in range(steps * len(days)):
        et0_mm, rain_mm = days[step // steps]
        water = min(4.0, water + (rain_mm * 0.06 - et0_mm * 0.4) / steps)
        if water <= 2.0 + 1e-9:
            expected = (step + 1) / steps
            break
    found = days_until_half_gone(TREE, days)
    if expected is None or found is None:
        # One may just reach the half at the end of the last day.
        assert (expected or found or len(days)) == pytest.approx(len(days), abs=1 / steps)
    else:
        assert found == pytest.approx(expected, abs=1 / steps + 1e-6)


def _days(et0_mm: list[float], rain_mm: float = 0.0) -> list[tuple[date, float, float]]:
    return [(JULY + timedelta(days=n), et0, rain_mm) for n, et0 in enumerate(et0_mm)]


def test_the_hottest_week_by_hand() -> None:
    week = hottest_week(TREE, _days([3, 3, 5, 5, 5, 5, 5, 5, 5, 4, 3]))
    assert week is not None
    # Seven days of 5 mm: 7 x 2 L.
    assert (week.first, week.last) == (date(2027, 7, 3), date(2027, 7, 9))
    assert week.litres == pytest.approx(14)
    # Of equals the first.
    even = hottest_week(TREE, _days([4.0] * 9))
    assert even is not None and even.first == JULY


def test_a_wet_day_is_no_store_for_a_dry_one() -> None:
    days = _days([5.0] * 7)
    days[3] = (days[3][0], 1.0, 40.0)
    week = hottest_week(TREE, days)
    assert week is not None and week.litres == pytest.approx(12)


def test_a_week_has_no_gap() -> None:
    days = _days([3.0] * 8 + [9.0] * 6 + [3.0] * 8)
    # With a day of the nines gone only the weeks of threes and what borders on them remain.
    gap = days[:10] + days[11:]
    week = hottest_week(TREE, gap)
    assert week is not None
    # 11 to 18 July were next to the gap on the 11th: 12 to 18 July holds three nines.
    assert (week.first, week.litres) == (date(2027, 7, 12), pytest.approx((3 * 9 + 4 * 3) * 0.4))
    assert hottest_week(TREE, days[:6]) is None
    assert hottest_week(TREE, days[:4] + days[5:10]) is None


@given(st.lists(st.floats(0, 9), min_size=7, max_size=40))
def test_no_week_is_hotter(et0_mm: list[float]) -> None:
    found = hottest_week(TREE, _days(et0_mm))
    sums = [0.0]
    for et0 in et0_mm:
        sums.append(sums[-1] + et0 * 0.4)
    most = max(late - early for early, late in zip(sums, sums[7:], strict=False))
    assert found is not None and found.litres == pytest.approx(most, abs=1e-9)
    assert found.last - found.first == timedelta(days=6)


def test_it_says_that_it_is_an_estimate() -> None:
    assert ESTIMATE == "An estimate to plan by: a finger in the soil decides."
    for sum_ in (litres_held, litres_lost_a_day, litres_a_day, days_until_half_gone, hottest_week):
        assert "a finger in the soil decides" in " ".join((sum_.__doc__ or "").split())


@pytest.mark.parametrize("wrong", [-0.1, nan, inf])
def test_figures_that_make_no_sense(wrong: float) -> None:
    for sum_ in (
        lambda: PottedTree(wrong, 0.1, 4),
        lambda: PottedTree(0.5, wrong, 4),
        lambda: PottedTree(0.5, 0.1, wrong),
        lambda: PottedTree(0.5, 0.1, 4, canopy_factor=wrong),
        lambda: PottedTree(0.5, 0.1, 4, cover=WaterCover(wrong, 1)),
        lambda: litres_lost_a_day(TREE, wrong),
        lambda: litres_of_rain_caught(TREE, wrong),
        lambda: canopy_area_m2(wrong),
        lambda: canopy_area_m2(60, wrong),
        lambda: litres_held(wrong),
    ):
        with pytest.raises(ValueError, match=r"Give the .*, 0 or more \(not"):
            sum_()
    for share in (
        lambda: PottedTree(0.5, 0.1, 4, rain_past_canopy=wrong),
        lambda: PottedTree(0.5, 0.1, 4, cover=WaterCover(1, wrong)),
        lambda: litres_held(8, wrong),
        lambda: shade_net(40, wrong),
    ):
        with pytest.raises(ValueError, match=r"Give the .*, from 0 to 1 \(not"):
            share()


def test_what_is_missing_or_out_of_order() -> None:
    with pytest.raises(ValueError, match="litres of water the pot holds, above 0"):
        days_until_half_gone(replace(TREE, held_litres=0), [(5, 0)])
    days = _days([3.0] * 8)
    for wrong in (days[::-1], [*days, days[-1]]):
        assert any(later[0] <= day[0] for day, later in pairwise(wrong))
        with pytest.raises(ValueError, match="The days must rise"):
            hottest_week(TREE, wrong)
