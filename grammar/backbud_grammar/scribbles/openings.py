"""What a line may begin with where it begins with no act word, and the act that it then is.

Each opening can be said of one act only. What could be two acts stands in `meant.py`: it is asked.
"""

from __future__ import annotations

import re

from msgspec import Struct


class ActOpening(Struct, frozen=True):
    """A way to open a line: the act that it is, and the details that it says already.

    `noun`: it names the work, and so may also be a wish.
    """

    act: str
    details: str
    pattern: re.Pattern[str]
    noun: bool = False


_OFF = r"(?:off|removed|taken off|cut off|picked off|pulled off|stripped|away)"
_OUT = r"(?:off|out|removed|pulled|pulled out|plucked|picked|picked off|taken off|taken out)"
_ALL = r"(?:(?:all|every|the|most|some|a few|last) )*"
_ON = r"(?:on|back on|out|down|set|put on|given|renewed|fresh on)"
_FEED = (
    r"(?:feed|fert|fertili[sz]er|pellets|cakes?|rapecakes?|rape cakes?|rape pellets|rapeseed cakes?"
    r"|okigoe|tama|tamahi|biogold bags|feed bags|tea bags of feed|feed balls|balls)"
)
_SPENT = (
    r"(?:(?:spent|old|faded|dead|brown|finished|last) (?:flowers?|blooms?|blossoms?|heads|trusses)"
    r"|seed pods?|seedpods?|pods|seed heads?|ovaries)"
)
_SPRAY = (
    r"(?:soft soap|insecticidal soap|soap(?: spray)?|neem(?: oil)?|horticultural oil|winter oil|oil"
    r" spray|oil|sulphur|wettable sulphur|copper(?: spray)?|mancozeb|captan|spinosad|abamectin|bt"
    r"|nematodes|predatory mites|fungicide|insecticide|acaricide|miticide|systemic|pyrethrum"
    r"|winter wash|garlic spray)"
)
_WIRE = r"(?:wires?|wiring)"
_PART = (
    r"(?:(?:the )?(?:left|right|front|back|apex|top|crown|lower|upper|low|high|first|second|third"
    r"|trunk|leader|branch(?:es)?)\b[^,.;]*)"
)
_WORK = (
    r"(?:repot(?:ted|ting)?|uekae|mekiri|metsumi|metsumi|momiage|hagari|decandl(?:ed?|ing)"
    r"|candle[- ]?cut(?:ting)?|candles cut|wir(?:ed|ing)|prun(?:ed?|ing)|pinch(?:ed|ing)?"
    r"|defoliat(?:ed?|ion|ing)|pluck(?:ed|ing)|needle (?:work|plucking|pulling)|thinn?(?:ed|ing)?"
    r"|f[ee]d(?:ing)?|feed|fed|root[- ]?work|root[- ]prun(?:ed?|ing)|trimm?(?:ed|ing)?"
    r"|water(?:ed|ing)|spray(?:ed|ing)|disbudd?(?:ed|ing)|deadhead(?:ed|ing)?)"
)

# Of what was done, by the noun or the trade's term that names it.
NOUNS = {
    "repot": "repotted",
    "repotted": "repotted",
    "repotting": "repotted",
    "uekae": "repotted",
    "root-work": "repotted",
    "rootwork": "repotted",
    "root work": "repotted",
    "mekiri": "decandled",
    "decandle": "decandled",
    "decandled": "decandled",
    "decandling": "decandled",
    "candle cut": "decandled",
    "candle-cut": "decandled",
    "candle cutting": "decandled",
    "candle-cutting": "decandled",
    "candles cut": "decandled",
    "metsumi": "pinched",
    "pinch": "pinched",
    "pinched": "pinched",
    "pinching": "pinched",
    "momiage": "plucked",
    "needle work": "plucked",
    "needle plucking": "plucked",
    "needle pulling": "plucked",
    "plucked": "plucked",
    "plucking": "plucked",
    "hagari": "defoliated",
    "defoliate": "defoliated",
    "defoliated": "defoliated",
    "defoliation": "defoliated",
    "defoliating": "defoliated",
    "wired": "wired",
    "wiring": "wired",
    "prune": "pruned",
    "pruned": "pruned",
    "pruning": "pruned",
    "feed": "fed",
    "fed": "fed",
    "feeding": "fed",
    "thin": "thinned",
    "thinned": "thinned",
    "thinning": "thinned",
    "trim": "trimmed",
    "trimmed": "trimmed",
    "trimming": "trimmed",
    "watered": "watered",
    "watering": "watered",
    "sprayed": "treated",
    "spraying": "treated",
    "root-pruned": "root-pruned",
    "root pruned": "root-pruned",
    "root pruning": "root-pruned",
    "root-pruning": "root-pruned",
    "disbudded": "disbudded",
    "disbudding": "disbudded",
    "disbud": "disbudded",
    "deadheaded": "deadheaded",
    "deadheading": "deadheaded",
    "deadhead": "deadheaded",
    "needles": "plucked",
    "candles": "decandled",
    "wire": "wired",
}


# An opening ends where a word does.
_ENDS = r"(?!(?<=[\w-])[\w-])[:.]?\s*"


def _rows(act: str, *patterns: str, details: str = "", noun: bool = False) -> list[ActOpening]:
    return [
        ActOpening(act, details, re.compile(rf"(?:{one}){_ENDS}", re.IGNORECASE), noun)
        for one in patterns
    ]


# The first that matches counts.
OPENINGS: tuple[ActOpening, ...] = (
    # -------------------------------------------------- the trade's Japanese terms, romanised
    *_rows("repotted", "uekae", r"(?:spring|fall|autumn) (?:uekae|repot(?:ting)?)", "ue-kae"),
    *_rows("decandled", r"mekiri(?: done)?", "me-kiri", noun=True),
    *_rows("pinched", r"metsumi(?: done)?", "me-tsumi", noun=True),
    *_rows("plucked", r"momiage(?: done)?", "momi-age", details="old needles", noun=True),
    *_rows("plucked", "hamushiri", "ha-mushiri", "furuba-tori", details="needles", noun=True),
    *_rows("thinned", "hasukashi", "ha-sukashi", details="needles", noun=True),
    *_rows("defoliated", "hagari", "ha-gari", "hakari", noun=True),
    *_rows("rubbed", "mekaki", "me-kaki", details="buds", noun=True),
    *_rows("trimmed", "hasami", "hasami-zukuri", "karikomi", "kari-komi", noun=True),
    *_rows("pruned", "sentei", "edanuki", "eda-nuki", noun=True),
    *_rows("wired", "harigane", "harigane-kake", "harigane kake", noun=True),
    *_rows("unwired", "harigane off", "harigane-hazushi", noun=True),
    *_rows("layered", "toriki", "tori-ki", "torimaki", noun=True),
    *_rows("grafted", "tsugiki", "tsugi-ki", noun=True),
    *_rows("grafted", "yobitsugi", "yobi-tsugi", details="approach", noun=True),
    *_rows("struck", r"sashiki(?: of)?", "sashi-ki", noun=True),
    *_rows("sown", "misho", "mimaki", noun=True),
    *_rows("watered", "mizuyari", "mizu-yari", "hamizu", noun=True),
    *_rows("fed", "okigoe", "oki-goe", "sehi", "hiryo", r"okigoe on", "tamahi on", noun=True),
    *_rows("treated-deadwood", r"lime s(?:ulphur)?", details="lime sulphur", noun=True),
    # -------------------------------------------------- was not done, or is for later
    *_rows(
        "skipped",
        r"not done (?:the )?(?P<named>needles|candles|wire)",
        rf"(?:no|not|skipped|skip) (?:done )?(?P<named>{_WORK})(?: (?:this|the) (?:year|spring"
        r"|summer|autumn|fall|season|time))?(?! (?:yet|till|until|til|before|needed|again))",
    ),
    *_rows(
        "put-off",
        rf"(?P<named>{_WORK}) (?:put off|postponed|waits|must wait|delayed)",
        rf"(?:postponed|delayed) (?P<named>{_WORK})",
    ),
    *_rows(
        "planned",
        rf"(?:plan|planned|plan to|to do|todo)[:,]? (?P<named>{_WORK})",
    ),
    # -------------------------------------------------- came and went
    *_rows(
        "received",
        r"arrived(?: today)?",
        r"came in(?: today)?",
        r"came back in",
        r"in from(?! the)(?= [A-Z])",
        r"back in from(?= [A-Z])",
        r"taken in",
        r"delivered by(?= [A-Z])",
        r"dropped off",
    ),
    *_rows(
        "returned",
        r"handed back",
        r"gone home",
        r"went home",
        r"home again",
        r"(?:picked up|collected|fetched) by (?:its |the )?owner",
        r"collected(?=\s*$)",
        r"back to (?:its |the )?owner",
        r"home with (?:its |the )?owner",
    ),
    *_rows("died", r"dead", r"is dead", r"has died", r"died off"),
    *_rows("bought", r"(?-i:bt)(?= )", r"bought off", r"bought in", r"ordered and paid"),
    *_rows("sold", r"sold on", r"sold off"),
    *_rows(
        "struck", r"took (?=\d+ cuttings)", r"stuck (?=\d+)", r"cuttings taken", "heel cuttings"
    ),
    *_rows("sown", r"seeds? (?:sown|in)", r"(?=\d+ seeds? sown)"),
    *_rows("germinated", r"(?=\d+ (?:up|seeds? up|germinated|seedlings? up)\b)", "first seeds up"),
    *_rows("rooted", r"(?=\d+ (?:of \d+ )?(?:rooted|have roots|with roots))"),
    *_rows("potted-on", r"potted on", r"potted up", r"pricked out", r"moved on into"),
    *_rows("potted-on", r"potted(?= (?:in|into)\b)"),
    # -------------------------------------------------- branch and leaf
    *_rows(
        "deadheaded",
        rf"{_ALL}{_SPENT}(?: all)? {_OUT}",
        rf"(?:picked|removed|took|cut|took off|cut off|twisted off) (?:off )?{_ALL}{_SPENT}(?: off)?",
        r"dead[- ]?head(?:ed|ing)?",
        r"(?:all )?flowers(?: all)? (?:removed|picked off|out incl\.? pods|off incl\.? pods)",
        r"(?=flowers off\b)",
    ),
    *_rows(
        "disbudded",
        rf"{_ALL}flower buds? {_OUT}",
        rf"(?:picked|removed|took|took off|cut) (?:off )?{_ALL}flower buds?(?: off)?",
    ),
    *_rows(
        "plucked",
        rf"{_ALL}(?:old|last year'?s?|last years|yellow|brown|hanging) needles(?: all)? {_OUT}",
        rf"(?:pulled|plucked|took out|removed) {_ALL}(?:old|last year'?s?|last years) needles",
        details="old needles",
    ),
    *_rows("plucked", rf"needles {_OUT}", r"pulled needles", r"needle[- ]?(?:pull(?:ed)?|work)"),
    *_rows(
        "defoliated",
        rf"{_ALL}leaves (?:all )?(?:off|cut off|cut|removed)",
        r"(?:cut|took) (?:off )?all (?:the )?leaves(?: off)?",
        r"leaf[- ]?cut",
        r"full defol(?:iation)?",
        r"defol",
    ),
    *_rows("defoliated", r"big leaves off", r"large leaves off", details="large leaves"),
    *_rows("defoliated", r"outer leaves off", details="outer leaves"),
    *_rows(
        "decandled",
        rf"{_ALL}candles (?:cut|cut off|all off|off)",
        r"(?:cut|removed) (?:all )?(?:the )?candles",
        r"candle[- ]cut",
    ),
    *_rows(
        "pinched",
        r"(?=(?:strong(?:est)? |long(?:est)? |\d+ strongest )?candles (?:pinched|snapped|broken"
        r"|shortened|halved|to half|back))",
        r"(?:snapped|broke|broken|shortened|halved) (?=.*candles)",
        r"nipped(?: out)?",
        r"tips nipped",
        r"tips (?:out|pinched|off)",
        r"new shoots pinched",
    ),
    *_rows(
        "trimmed",
        r"scissors? (?:only|over)",
        r"clipped over",
        r"tidied(?: up)?(?: the outline)?",
        r"(?:long |strong )?(?:shoots|runners|tips) (?:cut back|trimmed|shortened|clipped|cut)",
        r"haircut",
        r"outline (?:cut|trimmed|tidied)",
        r"cut back (?=to )",
        r"hedge[- ]?trimmed",
    ),
    *_rows(
        "pruned",
        r"hard[- ]?pruned",
        r"cut back hard",
        r"(?=cut back\b)",
        r"chopped(?= )",
        r"sawn? off",
        r"lopped",
        r"dead ?wood out",
        r"dead (?:twigs|branches|shoots) (?:out|off|cut out|removed)",
        r"(?:crossing|bar|big|heavy|thick) branch(?:es)? (?:off|out|removed|cut)",
        r"(?=[^,.;]*\b(?:branch|heavy one|limb)\b[^,.;]* (?:off|removed|sawn off|taken off)\b)",
    ),
    *_rows(
        "thinned",
        r"thinned out",
        r"thinned underside",
        r"fruit(?:lets)? thinned",
        r"(?=\d+ (?:apple|fruit|fig|crab)s? (?:per|left|stays?))",
        r"shoots thinned",
        r"(?=\d+ (?:shoots|buds|leaves|flowers) (?:left|kept|stays?|per)\b)",
        r"(?=(?:thinned|reduced) to \d)",
    ),
    *_rows(
        "rubbed",
        r"(?=(?:frosted|frost|dead|soft) (?:bits|tips|growth) rubbed)",
        r"rubbed out",
        r"rubbed off",
        r"(?:trunk buds|suckers|adventitious buds|buds on trunk|buds on the trunk) "
        r"(?:off|rubbed|rubbed off|out|removed)",
    ),
    *_rows(
        "unwired",
        rf"{_WIRE} (?:all )?(?:off|removed|cut off|taken off|out)(?: of| from| the)*(?= {_PART})",
        rf"(?:took|cut) {_WIRE} off(?= {_PART})",
        rf"(?:took|cut) off {_WIRE}(?: from| on)?(?= {_PART})",
        rf"off came the {_WIRE}(?= {_PART})",
        details="on",
    ),
    *_rows(
        "unwired",
        rf"(?:all )?{_WIRE} (?:all )?(?:off|removed|cut off|taken off)",
        rf"(?:took|cut) (?:all )?(?:the )?{_WIRE} off",
        rf"(?:took|cut) off (?:all )?(?:the )?{_WIRE}",
        r"de-?wired",
        rf"(?=[^,.;]*{_WIRE} (?:biting|bites)[^;]*\boff\b)",
    ),
    *_rows("wired", r"wire(?=,| \d|:)", noun=True),
    *_rows("wired", r"wired up", r"wires? on", r"full wire", r"re-?wired"),
    *_rows(
        "wired",
        r"(?=(?:top third|top half|upper part|lower branches|whole tree|apex|top|crown) wired)",
    ),
    *_rows("unguyed", r"guys? (?:off|removed|cut|out)", r"guy wires? (?:off|removed|cut|out)"),
    *_rows("unguyed", r"(?=guy on [^,.;]*\b(?:off|forgotten)\b)"),
    *_rows("guyed", r"guys? (?:on|set|put on)", r"guy wires? (?:on|set)"),
    *_rows("guyed", r"guy (?=from|to|\d)", noun=True),
    *_rows("guyed", r"pulled down with (?:a )?guy", r"(?=[^,.;]* put down with guy)"),
    *_rows("wrapped", r"raffia (?:on|round)", r"raffia'?d", r"bound with raffia"),
    *_rows("wrapped", r"(?=(?:crown|top|branches) tied up with raffia)"),
    *_rows("unwrapped", r"raffia (?:off|removed|cut)"),
    *_rows("carved", r"jinned", r"new (?:jin|shari) (?:cut|made)", r"shari (?:cut|widened|opened)"),
    *_rows(
        "treated-deadwood",
        r"(?:lime sulphur|ls)(?: on| to| all)*(?= (?:all |the )*(?:jins?|shari|deadwood|dead wood|trunk))",
        r"(?:jins?|shari|deadwood|dead wood)(?: (?:and|\+|&) (?:jins?|shari|deadwood))? "
        r"(?:brushed|cleaned|limed|painted|whitened)",
        details="lime sulphur",
    ),
    *_rows(
        "treated-deadwood",
        r"(?:lime sulphur|ls)(?= (?:neat|undiluted|\d coats?|1:1))",
        details="lime sulphur",
    ),
    *_rows("bloomed", r"flowers (?=\d)", r"(?=\d+ flowers? (?:open|out)\b)"),
    *_rows(
        "sealed",
        r"paste(?=,|$)",
        r"(?:cuts|wounds?) (?:sealed|pasted)",
        r"pasted(?= )",
        r"paste on(?= )",
        r"cut paste on",
    ),
    *_rows("grafted", r"(?=(?:thread|approach|side|cleft|veneer|bud|root|whip) grafts?\b)"),
    *_rows("grafted", r"grafts? (?:set|made|done)", r"grafted on"),
    *_rows("layered", r"air[- ]?layer(?:ed)? (?:set|begun|started|on)", r"ring[- ]?barked"),
    *_rows("layered", r"air[- ]?layer", noun=True),
    *_rows(
        "separated",
        r"(?:layer|air[- ]?layer) (?:off|cut off|severed|sawn off)",
        "layer"
        r" separated",
    ),
    *_rows("bent", r"bent down", r"trunk bent", r"lowered (?=left|right|branch|first)"),
    *_rows("styled", r"first styling", r"restyled", r"set the lines"),
    # -------------------------------------------------- roots and pot
    *_rows(
        "repotted",
        r"repot(?:ted)? (?:straight |at once )?(?:after|today|done)(?: that)?[:,]?",
        r"re-?potted",
        r"potted(?= )",
        r"back in (?:its|the) (?:own |old )?pot",
    ),
    # Which of the works of potting it was may stand nowhere.
    *_rows(
        "repotted",
        r"into (?=[^,.;]*\b(?:pot|drum|oval|rect|rectangle|round|tray|box|slab)\b)",
        r"in (?=(?:the )?(?:drum|oval|new pot|grey oval|blue|brown|cream|training box)\b)",
        noun=True,
    ),
    *_rows(
        "slipped",
        r"slip[- ]?potted",
        r"potted on whole",
        r"up a size",
        r"(?=only in (?:a )?new pot)",
    ),
    *_rows(
        "untied", r"(?:anchor )?ties (?:off|out|cut|removed)", r"tie[- ]?wires? (?:off|out|cut)"
    ),
    *_rows("tied", r"tied in(?=[ ,])", r"ties (?:in|on)"),
    *_rows(
        "top-dressed",
        r"top[- ]?dressed",
        r"moss(?: \w+)? (?:on|laid|on top)",
        r"mossed(?: over)?",
        r"sphag(?:num)? (?:on|top|on top)",
    ),
    *_rows("opened", r"surface (?:raked|opened|scratched)", r"raked(?: the)? surface"),
    *_rows("lifted", r"lifted out", r"dug up", r"out of the ground"),
    # -------------------------------------------------- keeping
    *_rows(
        "cleaned",
        rf"{_FEED} (?:all )?(?:off|removed|off again|away)(?: again)?",
        details="old cakes off",
    ),
    *_rows(
        "fed",
        rf"{_FEED} {_ON}",
        rf"(?:first|1st|second|2nd|last) (?:feed|{_FEED})(?: {_ON})?",
        r"feed(?:ing)? (?:back on|on again|begun|started)",
        r"(?=\d{1,2}-\d{1,2}-\d{1,2}\b)",
        r"liquid feed",
        r"(?=fish (?:\d|emulsion|at|feed))",
        r"(?=liquid \d)",
        r"feed(?=[:,])",
        r"(?=(?:rapecake|okigoe|tama|cakes?|pellets)\b)",
        r"(?=0-10-10)",
    ),
    *_rows(
        "treated",
        rf"(?:ditto |second |2nd |third |3rd |first |1st |again )?(?={_SPRAY}\b)",
        r"(?:second|2nd|third|3rd|first|1st) spray(?: done)?",
        r"drench(?:ed)?",
        r"sprayed(?: again)?",
        r"(?=(?:\d+ )?(?:caterpillars|grubs|adults|slugs|snails|beetles|moths) (?:by hand|picked))",
        r"(?=[^,.;]{0,40}\b(?:captan|mancozeb|copper|neem|fungicide|soap) (?:drench|spray))",
        r"(?=toothbrush(?: and| &|,| \+)? )",
        r"picked off by hand",
        r"brushed off",
        r"(?=cut out (?:and|\+|&) burn)",
    ),
    *_rows("treated", r"hosed (?:off|down)(?: first)?", details="water jet"),
    *_rows("flushed", r"flushed(?: through)?", r"leached", r"rinsed through"),
    *_rows(
        "soaked",
        r"soaked(?: through)?",
        r"dunked",
        r"stood in (?:a |the )?(?:tub|water|bucket)",
        r"plunged in (?:water|a bucket)",
        r"bucket(?:ed)?(?= \d)",
    ),
    *_rows("watered", r"water(?:ed)? (?:well|twice|both)", r"(?=\d cans? (?:each|all))"),
    *_rows(
        "protected",
        r"fleece(?:d)?(?: (?:on|over|up|both|round))+",
        r"fleeced",
        r"(?:under|wrapped in) fleece",
        details="fleece",
    ),
    *_rows("protected", r"bubble ?wrap(?:ped)?(?: on| round)?", details="bubble wrap"),
    *_rows("protected", r"pots? wrapped", details="pot wrapped"),
    *_rows("protected", r"mulched(?: in)?", details="mulch"),
    *_rows("protected", r"heeled in", details="heeled in"),
    *_rows("protected", r"net (?:on|over|up)", r"netted", details="net"),
    *_rows(
        "unprotected",
        r"fleece (?:off|away)(?: again)?",
        r"net (?:off|down)",
        r"(?:covers?|bubble wrap|mulch) off",
        r"unfleeced",
    ),
    *_rows(
        "shaded",
        r"shade (?:cloth|net)(?: \d+ %)? (?:on|up|over)",
        r"under shade cloth",
        r"shading (?:on|up)",
    ),
    *_rows("unshaded", r"shade (?:cloth|net) (?:off|down)", r"shading (?:off|down)"),
    *_rows("weeded", r"weeds (?:out|pulled|off)", r"liverwort (?:off|out|scraped)"),
    *_rows(
        "cleaned",
        r"(?:algae|moss|lichen) (?:off|scrubbed|brushed)",
        r"trunk (?:brushed|scrubbed)",
        r"old leaves (?:off|swept|picked)",
        r"scrubbed",
        r"nebari cleaned",
        r"swept",
    ),
    *_rows("turned", r"turned round", r"(?:quarter|half) turn", r"turned (?=1/[24])"),
    *_rows(
        "moved",
        r"(?:out|in|back|up|down|all|over|straight|moved|on|taken|carried|brought|put)*"
        r"(?: (?:out|in|back|over|again))* ?(?:in|into|to|onto|under|on) (?=@PLACE@)",
        r"(?:back|in|out|all in|all out),? (?=@PLACE@)",
        r"from @PLACE@ (?:back )?(?:in|into|to) (?=@PLACE@)",
    ),
    *_rows("quarantined", r"isolated", r"apart from (?:the )?others", r"quarantine(?=[:, ])"),
    *_rows("released", r"out of quarantine", r"back (?:to|with) (?:the )?others"),
    # -------------------------------------------------- looking
    *_rows("checked", r"looked (?:over|at)", r"peeked", r"inspected", r"had a look(?: at)?"),
    *_rows(
        "checked",
        r"(?=(?:wire|ties|guys?|graft|layer|roots) (?:all )?(?:not biting|biting|fine|loose|ok|good)$)",
    ),
    *_rows("measured", r"(?=(?:EC|pH)\s?\d)", r"(?=run[- ]?off EC)"),
    *_rows(
        "measured",
        r"(?=(?:candles?|new needles|needles|shoots|internodes|trunk|nebari|height"
        r"|girth) (?:now |abt |about |ca\.? )?\d[\d./, ]*\s?(?:mm|cm|m|inch|foot|top|up|avg)\b)",
    ),
    *_rows(
        "staged", r"buds? (?:swelling|swollen|moving|fat|on the move)", r"bud swell", details="01"
    ),
    *_rows(
        "staged",
        r"bud ?burst",
        r"buds? (?:breaking|bursting|opening|broken|burst)",
        r"green tips?",
        r"needles breaking",
        details="07",
    ),
    *_rows(
        "staged",
        r"first leaves(?: out)?",
        r"(?:in leaf|leafed out|leaf(?:ing)? out"
        r"|leaves (?:just )?(?:opening|unfolding|out))",
        r"green all over",
        r"leaf[- ]?out",
        details="10",
    ),
    *_rows(
        "staged",
        r"first (?:flower|bloom|blossom)s?(?: open| out)?",
        r"flowers starting",
        details="60",
    ),
    *_rows("staged", r"(?:full|in full) (?:flower|bloom|blossom)", details="65"),
    *_rows(
        "staged",
        r"petals? (?:down|dropping|falling|fall|off|all down)",
        r"(?:flowers?|bloom|blossom)(?:ing)? (?:over|done|finished)",
        r"bloom'?s done",
        details="69",
    ),
    *_rows(
        "staged",
        r"leaf[- ]?fall(?: begun| started| begins)?",
        r"leaves (?:falling|dropping)",
        r"dropping leaves",
        details="93",
    ),
    *_rows(
        "staged",
        r"(?:all )?leaves (?:all )?(?:down|fallen)",
        r"bare(?: now)?",
        "dormant",
        details="97",
    ),
    *_rows("photographed", r"photo(?:s|'d|ed)?(?: taken)?(?= \S)"),
    *_rows(
        "shown",
        r"(?:club|spring|autumn|local|winter|area) show(?:ing)?",
        r"to show",
        r"dressed for",
        r"at the show",
        r"off to (?:the )?show",
        r"on show",
        r"showed(?: at)?",
    ),
    # -------------------------------------------------- work for others
    *_rows(
        "quoted",
        r"told [A-Z]\w+(?= \d)",
        r"said(?= \d+)",
        r"quote(?:d)?[: ](?=\d)",
        r"(?:price|estimate)[: ](?=\d)",
    ),
    *_rows(
        "agreed",
        r"(?:\S+ ){1,3}says? (?:yes|ok|go ahead)",
        r"ok'?d by",
        r"deal[:,]?(?= \d)",
        r"yes from",
    ),
    *_rows(
        "billed",
        r"(?:bill|inv|invoice)(?= (?:\d|no|number|sent))",
        r"bill sent",
        r"(?:inv|invoice) (?P<number>\d[\d-]*) (?:to|sent)",
    ),
    *_rows(
        "paid",
        r"(?:\S+ )?(?:paid|sent)(?= (?:the )?\d)",
        r"(?=\d+ (?:dep|deposit) )",
        r"paid up",
        r"settled(?=[ ,]\d)",
        r"money in",
    ),
    *_rows(
        "worked",
        r"(?P<by>[A-Z]\w+) (?=\d[\d.,/ ]* (?:h|min)\b)",
        r"(?=\d[\d.,/ ]* (?:h|min)(?: \d\d)?(?: (?:two|three|2|3) days)?$)",
    ),
    *_rows("ready", r"ready to (?:go|collect)", r"done,? can go", r"for collection"),
)
