"""How a line says that something was cut, pulled or knocked off: what it is, and what was done."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

_COUNT = r"(?:(?P<count>\d{1,3}) )?"
_ALL = r"(?:(?:all|the|all of the|most|some|a few|several|couple of|a couple of|one|two|three|four|five) )*"
_KIND = (
    r"(?:(?:long|longer|longest|tall|strong|strongest|stronger|vigorous|coarse|thick|heavy|big|large|fat|weak|thin|spindly|old|new|young|soft|dead"
    r"|dry|dried|blind|bare|broken|crossing|straight|upright|downward|hanging|inner|inside|outer|outside|low|lower|upper|top|back|front|side|left|right"
    r"|unwanted|useless|spent|stray|frosted|frost-nipped|damaged|diseased|twiggy|woody|green|extra|second|first|small|short|few|odd) )*"
)
_WHERE = r"(?: (?:on|at|in|from|of|off|inside|under|all|over|along|up|down|the|left|right|front|back|low|lower|upper|top|apex|crown|base|trunk|inside|outside|side|branch|branches|\d{1,2}))*?"
# What was done, so that it is off or shorter.
_CUT = (
    r"(?: (?:were|was|all|now|been|have|has))*"
    r" (?:(?:cut|snipped|clipped|trimmed|shortened|lopped|sawn|sawed|pruned|chopped)"
    r"(?: (?:off|out|away|back|down|flush|clean|hard))*|back(?= (?:to|by|hard|flush)\b))"
)
# `dead branch off` may have fallen.
_CUT_BY_US = r"(?: (?:were|was|all|now))* (?:cut|snipped|clipped|lopped|sawn|sawed|pruned|chopped)(?: (?:off|out|away|back|flush|clean))*"
_SHEARS = r"(?:scissors?|shears|secateurs|clippers|snips)"
_PEST = (
    r"(?:aphids?|scales?|spider mites?|mites?|greenfly|blackfly|whitefly|adelgids?|weevils?|grubs?|mealy ?bugs?|caterpillars?|sawfly(?: larvae)?"
    r"|slugs?|snails?|beetles?|larvae|woolly aphids?)"
)

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "pruned",
        rf"{_COUNT}{_ALL}{_KIND}(?:twigs?|snags?|spurs?|thorns?|dieback|die-back|crossers|deadwood|dead bits|limbs?)(?! buds?){_WHERE}{_CUT}",
        rf"(?:cut|snipped|clipped|sawed|sawn|took|lopped|removed|cleared|chopped|pruned) (?:off |out |away |back )?{_COUNT}{_ALL}{_KIND}(?:twigs?|snags?|spurs?|thorns?|dieback|crossers|dead bits|limbs?)(?: (?:off|out|away|back))?(?=$|,| (?:on|at|in|from|to|low|top|left|right|back|front)\b)",
        rf"{_COUNT}{_ALL}(?:blind|crossing|unwanted|useless|downward) (?:shoots?|growth|branch(?:es)?|stubs?){_WHERE}{_CUT}",
        rf"{_COUNT}{_ALL}(?:dead|crossing|unwanted|damaged|broken|useless|downward|blind) (?:shoots?|growth|branch(?:es)?|stubs?){_WHERE}{_CUT_BY_US}",
    ),
    *rows(
        "pruned",
        rf"{_COUNT}{_ALL}(?:crossing|bar|heavy|thick)(?: ones?)? (?:off|out)(?= (?:of |from )?(?:the )?(?:crown|apex|top|left|right|inside|low|back|front|trunk)\b)",
        noun=True,
    ),
    *rows(
        "defoliated",
        rf"{_ALL}{_KIND}leaves (?:halved|cut (?:in|by) half)",
        details="half of each leaf",
    ),
    *rows(
        "pruned",
        rf"{_COUNT}{_ALL}(?:(?:root|basal|base|trunk|rootstock) )?suckers?{_WHERE}(?:{_CUT}| (?:all )?(?:pulled|torn|ripped|rubbed)(?: (?:off|out|away))?)(?: (?:from|off|at) (?:the )?(?:base|trunk|roots|nebari))?",
        rf"(?:cut|pulled|tore|took|removed|snipped) (?:off |out )?{_COUNT}{_ALL}(?:root |basal )?suckers?(?: (?:off|out|away))?(?=$|,| (?:on|at|in|from|below)\b)",
        details="suckers",
    ),
    *rows(
        "pruned",
        rf"{_COUNT}{_ALL}{_KIND}(?:water ?shoots?|epicormics?){_WHERE}{_CUT}",
        details="water shoots",
    ),
    *rows(
        "trimmed",
        rf"(?:all |the )*(?:long|longest|stray) (?:shoots?|growth|extensions?){_CUT}",
        details="long shoots",
    ),
    *rows(
        "trimmed",
        rf"{_COUNT}{_ALL}(?:(?:new|soft|long|longest|strong|stray|top|outer|second|third) )+(?:shoots?|growth|extensions?){_WHERE}{_CUT}",
        noun=True,
    ),
    *rows(
        "trimmed",
        rf"(?:gone|went|been|go) (?:all )?(?:round|over|around|through)(?: (?:it|her|him|them|all|the (?:top|lot|tree|outline|outside|pads)))* (?:with|using) (?:the |my )?{_SHEARS}",
        rf"(?:once|quick) (?:over|round|trim|clip)(?: with (?:the )?{_SHEARS})?(?=$|,)",
        rf"{_SHEARS} (?:round|all over|all round|along)(?: (?:it|the (?:top|outline|outside|pads)))?(?=$|,)",
    ),
    *rows(
        "pruned",
        r"crown (?:cut|reduced|thinned|taken back|brought in) (?=hard\b|back\b|by (?:a third|half|\d))",
        r"cut (?=(?:back )?to (?:green|old wood|live wood|the (?:first|lowest) (?:bud|shoot))\b)",
        noun=True,
    ),
    *rows(
        "plucked",
        r"(?:last year'?s|old|yellow|brown|second year|two year old) needles(?=,? (?:\d[\d.,/ ]* (?:h|min)\b|by hand|tweezers|with tweezers|by fingers))",
        r"(?:\d|two|three) year(?:s|-old| old)? needles (?:pulled|plucked)",
        r"(?:last year'?s|old) needles (?:pulled|plucked|picked)(?: (?:off|out|away))?",
        details="old needles",
        noun=True,
    ),
    *rows(
        "deadheaded",
        rf"{_ALL}(?:spent|faded|old|brown|finished|limp|last) ?(?:flowers?|blooms?|blossoms?|heads|trusses|petals)?(?: all)? (?:picked|twisted|nipped|snapped|pulled|taken|snipped|cut|pinched|came)(?: (?:off|out|away|over))*",
    ),
    *rows(
        "thinned",
        r"(?:all )?(?:the )?(?:fruits?|fruitlets|haws|berries|crabs|apples|figs|hips|cones|seed ?pods)(?:,)? (?=(?:all off|(?:all )?(?:picked off|removed|taken off))(?:$|,))",
        details="fruit",
    ),
    *rows(
        "treated",
        rf"(?:about |abt |ca )?(?:\d{{1,3}} )?(?:odd )?{_PEST}{_WHERE} (?:picked|squashed|squished|rubbed|scraped|wiped|crushed|killed|dug out|squeezed)(?: off| out| away)?(?: by hand| with [^,.;?]*)?(?=$|,| (?:and|from|on|under|at|\+)\b| \d)",
        rf"(?:picked|rubbed|scraped|wiped|squashed|squished) (?:off )?(?:about |abt |ca |all |the |some |a few )*(?:\d{{1,3}} )?{_PEST}(?: off)?(?=$|,)",
        details="by hand",
    ),
    *rows(
        "treated",
        rf"{_PEST}{_WHERE} (?:hosed|washed|blasted|jetted|showered|rinsed)(?: (?:off|down|away|out))?",
        r"(?:hosed|washed|blasted|jetted|showered) (?:off |down )(?:with (?:the )?(?:hose|water|jet))?",
        details="water jet",
    ),
    *rows(
        "cleaned",
        r"(?:last year'?s|old|dead|brown) leaves (?:pulled|plucked|picked|taken|cut)(?: (?:off|out|away))?(?=$|,)",
        details="dead leaves",
    ),
    *rows(
        "cleaned",
        r"snow (?:\d+ (?:cm|inch) )?(?:all )?(?:knocked|brushed|shaken|swept|cleared|taken) off(?=$|,)",
        details="snow off",
    ),
    *(
        row
        for said, what in (
            ("fallen leaves", "fallen leaves"),
            ("(?:dead|old|brown) leaves", "dead leaves"),
            ("(?:dead|old|brown) needles", "old needles"),
        )
        for row in rows(
            "cleaned",
            rf"{said} (?:all )?(?:swept|raked|cleared|brushed|shaken|blown|gathered|picked up)(?: (?:up|off|out|away|from))*"
            r"(?: (?:the )?(?:soil|moss|surface|pots?|forks?|branches|bench))?(?=$|,)",
            details=what,
        )
    ),
    *(
        row
        for what in ("bark", "trunk", "nebari", "leaves", "foliage")
        for row in rows(
            "cleaned",
            rf"(?:the )?{what} (?:brushed|scrubbed|wiped|washed|cleaned)(?: (?:down|off|clean|up))*(?=$|,| with | by hand)",
            details=what,
        )
    ),
    *rows(
        "cleaned",
        r"(?:loose|flaking|old) bark (?:picked|brushed|peeled|rubbed|scraped|tidied)(?: off| away)?(?=$|,)",
        details="bark",
    ),
)
