"""Finds what stands twice: a copied file or page, and the two versions that a merge left.

To read it twice, or to choose a version, would be a guess. Only pages so short that two people may
have written them alike count twice, and where they are many that is told.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from backbud.journal.copy_names import is_of_conflict, original_of
from backbud.journal.edited_copies import (
    two_keepers,
    without_edited_copies,
    without_pasted_pages,
)
from backbud.journal.line_order import likelier_first, rests, sorted_as
from backbud.journal.outlined import Outlined
from backbud.journal.pasted import adds_up
from backbud.memo import Memo
from backbud_grammar.outline import Known
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Stray

# A day on which as much was done is hardly written twice by chance, word for word.
MANY_ACTS = 3
# The flaw of pages that stand in a file at rest and still in the one they came from.
RESTS_AND_STANDS = "at-rest-too"
# So many lines where a copy differs are told.
MOST_TOLD = 6


# ------------------------------------------------------------------ copies of a file


class Copies(NamedTuple):
    """`counting`: the files that count, with the pages and lines that do."""

    counting: Mapping[str, Outlined]
    flaws: Sequence[tuple[str, Flaw]]


def copies_among(files: Mapping[str, Outlined], known: Known, kept: Memo) -> Copies:
    """Find each file of which every page and card stands in another, each that was copied and
    edited, and each page that stands twice, word for word.

    Two helpers may honestly write the same short page: such are read, and told where they are much.
    Of files that say the same, the one with the shortest name counts: a copy's is longer.
    `kept`: what an earlier run of this process left.
    """
    repeated: dict[str, str] = {}
    flaws: list[tuple[str, Flaw]] = []
    for name, other in _alike(files):
        if name not in repeated and other not in repeated:
            repeated[name] = other
            flaws.append((name, _whole(other, files[name])))
    for name in sorted(files.keys() - repeated.keys()):
        other = original_of(name, files)
        if other and other not in repeated and _is_copy(name, files[name], files[other]):
            repeated[name] = other
            flaws.append((name, _by_name(other, files[name], files[other])))
    counting = {name: file for name, file in files.items() if name not in repeated}
    for name, other, again in _left_behind(files):
        if name in counting and other in counting:
            counting[name] = without_pages(files[name], frozenset([one.line for one in again]))
            flaws.append((name, _rests_and_stands(other, again)))
    mended = without_edited_copies(counting, known, kept)
    counting, flaws = mended.files, [*flaws, *mended.flaws]
    # Most journals say nothing twice, which is quick to tell where nothing was left out yet.
    twice = _again(counting) if flaws or _says_twice(counting) else {}
    for (name, other), again in twice.items():
        file = files[name]
        long = [one for one in again if one.acts >= MANY_ACTS]
        short = [one for one in again if one.acts < MANY_ACTS]
        if name == other:
            pasted = [one for one in short if adds_up(file.data, one.line, one.lines)]
            long, short = [*long, *pasted], [one for one in short if one not in pasted]
            long.sort()
        counting[name] = without_pages(counting[name], frozenset([one.line for one in long]))
        ends = _ends(file) if long else {}
        for n, run in enumerate(_runs(long, ends)):
            also = len(short) if n == 0 else 0
            flaws.append((name, _counts_once(name, other, run, ends[run[-1].line], also)))
        if name == other and long:
            # Where a page was pasted again, another that was edited since may stand there, too.
            counting[name], more = without_pasted_pages(name, counting[name], known)
            flaws += more
        if not long and _is_much(short, file) and not _by_two(name, other, counting, known):
            flaws.append((name, _overlap(name, other, short, len(file.pages))))
    return Copies(counting, flaws)


def without_pages(file: Outlined, lines: frozenset[int] | None) -> Outlined:
    """The file without the pages that begin on these lines."""
    if not lines:
        return file
    return file._replace(pages=[one for one in file.pages if one[0] not in lines])


def twin_of(name: str) -> str:
    """The file that one at rest came from."""
    return sorted_as(name)[0]


def _left_behind(files: Mapping[str, Outlined]) -> Iterator[tuple[str, str, list[_Again]]]:
    """The pages at rest that still stand in the file they came from too: a run of `rest` that was
    stopped leaves them there, however short they are."""
    for name in filter(rests, files):
        other = twin_of(name)
        there = (
            {kept.said.digest: line for line, kept in files[other].pages}
            if (other in files)
            else {}
        )
        again = [
            _Again(line, there[kept.said.digest], kept.said.indented, kept.lines)
            for line, kept in files[name].pages
            if kept.said.digest in there
        ]
        if again:
            yield name, other, again


class _Again(NamedTuple):
    """A page that stands somewhere before: its first line, and that of the other (0 first), how
    many indented lines it has, and how many lines in all."""

    line: int
    first: int
    acts: int
    lines: int


def _again(files: Mapping[str, Outlined]) -> Mapping[tuple[str, str], list[_Again]]:
    """By file and the file that holds them before, the pages that stand twice.

    Before are a shorter name, and lines further up.
    """
    first: dict[bytes, tuple[str, int]] = {}
    found: dict[tuple[str, str], list[_Again]] = {}
    for name in sorted(files, key=likelier_first):
        for line, kept in files[name].pages:
            other, at = first.setdefault(kept.said.digest, (name, line))
            if (other, at) != (name, line):
                again = _Again(line, at, kept.said.indented, kept.lines)
                found.setdefault((name, other), []).append(again)
    return found


def _says_twice(files: Mapping[str, Outlined]) -> bool:
    """Whether some page or card stands twice in these files, of which no page was left out."""
    there = sum([len(file.pages) + len(file.cards) for file in files.values()])
    return len(frozenset[bytes]().union(*[file.said for file in files.values()])) < there


def _ends(file: Outlined) -> Mapping[int, int]:
    """By the first line of each section of a file the line behind its last (0 first)."""
    begins = {line for line, _ in (*file.pages, *file.strays)} | {one.line for one in file.cards}
    return dict(pairwise((*sorted(begins), file.data.count(b"\n") + 1)))


def _runs(pages: Sequence[_Again], ends: Mapping[int, int]) -> Iterator[list[_Again]]:
    """Pages parted into those of which one follows upon the other."""
    run: list[_Again] = []
    for page in pages:
        if run and ends[run[-1].line] != page.line:
            yield run
            run = []
        run.append(page)
    if run:
        yield run


def _is_much(short: Sequence[_Again], file: Outlined) -> bool:
    """Whether short pages that stand twice are as much as is hardly written by chance: enough acts,
    and half of the file."""
    return sum(one.acts for one in short) >= MANY_ACTS and 2 * len(short) >= len(file.pages)


def _by_two(name: str, other: str, files: Mapping[str, Outlined], known: Known) -> bool:
    """Whether two keepers wrote two files, whose routine is the same."""
    return name != other and two_keepers(files[other], files[name], known)


def _whole(other: str, file: Outlined) -> Flaw:
    return Flaw(
        "repeated-file",
        0,
        1,
        1,
        f"everything in this file stands in {other} too",
        f"{other} counts, and nothing of this one was read. Take one of the two away.",
        lines=file.data.count(b"\n") + 1,
    )


def _is_copy(name: str, file: Outlined, other: Outlined) -> bool:
    """Whether a file with the name of a copy holds something of the other: a page or card, what was
    done to a tree on a day, or, where the name tells of a conflict, a page of the same day."""
    if not file.said.isdisjoint(other.said):
        return True
    if _days(file).isdisjoint(_days(other)):
        return False
    return is_of_conflict(name) or not _done(file).isdisjoint(_done(other))


def _done(file: Outlined) -> set[tuple[str, ...]]:
    """Each indented line with its day and the line at the left edge above it, blanks aside."""
    done: set[tuple[str, ...]] = set()
    day = whose = ""
    days = {line: kept.section.date for line, kept in file.pages}
    for number, line in enumerate(file.data.decode(errors="replace").split("\n")):
        words = line.split()
        if number in days:
            day, whose = days[number], ""
        elif words and not line[0].isspace():
            whose = " ".join(words)
        elif words and day and whose and words[0][0] != "#":
            done.add((day, whose, *words))
    return done


def _days(file: Outlined) -> set[str]:
    return {kept.section.date for _, kept in file.pages}


def _by_name(other: str, file: Outlined, original: Outlined) -> Flaw:
    """That a copy, by its name, holds what the other does not: which of the two is right is not
    known, so nothing is done twice, and what differs is told."""
    there, differ, line = original.said, list[int](), 1
    for kept in file.row:
        if not isinstance(kept.section, Stray) and kept.said.digest not in there:
            differ.append(line)
        line += kept.lines
    told = ", ".join(str(line) for line in differ[:MOST_TOLD])
    more = f" and {len(differ) - MOST_TOLD} more" if len(differ) > MOST_TOLD else ""
    return Flaw(
        "repeated-file",
        0,
        1,
        1,
        f"by its name this file is a copy of {other}, and they differ",
        f"{other} counts, and nothing of this one was read. What only this one has begins on line "
        f"{told}{more}: bring it over, and take this file away.",
        lines=file.data.count(b"\n") + 1,
    )


def _rests_and_stands(other: str, again: Sequence[_Again]) -> Flaw:
    one = len(again) == 1
    more = "" if one else f" and {_pages(len(again) - 1, 'more')}"
    return Flaw(
        RESTS_AND_STANDS,
        again[0].line,
        1,
        1,
        f"this page{more} still stand{'s' * one} in {other} too",
        f"{'It counts' if one else 'They count'} once, as written there. backbud rest takes "
        f"{'it' if one else 'them'} out there.",
    )


def _counts_once(name: str, other: str, long: Sequence[_Again], end: int, short: int) -> Flaw:
    one = len(long) == 1
    what = "this page stands" if one else f"this page and {_pages(len(long) - 1, 'more')} stand"
    hint = (
        f"{'It counts' if one else 'They count'} once, as written there. Take the second writing "
        "away."
    )
    if short:
        hint += f" {_pages(short, 'shorter')} written twice count{'s' * (short == 1)} twice."
    return Flaw(
        "repeated-page",
        long[0].line,
        1,
        1,
        f"{what} in {_where(name, other, long[0])} too, word for word",
        hint,
        lines=end - long[0].line,
    )


def _overlap(name: str, other: str, short: Sequence[_Again], among: int) -> Flaw:
    hint = "Take the second writing away, if they were not meant twice."
    if name != other:
        hint = (
            "If one is a copy of the other, bring what is new into one of the two, and take the "
            "other away."
        )
    return Flaw(
        "repeated-pages",
        short[0].line,
        1,
        1,
        f"{len(short)} of the {among} pages of this file stand "
        f"{'further up' if name == other else f'in {other}'} too, word for word, and count twice",
        hint,
        "warning",
    )


def _pages(count: int, sort: str) -> str:
    return f"{count} {sort} page{'s' * (count != 1)}"


def _where(name: str, other: str, page: _Again) -> str:
    return f"line {page.first + 1}" if name == other else other


def _alike(files: Mapping[str, Outlined]) -> Iterator[tuple[str, str]]:
    """Pairs of files, the likelier copy first, of which all of the first stands in the other."""
    # What is left of a file, and what of it rests, are one: neither is a copy of another.
    apart = {one for name in filter(rests, files) if (one := twin_of(name)) in files}
    said = {
        name: file.said
        for name, file in files.items()
        if (file.pages or file.cards) and twin_of(name) not in apart
    }
    if len(said) < 2:
        return
    # By its first page or card each file.
    firsts: dict[bytes, list[str]] = {}
    for name, digests in said.items():
        first = next(kept.said.digest for kept in files[name].row if kept.said.digest in digests)
        firsts.setdefault(first, []).append(name)
    holders: dict[str, list[str]] = {}
    for other in sorted(said, key=likelier_first):
        for first in firsts.keys() & said[other]:
            for name in firsts[first]:
                if name != other and said[name] <= said[other]:
                    holders.setdefault(name, []).append(other)
    for name in sorted(holders, key=_likelier_copy_first):
        for other in holders[name]:
            # What stands above every date is no page that could be compared.
            if not files[name].strays or files[name].digest == files[other].digest:
                yield name, other


def _likelier_copy_first(name: str) -> tuple[int, str, bool]:
    plain, stays = sorted_as(name)
    return -len(plain), plain, stays
