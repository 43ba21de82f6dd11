"""Says in plain words, to somebody who owns one tree, what was done to it.

Of a line it says what is typed in it: no remark, no price, no place, no person, and no free words
but what a pest was treated with.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence

from msgspec import Struct

from backbud import words
from backbud.collection.state import OnTree
from backbud.journal.events import Event
from backbud.journal.things import Thing, Things
from backbud.species.stages import stage_name
from backbud.tongue import ENGLISH, as_named, continued, decimal, phrase, spoken
from backbud_grammar.act_words import ActWord, DetailName
from backbud_grammar.forms import ANY_WORDS
from backbud_grammar.handles import folded_words
from backbud_grammar.syntax import Detail

_METALS = {"Al": "aluminium", "Cu": "copper", "annealed": "annealed copper"}
_METAL = re.compile(rf"\b(?:{'|'.join(_METALS)})\b")
# What an owner can picture: how long, how big, how many, how far round, how large a part.
_PLAIN_SORTS = frozenset({"length", "size", "number", "angle", "share", "fraction"})
_PRODUCT: tuple[DetailName, ...] = ("product", "with")
# Behind these stands a size and a metal, and these stand before their figure.
_OF_WIRE: tuple[DetailName, ...] = ("wire", "guy", "gauge", "size", "with")
_LABELLED: tuple[DetailName, ...] = ("against", "dose", "leaving", "off")
# Details that only the bench, or another person, has a use for.
_SKIPPED: frozenset[DetailName] = frozenset(
    {"by", "again", "old ties out", "share", "hole", "years", "set at", "one per"}
)


# What a pot, a mix or a material is called; "" for anything else, which is not to be named.
Called = Callable[[str], str]


def called_in(things: Things) -> Called:
    """What may be named to an owner, by any of its handles."""

    def called(written: str) -> str:
        found = things.find(written)
        if found is None or found.kind not in ("pot", "mix", "material"):
            return ""
        return pot_in_words(found) if found.kind == "pot" else found.title

    return called


def pot_in_words(pot: Thing) -> str:
    """A pot as somebody who does not know the shelf is told of it: its name, or how it looks."""
    if pot.text("name"):
        return pot.title
    looks = " ".join(filter(None, (pot.text("colour"), pot.text("shape"))))
    inside = pot.measure("inside")
    size = phrase("{sizes} inside", sizes=words.sizes(str(inside))) if inside is not None else ""
    return ", ".join(filter(None, (looks, size))) or pot.title


class DoneLine(Struct, frozen=True, gc=False):
    """What was done, in plain words, and when: `6 March`, `5 times, 12 June to 1 August`."""

    when: str
    what: str
    act: ActWord


def act_in_words(event: Event, called: Called) -> str:
    """A line in plain words."""
    said = act_alone(event)
    stage = event.measure("stage") if event.was("staged") else None
    if stage is not None:
        part = next((phrase(" on {part}", part=one.part) for one in event.details if one.part), "")
        return phrase(
            "Seen: {stage_name}{part}",
            stage_name=continued(stage_name(int(stage.numbers[0]))),
            part=part,
        )
    if "potting" in event.row.traits or event.has("mix") or event.has("off below"):
        details = list(_potting(event, called))
    elif event.was("wired", "guyed"):
        details = list(_wire(event))
    elif event.was("treated"):
        return f"{said}{_treated(event, called)}"
    elif is_plain_keep(event):
        details = []
    else:
        details = list(_typed(event, called))
    told = ", ".join(one for one in details if one.casefold() not in said.casefold())
    if not told:
        return said
    # `Wire taken off on left 2`, and `Wired: 2 mm aluminium on left 2`.
    return (
        f"{said} {told}"
        if all(one.startswith(phrase("on {part}", part="")) for one in details)
        else f"{said}: {told}"
    )


def told_plainly(
    event: Event, shown: str, stuff: Collection[str], hides: Callable[[str], bool]
) -> str:
    """A line for the page of a tree, which nobody reads over before it is handed out: as a paper
    says it where all of its details may be read, else what was done, with those that may.

    `shown`: the details that may be read, as written. `stuff`: the words of the handles of pots,
    mixes and materials; what these are called may name anybody. `hides`: whether a text names who
    or what is not to be read.
    """

    def called(handle: str) -> str:
        return handle if all(word in stuff for word in folded_words(handle)) else ""

    named = (detail.handle for detail in event.details if detail.handle)
    if shown == event.text and _is_pictured(event) and all(map(called, named)):
        told = act_in_words(event, called)
        if not hides(told):
            return told
    details = _METAL.sub(lambda found: _METALS[found[0]], shown)
    return ": ".join(filter(None, (act_alone(event), details)))


def _is_pictured(event: Event) -> bool:
    """Whether `act_in_words` tells all of a line that its owner can picture."""
    plain = event.was("staged", "wired", "guyed") or "potting" in event.row.traits
    measures = (one.measure for one in event.details if one.measure is not None)
    sorts = {measure.sort for measure in measures}
    return plain or (bool(event.row.plainly) and sorts <= _PLAIN_SORTS)


def is_plain_keep(event: Event) -> bool:
    """Whether it is daily keep whose figures are the keeper's alone: how strong the feed was."""
    return "daily_keep" in event.row.traits and not event.was("checked")


def act_alone(event: Event) -> str:
    """What was done, as its row says it to an owner."""
    return words.sentence(phrase(event.row.plainly or event.act.replace("-", " ")))


def done_lines(events: Sequence[Event], called: Called, year: int) -> tuple[DoneLine, ...]:
    """What was done, oldest first; daily keep, and what was done again and again, once."""
    shown = [event for event in events if "not_told" not in event.row.traits]
    often: dict[ActWord, list[Event]] = {}
    for event in shown:
        often.setdefault(event.act, []).append(event)
    joint = {act for act, some in often.items() if len(some) > _singly(some[0])}
    found = []
    for event in shown:
        if event.act not in joint:
            when = words.written(event.when, year)
            found.append(DoneLine(when, act_in_words(event, called), event.act))
        elif event is often[event.act][0]:
            some = often[event.act]
            days = words.between(some[0].day, some[-1].day, year)
            times = phrase("twice") if len(some) == 2 else phrase("{some} times", some=len(some))
            found.append(DoneLine(days, f"{act_alone(event)} {times}", event.act))
    return tuple(found)


def _singly(event: Event) -> int:
    """How often an act is told line by line; done more often, it is told once."""
    return 1 if "daily_keep" in event.row.traits else 3


def thing_in_words(thing: OnTree) -> str:
    """Something that is on the tree: `2.5 mm aluminium wire on left 2`."""
    what = " ".join(_METALS.get(word, word) for word in thing.what.split())
    sort = {"guy": "guy wire", "wrap": "wrapping"}.get(thing.sort, thing.sort)
    part = phrase(" on {part}", part=thing.part) if thing.part else ""
    return f"{thing_called(what, sort)}{part}".strip()


# What a thing is made of, and what it is, where a language has one word for both.
_CALLED: Mapping[tuple[str, str], Callable[[str], str]] = {
    ("Al", "wire"): lambda size: phrase("{size} Al wire", size=size),
    ("Cu", "wire"): lambda size: phrase("{size} Cu wire", size=size),
    ("Al", "guy wire"): lambda size: phrase("{size} Al guy wire", size=size),
    ("Cu", "guy wire"): lambda size: phrase("{size} Cu guy wire", size=size),
    ("Al", "anchor tie"): lambda size: phrase("{size} Al anchor tie", size=size),
    ("Cu", "anchor tie"): lambda size: phrase("{size} Cu anchor tie", size=size),
    ("annealed", "wire"): lambda size: phrase("{size} annealed wire", size=size),
    ("annealed", "guy wire"): lambda size: phrase("{size} annealed guy wire", size=size),
    ("annealed copper", "wire"): lambda size: phrase("{size} annealed copper wire", size=size),
    ("annealed copper", "guy wire"): lambda size: phrase(
        "{size} annealed copper guy wire", size=size
    ),
    ("aluminium", "wire"): lambda size: phrase("{size} aluminium wire", size=size),
    ("copper", "wire"): lambda size: phrase("{size} copper wire", size=size),
    ("aluminium", "guy wire"): lambda size: phrase("{size} aluminium guy wire", size=size),
    ("copper", "guy wire"): lambda size: phrase("{size} copper guy wire", size=size),
}


def thing_called(what: str, sort: str) -> str:
    """What a thing is made of (`1.5 mm Al`, `raffia`) and what it is (`wire`), in the language
    spoken: what the keeper calls it by other words stands as written. What protects is often no
    noun (`pot wrapped`), so it stands behind."""
    if sort == "protection" and sort not in what and what:
        own = phrase(what)
        return phrase("protection: {what}", what=as_named(what) if own == what else own)
    if spoken() == ENGLISH:
        return what if sort in what else f"{what} {sort}".strip()
    if what in ("", sort):
        return phrase(sort)
    for (metal, thing), called in _CALLED.items():
        if thing == sort and (what == metal or what.endswith(f" {metal}")):
            return called(decimal(what.removesuffix(metal).strip())).strip()
    own = phrase(what)
    if own == what and not what[0].isdigit():
        own = as_named(what)
    return phrase("{what} {sort}", what=own, sort=phrase(sort))


def _potting(event: Event, called: Called) -> Iterator[str]:
    into = event.first("into")
    if into is not None and into.handle:
        yield phrase("into the pot {called}", called=called(into.handle))
    elif event.has("same pot"):
        yield phrase("in its own pot")
    below = event.measure("off below")
    if below is not None:
        yield phrase("{below} of the root ball cut away from below", below=below)
    off = event.first("off")
    if off is not None and off.measure is not None:
        yield phrase("{measure} of the roots taken", measure=off.measure)
    wedges = [word for one in event.all("wedges") for word in one.words.split()]
    if wedges:
        yield phrase(
            "{parts} of the root ball opened, the rest left in peace",
            parts=words.number(len(wedges), "part"),
        )
    mix = event.first("mix")
    if mix is not None and mix.handle:
        yield phrase("fresh soil ({called})", called=called(mix.handle))
    if event.has("tied"):
        yield phrase("held in the pot by wires through its floor")
    if event.has("moss"):
        yield phrase("moss on top")


def _wire(event: Event) -> Iterator[str]:
    for detail in event.details:
        if detail.measure is None or detail.name not in _OF_WIRE:
            continue
        size = decimal(str(detail.measure))
        if detail.name == "gauge":
            size = phrase("gauge {number}", number=size)
        metal = " ".join(phrase(_METALS.get(word, word)) for word in detail.words.split())
        yield " ".join(
            part
            for part in (
                size,
                metal,
                phrase("on {part}", part=detail.part) if detail.part else "",
            )
            if part
        )


def _typed(event: Event, called: Called) -> Iterator[str]:
    """The details that are typed, as written; where one is named, its part of the tree."""
    forms = event.row.forms
    free = {form.name for form in forms if form.prose or form.words == ANY_WORDS}
    known = {(form.name, word) for form in forms if form.words != ANY_WORDS for word in form.words}
    for detail in event.details:
        if detail.name in _SKIPPED or detail.date:
            continue
        if detail.name in free and (detail.name, detail.words) not in known:
            continue
        if detail.measure is not None and detail.measure.sort not in _PLAIN_SORTS:
            continue
        if detail.handle and not called(detail.handle):
            continue
        yield from filter(None, [_detail(event, detail, called)])


def _treated(event: Event, called: Called) -> str:
    """`, against scale, with soft soap`: neither dose, number, hour nor wind, which the register
    keeps."""
    against = ", ".join(d.words for d in event.all("against") if d.words)
    named = (d for name in _PRODUCT for d in event.all(name))
    product = ", ".join(filter(None, (called(d.handle) if d.handle else d.words for d in named)))
    return "".join(
        f", {how} {what}"
        for how, what in ((phrase("against"), against), (phrase("with"), product))
        if what
    )


def _detail(event: Event, detail: Detail, called: Called) -> str:
    if detail.name == "except":
        return phrase("except on {part}", part=detail.part)
    if detail.handle:
        return called(detail.handle)
    label: str = "" if detail.name not in _LABELLED else detail.name
    if detail.name == "stubs":
        label = phrase("stubs of")
    measure = decimal(str(detail.measure)) if detail.measure is not None else ""
    flag = detail.name if not (measure or detail.words or detail.part) else ""
    part = phrase("on {part}", part=detail.part) if detail.part else ""
    return " ".join(one for one in (flag, label, measure, detail.words, part) if one)
