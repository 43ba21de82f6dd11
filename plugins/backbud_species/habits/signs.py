"""Signs since the last root work that a tree's roots want work before its years are over.

Years alone do not tell: water that passes more and more slowly, a surface that had to be opened,
and a ball that fills its pot do. The figures are ours, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import pairwise
from statistics import median

from backbud.bench.pots import volume_litres
from backbud.bench.roots import ball_litres
from backbud.species import SLOW_DRAIN_FROM, Event, Tree, Year, phrase, zone_scores
from backbud_species.habits.done import last_of_before
from backbud_species.habits.figures import BALL_FILLS_POT, SLOWER_EACH_YEAR
from backbud_species.habits.roots import ball_of_tree

# Fewer years say nothing of a trend.
_YEARS_OF_TREND = 2


def early_signs(tree: Tree, year: Year, last: Event, before: date) -> tuple[str, ...]:
    """Each sign since the last root work, as words in a sentence."""
    done = list(_since(tree, last, before))
    signs = (
        _slow(tree, year, last, before) or _slower_each_year(done, year),
        _surface_opened(done),
        found_bound(done),
        _grows_less_each_year(done),
        _fills_its_pot(tree, year),
    )
    return tuple(filter(None, signs))


def is_slow(drained: Event, year: Year) -> bool:
    """Whether a can of water took too long to pass."""
    return (seconds(drained) or 0.0) >= SLOW_DRAIN_FROM.of(year)


def seconds(drained: Event) -> float | None:
    """How long the water took to pass, in seconds; None where it is not written."""
    time = drained.measure("time")
    return time.within("s") if time is not None else None


def _slow(tree: Tree, year: Year, last: Event, before: date) -> str:
    drained = last_of_before(tree, before, "drained")
    if drained is None or drained.day <= last.day or not is_slow(drained, year):
        return ""
    return phrase(
        "water has been slow to pass ({seconds:.0f} s on {day})",
        seconds=seconds(drained),
        day=drained.day,
    )


def _slower_each_year(done: Sequence[Event], year: Year) -> str:
    """Water that took longer in every year than in the one before."""
    by_year: dict[int, list[float]] = {}
    for event in done:
        if event.act == "drained" and (took := seconds(event)) is not None:
            by_year.setdefault(event.day.year, []).append(took)
    medians = [median(by_year[each]) for each in sorted(by_year)]
    grown = all(
        later >= SLOWER_EACH_YEAR.of(year) * earlier for earlier, later in pairwise(medians)
    )
    if len(medians) < _YEARS_OF_TREND or not grown:
        return ""
    return phrase(
        "water takes longer each year ({medians} s)",
        medians=", ".join(f"{took:.0f}" for took in medians),
    )


def _surface_opened(done: Sequence[Event]) -> str:
    opened = [e for e in done if e.act == "opened" and e.says("hard surface")]
    return (
        phrase("its hard surface had to be opened on {day}", day=opened[-1].day) if opened else ""
    )


def found_bound(done: Sequence[Event]) -> str:
    """That a look found the roots to fill the pot, as words in a sentence; "" where none did."""
    found = [e for e in done if e.act == "checked" and e.says("rootbound", "root-bound")]
    return phrase("it was found rootbound on {day}", day=found[-1].day) if found else ""


def _grows_less_each_year(done: Sequence[Event]) -> str:
    """Vigour that fell in every year, over all zones."""
    by_year: dict[int, list[float]] = {}
    for event in done:
        for _, score in zone_scores(event):
            by_year.setdefault(event.day.year, []).append(score)
    medians = [median(by_year[each]) for each in sorted(by_year)]
    falling = all(later < earlier for earlier, later in pairwise(medians))
    if len(medians) < _YEARS_OF_TREND or not falling:
        return ""
    return phrase(
        "it grows less each year (vigour {medians} of 5)",
        medians=", ".join(f"{score:g}" for score in medians),
    )


def _fills_its_pot(tree: Tree, year: Year) -> str:
    ball = ball_of_tree(tree)
    if ball is None or year.pot is None:
        return ""
    share = ball_litres(ball) / volume_litres(year.pot)
    if share < BALL_FILLS_POT.of(year):
        return ""
    return phrase("its root ball fills the pot ({value:.0f} % of it)", value=100 * min(share, 1.0))


def _since(tree: Tree, last: Event, before: date) -> Iterator[Event]:
    for entry in tree.done_between(last.day, before):
        if last.day < entry.event.day < before and entry.event.exact:
            yield entry.event
