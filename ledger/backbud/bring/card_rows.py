"""Makes a card of a row that tells of a thing: a tree, a pot, a place, a person, a material."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.bring.days import day_of_cell
from backbud.bring.gathered import (
    Around,
    BroughtLine,
    Gathered,
    NewCard,
    RowOfList,
    ToldCell,
    pieces,
)
from backbud.bring.on_card import cell_with_unit, is_done, is_on_card
from backbud.bring.sheet import SheetCell
from backbud.bring.wordings import LEFT_OUT, NOTED, QUALIFIED_BY_ACT
from backbud.journal.things import Thing, Things
from backbud_grammar.handles import fold
from backbud_grammar.kinds import KINDS


def card_row(row: RowOfList, kind: str, around: Around, into: Gathered, things: Things) -> bool:
    """Add what a row says to what is gathered; whether anything of it is written."""
    names, name = around.names, row.text(kind)
    number = row.text("number")
    key = name or number or row.text("kind")
    if not key:
        why = f"nothing says which {kind} it is"
        words = "; ".join(f"{heading}: {cell.text}" for heading, _, _, cell in _filled(row))
        into.told.append(_told(row, "", words, why))
        return False
    handle = names.find(kind, key) or (names.find(kind, number) if number else "")
    if handle and not names.is_new(kind, handle):
        thing = things.find(handle)
        into.told += _against(row, kind, handle, thing, around)
        return False
    if not handle and names.asked(kind, key):
        return False
    if not handle or (kind, handle) in into.described:
        handle = names.new(kind, key, number)
        into.cards.append(NewCard(kind, handle, key, row.place))
        if fold(key) != fold(handle) and handle[-1:].isdigit() and not key[-1:].isdigit():
            why = f"another {kind} has that name, so its handle is {handle}"
            into.said.append(_told(row, row.heading(kind), key, why))
    into.described.add((kind, handle))
    into.lines += _name_lines(row, kind, handle, name, number, around)
    for heading, meaning, unit, cell in row.cells:
        if meaning not in (kind, "number"):
            into.lines += _lines(row, kind, handle, heading, meaning, unit, cell, around, into)
    return True


def _name_lines(
    row: RowOfList, kind: str, handle: str, name: str, number: str, around: Around
) -> Iterator[BroughtLine]:
    """What it is called, and its number as an older handle that still finds it."""
    called = name or number
    if called and called != handle:
        heading = row.heading(kind if name else "number")
        yield _line(row, heading, kind, handle, f"name {called}", f"{heading}: {called}")
    if name and number:
        heading = row.heading("number")
        older = around.names.number(kind, number)
        if older and older != handle:
            yield _line(row, heading, kind, handle, f"formerly {older}", f"{heading}: {number}")
        if number.casefold() not in older:
            yield from _notes(row, heading, kind, handle, number)


def _lines(
    row: RowOfList,
    kind: str,
    handle: str,
    heading: str,
    meaning: str,
    unit: str,
    cell: SheetCell,
    around: Around,
    into: Gathered,
) -> Iterator[BroughtLine]:
    """The lines of one cell."""
    text = cell.text
    if not text or meaning == LEFT_OUT:
        return
    # One of it is no batch.
    if meaning in (NOTED, "note") or (meaning == "count" and text == "1"):
        yield from _notes(row, "" if meaning == "note" else heading, kind, handle, text)
        return
    if meaning.startswith(QUALIFIED_BY_ACT):
        yield from _done(row, kind, handle, heading, meaning, cell, around, into)
        return
    form = next(form for form in KINDS[kind].forms if form.name == meaning)
    value = text
    if form.refers and not around.names.told(text):
        value = refer(form.refers[0], text, row, around, into)
    elif form.refers:
        value = around.names.find(form.refers[0], text) or around.names.told(text)[0]
    elif form.date:
        value = day_of_cell(cell, row.order, around.today)
        if not value:
            into.said.append(_told(row, heading, text, "this is no date; kept as a note"))
    else:
        value = cell_with_unit(text, unit)
    if not value:
        yield from _notes(row, heading, kind, handle, text)
        return
    yield _line(row, heading, kind, handle, f"{form.labels[0]} {value}", f"{heading}: {text}")


def refer(kind: str, text: str, row: RowOfList, around: Around, into: Gathered) -> str:
    """The handle of what a cell names, with a new card for it where there is none; "" where the
    keeper must say first who is meant."""
    names = around.names
    handle = names.find(kind, text)
    # A pot that no list describes is another one for each tree.
    if handle and not (
        kind == "pot" and names.is_new(kind, handle) and (kind, handle) not in into.described
    ):
        return handle
    if not handle and names.asked(kind, text):
        return ""
    handle = names.new(kind, text)
    into.cards.append(NewCard(kind, handle, text, row.place))
    if handle != text:
        into.lines.append(
            _line(row, row.heading(kind), kind, handle, f"name {text}", f"{kind}: {text}")
        )
    return handle


def _done(
    row: RowOfList,
    kind: str,
    handle: str,
    heading: str,
    meaning: str,
    cell: SheetCell,
    around: Around,
    into: Gathered,
) -> Iterator[BroughtLine]:
    """What was done on the day in a cell; a note where there is none, or it has not come yet."""
    from backbud_grammar.dates import read_date

    day = day_of_cell(cell, row.order, around.today)
    if not day or read_date(day).first > around.today:
        why = "this has not come yet; kept as a note" if day else "this is no date; kept as a note"
        into.said.append(_told(row, heading, cell.text, why))
        yield from _notes(row, heading, kind, handle, cell.text)
        return
    act = meaning.removeprefix(QUALIFIED_BY_ACT)
    words = f"{heading}: {cell.text}"
    yield BroughtLine(row.place, heading, act, words, day=day, subject=handle)


def _notes(
    row: RowOfList, heading: str, kind: str, handle: str, text: str
) -> Iterator[BroughtLine]:
    for words in pieces(f"{heading}: {text}" if heading else text):
        yield _line(row, heading, kind, handle, f"note {words}", words, note=True)


def _line(
    row: RowOfList, heading: str, kind: str, handle: str, text: str, words: str, note: bool = False
) -> BroughtLine:
    return BroughtLine(row.place, heading, text, words, kind, handle, note=note)


def _against(
    row: RowOfList, kind: str, handle: str, thing: Thing | None, around: Around
) -> Iterator[ToldCell]:
    """What a row says of something that has a card already: what stands there says nothing new."""
    where = f"its card stands in {thing.origin}" if thing is not None else "it has no card"
    known = f"{handle} is a {kind} that is known: {where}"
    for heading, meaning, unit, cell in row.cells:
        if not cell.text or meaning == LEFT_OUT:
            continue
        if meaning.startswith(QUALIFIED_BY_ACT):
            if not is_done(handle, meaning.removeprefix(QUALIFIED_BY_ACT), cell, row, around):
                why = f"{known}, and the diary does not say this"
                yield _told(row, heading, cell.text, why)
        elif meaning in (kind, "number") and handle in (
            around.names.find(kind, cell.text),
            around.names.find(kind, f"{kind} {cell.text}"),
        ):
            continue
        elif thing is None or not is_on_card(thing, heading, meaning, unit, cell, row, around):
            yield _told(row, heading, cell.text, f"{known}, and does not say this")


def _filled(row: RowOfList) -> Iterator[tuple[str, str, str, SheetCell]]:
    return (one for one in row.cells if one[3].text)


def _told(row: RowOfList, heading: str, words: str, why: str) -> ToldCell:
    return ToldCell(row.place.sheet, row.place.row, heading, words, why)
