"""Reads the record of what was issued: `papers/issued.json` in the journal.

It may have come from anybody: what is no sound record is no record, and is told.
"""

from __future__ import annotations

from datetime import date

from msgspec import DecodeError, Struct
from msgspec.json import decode

from backbud.publish.plain import read_plain

FOLDER = "papers"
RECORD = f"{FOLDER}/issued.json"
_MOST_BYTES = 16 << 20
# What the person's key for marks is derived for.
PURPOSE = "papers that were issued"


class IssuedSums(Struct, frozen=True):
    """The sums of a statement as issued, in one currency, as text."""

    currency: str
    comes_to: str
    billed: str
    paid: str
    due: str


class IssuedPaper(Struct, frozen=True, kw_only=True):
    """A paper that was issued.

    `file`: below the journal; `digest`: SHA-256 of its bytes. `tree`: of one tree alone, else "".
    `numbers`: of the bills in it. `visits`: of a statement, those it is about: the tree and the day
    it came. `sums`, `lines`: of a statement, what it came to, and a digest of
    its lines. `after`: the file of the one of the same paper that was issued before, "" for the
    first. `mark`: a keyed digest by which the person who issued it knows it again.
    """

    file: str
    digest: str
    day: date
    person: str
    sort: str
    tree: str = ""
    numbers: tuple[str, ...] = ()
    visits: tuple[str, ...] = ()
    sums: tuple[IssuedSums, ...] = ()
    lines: str = ""
    after: str = ""
    mark: str = ""


def paper_digest(content: bytes) -> str:
    """SHA-256, in hexadecimal."""
    from hashlib import sha256

    return sha256(content).hexdigest()


def paper_mark(paper: IssuedPaper, key: bytes) -> str:
    """The mark of a paper: a keyed BLAKE2b digest of what it is, and of its own digest; "" without
    a key. `key`: the person's for PURPOSE."""
    if not key:
        return ""
    from hashlib import blake2b

    said = "\0".join((paper.file, paper.digest, str(paper.day), paper.person, paper.sort))
    return blake2b(said.encode(), key=key, digest_size=16).hexdigest()


def read_issued(folder: str) -> tuple[IssuedPaper, ...] | None:
    """What was issued, oldest first; None where the record cannot be read."""
    content = read_plain(folder, RECORD, _MOST_BYTES)
    if content is None:
        return ()
    try:
        found = decode(content, type=tuple[IssuedPaper, ...])
    except DecodeError:
        return None
    return found if all(_is_in_place(one.file) for one in found) else None


def _is_in_place(file: str) -> bool:
    """Whether a file is named right below the folder of what was issued."""
    folder, _, name = file.partition("/")
    return folder == FOLDER and "/" not in name and not name.startswith(".") and bool(name)
