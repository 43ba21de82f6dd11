"""A work as it is judged: done on a day, or planned for some days."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from backbud.collection.hard_work import stresses
from backbud.journal.events import Event
from backbud.tongue import phrase
from backbud_grammar.act_words import ActWord


class Deed(Struct, frozen=True):
    """A work that was done on a day, or is planned for the days from `first` to `last`.

    `hard`: so that it takes strength; `roots`: it is root work. `what`: as it was written.
    `planned`: it is not done yet.
    """

    act: ActWord
    first: date
    last: date
    hard: bool
    roots: bool
    what: str
    planned: bool = False

    @property
    def judged(self) -> str:
        """How a sentence that judges it begins: `It was repotted on …`, `It would be …`."""
        if self.planned:
            return phrase("It would be {said}", said=self.said)
        return phrase("It was {said}", said=self.said)

    @property
    def said(self) -> str:
        """`repotted on 2026-06-20`, `repotted between 2027-03-01 and 2027-04-10`."""
        if self.first == self.last:
            return phrase("{act} on {first}", act=phrase(self.act), first=self.first)
        return phrase(
            "{act} between {first} and {last}",
            act=phrase(self.act),
            first=self.first,
            last=self.last,
        )


def deed_of(done: Event) -> Deed:
    """What was done, on its day."""
    roots = "root_work" in done.row.traits
    return Deed(done.act, done.day, done.day, stresses(done), roots, done.text)
