"""A tree, a day and the places go in; the growing year at the tree's place comes out."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from backbud.collection.state import Tree
from backbud.journal.settings import Settings
from backbud.journal.things import Thing, Things
from backbud.species import MonthDay, Species, Year
from backbud_grammar.dates import growing_year, growing_year_days

# What `bloomed` says of the BBCH stage of flowering.
BLOOM_STAGES = {"first": 60, "full": 65, "over": 69}


def year_of(
    tree: Tree, day: date, species: Species | None, things: Things, settings: Settings,
    southern: bool,
) -> Year:
    """Return the growing year that holds the day, at the place where the tree stands."""
    first, last = growing_year_days(day, southern)
    place = things.find(tree.place) if tree.place else None
    home = things.find(settings.home) if settings.home else None
    here = place or home
    low, high = _means(here, "low", things, home), _means(here, "high", things, home)
    stages: Mapping[int, tuple[MonthDay, MonthDay, MonthDay]] = (
        species.stage_months if species else {}
    )
    return Year(
        growing_year(day, southern), first, last, southern, here.title if here else "",
        _cover(here, things), low, high, stages_seen(tree, first, last), stages, settings.figures,
    )


def stages_seen(tree: Tree, first: date, last: date) -> dict[int, date]:
    """The growth stages that the diary says were seen in these days, the first day of each."""
    seen: dict[int, date] = {}
    for entry in tree.history:
        event = entry.event
        if not (first <= event.day <= last and event.exact):
            continue
        if event.act == "staged" and (measure := event.measure("stage")) is not None:
            seen.setdefault(int(measure.number), event.day)
        elif event.act == "bloomed":
            for word, stage in BLOOM_STAGES.items():
                if event.says(word):
                    seen.setdefault(stage, event.day)
    return seen


def _outward(place: Thing | None, things: Things) -> list[Thing]:
    """The place and the places it is within, from the inside out."""
    out: list[Thing] = []
    while place is not None and place not in out:
        out.append(place)
        within = place.text("within")
        place = things.find(within) if within else None
    return out


def _means(place: Thing | None, label: str, things: Things, home: Thing | None
           ) -> tuple[float, ...]:
    """Twelve monthly means in °C: the place's own, or of what it is within, or of the home."""
    for at in (*_outward(place, things), *_outward(home, things)):
        measure = at.measure(label)
        if measure is not None:
            return measure.sizes_in("C")
    return ()


def _cover(place: Thing | None, things: Things) -> str:
    for at in _outward(place, things):
        if at.text("cover"):
            return at.text("cover")
    return ""
