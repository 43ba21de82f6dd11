"""Reads `backbud.toml`; a setting that cannot be used is told, and its default stands."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from math import isfinite
from typing import Any, Literal

from msgspec import Struct

from backbud.journal.language_set import (
    is_language,
    languages_of,
    shown_languages,
    wrong_in_languages,
)
from backbud.journal.letterhead import (
    NO_LETTERHEAD,
    Letterhead,
    read_letterhead,
    wrong_in_letterhead,
)
from backbud.journal.tax import NO_TAX, Tax, read_tax, wrong_in_tax
from backbud.journal.wrong_setting import WrongSetting
from backbud.tongue import ENGLISH, LANGUAGES
from backbud_grammar.languages import ALWAYS_NEWEST, LANGUAGE, Languages
from backbud_grammar.measures import CURRENCIES
from backbud_grammar.problems import Flaw, did_you_mean
from backbud_grammar.scribbles.gallons import GALLONS

SETTINGS_FILE = "backbud.toml"

Show = Literal["best day", "window"]
Settled = Literal["leave", "completed"]


class Settings(Struct, frozen=True):
    """What backbud.toml says.

    `home`, `keeper`: handles of a place card and a person card. `journal_id` ends every calendar
    entry's id. `show`: whether calendars show a work's best day or its whole window. `base_url`:
    where the pages are served, for links in calendars. `figures`: numbers rules may ask for.
    `alarm_days`: how many days before a work's day each of its alarms rings, at `alarm_hour`.
    `settled`: whether what is done or skipped leaves the calendars or stays in them as done with.
    `caldav_url`: the server that `backbud publish` writes to. `publish`: the feeds that go there,
    by their names below `calendars/`. `pages_for_owners`: a folder of pages is made for everybody
    whose trees are known, unless their card says `pages no`. `public_name`: what stands above the
    pages that anybody may see. `tax`: on what is billed. `letterhead`: what stands above a paper.
    `weather`: which met service (`from`) and which station of past days (`station`) this journal
    proposes; nobody is asked for its sake. `languages`: by which language a day's page is read:
    `language`, and from the days in the table `languages` on another. `gallon`: the country whose
    gallon is meant (`[units]`); "" where nobody says. `speaks`: the language of pages and
    calendars, a BCP 47 tag that backbud has a catalogue for.
    """

    name: str = "A journal without a name"
    home: str = ""
    keeper: str = ""
    currency: str = ""
    journal_id: str = "backbud"
    hours_per_week: float = 0.0
    show: Show = "best day"
    base_url: str = ""
    alarm_days: tuple[int, ...] = ()
    alarm_hour: int = 8
    settled: Settled = "leave"
    caldav_url: str = ""
    publish: tuple[str, ...] = ("all", "tasks/all")
    pages_for_owners: bool = False
    public_name: str = ""
    figures: Mapping[str, float] = {}
    tax: Tax = NO_TAX
    letterhead: Letterhead = NO_LETTERHEAD
    weather: Mapping[str, str] = {}
    languages: Languages = ALWAYS_NEWEST
    gallon: str = ""
    speaks: str = ENGLISH


_TEXTS = (
    "name", "home", "keeper", "currency", "journal_id", "base_url", "caldav_url", "public_name"
)  # fmt: skip
_CALENDARS = ("show", "settled", "alarm_days", "alarm_hour", "publish")
# No figure of the trade is larger, and no sum of such figures runs over.
LARGEST_FIGURE = 10**9
_KNOWN = (
    "language", "languages", *_TEXTS, "hours_per_week", *_CALENDARS, "pages_for_owners",
    "figures", "tax", "letterhead", "weather", "units", "speaks",
)  # fmt: skip
LONGEST_ALARM_DAYS = 365
LONGEST_JOURNAL_ID = 60  # it ends every UID, and a UID has room for 255 octets


def read_settings(text: str) -> tuple[Settings, list[Flaw]]:
    """Read the settings; what cannot be used is a flaw, and its default stands."""
    try:
        table: dict[str, Any] = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        # ValueError also where a number is too long, RecursionError where brackets nest too deep.
        line, column = _place(str(error), text)
        what = str(error).partition(" (at ")[0] or "it cannot be read"
        return Settings(), [
            Flaw(
                "bad-settings",
                line,
                column,
                1,
                f"this is not TOML: {what}",
                'A setting is written: key = "text". The defaults were used for everything.',
            )
        ]
    flaws: list[Flaw] = []
    values: dict[str, Any] = {}
    for key, value in table.items():
        wrong = tuple(_wrong(key, value))
        flaws.extend(_flaw_of(key, one, text) for one in wrong)
        if wrong:
            continue
        if key == "units":
            values["gallon"] = value.get("gallon", "")
        elif key not in ("language", "languages"):
            values[key] = _kept(key, value)
    values["languages"] = languages_of(table)
    if "language" not in table:
        flaws.append(
            Flaw(
                "bad-settings",
                0,
                1,
                1,
                "the settings do not say which language",
                f"Add the line: language = {LANGUAGE}",
            )
        )
    return Settings(**values), flaws


def _kept(key: str, value: Any) -> Any:
    """A sound setting as it is kept."""
    if key == "hours_per_week":
        return float(value)
    if key == "tax":
        return read_tax(value)
    if key == "letterhead":
        return read_letterhead(value)
    if key in ("alarm_days", "publish"):
        return tuple(dict.fromkeys(value if isinstance(value, list) else [value]))
    return value


def _flaw_of(key: str, wrong: WrongSetting, text: str) -> Flaw:
    """What is wrong, at the entry of the table that is meant, or at the setting."""
    line, column = _place_of_key(key, text)
    named = key
    if wrong.entry:
        named = wrong.entry
        line, column = _place_in_table(named, line, column, text)
    return Flaw("bad-settings", line, column, len(named), wrong.message, wrong.hint)


def _wrong(key: str, value: object) -> Iterator[WrongSetting]:
    """What is wrong with a setting."""
    in_table = _TABLES.get(key)
    if in_table is not None:
        yield from in_table(value)
    elif found := _wrong_alone(key, value):
        yield WrongSetting(*found)


def _wrong_alone(key: str, value: object) -> tuple[str, str] | None:
    """What is wrong with a setting that is no table: a message and a hint."""
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if key not in _KNOWN:
        return f"“{key}” is no setting", did_you_mean(key, _KNOWN, f"Known: {', '.join(_KNOWN)}.")
    if key == "language" and not is_language(value):
        return (
            f"language {value} is not known to this version",
            f"This version reads language {shown_languages()}.",
        )
    if key == "speaks" and str(value) not in LANGUAGES:
        known = ", ".join(f"{tag} ({name})" for tag, name in LANGUAGES.items())
        return f"pages and calendars do not speak “{value}” yet", f"Known: {known}."
    if key in _TEXTS and not isinstance(value, str):
        return f"“{key}” is a text", f'For example: {key} = "…"'
    if key == "pages_for_owners" and not isinstance(value, bool):
        return f"“{key}” is true or false", f"For example: {key} = true"
    if key == "currency" and value not in CURRENCIES:
        return f"“{value}” is no ISO 4217 currency", did_you_mean(str(value), CURRENCIES)
    if key == "journal_id" and not _is_id(str(value)):
        return "“journal_id” is letters, digits, dots and hyphens", 'For example: "upper-yard"'
    if key == "journal_id" and len(str(value)) > LONGEST_JOURNAL_ID:
        return f"“journal_id” is at most {LONGEST_JOURNAL_ID} long", 'For example: "upper-yard"'
    if key == "base_url" and value != "" and not _is_web_address(str(value)):
        return (
            "“base_url” is no absolute http or https address",
            'Write where the pages are served, scheme and all: "https://trees.example/". '
            "Leave it out if they are served nowhere.",
        )
    if key == "hours_per_week" and not (number and 0 <= float(str(value)) <= 168):
        return "“hours_per_week” is a number from 0 to 168", "For example: hours_per_week = 10"
    if key in (*_CALENDARS, "caldav_url"):
        return _wrong_in_calendars(key, value)
    return None


def _wrong_in_weather(value: object) -> Iterator[WrongSetting]:
    """What is wrong with what is said of where weather comes from."""
    known, hint = ("from", "station"), 'For example: from = "met-norway"'
    if not isinstance(value, dict):
        yield WrongSetting("“weather” is a table of texts", hint)
        return
    for name, said in value.items():
        if name not in known:
            near = did_you_mean(name, known, "Known: from, station.")
            yield WrongSetting(f"“{name}” is no setting of weather", near, name)
        elif not isinstance(said, str):
            yield WrongSetting(f"“{name}” of [weather] is a text", hint, name)


def _wrong_in_units(value: object) -> Iterator[WrongSetting]:
    """What is wrong with what is said of units."""
    hint = 'Write gallon = "US", or "UK", below [units].'
    if not isinstance(value, dict) or not value:
        yield WrongSetting("“units” says whose gallon is meant", hint)
        return
    for name, said in value.items():
        if name != "gallon" or said not in GALLONS:
            yield WrongSetting("“units” says whose gallon is meant", hint, name)


def _wrong_figures(value: object) -> Iterator[WrongSetting]:
    """What is wrong with the keeper's own figures."""
    hint = "For example: decandle_from_c = 14"
    if not isinstance(value, dict):
        yield WrongSetting("“figures” is a table of numbers", hint)
        return
    for name, n in value.items():
        if not isinstance(n, (int, float)) or isinstance(n, bool) or not isfinite(n):
            yield WrongSetting(f"“{name}” of [figures] is a number", hint, name)
        elif abs(n) > LARGEST_FIGURE:
            yield WrongSetting(f"no figure lies beyond {LARGEST_FIGURE}", hint, name)


_TABLES: Mapping[str, Callable[[object], Iterator[WrongSetting]]] = {
    "languages": wrong_in_languages,
    "tax": wrong_in_tax,
    "letterhead": wrong_in_letterhead,
    "weather": _wrong_in_weather,
    "units": _wrong_in_units,
    "figures": _wrong_figures,
}


def _wrong_in_calendars(key: str, value: object) -> tuple[str, str] | None:
    """What is wrong with a setting of the calendars: a message and a hint."""
    if key == "show" and value not in ("best day", "window"):
        return "“show” is “best day” or “window”", 'For example: show = "window"'
    if key == "settled" and value not in ("leave", "completed"):
        return "“settled” is “leave” or “completed”", 'For example: settled = "completed"'
    if key == "alarm_days" and not all(
        _is_whole(n, LONGEST_ALARM_DAYS) for n in (value if isinstance(value, list) else [value])
    ):
        return (
            f"“alarm_days” is a whole number of days from 0 to {LONGEST_ALARM_DAYS}, or a list",
            "For example: alarm_days = [7, 0]",
        )
    if key == "alarm_hour" and not _is_whole(value, 23):
        return "“alarm_hour” is a whole hour from 0 to 23", "For example: alarm_hour = 7"
    if key == "publish" and not (
        isinstance(value, list) and all(isinstance(name, str) and name for name in value)
    ):
        return (
            "“publish” is a list of feeds, as they are named below calendars/",
            'For example: publish = ["all", "tasks/all"]',
        )
    if key == "caldav_url" and value != "" and not _is_web_address(str(value)):
        return (
            "“caldav_url” is no absolute http or https address",
            'For example: caldav_url = "https://calendar.example/". A name and a password never '
            "stand in it.",
        )
    return None


def _is_whole(value: object, most: int) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= most


def _is_id(text: str) -> bool:
    return bool(text) and text.isascii() and text.replace("-", "").replace(".", "").isalnum()


def _is_web_address(text: str) -> bool:
    """Whether it is an absolute http(s) URI to which the name of a page can be added.

    RFC 3986, 4.3: an absolute URI has no fragment; a query would swallow the page's name. White
    space, quotes and angle brackets are no characters of a URI (RFC 3986, 2). A name and password
    in it would stand in every calendar.
    """
    # Few settings have one, and the import takes longer than reading them.
    from urllib.parse import urlsplit

    if re.search(r"[^\x21-\x7e]|[\"<>\\^`{|}?#]", text):
        return False
    try:
        parts = urlsplit(text)
        port = parts.port
    except ValueError:
        return False
    return (
        parts.scheme in ("http", "https")
        and bool(parts.hostname)
        and parts.username is None
        and port != 0
    )


def place_of_setting(text: bytes, key: str) -> tuple[int, int]:
    """The line and column, from 1, on which a setting stands in the file."""
    line, column = _place_of_key(key, text.decode(errors="replace"))
    return line + 1, column


def _place_of_key(key: str, text: str) -> tuple[int, int]:
    """The line (0 first) and column of a setting."""
    for number, line in enumerate(text.split("\n")):
        if line.split("=")[0].strip().strip("[]\"' ") == key:
            return number, line.index(key) + 1
    return 0, 1


def _place_in_table(entry: str, line: int, column: int, text: str) -> tuple[int, int]:
    """The line (0 first) and column of an entry of the table that begins at a place: below its
    heading, or in braces on its line."""
    lines = text.split("\n")
    if not lines[line].lstrip().startswith("["):
        found = re.search(rf"\b{re.escape(entry)}\b", lines[line][column:])
        return (line, column + found.start() + 1) if found else (line, column)
    for number, below in enumerate(lines[line + 1 :], line + 1):
        if below.lstrip().startswith("["):
            break
        if below.split("=")[0].strip().strip("\"' ") == entry:
            return number, below.index(entry) + 1
    return line, column


def _place(message: str, text: str) -> tuple[int, int]:
    """The line (0 first) and column that a TOML error names; it may name the text's end."""
    found = re.search(r"line (\d+), column (\d+)", message)
    if found is not None:
        return int(found[1]) - 1, int(found[2])
    lines = text.rstrip("\n").split("\n")
    return (len(lines) - 1, len(lines[-1]) + 1) if "end of document" in message else (0, 1)
