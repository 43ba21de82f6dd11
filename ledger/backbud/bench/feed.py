"""How much of N, P and K is in the water given, and in all of a season's feeding.

A label gives N as the element, P and K as oxides (P2O5, K2O), in percent by mass. One ppm is
1 mg in a litre of water: ppm = percent x 10 x g/L (University of Massachusetts Extension, Chart:
Ratios and Concentrations for Using Water Soluble Fertilizers, 2011, for ppm as mg/L).
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from backbud.bench.pots import not_negative, positive

# From the standard atomic masses (IUPAC): 2 P / P2O5 and 2 K / K2O.
P_IN_P2O5 = 0.436
K_IN_K2O = 0.830

Form = Literal["soluble", "liquid", "cake"]
DilutionUnit = Literal["g/L", "mL/L", "1:"]

CAKE_HAS_NO_PPM = (
    "A solid cake is not diluted but gives itself off over weeks of watering, so it has no ppm: "
    "weigh it and go by the grams."
)


class Label(Struct, frozen=True, gc=False):
    """An N-P-K label in percent by mass: N, P as P2O5, K as K2O.

    ValueError where a percent is below zero or all three are above 100.
    """

    n_percent: float
    p2o5_percent: float
    k2o_percent: float

    def __post_init__(self) -> None:
        percents = (self.n_percent, self.p2o5_percent, self.k2o_percent)
        if not all(percent >= 0 for percent in percents) or sum(percents) > 100:
            written = "-".join(f"{percent:g}" for percent in percents)
            raise ValueError(f"A label is three percents of one whole, not {written}.")


def label_of_elements(n_percent: float, p_percent: float, k_percent: float) -> Label:
    """Return the label in oxides of a feed whose label gives P and K as elements."""
    return Label(n_percent, p_percent / P_IN_P2O5, k_percent / K_IN_K2O)


class LabelledFeed(Struct, frozen=True, gc=False):
    """A feed: its label, its form, and its density (kg/L; needed where it is measured by volume).

    A liquid whose label is in grams per 100 mL is one of density 1.
    """

    label: Label
    form: Form = "soluble"
    density_kg_per_litre: float | None = None


class Dilution(Struct, frozen=True, gc=False):
    """How much of a feed is in the water: `Dilution(0.5, "g/L")`, (2, "mL/L"), (500, "1:").

    A ratio of 1:500 is one part by volume made up to 500 (so an injector of 1:100 is read:
    University of Massachusetts Extension, the same chart).
    """

    amount: float
    unit: DilutionUnit

    def __post_init__(self) -> None:
        positive(self.amount, "dilution")
        if self.unit == "1:" and self.amount < 1:
            raise ValueError(f"One part is made up to one part or more, not {self.amount:g}.")


class Nutrients(Struct, frozen=True, gc=False):
    """N, P and K, as labels and as elements, in the unit of the sum that gave them (ppm or g)."""

    n: float
    p2o5: float
    k2o: float

    @property
    def p(self) -> float:
        """Phosphorus as the element."""
        return self.p2o5 * P_IN_P2O5

    @property
    def k(self) -> float:
        """Potassium as the element."""
        return self.k2o * K_IN_K2O


def feed_g_per_litre(feed: LabelledFeed, dilution: Dilution | None) -> float:
    """Return the grams of a feed in a litre of the water given.

    ValueError for a cake, for no dilution, and for a volume of a feed whose density is not known.
    """
    if feed.form == "cake":
        raise ValueError(CAKE_HAS_NO_PPM)
    if dilution is None:
        raise ValueError("Say how far it is diluted: g/L, mL/L or a ratio such as 1:500.")
    if dilution.unit == "g/L":
        return dilution.amount
    ml_per_litre = dilution.amount if dilution.unit == "mL/L" else 1000 / dilution.amount
    return ml_per_litre * _density_kg_per_litre(feed)


def nutrients_ppm(feed: LabelledFeed, dilution: Dilution | None) -> Nutrients:
    """Return the nutrients in the water given, in ppm (mg/L). Errors as `feed_g_per_litre`."""
    return nutrients_g(feed.label, 1000 * feed_g_per_litre(feed, dilution))


def dilution_for_ppm_n(feed: LabelledFeed, n_ppm: float, unit: DilutionUnit = "g/L") -> Dilution:
    """Return the dilution, in the unit asked for, that gives so many ppm (mg/L) of N.

    ValueError for a cake, for a feed without nitrogen, for no ppm, for a volume of a feed whose
    density is not known, and for a ratio stronger than the feed itself.
    """
    if feed.form == "cake":
        raise ValueError(CAKE_HAS_NO_PPM)
    positive(n_ppm, "ppm of N you want")
    if feed.label.n_percent == 0:
        raise ValueError("This label has no nitrogen to reckon by.")
    g_per_litre = n_ppm / (10 * feed.label.n_percent)
    if unit == "g/L":
        return Dilution(g_per_litre, unit)
    ml_per_litre = g_per_litre / _density_kg_per_litre(feed)
    return Dilution(ml_per_litre if unit == "mL/L" else 1000 / ml_per_litre, unit)


def nutrients_g(label: Label, product_g: float) -> Nutrients:
    """Return the nutrients (g) in so many grams of a feed; what a cake holds, too.

    ValueError where the grams are below zero.
    """
    not_negative(product_g, "weight of the feed in g")
    return Nutrients(
        label.n_percent / 100 * product_g,
        label.p2o5_percent / 100 * product_g,
        label.k2o_percent / 100 * product_g,
    )


def season_nutrients_g(
    feed: LabelledFeed, dilution: Dilution | None, litres_each_time: float, times: int
) -> Nutrients:
    """Return the nutrients (g) one pot is given in a season; what runs through is counted too.

    Errors as `feed_g_per_litre`, and where litres or times are below zero.
    """
    not_negative(litres_each_time, "litres a pot is given each time")
    not_negative(times, "number of times it is fed")
    product_g = feed_g_per_litre(feed, dilution) * litres_each_time * times
    return nutrients_g(feed.label, product_g)


def _density_kg_per_litre(feed: LabelledFeed) -> float:
    density = feed.density_kg_per_litre
    if density is None:
        raise ValueError("Give the feed's density in kg/L: it is measured by volume.")
    positive(density, "feed's density in kg/L")
    return density
