"""Takes a line of the diary, or a plan, as a work that a species may judge."""

from __future__ import annotations

from backbud.collection.hard_work import stresses
from backbud.journal.events import Event
from backbud.plan.followups import FollowUp
from backbud.species import Deed


def deed_of(done: Event) -> Deed:
    """What was done, on its day."""
    roots = "root_work" in done.row.traits
    return Deed(done.act, done.day, done.day, stresses(done), roots, done.text)


def deed_planned(plan: FollowUp) -> Deed:
    """What is planned, in its window; as hard as such a work usually is."""
    roots = "root_work" in plan.row.traits
    hard = plan.extent == "hard" or (roots and plan.extent == "usual")
    return Deed(plan.act, plan.window.opens, plan.window.closes, hard, roots, plan.title)
