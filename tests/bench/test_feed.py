"""Feed: extension tables, atomic masses, and `pint`."""

from __future__ import annotations

from math import inf, nan

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud.bench.feed import (
    K_IN_K2O,
    P_IN_P2O5,
    Dilution,
    DilutionUnit,
    Label,
    LabelledFeed,
    dilution_for_ppm_n,
    feed_g_per_litre,
    label_of_elements,
    nutrients_g,
    nutrients_ppm,
    season_nutrients_g,
)

# IUPAC standard atomic weights, as `periodictable` 2.1.0 has them.
O_MASS, P_MASS, K_MASS = 15.999, 30.973762, 39.0983

SOLUBLE = LabelledFeed(Label(20, 10, 20))
LIQUID = LabelledFeed(Label(6, 3, 5), "liquid", density_kg_per_litre=1.2)
CAKE = LabelledFeed(Label(5, 4, 1), "cake")


def test_oxides_hold_their_elements_by_mass() -> None:
    assert round(2 * P_MASS / (2 * P_MASS + 5 * O_MASS), 3) == P_IN_P2O5 == 0.436
    assert round(2 * K_MASS / (2 * K_MASS + O_MASS), 3) == K_IN_K2O == 0.830


def test_twenty_percent_at_half_a_gram() -> None:
    """Published extension tables: 20 % N at 0.5 g/L is 100 ppm."""
    assert nutrients_ppm(SOLUBLE, Dilution(0.5, "g/L")).n == pytest.approx(100)


@pytest.mark.parametrize(("percent", "ounces"), [(20, 13.5), (15, 18)])
def test_ounces_in_a_hundred_gallons(percent: float, ounces: float) -> None:
    """University of Massachusetts Extension, Fertilizer Calculations for Greenhouse Crops.

    13 1/2 oz of 20-20-20, or 18 oz of 15-15-15, make 100 US gal of 200 ppm N (to half an ounce).
    """
    units = pint.get_application_registry()
    g_per_litre = (ounces * units.oz / (100 * units.gallon)).to("g/L").magnitude
    feed = LabelledFeed(Label(percent, percent, percent))
    assert nutrients_ppm(feed, Dilution(g_per_litre, "g/L")).n == pytest.approx(200, rel=0.02)
    back = dilution_for_ppm_n(feed, 200).amount * units.g / units.L
    assert (back * 100 * units.gallon).to("oz").magnitude == pytest.approx(ounces, abs=0.25)


def test_elements_and_oxides_by_hand() -> None:
    ppm = nutrients_ppm(SOLUBLE, Dilution(1, "g/L"))
    assert (ppm.n, ppm.p2o5, ppm.k2o) == pytest.approx((200, 100, 200))
    # 100 x 0.436 and 200 x 0.830.
    assert (ppm.p, ppm.k) == pytest.approx((43.6, 166))


def test_a_label_of_elements() -> None:
    """Potassium nitrate as a label in elements; K 38.7 is K2O 46.6, by atomic masses."""
    label = label_of_elements(13.9, 0, 38.7)
    assert label.k2o_percent == pytest.approx(38.7 * (2 * K_MASS + O_MASS) / (2 * K_MASS), rel=5e-4)
    assert nutrients_ppm(LabelledFeed(label), Dilution(1, "g/L")).k == pytest.approx(387)
    assert label_of_elements(0, 4.36, 0).p2o5_percent == pytest.approx(10)


def test_liquids_by_their_density() -> None:
    # 2 mL of 1.2 kg/L are 2.4 g; 6 % of it is 144 mg.
    assert feed_g_per_litre(LIQUID, Dilution(2, "mL/L")) == pytest.approx(2.4)
    assert nutrients_ppm(LIQUID, Dilution(2, "mL/L")).n == pytest.approx(144)
    # One part made up to 500 is 2 mL in a litre.
    assert nutrients_ppm(LIQUID, Dilution(500, "1:")).n == pytest.approx(144)
    # Weighed, it needs no density.
    assert nutrients_ppm(LabelledFeed(Label(6, 3, 5), "liquid"), Dilution(2.4, "g/L")).n == (
        pytest.approx(144)
    )


def test_back_from_ppm_by_hand() -> None:
    assert dilution_for_ppm_n(SOLUBLE, 100) == Dilution(0.5, "g/L")
    assert dilution_for_ppm_n(LIQUID, 144, "mL/L").amount == pytest.approx(2)
    assert dilution_for_ppm_n(LIQUID, 144, "1:").amount == pytest.approx(500)


@given(
    n=st.floats(0.5, 46),
    density=st.floats(0.6, 1.6),
    ppm=st.floats(5, 400),
    unit=st.sampled_from(["g/L", "mL/L", "1:"]),
)
def test_there_and_back(n: float, density: float, ppm: float, unit: DilutionUnit) -> None:
    feed = LabelledFeed(Label(n, 0, 0), density_kg_per_litre=density)
    assert nutrients_ppm(feed, dilution_for_ppm_n(feed, ppm, unit)).n == pytest.approx(ppm)


def test_a_season_by_hand() -> None:
    # 0.5 g/L x 1.5 L x 12 = 9 g of 20-10-20.
    season = season_nutrients_g(SOLUBLE, Dilution(0.5, "g/L"), 1.5, 12)
    assert (season.n, season.p2o5, season.k2o) == pytest.approx((1.8, 0.9, 1.8))
    assert (season.p, season.k) == pytest.approx((0.3924, 1.494))
    assert season_nutrients_g(SOLUBLE, Dilution(0.5, "g/L"), 1.5, 0).n == 0


def test_a_season_is_its_ppm_times_its_litres() -> None:
    units = pint.get_application_registry()
    ppm = nutrients_ppm(LIQUID, Dilution(400, "1:"))
    grams = (ppm.k2o * units.mg / units.L * 0.8 * units.L * 9).to("g").magnitude
    assert season_nutrients_g(LIQUID, Dilution(400, "1:"), 0.8, 9).k2o == pytest.approx(grams)


def test_a_cake_is_weighed_not_diluted() -> None:
    for refused in (
        lambda: nutrients_ppm(CAKE, None),
        lambda: nutrients_ppm(CAKE, Dilution(1, "g/L")),
        lambda: dilution_for_ppm_n(CAKE, 100),
        lambda: season_nutrients_g(CAKE, None, 1, 10),
    ):
        with pytest.raises(ValueError, match="cake is not diluted") as told:
            refused()
        assert str(told.value).count(".") == 1
    # Forty grams of 5-4-1.
    held = nutrients_g(CAKE.label, 40)
    assert (held.n, held.p2o5, held.k2o) == pytest.approx((2, 1.6, 0.4))


def test_missing_and_wrong_figures_say_what_to_give() -> None:
    with pytest.raises(ValueError, match="g/L, mL/L or a ratio"):
        nutrients_ppm(SOLUBLE, None)
    for unit in ("mL/L", "1:"):
        with pytest.raises(ValueError, match="density in kg/L"):
            nutrients_ppm(SOLUBLE, Dilution(2, unit))
        with pytest.raises(ValueError, match="density in kg/L"):
            dilution_for_ppm_n(SOLUBLE, 100, unit)
    with pytest.raises(ValueError, match="density in kg/L"):
        nutrients_ppm(LabelledFeed(Label(6, 3, 5), "liquid", 0.0), Dilution(2, "mL/L"))
    with pytest.raises(ValueError, match="no nitrogen"):
        dilution_for_ppm_n(LabelledFeed(Label(0, 10, 10)), 100)
    for ppm in (0, -5, nan, inf):
        with pytest.raises(ValueError, match="ppm of N you want, above 0"):
            dilution_for_ppm_n(SOLUBLE, ppm)
    for amount in (0, -1, nan, inf):
        with pytest.raises(ValueError, match="dilution, above 0"):
            Dilution(amount, "g/L")
    with pytest.raises(ValueError, match="made up to one part or more"):
        Dilution(0.5, "1:")
    with pytest.raises(ValueError, match="weight of the feed in g, 0 or more"):
        nutrients_g(CAKE.label, -1)
    for litres, times in ((-1.0, 3), (nan, 3), (1.0, -3)):
        with pytest.raises(ValueError, match=r"(litres|times) .*, 0 or more"):
            season_nutrients_g(SOLUBLE, Dilution(1, "g/L"), litres, times)


@pytest.mark.parametrize("percents", [(-1, 0, 0), (60, 30, 20), (nan, 0, 0)])
def test_labels_that_are_none(percents: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="three percents of one whole"):
        Label(*percents)
