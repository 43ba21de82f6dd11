"""Warns of works that would stress a tree twice in one season, or a weak tree at all.

What the keeper promised is asked for whatever the tree's strength, so it says so as well.
"""

from __future__ import annotations

from datetime import timedelta

from msgspec.structs import replace

from backbud.collection.hard_work import SEASON, is_stressing, stresses
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.plan.followups import FollowUp
from backbud.tongue import phrase
from backbud_grammar.act_words import ActWord

# Light work that costs a tree leaf, shoot or strength, too; and root work however far it goes.
_COSTS: frozenset[ActWord] = frozenset(
    {
        "bent", "carved", "decandled", "defoliated", "guyed", "layered", "notched", "opened",
        "pinched", "plucked", "potted-on", "pruned", "repotted", "root-pruned", "slipped",
        "thinned", "trimmed", "wired",
    }
)  # fmt: skip
WEAK = "The tree is weak: leave this until it grows again."


def weighed(tree: Tree, follow_ups: tuple[FollowUp, ...]) -> tuple[FollowUp, ...]:
    """Add a caution to each open stressing work within a season of another, or on a weak tree."""
    due = sorted([one for one in follow_ups if _is_hard(one)], key=lambda one: one.window.best)
    hard = {id(one) for one in due}
    done: list[Event] = []
    if due:
        # What was done more than a season before the first of them speaks against none.
        since = min(one.window.opens for one in due) - SEASON
        lately = tree.done_between(since, max(one.window.closes for one in due))
        done = [e.event for e in lately if not e.undone and stresses(e.event)]
    return tuple(
        [
            _warned(tree, one, done, due) if id(one) in hard else _kept_word(tree, one)
            for one in follow_ups
        ]
    )


def _kept_word(tree: Tree, one: FollowUp) -> FollowUp:
    """A promise of light work, with a caution where the tree is weak; what was agreed with its
    owner says so itself."""
    if not (tree.weak and one.promised and one.outcome == "open" and one.act in _COSTS):
        return one
    return replace(one, cautions=tuple(dict.fromkeys((*one.cautions, phrase(WEAK)))))


def _is_hard(follow_up: FollowUp) -> bool:
    return follow_up.outcome == "open" and is_stressing(follow_up.row, follow_up.extent)


def _warned(tree: Tree, follow_up: FollowUp, done: list[Event], due: list[FollowUp]) -> FollowUp:
    """The work with a caution for each reason to leave it."""
    window = follow_up.window
    cautions = list(follow_up.cautions)
    if tree.weak:
        cautions.append(phrase(WEAK))
    lately = [
        event
        for event in done
        if window.opens - SEASON < event.day <= window.closes and event.act != follow_up.act
    ]
    if lately:
        cautions.append(
            phrase(
                "One insult a season: it was {act} on {day}.",
                act=phrase(lately[-1].act),
                day=lately[-1].day,
            )
        )
    before = [
        other
        for other in due
        if other.act != follow_up.act and timedelta(0) <= window.best - other.window.best < SEASON
    ]
    if before:
        cautions.append(
            phrase("One insult a season: it is due to {title} as well.", title=before[-1].title)
        )
    return replace(follow_up, cautions=tuple(dict.fromkeys(cautions)))
