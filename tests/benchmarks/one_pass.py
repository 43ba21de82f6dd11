"""The text of a diary goes in; one tree of every word and measure comes out, in a single pass.

This is what the compiler is measured against: the same language, with the terminals of
journal.lark themselves, read by one LALR grammar that never remembers what it read before.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path

import lark

from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.details import read_items
from backbud_grammar.forms import ActForm
from backbud_grammar.items import DetailItem, item_of
from backbud_grammar.problems import Misread
from backbud_grammar.shape import part_of

_OUTLINE = r"""
start: _NL* (page | card)*
page: DAY_DATE _details? _NL (block | _NL)*
card: HEAD (label_line | _NL)*
label_line: DENT _item+ (_COMMA _item+)* REMARK_TEXT? _NL
block: _selections (_EXCEPT _selections)? _NL act*
act: DENT WORD _details? REMARK_TEXT? _NL
   | DENT PROSE _NL
_details: _detail (_COMMA _detail)*
_detail: _item+

HEAD.9: /(?:tree|place|pot|person|mix|material|group)[ \t]+[^ \t,\n]+[ \t]*\n/
DAY_DATE.9: /[0-9][^ \t\n]*(?=[ \t\n])/
DENT.8: /(?<=\n)[ \t]+(?=[^\s#])/
PROSE.9: /(?:noted|note|private)[ \t][^\n]*(?:\n[ ]{4,}[^\s#][^\n]*)*/
REMARK_TEXT.9: /--[ \t]+[^\n]*(?:\n[ ]{4,}[^\s#][^\n]*)*/
_NL.7: /\n/
%ignore /[ \t]*#[^\n]*(?=\n)/
%ignore /\n[ ]{4,}(?=[^\s#])/
"""


_MARK = "// ------------------------------------------------------------------ one detail"


def one_pass_parser() -> lark.Lark:
    """Build the one-pass parser out of journal.lark's own terminals and rules of details."""
    grammar = files("backbud_grammar").joinpath("journal.lark").read_text(encoding="utf-8")
    selections = grammar[grammar.index("_selections:") : grammar.index(_MARK)]
    details = grammar[grammar.index("_item:") :]
    # In one pass a word or a handle ends at a comma and at the line's end too.
    details = details.replace(
        r'WORD:        /[^\s"]+/', r'WORD:        /(?!--[ \t\n])[^\s",]+(?:,[^\s",]+)*/'
    )
    details = re.sub(r"\(\?!\[\^\\s\"", r'(?![^\\s,"', details)
    return lark.Lark(
        _OUTLINE + selections + details, parser="lalr", lexer="contextual", maybe_placeholders=False
    )


def read_one_pass(folder: Path, *, values: bool) -> int:
    """Read every diary file in one pass and return the number of acts.

    `values`: also read each detail of the tree into the values that the compiler makes of it
    (measures in units, the form of the act it fits), as often as it stands there.
    """
    parser = one_pass_parser()
    acts = by_word(ACTS)
    count = 0
    for path in sorted(folder.glob("diary/**/*.txt")):
        text = path.read_text(encoding="utf-8")
        tree = parser.parse(text if text.endswith("\n") else text + "\n")
        for act in tree.find_data("act"):
            count += 1
            if values:
                _values(act, acts, text)
    return count


def _values(act: lark.Tree[lark.Token], acts: Mapping[str, ActForm], text: str) -> None:
    """Read the details of one act node; a detail ends where a comma stood."""
    head, *items = act.children[1:]
    form = acts.get(str(head))
    if form is None or form.prose or form.names_act:
        return
    groups: list[list[DetailItem]] = [[]]
    end = 0
    for node in items:
        if isinstance(node, lark.Token) and node.type == "REMARK_TEXT":
            break
        item = _item(node, text)
        if "," in text[end : item.offset] and groups[-1]:
            groups.append([])
        end = item.offset + item.length
        groups[-1].append(item)
    for group in groups:
        if group:
            try:
                read_items(group, form.forms)
            except Misread:
                continue


def _item(node: lark.Tree[lark.Token] | lark.Token, text: str) -> DetailItem:
    """A node as an item; the words, most of them, by the shortest way."""
    if isinstance(node, lark.Token) and node.type == "WORD":
        return DetailItem("word", str(node), node.start_pos or 0)
    return item_of(part_of(node), text)
