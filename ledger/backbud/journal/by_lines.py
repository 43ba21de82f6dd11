"""Reads a page line by line, each line of a diary once.

Most pages are so: blocks of a subject line and acts, each act on two spaces, what goes on with one
deeper. What is wrong with one act, or kept as words, hangs on its own line alone. Of any other page
an outline is made and looked at as a whole; tests hold the two together.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from backbud.journal.dated import DEEPER, DatedBlock, Head, parted_by_depth
from backbud.journal.heard import HeardAct
from backbud_grammar.continued import BEHIND_A_WORD, goes_on, without_remark
from backbud_grammar.dates import WrittenDate
from backbud_grammar.outline import LONGEST_LINE, act_of_lines
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Act
from backbud_grammar.written_hours import may_hold_hour

if TYPE_CHECKING:
    from backbud.journal.said import ActReader


# Before each line at the left edge.
_EDGE = re.compile(r"\n(?=[^ \n])")


class PageByLines(NamedTuple):
    """The blocks of a page, what is wrong with its lines, and whether each act stands as it is.

    `cuts`: of each block its first line in the page, where it begins in the text, where its subject
    line ends, and where it ends itself.
    """

    blocks: tuple[DatedBlock, ...]
    flaws: list[Flaw]
    is_sound: bool
    cuts: list[int]


# What an act tells of, after so many flaws in its file above it; None where it must be looked at
# with what stands around it.
Hear = Callable[[Act, WrittenDate, int], list[HeardAct] | None]


class ByLines:
    """`is_subject`: whether a text is a subject line in which nothing is wrong. `hear`: hears an
    act that is not sound as it stands."""

    def __init__(self, acts: ActReader, is_subject: Callable[[str], bool], hear: Hear) -> None:
        self._acts, self._is_subject, self._hear = acts, is_subject, hear
        self._subjects: set[str] = set()
        # The past form of acts that are sound on whichever page, by their line as it is written.
        self._pasts: dict[str, str] = {}

    def blocks(self, text: str, head: Head, so_far: int) -> PageByLines | None:
        """The blocks of a page of an exact day; None where it must be looked at as a whole.
        `so_far`: how much is wrong in its file above it."""
        if "\t" in text or len(text) > LONGEST_LINE:
            return None
        day, *blocks = _EDGE.split(text)
        if "\n " in day:
            return None
        out: list[DatedBlock] = []
        flaws: list[Flaw] = []
        is_sound = True
        subjects, pasts = self._subjects, self._pasts
        cuts: list[int] = []
        # The number of the line on which a block begins, in the page and from 0; and its place.
        at, end = day.count("\n") + 1, len(day)
        for block in blocks:
            begins, at = at, at + block.count("\n") + 1
            begin, end = end + 1, end + 1 + len(block)
            subject, *lines = block.rstrip("\n").split("\n")
            if subject[0] == "#" and not lines:
                continue
            if subject not in subjects:
                if not self._is_new_subject(subject):
                    return None
                subjects.add(subject)
            if "\n   " in block:
                acts = self._deeper(lines, begins + 1, head)
            else:
                acts = tuple([pasts.get(line) or self._past(line, head) for line in lines])
            if not acts:
                return None
            written: str | tuple[Act, ...] = block
            if "" in acts:
                heard = self._heard(lines, acts, begins + 1, head, so_far + len(flaws))
                if heard is None:
                    return None
                is_sound = False
                acts, written, of_block = heard
                flaws += of_block
            out.append(DatedBlock(head, subject, head.line + begins + 1, acts, written))
            cuts += (begins, begin, begin + len(subject), end)
        return PageByLines(tuple(out), flaws, is_sound, cuts)

    def _heard(
        self, lines: list[str], pasts: tuple[str, ...], first: int, head: Head, so_far: int
    ) -> tuple[tuple[str, ...], tuple[Act, ...], list[Flaw]] | None:
        """The past form of the acts of a block, the acts, and what is wrong with them; None where
        they must be looked at with what stands around them.

        `pasts`: of each act its past form, "" where it is not sound. `first`: the number of the
        first line.
        """
        out: list[str] = []
        acts: list[Act] = []
        flaws: list[Flaw] = []
        places = parted_by_depth(lines) if len(pasts) < len(lines) else None
        known = self._acts.language_known
        for n, past in enumerate(pasts):
            begin, end = places[n] if places else (n, n + 1)
            line = lines[begin]
            if not past and (line[:2] != "  " or line[2:3] in ("", " ", "#")):
                return None
            slips: list[Flaw] = []
            act = act_of_lines(lines[begin:end], first + begin, known, slips)
            if past:
                out.append(past)
                acts.append(act)
                continue
            if slips or act.hour:
                return None
            heard = self._hear(act, head.when, so_far + len(flaws))
            if heard is None:
                return None
            for one in heard:
                flaws += one.flaws
                if one.past:
                    out.append(one.past)
                    acts.append(one.act)
        return tuple(out), tuple(acts), flaws

    def _is_new_subject(self, text: str) -> bool:
        is_one = text[0] not in " #" and text[-1] != " " and not goes_on(text)
        return is_one and self._is_subject(text)

    def _past(self, line: str, head: Head) -> str:
        """The past form of an act that stands on a line; "" where it must be looked at."""
        if line[:2] != "  ":
            return ""
        word, _, rest = line[2:].rstrip().partition(" ")
        acts, remark = self._acts, ""
        prose = acts.past_of_prose(word)
        if prose:
            # Hardly any of it is written twice.
            return prose
        if not word or word[0] == "#":
            return ""
        rest = rest.lstrip()
        if not acts.is_prose(word):
            if "--" in rest or "—" in rest:
                rest, remark = without_remark(rest)
            if may_hold_hour(rest):
                return ""
        past, on_any_day = acts.past_of_words(word, rest, remark, head.when)
        if on_any_day and not remark:
            # With a remark hardly any line is written twice.
            self._pasts[line] = past
        return past

    def _deeper(self, lines: list[str], first: int, head: Head) -> tuple[str, ...]:
        """The past form of each act of a block in which lines go on deeper; none where any must be
        looked at. `first`: the number of its first line."""
        if lines[0].startswith(DEEPER) or not all(map(_is_indented, lines)):
            return ()
        acts, flaws = list[str](), list[Flaw]()
        for begin, end in parted_by_depth(lines):
            line = self._joined(lines[begin:end])
            past = self._pasts.get(line) or self._past(line, head)
            if not past and end > begin + 1:
                known = self._acts.language_known
                joined = act_of_lines(lines[begin:end], first + begin, known, flaws)
                past = "" if flaws or joined.hour else self._acts.past_of(joined, head.when)[0]
            acts.append(past)
        return tuple(acts)

    def _joined(self, lines: list[str]) -> str:
        """An act on one line, with what goes on deeper behind it; "" where it may be a slip."""
        if len(lines) == 1:
            return lines[0]
        more = [line.strip() for line in lines[1:]]
        if not all(map(self._goes_on, more)):
            return ""
        return " ".join((lines[0].rstrip(), *more))

    def _goes_on(self, line: str) -> bool:
        """Whether a deeper line begins with no act word, nor with what could be an hour."""
        first = line.partition(" ")[0]
        known = self._acts.language_known.words
        return ":" not in first and first.rstrip(BEHIND_A_WORD).casefold() not in known


def blocks_of_cuts(
    text: str, cuts: Sequence[int], rows: Iterable[tuple[str, ...]], head: Head
) -> tuple[DatedBlock, ...]:
    """The blocks of a page that was sound when it was read line by line: by its `cuts`, and in
    `rows` the past form of each act."""
    first, left = head.line + 1, iter(cuts)
    return tuple(
        [
            DatedBlock(head, text[begin:subject], first + line, acts, text[begin:end])
            for line, begin, subject, end, acts in zip(left, left, left, left, rows, strict=True)
        ]
    )


def _is_indented(line: str) -> bool:
    """Whether a line is neither at the left edge, nor blank, nor a remark to oneself."""
    return line.startswith("  ") and line.lstrip()[:1] not in "#"
