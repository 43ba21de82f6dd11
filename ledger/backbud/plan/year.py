"""A place, a day and a species go in; the growing year there comes out.

What a model of the weather knows of a place comes in here, through `Year`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from msgspec import Struct

from backbud.collection.places import cover_of, is_winter_cover, outward
from backbud.collection.state import Entry, Tree
from backbud.journal.settings import Settings
from backbud.journal.things import Thing, Things
from backbud.species import Species, Year
from backbud_grammar.dates import growing_year, growing_year_days

# What `bloomed` says of the BBCH stage of flowering.
BLOOM_STAGES = {"first": 60, "full": 65, "over": 69}
# A tree that long under winter cover lives there.
LIVES_THERE = timedelta(days=300)

# The days on which growth stages were seen on a tree, in order.
Seen = Sequence[tuple[date, int]]


class _Site(Struct, frozen=True):
    title: str
    cover: str
    low_c: tuple[float, ...]
    high_c: tuple[float, ...]


class Years:
    """The growing years of a journal's places."""

    def __init__(self, things: Things, settings: Settings, southern: bool) -> None:
        self.things, self.settings, self.southern = things, settings, southern
        self.home = things.find(settings.home) if settings.home else None
        self._sites: dict[str, _Site] = {}

    def at(self, place: str, day: date, species: Species | None, seen: Seen) -> Year:
        """Return the growing year that holds the day, at a place ("" is the home place)."""
        first, last = growing_year_days(day, self.southern)
        site = self._site(place)
        stages: dict[int, date] = {}
        for on, stage in seen:
            if first <= on <= last:
                stages.setdefault(stage, on)
        return Year(
            growing_year(day, self.southern),
            first,
            last,
            self.southern,
            site.title,
            site.cover,
            site.low_c,
            site.high_c,
            stages,
            species.stage_months if species else {},
            self.settings.figures,
            (species or Species).wire_check_weeks.value,
        )

    def usual_place(self, tree: Tree, today: date) -> str:
        """Where a tree will stand in the seasons to come: not where it only winters."""
        place = self.things.find(tree.place) if tree.place else None
        came = tree.last_of("moved", "quarantined")
        wintering = came is not None and today - came.day < LIVES_THERE
        if tree.outside and wintering and is_winter_cover(cover_of(place, self.things)):
            return tree.outside
        return tree.place

    def _site(self, handle: str) -> _Site:
        if handle not in self._sites:
            place = self.things.find(handle) if handle else None
            here = place or self.home
            self._sites[handle] = _Site(
                here.title if here else "",
                cover_of(here, self.things),
                self._means(here, "low"),
                self._means(here, "high"),
            )
        return self._sites[handle]

    def _means(self, place: Thing | None, label: str) -> tuple[float, ...]:
        """Twelve monthly means in °C: the place's own, or of what it is within, or of the home."""
        for at in (*outward(place, self.things), *outward(self.home, self.things)):
            measure = at.measure(label)
            if measure is not None:
                return measure.sizes_in("C")
        return ()


def stages_seen(history: Iterable[Entry]) -> Seen:
    """Return every growth stage that the diary says was seen, with its day, in order."""
    seen: list[tuple[date, int]] = []
    for entry in history:
        event = entry.event
        if event.act not in ("staged", "bloomed") or not event.exact or entry.undone:
            continue
        measure = event.measure("stage")
        if measure is not None:
            seen.append((event.day, int(measure.number)))
        elif event.act == "bloomed":
            seen += [(event.day, stage) for word, stage in BLOOM_STAGES.items() if event.says(word)]
    return seen
