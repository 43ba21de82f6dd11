"""How a line says what was done with wire, to dead wood, wounds, grafts and layers: the thing first, or the hand."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.done_to import BRANCH
from backbud_grammar.scribbles.openings.row import PART, ActOpening, rows

# Where the words for the work end.
_END = r"(?=$|,| (?:on|from|at|to|by|with|in|again|today)\b| \d)"
_ONLY = r"(?=$|,)"
_ALL = r"(?:(?:all|the|both|of|these|those|my|its|her|his) )*"
_WERE = r"(?: (?:is|are|was|were|has been|have been|got|all|now))*"
_WIRES = r"(?:wires?|wiring|harigane)"
_WIRE_CUT = (
    r"(?:(?:cut|clipped|snipped|stripped|taken|nipped) (?:off|away|out|down)|unwound|unwrapped"
    r"|removed|off)"
)
_WOUND = r"(?:(?:big|large|small|old|new|saw|fresh|open|last) )*(?:cuts?|wounds?|stubs?|saw cuts?|scars?)"
_PASTE = (
    r"(?:cut paste|cut putty|wound paste|wound sealer|wound sealant|grafting wax|paste|putty|sealer"
    r"|sealant|wax)"
)
_DEADWOOD = r"(?:jins?|shari|deadwood|dead wood|tanuki|sabamiki)"
_NTH = r"(?:second|2nd|third|3rd|another|fresh|new|last|one more|first|1st)"

OPENINGS: tuple[ActOpening, ...] = (
    *rows("unwired", rf"(?:all (?:of )?)?(?:the )?{_WIRES}{_WERE} {_WIRE_CUT}{_ONLY}"),
    *rows(
        "unwired",
        rf"(?:all (?:of )?)?(?:the )?{_WIRES}{_WERE} {_WIRE_CUT} (?:from|off|of|out of|on) (?:the )?(?={PART})",
        rf"(?:took|cut|clipped|snipped|stripped|got|pulled|unwound) (?:all )?(?:the )?{_WIRES} (?:off|away|from)(?: of| from)? (?:the )?(?={PART})",
        details="on",
    ),
    *rows(
        "unwired",
        rf"(?:took|cut|clipped|snipped|stripped|got) (?:all )?(?:the )?{_WIRES} (?:off|away){_ONLY}",
        rf"(?:stripped|unwound) (?:all )?(?:the )?{_WIRES}{_ONLY}",
        rf"(?P<on>{BRANCH}) (?:unwired|de-?wired|freed of wire|stripped of wire){_ONLY}",
    ),
    *rows(
        "wired",
        rf"(?:put|set|got) (?:some )?wire (?=on (?:the )?{PART})",
        rf"wire (?:put|set|wound) (?=on (?:the )?{PART})",
        rf"(?P<on>{BRANCH}) (?:put )?(?:in|under) wire(?=$|, \d)",
        r"(?:(?:fine|detail|full|primary|secondary|branch|twig) )?wiring (?:all )?(?:done|finished|complete|completed)(?=$|,)",
        r"(?:finished|completed) (?:the )?wiring(?=$|,)",
        r"(?:detail|fine|fully|lightly)[- ]wired(?=$|,)",
        r"set in wire(?=$|,)",
    ),
    *rows("wired", rf"(?:all )?(?:the )?(?:main )?branches{_WERE} wired(?=$|, \d)", details="all"),
    *rows(
        "wired",
        rf"(?:all )?(?:the )?(?:twigs|fine branches|fine twigs|tertiaries|young shoots|side shoots){_WERE} wired(?=$|,| \d)",
        details="fine branches",
    ),
    *rows(
        "guyed",
        rf"(?P<on>{BRANCH}) (?:tied|anchored|guyed|held|drawn|brought|pulled) down (?=to (?:the )?(?:pot(?: rim)?|rim|box|root|foot|nail|screw)\b)",
        rf"(?P<on>{BRANCH}) (?:tied|anchored|held|drawn|brought|pulled) down (?:by|with) (?:a |one )?guy(?: wire)?{_ONLY}",
        rf"(?:pulled|drew|brought|tied|anchored|held) (?P<on>{BRANCH}) down (?=to (?:the )?(?:pot(?: rim)?|rim|box)\b)",
        rf"guy from (?P<on>{BRANCH}) (?=to (?:the )?(?:pot|rim|box|root|trunk|foot|nail|screw|jin|left|right)\b)",
    ),
    *rows(
        "unguyed",
        rf"(?:all )?(?:the |both )?guys?(?: wires?| lines?)?{_WERE} (?:removed|(?:cut|taken) (?:off|away)){_ONLY}",
        rf"(?:took|cut) (?:all )?(?:the |both )?guys?(?: wires?)? (?:off|away){_ONLY}",
    ),
    *rows(
        "unguyed",
        rf"(?:took|cut) (?:the )?guys?(?: wires?)? off (?:the )?(?={PART})",
        rf"(?:the )?guys?(?: wires?)? (?:removed|(?:cut|taken) off)(?: of| from)? (?:the )?(?={PART})",
        details="on",
    ),
    *rows("unguyed", rf"(?P<on>{BRANCH}) guy (?:off|removed|cut off|taken off){_ONLY}"),
    *rows(
        "wrapped",
        rf"(?P<on>{BRANCH}|(?:the )?trunk) (?:wrapped|bound|done|put) (?:up )?in (?:wet )?raffia{_ONLY}",
        rf"(?P<on>{BRANCH}|(?:the )?trunk) raffia(?:'?d|ed){_ONLY}",
        details="raffia",
    ),
    *rows(
        "wrapped",
        rf"(?:wet )?raffia (?:round|around|wound on|bound on|wound round) (?:the )?(?=(?:{BRANCH}|trunk){_ONLY})",
        rf"(?:bound|wrapped) (?:in|with) (?:wet )?raffia(?:,| on) (?=(?:{BRANCH}|trunk){_ONLY})",
        details="raffia, on",
    ),
    *rows(
        "unwrapped",
        rf"(?:all )?(?:the )?raffia{_WERE} (?:(?:cut|taken) (?:off|away)|unwound|removed){_ONLY}",
    ),
    *rows(
        "unwrapped",
        rf"(?:took|cut) (?:all )?(?:the )?raffia (?:off|away){_ONLY}",
    ),
    *rows(
        "unwrapped",
        rf"(?:took|cut) (?:the )?raffia off (?:the )?(?={PART})",
        rf"(?:the )?raffia (?:(?:cut|taken) off|removed)(?: of| from)? (?:the )?(?={PART})",
        details="on",
    ),
    *rows(
        "bent",
        rf"(?P<on>{BRANCH}) (?:lowered|brought down|bent down)(?= \d[\d.,/]* (?:mm|cm|inch|degrees)(?:$|,))",
        rf"lowered (?P<on>{BRANCH})(?: by)?(?= \d[\d.,/]* (?:mm|cm|inch|degrees)(?:$|,))",
        details="",
    ),
    *rows(
        "carved",
        rf"(?P<on>{BRANCH}) (?:jinned|made (?:in|into |a )?(?:to )?(?:a )?jin|turned into (?:a )?jin|stripped (?:for|to|as) (?:a )?jin){_ONLY}",
        details="new jin",
    ),
    *rows(
        "carved",
        rf"(?:the )?(?:old )?(?:stub|stump|snag|leader|dead (?:branch|leader|top)) (?:jinned|made (?:into )?a jin|turned into (?:a )?jin){_ONLY}",
        rf"(?:made|cut|tore|ripped) a (?:new |small |little |long |short )*jin{_END}",
        details="new jin",
    ),
    *rows(
        "carved",
        rf"(?:the )?jins?{_WERE} (?:refined|reworked|carved|recut|re-cut|thinned|shortened|tapered|textured){_END}",
        details="jin",
    ),
    *rows(
        "carved",
        rf"(?:the )?shari{_WERE} (?:extended|lengthened|made longer|deepened|reworked|carved|recut|widened|cut|opened){_END}",
        r"new shari(?=$|,| on )",
        details="shari",
    ),
    *rows(
        "carved",
        rf"(?:the )?(?:hollow|uro|sabamiki|stump|cut|wound|old cut) (?:was )?(?:hollowed(?: out)?|carved(?: out)?|deepened|opened with (?:the )?(?:gouge|grinder)|gouged(?: out)?){_END}",
        rf"hollowed out (?:the )?(?:stump|cut|wound|stub){_ONLY}",
        details="hollow",
    ),
    *rows(
        "carved",
        rf"(?:the )?deadwood{_WERE} (?:carved|refined|reworked|worked on|textured){_END}",
        details="deadwood",
    ),
    *rows("carved", r"(?:power|machine)[- ]carv(?:ed|ing)(?=$|,| on )", details="with power tools"),
    *rows("carved", r"carving (?:all )?(?:done|finished)(?=$|,)"),
    *rows(
        "treated-deadwood",
        rf"{_NTH} coat(?: of)? (?:lime[- ]?sul(?:ph|f)ur|ls)(?: on)?(?: (?:all |the |both )*{_DEADWOOD})?{_ONLY}",
        details="lime sulphur",
    ),
    *rows(
        "treated-deadwood",
        rf"(?:limed|lime[- ]sul(?:ph|f)ured) {_ALL}{_DEADWOOD}{_ONLY}",
        rf"(?:painted|brushed|dabbed|coated) {_ALL}{_DEADWOOD} with (?:lime[- ]?sul(?:ph|f)ur|ls){_ONLY}",
        details="lime sulphur",
    ),
    *rows(
        "treated-deadwood",
        rf"wood hardener (?:on|into|in|brushed on) {_ALL}(?:{_DEADWOOD}|hollow){_ONLY}",
        rf"{_ALL}(?:{_DEADWOOD}|hollow) (?:hardened|soaked|painted) with (?:wood )?hardener{_ONLY}",
        details="wood hardener",
    ),
    *rows(
        "sealed",
        rf"{_ALL}{_WOUND}{_WERE} (?:sealed|pasted|waxed|puttied|painted|dressed|smeared)(?: (?:up|over|again))*{_END}",
        rf"{_PASTE} (?:on|over|put on|renewed on|smeared on|to) {_ALL}{_WOUND}{_ONLY}",
        rf"(?:sealed|pasted|waxed|puttied) (?:up )?{_ALL}{_WOUND}{_ONLY}",
        rf"(?:cut putty|wound paste|wound sealer|grafting wax) on{_ONLY}",
    ),
    *rows(
        "notched",
        r"(?:a )?notch (?:cut |made |put )?(?=above (?:the )?(?:bud|left|right|a bud)\b)",
    ),
    *rows(
        "grafted",
        r"grafting(?=, \d+ scions?\b)",
    ),
    *rows(
        "layered",
        r"(?:(?:air|ground)[- ]?)?(?:layer|toriki|tori-ki|marcot(?:te)?)(?: (?:is|was|has been))? (?:set|begun|started|made|put on|prepared|ringed)(?=$|,)",
        r"(?:ringed|ring[- ]?barked|girdled|barked) (?:for|to) (?:an? |the )?(?:air[- ]?)?(?:layer|toriki|marcot(?:te)?)(?=$|,| on | at )",
    ),
    *rows(
        "separated",
        r"(?:the )?(?:air[- ]?)?(?:layer|toriki|tori-ki|marcot(?:te)?)(?: (?:is|was|has been|now))* (?:off|cut off|taken off|severed|sawn off|parted off|cut free)(?=$|,)",
        r"(?:cut|sawed|took|severed|parted) (?:off )?(?:the )?(?:air[- ]?)?(?:layer|toriki)(?: (?:off|free))?(?=$|,)",
    ),
    *rows("styled", r"(?:first |full |initial |basic )?styling (?:all )?(?:done|finished)(?=$|,)"),
    *rows(
        "checked",
        *(
            rf"(?:the )?{said}(?: (?:is|was|are|were|all|now))* (?:looked (?:at|over)|gone over|gone through|checked(?: over)?|examined|inspected|peeped at|peeked at){_ONLY}"
            for said in ("wires?",)
        ),
        r"(?:went|gone|looked) (?:over|through|along) (?:the |all the )?wires?(?=$|,)",
        details="wire",
    ),
    *(
        row
        for said, details in (
            (r"grafts?(?: unions?)?|scions?", "graft"),
            (r"(?:air[- ]?)?layers?|toriki", "layer"),
            (r"roots", "roots"),
            (r"ties|anchor wires", "ties"),
            (r"guys?(?: wires?)?", "guys"),
            (r"wounds?|cuts?", "wounds"),
            (r"drainage|holes", "drainage"),
            (r"raffia", "raffia"),
            (r"fleece|covers?|protection", "protection"),
        )
        for row in rows(
            "checked",
            rf"(?:all )?(?:the )?(?:{said})(?: (?:is|was|are|were|all|now))* (?:looked (?:at|over)|checked(?: over)?|examined|inspected|peeped at|peeked at){_ONLY}",
            rf"(?:looked at|peeped at|peeked at|examined|inspected) (?:all )?(?:the )?(?:{said}){_ONLY}",
            details=details,
        )
    ),
)
