"""Writes tables as one SQLite database, with the meaning of each column in its schema."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from backbud.data.questions import QUESTIONS
from backbud.data.table import DataTable
from backbud.data.tables import VERSION

_SORTS = {"text": "TEXT", "integer": "INTEGER", "real": "REAL"}


def sqlite_of(tables: Iterable[DataTable]) -> bytes:
    """The bytes of a database: each table, an index for each reference to another, and the views of
    `questions.py`. Equal tables give equal bytes with the same version of SQLite."""
    import sqlite3

    found = tuple(tables)
    keys = {table.name: table.key for table in found}
    base = sqlite3.connect(":memory:")
    try:
        base.execute("PRAGMA foreign_keys = ON")
        base.execute(f"PRAGMA user_version = {VERSION}")
        for table in found:
            base.execute(_table(table, keys))
            marks = ", ".join("?" * len(table.columns))
            base.executemany(f"INSERT INTO {table.name} VALUES ({marks})", _parents_first(table))
            for statement in _indexes(table):
                base.execute(statement)
        for question in QUESTIONS:
            base.execute(f"CREATE VIEW {question.name} AS\n-- {question.about}\n{question.select}")
        base.commit()
        return base.serialize()
    finally:
        base.close()


def _table(table: DataTable, keys: dict[str, tuple[str, ...]]) -> str:
    """The statement that makes a table; SQLite keeps it as written, comments too."""
    lines = []
    for column in table.columns:
        must = " NOT NULL" if column.name in table.key else ""
        other = column.references
        refers = f" REFERENCES {other} ({keys[other][0]})" if other else ""
        lines.append((f'  "{column.name}" {_SORTS[column.sort]}{must}{refers},', column.about))
    width = max(len(line) for line, _ in lines)
    told = "\n".join(f"{line:{width}} -- {about}" for line, about in lines)
    key = ", ".join(table.key)
    return f"CREATE TABLE {table.name} (\n  -- {table.about}\n{told}\n  PRIMARY KEY ({key})\n)"


def _parents_first(table: DataTable) -> Iterator[tuple[object, ...]]:
    """The rows, each behind the one of the same table that it references."""
    own = [n for n, column in enumerate(table.columns) if column.references == table.name]
    if not own or own == [0]:
        yield from table.rows
        return
    rows, key = list(table.rows), table.key[0]
    at = next(n for n, column in enumerate(table.columns) if column.name == key)
    placed: set[object] = {None}
    while rows:
        ready = [row for row in rows if all(row[n] in placed for n in own)]
        yield from ready
        placed.update(row[at] for row in ready)
        rows = [row for row in rows if row[at] not in placed]
        if not ready:
            raise ValueError(f"rows of {table.name} reference each other in a circle")


def _indexes(table: DataTable) -> Iterator[str]:
    for column in table.columns:
        if column.references and table.key[0] != column.name:
            yield f"CREATE INDEX {table.name}_{column.name} ON {table.name} ({column.name})"
