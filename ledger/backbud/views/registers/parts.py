"""Parts a register that is too long for one page: by year where its entries have days, and then by
number."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from msgspec import Struct

from backbud.tongue import phrase
from backbud.views.registers.register import RegisterView

# So many entries stand on the page of all registers; a register with no more has no other page.
FIRST_ENTRIES = 20
# An entry is up to thirty elements, and no page has more than 4,000.
MOST_ENTRIES = 100
LATEST_FIRST = frozenset({"treatments", "plants"})
_UNDATED = frozenset({"stock"})


class RegisterPart(Struct, frozen=True):
    """Some of the entries of a register. `name`: `2026`, `2026-2` or `2`; `title`: what it holds,
    "" where that is everything."""

    name: str
    title: str
    rows: tuple[dict[str, str], ...]


def in_order(register: RegisterView) -> tuple[dict[str, str], ...]:
    """What was written last is asked for first; what is owed longest, too."""
    return register.rows[::-1] if register.register in LATEST_FIRST else register.rows


def register_parts(register: RegisterView) -> tuple[RegisterPart, ...]:
    """The parts of a register, in their order; none where all of it stands on the first page."""
    rows = in_order(register)
    if len(rows) <= FIRST_ENTRIES:
        return ()
    out: list[RegisterPart] = []
    for year, of_year in groupby(rows, lambda row: _year(register, row)):
        # What was corrected later may stand among entries of another year.
        number = 1 + sum(part.name.split("-")[0] == year for part in out if year)
        pieces = list(_cut(list(of_year)))
        for n, piece in enumerate(pieces, number):
            name = "-".join(filter(None, (year, str(n) if n > 1 or not year else "")))
            count = phrase("part {n}", n=n) if len(pieces) > 1 or n > 1 else ""
            out.append(RegisterPart(name, ", ".join(filter(None, (year, count))), tuple(piece)))
    return tuple(out)


def _year(register: RegisterView, row: dict[str, str]) -> str:
    year = "" if register.register in _UNDATED else row["date"][:4]
    return year if year.isdecimal() else ""


def _cut(rows: list[dict[str, str]]) -> Iterable[list[dict[str, str]]]:
    return (rows[at : at + MOST_ENTRIES] for at in range(0, len(rows), MOST_ENTRIES))
