"""Writes where a tree comes from and what became of it, for a sale or a show, and no price."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from backbud import words
from backbud.collection.bookings import counted
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.tongue import decimal, phrase
from backbud.views.history import DateView, date_view
from backbud.views.paper import PaperTreeView, PartyView, ProvenanceView, YearDone
from backbud.views.photograph import PhotographView, portrait, then_and_now
from backbud.views.plain_words import Called, DoneLine, done_lines
from backbud.views.visit import is_work
from backbud_grammar.dates import read_span
from backbud_grammar.forms import Trait
from backbud_grammar.problems import Misread

# What makes a tree what it is; its keep is no part of that.
_MAKES: frozenset[Trait] = frozenset(
    {"shapes", "raised", "potting", "root_work", "stresses", "cuts_roots"}
)


def provenance_view(
    tree: Tree,
    shown: PaperTreeView,
    issuer: PartyView,
    called: Called,
    photographs: Sequence[PhotographView],
    today: date,
) -> ProvenanceView:
    """A tree's provenance on a day."""
    events = [entry.event for entry in counted(tree.history)]
    makes = [event for event in events if _makes(event)]
    years = sorted({event.day.year for event in makes})
    return ProvenanceView(
        day=today,
        issuer=issuer,
        tree=shown,
        style=tree.facts.get("style", ""),
        pot=called(tree.pot) if tree.pot else "",
        origin=tree.facts.get("origin", ""),
        passports=tuple(filter(None, [tree.facts.get("passport", "")])),
        here_since=_since(tree),
        grown=tuple(_grown(events)),
        years=tuple(
            YearDone(year, done_lines([e for e in makes if e.day.year == year], called, year))
            for year in years
        ),
        shown=tuple(_show(event, today) for event in events if event.act == "shown"),
        portrait=portrait(photographs),
        pairs=then_and_now(photographs),
    )


def _makes(event: Event) -> bool:
    return (
        is_work(event)
        and "daily_keep" not in event.row.traits
        and not _MAKES.isdisjoint(event.row.traits)
    )


def _show(event: Event, today: date) -> DoneLine:
    """An exhibition, with what it was awarded."""
    at = ", ".join(d.words for d in event.all("at") if d.words)
    award = ", ".join(d.words for d in event.all("award") if d.words)
    said = phrase("shown at {at}", at=at) if at else phrase("shown")
    what = f"{said}: {award}" if award else said
    return DoneLine(words.written(date_view(event.when), today.year), words.sentence(what), "shown")


def _grown(events: Sequence[Event]) -> list[tuple[DateView, str]]:
    """Its sizes, each day that it was measured."""
    found = []
    for event in events:
        sizes = [
            f"{phrase(d.name)} {decimal(str(d.measure))}"
            for d in event.details
            if event.act == "measured" and d.measure is not None and d.measure.sort in _SIZES
        ]
        if sizes:
            found.append((date_view(event.when), ", ".join(sizes)))
    return found


_SIZES = frozenset({"length", "size"})


def _since(tree: Tree) -> DateView | None:
    try:
        written = tree.facts.get("since", "")
        return date_view(read_span(written)) if written else None
    except Misread:
        return None
