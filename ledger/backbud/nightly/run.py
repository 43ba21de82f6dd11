"""Runs a journal by itself: fetches the forecast, makes, publishes, and says what changed.

Each step that fails is told, and the next is taken all the same: pages without a new forecast are
better than none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import UTC, date, datetime
from typing import Any

import msgspec
from msgspec import Struct

from backbud.journal.read import Journal, read_journal
from backbud.make import Made, make
from backbud.plan.followups import FollowUp
from backbud.publish.lock import lock
from backbud.publish.memory import keep_bytes, recall_bytes
from backbud.publish.refused import BusyError, PublishError
from backbud.services.agreed import agreed
from backbud.services.errors import NotNamed
from backbud.services.run import run as fetch
from backbud.session import Session
from backbud.views.came import NightView
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
                young = f"The last run is {age:.0f} hours old; nothing was done."
                return NightView(young, True, False)
            today = now.astimezone().date()
            journal = read_journal(folder, today)
            return _all_steps(_Night(journal, now, today, environ, last, limits))
    except BusyError:
        busy = "Another nightly run is at work on this journal; this one ends here."
        return NightView(busy, False)


class _Night(Struct, frozen=True):
    """What the steps of a run are taken with: the journal, the moment, the variables, what the last
    run left, and within which limits the services are asked."""

    journal: Journal
    now: datetime
    today: date
    environ: Mapping[str, str]
    last: _LastRun
    limits: Mapping[str, Any]


class _StepTaken(Struct, frozen=True):
    """What a step did, what went wrong in it, how many problems the journal has; and the works that
    want doing, from the step that finds them."""

    said: tuple[str, ...] = ()
    failed: tuple[str, ...] = ()
    problems: int = 0
    works: tuple[str, ...] | None = None


def _forecast(night: _Night) -> _StepTaken:
    """The forecast, where this person named a service."""
    named = agreed(night.journal.folder)
    if named is None:
        return _StepTaken()
    try:
        came = fetch(night.journal, named, night.now.astimezone(UTC), **night.limits)
    except NotNamed as error:
        return _StepTaken(failed=(str(error),))
    said = [f"forecast of {came.forecast.made}"] if came.forecast and came.changed else []
    if came.past is not None and came.past.days:
        said.append(f"{number(came.past.days, 'past day')} filled in")
    return _StepTaken(tuple(said), came.failed)


def _made_and_published(night: _Night) -> _StepTaken:
    """The output, and the feeds on the server of the settings, where there is one."""
    journal, today = night.journal, night.today
    read: list[Session] = []
    made = make(journal.folder, today, look=read.append)
    works = {one.id: one for one in read[0].plan().all() if one.is_open(today)}
    pressing = {i: one for i, one in works.items() if one.state(today) != "coming"}
    said = tuple(_changed(made, pressing, works, night.last, today))
    problems = len(made.problems)
    if problems:
        said = (*said, f"{number(problems, 'problem')} in the journal (backbud check)")
    sent, wrong = (
        _sent(journal.folder, today, night.environ) if journal.settings.caldav_url else ((), ())
    )
    return _StepTaken((*said, *sent), wrong, problems, tuple(sorted(pressing)))


# In this order; the next is taken though one failed.
STEPS: tuple[tuple[str, Callable[[_Night], _StepTaken]], ...] = (
    ("forecast", _forecast),
    ("make and publish", _made_and_published),
)


def _all_steps(night: _Night) -> NightView:
    taken = [_taken(step, night) for _, step in STEPS]
    said = [one for step in taken for one in step.said]
    failed = [one for step in taken for one in step.failed]
    works = next((step.works for step in taken if step.works is not None), night.last.works)
    _keep(night.journal.folder, _LastRun(night.last.at if failed else night.now.timestamp(), works))
    line = "; ".join([*said, *failed]) or "nothing changed"
    return NightView(_one_line(line), not failed, True, sum(step.problems for step in taken))


def _taken(step: Callable[[_Night], _StepTaken], night: _Night) -> _StepTaken:
    try:
        return step(night)
    except (PublishError, Broken, OSError) as error:
        return _StepTaken(failed=(_one_line(str(error)),))


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
    from backbud.subscribe.publish import publish_feeds

    try:
        published = publish_feeds(folder, today, "", environ)
    except (NotAgreed, SubscribeError) as error:
        return (), (f"not published: {error}",)
    lines = tuple(published.lines())
    return ((), lines) if not published.is_whole else (lines, ())


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _last_run(folder: str) -> _LastRun:
    content = recall_bytes(folder, _SLOT)
    try:
        return _LastRun() if content is None else msgspec.json.decode(content, type=_LastRun)
    except msgspec.DecodeError:
        return _LastRun()


def _keep(folder: str, last: _LastRun) -> None:
    keep_bytes(folder, _SLOT, msgspec.json.encode(last))
