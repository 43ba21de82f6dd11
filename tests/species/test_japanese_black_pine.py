"""The Japanese black pine's rules. Every figure held here is common practice, no source.

The summer figures of 17 and 19 °C are ours.
"""

from __future__ import annotations

from datetime import date

import pytest
from msgspec.structs import replace

from backbud.species import Window, is_expected
from backbud_species.habits.second_flush import candle_cut
from backbud_species.japanese_black_pine import JapaneseBlackPine
from backbud_species.japanese_red_pine import JapaneseRedPine

PINE, RED = JapaneseBlackPine(), JapaneseRedPine()


def days(*texts: str) -> Window:
    return Window(*(date.fromisoformat(text) for text in texts))


# ------------------------------------------------------------------ the gate of decandling


def test_a_strong_pine_in_a_warm_place_is_decandled_late(made, only):
    year = made.year(PINE, "warm")
    found = only(made.yearly(PINE, made.tree(strength="strong"), year, "black-pine-decandle"))
    assert found.act == "decandled"
    # The warm place's means (October 16.5 °C, November 11.5 °C) stay over 15 °C until 24 October;
    # 115 days before is 1 July.
    assert year.stays_over(15.0) == date(2027, 10, 24)
    assert found.window == days("2027-06-21", "2027-07-01", "2027-07-13")
    assert "until 24 October 2027; the second flush needs about 115 days" in found.datum
    assert found.cautions
    assert made.yearly(PINE, made.tree(strength="strong"), year, "black-pine-candles") == []


def test_where_the_summer_is_short_it_is_decandled_early(made, only):
    year = made.year(PINE, "mild")
    found = only(made.yearly(PINE, made.tree(strength="strong"), year, "black-pine-decandle"))
    # 115 days before it turns cool is May, when the needles have not parted yet: a week after
    # they do, on 25 May.
    assert found.window == days("2027-05-22", "2027-06-01", "2027-06-13")


def test_where_the_summer_is_too_cool_it_is_not_decandled_but_candles_are_broken(made, only):
    year, strong = made.year(PINE, "cool"), made.tree(strength="strong")
    assert made.yearly(PINE, strong, year, "black-pine-decandle") == []
    found = only(made.yearly(PINE, strong, year, "black-pine-candles"))
    assert found.act == "pinched"
    assert "under 17 °C" in found.datum
    # Too little heat is left as well, and it would be judged against that.
    setting = made.year(PINE, "cool", figures={"decandle_from_c": 10.0})
    assert not list(made.yearly(PINE, strong, setting, "black-pine-decandle"))
    setting = made.year(
        PINE, "cool", figures={"decandle_from_c": 10.0, "second_flush_k_days": 500.0}
    )
    assert len(made.yearly(PINE, strong, setting, "black-pine-decandle")) == 1


@pytest.mark.parametrize(
    ("act", "text"),
    [
        ("repotted", "same pot, 2 cm off below"),
        ("root-pruned", "wedges N"),
        ("pruned", "hard"),
        ("bent", "heavy on left 1"),
    ],
)
def test_no_decandling_after_other_hard_work_this_year(made, only, act, text):
    year = made.year(PINE, "warm")
    tree = made.tree(made.event("2027-03-20", act, text), strength="strong")
    assert made.yearly(PINE, tree, year, "black-pine-decandle") == []
    candles = only(made.yearly(PINE, tree, year, "black-pine-candles"))
    assert candles.datum == f"It was {act} on 20 March 2027, in this same year."
    last_year = made.tree(made.event("2026-03-20", act, text), strength="strong")
    only(made.yearly(PINE, last_year, year, "black-pine-decandle"))


def test_root_work_of_the_autumn_does_not_unmake_the_summers_decandling(made, only):
    tree = made.tree(
        made.event("2027-10-01", "repotted", "same pot, 2 cm off below"), strength="strong"
    )
    only(made.yearly(PINE, tree, made.year(PINE, "warm"), "black-pine-decandle"))


def test_a_weak_pine_keeps_its_candles_and_its_needles(made, only):
    year, weak = made.year(PINE, "warm"), made.tree(strength="weak")
    assert made.yearly(PINE, weak, year, "black-pine-decandle") == []
    assert made.yearly(PINE, weak, year, "black-pine-candles") == []
    needles = only(made.yearly(PINE, weak, year, "black-pine-needles"))
    assert needles.act == "cleaned"
    assert "every green one stays" in needles.what


def test_a_fair_pine_has_its_longest_candles_broken(made, only):
    year, fair = made.year(PINE, "warm"), made.tree(strength="fair")
    assert made.yearly(PINE, fair, year, "black-pine-decandle") == []
    found = only(made.yearly(PINE, fair, year, "black-pine-candles"))
    assert found.datum == "It is written down as fair."


def test_where_nobody_wrote_its_strength_that_is_asked_first(made, only):
    found = only(made.yearly(PINE, made.tree(), made.year(PINE, "warm"), "black-pine-decandle"))
    assert found.act == "checked"
    assert found.weight.lapses
    assert found.datum == "Nobody has written down how strong it is."


def test_where_no_second_flush_ripens_nobody_is_asked_for_its_strength(made):
    year = made.year(PINE, "cool")
    assert made.yearly(PINE, made.tree(), year, "black-pine-decandle") == []


def test_a_cut_that_goes_by_the_climate_is_known_to_rest_on_expected_weather(made, only):
    warm = made.year(PINE, "warm")
    assert is_expected(candle_cut(warm.stage(10), warm).datum)
    strong = made.tree(strength="strong")
    for species, rule in ((PINE, "black-pine-decandle"), (RED, "red-pine-decandle")):
        found = only(made.yearly(species, strong, made.year(species, "warm"), rule))
        assert found.datum.startswith("It is written down as strong. The 92 days from 1 June 2027")
        assert is_expected(found.datum)


# ------------------------------------------------------------------ after decandling


def test_after_decandling_shoots_are_thinned_to_two_and_feed_begins_again(made, only):
    year = made.year(PINE, "warm")
    done = made.event("2027-06-24", "decandled")
    tree = made.tree(done, strength="strong")
    shoots = only(made.after(PINE, "black-pine-shoots", tree, done, year))
    # Seven, nine and fourteen weeks.
    assert shoots.window == days("2027-08-12", "2027-08-26", "2027-09-30")
    assert "two" in shoots.what
    feed = only(made.after(PINE, "black-pine-feed-again", tree, done, year))
    assert feed.window == days("2027-08-19", "2027-09-02", "2027-09-16")
    assert made.after(PINE, "black-pine-strong-candles", tree, done, year) == []


def test_weak_candles_get_ten_days_start(made, only):
    year = made.year(PINE, "warm")
    done = made.event("2027-06-24", "decandled", "weak")
    tree = made.tree(done, strength="strong")
    strong = only(made.after(PINE, "black-pine-strong-candles", tree, done, year))
    assert strong.window.best == date(2027, 7, 4)
    assert made.after(PINE, "black-pine-shoots", tree, done, year) == []
    assert made.after(PINE, "black-pine-feed-again", tree, done, year) == []


def test_old_needles_are_plucked_after_growth_ends_most_at_the_top(made, only):
    found = only(made.yearly(PINE, made.tree(), made.year(PINE), "black-pine-needles"))
    assert found.act == "plucked"
    # Growth ends 25 September, 12 October and 1 November: 7, 28 and 70 days after.
    assert found.window == days("2027-10-02", "2027-11-09", "2028-01-10")
    assert "five pairs" in found.because
    assert "ten" in found.because


def test_whorls_are_thinned_in_autumn_only_where_it_was_not_decandled(made, only):
    year = made.year(PINE, "warm")
    only(made.yearly(PINE, made.tree(strength="fair"), year, "black-pine-shoots-autumn"))
    done = made.tree(made.event("2027-06-24", "decandled"), strength="strong")
    assert made.yearly(PINE, done, year, "black-pine-shoots-autumn") == []


# ------------------------------------------------------------------ roots, wire, winter


def test_repotting_waits_four_years_and_names_the_wedges(made, only):
    year = made.year(PINE)
    tree = made.tree(
        made.event("2023-03-20", "repotted", "same pot, wedges N E"),
        opened={"N": "2023-03-20", "E": "2023-03-20"},
    )
    found = only(made.yearly(PINE, tree, year, "black-pine-repot"))
    assert found.window == days("2027-03-05", "2027-03-20", "2027-04-14")
    # Away from N and E, which were opened last.
    assert found.what == "and open wedges S and W"
    three = made.tree(made.event("2024-03-20", "repotted", "same pot"))
    assert made.yearly(PINE, three, year, "black-pine-repot") == []


def test_a_third_of_the_roots_is_the_most_in_a_cool_place(made, only):
    half = made.event("2027-03-20", "repotted", "same pot, off 50 %")
    found = only(
        made.after(PINE, "black-pine-root-share", made.tree(half), half, made.year(PINE, "cool"))
    )
    assert "33 % is the most in a cool place" in found.datum
    assert (
        made.after(PINE, "black-pine-root-share", made.tree(half), half, made.year(PINE, "warm"))
        == []
    )
    bare = made.event("2027-03-20", "repotted", "same pot, bare-rooted")
    only(made.after(PINE, "black-pine-root-share", made.tree(bare), bare, made.year(PINE, "warm")))


def test_it_is_wired_from_late_autumn_where_no_wire_is_on(made, only):
    found = only(made.yearly(PINE, made.tree(), made.year(PINE), "black-pine-wire"))
    # 28, 56 and 100 days after growth ends.
    assert found.window == days("2027-10-23", "2027-12-07", "2028-02-09")
    assert made.yearly(PINE, made.tree(wire=True), made.year(PINE), "black-pine-wire") == []


def test_in_the_south_candles_are_cut_in_december(made, only):
    year = made.year(PINE, "warm", southern=True)
    found = only(made.yearly(PINE, made.tree(strength="strong"), year, "black-pine-decandle"))
    # Six months after the north's 1 July.
    assert found.window == days("2027-12-21", "2027-12-31", "2028-01-12")
    spring = made.tree(
        made.event("2027-09-20", "repotted", "same pot, 2 cm off below"), strength="strong"
    )
    assert made.yearly(PINE, spring, year, "black-pine-decandle") == []


# ------------------------------------------------------------------ once the candles are cut


def test_once_they_are_cut_nobody_asks_for_its_candles_to_be_broken(made, only):
    year = replace(made.year(PINE, "mild"), today=date(2027, 6, 5))
    cut = made.event("2027-06-01", "decandled")
    assert made.yearly(PINE, made.tree(cut, strength="strong"), year, "black-pine-candles") == []
    # Broken before, in May, it stays written down as done.
    broken = made.event("2027-05-10", "pinched", "candles by half")
    both = made.tree(broken, cut, strength="strong")
    assert only(made.yearly(PINE, both, year, "black-pine-candles")).act == "pinched"


def test_a_pine_that_lost_more_roots_than_it_bears_keeps_its_candles(made, only):
    year = replace(made.year(PINE, "warm"), today=date(2027, 5, 10))
    # A black pine bears a third here, half at the most.
    much = made.tree(made.event("2027-03-20", "repotted", "off 70 %"), strength="strong")
    assert made.yearly(PINE, much, year, "black-pine-candles") == []
    little = made.tree(made.event("2027-03-20", "repotted", "off 20 %"), strength="strong")
    only(made.yearly(PINE, little, year, "black-pine-candles"))
