"""How an entry on a server is known to be this person's own.

An entry's UID says nothing about who wrote it: anybody may write one that ends like ours. The mark
is a digest keyed with the person's own secret (BLAKE2, RFC 7693 §2.9), so it is good for one entry
of one calendar of one journal, and on another machine nothing bears it until it is adopted.
"""

from __future__ import annotations

from hashlib import blake2b
from hmac import compare_digest
from typing import TYPE_CHECKING, NamedTuple

from backbud.calendar.entries import is_of_journal
from backbud.calendar.lines import content_line
from backbud.person import NoSecret, key_for
from backbud.subscribe.errors import SubscribeError

if TYPE_CHECKING:
    from icalendar import Component

MARK = "X-BACKBUD-MARK"
_PURPOSE = "calendar entry"
_DIGEST_BYTES = 16


class Marks(NamedTuple):
    """The marks of one calendar: the person's key, the journal's id, the calendar's slug."""

    key: bytes
    journal_id: str
    calendar: str

    def of(self, uid: str) -> str:
        """The mark of an entry, in hexadecimal."""
        names = (self.journal_id, self.calendar, uid)
        closed = "".join(f"{len(name)}:{name}" for name in names)
        return blake2b(closed.encode(), key=self.key, digest_size=_DIGEST_BYTES).hexdigest()

    def line(self, uid: str) -> bytes:
        """The mark as a property."""
        return content_line(MARK, self.of(uid))

    def is_on(self, entry: Component, uid: str) -> bool:
        """Whether an entry bears its mark."""
        found = entry.get(MARK, "")
        return compare_digest(str(found).encode(), self.of(uid).encode())

    def looks_like_ours(self, uid: str) -> bool:
        """Whether a UID is one that this journal gives out; so may anybody's be."""
        return is_of_journal(uid, self.journal_id)


def person_key(folder: str) -> bytes:
    """The key of the person's marks. SubscribeError where there is no place for their secret."""
    try:
        return key_for(_PURPOSE, folder)
    except NoSecret as error:
        raise SubscribeError(str(error)) from None
