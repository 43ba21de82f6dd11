"""What to buy for the planned works: every figure worked out by hand beside it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path
from textwrap import dedent

import pytest

from backbud.plan.stores import Stores, stores_of
from backbud.plan.stores.values import Buy
from backbud.session import Session, open_session

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
    material sphagnum
      sold in    bag of 5 L
      price      16.50 EUR
    material lava
      sold in    bag of 20 L
      price      14 EUR
    material al-2
      name       aluminium wire 2 mm
      sold in    roll of 1 kg
      price      24 EUR
      metal      aluminium
    material cakes
      sold in    box of 200
      price      40 EUR
    pot low
      shape      rectangle
      inside     30 x 20 x 6 cm
      holes      2
    pot twin
      shape      rectangle
      inside     30 x 20 x 6 cm
      holes      2
    pot wide
      shape      rectangle
      inside     40 x 30 x 6 cm
      holes      4
    tree oak
      kind       garden shrub
      pot        low
      mix        grit
    tree elm
      kind       garden shrub
      pot        twin
      mix        acid
"""


def stores(session: Session) -> Stores:
    return stores_of(session.journal, session.histories, session.plan(), session.today)


@pytest.fixture
def buying(written):
    """What is wanted, by the material's key, on 20 November 2026."""

    def after(diary: str, **given: object) -> dict[str, Buy]:
        found = stores(written(CARDS + diary, **given))
        return {one.material.key: one for one in found.buying}

    return after


PLANNED = """
    2026-11-01
    elm
      planned   repot, to 2027-03, mix acid 10 L, tied 2 mm x 2 Al
"""


def test_a_planned_repotting_in_bags(buying) -> None:
    found = buying(PLANNED)
    kanuma, sphagnum = found["kanuma"], found["sphagnum"]
    # 8 L of kanuma in the mix, 8 / 0.85 from the bag, and a tenth more: 10.35 L.
    assert kanuma.wanted == pytest.approx(9.411765, abs=1e-6)
    assert kanuma.with_margin == pytest.approx(10.352941, abs=1e-6)
    assert (kanuma.count, kanuma.cost) == (1, Decimal("19.00"))
    # 14 L less what the work takes.
    assert kanuma.left_over == pytest.approx(4.588235, abs=1e-6)
    assert sphagnum.with_margin == pytest.approx(2.2)
    assert (sphagnum.count, sphagnum.cost) == (1, Decimal("16.50"))
    (want,) = kanuma.wants
    assert (want.tree, want.day, want.because) == ("elm", date(2027, 3, 16), "as planned")
    # Two ties of 52 cm, and a tenth.
    assert found["al-2"].with_margin == pytest.approx(1.144)


def test_what_is_on_hand_comes_off_and_the_margin_may_be_set(buying) -> None:
    on_hand = """
    2026-01-01
    kanuma
      bought    1 bag
    2026-02-01
    oak
      used      kanuma 4 L
    """
    found = buying(on_hand + PLANNED)["kanuma"]
    # 10.35 L wanted with the margin, 10 L here.
    assert (found.on_hand, found.count) == (10, 1)
    assert found.short == pytest.approx(0.352941, abs=1e-6)
    exact = buying(on_hand + PLANNED, settings="[figures]\nbuying_margin_percent = 0\n")["kanuma"]
    assert (exact.short, exact.count, exact.cost) == (0, 0, Decimal("0.00"))


def test_more_used_than_bought_is_no_debt(buying) -> None:
    found = buying(
        """
    2026-02-01
    oak
      used      kanuma 40 L
    """
        + PLANNED
    )["kanuma"]
    assert (found.on_hand, found.count) == (0, 1)


MESH = """
    2026-11-01
    oak
      planned   repot, to 2027-03, mix grit 1 L
"""


def test_what_is_counted_by_the_piece_is_bought_whole(written) -> None:
    """Two holes and a tenth are 2.2 pieces: three; and the card to write counts them too."""
    found = stores(written(CARDS + MESH))
    (mesh,) = (one for one in found.buying if one.material.key == "mesh")
    assert (mesh.wanted, mesh.with_margin, mesh.short) == (2, 3, 3)
    (lacks,) = (one.to_write for one in found.missing if one.what == "mesh")
    assert lacks == "a card: material mesh, sold in box of 50, price 12 EUR"
    card = """
    material mesh
      sold in  box of 50
      price    12 EUR
    """
    (mesh,) = (
        one for one in stores(written(CARDS + card + MESH)).buying if one.material.key == "mesh"
    )
    assert (mesh.with_margin, mesh.count, mesh.cost) == (3, 1, Decimal("12.00"))


def test_two_works_want_two_bags(buying) -> None:
    found = buying("""
    2026-11-01
    elm, oak
      planned   repot, to 2027-04, mix acid 10 L
    """)["kanuma"]
    # 2 x 9.411765 and a tenth are 20.71 L: two bags of 14 L, 38 EUR.
    assert (found.count, found.cost) == (2, Decimal("38.00"))
    assert [want.tree for want in found.wants] == ["elm", "oak"]


def test_the_same_pot_takes_what_it_took_the_last_time(buying) -> None:
    found = buying("""
    2024-03-01
    oak
      repotted  same pot, mix grit 3.8 L
    2026-11-01
    oak
      planned   repot, to 2027-03
    """)["lava"]
    # 5 % stay in the sieve.
    assert found.wanted == pytest.approx(4.0)
    assert found.wants[0].because == "as on 1 March 2024"


def test_else_it_is_reckoned_from_the_pot(buying) -> None:
    found = buying("""
    2026-11-01
    oak
      planned   repot, to 2027-03, into wide
    """)
    # 40 x 30 x 5 cm are 6 L; of the ball, 3 L in the old pot, two thirds stay: 4 L of room.
    assert found["lava"].wanted == pytest.approx(4 / 0.95 / 0.95)
    assert found["lava"].wants[0].because.startswith("reckoned: 33% of the root ball")
    # A pot of 7.2 L has two ties of 2.5 mm, 40 + 2 x 6 + 10 cm each; four staples.
    assert found["aluminium wire 2.5 mm"].wanted == pytest.approx(1.24)
    assert found["aluminium wire 1.5 mm"].wanted == pytest.approx(0.32)


def test_wire_as_the_last_time_weighed_or_reckoned(buying) -> None:
    planned = """
    2026-11-01
    oak, elm
      planned   wire, to 2027-01
    """
    found = buying(
        """
    2025-01-01
    elm
      wired     2 mm Al on left 1, 2 mm Al on left 2
    2025-12-01
    oak
      wired     2 mm Al on left 1
    2025-12-20
    oak
      used      al-2 84.823 g
    """
        + planned
    )["al-2"]
    # 84.823 g of 2 mm are 10 m; two branches at 2 m each.
    amounts = {want.tree: want.quantity for want in found.wants}
    assert amounts == {"oak": pytest.approx(10, abs=1e-4), "elm": 4}
    assert {want.because for want in found.wants} == {
        "weighed, as on 1 December 2025",
        "reckoned, as on 1 January 2025",
    }


def test_wire_as_it_was_planned(buying) -> None:
    found = buying("""
    2026-11-01
    oak
      planned   wire, to 2027-01, 2 mm Al on left 1, 2 mm Al on left 2 tip
    """)["al-2"]
    # A branch and half a one.
    assert found.wanted == pytest.approx(3.0)


def test_feed_is_the_dose_of_that_time_of_the_year(buying) -> None:
    found = buying("""
    2026-05-01
    oak
      fed       6 cakes
    2026-09-01
    oak
      fed       2 cakes
    2026-11-01
    oak
      planned   feed, to 2027-05-10
    """)["cakes"]
    assert (found.wanted, found.wants[0].because) == (6, "as on 1 May 2026")


def test_what_cannot_be_reckoned_says_what_to_write(written) -> None:
    found = stores(
        written("""
    tree oak
      kind       garden shrub
    tree elm
      kind       garden shrub
    2026-11-01
    oak, elm
      planned   repot, to 2027-03
      planned   wire, to 2027-01
    """)
    )
    assert found.buying == ()
    assert [(one.what, one.trees) for one in found.missing] == [
        ("wire", ("oak", "elm")),
        ("repot", ("oak", "elm")),
        ("ties and mesh to repot", ("oak", "elm")),
    ]
    assert found.missing[1].to_write == "its mix, as a line “mix” on its card"


def test_a_feeding_of_which_no_dose_is_known_is_not_passed_over(written) -> None:
    """Nothing to buy may be said only where every work was reckoned."""
    cards = """
    tree oak
      kind       garden shrub
    material cakes
      sold in    box of 200
    """
    planned = """
    2026-11-01
    oak
      planned   feed, to 2027-04
    """
    found = stores(written(cards + planned))
    assert [(one.what, one.trees) for one in found.missing] == [("feed", ("oak",))]
    assert found.missing[0].to_write.endswith("as: fed 20 g with cakes")
    before = "    2026-04-01\n    oak\n      fed  4 cakes\n"
    found = stores(written(cards.rstrip(" ") + before + planned))
    assert found.missing == ()
    assert [(buy.wanted, buy.entered) for buy in found.buying] == [(4.0, False)]


@pytest.mark.parametrize(
    ("settings", "price", "asked"),
    [
        ('currency = "GBP"\n', "", "GBP"),
        # Where the settings name none, the first priced card does.
        ("", "price 3 CHF", "CHF"),
    ],
)
def test_a_price_is_asked_for_in_the_journals_currency(
    tmp_path: Path, settings: str, price: str, asked: str
) -> None:
    (tmp_path / "backbud.toml").write_text(f"language = 1\n{settings}")
    (tmp_path / "journal.txt").write_text(
        dedent(f"""
        material moss
          sold in  bag of 5 L
          {price}
        tree oak
          kind     trident maple

        2026-11-01
        oak
          wired    2 mm Al on left 1
        moss
          bought
        """)
    )
    found = stores(open_session(str(tmp_path), date(2026, 11, 20)))
    asking = " ".join(one.to_write for one in found.missing)
    assert f"price 24 {asked}, metal" in asking
    assert f"bought 3 bags, 51 {asked}" in asking
    assert "EUR" not in asking


def test_no_currency_is_made_up(tmp_path: Path) -> None:
    """Neither the settings nor a card names one: a price would be a problem as it stands."""
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "journal.txt").write_text(
        "material moss\n  sold in  bag of 5 L\ntree oak\n  kind     trident maple\n\n"
        "2026-11-01\noak\n  wired    2 mm Al on left 1\nmoss\n  bought\n"
    )
    asking = {
        one.what: one.to_write
        for one in stores(open_session(str(tmp_path), date(2026, 11, 20))).missing
    }
    assert asking["aluminium wire 2 mm"] == (
        "a card: material aluminium-wire-2-mm, name aluminium wire 2 mm, sold in roll of 1 kg, "
        "metal aluminium (its price too, once backbud.toml names your currency)"
    )
    assert "how much it was, as: bought 3 bags (what it cost too, with the currency's code)" in (
        asking.values()
    )


def test_only_what_stands_within_a_year_is_bought_for(buying) -> None:
    assert (
        buying("""
    2026-11-01
    elm
      planned   repot, to 2028-03, mix acid 10 L
    """)
        == {}
    )


def test_only_wire_that_was_weighed_stands_for_that_of_the_last_time(buying) -> None:
    """Lava of those weeks is no wire, and the wire itself is reckoned: two metres a branch."""
    found = buying("""
    2025-12-01
    oak
      wired     2 mm Al on left 1
    2025-12-20
    oak
      used      lava 3 L
    2026-11-01
    oak
      planned   wire, to 2027-01
    """)
    assert [(want.tree, want.quantity) for want in found["al-2"].wants] == [("oak", 2)]
    assert "lava" not in found


DONE = """
    2025-03-01
    elm
      repotted  same pot, mix acid 5 L
"""


@pytest.mark.parametrize(
    ("planned", "litres", "because"),
    [
        ("repot", 5.0, "as on 1 March 2025"),
        ("repot, mix acid", 5.0, "as on 1 March 2025"),
        ("repot, mix acid 10 L", 10.0, "as planned"),
        # How many litres two kilograms are, nobody knows.
        ("repot, mix acid 2 kg", 5.0, "as on 1 March 2025"),
        # A pot of 40 x 30 x 5 cm has 6 L. A third of a ball of 3 L goes; the mix settles by 5 %.
        ("repot into wide", 4.0 / 0.95, "reckoned: "),
    ],
)
def test_a_planned_repotting_takes_what_is_said_or_as_much_as_the_last(
    buying, planned, litres, because
) -> None:
    found = buying(f"{DONE}\n    2026-11-01\n    elm\n      planned   {planned}, to 2027-03\n")
    assert found["kanuma"].wanted == pytest.approx(litres * 0.8 / 0.85)
    (want,) = found["kanuma"].wants
    assert want.because.startswith(because)
