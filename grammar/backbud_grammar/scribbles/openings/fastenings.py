"""How a line says that wire, guys, ties and raffia went on or came off, in short."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

_ONLY = r"(?=$|,)"
_BRANCH = r"(?:(?:left|right) \d{1,2}|apex|top|crown|leader|trunk)"
_OFF = r"(?:off|removed|away|out|cut off|taken off)"
_WERE = r"(?: (?:is|are|was|were|all|now))*"
_THICK = r"\d(?:[.,]\d+)?(?: mm)?"
_METAL = r"(?:al|alu|aluminium|cu|copper)"
# `al 2 left` may be what is left of it, so a side alone needs its number.
_PART = (
    r"(?:(?:on|round) (?:the )?(?:(?:left|right) \d{1,2}|apex|top|crown|leader|trunk|front|side|fine|main"
    r"|primary|secondary|small|thin|low|lower|upper|first|second|third)|(?:on |round )?(?:the )?"
    r"(?:(?:left|right) \d{1,2}|\d{1,2} (?:\w+ )?(?:branches|shoots|twigs)))\b"
)
# Wire that is not on the tree, or was long ago.
_IN_STOCK = r"(?![^.;]*\b(?:still|reel|roll|spare|shop|stock|since|from (?:19|20)\d\d)\b)"
# What a guy is made fast to.
ANCHOR = (
    r"(?:pot(?: (?:rim|foot|feet|edge|hole))?|rim|nebari|foot|(?:thick )?roots?|trunk|jin|bench|box"
    r"|edge of (?:the )?pot|drain hole|screw|nail)"
)
_ALL_OF = r"(?:(?:all|the|both|old) )*(?:all (?:\d|two|three|four|five|six) )?"

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "wired",
        rf"{_IN_STOCK}(?![^,.;]*\b(?:still|ok|okay|fine|good|left over|enough|too|stays?)\b)(?={_METAL} {_THICK}(?: ?(?:\+|-|and|&) ?{_THICK})* {_PART})",
        rf"{_IN_STOCK}(?:double|doubled) wire (?=(?:{_METAL} )?{_THICK}(?: {_METAL})? {_PART})",
        noun=True,
    ),
    *rows("wired", rf"(?={_METAL} {_THICK} over (?:it|the raffia|raffia)(?:$|,))"),
    *rows(
        "unwired",
        rf"wires? (?:from |on |of |at |round )?(?:the )?(?={_BRANCH} {_OFF}(?:$|,))",
    ),
    *rows(
        "guyed",
        rf"{_IN_STOCK}guy(?: wire)? (?=(?:{_BRANCH}|jin|(?:\d(?:[.,]\d)? mm|(?:al|alu|cu) \d[\d.,]*(?: mm)?) (?:on|from|to|round)\b)(?! (?:off|out|cut|gone|loose|snapped|broken|broke|holds)\b))",
        noun=True,
        instead=True,
    ),
    *rows(
        "guyed",
        rf"(?={_BRANCH} (?:pulled|drawn|brought|put|tied) (?:down|up) (?:(?:with|by) (?:a )?guy\b|to (?:the )?(?!bench){ANCHOR}(?:$|,| (?:with|by)\b)))",
        noun=True,
    ),
    *rows(
        "untied",
        rf"{_ALL_OF}(?:anchor )?(?:ties|tie[- ]?wires?){_WERE} (?:off|cut off|cut|out|removed|taken out|taken off)(?: (?:under|underneath|below)(?: the pot)?)?{_ONLY}",
        rf"(?:cut|took|removed) (?:off |out )?all (?:\d|two|three|four) (?:anchor )?(?:ties|tie[- ]?wires)(?: off| out)?{_ONLY}",
    ),
    *rows(
        "tied",
        r"(?:re-?tied|tied (?:(?:in|down|up|back in|back) )*again)(?: (?:in|down|with))*(?=$|,| \d)",
        r"tied (?:in|down|up)(?: (?:in|down))* (?:with (?=\d))",
        r"(?:new|fresh) ties(?: (?:on|in|set))?(?=,? \d)",
    ),
    *rows(
        "sealed",
        r"(?:cut )?paste (?=on (?:it|them|there|the (?:marks?|bites?|wounds?|cuts?|scars?))(?:$|,))",
    ),
)
