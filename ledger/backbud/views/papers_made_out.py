"""Makes out the papers of one person: which visits they are about, and what each paper says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from decimal import Decimal

from msgspec import Struct
from msgspec.structs import replace

from backbud import words
from backbud.bench.money import rounded
from backbud.collection.bookings import Booked, counted
from backbud.collection.open_bills import bill_states
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.journal.tax import NO_TAX, Tax
from backbud.journal.things import Things
from backbud.plan.followups import FollowUp
from backbud.species import Species
from backbud.views.care import CareGround, care_view
from backbud.views.paper import (
    CareView,
    PapersView,
    PaperTreeView,
    PartyView,
    ReceiptView,
    StatedSumsView,
    StatedTreeView,
    StatementView,
    TaxSumView,
)
from backbud.views.photograph import PhotographView
from backbud.views.plain_words import DoneLine, called_in, done_lines, thing_in_words
from backbud.views.provenance import provenance_view
from backbud.views.visit import (
    BookedView,
    booked_view,
    charge_view,
    is_work,
    visit_view,
)
from backbud.visits.account import Account, VisitAccount
from backbud.visits.tax import ZERO, tax_sums

# A visit that ended is told of so long; longer where money is open.
_TOLD = timedelta(days=60)


class PaperGround(Struct, frozen=True, kw_only=True):
    """What the papers of a person are made from.

    `house`: the journal's name. `arrived`: by the tree's handle and the day it came, how it was at
    the end of that day; `apart_until`: likewise, until when it was then to be kept apart.
    `at_home`: what each tree will ask for where it goes home to; `home`: by whose weather that is,
    in words. `pot_depths`: in cm, by the tree's handle, where its pot's card says it.
    `payment_days`: in how many days a bill is to be paid. `plans`: the follow-ups here.
    """

    house: str
    keeper: str
    account: Account
    trees: Mapping[str, Tree]
    arrived: Mapping[tuple[str, date | None], Tree]
    apart_until: Mapping[tuple[str, date | None], date]
    species: Mapping[str, Species | None]
    plans: Mapping[str, Sequence[FollowUp]]
    at_home: Mapping[str, Sequence[FollowUp]]
    home: str
    names: Mapping[str, str]
    things: Things
    photographs: Mapping[str, tuple[PhotographView, ...]]
    pot_depths: Mapping[str, float]
    tax: Tax
    payment_days: int
    today: date


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
        one.bill.event.origin for one in bill_states(_booked(account)) if one.open
    }  # by its line, for a bill may be of a visit that is long over
    return tuple(
        one
        for one in visits
        if one.visit.is_here
        or (one.visit.went is not None and today - one.visit.went <= _TOLD)
        or any(bill.origin in open_trees for bill in one.bills)
        or any(one.to_bill(sums.currency) for sums in account.balances)
    )


def papers_view(ground: PaperGround, tree: str = "") -> PapersView:
    """All papers of a person on a day."""
    account = ground.account
    visits = visits_told(account, ground.today, tree)
    owned = {one.visit.tree.handle: one for one in visits}
    return PapersView(
        account.person,
        ground.names.get(account.person) or account.person,
        tuple(_receipt(one, ground, came) for one in visits if (came := one.visit.came)),
        statement_view(ground, visits) if visits else None,
        tuple(_care(one, ground) for one in owned.values()),
        tuple(
            provenance_view(
                ground.trees[handle],
                _tree(ground.trees[handle], ground),
                _issuer(ground),
                called_in(ground.things),
                ground.photographs.get(handle, ()),
                ground.today,
            )
            for handle in owned
        ),
    )


# ------------------------------------------------------------------ the parties and the tree


def _issuer(ground: PaperGround) -> PartyView:
    card = ground.things.find(ground.keeper)
    town = card.text("town") if card is not None else ""
    name = card.title if card is not None else ground.house
    contact = card.text("contact") if card is not None else ""
    return PartyView(name, town, ground.house, ground.tax.number, contact)


def _owner(ground: PaperGround) -> PartyView:
    card = ground.things.find(ground.account.person)
    name = ground.names.get(ground.account.person) or ground.account.person
    return PartyView(name, card.text("town") if card is not None else "")


def _tree(tree: Tree, ground: PaperGround) -> PaperTreeView:
    species = ground.species.get(tree.handle)
    return PaperTreeView(
        tree.handle,
        tree.title,
        tree.kind,
        tree.cultivar,
        species.botanical if species is not None else "",
        {label: str(measure) for label, measure in tree.sizes.items()},
    )


def _events(one: VisitAccount, until: date = date.max) -> list[Event]:
    """What counts of a visit, until a day."""
    found = (entry.event for entry in counted(one.visit.entries))
    return [event for event in found if event.day <= until]


def _done(one: VisitAccount, ground: PaperGround) -> tuple[DoneLine, ...]:
    works = [event for event in _events(one) if is_work(event)]
    return done_lines(works, called_in(ground.things), ground.today.year)


# ------------------------------------------------------------------ the receipt


def _receipt(one: VisitAccount, ground: PaperGround, came: date) -> ReceiptView:
    """What was taken in, as it stood at the end of the day it came: nothing later is in it."""
    key = one.visit.tree.handle, one.visit.came
    tree = ground.arrived.get(key, one.visit.tree)
    visit = visit_view(_on_arrival(one, tree, came), {}, ground.names, ground.things, came)
    near = [
        picture
        for picture in ground.photographs.get(visit.tree, ())
        if picture.when.first == picture.when.last == came
    ]
    paid = [pay for pay in (*one.payments, *ground.account.payments) if _is_ahead(pay, one, came)]
    wanted = {
        "its condition": visit.condition,
        "photographs of it as it came": near,
        "the value it is insured at": visit.insured,
        "what was agreed": visit.agreed,
    }
    return ReceiptView(
        day=came,
        issuer=_issuer(ground),
        to=_owner(ground),
        tree=_tree(tree, ground),
        came=came,
        condition=visit.condition,
        photographs=tuple(near),
        on_it=tuple(
            thing_in_words(thing) for thing in tree.on_tree if thing.sort in ("wire", "guy", "wrap")
        ),
        pot=ground.names.get(tree.pot) or tree.pot,
        pot_owner=visit.pot_owner_name,
        insured=visit.insured,
        insured_currency=visit.insured_currency,
        insured_by=visit.insured_by,
        agreed=tuple(_agreed(event) for event in _events(one, came) if event.act == "agreed"),
        risks=visit.risks,
        deposit=visit.deposit,
        deposit_currency=visit.deposit_currency,
        deposit_paid=tuple(map(_told, paid)),
        wanted=visit.wanted_by,
        apart=visit.apart,
        apart_until=ground.apart_until.get(key) if visit.apart else None,
        missing=tuple(what for what, known in wanted.items() if not known),
    )


def _on_arrival(one: VisitAccount, tree: Tree, came: date) -> VisitAccount:
    """A visit as it stood at the end of the day it began."""
    entries = tuple(entry for entry in one.visit.entries if entry.event.day <= came)
    visit = replace(one.visit, tree=tree, went=None, how="here", entries=entries)
    return replace(one, visit=visit, charges=(), bills=(), payments=())


def _is_ahead(paid: Booked, one: VisitAccount, came: date) -> bool:
    """Whether a payment was made ahead of a visit's work, by the day the tree came."""
    first = min(entry.event.day for entry in one.visit.entries)
    return "deposit" in paid.how and first <= paid.day <= came


def _agreed(event: Event) -> str:
    """An agreement in words: `210.00 EUR for repotting, other half`, `40.00 EUR an hour`."""
    what = ", ".join(d.words for d in event.all("for") if d.words)
    amount, rate = event.first("amount"), event.measure("rate")
    how = " ".join(d.words for d in event.all("how"))
    parts = []
    if amount is not None and amount.measure is not None:
        price = words.money(amount.measure.number, amount.measure.unit)
        parts.append(" ".join(part for part in (how, price, amount.words) if part))
    elif how:
        parts.append(how)
    if rate is not None:
        per = {"h": "an hour"}.get(rate.per or "", f"a {rate.per}")
        parts.append(f"{words.money(rate.number, rate.unit)} {per}")
    said = " and ".join(parts)
    if what:
        return f"{said} for {what}" if said else what
    return said


# ------------------------------------------------------------------ the statement


def statement_view(ground: PaperGround, visits: Sequence[VisitAccount]) -> StatementView:
    """The account of the work on these visits; what else is open is brought forward in one sum."""
    account, today = ground.account, ground.today
    first = min((one.visit.came or date.min for one in visits), default=date.min)
    bills, payments = _listed(account, visits)
    open_until = [
        state.bill.day + timedelta(days=ground.payment_days)
        for state in bill_states(_booked(account))
        if state.open
    ]
    return StatementView(
        day=today,
        person=account.person,
        issuer=_issuer(ground),
        to=_owner(ground),
        numbers=tuple(dict.fromkeys(one.number for one in bills if one.number)),
        from_day=None if first == date.min else first,
        trees=tuple(
            StatedTreeView(
                _tree(one.visit.tree, ground),
                one.visit.came,
                one.visit.went,
                _done(one, ground),
                sum((c.quantity for c in one.charges if c.sort == "hours"), ZERO),
                tuple(map(charge_view, one.charges)),
            )
            for one in visits
        ),
        bills=tuple(map(_told, bills)),
        payments=tuple(map(_told, payments)),
        sums=stated_sums(account, visits),
        tax_name=ground.tax.name,
        tax_within=ground.tax.prices == "with tax",
        unpriced=sum(len(one.unpriced) for one in visits),
        due_until=max(open_until, default=None),
    )


def _told(one: Booked) -> BookedView:
    """A bill or a payment as its owner is told of it: no line of the diary."""
    return replace(booked_view(one), at="", corrected_at=None)


def _listed(account: Account, visits: Sequence[VisitAccount]) -> tuple[list[Booked], list[Booked]]:
    """The bills and the payments that a statement of these visits lists: theirs, and what is
    written of the person since the first of them came."""
    first = min((one.visit.came or date.min for one in visits), default=date.min)
    bills = [bill for one in visits for bill in one.bills]
    payments = [payment for one in visits for payment in one.payments]
    bills += [one for one in account.bills if one.day >= first]
    payments += [one for one in account.payments if one.day >= first]
    return _in_order(bills), _in_order(payments)


def stated_sums(account: Account, visits: Sequence[VisitAccount]) -> tuple[StatedSumsView, ...]:
    """The sums of a statement of these visits, by currency; what else is open is brought forward,
    so that what is due is what the account says."""
    return tuple(_sums(account, visits, *_listed(account, visits)))


def _sums(
    account: Account,
    visits: Sequence[VisitAccount],
    bills: Sequence[Booked],
    payments: Sequence[Booked],
) -> Iterator[StatedSumsView]:
    tax = visits[0].tax if visits else NO_TAX
    for whole in account.balances:
        currency = whole.currency
        lines = [
            (line.amount, line.tax_rate)
            for one in visits
            for line in one.charges
            if line.currency == currency and line.amount is not None
        ]
        taxes = tax_sums(lines, tax, currency)
        billed, paid = (_sum(some, currency) for some in (bills, payments))
        comes_to = rounded(sum((one.gross for one in taxes), ZERO), currency)
        to_bill = rounded(sum((one.to_bill(currency) for one in visits), ZERO), currency)
        before = whole.open - (billed - paid)
        if not (lines or billed or paid or before):
            continue
        yield StatedSumsView(
            currency=currency,
            taxes=tuple(TaxSumView(one.rate, one.net, one.tax, one.gross) for one in taxes),
            comes_to=comes_to,
            billed=billed,
            paid=paid,
            before=before,
            to_bill=to_bill,
            due=whole.open + to_bill,
        )


def _booked(account: Account) -> tuple[Booked, ...]:
    return (*account.all_bills, *account.all_payments)


def _sum(booked: Iterable[Booked], currency: str) -> Decimal:
    found = sum((one.amount or ZERO for one in booked if one.currency == currency), ZERO)
    return rounded(found, currency)


def _in_order(booked: Iterable[Booked]) -> list[Booked]:
    return sorted(booked, key=lambda one: (one.day, one.origin.file, one.origin.line))


# ------------------------------------------------------------------ the care sheet


def _care(one: VisitAccount, ground: PaperGround) -> CareView:
    tree = ground.trees[one.visit.tree.handle]
    card = ground.things.find(ground.account.person)
    care = CareGround(
        tree,
        ground.species.get(tree.handle),
        ground.at_home.get(tree.handle, ()),
        [event for event in _events(one) if is_work(event)],
        _done(one, ground),
        ground.home,
        card.text("experience") if card is not None else "",
        ground.pot_depths.get(tree.handle),
        ground.names.get(tree.mix) or tree.mix,
        ground.today,
    )
    return care_view(care, _tree(tree, ground), _issuer(ground), _owner(ground))
