"""The tables of trees: what each is, how it grows, what is on it, and what was done to it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from backbud.data.table import Cell, DataTable, cell, figure_column, text, whole
from backbud.views.dataset import DatasetView

_TREE = text("tree", "its handle", "trees")
_TREES = (
    text("tree", "its handle, or the name that these eyes know it by"),
    text("name", "what people call it"),
    text("kind", "the species as written"),
    text("cultivar", "the cultivar"),
    text("botanical", "its botanical name, where the species is known"),
    text("standing", "here, sold, lent, returned, died, lost, or not yet"),
    text("standing_since", "since when it is gone"),
    text("since", "the day it came"),
    text("since_written", "when it came as the card has it (EDTF where rough)"),
    text("owner", "whose it is; nothing: the keeper's own", "people"),
    text("place", "where it stands", "places"),
    text("pot", "what it stands in", "pots"),
    text("mix", "what it is potted in, as written"),
    text("strength", "as written: weak, fair, strong"),
    whole("planted_out", "1: it stands in open ground"),
    whole("quarantined", "1: it is kept apart"),
    text("wanted", "by when its owner wants it, as written"),
    whole("count", "how many stand under the handle, where it is a batch that was counted"),
    text("parted_from", "the batch that it was one of"),
)
_FACTS = (_TREE, text("label", "a label of its card"), text("value", "as written"))
_SIZES = (
    _TREE,
    text("what", "trunk, height, spread, root ball …"),
    text("size", "as written, last"),
    figure_column("longest_cm", "the longest of its sides, where it is written in mm, cm or m"),
)
_VIGOUR = (
    _TREE,
    text("zone", "a part of the tree, or all of it"),
    whole("score", "1 (weakest) to 5"),
    text("seen", "the day of the look"),
)
_WEDGES = (
    _TREE,
    text("wedge", "of the root ball as seen from above, the front being south"),
    text("opened", "the day it was last opened"),
)
_ON_TREES = (
    _TREE,
    whole("number", "counts what is on one tree"),
    text("sort", "wire, guy, wrap, tie, mesh, protection, shade, layer, graft"),
    text("what", "as a person says it"),
    text("part", "where on the tree; nothing: all of it"),
    whole("count", "how many"),
    figure_column("thickness_mm", "of wire, guys and ties"),
    text("since", "the day it was put on"),
    whole("from_before", "1: it was there before the last potting"),
    text("bites", "the day it is reckoned to bite"),
)
_ENTRIES = (
    whole("entry", "counts all lines"),
    _TREE,
    text("first_day", "the day, or the earliest that a rough date can mean"),
    text("last_day", "the day, or the latest that a rough date can mean"),
    text("date_written", "the date as written (ISO 8601, EDTF)"),
    text("act", "the act in its past form"),
    text("details", "its details as written"),
    text("remark", "what was said beside it"),
    whole("done", "1: it counts; 0: taken back, or held back"),
    whole("held_back", "1: not all of it was understood, so it changes nothing"),
    text("words_kept", "the words that were not used"),
    whole("shared_among", "how many trees share what is a total in it"),
    whole("of", "to how many of a batch it was done; nothing: to all"),
    text("within", "the batch that the tree was one of then"),
    whole("private", "1: for the keeper's eyes only"),
    text("at", "file and line where it stands"),
    text("hour", "the hour as written, its own or its page's (ISO 8601)"),
)
_DETAILS = (
    whole("entry", "the line", "entries"),
    whole("number", "counts the details of one line"),
    text("name", "what the detail tells"),
    text("words", "its words, or the handle it names"),
    text("measure", "its measure as a person writes it"),
    figure_column("figure", "the first number, of a range the middle, in the unit beside it"),
    text("unit", "SI symbol, ISO 4217 code, or nothing"),
    text("per", "the unit behind the stroke of a rate"),
    whole("count", "how many of them"),
    text("part", "the part of the tree"),
)
_PHOTOGRAPHS = (
    _TREE,
    whole("number", "counts the photographs of one tree"),
    text("first_day", "the day of its page"),
    text("taken", "the day its camera says"),
    text("side", "front, back, left, right, above, roots, detail"),
    text("file", "its copy among the pages"),
)
_LENGTHS = {"mm": 0.1, "cm": 1.0, "m": 100.0}
_SIDES = re.compile(r"([\d.]+(?: x [\d.]+)*) (mm|cm|m)")

Rows = Iterator[tuple[Cell, ...]]


def tree_tables(data: DatasetView) -> tuple[DataTable, ...]:
    """The trees, and all that hangs on one of them."""
    return (
        DataTable("trees", "Every tree and batch, those that are gone too.", _TREES, ("tree",),
                  tuple(_trees(data))),
        DataTable("facts", "What else a tree's card says.", _FACTS, ("tree", "label"),
                  tuple((one.tree, fact.label, cell(fact.value))
                        for one in data.trees for fact in one.facts)),
        DataTable("sizes", "The sizes of trees as last measured.", _SIZES, ("tree", "what"),
                  tuple((one.tree, what, size, longest_cm(size))
                        for one in data.trees for what, size in one.sizes.items())),
        DataTable("vigour", "How the zones of a tree grew when last looked at.", _VIGOUR,
                  ("tree", "zone"),
                  tuple((one.tree, zone or "all", score, cell(one.vigour_seen[zone]))
                        for one in data.trees for zone, score in one.vigour.items())),
        DataTable("root_wedges", "When each part of a root ball was last opened.", _WEDGES,
                  ("tree", "wedge"),
                  tuple((one.tree, wedge, cell(day))
                        for one in data.trees for wedge, day in one.opened.items())),
        DataTable("on_trees", "What is on a tree or in its pot now.", _ON_TREES,
                  ("tree", "number"), tuple(_things(data))),
        DataTable("entries", "What was written of each tree, a line of the diary each.", _ENTRIES,
                  ("entry",), tuple(_entries(data))),
        DataTable("details", "The details of those lines, each by its type.", _DETAILS,
                  ("entry", "number"), tuple(_details(data))),
        DataTable("photographs", "The photographs of trees.", _PHOTOGRAPHS, ("tree", "number"),
                  tuple((one.tree, number, cell(photo.when.first), cell(photo.taken),
                         cell(photo.side), photo.large)
                        for one in data.trees
                        for number, photo in enumerate(one.photographs, 1))),
    )  # fmt: skip


def longest_cm(size: str) -> float | None:
    """The longest side of a size as it is written, in centimetres; None where it is no length.

    >>> longest_cm("34 x 24 x 6 cm"), longest_cm("120 mm"), longest_cm("2 kg")
    (34.0, 12.0, None)
    """
    found = _SIDES.fullmatch(size)
    if found is None:
        return None
    return round(max(map(float, found[1].split(" x "))) * _LENGTHS[found[2]], 3)


def _trees(data: DatasetView) -> Rows:
    for one in data.trees:
        count = one.batch.count if one.batch is not None else None
        yield (
            one.tree, cell(one.name), cell(one.kind), cell(one.cultivar), cell(one.botanical),
            one.standing, cell(one.standing_since), cell(one.since),
            cell(one.since_written.text if one.since_written is not None else ""),
            cell(one.owner), cell(one.place), cell(one.pot), cell(one.mix_name), cell(one.strength),
            int(one.planted_out), int(one.quarantined), cell(one.wanted), count,
            cell(one.parted_from),
        )  # fmt: skip


def _things(data: DatasetView) -> Rows:
    for one in data.trees:
        for number, thing in enumerate(one.on_it, 1):
            yield (one.tree, number, thing.sort, cell(thing.what), cell(thing.part), thing.count,
                   cell(thing.thickness_mm), cell(thing.since), int(thing.from_before),
                   cell(thing.bites))  # fmt: skip


def _entries(data: DatasetView) -> Rows:
    lines = ((one.tree, line) for one in data.trees for line in one.history)
    for number, (tree, line) in enumerate(lines, 1):
        yield (
            number, tree, cell(line.when.first), cell(line.when.last), line.date, line.act,
            cell(line.text), cell(line.remark), int(line.done), int(line.held_back),
            cell("; ".join(line.kept)), line.shared_among, line.of, cell(line.within),
            int(line.private), cell(line.at), cell(line.hour),
        )  # fmt: skip


def _details(data: DatasetView) -> Rows:
    entry = 0
    for tree in data.trees:
        told = data.details.get(tree.tree, ())
        for line in range(len(tree.history)):
            entry += 1
            for number, one in enumerate(told[line] if told else (), 1):
                figure = float(one.number) if one.number is not None else None
                yield (entry, number, one.name, cell(one.words), cell(one.measure), figure,
                       cell(one.unit), cell(one.per), one.count, cell(one.part))  # fmt: skip
