"""What wants a yes before a server is written to, and how it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from backbud.subscribe.changes import Ours, ServerChanges
from backbud.subscribe.errors import NotAgreed
from backbud.subscribe.losses import SHARE, Explained, Gone, unexplained
from backbud.subscribe.server import Collection
from backbud.words import number

# Of what is asked about, so many are named.
_NAMED = 10
# Shows lines, asks a question, and returns whether the answer was yes.
Ask = Callable[[Sequence[str], str], bool]


class CalendarChanges(Struct, frozen=True):
    """What is to become of one calendar; `collection`: None where it is to be made."""

    slug: str
    title: str
    sort: str
    ours: Mapping[str, Ours]
    todo: ServerChanges
    collection: Collection | None


def without_removals(part: CalendarChanges) -> CalendarChanges:
    """The same, but all that stands there stays."""
    return replace(part, todo=part.todo._replace(remove=()))


def ask_first(
    parts: Sequence[CalendarChanges], explained: Callable[[], Explained], ask: Ask, adopt: bool
) -> None:
    """Raise NotAgreed unless all that wants a yes has one."""
    taken = [title for part in parts for title in part.todo.taken] if adopt else []
    if taken:
        what = number(len(taken), "entry", "entries")
        lines = [
            f"{what} there {'bears' if len(taken) == 1 else 'bear'} no mark of yours, but "
            f"{'looks' if len(taken) == 1 else 'look'} like this journal's:",
            *first_few(taken),
        ]
        if not ask(lines, "Take them over, to change and remove them from now on?"):
            raise NotAgreed("Nothing was taken over and nothing was written.")
    losing = [(part, lost) for part in parts if (lost := _lost(part, explained))]
    if losing:
        lines = []
        for part, lost in losing:
            lines.append(
                f"{part.title}: {len(lost)} of {part.todo.of_ours} entries would go, and nothing "
                "in the journal says why. Is a file missing or cut short?"
            )
            lines += first_few([one.title for one in lost])
        if not ask(lines, "Take them out all the same?"):
            raise NotAgreed("Nothing was written.")


def _lost(part: CalendarChanges, explained: Callable[[], Explained]) -> tuple[Gone, ...]:
    """What goes without a reason, where it is more than a fifth of the calendar."""
    gone = [one.gone for one in part.todo.remove if not one.copy]
    # Fewer are never too many, and to plan anew takes a while.
    if SHARE * len(gone) <= part.todo.of_ours:
        return ()
    new = [one.uid for one in part.todo.write if one.over is None]
    lost = unexplained(gone, new, explained())
    return lost if SHARE * len(lost) > part.todo.of_ours else ()


def first_few(titles: Sequence[str]) -> Iterator[str]:
    """The first few, and how many more."""
    yield from (f"  {title}" for title in titles[:_NAMED])
    if len(titles) > _NAMED:
        yield f"  … and {len(titles) - _NAMED} more"
