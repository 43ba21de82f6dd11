"""Gives keys that only this person has, one for each purpose, all derived from one secret.

The secret lies in the person's own folder for settings, never in a journal, which may come from
somebody else. Asked on the way of a run that has nothing to do, so it imports only what the
interpreter has loaded anyway.
"""

from __future__ import annotations

import os
import stat
import sys
from errno import ELOOP, ENOENT, ENOTDIR, ENXIO

try:
    from _blake2 import blake2b
except ImportError:  # a Python built without it
    from hashlib import blake2b

CONFIG_VARIABLE = "BACKBUD_CONFIG"
SECRET_FILE = "secret"
SECRET_BYTES = 32
_KEY_BYTES = 32
_DERIVED = b"backbud key 1"  # RFC 7693 names no use for it: it parts our keys from all others


class NoSecret(OSError):
    """There is no secret and none can be made; the sentence says why, and what to do."""


def config_folder() -> str:
    """The person's own folder for what backbud keeps outside any journal; "" where there is none.

    `BACKBUD_CONFIG` where it is set; else by the rules of the system: the XDG base directories
    (which leave out a path that is not absolute), APPDATA, or Application Support.
    """
    said = os.environ.get(CONFIG_VARIABLE)
    if said:
        return os.path.abspath(said)
    home = os.path.expanduser("~")
    if sys.platform == "win32":
        base = os.environ.get("APPDATA") or os.path.join(home, "AppData", "Roaming")
    elif sys.platform == "darwin":
        base = os.path.join(home, "Library", "Application Support")
    else:
        base = os.environ.get("XDG_CONFIG_HOME", "")
        if not os.path.isabs(base):
            base = os.path.join(home, ".config")
    return os.path.join(base, "backbud") if os.path.isabs(base) else ""


def secret(journal: str = "") -> bytes:
    """The person's secret, 32 bytes; it is made the first time it is asked for.

    `journal`: what lies in this folder counts for nothing, since whoever made it could have put a
    secret there. NoSecret where there is none and none can be kept.
    """
    folder = folder_outside(journal)
    if not folder:
        raise NoSecret(
            "your own folder for settings is not known, or lies in this journal; "
            f"name another with {CONFIG_VARIABLE}"
        )
    path = os.path.join(folder, SECRET_FILE)
    try:
        known = _read(path)
        if not known:
            os.makedirs(folder, mode=0o700, exist_ok=True)
            _make(path)
            known = _read(path)
    except OSError as error:
        raise NoSecret(
            f"{path} cannot be read or written ({error.strerror}); "
            f"name another folder with {CONFIG_VARIABLE}"
        ) from None
    if not known:
        raise NoSecret(f"{path} is not a file of yours alone; move it away")
    return known


def known_secret(journal: str = "") -> bytes:
    """The person's secret if there is one already, else b"". Nothing is written.

    OSError where the disk does not give it out.
    """
    folder = folder_outside(journal)
    return _read(os.path.join(folder, SECRET_FILE)) if folder else b""


def _read(path: str) -> bytes:
    """The secret at a path; b"" where there is none, or something else than one of ours alone."""
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    try:
        descriptor = os.open(path, flags | getattr(os, "O_BINARY", 0))
    except OSError as error:
        if error.errno in (ENOENT, ENOTDIR, ELOOP, ENXIO):
            return b""
        raise
    try:
        content = (
            os.read(descriptor, SECRET_BYTES + 1) if _is_ours_alone(os.fstat(descriptor)) else b""
        )
    finally:
        os.close(descriptor)
    return content if len(content) == SECRET_BYTES else b""


def key_for(purpose: str, journal: str = "") -> bytes:
    """The person's key for one purpose, 32 bytes: a keyed BLAKE2b digest (RFC 7693).

    Keys for different purposes tell nothing of each other or of the secret. Raises NoSecret as
    `secret` does.
    """
    return _derived(secret(journal), purpose)


def known_key_for(purpose: str, journal: str = "") -> bytes:
    """The person's key for one purpose, or b"" where no secret was made yet. OSError."""
    known = known_secret(journal)
    return _derived(known, purpose) if known else b""


def _derived(master: bytes, purpose: str) -> bytes:
    return blake2b(purpose.encode(), key=master, person=_DERIVED, digest_size=_KEY_BYTES).digest()


def folder_outside(journal: str) -> str:
    """The person's own folder by its real path; "" where there is none outside the journal.

    Whatever decides whom or what to trust is read from there alone: whoever made a journal could
    have put it into one.
    """
    folder = config_folder()
    if not folder:
        return ""
    real = os.path.realpath(folder)
    if journal and f"{real}{os.sep}".startswith(os.path.join(os.path.realpath(journal), "")):
        return ""
    return real


def _is_ours_alone(found: os.stat_result) -> bool:
    """Whether it is a regular file of this person that nobody else may write."""
    if not stat.S_ISREG(found.st_mode):
        return False
    if sys.platform == "win32":
        return True
    return found.st_uid == os.getuid() and not found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def _make(path: str) -> None:
    """Put a new secret at a path, whole or not at all; one that another run put there stays.

    One that is too short or too long is of no use to anybody and makes way.
    """
    beside = f"{path}.{os.getpid()}-{os.urandom(4).hex()}"
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL
    descriptor = os.open(beside, flags | getattr(os, "O_BINARY", 0), 0o600)
    try:
        try:
            os.write(descriptor, os.urandom(SECRET_BYTES))
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
        _put_in_place(beside, path)
    finally:
        if os.path.lexists(beside):
            os.remove(beside)


def _put_in_place(beside: str, path: str) -> None:
    try:
        os.link(beside, path)
    except FileExistsError:
        found = os.lstat(path)
        if _is_ours_alone(found) and found.st_size != SECRET_BYTES:
            os.replace(beside, path)
    except (OSError, AttributeError, NotImplementedError):  # a disk without hard links
        if not os.path.lexists(path):
            os.replace(beside, path)
