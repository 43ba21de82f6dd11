"""Says of each act what it puts on a tree or into its pot, and what it takes off again."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from functools import lru_cache
from typing import NamedTuple

from msgspec import Struct

from backbud.collection.against import is_against_weather
from backbud.collection.lies_there import lies_there
from backbud.collection.state import OnTree
from backbud.journal.events import Event
from backbud_grammar.act_words import ActWord, DetailName, as_act
from backbud_grammar.acts import ACTS, ROWS
from backbud_grammar.dates import WrittenDate
from backbud_grammar.forms import ActForm
from backbud_grammar.measures import Measure
from backbud_grammar.syntax import Detail

Things = tuple[OnTree, ...]


class Change(Struct, frozen=True, gc=False):
    """What an act changes of what is on a tree.

    `off`: the sorts of which comes off what is on the `parts` named, or all of them where none is;
    nothing, where it `stays`. `older`: the sorts of which what stays is from before. `put`: what
    is put on.
    """

    put: Things = ()
    off: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    stays: bool = False
    older: tuple[str, ...] = ()


Effect = Callable[[Event], Change]


def _undone(act: ActWord) -> ActWord:
    return as_act(ROWS[act].undone_by)


# The act that takes each sort of thing off again.
TAKEN_OFF_BY: Mapping[str, ActWord] = {
    "wire": _undone("wired"),
    "guy": _undone("guyed"),
    "wrap": _undone("wrapped"),
    "tie": _undone("tied"),
    "protection": _undone("protected"),
    "guard": _undone("protected"),
    "shade": _undone("shaded"),
    "graft": _undone("grafted"),
    "layer": _undone("layered"),
}


def _wired(event: Event) -> Change:
    """Wire on each part; what was there before stays on unless the line says that it came off.

    Of some branches, or beside words that nobody read, it is not known which wire came off.
    """
    put = _of_details("wire", event, _wires(event))
    off = ("wire",) if _old_wire_off(event) else ()
    return Change(put, off, event.parts)


def _wires(event: Event) -> list[Detail]:
    return _whole(event, ("wire", "gauge"), together=False)


def _old_wire_off(event: Event) -> bool:
    """Whether wire that was there before came off, and it is known which."""
    if not event.has("old wire off"):
        return False
    of_some = event.has("count") or any(detail.words in _SOME for detail in event.all("how"))
    return bool(event.parts) or not (of_some or event.kept)


_SOME = ("primary branches", "secondary branches", "fine branches")


def _repotted(event: Event) -> Change:
    """What anchored the tree was cut to lift the ball. A repotting opens that, and what it held
    comes to hand and is thrown away; in a ball that goes on whole it may still be, where nobody
    says that it is out. Common practice, no source."""
    gone = {
        "tie": event.has("old ties out") or _ball_opened(event),
        "mesh": event.has("mesh") or _into_another_pot(event),
    }
    return Change(
        put=(*_of_details("tie", event, event.all("tied")), *_mesh(event)),
        off=tuple(sort for sort, is_gone in gone.items() if is_gone),
        older=tuple(sort for sort, is_gone in gone.items() if not is_gone),
    )


def _ball_opened(event: Event) -> bool:
    """Whether a repotting went through the ball, and neither words that nobody read nor its remark
    may tell that something was left in it."""
    whole = event.act != "repotted" or event.has("no root work") or event.has("old ties left")
    return not whole and not any(_MAY_BE_LEFT.search(said) for said in (*event.kept, event.remark))


# What a tree is held by, what stays as it was, and a ball that goes on whole.
_MAY_BE_LEFT = re.compile(
    r"\b(?:(?:un|re-?)?(?:tie[sd]?|tying)|(?:re-?)?wir(?:es?|ed|ing)|strings?|cords?|twine|ropes?|straps?"
    r"|raffia|copper|alumini?um|anchor\w*|fasten\w*|fixings?|lash\w*|bindings?|bands?|hold-?downs?|staples?|screws?"
    r"|stakes?|drah?t\w*|touw\w*|schnur|schnüre|bleib\w*|blij\w*"
    r"|stay\w*|leav(?:e|ing)|kept|keep\w*|remain\w*|retain\w*|reused?|still|whole|intact"
    r"|(?:un)?touched|unchanged|undisturbed|unopened|as (?:before|it was)|emergency"
    r"|(?<!the )(?<!on )left(?! (?:\d|side|front|back|hand|root)))\b",
    re.IGNORECASE,
)


def _into_another_pot(event: Event) -> bool:
    """Whether the pot, and the mesh in it, was left: a repotting that names none keeps both."""
    if event.has("pot size"):
        return True
    return event.has("into") or (event.act != "repotted" and not event.has("same pot"))


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


def _planted_out(event: Event) -> Change:
    """It leaves the pot and its mesh; a tie may go with the ball."""
    return Change(off=("mesh",), older=("tie",))


def _put_on(sort: str, *names: DetailName, together: bool = False) -> Effect:
    """Each detail of these names is one thing; a part that stands alone has what stood before it.

    `together`: the details say one thing in several words, as `ring, 3 cm`.
    """

    def effect(event: Event) -> Change:
        return Change(_of_details(sort, event, _whole(event, names, together)))

    return effect


def _whole(event: Event, names: tuple[DetailName, ...], together: bool) -> list[Detail]:
    """The details of what was put on, each with its part."""
    those = [one for one in event.details if one.name in names or one.part]
    if those and those[0].name not in names:
        return _parts_first(those, names)
    whole: list[Detail] = []
    waiting: list[Detail] = []
    last = _NOTHING
    for detail in those:
        if detail.name in names:
            if detail.part:
                last = detail
                whole.append(detail)
            else:
                waiting.append(detail)
        else:
            last = _joined(waiting) if waiting else last
            waiting = []
            whole.append(_with_part(last, detail.part))
    if waiting and together:
        waiting = [_joined(waiting)]
    return [*whole, *waiting] or [_NOTHING]


def _parts_first(those: Iterable[Detail], names: tuple[DetailName, ...]) -> list[Detail]:
    """The same where the line begins with a part: what stands behind parts is on each of them, and
    parts behind which nothing stands have what the ones before them have."""
    whole: list[Detail] = []
    parts: list[str] = []
    said: list[Detail] = []
    last = _NOTHING
    for detail in (*those, _NOTHING):
        if detail.name in names and not detail.part:
            said.append(detail)
            continue
        if said or detail is _NOTHING or detail.name in names:
            last = _joined(said) if said else last
            whole += [_with_part(last, part) for part in parts]
            parts, said = [], []
        if detail.name in names:
            last = detail
            whole.append(detail)
        elif detail.part:
            parts.append(detail.part)
    return whole


_NOTHING = Detail("")


def _joined(details: Iterable[Detail]) -> Detail:
    """Several details as one, with the first measure among them."""
    found = list(details)
    measure = next((d.measure for d in found if d.measure), None)
    return Detail(found[0].name, " ".join(d.words for d in found if d.words), measure)


def _with_part(detail: Detail, part: str) -> Detail:
    return Detail(detail.name, detail.words, detail.measure, part=part)


def _of_details(sort: str, event: Event, details: Iterable[Detail]) -> Things:
    return tuple([_thing(sort, detail, event) for detail in details])


def _thing(sort: str, detail: Detail, event: Event) -> OnTree:
    measure = detail.measure
    of_gauge = detail.name == "gauge"
    size = f"gauge {measure}" if of_gauge else _size(measure)
    words = " ".join(filter(None, (size, detail.words)))
    thickness = measure.within("mm") if measure and measure.sort == "length" else None
    return OnTree(
        sort,
        words or sort,
        detail.part,
        1 if of_gauge else _count(measure),
        event.day,
        event,
        thickness,
    )


def _count(measure: Measure | None) -> int:
    """How many: `2 mm x 4`, or 4 alone."""
    if measure is None:
        return 1
    return int(measure.number) if measure.sort == "number" else measure.count


@lru_cache(maxsize=4096)
def _size(measure: Measure | None) -> str:
    """The measure without its count."""
    if measure is None or measure.sort == "number":
        return ""
    return str(Measure(measure.numbers, measure.unit, measure.sort, measure.upper, measure.per))


def _shaded(event: Event) -> Change:
    share = event.measure("share")
    what = f"shade {share}" if share else "shade"
    return Change((OnTree("shade", what, "", 1, event.day, event),))


# What a shelter is made of.
_OF_WHAT: tuple[DetailName, ...] = ("with", "how")


def _protected(event: Event) -> Change:
    """A shelter, what lies on the ground apart from what goes with the tree; what keeps off cats
    or birds is a guard, and no frost stays away for it."""
    words = [d.words for d in event.details if d.name in _OF_WHAT and d.words]
    if is_against_weather(event):
        lying = [said for said in words if lies_there(said)]
        around = [said for said in words if said not in lying]
        if not lying:
            return Change((_cover(around, event),))
        beside = (_cover(around, event),) if around else ()
        return Change((*beside, _cover(lying, event, lies=True)))
    words += [f"against {detail.words}" for detail in event.all("against")]
    return Change((OnTree("guard", " ".join(words), "", 1, event.day, event),))


def _cover(words: Iterable[str], event: Event, *, lies: bool = False) -> OnTree:
    return OnTree(
        "protection", ", ".join(words) or "protection", "", 1, event.day, event, lies=lies
    )


def take_off(*sorts: str) -> Effect:
    """Off comes every thing of these sorts whose part holds the words named, or all of them."""

    def effect(event: Event) -> Change:
        return Change(off=sorts, parts=event.parts, stays=event.says("partly"))

    return effect


def is_meant(part: str, named: tuple[str, ...]) -> bool:
    """Whether an act on these parts of a tree (() is all of it) was done to what is on `part`.

    >>> is_meant("left 2", ("left",)), is_meant("left 2", ("left 2 tip",)), is_meant("", ("left",))
    (True, False, False)
    """
    if not named:
        return True
    whole = f" {part.casefold()} "
    return any(f" {words.casefold()} " in whole for words in named)


def remembered(sort: str, part: str) -> OnTree:
    """What is known to be on a tree, where nothing but its sort and its part is remembered."""
    return OnTree(sort, sort, part, 1, date.min, _FORGOTTEN)


_NO_DAY = WrittenDate("", date.min, date.min, False, False, False)
_FORGOTTEN = Event(as_act(""), _NO_DAY, (), "", "", "", "", "", 0, 0)

EFFECTS: Mapping[ActWord, Effect] = {
    "wired": _wired,
    "unwired": take_off("wire"),
    "planted-out": _planted_out,
    "tied": _put_on("tie", "tied"),
    "untied": take_off("tie"),
    "guyed": _put_on("guy", "guy", "gauge"),
    "unguyed": take_off("guy"),
    "wrapped": _put_on("wrap", "with", together=True),
    "unwrapped": take_off("wrap"),
    "grafted": _put_on("graft", "way", together=True),
    "layered": _put_on("layer", "way", "ring", together=True),
    "shaded": _shaded,
    "unshaded": take_off("shade"),
    "protected": _protected,
    "unprotected": take_off("protection", "guard"),
}


class Wiring(NamedTuple):
    """What a line does with wire: the parts of the tree it is `put` on, and whether it comes `off`
    the `parts` named, or all of it where none is."""

    put: tuple[str, ...]
    off: bool
    parts: tuple[str, ...]


# What puts wire on, or takes it off: root work does neither.
WIRINGS: frozenset[ActWord] = frozenset({"wired", "unwired"})


def wiring_of(event: Event) -> Wiring:
    """What a line of `WIRINGS` puts on of wire, or takes off."""
    if event.act == "unwired":
        return Wiring((), not event.says("partly"), event.parts)
    put = tuple([one.part for one in _wires(event)])
    return Wiring(put, True, event.parts) if _old_wire_off(event) else Wiring(put, False, ())


def put_on_by(act: ActForm) -> Effect | None:
    """What an act changes of what is on a tree; None where it changes nothing."""
    return EFFECTS.get(as_act(act.word)) or (_repotted if "fills_pot" in act.traits else None)


# What comes off where its line says, and nowhere else; and what puts on what so comes off.
OFF_PARTS: frozenset[ActWord] = frozenset(
    act for act in TAKEN_OFF_BY.values() if act and any(form.part for form in ROWS[act].forms)
)
ON_PARTS: frozenset[ActWord] = frozenset(
    as_act(row.word) for row in ACTS if row.undone_by in OFF_PARTS
)
