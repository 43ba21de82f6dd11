"""How a line says that a tree came, was raised, or went."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "received",
        r"arrived(?: today)?",
        r"arr(?:iv)?\.?(?= from @PERSON@)",
        r"(?:came|back|is back)(?: in| back| over| here)*(?= from @PERSON@)",
        r"(?:here|over)(?: again)?(?= from @PERSON@)",
        r"came in(?: today)?",
        r"came back in",
        r"taken in",
        r"delivered by(?= [A-Z])",
        r"dropped off",
    ),
    *rows("received", r"(?:back )?in from(?! the)(?= [A-Z])", details="from"),
    *rows("received", r"in (?:from )?(?=@PERSON@(?:'s)?$)", details="from"),
    *rows(
        "returned",
        r"handed back",
        r"sent home(?=$|,| to @PERSON@)",
        r"(?:gone|went) home(?! with @PERSON@)",
        r"home again",
        r"(?:picked up|collected|fetched) by (?:its |the )?owner",
        r"collected(?=\s*$)",
        r"back to (?:its |the )?owner",
        r"home with (?:its |the )?owner",
    ),
    # Whose it is, the replay asks: an apprentice who picked it up took it nowhere.
    *rows(
        "returned",
        r"(?P<to>@PERSON@) (?:has |had )?(?:collected(?: it| her| him)?|picked (?:it |her |him )up|picked up|fetched(?: it| her| him)?|took (?:it|her|him)(?: home| away| with (?:him|her|them))?|came for (?:it|her|him))(?: today| this (?:morning|afternoon|evening)| (?:at |about )?\d{1,2}(?:[:.]\d\d)? ?(?:am|pm))?(?=$|,)",
        r"(?:(?:given|gone|went|brought|taken|driven) )?(?:back |home )+to (?P<to>@PERSON@)(?!['’])",
        r"(?:(?:gone|went|back) )?home (?:with|to) (?P<to>@PERSON@)(?!['’])",
        r"(?:collected|picked up|fetched|taken(?: home| away)?) by (?P<to>@PERSON@)(?!['’])",
        r"(?:handed (?:back|over)|given back|delivered(?: back)?) to (?P<to>@PERSON@)(?!['’])",
        r"(?:gone|home|away)[,.]? (?P<to>@PERSON@) (?:has |had )?(?:it|her|him|(?:collected|fetched|picked up|took)(?: it| her| him)?)(?=$|,)",
    ),
    *rows(
        "received",
        r"(?P<from>@PERSON@) (?:has |had )?(?:dropped (?:it|her|him) off|brought (?:it|her|him)(?: in| back| over| round| for|(?=$|,))|delivered (?:it|her|him))",
    ),
    *rows(
        "struck",
        r"(?:started|stuck|took|made|put in) (?=\d+ cuttings\b)",
    ),
    *rows(
        "struck",
        r"(?=\d+ cuttings (?:taken|struck|stuck|made|set|put in)(?:$|,))",
        r"(?=cuttings [x×] ?\d+(?: (?:taken|struck|stuck|made|set))?(?:$|,))",
        r"(?=\d+ cuttings off (?:the|it|her|him|apex|top)\b)",
        noun=True,
    ),
    *rows("germinated", r"(?=\d+ of \d+ [^\W\d]+ (?:up|germinated)(?:$|,))"),
    *rows(
        "died",
        r"(?:it['’]?s|it is|she['’]s|he['’]s) dead",
        r"dead(?! (?:needles?|lea(?:ves|f)|twigs?|branch(?:es)?|wood|shoots?|buds?|flowers?|moss|roots?|bits|tips?|growth|looking|slow|easy|ends?)\b)",
        r"is dead",
        r"has died",
        r"died off",
    ),
    *rows("bought", r"(?-i:bt)(?= )", r"bought off", r"bought in", r"ordered and paid"),
    *rows("sold", r"sold on", r"sold off"),
    *rows(
        "struck",
        r"took (?=\d+ cuttings)",
        r"cuttings? (?=\d+ pieces\b)",
        r"stuck (?=\d+)",
        r"cuttings taken",
        "heel cuttings",
    ),
    # With what makes them root, they are struck and not counted.
    *rows(
        "struck",
        r"cuttings:? (?=\d+,[^?]*\b(?:heels?|hormone|mist|under (?:a )?(?:bag|glass)|bottom heat|semi[- ]ripe|softwood|hardwood|kanuma|perlite|pumice|sand|vermiculite)\b)",
        r"(?=\d+ cuttings?,[^?]*\b(?:heels?|hormone|mist|under (?:a )?(?:bag|glass)|bottom heat|semi[- ]ripe|softwood|hardwood|kanuma|perlite|pumice|sand|vermiculite)\b)",
        noun=True,
    ),
    *rows("sown", r"seeds? (?:sown|in)", r"(?=\d+ seeds? sown)"),
    *rows("germinated", r"(?=\d+ of \d+ (?:up|germinated)(?:$|,))"),
    *rows("germinated", r"(?=\d+ (?:up|seeds? up|germinated|seedlings? up)\b)", "first seeds up"),
    *rows(
        "rooted",
        r"(?=\d+ (?:of \d+ )?(?:rooted|have roots|with roots))",
        r"(?=\d+ rooted (?:out )?of \d+)",
    ),
    *rows("potted-on", r"potted on", r"potted up", r"pricked out", r"moved on into"),
    # Where roots were cut it is a repotting.
    *rows("potted-on", r"potted(?=$|,| )"),
)
