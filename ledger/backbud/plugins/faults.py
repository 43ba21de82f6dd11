"""What to tell of an error in somebody else's code: one sentence, and the line it stands on."""

from __future__ import annotations

import traceback
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from msgspec import Struct

from backbud.consent.place import PLUGINS
from backbud.plugins.budget import OverTime, within
from backbud_grammar.problems import Flaw

# The packages of this program; everything else is somebody else's.
OURS = frozenset({"backbud", "backbud_grammar", "backbud_species"})
LONGEST_MESSAGE = 300
# So long an error may take to say what it is.
SAID_SECONDS = 0.2


class PluginLine(Struct, frozen=True):
    """A line of a plugin, by its path from the journal's folder."""

    file: str
    line: int
    column: int = 1

    def flaw(self, code: str, message: str, hint: str = "") -> tuple[str, Flaw]:
        """A flaw there, with the name of its file."""
        return self.file, Flaw(code, self.line - 1, self.column, 1, message, hint)


def is_ours(made_by: Any) -> bool:
    """Whether a function or a class, with all that is bound into it, is this program's own."""
    if isinstance(made_by, partial):
        return is_ours(made_by.func) and all(is_ours(type(given)) for given in made_by.args)
    owner = getattr(made_by, "__self__", None)
    if owner is not None and not is_ours(type(owner)):
        return False
    return str(getattr(made_by, "__module__", "")).partition(".")[0] in OURS


def place_of_error(error: BaseException, journal: str) -> PluginLine | None:
    """The last line of the journal's plugins that an error went through, or the error before it.

    What interrupts a plugin may ring again while the first ring is still on its way out.
    """
    found = None
    if isinstance(error, SyntaxError) and error.filename:
        name = _name_in(journal, error.filename)
        if name:
            return PluginLine(name, error.lineno or 1, max(error.offset or 1, 1))
    for frame, line in traceback.walk_tb(error.__traceback__):
        name = _name_in(journal, frame.f_code.co_filename)
        if name:
            found = PluginLine(name, line)
    if found is None and error.__context__ is not None:
        return place_of_error(error.__context__, journal)
    return found


def place_of_function(function: Callable[..., Any], journal: str) -> PluginLine | None:
    """The line on which a function of the journal's plugins begins."""
    while isinstance(function, partial):
        function = function.func
    code = getattr(function, "__code__", None)
    name = _name_in(journal, code.co_filename) if code is not None else ""
    return PluginLine(name, code.co_firstlineno) if name and code is not None else None


def said(error: BaseException) -> str:
    """What an error says, in one line: its sort and its words."""
    if isinstance(error, OverTime):
        return str(error)
    if isinstance(error, SyntaxError):
        return f"this is not Python: {error.msg}"
    try:
        # Its words are somebody else's code too.
        words = within(SAID_SECONDS, partial(str, error))
    except KeyboardInterrupt:
        raise
    except BaseException:
        words = ""
    words = " ".join(words[: 4 * LONGEST_MESSAGE].split())
    words = words.encode(errors="replace").decode()
    if len(words) > LONGEST_MESSAGE:
        words = f"{words[:LONGEST_MESSAGE]} …"
    return f"{type(error).__name__}: {words}" if words else type(error).__name__


def way_of(error: BaseException) -> Iterator[str]:
    """The places that an error went through, behind that where it was caught."""
    frames = traceback.extract_tb(error.__traceback__)
    for frame in frames[1:] or frames:
        yield f"{frame.filename}:{frame.lineno} in {frame.name}"


def _name_in(journal: str, filename: str) -> str:
    """The path of a plugin's file from the journal's folder; "" where it is no plugin's."""
    top = f"{journal}/"
    name = filename.removeprefix(top)
    return name if name != filename and name.startswith(f"{PLUGINS}/") else ""
