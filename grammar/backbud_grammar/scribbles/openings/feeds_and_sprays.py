"""How a line says what was fed, watered or sprayed, by what it was and how much."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import FEED, PEST, ActOpening, rows

_ONLY = r"(?=$|,)"
_RATE = r"\d[\d.,]* (?:g|mL)/L"
# What is fed under its own name, or is short of what a leaf needs.
_FED = (
    r"(?:(?:fe|iron)[- ]?chelate|chelated iron|iron|epsom(?: salts?)?|magnesium(?: sulphate)?|seaweed|kelp"
    r"|fish emulsion|potash|humic acid|tomato feed|rose feed|azalea feed|ericaceous feed|manganese|trace elements|(?:cactus|orchid|bonsai|pine|conifer) feed)"
)
_NPK = r"\d{1,2}-\d{1,2}-\d{1,2}"

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "fed",
        rf"(?={_FED},? (?:at )?{_RATE}(?:$|,| once(?:$|,)| (?:on|over|in|to) (?:the )?(?:lea(?:f|ves)|foliage|needles|soil)\b| (?:watered|poured|drenched) (?:in|on)\b))",
        rf"(?={_RATE} (?:of )?(?:{_FED}|{_NPK})(?:$|,))",
        rf"(?=\d{{1,2}}(?:[.,]\d+)? g (?:of )?(?:\w+ )?(?:{FEED}|bone ?meal|rapeseed meal|pellets)(?:$|,))",
        r"(?:rape|feed|organic) pellets(?=,? (?:\d+(?!\d| ?(?:kg|L|left)\b)|(?:new|on|changed|renewed)(?:$|,)|round (?:the )?(?:edge|rim)\b))",
        rf"(?=(?:half|1/2) (?:dose |strength )?(?:of )?{_NPK}(?:$|,| \d| on (?:\w+ )?soil\b))",
    ),
    *rows(
        "watered",
        r"gave (?=\d[\d.,]* (?:L|mL|cans?)(?: (?:of )?(?:rain|tap)(?: ?water)?)?(?: each)?(?:$|,))",
        r"(?=\d[\d.,]* (?:L|mL|cans?) (?:of )?(?:rain|tap) ?water(?: (?:each|given))?(?:$|,))",
    ),
    *rows(
        "misted",
        r"(?:sprayed|wetted) (?:the )?(?:leaves|foliage|crown|needles) with (?:rain|rain ?water|water)(?=$|,)",
        instead=True,
    ),
    *rows(
        "soaked",
        r"(?:dipped|dunked|dived) (?:the )?(?:whole )?pot(?: (?:in|into) (?:rain ?water|water))?(?= (?:for )?\d|$|,)",
        r"(?:the )?(?:whole )?pot (?:dipped|dunked|soaked|plunged)(?= (?:for )?\d| overnight)",
        r"(?:dipped|dunked|dived) (?:the )?(?:whole )?pot(?= in rain (?:for )?\d+ min)",
        r"in (?:the |a )?(?:tub|bucket|basin)(?= \d+ min(?:$|,))",
    ),
    *rows(
        "flushed",
        r"(?:washed|rinsed|flushed) through(?: with)?(?=$|,| \d| rain)",
    ),
    *rows(
        "treated",
        rf"(?:(?:small |big |the )*{PEST} hosed(?: off| down)?|hosed off)(?: from (?:below|underneath|above|all sides))+{_ONLY}",
        details="water jet",
    ),
    *rows(
        "treated",
        r"(?:washed|sprayed|rinsed) (?:down |off )?with (?:the )?hose(?=$|,| \d)",
        details="water jet",
    ),
    *rows(
        "treated",
        r"(?=(?:cotton bud|q-?tips?|swab) (?:with |and |\+ )?alcohol(?:$|,))",
        r"brushed (?:off )?(?=with (?:soapy? water|soap|alcohol)(?:$|,))",
        r"(?=cu \d[\d.,]* (?:g|mL)/L(?:$|,))",
        r"(?=nematodes in \d[\d.,]* L(?:$|,))",
        r"(?=slug pellets,? \d{1,2}(?:[.,]\d+)? g(?:$|,))",
        r"(?=(?:blue|yellow|sticky|pheromone) (?:sticky )?traps?(?: (?:up|hung|out|set|put up|hung up))(?:$|,))",
        r"(?=(?:rubbing )?alcohol \d+ % (?:on|dabbed|brushed)\b)",
        r"(?=(?:brush|toothbrush|cotton bud|thumb) ?(?:\+|&|and) ?(?:rubbing )?alcohol(?: \d+ %)?(?:$|,))",
        r"(?=(?:(?:wool|plant|leaf) )?lice (?:squashed|rubbed off|wiped off|picked off))",
    ),
    *rows(
        "cleaned",
        r"fallen leaves (?:all )?(?:away|cleared away|binned)(?=$|,)",
        details="fallen leaves",
    ),
    *rows("treated-deadwood", r"(?:the )?(?P<on>jins?|shari|deadwood) with (?=lime sulphur)"),
    *rows(
        "released",
        r"(?:back |out )(?:from|of) (?:isolation|quarantine)(?=$|,)",
    ),
    *rows("checked", rf"looked (?=for {PEST}(?:$|,))"),
)
