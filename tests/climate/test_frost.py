"""First and last frosts, their odds and quantiles, against numpy and by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta

import numpy as np
import pytest
from vega_datasets import data

from backbud.climate.daily_from_months import mean_on
from backbud.climate.frost import (
    FrostRecord,
    FrostSeason,
    expected_frosts,
    first_autumn_frost,
    first_autumn_frost_day,
    frost_record,
    last_spring_frost,
    last_spring_frost_day,
    odds_by_day,
    odds_on_or_after,
    odds_on_or_before,
)

# A place with a mean low of 1 to 11 °C.
LOWS = (1.0, 1.0, 2.0, 4.0, 6.0, 9.0, 11.0, 11.0, 9.0, 7.0, 4.0, 2.0)
TURNED = LOWS[6:] + LOWS[:6]


def nights(first: date, last: date, frosts: set[date]) -> Iterator[tuple[date, float | None]]:
    """Every night from first to last: -1 °C on those given, else 5 °C."""
    for offset in range((last - first).days + 1):
        night = first + timedelta(days=offset)
        yield night, -1.0 if night in frosts else 5.0


def seattle() -> list[tuple[date, float]]:
    """Daily minima 2012 to 2015, no night missing (vega_datasets, from NOAA)."""
    weather = data.seattle_weather()
    return [
        (day.date(), float(low))
        for day, low in zip(weather["date"], weather["temp_min"], strict=True)
    ]


def days_since_july(day: date) -> int:
    """0 for 1 July; every season here counted with a 29 February."""
    begins = date(2023 if day.month >= 7 else 2024, 7 if day.month >= 7 else 1, 1)
    return (day.replace(year=begins.year) - date(2023, 7, 1)).days


def test_seattles_seasons() -> None:
    record = frost_record(seattle(), 0.0, southern=False)
    # Read off the same data with pandas: lows of 0 °C or less from 1 July to 30 June.
    assert record.seasons == (
        FrostSeason(date(2012, 7, 1), date(2012, 11, 10), date(2013, 3, 4)),
        FrostSeason(date(2013, 7, 1), date(2013, 11, 21), date(2014, 2, 9)),
        FrostSeason(date(2014, 7, 1), date(2014, 11, 12), date(2015, 3, 4)),
    )
    # The record begins and ends in the middle of a winter.
    assert record.left_out == (date(2011, 7, 1), date(2015, 7, 1))


@pytest.mark.parametrize("share", [0.0, 0.1, 0.25, 0.5, 0.8, 0.9, 1.0])
@pytest.mark.parametrize("threshold_c", [-2.0, 0.0, 2.0])
def test_quantiles_are_numpys(share: float, threshold_c: float) -> None:
    minima = seattle()
    record = frost_record(minima, threshold_c, southern=False)
    firsts, lasts = [], []
    for year in (2012, 2013, 2014):
        frosts = [
            night
            for night, low_c in minima
            if low_c <= threshold_c and date(year, 7, 1) <= night < date(year + 1, 7, 1)
        ]
        firsts.append(days_since_july(frosts[0]))
        lasts.append(days_since_july(frosts[-1]))
    # Hyndman and Fan's type 1, which gives back no day but one that was.
    first = np.quantile(firsts, share, method="inverted_cdf")
    last = np.quantile(lasts, share, method="inverted_cdf")
    assert first_autumn_frost_day(record, share) == first
    assert last_spring_frost_day(record, share) == last


def test_the_days_are_those_on_which_the_odds_reach_the_share() -> None:
    record = frost_record(seattle(), 0.0, southern=False)
    # Last frosts 4 March, 9 February, 4 March; first frosts 10, 12, 21 November.
    assert last_spring_frost(record, 0.3, date(2027, 1, 1)) == date(2027, 2, 9)
    assert last_spring_frost(record, 0.4, date(2027, 1, 1)) == date(2027, 3, 4)
    assert first_autumn_frost(record, 0.3, date(2027, 9, 1)) == date(2027, 11, 10)
    assert first_autumn_frost(record, 0.5, date(2027, 9, 1)) == date(2027, 11, 12)
    assert first_autumn_frost(record, 0.7, date(2027, 9, 1)) == date(2027, 11, 21)
    for share in (0.1, 0.3, 0.5, 0.9):
        first = first_autumn_frost(record, share, date(2027, 9, 1))
        last = last_spring_frost(record, share, date(2027, 9, 1))
        assert first is not None and last is not None
        assert odds_on_or_before(record, first - timedelta(days=1)) < share
        assert odds_on_or_before(record, first) >= share
        assert 1 - odds_on_or_after(record, last) < share
        assert 1 - odds_on_or_after(record, last + timedelta(days=1)) >= share


def test_dates_are_those_of_the_season_that_the_day_falls_in() -> None:
    record = frost_record(seattle(), 0.0, southern=False)
    for day in (date(2026, 7, 1), date(2026, 12, 31), date(2027, 6, 30)):
        assert last_spring_frost(record, 1.0, day) == date(2027, 3, 4)
        assert first_autumn_frost(record, 0.0, day) == date(2026, 11, 10)


def test_seattles_odds() -> None:
    record = frost_record(seattle(), 0.0, southern=False)
    assert odds_on_or_after(record, date(2027, 2, 9)) == 1.0
    assert odds_on_or_after(record, date(2027, 2, 10)) == pytest.approx(2 / 3)
    assert odds_on_or_after(record, date(2027, 3, 4)) == pytest.approx(2 / 3)
    assert odds_on_or_after(record, date(2027, 3, 5)) == 0.0
    assert odds_on_or_before(record, date(2027, 11, 9)) == 0.0
    assert odds_on_or_before(record, date(2027, 11, 10)) == pytest.approx(1 / 3)
    assert odds_on_or_before(record, date(2027, 11, 12)) == pytest.approx(2 / 3)
    assert odds_on_or_before(record, date(2028, 2, 29)) == 1.0


@pytest.mark.parametrize(("southern", "first_day"), [(False, (7, 1)), (True, (1, 1))])
def test_odds_by_day_of_the_season(southern: bool, first_day: tuple[int, int]) -> None:
    record = frost_record(seattle(), 0.0, southern=southern)
    table = odds_by_day(record)
    assert len(table) == 366
    assert (table[0].month, table[0].day) == first_day
    for row in table:
        day = date(2024, row.month, row.day)
        assert row.on_or_before == odds_on_or_before(record, day)
        assert row.on_or_after == odds_on_or_after(record, day)
    rising = [row.on_or_before for row in table]
    falling = [row.on_or_after for row in table]
    assert rising == sorted(rising)
    assert falling == sorted(falling, reverse=True)


def frosty_and_mild() -> FrostRecord:
    """Four northern winters: two with frosts, one with none, one with a single night."""
    frosts = {
        date(2019, 11, 10),
        date(2020, 4, 2),
        date(2020, 10, 30),
        date(2021, 2, 1),
        date(2021, 4, 12),
        date(2023, 1, 15),
    }
    return frost_record(nights(date(2019, 7, 1), date(2023, 6, 30), frosts), 0.0, southern=False)


def test_a_season_without_frost_stays_in() -> None:
    record = frosty_and_mild()
    assert record.left_out == ()
    assert record.seasons == (
        FrostSeason(date(2019, 7, 1), date(2019, 11, 10), date(2020, 4, 2)),
        FrostSeason(date(2020, 7, 1), date(2020, 10, 30), date(2021, 4, 12)),
        FrostSeason(date(2021, 7, 1), None, None),
        FrostSeason(date(2022, 7, 1), date(2023, 1, 15), date(2023, 1, 15)),
    )
    assert odds_on_or_after(record, date(2027, 4, 3)) == 0.25
    assert odds_on_or_after(record, date(2026, 7, 1)) == 0.75
    assert odds_on_or_before(record, date(2027, 6, 30)) == 0.75


def test_a_season_without_frost_comes_first_in_spring_and_last_in_autumn() -> None:
    record = frosty_and_mild()
    day = date(2027, 3, 1)
    # By hand, of four: share 1/3 is the second, 2/3 the third, 1 the fourth.
    assert last_spring_frost(record, 0.0, day) is None
    assert last_spring_frost(record, 0.2, day) is None
    assert last_spring_frost(record, 1 / 3, day) == date(2027, 1, 15)
    assert last_spring_frost(record, 1.0, day) == date(2027, 4, 12)
    assert first_autumn_frost(record, 0.0, day) == date(2026, 10, 30)
    assert first_autumn_frost(record, 1 / 3, day) == date(2026, 11, 10)
    # The winter of one frost had its first in January, and its last too.
    assert first_autumn_frost(record, 2 / 3, day) == date(2027, 1, 15)
    assert first_autumn_frost(record, 0.8, day) is None
    assert first_autumn_frost_day(record, 1.0) is None


def test_a_southern_season_is_the_calendar_year() -> None:
    frosts = {date(2021, 5, 20), date(2021, 9, 30), date(2022, 6, 2), date(2022, 8, 11)}
    record = frost_record(nights(date(2021, 1, 1), date(2022, 12, 31), frosts), 0.0, southern=True)
    assert record.seasons == (
        FrostSeason(date(2021, 1, 1), date(2021, 5, 20), date(2021, 9, 30)),
        FrostSeason(date(2022, 1, 1), date(2022, 6, 2), date(2022, 8, 11)),
    )
    assert first_autumn_frost(record, 0.0, date(2027, 12, 31)) == date(2027, 5, 20)
    assert last_spring_frost(record, 1.0, date(2027, 1, 1)) == date(2027, 9, 30)
    assert odds_on_or_after(record, date(2027, 8, 12)) == 0.5
    assert odds_on_or_before(record, date(2027, 5, 20)) == 0.5


def test_a_frost_on_29_february_is_rounded_away_from_a_common_year() -> None:
    frosts = {date(2024, 2, 29)}
    record = frost_record(nights(date(2023, 7, 1), date(2024, 6, 30), frosts), 0.0, southern=False)
    assert last_spring_frost(record, 0.5, date(2027, 1, 1)) == date(2027, 3, 1)
    assert first_autumn_frost(record, 0.5, date(2027, 1, 1)) == date(2027, 2, 28)
    assert last_spring_frost(record, 0.5, date(2028, 1, 1)) == date(2028, 2, 29)


def test_ten_missing_nights_are_borne_and_eleven_are_not() -> None:
    whole = list(nights(date(2023, 7, 1), date(2024, 6, 30), {date(2024, 3, 20)}))
    assert len(whole) == 366
    # One is written down as not known, the rest are not written down.
    unknown: list[tuple[date, float | None]] = [(whole[20][0], None)]
    ten = whole[:11] + unknown + whole[21:]
    assert len(frost_record(ten, 0.0, southern=False).seasons) == 1
    eleven = whole[:10] + unknown + whole[21:]
    assert frost_record(eleven, 0.0, southern=False).left_out == (date(2023, 7, 1),)
    bearing = frost_record(eleven, 0.0, southern=False, max_missing_nights=11)
    assert bearing.seasons == (FrostSeason(date(2023, 7, 1), date(2024, 3, 20), date(2024, 3, 20)),)


def test_a_night_at_the_threshold_is_a_frost() -> None:
    whole = [(night, 2.0) for night, _ in nights(date(2022, 7, 1), date(2023, 6, 30), set())]
    whole[100] = (whole[100][0], -2.0)
    (season,) = frost_record(whole, -2.0, southern=False).seasons
    assert season.first_frost == season.last_frost == date(2022, 10, 9)
    (season,) = frost_record(whole, -2.01, southern=False).seasons
    assert season.first_frost is None


def test_order_does_not_matter() -> None:
    minima = seattle()
    assert frost_record(reversed(minima), 0.0, southern=False) == frost_record(
        minima, 0.0, southern=False
    )


def test_nothing_known_gives_nothing() -> None:
    record = frost_record([], 0.0, southern=False)
    assert record == FrostRecord(0.0, False, (), ())
    assert odds_on_or_after(record, date(2027, 3, 1)) is None
    assert odds_on_or_before(record, date(2027, 3, 1)) is None
    assert odds_by_day(record) == ()
    assert last_spring_frost_day(record, 0.9) is None
    assert first_autumn_frost(record, 0.1, date(2027, 3, 1)) is None


def test_what_makes_no_sense_is_refused() -> None:
    night = date(2027, 3, 1)
    with pytest.raises(ValueError, match="two minima for 2027-03-01"):
        frost_record([(night, 1.0), (night, 2.0)], 0.0, southern=False)
    with pytest.raises(ValueError, match="no number"):
        frost_record([(night, float("nan"))], 0.0, southern=False)
    with pytest.raises(ValueError, match="missing"):
        frost_record([], 0.0, southern=False, max_missing_nights=-1)
    for share in (-0.1, 1.1, float("nan")):
        with pytest.raises(ValueError, match="share"):
            last_spring_frost_day(frosty_and_mild(), share)
    with pytest.raises(ValueError, match="not 2"):
        expected_frosts((1.0, 2.0), 0.0, night, drop_k_on=flat(1.0), southern=False)


def flat(drop_k: float) -> Callable[[date], float]:
    """The same drop (K) on every date."""
    return lambda night: drop_k


def test_frosts_to_expect_from_monthly_means() -> None:
    # The mean low falls from 9 °C in September to 7 in October, and rises from 4 in April to 6 in
    # May: with a drop of 5 °C it crosses 0 °C between the middles of the months around 5 °C.
    season = expected_frosts(LOWS, 0.0, date(2027, 1, 1), drop_k_on=flat(5.0), southern=False)
    assert season.begins == date(2026, 7, 1)
    assert season.first_frost is not None
    assert season.last_frost is not None
    assert date(2026, 10, 15) < season.first_frost < date(2026, 11, 15)
    assert date(2027, 4, 15) < season.last_frost < date(2027, 5, 15)
    # Only the nights between them are at or below.
    for night, frost in (
        (season.first_frost - timedelta(days=1), False),
        (season.first_frost, True),
        (season.last_frost, True),
        (season.last_frost + timedelta(days=1), False),
    ):
        assert (mean_on(LOWS, night) - 5.0 <= 0.0) is frost


def test_the_south_is_half_a_year_off() -> None:
    north = expected_frosts(LOWS, 0.0, date(2027, 1, 1), drop_k_on=flat(5.0), southern=False)
    south = expected_frosts(TURNED, 0.0, date(2027, 1, 1), drop_k_on=flat(5.0), southern=True)
    assert south.begins == date(2027, 1, 1)
    for here, there in (
        (north.first_frost, south.first_frost),
        (north.last_frost, south.last_frost),
    ):
        assert here is not None
        assert there is not None
        # January to June are three days shorter than July to December.
        assert abs((there - here).days - 182) <= 4


def test_no_frost_or_nothing_but_frost_to_expect() -> None:
    day = date(2027, 8, 1)
    assert expected_frosts(LOWS, 0.0, day, drop_k_on=flat(0.0), southern=False) == FrostSeason(
        date(2027, 7, 1), None, None
    )
    assert expected_frosts(LOWS, 0.0, day, drop_k_on=flat(20.0), southern=False) == FrostSeason(
        date(2027, 7, 1), date(2027, 7, 1), date(2028, 6, 30)
    )
