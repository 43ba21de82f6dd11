"""Looks for the grubs of the vine weevil, which eat the fine roots of a pot."""

from __future__ import annotations

from backbud_species.habits.works import by_warmth, watches_for

_SOURCE = "Garden Organic, vine weevil (as gathered for the trade's facts)"
# The sources of these works, by their names.
WEEVIL_SOURCES = {"grubs": _SOURCE, "grubs-spring": _SOURCE}
WEEVIL_GRUBS = watches_for(
    "grubs",
    by_warmth((8, 25), (9, 15), (10, 31)),
    where="white curled grubs under the surface and by the trunk, if it hangs while moist",
    because="Vine weevil grubs eat the fine roots from late summer to spring and rest in cold.",
)
WEEVIL_GRUBS_IN_SPRING = watches_for(
    "grubs-spring",
    by_warmth((3, 10), (3, 28), (4, 20)),
    where="white curled grubs again, where it does not begin to grow",
    because="Grubs that rested in the cold eat on in spring, until they are weevils.",
)
