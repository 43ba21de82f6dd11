"""Makes every register of a journal on a day."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date

from backbud.collection.state import Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.read import Journal
from backbud.views.registers.movements import movements
from backbud.views.registers.register import RegisterView
from backbud.views.registers.stock import stock
from backbud.views.registers.treatments import treatments
from backbud.views.registers.unpaid import unpaid
from backbud.views.visit import AccountView


def registers_of(
    journal: Journal,
    histories: Histories,
    trees: Iterable[Tree],
    botanical: Callable[[str], str],
    names: Mapping[str, str],
    accounts: Iterable[AccountView],
    today: date,
) -> tuple[RegisterView, ...]:
    """The registers, in their order. `botanical`: the name of a tree's species by its handle."""
    things, settings = journal.things, journal.settings
    known = things.find(settings.keeper) if settings.keeper else None
    keeper = known.handle if known else ""
    return (
        treatments(histories, things, botanical, names, keeper),
        movements(histories, things, botanical, names),
        stock(tuple(trees), things, histories.others, names, keeper, settings.currency, today),
        unpaid(accounts, today),
    )
