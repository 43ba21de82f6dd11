"""What a price, a bill or an hour is for, where it names works as one says them at the bench."""

from __future__ import annotations

_WORK = (
    r"(?:(?:wire|root|needle|candle|branch|shoot|leaf|winter) )?"
    r"(?:re-?pot(?:s|ting)?|(?:root )?prun(?:e|ing)|wir(?:e|ing)|un-?wir(?:e|ing)|re-?wir(?:e|ing)|trim(?:ming)?|pinch(?:ing)?"
    r"|de-?candl(?:e|ing)|defoliat(?:e|ing|ion)|thin(?:ning)?|re-?styl(?:e|ing)|styl(?:e|ing)|bend(?:ing)?|guy(?:ing)?"
    r"|carv(?:e|ing)|graft(?:s|ing)?|layer(?:ing)?|clean(?:ing)?|weed(?:ing)?|water(?:ing)?|feed(?:ing)?|spray(?:ing)?"
    r"|pot(?:ting)? on|jin|shari|deadwood|root work|wire removal|removal|check|inspection|tidy|shaping|shape|storage|boarding"
    r"|care|needle plucking|plucking)"
)
_WHAT_SORT = (
    r"(?:(?:a|an|the|its|first|second|full|complete|light|lighter|hard|heavy|structural|basic|big|small|quick|general"
    r"|good|proper|yearly|annual|spring|summer|autumn|fall|winter|new) )*"
)
_ON_WHAT = r"(?: (?:it|them|all|both|out|up|back|the (?:top|apex|pads|branches|roots|tree|lot)))?"
_JOINED = r"(?:,? and(?: then)?|,? then|,? plus| \+| &|/)"
_MONTH = (
    r"(?:january|february|march|april|may|june|july|august|september|october|november|december"
    r"|jan|feb|mar|apr|jun|jul|aug|sept?|oct|nov|dec)"
)
_SEASON = r"(?:spring|summer|autumn|fall|winter)"
# When it is to be done: it stays in the words of the promise.
_WHEN = (
    rf"(?: (?:after (?:flowering|it flowers|the flowers|leaf fall|the frosts?)|before (?:growth|bud ?burst|{_SEASON})"
    rf"|(?:in |this |next |over (?:the )?)(?:early |late |mid )?(?:{_SEASON}|{_MONTH})))?"
)
_WORKS = rf"{_WHAT_SORT}{_WORK}{_ON_WHAT}(?:{_JOINED} {_WHAT_SORT}{_WORK}{_ON_WHAT}){{0,3}}{_WHEN}"

# As a detail of the act: what it is for, in the keeper's own words.
WORKS_AGREED = ((rf"(?:to )?(?:do )?({_WORKS})", r"for \1"),)
