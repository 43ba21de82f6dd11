"""Opens a list in plain text: its letters, what parts its columns, its rows (RFC 4180 and kin)."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from io import StringIO

from backbud.bring.sheet import BringError, ListSheet, SheetCell, SheetRows, in_plain_words

# What a file begins with that says its letters itself; UTF-32 first, for its mark begins as that
# of UTF-16 (The Unicode Standard, section 23.8).
_MARKS = (
    (b"\xff\xfe\0\0", "utf-32"),
    (b"\0\0\xfe\xff", "utf-32"),
    (b"\xef\xbb\xbf", "utf-8-sig"),
    (b"\xff\xfe", "utf-16"),
    (b"\xfe\xff", "utf-16"),
)
ENCODINGS = (
    "utf-8", "utf-16", "utf-16-le", "utf-16-be", "cp1252", "cp1250", "cp1251", "cp1253", "cp1254",
    "latin-1", "iso8859-2", "iso8859-15", "mac-roman", "cp437", "cp850", "cp852", "koi8-r",
    "shift_jis", "cp932", "euc-jp", "gb18030", "big5", "euc-kr",
)  # fmt: skip
# Those that are offered where a file does not say its letters.
_OFFERED = ("cp1252", "cp1250", "mac-roman")
SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t", "bar": "|"}
_SAID = re.compile(r'^"?sep=(.)"?\r?\n', re.IGNORECASE)
_ROWS_TRIED = 200


class Undecided(Exception):
    """What nobody but the keeper can tell; the sentence asks it, `answer` is how it is told."""

    def __init__(self, message: str, answer: str) -> None:
        super().__init__(message)
        self.message, self.answer = message, answer


def open_text(
    data: bytes, encoding: str, separator: str, headings_known: Callable[[list[str]], int]
) -> ListSheet:
    """Read it. `encoding`, `separator` (a name of SEPARATORS): "" where nobody said.
    `headings_known`: how many of some headings are known, to tell separators apart.

    Undecided where its letters or its separator can be meant in several ways; BringError where it
    is no list.
    """
    text = _decoded(data, encoding)
    # A stray one is written out like any sign that has no look.
    if 4 * text.count("\0") > len(text):
        raise Undecided(
            "there are nought bytes in it, so its letters are not what they seem",
            "--encoding utf-16-le (or utf-16-be)",
        )
    told: list[str] = []
    skipped = 0
    if found := _SAID.match(text):
        name = next((n for n, sign in SEPARATORS.items() if sign == found[1]), "")
        if name:
            separator, text, skipped = separator or name, text[found.end() :], 1
            told.append(f"its first line says what parts the columns: {name}")
    separator = separator or _separator(text, headings_known)
    rows = SheetRows("it")
    for number, cells in _parted(text, SEPARATORS[separator]):
        rows.add(number + skipped, [SheetCell(in_plain_words(cell)) for cell in cells])
    return ListSheet("", tuple(rows.rows), told=tuple(told))


def _decoded(data: bytes, encoding: str) -> str:
    by_mark = next((name for mark, name in _MARKS if data.startswith(mark)), "")
    tried = encoding or by_mark or "utf-8"
    try:
        text = data.decode(tried)
    except UnicodeDecodeError as error:
        if encoding:
            raise BringError(
                f"it is not {encoding} (byte {error.start + 1}): {error.reason}"
            ) from None
        line = data[: error.start].count(b"\n") + 1
        raise Undecided(
            f"its letters are not UTF-8 (line {line}){_offers(data, error.start)}",
            "--encoding cp1252 (or another: " + ", ".join(ENCODINGS) + ")",
        ) from None
    return text.removeprefix("\ufeff")


def _offers(data: bytes, at: int) -> str:
    """How the word with the first letter that is no UTF-8 reads by each encoding offered."""
    start = max(data.rfind(b"\n", 0, at), at - 20) + 1
    end = data.find(b"\n", at)
    piece = data[start : min(end if end >= 0 else len(data), at + 20)]
    reads: dict[str, list[str]] = {}
    for name in _OFFERED:
        word = in_plain_words(piece.decode(name, "replace"))
        reads.setdefault(word, []).append(name)
    told = [f"“{word}” by {' or '.join(names)}" for word, names in reads.items()]
    return f": {', '.join(told)}" if told else ""


def _parted(text: str, sign: str) -> list[tuple[int, list[str]]]:
    """The rows with the line each begins on."""
    lines = csv.reader(StringIO(text, newline=""), delimiter=sign, strict=True)
    out: list[tuple[int, list[str]]] = []
    begins = 1
    try:
        for cells in lines:
            out.append((begins, cells))
            begins = lines.line_num + 1
    except csv.Error as error:
        raise BringError(f"line {lines.line_num}: {error}; is a quotation mark missing?") from None
    return out


def _separator(text: str, headings_known: Callable[[list[str]], int]) -> str:
    fits: dict[str, tuple[int, int]] = {}
    for name, sign in SEPARATORS.items():
        try:
            rows = [cells for _, cells in _parted(text, sign)[:_ROWS_TRIED] if any(cells)]
        except BringError:
            continue
        widths = [len(cells) for cells in rows]
        if widths and max(widths) > 1:
            known = max(headings_known(cells) for cells in rows[:10])
            usual = max(set(widths), key=widths.count)
            fits[name] = (known, sum(1 for width in widths if width == usual > 1))
    if not fits:
        return "comma"
    best = max(fits.values())
    names = [name for name, fit in fits.items() if fit == best]
    if len(names) > 1:
        raise Undecided(
            f"its columns may be parted by {' or '.join(names)}", f"--separator {names[0]}"
        )
    return names[0]
