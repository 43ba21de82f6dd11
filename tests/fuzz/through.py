"""A journal goes in; all that a run makes of it is made and looked at, and what went wrong is told.

Reading, replay, plan, stores, pages, feeds, what a terminal prints, and tidy, in this process; the
last-resort handler is not among them. Nothing but the journal's own folder is written.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import tempfile
import traceback
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from types import FrameType
from zlib import crc32

from hostile import TODAY, Files
from tests.fates import fates_of

from backbud.calendar.feeds import feeds_written
from backbud.calendar.which_feeds import feeds_of, shown_in_feeds
from backbud.compiled import nursery_of
from backbud.pages.render import render_pages
from backbud.report import due_lines, tree_lines, why_lines
from backbud.session import Session, open_session
from backbud.stores_report import stores_lines
from backbud.views.day import all_works, due
from backbud.views.grounds import grounds_of
from backbud.views.published import as_json
from backbud.views.shelf import shelf_view
from backbud.views.tree import planned_tree_view
from backbud_grammar.problems import Problem, show
from backbud_grammar.tidy import TidyError, tidy_text

# What one journal of a few dozen lines may take of the processor; most take a hundredth of that.
# The clock on the wall would tell of a busy machine.
SECONDS = 5.0
# What catches the interruption is interrupted again.
AGAIN_SECONDS = 0.05
OURS = re.compile(r"[/\\]backbud(_\w+)?[/\\]")
# A problem of such a code in a journal without plugins is a fault of ours that was caught.
CAUGHT_FAULTS = frozenset({"fault", "rule-failed", "section-failed", "species-failed"})
# What no page may hold: XML 1.0, section 2.2, and HTML 13.2.3.5 ("control-character-in-input").
NOT_IN_A_PAGE = re.compile("[\x00-\x08\x0b\x0e-\x1f\x7f\ufffe\uffff]")
NOT_IN_A_FEED = re.compile(rb"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]|(?<!\r)\n|\r(?!\n)")
# To tidy takes as long as all else, so every eighth journal is tidied.
TIDIED = 8
# To account for each line takes a second replay.
ACCOUNTED = 4


@dataclass(frozen=True)
class Fault:
    """What went wrong: `sort` tells one fault from another, `told` is all there is to see."""

    sort: str
    told: str


class Overrun(BaseException):
    """The time is up."""


class Unsound(AssertionError):
    """Something was made that is not what it must be."""


def fault_of(files: Files, seconds: float = SECONDS) -> Fault | None:
    """The first thing that goes wrong with a journal, or None.

    On the main thread only, where the system's timer can ring.
    """
    stack: list[str] = []

    def ring(number: int, frame: FrameType | None) -> None:
        stack.append("".join(traceback.format_stack(frame)[-12:]))
        raise Overrun

    folder = tempfile.mkdtemp(dir=_quick_disk())
    _write(folder, files)
    signal.signal(signal.SIGPROF, ring)
    fault = None
    try:
        try:
            signal.setitimer(signal.ITIMER_PROF, seconds, AGAIN_SECONDS)
            _all_of(folder, files, TODAY)
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        # A ring may come between the two steps above.
        signal.setitimer(signal.ITIMER_PROF, 0)
        fault = Fault(_sort(error), "".join(traceback.format_exception(error)[-60:]))
    shutil.rmtree(folder, ignore_errors=True)
    if stack:
        return Fault("overrun", f"longer than {seconds:g} seconds\n{stack[0]}")
    return fault


def _quick_disk() -> str | None:
    return "/dev/shm" if os.path.isdir("/dev/shm") else None


def _write(folder: str, files: Mapping[str, bytes]) -> None:
    for name, data in files.items():
        with open(os.path.join(folder, name), "wb") as file:
            file.write(data)


def _sort(error: BaseException) -> str:
    """The error's sort and the last line of the program that it went through."""
    frames = traceback.extract_tb(error.__traceback__)
    ours = [frame for frame in frames if OURS.search(frame.filename)]
    last = (ours or list(frames))[-1]
    place = f"{os.path.basename(last.filename)}:{last.name}"
    said = str(error).split(":")[0][:60] if isinstance(error, Unsound) else ""
    return f"{type(error).__name__} {said} in {place}"


# ------------------------------------------------------------------ all that is made


def _all_of(folder: str, files: Files, today: date) -> None:
    session = open_session(folder, today)
    plan = session.plan()
    nursery = nursery_of(session, plan)
    _look_at_pages(render_pages(nursery))
    _look_at_feeds(_feeds(session, plan.follow_ups, plan.trees))
    _look_at_problems(session.problems(), files)
    if crc32(repr(sorted(files.items())).encode()) % ACCOUNTED == 0:
        _look_for_lost_lines(session)
    for line in _printed(session, plan):
        _utf8(line)
    for name, data in files.items():
        if name.endswith(".txt") and crc32(data) % TIDIED == 0:
            _tidy(name, data.decode(errors="replace"))


def _tidy(name: str, text: str) -> None:
    """Tidied twice is tidied once, and the words stay; it may refuse, in words."""
    try:
        tidied = tidy_text(text)
    except TidyError as error:
        _utf8(str(error))
        return
    # The mark of its bytes before the first line is no word of it.
    words, before = (one.removeprefix("\ufeff").split() for one in (tidied, text))
    if words != before or tidy_text(tidied) != tidied:
        raise Unsound(f"tidy: {name}")


def _feeds(session: Session, follow_ups: object, trees: object) -> dict[str, bytes]:
    settings, things = session.journal.settings, session.journal.things
    grounds = grounds_of(trees, things, session.names(), settings.keeper)
    shown = shown_in_feeds(follow_ups, session.today, settings.settled)
    feeds = feeds_of(shown, grounds)
    return dict(feeds_written(feeds, shown, grounds, session.today, settings, {}))


def _printed(session: Session, plan: object) -> Iterator[str]:
    today, names = session.today, session.names()
    works = tuple(all_works(plan, names, today))
    yield from due_lines(due(works, today, timedelta(days=36500)), today, timedelta(weeks=2))
    for handle in plan.trees:
        shown = planned_tree_view(plan, handle, names, today)
        yield from tree_lines(shown, today)
        yield as_json(shown)
    for work in works:
        yield from why_lines(work, today)
    stores = shelf_view(_stores(session, plan))
    yield from stores_lines(stores, today.year)
    yield as_json(stores)


def _stores(session: Session, plan: object) -> object:
    from backbud.plan.stores import stores_of

    return stores_of(session.journal, session.histories, plan, session.today, session.by_tree)


# ------------------------------------------------------------------ what it must be


def _look_for_lost_lines(session: Session) -> None:
    """Every line that is not blank was used, is a remark or a problem."""
    for name, fates in fates_of(session.journal).items():
        if "lost" in fates:
            raise Unsound(f"lost: {name}:{fates.index('lost') + 1}")


def _look_at_problems(problems: Iterable[Problem], files: Files) -> None:
    at: tuple[str, int, int] = ("", 0, 0)
    for problem in problems:
        if problem.code in CAUGHT_FAULTS:
            raise Unsound(f"{problem.code}: {problem.message}")
        shown = show(problem)
        _utf8(shown)
        if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", problem.code):
            raise Unsound(f"code: {problem.code}")
        if not problem.message.strip() or problem.severity not in ("error", "warning"):
            raise Unsound(f"message: {shown}")
        if problem.line < 1 or problem.column < 1 or problem.length < 0:
            raise Unsound(f"place: {shown}")
        data = files.get(problem.file)
        if data is not None:
            lines = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n").count(b"\n") + 1
            if problem.line > lines + 1 or problem.column > len(problem.source) + 1:
                raise Unsound(f"outside: {shown}")
        # How many more there are stands behind all others.
        if problem.code != "many-problems":
            now = (problem.file, problem.line, problem.column)
            if now < at:
                raise Unsound(f"order: {shown}")
            at = now


def _look_at_pages(pages: Mapping[str, bytes]) -> None:
    for name, data in pages.items():
        _is_name(name)
        if name.endswith(".html"):
            text = data.decode()
            found = NOT_IN_A_PAGE.search(text)
            if found:
                around = text[max(found.start() - 60, 0) : found.end() + 60]
                raise Unsound(f"control in page: {name} {around!r}")
            if not text.rstrip().endswith("</html>"):
                raise Unsound(f"cut page: {name}")


def _look_at_feeds(feeds: Mapping[str, bytes]) -> None:
    """RFC 5545, section 3.1: CRLF, no line over 75 octets, no controls but tab; all closed."""
    for name, data in feeds.items():
        _is_name(name)
        data.decode()
        if not data.endswith(b"END:VCALENDAR\r\n"):
            raise Unsound(f"cut feed: {name}")
        wrong = NOT_IN_A_FEED.search(data)
        if wrong:
            raise Unsound(f"line in feed: {name} {data[wrong.start() - 60 : wrong.end() + 60]!r}")
        if max(map(len, data.split(b"\r\n"))) > 75:
            raise Unsound(f"long line in feed: {name}")
        open_ones: list[bytes] = []
        for begins, what in re.findall(rb"^(BEGIN|END):(.*)\r$", data, re.MULTILINE):
            if begins == b"BEGIN":
                open_ones.append(what)
            elif not open_ones or open_ones.pop() != what:
                raise Unsound(f"blocks in feed: {name}")


def _is_name(name: str) -> None:
    """What is written lies inside the output folder, under a name every file system takes."""
    parts = name.split("/")
    if any(part in ("", ".", "..") or len(part.encode()) > 255 for part in parts):
        raise Unsound(f"name of file: {name!r}")


def _utf8(text: str) -> None:
    text.encode()
