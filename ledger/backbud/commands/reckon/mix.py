"""`reckon mix`: litres and bags of each ingredient for so much of a mix."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

from backbud.bench.mixes import (
    Needed,
    known_ingredient,
    loose_litres,
    needed,
    usual_sieving_loss_percent,
)
from backbud.bench.weights import Density, density_of
from backbud.commands.reckon import asked as read
from backbud.commands.reckon.asked import Asked, Option, as_on_card, by_name, measured
from backbud.commands.reckon.sheet import Figures, SumLine, SumSheet, precise
from backbud.words import number
from backbud_grammar.details import part_at_commas
from backbud_grammar.measures import Measure, convert

Value = TypeVar("Value")

MIX = as_on_card(
    "mix", "ingredient", "--mix", "the ingredients with their parts by volume",
    "parts by volume such as “akadama 2, pumice 1, lava 1”",
)  # fmt: skip
LITRES = measured("--litres", "how much of the mix", "volume", "number", give="litres such as 20 L")
BAG = measured(
    "--bag", "what a bag holds, for all or for each by name (“pumice 25 L”)", "volume", "number",
    give="litres such as 14 L or “pumice 25 L”",
)  # fmt: skip
SIEVING = measured(
    "--sieving", "loss in sieving, for all or for each by name; usual losses unless given",
    "share", "number",
    give="a share such as 10 % or “akadama 15 %”",
)  # fmt: skip
SETTLES = as_on_card(
    "mix", "settles", "--settles", "if --litres is the room to fill: what the mix settles by",
    "a share such as 10 %",
)  # fmt: skip
DENSITY = by_name(
    "--density", "your own weight of a litre, dry and soaked",
    "a weight such as “brick 0.9-1.2 kg/L”", "rate",
)  # fmt: skip

OPTIONS: tuple[Option, ...] = (MIX, LITRES, SETTLES, BAG, SIEVING)
EXAMPLE = (
    'backbud reckon mix --mix "akadama 2, pumice 1, lava 1" '
    '--litres 20 --bag 14 --sieving "10 %"'
)  # fmt: skip


def reckon(asked: Asked) -> SumSheet:
    """The sheet of a mix."""
    parts = read.asked_for(recipe_parts(asked), MIX)
    wanted = read.asked_for(read.amount(asked, LITRES, "L"), LITRES)
    settles = read.amount(asked, SETTLES, "%")
    loose = wanted if settles is None else loose_litres(wanted, settles)
    sold_in = _of_each(asked, BAG, "L", parts)
    losses = _of_each(asked, SIEVING, "%", parts)
    for ingredient, percent in losses.items():
        if percent >= 100:
            raise ValueError(
                f"Give --sieving below 100 % (not {percent:g} %): none of the {ingredient} is left."
            )
    found = needed(parts, loose, sold_in, losses)
    lines = [_loose_line(wanted, loose, settles)]
    lines += [_ingredient_line(one, sold_in, losses) for one in found]
    return SumSheet(lines, (), [_figures(one, sold_in) for one in found])


def recipe_parts(asked: Asked) -> dict[str, float] | None:
    """The recipe of `--mix`, parts by ingredient; None where it was not given."""
    parts: dict[str, float] = {}
    sorts = set()
    for found in read.details(asked, MIX):
        measure = found.measure
        assert measure is not None
        if found.words in parts:
            raise ValueError(f"Give {found.words} once in --mix, with all its parts.")
        parts[found.words] = read.asked_amount(measure, MIX, "%") / _whole(measure)
        sorts.add(measure.sort == "share")
    if len(sorts) > 1:
        raise ValueError("Give --mix in parts or in percent, not in both.")
    total = sum(parts.values())
    if True in sorts and abs(total - 1) > 0.005:
        raise ValueError(f"Give --mix in percent that add up to 100 (not {100 * total:g}).")
    return parts or None


def own_densities(asked: Asked, parts: Mapping[str, float]) -> dict[str, Density]:
    """The weights of `--density`, by ingredient of the mix."""
    named = {}
    for found in read.details(asked, DENSITY):
        measure = found.measure
        assert measure is not None
        named[_folded(found.words)] = _density(measure)
    own = _matched(named, parts, DENSITY)
    for ingredient in parts:
        try:
            density_of(ingredient, own)
        except ValueError:
            raise ValueError(
                f"Give --density for “{ingredient}”, {DENSITY.give}: its weight is not known."
            ) from None
    return own


# ------------------------------------------------------------------ text to values


def _whole(measure: Measure) -> int:
    return 100 if measure.sort in ("share", "fraction") else 1


def _density(measure: Measure) -> Density:
    if measure.upper is None:
        raise ValueError("Give --density dry and soaked, such as “brick 0.9-1.2 kg/L”.")
    dry, wet = (
        float(convert(weight, measure.unit, "kg") / convert(type(weight)(1), measure.per, "L"))
        for weight in (measure.numbers[0], measure.upper)
    )
    return Density(dry, wet, "as given")


def _of_each(
    asked: Asked, option: Option, unit: str, parts: Mapping[str, float]
) -> dict[str, float]:
    """The figure of each ingredient: by its name, or the one given for all."""
    for_all: dict[str, list[str]] = {option.flag: []}
    for_some: dict[str, list[str]] = {option.flag: []}
    for text in asked.get(option.flag, ()):
        for _, piece in part_at_commas(text):
            (for_all if piece.lstrip("-+")[:1].isdigit() else for_some)[option.flag].append(piece)
    one = read.amount(for_all, option, unit) if for_all[option.flag] else None
    out = {} if one is None else dict.fromkeys(parts, one)
    named_option = by_name(option.flag, option.about, option.give, *option.form.sorts)
    named = {}
    for found in read.details(for_some, named_option):
        assert found.measure is not None
        named[_folded(found.words)] = read.asked_amount(found.measure, option, unit)
    return {**out, **_matched(named, parts, option)}


def _matched(
    named: Mapping[str, Value], parts: Mapping[str, float], option: Option
) -> dict[str, Value]:
    """Figures given by name, for the ingredients of the mix that the names speak of."""
    found = {ingredient: known_ingredient(ingredient, named) for ingredient in parts}
    for name in named:
        if name not in found.values():
            raise ValueError(
                f"Give {option.flag} for an ingredient of the mix, {', '.join(parts)} "
                f"(not “{name}”)."
            )
    return {ingredient: named[name] for ingredient, name in found.items() if name}


def _folded(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())


# ------------------------------------------------------------------ values to lines


def _loose_line(wanted: float, loose: float, settles: float | None) -> SumLine:
    if settles is None:
        rule = "measured out loose, by parts of volume"
    else:
        rule = f"fills {precise(wanted, 'L')} once settled by {settles:g} %; as given"
    return SumLine("mix, loose", precise(loose, "L"), rule, {"mix_loose_litres": loose})


def _ingredient_line(
    one: Needed, sold_in: Mapping[str, float], losses: Mapping[str, float]
) -> SumLine:
    return SumLine(one.ingredient, precise(one.litres, "L"), "; ".join(_said(one, sold_in, losses)))


def _said(one: Needed, sold_in: Mapping[str, float], losses: Mapping[str, float]) -> Iterator[str]:
    usual = usual_sieving_loss_percent(one.ingredient)
    lost = losses.get(one.ingredient, usual)
    source = "as given" if one.ingredient in losses else "a usual loss, from memory"
    if lost:
        yield f"{precise(one.litres_before_sieving, 'L')} before sieving off {lost:g} % ({source})"
    else:
        yield "not sieved"
    if one.bags is not None and one.left_over_litres is not None:
        yield (
            f"{number(one.bags, 'bag')} of {sold_in[one.ingredient]:g} L, "
            f"{precise(one.left_over_litres, 'L')} over"
        )


def _figures(one: Needed, sold_in: Mapping[str, float]) -> Figures:
    return {
        "ingredient": one.ingredient,
        "litres": one.litres,
        "before_sieving_litres": one.litres_before_sieving,
        "bag_litres": sold_in.get(one.ingredient),
        "bags": one.bags,
        "left_over_litres": one.left_over_litres,
    }
