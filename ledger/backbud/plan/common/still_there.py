"""Tells whether a thing that a look speaks of is on the tree, though no line put it there."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.species import Tree
from backbud_grammar.act_words import ActWord

# What came off so lately is what the look tells of; ours, no source.
_LATELY = timedelta(weeks=4)


def is_there(tree: Tree, sort: str, day: date, taken_off: ActWord) -> bool:
    """Whether such a thing is written down as on the tree, or came off it in no line of late: who
    looks at it on a day proves that it is there."""
    return bool(tree.on(sort)) or not tree.done_since(day - _LATELY, taken_off)
