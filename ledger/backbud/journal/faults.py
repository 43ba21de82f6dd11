"""Keeps a fault of backbud itself to the one tree, card, page or file that it strikes.

That one is left out, all else goes on, and the reason stands among the problems of the journal.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, flaw_at, line_at
from backbud.publish.memory import MemoryOf

T = TypeVar("T")

FAULT = "fault"
WHOLE = "Nothing of the journal was changed, and all else was compiled."


def fault_at(
    origin: Origin,
    texts: Mapping[str, bytes],
    memory: MemoryOf,
    what: str,
    error: Exception,
    hint: str = WHOLE,
) -> PlacedFlaw:
    """A fault at a place of the journal, as it is told. `what` failed: "the plan of hoshi".

    The report lies beside the memory, if this run may add to it. `texts`: the bytes of each file.
    """
    # Few runs have one, and what writes the report takes long to load.
    from backbud.fault_report import what_happened, write_report

    line = line_at(origin, texts)
    report = write_report(memory.journal, error, line, str(origin)) if memory.keeps else ""
    if report:
        hint = f"{hint} The report is {report}"
    message = f"{what} failed by a fault of backbud: {what_happened(error)}"
    return flaw_at(origin, FAULT, message, hint, 0, 1)


def failing(work: Callable[[Sequence[T]], object], those: Sequence[T]) -> list[tuple[T, Exception]]:
    """Those that the work fails for when it is done for them alone, found by halving.

    It is empty where the work fails for none at all, and so for another reason.
    """
    try:
        work(those)
    except OSError:
        raise
    except Exception as error:
        if len(those) == 1:
            return [(those[0], error)]
        if not those or fails(work, ()):
            return []
        middle = len(those) // 2
        return [*failing(work, those[:middle]), *failing(work, those[middle:])]
    return []


def fails(work: Callable[[Sequence[T]], object], those: Sequence[T]) -> bool:
    """Whether the work fails for them."""
    try:
        work(those)
    except Exception:
        return True
    return False
