"""Says in a sentence why an output cannot be published, and in what state it is left."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager

from backbud.publish import ASIDE, MADE

STILL_WHOLE = "The output of last time is still whole."
TO_FINISH = "The output is half way: the next command finishes it."


class PublishError(Exception):
    """The output could not be published; the message is for the person at the bench."""


class BusyError(PublishError):
    """Another run holds the journal's lock."""


class ForeignError(PublishError):
    """Something in the journal would have to be acted on and does not bear the person's mark."""

    def __init__(self, name: str, outcome: str) -> None:
        super().__init__(
            f"{name} does not bear your mark: it came with the journal, or an older backbud made"
            f" it. {outcome} To move it to {ASIDE} and make all anew: backbud make --take-over"
        )


def in_the_way(name: str, outcome: str = STILL_WHOLE) -> PublishError:
    """Something that nobody but its owner may move stands at a path of the output."""
    return PublishError(
        f"{name} is in the way: backbud did not write it and leaves it alone."
        f" Move it away. {outcome}"
    )


def linked(name: str, outcome: str = "") -> PublishError:
    """A link stands where a real file or folder should."""
    remedy = f"Remove the link. {outcome}".rstrip()
    return PublishError(f"{name} is a link, and backbud writes only into real folders. {remedy}")


@contextmanager
def told_by_system(journal: str, outcome: str) -> Iterator[None]:
    """Turn an error of the system into a sentence, followed by one on the state of the output."""
    try:
        yield
    except OSError as error:
        path = error.filename2 or error.filename
        place = f" ({os.path.relpath(path, journal)})" if isinstance(path, str) else ""
        why = f"Could not write {MADE}: {error.strerror or error}{place}. {outcome}"
        raise PublishError(why) from error
