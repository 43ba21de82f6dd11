"""Finds in the diary as it is the lines that were written, or changed, long after their day."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from backbud.journal.line_keys import line_keys
from backbud.journal.written_when import LateLine, WrittenWhen, key_digest


def late_lines(
    texts: Mapping[str, bytes], written: WrittenWhen, today: date
) -> dict[str, LateLine]:
    """By where they stand (`diary/2027.txt:12`) the lines that came late, or were changed late, by
    the end of a day."""
    if not written.late:
        return {}
    return {
        f"{file}:{number}": found
        for file, text in texts.items()
        if file.lower().endswith(".txt")
        for number, key in line_keys(text)
        if key.day
        and (found := written.late.get(key_digest(key))) is not None
        and found.on <= today
    }
