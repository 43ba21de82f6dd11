"""What is on the shelf: every figure worked out by hand beside it.

Areas and volumes of a rectangle are plain; the density of aluminium, 2.70 g/cm³, is that of the CRC
Handbook. A sieve takes 15 % of kanuma, 5 % of lava, none of sphagnum (bench/mixes.py).
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from math import pi

import pytest

from backbud.plan.stores import Stores, stores_of
from backbud.plan.stores.values import StockedMaterial
from backbud.session import Session

CARDS = """
    mix acid
      kanuma     4
      sphagnum   1
    mix grit
      lava       1
      settles    5 %
    material kanuma
      sold in    bag of 14 L
      price      19 EUR
      density    0.5 kg/L
    material sphagnum
      sold in    bag of 5 L
      price      16 EUR
    material lava
      sold in    bag of 20 L
    material al-2
      name       aluminium wire 2 mm
      sold in    roll of 1 kg
      price      24 EUR
      metal      aluminium
    material al-1
      name       aluminium wire 1 mm
      sold in    roll of 500 g
      metal      aluminium
    material cakes
      sold in    box of 200
      price      40 EUR
    material liquid
      sold in    bottle of 1 L
    material powder
      sold in    tub of 2 kg
    pot low
      shape      rectangle
      inside     30 x 20 x 6 cm
      holes      2
    tree oak
      kind       garden shrub
      pot        low
      mix        grit
    tree elm
      kind       garden shrub
      mix        acid
"""


def stores(session: Session) -> Stores:
    return stores_of(session.journal, session.histories, session.plan(), session.today)


@pytest.fixture
def shelf(written):
    """The shelf by the material's key, after these lines of a diary."""

    def after(diary: str, **given: object) -> dict[str, StockedMaterial]:
        found = stores(written(CARDS + diary, **given))
        return {one.material.key: one for one in found.shelf}

    return after


# ------------------------------------------------------------------ bought, used, worth


def test_litres_of_a_mix_leave_the_bags_before_sieving(shelf) -> None:
    found = shelf("""
    2026-01-10
    kanuma
      bought    4 bags, 84 EUR
    sphagnum
      bought    2 bags, 32 EUR
    2026-03-01
    elm
      repotted  mix acid 5 L
    """)
    # 4 L of kanuma in the mix, and 15 % of the bag stays in the sieve: 4 / 0.85.
    assert found["kanuma"].on_hand == pytest.approx(56 - 4 / 0.85)
    assert found["kanuma"].written == pytest.approx(4.705882, abs=1e-6)
    # 51.294118 L at 84 / 56 = 1.50 EUR.
    assert found["kanuma"].value == Decimal("76.94")
    assert (found["kanuma"].price, found["kanuma"].price_since) == (
        Decimal("21.00"),
        date(2026, 1, 10),
    )
    assert found["sphagnum"].on_hand == pytest.approx(9)
    assert found["sphagnum"].value == Decimal("28.80")


def test_worth_is_by_the_moving_average(shelf) -> None:
    lava = shelf("""
    2026-01-01
    lava
      bought    10 L, 20 EUR
    2026-02-01
    elm
      used      lava 5 L
    2026-03-01
    lava
      bought    10 L, 35 EUR
    2026-04-01
    elm
      used      lava 3 L
    """)["lava"]
    # 5 L at 2 EUR and 10 L for 35 EUR are 15 L for 45 EUR, 3 EUR each; 12 L stay.
    assert (lava.on_hand, lava.average, lava.value) == (12, Decimal(3), Decimal("36.00"))
    # 35 EUR for half a bag.
    assert lava.price == Decimal("70.00")


def test_a_price_of_the_diary_stands_before_the_cards(shelf) -> None:
    found = shelf("""
    2026-01-01
    kanuma
      bought    14 L
      priced    22 EUR
    """)
    # Bought without a price: at the last known one.
    assert found["kanuma"].value == Decimal("22.00")
    assert found["kanuma"].price == Decimal(22)


def test_what_was_paid_in_other_money_counts_without_a_price(shelf) -> None:
    found = shelf("""
    2026-01-01
    lava
      bought    2 bags, 30 GBP
    """)
    assert (found["lava"].on_hand, found["lava"].value, found["lava"].price) == (40, None, None)


def test_one_line_for_two_materials_is_parted_between_them(shelf) -> None:
    found = shelf("""
    2026-01-01
    kanuma, sphagnum
      bought    4 bags, 70 EUR
    """)
    assert (found["kanuma"].on_hand, found["kanuma"].value) == (28, Decimal("35.00"))
    assert (found["sphagnum"].on_hand, found["sphagnum"].value) == (10, Decimal("35.00"))


def test_more_used_than_bought_is_below_nothing_and_worth_nothing(shelf) -> None:
    found = shelf("""
    2026-01-01
    lava
      bought    1 bag, 14 EUR
    2026-02-01
    elm
      used      lava 22 L
    """)
    assert (found["lava"].on_hand, found["lava"].value) == (-2, Decimal("0.00"))


def test_what_went_before_the_first_purchase_came_from_elsewhere(shelf) -> None:
    found = shelf("""
    2025-03-01
    elm
      used      lava 9 L
    2026-01-01
    lava
      bought    1 bag, 14 EUR
    2026-02-01
    elm
      used      lava 3 L
    """)
    assert (found["lava"].since, found["lava"].on_hand) == (date(2026, 1, 1), 17)
    assert found["lava"].year == 3


def test_mass_and_litres_by_the_cards_density(shelf) -> None:
    found = shelf("""
    2026-01-01
    kanuma
      bought    7 kg, 20 EUR
    """)
    # 7 kg at 0.5 kg/L.
    assert found["kanuma"].on_hand == 14


def test_a_total_is_shared_and_each_is_not(shelf) -> None:
    found = shelf("""
    2026-01-01
    lava
      bought    3 bags
    oak, elm
      used      lava 4 L
      used      lava 1 L each
    """)
    # 4 L for both together, and one for each of them.
    assert found["lava"].on_hand == pytest.approx(60 - 4 - 2)


def test_lines_dated_later_and_lines_undone_take_nothing(shelf) -> None:
    found = shelf(
        """
    2026-01-01
    lava
      bought    1 bag
    2026-02-01
    elm
      repotted  mix grit 9.5 L
    2026-02-02
    elm
      corrected repotted 2026-02-01, not done
    2026-05-01
    elm
      used      lava 3 L
    """,
        on="2026-03-01",
        as_of=True,
    )
    assert found["lava"].on_hand == 20


def test_a_corrected_potting_takes_what_was_meant(shelf) -> None:
    found = shelf("""
    2026-01-01
    lava
      bought    1 bag
    2026-02-01
    elm
      repotted  mix grit 9.5 L
    2026-02-02
    elm
      corrected repotted 2026-02-01, mix grit 1.9 L
    """)
    # 1.9 L, and 5 % stay in the sieve: 2 L from the bag.
    assert found["lava"].on_hand == pytest.approx(18)


# ------------------------------------------------------------------ reckoned: the mix


@pytest.mark.parametrize(
    ("details", "litres"),
    [
        # The pot holds 30 x 20 x 5 cm = 3 L, and so did the ball. 2 of 5 cm off: 1.2 L of room,
        # 1.2 / 0.95 loose, and / 0.95 before the sieve.
        ("same pot, 2 cm off below", 1.2 / 0.95 / 0.95),
        # Each wedge is opened half-way: three quarters of it. 4/8 x 3/4 of 3 L.
        ("same pot, wedges N E S W", 1.125 / 0.95 / 0.95),
        # By the clock: 3/12 x 3/4 of 3 L.
        ("same pot, wedges 3 6 9", 0.5625 / 0.95 / 0.95),
        ("same pot, bare-rooted", 3 / 0.95 / 0.95),
        ("same pot, 30 % off", 0.9 / 0.95 / 0.95),
        ("same pot, 1/4 off", 0.75 / 0.95 / 0.95),
        # What is left was measured: 24 x 15 x 5 cm are 1.8 L.
        ("same pot, root ball 24 x 15 x 5 cm", 1.2 / 0.95 / 0.95),
        # Nobody says: a third of the ball.
        ("same pot", 1 / 0.95 / 0.95),
        ("same pot, no root work", 0),
    ],
)
def test_a_potting_without_its_litres_is_reckoned_from_the_pot(shelf, details, litres) -> None:
    found = shelf(f"""
    2026-01-01
    lava
      bought    1 bag
    2026-03-01
    oak
      repotted  {details}
    """)
    assert found["lava"].reckoned == pytest.approx(litres)
    assert found["lava"].on_hand == pytest.approx(20 - litres)


def test_a_measured_ball_is_smaller_than_its_pot(shelf) -> None:
    found = shelf("""
    2026-01-01
    lava
      bought    1 bag
    oak
      measured  root ball 25 x 16 x 5 cm
    2026-03-01
    oak
      repotted  same pot, 1 cm off below
    """)
    # 25 x 16 x 4 cm stay of it, 1.6 L: 1.4 L of room.
    assert found["lava"].reckoned == pytest.approx(1.4 / 0.95 / 0.95)


def test_a_potting_without_a_pot_says_what_to_write(written) -> None:
    found = stores(
        written(
            CARDS
            + """
    2026-03-01
    elm
      repotted  same pot, 2 cm off below
    """
        )
    )
    (missing,) = found.missing
    assert missing.what == "the mix it was repotted in, 1 March 2026"
    assert missing.trees == ("elm",)
    assert "its pot" in missing.to_write


def test_moss_on_top_is_a_layer_and_a_line_about_it_stands_before_it(shelf) -> None:
    bought = """
    2026-01-01
    sphagnum
      bought    2 bags
    2026-03-01
    oak
      repotted  same pot, mix acid 5 L, moss
    """
    # Half a centimetre on 30 x 20 cm is 0.3 L, and a litre in the mix.
    assert shelf(bought)["sphagnum"].on_hand == pytest.approx(10 - 1 - 0.3)
    # What was used stands for what lies on top; that of the mix goes as well.
    used = shelf(bought.rstrip() + "\n      used      sphagnum 0.5 L\n")
    assert used["sphagnum"].on_hand == pytest.approx(10 - 1 - 0.5)


def test_what_was_used_of_an_ingredient_stands_for_that_of_the_mix(shelf) -> None:
    found = shelf("""
    2026-01-01
    lava
      bought    1 bag
    2026-03-01
    oak
      repotted  same pot, mix grit 4 L
      used      lava 6 L
    """)
    assert found["lava"].on_hand == 14


# ------------------------------------------------------------------ wire, ties, feed


def test_a_roll_in_metres(shelf) -> None:
    found = shelf("""
    2026-01-01
    al-2
      bought    1 roll, 24 EUR
    al-1
      bought    2 rolls
    2026-02-01
    oak
      used      al-2 100 g
    """)
    # A metre of 2 mm is pi cm³, 2.70 g each: 8.482 g. So a roll of 1 kg is 117.89 m.
    metre_g = pi * 2.70
    assert found["al-2"].bought == pytest.approx(117.8926, abs=1e-4)
    assert found["al-2"].on_hand == pytest.approx(900 / metre_g)
    # Nine tenths of 24 EUR.
    assert found["al-2"].value == Decimal("21.60")
    # Half as thick, a quarter as heavy; two rolls of 500 g.
    assert found["al-1"].bought == pytest.approx(4000 / metre_g)


@pytest.mark.parametrize(
    ("wired", "metres"),
    [
        ("2 mm Al on left 2", 2.0),
        ("2 mm on left 2, 2 mm on right 1", 4.0),
        ("2 mm Al on left 2 tip", 1.0),
        ("2 mm Al on whole tree", 12.0),
        # The height and a third: 0.6 m x 4/3.
        ("2 mm Al on trunk line", 0.8),
    ],
)
def test_wire_by_rule_of_thumb(shelf, wired: str, metres: float) -> None:
    found = shelf(f"""
    2026-01-01
    oak
      measured  height 60 cm
      wired     {wired}
    """)
    assert found["al-2"].reckoned == pytest.approx(metres)


def test_a_rule_of_thumb_may_be_set(shelf) -> None:
    found = shelf(
        """
    2026-01-01
    oak
      wired     2 mm Al on left 2
    """,
        settings="[figures]\nmiddle_wire_m = 2.5\n",
    )
    assert found["al-2"].reckoned == 2.5


def test_wire_that_was_weighed_within_two_months_is_not_reckoned_too(shelf) -> None:
    diary = """
    2026-01-01
    oak
      wired     2 mm Al on left 2, 1 mm Al on apex
    {day}
    oak
      used      al-2 84.823 g
    """
    soon = shelf(diary.format(day="2026-02-15"))
    assert (soon["al-2"].written, soon["al-2"].reckoned) == (pytest.approx(10, abs=1e-4), 0)
    assert soon["al-1"].reckoned == 0
    late = shelf(diary.format(day="2026-04-15"))
    assert (late["al-2"].reckoned, late["al-1"].reckoned) == (2, 3)


def test_wire_of_a_thickness_without_a_card_is_told(written) -> None:
    found = stores(
        written(
            CARDS
            + """
    2026-01-01
    oak
      wired     1.2 mm Cu on apex
    """
        )
    )
    title = "annealed copper wire 1.2 mm"
    (kept,) = (one for one in found.shelf if not one.material.carded)
    assert (kept.material.title, kept.on_hand) == (title, -3)
    assert [one.what for one in found.missing] == [title]


def test_ties_are_as_long_as_the_pot_asks_for(shelf) -> None:
    found = shelf("""
    2026-01-01
    oak
      repotted  same pot, mix grit 1 L, tied 2 mm x 2 Al, mesh 2
    """)
    # Across 30 cm, up 6 at both ends, and 5 to twist at each: 52 cm.
    assert found["al-2"].reckoned == pytest.approx(1.04)
    # Two staples of four times a hole of 2 cm.
    assert found["aluminium wire 1.5 mm"].reckoned == pytest.approx(0.16)


def test_feed_by_the_cake_by_weight_and_by_strength(shelf) -> None:
    found = shelf("""
    2026-01-01
    cakes
      bought    1 box, 40 EUR
    2026-04-01
    oak, elm
      fed       6 cakes
    oak
      fed       2 mL/L with liquid, 3 L
      fed       20 g with powder
    """)
    # A dose is for each tree.
    assert (found["cakes"].on_hand, found["cakes"].value) == (188, Decimal("37.60"))
    assert found["liquid"].written == pytest.approx(0.006)
    assert found["powder"].written == pytest.approx(0.020)


def test_a_use_that_nobody_can_reckon_is_counted_and_told(written) -> None:
    session = written(
        CARDS
        + """
    2026-01-01
    powder
      bought    1 tub
    oak, elm
      fed       3 spoons with powder
      fed       liquid half strength with liquid, 1 L
    """
    )
    found = stores(session)
    kept = {one.material.key: one for one in found.shelf}
    assert (kept["powder"].on_hand, kept["powder"].untold) == (2, 2)
    assert [(one.what, one.times) for one in found.missing] == [
        ("powder, given by the spoon", 2),
        ("liquid, given by the litre of water", 2),
    ]


def test_a_weight_of_what_is_counted_by_the_piece_asks_for_pieces(written) -> None:
    session = written(
        CARDS
        + """
    2026-01-01
    oak
      fed       20 g with cakes
    """
    )
    assert [(one.what, one.to_write) for one in stores(session).missing] == [
        (
            "cakes, given by the gram",
            "how many pieces it was: its card counts it by the piece",
        ),
    ]


# ------------------------------------------------------------------ counted


def test_a_count_sets_what_is_on_hand(written) -> None:
    session = written(
        "material lava\n  sold in  bag of 20 L\n"
        "2026-01-01\nlava\n  bought  2 bags, 30 EUR\n"
        "2026-05-01\nlava\n  counted  1 bag\n"
    )
    (lava,) = stores(session).shelf
    assert (lava.on_hand, lava.counted) == (20, date(2026, 5, 1))
    # Half of 30 EUR.
    assert lava.value == Decimal("15.00")


@pytest.mark.parametrize(
    ("lines", "on_hand", "value"),
    [
        # On one day what is bought comes before what is used, and a count after both.
        ("oak\n      used  lava 5 L\n    lava\n      bought  1 bag, 20 EUR", 15, "15.00"),
        (
            "lava\n      counted  10 L\n    oak\n      used  lava 5 L\n"
            "    lava\n      bought  1 bag, 20 EUR",
            10,
            "10.00",
        ),
    ],
)
def test_what_happens_on_one_day_has_its_order(shelf, lines, on_hand, value) -> None:
    """The day is today: what was done on it is done."""
    found = shelf(f"\n    2026-03-01\n    {lines}\n", on="2026-03-01")
    assert found["lava"].on_hand == pytest.approx(on_hand)
    assert found["lava"].value == Decimal(value)


@pytest.mark.parametrize(("roots", "on_shelf"), [("no root work", False), ("1 cm off below", True)])
def test_what_no_potting_took_stands_on_no_shelf(written, roots, on_shelf) -> None:
    """Moondust has no card, so it is on the shelf only where something was taken of it."""
    text = f"""
    mix odd
      moondust  1
    pot low
      inside    30 x 20 x 6 cm
    tree oak
      kind      garden shrub
      pot       low
      mix       odd
    2026-03-01
    oak
      repotted  same pot, {roots}
    """
    found = [one.material.key for one in stores(written(text)).shelf]
    assert ("moondust" in found) is on_shelf
