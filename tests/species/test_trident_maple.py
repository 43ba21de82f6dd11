"""The trident maple's rules. Every figure held here is common practice, no source."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.species import Window
from backbud_species.trident_maple import TridentMaple

TRIDENT = TridentMaple()


def days(*texts: str) -> Window:
    return Window(*(date.fromisoformat(text) for text in texts))


def test_it_is_repotted_between_bud_swell_and_bud_burst(made, only):
    tree = made.tree(made.event("2025-03-10", "repotted", "same pot, 2 cm off below"))
    found = only(made.yearly(TRIDENT, tree, made.year(TRIDENT), "trident-repot"))
    assert found.act == "repotted"
    # Buds swell 25 February to 12 March, the usual bud burst is 28 March.
    assert found.window == days("2027-02-25", "2027-03-12", "2027-03-28")
    assert "2 years before; the usual time is 2" in found.datum


def test_a_stage_that_was_seen_moves_the_repotting(made, only):
    tree = made.tree(made.event("2025-03-10", "repotted", "same pot"))
    year = made.year(TRIDENT, seen={1: "2027-02-20", 7: "2027-03-08"})
    found = only(made.yearly(TRIDENT, tree, year, "trident-repot"))
    assert found.window == days("2027-02-20", "2027-02-20", "2027-03-08")


def test_it_is_not_repotted_every_year_nor_when_weak(made, only):
    year = made.year(TRIDENT)
    last_year = made.tree(made.event("2026-03-10", "repotted", "same pot"))
    assert made.yearly(TRIDENT, last_year, year, "trident-repot") == []
    weak = made.tree(made.event("2024-03-10", "repotted", "same pot"), strength="weak")
    assert only(made.yearly(TRIDENT, weak, year, "trident-repot")).act == "checked"


def test_it_grows_strongest_at_the_top_so_strong_tips_are_pinched_first(made, only):
    assert TRIDENT.strongest == "acrotonic"
    found = only(made.yearly(TRIDENT, made.tree(), made.year(TRIDENT), "trident-pinch"))
    assert found.act == "pinched"
    assert "one pair of leaves" in found.what
    # First leaves 24 March, 6 and 20 April: 0, 5 and 18 days after.
    assert found.window == days("2027-03-24", "2027-04-11", "2027-05-08")


@pytest.mark.parametrize("rule", ["trident-pinch", "trident-defoliate"])
def test_leaves_stay_on_a_weak_or_just_repotted_tree(made, rule):
    year = made.year(TRIDENT, "warm")
    assert made.yearly(TRIDENT, made.tree(strength="weak"), year, rule) == []
    fresh = made.tree(
        made.event("2027-03-10", "repotted", "same pot, 2 cm off below"), strength="strong"
    )
    assert made.yearly(TRIDENT, fresh, year, rule) == []
    set_back = made.tree(
        made.event("2027-03-10", "repotted", "same pot, no root work"), strength="strong"
    )
    assert len(made.yearly(TRIDENT, set_back, year, rule)) == 1


def test_no_leaves_off_in_a_year_of_hard_pruning(made):
    tree = made.tree(made.event("2027-02-01", "pruned", "hard"), strength="strong")
    assert made.yearly(TRIDENT, tree, made.year(TRIDENT, "warm"), "trident-defoliate") == []


def test_only_a_strong_tree_in_a_warm_place_is_stripped_fully(made, only):
    strong = made.tree(strength="strong")
    full = only(made.yearly(TRIDENT, strong, made.year(TRIDENT, "warm"), "trident-defoliate"))
    assert full.what == "fully, the stalks left on"
    # Leaves are hard 18 May, 1 and 15 June: 0, 7 and 14 days after.
    assert full.window == days("2027-05-18", "2027-06-08", "2027-06-29")
    assert "not under 19 °C" in full.datum
    cool = only(made.yearly(TRIDENT, strong, made.year(TRIDENT, "cool"), "trident-defoliate"))
    assert cool.what.startswith("in part")
    assert "under 19 °C" in cool.datum
    unknown = only(made.yearly(TRIDENT, strong, made.year(TRIDENT, "unknown"), "trident-defoliate"))
    assert unknown.what.startswith("in part")
    fair = only(
        made.yearly(
            TRIDENT, made.tree(strength="fair"), made.year(TRIDENT, "warm"), "trident-defoliate"
        )
    )
    assert fair.what.startswith("in part")
    assert fair.datum == "It is not written down as strong."


def test_a_tree_stripped_last_summer_is_stripped_in_part_at_most(made, only):
    year = made.year(TRIDENT, "warm")
    lately = made.tree(made.event("2026-08-01", "defoliated", "full"), strength="strong")
    found = only(made.yearly(TRIDENT, lately, year, "trident-defoliate"))
    assert found.datum == "It was stripped less than a year ago."
    rested = made.tree(made.event("2026-06-05", "defoliated", "full"), strength="strong")
    assert "fully" in only(made.yearly(TRIDENT, rested, year, "trident-defoliate")).what


def test_new_leaves_are_looked_for_four_weeks_after_a_stripping(made, only):
    year = made.year(TRIDENT)
    full = made.event("2027-06-08", "defoliated", "full")
    found = only(made.after(TRIDENT, "trident-new-leaves", made.tree(full), full, year))
    assert found.window == days("2027-06-29", "2027-07-06", "2027-07-13")
    part = made.event("2027-06-08", "defoliated", "partial")
    assert made.after(TRIDENT, "trident-new-leaves", made.tree(part), part, year) == []


def test_large_cuts_are_sealed_the_same_day(made, only):
    year = made.year(TRIDENT)
    done = made.event("2027-06-20", "pruned", "hard on apex")
    found = only(made.after(TRIDENT, "trident-seal", made.tree(done), done, year))
    assert (found.act, found.what) == ("sealed", "the large cuts, apex")
    assert found.window.best == date(2027, 6, 20)
    light = made.event("2027-06-20", "pruned", "light")
    assert made.after(TRIDENT, "trident-seal", made.tree(light), light, year) == []


@pytest.mark.parametrize(
    ("day", "watched"),
    [
        # Between midwinter and the usual bud burst of 28 March.
        ("2027-01-14", False),
        ("2027-02-20", True),
        ("2027-03-28", True),
        ("2027-03-29", False),
    ],
)
def test_cuts_in_rising_sap_are_watched(made, day, watched):
    done = made.event(day, "pruned", "hard")
    found = made.after(TRIDENT, "trident-bleeding", made.tree(done), done, made.year(TRIDENT))
    assert [p.act for p in found] == (["checked"] if watched else [])


def test_bare_twigs_are_pruned_after_leaf_fall_and_before_the_sap_rises(made, only):
    found = only(made.yearly(TRIDENT, made.tree(), made.year(TRIDENT), "trident-prune"))
    # From colour, 15 October, best when the leaves are off, 25 November, to three weeks after that
    # (RHS by the press 2024; Napa Valley Register).
    assert found.window == days("2027-10-15", "2027-11-25", "2027-12-16")
    assert (
        made.yearly(TRIDENT, made.tree(strength="weak"), made.year(TRIDENT), "trident-prune") == []
    )


def test_wire_is_not_asked_for_where_wire_is_on(made, only):
    year = made.year(TRIDENT)
    only(made.yearly(TRIDENT, made.tree(), year, "trident-wire"))
    assert made.yearly(TRIDENT, made.tree(wire=True), year, "trident-wire") == []
    assert TRIDENT.wire_check_weeks.value[1] == 4


def test_young_leaves_are_guarded_where_april_nights_can_freeze(made, only):
    # First leaves from 24 March. In one year of ten 0 °C is reached where the mean low is 6.5 °C at
    # the cool place (0.75 x 1.4 x (3.4 + 0.33 x 8.6)), so after mid-May; at the warm one, as Tokyo
    # (a winter's drop of 3.2 K), where it is 4.7 °C, so in February, when no leaf is out.
    cool = only(made.yearly(TRIDENT, made.tree(), made.year(TRIDENT, "cool"), "trident-late-frost"))
    assert cool.act == "protected"
    assert date(2027, 5, 18) <= cool.window.closes <= date(2027, 5, 26)
    assert "The last night of 0 °C" in cool.datum
    assert made.yearly(TRIDENT, made.tree(), made.year(TRIDENT, "warm"), "trident-late-frost") == []
    tunnel = made.year(TRIDENT, "cool", cover="tunnel")
    assert made.yearly(TRIDENT, made.tree(), tunnel, "trident-late-frost") == []


def test_root_share(made, only):
    year = made.year(TRIDENT, "cool")
    done = made.event("2027-03-10", "repotted", "same pot, off 70 %")
    found = only(made.after(TRIDENT, "trident-root-share", made.tree(done), done, year))
    assert "60 % is the most in a cool place" in found.datum
    warm = made.year(TRIDENT, "warm")
    assert made.after(TRIDENT, "trident-root-share", made.tree(done), done, warm) == []


def test_in_the_south_buds_swell_in_september(made, only):
    tree = made.tree(made.event("2025-09-10", "repotted", "same pot"))
    found = only(made.yearly(TRIDENT, tree, made.year(TRIDENT, southern=True), "trident-repot"))
    assert found.window == days("2027-08-25", "2027-09-12", "2027-09-28")
