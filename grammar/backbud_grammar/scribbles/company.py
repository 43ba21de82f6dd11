"""Tells whether a clause only says who was there, how they took it, or how the keeper's hands were.

Nothing of it is done to a tree. It is known by closed words: who, and what somebody does who only
stands by. What somebody says, wants, brings or takes along is none of it.
"""

from __future__ import annotations

import re

from backbud_grammar.forms import ActForm

# A side is written as a letter, too.
_NAME = r"(?-i:(?![LRNSEW]\b)[A-Z])[^\W\d_]*"
_NOT_SOMEBODY = (
    r"(?!(?:tree|it|wire|tie|guy|fleece|net|cloth|raffia|pot|branch|graft|scion|layer|cutting|seedling|bud|leaf|shoot|root|bark"
    r"|apex|top|crown|leader|trunk|paste|bag|moss|soil|all|none|some|most|one|two)(?:s|es|ings)?\b)"
)
_ONE = (
    rf"{_NOT_SOMEBODY}(?:(?:mrs?|ms|dr)\.? {_NAME}|{_NAME}|he|she|they"
    r"|(?:the |his |her |my |our )?(?:owner|client|customer|apprentice|nephew|niece|sister|brother|wife|husband|son|daughter"
    r"|neighbou?r|lad|lass|boy|girl|kids|children|visitors?|guests?|students?|pupils?|class))"
)
_WHO = rf"{_ONE}(?: ?(?:\+|&|and) ?{_ONE})?"
_HELD = r"(?:torch|light|lamp|ladder|tools|turntable|pot|trunks?|branches|tree|branch|bucket|bar|hose|camera|bag|other end|end|stick|tray|dustpan)"
_STANDS_BY = (
    r"(?:(?:was |were |came |only |just )*(?:by|round|watched|watching|looked on|looking on|there|hovered|hovering|fussed|fussing|waited|chatted|chatting|learning|yawning)"
    r"|stood (?:by|over (?:me|us|it|her|him)|behind me|there|round|around|watching)|sat (?:by|there|with (?:me|us)|watching)"
    r"|stayed(?: (?:on|late|for (?:tea|coffee|lunch)))?|came (?:along|too|to (?:look|watch|see))"
    rf"|held (?:on|(?:the |its )?{_HELD})|passed (?:me )?(?:the )?(?:tools|wire|wires|cutters|ties|raffia|scissors)"
    r"|(?:up |on |at |under )+(?:the )?(?:ladder|steps|hose|broom|stool|other end)|drew (?:the |it |on )*(?:line|lines|chalk)"
    r"|made (?:the )?(?:tea|coffee|lunch)|brought (?:tea|coffee|cake|biscuits|buns|lunch)|swept(?: up)?(?: after)?"
    r"|happy with (?!half|none|most|some|neither|both|one\b)(?:it|the [^\W\d_]+|[^\W\d_]+)|(?:likes?|liked|loves?|loved) (?:it|her|him|the [^\W\d_]+)|talked(?: too much)?|took (?:notes|pics|photos|pictures)|learn(?:ed|t)(?: a lot| something)?|helped(?: out)?)"
)
_MOOD = (
    r"(?:(?:is|was|are|were|so|very|quite|really|most|not|well|looks|looked|seems|seemed) )*"
    r"(?:(?:un)?(?:happy|impressed)|pleased|delighted|thrilled|chuffed|glad|proud|relieved|surprised|shocked|cross|grumpy|sulking"
    r"|sad|upset|amused|grateful|nervous|jealous|over the moon|in tears|all smiles|beaming)"
    r"|(?:grumbl|sulk|laugh|smil|sigh|winc|nodd?|tutt?|frown|shrugg?|moan|giggl)(?:ed|e?s|ing)|wept|cried|swore|owned up|said (?:sorry|thanks|thank you)"
)
_TOLD = rf"(?:{_ONE} )?(?:showed|shown|reminded|thanked|told) (?:him|her|them|{_NAME})(?: (?:so|why|it))?"
_TAIL = (
    r"(?: (?:the whole time|the whole way|all (?:day|along|the while|through|morning|afternoon)|throughout|again|too|as well|a bit"
    r"|a lot|at me|over it|about it|with it|at it|twice|today|for once|this time|at last|at first))*"
)
_BODY = (
    r"(?:(?:my|the|both|all) )*(?:hands?|fingers?|fingertips|nails|knuckles?|thumbs?|back|knees?|arms?|wrists?|eyes|nose|feet|toes|ears"
    r"|shoulders?|neck|legs|hair|sleeves?|boots|shirt|jacket|hat|gloves)"
    r"(?: (?:is|are|was|were|all|still|quite|very|bit|a))*"
    r" (?:black|cold|frozen|freezing|sore|sticky|numb|aching|aches?|hurts?|stiff|raw|wet|soaked|muddy|filthy|bleeding|blue|tired|knackered|brown|smelly|stinks?)"
)
# Said by itself, it is how the keeper or the owner took it.
_SIGH = (
    r"me (?:below|above|under it|on the (?:ladder|steps|stool|floor))|smells|stinks|(?:he|she|they)(?:['’]s|['’]re| is| are) (?:ok|okay|fine)|sigh|phew|ouch|ow|hurrah|hooray|at last|oh well|ah well|never again|(?:so |very |well )?(?:thrilled|delighted|pleased|chuffed|happy)"
    r"(?: with (?:it|the [^\W\d_]+|[^\W\d_]+))?|my fault|silly me|about time|nice job|good job|job done|worth it|bliss|lovely"
)
_BESIDE = re.compile(
    rf"(?:{_SIGH}|{_WHO} (?:{_STANDS_BY}|{_MOOD})|{_TOLD}|{_BODY}){_TAIL}", re.IGNORECASE
)
_STAYED_AWAY = re.compile(
    rf"{_WHO} (?:no[- ]show|(?:never|didn['’]?t|did not) (?:came|come|show(?:ed)?(?: up)?|turn(?:ed)? up)|(?:was )?late)(?: again)?",
    re.IGNORECASE,
)


def tells_of_company(form: ActForm, piece: str) -> bool:
    """Whether a clause only tells who stood by, or how they took it. Who did not come may be why a
    tree neither came nor went."""
    if "?" in piece or any(map(str.isdigit, piece)):
        return False
    if _BESIDE.fullmatch(piece) is not None:
        return True
    return (
        form.work not in ("business", "propagation") and _STAYED_AWAY.fullmatch(piece) is not None
    )
