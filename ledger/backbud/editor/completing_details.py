"""Offers the details that an act takes, and what goes on with one that is begun: a handle, a unit,
a part of the tree."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from lsprotocol import types as lsp

from backbud.editor.offers import Suggestion, things_of
from backbud.journal.things import Things
from backbud_grammar.forms import ANY_WORDS, ActForm, Form
from backbud_grammar.measures import UNITS
from backbud_grammar.readers import WEDGES

DETAIL, HANDLE, UNIT, WORD, PERSON = 2, 1, 1, 3, 7
_NUMBER = re.compile(r"(?:^|\s)[+-]?\d+(?:[.,]\d+)?\s*$|(?:^|\s)[+-]?\d+(?:[.,]\d+)?\s+\S*$")


def details_for(
    form: ActForm,
    acts: Mapping[str, ActForm],
    before: str,
    said: Iterable[str],
    parts: Iterable[str],
    things: Things | None,
    here: Mapping[str, int],
) -> Iterator[Suggestion]:
    """What may stand where a detail is written. `before`: what stands of it so far, without the
    word that is begun; `said`: the names of the details that stand there already. `parts`: those
    that were named on the tree before. `here`: ranks of handles."""
    forms = form.forms
    if form.names_act:
        named = (
            acts.get(before.split(None, 1)[0].rstrip(",").casefold()) if before.split() else None
        )
        if named is None and not said:
            for act in dict.fromkeys(acts.values()):
                if not act.names_act:
                    kind = lsp.CompletionItemKind.Function
                    yield Suggestion(act.bare, act.about or act.group, DETAIL, kind)
            return
        forms = (*forms, *(named.forms if named is not None else ()))
    opened = before.strip().casefold()
    if opened.split()[-1:] == ["on"] and any(one.part for one in forms):
        for part in dict.fromkeys(parts):
            yield Suggestion(part, "a part of the tree", HANDLE, lsp.CompletionItemKind.Field)
        return
    if _NUMBER.search(before):
        yield from units_for(forms)
        yield from _words(one for one in forms if one.sorts)
        return
    if opened:
        yield from _behind(opened, forms, things, here)
        return
    taken = set(said)
    for one in forms:
        if one.name in taken and not (one.several or one.part):
            continue
        for label in one.labels[:1]:
            rank = PERSON if one.name == "by" else DETAIL
            yield Suggestion(label, one.about or one.shown(), rank, lsp.CompletionItemKind.Property)
        if not one.labels:
            yield from _words((one,))
            if one.refers and things is not None:
                yield from _handles(one, things, here)
    if any(one.part for one in forms):
        yield Suggestion("on", "a part of the tree", WORD, lsp.CompletionItemKind.Property)


def _behind(
    opened: str, forms: Iterable[Form], things: Things | None, here: Mapping[str, int]
) -> Iterator[Suggestion]:
    """What may stand behind words that open a detail."""
    for one in forms:
        labels = [label for label in one.labels if f" {opened}".endswith(f" {label.casefold()}")]
        if not labels and not any(
            f" {opened}".endswith(f" {word.casefold()}") for word in one.words
        ):
            continue
        if labels and one.refers and things is not None:
            yield from _handles(one, things, here)
        if labels:
            yield from _words((one,))
            if one.reader == "wedges":
                for wedge in WEDGES:
                    yield Suggestion(wedge, "a wedge of the root ball", WORD)
        if one.part:
            yield Suggestion("on", "a part of the tree", WORD, lsp.CompletionItemKind.Property)
    longer = [
        label for one in forms for label in one.labels if label.casefold().startswith(f"{opened} ")
    ]
    for label in longer:
        yield Suggestion(label[len(opened) + 1 :], "", DETAIL, lsp.CompletionItemKind.Property)


def _handles(form: Form, things: Things, here: Mapping[str, int]) -> Iterator[Suggestion]:
    yield from things_of(things, form.refers, here, HANDLE)


def _words(forms: Iterable[Form]) -> Iterator[Suggestion]:
    for one in forms:
        for word in one.words if one.words != ANY_WORDS else ():
            yield Suggestion(word, one.about, WORD, lsp.CompletionItemKind.EnumMember)


def units_for(forms: Iterable[Form]) -> Iterator[Suggestion]:
    """The units of what these forms measure."""
    sorts = {sort for one in forms for sort in one.sorts}
    sorts |= {"length"} if "size" in sorts else set()
    for unit in UNITS:
        if unit.dimension in sorts:
            yield Suggestion(unit.symbol, unit.dimension, UNIT, lsp.CompletionItemKind.Unit)
