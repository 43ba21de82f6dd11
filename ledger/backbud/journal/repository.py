"""Opens a git repository that may have come from anybody, so that reading it stays within it and
comes to an end.

Before the library opens anything, all that it would open is looked over: a pipe never ends, a link,
a borrowed store of objects or an included setting leads elsewhere. Then what an object says that it
holds is asked before it is unpacked, and all that is unpacked is counted.
"""

from __future__ import annotations

import mmap
import os
import re
import stat
import zlib
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from itertools import islice
from typing import TYPE_CHECKING

from backbud.publish import DEEPEST
from backbud.publish.disk import is_real_folder, lstat
from backbud.publish.plain import read_plain

if TYPE_CHECKING:
    from dulwich.objects import ObjectID, RawObjectID
    from dulwich.pack import Pack
    from dulwich.repo import Repo

GIT = ".git"
# One text, or one list of names, of a repository; more is no diary that anybody typed.
LARGEST_OBJECT = 100_000_000
# What is unpacked in one run, all in all: a few seconds of work.
MOST_UNPACKED = 2_000_000_000
# What an object costs beside its bytes.
_EACH = 2_000
# Files of a repository, loose objects and branches among them.
_MOST_FILES = 500_000
_LARGEST_SETTINGS = 1_000_000
# A list of branches, or a branch.
_LARGEST_LIST = 20_000_000
# Each of these the library opens, where it is there, and walks through these folders.
_FILES = (
    "HEAD", "commondir", "config", "config.worktree", "packed-refs", "shallow", "info/grafts",
)  # fmt: skip
_FOLDERS = ("info", "objects", "refs", "reftable")
_ELSEWHERE = ("commondir", "objects/info/alternates", "objects/info/http-alternates")
_INCLUDES = re.compile(rb"(?i)\[\s*include")
# The kinds of packed objects that are told as what differs from another (git's pack format).
_OFFSET_DELTA, _REF_DELTA = 6, 7
_DEEPEST_CHAIN = 5000
# The names of objects are 20 or 32 bytes, or 40 or 64 letters.
_HEX = 40


class UnsoundRepository(Exception):
    """A repository that is not read: it leads elsewhere, or would not come to an end."""


class TooMuchError(UnsoundRepository):
    """It holds more than is read in one run."""


@contextmanager
def open_repository(top: str) -> Iterator[Repo]:
    """The repository that a folder is. UnsoundRepository, and whatever the library raises."""
    look_over(top)
    from dulwich.repo import Repo

    with ExitStack() as held, Repo(top) as repo:
        _bound(repo, held)
        yield repo


def look_over(top: str) -> None:
    """UnsoundRepository unless all that belongs to a folder's repository lies in its `.git`, as
    plain files in real folders."""
    git = os.path.join(top, GIT)
    if not is_real_folder(git):
        raise UnsoundRepository(f"{GIT} is no folder, so it is kept elsewhere")
    for name in _ELSEWHERE:
        if lstat(os.path.join(git, *name.split("/"))) is not None:
            raise UnsoundRepository(f"a part of it is kept elsewhere ({GIT}/{name})")
    for name in _FILES:
        _is_plain(os.path.join(git, *name.split("/")), f"{GIT}/{name}")
    for name in ("config", "config.worktree"):
        settings = read_plain(git, name, _LARGEST_SETTINGS)
        if settings is None and lstat(os.path.join(git, name)) is not None:
            raise UnsoundRepository(f"{GIT}/{name} is too large")
        if _INCLUDES.search(settings or b""):
            raise UnsoundRepository(f"{GIT}/{name} includes another file")
    found = (one for folder in _FOLDERS for one in _below(os.path.join(git, folder), folder))
    if next(islice(found, _MOST_FILES, None), None) is not None:
        raise UnsoundRepository(f"{GIT} holds more files than are read")


def _below(path: str, shown: str, depth: int = 0) -> Iterator[str]:
    """Every file in a folder of the repository, and below it."""
    if lstat(path) is None:
        return
    if not is_real_folder(path) or depth > DEEPEST:
        raise UnsoundRepository(f"{GIT}/{shown} is no real folder, or too deep")
    with os.scandir(path) as entries:
        for entry in entries:
            name = f"{shown}/{entry.name}"
            if not entry.is_file(follow_symlinks=False):
                yield from _below(entry.path, name, depth + 1)
                continue
            if not name.startswith("objects/"):
                _is_plain(entry.path, f"{GIT}/{name}")
            yield name


def _is_plain(path: str, shown: str) -> None:
    found = lstat(path)
    if found is None:
        return
    if not stat.S_ISREG(found.st_mode) or found.st_size > _LARGEST_LIST:
        raise UnsoundRepository(f"{shown} is no plain file, or too large")


# ------------------------------------------------------------------ what is unpacked


def _bound(repo: Repo, held: ExitStack) -> None:
    """From here on no object is unpacked that is too large, nor more than is a run's share."""
    store = repo.object_store
    unpack, left = store.get_raw, _Left(held)
    store.loose_object_size_limit = LARGEST_OBJECT

    def get_raw(name: ObjectID | RawObjectID) -> tuple[int, bytes]:
        for pack in store.packs:
            if name in pack:
                left.look_at(pack, pack.index.object_offset(name))
                break
        else:
            hexed = name.decode("ascii") if len(name) >= _HEX else name.hex()
            loose = lstat(os.path.join(store.path, hexed[:2], hexed[2:]))
            if loose is not None and loose.st_size > LARGEST_OBJECT:
                raise UnsoundRepository("an object in it is too large")
        found = unpack(name)
        left.take(len(found[1]))
        return found

    store.__dict__["get_raw"] = get_raw


class _Left:
    """What of a run's share is left, and what was asked of packs already."""

    def __init__(self, held: ExitStack) -> None:
        self._left, self._held = MOST_UNPACKED, held
        self._packs: dict[str, mmap.mmap] = {}
        self._asked: set[tuple[str, int]] = set()

    def take(self, count: int) -> None:
        """Count what is unpacked. UnsoundRepository."""
        self._left -= count + _EACH
        if self._left < 0:
            raise TooMuchError("it holds more than is read in one run")

    def look_at(self, pack: Pack, offset: int) -> None:
        """Ask an object, and all that it is told by, how much they say that they hold."""
        from dulwich.objects import RawObjectID

        path = os.fspath(pack.data.path)
        data = self._packs.get(path) or self._opened(path)
        chain = 0
        for _ in range(_DEEPEST_CHAIN):
            if (path, offset) in self._asked:
                return
            self._asked.add((path, offset))
            kind, size, at = packed_header(data, offset)
            chain += size
            if chain > LARGEST_OBJECT:
                raise UnsoundRepository("an object in it is too large")
            if kind == _OFFSET_DELTA:
                back, at = _distance(data, at)
                base = offset - back
            elif kind == _REF_DELTA:
                name = RawObjectID(data[at : (at := at + pack.object_format.oid_length)])
                if name not in pack:
                    return
                base = pack.index.object_offset(name)
            else:
                return
            result = delta_result(data, at)
            if result > LARGEST_OBJECT:
                raise UnsoundRepository("an object in it is too large")
            self.take(result)
            offset = base
        raise UnsoundRepository("an object in it is told by too many others")

    def _opened(self, path: str) -> mmap.mmap:
        with open(path, "rb") as file:
            data = mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ)
        self._held.callback(data.close)
        self._packs[path] = data
        return data


def packed_header(data: mmap.mmap, at: int) -> tuple[int, int, int]:
    """Of an object in a pack (git's pack format): its kind, how many bytes it says that it holds,
    and where what follows begins."""
    byte = data[at]
    kind, size, shift = (byte >> 4) & 7, byte & 15, 4
    while byte & 0x80:
        at += 1
        byte = data[at]
        size |= (byte & 0x7F) << shift
        shift += 7
    return kind, size, at + 1


def delta_result(data: mmap.mmap, at: int) -> int:
    """How many bytes a delta says that it makes; `at`: where its packed bytes begin."""
    head = zlib.decompressobj().decompress(data[at : at + 200], 40)
    _, behind = _small_end_first(head, 0)
    return _small_end_first(head, behind)[0]


def _distance(data: mmap.mmap, at: int) -> tuple[int, int]:
    """How far before an object stands the one that it is told by, and what follows."""
    byte = data[at]
    back = byte & 0x7F
    while byte & 0x80:
        at += 1
        byte = data[at]
        back = ((back + 1) << 7) | (byte & 0x7F)
    if back <= 0:
        raise UnsoundRepository("an object in it is told by itself")
    return back, at + 1


def _small_end_first(data: bytes, at: int) -> tuple[int, int]:
    number, shift = 0, 0
    while at < len(data):
        byte = data[at]
        number |= (byte & 0x7F) << shift
        at, shift = at + 1, shift + 7
        if not byte & 0x80:
            return number, at
    raise UnsoundRepository("an object in it cannot be read")
