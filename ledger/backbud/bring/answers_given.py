"""What the keeper says on the command line, laid into what the mapping leaves open."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from backbud.bring.days import ORDERS, SERIALS
from backbud.bring.mapping import MappedSheet, Mapping
from backbud.bring.sheet import BringError


class BringAnswers(Struct, frozen=True):
    """Answers to what was asked; "" and 0 where nothing is said. `dates`: of ORDERS and SERIALS."""

    rows: str = ""
    heading: int = 0
    dates: tuple[str, ...] = ()
    encoding: str = ""
    separator: str = ""
    sheet: str = ""


def with_answers(mapping: Mapping, answers: BringAnswers, names: tuple[str, ...]) -> Mapping:
    """The mapping with the answers in it. `names`: of the sheets of the file. BringError where it
    says something else already: that is edited, not said over."""
    encoding = _one("encoding", mapping.encoding, answers.encoding)
    separator = _one("separator", mapping.separator, answers.separator)
    mapping = replace(mapping, encoding=encoding, separator=separator)
    if not (answers.rows or answers.heading or answers.dates):
        return mapping
    if answers.sheet and answers.sheet not in names:
        raise BringError(f"no sheet is called “{answers.sheet}”; there are {', '.join(names)}")
    asked = (answers.sheet,) if answers.sheet else names
    said = {one.name: one for one in mapping.sheet}
    for name in asked:
        said[name] = _answered(said.get(name) or MappedSheet(name, heading=0), answers)
    return replace(mapping, sheet=tuple(said.values()))


def _answered(sheet: MappedSheet, answers: BringAnswers) -> MappedSheet:
    order = next((one for one in answers.dates if one in ORDERS), "")
    serial = next((year for year, name in SERIALS.items() if name in answers.dates), "")
    return replace(
        sheet,
        rows=_one("rows", sheet.rows, answers.rows),
        heading=answers.heading or sheet.heading,
        dates=_one("dates", sheet.dates, order),
        serials=_one("serials", sheet.serials, serial),
    )


def _one(what: str, written: str, said: str) -> str:
    if written and said and written != said:
        raise BringError(f"the mapping says {what} = “{written}”; edit it there to change it")
    return said or written
