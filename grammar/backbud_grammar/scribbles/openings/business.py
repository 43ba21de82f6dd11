"""How a line says work for others: prices, yes, bills, hours."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

# A sum of two figures and more; fewer may be a count.
_SUM = r"\d[\d.,]*\d(?: [A-Z]{3})?"
_HOW = (
    r"(?:(?:in )?cash|by (?:cheque|check|card|bank|transfer|bank transfer)|cheque|chq|chk|ck"
    r"|check(?= \d{3}|$|,)|bank transfer)"
)

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "paid",
        r"(?:received|got|had) (?=\d+(?:[.,]\d\d)?(?: [A-Z]{3})? (?:from|off) (?:@PERSON@|[A-Z]))",
        instead=True,
    ),
    *rows(
        "worked",
        r"(?=\d[\d.,/ ]* (?:h|min)(?: \d\d)? (?:on|with) (?:this one|this|it|her|him)(?:$|,))",
        r"(?:took|spent)(?: me| us)? (?=(?:about )?\d[\d.,/ ]* (?:h|min)(?: \d\d)?$)",
    ),
    *rows(
        "worked",
        r"(?=\d[\d.,/ ]* (?:h|min)(?: \d\d)? (?:on |of )?(?:wiring|repotting|pruning|trimming|pinching|decandling|defoliating|thinning|weeding"
        r"|watering|feeding|spraying|carving|cleaning|styling|bending|grafting|layering|unwiring|needle plucking|needle work|root work)(?:$|,))",
    ),
    *rows("worked", r"(?=\d[\d.,/ ]* (?:h|min)(?: \d\d)? (?:by |with )?@PERSON@$)"),
    *rows("paid", r"(?=\d+(?:[.,]\d\d)? (?:[A-Z]{3} )?(?:paid|received)\b)"),
    *rows(
        "quoted",
        r"(?:quoted|told|offered) (?P<to>@PERSON@)(?=,? \d)",
        r"told [A-Z]\w+(?= \d)",
        r"said(?= \d+)",
        r"quote(?:d)?[: ](?=\d)",
        r"(?:price|estimate)[: ](?=\d)",
    ),
    *rows(
        "agreed",
        r"(?:(?P<with>@PERSON@)|(?:Mrs?|Ms|Dr|Prof)\.? [^\W\d]+|he|she|they|(?:the )?(?:customer|client|owner))"
        r" (?:says? (?:yes|ok|go ahead)"
        r"|(?:approves|approved|accepts|accepted)(?: (?:the )?(?:quote|price|estimate)(?=$|,)|(?= \d)))",
        r"(?:ok'?d|okayed|approved) by (?P<with>@PERSON@)",
        r"(?P<with>@PERSON@) (?:ok'?d|okayed|agreed|is ok with|ok with|okay with) (?:to )?(?:the )?(?=\d)",
        r"(?P<with>@PERSON@) (?:(?:is )?(?:ok|okay)(?: with)?|says ok to|yes to) (?:the )?(?=\d)",
        r"ok'?d by",
        r"deal[:,]?(?= \d)",
        r"yes from (?=@PERSON@(?:$|,))",
    ),
    *rows(
        "billed",
        r"(?:billed|invoiced) (?P<to>@PERSON@)(?=,? \d)",
        r"(?:bill|inv|invoice)(?: (?:no\.? )?(?P<number>\d[\d-]*))?(?: sent)? to (?P<to>@PERSON@)(?=,? \d|$|,)",
        r"(?:inv|invoice|bill) (?:no\.? ?)?(?P<number>\d+-\d+)(?=$|,| sent)(?: sent)?",
        r"inv (?P<number>\d+)(?=, \d)",
        r"(?:bill|inv|invoice) (?:no\.? ?)?(?P<number>\d[\d-]*)(?: sent)?(?: to)? (?P<to>@PERSON@)(?=,? \d)",
        r"(?:bill|inv|invoice) sent",
        r"(?:bill|inv|invoice)(?= (?:\d|no|number))",
        r"(?:bill|invoice) (?=\d+(?:[.,]\d\d)?(?: [A-Z]{3})? sent(?:$|,))",
        r"(?:inv|invoice) (?P<number>\d[\d-]*) (?:to|sent)",
    ),
    # Money in the hand, with how it came: `140 cash`, `Dell ck 1430`.
    *rows(
        "paid",
        rf"(?P<by>@PERSON@)(?:'s)? (?={_SUM}, {_HOW}(?:$|,))",
        rf"(?P<by>@PERSON@)'s (?=(?:deposit|balance) {_SUM}(?: (?:in )?cash)?(?:$|,))",
    ),
    *rows(
        "paid",
        rf"(?:(?P<by>@PERSON@)(?:'s)? )?(?={_SUM} {_HOW}(?: in the [^\W\d]+)?(?:$|,))",
        rf"(?:(?P<by>@PERSON@)(?:'s)? )?(?={_HOW} (?:for )?{_SUM}(?:$|,))",
    ),
    *rows(
        "paid",
        r"(?P<by>@PERSON@) (?:has )?(?:paid|sent|settled)(?: up)?(?= (?:the )?\d| (?:cash|by) | in full(?:$|,))",
        r"(?:Mrs?|Ms|Dr)\.? [^\W\d]+ (?:paid|sent|settled)(?= (?:the )?\d)",
        r"(?:(?:he|she|they|customer|client|owner) )(?:paid|sent)(?= (?:the )?\d)",
        r"paid(?= (?:the )?\d)",
        r"(?=\d+ (?:dep|deposit) )",
        r"(?P<by>@PERSON@) paid (?:me |us )(?=\d)",
        r"paid up",
        r"settled(?=[ ,]\d)",
        r"money in",
    ),
    *rows(
        "worked",
        r"(?P<by>@PERSON@) (?:worked |did )?(?=\d[\d.,/ ]* (?:h|min)\b)",
        r"(?=\d[\d.,/ ]* (?:h|min)(?: \d\d)?(?: (?:two|three|2|3) days)?$)",
    ),
    *rows("ready", r"ready to (?:go|collect)", r"done,? can go", r"for collection"),
)
