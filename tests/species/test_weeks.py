"""Days that are set to weeks as long as they are far off: no work comes or goes for that alone."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

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
