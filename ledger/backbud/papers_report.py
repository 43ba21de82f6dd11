"""Lays out for a terminal what is in a person's papers, and what was kept as issued."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from backbud.issued.record import IssuedPaper
from backbud.pages.links import paper_page
from backbud.say import Heading
from backbud.tongue import full_day
from backbud.views.paper import PapersView
from backbud.words import money, number


def papers_lines(view: PapersView) -> Iterator[str]:
    """Each paper in a line or two, with what a receipt still lacks."""
    yield Heading(view.name)
    for receipt in view.receipts:
        came = f", came {full_day(receipt.came)}" if receipt.came else ""
        yield f"  receipt     {receipt.tree.name}{came}"
        if receipt.missing:
            yield f"              not in the diary: {', '.join(receipt.missing)}"
    if view.statement is not None:
        trees = number(len(view.statement.trees), "visit")
        bills = f", bill {', '.join(view.statement.numbers)}" if view.statement.numbers else ""
        yield f"  statement   {trees}{bills}"
        for sums in view.statement.sums:
            comes, due = (money(one, sums.currency) for one in (sums.comes_to, sums.due))
            yield f"              comes to {comes}, to pay {due}"
    for care in view.care:
        fuller = "in full, " if care.fuller else ""
        yield f"  care        {care.tree.name}: {fuller}by {care.place}"
    for one in view.provenance:
        yield f"  provenance  {one.tree.name}: {number(len(one.years), 'year')} of its history"
    folder = paper_page(view.person, "_").rpartition("/")[0]
    yield f"  Their pages are in made/{folder}/, after backbud make."


def issued_lines(kept: Sequence[IssuedPaper]) -> Iterator[str]:
    """What was kept, each with the beginning of its digest."""
    for one in kept:
        yield f"{one.file}  {one.digest[:12]}"
