"""Remembers what each picture was when it was last looked at, by the size and times of its file."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable, Mapping
from hashlib import blake2b

import msgspec
from msgspec import Struct

from backbud.photographs.look import MOST_BYTES, Looked, look_at
from backbud.publish.memory import MemoryOf
from backbud.publish.plain import read_plain

REMEMBERED = "photographs"
# A copy's name changes with the picture, and with how copies are made.
_WAY = b"1"


class KnownPicture(Struct, frozen=True):
    """A picture as it was looked at.

    `mark`: size, time of its last change and number of the file. `digest`: of its bytes, in the
    names of its copies; "" where it cannot be shown, and then `looked.wrong` says why.
    """

    mark: tuple[int, int, int, int]
    digest: str
    looked: Looked


_Remembered = dict[str, KnownPicture]
_NOWHERE = (0, 0, 0, 0)
_GONE = "there is no such file in the journal's folder"


def known_pictures(
    folder: str, paths: Iterable[str], memory: MemoryOf
) -> Mapping[str, KnownPicture]:
    """Each picture by its path in the journal's folder; only what changed is looked at again."""
    wanted = list(paths)
    if not wanted:
        return {}
    before = _recalled(memory)
    found = {path: _known(folder, path, before.get(path)) for path in wanted}
    lasting = {path: known for path, known in found.items() if known.mark != _NOWHERE}
    if lasting != before:
        memory.keep(REMEMBERED, msgspec.msgpack.encode(lasting))
    return found


def read_picture(folder: str, path: str) -> bytes | None:
    """The bytes of a picture; None where it is no plain file of the journal, or too large."""
    try:
        return read_plain(folder, path, MOST_BYTES)
    except (OSError, ValueError):
        return None


def _known(folder: str, path: str, before: KnownPicture | None) -> KnownPicture:
    try:
        found = os.lstat(os.path.join(folder, path))
    except (OSError, ValueError):
        return KnownPicture(_NOWHERE, "", Looked(wrong=_GONE))
    mark = (found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino)
    if before is not None and before.mark == mark:
        return before
    if stat.S_ISREG(found.st_mode) and found.st_size > MOST_BYTES:
        wrong = f"it has more than {MOST_BYTES >> 20} MB"
        return KnownPicture(mark, "", Looked(wrong=wrong))
    data = read_picture(folder, path)
    if data is None:
        # A link, a pipe, or a file that must not be read: looked at again each time.
        return KnownPicture(_NOWHERE, "", Looked(wrong="it is no plain file that can be read"))
    looked = look_at(data)
    name = "" if looked.wrong else blake2b(_WAY + data, digest_size=10).hexdigest()
    return KnownPicture(mark, name, looked)


def _recalled(memory: MemoryOf) -> _Remembered:
    data = memory.recall(REMEMBERED)
    if data is None:
        return {}
    try:
        return msgspec.msgpack.decode(data, type=_Remembered)
    except msgspec.MsgspecError:
        return {}
