"""The numbers of ours that every tree's plan asks for; each may be set under its name."""

from __future__ import annotations

from backbud.plan.agreed_work import AGREED_WEEKS
from backbud.plan.ask_after import ASK_AFTER_WEEKS
from backbud.plan.common.frost_ahead import TENDER_IN_BELOW
from backbud.plan.common.heat_ahead import HEAT_OVER
from backbud.plan.common.quarantine_ends import QUARANTINE_DAYS
from backbud.plan.common.shade_off import SHADE_OFF_UNDER
from backbud.plan.common.wind_ahead import GUST_OVER
from backbud.plan.covers import COVER_FIGURES
from backbud.plan.unpaid import PAYMENT_DAYS
from backbud.plan.vessels import VESSEL_FIGURES
from backbud.species import Figure

POT_MARGIN = Figure(
    "pot_margin_c", 5.0, "How many °C sooner roots in a pot die than the top in open ground."
)
YOUNG_ROOTS = Figure(
    "young_roots_c", -5.0, "The coldest night in °C that young roots bear, where none is known."
)
SHALLOW_BELOW = Figure("shallow_below_cm", 8.0, "Depth in cm under which a pot is shallow.")

PLAN_FIGURES = (
    POT_MARGIN,
    YOUNG_ROOTS,
    SHALLOW_BELOW,
    QUARANTINE_DAYS,
    TENDER_IN_BELOW,
    HEAT_OVER,
    SHADE_OFF_UNDER,
    GUST_OVER,
    AGREED_WEEKS,
    ASK_AFTER_WEEKS,
    PAYMENT_DAYS,
    *COVER_FIGURES,
    *VESSEL_FIGURES,
)
