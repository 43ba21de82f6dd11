"""Makes `made/` hold one whole set of files, the old one or the new, whatever fails on the way.

How it stays whole:
1. Files whose bytes differ are staged in `.backbud/staged/` as they are made (stage.py). Nothing
   else has changed.
2. A synced list of them and their digests is renamed to `.backbud/commitment` (commitment.py). From
   here on the new set counts.
3. Files of the old set that are gone are removed, the new manifest is renamed into `made/`, then
   each staged file, so that every file has an owner at any moment (put_in_place.py); last of all
   the commitment is removed.
A run that dies before 2 leaves staged files, which `finish` throws away. One that dies after it
leaves the commitment, which `finish` carries out: a step already done is seen by its missing
staged file. If `.backbud/` is deleted half way, the manifest in `made/` still names all that is
ours, and the next `publish` compares bytes and writes what is missing.
The commitment, the staging folder and the manifest bear the person's mark (mark.py). What does not
came with the journal, from anybody: nothing of it is done, and nothing of it is removed.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from contextlib import suppress
from functools import lru_cache
from typing import NamedTuple

from backbud.person import key_for
from backbud.publish import MADE, MANIFEST, MEMORY, STAGED
from backbud.publish.commitment import commitment_path, left_over, staged_path
from backbud.publish.disk import lstat, sync_folder
from backbud.publish.lock import LOCK_WAIT_SECONDS, lock
from backbud.publish.manifest import PURPOSE, read_manifest
from backbud.publish.names import Names
from backbud.publish.plain import read_plain
from backbud.publish.put_in_place import made_folder, put_in_place
from backbud.publish.refused import STILL_WHOLE, TO_FINISH, BusyError, ForeignError, told_by_system
from backbud.publish.stage import NewOutput, Seen, throw_away


class Published(NamedTuple):
    """What one publishing did: relative paths written and removed, and how many stayed as is."""

    written: tuple[str, ...]
    removed: tuple[str, ...]
    kept: int


def publish(
    journal: str,
    files: Mapping[str, bytes] | Iterable[tuple[str, bytes]],
    seen: dict[str, Seen] | None = None,
    made: str = MADE,
) -> Published:
    """Make `made/` of the journal's folder hold exactly `files` (relative POSIX path to bytes).

    Pairs may be made as they are asked for, so that not all of them are held at once: where that
    raises, all is as it was. Files that no earlier publishing wrote stay untouched. `seen`: by
    relative path the files that this process has seen, so that those which nobody has touched since
    need not be read again; who publishes again and again hands the same one over each time. `made`:
    another folder of the journal for it, as a relative path. Raises PublishError if a name cannot
    be used, if something that is not ours is in the way, if the folder or one in it is a link, if
    another run holds the lock, or if the system refuses; the message says in what state the output
    is left. ForeignError if what is there bears a list of files that this person's backbud did not
    write.
    """
    are_named = isinstance(files, Mapping)
    if isinstance(files, Mapping):
        Names(files)
        files = files.items()
    with lock(journal):
        finish(journal)
        with told_by_system(journal, STILL_WHOLE):
            made_folder(journal, made)
            stage = NewOutput(journal, made, _old_digests(journal, made), seen, are_named)
        try:
            for name, content in files:
                with told_by_system(journal, STILL_WHOLE):
                    stage.take(name, content)
            with told_by_system(journal, STILL_WHOLE):
                commitment = stage.commit()
        except Exception:
            # Staged files may be what fills the disk. Left lying, the next command removes them.
            with suppress(OSError):
                if lstat(commitment_path(journal)) is None:
                    throw_away(journal)
            raise
        if commitment is not None:
            with told_by_system(journal, TO_FINISH):
                sync_folder(os.path.join(journal, MEMORY))
                put_in_place(journal, commitment)
    return Published(stage.changed, stage.gone, stage.kept)


def finish(journal: str) -> bool:
    """Carry out a commitment that an earlier run left, or throw away what it only staged.

    Returns True if there was a commitment. Every command calls this first; with nothing left over
    it writes nothing and takes no lock. Raises PublishError as `publish` does, ForeignError where
    what is left is not of this person's making: then nothing is done.
    """
    is_committed = os.path.lexists(commitment_path(journal))
    if not is_committed and not os.path.lexists(staged_path(journal)):
        return False
    try:
        with (
            lock(journal, LOCK_WAIT_SECONDS if is_committed else 0.0),
            told_by_system(journal, TO_FINISH),
        ):
            commitment = left_over(journal)
            if commitment is not None:
                put_in_place(journal, commitment)
            elif not throw_away(journal):
                raise ForeignError(f"{MEMORY}/{STAGED}", "Nothing of it was touched.")
            return commitment is not None
    except BusyError:
        if is_committed:
            raise
        return False  # what is staged is not left over: another run is staging it now


def _old_digests(journal: str, made: str) -> dict[str, str]:
    """The files that earlier runs wrote, by the manifest in the folder of the output."""
    key = key_for(PURPOSE, journal)
    name = f"{made}/{MANIFEST}"
    if lstat(os.path.join(journal, name)) is None:
        return {}
    data = read_plain(journal, name)
    digests = _read_manifest(key, made, data) if data is not None else None
    if digests is None:
        raise ForeignError(f"{made}/", "It is left alone.")
    return digests


# Who publishes again and again mostly finds the same one.
@lru_cache(maxsize=1)
def _read_manifest(key: bytes, made: str, data: bytes) -> dict[str, str] | None:
    return read_manifest(key, made, data)
