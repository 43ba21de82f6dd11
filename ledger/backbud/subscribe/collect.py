"""Bringing what was ticked off on a server into the diary.

The steps, in order:
    fetch     the tasks of ours that are ticked off (tasks.py)
    settle    for each the line that settles its follow-up, tried out in memory (settling.py)
    place     each line on the page of its day (placing.py)
    write     the files whole, once the keeper said yes; then the journal is read again, and where
              it does not say what was meant, the old files are put back
"""

from __future__ import annotations

import os
import stat
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from datetime import date
from itertools import groupby
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from backbud.calendar.ended import is_of_ended
from backbud.calendar.entries import task_uid_of
from backbud.jot.placing import DiaryLine, DiaryPlace, place_of, with_lines
from backbud.jot.write import DIARY_LOCK
from backbud.journal.load import load
from backbud.plan.followups import FollowUp
from backbud.publish.lock import lock
from backbud.session import Session, open_session
from backbud.subscribe.changes import looked_at, title_of_entry
from backbud.subscribe.errors import SubscribeError
from backbud.subscribe.heirs import heir_of
from backbud.subscribe.marks import Marks, person_key
from backbud.subscribe.memory import COLLECTED, TOLD, keep_values, recall_values
from backbud.subscribe.publish import (
    odd_lines,
    open_server,
    prefix_of,
    settings_of,
    sort_of,
)
from backbud.subscribe.server import Server
from backbud.subscribe.settling import Bench
from backbud.subscribe.tasks import Tick, tick_of
from backbud.views.on_server import CollectedView, OfferView
from backbud.words import number


class Offer(Struct, frozen=True):
    """A line that a tick became, and where it goes."""

    tick: Tick
    follow_up: str
    line: DiaryLine
    place: DiaryPlace


class Collected(Struct, frozen=True):
    """What a server's ticks come to: lines to offer, what cannot be, and ticks dealt with before.

    `texts`: the diary files as they were read. `unmarked`: what is ticked off and looks like ours,
    but bears no mark of this person; `odd`: what cannot be understood, a sentence each.
    """

    offers: tuple[Offer, ...]
    refused: tuple[str, ...]
    settled: tuple[Tick, ...]
    texts: Mapping[str, bytes]
    unmarked: tuple[str, ...] = ()
    odd: tuple[str, ...] = ()

    def lines(self) -> Iterator[str]:
        """What to show the keeper: each new line below its file, day and tree; then the rest."""
        if not self.offers and not self.refused:
            yield "Nothing new was ticked off."
        for place, offers in groupby(self._in_order(), key=lambda one: one.place):
            yield f"{place.file}, {'a new page of ' if place.is_new else ''}{place.day}:"
            for tree, of_tree in groupby(offers, key=lambda one: one.line.tree):
                yield f"  {tree}"
                yield from (f"  {offer.line.text}" for offer in of_tree)
        for why in self.refused:
            yield f"Not to be written: {why}"
        yield from odd_lines(self.odd)
        if self.unmarked:
            yield (
                f"{number(len(self.unmarked), 'task')} ticked off there may not be of this journal "
                f"and {'was' if len(self.unmarked) == 1 else 'were'} left out: "
                f"{', '.join(self.unmarked)}. If they are, backbud publish --adopt takes them over."
            )

    def _in_order(self) -> list[Offer]:
        return sorted(self.offers, key=lambda one: (one.place, one.line.tree))

    @property
    def view(self) -> CollectedView:
        """The same for a program."""
        offered = (
            OfferView(
                one.follow_up, one.place.file, one.line.day, one.line.tree, one.line.text.strip()
            )
            for one in self._in_order()
        )
        dealt_with = tuple(tick.uid for tick in self.settled)
        return CollectedView(tuple(offered), self.refused, dealt_with, self.unmarked, self.odd)


def collect(folder: str, today: date, to: str, environ: Mapping[str, str]) -> Collected:
    """Fetch what was ticked off and return the lines to offer; nothing is written."""
    settings = settings_of(folder)
    server = open_server(settings, to, environ, folder)
    try:
        found = _ticked(
            server, settings.journal_id, person_key(folder), recall_values(folder, TOLD)
        )
    finally:
        server.close()
    dealt_with = recall_values(folder, COLLECTED)
    new = [tick for tick in found.ticks if dealt_with.get(tick.uid) != tick.stamp]
    if new:
        collected = _offers(open_session(folder, today), new, settings.journal_id)
    else:
        collected = Collected((), (), (), {})
    return replace(collected, unmarked=found.unmarked, odd=found.odd)


class _Ticked(NamedTuple):
    ticks: list[Tick]
    unmarked: tuple[str, ...]
    odd: tuple[str, ...]


def _ticked(server: Server, journal_id: str, key: bytes, told: Mapping[str, str]) -> _Ticked:
    """Every task of ours that is ticked off, in whichever calendar of this journal, each once.

    A task that is not ours writes nothing into the diary, whatever it says; the keeper is told.
    """
    prefix, found = prefix_of(journal_id), dict[str, Tick]()
    unmarked: list[str] = []
    odd: list[str] = []
    for collection in server.collections():
        slug = collection.slug
        if not slug.startswith(prefix) or sort_of(slug.removeprefix(prefix)) != "VTODO":
            continue
        marks = Marks(key, journal_id, slug)
        there = looked_at(server.entries(collection, "VTODO"), marks, told)
        for _, entry, uid in there.ours:
            tick = tick_of(entry, told.get(uid))
            if tick is not None:
                found.setdefault(uid, tick)
        unmarked += [
            title_of_entry(entry)
            for _, entry, _ in there.unmarked
            if tick_of(entry, None) is not None
        ]
        odd += there.odd
    return _Ticked(list(found.values()), tuple(unmarked), tuple(odd))


def _offers(session: Session, ticks: Iterable[Tick], journal_id: str) -> Collected:
    today, journal, plan = session.today, session.journal, session.plan()
    by_uid = {task_uid_of(f.id, journal_id): f for f in plan.all()}
    bench = Bench(session)
    offers: list[Offer] = []
    refused: list[str] = []
    settled: list[Tick] = []
    for tick in sorted(ticks, key=lambda one: (one.day(today), one.uid)):
        asked = heir_of(tick.uid, by_uid.get(tick.uid), plan)
        now = bench.follow_up(asked) if asked is not None else None
        if is_of_ended(tick.uid):
            settled.append(tick)  # it only said that its calendar ended
        elif asked is None or now is None:
            refused.append(_refusal(tick, today, "nothing in the journal asks for it any more"))
        elif now.outcome in ("done", "skipped"):
            settled.append(tick)
        else:
            day = tick.day(today)
            place = place_of(day, journal.pages, journal.texts)
            line = bench.settle(now, day, tick.note, place) if place is not None else None
            if place is None:
                refused.append(_refusal(tick, today, "the diary has no dated page yet"))
            elif line is None:
                refused.append(_refusal(tick, today, _why_not(now, day)))
            else:
                offers.append(Offer(tick, now.id, line, place))
    files = {offer.place.file for offer in offers}
    texts = {name: journal.texts[name] for name in files}
    return Collected(tuple(offers), tuple(refused), tuple(settled), texts)


def _refusal(tick: Tick, today: date, why: str) -> str:
    note = f" Its note: {tick.note}" if tick.note else ""
    return f"{tick.summary}, ticked off for {tick.day(today)}: {why}.{note}"


def _why_not(follow_up: FollowUp, day: date) -> str:
    if day < follow_up.window.opens:
        return f"no line of that day settles it; its time begins on {follow_up.window.opens}"
    return "no line that can be made of it settles it; write it into the diary yourself"


# ------------------------------------------------------------------ writing


def write_offered(folder: str, today: date, collected: Collected) -> None:
    """Write the offered lines into the diary, and remember the ticks.

    SubscribeError where a file was changed meanwhile or cannot be written, and where the journal
    does not read as was meant; then the diary is as it was.
    """
    with lock(folder), lock(folder, name=DIARY_LOCK):
        old = {name: _unchanged(folder, name, text) for name, text in collected.texts.items()}
        try:
            for name, data in old.items():
                placed = [(o.place, o.line) for o in collected.offers if o.place.file == name]
                _put_in_place(os.path.join(folder, name), with_lines(data, placed))
            _check(open_session(folder, today), collected)
        except BaseException as error:
            for name, data in old.items():
                _put_in_place(os.path.join(folder, name), data)
            if isinstance(error, OSError):
                raise SubscribeError(f"the diary cannot be written: {error.strerror}") from None
            raise
        remember_ticks(folder, [offer.tick for offer in collected.offers])


def remember_ticks(folder: str, ticks: Iterable[Tick]) -> None:
    """Remember that these ticks are in the diary, so that none is offered twice."""
    stamps = {tick.uid: tick.stamp for tick in ticks}
    if stamps:
        keep_values(folder, COLLECTED, recall_values(folder, COLLECTED) | stamps)


def _unchanged(folder: str, name: str, text: bytes) -> bytes:
    """The bytes of a file, if it still says what was read."""
    if load(folder, name).data != text:
        raise SubscribeError(f"{name} was changed meanwhile; nothing was written. Collect again")
    with open(os.path.join(folder, name), "rb") as file:
        return file.read()


def _check(session: Session, collected: Collected) -> None:
    by_id = {f.id: f for f in session.plan().all()}
    for offer in collected.offers:
        found = by_id.get(offer.follow_up)
        if found is not None and found.outcome != "done":
            raise SubscribeError(
                f"“{offer.line.text.strip()}” did not settle {offer.follow_up} once it was "
                "written; the diary is as it was"
            )


def _put_in_place(path: str, data: bytes) -> None:
    """Write a file whole: a reader finds the old bytes or the new ones. OSError."""
    mode = stat.S_IMODE(os.lstat(path).st_mode)
    handle, beside = tempfile.mkstemp(prefix=".", suffix=".backbud", dir=os.path.dirname(path))
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(beside, mode)
        os.replace(beside, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(beside)
        raise
