"""Tells what a shelter is: against the weather, as no net against cats is, or lying there."""

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


# What lies on the ground or the soil, or is the ground; and what is bound round a tree or its pot,
# whatever it is stuffed with. Common speech, no source.
_LIES = re.compile(
    r"\b(?:mulch\w*|straw|bark|bracken|leaves|leaf mould|leaf litter|(?:pine )?needles|peat|sand"
    r"|soil|compost|(?:wood ?)?chips?|heeled in|plunged|sunk|bedded|buried|on the ground)\b",
    re.IGNORECASE,
)
_BOUND = re.compile(
    r"\b(?:wrap\w*|fleece|hessian|burlap|sack\w*|net\w*|mesh|quilt|blanket|cloth|foil|film|bag\w*"
    r"|mats?|raffia|tied|bound)\b",
    re.IGNORECASE,
)


def lies_there(said: str) -> bool:
    """Whether a shelter stays behind where the tree is lifted out of it, by what is said of it.

    >>> lies_there("5 cm mulch"), lies_there("hessian and straw"), lies_there("pot wrapped")
    (True, False, False)
    """
    return bool(_LIES.search(said)) and not _BOUND.search(said)
