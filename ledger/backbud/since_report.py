"""Compares a journal with what it was at a revision, and lays out what changed."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import date
from tempfile import TemporaryDirectory

from backbud.journal.events import Event
from backbud.journal.find import NotAJournal
from backbud.journal.revision import JournalRevision
from backbud.say import Heading
from backbud.session import Session, open_session
from backbud.tongue import full_day
from backbud.views.day import all_works
from backbud.views.since import (
    ActView,
    SinceView,
    WentView,
    acts_gained,
    plan_changes,
    tree_lines_changed,
)
from backbud.views.work import WorkView
from backbud.words import between, number

_WHY = {
    "no cause": "nothing asks for it any more",
    "gone": "the tree is not here any more",
    "displaced": "in its place",
    "unasked": "what asked for it stands there no more",
}
_MOST = 60


def since_revision(session: Session, before: JournalRevision) -> SinceView:
    """What changed since a revision, both looked at on the session's day. Nothing is written but a
    folder that goes again; code in the plugins of the revision does not run."""
    with TemporaryDirectory(prefix="backbud-") as folder:
        for name, content in before.files.items():
            path = os.path.join(folder, name)
            os.makedirs(os.path.dirname(path), exist_ok=True)
            with open(path, "xb") as file:
                file.write(content)
        try:
            old = open_session(folder, session.today, as_of=session.as_of, keeps=False)
            old_acts, old_works, old_lines = _events(old), _works(old), _by_tree(old)
        except (NotAJournal, FileNotFoundError):
            old_acts, old_works, old_lines = (), {}, {}
    acts, works = _events(session), _works(session)
    here = frozenset(tree.handle for tree in session.plan().trees.values() if tree.here)
    lines = {
        handle: tree_lines_changed(old_lines.get(handle, ()), events)
        for handle, events in _by_tree(session).items()
    }
    came, went, moved, shifted = plan_changes(old_works, works, here, lines)
    return session.forgotten.told(
        SinceView(
            before.digest,
            before.day,
            before.said,
            session.today,
            acts_gained(old_acts, acts),
            acts_gained(acts, old_acts),
            came,
            went,
            moved,
            shifted,
        )
    )


def _events(session: Session) -> tuple[Event, ...]:
    pages = session.journal.pages
    return tuple(event for page in pages for block in page.blocks for event in block.events)


def _by_tree(session: Session) -> dict[str, tuple[Event, ...]]:
    """The lines of each tree, by its handle."""
    return {
        handle: tuple(entry.event for entry in tree.history)
        for handle, tree in session.plan().trees.items()
    }


def _works(session: Session) -> dict[str, WorkView]:
    found = all_works(session.plan(), session.names(), session.today)
    return {one.id: one for one in found}


def since_lines(found: SinceView, today: date) -> Iterator[str]:
    """What changed, for a terminal."""
    said = f": {found.said}" if found.said else ""
    yield f"Since {found.revision[:10]} of {full_day(found.written)}{said}"
    yield ""
    yield from _acts("The diary gained", "+", found.gained)
    yield from _acts("It lost", "-", found.lost)
    yield from _block("Came", (_work(one, today) for one in found.came))
    yield from _block("Went", (_went(one) for one in found.went))
    yield from _block(
        "Moved",
        (
            (
                f"{_name(one.work)}: {between(one.work.opens, one.work.closes, today.year)}, "
                f"was {between(one.was.opens, one.was.closes, today.year)}",
                one.work.because[0] if one.work.because else "",
            )
            for one in found.moved
        ),
    )
    if found.shifted:
        yield f"{number(found.shifted, 'other work')} moved by less than a week."
    if not any((found.gained, found.lost, found.came, found.went, found.moved)):
        yield "Nothing else changed." if found.shifted else "Nothing changed."


def _acts(title: str, sign: str, told: tuple[ActView, ...]) -> Iterator[str]:
    if not told:
        return
    yield Heading(f"{title} ({len(told)})")
    for one in told[:_MOST]:
        yield f"  {sign} {one.date}  {one.subjects}  {one.line}  ({one.at})"
    if len(told) > _MOST:
        yield f"    … and {number(len(told) - _MOST, 'more line')}"
    yield ""


def _block(title: str, lines: Iterator[tuple[str, str]]) -> Iterator[str]:
    found = list(lines)
    if not found:
        return
    yield Heading(f"{title} ({len(found)})")
    for line, why in found[:_MOST]:
        yield f"  {line}"
        if why:
            yield f"      {why}"
    if len(found) > _MOST:
        yield f"    … and {len(found) - _MOST} more"
    yield ""


def _name(work: WorkView) -> str:
    return f"{work.tree_name}  {work.title}"


def _work(one: WorkView, today: date) -> tuple[str, str]:
    days = between(one.opens, one.closes, today.year)
    return f"{_name(one)}  –  {days}", one.because[0] if one.because else ""


def _went(one: WentView) -> tuple[str, str]:
    if one.why == "settled":
        return _name(one.work), one.by
    if one.why == "no cause" and one.by:
        return _name(one.work), f"{_WHY[one.why]}; new since then: {one.by}"
    return _name(one.work), f"{_WHY[one.why]}: {one.by}" if one.by else _WHY[one.why]
