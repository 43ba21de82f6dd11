"""Whether the person has consented to these very bytes of code, kept and looked up.

The bytes that were trusted are kept, so that what changed since can be shown.
"""

from __future__ import annotations

import json
import os
import stat
from base64 import b64decode, b64encode
from collections.abc import Mapping

from backbud.consent.files import set_digest
from backbud.consent.place import record_path, recorded

_HEAD = "backbud trusted 1"


class CannotRecord(Exception):
    """There is no place for the record; the sentence says why."""


def trusted_files(journal: str) -> Mapping[str, bytes] | None:
    """The bytes that were trusted in this journal, by name; None where nothing was.

    A torn record, or one that somebody else may have written, is as good as none.
    """
    data = recorded(journal)
    if not data or not _is_ours(os.path.dirname(record_path(journal))):
        return None
    try:
        record = json.loads(data)
        files = {str(name): b64decode(text) for name, text in record["files"].items()}
        if record["head"] == _HEAD and record["digest"] == set_digest(files):
            return files
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        pass
    return None


def record(journal: str, files: Mapping[str, bytes]) -> None:
    """Record the consent to these bytes. CannotRecord where that cannot be done."""
    from backbud.publish.disk import write_whole

    path = record_path(journal)
    if not path:
        raise CannotRecord(
            "your own folder for settings is not known, or lies in this journal; "
            "name another with BACKBUD_CONFIG"
        )
    value = {
        "head": _HEAD,
        "journal": os.path.realpath(journal),
        "digest": set_digest(files),
        "files": {name: b64encode(data).decode() for name, data in files.items()},
    }
    folder = os.path.dirname(path)
    try:
        os.makedirs(os.path.dirname(folder), exist_ok=True)
        os.makedirs(folder, mode=0o700, exist_ok=True)
        if not _is_ours(folder):
            raise CannotRecord(f"others may write in {folder}")
        write_whole(folder, os.path.basename(path), json.dumps(value, indent=1).encode())
    except OSError as error:
        raise CannotRecord(f"{folder} cannot be written: {error.strerror}") from None


def take_back(journal: str) -> bool:
    """Take the consent back; whether there was any. CannotRecord where that cannot be done."""
    path = record_path(journal)
    try:
        os.remove(path)
    except FileNotFoundError:
        return False
    except OSError as error:
        raise CannotRecord(f"{path} cannot be removed: {error.strerror}") from None
    return True


def _is_ours(folder: str) -> bool:
    """Whether the folder is this person's own and nobody else may write in it."""
    try:
        found = os.lstat(folder)
    except OSError:
        return False
    if not stat.S_ISDIR(found.st_mode):
        return False
    if not hasattr(os, "getuid"):
        return True
    return found.st_uid == os.getuid() and not found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
