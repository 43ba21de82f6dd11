"""What is told of a line that begins with no act word, or leaves open whether it was done."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from backbud.journal.act_places import line_of
from backbud.journal.own_words import OwnWords
from backbud.journal.problems import is_flood
from backbud_grammar.forms import ActForm
from backbud_grammar.limiters import limiter_in
from backbud_grammar.problems import KEPT, Flaw, nearest
from backbud_grammar.said_otherwise import hint_for_act
from backbud_grammar.scribbles.plain import plain_words
from backbud_grammar.syntax import Act
from backbud_grammar.written_hours import hint_of_hour

# How close a first word must be to an act word, so that it is taken for a slip of the pen.
_NEAR_ACT = 0.8
_VERY_NEAR = 0.86
# Shorter words are like too many others.
_LEAST_NEAR = 4
# Words of their own that are spelled like an act.
_NO_SLIPS = plain_words(
    "rained fruits trained strained stained raised braised boomed loomed gloomed looted routed "
    "rotted heated seated cheated coated noticed voted loved saved waved paved needs shed "
    "shady windy tried dried tidied failed mailed nailed hauled healed peeled grated rated "
    "drafted crafted shifted wanted waited wasted warned counter bounded mounted trunk "
    "struggled strung tuned burned burnt learned leaned gleaned told hold cold mould bold "
    "ends bends sends lends tends hired tired fired wires woods pained painted pointed "
    "printed spent sent rent filled killed opens oven starved curved scarved punched patched "
    "pitched parched perched proved"
)
_WITH_THAT_WORD = "begin the line with that word."
_ONE_OF_THEM = "begin the line with the one that it was."
# A longer line is not said again in full.
_LONGEST_SHOWN = 120
_NOT_AN_ACT = "this line begins with no act word, and is kept as if noted"
# Its first word is one, but the words behind it leave open whether that was done.
_NOT_CLEAR = "whether this was done is not clear, and it is kept as if noted"
_NO_HINT = "The manual lists every act; free words go after noted."


class NoAct:
    """Tells what a line may have meant, by the table of acts and the keeper's own words; each first
    word is compared once."""

    def __init__(self, acts: Mapping[str, ActForm], own: OwnWords) -> None:
        self.acts, self.own = acts, own
        self._near: dict[str, str] = {}

    def _near_to(self, word: str) -> list[str]:
        """What a line may begin with: an act, a plugin's too, or words of the keeper's own, unless
        it is one that only later pages are read by."""
        own = [one.run[0] for one in self.own.words]
        return [*self.acts, *(() if word.casefold() in own else own)]

    def flaw(self, act: Act, so_far: int) -> Flaw:
        """The problem of such a line, or that its words are kept. `so_far`: how much is wrong above
        it; in a flood no hint is sought."""
        word, hint = act.word, _NO_HINT
        if is_flood(so_far):
            return Flaw("unknown-act", act.line, act.column, len(word), _unknown(word), hint)
        bare = word.rstrip("?:!.,;")
        if bare != word and bare.casefold() in self.acts:
            asks = "?" in word
            message = "who asks does not say that it is so" if asks else _NOT_CLEAR
            hint = f"Where it is so, begin the line with {bare}; where it is not, with noted."
            return Flaw("unread-line", act.line, act.column, len(word), message, hint, KEPT)
        said = hint_for_act(bare, act.text, self.acts)
        near = self._near_act(bare)
        if said or near:
            hint = said or f"Did you mean “{near}”?"
            return Flaw("unknown-act", act.line, act.column, len(word), _unknown(word), hint)
        from backbud_grammar.scribbles.meant import may_mean

        hour = hint_of_hour(word) if act.text else ""
        if hour:
            hint = f"{hour} {act.text}"
            return Flaw("unread-line", act.line, act.column, len(word), _NOT_AN_ACT, hint, KEPT)
        line = line_of(act)
        meant = may_mean(line)
        how = self._how(meant[0], line) if len(meant) == 1 else _ONE_OF_THEM
        hint = f"It may have meant {_or(meant)}: {how}" if meant else hint
        return Flaw("unread-line", act.line, act.column, len(word), _NOT_AN_ACT, hint, KEPT)

    def _how(self, act: str, line: str) -> str:
        """How such a line is written so that it is read: what ends or takes off is asked once more,
        and what doubts is not put into anybody's mouth."""
        form = self.acts.get(act)
        if form is not None and form.names_act:
            return f"name the work behind it: {form.word} {form.example}."
        takes_any = form is not None and form.bearing == "does" and not form.needs_detail
        if not takes_any or len(line) > _LONGEST_SHOWN or limiter_in(line):
            return _WITH_THAT_WORD
        return f"write {act} first and the rest behind two hyphens: “{act} -- {line}”"

    def _near_act(self, word: str) -> str:
        """The act that a first word may be a slip of."""
        if word.casefold() in _NO_SLIPS:
            return ""
        near = self._near.get(word)
        if near is None:
            near = "" if len(word) < _LEAST_NEAR else nearest(word, self._near_to(word), _NEAR_ACT)
            if sorted(near) != sorted(word) and nearest(word, [near], _VERY_NEAR) != near:
                # `should` is no slip of `sold`; letters that changed places are one: `wried`.
                near = ""
            if len(word) == _LEAST_NEAR and near[:1].casefold() not in ("", word[0].casefold()):
                # `rain` is no slip of `drain`.
                near = ""
            self._near[word] = near
        return near


def _unknown(word: str) -> str:
    return f"“{word}” is no act known here"


def _or(words: Sequence[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} or {last}" if most else last
