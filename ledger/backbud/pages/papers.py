"""Lays out the papers of a person's trees: receipt, statement, care sheet and provenance.

Each is a page of its own that prints on A4 and letter, with no way from it to any other page: it
may be handed over as it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from msgspec import Struct

from backbud import words
from backbud.pages.account_sheet import ACCOUNT, StatementSheet, called, statement_sheet
from backbud.pages.links import paper_page
from backbud.pages.pictures import Pair, Picture, picture_of
from backbud.tongue import full_day, phrase
from backbud.views.paper import (
    CareView,
    PaperSort,
    PapersView,
    PaperTreeView,
    ProvenanceView,
    ReceiptView,
)

_NO_NAME = re.compile(r"[^\w-]+")
# What a page is called by the paper on it.
TITLES: dict[PaperSort, str] = {
    "receipt": "Received into our care",
    "statement": ACCOUNT,
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


class CareSheet(Struct, frozen=True):
    """A care sheet, and how the tree looked last."""

    view: CareView
    tree: str
    photograph: Picture | None


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
        sheet = statement_sheet(view.statement)
        yield _page("statement", view.name, view.person, "statement", sheet)
    for care in view.care:
        name = f"care-{_slug(care.tree.tree)}"
        yield _page("care", care.tree, view.person, name, _care(care))
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
    return PaperPage(
        sort, f"{phrase(TITLES[sort])}: {called}", paper_page(person, name), tree, day, sheet
    )


def _slug(handle: str) -> str:
    return _NO_NAME.sub("-", handle)


def _care(view: CareView) -> CareSheet:
    picture = view.photograph
    shown = picture_of(picture, view.tree.name) if picture is not None else None
    return CareSheet(view, called(view.tree), shown)


# ------------------------------------------------------------------ the receipt


def _receipt(view: ReceiptView) -> ReceiptSheet:
    year = view.day.year
    apart = ""
    if view.apart:
        until = (
            phrase(" until {full_day}", full_day=full_day(view.apart_until))
            if view.apart_until
            else ""
        )
        apart = phrase(
            "It stands apart from other trees{until}, until we know that it is clean.", until=until
        )
    return ReceiptSheet(
        view,
        called(view.tree),
        full_day(view.came) if view.came else "",
        words.written(view.wanted, year - 1) if view.wanted is not None else "",
        words.money(view.insured, view.insured_currency) if view.insured is not None else "",
        words.money(view.deposit, view.deposit_currency) if view.deposit is not None else "",
        tuple(
            phrase(
                "{money} on {full_day}",
                money=words.money(one.amount or Decimal(0), one.currency),
                full_day=full_day(one.day),
            )
            for one in view.deposit_paid
        ),
        apart,
        tuple(picture_of(one, view.tree.name) for one in view.photographs),
    )


# ------------------------------------------------------------------ the provenance


def _provenance(view: ProvenanceView) -> ProvenanceSheet:
    return ProvenanceSheet(
        view,
        called(view.tree),
        words.written(view.here_since, 0) if view.here_since is not None else "",
        tuple((words.written(when, 0), sizes) for when, sizes in view.grown),
        picture_of(view.portrait, view.tree.name) if view.portrait is not None else None,
        tuple(
            Pair(
                words.sentence(pair.side) or phrase("The tree"),
                picture_of(pair.then, view.tree.name),
                picture_of(pair.now, view.tree.name),
            )
            for pair in view.pairs
        ),
    )
