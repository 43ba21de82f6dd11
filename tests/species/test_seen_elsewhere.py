"""Stages as they were seen far from the reference climate, and the days that are foretold there.

Each day is of the place's own record. A foretold day is set to its Monday, which takes up to three
days of the week that is allowed.
"""

from __future__ import annotations

from datetime import date

import pytest
from tests.species.climates import year_at

from backbud.species import Species
from backbud_species.crab_apple import CrabApple
from backbud_species.ginkgo import Ginkgo
from backbud_species.japanese_maple import JapaneseMaple

DAYS_OFF = 7


@pytest.mark.parametrize(
    ("species", "place", "stage", "seen"),
    [
        # Ginkgo, a fifth of its buds open, Tokyo, normal day: 6 April 2016 was one day before it,
        # 14 April 2020 seven days after it (reports of the Tokyo observatory's announcements).
        pytest.param(Ginkgo, "Tokyo", 7, (4, 7), id="ginkgo-tokyo"),
        # Ginkgo, most leaves yellow, then most of them down, Tokyo: 1 December 2023 was eight days,
        # 12 December 2023 nine days after the normal (reports of the same); not fitted to.
        pytest.param(Ginkgo, "Tokyo", 93, (11, 23), id="ginkgo-tokyo-colour"),
        pytest.param(Ginkgo, "Tokyo", 97, (12, 3), id="ginkgo-tokyo-bare"),
        # Apples and crab apples begin to flower, 3 May 1998, spring about eight days ahead of
        # normal in the Twin Cities (J. Gilbert, Gustavus Arboretum, phenology of May 1999).
        pytest.param(CrabApple, "Minneapolis", 60, (5, 11), id="crab-apple-minneapolis"),
        # What the autumn was fitted to. Maples in colour 13 October 2013 and 2014 (Star Tribune),
        # bare by the end of the month.
        pytest.param(JapaneseMaple, "Minneapolis", 93, (10, 13), id="maple-minneapolis-colour"),
        pytest.param(JapaneseMaple, "Minneapolis", 97, (10, 28), id="maple-minneapolis-bare"),
        # Maples red about 28 November and bare about 10 December (Japan's autumn normals).
        pytest.param(JapaneseMaple, "Tokyo", 93, (11, 28), id="maple-tokyo-colour"),
        pytest.param(JapaneseMaple, "Tokyo", 97, (12, 10), id="maple-tokyo-bare"),
    ],
)
def test_a_stage_comes_about_when_it_was_seen_there(
    species: type[Species], place: str, stage: int, seen: tuple[int, int]
) -> None:
    foretold = year_at(species(), place).stage(stage)
    assert foretold is not None
    assert abs((foretold.day - date(foretold.day.year, *seen)).days) <= DAYS_OFF
