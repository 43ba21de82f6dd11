"""Says each reason and each caution of a page's works once, and later points to it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from backbud import words
from backbud.plan.followups import Reason
from backbud.tongue import phrase
from backbud.views.work import WorkView

# A sentence of fewer letters is sooner read than looked for; about a line on a phone. Ours.
_SHORT = 48


class Care(Struct, frozen=True, gc=False):
    """A caution that is told here; `number`: what others call it by, 0 where none does."""

    number: int
    text: str


class Cautioned(Struct, frozen=True, gc=False):
    """The cautions of a work: those that are `told` with it, and the numbers of those that stand
    `above`, with an earlier one."""

    told: tuple[Care, ...]
    above: tuple[int, ...]


def reasons_once(works: Iterable[WorkView]) -> Iterator[tuple[Reason, ...]]:
    """The reasons of each work in turn. For a sentence that stands with an earlier one already, it
    says with which, but for a short one."""
    with_work: dict[str, WorkView] = {}
    for work in works:
        yield tuple([_pointed(reason, with_work, work) for reason in work.reasons])


def _pointed(reason: Reason, with_work: dict[str, WorkView], work: WorkView) -> Reason:
    first = with_work.setdefault(reason.text, work)
    if first is work or len(reason.text) < _SHORT:
        return reason
    title = words.sentence(first.title)
    return replace(reason, text=phrase("as for “{work}” above", work=title))


def cautions_once(works: Sequence[WorkView]) -> Iterator[Cautioned]:
    """The cautions of each work in turn. Those of several works are numbered, in their order."""
    count: dict[str, int] = {}
    for work in works:
        for text in dict.fromkeys(work.cautions):
            count[text] = count.get(text, 0) + 1
    numbers: dict[str, int] = {}
    for work in works:
        told: list[Care] = []
        above: list[int] = []
        for text in dict.fromkeys(work.cautions):
            if text in numbers:
                above.append(numbers[text])
            elif count[text] > 1:
                numbers[text] = len(numbers) + 1
                told.append(Care(numbers[text], text))
            else:
                told.append(Care(0, text))
        yield Cautioned(tuple(told), tuple(sorted(above)))
