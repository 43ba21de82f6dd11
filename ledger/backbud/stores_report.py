"""Lays out the shelf for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from backbud.pages.stores import StoresSheet, stores_sheet
from backbud.views.shelf import ShelfView


def stores_lines(stores: ShelfView, year: int) -> Iterator[str]:
    """What to buy, what is on the shelf, and what could not be reckoned."""
    sheet = stores_sheet(stores, year)
    if not (sheet.shelf or sheet.to_buy or sheet.missing):
        yield "Nothing is written of what is bought and used up: begin with a material card."
        return
    yield from _to_buy(sheet)
    yield ""
    yield "On the shelf" + (f", {sheet.value}" if sheet.value.amount else "")
    yield from _columns(
        [(one.amount, one.name, one.as_sold, one.value, one.wrong) for one in sheet.shelf]
    )
    if sheet.missing:
        yield ""
        yield "Not reckoned"
        for one in sheet.missing:
            trees = f": {', '.join(one.trees)}" if one.trees else ""
            yield f"  {one.what}{trees}"
            yield f"      write {one.to_write}"


def _to_buy(sheet: StoresSheet) -> Iterator[str]:
    if not sheet.to_buy:
        reckoned = ", of what could be reckoned" if sheet.unreckoned else ""
        yield f"Nothing to buy for the works until {sheet.until}{reckoned}."
        return
    cost = f", {sheet.cost}" if sheet.cost.amount else ""
    yield f"To buy for the works until {sheet.until}{cost}"
    yield from _columns([(one.count, one.name, one.cost, one.why) for one in sheet.to_buy])


def _columns(rows: Sequence[tuple[str, ...]]) -> Iterator[str]:
    """The rows with their first column to the right, and the others lined up."""
    widths = [max(len(row[n]) for row in rows) for n in range(len(rows[0]))] if rows else []
    for row in rows:
        first, *rest = row
        cells = [cell.ljust(width) for cell, width in zip(rest, widths[1:], strict=True)]
        yield "  ".join(["", first.rjust(widths[0]), *cells]).rstrip()
