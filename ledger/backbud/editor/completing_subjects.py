"""Offers what may begin a line at the left edge: a day, who is meant, a card."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from lsprotocol import types as lsp

from backbud.editor.desk import Desk
from backbud.editor.offers import Suggestion, offer_of, things_of
from backbud_grammar.kinds import KINDS

HERE, KNOWN, PHRASE, CARD = 1, 3, 4, 6


def subjects_for(desk: Desk, on: date | None, begun: str) -> Iterator[Suggestion]:
    """What may be written of a subject line so far; `begun`: its last item between commas. `on`:
    the day of the page, None above every page."""
    if desk.snapshot is None:
        return
    things = desk.snapshot.journal.things
    words = begun.split()
    opened = [word.casefold() for word in (words if begun.endswith(" ") else words[:-1])]
    if "except" in opened:
        opened = opened[opened.index("except") + 1 :]
    if opened[:2] == ["all", "in"]:
        yield from things_of(things, ("place",), {})
    elif opened[:2] == ["all", "of"]:
        yield from things_of(things, ("person",), {})
    elif opened[:1] == ["all"]:
        yield Suggestion("in", "all that stand in a place", PHRASE)
        yield Suggestion("of", "all of a person", PHRASE)
        kinds = {thing.text("kind").partition(" '")[0] for thing in things.of_kind("tree")}
        for kind in sorted(filter(None, kinds)):
            yield Suggestion(kind, "all of this kind", PHRASE, lsp.CompletionItemKind.Class)
    elif opened:
        yield Suggestion("except", "but not these", PHRASE)
    else:
        yield from _handles(desk, on)
        yield Suggestion("all", "all in a place, of a person, of a kind", PHRASE)


def _handles(desk: Desk, on: date | None) -> Iterator[Suggestion]:
    """Who was here on that day first, with where they stood."""
    assert desk.snapshot is not None
    things = desk.snapshot.journal.things
    here = desk.here_on(on) if on is not None else {}
    for thing in things.of_kind("tree"):
        place = here.get(thing.handle)
        rank = KNOWN if place is None else HERE
        yield offer_of(thing, rank, f"in {place}" if place else "")
    for handle, place in here.items():
        if handle not in things.by_handle:
            yield Suggestion(handle, f"tree  in {place}", HERE, lsp.CompletionItemKind.Variable)
    yield from things_of(things, ("group", "place", "pot", "material", "mix"), {})


def line_openings(today: date) -> Iterator[Suggestion]:
    """What may begin a page or a card."""
    yield Suggestion(today.isoformat(), "today's page", 0, lsp.CompletionItemKind.Event)
    for kind, form in KINDS.items():
        yield Suggestion(kind, f"a card: {form.about}", CARD, lsp.CompletionItemKind.Class)
