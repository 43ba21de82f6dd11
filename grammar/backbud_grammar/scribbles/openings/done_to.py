"""How a line says what was done by what it was done to: `left 2 shortened by half`."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import PEST, SPRAY, ActOpening, rows

# A branch by its place, and nothing else.
BRANCH = (
    r"(?:(?:the )?(?:(?:low|lower|lowest|high|upper|first|second|third|bottom|top|heavy|thick|long|big) )*"
    r"(?:(?:left|right)(?: \d{1,2})?(?: (?:low|high))?(?: branch)?|(?:back|front)(?: (?:low|high))? branch)|(?:the )?(?:apex|leader|crown))"
)
SHORTENED = r"(?:shortened|headed back|reduced|cut back|pruned back)"
_EXTENT = (
    r"(?: hard)?(?=$|,| (?:by|to|back to) (?:half|a (?:third|quarter)|two thirds|\d/\d|\d+ %|\d[\d.,/]*(?: \d/\d)? (?:mm|cm|inch)"
    r"|(?:\d|one|two|three) (?:leaves|leaf|buds?|nodes?|pairs?|shoots?|twigs?))(?:$|,))"
)
_AGAIN = r"(?:(?:first|second|third|1st|2nd|3rd|last) )?"
_HAND = (
    r"(?:picked|squashed|squished|rubbed|scraped|wiped|scrubbed|brushed|dabbed|squeezed|crushed|scratched)"
    r"(?: (?:off|out|away|down))?"
)

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "top-dressed",
        r"(?=(?:kanuma|akadama|pumice|grit|bark|compost|leaf mould|sphagnum) topped up(?:$|,| (?:on|over|round) ))",
    ),
    *rows(
        "protected",
        r"(?:double|two layers of|2 layers of) (?:fleece|frost cloth)(?: (?:on|over|up))?(?=$|,)",
        details="fleece",
    ),
    *rows("unprotected", r"(?:all |the |both )(?:fleece|frost cloth|covers?) off(?=$|,)"),
    *rows(
        "thinned",
        r"(?:haws|berries|fruitlets|pears|plums|quinces|apples|fruits?|crabs|figs) (?:thinned|reduced) (?=to (?:\d|one|two|three) (?:a|per|each) )",
        details="fruit",
    ),
    *rows("germinated", r"(?=\d+ of \d+ (?:through|showing|sprouted|emerged)(?:$|,))"),
    *rows(
        "measured",
        r"(?=(?:candle|needle|shoot|internode)s? (?:length|size) \d[\d.,/]*(?: \d/\d)? (?:mm|cm|inch)(?:$|,))",
    ),
    *rows(
        "pruned",
        r"(?:cut )?hard back(?=$|,| after (?:the )?(?:flower|bloom|leaf))",
        details="hard",
        noun=True,
    ),
    *rows(
        "measured",
        r"(?=(?:caliper|calliper|base|root flare|spread|width|crown|internodes?) (?:is |now |about |abt |ca )*\d[\d.,/]*(?: \d/\d)? (?:mm|cm|m|inch)(?:$|,| ))",
    ),
    *rows(
        "treated",
        rf"(?:preventive |protective |routine |dormant )(?={SPRAY}(?:$|,| \d))",
        rf"(?={SPRAY}(?: \d[\d.,/]* ?(?:g|mL|ml)/L| \d[\d.,]* %)? (?:on|for|against) (?:the )?{PEST}(?:$|,| \d))",
    ),
    *rows("watered", r"(?:bottom|base)[- ]watered(?=$|,| \d)", details="from below"),
    *rows(
        "watered",
        r"hosed (?:all|everything|everyone|everybody|the lot)(?: down)?(?=$|,| (?:twice|\d times))",
    ),
    *rows("fed", r"(?:started|began|resumed) (?:the )?feeding(?=$|,|:)"),
    *rows(
        "protected",
        r"pots? (?:sunk|plunged|bedded) in (?:the )?(?:bark|straw|leaves|sand|soil|chips|mulch|ground|peat)(?=$|,)",
        details="plunged",
    ),
    *rows(
        "protected",
        r"(?:mulch|bark|straw|leaves|pine needles) (?:heaped|piled|banked|packed)(?: up)? (?:over|round|around|on|against) (?:the )?(?:pots?|box|rim|pot rim|roots|soil|trunk|base)(?=$|,)",
        details="mulch",
    ),
    *rows(
        "opened",
        r"surface (?:scraped|forked|loosened|broken up|picked over)(?: with (?:a |the )?(?:hook|stick|chopstick|fork|rake))?(?=$|,)",
        details="surface",
    ),
    *rows(
        "defoliated",
        r"(?=(?:outer|inner|top|upper|lower|bottom)(?: half| canopy| leaves)? (?:defol(?:iated|iation)?|leaf[- ]?(?:cut|pruned))(?:$|,))",
    ),
    *rows(
        "potted-on",
        r"(?=\d+ (?:whips|seedlings|cuttings|plants|layers) (?:potted|pricked)(?: (?:on|up|out))?(?:$|,))",
    ),
    *rows(
        "pruned",
        r"(?=(?:(?:low|lower|heavy|thick|big|old) )*(?:branch )?(?:left|right) \d(?: branch)? (?:removed|taken out|taken off)(?:$|,))",
    ),
    *(
        row
        for act, noun in (
            ("pinched", "pinch|pinching|metsumi"),
            ("trimmed", "clip|clipping|trim|haircut"),
            ("decandled", "candle cut|mekiri|decandling"),
            ("plucked", "plucking|needle pull|momiage"),
        )
        for nth, which in (("first|1st", "first"), ("second|2nd", "second"), ("third|3rd", "third"))
        for row in rows(
            act,
            rf"(?:{nth}) (?:{noun})(?=$|,)",
            details=f"{which} round" if act != "plucked" else "",
            noun=True,
        )
    ),
    *rows("pruned", rf"(?={BRANCH} {SHORTENED}{_EXTENT})"),
    *rows(
        "pruned",
        r"sacrifice (?:branch(?:es)?|leader|limb|shoot)(?: (?:at|on|low|high|back|front|left|right|the|\d))* "
        r"(?:cut|sawn|sawed|taken|lopped|pruned) (?:off|out|away)(?: (?:flush|clean|hard))?(?=$|,)",
        details="sacrifice branch",
    ),
    *rows(
        "trimmed",
        r"(?:second|2nd) (?:flush|growth) (?:all )?(?:cut|trimmed|clipped|shortened)(?: back| off)?"
        r"(?=$|,| to (?:\d|one|two|three) (?:leaves|leaf|pairs?|buds?|nodes?)(?:$|,))",
        details="second flush",
    ),
    *rows(
        "pinched",
        r"(?:second|2nd) (?:flush|growth) (?:all )?(?:pinched|nipped)(?: back| out)?"
        r"(?=$|,| to (?:\d|one|two|three) (?:leaves|leaf|pairs?|buds?)(?:$|,))",
        details="second flush",
    ),
    *rows("trimmed", r"hedge[- ]?(?:cut|clipped)(?= |,|$)", noun=True),
    *rows(
        "pinched",
        r"(?=(?:(?:new|all|the|strong|long) )*candles (?:broken|snapped|pinched|twisted)(?: back)? (?:by|to) (?:half|\d/\d|a third)(?: (?:on|at|up|in))?(?: the)? (?:top|apex|crown)(?:$|,))",
    ),
    *rows(
        "plucked",
        r"(?:two|three|2|3|second|third)[- ](?:yr|year)s?(?:[- ]old)? needles (?:(?:pulled|plucked|removed)|(?:off|out)(?=, \d[\d.,/]*(?: \d/\d)? ?(?:h|min)\b))",
        details="old needles",
    ),
    *rows("plucked", r"needle[- ](?:pulling|plucking)(?=$|,)", details="needles", noun=True),
    *rows(
        "thinned",
        r"(?:all )?(?:the )?(?:last )?(?:fruits?|fruitlets|haws|berries|crabs|apples|figs|pomegranates|hips) (?:all )?(?:picked|harvested|gathered|(?:picked|taken|pulled|twisted|cut) off)(?=$|,)",
        details="fruit",
        instead=True,
    ),
    *rows(
        "treated",
        rf"(?={_AGAIN}{PEST} (?:spray|sprayed|drench|drenched|wash)(?:,| (?:(?:no\.? ?|rd|round|nr\.? ?|# ?) ?)?\d(?: done)?(?:$|,)| (?:second|third)))",
        noun=True,
    ),
    *rows(
        "treated",
        rf"{PEST}(?: (?:on|under|in) (?:the )?(?:stems?|trunk|bark|leaves|needles|tips|branches))? {_HAND}(?: by hand| with [^,.;?\d]*)?(?=$|,)",
        details="by hand",
    ),
    *rows(
        "treated", rf"(?={PEST}(?: (?:larvae|crawlers))?, (?:hosed|showered|rinsed|jetted)(?:,|$))"
    ),
    *rows(
        "treated",
        rf"(?={SPRAY} (?:at (?:dusk|night)(?: \d+(?:[.,]\d+)? %)?|drench (?:2 ?x|twice|2 times))(?:$|,))",
    ),
    *rows(
        "soaked",
        r"stood in (?:a |the )?(?:tray of water|saucer of water|sink|basin|pond|bath)(?=$|,| \d| overnight| all night)",
    ),
    *rows(
        "protected",
        r"(?=(?:fleece|straw|mulch|bubble ?wrap|hessian|burlap) (?:\+|and|&) (?:fleece|straw|mulch|bubble ?wrap|hessian|burlap) (?:on|over|round|around)(?: (?:the )?(?:pots?|box|boxes|tree|roots|trunk|it|all))?(?:$|,))",
    ),
    *rows(
        "protected",
        r"mulched(?= (?:the )?(?:pots?|box|soil|surface|roots|bed) with (?:bark|straw|leaves|leaf mould|chips|wood chips|needles|pine needles|compost)(?:$|,))",
    ),
    *rows(
        "cleaned",
        r"(?:green|algae|lichen|slime) (?:brushed |scrubbed |washed )?off (?:the )?(?:trunk|bark|nebari|branches)(?=$|,)",
        details="algae off",
    ),
    *rows("layered", r"ground[- ]layer(?:ed)?(?=$|,)", details="ground", noun=True),
    *rows(
        "pruned",
        r"(?=(?:left|right) \d (?:sawn|sawed|cut|lopped) flush(?:$|,))",
        r"(?=(?:\d|one|two|three) (?:(?:crossing|bar|heavy|thick|big|large|unwanted|upright|downward) )+branch(?:es)? (?:off|out|removed|cut out|cut off)(?: (?:at|in|on|from) (?:the )?(?:(?:left|right)(?: \d)?|apex|top|crown|back|front))?(?:$|,))",
    ),
    *rows(
        "cleaned",
        r"(?:okigoe|tama|cakes|rapecakes?|pellets|feed balls) (?:pulled|taken up|lifted|tossed|scraped off|picked off)(?=$|,)",
        details="old cakes off",
    ),
    *rows(
        "fed",
        r"(?:okigoe|tama|cakes|rapecakes?|pellets|feed balls) (?:refreshed|replaced|swapped|topped up)(?=$|,)",
        r"(?=(?:half|quarter|full|double) strength \d+-\d+-\d+(?:$|,))",
        r"(?=(?:seaweed|kelp|fish) (?:\+|and|&) (?:iron|seaweed|kelp|fish|magnesium|potash)(?:$|,))",
    ),
    *rows(
        "watered", r"rain ?water (?=\d[\d.,]* (?:L|mL|cans?)(?: each)?(?:$|,))", details="rainwater"
    ),
    *rows(
        "watered", r"tap ?water (?=\d[\d.,]* (?:L|mL|cans?)(?: each)?(?:$|,))", details="tap water"
    ),
    *rows(
        "wired",
        r"(?=\d+ (?:(?:small|fine|thin|low|upper|lower|side|new|main|secondary) )+(?:branches|shoots|twigs)(?: (?:in|at|on) (?:the )?(?:(?:left|right)(?: side)?|apex|top|crown|back|front))? wired(?:$|,))",
        noun=True,
    ),
    *rows(
        "treated",
        rf"(?={PEST}(?: larvae)?, (?:hand )?(?:picked|squashed|squished)(?: off)? \d+(?:,|$))",
    ),
    *rows(
        "treated",
        r"predatory mites (?:out|released|let out|hung|put out)(?=$|,)",
        details="predatory mites",
    ),
    *rows(
        "rubbed",
        r"(?:trunk |back |adventitious )?buds rubbed (?:off|out|away)(?: (?:from )?(?:the )?(?:trunk|base|old wood|branches))?(?=$|,)",
        details="buds",
    ),
    *rows(
        "sealed",
        r"(?:cut )?paste (?:renewed|put|again|fresh)(?: again)?(?= on | over |,|$)",
        r"(?:all )?pasted(?: up| over)?(?=$|,)",
    ),
    *rows(
        "pruned",
        r"(?:took|taken|sawed|lopped|removed) (?:out |off )?(?=(?:\d|one|two|three) (?:(?:bar|heavy|thick|big|large|crossing|low|back|old) )*branch(?:es)?(?:$|,| on | at ))",
    ),
    *rows(
        "treated",
        r"slug pellets (?:down|scattered|laid)(?=$|,)",
        details="with slug pellets, against slugs",
    ),
    *rows(
        "treated",
        r"hosed (?:hard )?under(?:neath)?(?: (?:hard|well))?(?=$|,| and)",
        details="water jet, under the leaves",
    ),
    *rows(
        "treated",
        rf"(?={SPRAY} (?:(?:round|nr\.?|no\.?|number|spray) ?\d|# ?\d|\d of \d)(?: of \d)?(?:$|,))",
    ),
    *rows(
        "treated",
        r"(?=(?:bacillus|bacillus thuringiensis|plant oil|rape oil|paraffin oil|iron sulphate|potassium soap|horticultural soap)"
        r"(?:$|,| \d| against| for ))",
        noun=True,
    ),
    *rows(
        "protected",
        r"(?:frost (?:cloth|blanket|fleece)|fleece|burlap|hessian) (?:on|over)(?= (?:for )?\d+ nights?(?:$|,))",
        details="fleece",
    ),
    *rows("soaked", r"plunged(?= \d+ (?:min|h)\b| overnight)"),
    *rows(
        "drained",
        r"water (?:goes|runs|went|ran|passes|passed|drains) (?:away |through )(?:it )?(?=in \d)",
    ),
    *rows(
        "fed",
        r"(?=(?:fish|seaweed|kelp) (?:emulsion )?(?:half|quarter|full|double|1/2|1/4)(?: strength| dose| rate)?(?:$|,))",
    ),
    *rows("fed", r"(?=(?:fish|seaweed|kelp)(?:$|,))"),
    *rows(
        "top-dressed",
        r"top (?:inch|cm|layer|centimet(?:re|er)|bit|\d (?:cm|inch)|1/2 inch) (?:of (?:soil|mix) )?(?:scraped|raked|taken|picked) (?:off|out)(?=,? (?:and |\+ |& )?(?:fresh|new) )",
        instead=True,
    ),
)
