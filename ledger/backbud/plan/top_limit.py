"""Says how cold a night the top of a species bears, by its hardiness rating."""

from __future__ import annotations

from backbud.climate.hardiness import rhs_range_c
from backbud.species import Species


def top_bears_c(species: Species | None) -> float | None:
    """The coldest night (°C) that twigs and trunk bear in open ground: the lower limit of its RHS
    rating; None where that has none (H7) or the species is not rated."""
    if species is None or species.hardiness is None:
        return None
    return rhs_range_c(species.hardiness.value).lower_c
