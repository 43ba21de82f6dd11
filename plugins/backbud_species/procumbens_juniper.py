"""The care of a procumbens juniper, whose dense tufts are thinned by hand so that light comes in.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.junipers import LowJuniper
from backbud_species.habits.works import LEAF_WORK, altered, at, feeds, work


class ProcumbensJuniper(LowJuniper):
    """A creeping juniper of needles in tufts, the one most often sold small."""

    rule_prefix = "procumbens"
    botanical = "Juniperus procumbens"
    common = ("procumbens juniper", "Japanese garden juniper")
    also = ("Juniperus chinensis var. procumbens", "Juniperus procumbens 'Nana'", "sonare")
    habit = (
        "A creeping juniper of stiff blue-green needles in dense upright tufts, "
        "strongest at its tips."
    )
    toxicity = Fact(
        "Mildly poisonous if eaten; the needles prick and can make a rash.", FROM_MEMORY
    )
    rests_under_c = None
    bark = Fact("Thin brown bark on supple stems that take any bend while young.", COMMON_PRACTICE)
    advice = (
        "Full sun and moving air, all year outside: it does not live in a room.",
        "Open the tufts with the fingers: what is shaded inside browns and holds mites.",
    )
    never = (
        *LowJuniper.never,
        "Never keep it indoors: it dies within months and shows it weeks later.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        LowJuniper.works,
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
    )
