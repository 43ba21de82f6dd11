"""Reads the `words` cards: the keeper's own words, from which day on each is read, and what is
wrong with one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from functools import cached_property

from msgspec import Struct

from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, WithFlaws
from backbud.journal.things import PlacedCard, Things
from backbud_grammar.dates import read_date
from backbud_grammar.forms import ActForm
from backbud_grammar.own_words import OwnTable, folded_run, wrong_meaning, wrong_run
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.syntax import CardLine

KIND = "words"
# Two blanks, or a tab, part the keeper's words from those of the language.
_GAP = re.compile(r"[ \t]{2,}|\t")


class OwnWord(Struct, frozen=True):
    """A run of the keeper's words, what it stands for, and the day from which on it does.

    `past`: whether earlier pages are read so: `yes`, `no`, or "" where nobody has said.
    """

    run: tuple[str, ...]
    meaning: str
    since: date
    past: str
    origin: Origin


class OwnWords:
    """Every own word of a journal, and the table of a day. `lines`: the file and line (1 first) of
    all that was used of the cards."""

    def __init__(
        self, words: tuple[OwnWord, ...] = (), lines: frozenset[tuple[str, int]] = frozenset()
    ) -> None:
        self.words, self.lines = words, lines
        self._tables: dict[tuple[bool, ...], OwnTable] = {}

    def on(self, day: date) -> OwnTable:
        """The table that a page of a day is read by."""
        if not self.words:
            return _NONE
        held = tuple([word.past == "yes" or day >= word.since for word in self.words])
        table = self._tables.get(held)
        if table is None:
            some = {w.run: w.meaning for w, counts in zip(self.words, held, strict=True) if counts}
            table = self._tables[held] = OwnTable.of(some)
        return table

    @cached_property
    def meanings(self) -> str:
        """All that reading hangs on, as a text."""
        return "\n".join(f"{w.run} {w.meaning} {w.since} {w.past == 'yes'}" for w in self.words)


_NONE = OwnTable()
NO_OWN_WORDS = OwnWords()


class _Section(Struct):
    """The words below one `since`."""

    since: date | None
    past: str
    words: list[tuple[CardLine, str, str]]


def own_words(
    cards: Iterable[PlacedCard], acts: Mapping[str, ActForm], things: Things
) -> WithFlaws[OwnWords]:
    """The own words of these cards; a line that is wrong is told and left out."""
    found: dict[tuple[str, ...], OwnWord] = {}
    used: set[tuple[str, int]] = set()
    flaws: list[PlacedFlaw] = []
    for card in cards:
        sections, of_card = _sections(card)
        flaws += [PlacedFlaw(card.file, card.line, flaw) for flaw in of_card]
        told = {flaw.line + n for flaw in of_card for n in range(flaw.lines)}
        lines = {0, *(line.line for line in card.card.lines)} - told
        used |= {(card.file, card.line + line + 1) for line in lines}
        for section in sections:
            for line, run, meaning in section.words:
                first = found.get(folded_run(run))
                wrong = _wrong(run, meaning, acts, things, first)
                if wrong is not None:
                    code, message, hint = wrong
                    flaw = Flaw(code, line.line, line.column, len(run), message, hint)
                    flaws.append(PlacedFlaw(card.file, card.line, flaw))
                elif section.since is not None:
                    origin = Origin(card.file, card.line + line.line + 1, line.column)
                    key = folded_run(run)
                    since = section.since
                    found[key] = OwnWord(key, meaning, since, section.past, origin)
    lines_used = frozenset(used - {(flaw.file, flaw.number) for flaw in flaws})
    return WithFlaws(OwnWords(tuple(found.values()), lines_used), tuple(flaws))


def _wrong(
    run: str, meaning: str, acts: Mapping[str, ActForm], things: Things, first: OwnWord | None
) -> tuple[str, str, str] | None:
    """The code, the message and the hint of what is wrong with an own word."""
    wrong = wrong_run(run, acts)
    if wrong:
        return "own-word", wrong, "Begin it with a word that is only yours."
    thing = things.find(run.split()[0])
    if thing is not None:
        message = f"“{run.split()[0]}” is a handle of a {thing.kind}"
        return "own-word", message, f"Its card stands in {thing.origin}."
    if first is not None:
        hint = "Take one of the two out."
        return "own-word", f"“{run}” stands for “{first.meaning}” ({first.origin})", hint
    wrong = wrong_meaning(meaning)
    hint = "Your words, two blanks, then words of the language: uekae  repotted."
    return ("own-word", wrong, hint) if wrong else None


def _sections(placed: PlacedCard) -> tuple[list[_Section], list[Flaw]]:
    sections = [_Section(None, "", [])]
    flaws: list[Flaw] = []
    for line in placed.card.lines:
        label, value = (*line.text.split(None, 1), "")[:2]
        label = label.casefold()
        if label == "since":
            since, flaw = _since(value, line)
            flaws += flaw
            sections.append(_Section(since, "", []))
        elif label == "past":
            if sections[-1].past:
                hint = "Below each “since” it stands once."
                message = "“past” stands here twice, and the first counts"
                flaws.append(Flaw("said-twice", line.line, line.column, 4, message, hint))
            elif value.casefold() in ("yes", "no"):
                sections[-1].past = value.casefold()
            else:
                hint = "past yes: earlier pages are read so, too; past no: they stay as they are."
                message = "“past” says yes or no"
                flaws.append(Flaw("bad-value", line.line, line.column, 4, message, hint))
        elif label not in ("note", "notes"):
            gap = _GAP.search(line.text)
            run = line.text[: gap.start()] if gap else line.text
            meaning = line.text[gap.end() :].strip() if gap else ""
            sections[-1].words.append((line, run, " ".join(meaning.split())))
    flaws += _without_day(sections)
    return sections, flaws


def _since(value: str, line: CardLine) -> tuple[date | None, list[Flaw]]:
    hint = "Write the day from which on these words are yours: since 2027-03-06."
    try:
        when = read_date(value)
    except Misread as error:
        return None, [Flaw(error.code, line.line, line.column, 5, error.message, hint)]
    if not when.exact:
        message = f"“{value}” is no exact day"
        return None, [Flaw("rough-date", line.line, line.column, 5, message, hint)]
    return when.first, []


def _without_day(sections: list[_Section]) -> Iterator[Flaw]:
    """That no day stands above words: nobody can tell from which on they are read."""
    words = [line for one in sections if one.since is None for line, _, _ in one.words]
    if words:
        first = words[0]
        message = "no day stands above these words, so they are not read yet"
        hint = "Write the day from which on they are yours above them: since 2027-03-06."
        count = words[-1].line - first.line + 1
        yield Flaw(
            "own-word-since",
            first.line,
            first.column,
            len(first.text),
            message,
            hint,
            lines=count,
        )
