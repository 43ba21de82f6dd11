"""Writes jotted lines into the diary: one run at a time, the whole file at once, or not at all."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from backbud.jot.in_place import plain_bytes, replace_file
from backbud.jot.line import JotError, JottedLine
from backbud.jot.placing import DiaryLine, DiaryPlace, last_subjects, with_lines_as_given
from backbud.jot.style import style_of
from backbud.jot.trial import known_on
from backbud.jot.which_file import place_for
from backbud.journal.load import load
from backbud.publish.disk import lstat
from backbud.publish.lock import lock
from backbud.publish.refused import PublishError
from backbud.session import Session

# Whoever writes lines into the diary holds this lock; a run that publishes is not in the way.
DIARY_LOCK = "diary-lock"
# Many may jot at once, each for a moment; whoever waits longer than this is told.
WAIT_SECONDS = 60.0
# An editor that saves while we write is waited out; one that never ceases is told.
MOST_TRIES = 20


class PutDown(Struct, frozen=True):
    """What was put into the diary: the file, the page's day, and the new lines. `new_page`,
    `new_file`: whether the page, the file was made."""

    file: str
    day: date
    new_page: bool
    new_file: bool
    lines: tuple[str, ...]


Placing = Callable[[Session], DiaryPlace]


def place_in_diary(day: date) -> Placing:
    """Where lines of a day go that were typed here."""

    def place(session: Session) -> DiaryPlace:
        journal = session.journal
        return place_for(day, journal.pages, journal.texts, partial(is_free, journal.folder))

    return place


def is_free(folder: str, name: str) -> bool:
    """Whether nothing stands yet at a name in the journal's folder."""
    return lstat(os.path.join(folder, name)) is None


def write_lines(
    session: Session, lines: Sequence[JottedLine], placing: Placing, again: Callable[[], Session]
) -> tuple[Session, PutDown]:
    """Put lines into the diary, and return the journal that they were placed by, and what was put.

    `again`: reads the journal anew, where a file was changed since. JotError where the diary cannot
    be written; then nothing of it has changed. BusyError where others write all the time.
    """
    folder = session.journal.folder
    with lock(folder, WAIT_SECONDS, DIARY_LOCK):
        for n in range(MOST_TRIES):
            place = placing(session)
            if n and place.file not in session.journal.texts and not is_free(folder, place.file):
                raise JotError(f"{place.file} is there, but is no file that the journal reads")
            written = _tried(session, lines, place)
            if written is not None:
                return session, written
            session = again()
    raise JotError(f"{place.file} is written to all the time; nothing was added")


def _tried(session: Session, lines: Sequence[JottedLine], place: DiaryPlace) -> PutDown | None:
    """What was written; None where the file is no longer as the journal was read."""
    journal, name = session.journal, place.file
    path = os.path.join(journal.folder, name)
    known = known_on(journal, place.day)
    read = journal.texts.get(name)
    try:
        if read is None:
            if lstat(path) is not None:
                return None
            old, found = b"", None
        else:
            old, found = plain_bytes(path, name)
            if load(journal.folder, name).data != read:
                return None
        style = style_of(_model(session, place, read), known)
        place = replace(place, below=last_subjects(read or b"", place, known, style.indent))
        set_out = [
            DiaryLine(line.subjects, place.day, style.line(line.act, known) if line.act else "")
            for line in lines
        ]
        new = with_lines_as_given(old, [(place, line) for line in set_out])
        if not replace_file(path, journal.folder, name, new, old, found):
            return None
    except PublishError as error:
        raise JotError(str(error)) from None
    except OSError as error:
        raise JotError(f"{name} cannot be written: {error.strerror or error}") from None
    added = tuple(_added(set_out, place.below))
    return PutDown(name, place.day, place.is_new, read is None, added)


def _model(session: Session, place: DiaryPlace, read: bytes | None) -> bytes:
    """The text whose style a line is set in: that of its file, or of the file of the last page."""
    pages = session.journal.pages
    if read and any(page.file == place.file and page.acts for page in pages):
        return read
    files = [page.file for page in pages if page.acts]
    return session.journal.texts[files[-1]] if files else b""


def _added(lines: Sequence[DiaryLine], above: str) -> Iterator[str]:
    """The new lines as they stand there, below the subject line `above` or their own."""
    for line in lines:
        if line.tree != above:
            yield line.tree
        above = line.tree
        if line.text:
            yield line.text
