"""An act that is due goes in; the cautions that guard the person who does it come out."""

from __future__ import annotations

from collections.abc import Mapping

CAUTIONS: Mapping[str, tuple[str, ...]] = {
    "carved": ("Wear eye and hand protection; power tools kick back.",),
    "treated-deadwood": (
        "Lime sulphur burns eyes and skin: gloves, goggles, fresh air, never near an acid. "
        "Its label and local law decide.",
    ),
    "treated": (
        "The product's label and local law decide on dose, protection and re-entry; "
        "a licence may be needed.",
    ),
    "sealed": ("Wound products: keep to the label.",),
}


def cautions_for(act: str) -> tuple[str, ...]:
    """Return what to look out for when doing this act."""
    return CAUTIONS.get(act, ())
