"""Vim's syntax file, and how Vim finds out that a file is a journal's."""

from __future__ import annotations

from backbud_grammar.editors.patterns import (
    ACT_WORDS,
    ASIDE,
    CARDS,
    CHOICE_WORDS,
    DATE,
    DETAIL_WORDS,
    HEAD,
    HOUR_BEFORE,
    KIND_WORDS,
    MADE_BY,
    MEASURE,
    PROSE_ACT_WORDS,
    QUOTED,
    WEATHER_WORDS,
    CardWords,
    any_of,
    in_vim,
)

# Patterns are set between semicolons: none of them holds one.
_INDENTED = rf"%(^[ \t]+{in_vim(HOUR_BEFORE)})@<="
_BEFORE = r'%(^|[ \t"])@<='
_AFTER = r'%([ \t,"]|$)@='
_WORD_ENDS = r"%([ \t]|$)@="
# From a line to the last deeper one below it; remarks to oneself may stand between.
_DEEPER = r"end=;\v^%(\z1[ \t]|[ \t]*#)@!;"

_LINKS = {
    "Remark": "Comment", "Aside": "Comment", "Date": "Title", "Span": "Constant",
    "Kind": "Type", "Handle": "Identifier", "Subjects": "Identifier", "Choice": "Keyword",
    "Act": "Statement", "ProseLine": "String", "Text": "String", "Measure": "Number",
    "Detail": "Special", "Weather": "Special",
}  # fmt: skip


def vim_detection() -> str:
    """`*.txt` below a folder with a backbud.toml is a journal's."""
    return f"""\
" {MADE_BY}
autocmd BufRead,BufNewFile *.txt
      \\ if !empty(findfile('backbud.toml', escape(expand('<afile>:p:h'), ' ,;\\') . ';'))
      \\ |   setlocal filetype=backbud commentstring=#\\ %s
      \\ | endif
"""


def vim_syntax() -> str:
    """The syntax file."""
    lines = [
        f'" {MADE_BY}',
        "if exists('b:current_syntax')",
        "  finish",
        "endif",
        "scriptencoding utf-8",
        "",
        _match("Remark", r"^[ \t]*#.*$", "contains=@Spell"),
        _match("Date", r"^[0-9][^ \t]*", "nextgroup=backbudDay"),
        _match("Day", r".*$", "contained contains=backbudWeather,backbudMeasure"),
        _match("Weather", _before(any_of(WEATHER_WORDS)), "contained"),
        _match("Subjects", r"^[^ \t#0-9].*$", "contains=backbudChoice"),
        _match(
            "Choice",
            r"\c%(^|[ \t,])@<=" + in_vim(any_of(CHOICE_WORDS)) + r"%([ \t,]|$)@=",
            "contained",
        ),
        "",
        "syn cluster backbudDetails contains=backbudDetail,backbudMeasure,backbudSpan,backbudText,"
        "backbudRemark",
        _match("Detail", _before(any_of(DETAIL_WORDS)), "contained"),
        _match("Measure", _before(MEASURE), "contained"),
        _match("Span", _before(DATE), "contained"),
        _match("Text", in_vim(QUOTED), "contained contains=@Spell"),
        _region(
            "ActLine", r"\z([ \t]+)\ze[^ \t#]", "contains=backbudAct,backbudAside,@backbudDetails"
        ),
        _region("ProseLine", _opens(PROSE_ACT_WORDS), "contains=backbudAct,backbudRemark,@Spell"),
        _match("Act", r"\c" + _INDENTED + in_vim(any_of(ACT_WORDS)) + _WORD_ENDS, "contained"),
        rf"syn region backbudAside start=;\v[ \t]@<={in_vim(ASIDE)}{_WORD_ENDS}; end=;\%$; "
        "contained contains=backbudAct,backbudRemark,@Spell",
        "",
        _match("Kind", "^" + in_vim(any_of(KIND_WORDS)), "contained nextgroup=backbudHandle"),
        _match("Handle", r"[ \t]+[^ \t]+", "contained"),
    ]
    for card in CARDS:
        lines += _card(card)
    lines += [
        "",
        "syn sync match backbudSyncPage grouphere NONE ;^[0-9];",
        *(f"hi def link backbud{name} {link}" for name, link in _LINKS.items()),
        "",
        "let b:current_syntax = 'backbud'",
    ]
    return "\n".join(lines) + "\n"


def _card(card: CardWords) -> list[str]:
    name = card.kind.capitalize()
    head = in_vim(HEAD.replace(any_of(KIND_WORDS), card.kind))
    labels = in_vim(any_of((*card.labels, *card.prose)))
    lines = [
        rf"syn region backbud{name} start=;\v^{head}$; end=;\v^\ze[^ \t#]; keepend "
        f"contains=backbudKind,backbud{name}Line,backbud{name}Prose,backbudRemark",
        _region(
            f"{name}Line",
            r"\z([ \t]+)\ze[^ \t#]",
            f"contained contains=backbud{name}Label,@backbudDetails",
        ),
        _region(
            f"{name}Prose",
            _opens(card.prose),
            f"contained contains=backbud{name}Label,backbudRemark,@Spell",
        ),
        _match(f"{name}Label", r"\c" + _INDENTED + labels + _WORD_ENDS, "contained"),
        rf"syn sync match backbudSync{name} grouphere backbud{name} ;\v^{head}$;",
        f"hi def link backbud{name}Label Type",
        f"hi def link backbud{name}Prose String",
    ]
    if card.free:
        free = _match(f"{name}Label", _INDENTED + r"[^ \t#].{-}\ze[ \t]+[0-9]", "contained")
        lines.insert(3, free)
    return ["", *lines]


def _match(name: str, pattern: str, more: str) -> str:
    return rf"syn match backbud{name} ;\v{pattern}; {more}"


def _region(name: str, start: str, more: str) -> str:
    return rf"syn region backbud{name} start=;\v^{start}; {_DEEPER} keepend {more}"


def _opens(words: tuple[str, ...]) -> str:
    return rf"\c\z([ \t]+)\ze{in_vim(HOUR_BEFORE)}{in_vim(any_of(words))}%([ \t]|$)"


def _before(pattern: str) -> str:
    return _BEFORE + in_vim(pattern) + _AFTER
