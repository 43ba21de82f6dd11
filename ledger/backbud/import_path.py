"""Keeps modules from being imported that a command should not wait for, or trust.

The folder that a command is given in may be a journal, which may come from somebody else. So this
module imports nothing that is not in the interpreter already, not even the features of later
versions.
"""

import os
import sys


def leave_current_folder() -> None:
    """Import nothing from the current folder any more, unless this program itself lies there."""
    try:
        here = os.path.realpath(os.getcwd())
    except OSError:
        return  # It is gone, so nothing lies there.
    ours = os.path.realpath(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
    if here != ours:
        sys.path[:] = [path for path in sys.path if os.path.realpath(path) != here]


def import_msgspec() -> None:
    """Import msgspec without the `typing_extensions` of others, where it has not been.

    The interpreter has all that it takes from there since 3.11, and to load them as well takes
    every command 10 ms.
    """
    if "msgspec" in sys.modules or "typing_extensions" in sys.modules:
        return
    sys.modules["typing_extensions"] = None  # type: ignore[assignment]
    try:
        import msgspec  # noqa: F401
    finally:
        del sys.modules["typing_extensions"]
