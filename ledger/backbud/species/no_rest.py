"""Whether a place has a winter at all, and one cool enough for a tree to rest in."""

from __future__ import annotations

from collections.abc import Iterable

from backbud.climate.datum import Datum
from backbud.climate.degrees import degrees
from backbud.species.proposals import Proposal
from backbud.species.rules import Rule
from backbud.species.year import Year
from backbud.tongue import phrase
from backbud_grammar.act_words import ActWord

# The tropics of Köppen's climates: the coldest month of the year averages 18 °C and more (Geiger
# 1954; Peel, Finlayson & McMahon 2007, Hydrology and Earth System Sciences 11: 1633).
TROPICS_FROM_C = 18.0
# Warmed places and rooms have a winter of their own.
_WARMED = ("heated glass", "indoors")
# What asks of a tree to answer with growth: hard on one that weakens.
_WORK: frozenset[ActWord] = frozenset(
    (
        "repotted", "potted-on", "root-pruned", "pruned", "trimmed", "pinched", "decandled",
        "plucked", "thinned", "defoliated", "disbudded", "wired", "bent", "carved",
    )
)  # fmt: skip


def has_no_winter(year: Year) -> bool:
    """Whether every month of the place is as warm as in the tropics; not where nothing is known."""
    return year.outlook is not None and year.outlook.coldest_month.mean_c >= TROPICS_FROM_C


def grows_all_year(year: Year) -> bool:
    """Whether a tree grows on in all months, as one that needs no rest does in the tropics."""
    return has_no_winter(year) and year.rests_under_c is None


def finds_no_rest(year: Year) -> Datum | None:
    """Why a tree finds no rest at its place: the mean of the coldest month, and what it rests
    under; None where it does, or where nothing is known."""
    limit = year.rests_under_c
    if limit is None or year.outlook is None or year.cover.casefold().startswith(_WARMED):
        return None
    coldest = year.outlook.coldest_month.mean_c
    if coldest < limit:
        return None
    said = phrase(
        "The coldest month averages {coldest} here, and it rests under {limit} (common practice, "
        "no source).",
        coldest=degrees(coldest, ".1f"),
        limit=degrees(limit),
    )
    return Datum(said, True)


def without_work(rule: Rule, found: Iterable[Proposal], year: Year) -> list[Proposal]:
    """What a rule of a season or a stage proposes; no work of its own on a tree that finds no
    rest."""
    proposed = list(found)
    if not proposed or rule.hangs_on not in ("season", "stage") or finds_no_rest(year) is None:
        return proposed
    return [one for one in proposed if one.act not in _WORK]
