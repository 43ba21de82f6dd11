"""Says whether a card, or the diary, already has what a cell of a list says of something known."""

from __future__ import annotations

import re

from backbud.bring.days import day_of_cell
from backbud.bring.gathered import Around, RowOfList
from backbud.bring.sheet import SheetCell
from backbud.bring.wordings import NOTED
from backbud.journal.things import Thing
from backbud_grammar.dates import read_date
from backbud_grammar.handles import fold
from backbud_grammar.kinds import KINDS

_BARE_NUMBERS = re.compile(r"[0-9.,]+(?:\s*[x×*]\s*[0-9.,]+)*", re.IGNORECASE)


def cell_with_unit(text: str, unit: str) -> str:
    """Bare numbers of a cell with the unit that its heading names."""
    if not unit or not _BARE_NUMBERS.fullmatch(text):
        return text
    return f"{text.replace('×', 'x').replace('*', 'x')} {unit}"


def is_on_card(
    thing: Thing,
    heading: str,
    meaning: str,
    unit: str,
    cell: SheetCell,
    row: RowOfList,
    around: Around,
) -> bool:
    """Whether a line of the card says the same, however its number or its handle is written.

    `meaning`: the label that the column is for, or that it becomes a note.
    """
    text = cell.text
    if meaning in (NOTED, "note"):
        noted = text if meaning == "note" else f"{heading}: {text}"
        return any(_plain(noted) in _plain(line.written.text) for line in thing.lines)
    form = next((form for form in KINDS[thing.kind].forms if form.name == meaning), None)
    if form is None:
        return False
    lines = [line for line in thing.lines if line.detail.name == meaning]
    if form.refers:
        handle = around.names.find(form.refers[0], text)
        return any(handle and fold(line.detail.handle) == fold(handle) for line in lines)
    value = day_of_cell(cell, row.order, around.today) if form.date else cell_with_unit(text, unit)
    said = [_plain(f"{label} {value}") for label in form.labels]
    return any(_plain(line.written.text) in said for line in lines)


def is_done(handle: str, act: str, cell: SheetCell, row: RowOfList, around: Around) -> bool:
    """Whether the diary has that act on the day in the cell. `act`: its past form."""
    day = day_of_cell(cell, row.order, around.today)
    return bool(day) and (act, handle, read_date(day).first) in around.done


def _plain(text: str) -> str:
    """Words in one case and one blank apart; a decimal comma as the point that it stands for."""
    return re.sub(r"(?<=\d),(?=\d)", ".", " ".join(text.casefold().split()))
