"""How a detail is said at the bench where its table has other words for it.

By the act: a way of saying it, and the detail as the table has it. A way of saying it is held
against the whole piece between two commas, never against a part of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from backbud_grammar.scribbles.wires_said import WIRING, wires_said

_NUM = r"(\d+(?:[.,]\d+)?(?:/\d+)?(?: \d/\d)?)"
_LEN = rf"({_NUM[1:-1]} (?:mm|cm|inch|m))"
_SHARE = r"(\d/\d|\d+ %|half|a third|a quarter|two thirds|third|quarter)"
_FRACTIONS = {
    "half": "1/2",
    "a third": "1/3",
    "third": "1/3",
    "a quarter": "1/4",
    "quarter": "1/4",
    "two thirds": "2/3",
}
_BOTTOM = r"(?:below|the bottom|bottom|the underside|underside|btm|the base|base)"
_ROOTS = (
    (rf"{_LEN} (?:off|from) (?:the )?{_BOTTOM}", r"off below \1"),
    (rf"off (?:the )?{_BOTTOM} {_LEN}", r"off below \1"),
    (rf"(?:the )?{_BOTTOM} {_LEN} off", r"off below \1"),
    (rf"{_LEN} (?:off|from) (?:the )?(?:sides|edges|all round|rim)", r"off sides \1"),
    (rf"(?:the )?sides {_LEN} off", r"off sides \1"),
    (rf"{_LEN} (?:off|from) (?:the )?top", r"off top \1"),
    (rf"{_SHARE} (?:of )?(?:the )?(?:roots?|root ball|ball) (?:off|removed|cut|gone)", r"off %1"),
    (rf"{_SHARE} (?:off|removed|cut) (?:the )?(?:roots?|root ball|ball)?", r"off %1"),
    (rf"(?:roots?|root ball) (?:cut|reduced|pruned)(?: back)? (?:by )?{_SHARE}", r"off %1"),
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
    (r"(\S+)(?: pot)?", r"into \1"),
    (r"(?:with )?rooting (?:hormone|powder|gel)", "hormone"),
    (r"(\d+) (?:potted|up|pots)", r"\1 seedlings"),
    (r"(\d+)", r"\1 seedlings"),
)
_CUT = (
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
    (r"(?:in )?(?:the )?top(?: only)?", "on top"),
    (r"(?:in )?(?:the )?apex(?: only)?", "on apex"),
    (r"(?:lightly|light|a bit|a little)", "lightly"),
    (r"hard back|very hard|hard", "hard"),
    (r"with (?:the )?(?:ovaries|ovary|seed pods|pods)", "with ovaries"),
    (r"(?:ovaries|seed pods|pods)(?: too| as well| and all)?", "with ovaries"),
    (r"incl\.? (?:pods|ovaries)", "with ovaries"),
    (r"every one|all of them|the lot", "all"),
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
        r"(\d+) (candles|shoots|buds|flowers|pods|fruits|apples|twigs|branches)(?: off| cut| removed)?",
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
_WIRE = (
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
    (rf"(Al|Cu|al|cu) {_NUM}(?: mm)?", r"\2 mm ^1"),
    (rf"{_NUM}(?: mm)? (Al|Cu|al|cu)", r"\1 mm ^2"),
    (rf"(Al|Cu|al|cu) {_NUM}(?:-| to | - ){_NUM}(?: mm)?", r"\2-\3 mm ^1"),
    (rf"{_NUM}(?:-| to ){_NUM}(?: mm)? (Al|Cu|al|cu)", r"\1-\2 mm ^3"),
    (rf"(Al|Cu|aluminium|copper) {_NUM} mm", r"\2 mm \1"),
    (r"(\d+) (?:new )?(?:shoots|branches|twigs)", r"\1 branches"),
    (r"(?:bare )?(\d+) branches", r"\1 branches"),
    (r"(?:whole tree|all of it|all over|every branch|fully)", "all"),
    (r"(?:all )?(?:the )?(?:fine|thin) (?:branches|twigs|ones)", "fine branches"),
    (r"(?:the )?(?:main|primary|big) branches", "primary branches"),
)
_FEED = (
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
_TREAT = (
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
    (r"cut (?:out|off) (?:\+|&|and) burn(?:t|ed)(?: .*)?", "cut out, burned"),
    (r"(?:picked|taken|hand[- ]?picked|squashed)(?: off)?(?: by hand)?", "by hand"),
    (r"(?:brushed|wiped|scrubbed)(?: off)?", "brushed off"),
)
_DEADWOOD = (
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
    (r"(?:two|2) times|2x|twice(?: today)?", "twice"),
    (r"(?:a\.?m\.?|in the morning|early)", "morning"),
    (r"(?:p\.?m\.?|in the evening|late)", "evening"),
    (r"(?:a\.?m\.? (?:and|\+|&) p\.?m\.?)", "morning and evening"),
    (r"(?:with )?(?:the )?(?:rain ?water|rain)", "rainwater"),
    (r"(?:with )?tap(?: water)?", "tap water"),
    (r"(?:for )?(\d+ (?:min|h))", r"\1"),
    (r"with rain \d+ ?times pot volume", "rainwater"),
)
_PLACE = (
    (r"(?:in|into|to|back|out|under|on|at)*(?: (?:in|into|to|under))?(?: the)? ?(\S+)", r"to \1"),
    (r"from (\S+) (?:back )?to (\S+)(?: again)?", r"from \1, to \2"),
)
_MONEY = (
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
_MEASURED = (
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
    (r"(wire|ties|guys?|graft|layer|roots) (?:all )?(?:ok|okay|good|fine)", r"\1 fine"),
    (r"(?:all )?ok(?:ay)?|all good|all well|nothing wrong", "fine"),
    (r"nothing(?: found| there)?|none(?: found| seen)?|clear", "none"),
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
    (r"(thread|approach|side|cleft|veneer|bud|root|whip) grafts?", r"\1"),
    (r"(thread|approach|side|cleft|veneer|bud|root|whip) grafts? (?:on |at )?(.+)", r"\1 on \2"),
    (r"(\d+) scions?", r"\1 scions"),
    (r"sealed both (?:sides|ends)", "pasted"),
)
_BLOOM = (
    (r"(\d+)(?: flowers?)?(?: open)?", r"\1 flowers"),
    (r"(?:still )?full(?: flower| bloom)?", "full"),
)
_WRAP = (
    (
        r"(?:then )?(crown|top|branches) (?:tied up|bound|tied|wrapped) with (raffia)(?: for (?:the )?winter)?",
        r"\2 on \1",
    ),
)
_QUANTITY = (
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
_KEPT = ((r"(\d+ (?:days?|weeks?|nights?))", ""),)

_BY_ACT: Mapping[str, tuple[tuple[str, str], ...]] = {
    **dict.fromkeys(("repotted", "potted-on", "slipped", "lifted", "root-pruned"), _ROOTS),
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
    **dict.fromkeys(WIRING, _WIRE),
    "fed": _FEED,
    "treated": _TREAT,
    "treated-deadwood": _DEADWOOD,
    **dict.fromkeys(("watered", "soaked", "flushed", "misted"), _WATER),
    **dict.fromkeys(("moved", "planted-out"), _PLACE),
    **dict.fromkeys(("bought", "sold", "quoted", "agreed", "billed", "paid"), _MONEY),
    "measured": _MEASURED,
    "checked": _CHECKED,
    "staged": _STAGED,
    **dict.fromkeys(("sown", "struck", "germinated", "rooted"), _QUANTITY),
    "shown": _SHOWN,
    "grafted": _GRAFT,
    **dict.fromkeys(("bloomed", "fruited"), _BLOOM),
    "wrapped": _WRAP,
}
_COMPILED: dict[str, tuple[tuple[re.Pattern[str], str], ...]] = {}


def said_as(act: str, piece: str) -> Iterator[str]:
    """The ways the table would say a piece, the likeliest first; whoever asks reads each.

    >>> list(said_as("repotted", "30 % root off"))[0]
    'off 30 %'
    """
    compiled = _COMPILED.get(act)
    if compiled is None:
        compiled = _COMPILED[act] = tuple(
            (re.compile(pattern, re.IGNORECASE), written)
            for pattern, written in _BY_ACT.get(act, ())
        )
    for pattern, written in compiled:
        found = pattern.fullmatch(piece)
        if found is not None:
            yield _filled(written, found)
    if act in WIRING:
        yield from wires_said(piece)


def _filled(written: str, found: re.Match[str]) -> str:
    """`\\1` is the group as written, `%1` a share in figures, `^1` a metal."""

    def group(sign: re.Match[str]) -> str:
        said = found[int(sign[2])] or ""
        if sign[1] == "%":
            return _FRACTIONS.get(said.casefold(), said)
        return said.capitalize() if sign[1] == "^" else said

    return " ".join(re.sub(r"([\\%^])(\d)", group, written).split())
