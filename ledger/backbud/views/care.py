"""Writes the care sheet of a tree that goes home: what was done, what to do, when to bring it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date, timedelta

from msgspec import Struct

from backbud import words
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.plan.followups import FollowUp
from backbud.species import Species, Window
from backbud.views import care_words as said
from backbud.views.paper import CareItem, CareView, PaperTreeView, PartyView
from backbud.views.plain_words import DoneLine
from backbud_grammar.act_words import ActWord

# What lies further ahead is said on the next sheet.
AHEAD = timedelta(days=330)
MOST = 8
MOST_BACK = 4


class CareGround(Struct, frozen=True):
    """What a care sheet is made from.

    `follow_ups`: what the tree will ask for where it goes. `place`: by whose weather, in words.
    `experience`: as the owner's card has it. `pot_depth_cm`: None where its card does not say.
    `mix`: what its mix is called, "" where nobody says.
    """

    tree: Tree
    species: Species | None
    follow_ups: Sequence[FollowUp]
    events: Sequence[Event]
    done: tuple[DoneLine, ...]
    place: str
    experience: str
    pot_depth_cm: float | None
    mix: str
    today: date


def care_view(
    ground: CareGround, tree: PaperTreeView, issuer: PartyView, to: PartyView
) -> CareView:
    """The care sheet on a day."""
    fuller = is_beginner(ground.experience)
    wired = bool(ground.tree.on("wire"))
    works = [one for one in _works(ground) if not _is_ours(one, fuller)]
    back = [one for one in _works(ground) if _is_ours(one, fuller)]
    return CareView(
        day=ground.today,
        issuer=issuer,
        to=to,
        tree=tree,
        place=ground.place,
        fuller=fuller,
        done=ground.done,
        do=tuple(_item(one, ground.today, fuller) for one in _first(works, MOST)),
        leave=tuple(_leave(ground, fuller)),
        water=tuple(_water(ground, fuller)),
        stands=tuple(_stands(ground, fuller)),
        trouble=said.trouble(ground.tree.kind, wired=wired, fuller=fuller),
        back=tuple(_item(one, ground.today, fuller) for one in _first(back, MOST_BACK)),
        cautions=tuple(_cautions(ground)),
    )


def is_beginner(experience: str) -> bool:
    """Whether a card says of a person that everything is to be said in full; so it is where it says
    nothing."""
    told = experience.casefold()
    return not told or any(word in told for word in said.BEGINNERS)


def _works(ground: CareGround) -> list[FollowUp]:
    """What still wants doing within the year, soonest first."""
    today = ground.today
    found = [
        one
        for one in ground.follow_ups
        if one.is_open(today)
        and "keepers_affair" not in one.row.traits
        and one.window_on(today).best <= today + AHEAD
    ]
    return sorted(found, key=lambda one: (one.window_on(today).best, one.title))


def _is_ours(one: FollowUp, fuller: bool) -> bool:
    roots = one.act == "checked" and "checked roots" in one.settled_by
    traits = one.row.traits
    return roots or "skilled" in traits or (fuller and "practised" in traits)


def _first(works: Sequence[FollowUp], most: int) -> list[FollowUp]:
    """The first of them, one of each sort, and what must be before what may."""
    by_sort: dict[object, FollowUp] = {}
    for one in works:
        by_sort.setdefault(_sort(one), one)
    chosen = sorted(by_sort.values(), key=lambda one: not one.weight.must)[:most]
    return [one for one in works if one in chosen]


def _sort(one: FollowUp) -> object:
    """What is one thing to an owner, of one rule, whichever part of the tree it is done to."""
    return one.act, one.group.partition("/")[0]


def _item(one: FollowUp, today: date, fuller: bool) -> CareItem:
    because = next((reason.text for reason in one.because if reason.sort == "rule"), "")
    says_why = fuller or one.weight.at_stake != "style"
    return CareItem(_title(one), when(one.window_on(today), today), because if says_why else "")


def _title(one: FollowUp) -> str:
    """A work as its owner is told of it."""
    told = _TOLD.get(one.act)
    return told(one.title.partition(" ")[2]).rstrip() if told else words.sentence(one.title)


# Each work that an owner is told of in other words than the bench has, from what stands behind its
# first word.
_TOLD: Mapping[ActWord, Callable[[str], str]] = {
    "fed": lambda what: f"Feed it {what}",
    "unprotected": lambda what: "Take its winter shelter off",
    "protected": lambda what: f"Protect {'it ' if what.startswith('against') else ''}{what}",
    "checked": lambda what: f"Look {what if what.startswith('for ') else f'at the {what}'}",
    "untied": lambda what: "Take out the wires that tie it into its pot",
    "unwired": lambda what: f"Cut off the wire {what}",
    "unguyed": lambda what: f"Cut off the guy wires {what}",
    "unwrapped": lambda what: f"Take the wrapping off {what.removeprefix('on ')}",
    "repotted": lambda what: f"Repotting {what}",
    "wired": lambda what: f"Wiring: {what}" if what else "Wiring",
    "treated-deadwood": lambda what: f"The deadwood, {what}" if what else "The deadwood",
}


def when(window: Window, today: date) -> str:
    """`between 4 and 20 May`, `now, until 6 March`."""
    year = today.year
    if window.closes < today:
        return "soon"
    if window.opens <= today:
        return f"now, until {words.day(window.closes, year)}"
    return words.between(window.opens, window.closes, year)


def _leave(ground: CareGround, fuller: bool) -> Iterator[CareItem]:
    """What not to do, and until when: the last of each, from what was done here."""
    today = ground.today
    until: dict[str, tuple[date | None, str]] = {}
    for event in ground.events:
        traits = {*event.row.traits, event.act}
        if "cuts_roots" in traits:
            traits.add("root_work")
        for key in (key for key in said.LEAVE if key in traits):
            for what, weeks, why in said.LEAVE[key]:
                ends = event.day + timedelta(weeks=weeks) if weeks else None
                if ends is not None and ends <= today:
                    continue
                if key == "wired" and not ground.tree.on("wire"):
                    continue
                before = until.get(what)
                if before is None or (before[0] and ends and ends > before[0]):
                    until[what] = ends, why
    for what, (ends, why) in until.items():
        yield CareItem(
            what,
            f"before {words.day(ends, today.year)}" if ends and what not in said.UNDATED else "",
            why,
        )
    kind = ground.tree.kind.casefold()
    indoors = any(word in kind for word in said.INDOORS_KINDS)
    for what, why in said.ALWAYS_LEAVE[1 if indoors else 0 :]:
        if fuller:
            yield CareItem(what, "", why)
    if ground.species is not None:
        for never in ground.species.never:
            yield CareItem(never.rstrip("."), "", "")


def _water(ground: CareGround, fuller: bool) -> Iterator[str]:
    yield from said.WATER
    depth = ground.pot_depth_cm
    if depth is not None:
        yield (said.SHALLOW if depth < 8 else said.DEEP).format(depth=depth)
    if fuller:
        yield from said.WATER_FULLER
    species = ground.species
    if species is None:
        return
    if species.water is not None:
        yield _whole(species.water.value)
    yield from (_whole(one) for one in species.advice if _is_of_water(one))


def _stands(ground: CareGround, fuller: bool) -> Iterator[str]:
    """Where it is best kept, and what its kind asks for; nothing twice."""
    species = ground.species
    if species is None:
        return
    told = [_whole(fact.value) for fact in (species.water, species.light) if fact is not None]
    if species.light is not None:
        yield told[-1]
    # What is said of its water or its light in more words is said where that stands.
    found = [
        one
        for one in map(_whole, species.advice)
        if not (_is_of_water(one) or any(_begins_as(one, t) for t in told))
    ]
    yield from found if fuller else found[:2]


def _is_of_water(text: str) -> bool:
    return text.casefold().startswith("water ")


def _begins_as(one: str, other: str) -> bool:
    """Whether two sentences begin with the same two words."""
    return _first_words(one) == _first_words(other)


def _first_words(text: str) -> list[str]:
    return [word.strip(",;:") for word in text.casefold().split()[:2]]


def _whole(text: str) -> str:
    """A sentence, with a capital and a stop."""
    return words.sentence(text.rstrip(".")) + "."


def _cautions(ground: CareGround) -> Iterator[str]:
    """What can hurt whoever cares for it, or their animals."""
    species = ground.species
    if species is not None and species.toxicity is not None:
        yield species.toxicity.value
    if any(event.act == "treated" for event in ground.events):
        yield (
            "It was treated against pest or disease here. Wash your hands after touching it, and "
            "keep children and animals off it for as long as the product's label says."
        )
    if ground.tree.on("wire", "guy"):
        yield "Cut ends of wire are sharp; mind your eyes when you lean over it."
