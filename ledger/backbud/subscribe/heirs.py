"""Finds what stands today for a work whose task was published under an id that is no more.

A plan of the keeper's takes the place of what a rule proposed, and works on several parts may
become one. Who ticked off the old task did the work all the same.
"""

from __future__ import annotations

from urllib.parse import unquote

from backbud.plan.followups import FollowUp
from backbud.plan.run import Plan

_ALIVE = ("open", "done")
# First handle, rule and cause; the part comes after these.
_WITHOUT_PART = 3


def heir_of(uid: str, asked: FollowUp | None, plan: Plan) -> FollowUp | None:
    """Return the work that a task stands for: the one of its id, or what took its place; None where
    nothing did. `asked`: what the plan has under the id."""
    if asked is not None and asked.outcome != "replaced":
        return asked
    found = [one for one in plan.all() if one.outcome in _ALIVE and _is_heir(one, uid, asked)]
    if asked is not None:
        found.sort(key=lambda one: (abs(one.window.best - asked.window.best), one.id))
        return found[0] if found else None
    # Of several nobody can tell which was meant.
    return found[0] if len(found) == 1 else None


def _is_heir(one: FollowUp, uid: str, asked: FollowUp | None) -> bool:
    if asked is None:
        ident = unquote(uid.removeprefix("task:").rpartition("@")[0])
        return _whole(one.id) == _whole(ident)
    same_look = asked.act != "checked" or bool(set(one.settled_by).intersection(asked.settled_by))
    return one.tree == asked.tree and one.act == asked.act and same_look


def _whole(ident: str) -> list[str]:
    return ident.split("/")[:_WITHOUT_PART]
