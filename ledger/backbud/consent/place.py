"""Where the person's consent to a journal's code is recorded.

It never lies in the journal, which may come from somebody else. Asked on the way of a run that
has nothing to do, so it imports only what the interpreter has loaded anyway.
"""

from __future__ import annotations

import os

from backbud.person import folder_outside

try:
    from _blake2 import blake2b
except ImportError:  # a Python built without it
    from hashlib import blake2b

PLUGINS = "plugins"
_FOLDER = "trusted"


def record_path(journal: str) -> str:
    """Where the trust in a journal's code is recorded, by its real path.

    "" where that would be inside the journal itself: whoever made it could have recorded it.
    """
    real, folder = os.path.realpath(journal), folder_outside(journal)
    if not folder:
        return ""
    name = blake2b(real.encode("utf-8", "surrogatepass"), digest_size=16).hexdigest()
    return os.path.join(folder, _FOLDER, f"{name}.json")


def recorded(journal: str) -> bytes:
    """What is recorded for a journal that has plugins, as it lies on the disk; else nothing."""
    if not os.path.isdir(os.path.join(journal, PLUGINS)):
        return b""
    try:
        with open(record_path(journal), "rb") as file:
            return file.read()
    except OSError:
        return b""
