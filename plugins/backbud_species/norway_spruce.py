"""A Norway spruce's facts and year: the group's, for the spruce of Europe."""

from __future__ import annotations

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact
from backbud_species.habits.spruces import Spruce

_UTAH = "Utah State University Extension, Tree Browser: Norway spruce"


class NorwaySpruce(Spruce):
    """The spruce of Europe: dense, late to flush, with needles all round the twig."""

    rule_prefix = "spruce"
    botanical = "Picea abies"
    common = ("Norway spruce", "spruce")
    also = ("common spruce", "European spruce", "Picea excelsa", "Pinus abies")
    habit = "A dense conical tree of square needles and orange-brown bark, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    soil_ph = Fact((4.5, 6.5), FROM_MEMORY)
    light = Fact("Sun; it bears middling shade.", _UTAH)
    water = Fact("Evenly moist and well drained.", COMMON_PRACTICE)
