"""Completes what is being written at a place: a day, who is meant, an act, a detail, a card."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from datetime import date

from lsprotocol import types as lsp

from backbud.collection.fold import tree_on
from backbud.collection.state import Tree
from backbud.editor.completing_acts import acts_for
from backbud.editor.completing_cards import of_card
from backbud.editor.completing_details import details_for
from backbud.editor.completing_subjects import line_openings, subjects_for
from backbud.editor.desk import Desk
from backbud.editor.led_to import day_of_page
from backbud.editor.offers import Suggestion, as_completion
from backbud.editor.pieces import TextPiece
from backbud.editor.text import OpenText
from backbud.journal.things import Things
from backbud_grammar.continued import REMARK
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ActForm
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Block

# The word that is being written; a subject line's may have blanks, and is asked for by its last.
_BEGUN = re.compile(r"[^\s,]*$")
# So many trees of one subject line are looked at closely.
MOST_TREES = 5
WEATHER = (("low", "the lowest, in C or F"), ("high", "the highest, in C or F"),
           ("rain", "in mm"), ("at", "at another place than home"))  # fmt: skip


def completed(desk: Desk, text: OpenText, position: lsp.Position) -> lsp.CompletionList:
    """What may stand at a place."""
    number, column = text.place(position)
    line = text.line(number)[:column]
    found = _BEGUN.search(line)
    begun = found[0] if found is not None else ""
    before = line[: len(line) - len(begun)]
    where = lsp.Range(text.position(number, column - len(begun)), position)
    return as_completion(_offers(desk, text, number, before, begun), begun, where)


def _offers(
    desk: Desk, text: OpenText, number: int, before: str, begun: str
) -> Iterable[Suggestion]:
    piece = desk.pieces(text).at(number)
    things = desk.snapshot.journal.things if desk.snapshot is not None else None
    if before.lstrip().startswith("#") or begun.startswith("#"):
        return ()
    if not before or not before[0].isspace():
        return _at_edge(desk, piece, number, before, begun, things)
    if piece.card is not None and not piece.section.blocks:
        if piece.card.kind == "words" or number == piece.first:
            return ()
        return of_card(piece.card, before.lstrip(), things, desk.species_names)
    return _of_act(desk, piece, number, before.lstrip(), things, text)


def _at_edge(
    desk: Desk, piece: TextPiece, number: int, before: str, begun: str, things: Things | None
) -> Iterator[Suggestion]:
    if before[:1].isdigit():
        if things is not None and before.split()[-1:] == ["at"]:
            yield from (Suggestion(one.handle, "place") for one in things.of_kind("place"))
        else:
            yield from (Suggestion(word, about) for word, about in WEATHER)
        return
    if not before:
        yield from line_openings(desk.today)
    on = day_of_page(piece, desk.speech.southern) if piece.first < number else None
    item = before.rpartition(",")[2].lstrip()
    yield from subjects_for(desk, on, f"{item}{begun}")


# ------------------------------------------------------------------ acts


def _of_act(
    desk: Desk, piece: TextPiece, number: int, before: str, things: Things | None, text: OpenText
) -> Iterator[Suggestion]:
    block = piece.block_at(number)
    on = day_of_page(piece, desk.speech.southern) or desk.today
    act = piece.act_at(number)
    is_deeper = act is not None and piece.first + act.line < number and bool(act.text)
    form, said = _begun_act(desk, act.word if act is not None and is_deeper else "", before)
    if form is None and not before:
        yield from _acts(desk, block, on)
        return
    if form is None or form.prose or REMARK.search(f" {said}"):
        return
    pieces = part_at_commas(said) or [(0, "")]
    last = said[pieces[-1][0] :]
    if said.rstrip().endswith(","):
        last = ""
    handles = [*_handles(desk, block)]
    parts = [part for tree in _trees(desk, handles, on) for part in _parts(tree)]
    named = desk.speech.details.of(form, said.rstrip(", "), hints=False) if said.strip() else None
    names = [detail.name for detail in named.details] if named is not None else []
    if last.strip() and names:
        names = names[:-1]
    yield from details_for(form, desk.speech.acts, last if not form.names_act else said,
                           names, parts, things, {})  # fmt: skip


def _begun_act(desk: Desk, deeper: str, before: str) -> tuple[ActForm | None, str]:
    """The act that a line is of, and what stands behind its word so far."""
    if deeper:
        return desk.speech.form(deeper), before
    words = before.split(None, 2)
    two = " ".join(words[:2])
    for written in (two, *words[:1]):
        form = desk.speech.form(written) if written else None
        if form is not None and before.startswith(written):
            return form, before[len(written) :].lstrip()
    return None, before


def _acts(desk: Desk, block: Block | None, on: date) -> Iterator[Suggestion]:
    handles = [*_handles(desk, block)]
    trees = _trees(desk, handles, on)
    due: list[str] = []
    for tree in trees:
        plan = desk.known_plan(tree.handle, on)
        due += [one.act for one in plan.follow_ups if one.is_open(on)] if plan is not None else []
    things = desk.snapshot.journal.things if desk.snapshot is not None else None
    kinds: dict[str, None] = {}
    for handle in handles:
        thing = things.find(handle) if things is not None else None
        kinds |= {"tree" if thing is None or thing.kind == "group" else thing.kind: None}
    own = [(" ".join(word.run), word.meaning) for word in desk.speech.own.words
           if on >= word.since or word.past == "yes"]  # fmt: skip
    yield from acts_for(desk.speech.acts, kinds or ("tree",), trees, due, own)


def _handles(desk: Desk, block: Block | None) -> Iterator[str]:
    """The handles that a subject line names; who is meant by `all …` are trees."""
    if block is None or not block.subjects:
        return
    read = desk.speech.details.subjects(block.subjects)
    if not isinstance(read, Flaw):
        for item in read.chosen:
            yield item.words if item.by == "handle" else ""


def _trees(desk: Desk, handles: Iterable[str], on: date) -> list[Tree]:
    """The trees of these handles as they stood on a day."""
    standing = desk.standing
    if standing is None:
        return []
    things = standing.snapshot.journal.things
    out: list[Tree] = []
    for handle in handles:
        thing = things.find(handle) if handle else None
        known = thing.handle if thing is not None else handle
        if known in standing.histories.trees and len(out) < MOST_TREES:
            out.append(tree_on(standing.histories, things, known, on))
    return out


def _parts(tree: Tree) -> Iterator[str]:
    """The parts of a tree that were named, the last first."""
    for entry in reversed(tree.history):
        yield from entry.event.parts
