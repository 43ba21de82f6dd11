"""The builders from which a species file is written, in plain words: what is due, when and why.

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
   same id, any other comes along. `without(Group.works, "id")` leaves one out, and
   `renamed(Group.works, {"id": "older-id"})` gives one the id that it has had in this species.
4. When: `at(69, 0, 10, 28)` counts days from the first, usual and last day of a stage;
   `between(1, 7)` lasts from one stage to another; `by_warmth((9, 5), (9, 20), (10, 15))` moves
   days of a cool place by heat or cold, for what hangs on no stage; `months(…, why="the short
   days")` only where months serve, and it says why. An evergreen never reaches leaf fall
   (93, 97): take 91, shoot growth complete.
   `sources` names, by the rule's id, where a work comes from that is not common practice.
5. `because`: one sentence that a customer understands, with the reason and not the deed: "Cut
   roots take up no feed for about four weeks." `what`: words that make the act plain, no full
   stop. Cautions are sentences: what hurts the tree or the hand. The datum comes by itself.
6. Strength first: works ask their gate (`habits/gates.py`). Hard work on a weak, sick or new tree,
   or a second one in a season, becomes a look at its strength, with the reason. What a weak or a
   strong tree is asked in the stead of a work stands in `by_strength` (`habits/strength.py`).
7. Anything that no builder says is a method under `@when`, `@each` or `@after`; give it the whole
   id, prefix and all.
8. Add it to `[project.entry-points."backbud.species"]` under its first common name.
9. `python -m tests.species.test_first_years`, `… test_facts_checked` and `… test_rule_ids` write
   its year, its sources and its ids into the reviewed tables beside them: read all three.

`japanese_maple.py` and `scots_pine.py` are the patterns. All figures are arguments, so that the
species answers for them.
"""

from __future__ import annotations

from backbud.species import (
    CHANCE,
    ActWord,
    Event,
    Proposal,
    Proposals,
    Rule,
    Species,
    Tree,
    Weight,
    Window,
    Year,
    continued,
    has_no_winter,
    phrase,
)
from backbud_species.habits.afterwards import (
    after_work,
    checks_after,
    looks_for_new_leaves,
    seals_cuts,
)
from backbud_species.habits.aim import by_aim
from backbud_species.habits.any_work import OnlyIf, work
from backbud_species.habits.balance import balance
from backbud_species.habits.cooled_soil import as_summer_cools
from backbud_species.habits.flowers import flowers_are_off, has_flowers
from backbud_species.habits.frost_cautions import fitting
from backbud_species.habits.frozen_wood import thawed
from backbud_species.habits.gates import (
    ALWAYS,
    HARD_WORK,
    LEAF_WORK,
    LIGHT_WORK,
    PART_DEFOLIATION,
    WIRING,
    Gate,
    strength_first,
    stress,
    worked_hard,
)
from backbud_species.habits.going_out import goes_out
from backbud_species.habits.heat import heat_meets_new_roots
from backbud_species.habits.leaves import Way, late_frost, leaves_off
from backbud_species.habits.repotting import repotting, until
from backbud_species.habits.roots import over_share
from backbud_species.habits.rules import hung_after, yearly
from backbud_species.habits.times import Time, at, between, by_warmth, months, once_thawed, weeks
from backbud_species.habits.together import Works, altered, renamed, without
from backbud_species.habits.yearly import feeding, pests, wiring

# The rule of the feed that ripens a tree for the winter.
AUTUMN_FEED = "feed-autumn"

__all__ = [
    "ALWAYS",
    "HARD_WORK",
    "LEAF_WORK",
    "LIGHT_WORK",
    "PART_DEFOLIATION",
    "Gate",
    "Time",
    "Way",
    "after_work",
    "altered",
    "at",
    "balances",
    "between",
    "by_warmth",
    "checks_after",
    "deadheads",
    "defoliates",
    "disbuds",
    "feeds",
    "goes_out",
    "looks_for_new_leaves",
    "months",
    "pinches",
    "protects_leaves",
    "prunes",
    "renamed",
    "repots",
    "seals_cuts",
    "trims",
    "watches_for",
    "weeks",
    "wires",
    "without",
    "work",
]


# ------------------------------------------------------------------ any work of the year


def trims(
    rule_id: str,
    when: Time,
    *,
    what: str,
    because: str,
    cautions: tuple[str, ...] = (),
    gate: Gate = LIGHT_WORK,
    only_if: OnlyIf | None = None,
    weight: Weight = CHANCE,
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
        weight=weight,
    )


def prunes(
    rule_id: str,
    when: Time,
    *,
    what: str,
    because: str,
    hard: bool = False,
    cautions: tuple[str, ...] = (),
    weight: Weight = CHANCE,
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
        weight=weight,
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
            weight=CHANCE,
            singly=True,
        )

    return yearly(rule_id, when, ask)


# ------------------------------------------------------------------ leaves, candles, flowers


def defoliates(
    rule_id: str, when: Time, *, part: Way, full: Way | None = None, gate: Gate = HARD_WORK
) -> Rule:
    """Leaves off: all from a strong, rested tree in a warm place, else part of them."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        reason = gate.shut(tree, window.opens, year)
        if not reason:
            yield from leaves_off(tree, year, window, full, part)
        elif gate.speaks and not stress(tree, window.opens, year):
            # Whoever worked it hard this year knows; a look at its strength is for the others.
            yield strength_first(window, "defoliated", reason)

    return yearly(rule_id, when, ask, "defoliated")


def disbuds(
    rule_id: str, when: Time, *, because: str, what: str = "before the flowers open"
) -> Rule:
    """Flower buds off before they open, where there are any: what a weak tree needs most of all."""
    return work(
        rule_id,
        "disbudded",
        when,
        because=because,
        what=what,
        gate=ALWAYS,
        only_if=has_flowers,
    )


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
        only_if=has_flowers,
    )


# ------------------------------------------------------------------ roots, feed, wire


def repots(
    rule_id: str,
    when: Time,
    *,
    because: str,
    cautions: tuple[str, ...] = (),
    for_owners: tuple[str, ...] = (),
    without_flowers: tuple[int, int] | None = None,
    autumn_too: bool = False,
) -> Works:
    """The repotting by the species' interval, and a close look where too much root went.

    Two rules, so write `*repots(…)`; the second has the id `root-share`. `for_owners`: cautions
    that only a tree of somebody else has. `without_flowers`: of a tree that is repotted after its
    flowers, the stages between which it is where its flower buds came off, or where great heat
    follows the flowers. `autumn_too`: a keeper who does it as the summer cools is not told off.
    """

    def before_flowers(year: Year) -> Window | None:
        first = year.stage(without_flowers[0]) if without_flowers else None
        return until(first, year.stage(without_flowers[1])) if first and without_flowers else None

    def also(year: Year) -> Window | None:
        return as_summer_cools(year) if autumn_too else before_flowers(year)

    def as_climate_gives(window: Window, year: Year) -> Window:
        early = before_flowers(year)
        hot = early is not None and heat_meets_new_roots(year, window)
        return once_thawed(early if early is not None and hot else window, year)

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        said = (*cautions, *for_owners) if tree.owner else cautions
        early = before_flowers(year)
        hot = heat_meets_new_roots(year, window) if early else ""
        if early and (hot or flowers_are_off(tree, window.opens, year)):
            window = early
            said = (hot, *said) if hot else said
        window = once_thawed(window, year)
        yield from repotting(tree, year, window, species, because, fitting(said, window, year))

    def too_much(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if species.root_share is not None:
            yield from over_share(tree, done, year, species.root_share)

    asked = yearly(rule_id, when, ask, "repotted", also, as_climate_gives)
    return asked, hung_after("root-share", (), too_much, ("root_work",))


def feeds(rule_id: str, when: Time, *, because: str, what: str = "") -> Rule:
    """Feed; it waits after root work and rests in the hot weeks of the place. In spring it is full
    for a young tree and lean for a refined one, unless `what` says how it is given. None ripens
    a tree for a winter where there is none."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        if rule_id == AUTUMN_FEED and has_no_winter(year):
            return
        yield from by_aim(species, tree, year, feeding(tree, year, window, because, datum, what))

    return yearly(rule_id, when, ask, "fed")


def wires(rule_id: str, when: Time, *, because: str, cautions: tuple[str, ...] = ()) -> Rule:
    """The season for wiring, with what the bark bears; none after hard pruning or root work."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        if WIRING.shut(tree, window.opens, year) or worked_hard(tree, window.opens, year):
            return
        bark = (species.bark.value,) if species.bark else ()
        stressed = HARD_WORK.shut(tree, window.opens, year)
        bend = (phrase("No heavy bend: {why}", why=continued(stressed)),) if stressed else ()
        window = thawed(window, year)
        said = fitting((*cautions, *bark, *bend), window, year)
        yield from wiring(tree, window, because, datum, said)

    return yearly(rule_id, when, ask)


# ------------------------------------------------------------------ health and weather


def watches_for(
    rule_id: str, when: Time, *, where: str, because: str, cautions: tuple[str, ...] = ()
) -> Rule:
    """A look for pests or disease: where to look, and what shows them."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        yield pests(window, where, because, datum, cautions)

    return yearly(rule_id, when, ask)


def protects_leaves(
    rule_id: str, stage: int, *, because: str, frost_c: float = 0.0, lasts_days: int = 25
) -> Rule:
    """Cover against late frost from a stage on, as long as frost is likely at this place."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        yield from late_frost(year, window, because, frost_c, lasts_days)

    return yearly(rule_id, at(stage, 0, 0, 0), ask)
