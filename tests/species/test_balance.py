"""Which zones are cut back and which are left, by the vigour written down for each.

Worked by hand: over the middle of the scores back, under it left. Common practice, no source.
"""

from __future__ import annotations

from datetime import date

import pytest

from backbud_species.habits.balance import balance
from backbud_species.japanese_black_pine import JapaneseBlackPine
from backbud_species.japanese_maple import JapaneseMaple

DAY = date(2027, 6, 1)


@pytest.mark.parametrize(
    ("zones", "back", "left"),
    [
        # Middle 3: 5 is over it, 1 under it, 3 neither.
        ({"apex": 5, "right 2": 3, "low left": 1}, ["apex"], ["low left"]),
        # Middle 3.5, each side in the order of its need.
        ({"apex": 5, "left 3": 4, "left 1": 3, "low": 2}, ["apex", "left 3"], ["low", "left 1"]),
        # Middle 3.67: a single slow zone is left, the two at 4 are cut.
        ({"a": 4, "b": 4, "c": 3}, ["a", "b"], ["c"]),
    ],
)
def test_what_is_over_the_middle_goes_back_and_what_is_under_it_is_left(made, zones, back, left):
    found = balance(made.tree(zones=zones), "acrotonic", DAY)
    assert [zone.name for zone in found.back] == back
    assert [zone.name for zone in found.left] == left


@pytest.mark.parametrize(
    ("zones", "words"),
    [
        ({"left top": 5, "low": 1}, "It grows strongest at the top"),
        # One part of the top is slow itself: it is not the top that outgrows the rest.
        ({"left top": 5, "right top": 1}, "Strong zones shade and outgrow slow ones"),
        ({"left top": 5, "right top": 1, "low": 2}, "Strong zones shade and outgrow slow ones"),
        ({"left top": 5, "right 2": 4, "low": 1}, "It grows strongest at the top"),
        ({"low left": 5, "low right": 1, "apex": 2}, "Strong zones shade and outgrow slow ones"),
        ({"low left": 5, "right 2": 4, "apex": 1}, "The low zones outgrow the rest against"),
        ({"right 2": 5, "left 2": 1}, "Strong zones shade and outgrow slow ones"),
    ],
)
def test_the_top_outgrows_the_rest_only_where_no_part_of_it_is_slow(made, zones, words):
    assert balance(made.tree(zones=zones), "acrotonic", DAY).because.startswith(words)


@pytest.mark.parametrize("zones", [{}, {"apex": 5}, {"apex": 3, "low": 3}, {"whole tree": 2}])
def test_nothing_where_even_or_unknown(made, zones):
    assert balance(made.tree(zones=zones), "acrotonic", DAY) is None


def test_vigour_seen_more_than_a_year_before_says_nothing(made):
    # The zones were seen on 1 January 2027.
    tree = made.tree(zones={"apex": 5, "low": 1})
    assert balance(tree, "acrotonic", date(2028, 1, 1)) is not None
    assert balance(tree, "acrotonic", date(2028, 1, 2)) is None


@pytest.mark.parametrize(
    ("strongest", "zones", "words"),
    [
        ("acrotonic", {"apex": 5, "low": 2}, "strong top is cut back hardest"),
        ("basitonic", {"low": 5, "top": 2}, "strong low shoots are cut back first"),
        ("acrotonic", {"apex": 2, "low right": 5}, "back lightly: the top soon gains"),
        ("basitonic", {"top": 5, "low": 2}, "back lightly: it regrows slowest"),
        ("acrotonic", {"left 2": 5, "right 2": 2}, "shade and outgrow slow ones"),
    ],
)
def test_the_reason_goes_along_with_where_the_species_grows_strongest(
    made, strongest, zones, words
):
    assert words in balance(made.tree(zones=zones), strongest, DAY).because


def test_the_proposal_names_the_zones_and_their_scores(made, only):
    maple = JapaneseMaple()
    tree = made.tree(zones={"apex": 5, "right 2": 4, "low left": 1}, strength="fair")
    found = only(made.yearly(maple, tree, made.year(maple), "palmatum-balance"))
    assert found.act == "trimmed"
    assert found.what == "apex and right 2 back, low left left alone"
    assert found.datum == "Vigour of 5, as last seen: apex 5, right 2 4, low left 1."


def test_a_pine_is_balanced_by_its_candles(made, only):
    pine = JapaneseBlackPine()
    tree = made.tree(zones={"apex": 5, "low": 2})
    assert only(made.yearly(pine, tree, made.year(pine), "black-pine-balance")).act == "pinched"


def test_nothing_is_cut_back_on_a_weak_tree(made):
    maple = JapaneseMaple()
    tree = made.tree(zones={"apex": 3, "low left": 1}, strength="weak")
    assert made.yearly(maple, tree, made.year(maple), "palmatum-balance") == []
