"""Where the output and the memory of a journal lie, and how the list of published files is written.

Imported on the way of a run that has nothing to do, so it imports nothing itself.
"""

from __future__ import annotations

MADE = "made"
MANIFEST = ".manifest"
MEMORY = ".backbud"
STAGED = "staged"
COMMITMENT = "commitment"
REMEMBERED = "remembered"
# Nothing of a journal lies further down than so many folders: to look there could have no end.
DEEPEST = 100

_MANIFEST_HEAD = "backbud manifest 1"


def manifest_text(names: list[str]) -> str:
    """The list of published files, one relative POSIX path a line, in the order given."""
    return "\n".join([_MANIFEST_HEAD, *names, ""])


def manifest_names(text: str) -> list[str] | None:
    """The paths that a manifest names, or None if it is not a whole manifest."""
    head, *names = text.split("\n")
    if head != _MANIFEST_HEAD or not names or names.pop() != "":
        return None
    return names
