"""Says what a list becomes: as data for a program, and as lines for a person."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from backbud.bring.gathered import ToldCell
from backbud.bring.matched import MatchedSheet
from backbud.bring.run import Brought
from backbud.bring.where import mapping_name
from backbud.bring.wordings import LEFT_OUT
from backbud.bring.written_lines import AS_READ, AT_HOME, NOT_WRITTEN
from backbud.say import Heading
from backbud.views.brought import (
    BroughtCardView,
    BroughtCellView,
    BroughtSheetView,
    BroughtView,
)
from backbud.views.jotted import AskView
from backbud.words import number

if TYPE_CHECKING:
    from backbud_grammar.problems import Problem

# So much of the new file is shown before it is written.
SHOWN_LINES = 60
SHOWN_CELLS = 200


def view_of(brought: Brought, is_kept: bool, is_written: bool) -> BroughtView:
    """All of it. `is_kept`: whether the mapping lies in the journal."""
    checked, gathered = brought.checked, brought.gathered
    not_read = [_cell(one) for one in gathered.told]
    noted = [_cell(one) for one in gathered.said]
    acts = notes = 0
    for at, line in enumerate(gathered.lines if checked is not None else ()):
        assert checked is not None
        level, why = checked.levels[at], checked.why.get(at, "")
        place, said = line.place, (line.heading, line.words, why)
        if level == NOT_WRITTEN or (line.kind and level >= AT_HOME):
            not_read.append(BroughtCellView(place.sheet, place.row, *said))
        elif why:
            noted.append(BroughtCellView(place.sheet, place.row, *said))
        if line.day and level < NOT_WRITTEN:
            is_note = line.note or level > AS_READ
            acts, notes = acts + (not is_note), notes + is_note
    return BroughtView(
        brought.mapping.file,
        mapping_name(brought.mapping.file),
        is_kept,
        tuple(AskView(one.message, one.answer, "") for one in brought.asks),
        tuple(
            BroughtSheetView(
                one.sheet.name,
                one.sheet.hidden,
                one.mapped.rows,
                one.mapped.heading,
                one.mapped.dates,
                dict(one.columns),
                (*one.sheet.told, *_news(one)),
            )
            for one in brought.sheets
        ),
        brought.name,
        is_written,
        checked.laid.text if checked is not None else "",
        tuple(
            BroughtCardView(one.kind, one.handle, one.name, one.place.sheet, one.place.row)
            for one in gathered.cards
        ),
        acts,
        notes,
        tuple(sorted(not_read, key=_place)),
        tuple(sorted(noted, key=_place)),
        gathered.before,
        dict(gathered.left_out),
        tuple(map(_problem, checked.asks)) if checked is not None else (),
    )


def _news(one: MatchedSheet) -> Iterator[str]:
    if one.new:
        yield f"the mapping does not name {', '.join(one.new)}: taken as it stands above"


def _cell(one: ToldCell) -> BroughtCellView:
    return BroughtCellView(one.sheet, one.row, one.heading, one.words, one.why)


def _place(one: BroughtCellView) -> tuple[str, int]:
    return one.sheet, one.row


def _problem(one: Problem) -> str:
    hint = f". {one.hint}" if one.hint else ""
    return f"{one.file}:{one.line}: {one.message}{hint}"


def brought_lines(view: BroughtView) -> Iterator[str]:
    """The same for a person: how it was read, what it becomes, and what was not read."""
    for sheet in view.sheets:
        yield from _sheet_lines(sheet, view)
    for cells, about in (
        (view.noted, "Taken otherwise than it stands"),
        (view.not_read, "Not read"),
    ):
        if cells:
            yield ""
            yield Heading(f"{about} ({len(cells)})")
            yield from map(_cell_line, cells[:SHOWN_CELLS])
            if len(cells) > SHOWN_CELLS:
                yield f"  … and {len(cells) - SHOWN_CELLS} more; --json has all of them"
    if view.problems:
        yield ""
        yield Heading("What check will ask about")
        yield from (f"  {one}" for one in view.problems[:SHOWN_CELLS])
    if view.text and not view.is_written:
        yield ""
        yield Heading(view.file)
        lines = view.text.splitlines()
        yield from (f"  {line}" for line in lines[:SHOWN_LINES])
        if len(lines) > SHOWN_LINES:
            yield f"  … and {number(len(lines) - SHOWN_LINES, 'line')} more"
    yield ""
    for ask in view.asks:
        yield f"? {ask.message}"
        yield f"  {ask.hint}"
    yield _summary(view)


def _sheet_lines(sheet: BroughtSheetView, view: BroughtView) -> Iterator[str]:
    name = f"sheet “{sheet.name}”" if sheet.name else view.list
    hidden = " (hidden there)" if sheet.hidden else ""
    if sheet.rows == LEFT_OUT:
        yield Heading(f"{name}{hidden}: left out")
        return
    order = f", dates {sheet.dates}" if sheet.dates else ""
    yield Heading(
        f"{name}{hidden}: rows are {sheet.rows or '?'}, headings in row {sheet.heading}{order}"
    )
    width = max(map(len, sheet.columns), default=0)
    for heading, told in sheet.columns.items():
        count = view.left_out.get(heading, 0)
        left = f" ({number(count, 'cell')})" if told == LEFT_OUT and count else ""
        yield f"  {heading.ljust(width)}  {told}{left}"
    yield from (f"  {told}" for told in sheet.told)


def _cell_line(one: BroughtCellView) -> str:
    sheet = f"{one.sheet}, " if one.sheet else ""
    heading = f", {one.heading}" if one.heading else ""
    words = f": “{one.words}”" if one.words else ""
    return f"  {sheet}row {one.row}{heading}{words}: {one.why}"


def _summary(view: BroughtView) -> str:
    before = f" {number(view.before, 'row')} had been brought before." if view.before else ""
    if view.asks:
        return f"Nothing is written before this is answered.{before}"
    if not view.text:
        return f"There is nothing new in it.{before}"
    cards = number(len(view.cards), "new card")
    told = f"{cards}, {number(view.acts, 'act')} and {number(view.notes, 'note')}"
    if view.is_written:
        return f"Written to {view.file}: {told}.{before}"
    return f"{told} would go to {view.file}; --write writes them.{before}"
