"""Opens the archive that a spreadsheet is, with bounds on all that it unpacks to."""

from __future__ import annotations

import zipfile
import zlib
from collections.abc import Callable
from io import BytesIO

from backbud.bring.sheet import MOST_UNPACKED_BYTES, BringError

# The part of a spreadsheet of the OpenDocument format that holds its cells.
OPEN_DOCUMENT = "content.xml"
_MOST_PARTS = 5_000
# All but the cells is read at once: styles, names, how the sheets hang together.
_MOST_OF_A_PART = 16 << 20
_PIECE = 1 << 20
# As many as a sheet of the most cells has; each takes many times its bytes in memory.
_MOST_TAGS = 6_000_000
_LONGEST_MARK = 16


def open_archive(data: bytes, is_large: Callable[[str], bool]) -> zipfile.ZipFile:
    """The archive, once all of it was looked at. `is_large`: whether a part of that name may be as
    large as the whole.

    BringError where it is broken, locked, unpacks to too much, or holds XML that declares a type of
    document: entities hang on one, and no spreadsheet writes any.
    """
    archive = _unpacked(data)
    parts = archive.infolist()
    if len(parts) > _MOST_PARTS:
        raise BringError(f"it holds {len(parts)} parts; no spreadsheet has more than {_MOST_PARTS}")
    # No more than what is declared is ever unpacked of a part (zipfile ends there).
    if sum(part.file_size for part in parts) > MOST_UNPACKED_BYTES:
        raise BringError(
            f"unpacked it is larger than {MOST_UNPACKED_BYTES >> 20} MB; save a smaller list"
        )
    names = [part.filename for part in parts]
    if len(set(names)) < len(names):
        raise BringError("two of its parts have the same name, so nobody can tell what it holds")
    for part in parts:
        if part.file_size > _MOST_OF_A_PART and not is_large(part.filename):
            raise BringError(f"its part “{part.filename}” is larger than any spreadsheet's")
        if part.flag_bits & 1:
            raise BringError("it is locked with a password; save it without one")
        if part.filename.lower().endswith((".xml", ".rels", ".vml")):
            _look_through(archive, part)
    return archive


def part_names(data: bytes) -> list[str]:
    """The names of its parts."""
    return _unpacked(data).namelist()


def _unpacked(data: bytes) -> zipfile.ZipFile:
    try:
        return zipfile.ZipFile(BytesIO(data))
    except (zipfile.BadZipFile, ValueError, NotImplementedError, OverflowError) as error:
        raise BringError(f"this is no sound spreadsheet: {error}") from None


def _look_through(archive: zipfile.ZipFile, part: zipfile.ZipInfo) -> None:
    """BringError where a part declares a type of document, or could hide that it does."""
    before, tags = b"", 0
    try:
        with archive.open(part) as file:
            while piece := file.read(_PIECE):
                seen = before + piece
                if not before and b"\0" in piece[:4]:
                    raise BringError(f"its part “{part.filename}” is no UTF-8")
                if b"<!DOCTYPE" in seen or b"<!ENTITY" in seen:
                    raise BringError(f"its part “{part.filename}” declares entities; not read")
                before = piece[-_LONGEST_MARK:]
                tags += max(piece.count(b"<"), piece.count(b"=") // 2)
                if tags > _MOST_TAGS:
                    raise BringError(
                        f"its part “{part.filename}” has too many cells; part the list"
                    )
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, OSError) as error:
        raise BringError(f"this is no sound spreadsheet: {error}") from None


def holds(archive: zipfile.ZipFile, name: str, mark: bytes) -> bool:
    """Whether some bytes stand in a part."""
    before = b""
    with archive.open(name) as file:
        while piece := file.read(_PIECE):
            if mark in before + piece:
                return True
            before = piece[-len(mark) :]
    return False
