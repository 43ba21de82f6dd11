"""The words of an act that belong to no detail."""

from __future__ import annotations

import re

from backbud_grammar.act_reading import ActReading
from backbud_grammar.lexicon import SHARES

_RUN = re.compile(r"[^,\s][^,]*")


def unread_in(text: str, reading: ActReading) -> tuple[str, ...]:
    """Return the runs of words, between commas, that belong to no detail.

    The act that a plan, a skip or a correction names is one of the words that were read.
    """
    left = list(text)

    def blank(start: int, end: int) -> None:
        left[start:end] = " " * (min(end, len(left)) - start) if start < len(left) else ""

    if reading.named:
        blank(0, len(text.split(None, 1)[0]))
    for detail, start in zip(reading.details, reading.starts, strict=True):
        blank(start + detail.offset, start + detail.offset + detail.length)
    runs = (found[0].rstrip() for found in _RUN.finditer("".join(left)))
    return tuple(run for run in runs if run not in SHARES)


def words_over(text: str, reading: ActReading) -> tuple[str, ...]:
    """Return the words of an act that were not used."""
    return unread_in(text, reading) if reading.flaws else ()
