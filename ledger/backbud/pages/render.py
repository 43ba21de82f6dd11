"""Renders all pages of a journal on a day, and gives the stylesheet and pictures that they use.

`SHEETS` lists the pages of the whole journal; each tree has one of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import NamedTuple

from backbud.collection.state import Tree
from backbud.memo import NO_MEMO, Identical, Memo, WithinRun
from backbud.pages import (
    ahead,
    bench,
    kind,
    links,
    people,
    place,
    registers,
    stores,
    ways,
    weather,
    year,
    year_back,
)  # fmt: skip
from backbud.pages.find_page import FOUND, find_page, find_script, index_files
from backbud.pages.paper_pages import paper_pages
from backbud.pages.parted import week_pages, with_parts
from backbud.pages.printed import labels
from backbud.pages.templating import assets, page
from backbud.pages.tree_lists import tree_lists
from backbud.pages.tree_page import pages_of_each, tree_page_of
from backbud.pages.visit_pages import visit_pages
from backbud.tongue import full_day
from backbud.views.ahead import WaterAhead
from backbud.views.bench import OfTree, bench_view, of_tree
from backbud.views.day import open_works_of
from backbud.views.narrow import only_tree, own_inputs, without_trees
from backbud.views.nursery import Nursery
from backbud.views.paper import PapersView
from backbud.views.place import StandsThere, by_place, place_view, stands_there
from backbud.views.registers.register import RegisterView, csv_of
from backbud.views.week_on_paper import WeekOfTree, of_week, week_on_paper
from backbud.views.year_back import year_back_view


def render_pages(view: Nursery, kept: Memo = NO_MEMO) -> dict[str, bytes]:
    """Render the whole set: relative path to bytes, the same bytes for the same view.

    `kept`: what an earlier run of this process left.
    """
    return dict(pages_of(view, kept))


def pages_of(view: Nursery, kept: Memo = NO_MEMO) -> Iterator[tuple[str, bytes]]:
    """Render the whole set page by page, what the pages show first: path and bytes."""
    yield from sheets_of(view, kept)
    yield from pages_of_trees(view, view.trees, kept)


def pages_of_trees(
    view: Nursery, trees: Iterable[Tree], kept: Memo = NO_MEMO
) -> Iterator[tuple[str, bytes]]:
    """Render the page of each of these trees: path and bytes."""
    shared = shared_by_pages(view)
    # A tree's page is made from nothing but what is that tree's own.
    each = (only_tree(view, tree) for tree in trees)
    if kept is NO_MEMO:
        yield from pages_of_each(each, shared)
        return
    around = around_pages(view, shared, kept)
    for own in each:
        yield from kept.once(
            ("page", own.trees[0].handle),
            own_inputs(own, around),
            partial(tree_page_of, own, shared),
        )


def around_pages(view: Nursery, shared: dict[str, object], kept: Memo) -> object:
    """What stands for all that is no tree's own."""
    return kept.same("around pages", (without_trees(view), shared))


def sheets_of(view: Nursery, kept: Memo = NO_MEMO) -> Iterator[tuple[str, bytes]]:
    """Render every page but those of trees, and what goes with them: path and bytes."""
    kept = WithinRun(kept, {FOUND, _WEEKS})
    yield from assets().values()
    shared = shared_by_pages(view)
    around = around_pages(view, shared, kept)
    yield from index_files(view, kept)
    yield find_script()
    for path, sheet in SHEETS:
        yield from with_parts(path, sheet(view, shared, around, kept))
    for register in view.registers:
        path = links.register_csv(register.register)
        yield path, kept.once(path, (Identical(register),), partial(csv_of, register))
    yield from _parts_of_registers(view, shared, around, kept)
    yield from _papers(view, kept)
    yield from _places(view, shared, around, kept)
    yield from _all_labels(view, shared, around, kept)
    yield from _kinds(view, shared, around, kept)


def shared_by_pages(view: Nursery) -> dict[str, object]:
    """What every page of the set is shown."""
    return {
        "title": view.title,
        "home": view.home,
        "today": full_day(view.today),
        "today_iso": view.today.isoformat(),
        "has_people": bool(view.people),
        "assets": {name: path for name, (path, _) in assets().items()},
        "frame": "frame.html",
        "public": False,
        "has_visits": bool(view.accounts),
        "address": view.address,
        "ways": ways.every_page(),
        "handed": False,
        "credit": view.weather.ahead.credit,
    }


def helpers_sheets(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """What of the set a helper has: at the bench, the trees, each place, and the week on paper."""
    yield links.INDEX, _index(view, shared, around, kept)
    yield from tree_lists(view, shared, around, kept)
    yield from _week(view, shared, around, kept)
    yield from _places(view, shared, around, kept)


def _index(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    rows = tuple(_all_rows(view, around, kept))
    # The week on paper, made long after this page, needs no more of them.
    _weeks(view, around, kept, rows)
    found = [one.bench for one in rows]
    own = {
        "base": "",
        "bench": bench.sheet(bench_view(found, _walk(view), view.weather, view.today)),
        "problems": view.problems,
        "ways": ways.of_bench(),
        "trees": len(view.trees),
    }
    return page("index.html", shared, own)


class TreeRows(NamedTuple):
    """What one tree brings to the first page, and to the week on paper."""

    bench: OfTree
    week: WeekOfTree


def _all_rows(view: Nursery, around: object, kept: Memo) -> Iterator[TreeRows]:
    for tree in view.trees:
        yield rows_of_tree(view, tree, around, kept)


def rows_of_tree(view: Nursery, tree: Tree, around: object, kept: Memo) -> TreeRows:
    """What a tree of the view brings to the first page, and to the week on paper."""
    inputs = (Identical(around), Identical(tree), Identical(view.plans.get(tree.handle)))
    return kept.once(("rows", tree.handle), inputs, partial(_rows, view, tree))


# What the trees bring to the week on paper: in a run of all pages put together once.
_WEEKS = "weeks of trees"


def _weeks(
    view: Nursery, around: object, kept: Memo, rows: Iterable[TreeRows]
) -> tuple[WeekOfTree, ...]:
    plans = (view.plans.get(tree.handle) for tree in view.trees)
    inputs = (Identical(around), Identical(*view.trees), Identical(*plans))
    return kept.once(_WEEKS, inputs, lambda: tuple([one.week for one in rows]))


def _rows(view: Nursery, tree: Tree) -> TreeRows:
    own = only_tree(view, tree)
    works = open_works_of(own.plans.get(tree.handle, ()), tree, own.names, view.today)
    return TreeRows(of_tree(works, view.today), of_week(works, view.today))


def _walk(view: Nursery) -> list[str]:
    return [tree.handle for tree in view.trees]


def _week(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> tuple[tuple[str, bytes], ...]:
    """The week on paper, from the same rows as the first page."""
    found = _weeks(view, around, kept, _all_rows(view, around, kept))
    week = week_on_paper(found, _walk(view), view.today, kept)

    return kept.once(
        "week page",
        (Identical(around), week),
        lambda: tuple(week_pages(week, view.title, shared)),
    )


def _places(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The page of each place where a tree stands."""
    for handle, trees in by_place(view.trees).items():
        plans = {tree.handle: view.plans.get(tree.handle, ()) for tree in trees}
        water = next((one for one in view.weather.ahead.water if one.place == handle), None)
        yield kept.once(
            ("place", handle),
            (Identical(around), Identical(*trees), Identical(*plans.values()), water),
            partial(_place, view, shared, around, handle, trees, water, kept),
        )


def _all_labels(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The labels of the trees of each place."""
    for handle, trees in by_place(view.trees).items():
        yield kept.once(
            ("labels", handle),
            (
                Identical(around),
                [(tree.handle, tree.title, tree.kind, tree.cultivar) for tree in trees],
            ),
            partial(_labels, view, shared, handle, trees, kept),
        )


def _place(
    view: Nursery,
    shared: dict[str, object],
    around: object,
    handle: str,
    trees: Sequence[Tree],
    water: WaterAhead | None,
    kept: Memo,
) -> tuple[str, bytes]:
    stand = [tree_standing_there(view, tree, around, kept) for tree in trees]
    shown = place_view(handle, stand, view.names)
    own = {
        "base": "../",
        "place": place.sheet(shown, view.today),
        "water": ahead.water_said(water) if water is not None else "",
        "ways": ways.of_place(handle, shown.place_name, view.first_handles),
    }
    return links.place_page(handle), page("place.html", shared, own)


def tree_standing_there(view: Nursery, tree: Tree, around: object, kept: Memo) -> StandsThere:
    """What a tree of the view brings to the page of its place."""
    plan = view.plans.get(tree.handle, ())
    return kept.once(
        ("stands there", tree.handle),
        (Identical(around), Identical(tree), Identical(plan)),
        partial(stands_there, tree, plan, view.names, view.today),
    )


def _labels(
    view: Nursery, shared: dict[str, object], handle: str, trees: Sequence[Tree], kept: Memo
) -> tuple[str, bytes]:
    name = view.name(handle) if handle else ""
    own = {"base": "../../", "sheet": labels.sheet(handle, name, trees, view.address, kept)}
    return links.labels_page(handle), page("labels.html", shared, own)


def _kinds(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The page of each kind of tree of which something is known."""
    for path, (facts, trees) in kind.kinds(view.trees, view.species).items():
        known = view.kinds.get(facts.title)
        shown = kind.sheet(facts, trees, known, view.title, view.today)
        yield kept.once(
            ("kind", path),
            (Identical(around), shown),
            partial(_kind, shared, path, shown),
        )


def _kind(shared: dict[str, object], path: str, shown: kind.KindSheet) -> tuple[str, bytes]:
    return path, page("kind.html", shared, {"base": "../", "kind": shown})


def _weather(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    # Of the trees it shows what they are called, and what they drink.
    called = [(tree.handle, tree.title) for tree in view.trees]
    return kept.once(
        "weather page",
        (Identical(around), view.weather, called),
        lambda: page("weather.html", shared, {"base": "", "weather": weather.sheet(view)}),
    )


def _year(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    return page(
        "year.html", shared, {"base": "", "year": year.sheet(view, kept), "ways": ways.of_year()}
    )


def _year_back(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    back = year_back_view(view, kept)

    def made() -> bytes:
        shown = year_back.sheet(back, view.today)
        return page("year-back.html", shared, {"base": "", "back": shown})

    return kept.once("year back page", (Identical(around), back), made)


def _stores(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    return page(
        "stores.html",
        shared,
        {"base": "", "stores": stores.sheet(view), "most_works": stores.MOST_WORKS},
    )


def _people(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    own = {
        "base": "",
        "people": people.sheet(view.people),
        "ways": ways.of_people(view.people, view.first_handles),
    }
    return page("people.html", shared, own)


def _registers(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    def made() -> bytes:
        sheets = tuple(map(registers.sheet, view.registers))
        return page("registers.html", shared, {"base": "", "registers": sheets})

    return kept.once("registers page", (Identical(around, *view.registers),), made)


def _parts_of_registers(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The pages of the registers that are too long for one."""
    for register in view.registers:
        yield from kept.once(
            ("register", register.register),
            (Identical(around, register),),
            partial(_parts_of, register, shared),
        )


def _parts_of(register: RegisterView, shared: dict[str, object]) -> tuple[tuple[str, bytes], ...]:
    return tuple(
        (part.page, page("register.html", shared, {"base": "../", "part": part}))
        for part in registers.part_sheets(register)
    )


def _papers(view: Nursery, kept: Memo) -> Iterator[tuple[str, bytes]]:
    """The papers of each person, each a page of its own."""
    for one in view.papers:
        yield from kept.once(("papers", one.person), (one,), partial(_papers_of, one))


def _papers_of(view: PapersView) -> tuple[tuple[str, bytes], ...]:
    return tuple(paper_pages(view))


# The pages of the whole journal, in the order in which they are made; then each tree has its own.
# A sheet gives its page alone, or with the pages that it is parted into.
Sheet = Callable[[Nursery, dict[str, object], object, Memo], bytes | Iterable[tuple[str, bytes]]]
SHEETS: tuple[tuple[str, Sheet], ...] = (
    (links.INDEX, _index),
    (links.TREES, tree_lists),
    (links.WEATHER, _weather),
    (links.YEAR, _year),
    (links.YEAR_BACK, _year_back),
    (links.STORES, _stores),
    (links.PEOPLE, _people),
    (links.REGISTERS, _registers),
    (links.VISITS, visit_pages),
    (links.WEEK, _week),
    (links.FIND, find_page),
)
