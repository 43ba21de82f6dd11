"""Gathers what some eyes may have of a journal as data."""

from __future__ import annotations

from functools import partial

from backbud.handed import folder_secrets
from backbud.plan.contained import made_of_plan
from backbud.plan.run import Plan
from backbud.plan.stores import Stores, stores_of
from backbud.session import Session
from backbud.views.audience import PUBLIC, Audience, Eyes
from backbud.views.dataset import DatasetView, as_seen, typed_details
from backbud.views.grounds import grounds_of
from backbud.views.history import late_in
from backbud.views.listed import place_rows, pot_rows
from backbud.views.people import people_view
from backbud.views.shelf import shelf_view
from backbud.views.tree import planned_tree_view


class NoNames(Exception):
    """What is for anybody's eyes cannot be given out; the sentence says why."""


def dataset_of(session: Session, eyes: Eyes) -> DatasetView:
    """The journal on the session's day as these eyes may have it. NoNames where trees that are for
    anybody to see cannot be called by names that nobody can guess."""
    plan, names, journal = session.plan(), session.names(), session.journal
    late = late_in(journal, session.today)
    things, settings, trees = journal.things, journal.settings, plan.trees
    grounds = grounds_of(trees, things, names, settings.keeper, session.today)
    whole = DatasetView(
        journal=settings.public_name if eyes == PUBLIC else settings.name,
        journal_id=settings.journal_id,
        on=session.today,
        eyes="keeper",
        trees=tuple(
            planned_tree_view(
                plan, handle, names, session.today, session.photographs_of(tree), late
            )
            for handle, tree in trees.items()
        ),
        details={handle: typed_details(tree.history) for handle, tree in trees.items()},
        places=place_rows(things, trees.values()),
        pots=pot_rows(things, trees.values(), settings.figures),
        people=people_view(things, trees.values(), names, settings.keeper),
        shelf=shelf_view(
            made_of_plan("the stores", plan, partial(_stores, session), session.faults.meet)
        ),
        accounts=session.accounts(plan),
    )
    secrets = folder_secrets(session)

    def unnamed(handle: str) -> str:
        if secrets is None:
            raise NoNames("No name that nobody can guess could be made: nothing was given out.")
        return secrets.name("tree", trees[handle].first_handle)

    return session.forgotten.told(as_seen(whole, Audience(eyes, grounds), unnamed))


def _stores(session: Session, plan: Plan) -> Stores:
    return stores_of(session.journal, session.histories_of(plan), plan, session.today)
