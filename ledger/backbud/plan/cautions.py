"""Finds what was done or is planned out of its time, with the line of the diary it stands on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.fold import tree_on
from backbud.collection.hard_work import extent_of
from backbud.collection.state import Entry
from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event, Origin
from backbud.journal.read import Journal
from backbud.journal.weather.records import Records
from backbud.plan.common.out_of_its_time import OUT_OF_ITS_TIME
from backbud.plan.deeds import deed_of
from backbud.plan.followups import FollowUp
from backbud.plan.hang import WOULD_BE
from backbud.plan.run import Plan, SpeciesFinder
from backbud.plan.windows import window_of_plan
from backbud.plan.year import Years
from backbud.species import Deed
from backbud_grammar.act_words import as_act

# What was done longer ago is history: no aftercare helps any more.
_LATELY = timedelta(days=150)
_DONE = ("pruned", "decandled", "defoliated")


class Caution(Struct, frozen=True):
    """What speaks against a work on a tree, and the line that it stands on, if it does."""

    tree: str
    text: str
    origin: Origin | None


def to_judge(
    journal: Journal,
    histories: Histories,
    find_species: SpeciesFinder,
    weather: Records,
    today: date,
) -> tuple[str, ...]:
    """The trees on which something was done lately, or planned, that their species speaks against,
    whatever became of it since: few, so that a check need not plan all."""
    years = Years(journal, weather, today)
    found = []
    for handle, known in histories.trees.items():
        entries = [entry for entry in known.entries if _may_be_judged(entry, today)]
        if known.standing != "here" or not entries:
            continue
        tree = tree_on(histories, journal.things, handle, today)
        species = find_species(tree.kind)
        for entry in entries if species is not None else ():
            deed = _deed(entry.event, journal.southern)
            if today - deed.last > _LATELY:
                continue
            year = years.at(tree, tree.place, deed.first, species, ())
            if year.against(tree, deed):
                found.append(handle)
                break
    return tuple(found)


def _deed(event: Event, southern: bool) -> Deed:
    if not event.was("planned", "put-off"):
        return deed_of(event)
    window = window_of_plan(event, southern)
    row = event.named_row
    roots = "root_work" in row.traits
    extent = extent_of(replace(event, act=as_act(row.word), row=row)) if row.word else "part"
    hard = extent == "hard" or (roots and extent == "usual")
    return Deed(as_act(row.word), window.opens, window.closes, hard, roots, event.text)


def cautions_of(plan: Plan, today: date) -> Iterator[Caution]:
    """What is to be said against works of a plan that are not done with."""
    for one in plan.all():
        if one.is_open(today):
            yield from _of(one)


def _may_be_judged(entry: Entry, today: date) -> bool:
    event = entry.event
    if not event.exact or entry.undone:
        return False
    if event.was("planned", "put-off"):
        return bool(event.named)
    judged = event.act in _DONE or "root_work" in event.row.traits
    return judged and today - event.day <= _LATELY


def _of(one: FollowUp) -> Iterator[Caution]:
    origin = next((reason.origin for reason in one.because if reason.origin), None)
    if f"/{OUT_OF_ITS_TIME}/" in one.id:
        said = next((reason.text for reason in one.because if reason.sort == "rule"), "")
        yield Caution(one.tree, said, origin)
    for caution in one.cautions if one.promised else ():
        if caution.startswith(WOULD_BE):
            yield Caution(one.tree, caution, origin)
