"""Says in plain words, to somebody who owns one tree, what was done to it.

Of a line it says what is typed in it: no remark, no price, no place, no person, and no free words
but what a pest was treated with.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from msgspec import Struct

from backbud import words
from backbud.collection.state import OnTree
from backbud.journal.events import Event
from backbud.journal.things import Things
from backbud_grammar.forms import ANY_WORDS
from backbud_grammar.measures import is_money
from backbud_grammar.syntax import Detail

# What each act is to its owner; what is not here goes by its own word.
_SAID: Mapping[str, str] = {
    "received": "came to us",
    "unwired": "wire taken off",
    "guyed": "branches drawn into place with guy wires",
    "unguyed": "guy wires taken off",
    "decandled": "this year's candles cut, so that a second, shorter growth comes",
    "defoliated": "leaves cut off",
    "disbudded": "flower buds taken off before they open",
    "deadheaded": "spent flowers and their seed taken off",
    "rubbed": "buds rubbed off",
    "plucked": "old needles plucked",
    "pinched": "soft tips pinched",
    "thinned": "thinned, for light inside",
    "treated-deadwood": "deadwood treated",
    "separated": "a layer or graft cut free",
    "sealed": "cuts sealed",
    "top-dressed": "fresh soil laid on top",
    "root-pruned": "roots pruned",
    "potted-on": "moved into a larger pot",
    "slipped": "moved into a larger pot, roots left alone",
    "opened": "the surface of the soil raked open",
    "untied": "the ties that held it in the pot taken out",
    "protected": "sheltered from the cold",
    "unprotected": "shelter taken off",
    "shaded": "shaded",
    "unshaded": "shade taken off",
    "quarantined": "kept apart from other trees",
    "released": "out of quarantine",
    "checked": "looked over",
    "refronted": "given a new front",
    "shown": "shown at an exhibition",
    "ready": "ready to go home",
    "returned": "went home",
    "asked-after": "asked after",
}
_METALS = {"Al": "aluminium", "Cu": "copper", "annealed": "annealed copper"}
_PRODUCT = frozenset({"with", "product", "against", "dose", "number"})
# Details that only the bench, or another person, has a use for.
_SKIPPED = frozenset({"by", "again", "old ties out", "share", "hole"})
# Daily keep: told once and together, whatever else was done.
KEEP = frozenset({"fed", "watered", "soaked", "flushed", "weeded", "cleaned", "turned", "checked"})
# Where it stood is ours to know.
_OURS = frozenset({"moved", "turned", "watered", "valued", "counted"})


# What a pot, a mix or a material is called; "" for anything else, which is not to be named.
Called = Callable[[str], str]


def called_in(things: Things) -> Called:
    """What may be named to an owner, by any of its handles."""

    def called(written: str) -> str:
        found = things.find(written)
        known = found is not None and found.kind in ("pot", "mix", "material")
        return found.title if found is not None and known else ""

    return called


class DoneLine(Struct, frozen=True, gc=False):
    """What was done, in plain words, and when: `6 March`, `5 times, 12 June to 1 August`."""

    when: str
    what: str
    act: str


def act_in_words(event: Event, called: Called) -> str:
    """A line in plain words."""
    said = words.sentence(_SAID.get(event.act, event.act.replace("-", " ")))
    if "potting" in event.row.traits or event.has("mix") or event.has("off below"):
        details = list(_potting(event, called))
    elif event.was("wired", "guyed"):
        details = list(_wire(event))
    else:
        details = list(_typed(event, called))
    return f"{said}: {', '.join(details)}" if details else said


def done_lines(events: Sequence[Event], called: Called, year: int) -> tuple[DoneLine, ...]:
    """What was done, oldest first; daily keep, and what was done again and again, once."""
    shown = [event for event in events if event.act not in _OURS]
    often: dict[str, list[Event]] = {}
    for event in shown:
        often.setdefault(event.act, []).append(event)
    joint = {act for act, some in often.items() if len(some) > (1 if act in KEEP else 3)}
    found = []
    for event in shown:
        if event.act not in joint:
            when = words.written(event.when, year)
            found.append(DoneLine(when, act_in_words(event, called), event.act))
        elif event is often[event.act][0]:
            some = often[event.act]
            days = words.between(some[0].day, some[-1].day, year)
            said = words.sentence(_SAID.get(event.act, event.act))
            times = "twice" if len(some) == 2 else f"{len(some)} times"
            found.append(DoneLine(days, f"{said} {times}", event.act))
    return tuple(found)


def thing_in_words(thing: OnTree) -> str:
    """Something that is on the tree: `2.5 mm aluminium wire on left 2`."""
    what = " ".join(_METALS.get(word, word) for word in thing.what.split())
    sort = {"guy": "guy wire", "wrap": "wrapping"}.get(thing.sort, thing.sort)
    return f"{what} {sort}{f' on {thing.part}' if thing.part else ''}".strip()


def _potting(event: Event, called: Called) -> Iterator[str]:
    into = event.first("into")
    if into is not None and into.handle:
        yield f"into the pot {called(into.handle)}"
    elif event.has("same pot"):
        yield "in its own pot"
    below = event.measure("off below")
    if below is not None:
        yield f"{below} of the root ball cut away from below"
    off = event.first("off")
    if off is not None and off.measure is not None:
        yield f"{off.measure} of the roots taken"
    wedges = [word for one in event.all("wedges") for word in one.words.split()]
    if wedges:
        yield f"{words.number(len(wedges), 'part')} of the root ball opened, the rest left in peace"
    mix = event.first("mix")
    if mix is not None and mix.handle:
        yield f"fresh soil ({called(mix.handle)})"
    if event.has("tied"):
        yield "held in the pot by wires through its floor"
    if event.has("moss"):
        yield "moss on top"


def _wire(event: Event) -> Iterator[str]:
    for detail in event.details:
        if detail.measure is None or detail.name not in ("wire", "guy", "size", "with"):
            continue
        metal = " ".join(_METALS.get(word, word) for word in detail.words.split())
        yield " ".join(
            part
            for part in (str(detail.measure), metal, f"on {detail.part}" if detail.part else "")
            if part
        )


def _typed(event: Event, called: Called) -> Iterator[str]:
    """The details that are typed, as written; where one is named, its part of the tree."""
    free = {form.name for form in event.row.forms if form.prose or form.words == ANY_WORDS}
    for detail in event.details:
        if detail.name in _SKIPPED or (detail.measure and is_money(detail.measure.sort)):
            continue
        if detail.date or (detail.name in free and not _is_product(event, detail)):
            continue
        if detail.handle and not called(detail.handle):
            continue
        yield from filter(None, [_detail(event, detail, called)])


def _is_product(event: Event, detail: Detail) -> bool:
    return event.act == "treated" and detail.name in _PRODUCT


def _detail(event: Event, detail: Detail, called: Called) -> str:
    if detail.handle:
        return called(detail.handle)
    label = "" if detail.name not in ("against", "dose", "leaving", "off") else detail.name
    measure = str(detail.measure) if detail.measure is not None else ""
    flag = detail.name if not (measure or detail.words or detail.part) else ""
    part = f"on {detail.part}" if detail.part else ""
    return " ".join(one for one in (flag, label, measure, detail.words, part) if one)
