"""Lays out the page of a kind of tree: what is alike for all trees of it, its year, and its trees.

The year is drawn and told on one sheet of paper.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from msgspec import Struct

from backbud import words
from backbud.collection.state import Tree
from backbud.pages.botanical import Run, botanical_runs
from backbud.pages.drawings.window_line import year_line
from backbud.pages.links import kind_page, link, tree_page
from backbud.pages.printed.running import running
from backbud.species import COMMON_PRACTICE
from backbud.tongue import full_day, phrase
from backbud.views.facts import SpeciesFact, SpeciesFacts
from backbud.views.kind import KindView, YearlyView


class OfKind(NamedTuple):
    """A tree of a kind: what it is called, and its page."""

    name: str
    page: str


class KindWork(Struct, frozen=True):
    """A work of the year: what, when, its window drawn, why, where that comes from ("" where it is
    common practice), and the numbers of the cautions that are for it."""

    task: str
    by: str
    line: str
    because: str
    source: str
    care: tuple[int, ...]


class KindYear(Struct, frozen=True):
    """A kind's year where home is. `months`: the letters of the months from its first on; `stages`:
    each stage and its first to last day; `stages_from`: where these come from; `never`: what must
    not be done."""

    name: str
    months: str
    stages: tuple[tuple[str, str], ...]
    stages_from: str
    works: tuple[KindWork, ...]
    cautions: tuple[str, ...]
    never: tuple[str, ...]
    unsuited: str


class KindSheet(Struct, frozen=True):
    """A kind: its names, its facts with the source of each, its year, and its trees. `running`: the
    style that gives its sheets a title."""

    title: str
    running: str
    botanical: tuple[Run, ...]
    facts: tuple[SpeciesFact, ...]
    year: KindYear | None
    trees: tuple[OfKind, ...]


def kinds(
    trees: Iterable[Tree], species: Mapping[str, SpeciesFacts]
) -> dict[str, tuple[SpeciesFacts, list[Tree]]]:
    """Each kind of which something is known, by the path of its page, with its trees that are
    here."""
    found: dict[str, tuple[SpeciesFacts, list[Tree]]] = {}
    for tree in trees:
        facts = species.get(tree.handle)
        if facts is not None and facts.facts:
            _, members = found.setdefault(kind_page(facts.title), (facts, []))
            if tree.here:
                members.append(tree)
    return found


def sheet(
    facts: SpeciesFacts, trees: Iterable[Tree], known: KindView | None, journal: str, today: date
) -> KindSheet:
    """Lay out a kind. Its page stands one folder down. `journal`: what it is called."""
    year = _year(known, today) if known else None
    name = words.sentence(facts.title)
    return KindSheet(
        facts.title,
        running(f"{name} · {journal} · {year.name if year else full_day(today)}"),
        botanical_runs(facts.botanical, ""),
        facts.facts,
        year,
        tuple(OfKind(tree.title, link(tree_page(tree.handle), "../")) for tree in trees),
    )


def _year(known: KindView, today: date) -> KindYear:
    cautions = tuple(dict.fromkeys(text for work in known.works for text in work.cautions))
    first = known.first_day
    letters = "".join(name[0] for name in words.MONTHS)
    return KindYear(
        known.year,
        letters[first.month - 1 :] + letters[: first.month - 1],
        tuple((one.name, words.between(one.opens, one.closes, today.year)) for one in known.stages),
        known.stages_from,
        tuple(_work(one, cautions, first, today) for one in known.works),
        cautions,
        known.never,
        known.unsuited,
    )


def _work(work: YearlyView, cautions: Sequence[str], first: date, today: date) -> KindWork:
    # Within twelve months no year need be told.
    opens, best, closes = (words.day(on, on.year) for on in (work.opens, work.best, work.closes))
    if (work.opens.year, work.opens.month) == (work.closes.year, work.closes.month):
        opens = phrase("{day}", day=work.opens.day)
    return KindWork(
        words.sentence(work.title),
        phrase("{opens} to {closes}, best {best}", opens=opens, closes=closes, best=best)
        if work.opens != work.closes
        else closes,
        year_line(work.window, first, today),
        work.because,
        "" if work.source == phrase(COMMON_PRACTICE) else work.source,
        tuple(sorted({cautions.index(text) + 1 for text in work.cautions})),
    )
