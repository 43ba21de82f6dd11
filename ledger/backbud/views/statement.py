"""Puts together the account of the work: its lines, and the sums that they add up to.

A line is what was done and is in the sum, or what a bill says it is for (visits/stated.py); what
was agreed and is not done, or not billed, is told beside the sum.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from decimal import Decimal

from msgspec.structs import replace

from backbud.bench.money import rounded
from backbud.collection.bookings import Booked
from backbud.collection.open_bills import bill_states
from backbud.journal.line_order import line_order
from backbud.journal.tax import NO_TAX
from backbud.views.paper import StatedSumsView, StatedTreeView, StatementView, TaxSumView
from backbud.views.paper_ground import (
    PaperGround,
    done_in,
    events_of_visit,
    issuer_of,
    owner_of,
    tree_of,
)
from backbud.views.visit import BookedView, ChargeView, booked_view, charge_view, is_work
from backbud.visits.account import Account, VisitAccount
from backbud.visits.charges import Charge, Sort
from backbud.visits.stated import StatedLines, billed_line, stated_lines
from backbud.visits.tax import ZERO, tax_sums

# A visit that ended is told of so long; longer where money is open.
_TOLD = timedelta(days=60)
# Of an hour: what a line that many trees share leaves of it for one is no work to speak of.
SHARED_GLANCE = Decimal(10) / 60


def visits_told(account: Account, today: date, tree: str = "") -> tuple[VisitAccount, ...]:
    """The visits that papers are about: of trees that are here, of those that went within two
    months, and those with money open or still to bill; else each tree's last. `tree`: of this one
    alone."""
    told = _told_now(account, today, tree)
    if told:
        return told
    visits = [one for one in account.visits if tree in ("", one.visit.tree.handle)]
    return tuple({one.visit.tree.handle: one for one in visits}.values())


def is_told_now(account: Account, today: date) -> bool:
    """Whether papers are to be made of a person's visits now, and not only where asked for."""
    return bool(_told_now(account, today, ""))


def _told_now(account: Account, today: date, tree: str) -> tuple[VisitAccount, ...]:
    visits = [one for one in account.visits if tree in ("", one.visit.tree.handle)]
    open_trees = {
        one.bill.event.origin
        for one in bill_states((*account.all_bills, *account.all_payments))
        if one.open
    }  # by its line, for a bill may be of a visit that is long over
    return tuple(
        one
        for one in visits
        if one.visit.is_here
        or (one.visit.went is not None and today - one.visit.went <= _TOLD)
        or any(bill.origin in open_trees for bill in one.bills)
        or any(sums.to_bill and one.to_bill(sums.currency) for sums in account.balances)
    )


def statement_view(ground: PaperGround, visits: Sequence[VisitAccount]) -> StatementView:
    """The account of the work on these visits; what else is open is brought forward in one sum."""
    account, today = ground.account, ground.today
    first = _first(visits)
    bills, payments = _listed(account, visits)
    sums = tuple(_sums(account, visits, bills, payments, ground.payment_days))
    others = [line for lines in _others(account, visits, bills).values() for line in lines]
    return StatementView(
        day=today,
        person=account.person,
        issuer=issuer_of(ground),
        to=owner_of(ground),
        numbers=tuple(dict.fromkeys(one.number for one in bills if one.number)),
        from_day=None if first == date.min else first,
        trees=tuple(_stated(one, ground) for one in visits),
        bills=tuple(map(told_of, bills)),
        payments=tuple(map(told_of, payments)),
        sums=sums,
        tax_name=ground.tax.name,
        tax_within=ground.tax.prices == "with tax",
        unpriced=sum(len(one.unpriced) for one in visits),
        due_until=min((one.due_until for one in sums if one.due_until), default=None),
        others=tuple(map(charge_view, others)),
    )


def _stated(one: VisitAccount, ground: PaperGround) -> StatedTreeView:
    stated = stated_lines(one)
    done = done_in(one, ground)
    days = list(_days_of_work(one))
    return StatedTreeView(
        tree_of(one.visit.tree, ground),
        one.visit.came,
        one.visit.went,
        done,
        sum((c.quantity for c in one.charges if c.sort == "hours"), ZERO),
        tuple(map(charge_view, stated.lines)),
        tuple(map(charge_view, stated.ahead)),
        tuple(map(charge_view, stated.left_out)),
        one.visit.to_come,
        (min(days), max(days)) if days else None,
    )


def _days_of_work(one: VisitAccount) -> Iterator[date]:
    """The days on which anything was done to a tree, but for daily keep and a shared glance."""
    for event in events_of_visit(one):
        if is_work(event) and not {"daily_keep", "not_told"} & set(event.row.traits):
            yield event.day
    for line in one.charges:
        if line.sort == "material" or (line.sort == "hours" and line.quantity > SHARED_GLANCE):
            yield line.day


def told_of(one: Booked) -> BookedView:
    """A bill or a payment as its owner is told of it: no line of the diary."""
    return replace(booked_view(one), at="", corrected_at=None)


def _first(visits: Iterable[VisitAccount]) -> date:
    """The day from which what is written of the person belongs to these visits."""
    days = []
    for one in visits:
        ahead = [entry.event.day for entry in one.visit.entries[:1]]
        came = one.visit.came
        days.append(min([came, *ahead]) if came else date.min)
    return min(days, default=date.min)


def _listed(account: Account, visits: Sequence[VisitAccount]) -> tuple[list[Booked], list[Booked]]:
    """The bills and the payments that a statement of these visits lists: theirs, and what is
    written of the person since the first of them came."""
    first = _first(visits)
    bills = [bill for one in visits for bill in one.bills]
    payments = [payment for one in visits for payment in one.payments]
    bills += [one for one in account.bills if one.day >= first]
    payments += [one for one in account.payments if one.day >= first]
    return _in_order(bills), _in_order(payments)


def stated_sums(account: Account, visits: Sequence[VisitAccount]) -> tuple[StatedSumsView, ...]:
    """The sums of a statement of these visits, by currency; what else is open is brought forward,
    so that what is due is what the account says."""
    return tuple(_sums(account, visits, *_listed(account, visits), 0))


def _sums(
    account: Account,
    visits: Sequence[VisitAccount],
    bills: Sequence[Booked],
    payments: Sequence[Booked],
    payment_days: int,
) -> Iterator[StatedSumsView]:
    tax = visits[0].tax if visits else NO_TAX
    stated = [stated_lines(one) for one in visits]
    others = _others(account, visits, bills)
    states = bill_states((*account.all_bills, *account.all_payments))
    for whole in account.balances:
        currency = whole.currency
        lines = [
            (line.amount, line.tax_rate)
            for line in (*(line for one in stated for line in one.lines), *others.get(currency, ()))
            if line.currency == currency and line.amount is not None
        ]
        taxes = tax_sums(lines, tax, currency)
        billed, paid = (_sum(some, currency) for some in (bills, payments))
        comes_to = rounded(sum((one.gross for one in taxes), ZERO), currency)
        to_bill = _to_bill(account, stated, currency)
        before = whole.open - (billed - paid)
        if not (lines or billed or paid or before):
            continue
        open_days = [one.bill.day for one in states if one.open and one.bill.currency == currency]
        due_until = min(open_days) + timedelta(days=payment_days) if open_days else None
        yield StatedSumsView(
            currency=currency,
            taxes=tuple(TaxSumView(one.rate, one.net, one.tax, one.gross) for one in taxes),
            comes_to=comes_to,
            billed=billed,
            paid=paid,
            before=before,
            to_bill=to_bill,
            due=whole.open + to_bill,
            open=whole.open,
            due_until=due_until,
        )


def _to_bill(account: Account, stated: Sequence[StatedLines], currency: str) -> Decimal:
    """What of these visits is still to bill: not what a bill to the person stands for."""
    left = sum((one.to_bill.get(currency, ZERO) for one in stated), ZERO)
    whole = sum((stated_lines(one).to_bill.get(currency, ZERO) for one in account.visits), ZERO)
    persons = _sum((one for one in account.bills if one.sort == "bill"), currency)
    return rounded(min(left, max(whole - persons, ZERO)), currency)


def _others(
    account: Account, visits: Sequence[VisitAccount], bills: Sequence[Booked]
) -> dict[str, tuple[Charge, ...]]:
    """Lines, by currency, for what was billed to the person beyond what these visits come to; in
    the words of the bills where nothing of it is a visit's."""
    tax = visits[0].tax if visits else NO_TAX
    stated = [stated_lines(one) for one in visits]
    listed = [one for one in bills if one in account.bills and one.amount is not None]
    found = {}
    for currency in dict.fromkeys(one.currency for one in listed):
        some = [one for one in listed if one.currency == currency]
        whole = _sum((one for one in some if one.sort == "bill"), currency)
        left = sum((one.to_bill.get(currency, ZERO) for one in stated), ZERO)
        of_visits = left - _to_bill(account, stated, currency)
        if whole == of_visits:
            continue
        sent = [one for one in some if one.sort == "bill"]
        if not of_visits and len(sent) == len(some):
            found[currency] = tuple(billed_line(one, one.amount or ZERO, (), tax) for one in sent)
        elif rest := _sum(some, currency) - of_visits:
            beside = [line for one in stated for line in one.lines if line.currency == currency]
            line = billed_line(some[-1], rest, (), tax)
            told: Sort = "also billed" if beside and rest > 0 else line.sort
            found[currency] = (replace(line, sort=told),)
    return found


def _sum(booked: Iterable[Booked], currency: str) -> Decimal:
    found = sum((one.amount or ZERO for one in booked if one.currency == currency), ZERO)
    return rounded(found, currency)


def _in_order(booked: Iterable[Booked]) -> list[Booked]:
    return sorted(booked, key=lambda one: (one.day, line_order(one.origin)))


def stood_for(
    rows: Iterable[ChargeView],
) -> tuple[Decimal, Mapping[tuple[str, str], Decimal]]:
    """What a price for the whole stands for: the hours, and how much of each material and unit."""
    hours = Decimal(0)
    materials: dict[tuple[str, str], Decimal] = {}
    for row in rows:
        if row.sort == "hours":
            hours += row.quantity
        elif row.sort == "material":
            key = (row.what, row.unit)
            materials[key] = materials.get(key, Decimal(0)) + row.quantity
    return hours, materials
