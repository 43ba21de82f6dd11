"""Visits of other people's trees, and what they come to: each sum worked out by hand beside it."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal as D
from fractions import Fraction

from backbud.views.visit import AccountView, in_the_house

CARDS = """\
place yard
  latitude 52 N
person me
  rate 40 EUR/h
person ada
  name Ada
person bo
  name Bo
material akadama
  sold in bag of 14 L
  price 21 EUR
tree hoshi
  kind trident maple
  owner ada
  place yard
tree yuki
  kind trident maple
  owner bo
  place yard
tree mine
  kind trident maple
  place yard
"""
SETTINGS = 'home = "yard"\nkeeper = "me"\n'


def account(written, diary: str, who: str = "ada", on: str = "2026-11-20") -> AccountView:
    session = written(CARDS + diary, on, settings=SETTINGS)
    return next(one for one in session.accounts() if one.person == who)


def sums(found: AccountView) -> list[tuple[str, str, str, str, str, str]]:
    return [
        (m.currency, *map(str, (m.comes_to, m.billed, m.paid, m.open, m.to_bill)))
        for m in found.money
    ]


def test_hours_and_materials_by_the_hour(written) -> None:
    """1 h 20 at 40 EUR: 53.333 → 53.33. 3 L of a bag of 14 L for 21 EUR: 4.50. Together 57.83."""
    found = account(
        written,
        "2026-03-06\nhoshi\n  received from ada for repotting\n  worked 1 h 20\n"
        "  used akadama 3 L\n",
    )
    (visit,) = found.visits
    assert [(c.sort, str(c.amount), c.within) for c in visit.charges] == [
        ("hours", "53.33", False),
        ("material", "4.50", False),
    ]
    assert sums(found) == [("EUR", "57.83", "0.00", "0.00", "0.00", "57.83")]


def test_a_rate_that_is_agreed_goes_before_the_cards(written) -> None:
    found = account(
        written,
        "2026-03-06\nhoshi\n  received from ada\n  agreed rate 50 EUR/h\n  worked 30 min\n",
    )
    assert sums(found)[0][1] == "25.00"


def test_a_price_for_the_whole_stands_for_hours_and_materials(written) -> None:
    found = account(
        written,
        "2026-03-06\nhoshi\n  received from ada\n  agreed 120 EUR for repotting\n"
        "  worked 5 h\n  used akadama 14 L\n",
    )
    (visit,) = found.visits
    assert [(c.sort, c.amount, c.within) for c in visit.charges] == [
        ("price", D("120.00"), False),
        ("hours", None, True),
        ("material", None, True),
    ]
    assert (visit.hours, visit.unpriced) == (D(5), 0)
    assert sums(found) == [("EUR", "120.00", "0.00", "0.00", "0.00", "120.00")]


def test_materials_on_top_of_a_price_are_charged(written) -> None:
    found = account(
        written,
        "2026-03-06\nhoshi\n  received from ada\n  agreed 120 EUR plus materials\n"
        "  used akadama 14 L\n",
    )
    assert sums(found)[0][1] == "141.00"


def test_a_material_costs_what_it_was_last_priced_at_on_that_day(written) -> None:
    """7 L at 21 EUR for 14 L: 10.50; after the new price of 28 EUR: 14.00."""
    found = account(
        written,
        "2026-03-06\nhoshi\n  received from ada\n  used akadama 7 L\n"
        "2026-04-01\nakadama\n  priced 28 EUR\n"
        "2026-04-02\nhoshi\n  used akadama 7 L\n",
    )
    assert [str(c.amount) for c in found.visits[0].charges] == ["10.50", "14.00"]


def test_a_total_is_shared_among_its_trees_and_their_owners(written) -> None:
    """An hour and a half on three trees: half an hour each, 20 EUR at 40 EUR/h."""
    diary = "2026-03-06\nhoshi, yuki\n  received\n2026-03-07\nhoshi, yuki, mine\n  worked 1 h 30\n"
    assert sums(account(written, diary, "ada"))[0][1] == "20.00"
    assert sums(account(written, diary, "bo"))[0][1] == "20.00"


def test_what_is_billed_is_owed_and_what_is_paid_is_not(written) -> None:
    found = account(
        written,
        "2026-03-06\nhoshi\n  received from ada\n  paid 30 EUR deposit\n  worked 2 h\n"
        "2026-04-01\nhoshi\n  billed 80 EUR, number 2026-01\n  returned to ada\n"
        "2026-04-09\nada\n  paid 20 EUR by transfer\n",
    )
    assert sums(found) == [("EUR", "80.00", "80.00", "50.00", "30.00", "0.00")]
    assert [(b.number, str(b.amount)) for b in found.bills] == [("2026-01", "80.00")]
    assert [(p.tree, p.how) for p in found.payments] == [("hoshi", "deposit"), ("", "by transfer")]


def test_more_paid_than_billed_is_open_the_other_way(written) -> None:
    found = account(written, "2026-03-06\nhoshi\n  received from ada\n  paid 30 EUR deposit\n")
    assert sums(found) == [("EUR", "0.00", "0.00", "30.00", "-30.00", "0.00")]


def test_what_comes_after_a_bill_is_still_to_bill(written) -> None:
    found = account(
        written,
        "2026-03-06\nhoshi\n  received from ada\n  worked 1 h\n"
        "2026-04-01\nhoshi\n  billed 40 EUR\n2026-04-03\nhoshi\n  worked 30 min\n",
    )
    assert sums(found) == [("EUR", "60.00", "40.00", "0.00", "40.00", "20.00")]


def test_a_last_bill_under_the_price_leaves_nothing_once_the_tree_is_home(written) -> None:
    here = (
        "2026-03-06\nhoshi\n  received from ada\n  agreed 150 EUR\n"
        "2026-04-01\nhoshi\n  billed 60 EUR\n"
    )
    assert sums(account(written, here))[0][5] == "90.00"
    assert sums(account(written, f"{here}  returned to ada\n"))[0][5] == "0.00"


def test_two_currencies_are_never_added(written) -> None:
    found = account(
        written,
        "2026-03-06\nhoshi\n  received from ada\n  agreed 100 GBP\n"
        "2026-04-01\nhoshi\n  billed 100 GBP\n  paid 50 EUR\n",
    )
    assert sums(found) == [
        ("GBP", "100.00", "100.00", "0.00", "100.00", "0.00"),
        ("EUR", "0.00", "0.00", "50.00", "-50.00", "0.00"),
    ]


def test_hours_without_any_rate_are_told_and_not_guessed(written) -> None:
    cards = CARDS.replace("  rate 40 EUR/h\n", "")
    session = written(
        f"{cards}2026-03-06\nhoshi\n  received from ada\n  worked 2 h\n", settings=SETTINGS
    )
    found, _ = session.accounts()
    assert (found.person, found.money, found.visits[0].unpriced) == ("ada", (), 1)


def test_each_coming_is_a_visit_and_a_bill_after_it_belongs_to_it(written) -> None:
    found = account(
        written,
        "2025-03-06\nhoshi\n  received from ada\n  worked 1 h\n"
        "2025-04-01\nhoshi\n  returned to ada\n2025-04-20\nhoshi\n  billed 40 EUR\n"
        "2026-03-06\nhoshi\n  received from ada\n",
    )
    assert [(v.came, v.went, v.how, len(v.bills)) for v in found.visits] == [
        (date(2026, 3, 6), None, "here", 0),
        (date(2025, 3, 6), date(2025, 4, 1), "returned", 1),
    ]


def test_lent_out_and_back_is_one_visit_and_the_keepers_own_trees_make_none(written) -> None:
    session = written(
        f"{CARDS}2026-03-06\nhoshi\n  received from ada\n2026-04-01\nhoshi\n  lent to bo\n"
        "2026-05-01\nhoshi\n  returned\nmine\n  worked 2 h\n",
        settings=SETTINGS,
    )
    assert [(a.person, len(a.visits)) for a in session.accounts()] == [("ada", 1), ("bo", 1)]


def test_a_line_that_was_taken_back_is_not_charged(written) -> None:
    found = account(
        written,
        "2026-03-06\nhoshi\n  received from ada\n  worked 1 h\n"
        "2026-03-07\nhoshi\n  corrected worked 2026-03-06, not done\n",
    )
    assert found.visits[0].charges == ()


def test_a_tree_under_cover_is_not_sent_home_out_of_it(written) -> None:
    """Wanted by the end of January, protected in November: its cover stays till spring."""
    session = written(
        f"{CARDS}2026-10-06\nhoshi\n  received from ada, wanted by 2027-01\n"
        "2026-11-10\nhoshi\n  protected fleece\n",
        settings=SETTINGS,
    )
    (visit,) = (one for one in in_the_house(session.accounts()) if one.tree == "hoshi")
    assert [hold.title for hold in visit.holds] == ["unprotect"]
    assert visit.home_from is not None
    assert visit.home_from > date(2027, 1, 31)
    assert visit.held_past_wanted


def test_the_sums_are_those_of_the_lines_added_up_apart(written) -> None:
    """A tally by fractions, of lines read from the text alone: 17 visits of odd minutes."""
    minutes = [7, 11, 13, 20, 25, 35, 50, 55, 65, 70, 80, 95, 100, 110, 125, 130, 170]
    diary = "".join(
        f"2026-01-{n + 1:02d}\nhoshi\n  worked {m} min\n" for n, m in enumerate(minutes)
    )
    cents = sum(int(Fraction(m * 40 * 100, 60) + Fraction(1, 2)) for m in minutes)
    assert sums(account(written, diary))[0][1] == f"{cents // 100}.{cents % 100:02d}"


def test_the_command_prints_the_same_as_json(written, tmp_path, capsys) -> None:
    from backbud.cli import main

    written(f"{CARDS}2026-03-06\nhoshi\n  received from ada\n  worked 2 h\n", settings=SETTINGS)
    assert main(["account", "adda", str(tmp_path), "--on", "2026-11-20", "--json"]) == 2
    capsys.readouterr()
    main(["account", "ada", str(tmp_path), "--on", "2026-11-20", "--json"])
    said = json.loads(capsys.readouterr().out)
    assert said["money"] == [
        {"currency": "EUR", "comes_to": "80.00", "billed": "0.00", "paid": "0.00",
         "open": "0.00", "to_bill": "80.00"}
    ]  # fmt: skip
