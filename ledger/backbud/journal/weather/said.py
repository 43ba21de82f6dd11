"""Whether a journal says anything of the weather."""

from __future__ import annotations

from backbud.journal.read import Journal
from backbud_grammar.act_words import LabelName

_LABELS: tuple[LabelName, ...] = ("weather", "low", "high", "rain", "coldest", "hardiness zone")


def says_weather(journal: Journal) -> bool:
    """Whether a day line, a place's card or a file beside the home's says any."""
    positions = journal.positions
    arrived = positions.files.arrived(positions.place)
    return bool(journal.weather or arrived.names or arrived.flaws) or any(
        place.detail(label) for place in journal.things.of_kind("place") for label in _LABELS
    )
