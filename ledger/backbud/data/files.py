"""Writes all the files that a journal is given out as data in."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.data.darwin_core import archive_of
from backbud.data.plain_files import csv_files
from backbud.data.sqlite import sqlite_of
from backbud.data.tables import tables_of
from backbud.views.dataset import DatasetView
from backbud.views.published import as_json

DATABASE, JSON, ARCHIVE = "journal.sqlite", "journal.json", "collection.zip"


def data_files(data: DatasetView) -> Iterator[tuple[str, bytes]]:
    """Name and bytes of each file."""
    tables = tables_of(data)
    yield DATABASE, sqlite_of(tables)
    yield JSON, as_json(data).encode()
    yield from csv_files(tables)
    yield ARCHIVE, archive_of(data)
