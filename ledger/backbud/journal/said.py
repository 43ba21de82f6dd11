"""Judges an act line by the table of acts: what it says, what is wrong, what holds it back."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from msgspec import Raw, Struct

from backbud.journal.by_pieces import ByPieces
from backbud.journal.dated import Said, SoundActs
from backbud.journal.far import flaw_of_far, says_when
from backbud.journal.one_problem import as_one
from backbud.journal.own_words import NO_OWN_WORDS, OwnWords
from backbud.journal.problems import is_flood
from backbud.journal.remember import acts_of
from backbud.journal.things import Things
from backbud_grammar.act_reading import ActReading
from backbud_grammar.dates import WrittenDate, read_span
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ANY_WORDS, NO_ACT, ActForm, Form
from backbud_grammar.handles import flaw_of
from backbud_grammar.held_back import CHANGES_NOTHING, HELD, HELD_CODE
from backbud_grammar.languages import ALWAYS_NEWEST, LANGUAGE, Languages, table_of
from backbud_grammar.lexicon import SHARES
from backbud_grammar.outline import Known
from backbud_grammar.own_words import Expanded, expanded
from backbud_grammar.parse import Details
from backbud_grammar.problems import KEPT, Flaw, Misread, did_you_mean, nearest
from backbud_grammar.remark_limiters import doubt_of
from backbud_grammar.said_otherwise import hint_for_act
from backbud_grammar.syntax import Act, Seam, Subjects
from backbud_grammar.unread import words_over
from backbud_grammar.whole import told

if TYPE_CHECKING:
    from backbud_grammar.scribbles.draft import ToldAct
    from backbud_grammar.scribbles.read import Talk

NOBODY = Subjects(())
# How close a first word must be to an act word, so that it is taken for a slip of the pen.
NEAR_ACT = 0.8
VERY_NEAR = 0.86
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


def _problems(heard: HeardAct) -> int:
    """How much is wrong in an act; words that were kept are no problem."""
    return sum(flaw.severity != KEPT for flaw in heard.flaws)


# What is told of the trees above it and of no other, in free words: hours that somebody owes.
_OF_ONE = ("worked", "photographed")
# Whose part it is: `on left 1 of yuki`.
_OF = re.compile(r"\bof (\S+)")
_NOT_AN_ACT = "this line begins with no act word, and is kept as if noted"
_NO_HINT = "The manual lists every act; free words go after noted."


class ActReader:
    """Reads acts against the table of acts, and tells what is wrong in each.

    `recall`: what an earlier run found sound, by word and text. `found_sound`: what this process
    found or recalled; more is added. `own`: the keeper's own words. `languages`: by which language
    each day's page is read; `language`: the one that this reads by. `gallon`: of which country.
    """

    def __init__(
        self,
        things: Things,
        details: Details,
        recall: Callable[[str, str], Said | None],
        found_sound: SoundActs,
        own: OwnWords = NO_OWN_WORDS,
        languages: Languages = ALWAYS_NEWEST,
        language: int = LANGUAGE,
        gallon: str = "",
    ) -> None:
        self.things, self.details, self.own = things, details, own
        self.languages, self.language, self.gallon = languages, language, gallon
        self._by_language: dict[int, ActReader] = {language: self}
        self._known_acts = Known.of(details.acts)
        self.found_sound = found_sound
        self._recall = recall
        self._prose = {word: form.word for word, form in details.acts.items() if form.prose}
        self._talk: Talk | None = None
        self._near: dict[str, str] = {}
        # The last text in which something was wrong, and what of it was read.
        self._last: tuple[str, str, Said, tuple[Flaw, ...]] = ("", "", Said("", (), ""), ())
        self._by_pieces = ByPieces(details, self._sound)

    def of_day(self, day: date) -> ActReader:
        """What reads the page of a day: by the language of that day."""
        return self.of_language(self.languages.on(day))

    def of_language(self, language: int) -> ActReader:
        """What reads by one language; what is remembered is of the newest alone."""
        found = self._by_language.get(language)
        if found is None:
            details = Details(table_of(self.details.acts, language))
            found = ActReader(
                self.things,
                details,
                _nothing,
                {},
                self.own,
                self.languages,
                language,
                self.gallon,
            )
            self._by_language[language] = found
        return found

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
            known, _ = self._judged(form, act, hints=False)
        return known

    def row(self, act: str) -> ActForm:
        return self.details.acts.get(act, NO_ACT)

    def read(
        self, act: Act, when: WrittenDate, so_far: int, *, hints: bool = True
    ) -> tuple[str, tuple[Flaw, ...]]:
        """The past form of an act on a page of these days, or "" where it cannot be read at all;
        and all that is wrong in it.

        `so_far`: how much is wrong in the file above it; in a flood hints are not sought.
        """
        own = self._expanded(act, when)
        form = self.form(act if own is None else own.act)
        if form is None:
            return "", (self._unknown_act(act if own is None else own.act, so_far),)
        if own is not None:
            act = own.act
        flaws: tuple[Flaw, ...] = ()
        known = self._known(act)
        if known is None:
            word, text, said, found = self._last
            if not hints and word == act.word and text == act.text:
                known, flaws = said, found
            else:
                known, flaws = self._judged(form, act, hints=hints)
            if flaws:
                flaws = tuple([_in_its_place(one, act, own) for one in flaws])
            elif not form.prose:
                self.found_sound[act.word][act.text] = known
        flaw = self._taken_back(form, act, known, when)
        if flaw is not None:
            return HELD, (*flaws, _in_its_place(flaw, act, own))
        return known.act, flaws

    def past_of(self, act: Act, when: WrittenDate) -> str:
        """The past form of an act that is sound as it stands; "" where it must be looked at.

        Most of a diary is: prose, and what was written before in the same words or other ones.
        """
        if self.own.words:
            act = self.meant(act, when)
        texts = self.found_sound.get(act.word)
        known = texts.get(act.text) if texts is not None else None
        if known is None:
            prose = self._prose.get(act.word)
            if prose is not None:
                return prose
            known = self._newly_sound(act)
            if known is None:
                return ""
        # What was refused below it, or a day far from this page, may hold it back all the same.
        if act.left_out or (
            known.says_when and when.first > date.min and flaw_of_far(known.details, when)
        ):
            return ""
        if act.remark and doubt_of(self.details.acts[known.act], act) is not None:
            return ""
        return known.act

    def _newly_sound(self, act: Act) -> Said | None:
        """What an act says that was never read before, where nothing in its own text is wrong."""
        form = self.form(act)
        if form is None or form.prose:
            return None
        known = self._known(act)
        if known is None:
            known = self._by_pieces.said(form, act.word, act.text)
            if known is not None:
                self.found_sound[act.word][act.text] = known
        return known

    def _sound(self, form: ActForm, word: str, text: str) -> Said | None:
        """What an act of this text says; None where anything is wrong with it."""
        act = Act(word, text, "", 0, 1, 1)
        said, flaws = self._judged(form, act, hints=False)
        if flaws:
            # It is asked for at once, by whoever looks at the whole line.
            self._last = (word, text, said, flaws)
        return None if flaws else said

    def heard(self, act: Act, when: WrittenDate, so_far: int) -> list[HeardAct]:
        """What a line tells of: its act where it is read as it stands, else the acts that it is in
        other words; where it begins with none, its words.

        `so_far`: as `read` has it. Hints are sought only for what is told, once it is known.
        """
        heard = self._heard(act, when, so_far, hints=False)
        if any(map(_problems, heard)) and not is_flood(so_far):
            heard = self._heard(act, when, so_far, hints=True)
        return [
            HeardAct(one.act, one.past, as_one(one.flaws)) if len(one.flaws) > 1 else one
            for one in heard
        ]

    def _heard(self, act: Act, when: WrittenDate, so_far: int, *, hints: bool) -> list[HeardAct]:
        own = self._expanded(act, when)
        form = self.form(act if own is None else own.act)
        if form is None:
            found = self._in_other_words(act, when, so_far, hints=hints)
            return found or [self._unread(act, so_far)]
        past, flaws = self.read(act, when, so_far, hints=hints)
        plain = [HeardAct(act, past, flaws)]
        if not flaws:
            return plain
        if own is None and self._is_in_other_words(form, act.text):
            found = self._in_other_words(act, when, so_far, hints=hints)
            if found and self.form(found[0].act) is form and not any(map(_problems, found)):
                # Nothing is left to ask.
                return found
        # The keeper's own words are read as they were taught, and no other way.
        if own is not None or not _is_said_otherwise(form, flaws):
            return plain
        found = self._in_other_words(act, when, so_far, hints=hints)
        if not found:
            return plain
        if self.form(found[0].act) is not form:
            # `wire off left 2`: a noun that is an act word too, in other words.
            return found if act.word.casefold() in form.bare_words else plain
        wrong = sum(map(_problems, found))
        if past == HELD and wrong:
            return plain
        return found if wrong < len(flaws) else plain

    def _is_in_other_words(self, form: ActForm, text: str) -> bool:
        """Whether the table of the act does not have what is said, which is quick to tell."""
        pieces = [piece for _, piece in part_at_commas(text)]
        return (
            not (form.prose or form.names_act or any(one.reader for one in form.forms))
            and all(pieces)
            and not any(piece in SHARES for piece in pieces)
            and not self.details.understood(form, text)
        )

    def _in_other_words(
        self, act: Act, when: WrittenDate, so_far: int, *, hints: bool
    ) -> list[HeardAct]:
        page = when.first if when.exact else None
        return [
            self._of(one, act, when, so_far, hints=hints)
            for one in self.talk.read(_line_of(act), page)
        ]

    @property
    def talk(self) -> Talk:
        """Reads what is said in other words; made where there is such a line."""
        if self._talk is None:
            # A hundred patterns, which most journals need for none of their lines.
            from backbud_grammar.scribbles.named import handles_of
            from backbud_grammar.scribbles.read import Talk

            kinds = {thing.handle: thing.kind for thing in self.things.by_handle.values()}
            self._talk = Talk(
                self.details, handles_of(kinds), self._kind_of, self.language, self.gallon
            )
        return self._talk

    def _kind_of(self, written: str) -> str:
        found = self.things.find(written)
        return found.kind if found is not None else ""

    def _of(
        self, told: ToldAct, act: Act, when: WrittenDate, so_far: int, *, hints: bool
    ) -> HeardAct:
        """An act that was told in other words, judged like any other."""
        line, column = _place_in(act, told.at)
        seams = tuple([Seam(at, *_place_in(act, of)) for at, of in told.pieces])
        remark = " ".join(filter(None, (told.remark, act.remark)))
        text_column = seams[0].column if seams else column
        written = _line_of(act)
        one = Act(
            told.word,
            told.text,
            remark,
            line,
            column,
            text_column,
            seams,
            act.left_out,
            told.kept,
            "" if written in (told.text, f"{told.word} {told.text}".rstrip()) else written,
        )
        past, flaws = self.read(one, when, so_far, hints=hints)
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

    def _judged(self, form: ActForm, act: Act, *, hints: bool) -> tuple[Said, tuple[Flaw, ...]]:
        """What an act says by its own text, and all that is wrong in it."""
        reading = self.details.of(form, act.text, hints=hints)
        forms = form.forms
        if reading.named:
            forms += self.details.acts[reading.named].forms
        found = (*reading.flaws, *self._flaws_of_references(form, act, reading, forms))
        is_held, flaws = told(form, act.word, act.text, reading, found, forms)
        if is_held:
            return _held(form, act), flaws
        if flaws or " of " in act.text or form.word in _OF_ONE:
            other = self._another_tree(form, act, reading)
            if other:
                flaw = Flaw(
                    HELD_CODE,
                    0,
                    max(act.text.find(other), 0),
                    len(other),
                    f"“{other}” is another tree, {CHANGES_NOTHING}",
                    "What was done to it stands below its own handle.",
                )
                return _held(form, act), (flaw, *flaws)
        kept = words_over(act.text, reading)
        dated = says_when(reading.details)
        return Said(form.word, reading.details, reading.named, kept=kept, says_when=dated), flaws

    def _another_tree(self, form: ActForm, act: Act, reading: ActReading) -> str:
        """A tree's handle among the words that were not read, or whose part is named."""
        words = [found[1] for detail in reading.details for found in _OF.finditer(detail.part)]
        if form.word in _OF_ONE:
            words += [detail.words for detail in reading.details]
        if form.bearing == "does":
            words += [word for run in words_over(act.text, reading) for word in run.split()]
        return next((word for word in words if self._kind_of(word.strip(".,;:()")) == "tree"), "")

    def _near_to(self, word: str) -> list[str]:
        """What a line may begin with: an act, a plugin's too, or words of the keeper's own, unless
        it is one that only later pages are read by."""
        own = [one.run[0] for one in self.own.words]
        return [*self.details.acts, *(() if word.casefold() in own else own)]

    def _unknown_act(self, act: Act, so_far: int) -> Flaw:
        word, hint = act.word, _NO_HINT
        if is_flood(so_far):
            return Flaw("unknown-act", act.line, act.column, len(word), _unknown(word), hint)
        bare = word.rstrip("?:!.")
        if bare != word and bare.casefold() in self.details.acts:
            asks = "?" in word
            message = "who asks does not say that it is so" if asks else _NOT_AN_ACT
            hint = f"Where it is so, begin the line with {bare}; where it is not, with noted."
            return Flaw("unread-line", act.line, act.column, len(word), message, hint, KEPT)
        said = hint_for_act(word, act.text, self.details.acts)
        near = self._near_act(word)
        if said or near:
            hint = said or f"Did you mean “{near}”?"
            return Flaw("unknown-act", act.line, act.column, len(word), _unknown(word), hint)
        from backbud_grammar.scribbles.meant import may_mean

        meant = may_mean(_line_of(act))
        hint = f"It may have meant {_or(meant)}: begin the line with that word." if meant else hint
        return Flaw("unread-line", act.line, act.column, len(word), _NOT_AN_ACT, hint, KEPT)

    def _near_act(self, word: str) -> str:
        """The act that a first word may be a slip of; each word is compared once."""
        near = self._near.get(word)
        if near is None:
            near = "" if len(word) < LEAST_NEAR else nearest(word, self._near_to(word), NEAR_ACT)
            if sorted(near) != sorted(word) and nearest(word, [near], VERY_NEAR) != near:
                # `should` is no slip of `sold`; letters that changed places are one: `wried`.
                near = ""
            self._near[word] = near
        return near

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
            elif detail.name == "as":
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


def _nothing(word: str, text: str) -> None:
    """Nothing is remembered."""


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
