"""Plain words go in, rules come out: the builders from which a species file is written.

How to write a species, one small file that reads like a calendar:

1. Take the class of its group (`habits/pines.py`, `junipers.py`, `conifers.py`, `maples.py`,
   `broadleaves.py`, `flowering.py`, `tropical.py`), or `Species` itself. The group gives stages,
   usual facts and works; say again only what differs.
2. Facts: names, `habit` (one sentence), `strongest`, then a `Fact(value, source)` each. The
   source is a published one that you looked up, or COMMON_PRACTICE, or FROM_MEMORY. Never name a
   source that you did not read. `stage_months` gives for each BBCH stage the first, usual and last
   northern day in a mild temperate place; 19 stands for first leaves full size and hard.
3. `rule_prefix`: a short word for the species. `works`: rules, each with an id of its own behind
   the prefix. **An id never changes**: calendars and the diary's follow-ups hang on it. To change
   a rule of the group take `altered(Group.works, …)`: the new one takes the place of that with the
   same id, any other comes along. `without(Group.works, "id")` leaves one out.
4. When: `at(69, 0, 10, 28)` counts days from the first, usual and last day of a stage;
   `between(1, 7)` lasts from one stage to another; `months((9, 5), (9, 20), (10, 15))`. An
   evergreen never reaches leaf fall (93, 97): take 91, shoot growth complete.
5. `because`: one sentence that a customer understands, with the reason and not the deed: "Cut
   roots take up no feed for about four weeks." `what`: words that make the act plain, no full
   stop. Cautions are sentences: what hurts the tree or the hand. The datum comes by itself.
6. Strength first: works ask their gate (`habits/gates.py`). Hard work on a weak, sick or new tree,
   or a second one in a season, becomes a look at its strength, with the reason.
7. Anything that no builder says is a method under `@when`, `@each` or `@after`; give it the whole
   id, prefix and all.
8. Add it to `[project.entry-points."backbud.species"]` under its first common name.
9. `python -m tests.species.test_first_years` and `… test_facts_checked` write its year and its
   sources into the reviewed tables beside them: read both.

`japanese_maple.py` and `scots_pine.py` are the patterns. All figures are arguments, so that the
species answers for them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta

from backbud.species import (
    ActWord,
    DetailWord,
    Event,
    Extent,
    Proposal,
    Proposals,
    Rule,
    Season,
    SettledBy,
    Species,
    Stage,
    Trait,
    Tree,
    Window,
    Year,
    as_settling,
    days_after,
    joined,
)
from backbud_species.habits.balance import balance
from backbud_species.habits.done import on_part, parts_of
from backbud_species.habits.flowers import flowers_are_off
from backbud_species.habits.gates import (
    ALWAYS,
    DECANDLING,
    HARD_WORK,
    LEAF_WORK,
    LIGHT_WORK,
    Gate,
    strength_first,
)
from backbud_species.habits.leaves import Way, late_frost, leaves_off
from backbud_species.habits.repotting import repotting
from backbud_species.habits.roots import over_share
from backbud_species.habits.second_flush import candle_cut
from backbud_species.habits.times import Days, Time, at, between, months, weeks
from backbud_species.habits.warmth import summer, under_cover
from backbud_species.habits.yearly import feeding, pests, wiring

__all__ = [
    "ALWAYS",
    "HARD_WORK",
    "LEAF_WORK",
    "LIGHT_WORK",
    "Gate",
    "Time",
    "Way",
    "after_work",
    "altered",
    "at",
    "balances",
    "between",
    "checks_after",
    "deadheads",
    "decandles",
    "defoliates",
    "disbuds",
    "feeds",
    "goes_out",
    "months",
    "pinches",
    "protects_leaves",
    "prunes",
    "repots",
    "trims",
    "watches_for",
    "weeks",
    "wires",
    "without",
    "work",
]

Works = tuple[Rule, ...]
Asked = Callable[[Species, Tree, Year, Window, str], Proposals]
OnlyIf = Callable[[Tree, date, Year], bool]
_WARMED = ("heated glass", "indoors")
# A shorter summer than this is not worth two moves; common practice, no source.
_WORTH_THE_MOVE = timedelta(weeks=6)


# ------------------------------------------------------------------ putting works together


def altered(works: Works, *rules: Rule) -> Works:
    """The works of a group with others: one of the same id takes the place of the group's."""
    new = {rule.id for rule in rules}
    return (*(rule for rule in works if rule.id not in new), *rules)


def without(works: Works, *ids: str) -> Works:
    """The works of a group less some; ValueError for an id that it does not have."""
    missing = set(ids) - {rule.id for rule in works}
    if missing:
        raise ValueError(f"no work has the id {', '.join(sorted(missing))}")
    return tuple(rule for rule in works if rule.id not in ids)


# ------------------------------------------------------------------ any work of the year


def work(
    rule_id: str,
    act: ActWord,
    when: Time,
    *,
    because: str,
    what: str = "",
    cautions: tuple[str, ...] = (),
    gate: Gate = LIGHT_WORK,
    settled_by: tuple[SettledBy, ...] = (),
    only_if: OnlyIf | None = None,
    extent: Extent = "usual",
) -> Rule:
    """A work that comes round every year, where its gate is open and `only_if` agrees."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        if only_if is not None and not only_if(tree, window.opens, year):
            return
        reason = gate.shut(tree, window.opens, year)
        if reason:
            if gate.speaks:
                yield strength_first(window, act, reason)
            return
        yield Proposal(
            act,
            window,
            what=what,
            because=because,
            datum=datum,
            cautions=cautions,
            settled_by=settled_by,
            lapses=True,
            extent=extent,
        )

    return _yearly(rule_id, when, ask)


def trims(
    rule_id: str,
    when: Time,
    *,
    what: str,
    because: str,
    cautions: tuple[str, ...] = (),
    gate: Gate = LIGHT_WORK,
    only_if: OnlyIf | None = None,
) -> Rule:
    """Shoots shortened; a pruning settles it too."""
    return work(
        rule_id,
        "trimmed",
        when,
        because=because,
        what=what,
        cautions=cautions,
        gate=gate,
        settled_by=("trimmed", "pruned"),
        only_if=only_if,
    )


def prunes(
    rule_id: str,
    when: Time,
    *,
    what: str,
    because: str,
    hard: bool = False,
    cautions: tuple[str, ...] = (),
) -> Rule:
    """Twigs or branches cut; into old wood if `hard`, which only an unstressed tree bears."""
    return work(
        rule_id,
        "pruned",
        when,
        because=because,
        what=f"hard: {what}" if hard else what,
        extent="hard" if hard else "usual",
        cautions=cautions,
        gate=HARD_WORK if hard else LIGHT_WORK,
    )


def pinches(
    rule_id: str,
    when: Time,
    *,
    what: str,
    because: str,
    cautions: tuple[str, ...] = (),
    gate: Gate = LEAF_WORK,
    only_if: OnlyIf | None = None,
) -> Rule:
    """Soft tips taken: not from a weak tree, nor in the year of root work or hard pruning."""
    return work(
        rule_id,
        "pinched",
        when,
        because=because,
        what=what,
        cautions=cautions,
        gate=gate,
        settled_by=("pinched", "trimmed"),
        only_if=only_if,
    )


def balances(
    rule_id: str, when: Time, *, act: ActWord = "trimmed", cautions: tuple[str, ...] = ()
) -> Rule:
    """Strong zones cut back and slow ones left, by the vigour written down for each zone."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        found = balance(tree, species.strongest, window.closes)
        if found is None or LIGHT_WORK.shut(tree, window.opens, year):
            return
        yield Proposal(
            act,
            window,
            what=found.what,
            because=found.because,
            datum=found.datum,
            cautions=cautions,
            settled_by=(act, "pruned"),
            lapses=True,
        )

    return _yearly(rule_id, when, ask)


# ------------------------------------------------------------------ leaves, candles, flowers


def defoliates(rule_id: str, when: Time, *, part: Way, full: Way | None = None) -> Rule:
    """Leaves off: all from a strong, rested tree in a warm place, else part of them."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        reason = HARD_WORK.shut(tree, window.opens, year)
        if reason:
            yield strength_first(window, "defoliated", reason)
        else:
            yield from leaves_off(tree, year, window, full, part)

    return _yearly(rule_id, when, ask)


def decandles(
    rule_id: str, when: Time, *, short: Time, what: str, because: str, more_days: int = 0
) -> Rule:
    """Candles of a two-flush pine cut, as early as the warm season that is left asks for.

    Where nothing is known of the weather, at a time `when`, or `short` where summers are not warm.
    `more_days`: how many more the second flush needs than a black pine's.

    Only on a strong and unstressed tree, in a place whose summer ripens a second flush.
    """

    def ask(species: Species, tree: Tree, given: Stage, year: Year) -> Proposals:
        time = when if summer(year).cool is False else short
        cut = candle_cut(given, year, more_days)
        window = cut.window if cut else time.window(given, year)
        reason = DECANDLING.shut(tree, window.opens, year)
        if reason:
            yield strength_first(window, "decandled", reason)
            return
        known = cut.datum if cut else summer(year).datum
        yield Proposal(
            "decandled",
            window,
            what=what,
            because=because,
            datum=joined(f"It is written down as strong. {known}", known),
            cautions=("Feed off and less water from now on; no other hard work this year.",),
            lapses=True,
        )

    return Rule(rule_id, when.hangs_on, (), when.season, when.stage, ask)


def disbuds(
    rule_id: str, when: Time, *, because: str, what: str = "before the flowers open"
) -> Rule:
    """Flower buds off before they open: what a weak tree needs most of all."""
    return work(rule_id, "disbudded", when, because=because, what=what, gate=ALWAYS)


def deadheads(
    rule_id: str, when: Time, *, what: str, because: str, cautions: tuple[str, ...] = ()
) -> Rule:
    """Spent flowers off before seed sets, unless all of them came off in bud."""
    return work(
        rule_id,
        "deadheaded",
        when,
        because=because,
        what=what,
        cautions=cautions,
        gate=ALWAYS,
        only_if=lambda tree, day, year: not flowers_are_off(tree, day, year),
    )


# ------------------------------------------------------------------ roots, feed, wire


def repots(rule_id: str, when: Time, *, because: str, cautions: tuple[str, ...] = ()) -> Works:
    """The repotting by the species' interval, and a close look where too much root went.

    Two rules, so write `*repots(…)`; the second has the id `root-share`.
    """

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        yield from repotting(tree, year, window, species, because, cautions)

    def too_much(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if species.root_share is not None:
            yield from over_share(tree, done, year, species.root_share)

    return _yearly(rule_id, when, ask), _after("root-share", (), too_much, ("root_work",))


def feeds(rule_id: str, when: Time, *, because: str, what: str = "") -> Rule:
    """Feed; it waits after root work and rests in the hot weeks of the place."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        yield from feeding(tree, year, window, because, datum, what)

    return _yearly(rule_id, when, ask)


def wires(rule_id: str, when: Time, *, because: str, cautions: tuple[str, ...] = ()) -> Rule:
    """The season for wiring, with what the bark bears, and no heavy bend after other hard work."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        if LIGHT_WORK.shut(tree, window.opens, year):
            return
        bark = (species.bark.value,) if species.bark else ()
        stressed = HARD_WORK.shut(tree, window.opens, year)
        bend = (f"No heavy bend: {stressed[0].lower()}{stressed[1:]}",) if stressed else ()
        yield from wiring(tree, window, because, datum, (*cautions, *bark, *bend))

    return _yearly(rule_id, when, ask)


# ------------------------------------------------------------------ health and weather


def watches_for(
    rule_id: str, when: Time, *, where: str, because: str, cautions: tuple[str, ...] = ()
) -> Rule:
    """A look for pests or disease: where to look, and what shows them."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        yield pests(window, where, because, datum, cautions)

    return _yearly(rule_id, when, ask)


def protects_leaves(
    rule_id: str, stage: int, *, because: str, frost_c: float = 0.0, lasts_days: int = 25
) -> Rule:
    """Cover against late frost from a stage on, as long as frost is likely at this place."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        yield from late_frost(year, window, because, frost_c, lasts_days)

    return _yearly(rule_id, at(stage, 0, 0, 0), ask)


def goes_out(rule_id: str, *, because: str, cautions: tuple[str, ...] = ()) -> Rule:
    """A tender tree under warmth goes out once the nights are as mild as it bears.

    It stays in where, in one year of ten, they are so for less than six weeks.
    """

    def ask(species: Species, tree: Tree, given: Season, year: Year) -> Proposals:
        limit = species.comes_in_below_c
        if limit is None or not under_cover(year, *_WARMED):
            return
        nights = year.cold_nights_end(limit.value)
        autumn = year.cold_nights_begin(limit.value)
        if nights and autumn and autumn.first - nights.last < _WORTH_THE_MOVE:
            return
        if nights is not None:
            window = Window(nights.day, nights.last, nights.last + timedelta(days=21))
            datum = nights.because
        else:
            # Nothing is known of the nights, or none is so cold.
            window = year.months((5, 10), (5, 25), (6, 20))
            datum = f"{year.by_months} Wait until nights stay over {limit.value:g} °C."
        yield Proposal(
            "moved",
            window,
            what="out, into shade first",
            because=because,
            datum=datum,
            cautions=cautions,
            part="out",
            lapses=True,
        )

    return Rule(rule_id, "season", (), "spring", -1, ask)


# ------------------------------------------------------------------ after a work


def after_work(
    rule_id: str,
    acts: tuple[ActWord, ...],
    act: ActWord,
    days: Days,
    *,
    because: str,
    what: str = "",
    cautions: tuple[str, ...] = (),
    settled_by: tuple[SettledBy, ...] = (),
    only_after: Callable[[Event], bool] | None = None,
    each_part: bool = False,
    lapses: bool = True,
) -> Rule:
    """What is due so many days after one of these acts, for each part of the tree if so asked."""

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if only_after is not None and not only_after(done):
            return
        for part in parts_of(done) if each_part else ("",):
            yield Proposal(
                act,
                days_after(done.day, *days),
                what=on_part(what, part),
                part=part,
                because=because,
                datum=f"It was {done.act} on {done.day}.",
                cautions=cautions,
                settled_by=settled_by,
                lapses=lapses,
            )

    return _after(rule_id, acts, ask)


def checks_after(
    rule_id: str,
    acts: tuple[ActWord, ...],
    days: Days,
    *,
    look_at: DetailWord,
    because: str,
    what: str = "",
    cautions: tuple[str, ...] = (),
    only_after: Callable[[Event], bool] | None = None,
    each_part: bool = False,
    lapses: bool = True,
) -> Rule:
    """A look after an act. `look_at`: a word of the diary's checks (buds, wounds, strength …)."""
    also = ("vigour",) if look_at == "strength" else ()
    return after_work(
        rule_id,
        acts,
        "checked",
        days,
        because=because,
        what=what or look_at,
        cautions=cautions,
        settled_by=(as_settling("checked", look_at), *also),
        only_after=only_after,
        each_part=each_part,
        lapses=lapses,
    )


# ------------------------------------------------------------------ how a rule is made


def _yearly(rule_id: str, when: Time, ask: Asked) -> Rule:
    def function(
        species: Species, tree: Tree, given: Stage | Season, year: Year
    ) -> Iterator[Proposal]:
        yield from ask(species, tree, year, when.window(given, year), when.datum(given, year))

    return Rule(rule_id, when.hangs_on, (), when.season, when.stage, function)


def _after(
    rule_id: str,
    acts: tuple[ActWord, ...],
    ask: Callable[[Species, Tree, Event, Year], Proposals],
    having: tuple[Trait, ...] = (),
) -> Rule:
    return Rule(rule_id, "act", acts, "year", -1, ask, having)
