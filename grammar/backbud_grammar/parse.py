"""Reads the text of an act piece by piece, each piece once; so it does cards and subject lines."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from backbud_grammar.act_reading import ActReading, corrected_prose, prose_reading
from backbud_grammar.acts import DAY_FORMS
from backbud_grammar.card_examples import CardExamples
from backbud_grammar.card_lines import read_card_line
from backbud_grammar.contradictions import contradictions
from backbud_grammar.count_and_price import count_beside_price
from backbud_grammar.details import Reading, part_at_commas, read_detail
from backbud_grammar.forms import ActForm, Form, KindForm
from backbud_grammar.hints import NO_DETAILS, expected_of
from backbud_grammar.lexicon import SHARES, Lexicon, lexicon_of
from backbud_grammar.own_details import act_that_says
from backbud_grammar.parts import spelled_out, without_part
from backbud_grammar.placed_pieces import no_part, put_together, understood_details
from backbud_grammar.problems import Flaw, did_you_mean
from backbud_grammar.said_otherwise import hint_for_detail
from backbud_grammar.subjects import read_subjects
from backbud_grammar.syntax import Detail, Subjects

# Flaws of a detail that is not of the act at all, or is said in other words.
_NOT_UNDERSTOOD = frozenset(
    (
        "unknown-detail",
        "unknown-word",
        "unknown-unit",
        "no-unit",
        "two-measures",
        "unexpected-date",
        "unexpected-measure",
    )
)
# What stands where nothing was written.
_NOTHING = Reading()
# To find the act that a detail was meant for takes some milliseconds.
_MOST_SOUGHT = 12


class _Shelf(Struct):
    """What can be written of an act, and every piece of it that was read so far; `placed`: those
    with a part of the tree, whose readings are put together of others."""

    lexicon: Lexicon
    readings: dict[str, Reading]
    placed: dict[str, Reading] = {}
    # What is wrong, without a hint.
    unhinted: dict[str, Reading] = {}
    # What pieces are that were only asked whether they are understood; nothing where they are not.
    understood: dict[str, tuple[Detail, ...]] = {}


class Details:
    """Reads the details of acts, each piece once.

    `recall`: what an earlier run read of an act, for those that are asked for. `readings`,
    `known_subjects`: what to hand on to the next run; `learned`: how much of it is new.
    """

    def __init__(
        self,
        acts: Mapping[str, ActForm],
        recall: Callable[[str], dict[str, Reading]] = lambda key: {},
        known_subjects: dict[str, Subjects] | None = None,
    ) -> None:
        self.acts = acts
        self.readings: dict[str, dict[str, Reading]] = {}
        self.known_subjects: dict[str, Subjects] = known_subjects or {}
        self.learned = 0
        self._recall = recall
        self._whole: dict[tuple[str, str], ActReading] = {}
        self._unhinted: dict[tuple[str, str], ActReading] = {}
        self._shelves: dict[str, _Shelf] = {}
        self._sought = 0
        self._card_examples = CardExamples()

    def weather(self, piece: str) -> Reading:
        """Read one piece of a day's weather."""
        return self._kept(piece, self._shelf("day", DAY_FORMS))

    def subjects(self, text: str) -> Subjects | Flaw:
        """Read a subject line."""
        subjects = self.known_subjects.get(text)
        if subjects is None:
            read = read_subjects(text)
            if isinstance(read, Flaw):
                return read
            subjects = self.known_subjects[text] = read
            self.learned += 1
        return subjects

    def card_line(self, kind: KindForm, text: str) -> Reading:
        """Read a card's line."""
        readings = self.readings_of(f"card {kind.kind}")
        reading = readings.get(text)
        if reading is None:
            reading = self._card_examples.read(kind, text)
            if reading is None:
                reading = read_card_line(kind, text)
                self._card_examples.learn(kind, text, reading)
            readings[text] = reading
            self.learned += 1
        return reading

    def of(self, form: ActForm, text: str, *, hints: bool = True) -> ActReading:
        """Read the text after an act word. `hints`: whether what is wrong says what was meant."""
        key = (form.word, text)
        reading = self._whole.get(key)
        if reading is None and not hints:
            reading = self._unhinted.get(key)
            if reading is None:
                reading = self._read(form, text, hints=False)
                (self._unhinted if reading.flaws else self._whole)[key] = reading
        elif reading is None:
            reading = self._whole[key] = self._read(form, text, hints=True)
        return reading

    def agree(self, form: ActForm, details: Sequence[Detail]) -> bool:
        """Whether details that are sound each by itself say nothing twice and contradict each other
        in nothing."""
        lexicon = self.lexicon(form)
        names = {detail.name for detail in details}
        if len(names) == len(details) and lexicon.watched.isdisjoint(names):
            return True
        found = contradictions(details, [0] * len(details), lexicon)
        return next(found, None) is None

    def on_part(
        self, form: ActForm, said: tuple[Detail, ...], part: str, piece: str
    ) -> tuple[Detail, ...]:
        """The details of a piece that says them on a part; none where the last takes no part."""
        if not said or said[-1].name not in self.lexicon(form).with_part:
            return ()
        last = said[-1]
        length = len(piece) - last.offset
        return (*said[:-1], replace(last, part=spelled_out(part), length=length))

    def understood(self, form: ActForm, text: str) -> tuple[Detail, ...]:
        """The details that a text is to an act; none where any of it is not understood.

        As `of`, but no hint is sought, which takes far longer than to read.
        """
        shelf = self._shelf(form.word, form.forms)
        out: list[Detail] = []
        for _, piece in part_at_commas(text):
            read = _understood(piece, shelf)
            if not read:
                return ()
            out += read
        return tuple(out)

    def _read(self, form: ActForm, text: str, *, hints: bool) -> ActReading:
        if form.prose:
            return prose_reading(text)
        if form.names_act:
            return self._read_of_act(form, text, hints=hints)
        flaws = () if text or not form.needs_detail else (_nothing_said(form),)
        return self._pieces("", form.word, text, form.forms, flaws, hints=hints)

    def _read_of_act(self, form: ActForm, text: str, *, hints: bool) -> ActReading:
        """Read what is planned, skipped, put off or corrected: an act and its details."""
        word = text.split(None, 1)[0].rstrip(",") if text else ""
        named = self.acts.get(word.casefold())
        corrects = any(detail.date and not detail.labels for detail in form.forms)
        no_work = named is not None and (named.prose or named.names_act)
        if named is None or named is form or (no_work and not corrects):
            example = f"For example: {form.word} {form.example}."
            hint = example
            if hints and word and named is None:
                works = [bare for bare, act in self.acts.items() if not act.names_act]
                hint = did_you_mean(word, works, example)
            message = (
                f"“{word}” is no act known here"
                if word and named is None
                else f"“{form.word}” needs a work after it"
            )
            return ActReading("", (), (), (Flaw("unknown-act", 0, 0, len(word), message, hint),))
        # What stood before the details of the named act is blanked, so that offsets stay.
        rest = " " * len(word) + text[len(word) :]
        if rest.lstrip().startswith(","):
            rest = rest.replace(",", " ", 1)
        if named.prose:
            reading = corrected_prose(named, rest)
        else:
            reading = self._pieces(
                named.word,
                f"{form.word} {named.word}",
                rest,
                (*form.forms, *named.forms),
                (),
                hints=hints,
            )
        if corrects and not any(d.name == "date" for d in reading.details):
            return ActReading(
                named.word,
                reading.details,
                reading.starts,
                (
                    *reading.flaws,
                    Flaw(
                        "no-date",
                        0,
                        0,
                        len(word),
                        f"which “{word}” is corrected? Its date is missing",
                        f"For example: {form.word} {word} 2027-03-06, not done.",
                    ),
                ),
            )
        return reading

    def _pieces(
        self,
        named: str,
        key: str,
        text: str,
        forms: tuple[Form, ...],
        found: tuple[Flaw, ...],
        *,
        hints: bool,
    ) -> ActReading:
        details: list[Detail] = []
        starts: list[int] = []
        flaws: list[Flaw] = list(found)
        if text.strip():
            shelf = self._shelf(key, forms)
            lexicon = shelf.lexicon
            with_part = lexicon.with_part
            for start, piece in part_at_commas(text):
                if with_part and _may_name_part(piece):
                    # A hint is sought only where it is told, and kept only then.
                    known = shelf.placed.get(piece)
                    if known is None or (hints and known.flaw is not None):
                        known = shelf.placed[piece] = self._placed(piece, shelf, hints=hints)
                    reading = known
                else:
                    reading = self._kept(piece, shelf, hints=hints)
                if not reading.details and piece in SHARES and details and details[-1].measure:
                    details[-1] = replace(details[-1], share=piece)
                    continue
                details += reading.details
                starts += [start] * len(reading.details)
                flaw = reading.flaw
                if flaw is not None:
                    flaws.append(self._explained(flaw, key, start, piece, text, hints=hints))
            if len(details) > 1:
                names = {detail.name for detail in details}
                if len(names) < len(details):
                    details = count_beside_price(details, lexicon)
                    names = {detail.name for detail in details}
                if len(names) < len(details) or not lexicon.watched.isdisjoint(names):
                    flaws += contradictions(details, starts, lexicon)
        return ActReading(named, tuple(details), tuple(starts), tuple(flaws))

    def _explained(
        self, flaw: Flaw, key: str, start: int, piece: str, text: str, *, hints: bool
    ) -> Flaw:
        """A piece's flaw in its place in the act; a detail of another act is said to be one.

        `key`: the act, and the act that it names behind it: `planned repotted`.
        """
        message, hint = flaw.message, flaw.hint
        if flaw.code == "empty-detail":
            return Flaw(flaw.code, 0, max(text.rfind(",", 0, start), 0), 1, message, hint)
        said = ""
        if not hints:
            return replace(flaw, column=flaw.column + start)
        if flaw.code in _NOT_UNDERSTOOD:
            said = next(filter(None, (hint_for_detail(act, piece) for act in key.split())), "")
        if said:
            hint = said
        elif flaw.code == "unknown-detail" and hint.startswith(("Expected", NO_DETAILS)):
            self._sought += 1
            act = act_that_says(self.acts, piece) if self._sought <= _MOST_SOUGHT else ""
            if act:
                hint = f"“{piece}” belongs to “{act}”: write a line “{act} {piece}”."
        return Flaw(flaw.code, 0, flaw.column + start, flaw.length, message, hint)

    def lexicon(self, form: ActForm) -> Lexicon:
        """What can be written of an act."""
        return self._shelf(form.word, form.forms).lexicon

    def _shelf(self, key: str, forms: tuple[Form, ...]) -> _Shelf:
        shelf = self._shelves.get(key)
        if shelf is None:
            shelf = self._shelves[key] = _Shelf(
                # Those of an act that names another are put together anew each time.
                lexicon_of(forms) if key in self.acts else Lexicon(forms),
                self.readings_of(key),
            )
        return shelf

    def readings_of(self, key: str) -> dict[str, Reading]:
        """What was read of an act or a card so far, in earlier runs too."""
        readings = self.readings.get(key)
        if readings is None:
            readings = self.readings[key] = self._recall(key)
        return readings

    def _placed(self, piece: str, shelf: _Shelf, *, hints: bool) -> Reading:
        """Read a piece with a part of the tree, taken off first, so that few readings differ."""
        lexicon = shelf.lexicon
        placed = without_part(piece, lexicon)
        if placed is None:
            return self._kept(piece, shelf, hints=hints)
        if not placed.part:
            return no_part(placed)
        head = self._kept(placed.head, shelf, hints=hints) if placed.head else _NOTHING
        tail = self._kept(placed.tail, shelf, hints=hints) if placed.tail else _NOTHING
        return put_together(piece, placed, head, tail, lexicon)

    def _kept(self, piece: str, shelf: _Shelf, *, hints: bool = True) -> Reading:
        reading = shelf.readings.get(piece)
        if reading is None and not hints:
            reading = shelf.unhinted.get(piece)
        if reading is None:
            known = () if _may_name_part(piece) else shelf.understood.get(piece, ())
            reading = Reading(known) if known else read_detail(piece, shelf.lexicon, hints=hints)
            # What is not understood is read once more where it is told what may have been meant.
            if hints or reading.flaw is None:
                shelf.readings[piece] = reading
                self.learned += 1
            else:
                shelf.unhinted[piece] = reading
        return reading


def _understood(piece: str, shelf: _Shelf) -> tuple[Detail, ...]:
    known = shelf.understood.get(piece)
    if known is None:
        reading = None
        if not _may_name_part(piece):
            reading = shelf.readings.get(piece) or shelf.unhinted.get(piece)
        if reading is None:
            known = understood_details(piece, shelf.lexicon)
        else:
            known = () if reading.flaw is not None else reading.details
        shelf.understood[piece] = known
    return known


def _may_name_part(piece: str) -> bool:
    """Whether a part of the tree may stand in a piece: behind `on`."""
    return "on " in piece or piece.endswith("on")


def _nothing_said(form: ActForm) -> Flaw:
    return Flaw("no-detail", 0, 0, 0, f"“{form.word}” says nothing yet", expected_of(form.forms))
