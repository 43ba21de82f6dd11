"""Lets equal parts of many follow-ups be one object, since a large collection has millions of them.

The same rule says the same of every tree it is hung on, and each time in words of its own making.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from typing import TypeVar

from msgspec.structs import replace

from backbud.plan.followups import FollowUp, Reason

Part = TypeVar("Part", bound=Hashable)


class SharedParts:
    """The parts met so far in one run of the plan, each by what it is equal to."""

    def __init__(self) -> None:
        self._met: dict[object, object] = {}

    def of(self, follow_ups: Iterable[FollowUp]) -> tuple[FollowUp, ...]:
        """The same follow-ups, made of parts that were met before where they are equal."""
        return tuple(map(self._shared, follow_ups))

    def _shared(self, one: FollowUp) -> FollowUp:
        return replace(
            one,
            title=self._first(one.title),
            window=self._first(one.window),
            because=tuple(map(self._reason, one.because)),
            cautions=self._first(one.cautions),
            settled_by=self._first(one.settled_by),
            schedule=self._first(one.schedule),
            part=self._first(one.part),
            group=self._first(one.group),
        )

    def _reason(self, reason: Reason) -> Reason:
        text = self._first(reason.text)
        # Of one line of the diary there are few; what a rule says is said of every tree.
        shared = reason if text is reason.text else replace(reason, text=text)
        return shared if shared.origin else self._first(shared)

    def _first(self, part: Part) -> Part:
        found: Part = self._met.setdefault(part, part)  # type: ignore[assignment]
        return found
