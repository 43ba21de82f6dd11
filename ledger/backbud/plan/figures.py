"""The numbers of ours that every tree's plan asks for; each may be set under its name."""

from __future__ import annotations

from backbud.plan.covers import COVER_FIGURES
from backbud.plan.vessels import VESSEL_FIGURES
from backbud.species import Figure

COLD_NIGHT_DROP = Figure(
    "cold_night_drop_c", 6.0, "How far in °C cold nights lie under the mean low of their date."
)
POT_MARGIN = Figure(
    "pot_margin_c", 5.0, "How many °C sooner roots in a pot die than the top in open ground."
)
SHALLOW_MARGIN = Figure(
    "shallow_margin_c", 3.0, "How many °C sooner still they die in a shallow pot."
)
SHALLOW_BELOW = Figure("shallow_below_cm", 8.0, "Depth in cm under which a pot is shallow.")

PLAN_FIGURES = (
    COLD_NIGHT_DROP,
    POT_MARGIN,
    SHALLOW_MARGIN,
    SHALLOW_BELOW,
    *COVER_FIGURES,
    *VESSEL_FIGURES,
)
