"""Puts what is shown into the language the journal speaks, from one catalogue of all sentences.

A sentence is written in English where it is made, and that English is its name in the catalogue
(GNU gettext). English looks nothing up; a sentence that a catalogue does not have stays English.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from contextvars import ContextVar
from datetime import date
from functools import lru_cache
from pathlib import Path
from string import Formatter
from typing import TYPE_CHECKING, Any

from backbud.cldr import ENGLISH_DAYS, ENGLISH_MONTHS, month_names, written_day, written_days

if TYPE_CHECKING:
    from gettext import NullTranslations

ENGLISH = "en"
# Each language by its BCP 47 tag, and what it calls itself; its catalogue lies in `tongues/`.
LANGUAGES = {ENGLISH: "English", "de": "Deutsch"}
CATALOGUES = Path(__file__).parent / "tongues"

# Languages whose verb comes last, and how clauses begin there that stand behind it all the same.
_VERB_LAST = {"de": ("was ", "wo ", "wie ", "damit ", "und ")}

# Quotation marks by language, as the Unicode CLDR has them.
_QUOTES = {"de": ("„", "“")}

_catalogues: dict[str, NullTranslations] = {}
_spoken: ContextVar[str] = ContextVar("spoken", default=ENGLISH)


def speak(language: str) -> None:
    """From here on, in this thread or task, whatever is put into words is in this language."""
    _spoken.set(language)


def in_english(lines: Callable[[], Iterable[str]]) -> list[str]:
    """Lines whose own words are English, as a terminal prints them; what was put into words before,
    a work's title and its reasons, stays as it is."""
    token = _spoken.set(ENGLISH)
    try:
        return list(lines())
    finally:
        _spoken.reset(token)


def spoken() -> str:
    """The BCP 47 tag of the language that is spoken now."""
    return _spoken.get()


def phrase(text: str, /, **values: object) -> str:
    """A sentence or a word in the language spoken, with its values in their places.

    `text`: the English, a format string where there are values. A day among them is said in full,
    `6 March 2027`.
    """
    language = _spoken.get()
    if language != ENGLISH and text:
        text = _catalogue(language).gettext(text)
    if not values:
        return text
    for name, value in values.items():
        if type(value) is date:
            values[name] = _full_day(value, language)
    return text.format_map(values) if language == ENGLISH else _FORMATTER.vformat(text, (), values)


def act_phrase(bare: str) -> str:
    """What is to be done, `wire`, `pot on`: told from the thing of the same name."""
    language = _spoken.get()
    if language == ENGLISH:
        return bare.replace("-", " ")
    return _catalogue(language).pgettext("act", bare)


def work_phrase(act: str, what: str) -> str:
    """A work as a person says it: an act, and the words behind it, each in the language spoken.

    Where the verb comes last it stands before what only explains: `gegen Winterfrost schützen, wenn
    …`. What says itself what the act is done to needs only its verb: `die Haltedrähte lösen`.
    """
    if not what:
        return act
    clauses = _VERB_LAST.get(_spoken.get())
    if clauses is None:
        return f"{act} {what}"
    if what.startswith(clauses):
        return f"{act}, {what}"
    *named, verb = act.split(" ")
    if named and named[0].casefold() not in what.casefold():
        return f"{act} – {what}"
    end = next((at for at, sign in enumerate(what) if sign in ",:;("), len(what))
    head = what[:end].rstrip()
    return f"{head} {verb}{what[len(head) :]}"


def verb_comes_last() -> bool:
    """Whether a work is said with its verb behind what it is done to, in the language spoken."""
    return _spoken.get() in _VERB_LAST


def counted_phrase(count: int, one: str, many: str, /, **values: object) -> str:
    """The same of a sentence that has another form for one than for many; `count` is a value."""
    language = _spoken.get()
    if language == ENGLISH:
        return (one if count == 1 else many).format(count=count, **values)
    found = _catalogue(language).ngettext(one, many, count)
    return _FORMATTER.vformat(found, (), {"count": count, **values})


def continued(text: str) -> str:
    """A sentence's beginning as it stands within one: a small letter, but where nouns have a large
    one as it is."""
    return f"{text[:1].lower()}{text[1:]}" if _spoken.get() == ENGLISH else text


def as_named(text: str) -> str:
    """What the keeper calls something, as it stands among words of ours: in quotation marks, but
    for English, in which the diary's own words are."""
    first, last = _QUOTES.get(_spoken.get(), ("", ""))
    return f"{first}{text}{last}" if text else ""


def day_and_month(on: date) -> str:
    """`6 March`, in the language spoken."""
    if _spoken.get() == ENGLISH:
        return ENGLISH_DAYS[on.month - 1][on.day - 1]
    return written_day(on, _spoken.get())


# By month and day, January first.
DaysOfYear = Sequence[Sequence[str]]


def days_of_year() -> DaysOfYear:
    """`6 March`, each day of a leap year by month and day, in the language spoken."""
    language = _spoken.get()
    return ENGLISH_DAYS if language == ENGLISH else written_days(language)


def full_day(on: date) -> str:
    """`6 March 2027`, in the language spoken."""
    return _full_day(on, _spoken.get())


def spoken_months() -> tuple[str, ...]:
    """The twelve months in the language spoken, January first."""
    return ENGLISH_MONTHS if _spoken.get() == ENGLISH else month_names(_spoken.get())


def decimal(text: str) -> str:
    """A figure that is written with a decimal point, with that of the language."""
    return text if _spoken.get() == ENGLISH else text.replace(".", ",")


# Many reasons name the same day.
@lru_cache(maxsize=4096)
def _full_day(on: date, language: str) -> str:
    if language == ENGLISH:
        return f"{ENGLISH_DAYS[on.month - 1][on.day - 1]} {on.year}"
    return written_day(on, language, with_year=True)


class _WithComma(Formatter):
    """Writes broken figures as the language does, and a per cent sign apart from its figure."""

    def format_field(self, value: Any, format_spec: str) -> Any:
        text = super().format_field(value, format_spec)
        is_figure = bool(format_spec) and not isinstance(value, (int, str))
        if not is_figure or format_spec[-1] not in "fgz%":
            return text
        return decimal(text).replace("%", "\N{NO-BREAK SPACE}%")


_FORMATTER = _WithComma()


def catalogue_files(language: str) -> tuple[Path, ...]:
    """The file of the sentences of a language; English has none."""
    return () if language == ENGLISH else (CATALOGUES / f"{language}.mo",)


def _catalogue(language: str) -> NullTranslations:
    """The catalogue of a language; read once."""
    found = _catalogues.get(language)
    if found is None:
        from gettext import GNUTranslations

        with catalogue_files(language)[0].open("rb") as file:
            found = _catalogues[language] = GNUTranslations(file)
    return found
