"""A dated page as its text: what its first line says is read, all else waits until it is asked for.

Most pages of a diary are read line by line (`by_lines.py`), and never outlined at all.
"""

from __future__ import annotations

from msgspec import Struct

from backbud_grammar.outline import LONGEST_LINE, Known, day_line, read_section_text
from backbud_grammar.syntax import Page


class PageText(Struct, frozen=True, array_like=True, gc=False, tag="page"):
    """What the first line of a page says, and its whole text."""

    date: str
    weather: str
    weather_column: int
    text: str
    hour: str = ""

    def read(self, known: Known) -> Page:
        """Its outline."""
        page = read_section_text(self.text, known)
        assert isinstance(page, Page)
        return page


def page_text(text: str) -> PageText | None:
    """The page that a section is; None where it is none, or its first line is no line of a hand."""
    first = text.partition("\n")[0]
    if not "0" <= first[:1] <= "9" or len(first) > LONGEST_LINE:
        return None
    date, hour, weather, column = day_line(first.rstrip())
    return PageText(date, weather, column, text, hour)
