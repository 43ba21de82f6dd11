"""What a calendar should hold and what it holds go in; what to write and to take out comes out."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from hashlib import blake2b
from typing import TYPE_CHECKING, Any, NamedTuple

from backbud.calendar.entries import is_of_journal
from backbud.calendar.feeds import PRODUCT
from backbud.calendar.lines import text_line
from backbud.subscribe.server import Stored
from backbud.subscribe.tasks import added, is_same_text, tick_of

if TYPE_CHECKING:
    from icalendar import Component

# What an entry of ours may say. Revisions are not compared, and what else stands in an entry the
# client keeps for itself.
_COMPARED = (
    "SUMMARY", "DTSTART", "DTEND", "DUE", "COMPLETED", "CATEGORIES", "LOCATION", "URL",
)  # fmt: skip
_OPEN = ("", "NEEDS-ACTION", "IN-PROCESS")
_CLOSED = ("COMPLETED", "CANCELLED")
_SEQUENCE = re.compile(rb"^SEQUENCE:(\d+)\r\n", re.MULTILINE)


class Ours(NamedTuple):
    """An entry to publish: its lines, and what they say."""

    lines: bytes
    said: Component

    @property
    def description(self) -> str:
        return str(self.said.get("DESCRIPTION", ""))


class Write(NamedTuple):
    """An entry to write. `over`: what stands there, or None."""

    uid: str
    data: str
    over: Stored | None


class Changes(NamedTuple):
    """`kept` were the same already; of `waiting`, by UID, the ticks are not collected yet."""

    write: tuple[Write, ...]
    remove: tuple[Stored, ...]
    kept: int
    waiting: tuple[str, ...]


def entries_in(feed: bytes, sort: str) -> dict[str, Ours]:
    """Return the events (VEVENT) or tasks (VTODO) of a feed of ours, by UID."""
    from icalendar import Calendar

    pattern = re.compile(rf"^BEGIN:{sort}\r\n.*?^END:{sort}\r\n".encode(), re.MULTILINE | re.DOTALL)
    lines = pattern.findall(feed)
    said = Calendar.from_ical(feed).walk(sort)
    return {str(one["UID"]): Ours(text, one) for text, one in zip(lines, said, strict=True)}


def changes(
    ours: Mapping[str, Ours],
    theirs: Iterable[Stored],
    journal_id: str,
    told: Mapping[str, str],
    dealt_with: Mapping[str, str],
) -> Changes:
    """Return what makes a calendar hold our entries, and leaves all others alone.

    `told`: by UID the description as it was published. `dealt_with`: by UID the tick that was
    collected: a task that is ticked off is not touched before that, whatever became of it here.
    """
    write: list[Write] = []
    remove: list[Stored] = []
    seen: set[str] = set()
    waiting: list[str] = []
    kept = 0
    for stored in theirs:
        entry = read_entry(stored.data)
        uid = str(entry.get("UID", "")) if entry is not None else ""
        if entry is None or not is_of_journal(uid, journal_id):
            continue
        mine = ours.get(uid)
        if uid in seen:  # a copy that a client made
            remove.append(stored)
            continue
        seen.add(uid)
        tick = tick_of(entry, told.get(uid))
        is_new = tick is not None and dealt_with.get(uid) != tick.stamp
        if is_new and (mine is None or _status(mine.said) not in _CLOSED):
            waiting.append(uid)
        elif mine is None:
            remove.append(stored)
        elif _same(mine.said, entry, told.get(uid)):
            kept += 1
        else:
            write.append(Write(uid, _over(mine, entry, told.get(uid)), stored))
    for uid, mine in ours.items():
        if uid not in seen:
            write.append(Write(uid, _wrapped(mine.lines), None))
    return Changes(tuple(write), tuple(remove), kept, tuple(waiting))


def read_entry(data: str) -> Component | None:
    """The one event or task of what a server stores; None where it is not one, or unreadable."""
    from icalendar import Calendar

    try:
        found = [
            one
            for calendar in Calendar.from_ical(data, multiple=True)
            for one in calendar.subcomponents
            if one.name in ("VEVENT", "VTODO")
        ]
    except (ValueError, KeyError, IndexError, TypeError, AttributeError):
        return None
    return found[0] if len(found) == 1 else None


def file_of(uid: str) -> str:
    """The last part of an entry's address, safe in any file system."""
    return f"{blake2b(uid.encode(), digest_size=16).hexdigest()}.ics"


# ------------------------------------------------------------------ compared


def _same(ours: Component, theirs: Component, told: str | None) -> bool:
    """Whether theirs says all that ours says; a note beside our text is the user's own."""
    return (
        all(_value(ours, name) == _value(theirs, name) for name in _COMPARED)
        and _stands(ours) == _stands(theirs)
        and is_same_text(str(ours.get("DESCRIPTION", "")), str(theirs.get("DESCRIPTION", "")), told)
        and _alarms(ours) == _alarms(theirs)
    )


def _value(component: Component, name: str) -> Any:
    found = component.get(name)
    if found is None:
        return None
    return found.to_ical() if hasattr(found, "to_ical") else str(found)


def _status(component: Component) -> str:
    return str(component.get("STATUS", "")).upper()


def _stands(component: Component) -> str:
    """How it stands; a task that was begun is still open."""
    status = _status(component)
    return "" if status in (*_OPEN, "CONFIRMED") else status


def _alarms(component: Component) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    for alarm in component.subcomponents:
        trigger = alarm.get("TRIGGER")
        if alarm.name == "VALARM" and trigger is not None:
            related = str(trigger.params.get("RELATED", "START"))
            found.append((trigger.to_ical().decode(), related))
    return sorted(found)


# ------------------------------------------------------------------ written


def _over(ours: Ours, theirs: Component, told: str | None) -> str:
    """Our entry with the note that the user wrote into theirs, and a later revision than theirs."""
    lines = ours.lines
    note = added(str(theirs.get("DESCRIPTION", "")), told)
    if note:
        text = text_line("DESCRIPTION", ours.description)
        lines = lines.replace(text, text_line("DESCRIPTION", f"{ours.description}\n\n{note}"), 1)
    comments = theirs.get("COMMENT", [])
    for comment in comments if isinstance(comments, list) else [comments]:
        lines = _with(lines, text_line("COMMENT", str(comment)))
    return _wrapped(_later(lines, int(theirs.get("SEQUENCE", 0))))


def _with(lines: bytes, line: bytes) -> bytes:
    """The entry with one more property, before what else it holds."""
    head, rest = lines.split(b"\r\n", 1)
    return head + b"\r\n" + line + rest


def _later(lines: bytes, sequence: int) -> bytes:
    """The entry with a SEQUENCE above one that a client raised (RFC 5546 §2.1.5)."""
    found = _SEQUENCE.search(lines)
    if found is None or int(found[1]) > sequence:
        return lines
    return lines[: found.start()] + f"SEQUENCE:{sequence + 1}\r\n".encode() + lines[found.end() :]


def _wrapped(lines: bytes) -> str:
    """One entry as a calendar of its own (RFC 4791 §4.1)."""
    head = f"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:{PRODUCT}\r\n"
    return f"{head}{lines.decode()}END:VCALENDAR\r\n"
