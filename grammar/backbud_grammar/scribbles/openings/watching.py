"""How a line says what was looked at, measured or seen."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

OPENINGS: tuple[ActOpening, ...] = (
    *rows("measured", r"(?=\d[\d.,]* (?:cm|mm|inch) round(?: at (?:the )?(?:soil|base))?(?:$|,))"),
    *rows(
        "fruited",
        r"(?:apples|fruits?|figs|crabs) (?=\d+$)",
        r"(?=\d+ (?:apples|fruits?|figs|crabs) (?:set|ripe|ripening|on it)$)",
    ),
    *rows(
        "bloomed",
        r"flowers? (?:begin|beginning|started|start|opening)$",
        r"(?:now |all )?in (?:flower|bloom)$",
        r"(?:now |still )?(?:blooming|flowering)(?=\s*$|,)",
        r"(?:first|1st) (?=\d+ (?:flowers?|blooms?) (?:open|out)\b)",
    ),
    *rows(
        "checked",
        r"(?:the )?(?:air ?)?layer (?:opened(?: up)?|unwrapped|had a look)(?=$|,)",
        details="layer",
    ),
    *rows(
        "checked",
        r"roots? (?:in|at) (?:the )?(?:air ?)?layer(?= (?:seen|showing|visible)(?:$|,))",
        details="layer",
    ),
    *rows("checked", r"roots looked(?: at| over)?(?=$|,)", details="roots"),
    *rows("checked", r"looked (?:over|at)", r"peeked", r"inspected", r"had a look(?: at)?"),
    *rows(
        "checked",
        r"(?=(?:wire|ties|guys?|graft|layer|roots) (?:all )?(?:not biting|biting|fine|loose|ok|good)$)",
    ),
    *rows(
        "checked",
        r"(?=(?:wire|ties|guys?|graft|layer) (?:is |are |still |all )*(?:ok|okay|fine|good)(?: still)?(?:$|,))",
        r"(?=(?:thread |approach |side |cleft )?grafts? (?:has |have |is |are |all )*(?:taken|took|not taken|swelling|callus(?:ed|ing)|green|alive|dead|healed|knitted)(?: (?:well|nicely|on both sides|both sides))?(?:$|,))",
    ),
    *rows(
        "measured",
        r"(?=(?:EC|pH|dH)\s?\d)",
        r"(?=run[- ]?off EC)",
        r"(?=weight \d[\d.,]* (?:kg|g)\b)",
    ),
    *rows(
        "checked",
        r"(?:kluit|root ?ball|ball) lifted(?: out)?(?: (?:on )?(?:\d|one) sides?| a (?:bit|little))? to (?:look|see|check)(?=$|,)",
        details="roots",
    ),
    *rows(
        "measured",
        r"(?=(?:candles?|new needles|needles|shoots|internodes|trunk|nebari|height"
        r"|girth) (?:is |are |now |abt |about |ca\.? )*\d[\d./, ]*\s?(?:mm|cm|m|inch|foot|top|up|avg)\b)",
    ),
    *rows(
        "staged",
        r"(?:the )?buds? (?:are |have |have just |just )?(?:begin|begun|began|beginning|start|started|starting|are starting)(?:ning)? (?:to swell|swelling)",
        r"(?:the )?buds? (?:are|is) (?:all )?(?:swelling|swollen|moving|fat)",
        details="01",
    ),
    *rows(
        "staged",
        r"(?:the )?leaves (?:are )?(?:just )?(?:starting|beginning|beginning) to open",
        r"first leaf out",
        details="10",
    ),
    *rows(
        "staged",
        r"(?:the )?(?:leaves|leafs) (?:are|have) (?:all )?(?:down|fallen|off)(?: now)?(?=$)",
        details="97",
    ),
    *rows("staged", r"(?:all )?flowers? (?:are )?(?:finished|over|done)", details="69"),
    *rows(
        "staged",
        r"in full (?:bloom|flower|blossom)(?: today| now)?",
        r"flowers? (?:all )?(?:open full|fully open|full open)",
        details="65",
    ),
    *rows(
        "staged", r"buds? (?:swelling|swollen|moving|fat|on the move)", r"bud swell", details="01"
    ),
    *rows(
        "staged",
        r"bud ?burst",
        r"buds? (?:breaking|bursting|opening|broken|burst)",
        r"green tips?",
        r"needles breaking",
        details="07",
    ),
    *rows(
        "staged",
        r"first leaves(?: out)?",
        r"(?:in leaf|leafed out|leaf(?:ing)? out"
        r"|leaves (?:just )?(?:opening|unfolding|out))",
        r"green all over",
        r"leaf[- ]?out",
        details="10",
    ),
    *rows(
        "staged",
        r"first (?:flower|bloom|blossom)s?(?: open| out)?",
        r"flowers starting",
        details="60",
    ),
    *rows("staged", r"(?:full|in full) (?:flower|bloom|blossom)", details="65"),
    *rows(
        "staged",
        r"petals? (?:down|dropping|falling|fall|off|all down)",
        r"(?:flowers?|bloom|blossom)(?:ing)? (?:over|done|finished)",
        r"(?:bloom|blossom)'?s (?:done|over|finished)",
        details="69",
    ),
    *rows(
        "staged",
        r"leaf[- ]?fall(?: begun| started| begins)?",
        r"leaves (?:falling|dropping)",
        r"dropping leaves",
        details="93",
    ),
    *rows(
        "staged",
        r"(?:all )?leaves (?:all )?(?:down|fallen)",
        r"bare(?: now)?",
        "dormant",
        details="97",
    ),
    *rows("bloomed", r"flowers (?:open|out) (?=\d+$)"),
    *rows(
        "photographed",
        r"(?:took|taken|made) (?:some |a few |a )?(?:pix|pics?|photos?|photographs?|pictures?)(?: of(?: the)?(?= (?:front|back|left|right|tree|apex|nebari|roots|flowers|crown)\b)|(?=$|,))",
    ),
    *rows(
        "shown",
        r"entered(?: it)? (?:in|into|at)(?= (?:the |a )?(?:[^\W\d]+ ){0,3}(?:show|exhibition|competition)\b)",
        r"(?:took|went|taken) (?:it )?to (?:the )?(?=\w+ show)",
    ),
    *rows("photographed", r"photo(?:s|'d|ed)?(?: taken)?(?= \S)"),
    *rows(
        "shown",
        r"(?:club|spring|autumn|local|winter|area) show(?:ing)?",
        r"to show",
        r"dressed for",
        r"at the show",
        r"off to (?:the )?show",
        r"on show",
        r"showed(?: at)?",
    ),
)
