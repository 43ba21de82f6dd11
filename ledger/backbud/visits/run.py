"""Makes the visits of a journal and the account of each person until a day.

The steps: the visits of every tree (visit.py), what was agreed and what each comes to (charges.py),
what was billed and paid, added up (account.py).
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from functools import partial

from backbud.collection.bookings import Booked, bookings, bookings_of_person
from backbud.collection.visit import Visit
from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.journal.things import Things
from backbud.memo import Identical
from backbud.plan.money_lines import MoneyLines
from backbud.plan.unpaid import persons_sharing
from backbud.plan.world import ByTree
from backbud.visits.account import Account, VisitAccount, account_of
from backbud.visits.charges import Reckoning, charges_of, terms_of
from backbud.visits.prices import Prices


def accounts(
    journal: Journal, histories: Histories, today: date, by_tree: ByTree | None = None
) -> tuple[Account, ...]:
    """The account of each person with a visit, a bill or a payment, in the order of their cards;
    who has no card comes last.

    `by_tree`: what an earlier run of this process left, for the very same day.
    """
    things, by_tree = journal.things, by_tree or ByTree()
    money = MoneyLines(journal, histories, today, by_tree)
    keeper, currency = money.keeper, money.currency
    by_person: dict[str, list[VisitAccount]] = {
        person.handle: [] for person in things.of_kind("person") if person.handle != keeper
    }
    prices = Prices(histories, things, currency)
    priced = Identical(by_tree.kept.same("priced", prices.events))
    by = Reckoning(currency, journal.settings.tax, prices.taken, money.sharing, today)

    def reckoned() -> tuple[VisitAccount, ...]:
        return tuple(_reckoned(visit, journal, by, keeper) for visit in money.visits(handle))

    for handle in histories.trees:
        for one in money.once("reckoned", handle, reckoned, money.shared_by(handle), priced):
            by_person.setdefault(one.visit.owner, []).append(one)
    together = persons_sharing(histories)
    found = []
    for person, visits in by_person.items():
        events = [
            (event, len(together[id(event)]), together[id(event)].index(person))
            for event in histories.others.get(person, ())
            if event.day <= today
        ]
        found.append(
            by_tree.kept.once(
                ("account", person),
                (Identical(*visits), events, currency),
                partial(_account_written, person, visits, events, currency),
            )
        )
    return tuple(one for one in found if one.visits or one.bills or one.payments)


def _account_written(
    person: str,
    visits: Iterable[VisitAccount],
    events: Iterable[tuple[Event, int, int]],
    currency: str,
) -> Account:
    return _account(person, visits, bookings_of_person(events, currency))


def _account(person: str, visits: Iterable[VisitAccount], booked: tuple[Booked, ...]) -> Account:
    in_order = sorted(visits, key=lambda one: (one.visit.came or date.min, one.visit.tree.handle))
    return account_of(person, in_order, *_parted(booked))


def _reckoned(visit: Visit, journal: Journal, by: Reckoning, keeper: str) -> VisitAccount:
    rate = _rate(visit.owner, keeper, journal.things, by.currency)
    terms = terms_of(visit, rate, by.currency)
    charges = charges_of(visit, terms, by)
    booked = bookings(visit.entries, visit.tree.handle, by.sharing, by.currency)
    return VisitAccount(visit, terms, charges, *_parted(booked), by.tax, by.currency)


def _parted(booked: tuple[Booked, ...]) -> tuple[tuple[Booked, ...], tuple[Booked, ...]]:
    """The bills and credits, and the payments."""
    payments = tuple(one for one in booked if one.sort == "payment")
    return tuple(one for one in booked if one.sort != "payment"), payments


def _rate(owner: str, keeper: str, things: Things, currency: str) -> Decimal | None:
    """What an hour costs by the owner's card, else by the keeper's; in the journal's currency."""
    for handle in (owner, keeper):
        card = things.by_handle.get(handle)
        rate = card.measure("rate") if card is not None else None
        if rate is not None and rate.per in ("", "h") and rate.unit in ("", currency):
            return rate.number
    return None
