"""The compiler of a care journal: it makes a care calendar and pages of a folder of notes.

For a program: `read` gives a journal as it stands on a day, `made_of` all that is published of it
(front.py). They and the types they return are imported once they are asked for, since every start
of the command imports this.
"""

__version__ = "0.1.0"
__all__ = [
    "Event",
    "Journal",
    "NotAJournal",
    "NotMade",
    "Output",
    "Problem",
    "State",
    "Tree",
    "WorkView",
    "made_of",
    "read",
]

# A type checker takes this for true; `typing` is not loaded at the start.
TYPE_CHECKING = False

if TYPE_CHECKING:
    from backbud.front import (
        Event,
        Journal,
        NotAJournal,
        NotMade,
        Output,
        Problem,
        State,
        Tree,
        WorkView,
        made_of,
        read,
    )
else:

    def __getattr__(name):
        if name not in __all__:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        from importlib import import_module

        return getattr(import_module("backbud.front"), name)
