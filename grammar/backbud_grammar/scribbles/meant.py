"""What a line that begins with no act word may have meant: asked, and never acted on."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache, lru_cache

from backbud_grammar.scribbles.meant_said import SAID
from backbud_grammar.scribbles.needed import NeededWords, needed_words
from backbud_grammar.scribbles.plain import plain_words
from backbud_grammar.scribbles.spelled import in_full

# How many acts are named in one message.
MOST = 3
# What stands behind so many letters is prose.
LONGEST = 120
_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")
# By the beginning of a word; the longest counts.
_TABLE: Mapping[str, str] = {
    "lost": "stolen thief theft",
    "repotted": "wortel wurzel umgetopf "
    "repot uekae root rhizo mesh drainage akadama kiryu kanuma mix",
    "potted-on": "prick seedling plug",
    "slipped": "slip kluit bigger",
    "pruned": "snoei gesnoeid geschnitten prun eyes cut saw limb chop lop branch scissor",
    "trimmed": "flush trim hasami clip scissors shear snip hedg outline silhouette tuft",
    "pinched": "pinch metsumi nip nipped nipping candle tip finger",
    "decandled": "decandl mekiri",
    "plucked": "pluck momiage needle",
    "defoliated": "defol hagari",
    "deadheaded": "dead-head deadhead pods ovar spent",
    "disbudded": "disbud",
    "thinned": "thin apple fruit crab cluster",
    "rubbed": "rub frosted",
    "wired": "wire wired wiring harigane",
    "unwired": "draad draht bite bites biting unwire",
    "guyed": "guy guyed",
    "wrapped": "raffia",
    "carved": "carv jin shari hollow tanuki uro sabamiki",
    "treated-deadwood": "lime deadwood ls",
    "sealed": "paste seal wound callus",
    "grafted": "inarch graft scion thread approach yobitsugi",
    "layered": "girdl ring layer toriki",
    "separated": "separat sever",
    "struck": "sashiki struck cutting strike heel",
    "sown": "sow seed stratif fridge acorn",
    "germinated": "germinat sprout",
    "rooted": "rooted",
    "bent": "bent bend lever",
    "watered": "water hose can cans rain mizu parched wilt thirst dry irrigat sprinkl mist",
    "soaked": "soak tub dunk plung bucket mizugire",
    "flushed": "flushed flushing leach ec",
    "fed": (
        "chlorosis iron chelate feed fed fert pellet cake okigoe tama rapecake fish npk nitrogen"
        " potash seaweed"
    ),
    "moved": "in out into bench house back move carried place shelf under indoors outside",
    "protected": "plung fleece protect mulch frost bubble wrap cover straw muro windbreak",
    "shaded": "shade shading",
    "unprotected": "unfleece uncover",
    "quarantined": "isolat quarantin apart",
    "treated": (
        "spray soap neem mildew aphid scale mite weevil adelgid fungus sulphur sulfur captan"
        " mancozeb copper nematode caterpillar moth gall rust drench pest bug thrip leafhopper"
        " sawfly blackspot blight whitefly greenfly blackfly slug snail vole mouse mice trap"
        " chlorosis chelate canker scab lace botrytis mould mold spinosad abamectin borer beetle"
        " ants wasp sooty peroxide"
    ),
    "cleaned": "clean brush scrub algae lichen moss wash swept bleach liverwort",
    "weeded": "weed",
    "checked": (
        "check look found peek inspect saw bark split crack torn hail damage fungus notch mark"
        " bites biting loose vole weevil scale seen swelling firm myco sport brown blacken yellow"
        " pale droop wilt hole"
    ),
    "staged": "bud buds leaf leaves petal bloom blossom flower colour color catkin dormant",
    "bloomed": "open flower bloom blossom truss",
    "fruited": "berries fruit apple",
    "measured": "measur height girth ph trunk inch cm mm internode nebari dh caliper",
    "photographed": "photo phot pic picture snap",
    "shown": "show exhib prize award display stand judge class ribbon tokonoma",
    "received": "arr arriv received recd deliver in from came brought customer",
    "returned": "home collected returned handed picked fetched",
    "bought": "bought bt bag bags order price supplier delivery delivered pickup",
    "sold": "sold sell buyer gave given",
    "lent": "lent loan given borrow",
    "died": "dead died death lost dying killed stank",
    "quoted": "quot told said estimat",
    "agreed": "approv accept agree says yes ok'd deal",
    "billed": "bill inv invoice owes owe",
    "paid": "paid ck check cheque pays sent bank cash dep deposit settled balance",
    "worked": "h hrs hours hour",
    "used": "used",
    "counted": "stock count",
    "skipped": "no not skip skipped didn't won't none",
    "put-off": "wait waits postpone later put til till until next",
    "planned": "plan must needs need next todo remember autumn spring want",
    "corrected": "wrong mistake meant error oops",
    "top-dressed": "sphag sphagnum mizugoke topdress",
    "tied": "tie tied",
    "untied": "ties untie",
    "turned": "turn turned rotate",
    "vigour": "weak strong vigour vigor pushing feeble recover",
    "refronted": "front",
    "priced": "costs price",
    "notched": "notched",
    "lifted": "lifted dug",
    "planted-out": "planted ground bed",
    "opened": "raked surface",
    "styled": "styl restyl",
    "ventilated": "vents vent",
    "released": "clear others released",
}
# What more words than one speak of; before all single ones.
MEANT: tuple[tuple[re.Pattern[str], tuple[str, ...]], ...] = tuple(
    (re.compile(pattern, re.IGNORECASE), acts)
    for pattern, acts in (
        *SAID,
        (
            r"\bbuds? (?:\w+ ){0,2}?(?:off|out)\b|\boff (?:all )?(?:the )?buds?\b",
            ("disbudded", "rubbed"),
        ),
        (r"\bwires? (?:\w+ ){0,4}?(?:off|away|gone|removed|cut)\b", ("unwired",)),
        (r"\bguys? (?:\w+ ){0,3}?(?:off|away|gone|removed|cut)\b", ("unguyed",)),
        (r"\bties? (?:\w+ ){0,3}?(?:off|away|gone|removed|cut|out)\b", ("untied",)),
        (
            r"\b(?:fleece|cover|bubble wrap|mulch) (?:\w+ ){0,3}?(?:off|away|gone|removed|down)\b",
            ("unprotected",),
        ),
        (
            r"^(?:\w+ ){0,2}back to (?!(?:the|old|live|green|bare|half|leaf|leaves|where)\b)"
            r"(?:mrs?\b|dr\b|[a-z])",
            ("moved", "returned"),
        ),
        (r"\bcut off\b", ("pruned", "separated")),
        (r"\b(?:candles?|needles?|leaves|shoots?|roots?) (?:were |was )?not \w+", ("skipped",)),
        (r"\b(?:cut|struck|taken|stuck) (?:\w+ ){0,4}?as cuttings\b", ("struck",)),
        (r"\binto (?:the )?(?:open )?ground\b", ("planted-out", "moved")),
        (r"\bpot (?:\w+ ){0,4}?(?:->|into|to) (?:the )?\w+", ("repotted", "potted-on", "slipped")),
        (r"\bsoil (?:away|off|out|gone|removed)\b", ("repotted", "top-dressed")),
        (r"\bgrafts?\b.*\b(?:took|taken|alive|green|failed|growing)\b", ("checked",)),
        (r"\bfruits? (?:all )?(?:off|out)\b", ("thinned",)),
        (r"^\D{0,12}\d+(?:[.,]\d+)? ?/ ?h\b", ("agreed", "quoted")),
        (r"\b(?:with|incl\.?|plus) (?:shipping|postage|carriage|delivery)\b", ("bought",)),
        (r"(?<!\w)à \d", ("bought", "quoted")),
        (
            r"^(?:akadama|bims|pumice|lava|kiryu|kanuma|cu|al|alu|pot|(?:\w+ )?oval|rectangle)\b"
            r".*\d ?(?:eur|euros?|€|£|usd|gbp|chf)",
            ("bought",),
        ),
        (r"\b(?:came|in|received|there) by bank\b|\bby bank\b", ("paid",)),
        (r"\bcut (?:from|off) (?:its |the )?mother\b", ("separated",)),
        (r"\bpulled (?:in|inside|indoors|under)\b", ("moved",)),
        (r"\b(?:pull\w* .*needles?|needles? .*pull)", ("plucked",)),
        (r"^(?:from|out of|out from) (?:the )?\w+ (?:in|into|to)\b", ("moved",)),
        (r"\b(?:back|down) to old wood\b", ("pruned",)),
        (r"\bwire (?:look|looked)\b", ("checked",)),
        (
            r"\b(?:new|same|own|bigger|larger|smaller) (?:pot|box|tray)\b"
            r"|\bout of (?:its|the) pot\b|\bpot[- ]?bound\b|\bpotted\b",
            ("repotted",),
        ),
        (
            r"^(?:akadama|bims|pumice|lava|kiryu|kanuma|bark|sphagnum)\b.*\d[.,]\d\d$",
            ("bought",),
        ),
        (r"\b(?:new|fresh) (?:mix |soil |moss )?on top\b", ("top-dressed",)),
        (r"\b\d+ ?(?:in|inch|cm)? pots\b|^\d+ in pots\b", ("potted-on",)),
        (r"^(?:akadama|bims|pumice|lava|kiryu|kanuma|bark)\b.*\d L \d", ("bought",)),
        (r"\b\d+ ?(?:\+|plus) (?:tax|vat)\b", ("bought", "billed")),
        (r"\b(?:EC|pH) ?\d", ("measured",)),
        (r"\bneedles? (?:still |very |now )?(?:short|long)\b", ("measured",)),
        (
            r"\b(?:shoots?|whips?|tips?) (?:cut )?(?:back )?to \d",
            ("pinched", "pruned", "trimmed"),
        ),
        (r"\bcandles (?:all )?(?:off|out)\b", ("decandled", "pinched")),
        (r"\bback to \d+ (?:buds?|eyes|nodes|leaves|leafs|lvs|pairs?)\b", ("pruned", "trimmed")),
        (
            r"\bto \d (?:leaves|leafs|lvs|buds|eyes|nodes)\b",
            ("pinched", "pruned", "trimmed"),
        ),
        (r"\b(?:sawn|sawed) off\b", ("pruned",)),
        (r"\bleaf[- ]cut\b", ("defoliated",)),
        (r"\bwires?\b.*\bstripped\b", ("unwired",)),
        (r"^off (?:the )?(?:fleece|cover|net)\b", ("unprotected",)),
        (r"\bmoss\b.*\blaid\b", ("top-dressed",)),
        (r"\b(?:leaves|leafs|lvs) pulled\b", ("plucked", "cleaned", "defoliated")),
        (r"\b(?:leaves|leafs|lvs)\b.*\bcut\b", ("defoliated",)),
        (r"\bbuds? thinned\b", ("thinned", "disbudded")),
        (r"\bto (?:the )?club\b", ("shown",)),
        (r"\b(?:ok|okay) (?:w/|with) \d", ("agreed",)),
        (r"\btook it\b", ("returned",)),
        (r"\b\d+ of \d+ took\b", ("rooted",)),
        (r"\b(?:inch|in|cm) off (?:the )?top\b", ("pruned", "trimmed")),
        (r"\bout (?:of )?the ground\b", ("lifted",)),
        (r"\b\d+ left\b(?! (?:branch|side|hand|one|\d))", ("counted",)),
        (r"\bunder (?:the |a )?(?:roof|cover|eaves)\b", ("moved", "protected")),
        (r"\b(?:leaves|lvs|all|they) (?:all )?fell\b", ("staged",)),
        (r"^in (?:full )?(?:flower|bloom)\b", ("bloomed", "staged")),
        (r"\bpaid\b", ("paid",)),
        (r"\bpolice\b", ("lost",)),
        (r"^(?:gone|went|left)\b.*\b(?:w|w/|with|back|home)\b", ("returned",)),
        (r"^(?:back|home)\s*(?:[.,]|\d)", ("returned", "received", "moved")),
        (r"^in\s*(?:[.,]|\d)", ("received", "moved")),
        (r"^van\b", ("received", "returned")),
        (r"\bspade\b", ("root-pruned", "lifted")),
        (r"\bdug (?:out|up)\b", ("lifted", "collected")),
        (r"\bgoug(?:e|ed|ing)\b", ("carved",)),
        (r"\b(?:haws?|berries|hips|apples|fruits?|figs|cones)\b.{0,30}\boff\b", ("thinned",)),
        (
            r"\b(?:\d|one|two|three) (?:per|each|to a|a|to each) (?:tip|place|shoot|node|knot|whorl|twig)\b",
            ("thinned", "pruned"),
        ),
        (r"\b(?:shaken|shook) on\b", ("agreed", "sold")),
        (
            r"^(?!.*\b(?:kg|rolls?|eur|euros?|gbp|usd)\b).*(?:\b\d(?:[.,]\d)? ?(?:mm )?(?:al|alu|cu)|\b(?:al|alu|cu) (?:wire )?\d)\b",
            ("wired",),
        ),
        (r"\bto (?:the )?(?:pot )?rim\b", ("guyed",)),
        (r"\bpots? (?:sunk|plunged|buried|dug in)\b", ("protected", "moved")),
        (
            r"^(?:in(?:to)? )?(?:(?:a|the|his|her|new|old|its) )*(?:\w+ )?"
            r"(?:box|oval|drum|rect|rectangle|tray|pan|slab)\b",
            ("repotted", "slipped", "potted-on"),
        ),
        (r"\b(?:re)?stuck\b", ("struck",)),
        (r"\b(?:heels?|hormone|mist)\b", ("struck",)),
        (r"\b\d+ of \d+ (?:hold|holds|alive|green|have roots)\b", ("rooted", "checked")),
        (r"\bmailed \d+|\bsent \d+\b", ("paid",)),
        (r"\b\d+ (?:ea|each)\b.*\d|^\d+ (?:[a-z]+ ){1,3}\d{2,3}(?:,|$)", ("bought",)),
        (r"\b(?:w/|with) tax\b", ("bought",)),
        (r"\bordered\b", ("bought",)),
        (r"\bfetched\b.*\d", ("bought", "returned")),
        (r"^(?:all )?under\b", ("moved", "protected")),
        (r"\b(?:pines|trees|all|everything|lot) (?:are )?(?:out|in)\b", ("moved",)),
        (r"\d ?/ ?mo(?:nth)?\b", ("agreed", "quoted")),
        (r"\bstubs\b", ("decandled",)),
        (r"\btips? back\b|\bback \d (?:lvs|leaves|pairs?)\b", ("pruned", "trimmed")),
        (r"\bat (?:mrs?|dr)\b.*\b(?:til|till|until)\b", ("lent", "returned", "moved")),
        (
            r"\b(?:foil|tarp|carpet|blanket|sack|mat|cover|fleece|net|cloth)s? (?:\w+ )?(?:off|away|down)\b",
            ("unprotected", "unshaded"),
        ),
        (r"\b(?:tarp|carpet|blanket|sack|mat|foil|umbrella)\b", ("protected",)),
        (r"\bdipped\b|\bdunked\b", ("soaked",)),
        (r"\b\d[\d.,]* ?(?:ml|g) ?/ ?l\b", ("treated", "fed")),
        (r"\b(?:leaves|lvs)\b.{0,20}\boff\b", ("defoliated", "cleaned")),
        (r"\bflowers?\b.{0,12}\boff\b", ("disbudded", "deadheaded")),
        (
            r"\b(?:seed wings?|wings|catkins|pods)\b.{0,12}\b(?:off|out)\b",
            ("deadheaded", "disbudded"),
        ),
        (r"\bon top\b", ("top-dressed",)),
        (r"\broots?\b.*\b(?:split|sawn|cut|off)\b", ("repotted", "root-pruned")),
        (r"^back (?:from|fr)\b", ("received", "moved", "returned")),
        (r"\b(?:back )?in (?:the )?old (?:one|pot|box)\b", ("repotted", "slipped")),
        (r"^bloom\w* (?:over|done|finished)\b", ("bloomed", "staged")),
        (r"^put back (?:a|\d+|two|three)\b", ("put-off",)),
        (r"\b(?:dead|dry|brown) (?:stuff|bits|wood|twigs) out\b", ("cleaned", "pruned")),
    )
)
# They stand in many a sentence, and name an act only where it begins with them.
_FIRST_ONLY = plain_words(
    "in out back off no not none next from till until under late later front root mark left bag "
    "bags want spring autumn order"
)
# They stand beside so much else that what other words name comes before them.
_WEAK = plain_words(
    "in out into back from under house bench shelf place places rain dry water watered cm mm inch "
    "trunk said told says yes h hr hrs hour hours look looked found seen saw next till til until "
    "bud buds leaf leaves green bag bags front moss strong weak top photo van brown yellow mix no "
    "not none wait waits later want wants open tip tips"
)
# They number a tree or a branch, or begin what is seen, and name no act.
_NAMES_NONE = re.compile(
    r"\b(?:left|right) \d+\b|\bno\.? ?\d+\b|^in (?=(?:full )?(?:flower|bloom|leaf)\b)",
    re.IGNORECASE,
)
_BY_STEM: dict[str, tuple[str, ...]] = {}
# A word is held against stems of at least so many letters; shorter ones are whole words.
_SHORTEST = 4


def _by_stem() -> Mapping[str, tuple[str, ...]]:
    if not _BY_STEM:
        for act, stems in _TABLE.items():
            for stem in stems.split():
                _BY_STEM[stem] = (*_BY_STEM.get(stem, ()), act)
    return _BY_STEM


def may_mean(line: str) -> tuple[str, ...]:
    """The acts that a line's words speak of, those of its first words first.

    >>> may_mean("mildew again")
    ('treated',)
    """
    found, text = dict[str, None](), line[:LONGEST]
    for at in _needed().may_fit(text):
        pattern, acts = MEANT[at]
        if pattern.search(text):
            found.update(dict.fromkeys(acts))
    weak = dict[str, None]()
    for n, word in enumerate(_WORD.findall(_NAMES_NONE.sub(" ", in_full(line)[:LONGEST]))):
        folded = word.casefold()
        if n and folded in _FIRST_ONLY:
            continue
        (weak if n and folded in _WEAK else found).update(dict.fromkeys(_of_word(folded)))
    found.update(weak)
    return tuple(found)[:MOST]


@cache
def _needed() -> NeededWords:
    # Each begins where a word does.
    return needed_words(tuple(pattern.pattern for pattern, _ in MEANT))


@lru_cache(10_000)
def _of_word(folded: str) -> tuple[str, ...]:
    """The acts of the longest stem that a word begins with, or of a short word."""
    stems = _by_stem()
    for size in range(len(folded), _SHORTEST - 1, -1):
        if folded[:size] in stems:
            return stems[folded[:size]]
    return stems.get(folded, ())
