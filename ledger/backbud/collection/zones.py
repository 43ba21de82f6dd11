"""Reads how strongly each zone of a tree grows from a line about its vigour or its strength."""

from __future__ import annotations

from collections.abc import Sequence

from backbud.journal.events import Event
from backbud_grammar.by_row import by_row
from backbud_grammar.forms import ActForm

WHOLE_TREE = "whole tree"
# What the words are worth, of five.
_WORDS = {"weak": 1, "fair": 3, "strong": 5}


@by_row
def tells_of_zones(act: ActForm) -> bool:
    """Whether a line of an act may say how strongly a zone grows."""
    return act.word == "checked" or any(form.name == "zone" for form in act.forms)


def zone_scores(event: Event) -> Sequence[tuple[str, int]]:
    """Each zone that a line speaks of with its score, 1 (weakest) to 5.

    That is `vigour apex 4, low weak`, or `checked strength weak on low`.
    """
    found = _checked(event) if event.act == "checked" else []
    for detail in event.details:
        if detail.name != "zone":
            continue
        words = detail.words.split()
        if detail.measure is not None:
            score = int(detail.measure.number)
        elif words and words[-1].casefold() in _WORDS:
            score = _WORDS[words.pop().casefold()]
        else:
            continue
        found.append((" ".join(words).casefold() or WHOLE_TREE, min(max(score, 1), 5)))
    return found


def _checked(event: Event) -> list[tuple[str, int]]:
    """What was found when the strength was looked at; anything else may be weak too."""
    found: list[tuple[str, int]] = []
    looked_at = ""
    for detail in event.details:
        if detail.name == "what":
            looked_at = detail.words.casefold()
        elif looked_at == "strength" and detail.name == "finding":
            score = _WORDS.get(detail.words.casefold())
            if score is not None:
                found.append((detail.part.casefold() or WHOLE_TREE, score))
    return found
