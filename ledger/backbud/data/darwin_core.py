"""Writes a collection as a Darwin Core archive: living specimens and their sizes, by TDWG's terms.

Darwin Core Maintenance Group, "Darwin Core text guide" (TDWG, 2023), for the archive and its
`meta.xml`; terms by "List of Darwin Core terms". Nobody's name and no place stands in it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.sax.saxutils import escape

from backbud.data.plain_files import csv_bytes
from backbud.data.table import Cell
from backbud.views.dataset import DatasetView
from backbud.views.tree import TreeView

_TERMS = "http://rs.tdwg.org/dwc/terms/"
_CORE = (
    "occurrenceID", "basisOfRecord", "catalogNumber", "scientificName", "cultivarEpithet",
    "vernacularName", "individualCount", "degreeOfEstablishment", "disposition", "eventDate",
    "verbatimEventDate",
)  # fmt: skip
_MEASURED = ("measurementType", "measurementValue", "measurementUnit")
# What has become of it, in words as the term's own examples have them.
_DISPOSITIONS = {
    "here": "in collection", "lent": "on loan", "lost": "missing", "died": "dead",
    "sold": "no longer in collection", "returned": "no longer in collection",
}  # fmt: skip
_SIZE = re.compile(r"(?P<value>[\d.]+(?:-[\d.]+)?(?: x [\d.]+)*) (?P<unit>\S+)")
# ISO 8601; what EDTF marks as rough is told as written alone.
_ISO = re.compile(r"\d{4}(-(0[1-9]|1[0-2])(-\d\d)?)?")
# An archive that holds the same is the same, whenever it is made.
_NO_TIME = (1980, 1, 1, 0, 0, 0)


def archive_of(data: DatasetView) -> bytes:
    """The trees that are of the collection, as a zip file: for the keeper and helpers those that
    are nobody else's, for others all that they may read of."""
    import io
    from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

    own = [one for one in data.trees if data.eyes in ("owner", "public") or not one.owner]
    files = {
        "meta.xml": _meta(bool(data.journal)).encode(),
        "occurrence.csv": csv_bytes(("id", *_CORE), (_row(data, one) for one in own)),
        "measurementorfact.csv": csv_bytes(("coreid", *_MEASURED), _sizes(data, own)),
    }
    if data.journal:
        files["eml.xml"] = _about(data).encode()
    out = io.BytesIO()
    with ZipFile(out, "w", ZIP_DEFLATED) as archive:
        for name, content in files.items():
            info = ZipInfo(name, _NO_TIME)
            info.compress_type, info.external_attr = ZIP_DEFLATED, 0o644 << 16
            archive.writestr(info, content)
    return out.getvalue()


def _id(data: DatasetView, tree: TreeView) -> str:
    return f"{data.journal_id}:{tree.tree}" if data.journal_id else tree.tree


def _row(data: DatasetView, tree: TreeView) -> tuple[Cell, ...]:
    since = tree.since_written.text if tree.since_written is not None else ""
    since = since or (tree.since.isoformat() if tree.since is not None else "")
    counted = tree.batch.count if tree.batch is not None else 1
    standing = _DISPOSITIONS.get(tree.standing) if data.eyes != "public" else None
    return (
        *(2 * [_id(data, tree)]), "LivingSpecimen", tree.tree, tree.botanical or tree.kind,
        tree.cultivar or None, tree.kind, counted, "cultivated", standing,
        since if _ISO.fullmatch(since) else None, since or None,
    )  # fmt: skip


def _sizes(data: DatasetView, trees: list[TreeView]) -> Iterator[tuple[Cell, ...]]:
    for tree in trees:
        for what, size in tree.sizes.items():
            found = _SIZE.fullmatch(size)
            if found is not None:
                yield (_id(data, tree), what, found["value"], found["unit"])


def _meta(has_about: bool) -> str:
    """The metafile: which column of which file is which term."""
    about = ' metadata="eml.xml"' if has_about else ""
    core = _file("core", "id", "occurrence.csv", "Occurrence", _CORE)
    more = _file("extension", "coreid", "measurementorfact.csv", "MeasurementOrFact", _MEASURED)
    head = '<?xml version="1.0" encoding="UTF-8"?>\n'
    return f'{head}<archive xmlns="http://rs.tdwg.org/dwc/text/"{about}>\n{core}{more}</archive>\n'


def _file(element: str, key: str, name: str, row_type: str, terms: tuple[str, ...]) -> str:
    fields = "".join(
        f'    <field index="{n}" term="{_TERMS}{term}"/>\n' for n, term in enumerate(terms, 1)
    )
    return (
        f'  <{element} encoding="UTF-8" fieldsTerminatedBy="," linesTerminatedBy="\\r\\n"'
        f' fieldsEnclosedBy="&quot;" ignoreHeaderLines="1" rowType="{_TERMS}{row_type}">\n'
        f"    <files><location>{name}</location></files>\n"
        f'    <{key} index="0"/>\n{fields}  </{element}>\n'
    )


def _about(data: DatasetView) -> str:
    """What the data are of, as the Ecological Metadata Language 2.1.1 asks at the least."""
    name = escape(data.journal)
    party = f"<organizationName>{name}</organizationName>"
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<eml:eml xmlns:eml="eml://ecoinformatics.org/eml-2.1.1"'
        f' packageId="{escape(data.journal_id or "collection")}/{data.on}" system="backbud">\n'
        f"  <dataset>\n    <title>{name}: trees in containers</title>\n"
        f"    <creator>{party}</creator>\n    <pubDate>{data.on}</pubDate>\n"
        f"    <contact>{party}</contact>\n  </dataset>\n</eml:eml>\n"
    )
