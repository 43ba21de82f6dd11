"""Lays out labels of 50 x 25 mm: a tree's name, its kind, and a QR code of its page where one knows
its address."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from msgspec import Struct

from backbud import words
from backbud.collection.state import Tree
from backbud.memo import NO_MEMO, Memo
from backbud.pages.bench import NO_PLACE
from backbud.pages.links import label_anchor, link, place_page, tree_page
from backbud.tongue import phrase

# A name of more letters than these is set smaller, so that it keeps to two lines.
SHORT_NAME = 16
# ISO/IEC 18004: the level that a code is read at when 15 % of it is soiled, and the light margin.
_LEVEL, _QUIET = "m", 4
# Any of the eight masks is read; to try which one is best takes nearly all the time.
_MASK = 2


class TreeLabel(Struct, frozen=True):
    """A label. `code`: the QR code drawn, "" where no address is known."""

    ident: str
    name: str
    page: str
    kind: str
    cultivar: str
    long: bool
    code: str


class LabelSheet(Struct, frozen=True):
    """The labels of a place. `place_page`: the way to it; `coded`: they have a QR code."""

    title: str
    place_page: str
    coded: bool
    labels: tuple[TreeLabel, ...]


def sheet(
    place: str, place_name: str, trees: Sequence[Tree], address: str, kept: Memo = NO_MEMO
) -> LabelSheet:
    """Lay out the labels of a place. Its page stands two folders down. `address`: where the pages
    are served."""
    return LabelSheet(
        phrase("Labels, {place_name}", place_name=words.sentence(place_name or phrase(NO_PLACE))),
        link(place_page(place), "../../"),
        bool(address),
        tuple(_label(tree, address, kept) for tree in trees),
    )


def _label(tree: Tree, address: str, kept: Memo) -> TreeLabel:
    page = tree_page(tree.handle)
    code = ""
    if address:
        of_page = link(page, f"{address.rstrip('/')}/")
        code = kept.once(("label", tree.handle), (of_page,), lambda: qr_code(of_page))
    return TreeLabel(
        label_anchor(tree.handle),
        tree.title,
        link(page, "../../"),
        tree.kind,
        tree.cultivar,
        len(tree.title) > SHORT_NAME,
        code,
    )


def qr_code(text: str) -> str:
    """The code as SVG: dark on light also where the page is dark, or no camera reads it."""
    from segno import make_qr

    matrix = make_qr(text, error=_LEVEL, mask=_MASK).matrix
    size = len(matrix) + 2 * _QUIET
    return (
        f'<svg class="qr" viewBox="0 0 {size} {size}" role="img" aria-label="QR code of its page" '
        f'shape-rendering="crispEdges"><path fill="#fff" d="M0 0h{size}v{size}h-{size}z"/>'
        f'<path stroke="#000" d="{"".join(_runs(matrix))}"/></svg>'
    )


def _runs(matrix: Iterable[Iterable[int]]) -> list[str]:
    """The dark modules of each row, those side by side in one stroke."""
    found = []
    for y, row in enumerate(matrix):
        x = _QUIET
        for dark, run in groupby(row):
            length = len(list(run))
            if dark:
                found.append(f"M{x} {y + _QUIET + 0.5:g}h{length}")
            x += length
    return found
