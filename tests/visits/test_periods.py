"""Keep that is paid by the week, the month or the year, and money that is shared or corrected."""

from __future__ import annotations

from datetime import date
from decimal import Decimal as D

import pytest

from backbud.visits.periods import periods_between

CARDS = """\
place yard
  latitude 52 N
person me
  rate 40 EUR/h
person ada
  name Ada
person bo
  name Bo
tree hoshi
  kind trident maple
  owner ada
tree yuki
  kind trident maple
  owner bo
tree tama
  kind trident maple
  owner bo
"""
SETTINGS = 'home = "yard"\nkeeper = "me"\n'


@pytest.fixture
def account(written):
    def of(diary: str, who: str = "ada", on: str = "2026-11-20", settings: str = ""):
        session = written(CARDS + diary, on, settings=SETTINGS + settings)
        return next(one for one in session.accounts() if one.person == who)

    return of


def sums(found) -> tuple[str, ...]:
    (m,) = found.money
    return tuple(map(str, (m.comes_to, m.billed, m.paid, m.open, m.to_bill)))


@pytest.mark.parametrize(
    ("first", "last", "unit", "count"),
    [
        # One month, and 15 of the 31 days to 1 March … of February's 28: 1 + 14/28.
        (date(2026, 1, 1), date(2026, 2, 15), "month", D(1) + D(14) / 28),
        # From the 31st the next month ends on its last day.
        (date(2026, 1, 31), date(2026, 2, 28), "month", D(1)),
        (date(2026, 1, 1), date(2026, 1, 11), "week", D(10) / 7),
        # A year from 1 October; then 31 of 365 days.
        (date(2025, 10, 1), date(2026, 11, 1), "year", D(1) + D(31) / 365),
        (date(2026, 1, 1), date(2026, 1, 1), "month", D(0)),
    ],
)
def test_whole_ones_and_the_days_of_the_last(first, last, unit, count) -> None:
    assert periods_between(first, last, unit) == count


WINTER = "2025-11-01\nhoshi\n  received from ada\n  agreed 18 GBP a month for winter storage\n"


def test_a_boarder_pays_from_the_day_it_was_agreed_until_it_goes(account) -> None:
    """1 November to 16 March: 4 months, and 15 of the 31 days to 1 April: 18 x 4.48387 = 80.71."""
    found = account(f"{WINTER}2026-03-16\nhoshi\n  returned to ada\n")
    (line,) = found.visits[0].charges
    assert (line.sort, line.unit, str(line.amount), line.until) == (
        "period",
        "month",
        "80.71",
        date(2026, 3, 16),
    )


def test_while_it_is_here_it_grows_and_the_next_price_ends_the_last(account) -> None:
    """One month at 18.00, then two at 20.00."""
    diary = f"{WINTER}2025-12-01\nhoshi\n  agreed 20 GBP a month\n"
    found = account(diary, on="2026-02-01")
    assert [str(line.amount) for line in found.visits[0].charges] == ["18.00", "40.00"]


def test_its_keep_is_within_the_price_unless_an_hour_was_agreed(account) -> None:
    work = "2025-12-01\nhoshi\n  worked 1 h\n"
    kept = account(WINTER + work, on="2025-12-01").visits[0].charges
    assert [(line.sort, line.within) for line in kept] == [("period", False), ("hours", True)]
    hourly = WINTER.replace(" for winter", "\n  agreed rate 40 GBP/h for winter")
    priced = account(hourly + work, on="2025-12-01").visits[0].charges
    assert [str(line.amount) for line in priced] == ["18.00", "40.00"]


def test_each_winter_is_a_visit_and_a_year_a_price(account) -> None:
    diary = (
        "2024-10-01\nhoshi\n  received from ada\n  agreed 120 EUR a year\n"
        "2025-04-01\nhoshi\n  returned to ada\n"
        "2025-10-01\nhoshi\n  received from ada\n  agreed 130 EUR a year\n"
        "2026-04-01\nhoshi\n  returned to ada\n"
    )
    found = account(diary)
    # 182 days of 365: 120 x 0.498630 = 59.84; 130 x 0.498630 = 64.82.
    assert [str(visit.charges[0].amount) for visit in found.visits] == ["64.82", "59.84"]


def test_what_a_period_comes_to_after_a_bill_is_still_to_bill(account) -> None:
    diary = f"{WINTER}2025-12-01\nhoshi\n  billed 18 GBP, number 1\n"
    assert sums(account(diary, on="2026-01-01")) == ("36.00", "18.00", "0.00", "18.00", "18.00")


def test_a_bill_of_several_trees_adds_up_over_their_owners(account) -> None:
    """100.00 of three trees: 33.34 and twice 33.33, in the order of their cards."""
    diary = (
        "2026-03-01\nhoshi, yuki, tama\n  received\n"
        "2026-04-01\nhoshi, yuki, tama\n  billed 100 EUR, number 1\n"
    )
    assert (sums(account(diary, "ada"))[1], sums(account(diary, "bo"))[1]) == ("33.34", "66.66")


def test_a_corrected_bill_keeps_the_first_one_visible(account) -> None:
    diary = (
        "2026-03-01\nhoshi\n  received\n2026-04-01\nhoshi\n  billed 100 EUR, number 1\n"
        "2026-04-03\nhoshi\n  corrected billed 2026-04-01, 80 EUR\n"
    )
    (bill,) = account(diary).bills
    assert (str(bill.amount), str(bill.first), bill.number) == ("80.00", "100.00", "1")
    assert bill.corrected_at == "journal.txt:26"


def test_a_credit_takes_from_what_was_billed(account) -> None:
    diary = (
        "2026-03-01\nhoshi\n  received\n2026-04-01\nhoshi\n  billed 100 EUR, number 1\n"
        "2026-04-03\nhoshi\n  credited 30 EUR on bill 1, number 2\n  paid 70 EUR\n"
    )
    found = account(diary)
    assert sums(found)[1:4] == ("70.00", "70.00", "0.00")
    assert [(b.sort, str(b.amount), b.of_bill) for b in found.bills] == [
        ("bill", "100.00", ""),
        ("credit", "-30.00", "1"),
    ]


def test_tax_before_prices_is_in_what_it_comes_to(account) -> None:
    """An hour and a half at 40.00 is 60.00; with 20 % 72.00."""
    diary = "2026-03-01\nhoshi\n  received\n  worked 1 h 30\n"
    found = account(diary, settings='[tax]\nrate = 20\nprices = "before tax"\n')
    assert sums(found)[0] == "72.00"


def test_how_it_came_whose_pot_and_what_it_is_insured_at(written) -> None:
    cards = CARDS.replace("tree yuki", "pot tray\n  owner ada\ntree yuki")
    session = written(
        f'{cards}2026-03-01\nhoshi\n  received from ada, condition "one cracked branch", in tray\n'
        '  agreed 120 EUR for repotting, risk "the low branch may die", deposit 40 EUR\n'
        "  insured 2400 EUR by its owner\n",
        settings=SETTINGS,
    )
    (visit,) = next(one for one in session.accounts() if one.person == "ada").visits
    assert (visit.condition, visit.pot_owner_name, visit.risks) == (
        "one cracked branch",
        "Ada",
        ("the low branch may die",),
    )
    assert (str(visit.insured), visit.insured_by, str(visit.deposit)) == (
        "2400",
        "by its owner",
        "40",
    )


def test_a_bills_number_stands_on_one_line_alone(written) -> None:
    twice = (
        f"{CARDS}2026-03-01\nhoshi, yuki\n  received\n"
        "2026-04-01\nhoshi\n  billed 100 EUR, number 1\nyuki\n  billed 90 EUR, number 1\n"
    )
    (problem,) = written(twice, settings=SETTINGS, any_problems=True).problems()
    assert (problem.code, problem.line, problem.message) == (
        "bill-number-twice",
        25,
        "number 1 stands on another bill or credit (journal.txt:23)",
    )
    shared = twice.replace("hoshi\n  billed 100", "hoshi, yuki\n  billed 100")
    written(shared.removesuffix("yuki\n  billed 90 EUR, number 1\n"), settings=SETTINGS)
