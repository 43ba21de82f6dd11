"""Stages as they were seen far from the reference climate, and the days that are foretold there.

Each day is of the place's own record. A foretold day is set to its Monday and may be ten days off:
both below are about a week early. The reference climate is of 1920 to 1939; the trade's days, which
are taken for its, are of today.
"""

from __future__ import annotations

from datetime import date

import pytest
from tests.species.climates import year_at

from backbud.species import Species
from backbud_species.crab_apple import CrabApple
from backbud_species.ginkgo import Ginkgo

DAYS_OFF = 10


@pytest.mark.parametrize(
    ("species", "place", "stage", "seen"),
    [
        # Ginkgo, a fifth of its buds open, Tokyo, normal day: 6 April 2016 was one day before it,
        # 14 April 2020 seven days after it (reports of the Tokyo observatory's announcements).
        pytest.param(Ginkgo, "Tokyo", 7, (4, 7), id="ginkgo-tokyo"),
        # Apples and crab apples begin to flower, 3 May 1998, spring about eight days ahead of
        # normal in the Twin Cities (J. Gilbert, Gustavus Arboretum, phenology of May 1999).
        pytest.param(CrabApple, "Minneapolis", 60, (5, 11), id="crab-apple-minneapolis"),
    ],
)
def test_a_stage_comes_about_when_it_was_seen_there(
    species: type[Species], place: str, stage: int, seen: tuple[int, int]
) -> None:
    foretold = year_at(species(), place).stage(stage)
    assert foretold is not None
    assert abs((foretold.day - date(foretold.day.year, *seen)).days) <= DAYS_OFF
