"""Follow-ups and their trees go in; iCalendar feeds (RFC 5545, RFC 7986) come out as bytes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from functools import cache, partial
from itertools import groupby
from typing import NamedTuple, TypeVar
from zlib import crc32

from msgspec import Struct
from msgspec.structs import replace

from backbud.calendar.entries import CalendarEntry, event_of, task_of, url_of
from backbud.calendar.grounds import Grounds
from backbud.calendar.lines import content_line, hours_value, one_line, text_line
from backbud.calendar.owners import Others
from backbud.calendar.revisions import (
    Revision,
    Revisions,
    digest_of,
    key_of,
    published_revisions,
    revised_to,
    stamped,
    worth_keeping,
)
from backbud.calendar.works import WORKS, work_of
from backbud.journal.settings import Settings, Settled
from backbud.kept import KEEP_NOTHING, Each, Is, Kept
from backbud.pages.links import tree_page
from backbud.plan.followups import FollowUp

FOLDER, TASKS = "calendars/", "tasks/"
EVERYTHING = f"{FOLDER}all.ics"
# What is done with stays so long in calendars that are to keep it.
KEPT = timedelta(days=365)
PRODUCT = "-//backbud//backbud//EN"
_REFRESH = timedelta(hours=12)
# Dark enough to read on white; names that CSS has had since its first level.
_COLOURS = ("green", "teal", "navy", "purple", "maroon", "olive")
Key = TypeVar("Key")


class Feed(Struct, frozen=True):
    """One calendar to subscribe to: its path in the output and the follow-ups it shows.

    `owner`: whose eyes it is for; "" for the keeper's. `tasks`: it holds tasks, else events.
    """

    path: str
    name: str
    description: str
    follow_ups: tuple[FollowUp, ...]
    owner: str = ""
    tasks: bool = False


def feeds_of(
    follow_ups: Iterable[FollowUp], grounds: Grounds, today: date, settled: Settled = "leave"
) -> tuple[Feed, ...]:
    """Return every feed with its follow-ups, and after them the same again as tasks.

    What has lapsed on `today` is left out, and so is what is done or skipped, unless `settled`
    keeps it. Every tree, place, owner and kind of work has its feed, with work or without, so that
    who subscribes sees that nothing is left to do. A path has the thing's first handle, so that it
    stays when the thing is renamed.
    """
    shown = tuple(f for f in follow_ups if _is_shown(f, today, settled))
    events = [feed for sort in SORTS for feed in sort(shown, grounds)]
    return (*events, *map(_as_tasks, events))


def _is_shown(follow_up: FollowUp, today: date, settled: Settled) -> bool:
    state = follow_up.state(today)
    if state in ("done", "skipped"):
        by = follow_up.settled
        return settled == "completed" and by is not None and today - by.day <= KEPT
    return state in ("overdue", "now", "coming")


def _as_tasks(feed: Feed) -> Feed:
    path = f"{FOLDER}{TASKS}{feed.path.removeprefix(FOLDER)}"
    return replace(feed, path=path, name=f"{feed.name}, tasks", tasks=True)


# ------------------------------------------------------------------ which feeds there are


def _everything(follow_ups: tuple[FollowUp, ...], grounds: Grounds) -> Iterator[Feed]:
    yield Feed(EVERYTHING, "All trees", "What falls due on every tree.", follow_ups)


def _by_tree(follow_ups: tuple[FollowUp, ...], grounds: Grounds) -> Iterator[Feed]:
    of_tree = _grouped(follow_ups, lambda f: f.tree)
    for handle, tree in grounds.trees.items():
        yield Feed(
            _path("trees", tree.first_handle),
            tree.title,
            f"What falls due on {', '.join(filter(None, (tree.title, tree.kind)))}.",
            of_tree.get(handle, ()),
        )


def _by_place(follow_ups: tuple[FollowUp, ...], grounds: Grounds) -> Iterator[Feed]:
    """Each place with the places within it, by where the trees stand now."""
    trees = grounds.trees
    for place, inside in grounds.inside.items():
        name = grounds.name_of(place)
        here = {handle for handle, tree in trees.items() if tree.place in inside}
        yield Feed(
            _path("places", grounds.first_handles.get(place, place)),
            name,
            f"What falls due on the trees in {name}.",
            tuple([f for f in follow_ups if f.tree in here]),
        )


def _by_owner(follow_ups: tuple[FollowUp, ...], grounds: Grounds) -> Iterator[Feed]:
    """The keeper's own trees, for the keeper; and each owner's, for that owner."""
    of_owner = _grouped(follow_ups, lambda f: grounds.owner_of(grounds.trees[f.tree]))
    about = "What falls due on the keeper's own trees."
    yield Feed(f"{FOLDER}own.ics", "Own trees", about, of_owner.get("", ()))
    for owner in dict.fromkeys(map(grounds.owner_of, grounds.trees.values())):
        if owner:
            name = grounds.name_of(owner)
            yield Feed(
                _path("owners", grounds.first_handles.get(owner, owner)),
                f"Trees of {name}",
                f"What falls due on the trees of {name}.",
                of_owner.get(owner, ()),
                owner,
            )


def _by_work(follow_ups: tuple[FollowUp, ...], grounds: Grounds) -> Iterator[Feed]:
    of_work = _grouped(follow_ups, lambda f: work_of(f.act))
    for work in dict.fromkeys((*WORKS, *of_work)):
        about = f"{work.title} that falls due, on every tree."
        yield Feed(_path("works", work.name), work.title, about, of_work.get(work, ()))


def _path(folder: str, handle: str) -> str:
    # Pages are named so that any system can keep them.
    name = tree_page(handle).removeprefix("trees/").removesuffix(".html")
    return f"{FOLDER}{folder}/{name}.ics"


def _grouped(
    follow_ups: Iterable[FollowUp], key: Callable[[FollowUp], Key]
) -> dict[Key, tuple[FollowUp, ...]]:
    groups: dict[Key, list[FollowUp]] = {}
    for follow_up in follow_ups:
        groups.setdefault(key(follow_up), []).append(follow_up)
    return {name: tuple(group) for name, group in groups.items()}


# Every sort of feed; another sort is one more function here.
Sort = Callable[[tuple[FollowUp, ...], Grounds], Iterator[Feed]]
SORTS: tuple[Sort, ...] = (_everything, _by_tree, _by_place, _by_owner, _by_work)


# ------------------------------------------------------------------ their bytes


def write_feeds(
    feeds: Sequence[Feed],
    grounds: Grounds,
    today: date,
    settings: Settings,
    remembered: Revisions,
    kept: Kept = KEEP_NOTHING,
) -> tuple[dict[str, bytes], Revisions]:
    """Return each feed's bytes by its path, and the revisions to remember for the next run.

    `today` only enters the revision of an entry that is new or has changed. An owner's feed names
    no other person and no tree of another, and links nowhere: the pages are the keeper's.
    `kept`: what an earlier run of this process left. Raises ValueError where two different
    follow-ups have one id.
    """
    writer = _Writer(grounds, today, settings, remembered, kept)
    files = {feed.path: writer.feed(feed) for feed in feeds}
    still = {
        key: old
        for key, old in remembered.items()
        if key not in writer.revisions and worth_keeping(old, today)
    }
    return files, still | writer.revisions


class _Shown(NamedTuple):
    """An entry as it stands in a feed. `at`: its place among others, by its first day and UID."""

    at: tuple[date, str]
    lines: bytes


class _Entries(NamedTuple):
    """The entries of a tree, the digest of each, and what its revision is remembered by."""

    entries: list[CalendarEntry]
    digests: list[str]
    names: list[str]


class _Eyes:
    """What the same eyes read in feeds of one sort: each entry, by the follow-up's id, and by
    which very follow-up it is."""

    def __init__(self) -> None:
        self.by_id: dict[str, tuple[FollowUp, _Shown]] = {}
        self.by_object: dict[int, _Shown] = {}

    def read(self, follow_ups: Iterable[FollowUp]) -> list[_Shown]:
        """The entries of these follow-ups; KeyError where one of them was not written yet."""
        return list(map(self.by_object.__getitem__, map(id, follow_ups)))


class _Writer:
    """Writes each entry once for all the feeds that show it to the same eyes."""

    def __init__(
        self,
        grounds: Grounds,
        today: date,
        settings: Settings,
        remembered: Revisions,
        kept: Kept,
    ) -> None:
        self._kept = kept
        # All that an entry is made from beside its own follow-up and tree.
        trees = [(tree.handle, tree.first_handle, tree.title, tree.owner)
                 for tree in grounds.trees.values()]  # fmt: skip
        around = (settings, trees, replace(grounds, trees={}))
        self._around = Is(kept.once("around entries", around, object))
        self.grounds, self.today, self.settings = grounds, today, settings
        self.remembered = remembered
        self.revisions: dict[str, Revision] = {}
        self._eyes: dict[tuple[bool, str], _Eyes] = {}
        self._others = cache(lambda owner: Others(owner, grounds))

    def feed(self, feed: Feed) -> bytes:
        eyes = self._eyes.setdefault((feed.tasks, feed.owner), _Eyes())
        try:
            found = eyes.read(feed.follow_ups)
        except KeyError:
            new = [f for f in feed.follow_ups if id(f) not in eyes.by_object]
            for handle, follow_ups in groupby(new, lambda f: f.tree):
                self._show(handle, tuple(follow_ups), feed, eyes)
            found = eyes.read(feed.follow_ups)
        base_url = "" if feed.owner else self.settings.base_url

        def written() -> bytes:
            once = {id(one): one for one in found}.values()
            in_order = sorted(once, key=lambda one: one.at)
            shown = [one.lines for one in in_order] or [_NOTHING]
            return b"".join([*_head(feed, base_url), *shown, content_line("END", "VCALENDAR")])

        inputs = (feed.name, feed.description, base_url, found)
        return self._kept.once(("feed", feed.path), inputs, written)

    def _show(self, handle: str, follow_ups: tuple[FollowUp, ...], feed: Feed, eyes: _Eyes) -> None:
        """Write the entries of a tree that these eyes have not read yet."""
        inputs = (self._around, Is(self.grounds.trees[handle]), Each(follow_ups))
        slot = ("entries", handle, feed.tasks, feed.owner)
        entries = self._kept.once(slot, inputs, partial(self._entries, follow_ups, feed))
        before = [self.remembered.get(name) for name in entries.names]
        revisions, shown = self._kept.once(
            ("shown", *slot),
            (Is(entries), before, self.today),
            partial(_stamped, entries, before, self.today),
        )
        self.revisions.update(zip(entries.names, revisions, strict=True))
        for follow_up, one in zip(follow_ups, shown, strict=True):
            known, same = eyes.by_id.setdefault(follow_up.id, (follow_up, one))
            if known is not follow_up and known != follow_up:
                raise ValueError(f"two different follow-ups have the id {follow_up.id}")
            eyes.by_object[id(follow_up)] = same

    def _entries(self, follow_ups: tuple[FollowUp, ...], feed: Feed) -> _Entries:
        entries = [self._written(follow_up, feed) for follow_up in follow_ups]
        return _Entries(
            entries,
            [digest_of(entry.content) for entry in entries],
            [key_of(entry.uid, feed.owner) for entry in entries],
        )

    def _written(self, follow_up: FollowUp, feed: Feed) -> CalendarEntry:
        tree, settings = self.grounds.trees[follow_up.tree], self.settings
        place = self.grounds.name_of(tree.place)
        if feed.owner:
            others: Others = self._others(feed.owner)
            follow_up = others.left_out(follow_up)
            place = "" if others.named_in(place) else place
            settings = replace(settings, base_url="")
        return (task_of if feed.tasks else event_of)(follow_up, tree, place, settings)


def _stamped(
    entries: _Entries, before: Iterable[Revision | None], today: date
) -> tuple[list[Revision], list[_Shown]]:
    """Each entry with its revision."""
    revisions = [revised_to(old, digest, today)
                 for old, digest in zip(before, entries.digests, strict=True)]  # fmt: skip
    shown = [
        _Shown((entry.start, entry.uid), stamped(entry.content, revision))
        for entry, revision in zip(entries.entries, revisions, strict=True)
    ]
    return revisions, shown


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


def published(feeds: Iterable[Feed], read: Callable[[str], bytes]) -> Revisions:
    """Return the revisions that the feeds of the last run carry, where what was remembered is lost.

    `read`: the bytes of a file of the output, b"" where there is none.
    """
    found: dict[str, Revision] = {}
    for feed in feeds:
        if feed.owner or feed.path.removeprefix(FOLDER) in ("all.ics", f"{TASKS}all.ics"):
            found |= published_revisions(read(feed.path), feed.owner)
    return found
