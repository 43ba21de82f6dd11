"""A work is told as now near its best day, and not as soon as its window opens."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.plan.followups import waits_for_its_week
from backbud.species import CARE, CHANCE, PRESSING, PROTECTION, STAYS_ON, Weight

# A Wednesday; its week begins on Monday 17 May, the week before on the 10th.
BEST = date(2027, 5, 19)


@pytest.mark.parametrize(
    ("weight", "single", "promised", "waits_until"),
    [
        # What may be done waits for its own week, with a reason in its tree for the week before.
        (CHANCE, False, False, date(2027, 5, 16)),
        (CHANCE, True, False, date(2027, 5, 9)),
        # What must be done waits for the week before.
        (CARE, True, False, date(2027, 5, 9)),
        (STAYS_ON, True, False, date(2027, 5, 9)),
    ],
)
def test_it_waits_until_the_sunday_before(
    weight: Weight, single: bool, promised: bool, waits_until: date
) -> None:
    last = waits_until
    first = date.fromordinal(last.toordinal() + 1)
    assert waits_for_its_week(single, weight, promised, "now", BEST, last)
    assert not waits_for_its_week(single, weight, promised, "now", BEST, first)


@pytest.mark.parametrize(
    ("weight", "promised"),
    [
        # A tree may die; it grows worse; the keeper gave their word.
        (PROTECTION, False),
        (PRESSING, False),
        (CARE, True),
    ],
)
def test_some_wait_for_nothing(weight: Weight, promised: bool) -> None:
    assert not waits_for_its_week(True, weight, promised, "now", BEST, date(2027, 4, 1))


def test_what_is_late_does_not_wait() -> None:
    assert not waits_for_its_week(True, CARE, False, "overdue", BEST, date(2027, 4, 1))
