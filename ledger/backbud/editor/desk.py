"""One journal as editors have it open: their texts, what was read of it last, and who reads it.

The problems of the pages that were read come first; what the whole history says comes once nothing
more is typed. A request is answered from what was read last, and never waits for a reading unless
it asks to. Nothing is written, whether anybody vouched for the folder or not.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Collection, Mapping
from concurrent.futures import Future
from datetime import date

from msgspec import Struct

from backbud.collection.meant_by import trees_meant
from backbud.collection.standing_on import standing_on
from backbud.collection.whereabouts import Histories
from backbud.editor.files import JournalFiles, uri_of
from backbud.editor.letters import Letters
from backbud.editor.pieces import SectionReader, TextPieces
from backbud.editor.text import UTF_16, OpenText
from backbud.editor.tokens import Speech, plain_speech
from backbud.editor.worker import Worker
from backbud.journal.problems import as_problems
from backbud.journal.read import Journal
from backbud.memo import Memo
from backbud.plan.one_by_one import OneByOne, PlannedTree
from backbud.session import Session, open_session
from backbud.words import in_words
from backbud_grammar.outline import Known
from backbud_grammar.problems import Problem

# So long nothing more may be typed before the pages are read, and before the history is replayed.
QUIET_S, CALM_S = 0.02, 0.2
# What is done first. Whoever waits for an answer comes before the replay, and that before what
# nobody has asked for yet.
READ, ASKED, STAND, AHEAD = range(4)
MOST_DAYS, MOST_PLANS = 6, 500


class Superseded(Exception):
    """A newer text came while an older one was replayed."""


class Snapshot(Struct, frozen=True):
    """What was read of a journal at one moment. `texts`: as editors had them then."""

    number: int
    journal: Journal
    texts: Mapping[str, OpenText]
    speech: Speech


class Standing(Struct, frozen=True):
    """A snapshot and its history, replayed."""

    snapshot: Snapshot
    session: Session

    @property
    def histories(self) -> Histories:
        return self.session.histories

    def here_on(self, day: date) -> dict[str, str]:
        """The trees that were here on a day, each with its place."""
        things = self.snapshot.journal.things
        found = {h: standing_on(at, things, day) for h, at in self.histories.trees.items()}
        return {h: stand.place for h, stand in found.items() if stand.standing == "here"}


class ReadProblems(Struct, frozen=True):
    """The problems of a snapshot. `whole`: of the whole history, too; else of its pages alone."""

    snapshot: Snapshot
    found: tuple[Problem, ...]
    whole: bool


class Desk:
    """One journal that is open in an editor."""

    def __init__(
        self,
        folder: str,
        ask_today: Callable[[], date],
        tell: Callable[[ReadProblems], None],
        told_failure: Callable[[str], None],
        encoding: str = UTF_16,
    ) -> None:
        """`tell`, `told_failure`: are called in the reading thread."""
        self.folder, self.encoding = folder, encoding
        self._ask_today, self._tell, self._told_failure = ask_today, tell, told_failure
        self.files = JournalFiles(folder)
        self.texts: dict[str, OpenText] = {}
        self.worker = Worker("journal")
        self._kept = Memo()
        self._reading = SectionReader(Known.of(plain_speech().acts))
        self._pieces: dict[str, TextPieces] = {}
        # Files that no editor has open, each with the bytes that it was made from.
        self._on_disk: dict[str, tuple[bytes, OpenText]] = {}
        self._letters: dict[str, Letters] = {}
        self._settled = False
        # What was said of plugins that nobody trusts.
        self._left_out = ""
        self._number = 0
        self._plain = plain_speech()
        # Replaced as a whole by the reading thread.
        self.snapshot: Snapshot | None = None
        self.standing: Standing | None = None
        self._latest: tuple[Snapshot, Session] | None = None
        self._here: tuple[tuple[int, date], dict[str, str]] = (0, date.min), {}
        self._by_day: dict[tuple[int, date], OneByOne] = {}
        self._plans: dict[tuple[int, str, date], PlannedTree] = {}
        self._meant: dict[tuple[int, str, int], list[str]] = {}

    @property
    def today(self) -> date:
        return self._ask_today()

    # -------------------------------------------------------------- texts

    def start(self) -> Future[None]:
        """Read the journal for the first time."""
        self.worker.start()
        return self._ask_all(0.0, 0.0)

    def put(self, text: OpenText) -> None:
        """An editor has a text so now."""
        self.texts = {**self.texts, text.name: text}
        self._ask_all(QUIET_S, CALM_S)

    def close(self, name: str) -> None:
        """No editor has it open any more: what lies on the disk counts."""
        self.texts = {key: text for key, text in self.texts.items() if key != name}
        self.look_again()

    def look_again(self) -> None:
        """Files on the disk may have changed."""
        self.worker.ask("look", self.files.look_again, READ)
        self._ask_all(QUIET_S, CALM_S)

    def text(self, name: str) -> OpenText | None:
        """A file as it stands now: as an editor has it, else as it was read."""
        found = self.texts.get(name)
        if found is not None:
            return found
        snapshot = self.snapshot
        data = snapshot.journal.texts.get(name) if snapshot is not None else None
        if data is None:
            return None
        known = self._on_disk.get(name)
        if known is None or known[0] is not data:
            uri, written = uri_of(self.folder, name), data.decode("utf-8", "replace")
            known = data, OpenText.of(name, uri, None, written, self.encoding)
            self._on_disk[name] = known
        return known[1]

    @property
    def names(self) -> list[str]:
        """The text files of the diary and the cards, as far as they were read."""
        if self.snapshot is None:
            return []
        journal = self.snapshot.journal
        return [
            name
            for name in journal.texts
            if name.lower().endswith(".txt") and name not in journal.weather_files
        ]

    def pieces(self, text: OpenText) -> TextPieces:
        """The pages and cards of a text."""
        known = self._pieces.get(text.name)
        if known is None or known.text is not text:
            known = TextPieces(text, self._reading)
            self._pieces[text.name] = known
        return known

    def letters(self, text: OpenText) -> Letters:
        """A text by its letters."""
        known = self._letters.get(text.name)
        if known is None or known.text is not text:
            known = self._letters[text.name] = Letters(text)
        return known

    def _warm(self) -> None:
        """Have ready what is asked for soon; runs in the reading thread once nobody waits."""
        self.here_on(self._here[0][1])
        _ = self.species_names
        for opened in self.texts.values():
            for _ in self.pieces(opened).all():
                if self.worker.is_wanted(AHEAD):
                    return
        for name in self.names:
            text = self.text(name)
            if text is not None and not self.worker.is_wanted(AHEAD):
                self.letters(text)

    def here_on(self, day: date) -> dict[str, str]:
        """The trees that were here on a day, each with its place; none before all is read."""
        standing = self.standing
        if standing is None:
            return {}
        key = standing.snapshot.number, day
        if self._here[0] != key:
            self._here = key, standing.here_on(day)
        return self._here[1]

    @property
    def species_names(self) -> list[str]:
        """The species that are known here, once the history was replayed."""
        return self.standing.session.pack.names if self.standing is not None else []

    def is_current(self, text: OpenText) -> bool:
        """Whether the history was replayed with this very text."""
        standing = self.standing
        return standing is not None and standing.snapshot.texts.get(text.name) is self.texts.get(
            text.name
        )

    @property
    def speech(self) -> Speech:
        return self.snapshot.speech if self.snapshot is not None else self._plain

    # -------------------------------------------------------------- reading

    def _ask_all(self, quiet_s: float, calm_s: float) -> Future[None]:
        self.worker.ask("read", lambda: self._contained(self._read), READ, quiet_s)
        return self.worker.ask("stand", lambda: self._contained(self._stand), STAND, calm_s)

    def _contained(self, step: Callable[[], None]) -> None:
        """Take a step; where it fails by a fault of ours, that is told, and the last good one
        counts."""
        try:
            step()
        except OSError as error:
            self._told_failure(in_words(error))
        except Exception as error:
            from backbud.fault_report import what_happened

            self._told_failure(f"A fault of backbud itself: {what_happened(error)}.")

    def _read(self) -> None:
        """Read the pages; runs in the reading thread."""
        texts = self.texts
        session = open_session(
            self.folder,
            self._ask_today(),
            kept=self._kept,
            keeps=False,
            source=self.files.at_once(texts),
            between=self._between,
        )
        journal = session.journal
        if session.plugins.left_out != self._left_out:
            self._left_out = session.plugins.left_out
            if self._left_out:
                self._told_failure(self._left_out)
        self._number += 1
        speech = Speech(journal.details, journal.own_words, journal.southern)
        snapshot = Snapshot(self._number, journal, texts, speech)
        self.snapshot, self._latest = snapshot, (snapshot, session)
        if self._reading.known.words != frozenset(journal.acts):
            # A trusted plugin has acts of its own.
            self._reading = SectionReader(Known.of(journal.acts))
            self._pieces = {}
        self._tell(ReadProblems(snapshot, as_problems(journal.flaws, journal.texts), False))

    def _stand(self) -> None:
        """Replay the history, and find all that is wrong; runs in the reading thread."""
        is_stale = self._latest is None or self._latest[0].texts is not self.texts
        # Not every editor tells what changed on the disk.
        if self.files.is_changed() or is_stale:
            self._read()
        if self._latest is None:
            return
        snapshot, session = self._latest
        try:
            found = (*session.problems(), *session.words_kept())
        except Superseded:
            return
        self.standing = Standing(snapshot, session)
        self._kept.end()
        self._by_day, self._plans = {}, {}
        if not self._settled:
            # What was read first stays: the collector need not look at it again and again.
            self._settled = True
            gc.collect()
            gc.freeze()
        self._tell(ReadProblems(snapshot, found, True))
        self.worker.ask("warm", self._warm, AHEAD)

    def _between(self) -> None:
        if self.worker.is_wanted(ASKED):
            raise Superseded

    # -------------------------------------------------------------- reckoning

    def planned(self, handle: str, day: date, rank: int = ASKED) -> Future[PlannedTree]:
        """A tree and what falls due on it, as it was known on a day."""
        standing = self.standing
        known = self.known_plan(handle, day)
        if known is not None:
            done: Future[PlannedTree] = Future()
            done.set_result(known)
            return done
        name = f"plan {handle} {day}"
        return self.worker.ask(name, lambda: self._planned(standing, handle, day), rank, join=True)

    def reckoned(self) -> Future[None] | None:
        """Done once all trees that were asked for ahead are planned; None where none are."""
        if not self.worker.waits(AHEAD):
            return None
        return self.worker.ask("all ahead", lambda: None, AHEAD + 1, join=True)

    def meant(self, file: str, subjects: int, acts: Collection[int]) -> list[str]:
        """The trees in whose history a block stands, by the numbers of its lines (from 1)."""
        standing = self.standing
        if standing is None:
            return []
        key = standing.snapshot.number, file, subjects
        if key not in self._meant:
            if len(self._meant) >= MOST_PLANS:
                self._meant = {}
            self._meant[key] = trees_meant(standing.histories, file, subjects, acts)
        return self._meant[key]

    def known_plan(self, handle: str, day: date) -> PlannedTree | None:
        """The same where it was reckoned already."""
        standing = self.standing
        if standing is None:
            return None
        return self._plans.get((standing.snapshot.number, handle, day))

    def _planned(self, standing: Standing | None, handle: str, day: date) -> PlannedTree:
        if standing is None or self.standing is not standing:
            standing = self.standing
        if standing is None:
            raise KeyError(handle)
        number, session = standing.snapshot.number, standing.session
        key = (number, handle, day)
        found = self._plans.get(key)
        if found is not None:
            return found

        def work() -> PlannedTree:
            by = self._by_day.get((number, day))
            if by is None:
                if len(self._by_day) >= MOST_DAYS:
                    del self._by_day[next(iter(self._by_day))]
                by = self._by_day[number, day] = session.one_by_one(day)
            return by.of(handle)

        # A tree of which nothing changed is planned as before, whatever else was written.
        things = standing.snapshot.journal.things
        found = session.by_tree.once(f"one by one {day}", handle, standing.histories, things, work)
        if len(self._plans) >= MOST_PLANS:
            self._plans = {}
        self._plans[key] = found
        return found
