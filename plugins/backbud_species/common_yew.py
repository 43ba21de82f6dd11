"""A common yew's facts and year: the group's, for the yew of Europe."""

from __future__ import annotations

from backbud.species import FROM_MEMORY, Fact
from backbud_species.habits.yews import Yew

_ONTARIO = "Vineland Research and Innovation Centre, tree selector: Taxus baccata"
_MARYLAND = "University of Maryland Arboretum, featured plant: Taxus baccata"


class CommonYew(Yew):
    """The yew of Europe: in sun or shade, on lime or acid soil, for hundreds of years."""

    rule_prefix = "yew"
    botanical = "Taxus baccata"
    common = ("common yew", "yew")
    also = ("English yew", "European yew")
    habit = "A broad dark tree of flat soft needles and red-brown flaking bark, male or female."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    # What it tolerates in open ground.
    soil_ph = Fact((5.0, 8.0), _ONTARIO)
    light = Fact("Full sun to full shade.", _ONTARIO)
    water = Fact("Well drained: it dies early where soil stays wet round its roots.", _MARYLAND)
