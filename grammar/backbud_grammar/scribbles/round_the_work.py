"""Tells whether a clause behind a work says what became of it, and nothing that changes it.

What was carried away, in how many goes, how far a branch moved, where it will stand for a time,
what lies on it. Each is told by its make, and only beside the works that it can be said of.
"""

from __future__ import annotations

import re

from backbud_grammar.act_words import ActWord
from backbud_grammar.forms import ActForm
from backbud_grammar.scribbles.company import tells_of_company
from backbud_grammar.scribbles.draft import Draft
from backbud_grammar.scribbles.likened import is_likened

# It is what a look finds, or what ended.
_LOOKED: tuple[ActWord, ...] = ("checked", "lost", "died")
_BY_HAND = ("branches", "wire", "deadwood")
_RESTS = (*_BY_HAND, "roots", "propagation")
_ANY = r"[^\W\d_]+"


def _whole(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


# That nothing more is done to it for a time.
_HANDS_OFF = _whole(
    r"(?:(?:and |so )?hands off|leave (?:it|her|him|them|this)(?: alone| be| in peace)?"
    r"|let (?:it|her|him|them) (?:be|rest|recover|settle))"
    r" (?:now|for now|from now on|this year|(?:till|until|til) (?:(?:early|mid|late) )?"
    rf"{_ANY}|for (?:a while|\d+ (?:days|weeks|months)|a (?:month|year|season|week)))"
)
# A mark that nobody made that day.
_WAS_SO = _whole(
    r"(?:the |that |a )?(?:chips?|cracks?|scars?|marks?|scratch(?:es)?|dents?|breaks?|stains?"
    rf"|wounds?|hole)(?: (?:in|on|at|under|by) (?:the )?{_ANY}(?: {_ANY})?)?"
    r" (?:was|were|is|are) (?:all )?(?:already )?"
    r"(?:there|so|old)(?: (?:before|already|when (?:it|she|he) (?:came|arrived)))*"
)
_KEEP_AN_EYE = _whole(r"(?:to )?watch(?: it| this| that)?|keep an eye(?: on (?:it|that|this))?")
_REST_OUT = _whole(
    r"(?:all )?(?:the )?(?:rest|others?) (?:all )?"
    r"(?:out|off|rubbed out|rubbed off|removed|pulled)"
)
# What lies on it or gets to it, and that nothing grows yet.
_STANDS_SO = _whole(
    r"(?:full |good |some |plenty of |more )?"
    r"(?:light|air|sun|snow|frost|damp|ice|dew|dust|mould|rain|wind|shade|morning sun)"
    r" (?:(?:gets|comes|goes) (?:in|through|to it)|on|under|over|round|behind|inside)"
    r"(?: (?:it|there|now|all day|till noon|underneath|again|top|at last))*"
    r"|(?:nothing|no (?:buds?|leaf|leaves|growth|green|candles?|tips?|roots?|shoots?))"
    r"(?: (?:is|are))? (?:green|moving|open|swelling|pushing|in leaf|awake|growing|stirring)"
    r"(?: (?:yet|still|so far))?"
    r"|(?:(?:it|tree|she)['’]?s |now |all |just |nearly )*in (?:full )?(?:leaf|bud|growth)"
)
_REGULARLY = _whole(
    r"(?:every|each) (?:other |second |third )?"
    r"(?:day|week|month|(?:mon|tues|wednes|thurs|fri|satur|sun)day|morning|evening)s?"
    r" from now(?: on)?"
)
# What was carried away, and in how many goes: no figure of the act.
_DEBRIS = _whole(
    r"(?:bags|barrows|buckets|loads) of (?:it|them)"
    r"|(?:\d+|half a|a|one|two|three|four) (?:(?:carrier|bin|big|full) )*"
    r"(?:bags?|barrows?|barrowloads?|buckets?|trugs?|sacks?)"
    r"(?: (?:full|out|away|of (?:it|them|leaves|needles|cuttings|bits|prunings|stuff|flowers"
    r"|candles)))?"
)
_SITTINGS = _whole(
    r"(?:over |in |took |spread over )?(?:\d|two|three|four) "
    r"(?:eves|evenings|mornings|afternoons|goes|sittings|sessions|turns)"
)
_NOT_CUT = _whole(
    r"(?:pulled|torn|plucked|snapped|twisted|broken),? (?:and )?not "
    r"(?:cut|sawn|pinched|snipped|clipped)"
)
_FAR = (
    r"(?:(?:a good |about |abt |nearly |another )?"
    r"(?:\d+(?:[.,/]\d+)?(?: \d/\d)? (?:mm|cm|inch|degrees)|a (?:good )?(?:inch|hand|finger))"
    r"|a good inch)"
)
_MOVED_SO_FAR = _whole(
    r"(?:(?:left \d|right \d|apex|top|leader|trunk|branch|tip|it) )?"
    rf"(?:moved|came|went|gave|dropped|swung|shifted) {_FAR}"
    r"(?: (?:left|right|down|up|lower|over|in|round|back|L|R|easy|easily|nicely|already))*"
    rf"|(?:came|went|moved) (?:down|up|over|round) {_FAR}(?: (?:easy|easily|nicely|already))?"
)
_HOLDS = _whole(
    r"(?:left \d|right \d|apex|top|leader) (?:holds?|stays put|keeps its place)"
    r"(?: (?:with none|without(?: (?:it|wire|any))?|by itself|now|well))+"
)
_SHAPE_HOLDS = _whole(
    r"(?:the |its )?(?:shape|bends?|line|curves?|movement) (?:all )?(?:holds?|held|kept|stays?|stayed|set|is set|are set)"
    r"(?: (?:well|now|nicely|so far|fine))*"
)
# Where in a place it stands.
_GOOD_TO = _whole(r"(?:good|safe|hardy|ok|fine) (?:down )?(?:to|for) [-−]\d{1,2}(?: C| degrees)?")
_SPOT_IN = _whole(
    r"(?:in |on |at |by )?(?:the )?(?:back|front|far|near|left|right|top|bottom|low|lower|upper|middle|cold|warm|sunny|shady|door"
    r"|[NSEW]) (?:corner|shelf|rack|row|end|wall|bay)"
)
_HAD_BITTEN = _whole(
    r"(?:it |had |has )*(?:bit|bitten|biting|cut)(?: in)?"
    r"(?: (?:a bit|a little|slightly|badly|deep))?"
    r"(?: (?:on|at|in) (?:(?:the )?(?:top|outer|inner|upper|lower|under)(?: side| bend)?|one|two"
    r"|three|four|a few|\d|both|(?:left|right) \d)(?: (?:places?|spots?|branches|bends))?)?"
)
_PROPS = _whole(
    r"(?:(?:\d+|a few|some|two|three|four) )?"
    r"(?:pegs?|clips|bricks?|stones?|canes?|sticks?|hoops?|pins)"
    r"(?: to (?:keep|hold) (?:it|the fleece|the net|them) (?:off|up|down|clear|in place)"
    r"(?: (?:of |off )?(?:the )?(?:buds?|leaves|candles|shoots|tips|flowers|tree))?)?"
)
_LATER_MONEY = _whole(
    r"(?:the )?(?:rest|balance|remainder) (?:at|on|when (?:he|she|they)) "
    r"(?:collection|delivery|pick-?up|collects?|fetch(?:es)?(?: it)?)"
)
# How it stands for a time after the work.
_KEPT_IN = _whole(
    r"(?:in )?(?:the )?(?:shade|no sun|no wind|out of (?:the )?(?:sun|wind)|under cover|dark)"
    r" (?:(?:for )?(?:\d+|a|one|two|three) (?:days?|weeks?)"
    r"|(?:till?|until) (?:the )?(?:weekend|[^\W\d_]+day|rain|it (?:roots|moves|grows|recovers)))"
    r"|(?:\d+|two|three) (?:days|weeks),? then back(?: (?:out|in))?"
    r"|staked(?: (?:\d+|some|most))?(?: of (?:them|em))?"
)


def is_round_the_work(draft: Draft, piece: str) -> bool:
    """Whether a clause tells who stood by, how something is, or what became of the work."""
    form = draft.form
    if form.bearing == "keeps" or form.names_act or form.prose or form.word in _LOOKED:
        return False
    if tells_of_company(form, piece) or is_likened(piece):
        return True
    return any(one.fullmatch(piece) is not None for one in _beside(form, leaves=_leaves(draft)))


def _leaves(draft: Draft) -> bool:
    """Whether what was read says how many were left, so that the rest came off."""
    return draft.form.work == "branches" and any(
        said.startswith(("leaving ", "to ")) for said, _ in draft.pieces
    )


def _beside(form: ActForm, *, leaves: bool) -> list[re.Pattern[str]]:
    """What can be said beside this act."""
    found = [_WAS_SO, _KEEP_AN_EYE, _STANDS_SO, _REGULARLY]
    if form.bearing == "does":
        found.append(_KEPT_IN)
        found += [_HANDS_OFF] if form.work in _RESTS else []
        found += [_DEBRIS, _SITTINGS, _NOT_CUT] if form.work in _BY_HAND else []
    found += [_REST_OUT] if leaves else []
    found += [_MOVED_SO_FAR, _HOLDS, _SHAPE_HOLDS] if form.work == "wire" else []
    found += [_HAD_BITTEN] if form.word == "unwired" else []
    found += [_LATER_MONEY] if form.work == "business" else []
    found += [_PROPS] if form.word == "protected" else []
    found += [_GOOD_TO] if form.word == "protected" else []
    found += [_SPOT_IN] if form.word in ("moved", "protected") else []
    return found
