"""What is installed is looked through once in a process of the tests, not at each journal."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import TypeVar

import pytest

from backbud.plugins import offered
from backbud.publish import unchanged

Found = TypeVar("Found", list[str], list[tuple[str, str]] | None)


def looked_through_once(patch: pytest.MonkeyPatch) -> None:
    """A journal that is opened asks for the mark of the program and for the species that packages
    offer: more than half of the time that a short one takes. Neither changes while the tests run.
    Where a test itself brings a folder or a package, all is looked through as ever."""
    patch.setattr(unchanged, "_installed", _once(unchanged._installed))
    patch.setattr(offered, "_points_in_folders", _once(offered._points_in_folders))


def _once(look: Callable[[], Found]) -> Callable[[], Found]:
    at_first = _where()
    kept: dict[tuple[object, ...], Found] = {}

    def looked() -> Found:
        finders = (*sys.meta_path,)
        if _where() != at_first:
            return look()
        if finders not in kept:
            kept[finders] = look()
        return kept[finders]

    return looked


def _where() -> tuple[object, ...]:
    return unchanged.PACKAGES, unchanged.__version__, [*sys.path]
