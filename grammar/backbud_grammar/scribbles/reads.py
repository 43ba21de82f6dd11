"""Says a piece of a line in the words of an act's table, and tells whether it may bear on it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

from backbud_grammar.details import part_at_commas
from backbud_grammar.elsewhen import elsewhen, not_by_us
from backbud_grammar.forms import ActForm
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.languages import LANGUAGE
from backbud_grammar.limiters import limiter_in
from backbud_grammar.parse import Details
from backbud_grammar.sayings import saying
from backbud_grammar.scribbles.act_phrases import ActPhrases, first_word, phrases_of
from backbud_grammar.scribbles.asides import weather_may_do_it
from backbud_grammar.scribbles.by_card import feed_by_card
from backbud_grammar.scribbles.details_said import said_as, words_said
from backbud_grammar.scribbles.draft import Said
from backbud_grammar.scribbles.empty_talk import is_empty_talk, is_of_a_month
from backbud_grammar.scribbles.hearsay import is_hearsay
from backbud_grammar.scribbles.named import Handles
from backbud_grammar.scribbles.observed import is_only_seen
from backbud_grammar.scribbles.one_thing import names_one_thing
from backbud_grammar.scribbles.openings.row import names_pest
from backbud_grammar.scribbles.placed import part_said
from backbud_grammar.scribbles.plain import ASIDE, is_filler, is_ready, is_state, plain_words
from backbud_grammar.scribbles.sentences import halves
from backbud_grammar.scribbles.spelled import without_idle_words
from backbud_grammar.scribbles.turns import turns
from backbud_grammar.sightings import is_sighting, is_size_of_wound, is_weather, looks_so

# A longer piece is a sentence.
MOST_IN_TWO = 8
# No phrase of a closed list has more words.
MOST_IN_PHRASE = 4
# What is left on stays there, and is no side: `wire left on L1`.
_STAYS = re.compile(
    r"\bleft (?:on|over|in|alone|as|behind|there|out|for|till|until)\b", re.IGNORECASE
)
# It is where, and makes nothing less.
_HALF = re.compile(r"\b(?:top|upper|lower|bottom|left|right|outer|inner) half\b", re.IGNORECASE)
# Works of which a name alone tells whose hands it was; of money it may be another's.
_BY_HAND = ("branches", "roots", "feed", "water", "health", "shelter")
_TWO_PARTS = re.compile(r"\d,? (?:left|right) \d| [+&] ", re.IGNORECASE)
_AGAIN = re.compile(r"\bagain$", re.IGNORECASE)
_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")
# What is put on a tree, comes off it or is paid for it, beside whatever was done: it is its own
# work, and nobody may pass over it.
OF_ITS_OWN = plain_words(
    "wire wires wired unwired rewired wiring unwiring rewiring guy guys guyed unguyed raffia "
    "unwrapped untied euro euros quid dollars bucks pence"
)
# What frost or heat may be why it was not done.
_FOR_MILD_DAYS = ("unprotected", "unshaded")
# What was put on and did not stay.
_GONE = re.compile(
    r"(?:all |now |it |both )*(?:gone|blown (?:off|away)|blew (?:off|away)|c[ao]me off|fell off)"
    r"(?: again| already| since)?",
    re.IGNORECASE,
)
# Who says something about it may say that it was done.
_SAID = re.compile(r"\b(?:says?|said)\b", re.IGNORECASE)
# It may be the pot that is named, and so the one that the tree came out of.
_BROKE = re.compile(
    r"(?:it |is |was |has |all |now |badly )*"
    r"(?:cracked|broken|broke|chipped|split|smashed|leaks|leaking)",
    re.IGNORECASE,
)
_BINNED = re.compile(
    r"(?:all |now |then )*(?:thrown (?:away|out)|binned|chucked|composted|discarded|given away)",
    re.IGNORECASE,
)
_STILL_ON = re.compile(
    r"(?:the )?(?:other |all )?(?:wires?|guys?|raffia)(?: (?:is|are|all|still))*"
    r" (?:stays?|left|kept|on)(?: on)?",
    re.IGNORECASE,
)
_BESIDE_A_PRICE = re.compile(
    r"(?:plus|minus|less|with|without|incl\.?|excl\.?|including|excluding|and|\+|&) "
    r"|.* (?:extra|included|on top|separate|apart)$",
    re.IGNORECASE,
)


class PieceReader:
    """Reads pieces by the table of acts; each is read once and remembered."""

    def __init__(
        self,
        details: Details,
        handles: Handles,
        kind_of: Callable[[str], str],
        language: int = LANGUAGE,
    ) -> None:
        self.details, self.handles, self.kind_of = details, handles, kind_of
        self.language = language
        self._said: dict[tuple[str, str], Said | None] = {}
        self._bears: dict[tuple[str, str], bool] = {}
        self._slips: dict[tuple[str, str], bool] = {}
        self._known: dict[str, ActPhrases] = {}
        # What is a detail of some act: where it is none of this act, another may be missing.
        self._every_phrase = frozenset(
            phrase
            for act in details.acts.values()
            for phrase in self.of_act(act).phrases
            if " " in phrase
        )

    def said(self, form: ActForm, text: str) -> Said | None:
        """A piece as details of the act, and the words kept beside them; None where it is none."""
        if form.prose or form.names_act:
            return None
        key = (form.word, text)
        if key not in self._said:
            self._said[key] = self._all_said(form, text)
        return self._said[key]

    def _all_said(self, form: ActForm, text: str) -> Said | None:
        out: list[str] = []
        kept: list[str] = []
        for _, piece in part_at_commas(text):
            if is_hearsay(piece):
                # `in the notes` is no fleece.
                return None
            one = (
                self._one(form, piece) or self._in_halves(form, piece) or self._in_two(form, piece)
            )
            if one is None:
                return None
            out += one[0]
            kept += one[1]
        return tuple(out), tuple(kept)

    def _one(self, form: ActForm, piece: str) -> tuple[list[str], list[str]] | None:
        for said, kept in self._ways(form, piece):
            if not said:
                # `repotted this spring` may have been weeks ago.
                if form.bearing == "does" and elsewhen((piece,)):
                    return None
                return [], [*kept] if kept else [piece]
            if self.reads(form, said):
                if said.startswith("into ") and _AGAIN.search(piece):
                    # `blue again`: the pot that it stood in.
                    return ["same pot"], [piece]
                return [part for _, part in part_at_commas(said)], [*kept]
        return None

    def _in_two(self, form: ActForm, piece: str) -> tuple[list[str], list[str]] | None:
        """A piece that is two details in a row: `hard to 2 buds`."""
        words = piece.split()
        if not 2 <= len(words) <= MOST_IN_TWO or form.bearing == "ends" or limiter_in(piece):
            return None
        if _STAYS.search(piece) or (
            words[-1].casefold() == "left"
            and (any(map(str.isdigit, piece)) or words[-2].casefold() in ("branch", "branches"))
        ):
            # A figure and `left` tell what remains.
            return None
        if not all(self.is_known(form, word) for word in words):
            return None
        for size in range(len(words) - 1, 0, -1):
            first = self._one(form, " ".join(words[:size]))
            if first is None or not first[0]:
                continue
            second = self.said(form, " ".join(words[size:]))
            if any(one.startswith("except ") for one in first[0]):
                # `low ones left and right` may be where they are.
                continue
            if second is not None and second[0]:
                return [*first[0], *second[0]], [*first[1], *second[1]]
        return None

    def _in_halves(self, form: ActForm, piece: str) -> tuple[list[str], list[str]] | None:
        """A piece that is details with `+` or `and` between them: `quilt over + mulch round it`."""
        both = halves(piece)
        if len(both) < 2 or form.bearing == "ends":
            return None
        read = [one for half in both if (one := self._one(form, half)) is not None]
        if len(read) < len(both):
            return None
        if any(one.startswith("except ") for out, _ in read for one in out):
            # `low ones left and right` may be where they are.
            return None
        return [one for out, _ in read for one in out], [one for _, kept in read for one in kept]

    def _ways(self, form: ActForm, piece: str) -> Iterator[tuple[str, tuple[str, ...]]]:
        """The piece as it is, with handles, in the table's words, without fillers."""
        named = self.handles.spelled(piece)
        aside = tuple(found[0] for found in ASIDE.finditer(named))
        bare, kept = without_idle_words(ASIDE.sub(" ", named), is_filler)
        kept = (*kept, *aside)
        for text, beside in {piece: (), named: (), bare: kept}.items():
            if not text and beside:
                yield "", beside
            if not text:
                continue
            yield text, beside
            if self.kind_of(text) == "person" and form.bearing == "does" and form.work in _BY_HAND:
                yield f"by {text.casefold()}", beside
            if form.work == "feed" and (by_card := feed_by_card(text, self.handles, self.kind_of)):
                yield by_card, beside
            if self.kind_of(text) == "person" and form.word in ("billed", "quoted"):
                yield f"to {text.casefold()}", beside
            if not any(self.is_known(form, word) for word in text.split()):
                continue
            yield from ((said, beside) for said in said_as(form.word, text, self.language))
            if (
                form.bearing != "ends"
                and any(one.part for one in form.forms)
                and not _STAYS.search(piece)
            ):
                part = part_said(text)
                # What stays on a part only is on it already.
                if part and not (form.undone_by and text[-5:].casefold() == " only"):
                    yield part, beside

    def is_known(self, form: ActForm, word: str) -> bool:
        """Whether a word may be of a detail of the act, in whatever words it is said."""
        stem = word.casefold().strip(".,;:()'")
        return (
            not stem.isalpha()
            or stem in self.of_act(form).words
            or stem in words_said(form.word)
            or stem in PART_WORDS
            or is_filler(stem)
            or bool(self.kind_of(stem))
        )

    def reads(self, form: ActForm, text: str) -> bool:
        """Whether the table reads a text to its last word, and finds nothing wrong in it."""
        if not self._may_read(form, text):
            return False
        details = self.details.understood(form, text)
        if not details or (form.undone_by and "inch" in text):
            # No wire and no tie is so thick.
            return False
        for detail in details:
            part = _HALF.sub("", detail.part)
            if detail.name == "against" and (limiter_in(detail.words) or turns(detail.words)):
                return False
            if (form.undone_by or form.word == "unwired") and _TWO_PARTS.search(part):
                # `on L1 L3` is two branches.
                return False
            if detail.part and (limiter_in(part) or self._names_tree(detail.part)):
                return False
            if detail.handle and not self._is_meant(form, detail.name, detail.handle):
                return False
        return True

    def _may_read(self, form: ActForm, text: str) -> bool:
        """Whether each piece begins as some detail does, which is quick to tell."""
        known = self.of_act(form)
        return known.is_open or all(
            not piece
            or not piece[0].isalpha()
            or (first := first_word(piece)) in known.words
            or bool(self.kind_of(first))
            for _, piece in part_at_commas(text)
        )

    def _names_tree(self, part: str) -> bool:
        return any(self.kind_of(word) == "tree" for word in part.split())

    def puts_on(self, form: ActForm, text: str) -> bool:
        """Whether a piece says what is put on, and not only where or by whom."""
        if not self._may_read(form, text):
            return False
        details = self.details.understood(form, text)
        return any(detail.name not in ("by", "part") for detail in details)

    def _is_meant(self, form: ActForm, name: str, handle: str) -> bool:
        """Whether a handle is one of the kind that the detail refers to."""
        kind = self.kind_of(handle)
        return any(one.name == name and kind in one.refers for one in form.forms)

    def bears(self, form: ActForm, piece: str) -> bool:
        """Whether words that are no detail may still change what the act says."""
        key = (form.word, piece)
        if key not in self._bears:
            self._bears[key] = self._may_bear(form, piece)
        return self._bears[key]

    def _may_bear(self, form: ActForm, piece: str) -> bool:
        if re.search(r"[\d?\"]", piece) or (limiter_in(piece) and not is_only_seen(piece)):
            return True
        if elsewhen((piece,)) or not_by_us((piece,)) or turns(piece):
            return True
        if is_empty_talk(piece) and not (form.work == "business" and is_of_a_month(piece)):
            return True
        if (
            _SAID.search(piece)
            or weather_may_do_it(form, piece)
            or names_one_thing(piece)
            or saying(form.word, piece)
        ):
            return True
        if form.word == "checked" and names_pest(piece):
            return True
        if is_state(piece) or is_ready(piece) or is_only_seen(piece):
            return False
        if "potting" in form.traits and _BROKE.fullmatch(piece):
            return True
        words = [word.casefold() for word in _WORD.findall(piece)]
        if (form.undone_by and _GONE.fullmatch(piece)) or (
            form.work == "propagation" and _BINNED.fullmatch(piece)
        ):
            return True
        if (not OF_ITS_OWN.isdisjoint(words) and not _STILL_ON.fullmatch(piece)) or (
            form.work == "business" and _BESIDE_A_PRICE.match(piece)
        ):
            return True
        if not PART_WORDS.isdisjoint(words) and any(
            one.part or one.reader in ("wedges", "zone") for one in form.forms
        ):
            return True
        if any(self.kind_of(word) for word in self.handles.spelled(piece).split()):
            return True
        known, text = self.of_act(form).phrases, f" {' '.join(words)} "
        if any(f" {phrase} " in text for phrase in known) or piece.casefold() in self._every_phrase:
            return True
        return self._is_like_a_phrase(form, words) or any(
            self.is_slip(form, word) for word in words
        )

    def sighting(self, form: ActForm, piece: str) -> str:
        """What was seen beside a work, as a detail of its act; "" where a piece says no such thing,
        or may say what was done."""
        if not any(one.reader == "sighting" for one in form.forms) or '"' in piece:
            return ""
        if form.work == "branches":
            # `pruned, 3 galls` may have cut them.
            return f'observed "{piece}"' if is_size_of_wound(piece) else ""
        is_seen = is_sighting(piece, self.of_act(form).words) or (
            form.word not in _FOR_MILD_DAYS and (is_weather(piece) or looks_so(piece))
        )
        return f'observed "{piece}"' if is_seen else ""

    def is_like_a_detail(self, form: ActForm, words: Sequence[str]) -> bool:
        """Whether words, in small letters, are together a detail of some act, or like one of this
        one in letters."""
        return " ".join(words) in self._every_phrase or self._is_like_a_phrase(form, words)

    def _is_like_a_phrase(self, form: ActForm, words: Sequence[str]) -> bool:
        # Hardly any words are written twice in a row, so nothing is remembered of them.
        return 1 < len(words) <= MOST_IN_PHRASE and self.of_act(form).is_near(" ".join(words))

    def is_slip(self, form: ActForm, word: str) -> bool:
        """Whether a word may be a slip of the pen for one of the act's own."""
        found = self._slips.get((form.word, word))
        if found is None:
            found = self._slips[form.word, word] = self.of_act(form).is_near(word)
        return found

    def of_act(self, form: ActForm) -> ActPhrases:
        known = self._known.get(form.word)
        if known is None:
            known = self._known[form.word] = phrases_of(form)
        return known
