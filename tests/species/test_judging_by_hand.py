"""What speaks against root work by its days, and what lets it pass: windows made by hand."""

from __future__ import annotations

from datetime import date

import pytest
from msgspec.structs import replace

from backbud.species import Temperature, Window, Year
from backbud.species.deed import Deed
from backbud.species.judging import judged
from backbud_species.trident_maple import TridentMaple

SPRING = Window(date(2027, 3, 1), date(2027, 3, 15), date(2027, 4, 10))
AUTUMN = Window(date(2027, 9, 10), date(2027, 9, 20), date(2027, 9, 30))


@pytest.fixture
def year(made) -> Year:
    return replace(made.year(TridentMaple()), times_of=lambda act, year: (SPRING, AUTUMN))


def against(made, year: Year, day: str, *before) -> bool:
    on = date.fromisoformat(day)
    deed = Deed("repotted", on, on, hard=True, roots=True, what="repotted")
    found = judged((), (), made.tree(*before), deed, year)
    return any("root work has its time" in said for said in found)


@pytest.mark.parametrize(
    ("day", "told"),
    [
        # Four weeks before 1 March, and three weeks after 10 April, are near enough.
        ("2027-01-31", True),
        ("2027-02-01", False),
        ("2027-05-01", False),
        ("2027-05-02", True),
        # The same of the other time: before 10 September and after the 30th.
        ("2027-08-12", True),
        ("2027-08-13", False),
        ("2027-10-21", False),
        ("2027-10-22", True),
    ],
)
def test_root_work_near_any_of_its_times_is_in_time(made, year, day, told) -> None:
    assert against(made, year, day) is told


@pytest.mark.parametrize(
    ("act", "text", "told"),
    [
        # A minute is the bound (a figure of the settings): water that stands so long is need.
        ("drained", "60 s", False),
        ("drained", "59 s", True),
        ("checked", "roots rotten", False),
    ],
)
def test_roots_that_stand_wet_do_not_wait_for_its_time(made, year, act, text, told) -> None:
    assert against(made, year, "2027-07-01", made.event("2027-06-20", act, text)) is told


@pytest.mark.parametrize(
    ("day", "young"),
    # A year after 1 March 2027 is 29 February 2028.
    [("2027-03-02", True), ("2028-02-29", True), ("2028-03-01", False)],
)
def test_roots_are_young_for_a_year_after_they_were_cut(made, day, young) -> None:
    cut = made.event("2027-03-01", "repotted", "same pot, 2 cm off below")
    old, tender = Temperature(-5.0, "as they are"), Temperature(-2.0, "they are young")
    year = replace(made.year(TridentMaple()), roots_bear=old, young_roots_bear=tender)
    bears = year.bears(made.tree(cut), date.fromisoformat(day))
    assert bears is not None
    assert bears.celsius == (-2.0 if young else -5.0)
