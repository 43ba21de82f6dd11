"""A Norway spruce's facts and year: the group's, for the spruce of Europe."""

from __future__ import annotations

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact
from backbud_species.habits.spruces import Spruce

_ROOTS = "Lindstrom & Nystrom, Canadian Journal of Forest Research 17:787, 1987"
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
    # Seedlings lived through -15 to -25 °C; their regrowth was stunted well above that.
    frost_limit_c = Fact(-15.0, _ROOTS)
    young_frost_limit_c = Fact(-15.0, _ROOTS)
    soil_ph = Fact((4.0, 5.0), "FAO, EcoCrop: Picea abies")
    light = Fact("Sun; it bears middling shade.", _UTAH)
    water = Fact("Evenly moist and well drained.", COMMON_PRACTICE)
