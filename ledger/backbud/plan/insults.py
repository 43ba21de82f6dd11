"""A tree and its follow-ups go in; those that would stress it twice in a season come out warned."""

from __future__ import annotations

from datetime import timedelta

from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.plan.followups import FollowUp

# Common practice, no source: one insult a season.
SEASON = timedelta(days=150)
ROOT_WORK = frozenset({"repotted", "root-pruned", "collected"})
STRESSING = frozenset({"repotted", "root-pruned", "defoliated", "decandled", "bent", "collected"})


def stresses(event: Event) -> bool:
    """Whether the act, as far as it went, takes strength that a tree needs a season to regain."""
    if event.act == "pruned":
        return event.says("hard", "to old wood")
    if event.act == "bent":
        return event.says("heavy")
    if event.has("no root work"):
        return False
    return event.act in STRESSING


def weighed(tree: Tree, follow_ups: tuple[FollowUp, ...]) -> tuple[FollowUp, ...]:
    """Add a caution to each open stressing work within a season of another, or on a weak tree."""
    done = [entry.event for entry in tree.history if stresses(entry.event)]
    return tuple(_warned(tree, one, done) for one in follow_ups)


def _warned(tree: Tree, follow_up: FollowUp, done: list[Event]) -> FollowUp:
    hard = follow_up.act in STRESSING or (follow_up.act == "pruned" and "hard" in follow_up.title)
    if follow_up.outcome != "open" or not hard:
        return follow_up
    cautions = list(follow_up.cautions)
    if tree.weak:
        cautions.append("The tree is weak: leave this until it grows again.")
    before = [e for e in done
              if timedelta(0) <= follow_up.window.opens - e.day < SEASON and e.act != follow_up.act]
    if before:
        last = before[-1]
        cautions.append(f"One insult a season: it was {last.act} on {last.day}.")
    return replace(follow_up, cautions=tuple(dict.fromkeys(cautions)))
