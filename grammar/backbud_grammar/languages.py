"""Says which language a day's page is read by, and leaves out of the tables what came later.

A language is a number: that of the tables as they stood when it was given out. What a later one
adds to them (an act, a detail, a way of saying something) carries its number, so that a page is
read again as it was read then, with nothing remembered anywhere.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from backbud_grammar.forms import ActForm

# The newest language that this version reads.
LANGUAGE = 1


class Languages(Struct, frozen=True):
    """By which language a journal's pages are read: `first`, and from a day on another."""

    first: int = LANGUAGE
    later: tuple[tuple[date, int], ...] = ()

    def on(self, day: date) -> int:
        """The language of a day's page."""
        language = self.first
        for since, later in self.later:
            if day >= since:
                language = later
        return language

    def is_open(self, newest: int) -> bool:
        """Whether nobody has said yet from when on the newest language is read."""
        return newest > self.first and all(later < newest for _, later in self.later)

    @property
    def text(self) -> str:
        """All that reading hangs on, as a text."""
        return " ".join((str(self.first), *(f"{since} {later}" for since, later in self.later)))


ALWAYS_NEWEST = Languages()


def table_of(acts: Mapping[str, ActForm], language: int) -> dict[str, ActForm]:
    """The table of acts of a language: without the acts and the details that came later."""
    return {
        word: _as_of(form, language) for word, form in acts.items() if form.language <= language
    }


def _as_of(form: ActForm, language: int) -> ActForm:
    forms = tuple([one for one in form.forms if one.language <= language])
    return form if len(forms) == len(form.forms) else replace(form, forms=forms)
