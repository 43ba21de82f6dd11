"""Reads an act that stands as it is by its pieces, each of which is judged once.

Most details of a diary were written before, only never in this order. What pieces say that are
each sound by themselves is sound together, unless they say a thing twice or contradict each other.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import chain

from msgspec.structs import replace

from backbud.journal.dated import Said
from backbud_grammar.forms import ActForm
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.limiters_read import is_plain_part
from backbud_grammar.parse import Details
from backbud_grammar.parts import spelled_out

# What an act says by a text of its own, as it is written; None where anything is wrong with it.
Judge = Callable[[ActForm, str, str], Said | None]


class ByPieces:
    """`judge`: judges one piece, or a text that is not parted. `kind_of`: what a handle is of.
    `keep`: keeps what a piece says that was read by the example of another."""

    def __init__(
        self,
        details: Details,
        judge: Judge,
        kind_of: Callable[[str], str],
        keep: Callable[[str, str, Said], None],
    ) -> None:
        self._details, self._judge, self._kind_of, self._keep = details, judge, kind_of, keep
        # By act word as it is written.
        self._pieces: dict[str, dict[str, Said | None]] = {}
        self._parts: dict[tuple[str, str], bool] = {}
        # By act word and what stands before the part of the tree: a piece and what it says.
        self._on_parts: dict[tuple[str, str], tuple[str, Said]] = {}

    def said(self, form: ActForm, word: str, text: str) -> Said | None:
        """What an act says in which nothing is wrong and nothing is left to ask; None where that
        must be looked at whole."""
        known = self._pieces.get(word)
        if known is None:
            known = self._pieces[word] = {}
        if form.names_act or ", " not in text or '"' in text or "\t" in text or text[-1] == ",":
            if text not in known:
                whole = form.names_act or '"' in text or "\t" in text or text[-1:] == ","
                judge = self._judge if whole else self._piece
                known[text] = judge(form, word, text)
            return known[text]
        found: list[Said] = []
        for piece in text.split(", "):
            one = known.get(piece, _NEW)
            if one is _NEW:
                one = known[piece] = self._piece(form, word, piece) if piece.strip() else None
            # `each` goes with the measure before it.
            if one is None or not one.details:
                return None
            found.append(one)
        details = tuple(chain.from_iterable([one.details for one in found]))
        if not self._details.agree(form, details):
            return None
        return Said(form.word, details, "", says_when=any(one.says_when for one in found))

    def _piece(self, form: ActForm, word: str, piece: str) -> Said | None:
        """What one piece says; where it names a part of the tree, what the rest of it says, there.

        So few are judged: of branches a tree has many.
        """
        head, on, part = f" {piece}".partition(" on ")
        head = head.lstrip()
        if not on or "  " in piece or head.startswith("on ") or not self._is_part(form, word, part):
            return self._judge(form, word, piece)
        example = self._on_parts.get((word, head))
        if example is not None:
            said = _on_part(example, part, piece)
            self._keep(word, piece, said)
            return said
        known = self._pieces[word]
        one = known.get(head, _NEW) if head else None
        if one is _NEW:
            one = known[head] = self._judge(form, word, head)
        details = self._details.on_part(form, one.details, part, piece) if one is not None else ()
        if one is not None and details:
            return Said(one.act, details, one.named, says_when=one.says_when)
        found = self._judge(form, word, piece)
        if found is not None and _is_example(found, part):
            self._on_parts[word, head] = piece, found
        return found

    def _is_part(self, form: ActForm, word: str, part: str) -> bool:
        known = self._parts.get((word, part))
        if known is None:
            known = is_plain_part(form, word, part, self._details.lexicon(form))
            # `wired 2 mm on yuki` is asked: that is another tree.
            known = known and (part in PART_WORDS or self._kind_of(part) != "tree")
            self._parts[word, part] = known
        return known


def _is_example(said: Said, part: str) -> bool:
    """Whether a piece that ends in this part says what it does on any other, too."""
    parts = [detail.part for detail in said.details if detail.part]
    return not said.held and not said.kept and parts == [spelled_out(part)]


def _on_part(example: tuple[str, Said], part: str, piece: str) -> Said:
    """What the example says, on another part."""
    written, said = example
    more = len(piece) - len(written)
    details = [
        replace(one, part=spelled_out(part), length=one.length + more) if one.part else one
        for one in said.details
    ]
    return replace(said, details=tuple(details))


# Says of a piece that it was never looked at; what None says of it is that it is not sound.
_NEW = Said("", (), "")
