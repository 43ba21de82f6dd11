"""The stores page and its command: literal figures, and that prices stay with the keeper."""

from __future__ import annotations

import json
import re
from datetime import date
from decimal import Decimal
from pathlib import Path
from textwrap import dedent

import msgspec
import pytest

from backbud.cli import main
from backbud.pages import Nursery, render_pages
from backbud.pages.drawings.standing import standing
from backbud.pages.stores import as_sold, quantity, stores_sheet
from backbud.plan.stores.values import Buy, Material, NotReckoned, StockedMaterial, Stores, Want
from backbud.stores_report import stores_lines
from backbud.views.shelf import material_view, shelf_view
from backbud.words import money

LAVA = Material("lava", "lava", "L", sold_units=20.0, container="bag")
WIRE = Material(
    "al-2", "aluminium wire 2 mm", "m", sold_units=117.8926, container="roll",
    metal="Al", thickness_mm=2.0,
)  # fmt: skip
PLASTER = Material("wire <b>", "wire <b>", "m", carded=False)


def kept(material: Material, on_hand: float, **given: object) -> StockedMaterial:
    plain: dict[str, object] = {
        "bought": 40.0, "written": 3.0, "reckoned": 0.0, "since": date(2026, 1, 1),
        "counted": None, "average": None, "value": None, "price": None, "price_since": None,
        "year": 3.0,
    }  # fmt: skip
    return StockedMaterial(material, on_hand=on_hand, **(plain | given))


def stores() -> Stores:
    want = Want("lava", 36.0, "hoshi/x/y", "Hoshi", "repot", date(2027, 3, 6), "as on 2024-03-09")
    return Stores(
        "EUR",
        10.0,
        date(2027, 11, 25),
        (
            kept(LAVA, 12.0, value=Decimal("8.40"), price=Decimal("14.00")),
            kept(WIRE, 100.0, reckoned=6.0, value=Decimal("20.36"), untold=2),
            kept(PLASTER, -2.5, since=None),
        ),
        (
            Buy(LAVA, 36.0, 39.6, 12.0, 27.6, 2, 16.0, Decimal("28.00"), (want,)),
            Buy(PLASTER, 5.0, 5.5, 0.0, 5.5, None, None, None, (), entered=False),
            Buy(WIRE, 10.0, 11.0, 100.0, 0.0, 0, 90.0, Decimal("0.00"), (), untold=2),
        ),
        (
            NotReckoned("repot", "its mix", ("pip", "Moth")),
            NotReckoned("cakes", "their weight", times=9),
        ),
        Decimal("28.76"),
        Decimal("28.00"),
    )


@pytest.mark.parametrize(
    ("value", "material", "shown"),
    [
        (0.04, LAVA, "40 mL"),
        (4.52, LAVA, "4.5 L"),
        (124.75, LAVA, "125 L"),
        (9.96, WIRE, "10.0 m"),
        (106.5, WIRE, "106 m"),
        (0.94, Material("x", "x", "kg"), "940 g"),
        (2.5, Material("x", "x", "kg"), "2.5 kg"),
        (1.0, Material("x", "x", "", container="sheet"), "1 sheet"),
        (188.0, Material("x", "x", "", sold_units=200.0, container="box"), "188 pieces"),
    ],
)
def test_how_much(value: float, material: Material, shown: str) -> None:
    assert quantity(value, material_view(material)) == shown


def test_how_many_as_sold_and_what_it_costs() -> None:
    lava = material_view(LAVA)
    box = material_view(Material("x", "x", "kg", container="box"))
    assert [as_sold(n, lava) for n in (1, 2, 2.55)] == ["1 bag", "2 bags", "2.5 bags"]
    assert [as_sold(n, box) for n in (1, 3)] == ["1 box", "3 boxes"]
    assert (money(Decimal("84.5"), "EUR"), money(Decimal(3), "")) == ("84.50 EUR", "3.00")


def test_what_to_buy_stands_first_and_what_is_enough_after_it() -> None:
    found = stores_sheet(shelf_view(stores()), 2026)
    lava, plaster = found.to_buy
    assert (lava.count, lava.name, lava.cost) == ("2 bags", "lava", "28.00 EUR")
    assert lava.why == "40 L wanted, 10 % over included; 12 L on hand"
    (want,) = lava.wants
    assert (want.tree, want.when, want.amount) == ("Hoshi", "6 March 2027", "36 L")
    assert (plaster.count, plaster.cost, plaster.note) == (
        "5.5 m",
        "",
        "How it is sold is not written down.",
    )
    (wire,) = found.enough
    # What the works take off what is here.
    assert (wire.count, wire.name) == ("90 m", "aluminium wire 2 mm")


def test_the_shelf_hides_no_mistake() -> None:
    found = stores_sheet(shelf_view(stores()), 2026)
    lava, wire, plaster = found.shelf
    assert (lava.amount, lava.as_sold, lava.value, lava.wrong) == (
        "12 L",
        "0.6 bags",
        "8.40 EUR",
        "",
    )
    # 100 m of 2 mm weigh pi cm³ a metre, 2.70 g each.
    assert (wire.amount, wire.notes) == (
        "at most 100 m",
        (
            "About 848 g.",
            "2 uses of it not taken off: how much is not written.",
            "6.0 m of what went is reckoned.",
        ),
    )
    assert (plaster.amount, plaster.wrong) == (
        "not entered",
        "2.5 m used, and no stock was entered: write what was bought, or count it.",
    )
    assert (found.wrong, found.unentered) == (0, 1)


def test_more_used_than_bought_is_said_only_of_what_was_bought() -> None:
    short = msgspec.structs.replace(stores(), shelf=(kept(PLASTER, -2.5),))
    found = stores_sheet(shelf_view(short), 2026)
    assert (found.wrong, found.unentered) == (1, 0)
    assert found.shelf[0].wrong.startswith("2.5 m more used than bought")


def test_a_sum_says_that_it_is_not_of_all() -> None:
    """The plaster has no price, and two uses of the wire are not taken off."""
    found = stores_sheet(shelf_view(stores()), 2026)
    assert (str(found.cost), str(found.value)) == ("at least 28.00 EUR", "at most 28.76 EUR")
    assert found.to_buy[1].why.endswith("no stock entered")
    assert found.enough[0].why.endswith("at most 100 m on hand")


@pytest.mark.parametrize(
    ("missing", "said"),
    [
        ((), "Nothing to buy for the works until 25 November 2027."),
        (
            (NotReckoned("a feed", "which", ("pip",), 105),),
            "Nothing to buy for the works until 25 November 2027, of what could be reckoned.",
        ),
    ],
)
def test_nothing_to_buy_is_said_of_what_is_reckoned(
    nursery: Nursery, missing: tuple[NotReckoned, ...], said: str
) -> None:
    found = msgspec.structs.replace(stores(), buying=stores().buying[2:], missing=missing)
    page = render_pages(msgspec.structs.replace(nursery, stores=found))["stores.html"].decode()
    assert said in page
    assert ("105 uses could not be reckoned" in page) == bool(missing)
    line = next(iter(stores_lines(shelf_view(found), 2026)))
    assert line.endswith(", of what could be reckoned.") == bool(missing)


@pytest.fixture(scope="module")
def pages(nursery: Nursery) -> dict[str, bytes]:
    return render_pages(msgspec.structs.replace(nursery, stores=stores()))


def test_the_page_says_it_and_escapes_it(pages: dict[str, bytes]) -> None:
    page = pages["stores.html"].decode()
    for said in (
        "Buy 2 bags of lava and 5.5 m of wire &lt;b&gt; for the works until 25 November 2027.",
        "It costs at least 28.00 EUR.",
        "at most 28.76 EUR",
        "of 1 material no stock was entered",
        "10 uses could not be reckoned",
        '11 m, <span class="nowrap">90 m left then</span>',
        "wire &lt;b&gt;",
        "pip, Moth",
        "9 times",
    ):
        assert said in page
    assert "<script" not in page and "http" not in page.replace("http-equiv", "")


def test_what_is_there_stands_filled_and_what_to_buy_unfilled() -> None:
    """12 L are six tenths of a bag, and two are bought; 100 m of wire are 0.85 of a roll."""
    found = stores_sheet(shelf_view(stores()), 2026)
    lava = found.to_buy[0].drawing
    outline, filled = re.findall(r'd="([^"]*)"', lava)[1:]
    assert (outline.count("M"), filled) == (3, "M2 17v-9.0h12V17z")
    assert found.shelf[1].drawing.count("<path") == 3
    # Nobody wrote how the plaster is sold.
    assert found.to_buy[1].drawing == ""
    # More than twelve are left to the words.
    assert re.findall(r'd="([^"]*)"', standing(30.5, 2, False))[1].count("M") == 12
    assert standing(0.0, 0, True) == ""


def test_prices_stand_on_no_other_page(pages: dict[str, bytes]) -> None:
    told = [path for path, page in pages.items() if b"EUR" in page]
    assert told == ["stores.html"]


def test_an_empty_store_says_how_to_begin(nursery: Nursery) -> None:
    page = render_pages(nursery)["stores.html"].decode()
    assert "material akadama" in page and "<table" not in page


# ------------------------------------------------------------------ the command

JOURNAL = """\
    material lava
      sold in  bag of 20 L
      price    14 EUR
    mix grit
      lava     1
    tree oak
      kind     trident maple
      mix      grit

    2026-01-01
    lava
      bought   1 bag, 14 EUR
    2026-02-01
    oak
      repotted same pot, mix grit 9.5 L
    2026-11-01
    oak
      planned  repot, to 2027-03
    """


@pytest.fixture
def journal(tmp_path: Path) -> str:
    (tmp_path / "backbud.toml").write_text('language = 1\ncurrency = "EUR"\n')
    home = "place yard\n  latitude 52 N\n"
    (tmp_path / "journal.txt").write_text(home + dedent(JOURNAL))
    return str(tmp_path)


def test_the_command_for_a_program(journal: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["stores", journal, "--json", "--on", "2026-11-20"]) == 0
    found = json.loads(capsys.readouterr().out)
    # 9.5 L, and 5 % stay in the sieve: 10 L of 20. The next time as much, and a tenth.
    assert found["value"] == "7.00"
    (lava,) = found["shelf"]
    assert (lava["on_hand"], lava["unit"], lava["price"]) == (10.0, "L", "14.00")
    assert lava["used_as_written_plus_sieving"] == 10.0
    buy = found["buy"][0]
    assert (buy["wanted"], buy["with_margin"], buy["count"], buy["cost"]) == (10, 11, 1, "14.00")
    assert buy["for"][0]["id"] == "oak/planned/repotted-2026-11-01"


def test_the_command_for_a_person(journal: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["stores", journal, "--on", "2026-11-20"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "To buy for the works until 20 November 2027, 14.00 EUR"
    assert " ".join(lines[1].split()) == (
        "1 bag lava 14.00 EUR 11 L wanted, 10 % over included; 10 L on hand"
    )
    assert "On the shelf, 7.00 EUR" in lines
