"""A whole journal on a day as data: what a program is given of it, as some eyes may have it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from decimal import Decimal

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.state import Entry
from backbud.views.audience import Audience
from backbud.views.listed import ListedPlace, ListedPot
from backbud.views.people import PersonView
from backbud.views.shelf import ShelfView
from backbud.views.tree import TreeView
from backbud.views.visit import AccountView


class DetailView(Struct, frozen=True, gc=False):
    """One detail of a line, by its type: what `name` it goes by, the `words`, the `measure` as a
    person writes it, its first `number` (of a range the middle) in `unit`, the other end `per` of
    a rate, how many (`count`), and the `part` of the tree."""

    name: str
    words: str
    measure: str
    number: Decimal | None
    unit: str
    per: str
    count: int
    part: str


class DatasetView(Struct, frozen=True, kw_only=True):
    """A journal on a day.

    `journal`, `journal_id`: what it is called, and the id of the settings; "" where nobody is to
    be told. `eyes`: keeper, helper, owner (the `person`) or public. `trees`: all of them, those
    that are gone too; `details`: of each tree, for each line of its history the details by their
    types, in the same order: the keeper's alone. Of places and pots the keeper and helpers are
    told, of people and accounts the keeper alone. `shelf`: null where these eyes are not to read
    it.
    """

    journal: str
    journal_id: str = ""
    on: date
    eyes: str
    person: str = ""
    trees: tuple[TreeView, ...]
    details: dict[str, tuple[tuple[DetailView, ...], ...]] = {}
    places: tuple[ListedPlace, ...] = ()
    pots: tuple[ListedPot, ...] = ()
    people: tuple[PersonView, ...] = ()
    shelf: ShelfView | None = None
    accounts: tuple[AccountView, ...] = ()


def as_seen(whole: DatasetView, audience: Audience, called: Callable[[str], str]) -> DatasetView:
    """The same as some eyes may have it. `called`: what a tree is called that has no name left, by
    its handle; it must not tell which tree it is."""
    eyes = audience.eyes
    trees = (
        seen if seen.tree else replace(seen, tree=called(one.tree), photographs=())
        for one in whole.trees
        if (seen := audience.tree(one)) is not None
    )
    return replace(
        whole,
        eyes=eyes.sort,
        person=eyes.person,
        journal=audience.readable(whole.journal),
        journal_id=audience.keepers(whole.journal_id, ""),
        trees=tuple(trees),
        details=audience.keepers(whole.details, {}),
        places=audience.of_the_house(whole.places),
        pots=audience.of_the_house(whole.pots),
        people=audience.people(whole.people),
        shelf=audience.shelf(whole.shelf) if whole.shelf is not None else None,
        accounts=audience.keepers(whole.accounts, ()),
    )


def typed_details(history: Iterable[Entry]) -> tuple[tuple[DetailView, ...], ...]:
    """The typed details of each line of a tree's history."""
    return tuple(tuple(_details(one)) for one in history)


def _details(entry: Entry) -> Iterator[DetailView]:
    for one in entry.event.details:
        measure = one.measure
        yield DetailView(
            one.name,
            one.words or one.handle,
            str(measure) if measure is not None else "",
            measure.number if measure is not None else None,
            measure.unit if measure is not None else "",
            measure.per if measure is not None else "",
            measure.count if measure is not None else 1,
            one.part,
        )
