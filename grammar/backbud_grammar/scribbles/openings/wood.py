"""How a line says what was done to dead wood and wounds, and how it was grafted, layered, bent."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "treated-deadwood",
        r"(?:all )?(?:the )?(?:jins?|shari|deadwood)(?: (?:and|\+|&) (?:jins?|shari))? (?:bleached|painted|treated)(?=,? (?:with )?lime sulphur)",
    ),
    *rows("carved", r"jinned", r"new (?:jin|shari) (?:cut|made)", r"shari (?:cut|widened|opened)"),
    *rows(
        "treated-deadwood",
        r"(?:lime sulphur|ls)(?: on| to| all)*(?= (?:all |the )*(?:jins?|shari|deadwood|dead wood|trunk))",
        r"(?:jins?|shari|deadwood|dead wood)(?: (?:and|\+|&) (?:jins?|shari|deadwood))? "
        r"(?:limed|painted|whitened)",
        details="lime sulphur",
    ),
    *rows(
        "treated-deadwood",
        r"(?:lime sulphur|ls)(?= (?:neat|undiluted|\d coats?|1:1))",
        details="lime sulphur",
    ),
    *rows("bloomed", r"flowers (?=\d)", r"(?=\d+ flowers? (?:open|out)\b)"),
    *rows(
        "sealed",
        r"paste(?=,|$)",
        r"(?:cuts|wounds?) (?:sealed|pasted)",
        r"pasted(?= (?:on|the|all|both|every|\d|cuts?|wounds?|ends?|up|over)\b)",
        r"paste on(?= )",
        r"cut paste on",
    ),
    *rows(
        "grafted",
        r"(?:drill(?:ed)? (?:\+|and|&) )?(?=(?:thread|approach|side|cleft|veneer|bud|root|whip) grafts? ?(?:$|,|(?:low|left|right|upper|lower|on|through|top|back|front|mid|side|set|done|made)\b))",
    ),
    *rows("grafted", r"(?=\d+ scions? (?:on|set|in|made)(?:$|,))"),
    *rows("grafted", r"inarched", r"inarch(?=[ ,]+\S)", details="approach"),
    *rows("grafted", r"grafts? (?:set|made|done)", r"grafted on"),
    *rows("trimmed", r"tip[- ]?prun(?:ed?|ing)", noun=True),
    *rows("layered", r"(?:air[- ]?)?layer(?:ed)? (?:set|begun|started|on)", r"ring[- ]?barked"),
    *rows("layered", r"(?:air[- ]?)?layer (?:ringed|girdled|wrapped|made)(?=$|,)"),
    *rows("layered", r"air[- ]?layer", noun=True),
    *rows(
        "layered",
        r"layer (?:set |begun |made |put )?(?:on |started )?(?=(?:on|at|below|above|under) (?:the )?(?:left|right|first|second|apex|leader|trunk|top|low)\b[^.;,]*$)",
        noun=True,
    ),
    *rows(
        "separated",
        r"(?:layer|air[- ]?layer) (?:off|cut off|severed|sawn off)",
        "layer"
        r" separated",
    ),
    *rows("bent", r"bent down", r"trunk bent", r"lowered (?=left|right|branch|first)"),
    *rows("styled", r"first styling", r"restyled", r"set the lines"),
)
