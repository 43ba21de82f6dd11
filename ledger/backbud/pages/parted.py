"""Parts what lists thousands of trees into pages of their own, so that each opens at once: the
trees by their letters, the week on paper by its places."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.pages import links
from backbud.pages.find import lettered
from backbud.pages.printed.week import WeekSheet, sheet
from backbud.pages.templating import page
from backbud.views.parts_apart import parts_apart
from backbud.views.tree import TreesView
from backbud.views.week_on_paper import PlaceThisWeek, WeekOnPaper

# More boxes to tick are slow to open and to print; ours.
MOST_BOXES = 1500


def week_pages(
    week: WeekOnPaper, journal: str, shared: dict[str, object]
) -> Iterator[tuple[str, bytes]]:
    """The week on paper; of very many boxes it leads to a page of each place. `journal`: what it is
    called."""

    def made(shown: WeekSheet) -> bytes:
        return page("week.html", shared, {"base": "../", "week": shown})

    whole = sheet(week, journal)
    if sum(len(row.trees) for place in whole.places for row in place.rows) <= MOST_BOXES:
        yield links.WEEK, made(whole)
        return
    paths = [links.week_page(place.place) for place in week.places]
    heads = tuple(
        replace(place, rows=(), page=links.link(path.rpartition("/")[2]))
        for place, path in zip(whole.places, paths, strict=True)
    )
    yield links.WEEK, made(replace(whole, places=heads, cautions=()))
    # Trees that are away and trees of no place known stand apart, and share the page of no place.
    by_path: dict[str, list[PlaceThisWeek]] = {}
    for path, place in zip(paths, week.places, strict=True):
        by_path.setdefault(path, []).append(place)
    for path, places in by_path.items():
        yield path, made(sheet(replace(week, places=tuple(places), waiting=0), journal))


def parts_of_trees(
    shown: TreesView, names: Mapping[str, str]
) -> dict[str, tuple[tuple[str, tuple[Tree, ...]], ...]]:
    """The parts of very many trees that have pages of their own, one for each letter: that of the
    owner's name in the part of other people's. `names`: what each person is called."""

    def owner(tree: Tree) -> str:
        return names.get(tree.owner) or tree.owner

    return {
        part: lettered(getattr(shown, part), *((owner,) if part == links.OTHERS else ()))
        for part in parts_apart(shown)
    }


def with_parts(path: str, made: bytes | Iterable[tuple[str, bytes]]) -> Iterable[tuple[str, bytes]]:
    """What a sheet gave, page by page."""
    return [(path, made)] if isinstance(made, bytes) else made
