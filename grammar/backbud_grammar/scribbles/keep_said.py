"""How the details of wire, ties, covers, feed, water and sprays are said in short, by act.

Rows as in `details_said.py`, which takes them in.
"""

from __future__ import annotations

from collections.abc import Mapping

from backbud_grammar.scribbles.openings.fastenings import ANCHOR
from backbud_grammar.scribbles.openings.row import PEST, SPRAY, SUBSTANCE
from backbud_grammar.scribbles.water_figures import SOURCE

_BRANCH = r"((?:left|right) \d{1,2}|apex|top|crown|leader|trunk|jin)"
_TO = rf"(?:the )?({ANCHOR})"
_GUY = r"(\d(?:[.,]\d+)? mm(?: (?:Al|Cu|al|cu|aluminium|copper))?)"
_METAL_GUY = r"(al|cu|aluminium|copper) (\d(?:[.,]\d+)?)(?: mm)?"
_RATE = r"(\d[\d.,]* (?:g|mL|ml)/L)"
_NPK = r"(\d{1,2}-\d{1,2}-\d{1,2})"
_VOLUME = r"(\d[\d.,]* (?:L|mL))"
_PRODUCT = rf"(?:{SPRAY}|{SUBSTANCE}|(?:rubbing |denatured )?alcohol|spirit|(?:a )?drop (?:of )?(?:soap|oil|washing[- ]up liquid))"
_BAD = r"(?:worst|infected|affected|bad|sick|ill|spotted|mildewed|diseased|eaten)"
_IRON = r"(?:fe|iron)[- ]?chelate|iron"
_SPOT = r"(?:on|in|round|around|along|under|into) (?:the )?(?:rim|edges?|pot edge|(?:wet |damp |moist |dry )?soil|surface|moss|cups?|baskets?|strainers?|corners?|bags?|tea (?:filters?|bags?|strainers?)|filters?|little bags?)"

Ways = tuple[tuple[str, str], ...]

_GUYED: Ways = (
    (rf"{_METAL_GUY} to {_TO}", r"\2 mm ^1, to \3"),
    (rf"{_METAL_GUY} (?:from |on )?{_BRANCH} to {_TO}", r"\2 mm ^1 on \3, to \4"),
    (rf"{_GUY} to {_TO}", r"\1, to \2"),
    (
        rf"{_GUY} (?:from |on )?(?:the )?{_BRANCH} (?:down )?to {_TO}",
        r"\1 on \2, to \3",
    ),
    (
        rf"(?:wire )?(?:from |on )?(?:the )?{_BRANCH} (?:(?:pulled |drawn |brought |put |tied |held )?down )?to {_TO}",
        r"to \2, on \1",
    ),
    (
        rf"(?:wire )?(?:from |on )?(?:the )?{_BRANCH} (?:(?:pulled |drawn |brought |put |tied |held )?down )?to {_TO} (?:with|by) (?:a )?{_GUY}",
        r"\3 on \1, to \2",
    ),
    (
        rf"(?:wire )?(?:from |on )?(?:the )?{_BRANCH} (?:(?:pulled |drawn |brought |put |tied |held )?down )?to {_TO} (?:with|by) {_METAL_GUY}",
        r"\4 mm ^3 on \1, to \2",
    ),
    (
        rf"{_BRANCH} (?:pulled |drawn |brought |put |held )?(down|up) (?:with|by) (?:a )?guy(?: wire)?(?: to {_TO})?",
        r"\2, on \1, to \3",
    ),
    (
        rf"{_BRANCH} (?:pulled |drawn |brought |put |held )?(down|up) (?:with|by) (?:a )?guy(?: wire)?",
        r"\2, on \1",
    ),
    (rf"(?:to|fixed to|fast to) {_TO}", r"to \1"),
    (
        r"(?:a )?(?:rubber|hose|tube|leather|felt|cork|pad(?:ding)?|raffia) (?:under|between|below|round|underneath)(?: (?:it|the (?:wire|guy)))?",
        "",
    ),
)
_TIED: Ways = (
    (
        r"(?:(?:in|down|again|firm|with|by|new) )*(\d(?:[.,]\d+)? mm(?: (?:Al|Cu|al|cu|aluminium|copper))?),? (?:x ?)?(\d)(?: x| pieces)?(?: new| fresh)?",
        r"\1 x \2",
    ),
    (
        r"(?:(?:in|down|again|firm|with|by|new) )*(al|cu|aluminium|copper) (\d(?:[.,]\d+)?)(?: mm)?,? (?:x ?)?(\d)(?: x| pieces)?",
        r"\2 mm ^1 x \3",
    ),
    (
        r"(?:(?:in|down|again|firm|with|by|new) )*(\d(?:[.,]\d+)? mm(?: (?:Al|Cu|al|cu|aluminium|copper))?)",
        r"\1",
    ),
    (
        r"(?:(?:in|down|again|firm|with|by|new) )*(al|cu|aluminium|copper) (\d(?:[.,]\d+)?)(?: mm)?",
        r"\2 mm ^1",
    ),
)
_ALL_OF_THEM: Ways = ((r"all (?:\d|two|three|four|five|six)(?: of them)?", "all"),)
_WIRED: Ways = (
    (
        r"(al|cu|aluminium|copper) (\d(?:[.,]\d+)?)(?: mm)? on (\d+) (?:\w+ )?tips",
        r"\2 mm ^1, \3 tips",
    ),
    (r"(\d+) (?:\w+ )?tips", r"\1 tips"),
    (
        r"(\d(?:[.,]\d+)?)(?: mm)? (al|cu|aluminium|copper) (?:on|round) (\d+) (?:small |fine |thin |new |side |low |lower )*(?:branches|shoots|twigs)",
        r"\1 mm ^2, \3 branches",
    ),
    (
        r"(al|cu|aluminium|copper) (\d(?:[.,]\d+)?)(?: mm)? over (?:it|the raffia|raffia)",
        r"\2 mm ^1",
    ),
    (
        r"(?:from )?(?:the )?(trunk|root|base|left \d|right \d) to (?:the )?((?:first|second|third|fourth) branch|apex|tip|top|left \d|right \d)",
        r"on \1 to \2",
    ),
    (r"(?:2|two) (?:strands|wires|together|side by side)|doubled|double(?: wire)?", "double"),
)
_FLEECE_ON = r"(?: (?:on|over|round|around|up)(?: (?:it|all|the (?:tree|crown|pot|top)|crown|pot|tree))?)?(?: (?:again|tonight))?"
_PROTECT: Ways = (
    (
        rf"(?:2|two|double)(?: (?:layers?|sheets?|thick))?(?: of)? fleece{_FLEECE_ON}",
        "fleece, two layers",
    ),
    (
        rf"(?:3|three|triple)(?: (?:layers?|sheets?|thick))?(?: of)? fleece{_FLEECE_ON}",
        "fleece, three layers",
    ),
    (
        rf"fleece (?:x ?2|2 ?x|twice|2|two|double)(?: (?:layers?|sheets?|thick|times))?{_FLEECE_ON}",
        "fleece, two layers",
    ),
    (
        rf"fleece (?:x ?3|3 ?x|3|three|triple)(?: (?:layers?|sheets?|thick))?{_FLEECE_ON}",
        "fleece, three layers",
    ),
    (r"(?:put )?(?:in|under) fleece", "fleece"),
    (r"wind[- ]?(?:screen|break) (?:set|up|put up|built)", "windbreak"),
    (
        r"wind[- ]?(?:screen|break) (?:set|up|put up|built) (?:on|at) (?:the )?(\w+ side)",
        r'with "windbreak on \1"',
    ),
    (
        r"(?:the )?pots? (?:all )?(?:packed|wrapped|rolled|lagged|insulated) (?:in|with) (?:\w+ )?(bubble ?wrap|hessian|burlap|straw|fleece)",
        r"pot wrapped, with \1",
    ),
    (
        r"(bubble ?wrap|fleece|hessian|burlap|straw) (?:round|around|on) (?:the )?pots?",
        r"pot wrapped, with \1",
    ),
    (
        r"fleece (?:over|on|round) (?:the )?(?:crown|top|tree|leaves|it)(?: too| as well)?",
        "fleece",
    ),
)
_SHADE: Ways = (
    (r"(?:in |under )?(\d+ %) (?:shade|shading)", r"\1"),
    (r"(\d+ %)(?: (?:on|up|over))+", r"net, \1"),
    (r"(?:shade )?(?:cloth|net) (?:of )?(\d+ %)(?: (?:on|up|over))?", r"net, \1"),
)
_FEED: Ways = (
    (rf"with {_NPK}", r"\1"),
    (r"(\d[\d.,]* g) (?:of )?(bone ?meal|rapeseed meal|cottonseed meal|guano|manure)", r"\1, \2"),
    (rf"{_NPK} (?:in|with) (?:the )?water", r"\1, liquid"),
    (rf"((?:cactus|orchid|bonsai|pine|conifer) feed),? (?:at )?{_RATE}", r"\1, \2"),
    (rf"(?:{_IRON}|sequestrene),? (?:at )?{_RATE}(?: (?:on|in|to) (?:the )?soil)?", r"iron, \1"),
    (
        rf"(?:{_IRON}|sequestrene),? (?:at )?{_RATE} (?:on|over) (?:the )?(?:lea(?:f|ves)|foliage)",
        r"iron, \1, foliar",
    ),
    (
        rf"(?:epsom(?: salts?)?|magnesium(?: sulphate)?),? (?:at )?{_RATE}",
        r"magnesium, \1",
    ),
    (
        rf"(?:epsom(?: salts?)?|magnesium(?: sulphate)?),? (?:at )?{_RATE} (?:on|over) (?:the )?(?:lea(?:f|ves)|foliage|needles)",
        r"magnesium, \1, foliar",
    ),
    (
        rf"(seaweed|kelp|potash|humic acid|fish emulsion),? (?:at )?{_RATE} (?:on|over) (?:the )?(?:lea(?:f|ves)|foliage|needles)",
        r"\1, \2, foliar",
    ),
    (rf"(?:with )?{_VOLUME} (?:of )?{_NPK}(?:,? (?:at )?{_RATE})", r"\1, \2, \3"),
    (rf"(?:with )?{_VOLUME} (?:of )?{_NPK}", r"\1, \2"),
    (rf"(?:with )?{_RATE} (?:of )?{_NPK}", r"\2, \1"),
    (rf"{_NPK},? (?:at )?{_RATE},? {_VOLUME}(?: each| per (?:tree|pot))?", r"\1, \2, \3"),
    (rf"{_VOLUME} (?:per|a) (?:tree|pot)|{_VOLUME} each", r"\1\2"),
    (rf"(?:half|1/2) (?:dose |strength |of )*{_NPK}", r"\1, half strength"),
    (rf"{_NPK} half", r"\1, half strength"),
    (r"(\d[\d.,]* g) (?:of )?(?:(?:rape|feed|fish|organic) )?(?:pellets|cakes)", r"\1, pellets"),
    (rf"{_SPOT}", ""),
    (rf"(\d[\d.,]* g) {_SPOT}", r"\1"),
    (r"(?:with |of )?(?:rape |feed |organic )?pellets", "pellets"),
    (
        rf"(?:{_IRON}|sequestrene),? (?:at )?{_RATE} (?:watered|poured|drenched) (?:in|on)",
        r"iron, \1, liquid",
    ),
    (
        rf"(?:epsom(?: salts?)?|magnesium(?: sulphate)?),? (?:at )?{_RATE} (?:watered|poured|drenched) (?:in|on)",
        r"magnesium, \1, liquid",
    ),
    (r"(?:on|over) (?:the )?(?:lea(?:f|ves)|foliage|needles)", "foliar"),
    (rf"(\d+)(?: new)?(?: (?:pellets|pieces|cakes|balls))? {_SPOT}", r"\1 pieces"),
    (
        r"(?:first|1st) (?:feed )?after (?:the )?(?:repot(?:ting)?|flower(?:s|ing)?|winter)",
        "first round",
    ),
    (r"(first|second|third) (?:of (?:\d|two|three|four|five|six))", r"\1 round"),
)
_WATER: Ways = (
    (rf"with {_VOLUME}", r"\1"),
    (
        r"tap(?: ?water)? (?:with|\+) ((?:citric )?acid(?: (?:to )?pH ?[\d.,]+| \d[\d.,]* (?:g|mL)/\d* ?L)?)",
        r'tap water, with "\1"',
    ),
    (r"(?:only |just )?(?:a )?(?:little|bit)|sparingly", "lightly"),
    (rf"(?:with )?rain ?water,? {_VOLUME}(?: each)?", r"rainwater, \1"),
    (rf"(?:with )?tap(?: ?water)?,? {_VOLUME}(?: each)?", r"tap water, \1"),
    (rf"(?:with )?rain,? {_VOLUME}(?: each| per (?:tree|pot))?", r"rainwater, \1"),
    (rf"{_VOLUME} each (?:of )?rain(?: ?water)?", r"\1, rainwater"),
    # Each by itself, so that `watered` does not tell of them.
    (r"(\d+) cans? (?:of )?rain", r"cans \1, rainwater"),
    (r"(\d+) cans? (?:of )?rainwater", r"cans \1, rainwater"),
    (r"(\d+) cans? (?:of )?rain water", r"cans \1, rainwater"),
    (r"(\d+) cans? (?:of )?tap(?: ?water)?", r"cans \1, tap water"),
    (r"with (\d[\d.,]* (?:L|mL)) (?:of )?rain(?: ?water)?", r"\1, rainwater"),
    (r"with (\d[\d.,]* (?:L|mL)) (?:of )?(?:water|tap(?: ?water)?)", r"\1, tap water"),
    (r"(?:only |with )*rain ?water(?: only)?", "rainwater"),
    (r"(\d)(?: ?x| times) (?:(?:the )?pot )?volumes?", r"\1 times"),
    (r"(?:in |into )?(?:rain(?: ?water)?) (?:for )?(\d+ min)", r"\1, rainwater"),
)
_TREAT: Ways = (
    (
        rf"(?:with )?({_PRODUCT}(?: {_RATE[1:-1]}| \d[\d.,]* %)? ?(?:\+|and|&|with) ?{_PRODUCT}(?: {_RATE[1:-1]}| \d[\d.,]* %)?) (?:against|for|on) ({PEST})",
        r'with "\1", against \2',
    ),
    (r"(?:cotton bud|q-?tips?|swab|brush) (?:with |and |\+ )?(alcohol)", r"by hand, with \1"),
    (r"(?:soap|soapy) water", "with soap"),
    (r"(\d+) (?:mln|mio|million)(?: nematodes)?", r"\1 million"),
    (rf"{_VOLUME} (?:of )?water", r"\1"),
    (r"(\d) (?:days|evenings|nights|mornings) (?:in a row|running)", r"\1 times"),
    (rf"(?:rubbing )?alcohol on (\d+) ({PEST})", r"with alcohol, \1 insects, against \2"),
    (rf"cu {_RATE}", r"copper, \1"),
    (r"(first|second|third|fourth) x", r"\1 time"),
    (r"(\d[\d.,]* (?:%|(?:mL|g)/L)) (?:on|over) (?:the )?(?:whole |bare )*tree", r"\1, all over"),
    # Two products in one can, each with its dose.
    (
        rf"(?:with )?{_PRODUCT}(?: {_RATE[1:-1]}| \d[\d.,]* %)? ?(?:\+|and|&|with) ?{_PRODUCT}(?: {_RATE[1:-1]}| \d[\d.,]* %)?",
        r'with "\0"',
    ),
    (
        rf"(?:brush|toothbrush|cotton bud|by hand) ?(?:\+|and|&|with) ?({_PRODUCT})( \d[\d.,]* %)?",
        r"by hand, with \1\2",
    ),
    (rf"(?:with )?({_PRODUCT}),? (\d[\d.,]* %)", r"with \1, dose \2"),
    (
        rf"{_BAD} (?:leaves|leaf|tips|twigs|needles|shoots|ones|bits)(?: all)? (?:off|out|away|removed|cut(?: off| out| away)?|picked(?: off)?|binned)",
        "cut out",
    ),
    (r"(?:tips|shoots|leaves|twigs|leaf|webs?|nests?) (?:all )?cut out", "cut out"),
    (
        rf"({SPRAY}) {_RATE} (?:on|under) (?:the )?(?:underside|leaf undersides?|undersides)",
        r"\1, \2, under the leaves",
    ),
    (r"(?:on|under) (?:the )?(?:undersides?|leaf undersides?)", "under the leaves"),
    (rf"nematodes in {_VOLUME}", r"nematodes, \1"),
    (r"(?:with )?slug pellets,? (\d[\d.,]* g)", r"with slug pellets, \1"),
    (
        r"(?:blue|yellow|sticky|pheromone) (?:sticky )?traps?(?: (?:up|hung|out|set|put up|hung up))?",
        "sticky traps",
    ),
    (r"(?:rubbing )?alcohol \d+ %", r"with \0"),
    (rf"(?:agst|against|for|on) (?:the )?({PEST}|lice|(?:wool|plant|leaf) lice)", r"against \1"),
    (r"(lice|(?:wool|plant|leaf) lice)", r"against \1"),
    (
        r"(lice|(?:wool|plant|leaf) lice) (?:squashed|rubbed off|wiped off|picked off)(?: by hand)?",
        r"against \1, by hand",
    ),
    (r"(?:a )?(?:dry|still|dull|calm|cloudy) (?:day|evening|morning)", ""),
)
_MEASURED: Ways = (
    (
        rf"({SOURCE}):? EC ?([\d.,]+)(?: mS(?:/cm)?)?,? pH ?([\d.,]+)(?:,? dH ?([\d.,]+))",
        r'EC \2 mS/cm, pH \3, hardness \4 dH, of "\1"',
    ),
    (
        rf"({SOURCE}):? EC ?([\d.,]+)(?: mS(?:/cm)?)?(?:,| /)? pH ?([\d.,]+)",
        r'EC \2 mS/cm, pH \3, of "\1"',
    ),
    (
        rf"({SOURCE}):? pH ?([\d.,]+)(?:,| /)? EC ?([\d.,]+)(?: mS(?:/cm)?)?",
        r'pH \2, EC \3 mS/cm, of "\1"',
    ),
    (rf"({SOURCE}):? EC ?([\d.,]+)(?: mS(?:/cm)?)?", r'EC \2 mS/cm, of "\1"'),
    (r"soil pH ?([\d.,]+)", r"soil pH \1"),
    (rf"({SOURCE}):? pH ?([\d.,]+)", r'pH \2, of "\1"'),
    (rf"({SOURCE}):? ([\d.,]+) mS(?:/cm)?,? pH ?([\d.,]+)", r'EC \2 mS/cm, pH \3, of "\1"'),
    (r"pH (?:of )?(?:the )?soil(?: is)? ([\d.,]+)|pH ?([\d.,]+) of (?:the )?soil", r"soil pH \1\2"),
    (rf"pH (?:of )?(?:the )?({SOURCE})(?: is)? ([\d.,]+)", r'pH \2, of "\1"'),
    (rf"EC (?:of )?(?:the )?({SOURCE})(?: is)? ([\d.,]+)(?: mS(?:/cm)?)?", r'EC \2 mS/cm, of "\1"'),
    (r"(water|soil) (?:temp|temperature)(?: is)? ([-−]?[\d.,]+) ?C?", r"\1 temperature \2 C"),
    (r"([\d.,]+) C(?: water)?", r"water temperature \1 C"),
    (r"((?:tap|rain|barrel|rain barrel|tank|pond|well|drain|run[- ]?off)(?: water)?)", r'of "\1"'),
    (r"(?:was|before)(?: at)? ([\d.,]+)(?: (?:before|last time|then))?", r"was \1"),
)
_CHECKED: Ways = (
    (r"(\d+ (?:days|weeks|months)) (?:max|at most|at the most|latest)", r"again in \1"),
    (
        r"roots (?:are |now )?(?:through|in|into) (?:the )?(?:moss|sphagnum|bag|foil)",
        "roots showing",
    ),
    (
        rf"(?:no|no more|not one) ({PEST}|pests?|lice|eggs|webs?)(?: (?:seen|found|left|now))*",
        r"for \1, none",
    ),
    (
        rf"for ({PEST}|pests?|lice|eggs),? (?:none|nothing|no one)(?: (?:seen|found))?",
        r"for \1, none",
    ),
    (r"under (?:the )?leaves", "leaves"),
    (r"(?:roots )?white (?:all )?(?:round|over|around)(?: (?:it|the ball))?", "white roots"),
    (r"(?:bites?|biting|cutting in) nowhere|nowhere (?:biting|tight|cutting in)", "not biting"),
    (r"(?:next|again)(?: (?:look|check|one))? (?:in )?(\d+ (?:days|weeks|months))", r"again in \1"),
    (r"(?:ok|fine|good|not biting) for (?:another )?(\d+ (?:weeks|months))", r"fine, again in \1"),
)
# What more is said of each act than the tables of `details_said.py` have.
_SEPARATED: Ways = ((r"(?:and |then |all )*potted(?: up)?", "potted"),)
MORE: Mapping[str, Ways] = {
    "guyed": _GUYED,
    "tied": _TIED,
    "untied": _ALL_OF_THEM,
    "unguyed": _ALL_OF_THEM,
    "wired": _WIRED,
    "protected": _PROTECT,
    "shaded": _SHADE,
    "fed": _FEED,
    **dict.fromkeys(("watered", "soaked", "flushed", "misted"), _WATER),
    "treated": _TREAT,
    "measured": _MEASURED,
    "checked": _CHECKED,
    "separated": _SEPARATED,
}
