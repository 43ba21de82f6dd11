"""Says how cold a night the roots of a species bear in a given pot.

Young roots die sooner than mature ones. They are what a tree lives by within a year of root work
(`Year.bears`), and what fills a shallow pot.
"""

from __future__ import annotations

from collections.abc import Mapping

from backbud.climate.degrees import degrees
from backbud.climate.hardiness import coldest_night_for_roots_c
from backbud.plan.figures import POT_MARGIN, SHALLOW_BELOW, YOUNG_ROOTS
from backbud.species import COMMON_PRACTICE, Species, Temperature
from backbud.tongue import phrase


def roots_bear(
    species: Species | None,
    pot_depth_cm: float | None,
    figures: Mapping[str, float],
    *,
    of_ball: bool = False,
) -> Temperature | None:
    """The coldest night (°C) that roots in this pot bear; None where the species does not say.

    In a shallow pot they are young; a depth that is not known counts as shallow. `of_ball`: it is
    that of the root ball, since nobody wrote down the pot.
    """
    mature = _mature(species, figures)
    young = young_roots_bear(species, figures)
    if mature is None or young is None:
        return None
    if pot_depth_cm is None:
        said = phrase("The depth of its pot is not known: {because}", because=young.because)
        return Temperature(young.celsius, said)
    if pot_depth_cm < SHALLOW_BELOW.among(figures):
        said = (
            phrase(
                "Its root ball is {deep_cm:g} cm deep, so shallow: {because}",
                deep_cm=pot_depth_cm,
                because=young.because,
            )
            if of_ball
            else phrase(
                "Its pot is {pot_depth_cm:g} cm deep, so shallow: {because}",
                pot_depth_cm=pot_depth_cm,
                because=young.because,
            )
        )
        return Temperature(young.celsius, said)
    return Temperature(mature.celsius, mature.because[0].upper() + mature.because[1:])


def young_roots_bear(species: Species | None, figures: Mapping[str, float]) -> Temperature | None:
    """The coldest night (°C) that young roots bear, in words that go on with a sentence.

    The species' own figure, else the usual one; never less than the mature ones bear.
    """
    mature = _mature(species, figures)
    if species is None or mature is None:
        return None
    limit = species.young_frost_limit_c
    if limit is not None:
        celsius, source = limit.value, phrase(limit.source)
    else:
        celsius = YOUNG_ROOTS.among(figures)
        source = phrase(
            "none is known of it: {name}, a setting of ours, {common_practice}",
            name=YOUNG_ROOTS.name,
            common_practice=phrase(COMMON_PRACTICE),
        )
    if celsius < mature.celsius:
        return mature
    return Temperature(
        celsius,
        phrase(
            "young roots bear about {degrees} ({source}).", degrees=degrees(celsius), source=source
        ),
    )


def _mature(species: Species | None, figures: Mapping[str, float]) -> Temperature | None:
    if species is None:
        return None
    if species.frost_limit_c is not None:
        limit = species.frost_limit_c
        return Temperature(
            limit.value,
            phrase(
                "mature roots in a pot bear about {degrees} ({source}).",
                degrees=degrees(limit.value),
                source=phrase(limit.source),
            ),
        )
    if species.hardiness is None:
        return None
    rating, source = species.hardiness.value, species.hardiness.source
    celsius = coldest_night_for_roots_c(rating, pot_margin_c=POT_MARGIN.among(figures))
    return Temperature(
        celsius,
        phrase(
            "it is rated {rating} ({source}), and mature roots in a pot bear about "
            "{degrees} ({name}, a setting of ours, {common_practice}).",
            rating=rating,
            source=phrase(source),
            degrees=degrees(celsius),
            name=POT_MARGIN.name,
            common_practice=phrase(COMMON_PRACTICE),
        ),
    )
