"""Writes the care sheet of a tree that goes home: what was done, what to do, when to bring it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date, timedelta

from msgspec import Struct

from backbud import words
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.plan.common.parts import on_part
from backbud.plan.followups import FollowUp
from backbud.species import Species, Window
from backbud.tongue import act_phrase, continued, phrase, work_phrase
from backbud.views import care_words as said
from backbud.views.paper import CareItem, CareStage, CareView, PaperTreeView, PartyView
from backbud.views.photograph import PhotographView, portrait
from backbud.views.plain_details import is_part_of_trade
from backbud.views.plain_words import DoneLine
from backbud_grammar.act_words import ActWord

# What lies further ahead is said on the next sheet.
AHEAD = timedelta(days=330)
# So long a treatment is warned of: longer than any label keeps people off what was treated; ours.
_TREATED = timedelta(weeks=8)
MOST = 8
MOST_BACK = 4
_ANY, _ANY_HOW = said.ANY_TIME


class CareGround(Struct, frozen=True):
    """What a care sheet is made from.

    `follow_ups`: what the tree will ask for where it goes. `place`: by whose weather, in words.
    `experience`: as the owner's card has it. `pot_depth_cm`: None where its card does not say.
    `photographs`: those that its owner may see, oldest first.
    """

    tree: Tree
    species: Species | None
    follow_ups: Sequence[FollowUp]
    events: Sequence[Event]
    done: tuple[DoneLine, ...]
    place: str
    experience: str
    pot_depth_cm: float | None
    stage: CareStage
    photographs: Sequence[PhotographView]
    today: date


def care_view(
    ground: CareGround, tree: PaperTreeView, issuer: PartyView, to: PartyView
) -> CareView:
    """The care sheet on a day."""
    fuller = is_beginner(ground.experience)
    wired = bool(ground.tree.on("wire"))
    works = _works(ground)
    winter = [one for one in works if one.act in _OF_WINTER]
    others = [one for one in works if one not in winter]
    ours = [one for one in others if _is_ours(one, fuller)]
    theirs = [one for one in others if one not in ours]
    return CareView(
        day=ground.today,
        issuer=issuer,
        to=to,
        tree=tree,
        stage=ground.stage,
        photograph=portrait(ground.photographs),
        place=ground.place,
        fuller=fuller,
        done=ground.done,
        do=tuple(_items(theirs, MOST, ground.today, fuller)),
        winter=(*_items(winter, MOST, ground.today, fuller), *_winter(ground, fuller)),
        leave=tuple(_leave(ground, fuller)),
        water=tuple(_water(ground, fuller)),
        stands=tuple(_stands(ground, fuller)),
        trouble=said.trouble(ground.tree.kind, wired=wired, fuller=fuller),
        back=(
            *_items(ours, MOST_BACK, ground.today, fuller),
            CareItem(phrase(_ANY), "", phrase(_ANY_HOW)),
        ),
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


def _items(works: Sequence[FollowUp], most: int, today: date, fuller: bool) -> Iterator[CareItem]:
    """The first of them, one of each sort, and what must be before what may."""
    by_sort: dict[object, list[FollowUp]] = {}
    for one in works:
        by_sort.setdefault(_sort(one), []).append(one)
    chosen = sorted(by_sort.values(), key=lambda some: not some[0].weight.must)[:most]
    for some in by_sort.values():
        if some in chosen:
            yield _item(some, today, fuller)


def _sort(one: FollowUp) -> object:
    """What is one thing to an owner, of one rule, whichever part of the tree it is done to."""
    return one.act, one.group.partition("/")[0]


def _item(some: Sequence[FollowUp], today: date, fuller: bool) -> CareItem:
    """One piece of advice; what several parts ask for is said of none of them."""
    one = some[0]
    because = next((reason.text for reason in one.because if reason.sort == "rule"), "")
    says_why = fuller or one.weight.at_stake != "style"
    parts = {each.part for each in some}
    title = _title(one, one.part if len(parts) > 1 else "")
    return CareItem(title, care_days(one.window_on(today), today), because if says_why else "")


def _title(one: FollowUp, part: str) -> str:
    """A work as its owner is told of it, without a part of the tree."""
    whole = phrase(one.what)
    what = whole.removesuffix(on_part("", part)).strip() if part else whole
    own = what if one.own_words else ""
    if not (is_part_of_trade(own) and (part or is_part_of_trade(one.part))):
        # A plan may be written in any words, and so may a part.
        what = ""
    told = _TOLD.get(one.act)
    if told:
        return told(what).rstrip()
    title = one.title if what == whole else work_phrase(act_phrase(one.row.bare or one.act), what)
    return words.sentence(title)


# What winter asks for stands together.
_OF_WINTER: frozenset[ActWord] = frozenset({"protected", "unprotected"})
# Each work that an owner is told of in other words than the bench has, from what stands behind its
# first word.
_TOLD: Mapping[ActWord, Callable[[str], str]] = {
    "fed": lambda what: phrase("Feed it {what}", what=what),
    "unprotected": lambda what: phrase("Take its winter shelter off"),
    "vigour": lambda what: phrase("See whether it grows again, and tell us"),
    "protected": lambda what: (
        phrase("Protect it {what}", what=what)
        if what.startswith(phrase("against {what}", what=""))
        else phrase("Protect {what}", what=what)
    ),
    "checked": lambda what: (
        phrase("Look {what}", what=what)
        if what.startswith(phrase("for {what}", what=""))
        else phrase("Look at the {what}", what=what)
    ),
    "untied": lambda what: phrase("Take out the wires that tie it into its pot"),
    "unwired": lambda what: phrase("Cut off the wire {what}", what=what),
    "unguyed": lambda what: phrase("Cut off the guy wires {what}", what=what),
    "unwrapped": lambda what: phrase(
        "Take the wrapping off {removeprefix}",
        removeprefix=what.removeprefix(phrase("on {part}", part="")),
    ),
    "repotted": lambda what: phrase("Repotting {what}", what=what),
    "wired": lambda what: phrase("Wiring: {what}", what=what) if what else phrase("Wiring"),
    "treated-deadwood": lambda what: (
        phrase("The deadwood, {what}", what=what) if what else phrase("The deadwood")
    ),
}


def care_days(window: Window, today: date) -> str:
    """`between 4 and 20 May`, `now, until 6 March`."""
    year = today.year
    if window.closes < today:
        return phrase("now")
    if window.opens <= today:
        return phrase("now, until {day}", day=words.day(window.closes, year))
    return words.between(window.opens, window.closes, year)


def _leave(ground: CareGround, fuller: bool) -> Iterator[CareItem]:
    """What not to do, and until when: the last of each, from what was done here."""
    today = ground.today
    until: dict[str, tuple[date | None, str]] = {}
    begins: dict[str, date] = {}
    for one in _works(ground):
        opens = one.window_on(today).opens
        begins[one.act] = min(opens, begins.get(one.act, opens))
    for event in ground.events:
        traits = {*event.row.traits, event.act}
        if "cuts_roots" in traits:
            traits.add("root_work")
        for key in (key for key in said.LEAVE if key in traits):
            for what, weeks, why in said.LEAVE[key]:
                ends = event.day + timedelta(weeks=weeks) if weeks else None
                if ends is not None:
                    ends = min(ends, begins.get(said.ENDS_WITH.get(what, ""), ends))
                if ends is not None and ends <= today:
                    continue
                if key == "wired" and not ground.tree.on("wire"):
                    continue
                before = until.get(what)
                if before is None or (before[0] and ends and ends > before[0]):
                    until[what] = ends, why
    for what, (ends, why) in until.items():
        yield CareItem(
            phrase(what),
            phrase("before {day}", day=words.day(ends, today.year))
            if ends and what not in said.UNDATED
            else "",
            phrase(why),
        )
    for what, why in said.ALWAYS_LEAVE[1 if _lives_indoors(ground.tree) else 0 :]:
        if fuller:
            yield CareItem(phrase(what), "", phrase(why))
    if ground.species is not None:
        for never in ground.species.never:
            yield CareItem(phrase(never).rstrip("."), "", "")


def _winter(ground: CareGround, fuller: bool) -> Iterator[CareItem]:
    """What winter asks for of any tree of its sort; somebody who knows is told how it drinks."""
    found: Sequence[tuple[str, str]]
    if _lives_indoors(ground.tree):
        found = said.WINTER_INDOORS
    elif ground.species is not None and ground.species.evergreen:
        found = said.WINTER_GREEN
    else:
        found = said.WINTER_BARE
    for what, how in found if fuller else found[:1]:
        yield CareItem(phrase(what), "", phrase(how))


def _lives_indoors(tree: Tree) -> bool:
    kind = tree.kind.casefold()
    return any(word in kind for word in said.INDOORS_KINDS)


def _water(ground: CareGround, fuller: bool) -> Iterator[str]:
    """How to water this pot: what its kind wants, once, then how it is done."""
    species = ground.species
    of_kind = [one for one in species.advice if _is_of_water(one)] if species is not None else []
    if species is not None and species.water is not None:
        value = phrase(species.water.value).rstrip(".")
        yield phrase("What its kind wants: {what}.", what=continued(value))
    elif of_kind:
        yield _whole(of_kind[0])
    yield from map(phrase, said.WATER)
    depth = ground.pot_depth_cm
    if depth is not None:
        yield phrase(said.SHALLOW if depth < 8 else said.DEEP, depth=depth)
    if fuller:
        yield from map(phrase, said.WATER_FULLER)


def _stands(ground: CareGround, fuller: bool) -> Iterator[str]:
    """Where it is best kept, and what its kind asks for; nothing twice."""
    species = ground.species
    if species is None:
        return
    told = [fact.value for fact in (species.water, species.light) if fact is not None]
    if species.light is not None:
        yield _whole(told[-1])
    # What is said of its water or its light in more words is said where that stands.
    found = [
        one
        for one in species.advice
        if not (_is_of_water(one) or any(_begins_as(one, t) for t in told))
    ]
    yield from map(_whole, found if fuller else found[:2])


def _is_of_water(text: str) -> bool:
    return text.casefold().startswith("water ")


def _begins_as(one: str, other: str) -> bool:
    """Whether two sentences begin with the same two words."""
    return _first_words(one) == _first_words(other)


def _first_words(text: str) -> list[str]:
    return [word.strip(",;:") for word in text.casefold().split()[:2]]


def _whole(text: str) -> str:
    """A sentence, with a capital and a stop."""
    return words.sentence(phrase(text).rstrip(".")) + "."


def _cautions(ground: CareGround) -> Iterator[str]:
    """What can hurt whoever cares for it, or their animals."""
    species = ground.species
    if species is not None and species.toxicity is not None:
        yield phrase(species.toxicity.value)
    treated = [event.day for event in ground.events if event.was("treated")]
    if treated and ground.today - max(treated) < _TREATED:
        yield (
            phrase(
                "It was treated against pest or disease here. Wash your hands after "
                "touching it, and keep children and animals off it for as long as the "
                "product's label says."
            )
        )
    if ground.tree.on("wire", "guy"):
        yield phrase("Cut ends of wire are sharp; mind your eyes when you lean over it.")
