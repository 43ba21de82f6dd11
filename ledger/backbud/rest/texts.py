"""Makes the texts that two files have once pages of one rest in the other."""

from __future__ import annotations

import re

from msgspec import Struct

from backbud.rest.what_rests import RestingFile

_LINE = re.compile(rb"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+\Z")
_BOM = b"\xef\xbb\xbf"


class RestedTexts(Struct, frozen=True):
    """The bytes of both files after a move; `left` is None where none is left of the first."""

    left: bytes | None
    target: bytes


def rested_texts(resting: RestingFile, data: bytes, target: bytes) -> RestedTexts:
    """What both files hold then. `data`, `target`: their bytes, as they lie there; line ends stay
    as they are. What stands in the target already is taken out of the first alone."""
    if resting.is_whole:
        return RestedTexts(None, data)
    bom, body = (_BOM, data[len(_BOM) :]) if data.startswith(_BOM) else (b"", data)
    lines = _LINE.findall(body)
    end = b"\r\n" if lines and lines[0].endswith(b"\r\n") else b"\n"
    moved: list[bytes] = []
    gone: set[int] = set()
    for page in resting.pages:
        gone |= set(range(page.begin, page.end))
        if not page.is_there:
            moved += lines[page.begin : page.end]
            _close(moved, end)
    left = [line for n, line in enumerate(lines) if n not in gone]
    kept = _LINE.findall(target)
    _close(kept, end)
    is_left = any(line.strip() for line in left)
    return RestedTexts(bom + b"".join(left) if is_left else None, b"".join((*kept, *moved)))


def _close(lines: list[bytes], end: bytes) -> None:
    """See to it that the next page begins on a line of its own, below a blank one."""
    if lines and not lines[-1].endswith((b"\n", b"\r")):
        lines[-1] += end
    if lines and lines[-1].strip():
        lines.append(end)
