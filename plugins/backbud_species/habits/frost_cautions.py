"""What a work says of frost is said where such frost may come in its time, and nowhere else."""

from __future__ import annotations

from backbud.species import ROOTS_REST, Window, Year, frost_to_come
from backbud_species.habits.yearly import CUT_ROOTS_FREEZE, FROZEN_WOOD_SNAPS, WARMED

# A night in °C that freezes twigs, and the rim of a pot, through to the morning; ours, no source.
_FREEZES_THROUGH_C = -4.0


def fitting(cautions: tuple[str, ...], window: Window, year: Year) -> tuple[str, ...]:
    """The cautions of a work in a window; none of frost in warmth, nor where one winter in ten has
    no such night in its time: of cut roots, in the weeks after it as well."""
    return tuple(one for one in cautions if _fits(one, window, year))


def _fits(caution: str, window: Window, year: Year) -> bool:
    if caution not in (FROZEN_WOOD_SNAPS, CUT_ROOTS_FREEZE):
        return True
    if year.cover.casefold().startswith(WARMED):
        return False
    if caution == FROZEN_WOOD_SNAPS:
        return frost_to_come(year, _FREEZES_THROUGH_C, window.opens, window.closes) is not None
    young = year.young_roots_bear
    limit_c = max(_FREEZES_THROUGH_C, young.celsius) if young else _FREEZES_THROUGH_C
    return frost_to_come(year, limit_c, window.opens, window.closes + ROOTS_REST) is not None
