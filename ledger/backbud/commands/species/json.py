"""The list of species and the sheet of one, for a program."""

from __future__ import annotations

from collections.abc import Iterable

from backbud.commands.species.sheet import KindSheet
from backbud.plan.pack import KnownSpecies
from backbud.species import Window


def list_json(known: Iterable[KnownSpecies]) -> list[dict[str, object]]:
    """Every species, by its common name."""
    return [_names(one) for one in known]


def sheet_json(sheet: KindSheet) -> dict[str, object]:
    """A species' year."""
    species, year = sheet.known.species, sheet.year
    return {
        **_names(sheet.known),
        "habit": species.habit,
        "evergreen": species.evergreen,
        "facts": [
            {"fact": fact.label, "value": fact.value, "source": fact.source} for fact in sheet.facts
        ],
        "year": year.name,
        "place": year.place,
        "stages": [
            {
                "bbch": stage.code,
                "name": stage.name,
                **_days(stage.window),
                "because": stage.because,
            }
            for stage in sheet.stages
        ],
        "works": [
            {
                "title": work.title,
                **_days(work.window),
                "because": work.because,
                "cautions": list(work.cautions),
                "rule": work.rule,
            }
            for work in sheet.works
        ],
        "afterwards": [
            {
                "after": list(after.after),
                "title": after.title,
                "days": list(after.days),
                "because": after.because,
            }
            for after in sheet.afterwards
        ],
        "never": list(species.never),
        "advice": list(species.advice),
    }


def _names(known: KnownSpecies) -> dict[str, object]:
    species = known.species
    return {
        "common": species.title,
        "botanical": species.botanical,
        "also": [*species.common[1:], *species.also],
        "from": known.origin,
    }


def _days(window: Window) -> dict[str, str]:
    return {
        "from": window.opens.isoformat(),
        "best": window.best.isoformat(),
        "until": window.closes.isoformat(),
    }
