"""Puts a journal as data into tables: which there are, what each column means, and their rows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from backbud.data.money_tables import money_tables
from backbud.data.table import Cell, DataTable, cell, figure_column, text, whole
from backbud.data.tree_tables import tree_tables
from backbud.data.work_tables import work_tables
from backbud.views.dataset import DatasetView

# The version of the tables; columns and tables are only added. Also `PRAGMA user_version`.
VERSION = 1

_ABOUT = (text("what", "what is told"), text("value", "what it is"))
_PLACES = (
    text("place", "its handle"),
    text("name", "what people call it"),
    text("within", "the place that it is within", "places"),
    text("cover", "what is over it, as written"),
)
_POTS = (
    text("pot", "its handle"),
    text("name", "what people call it"),
    text("shape", "its shape, as written"),
    text("inside", "its inner measures, as written"),
    text("outside", "its outer measures, as written"),
    figure_column("volume_litres", "what it holds up to the rim gap of the settings"),
    text("volume_by", "what was taken for granted in that"),
    text("colour", "its colour, as written"),
)
_PEOPLE = (
    text("person", "the handle"),
    text("name", "what they are called"),
    text("contact", "as written on the card"),
    text("town", "as written on the card"),
    text("experience", "as written on the card"),
)
_MATERIALS = (
    text("material", "its handle, or its name where it has no card"),
    text("name", "what people call it"),
    text("unit", "in which it is counted: L, kg, m or piece"),
    figure_column(
        "on_hand", "how much is there, in that unit; at most that where uses are unknown"
    ),
    figure_column("bought", "how much was ever bought, in that unit"),
    figure_column("used_in_a_year", "in the last 365 days, in that unit"),
    whole("uses_not_taken_off", "how many uses are not in it"),
    text("price", "of one as sold"),
    text("currency", "ISO 4217 code of the price"),
)


def tables_of(data: DatasetView) -> tuple[DataTable, ...]:
    """Every table; what a table references comes before it."""
    return (
        _about(data),
        DataTable("people", "Everybody with a card, and who owns a tree.", _PEOPLE, ("person",),
                  tuple(_people(data))),
        DataTable("places", "The places, those outside first.", _PLACES, ("place",),
                  tuple(_places(data))),
        DataTable("pots", "The pots.", _POTS, ("pot",), tuple(_pots(data))),
        *tree_tables(data),
        *work_tables(data),
        DataTable("materials", "What is on the shelf.", _MATERIALS, ("material",),
                  tuple(_materials(data))),
        *money_tables(data),
    )  # fmt: skip


def _about(data: DatasetView) -> DataTable:
    rows = (
        ("journal", cell(data.journal)),
        ("day", cell(data.on)),
        ("eyes", data.eyes),
        ("person", cell(data.person)),
        ("version of the tables", str(VERSION)),
    )
    return DataTable("about", "What this is, and of which day.", _ABOUT, ("what",), rows)


def _people(data: DatasetView) -> Iterator[tuple[Cell, ...]]:
    known = {one.person: one for one in data.people}
    owners = {one.owner: one.owner_name for one in data.trees if one.owner}
    owners |= {one.person: one.name for one in data.accounts}
    for person in sorted({*known, *owners}):
        one = known.get(person)
        if one is None:
            yield (person, cell(owners[person]), None, None, None)
        else:
            said = (one.name, one.contact, one.town, one.experience)
            yield (person, *map(cell, said))


def _places(data: DatasetView) -> Iterator[tuple[Cell, ...]]:
    line: list[str] = []
    for one in data.places:
        del line[one.depth :]
        yield (one.place, cell(one.name), line[-1] if line else None, cell(one.cover))
        line.append(one.place)
    listed = {one.place for one in data.places}
    named = ((one.place, one.place_name) for one in data.trees)
    yield from ((place, cell(name), None, None) for place, name in _others(named, listed))


def _pots(data: DatasetView) -> Iterator[tuple[Cell, ...]]:
    for one in sorted(data.pots, key=lambda one: one.pot):
        yield (one.pot, cell(one.name), cell(one.shape), cell(one.inside), cell(one.outside),
               cell(one.litres), cell(one.litres_by), cell(one.colour))  # fmt: skip
    listed = {one.pot for one in data.pots}
    named = ((one.pot, one.pot_name) for one in data.trees)
    for pot, name in _others(named, listed):
        yield (pot, cell(name), *[None] * 6)


def _others(named: Iterable[tuple[str, str]], listed: set[str]) -> list[tuple[str, str]]:
    """What trees name and no card is told of here."""
    return sorted({(handle, name) for handle, name in named if handle and handle not in listed})


def _materials(data: DatasetView) -> Iterator[tuple[Cell, ...]]:
    if data.shelf is None:
        return
    for one in sorted(data.shelf.shelf, key=lambda one: one.material):
        price = (cell(one.price), cell(data.shelf.currency if one.price is not None else ""))
        yield (one.material, cell(one.name), one.unit, cell(one.on_hand), cell(one.bought),
               cell(one.used_in_a_year), one.uses_not_taken_off, *price)  # fmt: skip
