"""Writing the chosen feeds of a journal to a CalDAV server.

The steps, in order:
    make      the feeds, as `backbud make` does
    compare   each with its calendar on the server (changes.py)
    ask       where much would go that the plan cannot explain (losses.py), and before entries are
              taken over that bear no mark of this person (marks.py)
    write     what is new or changed, and take out what left; nothing that is not ours
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from hashlib import blake2b
from urllib.parse import urljoin

from msgspec import Struct

from backbud.journal.faults import FAULT
from backbud.journal.load import load
from backbud.journal.settings import SETTINGS_FILE, Settings, read_settings
from backbud.make import Made, make
from backbud.pages.links import FEEDS, TASKS
from backbud.session import Session
from backbud.subscribe.address import checked_address
from backbud.subscribe.asking import Ask, CalendarChanges, ask_first, first_few, without_removals
from backbud.subscribe.changes import Ours, Remembered, changes, entries_in, file_of_entry
from backbud.subscribe.errors import EntryRefused, SubscribeError, Unreachable
from backbud.subscribe.login import login_for
from backbud.subscribe.losses import Explained, explained_by
from backbud.subscribe.marks import Marks, person_key
from backbud.subscribe.memory import COLLECTED, TOLD, keep_values, recall_values
from backbud.subscribe.server import Collection, Server
from backbud.views.on_server import PublishedView, SentView
from backbud.views.problem import problem_view
from backbud.words import number
from backbud_grammar.problems import Problem, did_you_mean


def _in_words(one: SentView) -> str:
    """What became of one feed."""
    parts = [
        f"{one.written} written",
        f"{one.removed} taken out",
        f"{one.kept} as they were",
    ]
    if one.changed_there:
        parts.append(f"{one.changed_there} changed there just now, for the next time")
    if one.refused:
        parts.append(f"{one.refused} not taken by the server")
    return f"{one.name}: {', '.join(parts)}."


class PublishedFeeds(Struct, frozen=True):
    """What a run of publish did."""

    origin: str
    sent: tuple[SentView, ...]
    problems: tuple[Problem, ...]

    def lines(self) -> Iterator[str]:
        """What to tell the keeper."""
        if not self.sent:
            yield "No feed is chosen: publish in the settings is empty."
        yield from map(_in_words, self.sent)
        waiting = sum(one.waiting for one in self.sent)
        if waiting:
            yield (
                f"{number(waiting, 'task')} ticked off there and left alone: "
                "backbud collect brings them into the diary."
            )
        unmarked = [title for one in self.sent for title in one.unmarked]
        if unmarked:
            yield (
                f"{number(len(unmarked), 'entry', 'entries')} there may not be of this journal and "
                f"{'was' if len(unmarked) == 1 else 'were'} left alone. If you wrote them on "
                "another machine, backbud publish --adopt takes them over:"
            )
            yield from first_few(unmarked)
        yield from odd_lines(title for one in self.sent for title in one.odd)
        if any(problem.code == FAULT for problem in self.problems):
            yield "backbud itself had a fault, which check tells, so nothing was taken out."

    @property
    def is_whole(self) -> bool:
        """Whether every entry stands there now, and nothing was left that wants a look."""
        return not any(one.refused or one.unmarked or one.odd for one in self.sent)

    @property
    def view(self) -> PublishedView:
        """The same for a program."""
        return PublishedView(self.origin, self.sent, tuple(map(problem_view, self.problems)))


def _nobody_to_ask(lines: Sequence[str], question: str) -> bool:
    return False


def publish_feeds(
    folder: str,
    today: date,
    to: str,
    environ: Mapping[str, str],
    tell: Callable[[str], object] = lambda step: None,
    *,
    ask: Ask = _nobody_to_ask,
    adopt: bool = False,
) -> PublishedFeeds:
    """Compile the journal and write its chosen feeds to a server.

    `to`: the server's address, or "" for that of the settings. `tell`: is told what is going on,
    and "" at the end. `ask`: is asked before more goes than the plan explains, and before entries
    that bear no mark are taken over, which `adopt` asks for; NotAgreed where the answer is no, and
    nothing was written.

    SubscribeError with a sentence where something is in the way; what was written until then stays,
    and the next run goes on from there. Broken as `make` raises it.
    """
    settings = settings_of(folder)
    read: list[Session] = []
    made = make(folder, today, look=read.append, with_files=True)
    feeds = {name: _feed(made, name) for name in settings.publish}
    server = open_server(settings, to, environ, folder)
    try:
        run = _Run(server, settings, folder, tell, adopt)
        there = server.collections()
        parts = [run.compare(there, name, feed) for name, feed in feeds.items()]
        if not any(problem.code == "bad-settings" for problem in made.problems):
            parts += run.no_longer_chosen(there)
        if _has_fault(made):
            parts = [without_removals(part) for part in parts]
        tell("")
        ask_first(parts, lambda: _explained(read[0]), ask, adopt)
        sent = run.carry_out(parts)
        run.forget()
    finally:
        server.close()
        tell("")
    return PublishedFeeds(server.origin, sent, made.problems)


def _has_fault(made: Made) -> bool:
    """Whether backbud itself failed for a tree: what is missing of it then is not done with."""
    return any(problem.code == FAULT for problem in made.problems)


def _explained(session: Session) -> Explained:
    plan, journal = session.plan(), session.journal
    return explained_by(plan, journal.things, journal.settings.journal_id, session.today)


def odd_lines(odd: Iterable[str]) -> Iterator[str]:
    """A line for each entry on a server that cannot be understood."""
    for what in odd:
        yield f"Left as it is, since it cannot be understood: {what}"


def settings_of(folder: str) -> Settings:
    """The settings of a journal; what is wrong in them `check` tells."""
    return read_settings(load(folder, SETTINGS_FILE).data.decode())[0]


def open_server(settings: Settings, to: str, environ: Mapping[str, str], journal: str) -> Server:
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
    return Server(address, login_for(address, bool(to), environ, journal))


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


def _feed(made: Made, name: str) -> bytes:
    """A feed as this run made it, and none that lies in the output by another's hand."""
    names = [
        path.removeprefix(FEEDS).removesuffix(".ics")
        for path in made.files
        if path.startswith(FEEDS)
    ]
    if name not in names:
        hint = did_you_mean(name, names, "They are the files below made/calendars/.")
        raise SubscribeError(
            f"no feed is called “{name}”, as publish in the settings has it. {hint}"
        )
    return made.files[f"{FEEDS}{name}.ics"]


# ------------------------------------------------------------------ one feed


class _Run:
    """One run of publish: the server, and what is remembered of what was published there."""

    def __init__(
        self,
        server: Server,
        settings: Settings,
        folder: str,
        tell: Callable[[str], object],
        adopt: bool,
    ) -> None:
        self.server, self.settings, self.folder, self.tell = server, settings, folder, tell
        self.told, self.collected = recall_values(folder, TOLD), recall_values(folder, COLLECTED)
        self._key, self._adopt = person_key(folder), adopt
        self._there: set[str] = set()

    def compare(self, there: list[Collection], name: str, feed: bytes) -> CalendarChanges:
        """Say what makes one calendar hold what its feed shows."""
        slug = slug_of(name, self.settings.journal_id)
        title = f"{self.settings.name}: {_title(feed)}"
        collection = next((one for one in there if one.slug == slug), None)
        # A server may have given the calendar an address of its own.
        collection = collection or next((one for one in there if one.name == title), None)
        sort = sort_of(name)
        return self._compared(slug, title, sort, entries_in(feed, sort), collection)

    def no_longer_chosen(self, there: list[Collection]) -> Iterator[CalendarChanges]:
        """Say what takes our entries out of calendars of ours that the settings do not name."""
        journal_id = self.settings.journal_id
        chosen = {slug_of(name, journal_id) for name in self.settings.publish}
        for collection in there:
            rest = collection.slug.removeprefix(prefix_of(journal_id))
            if rest != collection.slug and collection.slug not in chosen:
                part = self._compared(
                    collection.slug, collection.name, sort_of(rest), {}, collection
                )
                if part.todo.remove or part.todo.waiting:
                    yield part

    def carry_out(self, parts: Sequence[CalendarChanges]) -> tuple[SentView, ...]:
        """Write every calendar. One that fails holds up none of the others, unless the server is
        gone; SubscribeError for the first that did, at the end."""
        sent: list[SentView] = []
        failed: SubscribeError | None = None
        for part in parts:
            try:
                sent.append(self._carry_out(part))
            except Unreachable:
                raise
            except SubscribeError as error:
                failed = failed or error
        if failed is not None:
            raise failed
        return tuple(sent)

    def _compared(
        self,
        slug: str,
        title: str,
        sort: str,
        ours: Mapping[str, Ours],
        collection: Collection | None,
    ) -> CalendarChanges:
        self.tell(f"comparing {title}")
        theirs = self.server.entries(collection, sort) if collection is not None else []
        marks = self._marks(collection.slug if collection is not None else slug)
        remembered = Remembered(self.told, self.collected)
        todo = changes(ours, theirs, marks, remembered, self._adopt)
        self._there.update(ours, todo.waiting)
        return CalendarChanges(slug, title, sort, ours, todo, collection)

    def _marks(self, calendar: str) -> Marks:
        return Marks(self._key, self.settings.journal_id, calendar)

    def _carry_out(self, part: CalendarChanges) -> SentView:
        todo, collection = part.todo, part.collection
        if collection is None:
            collection = self.server.create(part.slug, part.title, part.sort)
            if collection.slug != part.slug:
                # The server chose another address, and the marks are of that one.
                todo = changes(part.ours, (), self._marks(collection.slug), Remembered({}, {}))
        steps = len(todo.write) + len(todo.remove)
        written = removed = changed = refused = 0
        try:
            for at, one in enumerate(todo.write):
                self.tell(f"{collection.name}: {at} of {steps}")
                url = (
                    one.over.url
                    if one.over
                    else urljoin(_folder(collection.url), file_of_entry(one.uid))
                )
                etag = one.over.etag if one.over else None
                try:
                    is_done = self.server.put(collection, url, one.data, etag)
                except EntryRefused:
                    refused += 1
                    continue
                written += is_done
                changed += not is_done
                if is_done and one.uid not in todo.waiting:
                    self.told[one.uid] = part.ours[one.uid].description
            for at, gone in enumerate(todo.remove, len(todo.write)):
                self.tell(f"{collection.name}: {at} of {steps}")
                is_done = self.server.delete(collection, gone.stored)
                removed += is_done
                changed += not is_done
        finally:
            # Of what stands there now, even where the server failed half way.
            keep_values(self.folder, TOLD, self.told)
        return SentView(
            collection.name,
            written,
            removed,
            todo.kept,
            len(todo.waiting),
            changed,
            refused,
            todo.unmarked,
            todo.odd,
        )

    def forget(self) -> None:
        """Let go of what was told of entries that are on the server no more."""
        told = {uid: text for uid, text in self.told.items() if uid in self._there}
        keep_values(self.folder, TOLD, told)


def _folder(url: str) -> str:
    return url if url.endswith("/") else f"{url}/"


def _title(feed: bytes) -> str:
    from icalendar import Calendar

    # The library knows no NAME (RFC 7986), and leaves its value as it is written.
    return re.sub(r"\\(.)", r"\1", str(Calendar.from_ical(feed)["NAME"]))
