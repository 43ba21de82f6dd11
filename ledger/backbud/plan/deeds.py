"""Takes a plan as a work that a species may judge."""

from __future__ import annotations

from backbud.plan.followups import FollowUp
from backbud.species import Deed


def deed_planned(plan: FollowUp) -> Deed:
    """What is planned, in its window; as hard as such a work usually is."""
    roots = "root_work" in plan.row.traits
    hard = plan.extent == "hard" or (roots and plan.extent == "usual")
    return Deed(plan.act, plan.window.opens, plan.window.closes, hard, roots, plan.title, True)
