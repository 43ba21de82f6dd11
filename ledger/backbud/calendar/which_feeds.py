"""Decides which feeds there are, and which follow-ups stand in them at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial

from msgspec import Struct

from backbud.calendar.works import OTHER, WORKS, WorkKind
from backbud.collection.stand import UNKNOWN_OWNER
from backbud.journal.settings import Settled
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.pages.links import ALL_TASKS, EVERYTHING, FEEDS, feed_path
from backbud.plan.followups import FollowUp
from backbud.plan.laid_plans import once_asked
from backbud.tongue import phrase
from backbud.views.grounds import Grounds

# What is done with stays so long in calendars that are to keep it.
KEPT = timedelta(days=365)
# A feed of many trees shows what can be done by now, or within so long: a season.
AHEAD = timedelta(weeks=13)


class Feed(Struct, frozen=True):
    """One calendar to subscribe to: its path in the output and the trees whose work it shows.

    `work`: it shows this kind of work alone; "" for all. `owner`: whose eyes it is for; "" for the
    keeper's. `tasks`: it holds tasks, else events. `weeks`: the works of a week are put together.
    `near`: it shows what can be done within a season; what is further off stands with its tree.
    """

    path: str
    name: str
    description: str
    trees: tuple[str, ...]
    work: str = ""
    owner: str = ""
    tasks: bool = False
    weeks: bool = False
    near: bool = False


# The works that feeds show, by the handle of their tree.
Shown = Mapping[str, Sequence[FollowUp]]


def shown_in_feeds(
    plans: Shown, today: date, settled: Settled = "leave", kept: Memo = NO_MEMO
) -> Shown:
    """Return what of each tree's follow-ups stands in feeds.

    What has lapsed on `today` is left out, and so is what is done or skipped, unless `settled`
    keeps it. `kept`: what an earlier run of this process left.
    """
    return {
        handle: kept.once(
            ("in feeds", handle),
            (Identical(plan), today, settled),
            partial(once_asked, plan, partial(_shown, today, settled)),
        )
        for handle, plan in plans.items()
    }


def _shown(today: date, settled: Settled, plan: Iterable[FollowUp]) -> Sequence[FollowUp]:
    return tuple(follow_up for follow_up in plan if _is_shown(follow_up, today, settled))


def _is_shown(follow_up: FollowUp, today: date, settled: Settled) -> bool:
    if follow_up.outcome in ("done", "skipped"):
        by = follow_up.settled
        return settled == "completed" and by is not None and today - by.day <= KEPT
    return follow_up.is_open(today)


def feeds_of(shown: Shown, grounds: Grounds, kept: Memo = NO_MEMO) -> tuple[Feed, ...]:
    """Return every feed: the keeper's weeks, then the works one by one, then all tasks, once.

    Every tree, place, owner and kind of work has its feed, with work or without, so that who
    subscribes sees that nothing is left to do; what is of no kind has one where there is any. A
    path has the thing's first handle, so that it stays when the thing is renamed. `kept`: as above.
    """
    has_other = any(is_of_no_kind(handle, shown, kept) for handle in shown)
    every = tuple(grounds.trees)
    return (
        Feed(
            EVERYTHING,
            phrase("All trees"),
            phrase("What is to be done in each week."),
            every,
            weeks=True,
        ),
        *_by_tree(grounds),
        *_by_place(grounds),
        *_by_owner(grounds),
        *_by_work(grounds, (*WORKS, OTHER) if has_other else WORKS),
        Feed(
            ALL_TASKS,
            phrase("All trees, tasks"),
            phrase("What is to be ticked off."),
            every,
            tasks=True,
        ),
    )


def is_of_no_kind(handle: str, shown: Shown, kept: Memo) -> bool:
    """Whether a work of a tree that feeds show is of no kind."""
    those = shown[handle]

    def found() -> bool:
        return any(one.row.work == OTHER.name for one in those)

    return kept.once(("of no kind", handle), (Identical(those),), found)


def _by_tree(grounds: Grounds) -> Iterator[Feed]:
    for handle, tree in grounds.trees.items():
        yield Feed(
            feed_path("trees", tree.first_handle),
            tree.title,
            phrase(
                "What falls due on {filter}.",
                filter=", ".join(filter(None, (tree.title, tree.kind))),
            ),
            (handle,),
        )


def _by_place(grounds: Grounds) -> Iterator[Feed]:
    """Each place with the places within it, by where the trees stand now."""
    for place, inside in grounds.inside.items():
        name = grounds.name_of(place)
        yield Feed(
            feed_path("places", grounds.first_handles.get(place, place)),
            name,
            phrase("What falls due on the trees in {name}.", name=name),
            tuple(
                handle
                for handle, tree in grounds.trees.items()
                if tree.place in inside and tree.standing not in ("died", "lost")
            ),
            near=True,
        )


def _by_owner(grounds: Grounds) -> Iterator[Feed]:
    """The keeper's own trees, for the keeper; and each owner's, for that owner.

    A tree of which nobody can tell whose it is stands in neither.
    """
    of_owner: dict[str, list[str]] = {"": []}
    for handle, tree in grounds.trees.items():
        of_owner.setdefault(grounds.owner_of(tree), []).append(handle)
    about = phrase("What falls due on the keeper's own trees.")
    yield Feed(f"{FEEDS}own.ics", phrase("Own trees"), about, tuple(of_owner.pop("")), near=True)
    of_owner.pop(UNKNOWN_OWNER, None)
    for owner, trees in of_owner.items():
        name = grounds.name_of(owner)
        yield Feed(
            feed_path("owners", grounds.first_handles.get(owner, owner)),
            phrase("Trees of {name}", name=name),
            phrase("What falls due on the trees of {name}.", name=name),
            tuple(trees),
            owner=owner,
        )


def _by_work(grounds: Grounds, works: Iterable[WorkKind]) -> Iterator[Feed]:
    for work in works:
        about = phrase("{title} that falls due, on every tree.", title=phrase(work.title))
        path = feed_path("works", work.name)
        yield Feed(path, phrase(work.title), about, tuple(grounds.trees), work=work.name, near=True)
