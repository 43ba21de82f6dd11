"""Mixes worked by hand, and litres that come back when they are poured again."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud.bench.mixes import (
    Needed,
    bags,
    known_ingredient,
    litres_before_sieving,
    litres_of_each,
    loose_litres,
    needed,
    shares,
    substrate_needed,
    usual_sieving_loss_percent,
)

MAPLE = {"akadama": 2, "pumice": 1, "bark": 1}
UNITS = pint.get_application_registry()


def test_parts_become_litres():
    assert litres_of_each(MAPLE, 6) == {"akadama": 3.0, "pumice": 1.5, "bark": 1.5}
    assert shares({"kanuma": 4, "moss": 1}) == {"kanuma": 0.8, "moss": 0.2}


def test_a_mix_that_settles_takes_more_than_its_room():
    # 9.2 L of room, settling by 8 %: 10 L loose become 9.2 L.
    assert loose_litres(9.2, 8) == pytest.approx(10.0)
    assert loose_litres(9.2, 0) == 9.2


def test_sieving_takes_more_from_the_bag():
    # 10 L from the bag, of which 15 % is dust, leave 8.5 L.
    assert litres_before_sieving(8.5, 15) == pytest.approx(10.0)


@given(st.floats(0, 500), st.floats(0, 60))
def test_what_is_poured_settles_to_the_room(room, settles):
    assert loose_litres(room, settles) * (100 - settles) / 100 == pytest.approx(room)


@pytest.mark.parametrize(
    ("litres", "bag", "count"),
    [(0, 14, 0), (0.1, 14, 1), (14, 14, 1), (14.01, 14, 2), (28, 14, 2), (0.1 * 3, 0.1, 3)],
)
def test_bags_are_whole(litres, bag, count):
    assert bags(litres, bag) == count


def test_what_a_season_takes_by_ingredient():
    # 68 L: akadama 34 L, 15 % lost, so 40 L, three bags of 14 L with 2 over; pumice 17 L as it
    # comes, one bag of 30 L with 13 over; bark has no bag on record.
    found = needed(
        MAPLE,
        68,
        bag_litres={"akadama": 14, "pumice": 30},
        sieving_loss_percent={"akadama": 15, "pumice": 0, "bark": 50},
    )
    assert [one.ingredient for one in found] == ["akadama", "pumice", "bark"]
    assert found[0] == pytest.approx(Needed("akadama", 34, 40, 3, 2))
    assert found[1] == Needed("pumice", 17, 17, 1, 13)
    assert found[2] == Needed("bark", 17, 34, None, None)


def test_the_usual_loss_stands_where_none_is_given():
    assert usual_sieving_loss_percent("double-line akadama") == 15
    assert usual_sieving_loss_percent("charcoal") == 0
    (only,) = needed({"akadama": 1}, 8.5)
    assert only.litres_before_sieving == pytest.approx(10)


def test_a_bag_in_gallons_holds_as_many_litres_as_pint_says():
    # NIST SP 811 through pint: 2 US gallons are 7.570823568 L; 15 L take two.
    gallons = UNITS.Quantity(2, "US_liquid_gallon").to("litre").magnitude
    assert gallons == pytest.approx(7.570823568)
    assert bags(15, gallons) == 2
    assert bags(15.15, gallons) == 3


def test_a_repotting_takes_the_pot_less_the_ball_plus_settling():
    # 7.2 L less 3.52 L leave 3.68 L; settling by 8 %: 4.0 L.
    found = substrate_needed(7.2, 3.52, 8)
    assert found.room_litres == pytest.approx(3.68)
    assert found.loose_litres == pytest.approx(4.0)
    assert found.because == (
        "A pot of 7.2 L less 3.5 L of root ball leaves 3.7 L; as the mix settles by 8 %, "
        "4.0 L loose."
    )
    assert substrate_needed(7.2, 7.2).loose_litres == 0


@pytest.mark.parametrize(
    ("written", "known"),
    [
        ("Fine pine bark", "bark"),
        ("pine-bark", "bark"),
        ("leaf mould", "leaf mould"),
        ("mould of leaf", "mould"),
        ("lava and bark", "lava"),
        ("embarked", ""),
        ("", ""),
    ],
)
def test_an_ingredient_is_known_by_whole_words(written, known):
    names = ("bark", "mould", "leaf mould", "lava")
    # Of equal length the one that stands first.
    assert known_ingredient(written, names) == known


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: shares({}), "parts by volume"),
        (lambda: shares({"akadama": 0}), "parts by volume"),
        (lambda: shares({"akadama": 3, "bark": -1}), "parts by volume"),
        (lambda: shares({"akadama": math.inf}), "parts by volume"),
        (lambda: litres_of_each(MAPLE, -1), "litres of mix, 0 or more"),
        (lambda: loose_litres(5, 100), "what the mix settles by in percent, from 0 to below 100"),
        (lambda: loose_litres(5, -1), "what the mix settles by in percent"),
        (lambda: loose_litres(-5, 1), "litres of room, 0 or more"),
        (lambda: litres_before_sieving(5, 101), "the loss in sieving in percent"),
        (lambda: litres_before_sieving(-5, 1), "litres after sieving, 0 or more"),
        (lambda: bags(5, 0), "litres in a bag, above 0"),
        (lambda: bags(-5, 14), "litres needed, 0 or more"),
        (lambda: substrate_needed(0, 0), "volume of the pot in litres, above 0"),
        (lambda: substrate_needed(5, -1), "litres of the root ball left, 0 or more"),
        (lambda: substrate_needed(5, 5.1), "does not go into a pot of 5.0 L: give a larger pot"),
    ],
)
def test_what_makes_no_sense_says_what_to_give(call, says):
    with pytest.raises(ValueError) as caught:
        call()
    assert says in str(caught.value)
