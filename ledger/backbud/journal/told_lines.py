"""Tells which lines of two texts of one day are one, and which may be two versions of one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from backbud.journal.outlined import Outlined
from backbud.journal.page_text import PageText
from backbud.journal.remember import Kept
from backbud.journal.same_words import words_in
from backbud_grammar.acts import acts_with
from backbud_grammar.digest import digest
from backbud_grammar.handles import fold
from backbud_grammar.outline import Known

# What is done again on the same day, or is told again and adds nothing.
AGAIN_AND_AGAIN = acts_with("daily_keep") | {"noted", "private"}
# What two people may both write of one day, each of what they did or saw themselves.
OF_EACH = AGAIN_AND_AGAIN | {
    *("worked", "used", "counted", "misted", "ventilated", "measured", "staged", "bloomed"),
    *("fruited", "vigour", "drained", "shown", "valued"),
}


# What may be done, undone and done again on one day.
TO_AND_FRO = {"moved", "planted-out", "shaded", "unshaded", "protected", "unprotected"}
# What nobody words as somebody else does, from so many words behind the act on.
IN_OWN_WORDS = {"noted", "private", "measured"}
_A_SENTENCE = 4
_BLANK = (" ", "\t")


class ToldLine(NamedTuple):
    """An act's line in a file: of which page (its first line, 0 first), from its line to the one
    behind its last; the day and hour of the page, its subject line, its own words with one blank
    between, and the past form of its act ("" where that is in no table).

    `begin`: the subject line, where it stands right below it; else its own.
    """

    page: int
    begin: int
    line: int
    end: int
    day: str
    hour: str
    subject: str
    words: str
    act: str

    @property
    def key(self) -> tuple[str, str, str, str]:
        """What is the same of two writings of one line."""
        return self.day, self.hour, self.subject, self.words

    @property
    def again_and_again(self) -> bool:
        """Whether it tells of what may be done again and again, or only says something."""
        return self.act in AGAIN_AND_AGAIN

    @property
    def is_telling(self) -> bool:
        """Whether two people hardly write it both: what is done once to this tree on a day."""
        return self.act not in OF_EACH and self.subject.partition(" ")[0] != "all"

    @property
    def tells_a_copy(self) -> bool:
        """The same, and whole sentences and measures, which two say each in their own way."""
        return self.is_telling or (
            self.act in IN_OWN_WORDS and self.words.count(" ") >= _A_SENTENCE
        )


def told_lines(file: Outlined, known: Known, days: Container[str] | None = None) -> list[ToldLine]:
    """Every act of a file's pages; of those days alone, where some are given."""
    return [
        told
        for line, kept in file.pages
        if days is None or kept.section.date in days
        for told in lines_of_page(line, kept.section, known)
    ]


def lines_of_page(first: int, page: PageText, known: Known) -> Iterator[ToldLine]:
    """The acts of a page that begins on the line `first` (0 first) of its file."""
    written, outline = page.text.split("\n"), page.read(known)
    begins = {block.line for block in outline.blocks if block.subjects}
    begins |= {act.line for block in outline.blocks for act in block.acts}
    ends = dict(pairwise((*sorted(begins), len(written))))
    for block in outline.blocks:
        subject = " ".join(block.subjects.split())
        for act in block.acts:
            own = [one for one in written[act.line : ends[act.line]] if one.lstrip()[:1] != "#"]
            end = first + ends[act.line]
            words, row = " ".join(" ".join(own).split()), known.acts.get(act.word.casefold())
            begin = block.line if act is block.acts[0] and block.subjects else act.line
            at = (first, first + begin, first + act.line, end, page.date, act.hour or page.hour)
            yield ToldLine(*at, subject, words, "" if row is None else row.word)


class HeldAgainst(NamedTuple):
    """The lines of two files: of the second those that the first has too; of both those that stand
    in one of them alone; and of these, in pairs, those that may be two versions of one."""

    both: Sequence[ToldLine]
    first_alone: Sequence[ToldLine]
    second_alone: Sequence[ToldLine]
    versions: Sequence[tuple[ToldLine, ToldLine]]


def held_against(
    first: Sequence[ToldLine], second: Sequence[ToldLine], is_copy: bool
) -> HeldAgainst:
    """Hold the lines of two files against each other. `is_copy`: of one text; so what stands there
    under another day, or another tree, may be the same line mended."""
    both, second_alone = _taken(second, first)
    _, first_alone = _taken(first, second)
    of_day: dict[str, list[ToldLine]] = {}
    said: dict[tuple[str, str], list[ToldLine]] = {}
    for here in first_alone:
        if not here.again_and_again:
            of_day.setdefault(here.day, []).append(here)
            said.setdefault((here.subject, here.words), []).append(here)
    theirs = [one for one in second_alone if not one.again_and_again]
    # By the day there, that day; and another, from which some line of it may have been moved.
    days = {there.day: {there.day} for there in theirs}
    for there in theirs if is_copy else ():
        days[there.day] |= {one.day for one in said.get((there.subject, there.words), ())}
    versions = [
        (here, there)
        for there in theirs
        for day in sorted(days[there.day])
        for here in of_day.get(day, ())
        if _are_versions(here, there, is_copy)
    ]
    return HeldAgainst(both, first_alone, second_alone, versions)


def _taken(
    lines: Sequence[ToldLine], others: Sequence[ToldLine]
) -> tuple[list[ToldLine], list[ToldLine]]:
    """The lines that others have too, as often as they do, and the rest."""
    left = Counter([one.key for one in others])
    both: list[ToldLine] = []
    alone: list[ToldLine] = []
    for one in lines:
        left[one.key] -= 1
        (both if left[one.key] >= 0 else alone).append(one)
    return both, alone


def _are_versions(here: ToldLine, there: ToldLine, is_copy: bool) -> bool:
    """Whether two lines of a day may be versions of one: they tell of the same act, be it for a
    tree of both or in the same words. Other words than the tables' may tell of any act."""
    same_act = here.act == there.act or not (here.act and there.act)
    if not is_copy:
        return same_act and here.subject == there.subject
    return here.words == there.words or (same_act and _of_one_tree(here.subject, there.subject))


def _of_one_tree(one: str, other: str) -> bool:
    """Whether two subject lines may name one tree."""
    named = [{fold(word) for word in text.replace(",", " ").split()} for text in (one, other)]
    return "all" in named[0] | named[1] or not named[0].isdisjoint(named[1])


# ------------------------------------------------------------------ what counts of a page


def without_told(file: Outlined, lines: Iterable[ToldLine]) -> Outlined:
    """The file without these lines; its pages stay, with what else they say."""
    of_page: dict[int, set[tuple[int, int]]] = {}
    for told in lines:
        of_page.setdefault(told.page, set()).add((told.line - told.page, told.end - told.page))
    pages = [
        (first, _page_without(kept, of_page[first]) if first in of_page else kept)
        for first, kept in file.pages
    ]
    return file._replace(pages=pages) if of_page else file


def _page_without(kept: Kept[PageText], lines: set[tuple[int, int]]) -> Kept[PageText]:
    before = kept.section.text.split("\n")
    text = [*before]
    for begin, end in lines:
        text[begin:end] = [""] * (end - begin)
    # A subject line below which nothing is left says nothing either.
    subjects = [n for n, line in enumerate(before) if n and line[:1] not in ("", "#", *_BLANK)]
    for begin, end in pairwise((*subjects, len(before))):
        if _says(before[begin + 1 : end]) and not _says(text[begin + 1 : end]):
            text[begin] = ""
    page, data = kept.section, "\n".join(text)
    section = PageText(page.date, page.weather, page.weather_column, data, page.hour)
    encoded = data.encode()
    return Kept(digest(encoded), kept.lines, words_in(encoded), section)


def _says(lines: Sequence[str]) -> bool:
    """Whether any of these lines says something."""
    return any(line.strip() and line.lstrip()[0] != "#" for line in lines)
