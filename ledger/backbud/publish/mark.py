"""Puts the person's mark on bytes, and tells bytes that bear it from all others.

The mark is a keyed BLAKE2b digest (RFC 7693) over what the bytes are, the journal they belong to
and the bytes: so no file of a stranger, no torn one, and none in the place of another passes.
"""

from __future__ import annotations

import os

try:
    from _blake2 import blake2b
except ImportError:  # a Python built without it
    from hashlib import blake2b

MARK_BYTES = 32
_LENGTH_BYTES = 4
_ENCODING = ("utf-8", "surrogatepass")
_SETTINGS = "backbud.toml"


def sealed(key: bytes, name: str, content: bytes, journal: str) -> bytes:
    """The content behind its mark. `name`: what it is. `journal`: the folder it belongs to."""
    where = os.path.realpath(journal).encode(*_ENCODING)
    return b"".join([_mark(key, name, where, content), _counted(where), content])


def unsealed(key: bytes, name: str, data: bytes, journal: str) -> bytes | None:
    """The content that `sealed` was given with this key and name for this journal, else None.

    A journal that was moved keeps what is its own: where it was before, there is none any more.
    """
    begin = MARK_BYTES + _LENGTH_BYTES
    if len(data) < begin:
        return None
    end = begin + int.from_bytes(data[MARK_BYTES:begin], "big")
    where, content = data[begin:end], data[end:]
    if data[:MARK_BYTES] != _mark(key, name, where, content):
        return None
    return content if _is_here(where.decode(*_ENCODING), journal) else None


def mark_of(key: bytes, name: str, content: bytes) -> str:
    """The mark of bytes that belong to no one journal, in hexadecimal."""
    return _mark(key, name, b"", content).hex()


def _is_here(where: str, journal: str) -> bool:
    return where == os.path.realpath(journal) or not os.path.lexists(os.path.join(where, _SETTINGS))


def _mark(key: bytes, name: str, where: bytes, content: bytes) -> bytes:
    digest = blake2b(key=key, digest_size=MARK_BYTES)
    digest.update(_counted(name.encode()))
    digest.update(_counted(where))
    digest.update(content)
    return digest.digest()


def _counted(text: bytes) -> bytes:
    return len(text).to_bytes(_LENGTH_BYTES, "big") + text
