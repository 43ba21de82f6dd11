"""Reads the weather that stands behind the date of a page."""

from __future__ import annotations

from backbud.journal.page_text import PageText
from backbud.journal.references import flaw_of_reference
from backbud.journal.remember import SaidWeather
from backbud.journal.said import ActReader
from backbud_grammar.dates import WrittenDate
from backbud_grammar.details import part_at_commas
from backbud_grammar.lexicon import REMARK_HINT
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Detail, Page
from backbud_grammar.written_hours import hint_of_hour

# A page's first line has no remarks.
_WORDS_BELOW = (
    "For example: low -1 C, high 6 C, snow. Free words go below, on a line that begins with noted."
)


def said_weather(
    page: Page | PageText, when: WrittenDate, reader: ActReader
) -> tuple[tuple[SaidWeather, ...], list[Flaw]]:
    """What the first line of a page of these days says of the weather, and what is wrong with it.

    `reader`: knows the details and the places.
    """
    found: dict[str, Detail] = {}
    flaws: list[Flaw] = []
    place = ""

    def tell(flaw: Flaw, at: int, hint: str = "") -> None:
        column = page.weather_column + at
        flaws.append(Flaw(flaw.code, 0, column, flaw.length, flaw.message, hint or flaw.hint))

    for start, piece in part_at_commas(page.weather):
        read = reader.details.weather(piece)
        if read.flaw:
            is_handle = reader.things.find(piece) is not None
            hint = "Handles stand on a line of their own below the date." if is_handle else ""
            hint = hint or hint_of_hour(next(iter(piece.split()), ""))
            if not hint and read.flaw.code == "unexpected-measure":
                hint = _WORDS_BELOW
            hint = hint or read.flaw.hint.replace(REMARK_HINT, _WORDS_BELOW)
            tell(read.flaw, start + read.flaw.column, hint)
        for detail in read.details:
            if detail.name in found:
                message = f"“{detail.name}” stands here twice, and the first counts"
                twice = Flaw("said-twice", 0, 0, detail.length, message, "Take one out.")
                tell(twice, start + detail.offset)
            elif detail.name == "at":
                flaw = flaw_of_reference(detail.handle, ("place",), reader.things)
                if flaw:
                    tell(flaw, piece.index(detail.handle) + start)
                else:
                    thing = reader.things.find(detail.handle)
                    place = thing.handle if thing else ""
            else:
                found[detail.name] = detail
    low, high = (found[name].measure if name in found else None for name in ("low", "high"))
    if low and high and low.within("C") > high.within("C"):
        message, hint = "the low is above the high", "Are the two swapped?"
        tell(Flaw("contradiction", 0, 0, len(page.weather), message, hint), 0)
    if not when.exact:
        message, hint = "weather needs an exact day", "Write the date as 2027-03-06."
        column, length = page.weather_column, len(page.weather)
        flaws.append(Flaw("rough-weather", 0, column, length, message, hint, "warning"))
        return (), flaws
    return tuple([(place, *_value_of(detail)) for detail in found.values()]), flaws


def _value_of(detail: Detail) -> tuple[str, float, str]:
    measure = detail.measure
    return (detail.name, float(measure.number), measure.unit) if measure else (detail.name, 1.0, "")
