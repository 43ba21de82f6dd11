"""A species as it is shown: its facts, and its growing year with its stages and works.

The works are those of two imagined strong trees to which nothing was done this year: one that is
due for its repotting, and one that was repotted last year, since a repotting rules out other work.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from functools import partial
from typing import Literal, TypedDict

from msgspec import Struct, field

from backbud.climate.stages import Own
from backbud.collection.state import Entry, Tree
from backbud.journal.events import Event
from backbud.plan.calm import kept_still, season_or_stage
from backbud.plan.due import cautions_for, title_of
from backbud.plan.pack import KnownSpecies
from backbud.plan.root_limits import roots_bear
from backbud.plan.year import wants_of
from backbud.plugins import budget
from backbud.species import (
    COMMON_PRACTICE,
    Proposal,
    Rule,
    Species,
    Stage,
    Window,
    Year,
    finds_no_rest,
    rules_of,
    stage_name,
    without_work,
)
from backbud.tongue import continued, phrase
from backbud.views.facts import MoreFacts, SpeciesFact, facts_of
from backbud_grammar.act_words import ActWord, as_act
from backbud_grammar.acts import ROWS
from backbud_grammar.dates import growing_year, growing_year_days, read_date
from backbud_grammar.forms import ActForm

# Every species' `stage_months`.
STAGES_FROM = "The days of its stages in a cool temperate place are from memory"
# A stage that nobody saw is known no better than this to either side, whether it is expected, set
# to the Monday of its week, or reckoned to be past; ours, no source.
AT_LEAST_AROUND = timedelta(days=3)
# So many years ago each imagined tree was repotted; eight is long enough for any species.
_LONG_AGO, _LAST_YEAR = 8, 1


class StageView(Struct, frozen=True, gc=False):
    """A growth stage (BBCH), and when it comes: first, expected and last day (in JSON: `from`,
    `best`, `until`), which are one day only where it was seen."""

    bbch: int
    name: str
    opens: date = field(name="from")
    best: date
    closes: date = field(name="until")
    because: str


class YearlyView(Struct, frozen=True):
    """A work that falls due each year: first, best and last day (in JSON: `from`, `best`,
    `until`); `rule`: the id of the rule that asks it; `source`: where the work comes from; `act`:
    what is done, in its past form."""

    title: str
    opens: date = field(name="from")
    best: date
    closes: date = field(name="until")
    because: str
    cautions: tuple[str, ...]
    rule: str
    source: str = COMMON_PRACTICE
    act: ActWord | Literal[""] = ""

    @property
    def window(self) -> Window:
        return Window(self.opens, self.best, self.closes)


class AfterView(Struct, frozen=True):
    """What is asked after one of these acts: so many days later, first, best and last; `source`:
    where that comes from."""

    after: tuple[str, ...]
    title: str
    days: tuple[int, int, int]
    because: str
    source: str = COMMON_PRACTICE


class KindName(Struct, frozen=True, kw_only=True):
    """A species by its names. `also`: its other names; `origin`: where it comes from: built in, a
    package, or a file of the journal (in JSON: `from`)."""

    common: str
    botanical: str
    also: tuple[str, ...]
    origin: str = field(name="from")


class KindView(KindName, frozen=True, kw_only=True):
    """All that is known of a species, and its growing year.

    `habit`: how it grows, "" where nobody says. `year`: its name, `first_day`: its first; `place`:
    where, "" for the months of the northern hemisphere. `stages_from`: where the days of its stages
    come from. `never`: what must not be done to it. `unsuited`: why it does not suit the place.
    """

    habit: str
    evergreen: bool
    facts: tuple[SpeciesFact, ...]
    year: str
    first_day: date
    place: str
    stages: tuple[StageView, ...]
    stages_from: str
    works: tuple[YearlyView, ...]
    afterwards: tuple[AfterView, ...]
    never: tuple[str, ...]
    advice: tuple[str, ...]
    unsuited: str = ""


def kind_name(known: KnownSpecies) -> KindName:
    """The names of a species."""
    return KindName(**_names(known))


def kind_view(
    known: KnownSpecies,
    year: Year,
    common: Iterable[Rule],
    own: Iterable[Rule],
    acts: Mapping[str, ActForm],
    more: MoreFacts,
) -> KindView:
    """The sheet of a species in a year. `common`: the rules for every tree; `own`: those of the
    journal's plugins; a rule that fails is left out here, `backbud check` tells of it."""
    species = known.species
    works = _works((*rules_of(species), *own, *common), species, year, acts)
    return KindView(
        **_names(known),
        habit=phrase(species.habit),
        evergreen=species.evergreen,
        facts=facts_of(species, more),
        year=year.name,
        first_day=year.first,
        place=year.place,
        stages=tuple(_stages(species, year)),
        stages_from=phrase(STAGES_FROM),
        works=tuple(sorted(works, key=lambda work: (work.best, work.title))),
        afterwards=tuple(_afterwards((*rules_of(species), *own), species, year, acts, works)),
        never=tuple(map(phrase, species.never)),
        advice=tuple(map(phrase, species.advice)),
        unsuited=unsuited(species, year),
    )


def unsuited(species: Species, year: Year) -> str:
    """Why a species does not suit a place: its winters are too warm for it to rest, or the chill
    that its buds want never comes there."""
    wanted, outlook = species.chill_portions, year.outlook
    no_rest = finds_no_rest(year)
    if no_rest is not None:
        return phrase("It does not suit this place. {no_rest}", no_rest=no_rest)
    if wanted is None or outlook is None or not outlook.lacks_chill(year.first, wanted.value):
        return ""
    return phrase(
        "It does not suit this place: its buds want {value:g} chill portions "
        "({source}), and its winters never give them.",
        value=wanted.value,
        source=phrase(wanted.source),
    )


class _Names(TypedDict):
    common: str
    botanical: str
    also: tuple[str, ...]
    origin: str


def _names(known: KnownSpecies) -> _Names:
    species = known.species
    return {
        "common": species.title,
        "botanical": species.botanical,
        "also": (*species.common[1:], *species.also),
        "origin": known.origin,
    }


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


def _stages(species: Species, year: Year) -> Iterator[StageView]:
    for code in sorted(species.stage_months):
        stage = year.stage(code)
        if stage is not None:
            name = continued(stage_name(code))
            first, last = _range(stage)
            yield StageView(code, name, first, stage.day, last, stage.because)


def _range(stage: Stage) -> tuple[date, date]:
    """The first and last day of a stage."""
    if stage.observed:
        return stage.first, stage.last
    around = AT_LEAST_AROUND
    return min(stage.first, stage.day - around), max(stage.last, stage.day + around)


def _works(
    rules: Iterable[Rule], species: Species, year: Year, acts: Mapping[str, ActForm]
) -> list[YearlyView]:
    out: dict[tuple[str, str, Window], YearlyView] = {}
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
                    title, cautions = title_of(one, act), cautions_for(one, act)
                    days = one.window
                    row = YearlyView(
                        title,
                        days.opens,
                        days.best,
                        days.closes,
                        phrase(one.because),
                        cautions,
                        rule.id,
                        phrase(rule.source),
                        one.act,
                    )
                    out.setdefault((rule.id, title, one.window), row)
    return list(out.values())


def _afterwards(
    rules: Iterable[Rule],
    species: Species,
    year: Year,
    acts: Mapping[str, ActForm],
    works: list[YearlyView],
) -> Iterator[AfterView]:
    """What each work asks for, done on its best day, or in the middle of the year."""
    days: dict[str, date] = {work.act: work.best for work in works}
    found: dict[tuple[str, tuple[int, int, int], str, str], list[str]] = {}
    for rule in rules:
        for act in rule.acts_of(acts):
            form = acts.get(act)
            if form is None:
                continue
            day = days.get(act, year.on((6, 15)))
            done = _event(form, day)
            for one in _asked(rule, imagined_tree(species, "", day, done), done, year):
                if asked := acts.get(one.act):
                    title, window = title_of(one, asked), one.window
                    after = tuple(
                        (on - day).days for on in (window.opens, window.best, window.closes)
                    )
                    key = (
                        title,
                        (after[0], after[1], after[2]),
                        phrase(one.because),
                        phrase(rule.source),
                    )
                    found.setdefault(key, []).append(act)
    for (title, later, because, source), after_acts in found.items():
        yield AfterView(tuple(dict.fromkeys(after_acts)), title, later, because, source)


def _asked(rule: Rule, tree: Tree, given: object, year: Year) -> list[Proposal]:
    out: list[Proposal] = []

    def ask() -> None:
        found = (p for p in rule.function(tree, given, year) if isinstance(p, Proposal))
        out.extend(without_work(rule, found, year))

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
