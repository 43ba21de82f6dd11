"""Leaves out what was reckoned where it was written with `used`, so that nothing counts twice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta

from backbud.plan.stores.values import Spent

# How long after the wiring its wire may be weighed: ours, no source.
WEIGHED_WITHIN = timedelta(days=60)


def covered(spent: Sequence[Spent]) -> Iterator[Spent]:
    """Leave out what was reckoned, or follows from a recipe, and was written with `used` too."""
    weighed = [one.day for one in spent if one.what == "used" and one.sort == "wire"]
    named = {(one.material, one.day) for one in spent if one.what == "used"}
    for one in spent:
        if one.what == "used":
            yield one
        elif one.sort in ("wire", "tie"):
            within = WEIGHED_WITHIN if one.sort == "wire" else timedelta(0)
            if not any(one.day <= day <= one.day + within for day in weighed):
                yield one
        elif (one.material, one.day) not in named or _is_beside_moss(one, spent):
            yield one


def _is_beside_moss(one: Spent, spent: Sequence[Spent]) -> bool:
    """Whether what was used stands for moss on top, and not for that in the mix."""
    return one.sort == "soil" and any(
        other.sort == "on top" and other.material == one.material and other.day == one.day
        for other in spent
    )
