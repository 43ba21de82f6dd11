"""Writes a date as ISO 8601 has it: one fix for each day that it may mean."""

from __future__ import annotations

import re
from collections.abc import Iterator

from backbud.editor.fixes.asked import Fix, ToMend, here
from backbud_grammar.dates import dates_meant

CODES = ("bad-date", "no-such-date", "bad-heading", "indented-date")
_ISO = re.compile(r"\b\d{4}(?:-\d{2}){1,2}\b")


def iso_date(asked: ToMend) -> Iterator[Fix]:
    """An indented one comes to the left edge, too."""
    if asked.code not in CODES:
        return
    written = asked.written
    if asked.code == "indented-date":
        written = asked.text.line(asked.line).strip()
    meant = dates_meant(written) or list(dict.fromkeys(_ISO.findall(asked.hint)))
    begin = 0 if asked.code == "indented-date" else asked.column
    length = asked.column - begin + len(written)
    for one in meant:
        edit = asked.over(begin, length, one)
        yield here(asked, f"Write {one}", edit, sure=len(meant) == 1)
