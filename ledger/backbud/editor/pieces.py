"""Parts a text into its pages and cards, each read once, and finds the one that a line is in."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator

from msgspec import Struct

from backbud.editor.text import OpenText
from backbud_grammar.outline import Known, read_section, sections
from backbud_grammar.syntax import Act, Block, Card, Page, Section

# So many sections are remembered; a large journal in one file has some 20,000.
MOST_KEPT = 50_000


class TextPiece(Struct, frozen=True):
    """A page or card of a text: the lines it stands on (0 first, the last included)."""

    first: int
    last: int
    section: Section

    @property
    def page(self) -> Page | None:
        return self.section if isinstance(self.section, Page) else None

    @property
    def card(self) -> Card | None:
        return self.section if isinstance(self.section, Card) else None

    def block_at(self, line: int) -> Block | None:
        """The block that a line of the text is in, or would be in if it were written now."""
        return next((b for b in reversed(self.section.blocks) if self.first + b.line <= line), None)

    def act_at(self, line: int) -> Act | None:
        """The act that a line of the text is a part of."""
        block = self.block_at(line)
        at = line - self.first
        for act in reversed(block.acts) if block is not None else ():
            if act.line <= at:
                last = act.seams[-1].line if act.seams else act.line
                return act if at <= last else None
        return None


class SectionReader:
    """Reads sections, each text once. `known`: the words of the language."""

    def __init__(self, known: Known) -> None:
        self.known = known
        self._kept: dict[bytes, Section] = {}

    def section(self, data: bytes) -> Section:
        found = self._kept.get(data)
        if found is None:
            if len(self._kept) >= MOST_KEPT:
                self._kept.clear()
            found = self._kept[data] = read_section(data, self.known)
        return found


class TextPieces:
    """The pages and cards of one version of a text."""

    def __init__(self, text: OpenText, reading: SectionReader) -> None:
        self.text, self._reading = text, reading
        self._found = sections(text.loaded.data)
        self._starts = [line for line, _ in self._found]

    def at(self, line: int) -> TextPiece:
        """The page or card that a line is in."""
        return self._piece(max(bisect_right(self._starts, line) - 1, 0))

    def within(self, first: int, last: int) -> Iterator[TextPiece]:
        """Those that stand on any of these lines."""
        begin = max(bisect_right(self._starts, first) - 1, 0)
        for n in range(begin, len(self._found)):
            if self._starts[n] > last:
                return
            yield self._piece(n)

    def all(self) -> Iterator[TextPiece]:
        return map(self._piece, range(len(self._found)))

    def _piece(self, n: int) -> TextPiece:
        first, data = self._found[n]
        after = self._starts[n + 1] if n + 1 < len(self._starts) else len(self.text.lines)
        return TextPiece(first, max(after - 1, first), self._reading.section(data))
