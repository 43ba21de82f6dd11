"""What the milky sap of figs asks for after a cut. Common practice, no source."""

from __future__ import annotations

from backbud_species.habits.works import seals_cuts

FIG_SEAL = seals_cuts(
    "seal",
    what="the large cuts, once the sap has stopped",
    because="Sap runs for some minutes and lifts what is put on while it flows.",
    cautions=("The milky sap irritates skin and eyes; rinse it off with cold water.",),
)
