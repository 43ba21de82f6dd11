"""Tells whether each word of a clause is of the sorts that leave open whether an act was done: how
sure it is, whether it is a joke, a wish or a task, on what it hangs, how often or when else, of
which other tree.

No list of sentences could: a clause is of these sorts by all of its words.
"""

from __future__ import annotations

import re

from backbud_grammar.limiters import word_set
from backbud_grammar.ways_compiled import compiled_way

_HOW_SURE = (
    "apparently reportedly seemingly evidently presumably ostensibly theoretically technically "
    "officially virtually practically hypothetically possibly conceivably potentially likely "
    "unlikely doubtful doubtfully doubt uncertain unsure unclear unconfirmed unverified undecided "
    "unknown assumed presumed imagined claimed claim claims rumoured rumored alleged notionally "
    "nominally ideally kinda sorta possible conceivable hypothetical theoretical seems seemed "
    "guess guesswork guessed speculation surmise hunch hearsay rumour rumor gossip legend myth "
    "superstition wisdom proverb opinion opinions theory hint hints clue recommendation "
    "recommendations advice either alternative alternatively alternatives option options variant "
    "variants choice choices dilemma decision decisions whichever whoever"
)
_NOT_MEANT = (
    "ha haha hahaha hah heh lol hmm hm er erm um umm uh oops whoops joke joking kidding sarcasm "
    "irony ironic ironically nope nah nay nil zero nought nada cancel cancels scrapped retracted "
    "revoked annulled disregard reversed reverted correction erratum typo misprint wrongly untrue "
    "fake bogus false ahem pff pfft meh whatever blah etc cetera et wink nudge fantasy fiction "
    "fictional figment pretending pretence make-believe imaginary imagination mentally vicariously "
    "remotely metaphorically figuratively rhetorically proverbially satire spoof hoax dream dreams wishful thinking superstition rules prank bluff "
    "lie lies seriously honestly honest promise literally so-called nonsense jk delete deleted erase erased ignore testing sample template cross crossed copied copy quote quotes quotation unquote sic ibid idem viz nb pto rsvp na null dv "
    "inshallah"
)
_NOT_YET = (
    "tbc tbd tba tbf outstanding unfinished incomplete begun started ongoing interrupted halted "
    "paused adjourned suspended deferred parked halfway midway scheduled timetabled pencilled "
    "diarised earmarked targeted proposed requested commissioned assigned delegated outsourced "
    "hold impending upcoming forthcoming continued continue verify confirm confirmed awaited "
    "awaiting hesitated hesitant hesitating reluctant tempted tempting temptation refrained "
    "abstained avoided resisted postponing postponement rescheduled rearranged appointment "
    "deadline fail fails failure failing flop botched bungled fiasco attempt attempts attempted "
    "vain avail futile aborted abandoned neglected overlooked ignored omitted unsuccessfully "
    "undone pondering pondered mulled mulling contemplated contemplating musing toying toyed mooted "
    "moot talked talking floated discussed discussing discussion considering consideration review reviewed approval "
    "approved approve vetoed veto vote voted committee jury verdict limbo abeyance backburner "
    "unbeknown forbid ordered"
)
_WANTED = (
    "must ought shall gonna gotta please pls plz kindly asap a.s.a.p urgent urgently priority "
    "pronto agenda checklist queue queued reminder memo remember remind backlog wishlist desirable "
    "advisable recommended required necessary target targets goal goals aim aims aimed ambition "
    "ambitions aspiration resolution resolutions intention intentions intent mission assignment "
    "homework chore chores duty duties obligation protocol procedure guideline guidelines "
    "instruction instructions tutorial tutorials lesson lessons concept blueprint scheme vision "
    "thought thoughts idea ideas"
)
_HANGS_ON = (
    "permitting allowing provided providing assuming supposing suppose subject depending depends "
    "dependent conditional conditionally contingent lest otherwise whenever condition conditions"
)
_WHEN_ELSE = (
    "earlier previously formerly sometime sometimes someday anytime eventually ultimately "
    "occasionally usually normally generally traditionally annually yearly rarely seldom scarcely "
    "tmr tmrw yest ydy term decades generations youth"
)
_WHICH_ELSE = (
    "another different else someone somebody anyone anybody sibling cousin "
    "lookalike namesake dummy mockup rehearsal simulation simulated virtual render photoshopped "
    "watched watching witnessed overheard eavesdropped livestream hedge hedges lawn lawns roses "
    "tomatoes beans veg vegetables beard hair wick budget museum telly television"
)
_JUDGED_UNDONE = (
    "impossible forbidden prohibited banned verboten needless unnecessary pointless inadvisable "
    "unwise unthinkable"
)
TURNING_WORDS = word_set(
    " ".join(
        (
            _HOW_SURE,
            _NOT_MEANT,
            _NOT_YET,
            _WANTED,
            _HANGS_ON,
            _WHEN_ELSE,
            _WHICH_ELSE,
            _JUDGED_UNDONE,
        )
    )
)
# What binds such words, and says nothing of a tree.
BINDING_WORDS = word_set(
    "a an the this that these those it its it's he she they we i you me him her us them my his our "
    "your their one ones is was were are be been being has have had do does did to of in on at by "
    "for from with as so or and & + just all quite very rather really now then there here what "
    "day days time times week weeks month months year years morning evening afternoon night tree "
    "trees more less much bit little some any every such like than too again about over only even "
    "well good bad big great yeah right sure spring summer autumn winter fall weather wish work job "
    "next first no not if when dry i'm i'd i'll we'd soil pots pot note self myself thing two "
    "standard long longer new year's second common pipe usual line page entry word paste read out"
)
_TOKEN = re.compile(r"[^\W\d_]+(?:['’.-][^\W\d_]+)*")
_SIGNS = re.compile(r"[\d%\"]")
_LONGEST = 80
_A_TIME = (
    r"(?:time|days?|week|weekend|month|year|season|spring|summer|autumn|fall|winter|morning|evening"
    r"|afternoon|night)"
)
_MONTH_OR_DAY = (
    r"(?:(?:mon|tues|wednes|thurs|fri|satur|sun)day|jan\w*|feb\w*|march|april|may|june|july|aug\w*"
    r"|sep\w*|oct\w*|nov\w*|dec\w*)"
)
_WHOSE = (
    r"\b(?!(?:it|that|he|she|there|here|what|who|where|let|one|everything|today|tree|root|branch|trunk"
    r"|bark|pot|leaf|year|season|winter|summer|spring|autumn|week|month|day|night|morning|soil|rain"
    r"|sun|weather)['’])[^\W\d]{2,}(?:['’]s\b|s['’](?= |$))"
)
_ANOTHER_TREE = (
    r"^(?:the |a |its |my )*(?:mother|donor|demo|practice|practise|test|trial|spare|club|show|big|small|old"
    r"|little|other|next|second|different|that|wrong|new) (?:tree|one|piece|log|plant|dummy)$",
    r"^(?:on |of )?(?:the |its )?(?:one|tree|neighbour)s? (?:behind|beside|next|to the (?:left|right)|in front|along"
    r"|opposite)(?: .+)?$|^the (?:taller|smaller|larger|bigger|older|younger|shorter|front|left[- ]hand|right[- ]hand|far"
    r"|near|middle) one$|^(?:from |of )?(?:the )?same batch$",
    r"^(?:that one|which one|(?:the|its|her|his) (?:mother|twin|sister|brother|club|original)|unlike (?:this|it|the .+)"
    r"|(?:instead|in place) of (?:this|it|that|hers|his|the .+)|for (?:comparison|example|instance|show only)"
    r"|e\.? ?g\.?|contrary to .+|against (?:advice|the rules|orders|better .+)"
    r"|(?:only |just )?(?:a few|some|several|a couple|most)(?: of (?:them|these|those|it))?|(?:one|two|three|four|five|half) of (?:them|these|those))$",
    r"^(?:in|at|on) (?:the |a |an |old )*(?:museum|park|telly|box|stage|forest|woods|wild|garden centre|nursery|shop|school|gallery"
    r"|hotel|display|stage|telly|tour|phone)$|^over the phone$",
)
_ANOTHER_TIME = (
    r"^(?:on |last |next |by |from |come |this )*(?:mon|tues|wednes|thurs|fri|satur|sun)day"
    r"(?: (?:morning|afternoon|evening|night|week|next|last))*$",
    rf"^(?:some|any|another|one)(?: (?:other|fine|more|of these|of those))* {_A_TIME}(?: (?:now|or other|soon|maybe))*$",
    r"^in (?:a|the) (?:bit|while|minute|moment|little while|tick|past|future|near future|long run|long term|old days)$",
    r"^(?:in (?:due course|good time|former \w+|previous \w+|(?:other|most|some|leap) \w+)|before (?:too )?long|by and by"
    r"|(?:the )?sooner (?:or later|the better)|at (?:some|one) (?:point|stage|time)|down the (?:road|line)|(?:further|later) on)$",
    r"^at the (?:next|earliest|latest|soonest)\b|^first thing\b|^last (?:night|evening)$",
    rf"^(?:the )?{_A_TIME} before(?: last| that)?$|^earlier (?:this|in|that|on|last|today)\b"
    rf"|^(?:at |in |on )?(?:that|the other|those) {_A_TIME}s?$|^at the time$",
    r"^(?:a|some) (?:while|long time|time|bit) (?:ago|back)$|^(?:way |long |ages |years )?back (?:then|when|in .+)$|^(?:ages|years|way) back$",
    rf"^since (?:the )?(?:{_MONTH_OR_DAY}|{_A_TIME})$|^(?:each|every) (?:year|season|spring|summer|autumn|fall|winter|time)$",
    r"\byears running$|\bago$|^by (?:the )?(?:christmas|xmas|easter|whitsun|weekend|holidays?|then)$"
    rf"|^(?:shift(?:ed)?|moved|put|pushed|carried) (?:over |back |on )*to {_MONTH_OR_DAY}$",
    rf"^(?:(?:best|better|as|always|mostly|usually|often|preferably|only|earliest|ideally|typically|target|aim|aim for) )+(?:in )?{_MONTH_OR_DAY}$",
    rf"^(?:(?:best|better|as|always|mostly|usually|often|preferably|only|earliest|ideally|typically) )+in [^\W\d]+$|^{_A_TIME} (?:is )?(?:better|best)$",
    r"^(?:on|in|during|most|many|some|other|all)(?: (?:frosty|cold|hot|wet|dry|windy|bad|hard|mild|other|most|some|all))* (?:nights|days|winters|summers|springs|years)$",
    r"^before (?:my|our|his|her|their) time$|^under (?:the|its) (?:old|last|previous|former|first) owner$"
    r"|^as a (?:seedling|young(?:ster| tree)?|sapling|child)$|^once upon a time$",
)
_NO_REPORT = (
    r"^(?:as a rule|more or less|as good as|near enough|in a (?:way|sense|manner of speaking)|so to speak|as it were"
    r"|(?:sort|kind) of|just about|if anything|yeah,? right|as if|dream on|in (?:your|his|her) dreams|fat chance"
    r"|famous last words|april fools?|question mark|far from it|out of the question|figure of speech|castles in the air|play[ -]acting|anything but|let['’]s say|say|(?:oh )?sorry|n/a"
    r"|(?:id est|i\.?e\.?)\b.*|(?:carried|carry|brought|bring|rolled|roll|spill) (?:over|forward)|still open|open (?:item|point|question)|(?:on )?(?:the )?back burner|on ice|(?:just )?about to|(?:were|had|should) (?:it|i|we|he|she|there)\b.*|and so on|you (?:name it|wish|decide|choose)|all being well|god (?:knows|willing)|list|sketch)$",
    r"^(?:is |are |was |still |soon |yet |next )*(?:to be|to follow|follows|to come|to check|to see|to decide|to finish|to verify"
    r"|to tick off|to confirm|up next|on hold|on the go|in hand|in progress|under way|underway|hang on|hold on|hold it|stand by"
    r"|note to self|turn comes)(?: (?:it|this|soon|later|next|up|first|done|continued|confirmed|finished|decided|completed))*$",
    r"^(?:(?:has|have|had|is|was|it is|it was|it has)(?: still)? to be(?: \w+)?|ought to be(?: \w+)?"
    r"|as (?:it|one) (?:ought|should|must)(?: to)?(?: be)?)$|^would (?:be|have been|help|do|like)\b",
    r"^(?:and |all )*(?:stopped|interrupted|broken off)(?: .+)?$|^(?:hands|arms) full$|^ground (?:still |is |was |too )*frozen(?: solid)?$",
    r"^(?:rain|phone|wind|storm|visitors?|darkness|dark|snow)(?: \w+)? (?:stopped|interrupted|halted|rang|cut short)(?: .+)?$"
    r"|^soil gone$|^(?:the |new )?(?:pot|soil|mix|wire|feed|tray|spray|paste) (?:missing|ordered|awaited|on its way)$|^(?:and )?out again$",
    r"^or\b|^(?:wrong|false) (?:line|page|day|word|entry|date|card)$|^nowhere$"
    r"|^(?:for .+ )?(?:read|make (?:that|it)|should (?:read|be)) [^\W\d]+$|^(?:i mean|meaning|rather|sorry|or rather|correction|meant) [^\W\d]+$",
    r"^(?:as long|so long) as\b|^in the event (?:of|that)\b|^(?:on|under) (?:one )?conditions?\b|^given (?:time|a|the|good|dry)\b"
    r"|^(?:provided|assuming|supposing|subject to|depending on|pending|barring)\b|\b(?:permitting|allowing|willing|depending)$",
    r"\b(?:bad|good|poor|silly|mad|terrible|great|nice) idea$|^a (?:must|priority)$|\bplease$|^please\b|^(?:same|ditto) (?:as|for|to)\b"
    r"|^ditto\b|^as with\b",
    r"\b(?:my mind|better of it|my senses|my nerve|chickened|bottled it|funked it|second thoughts?|two minds|cold feet"
    r"|(?:calls?|called|written|wrote) (?:it )?off)$|^put (?:it )?off$|^(?:dropped|binned|gave up|shelved) (?:on )?(?:the |that |my )?(?:idea|plan)$",
    r"^(?:it['’]?s )?your \w+$|^(?:hand(?:ed)?|pass(?:ed)?|left|over|up|back)(?: (?:it|over|on|this))* (?:to|for) [^\W\d]+$|^passed on$"
    r"|^(?:i )?(?:saw|seen|watched)(?: it)?(?: done)?$|^(?:left|missed) (?:it|out|undone)$|^(?:skipped|missed|left|omitted) it$",
    r"\b(?:crying|screaming|begging|begs|calls|calling|asks|asking|cries|ripe|itching|dying|keen|loath|burning|longing|eager)"
    r" (?:out )?(?:for|to)(?: (?:it|this|do it|be \w+))*$|^worth (?:thinking|considering|doing|trying|remembering)\b|^food for\b",
    r"^(?:part|step|phase|lesson|option|chapter|episode|approach|variant|plan|version) (?:one|two|three|four|five|a|b|c)$"
    r"|\b(?:year|month|week|season) plan$|^(?:model|text ?book|exam|test) \w+$|^(?:[^\W\d]+ )?(?:issue|edition)$",
)
# Of letters alone, as `words_beside.py` looks at them.
TURNING_PATTERNS = (*_ANOTHER_TREE, *_ANOTHER_TIME, *_NO_REPORT)
# When on that day it was, why, or how it went: these leave nothing open.
_HOW_IT_WENT = (
    r"first thing(?: in the morning)?|(?:(?:only |just|well|barely|right) ?)*in (?:good )?time"
    r"|(?:it |all )*went (?:very |quite )?(?:well|badly|fine|smoothly)"
    r"|while (?:at it|(?:i|we) (?:was|were) (?:at it|about it|there|here))"
    r"|as (?:promised|requested)|(?:the )?same as (?:always|ever|usual|the others?)"
    r"|(?:as|like) (?:in )?(?:every|last) (?:year|season|time|spring|summer|autumn|winter)"
    r"|given the (?:heat|cold|drought|rain|wind|frost|weather|forecast)"
    r"|(?:for|with|at|in) (?:the )?[^\W\d]+['’]s (?:show|wedding|birthday|party|help|request|wish|way)"
)
_OF_ANOTHER = "|".join(_ANOTHER_TREE)
# Signs and no word say nothing.
_OPEN = "|".join((r"^[^\w]+$", *_ANOTHER_TIME, *_NO_REPORT))


def is_how_it_went(clause: str) -> bool:
    """Whether all of a clause says when on that day it was, why, or how it went.

    >>> is_how_it_went("first thing"), is_how_it_went("first thing tomorrow")
    (True, False)
    """
    return compiled_way(_HOW_IT_WENT).fullmatch(clause) is not None


def is_of_another_tree(clause: str) -> bool:
    """Whether all of a clause names a tree that is not this one.

    >>> is_of_another_tree("the club tree"), is_of_another_tree("the tree, left side")
    (True, False)
    """
    return compiled_way(_OF_ANOTHER).search(clause) is not None


def is_somebodys(words: str) -> bool:
    """Whether words say whose a thing is.

    >>> is_somebodys("gil's maples"), is_somebodys("the tree's left")
    (True, False)
    """
    return compiled_way(_WHOSE).search(words) is not None


def is_left_open(clause: str) -> bool:
    """Whether a clause leaves open whether an act was done on that day.

    >>> is_left_open("apparently so"), is_left_open("some other time"), is_left_open("buds fat")
    (True, True, False)
    """
    return len(clause) <= _LONGEST and (
        is_of_such_words(clause) or compiled_way(_OPEN).search(clause) is not None
    )


def is_of_such_words(clause: str) -> bool:
    """Whether all words of a clause leave that open, or bind such as do."""
    words = [word.casefold().replace("’", "'") for word in _TOKEN.findall(clause)]
    return not (
        TURNING_WORDS.isdisjoint(words)
        or _SIGNS.search(clause)
        or any(word not in TURNING_WORDS and word not in BINDING_WORDS for word in words)
    )
