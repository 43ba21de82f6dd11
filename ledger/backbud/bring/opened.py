"""Opens a list, whatever file it is: by what the file holds, not by its name alone."""

from __future__ import annotations

import os
import stat

from msgspec import Struct

from backbud.bring.archive import OPEN_DOCUMENT, part_names
from backbud.bring.matched import known_headings
from backbud.bring.sheet import MOST_FILE_BYTES, BringError, ListSheet
from backbud.bring.text_table import open_text

_ZIP, _OLD_WORKBOOK = b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_MARKUP = (b"<?xml", b"<html", b"<!doctype", b"<table")
_CALENDAR = b"BEGIN:VCALENDAR"
_INSTALL = ".venv/bin/pip install --editable '.[sheets]'"


class OpenedList(Struct, frozen=True):
    """The sheets of a file, and whether they are the entries of a calendar."""

    sheets: tuple[ListSheet, ...]
    is_calendar: bool = False


def read_list(path: str) -> bytes:
    """The bytes of the file; BringError where there is none, or it is too large."""
    try:
        # A pipe would be waited for until somebody writes into it.
        if not stat.S_ISREG(os.stat(path).st_mode):
            raise BringError("this is no file")
        with open(path, "rb") as file:
            found = os.fstat(file.fileno())
            if found.st_size > MOST_FILE_BYTES:
                raise BringError(f"it is larger than {MOST_FILE_BYTES >> 20} MB; part it")
            return file.read(MOST_FILE_BYTES + 1)
    except OSError as error:
        raise BringError(f"it cannot be read: {error.strerror or error}") from None


def open_list(data: bytes, encoding: str, separator: str) -> OpenedList:
    """Open it. `encoding`, `separator`: what the keeper said of plain text, "" where nothing.

    BringError where it cannot be read; Undecided where plain text can be meant in several ways.
    """
    if data.startswith(_OLD_WORKBOOK):
        raise BringError(
            "this is an old workbook, or one with a password; save it as .xlsx or .csv without one"
        )
    if data.startswith(_ZIP):
        return OpenedList(_of_archive(data))
    begins = data.removeprefix(b"\xef\xbb\xbf").lstrip()[: len(_CALENDAR)]
    if begins.lower().startswith(_MARKUP):
        raise BringError("this is markup, whatever it is named; save it as .xlsx, .ods or .csv")
    if begins.upper() == _CALENDAR:
        from backbud.bring.past_calendar import open_calendar

        return OpenedList(open_calendar(data), is_calendar=True)
    return OpenedList((open_text(data, encoding, separator, known_headings),))


def _of_archive(data: bytes) -> tuple[ListSheet, ...]:
    try:
        if OPEN_DOCUMENT in part_names(data):
            from backbud.bring.open_document import open_document

            return open_document(data)
        from backbud.bring.workbook import open_workbook

        return open_workbook(data)
    except ModuleNotFoundError as error:
        raise BringError(f"spreadsheets want {error.name}: {_INSTALL}") from None
