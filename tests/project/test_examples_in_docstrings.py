"""What the docstrings show is what the functions give."""

from __future__ import annotations

import doctest
from importlib import import_module
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
ROOTS = ("grammar", "ledger", "plugins")


def _shown() -> list[str]:
    """The modules with an example in them."""
    found = [
        ".".join(path.relative_to(ROOT / root).with_suffix("").parts).removesuffix(".__init__")
        for root in ROOTS
        for path in sorted((ROOT / root).rglob("*.py"))
        if ">>> " in path.read_text(encoding="utf-8")
    ]
    assert len(found) > 20, "the examples are sought in the wrong place"
    return found


@pytest.mark.parametrize("module", _shown())
def test_an_example_gives_what_it_shows(module) -> None:
    failed, tried = doctest.testmod(import_module(module))
    assert tried > 0
    assert failed == 0
