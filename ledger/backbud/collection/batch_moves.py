"""Says what a line makes of a batch: how many come, come up, take root, go or are parted off."""

from __future__ import annotations

from typing import NamedTuple

from msgspec.structs import replace

from backbud.collection.batch import (
    ARRIVALS,
    CONTAINERS,
    GOINGS,
    RAISED,
    SEED,
    Batch,
    Misfit,
    begun,
    come,
    in_all,
    no_bare_price,
    no_more_than,
    noun_of,
    number_in,
    number_told,
    of_one_tree,
    same_as_were,
    says_how_many,
)
from backbud.journal.events import Event


class Step(NamedTuple):
    """What a line makes of a batch. `of`: to how many of it the line was done; None: to all."""

    batch: Batch | None
    of: int | None = None


def moved(batch: Batch | None, event: Event, *, here: bool, one_tree: bool) -> Step:
    """What a line makes of what stands under a handle; Misfit where its number cannot be.

    `here`: it stood here before the line. `one_tree`: its card tells of one tree alone.
    """
    act = event.act
    if act in RAISED and (here or event.has("as")):
        # Cuttings were taken of it, or seed: it stays what it is.
        return Step(batch)
    if act in ARRIVALS:
        return _arrived(batch, event, here=here, one_tree=one_tree)
    if act == "counted":
        return _counted(batch, event, one_tree=one_tree)
    if batch is None:
        if says_how_many(event):
            raise of_one_tree(event)
        return Step(None)
    if act == "germinated":
        return _germinated(batch, event)
    if act == "rooted":
        return _rooted(batch, event)
    if act == "parted-off":
        return _parted(batch, event)
    if act in GOINGS:
        return _gone(batch, event, here=here)
    return _potted(batch, event) if "potting" in event.row.traits else Step(batch)


def _arrived(batch: Batch | None, event: Event, *, here: bool, one_tree: bool) -> Step:
    if not here:
        # What came without a number is as many as its card says, or as went.
        new = None if one_tree else begun(event)
        if new is None and batch is not None and not one_tree and event.has("quantity"):
            raise _one_of_several(batch, event)
        return Step(new if batch is None or event.has("quantity") else batch)
    if not event.has("quantity"):
        return Step(batch)
    if batch is None and not one_tree and begun(event) is None:
        return Step(None)
    new = come(event)
    if batch is None or one_tree or new is None or new.count is None:
        raise of_one_tree(event)
    if batch.count is None:
        raise _never_counted(new.count)
    if batch.in_containers != new.in_containers or (batch.in_containers and batch.of != new.of):
        raise Misfit(
            f"there are {batch.said}, and {new.said} cannot be added to them",
            f"Give what came a handle of its own, or count it in {batch.of}.",
        )
    return Step(replace(batch, count=batch.count + new.count))


def _one_of_several(batch: Batch, event: Event) -> Misfit:
    """That one came under a handle of which its card, or what went, says that it is a batch."""
    quantity = event.first("quantity")
    said = str(quantity.measure) if quantity is not None else ""
    return Misfit(
        f"its card, or a line before, says {batch.said or 'that it is a batch'}, and one is one "
        "tree",
        "Where one came and no more, write count 1 on its card; where one of several came back, "
        f"{event.act} alone and, below it, counted 1.",
        said,
    )


def _counted(batch: Batch | None, event: Event, *, one_tree: bool) -> Step:
    quantity = event.first("quantity")
    measure = quantity.measure if quantity is not None else None
    if quantity is None or measure is None or measure.sort != "number":
        raise Misfit("a batch is counted by the piece", "Write counted 38 seedlings.")
    if one_tree:
        raise of_one_tree(event)
    before, number = batch or Batch(None), number_in(quantity)
    of = noun_of(quantity) or before.of
    if before.count is not None and number > before.count and not _may_come_up(before, of):
        raise Misfit(
            f"{number} were counted, but there were only {before.said}",
            "Where more came, write that first: received 2; else mend the earlier number.",
            str(number),
        )
    up = max(before.up, number) if of == "seedlings" else before.up
    return Step(replace(before, count=number, of=of, up=up))


def _may_come_up(before: Batch, of: str) -> bool:
    """Whether there may be more of them than before: seed comes up, trays are filled."""
    return of == "seedlings" or before.in_containers or before.of in (*(SEED - {""}), "seedlings")


def _germinated(batch: Batch, event: Event) -> Step:
    """Seed becomes seedlings. Bare, it tells that the first are up, and counts nothing."""
    if not (batch.of in (*SEED, "seedlings") or batch.in_containers):
        raise Misfit(
            f"there {'is' if batch.count == 1 else 'are'} {batch.said or batch.of}, which came "
            "from no seed",
            "Where they took root, write rooted; where seed was sown beside them, give it a handle "
            "of its own.",
        )
    number = number_told(event, batch.count if batch.of in SEED and not batch.up else None, batch)
    if number is None:
        return Step(batch)
    up = in_all(number, batch.up or None, event, "had come up")
    if not batch.up:
        if batch.of in SEED and batch.count is not None and up > batch.count:
            raise Misfit(
                f"{up} came up, but only {batch.said} were sown", "Mend one of the two.", str(up)
            )
        return Step(replace(batch, count=up, of="seedlings", up=up))
    count = (batch.count or 0) + up - batch.up
    return Step(replace(batch, count=count, up=up))


def _rooted(batch: Batch, event: Event) -> Step:
    if not event.has("quantity") and not event.has("share"):
        count = None if batch.in_containers else batch.count
        return Step(replace(batch, rooted=count, rooted_on=event.day))
    number = number_told(event, None if batch.in_containers else batch.count, batch)
    if number is None:
        return Step(batch)
    rooted = in_all(number, batch.rooted, event, "had rooted")
    if not batch.in_containers:
        no_more_than(batch, rooted)
    return Step(replace(batch, rooted=rooted, rooted_on=event.day), number)


def _potted(batch: Batch, event: Event) -> Step:
    quantity = event.first("quantity")
    if quantity is None:
        count = None if batch.in_containers else batch.count
        all_of_it = replace(batch, potted_on=count, potted_on_day=event.day, at_least=False)
        return Step(all_of_it)
    number = number_in(quantity)
    if not batch.in_containers:
        no_more_than(batch, number)
    if number == batch.count and not batch.in_containers:
        return Step(replace(batch, potted_on=number, potted_on_day=event.day, at_least=False))
    before = batch.potted_on
    potted = replace(
        batch,
        potted_on=max(number, before or 0),
        potted_on_day=event.day,
        at_least=before is not None,
    )
    return Step(potted, number)


def _gone(batch: Batch, event: Event, *, here: bool) -> Step:
    quantity = event.first("quantity")
    if quantity is None:
        no_bare_price(batch, event)
        return Step(batch)
    number, of = number_in(quantity), noun_of(quantity)
    if not here:
        raise Misfit("none of them is here", "If they came back, write received first.")
    if batch.count is None:
        raise _never_counted(number)
    if batch.in_containers and of != batch.of.split(" of ")[0]:
        raise Misfit(
            f"there are {batch.said}, and nobody knows how many trees they hold",
            f"Say how many {batch.of}, or write first how many came up: germinated 44 seedlings.",
            str(number),
        )
    if not batch.in_containers and of in CONTAINERS:
        raise Misfit(f"there are {batch.said}, no {of}", f"Count {batch.of}.", str(number))
    same_as_were(batch, event)
    no_more_than(batch, number)
    if event.says("stays"):
        raise Misfit(
            "some of them would be another's, and stay",
            "Part them off first: parted-off 5, as HANDLE.",
            "stays",
        )
    if number == batch.count:
        return Step(batch)
    return Step(replace(batch, count=batch.count - number), number)


def _never_counted(number: int) -> Misfit:
    return Misfit(
        "nobody has said how many there are",
        "Write how many there were before this line: counted 40 seedlings.",
        str(number),
    )


def _parted(batch: Batch, event: Event) -> Step:
    number = how_many_parted(event)
    new = event.first("as")
    if new is None:
        raise Misfit("the new tree has no handle", "Write parted-off as HANDLE.")
    if batch.in_containers or batch.count is None:
        return Step(batch, number)
    if number >= batch.count:
        if number == batch.count:
            raise Misfit(
                "that would leave none under the old handle",
                "It is the last: give its card the new handle, and the old one as “formerly”.",
            )
        no_more_than(batch, number)
    return Step(replace(batch, count=batch.count - number), number)


def how_many_parted(event: Event) -> int:
    """How many are parted off; one where nothing is said."""
    quantity = event.first("quantity")
    return number_in(quantity) if quantity is not None else 1


def batch_parted(batch: Batch | None, event: Event) -> Batch | None:
    """What is parted off, where that is more than one."""
    number = how_many_parted(event)
    of = batch.of if batch is not None and not batch.in_containers else ""
    return Batch(number, of) if number != 1 else None
