"""Writes each feed as iCalendar (RFC 5545, RFC 7986), every entry with its revision."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import cache, partial
from itertools import chain
from operator import itemgetter
from typing import NamedTuple
from zlib import crc32

from msgspec.structs import replace

from backbud.calendar.around_feeds import AroundFeeds
from backbud.calendar.ended import EndedFeed, entry_of_ended, is_of_owner
from backbud.calendar.entries import CalendarEntry, event_of, task_of, uid_of, url_of
from backbud.calendar.lines import content_line, hours_value, one_line, text_line
from backbud.calendar.revised_before import FeedsRun, LastRun, RevisionsBefore
from backbud.calendar.revisions import (
    Revision,
    Revisions,
    digest_of,
    key_of,
    revised_to,
    stamped,
    worth_keeping,
)
from backbud.calendar.together import joint_event_of
from backbud.calendar.told_works import ToldWorks
from backbud.calendar.which_feeds import AHEAD, Feed, Shown
from backbud.journal.settings import Settings
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.plan.followups import FollowUp
from backbud.publish.files import Files
from backbud.tongue import phrase
from backbud.views.audience import Audience, eyes_of
from backbud.views.grounds import Grounds
from backbud.views.week_entries import WeekEntry, WeekWork
from backbud.views.weeks import week_work, weeks_view

PRODUCT = "-//backbud//backbud//EN"
_REFRESH = timedelta(hours=12)
# Dark enough to read on white; names that CSS has had since its first level.
_COLOURS = ("green", "teal", "navy", "purple", "maroon", "olive")


def feeds_written(
    feeds: Sequence[Feed],
    shown: Shown,
    grounds: Grounds,
    today: date,
    settings: Settings,
    remembered: Revisions,
    kept: Memo = NO_MEMO,
    ended: Iterable[EndedFeed] = (),
) -> Files[Revisions]:
    """Each feed's path and bytes, one by one; then the revisions to remember for the next run.

    `ended`: feeds that are made no more, whose paths say so.

    `shown`: what is to stand in them. `today` only enters the revision of an entry that is new or
    has changed. An owner's feed names no other person and no tree of another, and links nowhere:
    the pages are the keeper's. `kept`: what an earlier run of this process left. Raises ValueError
    where two different follow-ups have one id.
    """
    last_run = LastRun.kept_in(kept)
    run = last_run.begun(remembered)
    writer = FeedWriter(shown, grounds, today, settings, remembered, kept, run)
    last = {_eyes(feed): feed for feed in feeds}
    last_whole = {_eyes(feed): feed for feed in feeds if not feed.near}
    for feed in feeds:
        yield feed.path, writer.feed(feed)
        if last[_eyes(feed)] is feed:
            writer.let_go(feed)
        elif last_whole.get(_eyes(feed)) is feed:
            writer.let_go_of_far(feed)
    for gone in ended:
        yield gone.path, writer.ended(gone)
    still = {
        key: remembered[key]
        for key in remembered.keys() - writer.revisions.keys()
        if worth_keeping(remembered[key], today)
    }
    left = still | writer.revisions
    last_run.ended(run, left)
    return left


class _FeedLine(NamedTuple):
    """An entry as it stands in a feed, and what it is sorted by: its first day and its UID, as one
    text, which thousands are sorted by in no time."""

    order: str
    uid: str
    lines: bytes


class EntriesOfTree(NamedTuple):
    """The entries of a tree, the digest of each, what its revision is remembered by, and the kind
    of its work."""

    entries: list[CalendarEntry]
    digests: list[str]
    names: list[str]
    works: list[str]
    near: list[bool]
    weeks: list[WeekWork]


class _OfTree(NamedTuple):
    """What stands in feeds of one tree: all of it, what is near, and that by the kind of work; the
    revisions; and its open works, from which weeks are made."""

    lines: list[_FeedLine]
    near: list[_FeedLine]
    by_work: dict[str, list[_FeedLine]]
    revisions: dict[str, Revision]
    weeks: list[WeekWork]


# What entries are sorted by.
_order = itemgetter(0)


def _eyes(feed: Feed) -> tuple[bool, str]:
    """Whether a feed's entries are tasks, and whose eyes they are for."""
    return feed.tasks, feed.owner


# A tree, whether its entries are tasks, and whose eyes they are for.
EntriesSlot = tuple[str, bool, str]


class FeedWriter:
    """Writes each tree's entries once for all the feeds that show them to the same eyes."""

    def __init__(
        self,
        shown: Shown,
        grounds: Grounds,
        today: date,
        settings: Settings,
        remembered: Revisions,
        kept: Memo,
        run: FeedsRun | None = None,
        around: AroundFeeds | None = None,
    ) -> None:
        """`around`: what another writer of this run was given."""
        self._run = run or FeedsRun()
        self._shown, self._grounds, self._settings = shown, grounds, settings
        self._today, self._remembered, self._kept = today, remembered, kept
        around = around or AroundFeeds(grounds, settings)
        self._around = Identical(kept.same("around entries", around.inputs))
        self.revisions: dict[str, Revision] = {}
        self._told = ToldWorks(grounds, today)
        # By the eyes that feeds are for: what these read of each tree.
        self._read: dict[tuple[bool, str], dict[str, _OfTree]] = {}
        # Feeds by work are of all trees: so the same for each, by whether they are tasks.
        self._works: dict[bool, dict[str, list[Sequence[_FeedLine]]]] = {}
        self._audience = cache(lambda owner: Audience(eyes_of(owner), grounds, around.names))

    def feed(self, feed: Feed) -> bytes:
        """The bytes of a feed."""
        base_url = "" if feed.owner else self._settings.base_url
        if feed.weeks:
            return _feed_written(feed, base_url, self._weeks(feed))
        lists = self._lists(feed)
        inputs = (feed.name, feed.description, base_url, Identical(*lists))

        def written() -> bytes:
            in_order = sorted(chain.from_iterable(lists), key=_order)
            return _feed_written(feed, base_url, in_order)

        return self._kept.once(("feed", feed.path), inputs, written)

    def let_go(self, feed: Feed) -> None:
        """Let go of what was read for the eyes of a feed, the last that is for them."""
        self._read.pop(_eyes(feed), None)
        if not feed.owner:
            self._works.pop(feed.tasks, None)

    def let_go_of_far(self, feed: Feed) -> None:
        """Keep only what is near of what was read for the eyes of a feed, the last of those for
        them that shows all."""
        read = self._read.get(_eyes(feed), {})
        for handle, one in read.items():
            read[handle] = _OfTree(one.near, one.near, one.by_work, one.revisions, [])

    def ended(self, gone: EndedFeed) -> bytes:
        """The bytes of a feed that ended."""
        feed = Feed(
            gone.path,
            phrase("Ended: {name}", name=gone.name),
            phrase("This calendar has ended."),
            (),
        )
        base_url = "" if is_of_owner(gone) else self._settings.base_url
        entry = entry_of_ended(gone, self._settings)
        lines = [self._with_revision(entry, digest_of(entry.content))]
        return _feed_written(feed, base_url, lines)

    def _joint(self, joint: WeekEntry) -> _FeedLine:
        """The entry of works that stand together."""
        inputs = (self._settings, joint)

        def made() -> tuple[CalendarEntry, str]:
            entry = joint_event_of(joint, self._settings)
            return entry, digest_of(entry.content)

        return self._with_revision(*self._kept.once(("joint", joint.name), inputs, made))

    def _with_revision(self, entry: CalendarEntry, digest: str) -> _FeedLine:
        revision = revised_to(self._remembered.get(entry.uid), digest, self._today)
        self.revisions[entry.uid] = revision
        return _feed_line(entry, revision)

    def _weeks(self, feed: Feed) -> Sequence[_FeedLine]:
        """The keeper's weeks: an entry of a tree where a work stands alone, else joint ones."""
        read = self._trees_read(feed)
        here = sum(tree.here for tree in self._grounds.trees.values())
        every = [read[handle] for handle in feed.trees]
        inputs = (Identical(*(one.weeks for one in every)), here, self._today)
        works = chain.from_iterable(one.weeks for one in every)
        view = self._kept.once(
            "weeks", inputs, partial(weeks_view, works, here, self._today, self._kept)
        )
        alone = {uid_of(ident, self._settings.journal_id) for ident in view.alone}
        lines = [line for one in every for line in one.lines if line.uid in alone]
        lines += map(self._joint, view.together)
        return sorted(lines)

    def _lists(self, feed: Feed) -> Sequence[Sequence[_FeedLine]]:
        """The entries of each tree in a feed, where there are any."""
        if feed.work:
            return self._by_work(feed).get(feed.work, ())
        read = self._trees_read(feed)
        found = (read[handle] for handle in feed.trees)
        return [lines for one in found if (lines := one.near if feed.near else one.lines)]

    def _by_work(self, feed: Feed) -> Mapping[str, Sequence[Sequence[_FeedLine]]]:
        """For each kind of work the entries of each tree of a feed."""
        known = self._works.get(feed.tasks)
        if known is None:
            known = self._works[feed.tasks] = {}
            read = self._trees_read(feed)
            for handle in feed.trees:
                for work, lines in read[handle].by_work.items():
                    known.setdefault(work, []).append(lines)
        return known

    def _trees_read(self, feed: Feed) -> Mapping[str, _OfTree]:
        """What the eyes that a feed is for read of its trees, and of others."""
        read = self._read.setdefault(_eyes(feed), {})
        for handle in feed.trees:
            if handle not in read:
                read[handle] = self._read_first((handle, feed.tasks, feed.owner))
        return read

    def _read_first(self, slot: EntriesSlot) -> _OfTree:
        made = self._stamped(slot)
        count = len(self.revisions) + len(made.revisions)
        self.revisions.update(made.revisions)
        if len(self.revisions) < count:
            ids = ({follow_up.id for follow_up in those} for those in self._shown.values())
            raise _one_id(Counter(chain.from_iterable(ids)).most_common(1)[0][0])
        return made

    def _stamped(self, slot: EntriesSlot) -> _OfTree:
        entries = self.entries(slot)
        before = RevisionsBefore(self._run, entries.names, self._remembered)
        inputs = (Identical(entries), before, self._today)
        made = partial(_stamped, entries, before, self._today)
        return self._kept.once(("stamped", slot), inputs, made)

    def entries(self, slot: EntriesSlot) -> EntriesOfTree:
        """The entries of a tree for these eyes, with no revisions."""
        handle, tasks, owner = slot
        follow_ups = self._shown.get(handle, ())
        return self._kept.once(
            ("entries", slot),
            (self._around, Identical(self._grounds.trees[handle], follow_ups)),
            partial(self._entries, handle, follow_ups, tasks, owner),
        )

    def _entries(
        self, handle: str, follow_ups: Iterable[FollowUp], tasks: bool, owner: str
    ) -> EntriesOfTree:
        by_id: dict[str, FollowUp] = {}
        for one in follow_ups:
            if by_id.setdefault(one.id, one) != one:
                raise _one_id(one.id)
        tree = self._grounds.trees[handle]
        shown = [one for one in by_id.values() if not tasks or self._is_task(one)]
        works = self._told.of(handle, shown)
        settings = replace(self._settings, base_url="") if owner else self._settings
        audience: Audience = self._audience(owner)
        laid_out = task_of if tasks else event_of
        told = ((audience.work(work), by_id[work.id]) for work in works)
        read = [(work, one) for work, one in told if work is not None]
        entries = [laid_out(work, settings) for work, _ in read]
        return EntriesOfTree(
            entries,
            [digest_of(entry.content) for entry in entries],
            [key_of(entry.uid, owner) for entry in entries],
            [one.row.work for _, one in read],
            [work.opens <= self._today + AHEAD for work, _ in read],
            []
            if tasks or owner
            else [week_work(one, work, tree, self._grounds) for work, one in read if work.is_open],
        )

    def _is_task(self, one: FollowUp) -> bool:
        """What must be done is a task; what may be done is one while it can be done."""
        return one.weight.must or one.promised or one.state(self._today) != "coming"


def _one_id(ident: str) -> ValueError:
    return ValueError(f"two different follow-ups have the id {ident}")


def _stamped(entries: EntriesOfTree, before: RevisionsBefore, today: date) -> _OfTree:
    """Each entry with its revision, in the order of feeds."""
    revisions = [revised_to(old, digest, today)
                 for old, digest in zip(before.found, entries.digests, strict=True)]  # fmt: skip
    before.became(revisions)
    lines = [
        (_feed_line(entry, revision), work, near)
        for entry, revision, work, near in zip(
            entries.entries, revisions, entries.works, entries.near, strict=True
        )
    ]
    lines.sort()
    by_work: dict[str, list[_FeedLine]] = {}
    for line, work, is_near in lines:
        if is_near:
            by_work.setdefault(work, []).append(line)
    named = dict(zip(entries.names, revisions, strict=True))
    near = [line for line, _, is_near in lines if is_near]
    return _OfTree([line for line, *_ in lines], near, by_work, named, entries.weeks)


def _feed_line(entry: CalendarEntry, revision: Revision) -> _FeedLine:
    return _FeedLine(f"{entry.start} {entry.uid}", entry.uid, stamped(entry.content, revision))


def _feed_written(feed: Feed, base_url: str, lines: Sequence[_FeedLine]) -> bytes:
    shown = [line.lines for line in lines] or [_NOTHING]
    return b"".join([*_head(feed, base_url), *shown, content_line("END", "VCALENDAR")])


def _head(feed: Feed, base_url: str) -> Iterator[bytes]:
    """The lines of a feed before its entries."""
    yield content_line("BEGIN", "VCALENDAR")
    yield content_line("VERSION", "2.0")
    yield content_line("PRODID", PRODUCT)
    yield content_line("CALSCALE", "GREGORIAN")
    yield text_line("NAME", one_line(feed.name))
    yield text_line("DESCRIPTION", one_line(feed.description))
    yield content_line("COLOR", _COLOURS[crc32(feed.path.encode()) % len(_COLOURS)])
    yield content_line("REFRESH-INTERVAL;VALUE=DURATION", hours_value(_REFRESH))
    if base_url:
        yield content_line("SOURCE;VALUE=URI", url_of(base_url, feed.path))


# What stands in a feed that shows nothing, since one component must (RFC 5545 §3.6): people see
# nothing of it, and the subscription stays.
_NOTHING = b"".join(
    content_line(*line.split(":", 1))
    for line in """\
BEGIN:VTIMEZONE
TZID:Etc/UTC
BEGIN:STANDARD
DTSTART:19700101T000000
TZOFFSETFROM:+0000
TZOFFSETTO:+0000
END:STANDARD
END:VTIMEZONE""".splitlines()
)
