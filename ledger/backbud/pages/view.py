"""What the pages are made from: the collection and its plan on one day, with names to show."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.pages.skies import Weather
from backbud.plan.followups import FollowUp
from backbud.plan.stores import Stores
from backbud.species import Section


class SpeciesFact(Struct, frozen=True):
    """One fact of a species as shown, and where it comes from."""

    label: str
    value: str
    source: str


class SpeciesFacts(Struct, frozen=True):
    """What the pages show of a species. `title`: the common name; `botanical`: no cultivar."""

    title: str
    botanical: str
    facts: tuple[SpeciesFact, ...] = ()


class Nursery(Struct, frozen=True):
    """Everything the pages show.

    `title`: of the journal. `home`: the home place's name. `trees`: all, also those gone.
    `plans`: by the tree's handle, every follow-up, open and settled. `names`: handles of people,
    places, pots and mixes to the names shown; a handle without one is shown itself.
    `species`: by the tree's handle. `problems`: each as `backbud check` shows it. `weather`: of
    each place, and the water that the trees ask for. `sections`: by the tree's handle, what the
    journal's plugins write for its page. `hours_per_week`: what the keeper has, 0 where nobody
    says.
    `stores`: what is on hand and to buy; prices, so for the keeper's eyes. `bites`: by the tree's
    handle, for each thing on it the day it is reckoned to bite.
    """

    title: str
    today: date
    home: str
    trees: tuple[Tree, ...] = ()
    plans: Mapping[str, tuple[FollowUp, ...]] = {}
    names: Mapping[str, str] = {}
    species: Mapping[str, SpeciesFacts] = {}
    problems: tuple[str, ...] = ()
    weather: Weather = Weather()
    sections: Mapping[str, tuple[Section, ...]] = {}
    hours_per_week: float = 0.0
    stores: Stores = Stores()
    bites: Mapping[str, tuple[date | None, ...]] = {}

    def name(self, handle: str) -> str:
        """The name a person reads for the handle of a person, a place, a pot or a mix."""
        return self.names.get(handle) or handle
