"""What a species plugin is: the public interface.

A plugin is a class with facts and small rules. A rule is a method under `@after`, `@each` or
`@when`; it gets the tree as it was, the event or the season or the stage, and the year at the
tree's place, and yields proposals. It imports from `backbud.species`, `backbud.bench` and
`backbud.climate` and from nothing else of backbud.

    class FieldMaple(Species):
        botanical = "Acer campestre"
        common = ("field maple",)

        @after("repotted", rule="field-maple-feed")
        def feeding_begins(self, tree: Tree, done: Event, year: Year) -> Proposals:
            yield Proposal("fed", days_after(done.day, 28, 35, 49),
                           because="Cut roots take up no feed for about four weeks.",
                           weight=ROUTINE)

The interface is versioned: `INTERFACE`. A plugin may say `interface = 1`.
"""

from __future__ import annotations

from backbud.climate.datum import Datum, is_expected, joined
from backbud.climate.outlook import Wants
from backbud.collection.cut_roots import last_cut_of_roots
from backbud.collection.hard_work import (
    SEASON,
    Extent,
    is_hard_pruning,
    is_root_work,
    parts_of,
    share_of,
    stresses,
)
from backbud.collection.state import ChangeOfPlace, Entry, OnTree, Tree, Zone
from backbud.collection.wedges import Ring, Wedge, ring, wedges_in
from backbud.collection.zones import zone_scores
from backbud.journal.events import Event
from backbud.species.base import INTERFACE, Species
from backbud.species.declared import rules_of
from backbud.species.deed import Deed, deed_of
from backbud.species.facts import (
    COMMON_PRACTICE,
    FEED_AGAIN_UNDER,
    FEED_RESTS_OVER,
    FEED_RESTS_TENDER_OVER,
    FROM_MEMORY,
    SLOW_DRAIN_FROM,
    Fact,
    Figure,
    RepotInterval,
)
from backbud.species.frost_free import ROOTS_REST, frost_to_come, held_in, out_of_frost
from backbud.species.frozen import frozen_around, frozen_weeks, is_frozen, mildest_week
from backbud.species.heat import out_of_the_heat
from backbud.species.judging import Judge, judged, times_of
from backbud.species.no_rest import finds_no_rest, grows_all_year, has_no_winter, without_work
from backbud.species.proposals import (
    ColdNight,
    Covers,
    Foretold,
    ForetoldWhat,
    Proposal,
    Proposals,
    Section,
)
from backbud.species.rules import Rule, WorkTime, after, each, foretold, when
from backbud.species.schedule import NOTHING_SAID, Schedule, a_year_later, next_after
from backbud.species.stages import Stage, StageMonths, after_stage, stage_name
from backbud.species.summer_outside import (
    SummerOutside,
    comes_in,
    goes_out_from,
    summer_outside,
)
from backbud.species.weight import (
    CARE,
    CHANCE,
    PRESSING,
    PROMISE,
    PROTECTION,
    ROUTINE,
    STAYS_ON,
    AtStake,
    OncePast,
    Weight,
)
from backbud.species.windows import Window, days_after, weeks_after
from backbud.species.year import Year
from backbud.species.year_told import Season, Temperature, Turn
from backbud.tongue import as_named, continued, counted_phrase, phrase
from backbud_grammar.act_words import (
    ActWord,
    DetailName,
    DetailWord,
    SettledBy,
    as_act,
    as_detail,
    as_settling,
    as_word,
)
from backbud_grammar.acts.watching import PESTS
from backbud_grammar.forms import ANY_WORDS, ActForm, Effort, Form, Trait

__all__ = [
    "ANY_WORDS",
    "CARE",
    "CHANCE",
    "COMMON_PRACTICE",
    "FEED_AGAIN_UNDER",
    "FEED_RESTS_OVER",
    "FEED_RESTS_TENDER_OVER",
    "FROM_MEMORY",
    "INTERFACE",
    "NOTHING_SAID",
    "PESTS",
    "PRESSING",
    "PROMISE",
    "PROTECTION",
    "ROOTS_REST",
    "ROUTINE",
    "SEASON",
    "SLOW_DRAIN_FROM",
    "STAYS_ON",
    "ActForm",
    "ActWord",
    "AtStake",
    "ChangeOfPlace",
    "ColdNight",
    "Covers",
    "Datum",
    "Deed",
    "DetailName",
    "DetailWord",
    "Effort",
    "Entry",
    "Event",
    "Extent",
    "Fact",
    "Figure",
    "Foretold",
    "ForetoldWhat",
    "Form",
    "Judge",
    "OnTree",
    "OncePast",
    "Proposal",
    "Proposals",
    "RepotInterval",
    "Ring",
    "Rule",
    "Schedule",
    "Season",
    "Section",
    "SettledBy",
    "Species",
    "Stage",
    "StageMonths",
    "SummerOutside",
    "Temperature",
    "Trait",
    "Tree",
    "Turn",
    "Wants",
    "Wedge",
    "Weight",
    "Window",
    "WorkTime",
    "Year",
    "Zone",
    "a_year_later",
    "after",
    "after_stage",
    "as_act",
    "as_detail",
    "as_named",
    "as_settling",
    "as_word",
    "comes_in",
    "continued",
    "counted_phrase",
    "days_after",
    "deed_of",
    "each",
    "finds_no_rest",
    "foretold",
    "frost_to_come",
    "frozen_around",
    "frozen_weeks",
    "goes_out_from",
    "grows_all_year",
    "has_no_winter",
    "held_in",
    "is_expected",
    "is_frozen",
    "is_hard_pruning",
    "is_root_work",
    "joined",
    "judged",
    "last_cut_of_roots",
    "mildest_week",
    "next_after",
    "out_of_frost",
    "out_of_the_heat",
    "parts_of",
    "phrase",
    "ring",
    "rules_of",
    "share_of",
    "stage_name",
    "stresses",
    "summer_outside",
    "times_of",
    "wedges_in",
    "weeks_after",
    "when",
    "without_work",
    "zone_scores",
]
