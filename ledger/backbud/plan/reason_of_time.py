"""Says of a rule that comes round with a season or a stage why its time has come."""

from __future__ import annotations

from backbud.plan.followups import Reason
from backbud.species import (
    Season,
    Stage,
    Year,
    grows_all_year,
    has_no_winter,
    is_expected,
    stage_name,
)
from backbud.tongue import phrase
from backbud.words import sentence


def reason_of_time(found: Season | Stage, year: Year) -> Reason:
    """The season and the place; or the stage, and how its day is known."""
    if isinstance(found, Season):
        # The tropics have no seasons by that name.
        name = phrase("year") if has_no_winter(year) else phrase(found.name)
        return Reason(
            "season",
            phrase(
                "{name} {name_2} at {place}.",
                name=sentence(name),
                name_2=year.name,
                place=year.place or phrase("this place"),
            ),
        )
    stage = phrase(
        "{stage_name} (BBCH {code:02d}), {name}",
        stage_name=stage_name(found.code),
        code=found.code,
        name=year.name,
    )
    if not found.observed and grows_all_year(year):
        # A sum from New Year on is no stage of its growth.
        said = phrase(
            "Year {name} at {place}. It grows all year here, and no stage of growth decides the "
            "day.",
            name=year.name,
            place=year.place or phrase("this place"),
        )
        return Reason("season", said)
    if not found.observed:
        stage = phrase("{stage}; its usual day is from memory", stage=stage)
    return Reason("season", f"{stage}. {found.because}", expected=is_expected(found.because))
