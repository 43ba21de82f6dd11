"""What was billed, credited and paid, also by a line that names no amount; lines made by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest
from tests.species.conftest import Made

from backbud.collection.bookings import bookings_of_person

MADE = Made()


@pytest.mark.parametrize(
    ("act", "text", "amount"),
    [
        ("billed", "120 EUR", Decimal(120)),
        ("billed", "number 12", None),
        ("paid", "cash", None),
        ("paid", "120 EUR, cash", Decimal(120)),
        ("credited", "30 EUR, bill 12", Decimal(-30)),
        ("credited", "bill 12", None),
    ],
)
def test_a_line_about_a_person_with_no_amount_books_none(act, text, amount) -> None:
    """What is credited counts against what was billed."""
    event = MADE.event("2027-03-01", act, text)
    [booked] = bookings_of_person([(event, 1, 0)], "EUR")
    assert booked.amount == amount
    assert booked.currency == "EUR"
