"""A tree comes in; the facts of its page come out: what it is, what is on it, how it grows."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from itertools import chain

from msgspec import Struct

from backbud import words
from backbud.bench.water import ESTIMATE
from backbud.collection.state import OnTree, Standing, Tree
from backbud.collection.zones import WHOLE_TREE, zone_scores
from backbud.pages import history, work
from backbud.pages.amounts import half_gone, litres
from backbud.pages.botanical import Run, botanical_runs
from backbud.pages.drawings.axes import Drawing
from backbud.pages.drawings.root_ball import root_ball
from backbud.pages.drawings.vigour import vigour
from backbud.pages.links import link, tree_page
from backbud.plan.water import Water
from backbud.species import Section
from backbud.views.facts import SpeciesFact
from backbud.views.nursery import Nursery
from backbud_grammar.dates import read_span
from backbud_grammar.problems import Misread

MOST_VIGOUR = 5

# Facts of a card that the page shows elsewhere, or that only the compiler needs.
_SHOWN_ELSEWHERE = frozenset(
    {"kind", "name", "since", "formerly", "owner", "place", "pot", "mix", "strength", "wanted",
     "trunk", "height", "spread", "root ball", "wedges"}
)  # fmt: skip
_FOR_THE_KEEPER = frozenset({"note", "value"})
_SIZES = ("trunk", "height", "spread", "root ball")

# What goes together, in the order the page shows it.
_SORTS = {
    "wire": "wire", "guy": "guy wire", "wrap": "wrapping", "tie": "anchor tie", "mesh": "mesh",
    "graft": "graft", "layer": "layer", "protection": "protection", "shade": "shade",
}  # fmt: skip
_SORT_ORDER = {sort: at for at, sort in enumerate(_SORTS)}

_GONE: dict[Standing, str] = {
    "not yet": "not here yet",
    "sold": "sold",
    "lent": "lent",
    "returned": "returned",
    "died": "died",
    "lost": "lost",
}


class Fact(Struct, frozen=True):
    """A label and its value; `private`: for the keeper's eyes only."""

    label: str
    value: str
    private: bool = False


class Thing(Struct, frozen=True):
    """Something on the tree or in its pot: what, where, since when and how long.

    `bites`: when it is reckoned to bite, in words.
    """

    what: str
    part: str
    since: str
    iso: str
    long: str
    at: str
    from_before: bool
    bites: str = ""


class Vigour(Struct, frozen=True):
    """A zone's vigour as leaves: how many of five, and the day it was seen."""

    zone: str
    score: int
    word: str
    seen: str


class Sheet(Struct, frozen=True):
    """All that a tree's page shows."""

    title: str
    page: str
    kind: str
    botanical: tuple[Run, ...]
    where: tuple[Fact, ...]
    standing: str
    alerts: tuple[str, ...]
    facts: tuple[Fact, ...]
    things: tuple[Thing, ...]
    vigour: tuple[Vigour, ...]
    zones: Drawing | None
    roots: Drawing | None
    species: str
    species_facts: tuple[SpeciesFact, ...]
    board: work.Board
    settled: tuple[work.Settled, ...]
    years: tuple[history.Year, ...]
    entries: str
    sections: tuple[Section, ...]


class Listed(Struct, frozen=True):
    """A tree's line in the list of all trees."""

    title: str
    page: str
    kind: str
    since: str
    place: str
    owner: str
    standing: str
    next_task: str
    next_when: str
    late: bool


def sheet_of(view: Nursery, tree: Tree) -> Sheet:
    """Gather everything that a tree's page shows."""
    species = view.species.get(tree.handle)
    return Sheet(
        tree.title,
        tree_page(tree.handle),
        tree.kind if species else _kind(tree),
        botanical_runs(species.botanical, tree.cultivar) if species else (),
        tuple(_where(view, tree)),
        "" if tree.here else _standing(tree, view.today.year),
        _alerts(tree),
        tuple(_facts(view, tree)),
        tuple(_things(view, tree)),
        tuple(_vigour(zone.name, zone.score, zone.day, view.today) for zone in tree.zones),
        _zones(tree),
        _roots(view, tree),
        species.title if species else "",
        species.facts if species else (),
        work.board(work.items(view, tree, lambda plan: work.row(view, plan, tree)), view.today),
        work.settled(view, tree),
        history.years_of(tree.history),
        words.number(len(tree.history), "entry", "entries"),
        view.sections.get(tree.handle, ()),
    )


def listed(view: Nursery, tree: Tree) -> Listed:
    """A tree's line in the list, with the next work that is open on it."""
    today = view.today
    # That which stands first on its own page.
    plan = next((item.shown for item in chain(*work.items(view, tree, lambda plan: plan))), None)
    late = bool(plan and plan.state(today) == "overdue")
    return Listed(
        tree.title,
        link(tree_page(tree.handle)),
        _kind(tree),
        _since(tree),
        view.name(tree.place),
        view.name(tree.owner),
        _standing(tree, today.year),
        words.sentence(plan.title) if plan else "",
        _next_when(plan.window.opens, plan.window.closes, today) if plan else "",
        late,
    )


def _next_when(opens: date, closes: date, today: date) -> str:
    if today > closes:
        return f"{words.days((today - closes).days)} late"
    if today >= opens:
        return f"until {words.day(closes, today.year)}"
    return f"from {words.day(opens, today.year)}"


def _kind(tree: Tree) -> str:
    return f"{tree.kind} ‘{tree.cultivar}’" if tree.cultivar else tree.kind


def _standing(tree: Tree, year: int) -> str:
    if tree.here:
        return ""
    since = f" {words.day(tree.standing_since, year)}" if tree.standing_since else ""
    return _GONE[tree.standing] + since


def _since(tree: Tree) -> str:
    """As the card has it, so that a rough date stays rough; else the day of the replay."""
    in_words = _date_in_words(tree.facts.get("since", ""))
    return in_words or (words.full_day(tree.since) if tree.since else "")


def _date_in_words(text: str) -> str:
    """A date or span as written, with its year; "" where it is none."""
    try:
        return words.written(read_span(text), 0)
    except Misread:
        return ""


def _alerts(tree: Tree) -> tuple[str, ...]:
    found = {
        "In quarantine: keep it apart, clean your tools.": tree.quarantined,
        "Weak: no hard work on it.": tree.weak,
        "Planted out in open ground.": tree.planted_out,
        "Something from before the last repotting is still on it.": any(
            thing.from_before for thing in tree.on_tree
        ),
    }
    return tuple(text for text, is_so in found.items() if is_so)


def _where(view: Nursery, tree: Tree) -> Iterable[Fact]:
    """Where it stands, whose it is, and when that person wants it back."""
    if tree.place and tree.here:
        yield Fact("stands in", view.name(tree.place))
    if tree.owner:
        yield Fact("belongs to", view.name(tree.owner))
    if tree.wanted:
        yield Fact("wanted back", _date_in_words(tree.wanted) or tree.wanted)


def _facts(view: Nursery, tree: Tree) -> Iterable[Fact]:
    main = {
        "since": _since(tree),
        "pot": view.name(tree.pot),
        "mix": view.name(tree.mix),
        "strength": tree.strength,
    }
    water = _water(view.weather.water, tree.handle)
    sizes = {name: tree.sizes[name] for name in _SIZES if name in tree.sizes}
    sizes |= {name: tree.sizes[name] for name in sorted(tree.sizes) if name not in sizes}
    yield from (Fact(label, value) for label, value in main.items() if value)
    if water:
        yield Fact("water", water)
    yield from (Fact(name, words.sizes(str(measure))) for name, measure in sizes.items())
    for label in sorted(tree.facts):
        if label not in _SHOWN_ELSEWHERE and tree.facts[label]:
            yield Fact(label, words.sizes(tree.facts[label]), label in _FOR_THE_KEEPER)
    if tree.name:
        yield Fact("handle", tree.handle)


def _water(water: Water, tree: str) -> str:
    """What the tree drinks and how long its pot lasts; or what to write down."""
    found = water.trees.get(tree)
    if found is not None:
        return (
            f"about {litres(found.litres_now)} a day now; half of what the pot holds is gone in "
            f"{half_gone(found.days_until_half)}. {ESTIMATE}"
        )
    wanted = next((one.to_write for one in water.too_little if one.tree == tree), "")
    return f"too little is known: write down {wanted}" if wanted else ""


def _thing_order(thing: OnTree) -> tuple[bool, int, date, int, str]:
    sort = _SORT_ORDER.get(thing.sort, len(_SORT_ORDER))
    return not thing.from_before, sort, thing.since, thing.event.line, thing.part


def _things(view: Nursery, tree: Tree) -> Iterable[Thing]:
    """What is on the tree, what should be out of it first."""
    bites = view.bites.get(tree.handle) or (None,) * len(tree.on_tree)
    on_it = sorted(zip(tree.on_tree, bites, strict=True), key=lambda pair: _thing_order(pair[0]))
    return (_thing(thing, bite, view.today) for thing, bite in on_it)


def _thing(thing: OnTree, bite: date | None, today: date) -> Thing:
    sort = _SORTS.get(thing.sort, thing.sort)
    what = thing.what if sort in thing.what else f"{thing.what} {sort}".strip()
    return Thing(
        words.sentence(what) + (f" × {thing.count}" if thing.count > 1 else ""),
        thing.part,
        words.day(thing.since, today.year),
        thing.since.isoformat(),
        words.days((today - thing.since).days),
        str(thing.event.origin),
        thing.from_before,
        _bites(bite, today) if bite else "",
    )


def _bites(bite: date, today: date) -> str:
    day = words.day(bite, today.year)
    if bite < today:
        return f"should have begun to bite about {day}, look at it"
    return f"bites about {day}"


def _vigour(zone: str, score: int, seen: date, today: date) -> Vigour:
    # The trade's three words on the five steps.
    word = {1: "very weak", 2: "weak", 3: "fair", 4: "strong", 5: "very strong"}.get(score, "")
    return Vigour(zone, score, word, words.day(seen, today.year))


def _zones(tree: Tree) -> Drawing | None:
    """How each zone grew at every look; None where the tree was only looked at as a whole."""
    looks: dict[date, dict[str, int]] = {}
    for entry in tree.history:
        scores = dict(zone_scores(entry.event)) if entry.event.exact and not entry.undone else {}
        if scores:
            looks.setdefault(entry.event.day, {}).update(scores)
    named = {zone for scores in looks.values() for zone in scores} - {WHOLE_TREE}
    return vigour("zones", looks) if named else None


def _roots(view: Nursery, tree: Tree) -> Drawing | None:
    """The plan of the root ball; None where no part of it was ever written down."""
    opened = dict(tree.opened)
    plans = view.plans.get(tree.handle, ())
    coming = next((plan.wedges for plan in plans if plan.wedges and plan.is_open(view.today)), ())
    if not opened and not coming:
        return None
    said = tree.facts.get("wedges", "")
    count = said if said.isdecimal() else ""
    return root_ball(
        "root-ball", opened, coming, int(count) if int(count or 0) >= 2 else None, view.today
    )
