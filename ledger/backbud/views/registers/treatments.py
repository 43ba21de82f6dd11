"""The register of treatments: what professional users of plant protection products write down."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial

from msgspec import Struct

from backbud.collection.fold import each_after
from backbud.collection.state import Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event
from backbud.journal.things import Things
from backbud.tongue import phrase
from backbud.views.registers.eppo import eppo_code
from backbud.views.registers.register import Called, RegisterView, name_of, register_of
from backbud_grammar.act_words import ActWord

_ACT: ActWord = "treated"
ABOUT = (
    "Regulation (EC) 1107/2009, Art. 67, and Implementing Regulation (EU) 2023/564, Art. 1: the "
    "text and your country's own rules decide, and a licence may be needed. Growth stage and hour "
    "are asked for where the authorisation restricts them. Re-entry stands as the line has it from "
    "the label, and is never reckoned. Keep electronic records within the time your state sets."
)
HEADINGS = {
    "date": "date", "hour": "begun at", "product": "product", "authorisation": "authorisation no.",
    "use": "how used", "dose": "dose", "quantity": "quantity", "area": "area", "count": "trees",
    "crop": "crop", "botanical": "botanical name", "eppo": "EPPO code", "bbch": "BBCH",
    "bbch_seen": "stage seen", "target": "against", "where": "stood in", "operator": "operator",
    "re_entry": "re-entry (label)", "not_written": "not written", "at": "line",
}  # fmt: skip


class _Crop(Struct, frozen=True):
    """Trees of one kind that one line treated, where they stood then."""

    event: Event
    kind: str
    botanical: str
    place: str
    stage: str
    stage_seen: str


def treatments(
    histories: Histories,
    things: Things,
    botanical: Callable[[str], str],
    names: Mapping[str, str],
    keeper: str,
) -> RegisterView:
    """Every treatment with a product, by day; a row for each kind of tree that a line treated, and
    for each place where they stood. `botanical`: the name of a tree's species by its handle."""
    found: dict[_Crop, int] = {}
    for handle in histories.trees:
        for crop in _of_tree(histories, things, handle, botanical(handle)):
            found[crop] = found.get(crop, 0) + 1
    called = partial(name_of, things, names)
    rows = [_row(crop, str(count), called, keeper) for crop, count in found.items()]
    for handle, events in histories.others.items():
        thing = things.by_handle.get(handle)
        if thing is not None and thing.kind == "place":
            rows += [
                _row(_Crop(event, "", "", handle, "", ""), "", called, keeper)
                for event in events
                if _counts(event)
            ]
    rows.sort(key=lambda row: (row["date"], row["at"], row["crop"]))
    without = sorted({row["botanical"] or row["crop"] for row in rows if row["crop"]
                      and not row["eppo"]})  # fmt: skip
    notes = []
    if without:
        notes.append(
            phrase(
                "No EPPO code was confirmed by a published list for: {without}.",
                without=", ".join(without),
            )
        )
    if any(row["botanical"] and not _is_named_so(row) for row in rows):
        notes.append(
            phrase(
                "Where a card says only a common name, the botanical name is that of the species "
                "it is cared for as: make sure of it."
            )
        )
    return register_of("treatments", phrase("Treatments"), ABOUT, HEADINGS, rows, notes)


def _is_named_so(row: Mapping[str, str]) -> bool:
    """Whether the card itself says the botanical name."""
    return row["crop"].casefold().startswith(row["botanical"].casefold())


def _of_tree(histories: Histories, things: Things, handle: str, botanical: str) -> Iterator[_Crop]:
    entries = histories.trees[handle].entries
    treated = [n for n, one in enumerate(entries) if _counts(one.event) and not one.undone]
    for count, tree in each_after(histories, things, handle, (n + 1 for n in treated)):
        event = entries[count - 1].event
        stage, seen = _stage(event, (one.event for one in entries[:count] if not one.undone))
        yield _Crop(event, _kind(tree), botanical, tree.place, stage, seen)


def _counts(event: Event) -> bool:
    """Whether a line is about a product: what is picked off by hand is no use of one, and a jet of
    water `with 8 bar` neither."""
    if event.act != _ACT or event.held:
        return False
    if event.has("number") or event.has("dose"):
        return True
    is_jet = any(detail.words == "water jet" for detail in event.all("how"))
    return any(not (is_jet and one.words[:1].isdigit()) for one in event.all("product"))


def _kind(tree: Tree) -> str:
    return f"{tree.kind} ‘{tree.cultivar}’" if tree.cultivar else tree.kind


def _stage(event: Event, before: Iterable[Event]) -> tuple[str, str]:
    """The growth stage that was last written in that year, and the day it was seen."""
    stage, seen = "", ""
    for one in before:
        found = one.measure("stage") if one.act == "staged" else None
        if found is not None and one.exact and one.day.year == event.day.year:
            stage, seen = f"{int(found.number):02}", one.day.isoformat()
    return stage, seen


def _row(crop: _Crop, count: str, called: Called, keeper: str) -> dict[str, str]:
    event = crop.event
    product = ", ".join(detail.words for detail in event.all("product"))
    operators = [called(d.handle) for d in event.all("operator") if d.handle]
    row = {
        "date": event.when.text,
        "hour": _words(event, "at"),
        "product": product,
        "authorisation": _words(event, "number"),
        "use": ", ".join(detail.words for detail in event.all("how")),
        "dose": _measure(event, "dose"),
        "quantity": _measure(event, "quantity"),
        "area": _measure(event, "area"),
        "count": count,
        "crop": crop.kind,
        "botanical": crop.botanical,
        "eppo": eppo_code(crop.botanical),
        "bbch": crop.stage,
        "bbch_seen": crop.stage_seen,
        "target": _words(event, "against"),
        "where": called(crop.place),
        "operator": ", ".join(operators) or called(keeper),
        "re_entry": _measure(event, "re-entry"),
        "at": str(event.origin),
    }
    wanted = {
        "product": row["product"], "authorisation no.": row["authorisation"], "dose": row["dose"],
        "area or count": row["area"] or row["count"], "crop": row["crop"], "place": row["where"],
        "operator": row["operator"],
    }  # fmt: skip
    row["not_written"] = ", ".join(phrase(name) for name, said in wanted.items() if not said)
    return row


def _words(event: Event, name: str) -> str:
    found = [detail for detail in event.details if detail.name == name]
    return found[0].words if found else ""


def _measure(event: Event, name: str) -> str:
    found = next((one.measure for one in event.details if one.name == name), None)
    return str(found) if found is not None else ""
