"""The class that every species extends: its facts, with what holds where it says nothing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from backbud.bench.bite import USUAL_GIRTH_GROWTH_MM
from backbud.species.facts import COMMON_PRACTICE, Fact, RepotInterval
from backbud.species.judging import Judge
from backbud.species.rules import Rule
from backbud.species.stages import StageMonths

INTERFACE = 1


class Species:
    """The base of every species: facts as class attributes, rules as methods.

    `botanical`: the name without a cultivar (ICNCP: `Rhododendron indicum`). `common`: common
    names, the first is the one shown. `also`: other names the journal may use. `evergreen`;
    `strongest`: where it grows strongest, acrotonic (at the top) or basitonic (at the base).
    `stage_months`: for each BBCH stage the first, usual and last northern month and day in a mild
    temperate place; the weather of a place moves them by `base_c`, the temperature over which a
    day's heat counts, and by `chill_portions`, the chill (Dynamic model) buds need before.
    `habit`: how it grows, in one sentence. `light`, `water`: what it asks for, each a sentence.
    `bark`: how its bark bears wire, in one sentence; shown as a caution with every wiring.
    `repot_years`: least, usual, most years between repottings in a pot; `repot_interval`: the
    same for a young and for an old tree, where they differ.
    `root_share`: the share of the root ball's volume that may go in a cool and in a warm place.
    `frost_limit_c`: the coldest night, in °C, that mature roots in a pot bear without protection,
    where it is not what the hardiness rating leads to expect; `young_frost_limit_c`: the same of
    young roots, of a tree repotted within a year or in a shallow pot; -5 °C (or what mature ones
    bear, where that is less) where none is known; `why_frost`: the reason in one sentence.
    `comes_in_below_c`: of a tender tree, in °C: once the usual night is colder it comes in.
    `rests_under_c`: in °C: where the coldest month averages more, day and night, it finds no rest
    and does not suit the place; None of one that needs none.
    `advice`: what whoever keeps the tree should know, `never`: what must not be done to it; each
    one sentence, for the care sheet.
    `sources`: where a work comes from, by its rule's id without prefix, where that is not common
    practice; a group's hold for its species.
    `judges`: what speaks against a work, done or planned, beside its times.
    `works`: rules made by builders (`backbud_species.habits.works`), beside the methods;
    `rule_prefix`: what their ids begin with, never changed (the botanical name when empty).
    """

    interface: ClassVar[int] = INTERFACE
    botanical: ClassVar[str]
    common: ClassVar[tuple[str, ...]]
    also: ClassVar[tuple[str, ...]] = ()
    evergreen: ClassVar[bool] = False
    strongest: ClassVar[Literal["acrotonic", "basitonic"]] = "acrotonic"
    habit: ClassVar[str] = ""
    light: ClassVar[Fact[str] | None] = None
    water: ClassVar[Fact[str] | None] = None
    bark: ClassVar[Fact[str] | None] = None
    hardiness: ClassVar[Fact[str] | None] = None
    soil_ph: ClassVar[Fact[tuple[float, float]] | None] = None
    usual_mix: ClassVar[Fact[str] | None] = None
    repot_years: ClassVar[Fact[tuple[int, int, int]] | None] = None
    repot_interval: ClassVar[Fact[RepotInterval] | None] = None
    root_share: ClassVar[Fact[tuple[float, float]] | None] = None
    toxicity: ClassVar[Fact[str] | None] = None
    frost_limit_c: ClassVar[Fact[float] | None] = None
    young_frost_limit_c: ClassVar[Fact[float] | None] = None
    rests_under_c: ClassVar[Fact[float] | None] = None
    comes_in_below_c: ClassVar[Fact[float] | None] = None
    why_frost: ClassVar[str] = "Roots in a pot die in cold that the top still bears."
    advice: ClassVar[tuple[str, ...]] = ()
    never: ClassVar[tuple[str, ...]] = ()
    stage_months: ClassVar[StageMonths] = {}
    base_c: ClassVar[Fact[float]] = Fact(5.0, COMMON_PRACTICE)
    chill_portions: ClassVar[Fact[float] | None] = None
    wire_check_weeks: ClassVar[Fact[tuple[int, int, int]]] = Fact((4, 6, 8), COMMON_PRACTICE)
    girth_growth_mm: ClassVar[Fact[float]] = Fact(USUAL_GIRTH_GROWTH_MM, COMMON_PRACTICE)
    judges: ClassVar[tuple[Judge, ...]] = ()
    rule_prefix: ClassVar[str] = ""
    sources: ClassVar[Mapping[str, str]] = {}
    works: ClassVar[tuple[Rule, ...]] = ()

    @property
    def title(self) -> str:
        return self.common[0]
