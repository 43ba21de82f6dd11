"""Reads whom a keeper's own words are marked for: `noted for owner: …`, `-- for owner: …`."""

from __future__ import annotations

import re

# `for owner's sake` marks nothing.
_FOR_OWNER = re.compile(r"for (?:the )?owner(?::\s*|\s+)(?=\S)", re.IGNORECASE)


def for_owner(text: str) -> str:
    """What the keeper wrote for the tree's owner to read; "" where it is not so marked.

    >>> for_owner("for owner: two roots crossed"), for_owner("two roots crossed")
    ('two roots crossed', '')
    """
    # Nearly no remark is so marked, and each of every page is asked.
    found = _FOR_OWNER.match(text) if text[:1] in ("f", "F") else None
    return text[found.end() :].strip() if found else ""
