"""The tables of other people's trees: their visits, what those come to, bills and payments."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.data.table import Cell, DataTable, cell, figure_column, text, whole
from backbud.views.dataset import DatasetView
from backbud.views.visit import VisitView

_VISITS = (
    whole("visit", "counts the visits"),
    text("tree", "its handle", "trees"),
    text("person", "whose it was", "people"),
    text("came", "the day; nothing where it was here before the diary speaks of it"),
    text("went", "the day; nothing while it is here"),
    text("how", "here, lent, returned, sold, died or lost"),
    text("wanted", "by when its owner wanted it, as written"),
    text("ready", "since when it was ready to go"),
    figure_column("worked_hours", "the hours that were written down"),
)
_CHARGES = (
    whole("visit", "of which visit", "visits"),
    whole("number", "counts the lines of one visit"),
    text("day", "the day"),
    text("sort", "price (for the whole), period, hours or material"),
    text("what", "as written"),
    text("quantity", "how much, in the unit beside it; a decimal number"),
    text("unit", "h, week, month, year, or as the material is counted"),
    text("unit_price", "of one"),
    text("amount", "nothing where no price is known, or it is within the price for the whole"),
    text("currency", "ISO 4217 code"),
    whole("within", "1: within the price for the whole"),
    text("tax_rate", "percent; nothing where no tax is written down"),
)
_BOOKINGS = (
    text("person", "whose account", "people"),
    whole("number", "counts the lines of one account"),
    text("day", "the day"),
    text("sort", "bill, credit or payment"),
    text("bill", "the number of the bill"),
    text("amount", "nothing for a bill that does not say it, below 0 of a credit"),
    text("currency", "ISO 4217 code"),
    text("what", "as written"),
    text("tree", "of which tree; nothing: about the person", "trees"),
    text("at", "file and line where it stands"),
)


def money_tables(data: DatasetView) -> tuple[DataTable, ...]:
    """Visits, charges and bookings; with no rows for eyes that are not to read them."""
    visits = [
        (number, account.person, visit)
        for number, (account, visit) in enumerate(
            ((account, visit) for account in data.accounts for visit in account.visits), 1
        )
    ]
    return (
        DataTable("visits", "Each stay of somebody else's tree.", _VISITS, ("visit",),
                  tuple(_visit(*one) for one in visits)),
        DataTable("charges", "What a visit comes to, line by line.", _CHARGES,
                  ("visit", "number"),
                  tuple(row for number, _, visit in visits for row in _charges(number, visit))),
        DataTable("bookings", "Bills, credits and payments.", _BOOKINGS, ("person", "number"),
                  tuple(_bookings(data))),
    )  # fmt: skip


def _visit(number: int, person: str, one: VisitView) -> tuple[Cell, ...]:
    days = map(cell, (one.came, one.went))
    return (number, one.tree, person, *days, one.how, cell(one.wanted), cell(one.ready),
            float(one.hours))  # fmt: skip


def _charges(visit: int, one: VisitView) -> Iterator[tuple[Cell, ...]]:
    for number, line in enumerate(one.charges, 1):
        yield (visit, number, cell(line.day), line.sort, cell(line.what), cell(line.quantity),
               cell(line.unit), cell(line.unit_price), cell(line.amount), cell(line.currency),
               int(line.within), cell(line.tax_rate))  # fmt: skip


def _bookings(data: DatasetView) -> Iterator[tuple[Cell, ...]]:
    for account in data.accounts:
        lines = sorted((*account.bills, *account.payments), key=lambda one: (one.day, one.at))
        for number, line in enumerate(lines, 1):
            yield (account.person, number, cell(line.day), line.sort, cell(line.number),
                   cell(line.amount), cell(line.currency), cell(line.what), cell(line.tree),
                   cell(line.at))  # fmt: skip
