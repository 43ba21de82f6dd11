"""Keeps modules from being imported out of the folder that a command is given in.

It may be a journal, which may come from somebody else. So this module imports nothing that is not
in the interpreter already, not even the features of later versions.
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
