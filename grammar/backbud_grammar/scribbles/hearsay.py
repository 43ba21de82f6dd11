"""Tells whether a clause only says who says so, or where it is known from: `says the book`."""

from __future__ import annotations

from backbud_grammar.limiters import word_set
from backbud_grammar.ways_compiled import compiled_way

# What is written, drawn or shown somewhere, and so done there and nowhere else.
_WRITTEN = (
    r"(?:books?|labels?|tags?|stickers?|stamps?|magazines?|articles?|papers?|catalogues?|catalogs?|calendars?|almanacs?"
    r"|diary|diaries|journals?|notes?|notebooks?|cards?|lists?|leaflets?|manuals?|guides?|forums?"
    r"|internet|web|websites?|net|blogs?|apps?|screen|adverts?|ads?|listings?|videos?|films?|clips?"
    r"|photographs?|drawings?|sketch(?:es)?|diagrams?|plans?|schedules?|agendas?|brochures?|radio|tv"
    r"|news|instructions|recipes?|packets?|simulators?|theory|principle|spirit|name|memory|trial"
    r"|stories|story|issues?|editions?|chapters?|episodes?|lectures?|lessons?|example)"
)
_OF = (
    r"(?:(?:the|a|an|my|his|her|our|your|their|its|that|this|some|old|new|other|shopping|to-?do"
    r"|work|care|next|[^\W\d]+['’]s?) )*"
)
# Verbs of who reports it. What somebody wants or likes is why, and no report.
_REPORTS = (
    r"(?:says?|said|reads|claims?|claimed|swears?|swore|insists?|insisted|maintains?|reckons?"
    r"|reckoned|states|writes|wrote|recommends?|recommended|suggests?|has it|have it|tells? (?:me|us)"
    r"|told (?:me|us)|showed (?:me|us)|assures? (?:me|us)|assured (?:me|us)|promised|promises)"
)
_WITH_THANKS = r"(?!.*\b(?:thanks?|thank you|goodbye|hello|cheers)\b)"
_NOT_SO_MANY = (
    r"(?!(?:shoot|fork|tip|branch|tree|pad|side|pot|plant|litre|hour|day|week|month)s?\b)"
)
HEARSAY_PATTERNS = (
    # `so the label says`, `rumour has it`
    rf"(?:or |as |so )*(?:[^\W\d]+\.? ){{1,4}}{_REPORTS}(?: (?:so|it|that|here|there|this|me|us|to))*",
    # `as the packet advises`, `goes the saying`
    r"as (?:[^\W\d]+ ){1,3}(?:advises|advised|suggests|suggested|recommends|recommended|says|said|shows|tells|has it)"
    r"(?: (?:me|us|so|it))*|goes (?:the .+|without saying)|.*\bon the (?:packet|label|bottle|box|tin|bag)",
    r"(?:the )?[^\W\d]+ did(?: it| this| that| so)*|(?:found|came|arrived|turned out|sold as)(?: it)?"
    r" (?:so|that way|like (?:this|that)|[^\W\d]+ed)|as (?:agreed|planned|promised|booked|ordered) for .+"
    r"|.* (?:i|we) (?:think|guess|believe|suppose|reckon|hope|presume|assume|gather|hear)",
    r"(?:the |my |his |her )?(?:books?|labels?|calendar|catalogue|notes|lists?|diary|cards?|magazines?)",
    r"so the [^\W\d]+|(?:it )?turns out(?: so| that| to be| it)*",
    # `says the book`
    rf"(?:or |as |so )*(?:says|said|claims|claimed|swears|swore|insists|writes|reckons|promised)"
    rf"(?= |$){_WITH_THANKS}(?: [^\W\d]+){{0,3}}",
    # `I read`, `I was told so`
    r"(?:or |as |so |that )*(?:i|we|one)(?: (?:was|were|am|have|had|just|only|once|think)|['’]ve|['’]d|['’]m)*"
    r" (?:told|hears?|heard|read|gather|gathered|assumed?|suppose|supposed|presumed?|imagined?"
    r"|take it|dare ?say|understand|believed?|trust|fear|recall|recalled|guess|guessed|bet|expect"
    r"|wonder|doubt|saw|seem to)(?: (?:so|it|that|this|of it|about it|recall|remember))*"
    r"(?: (?:in|on|from|at|by) [^\d]+)?",
    r"(?:so |as )*(?:they|people|folks?|some|it|rumou?rs?|legend|hearsay|gossip|experts)(?: (?:is|was))? (?:say|says|goes|claim|tell|told|agree|has it)"
    r"(?: (?:so|it|that|here|there|me|us))*",
    # `according to Gil`, `per the label`, `as in the book`
    r"(?:or |so |just |all |much )*(?:as per|according(?:ly)? to|(?:as|like) in|going by|judging by"
    r"|to (?:judge|go) by|by the looks? of|by all accounts|cf|vide|quoting|citing|quote|source"
    rf"|(?:or so )?from hearsay|per {_NOT_SO_MANY}(?=[^\W\d]))\b.*",
    rf"see (?:above|below|overleaf|{_OF}(?:notes?|books?|labels?|lists?|calendar|diary|cards?|tags?|plans?))",
    # `on the label`, `in Gil's notes`
    rf"(?:as |so |just |only |so far |all |purely |at least |like )*(?:in|on|from|off|per) {_OF}{_WRITTEN}"
    r"(?: (?:only|alone|too|i read|i saw))*",
    r"(?:as|like|the way) (?:[^\W\d]+ ){1,3}(?:did|does|do|would|used to|should)(?: (?:it|theirs|hers|his))?",
    # `as shown`, `to the best of my knowledge`
    r"as (?:shown|told|seen(?: (?:on|in|at) .+)?|read|written|reported|described|above|below|far as .+)"
    r"|if (?:i|memory) .+|to (?:the best of )?my knowledge|from memory|(?:by|from) report|word of honour",
)
# One of these stands in all of them.
HEARSAY_WORDS = word_set(
    "says say said reads read claims claim claimed swears swear swore insists insist insisted "
    "maintains maintain reckons reckon reckoned states state writes write wrote recommends "
    "recommend recommended suggests suggest tells tell told showed shows assures assured promised "
    "promises has have advises advised goes hear hears heard gather gathered assume assumed "
    "suppose supposed presume presumed imagine imagined take dare understand believe believed "
    "trust fear recall recalled guess guessed bet expect wonder doubt saw seem agree as like in on "
    "from off per going judging judge look looks accounts cf vide quoting citing quote source "
    "hearsay see so turns did does do would used should found came arrived turned sold think hope "
    "if knowledge memory report honour book books label labels calendar catalogue notes list lists "
    "diary card cards magazine magazines"
)
_HEARSAY = "|".join(f"(?:{one})" for one in HEARSAY_PATTERNS)


def is_hearsay(clause: str) -> bool:
    """Whether all of a clause says who says so, or where it stands written.

    >>> is_hearsay("says the book"), is_hearsay("in Gil's notes"), is_hearsay("Gil says roots dry")
    (True, True, False)
    """
    return compiled_way(_HEARSAY).fullmatch(clause) is not None
