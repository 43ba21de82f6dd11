"""Whether a task on the server was ticked off, on which day, and what the user noted beside it."""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING

from msgspec import Struct

from backbud.calendar.lines import one_line
from backbud.subscribe.entry import day_of_property

if TYPE_CHECKING:
    from icalendar import Component

# How lines of ours begin, for when it was forgotten what was written.
_OURS = re.compile(r"(On|From|About|Caution:|Why:|-|Done on|Skipped on) ?|https?://\S+$")
# They turn the direction of what follows (UAX #9): the line would read otherwise than it is.
_TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")


class Tick(Struct, frozen=True):
    """A task that was ticked off. `stamp`: the moment as the client wrote it, to know the tick
    again. `when`: the day here. `note`: what the client's user wrote into it, on one line."""

    uid: str
    stamp: str
    when: date | None
    summary: str
    note: str

    def day(self, today: date) -> date:
        """The day here of the tick; a clock that runs ahead counts as today."""
        return today if self.when is None else min(self.when, today)


def tick_of(task: Component, told: str | None) -> Tick | None:
    """Return the tick of a task, or None where it is not ticked off.

    `told`: the description as it was published, None where that was forgotten.
    """
    stamp = _stamp(task)
    if stamp is None:
        return None
    return Tick(
        str(task.get("UID", "")),
        stamp,
        day_of_property(task, "COMPLETED") or day_of_property(task, "LAST-MODIFIED"),
        one_line(str(task.get("SUMMARY", ""))).strip(),
        note_of(task, told),
    )


def _stamp(task: Component) -> str | None:
    """What tells this tick from another of the same task; None where it is not ticked off."""
    completed = task.get("COMPLETED")
    if completed is not None:
        return str(completed.to_ical().decode())
    is_done = str(task.get("STATUS", "")).upper() == "COMPLETED"
    return "ticked" if is_done or str(task.get("PERCENT-COMPLETE", "")) == "100" else None


def note_of(task: Component, told: str | None) -> str:
    """What the client's user wrote into an entry: its comments, and what is new in its text."""
    comments = task.get("COMMENT", [])
    pieces = [str(one) for one in (comments if isinstance(comments, list) else [comments])]
    pieces.append(added(str(task.get("DESCRIPTION", "")), told))
    return " ".join(one_line(_TURNS.sub("", " ".join(pieces))).split())


def is_same_text(ours: str, theirs: str, told: str | None) -> bool:
    """Whether a text there is ours, but perhaps for a note that the user wrote beside it."""
    ours, theirs = _plain(ours), _plain(theirs)
    if ours == theirs:
        return True
    if told is not None:
        return _plain(told) == ours and ours in theirs
    # What is left may be a line of ours that is no more.
    left = added(theirs, ours).split("\n")
    return ours in theirs and not any(_OURS.match(line) for line in left)


def _plain(text: str) -> str:
    return text.replace("\r\n", "\n").strip()


def added(text: str, told: str | None) -> str:
    """What stands in a text beside what was published in it."""
    text = _plain(text)
    if told and told in text:
        before, _, after = text.partition(told)
        return f"{before.strip()}\n{after.strip()}".strip()
    ours = {line.strip() for line in told.split("\n")} if told else set()
    lines = [line.strip() for line in text.split("\n")]
    return "\n".join(
        line
        for line in lines
        if line and line not in ours and (told is not None or not _OURS.match(line))
    )
