"""The care of a cork oak, whose cork is its worth and takes no wire.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.evergreen_oaks import EvergreenOak
from backbud_species.habits.works import altered, at, trims, watches_for


class CorkOak(EvergreenOak):
    """An evergreen oak of dry woods, grown for its cork."""

    rule_prefix = "cork-oak"
    botanical = "Quercus suber"
    common = ("cork oak",)
    also = ("Quercus occidentalis", "Quercus corticifera")
    habit = (
        "A broad evergreen oak of thick ridged cork and small hollied leaves, strongest at the top."
    )
    # The RHS list itself was not at hand.
    hardiness = Fact("H4", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.0), "FAO, EcoCrop: Quercus suber")
    bark = Fact("Cork takes decades to form and breaks off under wire and hand.", COMMON_PRACTICE)
    why_frost = "Its cork keeps the trunk, and in a wet frozen pot the roots die first."
    advice = (
        "Full sun, and dry feet in winter.",
        "Carry it by the pot and never by the trunk: cork breaks off and does not come back.",
    )
    never = (
        *EvergreenOak.never,
        "Never give it lime.",
        "Never wire over cork: guy the branch instead.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        EvergreenOak.works,
        trims(
            "trim",
            at(19, -7, 7, 28),
            what="shoots to two or three leaves, and buds that point at the trunk out",
            because="Once the flush has hardened a shortened shoot breaks from several buds; a "
            "second flush comes only to a strong tree.",
        ),
        watches_for(
            "pests",
            at(10, 7, 28, 60),
            where="holes in leaves, and white wool or scale in the fissures of the cork",
            because="Caterpillars and scale come with the new leaves, and cork hides what sits in "
            "it.",
        ),
    )
