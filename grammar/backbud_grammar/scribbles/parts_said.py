"""How details are said by the part or the thing that they are of: what was left out, how far a
branch went back, what the root ball was brought to.

Rows as in `details_said.py`, which takes them in.
"""

from __future__ import annotations

from collections.abc import Mapping

Ways = tuple[tuple[str, str], ...]
_LEN = r"(\d+(?:[.,]\d+)?(?:-\d+(?:[.,]\d+)?)? (?:mm|cm|inch))"
# A part by its place, as a tree has it.
_WHERE = (
    r"((?:(?:low|lower|lowest|upper|top|topmost|inner|inside|outer|outside|weak|weaker|weakest|strong|strongest|small|back|front|left|right"
    r"|first|second|third|apex|crown|leader|tips?|trunk|sunny|shady|north|south|east|west|side|branch(?:es)?|shoots?|candles?|\d{1,2})(?: |$))+(?<! )"
    r"|(?:(?:low|lower|lowest|upper|top|topmost|inner|inside|outer|outside|weak|weaker|weakest|strong|strongest|small|back|front|left|right"
    r"|first|second|third|apex|crown|leader|tips?|trunk|sunny|shady|north|south|east|west|side|branch(?:es)?|shoots?|candles?|\d{1,2}) )+(?=\w))"
)
_ONE_PART = (
    r"((?:(?:low|lower|first|second|third|back|front|new|old) )*"
    r"(?:apex|top|leader|crown|(?:left|right)(?: \d{1,2})?|back|front)(?: branch)?)"
)
_BACK = r"(?:(?:is|was|now|cut|taken|brought|sawn|pruned|shortened|all) )*back (?:down )?(?:to|on to|onto) (?:the )?"
_BRANCHES: Ways = (
    (
        rf"(?:the )?{_WHERE}\s*(?:ones? |ones |half )?(?:is |are |was |were |got )?(?:nothing|none|not at all|not(?= (?:touched|done|cut|pinched|off)\b))"
        r" ?(?:touched|done|cut|pinched|off|at all)?",
        r"except on \1",
    ),
    (
        rf"(?:the )?{_WHERE}\s*(?:ones? |branch )?(?:keeps?|kept) (?:his|its|theirs|hers|it|them|all|all of (?:his|its|them)"
        r"|(?:his|its|their|her|all|the) (?:leaves|needles|candles|shoots|buds))(?: (?:on|all|for now))?",
        r"except on \1",
    ),
)
_SIDE = r"(?:left|right|front|back|upper|lower|top|bottom|north|south|east|west|outer|inner)"
_BRANCHES = (
    *_BRANCHES,
    (rf"(?:only )?(?:the )?({_SIDE} (?:half|side))(?: only)?", r"on \1"),
)
_PRUNED: Ways = (
    *_BRANCHES,
    (
        rf"(?:the )?{_ONE_PART} (?:all )?(?:cut |pruned )?back to (\d|one|two|three) (buds?|eyes|nodes|pairs|leaves)",
        r"back to \2 \3 on \1",
    ),
    (
        r"(?:\d+ )?(water shoots|suckers)(?: (?:all|at|on|from|off|the|base|foot|roots?|trunk|bottom|cut|out|removed))*",
        r"\1",
    ),
    (
        rf"(?:the )?{_ONE_PART} {_BACK}((?:first|second|third|low|lower|last|next|new|strong|side|back|left|right|front|"
        r"\d{1,2}|fork|branch|shoot|bud|side branch|side shoot| )+)",
        r"on \1, shortened to \2",
    ),
    (
        r"(two|three|[2-9]) (?:(?:big|thick|heavy|long|old|strong|crossing|wrong) )+(?:ones?|branch(?:es)?|shoots?)?\s?"
        r"(?:at|on|in|near) (?:the )?(top|apex|crown|back|front|left|right|inside|base|left \d{1,2}|right \d{1,2})"
        r" (?:out|off|cut|cut out|cut off|sawn off|sawn out|removed|taken out)",
        r"\1 branches on \2",
    ),
    (
        r"(?:a |the |one |1 )?(?:(?:big|thick|heavy|long|old|strong|crossing|wrong) )+(?:one|branch|shoot)?\s?"
        r"(?:at|on|in|near) (?:the )?(top|apex|crown|back|front|left|right|inside|base|left \d{1,2}|right \d{1,2})"
        r" (?:out|off|cut|cut out|cut off|sawn off|sawn out|removed|taken out)",
        r"1 branch on \1",
    ),
    (rf"wounds? {_LEN} (?:across|wide|there|now)", r'observed "wound \1"'),
)
_BALL = r"(?:the )?(?:root ?ball|ball|kluit|ballen|soil ball)"
_POTTING: Ways = (
    (
        rf"{_BALL} (?:(?:raked|combed|cut|reduced|shaved|taken|brought|sawn|opened) )+(?:down |back |off )*to {_LEN}"
        r"(?: (?:high|deep|thick|flat))?",
        r"ball now \1",
    ),
    (
        rf"{_BALL} (?:is |now |only |still )*{_LEN}(?: (?:high|deep|thick))?(?: now)?",
        r"ball now \1",
    ),
    (
        rf"(?:one |a |the )?(?:(?:thick|big|heavy|fat|large|old|long|stump|crossing) )*(?:stump )?root(?: {_LEN})? (?:at|on) (?:the )?(?:front|back|left|right|side|bottom)"
        r" (?:(?:sawn|sawed|cut|taken) (?:flat|flush|off|back|away|out)|off|out|gone)",
        "thick roots off",
    ),
    (
        r"(?:roots?|all|ball|kluit|roots all) (?:all )?(?:washed|hosed)(?: (?:out|clean|bare))?",
        "washed",
    ),
    (r"(?:fresh|new|all fresh|all new|in fresh|in new) ([^\W\d]+)", r"mix \1"),
    (r"in(?:to)? (?:fresh |new |pure )*([^\W\d]+)(?: only)?", r"mix \1"),
    (r"([^\W\d]+) (?:fresh|all new|all fresh|sieved)", r"mix \1"),
    (
        rf"(?:tree|it|now) (?:sits |stands |is )?{_LEN} (higher|lower)(?: than before| now)?",
        r"\1 \2",
    ),
    (
        r"(?:the )?(?:tree|it|trunk) (?:(?:leans|leaning|tilted|set|now) )*(\d+) degrees (?:more )?(to the left|to the right|forwards|backwards)",
        r"tilted \1 degrees \2",
    ),
    (
        r"(\d) (?:ties?|wires?) (?:of |in |with )?(?:alu?|aluminium) (\d(?:[.,]\d)?)(?: mm)?",
        r"tied \2 mm Al x \1",
    ),
    (
        r"(\d) (?:ties?|wires?) (?:of |in |with )?(?:cu|copper) (\d(?:[.,]\d)?)(?: mm)?",
        r"tied \2 mm Cu x \1",
    ),
)
_CARVED: Ways = (
    (
        rf"(?:the )?(jins?|shari|hollow|uro) {_LEN} (wider|longer|deeper|wide|long|deep)"
        r"(?: (?:on|at) (?:the )?(left|right|front|back|trunk|left \d|right \d|apex))"
        r"(?: (?:till|to|up to|until) (?:the )?live (?:vein|line))",
        r"\1, \2 \3 on \4, to the live vein",
    ),
    (
        rf"(?:the )?(jins?|shari|hollow|uro) {_LEN} (wider|longer|deeper|wide|long|deep)"
        r"(?: (?:on|at) (?:the )?(left|right|front|back|trunk|left \d|right \d|apex))",
        r"\1, \2 \3 on \4",
    ),
    (
        rf"(?:the )?(jins?|shari|hollow|uro) {_LEN} (wider|longer|deeper|wide|long|deep)",
        r"\1, \2 \3",
    ),
    (r"(?:till|to|up to|until) (?:the )?live (?:vein|line)", "to the live vein"),
    (
        r"(?:the |old |broken |new |top |big |small )*(jins?|shari)(?: (?:on|at) (?:the )?(left|right|front|back|trunk|left \d|right \d|apex))? "
        r"(?:(?:is|was|carved|cut|made|worked|refined|all|now) )*(?:shorter|thinner|finer|narrower|smaller|sharper|rounder|smoother)",
        r"\1, refined",
    ),
)
_WIRED: Ways = (
    (
        r"(?:wire )?(alu?|aluminium|cu|copper) (\d(?:[.,]\d)?)(?: mm)? on (\d+) (shoots|branches|twigs|tips)",
        r"\2 mm ^1, \3 \4",
    ),
    (
        r"(?:the |new |young |side |long )*(leader|apex|top|tip|crown|trunk|(?:left|right) \d{1,2}|(?:left|right) side|low (?:left|right)|back branch|front branch|branch|shoot)"
        r" (?:(?:brought|pulled|bent|set|put|laid|trained|led) )?(up|down|straight|sideways) with (?:wire )?(alu?|aluminium|cu|copper) (\d(?:[.,]\d)?)(?: mm)?",
        r"\4 mm ^3 on \1, set \2",
    ),
    (
        r"(?:the |new |young |side |long )*(leader|apex|top|tip|crown|trunk|(?:left|right) \d{1,2}|(?:left|right) side|low (?:left|right)|back branch|front branch|branch|shoot)"
        r" (?:(?:brought|pulled|bent|set|put|laid|trained|led) )?(up|down|straight|sideways) with (\d(?:[.,]\d)?)(?: mm)? ?(alu?|aluminium|cu|copper)",
        r"\3 mm ^4 on \1, set \2",
    ),
)
_SEPARATED: Ways = (
    (
        r"(?:potted |in |into |in a |into a )*(\d+(?:[.,]\d)? cm) (?:(?:clay|plastic|terracotta|round|square|training|mesh|bonsai) )*(?:clay|plastic|terracotta|pots?|box|basket)",
        r"potted, \1 pot",
    ),
)
_PLUCKED: Ways = (
    (
        r"(?:old needles )?(\d+(?:-\d+)?) pairs? (?:left|kept|stay)(?: (?:on|all over|everywhere))?",
        r"leaving \1 pairs",
    ),
)
_PROTECTED: Ways = (
    (
        r"(?:the |an? |old )*(tarp(?:aulin)?|parasol|umbrella|wet sheet|plastic sheet|cold frame lid|glass pane|board|carpet|rug|reed mat"
        r"|coconut mat|straw mat|coir mat|jute(?: sack)?|sacks?|sacking|blanket|cardboard|newspaper)"
        r" (?:over|on top|above|round|around|on)(?: (?:it|all|the (?:tree|crown|bench|box|top)|(?:the )?(?:pots?|box|ball|kluit|soil|surface|root ball)))?"
        r"(?: (?:for|against) (?:the )?(?:hail|frost|rain|snow|sun|wind|storm|night|sleet|downpour))?",
        r"with \1",
    ),
)
_BENT: Ways = (
    (r"(?:with )?(?:raffia(?: wet)?|wet raffia)(?: (?:on|under|first|round))?", "with raffia"),
)
_FED: Ways = (
    (r"(?:round|along|at|on|near) (?:the )?(?:pot )?(?:rim|edges?)", ""),
    (r"half (?:dose|rate)", "half strength"),
)
_MEASURED: Ways = (
    (
        r"pH ?([\d.,]+) (?:in|of|at) (?:the )?(run-?off|rain|tap|barrel|tank|soil|saucer|water)(?: water)?",
        r'pH \1, of "\2"',
    ),
    (
        r"EC ?([\d.,]+) (?:in|of|at) (?:the )?(run-?off|rain|tap|barrel|tank|soil|saucer|water)(?: water)?",
        r'EC \1 mS/cm, of "\2"',
    ),
)
# What is said so of each act beside what other tables have.
_TRIMMED: Ways = (
    (
        r"(\d+) (?:long )?(?:whips|shoots) (?:cut )?(?:back )?to (\d+) (leaves|buds|pairs)",
        r"\1 shoots, to \2 \3",
    ),
)
OF_PARTS: Mapping[str, Ways] = {
    **dict.fromkeys(
        (
            "pinched",
            "decandled",
            "defoliated",
            "disbudded",
            "deadheaded",
            "rubbed",
            "thinned",
        ),
        _BRANCHES,
    ),
    "plucked": (*_PLUCKED, *_BRANCHES),
    "trimmed": (*_TRIMMED, *_BRANCHES),
    "pruned": _PRUNED,
    **dict.fromkeys(("repotted", "potted-on", "slipped", "lifted"), _POTTING),
    "protected": _PROTECTED,
    "bent": _BENT,
    "fed": _FED,
    "measured": _MEASURED,
    "carved": _CARVED,
    "wired": _WIRED,
    "separated": _SEPARATED,
}
