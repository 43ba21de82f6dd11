"""Makes every register of a journal on a day."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from functools import partial

from backbud.collection.batch import ARRIVALS
from backbud.collection.stand import DEPARTURES, STANDS
from backbud.collection.state import Entry, Tree
from backbud.collection.whereabouts import Histories, Whereabouts
from backbud.journal.read import Journal
from backbud.plan.run import Plan
from backbud.plan.world import ByTree
from backbud.views.registers.movements import movements
from backbud.views.registers.register import RegisterView
from backbud.views.registers.stock import stock
from backbud.views.registers.treatments import treatments
from backbud.views.registers.unpaid import unpaid_register
from backbud.visits.account import Account
from backbud_grammar.act_words import ActWord

# What changes an entry of a register: where a tree stands and whose it is, what is written in one.
_WRITTEN: frozenset[ActWord] = frozenset(
    {"treated", "staged", "billed", "credited", "paid", "valued"}
)
_MATTER = frozenset({*STANDS, *ARRIVALS, *DEPARTURES, *_WRITTEN})


def _looked_at(
    journal: Journal,
    histories: Histories,
    trees: Iterable[Tree],
    today: date,
    by_tree: ByTree,
) -> tuple[object, ...]:
    """All that the registers are made from, beside the species: of the diary the few lines that
    matter, so that a rebuild after any other has nothing to reckon.

    `by_tree`: what an earlier run of this process left of each tree.
    """
    lines = [
        by_tree.once("registered", handle, histories, journal.things, partial(_that_matter, at))
        for handle, at in histories.trees.items()
    ]
    stock = tuple(
        (one.handle, one.title, one.kind, one.cultivar, one.here, one.owner, one.place, one.pot,
         one.since, one.facts.get("since"), one.batch)
        for one in trees
    )  # fmt: skip
    others = tuple(histories.others.items())
    return journal.things, journal.settings, lines, stock, others, today


def _that_matter(at: Whereabouts) -> tuple[Entry, ...]:
    return tuple(entry for entry in at.entries if entry.event.act in _MATTER)


def registers_of(
    journal: Journal,
    histories: Histories,
    plan: Plan,
    names: Mapping[str, str],
    accounts: Callable[[], Iterable[Account]],
    today: date,
    by_tree: ByTree,
) -> tuple[RegisterView, ...]:
    """The registers of the trees of a plan, in their order, as they were while nothing changed that
    they are made from. `names`: what the law keeps each thing called; `accounts`: reckons them."""
    species = {handle: found.botanical if found else "" for handle, found in plan.species.items()}
    trees = tuple(plan.trees.values())

    def reckoned() -> tuple[RegisterView, ...]:
        things, settings = journal.things, journal.settings
        known = things.find(settings.keeper) if settings.keeper else None
        keeper = known.handle if known else ""

        def botanical(handle: str) -> str:
            return species.get(handle, "")

        return (
            treatments(histories, things, botanical, names, keeper),
            movements(histories, things, botanical, names),
            stock(trees, things, histories.others, names, keeper, settings.currency, today),
            unpaid_register(accounts(), names, today),
        )

    inputs = _looked_at(journal, histories, trees, today, by_tree)
    return by_tree.kept.once("registers", (*inputs, species), reckoned)
