"""The care of a dwarf jade: it buds from any wood, but a full stem snaps, so it is bent thirsty.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.succulents import Succulent
from backbud_species.habits.works import altered, at, by_warmth, prunes, watches_for, wires

_WISCONSIN = "Wisconsin Master Gardener Program, Elephant bush, 2 November 2015"
_FREE_STATE = "University of the Free State, Agronomy 2023, 13: 1206"


class DwarfJade(Succulent):
    """A small-leaved succulent tree that buds from any wood and roots from any twig."""

    rule_prefix = "dwarf-jade"
    botanical = "Portulacaria afra"
    common = ("dwarf jade", "elephant bush", "spekboom")
    also = (
        "Crassula portulacaria",
        "Claytonia portulacaria",
        "porkbush",
        "elephant's food",
        "small-leaved jade",
        "miniature jade",
    )
    habit = "A fleshy shrub of red brittle stems and small paired leaves that branches at each cut."
    # The RHS list itself was not at hand.
    comes_in_below_c = Fact(8.0, COMMON_PRACTICE)
    hardiness = Fact("H1c", FROM_MEMORY)
    soil_ph = Fact((6.0, 7.5), FROM_MEMORY)
    light = Fact("Full sun: in shade its joints grow long and hang.", COMMON_PRACTICE)
    water = Fact(
        "Soaked when the soil is dry in summer, and hardly any in winter.", COMMON_PRACTICE
    )
    toxicity = Fact(
        "People eat its leaves, and pets are not known to be harmed.",
        f"{_FREE_STATE}; for pets {FROM_MEMORY}",
    )
    bark = Fact("Its stems are fleshy and brittle.", _WISCONSIN)
    wire_check_weeks = Fact((3, 4, 6), COMMON_PRACTICE)
    girth_growth_mm = Fact(8.0, COMMON_PRACTICE)
    advice = (
        *Succulent.advice,
        "Leaves that fall in winter fall from wet, from cold or from the dark.",
        "In hot summers it drinks like any tree, and may be watered as one.",
    )
    never = (
        *Succulent.never,
        "Never bend a full stem: let it go thirsty until the leaves are soft.",
        "Never mist it: wet in the forks rots them.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Succulent.works,
        prunes(
            "prune",
            at(10, 7, 21, 49),
            what="branches that hang, cross or outgrow the outline, to a side shoot",
            because="Its branches sink under their own water, and it buds from any wood in warmth.",
            cautions=("Keep it dry for a week after.",),
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 1), (8, 20), (9, 10)),
            what="the next flush to one or two pairs",
            because="It flushes as long as it is warm, and each cut doubles the twigs.",
        ),
        wires(
            "wire",
            at(10, 14, 35, 80),
            because="In summer growth a stem sets within weeks, and a thirsty one bends where a "
            "full one breaks.",
            cautions=("No water for a week before, and bend in several sittings.",),
        ),
        watches_for(
            "mealybug",
            by_warmth((5, 1), (5, 25), (7, 31)),
            where="white wool in the forks, and at the roots when it is out of its pot",
            because="Mealybugs sit in the dense forks, and their kin at the roots stop its growth "
            "unseen.",
            cautions=("Oil and soap strip the bloom off the leaves: try one twig first.",),
        ),
    )
