"""Sees to it that a new output takes the place of nothing that is not ours."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable
from functools import cached_property

from backbud.publish.disk import lstat
from backbud.publish.names import folded, folders_of
from backbud.publish.plain import is_link
from backbud.publish.refused import STILL_WHOLE, PublishError, in_the_way, linked


class OldOutput:
    """The output as earlier runs left it, asked before anything in it is changed."""

    def __init__(self, journal: str, made: str, old: Iterable[str]) -> None:
        """`made`: the folder of the output, as a path in the journal. `old`: the files of ours."""
        self._made, self._folder = made, os.path.join(journal, made)
        self._old = frozenset(old)
        # Nearly always no two of them are spelled so that some system takes them for one.
        self._are_apart = len(set(map(folded, self._old))) == len(self._old)
        self._checked: set[str] = set()

    def spelled_otherwise(self, name: str) -> list[str]:
        """The old files that some systems take for the one of this name, and that are not it."""
        if self._are_apart and name in self._old:
            return []
        return [other for other in self._spellings.get(folded(name), ()) if other != name]

    @cached_property
    def _spellings(self) -> dict[str, list[str]]:
        """The old files by their folded names."""
        spellings: dict[str, list[str]] = {}
        for name in self._old:
            spellings.setdefault(folded(name), []).append(name)
        return spellings

    def check_coming(self, name: str) -> None:
        """PublishError if a link, or something that is not ours, is where a file is to come."""
        found = self._check_going(name)
        if found is None:
            return
        if stat.S_ISDIR(found.st_mode):
            self._check_leaving(name)
        elif name not in self._old:
            for other in self.spelled_otherwise(name):
                same = lstat(os.path.join(self._folder, other))
                if same is not None and os.path.samestat(found, same):
                    return
            raise in_the_way(self._shown(name))

    def check_going(self, name: str) -> None:
        """PublishError if a link is where a file is to go, or where one of its folders was."""
        self._check_going(name)

    def _check_going(self, name: str) -> os.stat_result | None:
        for folder in ("", *folders_of(name)):
            if folder not in self._checked:
                self._checked.add(folder)
                self._check_folder(folder)
        return self._no_link(name)

    def _check_folder(self, folder: str) -> None:
        found = self._no_link(folder)
        if found is None:
            return
        if not stat.S_ISDIR(found.st_mode):
            if folder not in self._old:
                raise in_the_way(self._shown(folder))
        elif not os.access(os.path.join(self._folder, folder), os.W_OK | os.X_OK):
            raise PublishError(f"{self._shown(folder)} may not be written to. {STILL_WHOLE}")

    def _no_link(self, name: str) -> os.stat_result | None:
        found = lstat(os.path.join(self._folder, name))
        if found is not None and is_link(found):
            raise linked(self._shown(name), STILL_WHOLE)
        return found

    def _check_leaving(self, folder: str) -> None:
        """Refuse if a folder that makes way for a file holds anything that is not ours."""
        ours = self._old.union(*map(folders_of, self._old))
        for path, folders, files in os.walk(os.path.join(self._folder, folder)):
            for each in (*folders, *files):
                name = os.path.relpath(os.path.join(path, each), self._folder).replace(os.sep, "/")
                if name not in ours or os.path.islink(os.path.join(path, each)):
                    raise in_the_way(self._shown(name))

    def _shown(self, name: str) -> str:
        return f"{self._made}/{name}".removesuffix("/")
