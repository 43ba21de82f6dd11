"""Runs a journal by itself: fetches the forecast, makes, publishes, and says what changed.

Each step that fails is told, and the next is taken all the same: pages without a new forecast are
better than none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime
from typing import Any

import msgspec
from msgspec import Struct

from backbud.journal.read import Journal, read_journal
from backbud.make import Made, make
from backbud.plan.followups import FollowUp
from backbud.publish.lock import lock
from backbud.publish.memory import keep, recall
from backbud.publish.refused import BusyError, PublishError
from backbud.services.agreed import agreed
from backbud.services.errors import NotNamed
from backbud.services.run import run as fetch
from backbud.session import Session
from backbud.views.by_itself import NightView
from backbud.whole import Broken
from backbud.words import number

LOCK = "nightly-lock"
_SLOT = "nightly"
# So many works are named in the line; the rest are counted.
MOST_NAMED = 2


class _LastRun(Struct, frozen=True):
    """What the last run left: when it was carried through, and the works that wanted doing."""

    at: float = 0.0
    works: tuple[str, ...] = ()


def run(
    folder: str,
    now: datetime,
    environ: Mapping[str, str],
    if_older_hours: float = 0.0,
    **limits: Any,
) -> NightView:
    """Take the steps, one run at a time. `if_older_hours`: nothing is done where the last run that
    was carried through is younger, so that it may be asked for often."""
    try:
        with lock(folder, 0.0, LOCK):
            last = _last_run(folder)
            age = (now.timestamp() - last.at) / 3600
            if if_older_hours and 0 <= age < if_older_hours:
                return NightView(
                    f"The last run is {age:.0f} hours old; nothing was done.", True, False
                )
            return _steps(folder, now, environ, last, limits)
    except BusyError:
        return NightView(
            "Another nightly run is at work on this journal; this one ends here.", False
        )


def _steps(
    folder: str,
    now: datetime,
    environ: Mapping[str, str],
    last: _LastRun,
    limits: Mapping[str, Any],
) -> NightView:
    today = now.astimezone().date()
    said: list[str] = []
    failed: list[str] = []
    problems = 0
    journal = read_journal(folder, today)
    for step in (_weather, _made_and_published):
        try:
            done, wrong, found = step(journal, now, today, environ, last, limits)
        except (PublishError, Broken, OSError) as error:
            done, wrong, found = (), (_one_line(str(error)),), 0
        said += done
        failed += wrong
        problems += found
    line = "; ".join([*said, *failed]) or "nothing changed"
    if not failed:
        works = _last_run(folder).works
        _keep(folder, _LastRun(now.timestamp(), works))
    return NightView(_one_line(line), not failed, True, problems)


# What was done, what went wrong, and how many problems the journal has.
_Step = tuple[tuple[str, ...], tuple[str, ...], int]


def _weather(
    journal: Journal,
    now: datetime,
    today: date,
    environ: Mapping[str, str],
    last: _LastRun,
    limits: Mapping[str, Any],
) -> _Step:
    """The forecast, where this person named a service."""
    named = agreed(journal.folder)
    if named is None:
        return (), (), 0
    try:
        came = fetch(journal, named, now.astimezone(UTC), **limits)
    except NotNamed as error:
        return (), (str(error),), 0
    said = [f"forecast of {came.forecast.made}"] if came.forecast and came.changed else []
    if came.past is not None and came.past.days:
        said.append(f"{number(came.past.days, 'past day')} filled in")
    return tuple(said), came.failed, 0


def _made_and_published(
    journal: Journal,
    now: datetime,
    today: date,
    environ: Mapping[str, str],
    last: _LastRun,
    limits: Mapping[str, Any],
) -> _Step:
    """The output, and the feeds on the server of the settings, where there is one."""
    read: list[Session] = []
    made = make(journal.folder, today, look=read.append)
    works = {one.id: one for one in read[0].plan().all() if one.is_open(today)}
    pressing = {i: one for i, one in works.items() if one.state(today) != "coming"}
    said = tuple(_changed(made, pressing, works, last, today))
    _keep(journal.folder, _LastRun(last.at, tuple(sorted(pressing))))
    problems = len(made.problems)
    if problems:
        said = (*said, f"{number(problems, 'problem')} in the journal (backbud check)")
    if not journal.settings.caldav_url:
        return said, (), problems
    sent, wrong = _sent(journal.folder, today, environ)
    return (*said, *sent), wrong, problems


def _changed(
    made: Made,
    pressing: Mapping[str, FollowUp],
    works: Mapping[str, FollowUp],
    last: _LastRun,
    today: date,
) -> Iterator[str]:
    """What is new in what wants doing, the first of it by name; and how many files are others."""
    foretold = {
        one.title: one
        for one in sorted(works.values(), key=lambda one: (one.window.best, one.id))
        if one.foretold is not None and one.window.closes >= today
    }
    for title in list(foretold)[:MOST_NAMED]:
        trees = sum(one.title == title for one in works.values())
        yield f"{title} ({number(trees, 'tree')})"
    new = [i for i in pressing if i not in last.works and pressing[i].foretold is None]
    gone = [i for i in last.works if i not in pressing]
    if new or gone:
        yield f"{number(len(new), 'work')} more to do now, {len(gone)} gone"
    if made.written or made.removed:
        yield f"{number(made.written + made.removed, 'file')} changed"


def _sent(
    folder: str, today: date, environ: Mapping[str, str]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    from backbud.subscribe.errors import NotAgreed, SubscribeError
    from backbud.subscribe.publish import publish

    try:
        published = publish(folder, today, "", environ)
    except (NotAgreed, SubscribeError) as error:
        return (), (f"not published: {error}",)
    lines = tuple(published.lines())
    return ((), lines) if not published.is_whole else (lines, ())


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _last_run(folder: str) -> _LastRun:
    content = recall(folder, _SLOT)
    try:
        return _LastRun() if content is None else msgspec.json.decode(content, type=_LastRun)
    except msgspec.DecodeError:
        return _LastRun()


def _keep(folder: str, last: _LastRun) -> None:
    keep(folder, _SLOT, msgspec.json.encode(last))
