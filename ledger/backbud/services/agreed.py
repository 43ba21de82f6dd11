"""What this person named on this machine for a journal: the met service, the place, the station.

It lies in the person's own folder for settings and nowhere else, whatever the settings of a journal
say, which may come from somebody else. What identifies its user to a service lies there, too.
"""

from __future__ import annotations

import json
import os
import stat
from hashlib import blake2b

import msgspec
from msgspec import Struct

from backbud.person import folder_outside
from backbud.services.errors import NotNamed

_FOLDER = "weather"
_HEAD = "backbud weather 1"


class Agreed(Struct, frozen=True):
    """What was named. `service`: its key, "" for none; `place`: the handle of the place that the
    forecast is for; `latitude`, `longitude`: to two decimals, as text; `contact`: how the service
    may reach its user. `address`: another server that speaks the same, "" for the service's own.
    `station`: of GHCN-Daily, for past days, "" for none; `records`: another server with its files.
    """

    head: str = _HEAD
    service: str = ""
    place: str = ""
    latitude: str = ""
    longitude: str = ""
    contact: str = ""
    address: str = ""
    station: str = ""
    records: str = ""


def agreed(journal: str) -> Agreed | None:
    """What this person named for a journal; None where they named nothing.

    A torn record, or one that somebody else may write, is as good as none.
    """
    path = _path(journal)
    try:
        found = os.lstat(path) if path else None
        if found is None or not _is_ours(found):
            return None
        with open(path, "rb") as file:
            record = msgspec.json.decode(file.read(65536), type=Agreed)
    except (OSError, msgspec.DecodeError):
        return None
    return record if record.head == _HEAD else None


def agree(journal: str, record: Agreed) -> None:
    """Keep what was named. NotNamed where it cannot be kept."""
    from backbud.publish.disk import write_whole

    path = _path(journal)
    if not path:
        raise NotNamed(
            "your own folder for settings is not known, or lies in this journal; name another with "
            "BACKBUD_CONFIG"
        )
    folder, name = os.path.split(path)
    try:
        os.makedirs(os.path.dirname(folder), exist_ok=True)
        os.makedirs(folder, mode=0o700, exist_ok=True)
        shown = {**msgspec.to_builtins(record), "journal": os.path.realpath(journal)}
        write_whole(folder, name, json.dumps(shown, indent=1).encode())
        os.chmod(path, 0o600)
    except OSError as error:
        raise NotNamed(f"{folder} cannot be written: {error.strerror}") from None


def forget_named(journal: str) -> bool:
    """Forget what was named; whether there was anything."""
    path = _path(journal)
    if not path or not os.path.lexists(path):
        return False
    os.remove(path)
    return True


def _path(journal: str) -> str:
    folder = folder_outside(journal)
    if not folder:
        return ""
    real = os.path.realpath(journal).encode("utf-8", "surrogatepass")
    return os.path.join(folder, _FOLDER, f"{blake2b(real, digest_size=16).hexdigest()}.json")


def _is_ours(found: os.stat_result) -> bool:
    if not stat.S_ISREG(found.st_mode):
        return False
    if not hasattr(os, "getuid"):
        return True
    return found.st_uid == os.getuid() and not found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
