"""What a grower found wrong in the table of five climates, and what it is now.

Dates are set to their Monday; the usual nights and days are those of the means in climates.py.
"""

from __future__ import annotations

from datetime import date

import pytest
from tests.species.climates import year_at
from tests.species.test_every_species import KINDS

from backbud_species.chinese_elm import ChineseElm
from backbud_species.fukien_tea import FukienTea
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.camellias import Camellia
from backbud_species.habits.flowering import LateFloweringEvergreen
from backbud_species.hackberry import Hackberry
from backbud_species.japanese_black_pine import JapaneseBlackPine
from backbud_species.japanese_maple import JapaneseMaple
from backbud_species.japanese_quince import JapaneseQuince
from backbud_species.premna import Premna
from backbud_species.satsuki_azalea import SatsukiAzalea
from backbud_species.trident_maple import TridentMaple
from backbud_species.wisteria import Wisteria
from backbud_species.zelkova import Zelkova


def asked(made, kind, place, rule, cover=""):
    species = kind()
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength="strong")
    (found,) = made.yearly(
        species, tree, year_at(species, place, cover), f"{species.rule_prefix}-{rule}"
    )
    return found


@pytest.mark.parametrize(
    ("kind", "place", "in_by"),
    [
        # The usual night of Minneapolis falls under 10 °C in the last days of September, that of
        # Tokyo under 12 °C on 1 November; in Nottingham no summer of such nights is worth the move.
        (Premna, "Minneapolis", date(2027, 9, 27)),
        (FukienTea, "Tokyo", date(2027, 11, 1)),
        (FukienTea, "Nottingham", date(2027, 9, 20)),
    ],
)
def test_a_tender_tree_is_looked_over_before_it_joins_the_others(made, kind, place, in_by):
    look = asked(made, kind, place, "pests")
    assert abs((look.window.closes - in_by).days) <= 7
    assert (look.window.closes - look.window.best).days == 14
    # Indoors all year it goes by the heating.
    inside = asked(made, kind, place, "pests", "indoors")
    assert date(2027, 10, 11) <= inside.window.best <= date(2027, 11, 15)


def test_no_wood_is_bent_or_cut_while_it_is_frozen(made):
    # The usual day of Minneapolis is under 0 °C from about 20 November to 12 March.
    assert asked(made, JapaneseBlackPine, "Minneapolis", "wire").window.best == date(2027, 11, 15)
    assert asked(made, ChineseElm, "Minneapolis", "wire").window.best == date(2027, 11, 15)
    assert asked(made, Wisteria, "Minneapolis", "prune").window.best == date(2027, 3, 13)
    # Where no week is frozen nothing moves.
    assert asked(made, JapaneseBlackPine, "Tokyo", "wire").window.best.month == 12


def test_a_second_flush_is_not_cut_in_great_heat(made):
    # Highs of 36.0 °C in July and 35.5 °C in August.
    late = asked(made, ChineseElm, "Seville", "trim-late")
    assert late.window.opens > date(2027, 8, 22)
    assert late.window.best >= date(2027, 9, 13)
    assert "growth stands still" in late.datum
    # Nor in the weeks in which it cools: the hackberry's best day fell on 23 August, 35 °C.
    assert asked(made, Hackberry, "Seville", "trim-late").window.best >= date(2027, 9, 13)
    # 31.3 °C in August is no reason to wait.
    assert asked(made, ChineseElm, "Tokyo", "trim-late").window.best.month == 8
    # Trees of warm countries grow on.
    assert asked(made, FukienTea, "Seville", "trim-late").window.best.month == 8


def test_quinces_are_repotted_in_an_autumn_that_has_cooled(made):
    # Growers of Japan: September to October, in soil that has cooled (18 °C falls on 15 October in
    # Tokyo, 30 October in Seville), with six weeks before the frost.
    for place, first, last in (
        ("Nottingham", date(2027, 8, 30), date(2027, 10, 11)),
        ("Seville", date(2027, 11, 1), date(2027, 11, 22)),
        ("Tokyo", date(2027, 10, 18), date(2027, 11, 22)),
        ("Christchurch", date(2028, 2, 28), date(2028, 4, 10)),
        # Too short an autumn: as the buds swell and the pot has thawed.
        ("Minneapolis", date(2027, 3, 24), date(2027, 3, 31)),
    ):
        window = asked(made, JapaneseQuince, place, "repot").window
        assert (window.opens, window.closes) == (first, last), place


@pytest.mark.parametrize("kind", [TridentMaple, JapaneseMaple, Zelkova, Hackberry])
def test_no_tree_is_stripped_before_great_heat(made, kind):
    """Highs of 36 °C in July at Seville: what opens after a stripping in May scorches."""
    seville = asked(made, kind, "Seville", "defoliate")
    assert seville.extent == "part"
    assert "and new leaves scorch in it (great_heat_over_c" in seville.datum
    # 31.3 °C in Tokyo's August is no such heat: the way of the trade there.
    assert asked(made, kind, "Tokyo", "defoliate").extent == "usual"


def test_no_roots_are_cut_just_before_great_heat(made):
    """A satsuki at Seville was repotted after its flowers, until 12 July: highs of 36.0 °C begin on
    5 July, and roots take about six weeks to fill fresh soil (common practice, no source)."""
    seville = asked(made, SatsukiAzalea, "Seville", "root-work")
    assert seville.window.closes <= date(2027, 3, 15)
    assert "great heat comes before new roots have taken" in seville.cautions[0]
    assert "the flower buds come off" in seville.cautions[0]
    # 31.3 °C in Tokyo's August: after the flowers, in the rainy season, as the trade there does.
    tokyo = asked(made, SatsukiAzalea, "Tokyo", "root-work")
    assert tokyo.window.best == date(2027, 6, 17)
    assert not any("great heat" in one for one in tokyo.cautions)


@pytest.mark.parametrize("kind", KINDS)
def test_what_scorches_stands_in_shade_where_summers_pass_30_degrees(made, kind):
    """At Seville (36 °C in July) every deciduous broadleaf, azalea and camellia; nobody at
    Nottingham (21.3 °C). What lives in full sun at home is left in it."""
    species = kind()
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength="strong")

    def shaded(place: str) -> bool:
        found = made.yearly(species, tree, year_at(species, place))
        return any(one.act == "shaded" for one in found)

    assert not shaded("Nottingham")
    if isinstance(species, BroadleafDeciduous | LateFloweringEvergreen | Camellia):
        assert shaded("Seville")
    if isinstance(species, LateFloweringEvergreen | Camellia):
        # Highs of 29.9 and 31.3 °C in July and August.
        assert shaded("Tokyo")
    if species.common[0] in ("olive", "rosemary", "Japanese black pine", "dwarf jade"):
        assert not shaded("Seville")


# Trees of warm countries are fed on.
AUTUMN_FED = [
    kind
    for kind in KINDS
    if kind.comes_in_below_c is None and any(rule.id == "feed-autumn" for rule in kind.works)
]


@pytest.mark.parametrize("kind", AUTUMN_FED)
def test_autumns_feed_begins_as_the_days_cool_and_has_its_weeks(made, kind):
    """At Seville (31.7 °C in September, 26.0 in October) it was three weeks from 15 September on,
    at Tokyo (31.3 °C in August and 27.5) it began in August."""
    species = kind()
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength="strong")
    for place, first in (("Seville", date(2027, 9, 25)), ("Tokyo", date(2027, 9, 11))):
        rule = f"{species.rule_prefix}-feed-autumn"
        for one in made.yearly(species, tree, year_at(species, place), rule):
            assert one.window.best >= first, (place, one.window)
            assert (one.window.closes - one.window.opens).days >= 28, (place, one.window)
