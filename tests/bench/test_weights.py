"""Weights worked by hand, the published densities, and pint for pounds and feet."""

from __future__ import annotations

import math

import pint
import pytest

from backbud.bench.weights import (
    DENSITIES,
    Density,
    density_of,
    lifting_caution,
    mix_density,
    pot_weight,
    shell_kg,
    trunk_kg,
    water_held_litres,
)

UNITS = pint.get_application_registry()


def test_peat_and_bark_are_as_the_paper_prints_them():
    # International Journal of Agronomy 2012, article 978528, table 1, g/cm³ and % of volume:
    # peat moss 0.11 and 87; pine bark 0.18 and 48.
    for name, dry, holds in (("peat", 0.11, 0.87), ("bark", 0.18, 0.48)):
        found = density_of(name)
        assert found.dry_kg_per_litre == dry
        assert found.water_share == pytest.approx(holds)
        assert "978528" in found.source


@pytest.mark.parametrize("name", ["perlite", "peat"])
def test_perlite_and_peat_lie_in_the_published_span(name):
    # perlite.info, Perlite Gradation and Peat/Perlite Mixture: 5.1 to 8.6 lb/ft³ dry.
    low, high = (UNITS.Quantity(v, "lb/ft**3").to("kg/litre").magnitude for v in (5.1, 8.6))
    assert low < density_of(name).dry_kg_per_litre < high


@pytest.mark.parametrize("name", sorted(DENSITIES))
def test_no_mix_holds_more_water_than_it_has_pores(name):
    found = DENSITIES[name]
    # Quartz is 2.65 kg/L (CRC Handbook, from memory), and nothing here is heavier: solid and
    # water together have to fit into the litre.
    assert 0 < found.dry_kg_per_litre < found.wet_kg_per_litre
    assert found.dry_kg_per_litre / 2.65 + found.water_share < 1
    assert found.source


def test_a_mix_weighs_what_its_parts_weigh():
    own = {"a": Density(0.4, 0.8, "weighed"), "b": Density(1.0, 1.2, "weighed too")}
    # Three parts to one: (3 x 0.4 + 1.0) / 4 = 0.55; (3 x 0.8 + 1.2) / 4 = 0.9.
    found = mix_density({"a": 3, "b": 1}, own)
    assert found[:2] == pytest.approx((0.55, 0.9))
    assert found.source == "weighed; weighed too"


def test_water_is_held_between_container_capacity_and_dry():
    # 4 L of peat at 87 % and 4 L of bark at 48 %: 3.48 + 1.92 = 5.4 L.
    assert water_held_litres({"peat": 1, "bark": 1}, 8) == pytest.approx(5.4)
    weight = pot_weight({"peat": 1, "bark": 1}, 8)
    assert weight.water_litres == pytest.approx(5.4)


def test_a_pot_with_its_tree_by_hand():
    own = {"a": Density(0.5, 0.9, "weighed")}
    # 10 L: 5 kg dry, 4 L of water; 4.6 kg of clay and 1.4 kg of tree: 11 and 15 kg.
    found = pot_weight({"a": 1}, 10, shell_kg=4.6, tree_kg=1.4, own=own)
    assert (found.dry_kg, found.wet_kg) == pytest.approx((11.0, 15.0))
    assert (found.mix_dry_kg, found.water_litres) == pytest.approx((5.0, 4.0))
    assert (found.shell_kg, found.tree_kg, found.sources) == (4.6, 1.4, ("weighed",))


def test_sources_are_named_once_each():
    sources = pot_weight({"akadama": 1, "pumice": 1, "bark": 1}, 3).sources
    assert len(sources) == 2
    assert sources[0].startswith("from memory")


def test_clay_and_trunk():
    # 2 L of stoneware at 2.3 kg/L.
    assert shell_kg(2) == pytest.approx(4.6)
    assert shell_kg(2, "terracotta") == pytest.approx(3.8)
    # A cone 9 cm thick and 50 cm high, in slices; green wood at 1 kg/L.
    slices = 10_000
    cm3 = sum(math.pi * (4.5 * (1 - (k + 0.5) / slices)) ** 2 * 50 / slices for k in range(slices))
    assert trunk_kg(9, 50) == pytest.approx(cm3 / 1000, rel=1e-6)


@pytest.mark.parametrize(
    ("written", "known"),
    [
        ("scoria", "lava"),
        ("fine hyuga pumice", "pumice"),
        ("sphagnum", "moss"),
        ("peat moss", "peat"),
        ("Leaf mold", "leaf mould"),
        ("sharp sand", "sand"),
    ],
)
def test_other_words_of_the_trade(written, known):
    assert density_of(written) is DENSITIES[known]


@pytest.mark.parametrize(
    ("kg", "one", "how"),
    [
        (25.0, 25.0, ""),
        (25.1, 25.0, "lift with two people"),
        # Two together: 2/3 of twice 25 kg is 33.3 kg.
        (33.3, 25.0, "lift with two people"),
        (33.4, 25.0, "use a trolley or a hoist"),
        (17.0, 16.0, "lift with two people"),
    ],
)
def test_the_caution_begins_above_what_one_person_may_lift(kg, one, how):
    text = lifting_caution(kg, one)
    assert bool(text) == bool(how)
    assert how in text
    if text:
        assert f"{one:g} kg guideline" in text
        assert "Local law" in text


def test_the_guideline_is_25_kg_unless_settings_say_less():
    assert lifting_caution(25) == ""
    assert lifting_caution(26).startswith("About 26 kg, above the 25 kg guideline for one person")


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: density_of("moon dust"), "“moon dust” is not known: give its density in kg/L"),
        (lambda: mix_density({}), "parts by volume"),
        (lambda: pot_weight({"bark": 1}, -1), "litres of mix, 0 or more"),
        (lambda: pot_weight({"bark": 1}, 1, shell_kg=-1), "weight of the pot in kg, 0 or more"),
        (lambda: pot_weight({"bark": 1}, 1, tree_kg=-1), "weight of the tree in kg, 0 or more"),
        (lambda: shell_kg(1, "tin"), "one of stoneware, earthenware, terracotta, porcelain"),
        (lambda: shell_kg(-1), "volume of the pot's clay in litres, 0 or more"),
        (lambda: trunk_kg(-1, 5), "thickness of the trunk in cm, 0 or more"),
        (lambda: trunk_kg(1, -5), "height of the tree in cm, 0 or more"),
        (lambda: lifting_caution(-1), "weight in kg, 0 or more"),
        (lambda: lifting_caution(1, 0), "weight one person may lift in kg, above 0"),
    ],
)
def test_what_makes_no_sense_says_what_to_give(call, says):
    with pytest.raises(ValueError) as caught:
        call()
    assert says in str(caught.value)
