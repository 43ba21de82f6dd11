"""Tells whether the acts of one line cannot all be so, or one of them takes another back."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import combinations, pairwise

from backbud_grammar.scribbles.draft import Draft

# Of these works a tree has one on a day: two in a line are one, and which, or one of another tree.
_ONE_A_DAY = frozenset({"repotted", "slipped", "potted-on"})
_ARROW = re.compile(r"->|=>|→")
_FIGURE = re.compile(r"\d")
# Wire that comes off and goes on anew is a work of its own: `unwired, rewired`.
_RENEWED = "wired"


def at_odds(drafts: Sequence[Draft], line: str) -> bool:
    """Whether two acts of a line contradict each other: `repotted -> slipped`, `untied, tied
    again`. `pruned -> trimmed` may be two works, or one that is set right."""
    if any(_is_denied(one) for one in drafts):
        return True
    if len(drafts) < 2:
        return False
    done = [one for one in drafts if not one.form.names_act and not one.form.prose]
    return any(_contradict(*two) for two in combinations(done, 2)) or any(
        _is_set_right(one, other, line) for one, other in pairwise(done)
    )


def _contradict(one: Draft, other: Draft) -> bool:
    words = {one.form.word, other.form.word}
    if len(words) == 2 and words <= _ONE_A_DAY:
        return True
    if one.form.undone_by == other.form.word:
        # What is on and off again within a line was on for no time, or is of another place.
        return not (_parts(other) and _parts(one).isdisjoint(_parts(other)))
    if other.form.undone_by == one.form.word and other.form.word != _RENEWED:
        # What is put on anew has its measure; without one it may be what came off.
        return not any(_FIGURE.search(said) for said, _ in other.pieces)
    return False


def _parts(draft: Draft) -> frozenset[str]:
    said = (f" {one}".partition(" on ")[2].casefold() for one, _ in draft.pieces)
    return frozenset(filter(None, said))


def _is_set_right(one: Draft, other: Draft, line: str) -> bool:
    """Whether an arrow leads from one work to another of the same sort."""
    return one.form.work == other.form.work and bool(_ARROW.search(line[one.at : other.at]))


def _is_denied(draft: Draft) -> bool:
    """Whether what was not read is the act itself with `un` before it: `fed, unfed`."""
    word = draft.form.word
    return any(f"un{word}" in said.casefold().split() for said, _ in (*draft.kept, *draft.beside))
