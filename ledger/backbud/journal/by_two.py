"""Reads the later pages of a large new diary in a second process, while this one reads the others.

The second one sends back what an earlier run would have remembered of these pages, so that this one
finds them read; whatever it did not send is read here.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator, Mapping, Sequence
from functools import partial
from itertools import chain, islice
from typing import NamedTuple, TypeVar

import msgspec
from msgspec import Raw, Struct

from backbud.journal.dated import Said, SoundActs
from backbud.journal.outlined import Outlined
from backbud.journal.page_text import PageText
from backbud.journal.pages import ReadPage
from backbud.journal.problems import WithFlaws
from backbud.journal.remember import Kept, Memory, Sound
from backbud.journal.second_process import MANY_LINES, SecondProcess, begun_beside, later_of
from backbud_grammar.details import Reading
from backbud_grammar.parse import Details
from backbud_grammar.shape import SHAPES, Part
from backbud_grammar.syntax import Subjects

# Of the lines so many are read by the second process: what it found is to be sent, too. The other
# is of pages that come before all others; where there are such, the first process reads no more.
_SHARE, _SHARE_OF_FIRST = 0.48, 0.46
# What is sent at once, of so many lines and more.
_LINES_OF_GROUP = 5_000

# Looks whether nothing is wrong in a page, and keeps that with it: by file, line and page.
LookAt = Callable[[str, int, Kept[PageText]], WithFlaws[ReadPage | None]]
_NewPage = tuple[str, int, Kept[PageText]]
NewPages = list[_NewPage]
_Value = TypeVar("_Value")


class _Sent(Struct, frozen=True, array_like=True, gc=False):
    """What the second process found. `pages`: the places of those that it looked at among all that
    are its; `sounds`: of each of them, in order. The others: as they are remembered."""

    pages: list[int]
    sounds: list[Sound | None]
    readings: dict[str, dict[str, Reading]]
    subjects: dict[str, Subjects]
    said: dict[str, dict[str, Said]]
    shapes: dict[str, tuple[Part, ...] | None]


class _SentRaw(Struct, frozen=True, array_like=True, gc=False):
    """The same as it is taken over: most of it is only remembered, and never asked for."""

    pages: list[int]
    sounds: list[Sound | None]
    readings: dict[str, dict[str, Raw]]
    subjects: dict[str, Subjects]
    said: dict[str, dict[str, Raw]]
    shapes: dict[str, tuple[Part, ...] | None]


class PagesOfSecond:
    """Pages that a second process reads, group by group. `files`: the names of those that they
    stand in, by group. `left`: those of them that come before all others and that it leaves to
    this process. `first`: those that came before all others, once they did."""

    def __init__(
        self,
        files: Sequence[Sequence[str]],
        pages: NewPages,
        left: NewPages,
        second: SecondProcess,
    ) -> None:
        self.files, self.left, self.first = files, left, NewPages()
        self._pages, self._pieces = pages, second.pieces()

    def take_over(self, known: Memory, details: Details) -> Iterator[Sequence[str]]:
        """Wait for what was found of each group in turn, and remember that as if an earlier run
        had; where that failed, nothing. After each, the files that are now known: of the first
        pages, none."""
        for files in ((), *self.files):
            data = next(self._pieces, None)
            if data is not None:
                found = _SENT.decode(data)
                pages = [self._pages[at] for at in found.pages]
                _remember(found, pages, known, details)
                self.first = self.first or pages
            yield files


def _remember(found: _SentRaw, pages: NewPages, known: Memory, details: Details) -> None:
    for (_, _, page), sound in zip(pages, found.sounds, strict=True):
        page.sound = sound
    for word, texts in found.said.items():
        known.said.setdefault(word, {}).update(texts)
    for key in found.readings:
        # Before any of them is kept, what was remembered of them must be here.
        details.readings_of(key)
        known.readings_beside.setdefault(key, {}).update(found.readings[key])
    details.known_subjects.update(found.subjects)
    SHAPES.parsed.update(found.shapes)
    SHAPES.has_new = SHAPES.has_new or bool(found.shapes)


_SENT = msgspec.msgpack.Decoder(_SentRaw)


def many_new(files: Mapping[str, Outlined]) -> dict[str, NewPages]:
    """The pages of each file of which nobody found so far that nothing is wrong in them; nothing
    where they are so few that a second process would gain nothing."""
    new = {
        name: [(name, line, page) for line, page in file.pages if page.sound is None]
        for name, file in files.items()
    }
    return new if sum(_lines_of(new).values()) >= MANY_LINES else {}


def _lines_of(new: Mapping[str, NewPages]) -> dict[str, int]:
    return {name: sum(page.lines for _, _, page in pages) for name, pages in new.items()}


def pages_of_second(
    new: Mapping[str, NewPages],
    details: Details,
    said: SoundActs,
    look_at: LookAt,
    comes_first: Callable[[str], object] | None = None,
) -> PagesOfSecond | None:
    """These pages of the last files, read by a second process; None where there can be none.

    `said`: the acts that are known to be sound, to which `look_at` adds. `comes_first`: whether a
    page of such a text is to come before all others; given where this process has more to do than
    to read, as soon as it knows the pages of the next days. Then it is left nothing but a share of
    those.
    """
    lines = _lines_of(new)
    ours: set[str] = set()
    if comes_first is None:
        groups = [later_of(lines, _SHARE)]
    else:
        groups = list(_grouped(new, lines))
        ours = new.keys() - later_of(lines, _SHARE_OF_FIRST)
    pages = [[page for name in group for page in new[name]] for group in groups]
    second = begun_beside(partial(_found, pages, ours, details, said, look_at, comes_first))
    if second is None:
        return None
    whole = [*chain(*pages)]
    mine = [page for page in whole if page[0] in ours]
    left = [mine[at] for at in _first_of(mine, comes_first)]
    return PagesOfSecond(groups, whole, left, second)


def _first_of(pages: NewPages, comes_first: Callable[[str], object] | None) -> list[int]:
    """The places of the pages that are to come before all others."""
    if comes_first is None:
        return []
    return [at for at, (_, _, one) in enumerate(pages) if comes_first(one.section.text)]


def _grouped(files: Iterable[str], lines: Mapping[str, int]) -> Iterator[list[str]]:
    """The files in groups of at least `_LINES_OF_GROUP` lines, but for the last."""
    group: list[str] = []
    for name in files:
        group.append(name)
        if sum([lines[one] for one in group]) >= _LINES_OF_GROUP:
            yield group
            group = []
    if group:
        yield group


def _found(
    groups: Sequence[NewPages],
    ours: Container[str],
    details: Details,
    said: SoundActs,
    look_at: LookAt,
    comes_first: Callable[[str], object] | None,
) -> Iterator[bytes]:
    """What is found in the pages that come first, and then in each group, as far as nothing is
    wrong in them. `ours`: the files whose first pages the other process reads."""
    pages = [*chain(*groups)]
    first = _first_of(pages, comes_first)
    done, begin, of_each = {*first}, 0, [[at for at in first if pages[at][0] not in ours]]
    for group in groups:
        end = begin + len(group)
        of_each.append([at for at in range(begin, end) if at not in done])
        begin = end
    so_far = _SoFar.of(details, said)
    for some in of_each:
        for at in some:
            name, line, page = pages[at]
            try:
                look_at(name, line, page)
            except Exception:
                page.sound = None
        found = _Sent(
            some,
            [pages[at][2].sound for at in some],
            {key: _since(of, so_far.readings.get(key, 0)) for key, of in details.readings.items()},
            _since(details.known_subjects, so_far.subjects),
            {word: _since(of, so_far.said.get(word, 0)) for word, of in said.items()},
            _since(SHAPES.parsed, so_far.shapes),
        )
        so_far = _SoFar.of(details, said)
        yield msgspec.msgpack.encode(found)


class _SoFar(NamedTuple):
    """How many readings there were by act or card, subject lines, sound acts by word, and
    shapes."""

    readings: dict[str, int]
    subjects: int
    said: dict[str, int]
    shapes: int

    @classmethod
    def of(cls, details: Details, said: SoundActs) -> _SoFar:
        return cls(
            {key: len(of) for key, of in details.readings.items()},
            len(details.known_subjects),
            {word: len(of) for word, of in said.items()},
            len(SHAPES.parsed),
        )


def _since(of: dict[str, _Value], so_many: int) -> dict[str, _Value]:
    """What was added to a mapping that had so many."""
    added = [*islice(reversed(of.items()), len(of) - so_many)]
    return dict(reversed(added))
