"""What holds hard work back. Terms are common practice, no source; days are counted by hand."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.species import parts_of
from backbud_species.habits.gates import (
    DECANDLING,
    FULL_DEFOLIATION,
    HARD_WORK,
    LEAF_WORK,
    LIGHT_WORK,
    PART_DEFOLIATION,
    REGROWN,
    ROOT_WORK,
    WIRING,
)
from backbud_species.japanese_black_pine import JapaneseBlackPine
from backbud_species.japanese_maple import JapaneseMaple
from backbud_species.scots_pine import ScotsPine

MAPLE, PINE, SCOTS = JapaneseMaple(), JapaneseBlackPine(), ScotsPine()
DAY = date(2027, 6, 10)
LIGHT = (LIGHT_WORK, LEAF_WORK, REGROWN)
BESIDE_NO_PEST = (WIRING, PART_DEFOLIATION, ROOT_WORK, HARD_WORK, FULL_DEFOLIATION, DECANDLING)
EVERY = (*LIGHT, *BESIDE_NO_PEST)


def test_a_strong_healthy_tree_passes_every_gate(made):
    tree = made.tree(made.event("2024-03-20", "repotted", "same pot"), strength="strong")
    for gate in EVERY:
        assert gate.shut(tree, DAY, made.year(MAPLE, "warm")) == ""


@pytest.mark.parametrize("gate", EVERY)
@pytest.mark.parametrize(
    ("act", "text", "day", "why"),
    [
        ("checked", "pests many", "2027-05-01", "A check on 1 May 2027 found it ailing"),
        ("checked", "roots rotten", "2027-05-01", "found it ailing (roots rotten)."),
        ("checked", "strength weak", "2027-05-01", "found it ailing"),
        # Eight weeks before 10 June is 15 April.
        ("treated", "soft soap, against scale", "2027-04-15", "It was treated on 15 April 2027"),
        # Collected this growing year or the last one: from January of 2026.
        ("collected", "", "2026-01-01", "It was collected on 1 January 2026"),
        ("bought", "imported", "2026-06-11", "It was imported on 11 June 2026"),
    ],
)
def test_a_sick_or_new_tree_is_held_back_with_the_reason(made, gate, act, text, day, why):
    tree = made.tree(made.event(day, act, text), strength="strong")
    assert why in gate.shut(tree, DAY, made.year(MAPLE, "warm"))


@pytest.mark.parametrize(
    ("act", "text", "day"),
    [
        ("checked", "pests none", "2027-05-01"),
        ("checked", "roots fine", "2027-05-01"),
        ("checked", "wire loose", "2027-05-01"),
        # White roots to be seen are no sickness.
        ("checked", "roots some", "2027-05-01"),
        ("treated", "soft soap, against scale", "2027-04-14"),
        ("treated", "lime sulphur, winter wash", "2027-05-01"),
        ("collected", "", "2025-12-31"),
        ("bought", "imported", "2026-06-09"),
        ("bought", "", "2027-05-01"),
    ],
)
def test_what_is_past_or_harmless_holds_nothing_back(made, act, text, day):
    tree = made.tree(made.event(day, act, text), strength="strong")
    for gate in EVERY:
        assert gate.shut(tree, DAY, made.year(MAPLE, "warm")) == ""


def test_a_clean_check_ends_the_sickness(made):
    tree = made.tree(
        made.event("2027-05-01", "treated", "soft soap, against scale"),
        made.event("2027-05-20", "checked", "pests none"),
        strength="strong",
    )
    assert HARD_WORK.shut(tree, DAY, made.year(MAPLE, "warm")) == ""
    assert HARD_WORK.shut(tree, date(2027, 5, 20), made.year(MAPLE, "warm")) != ""


@pytest.mark.parametrize(
    ("act", "text", "why"),
    [
        ("repotted", "same pot, 2 cm off below", "It was repotted on 10 March 2027, in this same"),
        ("root-pruned", "off 20 %", "It was root-pruned on"),
        ("pruned", "hard on apex", "It was pruned on"),
        ("bent", "heavy on trunk", "It was bent on"),
        ("defoliated", "full", "It was defoliated on"),
        ("decandled", "", "It was decandled on"),
    ],
)
def test_one_insult_a_season(made, act, text, why):
    tree = made.tree(made.event("2027-03-10", act, text), strength="strong")
    year = made.year(MAPLE, "warm")
    for gate in (LEAF_WORK, HARD_WORK, FULL_DEFOLIATION, DECANDLING):
        assert gate.shut(tree, DAY, year).startswith(why)
    # Light work is borne; two root works are kept apart by the interval.
    assert LIGHT_WORK.shut(tree, DAY, year) == ROOT_WORK.shut(tree, DAY, year) == ""


@pytest.mark.parametrize(
    ("act", "text"),
    [
        ("repotted", "same pot, no root work"),
        ("pruned", "light"),
        ("bent", "light on left 1"),
        ("defoliated", "partial"),
    ],
)
def test_light_work_is_no_insult(made, act, text):
    tree = made.tree(made.event("2027-03-10", act, text), strength="strong")
    assert HARD_WORK.shut(tree, DAY, made.year(MAPLE, "warm")) == ""


def test_a_season_is_five_months_where_it_crosses_new_year(made):
    # 150 days before 20 February 2027 is 23 September 2026.
    day, year = date(2027, 2, 20), made.year(MAPLE)
    inside = made.tree(made.event("2026-09-23", "repotted", "same pot"))
    outside = made.tree(made.event("2026-09-22", "repotted", "same pot"))
    assert "in the same season" in HARD_WORK.shut(inside, day, year)
    assert HARD_WORK.shut(outside, day, year) == ""


def test_decandling_and_stripping_want_a_strong_tree(made):
    year = made.year(PINE, "warm")
    for strength, why in (
        ("", "Nobody has written down"),
        ("weak", "It is written down as weak."),
        ("fair", "It is written down as fair."),
    ):
        for gate in (DECANDLING, FULL_DEFOLIATION):
            assert gate.shut(made.tree(strength=strength), DAY, year).startswith(why)
    # The cool place's summer means 14.7 °C, under the 17 °C of decandle_from_c.
    cool = DECANDLING.shut(made.tree(strength="strong"), DAY, made.year(PINE, "cool"))
    assert "under 17 °C (decandle_from_c, a setting of ours)" in cool


def test_held_work_becomes_a_look_at_the_strength_with_the_reason(made, only):
    year = made.year(MAPLE, "warm")
    sick = made.tree(made.event("2027-05-10", "treated", "soap 1 L"), strength="strong")
    found = only(made.yearly(MAPLE, sick, year, "palmatum-defoliate"))
    assert found.act == "checked"
    assert found.datum == "It was treated on 10 May 2027, less than eight weeks before."
    assert found.settled_by == ("checked strength", "vigour", "defoliated")
    assert found.weight.lapses
    # Whoever repotted it this year knows that its leaves stay on.
    fresh = made.tree(made.event("2027-03-10", "repotted", "same pot"), strength="strong")
    assert made.yearly(MAPLE, fresh, year, "palmatum-defoliate") == []


def test_root_work_is_held_for_a_tree_that_was_collected_last_year(made, only):
    tree = made.tree(
        made.event("2020-03-10", "repotted", "same pot"),
        made.event("2026-03-01", "collected", ""),
        strength="fair",
    )
    for species, rule in ((SCOTS, "scots-pine-repot"), (PINE, "black-pine-repot")):
        found = only(made.yearly(species, tree, made.year(species), rule))
        assert found.act == "checked"
        assert "collected on 1 March 2026" in found.datum


def test_a_tree_in_quarantine_is_not_worked(made):
    import msgspec

    tree = msgspec.structs.replace(made.tree(strength="strong"), quarantined=True)
    assert HARD_WORK.shut(tree, DAY, made.year(MAPLE, "warm")) == "It stands in quarantine."


def test_wiring_after_root_work_warns_of_heavy_bends(made, only):
    tree = made.tree(made.event("2027-03-10", "repotted", "same pot"))
    found = only(made.yearly(SCOTS, tree, made.year(SCOTS), "scots-pine-wire"))
    assert "No heavy bend: it was repotted on 10 March 2027, in this same year." in found.cautions
    assert SCOTS.bark.value in found.cautions
    calm = only(made.yearly(SCOTS, made.tree(), made.year(SCOTS), "scots-pine-wire"))
    assert not any("heavy bend" in caution for caution in calm.cautions)


@pytest.mark.parametrize(
    ("day", "text", "why"),
    [
        # Twelve weeks before 10 June is 18 March.
        ("2027-03-18", "hard", "It was cut hard on 18 March 2027, less than twelve weeks before."),
        ("2027-03-17", "hard", ""),
        ("2027-06-09", "light", ""),
    ],
)
def test_what_a_hard_cut_brought_is_not_trimmed_for_twelve_weeks(made, day, text, why):
    tree = made.tree(made.event(day, "pruned", text), strength="strong")
    assert REGROWN.shut(tree, DAY, made.year(MAPLE, "warm")) == why


def test_a_bend_that_was_heavy_on_one_part_is_looked_at_there(made):
    both = made.event("2027-02-10", "bent", "heavy on trunk, light on left 2")
    assert parts_of(both) == ("trunk",)
    assert parts_of(made.event("2027-02-10", "bent", "light on left 2")) == ("left 2",)
    assert parts_of(made.event("2027-02-10", "bent", "heavy")) == ("",)
    wired = made.event("2027-02-10", "wired", "3 mm Al on left 2, 2 mm Al on apex")
    assert parts_of(wired) == ("left 2", "apex")


@pytest.mark.parametrize(
    ("found", "light"),
    [
        ("aphids some", True),
        ("scale some on left 1", True),
        ("pests some", True),
        ("aphids many", False),
        ("weevils some", False),
        ("aphids some, leaves yellow", False),
    ],
)
@pytest.mark.parametrize("treated", [False, True])
def test_a_few_pests_stop_no_pinching_but_wire_and_roots_wait(made, found, light, treated):
    events = [made.event("2027-05-20", "checked", found)]
    if treated:
        events.append(made.event("2027-05-22", "treated", "soft soap, against aphids"))
    tree = made.tree(*events, strength="strong")
    year = made.year(MAPLE, "warm")
    for gate in LIGHT:
        assert (gate.shut(tree, DAY, year) == "") is light
    for gate in BESIDE_NO_PEST:
        assert gate.shut(tree, DAY, year) != ""


def test_many_after_a_few_hold_light_work_back(made):
    tree = made.tree(
        made.event("2027-05-10", "checked", "aphids some"),
        made.event("2027-05-30", "checked", "aphids many"),
        strength="strong",
    )
    assert LIGHT_WORK.shut(tree, DAY, made.year(MAPLE, "warm")) != ""
