"""What the papers of a person are made from, and what each says: who, to whom, which tree."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from msgspec import Struct

from backbud.collection.bookings import counted
from backbud.collection.state import OnTree, Tree
from backbud.journal.events import Event
from backbud.journal.letterhead import Letterhead
from backbud.journal.tax import Tax
from backbud.journal.things import Thing, Things
from backbud.plan.followups import FollowUp
from backbud.species import Species
from backbud.views.paper import PaperTreeView, PartyView
from backbud.views.photograph import PhotographView
from backbud.views.plain_words import DoneLine, called_in, done_lines
from backbud.views.visit import is_work
from backbud.visits.account import Account, VisitAccount
from backbud_grammar.act_words import LabelName


class PaperGround(Struct, frozen=True, kw_only=True):
    """What the papers of a person are made from.

    `house`: the journal's name. `arrived`: by the tree's handle and the day it came, how it was at
    the end of that day; `apart_until`: likewise, until when it was then to be kept apart, and
    `came_with`, what was on it as it came.
    `at_home`: what each tree will ask for where it goes home to; `home`: by whose weather that is,
    in words. `pot_depths`: in cm, by the tree's handle, where its pot's card says it.
    `payment_days`: in how many days a bill is to be paid. `plans`: the follow-ups here.
    """

    house: str
    keeper: str
    account: Account
    trees: Mapping[str, Tree]
    arrived: Mapping[tuple[str, date | None], Tree]
    came_with: Mapping[tuple[str, date | None], tuple[OnTree, ...]]
    apart_until: Mapping[tuple[str, date | None], date]
    species: Mapping[str, Species | None]
    plans: Mapping[str, Sequence[FollowUp]]
    at_home: Mapping[str, Sequence[FollowUp]]
    home: str
    names: Mapping[str, str]
    things: Things
    letterhead: Letterhead
    photographs: Mapping[str, tuple[PhotographView, ...]]
    pot_depths: Mapping[str, float]
    tax: Tax
    payment_days: int
    today: date


def issuer_of(ground: PaperGround) -> PartyView:
    """Who writes the papers: what the settings say, else the keeper's card."""
    card = ground.things.find(ground.keeper)
    head = ground.letterhead
    reached = head.telephone or head.email
    return PartyView(
        name=head.name or (card.title if card is not None else ground.house),
        town=_said(card, "town"),
        house=ground.house,
        tax_number=ground.tax.number,
        contact="" if reached else _said(card, "contact"),
        address=head.address or _said(card, "address"),
        telephone=head.telephone,
        email=head.email,
        pay=head.pay,
    )


def owner_of(ground: PaperGround) -> PartyView:
    """Whose papers they are."""
    card = ground.things.find(ground.account.person)
    name = ground.names.get(ground.account.person) or ground.account.person
    return PartyView(name, _said(card, "town"), address=_said(card, "address"))


def _said(card: Thing | None, label: LabelName) -> str:
    return card.text(label) if card is not None else ""


def tree_of(tree: Tree, ground: PaperGround) -> PaperTreeView:
    """A tree as a paper names it."""
    species = ground.species.get(tree.handle)
    return PaperTreeView(
        tree.handle,
        tree.title,
        tree.kind,
        tree.cultivar,
        species.botanical if species is not None else "",
        {label: str(measure) for label, measure in tree.sizes.items()},
    )


def events_of_visit(one: VisitAccount, until: date = date.max) -> list[Event]:
    """What counts of a visit, until a day."""
    found = (entry.event for entry in counted(one.visit.entries))
    return [event for event in found if event.day <= until]


def done_in(one: VisitAccount, ground: PaperGround) -> tuple[DoneLine, ...]:
    """What was done on a visit, in plain words."""
    works = [event for event in events_of_visit(one) if is_work(event)]
    return done_lines(works, called_in(ground.things), ground.today.year)
