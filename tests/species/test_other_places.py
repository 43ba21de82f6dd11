"""Fifteen places more, read as growers there would read them: what nobody there would do, or miss.

What is expected was written down from memory of common practice before the species were read; no
source. Frost figures: tests/climate/test_coldest_night.py.
"""

from __future__ import annotations

from functools import cache

import pytest
from tests.species.climates import outlook_at, year_under
from tests.species.conftest import Made
from tests.species.other_places import OTHER_PLACES

from backbud.climate.outlook import Outlook
from backbud.species import Species, Window, Year, comes_in, summer_outside
from backbud_species.bougainvillea import Bougainvillea
from backbud_species.chinese_elm import ChineseElm
from backbud_species.fukien_tea import FukienTea
from backbud_species.satsuki_azalea import SatsukiAzalea
from backbud_species.trident_maple import TridentMaple
from backbud_species.willow_leaf_fig import WillowLeafFig


@cache
def weather(name: str) -> Outlook:
    return outlook_at(OTHER_PLACES[name])


def year_in(kind: type[Species], name: str, cover: str = "") -> Year:
    species = kind()
    return year_under(species, name, weather(name), cover)


# ------------------------------------------------------------------ tender trees in mild winters


@pytest.mark.parametrize("name", ["Singapore", "Nairobi", "Bogotá", "Taipei", "Cape Town"])
@pytest.mark.parametrize("kind", [WillowLeafFig, Bougainvillea, FukienTea])
def test_a_tender_tree_stays_out_where_the_coldest_days_are_warm(
    kind: type[Species], name: str
) -> None:
    """Figs stand outside all year there, by nights of 7 to 14 °C in the coldest month: at Cape Town
    its mean is 12.3 °C and its days reach 17.5, and no night of the mean year is under 1 °C."""
    year = year_in(kind, name)
    summer = summer_outside(year)
    assert summer is not None and summer.always and comes_in(year) is None


@pytest.mark.parametrize(
    ("name", "first", "last"),
    [("Delhi", "2027-12-13", "2028-01-03"), ("Phoenix", "2027-11-30", "2027-12-21")],
)
def test_it_comes_in_for_the_cold_weeks_alone_where_nights_near_frost(
    name: str, first: str, last: str
) -> None:
    """Days of 20 °C, and in half of the winters a night that roots do not bear: not in by the 12 °C
    nights of early November, but before those."""
    found = comes_in(year_in(WillowLeafFig, name))
    assert found is not None
    assert first <= f"{found[0].closes:%Y-%m-%d}" <= last


@pytest.mark.parametrize("name", ["Melbourne", "Johannesburg", "Milan", "Vancouver", "Stockholm"])
def test_it_comes_in_by_the_nights_where_winter_days_are_cool(name: str) -> None:
    """Johannesburg's days reach 16 °C in June, after nights of frost."""
    year = year_in(WillowLeafFig, name)
    summer = summer_outside(year)
    assert summer is not None and not summer.always and comes_in(year) is not None


# ------------------------------------------------------------------ feed in hot places


def feeds(made: Made, kind: type[Species], name: str) -> dict[str, Window]:
    species = kind()
    rows = made.yearly_by_rule(species, made.tree(), year_in(kind, name))
    return {rule: one.window for rule, one in rows if one.act == "fed"}


@pytest.mark.parametrize(("name", "autumn"), [("Singapore", "2027-12"), ("Delhi", "2027-10")])
def test_trees_of_warm_countries_feed_on_in_what_others_rest_in(
    made: Made, name: str, autumn: str
) -> None:
    """Highs of 32 to 38 °C stop no fig: fed in spring and again within six weeks, and not first in
    autumn."""
    found = feeds(made, WillowLeafFig, name)
    assert f"{found['willow-fig-feed'].closes:%Y-%m}" < "2027-05"
    assert f"{found['willow-fig-feed-summer'].closes:%Y-%m}" < autumn


def test_the_first_feed_of_a_tree_comes_before_a_summer_that_lasts_for_months(made: Made) -> None:
    """Delhi's days pass 32 °C from 26 March to October: leaves of February are not left unfed."""
    for kind, rule in ((ChineseElm, "chinese-elm-feed"), (TridentMaple, "trident-feed")):
        window = feeds(made, kind, "Delhi")[rule]
        assert "2027-03-01" <= window.opens.isoformat() <= window.closes.isoformat() < "2027-04-01"


def test_no_azalea_is_fed_before_its_flowers_are_over(made: Made) -> None:
    window = feeds(made, SatsukiAzalea, "Phoenix")["satsuki-feed-after-flowering"]
    assert window.opens.isoformat() > "2027-06"
