"""All that the pages are made from: the collection, its plan and its weather on one day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.plan.followups import FollowUp
from backbud.plan.stores import Stores
from backbud.species import Section
from backbud.views.facts import SpeciesFacts
from backbud.views.history import LateView
from backbud.views.kind import KindView
from backbud.views.outline import OutlineView
from backbud.views.paper import PapersView
from backbud.views.people import PersonView
from backbud.views.photograph import PhotographView
from backbud.views.registers.register import RegisterView
from backbud.views.sky import Weather
from backbud.views.visit import AccountView


class Nursery(Struct, frozen=True):
    """The collection and its plan on one day, with names to show: for the keeper's eyes.

    `title`: of the journal. `home`: the home place's name. `trees`: all, also those gone.
    `plans`: by the tree's handle, every follow-up, open and settled. `names`: handles of people,
    places, pots and mixes to the names shown; a handle without one is shown itself.
    `species`: by the tree's handle. `problems`: each as `backbud check` shows it. `weather`: of
    each place, and the water that the trees ask for. `sections`: by the tree's handle, what the
    journal's plugins write for its page. `hours_per_week`: what the keeper has, 0 where nobody
    says.
    `stores`: what is on hand and to buy; prices, so for the keeper's eyes. `bites`: by the tree's
    handle, for each thing on it the day it is reckoned to bite. `photographs`: by the tree's
    handle, oldest first. `outlines`: by the tree's handle, that of its pot. `folders`: of
    each owner who has pages of their own, by handle, the folder they lie in. `registers`: for the
    keeper's eyes. `accounts`: of each person whose trees were here, `papers`: what goes with those
    that are, or with what is open; both with prices.
    `kinds`: by the common name of a kind, its growing year at home. `address`: where the pages are
    served, "" where the settings do not say. `first_handles`: of places and persons, where they
    were renamed too. `people`: as their cards have them. `hidden`: the names of who
    asked to be forgotten, by the number that stands for them. `handed_out`: of each folder that
    leaves the house, whose it is and its first page; `unshown`: the trees that are to be public,
    and are not for want of consent. `late`: by the tree's handle, its lines that were written long
    after their day, by where they stand.
    """

    title: str
    today: date
    home: str
    trees: tuple[Tree, ...] = ()
    plans: Mapping[str, Sequence[FollowUp]] = {}
    names: Mapping[str, str] = {}
    species: Mapping[str, SpeciesFacts] = {}
    problems: tuple[str, ...] = ()
    weather: Weather = Weather()
    sections: Mapping[str, tuple[Section, ...]] = {}
    hours_per_week: float = 0.0
    stores: Stores = Stores()
    bites: Mapping[str, tuple[date | None, ...]] = {}
    photographs: Mapping[str, tuple[PhotographView, ...]] = {}
    outlines: Mapping[str, OutlineView] = {}
    folders: Mapping[str, str] = {}
    registers: tuple[RegisterView, ...] = ()
    accounts: tuple[AccountView, ...] = ()
    papers: tuple[PapersView, ...] = ()
    kinds: Mapping[str, KindView] = {}
    address: str = ""
    first_handles: Mapping[str, str] = {}
    people: tuple[PersonView, ...] = ()
    hidden: Mapping[str, tuple[str, ...]] = {}
    handed_out: tuple[tuple[str, str], ...] = ()
    unshown: tuple[str, ...] = ()
    late: Mapping[str, Mapping[str, LateView]] = {}

    def name(self, handle: str) -> str:
        """The name a person reads for the handle of a person, a place, a pot or a mix."""
        return self.names.get(handle) or handle
