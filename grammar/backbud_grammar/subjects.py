"""Reading a subject line: handles, groups, `all …` and `except …`."""

from __future__ import annotations

import re
from typing import Any

from backbud_grammar.problems import Flaw
from backbud_grammar.shape import parser
from backbud_grammar.syntax import Selection, Subjects


def read_subjects(text: str) -> Subjects | Flaw:
    """Read a subject line."""
    if _NOT_ONLY_HANDLES.search(text) is None:
        # Handles with commas need no parser.
        found = [Selection("handle", one[0], one.start()) for one in _HANDLE.finditer(text)]
        return Subjects(tuple(found))
    known = _all_of_one(text)
    if known is not None:
        return known
    from lark import UnexpectedInput

    try:
        tree: Any = parser().parse(text, start="subjects")
    except UnexpectedInput:
        return _flaw_of_subjects(text)
    chosen: list[Selection] = []
    left_out: list[Selection] = []
    # `except` is not in the tree; whatever stands after it is left out.
    mark = re.search(r"(?i)(?:^|[\s,])except(?=[\s,])", text)
    border = mark.end() if mark else len(text)
    for node in tree.children:
        by = {
            "handle": "handle",
            "all_in": "in",
            "all_of": "of",
            "all_kind": "kind",
            "everything": "all",
        }[node.data]
        offset = node.children[0].start_pos if node.children else 0
        item = Selection(by, " ".join(map(str, node.children)), offset or 0)
        (chosen if item.offset < border else left_out).append(item)
    return Subjects(tuple(chosen), tuple(left_out))


_HANDLE = re.compile(r"[^\s,]+")
_NAME = r"(?!(?:all|in|of|except)(?![^\s,]))[^\s,]+"
_ALL_OF_ONE = re.compile(
    rf"(?i)all(?: (?:(?P<by>in|of) (?P<handle>{_NAME})|(?P<kind>{_NAME}(?: {_NAME})*)))?"
    rf"(?: except (?P<left>{_NAME}(?:, {_NAME})*))?"
)


def _all_of_one(text: str) -> Subjects | None:
    """`all in PLACE`, `all of PERSON`, `all KIND` or `all`, and who is left out, in single blanks:
    most lines that say more than handles need no parser either. None for any other."""
    found = _ALL_OF_ONE.fullmatch(text)
    if found is None:
        return None
    if found["handle"]:
        chosen = Selection(found["by"].lower(), found["handle"], found.start("handle"))
    elif found["kind"]:
        chosen = Selection("kind", found["kind"], found.start("kind"))
    else:
        chosen = Selection("all", "", 0)
    begin = found.start("left")
    left = _HANDLE.finditer(found["left"] or "")
    return Subjects(
        (chosen,), tuple([Selection("handle", one[0], begin + one.start()) for one in left])
    )


_NOT_ONLY_HANDLES = re.compile(
    r"(?i)(?:^|[\s,])(?:all|except)(?:[\s,]|$)|[^\s,][ \t]+[^\s,]|,[ \t]*(?:,|$)|^[ \t]*,|^[ \t]*$"
    r"|[^\S \t]"
)

# What a subject line may have wrong, the first that is found: pattern, message, hint.
_WRONG_SUBJECTS = (
    (
        re.compile(r"(?i)[;/&+]|(?<=\s)(?:and|und|plus)(?=\s)"),
        "only a comma parts handles",
        "For example: hoshi, yuki",
    ),
    (
        re.compile(r",(?=\s*(?:,|$))|^,"),
        "nothing stands at this comma",
        "Take it out, or write a handle.",
    ),
    (
        re.compile(r"(?i)^\s*except(?=\s|$)"),
        "“except” has nothing to take from",
        "For example: all in tunnel except hoshi",
    ),
    (
        re.compile(r"(?i)(?<=[\s,])except\s*$"),
        "nothing stands after “except”",
        "Name what is left out: except hoshi, yuki",
    ),
    (
        re.compile(r"(?i)\ball\s+(?:in|of)(?=\s*(?:,|$|except\s))"),
        "a handle is missing here",
        "Write all in PLACE, or all of PERSON.",
    ),
    (
        re.compile(r"(?i)(?<=\s)except(?=\s.*\sexcept\s)"),
        "“except” stands here twice",
        "Once is enough: except hoshi, yuki",
    ),
    (re.compile(r"(?<=[^\s,])\s+[^\s,]"), "no comma stands before this", ""),
)


def _parted(text: str, at: int) -> str:
    """What to write where words stand with no comma between them; `at`: before the second.

    They are two handles, or what a person calls one tree.
    """
    called = text[text.rfind(",", 0, at) + 1 :].partition(",")[0].lower().split()
    if all(word.isalpha() and word not in ("all", "except") for word in called):
        two = f"Two trees have a comma between them: {', '.join(called)}. "
        return f"{two if len(called) == 2 else ''}One tree has one word: {'-'.join(called)}"
    return "Write handles with commas, or all in PLACE, all of PERSON, all KIND, and then except …"


def _flaw_of_subjects(text: str) -> Flaw:
    for pattern, message, hint in _WRONG_SUBJECTS:
        found = pattern.search(text)
        if found is not None:
            blanks = len(found[0]) - len(found[0].lstrip())
            return Flaw(
                "bad-subjects",
                0,
                found.start() + blanks + 1,
                len(found[0]) - blanks,
                message,
                hint or _parted(text, found.start()),
            )
    return Flaw(
        "bad-subjects",
        0,
        1,
        len(text),
        "this line does not say which trees",
        "Write handles with commas, or all in PLACE, all of PERSON, all KIND.",
    )
