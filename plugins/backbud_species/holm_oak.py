"""The care of a holm oak, slow and hard-wooded, which changes its leaves in late spring.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.evergreen_oaks import EvergreenOak
from backbud_species.habits.works import altered, at, trims, watches_for


class HolmOak(EvergreenOak):
    """A slow evergreen oak of dark dense leaves that bears any cut while it is strong."""

    rule_prefix = "holm-oak"
    botanical = "Quercus ilex"
    common = ("holm oak", "evergreen oak")
    also = ("Quercus rotundifolia", "Quercus ballota", "holly oak", "encina")
    habit = "A dense evergreen oak of dark leathery leaves, slow and strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H5", FROM_MEMORY)
    soil_ph = Fact((6.0, 7.0), "FAO, EcoCrop: Quercus ilex")
    bark = Fact(
        "Bark dark and plated with age; wood as hard as iron, brittle after two years.",
        COMMON_PRACTICE,
    )
    why_frost = (
        "It bears frost in the ground, and in a pot its roots die before its leaves show it."
    )
    advice = (
        "Full sun and wind, and water only when the surface is dry.",
        "Old leaves yellow and fall in late spring as the new ones come: that is its way.",
    )
    never = (
        *EvergreenOak.never,
        "Never cut to a stub without leaves on a weak one.",
        "Never let it stand wet in the cold.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        EvergreenOak.works,
        trims(
            "trim",
            at(19, -7, 7, 28),
            what="shoots to two or three leaves as they harden, the top hardest",
            because="Once the flush has hardened a shortened shoot breaks from several buds; a "
            "second flush comes only to a strong tree.",
        ),
        watches_for(
            "pests",
            at(10, 7, 28, 60),
            where="undersides of the leaves, for red felt of mites and for scale",
            because="Gall mites felt the young leaves and scale sits on the old ones, where rain "
            "does not reach.",
        ),
    )
