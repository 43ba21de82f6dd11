"""The care of a sabina juniper, which lives from its tips and is prized for old deadwood.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.deadwood import cares_for_deadwood
from backbud_species.habits.junipers import Juniper
from backbud_species.habits.works import LEAF_WORK, altered, at, between, feeds, repots, work


class SabinaJuniper(Juniper):
    """A low mountain juniper of scale foliage, with live veins beside old deadwood."""

    rule_prefix = "sabina"
    botanical = "Juniperus sabina"
    common = ("sabina juniper", "savin juniper")
    also = ("savin", "Sabina vulgaris")
    habit = (
        "A low spreading juniper of dense dark foliage over old twisted wood, strongest "
        "at its tips."
    )
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.8), FROM_MEMORY)
    light = Fact("Full sun and moving air.", COMMON_PRACTICE)
    water = Fact("Let the surface dry a little between waterings.", COMMON_PRACTICE)
    toxicity = Fact("Highly poisonous: the oil of its foliage, to people and stock.", FROM_MEMORY)
    bark = Fact("Stringy bark over live veins that twist; old wood bends little.", COMMON_PRACTICE)
    why_frost = "The top is hardy, but cut roots in a pot and dry wind on frozen soil are not safe."
    # For a cool temperate place; from memory. 7: the tips turn light green.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 26), (4, 10)),
        7: ((4, 3), (4, 18), (5, 3)),
        10: ((4, 24), (5, 9), (5, 26)),
        91: ((9, 18), (10, 5), (10, 26)),
    }
    advice = (
        "Full sun and moving air, and little water in cool months.",
        "Wear gloves for long work: its oil irritates skin.",
        "Collected ones carry deadwood of centuries: keep it dry and clean.",
    )
    never = (
        *Juniper.never,
        "Never work its roots and its foliage in one year.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Juniper.works,
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It is repotted as growth begins, part of the ball at a time and with its "
            "foliage on: foliage makes the new roots.",
            cautions=("No heavy bending and no carving in the year of repotting.",),
        ),
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
        cares_for_deadwood(
            "deadwood",
            because="Deadwood is cleaned and painted once a year in hot, dry weather, before it "
            "rots.",
        ),
    )
