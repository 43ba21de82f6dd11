"""How a line says that a cover, a net or shade went on or came off, in short."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

_ONLY = r"(?=$|,)"
_SOFT = r"(?:fleece|frost (?:cloth|blanket|fleece)|hessian|burlap|bubble ?wrap|straw)"
_LAYERS = r"(?:(?:\d|two|three|double|triple)(?: (?:layers?|sheets?|thick))?(?: of)?)"
_OVER = r"(?:on|over|round|around|up)(?: (?:it|all|the (?:tree|crown|pot|top)|crown|pot|tree))?"

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "protected",
        r"fleece over crown(?=$|,)",
        r"fleece (?:on|over)(?= (?:for )?(?:two|three|a few|the) (?:cold |frosty )?nights?(?:$|,))",
        details="fleece",
    ),
    *rows(
        "protected",
        rf"(?={_LAYERS} fleece(?: {_OVER}| all night| again| tonight)+(?:$|,))",
        rf"(?=fleece (?:{_LAYERS}|x ?[23]|[23] ?x)(?: {_OVER}| all night| again| tonight)+(?:$|,))",
        r"(?=(?:put )?in fleece(?:$|,))",
    ),
    *rows(
        "protected",
        rf"(?=pots? (?:all )?(?:packed|wrapped|rolled|lagged|insulated) (?:in|with) (?:\w+ )?{_SOFT}(?:$|,))",
        rf"(?={_SOFT} (?:round|around|on|over) (?:the )?pots?(?: ?(?:\+|and|&) ?{_SOFT} (?:on|over)(?: (?:the )?(?:crown|tree|top|it))?)?(?:$|,))",
    ),
    *rows(
        "protected",
        r"(?=wind[- ]?(?:screen|break) (?:set|up|put up|built)(?: (?:on|at) (?:the )?\w+ side)?(?:$|,))",
    ),
    *rows(
        "shaded",
        r"(?=\d+ % shade (?:from|after|until|till) (?:noon|midday|\d{1,2} h)(?:$|,))",
        r"shade (?:net|cloth|screen)(?: (?:up|on|over))*(?= \d+ %(?: (?:on|up|over|from today|since today))*(?:$|,))",
    ),
    *rows("unwrapped", rf"(?:all |the |old )+raffia (?:off|removed|cut off|cut){_ONLY}"),
    *rows("shaded", rf"shade (?:up|on){_ONLY}", instead=True),
)
