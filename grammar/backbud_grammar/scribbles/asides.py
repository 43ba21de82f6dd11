"""Tells whether a clause is about something else than the act beside it, by what its words are of.

A clause is what stands between two commas. It is told by sorts of words, not by sentences: each of
its words must be of the sorts that make up such a clause, and in their order. What could be how
much the act did, or a limit of it, is of none of them.
"""

from __future__ import annotations

import re

from backbud_grammar.elsewhen import elsewhen, not_by_us
from backbud_grammar.forms import ActForm
from backbud_grammar.limiters import limiter_in
from backbud_grammar.scribbles.plain import plain_words
from backbud_grammar.scribbles.turns import turns

# What can be seen of a tree, its soil and what lives there: each can have a state of its own.
_THINGS = plain_words(
    "soil ball rootball kluit roots root rootlets feeders surface mix akadama kanuma pumice bims lava grit "
    "sphagnum moss liverwort algae lichen weeds compost crust mould mold fungus mycelium myco mycorrhiza "
    "leaf leaves foliage needles needle sheath sheaths tips tip buds bud candles candle shoots shoot "
    "growth extension extensions internode internodes rosettes whorls fronds pads pad ramification twigs "
    "twig stems stem petioles stalks spurs thorns bark nebari canopy flowers flower "
    "petals petal blossom blossoms bloom blooms stamens fruit fruits fruitlets berries berry haws crabs "
    "apples figs pods cones catkins seeds callus cambium wound wounds scar scars stub stubs sap resin jin "
    "jins shari deadwood wood heartwood edges edge undersides underside colour color "
    "drainage water holes labels label saucer saucers outline silhouette shape lines"
)
# What no work of ours makes of it. Not `off`, `out`, `cut`, `done`: these may be what was done.
_STATES = plain_words(
    "sound clean fine healthy happy content green greener greening fat fatter plump moving opening open "
    "shut closed swelling swollen breaking dry wet wetter damp moist sodden soggy "
    "waterlogged boggy strong firm firmer soft softer hard hardened hardening woody red "
    "redder reddish yellow yellowing yellowish brown browning brownish bronze bronzed purple pink orange "
    "golden gold silver grey gray white black pale paler dark darker bright dull glossy shiny ok okay good "
    "great lovely perfect fair poor bad better best worse worst crisp crispy fresh fresher pushing full "
    "empty thin thick thickening dense sparse leggy long short small tiny big large huge heavy light "
    "slow tired limp floppy droopy drooping hanging wilted wilting flagging shrivelled "
    "wrinkled curled curling cupped rolled crinkled scorched burnt burned singed frosted frozen thawed iced "
    "blacked blackened browned yellowed reddened bleached holed speckled spotted mottled streaked stippled silvered chewed nibbled eaten gnawed torn cracked "
    "bruised chafed sticky sooty mouldy mildewed rusty mushy mush slimy sour smelly rotten rotting "
    "stinking peeling flaking flaky corky rough smooth tight loose matted circling compacted choked "
    "clogged rootbound potbound visible showing coming appearing everywhere dropping dropped falling fallen "
    "fell shed shedding turning colouring coloured flowering fruiting budding leafing sprouting "
    "elongating extending elongated running rising bleeding weeping callusing callused healing healed "
    "rooting ripening ripe setting dormant asleep awake weak weaker warm cool cold hot even "
    "uneven level brittle stiff crowded messy shaggy untidy patchy"
)
# What says of a thing that it is so.
_IS = plain_words(
    "is are was were looks look looked looking feels feel felt smells smell smelt smelled seems seem seemed went "
    "going gone getting got gets turned turning stays stay stayed has have had been being it's they're isn't aren't wasn't "
    "weren't that's"
)
_SO = plain_words(
    "still now already all quite very really rather too so mostly mainly just also bit "
    "little lot much more less well nicely badly slightly slowly quickly fast "
    "even both most some many few several any every each other own the a an its his her my "
    "our their this that these those these than as like if-anything and or + & with of in on at by "
    "under underneath over above below behind beside between round around near along low lower high "
    "higher upper inner outer front side sides middle centre center first second third new old "
    "young today since usual expected always ever though everywhere places here there"
)
_WEATHER = plain_words(
    "rain raining rained rains downpour drizzle showers wind winds windy gale gales storm storms stormy thunder "
    "frost frosts frosty snow snowing snowed sleet hail hailed sun sunny sunshine shine cloud clouds cloudy overcast fog "
    "foggy misty heat heatwave cold colder hot hotter warm warmer mild milder humid muggy dry wet damp "
    "breeze breezy calm thaw thawing ice icy freeze freezing baking scorching boiling roasting pouring "
    "drought dew weather forecast chilly bitter draught draughty degrees C F"
)
# Of that day, or of all the days around it: no other day of its own.
_WHEN = plain_words(
    "today tonight overnight night nights day days morning mornings evening evenings afternoon noon "
    "midday dawn dusk week month spring summer autumn winter"
)
_OF_WEATHER = plain_words(
    "a an the this that last all it it's is was were at in on by from for of to and or + & still now too "
    "very quite much more less bit little some light hard heavy early ground forecast "
    "announced since during low lows high highs average temperature north south east "
    "west northerly easterly southerly westerly strong full bright dull grey gray clear spell snap wave "
    "front weather shade outside there here ahead"
)
_NOT_FIRST = ("on", "at", "by", "for", "outside", "there", "here")
_IN = ("in", "on", "at", "by", "from", "for", "of", "to")
# Hands and tools.
_TOOLS = plain_words(
    "scissors shears secateurs tweezers tweezer cutters cutter knife saw chisel chisels gouge brush brushes "
    "toothbrush toothbrushes wirebrush chopstick chopsticks rake hook roothook sickle trowel spade fork sieve hose rose can cans sprayer "
    "syringe pliers plier snips grinder drill burr burrs torch burner hand hands finger fingers fingertips thumb nails nail gloves glove "
    "goggles mask ladder steps turntable stool headlamp torchlight loupe lens magnifier wand nozzle "
    "broom blower"
)
_OF_TOOLS = plain_words(
    "a an the my his her our with by using and + & only just old new small big fine long short sharp blunt "
    "soft stiff bare sterilised sterilized clean wire root die jin concave knob leaf twig pruning folding "
    "hand bent straight all no both power angle wet dry whole steel bronze nylon bamboo"
)
# Whose hands it was says that it may be another's work.
_HANDS = plain_words("hand hands finger fingers fingertips thumb nail nails")
_LENT = _TOOLS - _HANDS | plain_words("help helper apprentice bench table turntable workshop")
_OF_LENT = plain_words("old new good best small big long short sharp fine and + &")
_SOMEBODYS = re.compile(r"(?:with |by |on )?[^\W\d_]+['’]s (?P<what>[^\W\d][^\d,]*)", re.IGNORECASE)
# How it went, or what is thought of it.
_HOW = plain_words(
    "slow slowly quick quickly easy easily fiddly tricky awkward careful carefully gently gentle rough "
    "roughly hard work job nice nicely lovely good great fine ok okay bad ugly tidy neat pretty happy pleased "
    "satisfied chuffed proud sorry tired enough better best worse worst much more looks look looked looking "
    "well now again at last finally it that's that all over with for the a an this of as in so "
    "very quite really bit little one go goes two took takes taking ages forever whole long "
    "time day days afternoon morning evening night first year season yr month week earliest latest "
    "usual always every same ever and + & but my our hands back hurts cold fingers sore feels "
    "worth was is were mostly standing sitting outside inside under lamp light dusk dark rain sun indoors outdoors "
    "start end beginning fiddle pain mess muddle success fun learnt learned something"
)
_JUDGED = plain_words(
    "slow slowly quick quickly easy easily fiddly tricky awkward careful carefully gently gentle happy pleased "
    "satisfied chuffed proud sorry ages forever hurts sore worth fun learnt learned earliest latest "
    "usual always ugly tidy neat pretty nice nicely lovely great"
)
# Who says how something is, or how it went, and who wants it so.
_WHO = (
    r"(?:(?:he|she|they|(?:the )?(?:owner|client|customer))"
    r"|(?:mrs?|ms|dr|mr)\.? [^\W\d]+|(?-i:[A-Z])[^\W\d]+)"
)
_SAYS = re.compile(
    rf"{_WHO} (?:says?|said|thinks?|thought|reckons?|reckoned) (?P<what>.+)", re.IGNORECASE
)
_WANTS = re.compile(
    rf"{_WHO} (?:wants?|prefers?|would like|likes|needs?) (?:it|her|him|them|the tree) (?P<what>[^?\d]*)",
    re.IGNORECASE,
)
# A picture was taken.
_PICTURES = plain_words("pics pic photos photo pictures picture video")
_OF_PICTURES = plain_words(
    "front back sides side both all top left right before after taken took made sent and + & of the it a "
    "few some two three first again from too as well for file record"
)
_TOKEN = re.compile(r"[-–]?\d[\d.,/-]*|[^\W\d_]+(?:['’-][^\W\d_]+)*|[+&°%?!:\"]|\S")
# What is counted where it is found, and is never what a work takes, gives or leaves.
_FOUND = plain_words(
    "marks mark scars bites bite rings ring aphids aphid mites mite scales scale grubs grub weevils weevil "
    "caterpillars caterpillar slugs slug snails snail worms worm ants ant wasps wasp beetles beetle thrips "
    "whitefly greenfly blackfly sawfly moths moth eggs webs web nests nest holes hole cracks crack spots spot "
    "mushrooms mushroom toadstools bees bee birds bird mice mouse voles vole visitors guests people drips "
    "dieback scorch sunburn chlorosis mildew rust botrytis blight canker rot damage webbing soot honeydew "
    "tapped loads lots plenty dozens hundreds crawling swarming frass sawdust burn drop mould mold fungus droppings leafminer tipburn "
    "leafminers miners galls gall mealybugs bugs bug lesions cankers blisters cocoons cobwebs larvae pupae"
)
_OF_FOUND = plain_words(
    "a an the about just some few many several more less small big tiny old new live dead "
    "faint slight deep light bad fat green black white red brown grey gray or so odd at least over under "
    "found seen there here in on at by near round behind inside outside up down low lower "
    "upper high top apex bottom base back front side sides branch trunk leaf leaves needles stems stem forks "
    "bark soil moss surface pot tray edge edges tips tip paper each per and + & still again now yet too all "
    "larch pine maple juniper azalea elm beech oak spruce yew hornbeam birch ash apple pear plum cherry hawthorn "
    "quince fig olive ficus cotoneaster cypress cedar fir hemlock box privet rose spider woolly red vine "
    "over everywhere"
)
_TIMES = re.compile(
    r"(?:at|by|from) \d{1,2}(?:[.:]\d\d)? ?(?:h|uhr|uur)(?: ?(?:and|\+|&) ?(?:at )?\d{1,2}(?:[.:]\d\d)? ?(?:h|uhr|uur))*|"
    r"(?:(?:again|early|late|about|abt|at|around) )*(?:\d{1,2}(?:[.:]\d\d)? ?(?:am|pm|a\.m\.?|p\.m\.?|o'?clock|uhr)"
    r"|noon|midday|midnight|dawn|dusk|sunrise|sunset|lunch|breakfast|tea|dinner|supper|first light)"
    r"|(?:(?:in|on) )?(?:the )?(?:same |that |early |late )*(?:eve|evening|morning|afternoon|night|day)"
    r"|(?:at )?(?:first|last) thing|(?:in|during) (?:the )?(?:rain|storm|showers?|frost|heat|thaw|snow|sun|shade|dark|dry)"
    r"|(?:(?:for )?(?:the )?|my |its |his |her )?(?:\d{1,2}(?:st|nd|rd|th)|first|second|third|fourth|fifth|last|final) (?:time|go|pass|try|attempt|outing)"
    r"(?: (?:this|of the|in the|in a|for|since|ever)? ?(?:year|yr|season|month|week|spring|summer|autumn|winter|it|her|him|me|ages|years))?"
    r"|(?:first|last) (?:one )?(?:of|for|in) (?:the |this )?(?:year|yr|season|month|spring|summer|autumn|fall|winter|day|week|batch|lot|ages|years)"
    r"|(?:\d{1,2}(?:st|nd|rd|th)|first|second|third|fourth|fifth) (?:year|yr|season|spring|summer|autumn|winter) (?:running|in a row|now|here|in (?:the |this )?(?:pot|box))"
    r"|(?:in|over) (?:one|two|three|four|\d+) (?:goes|go|sittings?|sessions)"
    r"|(?:all )?(?:done|finished|over|enough)(?: with (?:it|her|him|this))?(?: now)?"
    r" (?:for (?:the|this) (?:year|season|spring|summer|autumn|fall|winter|time)|for now)"
    r"|(?:looks?|looking|feels?|much|a lot|far|so much|all the|it looks) (?:much |so much |a lot |far )?(?:better|nicer|lighter|tidier|fuller|worse|stronger|happier)(?: now| already| again| for it| so)*"
    r"|(?:earliest|latest|best|worst|first|most|biggest|longest)(?: (?:yet|ever|so far|in years|for years|in \d+ (?:years|yrs)))+"
    r"|(?:a (?:week|month|fortnight|bit)|\d+ (?:days|weeks|d|wks)|two weeks|ten days) (?:late|early|ahead|behind)(?: than (?:last (?:year|yr)|usual|normal))?",
    re.IGNORECASE,
)
_WAS = re.compile(
    r"(?:(?:was|were|had|before|previously|last (?:year|time|spring|summer|autumn|winter|month|week)|a year ago|in (?:19|20)?\d\d)(?: (?:was|were|only|about|abt|at|just))*)"
    r" \d+(?:[.,]\d+)?(?: ?(?:mm|cm|inch|m|%|kg|g|L|s|sec|min|C|F|degrees)| [^\W\d]+)?(?: (?:last year|last time|before|then|a year ago|in (?:19|20)?\d\d))?"
    r"|\d+(?:[.,]\d+)?(?: (?:mm|cm|inch|m|%|kg|g|L))? (?:this time |at this time )?(?:last year|last (?:spring|summer|autumn|winter)|a year ago|last time)",
    re.IGNORECASE,
)
# What befell the pot or the bench, and why a work had to be done.
_MISHAP = re.compile(
    r"(?:the |her |his |old )*(?:pot|box|tray|slab|bench|shelf|pole|stand)(?: corner| rim| edge| foot)?"
    r" (?:has |had |was |is |got |went )?(?:broke|broken|cracked|smashed|chipped|rotten|rotted|soft"
    r"|gone (?:soft|rotten|over)|split|blown over|tipped over)"
    r"(?: (?:over|by|in|the|wind|storm|frost|rain|last night|through))*",
    re.IGNORECASE,
)
# What is thought of it now that it is done.
_REGRET = re.compile(
    r"(?:(?:i |we )?(?:should|could)(?: have|['’]ve| of) (?:waited|started (?:earlier|sooner)|known|gone (?:harder|further|easier|lighter)"
    r"|(?:done|left|taken) (?:it|this|that|more|less|them)(?: (?:sooner|earlier|before|later|last \w+|in \w+|alone|on))*)"
    r"|(?:a (?:bit|little|week|fortnight|month) |rather |really |too )*(?:late|early)(?: for it| this year| really| but still)*)",
    re.IGNORECASE,
)
# That nothing is wrong; it limits no act.
_NO_HARM = re.compile(
    r"(?:no|not any|without) (?:harm|damage|problems?|trouble|loss|losses|scorch|burn|paste|sealer)"
    r"(?: (?:done|seen|needed|at all|so far|found))*|none the worse|nothing (?:wrong|amiss)",
    re.IGNORECASE,
)
# What goes with a tree on its way.
_CARRIED = plain_words(
    "van car boot truck pickup trailer lorry bike tram train crate box boxed blanket blankets bubble wrap wrapped "
    "strapped tied upright towel towels newspaper foam cardboard seat backseat belt"
)
_OF_CARRIED = plain_words(
    "in into by on with the a an his her their my our back front of and + & well under old big "
    "passenger own"
)
_ON_THE_WAY = ("returned", "received", "sold", "lent", "collected", "delivered", "shown", "moved")
# Of these nothing that was seen may be passed over: it may be what ends, or was looked for.
_NEVER = ("checked", "died", "lost", "counted", "noted", "staged", "vigour", "bloomed", "rooted")
# Of these the weather may be how long it is for: `fleece on, hard frost`.
_SHELTER = ("protected", "shaded", "moved", "planted-out")
# What is done with water, so that rain may be what did it.
_WATER = ("watered", "soaked", "flushed", "cleaned", "treated")
# Another month or day, a part of the tree, and what may have ended, beside what turns any clause.
_BEARS = re.compile(
    r"\?|\b(?:ago|sooner|next|another|january|jan|february|feb|april|june|july|august|aug|september"
    r"|sept?|october|oct|november|nov|december|dec|(?:left|right|branch) ?\d|[LR] ?\d"
    r"|dead|dying|alive|lost|gone|home|left|last year)\b|\d{1,2}[./-]\d{1,2}(?!\d* ?(?:am|pm))",
    re.IGNORECASE,
)
_FIGURE = re.compile(r"\d")
_WITH = re.compile(r"(?:cut )?(?:with|by|using) ", re.IGNORECASE)
_TOO = re.compile(r"\b(?:too|still)\b", re.IGNORECASE)
WETS_PATTERN = r"\b(?:rain|rained|raining|downpour|thunder|drizzle|showers|snow|storm|hail|wet)\b"
_WETS = re.compile(WETS_PATTERN, re.IGNORECASE)
_BROKEN = ("branches", "roots", "deadwood")
_ALONE = ("frost", "snow", "wind", "rain", "heat", "sun", "ice", "late frost", "hard frost")
# Work whose object none of the things that are seen can be.
_KEEPS = ("water", "feed")


def is_aside(form: ActForm, piece: str, raw: str) -> bool:
    """Whether a clause beside an act is about something else: how a thing looks, the weather, the
    hour, the tools, how it went, who said so. `raw`: as it is written.

    None has a limit, another day, a part of the tree or an end in it; those are asked.
    """
    if form.word in _NEVER or form.names_act or form.prose or piece[:3].casefold() == "by ":
        return False
    if form.bearing == "does" and _REGRET.fullmatch(piece) is not None:
        return True
    if form.word == "measured" and _WAS.fullmatch(piece) is not None:
        return True
    if _NO_HARM.fullmatch(piece) is not None or _is_lent(form, raw):
        return True
    if limiter_in(piece) or limiter_in(raw) or turns(raw) or _BEARS.search(raw):
        return False
    if elsewhen((piece,)) or not_by_us((piece,)) or _TOO.search(piece):
        return False
    if form.word in _ON_THE_WAY and _made_of(piece, _CARRIED, _OF_CARRIED):
        return True
    if form.bearing == "ends":
        # What ends or comes off is only done beside the weather of the day; `too wet` may be why it
        # was not done.
        return _is_of_weather(piece) or (
            bool(form.work == "wire" and _WITH.match(piece)) and _made_of(piece, _TOOLS, _OF_TOOLS)
        )
    if _TIMES.fullmatch(piece) is not None:
        return True
    return not _FIGURE.search(piece) and (
        (_is_of_weather(piece) and not weather_may_do_it(form, piece) and form.word not in _SHELTER)
        or _is_of_its_own(form, piece)
        or _is_said_so(form, raw)
    )


def weather_may_do_it(form: ActForm, piece: str) -> bool:
    """Whether the weather may have done it: rain waters, and snow takes twigs off."""
    if form.word in _WATER:
        return _WETS.search(piece) is not None and _is_of_weather(piece)
    return form.work in _BROKEN and piece.casefold() in _ALONE


def _is_lent(form: ActForm, raw: str) -> bool:
    """Whether it was somebody's tool or help: `Gil's scissors`; `Gil's maple` may be what was
    worked on."""
    found = _SOMEBODYS.fullmatch(raw)
    return (
        found is not None
        and form.bearing == "does"
        and not form.undone_by
        and _made_of(found["what"], _LENT, _OF_LENT)
    )


def _is_of_its_own(form: ActForm, piece: str) -> bool:
    if _MISHAP.fullmatch(piece) is not None:
        return not form.undone_by
    return (
        _is_seen_so(form, piece)
        or _made_of(piece, _TOOLS, _OF_TOOLS)
        or _made_of(piece, _PICTURES, _OF_PICTURES)
        or (form.work in _KEEPS and _made_of(piece, _FOUND, _OF_FOUND))
        or _made_of(piece, _JUDGED, _HOW)
    )


def _tokens(piece: str) -> list[str]:
    return [one if one in ("C", "F") else one.casefold() for one in _TOKEN.findall(piece)]


def _made_of(piece: str, core: frozenset[str], beside: frozenset[str]) -> bool:
    """Whether each word is of one of two sorts, and one at least of the first."""
    tokens = _tokens(piece)
    return any(one in core for one in tokens) and all(
        one in core or one in beside for one in tokens
    )


def _is_seen_so(form: ActForm, piece: str) -> bool:
    """A thing that can be seen, and behind it how it is: `roots are dry`; never the other way
    round, since `dry leaves` may be what was taken.

    Beside work on branches and roots a verb must say so: `leaves big` may be which were taken.
    """
    tokens = _tokens(piece)
    thing = state = -1
    says = False
    for at, one in enumerate(tokens):
        if one in _THINGS:
            thing = at if thing < 0 else thing
        says = says or (one in _IS and thing >= 0)
        if one in _STATES and thing >= 0:
            state = at
        elif not (one in _THINGS or one in _STATES or one in _IS or one in _SO):
            return False
    return 0 <= thing < state and (says or form.work in _KEEPS)


def _is_of_weather(piece: str) -> bool:
    tokens = _tokens(piece)
    return (
        any(one in _WEATHER for one in tokens)
        and all(one in _WEATHER or one in _OF_WEATHER or one in _WHEN for one in tokens)
        # `in on frosty nights` is where it stands then.
        and tokens[-1] not in _IN
        and not (tokens[0] in _IN and len(tokens) > 1 and tokens[1] in _IN)
        and tokens[0] not in _NOT_FIRST
    )


def _is_said_so(form: ActForm, raw: str) -> bool:
    """Whether somebody says how something is, or how it went, and no more."""
    found = _SAYS.fullmatch(raw)
    return found is not None and (
        _is_seen_so(form, found["what"]) or _made_of(found["what"], _JUDGED, _HOW)
    )


def tells_who_wants(raw: str) -> bool:
    """Whether a clause says who wants what of the tree, which may be why: `Mrs O wants it full`."""
    found = _WANTS.fullmatch(raw)
    return found is not None and not (limiter_in(found["what"]) or _BEARS.search(raw))
