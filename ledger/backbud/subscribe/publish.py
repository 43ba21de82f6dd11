"""A journal's folder goes in; its feeds are on a CalDAV server, and what was done there comes out.

The steps, in order:
    make      the feeds, as `backbud make` does
    compare   each with its calendar on the server (changes.py)
    write     what is new or changed, and take out what left; nothing that is not ours
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from hashlib import blake2b
from urllib.parse import urljoin

from msgspec import Struct, to_builtins

from backbud.calendar.feeds import FOLDER, TASKS
from backbud.journal.read import load
from backbud.journal.settings import SETTINGS_FILE, Settings, read_settings
from backbud.make import make
from backbud.publish import MADE
from backbud.subscribe.address import checked_address
from backbud.subscribe.changes import Ours, changes, entries_in, file_of
from backbud.subscribe.errors import SubscribeError
from backbud.subscribe.login import login_for
from backbud.subscribe.memory import COLLECTED, TOLD, keep, recall
from backbud.subscribe.server import Collection, Server
from backbud.words import number
from backbud_grammar.problems import Problem, did_you_mean


class Sent(Struct, frozen=True):
    """What became of one feed: its calendar's name, and how many entries."""

    name: str
    written: int
    removed: int
    kept: int
    waiting: int
    changed_there: int

    def __str__(self) -> str:
        parts = [
            f"{self.written} written",
            f"{self.removed} taken out",
            f"{self.kept} as they were",
        ]
        if self.changed_there:
            parts.append(f"{self.changed_there} changed there just now, for the next time")
        return f"{self.name}: {', '.join(parts)}."


class Published(Struct, frozen=True):
    """What a run of publish did."""

    origin: str
    sent: tuple[Sent, ...]
    problems: tuple[Problem, ...]

    def lines(self) -> Iterator[str]:
        """What to tell the keeper."""
        if not self.sent:
            yield "No feed is chosen: publish in the settings is empty."
        yield from map(str, self.sent)
        waiting = sum(one.waiting for one in self.sent)
        if waiting:
            yield (
                f"{number(waiting, 'task')} ticked off there and left alone: "
                "backbud collect brings them into the diary."
            )

    def as_json(self) -> dict[str, object]:
        """The same for a program."""
        return {
            "server": self.origin,
            "calendars": [to_builtins(one) for one in self.sent],
            "problems": [problem.as_json() for problem in self.problems],
        }


def publish(
    folder: str,
    today: date,
    to: str,
    environ: Mapping[str, str],
    tell: Callable[[str], object] = lambda step: None,
) -> Published:
    """Compile the journal and write its chosen feeds to a server.

    `to`: the server's address, or "" for that of the settings. SubscribeError with a sentence where
    something is in the way; what was written until then stays, and the next run goes on from there.
    `tell`: is told what is going on, and "" at the end.
    """
    settings = settings_of(folder)
    made = make(folder, today)
    feeds = {name: _read(folder, name) for name in settings.publish}
    server = open_server(settings, to, environ)
    try:
        there = server.collections()
        run = _Run(server, settings, folder, tell)
        sent = [run.send(there, name, feed) for name, feed in feeds.items()]
        sent += run.clear(there)
        run.forget()
    finally:
        server.close()
        tell("")
    return Published(server.origin, tuple(sent), made.problems)


def settings_of(folder: str) -> Settings:
    """The settings of a journal; what is wrong in them `check` tells."""
    return read_settings(load(folder, SETTINGS_FILE).data.decode())[0]


def open_server(settings: Settings, to: str, environ: Mapping[str, str]) -> Server:
    """Log in at the server that was named, or at that of the settings."""
    if settings.journal_id == Settings().journal_id:
        # Two such journals would take each other's entries for their own.
        raise SubscribeError(
            "the journal has no id of its own. Add it to "
            f'{SETTINGS_FILE}: journal_id = "upper-yard"'
        )
    url = to or settings.caldav_url
    if not url:
        raise SubscribeError(
            "there is no server to speak to. Name it: --to https://calendar.example/, or with "
            f'caldav_url = "…" in {SETTINGS_FILE}'
        )
    address = checked_address(url)
    return Server(address, login_for(address, bool(to), environ))


def slug_of(name: str, journal_id: str) -> str:
    """The last part of the address of a feed's calendar: `backbud-upper-yard-tasks-all`."""
    plain = name.replace("/", "-")
    if not re.fullmatch(r"[A-Za-z0-9._-]+", plain):
        plain = f"{plain.split('-')[0]}-{blake2b(plain.encode(), digest_size=8).hexdigest()}"
    return f"{prefix_of(journal_id)}{plain}"


def prefix_of(journal_id: str) -> str:
    """How the calendars of a journal begin."""
    return f"backbud-{journal_id}-"


def sort_of(name: str) -> str:
    """What a feed, or the calendar of that slug, holds."""
    return "VTODO" if name.startswith((TASKS, TASKS.replace("/", "-"))) else "VEVENT"


def _read(folder: str, name: str) -> bytes:
    names = _names(folder)
    if name not in names:
        hint = did_you_mean(name, names, "They are the files below made/calendars/.")
        raise SubscribeError(
            f"no feed is called “{name}”, as publish in the settings has it. {hint}"
        )
    with open(os.path.join(folder, MADE, FOLDER, f"{name}.ics"), "rb") as file:
        return file.read()


def _names(folder: str) -> list[str]:
    """What each feed below `made/calendars/` is called."""
    top = os.path.join(folder, MADE, FOLDER)
    return [
        os.path.relpath(os.path.join(at, file), top).replace(os.sep, "/").removesuffix(".ics")
        for at, _, files in os.walk(top)
        for file in files
    ]


# ------------------------------------------------------------------ one feed


class _Run:
    """One run of publish: the server, and what is remembered of what was published there."""

    def __init__(
        self, server: Server, settings: Settings, folder: str, tell: Callable[[str], object]
    ) -> None:
        self.server, self.settings, self.folder, self.tell = server, settings, folder, tell
        self.told, self.collected = recall(folder, TOLD), recall(folder, COLLECTED)
        self._there: set[str] = set()

    def send(self, there: list[Collection], name: str, feed: bytes) -> Sent:
        """Make one calendar hold what its feed shows."""
        sort, slug = sort_of(name), slug_of(name, self.settings.journal_id)
        title = f"{self.settings.name}: {_title(feed)}"
        collection = next((one for one in there if one.slug == slug), None)
        # A server may have given the calendar an address of its own.
        collection = collection or next((one for one in there if one.name == title), None)
        collection = collection or self.server.create(slug, title, sort)
        return self._carry_out(collection, sort, entries_in(feed, sort))

    def clear(self, there: list[Collection]) -> Iterator[Sent]:
        """Take our entries out of calendars of ours that the settings no longer name."""
        journal_id = self.settings.journal_id
        chosen = {slug_of(name, journal_id) for name in self.settings.publish}
        for collection in there:
            rest = collection.slug.removeprefix(prefix_of(journal_id))
            if rest != collection.slug and collection.slug not in chosen:
                sent = self._carry_out(collection, sort_of(rest), {})
                if sent.removed or sent.waiting:
                    yield sent

    def _carry_out(self, collection: Collection, sort: str, ours: Mapping[str, Ours]) -> Sent:
        theirs = self.server.entries(collection, sort)
        todo = changes(ours, theirs, self.settings.journal_id, self.told, self.collected)
        self._there.update(ours, todo.waiting)
        steps = len(todo.write) + len(todo.remove)
        done: list[bool] = []
        try:
            for one in todo.write:
                self.tell(f"{collection.name}: {len(done)} of {steps}")
                at = (
                    one.over.url if one.over else urljoin(_folder(collection.url), file_of(one.uid))
                )
                etag = one.over.etag if one.over else None
                done.append(self.server.put(collection, at, one.data, etag))
                if done[-1]:
                    self.told[one.uid] = ours[one.uid].description
            written = sum(done)
            for stored in todo.remove:
                self.tell(f"{collection.name}: {len(done)} of {steps}")
                done.append(self.server.delete(collection, stored))
        finally:
            # Of what stands there now, even where the server failed half way.
            keep(self.folder, TOLD, self.told)
        removed = sum(done) - written
        changed = len(done) - written - removed
        waiting = len(todo.waiting)
        return Sent(collection.name, written, removed, todo.kept, waiting, changed)

    def forget(self) -> None:
        """Let go of what was told of entries that are on the server no more."""
        told = {uid: text for uid, text in self.told.items() if uid in self._there}
        keep(self.folder, TOLD, told)


def _folder(url: str) -> str:
    return url if url.endswith("/") else f"{url}/"


def _title(feed: bytes) -> str:
    from icalendar import Calendar

    # The library knows no NAME (RFC 7986), and leaves its value as it is written.
    return re.sub(r"\\(.)", r"\1", str(Calendar.from_ical(feed)["NAME"]))
