"""Keeps in `.backbud/`, under the person's mark, what a run has to tell the next one.

A file that is torn, that a stranger wrote, or that stands in the place of another one or of
another journal's is as good as none: not a byte of it is looked at.
"""

from __future__ import annotations

from backbud.person import key_for, known_key_for
from backbud.publish import MEMORY
from backbud.publish.mark import sealed, unsealed
from backbud.publish.plain import read_plain

PURPOSE = "memory"


def recall_bytes(journal: str, name: str) -> bytes | None:
    """What `keep` kept under a name; None where there is nothing that this person wrote."""
    try:
        key = known_key_for(PURPOSE, journal)
        data = read_plain(journal, f"{MEMORY}/{name}") if key else None
    except OSError:
        return None
    return unsealed(key, name, data, journal) if data is not None else None


def keep_bytes(journal: str, name: str, content: bytes, *, synced: bool = True) -> None:
    """Keep bytes under a name, or, where that cannot be, nothing: the next run does without.

    `synced`: not even a loss of power may cost them.
    """
    from backbud.publish.refused import PublishError

    try:
        must_keep(journal, name, content, synced=synced)
    except (OSError, PublishError):
        return


def must_keep(journal: str, name: str, content: bytes, *, synced: bool = True) -> None:
    """Keep bytes under a name, whole or not at all.

    OSError where the disk refuses or the person has no secret, PublishError where `.backbud/` is
    no real folder, or where something else than a file stands there.
    """
    # Only a run that has something to keep needs the machinery of publishing.
    from backbud.publish.disk import check_file, memory_folder, write_whole

    marked = sealed(key_for(PURPOSE, journal), name, content, journal)
    folder = memory_folder(journal)
    check_file(f"{folder}/{name}", f"{MEMORY}/{name}")
    write_whole(folder, name, marked, synced=synced)


class MemoryOf:
    """What runs of this person remember of one journal; `keeps`: this run may add to it.

    A run that keeps nothing writes nothing into the journal's folder, and makes no secret.
    """

    __slots__ = ("journal", "keeps")

    def __init__(self, journal: str, keeps: bool = True) -> None:
        self.journal, self.keeps = journal, keeps

    def recall(self, name: str) -> bytes | None:
        """What was kept under a name; None where there is nothing that this person wrote."""
        return recall_bytes(self.journal, name)

    def keep(self, name: str, content: bytes, *, synced: bool = True) -> None:
        """Keep bytes under a name, if this run may and can."""
        if self.keeps:
            keep_bytes(self.journal, name, content, synced=synced)
