"""Frost of a forecast: which trees it is told of, with which night and number, and when it goes.

A trident maple's roots bear -5 °C. One day ahead a low is off by 1.2 K on the average
(climate/forecast.py), so it is told of -3.8 °C and not of -3.7 °C.
"""

from __future__ import annotations

from datetime import date

import pytest

from backbud.plan.followups import FollowUp
from backbud.species import Window

PLACES = """
place yard
  latitude   53 N
  longitude  1.1 W

place bench
  within  yard

place hothouse
  within  yard
  cover   heated glass 5 C

place frame
  within  yard
  cover   cold frame

pot deep
  inside  30 x 20 x 12 cm

pot flat
  inside  30 x 20 x 4 cm
"""
# What the other works of a year hang on; a forecast needs none of it.
MEANS = """  longitude  1.1 W
  low   1.4 1.2 2.7 4.1 6.9 9.8 11.9 11.8 9.8 7.1 3.9 1.6 C
  high  6.9 7.3 9.9 12.6 16.0 18.9 21.3 20.9 18.0 13.8 9.8 7.1 C
"""
NOTED = "\n2026-06-01\nall\n  noted  well\n"


def hoshi(pot: str = "deep", place: str = "bench", kind: str = "trident maple") -> str:
    return f"\ntree hoshi\n  kind   {kind}\n  pot    {pot}\n  place  {place}\n"


def nights(*lows: float, first: str = "2026-11-21") -> str:
    """A forecast of so many nights, the first ending on the morning of a day."""
    start = date.fromisoformat(first).toordinal()
    rows = [f"{date.fromordinal(start + at)}, {low}, 9" for at, low in enumerate(lows)]
    return "date, low, high\n" + "\n".join(rows) + "\n"


@pytest.fixture
def frost(written, tmp_path):
    def ahead(
        forecast: str, trees: str = hoshi(), diary: str = NOTED, on: str = "2026-11-20"
    ) -> list[FollowUp]:
        """The open frost works of a forecast."""
        (tmp_path / "weather").mkdir(exist_ok=True)
        session = written(
            PLACES + trees + diary,
            on,
            settings='home = "yard"\n',
            files={"weather/yard-forecast.csv": forecast} if forecast else {},
        )
        day = date.fromisoformat(on)
        return [
            one for one in session.plan().all() if "/frost-ahead/" in one.id and one.is_open(day)
        ]

    return ahead


def test_it_tells_the_night_and_the_number(frost):
    (work,) = frost(nights(3, -2, -7.4, -9, 1))
    assert work.title == (
        "protect against frost in the night to Monday 23 November, −7 °C, −9 °C in the next"
    )
    # On the evening before, and from three days before that.
    assert work.window == Window(date(2026, 11, 19), date(2026, 11, 22), date(2026, 11, 23))
    assert work.id == "hoshi/frost-ahead/2026-27"
    said = [reason.text for reason in work.because]
    assert said[0] == "The forecast of 21 November 2026."
    assert said[2] == (
        "Foretold are −7 °C in the night to 23 November. Such nights last until 24 November, "
        "the coldest −9 °C."
    )
    assert (work.weight.at_stake, work.weight.must, work.weight.once_past) == (
        "life",
        True,
        "lapses",
    )


def test_a_colder_night_later_is_told_with_its_night(frost):
    (work,) = frost(nights(-6, -7, -11))
    assert work.title == (
        "protect against frost in the night to Saturday 21 November, −6 °C, "
        "the coldest −11 °C in the night to 23 November"
    )
    # To the whole degree it is no colder: not told twice.
    (alike,) = frost(nights(-6.1, -6.3))
    assert alike.title.endswith("Saturday 21 November, −6 °C")


def test_a_shallow_pot_is_told_sooner(frost):
    # A field maple's mature roots bear -10 °C, young ones -5 °C.
    assert frost(nights(-8), hoshi(kind="field maple")) == []
    assert len(frost(nights(-8), hoshi("flat", kind="field maple"))) == 1


def test_it_leans_to_the_cold_side_by_the_usual_error(frost):
    assert frost(nights(-3.7), hoshi("flat")) == []
    (close,) = frost(nights(-3.8), hoshi("flat"))
    assert "It bears that, but a forecast may be off by as much." in close.because[2].text


def test_a_heater_keeps_it_off_and_a_frame_does_not(frost):
    assert frost(nights(-12), hoshi(place="hothouse")) == []
    (framed,) = frost(nights(-12), hoshi(place="frame"))
    assert "a thermometer under it tells" in framed.cautions[0]
    (bare,) = frost(nights(-12))
    assert "thermometer" not in " ".join(bare.cautions)


def test_under_a_frame_all_nights_of_the_forecast_are_told_at_once(frost):
    """In the open the next spell is one work, and the one after it the next; nobody carries trees
    in and out of a frame that raises no night."""
    lows = (-12, 2, 3, 2, -11, -13, 1, 2, 3)
    (bare,) = frost(nights(*lows))
    assert bare.window.closes == date(2026, 11, 20)
    (framed,) = frost(nights(*lows), hoshi(place="frame"))
    assert framed.window.closes == date(2026, 11, 25)
    assert framed.title.endswith("−12 °C, the coldest −13 °C in the night to 26 November")
    assert any(
        "After milder ones they come again: 25 November (−11 °C), 26 November (−13 °C)." in r.text
        for r in framed.because
    )


def test_what_is_protected_already_is_left_in_peace(frost):
    diary = NOTED + "\n2026-11-02\nhoshi\n  protected  fleece\n"
    assert frost(nights(-12), diary=diary) == []
    off = diary + "\n2026-11-18\nhoshi\n  unprotected\n"
    assert len(frost(nights(-12), diary=off)) == 1


def test_a_move_days_before_it_was_known_is_no_protection(frost):
    moved = NOTED + "\n2026-11-15\nhoshi\n  moved  frame\n"
    assert len(frost(nights(3, 3, 3, 3, -12), diary=moved)) == 1


def test_protecting_it_in_time_settles_it(frost):
    diary = NOTED + "\n2026-11-20\nhoshi\n  protected  fleece\n"
    assert frost(nights(-12), diary=diary) == []


def test_a_tender_tree_goes_in_for_the_night(frost):
    (work,) = frost(nights(9, 1), hoshi(kind="small-leaved fig"))
    assert work.act == "moved"
    assert work.title.startswith("move in for the night to ")


def test_a_shifted_night_moves_it_and_a_mild_forecast_lets_it_go(frost):
    (before,) = frost(nights(3, -12))
    (after,) = frost(nights(3, 2, 2, -11))
    assert before.id == after.id
    assert (before.window.best, after.window.best) == (date(2026, 11, 21), date(2026, 11, 23))
    assert frost(nights(3, 2, 2, 1)) == []
    assert frost("") == []


def test_the_next_spell_after_a_shelter_is_a_work_of_its_own(frost):
    """The task of the first was ticked off, which wrote that the tree was protected."""
    diary = NOTED + "\n2026-11-20\nhoshi\n  protected  fleece\n\n2026-11-25\nhoshi\n  unprotected\n"
    (first,) = frost(nights(-12))
    (next_one,) = frost(nights(-12, first="2026-12-02"), diary=diary, on="2026-12-01")
    assert (first.id, next_one.id) == (
        "hoshi/frost-ahead/2026-27",
        "hoshi/frost-ahead/2026-27/after-2026-11-25",
    )
    # It moves with its night as the first did.
    (later,) = frost(nights(2, -12, first="2026-12-02"), diary=diary, on="2026-12-01")
    assert later.id == next_one.id


def test_who_left_one_spell_out_is_told_of_the_next(frost):
    """Said of the night of 21 November, it says nothing of that of 2 December."""
    diary = NOTED + "\n2026-11-20\nhoshi\n  skipped  protect\n"
    assert frost(nights(-12), diary=diary) == []
    assert len(frost(nights(-12, first="2026-12-05"), diary=diary, on="2026-12-04")) == 1


def test_one_shelter_is_one_line(written, tmp_path):
    """While a frost is foretold, what the whole winter asks for stands behind it."""
    (tmp_path / "weather").mkdir()
    places = PLACES.replace("  longitude  1.1 W\n", MEANS)

    def open_on_the_20th(**files: dict[str, str]) -> list[str]:
        session = written(
            places + hoshi() + NOTED, "2026-12-20", settings='home = "yard"\n', **files
        )
        day = date(2026, 12, 20)
        some = [one for one in session.plan().all() if one.act == "protected"]
        return [one.id for one in some if one.state(day) == "now"]

    assert open_on_the_20th() == ["hoshi/winter-frost/2026"]
    ahead = {"weather/yard-forecast.csv": nights(-9, first="2026-12-21")}
    assert open_on_the_20th(files=ahead) == ["hoshi/frost-ahead/2026-27"]
    mild = {"weather/yard-forecast.csv": nights(3, first="2026-12-21")}
    assert open_on_the_20th(files=mild) == ["hoshi/winter-frost/2026"]


def test_a_forecast_of_four_days_ago_is_not_used(frost):
    forecast = nights(-12, -12, -12, -12, -12, first="2026-11-16")
    assert len(frost(forecast, on="2026-11-19")) == 1
    assert frost(forecast, on="2026-11-20") == []


def test_one_winter_one_name_over_new_year(frost):
    (before,) = frost(nights(-12, first="2026-12-31"), on="2026-12-30")
    (after,) = frost(nights(-12, first="2027-01-02"), on="2027-01-01")
    assert before.id == after.id == "hoshi/frost-ahead/2026-27"


WINTERED = """
2026-06-01
hoshi
  noted  well

2026-11-20
hoshi
  moved  frame
"""


def test_moving_out_waits_until_the_frost_is_over(written, tmp_path):
    """April: nights under frost are still foretold, so it opens on the morning after the last."""
    (tmp_path / "weather").mkdir()
    places = PLACES.replace("  longitude  1.1 W\n", MEANS)

    def out(**files: dict[str, str]) -> FollowUp:
        session = written(
            places + hoshi() + WINTERED, "2027-04-10", settings='home = "yard"\n', **files
        )
        (found,) = [one for one in session.plan().all() if "/winter-quarters-out/" in one.id]
        return found

    assert out().window.opens < date(2027, 4, 10)
    held = out(files={"weather/yard-forecast.csv": nights(6, -4, -3, 5, first="2027-04-11")})
    assert held.window.opens == date(2027, 4, 13)
    assert held.because[-1].text == (
        "−4 °C are foretold for the night to 12 April, so it waits until that is over."
    )


@pytest.mark.parametrize(
    ("moved", "on", "first", "winter"),
    [
        # Winter is counted from 1 September on; by February, from that of the year before.
        ("2026-08-31", "2026-11-20", "2026-11-21", False),
        ("2026-09-01", "2026-11-20", "2026-11-21", True),
        ("2026-08-31", "2027-02-10", "2027-02-11", False),
        ("2026-09-01", "2027-02-10", "2027-02-11", True),
    ],
)
def test_a_spell_is_another_after_each_move_of_the_winter(frost, moved, on, first, winter):
    diary = f"{NOTED}\n{moved}\nhoshi\n  moved  bench\n"
    (work,) = frost(nights(-7, first=first), hoshi(place="yard"), diary, on)
    assert ("/after-" in work.id) is winter
    assert work.id.endswith(f"/after-{moved}") is winter
