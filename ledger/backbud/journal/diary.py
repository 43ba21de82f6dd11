"""Reads one page of the diary: the acts below each subject line, the weather beside the date."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from functools import partial
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from backbud.journal.by_lines import ByLines, blocks_of_cuts
from backbud.journal.dated import DatedBlock, DatedPage, DayWeather, Head
from backbud.journal.events import Origin
from backbud.journal.headings import (
    Ends,
    ends_at,
    explained,
    flaw_of_heading,
    is_subject_line,
    slip_of_act,
)
from backbud.journal.heard import HeardAct
from backbud.journal.heard_act import LineHearer
from backbud.journal.merge_marks import ENDS_HERE
from backbud.journal.page_text import PageText
from backbud.journal.remember import Kept, SaidWeather, Sound, sound_of
from backbud.journal.said import ActReader
from backbud.journal.said_weather import said_weather
from backbud_grammar.continued import goes_on
from backbud_grammar.datelines import leading_date
from backbud_grammar.dates import WrittenDate
from backbud_grammar.outline import Known, read_act_line
from backbud_grammar.problems import KEPT, Flaw
from backbud_grammar.syntax import Act, Block, Page, last_line


class ReadDay(NamedTuple):
    """A page as read, the weather on its first line, and what is wrong with its lines."""

    page: DatedPage
    weather: list[DayWeather]
    flaws: tuple[Flaw, ...] = ()


class _ReadActs(Struct, frozen=True, gc=False):
    """The past form of each act that can be read, and the same as they are written; what ends
    there, where an indented line is a subject line or a date in truth; and what is wrong."""

    acts: tuple[str, ...]
    written: tuple[Act, ...]
    ends: Ends
    flaws: list[Flaw]


class DiaryReader:
    """Reads pages, and remembers which subject lines are no acts."""

    def __init__(self, acts: ActReader) -> None:
        self.acts, self.things, self.details = acts, acts.things, acts.details
        self.hearer = LineHearer(acts)
        self._plain: set[str] = {""}
        self._by_lines = ByLines(acts, self._is_subject, self._heard)
        self._older: dict[int, DiaryReader] = {}
        # Few rows of acts come again and again.
        self._rows: dict[tuple[str, ...], tuple[str, ...]] = {}
        # The same by how a `Sound` has them.
        self._written_rows: dict[str, tuple[str, ...]] = {}
        # What first lines of exact days say in which nothing is wrong; many days are alike.
        self._weather: dict[str, tuple[SaidWeather, ...]] = {"": ()}

    def page(
        self, kept: Kept[PageText], when: WrittenDate, file: str, line: int, so_far: int = 0
    ) -> ReadDay:
        """A page as read; `line` counts from 0. Whether it is sound is kept. `so_far`: how much is
        wrong in the file above it.

        What is wrong in it may depend on its text, the table of acts and what the handles mean,
        and on nothing else: a page that was sound is not looked at again.
        """
        return self.of_day(when.first).page_as_it_is(kept, when, file, line, so_far)

    def of_day(self, day: date) -> DiaryReader:
        """What reads the page of a day, by the language of that day."""
        acts = self.acts.of_day(day)
        if acts is self.acts:
            return self
        older = self._older.get(acts.language)
        if older is None:
            older = self._older[acts.language] = DiaryReader(acts)
        return older

    def page_as_it_is(
        self, kept: Kept[PageText], when: WrittenDate, file: str, line: int, so_far: int
    ) -> ReadDay:
        """A page read by the table of acts that is here, looked at as a whole."""
        page = kept.section.read(self.acts.language_known)
        head = Head(when, file, line, self.acts, page.hour)
        flaws = [*page.flaws]
        weather: tuple[SaidWeather, ...] = ()
        # Where the whole line is a date in another form, it holds no weather.
        if page.weather and (
            when.first > date.min or not leading_date(f"{page.date} {page.weather}")
        ):
            weather, of_weather = said_weather(page, when, self.acts)
            flaws += of_weather
        read, of_blocks = self._blocks(page.blocks, head, so_far + len(flaws))
        flaws += of_blocks
        words = tuple([block.acts for block in read])
        # What was said in other words is heard anew each time: what is remembered is as written.
        is_sound = (
            not flaws
            # The hours of single acts stand in the outline alone.
            and not page.has_hours
            and len(read) == len(page.blocks)
            and all(
                one.written is block.acts or one.written == block.acts
                for one, block in zip(read, page.blocks, strict=True)
            )
        )
        kept.sound = sound_of(words, weather) if is_sound else None
        acts = sum(map(len, words))
        made = DatedPage(
            when,
            file,
            line + 1,
            acts,
            tuple(read),
            kept.digest,
            hour=page.hour,
            has_hours=page.has_hours,
        )
        return ReadDay(made, _day_weather(weather, page, head), tuple(flaws))

    def page_by_lines(
        self, kept: Kept[PageText], when: WrittenDate, file: str, line: int, so_far: int
    ) -> ReadDay | None:
        """A page of an exact day read line by line; None where it must be looked at as a whole.

        Where nothing was wrong before, its lines are not looked at again.
        """
        page, sound = kept.section, kept.sound
        head = Head(when, file, line, self.acts, page.hour)
        blocks: tuple[DatedBlock, ...] | Callable[[], tuple[DatedBlock, ...]]
        if sound is not None:
            blocks = partial(self._sound_blocks, page, sound, head)
        else:
            found = self._by_lines.blocks(page.text, head, so_far)
            if found is None:
                return None
            weather = self._weather.get(page.weather)
            if weather is None:
                weather, flaws = said_weather(page, when, self.acts)
                if flaws:
                    return None
                self._weather[page.weather] = weather
            blocks = found.blocks
            if not found.is_sound:
                acts = sum(len(block.acts) for block in blocks)
                made = DatedPage(when, file, line + 1, acts, blocks, kept.digest, hour=page.hour)
                return ReadDay(made, _day_weather(weather, page, head), tuple(found.flaws))
            rows = [block.acts for block in blocks]
            sound = kept.sound = sound_of(rows, weather, found.cuts)
        made = DatedPage(
            when, file, line + 1, sound.acts, blocks, kept.digest, sound.words, page.hour
        )
        return ReadDay(made, _day_weather(sound.weather, page, head) if sound.weather else [])

    def _sound_blocks(self, page: PageText, sound: Sound, head: Head) -> tuple[DatedBlock, ...]:
        rows = self._rows_of(sound)
        if sound.cuts:
            return blocks_of_cuts(page.text, sound.cuts, rows, head)
        at = head.line + 1
        blocks = page.read(head.reader.language_known).blocks
        return tuple(
            [
                DatedBlock(head, block.subjects, at + block.line, words, block.acts)
                for block, words in zip(blocks, rows, strict=True)
            ]
        )

    def _rows_of(self, sound: Sound) -> list[tuple[str, ...]]:
        """The past form of each act, block by block."""
        known = self._written_rows
        if not sound.acts:
            return []
        return [known.get(row) or self._written_row(row) for row in sound.words.split("\n")]

    def _written_row(self, row: str) -> tuple[str, ...]:
        self._written_rows[row] = acts = self._row(tuple(row.split("\t")))
        return acts

    def _row(self, acts: tuple[str, ...]) -> tuple[str, ...]:
        """The very same words for the same acts."""
        return self._rows.setdefault(acts, acts)

    def _heard(self, act: Act, when: WrittenDate, so_far: int) -> list[HeardAct] | None:
        """What one act tells of that is not sound as it stands; None where it may be a date or a
        subject line in truth, or go on with the act above."""
        acts = self.acts
        is_act = act.word in acts.details.acts or acts.form(acts.meant(act, when).word) is not None
        if not is_act and (goes_on(act.word) or ends_at(act, self.things)):
            return None
        return self.hearer.heard(act, when, so_far)

    def _blocks(
        self, blocks: tuple[Block, ...], head: Head, so_far: int
    ) -> tuple[list[DatedBlock], list[Flaw]]:
        out: list[DatedBlock] = []
        flaws: list[Flaw] = []
        # Whether what stands here is of this day still, and of the subject line above.
        of_day, of_subject = True, False
        for n, block in enumerate(blocks):
            text, rest = block.subjects, blocks[n:]
            if text == ENDS_HERE:
                of_day = False
                continue
            below = self._going_on(rest[1].subjects) if len(rest) > 1 else ""
            if text not in self._plain:
                if self._is_act(text):
                    # It, and what stands below it, belong to the subject line above.
                    flaws.append(_at_edge(block, left_out=not of_day or not of_subject))
                    slipped = read_act_line(text, block.line, Known.of(self.details.acts))
                    slid = _with_left_out((slipped, *block.acts), below)
                    read = self._acts(slid, head, rest, so_far + len(flaws))
                    ends = read.ends
                    flaws += read.flaws
                    if of_day and of_subject:
                        out[-1] = _with(out[-1], read.acts, read.written)
                    of_day, of_subject = of_day and ends != "day", of_subject and not ends
                    continue
                flaw = flaw_of_heading(rest, self.things, self.details, head.when)
                if flaw is not None:
                    flaws.append(flaw)
                    flaws += self._acts(block.acts, head, rest, so_far + len(flaws)).flaws
                    of_day = False
                    continue
                self._plain.add(text)
            stands, of_line = self._subject_line(block)
            flaws += of_line
            whole = _with_left_out(block.acts, below)
            read = self._acts(whole, head, rest, so_far + len(flaws))
            found, ends = read.flaws, read.ends
            is_filed = stands and of_day
            # What is filed nowhere is told as such, and not as words that were kept.
            flaws += found if is_filed else [one for one in found if one.severity != KEPT]
            if is_filed:
                line = head.line + block.line + 1
                acts = self._row(read.acts)
                out.append(DatedBlock(head, text, line, acts, read.written))
            of_day, of_subject = of_day and ends != "day", stands and not ends
        return out, flaws

    def _going_on(self, text: str) -> str:
        """The line at the left edge below a block, where it may go on with its last act; or ""."""
        if not text or text in self._plain or not goes_on(text):
            return ""
        return "" if self.things.find(text.split(None, 1)[0].rstrip(",:")) is not None else text

    def _acts(
        self, written: tuple[Act, ...], head: Head, rest: tuple[Block, ...], so_far: int
    ) -> _ReadActs:
        """The acts below a subject line. `rest`: the block and those below it."""
        past_of, when = self.acts.past_of, head.when
        pasts = [past_of(act, when)[0] for act in written]
        if all(pasts):
            return _ReadActs(tuple(pasts), written, "", [])
        acts: list[str] = []
        heard: list[Act] = []
        flaws: list[Flaw] = []
        ends: Ends = ""
        # How many of the acts stand; what follows an indented subject line does not.
        stand = -1
        for n, (act, past) in enumerate(zip(written, pasts, strict=True)):
            if past:
                acts.append(past)
                heard.append(act)
                continue
            slip = None
            if self.acts.form(self.acts.meant(act, when).word) is None:
                slip = slip_of_act(act, written[n + 1 :], rest, self.things)
            if slip is None:
                for one in self.hearer.heard(act, when, so_far + len(flaws)):
                    flaws += one.flaws
                    if one.past:
                        acts.append(one.past)
                        heard.append(one.act)
                continue
            flaws.append(slip.flaw)
            stand, ends = len(acts) if stand < 0 else stand, slip.ends if ends != "day" else ends
        if stand >= 0:
            del acts[stand:], heard[stand:]
        return _ReadActs(tuple(acts), tuple(heard), ends, flaws)

    def _is_act(self, text: str) -> bool:
        """Whether a line at the left edge is an act in truth."""
        first = text.split(None, 1)[0]
        return first.casefold() in self.details.acts and self.things.find(first) is None

    def _is_subject(self, text: str) -> bool:
        """Whether it is a subject line in which nothing is wrong."""
        if self.things.by_handle.keys() >= set(text.split(", ")):
            # Most name nothing but handles, as they stand on the cards.
            return True
        if isinstance(self.details.subjects(text), Flaw):
            return False
        return not self._is_act(text) and is_subject_line(text, self.things)

    def _subject_line(self, block: Block) -> tuple[bool, list[Flaw]]:
        """Whether it says who is meant."""
        text = block.subjects
        if not text:
            return False, [_no_subject(act) for act in block.acts]
        read = self.details.subjects(text)
        if isinstance(read, Flaw):
            return False, [explained(read, block, self.things, self.details)]
        if block.acts:
            return True, []
        message, hint = "nothing was done here", "Acts stand below the subject line, indented."
        return True, [Flaw("no-acts", block.line, 1, len(text), message, hint, "warning")]


def _at_edge(block: Block, *, left_out: bool) -> Flaw:
    """That an act stands where subject lines do. `left_out`: nobody is meant by it."""
    first = block.subjects.split(None, 1)[0]
    message = f"“{first}” is an act, but stands at the left edge"
    hint = "Put two spaces in front of an act."
    lines = last_line((block,)) - block.line + 1 if left_out else 1
    return Flaw("act-at-edge", block.line, 1, len(first), message, hint, lines=lines)


def _no_subject(act: Act) -> Flaw:
    message = "this line has no subject line above it"
    hint = "Write the tree's handle on a line of its own, at the left edge."
    return Flaw("no-subject", act.line, act.column, len(act.word), message, hint)


def _with_left_out(acts: tuple[Act, ...], below: str) -> tuple[Act, ...]:
    """The acts, the last with what is refused below it and may go on with it."""
    if not acts or not below:
        return acts
    last = acts[-1]
    return (*acts[:-1], replace(last, left_out=f"{last.left_out} {below}".lstrip()))


def _with(above: DatedBlock, acts: tuple[str, ...], written: tuple[Act, ...]) -> DatedBlock:
    """The block with more acts."""
    assert isinstance(above.written, tuple)
    return DatedBlock(
        above.head, above.text, above.line, (*above.acts, *acts), (*above.written, *written)
    )


def _day_weather(
    said: Iterable[SaidWeather], page: Page | PageText, head: Head
) -> list[DayWeather]:
    origin = Origin(head.file, head.line + 1, page.weather_column)
    day = head.when.first
    return [DayWeather(day, place, name, value, unit, origin) for place, name, value, unit in said]
