"""How many stand under one handle, by its card or the line it began with; and what a line counts.

A handle may stand for fifty cuttings or two trays of seed. A line means all of them, unless it
says a number. A number that cannot be, or may be meant in two ways, holds its line back.
"""

from __future__ import annotations

from datetime import date

from msgspec import Struct

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
CONTAINERS = frozenset(TRAYS)
SEED = frozenset({"", "seed", "seeds"})
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
        return self.of.split(" of ")[0] in CONTAINERS

    @property
    def said(self) -> str:
        """`50 cuttings`, `1 tray of seed`; "" where nobody has counted."""
        if self.count is None:
            return ""
        of = self.of or "trees"
        if self.count == 1:
            of = next((one for one, many in _ONE.items() if many == of), of)
        return f"{self.count} {of}"


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
    return Batch(int(detail.measure.number), noun_of(detail))


def is_of_one_tree(card: Thing) -> bool:
    """Whether a card tells of one tree alone, so that what it was raised from is no count."""
    count = card.measure("count")
    if count is not None:
        return count.number == 1 and not card.text("count").startswith(TRAYS)
    return any(card.detail(label) is not None for label in _OF_ONE_TREE)


def begun(event: Event) -> Batch | None:
    """The batch that a line begins; None where it begins one tree."""
    batch = come(event)
    is_one = batch is not None and batch.count == 1 and not batch.in_containers
    return None if is_one else batch


def come(event: Event) -> Batch | None:
    """How many a line says that there are; None where it tells no number of them."""
    quantity = event.first("quantity")
    if quantity is None or quantity.measure is None or quantity.measure.sort != "number":
        return Batch(None, "seeds") if event.act == "sown" else None
    count, of = number_in(quantity), noun_of(quantity)
    if of in SEED and event.act == "sown":
        of = of or "seeds"
    elif not of and event.act == "struck":
        of = "cuttings"
    return Batch(count, of)


# ------------------------------------------------------------------ numbers


def number_in(detail: Detail) -> int:
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


def noun_of(detail: Detail) -> str:
    words = detail.words
    return "" if words in _NO_NOUN else _ONE.get(words, words)


def says_how_many(event: Event) -> bool:
    detail = event.first("quantity")
    if detail is None or detail.measure is None or detail.measure.sort != "number":
        return event.act == "parted-off"
    # `germinated 12 seeds`, `rooted 2 layers` are said of a mother, too, and change nothing of her.
    return event.act in GOINGS


def of_one_tree(event: Event) -> Misfit:
    detail = event.first("quantity")
    said = str(detail.measure) if detail is not None and detail.measure is not None else ""
    return Misfit(
        "this handle is of one tree",
        "Where it is a batch, say on its card how many there are: count 50 cuttings.",
        said,
    )


def number_told(event: Event, among: int | None, batch: Batch) -> int | None:
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
        same_as_were(batch, event)
    return number_in(quantity)


def in_all(number: int, before: int | None, event: Event, what: str) -> int:
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


def same_as_were(batch: Batch, event: Event) -> None:
    """`3 of 40` tells how many there were: Misfit where that is not so."""
    for detail in event.all("of"):
        if detail.measure is not None and detail.measure.number != batch.count:
            raise Misfit(
                f"there were {batch.said}", "Mend the count here, or before this line.", "of"
            )


def no_more_than(batch: Batch, number: int) -> None:
    if batch.count is not None and number > batch.count:
        raise Misfit(
            f"there are only {batch.said}",
            "Mend the number here, or write before this line how many there were: "
            f"counted {number}.",
            str(number),
        )


def no_bare_price(batch: Batch, event: Event) -> None:
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
