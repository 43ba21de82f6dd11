"""How a line says what was done to branches, leaves and flowers: the thing first, or the hand.

Each thing with each word for what only hands do to it; what may also fall, break or come off by
itself stands in none of these.
"""

from __future__ import annotations

from msgspec.structs import replace

from backbud_grammar.scribbles.openings.row import ActOpening, rows

# Where the words for the work end.
_END = r"(?=$|,| (?:on|from|at|to|by|with|in|again|today)\b| \d)"
_ONLY = r"(?=$|,)"
_ALL = r"(?:(?:all|the|both|of|these|those|my|its|her|his) )*"
_WERE = r"(?: (?:is|are|was|were|has been|have been|got|all|now))*"
_BUDS = (
    r"(?:(?:trunk|belly|downward|underside|armpit|crotch|epicormic|adventitious|unwanted|useless|basal|base|root"
    r"|back|low|lower|stray|dormant) )+(?:buds?|shoots?)"
)
_SPENT = (
    r"(?:(?:spent|old|faded|dead|brown|finished|last|withered|wilted) )*"
    r"(?:flowers?|blooms?|blossoms?|trusses|petals|seed ?pods|pods|flower heads|seed heads)"
)
_TRIMMED = (
    r"(?:trimmed|clipped|sheared|scissored|shortened|tidied|snipped)(?: (?:back|over|in|up|off))?"
    r"|(?:cut|taken|brought) (?:back|in)"
)

# What only a hand does.
_BY_HAND: tuple[ActOpening, ...] = (
    *rows(
        "pruned",
        rf"(?:hard|heavy|severe) (?:prun(?:e|ing)|cut[- ]?back)(?: done)?{_END}",
        details="hard",
        noun=True,
    ),
    *rows("pruned", rf"structural prun(?:e|ing)(?: done)?{_END}", details="structural", noun=True),
    *rows("pruned", rf"light prun(?:e|ing)(?: done)?{_END}", details="light", noun=True),
    *rows(
        "pruned",
        r"(?:(?:all|the|structural|winter|spring|summer|autumn|big|main|yearly|annual) )*pruning (?:all )?(?:done|finished|complete)(?=$|,)",
        r"headed back(?=$|,| hard(?:$|,)| to \d)",
        r"(?:spurred|shortened|cut) back (?=to (?:\d|one|two|three) (?:buds?|nodes?|eyes?)(?:$|,| on | all))",
        r"(?:everything|it all|all (?:of it|shoots|twigs|growth)) (?:cut )?back (?=to (?:\d|one|two|three) (?:buds?|nodes?|eyes?)(?:$|,))",
    ),
    *rows("pruned", r"(?:winter|summer|spring|autumn|maintenance) prun(?:e|ing)(?=$|,)", noun=True),
    *rows(
        "pruned",
        rf"(?:all )?(?:the )?dead (?:twigs|shoots|spurs){_WERE} (?:snapped|broken|rubbed|snipped|clipped|picked) (?:out|off){_ONLY}",
        details="dead twigs",
    ),
    *rows(
        "trimmed",
        rf"{_ALL}(?:outline|silhouette|contour|shape|profile){_WERE} (?:{_TRIMMED}|cut){_END}",
        details="outline",
    ),
    *rows(
        "trimmed",
        rf"{_ALL}(?:(?:cloud|foliage|lower|upper|side|top) )*(?:pads?|tufts?|clouds?|layers of foliage){_WERE} (?:{_TRIMMED}|cut){_END}",
        rf"{_ALL}(?:(?:new|side|stray|long|soft|strong) )*(?:extensions?|side shoots|runners|tips|laterals){_WERE} (?:{_TRIMMED}){_END}",
        r"(?:scissored|sheared|clipped|trimmed|cut) (?:all )?over(?=$|,)",
        r"(?:scissors?|shears) (?:over|all over|round|through) (?:it|the (?:top|lot|outline|crown|outside|pads))(?=$|,)",
        r"trimming (?:all )?(?:done|finished)(?=$|,)",
    ),
    *rows("trimmed", rf"{_ALL}new growth{_WERE} (?:{_TRIMMED}){_END}", details="new growth"),
    *rows(
        "trimmed",
        r"(?:light|gentle) (?:trim|clip|tidy)(?:[- ]?up)?(?=$|,)",
        details="light",
        noun=True,
    ),
    *rows(
        "trimmed",
        r"(?:quick|tidy|tidying|maintenance|summer|spring|autumn|final|last|little|short|small|good|bit of a|general) (?:trim|clip|haircut)(?: all over| all round)?(?=$|,)",
        r"sciss?ors? (?:work|trim)(?=$|,)",
        noun=True,
    ),
    *rows(
        "pinched",
        rf"{_ALL}(?:(?:opening|new|soft|young|strong|strongest|outer|inner|top|leading|terminal|growing) )*(?:hearts|centres?|centers?|growing (?:points|tips)|side shoots|young shoots|brushes|bud clusters|terminal buds|end buds|growth tips){_WERE} (?:pinched|nipped|snapped|twisted|plucked)(?: (?:out|off|back))?{_END}",
        rf"(?:(?:opening|leaf|terminal|end|outer|strong|new) )*buds{_WERE} (?:pinched|nipped)(?: (?:out|back))?{_END}",
        r"growing (?:points|tips) out(?=$|,)",
        r"pinching (?:all )?(?:done|finished|over)(?=$|,)",
        rf"(?:pinched|nipped) (?:out )?(?:all )?(?:the )?(?:growing (?:points|tips)|hearts|centres?|soft growth){_ONLY}",
    ),
    *rows("decandled", r"candle[- ]?cutting(?=$|,)", noun=True),
    *rows(
        "plucked",
        rf"(?:\d|two|three)(?: |-)?y(?:ea)?rs?(?:(?: |-)old)? needles{_WERE} (?:pulled|plucked|removed|taken off|picked out|pulled out|pulled off){_END}",
        rf"(?:(?:all|the|old|older|last year'?s|yellow|hanging|brown) )+needles{_WERE} (?:pulled off|pulled out|plucked off|plucked out|plucked|pulled|picked out|picked off|tweezered(?: out)?){_END}",
        details="old needles",
    ),
    *rows("plucked", r"(?:needles? )?plucking (?:all )?(?:done|finished)(?=$|,)"),
    *rows(
        "plucked",
        r"needles{_WERE} (?:thinned|plucked|pulled|reduced) (?=to \d+ (?:pairs?|needles))".replace(
            "{_WERE}", _WERE
        ),
        r"needles (?=to \d+ pairs?(?:$|,| (?:a|per) ))",
    ),
    *rows(
        "defoliated",
        r"(?:leaf[- ]?(?:cutting|pruning)|defoliating|defoliation)(?: all)? (?:done|finished)(?=$|,)",
    ),
    *rows("defoliated", r"(?:leaf[- ]?(?:cutting|pruning)|defoliation)(?=$|,| on )", noun=True),
    *rows(
        "deadheaded",
        rf"{_ALL}{_SPENT}(?: (?:and|\+|&) {_SPENT})*{_WERE} (?:(?:taken|picked|nipped|twisted|snipped|cut|pinched|pulled) off){_END}",
        rf"(?:picked|went|gone) over (?:it |the tree )?for (?:the )?{_SPENT}{_ONLY}",
    ),
    *rows(
        "rubbed",
        rf"{_ALL}{_BUDS}{_WERE} (?:rubbed|rubbed (?:off|out|away)|thumbed off){_END}",
        rf"{_ALL}(?:buds?|shoots?){_WERE} rubbed (?:off|out|away)(?: from| of)? (?:the )?(?:trunk|base|old wood|roots|nebari){_ONLY}",
        rf"(?:rubbed|thumbed) (?:off|out) {_ALL}{_BUDS}{_ONLY}",
        details="buds",
    ),
    *rows(
        "thinned",
        rf"{_ALL}(?:(?:outer|inner|top|upper|lower|dense) )*(?:foliage|pads?|clusters|tufts|forks|canopy|spurs|ramification){_WERE} thinned(?: out)?{_END}",
    ),
    *rows(
        "thinned",
        rf"(?:fruits?|berries|haws|crab ?apples|apples|hips|figs|crabs|fruitlets|quinces){_WERE} thinned(?: out)?{_END}",
        details="fruit",
    ),
    *rows(
        "thinned",
        r"(?:forks|shoots|tips|ends|twigs) (?:reduced|thinned|cut) (?=to (?:\d|one|two) (?:$|,|everywhere|each|per))",
        details="shoots",
    ),
)
# What came off, and nobody said by whom.
_CUT_OFF: tuple[ActOpening, ...] = (
    *rows(
        "pruned",
        rf"(?:the )?sacrifice (?:branch|leader|shoot|limb){_WERE} (?:off|removed|sawn off|cut){_ONLY}",
        rf"(?:cut|sawed|sawn|took) (?:off )?(?:the )?sacrifice (?:branch|leader|shoot|limb)(?: off)?{_ONLY}",
        details="sacrifice branch",
    ),
    *rows(
        "pruned",
        rf"(?:all )?(?:the )?dead ?wood{_WERE} (?:cut|sawn|clipped|snipped) (?:out|off|away){_ONLY}",
        details="dead wood",
    ),
    *rows(
        "pruned",
        rf"(?:all )?(?:the )?(?:crossers|crossing (?:branches|twigs|shoots)){_WERE} (?:out|removed|cut|cut out|taken out){_ONLY}",
        details="crossing branches",
    ),
    *rows(
        "pruned",
        rf"(?:all )?(?:the )?bar branch(?:es)?{_WERE} (?:removed|cut out|cut|taken out){_ONLY}",
        details="bar branches",
    ),
    *rows(
        "pruned",
        rf"(?:all )?(?:the )?water ?shoots?{_WERE} (?:off|out|removed|taken off){_ONLY}",
        details="water shoots",
    ),
    *rows(
        "pruned",
        rf"(?=(?:\d|one|two|three|four) (?:(?:side|back|low|lower|thick|old|big|heavy) )*branch(?:es)? (?:cut off|cut out|sawn off|sawn out|taken out|taken off|removed){_ONLY})",
    ),
    *(
        row
        for said, details in (
            ("top|upper", "on top"),
            ("low|lower|bottom", "on low"),
            ("inner|inside", "inner"),
            ("outer|outside", "outer"),
            ("medium|middling", "medium"),
        )
        for row in rows(
            "decandled",
            rf"(?:all )?(?:the )?(?:{said}) candles{_WERE} (?:cut off|cut out|cut|removed|taken off|off){_END}",
            details=details,
        )
    ),
    *rows(
        "decandled",
        r"(?:(?:all|the|new|spring|summer|first|remaining|last|other|rest|of|this year'?s) )*candles(?: (?:were|was|all|now))* (?:cut off|cut out|cut|removed|taken off|off)(?=$|,| \d| on | at | leaving | except )",
        r"(?:cut|removed|took off) (?:off |out )?(?:(?:all|the|new|spring|summer|remaining|last|other|rest|of) )*candles(?: off)?(?=$|,| \d| on | except )",
        r"candle[- ]?(?:cut|cutting) (?:all )?(?:done|finished)(?=$|,)",
        r"decandling (?:all )?(?:done|finished)(?=$|,)",
    ),
    *(
        row
        for said, details in (
            ("big|biggest|large|largest|oversized|over-?size|coarse", "large leaves"),
            ("outer|outside|outermost", "outer leaves"),
            ("damaged|torn|scorched|burnt|spotted", "damaged leaves"),
        )
        for row in rows(
            "defoliated",
            rf"{_ALL}(?:{said}) leaves{_WERE} (?:cut off|cut|snipped off|snipped|clipped off|nipped off){_END}",
            rf"(?:cut|took|snipped|removed) (?:off )?(?:all )?(?:the )?(?:{said}) leaves(?: off)?{_ONLY}",
            details=details,
        )
    ),
    *rows(
        "defoliated",
        rf"(?:one|1) (?:leaf )?(?:of|from|in) (?:each|every) pair{_WERE} (?:off|cut|cut off|taken off|removed){_ONLY}",
        rf"(?:every|each) (?:second|other|2nd) leaf{_WERE} (?:off|cut|cut off|taken off|removed){_ONLY}",
        rf"half (?:of )?(?:the )?leaves{_WERE} (?:cut|taken off|cut off|snipped off){_ONLY}",
        details="half of the leaves",
    ),
    *rows(
        "disbudded",
        r"(?=\d{1,3} flower ?buds (?:off|taken off|picked off|removed|rubbed off|cut off|nipped off)(?:$|,))",
        rf"(?:all )?(?:the )?flower ?buds{_WERE} (?:taken off|picked off|pulled off|nipped off|rubbed off|pinched off|cut off|twisted off){_END}",
    ),
    *rows(
        "disbudded",
        rf"half (?:of )?(?:the )?flower ?buds{_WERE} (?:off|taken off|picked off|removed){_ONLY}",
        details="half",
    ),
)
OPENINGS: tuple[ActOpening, ...] = (
    *_BY_HAND,
    *(replace(row, done_to=True) for row in _CUT_OFF),
)
