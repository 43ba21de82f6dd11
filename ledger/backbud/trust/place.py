"""A journal's folder goes in; where the person's record of trust in its code lies comes out.

It never lies in the journal, which may come from somebody else. Asked on the way of a run that
has nothing to do, so it imports only what the interpreter has loaded anyway.
"""

from __future__ import annotations

import os
import sys

try:
    from _blake2 import blake2b
except ImportError:  # a Python built without it
    from hashlib import blake2b

CONFIG_VARIABLE = "BACKBUD_CONFIG"
PLUGINS = "plugins"
_FOLDER = "trusted"


def config_folder() -> str:
    """The person's own folder for what backbud keeps outside any journal; "" where there is none.

    `BACKBUD_CONFIG` where it is set; else by the rules of the system: the XDG base directories
    (which leave out a path that is not absolute), APPDATA, or Application Support.
    """
    said = os.environ.get(CONFIG_VARIABLE)
    if said:
        return os.path.abspath(said)
    home = os.path.expanduser("~")
    if sys.platform == "win32":
        base = os.environ.get("APPDATA") or os.path.join(home, "AppData", "Roaming")
    elif sys.platform == "darwin":
        base = os.path.join(home, "Library", "Application Support")
    else:
        base = os.environ.get("XDG_CONFIG_HOME", "")
        if not os.path.isabs(base):
            base = os.path.join(home, ".config")
    return os.path.join(base, "backbud") if os.path.isabs(base) else ""


def record_path(journal: str) -> str:
    """Where the trust in a journal's code is recorded, by its real path.

    "" where that would be inside the journal itself: whoever made it could have recorded it.
    """
    real, folder = os.path.realpath(journal), config_folder()
    if not folder:
        return ""
    name = blake2b(real.encode("utf-8", "surrogatepass"), digest_size=16).hexdigest()
    path = os.path.join(os.path.realpath(folder), _FOLDER, f"{name}.json")
    return "" if path.startswith(os.path.join(real, "")) else path


def recorded(journal: str) -> bytes:
    """What is recorded for a journal that has plugins, as it lies on the disk; else nothing."""
    if not os.path.isdir(os.path.join(journal, PLUGINS)):
        return b""
    try:
        with open(record_path(journal), "rb") as file:
            return file.read()
    except OSError:
        return b""
