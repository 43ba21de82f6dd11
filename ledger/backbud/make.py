"""Compiles a journal and publishes it whole: the work of `make`, `watch` and `publish`.

The steps, in order:
    read      the journal and its replay (session.py)
    compile   its plan, then its feeds and pages (compiled.py)
    publish   each file staged as it comes, then the whole set put in place (publish/commit.py)
    remember  what it was made from, so that the next run can end at once (publish/unchanged.py)
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date

from msgspec import Struct

from backbud.compiled import (
    REVISIONS,
    Compiled,
    Output,
    compiled,
    compiling,
    known_revisions,
)
from backbud.journal.weather.named import weather_files
from backbud.journal.written_when import watched_files
from backbud.memo import NO_MEMO, Memo
from backbud.pages.links import EVERYTHING
from backbud.publish import MEMORY, memory
from backbud.publish.commit import Published, finish, publish
from backbud.publish.lock import lock
from backbud.publish.refused import PublishError
from backbud.publish.stage import Seen
from backbud.publish.unchanged import SeenInput, fingerprint, made_on, remember
from backbud.say import tell_progress
from backbud.session import Session, open_session
from backbud.tongue import in_english
from backbud.views.problem import MadeView, problem_view
from backbud.views.published import as_json
from backbud.whole import remember_read
from backbud.words import number
from backbud_grammar.problems import Problem

# Longer than this, a person at a terminal is told what is going on.
SILENT_SECONDS = 1.0


class Made(Struct, frozen=True):
    """What a run of make did. `summary`: as it is printed, and again when nothing changed.

    `files`: all that is published now, by relative POSIX path; none unless they are asked for.
    """

    written: int
    removed: int
    kept: int
    problems: tuple[Problem, ...]
    summary: str
    files: Mapping[str, bytes]


def make(
    folder: str,
    today: date,
    *,
    as_of: bool = False,
    arguments: str = "make",
    json: bool = False,
    remembered: bool = True,
    look: Callable[[Session], None] | None = None,
    kept: Memo = NO_MEMO,
    by_two: bool = False,
    with_files: bool = False,
    when_published: Callable[[Made], None] | None = None,
    installed: str = "",
) -> Made:
    """Compile the journal and publish it whole; PublishError where that cannot be done, Broken
    where a file that was read before gives nothing now.

    `as_of`: look at the journal as it was on the day; that is published in a folder of its own.
    `json`: the summary is JSON. `arguments`: how the run was asked for, so that the same question
    can be answered from memory, unless it is not to be `remembered`. `look`: is shown what was
    read; what it raises ends the run before anything is written. `kept`: what an earlier run of
    this process left. `by_two`: a copy of this process may help. `with_files`: what was published
    is handed back with its bytes, and so held, else none of it is. `when_published`: is called once
    the new pages are there, while the run is still being remembered. `installed`: the mark of the
    installed program (`installed_mark`) as this run has it, where it is known.
    """
    with lock(folder):
        finish(folder)
        into = made_on(today.isoformat(), as_of)
        inputs = kept.once("inputs", (), dict[str, SeenInput])
        known = ""
        if remembered:
            known = fingerprint(folder, today.isoformat(), arguments, installed, inputs)
        progress = _Progress()
        session = open_session(
            folder, today, as_of=as_of, kept=kept, by_two=by_two, installed=installed
        )
        session.takes_every_step = True
        if look is not None:
            look(session)
        if with_files:
            seen = kept.once("published", (), dict[str, Seen])
            done, published = _published(session, into, progress.tell, seen)
        else:
            done, published = _published_as_made(session, into, progress.tell)
        made = _made(done.output, os.path.join(folder, into), published, json)
        if when_published is not None:
            when_published(made)
        remember_read(session)
        session.remember_cautions()
        status = 1 if made.problems else 0
        also = (
            *weather_files(session.journal.things),
            *session.pictures.files,
            *watched_files(folder),
        )
        remember(folder, known, made.summary, status, also, into, inputs)
        session.faults.forget()
        kept.end()
        progress.end()
    return made


def _published_as_made(
    session: Session, into: str, tell: Callable[[str], None]
) -> tuple[Compiled, Published]:
    """Publish the output without holding all of it. Where a step fails by a fault of ours, all is
    made again: to find the trees that it fails for takes all at once."""
    ended: list[Compiled] = []

    def files() -> Iterator[tuple[str, bytes]]:
        done = yield from compiling(session, tell)
        tell("publishing")
        _keep_revisions(session, done)
        ended.append(done)

    try:
        published = publish(session.journal.folder, files(), made=into)
    except (OSError, PublishError):
        raise
    except Exception:
        session.go_on_with(None)
        return _published(session, into, tell, None)
    return ended[0], published


def _published(
    session: Session, into: str, tell: Callable[[str], None], seen: dict[str, Seen] | None
) -> tuple[Compiled, Published]:
    """Make the whole output, then publish it."""
    done = compiled(session, tell)
    tell("publishing")
    _keep_revisions(session, done)
    return done, publish(session.journal.folder, done.output.files, seen, into)


def _keep_revisions(session: Session, done: Compiled) -> None:
    """Remember the revisions of the calendar entries, but not those of a look back.

    First the numbers, then the feeds: a run that dies in between leaves out a number, where it
    would else give one out twice. PublishError where they cannot be kept.
    """
    revisions = done.revisions
    if revisions is None:
        return
    after = known_revisions(session.kept).written(revisions)
    if after == done.remembered:
        return
    try:
        memory.must_keep(session.journal.folder, REVISIONS, after)
    except OSError as error:
        why = error.strerror or error
        raise PublishError(f"{MEMORY} cannot be written: {why}") from error


def _made(
    output: Output,
    into: str,
    published: Published,
    json: bool,
) -> Made:
    problems = output.problems
    pages = os.path.join(into, "index.html")
    calendar = os.path.join(into, EVERYTHING)
    if json:
        # Nothing of what this one run wrote: the same text answers when nothing changed.
        summary = as_json(
            MadeView(
                pages,
                calendar,
                output.trees,
                output.overdue,
                output.now,
                output.coming,
                tuple(map(problem_view, problems)),
                output.left_out,
            )
        )
    else:
        summary = "\n".join(in_english(lambda: _told(output, problems, pages, calendar)))
    done = (len(published.written), len(published.removed), published.kept)
    return Made(*done, problems, summary, output.files)


class _Progress:
    """Tells a person at a terminal what is going on, once it takes longer than a second."""

    def __init__(self) -> None:
        self._began = time.monotonic()
        self._told = False

    def tell(self, step: str) -> None:
        if time.monotonic() - self._began > SILENT_SECONDS:
            self._told = tell_progress(f"{step} …")

    def end(self) -> None:
        if self._told:
            tell_progress("")


def _told(output: Output, problems: Sequence[Problem], pages: str, calendar: str) -> Iterator[str]:
    """What a run says at its end, line by line."""
    yield (
        f"{number(output.trees, 'tree')} here: {number(output.overdue, 'work')} overdue, "
        f"{output.now} now, {output.coming} coming."
    )
    yield f"Pages: {pages}"
    yield f"Calendar: {calendar}"
    if problems:
        yield (
            f"{number(len(problems), 'problem')} in the journal; backbud check shows "
            "them. Every other line was compiled."
        )
    if output.left_out:
        yield output.left_out
