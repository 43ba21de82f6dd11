"""Writes the files of a new output beside the old one, as they are made, where they differ.

Nothing of the output is changed here: until the commitment stands, all of it can be thrown away.
"""

from __future__ import annotations

import os
import stat
import time
from contextlib import suppress
from typing import NamedTuple

from backbud.person import key_for
from backbud.publish import COMMITMENT, MANIFEST, MEMORY, STAGED
from backbud.publish.commitment import Commitment, Placing, commitment_path, encoded, staged_path
from backbud.publish.disk import (
    is_real_folder,
    lstat,
    make_real_folder,
    remove_if_there,
    retried,
    sync_files,
    sync_folder,
    write_new,
)
from backbud.publish.manifest import PURPOSE, file_digest, manifest_bytes
from backbud.publish.mark import sealed
from backbud.publish.memory import PURPOSE as MEMORY_PURPOSE
from backbud.publish.memory import recall_bytes
from backbud.publish.names import Names
from backbud.publish.old_output import OldOutput
from backbud.publish.plain import read_plain
from backbud.publish.refused import PublishError

_MARK = "mark"  # the first file to come into the staging folder, the last to go
# What was written so shortly before it was seen may be written over with nothing to tell by.
_TOO_NEW_NS = 2_000_000_000


class Seen(NamedTuple):
    """A file of the output as it was last seen, and what it held then."""

    mark: tuple[int, int, int, int]  # size, modified, changed, number
    content: bytes
    digest: str


class NewOutput:
    """One new output of a journal, file by file. The journal is locked meanwhile."""

    def __init__(
        self, journal: str, made: str, old: dict[str, str], seen: dict[str, Seen] | None
    ) -> None:
        """`old`: the digests of the files that earlier runs wrote. `seen`: what this process has
        seen of them, where it is to publish again and again."""
        self._journal, self._made, self._old, self._seen = journal, made, old, seen
        self._before, self._names = OldOutput(journal, made, old), Names()
        self._is_marked = False
        self._moves: list[Placing] = []
        self._digests: dict[str, str] = {}

    def take(self, name: str, content: bytes) -> None:
        """Stage a file if it differs from what is there. PublishError, OSError."""
        if name in self._digests:
            raise PublishError(f"{name} cannot be in the output twice.")
        self._names.add(name)
        known = self._seen.get(name) if self._seen is not None else None
        is_known = known is not None and known.content == content
        digest = known.digest if is_known and known is not None else file_digest(content)
        self._digests[name] = digest
        # On a system that does not know case, an old file may be the very one that is compared.
        if self._before.spelled_otherwise(name) or not self._holds(name, content, digest):
            self._before.check_coming(name)
            staged = self._write(str(len(self._moves)), content)
            self._moves.append(Placing(staged, digest, name, name not in self._old))

    @property
    def changed(self) -> tuple[str, ...]:
        """The files that are new or differ."""
        return tuple(sorted(move.name for move in self._moves))

    @property
    def gone(self) -> tuple[str, ...]:
        """The files of earlier runs that are none any more."""
        return tuple(sorted(self._old.keys() - self._digests.keys()))

    @property
    def kept(self) -> int:
        """How many files stay as they are."""
        return len(self._digests) - len(self._moves)

    def commit(self) -> Commitment | None:
        """Rename the list of what is staged into its place: from here on the new output counts.

        None where nothing differs. PublishError, OSError: then there is no commitment.
        """
        for name in self.gone:
            self._before.check_going(name)
            if self._seen is not None:
                self._seen.pop(name, None)
        if not self._moves and self._old == self._digests:
            return None
        journal = self._journal
        manifest = manifest_bytes(key_for(PURPOSE, journal), self._made, self._digests)
        listed = Placing(self._write("final", manifest), file_digest(manifest), MANIFEST)
        commitment = Commitment(self._made, self.gone, (listed, *self._moves))
        data = sealed(key_for(MEMORY_PURPOSE, journal), COMMITMENT, encoded(commitment), journal)
        last = self._write(COMMITMENT, data)
        names = (_MARK, *(move.staged for move in commitment.moves), last)
        sync_files(staged_path(journal, name) for name in names)
        sync_folder(staged_path(journal))
        self._check_same_disk()
        retried(os.replace, staged_path(journal, last), commitment_path(journal))
        return commitment

    def _write(self, what: str, content: bytes) -> str:
        """Write a file into the staging folder, which the person's mark is the first to come to."""
        if not self._is_marked:
            make_real_folder(staged_path(self._journal), f"{MEMORY}/{STAGED}")
            key = key_for(MEMORY_PURPOSE, self._journal)
            mark = sealed(key, f"{STAGED}/{_MARK}", b"", self._journal)
            write_new(staged_path(self._journal, _MARK), mark)
            self._is_marked = True
        # The process's number, so that a second run can never take these files for its own.
        name = f"{os.getpid()}-{what}"
        write_new(staged_path(self._journal, name), content)
        return name

    def _holds(self, name: str, content: bytes, digest: str) -> bool:
        """Whether the output holds these very bytes, if need be by reading them."""
        path = f"{self._journal}/{self._made}/{name}"
        found = lstat(path)
        if found is None or not stat.S_ISREG(found.st_mode) or found.st_size != len(content):
            return False
        mark = found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino
        known = self._seen.get(name) if self._seen is not None else None
        if known is not None and known.mark == mark:
            return known.content == content
        now = time.time_ns()
        held = read_plain(self._journal, f"{self._made}/{name}") or b""
        is_old_enough = max(found.st_mtime_ns, found.st_ctime_ns) < now - _TOO_NEW_NS
        if held != content:
            return False
        if self._seen is not None and is_old_enough:
            self._seen[name] = Seen(mark, content, digest)
        return True

    def _check_same_disk(self) -> None:
        """Refuse before the commitment what no rename could carry out after it."""
        made, staged = os.path.join(self._journal, self._made), staged_path(self._journal)
        if os.lstat(made).st_dev != os.lstat(staged).st_dev:
            raise PublishError(
                f"{self._made} and {MEMORY} lie on different disks. Put both on the journal's own."
            )


def throw_away(journal: str) -> bool:
    """Remove what is staged, if this person's backbud staged it; else nothing. Whether it is gone.

    What a run that died has staged bears a mark, unless it died before anything else was staged.
    """
    folder = staged_path(journal)
    if lstat(folder) is None:
        return True
    if not is_real_folder(folder):
        return False
    names = [name for name in os.listdir(folder) if name != _MARK]
    if names and recall_bytes(journal, f"{STAGED}/{_MARK}") is None:
        return False
    # The mark goes last: a run that dies in between leaves nothing that is not known for ours.
    for name in (*names, _MARK):
        remove_if_there(os.path.join(folder, name))
    with suppress(FileNotFoundError):
        os.rmdir(folder)
    return True
