"""Parts each file into pages and cards, and outlines only those that no earlier run has read."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache, partial
from itertools import chain, pairwise
from typing import Any, NamedTuple

import msgspec
from msgspec import Struct

from backbud.journal import remember
from backbud.journal.copies import Copies, copies_among
from backbud.journal.events import Origin
from backbud.journal.faults import fault_at
from backbud.journal.hashed_dates import without_hashed_dates
from backbud.journal.load import Loaded
from backbud.journal.merge_marks import without_conflicts
from backbud.journal.outlined import Outlined
from backbud.journal.page_text import PageText, page_text
from backbud.journal.problems import PlacedFlaw, WithFlaws, placed
from backbud.journal.same_words import words_in_each
from backbud.journal.second_process import MANY_LINES, SecondProcess, begun_beside, later_of
from backbud.journal.things import PlacedCard, Things
from backbud.journal.weather.named import weather_file_name
from backbud.memo import Identical, Memo
from backbud.publish.memory import MemoryOf
from backbud_grammar.digest import digest
from backbud_grammar.forms import ActForm
from backbud_grammar.outline import Known, read_section_text, sections
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Card, Stray

_WEATHER = re.compile(rb"^[ \t]+weather[ \t]+([^\n]+)", re.MULTILINE | re.IGNORECASE)


ThingsAhead = tuple[Sequence[PlacedCard], WithFlaws[Things]]
ReadCards = Callable[[Sequence[PlacedCard]], ThingsAhead | None]


class Parted(Struct, frozen=True):
    """The files by name, and of those that count the cards.

    `fresh`: how many sections are new. `weather_files`: those that a place's card names as weather;
    they are no part of the diary. `ahead`: some cards that were read meanwhile, and what they say.
    """

    files: Mapping[str, Outlined] = {}
    cards: tuple[PlacedCard, ...] = ()
    card_digests: tuple[bytes, ...] = ()
    fresh: int = 0
    weather_files: frozenset[str] = frozenset()
    copies: Copies = Copies({}, ())
    ahead: ThingsAhead | None = None

    def counting(self) -> dict[str, Outlined]:
        """The files that count, with the pages that do."""
        return dict(self.copies.counting)

    def rows(self) -> dict[bytes, list[remember.Kept[Any]]]:
        """The sections of every file, by the digest of its bytes."""
        return {file.digest: file.row for file in self.files.values()}


def _without_what_misleads(data: bytes) -> tuple[bytes, tuple[Flaw, ...]]:
    """The text without the two versions of a merge, and with dates behind hashes as ends."""
    text, of_merge = without_conflicts(data)
    text, of_dates = without_hashed_dates(text)
    return text, (*of_merge, *of_dates)


def outlined_files(
    loaded: Mapping[str, Loaded],
    acts: Mapping[str, ActForm],
    memory: MemoryOf,
    known: remember.Memory,
    kept: Memo,
    read_cards: ReadCards | None = None,
) -> WithFlaws[Parted]:
    """Outline every file but those that a place's card names as weather.

    `known`: what was read before. `kept`: what an earlier run of this process left. `read_cards`:
    reads the cards that are known while a second process parts other files; where it is given, one
    may.
    """
    merged = {name: _without_what_misleads(text.data) for name, text in loaded.items()}
    files = {name: data for name, (data, _) in merged.items()}
    # To put all sections there are by their digests is worth it only where some file is new.
    by_digest = cache(
        partial(kept.once, "sections", (Identical(known), known.things), partial(_by_digest, known))
    )
    marks = {name: digest(data) for name, data in files.items()} if read_cards is not None else {}
    before = _ReadBefore(Known.of(acts), known, kept, by_digest, set(), marks)
    perhaps = _perhaps_weather(files)
    second = _begun_by_second(files, before) if read_cards is not None else None
    here = [name for name in files if second is None or name not in second.files]
    found = {
        name: _contained(name, files[name], before, memory) for name in here if name not in perhaps
    }
    ahead: ThingsAhead | None = None
    if second is not None and read_cards is not None:
        values = [one.value for one in found.values() if one.value is not None]
        ahead = read_cards([card for one in values for card in one.cards])
        second.take_over(before)
        found |= {
            name: _contained(name, files[name], before, memory)
            for name in second.files
            if name not in perhaps
        }
    weather_files = _named_as_weather(found, perhaps)
    for name in sorted(perhaps - weather_files):
        found[name] = _contained(name, files[name], before, memory)
    outlined = {name: one.value for name, one in found.items() if one.value is not None}
    copies = copies_among(outlined, before.language, kept)
    counting = copies.counting.values()
    flaws = [flaw for one in found.values() for flaw in one.flaws]
    for name in (name for name in files if name not in weather_files):
        flaws += placed(name, 0, (*loaded[name].flaws, *merged[name][1]))
    flaws += [PlacedFlaw(name, 0, flaw) for name, flaw in copies.flaws]
    return WithFlaws(
        Parted(
            outlined,
            tuple(chain.from_iterable(file.cards for file in counting)),
            tuple(chain.from_iterable(file.card_digests for file in counting)),
            len(before.fresh),
            weather_files,
            copies,
            ahead,
        ),
        tuple(flaws),
    )


# ------------------------------------------------------------------ which files are weather


def _perhaps_weather(files: Mapping[str, bytes]) -> frozenset[str]:
    """The files that some line names as weather; it may be no line of a card."""
    return frozenset(
        name
        for data in files.values()
        if b"weather" in data
        for found in _WEATHER.finditer(data)
        if (name := weather_file_name(found[1].decode())) in files
    )


def _named_as_weather(
    found: Mapping[str, WithFlaws[Outlined | None]], perhaps: frozenset[str]
) -> frozenset[str]:
    """Those that a place's card does name."""
    if not perhaps:
        return perhaps
    return frozenset(
        name
        for one in found.values()
        if one.value is not None
        for placed in one.value.cards
        if placed.card.kind == "place"
        for line in placed.card.lines
        if line.text.casefold().startswith("weather")
        if (name := weather_file_name(line.text[len("weather") :])) in perhaps
    )


# ------------------------------------------------------------------ one file


class _ReadBefore(NamedTuple):
    """What sections are outlined by: the language, what was read before, by this process too, and
    by digest every section there was; with the digests of those that are new. `marks`: of files, as
    far as their digests were reckoned before they are looked at."""

    language: Known
    memory: remember.Memory
    kept: Memo
    by_digest: Callable[[], dict[bytes, remember.Kept[Any]]]
    fresh: set[bytes]
    marks: Mapping[str, bytes]


def _outlined(name: str, data: bytes, known: _ReadBefore) -> Outlined:
    """The sections of a file."""
    whole = known.marks.get(name) or digest(data)
    row: list[remember.Kept[Any]] | None = known.memory.files.get(whole)
    # A foreign memory may leave out some of a file.
    if row is None or sum(kept.lines for kept in row) < data.count(b"\n"):
        row = _new_row(data, known)
    said = frozenset([kept.said.digest for kept in row if not isinstance(kept.section, Stray)])
    out = Outlined(data, whole, row, [], [], [], [], said)
    line = 0
    for kept in row:
        section = kept.section
        if isinstance(section, PageText):
            out.pages.append((line, kept))
        elif isinstance(section, Card):
            out.cards.append(PlacedCard(section, name, line))
            out.card_digests.append(kept.digest)
        elif section.blocks or section.flaws:
            out.strays.append((line, section))
        line += kept.lines
    return out


def _new_row(data: bytes, known: _ReadBefore) -> list[remember.Kept[Any]]:
    """The sections of a file that is new or was edited; most of them are known all the same."""
    by_digest = known.by_digest()
    parted = sections(data)
    parts = [text for _, text in parted]
    lines = [end - begin for (begin, _), (end, _) in pairwise(parted)]
    lines.append(parts[-1].count(b"\n"))
    # Blank lines behind a section say nothing: with more of them it is the same.
    marks = [digest(text.rstrip()) for text in parts]
    new = {
        mark: (text, so_many)
        for mark, text, so_many in zip(marks, parts, lines, strict=True)
        if mark not in by_digest
    }
    known.fresh.update(new)
    said = words_in_each([text for text, _ in new.values()])
    for (mark, (text, so_many)), words in zip(new.items(), said, strict=True):
        written = text.decode()
        section = page_text(written) or read_section_text(written, known.language)
        by_digest[mark] = remember.Kept(mark, so_many, words, section)
    row: list[remember.Kept[Any]] = []
    for mark, so_many in zip(marks, lines, strict=True):
        kept = by_digest[mark]
        if kept.lines != so_many:
            kept = remember.Kept(mark, so_many, kept.said, kept.section, kept.sound)
        row.append(kept)
    return row


class _PartedBySecond(NamedTuple):
    """The rows of some files, which a second process makes. `files`: by name the digest of each."""

    files: dict[str, bytes]
    second: SecondProcess

    def take_over(self, known: _ReadBefore) -> None:
        """Take over the rows as they come, and remember them as if an earlier run had; those that
        do not come are not."""
        by_digest = known.by_digest()
        for mark, data in zip(self.files.values(), self.second.pieces(), strict=False):
            row = known.memory.files[mark] = _ROW.decode(data)
            for kept in row:
                if by_digest.setdefault(kept.digest, kept) is kept:
                    known.fresh.add(kept.digest)


_ROW = msgspec.msgpack.Decoder(list[remember.Kept[remember.Recalled]])


def _begun_by_second(files: Mapping[str, bytes], known: _ReadBefore) -> _PartedBySecond | None:
    """The last of the new files, parted by a second process; None where that would gain nothing, or
    cannot be had."""
    new = [name for name in files if known.marks[name] not in known.memory.files]
    lines = {name: files[name].count(b"\n") for name in new}
    if sum(lines.values()) < MANY_LINES:
        return None
    of_cards = [data for data in files.values() if not data[:1].isdigit()]
    cards = sum([data.count(head) for data in of_cards for head in _MANY_CARDS])
    share = _SHARE + _LINES_OF_CARD * cards / (2 * sum(lines.values()))
    later = later_of(lines, min(share, _MOST))
    second = begun_beside(partial(_rows, [files[name] for name in later], known))
    if second is None:
        return None
    return _PartedBySecond({name: known.marks[name] for name in later}, second)


def _rows(files: Sequence[bytes], known: _ReadBefore) -> Iterator[bytes]:
    for data in files:
        yield msgspec.msgpack.encode(_new_row(data, known))


# Of the lines so many are parted by the second process: the first looks through all files, and
# reads the cards, each of which takes it as long as to part so many lines. Most are of these kinds,
# and in files that begin with one.
_SHARE, _MOST, _LINES_OF_CARD = 0.58, 0.8, 28
_MANY_CARDS = (b"\ntree ", b"\npot ")


def _by_digest(memory: remember.Memory) -> dict[bytes, remember.Kept[Any]]:
    return {kept.digest: kept for row in memory.files.values() for kept in row}


def _contained(
    name: str, data: bytes, known: _ReadBefore, memory: MemoryOf
) -> WithFlaws[Outlined | None]:
    """The sections of a file; None where that failed by a fault of ours."""
    try:
        inputs = (data, Identical(known.memory))
        work = partial(_outlined, name, data, known)
        return WithFlaws(known.kept.once(("outlined", name), inputs, work))
    except Exception as error:
        hint = "The file was left out; all else was read."
        flaw = fault_at(Origin(name, 1, 1), {name: data}, memory, "this file", error, hint)
        return WithFlaws(None, (flaw,))
