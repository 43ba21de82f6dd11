"""How a line says what keeps a tree: food, water, cover, places, sprays."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import FEED, ON, SPRAY, ActOpening, rows

# What stands behind a product where it was given: of one that is only named nobody can tell.
_GIVEN = (
    r"(?:\s*$|\s*[,#]|\s+(?:\d|no\b|again$|spray(?:ed)?\b|drench(?:ed)?\b|again(?= \d)|all over|under(?:side)?\b"
    r"|on (?:the )?(?:leaves|underside|undersides|trunk|bark|soil|worst)|in the (?:evening|morning)"
    r"|against\b|for (?:the )?\w+$|at \d|half\b|same evening|that evening|by hand|(?:and|\+|&) "
    r"|first time|second time|third time|(?:first|second|third|1st|2nd|3rd)(?:\s*$|\s*,)|x ?\d|\d ?x\b|(?:nr|no\.?|#) ?\d|(?:early |late )?[ap]\.?m\.?(?:$|[,.])|1:|neat$|whole tree|both sides))"
)

# Hands that carry a tree somewhere.
_CARRIED = r"(?:put|took|taken|carried|brought|placed|shifted|moved|set|stood|got)"
_WHAT = r"(?: (?:it|her|him|this one|the tree|all))*"
_WAY = r"(?: (?:back|up|down|out|outside|inside|over|again|out of the (?:sun|wind|rain|frost)))*"

_COVER = (
    r"(?:fleece|frost (?:cloth|blanket|fleece)|(?:old )?(?:quilt|blanket|duvet|sheet|sack(?:ing|s)?|carpet|sheets|blankets)|hessian|burlap"
    r"|straw|bubble ?wrap|bracken|leaf mould|mulch|bark|cardboard|bubble foil)"
)

# It is on the shelf, or is to be.
_ONLY_BOUGHT = r"\b(?:bought|ordered|delivered|arrived|came|empty|finished|used up|needed|wanted|in stock|low)(?:$|[,.;])"
# What grows on the soil and is pulled or scraped off.
_WEEDS = r"(?:weeds?|liverwort|pearlwort|chickweed|bittercress|grass|clover|oxalis)"

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "weeded",
        rf"(?:all )?(?:the )?{_WEEDS}(?: ?(?:\+|&|and) ?{_WEEDS})* (?:all )?(?:off|out|pulled|picked|scraped off|removed)",
    ),
    *rows(
        "moved",
        rf"{_CARRIED}{_WHAT} (?:out of|from) (?:the )?@PLACE@,? (?:and )?(?:put |set |placed )?"
        r"(?:it |her |him )?(?:back )?(?:in|into|to|onto|on) (?:the )?(?=@PLACE@)",
        rf"{_CARRIED}{_WHAT}{_WAY}(?: in)? (?:in|into|to|onto|on|under|at) (?:the )?(?=@PLACE@)",
        r"(?:moved )?(?:from )?(?P<from>@PLACE@) (?:to|into) +(?:the )?(?=@PLACE@)",
        r"back (?:in|on|under|at) (?:the )?(?=@PLACE@)",
        r"(?:back |straight )?(?:out of|out from|from) (?:the )?(?P<from>@PLACE@),? (?:back )?(?:(?:in|into|to|onto|on|under) )?(?:the )?(?=@PLACE@)",
        r"(?:into|to|onto) the (?=@PLACE@)",
        r"(?:out|outside|inside|back outside|back out|back in) (?:in|into|to|onto|on) (?:the )?(?=@PLACE@)",
    ),
    *rows(
        "watered",
        r"(?:hosed?|watered|cans?)(?: (?:all|everything|everyone|them all|the lot))? (?=(?:twice|\d times|three times)(?: today)?(?:$|,))",
        r"hosed (?:all|everything|everyone|the lot)(?=$|,)",
    ),
    *rows(
        "watered",
        r"gave (?:it |her |him )?(?:a )?(?:good |deep |big |long )*(?:drink|watering|water)",
        r"watering(?= (?:with (?:rain|tap|the can|a can|the hose|\d)|by (?:can|hose)(?:$|,)))",
        r"poured(?= (?:with )?(?:rain ?water|\d))",
    ),
    *rows(
        "soaked",
        r"(?:soaked|stood|dunked|dipped|dived|plunged|put)(?: (?:it|the (?:whole )?pot|the rootball|the ball))?"
        r" (?:in|into) (?:a |the )?(?:water bath|tub|bucket|basin|bath|sink|water)(?: of water)?",
        r"(?:in )?(?:a |the )?water bath",
        r"(?:dived|dipped)(?= \d)",
    ),
    *rows(
        "fed",
        rf"(?:put|set|laid) (?=\d+ (?:new |more |fresh )?{FEED}(?: on)?(?:$|,))",
        rf"(?:gave|given)(?: (?:it|her|him))? (?:some |a feed of |a dose of )?"
        rf"(?=(?:liquid|fish|seaweed|kelp|{FEED}|\d{{1,2}}-\d{{1,2}}-\d{{1,2}}(?=$|,| at | half| full| quarter| \d| with ))\b)",
        rf"{FEED} (?:new|fresh|changed|renewed)(?=$|,)",
        rf"added (?=\d+ (?:more |new )?{FEED}(?:$|,))",
        rf"(?={FEED} [x×]? ?\d+(?:,? (?:renewed|laid on|new|on))?(?:$|,))",
        r"(?:last|first) feed of (?:the )?(?:year|yr|season)[,:]?",
    ),
    *rows(
        "protected",
        r"covered(?: (?:it|all|everything|the pots?))* (?=with (?:fleece|frost cloth|mulch|straw|bark))",
    ),
    *rows(
        "protected",
        rf"(?=(?:double )?{_COVER} (?:back )?(?:on|over|round|around|up)(?: (?:it|all|everything|them|the (?:tree|pots?|box|boxes|roots|lot|top)|again|tonight))*"
        rf"(?: ?(?:\+|&|and) ?{_COVER} (?:on|over|round|around)(?: (?:it|all|them|the (?:tree|pots?|box|boxes|roots|lot|top)))*)?(?:$|,))",
    ),
    *rows(
        "protected",
        r"(?:fleece|frost cloth) (?:around|round|over it)(?: (?:the )?(?:pot|tree))?",
        r"(?:fleece|frost cloth) (?:on|over) (?:the )?(?:pots?|tree)(?=$|,)",
        details="fleece",
    ),
    *rows(
        "unprotected",
        r"(?:fleece|frost cloth|cover) down",
        r"(?:winter )?protection (?:away|off|removed)",
        r"(?:took|taken) (?:the )?(?:fleece|frost cloth|covers?|bubble wrap) off",
        r"uncovered",
    ),
    *rows("protected", r"(?:winter )?(?:protection|cover) (?:is )?on[:,]?"),
    *rows("shaded", r"(?=\d+ % (?:shade )?(?:net|cloth) (?:over|on|up))"),
    *rows(
        "unshaded",
        r"shade (?:net|cloth) away",
        r"(?:took|taken) (?:the )?shade (?:net|cloth) (?:off|down)",
    ),
    *rows(
        "shaded",
        r"put up (?=\d+ % shade)",
        r"shade net up(?: over @PLACE@)?",
        r"put (?:the )?shade (?:net|cloth) (?:up|on|over)(?: it)?",
    ),
    *rows(
        "protected",
        r"fleece (?=(?:\d|two|three|double) ?(?:layers?|thick|sheets?)?(?:$|,| on\b| over\b))",
        details="fleece",
    ),
    *rows(
        "cleaned",
        r"(?:wiped|sponged)(?: (?:it|all|them|the|leaves|foliage|down|over|off))* (?=with (?:a )?(?:wet|damp|soft|soapy)? ?(?:cloth|sponge|rag)\b)",
        r"(?:algae|moss|lichen|liverwort) (?:brushed|scrubbed|scraped|taken|cleaned|removed|cleared)(?: (?:off|away|from))*(?: (?:the|bark|trunk|nebari|roots))*",
        r"(?:dead|old|brown) needles (?:brushed|shaken|raked|combed) out(?=$|,)",
    ),
    *rows("top-dressed", r"new moss (?:laid|on|put on)", details="moss"),
    *rows(
        "top-dressed",
        r"(?:scraped|took) (?:off )?(?:the )?(?:top|old top) (?:layer|inch|cm|soil)(?: off)? (?:and|&|\+) (?:put|added|laid) (?:new|fresh)",
        r"(?:top|surface)(?: soil| layer| mix)? (?:renewed|replaced|refreshed)",
    ),
    *rows("weeded", r"weed out(?=$|,)", r"liverwort (?:cleared|gone|picked off)"),
    *rows(
        "treated",
        rf"sprayed (?=(?:with |w )?(?:{SPRAY}))",
        r"(?:squished|squashed|picked off|killed) (?=(?:about |ca )?\d+ (?:small |big |green |black |white )*(?:aphids?|greenfl(?:y|ies)|scales?|mites?|caterpillars?|grubs?|weevils?|slugs?|snails?|beetles?|sawfl(?:y|ies)|bugs?|mealybugs?)\b)",
        r"hosed (?:it|them|her|him|'?em) (?:off|down)(?: (?:good|well|real good))?",
    ),
    *rows(
        "protected",
        r"(?:frost cloth|frost blanket|frost fleece|fleece|bubble ?wrap)(?: (?:back on|on|over|up|round|all|both|double|2 times|twice|doubled|tonight|again|it))+",
        details="fleece",
    ),
    *rows(
        "protected",
        r"(?:wrapped|covered|tucked up|packed|bedded) (?=(?:in|with|under) (?:fleece|straw|bubble ?wrap|mulch|bark|leaves|hessian|bracken))",
    ),
    # A net may be against frost, sun or birds: it is asked where it does not say so.
    *rows("protected", r"net(?:ted)?(?: (?:on|over|up))? (?=against )", details="net"),
    *rows(
        "shaded",
        r"(?:(?:shade|shadow|shading)[- ]?(?:net|cloth)|net)(?: (?:up|on|over|out))*(?=,? ?\d+ %(?:$|,))",
    ),
    *rows(
        "cleaned",
        r"(?:the )?(?:shari|deadwood) (?:brushed|cleaned|scrubbed)(?: (?:clean|up|down))*",
        details="shari",
    ),
    *rows(
        "cleaned",
        r"(?:the )?jins? (?:brushed|cleaned|scrubbed)(?: (?:clean|up|down))*",
        details="jin",
    ),
    *rows(
        "planted-out",
        r"(?:(?:out of|from) (?:the |its )?(?:pot|box|tray|drum),? )?into (?:the )?(?:open )?ground(?:,? (?:at |in )?(?:the )?(?=@PLACE@)|(?=$|,))",
    ),
    *rows("planted-out", r"(?:lined|planted) out (?:in|into|at)? ?(?=@PLACE@)"),
    # So thin it is for the bare tree, not for its deadwood.
    *rows(
        "treated",
        r"lime[- ]?sul(?:ph|f)ur(?= 1:\d\d)",
        r"lime[- ]?sul(?:ph|f)ur(?= (?:[1-9](?:[.,]\d+)? %|\d[\d.,]* (?:mL|g)/L))",
        details="lime sulphur",
        instead=True,
    ),
    *rows("treated", r"winter wash(?:ed)?[,:]?", details="winter wash"),
    *rows(
        "treated",
        r"(?:vine weevil |weevil )?nematodes? (?:given|applied|watered(?: on| in)*|in$|on$)",
        details="nematodes",
    ),
    *rows(
        "moved",
        r"out (?:from|of) (?:the )?(?P<from>@PLACE@)(?=,)",
    ),
    *rows(
        "moved",
        r"(?:verplaatst|umgestellt)(?: (?P<from>@PLACE@)| (?:van|von)? ?(?P<of>@PLACE@))?"
        r" (?:naar|nach|to|into) (?:the |de |het )?(?=@PLACE@)",
    ),
    *rows(
        "moved",
        r"out of (?:the )?@PLACE@,? (?:and )?(?:in|into|to|onto|on|back to)(?: the)? (?=@PLACE@)",
    ),
    *rows(
        "fed",
        r"(?:feed|fed|tama|okigoe|cakes|pellets|rapecake) (?:again|started|restarted|renewed|topped up)",
    ),
    *rows(
        "fed",
        r"(?:ericaceous|azalea|high N|low N|seaweed|slow release|organic|liquid|solid|autumn|spring|winter) feed",
        noun=True,
    ),
    *rows("moved", r"(?:from|out of|fr) (?:the )?@PLACE@ (?:back )?to (?:the )?(?=@PLACE@)"),
    *rows(
        "moved",
        r"(?=@PLACE@ now$)",
        r"(?:at |on |in |to )?(?:the )?(?:back|front|far end|end|corner|floor|top|side) of (?:the )?(?=@PLACE@ now$)",
    ),
    *rows("watered", r"hand[- ]?watered", details="by hand"),
    *rows("watered", r"water twice", details="twice"),
    *rows("watered", r"water well", details="well"),
    *rows(
        "treated",
        r"slug pellets (?:round|on|laid|scattered|put down|given|out)(?=$|,)",
        details="with slug pellets, against slugs",
    ),
    *rows(
        "treated",
        r"(?=(?:caterpillars|grubs|weevils|slugs|snails|beetles|moths) \d+ (?:by hand|picked off)(?:$|,))",
    ),
    *rows(
        "treated",
        r"(?=(?:rubbing )?alcohol (?:with|on) (?:a )?(?:stick|cotton bud|bud|swab|q-?tip|brush|cloth)(?:$|,))",
        r"(?=(?:rubbing )?alcohol(?: (?:\+|&|and|with|on) (?:a )?(?:brush|toothbrush|cotton (?:bud|swab)))?(?:$|,))",
    ),
    *rows("treated", r"hosed (?=against )", details="water jet"),
    *rows("watered", r"mizu(?= \d|\s*$|,)", noun=True),
    *rows(
        "treated",
        rf"(?:(?:tooth)?brush|thumbs?|fingers?|cloth|sponge) (?:and|\+|&) (?={SPRAY}(?:\s*$|,))",
        details="by hand",
    ),
    *rows(
        "cleaned",
        rf"{FEED} (?:all )?(?:off|removed|off again|away)(?: again)?",
        details="old cakes off",
    ),
    *rows(
        "fed",
        rf"{FEED} {ON}",
        rf"(?:first|1st|second|2nd|last) (?:feed|{FEED})(?: {ON})?",
        r"feed(?:ing)? (?:back on|on again|begun|started)",
        r"(?=\d{1,2}-\d{1,2}-\d{1,2}\b)",
        r"liquid feed",
        r"(?=fish (?:\d|emulsion|at|feed))",
        r"(?=fish$)",
        r"(?=liquid \d)",
        r"feed(?=[:,])",
        r"(?=(?:rapecake|okigoe|tama|cakes?|pellets)(?:$|,| \d| [x×]| on\b| new\b| fresh\b| half\b| each\b| round\b| (?:a|per|to) ))(?![^?]*\b(?:bought|ordered|arrived|delivered|delivery|price|eaten)\b)",
        r"(?=0-10-10)",
    ),
    *rows(
        "treated",
        rf"(?={SPRAY} (?:tonight|today|this (?:evening|morning|a\.?m\.?|p\.?m\.?))(?:$|,))",
        noun=True,
    ),
    *rows(
        "treated",
        rf"(?:ditto |second |2nd |third |3rd |first |1st |again )?(?={SPRAY}{_GIVEN})(?![^,.;]*{_ONLY_BOUGHT})",
        r"(?:second|2nd|third|3rd|first|1st) spray(?: done)?",
        r"drench(?:ed)?",
        r"sprayed(?: again)?(?! (?:the )?(?:leaves|foliage|crown|needles)? ?with (?:rain|rain ?water|water)(?:$|,))",
        r"(?=(?:\d+ )?(?:caterpillars|grubs|adults|slugs|snails|beetles|moths) (?:by hand|picked))",
        r"(?=[^,.;]{0,40}\b(?:captan|mancozeb|copper|neem|fungicide|soap) (?:drench|spray))",
        r"(?=toothbrush(?: and| &|,| \+)? )",
        r"picked off by hand",
        r"brushed off",
        r"(?=cut out (?:and|\+|&) burn)",
    ),
    *rows(
        "treated",
        r"hosed (?:off|down)(?: first)?",
        r"hosed (?:hard|thoroughly)(?: (?:under(?:neath)?|from below|both sides|all over|off|down))*(?=$|,| \+)",
        r"hosed (?:the )?(?:undersides?|underneath|leaves from below)(?: (?:hard|well|off))*",
        details="water jet",
    ),
    *rows("flushed", r"flushed(?: through)?", r"leached", r"rinsed through"),
    *rows(
        "soaked",
        r"soaked(?: through)?(?! in(?: after| well| with|,|$))",
        r"(?:deep |good |long )+soak(?=$|,| \d)",
        r"dunked",
        r"stood in (?:a |the )?(?:tub|water|bucket)",
        r"plunged in (?:water|a bucket)",
        r"bucket(?:ed)?(?= \d)",
    ),
    *rows("watered", r"(?=\d cans? (?:each|all))"),
    *rows(
        "protected",
        r"fleece(?:d)?(?: (?:on|over|up|both|round))+",
        r"fleeced",
        r"(?:under|wrapped in) fleece",
        details="fleece",
    ),
    *rows("protected", r"bubble ?wrap(?:ped)?(?: on| round)?", details="bubble wrap"),
    *rows("protected", r"pots? wrapped", details="pot wrapped"),
    *rows("protected", r"mulched(?: in)?", details="mulch"),
    *rows("protected", r"heeled in", details="heeled in"),
    *(
        row
        for what in ("moth", "bird", "insect", "hail")
        for row in rows(
            "protected", rf"{what} net (?:on|over|up)(?! in )", details=f"net, against {what}s"
        )
    ),
    *rows(
        "unprotected",
        r"(?:fleece|frost (?:cloth|blanket|fleece)) (?:off|away)(?: again)?",
        r"(?:covers?|bubble wrap|mulch) off",
        r"unfleeced",
    ),
    *rows(
        "shaded",
        r"(?=shade (?:cloth|net) \d+ % (?:on|up|over))",
        r"shade (?:cloth|net) (?:on|up|over)",
        r"under shade cloth",
        r"shading (?:on|up)",
    ),
    *rows(
        "unshaded",
        r"shade (?:cloth|net) (?:off|down|away)",
        r"shading (?:off|down|away)",
    ),
    *rows("weeded", r"weeds (?:out|pulled|off)", r"liverwort (?:off|out|scraped)"),
    *rows(
        "cleaned",
        r"(?:algae|moss|lichen) (?:off|scrubbed|brushed)",
        r"trunk (?:brushed|scrubbed)",
        r"old leaves (?:off|swept|picked)",
        r"scrubbed",
        r"nebari cleaned",
        r"swept",
    ),
    *rows("turned", r"turned round", r"(?:quarter|half) turn", r"turned (?=1/[24])"),
    *rows(
        "moved",
        r"(?:out|in|back|up|down|all|over|straight|moved|on|taken|carried|brought|put)*"
        r"(?: (?:out|in|back|over|again))* ?(?:in|into|to|onto|under|on) (?=@PLACE@)",
        r"(?:back|in|out|all in|all out),? (?=@PLACE@)",
        r"from @PLACE@ (?:back )?(?:in|into|to) (?=@PLACE@)",
        r"(?=@PLACE@ from @PLACE@)",
    ),
    *rows(
        "quarantined",
        r"isolated(?=$|,| from| in| on| because| \d)",
        r"apart from (?:the )?others",
        r"quarantine(?=[:, ])",
    ),
    *rows("released", r"out of quarantine", r"back (?:to|with) (?:the )?others"),
)
