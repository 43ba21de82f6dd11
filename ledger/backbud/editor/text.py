"""A file of a journal as an editor holds it: its lines, its version, and places in the editor's
own counting.

A journal counts characters, the protocol counts UTF-16 code units (or what client and server agreed
on). Lines end as the protocol has it, which is as a journal is read: `\\n`, `\\r\\n` or `\\r`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from lsprotocol import types as lsp
from msgspec import Struct
from msgspec.structs import replace

from backbud.journal.load import Loaded, loaded_from

_LINE_END = re.compile(r"\r\n|\n|\r")
_BOM = "\N{ZERO WIDTH NO-BREAK SPACE}"
UTF_16 = "utf-16"


def units(text: str, encoding: str) -> int:
    """How long a text is as the client counts."""
    if text.isascii() or encoding == "utf-32":
        return len(text)
    if encoding == "utf-8":
        return len(text.encode("utf-8", "surrogatepass"))
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def characters(text: str, count: int, encoding: str) -> int:
    """How many characters of a text so many units of the client are; never half a one."""
    if text.isascii() or encoding == "utf-32":
        return min(count, len(text))
    done = 0
    for at, char in enumerate(text):
        done += units(char, encoding)
        if done > count:
            return at
    return len(text)


class OpenText(Struct, frozen=True):
    """A text with its lines without their ends. `version`: None where no editor has it open.

    `end`: how a new line ends in it. `encoding`: how the client counts.
    """

    name: str
    uri: str
    version: int | None
    lines: tuple[str, ...]
    end: str = "\n"
    encoding: str = UTF_16

    @staticmethod
    def of(name: str, uri: str, version: int | None, text: str, encoding: str = UTF_16) -> OpenText:
        """A text as it came from an editor or the disk."""
        lines = _LINE_END.split(text) if "\r" in text else text.split("\n")
        # An editor that has a file open knows its line ends; another one makes them its own.
        end = "\r\n" if version is not None and "\r\n" in text else "\n"
        return OpenText(name, uri, version, tuple(lines), end, encoding)

    @property
    def loaded(self) -> Loaded:
        """The text as the journal reads it."""
        return loaded_from("\n".join(self.lines).encode("utf-8", "replace"))

    def line(self, number: int) -> str:
        """A line as the journal counts its characters (0 first); "" behind the last."""
        if not 0 <= number < len(self.lines):
            return ""
        line = self.lines[number]
        return line.removeprefix(_BOM) if number == 0 else line

    def _lead(self, number: int) -> int:
        """How many characters the journal does not count at the beginning of a line."""
        return int(number == 0 and bool(self.lines) and self.lines[0].startswith(_BOM))

    # -------------------------------------------------------------- places

    def position(self, line: int, column: int) -> lsp.Position:
        """The client's place of a character (both from 0, as the journal counts)."""
        line = min(line, max(len(self.lines) - 1, 0))
        written = self.lines[line] if self.lines else ""
        at = min(max(column, 0) + self._lead(line), len(written))
        return lsp.Position(line, units(written[:at], self.encoding))

    def range(self, line: int, column: int, length: int) -> lsp.Range:
        """The client's range of so many characters of a line."""
        return lsp.Range(self.position(line, column), self.position(line, column + length))

    def whole_lines(self, first: int, last: int) -> lsp.Range:
        """The client's range of the lines, without the end of the last."""
        return lsp.Range(self.position(first, 0), self.position(last, len(self.line(last))))

    def place(self, position: lsp.Position) -> tuple[int, int]:
        """The line and character (from 0) of a client's place."""
        line = position.line
        if line >= len(self.lines):
            return line, 0
        at = characters(self.lines[line], position.character, self.encoding)
        return line, max(at - self._lead(line), 0)

    # -------------------------------------------------------------- changes

    def changed(
        self, changes: Sequence[lsp.TextDocumentContentChangeEvent], version: int | None
    ) -> OpenText:
        """The text after the changes of an editor, one after another."""
        text = self
        for change in changes:
            if isinstance(change, lsp.TextDocumentContentChangePartial):
                text = replace(text, lines=text._with(change.range, change.text))
            else:
                text = OpenText.of(self.name, self.uri, version, change.text, self.encoding)
        return replace(text, version=version)

    def _with(self, where: lsp.Range, new: str) -> tuple[str, ...]:
        first, last = where.start.line, where.end.line
        lines = self.lines
        before = (
            lines[first][: characters(lines[first], where.start.character, self.encoding)]
            if first < len(lines)
            else ""
        )
        after = (
            lines[last][characters(lines[last], where.end.character, self.encoding) :]
            if last < len(lines)
            else ""
        )
        middle = _LINE_END.split(f"{before}{new}{after}")
        return (*lines[:first], *middle, *lines[last + 1 :])
