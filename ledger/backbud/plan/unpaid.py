"""Makes a bill that is open fall due to be paid, until payments and credits have covered it.

What covers a bill is a sum, not a line: half of it paid settles nothing (open_bills.py).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.collection.bookings import MONEY_ACTS, Booked, bookings_of_person
from backbud.collection.open_bills import BillState, bill_states
from backbud.collection.state import Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.read import Journal
from backbud.plan.due import Due, due_of
from backbud.plan.followups import reason_on
from backbud.plan.money_lines import MoneyLines
from backbud.plan.world import ByTree
from backbud.species import PROMISE, Figure, Proposal, Window
from backbud.tongue import phrase

PAYMENT_DAYS = Figure(
    "payment_days",
    14.0,
    "In how many days a bill is to be paid; common practice, no source: what was agreed and local "
    "law decide.",
)
# A bill that was paid is told of for about a year.
_TOLD = timedelta(days=400)

# By the tree's handle.
Bills = Mapping[str, tuple[BillState, ...]]


def bills_by_tree(
    journal: Journal, histories: Histories, today: date, by_tree: ByTree | None = None
) -> Bills:
    """Each bill that is open, or was paid of late, at its tree; one written of a person at the tree
    of theirs that came last. `by_tree`: what an earlier run of this process left."""
    by_person = _by_person(journal, histories, today, by_tree)
    found: dict[str, list[BillState]] = {}
    for booked, last in by_person.values():
        for one in bill_states(booked):
            tree = one.bill.tree or last
            told = one.open or one.bill.day >= today - _TOLD
            if tree and told and one.bill.amount is not None and one.bill.event.exact:
                found.setdefault(tree, []).append(one)
    return {tree: tuple(some) for tree, some in found.items()}


def _by_person(
    journal: Journal, histories: Histories, today: date, by_tree: ByTree | None
) -> dict[str, tuple[list[Booked], str]]:
    """By person all that was billed and paid, and the tree that came last."""
    money = MoneyLines(journal, histories, today, by_tree)
    persons = {person.handle for person in journal.things.of_kind("person")} - {money.keeper}
    written = {
        handle: events
        for handle, events in histories.others.items()
        if handle in persons and any(event.act in MONEY_ACTS for event in events)
    }
    trees = [
        handle
        for handle, one in histories.trees.items()
        if money.written[handle].any or (written and one.owner in written)
    ]
    by_person: dict[str, tuple[list[Booked], str]] = {}
    if not trees and not written:
        return by_person
    came: dict[str, date] = {}
    for handle in trees:
        for visit in money.booked(handle):
            booked, last = by_person.get(visit.owner, ([], ""))
            booked.extend(visit.booked)
            if not last or visit.begun >= came[visit.owner]:
                last, came[visit.owner] = handle, visit.begun
            by_person[visit.owner] = (booked, last)
    together = persons_sharing(histories)
    for person, events in written.items():
        booked, last = by_person.get(person, ([], ""))
        some = [(e, *_place(together[id(e)], person)) for e in events if e.day <= today]
        booked.extend(bookings_of_person(some, money.currency))
        by_person[person] = (booked, last)
    return by_person


def _place(sharing: Sequence[str], person: str) -> tuple[int, int]:
    return len(sharing), sharing.index(person)


def persons_sharing(histories: Histories) -> dict[int, list[str]]:
    """By the identity of each event about other things than trees, whom it is about, in order."""
    found: dict[int, list[str]] = {}
    for handle, events in histories.others.items():
        for event in events:
            found.setdefault(id(event), []).append(handle)
    return found


def unpaid(tree: Tree, bills: Sequence[BillState], journal: Journal) -> Iterator[Due]:
    """A due for each bill of a tree; done by what covered the last of it."""
    days = timedelta(days=PAYMENT_DAYS.among(journal.settings.figures))
    for one in bills:
        bill, event = one.bill, one.bill.event
        called = (
            phrase("bill {number}", number=bill.number)
            if bill.number
            else phrase("the bill of {text}", text=event.when.day_or_text)
        )
        cause = f"billed-{event.when.text}"
        due = due_of(
            tree,
            Proposal(
                "paid",
                Window(bill.day, bill.day + days, bill.day + 2 * days),
                because=phrase("It is open until what was paid or credited has covered it."),
                weight=PROMISE,
                part=bill.number,
            ),
            "payment",
            cause,
            reason_on(
                "plan", phrase("Billed on {text}.", text=event.when.day_or_text), bill.origin
            ),
            journal.acts,
            promised=True,
        )
        paid = one.settled_by if not one.open else None
        follow_up = replace(
            due.follow_up,
            title=phrase("see that {called} is paid", called=called),
            outcome="done" if paid is not None else "open",
            settled=paid.event if paid is not None else None,
        )
        yield replace(due, follow_up=follow_up, by_sum=True)
