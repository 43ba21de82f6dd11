"""Gathers what the papers of a person are made from: their visits, and what their trees will ask
for where they go home to, by the weather there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from functools import partial

from backbud.collection.bookings import counted
from backbud.collection.fold import each_after
from backbud.collection.state import OnTree, Tree
from backbud.journal.things import Thing
from backbud.memo import Identical
from backbud.plan.common.quarantine_ends import QUARANTINE_DAYS, apart_for
from backbud.plan.elsewhere import Elsewhere
from backbud.plan.run import Plan
from backbud.plan.unpaid import PAYMENT_DAYS
from backbud.plan.vessels import pot_of_card
from backbud.session import Session
from backbud.tongue import phrase
from backbud.views.paper import PapersView
from backbud.views.paper_ground import PaperGround
from backbud.views.papers_made_out import papers_view
from backbud.views.photograph import PhotographView
from backbud.views.statement import is_told_now, visits_told
from backbud.visits.account import Account, VisitAccount
from backbud_grammar.act_words import LabelName

# A place's own weather: with none of these it goes by that of the places around it, or of home.
_OWN_WEATHER: tuple[LabelName, ...] = ("weather", "low", "high", "town", "latitude")

# The slot of what a tree will ask for where it goes home to.
AT_HOME = "at home"


def papers_of(session: Session, person: str, tree: str = "") -> PapersView | None:
    """The papers of a person, or those about one tree of theirs; None where no tree of theirs was
    ever here, and nothing was billed or paid."""
    account = next((one for one in session.reckoned_accounts if one.person == person), None)
    if account is None:
        return None
    view = papers_view(_paper_ground(session, session.plan(), account, elsewhere_of(session)), tree)
    return session.forgotten.told(view)


def papers_now(session: Session, plan: Plan) -> tuple[PapersView, ...]:
    """The papers of each person who has a tree here, had one within two months, or has something
    open."""

    elsewhere = elsewhere_of(session)

    def told(account: Account) -> PapersView | None:
        if not is_told_now(account, session.today):
            return None
        ground = _paper_ground(session, plan, account, elsewhere)
        return session.forgotten.told(papers_view(ground))

    found = (
        session.kept.once(
            ("papers of", account.person),
            _looked_at(session, plan, account),
            partial(told, account),
        )
        for account in session.reckoned_accounts
        if all(one.visit.tree.handle in plan.trees for one in account.visits)
    )
    return tuple(one for one in found if one is not None)


def going_home(session: Session) -> Mapping[str, str]:
    """The trees of which papers tell now what they will ask for where they go home to, and where
    that is, "" for home; not those that go to two places."""
    places: dict[str, set[str]] = {}
    for account in session.reckoned_accounts:
        if is_told_now(account, session.today):
            place, _ = _home_of(session, account)
            for one in visits_told(account, session.today):
                places.setdefault(one.visit.tree.handle, set()).add(place)
    return {handle: min(found) for handle, found in places.items() if len(found) == 1}


def _looked_at(session: Session, plan: Plan, account: Account) -> tuple[object, ...]:
    """All that the papers of a person are made from: what is of no tree stands in the world."""
    by_tree, things = session.by_tree, session.journal.things
    handles = list(dict.fromkeys(one.visit.tree.handle for one in account.visits))
    trees = [plan.trees[handle] for handle in handles]
    return (
        by_tree.world,
        Identical(account, things, session.names(), *trees),
        Identical(*(plan.follow_ups[handle] for handle in handles)),
        Identical(*(plan.species[handle] for handle in handles)),
        [by_tree.own(handle, session.histories, things) for handle in handles],
        [session.photographs_of(tree) for tree in trees],
    )


def elsewhere_of(session: Session) -> Elsewhere:
    """Plans trees as their owners will keep them."""
    return Elsewhere(
        session.journal,
        session.histories,
        session.pack.find,
        session.weather,
        session.today,
        session.plugins.rules,
    )


def _paper_ground(
    session: Session, plan: Plan, account: Account, elsewhere: Elsewhere
) -> PaperGround:
    """What all papers of a person are made from, on the session's day."""
    journal, today = session.journal, session.today
    settings, things = journal.settings, journal.things
    visits = visits_told(account, today)
    handles = list(dict.fromkeys(one.visit.tree.handle for one in visits))
    trees = {handle: plan.trees[handle] for handle in handles}
    place, home = _home_of(session, account)
    return PaperGround(
        house=settings.name,
        keeper=settings.keeper,
        account=account,
        trees=trees,
        arrived={_key(one): _as_it_came(session, one) for one in visits},
        came_with={_key(one): _came_with(session, one) for one in visits},
        apart_until={_key(one): until for one in visits if (until := _apart_until(session, one))},
        species=plan.species,
        plans=plan.follow_ups,
        at_home={
            handle: session.by_tree.once(
                AT_HOME,
                handle,
                session.histories,
                things,
                partial(elsewhere.planned, handle, place),
                place,
            )
            for handle in handles
        },
        home=home,
        names=session.names(),
        things=things,
        letterhead=settings.letterhead,
        photographs={handle: _for_owner(session, trees[handle]) for handle in handles},
        pot_depths=_depths(session, trees.values()),
        tax=settings.tax,
        payment_days=round(PAYMENT_DAYS.among(settings.figures)),
        today=today,
    )


def _home_of(session: Session, account: Account) -> tuple[str, str]:
    """Where an owner's trees go home to, a place's handle or "", and by whose weather the dates of
    a care sheet are, in words."""
    things = session.journal.things
    card = things.find(account.person)
    place = things.find(card.text("place")) if card is not None and card.text("place") else None
    if place is not None and _has_weather(place):
        return place.handle, phrase("the weather of {title}", title=place.title)
    ours = things.find(session.journal.settings.home)
    named = ours.title if ours is not None else phrase("our place")
    return place.handle if place is not None else "", (
        phrase(
            "the weather here, at {named}; where you live higher or colder, in "
            "spring a week or two later, in autumn as much earlier",
            named=named,
        )
    )


def _has_weather(place: Thing) -> bool:
    return any(place.detail(label) for label in _OWN_WEATHER)


def _as_it_came(session: Session, one: VisitAccount) -> Tree:
    """A tree at the end of the day it came, which is the day of its receipt; as its visit left it,
    where nobody says when."""
    came = one.visit.came
    if came is None:
        return one.visit.tree
    handle = one.visit.tree.handle
    entries = session.histories.trees[handle].entries
    count = sum(entry.event.day <= came for entry in entries)
    things = session.journal.things
    return dict(each_after(session.histories, things, handle, (count,)))[count]


def _came_with(session: Session, one: VisitAccount) -> tuple[OnTree, ...]:
    """What was on a tree as it came, before anything was taken off it on that day."""
    if one.visit.came is None:
        return one.visit.tree.on_tree
    handle, things = one.visit.tree.handle, session.journal.things
    entries = session.histories.trees[handle].entries
    found = (
        n
        for n, entry in enumerate(entries, 1)
        if entry.event.day == one.visit.came and entry in one.visit.entries
    )
    at = next(found, len(entries))
    return dict(each_after(session.histories, things, handle, (at,)))[at].on_tree


def _key(one: VisitAccount) -> tuple[str, date | None]:
    return one.visit.tree.handle, one.visit.came


def _apart_until(session: Session, one: VisitAccount) -> date | None:
    """Until when a tree that was put apart on the day it came was to stay there."""
    settings = session.journal.settings
    days = round(QUARANTINE_DAYS.among(settings.figures))
    put = [
        entry.event
        for entry in counted(one.visit.entries)
        if entry.event.act == "quarantined" and entry.event.day == one.visit.came
    ]
    return apart_for(put[-1], days, southern=session.journal.southern).best if put else None


def _for_owner(session: Session, tree: Tree) -> tuple[PhotographView, ...]:
    """The photographs that a tree's owner may see."""
    return tuple(one for one in session.photographs_of(tree) if one.for_owner)


def _depths(session: Session, trees: Iterable[Tree]) -> dict[str, float]:
    """How deep the pot of each tree is, in cm, where its card says so."""
    found = {}
    for tree in trees:
        card = session.journal.things.find(tree.pot) if tree.pot else None
        pot = pot_of_card(card, session.journal.settings.figures)[0] if card is not None else None
        if pot is not None:
            found[tree.handle] = pot.depth_cm
    return found
