"""Lays out a tree for its page and for the list of trees: facts, what is on it, how it grows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from backbud import words
from backbud.bench.water import ESTIMATE
from backbud.collection.state import Standing, Tree
from backbud.collection.zones import WHOLE_TREE
from backbud.pages import history, work
from backbud.pages.amounts import half_gone, litres
from backbud.pages.botanical import Run, botanical_runs
from backbud.pages.drawings.axes import Drawing
from backbud.pages.drawings.root_ball import root_ball
from backbud.pages.drawings.vigour import vigour
from backbud.pages.drawings.years import YearsDrawn, years_drawn
from backbud.pages.links import INDEX, kind_page, link, place_page, tree_page
from backbud.pages.pictures import Pictures, pictures
from backbud.pages.printed.running import running
from backbud.pages.things_on import ThingRow, things_on
from backbud.pages.tree_years import YearsBeside, years_beside
from backbud.plan.water import Water
from backbud.species import Section
from backbud.tongue import decimal, full_day, phrase
from backbud.views.day import near_until
from backbud.views.forgotten import Forgotten
from backbud.views.history import DateView, ToldHistory, told_history
from backbud.views.nursery import Nursery
from backbud.views.outline import OutlineView
from backbud.views.tree import ListedView, TreeView, tree_view
from backbud.views.tree_years import tree_years
from backbud.views.work import WorkView

MOST_VIGOUR = 5

_OWNER = "belongs to"
# What of its facts stands first.
_FIRST = ("since", "pot", "mix", "strength")
_SIZES = ("trunk", "height", "spread", "root ball")

_STRENGTHS = {1: "very weak", 2: "weak", 3: "fair", 4: "strong", 5: "very strong"}
_GONE: dict[Standing, str] = {
    "not yet": "not here yet",
    "sold": "sold",
    "lent": "lent",
    "returned": "returned",
    "died": "died",
    "lost": "lost",
}


class FactRow(Struct, frozen=True, gc=False):
    """A label and its value; `private`: for the keeper's eyes only; `page`: the way to it."""

    label: str
    value: str
    private: bool = False
    page: str = ""


class Vigour(Struct, frozen=True, gc=False):
    """A zone's vigour as leaves: how many of five, and the day it was seen."""

    zone: str
    score: int
    word: str
    seen: str


class Sheet(Struct, frozen=True):
    """All that a tree's page shows.

    `works`: those that are open. `waits`: what of the far-off ones is to be known, once for all of
    them; `why`: what `backbud why` is asked for their reasons, "" where nobody can. `running`: the
    style that gives its card a title. `earlier`: the years of its history that stand on pages of
    their own.
    `drawn`: its years; `beside`: the same side by side. `kind_page`: of what is alike for all
    trees of its kind, "" where nothing is known of it.
    """

    title: str
    running: str
    page: str
    kind: str
    botanical: tuple[Run, ...]
    where: tuple[FactRow, ...]
    standing: str
    alerts: tuple[str, ...]
    facts: tuple[FactRow, ...]
    things: tuple[ThingRow, ...]
    vigour: tuple[Vigour, ...]
    zones: Drawing | None
    roots: Drawing | None
    kind_page: str
    works: work.Open
    waits: str
    why: str
    drawn: YearsDrawn | None
    beside: YearsBeside | None
    settled: tuple[work.Settled, ...]
    years: tuple[history.HistoryYear, ...]
    earlier: tuple[history.Earlier, ...]
    entries: str
    sections: tuple[Section, ...]
    pictures: Pictures


def tree_sheets(views: Sequence[Nursery]) -> list[Sheet]:
    """Lay out everything that the pages of trees show to the keeper. `views`: each of one tree.

    Every step is taken for all of them before the next: each goes through much code, which is
    sooner at hand again for another tree.
    """
    told = [told_history(view.trees[0].history) for view in views]
    shown = [shown_tree(view, view.trees[0], one) for view, one in zip(views, told, strict=True)]
    sheets = [laid_out(view, tree) for view, tree in zip(views, shown, strict=True)]
    return list(map(_for_keeper, views, told, sheets))


def _for_keeper(view: Nursery, told: ToldHistory, sheet: Sheet) -> Sheet:
    """A tree's page with what is the keeper's alone."""
    tree = view.trees[0]
    species = view.species.get(tree.handle)
    return replace(
        sheet,
        beside=years_beside(
            tree_years(told.beside, view.weather.years, view.weather.southern), view.today
        ),
        facts=tuple(_with_water(sheet.facts, _water(view.weather.water, tree.handle))),
        where=tuple(_with_folder(sheet.where, view.folders.get(tree.owner, ""))),
        kind_page=link(kind_page(species.title), "../") if species and species.facts else "",
        why=tree.handle,
        sections=view.sections.get(tree.handle, ()),
    )


def shown_tree(view: Nursery, tree: Tree, told: ToldHistory | None = None) -> TreeView:
    """A tree as the keeper is shown it. `told`: its history, where somebody went through it."""
    species = view.species.get(tree.handle)
    shown = tree_view(
        tree,
        view.plans.get(tree.handle, ()),
        view.names,
        view.today,
        botanical=species.botanical if species else "",
        bites=view.bites.get(tree.handle, ()),
        photographs=view.photographs.get(tree.handle, ()),
        late=view.late.get(tree.handle, {}),
        told=told,
    )
    return Forgotten(view.hidden).told(shown) if view.hidden else shown


def laid_out(view: Nursery, shown: TreeView, page: str = "") -> Sheet:
    """Lay out a tree as some eyes are shown it. `view`: for what names nobody: the day, the
    species, and the outline of the pot. `page`: its path, if that is not the keeper's."""
    page = page or tree_page(shown.tree)
    handle, today = view.trees[0].handle if len(view.trees) == 1 else shown.tree, view.today
    species = view.species.get(handle)
    by_year = history.dates_by_year(shown.history)
    return Sheet(
        shown.name,
        running(f"{shown.name} · {full_day(today)}"),
        page,
        shown.kind if species else kind_of(shown),
        botanical_runs(species.botanical, shown.cultivar) if species else (),
        tuple(_where(shown)),
        "" if shown.here else standing_of(shown, today.year),
        _alerts(shown),
        tuple(_facts(shown)),
        tuple(things_on(shown, today)),
        tuple(_vigour(shown, today)),
        vigour("zones", shown.looks) if shown.looks else None,
        _roots(shown, today, view.outlines.get(handle)),
        "",
        work.works_on_page(shown.due, today),
        _waits(shown, today),
        "",
        years_drawn(by_year, shown.wires, shown.due, today),
        None,
        work.settled_rows(shown.settled, today),
        *history.parted_years(history.years_of(by_year), page),
        words.number(len(shown.history), "entry", "entries"),
        (),
        pictures(shown.photographs, shown.name),
    )


def _waits(tree: TreeView, today: date) -> str:
    """Of works further ahead than those that say it themselves."""
    near = near_until(today)
    far = [one for one in tree.due if one.state == "coming" and one.best >= near]
    waiting = sum([one.waits_on_weather for one in far])
    if not waiting:
        return ""
    these = (
        phrase("what is further ahead")
        if waiting == len(far)
        else phrase("{waiting} works further ahead", waiting=waiting)
    )
    return phrase(
        "The days of {these} wait on the weather, and will move as it comes.", these=these
    )


def next_when(work: WorkView, today: date) -> str:
    """When a work is next, in few words."""
    if today > work.closes:
        return phrase("{days} late", days=words.days((today - work.closes).days))
    if today >= work.opens:
        return phrase("until {day}", day=words.day(work.closes, today.year))
    return phrase("from {day}", day=words.day(work.opens, today.year))


def kind_of(tree: TreeView | ListedView) -> str:
    """What it is, with its cultivar."""
    return f"{tree.kind} ‘{tree.cultivar}’" if tree.cultivar else tree.kind


def standing_of(tree: TreeView | ListedView, year: int) -> str:
    """What became of a tree that is not here."""
    if tree.here:
        return ""
    since = f" {words.day(tree.standing_since, year)}" if tree.standing_since else ""
    return phrase(_GONE[tree.standing]) + since


def since_told(tree: TreeView | ListedView) -> str:
    """As the card has it, so that a rough date stays rough; else the day of the replay."""
    if tree.since_written:
        return _in_words(tree.since_written)
    return full_day(tree.since) if tree.since else ""


def _in_words(when: DateView) -> str:
    """A date or span as written, with its year."""
    return words.written(when, 0)


def _alerts(tree: TreeView) -> tuple[str, ...]:
    found = {
        phrase("In quarantine: keep it apart, clean your tools."): tree.quarantined,
        phrase("Weak: no hard work on it."): tree.weak,
        phrase("Planted out in open ground."): tree.planted_out,
        phrase("Old ties are not said to be out since the last potting."): any(
            thing.from_before for thing in tree.on_it
        ),
    }
    return tuple(text for text, is_so in found.items() if is_so)


def _where(tree: TreeView) -> Iterable[FactRow]:
    """How many there are, where it stands, whose it is, and when that person wants it back."""
    if tree.batch and tree.batch.said:
        yield FactRow("", tree.batch.said)
    for told, day in tree.batch.parts() if tree.batch else ():
        yield FactRow("", phrase("{told} by {full_day}", told=told, full_day=full_day(day)))
    if tree.parted_from:
        yield FactRow(
            phrase("parted off"), tree.parted_from, page=link(tree_page(tree.parted_from), "../")
        )
    if tree.place and tree.here:
        yield FactRow(
            phrase("stands in"), tree.place_name, page=link(place_page(tree.place), "../")
        )
    if tree.owner:
        yield FactRow(phrase(_OWNER), tree.owner_name)
    if tree.wanted:
        yield FactRow(
            phrase("wanted back"), _in_words(tree.wanted_by) if tree.wanted_by else tree.wanted
        )


def _with_folder(where: Iterable[FactRow], folder: str) -> Iterable[FactRow]:
    """Where it stands and whose it is, with the way to the pages that its owner has."""
    for fact in where:
        is_owner = fact.label == phrase(_OWNER) and folder
        yield replace(fact, page=link(f"{folder}{INDEX}", "../")) if is_owner else fact


def _with_water(facts: Sequence[FactRow], drinks: str) -> Iterable[FactRow]:
    """The facts with what the tree drinks behind what it stands in."""
    first = [phrase(label) for label in _FIRST]
    at = sum([fact.label in first for fact in facts])
    water = (FactRow(phrase("water"), drinks),) if drinks else ()
    return (*facts[:at], *water, *facts[at:])


def _facts(tree: TreeView) -> Iterable[FactRow]:
    main = {
        "since": since_told(tree),
        "pot": tree.pot_name,
        "mix": tree.mix_name,
        "strength": phrase(tree.strength),
    }
    sizes = {name: tree.sizes[name] for name in _SIZES if name in tree.sizes}
    sizes |= {name: tree.sizes[name] for name in sorted(tree.sizes) if name not in sizes}
    yield from (FactRow(phrase(label), value) for label, value in main.items() if value)
    for name, measure in sizes.items():
        yield FactRow(phrase(name), decimal(words.sizes(measure)))
    for fact in tree.facts:
        yield FactRow(phrase(fact.label), words.sizes(fact.value), fact.private)
    if tree.tree and tree.name != tree.tree:
        yield FactRow(phrase("handle"), tree.tree)


def _water(water: Water, tree: str) -> str:
    """What the tree drinks and how long its pot lasts; or what to write down."""
    found = water.trees.get(tree)
    if found is not None:
        return phrase(
            "about {litres} a day now; half of what the pot holds is gone in "
            "{half_gone}. {estimate}",
            litres=litres(found.litres_now),
            half_gone=half_gone(found.days_until_half),
            estimate=phrase(ESTIMATE),
        )
    wanted = next((one.to_write for one in water.too_little if one.tree == tree), "")
    return phrase("too little is known: write down {wanted}", wanted=wanted) if wanted else ""


def _vigour(tree: TreeView, today: date) -> Iterable[Vigour]:
    for zone, score in tree.vigour.items():
        word = phrase(_STRENGTHS.get(score, ""))
        yield Vigour(
            phrase(zone) if zone == WHOLE_TREE else zone,
            score,
            word,
            words.day(tree.vigour_seen[zone], today.year),
        )


def _roots(tree: TreeView, today: date, outline: OutlineView | None) -> Drawing | None:
    """The plan of the root ball; None where no part of it was ever written down."""
    if not tree.opened and not tree.wedges_next:
        return None
    return root_ball("root-ball", tree.opened, tree.wedges_next, tree.wedges, today, outline)
