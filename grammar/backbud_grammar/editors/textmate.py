"""The TextMate grammar, and the extension around it."""

from __future__ import annotations

import json
from typing import Any

from backbud_grammar.editors.patterns import (
    ACT_WORDS,
    ASIDE,
    CARDS,
    CHOICE_WORDS,
    DATE,
    DETAIL_WORDS,
    HOUR_BEFORE,
    MADE_BY,
    MEASURE,
    PROSE_ACT_WORDS,
    QUOTED,
    WEATHER_WORDS,
    CardWords,
    any_of,
)

Rule = dict[str, Any]

_ACT = "keyword.other.act"
_LABEL = "support.type.property-name.label"

_BEFORE = r'(?<![^\s"])'
_AFTER = r'(?![^\s,"])'
# From a line to the last deeper one below it; remarks to oneself may stand between.
_DEEPER = r"^(?!\1[ \t]|[ \t]*#)"


def textmate_grammar() -> str:
    """The grammar as JSON."""
    return _json(
        {
            "comment": MADE_BY,
            "name": "backbud journal",
            "scopeName": "text.backbud",
            "fileTypes": [],
            "patterns": [
                _include("remark"),
                *(_include(f"card-{card.kind}") for card in CARDS),
                _include("day"),
                _include("subjects"),
                _include("prose-act"),
                _include("act-with-aside"),
                _include("act"),
            ],
            "repository": {
                "remark": _match(r"^[ \t]*#.*$", "comment.line.number-sign"),
                **{f"card-{card.kind}": _card(card) for card in CARDS},
                "day": {
                    "match": r"^([0-9]\S*)(.*)$",
                    "captures": {
                        "1": _named("markup.heading.date"),
                        "2": {
                            "patterns": [
                                _match(_apart(any_of(WEATHER_WORDS)), "keyword.other.weather"),
                                _include("measure"),
                            ]
                        },
                    },
                },
                "subjects": {
                    **_match(r"^[^\s#].*$", "entity.name.tag.subjects"),
                    "captures": {
                        "0": {
                            "patterns": [
                                _match(
                                    rf"(?i)(?<![^\s,]){any_of(CHOICE_WORDS)}(?![^\s,])",
                                    "keyword.operator.choice",
                                )
                            ]
                        }
                    },
                },
                "prose-act": _prose(_opening(PROSE_ACT_WORDS), _ACT, "deeper-act"),
                "act-with-aside": {
                    "begin": rf"{_opening(ACT_WORDS)}(.*?)(?<=\s)({ASIDE}(?=\s|$))",
                    "end": _DEEPER,
                    "beginCaptures": {
                        "2": _named(_ACT),
                        "3": {"patterns": [_include("details")]},
                        "4": _named("comment.line.aside"),
                    },
                    "contentName": "comment.line.aside.backbud",
                    "patterns": [_include("remark"), _include("deeper-act")],
                },
                "act": _lines(
                    _opening(ACT_WORDS), _ACT, "remark", "deeper-act", "aside", "details"
                ),
                # A slip: it is read as an act, so it looks like one.
                "deeper-act": {"match": _opening(ACT_WORDS), "captures": {"2": _named(_ACT)}},
                "aside": _match(rf"(?:^|(?<=\s)){ASIDE}(?=\s|$).*$", "comment.line.aside"),
                "details": {
                    "patterns": [
                        _match(QUOTED, "string.quoted.double"),
                        _match(_apart(DATE), "constant.other.date"),
                        _include("measure"),
                        _match(_apart(any_of(DETAIL_WORDS)), "keyword.operator.detail"),
                    ]
                },
                "measure": _match(_apart(MEASURE), "constant.numeric.measure"),
            },
        }
    )


def extension_manifest() -> str:
    """The least that an editor which takes such extensions asks for."""
    return _json(
        {
            "name": "backbud",
            "displayName": "backbud journal",
            "description": "Highlighting for backbud care journals.",
            "version": "0.1.0",
            "publisher": "backbud",
            "license": "MIT",
            "engines": {"vscode": "^1.60.0"},
            "categories": ["Programming Languages"],
            "contributes": {
                "languages": [
                    {
                        "id": "backbud",
                        "aliases": ["backbud journal"],
                        "configuration": "./language-configuration.json",
                    }
                ],
                "grammars": [
                    {
                        "language": "backbud",
                        "scopeName": "text.backbud",
                        "path": "./backbud.tmLanguage.json",
                    }
                ],
            },
        }
    )


def extension_configuration() -> str:
    """What a remark begins with, and which signs come in pairs."""
    return _json(
        {
            "comments": {"lineComment": "#"},
            "surroundingPairs": [['"', '"']],
            # Acts and details may hold hyphens.
            "wordPattern": r"[^\s,\"]+",
        }
    )


def _card(card: CardWords) -> Rule:
    free = [_lines(r"^([ \t]+)([^\s#].*?)(?=[ \t]+[0-9])", _LABEL, "remark", "details")]
    return {
        "begin": rf"^({card.kind})[ \t]+([^ \t,]+)[ \t]*$",
        "end": r"^(?=[^\s#])",
        "beginCaptures": {"1": _named("storage.type.kind"), "2": _named("entity.name.type.handle")},
        "patterns": [
            _include("remark"),
            _prose(_opening(card.prose), _LABEL),
            _lines(_opening(card.labels), _LABEL, "remark", "details"),
            *(free if card.free else []),
        ],
    }


def _opening(words: tuple[str, ...]) -> str:
    return rf"^([ \t]+){HOUR_BEFORE}((?i:{any_of(words)}))(?=\s|$)"


def _lines(begin: str, scope: str, *includes: str) -> Rule:
    return {
        "begin": begin,
        "end": _DEEPER,
        "beginCaptures": {"2": _named(scope)},
        "patterns": [_include(name) for name in includes],
    }


def _prose(begin: str, scope: str, *includes: str) -> Rule:
    return {
        **_lines(begin, scope, "remark", *includes),
        "contentName": "string.unquoted.prose.backbud",
    }


def _apart(pattern: str) -> str:
    return f"{_BEFORE}{pattern}{_AFTER}"


def _named(scope: str) -> Rule:
    return {"name": f"{scope}.backbud"}


def _match(pattern: str, scope: str) -> Rule:
    return {"match": pattern, **_named(scope)}


def _include(name: str) -> Rule:
    return {"include": f"#{name}"}


def _json(value: Rule) -> str:
    return json.dumps(value, indent=2, ensure_ascii=False) + "\n"
