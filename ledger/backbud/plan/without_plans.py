"""Fills a plan of some trees up to all of them, without planning the others."""

from __future__ import annotations

from collections.abc import Iterable

from backbud.collection.fold import tree_on_card
from backbud.collection.whereabouts import Histories
from backbud.journal.things import Things
from backbud.plan.run import Plan


def without_plans(plan: Plan, histories: Histories, things: Things, handles: Iterable[str]) -> Plan:
    """The plan with all of these trees, in their order; those it has not are as their cards have
    them, with no follow-up."""
    wanted = list(handles)
    trees = {
        handle: plan.trees[handle]
        if handle in plan.trees
        else tree_on_card(histories, things, handle)
        for handle in wanted
    }
    return Plan(
        trees,
        {handle: plan.follow_ups.get(handle, ()) for handle in wanted},
        {handle: plan.species.get(handle) for handle in wanted},
        {handle: plan.bites.get(handle, ()) for handle in wanted},
    )
