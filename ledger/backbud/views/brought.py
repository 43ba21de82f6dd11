"""What a list from a spreadsheet or a calendar becomes, for a program."""

from __future__ import annotations

from msgspec import Struct

from backbud.views.jotted import AskView


class BroughtSheetView(Struct, frozen=True):
    """How one sheet was read. `name`: "" where the file has but one. `rows`: what a row of it is,
    "" where it is open. `heading`: the row with the headings. `dates`: the order of its dates, ""
    where nothing hangs on it. `columns`: for each heading what it means. `told`: what is to be said
    of how it was read."""

    name: str
    hidden: bool
    rows: str
    heading: int
    dates: str
    columns: dict[str, str]
    told: tuple[str, ...]


class BroughtCardView(Struct, frozen=True):
    """A card that is new, and the row of the list that asks for it."""

    kind: str
    handle: str
    name: str
    sheet: str
    row: int


class BroughtCellView(Struct, frozen=True):
    """A cell of which something is to be said: `why`. `heading`: "" where it is about its row."""

    sheet: str
    row: int
    heading: str
    words: str
    why: str


class BroughtView(Struct, frozen=True):
    """What a list becomes. `mapping`: the file that says how it is read; `is_kept`: whether it
    lies there. `asks`: what must be answered first. `file`: the new file, "" where there is none;
    `is_written`: whether it was written. `text`: what stands in it. `acts`, `notes`: how many lines
    of the diary do something, and how many only keep words. `not_read`: what was not taken, cell by
    cell; `noted`: what was kept as a note, and why. `before`: how many rows had been brought
    before; `left_out`: how many cells of each column the mapping leaves out. `problems`: what
    `check` will ask about."""

    list: str
    mapping: str
    is_kept: bool
    asks: tuple[AskView, ...]
    sheets: tuple[BroughtSheetView, ...]
    file: str
    is_written: bool
    text: str
    cards: tuple[BroughtCardView, ...]
    acts: int
    notes: int
    not_read: tuple[BroughtCellView, ...]
    noted: tuple[BroughtCellView, ...]
    before: int
    left_out: dict[str, int]
    problems: tuple[str, ...]
