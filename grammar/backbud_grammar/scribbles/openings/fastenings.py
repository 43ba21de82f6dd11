"""How a line says that wire, guys, ties and raffia went on or came off, in short."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

_ONLY = r"(?=$|,)"
_BRANCH = r"(?:(?:left|right) \d{1,2}|apex|top|crown|leader|trunk)"
_OFF = r"(?:off|removed|away|out|cut off|taken off)"
_WERE = r"(?: (?:is|are|was|were|all|now))*"
_THICK = r"\d(?:[.,]\d+)?(?: mm)?"
_METAL = r"(?:al|alu|aluminium|cu|copper)"
_PART = (
    r"(?:on |round )?(?:the )?(?:left|right|apex|top|crown|leader|trunk|front|back|all|side|fine|main"
    r"|primary|secondary|small|thin|low|lower|upper|first|second|third|\d{1,2} (?:\w+ )?(?:branches|shoots|twigs))\b"
)
# What a guy is made fast to.
ANCHOR = (
    r"(?:pot(?: (?:rim|foot|feet|edge|hole))?|rim|nebari|foot|(?:thick )?roots?|trunk|jin|bench|box"
    r"|edge of (?:the )?pot|drain hole|screw|nail)"
)
_ALL_OF = r"(?:(?:all|the|both|old) )*(?:all (?:\d|two|three|four|five|six) )?"

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "wired",
        rf"(?![^,.;]*\b(?:still|ok|okay|fine|good|left over|enough|too|stays?)\b)(?={_METAL} {_THICK}(?: ?(?:\+|-|and|&) ?{_THICK})* {_PART})",
        rf"(?:double|doubled) wire (?=(?:{_METAL}|\d))",
        noun=True,
    ),
    *rows("wired", rf"(?={_METAL} {_THICK} over (?:it|the raffia|raffia)(?:$|,))"),
    *rows(
        "unwired",
        rf"wires? (?:from |on |of |at |round )?(?:the )?(?={_BRANCH} {_OFF}(?:$|,))",
    ),
    *rows(
        "guyed",
        rf"guy(?: wire)? (?=(?:{_BRANCH}|jin|\d(?:[.,]\d)? mm\b|(?:al|alu|cu) \d)(?! (?:off|out|cut|gone|loose|snapped|broken|broke|holds)\b))",
        noun=True,
        instead=True,
    ),
    *rows(
        "guyed",
        rf"(?={_BRANCH} (?:pulled|drawn|brought|put|tied|held) (?:down|up) (?:(?:with|by) (?:a )?guy\b|to (?:the )?{ANCHOR}(?:$|,| (?:with|by)\b)))",
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
