"""Habits of the species at their bounds: one rule or reason asked by itself, days by hand."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from tests.species.climates import year_at

from backbud.species import Window
from backbud.species.deed import Deed
from backbud_species.chinese_juniper import ChineseJuniper
from backbud_species.habits.cooled_soil import as_summer_cools
from backbud_species.habits.gates import short_summer, sickness, stress, worked_hard
from backbud_species.habits.judges import hard_before_winter
from backbud_species.habits.second_flush import heat_left
from backbud_species.habits.times import at
from backbud_species.habits.yearly import feeding
from backbud_species.japanese_black_pine import JapaneseBlackPine
from backbud_species.japanese_white_pine import JapaneseWhitePine
from backbud_species.satsuki_azalea import SatsukiAzalea
from backbud_species.trident_maple import TridentMaple

# ------------------------------------------------------------------ glass.py


@pytest.mark.parametrize(("moved", "comes_out"), [("2027-03-29", True), ("2027-03-30", False)])
def test_only_a_work_of_the_last_four_weeks_is_what_it_went_under_glass_for(
    made, moved, comes_out
) -> None:
    """Four weeks after 1 March is 29 March."""
    species = SatsukiAzalea()
    cut = made.event("2027-03-01", "repotted", "same pot, 2 cm off below")
    into = made.event(moved, "moved", "glass")
    year = made.year(species, cover="unheated glass")
    found = made.after(species, "satsuki-glass-out", made.tree(cut, into), into, year)
    assert bool(found) is comes_out


# ------------------------------------------------------------------ deadwood.py


def test_deadwood_is_treated_the_sooner_the_warmer_the_place(made, only) -> None:
    """In dry heat, about 10 July where the trade's dates are from. In Tokyo that heat comes 17 days
    sooner (test_bare_trees.py), so about 23 June; growth ends there only a week sooner."""
    species = ChineseJuniper()
    tree = made.tree(made.event("2020-03-01", "carved", "on apex"))
    year = year_at(species, "Tokyo")
    asked = only(made.yearly(species, tree, year, "juniper-deadwood"))
    assert abs(asked.window.best - date(year.first.year, 6, 23)) <= timedelta(days=3)


# ------------------------------------------------------------------ cooled_soil.py


def test_by_months_the_autumn_time_of_conifers_is_best_on_10_september(made) -> None:
    window = as_summer_cools(made.year(ChineseJuniper(), "unknown"))
    assert window is not None
    days = (window.opens, window.best, window.closes)
    assert days == (date(2027, 8, 25), date(2027, 9, 10), date(2027, 9, 30))


# ------------------------------------------------------------------ gates.py


@pytest.mark.parametrize(
    ("done", "said"),
    [
        # 150 days before 10 March 2027 is 11 October 2026; the growing year begins on 1 January.
        ("2026-10-10", ""),
        ("2026-10-11", "in the same season"),
        ("2026-12-31", "in the same season"),
        ("2027-01-01", "in this same year"),
    ],
)
def test_a_stress_is_remembered_for_five_months_or_since_the_growing_year_began(
    made, done, said
) -> None:
    tree = made.tree(made.event(done, "repotted", "same pot, 2 cm off below"))
    reason = stress(tree, date(2027, 3, 10), made.year(SatsukiAzalea()))
    assert reason.endswith(f", {said}.") if said else reason == ""


@pytest.mark.parametrize(
    ("done", "held"),
    [
        # 150 days before 10 June 2027 is 11 January; what is done on the day is not known yet.
        ("2027-01-10", False),
        ("2027-01-11", True),
        ("2027-06-09", True),
        ("2027-06-10", False),
    ],
)
def test_no_wire_goes_on_for_five_months_after_hard_work(made, done, held) -> None:
    tree = made.tree(made.event(done, "repotted", "same pot, 2 cm off below"))
    assert bool(worked_hard(tree, date(2027, 6, 10), made.year(SatsukiAzalea()))) is held


@pytest.mark.parametrize(
    ("act", "text", "sick"),
    [
        # Only a look for it tells that it is well again.
        ("checked", "leaves healthy", False),
        ("vigour", "strong", True),
        ("bloomed", "none", True),
    ],
)
def test_what_was_treated_is_sick_until_a_look_finds_it_well(made, act, text, sick) -> None:
    tree = made.tree(made.event("2027-05-01", "treated"), made.event("2027-05-10", act, text))
    reason = sickness(tree, date(2027, 5, 20), made.year(SatsukiAzalea()))
    assert reason.startswith("It was treated on 1 May 2027") is sick


@pytest.mark.parametrize("day", [date(2027, 5, 20), date(2027, 5, 25)])
def test_the_heat_for_a_second_flush_is_counted_from_a_week_after_the_needles_part(
    made, day
) -> None:
    """A week after that is when candles can be cut. Its setting is so high that no place has it."""
    species = JapaneseBlackPine()
    seen, wanted = {10: day.isoformat()}, {"second_flush_k_days": 9000.0, "decandle_from_c": 10.0}
    year = made.year(species, "warm", seen=seen, figures=wanted)
    left = heat_left(year.last_monday, day + timedelta(days=7))
    assert f" {left:.0f} K·day above 10 °C are left " in short_summer(made.tree(), day, year)


# ------------------------------------------------------------------ times.py


@pytest.mark.parametrize(
    ("kind", "closes"),
    [
        # Of numbers.txt: growth ends by 1 October, buds swell on 12 March.
        (TridentMaple, date(2028, 3, 12)),
        # By 16 October: 220 days later. It is never bare, so no rest ends.
        (JapaneseWhitePine, date(2028, 5, 23)),
    ],
)
def test_work_after_growth_ends_as_the_buds_of_a_bare_tree_swell(made, kind, closes) -> None:
    year = made.year(kind())
    assert at(91, 0, 30, 220).window(year.stage(91), year).closes == closes


# ------------------------------------------------------------------ judges.py


@pytest.mark.parametrize(
    ("last", "told"),
    [
        # Where nothing is known of the nights frost is taken from 1 November on: shoots ripen in
        # ten weeks, so from 23 August on they do not.
        (date(2027, 8, 23), False),
        (date(2027, 8, 24), True),
        (date(2027, 12, 31), True),
    ],
)
def test_a_hard_cut_in_autumn_is_spoken_against(made, last, told) -> None:
    cut = Deed("pruned", last, last, hard=True, roots=False, what="pruned hard")
    said = hard_before_winter(made.tree(), cut, made.year(SatsukiAzalea(), "unknown"))
    assert bool(said) is told
    if told:
        assert said.endswith("its new shoots do not ripen before the frost, about 1 November 2027.")


# ------------------------------------------------------------------ yearly.py


@pytest.mark.parametrize(
    ("cover", "closes"),
    [
        # By months, frost ends the feed of what stands outside after October.
        ("", date(2027, 10, 31)),
        ("unheated glass", date(2027, 10, 31)),
        ("heated glass 5 C", date(2027, 11, 30)),
        ("indoors", date(2027, 11, 30)),
    ],
)
def test_feed_ends_with_the_first_frost_but_in_warmth(made, only, cover, closes) -> None:
    window = Window(date(2027, 9, 15), date(2027, 10, 1), date(2027, 11, 30))
    year = made.year(SatsukiAzalea(), "unknown", cover=cover)
    assert only(list(feeding(made.tree(), year, window, "It grows.", ""))).window.closes == closes
