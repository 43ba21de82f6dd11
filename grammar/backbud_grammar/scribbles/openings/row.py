"""A row of the table of openings: a way to begin a line, and the act that it then is."""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct


class ActOpening(Struct, frozen=True):
    """A way to open a line: the act that it is, and the details that it says already.

    `pattern`: what fits there, up to the end of a word. `noun`: it names the work, and so may also
    be a wish. `language`: the one that it came with. `instead`: it stands before the act that is
    spelled like it, by what stands behind. `done_to`: it says what was done to a thing and by
    nobody, so that words which nobody read may say who, or that it is only wanted.
    """

    act: str
    details: str
    pattern: str
    noun: bool = False
    language: int = 1
    instead: bool = False
    done_to: bool = False


# An opening ends where a word does.
_ENDS = r"(?!(?<=[\w-])[\w-])[:.]?\s*"


def rows(
    act: str,
    *patterns: str,
    details: str = "",
    noun: bool = False,
    language: int = 1,
    instead: bool = False,
) -> list[ActOpening]:
    """A row for each way of saying an act."""
    return [ActOpening(act, details, one, noun, language, instead) for one in patterns]


def names_pest(text: str) -> bool:
    """Whether a pest or a disease is named somewhere in a text."""
    return _PEST_NAMED.search(text) is not None


@cache
def compiled_pattern(pattern: str) -> re.Pattern[str]:
    """A pattern of the tables; most journals need few of them."""
    return re.compile(rf"(?:{pattern}){_ENDS}", re.IGNORECASE)


# ------------------------------------------------------------------ what many openings hold

OFF = r"(?:off|removed|taken off|cut off|picked off|pulled off|stripped|away)"
OUT = r"(?:off|out|removed|pulled out|pulled off|pulled|plucked out|plucked off|plucked|picked off|picked out|picked|taken off|taken out)"
ALL = r"(?:(?:all|every|the|most|some|a few|last) )*"
ON = r"(?:on|back on|out|down|set|put on|given|renewed|fresh on)"
FEED = (
    r"(?:feed|fert|fertili[sz]er|pellets|cakes?|rapecakes?|rape cakes?|rape pellets|rapeseed cakes?"
    r"|okigoe|tama|tamahi|feed bags|tea bags of feed|feed balls|balls)"
)
SPENT = (
    r"(?:(?:spent|old|faded|dead|brown|finished|last) (?:flowers?|blooms?|blossoms?|heads|trusses)"
    r"|seed pods?|seedpods?|pods|seed heads?|ovaries)"
)
SPRAY = (
    r"(?:soft soap|insecticidal soap|soap(?: spray)?|neem(?: oil)?|horticultural oil|winter oil|oil"
    r" spray|oil|sulphur|wettable sulphur|copper(?: spray)?|mancozeb|captan|spinosad|abamectin|bt"
    r"|nematodes|predatory mites|fungicide|insecticide|acaricide|miticide|systemic|pyrethrum"
    r"|winter wash|garlic spray|meths|methylated spirits|surgical spirit|white oil|plant oil|rape(?:seed)? oil"
    r"|paraffin oil|potassium soap|horticultural soap|bordeaux mixture|bicarbonate|sulphur dust)"
)
PEST = (
    r"(?:(?:red |woolly |wooly |vine |box |larch |pine |black |green |root |two-spotted |powdery |downy )?(?:aphids?|aphis|greenfly|blackfly|whitefly|(?:spider )?mites?|red spider"
    r"|(?:scale|scale crawlers|scale insects)|mealy ?bugs?|adelgids?|weevils?|vine weevil(?: grubs)?|(?:box(?: tree)? )?moths?|caterpillars?|sawfly(?: larvae)?|thrips|leaf ?miners?"
    r"|(?:fungus )?gnats?|sciarids?|slugs?|snails?|mildew|rust|black ?spot|needle ?cast|leaf ?spot|tip ?blight|juniper blight|leaf curl|leaf blister|botrytis|grey mould|canker|coral spot"
    r"|shot ?hole|fire ?blight|gall mites?|lace ?bugs?|leafhoppers?|froghoppers?|tortrix|leaf ?rollers?|chafer grubs|leatherjackets|borers?|psyllids?))"
)
_PEST_NAMED = re.compile(rf"\b{PEST}\b", re.IGNORECASE)
# What is sprayed or drenched under its chemical or kitchen name, and fed under none.
SUBSTANCE = (
    r"(?:imidacloprid|acetamiprid|thiacloprid|flonicamid|flupyradifurone|spirotetramat|spiromesifen|spirodiclofen|pymetrozine|buprofezin"
    r"|pyriproxyfen|azadirachtin|deltamethrin|cypermethrin|permethrin|bifenthrin|lambda[- ]cyhalothrin|malathion|dimethoate|pirimicarb"
    r"|chlorantraniliprole|indoxacarb|emamectin|hexythiazox|bifenazate|clofentezine|etoxazole|fenpyroximate|fenazaquin|acequinocyl"
    r"|chlorothalonil|myclobutanil|tebuconazole|propiconazole|difenoconazole|penconazole|triticonazole|thiophanate[- ]methyl|carbendazim"
    r"|azoxystrobin|trifloxystrobin|kresoxim[- ]methyl|boscalid|cyprodinil|fludioxonil|iprodione|dithianon|dodine|metalaxyl|propamocarb"
    r"|fosetyl(?:[- ]alumini?um)?|phosphonate|copper (?:oxychloride|hydroxide|sulphate|octanoate|soap)|ferric phosphate|metaldehyde"
    r"|(?:potassium|sodium) bicarbonate|bicarb(?: of soda)?|baking soda|hydrogen peroxide|peroxide|fatty acids|maltodextrin|kaolin"
    r"|milk(?: and water)?|garlic(?: water| extract)?|nettle (?:tea|water|extract)|horsetail (?:tea|extract)|tobacco water"
    r"|trichoderma|beauveria|dish ?soap|washing[- ]up liquid|soapy water)"
)
# What is fed under its own name.
FEED_SUBSTANCE = r"(?:tomato feed|rose feed|azalea feed|ericaceous feed|humic acid|chelated iron|magnesium|potash|seaweed|kelp|fish emulsion|fish)"
WIRE = r"(?:wires?|wiring)"
PART = (
    r"(?:(?:the )?(?:left|right|front|back|apex|top|crown|lower|upper|low|high|first|second|third"
    r"|trunk|leader|branch(?:es)?)\b[^,.;]*)"
)
# A part and nothing else, before what was done there.
PART_WORDS = (
    r"(?:(?:the )?(?:apex|top|crown|(?:left|right) (?:\d|side)|leader|trunk|front|back"
    r"|(?:first|second|third|lower|upper) (?:left|right|branch(?:es)?)))"
)
