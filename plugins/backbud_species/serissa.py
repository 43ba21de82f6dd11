"""The care of a serissa, which sheds its leaves at any change and suckers from its roots.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.indoors import LAST_TRIM, WINTER_FEED, WINTER_LIGHT
from backbud_species.habits.tropical import Tropical
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    checks_after,
    deadheads,
    repots,
    trims,
    watches_for,
    work,
)

_FLORIDA = "University of North Florida Botanical Garden, Serissa foetida"


class Serissa(Tropical):
    """A twiggy little shrub full of white stars, which drops its leaves at every change."""

    rule_prefix = "serissa"
    botanical = "Serissa japonica"
    common = ("serissa", "snow rose", "tree of a thousand stars")
    also = ("Serissa foetida", "Lycium japonicum", "Serissa serissoides", "snowrose", "hakuchoge")
    strongest = "basitonic"
    habit = "A small twiggy shrub that suckers from its roots, with white stars all summer."
    # The RHS list itself was not at hand. In the ground of north Florida it bears light frost and
    # may lose its leaves (University of North Florida).
    hardiness = Fact("H2", FROM_MEMORY)
    soil_ph = Fact((5.5, 6.8), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, kanuma 1", COMMON_PRACTICE)
    root_share = Fact((0.3, 0.5), COMMON_PRACTICE)
    comes_in_below_c = Fact(7.0, COMMON_PRACTICE)
    light = Fact("Full sun to part shade.", _FLORIDA)
    water = Fact("Evenly moist and well drained: dry or sodden, it sheds.", COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people or pets; its cut roots smell foul.", FROM_MEMORY)
    bark = Fact("Its bark is thin, rough and pale, and its twigs are brittle.", COMMON_PRACTICE)
    wire_check_weeks = Fact((4, 6, 8), COMMON_PRACTICE)
    girth_growth_mm = Fact(3.0, COMMON_PRACTICE)
    # Wintered light at 10 to 15 °C; from memory. Flowers come again all summer.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 1), (3, 18), (4, 5)),
        7: ((3, 16), (4, 2), (4, 20)),
        10: ((3, 30), (4, 16), (5, 4)),
        19: ((5, 10), (5, 28), (6, 14)),
        60: ((5, 8), (5, 24), (6, 10)),
        65: ((5, 22), (6, 7), (6, 24)),
        69: ((6, 10), (6, 26), (7, 14)),
        91: ((9, 15), (10, 4), (10, 26)),
    }
    advice = (
        "Find it one light place and leave it there: it sheds at a move, a draught, wet or dry.",
        "Winter it light at 10 to 15 °C, and feed it weakly while it grows.",
        "After it has shed its leaves water little until new ones show.",
    )
    never = (
        "Never let it stand in frost or on a cold wet sill.",
        "Never move, repot and prune it all at once.",
        "Never let the root ball dry out, nor stand in water.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        *repots(
            "repot",
            at(7, 0, 14, 35),
            because="Its roots regrow as the shoots begin, before it has flowers to carry.",
            cautions=("Warmth, shade and moist air afterwards, and no feed for six weeks.",),
        ),
        trims(
            "trim",
            at(69, 0, 5, 18),
            what="shoots that flowered to one or two pairs, the low ones first",
            because="It flowers at the tips of new shoots, so a cut after one bloom makes the "
            "next.",
        ),
        LAST_TRIM,
        deadheads(
            "deadhead",
            at(65, 0, 7, 25),
            what="spent flowers",
            because="They brown on the tree and take strength from the next ones.",
        ),
        work(
            "suckers",
            "rubbed",
            by_warmth((5, 1), (5, 25), (7, 31)),
            what="suckers from the roots and the base, while they are soft",
            because="It grows strongest at the base, and suckers starve the top within a season.",
            cautions=("Keep one where a new trunk is wanted.",),
        ),
        WINTER_LIGHT,
        WINTER_FEED,
        checks_after(
            "leaf-drop",
            ("moved", "repotted"),
            (10, 18, 30),
            look_at="leaves",
            what="leaves, and water less if they fall",
            because="It sheds at any change and comes again if it is left alone and not drowned.",
        ),
        watches_for(
            "whitefly",
            by_warmth((5, 15), (6, 10), (8, 15)),
            where="whitefly and mites under the leaves, and soft dark bark at the soil",
            because="Sap suckers fill its dense crown, and wet soil rots it from the collar up.",
        ),
    )
