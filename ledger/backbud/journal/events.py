"""The event: one act of the diary, with its date, its details and the line it stands on."""

from __future__ import annotations

from datetime import date
from typing import Literal

from msgspec import Struct

from backbud.journal.line_order import line_order
from backbud_grammar.act_words import ActWord, DetailName, DetailWord, as_word
from backbud_grammar.by_row import by_row
from backbud_grammar.dates import WrittenDate
from backbud_grammar.forms import NO_ACT, ActForm
from backbud_grammar.measures import Measure, is_money
from backbud_grammar.syntax import Detail


@by_row
def may_be_for_keeper(row: ActForm) -> bool:
    """Whether a line of an act may be for the keeper alone, though nothing else is spoken of."""
    return "for_keeper" in row.traits or _tells_money(row)


def _tells_money(row: ActForm) -> bool:
    """Whether an act has words for money."""
    return any(is_money(sort) for form in row.forms for sort in form.sorts)


class Origin(Struct, frozen=True, gc=False):
    """The line of the journal that something grew from; line and column count from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}"


class Event(Struct, frozen=True, gc=False):
    """One act on one page: the act in its past form, its date, its details, its remark.

    `named`: the act that a plan, a skip, a put-off or a correction speaks of, `named_row` its row
    of the table. `text`: the details
    as written. `subjects`: the subject line as written; it may name other people's trees, so it
    is never shown to an owner. `held`: the past form of an act that is held back; then `act` is
    `HELD`, which no rule knows, so that it stands in the history and changes nothing. `kept`: the
    words that were not used. `row`: the act's row of the journal's table, `NO_ACT` of what is held
    back; `held_row`: the row of what is. `own`: the line as written, where own words of the keeper
    stand in it, or where it was said in other words; then `text` is what they mean. `hour`: its
    own, or its page's, as written (`10:30`), "" where none; `turn`: where hours are written of its
    day the minute that it comes at, else -1.
    """

    act: ActWord
    when: WrittenDate
    details: tuple[Detail, ...]
    text: str
    remark: str
    named: ActWord | Literal[""]
    subjects: str
    file: str
    line: int
    column: int
    held: str = ""
    kept: tuple[str, ...] = ()
    row: ActForm = NO_ACT
    named_row: ActForm = NO_ACT
    held_row: ActForm = NO_ACT
    own: str = ""
    hour: str = ""
    turn: int = -1

    @property
    def order(self) -> tuple[date, int, tuple[str, bool, int]]:
        """What lines of the diary are sorted by: day, minute of it where hours are written, file
        and line."""
        return self.when.first, self.turn, line_order(self)

    @property
    def day(self) -> date:
        """The (earliest) day of the act."""
        return self.when.first

    @property
    def exact(self) -> bool:
        """Whether the day is known; only then follow-ups grow from it."""
        return self.when.exact

    @property
    def origin(self) -> Origin:
        return Origin(self.file, self.line, self.column)

    @property
    def written(self) -> str:
        """The act as a line: `repotted same pot, 2 cm off below`."""
        return f"{self.said} {self.text}".rstrip()

    @property
    def said(self) -> str:
        """The past form of the act, whether it is held back or not."""
        return self.held or self.act

    def was(self, *acts: ActWord) -> bool:
        """Whether it is one of these acts."""
        return self.act in acts

    def all(self, name: DetailName) -> tuple[Detail, ...]:
        """Every detail of that name."""
        return tuple([d for d in self.details if d.name == name])

    def first(self, name: DetailName) -> Detail | None:
        """The first detail of that name, or None."""
        # Asked of every line, by every rule: as plainly as can be.
        for detail in self.details:
            if detail.name == name:
                return detail
        return None

    def has(self, name: DetailName) -> bool:
        """Whether a detail of that name stands there."""
        return self.first(name) is not None

    def says(self, *words: DetailWord) -> bool:
        """Whether one of these words or phrases stands among the words of a detail."""
        for detail in self.details:
            said = detail.words
            for word in words:
                # Most of what is asked for stands there not even as a part of a word.
                if detail.name == word or (word in said and f" {word} " in f" {said} "):
                    return True
        return False

    def measure(self, name: DetailName) -> Measure | None:
        """The measure of the first detail of that name, or None."""
        found = self.first(name)
        return found.measure if found else None

    def mentions(self, *words: str) -> bool:
        """As `says`, of words that are free: `with a rake`."""
        return self.says(*map(as_word, words))

    @property
    def is_for_keeper(self) -> bool:
        """Whether it is for the keeper alone: what is private or speaks of that, and of money.

        What is held back may speak of all that its act has words for.
        """
        # Every line of every page asks this, so it is asked plainly.
        if not (self.named or self.held or may_be_for_keeper(self.row)):
            return False
        row = self.held_row if self.held else self.row
        if "for_keeper" in row.traits or "for_keeper" in self.named_row.traits:
            return True
        for detail in self.details:
            if detail.measure is not None and is_money(detail.measure.sort):
                return True
        return bool(self.held) and _tells_money(row)

    @property
    def parts(self) -> tuple[str, ...]:
        """Every part of the tree that is named, but for what was left out."""
        return tuple([d.part for d in self.details if d.part and d.name != "except"])
