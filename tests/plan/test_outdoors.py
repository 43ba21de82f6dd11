"""What all trees outdoors want: a spring clean, a look for slugs, one under cover, wet snow off.

When each is asked is common practice, no source; the figures of the weather are ours. Months are
remembered ones of Nottingham, Minneapolis and Christchurch.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from backbud.climate.days import WeatherDay
from backbud.climate.slug_weather import slug_nights
from backbud.species import Window
from backbud.views.day import all_works, due, rounds

HOME = 'home = "yard"\n'
COOL = """
place yard
  latitude   53 N
  longitude  1.1 W
  low   1.4 1.2 2.7 4.1 6.9 9.8 11.9 11.8 9.8 7.1 3.9 1.6 C
  high  6.9 7.3 9.9 12.6 16.0 18.9 21.3 20.9 18.0 13.8 9.8 7.1 C
"""
COLD = """
place yard
  latitude   45 N
  longitude  93.3 W
  low   -12.9 -10.6 -3.6 3.0 9.8 15.5 18.4 17.2 12.4 5.1 -2.4 -9.5 C
  high  -4.8 -2.1 5.4 13.9 21.0 26.3 28.6 27.3 22.8 14.6 5.7 -2.2 C
"""
SOUTH = """
place yard
  latitude   43.5 S
  longitude  172.6 E
  low   12.2 12.1 10.4 7.5 4.9 2.2 1.5 2.5 4.5 6.4 8.3 10.8 C
  high  22.6 22.1 20.5 17.6 14.8 12.0 11.3 12.7 15.3 17.2 19.1 21.1 C
"""
PLACES = """
place glass
  within  yard
  cover   unheated glass

place parlour
  within  yard
  cover   indoors

tree hoshi
  kind   trident maple
  place  yard

tree kumo
  kind   Scots pine
  place  yard

tree figo
  kind   small-leaved fig
  place  parlour

2026-01-10
hoshi, kumo, figo
  noted  well
"""


@pytest.fixture
def asked(written):
    def works(rule: str, on: str, *, yard: str = COOL, diary: str = "", **files: str):
        texts = {f"weather/{name}.csv": text for name, text in files.items()}
        session = written(yard + PLACES + diary, on, settings=HOME, files=texts or None, as_of=True)
        return [
            one
            for one in session.plan().all()
            if f"/{rule}/" in one.id and one.outcome == "open" and "2026" in one.id
        ]

    return works


# ------------------------------------------------------------------ the spring clean


def test_all_pots_outdoors_are_cleaned_in_the_same_days(written) -> None:
    """One round, whatever the kind; and not in the parlour. Nottingham's mean of the day passes
    5 °C between mid February (4.25) and mid March (6.3)."""
    session = written(COOL + PLACES, "2026-03-04", settings=HOME, as_of=True)
    works = due(
        all_works(session.plan(), session.names(), session.today), session.today, timedelta(60)
    )
    (clean,) = [some for some in rounds(works) if some[0].title.startswith("clean surface")]
    assert [one.tree for one in clean] == ["hoshi", "kumo"]
    first = clean[0]
    assert date(2026, 2, 20) < first.window.best < date(2026, 3, 12)
    assert (first.window.closes - first.window.opens).days == 28


@pytest.mark.parametrize(
    ("yard", "on", "after", "before"),
    [
        # Means of 0.9 °C in March and 8.5 in April: no pot has thawed before.
        (COLD, "2026-02-01", date(2026, 3, 28), date(2026, 4, 12)),
        # 6.4 °C in July, never under 5: by months, northern 15 February is 15 August there.
        (SOUTH, "2026-07-10", date(2026, 8, 10), date(2026, 8, 20)),
    ],
)
def test_it_comes_with_the_warmth_of_the_place(asked, yard, on, after, before) -> None:
    found = asked("spring-clean", on, yard=yard)
    assert len(found) == 2
    assert all(after < one.window.best < before for one in found)


def test_a_tree_that_was_repotted_or_cleaned_is_not_asked_about(asked) -> None:
    def trees(done: str) -> list[str]:
        diary = f"\n2026-02-28\nhoshi\n  {done}\n"
        return [one.tree for one in asked("spring-clean", "2026-03-04", diary=diary)]

    assert trees("repotted same pot") == ["kumo"]
    assert trees("cleaned moss off trunk") == ["kumo"]
    assert trees("weeded") == ["kumo"]
    # Dead leaves, or its deadwood, are something else.
    assert trees("cleaned dead leaves") == trees("cleaned jin") == ["hoshi", "kumo"]
    assert trees("planted-out") == ["kumo"]


# ------------------------------------------------------------------ slugs


def test_one_look_under_all_pots_is_one_line_whatever_the_kind(written) -> None:
    """Sixteen kinds were sixteen lines; a chance of one kind alone stays with its kind."""
    maple = "\ntree hata\n  kind   Japanese maple\n  place  yard\n"
    cards = PLACES.replace("\ntree kumo", maple + "\ntree kumo")
    session = written(COOL + cards, "2026-04-20", settings=HOME, as_of=True)
    works = due(
        all_works(session.plan(), session.names(), session.today), session.today, timedelta(60)
    )
    told = [[one.tree for one in some] for some in rounds(works) if "for slugs" in some[0].title]
    assert [set(some) for some in told] == [{"hoshi", "hata"}]
    pinched = [some for some in rounds(works) if some[0].act == "pinched"]
    assert all(len({one.tree for one in some}) == 1 for some in pinched) and len(pinched) >= 2


def nights(first: date, days: int, low_c: float, rain_mm: float) -> str:
    rows = (first + timedelta(days=n) for n in range(days))
    return "".join(f"\n{day}  low {low_c} C, high 15 C, rain {rain_mm} mm" for day in rows) + "\n"


APRIL = date(2026, 4, 14)


@pytest.mark.parametrize(
    ("low_c", "rain_mm", "opens"),
    [
        # 2.5 mm a day: 10 mm by the fourth.
        (6.0, 2.5, date(2026, 4, 17)),
        # A dry fortnight, a cold one, and one that is a little too dry: 7 x 1.4 mm.
        (6.0, 0.0, None),
        (-1.0, 5.0, None),
        (3.9, 5.0, None),
        (6.0, 1.4, None),
    ],
)
def test_slugs_are_looked_for_in_damp_mild_nights_alone(asked, low_c, rain_mm, opens) -> None:
    diary = nights(APRIL, 14, low_c, rain_mm)
    found = asked("slugs", "2026-04-27", diary=diary)
    if opens is None:
        assert found == []
        return
    (look,) = found
    assert (look.tree, look.act) == ("hoshi", "checked")
    assert look.window == Window(opens, opens, opens + timedelta(days=14))
    assert look.weight.must and look.weight.at_stake == "style"
    assert look.because[-1].text == ("In the week up to 17 April 2026 10 mm fell, in mild nights.")


def test_where_no_rain_is_known_they_are_looked_for_while_leaves_are_soft(asked) -> None:
    """It may be done then. Nottingham's mean passes 9 °C between mid April (8.35) and mid May."""
    (look,) = asked("slugs", "2026-04-20")
    assert look.tree == "hoshi" and not look.weight.must
    assert date(2026, 4, 18) < look.window.best < date(2026, 5, 1)


def test_where_rain_is_written_down_no_slug_is_foretold_before_it_is_damp(asked) -> None:
    dry = nights(date(2026, 2, 20), 10, 3.0, 0.0)
    assert asked("slugs", "2026-03-01", diary=dry) == []
    assert len(asked("slugs", "2026-03-01")) == 1


def test_no_slug_is_looked_for_under_glass_nor_twice_a_spring(asked) -> None:
    moved = "\n2026-04-01\nhoshi\n  moved  glass\n"
    assert asked("slugs", "2026-04-27", diary=moved) == []
    wet = nights(APRIL, 40, 6.0, 5.0)
    assert len(asked("slugs", "2026-05-23", diary=wet)) == 1
    looked = nights(APRIL, 14, 6.0, 5.0) + "\nhoshi\n  checked slugs\n"
    assert asked("slugs", "2026-04-27", diary=looked) == []


def test_a_night_that_nobody_measured_is_not_mild() -> None:
    days = {APRIL + timedelta(days=n): WeatherDay(APRIL + timedelta(days=n), rain_mm=6.0)
            for n in range(7)}  # fmt: skip
    assert slug_nights(days, APRIL, APRIL + timedelta(days=6)) is None


# ------------------------------------------------------------------ winter


def test_what_was_covered_for_the_winter_is_looked_at_in_the_dark_months(asked) -> None:
    """Seven weeks after 20 November; mice are looked for there. After 10 January that would be the
    spring."""
    autumn = "\n2026-11-20\nhoshi\n  protected  fleece\n"
    (look,) = asked("under-protection", "2026-12-01", diary=autumn)
    assert look.title == "check soil under cover, and water it on a mild day"
    assert look.window.best == date(2027, 1, 8)
    assert look.cautions == ("Look for gnawed bark: mice winter where trees do.",)
    late = "\n2026-01-20\nhoshi\n  protected  fleece\n"
    assert asked("under-protection", "2026-01-25", diary=late) == []
    birds = "\n2026-11-20\nhoshi\n  protected  against birds\n"
    assert asked("under-protection", "2026-12-01", diary=birds) == []


def test_glass_is_aired_and_mice_are_looked_for_where_a_tree_went_in(asked) -> None:
    moved = "\n2026-11-10\nhoshi\n  moved  glass\n"
    (look,) = asked("under-cover", "2026-11-20", diary=moved)
    assert look.weight.must and look.settled_by[0].startswith("checked soil")
    told = " ".join(look.cautions)
    assert "Air the glass" in told and "mice" in told


@pytest.mark.parametrize(
    ("row", "comes"),
    [
        # 8 mm in frost or little over it; the same in rain; a dusting.
        ("2026-01-16,-3,1,8,3,\n", True),
        ("2026-01-16,0,2,12,3,\n", True),
        ("2026-01-16,1,2.1,12,3,\n", False),
        ("2026-01-16,-6,-2,7.9,3,\n", False),
    ],
)
def test_wet_snow_is_taken_off_what_stands_in_the_open(written, tmp_path, row, comes) -> None:
    (tmp_path / "weather").mkdir(exist_ok=True)

    def titles(diary: str = "") -> list[str]:
        session = written(
            COOL + PLACES + diary,
            "2026-01-14",
            settings=HOME,
            files={"weather/yard-forecast.csv": f"date, low, high, rain, wind, gust\n{row}"},
        )
        works = [one for one in session.plan().all() if "/snow-ahead/" in one.id]
        return [f"{one.tree}: {one.title}" for one in works if one.is_open(session.today)]

    said = "clean snow off, from Friday 16 January on"
    assert titles() == ([f"hoshi: {said}", f"kumo: {said}"] if comes else [])
    under = titles("\n2026-01-12\nhoshi\n  moved  glass\n")
    assert under == ([f"kumo: {said}"] if comes else [])
    done = titles("\n2026-01-14\nhoshi, kumo\n  cleaned  snow off\n")
    assert done == []


# ------------------------------------------------------------------ where there is no such spring

# Monthly means remembered. Nairobi's months lie within 3.8 K, Cape Town's within 8.8; March to May
# Phoenix has 30 mm of rain, Cape Town's September to November 84.
NAIROBI = """
place yard
  latitude   1.3 S
  longitude  36.8 E
  low  11.5 11.6 13.1 14.0 13.2 11.0 10.1 10.2 10.5 12.5 13.1 12.6 C
  high 25.5 26.7 26.8 25 23.9 22.9 22.1 22.8 25.3 26.0 24.1 24.3 C
"""
CAPE_TOWN = """
place yard
  latitude   33.9 S
  longitude  18.6 E
  low  15.7 15.6 14.2 11.9 9.4 7.8 7 7.5 8.7 10.6 13.2 14.9 C
  high 26.1 26.5 25.4 23 20.3 18.1 17.5 17.8 19.2 21.3 23.5 24.9 C
  rain 15 17 20 41 69 93 82 77 40 30 14 17 mm
"""
PHOENIX = """
place yard
  latitude   33.4 N
  longitude  112 W
  low  8.2 9.6 12.6 16 20.9 25.4 29.2 29 25.6 18.7 12.1 7.6 C
  high 20 21.9 26 30.3 35.6 41 41.5 40.8 37.8 31.5 24.7 19.2 C
"""
DRY = "  rain 22 22 21 6 3 1 23 24 15 14 14 19 mm\n"


@pytest.mark.parametrize(
    ("yard", "on", "cleaned", "slugs"),
    [
        # Growth never begins; nor do leaves ever all come at once.
        (NAIROBI, "2026-08-20", False, False),
        # A wet mild winter: growth begins in August and September, and slugs with it.
        (CAPE_TOWN, "2026-08-20", True, True),
        # Growth begins in February, in air in which no slug lives.
        (PHOENIX + DRY, "2026-02-10", True, False),
        # Of rain that nobody wrote down nothing is known.
        (PHOENIX, "2026-02-10", True, True),
    ],
)
def test_they_are_asked_for_where_growth_begins_and_the_air_is_not_too_dry(
    asked, yard, on, cleaned, slugs
) -> None:
    assert bool(asked("spring-clean", on, yard=yard)) is cleaned
    assert bool(asked("slugs", on, yard=yard)) is slugs


@pytest.mark.parametrize(("warmest", "asked_for"), [(19.9, False), (20.0, True)])
def test_seasons_begin_at_five_kelvin_between_months(asked, warmest, asked_for) -> None:
    """Köppen's isothermal climates lie under it: 15 °C in eleven months, and 19.9 or 20 in July."""
    months = f"10 10 10 10 10 10 {warmest - 5:.1f} 10 10 10 10 10 C"
    highs = f"20 20 20 20 20 20 {warmest + 5:.1f} 20 20 20 20 20 C"
    yard = f"place yard\n  latitude 5 N\n  longitude 75 W\n  low {months}\n  high {highs}\n"
    assert bool(asked("spring-clean", "2026-02-10", yard=yard)) is asked_for
