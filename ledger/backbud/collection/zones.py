"""Reads how strongly each zone of a tree grows from a line about its vigour or its strength."""

from __future__ import annotations

from collections.abc import Iterator

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


def zone_scores(event: Event) -> Iterator[tuple[str, int]]:
    """Yield each zone that a line speaks of with its score, 1 (weakest) to 5.

    That is `vigour apex 4, low weak`, or `checked strength weak on low`.
    """
    if event.act == "checked":
        yield from _checked(event)
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
        yield " ".join(words).casefold() or WHOLE_TREE, min(max(score, 1), 5)


def _checked(event: Event) -> Iterator[tuple[str, int]]:
    """What was found when the strength was looked at; anything else may be weak too."""
    looked_at = ""
    for detail in event.details:
        if detail.name == "what":
            looked_at = detail.words.casefold()
        elif detail.name == "finding" and looked_at == "strength":
            score = _WORDS.get(detail.words.casefold())
            if score is not None:
                yield detail.part.casefold() or WHOLE_TREE, score
