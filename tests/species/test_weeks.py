"""Days that are set to weeks as long as they are far off: no work comes or goes for that alone."""

from __future__ import annotations

from datetime import date, timedelta

import msgspec
import pytest

from backbud.climate.ahead import SkyAhead
from backbud.climate.air import Shift
from backbud.climate.forecast import Forecast, ForecastDay
from backbud.species import Window
from backbud_species.habits.leaves import late_frost
from backbud_species.habits.times import week_of
from backbud_species.norway_spruce import NorwaySpruce


def test_the_nearest_monday():
    # Mondays of 2027: 3 and 10 May.
    days = [date(2027, 5, day) for day in range(1, 11)]
    assert [week_of(day).day for day in days] == [3, 3, 3, 3, 3, 3, 10, 10, 10, 10]
    for day in days:
        assert week_of(day).weekday() == 0
        assert week_of(week_of(day)) == week_of(day)


@pytest.mark.parametrize("shift", range(-3, 4))
def test_a_guard_from_late_frost_does_not_hang_on_which_day_stands_for_a_week(made, shift):
    """Leaves that open in the week of the last frost are guarded, those a week later are not."""
    species = NorwaySpruce()
    year = made.year(species, "cool")
    frost = year.cold_nights_end(-1.0)
    assert frost is not None
    leaf = week_of(frost.last) + timedelta(days=shift)
    found = list(late_frost(year, Window(leaf, leaf, leaf), "A reason.", -1.0, 25))
    assert len(found) == 1
    window = found[0].window
    assert window.opens == leaf - timedelta(days=3) and window.closes >= leaf
    later = week_of(frost.last) + timedelta(days=7 + shift)
    assert list(late_frost(year, Window(later, later, later), "A reason.", -1.0, 25)) == []


def test_a_forecast_without_lows_leaves_the_guard_as_it_is_without_a_forecast(made):
    """Rain alone is told of tomorrow: it says nothing of a night, after the leaves or before."""
    year = made.year(NorwaySpruce(), "cool")
    frost = year.cold_nights_end(-1.0)
    assert frost is not None
    leaf = week_of(frost.last)
    long_past, soon = leaf + timedelta(days=200), leaf - timedelta(days=10)
    for today in (long_past, soon):
        rain = Forecast(
            today,
            {
                tomorrow: ForecastDay(tomorrow, rain_mm=12.0)
                for tomorrow in [today + timedelta(days=1)]
            },
        )
        ahead = SkyAhead(rain, today, Shift())
        told = msgspec.structs.replace(year, today=today, ahead=ahead)
        (found,) = late_frost(told, Window(leaf, leaf, leaf), "A reason.", -1.0, 25)
        assert found.window.opens == leaf - timedelta(days=3)
        assert found.window.opens <= found.window.best <= found.window.closes
