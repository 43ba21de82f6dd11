"""Reckons how many stand under one handle, and how each line of the diary moves that.

A handle may stand for fifty cuttings or two trays of seed. A line means all of them, unless it
says a number. A number that cannot be, or may be meant in two ways, holds its line back.
"""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from backbud.journal.events import Event
from backbud.journal.things import Thing
from backbud_grammar.act_words import ActWord, LabelName
from backbud_grammar.acts import acts_with
from backbud_grammar.acts.shared import TRAYS
from backbud_grammar.syntax import Detail

ARRIVALS = acts_with("arrival")
RAISED = acts_with("raised")
GOINGS: frozenset[ActWord] = frozenset({"sold", "returned", "died", "lost"})
# What counts a batch and changes nothing else that a subject line can ask for.
TALLIES: frozenset[ActWord] = frozenset({"germinated", "rooted", "counted"})
# With `as` these begin what has a handle of its own.
BEGINS_ANOTHER: frozenset[ActWord] = frozenset({*RAISED, "separated", "parted-off"})
# A card that tells one of these tells of one tree, whatever it was raised from.
_OF_ONE_TREE: tuple[LabelName, ...] = (
    "trunk",
    "nebari",
    "girth",
    "root ball",
    "wedges",
    "front",
    "style",
)
_CONTAINERS = frozenset(TRAYS)
_SEED = frozenset({"", "seed", "seeds"})
_ONE: dict[str, str] = {
    "cutting": "cuttings", "root cuttings": "cuttings", "seedling": "seedlings", "whip": "whips",
    "plant": "plants", "tree": "trees", "layer": "layers", "graft": "grafts", "plug": "plugs",
    "seed": "seeds", "tray": "trays", "pot": "pots", "row": "rows", "handful": "handfuls",
    "bag": "bags", "rooted cuttings": "cuttings",
}  # fmt: skip
# What is said of them and is no name for them.
_NO_NOUN = frozenset({"of them", "of these", "of those", "rooted", "germinated"})


class Batch(Struct, frozen=True, gc=False):
    """How many stand under one handle.

    `count`: None where nobody has said. `of`: what they are, in the plural; "" where nobody said.
    `up`: how many seeds have come up in all. `rooted`, `potted_on`: how many have roots, or were
    potted on, as last told on a day; `None` where nobody told. `at_least`: of those potted on
    there may be more, since it was told more than once.
    """

    count: int | None
    of: str = ""
    up: int = 0
    rooted: int | None = None
    rooted_on: date | None = None
    potted_on: int | None = None
    potted_on_day: date | None = None
    at_least: bool = False

    @property
    def in_containers(self) -> bool:
        """Whether trays or rows are counted, and nobody knows how many trees they hold."""
        return self.of.split(" of ")[0] in _CONTAINERS

    @property
    def said(self) -> str:
        """`50 cuttings`, `1 tray of seed`; "" where nobody has counted."""
        if self.count is None:
            return ""
        of = self.of or "trees"
        if self.count == 1:
            of = next((one for one, many in _ONE.items() if many == of), of)
        return f"{self.count} {of}"


class Step(NamedTuple):
    """What a line makes of a batch. `of`: to how many of it the line was done; None: to all."""

    batch: Batch | None
    of: int | None = None


class Misfit(Exception):
    """Why the number of a line cannot be, or may be meant in two ways."""

    def __init__(self, message: str, hint: str, said: str = "") -> None:
        super().__init__(message)
        self.message, self.hint, self.said = message, hint, said


def batch_on_card(card: Thing) -> Batch | None:
    """How many a card says that there are; None where it speaks of one tree."""
    detail = card.detail("count")
    if detail is None or detail.measure is None:
        return None
    return Batch(int(detail.measure.number), _noun(detail))


def is_of_one_tree(card: Thing) -> bool:
    """Whether a card tells of one tree alone, so that what it was raised from is no count."""
    count = card.measure("count")
    if count is not None:
        return count.number == 1 and not card.text("count").startswith(TRAYS)
    return any(card.detail(label) is not None for label in _OF_ONE_TREE)


def begun(event: Event) -> Batch | None:
    """The batch that a line begins; None where it begins one tree."""
    quantity = event.first("quantity")
    if quantity is None or quantity.measure is None or quantity.measure.sort != "number":
        return Batch(None, "seeds") if event.act == "sown" else None
    count, of = _number(quantity), _noun(quantity)
    if of in _SEED and event.act == "sown":
        of = of or "seeds"
    elif not of and event.act == "struck":
        of = "cuttings"
    batch = Batch(count, of)
    return batch if count != 1 or batch.in_containers else None


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
        if _says_how_many(event):
            raise _one_tree(event)
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


# ------------------------------------------------------------------ coming


def _arrived(batch: Batch | None, event: Event, *, here: bool, one_tree: bool) -> Step:
    new = None if one_tree else begun(event)
    if not here:
        # What came without a number is as many as its card says, or as went.
        return Step(batch if new is None and not event.has("quantity") else new)
    if not event.has("quantity"):
        return Step(batch)
    if batch is None or new is None or batch.count is None or new.count is None:
        if batch is None and not one_tree and new is None:
            return Step(None)
        raise _one_tree(event)
    if batch.in_containers != new.in_containers or (batch.in_containers and batch.of != new.of):
        raise Misfit(
            f"there are {batch.said}, and {new.said} cannot be added to them",
            f"Give what came a handle of its own, or count it in {batch.of}.",
        )
    return Step(replace(batch, count=batch.count + new.count))


def _counted(batch: Batch | None, event: Event, *, one_tree: bool) -> Step:
    quantity = event.first("quantity")
    measure = quantity.measure if quantity is not None else None
    if quantity is None or measure is None or measure.sort != "number":
        raise Misfit("a batch is counted by the piece", "Write counted 38 seedlings.")
    if one_tree:
        raise _one_tree(event)
    before, number = batch or Batch(None), _number(quantity)
    of = _noun(quantity) or before.of
    up = max(before.up, number) if of == "seedlings" else before.up
    return Step(replace(before, count=number, of=of, up=up))


# ------------------------------------------------------------------ what becomes of it


def _germinated(batch: Batch, event: Event) -> Step:
    """Seed becomes seedlings. Bare, it tells that the first are up, and counts nothing."""
    number = _told(event, batch.count if batch.of in _SEED and not batch.up else None, batch)
    if number is None:
        return Step(batch)
    up = _in_all(number, batch.up or None, event, "had come up")
    if not batch.up:
        if batch.of in _SEED and batch.count is not None and up > batch.count:
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
    number = _told(event, None if batch.in_containers else batch.count, batch)
    if number is None:
        return Step(batch)
    rooted = _in_all(number, batch.rooted, event, "had rooted")
    if not batch.in_containers:
        _no_more_than(batch, rooted)
    return Step(replace(batch, rooted=rooted, rooted_on=event.day), number)


def _potted(batch: Batch, event: Event) -> Step:
    quantity = event.first("quantity")
    if quantity is None:
        count = None if batch.in_containers else batch.count
        all_of_it = replace(batch, potted_on=count, potted_on_day=event.day, at_least=False)
        return Step(all_of_it)
    number = _number(quantity)
    if not batch.in_containers:
        _no_more_than(batch, number)
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
        _no_bare_price(batch, event)
        return Step(batch)
    number, of = _number(quantity), _noun(quantity)
    if not here:
        raise Misfit("none of them is here", "If they came back, write received first.")
    if batch.count is None:
        raise Misfit(
            "nobody has said how many there are",
            "Write how many there were before this line: counted 40 seedlings.",
            str(number),
        )
    if batch.in_containers and of != batch.of.split(" of ")[0]:
        raise Misfit(
            f"there are {batch.said}, and nobody knows how many trees they hold",
            f"Say how many {batch.of}, or write first how many came up: germinated 44 seedlings.",
            str(number),
        )
    if not batch.in_containers and of in _CONTAINERS:
        raise Misfit(f"there are {batch.said}, no {of}", f"Count {batch.of}.", str(number))
    _same_as_were(batch, event)
    _no_more_than(batch, number)
    if event.says("stays"):
        raise Misfit(
            "some of them would be another's, and stay",
            "Part them off first: parted-off 5, as HANDLE.",
            "stays",
        )
    if number == batch.count:
        return Step(batch)
    return Step(replace(batch, count=batch.count - number), number)


def _parted(batch: Batch, event: Event) -> Step:
    number = parted(event)
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
        _no_more_than(batch, number)
    return Step(replace(batch, count=batch.count - number), number)


def parted(event: Event) -> int:
    """How many are parted off; one where nothing is said."""
    quantity = event.first("quantity")
    return _number(quantity) if quantity is not None else 1


def batch_parted(batch: Batch | None, event: Event) -> Batch | None:
    """What is parted off, where that is more than one."""
    number = parted(event)
    of = batch.of if batch is not None and not batch.in_containers else ""
    return Batch(number, of) if number != 1 else None


# ------------------------------------------------------------------ numbers


def _number(detail: Detail) -> int:
    measure = detail.measure
    if measure is None:
        raise Misfit("nobody has said how many", "Write a number.")
    if measure.upper is not None:
        raise Misfit(
            f"“{measure}” is no count", f"Write one number: {measure.numbers[0]:f}.", str(measure)
        )
    number = int(measure.number)
    if number < 1:
        raise Misfit(f"“{number}” counts nothing", "Write died or lost where none is left.")
    return number


def _noun(detail: Detail) -> str:
    words = detail.words
    return "" if words in _NO_NOUN else _ONE.get(words, words)


def _says_how_many(event: Event) -> bool:
    detail = event.first("quantity")
    if detail is None or detail.measure is None or detail.measure.sort != "number":
        return event.act == "parted-off"
    # `germinated 12 seeds`, `rooted 2 layers` are said of a mother, too, and change nothing of her.
    return event.act in GOINGS


def _one_tree(event: Event) -> Misfit:
    detail = event.first("quantity")
    said = str(detail.measure) if detail is not None and detail.measure is not None else ""
    return Misfit(
        "this handle is of one tree",
        "Where it is a batch, say on its card how many there are: count 50 cuttings.",
        said,
    )


def _told(event: Event, among: int | None, batch: Batch) -> int | None:
    """The number that came up or rooted; None where a line tells none.

    `among`: of how many, where that is known.
    """
    share = event.measure("share")
    if share is not None and among is not None:
        exact = share.number * among / 100
        number = int(exact)
        if share.upper is not None or number != exact:
            raise Misfit(
                f"{share} of {batch.said} is no whole number",
                f"Write how many: {event.act} {number}.",
                str(share),
            )
        return number
    quantity = event.first("quantity")
    if quantity is None:
        return None
    if among is not None:
        _same_as_were(batch, event)
    return _number(quantity)


def _in_all(number: int, before: int | None, event: Event, what: str) -> int:
    """How many there are with those of before."""
    if before is None or event.has("in all"):
        total = number
    elif event.has("more"):
        total = before + number
    elif any(one.measure is not None for one in event.all("of")):
        total = number
    else:
        raise Misfit(
            f"{before} {what} before, and these may be among them or come to them",
            f"Write {event.act} {number} more, or {event.act} {number} in all.",
            str(number),
        )
    if before is not None and total < before:
        raise Misfit(f"{before} {what} before", "Those that are gone since died.", str(number))
    return total


def _same_as_were(batch: Batch, event: Event) -> None:
    """`3 of 40` tells how many there were: Misfit where that is not so."""
    for detail in event.all("of"):
        if detail.measure is not None and detail.measure.number != batch.count:
            raise Misfit(
                f"there were {batch.said}", "Mend the count here, or before this line.", "of"
            )


def _no_more_than(batch: Batch, number: int) -> None:
    if batch.count is not None and number > batch.count:
        raise Misfit(
            f"there are only {batch.said}",
            "Mend the number here, or write before this line how many there were: "
            f"counted {number}.",
            str(number),
        )


def _no_bare_price(batch: Batch, event: Event) -> None:
    """`sold 5` may be five of them, or all for 5."""
    if event.act != "sold" or event.has("all of them") or batch.count == 1:
        return
    for detail in event.all("amount"):
        if detail.measure is not None and not detail.measure.unit:
            price = f"{detail.measure.number:f}"
            raise Misfit(
                f"“{price}” may be how many, or the price of all",
                f"Write sold {price} of them, or sold all, {price} EUR.",
                price,
            )
