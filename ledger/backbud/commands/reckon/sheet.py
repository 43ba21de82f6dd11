"""How the lines of a sum are shown on a terminal, and given to a program."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

# Figures for a program, the unit in each name.
Figures = Mapping[str, object]


class SumLine(Struct, frozen=True, gc=False):
    """A line of a sum: what it is, its value as a person reads it, and the rule with its source.

    `figures`: the same for a program, by name.
    """

    label: str
    value: str
    rule: str
    figures: Figures = {}


class SumSheet(Struct, frozen=True, gc=False):
    """A sum: its lines, what to beware of, and rows of figures that come one an ingredient."""

    lines: Sequence[SumLine]
    cautions: Sequence[str] = ()
    ingredients: Sequence[Figures] = ()


def lines_of(sheet: SumSheet) -> Iterator[str]:
    """The sheet in aligned lines."""
    wide = max((len(line.label) for line in sheet.lines), default=0)
    value_wide = max((len(line.value) for line in sheet.lines), default=0)
    for line in sheet.lines:
        yield f"{line.label:<{wide}}  {line.value:<{value_wide}}  {line.rule}".rstrip()
    for caution in sheet.cautions:
        yield f"! {caution}"


def json_of(sheet: SumSheet) -> dict[str, object]:
    """The sheet for a program: flat, units in the names; figures to six digits."""
    out: dict[str, object] = {}
    for line in sheet.lines:
        out.update(line.figures)
    if sheet.ingredients:
        out["ingredients"] = list(sheet.ingredients)
    out["rules"] = [f"{line.label}: {line.rule}" for line in sheet.lines if line.rule]
    out["cautions"] = list(sheet.cautions)
    return out


def precise(value: float, unit: str) -> str:
    """A figure as precise as anybody measures: `9.50 L`, `47.3 cm`, `792 cm²`, `0.05 m`."""
    decimals = 0 if abs(value) >= 100 else 1 if abs(value) >= 10 else 2
    return f"{value:z.{decimals}f} {unit}"


def sizes_of(values: Sequence[float], unit: str) -> str:
    """Sizes as print sets them: `36 × 28 × 12 cm`."""
    return f"{' × '.join(f'{value:z.4g}' for value in values)} {unit}"
