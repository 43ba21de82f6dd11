"""Each bound of what is told of a place's weather, on both sides of it; days counted by hand."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from tests.climate.conftest import even_days, even_means

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.cold_region import Region, region_of
from backbud.climate.datum import is_expected
from backbud.climate.days import MonthlyMeans, WeatherDay
from backbud.climate.forecast import Forecast, ForecastDay
from backbud.climate.outlook import Outlook, Wants
from backbud.climate.stages import Need, Own, Traces, expected_stage

NEW_YEAR, YEAR_END = date(2027, 1, 1), date(2027, 12, 31)
LAST_YEAR = date(2026, 12, 31)
SHIELDED: Region = "the Mediterranean and its like"
AMERICA: Region = "North America"


def over(air: PlaceAir, southern: bool = False) -> Outlook:
    return Outlook(air, OPEN_AIR, latitude=50.0, southern=southern)


# ------------------------------------------------------------------ the regions of hard winters

# By each side of each region a place on it, and one a tenth of a degree beyond: north and east.
SIDES: tuple[tuple[tuple[float, float], Region, tuple[float, float], Region], ...] = (
    # Iberia, the Maghreb, the south of France, Italy.
    ((30.0, 0.0), SHIELDED, (29.9, 0.0), ""),
    ((44.0, 0.0), SHIELDED, (44.1, 0.0), "Europe"),
    ((40.0, -11.0), SHIELDED, (40.0, -11.1), "Europe"),
    ((43.0, 20.0), SHIELDED, (43.0, 20.1), "Europe"),
    # Greece.
    ((30.0, 24.0), SHIELDED, (29.9, 24.0), ""),
    ((41.0, 24.0), SHIELDED, (41.1, 24.0), "Europe"),
    ((40.0, 28.0), SHIELDED, (40.0, 28.1), "Europe"),
    ((40.0, 20.1), SHIELDED, (41.1, 20.1), "Europe"),
    # The south coast of Anatolia, the Levant.
    ((30.0, 32.0), SHIELDED, (29.9, 32.0), ""),
    ((37.5, 32.0), SHIELDED, (37.6, 32.0), "Europe"),
    ((37.0, 36.5), SHIELDED, (37.0, 36.6), "Europe"),
    ((37.0, 28.1), SHIELDED, (37.6, 28.1), "Europe"),
    # The valleys of the Alps, the plain of the Po.
    ((44.1, 10.0), SHIELDED, (44.1, 6.4), "Europe"),
    ((47.2, 10.0), SHIELDED, (47.3, 10.0), "Europe"),
    ((46.0, 6.5), SHIELDED, (46.0, 6.4), "Europe"),
    ((46.0, 14.0), SHIELDED, (46.0, 14.1), "Europe"),
    # South-east Australia; New Zealand.
    ((-44.0, 147.0), SHIELDED, (-44.1, 147.0), ""),
    ((-26.0, 150.0), SHIELDED, (-25.9, 150.0), ""),
    ((-35.0, 138.0), SHIELDED, (-35.0, 137.9), ""),
    ((-30.0, 154.0), SHIELDED, (-30.0, 154.1), ""),
    ((-48.0, 168.0), SHIELDED, (-48.1, 168.0), ""),
    ((-34.0, 173.0), SHIELDED, (-33.9, 173.0), ""),
    ((-45.0, 166.0), SHIELDED, (-45.0, 165.9), ""),
    ((-38.0, 179.0), SHIELDED, (-38.0, 179.1), ""),
    # California west of the deserts; the low desert of Arizona.
    ((32.4, -117.1), SHIELDED, (32.3, -117.1), AMERICA),
    ((38.8, -123.0), SHIELDED, (38.9, -123.0), AMERICA),
    ((37.0, -125.0), SHIELDED, (37.0, -125.1), AMERICA),
    ((35.0, -117.0), SHIELDED, (35.0, -116.9), AMERICA),
    ((31.3, -112.0), SHIELDED, (31.2, -112.0), AMERICA),
    ((34.2, -112.0), SHIELDED, (34.3, -112.0), AMERICA),
    ((32.0, -117.0), SHIELDED, (32.0, -117.1), AMERICA),
    ((33.0, -109.5), SHIELDED, (33.0, -109.4), AMERICA),
    # Middle Chile; the Cape; the south-west of Australia.
    ((-38.0, -72.0), SHIELDED, (-38.1, -72.0), ""),
    ((-28.0, -71.0), SHIELDED, (-27.9, -71.0), ""),
    ((-33.0, -74.0), SHIELDED, (-33.0, -74.1), ""),
    ((-33.0, -70.0), SHIELDED, (-33.0, -69.9), ""),
    ((-35.0, 20.0), SHIELDED, (-35.1, 20.0), ""),
    ((-28.0, 18.0), SHIELDED, (-27.9, 18.0), ""),
    ((-32.0, 16.0), SHIELDED, (-32.0, 15.9), ""),
    ((-33.0, 26.0), SHIELDED, (-33.0, 26.1), ""),
    ((-36.0, 117.0), SHIELDED, (-36.1, 117.0), ""),
    ((-28.0, 115.0), SHIELDED, (-27.9, 115.0), ""),
    ((-32.0, 113.0), SHIELDED, (-32.0, 112.9), ""),
    ((-32.0, 129.0), SHIELDED, (-32.0, 129.1), ""),
    # South Asia; South-east Asia and the south of China.
    ((5.0, 80.0), SHIELDED, (4.9, 80.0), ""),
    ((32.0, 75.0), SHIELDED, (32.1, 75.0), ""),
    ((25.0, 65.0), SHIELDED, (25.0, 64.9), ""),
    ((31.0, 92.0), SHIELDED, (31.0, 92.1), ""),
    ((5.0, 100.0), SHIELDED, (4.9, 100.0), ""),
    ((30.0, 100.0), SHIELDED, (30.1, 100.0), ""),
    ((15.0, 125.0), SHIELDED, (15.0, 125.1), ""),
    ((20.0, 92.1), SHIELDED, (30.1, 92.1), ""),
    # Japan, Korea, North China.
    ((30.0, 130.0), "East Asia", (29.9, 130.0), ""),
    ((50.0, 130.0), "East Asia", (50.1, 130.0), ""),
    ((40.0, 110.0), "East Asia", (40.0, 109.9), ""),
    ((40.0, 146.0), "East Asia", (40.0, 146.1), ""),
    # What is left of North America and of Europe.
    ((15.0, -90.0), AMERICA, (14.9, -90.0), ""),
    ((72.0, -100.0), AMERICA, (72.1, -100.0), ""),
    ((60.0, -170.0), AMERICA, (60.0, -170.1), ""),
    ((50.0, -52.0), AMERICA, (50.0, -51.9), ""),
    ((36.0, 40.0), "Europe", (35.9, 40.0), ""),
    ((72.0, 20.0), "Europe", (72.1, 20.0), ""),
    ((65.0, -25.0), "Europe", (65.0, -25.1), ""),
    ((50.0, 45.0), "Europe", (50.0, 45.1), ""),
)


@pytest.mark.parametrize(("on", "region", "beyond", "other"), SIDES)
def test_a_place_on_the_side_of_a_region_is_judged_as_within_it(on, region, beyond, other) -> None:
    assert (region_of(*on), region_of(*beyond)) == (region, other)


# ------------------------------------------------------------------ cold nights


@pytest.mark.parametrize(
    ("winters", "one", "five", "nine"),
    # A tenth of twenty winters are two, nine tenths eighteen; of eleven they are 1.1 and 9.9, so
    # the second and the tenth, and half are 5.5, so the sixth.
    [(20, 2, 10, 18), (11, 2, 6, 10)],
)
def test_first_frosts_of_the_record_by_one_five_and_nine_winters_of_ten(
    winters, one, five, nine
) -> None:
    """Each winter's first frost comes a day later in November than that of the winter before."""
    days = even_days(date(2000, 7, 1), 366 * winters, 5.0, 9.0)
    for n in range(winters):
        night = date(2000 + n, 11, 1 + n)
        days[night] = WeatherDay(night, -1.0, 5.0)
    air = PlaceAir(days, even_means(5.0, 9.0), LAST_YEAR, "means")
    begins = over(air).cold_nights_begin(NEW_YEAR, 0.0)
    assert begins is not None
    assert begins[:3] == tuple(date(2027, 11, day) for day in (one, five, nine))


@pytest.mark.parametrize("low_c", [0.0, 0.1])
def test_a_night_at_the_limit_is_not_over_it(low_c) -> None:
    """Where every night is, the time for a tender tree outside is the whole year."""
    outlook = over(PlaceAir({}, even_means(low_c, 25.0), LAST_YEAR, "the card"))
    mild = outlook.mild_nights(NEW_YEAR, 0.0)
    if low_c == 0.0:
        assert mild is None
    else:
        assert mild is not None
        assert (mild.first, mild.last) == (NEW_YEAR, YEAR_END)
        assert is_expected(mild.because)


@pytest.mark.parametrize(
    ("southern", "first", "last"),
    [(False, (2027, 12, 1), (2028, 2, 28)), (True, (2028, 6, 1), (2028, 8, 31))],
)
def test_a_hard_night_that_keeps_to_no_date_is_of_the_three_months_of_winter(
    southern, first, last
) -> None:
    """An even 5 °C by night and 15 by day: a drop of 5.2 K in the mean year and of 7.2 in one of
    ten, so -2.2 °C; -6 °C is close, and no month is so cold by itself."""
    air = PlaceAir({}, even_means(5.0, 15.0), LAST_YEAR, "the card")
    begins = date(2027, 7, 1) if southern else NEW_YEAR
    hard = over(air, southern).hard_nights(begins, -6.0)
    assert hard is not None
    assert (hard.verdict, hard.first, hard.last) == ("close", date(*first), date(*last))


# ------------------------------------------------------------------ heat


@pytest.mark.parametrize(("days", "mean_c"), [(1, 10.0), (2, 10.0)])
def test_the_mean_of_one_day_is_its_own(days, mean_c) -> None:
    outlook = over(PlaceAir({}, even_means(5.0, 15.0), LAST_YEAR, "the card"))
    assert outlook.usual_mean(NEW_YEAR, days).celsius == pytest.approx(mean_c)
    assert outlook.mean(NEW_YEAR, days).celsius == pytest.approx(mean_c)


@pytest.mark.parametrize("high_c", [0.0, -0.1])
def test_days_at_the_figure_are_hot_and_the_whole_year_where_all_are(high_c) -> None:
    outlook = over(PlaceAir({}, even_means(-9.0, high_c), LAST_YEAR, "the card"))
    spells = outlook.hot_spells(NEW_YEAR, 0.0)
    if high_c < 0.0:
        assert spells == ()
    else:
        assert [(one.first, one.last) for one in spells] == [(NEW_YEAR, YEAR_END)]
        assert is_expected(spells[0].because)


@pytest.mark.parametrize(("mean_c", "until"), [(15.0, YEAR_END), (14.9, None)])
def test_the_last_day_that_is_not_under_a_temperature(mean_c, until) -> None:
    """Each day averages 10 to 20 °C, or a tenth less."""
    air = PlaceAir({}, even_means(mean_c - 5.0, mean_c + 5.0), LAST_YEAR, "the card")
    assert over(air).stays_over(NEW_YEAR, 14.95) == until


def test_each_day_adds_its_own_heat_whatever_its_light() -> None:
    """A year measured at 20 °C all day and night: 10 K·day over 10 °C each day."""
    air = PlaceAir(even_days(NEW_YEAR, 365, 20.0, 20.0), even_means(0.0, 5.0), YEAR_END, "means")
    heat = over(air).heat(NEW_YEAR, 10.0)
    assert heat.sums[:3] == pytest.approx((10.0, 20.0, 30.0))
    assert heat.at(YEAR_END) == pytest.approx(3650.0)


# ------------------------------------------------------------------ what is known of a day


def test_a_day_that_nobody_measured_or_foretold_is_not_known() -> None:
    """It counts by the climate's mean and by how far days stray about it."""
    today = date(2027, 3, 10)
    tomorrow, after = today + timedelta(days=1), today + timedelta(days=2)
    said = Forecast(today, {tomorrow: ForecastDay(tomorrow, 9.0, 20.0)})
    measured = {today: WeatherDay(today, 4.0, 12.0)}
    air = PlaceAir(measured, even_means(5.0, 15.0), today, "the means", forecast=said)
    assert [air.of(day).is_known for day in (today, tomorrow, after)] == [True, True, False]
    assert not air.expected(today).is_known


def test_what_a_forecast_brings_of_the_sum_makes_the_range_narrower() -> None:
    """Nine days of 15 to 35 °C, 20 degree-days over 5 °C, of which twelve hours of light count
    half: 90 of 200 weighed ones. What is left of twelve days either side is 0.55 x 12 = 6.6."""
    today = date(2027, 3, 10)
    days = [today + timedelta(days=n) for n in range(1, 10)]
    said = Forecast(today, {day: ForecastDay(day, 15.0, 35.0) for day in days})
    for forecast, around in ((None, 12), (said, 7)):
        air = PlaceAir({}, even_means(5.0, 15.0), today, "the means", forecast=forecast)
        found = expected_stage(
            Traces(air, OPEN_AIR, 0.0), today, days[0], Need("heat", 5.0, 200.0), Own(), YEAR_END
        )
        assert found is not None
        assert found.last - found.day == timedelta(days=around)


# ------------------------------------------------------------------ the reference climate


@pytest.mark.parametrize("wants", [Wants(), Wants(10.0), Wants(5.0, 60.0)])
def test_where_the_trades_dates_are_meant_for_each_comes_on_its_day(wants) -> None:
    """Sutton Bonington 1991-2020, as a keeper there has it on the card (reckoned from the monthly
    station text of the Met Office): what the reference climate turns into a sum comes back to the
    day. Before mid-March too little heat over 10 °C is there to tell a day by."""
    card = MonthlyMeans(
        (1.91, 1.88, 3.02, 4.58, 7.14, 10.14, 12.13, 12.14, 10.08, 7.53, 4.42, 2.15),
        (7.51, 8.14, 10.55, 13.56, 16.66, 19.63, 22.02, 21.75, 18.73, 14.49, 10.38, 7.76),
    )
    air = PlaceAir({}, card, LAST_YEAR, "the card")
    outlook = Outlook(air, OPEN_AIR, latitude=52.83, southern=False)
    for usual in [(month, day) for month in range(3, 13) for day in (7, 17, 27)][1:]:
        found = outlook.stage(NEW_YEAR, usual, wants, Own(), YEAR_END + timedelta(days=31))
        assert found is not None
        assert found.day == date(2027, *usual)
