"""`reckon feed`: the N, P and K in the water given, or the dilution for so many ppm."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from backbud.bench.feed import (
    CAKE_HAS_NO_PPM,
    K_IN_K2O,
    P_IN_P2O5,
    Dilution,
    DilutionUnit,
    Label,
    LabelledFeed,
    Nutrients,
    dilution_for_ppm_n,
    feed_g_per_litre,
    label_of_elements,
    nutrients_g,
    nutrients_ppm,
    season_nutrients_g,
)
from backbud.commands.reckon.asked import (
    Asked,
    Option,
    amount,
    as_on_card,
    asked_for,
    asked_measure,
    chosen,
    measured,
    word,
)
from backbud.commands.reckon.sheet import Figures, SumLine, SumSheet, precise
from backbud_grammar.measures import BY_WRITING, Measure, convert

LABEL = as_on_card(
    "material", "label", "--label", "N-P-K as printed on it", "N-P-K such as 20-10-20"
)
LABEL_GIVES = chosen(
    "--label-gives", "whether it gives P and K as oxides (usual) or as elements",
    ("oxides", "elements"),
)  # fmt: skip
FORM = chosen("--form", "of the feed; soluble unless given", ("soluble", "liquid", "cake"))
DENSITY = as_on_card(
    "material", "density", "--density", "of a feed measured by volume", "a rate such as 1.2 kg/L"
)
DILUTION = measured(
    "--dilution", "how much of it is in the water", "rate", "ratio",
    give="a rate such as 0.5 g/L or 2 mL/L, or a ratio such as 1:500",
)  # fmt: skip
WANTED = measured(
    "--wanted", "ppm of N you want: the sum goes back to the dilution", "concentration", "number",
    give="a concentration such as 100 ppm",
)  # fmt: skip
EACH = measured(
    "--each", "water a pot is given each time, for the season", "volume", "number",
    give="a volume such as 1 L",
)  # fmt: skip
TIMES = measured(
    "--times", "how often it is fed in the season", "number", limits=(1, 1000),
    give="a whole number such as 12",
)  # fmt: skip
WEIGHT = measured("--weight", "of a solid cake", "mass", give="a mass such as 20 g")

OPTIONS: tuple[Option, ...] = (
    LABEL, LABEL_GIVES, FORM, DENSITY, DILUTION, WANTED, EACH, TIMES, WEIGHT,
)  # fmt: skip
EXAMPLE = 'backbud reckon feed --label 20-10-20 --dilution "0.5 g/L" --each "1 L" --times 12'

_PPM = (
    "percent × 10 × g/L, since 1 ppm is 1 mg/L (so the University of Massachusetts Extension, 2011)"
)
# Figures of a label as it is written, before it is read.
_FIGURE = re.compile(r"[0-9]+(?:[.,][0-9]+)?")


class _Given(Struct, frozen=True, gc=False):
    """The dilutions to reckon: the one as given or, where ppm are wanted, the ones that give it."""

    feed: LabelledFeed
    dilution: Dilution
    wanted_ppm: float | None


def reckon(asked: Asked) -> SumSheet:
    """The sheet of a feed."""
    label = _label(asked)
    if word(asked, FORM) == "cake":
        return SumSheet(_cake_lines(label, _cake_g(asked)))
    given = _given(asked, label)
    return SumSheet([*_dilution_lines(given), *_ppm_lines(given), *_season_lines(asked, given)])


# ------------------------------------------------------------------ text to values


def _label(asked: Asked) -> Label:
    for text in asked.get(LABEL.flag, ()):
        if (count := len(_FIGURE.findall(text))) not in (0, 3):
            raise ValueError(
                f"Give --label as {LABEL.give}: a label has three numbers, not {count}."
            )
    n, p, k = (float(percent) for percent in asked_for(asked_measure(asked, LABEL), LABEL).numbers)
    if word(asked, LABEL_GIVES) == "elements":
        return label_of_elements(n, p, k)
    return Label(n, p, k)


def _cake_g(asked: Asked) -> float:
    weight_g = amount(asked, WEIGHT, "g")
    if weight_g is None or any(option.flag in asked for option in (DILUTION, WANTED, EACH, TIMES)):
        raise ValueError(f"{CAKE_HAS_NO_PPM[:-1]} (give --weight alone, {WEIGHT.give}).")
    return weight_g


def _given(asked: Asked, label: Label) -> _Given:
    if WEIGHT.flag in asked:
        raise ValueError("Give --weight with --form cake; what is diluted has a --dilution.")
    density = asked_measure(asked, DENSITY)
    kg_per_litre = None if density is None else _in_litres(density, "kg", DENSITY)
    if kg_per_litre == 0:
        raise ValueError(f"Give --density as {DENSITY.give}, above 0.")
    feed = LabelledFeed(label, density_kg_per_litre=kg_per_litre)
    written = asked_measure(asked, DILUTION)
    wanted_ppm = amount(asked, WANTED, "ppm")
    if written is None and wanted_ppm is None:
        raise ValueError(f"Give --dilution as {DILUTION.give}, or --wanted such as 100 ppm.")
    if written is not None and wanted_ppm is not None:
        raise ValueError("Give --dilution or --wanted, not both: the one follows from the other.")
    if written is not None:
        dilution = _dilution(written)
        if dilution.unit != "g/L" and kg_per_litre is None:
            raise ValueError(f"Give --density as {DENSITY.give}: this feed is measured by volume.")
        return _Given(feed, dilution, None)
    return _Given(feed, dilution_for_ppm_n(feed, asked_for(wanted_ppm, WANTED)), wanted_ppm)


def _dilution(written: Measure) -> Dilution:
    if written.sort == "ratio":
        one, whole = written.numbers[0], written.numbers[-1]
        if len(written.numbers) != 2:
            raise ValueError(f"Give --dilution as {DILUTION.give}: a ratio of two.")
        return Dilution(float(whole / one), "1:")
    unit = BY_WRITING.get(written.unit)
    by_volume = unit is not None and unit.dimension == "volume"
    in_water: DilutionUnit = "mL/L" if by_volume else "g/L"
    return Dilution(_in_litres(written, in_water[:-2], DILUTION), in_water)


def _in_litres(rate: Measure, unit: str, option: Option) -> float:
    """A rate as so much of `unit` in a litre."""
    try:
        litres = convert(type(rate.number)(1), rate.per, "L")
        return float(convert(rate.number, rate.unit, unit) / litres)
    except ValueError:
        raise ValueError(f"Give {option.flag} as {option.give} (not {rate}).") from None


# ------------------------------------------------------------------ values to lines


def _dilution_lines(given: _Given) -> Iterator[SumLine]:
    g_per_litre = feed_g_per_litre(given.feed, given.dilution)
    figures: dict[str, object] = {"feed_g_per_litre": g_per_litre}
    ways = [precise(g_per_litre, "g/L")]
    if given.feed.density_kg_per_litre is not None:
        ml_per_litre = g_per_litre / given.feed.density_kg_per_litre
        figures |= {"feed_ml_per_litre": ml_per_litre, "one_part_in": 1000 / ml_per_litre}
        ways += [precise(ml_per_litre, "mL/L"), f"1:{1000 / ml_per_litre:.0f}"]
    if given.wanted_ppm is None:
        rule = "as given"
    else:
        rule = f"for {given.wanted_ppm:g} ppm of N: g/L = ppm / (10 × percent)"
        figures["wanted_n_ppm"] = given.wanted_ppm
    yield SumLine("dilution", " = ".join(ways), rule, figures)


def _ppm_lines(given: _Given) -> Iterator[SumLine]:
    ppm = nutrients_ppm(given.feed, given.dilution)
    return _nutrient_lines("", ppm, "ppm", _PPM)


def _season_lines(asked: Asked, given: _Given) -> Iterator[SumLine]:
    each_litres, times = amount(asked, EACH, "L"), amount(asked, TIMES, "")
    if each_litres is None and times is None:
        return iter(())
    each_litres, times = asked_for(each_litres, EACH), asked_for(times, TIMES)
    grams = season_nutrients_g(given.feed, given.dilution, each_litres, int(times))
    each = float(f"{each_litres:.3g}")
    rule = f"{times:g} × {each:g} L to one pot; what runs through is counted too"
    return _nutrient_lines("season ", grams, "g", rule, "season_")


def _cake_lines(label: Label, weight_g: float) -> list[SumLine]:
    rule = f"percent of {weight_g:g} g, given off over weeks of watering; no ppm"
    return list(_nutrient_lines("", nutrients_g(label, weight_g), "g", rule))


def _nutrient_lines(
    lead: str, found: Nutrients, unit: str, rule: str, key: str = ""
) -> Iterator[SumLine]:
    """N, P and K: as the element and, for P and K, as the oxide."""
    yield SumLine(f"{lead}N", precise(found.n, unit), rule, {f"{key}n_{unit}": found.n})
    for element, oxide, share, of_element, of_oxide in (
        ("P", "P2O5", P_IN_P2O5, found.p, found.p2o5),
        ("K", "K2O", K_IN_K2O, found.k, found.k2o),
    ):
        figures: Figures = {
            f"{key}{element.lower()}_{unit}": of_element,
            f"{key}{oxide.lower()}_{unit}": of_oxide,
        }
        yield SumLine(
            f"{lead}{element}",
            precise(of_element, unit),
            f"the element, {share:.3f} of {precise(of_oxide, unit)} {oxide} (IUPAC atomic masses)",
            figures,
        )
