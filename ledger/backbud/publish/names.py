"""Refuses names that lie outside the output, or that some system takes for one another."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from backbud.publish import MANIFEST
from backbud.publish.refused import PublishError


def folders_of(name: str) -> list[str]:
    """The folders above a relative path, outermost first: `a/b/c` gives `a`, `a/b`."""
    parts = name.split("/")
    return ["/".join(parts[:count]) for count in range(1, len(parts))]


# Who publishes again and again has mostly the same names.
@lru_cache(maxsize=1 << 15)
def folded(name: str) -> str:
    """The name as a file system sees it that knows neither case nor ways to write one letter."""
    if name.isascii():
        return name.lower()
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


class Names:
    """The names of an output, as they come."""

    def __init__(self, names: Iterable[str] = ()) -> None:
        self._spelled: dict[str, tuple[str, bool]] = {}
        for name in names:
            self.add(name)

    def add(self, name: str) -> None:
        """PublishError where no file may have the name, or none beside those that came before."""
        paths = _paths_of(name)
        if not paths:
            raise PublishError(f"{name!r} cannot be the name of an output file.")
        for seen, path, is_file in paths:
            other, was_file = self._spelled.setdefault(seen, (path, is_file))
            if other != path or was_file != is_file:
                raise PublishError(f"{other} and {path} cannot both be in the output.")


@lru_cache(maxsize=1 << 15)
def _paths_of(name: str) -> tuple[tuple[str, str, bool], ...]:
    """A file's path and those of its folders, each as `folded`, as it is, and whether it is the
    file; none of a name that no file may have."""
    if not _is_plain(name):
        return ()
    paths = [(name, True), *((folder, False) for folder in folders_of(name))]
    return tuple((folded(path), path, is_file) for path, is_file in paths)


def _is_plain(name: str) -> bool:
    """Whether a path is relative, printable, below its folder and not the manifest's own."""
    if "\\" in name or ":" in name or name.split("/")[0].casefold() == MANIFEST:
        return False
    if not name.isprintable() and any(
        unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") for sign in name
    ):
        return False
    return all(part not in ("", ".", "..") for part in name.split("/"))
