"""Hears what a line tells of: its act as it stands, or the acts that it is in other words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from msgspec.structs import replace

from backbud.journal.act_places import line_of, place_in
from backbud.journal.heard import HeardAct, problems_in
from backbud.journal.one_problem import as_one
from backbud.journal.problems import is_flood
from backbud.journal.said import ActReader
from backbud_grammar.dates import WrittenDate
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ActForm
from backbud_grammar.held_back import HELD
from backbud_grammar.lexicon import SHARES
from backbud_grammar.problems import KEPT, Flaw
from backbud_grammar.syntax import Act, Seam
from backbud_grammar.written_hours import with_hour_behind

if TYPE_CHECKING:
    from backbud_grammar.scribbles.draft import ToldAct
    from backbud_grammar.scribbles.read import Talk

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


def _is_said_otherwise(form: ActForm, word: str, flaws: Sequence[Flaw]) -> bool:
    """Whether what is wrong with an act may only be that the bench has other words for it.

    A noun may name another act by what is out of range in this one: `lime sulphur 1:30`.
    """
    is_noun = word.casefold().replace(" ", "-") in form.bare_words
    wrong = _WRONG_ANYHOW - ({"out-of-range"} if is_noun else set())
    return (
        bool(flaws)
        and not (form.prose or form.names_act)
        and not any(flaw.code in wrong for flaw in flaws)
    )


# The tree above, and no handle: `moved it to the bench`.
_IT = re.compile(r"(?:it|her|him|them|this one|this tree|the tree)\b", re.IGNORECASE)


class LineHearer:
    """Hears lines by what reads acts, and by the bench's other words for them."""

    def __init__(self, acts: ActReader) -> None:
        self.acts = acts
        self._talk: Talk | None = None
        # The past form of acts that are sound with no word behind them, "" where they are not.
        self._alone: dict[str, str] = {}

    def heard(self, act: Act, when: WrittenDate, so_far: int) -> list[HeardAct]:
        """What a line tells of: its act where it is read as it stands, else the acts that it is in
        other words; where it begins with none, its words.

        `so_far`: as `read` has it. Hints are sought only for what is told, once it is known.
        """
        known = self._told_by_words(act, when, so_far)
        if known is not None:
            return [known]
        heard = self._heard(act, when, so_far, hints=False)
        is_told = any(map(problems_in, heard)) and not is_flood(so_far)
        if is_told:
            heard = self._heard(act, when, so_far, hints=True)
        heard = [
            HeardAct(one.act, one.past, as_one(one.flaws)) if len(one.flaws) > 1 else one
            for one in heard
        ]
        if is_flood(so_far):
            # One may be remembered from a line above it.
            return [_without_hints(one) for one in heard]
        if not is_told:
            return heard
        return self._with_place(act, self._with_whole_hint(act, when, so_far, heard))

    def _with_place(self, act: Act, heard: list[HeardAct]) -> list[HeardAct]:
        """A line that begins with a place and is held back may tell where the tree went."""
        first, *others = heard
        found = self._made_talk().handles.places.match(line_of(act))
        if found is None or first.past != HELD:
            return heard
        place = self._made_talk().handles.one(found[0])
        hint = f"Where the tree went there, write moved {place}; where it stood, noted."
        flaw, *more = first.flaws
        return [HeardAct(first.act, first.past, (replace(flaw, hint=hint), *more)), *others]

    def _with_whole_hint(
        self, act: Act, when: WrittenDate, so_far: int, heard: list[HeardAct]
    ) -> list[HeardAct]:
        """With one hint for the whole line, that was read, in the place of those for its pieces."""
        # Few lines are told.
        from backbud.journal.whole_hints import LONGEST, whole_hint, with_whole_hint

        def is_sound(word: str, text: str) -> bool:
            one = Act(word, text, "", act.line, act.column, act.column)
            past, flaws = self.acts.read(one, when, so_far, hints=False)
            return past not in ("", HELD) and not flaws

        if act.left_out or len(line_of(act)) > LONGEST:
            return heard

        def found() -> str:
            in_words = self._in_other_words(act, when, so_far, hints=False)
            return next(
                filter(None, (whole_hint(act, one, form, is_sound) for one in (heard, in_words))),
                "",
            )

        form = self.acts.form
        return with_whole_hint(act, heard, found)

    def _heard(self, act: Act, when: WrittenDate, so_far: int, *, hints: bool) -> list[HeardAct]:
        own = self.acts.expanded(act, when)
        form = self.acts.form((act if own is None else own.act).word)
        if form is None:
            found = self._in_other_words(act, when, so_far, hints=hints)
            return found or [self._unread(act, so_far)]
        past, flaws = self.acts.read(act, when, so_far, hints=hints)
        plain = [HeardAct(act, past, flaws)]
        if not flaws:
            return plain
        if own is None and self._is_in_other_words(form, act.text):
            found = self._in_other_words(act, when, so_far, hints=hints)
            if (
                found
                and self.acts.form(found[0].act.word) is form
                and not any(map(problems_in, found))
            ):
                # Nothing is left to ask.
                return found
        # The keeper's own words are read as they were taught, and no other way.
        if own is not None or not _is_said_otherwise(form, act.word, flaws):
            return plain
        found = self._in_other_words(act, when, so_far, hints=hints)
        if not found:
            return plain
        if self.acts.form(found[0].act.word) is not form:
            # `wire off left 2`: a noun that is an act word too, in other words.
            is_noun = act.word.casefold().replace(" ", "-") in form.bare_words
            return found if is_noun else plain
        wrong = sum(map(problems_in, found))
        if past == HELD and wrong:
            return plain
        return found if wrong < len(flaws) else plain

    def _told_by_words(self, act: Act, when: WrittenDate, so_far: int) -> HeardAct | None:
        """What a line tells of whose words tell by themselves that it opens no act, or that all of
        them are kept beside one; None where it is not sure, or own words may stand in it."""
        beside, talk = self.acts.beside, self._talk
        if beside is None or talk is None or act.left_out or act.remark:
            return None
        form = self.acts.form(act.word)
        if form is None:
            return self._unread(act, so_far) if talk.unopened.opens_nothing(line_of(act)) else None
        if not beside.are_kept(form, act.word, act.text):
            return None
        past = self._alone.get(act.word)
        if past is None:
            alone = Act(act.word, "", "", act.line, act.column, act.column)
            past, flaws = self.acts.read(alone, when, so_far, hints=False)
            past = self._alone[act.word] = "" if flaws else past
        if not past:
            return None
        text, line, column = act.text, act.line, act.column
        one = Act(act.word, "", "", line, column, column, (), "", (text,), line_of(act), act.hour)
        return HeardAct(one, past, (_kept_flaw(act.word, (text,), line, column),))

    def _is_in_other_words(self, form: ActForm, text: str) -> bool:
        """Whether the table of the act does not have what is said, which is quick to tell."""
        pieces = [piece for _, piece in part_at_commas(text)]
        return (
            not (form.prose or form.names_act or any(one.reads_anything for one in form.forms))
            and all(pieces)
            and not any(piece in SHARES for piece in pieces)
            and (_IT.match(text) is not None or not self.acts.details.understood(form, text))
        )

    def _in_other_words(
        self, act: Act, when: WrittenDate, so_far: int, *, hints: bool
    ) -> list[HeardAct]:
        page = when.first if when.exact else None
        return [
            self._of(one, act, when, so_far, hints=hints)
            for one in self._made_talk().read(line_of(act), page)
        ]

    def _made_talk(self) -> Talk:
        """Reads what is said in other words; made where there is such a line."""
        if self._talk is None:
            # A hundred patterns, which most journals need for none of their lines.
            from backbud_grammar.scribbles.named import handles_of
            from backbud_grammar.scribbles.read import Talk

            acts, things = self.acts, self.acts.things.by_handle.values()
            kinds = {thing.handle: thing.kind for thing in things}
            people = {thing.title: thing.handle for thing in things if thing.kind == "person"}
            handles = handles_of(kinds, people)
            self._talk = Talk(acts.details, handles, acts.judge.kind_of, acts.language, acts.gallon)
            if not acts.own.words:
                acts.beside = self._talk.beside
        return self._talk

    def _of(
        self, told: ToldAct, act: Act, when: WrittenDate, so_far: int, *, hints: bool
    ) -> HeardAct:
        """An act that was told in other words, judged like any other."""
        line, column = place_in(act, told.at)
        seams = tuple([Seam(at, *place_in(act, of)) for at, of in told.pieces])
        remark = " ".join(filter(None, (told.remark, act.remark)))
        text_column = seams[0].column if seams else column
        written = line_of(act)
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
            act.hour,
        )
        one = with_hour_behind(one, self.acts.details.acts.get(told.word))
        past, flaws = self.acts.read(one, when, so_far, hints=hints)
        if told.kept:
            flaws = (*flaws, _kept_flaw(told.word, told.kept, line, column))
        return HeardAct(one, past, flaws)

    def _unread(self, act: Act, so_far: int) -> HeardAct:
        """A line that begins with no act word: its words are kept as if they were noted."""
        text = line_of(act)
        noted = Act(
            "noted", text, act.remark, act.line, act.column, act.column, kept=(text,), hour=act.hour
        )
        flaw = self.acts.no_act.flaw(act, so_far)
        return HeardAct(noted, "noted" if "noted" in self.acts.details.acts else "", (flaw,))


def _without_hints(heard: HeardAct) -> HeardAct:
    """Without those that are sought; where no act is found none is (no_act.py)."""
    flaws = [
        flaw if flaw.severity == "kept" or flaw.code == "unknown-act" else replace(flaw, hint="")
        for flaw in heard.flaws
    ]
    return HeardAct(heard.act, heard.past, tuple(flaws))


def _kept_flaw(word: str, kept: tuple[str, ...], line: int, column: int) -> Flaw:
    """That words stand beside an act and are kept."""
    words = "; ".join(kept)
    message = f"“{words}” stands beside {word} and is kept as words"
    return Flaw("words-kept", line, column, len(word), message, "", KEPT)
