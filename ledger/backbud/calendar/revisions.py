"""Gives an entry the SEQUENCE and DTSTAMP by which calendars see a change, and only a change.

A calendar that subscribes takes an entry anew only where its SEQUENCE is higher, or equal with a
later DTSTAMP (RFC 5546 §2.1.5). So both stay while an entry is the same and rise when it changes.
The floor, ten for each day since 2000, lets them rise even when all was forgotten: unless that
happened on the very day of a change, or an entry changed more than ten times in a day. What was
published tells the revisions too (`published_revisions`), and then there is no such limit.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from hashlib import blake2b
from typing import Annotated

import msgspec
from msgspec import Meta, Struct

_EPOCH = date(2000, 1, 1)
_A_DAY = 10
_HIGHEST = 2**31 - 1  # of an INTEGER (RFC 5545 §3.3.8)


class Revision(Struct, frozen=True, gc=False):
    """What was published of an entry: the digest of its content, its SEQUENCE, the day of its
    DTSTAMP."""

    digest: str
    sequence: Annotated[int, Meta(ge=0, le=_HIGHEST)]
    stamp: date


Revisions = Mapping[str, Revision]  # by UID, and by whom an entry is for (`key_of`)

_decoder = msgspec.json.Decoder(dict[str, Revision])
_encoder = msgspec.json.Encoder(order="sorted")


def key_of(uid: str, owner: str) -> str:
    """What an entry's revision is remembered by: an owner reads less of it than the keeper."""
    return f"{uid} {owner}" if owner else uid


def read_revisions(remembered: bytes) -> Revisions:
    """Return what `write_revisions` wrote; nothing at all from bytes that are torn or foreign."""
    try:
        return _decoder.decode(remembered)
    except (msgspec.DecodeError, UnicodeDecodeError):
        return {}


def write_revisions(revisions: Revisions) -> bytes:
    """Return the revisions as bytes to keep. Keep them before the feeds are published: a run that
    dies in between then leaves out a number, where it would else give one out twice."""
    return _encoder.encode(revisions)


class KnownRevisions:
    """The revisions as a process last read or wrote them, so that one that makes the feeds again
    and again need not read what it wrote."""

    def __init__(self) -> None:
        self._bytes = b""
        self._revisions: Revisions = {}

    def read(self, remembered: bytes) -> Revisions:
        """As `read_revisions`."""
        if remembered != self._bytes or not remembered:
            self._revisions = read_revisions(remembered)
            # Of torn ones nothing is ours.
            self._bytes = remembered if self._revisions else b""
        return self._revisions

    def written(self, revisions: Revisions) -> bytes:
        """As `write_revisions`."""
        if revisions != self._revisions or not self._bytes:
            self._bytes = write_revisions(revisions)
        # The next run is to be given the very mapping that this one left.
        self._revisions = revisions
        return self._bytes


def revised_to(old: Revision | None, digest: str, today: date) -> Revision:
    """Return the revision of an entry whose content has the digest."""
    if old is not None and old.digest == digest:
        return old
    after = 0 if old is None else old.sequence + 1
    return Revision(digest, max(after, _floor(today)), today)


def worth_keeping(revision: Revision, today: date) -> bool:
    """Whether the revision of an entry that is gone still matters, should the entry come back."""
    return revision.sequence >= _floor(today)


def stamped(content: bytes, revision: Revision) -> bytes:
    """Return the entry's lines with its revision."""
    head, rest = content.split(b"\r\n", 1)
    stamp = f"{revision.stamp.isoformat().replace('-', '')}T000000Z"
    # Where a feed has no METHOD, this says when the entry was last revised (RFC 5545 §3.8.7.2), so
    # a LAST-MODIFIED would only say it again.
    lines = f"DTSTAMP:{stamp}\r\nSEQUENCE:{revision.sequence}\r\n"
    return head + b"\r\n" + lines.encode() + rest


# A folded line goes on after a space, so only a property's first line can match.
_ENTRY = re.compile(rb"^BEGIN:(VEVENT|VTODO)\r\n.*?^END:\1\r\n", re.MULTILINE | re.DOTALL)
# Feeds of older versions say the day twice.
_REVISION = re.compile(
    rb"^DTSTAMP:(\d{8})T000000Z\r\n(?:LAST-MODIFIED:\1T000000Z\r\n)?SEQUENCE:(\d{1,10})\r\n",
    re.MULTILINE,
)
_UID = re.compile(rb"^UID:(.*)\r\n", re.MULTILINE)


def published_revisions(feed: bytes, owner: str = "") -> Revisions:
    """Return the revisions that a feed of ours carries, for when what was remembered is lost.

    `owner`: whose eyes the feed is for, "" for the keeper's.
    """
    found: dict[str, Revision] = {}
    for entry in _ENTRY.finditer(feed):
        uid = _UID.search(entry[0].replace(b"\r\n ", b""))
        revision = _REVISION.search(entry[0])
        if uid and revision:
            try:
                stamp = date.fromisoformat(revision[1].decode())
            except ValueError:
                continue
            key = key_of(uid[1].decode("ascii", "replace"), owner)
            found[key] = Revision(digest_of(entry[0]), int(revision[2]), stamp)
    return found


def digest_of(entry: bytes) -> str:
    """The digest of an entry's content, with or without a revision among its lines."""
    return blake2b(_REVISION.sub(b"", entry, count=1), digest_size=16).hexdigest()


def _floor(today: date) -> int:
    return (today - _EPOCH).days * _A_DAY
