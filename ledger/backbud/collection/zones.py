"""A look at a tree's vigour goes in; how each zone that it names grows comes out."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.journal.events import Event

WHOLE_TREE = "whole tree"
# What the words are worth, of five.
_WORDS = {"weak": 1, "fair": 3, "strong": 5}


def zone_scores(vigour: Event) -> Iterator[tuple[str, int]]:
    """Yield each zone of a `vigour` line with its score, 1 (weakest) to 5."""
    for detail in vigour.all("zone"):
        words = detail.words.split()
        if detail.measure is not None:
            score = int(detail.measure.number)
        elif words and words[-1].casefold() in _WORDS:
            score = _WORDS[words.pop().casefold()]
        else:
            continue
        yield " ".join(words).casefold() or WHOLE_TREE, min(max(score, 1), 5)
