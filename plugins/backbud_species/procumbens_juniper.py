"""The care of a procumbens juniper, whose dense tufts are thinned by hand so that light comes in.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.deadwood import cares_for_deadwood
from backbud_species.habits.junipers import Juniper
from backbud_species.habits.works import LEAF_WORK, altered, at, between, feeds, repots, work


class ProcumbensJuniper(Juniper):
    """A creeping juniper of needles in tufts, the one most often sold small."""

    rule_prefix = "procumbens"
    botanical = "Juniperus procumbens"
    common = ("procumbens juniper", "Japanese garden juniper")
    also = ("Juniperus chinensis var. procumbens", "Juniperus procumbens 'Nana'", "sonare")
    habit = (
        "A creeping juniper of stiff blue-green needles in dense upright tufts, "
        "strongest at its tips."
    )
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.8), FROM_MEMORY)
    light = Fact("Full sun and moving air.", COMMON_PRACTICE)
    water = Fact("Let the surface dry a little between waterings.", COMMON_PRACTICE)
    toxicity = Fact(
        "Mildly poisonous if eaten; the needles prick and can make a rash.", FROM_MEMORY
    )
    bark = Fact("Thin brown bark on supple stems that take any bend while young.", COMMON_PRACTICE)
    why_frost = "The top is hardy, but cut roots in a pot and dry wind on frozen soil are not safe."
    # For a cool temperate place; from memory. 7: the tips turn light green.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 26), (4, 10)),
        7: ((4, 3), (4, 18), (5, 3)),
        10: ((4, 24), (5, 9), (5, 26)),
        91: ((9, 18), (10, 5), (10, 26)),
    }
    advice = (
        "Full sun and moving air, all year outside: it does not live in a room.",
        "Open the tufts with the fingers: what is shaded inside browns and holds mites.",
    )
    never = (
        *Juniper.never,
        "Never keep it indoors: it dies within months and shows it weeks later.",
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
            what="tufts by hand, brown needles out, and shoots that grow up or down",
            because="Dense tufts shade themselves bare, and mites live where no air comes.",
            gate=LEAF_WORK,
        ),
        feeds(
            "feed-spring",
            at(7, 0, 12, 24),
            because="It is fed evenly and not too much from the first light green on: rich feed "
            "makes long soft runners.",
        ),
        cares_for_deadwood(
            "deadwood",
            because="Deadwood is cleaned and painted once a year in hot, dry weather, before it "
            "rots.",
        ),
    )
