"""Reads acts by the table of acts; each text is judged once, and what was sound is remembered."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING

from backbud.journal.act_judge import ActJudge, held_said
from backbud.journal.act_places import in_its_place
from backbud.journal.by_example import ByExample
from backbud.journal.by_pieces import ByPieces
from backbud.journal.dated import Said, SoundActs
from backbud.journal.far import flaw_of_far
from backbud.journal.no_act import NoAct
from backbud.journal.own_words import NO_OWN_WORDS, OwnWords
from backbud.journal.things import Things
from backbud_grammar.act_reading import prose_reading
from backbud_grammar.dates import WrittenDate
from backbud_grammar.forms import NO_ACT, ActForm
from backbud_grammar.held_back import HELD
from backbud_grammar.languages import ALWAYS_NEWEST, LANGUAGE, Languages, table_of
from backbud_grammar.outline import Known, act_of_lines
from backbud_grammar.own_words import Expanded, expanded
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw
from backbud_grammar.remark_limiters import doubt_of, turns_nothing
from backbud_grammar.syntax import Act, Subjects

if TYPE_CHECKING:
    from backbud_grammar.scribbles.words_beside import WordsBeside

NOBODY = Subjects(())
_LOOK_AT_IT = "", False
# No page of a hand has more lines in which something is wrong.
MOST_UNSOUND = 1000


class ActReader:
    """Reads acts against the table of acts, and tells what is wrong in each.

    `recall`: what an earlier run found sound, by word and text. `found_sound`: what this process
    judged so or recalled, texts and pieces of texts; more is added. `own`: the keeper's own words.
    `languages`: by which language each day's page is read; `language`: the one that this reads by.
    `gallon`: of which country. `language_known`: what pages are outlined by, if not by `details`.
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
        language_known: Known | None = None,
    ) -> None:
        self.things, self.details, self.own = things, details, own
        self.languages, self.language, self.gallon = languages, language, gallon
        self._by_language: dict[int, ActReader] = {language: self}
        self._known_acts = Known.of(details.acts)
        # What pages are outlined by, of whichever language their acts are.
        self.language_known = language_known or self._known_acts
        self.found_sound = found_sound
        # What texts say that are sound, by word and text; of many only the pieces were judged.
        self._texts: SoundActs = {}
        self._recall = recall
        self._prose = {word: form.word for word, form in details.acts.items() if form.prose}
        self.judge, self.no_act = ActJudge(things, details), NoAct(details.acts, own)
        # The last texts in which something was wrong, and what of them was read, without hints.
        self._unsound: dict[tuple[str, str], tuple[Said, tuple[Flaw, ...]]] = {}
        self._by_example = ByExample(details.acts, self.judge.kind_of)
        # Tells what is kept beside an act; made where a first line is not sound as it stands.
        self.beside: WordsBeside | None = None
        self._by_pieces = ByPieces(details, self._sound, self.judge.kind_of, self._keep)

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
                self.language_known,
            )
            self._by_language[language] = found
        return found

    def subjects(self, text: str) -> Subjects:
        read = self.details.subjects(text) if text else NOBODY
        return NOBODY if isinstance(read, Flaw) else read

    def act_on(self, lines: Sequence[str], first: int) -> Act:
        return act_of_lines(lines, first, self.language_known, [])

    def meant(self, act: Act, when: WrittenDate) -> Act:
        """An act in words of the language, where own words of its page's day stand in it."""
        found = self.expanded(act, when)
        return act if found is None else found.act

    def expanded(self, act: Act, when: WrittenDate) -> Expanded | None:
        """The same, with where each word stands as it is written; None where there are none."""
        if not self.own.words:
            return None
        return expanded(act, self.own.on(when.first), self._known_acts)

    def said(self, act: Act, *, held: bool) -> Said:
        form = self.form(act.word)
        assert form is not None
        if held:
            return held_said(form, act.text)
        if form.prose:
            return Said(form.word, prose_reading(act.text).details, "")
        known = self._sound_text(form, act.word, act.text)
        if known is None:
            known, _ = self.judge.judged(form, act.word, act.text, hints=False)
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
        own = self.expanded(act, when)
        form = self.form((act if own is None else own.act).word)
        if form is None:
            return "", (self.no_act.flaw(act if own is None else own.act, so_far),)
        if own is not None:
            act = own.act
        flaws: tuple[Flaw, ...] = ()
        known = self._known(act.word, act.text) or self._sound_text(form, act.word, act.text)
        if known is None:
            found = None if hints else self._unsound.get((act.word, act.text))
            known, flaws = found or self.judge.judged(form, act.word, act.text, hints=hints)
            if flaws and not hints and found is None:
                self._keep_unsound(act.word, act.text, known, flaws)
            if flaws:
                flaws = tuple([in_its_place(one, act, own) for one in flaws])
            elif not form.prose:
                self.found_sound.setdefault(act.word, {})[act.text] = known
        flaw = self._taken_back(form, act, known, when)
        if flaw is not None:
            return HELD, (*flaws, in_its_place(flaw, act, own))
        return known.act, flaws

    def past_of(self, act: Act, when: WrittenDate) -> tuple[str, bool]:
        """The past form of an act that is sound as it stands, and whether on a page of any day; ""
        where it must be looked at.

        Most of a diary is: prose, and what was written before in the same words or other ones.
        """
        if self.own.words:
            act = self.meant(act, when)
        past, on_any_day = self._past_of(act.word, act.text, act.remark, when)
        if act.left_out and act.word not in self._prose:
            # What was refused below it may hold it back all the same.
            return _LOOK_AT_IT
        return past, on_any_day and not self.own.words

    def past_of_words(
        self, word: str, text: str, remark: str, when: WrittenDate
    ) -> tuple[str, bool]:
        """The same of an act that stands on one line, by its parts."""
        if self.own.words:
            return self.past_of(Act(word, text, remark, 0, 3, 3), when)
        return self._past_of(word, text, remark, when)

    def _past_of(self, word: str, text: str, remark: str, when: WrittenDate) -> tuple[str, bool]:
        """`past_of`, of words of the language."""
        texts = self._texts.get(word)
        known = texts.get(text) if texts is not None else None
        if known is None:
            prose = self._prose.get(word)
            if prose is not None:
                return prose, True
            form = self.form(word)
            beside = self.beside
            if beside is not None and form is not None and beside.are_kept(form, word, text):
                return _LOOK_AT_IT
            known = None if form is None else self._sound_text(form, word, text)
            if known is None:
                return _LOOK_AT_IT
        # A day far from this page may hold it back all the same.
        if known.says_when and when.first > date.min and flaw_of_far(known.details, when):
            return _LOOK_AT_IT
        if remark and not turns_nothing(remark):
            act = Act(word, text, remark, 0, 3, 3)
            if doubt_of(self.details.acts[known.act], act) is not None:
                return _LOOK_AT_IT
        return known.act, not known.says_when

    def past_of_prose(self, word: str) -> str:
        """The past form of an act behind which all is words, on any day; "" where it is none, or
        own words may stand there."""
        return "" if self.own.words else self._prose.get(word, "")

    def is_prose(self, word: str) -> bool:
        """Whether what follows an act word is all words."""
        return word in self._prose or word.casefold() in self._prose

    def _sound_text(self, form: ActForm, word: str, text: str) -> Said | None:
        """What an act says, where nothing in its own text is wrong, put together of its pieces."""
        if form.prose:
            return None
        texts = self._texts.get(word)
        if texts is None:
            texts = self._texts[word] = {}
        known = texts.get(text)
        if known is None:
            known = self._by_pieces.said(form, word, text)
            if known is not None:
                texts[text] = known
        return known

    def _sound(self, form: ActForm, word: str, text: str) -> Said | None:
        """What an act of this text, or a piece of one, says; None where anything is wrong in it."""
        known = self._known(word, text)
        if known is not None:
            return known
        said = self._by_example.said(word, text)
        if said is not None:
            self._keep(word, text, said)
            return said
        said, flaws = self.judge.judged(form, word, text, hints=False)
        if flaws:
            # It is asked for soon, by whoever looks at the whole page.
            self._keep_unsound(word, text, said, flaws)
            return None
        self._keep(word, text, said)
        self._by_example.learn(form, word, text, said)
        return said

    def _keep(self, word: str, text: str, said: Said) -> None:
        """Keep that a text, or a piece of one, is sound."""
        self.found_sound.setdefault(word, {})[text] = said

    def _keep_unsound(self, word: str, text: str, said: Said, flaws: tuple[Flaw, ...]) -> None:
        if len(self._unsound) >= MOST_UNSOUND:
            self._unsound.clear()
        self._unsound[word, text] = said, flaws

    def form(self, word: str) -> ActForm | None:
        """The row of an act as it is written, in any case of its letters; None where it is none."""
        return self.details.acts.get(word) or self.details.acts.get(word.casefold())

    def _known(self, word: str, text: str) -> Said | None:
        """What an act says by a text that was judged sound before."""
        texts = self.found_sound.get(word)
        if texts is None:
            texts = self.found_sound[word] = {}
        known = texts.get(text)
        if known is None:
            known = self._recall(word, text)
            if known is not None:
                texts[text] = known
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


def _nothing(word: str, text: str) -> None:
    """Nothing is remembered."""
