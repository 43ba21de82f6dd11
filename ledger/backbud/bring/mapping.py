"""How a list is brought in, in a file that its keeper can edit and use again: what is a row of each
sheet, and what each of its columns means."""

from __future__ import annotations

import json
from collections.abc import Iterator

import msgspec
from msgspec import Struct

from backbud.bring.days import ORDERS, SERIALS
from backbud.bring.sheet import BringError
from backbud.bring.text_table import ENCODINGS, SEPARATORS
from backbud.bring.wordings import QUALIFIED_BY_ACT, ROWS, meanings
from backbud_grammar.measures import BY_WRITING, CURRENCIES
from backbud_grammar.problems import did_you_mean

_ABOUT = """\
# How “{file}” is brought in. What a column means may be changed here; the next run goes by it.
# “noted” keeps the words of a column as a note, “left out” leaves them in the list.
"""


class MappedSheet(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """How one sheet is read. `name`: "" where the file has but one. `rows`: of ROWS, "" where it is
    open. `heading`: the row with the headings. `dates`, `serials`: see `days`. `columns`: for each
    heading what it means, with a unit behind a comma. `as_above`: the headings of columns in which
    an empty cell means the same as the one above it."""

    name: str = ""
    rows: str = ""
    heading: int = 1
    dates: str = ""
    serials: str = ""
    as_above: tuple[str, ...] = ()
    columns: dict[str, str] = {}


class Mapping(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """The whole file. `names`: who is meant by a name of the list: handles, with commas."""

    file: str
    encoding: str = ""
    separator: str = ""
    sheet: tuple[MappedSheet, ...] = ()
    names: dict[str, str] = {}

    def of_sheet(self, name: str) -> MappedSheet | None:
        """That of a sheet, None where nothing is said of it."""
        return next((one for one in self.sheet if one.name == name), None)


def read_mapping(data: bytes, shown: str, acts: frozenset[str]) -> Mapping:
    """The mapping in a file; BringError, with its name and place, where it cannot be read.
    `acts`: the words that an act may begin with."""
    try:
        mapping = msgspec.toml.decode(data, type=Mapping)
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        raise BringError(f"{shown}: {error}. Mend it, or delete it to begin anew.") from None
    for problem in _wrong(mapping, acts):
        raise BringError(f"{shown}: {problem}")
    return mapping


def _wrong(mapping: Mapping, acts: frozenset[str]) -> Iterator[str]:
    if mapping.encoding not in ("", *ENCODINGS):
        yield f"encoding: no “{mapping.encoding}”. It is one of {', '.join(ENCODINGS)}."
    if mapping.separator not in ("", *SEPARATORS):
        yield f"separator: no “{mapping.separator}”. It is one of {', '.join(SEPARATORS)}."
    for sheet in mapping.sheet:
        where = f"sheet “{sheet.name}”: " if sheet.name else ""
        if sheet.rows not in ("", *ROWS):
            hint = did_you_mean(sheet.rows, ROWS)
            yield f"{where}rows: no “{sheet.rows}”. It is one of {', '.join(ROWS)}. {hint}".rstrip()
        if sheet.dates not in ("", *ORDERS):
            yield f"{where}dates: no “{sheet.dates}”. It is one of {', '.join(ORDERS)}."
        if sheet.serials not in ("", *SERIALS):
            yield f"{where}serials: no “{sheet.serials}”. It is 1900 or 1904."
        if sheet.heading < 1:
            yield f"{where}heading: rows count from 1."
        if sheet.rows in ("", ROWS[-1]):
            continue
        for heading, told in sheet.columns.items():
            if problem := no_such_meaning(told, sheet.rows, acts):
                yield f"{where}“{heading}”: {problem}"


def no_such_meaning(told: str, rows: str, acts: frozenset[str]) -> str:
    """Why a column of such rows cannot mean that, "" where it can."""
    meaning, unit = parted_meaning(told)
    if unit and unit not in BY_WRITING and unit not in CURRENCIES:
        return f"no unit “{unit}”"
    if meaning.startswith(QUALIFIED_BY_ACT):
        word = meaning.removeprefix(QUALIFIED_BY_ACT)
        return "" if word in acts else f"no act “{word}”. {did_you_mean(word, acts)}".rstrip()
    known = meanings(rows)
    if meaning in known:
        return ""
    hint = did_you_mean(meaning, known, f"It is one of {', '.join(sorted(known))}, or act WORD.")
    return f"nothing in a row of {rows} is “{meaning}”. {hint}"


def parted_meaning(told: str) -> tuple[str, str]:
    """What a column means, and its unit: `height, cm`."""
    meaning, _, unit = told.partition(",")
    return meaning.strip(), unit.strip()


def mapping_lines(mapping: Mapping) -> Iterator[str]:
    """The file of a mapping, as TOML 1.0 has it."""
    yield from _ABOUT.format(file=mapping.file).splitlines()
    yield f"file = {_quoted(mapping.file)}"
    if mapping.encoding:
        yield f"encoding = {_quoted(mapping.encoding)}"
    if mapping.separator:
        yield f"separator = {_quoted(mapping.separator)}    # {', '.join(SEPARATORS)}"
    for sheet in mapping.sheet:
        yield ""
        yield "[[sheet]]"
        if sheet.name:
            yield f"name = {_quoted(sheet.name)}"
        yield f"rows = {_quoted(sheet.rows)}    # what one row is: {', '.join(ROWS)}"
        yield f"heading = {sheet.heading}    # the row that the headings stand in"
        unsaid = "" if sheet.dates else "# "
        yield f"{unsaid}dates = {_quoted(sheet.dates or ORDERS[0])}    # {', '.join(ORDERS)}"
        if sheet.serials:
            yield f"serials = {_quoted(sheet.serials)}    # the year that days count from"
        if sheet.as_above:
            yield f"as_above = [{', '.join(map(_quoted, sheet.as_above))}]"
        else:
            yield '# as_above = ["Tree"]    # where an empty cell means the one above it'
        yield "[sheet.columns]"
        yield from (f"{_quoted(head)} = {_quoted(told)}" for head, told in sheet.columns.items())
    yield ""
    yield "# Who is meant by a name of the list: “Old Nell” = “heron”."
    yield "[names]"
    yield from (f"{_quoted(name)} = {_quoted(told)}" for name, told in mapping.names.items())


def _quoted(text: str) -> str:
    # A basic string of TOML is one of JSON but for the one sign that JSON leaves as it is.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
