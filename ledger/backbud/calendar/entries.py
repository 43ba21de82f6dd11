"""A follow-up and its tree go in; one calendar entry, the same on whatever day, comes out."""

from __future__ import annotations

import unicodedata
from datetime import date, timedelta
from hashlib import blake2b
from urllib.parse import quote

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.journal.settings import Show
from backbud.pages.links import anchor_of, link, tree_page
from backbud.plan.followups import FollowUp, Reason
from backbud.species import Window

LONGEST_UID_OCTETS = 255  # what every reader must be able to keep (RFC 5545 §3.8.4.7)
_DAY = timedelta(days=1)
_LAST_DAY = date.max - _DAY  # the end is exclusive, so it needs a day more


class CalendarEntry(Struct, frozen=True, gc=False):
    """One entry: its first day, its UID, and its lines as bytes, not yet with a revision."""

    start: date
    uid: str
    content: bytes


def entry_of(
    follow_up: FollowUp, tree: Tree, place: str, journal_id: str, show: Show, base_url: str
) -> CalendarEntry:
    """Return the event (RFC 5545 §3.6.1) of a follow-up on its tree.

    `place`: where the tree stands, as a person says it. `base_url`: an absolute URI under which
    the pages are served, or "". Nothing in an entry depends on today.
    """
    from icalendar import Event, vText, vUri

    uid = uid_of(follow_up.id, journal_id)
    start, end = _days(follow_up.window, show)
    event = Event()
    event.add("uid", vText(uid))
    event.add("summary", vText(one_line(f"{follow_up.title}: {tree.title}")))
    event.add("dtstart", start)
    event.add("dtend", end)
    event.add("transp", vText("TRANSPARENT"))
    event.add("categories", [one_line(follow_up.act)])
    event.add("description", vText(_description(follow_up)))
    if place:
        event.add("location", vText(one_line(place)))
    if base_url:
        page = url_of(base_url, tree_page(tree.handle), anchor_of(follow_up.id))
        event.add("url", vUri(page))
    return CalendarEntry(start, uid, event.to_ical())


def uid_of(follow_up_id: str, journal_id: str) -> str:
    """The UID of a follow-up: its id in ASCII (`%` and two digits for any other octet) and the
    journal's; a digest of that where it is longer than any reader must keep."""
    uid = f"{quote(follow_up_id)}@{quote(journal_id)}"
    if len(uid) <= LONGEST_UID_OCTETS:
        return uid
    return blake2b(uid.encode(), digest_size=32).hexdigest()


def url_of(base_url: str, path: str, anchor: str = "") -> str:
    """The absolute URI of a file of the output, or of a place in it."""
    return link(path, f"{base_url.rstrip('/')}/", anchor)


def _days(window: Window, show: Show) -> tuple[date, date]:
    """First day and exclusive end."""
    first, last = (window.opens, window.closes) if show == "window" else (window.best, window.best)
    return min(first, _LAST_DAY), min(last, _LAST_DAY) + _DAY


def _description(follow_up: FollowUp) -> str:
    lines = [_in_words(follow_up.window)]
    if follow_up.minutes:
        lines.append(f"About {_time(follow_up.minutes)}.")
    if follow_up.cautions:
        lines += ["", *(f"Caution: {one_line(caution)}" for caution in follow_up.cautions)]
    lines += ["", "Why:", *map(_link, follow_up.because)]
    return "\n".join(lines)


def _in_words(window: Window) -> str:
    if window.opens == window.closes:
        return f"On {window.best}."
    until = "on" if window.closes == date.max else f"to {window.closes}"
    return f"From {window.opens} {until}, best on {window.best}."


def _time(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    return " ".join([f"{hours} h"] * bool(hours) + [f"{rest} min"] * bool(rest))


def _link(reason: Reason) -> str:
    origin = f" ({reason.origin})" if reason.origin else ""
    return one_line(f"- {reason.text}{origin}")


def one_line(text: str) -> str:
    """Return the text with a space for each character that breaks a line or may not stand in a
    TEXT value (RFC 5545 §3.3.11)."""
    if text.isprintable():
        return text
    return "".join(" " if unicodedata.category(c) in ("Cc", "Zl", "Zp") else c for c in text)
