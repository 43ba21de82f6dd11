"""What may stand beside an act that needs every word to be read: whole pieces that fit what it says.

Each is held against a whole piece, and says no more of the act than why, or how it was found.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from backbud_grammar.scribbles.days import MONTH, WEEKDAY
from backbud_grammar.scribbles.openings.row import PEST

_DEGREES = r"(?:minus |-)?\d+(?:[.,]\d)?(?: ?(?:C|F|degrees))?"
_WEATHER = (
    r"(?:scorching|baking|boiling|roasting|sweltering|freezing|perishing|windy|blowing|stormy|pouring|wet|dry|hot|cold)(?: (?:out|there|outside|again|today|now|week|wind|day))*|"
    rf"(?:lows?|highs?|min|max) (?:of |in the )?{_DEGREES} (?:on )?(?:{WEEKDAY}|all (?:day|week|month))|"
    rf"{_DEGREES} (?:by|at|before) (?:\d{{1,2}}(?: ?[ap]\.?m\.?)?|noon|midday|breakfast|lunch)|{_DEGREES} (?:today|already|in the shade|in there|all (?:day|week))|"
    rf"(?:(?:low|high|min|max|minimum|forecast|frost|nights?|gusts?)(?: of| is| are| was| at)? )?"
    rf"{_DEGREES}(?: (?:on (?:the )?(?:roof|terrace|balcony)|at night|said|night|nights?|forecast|tonight|last night|this week|outside|said|announced))*"
    r"|(?:hard |first |late |ground )?frosts? (?:tonight|forecast|coming|last night|due|expected)"
    r"|(?:hail|storm|snow|gale|heat ?wave|rain) (?:tonight|forecast|coming|due|expected|warning)"
    r"|too (?:hot|cold|wet|dry|windy|bright|dark|much sun|much rain|much wind)(?: there| outside)?"
    r"|(?:more|less) (?:sun|light|shade|air|wind|room)|nice and (?:warm|cool|dry|shady)(?: again| there)?"
    r"|(?:leaf |sun |wind )?(?:scorch(?:ed)?|scald(?:ed)?)(?: on (?:the )?(?:edges|leaves))?"
    r"|(?:full|part|half|light|deep) (?:sun|shade)(?: now| there)?"
    r"|out of (?:the )?(?:wind|sun|rain|frost|wet|heat)|(?:leaf|sun|wind) ?(?:scorch|burn)(?: seen)?"
    r"|rain (?:marks|spoils|ruins) (?:the )?(?:petals|flowers|blooms)"
    r"|for (?:the )?(?:winter|summer|winters|season|show|good|flowering|wind|shade|warmth|light|sun)"
    r"|because of (?:the )?(?:frost|rain|wind|sun|heat|snow|hail|storm|cold|drought|weather)"
)
_MARKS = (
    r"bites(?: (?:slightly|badly|a bit|a little))?|(?:branch|branches|it|(?:left|right) \d|apex) (?:(?:stays|stay|stayed) (?:down|put|low|in place|there|well)|(?:holds|hold|held)(?: (?:down|put|low|in place|there|well|nicely))?)|(?:all )?cut(?: off| through)?|not (?:unwound|unwrapped|uncoiled|unrolled)|(?:\d+|one|two|few|some|no) scratch(?:es)?|"
    r"(?:after )?(?:\d+|two|three|four|five|six) (?:weeks|months|years) on(?: it| the (?:tree|branch))?|"
    r"(?:had )?(?:bitten|bit|cut)(?: in)?(?: (?:at|in))? (?:\d|one|two|three|a few|some) (?:places|spots)(?: (?:about |abt |ca )?[\d.,/]+ ?(?:mm|inch))?|"
    r"(?:was |were |had been |been )?on (?:for )?(?:\d+|a|one|two|three) (?:weeks?|months?|years?)|(?:branch|branches|it) (?:stands|sits|holds|stays put)|"
    r"(?:(?:little|tiny|small|faint|thin) )+(?:rings?|marks?|scars?|bites?)(?: only)?|(?:only|just) (?:a )?(?:(?:little|tiny|small|faint|thin) )*(?:rings?|marks?|scars?|bites?)|"
    r"(?:(?:no|slight|faint|light|small|few|some|a few|hardly any|deep|bad|one|two|\d) )+(?:(?:bite|wire) )?"
    r"(?:marks?|scars?|bites?|rings?)"
    r"(?: (?:left|right|seen|thank god|luckily|at all|on|at|low|high|the|side|apex|top|back|front|branch|\d|darn it))*"
    r"|(?:scars?|marks?) (?:at|on|in) (?:the )?(?:apex|top|trunk|bark|branch(?:es)?|(?:left|right) \d)"
    r"|branch(?:es)? (?:are |is )?staying|nothing marked|(?:slightly |badly |just |was |were |a bit )*biting"
    r"(?: in)?(?: a little| a bit| slightly| badly)?|bit in (?:on|at) (?:left|right) \d|bit in(?: a little| a bit| slightly| badly| at \w+)?"
    r"|just in time|held(?: (?:well|nicely|fine))?|(?:branch|branches) (?:held|set|stays?|stayed)(?: well)?"
    r"|no bites?(?: yet)?|bit|(?:left|right) \d (?:scarred|marked)(?: slightly| a little| a bit| badly)?|\d+ (?:rings?|marks?|scars?)(?: on (?:left|right) \d)?|marked(?: in)?(?: a little| a bit| slightly| badly)?|set (?:well|nicely)"
    r"|(?:was |were |just |slightly |starting to )*(?:cut(?:ting)?|eat(?:ing)?|dig(?:ging)?|dug|bit|bitten) in(?: a (?:little|bit)| \d+(?:/\d+)?(?: mm| inch)?)?"
    r"|(?:it['’]?s |it is |they['’]?re |all |has )?set(?: now)?|scarred(?: a (?:little|bit))?"
    r"|(?:all )?cut(?: off)?,? not (?:unwound|unwrapped|uncoiled|unrolled)"
    r"|nothing (?:has |was |had )?(?:cut|bit|bitten|biting|grown|dug|eaten|marked|scarred)(?: in)?(?: anywhere| at all)?"
    r"|(?:cut|bit|dug|bites|biting|digging|cutting) in nowhere|(?:marks?|scars?)(?: (?:on|at|left|right|apex|top|back|front|side|\d))* (?:faint|slight|light|small)"
    r"|wire (?:bit|was biting|biting|dug)(?: in)?(?: at \w+| a little| slightly| badly)?"
)
# How it is to stand for a time, after what was done to it: `no sun 3 weeks`, `2 days shade then sun`.
_FOR_A_TIME = r"(?:\d+(?:-\d+)?|a|one|two|three|four|six|a few|some) (?:more )?(?:days?|weeks?|months?|nights?)"
_STAND = (
    r"(?:(?:no|out of|away from|in|under|half|part|full|light|deep|good) )*(?:the |a |direct |midday |hot )*"
    r"(?:sun|wind|shade(?: (?:cloth|net|netting))?|cover|rain|glass|shelter|net|netting)"
)
_OFTEN = (
    r"(?:from now (?:on )?)?(?:weekly|fortnightly|monthly|daily|nightly|(?:once|twice|\d times|\dx|three times) (?:a|per|each) (?:day|week|month)"
    r"|(?:every|each) (?:(?:\d+(?:st|nd|rd|th)?|second|third|other|two|three|four) )?(?:days?|weeks?|months?|evening|morning|night))"
    r"(?: from now(?: on)?)?"
)
_AFTERCARE = (
    rf"(?:the )?first \d+ (?:days|weeks|nights) (?:with|under|in) {_STAND}|"
    rf"(?:then |kept |keep |stays? |{_FOR_A_TIME} )*{_STAND}(?: for)?(?: the first)?(?: {_FOR_A_TIME})?"
    rf"(?:,? (?:and )?(?:then|after) (?:{_STAND}|out))?"
)
# Who was told that a tree can be fetched.
_WORD_TO = r"(?:rung|rang|phoned|called|told|texted|e-?mailed|mailed|wrote(?: to)?|messaged) (?!(?:off|wrong|no|out|up|in)\b)(?:[^\W\d]+\.?(?: |$)){1,3}"
# Who comes for it, and when.
_COMES = (
    r"(?:[^\W\d]+ )?(?:comes|is coming|coming|fetches|collects|picks up)(?: for it| it)?(?: on)?"
    rf" (?:{WEEKDAY}|tomorrow|next week)"
)
# Who comes to see it.
_VISIT = (
    r"(?:[^\W\d]+(?:['’]s)?|mrs?\.? [^\W\d]+|dr\.? [^\W\d]+) (?:is |was |came )?"
    r"(?:down|up|over|round|here|by) to (?:see|look at|view) (?:it|her|him)(?: today)?"
)
_ROOTED = (
    r"(?:firm|solid|rock solid)(?: as a rock| in (?:the |its )?pot)?|(?:not|no longer) moving|"
    r"(?:the )?roots? (?:are |is |have |all )?(?:hold|holding|holds|firm|took|taken|anchored)"
    r"(?: (?:it|well|now|firm))?"
    r"|(?:well |firmly |all )?(?:rooted|anchored)(?: in)?(?: well| now)?"
    r"|(?:tree |it |she |he )?(?:stands|stood|sits|is) firm(?:ly)?(?: now)?"
)
_NOUN_OF_WORK = (
    r"(?:repot(?:ting)?|tidy(?:ing)?(?: up)?|trim(?:ming)?|prun(?:e|ing)|wir(?:e|ing)|full wire|restyl(?:e|ing)"
    r"|styl(?:e|ing)|pinch(?:ing)?|decandl(?:e|ing)|defoliat(?:e|ion)|candle[- ]cut(?:ting)?|mekiri|check|check[- ]up"
    r"|uekae|harigane|momiage|boarding|winter(?:ing)?|winter storage|storage|holiday care|summer care|show prep|root[- ]?work|jin work)"
)
# What whoever took it home said or left, and where it is to stand there.
_PARTING = (
    r"no (?:charge|bill|invoice)|free of charge|for free|on the house"
    r"|(?:(?:he|she|they) )?(?:brought|gave|left|sent)(?: us| me) (?:a |an |some )[^\W\d]+(?: [^\W\d]+)?"
    r"|(?:(?:he|she|they) )?(?:said|says) (?:thanks|thank you|goodbye|hello)"
)
# What it was brought for.
_WANTED = rf"(?:for )?(?:a |the )?{_NOUN_OF_WORK}(?:(?: ?\+ ?| ?& ?| and | then ){_NOUN_OF_WORK})*"
_PLEASED = (
    r"(?:(?:she|he|they|[^\W\d]+|mrs?\.? [^\W\d]+|dr\.? [^\W\d]+) (?:is |was |are |were |very |well |quite |v )*"
    r"|(?:very |well |quite |v )*)(?:pleased|happy|chuffed|delighted|thrilled)(?: with (?:it|her|him))?"
)
# What its owner would have, who does not want it back.
_WANTS = r"(?:(?:she|he|they|[^\W\d]+) )?wants? (?!.*\b(?:back|home|to|keep|leave|stay|see|first|wait|think|return|another|it not)\b)[^?\d]*"
# What went with it, and what its owner was told.
_ALONG = (
    r"(?:water|watering|care|feed|summer|winter) (?:note|notes|list|sheet|plan|card)s?(?: (?:given|sent|printed|enclosed|with (?:it|her|him)))?|"
    r"(?:(?:guys?|wires?|ties?|raffia) )(?:(?:stays?|still|left|is|are|all) )*on(?: (?:till|until|til) (?:[^\W\d]+)| for now| (?:apex|top|left \d|right \d))?|"
    r"(?:with )?(?:(?:the|a|his|her|its|\d+ (?:pp|pages?)) )?(?:(?:care|advice) )?(?:sheet|notes|advice|account|label|passport|photos?)"
    r"(?: (?:of|for) (?:care|summer|winter))?(?: (?:given|with (?:it|her|him)|sent|enclosed|explained|printed|handed over))?"
    r"|(?:with |in )(?:its |the |his |her )?own (?:pot|box)|own (?:pot|box)"
    r"|in (?:the |his |her |their )?(?:back of (?:the |his |her )?)?(?:van|car|boot|truck|trailer)"
    r"|told (?:him|her|them|mrs? [^\W\d]+) (?!.*\b(?:back|return\w*|wait|yet|maybe|perhaps|next|year|later|if|when)\b)[^?\d]*"
    rf"|{_WANTS}"
    r"|told (?:him|her|them|mrs? [^\W\d]+)(?: (?:twice|again|all|everything|what to do|(?:to|about|how|no|that|it|keep|water|feed|not|in|when|where|out|of)\b[^?\d]*))?"
    r"|(?:safely )?(?:packed|wrapped|boxed)(?: up| well)?(?: for (?:the )?(?:journey|road|trip|drive))?"
)
# Who came, and for how long or when the work is.
_ON_THE_JOB = (
    r"(?:[^\W\d]+|mrs?\.? [^\W\d]+|dr\.? [^\W\d]+) (?:was |came |is )?(?:by|here|round|over|rang|called|phoned|visited|came|in)"
    r"|(?:one|two|three|\d) days?(?:['’]? work)?|in (?:the )?(?:spring|summer|autumn|fall|winter)|(?:spring|summer|autumn|fall|winter)"
)
# Who has not agreed yet.
_UNDECIDED = (
    r"(?:(?:he|she|they)(?: will|['’]ll) |will )?(?:rings?|calls?|phones?|writes?|decides?|let (?:me|us) know)(?: back| (?:me|us))?(?: (?:soon|later|tomorrow|next week))?"
    r"|(?:he|she|they) (?:thinks?|is thinking|are thinking) (?:about|on|over) it"
    r"|no (?:answer|reply|word)(?: yet| so far)?|(?:he|she|they)(?:['’]ll| will) think(?: (?:on|about|it over)(?: it)?)?|thinking (?:on|about) it"
)
_CLOCK = r"(?:at |about |abt |ca )?\d{1,2}(?:[:.]\d\d)? ?(?:am|pm|a\.m\.?|p\.m\.?)"
_BUYER = (
    r"(?:to )?(?:a |the |some |an? old |young )*(?:chap|man|woman|lady|gent(?:leman)?|couple|lad|girl|fellow|bloke|guy|collector|dealer"
    r"|beginner|visitor|neighbour|neighbor|friend|club member|regular|stranger|buyer)"
    r"(?: with (?:a |the )?(?!.*\b(?:half|rest)\b)[^\W\d]+(?: [^\W\d]+)?)?"
    r"(?: (?:from|at|off|of) (?:(?:the )?(?:show|club|market|internet|net|web|village|town|road|street|fair|sale|workshop|open day|neighbourhood)|(?-i:[A-Z])[^\W\d]+))?"
    r"|(?:(?:first|second|third|another|last|\d+(?:st|nd|rd|th)) (?:one |tree )?(?:sold )?(?:this|in a|in one) (?:week|month|day|year|season))"
    r"|(?:with (?:the |its )?pot|(?:the |its )?pot (?:too|as well|included|goes with it|incl\.?))"
)
# How what died was found, and what became of it.
_DEATH = (
    r"damp(?:ing|ed)[- ]off|keeled over(?: at (?:the )?soil line)?|"
    r"(?:(?:the )?(?:roots?|root ?ball|soil|core|crown|trunk|bark|cambium|wood|buds|inside|whole thing|all)"
    r" (?:was |were |is |are |all |quite |just |bone )*)?(?:sodden|sour|black|brown|rotten|rotted|rot|mush(?:y)?|slimy|stank|stinking|smelt|smelled"
    r"|soft|soaked|waterlogged|dust dry|bone dry|dry|dried out|frozen(?: solid)?|girdled|eaten|brittle|grey|gray)"
    r"(?: (?:and|&|\+) (?:sodden|sour|black|brown|rotten|mushy|slimy|stank|stinking|soft|dry|brittle|smelly))*(?: (?:right )?through| all through| underneath| as dust| as a bone)?"
    r"|(?:root|crown|collar|butt|stem) rot|(?:vine )?weevil(?: grubs?)?|phytophthora|verticillium|honey fungus|(?:hard |late |the )?(?:frost|freeze|winter)|drought|heat|neglect|overwater(?:ed|ing)|missed watering"
    r"|no (?:green|life|sap)(?: left| in it| anywhere| under the bark)?|scratched(?:,? (?:brown|dry))?(?: all over)?"
    r"|(?:tipped|binned|burnt|burned|composted|compost|compost heap|bin|bonfire|the tip|chucked|thrown (?:out|away)|on the (?:heap|fire|bonfire|compost)|to the (?:heap|tip|compost)|skipped)"
    r"|(?:the )?pot (?:was )?(?:scrubbed|washed|cleaned|bleached|disinfected|soaked|saved|kept|shelved|back on (?:the )?shelf)"
    r"(?:(?: ?\+ ?| ?& ?| and )(?:scrubbed|washed|bleached|disinfected|shelved|dried|stored|put away))*(?: (?:with|in) (?:bleach|jeyes|hot water|disinfectant|soap))?"
    r"|(?:my|our) (?:own )?fault|(?:a )?(?:shame|pity|blow)|(?:sad(?:ly)?|damn|pity)"
)
_SPOT = (
    r"(?!(?:out|in|again|then|outside|inside|brought|back|or|not|no|now|going|goes|put|moved)\b)(?:[^\W\d]+ ){0,2}(?:by|near|along|against|behind|beside|next to|at|on|under)? ?(?:the )?"
    r"(?:back wall|front wall|side wall|wall|door|doorway|window|vent|heater|fan|floor|ground|top shelf|bottom shelf|middle shelf|shelf"
    r"|corner|far end|near end|back row|front row|middle|back end)"
    r"|(?:the )?(?:[nsew]|north|south|east|west|far|near|back|front|both)? ?(?:sides?|ends?|doors?|vents?|flaps?|windows?|lights?)"
    r" (?:is |are |was |were |left |still |all )*(?:open|rolled up|rolled down|shut|closed|netted|up|down|wide open|ajar)"
    r"|(?:(?:the )?fleece|net|shade cloth|mesh|bubble wrap) (?:hung|kept|left|laid|rolled|folded|lying|standing|is|to|at|on)? ?(?:up )?(?:by (?:the )?door|ready|hand|to hand|at hand|standing by|near|close by|handy|beside)(?: in case| just in case| for now)?"
)
# What was left for another year.
_ROOTS_LEFT = (
    r"(?:(?:the|rock|old|thick|surface|heavy|white|fine) )*roots? (?:on (?:the )?rock )?(?:left (?:be|alone|as (?:they are|is))|let be|untouched|not touched|spared|stay)|"
    r"(?:a|one|two|three|some|\d+) (?:fat |thick |big |heavy |old |bad |crossing )*roots? (?:was |were |is )?"
    r"(?:left|stays?|kept)(?: on| in| alone)?(?: (?:for|till|until) (?:next (?:time|year)|later|now|then))?"
)
# How often a work is gone on with.
_EVERY = (
    r"(?:(?:the )?(?:top|apex|crown|low|lower|strong)(?: ones)? )?(?:once|twice|\d times|three times) (?:this|a|in one) (?:week|month|year)|"
    r"(?:(?:the )?(?:top|apex|crown|rest|low|lower|strong)(?: ones)? )?(?:every|each) (?:(?:\d+(?:st|nd|rd|th)?|second|third|other|few|couple of|two|three) )?"
    r"(?:days?|weeks?|evening|morning)"
)
_TABLE: Mapping[str, str] = {
    **dict.fromkeys(
        ("watered", "misted", "soaked", "flushed"),
        rf"{_WEATHER}|{_OFTEN}|(?:the )?(?:rain ?)?(?:barrel|butt|tank) (?:(?:is|now|nearly|almost|down to|still|only) )*(?:\d/\d|half|empty|full)(?: (?:full|empty|left|now))?|(?:the )?(?:pots?|tree|soil) (?:was |is |were |felt |still |very |quite |all )*(?:light|heavy|bone dry|dust dry|dry|wet)(?: (?:before|still|again))?",
    ),
    "shaded": _WEATHER,
    "protected": (
        rf"{_WEATHER}|(?:in |with |of )?(?:\d|two|three|double|triple) (?:layers?|thick(?:nesses)?|fold|sheets?)|(?:for )?\d+ (?:cold |frosty )?nights?"
        r"|(?:\+ |and |with )?(?:stones?|bricks?|weights?|pegs?|clips?|string|rope|tape|boards?)(?: (?:on|round|along|at|over)(?: (?:it|top|the|edges?|corners?|sides?|bottom))*)?"
        r"|pots? (?:all )?(?:lagged|wrapped|insulated|plunged|sunk)"
    ),
    "moved": rf"(?:leaf|bud|needle|flower) drop|{_WEATHER}|{_SPOT}|{_AFTERCARE}|{_VISIT}",
    "died": _DEATH,
    "lost": rf"{_DEATH}|(?:the )?(?:police|insurance) (?:told|informed|rung|report(?:ed)?|rept|case)(?: (?:no\.? ?)?\d+)?",
    "carved": r"left (?:rough|raw|as (?:it )?is|to weather|for now|to dry)|(?:no|not) (?:lime sulphur|ls)(?: yet)?",
    "guyed": (
        r"(?:branch |tip |it )?(?:now )?(?:about |abt |ca )?\d[\d.,]* ?(?:mm|cm|degrees) (?:lower|down|up|higher)(?: now)?|"
        r"(?:about |abt |ca )?\d[\d /.,]* ?(?:mm|cm|inch) (?:lower|higher|down|up|further|more)|(?:tension|pull) (?:the )?same"
        r"|(?:rubber|hose|tube|padding|pad|cork|leather|raffia)(?: (?:under|between|round|below))?(?: it)?"
    ),
    "treated": (
        r"\d+ (?:days|weeks) apart|(?:no wind|wind ?still|(?:wind )?(?:was )?calm)|"
        r"(?:the )?(?:soil|pot|surface|moss) (?:(?:was |is |well )*(?:covered|wrapped|shielded)(?: up)?(?: (?:with|under|in) (?:foil|plastic|(?:a )?bag|paper|newspaper|(?:a )?cloth|film))?|(?:with|under|in) (?:foil|plastic|(?:a )?bag|paper|newspaper|film))|"
        r"(?:about |abt |ca )?(?:\d+ )?(?:ladybirds?|lacewings?|hoverfl(?:y|ies))(?: larvae)?(?: \d+)?(?: (?:seen|on it|found|there|too|left alone))*|"
        rf"(?:[^\W\d]+ )?{PEST}(?: (?:still|all|mostly|now))* (?:small|big|young|few|many|some|fewer|less|hardly any|none|inside|everywhere)(?: (?:left|now|still|underneath|inside|below))*|"
        rf"{_OFTEN}|(?:found|got|counted|saw) (?:about |abt |ca )?\d+(?: [^\W\d]+){{0,2}}|\d+ ?(?:ish|\+|or so|odd)(?: (?:on|in|under|per) .{{1,30}})?|"
        r"(?:none|no (?:more|live ones|new ones)) (?:seen|found|now)|none now|(?:all )?(?:clear|clean|gone)(?: now)?|fewer(?: now)?"
        r"|(?:soil |air |water )?(?:at )?\d+ ?(?:C|F|degrees)(?: (?:out|outside|today|in there))?|gloves(?: on)?(?: (?:and|&|\+) (?:mask|goggles))?|(?:dull|cloudy|still|calm|dry)(?: (?:day|evening|morning))?"
    ),
    "checked": (
        r"(?:bag|foil|plastic|moss|sphagnum|tape|parafilm|wrap) (?:stays?|left|kept|is)(?: on)?|"
        r"leave(?: (?:it|on|be|alone|as is|as it is|for now|them))*|left on|uncut|not cut(?: yet)?|(?:closed|wrapped|packed|bagged|covered)(?: up)?(?: again)?"
        r"|re-?(?:wrapped|packed|covered|closed)|both sides"
    ),
    **dict.fromkeys(("pinched", "trimmed", "deadheaded"), rf"(?:{_EVERY})(?: now)?"),
    **dict.fromkeys(
        ("rooted", "germinated", "struck", "sown"),
        r"(?:the )?(?:lid|bag|dome|cover|glass|vents?)(?: is| was| now)? (?:off|open(?:ed)?|up|on|over|slit|vented)",
    ),
    **dict.fromkeys(
        ("tied",),
        r"(?:the )?old (?:ones?|ties?|wires?)?(?: (?:was|were|had|is|are))* ?(?:rusted|rusty|broken|snapped|loose|cut in|rotten)(?: through| off)?",
    ),
    "wired": (
        r"(?:the )?old (?:wire|one) (?:was |had |is )?(?:biting|bit|bitten(?: in)?|cut(?:ting)? in|tight|rusty|loose|too (?:thin|thick|tight|loose)|broken)|"
        r"(?:put on |rather |quite )?loose(?:ly)?(?: on)?|not (?:too |so )?tight|"
        r"(?:through|over|for|leave|stays|on for)(?: on)?(?: for)? (?:\d|one|two|three|a|the) (?:winters?|summers?|seasons?|years?)(?: ok| is ok| fine| long)?"
    ),
    **dict.fromkeys(
        ("slipped", "potted-on"),
        rf"{_AFTERCARE}|{_ROOTS_LEFT}|"
        r"(?:nothing|no roots?) (?:cut|off|touched|trimmed)|no root (?:work|cut|pruning)|roots? (?:left alone|untouched|not touched|not cut)"
        r"|(?:wedged|propped|staked|braced|chocked|packed)(?: up| in)?(?: (?:with|on|by|w) [^\W\d]+(?: [^\W\d]+)?)?",
    ),
    **dict.fromkeys(
        ("repotted", "lifted"),
        rf"{_AFTERCARE}|{_ROOTS_LEFT}|"
        r"(?:the )?(?:shin|core|centre|center|heart|old heart)(?: soil)? (?:is |was )?(?:left(?: alone| in| be)?|kept|untouched|not touched|stays|stayed)|"
        r"(?:wedged|propped|staked|braced|chocked|packed)(?: up| in)?(?: (?:with|on|by|w) [^\W\d]+(?: [^\W\d]+)?)?",
    ),
    **dict.fromkeys(
        ("pruned", "carved"),
        r"(?:torn|tore|ripped|peeled|split)(?: it)?(?: back)?(?:,? not|,? rather than|,? instead of) (?:cut|sawn|sawed|cutting)(?: it)?|"
        r"\d[\d /.,]* ?(?:inch|mm|cm) (?:wound|cut)s?|"
        r"(?:left|leaving|kept|leave) (?:a |an )?(?:\d+(?:[.,/]\d+)? (?:mm|cm|inch) )?(?:stub |long |on )*(?:for |as )(?:a )?jin"
        r"|(?:ls|lime sulphur|lime s|oil|paste|sealer) (?:not yet|to (?:come|follow)|still to do)"
        r"|(?:ls|lime sulphur) (?:when|once|after) (?:it['’]?s |it is )?dry|(?:ls|lime sulphur) (?:later|tomorrow|next (?:week|month))"
        r"|(?:peeled|stripped|torn|ripped)(?: back| down)?",
    ),
    "quoted": rf"{_ON_THE_JOB}|{_UNDECIDED}",
    "agreed": _ON_THE_JOB,
    "sold": rf"{_BUYER}|{_PLEASED}|{_ALONG}",
    "returned": rf"{_PARTING}|\d[\d.,]* h(?: at \d+)? ?= ?\d[\d.,]*|{_PLEASED}|{_ALONG}|home|gone(?: home)?|went home|{_CLOCK}|wire(?:s)? (?:still |is |are )*on",
    **dict.fromkeys(
        ("put-off", "skipped"),
        r"(?:[^\W\d]+ )?(?:hands off|(?:don['’]?t|do not|not to) touch(?: it)?|leave (?:it )?(?:alone|be|well alone)|nobody touch(?:es)?(?: it)?|let it (?:be|grow|run))",
    ),
    "fed": (
        rf"(?:the )?last (?:one |feed |time )?(?:(?:till|until|before|for) (?:the )?(?:{MONTH}|spring|summer|autumn|fall|winter|repot(?:ting)?|flower(?:ing)?|year|leaf fall))|"
        r"(?:scratched|raked|worked|pushed|pressed) in(?: \d+ (?:mm|cm))?(?: deep)?|"
        r"after (?:(?:a|\d+) (?:days?|weeks?|months?) )?(?:of )?(?:a )?(?:pause|break|rest)|"
        rf"{_OFTEN}|every (?:\d(?:st|nd|rd|th)|second|third|other) (?:watering|can|feed|time)|"
        r"(?:the )?old (?:ones?|cakes?|bags?|lot|feed|lumps?|balls?)(?: (?:was|were|all))* (?:off|out|away|binned|gone"
        r"|(?:scraped|taken|picked|swept|brushed|raked|cleared) (?:off|out|away|up))(?: first)?"
        r"|(?:\d+|two|three|four|six|a|one|the) (?:weeks|months|week|month) (?:is |are )?(?:up|over|gone|passed|done)"
    ),
    "measured": (
        r"(?:the )?(?:barrel |tank |butt )?(?:is |still |now )*(?:(?:half|nearly|almost|quarter) )?(?:full|empty)(?: (?:after|from) (?:\d+ mm(?: rain)?|(?:the )?rain|storm))?|"
        # What it was, beside what it is.
        r"(?:was|before|last (?:year|time)|a year ago)(?: at)?:? \d+(?:[.,]\d+)?(?: (?:mm|cm|m|inch))?"
        r"(?: (?:last year|before|then))?"
        r"|"
        r"(?:nil|none|nothing)(?: yet)?(?: (?:on|at|in|low|lower|top|up|left|right|side|front|back|apex|inside|below|the|branch|\d))*"
        r"|(?:sheaths?|needles) (?:still |all )*(?:closed|shut|tight)(?: yet| still)?|(?:going|heading|moving) (?:the )?(?:right|wrong) way"
    ),
    "unprotected": (
        rf"{_WEATHER}|(?:the )?(?:night )?frosts? (?:is |are )?(?:over|past|gone|done)(?: now)?|mild(?: enough)?|warm(?: enough)?|all clear"
        r"|no (?:more )?frosts?(?: (?:in|for) (?:the )?(?:next )?\d+ (?:days|nights|weeks))?(?: (?:forecast|coming|now|expected|due|this week))?"
        r"|(?:mild|warm) (?:nights?|weather|week|spell)(?: (?:ahead|now|forecast))?"
    ),
    "unshaded": rf"(?:(?:first|a|the) )?(?:cool|cold|dull|cloudy|wet|cooler) (?:days?|week|nights?|spell)|\d+ C(?: ?(?:\+|and|&) ?(?:clouds?|cloudy|overcast|rain|dull))?|{_WEATHER}|mild(?: enough)?|(?:dull|cloudy)(?: weather| week| days?| spell| again)?",
    # What its owner would have done, and how it looked.
    "received": (
        rf"{_WANTED}|{_ALONG}|"
        r"(?:(?:she|he|they|[^\W\d]+) )?(?:wants?|wanted)(?! (?:it |her |him |them )?(?:back|home|away|out)\b)"
        r" [^?\d]*"
        r"|(?:yellow|brown|pale|green|wet|dry|weak|strong|root-?bound|pot-?bound)"
        r"(?: (?:inside|feet|roots|leaves|needles|soil|tips|all over|at (?:the )?tips|in places))*"
    ),
    "paid": (
        rf"{_PLEASED}|{_WANTS}|"
        r"(?:still )?owes(?: me| us)? \d+(?:[.,]\d\d)?(?: [A-Z]{3})?(?: still| more)?"
        r"|\d+(?:[.,]\d\d)?(?: [A-Z]{3})? (?:to come|outstanding|still (?:open|owed|owing|to pay)|open|owing)"
    ),
    "drained": r"(?:slow(?:ly)?|fast|quick(?:ly)?|ok|okay|fine|good|well)|(?:after )?(?:the )?(?:drain )?holes? (?:poked|cleared|opened|cleaned|freed)(?: (?:free|open|through|with (?:a )?(?:stick|chopstick|wire)))*|(?:was|before)(?: it was)? \d+(?: s| sec| seconds| min)?(?: before)?|before \d+(?: s)?",
    "worked": r"(?:over|in) (?:\d|two|three|four) days",
    "billed": r"(?:due |net |payable |to pay )?(?:in |within )?\d+ days(?: net)?",
    "ready": rf"{_WORD_TO}|{_COMES}",
    "planted-out": r"(?:for|to) (?:thickening|thicken|girth|growing on|grow on|bulk up)(?: up)?(?: the trunk)?",
    "unwired": rf"{_MARKS}|no (?:new|more) wires?(?: (?:this (?:year|season|time)|for now|again|needed|yet))*",
    "unguyed": _MARKS,
    "unwrapped": _MARKS,
    "thinned": r"\d+ (?:in all|altogether|in total)(?: (?:left|stay|kept))?",
    "untied": rf"{_MARKS}|{_ROOTED}",
}
# What is left on: said beside a part that it came off from, it says no more than that part does.
_WHICH = (
    r"(?:(?:the )?(?:rest|(?:top|bottom) (?:two|three|2|3)|(?:other )?branches"
    r"|others?|all others?|other wires?|rest of (?:the )?wires?|remaining|below that|above that)"
    r"|(?!\d+ (?:left|on|ok|kept|stay))(?:(?:the|a|one|two|\d{1,2}|very|weak|weaker|weakest|strong|small|lower|low|upper|inner|outer|inside|outside|bottom|top|back|front|left|right"
    r"|branch|branches|shoot|shoots|candles|leaves|ones|apex|crown|leader|side|trunk)(?: |$))+(?<= )(?=\w)"
    r"|(?:lower|low|inner|small|weak|bottom|upper|outer|strong|top|apex|crown|leader|left|right|(?:left|right) \d))"
    r"(?:(?<! ) |(?<= ))(?:(?:of (?:it|them)|is|are|was|were|wires?|ones?|all|still) )*"
)
_RUNS = (
    r"(?:let|allowed to) (?:go|run|grow)|left (?:long|to run|to grow)|(?:stays?|kept) long"
    r"|(?:runs?|running) on"
)
_STAYS = re.compile(
    rf"{_WHICH}"
    r"(?:stays?(?: on)?|free|bare|on|keeps? (?:theirs|its|it|the wire)|left on|left|leave|ok|okay|fine|kept|untouched|loose|good"
    rf"|{_RUNS}|not touched|spared|left alone|let be|can (?:stop|stay|wait|go on)(?: on)?"
    r"|(?:stiff|strong|firm) enough|(?:is |are )?(?:stiff|firm)|(?:till|until|til) (?:spring|summer|autumn|fall|winter|[^\W\d]+))"
    r"(?: (?:on|leave|for now|as is|as it is|it|(?:till|until|til) (?:spring|summer|autumn|fall|winter|[^\W\d]+)))*",
    re.IGNORECASE,
)
_GROWS_ON = re.compile(
    rf"{_WHICH}(?:{_RUNS}|not touched|untouched|left alone|spared|let be)"
    r"(?: (?:this year|for now|on))?"
    r"|(?:the )?(?:inside|inner|low|lower|weak|weaker|small|upper|outer|strong|other)(?: (?:\+|&|and)"
    r" (?:inside|inner|low|lower|weak|weaker|small))? ones not(?: done)?"
    r"|(?:kept|keep|left|leaving) (?:the )?(?:apex|top|crown|leader|front|back|(?:left|right) \d) out"
    r"(?: of it)?",
    re.IGNORECASE,
)


# How long what was put on, or begun, stays as it is.
_STAYS_TILL = re.compile(
    rf"(?:stays? |left |on )*(?:until|till|til|to) (?:(?:early|mid|late|end of|half) )?(?:{MONTH}|{WEEKDAY}|spring|summer|autumn|fall|winter)|"
    r"(?:leave|leaving|left|keep|stays?|on)(?: it| them)?(?: on| up| in| be| alone| as is)*"
    r" (?:(?:till|until|til) [^\W\d]+(?: \d{1,2}| 20\d\d)?|for (?:\d+|a|two|three|four|six) (?:days?|weeks?|months?|years?)|\d+ (?:days?|weeks?|months?))",
    re.IGNORECASE,
)


_AFTER = re.compile(_AFTERCARE, re.IGNORECASE)


_MAY_HAVE_DONE_IT = ("wind", "rain", "sun", "the wind", "the rain", "the sun")


def is_aftercare(piece: str) -> bool:
    """Whether a piece says how a tree is to stand for a time after work on it: `no sun 3 weeks`."""
    return _AFTER.fullmatch(piece) is not None and piece.casefold() not in _MAY_HAVE_DONE_IT


def stays_till(piece: str) -> bool:
    """Whether a piece says how long what was put on stays: `leave on till Oct`."""
    return _STAYS_TILL.fullmatch(piece) is not None


@cache
def _pattern(act: str) -> re.Pattern[str] | None:
    said = _TABLE.get(act)
    return re.compile(rf"(?:{said})", re.IGNORECASE) if said else None


def is_beside(act: str, piece: str) -> bool:
    """Whether a piece only tells why an act was done, or how things were found.

    Of what ends a tree or sends it away every word must be read: it has no row here.

    >>> is_beside("moved", "frost tonight"), is_beside("moved", "if frost tonight")
    (True, False)
    """
    pattern = _pattern(act)
    return pattern is not None and pattern.fullmatch(piece) is not None


_COUNTS = re.compile(r"\d+(?: nights?)?", re.IGNORECASE)


def is_told_in_figures(piece: str) -> bool:
    """Whether a piece tells why, or what was found, in figures: `-4 tonight`, `3 rings`. A figure
    alone may be a count, and of nights how long it is."""
    return any(map(str.isdigit, piece)) and not _COUNTS.fullmatch(piece)


def grows_on(piece: str) -> bool:
    """Whether a piece says that a part was let grow, beside what was cut: `apex let run`."""
    return _GROWS_ON.fullmatch(piece) is not None


# What was left as it was, each said of what it is: `inner ones let go`, `low left skipped`.
def all_else_stays(piece: str) -> bool:
    """Whether a piece says that all else stays as it is: `rest ok leave`."""
    return _STAYS.fullmatch(piece) is not None
