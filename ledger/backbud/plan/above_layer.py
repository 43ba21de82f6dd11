"""A season's work on leaves and shoots leaves out what grows above a layer and makes its roots."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.plan.due import Due
from backbud.tongue import phrase
from backbud_grammar.act_words import ActWord

_TAKES_LEAVES: frozenset[ActWord] = frozenset(
    {"decandled", "defoliated", "pinched", "plucked", "pruned", "thinned", "trimmed"}
)
_LEAVE_IT = "Leave all that grows above the layer: its leaves make the roots."


def left_above_layer(dues: Sequence[Due], tree: Tree) -> Sequence[Due]:
    """The dues, with that caution while a layer is on the tree. Common practice, no source."""
    if not tree.on("layer"):
        return dues
    return [_warned(due) if _is_of_a_season(due) else due for due in dues]


def _is_of_a_season(due: Due) -> bool:
    one = due.follow_up
    return due.event is None and one.outcome == "open" and one.act in _TAKES_LEAVES


def _warned(due: Due) -> Due:
    one = due.follow_up
    return replace(due, follow_up=replace(one, cautions=(*one.cautions, phrase(_LEAVE_IT))))
