"""Words that bear on nothing that an act changes: they can be kept as words beside any act."""

from __future__ import annotations

import re


def plain_words(words: str) -> frozenset[str]:
    """The words of a text, each once."""
    return frozenset(words.split())


# They say how sure, how glad or when on that day; a detail beside them is the same without them.
FILLERS = plain_words(
    "a abt about again approx approximately also altogether already anyway around at-last ca "
    "circa finally good great indeed just lovely nice nicely now ok okay quite quickly "
    "really roughly so still straight then there though today tonight too very well "
    "the its his her my our all-done done that's"
)
_TODAY = plain_words("today now tonight finally sadly alas")
# A line may say these of a tree, its flowers, its pests or the weather beside what was done.
_COLOURS = "red green yellow brown white pink black purple orange golden pale dark bright silver"
_GROWTH = (
    "bud buds leaf leaves flower flowers shoot shoots needle needles candle candles colour color "
    "tips tip growth growing green fat firm tight swelling opening open breaking bursting pushing "
    "moving strong stronger weak healthy happy fine sound clean fresh new soft hard dormant bare "
    "blossom bloom petals catkins cones fruit berries fern moss callus"
)
_WEATHER = (
    "rain rainy wind windy sun sunny cold colder warm warmer hot frost frosty snow hail storm "
    "cloudy dry wet damp mild chilly gale fog east west north south night nights morning evening "
    "spring summer autumn winter fall day days week weeks month month's year last forecast"
)
_PESTS = (
    "crawlers crawler larvae nits mealy bug bugs spider vine grub grubs lice louse leafminer "
    "aphids aphid scale mites mite weevil weevils adelgid adelgids mildew greenfly blackfly "
    "whitefly leafhopper thrips caterpillar caterpillars sawfly galls gall rust blackspot moth "
    "slugs slug snails mealybug gone none fewer seen found"
)
OBSERVED = plain_words(
    f"{_PESTS} mizugire vole voles mouse mice hail split crack cracked wound wounds sport frosted "
    "lump soil sap nebari wood soilline stippling snow "
    "wilted torn box fungus mould mold botrytis blight ants wasps birds blackbird squirrel badger "
    "cat lace wool woolly scab greened yellowing browning bark roots needlecast canker "
    "honeydew sooty beetle borer fluff "
    f"new old {_GROWTH} {_COLOURS} {_WEATHER}"
)
_TALK = (
    "came out one running rising sour rotten slimy mushy thick thin pencil straight crowded matted "
    "circling rootbound potbound grey gray bleeding bit ok okay by side "
    "hope hopefully think looks look looking looked bit little lot more less much many few some "
    "behind inside outside bases base under leaves down up white spots both "
    "bad nicely lovely good best better worst great heavy light big small long short early late "
    "pair pairs stays stay fiddly "
    "slow quick easy tricky of and with in for it is was are were has have had i we he she "
    "they them him me this that these those as like than to from by at last time times before "
    "every each other another one two three both over under after while since because hand fleece "
    "ready till until when where who"
)
HARMLESS = FILLERS | plain_words(
    "all over on everywhere " + " ".join((_COLOURS, _GROWTH, _WEATHER, _PESTS))
)
# Words of a sentence about them.
SEEN = HARMLESS | plain_words(_TALK)
_READY = re.compile(
    r"(?:the )?(?:fleece|net|shade cloth|mesh|bubble wrap|covers?)(?: all)?"
    r" (?:lies? )?(?:ready|to hand|at hand|standing by)",
    re.IGNORECASE,
)
# Said aside: when on that day, or how it went.
ASIDE = re.compile(
    r"(?<!\S)(?:this (?:a\.?m\.?|p\.?m\.?|time|year|week|morning|evening|afternoon"
    r"|month|spring|summer|autumn|winter)"
    r"|a\.?m\.?|p\.?m\.?|(?:since|as of|from) today|at last|in the end"
    r"|for (?:once|now|good)|as usual|of course|once more"
    r"|all of (?:it|them)|after (?:the )?(?:flower(?:s|ing)?|leaf[- ]?out)"
    r"|after (?:the )?leaves (?:are )?(?:out|hardened(?: off)?)|by now|at once|in one go"
    r"|all (?:morning|afternoon|evening)|instead(?=$)"
    r"|(?:at|from) (?:noon|midday|dusk|dawn)(?: on)?|after (?:work|lunch|breakfast|supper|coffee)"
    r"|everywhere|for (?:the )?(?:winter|summer|show|season)"
    r"|(?:for )?(?:the )?first time(?: (?:ever|so many|in years|since \d{4}))?"
    r"|(?:straight |right )?after(?:wards)?(?=$)"
    r"|with (?:the )?others?|with (?:the )?rest|over \w+ days|two days|in two days"
    r"|with (?:the |a |my |[^\W\d_]+['’]s (?!finger))?"
    r"(?:sharp |small |long |big )?(?:scissors|shears|secateurs|tweezers"
    r"|snips|clippers|pliers|wire cutters?|knife|knob cutters|cutters?|loppers|pruning saw"
    r"|saw|fingers|fingertips|toothbrush"
    r"|chopstick))(?!\S)",
    re.IGNORECASE,
)
_SIGNS = re.compile(r"[\d?]")
_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")


def is_filler(word: str) -> bool:
    """Whether a word of a detail can be taken out of it."""
    return word.casefold().strip(".!,;:()") in FILLERS


def is_harmless(text: str, *, fillers_only: bool = False) -> bool:
    """Whether every word of a text bears on nothing. `fillers_only`: the words may be what the act
    was done to, so that they must say no more than how or when."""
    return _made_of(text, FILLERS if fillers_only else HARMLESS) or is_ready(text)


def is_today(one: tuple[str, int]) -> bool:
    """Whether words only say that it was on that day."""
    return _made_of(one[0], _TODAY)


def is_seen(text: str) -> bool:
    """Whether a text tells what was seen, of growth, weather or pests, and no more."""
    return _made_of(text, SEEN)


def tells_what(text: str) -> bool:
    """Whether a text names growth, weather or a pest: `the other one` names nothing."""
    return any(word.casefold() in OBSERVED for word in _WORD.findall(text))


def is_observed(text: str) -> bool:
    """Whether a text begins with what was seen: a pest, growth, the weather."""
    words = _WORD.findall(text[:40])
    return bool(words) and words[0].casefold() in OBSERVED


# Growth or health, with a word that says how it is.
_STATE = plain_words(
    "sound clean fine healthy green fat moving opening open swelling breaking gone alive dry "
    "strong firm red yellow brown white ok good crisp tight fresh pushing wet sodden damp soft "
    "hard pale full long short black sour running rising bleeding white thick thin slimy mushy "
    "rotten silver grey gray crowded matted circling rootbound potbound lump"
)


def is_state(text: str) -> bool:
    """Whether a text only tells how something looks: `buds behind sound`."""
    words = [word.casefold() for word in _WORD.findall(text)]
    while words and words[-1] in ("now", "yet", "already", "again"):
        words.pop()
    return len(words) > 1 and words[-1] in _STATE and _made_of(text, SEEN | OBSERVED)


def is_ready(text: str) -> bool:
    """Whether it tells of what lies ready: `fleece to hand`."""
    return _READY.fullmatch(text) is not None


def _made_of(text: str, words: frozenset[str]) -> bool:
    return not _SIGNS.search(text) and all(
        word.casefold() in words for word in _WORD.findall(ASIDE.sub(" ", text))
    )
