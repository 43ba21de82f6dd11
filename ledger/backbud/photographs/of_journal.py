"""The pictures that a journal names, each looked at once, when somebody asks for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from backbud.journal.problems import PlacedFlaw
from backbud.journal.read import Journal
from backbud.memo import NO_MEMO, Memo
from backbud.photographs.named import Named, paths_of, pictures_in

if TYPE_CHECKING:
    from backbud.photographs.known import KnownPicture


class NamedPictures:
    """Every picture that the diary of a journal names."""

    def __init__(self, journal: Journal, kept: Memo = NO_MEMO) -> None:
        self._journal, self._kept = journal, kept

    @cached_property
    def named(self) -> tuple[Named, ...]:
        """Each as a line names it."""
        return pictures_in(self._journal, self._kept)

    @property
    def files(self) -> tuple[str, ...]:
        """The path of every picture that lies in the journal's folder, or should."""
        return paths_of(self.named)

    @cached_property
    def known(self) -> Mapping[str, KnownPicture]:
        """What each picture is, by its path; those that changed are looked at now."""
        if not self.named:
            return {}
        from backbud.photographs.known import known_pictures

        return known_pictures(self._journal.folder, self.files, self._journal.memory)

    def flaws(self) -> Iterator[PlacedFlaw]:
        """What is wrong with them."""
        if self.named:
            from backbud.photographs.flaws import flaws_of

            yield from flaws_of(self.named, self.known)
