"""Lays out the papers of a person's trees: receipt, statement, care sheet and provenance.

Each is a page of its own that prints on A4 and letter, with no way from it to any other page: it
may be handed over as it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct

from backbud import words
from backbud.pages.links import paper_page
from backbud.pages.pictures import Pair, Picture, picture_of
from backbud.views.paper import (
    CareView,
    PaperSort,
    PapersView,
    PaperTreeView,
    ProvenanceView,
    ReceiptView,
    StatedSumsView,
    StatedTreeView,
    StatementView,
)
from backbud.views.plain_words import DoneLine
from backbud.views.visit import BookedView, ChargeView

_HUNDREDTH = Decimal("0.01")
_NO_NAME = re.compile(r"[^\w-]+")
# What a page is called by the paper on it.
TITLES: dict[PaperSort, str] = {
    "receipt": "Received into our care",
    "statement": "Account of the work",
    "care": "How to keep it",
    "provenance": "Where it comes from",
}


class PaperPage(Struct, frozen=True):
    """A paper to be laid out: its path below the output, what it is of, and what it shows.

    `tree`: that it is about, "" for an account of several. `day`: of a receipt, that it came.
    """

    sort: PaperSort
    title: str
    path: str
    tree: str
    day: date | None
    sheet: ReceiptSheet | StatementSheet | CareSheet | ProvenanceSheet


class ReceiptSheet(Struct, frozen=True):
    """A receipt, and its photographs."""

    view: ReceiptView
    tree: str
    came: str
    wanted: str
    insured: str
    deposit: str
    deposit_paid: tuple[str, ...]
    apart: str
    photographs: tuple[Picture, ...]


class ChargeRow(Struct, frozen=True):
    """A line of a statement as print sets it."""

    when: str
    what: str
    quantity: str
    unit_price: str
    tax: str
    amount: str


class StatedTree(Struct, frozen=True):
    """A tree of a statement; `within`: the hours and materials within its price, in a sentence."""

    name: str
    here: str
    done: tuple[DoneLine, ...]
    rows: tuple[ChargeRow, ...]
    within: str


class SumRow(Struct, frozen=True):
    """A sum: its label, what is said beside it, the amount; `last`: the one that counts."""

    label: str
    said: str
    amount: str
    last: bool = False


class StatementSheet(Struct, frozen=True):
    """A statement with its rows, and its sums."""

    view: StatementView
    title: str
    trees: tuple[StatedTree, ...]
    sums: tuple[tuple[SumRow, ...], ...]
    taxed: bool
    notes: tuple[str, ...]


class CareSheet(Struct, frozen=True):
    """A care sheet."""

    view: CareView
    tree: str


class ProvenanceSheet(Struct, frozen=True):
    """A tree's provenance, with its pictures."""

    view: ProvenanceView
    tree: str
    since: str
    grown: tuple[tuple[str, str], ...]
    portrait: Picture | None
    pairs: tuple[Pair, ...]


def papers(view: PapersView) -> Iterator[PaperPage]:
    """Every paper of a person, laid out."""
    for receipt in view.receipts:
        day = receipt.came.isoformat() if receipt.came else ""
        name = f"receipt-{_slug(receipt.tree.tree)}-{day}".rstrip("-")
        yield _page("receipt", receipt.tree, view.person, name, _receipt(receipt), receipt.came)
    if view.statement is not None:
        sheet = _statement(view.statement)
        yield _page("statement", view.name, view.person, "statement", sheet)
    for care in view.care:
        name = f"care-{_slug(care.tree.tree)}"
        yield _page("care", care.tree, view.person, name, CareSheet(care, _called(care.tree)))
    for one in view.provenance:
        name = f"provenance-{_slug(one.tree.tree)}"
        yield _page("provenance", one.tree, view.person, name, _provenance(one))


def _page(
    sort: PaperSort,
    of: PaperTreeView | str,
    person: str,
    name: str,
    sheet: ReceiptSheet | StatementSheet | CareSheet | ProvenanceSheet,
    day: date | None = None,
) -> PaperPage:
    called, tree = (of, "") if isinstance(of, str) else (of.name, of.tree)
    return PaperPage(sort, f"{TITLES[sort]}: {called}", paper_page(person, name), tree, day, sheet)


def _slug(handle: str) -> str:
    return _NO_NAME.sub("-", handle)


def _called(tree: PaperTreeView) -> str:
    """`trident maple ‘Naruto’, Acer buergerianum`."""
    kind = f"{tree.kind} ‘{tree.cultivar}’" if tree.cultivar else tree.kind
    known = not tree.botanical or tree.botanical.casefold() == tree.kind.casefold()
    return kind if known else f"{kind}, {tree.botanical}"


# ------------------------------------------------------------------ the receipt


def _receipt(view: ReceiptView) -> ReceiptSheet:
    year = view.day.year
    apart = ""
    if view.apart:
        until = f" until {words.full_day(view.apart_until)}" if view.apart_until else ""
        apart = f"It stands apart from other trees{until}, until we know that it is clean."
    return ReceiptSheet(
        view,
        _called(view.tree),
        words.full_day(view.came) if view.came else "",
        words.written(view.wanted, year - 1) if view.wanted is not None else "",
        words.money(view.insured, view.insured_currency) if view.insured is not None else "",
        words.money(view.deposit, view.deposit_currency) if view.deposit is not None else "",
        tuple(
            f"{words.money(one.amount or Decimal(0), one.currency)} on {words.full_day(one.day)}"
            for one in view.deposit_paid
        ),
        apart,
        tuple(picture_of(one, view.tree.name) for one in view.photographs),
    )


# ------------------------------------------------------------------ the statement


def _statement(view: StatementView) -> StatementSheet:
    taxed = any(row.tax_rate is not None for tree in view.trees for row in tree.charges)
    number = ", ".join(view.numbers)
    several = "s" if len(view.numbers) > 1 else ""
    title = f"{TITLES['statement']}, bill{several} {number}" if number else TITLES["statement"]
    notes = []
    if taxed:
        within = "Prices have it in them." if view.tax_within else "Prices are without it."
        notes.append(f"{words.sentence(view.tax_name)} is told with each line. {within}")
    if view.unpriced:
        count = words.number(view.unpriced, "line")
        notes.append(f"No price is written down yet of {count}; it is not in the sum.")
    return StatementSheet(
        view,
        title,
        tuple(_stated(tree, view.day.year) for tree in view.trees),
        tuple(tuple(_sums(one, view)) for one in view.sums),
        taxed,
        tuple(notes),
    )


def _stated(tree: StatedTreeView, year: int) -> StatedTree:
    came = words.full_day(tree.came) if tree.came else "before our diary begins"
    gone = f"{words.full_day(tree.went)}, when it went home" if tree.went else "today"
    within = [row for row in tree.charges if row.within]
    return StatedTree(
        f"{tree.tree.name}, {_called(tree.tree)}",
        f"Here from {came} to {gone}.",
        tree.done,
        tuple(_row(row, year) for row in tree.charges if not row.within),
        _within(within),
    )


def _within(rows: Sequence[ChargeView]) -> str:
    """Hours and materials that a price stands for, each material once."""
    hours = sum((row.quantity for row in rows if row.sort == "hours"), Decimal(0))
    of: dict[tuple[str, str], Decimal] = {}
    for row in rows:
        if row.sort == "material":
            key = (row.what, row.unit)
            of[key] = of.get(key, Decimal(0)) + row.quantity
    parts = [f"{words.minutes(round(hours * 60))} of work"] if hours else []
    parts += [f"{_amount(much, unit)} of {what}".strip() for (what, unit), much in of.items()]
    return f"Within the price: {', '.join(parts)}." if parts else ""


def _row(row: ChargeView, year: int) -> ChargeRow:
    what = row.what or {"hours": "Work", "price": "As agreed", "period": "Keep"}.get(row.sort, "")
    when = words.day(row.day, year)
    if row.sort == "period" and row.until is not None:
        when = words.between(row.day, row.until, year)
    quantity = "" if row.sort == "price" else _amount(row.quantity, row.unit)
    price = "" if row.sort == "price" or row.unit_price is None else f"{row.unit_price:.2f}"
    if row.sort == "material" and row.unit_price is not None:
        # A gram costs less than a cent.
        price = f"{row.unit_price.normalize():.4g}"
    return ChargeRow(
        when,
        words.sentence(what),
        quantity,
        price,
        f"{row.tax_rate.normalize():f} %" if row.tax_rate is not None else "",
        words.money(row.amount, row.currency) if row.amount is not None else "not priced",
    )


def _amount(quantity: Decimal, unit: str) -> str:
    """`1 h 20`, `3 L`, `4.39 months`."""
    if unit == "h":
        return words.minutes(round(quantity * 60))
    figure = f"{quantity.quantize(_HUNDREDTH).normalize():f}"
    if unit in ("week", "month", "year"):
        return f"{figure} {unit if figure == '1' else unit + 's'}"
    return f"{figure} {unit}".strip()


def _sums(sums: StatedSumsView, view: StatementView) -> Iterator[SumRow]:
    currency = sums.currency

    def money(amount: Decimal) -> str:
        return words.money(amount, currency)

    for one in sums.taxes:
        if one.rate is not None:
            rate = f"{one.rate.normalize():f} %"
            yield SumRow(
                f"{words.sentence(view.tax_name)} {rate}", f"on {money(one.net)}", money(one.tax)
            )
    yield SumRow("Comes to", "", money(sums.comes_to))
    yield from _booked(view.bills, currency)
    yield from _booked(view.payments, currency)
    if sums.before:
        said = "open from before" if sums.before > 0 else "paid ahead before"
        yield SumRow("Brought forward", said, money(abs(sums.before)))
    if sums.to_bill and sums.billed:
        yield SumRow("Not billed yet", "", money(sums.to_bill))
    if sums.due > 0:
        until = f"please by {words.full_day(view.due_until)}" if view.due_until else ""
        asked = sums.billed or sums.before
        told = "To pay" if asked else "So far, not billed yet"
        yield SumRow(told, until, money(sums.due), last=True)
    elif sums.due < 0:
        yield SumRow("Stands to your credit", "", money(-sums.due), last=True)
    else:
        yield SumRow("To pay", "nothing: all is paid, thank you", money(sums.due), last=True)


def _booked(booked: Iterable[BookedView], currency: str) -> Iterator[SumRow]:
    for one in booked:
        if one.currency != currency:
            continue
        label = {"bill": "Billed", "credit": "Credited", "payment": "Paid"}[one.sort]
        said = [words.full_day(one.day)]
        if one.number:
            said.append(f"number {one.number}")
        if one.of_bill:
            said.append(f"on bill {one.of_bill}")
        if one.how:
            said.append(one.how)
        if one.first is not None:
            said.append(f"corrected; first billed {words.money(one.first, currency)}")
        amount = "" if one.amount is None else words.money(abs(one.amount), currency)
        yield SumRow(label, ", ".join(said), amount)


# ------------------------------------------------------------------ the provenance


def _provenance(view: ProvenanceView) -> ProvenanceSheet:
    return ProvenanceSheet(
        view,
        _called(view.tree),
        words.written(view.here_since, 0) if view.here_since is not None else "",
        tuple((words.written(when, 0), sizes) for when, sizes in view.grown),
        picture_of(view.portrait, view.tree.name) if view.portrait is not None else None,
        tuple(
            Pair(
                words.sentence(pair.side) or "The tree",
                picture_of(pair.then, view.tree.name),
                picture_of(pair.now, view.tree.name),
            )
            for pair in view.pairs
        ),
    )
