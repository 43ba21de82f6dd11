"""An act goes in; what it put on the tree or into its pot, and what it took off, comes out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from backbud.collection.state import OnTree
from backbud.journal.events import Event
from backbud_grammar.act_words import ActWord, DetailName, as_act
from backbud_grammar.acts import ROWS
from backbud_grammar.forms import ActForm
from backbud_grammar.measures import Measure
from backbud_grammar.syntax import Detail

Things = tuple[OnTree, ...]
Effect = Callable[[Things, Event], Things]


def _undone(act: ActWord) -> ActWord:
    return as_act(ROWS[act].undone_by)


# The act that takes each sort of thing off again.
TAKEN_OFF_BY: Mapping[str, ActWord] = {
    "wire": _undone("wired"),
    "guy": _undone("guyed"),
    "wrap": _undone("wrapped"),
    "tie": _undone("tied"),
    "protection": _undone("protected"),
    "shade": _undone("shaded"),
    "graft": _undone("grafted"),
    "layer": _undone("layered"),
}


def _repotted(things: Things, event: Event) -> Things:
    """What anchored the tree was cut to lift the ball; what is not said to be out may be in it."""
    gone = {
        "tie": event.has("old ties out"),
        "mesh": event.has("mesh") or _into_another_pot(event),
    }
    kept = tuple(
        _from_before(thing) if thing.sort in gone else thing
        for thing in things
        if not gone.get(thing.sort, False)
    )
    return (*kept, *_of_details("tie", event, event.all("tied")), *_mesh(event))


def _into_another_pot(event: Event) -> bool:
    """Whether the pot, and the mesh in it, was left: a repotting that names none keeps both."""
    return event.has("into") or (event.act != "repotted" and not event.has("same pot"))


def _from_before(thing: OnTree) -> OnTree:
    return OnTree(
        thing.sort,
        thing.what,
        thing.part,
        thing.count,
        thing.since,
        thing.event,
        thing.thickness_mm,
        True,
    )


def _mesh(event: Event) -> Things:
    return tuple(
        OnTree(
            "mesh",
            "mesh",
            "",
            int(detail.measure.number) if detail.measure else 1,
            event.day,
            event,
        )
        for detail in event.all("mesh")
    )


def _planted_out(things: Things, event: Event) -> Things:
    """It leaves the pot and its mesh; a tie may go with the ball."""
    return tuple(
        _from_before(thing) if thing.sort == "tie" else thing
        for thing in things
        if thing.sort != "mesh"
    )


def _put_on(sort: str, *names: DetailName, together: bool = False) -> Effect:
    """Each detail of these names is one thing; a part that stands alone has what stood before it.

    `together`: the details say one thing in several words, as `ring, 3 cm`.
    """

    def effect(things: Things, event: Event) -> Things:
        return (*things, *_of_details(sort, event, _whole(event, names, together)))

    return effect


def _whole(event: Event, names: tuple[DetailName, ...], together: bool) -> list[Detail]:
    """The details of what was put on, each with its part."""
    whole: list[Detail] = []
    waiting: list[Detail] = []
    last = Detail("")
    for detail in event.details:
        if detail.name in names and not detail.part:
            waiting.append(detail)
        elif detail.name in names:
            last = detail
            whole.append(detail)
        elif detail.part:
            last = _joined(waiting) if waiting else last
            waiting = []
            whole.append(_with_part(last, detail.part))
    if waiting and together:
        waiting = [_joined(waiting)]
    return [*whole, *waiting] or [Detail("")]


def _joined(details: Iterable[Detail]) -> Detail:
    """Several details as one, with the first measure among them."""
    found = list(details)
    measure = next((d.measure for d in found if d.measure), None)
    return Detail(found[0].name, " ".join(d.words for d in found if d.words), measure)


def _with_part(detail: Detail, part: str) -> Detail:
    return Detail(detail.name, detail.words, detail.measure, part=part)


def _of_details(sort: str, event: Event, details: Iterable[Detail]) -> Things:
    return tuple(_thing(sort, detail, event) for detail in details)


def _thing(sort: str, detail: Detail, event: Event) -> OnTree:
    measure = detail.measure
    words = " ".join(filter(None, (_size(measure), detail.words)))
    thickness = measure.within("mm") if measure and measure.sort == "length" else None
    return OnTree(
        sort,
        words or sort,
        detail.part,
        measure.count if measure else 1,
        event.day,
        event,
        thickness,
    )


def _size(measure: Measure | None) -> str:
    """The measure without its count."""
    if measure is None:
        return ""
    return str(Measure(measure.numbers, measure.unit, measure.sort, measure.upper, measure.per))


def _shaded(things: Things, event: Event) -> Things:
    share = event.measure("share")
    return (
        *things,
        OnTree("shade", f"shade {share}" if share else "shade", "", 1, event.day, event),
    )


def _protected(things: Things, event: Event) -> Things:
    words = [d.words for d in event.details if d.name in ("with", "how") and d.words]
    return (
        *things,
        OnTree("protection", ", ".join(words) or "protection", "", 1, event.day, event),
    )


def take_off(*sorts: str) -> Effect:
    """Off comes every thing of these sorts whose part holds the words named, or all of them."""

    def effect(things: Things, event: Event) -> Things:
        if event.says("partly"):
            return things
        return tuple(
            thing
            for thing in things
            if thing.sort not in sorts or not is_meant(thing.part, event.parts)
        )

    return effect


def is_meant(part: str, named: tuple[str, ...]) -> bool:
    """Whether an act on these parts of a tree (() is all of it) was done to what is on `part`.

    >>> is_meant("left 2", ("left",)), is_meant("left 2", ("left 2 tip",)), is_meant("", ("left",))
    (True, False, False)
    """
    whole = f" {part.casefold()} "
    return not named or any(f" {words.casefold()} " in whole for words in named)


EFFECTS: Mapping[ActWord, Effect] = {
    "planted-out": _planted_out,
    "tied": _put_on("tie", "tied"),
    "untied": take_off("tie"),
    "wired": _put_on("wire", "wire"),
    "unwired": take_off("wire"),
    "guyed": _put_on("guy", "guy"),
    "unguyed": take_off("guy"),
    "wrapped": _put_on("wrap", "with", together=True),
    "unwrapped": take_off("wrap"),
    "grafted": _put_on("graft", "way", together=True),
    "layered": _put_on("layer", "way", "ring", together=True),
    "shaded": _shaded,
    "unshaded": take_off("shade"),
    "protected": _protected,
    "unprotected": take_off("protection"),
}


def put_on_by(act: ActForm) -> Effect | None:
    """What an act changes of what is on a tree; None where it changes nothing."""
    return EFFECTS.get(as_act(act.word)) or (_repotted if "fills_pot" in act.traits else None)
