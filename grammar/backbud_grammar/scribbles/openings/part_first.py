"""How a line names the part or the thing first, and by it what was done: to branches, deadwood,
wounds, pot and place."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

_ONLY = r"(?=\s*$|,)"
_ADJ = r"(?:(?:the|new|old|young|side|long|broken|big|small|top|live|all|both|dead|thick|strong|heavy|wrong|crossing) )*"
_PART = (
    r"(?:leader|apex|top|tip|crown|trunk|(?:left|right) \d{1,2}|(?:left|right) side|low (?:left|right)|back branch"
    r"|front branch|branch|shoot)"
)
_METAL = r"(?:alu?|aluminium|cu|copper)"
_WIRE = rf"(?:(?:wire )?{_METAL} \d(?:[.,]\d)?(?: mm)?|\d(?:[.,]\d)?(?: mm)? ?{_METAL})"
_SET = r"(?:(?:brought|pulled|bent|set|put|laid|trained|led) )?(?:up|down|straight|sideways)"
_AT = (
    r"(?:at|on|in|near) (?:the )?(?:top|apex|crown|back|front|left|right|inside|base)(?: \d{1,2})?"
)
_OUT = r"(?:out|off|cut|cut out|cut off|sawn off|sawn out|removed|taken out)"
_SHEET = (
    r"(?:tarp(?:aulin)?|parasol|umbrella|wet sheet|plastic sheet|cold frame lid|glass pane|board)"
)
_MAT = r"(?:carpet|rug|reed mat|coconut mat|straw mat|coir mat|jute(?: sack)?|sacks?|sacking|blanket|cardboard|newspaper)"
_JIN = r"(?:jins?|shari)"
_LEN = r"\d+(?:[.,]\d+)? (?:mm|cm)"
_COMPARED = r"(?:shorter|thinner|finer|narrower|smaller|sharper|rounder|smoother)"
_WITH_BRUSH = r"(?: with (?:(?:a|the|soft|wet|wire|brass|nylon|old|some) )*(?:brush|toothbrush|water|cloth|hose|vinegar|soap)(?: ?(?:\+|and|&) ?(?:brush|water|soap))?)?"

# Nobody says who did it: what died back or broke off is said alike.
DONE_TO: tuple[ActOpening, ...] = (
    *rows(
        "pruned",
        rf"(?={_ADJ}(?:apex|top|leader|crown|(?:(?:low|lower|upper) )?(?:left|right)(?: \d{{1,2}})?|back|front)(?: branch)? (?:(?:was|cut|taken|brought|sawn|pruned|shortened) )*back "
        r"(?:down )?(?:to|on to|onto) (?:the )?(?:(?:first|second|third|low|lower|last|next|new|strong) )*"
        rf"(?:left|right|fork|branch|shoot|side branch|side shoot)(?: \d{{1,2}})?(?: branch| shoot)?{_ONLY})",
        rf"(?=(?:one|two|three|\d|a) (?:(?:big|thick|heavy|long|old|strong|crossing|wrong) )+(?:(?:ones?|branch(?:es)?|shoots?) )?{_AT} {_OUT}{_ONLY})",
        rf"(?=(?:the )?(?:(?:big|thick|heavy|long|old|strong|crossing|wrong) )+(?:one|branch|shoot) {_AT} {_OUT}{_ONLY})",
    ),
    *rows(
        "pruned",
        rf"(?={_ADJ}(?:apex|top|leader|crown|(?:left|right)(?: \d{{1,2}})?|back|front)(?: branch)? (?:all )?(?:cut |pruned )?back to (?:\d|one|two|three) (?:buds?|eyes|nodes){_ONLY})",
        rf"(?=(?:\d+ )?(?:water shoots|suckers) (?:all )?(?:off|cut|out|removed|cut off)(?: (?:at|on|from) (?:the )?(?:base|foot|roots?|trunk|bottom))?{_ONLY})",
    ),
    *rows(
        "carved",
        rf"(?={_ADJ}(?:jins?|shari|hollow|uro) {_LEN} (?:wider|longer|deeper)(?: (?:on|at) (?:the )?(?:left|right|front|back|trunk|apex)(?: \d)?)?(?: (?:till|to|up to|until) (?:the )?live (?:vein|line))?{_ONLY})",
    ),
    *rows(
        "pruned",
        r"(?:cut |taken |all )?back hard(?: (?:all (?:round|over)|after all|again|this time))*(?=\s*$|,)",
        details="hard",
    ),
    *rows(
        "trimmed",
        r"(?=(?:all|every|all the|all new) shoots? (?:cut |taken )?(?:back )?to (?:\d|one|two|three)(?: (?:leaves|leaf|buds|pairs))?\s*(?:$|,))",
    ),
)
OPENINGS: tuple[ActOpening, ...] = (
    *rows("wired", rf"(?={_ADJ}{_PART} {_SET} with {_WIRE}{_ONLY})"),
    *rows(
        "trimmed",
        r"(?:cut|clipped|trimmed|sheared)(?: all)? round(?: (?:it|the tree|the crown))?(?: like a (?:hedge|ball|box|cloud))?(?=\s*$|,)",
        details="outline",
    ),
    *rows(
        "pinched",
        r"(?=(?:(?:the|all|both|long|strong|outer|big) )*candles (?:broken |snapped |pinched )?(?:to|by) (?:half|a third|1/2|1/3)(?: on top| at the top)?\s*(?:$|,))",
    ),
    *rows(
        "carved",
        rf"(?={_ADJ}{_JIN}(?: (?:on|at) (?:the )?(?:left|right|front|back|trunk|apex)(?: \d)?)? (?:carved|cut|made|worked|refined) {_COMPARED}{_ONLY})",
    ),
    *rows(
        "cleaned",
        rf"(?:the )?(?:live (?:veins?|lines?)|jins?|shari|deadwood|bark|trunk|nebari) (?:(?:brushed|scrubbed|washed|wiped|cleaned)(?: (?:clean|off|down|again))*){_WITH_BRUSH}{_ONLY}",
    ),
    *rows(
        "sealed",
        rf"(?:(?:the|all|both|cut|shari|vein|live|its|clean) )*(?:edges?|cuts?|wounds?|stumps?|stubs?|saw cuts?)(?: (?:on|at) (?:the )?mother)?(?: with)? (?:pasted|sealed|waxed|paste(?: on| over| new| again)?|putty){_ONLY}",
    ),
    *rows(
        "deadheaded",
        rf"(?:all|everything|all (?:the )?flowers|flowers|blooms) off (?=with (?:the )?(?:ovar(?:y|ies)|(?:seed ?)?pods?){_ONLY})",
    ),
    *rows(
        "received",
        r"(?:came|arrived)(?: in| here| back| home| over)* (?:with|by) (?=@PERSON@\s*(?:$|,))",
        details="from",
    ),
    *rows(
        "moved",
        r"(?=@PLACE@ again\s*(?:$|,))",
        r"(?=@PLACE@ (?:against|because of|out of) (?:the )?(?:rain|frost|wind|sun|hail|heat|snow|storm|cold|wet)\s*(?:$|,))",
        r"(?=@PLACE@ for (?:the )?(?:winter|summer|night|heat|frost|flowering|flowers|season)\s*(?:$|,))",
    ),
    *rows(
        "pruned",
        r"cut hard(?: (?:all (?:round|over)|back|after all|again))*(?=\s*$|,)",
        details="hard",
    ),
    *rows(
        "protected",
        rf"(?={_SHEET} (?:over|on top|above)(?: (?:it|all|the (?:tree|crown|bench|box|top)))?(?: (?:for|against) (?:the )?(?:hail|frost|rain|snow|sun|wind|storm|night|sleet|downpour))?\s*(?:$|,))",
    ),
    *rows(
        "unprotected",
        rf"(?:the )?(?:old )?(?:{_SHEET}|{_MAT}) (?:is |was |all )*(?:off|away|removed|down|taken off|lifted off)(?=\s*$|,)",
    ),
    *rows(
        "protected",
        rf"(?=(?:the )?(?:old )?{_MAT} (?:round|around|over|on) (?:the )?(?:pots?|box|ball|kluit|soil|surface|root ball)\s*(?:$|,))",
    ),
    *rows("sealed", r"paste (?:x ?|on )?(?=\d(?: ?x| times| cuts?| wounds?)?\s*(?:$|,))"),
    *rows("returned", r"handed to (?P<to>@PERSON@)(?!['’])"),
    *rows(
        "worked",
        r"(?=\d[\d.,/ ]* (?:h|min)(?: \d\d)? with (?:(?:the|a|my|sharp|small|new|old|wet|soft) )*"
        r"(?:scissors|shears|tweezers|saw|knife|headlamp|lamp|lens|loupe|chisel|gouge|brush|wire brush|hook|root hook|drill|rake|pliers|cutters|fingers|fingertips|toothbrush|chopstick)\s*$)",
    ),
    *rows("moved", r"(?=@PLACE@ out (?:of|from) (?:the )?@PLACE@\s*(?:$|,))"),
    *rows(
        "guyed",
        r"(?=\d guys? (?:to|from) (?:the )?(?:pot rim|rim|pot|box|trunk|root|nebari|jin|screws?|feet|foot)\s*(?:$|,))",
    ),
)
