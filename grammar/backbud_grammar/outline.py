"""The outline of a section: which of its lines are acts, subjects or labels.

The outline is a plain row of lines, so it is read line by line, which is many times faster than to
parse it. What the row must be is said by the rules `page`, `card` and `stray` of journal.lark, and
the tests hold the two together.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from backbud_grammar.continued import (
    PROSE_LABELS,
    ActSlips,
    CardSlips,
    label_in,
    left_below,
    mixed_indents,
    without_remark,
    without_slips,
)
from backbud_grammar.forms import ActForm
from backbud_grammar.kinds import KINDS
from backbud_grammar.problems import Flaw
from backbud_grammar.quick_outline import quick_blocks
from backbud_grammar.syntax import Act, Block, Card, CardLine, Page, Seam, Section, Stray
from backbud_grammar.written_hours import hour_before, hour_of_day, with_hour_behind

# The number of a line's first line (0 first), and its text: deeper lines stand in it after a \n.
Scanned = tuple[int, str]

# No line that a hand wrote is longer; what is, is some other file.
LONGEST_LINE = 10_000

# A telephone may begin a line with a capital letter.
_KINDS = "|".join(f"[{kind[0].upper()}{kind[0]}]{kind[1:]}" for kind in KINDS)
# Where a section begins: a date, or a card's first line (DAY and HEAD in journal.lark).
_CARD = rf"(?:{_KINDS})[ \t]+[^ \t,\n]+[ \t]*$|[Ww]ords[ \t]*$"
# Most lines are indented or blank, which is told by their first character.
_SECTION = re.compile(rf"\n(?=[^ \n])(?=[0-9]|{_CARD})".encode(), re.MULTILINE)
_HEAD = re.compile(rf"[0-9]|{_CARD}")
# Every blank of Unicode but those of the grammar is as good as a space: a page may come out of
# another program with hard spaces or form feeds in it.
_BLANKS = dict.fromkeys(
    (
        *range(0x0B, 0x0E),
        *range(0x1C, 0x20),
        0x85,
        0xA0,
        0x1680,
        *range(0x2000, 0x200B),
        0x2028,
        0x2029,
        0x202F,
        0x205F,
        0x3000,
    ),
    " ",
)
# The bytes that any of them begins with in UTF-8.
_PERHAPS_BLANK = tuple(bytes([byte]) for byte in b"\x0b\x0c\x0d\x1c\x1d\x1e\x1f\xc2\xe1\xe2\xe3")


def sections(data: bytes) -> list[tuple[int, bytes]]:
    """Part a file into sections: for each the line it begins on (0 first) and its bytes.

    The bytes are UTF-8 with `\\n` line ends. Each section ends with one. They are parted before
    they are decoded, so that a section already known is never decoded at all.
    """
    if any(byte in data for byte in _PERHAPS_BLANK):
        data = data.decode().translate(_BLANKS).encode()
    if not data.endswith(b"\n"):
        data += b"\n"
    starts = [0, *(found.end() for found in _SECTION.finditer(data))]
    out: list[tuple[int, bytes]] = []
    line = 0
    for start, end in zip(starts, [*starts[1:], len(data)], strict=True):
        piece = data[start:end]
        out.append((line, piece))
        line += piece.count(b"\n")
    return out


def begins_section(line: str) -> bool:
    """Whether a line is a date or a card's first line."""
    return _HEAD.match(line) is not None


class Known(Struct, frozen=True):
    """What the outline needs to know of the table of acts: every word, and those of prose.

    `acts`: the table itself, for the words that open a detail of an act: `tied` of `repotted`.
    """

    words: frozenset[str]
    prose: frozenset[str]
    acts: Mapping[str, ActForm] = {}

    @staticmethod
    def of(acts: Mapping[str, ActForm]) -> Known:
        prose = frozenset(word for word, act in acts.items() if act.prose)
        return Known(frozenset(acts), prose, acts)


def read_section(section: bytes, known: Known) -> Section:
    """Read one section's outline. Lines too long to be a journal's are set aside with a flaw."""
    return read_section_text(section.decode(), known)


def read_section_text(text: str, known: Known) -> Section:
    """The same of a section's text."""
    if "0" <= text[:1] <= "9" and "\t" not in text and len(text) <= LONGEST_LINE:
        lines = text.split("\n")
        quick = quick_blocks(lines, known.words, known.prose, partial(_joined, known))
        if quick is not None:
            return _page(lines[0].rstrip(), tuple(quick[0]), tuple(quick[1]))
    return read_any_section(text, known)


def read_any_section(text: str, known: Known) -> Section:
    """The outline of any section, whatever stands in it."""
    text, flaws = _without_long_lines(text)
    head, loose, parted = _scan(text)
    is_card = head is not None and not head[1][0].isdigit()
    blocks = [Block("", 0, _acts(loose, known, flaws))] if loose and not is_card else []
    blocks += [
        Block(subjects, line, _acts(lines, known, flaws)) for (line, subjects), lines in parted
    ]
    if head is not None and is_card:
        # Own words need no handle.
        kind, handle = (*head[1].split(), "")[:2]
        return Card(
            kind.lower(),
            handle,
            head[1].index(handle, len(kind)) + 1,
            _card_lines(loose, kind.lower(), flaws),
            tuple(blocks),
            tuple(flaws),
        )
    if head is None:
        return Stray(tuple(blocks), tuple(flaws))
    return _page(head[1], tuple(blocks), tuple(flaws))


def _page(line: str, blocks: tuple[Block, ...], flaws: tuple[Flaw, ...]) -> Page:
    date, hour, weather, column = day_line(line)
    has_hours = any(act.hour for block in blocks for act in block.acts)
    return Page(date, weather, column, blocks, flaws, hour, has_hours)


def day_line(line: str) -> tuple[str, str, str, int]:
    """The date at the beginning of a line, its hour, what stands behind both, and in which column
    (from 1)."""
    date, hour, weather = hour_of_day(*_first_word(line))
    return date, hour, weather, len(line) - len(weather) + 1


def _without_long_lines(text: str) -> tuple[str, list[Flaw]]:
    if len(text) <= LONGEST_LINE:
        return text, []
    flaws: list[Flaw] = []
    lines = text.split("\n")
    for i, line in enumerate(lines):
        if len(line) > LONGEST_LINE:
            flaws.append(
                Flaw(
                    "long-line",
                    i,
                    1,
                    1,
                    f"a line of {len(line)} characters",
                    f"Nothing in a journal is longer than {LONGEST_LINE}; this line was left out.",
                )
            )
            lines[i] = ""
    return "\n".join(lines), flaws


def _scan(
    text: str,
) -> tuple[Scanned | None, list[Scanned], list[tuple[Scanned, list[Scanned]]]]:
    """Part a section into its head, the lines before any subject, and the blocks."""
    head: Scanned | None = None
    loose: list[Scanned] = []
    blocks: list[tuple[Scanned, list[Scanned]]] = []
    lines = loose
    # The indent of the line that a deeper one goes on; None where there is none.
    indent: int | None = None
    # What stands deeper than it, and the same of every line before it that has such.
    deeper: list[str] | None = None
    joined: list[tuple[list[Scanned], int, list[str]]] = []
    for number, written in enumerate(text.split("\n")):
        line = written.rstrip()
        if not line:
            indent = None
        elif line[0] not in " \t#":
            indent = None
            if number == 0 and _HEAD.match(line):
                head = (0, line)
            else:
                lines = []
                blocks.append(((number, line), lines))
        else:
            body = line.lstrip()
            if body[0] == "#":
                continue
            deep = len(line) - len(body)
            if indent is not None and deep > indent and line.startswith(lines[-1][1][:indent]):
                if deeper is None:
                    deeper = []
                    joined.append((lines, len(lines) - 1, deeper))
                # Remarks to oneself between the two count as lines.
                deeper += [""] * (number - lines[-1][0] - 1 - len(deeper))
                deeper.append(line)
            else:
                indent, deeper = deep, None
                lines.append((number, line))
    # Each is put together once: a line may have thousands of deeper ones.
    for of, at, more in joined:
        of[at] = (of[at][0], "\n".join((of[at][1], *more)))
    return head, loose, blocks


def _first_word(text: str) -> tuple[str, str]:
    """The first word of a text that begins with one, and what follows."""
    word, _, rest = text.partition(" ")
    if "\t" in word:
        word, *more = text.split(None, 1)
        return word, more[0] if more else ""
    return word, rest.lstrip()


def _card_lines(lines: list[Scanned], kind: str, flaws: list[Flaw]) -> tuple[CardLine, ...]:
    """The lines of a card with their continuations; where a label slipped deeper is a flaw."""
    out: list[CardLine] = []
    for number, text in lines:
        group = [(number, text)]
        if "\n" in text:
            group = without_slips(_continued(number, text), CardSlips(kind, text), flaws)
        (line, first), *more = group
        joined, seams = _with_more(first.lstrip(), more)
        out.append(CardLine(joined, line, len(first) - len(first.lstrip()) + 1, seams))
    if any("\t" in text for _, text in lines):
        doubtful = mixed_indents(
            lines,
            flaws,
            [label_in(kind, line.text) in PROSE_LABELS[kind] for line in out],
            [bool(label_in(kind, line.text)) for line in out],
        )
        out = [line for line in out if line.line not in doubtful]
    return tuple(out)


def _with_more(text: str, lines: list[Scanned]) -> tuple[str, tuple[Seam, ...]]:
    """Join the deeper lines to a text, each by a space; where each goes on is kept."""
    seams: list[Seam] = []
    pieces, end = ([text], len(text) + 1) if text else ([], 0)
    for line, more in lines:
        body = more.lstrip()
        seams.append(Seam(end, line, len(more) - len(body) + 1))
        pieces.append(body)
        end += len(body) + 1
    return " ".join(pieces), tuple(seams)


def _continued(number: int, text: str) -> list[Scanned]:
    """The lines of a joined line with their numbers."""
    return [(number + i, line) for i, line in enumerate(text.split("\n")) if line]


def _acts(lines: list[Scanned], known: Known, flaws: list[Flaw]) -> tuple[Act, ...]:
    acts: list[Act] = []
    for number, text in lines:
        if "\n" not in text:
            acts.append(read_act_line(text, number, known))
        else:
            acts.append(_joined(known, _continued(number, text), flaws))
    are_known = [act.word.casefold() in known.words for act in acts]
    tabbed = any("\t" in text for _, text in lines)
    if not tabbed and all(are_known):
        return tuple(acts)
    are_prose = [act.word.casefold() in known.prose for act in acts]
    doubtful: set[int] = set()
    if tabbed:
        doubtful = mixed_indents(
            lines,
            flaws,
            [prose or bool(act.remark) for prose, act in zip(are_prose, acts, strict=True)],
            are_known,
        )
    for at, left_out in left_below(lines, are_known, are_prose, doubtful).items():
        acts[at] = replace(acts[at], left_out=f"{acts[at].left_out} {left_out}".lstrip())
    return tuple([act for act in acts if act.line not in doubtful])


def act_of_lines(lines: Sequence[str], first: int, known: Known, flaws: list[Flaw]) -> Act:
    """Read an act from its line, which is the `first` of its section, and deeper ones below it."""
    if len(lines) == 1:
        return read_act_line(lines[0].rstrip(), first, known)
    return _joined(known, [(first + i, line.rstrip()) for i, line in enumerate(lines)], flaws)


def _joined(known: Known, group: list[Scanned], flaws: list[Flaw]) -> Act:
    """The act of a line and deeper ones; those that do not go on with it are told and left out."""
    kept = without_slips(group, ActSlips(known), flaws)
    act = _join(kept, known)
    if len(kept) < len(group):
        slipped = [line.strip() for n, line in group if (n, line) not in kept]
        act = replace(act, left_out=" ".join(slipped))
    return act


def read_act_line(text: str, line: int, known: Known) -> Act:
    """Read an act that stands on one line, the common case."""
    hour, body = hour_before(text.lstrip())
    word, rest = _first_word(body)
    if word.casefold() not in known.words:
        word, rest = _two_words(word, rest, body, known)
    size, remark = len(text), ""
    column, text_column = size - len(body) + 1, size - len(rest) + 1
    if ("--" in rest or "—" in rest) and word.casefold() not in known.prose:
        rest, remark = without_remark(rest)
    act = Act(word, rest, remark, line, column, text_column, hour=hour)
    return with_hour_behind(act, known.acts.get(word.casefold())) if ":" in rest else act


def _two_words(word: str, rest: str, body: str, known: Known) -> tuple[str, str]:
    """`put off`, `handed back`: two words that are one act, with a single blank between them."""
    second, more = _first_word(rest)
    both = f"{word} {second}"
    return (
        (both, more) if both.casefold() in known.words and body.startswith(both) else (word, rest)
    )


def _join(group: list[Scanned], known: Known) -> Act:
    first = read_act_line(group[0][1], group[0][0], Known(known.words, known.words))
    text, seams = _with_more(first.text, group[1:])
    remark = ""
    if first.word.casefold() not in known.prose:
        text, remark = without_remark(text)
    act = Act(first.word, text, remark, first.line, first.column, first.text_column, seams)
    act = replace(act, hour=first.hour)
    return with_hour_behind(act, known.acts.get(act.word.casefold())) if ":" in text else act
