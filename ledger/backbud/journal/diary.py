"""Outlined pages go in; their blocks, read against the table of acts, and all problems come out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from functools import partial
from typing import Any

from msgspec import Raw
from msgspec.structs import replace

from backbud.journal.copies import ENDS_HERE
from backbud.journal.dated import DatedBlock, DatedPage, DayWeather, Head, Said, SoundActs
from backbud.journal.events import Origin
from backbud.journal.far import flaw_of_far, says_when
from backbud.journal.headings import Ends, flaw_of_heading, slip_of_act
from backbud.journal.notes import Notes
from backbud.journal.remember import (
    Kept,
    RecalledBlock,
    RecalledPage,
    SaidWeather,
    Sound,
    acts_of,
    sound_of,
    words_of,
)
from backbud.journal.things import Things
from backbud_grammar.continued import goes_on
from backbud_grammar.datelines import is_dateline
from backbud_grammar.dates import WrittenDate, read_span
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ANY_WORDS, NO_ACT, ActForm, Form
from backbud_grammar.handles import flaw_of
from backbud_grammar.kinds import KINDS
from backbud_grammar.outline import Known, read_act_line
from backbud_grammar.parse import ActReading, Details
from backbud_grammar.problems import Flaw, Misread, did_you_mean, nearest
from backbud_grammar.said_otherwise import hint_for_act
from backbud_grammar.syntax import Act, Block, Detail, Page, Subjects, last_line
from backbud_grammar.whole import HELD, doubt_of, told, words_over

NOBODY = Subjects(())


class DiaryReader:
    """Reads the acts of pages against the table of acts; problems go to the notes.

    `recall`: what an earlier run found sound, by word and text. `found_sound`: what this process
    found or recalled; more is added.
    """

    def __init__(
        self,
        things: Things,
        details: Details,
        notes: Notes,
        recall: Callable[[str, str], Said | None],
        found_sound: SoundActs,
    ) -> None:
        self.things, self.details, self.notes = things, details, notes
        self.found_sound = found_sound
        self._recall = recall
        # Subject lines that are no acts.
        self._plain: set[str] = {""}

    def page(
        self, kept: Kept[Any], when: WrittenDate, file: str, line: int
    ) -> tuple[DatedPage, list[DayWeather]]:
        """A page as read and its weather; `line` counts from 0. Whether it is sound is kept.

        What is wrong in it may depend on its text, the table of acts and what the handles mean,
        and on nothing else: a page that was sound is not looked at again.
        """
        page: Page | RecalledPage = kept.section
        sound, head = kept.sound, Head(when, file, line, self)
        if sound is not None:
            made = DatedPage(
                when,
                file,
                line + 1,
                sound.acts,
                partial(_sound_blocks, page, sound, head),
                kept.digest,
            )
            return made, _day_weather(sound.weather, page, head)
        if isinstance(page, RecalledPage):
            page = page.read()
        noted = len(self.notes)
        for flaw in page.flaws:
            self.notes.add(file, line, flaw)
        # Where the whole line is a date in another form, it holds no weather.
        has_weather = page.weather and (
            when.first > date.min or not is_dateline(f"{page.date} {page.weather}")
        )
        weather = self._weather(page, when, file, line) if has_weather else ()
        blocks = tuple(self._blocks(page.blocks, head))
        words = tuple([block.acts for block in blocks])
        is_sound = len(self.notes) == noted and len(blocks) == len(page.blocks)
        kept.sound = sound_of(words, weather) if is_sound else None
        acts = sum(map(len, words))
        made = DatedPage(when, file, line + 1, acts, blocks, kept.digest)
        return made, _day_weather(weather, page, head)

    def subjects(self, text: str) -> Subjects:
        read = self.details.subjects(text) if text else NOBODY
        return NOBODY if isinstance(read, Flaw) else read

    def recalled(self, acts: Raw) -> tuple[Act, ...]:
        return acts_of(acts)

    def said(self, act: Act, *, held: bool) -> Said:
        form = self._form(act)
        assert form is not None
        if held:
            return _held(form, act)
        known = self._known(act)
        if known is None:
            known, _ = self._judged(form, act)
        return known

    def row(self, act: str) -> ActForm:
        return self.details.acts.get(act, NO_ACT)

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

    def _form(self, act: Act) -> ActForm | None:
        return self.details.acts.get(act.word) or self.details.acts.get(act.word.casefold())

    def _blocks(self, blocks: tuple[Block, ...], head: Head) -> list[DatedBlock]:
        out: list[DatedBlock] = []
        file, line = head.file, head.line
        # Whether what stands here is of this day still, and of the subject line above.
        of_day, of_subject = True, False
        for n, block in enumerate(blocks):
            text, rest = block.subjects, blocks[n:]
            if text == ENDS_HERE:
                of_day = False
                continue
            below = self._going_on(rest[1:2])
            if text not in self._plain:
                slipped = self._act_at_edge(
                    block, file, line, left_out=not of_day or not of_subject
                )
                if slipped is not None:
                    # It, and what stands below it, belong to the subject line above.
                    written = _with_left_out((slipped, *block.acts), below)
                    acts, written, ends = self._acts(written, head, rest)
                    if of_day and of_subject:
                        out[-1] = _with(out[-1], acts, written)
                    of_day, of_subject = of_day and ends != "day", of_subject and not ends
                    continue
                flaw = flaw_of_heading(rest, self.things, self.details, head.when)
                if flaw is not None:
                    self.notes.add(file, line, flaw)
                    self._acts(block.acts, head, rest)
                    of_day = False
                    continue
                self._plain.add(text)
            stands = self._subject_line(block, file, line)
            acts, written, ends = self._acts(_with_left_out(block.acts, below), head, rest)
            if stands and of_day:
                out.append(DatedBlock(head, text, line + block.line + 1, acts, written))
            of_day, of_subject = of_day and ends != "day", stands and not ends
        return out

    def _going_on(self, below: Sequence[Block]) -> str:
        """The line at the left edge below a block, where it may go on with its last act; or ""."""
        text = below[0].subjects if below else ""
        if not text or text in self._plain or not goes_on(text):
            return ""
        return "" if self.things.find(text.split(None, 1)[0].rstrip(",:")) is not None else text

    def _acts(
        self, written: tuple[Act, ...], head: Head, rest: tuple[Block, ...]
    ) -> tuple[tuple[str, ...], tuple[Act, ...], Ends]:
        """The past form of each act that can be read, and the same as they are written; and what
        ends there, where an indented line is a subject line or a date in truth.

        `rest`: the block and those below it.
        """
        acts: list[str] = []
        ends: Ends = ""
        stand = len(written)
        for n, act in enumerate(written):
            texts = self.found_sound.get(act.word)
            known = texts.get(act.text) if texts is not None else None
            # A remark, what was refused below it, or a day far from this page, may hold back what
            # was found sound.
            ready = not (act.remark or act.left_out or (known is not None and known.says_when))
            if known is not None and ready:
                acts.append(known.act)
                continue
            slip = None
            if self._form(act) is None:
                slip = slip_of_act(act, written[n + 1 :], rest, self.things)
            if slip is None:
                acts.append(self._act(act, head))
                continue
            acts.append("")
            self.notes.add(head.file, head.line, slip.flaw)
            stand, ends = min(stand, n), slip.ends if ends != "day" else ends
        acts, written = acts[:stand], written[:stand]
        if "" in acts:
            written = tuple([one for act, one in zip(acts, written, strict=True) if act])
            acts = [act for act in acts if act]
        return tuple(acts), written, ends

    def _act_at_edge(self, block: Block, file: str, line: int, *, left_out: bool) -> Act | None:
        """The act that a subject line is in truth, or None. `left_out`: nobody is meant by it."""
        first = block.subjects.split(None, 1)[0]
        if first.casefold() not in self.details.acts or self.things.find(first) is not None:
            return None
        self.notes.add(
            file,
            line,
            Flaw(
                "act-at-edge",
                block.line,
                1,
                len(first),
                f"“{first}” is an act, but stands at the left edge",
                "Put two spaces in front of an act.",
                lines=last_line((block,)) - block.line + 1 if left_out else 1,
            ),
        )
        return read_act_line(block.subjects, block.line, Known.of(self.details.acts))

    def _subject_line(self, block: Block, file: str, line: int) -> bool:
        """Whether it says who is meant."""
        if not block.subjects:
            for act in block.acts:
                if act.word.casefold() in self.details.acts:
                    self.notes.add(
                        file,
                        line,
                        Flaw(
                            "no-subject",
                            act.line,
                            act.column,
                            len(act.word),
                            "this act has no subject line above it",
                            "Write the tree's handle on a line of its own, at the left edge.",
                        ),
                    )
            return False
        read = self.details.subjects(block.subjects)
        if isinstance(read, Flaw):
            self.notes.add(file, line, self._explained(read, block))
            return False
        if not block.acts:
            self.notes.add(
                file,
                line,
                Flaw(
                    "no-acts",
                    block.line,
                    1,
                    len(block.subjects),
                    "nothing was done here",
                    "Acts stand below the subject line, indented.",
                    "warning",
                ),
            )
        return True

    def _explained(self, flaw: Flaw, block: Block) -> Flaw:
        """A subject line's flaw in its place; an act or a card on that line is said to be one."""
        message, hint = flaw.message, flaw.hint
        first, *more = block.subjects.split() or [""]
        wrong = block.subjects[flaw.column - 1 :].split()
        if wrong and wrong[0].casefold() in self.details.acts:
            message = f"the act “{wrong[0]}” stands on the subject line"
            hint = "Acts stand on lines of their own below, indented."
        elif more and "," not in block.subjects:
            kind = nearest(first, KINDS) if first.casefold() not in KINDS else first.casefold()
            if kind and self.things.find(first) is None:
                message = f"this is neither a card nor a subject line: “{block.subjects}”"
                hint = f"A card begins with its kind and one handle: {kind} {'-'.join(more)}"
        lines = last_line((block,)) - block.line + 1
        return Flaw(
            flaw.code, block.line, flaw.column, flaw.length, message, hint, flaw.severity, lines
        )

    def _act(self, act: Act, head: Head) -> str:
        """The past form of an act, or "" where it cannot be read at all."""
        form, file, line = self._form(act), head.file, head.line
        if form is None:
            self.notes.add(file, line, self._unknown_act(act, file))
            return ""
        known = self._known(act)
        if known is None:
            known, flaws = self._judged(form, act)
            for one in flaws:
                self._note(act, file, line, one)
            if not flaws and not form.prose:
                self.found_sound[act.word][act.text] = known
        flaw = self._taken_back(form, act, known, head.when)
        if flaw is not None:
            self._note(act, file, line, flaw)
            return HELD
        return known.act

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

    def _unknown_act(self, act: Act, file: str) -> Flaw:
        word = act.word
        hint = "The manual lists every act; free words go after noted."
        if not self.notes.flooded(file):
            said = hint_for_act(word, act.text, self.details.acts)
            hint = said or did_you_mean(word, self.details.acts, hint)
        message = f"“{word}” is no act known here"
        return Flaw("unknown-act", act.line, act.column, len(word), message, hint)

    def _note(self, act: Act, file: str, line: int, flaw: Flaw) -> None:
        if flaw.length == 0:
            at, column, length = act.line, act.column, len(act.word)
        else:
            at, column = act.place_of(flaw.column)
            length = flaw.length
        self.notes.add(
            file, line, Flaw(flaw.code, at, column, length, flaw.message, flaw.hint, flaw.severity)
        )

    def _flaws_of_references(
        self, form: ActForm, act: Act, reading: ActReading, forms: Sequence[Form]
    ) -> Iterator[Flaw]:
        """What is wrong with the references and dates of an act, by their place in its text."""
        for detail, start in zip(reading.details, reading.starts, strict=True):
            if detail.handle:
                kinds = tuple(
                    dict.fromkeys(kind for f in forms if f.name == detail.name for kind in f.refers)
                )
                said, flaw = detail.handle, self._flaw_of_reference(detail.handle, kinds, forms)
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

    def _flaw_of_reference(
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

    def _flaw_of_new_handle(self, handle: str) -> Flaw | None:
        """What is wrong with the handle of a tree that begins here; it may have a card already."""
        found = self.things.find(handle)
        if found is None:
            wrong = flaw_of(handle)
        else:
            wrong = "" if found.kind == "tree" else f"“{handle}” is a {found.kind} already"
        hint = "Choose another handle for the new tree."
        return Flaw("bad-handle", 0, 0, len(handle), wrong, hint) if wrong else None

    def _weather(
        self, page: Page, when: WrittenDate, file: str, line: int
    ) -> tuple[SaidWeather, ...]:
        """The weather on a page's first line."""
        found: dict[str, Detail] = {}
        place = ""

        def note(flaw: Flaw, at: int, hint: str = "") -> None:
            self.notes.add(
                file,
                line,
                Flaw(
                    flaw.code,
                    0,
                    page.weather_column + at,
                    flaw.length,
                    flaw.message,
                    hint or flaw.hint,
                ),
            )

        for start, piece in part_at_commas(page.weather):
            read = self.details.weather(piece)
            if read.flaw:
                note(
                    read.flaw,
                    start + read.flaw.column,
                    "Handles stand on a line of their own below the date."
                    if self.things.find(piece) is not None
                    else "",
                )
            for detail in read.details:
                at = start + detail.offset
                if detail.name in found:
                    note(
                        Flaw(
                            "said-twice",
                            0,
                            0,
                            detail.length,
                            f"“{detail.name}” stands here twice, and the first counts",
                            "Take one out.",
                        ),
                        at,
                    )
                elif detail.name == "at":
                    flaw = self._flaw_of_reference(detail.handle, ("place",))
                    if flaw:
                        note(flaw, piece.index(detail.handle) + start)
                    else:
                        thing = self.things.find(detail.handle)
                        place = thing.handle if thing else ""
                else:
                    found[detail.name] = detail
        low, high = (found[name].measure if name in found else None for name in ("low", "high"))
        if low and high and low.within("C") > high.within("C"):
            note(
                Flaw(
                    "contradiction",
                    0,
                    0,
                    len(page.weather),
                    "the low is above the high",
                    "Are the two swapped?",
                ),
                0,
            )
        if not when.exact:
            self.notes.add(
                file,
                line,
                Flaw(
                    "rough-weather",
                    0,
                    page.weather_column,
                    len(page.weather),
                    "weather needs an exact day",
                    "Write the date as 2027-03-06.",
                    "warning",
                ),
            )
            return ()
        return tuple([(place, *_value_of(detail)) for detail in found.values()])

    def misplaced(
        self, blocks: tuple[Block, ...], file: str, line: int, *, after_card: bool = False
    ) -> None:
        """Note acts and subject lines that stand on no page."""
        for n, block in enumerate(blocks):
            if block.subjects == ENDS_HERE:
                return
            heading = flaw_of_heading(blocks[n:], self.things, self.details, None)
            if heading is not None:
                # It says of all below it that it has no date.
                self.notes.add(file, line, heading)
                return
            at = block.line if block.subjects else block.acts[0].line
            text = block.subjects or block.acts[0].word
            column = 1 if block.subjects else block.acts[0].column
            hint = "A page begins with its date at the left edge: 2027-03-06."
            no_card = self._explained(Flaw("no-date", 0, 1, len(text), "", ""), block)
            if no_card.message:
                self.notes.add(file, line, no_card)
                continue
            if after_card:
                hint = f"A card ends the page above it. {hint}"
            self.notes.add(
                file,
                line,
                Flaw(
                    "no-date",
                    at,
                    column,
                    len(text),
                    "no date stands above this",
                    hint,
                    lines=last_line((block,)) - at + 1,
                ),
            )


def _sound_blocks(page: Page | RecalledPage, sound: Sound, head: Head) -> tuple[DatedBlock, ...]:
    at = head.line + 1
    blocks: Iterable[Block | RecalledBlock] = (
        page.recalled_blocks() if isinstance(page, RecalledPage) else page.blocks
    )
    return tuple(
        [
            DatedBlock(head, block.subjects, at + block.line, words, block.acts)
            for block, words in zip(blocks, words_of(sound), strict=True)
        ]
    )


def _with_left_out(acts: tuple[Act, ...], below: str) -> tuple[Act, ...]:
    """The acts, the last with what is refused below it and may go on with it."""
    if not acts or not below:
        return acts
    last = acts[-1]
    return (*acts[:-1], replace(last, left_out=f"{last.left_out} {below}".lstrip()))


def _with(above: DatedBlock, acts: tuple[str, ...], written: tuple[Act, ...]) -> DatedBlock:
    """The block with more acts."""
    assert not isinstance(above.written, Raw)
    return DatedBlock(
        above.head, above.text, above.line, (*above.acts, *acts), (*above.written, *written)
    )


def _value_of(detail: Detail) -> tuple[str, float, str]:
    measure = detail.measure
    return (detail.name, float(measure.number), measure.unit) if measure else (detail.name, 1.0, "")


def _day_weather(
    said: Iterable[SaidWeather], page: Page | RecalledPage, head: Head
) -> list[DayWeather]:
    origin = Origin(head.file, head.line + 1, page.weather_column)
    day = head.when.first
    return [DayWeather(day, place, name, value, unit, origin) for place, name, value, unit in said]


def _held(form: ActForm, act: Act) -> Said:
    """What is left of an act that is held back: its words."""
    return Said(HELD, (), "", form.word, (act.text,) if act.text else ())


def _flaw_of_date(written: str) -> Flaw | None:
    try:
        read_span(written)
    except Misread as error:
        return Flaw(error.code, 0, error.offset, error.length, error.message, error.hint)
    return None
