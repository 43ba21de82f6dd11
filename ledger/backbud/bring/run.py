"""Brings a list in, as far as it can be without asking; nothing is written here."""

from __future__ import annotations

import os
from collections import Counter
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from backbud.bring.answers_given import BringAnswers, with_answers
from backbud.bring.as_checked import Checked, as_checked
from backbud.bring.called import CalledThings
from backbud.bring.card_rows import card_row
from backbud.bring.days import DayOrder, order_of
from backbud.bring.gathered import (
    Around,
    Gathered,
    RowOfList,
    RowPlace,
    ToldCell,
    row_digest,
)
from backbud.bring.mapping import Mapping, parted_meaning
from backbud.bring.matched import MatchedSheet, OpenQuestion, match_sheet
from backbud.bring.opened import open_list
from backbud.bring.sheet import EMPTY, BringError, SheetCell, SheetRow, in_plain_words
from backbud.bring.text_table import Undecided
from backbud.bring.where import free_text_name
from backbud.bring.wordings import CARD_ROWS, LEFT_OUT, QUALIFIED_BY_ACT, WORKS
from backbud.bring.work_rows import work_row
from backbud.bring.written_lines import first_line_says, lay_out, rows_brought
from backbud.jot.trial import known_on
from backbud.journal.source import FileSource, OnDisk
from backbud.session import Session
from backbud_grammar.kinds import KINDS

# In this order, so that what a row refers to has its card by then.
_ORDER = ("places", "persons", "materials", "pots", "trees", WORKS)


class Brought(Struct, frozen=True):
    """What a list becomes. `mapping`: how it was read, with all that was found out. `asks`: what
    must be answered first; then there is no `checked`. `name`: the file it goes to."""

    mapping: Mapping
    sheets: tuple[MatchedSheet, ...]
    asks: tuple[OpenQuestion, ...]
    gathered: Gathered
    checked: Checked | None
    name: str


def bring(
    session: Session,
    file: str,
    data: bytes,
    mapping: Mapping | None,
    answers: BringAnswers,
    source: FileSource | None = None,
) -> Brought:
    """What a list becomes in a journal. `file`: its name. `mapping`: how it is to be read, None
    where that is still to be found out. BringError where it cannot be read at all."""
    journal, today = session.journal, session.today
    begun = mapping or Mapping(in_plain_words(os.path.basename(file)))
    gathered = Gathered()
    try:
        told = with_answers(begun, replace(answers, rows="", heading=0, dates=()), ())
        opened = open_list(data, told.encoding, told.separator)
    except Undecided as open_still:
        question = OpenQuestion(open_still.message, open_still.answer)
        return Brought(begun, (), (question,), gathered, None, "")
    if begun.file != in_plain_words(os.path.basename(file)):
        raise BringError(f"its mapping is that of “{begun.file}”; give this list another name")
    told = with_answers(begun, answers, tuple(one.name for one in opened.sheets))
    if len({one.name for one in opened.sheets}) < len(opened.sheets):
        raise BringError("two of its sheets have the same name; give one another")
    acts = frozenset(journal.acts)
    sheets = tuple(
        match_sheet(one, told.of_sheet(one.name), acts, opened.is_calendar) for one in opened.sheets
    )
    asks = [question for one in sheets for question in one.asks]
    sheets, more = _with_orders(sheets, today)
    asks += more
    mapping = replace(told, sheet=tuple(one.mapped for one in sheets))
    if asks:
        return Brought(mapping, sheets, tuple(asks), gathered, None, "")
    around = _around(session, mapping)
    for rows in _ORDER:
        for one in sheets:
            if one.mapped.rows == rows:
                _gather(one, around, gathered, session)
    asks += around.names.asks
    if asks:
        return Brought(mapping, sheets, tuple(asks), gathered, None, "")
    name = free_text_name(journal.folder, mapping.file)
    if not gathered.lines and not gathered.cards:
        return Brought(mapping, sheets, (), gathered, None, "")
    digests = list(gathered.digests.values())
    title = first_line_says(mapping.file, today)
    checked = as_checked(
        session,
        source or OnDisk(journal.folder),
        name,
        gathered.lines,
        around.home,
        lambda levels: lay_out(
            title,
            gathered.cards,
            gathered.lines,
            levels,
            around.home,
            digests,
            around.known,
        ),
    )
    return Brought(mapping, sheets, (), gathered, checked, name)


def _with_orders(
    sheets: tuple[MatchedSheet, ...], today: date
) -> tuple[tuple[MatchedSheet, ...], list[OpenQuestion]]:
    """The sheets with the order of their dates, and what must be asked of it."""
    out, asks = [], []
    for one in sheets:
        order = _order(one, today)
        if order.asks:
            where = f"the sheet “{one.sheet.name}”, " if one.sheet.name else ""
            asks.append(OpenQuestion(f"{where}{order.asks}", order.answer))
        shown = order.order if order.is_shown else ""
        mapped = replace(one.mapped, dates=shown, serials=order.serial)
        out.append(replace(one, mapped=mapped, order=order))
    return tuple(out), asks


def _order(one: MatchedSheet, today: date) -> DayOrder:
    mapped = one.mapped
    if mapped.rows not in (*CARD_ROWS, WORKS):
        return DayOrder(mapped.dates, mapped.serials)
    dated = {n for n, (_, told) in enumerate(one.columns) if _is_dated(told, mapped.rows)}
    cells = [(row.number, row.cell(n)) for row in one.rows for n in sorted(dated)]
    return order_of(cells, mapped.dates, mapped.serials, today)


def _is_dated(told: str, rows: str) -> bool:
    meaning = parted_meaning(told)[0]
    if rows == WORKS:
        return meaning == "date"
    forms = {form.name for form in KINDS[CARD_ROWS[rows]].forms if form.date}
    return meaning in forms or meaning.startswith(QUALIFIED_BY_ACT)


def _around(session: Session, mapping: Mapping) -> Around:
    journal = session.journal
    known = known_on(journal, session.today)
    uncarded = [h for h in session.histories.trees if journal.things.find(h) is None]
    names = CalledThings(journal.things, uncarded, known.words, mapping.names)
    return Around(
        session.today,
        journal.positions.home,
        known,
        names,
        rows_brought(journal.texts.values()),
        Counter(),
        frozenset(
            (entry.event.act, handle, entry.event.day)
            for handle, tree in session.histories.trees.items()
            for entry in tree.entries
            if not entry.undone and not entry.event.held
        ),
    )


def _gather(one: MatchedSheet, around: Around, into: Gathered, session: Session) -> None:
    """Add the rows of a sheet."""
    rows = one.mapped.rows
    headings = tuple(heading for heading, _ in one.columns)
    for above in one.above:
        words = "; ".join(cell.text for cell in above.cells if cell.text)
        why = "it stands above the headings"
        into.told.append(ToldCell(one.sheet.name, above.number, "", words, why))
    for row in _filled_from_above(one):
        place = RowPlace(one.sheet.name, row.number)
        sign = row_digest(row, headings, around.counts)
        if sign in around.brought:
            into.before += 1
            continue
        cells = []
        for n, (heading, told) in enumerate(one.columns):
            cell, (meaning, unit) = row.cell(n), parted_meaning(told)
            if meaning == LEFT_OUT and cell.text:
                into.left_out[heading] += 1
            elif cell.wrong and not (meaning == "date" and rows == WORKS):
                words = cell.text
                into.told.append(ToldCell(place.sheet, place.row, heading, words, cell.wrong))
                cell = EMPTY
            cells.append((heading, meaning, unit, cell))
        of_list = RowOfList(place, tuple(cells), one.order)
        if rows == WORKS:
            is_written = work_row(of_list, around, into)
        else:
            is_written = card_row(of_list, CARD_ROWS[rows], around, into, session.journal.things)
        if is_written:
            into.digests[place] = sign


def _filled_from_above(one: MatchedSheet) -> list[SheetRow]:
    """The rows, with empty cells filled where the mapping says that they mean the one above."""
    wanted = [n for n, (name, _) in enumerate(one.columns) if name in one.mapped.as_above]
    if not wanted:
        return list(one.rows)
    last: dict[int, SheetCell] = {}
    out = []
    for row in one.rows:
        cells = [*row.cells, *[EMPTY] * (len(one.columns) - len(row.cells))]
        for n in wanted:
            if cells[n].text:
                last[n] = cells[n]
            else:
                cells[n] = last.get(n, EMPTY)
        out.append(SheetRow(row.number, tuple(cells)))
    return out
