"""Carries out a commitment: old files go, then the new manifest comes, then the new files.

Each step can be repeated: what is staged is still to be placed, what is not has been placed.
"""

from __future__ import annotations

import os
import stat
from contextlib import suppress
from itertools import takewhile

from backbud.publish import MANIFEST, MEMORY
from backbud.publish.commitment import Commitment, Placing, commitment_path, staged_path
from backbud.publish.disk import (
    is_real_folder,
    lstat,
    make_real_folder,
    remove_if_there,
    retried,
    sync_folder,
    sync_folders,
)
from backbud.publish.names import folders_of
from backbud.publish.refused import TO_FINISH, in_the_way
from backbud.publish.stage import throw_away


def made_folder(journal: str, made: str) -> str:
    """The path of the folder of the output, made if it is missing. PublishError, OSError."""
    for folder in (*folders_of(made), made):
        make_real_folder(os.path.join(journal, folder), folder)
    return os.path.join(journal, made)


def put_in_place(journal: str, commitment: Commitment) -> None:
    """Take every step that is left of a commitment. PublishError, OSError.

    What is gone goes first, while the old manifest names it. Then the new one comes: each file that
    is placed has an owner, whatever becomes of the memory.
    """
    made = made_folder(journal, commitment.made)
    sync_folders({_remove(made, name) for name in commitment.gone})
    touched = {made}
    for move in commitment.moves:
        touched.add(_place(journal, commitment.made, move))
        if move.name == MANIFEST:
            sync_folder(made)
    sync_folders(touched)
    remove_if_there(commitment_path(journal))
    with suppress(OSError):  # all is done: what is left over here does no harm
        sync_folder(os.path.join(journal, MEMORY))
        throw_away(journal)


def _place(journal: str, made: str, move: Placing) -> str:
    """Put a file in its place; returns the folder that it is in."""
    for folder in folders_of(move.name):
        make_real_folder(os.path.join(journal, made, folder), f"{made}/{folder}")
    target = os.path.join(journal, made, move.name)
    if move.is_new and lstat(target) is not None:
        raise in_the_way(f"{made}/{move.name}", TO_FINISH)
    retried(os.replace, staged_path(journal, move.staged), target)
    return os.path.dirname(target)


def _remove(made: str, name: str) -> str:
    """Remove an old file and the folders it leaves empty; returns the folder that lost an entry.

    Some of it may have been removed already, down to a last folder that is empty by now.
    """
    above = [os.path.join(made, folder) for folder in folders_of(name)]
    folders = [made, *takewhile(is_real_folder, above)]
    if len(folders) > len(above):
        found = lstat(os.path.join(made, name))
        if found is not None and not stat.S_ISDIR(found.st_mode):
            retried(os.remove, os.path.join(made, name))
    while len(folders) > 1 and not os.listdir(folders[-1]):
        os.rmdir(folders.pop())
    return folders[-1]
