"""How a line says a work in the fewest words: the part and what became of it, a count, a cover."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.done_to import BRANCH
from backbud_grammar.scribbles.openings.row import ActOpening, rows

_ONLY = r"(?=$|,)"
_TOOLS = r"(?: with (?:the )?(?:cutters?|wire cutters?|snips|pliers|nippers|side cutters))?"
_SIDE = r"(?:(?:the )?(?:(?:low|lower|lowest|high|upper|first|second|third|back|front) )*(?:left|right)(?: \d{1,2})?|(?:the )?(?:back|front) branch)"

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "unwired",
        rf"(?:all (?:of )?)(?:the )?(?:wires?|harigane)(?: (?:is|was|now))* (?:cut|clipped|snipped|taken) (?:off|away|out){_TOOLS}{_ONLY}",
        rf"(?P<on>{BRANCH}) unwound{_ONLY}",
    ),
    *rows(
        "guyed",
        rf"guy (?:on )?(?P<on>{BRANCH}) (?=to (?:the )?(?:pot(?: rim)?|rim|box|root|nail|screw|foot|jin){_ONLY})",
        rf"(?P<on>{BRANCH}) (?:pulled |brought |drawn )?down (?:with|by) (?:a )?guy(?: wire)?(?=$|,| \d)",
        rf"(?P<on>{BRANCH}) (?:pulled |brought |drawn )?down (?=to (?:the )?(?:pot(?: rim)?|rim|box) (?:with|by) (?:a )?guy(?: wire)?{_ONLY})",
    ),
    *rows(
        "bent",
        rf"(?P<on>{BRANCH}|(?:the )?trunk) (?:jacked|levered)(?: (?:over|down|back|round))?(?= \d[\d.,/]* (?:mm|cm|inch|degrees){_ONLY})",
    ),
    *rows(
        "pruned",
        rf"(?={_SIDE} (?:off|out) (?:flush|at (?:the )?(?:collar|branch collar|trunk)){_ONLY})",
        r"shortened (?=(?:back )?by (?:half|a third|a quarter|\d/\d|\d+ %)(?:$|,| all))",
    ),
    *rows(
        "pruned",
        rf"(?:root|basal|base) suckers (?:all )?(?:off|out|removed|pulled){_ONLY}",
        details="suckers",
    ),
    *rows(
        "pruned",
        r"(?:(?:\d|two|three|all|the) )*(?:long|longest) (?:ones|whips|shoots) (?:cut )?back (?=to (?:\d|one|two) (?:eyes?|buds?|nodes?)(?:$|,))",
        details="long shoots",
    ),
    *rows(
        "trimmed",
        rf"(?:(?:taken|brought|cut|clipped|trimmed) )?back (?:in )?to (?:the )?(?:outline|silhouette|shape){_ONLY}",
        details="to outline",
    ),
    *rows(
        "trimmed",
        r"(?:soft|new|long|stray|green) tips (?:cut|clipped|snipped)(?: (?:off|back))?(?=$|,| to )",
        r"hasami (?:round|all round|over|all over)(?=$|,)",
    ),
    *rows("trimmed", r"hedge trim(?=$|,)", noun=True),
    *(
        row
        for figure, which in (("1", "first"), ("2", "second"), ("3", "third"))
        for act, said in (("pinched", "pinch"), ("trimmed", "trim|clip"))
        for row in rows(
            act, rf"(?:{said}) (?:# ?|no\.? ?|nr\.? ?)?{figure}{_ONLY}", details=f"{which} round"
        )
    ),
    *rows("decandled", r"(?:all )?candles (?:cut |back )?to (?=stubs \d)"),
    *rows(
        "disbudded",
        r"flower ?buds to (?:1|one) (?:per|a|each) (?:shoot|tip|twig)(?=$|,)",
        details="to one per shoot",
    ),
    *rows(
        "treated-deadwood",
        r"(?:lime[- ]?sul(?:ph|f)ur|ls) (?:2 ?[x×]|[x×] ?2|twice|two coats|2 coats) on (?:(?:all|the|both) )*(?:jins?|shari|deadwood)(?=$|,)",
        details="lime sulphur, two coats",
    ),
    *rows(
        "treated-deadwood",
        r"(?:all )?(?:the )?(?:jins?|shari|deadwood) (?:sealed|treated|coated|done) with (?:wood )?hardener(?=$|,)",
        details="wood hardener",
    ),
    *rows(
        "potted-on",
        r"(?=\d+ (?:to|into) \d[\d.,/]*(?: \d/\d)? (?:cm|inch) (?:pots|liners|cans)(?:$|,))",
    ),
    *rows("top-dressed", r"sphagnum chopped(?:,| and)? on (?:the )?top(?=$|,)", details="sphagnum"),
    *rows(
        "top-dressed",
        r"moss from (?:the )?(?:roof|path|garden|wall|lawn)(?: \w+)? (?:on|laid|put on)(?=$|,)",
        details="moss",
    ),
    *rows("fed", r"(?:okigoe|tama|cakes|rapecakes?|pellets) (?=\d+ (?:new|fresh|on)(?:$|,))"),
    *rows("turned", r"(?:a )?1/4 turn(?=$|,)", details="quarter turn"),
    *rows("turned", r"(?:a )?1/2 turn(?=$|,)", details="half turn"),
    *rows("moved", r"out of (?:the )?(?P<from>@PLACE@),? (?:and )?on to (?:the )?(?=@PLACE@)"),
    *rows(
        "protected",
        r"fleece (?:[x×] ?[23]|[23] ?[x×])(?=$|,)",
        r"(?:2|two|3|three) layers of fleece(?=$|,)",
        details="fleece",
    ),
    *rows("protected", r"(?:pots?|box|tray) in bubble ?wrap(?=$|,)", details="bubble wrap"),
    *rows("protected", r"(?:box|boxes|trays?) in straw(?=$|,)", details="pot in straw"),
    *rows(
        "protected", r"(?:mulch|bark|straw) on (?:the )?(?:roots|root zone)(?=$|,)", details="mulch"
    ),
    *rows(
        "cleaned",
        r"(?:dead|old|brown|fallen|dry) leaves (?:picked|raked|combed|brushed|shaken) out of (?:the )?(?:moss|crown|forks|branches|pot|tree|pads)(?=$|,)",
        details="dead leaves",
    ),
    *rows(
        "cleaned",
        r"(?:dead|old|brown|fallen|dry) needles (?:picked|raked|combed|brushed|shaken) out of (?:the )?(?:moss|crown|forks|branches|pot|tree|pads)(?=$|,)",
        details="old needles",
    ),
    *rows(
        "checked",
        r"(?:air[- ]?)?(?:layer|toriki): ?(?=(?:no |white |new |some )?(?:roots|callus)\b|rooted|nothing yet)",
        details="layer",
    ),
    *rows(
        "quoted",
        r"est\.?:? (?=\d+(?:[.,]\d\d)?(?: [A-Z]{3})?(?: for)? (?:repot|wir|restyl|styl|prun|trim|pot\b|root))",
    ),
)
