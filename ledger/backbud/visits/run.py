"""Makes the visits of a journal and the account of each person until a day.

The steps: the visits of every tree (visit.py), what was agreed and what each comes to (charges.py),
what was billed and paid, added up (account.py).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.journal.things import Things
from backbud.visits.account import (
    Account,
    VisitAccount,
    account_of,
    bookings,
    bookings_of_person,
)
from backbud.visits.charges import charges_of, terms_of
from backbud.visits.prices import Prices
from backbud.visits.visit import Visit, visits_of


def accounts(journal: Journal, histories: Histories, today: date) -> tuple[Account, ...]:
    """The account of each person with a visit, a bill or a payment, in the order of their cards;
    who has no card comes last."""
    things, keeper = journal.things, keeper_of(journal)
    by_person: dict[str, list[VisitAccount]] = {
        person.handle: [] for person in things.of_kind("person") if person.handle != keeper
    }
    prices = Prices(histories, things, journal.settings.currency)
    for handle in histories.trees:
        for visit in visits_of(histories, things, handle, keeper, today):
            reckoned = _reckoned(visit, journal, prices, keeper)
            by_person.setdefault(visit.owner, []).append(reckoned)
    sharing = Counter(id(event) for events in histories.others.values() for event in events)
    found = []
    for person, visits in by_person.items():
        events = [
            (event, sharing[id(event)])
            for event in histories.others.get(person, ())
            if event.day <= today
        ]
        found.append(_account(person, visits, events, journal.settings.currency))
    return tuple(one for one in found if one.visits or one.bills or one.payments)


def _account(
    person: str, visits: Iterable[VisitAccount], events: list[tuple[Event, int]], currency: str
) -> Account:
    in_order = sorted(visits, key=lambda one: (one.visit.came or date.min, one.visit.tree.handle))
    bills, payments = (bookings_of_person(events, act, currency) for act in ("billed", "paid"))
    return account_of(person, in_order, bills, payments)


def _reckoned(visit: Visit, journal: Journal, prices: Prices, keeper: str) -> VisitAccount:
    currency = journal.settings.currency
    terms = terms_of(visit, _rate(visit.owner, keeper, journal.things, currency), currency)
    charges = charges_of(visit, terms, currency, prices.taken)
    handle = visit.tree.handle
    bills, payments = (bookings(visit.entries, act, handle, currency) for act in ("billed", "paid"))
    return VisitAccount(visit, terms, charges, bills, payments)


def _rate(owner: str, keeper: str, things: Things, currency: str) -> Decimal | None:
    """What an hour costs by the owner's card, else by the keeper's; in the journal's currency."""
    for handle in (owner, keeper):
        card = things.by_handle.get(handle)
        rate = card.measure("rate") if card is not None else None
        if rate is not None and rate.per in ("", "h") and rate.unit in ("", currency):
            return rate.number
    return None


def keeper_of(journal: Journal) -> str:
    """The handle of the keeper, "" where the settings name nobody who has a card."""
    found = journal.things.find(journal.settings.keeper)
    return found.handle if found is not None else ""
