"""What a clause with no act word may have meant, by how the bench says it: asked, and never acted on."""

from __future__ import annotations

_PART = r"(?:[LR]\d{1,2}|left \d|right \d|top|apex|leader|back|front|trunk)"
_METAL = r"(?:al|alu|cu|copper)"
# The first stand first in the message.
SAID: tuple[tuple[str, tuple[str, ...]], ...] = (
    # Whose work it was another day.
    (r"^put (?:back|off) (?:a|an|another|\d|till?|until)\b", ("put-off", "skipped")),
    (rf"^{_PART} (?:not (?:today|yet|now)|another day|can wait)\b", ("put-off", "skipped")),
    (
        r"^(?:no|not) (?:uekae|repot\w*|harigane|wir\w+|mekiri|feed|pinch\w*|prun\w*)\b",
        ("put-off", "skipped"),
    ),
    (r"\bmeant to \w+\b", ("put-off", "planned")),
    # What came and went.
    (
        r"^(?:gone|went|off|left)(?: (?:back|home|away))?(?:[,. ]+(?:with|w)?)\b",
        ("returned", "moved"),
    ),
    (
        r"^(?:gone|went) back\b|\b(?:fetched|collected|picked up|took (?:it|her|him)) ?(?:it|her|him)?\b",
        ("returned",),
    ),
    (r"^home\b", ("received", "returned")),
    (
        r"^(?:in|back|here|van)(?: (?:again|early|late|at last))?(?: for \w+ \w+)?(?=[,.!]|$)",
        ("received", "moved", "returned"),
    ),
    (r"\b(?:dropped|brought) (?:it|her|him|them) (?:off|in|back|over|round)\b", ("received",)),
    # What was bought and sold.
    (
        r"^\d+ (?:fleece|bags?|jugs?|rolls?|boxes|bottles?|tins?|packs?|reels?|sacks?|pots?|cans?)\b.*\d",
        ("bought",),
    ),
    (
        r"^(?:akadama|kanuma|pumice|lava|kiryu|bark|grit|fleece|wire|paste|soap|oil|tags|labels)\b.*\b(?:bags?|rolls?|ea|each|cash|invoiced)\b",
        ("bought",),
    ),
    (
        r"\b(?:shaken|shook|hands) on (?:it)?|\bdep(?:osit)?\b|^\w+ (?:bought|takes|took) it\b",
        ("sold", "agreed"),
    ),
    (
        r"^\w+(?: \w+)?: (?:board|\d+)\b|\b\d+ ?(?:/ ?mo|a month|per month)\b|\bok (?:for|with|on)\b.*\d|\d.*\bok for\b",
        ("agreed", "quoted"),
    ),
    (r"\b(?:mailed|sent|handed (?:me|over)|transferred) \d", ("paid",)),
    # Roots, pots, cuttings.
    (
        r"\b(?:spade|trench\w*|lifting bar) (?:straight )?(?:down|round|all|cut)?\b",
        ("root-pruned", "lifted"),
    ),
    (
        r"^(?:about |abt )?\d+ (?:in|stuck|put in|restuck|taken)\b(?! long)|\bre-?stuck\b|\bheels? on\b",
        ("struck",),
    ),
    (
        r"^(?:tugged|pulled at)\b|\b\d+ of \d+ (?:hold|held|took|fast|rooted|alive)\b",
        ("rooted", "checked", "counted"),
    ),
    (
        r"\b\d+ (?:died|broke|rotted|damped off|eaten|mush)\b.*\b(?:so|now|left)\b",
        ("counted", "lost"),
    ),
    (
        r"\b(?:bag|ring|lip|toriki)\b.*\bhormone\b|\bhormone\b.*\b(?:bag|ring|lip)\b|\b(?:bag|wrap) (?:undone|opened|re-?done)\b|^undid\b",
        ("layered", "opened", "checked"),
    ),
    (
        r"\b(?:combed|teased|raked|untangled)\b.*\b(?:out|below|pot|mix|round)\b|\btap ?root\b|\brootball\b",
        ("repotted",),
    ),
    (
        r"\b(?:own|same|new|brown|blue|grey|green) (?:pot|oval|rect|drum|box|tray)\b.*\b(?:mix|native|tied|ties|kanuma|akadama)\b",
        ("repotted",),
    ),
    # Branches and wood.
    (
        rf"^{_PART}(?: ?[+&,] ?{_PART})* (?:re)?done\b|\b{_METAL} ?\d(?!.*\b(?:kg|eur|euros?|rolls?|reels?|from)\b)|\d ?(?:mm )?{_METAL}\b(?!.*\b(?:kg|eur|euros?|rolls?|reels?|from)\b)|^(?:rest of )?(?:the )?(?:harigane|wiring)\b",
        ("wired",),
    ),
    (r"\bwires? (?:fr|from|at|on) \w+ off\b|\b(?:al|alu|cu) off\b", ("unwired",)),
    (r"\b(?:nipp|nip|pinch|thumb)\w*\b", ("pinched", "rubbed")),
    (
        r"\b(?:mid cut|stubs?\b.*\b(?:up|top|high|low)|candles? (?:gone|off|cut)|(?:strong|weak) ones?, \d)",
        ("decandled", "pinched"),
    ),
    (
        r"\bcandles? (?:to|per|at|on) (?:a|each|every)\b|\bper (?:tip|fork|spur|cluster|whorl)\b|\bdown to \d\b",
        ("thinned", "pinched", "disbudded"),
    ),
    (
        r"\b(?:gouged?|chisel\w*|die grinder|dremel|burr|hollowed|punky|made (?:in)?to a jin|made a jin|shari)\b",
        ("carved",),
    ),
    (r"\bhardener\b", ("treated-deadwood", "carved")),
    (r"\b(?:haws|berries|crabs)\b.*\b(?:off|out|picked|nipped|pulled)\b", ("thinned", "plucked")),
    (r"\bneedles?\b.*\b(?:off|out|raked|swept|picked|shaken)\b", ("plucked", "cleaned")),
    (
        r"\b(?:lvs|leaves|leafs)\b.*\b(?:stalk|petiole|cut|off|pulled|stripped)\b",
        ("defoliated", "plucked", "cleaned"),
    ),
    (
        r"\b(?:low|top|back|front|big|heavy|second|first) (?:[LR]|left|right|one|branch|limb) (?:off|gone|out)\b|\bcrossers?\b",
        ("pruned",),
    ),
    (r"\bstub\b.*\b(?:sawn|cut|flat|flush|pasted)\b", ("pruned", "sealed")),
    (
        r"\b(?:loose|wobbl\w*|rocks|rocking)\b.*\b(?:string|tie[ds]?|wire|cu|raffia|stake)",
        ("checked", "tied", "guyed"),
    ),
    (r"\b(?:string|raffia) (?:round|to|on)\b", ("tied", "guyed", "wrapped")),
    # What keeps it.
    (
        r"^(?:all|pines|maples|junis|everything|the lot|tropicals)(?: \w+)? (?:in|out|under|back)\b",
        ("moved", "protected"),
    ),
    (
        r"^under (?:the|cover|fleece|a)\b|\b(?:burlap|hessian|fleece|straw|bubble)\b",
        ("protected", "moved"),
    ),
    (
        r"\b\d+ (?:squashed|squished|picked|killed|drowned)\b|\b(?:grease|tape) (?:tape|band|round)\b",
        ("treated", "checked"),
    ),
    (
        r"^to (?:the )?[A-Z]\w+.*\b(?:do|show|exhibition|club|meet)\b|\b[1-3](?:st|nd|rd) (?:in )?(?:conifers|class|shohin|deciduous|best)\b|\bshow prep\b",
        ("shown", "staged", "moved"),
    ),
    (r"\bscrubb?\w*\b|\b(?:moss|algae|green) (?:off|up|scraped|lifted)\b", ("cleaned",)),
    (r"^seeds? (?:off|picked|gathered|taken)\b", ("collected", "sown")),
)
