"""Works on bare trees end at bud swelling, and stages come when places have them, in five climates.

The five are those of climates.py. What a place has is from the facts gathered for the trade, or the
source that stands beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest
from tests.species.climates import PLACES, year_at
from tests.species.conftest import Made
from tests.species.test_every_species import KINDS

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.days import MonthlyMeans
from backbud.climate.outlook import Outlook
from backbud.species import Proposal, Species, Stage, Year, rules_of
from backbud.views.kind import unsuited
from backbud_species.chinese_elm import ChineseElm
from backbud_species.european_larch import EuropeanLarch
from backbud_species.japanese_maple import JapaneseMaple
from backbud_species.satsuki_azalea import SatsukiAzalea
from backbud_species.trident_maple import TridentMaple
from backbud_species.wisteria import Wisteria

# What is done to the branches of a tree in its winter rest.
ON_BRANCHES = {"pruned", "wired", "trimmed", "thinned", "bent", "cleaned", "tied"}
# Two wait for something on the bare tree itself, and end by bud burst: which twigs of a pomegranate
# winter killed shows as the rest swell, and an apricot is cut when its flowers are over.
UNTIL_BURST = {"pomegranate-prune", "apricot-trim"}


def swelling_after(year: Year, day: date) -> Stage:
    """The bud swelling (BBCH 01) that follows a day."""
    found = (one.stage(1) for one in (year, year.following))
    return next(stage for stage in found if stage is not None and stage.day >= day)


def late(made: Made, species: Species, place: str) -> Iterator[tuple[str, Proposal, date]]:
    """Each work that opens on the bare tree and ends too late, and when it should have."""
    year = year_at(species, place)
    falls, swells, burst = (year.stage(code) for code in (93, 1, 7))
    if falls is None:
        return
    assert swells is not None and burst is not None
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength="strong")
    for rule, one in made.yearly_by_rule(species, tree, year):
        opens, closes = one.window.opens, one.window.closes
        end = burst.day if rule in UNTIL_BURST else swelling_after(year, opens).day
        is_bare = opens >= falls.first or opens <= swells.day
        if one.act in ON_BRANCHES and is_bare and closes > end:
            yield rule, one, end
        if one.act == "repotted" and opens < burst.first and closes > burst.day:
            yield rule, one, burst.day


@pytest.mark.parametrize("place", PLACES)
def test_no_work_on_a_bare_tree_runs_past_its_bud_swelling(made, place):
    assert [found for kind in KINDS for found in late(made, kind(), place)] == []


def stage(species: Species, place: str, code: int) -> Stage:
    found = year_at(species, place).stage(code)
    assert found is not None
    return found


def test_a_continental_place_is_bare_by_the_end_of_october():
    for species in (JapaneseMaple(), TridentMaple()):
        # Its maples colour about 13 October (Star Tribune 2013, 2014); far days are Mondays.
        assert date(2027, 10, 10) <= stage(species, "Minneapolis", 93).day <= date(2027, 10, 16)
        fallen = stage(species, "Minneapolis", 97)
        assert date(2027, 10, 20) <= fallen.day <= date(2027, 10, 31)
        assert "But frost brings it: " in fallen.because


def test_leaf_fall_in_tokyo():
    # Bare about 10 December (Japan's autumn normals); ten days either way.
    assert date(2027, 12, 1) <= stage(JapaneseMaple(), "Tokyo", 97).day <= date(2027, 12, 20)
    assert date(2027, 11, 12) <= stage(JapaneseMaple(), "Tokyo", 93).day <= date(2027, 12, 1)


def test_leaf_fall_where_the_dates_come_from():
    """In the reference climate each stage stays on the species' own day, to the Monday."""
    for code in (93, 97):
        usual = TridentMaple.stage_months[code][1]
        found = stage(TridentMaple(), "Nottingham", code).day
        assert abs((found - date(2027, *usual)).days) <= 4


def test_wisteria_in_tokyo():
    # In bloom 20 to 30 April (Kameido).
    assert date(2027, 4, 17) <= stage(Wisteria(), "Tokyo", 60).day <= date(2027, 4, 22)
    assert date(2027, 4, 24) <= stage(Wisteria(), "Tokyo", 65).day <= date(2027, 4, 30)


def test_satsuki_near_tokyo():
    # Kanuma: 25 May to 3 June 2024, 24 May to 2 June 2025. Means of Utsunomiya beside it, 1991 to
    # 2020, from memory.
    air = PlaceAir(
        {},
        MonthlyMeans(
            (-2.2, -1.3, 2.2, 7.4, 12.9, 17.1, 21.0, 22.1, 18.4, 12.2, 5.6, 0.2),
            (8.8, 9.8, 13.3, 18.8, 23.2, 25.7, 29.3, 30.6, 26.7, 21.2, 15.8, 10.9),
        ),
        date(2026, 12, 31),
        "its means",
    )
    outlook = Outlook(air, OPEN_AIR, latitude=36.55, southern=False)
    species = SatsukiAzalea()
    year = year_at(species, "Tokyo")
    there = Year(
        year.name,
        year.first,
        year.last,
        year.today,
        False,
        "Kanuma",
        "",
        {},
        species.stage_months,
        {},
        species.wire_check_weeks.value,
        outlook=outlook,
        wants=year.wants,
    )
    full = there.stage(65)
    assert full is not None and date(2027, 5, 24) <= full.day <= date(2027, 6, 3)


def test_repotting_of_a_trident_in_tokyo(made):
    # A grower's page, 2025: 15 February to 20 March.
    species = TridentMaple()
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength="strong")
    (found,) = made.yearly(species, tree, year_at(species, "Tokyo"), "trident-repot")
    assert date(2027, 2, 15) <= found.window.best <= date(2027, 3, 20)
    assert date(2027, 3, 8) <= found.window.closes <= date(2027, 3, 20)


def test_where_its_chill_is_never_met_a_species_says_so():
    larch = EuropeanLarch()
    assert "chill is not met here" in stage(larch, "Seville", 7).because
    assert unsuited(larch, year_at(larch, "Seville")) == (
        "It does not suit this place: its buds want 60 chill portions (from memory), and its "
        "winters never give them."
    )
    for place in ("Nottingham", "Tokyo", "Christchurch", "Minneapolis"):
        assert "chill" not in stage(larch, place, 7).because
        assert unsuited(larch, year_at(larch, place)) == ""


# Winter by winter the same: what is done by the short days, or over the whole winter.
BY_MONTHS = {"light", "feed-winter", "woolly-adelgid"}


@pytest.mark.parametrize("kind", KINDS)
def test_no_dates_are_the_same_in_four_northern_climates(made, kind):
    """Each work hangs on a stage or on the weather, or says why the months serve."""
    species, days = kind(), {}
    by_season = {rule.id for rule in rules_of(species) if rule.hangs_on == "season"}
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength="strong")
    for place in ("Nottingham", "Seville", "Tokyo", "Minneapolis"):
        for rule, one in made.yearly_by_rule(species, tree, year_at(species, place)):
            if rule in by_season:
                days.setdefault(rule, []).append((one.window.best, one.datum))
    for rule, found in days.items():
        if len(found) < 4 or len({best for best, _ in found}) > 1:
            continue
        assert rule.removeprefix(f"{species.rule_prefix}-") in BY_MONTHS, rule
        assert all("since it goes by" in datum for _, datum in found)


def test_a_day_moves_with_the_heat_and_late_summer_with_the_end_of_growth():
    species = ChineseElm()
    for place, july, august in (
        ("Nottingham", 0, 0),
        # The same heat as on 10 July comes two and a half weeks earlier in Tokyo (of the Nottingham
        # of 1920 to 1939, that was 1.2 K colder, three), and growth ends there a
        # week earlier by the length of the nights.
        ("Tokyo", -17, -7),
    ):
        year = year_at(species, place)
        assert abs(year.by_warmth((7, 10))[0].days - july) <= 3, place
        assert abs(year.by_warmth((8, 10))[0].days - august) <= 3, place
    _, because = year_at(species, "Tokyo").by_warmth((7, 10))
    assert because.startswith("In a cool temperate place its day is 10 July; here that comes ")
