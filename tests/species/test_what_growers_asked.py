"""What growers asked of the whole, point by point, and the tests that show it.

A point that nobody shows, or a test that is called otherwise by now, fails here.
"""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]
POINTS: dict[str, tuple[str, ...]] = {
    "frost: separate figures for the winter's extreme, late and early frost, fitted again": (
        "climate/test_coldest_night.py::test_the_range_and_the_region_fitted_again",
        "climate/test_coldest_night.py::test_each_station_left_out_once_of_the_fit_by_range",
        "climate/test_coldest_night.py::test_the_spread_fitted_again_and_each_station_left_out_once",
        "plan/test_winter_frost.py::test_in_nottingham_they_are_protected_in_a_pot_12_cm_deep",
    ),
    "frost: years on record, then the card, then its zone, then the months": (
        "plan/test_winter_frost.py::test_a_record_of_years_beats_all",
        "plan/test_winter_frost.py::test_what_the_card_says_beats_the_months",
        "plan/test_winter_frost.py::test_so_does_its_hardiness_zone_but_not_the_coldest_night",
    ),
    "frost: young roots have a limit of their own": (
        "plan/test_winter_frost.py::test_roots_cut_in_autumn_are_young_when_the_winter_comes",
    ),
    "frost: close to the limit it never falls silent, but says how close": (
        "plan/test_winter_frost.py::test_it_is_as_loud_as_the_night_is_near",
    ),
    "past its window: a chance lapses, and is told once in the year's review": (
        "plan/test_once_past.py::test_a_chance_is_gone_with_its_season",
        "plan/test_once_past.py::test_a_tree_under_cover_is_not_asked_out_in_november",
        "plan/test_lapsed.py::test_what_nobody_did_is_told_once_its_time_is_over",
    ),
    "past its window: what is on the tree stays, for its next good moment": (
        "plan/test_once_past.py::test_what_stays_moves_to_its_next_good_moment",
        "plan/test_once_past.py::test_ties_stay_until_the_next_good_moment",
    ),
    "past its window: what grows is late for a season at the most, protection to the last frost": (
        "plan/test_once_past.py::test_what_grows_is_late_for_a_season_and_comes_again",
        "plan/test_once_past.py::test_winter_protection_stands_until_the_frost_is_over",
    ),
    "past its window: one thing looked at is one line": (
        "plan/test_once_past.py::test_two_wires_that_nobody_looks_at_are_one_line",
        "plan/test_once_past.py::test_eight_trees_of_one_line_are_one_line_when_late",
        "plan/test_moment.py::test_two_ways_out_of_one_cover_are_one",
    ),
    "how much it matters orders every list": (
        "plan/test_lists.py::test_frost_comes_first_in_a_frosty_week",
        "plan/test_lists.py::test_by_stake_then_by_the_day_that_closes",
    ),
    "what must be and what may be; a promise never lapses": (
        "species/test_weights_said.py::test_what_must_be_and_what_may_be_are_told_apart",
        "plan/test_lists.py::test_a_chance_of_the_season_stands_once_for_the_trees_of_a_kind",
        "plan/test_lists.py::test_skipped_for_all_of_a_kind_closes_it",
        "plan/test_lists.py::test_a_tree_not_wired_for_years_stands_for_itself",
        "plan/test_once_past.py::test_a_promise_never_lapses",
        "plan/test_lists.py::test_put_off_to_another_year_it_takes_that_years_id_and_does_not_double",
    ),
    "feeding is a regime": (
        "plan/test_feeding.py::test_it_is_given_again_when_it_is_used_up",
        "plan/test_feeding.py::test_it_rests_after_root_work_and_goes_on_by_itself",
        "plan/test_feeding.py::test_none_while_it_flowers",
        "plan/test_feeding.py::test_one_weak_feed_in_august_does_not_settle_autumn",
        "species/test_read_in_five_climates.py::"
        "test_autumns_feed_begins_as_the_days_cool_and_has_its_weeks",
    ),
    "work on bare trees ends as the buds swell; leaf fall where it was seen; chill": (
        "species/test_bare_trees.py::test_no_work_on_a_bare_tree_runs_past_its_bud_swelling",
        "species/test_bare_trees.py::test_a_continental_place_is_bare_by_the_end_of_october",
        "species/test_bare_trees.py::test_leaf_fall_in_tokyo",
        "species/test_bare_trees.py::test_no_dates_are_the_same_in_four_northern_climates",
        "species/test_bare_trees.py::test_where_its_chill_is_never_met_a_species_says_so",
    ),
    "done and planned work is judged, and leads to aftercare": (
        "plan/test_judged.py::test_the_wrong_time_asks_for_aftercare",
        "plan/test_judged.py::test_candles_cut_after_half_the_roots_were_bared",
        "plan/test_judged.py::test_a_plan_out_of_its_time_has_it_as_a_caution",
        "plan/test_judged.py::test_check_and_the_first_page_tell_it",
    ),
    "the moment's state counts": (
        "plan/test_moment.py::test_no_wiring_after_root_work_or_hard_pruning",
        "plan/test_moment.py::test_no_flower_buds_to_take_off_where_they_came_off",
        "plan/test_moment.py::test_repotting_does_not_run_through_the_flowers",
        "plan/test_moment.py::test_glass_in_autumn_is_until_spring",
        "plan/test_moment.py::test_no_feed_into_winter",
    ),
    "azaleas and camellias": (
        "species/test_wanted_by_species.py::test_vine_weevils_are_looked_for_above_and_below",
        "species/test_wanted_by_species.py::"
        "test_leaf_gall_of_azaleas_is_looked_for_from_april_to_june",
        "species/test_wanted_by_species.py::test_petal_blight_stands_with_the_spent_flowers",
        "species/test_wanted_by_species.py::"
        "test_the_last_cut_of_an_azalea_comes_before_its_buds_are_set",
        "species/test_wanted_by_species.py::test_buds_are_thinned_towards_the_day_of_a_show",
        "species/test_wanted_by_species.py::test_new_shoots_are_covered_while_frost_is_likely",
        "species/test_satsuki_azalea.py::"
        "test_hard_pruning_has_its_best_time_where_a_strong_tree_lost_its_buds",
        "species/test_wanted_by_species.py::test_after_root_work_an_azalea_is_looked_at",
    ),
    "pines": (
        "species/test_wanted_by_species.py::test_needle_disease_is_looked_for_twice",
        "species/test_wanted_by_species.py::"
        "test_candles_are_pinched_in_the_second_half_of_may_in_a_cool_place",
    ),
    "junipers, and false cypresses": (
        "species/test_wanted_by_species.py::test_junipers_are_looked_at_for_their_root_disease",
        "species/test_wanted_by_species.py::test_a_false_cypress_too_is_looked_at_for_it",
        "species/test_wanted_by_species.py::test_a_juniper_has_scale_and_a_second_trim",
        "species/test_wanted_by_species.py::"
        "test_live_veins_and_deadwood_of_a_juniper_that_came_with_it",
    ),
    "tender trees": (
        "species/test_wanted_by_species.py::test_what_is_tender_comes_in_from_its_own_night",
        "species/test_wanted_by_species.py::test_a_bougainvillea_is_repotted_with_the_figs",
    ),
    "quince, Japanese maple, crab apple, wisteria": (
        "species/test_read_in_five_climates.py::"
        "test_quinces_are_repotted_in_an_autumn_that_has_cooled",
        "species/test_wanted_by_species.py::"
        "test_a_japanese_maple_is_pruned_from_colour_to_december_and_as_leaves_harden",
        "species/test_wanted_by_species.py::test_woolly_aphids_are_looked_for",
        "species/test_wanted_by_species.py::test_a_wisterias_flowers_are_covered_in_its_year",
    ),
    "shade where summers pass 30 °C": (
        "species/test_read_in_five_climates.py::"
        "test_what_scorches_stands_in_shade_where_summers_pass_30_degrees",
    ),
    "all outdoors": (
        "plan/test_outdoors.py::test_all_pots_outdoors_are_cleaned_in_the_same_days",
        "plan/test_outdoors.py::test_slugs_are_looked_for_in_damp_mild_nights_alone",
        "plan/test_long_rain.py::test_long_rain_asks_for_a_look",
        "plan/test_outdoors.py::test_what_was_covered_for_the_winter_is_looked_at_in_the_dark_months",
        "plan/test_outdoors.py::test_glass_is_aired_and_mice_are_looked_for_where_a_tree_went_in",
        "plan/test_outdoors.py::test_wet_snow_is_taken_off_what_stands_in_the_open",
    ),
    "more species": (
        "species/test_wanted_by_species.py::test_the_species_that_were_missed_are_here",
    ),
    "each work says its source, stage days a range and that they are from memory": (
        "species/test_sources.py::test_a_work_is_common_practice_unless_a_source_was_read",
        "plan/test_a_species_year.py::"
        "test_a_stage_that_nobody_saw_has_a_range_also_when_it_is_past",
        "plan/test_because.py::test_a_stage_that_was_seen_is_the_datum_and_moves_the_window",
    ),
    "days that were seen: satsuki, wisteria, trident in Tokyo, maples in Minneapolis": (
        "species/test_bare_trees.py::test_satsuki_near_tokyo",
        "species/test_bare_trees.py::test_wisteria_in_tokyo",
        "species/test_bare_trees.py::test_repotting_of_a_trident_in_tokyo",
        "species/test_seen_elsewhere.py::test_a_stage_comes_about_when_it_was_seen_there",
    ),
    "first years of two climates, and two years of six trees on 22 days": (
        "species/test_first_years.py::test_the_table_of_first_years_is_what_the_rules_propose",
        "species/test_first_years.py::"
        "test_the_table_of_a_continental_place_is_what_the_rules_propose",
        "plan/test_two_years.py::test_a_keeper_wants_exactly_this",
    ),
}  # fmt: skip


@cache
def functions(path: Path) -> frozenset[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return frozenset(one.name for one in tree.body if isinstance(one, ast.FunctionDef))


@pytest.mark.parametrize("point", POINTS)
def test_each_point_is_shown_by_a_test(point: str) -> None:
    assert POINTS[point]
    for shown in POINTS[point]:
        name, _, test = shown.partition("::")
        assert test in functions(TESTS / name), shown
