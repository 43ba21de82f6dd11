"""Other people's trees as they are shown: each visit, and each person's account."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct

from backbud.collection.bookings import Booked, counted
from backbud.collection.state import Standing, Tree
from backbud.collection.visit import Visit
from backbud.journal.events import Event
from backbud.plan.followups import FollowUp
from backbud.views.day import open_works_of
from backbud.views.history import DateView, EntryView, date_view, entry_view
from backbud.views.work import WorkView
from backbud.visits.account import Account, OpenSums, VisitAccount, balances_of
from backbud.visits.charges import Charge
from backbud_grammar.dates import read_span
from backbud_grammar.problems import Misread

# What ends something that runs on a tree, and must not be broken off by sending it home.
_ENDS_CARE = frozenset({"unprotected", "unshaded", "released"})
_WIRED = frozenset({"wire", "guy", "wrap"})


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

    `sort`: price (for the whole), hours or material. `what`: as written. `quantity` in `unit` (h,
    or as the material is counted), `unit_price` of one. `amount`: null where no price is known, or
    where it is within the price for the whole (`within`).
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


class BookedView(Struct, frozen=True):
    """A bill or a payment; `amount` is null for a bill that does not say it. `tree`: its handle,
    "" where it is about the person. `at`: its line."""

    day: date
    number: str
    amount: Decimal | None
    currency: str
    what: str
    how: str
    tree: str
    at: str


class HoldView(Struct, frozen=True):
    """Something that runs on a tree and should not be broken off before a day."""

    title: str
    until: date


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
    known of.
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

    @property
    def is_here(self) -> bool:
        return self.went is None


class AccountView(Struct, frozen=True):
    """A person's account: visits, newest first, what was billed and paid, and what is open.

    `bills`, `payments`: all of them, oldest first."""

    person: str
    name: str
    visits: tuple[VisitView, ...]
    bills: tuple[BookedView, ...]
    payments: tuple[BookedView, ...]
    money: tuple[MoneyView, ...]


def account_view(
    account: Account,
    plans: Mapping[str, Sequence[FollowUp]],
    names: Mapping[str, str],
    today: date,
) -> AccountView:
    """A person's account as it is shown on a day. `plans`: the follow-ups by the tree's handle;
    `names`: what people call each thing."""
    visits = [_visit(one, plans, names, today) for one in account.visits]
    in_order = sorted(visits, key=lambda one: one.came or date.min, reverse=True)
    return AccountView(
        account.person,
        names.get(account.person) or account.person,
        tuple(in_order),
        tuple(map(_booked, account.all_bills)),
        tuple(map(_booked, account.all_payments)),
        tuple(map(_money, account.balances)),
    )


def in_the_house(accounts: Iterable[AccountView]) -> tuple[VisitView, ...]:
    """The visits of the trees that are here, those that are wanted home soonest first."""
    here = [one for account in accounts for one in account.visits if one.is_here]

    def wanted(one: VisitView) -> tuple[date, date, str]:
        by = one.wanted_by.last if one.wanted_by is not None else date.max
        return by, one.came or date.min, one.name.casefold()

    return tuple(sorted(here, key=wanted))


def _visit(
    one: VisitAccount,
    plans: Mapping[str, Sequence[FollowUp]],
    names: Mapping[str, str],
    today: date,
) -> VisitView:
    visit, tree = one.visit, one.visit.tree
    events = [entry.event for entry in counted(visit.entries)]
    waiting = _waiting(visit, plans, names, today)
    holds = tuple(HoldView(work.title, work.best) for work in waiting if work.act in _ENDS_CARE)
    holding = [hold.until for hold in holds if hold.until > today]
    home_from = max(holding, default=None)
    wanted_by = _days(tree.wanted) if visit.is_here else None
    return VisitView(
        tree=tree.handle,
        name=tree.title,
        kind=tree.kind,
        owner=visit.owner,
        owner_name=names.get(visit.owner) or visit.owner,
        came=visit.came,
        went=visit.went,
        how=visit.how,
        wanted=tree.wanted if visit.is_here else "",
        wanted_by=wanted_by,
        ready=_ready(events) if visit.is_here else None,
        agreed=tuple(event.text for event in events if event.act == "agreed"),
        hours=sum((c.quantity for c in one.charges if c.sort == "hours"), Decimal(0)),
        done=tuple(entry_view(entry) for entry in counted(visit.entries) if _is_work(entry.event)),
        waiting=waiting,
        holds=holds,
        home_from=home_from,
        held_past_wanted=(
            home_from is not None and wanted_by is not None and wanted_by.last < home_from
        ),
        still_on=_still_on(tree),
        charges=tuple(map(_charge, one.charges)),
        bills=tuple(map(_booked, one.bills)),
        payments=tuple(map(_booked, one.payments)),
        money=tuple(map(_money, balances_of(one))),
        unpriced=len(one.unpriced),
    )


def _waiting(
    visit: Visit, plans: Mapping[str, Sequence[FollowUp]], names: Mapping[str, str], today: date
) -> tuple[WorkView, ...]:
    if not visit.is_here:
        return ()
    works = open_works_of(plans.get(visit.tree.handle, ()), visit.tree, names, today)
    return tuple(sorted(works, key=lambda work: (work.closes, work.title)))


def _is_work(event: Event) -> bool:
    """Whether a line is work on the tree that its owner would be told of."""
    traits = event.row.traits
    skipped = {"no_work", "arrival", "departure", "for_keeper", "ahead"}
    return not skipped & set(traits) and not event.row.prose


def _ready(events: Iterable[Event]) -> date | None:
    return max((event.day for event in events if event.act == "ready"), default=None)


def _still_on(tree: Tree) -> tuple[str, ...]:
    return tuple(
        f"{thing.what} {thing.part}".strip() for thing in tree.on_tree if thing.sort in _WIRED
    )


def _days(written: str) -> DateView | None:
    try:
        return date_view(read_span(written)) if written else None
    except Misread:
        return None


def _charge(one: Charge) -> ChargeView:
    return ChargeView(
        one.sort, one.day, one.what, one.quantity, one.unit, one.unit_price, one.amount,
        one.currency, one.within,
    )  # fmt: skip


def _booked(one: Booked) -> BookedView:
    return BookedView(
        one.day, one.number, one.amount, one.currency, one.what, one.how, one.tree,
        str(one.origin),
    )  # fmt: skip


def _money(one: OpenSums) -> MoneyView:
    return MoneyView(one.currency, one.comes_to, one.billed, one.paid, one.open, one.to_bill)
