"""Tells that entries have the revisions that the run before left, without looking each of them up.

A process that makes the feeds again and again remembers what it gave each entry; to look thousands
of them up takes longer than all that changed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from backbud.calendar.revisions import Revision, Revisions
from backbud.memo import Memo


class FeedsRun:
    """One time that all feeds are made. `goes_on_from`: the time before it, if what is remembered
    now is what that one left."""

    def __init__(self, goes_on_from: FeedsRun | None = None) -> None:
        self.goes_on_from = goes_on_from


class LastRun:
    """The last time that this process made the feeds, and the revisions that it left; kept between
    runs."""

    def __init__(self) -> None:
        self._left: Revisions | None = None
        self._run = FeedsRun()

    @classmethod
    def kept_in(cls, kept: Memo) -> LastRun:
        """The one of this process."""
        return kept.once("last feeds", (), cls)

    def begun(self, remembered: Revisions) -> FeedsRun:
        """A new run, which begins with these revisions."""
        return FeedsRun(self._run if remembered is self._left else None)

    def ended(self, run: FeedsRun, left: Revisions) -> None:
        """A run went to its end, and left these revisions, in this very mapping."""
        # What came before it is of no use any more.
        run.goes_on_from = None
        self._run, self._left = run, left


class RevisionsBefore:
    """Stands among inputs for the revisions of entries before a run; it is the same as another if
    they are. `names`: what the revisions of the entries are remembered by."""

    __slots__ = ("_found", "_names", "_remembered", "_run")
    __hash__ = None  # type: ignore[assignment]

    def __init__(self, run: FeedsRun, names: Sequence[str], remembered: Revisions) -> None:
        self._run, self._names, self._remembered = run, names, remembered
        self._found: list[Revision | None] | None = None

    @property
    def found(self) -> list[Revision | None]:
        """The revisions, in the order of the entries."""
        if self._found is None:
            self._found = list(map(self._remembered.get, self._names))
        return self._found

    def became(self, after: Iterable[Revision]) -> None:
        """With the revisions that the run gives them, the next would make the very same."""
        self._found, self._names, self._remembered = list(after), (), {}

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, RevisionsBefore):
            return False
        same = self._run is other._run.goes_on_from or self.found == other.found
        if same:
            self._run = other._run
        return same
