"""Writes a mapping, and the cards and days of a list, as new files of the journal, each whole."""

from __future__ import annotations

import os
from collections.abc import Callable

from backbud.bring.mapping import Mapping, mapping_lines
from backbud.bring.run import Brought
from backbud.bring.sheet import BringError
from backbud.bring.where import mapping_name
from backbud.jot.in_place import replace_file
from backbud.jot.write import DIARY_LOCK, WAIT_SECONDS
from backbud.publish.disk import lstat
from backbud.publish.lock import lock
from backbud.publish.plain import read_plain
from backbud.publish.refused import PublishError


class NotPutDownError(BringError):
    """The disk refused, or somebody else was at work; nothing was written."""


def kept_mapping(folder: str, file: str) -> bytes | None:
    """What the mapping of a list says, None where it has none yet. BringError where something else
    stands there."""
    name = mapping_name(file)
    try:
        data = read_plain(folder, name)
    except OSError as error:
        raise BringError(f"{name} cannot be read: {error.strerror or error}") from None
    if data is None and os.path.lexists(os.path.join(folder, name)):
        raise BringError(f"{name} is no plain file")
    return data


def put_mapping(folder: str, mapping: Mapping) -> str:
    """Keep a mapping where none is kept yet, and return its name."""
    name = mapping_name(mapping.file)
    _put(folder, name, "\n".join([*mapping_lines(mapping), ""]))
    return name


def put_brought(folder: str, brought: Brought, again: Callable[[], Brought]) -> Brought:
    """Write what a list becomes, and return what was written. `again`: reads the journal and brings
    the list once more: it may have changed while the person looked."""
    with lock(folder, WAIT_SECONDS, DIARY_LOCK):
        brought = again()
        if brought.checked is None:
            return brought
        if kept_mapping(folder, brought.mapping.file) is None:
            put_mapping(folder, brought.mapping)
        _put(folder, brought.name, brought.checked.laid.text)
    return brought


def _put(folder: str, name: str, text: str) -> None:
    try:
        path = os.path.join(folder, name)
        is_new = lstat(path) is None and replace_file(path, folder, name, text.encode(), b"", None)
    except PublishError as error:
        raise NotPutDownError(str(error)) from None
    except OSError as error:
        raise NotPutDownError(f"{name} cannot be written: {error.strerror or error}") from None
    if not is_new:
        raise NotPutDownError(f"{name} was made by somebody else just now; nothing was written")
