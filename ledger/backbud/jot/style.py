"""How a diary file sets its acts: how deep they stand, and the column of their details."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from msgspec import Struct

from backbud_grammar.outline import Known, read_act_line, read_section, sections
from backbud_grammar.syntax import Act, Page
from backbud_grammar.tidy import COLUMN, GAP, INDENT

# So many acts, from the end of a file backwards, tell how its keeper writes now.
FEW_ACTS = 40


class Style(Struct, frozen=True):
    """What stands before an act, and the column (0 first) of its details; `column` 0: one sign, a
    blank or a tab, parts the two."""

    indent: str = INDENT
    column: int = COLUMN
    between: str = " "

    def line(self, act: str, known: Known) -> str:
        """The act line of a text, set as the others are; words that begin with no act stay as they
        are."""
        read = read_act_line(act, 0, known)
        end = read.column - 1 + len(read.word)
        lead, rest = f"{self.indent}{' '.join(act[:end].split())}", act[end:].lstrip()
        if read.word.casefold() not in known.words or not rest:
            return f"{self.indent}{act}"
        gap = " " * max(self.column - len(lead), GAP) if self.column else self.between
        return f"{lead}{gap}{rest}"


def style_of(data: bytes, known: Known) -> Style:
    """The style of a file, as `tidy` has it where no act tells. `data`: with `\\n` line ends."""
    indents: Counter[str] = Counter()
    columns: Counter[int] = Counter()
    single: Counter[str] = Counter()
    lines = data.decode(errors="replace").split("\n")
    for line, act in _last_acts(data, known):
        text = lines[line] if line < len(lines) else ""
        indents[text[: len(text) - len(text.lstrip())]] += 1
        if act.text and not act.hour:
            columns[act.text_column - 1] += 1
            between = text[act.column - 1 + len(act.word) : act.text_column - 1]
            single[between] += len(between) == 1
    if not indents:
        return Style()
    indent = indents.most_common(1)[0][0]
    if not columns:
        return Style(indent)
    if single.total() > columns.total() / 2:
        return Style(indent, 0, single.most_common(1)[0][0])
    return Style(indent, columns.most_common(1)[0][0])


def _last_acts(data: bytes, known: Known) -> Iterator[tuple[int, Act]]:
    """The last acts of a file, each with its line (0 first)."""
    count = 0
    for start, section in reversed(sections(data)):
        read = read_section(section, known)
        if not isinstance(read, Page):
            continue
        for block in reversed(read.blocks):
            for act in reversed(block.acts):
                yield start + act.line, act
                count += 1
                if count == FEW_ACTS:
                    return
