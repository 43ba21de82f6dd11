"""How a line says what was done to roots and pot."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "top-dressed", r"moss laid on", r"moss (?:put |laid |pressed )*on(?= |,|$)", details="moss"
    ),
    *rows(
        "repotted",
        r"(?=roots? (?:cut|trimmed|pruned|shortened)(?: back)?\b[^?]*,[^?]*(?:\b(?:same|own|new) (?:pot|box|tray)\b|@POT@))",
        r"(?=root ?ball (?:reduced|cut|pruned)[^?]*,[^?]*\b(?:same|own|new) (?:pot|box|tray)\b)",
    ),
    *rows("repotted", r"root[- ]?work (?:all )?done"),
    # A share that is off, and the pot that it stands in again.
    *rows(
        "repotted",
        r"(?=(?:\d/\d|\d+ %) (?:of (?:the )?)?(?:roots? )?off,[^?]*\b(?:own|same|old) (?:pot|box|tray)\b)",
        r"(?=bare[- ]?rooted,[^?]*@POT@)",
        noun=True,
    ),
    *rows(
        "slipped",
        r"slip[- ]?potted (?:it |her |him )?(?:in|into|to) (?:a )?(?:bigger|larger|deeper|new) (?:pot|one|box)",
        r"(?:only |just )(?:put |set )?in(?:to)? (?:a )?(?:bigger|larger|new) pot(?: set| put)?",
    ),
    *rows(
        "repotted",
        r"repot(?:ted)? (?:straight |at once )?(?:after|today|done)(?: that)?[:,]?",
        r"re-?potted",
        r"back in (?:its|the) (?:own |old )?pot",
    ),
    *rows(
        "repotted",
        r"(?=(?:in(?:to)? )?(?:its |the )?(?:own|same|old) (?:pot|box|tray)(?: back| again)?,"
        r"[^?]*(?:\b(?:\d/\d|third|half|quarter)|%|inch|cm|mm)"
        r" (?:roots? off\b|off (?:below|bottom|the (?:bottom|sides|roots)|sides|from below|(?:the )?roots?|all round)\b))",
        r"in(?:to)? (?=@POT@(?: all \d+)?,[^?]*(?:\d ?(?:L|l|qt|gal)\b|\btied\b|\bmix\b|\broots? |\boff (?:below|the)|\boff btm))",
        r"umgetopft|umtopfen|verpot(?:ten)?",
        noun=True,
    ),
    *rows("repotted", r"repot(?:ted)? (?:at last|finally|at long last)[:,]?", noun=True),
    # Which of the works of potting it was may stand nowhere.
    *rows(
        "repotted",
        r"(?=(?:out of|from) (?:the |its |a )?@POT@ (?:in|into|to) (?:the |a |its )?@POT@(?:$|,))",
        r"into (?=[^,.;]*\b(?:pot|drum|oval|rect|rectangle|round|tray|box|slab|basket|pan|bowl)\b)",
        r"in (?=(?:the )?(?:drum|oval|new pot|grey oval|blue|brown|cream|training box)\b)",
        noun=True,
    ),
    *rows(
        "slipped",
        r"slip[- ]?potted(?: on)?(?: to)?",
        r"potted on whole",
        r"up a size",
        r"(?=only in (?:a )?new pot)",
    ),
    *rows(
        "top-dressed",
        r"(?:fresh|new) sphagnum(?: on| laid| on top)?(?=$|,)",
        details="moss",
        noun=True,
    ),
    *rows("untied", r"(?:anchor )?ties (?:off|out|cut|removed)", r"tie[- ]?wires? (?:off|out|cut)"),
    *rows("tied", r"tied in(?=[ ,])", r"ties (?:in|on)"),
    *rows(
        "top-dressed",
        r"top (?:inch|cm|layer|centimet(?:re|er)|bit|\d (?:cm|inch)|1/2 inch) (?:of (?:soil|mix) )?(?:swapped|changed|replaced|renewed|refreshed|exchanged)",
        r"top[- ]?dressed",
        r"moss(?: \w+)? (?:on|laid|on top)",
        r"mossed(?: over)?",
        r"sphag(?:num)? (?:on top|on|top)",
    ),
    *rows("opened", r"surface (?:raked|opened|scratched)", r"raked(?: the)? surface"),
    *rows("lifted", r"lifted out", r"dug up", r"out of the ground"),
)
