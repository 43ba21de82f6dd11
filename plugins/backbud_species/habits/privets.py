"""What deciduous privets have in common: speed, and buds from any wood. Common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, Fact, RepotInterval, Rule
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    checks_after,
    feeds,
    protects_leaves,
    prunes,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_PENNSYLVANIA = (
    "University of Pennsylvania Veterinary Medicine, Poisonous plants: Ligustrum vulgare"
)


class Privet(BroadleafDeciduous):
    """A privet: paired leaves, flush after flush, buds from any wood; it flowers at new tips."""

    usual_mix = Fact("akadama 1, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.6, 0.9), COMMON_PRACTICE)
    wire_check_weeks = Fact((3, 4, 6), COMMON_PRACTICE)
    water = Fact("Plenty in leaf; it wilts early, and soon stands again.", COMMON_PRACTICE)
    bark = Fact("Its bark is thin and green twigs snap at the fork.", COMMON_PRACTICE)
    toxicity = Fact("Leaves and berries are poisonous to people and animals.", _PENNSYLVANIA)
    advice: ClassVar[tuple[str, ...]] = (
        "Trim it often: each trim costs a flush of flowers and makes a flush of twigs.",
        "Let no berries ripen where children or animals come.",
        "Put clippings where no animal can eat them.",
    )
    never: ClassVar[tuple[str, ...]] = (
        *BroadleafDeciduous.never,
        "Never throw clippings to animals: they are poisonous.",
        "Never let wire stay through a summer: it bites within a month.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        BroadleafDeciduous.works,
        *repots(
            "repot",
            between(1, 7),
            because="It regrows roots from a bare stump if need be, best as the buds swell.",
        ),
        protects_leaves(
            "late-frost",
            10,
            frost_c=-4.0,
            because="Its leaves bear some frost, and a hard one after a warm spell burns the tips.",
        ),
        prunes(
            "prune",
            at(1, -14, -8, -2),
            what="doubled and crossing branches, to bare wood where new shoots are wanted",
            because="It buds from bare wood of any age, and a cut made before growth has the whole "
            "year to answer.",
            cautions=("Hollow large cuts: they close slowly and the wood rots.",),
        ),
        checks_after(
            "thin-shoots",
            ("pruned",),
            weeks(5, 7, 10),
            look_at="shoots",
            what="shoots at the cuts, and rub out all but those wanted",
            because="A hard cut answers with a bunch of shoots, and a bunch left alone makes a "
            "knob.",
            only_after=lambda done: done.says("hard", "trunk chop", "to old wood"),
            each_part=True,
        ),
        trims(
            "trim",
            at(19, -10, 0, 10),
            what="shoots to one or two pairs, also those with flower buds at the tip",
            because="It flowers at the tips of this year's shoots, so a tree in training is "
            "trimmed before and one grown for flowers after them.",
        ),
        trims_again(
            "trim-next",
            by_warmth((7, 3), (7, 15), (7, 30)),
            what="the next flush to one or two pairs, before it sets berries",
            because="It flushes all summer, and each trim doubles the twigs.",
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 15), (8, 25), (9, 8)),
            what="what outgrew the outline",
            because="Later growth would stay soft into the frost.",
        ),
        feeds(
            "feed",
            at(19, -14, 0, 21),
            because="A tree that makes four flushes a year is fed for them, once the first is "
            "hard.",
        ),
        wires(
            "wire",
            at(1, -10, -4, 6),
            because="It sets within weeks of growth, so wire goes on just before and comes off by "
            "early summer.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "pests",
            by_warmth((5, 1), (5, 20), (7, 15)),
            where="curled and silvered leaves, and notches at their edges",
            because="Privet aphids roll the leaves, thrips silver them in dry weather, and weevils "
            "that notch them have grubs at the roots.",
        ),
    )
