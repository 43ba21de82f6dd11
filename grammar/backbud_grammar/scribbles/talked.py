"""Takes out of a piece what is only talk: who did it, the `it` that is the tree above, and why."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from backbud_grammar.forms import ActForm
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.limiters import limiter_in
from backbud_grammar.scribbles.plain import is_seen
from backbud_grammar.scribbles.turns import turns

# Before the act; whose hands it were is said by no other word.
_WHO = re.compile(
    r"(?:(?:i|we|i['’]?ve|we['’]?ve|just|finall?y|at last|today"
    r"|this (?:morning|afternoon|evening)|so i|then i|also|went ahead and|managed to get)\s+)+",
    re.IGNORECASE,
)
_GOT = re.compile(r"got (?:it|her|him|this one|the tree) (?:all )?(?=\w)", re.IGNORECASE)
# Right behind the act; not where the act ends a tree, since `lost it` is a turn of speech.
_IT = re.compile(
    r"(?P<act>[\w-]+) (?P<it>it|her|him|them|this one|this tree|the tree)(?: all)?"
    r"(?=$|[ ,])(?! (?:was|is|and)\b)",
    re.IGNORECASE,
)
_I = re.compile(r"\b(?:i|we)\b|['’]?ve\b", re.IGNORECASE)
_NEVER_IT = ("lost", "died", "received", "noted", "private", "worked", "counted")
_WHY = re.compile(
    r"(?P<what>.+?) (?P<why>(?:because|['’]?cause|cuz|coz|since (?:it|i|they|the)|as (?:it|i|they)"
    r"|so (?:that )?(?:i|it|we|they))\b.+)",
    re.IGNORECASE,
)
_ONLY_WHY = re.compile(
    r"(?:because|['’]?cause|cuz|coz|since (?:it|i|they)|as (?:it|i|they) (?:is|was|had|looked|were)"
    r"|so (?:that )?(?:i|it|we|they)"
    r"|(?:it['’]?s|it is|it was|they['’]?re|they are|they were|was|were)"
    r" (?:too|so|very|really|still|getting|bone|quite))\b .+",
    re.IGNORECASE,
)
# In a reason these may take something out of what was done.
_TAKES_OUT = re.compile(
    r"\b(?:but|except\w*|exc|excl|apart|only|rest|yet|until|till|if|unless|later|tomorrow)\b",
    re.IGNORECASE,
)
_WORD = re.compile(r"[^\W\d_]+")
# Why something was not done is said alike: `moved tunnel, it was too heavy`.
_WHY_NOT = re.compile(r"\b(?:too|still)\b", re.IGNORECASE)
# In a reason something more may have been done, or something else: `so I took 1/3 off`.
_MORE_DONE = re.compile(
    r"\d|\b(?:took|takes?|gave|stop|stopped|went|goes|going|moved?|moves|put|cut|cancel\w*|did|done"
    r"|misread|wrong|asked|broke|backed|off|out|up|down|again|stolen|dead|died|read|it is|instead"
    r")\b",
    re.IGNORECASE,
)
_AS = re.compile(r"^(?:because|['’]?cause|cuz|coz|since|as|so(?: that)?) ", re.IGNORECASE)

# What takes words out of a piece, and which stand at its beginning, as each is written.
TALK_PATTERNS = (_IT.pattern, _WHY.pattern)


class Talked(NamedTuple):
    """A piece without the talk, and the reason that stood behind it, or ""."""

    piece: str
    why: str


def untalked(piece: str, acts: Mapping[str, ActForm]) -> Talked:
    """`just watered it because it was dry` is `watered`, and why.

    `acts`: by their words.
    """
    found = _WHY.fullmatch(piece)
    why = ""
    if found is not None and not _TAKES_OUT.search(found["why"]):
        piece, why = found["what"].rstrip(" ,"), found["why"]
    who = _WHO.match(piece)
    said = piece[who.end() :] if who else piece
    bare = _GOT.sub("", said, count=1)
    first = acts.get(bare.partition(" ")[0].casefold())
    if first is not None and first.bearing == "ends":
        # `got it returned` may be by another.
        bare = said
    if who and first is not None and _I.search(who[0]) and _is_of_who(first, bare):
        return Talked(piece, "")
    it = _IT.match(bare)
    if it is not None:
        form = acts.get(it["act"].casefold())
        # What was carried away or sold as `them` may be pots.
        is_tree = it["it"].casefold() != "them" or (form is not None and form.bearing != "ends")
        if form is not None and is_tree and form.word not in _NEVER_IT and not form.names_act:
            bare = f"{it['act']}{bare[it.end() :]}"
    return Talked(bare.strip(" ,"), why)


def _is_of_who(act: ActForm, said: str) -> bool:
    """Whether an act may be said of the one who did it: `I moved to the bench`, `I paid 20 EUR`."""
    if act.word in _NEVER_IT or act.work == "business":
        return True
    return act.word in ("moved", "returned") and _IT.match(said) is None


def is_reason(piece: str, *, strict: bool) -> bool:
    """Whether a piece only says why. `strict`: beside an act of which every word must be read.

    >>> is_reason("cause its cold", strict=True), is_reason("cause left 1 is dry", strict=True)
    (True, False)
    """
    if _ONLY_WHY.fullmatch(piece) is None or _TAKES_OUT.search(piece) or "?" in piece:
        return False
    if _WHY_NOT.search(piece) or turns(piece) or _MORE_DONE.search(piece):
        return False
    names_part = not PART_WORDS.isdisjoint(_WORD.findall(piece.casefold()))
    return not (strict and (names_part or limiter_in(piece) or not is_seen(_AS.sub("", piece))))
