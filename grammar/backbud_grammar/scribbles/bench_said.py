"""How the details of a potting, of wire, of cuts, layers and cuttings are said in short, by act.

Rows as in `details_said.py`, which takes them in.
"""

from __future__ import annotations

from collections.abc import Mapping

Ways = tuple[tuple[str, str], ...]

_N = r"(\d|one|two|three)"
_LEN = r"(\d+(?:[.,]\d+)?(?:/\d+)?(?: \d/\d)? (?:mm|cm|inch))"
_PART = r"((?:left|right) \d{1,2}|apex|top|crown|(?:new )?leader|trunk)"
_OFF = r"(?:all )?(?:off|cut off|taken off|removed|out)"
_VESSEL = r"(?:crate|box|pot|tray|tub|bag|basket|container|can|drum|liner)"
_WHERE = r"(?:(?:at|in|on|from|under|near) (?:the )?)?(?:front|back|left|right|base|bottom|top|sides?|edge|middle|below|underneath|[NSEW])"
_POTTED: Ways = (
    # How the ball was found is no detail.
    (
        rf"out of (?:its|the|her|his) (?:old |field |training |wooden |plastic )*{_VESSEL}(?: (?:at last|finally|again|for once))*",
        "",
    ),
    (
        r"(?:the )?(?:roots?|ball)(?: (?:were|was|are|is|all|well|quite|badly|very|just|still|mostly))*"
        r" (?:one side(?:d)?|on one side|on one side only|one way|circling|matted|round and round|in a mat|at the bottom|on the bottom|thick and few|thin|good|fine|healthy|white|brown|sour|dry|tight|packed|solid|like felt|a mess|poor|few|crowded)",
        "",
    ),
    (
        rf"(?:\d+|a few|some|two|three|one|a|all|the) (?:bad |big |old |thick )*(?:crossers|circlers|crossing roots|circling roots)(?: {_WHERE})? (?:cut|off|out|removed|sawn)(?: (?:off|out|away))?",
        "crossing roots off",
    ),
    (
        r"(\d{1,2}) (?:fat|thick|big|heavy|old|large) (?:ones|roots)(?: (?:under|below|at|on|by|near) (?:the )?(?:[NSEW]|back|front|left|right|main)?(?: ?(?:trunk|side|base|edge))?)? (?:sawn|sawed|cut|taken)(?: (?:off|out))?(?: (?:flush|flat|clean|back))?",
        "thick roots off",
    ),
    (
        r"(?:thin |new |soft |copper |cu |al )*wires? (?:over|across|round) (?:the )?(?:feet|roots|ball|nebari|base)",
        "tied",
    ),
    (
        r"(?:ties|wires|tied|tie wires|tied in|wired in) ?[x×] ?(\d)(?: (?:\+|&|and|with) (?:a |\d )?(?:stick|cane|chopstick|batten|bamboo|raffia|string)s?(?: [^\d?]{1,30})?)?",
        r"tied \1",
    ),
    (
        r"(?:tied|wired|held)(?: in| down)? (?:with )?(?:battens?|bars?|sticks?|bamboo|canes?) across(?: ?(?:\+|&|and) ?ties)?|(?:battens?|bars?|sticks?|bamboo) across ?(?:\+|&|and) ?(?:ties|tied|wires)",
        "tied",
    ),
    (r"(\d) (?:ties|wires) (?:\+|&|and) (?:a |\d )?(?:stick|cane|batten|wedge)s?", r"tied \1"),
    (
        rf"(?:set |put |sits |stands )?(?:up|higher) {_LEN}(?: (?:in|at) (?:the )?(?:front|back))?",
        r"raised \1",
    ),
    (
        rf"(?:set |put |sits |stands )?(?:down|lower|deeper) {_LEN}(?: (?:in|at) (?:the )?(?:front|back))?",
        r"lowered \1",
    ),
    (
        r"turned (?:it )?(?:a (?:hair|touch|bit|little|shade)|slightly)(?: to the)?(?: (?:left|right|[LR]))?",
        "",
    ),
    (
        r"(?:the )?(?:mix |soil )?(?:sieved|sifted|screened)(?: (?:to|at|through|over))* \d+(?:[.,]\d+)? ?(?:-\d+ ?)?mm",
        "",
    ),
    (
        r"(?:a bit of |some |plus |with |\+ )?(?:myco|mycorrhiza|the white stuff|white fungus)(?: (?:kept|saved|left in|added|put back|thick|everywhere))?|kept (?:the |all the |some )?(?:white stuff|myco|mycorrhiza|fungus)",
        "",
    ),
    (
        r"(?:sphagnum|muck|keto|peat|moss) (?:rammed|pressed|packed|stuffed|pushed|in|into|worked)(?: (?:in|into|in to))? (?:the )?(?:rock )?(?:gaps?|cracks?|holes?|pockets?)(?: of the rock)?",
        "",
    ),
)
_SHARE = r"(\d/\d|\d+ %|half|a third|a quarter|two thirds|third|quarter)"
_MIXED_IN: Ways = (
    (r"(?:chopsticked|chopstick|poked|worked in|sticked)(?: in)?(?: for)? \d+ min", ""),
    (
        r"(?:rock|stone|slab|moss) (?:is |was )?(?:not touched|left|kept|untouched|stays)|moss pinned(?: (?:on|down))?(?: with [^\W\d]+)?",
        "",
    ),
    (
        r"tied (?:over|down|in)(?: (?:the ball|it))? with (?:jute|string|raffia|twine|rope) ?[x×] ?(\d)",
        r"tied \1",
    ),
    (
        r"(?:the )?tap(?: ?roots?)? (?:all )?(?:cut|snipped|pruned|taken|nipped)(?: (?:short|off|back))*",
        "taproot cut",
    ),
    (r"(?:the )?roots? (?:all )?washed(?: (?:out|off|clean|bare))*", "washed out"),
    (
        rf"(?:in(?:to)? )?(?:the )?(?:own|same|old) {_VESSEL} (?:all )?(?:scrubbed|cleaned|washed|oiled|rinsed)(?: (?:out|first|clean))*",
        "same pot",
    ),
    (r"(?:same|own) slab(?: again)?", "same pot"),
    (rf"in(?:to)? (\S+) from (?:the |its |a )?{_VESSEL}", r"into \1"),
    (
        r"half (?:of )?(?:the )?(?:root ?ball|ball|roots) (?:bare-?rooted|washed(?: out)?|bare)",
        "half bare-rooted",
    ),
    (
        r"(?:wired|tied|strapped|anchored)(?: (?:in|down|on))* (?:at |with )?(\d{1,2}) (?:points|pts|places|spots)",
        r"tied \1",
    ),
    (
        r"(?:muck|keto|peat|moss) (?:edge|wall|rim|collar)(?: (?:new|renewed|rebuilt|redone|mended|again))?",
        "",
    ),
    (r"(?:chopped |fine |sieved )*(?:bark|grit|charcoal) (?:over|on top)(?: (?:it|the top))?", ""),
    (r"whole (?:forest|group|clump|planting)", ""),
    (r"(?:the )?roots?", ""),
    (
        r"(?:hardly any|hardly anything|very few|very little|barely any|next to nothing|not much)(?: roots?)? (?:off|cut|taken)(?: off)?",
        "",
    ),
    (
        rf"(?:the )?(?:bottom|lower|below|underside) {_SHARE} combed(?: out)? ?(?:\+|&|and) ?(?:cut )?off",
        r"combed out, off below %1",
    ),
    (
        r"([NSEW]|north|south|east|west|back|front|left|right) (?:side|half) (?:of )?(?:the )?(?:root ?ball|ball|roots) only|only (?:the )?(?:side|half) of the ball",
        r"wedges #1",
    ),
    (r"no (?:tie[- ]?wires?|ties|anchor wires?)(?: (?:this time|needed|used|at all))*", ""),
    (
        r"(?:mix |soil )?(?:worked|poked|sticked|chopsticked) in(?: well)?(?: with (?:a )?(?:chopstick|stick))?",
        "",
    ),
)
_WIRED: Ways = (
    (r"(?:fully |all )?out(?: fully)?", ""),
    (rf"{_PART} (?:re-?)?wired(?: (?:over|up|again|at last|now|too))+", r"on \1"),
    (
        rf"{_PART} ?(?:\+|&|and|,)? ?{_PART} (?:re-?)?wired(?: (?:over|up|again|at last|now|too))*",
        r"on \1, on \2",
    ),
    (
        rf"{_PART} ?(?:\+|&|and|,)? ?{_PART} ?(?:\+|&|and|,)? ?{_PART} (?:re-?)?wired(?: (?:over|up|again|at last|now|too))*",
        r"on \1, on \2, on \3",
    ),
    (
        r"(?:raffia|wet raffia) (?:\+|&|and) (\d(?:[.,]\d+)?)(?: mm)? (al|cu|aluminium|copper)",
        r"\1 mm ^2",
    ),
    (
        r"(?:raffia|wet raffia) (?:\+|&|and) (al|cu|aluminium|copper) (\d(?:[.,]\d+)?)(?: mm)?",
        r"\2 mm ^1",
    ),
    (
        r"(?:wet |damp |some )*raffia (?:(?:on|round|under|underneath|over|below|first)(?: (?:it|that|the bend|the crack|there|first|all))*)",
        "",
    ),
    (r"(?:a |the )?(?:one |small |little )?(?:crack|creak|tick|click|split)(?: heard)?", ""),
    (
        r"(?:(\d)(?:[.,]\d+)? )?(al|cu|aluminium|copper) (\d(?:[.,]\d+)?) (?:doubled|double|twice)",
        r"\3 mm ^2, double",
    ),
    (
        r"(\d(?:[.,]\d+)?)(?: mm)? (al|cu|aluminium|copper) (?:doubled|double|twice)",
        r"\1 mm ^2, double",
    ),
    (
        r"(\d(?:[.,]\d+)?)(?: mm)? (al|cu|aluminium|copper) (?:with|in) (?:paper|tape|raffia|rubber)(?: (?:round|on|round it))?",
        r"\1 mm ^2",
    ),
    (r"(?:in )?(?:\d|two|three|several) (?:goes|tries|attempts|sittings|evenings|eves)", ""),
)
_UNWIRED: Ways = (
    (rf"(?:and )?{_PART} (?:too|as well|also)", r"on \1"),
    (r"raffia (?:stays|left|kept|still)(?: on)?", ""),
    (
        rf"(?:al|alu|aluminium|cu|copper)(?: wire)?(?: \d{{1,2}}(?:[.,]\d+)?)? off {_PART} ?(?:\+|&|and|,)? ?{_PART}",
        r"on \1, on \2",
    ),
    (rf"{_PART} wires? {_OFF}", r"on \1"),
    (rf"{_PART} ?(?:\+|&|and|,)? ?{_PART} wires? {_OFF}", r"on \1, on \2"),
    (
        rf"{_PART} ?(?:\+|&|and|,)? ?{_PART} ?(?:\+|&|and|,)? ?{_PART} wires? {_OFF}",
        r"on \1, on \2, on \3",
    ),
    (
        r"(?:all )?(?:cut|snipped|clipped)(?: off)?,? (?:and )?not unwound|(?:all )?(?:snipped|clipped)(?: off)?",
        "",
    ),
)
_DEBRIS = r"(?:\d+|half a|a|one|two|three|four) (?:(?:carrier|bin|big|full) )*(?:bags?|barrows?|buckets?|trugs?|sacks?|boxes|crates|loads)(?: (?:full|of (?:it|them|leaves|needles|cuttings|bits|prunings|stuff|flowers)))?"
_TO = r"(?:back |down |cut )*to"
_CUT: Ways = (
    (
        r"(?:cut )?(?:slanting|flat|on a slant|at an angle)|(?:wax|paste|sealer|putty) over(?: it)?",
        "",
    ),
    (r"(\d+)(?:ish|\+)", r"\1 off"),
    (
        rf"{_PART} (?:sawn|cut|taken|lopped|sawed)(?: off| out)? (?:at|to|on|back to) (?:the )?(?:collar|branch collar|trunk|base|bark ridge)",
        r"1 branch on \1",
    ),
    (
        rf"{_PART} (?:shortened|cut back|headed back|taken back) to (?:a |the )?(?:side[- ]?shoot|side[- ]?branch|bud|fork|first fork|stub|live bud|old wood)(?: [^\d?]{{1,30}})?",
        r"on \1",
    ),
    (
        r"(top|leader|apex) (?:sawn |cut |taken )?(?:out|off) at (\d[\d.,/]* ?(?:foot|inch|cm|m|mm))",
        r"to \2 on \1",
    ),
    (r"(\d+) (?:easy|easily|at least|plus|\+|and more|that I counted)", r"\1 off"),
    (r"stubs? (?:of )?(\d/\d)", r"stubs \1 inch"),
    (r"(?:slanting|clean|flat|flush|concave) cut", ""),
    (
        rf"(?:(?:every|each|all|new|long|the) )+(?:shoots?|tips?|twigs?|whips?|growth) {_TO} {_N}",
        r"to \1",
    ),
    (
        rf"(?:(?:every|each|all|new|long|the) )+(?:shoots?|tips?|twigs?|whips?|growth) {_TO} {_N} (buds?|leaf|leaves|eyes?|nodes?|pairs?)",
        r"to \1 \2",
    ),
    (
        r"(?:(\d+) )?(?:the )?(?:strongest|longest|fattest)(?: (?:ones|shoots|tips|candles))? (?:nipped|pinched|twisted off|snapped)(?: (?:off|out|back|by hand|with (?:the )?(?:nails|fingers)|between (?:the )?(?:nails|fingers)))*",
        r"\1 shoots",
    ),
    (r"(?:between|with) (?:the |my )?(?:nails|fingers|finger nails|thumb(?: and finger)?)", ""),
    (
        r"(?:big|large) leaves (?:cut |back )?to (?:the )?(?:stalks?|petioles?|stems?)",
        "large leaves",
    ),
)
_MEDIUM = r"(kanuma|akadama|perlite|pumice|sand|sphagnum|vermiculite|grit|peat|coir|seed compost)"
_ROUGH = r"(?:fine |coarse |sieved |chopped |sharp |neat |straight )*"
_STRUCK: Ways = (
    (rf"{_ROUGH}{_MEDIUM}(?: (?:fines|dust|fine|neat|only))?", r"\1"),
    (rf"{_ROUGH}{_MEDIUM} ?(?:\+|&|and|/) ?{_ROUGH}{_MEDIUM}(?: (?:fines|dust))?", r"\1, \2"),
    (
        r"(\d+) cuttings (?:off|from) (?:the |its )?(?:[^\W\d]+ ){0,2}(?:skirt|branches|tips|shoots|side|growth|ones|apex|top|back|whips)",
        r"\1",
    ),
    (r"(\d+) (?:stuck|struck|put in|set|in)", r"\1"),
    (
        r"half in (?:fine |coarse |chopped )*([^\W\d]+),? (?:and |the other )?half (?:in )?(?:fine |coarse |chopped )*([^\W\d]+)",
        r"\1, \2",
    ),
    (r"\d/\d (?:inch )?deep", ""),
    (r"(?:in )?\d+ (?:rows|lines|pots|trays)(?: of \d+)?", ""),
    (r"(?:with )?heels?(?: on| left on)?", "heel"),
    (
        r"(?:front|back|left|right|one|first|second) (?:row|half|tray) (?:with )?(?:hormone|none|without|no hormone)",
        "",
    ),
    (
        r"(?:fine |coarse |sieved |chopped )*(kanuma|akadama|perlite|pumice|sand|sphagnum) (?:in|on|under) (?:the )?(?:mist(?: box| bench)?|bench|frame|propagator|tray|box|bag)",
        r"\1",
    ),
)
_LAYERED: Ways = (
    (r"(?:both )?ends (?:tied |tight |taped |bound )*(?:tight|tied|taped|bound|closed|shut)", ""),
    (rf"ring {_LEN[:-1]}) wide", r"ring, \1"),
    (r"ring (\d+(?:[.,]\d+)?(?:/\d+)?(?: \d/\d)?) (?:inch )?wide", r"ring, \1 inch"),
)
_TREATED: Ways = (
    (
        r"(lime sulphur|ls|oil|copper|soap|soft soap|sulphur|neem|winter wash) (?:at )?(\d+) (?:to|in) (\d+)",
        r"\1, \2:\3",
    ),
    (
        r"(soft soap|soap|oil|neem|sulphur|copper|lime sulphur) (?:for|against) (?:the |all |those )*([^\W\d]+(?: [^\W\d]+)?)",
        r"\1, against \2",
    ),
    (
        r"(soft soap|soap|oil|neem|sulphur|copper|lime sulphur) (?:1st|first|2nd|second|3rd|third|fourth|last) (?:go|round|time|dose|spray)",
        r"\1",
    ),
    (
        r"(?:the )?(?:both sides|leaves both sides|undersides?(?: too| as well)?|top and bottom|inside and out|trunk (?:&|\+|and) twigs|trunk (?:&|\+|and) branches|stems too)(?: of (?:the )?leaves)?",
        "",
    ),
    (
        r"(?:on (?:its|her|his) side|tilted|upside down|laid down)(?: (?:over|in|on) (?:the )?(?:trough|tray|sink|bath|floor|grass|lawn|bench|table))?",
        "",
    ),
    (
        r"(?:the )?(?:soil|pot|moss) (?:was |is )?(?:bagged|covered|wrapped|foiled)(?: (?:over|up|first|in foil|with foil))*",
        "",
    ),
    (r"(\d+) days on|(\d+) days (?:after|later|since) (?:the )?(?:first|last)(?: (?:one|go))?", ""),
    (r"(?:still|calm|dull|grey|cool|dry) (?:day|evening|morning) for it", ""),
    (r"till? it (?:ran|dripped) off|to run-?off|dripping", ""),
)
_PROTECTED: Ways = (
    (
        r"(hessian|burlap|sacking|bracken|blanket) (?:round|around|over) (?:the )?(?:box|tray|trunk|roots|pot)",
        r"with \1",
    ),
    (
        r"(fleece|frost cloth|hessian|burlap|bubble ?wrap|bubble|straw|sacking|bracken|blanket) ?(?:\+|&|and) ?(fleece|frost cloth|hessian|burlap|bubble ?wrap|bubble|straw|sacking|bracken|blanket) (?:round|around|over|on) (?:the )?(?:[^\W\d]+ ?(?:\+|&|and)? ?){1,4}",
        r"with \1 and \2",
    ),
    (r"straw (?:on|over|round)(?: (?:the )?(?:top|it|roots|surface|soil))?", "straw"),
    (
        r"(?:leaned |put |set |with )?(?:a )?boards?(?: up| leaned)? (?:to windward|on the (?:wind|north|east|west|south) side|against the wind|to the [NSEW]|[NSEW] side)",
        "",
    ),
)
_TAKEN_OFF: Ways = (
    (
        r"(?:leave|left|stays?|keep)(?: it)? off (?:while|as long as|till|until) (?:it['’]?s |it is |it stays )?(?:mild|warm|dry|frost|cold|the next frost|it freezes)",
        "",
    ),
    (r"(?:to )?(?:air|dry|breathe)(?: (?:it|out|off))?", ""),
    (r"(?:folded|rolled|put|stored|packed|hung)(?: (?:up|away|by|to dry))*", ""),
)
_POTTED_ON: Ways = (
    (r"(\d+) (?:potted (?:on|up)|pricked out)(?: (?:singly|one by one))?", r"\1"),
    (r"(\d+) (?:in(?:to)?|to) (?:cells|modules|plugs|trays|liners|pots|a tray|the frame)", r"\1"),
    (r"(?:sand|grit|bark|fines) on (?:the )?top", ""),
)
_CARVED: Ways = (
    (
        rf"(?:new |a )?jin (?:on|at) (?:the )?(?:old |dead |low |broken )*{_PART} (?:made|cut|torn|peeled|stripped)(?: (?:back|down|with (?:a |the )?(?:knob |jin )?(?:cutters?|pliers|saw|knife|chisel)))*",
        r"new jin on \1",
    ),
    (r"(?:peeled|stripped|torn|ripped)(?: back| down)? with (?:the )?(?:jin )?pliers", ""),
    (r"along (?:the )?(?:chalk|pencil|marked|drawn|old)(?: (?:line|marks?))?", ""),
    (r"peels? (?:a treat|well|badly|like [^\W\d]+)(?: with (?:the )?sap up)?", ""),
    (r"(?:wet|dry|hard|soft|old|resinous|sappy) wood", ""),
)
POTTINGS = ("repotted", "potted-on", "slipped", "lifted", "root-pruned")
MORE_SAID: Mapping[str, Ways] = {
    **dict.fromkeys(POTTINGS, (*_POTTED, *_MIXED_IN)),
    "wired": _WIRED,
    "rubbed": _CUT,
    "unwired": (
        *_UNWIRED,
        (
            r"(?:the )?(?:left|leave|leaving) the (?:rest|others?)(?: on)?(?: (?:till?|until) [^\W\d_]+)?",
            "",
        ),
    ),
    **dict.fromkeys(("pruned", "trimmed", "pinched", "defoliated", "decandled", "disbudded"), _CUT),
    "thinned": (
        *_CUT,
        (
            rf"{_N} (?:per|to (?:a|each)|at each|on each|each|a) (?:tip|fork|node|whorl|cluster|spur)",
            r"leaving \1",
        ),
    ),
    "struck": _STRUCK,
    "carved": _CARVED,
    "potted-on": (*_POTTED, *_MIXED_IN, *_POTTED_ON),
    "sown": _STRUCK[:2],
    "top-dressed": ((r"(\d[\d./]*(?: \d/\d)? (?:inch|cm|mm)) (?:on|of|over) (?:the )?top", r"\1"),),
    "layered": _LAYERED,
    "treated": _TREATED,
    "protected": _PROTECTED,
    "moved": (
        (
            r"(?:in |on |to )?(?:the )?(\S+)(?: on)? (?:the )?(?:(?:[NSEW]|north|south|east|west|far|near|back|front|left|right|low|top|bottom|upper|lower|hose|door|window) (?:end|side|rack|shelf|corner|row|wall)|(?:top|bottom|low) rack)",
            r"to \1",
        ),
    ),
    "unprotected": _TAKEN_OFF,
    "unshaded": _TAKEN_OFF,
    "deadheaded": (
        (r"(\d+) (?:easy|easily|at least|plus|\+|and more|that I counted)", r"\1"),
        (r"(?:trusses|heads|ovaries|pods) and all", ""),
    ),
}
