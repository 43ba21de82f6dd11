"""Lays out a text by day and tree, folds it, and finds cards by their name over all files."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol import types as lsp

from backbud.editor.desk import Desk
from backbud.editor.pieces import TextPiece
from backbud.editor.text import OpenText
from backbud.journal.things import Thing
from backbud_grammar.handles import fold

MOST_FOUND = 100
# By the kind of a card; an editor has no kinds of its own for them.
KINDS = {
    "tree": lsp.SymbolKind.Object,
    "place": lsp.SymbolKind.Namespace,
    "pot": lsp.SymbolKind.Struct,
    "person": lsp.SymbolKind.Interface,
    "mix": lsp.SymbolKind.Array,
    "material": lsp.SymbolKind.Constant,
    "group": lsp.SymbolKind.Enum,
    "words": lsp.SymbolKind.Key,
}


def outline_of(desk: Desk, text: OpenText) -> list[lsp.DocumentSymbol]:
    """Each day with the trees below it, and each card."""
    found = (_symbol(piece, text) for piece in desk.pieces(text).all())
    return [symbol for symbol in found if symbol is not None]


def _symbol(piece: TextPiece, text: OpenText) -> lsp.DocumentSymbol | None:
    whole = text.whole_lines(piece.first, _last_said(piece, text))
    head = text.whole_lines(piece.first, piece.first)
    page, card = piece.page, piece.card
    if card is not None:
        name = card.handle or card.kind
        kind = KINDS[card.kind]
        return lsp.DocumentSymbol(name, kind, whole, head, card.kind if card.handle else None)
    if page is None:
        return None
    below = [*_blocks(piece, text)]
    kind = lsp.SymbolKind.Event
    return lsp.DocumentSymbol(page.date, kind, whole, head, page.weather or None, None, None, below)


def _blocks(piece: TextPiece, text: OpenText) -> Iterator[lsp.DocumentSymbol]:
    blocks = piece.section.blocks
    for n, block in enumerate(blocks):
        if not block.subjects:
            continue
        first = piece.first + block.line
        behind = piece.first + blocks[n + 1].line - 1 if n + 1 < len(blocks) else piece.last
        last = _last_line(text, first, behind)
        acts = ", ".join(act.word for act in block.acts)
        yield lsp.DocumentSymbol(
            block.subjects,
            lsp.SymbolKind.Object,
            text.whole_lines(first, last),
            text.whole_lines(first, first),
            acts or None,
        )


def _last_said(piece: TextPiece, text: OpenText) -> int:
    return _last_line(text, piece.first, piece.last)


def _last_line(text: OpenText, first: int, last: int) -> int:
    """The last line of these that is not blank."""
    while last > first and not text.line(last).strip():
        last -= 1
    return last


def folds_of(desk: Desk, text: OpenText) -> list[lsp.FoldingRange]:
    """The pages, the blocks on them, and the cards."""
    found: list[lsp.FoldingRange] = []
    for piece in desk.pieces(text).all():
        if piece.page is not None or piece.card is not None:
            _fold(found, piece.first, _last_said(piece, text))
        for symbol in _blocks(piece, text) if piece.page is not None else ():
            _fold(found, symbol.range.start.line, symbol.range.end.line)
    return found


def _fold(found: list[lsp.FoldingRange], first: int, last: int) -> None:
    if last > first:
        found.append(lsp.FoldingRange(first, last, kind=lsp.FoldingRangeKind.Region))


def cards_named(desk: Desk, query: str) -> list[lsp.WorkspaceSymbol]:
    """The cards whose handle or name holds what was written, those that begin with it first."""
    if desk.snapshot is None:
        return []
    wanted = fold(query.strip())
    found: list[tuple[int, str, Thing]] = []
    for thing in desk.snapshot.journal.things.by_handle.values():
        at = [fold(said).find(wanted) for said in (thing.handle, thing.title)]
        if max(at) >= 0:
            found.append((0 if 0 in at else 1, thing.handle, thing))
    symbols = [_of_thing(desk, thing) for _, _, thing in sorted(found, key=lambda one: one[:2])]
    return [symbol for symbol in symbols[:MOST_FOUND] if symbol is not None]


def _of_thing(desk: Desk, thing: Thing) -> lsp.WorkspaceSymbol | None:
    where = card_location(desk, thing)
    about = f"{thing.kind}, {thing.title}" if thing.title != thing.handle else thing.kind
    if where is None:
        return None
    return lsp.WorkspaceSymbol(
        location=where, name=thing.handle, kind=KINDS[thing.kind], container_name=about
    )


def card_location(desk: Desk, thing: Thing) -> lsp.Location | None:
    """Where the handle stands on the card of a thing."""
    text = desk.text(thing.origin.file)
    if text is None:
        return None
    line = thing.origin.line - 1
    column = text.line(line).find(thing.handle, len(thing.kind))
    if column < 0:
        # Something was typed above it since.
        found = _card_line(text, thing)
        line, column = found if found is not None else (line, 0)
    return lsp.Location(text.uri, text.range(line, max(column, 0), len(thing.handle)))


def _card_line(text: OpenText, thing: Thing) -> tuple[int, int] | None:
    for number, line in enumerate(text.lines):
        words = line.split()
        if len(words) == 2 and words[0].casefold() == thing.kind and words[1] == thing.handle:
            return number, line.index(words[1], len(words[0]))
    return None
