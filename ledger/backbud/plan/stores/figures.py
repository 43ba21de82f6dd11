"""The numbers of ours that the stores ask for; each may be set under its name."""

from __future__ import annotations

from backbud.bench.mixes import USUAL_SETTLES_PERCENT
from backbud.species import Figure

# All are common practice, no source.
MARGIN = Figure("buying_margin_percent", 10.0, "What is bought over what the works ask for, in %.")
SETTLES = Figure("settles_percent", USUAL_SETTLES_PERCENT, "What a mix settles by, in %.")
ROOTS_OFF = Figure(
    "root_ball_off", 1 / 3, "Share of the root ball that is taken for gone where nobody says."
)
MOSS_LAYER = Figure("moss_layer_cm", 0.5, "Thickness in cm of moss laid on a pot.")
FINE_WIRE = Figure("fine_wire_m", 3.0, "Metres of wire up to 1.2 mm on a branch with its twigs.")
MIDDLE_WIRE = Figure("middle_wire_m", 2.0, "Metres of wire up to 2 mm on a branch.")
THICK_WIRE = Figure("thick_wire_m", 1.5, "Metres of wire over 2 mm on a branch.")
GUY_WIRE = Figure("guy_wire_m", 0.5, "Metres of wire in a guy.")
TIE_WIRE = Figure("tie_wire_m", 0.8, "Metres of an anchor tie in a pot whose size is not known.")

STORE_FIGURES = (
    MARGIN,
    SETTLES,
    ROOTS_OFF,
    MOSS_LAYER,
    FINE_WIRE,
    MIDDLE_WIRE,
    THICK_WIRE,
    GUY_WIRE,
    TIE_WIRE,
)
