"""Puts the running title of a sheet where its page margins find it: a property of the root."""

from __future__ import annotations

import re

# CSS Syntax 3, 4.3.5: what would end a string, or begin an escape in it.
_NOT_IN_STRINGS = re.compile(r'[\\"\x00-\x1f\x7f]')


def running(title: str) -> str:
    """The style of the root element of a sheet that has this title in its margins."""
    return f'--running: "{_NOT_IN_STRINGS.sub(_escaped, title)}"'


def _escaped(found: re.Match[str]) -> str:
    return f"\\{ord(found[0]) or 0xFFFD:x} "
