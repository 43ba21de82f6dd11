"""Moves what is to rest: file by file, so that a run that is stopped changes nothing that is read.

A page comes to its new place before it goes from its old one; while it stands in both it counts
once, as it stands in the old one (`journal/copies.py`). What a file is sorted by stays the same
(`journal/line_order.py`). So every moment in between reads as before, and the next run goes on.
"""

from __future__ import annotations

import os
from datetime import date

from backbud.jot.in_place import plain_bytes, replace_file
from backbud.jot.line import JotError
from backbud.jot.write import DIARY_LOCK
from backbud.journal.find import would_be_read
from backbud.journal.load import loaded_from
from backbud.journal.read import Journal
from backbud.publish.disk import lstat, make_real_folder, retried, sync_folder
from backbud.publish.lock import lock
from backbud.publish.names import folders_of
from backbud.publish.refused import PublishError
from backbud.rest.same import reads_the_same
from backbud.rest.texts import RestedTexts, rested_texts
from backbud.rest.what_rests import RestingFile


class RestError(Exception):
    """Not all was moved, or nothing; the sentence says why. What is read is as it was."""


def put_to_rest(journal: Journal, today: date, files: tuple[RestingFile, ...]) -> None:
    """Move the pages that `what_rests` found. RestError."""
    folder = journal.folder
    try:
        with lock(folder), lock(folder, name=DIARY_LOCK):
            old = {one.file: _unchanged(journal, one.file) for one in files}
            there = {one.target: _unchanged(journal, one.target) for one in files}
            new = {one: rested_texts(one, old[one.file], there[one.target]) for one in files}
            _check(journal, today, new)
            for one, texts in new.items():
                _move(folder, one, texts, old[one.file], there[one.target])
    except (JotError, PublishError) as error:
        raise RestError(str(error)) from None
    except OSError as error:
        raise RestError(f"the diary cannot be written: {error.strerror or error}") from None


def _unchanged(journal: Journal, name: str) -> bytes:
    """The bytes of a file as it was read; none where there was no such file."""
    path, read = os.path.join(journal.folder, name), journal.texts.get(name)
    if read is None:
        if lstat(path) is not None:
            raise RestError(f"{name} is there, but is no file that the journal reads")
        if not would_be_read(journal.folder, name):
            raise RestError(f"a .gitignore leaves out {name}, so it would not be read there")
        return b""
    data, _ = plain_bytes(path, name)
    if loaded_from(data).data != read:
        raise RestError(f"{name} was written meanwhile; try again")
    return data


def _check(journal: Journal, today: date, new: dict[RestingFile, RestedTexts]) -> None:
    texts: dict[str, bytes | None] = {}
    for one, after in new.items():
        texts |= {one.file: after.left, one.target: after.target}
    if not reads_the_same(journal, today, texts):
        raise RestError("the journal would not read the same, so nothing was moved")


def _move(folder: str, one: RestingFile, new: RestedTexts, old: bytes, there: bytes) -> None:
    path, target = os.path.join(folder, one.file), os.path.join(folder, one.target)
    if one.is_whole:
        for above in folders_of(one.target):
            make_real_folder(os.path.join(folder, above), above)
        if plain_bytes(path, one.file)[0] != old or lstat(target) is not None:
            raise RestError(f"{one.file} was written meanwhile; try again")
        retried(os.rename, path, target)
        sync_folder(os.path.dirname(target))
        sync_folder(os.path.dirname(path))
        return
    stood = plain_bytes(target, one.target)[1] if there else None
    _, found = plain_bytes(path, one.file)
    if new.target != there and not replace_file(
        target, folder, one.target, new.target, there, stood
    ):
        raise RestError(f"{one.target} was written meanwhile; try again")
    if new.left is None:
        is_done = plain_bytes(path, one.file)[0] == old
        if is_done:
            retried(os.remove, path)
            sync_folder(os.path.dirname(path))
    else:
        is_done = replace_file(path, folder, one.file, new.left, old, found)
    if not is_done:
        raise RestError(f"{one.file} was written meanwhile; try again")
