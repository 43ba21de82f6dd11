"""The Chinese juniper's rules. Every figure held here is common practice, no source."""

from __future__ import annotations

from datetime import date

from backbud.species import Window
from backbud_species.chinese_juniper import ChineseJuniper

JUNIPER = ChineseJuniper()


def days(*texts: str) -> Window:
    return Window(*(date.fromisoformat(text) for text in texts))


def test_runners_are_cut_with_scissors_and_tips_are_not_pinched(made, only):
    found = only(made.yearly(JUNIPER, made.tree(), made.year(JUNIPER), "juniper-trim"))
    assert found.act == "trimmed"
    # Shoots run 25 April, 10 and 28 May: 28, 42 and 63 days after.
    assert found.window == days("2027-05-23", "2027-06-21", "2027-07-30")
    assert any("Never pinch every tip" in line for line in JUNIPER.never)


def test_a_weak_juniper_keeps_all_its_foliage(made, only):
    year, weak = made.year(JUNIPER), made.tree(strength="weak")
    assert only(made.yearly(JUNIPER, weak, year, "juniper-trim")).act == "checked"
    assert made.yearly(JUNIPER, weak, year, "juniper-thin") == []
    assert made.yearly(JUNIPER, weak, year, "juniper-wire") == []


def test_nothing_is_cut_in_a_year_of_root_work_or_hard_pruning(made):
    year = made.year(JUNIPER)
    for act, text in (("repotted", "same pot, 2 cm off below"), ("pruned", "hard")):
        tree = made.tree(made.event("2027-03-28", act, text))
        assert made.yearly(JUNIPER, tree, year, "juniper-trim") == []
        assert made.yearly(JUNIPER, tree, year, "juniper-thin") == []


def test_hard_pruning_brings_needle_foliage_that_stays(made, only):
    done = made.event("2027-03-28", "pruned", "hard on right 2")
    found = only(
        made.after(JUNIPER, "juniper-needle-foliage", made.tree(done), done, made.year(JUNIPER))
    )
    # Twelve weeks from 28 March.
    assert found.window.best == date(2027, 6, 20)
    assert "stays on until scale foliage" in found.because


def test_a_heavy_bend_is_looked_at_after_six_weeks(made, only):
    year = made.year(JUNIPER)
    heavy = made.event("2027-02-10", "bent", "heavy on trunk")
    found = only(made.after(JUNIPER, "juniper-after-bend", made.tree(heavy), heavy, year))
    assert found.window == days("2027-03-10", "2027-03-24", "2027-04-21")
    assert found.what == "strength of foliage and live vein, trunk"
    light = made.event("2027-02-10", "bent", "light on trunk")
    assert made.after(JUNIPER, "juniper-after-bend", made.tree(light), light, year) == []


def test_deadwood_is_painted_once_a_year_where_there_is_any(made, only):
    year = made.year(JUNIPER)
    assert made.yearly(JUNIPER, made.tree(), year, "juniper-deadwood") == []
    carved = made.tree(made.event("2026-11-10", "carved", "jin on left 3"))
    found = only(made.yearly(JUNIPER, carved, year, "juniper-deadwood"))
    assert found.act == "treated-deadwood"
    assert found.window == days("2027-06-20", "2027-07-10", "2027-08-20")
    assert found.datum == "It was last carved 10 November 2026."
    # 10 June is thirty days before 10 July: the wood has not dried for six weeks.
    fresh = made.tree(made.event("2027-06-10", "carved", "shari"))
    assert made.yearly(JUNIPER, fresh, year, "juniper-deadwood") == []


def test_deadwood_painted_inside_the_window_does_not_unmake_the_proposal(made, only):
    tree = made.tree(
        made.event("2025-11-10", "carved", "jin on left 3"),
        made.event("2027-07-12", "treated-deadwood", "lime sulphur"),
    )
    only(made.yearly(JUNIPER, tree, made.year(JUNIPER), "juniper-deadwood"))


def test_it_is_repotted_in_spring_after_four_years_half_the_ball_at_a_time(made, only):
    tree = made.tree(
        made.event("2023-04-01", "repotted", "same pot, wedges N NE E SE"),
        opened=dict.fromkeys(("N", "NE", "E", "SE"), "2023-04-01"),
    )
    found = only(made.yearly(JUNIPER, tree, made.year(JUNIPER), "juniper-repot"))
    # A third of the volume is the most at the cool place: three wedges of 9.4 %, and not the four
    # of the last time; NW lies farthest from S and SW among those never opened.
    assert found.what == "and open wedges S, SW and NW"
    assert "3 wedges are about 28 % of the ball's volume" in found.datum
    assert found.window == days("2027-03-12", "2027-03-28", "2027-04-20")
    assert "half of the ball" in found.because


def test_root_share(made, only):
    year = made.year(JUNIPER, "cool")
    done = made.event("2027-03-28", "repotted", "same pot, off 40 %")
    only(made.after(JUNIPER, "juniper-root-share", made.tree(done), done, year))
    third = made.event("2027-03-28", "repotted", "same pot, off 30 %")
    assert made.after(JUNIPER, "juniper-root-share", made.tree(third), third, year) == []


def test_rust_and_mites_are_looked_for(made, only):
    year = made.year(JUNIPER)
    rust = only(made.yearly(JUNIPER, made.tree(), year, "juniper-rust"))
    # WSU Hortsense, pear trellis rust: reddish-brown jelly on juniper twigs in wet spring weather.
    assert "wet spring weather" in rust.because
    assert any("plant-health" in caution for caution in rust.cautions)
    mites = only(made.yearly(JUNIPER, made.tree(), year, "juniper-mites"))
    # NYSIPM, Juniperus: dead tips of tip blight are pruned out only when it is dry.
    assert "dry day" in mites.because
    assert any("label and local law decide" in caution for caution in mites.cautions)


def test_in_the_south_runners_are_cut_in_december(made, only):
    year = made.year(JUNIPER, southern=True)
    found = only(made.yearly(JUNIPER, made.tree(), year, "juniper-trim"))
    # Shoots run 25 October, 10 and 28 November.
    assert found.window == days("2027-11-22", "2027-12-22", "2028-01-30")
