"""The exit statuses, and what a command raises that cannot be carried out as it was given."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from backbud.publish.refused import PublishError

FINE, PROBLEMS, MISUSE, FAILED = 0, 1, 2, 3


class Misuse(Exception):
    """The command cannot be carried out as it was given; the sentence says why."""


class Failed(Exception):
    """The command was understood and could not be carried through; the sentence says why."""


def unpublished(error: PublishError) -> Misuse | Failed:
    """What a run ends with that could not publish: what is foreign asks for another command."""
    from backbud.publish.refused import ForeignError

    return (Misuse if isinstance(error, ForeignError) else Failed)(str(error))
