"""The sheet of a species: its stages, works and facts in one growing year.

The works are those of two imagined strong trees to which nothing was done this year: one that is
due for its repotting, and one that was repotted last year, since a repotting rules out other work.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from functools import partial
from typing import NamedTuple

from msgspec import Struct

from backbud.climate.stages import Own
from backbud.collection.state import Entry, Tree
from backbud.facts import MoreFacts, facts_of
from backbud.journal.events import Event
from backbud.pages.view import SpeciesFact
from backbud.plan.calm import kept_still, season_or_stage
from backbud.plan.due import cautions_of, title_of
from backbud.plan.pack import KnownSpecies
from backbud.plan.year import roots_bear, wants_of
from backbud.plugins import budget
from backbud.species import Proposal, Rule, Species, Window, Year, rules_of, stage_name
from backbud_grammar.act_words import as_act
from backbud_grammar.acts import ROWS
from backbud_grammar.dates import growing_year, growing_year_days, read_date
from backbud_grammar.forms import ActForm

# So many years ago each imagined tree was repotted; eight is long enough for any species.
_LONG_AGO, _LAST_YEAR = 8, 1


class StageRow(NamedTuple):
    """A growth stage (BBCH), and when it comes."""

    code: int
    name: str
    window: Window
    because: str


class WorkRow(NamedTuple):
    """A work that falls due each year."""

    title: str
    window: Window
    because: str
    cautions: tuple[str, ...]
    rule: str


class AfterRow(NamedTuple):
    """What a work asks for later: so many days after it, first, best and last."""

    after: tuple[str, ...]
    title: str
    days: tuple[int, int, int]
    because: str


class KindSheet(Struct, frozen=True):
    """All that is known of a species, and its year at a place ("" is no place)."""

    known: KnownSpecies
    facts: tuple[SpeciesFact, ...]
    year: Year
    stages: tuple[StageRow, ...]
    works: tuple[WorkRow, ...]
    afterwards: tuple[AfterRow, ...]


def sheet_of(
    known: KnownSpecies,
    year: Year,
    common: Iterable[Rule],
    own: Iterable[Rule],
    acts: Mapping[str, ActForm],
    more: MoreFacts,
) -> KindSheet:
    """The sheet of a species in a year. `common`: the rules for every tree; `own`: those of the
    journal's plugins; a rule that fails is left out here, `backbud check` tells of it."""
    species = known.species
    works = _works((*rules_of(species), *own, *common), species, year, acts)
    return KindSheet(
        known,
        facts_of(species, more),
        year,
        tuple(_stages(species, year)),
        tuple(sorted(works, key=lambda work: (work.window.best, work.title))),
        tuple(_afterwards((*rules_of(species), *own), species, year, acts, works)),
    )


def year_by_months(species: Species, today: date) -> Year:
    """The northern growing year that holds a day, at no place: by months alone."""
    first, last = growing_year_days(today, False)
    return Year(
        growing_year(today, False),
        first,
        last,
        today,
        southern=False,
        place="",
        cover="",
        seen={},
        stage_months=species.stage_months,
        figures={},
        wire_weeks=species.wire_check_weeks.value,
        wants=wants_of(species),
        own=Own(),
        roots_bear=roots_bear(species, None, {}),
        comes_in_below_c=species.comes_in_below_c.value if species.comes_in_below_c else None,
        why_frost=species.why_frost,
    )


def imagined_tree(
    species: Species, place: str, day: date, *done: Event, repotted_years_ago: int = _LONG_AGO
) -> Tree:
    """A strong tree of this kind at a place, last repotted so many years before a day."""
    repotted = _event(ROWS["repotted"], day.replace(year=day.year - repotted_years_ago, day=1))
    history = tuple(Entry(event) for event in (repotted, *done))
    return Tree(
        handle="imagined",
        first_handle="imagined",
        name="",
        kind=species.title,
        cultivar="",
        standing="here",
        standing_since=None,
        owner="",
        place=place,
        pot="",
        mix="",
        strength="strong",
        planted_out=False,
        quarantined=False,
        wanted="",
        sizes={},
        facts={},
        zones=(),
        opened=(),
        on_tree=(),
        last={entry.event.act: entry.event for entry in history},
        history=history,
        since=repotted.day,
    )


def _stages(species: Species, year: Year) -> Iterator[StageRow]:
    for code in sorted(species.stage_months):
        stage = year.stage(code)
        if stage is not None:
            window = Window(stage.first, stage.day, stage.last)
            yield StageRow(code, stage_name(code).lower(), window, stage.because)


def _works(
    rules: Iterable[Rule], species: Species, year: Year, acts: Mapping[str, ActForm]
) -> list[WorkRow]:
    out: dict[tuple[str, str, Window], WorkRow] = {}
    for rule in rules:
        if rule.hangs_on == "act":
            continue
        given = season_or_stage(rule, year)
        if given is None:
            continue
        for years_ago in (_LONG_AGO, _LAST_YEAR):
            tree = imagined_tree(species, "", given.first, repotted_years_ago=years_ago)
            ask = partial(_asked, rule, tree)
            for one in kept_still(ask, ask(given, year), given, year):
                if act := acts.get(one.act):
                    title, cautions = title_of(one, act), cautions_of(one, act)
                    row = WorkRow(title, one.window, one.because, cautions, rule.id)
                    out.setdefault((rule.id, title, one.window), row)
    return list(out.values())


def _afterwards(
    rules: Iterable[Rule],
    species: Species,
    year: Year,
    acts: Mapping[str, ActForm],
    works: list[WorkRow],
) -> Iterator[AfterRow]:
    """What each work asks for, done on its best day, or in the middle of the year."""
    days = {work.title.split()[0]: work.window.best for work in works}
    found: dict[tuple[str, tuple[int, int, int], str], list[str]] = {}
    for rule in rules:
        for act in rule.acts_of(acts):
            form = acts.get(act)
            if form is None:
                continue
            day = days.get(form.bare, year.on((6, 15)))
            done = _event(form, day)
            for one in _asked(rule, imagined_tree(species, "", day, done), done, year):
                if asked := acts.get(one.act):
                    title, window = title_of(one, asked), one.window
                    after = tuple(
                        (on - day).days for on in (window.opens, window.best, window.closes)
                    )
                    key = (title, (after[0], after[1], after[2]), one.because)
                    found.setdefault(key, []).append(act)
    for (title, later, because), after_acts in found.items():
        yield AfterRow(tuple(dict.fromkeys(after_acts)), title, later, because)


def _asked(rule: Rule, tree: Tree, given: object, year: Year) -> list[Proposal]:
    out: list[Proposal] = []

    def ask() -> None:
        out.extend(p for p in rule.function(tree, given, year) if isinstance(p, Proposal))

    try:
        budget.within(budget.RULE_SECONDS, ask)
    except KeyboardInterrupt:
        raise
    except BaseException:
        # It is a problem of the journal's when a tree meets it; here there is none.
        return out
    return out


def _event(act: ActForm, day: date) -> Event:
    when = read_date(day.isoformat())
    return Event(as_act(act.word), when, (), "", "", "", "imagined", "", 1, 1, row=act)
