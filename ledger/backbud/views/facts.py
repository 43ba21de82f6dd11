"""The facts of a species as a person reads them, each with its source."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct, field

from backbud.climate.degrees import degrees
from backbud.species import Fact, Species
from backbud.tongue import phrase


class SpeciesFact(Struct, frozen=True):
    """One fact of a species as shown (in JSON: `fact` and `value`), and where it comes from."""

    label: str = field(name="fact")
    value: str
    source: str


class SpeciesFacts(Struct, frozen=True):
    """What the pages show of a species. `title`: the common name; `botanical`: no cultivar."""

    title: str
    botanical: str
    facts: tuple[SpeciesFact, ...] = ()


# Facts of a journal's own plugins, by any name of a kind and by label.
MoreFacts = Mapping[str, Mapping[str, Fact[object]]]


def facts_of(species: Species, more: MoreFacts) -> tuple[SpeciesFact, ...]:
    """Every fact that is known of a species; `more`: what a journal's plugins know of kinds."""
    names = (*species.common, *species.also, species.botanical)
    added = [some for name in names if (some := more.get(" ".join(name.casefold().split())))]
    return (
        *_own(species),
        *(
            SpeciesFact(label, str(fact.value), phrase(fact.source))
            for some in added
            for label, fact in some.items()
        ),
    )


def _own(species: Species) -> Iterator[SpeciesFact]:
    strongest = phrase("at the top") if species.strongest == "acrotonic" else phrase("at the base")
    yield SpeciesFact(phrase("grows strongest"), strongest, "")
    if fact := species.hardiness:
        yield SpeciesFact(
            phrase("hardiness"), phrase("RHS {value}", value=fact.value), phrase(fact.source)
        )
    if ph := species.soil_ph:
        yield SpeciesFact(
            phrase("soil pH"),
            phrase("{value:g} to {value_2:g}", value=ph.value[0], value_2=ph.value[1]),
            phrase(ph.source),
        )
    if fact := species.usual_mix:
        yield SpeciesFact(phrase("usual mix"), phrase(fact.value), phrase(fact.source))
    if years := species.repot_years:
        yield SpeciesFact(phrase("repotted every"), _years(years.value), phrase(years.source))
    if interval := species.repot_interval:
        young, old = interval.value.young, interval.value.old
        said = phrase(
            "{years} when young, {years_2} when old", years=_years(young), years_2=_years(old)
        )
        yield SpeciesFact(phrase("by age"), said, phrase(interval.source))
    if share := species.root_share:
        cool, warm = share.value
        yield SpeciesFact(phrase("off at once"), _share_of_ball(cool, warm), phrase(share.source))
    if limit := species.frost_limit_c:
        yield SpeciesFact(
            phrase("roots in a pot bear"), f"{degrees(limit.value)}", phrase(limit.source)
        )
    if limit := species.young_frost_limit_c:
        yield SpeciesFact(
            phrase("young roots bear"), f"{degrees(limit.value)}", phrase(limit.source)
        )
    if limit := species.comes_in_below_c:
        yield SpeciesFact(phrase("comes in below"), f"{degrees(limit.value)}", phrase(limit.source))
    for label, text in (
        (phrase("light"), species.light),
        (phrase("water"), species.water),
        (phrase("bark"), species.bark),
        (phrase("poisonous"), species.toxicity),
    ):
        if text:
            yield SpeciesFact(label, phrase(text.value), phrase(text.source))


def _share_of_ball(cool: float, warm: float) -> str:
    """A share of the ball's volume, never of its roots: nobody has counted those."""
    of_ball = phrase("{value:.0f} % of the root ball's volume", value=100 * cool)
    if cool == warm:
        return of_ball
    return phrase(
        "{of_ball} in a cool place, {value:.0f} % in a warm one", of_ball=of_ball, value=100 * warm
    )


def _years(years: tuple[int, int, int]) -> str:
    return phrase("{years} to {years_2} years", years=years[0], years_2=years[2])
