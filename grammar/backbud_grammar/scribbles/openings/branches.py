"""How a line says what was done to branches, leaves, flowers and wood."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import (
    ALL,
    OUT,
    PART,
    PART_WORDS,
    SPENT,
    WIRE,
    ActOpening,
    rows,
)

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "checked",
        r"wire[- ]check(?:ed)?",
        r"wires checked",
        r"(?:the )?wires? (?:is |was |are |were |has been )?(?:controlled|checked|inspected|looked at)",
        r"(?:controlled|inspected) (?:the |all )?wires?",
        details="wire",
    ),
    *rows(
        "checked",
        r"(?:the )?(?:toriki|air ?layer|layer) (?:is |was )?(?:controlled|inspected)",
        details="layer",
    ),
    # Parts that were wired: `primaries wired 4 mm al`.
    *rows(
        "wired",
        r"(?=(?:all )?(?:the )?(?:primaries|secondaries|primary branches|secondary branches"
        r"|main branches|fine branches|left \d|right \d) wired(?: \d|,|$))",
    ),
    *rows(
        "wired",
        rf"(?={PART_WORDS} re-?wired(?:,|$| \d))",
        details="old wire off",
    ),
    # `wire 2nd left off`; what is put there instead is another act.
    *rows("unwired", rf"{WIRE} (?P<on>{PART_WORDS}) (?:off|removed|away|out)(?=$|,)"),
    *rows(
        "unwired",
        rf"all (?:the )?{WIRE} away",
        r"wires (?:all )?away",
        rf"(?:removed|stripped) all (?:the |of the )?{WIRE}",
    ),
    *rows(
        "unwired",
        rf"(?:removed|stripped) (?:the )?{WIRE} (?:from|off) (?=(?:the )?{PART})",
        details="on",
    ),
    *rows(
        "guyed",
        rf"(?:put|set|fixed) (?:a )?guy(?: wire)? (?=on {PART})",
        r"(?=(?:(?:the )?(?:first|second|third) (?:left|right)? ?branch|left \d|right \d) (?:pulled|drawn|brought) down (?:with|by) (?:a )?(?:wire|guy))",
    ),
    *rows(
        "guyed",
        r"(?=(?:\d )?(?:low |lower |upper )?(?:left |right |front |back )?branch(?:es)? (?:pulled |put |brought |drawn )?down with (?:a )?guy\b)",
    ),
    *rows("unguyed", r"(?:removed|took off) (?:all )?(?:the )?guys?(?: wires?)?(?: off)?"),
    *rows(
        "carved",
        r"(?:a )?(?:new )?(?=(?:jin|shari) (?:made|cut|created|torn|ripped|stripped)(?:$|,| on | at | \d| low| left| right| front| back| apex| top))",
        r"new jin(?= (?:low|high|on|at|left|right|top|apex|front|back)\b| \d|,|$)",
        r"(?=shari (?:a (?:bit|little) )?(?:more )?(?:wider|wide|longer|deeper)(?: made| cut| opened)?(?:$|,))",
    ),
    *rows(
        "treated-deadwood",
        r"(?:two|2|one|1|a) coats? (?:of )?(?:lime[- ]?sulphur|ls)(?: on)?(?: all)?(?: the)?",
        r"lime[- ]?sul(?:ph|f)ured",
        r"(?:painted|brushed|sprayed|dabbed|put) (?:lime sul(?:ph|f)ur|ls) (?:on|over)(?= (?:all |the )*(?:jins?|shari|deadwood)\b)",
        r"jin (?:liquid|fluid|seal)(?= (?:\d times|\d coats?|twice|two coats|undiluted|on (?:the |all )*(?:jins?|shari|deadwood))\b)",
        details="lime sulphur",
    ),
    *rows(
        "pruned",
        r"(?=(?:(?:the )?(?:big|heavy|thick|large|long|lower|low|upper|dead|old) )*(?:branch|limb|leader|stump|stub)\b(?: (?:low|high|front|back|left|right|at|on|the|\d))* (?:sawn|sawed|cut|taken) (?:off|out|flush|back)(?: flush)?(?:$|,))",
        r"(?:sawed|sawn|cut|took|taken) off (?=(?:the |a |one |two |three |\d )*(?:big |heavy |thick |large |long |lower |low |upper |first |second |third |left |right )*(?:branch|limb|leader)\b)",
    ),
    *rows(
        "pruned",
        r"(?:long )?(?:whips|tendrils|runners) (?:cut )?(?:back )?(?=to \d (?:eyes?|buds?|nodes?|leaves|leaf|pairs?)\b|to \d(?:$|,))",
        details="long shoots",
    ),
    *rows(
        "pruned",
        r"back[- ]cut(?=$|,| after | on | to | by | hard)",
        r"cut (?:everything|it all) back",
    ),
    *rows("disbudded", r"flower[- ]?buds? thinned"),
    # What is cut, and to how much.
    *rows(
        "trimmed",
        r"(?:cut |trimmed |clipped )?(?:(?:all|the|new|soft|second|third|2nd|3rd) )*(?:shoots|growth|tips) (?:all |were )?(?:cut |trimmed |clipped |taken )?(?:back )?(?=to \d (?:leaves|leaf)\b)",
    ),
    *rows(
        "pruned",
        r"(?=(?:left|right) \d (?:sawn|sawed|cut|lopped|taken)(?: off| out)(?: flush| clean| whole)?(?:$|,))",
    ),
    *rows(
        "defoliated",
        r"half (?:of )?(?:the )?leaves (?:cut(?: off)?|off|removed)",
        details="half of the leaves",
    ),
    *rows("deadheaded", r"spent (?:ones |all )?(?:off|out|removed|picked off)"),
    *rows(
        "decandled",
        r"(?:second|2nd) (?:lot|round|batch|half) (?:of )?candles (?:all )?(?:cut|cut off|off|out)",
        details="second round",
    ),
    *rows(
        "carved",
        r"(?:new )?jin (?:made )?(?=(?:on|at) (?:the )?(?:dead |old )?(?:top|apex|leader|(?:left|right)(?: \d)?|branch|stub|trunk)(?:$|,))",
        details="new jin",
        noun=True,
    ),
    *rows(
        "unwired",
        rf"(?={PART_WORDS} {WIRE} (?:all )?(?:off|removed|cut off|taken off|out)(?:$|,))",
    ),
    *rows(
        "sealed",
        r"(?=(?:\d+|all|both)? ?(?:\w+ )?(?:stubs?|cuts?|wounds?) (?:all )?(?:pasted|sealed|waxed|painted)(?:$|,))",
    ),
    *rows("sealed", r"wounds? (?:closed|covered|treated) (?:with|by) (?:cut )?paste"),
    *rows(
        "decandled",
        r"(?:second|2nd) (?:decandling|candle[- ]?cut(?:ting)?)(?=$|,| on | \d)",
        details="second round",
    ),
    *rows(
        "decandled",
        r"(?:first|1st) (?:decandling|candle[- ]?cut(?:ting)?)(?=$|,| on | \d)",
        details="first round",
    ),
    *rows("defoliated", r"partial(?:ly)? (?:defoliation|defol|leaf[- ]?cut)", details="partial"),
    *rows("defoliated", r"leaf[- ]?pruned?(?= outer| inner| top|,|$)"),
    *rows(
        "defoliated",
        r"(?:cut|took|pulled) (?:off )?all (?:of )?the leaves(?: off)?(?! but| except| on)",
    ),
    *rows(
        "deadheaded",
        rf"{ALL}{SPENT}(?: and| &|,| \+) {SPENT}(?: all)? {OUT}",
        rf"(?:picked|removed|took|cut|pulled|twisted) (?:off )?{ALL}{SPENT}(?: and| &|,| \+) {SPENT}(?: off)?",
        r"(?:hanagara[- ]?tsumi|hanagara) (?:all )?done",
    ),
    *rows(
        "disbudded",
        rf"(?:pulled|pinched|rubbed|took|nipped) (?:off )?{ALL}flower buds?(?: off)?",
    ),
    *rows(
        "rubbed",
        r"rubbed off (?:all )?(?:the )?(?=buds? on)",
        r"suckers (?:off|removed|pulled)(?: (?:the )?(?:base|trunk|roots|nebari))?(?=$|,)",
    ),
    *rows("pruned", r"took (?=(?:left|right) \d off(?: whole)?(?:$|,))"),
    *rows(
        "pruned",
        r"hard cut back",
        r"cut hard back",
        r"hard[- ]?pruned",
        r"cut back hard",
        details="hard",
    ),
    *rows("pruned", r"trunk[- ]chop(?:ped)?", noun=True),
    *rows(
        "pinched",
        r"(?:(?:big|strong|strongest|long|longest|all|the|\d+) )*candles (?:twisted(?: off)?|broken off|snapped off)",
    ),
    *rows(
        "wired",
        r"(?:new|twig|fine|detail|light|some|more|second|2nd) (?:wire|wiring)(?: on)?",
        r"(?:full|detail) wiring",
        r"(?:full )?harigane",
        noun=True,
    ),
    *rows("unguyed", r"(?:all|both) guys (?:off|removed|cut|out)"),
    *rows(
        "unguyed",
        rf"(?:the )?guy(?: wire)? (?:off|removed|cut|out)(?: of| from)?(?: the)? (?={PART})",
        details="on",
    ),
    *rows(
        "checked",
        r"(?:air[- ]?)?layer (?:peeped(?: at)?|peeked(?: at)?|checked|looked at|inspected)",
        details="layer",
    ),
    *rows("defoliated", r"leaves cut (?:in )?half", r"leaves halved", details="half of each leaf"),
    *rows(
        "wired",
        r"(?=\d(?:[.,]\d)?(?: mm)? (?:al|cu|aluminium|copper) (?:on|round) (?:the )?(?!branch)"
        r"(?:(?:left|right|apex|top|leader|trunk|first|second|low|lower|upper|branch|and|\+|&|\d)(?: |,|$))+$)",
    ),
    *rows(
        "pinched",
        r"(?=(?:soft |new |strong |long )*(?:tips|shoots|candles) (?:pinched|nipped|halved)(?:$|,| by| to| back| out))",
        r"(?=(?:top|low|lower|upper|strong|weak|outer|inner) candles (?:halved|snapped|broken|pinched))",
    ),
    *rows(
        "defoliated",
        r"(?:big|large) leaves cut (?:in |by )?half",
        details="half of each leaf, large leaves",
    ),
    *rows("pinched", r"bud[- ]pinch(?:ed|ing)?(?=$|,)", noun=True),
    *rows("pinched", r"(?=candles (?:half|1/2|1/3|2/3) (?:broken|snapped|pinched)(?:$|,))"),
    *rows(
        "pinched",
        r"(?=candles (?:back )?to (?:half|\d/\d|a third))",
        r"(?:first|1st) growth pinched",
        r"tips (?:nipped|pinched) out",
    ),
    *rows(
        "treated-deadwood",
        r"(?:all )?(?:the )?(?:jins?|shari|deadwood)(?: (?:and|\+|&) (?:jins?|shari))?(?: on [^,.;]*| (?:left|right|apex|top|low|front|back|\d))* (?:limed|lime[- ]sulphured|lime sulphur)",
        details="lime sulphur",
    ),
    *rows(
        "bent",
        r"(?=(?:(?:left|right) \d|apex|top|trunk|leader|first left|first right) (?:down|up|left|right) \d+(?:[.,]\d)? (?:degrees|mm|cm|inch)$)",
    ),
    *rows("unwired", rf"de-?wired(?= {PART})", details="on"),
    *rows(
        "deadheaded",
        rf"{ALL}{SPENT}(?: all)? {OUT}",
        rf"(?:picked|removed|took|cut|took off|cut off|twisted off) (?:off )?{ALL}{SPENT}(?: off)?",
        r"dead[- ]?head(?:ed|ing)?",
        r"(?:all )?flowers(?: all)? (?:removed|picked off|out incl\.? pods|off incl\.? pods)",
        r"(?=flowers off\b)",
    ),
    *rows(
        "disbudded",
        rf"{ALL}flower buds?(?: all)? {OUT}",
        rf"(?:picked|removed|took|took off|cut) (?:off )?{ALL}flower buds?(?: off)?",
    ),
    *rows(
        "plucked",
        rf"needles (?:of|from) last year {OUT}",
        details="last year's needles",
    ),
    *rows("plucked", r"nadeln gezupft", r"naalden geplukt", details="needles"),
    *rows(
        "plucked",
        rf"{ALL}(?:old|last year'?s?|last years|yellow|brown|hanging) needles(?: all)? {OUT}",
        rf"(?:pulled|plucked|took out|removed) {ALL}(?:old|last year'?s?|last years) needles",
        details="old needles",
    ),
    *rows("plucked", rf"needles {OUT}", r"pulled needles", r"needle[- ]?(?:pull(?:ed)?|work)"),
    *rows(
        "defoliated",
        rf"{ALL}leaves (?:all )?(?:off|cut off|cut|removed)(?! already| early| by itself| by the)",
        r"(?:cut|took) (?:off )?all (?:the )?leaves(?: off)?",
        r"leaf[- ]?cut",
        r"full defol(?:iation)?",
        r"defol",
    ),
    *rows("defoliated", r"big leaves off", r"large leaves off", details="large leaves"),
    *rows("defoliated", r"outer leaves off", details="outer leaves"),
    *(
        row
        for which, said in (("strong", "strong(?:est)?|big|fat"), ("weak", "weak(?:er|est)?|small"))
        for row in rows(
            "decandled",
            rf"(?:all )?(?:the )?(?:{said}) candles (?:all )?(?:cut|cut off|off)",
            details=which,
        )
    ),
    *rows(
        "decandled",
        rf"{ALL}candles (?:cut|cut off|all off|off)",
        r"(?:cut|removed) (?:all )?(?:the )?candles",
        r"candle[- ]cut",
    ),
    *rows(
        "pinched",
        r"(?=(?:strong(?:est)? |long(?:est)? |\d+ strongest )?candles (?:pinched|snapped|broken"
        r"|shortened|halved|to half|back))",
        r"(?:snapped|broke|broken|shortened|halved) (?=.*candles)",
        r"nipped(?: out)?",
        r"tips nipped",
        r"tips (?:out|pinched|off)",
        r"(?:(?:new|second|third|all|long|soft) )+shoots pinched",
    ),
    *rows(
        "pinched",
        r"(?:strong(?:est)?|long(?:est)?|big|fat) (?:ones|candles) (?=(?:snapped|broken|pinched|twisted|halved)(?: back)?(?: by| to)?(?: half| \d/\d| a third)?(?:$|,))",
        details="strong",
    ),
    *rows(
        "trimmed",
        r"(?:long|longest) (?:ones|shoots) (?:cut )?(?:back )?(?=to \d (?:leaves|leaf|pairs?)(?:$|,))",
        details="long shoots",
    ),
    *rows(
        "pruned",
        r"(?:long|longest) (?:ones|shoots|whips|growth) (?:cut )?(?:back )?(?=to \d (?:buds?|nodes?)(?:$|,))",
        details="long shoots",
    ),
    *rows(
        "trimmed",
        r"tips? cut back",
        r"scissors? (?:only|over)",
        r"clipped over",
        r"tidied(?: up)?(?: the)? (?:outline|silhouette|shape|shoots|tips|edges)",
        r"tidied(?: up)?(?=$|,)",
        r"(?:long |strong )?(?:shoots|runners|tips) (?:cut back|trimmed|shortened|clipped|cut(?! out\b))",
        r"haircut",
        r"outline (?:cut|trimmed|tidied)",
        r"cut back (?=to )",
        r"back (?=to (?:\d|one|two|three)(?:-\d)? (?:leaves|leaf|buds?|nodes?|eyes?|pairs?)\b)",
        r"hedge[- ]?trimmed",
    ),
    *rows(
        "pruned",
        r"(?=cut back\b)",
        r"chopped(?= )",
        r"sawn? off",
        r"lopped",
        r"dead ?wood out",
        r"dead (?:twigs|branches|shoots) (?:out|off|cut out|removed)",
        r"(?:crossing|bar|big|heavy|thick) branch(?:es)? (?:off|out|removed|cut)",
        r"(?!dead )(?=[^,.;]*\b(?:branch|heavy one|limb)\b[^,.;]* (?:off|removed|sawn off|taken off)(?:$|[,;]|\.| (?:flush|at|on|low|high|left|right|back|front|today|clean|again)\b))",
    ),
    *rows(
        "thinned",
        r"thinned out",
        r"thinned underside",
        r"fruit(?:lets)? thinned",
        r"(?=\d+ (?:apple|fruit|fig|crab)s? (?:per|left|stays?))",
        r"shoots thinned",
        r"(?=\d+ (?:shoots|buds|leaves|flowers) (?:left|kept|stays?|per)\b)",
        r"(?=(?:thinned|reduced) to \d)",
    ),
    *rows(
        "rubbed",
        r"(?=(?:frosted|frost|dead|soft) (?:bits|tips|growth) rubbed)",
        r"rubbed out",
        r"rubbed off",
        r"(?:trunk buds|suckers|adventitious buds|buds on trunk|buds on the trunk) "
        r"(?:off|rubbed|rubbed off|out|removed)",
    ),
    *rows(
        "unwired",
        rf"{WIRE} (?:all )?(?:off|removed|cut off|taken off|out)(?: of| from| the)*(?= {PART})",
        rf"(?:took|cut) {WIRE} off(?= {PART})",
        rf"(?:took|cut) off {WIRE}(?: from| on)?(?= {PART})",
        rf"off came the {WIRE}(?= {PART})",
        details="on",
    ),
    *rows(
        "unwired",
        rf"(?:all )?{WIRE} (?:all )?(?:off|removed|cut off|taken off)",
        rf"(?:took|cut) (?:all )?(?:the )?{WIRE} off",
        rf"(?:took|cut) off (?:all )?(?:the )?{WIRE}",
        r"de-?wired",
        rf"(?=[^,.;]*{WIRE} (?:biting|bites)[^;]*\boff\b)",
    ),
    *rows("wired", r"wire(?=,| \d|:)", noun=True),
    *rows("wired", r"re-?wired", details="old wire off"),
    # Which metal stands first, and on what: `alu 1 on 8 small ones`.
    *rows(
        "wired",
        r"(?=(?:al|cu|aluminium|copper) \d(?:[.,]\d)?(?: ?mm)? on (?:the )?(?:\d+ |all |left|right"
        r"|apex|top|crown|trunk|leader|first|second|third))",
        noun=True,
    ),
    *rows("thinned", r"(?:apples|fruits?|crabs|figs) thinned(?=$|,)", details="fruit"),
    *rows("unwired", r"draad (?:eraf|af)", r"draht (?:ab|weg)", r"drahte? entfernt"),
    *rows(
        "wired",
        r"wired up",
        r"wires? on(?! [^,.;]*\b(?:only|ok|okay|fine|good|loose|tight|biting|bites|bitten|eased|slack)\b)",
        r"full wire",
    ),
    *rows(
        "wired",
        r"(?=(?:(?:top|upper|lower|bottom|middle) (?:third|half|part|branches)|whole tree|apex|top|crown"
        r"|(?:new )?leader) (?:re-?)?wired(?:,|$| \d| with| up))",
    ),
    # One guy of several is off: which, nobody said, unless a part stands behind it.
    *rows("unguyed", r"guys (?:off|removed|cut|out)", r"guy wires (?:off|removed|cut|out)"),
    *rows("unguyed", r"(?=guy on [^,.;]*\b(?:off|forgotten)\b)"),
    *rows("guyed", r"guys? (?:on|set|put on)", r"guy wires? (?:on|set)"),
    *rows("guyed", r"guy (?=from|to|\d)", noun=True, instead=True),
    *rows("guyed", r"pulled down with (?:a )?guy", r"(?=[^,.;]* put down with guy)"),
    *rows("wrapped", r"raffia (?:on|round)", r"raffia'?d", r"bound with raffia"),
    *rows("wrapped", r"(?=(?:crown|top|branches) tied up with raffia)"),
    *rows(
        "unwrapped",
        r"raffia (?:off|removed|cut)(?: from| of)? (?:the )?(?=[^,.;]*\b(?:bend|branch|left|right|apex|top|trunk|crown|leader)\b)",
        details="on",
    ),
    *rows("unwrapped", r"raffia (?:off|removed|cut)"),
    *rows("trimmed", r"(?:second|2nd) (?:clip|trim)(?=$|,| \d)", details="second round", noun=True),
    *rows("defoliated", r"half defol(?:iated|iation)?(?=$|,)", details="half"),
)
