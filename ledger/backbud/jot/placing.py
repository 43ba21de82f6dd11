"""Where in the diary a new act line goes, and how it is put there with all else left as it is."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from itertools import groupby

from msgspec import Struct

from backbud.journal.dated import DatedPage
from backbud.journal.line_order import line_order
from backbud_grammar.outline import Known, read_section, sections

_LINE_END = re.compile(rb"\r\n|\r|\n")


class DiaryLine(Struct, frozen=True):
    """An act line for one tree and day, as it will stand in the diary."""

    tree: str
    day: date
    text: str


class DiaryPlace(Struct, frozen=True, order=True):
    """Where lines of a day go: in front of the line `at` (0 first) of a file, on a page that is
    there, or on a new one. `below`: the subject line that they go on below, "" where none."""

    file: str
    at: int
    day: date
    is_new: bool
    below: str = ""


def place_of(
    day: date, pages: Iterable[DatedPage], texts: Mapping[str, bytes]
) -> DiaryPlace | None:
    """Return where the diary takes lines of a day; None where there is no dated page at all.

    On the page of that day; else on a new one behind the last page before it, or in front of the
    very first.
    """
    dated = sorted(
        (page for page in pages if page.when.exact), key=lambda p: (p.when.first, line_order(p))
    )
    before = [page for page in dated if page.when.first <= day]
    if before:
        page = before[-1]
        is_new = page.when.first < day
        return DiaryPlace(page.file, _end_of(texts[page.file], page.line - 1), day, is_new)
    if dated:
        return DiaryPlace(dated[0].file, dated[0].line - 1, day, True)
    return None


def _end_of(text: bytes, first: int) -> int:
    """The line behind the last one that a section says something on.

    Remarks at its end may belong to the page below.
    """
    for line, section in sections(text):
        if line == first:
            lines = section.removesuffix(b"\n").split(b"\n")
            while len(lines) > 1 and (not lines[-1].strip() or lines[-1].lstrip().startswith(b"#")):
                lines.pop()
            return line + len(lines)
    raise ValueError(f"no section begins on line {first + 1}")


def last_subjects(text: bytes, place: DiaryPlace, known: Known, indent: str) -> str:
    """The subject line of the block that a place is right behind, "" where there is none.

    `text`: with `\\n` line ends. `indent`: what stands before an act; a deeper line would go on
    with the act above it, so the acts of the block must stand as deep.
    """
    if place.is_new:
        return ""
    for start, section in sections(text):
        if start < place.at <= start + section.count(b"\n"):
            blocks = read_section(section, known).blocks
            if not blocks or not blocks[-1].acts:
                return ""
            line = section.split(b"\n")[blocks[-1].acts[-1].line].decode()
            stands = line[: len(line) - len(line.lstrip())] == indent
            return blocks[-1].subjects if stands else ""
    return ""


def with_lines(data: bytes, placed: Sequence[tuple[DiaryPlace, DiaryLine]]) -> bytes:
    """Return a file's bytes with lines put in, in order of their trees; its line ends and all else
    stay."""
    return with_lines_as_given(data, sorted(placed, key=_order))


def with_lines_as_given(data: bytes, placed: Sequence[tuple[DiaryPlace, DiaryLine]]) -> bytes:
    """The same, with the lines of one place in the order given."""
    first_end = _LINE_END.search(data)
    end = first_end[0] if first_end else b"\n"
    old = _LINE_END.split(data)
    ends = [*_LINE_END.findall(data), b""]
    out: list[bytes] = []
    by_place = {
        place: [line for _, line in found]
        for place, found in groupby(placed, key=lambda one: one[0])
    }
    for number, (text, ending) in enumerate(zip(old, ends, strict=True)):
        for place in by_place:
            if place.at == number:
                _put(out, by_place[place], place, text, end)
        out.append(text + ending)
    for place in by_place:
        if place.at >= len(old):
            _put(out, by_place[place], place, b"", end)
    return b"".join(out)


def _order(one: tuple[DiaryPlace, DiaryLine]) -> tuple[DiaryPlace, str]:
    return one[0], one[1].tree


def _put(
    out: list[bytes], lines: list[DiaryLine], place: DiaryPlace, below: bytes, end: bytes
) -> None:
    """Put the lines of one place in."""
    if out and not out[-1].endswith((b"\n", b"\r")):
        out[-1] += end
    new: list[str] = []
    if place.is_new:
        new += [""] if out and out[-1].strip() else []
        new.append(place.day.isoformat())
    # As `backbud tidy` leaves it: each subject line stands below a blank one.
    for n, (tree, of_tree) in enumerate(groupby(lines, key=lambda line: line.tree)):
        head = () if n == 0 and tree == place.below else ("", tree)
        new += [*head, *(line.text for line in of_tree if line.text)]
    if place.is_new and below.strip():
        new.append("")
    out.extend(line.encode() + end for line in new)
