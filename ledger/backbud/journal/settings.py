"""The text of backbud.toml goes in; settings and problems come out."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from math import isfinite
from typing import Any, Literal

from msgspec import Struct

from backbud_grammar.measures import CURRENCIES
from backbud_grammar.problems import Flaw, did_you_mean

LANGUAGE = 1
SETTINGS_FILE = "backbud.toml"

Show = Literal["best day", "window"]


class Settings(Struct, frozen=True):
    """What backbud.toml says.

    `home`, `keeper`: handles of a place card and a person card. `journal_id` ends every calendar
    entry's id. `show`: whether calendars show a work's best day or its whole window. `base_url`:
    where the pages are served, for links in calendars. `figures`: numbers rules may ask for.
    """

    name: str = "A journal without a name"
    home: str = ""
    keeper: str = ""
    currency: str = ""
    journal_id: str = "backbud"
    hours_per_week: float = 0.0
    show: Show = "best day"
    base_url: str = ""
    figures: Mapping[str, float] = {}


_TEXTS = ("name", "home", "keeper", "currency", "journal_id", "base_url")
_KNOWN = ("language", *_TEXTS, "hours_per_week", "show", "figures")


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
        wrong = _wrong(key, value)
        if wrong:
            line, column = _place_of_key(key, text)
            flaws.append(Flaw("bad-settings", line, column, len(key), wrong[0], wrong[1]))
        elif key != "language":
            values[key] = float(value) if key == "hours_per_week" else value
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


def _wrong(key: str, value: object) -> tuple[str, str] | None:
    """What is wrong with a setting: a message and a hint."""
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if key not in _KNOWN:
        return f"“{key}” is no setting", did_you_mean(key, _KNOWN, f"Known: {', '.join(_KNOWN)}.")
    if key == "language" and (value != LANGUAGE or isinstance(value, bool)):
        return (
            f"language {value} is not known to this version",
            f"This version reads language {LANGUAGE}.",
        )
    if key in _TEXTS and not isinstance(value, str):
        return f"“{key}” is a text", f'For example: {key} = "…"'
    if key == "currency" and value not in CURRENCIES:
        return f"“{value}” is no ISO 4217 currency", did_you_mean(str(value), CURRENCIES)
    if key == "journal_id" and not _is_id(str(value)):
        return "“journal_id” is letters, digits, dots and hyphens", 'For example: "upper-yard"'
    if key == "hours_per_week" and not (number and 0 <= float(str(value)) <= 168):
        return "“hours_per_week” is a number from 0 to 168", "For example: hours_per_week = 10"
    if key == "show" and value not in ("best day", "window"):
        return "“show” is “best day” or “window”", 'For example: show = "window"'
    if key == "figures" and not (
        isinstance(value, dict)
        and all(
            isinstance(n, (int, float)) and not isinstance(n, bool) and isfinite(n)
            for n in value.values()
        )
    ):
        return "“figures” is a table of numbers", "For example: decandle_from_c = 14"
    return None


def _is_id(text: str) -> bool:
    return bool(text) and text.isascii() and text.replace("-", "").replace(".", "").isalnum()


def _place_of_key(key: str, text: str) -> tuple[int, int]:
    """The line (0 first) and column of a setting."""
    for number, line in enumerate(text.split("\n")):
        if line.split("=")[0].strip().strip("[]\"' ") == key:
            return number, line.index(key) + 1
    return 0, 1


def _place(message: str, text: str) -> tuple[int, int]:
    """The line (0 first) and column that a TOML error names; it may name the text's end."""
    found = re.search(r"line (\d+), column (\d+)", message)
    if found is not None:
        return int(found[1]) - 1, int(found[2])
    lines = text.rstrip("\n").split("\n")
    return (len(lines) - 1, len(lines[-1]) + 1) if "end of document" in message else (0, 1)
