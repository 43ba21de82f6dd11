"""Lists every figure that the settings may set, wherever it is asked for.

What the species of a package ask for stands under the entry-point group `backbud.figures`.
"""

from __future__ import annotations

from importlib.metadata import entry_points

from backbud.plan.figures import PLAN_FIGURES
from backbud.plan.stores.figures import STORE_FIGURES
from backbud.species import SLOW_DRAIN_FROM, Figure

GROUP = "backbud.figures"


def known_figures() -> tuple[Figure, ...]:
    """Every figure that may be set."""
    found = [*PLAN_FIGURES, *STORE_FIGURES, SLOW_DRAIN_FROM]
    for point in entry_points(group=GROUP):
        found += point.load()
    return tuple({figure.name: figure for figure in found}.values())
