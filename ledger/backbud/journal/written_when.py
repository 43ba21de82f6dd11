"""Finds in a git repository on which day each line of the diary came to stand there.

The repository is read by `dulwich` as revision.py does, where git vouches for the folder, and git
is never run. What was found is remembered with the revision it was found at, so only what is new
is read again, and nothing at all where the newest revision is the same.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from datetime import date
from typing import TYPE_CHECKING, Any

from msgspec import DecodeError, Struct, ValidationError, msgpack

from backbud.journal.line_keys import LineKey, line_keys, pieces_of
from backbud.journal.repository import GIT, TooMuchError, open_repository
from backbud.journal.revision import (
    LARGEST,
    NoRevision,
    Room,
    day_of_commit,
    is_vouched_for,
)
from backbud.publish import DEEPEST, OUTPUTS
from backbud.publish.disk import is_real_folder
from backbud.publish.memory import MemoryOf
from backbud.publish.plain import read_plain
from backbud_grammar.digest import digest

if TYPE_CHECKING:
    from dulwich.objects import Commit
    from dulwich.repo import Repo

WRITTEN_FILE = "written"
# So long after its day a line tells of memory, not of the bench; ours, no source.
LATE_DAYS = 31
# So many at once are an old notebook typed in, not an afterthought; ours, no source.
NOTEBOOK = 60
# So many lines are named in one run; more is no diary that anybody typed.
MOST_LINES = 1_000_000
_KEY_BYTES = 10
_LONGEST_REF = 1000


class LateLine(Struct, frozen=True, array_like=True, gc=False):
    """On which day a line was written, or changed, long after its own."""

    on: date
    changed: bool


class WrittenWhen(Struct, frozen=True):
    """What a repository tells of the lines of a diary until a revision.

    `head`: that revision. `known`: every line that ever stood there. `late`: those of them that
    came, or were changed, long after their day. `too_much`: the newest revision where there is more
    than is read, so that it is not begun again before there is another.
    """

    head: str = ""
    known: frozenset[bytes] = frozenset()
    late: dict[bytes, LateLine] = {}
    too_much: str = ""


def key_digest(key: LineKey) -> bytes:
    """A line's key, short."""
    return digest("\n".join(key).encode())[:_KEY_BYTES]


def written_when(folder: str, memory: MemoryOf) -> WrittenWhen:
    """What the repository that the folder is tells; nothing where it is none of its own, where git
    does not vouch for it, where `dulwich` is missing, or where it cannot be read."""
    if not (has_repository(folder) and is_vouched_for(folder)):
        return WrittenWhen()
    before = _recalled(memory)
    head = _head(folder)
    if head and head in (before.head, before.too_much):
        return before
    try:
        found = _read(folder, before)
    except (NoRevision, TooMuchError):
        memory.keep(WRITTEN_FILE, msgpack.encode(WrittenWhen(too_much=head)))
        return WrittenWhen()
    except Exception:  # whatever a broken repository makes the library raise: nothing is known
        return WrittenWhen()
    if found.head != before.head:
        memory.keep(WRITTEN_FILE, msgpack.encode(found))
    return found


def has_repository(folder: str) -> bool:
    """Whether the folder is a repository of its own, and neither a part of some other nor one that
    is kept elsewhere."""
    return is_real_folder(os.path.join(folder, GIT))


def watched_files(folder: str) -> tuple[str, ...]:
    """The files of the folder's repository of which one changes with each revision."""
    if not has_repository(folder):
        return ()
    git = os.path.join(folder, GIT)
    names = ("HEAD", "packed-refs", "logs/HEAD", _ref(git))
    return tuple(os.path.join(git, name) for name in names if name)


def _recalled(memory: MemoryOf) -> WrittenWhen:
    try:
        return msgpack.decode(memory.recall(WRITTEN_FILE) or b"", type=WrittenWhen)
    except (DecodeError, ValidationError):
        return WrittenWhen()


def _ref(git: str) -> str:
    """The branch that is checked out, as a path below `.git`; "" where it is told otherwise."""
    said = _small_text(git, "HEAD")
    name = said.removeprefix("ref: ").strip()
    parts = name.split("/")
    is_branch = said.startswith("ref: refs/") and ".." not in parts and "\\" not in name
    return name if is_branch else ""


def _head(folder: str) -> str:
    """The newest revision, where a small file says it; else ""."""
    git = os.path.join(folder, GIT)
    return _small_text(git, _ref(git) or "HEAD").strip()


def _small_text(git: str, name: str) -> str:
    """The text of a small file of the repository; "" where it is none."""
    try:
        return (read_plain(git, name, _LONGEST_REF) or b"").decode("ascii")
    except (OSError, ValueError):
        return ""


# ------------------------------------------------------------------ the revisions


def _read(folder: str, before: WrittenWhen) -> WrittenWhen:
    from dulwich.objects import ObjectID

    with open_repository(folder) as repo:
        newest, last = repo.head(), ObjectID(before.head.encode())
        head = newest.decode()
        since = before if before.head and last in repo.object_store else WrittenWhen()
        exclude = [last] if since.head else None
        walker = repo.get_walker(include=[newest], exclude=exclude, reverse=True)
        revisions = _Revisions(repo, since)
        for entry in walker:
            revisions.take(entry.commit)
        return WrittenWhen(head, frozenset(revisions.known), revisions.late)


class _Revisions:
    """Reads one revision after another, each against the first before it."""

    def __init__(self, repo: Repo, since: WrittenWhen) -> None:
        self._repo, self._left, self._lines = repo, LARGEST, MOST_LINES
        self.known, self.late = set(since.known), dict(since.late)
        self._texts: dict[bytes, list[bytes]] = {}

    def take(self, commit: Commit) -> None:
        """Note the lines that this revision has and the one before it had not."""
        now = self._names(commit)
        parent = self._repo[commit.parents[0]] if commit.parents else None
        was = self._names(parent) if parent is not None else {}
        changed = [name for name in {*now, *was} if now.get(name) != was.get(name)]
        had = {piece for name in changed if name in was for piece in self._pieces(was[name])}
        has = {piece for name in changed if name in now for piece in self._pieces(now[name])}
        came, gone = self._keys(has - had), self._keys(had - has)
        self._texts = {sha: self._texts[sha] for sha in now.values() if sha in self._texts}
        new = [key for key in came - gone if key_digest(key) not in self.known]
        self.known.update(map(key_digest, new))
        # How old the lines are that a repository begins with, nobody knows.
        if was:
            self._note(new, gone - came, day_of_commit(commit), has)

    def _note(
        self, new: list[LineKey], gone: set[LineKey], day: date, standing: set[bytes]
    ) -> None:
        late = [key for key in new if (day - _day(key)).days > LATE_DAYS]
        if not late:
            return
        lines = {(key.day, key.subjects, key.act) for key in gone}
        renamed = {(key.day, key.words): key for key in gone}
        left: dict[LineKey, LateLine] = {}
        for key in late:
            was = renamed.get((key.day, key.words))
            if was is not None and not _names_still(standing, was.subjects):
                # The same line of a tree that bears another handle by now.
                if (found := self.late.get(key_digest(was))) is not None:
                    self.late[key_digest(key)] = found
                continue
            left[key] = LateLine(day, (key.day, key.subjects, key.act) in lines)
        if sum(not one.changed for one in left.values()) < NOTEBOOK:
            self.late.update((key_digest(key), one) for key, one in left.items())

    def _names(self, commit: Any) -> dict[str, bytes]:
        return dict(_texts_in(self._repo, self._repo[commit.tree], "", Room()))

    def _keys(self, pieces: Iterable[bytes]) -> set[LineKey]:
        found = set()
        for piece in pieces:
            for _, key in line_keys(piece):
                found.add(key)
                self._lines -= 1
                if self._lines < 0:
                    raise NoRevision("these are more lines than are read")
        return found

    def _pieces(self, sha: bytes) -> list[bytes]:
        found = self._texts.get(sha)
        if found is None:
            content: bytes = self._repo[sha].as_raw_string()
            self._left -= len(content)
            if self._left < 0:
                raise NoRevision("these are more revisions than are read")
            found = self._texts[sha] = pieces_of(content)
        return found


def _texts_in(
    repo: Repo, tree: Any, above: str, room: Room, depth: int = 0
) -> Iterator[tuple[str, bytes]]:
    for entry in tree.items():
        room.name()
        name = entry.path.decode("utf-8", "replace")
        kind = entry.mode & 0o170000
        if name.startswith(".") or (not above and name in OUTPUTS):
            continue
        if kind == 0o040000 and depth < DEEPEST:
            yield from _texts_in(repo, repo[entry.sha], f"{above}{name}/", room, depth + 1)
        elif kind == 0o100000 and name.lower().endswith(".txt"):
            yield f"{above}{name}", entry.sha


def _names_still(pieces: Iterable[bytes], subjects: str) -> bool:
    """Whether a subject line stands in one of these pages still."""
    line = f"\n{subjects}\n".encode()
    return any(line in piece for piece in pieces)


def _day(key: LineKey) -> date:
    try:
        return date.fromisoformat(key.day)
    except ValueError:
        return date.max
