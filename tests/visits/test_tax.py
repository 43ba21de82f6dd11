"""Tax and rounding: a published worked example, and halves, rates and shares worked out by hand."""

from __future__ import annotations

from decimal import Decimal as D

import pytest

from backbud.bench.money import digits_of, equal_part, rounded
from backbud.journal.settings import read_settings
from backbud.journal.tax import Tax
from backbud.visits.tax import TaxSum, gross_of, tax_sums


def test_the_published_worked_example_of_en_16931() -> None:
    """The example TOSL108 of CEN/TC 434 (ubl-tc434-example2.xml, the European Commission's
    validation artefacts for EN 16931): at 25 % of 1460.50 it is 365.125, told as 365.13; at 15 % of
    1.00 0.15; nothing on -25.00. Tax 365.28 in all, 1436.50 without it and 1801.78 with it."""
    lines = [
        (D("1273.00"), D(25)),
        (D("-3.96"), D(15)),
        (D("4.96"), D(15)),
        (D("-25.00"), D(0)),
        (D("187.50"), D(25)),
    ]
    tax = Tax(rate=D(25), prices="before tax")
    assert tax_sums(lines, tax, "NOK") == (
        TaxSum(D(25), D("1460.50"), D("365.13"), D("1825.63")),
        TaxSum(D(15), D("1.00"), D("0.15"), D("1.15")),
        TaxSum(D(0), D("-25.00"), D("0.00"), D("-25.00")),
    )
    assert sum(one.tax for one in tax_sums(lines, tax, "NOK")) == D("365.28")
    assert gross_of(lines, tax, "NOK") == D("1801.78")


def test_line_by_line_and_on_the_sum_differ_by_a_cent() -> None:
    """Three lines of 0.33 at 20 %: 0.066 each, told as 0.07, 0.21 in all; on 0.99 it is 0.198."""
    lines = [(D("0.33"), D(20))] * 3
    by_line = Tax(rate=D(20), prices="before tax", each="line")
    on_sum = Tax(rate=D(20), prices="before tax")
    assert tax_sums(lines, by_line, "EUR")[0].tax == D("0.21")
    assert tax_sums(lines, on_sum, "EUR")[0].tax == D("0.20")


def test_prices_with_tax_in_them_keep_their_sum() -> None:
    """100.00 with 20 % in it: 100 x 20/120 is 16.666…, told as 16.67; 83.33 are left."""
    (found,) = tax_sums([(D("100.00"), D(20))], Tax(rate=D(20)), "EUR")
    assert (found.net, found.tax, found.gross) == (D("83.33"), D("16.67"), D("100.00"))


@pytest.mark.parametrize(
    ("how", "amount"), [("half up", "0.13"), ("half even", "0.12"), ("down", "0.12")]
)
def test_halves_go_as_the_settings_say(how, amount) -> None:
    """0.50 at 25 % is 0.125."""
    tax = Tax(rate=D(25), prices="before tax", rounding=how)
    assert tax_sums([(D("0.50"), D(25))], tax, "EUR")[0].tax == D(amount)


def test_a_currency_has_the_digits_of_iso_4217() -> None:
    assert [digits_of(code) for code in ("EUR", "JPY", "KWD")] == [2, 0, 3]
    assert str(rounded(D("1234.5"), "JPY")) == "1235"


def test_parts_of_a_sum_add_up_to_it() -> None:
    """100.00 among three: 33.34, 33.33, 33.33. 200 yen among three: 67, 67, 66."""
    assert [str(equal_part(D(100), 3, n)) for n in range(3)] == ["33.34", "33.33", "33.33"]
    assert [str(equal_part(D(200), 3, n, "JPY")) for n in range(3)] == ["67", "67", "66"]


def test_the_settings_are_read_exactly() -> None:
    settings, flaws = read_settings(
        'language = 1\n[tax]\nrate = 8.1\nmaterials = 2.6\nname = "VAT"\nprices = "before tax"\n'
    )
    assert flaws == []
    assert (settings.tax.rate_of("hours"), settings.tax.rate_of("material")) == (
        D("8.1"),
        D("2.6"),
    )


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("rate = 120", "“rate” of [tax] is a percentage from 0 to 100"),
        ("rates = 20", "“rates” is no setting of [tax]"),
        ('rate = 20\nprices = "net"', "“prices” of [tax] is “with tax” or “before tax”"),
        ('name = "VAT"', "[tax] says no rate"),
    ],
)
def test_what_is_wrong_in_it_is_told_and_no_tax_stands(line, message) -> None:
    settings, (flaw,) = read_settings(f"language = 1\n[tax]\n{line}\n")
    assert (flaw.code, flaw.message, settings.tax) == ("bad-settings", message, Tax())
