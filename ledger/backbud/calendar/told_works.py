"""Makes the works that feeds tell of a tree, each once for all the eyes that read them in turn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from msgspec.structs import replace

from backbud.plan.followups import FollowUp
from backbud.views.grounds import Grounds
from backbud.views.work import WorkView, work_view


class ToldWorks:
    """The works of the tree that was told of last."""

    def __init__(self, grounds: Grounds, today: date) -> None:
        self._grounds, self._today = grounds, today
        self._handle, self._made = "", dict[str, WorkView]()

    def of(self, handle: str, shown: Iterable[FollowUp]) -> Iterator[WorkView]:
        """Each of these works of a tree; a tree has one of each id."""
        if handle != self._handle:
            self._handle, self._made = handle, {}
        tree, names = self._grounds.trees[handle], self._grounds.names
        for one in shown:
            made = self._made.get(one.id)
            if made is None:
                work = work_view(one, tree, names, self._today)
                made = self._made[one.id] = _safety_first(one, work)
            yield made


def _safety_first(one: FollowUp, work: WorkView) -> WorkView:
    """The work with what its act always warns of before the rest, since a note has little room."""
    cautions = one.safety_first
    return work if cautions == work.cautions else replace(work, cautions=cautions)
