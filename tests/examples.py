"""A test says how many examples it draws in the quick lane; the long lane draws ten times that."""

from __future__ import annotations

from hypothesis import settings

# As many as the profiles of tests/conftest.py draw for a test that says nothing.
QUICK = 100
SEARCHING = 1000


def examples(quick: int) -> int:
    return quick * settings.default.max_examples // QUICK
