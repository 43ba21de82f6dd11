"""Finds the openings that a piece of a line begins with, of all that the tables have."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import date

from backbud_grammar.forms import ActForm
from backbud_grammar.languages import LANGUAGE
from backbud_grammar.scribbles.days import hangs_on_page, when_of
from backbud_grammar.scribbles.draft import DONE_TO, NOUN
from backbud_grammar.scribbles.named import Handles
from backbud_grammar.scribbles.needed import needed_words
from backbud_grammar.scribbles.openings import OPENINGS
from backbud_grammar.scribbles.openings.nouns import NOUNS
from backbud_grammar.scribbles.openings.row import ActOpening, compiled_pattern

# So many are held against a piece at once; one by one only where one of them fits.
TOGETHER = 40
# Marks a skip that counts only with its reason: the season is closed by it.
WITH_REASON = "\0"
# Labels that an opening ends in; what stands behind goes on with them.
_JOINED = ("on", "from", "to")
# An act that a piece opens: its word, its row, what stands behind it, its remark.
Opened = tuple[str, ActForm, str, str]


class Opener:
    """All openings, with the places and people of a journal."""

    def __init__(
        self, acts: Mapping[str, ActForm], handles: Handles, language: int = LANGUAGE
    ) -> None:
        self.acts, self.handles = acts, handles
        names = {
            "@PLACE@": handles.places.pattern,
            "@PERSON@": handles.people.pattern,
            "@POT@": handles.pots.pattern,
        }
        self._rows = [
            (row, _with(row.pattern, names)) for row in OPENINGS if row.language <= language
        ]
        # And what is written in two words, as acts and handles are.
        in_two = [re.escape(name) for name in (*acts, *handles.written) if " " in name]
        of_journal = {pattern for row, pattern in self._rows if pattern != row.pattern}
        self.needed = needed_words(
            (*(pattern for _, pattern in self._rows), *in_two), frozenset({*of_journal, *in_two})
        )

        # A handle may hold a word for a day that it is not written with.
        self._names_day = any(map(hangs_on_page, handles.written.values()))

    def hangs_on_page(self, text: str) -> bool:
        """Whether what a text opens may hang on the day of its page."""
        return self._names_day or hangs_on_page(text)

    def _find(self, text: str) -> Iterator[tuple[ActOpening, re.Match[str]]]:
        """The openings that fit, as the tables have them in order."""
        for at in self.needed.may_fit(text):
            if at >= len(self._rows):
                return
            row, pattern = self._rows[at]
            found = compiled_pattern(pattern).match(text)
            if found is not None:
                yield row, found

    def opened(self, piece: str, page: date | None) -> Opened | None:
        """The act that a piece begins with, its row, and what stands behind it."""
        acts = self.acts
        word, _, rest = piece.partition(" ")
        second = rest.partition(" ")
        both = f"{word} {second[0]}".casefold().rstrip(":.")
        # A word of the language stands before any other way of saying it, but for a longer one.
        plain = word.rstrip(":.").casefold()
        size = len(both) if second[0] and both in acts else len(word) if plain in acts else 0
        named = self.handles.spelled(piece)
        for opening, found in self._find(named):
            longer = not size or len(found[0].rstrip(" :.")) > size - opening.instead
            if longer or (opening.act == "checked" and size == len(word)):
                return self._by(opening, found, named, page)
        if second[0] and both in acts:
            # With its hyphen, so that a bare form is known as one.
            joined = both.replace(" ", "-")
            return joined if joined in acts else both, acts[both], second[2], ""
        if plain in acts and (rest or not acts[plain].needs_detail):
            return plain, acts[plain], rest, ""
        return None

    def _by(
        self, opening: ActOpening, found: re.Match[str], piece: str, page: date | None
    ) -> Opened | None:
        form = self.acts.get(opening.act)
        if form is None:
            return None
        rest, groups = piece[found.end() :].strip(" ,"), found.groupdict()
        if form.names_act:
            noun = NOUNS.get(re.sub(r"\s+", " ", groups.get("named") or "").casefold(), "")
            named = self.acts.get(noun)
            when = when_of(groups.get("when") or "", page)
            if named is None or (groups.get("when") and not when):
                return None
            if when and rest[:1].isdigit():
                # `till next spring 2028`: a figure behind it may say more of when.
                return None
            said = ", ".join(filter(None, (named.bare, when)))
            if "why" in groups:
                said = WITH_REASON + said
            return opening.act, form, said, rest
        if opening.act == "moved" and rest[:4].casefold() == "the ":
            # Its way there stood before it: `moved to the bench`.
            rest = f"to {rest}"
        said = " ".join(filter(None, (opening.details, rest)))
        if opening.details and opening.details not in _JOINED and rest:
            said = f"{opening.details}, {rest}"
        for label in ("to", "with", "from", "on"):
            if groups.get(label):
                # Whose hands it went to, or came from, or where it came off, stands first.
                said = f"{label} {groups[label]}, {said}".rstrip(", ")
        if "count" in groups:
            # What was cut off, where, and how many: `5 low twigs cut`.
            part = _WHERE_CUT.search(found[0])
            count = f"{groups['count']} cut" if groups["count"] else ""
            where = f"on {' '.join(part[0].split())}" if part is not None else ""
            said = ", ".join(filter(None, (f"{count} {where}".strip(), said)))
        if groups.get("number"):
            said = f"{said}, invoice {groups['number']}".lstrip(", ")
        if groups.get("by"):
            said = f"{said}, by {groups['by']}".lstrip(", ")
        word = DONE_TO if opening.done_to else ""
        word = f"{NOUN}{word}{form.bare}" if opening.noun else word + opening.act
        return word, form, said, ""


# Where on the tree something was cut off.
_WHERE_CUT = re.compile(
    r"\b(?:(?:inner|inside|outer|outside|low|lower|upper|top|back|front|apex|crown|trunk|base"
    r"|(?:left|right)(?: \d{1,2})?)\b ?)+",
    re.IGNORECASE,
)


def _with(pattern: str, names: Mapping[str, str]) -> str:
    for sign, of in names.items():
        pattern = pattern.replace(sign, of)
    return pattern
