"""How much of an act was understood, and whether what was not holds it back.

An act that takes off, takes away, ends or finds well is only done where all of its line is
understood. Any act is held back by an unread word that limits or takes back what it says.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from backbud_grammar.act_reading import ActReading
from backbud_grammar.act_words import ActWord
from backbud_grammar.elsewhen import day_it_begins_with, elsewhen, in_thought, not_by_us
from backbud_grammar.forms import ANY_WORDS, ActForm, Form
from backbud_grammar.held_back import CHANGES_NOTHING, HELD_CODE
from backbud_grammar.held_hints import flaw_of_limiter, held_hint, is_undone, without_dashes
from backbud_grammar.limiters import ENDS_OF_TREES, LIMITING, limiter_among, says_off
from backbud_grammar.limiters_read import limiter_read, no_cause
from backbud_grammar.problems import Flaw
from backbud_grammar.sayings import MANY_MEANINGS, saying
from backbud_grammar.unread import unread_in

_MOVE: ActWord = "moved"


def told(
    form: ActForm,
    word: str,
    text: str,
    reading: ActReading,
    flaws: Sequence[Flaw],
    forms: Sequence[Form],
    *,
    hints: bool = True,
) -> tuple[bool, tuple[Flaw, ...]]:
    """Return whether an act is held back by its own text, and its flaws, which then say so.

    `word`: as it is written. `flaws`: all that was found in the line. `forms`: those of the act,
    and of the act that it names. `hints`: whether what is held back says how to write it.
    """
    if form.prose:
        return False, tuple(flaws)
    wrong = [flaw for flaw in flaws if flaw.code != "empty-detail"]
    turn = _turn_of_speech(form, text, reading, wrong)
    if turn:
        return True, (_of_speech(turn),)
    if wrong:
        unread = _not_understood(text, reading, wrong)
        if (
            form.bearing == "ends"
            or word.casefold() in form.bare_words
            or (form.names_act and not reading.named)
            or is_undone(form, unread)
            or _is_of_roots(form, unread)
            or _puts_on_nothing_read(form, reading, wrong)
            or _is_limited(unread, forms)
            or _done_elsewhen(form, text, unread)
            or _by_an_animal(form, text, wrong)
            or _may_be_another_thing(form, wrong)
        ):
            first = replace(
                wrong[0],
                message=f"{wrong[0].message}, {CHANGES_NOTHING}",
                hint=held_hint(form, word, text, unread, wrong) if hints else "",
            )
            return True, tuple(
                first if flaw is wrong[0] else without_dashes(form, word, flaw) for flaw in flaws
            )
    if form.word == _MOVE and (
        text[:4].casefold() == "the " or not any(one.name == "to" for one in reading.details)
    ):
        # `moved the bench` is said of the bench.
        return True, (*flaws, _no_place())
    found = limiter_read(form, word, reading, forms)
    if found is None and form.bearing != "keeps" and not form.names_act:
        found = in_thought(text)
    if found is None and form.word in ENDS_OF_TREES:
        found = no_cause(reading, forms)
    if found is None and form.bearing == "ends" and "?" in text:
        # Who asks does not say that it is so: `died of frost?`.
        found = "?", text.index("?")
    if found is None:
        return False, tuple(flaws)
    return True, (*flaws, flaw_of_limiter(form, text, *found))


def _turn_of_speech(form: ActForm, text: str, reading: ActReading, wrong: Sequence[Flaw]) -> str:
    """The turn of speech that a text begins with; "" where it is read all the same, as a place
    that is called so, or as a word of the act's own: a glass house has benches to clean."""
    said = saying(form.word, text)
    if not said or wrong:
        return said
    own = {word for one in form.forms if one.words != ANY_WORDS for word in one.words}
    is_read = any(one.handle or one.measure or one.words in own for one in reading.details)
    return "" if is_read else said


def _of_speech(turn: str) -> Flaw:
    return Flaw(
        HELD_CODE,
        0,
        0,
        len(turn),
        f"“{turn}” here may be a turn of speech, {CHANGES_NOTHING}",
        "Where nothing was done to the tree, begin the line with noted.",
    )


def _no_place() -> Flaw:
    return Flaw(
        HELD_CODE,
        0,
        0,
        0,
        f"nobody said where to, {CHANGES_NOTHING}",
        "Name the place, and then what it was for: moved tunnel, for winter.",
    )


def _not_understood(text: str, reading: ActReading, wrong: Iterable[Flaw]) -> list[str]:
    """The words that no form took, and those that one took and that name nothing."""
    return [
        *unread_in(text, reading),
        *(text[flaw.column : flaw.column + flaw.length] for flaw in wrong),
    ]


def _is_limited(unread: Sequence[str], forms: Sequence[Form]) -> bool:
    """Whether a word that was not read limits the act; `off` none that says what came off."""
    return bool(
        limiter_among(unread, LIMITING) and limiter_among(unread, LIMITING - says_off(forms))
    )


def _may_be_another_thing(form: ActForm, wrong: Sequence[Flaw]) -> bool:
    """Whether the words right behind an act that says many things are what nobody read: `layered
    look`."""
    return form.word in MANY_MEANINGS and any(
        flaw.column == 0 and flaw.code in ("unknown-detail", "unknown-word") for flaw in wrong
    )


def _is_of_roots(form: ActForm, unread: Sequence[str]) -> bool:
    """Whether what is cut is roots: `pruned roots by a third` is no pruning of branches."""
    return form.work == "branches" and any("root" in run.casefold() for run in unread)


def _done_elsewhen(form: ActForm, text: str, unread: Sequence[str]) -> str:
    """What puts an act that is done on another day, or into other hands; a plan is of one."""
    if form.bearing != "does" or form.names_act:
        return ""
    pieces = text.split(", ")
    return not_by_us(unread) or elsewhen((*unread, *pieces)) or day_it_begins_with(pieces)


def _by_an_animal(form: ActForm, text: str, wrong: Iterable[Flaw]) -> str:
    """Whose hands it was, where what stands behind `by` is no person and nobody of ours: `weeded by
    chickens`."""
    if form.bearing != "does":
        return ""
    return elsewhen(
        f"by {text[flaw.column : flaw.column + flaw.length]}"
        for flaw in wrong
        if flaw.code == "unknown-handle" and text[: flaw.column].endswith("by ")
    )


def _puts_on_nothing_read(form: ActForm, reading: ActReading, wrong: Iterable[Flaw]) -> bool:
    """Whether what is put on, somewhere on a tree or its pot, is said in words of which none was
    read: `tied w wire` may be the cracked pot.

    Bare `wired` is understood; of `wired zyxxy` nobody could say what is on, or take it off.
    """
    refused = {flaw.column for flaw in wrong}
    return (
        bool(form.undone_by)
        and (form.word == "tied" or any(one.part for one in form.forms))
        and all(
            detail.name == "by" or start + detail.offset in refused
            for detail, start in zip(reading.details, reading.starts, strict=True)
        )
    )
