"""How a detail is said at the bench where its table has other words for it.

By the act: a way of saying it, and the detail as the table has it. A way of saying it is held
against the whole piece between two commas, never against a part of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache

from msgspec import Struct

from backbud_grammar.languages import LANGUAGE
from backbud_grammar.scribbles.keep_said import MORE
from backbud_grammar.scribbles.needed import NeededWords, needed_words
from backbud_grammar.scribbles.openings.row import FEED_SUBSTANCE, SUBSTANCE
from backbud_grammar.scribbles.wires_said import WIRE_WORDS, WIRING, wires_said
from backbud_grammar.scribbles.works_agreed import WORKS_AGREED
from backbud_grammar.ways_compiled import compiled_way

_NUM = r"(\d+(?:[.,]\d+)?(?:/\d+)?(?: \d/\d)?)"
_LEN = rf"({_NUM[1:-1]} (?:mm|cm|inch|m))"
# Bare figures of wire are mm as far as wire is so thick: copper from 6 on is a gauge.
_AL, _CU = r"(\d(?:[.,]\d+)?(?![\d.,]))", r"([0-5](?:[.,]\d+)?(?![\d.,]))"
_SHARE = (
    r"(\d/\d|\d+ %|half|(?:a|one) third|(?:a|one) quarter|one half|two thirds|three quarters|third"
    r"|quarter)"
)
_FRACTIONS = {
    "one half": "1/2",
    "one third": "1/3",
    "one quarter": "1/4",
    "three quarters": "3/4",
    "half": "1/2",
    "a third": "1/3",
    "third": "1/3",
    "a quarter": "1/4",
    "quarter": "1/4",
    "two thirds": "2/3",
}
_SIDES = {"north": "N", "south": "S", "east": "E", "west": "W"}
_WHERE = r"(?:the )?(apex|top|crown|leader|trunk|(?:left|right) \d)"
_BOTTOM = r"(?:below|under|underneath|the bottom|bottom|the underside|underside|btm|the base|base)"
_POT = r"(?:pot|box|tray|drum|oval|rect|rectangle|round|slab|bowl|cascade|basket|crate|one)"
_THICK = r"(?:tap(?: ?root)?|thick roots?|\d+|a|one|two|three|some|few|the) (?:(?:big|thick|heavy|fat|large|old|crossing|circling|dead) )+(?:ones?|roots?)"
_ROOT_WHERE = r"(?: (?:back|front|left|right|under|on|at|of|the|side|trunk|below|base|[NSEWLR]))*"
_MEDIUM = r"(kanuma|akadama|pumice|perlite|vermiculite|sand|sharp sand|river sand|grit|peat|compost|seed compost|leaf mould|bark|lava|coir)"
_FINE = r"(?:(?:just|stuck|put|in|into|with|fine|finest|coarse|medium|small|pure|straight|neat|damp|fresh|sieved|washed|clean|new|of) )*"
_STRUCK = (
    (
        rf"(?:tips? |pieces )?(?:about |abt |ca )?{_LEN}(?: (?:tips?|pieces?|lengths))?",
        r"tips \1",
    ),
)
_VESSEL = (
    r"(?:pot|pots|pan|box|tray|basket|pond basket|bowl|tub|crate|can|cans|liners?|modules?|cells)"
)
_OF_MEDIUM = (
    (rf"{_FINE}(?:all )?{_MEDIUM}(?: (?:fine|coarse|neat|only|medium))?", r"\1"),
    (rf"{_FINE}{_MEDIUM} ?(?:\+|&|and|/|with) ?{_FINE}{_MEDIUM}", r"\1, \2"),
    (rf"{_FINE}{_MEDIUM} {_MEDIUM}", r"\1, \2"),
)
_ROOTS = (
    (
        rf"tap(?: ?root)?(?: (?:of|was))? {_LEN}(?: (?:thick|across|wide))?(?: (?:was|all))? (?:sawn|sawed|cut|nipped)(?: (?:off|out|flat|flush|through|back))?",
        "taproot cut",
    ),
    (
        rf"(?:one |a |the )?(?:(?:thick|big|heavy|fat|large|old) )*root (?:(?:under|below|underneath|at the back|in the middle) )?{_LEN}(?: (?:thick|across|wide))? (?:sawn|sawed|cut|taken)(?: (?:off|out|flat|flush|through|back|away))?",
        "thick roots off",
    ),
    (
        rf"(?:combed|teased|raked)(?: out)? {_LEN}(?: (?:all round|all over|round))?",
        r"teased out \1",
    ),
    (r"(?:tied|wired|wire|ties|wires)(?: in)? ?[x×] ?(\d)", r"tied \1"),
    (
        r"(?:new angle,? )?(\d{1,2}) degrees (?:to the )?(left|right)",
        r"tilted \1 degrees to the \2",
    ),
    (r"(?:new angle,? )?(\d{1,2}) degrees L", r"tilted \1 degrees to the left"),
    (r"(?:new angle,? )?(\d{1,2}) degrees R", r"tilted \1 degrees to the right"),
    (
        r"(?:(?:all|the|old|field|nursery) )*soil (?:all )?(?:off|out|away|washed|hosed|rinsed)(?: (?:off|out|away))? (?:with|by) (?:the )?(?:hose|water|jet)",
        "washed out",
    ),
    (r"(?:grit|lava|pumice|gravel|crocks) (?:in|at|on) (?:the )?bottom", "drainage layer"),
    (rf"{_SHARE} {_BOTTOM} (?:weg|ab|eraf|away|gone)", r"off below %1"),
    # What stands in no card: its size is its name.
    (
        rf"(?:in(?:to)? )?(?:a |the |an )?(?:(?:new|plain|plastic|clay|wooden|grow|growing|training|nursery|pond|bigger|larger|square|round) )*{_VESSEL} {_LEN}",
        r"\1 pot",
    ),
    (
        rf"(?:in(?:to)? |to )?(?:a |an |the )?{_LEN} (?:(?:plain|plastic|clay|wooden|grow|growing|training|nursery|pond|square|round) )*{_VESSEL}",
        r"\1 pot",
    ),
    (
        r"(?:the )?([NSEW]|north|south|east|west|back|front|left|right) (?:side|half|quarter|part) (?:opened|combed|raked|teased|cut|done)(?: (?:up|out))?",
        r"wedges #1",
    ),
    (r"tied (?:in )?(\d) with (\d(?:[.,]\d)? mm)(?: (Al|Cu|al|cu))?", r"tied \2 ^3 x \1"),
    (
        r"(?:lava|pumice|grit|gravel|coarse) (?:layer|drainage)(?: (?:below|under|underneath|at the bottom))?|drainage (?:lava|pumice|grit|gravel)",
        "drainage layer",
    ),
    (
        r"(?:zelfde|eigen|gleicher?|eigener?|derselbe|selber) (?:pot|topf|schale|schaal)(?: (?:weer|wieder))?",
        "same pot",
    ),
    (rf"(?:wortels?|wurzeln) {_SHARE}(?: (?:weg|ab|eraf|af|gekürzt|gesnoeid|off))?", "off %1"),
    (
        rf"{_SHARE} (?:(?:der|van de|of|the) )?(?:wortels?|wurzeln)?(?: ?(?:weg|ab|eraf|af|gekürzt|gesnoeid))",
        "off %1",
    ),
    (r"mit draht(?: (?:fest|befestigt|gesichert))?|met draad(?: (?:vast|vastgezet))?", "tied"),
    (
        rf"{_THICK}{_ROOT_WHERE}(?: {_LEN}(?: thick)?)? (?:cut|sawn|sawed|removed|taken|off|out)(?: (?:off|out|away|back|right|under|below|at|trunk|the|base|flush|(?:left|right) \d))*",
        "thick roots off",
    ),
    (r"(?:the )?rest (?:combed|teased|raked|picked)(?: out)?", "combed out"),
    (r"no tap ?root(?: left)?", ""),
    (r"(?:in |into )?(\S+) all \d+", r"into \1"),
    (rf"(?:roots? |ball )?{_SHARE} (?:of )?(?:the )?(?:roots? )?(?:away|gone|removed)", r"off %1"),
    (
        r"(?:wired|tied|fixed|held|anchored|fastened) (?:in |down )?(?:to|into) (?:the )?(?:pot|rim|tray|box|slab|feet)"
        r"(?: (?:at|in|on|with) (\d|three|four) (?:places|points|wires|spots|corners|sides))?",
        r"tied \1",
    ),
    (
        rf"{_SHARE} off (?:all )?(?:round|around)(?:(?<=all round)|(?<=all around)| (?:the )?(?:outside|sides|edges?|rim))",
        "off %1",
    ),
    (
        r"(?:\d+|a|one|two|three|some|few) (?:\w+ )?roots? (?:over|at|round|along|on|under) (?:the )?"
        r"(?:edge|rim|sides?|outside|surface|base|bottom|top) (?:cut|sawn|sawed|taken) (?:away|off|out)",
        "thick roots off",
    ),
    (r"(?:the )?circlers (?:cut|out|off|removed)(?: off| out| away)?", "circling roots off"),
    (
        r"(?:the )?(?:muck|keto|peat) (?:wall|rim|edge)(?: (?:is |was )?(?:new|renewed|rebuilt|made|repaired|mended))?",
        "",
    ),
    (r"(?:a )?(?:new |fresh )?(?:sphagnum|moss) (?:edge|collar|rim|skirt)(?: on| laid)?", ""),
    (
        rf"(?:back )?(?:in|into|on|onto)? ?(?:the |its )?(?:same|own|old) (?:\w+ )?{_POT}(?: again| back)?",
        "same pot",
    ),
    (
        r"(?:roots?|sides|edges|ball) (?:well )?(?:combed|teased|raked|picked)(?: out)?(?: (?:all )?(?:round|over))?",
        "combed out",
    ),
    (
        rf"(?:roots?|sides|edges|ball) (?:combed|teased|raked|picked)(?: out)? {_LEN}",
        r"teased out \1",
    ),
    (r"tied (?:in )?(?:[x×] ?)?(\d) (?:pts|points|places|corners|ways|holes|loops)", r"tied \1"),
    (r"(\d) (?:wires|loops|anchor wires|tie wires|tie-downs|tie downs)", r"tied \1"),
    (
        r"(?:a |some |plus )?(?:touch|bit|pinch|handful) of (?:myco|mycorrhiza|charcoal|sphagnum)",
        "",
    ),
    (
        r"(?:fixed|secured|anchored|fastened|held)(?: in| down)? (?:with|by) (\d) (?:wires?|ties)",
        r"tied \1",
    ),
    (rf"roots? {_SHARE} off (?:from )?(?:the )?{_BOTTOM}", r"off below %1"),
    (rf"{_SHARE} roots? off (?:from )?(?:the )?{_BOTTOM}", r"off below %1"),
    (
        rf"{_SHARE} (?:of )?(?:the )?(?:roots?|root ?ball|ball|kluit|wortels?|wurzeln)"
        r" (?:off|away|weg|ab)",
        "off %1",
    ),
    (r"(?:out of|from) (\S+) (?:in|into|to) (?:the )?(\S+)", r"out of \1, into \2"),
    (rf"(\d) ties (Al|Cu) {_NUM}(?: mm)?", r"tied \3 mm ^2 x \1"),
    (rf"roots? {_SHARE} {_BOTTOM}(?: off)?", r"off below %1"),
    (rf"{_LEN} {_BOTTOM} away", r"off below \1"),
    (rf"sides? {_LEN}(?: away| off)?", r"off sides \1"),
    (
        rf"(?:took |cut )?(?:about |abt |a good )?{_LEN} (?:off|from) (?:all )?(?:round|around)",
        r"off sides \1",
    ),
    (
        rf"(?:took |cut )(?:off )?(?:about |abt |a good )?{_LEN} (?:off|from) (?:the )?{_BOTTOM}",
        r"off below \1",
    ),
    (rf"(?:took|cut) (?:off )?(?:about |abt )?{_SHARE} (?:off|of) (?:the )?roots", r"off %1"),
    (
        r"(?:all )?(?:the )?old soil (?:all )?(?:washed|hosed|rinsed|shaken) (?:away|out|off)",
        "washed out",
    ),
    (r"all (?:the )?(?:field |nursery |old )?soil (?:out|off|away|washed out|gone)", "bare-rooted"),
    (
        r"(?:roots?|root ?ball|ball) (?:untouched|undisturbed|not touched)|no root (?:disturbance|cut)",
        "no root work",
    ),
    (r"sides combed(?: out)?", "combed out"),
    (r"(?:in |into |with )?(\S+) mix (\d+(?:[.,]\d+)? (?:L|l))", r"mix \1 \2"),
    (r"(?:new |bigger |first |first bonsai )?pot (\S+)", r"into \1"),
    (r"(?:in |into )?(?:a |the )?(?:bigger |new |larger |first bonsai )?pot,? (\S+)", r"into \1"),
    (r"put (?:it )?in(?:to)? (?:the )?(\S+)", r"into \1"),
    (r"back in(?:to)? (\S+)", r"into \1"),
    (r"mossed(?: up| over)?", "moss on top"),
    (r"wired in", "tied"),
    (rf"(\d+) (?:in(?:to)?|to) {_LEN}(?: pots?)?", r"\1, \2"),
    (rf"(?:in(?:to)?|to) {_LEN}(?: pots?)?", r"\1"),
    (rf"{_LEN} off (?:all )?(?:round|around)(?: the (?:sides|edge))?", r"off sides \1"),
    (rf"{_LEN} off (?:the )?sides", r"off sides \1"),
    (r"wired in(?: (?:at|with))?(?: (\d))?(?: (?:pts|points|places|corners|ties))?", r"tied \1"),
    (rf"roots? (?:trimmed|cut|shortened|pruned)(?: back)? {_LEN} {_BOTTOM}", r"off below \1"),
    (rf"roots? (?:flat |level |evenly )?{_SHARE}(?: off)?", r"off %1"),
    (r"tied [x×] ?(\d) (\d(?:[.,]\d)? mm)(?: (Al|Cu|al|cu))?", r"tied \2 ^3 x \1"),
    (r"(?:top ?root|tap ?root|taproots?) (?:sawn|sawed)(?: off)?", "taproot cut"),
    (
        r"(\d+) (?:big |thick |heavy |circling |crossing )*roots? (?:sawn|sawed|cut|taken off)(?: off| out| away)?",
        "thick roots off",
    ),
    (
        rf"{_LEN} (?:off|from) (?:the )?sides (?:and|&|\+) (?:the )?{_BOTTOM}",
        r"off sides \1, off below \1",
    ),
    (
        rf"{_LEN} (?:off|from) (?:the )?{_BOTTOM} (?:and|&|\+) (?:the )?sides",
        r"off below \1, off sides \1",
    ),
    (rf"{_SHARE} {_BOTTOM} off", r"off below %1"),
    (rf"{_SHARE} of (?:the )?{_BOTTOM}(?: off)?", r"off below %1"),
    (rf"(?:roots? )?{_BOTTOM} {_LEN} (?:off|shorter)", r"off below \1"),
    (rf"{_LEN} {_BOTTOM} off", r"off below \1"),
    (rf"(?:bottom|btm|below) (?:cut|raked|sawn|sawed|shaved)(?: off)? {_LEN}", r"off below \1"),
    (rf"{_LEN} (?:all round|round the (?:sides|edge)|each side)(?: off)?", r"off sides \1"),
    (r"(\d) ties (?:of )?(\d(?:[.,]\d)? mm)(?: (Al|Cu|al|cu))?", r"tied \2 ^3 x \1"),
    (r"tied (?:in |down )?(?:with )?(\d) (?:wires|points|pts|ties|loops)", r"tied \1"),
    (r"tied (?:in |down )?(?:at |on )?(\d) (?:places|corners|sides|points|pts)", r"tied \1"),
    (r"(?:4|four) ties", "tied 4"),
    (r"(?:top|surface) mossed|moss(?:ed)? (?:over|laid|on)", "moss on top"),
    (r"(?:all )?(?:old )?soil (?:washed|hosed|rinsed) (?:out|off)", "washed out"),
    (r"(?:hosed|rinsed)(?: out| off| clean)?", "washed out"),
    (
        r"(circling|crossing|thick|dead) roots? (?:cut|removed|off|out)(?: off| out)?",
        r"\1 roots off",
    ),
    (r"(?:back )?(?:in|into) (?:the )?(?:same|own|old|its) (?:pot|box|tray|drum|oval)", "same pot"),
    (r"same one|the same", "same pot"),
    (r"(?:its |the )?(?:own|same|old) (?:pot|box|tray) (?:back|again)", "same pot"),
    (rf"{_LEN} (?:off|from) (?:the )?{_BOTTOM}", r"off below \1"),
    (rf"off (?:the )?{_BOTTOM} {_LEN}", r"off below \1"),
    (rf"(?:the )?{_BOTTOM} {_LEN} off", r"off below \1"),
    (rf"{_LEN} (?:off|from) (?:the )?(?:sides|edges|all round|rim)", r"off sides \1"),
    (rf"(?:the )?sides {_LEN} off", r"off sides \1"),
    (rf"{_LEN} (?:off|from) (?:the )?top", r"off top \1"),
    (rf"{_SHARE} (?:of )?(?:the )?(?:roots?|root ?ball|ball) (?:off|removed|cut|gone)", r"off %1"),
    (rf"{_SHARE} (?:off|removed|cut)(?: (?:the )?(?:roots?|root ?ball|ball))?", r"off %1"),
    (rf"{_LEN} (?:the )?sides", r"off sides \1"),
    (rf"(?:took|cut) {_LEN} {_BOTTOM}", r"off below \1"),
    (rf"(?:roots?|root ?ball) (?:cut|reduced|pruned)(?: back)? (?:by )?{_SHARE}", r"off %1"),
    (rf"{_SHARE} (?:off|from) (?:the )?{_BOTTOM}", r"off below %1"),
    (rf"{_BOTTOM} {_SHARE} off", r"off below %1"),
    (r"roots? (?:cut|trimmed|pruned|shortened)(?: back)?", "thick roots shortened"),
    (r"taproots? (?:nipped|cut|off|shortened)", "taproot cut"),
    (r"tap roots? (?:nipped|cut|off|shortened)", "taproot cut"),
    (r"bare ?root(?:ed)?", "bare-rooted"),
    (r"half bare ?root(?:ed)?", "half bare-rooted"),
    (r"(?:root ?bound|pot ?bound)", "rootbound"),
    (r"combed(?: out)?", "combed out"),
    (r"teased(?: out)?", "teased out"),
    (r"sides teased(?: out)?", "teased out"),
    (r"roots teased(?: out)?", "teased out"),
    (rf"(?:sides|edges) teased(?: out)? {_LEN}", r"teased out \1"),
    (r"no roots? (?:cut|touched|work)", "no root work"),
    (r"(?:with )?(?:kluit|root ?ball|ball) (?:whole|kept whole|intact|untouched)", "no root work"),
    (r"same (?:pot|box|tray)(?: again)?", "same pot"),
    (r"(?:its |the )?own pot(?: again)?", "same pot"),
    (r"back in (?:the |its )?(?:same|own|old) pot", "same pot"),
    (r"(?:the )?same (?:soil|mix)", "same mix"),
    (r"(?:sphag|sphagnum|mizugoke|moss)(?: moss)? (?:on )?top", "moss on top"),
    (r"(?:mossed|moss on|moss over)(?: top)?", "moss on top"),
    (r"tied (?:in|down|firm|well)", "tied"),
    (rf"tied {_LEN} (?:wire )?[x×] ?(\d)", r"tied \1 x \2"),
    (r"tied (?:in )?(?:[x×] ?)?(\d)(?: ?[x×]| times| places| points)?", r"tied \1"),
    (r"tied (?:at )?(?:four|4) (?:points|places)", "tied 4"),
    (r"(\d) ties", r"tied \1"),
    (rf"tied (?:in )?(?:with )?{_LEN}(?: wire)?(?: (Al|Cu))?", r"tied \1 \2"),
    (r"(?:well )?watered in(?: well)?", "watered in"),
    (r"drainage", "drainage layer"),
    (r"new mesh", ""),
    (r"(.+?) (\d+(?:[.,]\d+)? (?:L|l))", r"mix \1 \2"),
    (r"(\d+(?:[.,]\d+)? (?:L|l)) (?:of )?(.+)", r"mix \2 \1"),
    (
        r"(?:in |with |into )?(?:pure |straight |neat |fresh |new )?(\S+)(?: mix)?(?: neat| only)?",
        r"mix \1",
    ),
    (r"in(?:to)? (?:the )?(\S+)", r"into \1"),
    (r"(\S+)(?: pot)?(?: again)?", r"into \1"),
    (r"(?:with )?rooting (?:hormone|powder|gel)", "hormone"),
)
_POTTED_ON = (
    (rf"(\d+) (?:to|into) {_LEN} (?:pots|liners|cans)", r"\1 seedlings, \2"),
    (
        r"(\d+) (whips|seedlings|cuttings|plants|layers) (?:potted|pricked)(?: (?:on|up|out))?",
        r"\1 \2",
    ),
    (r"(\d+) (?:potted|up|pots)", r"\1 seedlings"),
    (r"(\d{1,3})", r"\1 seedlings"),
)
_DECANDLED = (
    (r"(first|second|third) (?:cut|lot|pass|go|session|cutting)", r"\1 round"),
    (r"(?:the )?(?:strong|strongest|weak|weakest|mid|middle) (\d{1,3})", r"\1 candles"),
    (
        r"(?:no|short|shorter|shortest|long|longer|longest) stubs?|stubs? (?:short|shorter|long|longer)",
        "",
    ),
    (r"(?:top|apex|crown) all|all (?:the )?(?:top|apex|crown)", "all on top"),
    (rf"stubs? (?:of |left )?{_NUM} ?(mm|cm|inch)", r"stubs \1 \2"),
    (r"(?:the )?(\d+) (?:strong|strongest|big|fat|weak|long)(?: ones)?", r"\1 candles"),
    (r"(\d{2,3})", r"\1 candles"),
    (r"(\d+) (?:pieces|pcs|of (?:them|['’]?em))", r"\1 candles"),
)
_DEFOLIATED = (
    (rf"{_SHARE} of (?:the |all )?leaves(?: (?:off|cut|removed))?", "%1"),
    (r"(\d{2,3})(?: or so| odd)?", r"\1 leaves"),
    (r"(?:the )?(?:big|large|biggest|largest)(?: ones| leaves)?(?: only| off)?", "large leaves"),
)
_RUBBED = (
    (r"(\d{1,3})", r"\1 off"),
    (
        r"(\d|one|two) (?:per|a|on each|to each) (?:tip|shoot|twig|place|knot|fork)",
        r"leaving \1 buds",
    ),
    (r"(?:back |down )?to (\d|one|two|three)(?: (?:each|per \w+))?", r"leaving \1 buds"),
    (
        r"(\d|one|two|three) (?:left |kept )?(?:per|a|each) (?:tip|shoot|branch|place|knot)",
        r"leaving \1 buds",
    ),
)
_PLUCKED = (
    (
        r"only (?:the )?(?:(?:old|brown|yellow|hanging|dead|last year'?s) )+(?:ones|needles|pairs)",
        "old needles",
    ),
    (
        r"(\d+) pairs? (?:a|per|each|to a) (?:tip|shoot|twig|branch)(?: (?:on|at|in))?(?: the)? (top|apex|crown|mid|middle|low|lower|bottom)",
        r"leaving \1 pairs on \2",
    ),
    (
        r"(\d+) pairs? (?:a|per|on each|to a) (?:tip|shoot|twig|branch)(?: (?:left|kept|stay))?",
        r"leaving \1 pairs",
    ),
    (
        r"(?:kept|keep|keeping|left|leaving) (\d+) pairs?(?: (?:each|all over|a shoot|per shoot))?",
        r"leaving \1 pairs",
    ),
    (r"(\d+) pairs? (?:left |kept |stay )?(?:on )?each(?: shoot| tip| twig)?", r"leaving \1 pairs"),
    (r"all (?:the )?old(?: ones| needles)?(?: (?:off|out|away))?", "old needles"),
    (
        r"(?:left|leaving|leave|kept|keeping) (\d|one|two|three) years?['’]?(?: of)?(?: needles)?(?: on)?",
        r"leaving \1 years",
    ),
    (
        r"(?:the )?this (?:years?|yr)['’]?s? (?:ones |needles |growth )?(?:left|stays?|kept)(?: on| alone)?",
        "old needles",
    ),
    (r"(?:all )?(?:the )?old ones(?: only)?", "old needles"),
    (
        r"(?:only )?(?:the )?(?:2|two|3|three|second|third) (?:yr|year|years)(?: old)?(?: needles| ones)?",
        "old needles",
    ),
    (r"only (?:the )?old(?: ones| needles)?", "old needles"),
    (r"(\d+)(?: pairs?)? below", r"leaving \1 pairs on low"),
    (
        r"(\d+) pairs? (?:on |at )?(?:the )?(top|apex|crown|mid|middle|low|lower|bottom)",
        r"leaving \1 pairs on \2",
    ),
    (
        r"(\d+) (?:on |at )?(?:the )?(top|apex|crown|mid|middle|low|lower|bottom)",
        r"leaving \1 pairs on \2",
    ),
)
# What of a tree may be left out of a work on its branches.
_LEFT_OUT = (
    r"((?:(?:low|lower|lowest|upper|top|topmost|inner|inside|outer|weak|weaker|weakest|strong|small|back|front|left|right|first|second"
    r"|third|apex|crown|leader|tips?|branch(?:es)?|shoots?|ones|buds|leaves|side|sacrifice|trunk|jin|\d{1,2}|and|[NSEW])(?: |$))+)"
)
_LOW = r"(?:low|lower|lowest|upper|top|inner|outer|inside|back|front)"
_ONES = r"(?:ones|shoots|candles|branches|twigs|tips|buds|leaves|needles)"
_EXCEPT = (
    # What is left is not on the left: of the apex and of what is weak nobody says a side so.
    (r"(?:the )?(apex|crown|leader) (?:is |was )?left(?: as (?:it was|is))?", r"except on \1"),
    (
        rf"(?:the )?((?:{_LOW} )*(?:weak|weaker|weakest|small|smaller|thin|young) (?:{_LOW} )*{_ONES}) (?:are |were )?(?:all )?"
        r"(?:left|kept|stay)(?: on)?(?: for now)?",
        r"except on \1",
    ),
    (
        rf"(?:the )?((?:{_LOW} )+(?:ones|shoots|candles|tips|buds|leaves|needles)) (?:are |were )?(?:all )?"
        r"(?:left|kept|stay)(?: on)?(?: for now)?",
        r"except on \1",
    ),
    (
        rf"(?:the )?((?:{_LOW} )+(?:branches|twigs)) (?:are |were )?(?:all )?(?:left on|kept on|kept|stay on|stay)",
        r"except on \1",
    ),
    (
        r"(?:nothing|none|no shoots)(?: touched| cut| done)? (inside|low down|below)",
        r"except on \1",
    ),
    (r"not (low down|inside|down low|at the back|underneath)", r"except on \1"),
    (
        r"(?:the )?(sacrifice(?: branch| leader| shoot)?) (?:is |was )?left(?: on| to run| to grow)?",
        r"except on \1",
    ),
    (
        rf"(?:all |every(?:thing|where) |the lot )?(?:but|except(?:ing)?(?: for)?|bar|save|exc\.?|excl\.?)(?: not)?(?: on)?(?: the)? {_LEFT_OUT}",
        r"except on \1",
    ),
    (rf"(?:but )?not (?:on |at |in )?(?:the )?{_LEFT_OUT}", r"except on \1"),
)
_BRANCH = r"(?:the )?((?:(?:low|lower|lowest|high|upper|first|second|third|bottom|top) )*(?:(?:left|right)(?: \d{1,2})?|back|front)(?: (?:low|high))?|apex|leader|crown)(?: branch)?"
# A branch that was cut for what it was, and where.
_UNWANTED = r"(?:(?:crossing|bar|heavy|thick|big|large|unwanted|upright|downward) )+branch(?:es)? (?:off|out|removed|cut out|cut off)"
_SPOT = r"((?:left|right)(?: \d)?|apex|top|crown|back|front)"
_SHORTENED = r"(?:shortened|headed back|reduced|cut back|pruned back)"
_CUT = (
    (r"(?:the )?big outer(?: ones| leaves)?(?: only)?", "outer"),
    (
        r"(\d|one|two|three) pairs? (?:on |at )?(?:the )?(apex|top|crown|sides|low|lower|bottom)",
        r"to \1 pairs on \2",
    ),
    (
        r"to (\d|one|two|three) (?:a|per|each|to each) (?:spur|cluster|truss|tip|fork|branch|shoot|twig)",
        r"leaving \1",
    ),
    (
        r"(?:the )?(apex|top|crown|leader|(?:left|right) \d) (?:back |down )?to (\d|one|two|three) (shoots|buds|branches|leaves|pairs) (?:a|per|each|to each) (?:fork|tip|twig|shoot|branch)",
        r"to \2 \3 on \1",
    ),
    (
        r"(?:the )?(apex|top|crown|leader|(?:left|right) \d) (?:back |down )?to (\d|one|two|three) (shoots|buds|branches|leaves|pairs)",
        r"to \2 \3 on \1",
    ),
    (
        r"(outer|inner)(?: canopy| leaves)? (?:defol(?:iated|iation)?|leaf[- ]?(?:cut|pruned))",
        r"\1",
    ),
    (
        r"(top|upper|lower|bottom)(?: half)? (?:defol(?:iated|iation)?|leaf[- ]?(?:cut|pruned))",
        r"on \1 half",
    ),
    (
        r"(?:(?:low|lower|heavy|thick|big|old) )*(?:branch )?((?:left|right) \d)(?: branch)? (?:removed|taken out|taken off)",
        r"1 branch on \1",
    ),
    (r"(\d) ?(?:x|times)(?: (?:this|in a|a) (?:week|month|spring|summer|year))?", r"\1 times"),
    (r"((?:left|right) \d) (?:sawn|sawed|cut|lopped|taken) flush", r"1 branch on \1"),
    (
        rf"(?:1|one) {_UNWANTED} (?:at|in|on|from) (?:the )?{_SPOT}",
        r"1 branch on \1",
    ),
    (rf"(?:1|one) {_UNWANTED}", "1 branch"),
    (
        rf"(\d|two|three) {_UNWANTED} (?:at|in|on|from) (?:the )?{_SPOT}",
        r"\1 branches on \2",
    ),
    (rf"(\d|two|three) {_UNWANTED}", r"\1 branches"),
    (r"(?:rd|rnd|lot|go|#) ?(?:1|one)", "first round"),
    (r"(?:rd|rnd|lot|go|#) ?(?:2|two)", "second round"),
    (r"(?:rd|rnd|lot|go|#|round|pass|part|pt) ?(?:3|three)", "third round"),
    (rf"{_BRANCH} {_SHORTENED}(?: hard)? (?:by|to|back to) {_SHARE}", r"%2 on \1"),
    (rf"{_BRANCH} {_SHORTENED}(?: hard)? by {_LEN}", r"by \2 on \1"),
    (rf"{_BRANCH} {_SHORTENED}(?: hard)? (?:back )?to {_LEN}", r"to \2 on \1"),
    (
        rf"{_BRANCH} {_SHORTENED}(?: hard)? (?:back )?to (\d|one|two|three) (leaves|leaf|buds?|nodes?|pairs?|shoots?)",
        r"to \2 \3 on \1",
    ),
    (rf"{_BRANCH} {_SHORTENED} hard", r"hard on \1"),
    (rf"{_BRANCH} {_SHORTENED}", r"on \1"),
    (
        rf"(?:(?:new|all|the|strong|long) )*candles (?:snapped|broken|pinched|twisted)(?: back)? (?:by|to) {_SHARE}(?: (?:on|at|up|in))?(?: the)? (top|apex|crown)",
        r"candles, %1 on \2",
    ),
    (r"(?:1st|first) flush", "first flush"),
    (r"(?:the )?(?:mids|mediums|middles|medium ones|middle ones|mid ones)", "medium"),
    (
        rf"(?:the )?(?:mids|mediums|middles|medium ones|middle ones|mid ones) (?:(?:cut|snapped|broken|pinched) )?(?:by|to) {_SHARE}",
        "medium, %1",
    ),
    (
        r"(?:the )?(?:top|outer) (?:and|\+|&) (?:outer|top)(?: ones| leaves| canopy)?",
        "outer, on top",
    ),
    (r"(?:the )?outer canopy(?: only)?", "outer"),
    (
        r"(?:out |only )?(?:the )?(\d+) (?:strong|tallest|strongest|longest|biggest|fattest)(?: ones| shoots)?",
        r"\1 shoots",
    ),
    (
        rf"{_SHARE} (?:of )?(?:the )?(?:green|growth|foliage|canopy|crown|leaf)(?: (?:is |was )?(?:off|out|away|removed|gone))",
        "off %1",
    ),
    (r"(?:on |from )?(?:the )?(?:outline|silhouette|outside)(?: only)", "outer"),
    (rf"(?:all |everything |all of it )?back to {_LEN}", r"back to \1"),
    *_EXCEPT,
    (
        r"(\d+) pairs? (?:left|stay|stays|kept)(?: on)?(?: per| a| each| on each)? (?:shoot|twig|branch|tip)",
        r"leaving \1 pairs",
    ),
    (
        r"(\d|one|two|three) (leaves|buds|nodes) left(?: on(?: each| every)?)?(?: (?:each|per \w+))?",
        r"to \1 \2",
    ),
    (r"(?:the )?(?:outline|shape|silhouette) (?:kept|left|as it was|follows)(?: \w+)?", ""),
    (r"(?:stalk|petiole|leaf stalk)(?: all)? (?:left|kept|stays)(?: on)?", "leaving petioles"),
    (r"only (?:the |on the |in the )?(?:top|upper) half", "on top half"),
    (rf"only (?:the )?(strong|weak|outer|inner)(?:er|est)? {_ONES}", r"\1"),
    (
        r"(?:the )?((?:(?:low|lower|lowest|high|upper|first|second|third|back|front) )*(?:left|right)(?: \d{1,2})?) (?:off|out) (?:flush|at (?:the )?(?:collar|branch collar|trunk))",
        r"1 branch on \1",
    ),
    (r"(?:\+|&|and) (?:the )?(?:seed ?)?pods", "with ovaries"),
    (rf"only (?:the )?(?:long|longer|longest) {_ONES}", "long shoots"),
    (r"(?:the )?sides(?: only)", "on sides"),
    (r"only (?:the |on the |in the )?(?:bottom|lower|low) half", "on lower half"),
    (
        r"(?:the )?(low|lower|top|upper|inner|inside|outer) ones (?:were |are )?(?:all )?(?:off|out|cut|removed)",
        r"all on \1",
    ),
    (
        rf"(?:cut |taken |took )?(?:back )?{_LEN} (?:off )?(?:all over|all round|all around)",
        r"off \1",
    ),
    (r"(?:about |abt |ca |around )?(\d+) (?:or so|odd|in all|out|altogether)", r"\1 off"),
    (
        r"(?:the )?(?:low|weak|small|inner)(?: ?(?:&|\+|and) ?(?:low|weak|small|inner))+(?: ones)?",
        "weak",
    ),
    (
        r"(?:new |soft |long |all |the )*(?:tips|shoots|growth|ends) (?:back )?to (\d|one|two|three) ?(leaves|leaf|pairs?|buds|nodes)",
        r"to \1 \2",
    ),
    (r"(?:to|back to) (\d|one|two|three) (?:per|a|each) (?:fork|tip|shoot|twig)", r"to \1 shoots"),
    (
        r"(?:the |a |one )?(?:(?:big|heavy|thick|large|long|old) )*((?:(?:low|lower|high|upper|back|front|left|right|top|first|second|third|bottom)(?: |$))+)branch(?: (?:sawn|sawed|cut|taken|took))? (?:off|out|removed)(?: flush)?",
        r"1 branch on \1",
    ),
    (
        r"(top|low|lower|upper|outer|inner) candles (?:halved|(?:snapped|broken|pinched)(?: (?:in|by))? half)",
        r"candles, 1/2 on \1",
    ),
    (r"(top|low|lower|upper|outer|inner) candles (?:snapped|broken|pinched)", r"candles, on \1"),
    (r"(?:soft |new )*(?:tips|shoots) (?:pinched|nipped)(?: (?:back|out))?", "tips"),
    (r"all (\d{1,3})", r"all, \1 off"),
    (r"by hand", ""),
    (
        r"(?:on )?((?:left|right) \d|apex|top|leader|crown) (?:cut |pruned |taken )?back(?: hard)? to (\d|one|two|three) (leaves|leaf|buds?|nodes?|pairs?)",
        r"to \2 \3 on \1",
    ),
    (r"(\d|one|two|three) pairs?(?: each)?", r"to \1 pairs"),
    (
        r"(\d|one|two|three) (?:big |heavy |thick |large |bar )*(?:ones|branches) (?:off|out)(?: (?:on|at|of|from))? (?:the )?((?:(?:low|lower|high|upper|back|front|left|right|top|apex|crown|\d)(?: |$))+)",
        r"\1 branches on \2",
    ),
    (
        r"((?:left|right) \d) (?:(?:sawn|sawed|cut|lopped|taken) )?(?:off|out)(?: flush| clean| whole)?",
        r"1 branch on \1",
    ),
    (rf"with (?:the )?fingers(?: {_SHARE})?", r"%1"),
    (rf"candles {_SHARE} (?:broken|snapped|pinched|cut)", "candles, %1"),
    (
        r"(?:the )?((?:low |high |lower |upper )?(?:back |front )?(?:left|right|back|front))"
        r" (?:big |heavy |thick |large |long )+(?:one|branch)(?: off| out)?",
        r"1 branch on \1",
    ),
    (r"(?:the )?(?:outside|outer side)", "outer"),
    # What is left is not off, and `left` is no side there.
    (rf"{_SHARE} (?:is |are )?(?:left|stays?|stay|kept|remains?|remaining)(?: on)?", "~1"),
    (r"candles (?:pinched|snapped|broken|cut|shortened)", "candles"),
    (r"1 of [23]", "first round"),
    (r"2 of [23]", "second round"),
    (r"3 of 3", "third round"),
    (r"on (?:all )?(?:the )?(strong|weak|outer|inner)(?: ones| shoots| branches| candles)?", r"\1"),
    (r"on (?:the )?outside", "outer"),
    (r"(?:over )?(?:the )?whole (?:tree|crown|thing)", "all"),
    # `to a third` leaves a third: two thirds are off.
    (
        rf"candles (?:snapped |broken |pinched |cut |shortened |twisted )?(?:back )?to {_SHARE}"
        r"(?: with (?:the )?fingers)?",
        "candles, ~1",
    ),
    (
        rf"(?:the )?(?:strong|strongest|long|longest) candles (?:snapped |broken |pinched |cut |shortened )?(?:back )?to {_SHARE}",
        "strong candles, ~1",
    ),
    (
        rf"(?:the )?(?:strong|strongest)(?: ones)? (?:snapped |broken |pinched |cut )?(?:back )?to {_SHARE}",
        "strong, ~1",
    ),
    (rf"(?:cut |snapped |broken |pinched |shortened )?(?:back )?to {_SHARE}", "~1"),
    (
        rf"(\d+)(?: strongest| strong| long)? candles (?:snapped|broken|pinched|cut|shortened)(?: back)? to {_SHARE}",
        r"\1 candles, ~2",
    ),
    (
        r"(?:the |a |one )?(?:(?:big|heavy|thick|large|long|lower|old|dead) )*branch ((?:low |high |lower |upper )?(?:left|right|front|back)) (?:sawn|sawed|cut|taken) (?:off|out|back)(?: flush)?",
        r"1 branch on \1",
    ),
    (r"candles halved(?: (?:in|on|at) (?:the )?(top|apex|crown))?", r"candles, 1/2 on \1"),
    (r"candles halved", "candles, 1/2"),
    (r"(?:only )?(?:the )?outside(?: ones| leaves)(?: only)?", "outer leaves"),
    (r"(?:just |only )(?:the )?(?:big|biggest|large) leaves", "large leaves"),
    (
        r"(?:the )?long(?: ones| shoots| whips| runners)? (?:back )?(?:to|until|til) (\d) (leaves|leaf|buds|nodes|pairs?)",
        r"long shoots, to \1 \2",
    ),
    (
        r"per (?:shoot|twig|branch|tip) (\d+) pairs?(?: stay| stays| left| kept)?",
        r"leaving \1 pairs",
    ),
    (
        r"(\d+) pairs?(?: of needles)? (?:left |kept )?on (?:the )?strong",
        r"leaving \1 pairs on strong",
    ),
    (
        r"(?:left|leaving|leave) (\d+) pairs?(?: of needles)? on (?:the )?(top|apex|crown|strong),? (?:and )?(\d+)(?: pairs?)? on (?:the )?(bottom|low|lower|weak)",
        r"leaving \1 pairs on \2, leaving \3 pairs on \4",
    ),
    (r"(?:left|leaving|leave) (\d+) pairs?(?: of needles)?", r"leaving \1 pairs"),
    (r"with (?:the )?(?:fruits?|seed heads|seeds)", "with ovaries"),
    (r"(?:left|leave|with)(?: the)? (?:petioles|stalks)(?: on)?", "leaving petioles"),
    (
        r"(?:all )?(?:the )?(?:strong|strongest|big|large)(?: ones| shoots| tips| candles)",
        "strong",
    ),
    (
        r"(?:left|leaving) (\d|one|two|three) (leaves|buds|pairs?|nodes)(?: (?:each|ea|a shoot|per shoot))?",
        r"to \1 \2",
    ),
    (
        r"(?:the )?(?:insides?|inner(?: ones| leaves)?|inside ones)(?: and weak(?: ones)?)?"
        r" (?:left(?: on)?|stays?(?: on)?|kept|untouched)",
        "outer leaves",
    ),
    (r"(?:the )?(inside|inner)s?(?: ones)?(?: and weak(?: ones)?)? left", r"except on \1"),
    (r"(?:the )?(?:outer|outside)(?: ones| leaves)?(?: only)?", "outer leaves"),
    (r"(?:petioles|stalks) (?:left|stay|kept|staying)(?: on)?", "leaving petioles"),
    (r"(?:the )?(?:top|upper) two thirds(?: only)?", "on top two thirds"),
    (r"second flush", "second flush"),
    (r"(?:all )?last years?'?s? only", "last year's needles"),
    (r"(?:all )?(?:the )?(?:flowers|blooms?)(?: all)? (?:off|out|removed|picked off)", "flowers"),
    (r"(?:the )?(?:top|upper) half(?: only)?", "on top half"),
    (r"(?:the )?(?:bottom|lower|low) half(?: only)?", "on lower half"),
    (r"(?:stalks|petioles|stems)(?: all)? (?:left|kept|stay|stays)(?: on)?", "leaving petioles"),
    (r"(?:the )?whole(?: lot| thing)?|fully?|the lot", "full"),
    (r"(?:pt|part|pass|round) (?:1|one)", "first round"),
    (r"(?:pt|part|pass|round) (?:2|two)", "second round"),
    (
        # `low` alone is where, and not how strong.
        r"(?!(?:the )?low(?: (?:ones|candles|shoots|buds))?$)(?:the )?(?:small|weak|low|little|weaker)(?:(?: (?:\+|&|and)|,) (?:small|weak|low|little))?(?: (?:ones|candles|shoots|buds))?",
        "weak",
    ),
    (r"(?:the )?(?:big|strong|large|fat)(?: (?:ones|candles|shoots))?", "strong"),
    (rf"(?:the )?(?:long )?(?:whips|shoots|runners)(?: back)? to {_LEN}", r"long shoots, to \1"),
    (
        r"(?:the )?(?:long )?(?:whips|runners)(?: back)? to (\d|one|two|three) (?:eyes?|buds?|nodes?)",
        r"long shoots, to \1 buds",
    ),
    (r"(?:the )?(?:long )?(?:whips|extensions?)(?: off)?", "long shoots"),
    (r"(?:back )?hard", "hard"),
    (
        r"crossers(?: (?:\+|&|and) downs)?(?: out| off)?|crossing (?:ones|branches)(?: out| off)?",
        "crossing branches",
    ),
    (
        r"(hard|lightly|light) (?:back )?to (\d|one|two|three) (leaves|leaf|buds|nodes|pairs?)(?: all over)?",
        r"\1, to \2 \3",
    ),
    (r"(?:back )?to (\d|one|two|three) eyes?", r"to \1 buds"),
    (r"(?:back )?to (\d|one|two|three) pairs?(?: of)? leaves", r"to \1 pairs of leaves"),
    (r"candles (?:back )?to " + _SHARE, r"candles, %1"),
    (r"(?:the )?(?:strong|strongest) (?:ones )?(?:to|by|back to|back by) " + _SHARE, r"strong, %1"),
    (
        r"(\d+) pairs? (?:left |kept |stay )?on (?:the )?(\w+),? (?:and )?(\d+)(?: pairs?)? on (?:the )?(\w+)",
        r"leaving \1 pairs on \2, leaving \3 pairs on \4",
    ),
    (
        r"(?:leave|leaving|left|keep|kept) (\d+) pairs? (?:on |at |in )?(?:the )?(top|apex|crown|weak|strong),? (?:and )?(\d+)(?: pairs?)? (?:on |at |in )?(?:the )?(low|lower|below|strong|weak|top)",
        r"leaving \1 pairs on \2, leaving \3 pairs on \4",
    ),
    (
        r"(\d+) pairs? (?:on |at )?(?:the )?(top|apex|crown|up top),? (?:and )?(\d+)(?: pairs?)? (?:on |at )?(?:the )?(low|lower|bottom|below)",
        r"leaving \1 pairs on \2, leaving \3 pairs on \4",
    ),
    (r"(?:leave|leaving|kept|keep) (\d+) pairs?(?: all over| each)?", r"leaving \1 pairs"),
    (
        r"(?:all )?(?:the )?(?:big|biggest|large|largest)(?: ones| leaves)?(?: only| off)*",
        "large leaves",
    ),
    (r"(?:only )?(?:the )?outer(?: ones| leaves)(?: only| off)*", "outer leaves"),
    (r"(?:long|longest) (?:runners|shoots|ones|extensions?)(?: only| off)*", "long shoots"),
    (r"(?:the )?(?:runners)(?: only| off| out)*", "runners"),
    (r"(?:cut )?(?:in )?half(?: each)?(?: leaf| leaves)?", "half of each leaf"),
    (r"(?:the )?(?:hanging|drooping) (?:needles|ones|bits)(?: off| out)?", "hanging needles"),
    (r"(?:the )?(?:yellow|brown) (?:needles|ones|bits)(?: off| out)?", "yellow needles"),
    (r"(?:weak|weaker|small) (?:ones|shoots|buds|candles) first", "first round"),
    (r"(?:strong|stronger) (?:ones|shoots|buds|candles) second", "second round"),
    (r"(?:back )?to (?:the )?(?:first|1st) pairs?(?: of leaves)?", "to 1 pair"),
    (r"(?:back )?to (\d|one|two|three|four|1-2|2-3) ?(?:lf|leaf|leaves)", r"to \1 leaves"),
    (r"(?:back )?to (\d|one|two|three) ?(?:pr|pairs?|prs)", r"to \1 pairs"),
    (r"(?:back )?to (\d|one|two|three) (?:nodes?|buds?)", r"to \1 buds"),
    (rf"(?:cut |snapped |broken |pinched |back |by |to )*{_SHARE}(?: off| back)?", r"%1"),
    (
        rf"(?:strong|strongest|long|longest) (?:ones )?(?:snapped |cut |broken |back |to |by )*{_SHARE}",
        "%1",
    ),
    (r"(?:the )?(?:strong|strongest)(?: ones| shoots| tips)?(?: out| off| only)?", "strong"),
    (r"(?:the )?(?:weak|weakest)(?: ones| shoots)?(?: out| off)?", "weak"),
    (r"(?:weak|low) and (?:low|weak) first", "first"),
    (r"(?:the )?(?:long|longest)(?: ones| shoots)?", "long shoots"),
    (r"(?:even )?all over", "all"),
    (r"(?:even )?all round", "all"),
    (r"whole tree", "all"),
    (r"(?:in )?(?:the )?tops?(?: only)?", "on top"),
    (r"(?:in )?(?:the )?apex(?: only)?", "on apex"),
    (r"(?:lightly|light|a bit|a little)", "lightly"),
    (r"hard back|very hard|hard", "hard"),
    (r"with (?:the )?(?:ovaries|ovary|seed pods|pods)", "with ovaries"),
    (r"(?:ovaries|seed pods|pods)(?: too| as well| and all)?", "with ovaries"),
    (r"incl\.? (?:pods|ovaries)", "with ovaries"),
    (r"every one|all of (?:them|it)|the lot", "all"),
    (r"first (?:half|round|lot|go|batch)", "first round"),
    (r"second (?:half|round|lot|go|batch|time)(?: this week)?", "second round"),
    (r"(?:all )?last years?'?s? off", "last year's needles"),
    (r"(?:all )?last year'?s?(?: needles)?(?: off| out)?", "last year's needles"),
    (r"(?:this years? )?(?:down )?to (\d+) pairs?(?: top)?", r"leaving \1 pairs"),
    (r"(\d+) pairs? (?:left|stay|stays|kept)", r"leaving \1 pairs"),
    (
        r"(\d+) (?:shoots|buds|leaves|flowers|fruit)? ?(?:left|stay|stays|kept)(?: per \w+)?",
        r"leaving \1",
    ),
    (
        r"(\d+) (?:thick |big |heavy |old |crossing |dead |long )*(candles|shoots|buds|flowers|pods|fruits|apples|twigs|branches)(?: off| cut| removed)?",
        r"\1 \2",
    ),
    (
        r"(\d+) (shoots|buds|leaves|flowers|fruit|apples|apple|pairs)(?: left| kept| stays?)? (?:per|a|in each) \w+(?: stays?| left| kept)?",
        r"leaving \1 \2",
    ),
    (r"(?:even )?all over (?:about |abt |ca )?" + _LEN + r" left", r"all, leaving \1"),
    (r"(?:about |abt |ca )?" + _LEN + r" (?:left|stays)", r"leaving \1"),
    (
        rf"(\d+)(?: strongest| strong| long)? candles (?:snapped|broken|pinched|cut|shortened)(?: back)?(?: by| to)? {_SHARE}",
        r"\1 candles, %2",
    ),
    (
        rf"(?:the )?(?:strong|strongest|long|longest) candles (?:snapped|broken|pinched|cut|shortened)(?: back)?(?: by| to)? {_SHARE}",
        r"strong candles, %1",
    ),
    (
        rf"candles (?:snapped|broken|pinched|cut|shortened)(?: back)?(?: by| to)? {_SHARE}",
        r"candles, %1",
    ),
    (
        r"(?:this years? )?(?:down )?to (\d+) pairs? (?:on |at )?(top|apex|crown|up top) (\d+) pairs? (?:on |at )?(low|lower|below)",
        r"leaving \1 pairs on \2, leaving \3 pairs on \4",
    ),
    (r"(?:only )?(?:what was|those|the ones) (?:already )?open(?: only)?", "open ones"),
    (r"(?:only )?(?:the )?open(?:ed)? ones(?: only)?", "open ones"),
    (r"(second|third) (?:time|pass|go)(?: this (?:week|year))?", r"\1 round"),
    (
        r"(\d+) (apples?|fruits?|crabs?|figs?) (?:per|a|each) \w+(?: stays?| left| kept)?",
        r"leaving \1 fruit",
    ),
    (r"(\d+) flowers? off", r"\1 flowers"),
    (r"(\d+) per (?:cluster|shoot|branch|tip|spur) (?:stay|stays|left|kept)", r"leaving \1"),
    (r"(thread|approach|side|cleft|veneer|bud|root|whip) grafts?", r"\1"),
    (r"spent flowers|spent blooms|old flowers|dead flowers", "flowers"),
    (r"(?:all )?(?:old|last year'?s|last years?) needles", "old needles"),
    (r"(?:weak|low)(?: (?:\+|&|and) (?:weak|low))? first", "first round"),
    (r"(?:second|2nd)(?: pass| time| go)(?: this (?:week|year))?", "second round"),
    (r"(?:the )?open(?:ed)? ones|what was open", "open ones"),
    (r"(?:all )?(?:new )?(?:shoots|growth)", "new shoots"),
    (r"frost(?:ed)? (?:bits|growth)(?: (?:rubbed )?off)?", "frosted growth"),
    (r"frost(?:ed)? tips(?: (?:rubbed )?off)?", "frosted tips"),
    (r"half of them", "half"),
    (r"about half", "half"),
    (r"(?:stubs? )(?:of )?" + _LEN, r"stubs \1"),
)
_PART_WIRED = (
    r"(?:the )?((?:top|upper|lower|bottom|middle) (?:third|half|part|branches)|top|apex|crown|(?:new )?leader|(?:left|right) \d)"
    r" (?:re-?)?wired (?:up )?(?:with |in )?"
)
_WIRE = (
    (
        r"(\d+) (?:(?:small|fine|thin|low|upper|lower|side|new|main|secondary) )*(?:branches|shoots|twigs) (?:in|at|on) (?:the )?((?:left|right)(?: side)?|apex|top|crown|back|front) wired",
        r"\1 branches on \2",
    ),
    (
        r"(\d+) (?:(?:small|fine|thin|low|upper|lower|side|new|main|secondary) )*(?:branches|shoots|twigs) wired",
        r"\1 branches",
    ),
    (
        r"(?:on )?(?:the )?((?:top|upper|lower|bottom|left|right) (?:half|third|two thirds))",
        r"on \1",
    ),
    (r"all \d+", "all"),
    *(
        (
            rf"(\d+)(?: of (?:the )?\d+)? (?:branches|shoots) wired (?:with |in )?({metal}) {thick}(?: mm)?",
            r"\3 mm ^2, \1 branches",
        )
        for metal, thick in (("al|aluminium", _AL), ("cu|copper", _CU))
    ),
    (r"(\d+)(?: of (?:the )?\d+)? (?:branches|shoots) wired", r"\1 branches"),
    (rf"{_WHERE} only", r"on \1"),
    *(
        way
        for metal, thick in (("al|aluminium", _AL), ("cu|copper", _CU))
        for way in (
            (
                rf"(?:on )?(?:the )?(\d+) (?:\w+ )?(?:branches|shoots|twigs) (?:with |in )?({metal}) {thick}"
                rf" ?(?:\+|&|and|en|und|to|-) ?{thick}(?: mm)?",
                r"\3-\4 mm ^2, \1 branches",
            ),
            (
                rf"(?:on )?(?:the )?(\d+) (?:\w+ )?(?:branches|shoots|twigs) (?:with |in )?({metal}) {thick}(?: mm)?",
                r"\3 mm ^2, \1 branches",
            ),
        )
    ),
    (rf"{_PART_WIRED}{_AL} ?(?:\+|&|and|-|to) ?{_AL}(?: mm)? (al)", r"\2-\3 mm ^4 on \1"),
    (rf"{_PART_WIRED}{_CU} ?(?:\+|&|and|-|to) ?{_CU}(?: mm)? (cu)", r"\2-\3 mm ^4 on \1"),
    (rf"{_PART_WIRED}{_AL}(?: mm)? (al)", r"\2 mm ^3 on \1"),
    (rf"{_PART_WIRED}{_CU}(?: mm)? (cu)", r"\2 mm ^3 on \1"),
    (
        r"(?:the )?((?:new )?(?:leader|apex)|top|crown|trunk|(?:left|right) \d) (?:re-?)?wired(?: up)?",
        r"on \1",
    ),
    *(
        (
            rf"({metal}) {thick}(?: mm)? on (\d+) (?:small |fine |thin |new )*"
            r"(?:ones|branches|shoots|twigs)",
            r"\2 mm ^1, \3 branches",
        )
        for metal, thick in (("al|aluminium", _AL), ("cu|copper", _CU))
    ),
    (
        r"((?:left|right) \d) (?:put|pulled|brought) down with (?:a )?guy(?: (\d(?:[.,]\d)? mm))?"
        r"(?: instead)?",
        r"\2, down, on \1",
    ),
    (rf"{_WHERE} (?:re-?)?wired (?:with )?(\d.*)", r"\2 on \1"),
    (r"(?:the )?primar(?:ies|y branches) wired (?:with )?(\d.*)", r"\1, primary branches"),
    (r"(?:the )?secondar(?:ies|y branches) wired (?:with )?(\d.*)", r"\1, secondary branches"),
    (r"(?:the )?primaries", "primary branches"),
    (r"(?:the )?secondaries", "secondary branches"),
    (r"(?:the )?bottom (\d) branches", r"\1 branches"),
    (r"(?:the )?whole(?: lot| thing)?|the lot", "whole tree"),
    (r"(?:all )?(?:in )?(Al|Cu|aluminium|copper)(?: only)?", r"^1"),
    (
        r"(?:bare |while bare |leafless )?(\d+) (?:new |fine |thin )*(?:branches|shoots|twigs)",
        r"\1 branches",
    ),
    (
        r"(?:prim(?:ary)?|main)(?: branches)?(?: ?\+ ?| ?& ?| and )sec(?:ondary)?(?: branches)?",
        "primary branches, secondary branches",
    ),
    (r"prim(?:aries)?", "primary branches"),
    (r"sec(?:ondaries)?", "secondary branches"),
    (r"(?:the )?(?:whole|entire) (?:tree|thing)|fully|all round|all branches", "whole tree"),
    (rf"{_NUM} ?mm", r"\1 mm"),
    *(
        way
        for metal, thick in (("al", _AL), ("cu", _CU))
        for way in (
            (rf"({metal}) {thick}(?: mm)?", r"\2 mm ^1"),
            (rf"{thick}(?: mm)? ({metal})", r"\1 mm ^2"),
            (rf"({metal}) {thick}(?:-| to | - ){thick}(?: mm)?", r"\2-\3 mm ^1"),
            (rf"{thick}(?:-| to ){thick}(?: mm)? ({metal})", r"\1-\2 mm ^3"),
        )
    ),
    (rf"(Al|Cu|aluminium|copper) {_NUM} mm", r"\2 mm \1"),
    (r"(\d+) (?:new )?(?:shoots|branches|twigs)", r"\1 branches"),
    (r"(?:bare )?(\d+) branches", r"\1 branches"),
    (r"(?:whole tree|all of it|all over|every branch|fully)", "all"),
    (r"(?:all )?(?:the )?(?:fine|thin) (?:branches|twigs|ones)", "fine branches"),
    (r"(?:the )?(?:main|primary|big) branches", "primary branches"),
)
_FEED = (
    (r"(\d+) (?:new|fresh|on)", r"\1 pieces"),
    (
        r"(?:iron chelate|sequestered iron|chelate of iron)( \d[\d.,]* (?:g|mL|ml)/L)",
        r"chelated iron,\1",
    ),
    (r"(?:epsom salts?|magnesium sulphate)( \d[\d.,]* (?:g|mL|ml)/L)", r"magnesium,\1"),
    (rf"({FEED_SUBSTANCE}) (\d[\d.,]* (?:g|mL|ml)/L|\d[\d.,]* %)", r"\1, \2"),
    (r"(?:(?:spring|summer|autumn|fall) )?(?:rd|rnd|round|lot|#|no\.) ?(?:1|one)", "first round"),
    (r"(?:(?:spring|summer|autumn|fall) )?(?:rd|rnd|round|lot|#|no\.) ?(?:2|two)", "second round"),
    (r"(?:(?:spring|summer|autumn|fall) )?(?:rd|rnd|round|lot|#|no\.) ?(?:3|three)", "third round"),
    (
        r"(half|quarter|full|double) (?:strength|dose|rate),? (?:of )?(\d+-\d+-\d+)",
        r"\2, \1 strength",
    ),
    (r"(?:watered|poured|sprayed) (?:on|in)", "liquid"),
    (r"(\d+) (?:each|a|per)(?: (?:pot|tree|box|tray))?", r"\1 cakes"),
    (
        r"(\d+) (?:small |big )?(lumps?|cakes?|balls?|bags?|pellets|tablets?|pieces?|handfuls?|spoons?) (?:a|per|each|to (?:a|the|each)|in (?:a|each)) (?:pot|tree|box|tray)",
        r"\1 \2",
    ),
    (r"rapeseed(?: cakes?| meal)?", "rapeseed meal"),
    (r"iron chelate|chelate of iron", "chelated iron"),
    (r"(?:seaweed|kelp) (?:and|\+|&) fish|fish (?:and|\+|&) (?:seaweed|kelp)", "fish, seaweed"),
    (
        r"(fish|seaweed|kelp)(?: emulsion| feed)?,? (?:at )?(?:half|1/2)(?: strength| dose| rate)?",
        r"\1, half strength",
    ),
    (
        r"(fish|seaweed|kelp)(?: emulsion| feed)?,? (?:at )?(?:quarter|1/4)(?: strength| dose| rate)?",
        r"\1, quarter strength",
    ),
    (
        r"(fish|seaweed|kelp)(?: emulsion| feed)?,? (?:at )?(full|double)(?: strength| dose| rate)?",
        r"\1, \2 strength",
    ),
    (
        r"(?:with )?(seaweed|kelp|fish|fish emulsion|fish blood and bone|bone ?meal|manure|guano|hoof and horn|rapeseed meal|cottonseed meal|chelated iron|iron|magnesium|potash|humic acid)(?: feed)?,? (?:at )?(\d+(?:[.,]\d+)? (?:g|mL|ml)/L)",
        r"\1, \2",
    ),
    (r"(?:high )?(?:potash|tomato)(?: feed)?", "tomato feed"),
    (
        r"(?:at )?(\d+-\d+-\d+),? (?:at )?(half|quarter|full|double) (?:rate|amount)",
        r"\1, \2 strength",
    ),
    (
        r"(first|second|third) (?:dose|feed|feeding|helping|one|can)(?: (?:of|this) (?:the )?(?:year|season|month|spring|summer|autumn))?",
        r"\1 round",
    ),
    (
        r"(first|second|third) (?:one )?(?:of|this) (?:the )?(?:year|season|spring|summer|autumn)",
        r"\1 round",
    ),
    (r"(?:at )?(half|quarter|full|double) (?:dose|rate|amount)", r"at \1 strength"),
    (r"(?:at )?1/2 (?:dose|rate|str\w*)", "at half strength"),
    (r"(?:at )?1/4 (?:dose|rate|str\w*)", "at quarter strength"),
    (
        r"(?:1|one|a) (?:cake|ball|lump|bag|pellet|piece|tablet)? ?(?:per|to|every|each|for every|for each) "
        rf"{_LEN}(?: of)?(?: the)?(?: pot| rim| edge)?",
        r"one per \1",
    ),
    (r"(?:on |round |along )?(?:the )?(?:rim|edge|edges|sides?|corners?)(?: only)?", ""),
    (r"(first|second|third)(?: round| lot| time| go)?", r"\1 round"),
    (
        r"(half|quarter|full|double) (?:dose|rate|strength),? (?:at )?(\d+(?:[.,]\d+)? (?:g|mL)/L)",
        r"\2, \1 strength",
    ),
    (
        r"(\d+) (?:new |more |fresh |small |big )*(?:rape ?cakes?|okigoe|tama(?:hi)?|pellets|cakes)(?: (?:new|on|laid on|put on|renewed))?",
        r"\1 cakes",
    ),
    (
        r"(?:(?:rape ?)?(?:cakes?|pellets)|tama(?:hi)?|okigoe),? [x×]? ?(\d+)(?: pieces)?(?:,? (?:laid on|on|renewed|new))?",
        r"\1 cakes",
    ),
    (r"renewed|new|laid on|(?:all )?on", ""),
    (r"(\d+) (?:a|per|each|to (?:a|the)|in (?:a|each|every)) (?:pot|tree|box)", r"\1 cakes"),
    (
        r"(?:liquid )?(\d+-\d+-\d+),? (?:at )?(half|quarter|full|double)(?: strength| dose)?",
        r"\1, \2 strength",
    ),
    (r"(half|quarter|full|double) (?:dose|rate|strength)", r"\1 strength"),
    (
        r"(\d+-\d+-\d+),? (\d+(?:[.,]\d+)? (?:g|mL)/L),? (half|quarter|full|double) (?:dose|rate|strength)",
        r"\1, \2, \3 strength",
    ),
    (
        r"(\d+) (?:new |fresh |small |big |large )*(cakes?|balls?|lumps?|bags?|pieces?|pellets|tablets?|caps|handfuls?|spoons?|cans?)(?: on| each| round| set| on top)*",
        r"\1 \2",
    ),
    (r"(?:a|one) (?:small |big |good )?(handful|spoon|can|cake|ball|bag)(?: each)?", r"1 \1"),
    (r"two (?:small |big |good )?(handfuls|spoons|cans|cakes|balls|bags)(?: each)?", r"2 \1"),
    (r"(?:organic|liquid|solid)(?: feed)?", r"\0"),
    (r"(\d+)(?: small| big| large)?", r"\1 cakes"),
    (r"(?:rapecake|cakes?|okigoe|tama) (\d+)(?: small| big| large)?", r"\1 cakes"),
    (r"(\d+) (?:small |big |large )?(?:lumps?|balls?|bags?|tabs|tablets)", r"\1 \2"),
    (r"half", "half strength"),
    (r"quarter", "quarter strength"),
    (r"(?:first|1st|last|second) (?:feed|one)(?: of the year)?", ""),
    (r"(?:fish|liquid) (.+)", r"\1"),
    (r"(\S+) (half strength|quarter strength|full strength)", r"\1, \2"),
    (r"(?:with |of )?(.+?) (\d+(?:[.,]\d+)? (?:g|mL)/L)", r"with \1, \2"),
)
_PESTS = (
    r"(?:the )?(?:red |green |black |woolly )?(?:aphids?|scale|mites|spider mites?|mildew|weevils?|greenfly|blackfly|adelgids?|gall|rust|moths?|thrips|caterpillars?"
    r"|slugs?|snails?|sawfly|aphis|root aphids?|wooly aphids?|box moth|box tree moth|scale crawlers|vine weevils?|weevil grubs|tip ?blight|juniper blight|leaf curl|leaf blister|grey mould|coral spot|shot ?hole|fire ?blight|gall mites?|froghoppers?|tortrix|leaf ?rollers?|chafer grubs|leatherjackets|psyllids?|powdery mildew|downy mildew|adelgids?|red spider|lace ?bugs?|mealy ?bugs?|fungus gnats?|leafhoppers?|needle ?cast|leaf ?spot|black ?spot|botrytis|blight|canker|leafminer|beetles?|borers?)"
)
_TREAT = (
    (rf"(?:with )?({SUBSTANCE}) (\d[\d.,]* (?:g|mL|ml)/L|\d[\d.,]* %|1:\d+)", r"with \1, dose \2"),
    (rf"(?:with )?({SUBSTANCE})", r"with \1"),
    (rf"(\d[\d.,]* %) ({SUBSTANCE})", r"with \2, dose \1"),
    (
        r"(?:the )?undersides?(?: of (?:the )?(?:leaves|needles))?(?: only| too| as well)?",
        "under the leaves",
    ),
    (r"hosed|showered|rinsed|jetted", "water jet"),
    (r"(.+?) at (?:dusk|night) (\d+(?:[.,]\d+)? %)", r"\1, in the evening, \2"),
    (r"(.+?) (?:at (?:dusk|night)|in the evening|evening)", r"\1, in the evening"),
    (r"(\d+) (?:picked|squashed|squished)(?: off)?", r"\1 insects, by hand"),
    (r"(.+?) drench (?:2 ?x|twice|2 times)", r"\1, soil drench, 2 times"),
    (
        r"(?:rubbed|picked|wiped|scraped|squashed|squished|brushed|scrubbed) (?:off|out)(?: (?:by hand|first|by hand first))?",
        "by hand",
    ),
    (r"(?:hand )?(?:picked|squashed|squished)(?: off)? (\d+)", r"\1 insects, by hand"),
    (rf"({_PESTS}) larvae", r"against \1"),
    (rf"(?:(?:first|second|third) )?({_PESTS}) (?:spray|sprayed|wash)", r"against \1"),
    (rf"({_PESTS}) drench(?:ed)?", r"against \1, soil drench"),
    (rf"({_PESTS}) (?:spray|sprayed) (?:no\.? ?|nr\.? ?|# ?)?1", r"against \1, first time"),
    (rf"({_PESTS}) (?:spray|sprayed) (?:no\.? ?|nr\.? ?|# ?)?2", r"against \1, second time"),
    (rf"({_PESTS}) (?:spray|sprayed) (?:no\.? ?|nr\.? ?|# ?)?3", r"against \1, third time"),
    (rf"(first|second|third) ({_PESTS}) spray", r"against \2, \1 time"),
    (r"(?:round|spray|no\.|nr\.?|number|#) ?1(?: of \d)?", "first time"),
    (r"(?:round|spray|no\.|nr\.?|number|#) ?2(?: of \d)?", "second time"),
    (r"(?:round|spray|no\.|nr\.?|number|#) ?3(?: of \d)?", "third time"),
    (r"(.+?) (?:round|spray|no\.|nr\.?|number|#) ?1(?: of \d)?", r"\1, first time"),
    (r"(.+?) (?:round|spray|no\.|nr\.?|number|#) ?2(?: of \d)?", r"\1, second time"),
    (r"(.+?) (?:round|spray|no\.|nr\.?|number|#) ?3(?: of \d)?", r"\1, third time"),
    (
        r"(?:with )?(bacillus(?: thuringiensis)?|plant oil|rape oil|paraffin oil|iron sulphate|potassium soap|horticultural soap)",
        r"with \1",
    ),
    (rf"(.+?) (?:for|against|on) ({_PESTS})", r"\1, against \2"),
    (
        r"(?:with )?(meths|methylated spirits|surgical spirit|white oil|rapeseed oil|bordeaux mixture|bicarbonate|sulphur dust)(?: on (?:a )?(?:brush|cotton bud|swab|cloth))?",
        r"with \1",
    ),
    (
        r"(\d[\d.,]* (?:L|mL)) (?:a|per|to each|to a|in each|each)(?: (?:pot|tree|box|tray))?",
        r"\1 each",
    ),
    (r"(?:squished|squashed) (?:and|\+|&) (?:soapy|soap) water", "by hand, with soap"),
    (r"(?:with )?(?:soapy|soap) water", "with soap"),
    (r"(?:by )?(?:hand|hands|thumb|thumbs|fingers)(?: too)?", "by hand"),
    (
        r"(?:the )?(\d+) (galls|grubs|slugs|snails|beetles|caterpillars|weevils|moths)"
        r" (?:(?:cut|picked|taken|pulled|dug) )?(?:off|out|away)(?: (?:first|by hand|before))?",
        r"\1 \2",
    ),
    (r"[x×] ?(\d)", r"\1 times"),
    (
        r"(?:rubbing )?alcohol (?:with|on) (?:a )?(?:stick|cotton bud|bud|swab|q-?tip|brush|cloth)",
        "with alcohol",
    ),
    (r"(?:with )?(?:ls|lime s)", "with lime sulphur"),
    (rf"(?:for |against )?({_PESTS})", r"against \1"),
    (r"1 of \d", "first time"),
    (r"2 of \d", "second time"),
    (r"3 of \d", "third time"),
    (r"(?:soaked|watered|drenched|washed) in(?: (?:after|well))?", "soil drench"),
    (r"(.+?) (?:tonight|today|this (?:evening|morning))", r"\1"),
    (r"(.+?) sprayed twice", r"\1, times 2"),
    (r"(.+?) sprayed (\d) times", r"\1, times \2"),
    (r"(1:\d+) on (?:the )?bare (?:wood|tree|branches|twigs)", r"\1, winter wash"),
    (r"((?:rubbing )?alcohol)(?: spray| wipe)?", r"with \1"),
    (r"(.+?) (?:at night|tonight)", r"\1, in the evening"),
    (r"(?:with )?(?:a )?(?:brush|toothbrush|cotton bud|cotton swab)", "by hand"),
    (r"(.+?) (?:and|&|\+) (?:a )?(?:brush|toothbrush|cotton bud)", r"\1, by hand"),
    (r"(.+?) (?:with|on) (?:a )?(?:brush|toothbrush|cotton bud|cotton swab)", r"\1, by hand"),
    (
        r"(caterpillars|adults|grubs|weevils|slugs|snails|beetles|moths|scale) (\d+) (?:by hand|picked off|squashed)",
        r"\2 \1, by hand",
    ),
    (r"(.+?) (?:on )?(?:the )?whole tree", r"\1, all over"),
    (r"(?:the )?whole tree|all of it|everywhere|top to bottom|both sides", "all over"),
    (r"(?:scraped|scratched|rubbed|squashed|wiped|washed|picked)(?: off| away| out)?", "by hand"),
    (r"(?:watered|drenched|poured)(?: in| on)?", "soil drench"),
    (r"(first|second|third)(?: of (?:\d|two|three))?", r"\1 time"),
    (r"(?:second|2nd) (?:dose|application)", "second time"),
    (r"(?:third|3rd) (?:dose|application)", "third time"),
    (r"(.+) (?:watered|drenched) in", r"\1, soil drench"),
    (r"(.+) (first|second|third|1st|2nd|3rd) (?:time|spray|go|dose|round)", r"\1, \2 time"),
    (r"(.+?) (\d+(?:[.,]\d+)? (?:g|mL|ml)/L)", r"\1, \2"),
    (r"(?:toothbrush|brush|by hand|picked off|finger and thumb)", "by hand"),
    (r"(?:toothbrush)(?: and| &|,|\+)? (.+)", r"by hand, \1"),
    (r"(.+) (?:drench|drenched)", r"\1, soil drench"),
    (r"(.+) spray(?:ed)?", r"\1"),
    (r"(?:hosed|hosed off|water jet|jet of water|hose)(?: first)?", "water jet"),
    (r"(?:in the )?(?:evening|morning|dusk|a\.m\.|p\.m\.)", ""),
    (r"(?:same|that) evening", ""),
    (
        r"(?:the )?(?:aphids|scale|mites|mildew|weevil|greenfly|adelgids?|gall|rust|moth|thrips)",
        r"against \0",
    ),
    (r"soap", "soap"),
    (r"(.+) x ?1|(.+) 1 ?x", r"\1, first time"),
    (r"(.+) (first|second|third)", r"\1, \2 time"),
    (r"(.+?) 1 %|(.+?) 2 %", r"\1"),
    (r"(.+) (?:no\.? ?|number ?|# ?)1", r"\1, first time"),
    (r"(.+) (?:no\.? ?|number ?|# ?)2", r"\1, second time"),
    (r"(.+) (?:no\.? ?|number ?|# ?)3", r"\1, third time"),
    (r"(.+) 1 of \d", r"\1, first time"),
    (r"(.+) 2 of \d", r"\1, second time"),
    (r"(.+) 3 of \d", r"\1, third time"),
    (r"second (?:spray|go|round|dose)(?: done)?", "second time"),
    (r"third (?:spray|go|round|dose)(?: done)?", "third time"),
    (r"first (?:spray|go|round|dose)(?: done)?", "first time"),
    (r"(.+) (?:same|that) evening", r"\1, in the evening"),
    (
        r"(\d+) (caterpillars|adults|grubs|weevils|slugs|snails|beetles|moths|scale) (?:by hand|picked off|squashed)",
        r"\1 \2, by hand",
    ),
    (r"got (\d+) (caterpillars|adults|grubs|weevils|slugs|snails|beetles|moths)", r"\1 \2"),
    (r"(?:in the |this )?evening", "in the evening"),
    (r"(?:in the |this )?morning", "in the morning"),
    (r"under(?:side)?s?(?: of)?(?: the)? leaves(?: too| as well)?", "under the leaves"),
    (r"(.+) in the (evening|morning)", r"\1, in the \2"),
    (r"(?:with |then )?(.+) all over", r"\1, all over"),
    (r"(?:then|with|and) (.+)", r"\1"),
    (
        r"(\d+) (?:small |big |pink |white |green |brown )*(lumps|galls)(?: off| out| cut out| picked off)?",
        r"\1 \2",
    ),
    (r"cut (?:out|off) (?:\+|&|and) burn(?:t|ed)(?: .*)?", "cut out, burned"),
    (r"(?:picked|taken|hand[- ]?picked|squashed)(?: off)?(?: by hand)?", "by hand"),
    (r"(?:brushed|wiped|scrubbed)(?: off)?", "brushed off"),
)
_DEADWOOD = (
    (
        r"(?:on )?(?:both|all|the|all the) (jins?|shari)(?: (?:and|\+|&) (jins?|shari))",
        r"on \1, on \2",
    ),
    (r"(?:on )?both (jins|shari)", r"on \1"),
    (r"(?:on )?(?:the )?(?:first|a|one) (?:dry|fine|still|warm) day", ""),
    (r"(?:on )?(?:the )?(jins?|shari) only", r"on \1"),
    (r"(?:2 times|2x|twice|second time)", "two coats"),
    (r"(?:the )?(?:second|2nd) coat", "second coat"),
    (r"(?:neat|undiluted|straight|full strength)", "undiluted"),
    (r"(?:1:1|half and half|half water|50/50)(?: with water| water)?", "1:1"),
    (r"(?:ls|lime sulphur|lime s)", "lime sulphur"),
    (r"neat", "undiluted"),
    (r"(?:2|two) coats", "two coats"),
    (r"(?:1|one) coat", "one coat"),
    (r"neat (?:2|two) coats", "undiluted, two coats"),
    (r"neat (?:1|one) coat", "undiluted, one coat"),
    (r"(1:\d+)(?: with water| water)?", r"\1"),
    (r"(?:on )?all jins?", "on jin"),
    (r"(?:on )?all jins? (?:and|\+|&) shari", "on jin, on shari"),
    (r"(?:on )?(?:the )?(jins?|shari|deadwood)(?: (?:and|\+|&) (jins?|shari))?", r"on \0"),
    (r"(?:on )?(?:the )?(?:dead ?wood)", ""),
)
_WATER = (
    (
        r"(\d+ min) (?:till|until) (?:there were |the )?(?:no )?(?:more )?bubbles(?: stop(?:ped)?)?",
        r"\1",
    ),
    (
        r"(\d[\d.,]* (?:L|mL)) (?:a|per|to each|to a|in each|each)(?: (?:pot|tree|box|tray))?",
        r"\1 each",
    ),
    (r"\d{1,2}(?:[.:]\d\d)? ?am (?:and|\+|&) \d{1,2}(?:[.:]\d\d)? ?pm", "morning and evening"),
    (r"(?:at )?[4-9](?:[.:]\d\d)? ?am", "morning"),
    (r"(?:by|with|from) (?:the |a )?(?:cans?|hose|rose|watering can|jug|bottle)", "by hand"),
    (r"(?:the )?(?:whole )?(?:tray|pot|ball|rootball|root ball)(?: for)? (\d+ (?:min|h))", r"\1"),
    (r"(?:up )?to the rim(?: (?:for )?(\d+ (?:min|h)))?", r"\1"),
    (r"[x×] ?2|2 ?[x×]", "twice"),
    (r"[x×] ?(\d)", r"\1 times"),
    (r"(\d) ?[x×]", r"\1 times"),
    (r"(?:quite |really |very )?(?:hard|thoroughly)", "hard"),
    (r"(\d+ (?:min|h)) (?:in|into) (?:a |the )?(?:bucket|tub|basin|sink|bath|trough|water)", r"\1"),
    (
        r"(?:in|into) (?:a |the )?(?:bucket|tub|basin|sink|bath|trough|water)",
        "",
    ),
    (
        r"overnight (?:in|into) (?:a |the )?(?:bucket|tub|basin|sink|bath|trough|water)"
        r"|(?:in|into) (?:a |the )?(?:bucket|tub|basin|sink|bath|trough|water) overnight",
        "overnight",
    ),
    (r"all(?: of (?:them|it))? (lightly|well|deeply)", r"\1"),
    (r"(\d+(?:[.,]\d+)? (?:L|mL|l)) (?:of )?rain(?: ?water)?", r"\1, rainwater"),
    (r"(\d+(?:[.,]\d+)? (?:L|mL|l)) (?:of )?tap(?: ?water)?", r"\1, tap water"),
    (r"(?:well|deeply|thoroughly|properly)", "well"),
    (r"(?:two|2) times|2x|twice(?: today)?", "twice"),
    (r"(?:a\.?m\.?|in the morning|early)", "morning"),
    (r"(?:p\.?m\.?|in the evening|late)", "evening"),
    (r"(?:a\.?m\.? (?:and|\+|&) p\.?m\.?)", "morning and evening"),
    (r"(?:with )?(?:the )?(?:rain ?water|rain)", "rainwater"),
    (r"(?:with )?tap(?: water)?", "tap water"),
    (r"(?:for )?(\d+ (?:min|h))", r"\1"),
)
_UNWIRED = (
    (
        r"(?:on |off )?((?:left|right) \d{1,2}|apex|top|crown|leader|trunk) ?(?:\+|&|and) ?((?:left|right) \d{1,2}|apex|top|crown|leader|trunk)",
        r"on \1, on \2",
    ),
    (r"(?:the )?(?:whole|entire) tree|from (?:the )?whole tree", "whole tree"),
    (rf"(?:on )?{_WHERE} (?:off|removed|away|out)", r"on \1"),
    (rf"(?:on |from )?{_WHERE} only", r"on \1"),
    (rf"(?:on )?{_WHERE} (?:and|&|\+) {_WHERE}", r"on \1, on \2"),
    (rf"{_WHERE} wires? (?:all )?(?:off|removed|cut off|taken off|out)", r"on \1"),
    (r"(?:the )?(?:lot|whole lot|whole thing|all of it|everything|every bit)", "all"),
)
_LAYERED = (
    (
        rf"{_LEN} wide(?: just| right)?(?: (?:over|above|below|under) (?:the )?[^\W\d]+)?",
        r"ring, \1",
    ),
    (r"(?:clear |black )*(?:poly|polythene|film)(?: (?:over|round|around|on))*", "in plastic"),
    (
        r"(?:and |\+ )?(?:dark |black |tin |silver |clear )*(?:foil|plastic|bag|cling ?film|wrap)(?: (?:over|round|around|on|outside))*",
        "in plastic",
    ),
    (
        r"sphagnum (?:\+|&|and) (?:black |tin |dark )?(?:foil|plastic|bag|cling ?film)",
        "sphagnum, in plastic",
    ),
    (
        rf"(?:set )?(?:at )?{_LEN}(?: (?:up|high|above (?:the )?(?:soil|base)))(?: (?:the )?trunk)?",
        r"at \1",
    ),
    (rf"(?:set |put |made )?at {_LEN}", r"at \1"),
    (rf"ring(?:ed)? (?:of )?{_LEN}(?: wide)?", r"ring, \1"),
    (
        r"(below|above|under) (?:the )?((?:left|right) \d|(?:first|second|third|lowest|bottom) (?:left|right|branch)|apex|fork)",
        r"on trunk \1 \2",
    ),
    (
        r"(?:black |clear |kitchen |tin |alu |aluminium |bin )*(?:bag|bagged|foil|plastic|poly|film)(?: (?:on|over|round|outside|on top))?(?: on (?:the )?(?:[NSEW]|north|south|east|west|sun(?:ny)?) side)?",
        "in plastic",
    ),
    (rf"{_LEN} ring", r"ring, \1"),
    (rf"ring (?:of )?{_LEN}", r"ring, \1"),
    (rf"ring {_LEN} on (?:the )?trunk", r"ring, \1, on trunk"),
    (
        r"(?:black |clear |in )*(?:plastic|foil|poly|polythene|cling ?film|bag|bagged)(?: (?:on|over|round))?",
        "in plastic",
    ),
    (r"(?:wet |damp |soaked )?(?:sphagnum|moss)(?: wet| damp| soaked| round| packed)*", "moss"),
    (r"(?:with )?(?:rooting )?(?:hormone|powder|gel)", "hormone"),
    (r"at (?:the )?(.+)", r"on \1"),
)
_TURNED = (
    (r"(45|90|180|270)(?: round)?", r"\1 degrees"),
    (r"(?:the )?(?:pots?|trees?|all)? ?(?:by )?(?:1/4|a quarter|quarter)(?: turn)?", "90 degrees"),
    (r"(?:the )?(?:pots?|trees?|all)? ?(?:by )?(?:1/2|half|a half)(?: turn)?", "180 degrees"),
)
_BENT = (
    (r"(trunk|apex|leader|(?:left|right) \d) with (?:a |the )?([^\W\d]+)", r"on \1, with \2"),
    (
        r"((?:left|right) \d|apex|top|trunk|leader|first left|first right) (down|up|left|right) (\d+(?:[.,]\d)? (?:degrees|mm|cm|inch))",
        r"\3 \2 on \1",
    ),
    (
        r"((?:left|right) \d|apex|top|trunk|leader|first left|first right) (?:pulled |bent |brought )?(down|up)",
        r"\2 on \1",
    ),
)
_GUYED = (
    (r"to (?:the )?(pot(?: rim)?|rim|box) (?:with|by) (?:a )?guy(?: wire)?", r"to \1"),
    # What keeps it from the bark.
    (
        r"(?:a )?(?:bit of |piece of )?(?:rubber|hose|rubber hose|leather|felt|cork|pad|padding)"
        r"(?: (?:under(?:neath)?|on (?:the )?bark|between|round it))",
        "",
    ),
    (
        r"(jin|apex|top|leader|trunk|(?:first |second |third )?branch|(?:left|right) \d)"
        r" (?:pulled |brought )?down to (?:the )?(pot(?: (?:foot|rim|edge))?|rim|nebari|foot|roots?)",
        r"down, to \2, on \1",
    ),
    (r"down with (?:a )?(\d(?:[.,]\d)? mm(?: (?:Al|Cu|al|cu|aluminium|copper))?)", r"\1, down"),
    (r"(\d (?:low |lower |upper )?branches)", r"on \1"),
    (
        r"((?:\d )?(?:low |lower |upper )?(?:left |right |front |back )?branch(?:es)?)"
        r" (?:pulled |put |brought |drawn )?down with (?:a )?guy(?: wire)?"
        r"(?: (\d(?:[.,]\d)? mm(?: (?:Al|Cu))?))?",
        r"\2, down, on \1",
    ),
    (
        # What it was tied to, and not that it came off.
        r"from (\S+) to ((?:(?!\b(?:off|snapped|broken?|loose|gone|cut|slipped|came|out)\b).)+)",
        r"to \2, on \1",
    ),
)
_PLACE = (
    (r"(?:in|into|to|back|out|under|on|at)*(?: (?:in|into|to|under))?(?: the)? ?(\S+)", r"to \1"),
    (r"from (\S+) (?:back )?to (\S+)(?: again)?", r"from \1, to \2"),
)
_OF_WORK = (
    r"(?:(?:full |a )?(?:repot(?:ting)?|tidy(?:ing)?|trim|prun(?:e|ing)|wir(?:e|ing)|restyl(?:e|ing)|styl(?:e|ing)|pot|root[- ]?work|candles"
    r"|needle work|jin|deadwood|graft(?:s|ing)?|uekae|harigane|mekiri|momiage|storage|winter storage))"
)
_MONEY = (
    (
        r"(\d[\d.,]* (?:months?|weeks?|days?) (?:@|at|à|x) \d[\d.,]*) ?= ?(\d[\d.,]*(?: [A-Z]{3})?)",
        r'\2, for "\1"',
    ),
    (r"(deposit|balance) (\d[\d.,]*(?: [A-Z]{3})?)", r"\2, \1"),
    (r"(deposit|balance) (\d[\d.,]*(?: [A-Z]{3})?) (?:in )?cash", r"\2, \1, cash"),
    (r"(\d[\d.,]* h),? (?:max|at most|up to) (\d[\d.,]*(?: [A-Z]{3})?)", r"\2, at most, for \1"),
    (r"(\d+-\d+)", r"invoice \1"),
    (
        rf"(?:the )?(\d[\d.,]*(?: (?!and )[A-Z]{{3}})?) (?:for )?({_OF_WORK}(?:(?: ?\+ ?| ?& ?| and ){_OF_WORK})*)",
        r"\1, for \2",
    ),
    (
        rf"({_OF_WORK}(?:(?: ?\+ ?| ?& ?| and ){_OF_WORK})*) (?:for )?(\d[\d.,]*(?: [A-Z]{{3}})?)",
        r"\2, for \1",
    ),
    (
        r"(\d[\d.,]* h (?:@|at|à|x) \d[\d.,]*) ?= ?(\d[\d.,]*(?: [A-Z]{3})?)",
        r'\2, for "\1"',
    ),
    (
        r"(\d[\d.,]* h (?:@|at|à|x) \d[\d.,]*) ?= ?(\d[\d.,]*(?: [A-Z]{3})?) (?:plus|\+|without|excl\.?) (?:the )?(?:wire|materials?|mix|soil|pot)",
        r'\2, plus materials, for "\1"',
    ),
    (r"\d[\d.,]* h (?:@|at|à|x) \d[\d.,]* ?= ?(\d[\d.,]*(?: [A-Z]{3})?)", r"\1"),
    (r"\d[\d.,]* h ?= ?(\d[\d.,]*(?: [A-Z]{3})?)", r"\1"),
    (r"(?:the )?(\d[\d.,]*(?: [A-Z]{3})?) (?:to|for) (?!\d)(?!@)([^?]+)", r"\1, for \2"),
    (r"(cash|cheque|check|ck|chk|chq) (?:for )?(\d[\d.,]*(?: [A-Z]{3})?)", r"\2, @1"),
    (
        r"(\d[\d.,]*(?: [A-Z]{3})?)(?: paid| received)? (?:by |in )?(cash|cheque|check|ck|chk|chq)(?: in the [^\W\d]+)?",
        r"\1, @2",
    ),
    (r"(?:charged|billed) (\d[\d.,]*(?: [A-Z]{3})?)(?: flat)?(?: per cap)?", r"\1"),
    (
        r"(\d[\d.,]*(?: [A-Z]{3})?) (?:inc|incl|including|with) (?:wire|materials?|mix|soil|pot|raffia)"
        r"(?: (?:and|&|\+) (?:wire|materials?|mix|soil|pot|raffia))?",
        r"\1, with materials",
    ),
    (r"(?:by |with )?(?:a )?(?:cheque|check|ck|chk|chq)", "by cheque"),
    (r"(\d+(?:[.,]\d\d)?(?: [A-Z]{3})?) (?:by )?(?:cheque|check|ck|chk|chq)", r"\1, by cheque"),
    (r"(\d+(?:[.,]\d\d)?(?: [A-Z]{3})?) (?:the )?balance", r"\1, balance"),
    (
        r"(\d+(?:[.,]\d\d)?(?: [A-Z]{3})?) (?:the )?balance (?:by )?(?:bank|transfer)",
        r"\1, balance, by bank transfer",
    ),
    (r"(\d+(?:[.,]\d\d)?(?: [A-Z]{3})?) sent", r"\1"),
    (r"(\d+(?:[.,]\d\d)?(?: [A-Z]{3})?) (?:paid|received)(?: in)?", r"\1"),
    (r"(\d+(?:[.,]\d\d)?(?: [A-Z]{3})?) (?:paid|received) (?:in |by )?(cash|card)", r"\1, \2"),
    (
        r"(\d+(?:[.,]\d\d)?(?: [A-Z]{3})?) (?:paid|received) (?:by )?(?:bank|transfer|bank transfer)",
        r"\1, by bank transfer",
    ),
    (
        r"(\d+(?:[.,]\d\d)?) (?:dep|deposit) (?:paid|received) (?:by )?(?:bank|transfer)",
        r"\1, deposit, by bank transfer",
    ),
    (r"(?:said|quoted|price|max|maximum|at most|up to) (\d+(?:[.,]\d\d)?(?: [A-Z]{3})?)", r"\1"),
    (
        r"(?:said|told|quoted|in all|total|all in|altogether|came to|for) ?(\d+(?:[.,]\d\d)?(?: [A-Z]{3})?)",
        r"\1",
    ),
    (
        r"(\d+(?:[.,]\d\d)?(?: [A-Z]{3})?) (?:in all|total|all in|incl?\.? carr(?:iage)?|with no tax|flat|dep(?:osit)?)",
        r"\1",
    ),
    (r"(?:inv|invoice|bill) (?:no\.? )?(\S+)(?: closed| settled| paid)?", r"invoice \1"),
    (r"(\d+(?:[.,]\d\d)?) (?:dep|deposit)(?: received| paid| in)?", r"\1, deposit"),
    (
        r"(\d+(?:[.,]\d\d)?) (?:dep|deposit)(?: received| paid| in)? (?:by )?bank",
        r"\1, deposit, by bank transfer",
    ),
    (
        r"(\d+(?:[.,]\d\d)?) (?:dep|deposit)(?: received| paid| in)? (?:in )?cash",
        r"\1, deposit, cash",
    ),
    (r"(?:by )?(?:bank|transfer|bacs)", "by bank transfer"),
    (r"(?:in )?cash", "cash"),
    (r"(\d+(?:[.,]\d\d)?) (?:bank|by bank)", r"\1, by bank transfer"),
)
_AGREED = ((r"to (\d+(?:[.,]\d\d)?(?: [A-Z]{3})?)", r"\1"),)
_SEALED = (
    (
        r"(?:on )?(?:the |all |both |two |three )*(?:big|large|bigger|worst|deep)(?: ones| cuts| wounds)?",
        "cuts",
    ),
    (
        r"(\d+) (?:\w+ )?(stubs?|cuts?|wounds?) (?:all )?(?:pasted|sealed|waxed|painted)",
        r"\1 \2",
    ),
    (
        r"(?:all |both |big )*(?:stubs?|cuts?|wounds?) (?:all )?(?:pasted|sealed|waxed|painted)",
        "cuts",
    ),
)
_CARVED = (
    (r"(?:new )?(jin|shari) (?:made|cut|created|torn|ripped|stripped|carved)", r"new \1"),
    (
        r"(?:new )?(jin|shari) (?:made|cut|created|torn|ripped|stripped|carved) (?:on|at) (?:the )?(?:old )?(apex|top|leader|trunk|(?:left|right)(?: \d)?|back|front)",
        r"new \1 on \2",
    ),
    (r"bark (?:stripped|peeled|torn|off|removed)(?: off)?", "bark off"),
    (r"(\d[\d /.,]*) ins?", r"\1 inch"),
)
_MEASURED = (
    (rf"{_LEN} (?:high|tall)", r"height \1"),
    (
        rf"(trunk|girth|height|nebari|spread) (?:measured|came to|comes to|stands at) {_LEN}",
        r"\1 \2",
    ),
    (r"(?:weighs|weighed) (\d[\d.,]* (?:kg|g|lb))", r"weight \1"),
    (
        rf"(?:{_NUM}) (?:in|last) (?:spring|summer|autumn|fall|winter|january|february|march|april|may|june|july|august|september|october|november|december)",
        r"was \1",
    ),
    (
        rf"(candle|needle|shoot|internode)s? (?:length|size)(?: (?:is|now|about|abt|ca))* {_LEN}",
        r"\1 \2",
    ),
    (
        rf"(?:caliper|calliper|base|trunk base)(?: (?:is|now|about|abt|ca))* {_LEN}(?: (?:across|thick|wide|at (?:the )?(?:soil|base)))?",
        r"trunk \1",
    ),
    (rf"root flare(?: (?:is|now|about|abt|ca))* {_LEN}(?: (?:across|wide))?", r"nebari \1"),
    (
        rf"(?:crown|spread|width)(?: (?:is|now|about|abt|ca))* {_LEN}(?: (?:across|wide))?",
        r"spread \1",
    ),
    (
        rf"(?:was|were|had been|before(?: it was)?)(?: (?:only|about|abt|at))* {_LEN}(?: (?:last (?:year|time)|before|then|a year ago))?",
        r"was \1",
    ),
    (
        rf"(?:was|were|had been|before(?: it was)?)(?: (?:only|about|abt|at))* {_NUM}(?: (?:last (?:year|time)|before|then|a year ago))?",
        r"was \1",
    ),
    (rf"(?:last year|last time|a year ago) (?:it was )?{_LEN}", r"was \1"),
    (rf"(?:last year|last time|a year ago) (?:it was )?{_NUM}", r"was \1"),
    (
        rf"trunk {_LEN} (?:round|girth)(?: (?:at|above|just above|on) (?:the )?(?:soil|base|ground)(?: level)?)?",
        r"girth \1",
    ),
    (
        rf"{_LEN} (?:round|girth)(?: (?:at|above|just above) (?:the )?(?:soil|base|ground)(?: level)?)?",
        r"girth \1",
    ),
    (
        rf"(?:the )?(trunk|girth|nebari|height|candles|needles|shoots|spread) (?:(?:is|are|now|at|about|abt|measures?|grown to) )*{_LEN}(?: (?:across|wide|thick|round|tall|high|long|now|this year|today))*",
        r"\1 \2",
    ),
    (r"(?:weight )?(\d[\d.,]* (?:kg|g)) (dry|wet)", r"weight \1 \2"),
    (
        rf"(trunk|girth|nebari|height) {_LEN} (?:at )?(?:the )?(biggest|thickest|largest|widest|least|thinnest|smallest|tallest)",
        r"\1 \2 \3",
    ),
    (
        r"(candles|needles|shoots) (\d[\d /.,]*(?:inch|mm|cm)) (?:(?:up|on|at) )?(top|apex|low|inside),? (?:and )?(\d[\d /.,]*(?:inch|mm|cm)) (?:(?:on|at) )?(top|apex|low|inside)",
        r"\1 \2 \3, \1 \4 \5",
    ),
    (
        rf"(trunk|girth|nebari) {_LEN} (?:at|above|just above|on) (?:the )?(?:soil|base|ground)(?: level)?",
        r"\1 \2",
    ),
    (
        r"EC ?([\d.,]+)(?: mS(?:/cm)?)?,? pH ?([\d.,]+)(?:,? dH ?([\d.,]+))",
        r"EC \1 mS/cm, pH \2, hardness \3 dH",
    ),
    (r"EC ?([\d.,]+)(?: mS(?:/cm)?)?,? pH ?([\d.,]+)", r"EC \1 mS/cm, pH \2"),
    (r"pH ?([\d.,]+),? EC ?([\d.,]+)(?: mS(?:/cm)?)?", r"pH \1, EC \2 mS/cm"),
    (r"(?:run[- ]?off|drain(?:age)?)(?: EC)? ?([\d.,]+)(?: mS(?:/cm)?)?", r"EC \1 mS/cm"),
    (r"EC ?([\d.,]+)(?: mS(?:/cm)?)?", r"EC \1 mS/cm"),
    (r"pH ?([\d.,]+)", r"pH \1"),
    (r"(?:dH|hardness) ?([\d.,]+)", r"hardness \1 dH"),
    (r"([\d.,]+) ?°?dH", r"hardness \1 dH"),
    (
        r"(?:new )?needles (?:now |about )?(\d[\d /.,]*(?:inch|mm|cm))(?: average| long)?",
        r"needles \1",
    ),
    (r"(.*\d (?:inch|mm|cm)) (?:up |in (?:the )?|at (?:the )?)?(top|apex|crown)", r"\1 on \2"),
    (r"new (needles .*)", r"\1"),
    (r"(.*\d (?:inch|mm|cm)),? (?:average|avg)(?: of \d+)?", r"\1 average"),
    (r"candles (?:now |about )?(\d[\d /.,]*(?:inch|mm|cm))(?: average| long)?", r"candles \1"),
    (r"shoots (?:now |about )?(\d[\d /.,]*(?:inch|mm|cm))(?: long)?", r"shoots \1"),
)
_CHECKED = (
    # A pest by a name of its own.
    (
        r"(?:woolly|wooly|green|black|root|beech|larch|pine) aphi(?:ds?|s)|green-?fly|black-?fly",
        "aphids",
    ),
    (r"red spider(?: mites?)?|spider mites?|gall mites?", "mites"),
    (r"scale insects?", "scale"),
    (r"mealy ?bugs", "mealybug"),
    (r"vine weevils?|weevil grubs", "weevils"),
    (r"(?:powdery|downy) mildew", "mildew"),
    (
        r"(?:white )?(?:threads|myco|mycorrhiza|fungus)(?: (?:everywhere|all over|all through|all round))?",
        "",
    ),
    (
        r"(?:new )?white (?:new )?roots (?:on )?(?:the )?(left|right|front|back) side(?: only)?",
        r"white roots on \1",
    ),
    (
        r"(?:new )?roots (?:seen |showing )?(?:on )?(?:the )?(left|right|front|back) side(?: only)?",
        r"roots showing on \1",
    ),
    (r"good|looks? (?:good|fine|ok)", "fine"),
    (
        r"(?:good |white |new )*roots (?:all (?:around|round) )?\d+(?:/\d+)? ?(?:mm|cm|inch|in)(?: long)?",
        "roots showing",
    ),
    (
        r"(?:good |white |new )*roots (?:on )?(?:all|both|two|three|\d) sides|(?:good |white |new )*roots all (?:round|around)",
        "roots showing",
    ),
    (
        r"(wire|ties|guys?|graft|layer) (?:is |are |still |all )*(?:ok|okay|fine|good)(?: still)?",
        r"\1 fine",
    ),
    (
        r"(?:thread |approach |side |cleft )?grafts? (?:has |have |is |are |all )*(taken|not taken|swelling|callused|callusing|green|alive|dead|healed)(?: (?:well|nicely|on both sides|both sides))?",
        r"graft \1",
    ),
    (
        r"(?:thread |approach |side |cleft )?grafts? (?:has |have |all )*(?:took|knitted)(?: (?:well|nicely))?",
        "graft taken",
    ),
    (r"both sides|on both sides", ""),
    (r"wait (?:another |1 more )?(\d+ (?:days?|weeks?|months?))(?: more)?", r"again in \1"),
    (r"(?:tips )?white|white (?:tips|ones)", "white roots"),
    (r"(?:seen|showing|visible)", "roots showing"),
    (r"look again (?:in )?(\d+ (?:days?|weeks?|months?))", r"again in \1"),
    (
        r"((?:left|right) \d|apex|top|crown) (?:is )?(tight|biting|loose|fine|not biting)",
        r"\2 on \1",
    ),
    (r"leave (?:for )?(\d+) months?", r"again in \1 months"),
    (r"not (?:yet )?(?:biting|cutting in|marking)(?: in)?(?: yet)?", "not biting"),
    (r"(?:the |all |all the )(wire|ties|guys?|graft|layer)s?", r"\1"),
    (r"(?:leave )?(?:for )?(?:another|one more|a|1 more) (week|month)(?: more)?", r"again in 1 \1"),
    (
        r"(?:leave )?(?:for )?(?:another |a further )?(\d+ (?:weeks|months))(?: more)?",
        r"again in \1",
    ),
    (
        r"(?:none|nothing|no wires?) (?:biting|bites|cutting in)(?: in| yet)?|no bite|bites not",
        "not biting",
    ),
    (r"(wire|ties|guys?|graft|layer|roots) (?:all )?(?:ok|okay|good|fine)", r"\1 fine"),
    (r"(?:all )?ok(?:ay)?|all good|all well|nothing wrong", "fine"),
    (r"nothing (?:found|there|seen)|none(?: found| seen)?|clear", "none"),
    (r"biting(?: in)?|bites|cutting in|marking", "biting"),
    (r"(?:white )?roots showing", "white roots"),
    (r"no roots(?: yet)?", "no roots"),
    (r"(?:looked |under )*leaves(?: too)?", "leaves"),
)
_STAGED = (
    (r"(?:but )?(?:in )?(?:the )?top", "on top"),
    (r"all over", ""),
    (r"(?:in )?(?:the )?apex", "on apex"),
)
_GRAFT = (
    (
        r"(\d+) scions? (?:on |at )?((?:(?:low|high|upper|lower|left|right|front|back|apex|trunk|first|second|third|branch|\d)(?: |$))+)",
        r"\1 scions, on \2",
    ),
    (r"(?:side|bark|tip) (veneer)(?: grafts?)?", r"\1"),
    (r"(\d+) scions? (?:on|set|in|made|up)", r"\1 scions"),
    (
        r"(?:raffia|rubber|string)(?: (?:\+|&|and) (?:grafting |budding )?tape)?|(?:grafting|budding) tape",
        "taped",
    ),
    (r"bags? (?:over|on)(?: (?:it|them|all|each))?", "bagged"),
    (
        r"(\d+) (?:whips?|scions?|twigs?) from (?:its |the )?own (?:top|crown|tree|shoots?)",
        r"\1 scions, own shoot",
    ),
    (r"parafilm(?: on| round)?", "taped"),
    (r"(\d+) (?:pieces?|pcs)", r"\1 scions"),
    (r"tape", "taped"),
    (r"(?:cut )?paste(?:d)?(?: on)?|sealed(?: with paste)?", "pasted"),
    (r"taped?|with tape|bound(?: with tape)?", "taped"),
    (r"bagged|in (?:a )?bag|bag (?:over|on)", "bagged"),
    (r"(\d+ mm|\d/\d+ inch) (?:drill )?hole", r"\1 hole"),
    (r"(thread|approach|side|cleft|veneer|bud|root|whip) grafts?", r"\1"),
    (
        r"(thread|approach|side|cleft|veneer|bud|root|whip) grafts? (?:on |at )?"
        r"((?:(?:the|low|lower|upper|mid|first|second|third|left|right|front|back|side|trunk|apex|branch|\d)(?: |$))+)",
        r"\1 on \2",
    ),
    (
        r"(?:graft )?(?:set |made |done )?(?:on |at )?(?:the )?((?:low |high |upper |lower )?(?:left|right|front|back)) side",
        r"on \1",
    ),
    (
        r"(thread|approach|side|cleft|veneer|bud|root|whip) grafts? (?:set|made|done) (?:on |at )?(?:the )?"
        r"((?:low |high |upper |lower )?(?:left|right|front|back|apex|trunk))(?: side)?",
        r"\1 on \2",
    ),
    (r"tied (?:with )?(?:tape|grafting tape)", "taped"),
    (r"(\d+) scions?", r"\1 scions"),
    (r"sealed both (?:sides|ends)", "pasted"),
)
_BLOOM = (
    (r"(\d+) ?\+(?: flowers?)?", r"\1 flowers"),
    (r"(?:first )?(\d+)(?: flowers?| blooms?)?(?: open| out| on it)+", r"\1 flowers"),
    (r"(?:first|1st)(?: one| flower| bloom)?(?: open| out)?", "first"),
    (r"(\d+)(?: flowers?)?(?: open)?", r"\1 flowers"),
    (r"(?:still )?full(?: flower| bloom)?", "full"),
)
_WRAP = (
    (
        r"(?:on )?((?:left|right) \d|apex|top|leader) with (raffia)(?: under(?:neath)?| below| first)?",
        r"\2 on \1",
    ),
    (
        r"(?:then )?(crown|top|branches) (?:tied up|bound|tied|wrapped) with (raffia)(?: for (?:the )?winter)?",
        r"\2 on \1",
    ),
)
_QUANTITY = (
    (r"semi[- ]ripe(?: wood)?", "semi-ripe"),
    (r"(?:the )?(?:lid|dome|glass|cloche) (?:on|over)(?: (?:it|them|top))?", "under glass"),
    (r"(\d+) of (\d+) (?:through|showing|sprouted|emerged)", r"\1, of \2"),
    *_OF_MEDIUM,
    (r"(\d+) (?:stuck|taken|struck|in)", r"\1 cuttings"),
    (r"(?:a )?bag (?:over|on)(?: it| them| top)?", "under glass"),
    (
        r"(\d+) seeds? (?:soaked|stratified|chilled|scarified|rubbed)(?: (?:overnight|o/n|\d+ (?:h|days|weeks)|in .+))*",
        r"\1 seeds",
    ),
    (r"(\d+) (?:pieces|more)", r"\1 cuttings"),
    (r"(\d+) seeds? (?:sown|in)", r"\1 seeds"),
    (
        r"(\d+) (?:soft|softwood|green|greenwood) cuttings(?: (?:taken|struck|stuck|made|set|put in|in|inserted|planted))?",
        r"\1 cuttings, softwood",
    ),
    (
        r"(\d+) (?:hard|hardwood|dormant) cuttings(?: (?:taken|struck|stuck|made|set|put in|in|inserted|planted))?",
        r"\1 cuttings, hardwood",
    ),
    (
        r"(\d+) semi[- ]ripe cuttings(?: (?:taken|struck|stuck|made|set|put in|in|inserted|planted))?",
        r"\1 cuttings, semi-ripe",
    ),
    (
        r"(\d+) heel cuttings(?: (?:taken|struck|stuck|made|set|put in|in|inserted|planted))?",
        r"\1 cuttings, with a heel",
    ),
    (
        r"(\d+) root cuttings(?: (?:taken|made|set|put in|in|inserted|planted))?",
        r"\1 root cuttings",
    ),
    (r"(\d+) cuttings (?:in|inserted|planted)", r"\1 cuttings"),
    (r"cuttings [x×] ?(\d+)(?: (?:taken|struck|stuck|made|set))?", r"\1 cuttings"),
    (r"(\d+) cuttings (?:taken|struck|stuck|made|set|put in)", r"\1 cuttings"),
    (r"(\d+) (?:rooted|up|germinated) (?:out )?of (\d+)", r"\1, of \2"),
    (r"(?:with )?(?:a )?heels?|heel cuttings", "with a heel"),
    (r"(?:in |under )?(?:the )?mist(?: box| bench)?", "under mist"),
    (r"under (?:a )?(?:bag|glass|dome|lid)|in (?:a )?(?:bag|propagator)", "under glass"),
    (r"(?:with )?(?:rooting )?(?:hormone|powder|gel)", "hormone"),
    (r"(?:on |with )?(?:bottom heat|heat mat|heated bench)", "bottom heat"),
    (r"(?:two|2) (trays|pots|rows|handfuls)(?: of (?:it|seed|them))?", r"2 \1"),
    (r"(?:a|one) (tray|handful)(?: of (?:it|seed|them))?", r"1 \1"),
    (r"(\d+)(?: seeds?)?(?: up| germinated)", r"\1 seeds"),
    (r"(\d+) up", r"\1"),
    (r"(\d+) cuttings?", r"\1 cuttings"),
    (r"(\d+) seedlings?(?: up)?", r"\1 seedlings"),
    (r"(\d+) (?:rooted|have roots|with roots)", r"\1"),
    (r"(\d+) of (\d+)(?: rooted| up| have roots)?", r"\1, of \2"),
    (r"(\d+)", r"\1"),
)
_SHOWN = (
    (r"(?:at )?(?:the )?(.+? show)", r"at \1"),
    (r"(first|second|third|1st|2nd|3rd)(?: place)?(?: of \d+| in \w+)?", r"award \1"),
    (r"(?:on )?(?:a |the )?(\w+) stand", r"on stand \1"),
    (r"(.+) as (?:shitakusa|kusamono|accent)", r"accent \1"),
)
_PROTECT = (
    (
        r"(fleece|straw|mulch|bubble ?wrap) (?:on|over|round|around) (?:pots?|box|boxes|tree|roots|trunk)",
        r"\1",
    ),
    (
        r"(?:the )?(?:pots?|box|soil|surface|roots|bed) with (bark|straw|leaves|leaf mould|chips|wood chips|needles|pine needles|compost)",
        r"with \1",
    ),
    (
        r"((?:straw|pine needles|leaves|bark|wood chips|chips|compost|sawdust)(?: ?(?:\+|&|and) ?(?:straw|pine needles|leaves|bark|wood chips|chips|compost|sawdust))*)",
        r"with \1",
    ),
    (
        r"(?:double )?(?:the )?frost (?:cloth|blanket|fleece)(?: back)? (?:on|over|round|around|up)"
        r"(?: (?:it|all|everything|them|the (?:tree|pots?|box|boxes|roots|lot|top)|again|tonight))*",
        "fleece",
    ),
    (
        r"(?:double )?(?:an? |the )?(?:old )?(quilt|blanket|duvet|sheet|sheets|blankets|sack|sacking|sacks|carpet|hessian|burlap|bracken|leaf mould|bark|cardboard|bubble foil)"
        r"(?: back)? (?:on|over|round|around|up)(?: (?:it|all|everything|them|the (?:tree|pots?|box|boxes|roots|lot|top)|again|tonight))*",
        r"with \1",
    ),
    (
        r"(?:double )?(?:the )?(fleece|straw|mulch|bubble ?wrap)(?: back)? (?:on|over|round|around|up)"
        r"(?: (?:it|all|everything|them|the (?:tree|pots?|box|boxes|roots|lot|top)|again|tonight))*",
        r"\1",
    ),
    (
        r"(?:the )?pots? (?:in|with|wrapped in) (?:bubble (?:foil|wrap)|fleece|straw|hessian|jute)",
        "pot wrapped",
    ),
    (
        r"(?:in|with|under) (?!(?:full )?(?:flowers?|blooms?|blossom|leaf|bud|growth)\b)((?:(?! (?:on|at|by|for) ).)+)",
        r"with \1",
    ),
    (r"against (?:the )?(.+)", r"against \1"),
    (r"(?:the )?pot (?:only|too|as well|in bubble wrap)", "pot wrapped"),
)
_SHADE = (
    (
        r"(?:with )?(\d+ %) (?:shade )?(?:net|cloth)(?: (?:over|on|up))*(?: it)?(?: since today| today)?",
        r"net, \1",
    ),
    (r"(?:shade )?(?:net|cloth)", "net"),
    (r"(?:shade )?(?:net|cloth) (\d+ %)(?: on| up| over)?", r"net, \1"),
    (r"(\d+ %)(?: net| cloth)?", r"\1"),
)
_FRUIT = ((r"(\d+)(?: apples?| fruits?| figs| crabs)?(?: set| on it| ripe)?", r"\1 fruits"),)
_WORKED = (
    (r"(\d[\d.,/ ]* (?:h|min)(?: \d\d)?) work", r"\1"),
    (
        r"(\d[\d.,/ ]* (?:h|min)(?: \d\d)?) (?:together|jointly) with ([^\W\d]+)",
        r"\1, by \2",
    ),
    (
        r"(\d[\d.,/ ]* (?:h|min)(?: \d\d)?) (?:on |of )?(wiring|repotting|pruning|trimming|pinching|decandling|defoliating|thinning|weeding"
        r"|watering|feeding|spraying|carving|cleaning|styling|bending|grafting|layering|unwiring|needle plucking|needle work|root work)",
        r"\1, on \2",
    ),
    (r"(\d[\d.,/ ]* (?:h|min)(?: \d\d)?) (?:on |with )?(?:this one|this|it|her|him)", r"\1"),
    (r"(\d[\d.,/ ]* (?:h|min)(?: \d\d)?) (?:by |with )?([^\W\d]+)", r"\1, by \2"),
    (r"([^\W\d]+) (\d[\d.,/ ]* (?:h|min)(?: \d\d)?)", r"\2, by \1"),
)
_COME_UP = (
    (
        r"(\d+) (?:(?:seedlings|seeds) )?(?:sprouted|emerged|germinated|have (?:germinated|come up|rooted))",
        r"\1",
    ),
    (r"(\d+) of (\d+) have rooted", r"\1, of \2"),
)
_KEPT = ((r"(\d+ (?:days?|weeks?|nights?))", ""),)

# A third figure is the language that a way of saying it came with.
_Way = tuple[str, str] | tuple[str, str, int]
_TABLE: Mapping[str, tuple[_Way, ...]] = {
    **dict.fromkeys(("repotted", "potted-on", "slipped", "lifted"), (*_ROOTS, *_OF_MEDIUM)),
    "root-pruned": _ROOTS,
    **dict.fromkeys(
        (
            "pruned",
            "trimmed",
            "pinched",
            "decandled",
            "plucked",
            "defoliated",
            "disbudded",
            "deadheaded",
            "rubbed",
            "thinned",
        ),
        _CUT,
    ),
    "potted-on": (*_ROOTS, *_OF_MEDIUM, *_POTTED_ON),
    "decandled": (*_DECANDLED, *_CUT),
    "plucked": (*_PLUCKED, *_CUT),
    "defoliated": (*_DEFOLIATED, *_CUT),
    "rubbed": (*_RUBBED, *_CUT),
    "bent": _BENT,
    "unwired": _UNWIRED,
    "layered": _LAYERED,
    "turned": _TURNED,
    "wired": _WIRE,
    "guyed": (*_WIRE, *_GUYED),
    "fed": _FEED,
    "treated": _TREAT,
    "treated-deadwood": _DEADWOOD,
    **dict.fromkeys(("watered", "soaked", "flushed", "misted"), _WATER),
    **dict.fromkeys(("moved", "planted-out"), _PLACE),
    **dict.fromkeys(("bought", "sold", "paid"), _MONEY),
    "quoted": (*WORKS_AGREED, *_MONEY),
    # What was paid is no bill: `inv sent, 340 paid`.
    "billed": tuple(way for way in _MONEY if "paid" not in way[0] or "inv" in way[0]),
    "agreed": (*_AGREED, *WORKS_AGREED, *_MONEY),
    "carved": _CARVED,
    "sealed": _SEALED,
    "measured": _MEASURED,
    "checked": _CHECKED,
    "staged": _STAGED,
    **dict.fromkeys(("sown", "struck"), _QUANTITY),
    **dict.fromkeys(("germinated", "rooted"), (*_COME_UP, *_QUANTITY)),
    "struck": (*_STRUCK, *_QUANTITY),
    "top-dressed": (
        (
            rf"{_MEDIUM} topped up(?: (?:on|over|round) (?:the )?(?:surface )?(?:roots|surface|nebari))?",
            r"with \1",
        ),
        (r"(?:fresh |new )+([^\W\d]+)(?: (?:on|over|on top|laid))?", r"with \1"),
    ),
    "shown": _SHOWN,
    "grafted": _GRAFT,
    "bloomed": _BLOOM,
    "disbudded": (*_RUBBED, *_CUT),
    "fruited": _FRUIT,
    "wrapped": _WRAP,
    "protected": _PROTECT,
    "shaded": _SHADE,
    "worked": _WORKED,
}
_BY_ACT: Mapping[str, tuple[_Way, ...]] = {
    act: (*_TABLE.get(act, ()), *MORE.get(act, ())) for act in (*_TABLE, *MORE)
}


@cache
def words_said(act: str) -> frozenset[str]:
    """The words that stand in the ways of saying the details of an act."""
    patterns = " ".join(way[0] for way in _BY_ACT.get(act, ()))
    plain = re.sub(r"\\[a-zA-Z]|\(\?[:!=<]+", " ", patterns)
    # `years?` is two words.
    shorter = re.sub(r"[a-zA-Z]\?", "", plain)
    words = re.findall(r"[a-zA-Z]+", f"{plain} {shorter}".casefold())
    return frozenset((*words, *(WIRE_WORDS if act in WIRING else ())))


class _Ways(Struct, frozen=True):
    """The ways of saying the details of an act, the detail that each is, and what words each
    needs."""

    patterns: tuple[str, ...]
    written: tuple[str, ...]
    needed: NeededWords


@cache
def _ways(act: str, language: int) -> _Ways:
    rows = [
        (pattern, written)
        for pattern, written, *came_with in _BY_ACT.get(act, ())
        if not came_with or came_with[0] <= language
    ]
    patterns = tuple(pattern for pattern, _ in rows)
    return _Ways(patterns, tuple(written for _, written in rows), needed_words(patterns))


def ways_said(act: str, language: int) -> tuple[str, ...]:
    """The ways of saying the details of an act that a language has, each as it is written."""
    return _ways(act, language).patterns


def said_as(act: str, piece: str, language: int = LANGUAGE) -> Iterator[str]:
    """The ways the table would say a piece, the likeliest first; whoever asks reads each.

    >>> list(said_as("repotted", "30 % root off"))[0]
    'off 30 %'
    """
    ways = _ways(act, language)
    for at in ways.needed.may_fit(piece):
        found = compiled_way(ways.patterns[at]).fullmatch(piece)
        if found is not None:
            yield _filled(ways.written[at], found)
    if act in WIRING:
        yield from wires_said(piece)


def _filled(written: str, found: re.Match[str]) -> str:
    """`\\1` is the group as written, `%1` a share in figures, `~1` what it leaves, `#1` a side of
    the root ball, `^1` a metal, `@1` how it was paid."""

    def group(sign: re.Match[str]) -> str:
        said = found[int(sign[2])] or ""
        if sign[1] == "@":
            return "cash" if said.casefold() == "cash" else "by cheque"
        if sign[1] in "%~":
            share = _FRACTIONS.get(said.casefold(), said)
            return share if sign[1] == "%" else _what_is_off(share)
        if sign[1] == "#":
            return _SIDES.get(said.casefold(), said)
        return said.capitalize() if sign[1] == "^" else said

    return " ".join(re.sub(r"([\\%^~@#])(\d)", group, written).split())


def _what_is_off(left: str) -> str:
    """The share that is off where this one is left, as written: `2/3` of `1/3`.

    >>> _what_is_off("1/3"), _what_is_off("30 %")
    ('2/3', '70 %')
    """
    if left.endswith("%"):
        return f"{100 - int(left.rstrip(' %'))} %"
    over, _, under = left.partition("/")
    return f"{int(under) - int(over)}/{under}" if under and int(over) < int(under) else left
