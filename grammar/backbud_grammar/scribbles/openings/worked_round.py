"""How a line says what was done round a tree: to roots and pot, with water, feed, cover and sprays, and how it came or went."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import (
    FEED_SUBSTANCE,
    PEST,
    SUBSTANCE,
    ActOpening,
    rows,
)

_ONLY = r"(?=$|,)"
_THE = r"(?:(?:all|the|both|of) )*"
_WERE = r"(?: (?:is|are|was|were|has been|have been|got|all|now))*"
_NET = r"shade (?:net(?:ting)?|cloth|screen|fabric|mesh)"
_COVER = r"(?:bubble ?wrap|straw|hessian|burlap|mulch|cloche|winter cover|horticultural fleece|sacking|bracken|blanket|quilt|frost cloth|fleece)"
_OLD_FEED = r"(?:(?:old|spent|used|last|mouldy|rotten) )+(?:cakes?|pellets|rapecakes?|rape ?cakes?|okigoe|tama|feed balls|feed bags|teabags|tea bags)"
_FEED = (
    r"(?:bone ?meal|blood,? fish (?:and|&|\+) bone|fish ?meal|hoof and horn|(?:chicken|poultry) manure(?: pellets)?"
    r"|rapeseed(?: meal| cakes?)?|cottonseed(?: meal)?|slow[- ]release(?: feed| fert| pellets| granules)?|feed granules"
    r"|(?:tea ?bags|bags) of feed|feed bags|feed pellets|fert(?:ili[sz]er)? pellets|fert balls|organic (?:feed|cakes|pellets)|cakes|pellets|okigoe|rapecakes?|tama|feed balls)"
)
_MEDIUM = r"(?:akadama|kanuma|pumice|grit|mix|soil|compost|leaf mould|kiryu|lava)"
_PUT = r"(?:put|set|stood|sat|plunged|dunked|dipped|sunk|left)"
_BATH = r"(?:bucket|tub|basin|bath|sink|bowl|trough|barrel|washing[- ]up bowl|tank|pail|crate of water|tray of water)"
_TIME = r"(?=\d[\d.,/ ]*(?:min|h)\b|overnight|all night)"

# What only a hand does.
_BY_HAND: tuple[ActOpening, ...] = (
    # ---------------------------------------------------------------- roots and pot
    *rows("repotted", r"repotting (?:all )?(?:done|finished)(?=$|,)"),
    *rows(
        "repotted",
        r"(?:full|proper|emergency|late|early|big|quick|first|second|yearly|summer|winter) repot(?:ting)?(?=$|,)",
        r"repotting(?=, (?:\d|same|own|new|bigger|into|1/))",
        noun=True,
    ),
    *rows(
        "repotted",
        r"(?:changed|replaced|renewed) (?:all )?(?:the )?(?:soil|mix)(?=,[^?]*\b(?:same|own) (?:pot|box|tray)\b)",
        r"(?:soil|mix) (?:all )?(?:changed|replaced|renewed)(?=,[^?]*\b(?:same|own) (?:pot|box|tray)\b)",
        r"(?:re-?planted|put back|set back)(?=,? (?:in (?:the )?)?(?:same|own) (?:pot|box|tray)\b)",
        r"(?:root ?work|roots (?:worked|done))(?=,[^?]*\b(?:same|own) (?:pot|box|tray)\b)",
    ),
    *rows(
        "root-pruned",
        r"root[- ]?prun(?:ing|e) (?:all )?(?:done|finished)(?=$|,)",
    ),
    *rows("root-pruned", r"root[- ]?pruning(?=$|,)", noun=True),
    *rows(
        "potted-on",
        r"potted (?:up )?singly(?=$|,)",
        r"pricked (?:out|off) (?:in(?:to)?|singly in) (?:trays|modules|cells|plugs|boxes)(?=$|,)",
        r"pricked (?:off|on)(?=$|,)",
        r"first potting(?=$|,)",
    ),
    *rows("potted-on", r"(?:up )?(?:into|to) (?=\d[\d.,]* (?:cm|inch) pots(?:$|,))", noun=True),
    *rows(
        "slipped",
        r"(?:(?:in|put|set|dropped|moved|up|on) )*(?:in)?(?:to )?(?:a )?(?:bigger|larger|deeper|wider) (?:pot|box|tray),? (?:roots|(?:root ?)?ball|kluit) (?:whole|not touched|untouched|intact|as (?:it|they) (?:was|were)|left (?:alone|whole)|not disturbed|undisturbed)(?=$|,)",
        r"(?:up|potted up) (?:one|a) (?:pot )?size(?=$|,)",
        r"(?:next|one) (?:pot )?size up(?=$|,)",
        r"slip[- ]?pot(?=$|,)",
    ),
    *rows(
        "opened",
        rf"(?:the )?(?:soil(?: surface)?|surface|top soil|crust|soil crust){_WERE} (?:loosened|opened up|opened|scratched(?: up)?|raked(?: over| through)?|forked(?: over)?|broken up|spiked|pricked over|pricked)(?: with (?:a |the )?(?:hook|stick|chopstick|fork|rake|needle))?{_ONLY}",
        rf"(?:scratched|loosened|raked|pricked|spiked|forked|broke) (?:up |over )?(?:the )?(?:soil(?: surface)?|surface|crust)(?: up| over)?(?: with (?:a |the )?(?:hook|stick|chopstick|fork|rake))?{_ONLY}",
        details="surface",
    ),
    *rows(
        "top-dressed",
        rf"moss (?:all )?(?:put down|planted|set|pressed (?:on|in|down)|patched(?: in)?|plugged in|glued down|laid down|pinned down){_ONLY}",
        rf"moss (?:patches|plugs|pieces) (?:on|laid|set|put down|in){_ONLY}",
        details="moss",
    ),
    *rows(
        "top-dressed",
        rf"(?:chopped|fresh|new|milled) sphagnum (?:on|over) (?:the )?(?:top|surface){_ONLY}",
        details="sphagnum",
    ),
    *rows(
        "top-dressed",
        rf"(?:topped|top-dressed|dressed)(?: up)? (?=with (?:fresh |new |sieved |some )*{_MEDIUM}{_ONLY})",
        rf"(?=(?:soil|surface|top|pot) topped up with {_MEDIUM}{_ONLY})",
    ),
    *rows("top-dressed", rf"(?:soil|mix|surface) topped up{_ONLY}"),
    *rows(
        "tied",
        r"(?:tied|wired|anchored|secured|fixed|strapped|fastened) (?:firmly |well |tight |down )*(?:in|into|down in|down into|in to|to|down to) (?:the |its |her |his )?(?:new |old )?(?:pot|box|tray|drum|slab)(?=$|,)",
        r"tied (?:firmly |well |tightly )?(?:in|down)(?=$|,)",
        r"(?:new |fresh )?(?:anchor wires|tie[- ]wires|anchor ties|pot ties) (?:in|on|fitted|set)(?=$|,)",
    ),
    *rows(
        "untied",
        rf"(?:all )?(?:the )?(?:anchor|tie|pot|root)[- ]?(?:wires?|ties){_WERE} (?:off|out|cut off|cut out|cut|removed|taken out|taken off){_ONLY}",
        rf"(?:cut|took|removed) (?:off |out )?(?:all )?(?:the )?(?:pot |anchor )?(?:ties|tie[- ]wires|anchor[- ]wires)(?: off| out)?{_ONLY}",
    ),
    # ---------------------------------------------------------------- water
    *rows(
        "watered",
        r"(?:a )?(?:good|deep|long|proper) (?:drink|watering)(?: given)?(?=$|,)",
        r"(?:given|gave) (?:(?:it|her|him|them|all) )?(?:a )?(?:good |deep |long |big |proper |thorough )+(?:drink|watering|soaking)(?=$|,)",
        r"everything watered(?=$|,| \d| twice| by )",
    ),
    *rows("watered", r"(?=\d cans? (?:of )?(?:rain ?water|tap ?water|rain)(?:$|,))"),
    *rows("misted", r"(?:leaves|foliage|needles|crown|cuttings) (?:all )?misted(?=$|,| twice| \d)"),
    *rows(
        "soaked",
        rf"(?:(?:pot|ball|root ?ball|whole pot) )?(?:{_PUT} )?(?:in|into) (?:a |the )?{_BATH},? (?:for )?{_TIME}",
        rf"(?:pot |ball )?(?:{_PUT} )?in water,? (?:for )?{_TIME}",
        rf"(?:bucket|bath|basin|tub)(?: soak)?,? (?:for )?{_TIME}",
        rf"(?:submerged|immersed|drowned)(?: in (?:a |the )?{_BATH})?(?: for)? {_TIME}",
        r"(?:bucket|tub|bath|basin) soak(?=$|,)",
        r"(?:long|deep|good|overnight) (?:soak|dunk)(?=$|,)",
    ),
    *rows(
        "flushed",
        rf"(?:the )?(?:pot|soil|mix){_WERE} (?:flushed|leached)(?: (?:through|out))?{_ONLY}",
        rf"salts? (?:washed|flushed|leached|rinsed) out{_ONLY}",
        rf"(?:washed|flushed|leached|rinsed) (?:out )?(?:the )?salts?(?: out)?{_ONLY}",
    ),
    # ---------------------------------------------------------------- feed
    *rows(
        "fed",
        rf"(?:(?:new|fresh|more|first|second|third|some|the) )*{_FEED} (?:laid|put|given|scattered|sprinkled|worked|placed|pressed)(?: (?:on|in|out|down|round))*{_ONLY}",
        rf"(?:(?:new|fresh|more|first|second|third) )+{_FEED} on{_ONLY}",
        r"(?:(?:fish|seaweed|kelp|foliar|liquid|tomato|rose|azalea|ericaceous) (?:feed|emulsion|fert|fertili[sz]er)) (?:given|on|done|again)(?=$|,)",
        rf"(?=(?:\d+|half) (?:rape ?cakes?|cakes?|pellets|feed balls|rapecakes?) (?:on|laid|given|put on|per pot|each){_ONLY})",
    ),
    *rows(
        "fed",
        rf"(?:(?:new|fresh) )?(?:fish emulsion|fish feed|seaweed feed|foliar feed|kelp feed|tomato feed|bone ?meal|blood,? fish (?:and|&) bone){_ONLY}",
        noun=True,
    ),
    *rows(
        "fed",
        rf"(?:new|fresh) (?:cakes|pellets|rapecakes?|okigoe|tama|feed balls){_ONLY}",
        noun=True,
    ),
    *rows(
        "cleaned",
        rf"{_THE}{_OLD_FEED}{_WERE} (?:off|out|away|removed|picked off|taken off|lifted|binned|cleared){_ONLY}",
        details="old cakes off",
    ),
    # ---------------------------------------------------------------- places, light, cover
    *rows(
        "moved",
        r"(?:gone|went|now|transferred|wheeled|trolleyed|lugged|hauled|lifted|sent|walked|trundled)(?: (?:back|up|down|over|out|again|inside|outside))* (?:in|into|to|onto|on|under) (?:the )?(?=@PLACE@)",
        r"(?:->|=>|→) ?(?:the )?(?=@PLACE@)",
        r"(?:inside|indoors|outside|outdoors),? (?:in |into |on |onto |under |to )?(?:the )?(?=@PLACE@)",
        r"under (?:glass|cover|roof),? (?:in |into )?(?:the )?(?=@PLACE@)",
    ),
    *rows(
        "turned",
        r"(?:given |gave (?:it |her |him )?)?(?:a )?(?P<by>)?(?=(?:quarter|half) turn(?:$|,))".replace(
            "(?P<by>)?", ""
        ),
        r"(?:swung|spun|swivelled) (?:round|around)(?=$|,)",
    ),
    *rows(
        "shaded",
        rf"{_NET} (?:on|up|over|out)(?: again)?{_ONLY}",
        rf"(?:put|set) (?:up|under|on) (?:the )?{_NET}{_ONLY}",
        rf"under {_NET}{_ONLY}",
        details="net",
    ),
    *rows(
        "shaded",
        r"shade (?:on|up)(?=$|,)",
        r"under (?=\d+ % (?:shade|net|cloth)(?:$|,| net| cloth))",
    ),
    *rows(
        "unshaded",
        rf"(?:the )?{_NET} (?:off|down|away|removed|taken down|taken off|rolled up|rolled back)(?: again)?{_ONLY}",
        rf"took (?:down |off )?(?:the )?{_NET}(?: down| off| away)?{_ONLY}",
    ),
    *rows(
        "planted-out",
        r"(?:planted|set|lined)(?: out)? in(?:to)? (?:the )?(?:open )?(?:ground|field|growing bed|grow bed|nursery bed|nursery row|row)(?=$|,)",
        r"(?:lined|planted) out(?=$|,)",
    ),
    *rows(
        "protected",
        r"(?:wrapped|swathed|done|tucked up|tucked) (?:up )?in fleece(?=$|,)",
        details="fleece",
    ),
    *rows(
        "protected",
        r"(?:wrapped|done) (?:up )?in bubble ?wrap(?=$|,)",
        r"bubble ?wrap (?:on|round|around) (?:the |all |all the )?(?:pots?|box|boxes|tray)(?=$|,)",
        details="bubble wrap",
    ),
    *rows(
        "protected", r"pots? (?:put |set |packed |stood )?in straw(?=$|,)", details="pot in straw"
    ),
    *rows(
        "protected",
        r"(?:the )?pots? (?:sunk|plunged|buried|bedded|dug in)(?=$|,)",
        r"(?:plunged|sunk|buried|bedded)(?: (?:to|up to) the rim)? in (?:the )?(?:bark|sand|soil|leaves|peat|mulch|wood ?chips?|ground|bed)(?=$|,)",
        details="plunged",
    ),
    *rows(
        "protected",
        r"(?:straw|bark|mulch|leaf mould) (?:over|round|around) (?:the )?(?:roots|pots?|root zone|base|rims?)(?=$|,)",
        details="mulch",
    ),
    *rows(
        "protected",
        r"covered (?:up |over )?(?:for|against) (?:the )?(?:night|frost|winter|cold)(?=$|,)",
    ),
    *rows(
        "protected",
        r"(?:bird|pigeon|crow) net(?:ting)? (?:on|over|up)(?=$|,)",
        details="net, against birds",
    ),
    *rows("protected", r"cloche (?:on|over|back on)(?=$|,)", details="with cloche"),
    *rows(
        "unprotected",
        rf"(?:all )?(?:the )?{_COVER}{_WERE} (?:removed|taken off|taken away|cleared|pulled off){_ONLY}",
        rf"(?:bubble ?wrap|hessian|burlap|cloche|winter cover|sacking|frost cloth|fleece) (?:off|away){_ONLY}",
        rf"(?:took|pulled) (?:the |all the )?{_COVER} (?:off|away){_ONLY}",
    ),
    *rows(
        "weeded",
        r"(?:pulled|picked|hoed|scraped) (?:out )?(?:all |the |some |a few )*(?:weeds|liverwort|pearlwort|grass|oxalis)(?: out| off)?(?=$|,)",
        r"hand[- ]?weeded(?=$|,)",
        r"weeding (?:all )?(?:done|finished)(?=$|,)",
    ),
    *rows("weeded", r"weeding(?=$|,)", noun=True),
    # ---------------------------------------------------------------- clean
    *(
        row
        for said, details in (
            ("fallen leaves", "fallen leaves"),
            ("(?:dead|old|brown|dry|withered) leaves", "dead leaves"),
            ("(?:dead|brown|dry|fallen|loose) needles", "old needles"),
        )
        for row in rows(
            "cleaned",
            rf"{_THE}{said}{_WERE} (?:(?:picked|swept|cleared|raked|brushed|shaken|combed|blown|taken|tidied) (?:off|out|up|away)|cleared|removed){_ONLY}",
            rf"(?:picked|swept|cleared|raked|brushed|shook) (?:off|out|up|away) {_THE}{said}{_ONLY}",
            details=details,
        )
    ),
    *rows(
        "cleaned",
        rf"(?:the )?pots?{_WERE} (?:scrubbed|wiped|washed|brushed|cleaned|oiled)(?: (?:clean|down|off))?{_ONLY}",
        details="pot",
    ),
    *rows(
        "cleaned",
        rf"(?:the )?(?:soil )?surface{_WERE} (?:cleaned|tidied|cleared|swept|brushed){_ONLY}",
        details="soil surface",
    ),
    *rows(
        "cleaned",
        rf"(?:loose|flaky|flaking|old) bark{_WERE} (?:(?:picked|brushed|peeled|rubbed|scraped|taken) (?:off|away)|brushed|removed|tidied){_ONLY}",
        details="bark",
    ),
    *rows(
        "cleaned",
        rf"{_THE}(?:litter|debris|rubbish|mess|muck) (?:out|off|cleared|picked out|picked off|removed|brushed off|swept up){_ONLY}",
    ),
    # ---------------------------------------------------------------- pests
    *rows(
        "treated",
        rf"{_THE}(?:galls?|gall leaves){_WERE} (?:cut|picked|snipped|pinched) (?:out|off){_ONLY}",
        details="cut out, against galls",
    ),
    *rows(
        "treated",
        rf"dusted with (?:flowers of )?sulphur{_ONLY}",
        rf"sulphur (?:dusted|powder(?:ed)?)(?: on)?{_ONLY}",
        details="sulphur",
    ),
    *rows("treated", rf"(?:sprayed|drenched|dosed) (?=(?:for|against) (?:the )?{PEST}{_ONLY})"),
    *rows(
        "treated",
        rf"sticky traps? (?:up|out|hung|hung up|set|put up){_ONLY}",
        details="sticky traps",
    ),
    *rows(
        "treated",
        rf"(?:soil|root) drench(?: done| given)?{_ONLY}",
        details="soil drench",
        noun=True,
    ),
    *rows(
        "treated",
        rf"(?:sprayed (?:with )?)?(?={SUBSTANCE} (?:\d[\d.,]* (?:g|mL|ml)/L|\d[\d.,]* %|1:\d+)(?:$|,| (?:on|for|against) ))",
    ),
    *rows(
        "fed",
        rf"(?=(?:{FEED_SUBSTANCE}|iron chelate|sequestered iron|epsom salts?|magnesium sulphate) (?:\d[\d.,]* (?:g|mL|ml)/L|\d[\d.,]* %)(?:$|,))",
    ),
    *rows(
        "quarantined",
        r"(?:(?:put|set|kept|moved|taken|stood) )?(?:in|into) (?:quarantine|isolation)(?=$|,)",
        r"(?:kept|set|put|stood|stands) apart(?: from (?:the )?(?:others|rest))?(?=$|,)",
    ),
    *rows(
        "released",
        r"out of (?:quarantine|isolation)(?=$|,)",
    ),
    # ---------------------------------------------------------------- comings and goings
    *rows(
        "received",
        r"(?:brought|taken|carried) in by (?P<from>@PERSON@)(?=$|,)",
        r"(?P<from>@PERSON@) (?:has )?(?:brought (?:this|this one|the tree)(?: in| over| round| back)?|left (?:it|her|him|this) (?:here|with (?:me|us)))(?=$|,)",
    ),
    *rows("bought", r"(?:purchased|acquired)(?= from @PERSON@|$|,)"),
    *rows("lent", r"(?:out )?on loan (?=to @PERSON@)", r"loaned(?: out)? (?=to @PERSON@)"),
    *rows(
        "sold",
        r"(?P<to>@PERSON@) (?:has )?bought (?:it|her|him|this|this one|the tree)(?: for)?(?=$|,| \d)",
    ),
    *rows(
        "returned",
        r"(?P<to>@PERSON@) has (?:it|her|him) (?:back|home)(?=$|,)",
        r"(?:is )?back (?:home )?with (?P<to>@PERSON@)(?=$|,)",
    ),
    *rows(
        "sown",
        r"sowed (?=\d)",
        r"(?=\d+ seeds sown(?:$|,))",
        r"planted (?=\d+ seeds(?:$|,))",
        r"sowing(?=, \d+ seeds)",
    ),
    *rows(
        "struck",
        r"(?:set|inserted|planted|took|put in|stuck|struck) (?=\d+ (?:soft(?:wood)?|semi[- ]?ripe|hard(?:wood)?|root|heel|tip|green) cuttings\b)",
        r"(?=\d+ (?:soft(?:wood)?|semi[- ]?ripe|hard(?:wood)?|root|heel|tip|green) cuttings (?:in|set|stuck|struck|taken|put in)(?:$|,))",
        r"(?:set|inserted) (?=\d+ cuttings\b)",
        r"(?=\d+ cuttings (?:in|inserted|planted)(?:$|,))",
    ),
    *rows(
        "germinated",
        r"(?=\d+ (?:seedlings |seeds )?(?:sprouted|emerged|germinated|have germinated|have come up)(?:$|,))",
    ),
    *rows("rooted", r"(?=\d+ (?:of \d+ )?have rooted(?:$|,))"),
    *rows(
        "drained",
        r"(?:water )?(?:drains|drained|runs through|ran through|goes through|went through|passes|through)(?: in)? (?=\d[\d.,]* (?:s|min)(?:$|,))",
    ),
    *rows(
        "measured",
        r"(?=(?:trunk|girth|height|nebari|spread) (?:measured|measures|came to|comes to|stands at|at|now at) \d[\d.,]*(?: \d/\d)? (?:mm|cm|m|inch)(?:$|,))",
        r"(?=\d[\d.,]*(?: \d/\d)? (?:cm|m|inch) (?:high|tall)(?:$|,))",
        r"(?=(?:weighs|weighed) \d[\d.,]* (?:kg|g|lb)(?:$|,))",
    ),
    *rows(
        "ready",
        r"(?:done,? )?can (?:go home|be (?:collected|fetched|picked up))(?: now)?(?=$|,)",
        r"ready to be (?:collected|fetched|picked up)(?=$|,)",
    ),
    *rows(
        "billed",
        r"(?:sent|wrote)(?: out)? (?:the |a )?(?:bill|invoice)(?: for|,)? (?=\d)",
    ),
    *rows(
        "worked",
        r"(?:time|labou?r|hours)(?: spent)?:? (?=\d[\d.,/ ]* (?:h|min)\b)",
        r"(?=\d[\d.,/ ]* (?:h|min)(?: \d\d)? work(?:$|,))",
    ),
    *rows("valued", r"(?:appraised|assessed|priced) at(?= \d)"),
)
OPENINGS: tuple[ActOpening, ...] = (*_BY_HAND,)
