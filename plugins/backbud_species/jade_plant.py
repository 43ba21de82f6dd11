"""The care of a jade plant, clipped rather than wired, as its stems snap and its skin marks.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.succulents import Succulent
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    checks_after,
    deadheads,
    pinches,
    watches_for,
    weeks,
    wires,
)

_CLEMSON = "Clemson University Cooperative Extension, HGIC 1507 Jade Plant"


class JadePlant(Succulent):
    """A thick-stemmed succulent of paired round leaves, heavy at the top, in flower in winter."""

    rule_prefix = "jade"
    botanical = "Crassula ovata"
    common = ("jade plant", "jade", "jade tree")
    also = ("Crassula argentea", "Crassula portulacea", "Crassula obliqua", "money tree", "kagetsu")
    habit = "A fleshy shrub of stout ringed stems and paired round leaves, heavy at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H2", FROM_MEMORY)
    soil_ph = Fact((6.0, 7.5), FROM_MEMORY)
    light = Fact("Full sun or bright light, four hours of sun a day or more.", _CLEMSON)
    water = Fact("Moist but not wet while it grows.", _CLEMSON)
    toxicity = Fact(
        "Cats and dogs that eat it vomit and stagger; people may have an upset stomach.",
        FROM_MEMORY,
    )
    bark = Fact(
        "Its skin is soft, marks at once, and its branches snap: clip rather than wire.",
        COMMON_PRACTICE,
    )
    wire_check_weeks = Fact((2, 3, 5), COMMON_PRACTICE)
    girth_growth_mm = Fact(8.0, COMMON_PRACTICE)
    # It flowers from December to February, over the turn of the year: no stages of flowering.
    advice = (
        *Succulent.advice,
        "Keep its leaves off a cold pane.",
        "Cool nights and a dry autumn bring flowers to old tips in winter.",
    )
    never = (
        *Succulent.never,
        "Never spray it with soap: its leaves are hurt by it; wipe mealybugs off with alcohol.",
        "Never cut every tip after midsummer if it is to flower.",
    )
    sources: ClassVar[dict[str, str]] = {"mealybug": _CLEMSON}
    works: ClassVar[tuple[Rule, ...]] = altered(
        Succulent.works,
        pinches(
            "pinch",
            by_warmth((6, 25), (7, 10), (7, 31)),
            what="soft tips between the last pair",
            because="Two tips take the place of one, where a tip left alone runs on and hangs.",
        ),
        checks_after(
            "stubs",
            ("pruned", "trimmed"),
            weeks(2, 3, 5),
            look_at="wounds",
            what="stubs that have dried to the ring, and wipe them off",
            because="A cut stem dries back to the next ring by itself and sheds the stub there.",
        ),
        wires(
            "wire",
            at(10, 14, 35, 70),
            because="Only young green stems bend, and they set within weeks of summer growth.",
            cautions=("Let it go thirsty first: a full stem snaps.",),
        ),
        deadheads(
            "deadhead",
            by_warmth((2, 10), (3, 1), (4, 1)),
            what="spent flower stalks, down to the pair below",
            because="The tip that flowered ends there, and two new ones come from the pair below.",
        ),
        watches_for(
            "mealybug",
            by_warmth((5, 1), (5, 25), (7, 31)),
            where="white wool in the forks and where the leaf meets the stem",
            because=f"Mealybugs are its commonest pest ({_CLEMSON}).",
            cautions=("Wipe them off with alcohol on a swab.",),
        ),
    )
