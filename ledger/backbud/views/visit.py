"""Other people's trees as they are shown: each visit, and each person's account."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import TypedDict

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.bookings import Booked, BookingSort, counted
from backbud.collection.open_bills import BillState, bill_states
from backbud.collection.state import Standing, Tree
from backbud.collection.visit import Visit
from backbud.journal.events import Event
from backbud.journal.things import Things
from backbud.plan.followups import FollowUp
from backbud.views.day import open_works_of
from backbud.views.going_home import HoldView, holds_of, not_yet
from backbud.views.history import DateView, EntryView, date_view, entry_views
from backbud.views.wire_on import WIRED, WireOnView, wires_on
from backbud.views.work import WorkView
from backbud.visits.account import Account, OpenSums, VisitAccount, balances_of
from backbud.visits.charges import Charge
from backbud_grammar.act_words import DetailName
from backbud_grammar.dates import read_span
from backbud_grammar.problems import Misread


class MoneyView(Struct, frozen=True):
    """Sums in one currency, exact.

    `comes_to`: what the work comes to, as far as prices are known. `billed`, `paid`: as written.
    `open`: billed and not paid, below 0 where more was paid. `to_bill`: what is still to bill.
    """

    currency: str
    comes_to: Decimal
    billed: Decimal
    paid: Decimal
    open: Decimal
    to_bill: Decimal


class ChargeView(Struct, frozen=True):
    """A line of what a visit comes to.

    `sort`: price (for the whole), period (by the week, month or year, `until` a day), hours,
    material, skipped (a price that is not owed, since its work was), and of a statement billed
    (what a bill says it is for), also billed (beside other lines), not charged or rounding (the tax
    of each bill is rounded for itself). `what`: as
    written. `quantity` in `unit` (h, week, month, year, or as the material is counted),
    `unit_price` of one. `amount`: null where no price is known, or where it is within the price for
    the whole (`within`). `tax_rate`: percent, null where no tax is written down.
    """

    sort: str
    day: date
    what: str
    quantity: Decimal
    unit: str
    unit_price: Decimal | None
    amount: Decimal | None
    currency: str
    within: bool
    tax_rate: Decimal | None = None
    until: date | None = None


class BookedView(Struct, frozen=True):
    """A bill, a credit or a payment (`sort`).

    `amount`: null for a bill that does not say it, below 0 of a credit. `tree`: its handle, ""
    where it is about the person. `at`: its line. `of_bill`: of a credit, the number of the bill
    that it takes from. `first`: the amount that first stood there, where a later line,
    `corrected_at`, changed it.
    """

    day: date
    number: str
    amount: Decimal | None
    currency: str
    what: str
    how: str
    tree: str
    at: str
    sort: BookingSort = "bill"
    of_bill: str = ""
    first: Decimal | None = None
    corrected_at: str | None = None


class VisitView(Struct, frozen=True, kw_only=True):
    """A visit of somebody else's tree.

    `tree`: its handle, `name` what people call it; `owner` likewise. `came`: null where it was here
    before the diary speaks of it; `went`: null while it is here; `how`: here, lent, returned, sold,
    died or lost. `wanted`: by when its owner wants it, as written. `ready`: since when it is ready
    to go. `agreed`: each agreement as written. `hours`: that were written down. `done`: the lines
    of work, oldest first. `waiting`: what still wants doing. `holds`: what should not be broken
    off, and `home_from`: from when it can go, null where nothing holds it. `held_past_wanted`: it
    is wanted home before that. `still_on`: wire, guys and wrapping that are on it. `charges`,
    `bills`, `payments`, `money`: for the keeper's eyes. `unpriced`: how many lines no price is
    known of. `condition`: as it came, in words. `pot_name`: the pot it is in,
    `pot_owner_name` whose, "" where its card does not say. `insured`: the value, in
    `insured_currency`, null where nothing is said. `risks`: what its owner accepts, as written.
    `deposit`: agreed to be paid ahead. `apart`: it is in quarantine. `asked_after`: when its owner
    was last asked since it went. `wires`: what is in `still_on`, in plain words, and since when.
    `owed`: by currency, what is open of its bills once all that its owner paid was set against
    them. `to_come`: it was agreed on and the tree is not here yet. `not_yet`: why it should not go
    home for now, though no day is known from which it could.
    """

    tree: str
    name: str
    kind: str
    owner: str
    owner_name: str
    came: date | None
    went: date | None
    how: Standing
    wanted: str
    wanted_by: DateView | None
    ready: date | None
    agreed: tuple[str, ...]
    hours: Decimal
    done: tuple[EntryView, ...]
    waiting: tuple[WorkView, ...]
    holds: tuple[HoldView, ...]
    home_from: date | None
    held_past_wanted: bool
    still_on: tuple[str, ...]
    charges: tuple[ChargeView, ...]
    bills: tuple[BookedView, ...]
    payments: tuple[BookedView, ...]
    money: tuple[MoneyView, ...]
    unpriced: int
    condition: str = ""
    pot_name: str = ""
    pot_owner_name: str = ""
    insured: Decimal | None = None
    insured_currency: str = ""
    insured_by: str = ""
    risks: tuple[str, ...] = ()
    deposit: Decimal | None = None
    deposit_currency: str = ""
    apart: bool = False
    asked_after: date | None = None
    wires: tuple[WireOnView, ...] = ()
    owed: dict[str, Decimal] = {}
    to_come: bool = False
    not_yet: tuple[str, ...] = ()

    @property
    def is_here(self) -> bool:
        return self.went is None and not self.to_come


class BillView(Struct, frozen=True):
    """A bill, and what of it is `open` once all that its owner paid, and all that was credited, was
    set against their bills: what names a number, then of the same tree, then the oldest."""

    bill: BookedView
    open: Decimal


class AccountView(Struct, frozen=True):
    """A person's account: visits, newest first, what was billed and paid, and what is open.

    `bills`, `payments`: all of them, oldest first; `standing`: how each bill stands."""

    person: str
    name: str
    visits: tuple[VisitView, ...]
    bills: tuple[BookedView, ...]
    payments: tuple[BookedView, ...]
    money: tuple[MoneyView, ...]
    standing: tuple[BillView, ...] = ()


def account_view(
    account: Account,
    plans: Mapping[str, Sequence[FollowUp]],
    names: Mapping[str, str],
    things: Things,
    today: date,
) -> AccountView:
    """A person's account as it is shown on a day. `plans`: the follow-ups by the tree's handle;
    `names`: what people call each thing."""
    states = bill_states((*account.all_bills, *account.all_payments))
    visits = [
        replace(visit_view(one, plans, names, things, today), owed=_owed(one, states))
        for one in account.visits
    ]
    in_order = sorted(visits, key=lambda one: one.came or date.min, reverse=True)
    return AccountView(
        account.person,
        names.get(account.person) or account.person,
        tuple(in_order),
        tuple(map(booked_view, account.all_bills)),
        tuple(map(booked_view, account.all_payments)),
        tuple(map(money_view, account.balances)),
        tuple(BillView(booked_view(one.bill), one.open) for one in states),
    )


def to_come(accounts: Iterable[AccountView]) -> tuple[VisitView, ...]:
    """The visits that were agreed on, of trees that are not here yet."""
    return tuple(one for account in accounts for one in account.visits if one.to_come)


def in_the_house(accounts: Iterable[AccountView]) -> tuple[VisitView, ...]:
    """The visits of the trees that are here, those that are wanted home soonest first."""
    here = [one for account in accounts for one in account.visits if one.is_here]

    def wanted(one: VisitView) -> tuple[date, date, str]:
        by = one.wanted_by.last if one.wanted_by is not None else date.max
        return by, one.came or date.min, one.name.casefold()

    return tuple(sorted(here, key=wanted))


def visit_view(
    one: VisitAccount,
    plans: Mapping[str, Sequence[FollowUp]],
    names: Mapping[str, str],
    things: Things,
    today: date,
) -> VisitView:
    """A visit as it is shown on a day."""
    visit, tree = one.visit, one.visit.tree
    events = [entry.event for entry in counted(visit.entries)]
    waiting = _waiting(visit, plans, names, today)
    holds = holds_of(waiting)
    holding = [hold.until for hold in holds if hold.until > today]
    home_from = max(holding, default=None)
    wanted_by = _days(tree.wanted) if visit.went is None else None
    return VisitView(
        tree=tree.handle,
        name=tree.title,
        kind=tree.kind,
        owner=visit.owner,
        owner_name=names.get(visit.owner) or visit.owner,
        came=visit.came,
        went=visit.went,
        how=visit.how,
        wanted=tree.wanted if visit.went is None else "",
        wanted_by=wanted_by,
        ready=_ready(events) if visit.is_here else None,
        agreed=tuple(event.text for event in events if event.act == "agreed"),
        hours=sum((c.quantity for c in one.charges if c.sort == "hours"), Decimal(0)),
        done=entry_views(entry for entry in counted(visit.entries) if is_work(entry.event)),
        waiting=waiting,
        holds=holds,
        home_from=home_from,
        to_come=visit.to_come,
        not_yet=not_yet(tree, holds, today) if visit.is_here else (),
        held_past_wanted=(
            home_from is not None and wanted_by is not None and wanted_by.last < home_from
        ),
        still_on=_still_on(tree),
        charges=tuple(map(charge_view, one.charges)),
        bills=tuple(map(booked_view, one.bills)),
        payments=tuple(map(booked_view, one.payments)),
        money=tuple(map(money_view, balances_of(one))),
        unpriced=len(one.unpriced),
        condition=_said("condition", (event for event in events if event.act == "received")),
        pot_name=names.get(tree.pot) or tree.pot,
        pot_owner_name=_whose(tree.pot, things, names),
        risks=tuple(d.words for event in events for d in event.all("risk") if d.words),
        apart=tree.quarantined,
        wires=wires_on(tree, visit.came, today),
        asked_after=max((e.day for e in events if e.act == "asked-after"), default=None),
        **_sums_said(events, one),
    )


def _owed(one: VisitAccount, states: Iterable[BillState]) -> dict[str, Decimal]:
    """By currency, what is open of the bills of a visit."""
    lines = {bill.origin for bill in one.bills}
    handle = one.visit.tree.handle
    found: dict[str, Decimal] = {}
    for state in states:
        bill = state.bill
        if state.open and bill.origin in lines and bill.tree == handle:
            found[bill.currency] = found.get(bill.currency, Decimal(0)) + state.open
    return found


class _SumsSaid(TypedDict):
    insured: Decimal | None
    insured_currency: str
    insured_by: str
    deposit: Decimal | None
    deposit_currency: str


def _sums_said(events: Sequence[Event], one: VisitAccount) -> _SumsSaid:
    """The value that it is insured at, and the deposit that was agreed: each as said last."""
    insured = [e for e in events if e.act == "insured" and e.measure("amount") is not None]
    agreed = [e for e in events if e.measure("deposit") is not None]
    value = insured[-1].measure("amount") if insured else None
    deposit = agreed[-1].measure("deposit") if agreed else None
    return {
        "insured": value.number if value is not None else None,
        "insured_currency": (value.unit or one.currency) if value is not None else "",
        "insured_by": _said("by", insured[-1:]),
        "deposit": deposit.number if deposit is not None else None,
        "deposit_currency": (deposit.unit or one.currency) if deposit is not None else "",
    }


def _said(name: DetailName, events: Iterable[Event]) -> str:
    return "; ".join(d.words for event in events for d in event.all(name) if d.words)


def _whose(pot: str, things: Things, names: Mapping[str, str]) -> str:
    """Whose a pot is by its card; "" where it does not say."""
    card = things.find(pot) if pot else None
    owner = things.find(card.text("owner")) if card is not None and card.text("owner") else None
    return names.get(owner.handle, owner.handle) if owner is not None else ""


def _waiting(
    visit: Visit, plans: Mapping[str, Sequence[FollowUp]], names: Mapping[str, str], today: date
) -> tuple[WorkView, ...]:
    if not visit.is_here:
        return ()
    works = open_works_of(plans.get(visit.tree.handle, ()), visit.tree, names, today)
    return tuple(sorted(works, key=lambda work: (work.closes, work.title)))


def is_work(event: Event) -> bool:
    """Whether a line is work on the tree that its owner would be told of."""
    traits = event.row.traits
    skipped = {"no_work", "arrival", "departure", "for_keeper", "ahead"}
    return not skipped & set(traits) and not event.row.prose


def _ready(events: Iterable[Event]) -> date | None:
    return max((event.day for event in events if event.act == "ready"), default=None)


def _still_on(tree: Tree) -> tuple[str, ...]:
    return tuple(
        f"{thing.what} {thing.part}".strip() for thing in tree.on_tree if thing.sort in WIRED
    )


def _days(written: str) -> DateView | None:
    try:
        return date_view(read_span(written)) if written else None
    except Misread:
        return None


def charge_view(one: Charge) -> ChargeView:
    """A line of what a visit comes to, as it is shown."""
    return ChargeView(
        one.sort, one.day, one.what, one.quantity, one.unit, one.unit_price, one.amount,
        one.currency, one.within, one.tax_rate, one.until,
    )  # fmt: skip


def booked_view(one: Booked) -> BookedView:
    """A bill, a credit or a payment, as it is shown."""
    return BookedView(
        one.day, one.number, one.amount, one.currency, one.what, one.how, one.tree,
        str(one.origin), one.sort, one.of_bill, one.first,
        str(one.corrected_at) if one.corrected_at is not None else None,
    )  # fmt: skip


def money_view(one: OpenSums) -> MoneyView:
    """Sums in one currency, as they are shown."""
    return MoneyView(one.currency, one.comes_to, one.billed, one.paid, one.open, one.to_bill)
