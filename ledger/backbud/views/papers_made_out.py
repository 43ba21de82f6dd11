"""Makes out the papers of one person: which visits they are about, and what each paper says."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec.structs import replace

from backbud import words
from backbud.collection.bookings import Booked
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.tongue import phrase
from backbud.views.care import CareGround, care_view
from backbud.views.paper import CareStage, CareView, PapersView, ReceiptView
from backbud.views.paper_ground import (
    PaperGround,
    done_in,
    events_of_visit,
    issuer_of,
    owner_of,
    tree_of,
)
from backbud.views.plain_words import called_in, thing_in_words
from backbud.views.provenance import provenance_view
from backbud.views.statement import statement_view, told_of, visits_told
from backbud.views.visit import is_work, visit_view
from backbud.visits.account import VisitAccount

# So long a tree that went counts as coming home.
_JUST = timedelta(days=14)


def papers_view(ground: PaperGround, tree: str = "") -> PapersView:
    """All papers of a person on a day."""
    account = ground.account
    visits = visits_told(account, ground.today, tree)
    owned = {one.visit.tree.handle: one for one in visits if not one.visit.to_come}
    return PapersView(
        account.person,
        ground.names.get(account.person) or account.person,
        tuple(_receipt(one, ground, came) for one in visits if (came := one.visit.came)),
        statement_view(ground, visits) if visits else None,
        tuple(_care(one, ground) for one in owned.values()),
        tuple(
            provenance_view(
                ground.trees[handle],
                tree_of(ground.trees[handle], ground),
                issuer_of(ground),
                called_in(ground.things),
                ground.photographs.get(handle, ()),
                ground.today,
            )
            for handle in owned
        ),
    )


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
        "photographs of it as it came, marked for owner": near,
        "the value it is insured at": visit.insured,
        "what was agreed": visit.agreed,
    }
    return ReceiptView(
        day=came,
        issuer=issuer_of(ground),
        to=owner_of(ground),
        tree=tree_of(tree, ground),
        came=came,
        condition=visit.condition,
        photographs=tuple(near),
        on_it=tuple(
            thing_in_words(thing)
            for thing in ground.came_with.get(key, ())
            if thing.sort in ("wire", "guy", "wrap")
        ),
        pot=called_in(ground.things)(tree.pot) if tree.pot else "",
        pot_owner=visit.pot_owner_name,
        insured=visit.insured,
        insured_currency=visit.insured_currency,
        insured_by=visit.insured_by,
        agreed=tuple(
            _agreed(event) for event in events_of_visit(one, came) if event.act == "agreed"
        ),
        risks=visit.risks,
        deposit=visit.deposit,
        deposit_currency=visit.deposit_currency,
        deposit_paid=tuple(map(told_of, paid)),
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
        return phrase("{said} for {what}", said=said, what=what) if said else what
    return said


# ------------------------------------------------------------------ the care sheet


def _care(one: VisitAccount, ground: PaperGround) -> CareView:
    tree = ground.trees[one.visit.tree.handle]
    card = ground.things.find(ground.account.person)
    care = CareGround(
        tree,
        ground.species.get(tree.handle),
        ground.at_home.get(tree.handle, ()),
        [event for event in events_of_visit(one) if is_work(event)],
        done_in(one, ground),
        ground.home,
        card.text("experience") if card is not None else "",
        ground.pot_depths.get(tree.handle),
        _stage(one, ground.today),
        ground.photographs.get(tree.handle, ()),
        ground.today,
    )
    return care_view(care, tree_of(tree, ground), issuer_of(ground), owner_of(ground))


def _stage(one: VisitAccount, today: date) -> CareStage:
    """How far a tree is on its way home: told ready on this visit, just gone, or long at home."""
    if one.visit.went is not None:
        return "ready" if today - one.visit.went < _JUST else "home"
    ready = any(event.act == "ready" for event in events_of_visit(one, today))
    return "ready" if ready else "here"
