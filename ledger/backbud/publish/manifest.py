"""The list of the files that this person's last run published, each with its digest.

It bears the person's mark. The folder that it lies in may be moved and copied with all that it
holds; what it says of its files stays true or is seen to be false.
"""

from __future__ import annotations

from backbud.publish import MANIFEST
from backbud.publish.mark import mark_of
from backbud.publish.plain import read_plain

try:
    from _blake2 import blake2b
except ImportError:  # a Python built without it
    from hashlib import blake2b

PURPOSE = "made"
_HEAD = "backbud manifest 2"
_DIGEST_BYTES = 16


def file_digest(content: bytes) -> str:
    """The digest of a published file, in hexadecimal."""
    return blake2b(content, digest_size=_DIGEST_BYTES).hexdigest()


def manifest_bytes(key: bytes, made: str, digests: dict[str, str]) -> bytes:
    """The manifest of a folder of published files: relative POSIX path to digest.

    `made`: the folder, as a path in the journal, so that no folder's list passes for another's.
    """
    lines = [line for name in sorted(digests) for line in (digests[name], name)]
    text = "\n".join([*lines, ""])
    return f"{_HEAD}\n{mark_of(key, made, text.encode())}\n{text}".encode()


def read_manifest(key: bytes, made: str, data: bytes) -> dict[str, str] | None:
    """What `written` was given, or None where this person did not write it."""
    head, _, rest = data.partition(b"\n")
    mark, _, text = rest.partition(b"\n")
    if head != _HEAD.encode() or mark != mark_of(key, made, text).encode():
        return None
    lines = text.decode().split("\n")[:-1]
    return dict(zip(lines[1::2], lines[::2], strict=True))


def names_in(data: bytes) -> list[str]:
    """The paths that a manifest names, whoever wrote it. ValueError where it is no such thing."""
    lines = data.decode().split("\n")
    if lines[0] != _HEAD or len(lines) % 2 == 0:
        raise ValueError("no manifest")
    return lines[3::2]


def read_own(journal: str, made: str, name: str, digests: dict[str, str]) -> bytes | None:
    """A published file, if it still holds what the manifest says; else None. OSError."""
    digest = digests.get(name)
    content = read_plain(journal, f"{made}/{name}") if digest else None
    return content if content is not None and file_digest(content) == digest else None


def own_digests(journal: str, made: str) -> dict[str, str]:
    """What the manifest in a folder of the journal says; nothing where it is not this person's."""
    from backbud.person import known_key_for

    try:
        key = known_key_for(PURPOSE, journal)
        data = read_plain(journal, f"{made}/{MANIFEST}") if key else None
    except OSError:
        return {}
    return (read_manifest(key, made, data) or {}) if data is not None else {}
