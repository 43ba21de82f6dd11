"""The register of stock: the keeper's own trees and pots on a day, and what they are worth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal

from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.journal.things import Thing, Things
from backbud.tongue import phrase
from backbud.views.registers.register import RegisterView, register_of
from backbud_grammar.measures import Measure

ABOUT = (
    "The keeper's own trees that are here, and pots, each at the value that was last written: on "
    "its card, or by `valued`. It is what somebody thought it worth, and no appraisal."
)
HEADINGS = {
    "sort": "sort", "handle": "handle", "name": "name", "kind": "kind or shape", "since": "since",
    "count": "how many", "where": "stands in", "value": "value", "currency": "currency",
}  # fmt: skip


def stock(
    trees: Iterable[Tree],
    things: Things,
    others: Mapping[str, Sequence[Event]],
    names: Mapping[str, str],
    keeper: str,
    currency: str,
    today: date,
) -> RegisterView:
    """Trees by handle, then pots. `currency`: of values that name none."""
    own = [tree for tree in trees if tree.here and tree.owner in ("", keeper)]
    in_pot = {tree.pot: tree for tree in trees if tree.here and tree.pot}
    rows = [_of_tree(tree, things, names, currency) for tree in sorted(own, key=_handle)]
    for pot in sorted(things.of_kind("pot"), key=lambda one: one.handle):
        events = [one for one in others.get(pot.handle, ()) if one.day <= today]
        if not _gone(events):
            rows.append(_of_pot(pot, events, in_pot.get(pot.handle), currency))
    sums: dict[str, Decimal] = {}
    for row in rows:
        if row["value"]:
            sums[row["currency"]] = sums.get(row["currency"], Decimal(0)) + Decimal(row["value"])
    notes = [
        phrase("Together {total:f} {name}.", total=total, name=name)
        for name, total in sorted(sums.items())
    ]
    unvalued = sum(not row["value"] for row in rows)
    if unvalued:
        notes.append(
            phrase(
                "No value is written of {unvalued} of {rows}.", unvalued=unvalued, rows=len(rows)
            )
        )
    return register_of("stock", phrase("Stock"), ABOUT, HEADINGS, rows, notes)


def _handle(tree: Tree) -> str:
    return tree.handle


def _of_tree(tree: Tree, things: Things, names: Mapping[str, str], currency: str) -> dict[str, str]:
    valued = tree.last.get("valued")
    card = things.by_handle.get(tree.handle)
    worth = valued.measure("amount") if valued is not None else None
    worth = worth or (card.measure("value") if card is not None else None)
    return {
        "sort": "tree",
        "handle": tree.handle,
        "name": tree.title,
        "kind": f"{tree.kind} ‘{tree.cultivar}’" if tree.cultivar else tree.kind,
        "since": tree.facts.get("since", "") or (tree.since.isoformat() if tree.since else ""),
        "count": _count(tree),
        "where": names.get(tree.place) or tree.place,
        **_worth(worth, currency),
    }


def _of_pot(
    pot: Thing, events: Sequence[Event], tree: Tree | None, currency: str
) -> dict[str, str]:
    said = [one.measure("amount") for one in events if one.was("valued", "priced")]
    worth = next((one for one in reversed(said) if one is not None), pot.measure("value"))
    inside = pot.measure("inside") or pot.measure("outside")
    shape = f"{pot.text('shape')} {inside or ''}".strip()
    return {
        "sort": "pot",
        "handle": pot.handle,
        "name": pot.title,
        "kind": shape,
        "since": pot.since.text if pot.since else "",
        "count": "1",
        "where": phrase("under {title}", title=tree.title) if tree is not None else phrase("empty"),
        **_worth(worth, currency),
    }


def _count(tree: Tree) -> str:
    """How many the handle stands for; "" where nobody has counted them."""
    if tree.batch is None:
        return "1"
    return "" if tree.batch.count is None else str(tree.batch.count)


def _gone(events: Sequence[Event]) -> bool:
    """Whether it was sold, and not bought back since."""
    turns = [one.act for one in events if one.was("sold", "bought") and not one.held]
    return bool(turns) and turns[-1] == "sold"


def _worth(worth: Measure | None, currency: str) -> dict[str, str]:
    if worth is None:
        return {"value": "", "currency": ""}
    return {"value": f"{worth.number:f}", "currency": worth.unit or currency}
