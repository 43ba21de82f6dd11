"""Tells whether a clause only says what was seen, of the tree or of what stands round it."""

from __future__ import annotations

import re

from backbud_grammar.limiters import limiter_in

# What can be seen of a tree and its soil.
_THING = (
    r"(?:soil|ball|kluit|roots?|rootlets|lea(?:f|ves)|lvs|needles?|sheaths?|tips?|buds?|bark|moss|surface|crown"
    r"|nebari|shoots?|growth|callus|wounds?|flowers?|petals?|blooms?|fruits?|berries|haws|pods|candles?|sap|jins?"
    r"|shari|deadwood|foliage|colou?r|wood|twigs?|stems?|spots?|edges?|undersides?|scars?|marks?|cambium)"
)
_WHERE = (
    r"(?:(?:at|on|in|under|behind|round|near|inside|outside|along|over) (?:the |its )?(?:old |new |low |lower |upper"
    r" |top |inner |outer )*(?:edges?|tips?|top|apex|base|bottom|trunk|inside|outside|lea(?:f|ves)|lvs|needles"
    r"|wood|forks?|stems?|(?:leaf )?axils?|(?:trunk )?scars?|wounds?|bark|buds?|shoots|trunk|branches|surface|places|soil|shade|sun|(?:left|right|front|back|sunny|shady) side|(?:about |abt |ca )?\d+ (?:branches|leaves|shoots|tips|twigs|spots|places|needles|stems)|paper))"
)
_ADVERB = (
    r"(?:still|now|again|already|all|quite|very|a bit|a little|rather|bone|dust|so|too|mostly|just|also|well"
    r"|nicely|really|nearly all|going|getting|much)"
)
_IS = r"(?:is|are|was|were|looks?|looked|feels?|felt|smells?|smelt|smelled|went|gone|turned|turning|stays?|stayed|has been|have been)"
_STATE = (
    r"(?:sound|clean|fine|healthy|green|greener|fat|moving|opening|open|swelling|swollen|breaking|alive|dry"
    r"|strong|stronger|firm|red|yellow|yellowing|brown|browning|white|ok|okay|good|great|crisp|tight|fresh|pushing|wet|damp"
    r"|sodden|soft|hard|hardened|hardening|pale|full|swell|long|longer|short|shorter|black|sour|running|rising|bleeding"
    r"|thick|thin|thinner|slimy|mushy|silver|grey|gray|crowded|matted|circling|rootbound|potbound|limp|brittle|dusty"
    r"|waterlogged|yellowish|speckled|spotted|scorched|burnt|burned|curled|curling|cupped|sticky|shiny|dull|glossy"
    r"|closed|drooping|hanging|dropping|shrivelled|wrinkled|mouldy|moldy|nibbled|chewed|mottled|streaked|frosted"
    r"|frozen|warm|cold|cool|heavy|light|better|worse|weak|weaker|early|late|ahead|behind|poor|lovely|perfect"
    r"|bronze|purple|orange|pink|golden|gold|woody|corky|flaky|smooth|hot|bitten|gnawed|torn|wilted|wilting)"
)
_DRAINS = r"(?:drains?|drained|draining|holds?|stands?|sits?) (?:well|fine|slowly?|fast|badly|quick(?:ly)?|firm|ok)"
_TAIL = (
    r"(?:still|now|again|already|before|underneath|under|inside|outside|above|below|too|as well|everywhere|all over"
    r"|all round|in places|this (?:year|time|week|spring|autumn)|by now|at last|though|as dust|as a bone|on top|there|today"
    rf"|\w+ running|{_WHERE})"
)
_SIZE = (
    r"(?:(?:new|old|outer|inner|lower|upper|low|top|inside|outside|most|some|many|few|several|all|the|its|his|her|white|young|first"
    r"|small|big|fine|last|fallen|side|shaded) )*"
)
_SEEN = re.compile(
    rf"{_SIZE}{_THING}(?: {_WHERE})?(?: {_IS})?(?: {_ADVERB})*(?: {_STATE}| {_DRAINS})"
    rf"(?:(?: and| ?\+| ?&)(?: {_ADVERB})* {_STATE})*(?: {_TAIL})*"
    rf"|(?:{_ADVERB} )+{_STATE}(?: {_TAIL})*"
    rf"|{_DRAINS}(?: {_TAIL})*",
    re.IGNORECASE,
)
# What is no part of a tree, and so what was done to it is nothing done to the tree.
_ROUND_IT = re.compile(
    r"(?:the |her |his |its |our )?(?:\w+ )?(?:floor|bench|benches|saucers?|gravel|trays?|paths?|glass|vents?|doors?|fan|heater"
    r"|lamps?|hose|barrel|tank|labels?|tools?|scissors|shears|saw|knife|ladder|table|shelf|shelves|turntable|gutter|fence"
    r"|wall|radio|kettle|photos?|pictures?)"
    r"(?: (?:is|are|was|were|all|also|now|still|too))*"
    r" (?:damped|wetted|wet|swept|hosed|cleaned|washed|mended|fixed|oiled|sharpened|on|open|opened|shut|closed|full|empty"
    r"|filled|checked|broken|painted|lost|found|taken|sterilised|sterilized|disinfected|wiped)"
    r"(?: (?:down|up|as well|too|again|first|after|all day|all night|now|today|for \w+))*",
    re.IGNORECASE,
)
# Who was there, and did nothing to the tree by it.
_LENT_A_HAND = re.compile(
    r"(?!(?:tree|it|wire|tie|guy|fleece|net|cloth|raffia|pot)s? )"
    r"(?:(?-i:[A-Z])[^\W\d]+|he|she|they|(?:the )?(?:owner|client|neighbou?r|apprentice)) (?:helped|helping|passed tools|held(?: it| the branch| the tools| on)?|watched|looked on|made tea|stayed(?: late)?"
    r"|swept up|took (?:photos|pictures))(?: (?:a bit|too|as well|all day|again))?",
    re.IGNORECASE,
)
_FIGURES = re.compile(r"\d+")
_TOO = re.compile(r"\btoo (?=\w)", re.IGNORECASE)
_PEST = (
    r"(?:(?:apple|pear|plum|cherry|beech|elm|maple|oak|spruce|pine|larch|juniper|azalea|box|rose|birch|hornbeam|fig|olive|quince|hawthorn|lime) )?"
    r"(?:aphids?|scales?|mites?|spider mites?|red spider|greenfly|blackfly|whitefly|adelgids?|weevils?|grubs?|mealy ?bugs?"
    r"|leaf ?miners?|caterpillars?|sawfly|thrips|galls?|slugs?|snails?|mildew|rust|black ?spot|moths?|lace ?bugs?)"
)
_COUNTED_PEST = re.compile(
    rf"(?:(?:about|abt|ca\.?|only|some|small|a few|at least) )*(?:\d+(?:ish|\+| or so| odd)?(?: \w+)? )?{_PEST}(?: {_WHERE})*"
    rf"(?:,? (?:about |abt |ca )?\d+(?:ish|\+| or so| odd)?)?(?: (?:seen|found|counted|or so|odd))?(?: {_WHERE})*"
    r"|(?:about |abt |ca )?\d+(?:ish|\+| or so| odd)?(?: (?:seen|found|counted))",
    re.IGNORECASE,
)


def is_only_seen(piece: str) -> bool:
    """Whether a clause tells how something looks or stands, or what was done round the tree.

    >>> is_only_seen("soil dust dry before"), is_only_seen("soil off")
    (True, False)
    """
    if _FIGURES.search(piece) or "?" in piece:
        return False
    if _TOO.search(piece) and not piece.casefold().endswith(" before"):
        # `still too soft` may be why it was not done.
        return False
    if _SEEN.fullmatch(piece):
        return True
    return not limiter_in(piece) and bool(
        _ROUND_IT.fullmatch(piece) or _LENT_A_HAND.fullmatch(piece)
    )


def is_counted_pest(piece: str) -> bool:
    """Whether a clause tells which pest was found, and how many of it.

    >>> is_counted_pest("scale on stems"), is_counted_pest("12ish seen"), is_counted_pest("12")
    (True, True, False)
    """
    return "?" not in piece and _COUNTED_PEST.fullmatch(piece) is not None
