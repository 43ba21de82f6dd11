"""Each threshold of the species' interface and habits, on both sides of it; days by hand."""

from __future__ import annotations

from datetime import date, timedelta
from typing import ClassVar

import pytest
from msgspec.structs import replace

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.outlook import Outlook, Span
from backbud.collection.hard_work import extent_of
from backbud.species import (
    COMMON_PRACTICE,
    Fact,
    RepotInterval,
    Species,
    Stage,
    StageMonths,
    Window,
    Year,
    out_of_the_heat,
)
from backbud.species.frost_free import out_of_frost
from backbud_species.habits.done import since
from backbud_species.habits.gates import LIGHT_WORK
from backbud_species.habits.intervals import years_between_repottings
from backbud_species.habits.leaves import Way, leaves_off
from backbud_species.habits.second_flush import candle_cut
from backbud_species.habits.signs import early_signs
from backbud_species.habits.times import bare_before_the_sap_rises, by_warmth, months, week_of
from backbud_species.satsuki_azalea import SatsukiAzalea
from backbud_species.trident_maple import TridentMaple


class Staged(Species):
    """Two stages, 30 days apart as usual."""

    botanical = "Arbor gradata"
    common = ("staged tree",)
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 1), (3, 15), (3, 31)),
        11: ((4, 1), (4, 14), (4, 30)),
    }


# ------------------------------------------------------------------ backbud.species


@pytest.mark.parametrize(
    ("seen", "days"),
    [
        # A third of 30 days after 4 April is 14 April, the usual day: it stays.
        ("2027-04-04", ("2027-04-01", "2027-04-14", "2027-04-30")),
        ("2027-04-05", ("2027-04-02", "2027-04-15", "2027-05-01")),
        ("2027-04-10", ("2027-04-07", "2027-04-20", "2027-05-06")),
    ],
)
def test_a_stage_comes_no_sooner_than_a_third_of_the_usual_time_after_the_last(
    made, seen, days
) -> None:
    stage = made.year(Staged(), seen={1: seen}).stage(11)
    assert (stage.first, stage.day, stage.last) == tuple(map(date.fromisoformat, days))
    assert ("But it follows bud swelling." in stage.because) == (seen != "2027-04-04")


@pytest.mark.parametrize(
    ("day", "becomes"),
    [
        # Today is Tuesday 1 June 2027; 22 June is three weeks off. Later days are set to the
        # nearest Monday: 21 and 28 June.
        ("2027-06-22", "2027-06-22"),
        ("2027-06-23", "2027-06-21"),
        ("2027-06-24", "2027-06-21"),
        ("2027-06-25", "2027-06-28"),
        ("2027-06-28", "2027-06-28"),
    ],
)
def test_days_over_three_weeks_off_are_mondays(made, day, becomes) -> None:
    year = replace(made.year(Staged()), today=date(2027, 6, 1))
    one = date.fromisoformat(day)
    assert year.rounded(Window(one, one, one)) == Window(*[date.fromisoformat(becomes)] * 3)


@pytest.mark.parametrize(
    ("best", "as_of"),
    [
        # A work of 31 July moves by its own sum of heat; from 1 August to 9 September by the end
        # of growth, of 10 September; then by its own sum of cold again.
        ((7, 31), (7, 31)),
        ((8, 1), (9, 10)),
        ((9, 9), (9, 10)),
        ((9, 11), (9, 11)),
    ],
)
def test_work_of_late_summer_moves_with_the_end_of_growth(made, best, as_of) -> None:
    """At the warm place heat comes sooner and cold later than where the trade's dates are from."""
    year = made.year(Staged(), "warm")
    assert year.outlook is not None
    air = PlaceAir({}, year.outlook.air.means, date(2026, 12, 31), "the card")
    there = replace(year, outlook=Outlook(air, OPEN_AIR, latitude=50.0, southern=False))
    moved, _ = there.by_warmth(best)
    own, _ = there.by_warmth(as_of)
    assert moved == own
    assert (moved < timedelta(0)) is (best == (7, 31))


@pytest.mark.parametrize(
    ("today", "known"),
    [("2027-03-07", "2027-03-01"), ("2027-03-08", "2027-03-08"), ("2027-03-09", "2027-03-08")],
)
def test_what_was_known_last_monday(made, today, known) -> None:
    """8 March 2027 is a Monday; where nothing is known of the weather, no day changes anything."""
    year = made.year(Staged())
    assert year.outlook is not None
    air = PlaceAir({}, year.outlook.air.means, date.fromisoformat(today), "the card")
    outlook = Outlook(air, OPEN_AIR, latitude=50.0, southern=False)
    monday = replace(year, outlook=outlook).last_monday
    assert monday.outlook is not None
    assert str(monday.outlook.air.today) == known
    unknown = made.year(Staged(), "unknown")
    assert unknown.last_monday is unknown


@pytest.mark.parametrize(
    ("name", "north", "south"),
    [
        ("spring", ("2027-03-01", "2027-05-31"), ("2027-09-01", "2027-11-30")),
        ("summer", ("2027-06-01", "2027-08-31"), ("2027-12-01", "2028-02-29")),
        ("autumn", ("2027-09-01", "2027-11-30"), ("2028-03-01", "2028-05-30")),
        ("winter", ("2027-01-01", "2027-02-28"), ("2027-07-01", "2027-08-29")),
        ("year", ("2027-01-01", "2027-12-31"), ("2027-07-01", "2028-06-30")),
    ],
)
def test_the_seasons_of_a_growing_year(made, name, north, south) -> None:
    """Meteorological ones; in the south six months later, on the same day of the month."""
    for southern, days in ((False, north), (True, south)):
        season = made.year(Staged(), southern=southern).season(name)
        assert (season.first.isoformat(), season.last.isoformat()) == days


class Hot(Year):
    """A year that is hot from 1 July to 31 August, and warm from 15 June to 14 September."""

    def hot_spells(self, high_c: float) -> tuple[Span, ...]:
        days = {32.0: ((7, 1), (8, 31)), 28.0: ((6, 15), (9, 14))}[high_c]
        first, last = (date(2027, *day) for day in days)
        return (Span(first, last, "It is hot."),)


@pytest.mark.parametrize(
    ("window", "moved"),
    [
        # Best before the hot time or after the warm one: as it was.
        (("06-20", "06-30", "07-20"), ("06-20", "06-30", "07-20")),
        (("08-20", "09-15", "09-20"), ("08-20", "09-15", "09-20")),
        # Open before it: it ends before it, and has a week at the least.
        (("06-30", "07-01", "07-20"), ("06-23", "06-30", "06-30")),
        (("06-24", "07-01", "07-20"), ("06-23", "06-30", "06-30")),
        (("06-22", "07-01", "07-20"), ("06-22", "06-30", "06-30")),
        # Else it begins after it, and lasts three weeks at least: 22 September.
        (("07-01", "07-10", "09-21"), ("09-01", "09-01", "09-22")),
        (("07-01", "07-31", "09-23"), ("09-01", "09-01", "09-23")),
        # Of autumn, from August on: it begins as the days are no longer warm, opens two weeks
        # before that and has four weeks: 13 October.
        (("07-01", "08-01", "09-23"), ("09-01", "09-15", "10-13")),
        (("09-03", "09-14", "10-14"), ("09-03", "09-15", "10-14")),
    ],
)
def test_feeding_is_moved_out_of_the_hot_weeks(made, window, moved) -> None:
    year = made.year(Staged())
    hot = Hot(**{name: getattr(year, name) for name in Year.__struct_fields__})
    asked, wanted = (
        Window(*(date.fromisoformat(f"2027-{day}") for day in days)) for days in (window, moved)
    )
    found, said = out_of_the_heat(hot, asked, "By months.")
    assert found == wanted
    assert (said == "By months.") == (window == moved)


class HotFromMay(Hot):
    """A year that is hot from 1 May to 31 August, and not warm after it."""

    def hot_spells(self, high_c: float) -> tuple[Span, ...]:
        return (Span(date(2027, 5, 1), date(2027, 8, 31), "It is hot."),)


class Blooming(Staged):
    """Its flowers are over on 30 April, as usual."""

    stage_months: ClassVar[StageMonths] = {69: ((4, 20), (4, 30), (5, 10))}


class BloomingOn(Staged):
    """Its flowers are over as the hot weeks begin."""

    stage_months: ClassVar[StageMonths] = {69: ((4, 20), (5, 1), (5, 10))}


@pytest.mark.parametrize(
    ("species", "window", "moved"),
    [
        # Spring's first feed, open within five weeks of the heat (before 5 June) and best before
        # 15 June: three weeks to a day before it.
        (Staged(), ("05-05", "06-14", "07-01"), ("04-10", "04-17", "04-30")),
        (Staged(), ("06-04", "06-10", "07-01"), ("04-10", "04-17", "04-30")),
        (Blooming(), ("05-05", "06-14", "07-01"), ("04-10", "04-17", "04-30")),
        # Else after it, and so where it is still in flower.
        (Staged(), ("05-05", "06-15", "07-01"), ("09-01", "09-01", "09-22")),
        (Staged(), ("06-05", "06-10", "07-01"), ("09-01", "09-01", "09-22")),
        (BloomingOn(), ("05-05", "06-14", "07-01"), ("09-01", "09-01", "09-22")),
    ],
)
def test_the_first_feed_comes_before_a_summer_that_lasts_for_months(
    made, species, window, moved
) -> None:
    year = made.year(species)
    hot = HotFromMay(**{name: getattr(year, name) for name in Year.__struct_fields__})
    asked, wanted = (
        Window(*(date.fromisoformat(f"2027-{day}") for day in days)) for days in (window, moved)
    )
    assert out_of_the_heat(hot, asked, "By months.")[0] == wanted


# ------------------------------------------------------------------ frost_free.py


@pytest.mark.parametrize(
    ("window", "held"),
    [
        # No frost is asked about from 15 May on; with a fortnight at least to do it in.
        (("05-15", "05-20", "05-25"), ("05-15", "05-20", "05-25")),
        (("05-14", "05-20", "05-25"), ("05-15", "05-20", "05-29")),
        (("04-01", "04-10", "04-20"), ("05-15", "05-15", "05-29")),
        (("04-01", "04-10", "05-30"), ("05-15", "05-15", "05-30")),
    ],
)
def test_what_was_taken_in_comes_out_after_the_last_frost_and_within_a_fortnight(
    made, window, held
) -> None:
    """By the months, where nothing is known of the weather."""
    tree = made.tree(made.event("2027-03-20", "repotted", "same pot"))
    asked, wanted = (
        Window(*(date.fromisoformat(f"2027-{day}") for day in days)) for days in (window, held)
    )
    year = made.year(SatsukiAzalea(), "unknown")
    assert out_of_frost(tree, date(2027, 3, 20), asked, "It was repotted.", year)[0] == wanted


# ------------------------------------------------------------------ hard_work.py


@pytest.mark.parametrize(
    ("act", "text", "extent"),
    [
        ("pruned", "off 1/3", "hard"),
        ("pruned", "off 34 %", "hard"),
        ("pruned", "off 33 %", "usual"),
        ("defoliated", "off 99 %", "part"),
        ("defoliated", "off 100 %", "hard"),
        ("defoliated", "", "hard"),
        ("bent", "light", "part"),
        ("bent", "heavy", "hard"),
        ("repotted", "same pot", "hard"),
        ("repotted", "same pot, no root work", "part"),
        ("potted-on", "into tray-7", "part"),
        ("potted-on", "into tray-7, off below 1 cm", "hard"),
        ("collected", "", "hard"),
        ("decandled", "", "hard"),
        ("trimmed", "light", "usual"),
    ],
)
def test_how_far_a_work_went(made, act, text, extent) -> None:
    assert extent_of(made.event("2027-03-06", act, text)) == extent


# ------------------------------------------------------------------ intervals.py


@pytest.mark.parametrize(
    ("day", "years"),
    [
        # Ten years are 3652.5 days: 3652 days from 1 March 2017 is 1 March 2027.
        ("2027-03-01", (1, 1, 2)),
        ("2027-03-02", (2, 3, 4)),
        # Forty years are 14610 days: 1 March 2057.
        ("2057-02-28", (2, 3, 4)),
        ("2057-03-01", (5, 6, 7)),
    ],
)
def test_young_is_under_ten_years_and_old_from_forty(made, day, years) -> None:
    class Aged(Staged):
        repot_years = Fact((2, 3, 4), COMMON_PRACTICE)
        repot_interval = Fact(RepotInterval((1, 1, 2), (5, 6, 7)), COMMON_PRACTICE)

    species = Aged()
    tree = made.tree(made.event("2017-03-01", "sown"))
    on = date.fromisoformat(day)
    assert years_between_repottings(species, tree, on, made.year(species)).value == years


@pytest.mark.parametrize(
    ("depth", "years"),
    [
        # A ball under 5 cm deep fills its pot a year sooner, in a year at least.
        ("5", (1, 3, 4)),
        ("4.9", (1, 2, 3)),
    ],
)
def test_a_ball_under_five_centimetres_is_shallow(made, depth, years) -> None:
    class Usual(Staged):
        repot_years = Fact((1, 3, 4), COMMON_PRACTICE)

    species = Usual()
    tree = made.tree(root_ball=f"20 x 15 x {depth} cm")
    found = years_between_repottings(species, tree, date(2027, 3, 1), made.year(species))
    assert found.value == years


# ------------------------------------------------------------------ leaves.py


@pytest.mark.parametrize(
    ("last", "what"),
    [
        # 330 days before 5 June 2027 is 10 July 2026.
        ("2026-07-09", "all leaves"),
        ("2026-07-10", "large leaves"),
    ],
)
def test_leaves_all_come_off_again_after_more_than_eleven_months(made, only, last, what) -> None:
    opens = date(2027, 6, 5)
    tree = made.tree(made.event(last, "defoliated", "full"), strength="strong")
    ways = (Way("all leaves", "It is stripped."), Way("large leaves", "In part."))
    window = Window(opens, opens, opens)
    assert only(list(leaves_off(tree, made.year(Staged(), "warm"), window, *ways))).what == what


# ------------------------------------------------------------------ gates.py, done.py


@pytest.mark.parametrize(
    ("act", "text", "day", "shut"),
    [
        # The work's day is 10 June 2027; what is written of that very day is not known yet.
        ("checked", "pests many", "2027-06-09", True),
        ("checked", "pests many", "2027-06-10", False),
        # 365 days before it is 10 June 2026; 365 days before the growing year 1 January 2026.
        ("bought", "imported", "2026-06-10", True),
        ("bought", "imported", "2026-06-09", False),
        ("collected", "", "2026-01-01", True),
        ("collected", "", "2025-12-31", False),
    ],
)
def test_what_holds_light_work_back(made, act, text, day, shut) -> None:
    tree = made.tree(made.event(day, act, text), strength="strong")
    said = LIGHT_WORK.shut(tree, date(2027, 6, 10), made.year(Staged()))
    assert bool(said) is shut


@pytest.mark.parametrize(
    ("today", "shut"),
    [
        # What is found in the work's window counts, for eight weeks: up to 5 August.
        ("2027-06-09", False),
        ("2027-06-10", True),
        ("2027-08-05", True),
        ("2027-08-06", False),
    ],
)
def test_a_find_in_the_works_time_counts_for_eight_weeks(made, today, shut) -> None:
    tree = made.tree(made.event("2027-06-10", "checked", "pests many"), strength="strong")
    year = replace(made.year(Staged()), today=date.fromisoformat(today))
    assert bool(LIGHT_WORK.shut(tree, date(2027, 6, 10), year)) is shut


@pytest.mark.parametrize(
    ("first", "before", "found"),
    [
        ("2027-03-06", "2027-03-07", True),
        ("2027-03-07", "2027-03-08", False),
        ("2027-03-05", "2027-03-06", False),
    ],
)
def test_since_takes_its_first_day_and_not_the_last(made, first, before, found) -> None:
    tree = made.tree(made.event("2027-03-06", "pruned", "light"))
    days = (date.fromisoformat(first), date.fromisoformat(before))
    assert since(tree, *days, lambda event: event.act == "pruned") is found


# ------------------------------------------------------------------ signs.py


@pytest.mark.parametrize(
    ("done", "signs"),
    [
        # The last root work was on 1 March 2025, and 1 March 2027 is asked for.
        ([("2026-05-01", "drained", "60 s")], 1),
        ([("2026-05-01", "drained", "59 s")], 0),
        ([("2025-03-01", "drained", "60 s")], 0),
        ([("2025-03-02", "drained", "60 s")], 1),
        ([("2027-02-28", "drained", "60 s")], 1),
        ([("2027-03-01", "drained", "60 s")], 0),
        # A quarter longer from year to year; 25 s and 20 s.
        ([("2025-05-01", "drained", "20 s"), ("2026-05-01", "drained", "25 s")], 1),
        ([("2025-05-01", "drained", "20 s"), ("2026-05-01", "drained", "24 s")], 0),
        ([("2026-05-01", "drained", "25 s")], 0),
        ([("2025-03-02", "opened", "hard surface")], 1),
        ([("2025-03-01", "opened", "hard surface")], 0),
        ([("2027-02-28", "opened", "hard surface")], 1),
        ([("2027-03-01", "opened", "hard surface")], 0),
        # Less in each year, and two years at least.
        ([("2025-05-01", "vigour", "apex 4"), ("2026-05-01", "vigour", "apex 3")], 1),
        ([("2025-05-01", "vigour", "apex 3"), ("2026-05-01", "vigour", "apex 3")], 0),
        ([("2026-05-01", "vigour", "apex 3")], 0),
    ],
)
def test_early_signs_of_tired_soil(made, done, signs) -> None:
    last = made.event("2025-03-01", "repotted", "same pot")
    tree = made.tree(last, *(made.event(*one) for one in done))
    found = early_signs(tree, made.year(Staged()), last, date(2027, 3, 1))
    assert len(found) == signs, found


# ------------------------------------------------------------------ turn.py, repotting.py


def test_three_wedges_are_opened_where_nobody_said_how_many_the_last_time(made, only) -> None:
    """Of eight, of which the one in front was opened before: those three that lie farthest off."""
    last = made.event("2020-03-12", "repotted", "same pot")
    tree = made.tree(last, opened={"S": "2018-03-10"}, strength="strong")
    species = TridentMaple()
    asked = only(made.yearly(species, tree, made.year(species), "trident-repot"))
    assert len(asked.wedges) == 3
    assert "S" not in asked.wedges


# ------------------------------------------------------------------ afterwards.py


@pytest.mark.parametrize(
    ("done", "days"),
    [
        # Eight weeks after 8 February is 5 April, when leaves open at the earliest: it is looked
        # for then. A day sooner it waits for three, five and eight weeks from 20 April, their day.
        ("2027-02-08", ("2027-03-29", "2027-04-05", "2027-04-19")),
        ("2027-02-07", ("2027-05-11", "2027-05-25", "2027-06-15")),
        # Eight weeks after 15 August is 10 October, the last day of growth; a day later it is
        # looked for in the next spring.
        ("2027-08-15", ("2027-10-03", "2027-10-10", "2027-10-24")),
        ("2027-08-16", ("2028-05-11", "2028-05-25", "2028-06-15")),
    ],
)
def test_new_buds_are_looked_for_while_it_grows(made, only, done, days) -> None:
    species = SatsukiAzalea()
    cut = made.event(done, "pruned", "hard on low left")
    look = only(made.after(species, "satsuki-new-buds", made.tree(cut), cut, made.year(species)))
    assert look.window == Window(*map(date.fromisoformat, days))


# ------------------------------------------------------------------ glass.py


@pytest.mark.parametrize(
    ("moved", "comes_out"),
    [
        # From the middle of September to the end of January glass keeps it until spring.
        ("2027-01-31", False),
        ("2027-02-01", True),
        ("2027-09-14", True),
        ("2027-09-15", False),
    ],
)
def test_a_tree_that_went_under_glass_in_autumn_or_winter_stays_there(
    made, moved, comes_out
) -> None:
    species = SatsukiAzalea()
    day = date.fromisoformat(moved)
    cut = made.event((day - timedelta(days=3)).isoformat(), "repotted", "same pot, 2 cm off below")
    into = made.event(moved, "moved", "glass")
    year = made.year(species, cover="unheated glass")
    found = made.after(species, "satsuki-glass-out", made.tree(cut, into), into, year)
    assert bool(found) is comes_out


# ------------------------------------------------------------------ second_flush.py


class Cooling(Year):
    """A year whose days average 15 °C until a day that the tests set as its name."""

    def stays_over(self, celsius: float) -> date | None:
        assert celsius == 15.0
        return date.fromisoformat(self.name)


@pytest.mark.parametrize(
    ("cools", "days"),
    [
        # 115 days before 1 October is 8 June; ten days before and twelve after it.
        ("2027-10-01", ("05-29", "06-08", "06-20")),
        # No later than 25 July: 115 days before 17 November.
        ("2027-11-17", ("07-15", "07-25", "08-06")),
        ("2027-11-18", ("07-15", "07-25", "08-06")),
        ("2027-11-16", ("07-14", "07-24", "08-05")),
        # No sooner than a week after the needles part on 20 May: 115 days before 19 September
        # is 27 May. It opens no sooner than they part, here from 10 May.
        ("2027-09-19", ("05-17", "05-27", "06-08")),
        ("2027-09-10", ("05-17", "05-27", "06-08")),
    ],
)
def test_when_candles_are_cut(made, cools, days) -> None:
    year = made.year(Staged())
    fields = {name: getattr(year, name) for name in Year.__struct_fields__}
    cooling = Cooling(**{**fields, "name": cools})
    parted = Stage(11, date(2027, 5, 10), date(2027, 5, 20), date(2027, 5, 30), False, "")
    window = candle_cut(parted, cooling).window
    assert tuple(f"{day:%m-%d}" for day in (window.opens, window.best, window.closes)) == days


# ------------------------------------------------------------------ times.py


@pytest.mark.parametrize(
    ("day", "monday"),
    [("2027-06-21", "2027-06-21"), ("2027-06-24", "2027-06-21"), ("2027-06-25", "2027-06-28")],
)
def test_the_nearest_monday(day, monday) -> None:
    assert week_of(date.fromisoformat(day)) == date.fromisoformat(monday)


@pytest.mark.parametrize(
    ("opens", "season"),
    [
        ((2, 28), "winter"), ((3, 1), "spring"), ((5, 31), "spring"), ((6, 1), "summer"),
        ((8, 31), "summer"), ((9, 1), "autumn"), ((11, 30), "autumn"), ((12, 1), "autumn"),
        ((1, 1), "winter"),
    ],
)  # fmt: skip
def test_months_hang_on_the_season_in_which_they_open(opens, season) -> None:
    assert by_warmth(opens, opens, opens).season == season
    assert months(opens, opens, opens, why="the short days").season == season


class ColouringOnly(Staged):
    """It colours, and nobody has told when it is bare."""

    stage_months: ClassVar[StageMonths] = {93: ((10, 12), (10, 28), (11, 14))}


class BareEarly(Staged):
    stage_months: ClassVar[StageMonths] = {
        93: ((10, 12), (10, 28), (11, 14)),
        97: ((11, 25), (12, 9), (12, 20)),
    }


class BareLate(Staged):
    stage_months: ClassVar[StageMonths] = {
        93: ((10, 12), (10, 28), (11, 14)),
        97: ((11, 25), (12, 11), (12, 20)),
    }


@pytest.mark.parametrize(
    ("species", "days"),
    [
        # Three weeks after 9 December are the 30th; after 11 December they would be in January.
        (BareEarly(), ("10-12", "12-09", "12-30")),
        (BareLate(), ("10-12", "12-11", "12-31")),
        # Where nobody has told when it is bare: as long as it colours.
        (ColouringOnly(), ("10-12", "10-28", "11-14")),
    ],
)
def test_a_maple_is_cut_bare_before_its_sap_rises(made, species, days) -> None:
    year = made.year(species)
    window = bare_before_the_sap_rises().window(year.stage(93), year)
    assert tuple(f"{day:%m-%d}" for day in (window.opens, window.best, window.closes)) == days
    assert window.closes.year == 2027


def test_the_end_of_february_is_that_of_its_own_year(made) -> None:
    """2028 is a leap year, and the year after it is not."""
    year = replace(made.year(Staged()), first=date(2028, 1, 1), last=date(2028, 12, 31))
    time = months((11, 1), (1, 15), (2, 29), why="the short days")
    window = time.window(year.season("autumn"), year)
    assert window == Window(date(2028, 11, 1), date(2029, 1, 15), date(2029, 2, 28))


def test_months_may_cross_new_year(made) -> None:
    year = made.year(Staged())
    time = months((11, 1), (1, 15), (2, 28), why="the short days")
    window = time.window(year.season("autumn"), year)
    assert time.datum(year.season("autumn"), year) == (
        "By the months of the northern hemisphere, since it goes by the short days."
    )
    assert window == Window(date(2027, 11, 1), date(2028, 1, 15), date(2028, 2, 28))
