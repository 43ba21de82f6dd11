"""The care of a common camellia, worked on between its late-winter flowers and its one flush.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.blossom import covers_blossom
from backbud_species.habits.camellias import Camellia
from backbud_species.habits.works import altered, at, deadheads, repots, trims


class CommonCamellia(Camellia):
    """The camellia of late winter, large-leaved and slow."""

    rule_prefix = "camellia"
    botanical = "Camellia japonica"
    common = ("common camellia", "camellia", "Japanese camellia")
    also = ("Camellia rusticana", "Camellia × williamsii", "Thea japonica", "tsubaki", "wabisuke")
    habit = "A slow glossy evergreen that flowers in late winter, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H5", FROM_MEMORY)
    # It starts at low temperatures, so a low base.
    base_c = Fact(2.0, FROM_MEMORY)
    # For a cool temperate place; from memory. Flowers come before the flush.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 28), (4, 12), (4, 27)),
        7: ((4, 14), (4, 28), (5, 13)),
        10: ((4, 26), (5, 10), (5, 24)),
        19: ((6, 14), (6, 28), (7, 12)),
        60: ((2, 18), (3, 8), (3, 26)),
        65: ((3, 8), (3, 25), (4, 10)),
        69: ((4, 4), (4, 19), (5, 3)),
        91: ((8, 20), (9, 8), (9, 28)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        Camellia.works,
        *repots(
            "repot",
            at(69, -3, 4, 12),
            because="Between its last flower and its one flush, cut roots regrow at once.",
            cautions=("Soak fresh kanuma well: dry grains draw water out of fine roots.",),
        ),
        covers_blossom(
            "blossom",
            because="Frozen buds and flowers brown when they thaw fast, so they want shade in the "
            "morning and a roof at night.",
            buds_days=21,
        ),
        deadheads(
            "deadhead",
            at(65, 0, 10, 40),
            what="each flower as it browns, fallen ones from the soil too",
            because="Seed pods cost the flush that follows, and petal blight lives on in fallen "
            "flowers.",
            cautions=("Brown veins and a grey ring at the base are blight: burn those flowers.",),
        ),
        trims(
            "trim",
            at(69, 0, 7, 18),
            what="twigs that flowered to two leaves with a bud at their foot",
            because="Its only flush starts now, and whatever is cut later costs the flower buds at "
            "its tips.",
            cautions=("Cut above a leaf with a plump bud, or the twig dies back.",),
        ),
    )
