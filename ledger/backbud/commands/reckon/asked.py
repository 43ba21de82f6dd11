"""What a person gave to a sum on the command line, read as a journal reads it.

Every ValueError is one sentence that says what to give.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeVar

from msgspec import Struct
from msgspec.structs import replace

from backbud.words import sentence
from backbud_grammar.details import part_at_commas, read_detail
from backbud_grammar.forms import Form
from backbud_grammar.kinds import KINDS
from backbud_grammar.lexicon import REMARK_HINT, Lexicon
from backbud_grammar.measures import Measure, convert
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.syntax import Detail

Value = TypeVar("Value")

# What was written after each option, in the order written.
Asked = Mapping[str, Sequence[str]]

# Beyond these, in the unit of the sum, a figure is a slip, and products of it leave the floats.
LARGEST, SMALLEST = 1e6, 1e-6


class Option(Struct, frozen=True, gc=False):
    """An option of the command line: its flag, what it is for, and the form its text is read by.

    `give`: how a message asks for it, "such as" and an example.
    """

    flag: str
    about: str
    form: Form
    give: str

    @property
    def metavar(self) -> str:
        """What stands for its text in the help."""
        form = self.form
        if form.words and not form.sorts:
            return "WORD"
        if form.words or form.reader or not form.sorts:
            return self.flag.lstrip("-").upper()
        return "SIZE" if "size" in form.sorts else form.sorts[0].upper()


def measured(
    flag: str,
    about: str,
    *sorts: str,
    give: str = "",
    negative: bool = False,
    limits: tuple[int, int] | None = None,
) -> Option:
    """An option that takes a measure of one of these sorts; whole numbers where it has limits."""
    form = Form(
        flag, (flag,), sorts, True, negative=negative, limits=limits, whole=limits is not None
    )
    return Option(flag, about, form, give or form.wanted())


def chosen(flag: str, about: str, words: Sequence[str]) -> Option:
    """An option that takes one of these words."""
    form = Form(flag, (flag,), words=tuple(words))
    return Option(flag, about, form, f"one of {', '.join(words)}")


def by_name(flag: str, about: str, give: str, *sorts: str) -> Option:
    """An option that takes names, each with a measure of one of these sorts, parted by commas."""
    form = Form(flag, (flag,), sorts, True, reader="ingredient", several=True)
    return Option(flag, about, form, give)


def as_on_card(kind: str, label: str, flag: str, about: str, give: str) -> Option:
    """An option that is read as a label on a card of a journal."""
    form = next(form for form in KINDS[kind].forms if form.name == label)
    return Option(flag, about, replace(form, labels=(flag,), free_label=False), give)


def detail(asked: Asked, option: Option) -> Detail | None:
    """The one thing an option says, or None where it was not given."""
    texts = asked.get(option.flag, ())
    if len(texts) > 1:
        raise ValueError(f"Give {option.flag} once, not {len(texts)} times.")
    return _read(texts[0], option) if texts else None


def details(asked: Asked, option: Option) -> list[Detail]:
    """Everything an option says, parted by commas or given several times."""
    return [
        _read(piece, option)
        for text in asked.get(option.flag, ())
        for _, piece in part_at_commas(text)
    ]


def asked_measure(asked: Asked, option: Option) -> Measure | None:
    """The measure an option gives, or None where it was not given."""
    found = detail(asked, option)
    return None if found is None else found.measure


def amount(asked: Asked, option: Option, unit: str) -> float | None:
    """The figure an option gives, in `unit`; None where it was not given."""
    found = asked_measure(asked, option)
    return None if found is None else asked_amount(found, option, unit)


def asked_amount(found: Measure, option: Option, unit: str) -> float:
    """A measure in `unit`, which a bare number has already; the middle of a range."""
    if found.sort == "fraction":
        upper, lower = found.numbers
        return _within_bounds(float(100 * upper / lower), option)
    number = found.number
    return _within_bounds(
        float(number if found.sort == "number" else convert(number, found.unit, unit)), option
    )


def sizes_cm(asked: Asked, option: Option) -> tuple[float, ...] | None:
    """The sizes an option gives, in cm; None where it was not given."""
    found = asked_measure(asked, option)
    if found is None:
        return None
    return tuple(_within_bounds(size, option) for size in found.sizes_in("cm"))


def word(asked: Asked, option: Option, otherwise: str = "") -> str:
    """The word of a closed list that an option gives, as the list has it."""
    found = detail(asked, option)
    if found is None:
        return otherwise
    known = {one.casefold(): one for one in option.form.words}
    if found.words.casefold() not in known:
        raise ValueError(f"Give {option.flag} as {option.give}, not “{found.words}”.")
    return known[found.words.casefold()]


def asked_for(value: Value | None, option: Option) -> Value:
    """The value, where there is one; else the sentence that asks for it."""
    if value is None:
        raise ValueError(_asks_for(option))
    return value


def _asks_for(option: Option) -> str:
    return f"Give {option.flag} as {option.give}: {option.about}."


def _read(text: str, option: Option) -> Detail:
    plain = " ".join(text.split())
    if not plain:
        raise ValueError(_asks_for(option))
    reading = read_detail(f"{option.flag} {plain}", Lexicon((option.form,)))
    if reading.flaw is not None:
        raise ValueError(sentence_of(reading.flaw, option))
    if len(reading.details) > 1 or (
        reading.details[0].measure is not None and reading.details[0].measure.count != 1
    ):
        raise ValueError(f"Give {option.flag} as {option.give}, and one of it (not “{plain}”).")
    return reading.details[0]


def sentence_of(error: Flaw | Misread, option: Option) -> str:
    """What the language says is wrong, as one sentence about an option."""
    message = _inside(error.message)
    hint = _inside(error.hint.removesuffix(REMARK_HINT))
    if hint.startswith("expected") or not hint:
        return f"Give {option.flag} as {option.give}: {message}."
    return f"Give {option.flag} as {option.give}: {message} ({hint})."


def _inside(said: str) -> str:
    """A sentence as it stands inside another."""
    said = said.strip().rstrip(".")
    return said[0].lower() + said[1:] if said[1:2].islower() else said


def _within_bounds(value: float, option: Option) -> float:
    if value and not SMALLEST <= abs(value) <= LARGEST:
        size = "small" if abs(value) < SMALLEST else "large"
        raise ValueError(f"Give {option.flag} as {option.give}: this figure is too {size}.")
    return value


def as_sentence(error: ValueError) -> str:
    """What is wrong as one sentence, with a capital and a full stop."""
    return sentence(str(error)).rstrip(".") + "."
