"""The list of what is still to be put in place: once it has its name, the new output counts."""

from __future__ import annotations

import os

from msgspec import DecodeError, Struct, ValidationError, msgpack

from backbud.publish import COMMITMENT, MEMORY, STAGED
from backbud.publish.disk import lstat
from backbud.publish.manifest import file_digest
from backbud.publish.memory import recall_bytes
from backbud.publish.plain import read_plain
from backbud.publish.refused import ForeignError


class Placing(Struct, frozen=True, array_like=True):
    """A staged file and where it goes.

    `staged`: its name in the staging folder. `name`: its path in the folder of the output.
    `is_new`: no earlier run wrote a file of that name.
    """

    staged: str
    digest: str
    name: str
    is_new: bool = False


class Commitment(Struct, frozen=True, array_like=True):
    """What is still to be done, in this order.

    `made`: the folder of the output, as a relative path in the journal. `gone`: old files to
    remove. `moves`: first that of the new manifest, then those of the files that differ.
    """

    made: str
    gone: tuple[str, ...]
    moves: tuple[Placing, ...]


def commitment_path(journal: str) -> str:
    """Where the commitment stands, if there is one."""
    return os.path.join(journal, MEMORY, COMMITMENT)


def staged_path(journal: str, name: str = "") -> str:
    """The staging folder, or a file in it."""
    return os.path.join(journal, MEMORY, STAGED, name) if name else f"{journal}/{MEMORY}/{STAGED}"


def encoded(commitment: Commitment) -> bytes:
    """What `left_over` reads, once it stands under the person's mark."""
    return msgpack.encode(commitment)


def left_over(journal: str) -> Commitment | None:
    """What an earlier run left to be done; None if there is no commitment.

    ForeignError where it does not bear the person's mark, or where what is staged is not what it
    speaks of.
    """
    if lstat(commitment_path(journal)) is None:
        return None
    data = recall_bytes(journal, COMMITMENT)
    try:
        found = msgpack.decode(data or b"", type=Commitment)
    except (DecodeError, ValidationError):  # of an older backbud
        raise ForeignError(f"{MEMORY}/{COMMITMENT}", "Nothing of it was done.") from None
    left = tuple(move for move in found.moves if _is_staged(journal, move))
    # Once the new manifest is there, whatever bears the name of an old file may be a new one.
    gone = found.gone if left and left[0] == found.moves[0] else ()
    return Commitment(found.made, gone, left)


def _is_staged(journal: str, move: Placing) -> bool:
    """Whether the file is still to be put in its place. ForeignError where it is another one."""
    name = f"{MEMORY}/{STAGED}/{move.staged}"
    if lstat(os.path.join(journal, name)) is None:
        return False
    content = read_plain(journal, name)
    if content is None or file_digest(content) != move.digest:
        raise ForeignError(name, "Nothing of it was done.")
    return True
