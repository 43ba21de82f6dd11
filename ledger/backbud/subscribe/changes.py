"""What to write into a calendar on the server and what to take out, and what to leave alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from hashlib import blake2b
from typing import TYPE_CHECKING, Any, NamedTuple

from backbud.calendar.feeds import PRODUCT
from backbud.calendar.lines import one_line, text_line
from backbud.subscribe.entry import Odd, day_of_property, entry_in, uids_in
from backbud.subscribe.losses import Gone
from backbud.subscribe.marks import MARK, Marks
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
_LINES = re.MULTILINE | re.IGNORECASE
_BEGINS = re.compile(r"^BEGIN:(?:VEVENT|VTODO)[ \t]*\r?\n", _LINES)
_ANY_MARK = re.compile(rf"^{MARK}[:;].*\n(?:[ \t].*\n)*", _LINES)


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


class Remove(NamedTuple):
    """An entry to take out, and what stands there. `copy`: of one that stays."""

    gone: Gone
    stored: Stored
    copy: bool = False


class ServerChanges(NamedTuple):
    """`kept` were the same already; of `waiting`, by UID, the ticks are not collected yet.

    `unmarked`: by title, what looks like ours and bears no mark. `odd`: what looks like ours and
    cannot be understood, a sentence each. Both are left alone. `taken`: by title, what bore no mark
    and is taken over.
    """

    write: tuple[Write, ...]
    remove: tuple[Remove, ...]
    kept: int
    waiting: tuple[str, ...]
    unmarked: tuple[str, ...] = ()
    odd: tuple[str, ...] = ()
    taken: tuple[str, ...] = ()

    @property
    def of_ours(self) -> int:
        """How many entries of ours stand there."""
        over = {one.uid for one in self.write if one.over is not None}
        return len(over.union(self.waiting)) + len(self.remove) + self.kept


class Remembered(NamedTuple):
    """What is remembered of earlier runs. `told`: by UID the description as it was published.
    `dealt_with`: by UID the tick that was collected: a task that is ticked off is not touched
    before that, whatever became of it here."""

    told: Mapping[str, str]
    dealt_with: Mapping[str, str]


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
    marks: Marks,
    remembered: Remembered,
    adopt: bool = False,
) -> ServerChanges:
    """Return what makes a calendar hold our entries, and leaves all others alone.

    `adopt`: what looks like ours and bears no mark is taken over.
    """
    there = looked_at(theirs, marks, remembered.told)
    write: list[Write] = []
    remove: list[Remove] = []
    seen: set[str] = set()
    waiting: list[str] = []
    kept = 0
    taken = [one for one in there.unmarked if one.uid not in there.uids] if adopt else []
    for found in (*there.ours, *taken):
        stored, entry, uid = found
        mine, told = ours.get(uid), remembered.told.get(uid)
        if uid in seen:  # a copy that a client made
            remove.append(Remove(_gone(uid, entry), stored, copy=True))
            continue
        seen.add(uid)
        tick = tick_of(entry, told)
        is_new = tick is not None and remembered.dealt_with.get(uid) != tick.stamp
        if is_new and (mine is None or _status(mine.said) not in _CLOSED):
            waiting.append(uid)
            if found in taken:
                write.append(Write(uid, _as_it_is(stored, marks.line(uid)), stored))
        elif mine is None:
            remove.append(Remove(_gone(uid, entry), stored))
        elif found not in taken and _says_all(mine.said, entry, told):
            kept += 1
        else:
            write.append(Write(uid, _over(mine, entry, told, marks.line(uid)), stored))
    left = [one for one in there.unmarked if one not in taken]
    # Where one stands that is not ours, another of its UID would be refused, or be a second one.
    elsewhere = {one.uid for one in left} | there.odd_uids
    for uid, mine in ours.items():
        if uid not in seen and uid not in elsewhere:
            write.append(Write(uid, _wrapped(_with(mine.lines, marks.line(uid))), None))
    return ServerChanges(
        tuple(write),
        tuple(remove),
        kept,
        tuple(waiting),
        tuple(title_of_entry(one.entry) for one in left),
        there.odd,
        tuple(title_of_entry(one.entry) for one in taken),
    )


class StoredEntry(NamedTuple):
    """An entry that stands on the server, as it is stored and as it reads."""

    stored: Stored
    entry: Component
    uid: str


class There(NamedTuple):
    """What stands in a calendar: entries of ours, those that only look like it, and odd ones."""

    ours: tuple[StoredEntry, ...]
    unmarked: tuple[StoredEntry, ...]
    odd: tuple[str, ...]
    odd_uids: frozenset[str]

    @property
    def uids(self) -> frozenset[str]:
        """Those of our entries."""
        return frozenset(one.uid for one in self.ours)


def looked_at(theirs: Iterable[Stored], marks: Marks, told: Mapping[str, str]) -> There:
    """Part what a calendar holds.

    An entry is ours where it bears our mark; or, where a client dropped that, if it stands at the
    very address that this journal remembers to have written it to. All else that a journal of this
    id could have written only looks like ours; what others wrote is not even told.
    """
    ours: list[StoredEntry] = []
    unmarked: list[StoredEntry] = []
    odd: list[str] = []
    odd_uids: set[str] = set()
    for stored in theirs:
        try:
            entry = entry_in(stored.data)
        except Odd as why:
            uids = sorted(filter(marks.looks_like_ours, uids_in(stored.data)))
            if uids:
                odd_uids.update(uids)
                odd.append(f"{one_line(uids[0])}: {why}")
            continue
        uid = str(entry["UID"])
        if not marks.looks_like_ours(uid):
            continue
        is_remembered = uid in told and stored.url.endswith(f"/{file_of_entry(uid)}")
        is_ours = marks.is_on(entry, uid) or (is_remembered and MARK not in entry)
        (ours if is_ours else unmarked).append(StoredEntry(stored, entry, uid))
    return There(tuple(ours), tuple(unmarked), tuple(odd), frozenset(odd_uids))


def title_of_entry(entry: Component) -> str:
    """What an entry is called, on one line; its UID where it has no name."""
    return one_line(str(entry.get("SUMMARY", ""))).strip() or one_line(str(entry["UID"]))


def file_of_entry(uid: str) -> str:
    """The last part of an entry's address, safe in any file system."""
    return f"{blake2b(uid.encode(), digest_size=16).hexdigest()}.ics"


# ------------------------------------------------------------------ compared


def _says_all(ours: Component, theirs: Component, told: str | None) -> bool:
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


def _gone(uid: str, entry: Component) -> Gone:
    end = (
        day_of_property(entry, "DUE")
        or day_of_property(entry, "DTEND")
        or day_of_property(entry, "DTSTART")
    )
    return Gone(uid, title_of_entry(entry), end)


def _over(ours: Ours, theirs: Component, told: str | None, mark: bytes) -> str:
    """Our entry with its mark, the note that the user wrote into theirs, and a later revision than
    theirs."""
    lines = ours.lines
    note = added(str(theirs.get("DESCRIPTION", "")), told)
    if note:
        text = text_line("DESCRIPTION", ours.description)
        lines = lines.replace(text, text_line("DESCRIPTION", f"{ours.description}\n\n{note}"), 1)
    comments = theirs.get("COMMENT", [])
    for comment in comments if isinstance(comments, list) else [comments]:
        lines = _with(lines, text_line("COMMENT", str(comment)))
    return _wrapped(_with(_later(lines, int(theirs.get("SEQUENCE", 0))), mark))


def _as_it_is(stored: Stored, mark: bytes) -> str:
    """What is stored, with a mark in the place of another's, and nothing else changed."""
    bare = _ANY_MARK.sub("", stored.data)
    return _BEGINS.sub(lambda found: f"{found[0]}{mark.decode()}", bare, count=1)


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
