"""Judges an act line by the table of acts: what it says, what is wrong, what holds it back."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from msgspec import Raw, Struct

from backbud.journal.dated import Said, SoundActs
from backbud.journal.far import flaw_of_far, says_when
from backbud.journal.own_words import NO_OWN_WORDS, OwnWords
from backbud.journal.problems import is_flood
from backbud.journal.remember import acts_of
from backbud.journal.things import Things
from backbud_grammar.dates import WrittenDate, read_span
from backbud_grammar.forms import ANY_WORDS, NO_ACT, ActForm, Form
from backbud_grammar.handles import flaw_of
from backbud_grammar.outline import Known
from backbud_grammar.own_words import Expanded, expanded
from backbud_grammar.parse import ActReading, Details
from backbud_grammar.problems import KEPT, Flaw, Misread, did_you_mean, nearest
from backbud_grammar.said_otherwise import hint_for_act
from backbud_grammar.syntax import Act, Seam, Subjects
from backbud_grammar.whole import HELD, doubt_of, told, words_over

if TYPE_CHECKING:
    from backbud_grammar.scribbles.read import Talk, Told

NOBODY = Subjects(())
# How close a first word must be to an act word, so that it is taken for a slip of the pen.
NEAR_ACT = 0.8
# Shorter words are like too many others.
LEAST_NEAR = 4


# What these say is wrong in any words.
_WRONG_ANYHOW = frozenset(
    (
        "empty-detail",
        "two-decimal-marks",
        "thousands-separator",
        "negative-measure",
        "bad-date",
        "no-date",
        "bad-handle",
        "unclosed-quote",
        "wrong-kind",
        "falling-range",
        "too-many-minutes",
        "zero-ratio",
        "out-of-range",
        "bad-number",
        "said-twice",
        "contradiction",
        "unknown-act",
        "no-score",
        "unknown-wedge",
    )
)


def _is_said_otherwise(form: ActForm, flaws: Sequence[Flaw]) -> bool:
    """Whether what is wrong with an act may only be that the bench has other words for it."""
    return (
        bool(flaws)
        and not (form.prose or form.names_act)
        and not any(flaw.code in _WRONG_ANYHOW for flaw in flaws)
    )


class HeardAct(Struct, frozen=True, gc=False):
    """One act of a line: as it is read, its past form, and what is wrong with it."""

    act: Act
    past: str
    flaws: tuple[Flaw, ...]


_NO_HINT = "The manual lists every act; free words go after noted."


class ActReader:
    """Reads acts against the table of acts, and tells what is wrong in each.

    `recall`: what an earlier run found sound, by word and text. `found_sound`: what this process
    found or recalled; more is added. `own`: the keeper's own words.
    """

    def __init__(
        self,
        things: Things,
        details: Details,
        recall: Callable[[str, str], Said | None],
        found_sound: SoundActs,
        own: OwnWords = NO_OWN_WORDS,
    ) -> None:
        self.things, self.details, self.own = things, details, own
        self._known_acts = Known.of(details.acts)
        self.found_sound = found_sound
        self._recall = recall
        self._prose = {word: form.word for word, form in details.acts.items() if form.prose}
        self._talk: Talk | None = None

    def subjects(self, text: str) -> Subjects:
        read = self.details.subjects(text) if text else NOBODY
        return NOBODY if isinstance(read, Flaw) else read

    def recalled(self, acts: Raw) -> tuple[Act, ...]:
        return acts_of(acts)

    def meant(self, act: Act, when: WrittenDate) -> Act:
        """An act in words of the language, where own words of its page's day stand in it."""
        found = self._expanded(act, when)
        return act if found is None else found.act

    def _expanded(self, act: Act, when: WrittenDate) -> Expanded | None:
        if not self.own.words:
            return None
        return expanded(act, self.own.on(when.first), self._known_acts)

    def said(self, act: Act, *, held: bool) -> Said:
        form = self.form(act)
        assert form is not None
        if held:
            return _held(form, act)
        known = self._known(act)
        if known is None:
            known, _ = self._judged(form, act)
        return known

    def row(self, act: str) -> ActForm:
        return self.details.acts.get(act, NO_ACT)

    def read(self, act: Act, when: WrittenDate, so_far: int) -> tuple[str, tuple[Flaw, ...]]:
        """The past form of an act on a page of these days, or "" where it cannot be read at all;
        and all that is wrong in it.

        `so_far`: how much is wrong in the file above it; in a flood hints are not sought.
        """
        own = self._expanded(act, when)
        form = self.form(act if own is None else own.act)
        if form is None:
            return "", (self._unknown_act(act if own is None else own.act, so_far),)
        return self._read(form, act, own, when)

    def _read(
        self, form: ActForm, act: Act, own: Expanded | None, when: WrittenDate
    ) -> tuple[str, tuple[Flaw, ...]]:
        """The same of an act of this row. `own`: the act where own words stand in it."""
        if own is not None:
            act = own.act
        flaws: tuple[Flaw, ...] = ()
        known = self._known(act)
        if known is None:
            known, flaws = self._judged(form, act)
            if flaws:
                flaws = tuple([_in_its_place(one, act, own) for one in flaws])
            elif not form.prose:
                self.found_sound[act.word][act.text] = known
        flaw = self._taken_back(form, act, known, when)
        if flaw is not None:
            return HELD, (*flaws, _in_its_place(flaw, act, own))
        return known.act, flaws

    def past_of(self, act: Act, when: WrittenDate) -> str:
        """The past form of an act that is known to be sound; "" where it must be looked at.

        Most of a diary is: prose, and what was written before in the same words.
        """
        if self.own.words:
            act = self.meant(act, when)
        texts = self.found_sound.get(act.word)
        known = texts.get(act.text) if texts is not None else None
        if known is None:
            return self._prose.get(act.word, "")
        # What was refused below it, or a day far from this page, may hold it back all the same.
        if act.left_out or known.says_when:
            return ""
        if act.remark and doubt_of(self.details.acts[known.act], act) is not None:
            return ""
        return known.act

    def heard(self, act: Act, when: WrittenDate, so_far: int) -> list[HeardAct]:
        """What a line tells of: its act where it is read as it stands, else the acts that it is in
        other words; where it begins with none, its words.

        `so_far`: as `read` has it.
        """
        own = self._expanded(act, when)
        form = self.form(act if own is None else own.act)
        plain: list[HeardAct] = []
        bare: frozenset[str] = frozenset()
        if form is not None:
            past, flaws = self._read(form, act, own, when)
            plain = [HeardAct(act, past, flaws)]
            bare = form.bare_words
            # The keeper's own words are read as they were taught, and no other way.
            if own is not None or not _is_said_otherwise(form, flaws):
                return plain
        if is_flood(so_far):
            return plain or [self._unread(act, so_far)]
        found = [self._of(told, act, when, so_far) for told in self.talk.read(_line_of(act))]
        if not plain:
            return found or [self._unread(act, so_far)]
        if not found:
            return plain
        if found[0].act.word.casefold() != act.word.casefold():
            # `wire off left 2`: a noun that is an act word too, in other words.
            return found if act.word.casefold() in bare else plain
        if plain[0].past == HELD and any(f.severity != KEPT for one in found for f in one.flaws):
            return plain
        wrong = sum(flaw.severity != KEPT for one in found for flaw in one.flaws)
        return found if wrong < len(plain[0].flaws) else plain

    @property
    def talk(self) -> Talk:
        """Reads what is said in other words; made where there is such a line."""
        if self._talk is None:
            # A hundred patterns, which most journals need for none of their lines.
            from backbud_grammar.scribbles.read import Talk, handles_of

            kinds = {thing.handle: thing.kind for thing in self.things.by_handle.values()}
            self._talk = Talk(self.details, handles_of(kinds), self._kind_of)
        return self._talk

    def _kind_of(self, written: str) -> str:
        found = self.things.find(written)
        return found.kind if found is not None else ""

    def _of(self, told: Told, act: Act, when: WrittenDate, so_far: int) -> HeardAct:
        """An act that was told in other words, judged like any other."""
        line, column = _place_in(act, told.at)
        seams = tuple([Seam(at, *_place_in(act, of)) for at, of in told.pieces])
        remark = " ".join(filter(None, (told.remark, act.remark)))
        text_column = seams[0].column if seams else column
        one = Act(
            told.word, told.text, remark, line, column, text_column, seams, act.left_out, told.kept
        )
        past, flaws = self.read(one, when, so_far)
        if told.kept:
            words = "; ".join(told.kept)
            flaws = (
                *flaws,
                Flaw(
                    "words-kept",
                    line,
                    column,
                    len(told.word),
                    f"“{words}” stands beside {told.word} and is kept as words",
                    "",
                    KEPT,
                ),
            )
        return HeardAct(one, past, flaws)

    def _unread(self, act: Act, so_far: int) -> HeardAct:
        """A line that begins with no act word: its words are kept as if they were noted."""
        text = _line_of(act)
        noted = Act("noted", text, act.remark, act.line, act.column, act.column, kept=(text,))
        flaw = self._unknown_act(act, so_far)
        return HeardAct(noted, "noted" if "noted" in self.details.acts else "", (flaw,))

    def form(self, act: Act) -> ActForm | None:
        """The row of an act as it is written, in any case of its letters; None where it is none."""
        return self.details.acts.get(act.word) or self.details.acts.get(act.word.casefold())

    def flaw_of_reference(
        self, handle: str, kinds: tuple[str, ...], forms: Sequence[Form] = ()
    ) -> Flaw | None:
        """What is wrong with a handle; the nearest one or the nearest detail is the hint."""
        found = self.things.find(handle)
        if found is None:
            near = [thing.handle for thing in self.things.by_handle.values() if thing.kind in kinds]
            near += [
                word
                for form in forms
                if form.words != ANY_WORDS
                for word in (*form.labels, *form.words)
            ]
            hint = did_you_mean(handle, near, "Give it a card, or check the spelling.")
            return Flaw(
                "unknown-handle",
                0,
                0,
                len(handle),
                f"no {' or '.join(kinds)} is called “{handle}”",
                hint,
            )
        if found.kind not in kinds:
            return Flaw(
                "wrong-kind",
                0,
                0,
                len(handle),
                f"“{handle}” is a {found.kind}, not a {' or a '.join(kinds)}",
                f"Its card stands in {found.origin}.",
            )
        return None

    def _known(self, act: Act) -> Said | None:
        """What an act says that was found sound before."""
        texts = self.found_sound.get(act.word)
        if texts is None:
            texts = self.found_sound[act.word] = {}
        known = texts.get(act.text)
        if known is None:
            known = self._recall(act.word, act.text)
            if known is not None:
                texts[act.text] = known
        return known

    def _taken_back(self, form: ActForm, act: Act, known: Said, when: WrittenDate) -> Flaw | None:
        """What holds back an act that is sound by its own text: its remark, what was refused below
        it, or its page's day."""
        if known.act == HELD:
            return None
        doubt = doubt_of(form, act)
        if doubt is None and known.says_when and when.first > date.min:
            doubt = flaw_of_far(known.details, when)
        return doubt

    def _judged(self, form: ActForm, act: Act) -> tuple[Said, tuple[Flaw, ...]]:
        """What an act says by its own text, and all that is wrong in it."""
        reading = self.details.of(form, act.text)
        forms = form.forms
        if reading.named:
            forms += self.details.acts[reading.named].forms
        found = (*reading.flaws, *self._flaws_of_references(form, act, reading, forms))
        is_held, flaws = told(form, act.word, act.text, reading, found, forms)
        if is_held:
            return _held(form, act), flaws
        kept = words_over(act.text, reading)
        dated = says_when(reading.details)
        return Said(form.word, reading.details, reading.named, kept=kept, says_when=dated), flaws

    def _unknown_act(self, act: Act, so_far: int) -> Flaw:
        word, hint = act.word, _NO_HINT
        if is_flood(so_far):
            return Flaw("unknown-act", act.line, act.column, len(word), _unknown(word), hint)
        said = hint_for_act(word, act.text, self.details.acts)
        near = "" if len(word) < LEAST_NEAR else nearest(word, self.details.acts, NEAR_ACT)
        if said or near:
            hint = said or f"Did you mean “{near}”?"
            return Flaw("unknown-act", act.line, act.column, len(word), _unknown(word), hint)
        from backbud_grammar.scribbles.meant import may_mean

        meant = may_mean(_line_of(act))
        hint = f"It may have meant {_or(meant)}: begin the line with that word." if meant else hint
        message = "this line begins with no act word, and is kept as if noted"
        return Flaw("unread-line", act.line, act.column, len(word), message, hint, KEPT)

    def _flaws_of_references(
        self, form: ActForm, act: Act, reading: ActReading, forms: Sequence[Form]
    ) -> Iterator[Flaw]:
        """What is wrong with the references and dates of an act, by their place in its text."""
        for detail, start in zip(reading.details, reading.starts, strict=True):
            if detail.handle:
                kinds = tuple(
                    dict.fromkeys(kind for f in forms if f.name == detail.name for kind in f.refers)
                )
                said, flaw = detail.handle, self.flaw_of_reference(detail.handle, kinds, forms)
            elif detail.date:
                said, flaw = detail.date, _flaw_of_date(detail.date)
            elif detail.name == "as" and "separated" in (form.word, reading.named):
                said, flaw = detail.words, self._flaw_of_new_handle(detail.words)
            else:
                continue
            if flaw is not None:
                at, length = act.text.find(said, start + detail.offset), flaw.length or len(said)
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


def _unknown(word: str) -> str:
    return f"“{word}” is no act known here"


def _or(words: Sequence[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} or {last}" if most else last


def _line_of(act: Act) -> str:
    """The line as it was written, without its remark."""
    return f"{act.word} {act.text}".rstrip()


def _place_in(act: Act, at: int) -> tuple[int, int]:
    """The line and column of a character of `_line_of`."""
    behind = at - len(act.word) - 1
    return act.place_of(behind) if behind >= 0 else (act.line, act.column + at)


def _in_its_place(flaw: Flaw, act: Act, own: Expanded | None) -> Flaw:
    """A flaw of an act's text, or of the whole act, where it stands on the page."""
    if flaw.length == 0:
        at, column, length = act.line, act.column, len(act.word)
    elif own is not None:
        offset, length = own.span(flaw.column, flaw.length)
        at, column = act.place_of(offset) if offset >= 0 else (act.line, act.column)
    else:
        at, column = act.place_of(flaw.column)
        length = flaw.length
    return Flaw(flaw.code, at, column, length, flaw.message, flaw.hint, flaw.severity)


def _held(form: ActForm, act: Act) -> Said:
    """What is left of an act that is held back: its words."""
    return Said(HELD, (), "", form.word, (act.text,) if act.text else ())


def _flaw_of_date(written: str) -> Flaw | None:
    try:
        read_span(written)
    except Misread as error:
        return Flaw(error.code, 0, error.offset, error.length, error.message, error.hint)
    return None
