"""Lays out what the pots drink, for the page of the weather: by place, the most thirsty first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec import Struct

from backbud.bench.water import ESTIMATE
from backbud.pages.amounts import half_gone, litres
from backbud.pages.drawings import thirst
from backbud.pages.drawings.axes import Drawing
from backbud.pages.links import link, tree_page
from backbud.plan.vessels import VESSEL_FIGURES
from backbud.plan.water import TooLittle, TreeWater, WaterWeek
from backbud.tongue import phrase
from backbud.views.nursery import Nursery
from backbud.words import between, number, sentence

# So many trees of a place stand in its table, the thirstiest.
MOST_THIRSTY = 10


class TreeRow(Struct, frozen=True):
    """A tree's water as shown."""

    title: str
    page: str
    now: str
    half: str
    week: str
    hot: str
    hot_half: str
    guessed: str


class PlacePart(Struct, frozen=True):
    """A place's water as shown, with the thirstiest of its trees; `more`: in words the others,
    whose water stands on their pages."""

    name: str
    now: str
    week: str
    hottest: str
    hottest_day: str
    rows: tuple[TreeRow, ...]
    more: str


class Missing(Struct, frozen=True):
    """Trees of which the same is to be written down, each with the way to its page."""

    trees: tuple[tuple[str, str], ...]
    to_write: str


class WaterPart(Struct, frozen=True):
    """The water of all trees."""

    estimate: str
    drawing: Drawing | None
    now: str
    week: str
    places: tuple[PlacePart, ...]
    missing: tuple[Missing, ...]
    missing_trees: int
    notes: tuple[str, ...]


def water_part(view: Nursery) -> WaterPart:
    water, today = view.weather.water, view.today
    titles = {tree.handle: tree.title for tree in view.trees}
    places = tuple(
        PlacePart(
            sentence(view.name(place.place) or phrase("no place written down")),
            litres(place.litres_now),
            litres(place.litres_week),
            between(place.hottest_first, place.hottest_last, today.year),
            litres(place.hottest_litres / 7),
            tuple(_tree(titles, water.trees[handle]) for handle in place.trees[:MOST_THIRSTY]),
            _more([water.trees[handle] for handle in place.trees[MOST_THIRSTY:]]),
        )
        for place in water.places
    )
    return WaterPart(
        phrase(ESTIMATE),
        _thirst(water.weeks, today),
        litres(view.weather.litres_now),
        litres(view.weather.litres_week),
        places,
        tuple(
            Missing(
                tuple((titles.get(tree, tree), link(tree_page(tree))) for tree in trees), to_write
            )
            for to_write, trees in _wanted(water.too_little).items()
        ),
        len(water.too_little),
        tuple(_notes(view)) if places else (),
    )


def _wanted(missing: Sequence[TooLittle]) -> dict[str, list[str]]:
    """What is to be written down, and of which trees; what most trees want first."""
    found: dict[str, list[str]] = {}
    for one in missing:
        found.setdefault(one.to_write, []).append(one.tree)
    return dict(sorted(found.items(), key=lambda item: -len(item[1])))


def _more(others: Sequence[TreeWater]) -> str:
    if not others:
        return ""
    drink = litres(sum(one.litres_now for one in others))
    return phrase(
        "{trees}, {drink} a day now: each has it on its page.",
        trees=number(len(others), "more tree"),
        drink=drink,
    )


def _thirst(weeks: tuple[WaterWeek, ...], today: date) -> Drawing | None:
    if not weeks:
        return None
    return thirst.draw("water", phrase("Water that all trees together lose, by week"), weeks, today)


def _tree(titles: dict[str, str], one: TreeWater) -> TreeRow:
    return TreeRow(
        titles.get(one.tree, one.tree),
        link(tree_page(one.tree)),
        litres(one.litres_now),
        half_gone(one.days_until_half),
        litres(one.litres_week),
        litres(one.hottest.litres_a_day),
        half_gone(one.hottest.days_until_half),
        "; ".join(one.guessed),
    )


def _notes(view: Nursery) -> Iterator[str]:
    water = view.weather.water
    titles = {tree.handle: tree.title for tree in view.trees}
    yield (
        phrase(
            "Litres lost: reference evapotranspiration (FAO Irrigation and "
            "Drainage Paper 56) × canopy factor × canopy area × what the cover "
            "leaves. The factors are common practice, no source."
        )
    )
    yield (
        phrase(
            "What was not measured goes by a rule of thumb that stands under the tree: "
            "common practice, no source, and each a setting ({names}).",
            names=", ".join(figure.name for figure in VESSEL_FIGURES),
        )
    )
    yield phrase("No rain is counted on for the days ahead.")
    if [*water.methods] == ["Hargreaves"]:
        yield phrase(
            "All by Hargreaves; of {days} since the drawing begins by what was measured.",
            days=number(water.methods["Hargreaves"], "day"),
        )
    elif water.methods:
        by = ", ".join(
            phrase("{days} by {name}", days=number(days, "day"), name=name)
            for name, days in water.methods.items()
        )
        yield phrase(
            "Of the days measured since the drawing begins: {by}. The rest by Hargreaves.", by=by
        )
    else:
        yield phrase(
            "No day since the drawing begins was measured: all by Hargreaves from the climate."
        )
    if water.planted_out:
        names = ", ".join(titles.get(handle, handle) for handle in water.planted_out)
        yield phrase("Planted out in open ground, so not reckoned: {names}.", names=names)
