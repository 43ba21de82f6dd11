"""Judges an act by its own text: what it says, what is wrong in it, whether it is held back."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from backbud.journal.dated import Said
from backbud.journal.far import says_when
from backbud.journal.references import flaw_of_reference
from backbud.journal.things import Things
from backbud_grammar.act_reading import ActReading
from backbud_grammar.act_words import ActWord
from backbud_grammar.dates import read_span
from backbud_grammar.forms import ANY_WORDS, ActForm, Form
from backbud_grammar.handles import flaw_of
from backbud_grammar.held_back import CHANGES_NOTHING, HELD, HELD_CODE
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.unread import words_over
from backbud_grammar.whole import told

# What is told of the trees above it and of no other, in free words: hours that somebody owes.
_OF_ONE: tuple[ActWord, ...] = ("worked", "photographed")
# Whose part it is: `on left 1 of yuki`.
_OF = re.compile(r"\bof (\S+)")
# What free words may name: `for mites on yuki`.
_ON = re.compile(r"(?<!\S)on ([^\s,]+)")


class ActJudge:
    """Judges acts by the table of acts and by what has a card."""

    def __init__(self, things: Things, details: Details) -> None:
        self.things, self.details = things, details

    def kind_of(self, written: str) -> str:
        """What a handle is of, or "" where nothing is so called."""
        found = self.things.find(written)
        return found.kind if found is not None else ""

    def judged(
        self, form: ActForm, word: str, text: str, *, hints: bool
    ) -> tuple[Said, tuple[Flaw, ...]]:
        """What an act says by a text, and all that is wrong in it."""
        reading = self.details.of(form, text, hints=hints)
        forms = form.forms
        if reading.named:
            forms += self.details.acts[reading.named].forms
        found = (*reading.flaws, *self._flaws_of_references(form, text, reading, forms))
        is_held, flaws = told(form, word, text, reading, found, forms, hints=hints)
        if is_held:
            return held_said(form, text), flaws
        parts = " of " in text or " on " in text or any(one.part for one in reading.details)
        if flaws or parts or form.word in _OF_ONE:
            other = self._another_tree(form, text, reading)
            if other:
                flaw = Flaw(
                    HELD_CODE,
                    0,
                    max(text.find(other), 0),
                    len(other),
                    f"“{other}” is another tree, {CHANGES_NOTHING}",
                    "What was done to it stands below its own handle.",
                )
                return held_said(form, text), (flaw, *flaws)
        kept = words_over(text, reading)
        dated = says_when(reading.details)
        return Said(form.word, reading.details, reading.named, kept=kept, says_when=dated), flaws

    def _another_tree(self, form: ActForm, text: str, reading: ActReading) -> str:
        """A tree's handle among the words that were not read, or whose part is named; one that is
        a word for a part of any tree, as `first`, is meant as that."""
        words = [found[1] for detail in reading.details for found in _OF.finditer(detail.part)]
        words += [detail.part for detail in reading.details if detail.part]
        if form.word in _OF_ONE:
            words += [detail.words for detail in reading.details]
            words += [of[1] for detail in reading.details for of in _OF.finditer(detail.words)]
        if form.bearing == "does":
            words += [on[1] for detail in reading.details for on in _ON.finditer(detail.words)]
            words += [word for run in words_over(text, reading) for word in run.split()]
        named = (word for word in words if _bare(word) not in PART_WORDS)
        return next((word for word in named if self.kind_of(_bare(word)) == "tree"), "")

    def _flaws_of_references(
        self, form: ActForm, text: str, reading: ActReading, forms: Sequence[Form]
    ) -> Iterator[Flaw]:
        """What is wrong with the references and dates of an act, by their place in its text."""
        for detail, start in zip(reading.details, reading.starts, strict=True):
            if detail.handle:
                kinds = tuple(
                    dict.fromkeys(kind for f in forms if f.name == detail.name for kind in f.refers)
                )
                said = detail.handle
                flaw = flaw_of_reference(said, kinds, self.things, _words_of_forms(forms))
            elif detail.date:
                said, flaw = detail.date, _flaw_of_date(detail.date)
            elif detail.name == "as":
                said, flaw = detail.words, self._flaw_of_new_handle(detail.words)
            else:
                continue
            if flaw is not None:
                at, length = text.find(said, start + detail.offset), flaw.length or len(said)
                if at < 0:
                    # It is written with other blanks.
                    at, length = start + detail.offset, detail.length
                hint = flaw.hint
                if flaw.code == "wrong-kind" and form.of_all and "a place" in flaw.message:
                    hint = f"Into a place it is moved: write moved {said}."
                yield Flaw(flaw.code, 0, at + flaw.column, length, flaw.message, hint)

    def _flaw_of_new_handle(self, handle: str) -> Flaw | None:
        """What is wrong with the handle of a tree that begins here; it may have a card already."""
        found = self.things.find(handle)
        if found is None:
            wrong = flaw_of(handle)
        else:
            wrong = "" if found.kind == "tree" else f"“{handle}” is a {found.kind} already"
        hint = "Choose another handle for the new tree."
        return Flaw("bad-handle", 0, 0, len(handle), wrong, hint) if wrong else None


def _words_of_forms(forms: Sequence[Form]) -> Iterator[str]:
    """What may have been meant for a handle there: a label, or a word of a closed list."""
    for form in forms:
        if form.words != ANY_WORDS:
            yield from (*form.labels, *form.words)


def held_said(form: ActForm, text: str) -> Said:
    """What is left of an act that is held back: its words."""
    return Said(HELD, (), "", form.word, (text,) if text else ())


def _flaw_of_date(written: str) -> Flaw | None:
    try:
        read_span(written)
    except Misread as error:
        return Flaw(error.code, 0, error.offset, error.length, error.message, error.hint)
    return None


def _bare(word: str) -> str:
    """The handle in a word: `yuki` in `yuki's`."""
    return _POSSESSIVE.sub("", word.strip(".,;:()"))


_POSSESSIVE = re.compile(r"['’]s?$")
