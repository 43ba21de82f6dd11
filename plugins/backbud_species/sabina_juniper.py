"""The care of a sabina juniper, which lives from its tips and is prized for old deadwood.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.junipers import LowJuniper
from backbud_species.habits.works import LEAF_WORK, altered, at, feeds, work


class SabinaJuniper(LowJuniper):
    """A low mountain juniper of scale foliage, with live veins beside old deadwood."""

    rule_prefix = "sabina"
    botanical = "Juniperus sabina"
    common = ("sabina juniper", "savin juniper")
    also = ("savin", "Sabina vulgaris")
    habit = (
        "A low spreading juniper of dense dark foliage over old twisted wood, strongest "
        "at its tips."
    )
    toxicity = Fact("Highly poisonous: the oil of its foliage, to people and stock.", FROM_MEMORY)
    bark = Fact("Stringy bark over live veins that twist; old wood bends little.", COMMON_PRACTICE)
    advice = (
        "Full sun and moving air, and little water in cool months.",
        "Wear gloves for long work: its oil irritates skin.",
        "Collected ones carry deadwood of centuries: keep it dry and clean.",
    )
    never = (
        *LowJuniper.never,
        "Never work its roots and its foliage in one year.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        LowJuniper.works,
        work(
            "thin",
            "thinned",
            at(91, -28, -14, 14),
            what="what hangs down and grows in the forks, each branch keeping green at its end",
            because="Light keeps the inner shoots alive, and it does not bud from bare wood.",
            gate=LEAF_WORK,
        ),
        feeds(
            "feed-spring",
            at(7, 0, 12, 24),
            because="It is fed evenly and not too much from the first light green on: rich feed "
            "makes coarse needle shoots.",
        ),
    )
