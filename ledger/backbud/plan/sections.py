"""Asks the plugins for the sections that they write for the page of each tree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from functools import partial

from backbud.collection.state import Tree
from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaws, WithFlaws, flaw_at
from backbud.journal.read import Journal
from backbud.journal.weather.records import Records
from backbud.plan.run import Plan
from backbud.plan.year import Years, stages_seen
from backbud.plugins import budget
from backbud.plugins.added import SectionOf
from backbud.plugins.faults import PluginLine, place_of_error, place_of_function, said
from backbud.plugins.sound import wrong_section
from backbud.species import Section, Year


def sections_of(
    journal: Journal, weather: Records, today: date, plan: Plan, asked: tuple[SectionOf, ...]
) -> WithFlaws[dict[str, tuple[Section, ...]]]:
    """Ask each function for each tree, in its growing year that holds today, at its place.

    A function that fails is a problem, once for all trees; the pages are made without it. One
    that took too long is not asked again.
    """
    years = Years(journal, weather, today)
    failed: dict[tuple[PluginLine, str], list[str]] = {}
    late: set[SectionOf] = set()

    def written(tree: Tree, year: Year) -> Iterator[Section]:
        for function in asked:
            if function in late:
                continue
            try:
                section = budget.within(
                    budget.RULE_SECONDS, partial(_written, function, tree, year)
                )
            except KeyboardInterrupt:
                raise
            except BaseException as error:
                if isinstance(error, budget.OverTime):
                    late.add(function)
                place = place_of_error(error, journal.folder)
                place = place or place_of_function(function, journal.folder)
                key = (place or PluginLine("backbud.toml", 1), said(error))
                failed.setdefault(key, []).append(tree.handle)
                continue
            if section is not None:
                yield section

    out: dict[str, tuple[Section, ...]] = {}
    for handle, tree in plan.trees.items():
        seen = stages_seen(tree.history)
        year = years.at(tree, tree.place, today, plan.species[handle], seen)
        out[handle] = tuple(written(tree, year))
    return WithFlaws(out, _flaws(failed))


def _written(function: SectionOf, tree: Tree, year: Year) -> Section | None:
    section = function(tree, year)
    wrong = "" if section is None else wrong_section(section)
    if wrong:
        raise ValueError(wrong)
    return section


def _flaws(failed: Mapping[tuple[PluginLine, str], list[str]]) -> PlacedFlaws:
    return tuple(
        flaw_at(
            Origin(place.file, place.line, place.column),
            "section-failed",
            f"the section for the page of {handles[0]}"
            f"{f' and {len(handles) - 1} more' if len(handles) > 1 else ''} failed: {what}",
            "The page was made without it.",
            0,
            1,
        )
        for (place, what), handles in failed.items()
    )
