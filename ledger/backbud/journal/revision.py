"""Reads the files of a journal as they were at a revision of its git repository.

The repository's objects are read by `dulwich`, in this process: git itself is never run, for its
settings can name programs, and a journal may come from anybody.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from contextlib import suppress
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from backbud.journal.repository import open_repository
from backbud.publish import DEEPEST, OUTPUTS

if TYPE_CHECKING:
    from dulwich.objects import Commit
    from dulwich.repo import Repo

# What a journal is made of, in all; more is no diary that anybody typed.
LARGEST = 200_000_000
# Names in one revision, files and folders, photographs too.
MOST_NAMES = 100_000
_BACK = re.compile(r"(?P<name>.+?)(?P<steps>(?:\^|~\d{0,6})*)")
_STEP = re.compile(r"\^|~(\d*)")


class NoRevision(Exception):
    """There is no such revision, or it cannot be read; the sentence says why."""


class Room:
    """How much of one revision is read: its names, and the bytes of its texts. NoRevision."""

    def __init__(self) -> None:
        self._names, self._bytes = MOST_NAMES, LARGEST

    def name(self) -> None:
        """One name more. Folders that hold one another ten times over never come to an end."""
        self._names -= 1
        if self._names < 0:
            raise NoRevision("the journal held too many files then.")

    def text(self, content: bytes) -> None:
        """One text more."""
        self._bytes -= len(content)
        if self._bytes < 0:
            raise NoRevision("the journal was too large then.")


class JournalRevision(Struct, frozen=True):
    """A revision: its digest, the day it was written, the first line of what was said of it, and
    its files below the journal's folder, by relative name."""

    digest: str
    day: date
    said: str
    files: dict[str, bytes]


def read_revision(folder: str, written: str) -> JournalRevision:
    """The journal at a revision, written as git has it (a branch, a tag, the beginning of a digest,
    with `~2` or `^` behind it), or as a day: the last revision until its end (UTC). NoRevision."""
    from dulwich.errors import NotGitRepository

    top = _top(folder)
    if not is_vouched_for(top):
        raise NoRevision(
            f"the repository in {top} is another user's, and git would not read it either. To "
            f"vouch for it: git config --global --add safe.directory {top}"
        )
    try:
        with open_repository(top) as repo:
            commit = _commit(repo, written)
            below = os.path.relpath(os.path.realpath(folder), os.path.realpath(top))
            tree = _folder(repo, commit, below)
            return JournalRevision(
                commit.id.decode(),
                day_of_commit(commit),
                commit.message.decode("utf-8", "replace").partition("\n")[0].strip(),
                dict(_files(repo, tree, "", Room())),
            )
    except NotGitRepository:
        raise NoRevision(f"{folder} is in no git repository.") from None
    except NoRevision:
        raise
    except Exception as error:  # whatever a broken repository makes the library raise
        raise NoRevision(f"the repository cannot be read: {error}") from None


def _top(folder: str) -> str:
    """The folder above, or the folder itself, that holds `.git`."""
    here = os.path.abspath(folder)
    for _ in range(DEEPEST):
        if os.path.exists(os.path.join(here, ".git")):
            return here
        above = os.path.dirname(here)
        if above == here:
            break
        here = above
    raise NoRevision(f"{folder} is in no git repository.")


def is_vouched_for(top: str) -> bool:
    """Whether git would read a repository: it is this user's, or the user's own settings name it
    (`safe.directory`, git-config)."""
    if not hasattr(os, "geteuid"):
        return True
    try:
        owners = {os.stat(path).st_uid for path in (top, os.path.join(top, ".git"))}
    except OSError:
        return False
    if owners == {os.geteuid()}:
        return True
    from dulwich.config import StackedConfig

    # An empty value takes back all before it (git-config); the system's settings come first.
    vouched, here = False, os.fsencode(os.path.realpath(top))
    for settings in reversed(StackedConfig.default().backends):
        with suppress(KeyError):
            for one in settings.get_multivar((b"safe",), b"directory"):
                vouched = bool(one) and (vouched or one in (b"*", here))
    return vouched


def _commit(repo: Repo, written: str) -> Commit:
    from dulwich.objectspec import parse_commit

    if re.fullmatch(r"\d{4}-\d\d-\d\d", written):
        try:
            day = date.fromisoformat(written)
        except ValueError:
            raise NoRevision(f"“{written}” is no day.") from None
        return _last_until(repo, day)
    found = _BACK.fullmatch(written)
    if found is None:
        raise NoRevision("say which revision: v1, HEAD~3, the beginning of a digest, or a day.")
    try:
        commit = parse_commit(repo, found["name"].encode())
        for step in _STEP.finditer(found["steps"]):
            for _ in range(int(step[1] or 1) if step[0] != "^" else 1):
                commit = _parent(repo, commit)
    except (KeyError, ValueError):
        raise NoRevision(f"there is no revision “{written}” in the repository.") from None
    return commit


def _parent(repo: Repo, commit: Commit) -> Commit:
    if not commit.parents:
        raise KeyError(commit.id)
    parent: Any = repo[commit.parents[0]]
    return parent  # type: ignore[no-any-return]


def _last_until(repo: Repo, day: date) -> Commit:
    for entry in repo.get_walker():
        if day_of_commit(entry.commit) <= day:
            return entry.commit
    raise NoRevision(f"the repository has no revision until {day}.")


def day_of_commit(commit: Commit) -> date:
    return datetime.fromtimestamp(commit.commit_time, UTC).date()


def _folder(repo: Repo, commit: Commit, below: str) -> Any:
    """The tree of the journal's folder at a revision."""
    tree: Any = repo[commit.tree]
    for part in () if below == "." else below.split(os.sep):
        if part.encode() not in tree:
            raise NoRevision("the journal was not in the repository then.")
        tree = repo[tree[part.encode()][1]]
    return tree


def _files(
    repo: Repo, tree: Any, above: str, room: Room, depth: int = 0
) -> Iterator[tuple[str, bytes]]:
    """The files of a tree; no link, no other repository, nothing that a journal passes over."""
    for entry in tree.items():
        name = entry.path.decode("utf-8", "replace")
        room.name()
        if not _is_plain_name(name) or name.startswith(".") or name in OUTPUTS:
            continue
        kind = entry.mode & 0o170000
        if kind == 0o040000 and depth < DEEPEST:
            yield from _files(repo, repo[entry.sha], f"{above}{name}/", room, depth + 1)
        elif kind == 0o100000:
            content = repo[entry.sha].as_raw_string()
            room.text(content)
            yield f"{above}{name}", content


def _is_plain_name(name: str) -> bool:
    """Whether it names a file in its folder, and on no system one elsewhere."""
    return bool(name) and "/" not in name and "\\" not in name and not os.path.splitdrive(name)[0]
