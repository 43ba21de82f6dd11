"""The catalogues hold every sentence that is shown, and nothing else."""

from __future__ import annotations

import ast
import gettext
import io
import re
from collections import Counter
from pathlib import Path

import pytest
from babel.messages.catalog import Message
from tests.words.catalogue import SENTENCE, key_of, messages, mo_bytes, modules, read

from backbud.tongue import CATALOGUES, ENGLISH, LANGUAGES

OTHERS = [language for language in LANGUAGES if language != ENGLISH]
# How many sentences have no words of a language yet: they are shown in English. Only lowered.
OPEN = {"de": 0}
# Files whose sentences tell a problem of a journal, or name a figure: they are terminal's.
NOT_SHOWN = (
    "bench/", "plan/asking.py", "plan/check_figures.py", "plan/check_kinds.py", "plan/pack.py",
    "plan/sections.py", "views/published.py", "views/plain_details.py", "climate/cold_region.py",
    "pages/drawings/",
)  # fmt: skip
_PLACE = re.compile(r"{[^{}]*}")


def _texts(one: Message) -> tuple[str, ...]:
    return (one.id,) if isinstance(one.id, str) else tuple(one.id)


def _said(one: Message) -> tuple[str, ...]:
    return (one.string,) if isinstance(one.string, str) else tuple(one.string)


@pytest.mark.parametrize("language", OTHERS)
def test_a_catalogue_has_the_sentences_of_today_and_no_others(language: str) -> None:
    """Else: python -m tests.words.catalogue."""
    known = {key_of(one) for one in read(language) if one.id}
    today = set(messages())
    assert known - today == set()
    assert today - known == set()


@pytest.mark.parametrize("language", OTHERS)
def test_what_is_read_at_run_time_is_made_of_the_catalogue(language: str) -> None:
    """`gettext` of the standard library reads what Babel wrote."""
    written = (CATALOGUES / f"{language}.mo").read_bytes()
    assert written == mo_bytes(read(language))
    found = gettext.GNUTranslations(io.BytesIO(written))
    for one in read(language):
        if one.id and isinstance(one.id, str) and one.string:
            told = found.pgettext(one.context, one.id) if one.context else found.gettext(one.id)
            assert told == one.string


@pytest.mark.parametrize("language", OTHERS)
def test_what_is_open_only_shrinks(language: str) -> None:
    is_open = [one for one in read(language) if one.id and not all(_said(one))]
    assert len(is_open) <= OPEN[language], [one.id for one in is_open]


@pytest.mark.parametrize("language", OTHERS)
def test_each_sentence_has_the_same_values_in_its_places(language: str) -> None:
    for one in read(language):
        if one.id and all(_said(one)):
            places = {place for text in _texts(one) for place in _PLACE.findall(text)}
            for said in _said(one):
                assert set(_PLACE.findall(said)) == places, one.id
                assert said[:1].isspace() == _texts(one)[0][:1].isspace(), one.id
                assert said[-1:].isspace() == _texts(one)[0][-1:].isspace(), one.id


# ------------------------------------------------------------------ strings outside it


def test_no_sentence_is_put_together_outside_the_catalogue() -> None:
    """In the functions of what is shown a text with words in it goes through the catalogue."""
    outside = Counter(
        (path.name, text)
        for path in modules()
        if not any(part in path.as_posix() for part in NOT_SHOWN)
        for text in _outside(path)
    )
    assert {key: n for key, n in outside.items() if key[1] not in _NO_SENTENCES} == {}


# What looks like a sentence and is none: a key, a line of the diary, what an exception says.
_NO_SENTENCES: frozenset[str] = frozenset(
    Path(__file__).with_name("no_sentences.txt").read_text().split("\n")
)
_ASKED = {
    "phrase", "counted_phrase", "detail", "on", "has", "measure", "says", "last_with", "first",
    "done_since", "startswith", "endswith", "split", "partition", "rpartition", "field", "getattr",
    "macro", "template", "page", "number", "compile", "match", "search", "sub", "find", "once",
    "same", "encode", "Flaw", "Figure", "meet", "contained", "mentions", "removeprefix",
    "removesuffix", "of_kind", "all", "was", "cast", "get", "count", "Literal", "register_of",
    "places_found", "looks_found",
}  # fmt: skip


def _outside(path: Path) -> list[str]:
    found: list[str] = []
    tree = ast.parse(path.read_text())
    for node in ast.walk(tree):
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)) and not (
            # What a builder of a species is given is looked up where a follow-up is made of it.
            path.parts[-3:-1] == ("backbud_species", "habits") and _builds(node)
        ):
            _look(node.body[1:] if ast.get_docstring(node) else node.body, found)
    return found


def _builds(node: ast.FunctionDef | ast.AsyncFunctionDef) -> bool:
    """Whether a function makes rules, when the class of a species is made."""
    return node.returns is not None and ast.unparse(node.returns) in ("Rule", "Works")


def _look(nodes: list[ast.stmt] | list[ast.expr], found: list[str]) -> None:
    for node in nodes:
        _see(node, found)


def _see(node: ast.AST, found: list[str]) -> None:
    if isinstance(node, (ast.Raise, ast.Assert, ast.Compare, ast.FunctionDef)):
        return
    if isinstance(node, ast.Call):
        func = node.func
        name = func.attr if isinstance(func, ast.Attribute) else getattr(func, "id", "")
        if name in _ASKED or name.endswith("Error"):
            for argument in (*node.args, *(one.value for one in node.keywords)):
                if not isinstance(argument, (ast.Constant, ast.JoinedStr)):
                    _see(argument, found)
            return
    if isinstance(node, ast.JoinedStr):
        text = "".join(
            str(part.value) if isinstance(part, ast.Constant) else "{}" for part in node.values
        )
        letters = text.replace("{}", "")
        if re.search(r"[^\W\d_]{2,}", letters) and " " in letters and not _is_markup(letters):
            found.append(text)
        return
    if isinstance(node, ast.Constant):
        is_text = isinstance(node.value, str) and SENTENCE.search(node.value)
        if is_text and not _is_markup(str(node.value)):
            found.append(str(node.value))
        return
    if isinstance(node, ast.Dict):
        _look(node.values, found)
        return
    if isinstance(node, ast.Subscript):
        _see(node.value, found)
        return
    for child in ast.iter_child_nodes(node):
        _see(child, found)


def _is_markup(text: str) -> bool:
    return any(sign in text for sign in ("<", '="', "M{}", "\n", "--running"))
