"""Tells whether a shelter is one against the weather: a net against cats keeps no frost off."""

from __future__ import annotations

import re

from backbud.journal.events import Event

# Of what is said to be kept off; common speech, no source.
_WEATHER = re.compile(
    r"\b(?:cold|frosts?|freez\w+|ic[ey]|snow|sleet|winter|nights?|wind\w*|gales?|storms?|draughts?"
    r"|drafts?|rains?|wet|damp|hail|sun\w*|scorch|heat|weather|drying|desiccation|thaw|minus|low)\b",
    re.IGNORECASE,
)


def is_against_weather(event: Event) -> bool:
    """Whether a shelter may keep weather off: one that names nothing is taken for one."""
    against = [one.words for one in event.all("against")]
    return not against or any(_WEATHER.search(words) for words in against)
