"""What the milky sap of figs asks for after a cut. Common practice, no source."""

from __future__ import annotations

from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.works import after_work

FIG_SEAL = after_work(
    "seal",
    ("pruned",),
    "sealed",
    (0, 0, 3),
    what="the large cuts, once the sap has stopped",
    because="Sap runs for some minutes and lifts what is put on while it flows.",
    cautions=("The milky sap irritates skin and eyes; rinse it off with cold water.",),
    only_after=is_hard_pruning,
    each_part=True,
)
