"""Finds out what a sheet is: the row of its headings, what a row is, what each column means.

Only what its own words say is taken; what is open is asked.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from backbud.bring.days import DayOrder
from backbud.bring.mapping import MappedSheet
from backbud.bring.past_calendar import BOOKKEEPING, property_heading
from backbud.bring.sheet import ListSheet, SheetRow
from backbud.bring.wordings import (
    CARD_ROWS,
    LEFT_OUT,
    NOTED,
    QUALIFIED_BY_ACT,
    ROWS,
    WORKS,
    act_of_heading,
    headings,
    plain_heading,
    with_unit,
)

# The headings stand near the top, below a title or two.
_TOP_ROWS = 15
# What makes a row one of its sort, beside what names it.
_TELLING = {
    "trees": {"kind", "trunk", "nebari", "root ball", "style", "girth"},
    "places": {"within", "cover", "elevation", "latitude"},
    "pots": {"shape", "inside", "outside", "holes", "feet"},
    "persons": {"contact", "address", "rate", "experience"},
    "materials": {"sold in", "price", "label"},
}
# A list of trees may call them by their kinds alone; “type” would be said of anything.
_SPECIES = frozenset(("species", "kind", "botanical name"))
_UNIT_OF_HEADING = {"hours": "h", "minutes": "min"}
_BY_PROGRAMS = frozenset(plain_heading(property_heading(name)) for name in BOOKKEEPING)


class OpenQuestion(Struct, frozen=True):
    """What nobody but the keeper can tell. `answer`: how it is told."""

    message: str
    answer: str


class MatchedSheet(Struct, frozen=True):
    """A sheet with what is known of it. `columns`: for each column its heading and what it means,
    with its unit, `("Height (cm)", "height, cm")`. `above`: rows above the headings. `new`:
    headings that the mapping, where there is one, says nothing of. `order`: of its dates."""

    sheet: ListSheet
    mapped: MappedSheet
    columns: tuple[tuple[str, str], ...] = ()
    above: tuple[SheetRow, ...] = ()
    rows: tuple[SheetRow, ...] = ()
    new: tuple[str, ...] = ()
    order: DayOrder = DayOrder()
    asks: tuple[OpenQuestion, ...] = ()


def known_headings(cells: Sequence[str]) -> int:
    """How many headings of a row any sort of rows knows."""
    every = {head for rows in (WORKS, *CARD_ROWS) for head in headings(rows)}
    return sum(1 for cell in cells if plain_heading(with_unit(cell)[0]) in every)


def match_sheet(
    sheet: ListSheet, told: MappedSheet | None, acts: frozenset[str], is_calendar: bool
) -> MatchedSheet:
    """What a sheet is. `told`: what the mapping, or the keeper on the command line, says."""
    mapped = told or MappedSheet(sheet.name, heading=0)
    if mapped.rows == LEFT_OUT or (sheet.hidden and not mapped.rows) or not sheet.rows:
        return MatchedSheet(sheet, replace(mapped, rows=LEFT_OUT, heading=mapped.heading or 1))
    number = mapped.heading or _heading_row(sheet, acts)
    where = f"the sheet “{sheet.name}”" if sheet.name else "the list"
    if not number:
        ask = OpenQuestion(
            f"no row of {where} holds headings that are known", "--heading 1 --rows trees"
        )
        return MatchedSheet(sheet, replace(mapped, heading=1), asks=(ask,))
    head = next((row for row in sheet.rows if row.number == number), None)
    names = _headings(head, max(len(row.cells) for row in sheet.rows))
    mapped = replace(
        mapped, heading=number, rows=mapped.rows or _sort_of(names, sheet, is_calendar)
    )
    above = tuple(row for row in sheet.rows if row.number < number)
    rows = tuple(row for row in sheet.rows if row.number > number)
    if not mapped.rows:
        ask = OpenQuestion(
            f"nothing in {where} tells what one of its rows is", f"--rows {' or '.join(ROWS[:-1])}"
        )
        return MatchedSheet(sheet, mapped, above=above, rows=rows, asks=(ask,))
    found = _meanings(names, mapped, acts, is_calendar)
    columns = {name: mapped.columns.get(name, found[name]) for name in names}
    new = tuple(n for n in names if told is not None and told.columns and n not in told.columns)
    asks = tuple(_doubled(columns, mapped.rows))
    mapped = replace(mapped, columns={**mapped.columns, **columns})
    return MatchedSheet(sheet, mapped, tuple(columns.items()), above, rows, new, asks=asks)


def _heading_row(sheet: ListSheet, acts: frozenset[str]) -> int:
    best = number = 0
    for row in sheet.rows[:_TOP_ROWS]:
        words = [cell.text for cell in row.cells]
        known = known_headings(words) + sum(1 for word in words if act_of_heading(word, acts))
        if known > best:
            best, number = known, row.number
    return number


def _headings(head: SheetRow | None, width: int) -> list[str]:
    """A name for each column: its heading, or where it stands; each but once."""
    out: list[str] = []
    for n in range(width):
        name = head.cell(n).text if head is not None else ""
        name = name or f"column {_letters(n)}"
        count = 2
        while name in out:
            name = f"{name.removesuffix(f' ({count - 1})')} ({count})"
            count += 1
        out.append(name)
    return out


def _letters(column: int) -> str:
    """The letters of a column (0 first) as spreadsheets have them: A, B … AA."""
    out, column = "", column + 1
    while column:
        column, rest = divmod(column - 1, 26)
        out = chr(65 + rest) + out
    return out


def _sort_of(names: list[str], sheet: ListSheet, is_calendar: bool) -> str:
    """What a row is, "" where its headings do not tell."""
    if is_calendar:
        return WORKS
    plain = [plain_heading(with_unit(name)[0]) for name in names]
    works = {headings(WORKS).get(one, "") for one in plain}
    if "date" in works and works & {"act", "tree and act"}:
        return WORKS
    fits: dict[str, int] = {}
    for rows, kind in CARD_ROWS.items():
        found = {headings(rows).get(one, "") for one in plain}
        names_it = {kind, "number"} & found or (rows == "trees" and _SPECIES & {*plain})
        if names_it and found & _TELLING[rows]:
            fits[rows] = len(found)
    by_name = [rows for rows in CARD_ROWS if rows in plain_heading(sheet.name).split()]
    best = [rows for rows, count in fits.items() if count == max(fits.values())]
    named = [rows for rows, kind in CARD_ROWS.items() if kind in plain]
    return next((some[0] for some in (by_name, best, named) if len(some) == 1), "")


def _meanings(
    names: list[str], mapped: MappedSheet, acts: frozenset[str], is_calendar: bool
) -> dict[str, str]:
    """What each heading means by its own words; NOTED where they are unknown."""
    known, out, taken = headings(mapped.rows), dict[str, str](), set(mapped.columns.values())
    for name in names:
        bare, unit = with_unit(name)
        plain = plain_heading(bare)
        meaning = known.get(plain) or known.get(plain_heading(name), "")
        if is_calendar and (plain in _BY_PROGRAMS or plain.startswith("x ")):
            meaning = LEFT_OUT
        elif is_calendar and meaning == "details":
            # What stands below an entry is said freely.
            meaning = "remark"
        elif not meaning and mapped.rows == "trees" and (act := act_of_heading(bare, acts)):
            meaning = f"{QUALIFIED_BY_ACT}{act}"
        if meaning == "worked" and not unit:
            unit = _UNIT_OF_HEADING.get(plain.split()[0], "")
        # Of two columns with one meaning the first has it; words of the other are kept.
        if meaning in taken and meaning not in ("note", LEFT_OUT):
            meaning = ""
        taken.add(meaning)
        out[name] = f"{meaning}, {unit}" if meaning and unit else meaning or NOTED
    return out


def _doubled(columns: dict[str, str], rows: str) -> list[OpenQuestion]:
    meant: dict[str, list[str]] = {}
    for name, told in columns.items():
        meant.setdefault(told.split(",")[0], []).append(name)
    free = ("note", NOTED, LEFT_OUT)
    out = [
        OpenQuestion(
            f"the columns {' and '.join(names)} both mean “{told}”", "change one in the mapping"
        )
        for told, names in meant.items()
        if len(names) > 1 and told not in free
    ]
    wanted = {"date"} if rows == WORKS else {CARD_ROWS[rows], "number", "kind"}
    if not wanted & {*meant}:
        missing = "date" if rows == WORKS else CARD_ROWS[rows]
        answer = f'give one the meaning "{missing}" in the mapping (--map keeps it)'
        out.append(OpenQuestion(f"no column says which {missing} a row is of", answer))
    return out
