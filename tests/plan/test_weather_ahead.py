"""Heat, wind and rain of a forecast, and what other works say of them."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.species import Window

YARD = """
place yard
  latitude   53 N
  longitude  1.1 W

place net
  within  yard
  cover   shade net 40 %

place frame
  within  yard
  cover   cold frame

pot flat
  inside  30 x 20 x 4 cm

tree hoshi
  kind   trident maple
  pot    flat
"""
MEANS = """  longitude  1.1 W
  low   1.4 1.2 2.7 4.1 6.9 9.8 11.9 11.8 9.8 7.1 3.9 1.6 C
  high  6.9 7.3 9.9 12.6 16.0 18.9 21.3 20.9 18.0 13.8 9.8 7.1 C
"""
NOTED = "\n2026-06-01\nhoshi\n  moved  yard\n"
HEAD = "date, low, high, rain, wind, gust\n"


@pytest.fixture
def ahead(written, tmp_path):
    def works(
        rows: str,
        diary: str = NOTED,
        on: str = "2026-07-01",
        rule: str = "-ahead",
        yard: str = YARD,
    ):
        (tmp_path / "weather").mkdir(exist_ok=True)
        session = written(
            yard + diary,
            on,
            settings='home = "yard"\n',
            files={"weather/yard-forecast.csv": HEAD + rows},
        )
        today = date.fromisoformat(on)
        return [one for one in session.plan().all() if rule in one.id and one.is_open(today)]

    return works


HOT = "2026-07-02,14,25,0,3,\n2026-07-03,15,33,0,3,\n2026-07-04,17,36,0,3,\n"


def test_a_shallow_pot_is_shaded_before_the_heat(ahead):
    (work,) = ahead(HOT)
    assert work.title == "shade against the heat from Friday 3 July on, 36 °C"
    assert work.window == Window(date(2026, 7, 1), date(2026, 7, 3), date(2026, 7, 4))
    assert work.because[2].text == "The hottest of the days foretold is 4 July 2026."


def test_what_has_shade_is_left_in_peace_and_glass_heats_sooner(ahead):
    assert ahead(HOT, NOTED.replace("yard", "net")) == []
    # A frame adds 3 °C to the high: 33 °C at 30.
    warm = HOT.replace("33", "29").replace("36", "30")
    assert ahead(warm) == []
    assert len(ahead(warm, NOTED.replace("yard", "frame"))) == 1


def test_a_storm_is_told_by_its_gusts_or_made_of_its_wind(ahead):
    assert ahead("2026-07-03,10,20,0,12,19.9\n") == []
    (work,) = ahead("2026-07-03,10,20,0,5,20\n")
    assert work.title == "protect against the wind of Friday 3 July, gusts of 20 m/s"
    # 12.5 x 1.6 = 20.
    assert len(ahead("2026-07-03,10,20,0,12.5,\n")) == 1
    assert ahead("2026-07-03,10,20,0,5,30\n", NOTED.replace("yard", "frame")) == []


def test_long_rain_is_told_before_the_pot_stands_wet(ahead):
    """Seven wet days measured and one foretold: eight of ten, 7 x 10 and 12 mm."""
    lines = "".join(f"\n2026-06-{day}  rain 10 mm\n" for day in range(24, 31))
    yard = YARD.replace("  longitude  1.1 W\n", MEANS)
    (work,) = ahead("2026-07-02,10,20,12,3,\n", NOTED + lines, rule="long-rain", yard=yard)
    assert work.because[-1].text == (
        "In the ten days up to 2 July 2026 82 mm will have fallen here, as foretold."
    )
    assert ahead("2026-07-02,10,20,9,3,\n", NOTED + lines, rule="long-rain", yard=yard) == []


def test_nobody_sprays_before_rain_or_into_the_wind(ahead):
    planned = NOTED + "\n2026-06-30\nhoshi\n  planned treat, to 2026-07-01/2026-07-10\n"
    (work,) = ahead("2026-07-02,10,20,5,5.5,\n", planned, rule="planned")
    assert work.cautions[:2] == (
        "5 mm of rain are foretold for 2 July: it washes off what is sprayed.",
        "Wind of 6 m/s is foretold for 2 July: do not spray in it.",
    )
    (calm,) = ahead("2026-07-02,10,20,4.9,5.4,\n", planned, rule="planned")
    assert not any("foretold" in one for one in calm.cautions)


@pytest.mark.parametrize(("depth", "shaded"), [("7.9", True), ("8", False)])
def test_a_pot_under_eight_centimetres_is_shallow(ahead, depth, shaded):
    yard = YARD.replace("30 x 20 x 4 cm", f"30 x 20 x {depth} cm")
    assert bool(ahead(HOT, yard=yard)) is shaded


def test_who_has_shade_of_its_own_is_asked_for_none(ahead):
    shaded = "\n2026-06-20\nhoshi\n  shaded\n"
    assert ahead(HOT, NOTED + shaded) == []
    assert len(ahead(HOT, NOTED + shaded + "\n2026-06-25\nhoshi\n  unshaded\n")) == 1
