"""Lays out for a terminal the lists of trees, places and pots."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from backbud.say import Heading
from backbud.tongue import full_day
from backbud.views.listed import ListedPlace, ListedPot, ListedTree
from backbud.words import number


def trees_lines(rows: Sequence[ListedTree]) -> Iterator[str]:
    """A tree a line: its handle, kind, where it stands, whose it is, what is on it."""
    if not rows:
        yield "No tree is so."
        return
    yield Heading(number(len(rows), "tree"))
    yield from _columns([_tree(row) for row in rows])


def places_lines(rows: Sequence[ListedPlace]) -> Iterator[str]:
    """A place a line, below what it is within, with what is over it and who stands there."""
    if not rows:
        yield "No place has a card yet. A card is: place NAME, and below it its cover."
        return
    yield Heading(number(len(rows), "place"))
    wide = max(len(row.place) + 2 * row.depth for row in rows)
    cover = max(len(row.cover) for row in rows)
    for row in rows:
        handle = f"{'  ' * row.depth}{row.place}"
        count = str(len(row.trees)) if row.trees else "–"
        shown = ", ".join(row.trees[:6])
        more = f" and {len(row.trees) - 6} more" if len(row.trees) > 6 else ""
        line = f"  {handle:<{wide}}  {row.cover:<{cover}}  {count:>3}  {shown}{more}"
        yield line.rstrip()


def pots_lines(rows: Sequence[ListedPot]) -> Iterator[str]:
    """A pot a line, the free ones first: its shape, its size, what it holds, who stands in it."""
    if not rows:
        yield "No pot has a card yet. A card is: pot NAME, and below it its shape and inside."
        return
    for heading, some in (
        ("Free", [row for row in rows if not row.tree]),
        ("In use", [row for row in rows if row.tree]),
    ):
        if some:
            yield Heading(f"{heading} ({len(some)})")
            yield from _columns([_pot(row) for row in some])


def _tree(row: ListedTree) -> tuple[str, ...]:
    where = row.place or "place not written"
    if row.standing != "here":
        where = f"{row.standing} {full_day(row.last)}" if row.last else row.standing
    kind = f"{row.kind} '{row.cultivar}'" if row.cultivar else row.kind
    whose = f"of {row.owner}" if row.owner else ""
    return (row.tree, kind, where, whose, ", ".join(row.on_tree))


def _pot(row: ListedPot) -> tuple[str, ...]:
    size = f"inside {row.inside}" if row.inside else f"outside {row.outside}" if row.outside else ""
    about = "about " if row.litres_by else ""
    litres = f"{about}{row.litres:.1f} L" if row.litres is not None else "size not written"
    return (row.pot, row.shape, size, litres, row.tree)


def _columns(rows: Sequence[tuple[str, ...]]) -> Iterator[str]:
    widths = [max(len(row[n]) for row in rows) for n in range(len(rows[0]))]
    for row in rows:
        cells = (cell.ljust(width) for cell, width in zip(row, widths, strict=True) if width)
        yield f"  {'  '.join(cells)}".rstrip()
