"""Reads from backbud.toml which language the pages are read by: `language = 1`, and below
`[languages]` from which day on a later one: `2 = 2027-03-06`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, datetime
from typing import Any

from backbud.journal.wrong_setting import WrongSetting
from backbud_grammar import languages
from backbud_grammar.languages import Languages

_EXAMPLE = "For example: languages = { 2 = 2027-03-06 }"


def is_language(value: object) -> bool:
    """Whether this version reads a language."""
    return isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= _newest()


def shown_languages() -> str:
    """The languages that this version reads, as a message says them."""
    newest = _newest()
    return "1" if newest == 1 else f"1 to {newest}"


def wrong_in_languages(value: object) -> Iterator[WrongSetting]:
    """What is wrong with the table of later languages."""
    if not isinstance(value, Mapping):
        yield WrongSetting("“languages” is a table of days", _EXAMPLE)
        return
    before: date | None = None
    for key in sorted(value, key=lambda one: (len(str(one)), str(one))):
        since = value[key]
        if not str(key).isdigit() or not is_language(int(key)):
            hint = f"This version reads language {shown_languages()}."
            yield WrongSetting(f"language {key} is not known to this version", hint, str(key))
        elif not isinstance(since, date) or isinstance(since, datetime):
            message = f"from when on language {key} is read is no day"
            yield WrongSetting(message, _EXAMPLE, str(key))
        elif before is not None and since < before:
            message = f"language {key} would be read before an older one"
            yield WrongSetting(message, _EXAMPLE, str(key))
        else:
            before = since


def languages_of(table: Mapping[str, Any]) -> Languages:
    """By which language each day's page is read; what is wrong in it counts for nothing."""
    first, later = table.get("language"), table.get("languages")
    if not is_language(first):
        return Languages(_newest())
    assert isinstance(first, int)
    if later is None or any(True for _ in wrong_in_languages(later)):
        return Languages(first)
    days = sorted((since, int(key)) for key, since in later.items() if int(key) > first)
    return Languages(first, tuple(days))


def _newest() -> int:
    return languages.LANGUAGE
