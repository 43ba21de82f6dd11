"""The satsuki azalea's rules against what the trade expects.

Every figure held here is common practice, no source, unless a line says otherwise; the 17 °C is
ours.
"""

from __future__ import annotations

from datetime import date

import pytest
from msgspec.structs import replace

from backbud.species import COMMON_PRACTICE, Window
from backbud.species.year import NO_WEATHER
from backbud_species.satsuki_azalea import SatsukiAzalea

SATSUKI = SatsukiAzalea()


def days(*texts: str) -> Window:
    return Window(*(date.fromisoformat(text) for text in texts))


def by_part(proposals):
    return {proposal.part: proposal for proposal in proposals}


# ------------------------------------------------------------------ where it grows strongest


def test_it_grows_strongest_low_down_so_low_shoots_are_shortened_first(made, only):
    assert SATSUKI.strongest == "basitonic"
    assert SATSUKI.evergreen
    year = made.year(SATSUKI)
    tree = made.tree(strength="strong")
    low = only(made.yearly(SATSUKI, tree, year, "satsuki-low-first"))
    rest = only(made.yearly(SATSUKI, tree, year, "satsuki-trim"))
    assert low.act == rest.act == "trimmed"
    # End of flowering is 8, 18 June and 2 July here: 0, 4, 8 days and 2, 8, 10 days after; the
    # last cut is about 10 July in Britain, since then the flower buds are set.
    assert low.window == days("2027-06-08", "2027-06-22", "2027-07-10")
    assert rest.window == days("2027-06-10", "2027-06-26", "2027-07-12")
    assert low.window.best < rest.window.best
    assert "the top is left to catch up" in low.because


def test_a_top_that_grows_as_well_as_the_low_branches_is_not_waited_for(made, only):
    year = made.year(SATSUKI)
    level = made.tree(zones={"low": 3, "top": 3})
    assert made.yearly(SATSUKI, level, year, "satsuki-low-first") == []
    lagging = made.tree(zones={"low": 4, "top": 2})
    low = only(made.yearly(SATSUKI, lagging, year, "satsuki-low-first"))
    assert low.datum == "Low branches grow 4 of 5, the top 2 of 5."


def test_the_light_trim_goes_to_three_or_four_leaves_from_the_top_down(made, only):
    trim = only(made.yearly(SATSUKI, made.tree(), made.year(SATSUKI), "satsuki-trim"))
    assert "From the top down" in trim.because
    assert "three or four leaves" in trim.because
    assert "the strongest comes out" in trim.because
    assert "bare tips go back to the first leaf" in trim.because


def test_trunk_buds_are_rubbed_off_unless_a_branch_is_wanted(made, only):
    rub = only(made.yearly(SATSUKI, made.tree(), made.year(SATSUKI), "satsuki-trunk-buds"))
    assert rub.act == "rubbed"
    assert "unless a branch is wanted there" in rub.because
    assert rub.weight.lapses


def test_a_weak_tree_is_not_trimmed_but_looked_at(made, only):
    year, weak = made.year(SATSUKI), made.tree(strength="weak")
    assert made.yearly(SATSUKI, weak, year, "satsuki-low-first") == []
    assert made.yearly(SATSUKI, weak, year, "satsuki-trunk-buds") == []
    look = only(made.yearly(SATSUKI, weak, year, "satsuki-trim"))
    assert look.act == "checked"
    assert look.weight.lapses
    assert look.datum == "The tree is written down as weak."


def test_a_tree_pruned_hard_this_spring_is_not_trimmed_again(made):
    tree = made.tree(made.event("2027-04-02", "pruned", "hard"))
    for rule in ("satsuki-low-first", "satsuki-trim"):
        assert made.yearly(SATSUKI, tree, made.year(SATSUKI), rule) == []


# ------------------------------------------------------------------ flowers


def test_spent_flowers_come_off_with_the_ovary_soon_after_flowering(made, only):
    found = only(made.yearly(SATSUKI, made.tree(), made.year(SATSUKI), "satsuki-deadhead"))
    assert found.act == "deadheaded"
    assert "with the ovary" in found.what
    assert found.window == days("2027-06-08", "2027-06-21", "2027-07-12")


def test_flowering_that_was_seen_to_end_sets_the_date(made, only):
    year = made.year(SATSUKI, seen={69: "2027-05-30"})
    found = only(made.yearly(SATSUKI, made.tree(), year, "satsuki-deadhead"))
    assert found.window == days("2027-05-30", "2027-06-02", "2027-06-09")
    assert found.datum == "It was seen on 30 May 2027."


def test_nothing_to_deadhead_when_every_flower_bud_was_taken_off(made, only):
    year = made.year(SATSUKI)
    bare = made.tree(made.event("2027-05-04", "disbudded"))
    assert made.yearly(SATSUKI, bare, year, "satsuki-deadhead") == []
    some = made.tree(made.event("2027-05-04", "disbudded", "half"))
    only(made.yearly(SATSUKI, some, year, "satsuki-deadhead"))
    last_year = made.tree(made.event("2026-05-04", "disbudded"))
    only(made.yearly(SATSUKI, last_year, year, "satsuki-deadhead"))


def test_flower_buds_come_off_before_they_open_for_strength_and_hard_pruning(made, only):
    year = made.year(SATSUKI)
    advice = only(made.yearly(SATSUKI, made.tree(strength="strong"), year, "satsuki-disbud"))
    # First flowers are expected 15, 25 May and 8 June: 35, 14 and 1 days before.
    assert advice.window == days("2027-04-10", "2027-05-11", "2027-06-07")
    assert "more strength" in advice.because
    assert "hard pruning" in advice.because
    assert advice.weight.lapses
    weak = only(made.yearly(SATSUKI, made.tree(strength="weak"), year, "satsuki-disbud"))
    assert weak.what == "all of it, before the flowers open"
    assert "leave a weak tree its strength" in weak.because


# ------------------------------------------------------------------ hard pruning and glass


def test_hard_pruning_asks_for_the_buds_after_about_eight_weeks(made, only):
    done = made.event("2027-06-20", "pruned", "hard on low left")
    found = only(made.after(SATSUKI, "satsuki-new-buds", made.tree(done), done, made.year(SATSUKI)))
    # Eight weeks from 20 June is 15 August.
    assert found.window.best == date(2027, 8, 15)
    assert found.window.opens == date(2027, 8, 8)
    assert found.act == "checked"
    assert found.what == "buds on the old wood, low left"
    assert found.settled_by == ("checked buds",)


def test_each_part_that_was_cut_hard_is_asked_for_by_itself(made):
    done = made.event("2027-06-20", "pruned", "hard on low left, hard on low right, light on top")
    found = made.after(SATSUKI, "satsuki-new-buds", made.tree(done), done, made.year(SATSUKI))
    assert [p.part for p in found] == ["low left", "low right"]


@pytest.mark.parametrize("text", ["light", "", "off 20 %", "weak"])
def test_light_pruning_asks_for_nothing(made, text):
    done = made.event("2027-06-20", "pruned", text)
    year = made.year(SATSUKI)
    assert made.after(SATSUKI, "satsuki-new-buds", made.tree(done), done, year) == []
    assert made.after(SATSUKI, "satsuki-glass", made.tree(done), done, year) == []


@pytest.mark.parametrize("text", ["hard", "to old wood", "off 40 %", "off 1/3"])
def test_a_third_and_more_or_old_wood_is_hard(made, only, text):
    done = made.event("2027-06-20", "pruned", text)
    only(made.after(SATSUKI, "satsuki-new-buds", made.tree(done), done, made.year(SATSUKI)))


@pytest.mark.parametrize(
    ("act", "text", "work"),
    [
        ("pruned", "hard on low left", "hard pruning"),
        ("repotted", "same pot, 5 cm off below", "root work"),
        ("root-pruned", "wedges N E", "root work"),
    ],
)
def test_in_a_cool_place_glass_for_two_to_three_weeks_and_a_date_to_come_out(made, act, text, work):
    done = made.event("2027-06-20", act, text)
    found = by_part(
        made.after(SATSUKI, "satsuki-glass", made.tree(done), done, made.year(SATSUKI, "cool"))
    )
    into, out = found["in"], found["out"]
    assert into.act == out.act == "moved"
    assert into.what == "under unheated glass for two to three weeks"
    assert work in into.because
    assert into.window == days("2027-06-20", "2027-06-21", "2027-06-27")
    # Two, three and four weeks from the work: well before the eight that make long soft growth.
    assert out.window == days("2027-07-04", "2027-07-11", "2027-07-18")
    assert "long soft growth" in out.because
    # 20 June to 10 July between June's 13.5 and July's 15.5: about 14.5 °C.
    assert "average 14" in into.datum
    assert "under 17 °C" in into.datum
    assert "setting of ours" in into.datum


@pytest.mark.parametrize(
    ("act", "text"),
    [
        ("pruned", "hard"),
        ("repotted", "same pot, 5 cm off below"),
    ],
)
def test_in_a_warm_place_neither(made, act, text):
    done = made.event("2027-06-20", act, text)
    year = made.year(SATSUKI, "warm")
    assert made.after(SATSUKI, "satsuki-glass", made.tree(done), done, year) == []


def test_the_17_degrees_are_a_setting(made):
    done = made.event("2027-06-20", "pruned", "hard")
    tree = made.tree(done)
    mild = made.year(SATSUKI, "cool", figures={"shelter_below_c": 12.0})
    assert made.after(SATSUKI, "satsuki-glass", tree, done, mild) == []
    strict = made.year(SATSUKI, "warm", figures={"shelter_below_c": 30.0})
    assert len(made.after(SATSUKI, "satsuki-glass", tree, done, strict)) == 2


def test_without_weather_it_is_only_lapsing_advice_and_says_so(made):
    done = made.event("2027-06-20", "pruned", "hard")
    found = made.after(
        SATSUKI, "satsuki-glass", made.tree(done), done, made.year(SATSUKI, "unknown")
    )
    assert [p.part for p in found] == ["in", "out"]
    assert all(p.weight.lapses for p in found)
    assert all(NO_WEATHER in p.datum for p in found)


@pytest.mark.parametrize("place", ["cool", "warm", "unknown"])
def test_a_tree_already_under_unheated_glass_needs_only_the_date_to_come_out(made, only, place):
    done = made.event("2027-06-20", "pruned", "hard")
    year = made.year(SATSUKI, place, cover="unheated glass")
    out = only(made.after(SATSUKI, "satsuki-glass", made.tree(done), done, year))
    assert out.part == "out"
    assert out.window == days("2027-07-04", "2027-07-08", "2027-07-11")
    assert not out.weight.lapses


@pytest.mark.parametrize("moved_on", ["2027-06-20", "2027-06-22"])
def test_a_tree_that_did_go_under_glass_must_come_out_after_two_to_three_weeks(
    made, only, moved_on
):
    pruned = made.event("2027-06-20", "pruned", "hard")
    moved = made.event(moved_on, "moved", "glass")
    tree = made.tree(pruned, moved)
    glass = made.year(SATSUKI, cover="unheated glass")
    out = only(made.after(SATSUKI, "satsuki-glass-out", tree, moved, glass))
    assert (out.window.opens - moved.day).days == 14
    assert (out.window.closes - moved.day).days == 21
    assert not out.weight.lapses
    outdoors = made.year(SATSUKI, cover="open")
    assert made.after(SATSUKI, "satsuki-glass-out", tree, moved, outdoors) == []


def test_a_tree_that_goes_under_glass_for_the_winter_stays(made):
    pruned = made.event("2027-06-20", "pruned", "hard")
    moved = made.event("2027-11-10", "moved", "glass")
    glass = made.year(SATSUKI, cover="unheated glass")
    tree = made.tree(pruned, moved)
    assert made.after(SATSUKI, "satsuki-glass-out", tree, moved, glass) == []


def test_hard_pruning_and_root_work_of_one_day_ask_for_glass_once(made):
    pruned = made.event("2027-06-20", "pruned", "hard")
    repotted = made.event("2027-06-20", "repotted", "same pot, 5 cm off below")
    year = made.year(SATSUKI)
    for first, second in ((pruned, repotted), (repotted, pruned)):
        tree = made.tree(first, second)
        assert len(made.after(SATSUKI, "satsuki-glass", tree, first, year)) == 2
        assert made.after(SATSUKI, "satsuki-glass", tree, second, year) == []


def test_in_the_south_december_is_warm_and_june_is_cold(made):
    summer = made.event("2027-12-20", "pruned", "hard")
    warm = made.year(SATSUKI, "warm", southern=True)
    assert made.after(SATSUKI, "satsuki-glass", made.tree(summer), summer, warm) == []
    cool = made.year(SATSUKI, "cool", southern=True)
    found = by_part(made.after(SATSUKI, "satsuki-glass", made.tree(summer), summer, cool))
    assert found["out"].window == days("2028-01-03", "2028-01-10", "2028-01-17")


# ------------------------------------------------------------------ root work


def test_root_work_is_due_after_flowering_or_in_spring(made, only):
    tree = made.tree(made.event("2024-06-20", "repotted", "same pot, wedges N E S"))
    found = only(made.yearly(SATSUKI, tree, made.year(SATSUKI), "satsuki-root-work"))
    assert found.act == "repotted"
    # Not through the flowers (to 8 June at the soonest); best ten days after them (18 June).
    assert found.window == days("2027-06-08", "2027-06-28", "2027-07-30")
    bare = made.tree(*(e.event for e in tree.history), made.event("2027-02-20", "disbudded", "all"))
    spring = only(made.yearly(SATSUKI, bare, made.year(SATSUKI), "satsuki-root-work"))
    # Where its buds came off, from the swelling of the leaf buds until they open.
    assert spring.window == days("2027-03-10", "2027-03-25", "2027-04-10")
    assert found.datum == (
        "Last repotted 20 June 2024, 3 years before; the usual time is 3 (common practice, no "
        "source)."
    )
    cautions = " ".join(found.cautions)
    assert "5 cm off the underside of a deep ball" in cautions
    assert "up to bare roots" in cautions
    assert "Every old tie and scrap of wire found in the root ball comes out" in cautions
    assert "two ties of 2.5 mm aluminium hold a medium tree" in cautions
    assert "mesh goes over each hole" in cautions


def test_root_work_is_not_due_after_two_years_unless_water_stands(made, only):
    year = made.year(SATSUKI)
    potted = made.event("2025-06-20", "repotted", "same pot, 5 cm off below")
    assert made.yearly(SATSUKI, made.tree(potted), year, "satsuki-root-work") == []
    slow = made.tree(potted, made.event("2026-09-01", "drained", "90 s"))
    found = only(made.yearly(SATSUKI, slow, year, "satsuki-root-work"))
    assert "slow to pass" in found.datum
    quick = made.tree(potted, made.event("2026-09-01", "drained", "20 s"))
    assert made.yearly(SATSUKI, quick, year, "satsuki-root-work") == []


@pytest.mark.parametrize("day", ["2027-06-10", "2027-06-25"])
def test_work_done_inside_the_window_does_not_unmake_the_proposal(made, only, day):
    tree = made.tree(
        made.event("2024-06-20", "repotted", "same pot"), made.event(day, "repotted", "same pot")
    )
    only(made.yearly(SATSUKI, tree, made.year(SATSUKI), "satsuki-root-work"))


def test_the_next_repotting_names_the_wedges_opened_least_recently(made, only):
    tree = made.tree(
        made.event("2021-06-20", "repotted", "same pot, wedges W NW SW"),
        made.event("2024-06-20", "repotted", "same pot, wedges N E S"),
        opened={
            "W": "2021-06-20",
            "NW": "2021-06-20",
            "SW": "2021-06-20",
            "N": "2024-06-20",
            "E": "2024-06-20",
            "S": "2024-06-20",
        },
    )
    found = only(made.yearly(SATSUKI, tree, made.year(SATSUKI), "satsuki-root-work"))
    # NE and SE were never opened; of the three of 2021 W lies farthest from both.
    assert found.what == "and open wedges NE, SE and W"
    assert "NE and SE were never opened; W not since 20 June 2021." in found.datum
    assert "up to the trunk" in found.because


@pytest.mark.parametrize(
    ("written", "opened", "next_ones"),
    [
        ("wedges front right", {"S": "2024-06-20", "E": "2024-06-20"}, "N and W"),
        (
            "wedges N E, 2 cm off below",
            {"N": "2024-06-20", "E": "2024-06-20", "underside": "2024-06-20"},
            "S and W",
        ),
        ("wedges 12 3", {"12": "2024-06-20", "3": "2024-06-20"}, "6 and 9"),
        ("wedges 1 2", {"1": "2024-06-20", "2": "2024-06-20", "3": "2021-06-20"}, "5 and 10"),
    ],
)
def test_wedges_are_named_by_side_by_compass_or_by_clock(made, only, written, opened, next_ones):
    tree = made.tree(made.event("2024-06-20", "repotted", f"same pot, {written}"), opened=opened)
    found = only(made.yearly(SATSUKI, tree, made.year(SATSUKI), "satsuki-root-work"))
    assert found.what == f"and open wedges {next_ones}"


def test_when_every_wedge_was_opened_the_oldest_come_again(made, only):
    tree = made.tree(
        made.event("2024-06-20", "repotted", "same pot, wedges S SW"),
        opened={
            "N": "2018-06-20",
            "NE": "2018-06-20",
            "E": "2020-06-20",
            "SE": "2020-06-20",
            "W": "2022-06-20",
            "NW": "2022-06-20",
            "S": "2024-06-20",
            "SW": "2024-06-20",
        },
    )
    found = only(made.yearly(SATSUKI, tree, made.year(SATSUKI), "satsuki-root-work"))
    assert found.what == "and open wedges N and NE"


def test_a_weak_tree_is_not_repotted_by_the_calendar(made, only):
    tree = made.tree(made.event("2022-06-20", "repotted", "same pot"), strength="weak")
    found = only(made.yearly(SATSUKI, tree, made.year(SATSUKI), "satsuki-root-work"))
    assert found.act == "checked"
    assert found.weight.lapses
    assert "weak tree is not repotted by the calendar" in found.because


def test_a_tree_without_a_known_repotting_is_looked_at(made, only):
    found = only(made.yearly(SATSUKI, made.tree(), made.year(SATSUKI), "satsuki-root-work"))
    assert (found.act, found.what, found.weight.lapses) == ("checked", "roots", True)
    planted = made.tree(planted_out=True)
    assert made.yearly(SATSUKI, planted, made.year(SATSUKI), "satsuki-root-work") == []


def test_a_deeper_pot_is_better_for_a_beginner(made, only):
    potted = made.event("2024-06-20", "repotted", "same pot")
    mine = only(made.yearly(SATSUKI, made.tree(potted), made.year(SATSUKI), "satsuki-root-work"))
    assert not any("deeper pot" in caution for caution in mine.cautions)
    customers = made.tree(potted, owner="marrow")
    theirs = only(made.yearly(SATSUKI, customers, made.year(SATSUKI), "satsuki-root-work"))
    assert any("deeper pot forgives missed watering" in c for c in theirs.cautions)
    assert any("deeper pot forgives missed watering" in line for line in SATSUKI.advice)


def test_a_moderate_reduction_is_no_caution_even_in_a_cool_place(made):
    # 5 of 15 cm off below leaves 2/3; two of eight wedges, half-way in, leave 0.8125: 46 % went.
    done = made.event("2027-06-25", "repotted", "same pot, 5 cm off below, wedges N E")
    tree = made.tree(done, root_ball="30 x 20 x 15 cm")
    assert made.after(SATSUKI, "satsuki-root-share", tree, done, made.year(SATSUKI)) == []


def test_more_than_the_share_of_a_cool_place_is_a_caution_at_once(made, only):
    # 2/3 times (1 - 0.75 x 5/8) leaves 35 %: 65 % went.
    done = made.event("2027-06-25", "repotted", "same pot, 5 cm off below, wedges N NE E S W")
    tree = made.tree(done, root_ball="30 x 20 x 15 cm")
    found = only(made.after(SATSUKI, "satsuki-root-share", tree, done, made.year(SATSUKI)))
    assert found.act == "checked"
    assert found.window.opens == date(2027, 6, 25)
    assert found.weight.lapses
    assert found.cautions
    assert "About 65 % of the root ball went" in found.datum
    assert "50 % is the most in a cool place (common practice, no source)" in found.datum
    warm = made.year(SATSUKI, "warm")
    assert made.after(SATSUKI, "satsuki-root-share", tree, done, warm) == []


@pytest.mark.parametrize(
    ("text", "cautioned"),
    [
        ("same pot, off 60 %", True),
        ("same pot, off 1/2", False),
        ("same pot, bare-rooted", True),
        ("same pot, no root work", False),
        ("same pot", False),
    ],
)
def test_a_share_as_written_is_taken_as_it_stands(made, text, cautioned):
    done = made.event("2027-06-25", "repotted", text)
    tree = made.tree(done)
    for place, expected in (("cool", cautioned), ("unknown", cautioned), ("warm", False)):
        found = made.after(SATSUKI, "satsuki-root-share", tree, done, made.year(SATSUKI, place))
        assert bool(found) is expected, place


# ------------------------------------------------------------------ after potting


def test_the_mix_is_acid_and_granular(made):
    assert SATSUKI.usual_mix.value == "kanuma, acid and granular"
    low, high = SATSUKI.soil_ph.value
    # Extension advice quoted in the newspaper named beside the fact: 4.5 to 6.0.
    assert (low, high) == (4.5, 6.0)
    assert SATSUKI.root_share.source == COMMON_PRACTICE


def test_fresh_kanuma_is_soaked_the_same_day(made, only):
    done = made.event("2027-06-25", "repotted", "same pot, 5 cm off below")
    found = only(made.after(SATSUKI, "satsuki-soak", made.tree(done), done, made.year(SATSUKI)))
    assert found.act == "soaked"
    # After three days it was watered or is dead, so it is not asked for any longer.
    assert found.window == days("2027-06-25", "2027-06-25", "2027-06-28")
    assert "two or three cans, until water runs from the bottom" in found.what
    assert found.weight.lapses


@pytest.mark.parametrize(
    ("text", "mix", "fresh"),
    [
        ("same pot, 5 cm off below", "", "Fresh kanuma is bone-dry"),
        ("same pot, mix acid-kanuma 2 L", "acid-kanuma", "Fresh kanuma is bone-dry"),
        ("same pot, mix Kanuma 2 L", "", "Fresh kanuma is bone-dry"),
        ("same pot, 5 cm off below", "kanuma", "Fresh kanuma is bone-dry"),
        ("same pot, mix pine 2 L", "pine", "Fresh mix is dry"),
        ("same pot, 5 cm off below", "pine", "Fresh mix is dry"),
    ],
)
def test_kanuma_is_spoken_of_where_the_mix_may_be_kanuma(made, only, text, mix, fresh):
    done = made.event("2027-06-25", "repotted", text)
    tree = replace(made.tree(done), mix=mix)
    found = only(made.after(SATSUKI, "satsuki-soak", tree, done, made.year(SATSUKI)))
    assert found.because.startswith(f"{fresh} from the bag")


@pytest.mark.parametrize("text", ["same pot, 5 cm off below, soaked", "same pot, no root work"])
def test_no_soaking_where_it_is_written_or_no_fresh_mix_went_in(made, text):
    done = made.event("2027-06-25", "repotted", text)
    assert made.after(SATSUKI, "satsuki-soak", made.tree(done), done, made.year(SATSUKI)) == []


def test_moist_sphagnum_lies_on_top_through_recovery(made, only):
    year = made.year(SATSUKI)
    bare = made.event("2027-06-25", "repotted", "same pot, 5 cm off below")
    found = only(made.after(SATSUKI, "satsuki-moss", made.tree(bare), bare, year))
    assert (found.act, found.what) == ("top-dressed", "with moist sphagnum")
    for word in ("moss", "sphagnum"):
        done = made.event("2027-06-25", "repotted", f"same pot, 5 cm off below, {word}")
        assert made.after(SATSUKI, "satsuki-moss", made.tree(done), done, year) == []


def test_two_ties_hold_a_medium_tree(made, only):
    year = made.year(SATSUKI)
    loose = made.event("2027-06-25", "repotted", "same pot, 5 cm off below")
    found = only(made.after(SATSUKI, "satsuki-ties", made.tree(loose), loose, year))
    assert (found.act, found.what) == ("tied", "with two ties of 2.5 mm aluminium")
    held = made.event("2027-06-25", "repotted", "same pot, tied 2.5 mm x 2 Al")
    assert made.after(SATSUKI, "satsuki-ties", made.tree(held), held, year) == []


# ------------------------------------------------------------------ a hard surface


@pytest.mark.parametrize(
    ("act", "text"),
    [
        ("drained", "90 s"),
        ("drained", "2 min"),
        ("checked", "surface, hard"),
    ],
)
def test_a_hard_surface_is_opened_with_a_wooden_stick(made, only, act, text):
    done = made.event("2027-07-10", act, text)
    found = only(
        made.after(SATSUKI, "satsuki-hard-surface", made.tree(done), done, made.year(SATSUKI))
    )
    assert found.act == "opened"
    assert "wooden stick, not a metal hook" in found.because
    assert "very fine" in found.because


@pytest.mark.parametrize(
    ("act", "text"),
    [
        ("drained", "20 s"),
        ("checked", "surface, soft"),
        ("checked", "bark, hard"),
        # No decision is read from prose.
        ("noted", "the surface is hard and sheds water"),
    ],
)
def test_soil_that_takes_water_is_left_alone(made, act, text):
    done = made.event("2027-07-10", act, text)
    assert (
        made.after(SATSUKI, "satsuki-hard-surface", made.tree(done), done, made.year(SATSUKI)) == []
    )


def test_how_slow_is_slow_is_a_setting(made):
    done = made.event("2027-07-10", "drained", "90 s")
    year = made.year(SATSUKI, figures={"slow_drain_from_s": 120.0})
    assert made.after(SATSUKI, "satsuki-hard-surface", made.tree(done), done, year) == []


def test_an_opened_hard_surface_is_tried_again_and_a_metal_hook_is_a_caution(made, only):
    year = made.year(SATSUKI)
    done = made.event("2027-07-10", "opened", "hard surface, with wooden stick")
    found = only(made.after(SATSUKI, "satsuki-drains-again", made.tree(done), done, year))
    assert found.act == "drained"
    assert found.cautions == ()
    hook = made.event("2027-07-10", "opened", "hard surface, with metal hook")
    warned = only(made.after(SATSUKI, "satsuki-drains-again", made.tree(hook), hook, year))
    assert warned.cautions == ("A metal hook tears the fine roots: use a wooden stick.",)
    plain = made.event("2027-07-10", "opened", "surface")
    assert made.after(SATSUKI, "satsuki-drains-again", made.tree(plain), plain, year) == []


# ------------------------------------------------------------------ the year


def test_in_the_south_the_year_is_six_months_later(made, only):
    year = made.year(SATSUKI, southern=True)
    found = only(made.yearly(SATSUKI, made.tree(), year, "satsuki-deadhead"))
    assert found.window == days("2027-12-08", "2027-12-21", "2028-01-12")
    tree = made.tree(made.event("2024-12-20", "repotted", "same pot"))
    work = only(made.yearly(SATSUKI, tree, year, "satsuki-root-work"))
    assert work.window == days("2027-12-08", "2027-12-28", "2028-01-30")


def test_no_feed_within_six_weeks_of_root_work(made, only):
    year = made.year(SATSUKI)
    only(made.yearly(SATSUKI, made.tree(), year, "satsuki-feed-spring"))
    fresh = made.tree(made.event("2027-03-25", "repotted", "same pot, 5 cm off below"))
    assert made.yearly(SATSUKI, fresh, year, "satsuki-feed-spring") == []
    # Eleven weeks before the feed after flowering (6 July).
    only(made.yearly(SATSUKI, fresh, year, "satsuki-feed-after-flowering"))


def test_it_is_poisonous_and_says_so():
    assert "highly poisonous" in SATSUKI.toxicity.value
    # North Carolina State University, Poisonous Plants, Rhododendron spp.: all parts, may be fatal.
    assert SATSUKI.toxicity.source.startswith("North Carolina State University")


def test_flower_buds_are_thinned_towards_a_show_that_is_named(made, only):
    year, tree = made.year(SATSUKI), made.tree(strength="strong")
    show = made.event("2027-02-10", "planned", "show, to 2027-06-05")
    found = only(made.after(SATSUKI, "satsuki-show", tree, show, year))
    # Nine, six and three weeks before 5 June.
    assert found.act == "disbudded"
    assert found.window == days("2027-04-03", "2027-04-24", "2027-05-15")
    assert found.what.endswith("for the show of 5 June 2027")
    # A show in autumn is not for its flowers, a rough day names none, and a plan may be another.
    for text in ("show, to 2027-11-05", "show, to 2027-06", "repot, to 2027-06-05"):
        other = made.event("2027-02-10", "planned", text)
        assert made.after(SATSUKI, "satsuki-show", tree, other, year) == []


@pytest.mark.parametrize(
    ("strength", "text", "asked"),
    [
        ("strong", "all", True),
        ("strong", "", True),
        ("fair", "all", False),
        ("strong", "some", False),
    ],
)
def test_hard_pruning_has_its_best_time_where_a_strong_tree_lost_its_buds(
    made, strength, text, asked
):
    done = made.event("2027-04-10", "disbudded", text)
    tree = made.tree(done, strength=strength)
    found = made.after(SATSUKI, "satsuki-renew", tree, done, made.year(SATSUKI))
    assert [(p.act, p.extent, p.singly) for p in found] == [("pruned", "hard", True)] * asked
    # From that day for six weeks, best after two.
    assert [p.window.best for p in found] == [date(2027, 4, 24)] * asked
    fresh = made.tree(made.event("2027-03-10", "repotted", "same pot"), done, strength="strong")
    assert made.after(SATSUKI, "satsuki-renew", fresh, done, made.year(SATSUKI)) == []
