"""Parts what lists thousands of trees into pages of their own, so that each opens at once: the own
trees by their letters, the week on paper by its places."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.pages import links
from backbud.pages.find import lettered
from backbud.pages.printed.week import WeekSheet, sheet
from backbud.pages.templating import page
from backbud.views.tree import TreesView
from backbud.views.week_on_paper import PlaceThisWeek, WeekOnPaper

# More own trees on a page, and more boxes to tick, are slow to open and to print; ours.
MOST_ROWS, MOST_BOXES = 2000, 1500


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


def parts_of_trees(shown: TreesView) -> Iterator[tuple[str, TreesView]]:
    """The pages of very many own trees, one for each letter; none where one page has room for all
    of them."""
    if len(shown.own) > MOST_ROWS:
        for letter, some in lettered(shown.own):
            yield links.letter_page(letter), TreesView(some, (), ())


def own_on_one_page(own: Sequence[Tree]) -> bool:
    """Whether the page of all trees lists them, and does not only lead to their letters."""
    return len(own) <= MOST_ROWS


def with_parts(path: str, made: bytes | Iterable[tuple[str, bytes]]) -> Iterable[tuple[str, bytes]]:
    """What a sheet gave, page by page."""
    return [(path, made)] if isinstance(made, bytes) else made
