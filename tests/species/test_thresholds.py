"""Each threshold of the species' interface and habits, on both sides of it; days by hand."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

import pytest

from backbud.species import Species, StageMonths


class Staged(Species):
    """Two stages, 30 days apart as usual."""

    botanical = "Arbor gradata"
    common = ("staged tree",)
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 1), (3, 15), (3, 31)),
        11: ((4, 1), (4, 14), (4, 30)),
    }


# ------------------------------------------------------------------ species.py


@pytest.mark.parametrize(
    ("seen", "days"),
    [
        # A third of 30 days after 4 April is 14 April, the usual day: it stays.
        ("2027-04-04", ("2027-04-01", "2027-04-14", "2027-04-30")),
        ("2027-04-05", ("2027-04-02", "2027-04-15", "2027-05-01")),
        ("2027-04-10", ("2027-04-07", "2027-04-20", "2027-05-06")),
    ],
)
def test_a_stage_comes_no_sooner_than_a_third_of_the_usual_time_after_the_last(
    made, seen, days
) -> None:
    stage = made.year(Staged(), seen={1: seen}).stage(11)
    assert (stage.first, stage.day, stage.last) == tuple(map(date.fromisoformat, days))
    assert ("But it follows bud swelling." in stage.because) == (seen != "2027-04-04")
