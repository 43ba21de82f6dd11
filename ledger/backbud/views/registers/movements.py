"""The register of plants: what came, from whom, with which papers, and to whom it went."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from backbud.collection.batch import ARRIVALS
from backbud.collection.stand import DEPARTURES
from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event
from backbud.journal.things import Things
from backbud.tongue import phrase
from backbud.views.registers.register import Called, RegisterView, name_of, register_of
from backbud_grammar.act_words import DetailName

ABOUT = (
    "Regulation (EU) 2016/2031: who trades in plants writes down from whom each came and to whom "
    "it went, with its plant passport (from memory: Art. 69, for three years at least). The text "
    "and your plant health service decide."
)
# Whom it came from, or where it went.
_WHOM: tuple[DetailName, ...] = ("from", "to", "at")
_PERMIT: tuple[DetailName, ...] = ("imported", "with permit")
HEADINGS = {
    "date": "date", "way": "in or out", "act": "how", "tree": "tree or batch", "kind": "kind",
    "botanical": "botanical name", "quantity": "how many", "who": "from or to",
    "origin": "origin", "passport": "passport or import no.", "papers": "papers of the line",
    "not_written": "not written", "at": "line",
}  # fmt: skip


def movements(
    histories: Histories,
    things: Things,
    botanical: Callable[[str], str],
    names: Mapping[str, str],
) -> RegisterView:
    """Every arrival and departure of a tree or a batch, by day. `botanical`: the name of a tree's
    species by its handle."""
    rows, called = [], partial(name_of, things, names)
    for handle, at in histories.trees.items():
        card = things.by_handle.get(handle)
        said = (card.text("origin"), card.text("passport")) if card else ("", "")
        tree = (handle, at.kind, botanical(handle))
        for one in at.entries:
            event = one.event
            if (event.act in ARRIVALS or event.act in DEPARTURES) and not one.undone:
                rows.append(_row(event, tree, said, called))
    rows.sort(key=lambda row: (row["date"], row["at"], row["tree"]))
    return register_of("plants", phrase("Plants in and out"), ABOUT, HEADINGS, rows)


def _row(
    event: Event, tree: tuple[str, str, str], card: tuple[str, str], called: Called
) -> dict[str, str]:
    way = "in" if event.act in ARRIVALS else "out"
    origin, passport = card
    row = {
        "date": event.when.text,
        "way": way,
        "act": event.act,
        "tree": tree[0],
        "kind": tree[1],
        "botanical": tree[2],
        "quantity": ", ".join(_quantities(event)) or "1",
        "who": ", ".join(_who(event, called)),
        "origin": origin if way == "in" else "",
        "passport": passport,
        "papers": ", ".join(_papers(event)),
        "at": str(event.origin),
    }
    # What its owner brings and fetches is not put on the market.
    traded = event.was("bought", "sold", "collected") or "imported" in row["papers"]
    wanted = {"from or to": row["who"], "passport": row["passport"] or row["papers"]}
    missing = [name for name, said in wanted.items() if not said]
    row["not_written"] = ", ".join(map(phrase, missing)) if traded else ""
    return row


def _quantities(event: Event) -> Iterator[str]:
    for detail in event.details:
        if detail.name == "quantity" and detail.measure is not None:
            yield f"{detail.measure} {detail.words}".strip()


def _who(event: Event, called: Called) -> Iterator[str]:
    for detail in event.details:
        if detail.name in _WHOM and (detail.handle or detail.words):
            yield called(detail.handle) or detail.words


def _papers(event: Event) -> Iterator[str]:
    for detail in event.details:
        if detail.name in _PERMIT:
            yield detail.name
        elif detail.name == "permit number":
            yield phrase("permit {words}", words=detail.words)
