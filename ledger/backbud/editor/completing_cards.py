"""Offers the labels that a card does not have yet, and what may stand behind one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from lsprotocol import types as lsp

from backbud.editor.completing_details import units_for
from backbud.editor.offers import Suggestion, things_of
from backbud.journal.things import Things
from backbud_grammar.continued import label_in
from backbud_grammar.forms import ANY_WORDS
from backbud_grammar.kinds import KINDS
from backbud_grammar.syntax import Card

LABEL, VALUE = 2, 1


def of_card(
    card: Card, before: str, things: Things | None, species: Iterable[str]
) -> Iterator[Suggestion]:
    """What may stand on a line of a card. `before`: what stands there so far."""
    forms = KINDS[card.kind].forms
    # A label that is being written is none yet.
    label = label_in(card.kind, before) if before[-1:].isspace() else ""
    form = next((one for one in forms if label in one.labels), None) if label else None
    if form is None:
        written = {label_in(card.kind, line.text) for line in card.lines}
        for one in forms:
            if not written.intersection(one.labels) or one.name in ("note", "weather"):
                for said in one.labels[:1]:
                    yield Suggestion(said, one.about, LABEL, lsp.CompletionItemKind.Property)
        return
    if form.name == "kind":
        for name in species:
            yield Suggestion(name, "a species that is known", VALUE, lsp.CompletionItemKind.Class)
    kinds = ("tree",) if form.name == "trees" else form.refers
    if things is not None:
        yield from things_of(things, kinds, {})
    for word in form.words if form.words != ANY_WORDS else ():
        yield Suggestion(word, form.about, VALUE, lsp.CompletionItemKind.EnumMember)
    if before[-1:].isspace() and before.split()[-1][-1:].isdigit():
        yield from units_for((form,))
