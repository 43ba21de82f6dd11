"""How a line says a work by the part that it was done to and what became of it, with no act word."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import PEST, SPRAY, ActOpening, rows

_ONLY = r"(?=$|,)"
_PART = (
    r"(?:(?:left|right) \d{1,2}|apex|top|crown|(?:new )?leader|trunk|(?:low|lower|lowest|upper|back|front|first|second|third)"
    r" (?:left|right|branch(?:es)?))"
)
_LIST = rf"{_PART}(?:,? ?(?:\+|&|and)? ?{_PART})*"
_AND_PARTS = rf"{_PART}(?: ?(?:\+|&|and) ?{_PART})+"
_METAL = r"(?:al|alu|aluminium|cu|copper)"
_THICK = r"\d{1,2}(?:[.,]\d+)?(?: mm)?"
_GAUGE = r"(?:cu|copper)(?: gauge| ga)? (?:[6-9]|[12]\d)"
_SOFT = r"(?:fleece|frost cloth|hessian|burlap|bubble ?wrap|bubble|straw|sacking|bracken|blanket)"
_ROUND = r"(?:round|around|over|on)"
_STANDS = r"(?:pots?|box|tray|trunk|low trunk|lower trunk|roots|crown|tree|top|it|all)"
_PROPS = r"(?:canes|hoops|pegs|stones|bricks|clips|string|poles|frame|sticks|ties|rope)"
_HARD_HEAD = r"(?:out of (?:its|the|her|his) (?:old |field |training |wooden |plastic )*(?:crate|box|pot|tray|tub|bag|basket|container|can|drum|liner))"
_MADE_TO_ROOT = r"(?:heels?|hormone|under (?:a )?(?:bag|glass)|bottom heat|semi[- ]ripe|softwood|hardwood|kanuma|perlite|pumice|vermiculite)"

OPENINGS: tuple[ActOpening, ...] = (
    # ---------------------------------------------------------------- wire
    *rows(
        "wired",
        rf"(?={_LIST} (?:re-?)?wired(?: (?:over|up|again|at last|now|too))*(?:$|,| \d))",
        rf"{_PART} done(?=, (?:raffia ?(?:\+|&|and|,) ?)?(?:{_THICK} {_METAL}\b|{_METAL} {_THICK}(?:$|,| ))[^?]*$)".replace(
            _PART, rf"(?P<on>{_PART})", 1
        ),
        rf"(?={_GAUGE}(?: ?(?:-|to|thru|through|\+|&|and) ?\d\d?)? (?:on |round )?{_LIST}{_ONLY})",
        noun=True,
    ),
    *rows(
        "unwired",
        rf"(?={_LIST} wires? (?:all )?(?:off|cut off|taken off|removed|out){_ONLY})",
        rf"(?:(?:the|old|last|all|rest of the) )*(?:{_METAL}|wires?)(?: wire)? (?:off|from|of|at|on) (?:the )?(?P<on>{_PART}|back|front) (?:off|cut off|taken off|removed){_ONLY}",
        rf"(?:(?:the|old|all|last) )*(?:{_METAL}(?: wire)?(?: {_THICK})?|wires?) off (?:the )?(?P<on>{_PART}){_ONLY}",
        rf"(?={_METAL}(?: wire)?(?: {_THICK})? off {_PART}(?:,? ?(?:\+|&|and)? ?{_PART})+{_ONLY})",
    ),
    *rows(
        "wired",
        rf"(?P<on>{_PART}) redone(?: (?:again|lower|higher|tighter|looser|over|\d notch(?:es)?))* with (?={_METAL} {_THICK}{_ONLY}|{_THICK} {_METAL}{_ONLY})",
    ),
    *rows(
        "wrapped",
        rf"raffia (?:(?:under(?:neath)?|below|first) )?(?:on|round) (?={_PART}{_ONLY})",
        details="raffia on",
        instead=True,
    ),
    *rows(
        "bent",
        r"(?:took|brought|pulled|bent) it (?=(?:down|up) \d+(?:[.,/]\d+)? (?:degrees|mm|cm|inch)(?:$|,))",
    ),
    *rows("cleaned", rf"(?:all )?picked over{_ONLY}"),
    *rows(
        "top-dressed",
        r"(?:fresh|new)(?: mix| soil)? (?=\d[\d./]*(?: \d/\d)? (?:inch|cm|mm) on (?:the )?top(?:$|,))",
    ),
    # ---------------------------------------------------------------- branches, leaves, wood
    *rows(
        "pinched",
        r"(?=(?:\d+ )?(?:strongest|strong|longest|long|opening|soft|new|fat|fattest|first)(?: (?:ones|tips|shoots|candles|buds|growth))? (?:nipped|pinched|twisted off|snapped)(?: (?:off|out|back|by hand|with (?:the )?(?:nails|fingers)|between (?:the )?(?:nails|fingers)))*(?:$|,| by | to ))",
    ),
    *rows(
        "pruned",
        rf"(?={_PART} (?:sawn|cut|taken|lopped|sawed)(?: off| out)? (?:at|to|on|back to) (?:the )?(?:collar|branch collar|trunk|base|bark ridge){_ONLY})",
    ),
    *rows(
        "pruned",
        rf"(?={_PART} (?:shortened|cut back|headed back|taken back) to (?:a |the )?(?:side[- ]?shoot|side[- ]?branch|bud|fork|first fork|stub|live bud|old wood)(?: (?:low|high|at|on|near|facing|pointing)(?: [^\W\d]+){{0,3}})?{_ONLY})",
        rf"(?=(?:top|leader|apex) (?:sawn |cut |taken )?(?:out|off) at \d[\d.,/]* ?(?:foot|inch|cm|m|mm){_ONLY})",
    ),
    *rows(
        "struck",
        r"(?=\d+ cuttings (?:off|from) (?:the |its )?(?:[^\W\d]+ ){0,2}(?:skirt|branches|tips|shoots|side|growth|ones|apex|top|back|whips)(?:$|,))",
        noun=True,
    ),
    *rows("potted-on", r"(?=\d+ (?:potted (?:on|up)|pricked out)(?:$|,| (?:in|into|singly)))"),
    *rows(
        "carved",
        rf"(?=(?:new |a )?jin (?:on|at) (?:the )?(?:old |dead |low |broken )*{_PART} (?:made|cut|torn|peeled|stripped)(?: (?:back|down|with (?:a |the )?(?:knob |jin )?(?:cutters?|pliers|saw|knife|chisel)))*{_ONLY})",
    ),
    *rows(
        "pruned",
        r"back hard(?: (?:again|everywhere|all over|this time|after all))*(?=, (?:every|all|each|to|long|down to) )",
        details="hard",
    ),
    *rows(
        "thinned",
        r"(?=(?:\d|one|two|three) (?:per|to (?:a|each)|at each|on each|each|a) (?:tip|fork|node|whorl|cluster|spur), (?:all )?(?:the )?(?:rest|others?) (?:all )?(?:out|off|cut|rubbed|gone|removed|pulled)(?:$|,| out| off))",
    ),
    *rows(
        "defoliated",
        r"(?:all )?(?:big|large) leaves (?:cut |back )?to (?:the )?(?:stalks?|petioles?|stems?)(?=$|,)",
        details="large leaves, leaving petioles",
    ),
    *rows(
        "defoliated",
        r"outer leaves (?:cut |back )?to (?:the )?(?:stalks?|petioles?|stems?)(?=$|,)",
        details="outer leaves, leaving petioles",
    ),
    *rows(
        "plucked",
        r"(?:(?:the|all|old|yellow|brown|dead) )*(?:inner|inside) needles (?:all )?(?:out|pulled|pulled out|plucked|plucked out|off)(?=$|,)",
        details="old needles",
    ),
    *rows(
        "cleaned",
        r"(?:last|dead|old|brown|withered|hanging|dry|remaining|shrivelled) leaves (?:all )?(?:pulled|picked|stripped|plucked|shaken|combed)(?: (?:off|away|out))?(?: by hand)?(?=$|,)",
        details="dead leaves",
    ),
    *rows("cleaned", r"trunks (?:brushed|scrubbed)(?=$|,)"),
    *rows(
        "cleaned",
        r"(?:all )?(?:the )?jins? (?:dusted|dry[- ]brushed|brushed down|wire[- ]brushed)(?=$|,)",
        details="jin",
    ),
    *rows(
        "cleaned",
        r"(?:the )?(?:shari|deadwood) (?:dusted|dry[- ]brushed|brushed down|wire[- ]brushed)(?=$|,)",
        details="shari",
    ),
    *rows(
        "carved",
        rf"(?P<on>{_PART})(?: (?:broken|dead|snapped|old))*(?: (?:end|tip|stub|stump|branch))? (?:(?:made|turned|carved|torn) (?:in)?to (?:a )?|made a )jin(?=$|,)",
        details="new jin",
    ),
    # ---------------------------------------------------------------- roots and pot, cuttings
    *rows(
        "repotted",
        rf"(?={_HARD_HEAD}(?: (?:at last|finally|again|for once))*,[^?]*\broots?\b)",
    ),
    *rows(
        "struck",
        rf"(?=\d+ (?:stuck|struck|put in),[^?]*\b{_MADE_TO_ROOT}\b)",
        # `24 in, kanuma` may be inches.
        r"(?=\d+ in,[^?]*\b(?:heels?|hormone)\b)",
    ),
    # ---------------------------------------------------------------- sprays
    *rows(
        "treated",
        rf"(?={SPRAY} (?:for|against) (?:the |all |those )*{PEST}(?:$|,))",
        rf"(?={SPRAY} (?:1st|first|2nd|second|3rd|third|fourth|last) (?:go|round|time|dose|spray)(?:$|,))",
    ),
    *rows(
        "treated",
        r"(?:q-?tips?|cotton buds?|swabs?) (?:\+|&|and|with|in) (?=(?:rubbing )?alcohol(?:$|,))",
        r"(?=(?:rubbing )?alcohol (?:brush|brushed|dabbed)(?: on)?(?:$|,))",
        rf"(?:scrubbed|wiped|washed|brushed)(?: down| off| over)? with (?={SPRAY}(?:$|,))",
    ),
    *rows(
        "treated",
        r"hosed (?:from |off from )?(?:below|underneath)(?=(?: (?:\d|two|three|four) (?:mornings|evenings|days|times)(?: (?:running|in a row))?)?(?:$|,))",
        details="water jet",
    ),
    # ---------------------------------------------------------------- places and cover
    *rows(
        "moved",
        r"off (?:the )?(?P<from>@PLACE@),? (?:back )?(?:on)?to (?:the )?(?=@PLACE@)",
        r"(?:put |set |down )?(?:under|behind) (?:the )?(?:bench|benches|staging|table|shelf) (?:in|at) (?:the )?(?=@PLACE@)",
    ),
    *rows(
        "trimmed",
        r"sheared(?: (?:over|all over|all round|back|lightly|light|hard|again))*(?=$|,| to (?:shape|outline))",
    ),
    *rows("thinned", r"(?:all )?(?:the )?pads (?:all )?thinned(?: (?:out|through))?(?=$|,)"),
    *rows(
        "treated",
        rf"(?={SPRAY} (?:at|in) (?:the )?(?:dusk|dawn|evening|night|morning|noon|first light)(?:$|,))",
    ),
    *rows(
        "protected", rf"(?={_SOFT} (?:round|around) (?:the )?(?:box|tray|trunk|roots|pot){_ONLY})"
    ),
    *rows("protected", r"(?:pots?|box|tray) in bubble(?=$|,)", details="bubble wrap"),
    *rows(
        "protected",
        rf"(?={_SOFT} ?(?:\+|&|and) ?{_SOFT} {_ROUND} (?:the )?{_STANDS}(?: ?(?:\+|&|and) ?(?:the )?{_STANDS})?{_ONLY})",
    ),
    *rows(
        "unprotected",
        rf"(?:fleece|covers?|bubble ?wrap|hessian|frost cloth)(?: ?(?:\+|&|and) ?{_PROPS})? (?:off|down|away|removed)(?: ?(?:\+|&|and) ?(?:folded|rolled|put|stored|packed|hung)(?: (?:up|away|by|to dry))*)?(?: to (?:air|dry|breathe)(?: (?:it|out|off))?)?{_ONLY}",
    ),
    *rows(
        "unshaded",
        rf"shade (?:cloth|net|netting)(?: ?(?:\+|&|and) ?{_PROPS}) (?:off|down|away|removed)(?: ?(?:\+|&|and) ?(?:folded|rolled|put|stored|packed)(?: (?:up|away|by))*)?{_ONLY}",
    ),
    # ---------------------------------------------------------------- who took it, and money
    *rows("received", r"(?P<from>@PERSON@) (?:has |had )?(?:dropped off|brought in)(?=$|,)"),
    *rows(
        "guyed",
        rf"(?P<on>{_PART}) (?:pulled |brought |drawn )?down with (?:a )?guy (?=to (?:the )?(?:pot(?: rim)?|rim|box|roots?|nail|screw|foot|jin|trunk|bench){_ONLY})",
    ),
    *rows("returned", r"handed (?:it |her |him )?to (?P<to>@PERSON@)(?!['’])(?=$|,)"),
    *rows(
        "received", r"(?P<from>@PERSON@) left (?:it|her|him)(?: (?:here|with (?:me|us)))?(?=$|,)"
    ),
    *rows(
        "cleaned",
        rf"(?:green )?(?:scum|slime|algae|lichen|gunk)(?: (?:scrubbed|brushed|washed|wiped))? off (?:the )?(?:trunks?|bark|nebari|branches|roots|rock){_ONLY}",
        details="algae off",
    ),
    *rows(
        "returned",
        r"(?:gone|went|off|left)(?: (?:off|back|home|away))* with (?P<to>@PERSON@)(?!['’])(?=$|,)",
    ),
    *rows(
        "paid",
        r"(?:the )?(?:last|other|remaining|outstanding|final) (?=\d[\d.,]*\d(?: [A-Z]{3})? (?:(?:in )?cash|by (?:cheque|check|card|bank|transfer))(?:$|,))",
    ),
)
