"""Compiles patterns of the tables once somebody asks for one: most commands need few of them."""

from __future__ import annotations

import re
from functools import cache


@cache
def compiled_way(pattern: str) -> re.Pattern[str]:
    """A pattern of the tables, in any case of its letters."""
    return re.compile(pattern, re.IGNORECASE)
