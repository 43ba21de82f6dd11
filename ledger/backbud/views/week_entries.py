"""What a week's entries are: works that stand together, or alone, as frozen data."""

from __future__ import annotations

from datetime import date
from typing import Literal

from msgspec import Struct

from backbud.plan.followups import Reason
from backbud.species import Foretold
from backbud.species.weight import WORST_FIRST, AtStake

# How entries of a week are put together.
JointSort = Literal["must", "may", "kind", "chances", "place", "places", "late", "foretold"]


class WeekWork(Struct, frozen=True, gc=False):
    """An open work as a week's entries are made from it.

    `work`: what sort of work it is, the same for all trees; `named`: this in words; `title`: the
    work as a person says it. `tree`: its handle; `called`: the tree, as briefly as it can be told.
    `place`: where it stands by first handle, "" for nowhere; `place_name`: what people call that.
    `alone`: it has an entry of its own. `late`: it is past its time. `foretold`: what of a forecast
    it is asked for against; `group`: its rule, and the year that it is of. `stays_on`: a shelter
    that is put on at once and stays until it closes. `in_round`: a look that nothing grows worse
    by for a week or two, so that it may be taken with others of its place.
    """

    id: str
    work: str
    named: str
    title: str
    tree: str
    called: str
    kind: str
    place: str
    place_name: str
    opens: date
    best: date
    closes: date
    minutes: int
    cautions: tuple[str, ...]
    because: tuple[Reason, ...]
    at_stake: AtStake
    must: bool
    alone: bool
    late: bool
    foretold: Foretold | None = None
    group: str = ""
    stays_on: bool = False
    in_round: bool = False

    @property
    def rank(self) -> tuple[int, date, str]:
        """The worst first, then by the day it closes, then by tree."""
        return WORST_FIRST.index(self.at_stake), self.closes, self.id


class WeekEntry(Struct, frozen=True):
    """Works that stand together in the calendar from the `first` day to the `last`.

    `sort`: what a forecast asks for at a place (foretold), musts of one work at a place (must),
    chances of one work and kind (may), all chances of a kind (kind) or of a week (chances), all
    musts of a place (place) or of several (places), or all that is past its time (late). `name`:
    what it is told apart by, the same while it stands for the same work, place or kind and week, or
    for what a forecast may hold of a year. `works`: the worst first. `work`, `kind`, `place`,
    `place_name`: what they have in common, "" where they differ.
    """

    sort: JointSort
    name: str
    first: date
    last: date
    works: tuple[WeekWork, ...]
    work: str = ""
    kind: str = ""
    place: str = ""
    place_name: str = ""

    @property
    def trees(self) -> tuple[str, ...]:
        """The trees, each once, in the order of their works."""
        return tuple(dict.fromkeys(one.called for one in self.works))


class WeeksView(Struct, frozen=True):
    """The keeper's calendar: the ids of the works that stand alone, and what stands together."""

    alone: tuple[str, ...]
    together: tuple[WeekEntry, ...]
