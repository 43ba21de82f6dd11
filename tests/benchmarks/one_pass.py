"""The text of a diary goes in; one tree of every word and measure comes out, in a single pass.

This is what the compiler is measured against: the same language, with the terminals of
journal.lark themselves, read by one LALR grammar that never remembers what it read before.
"""

from __future__ import annotations

import re
from importlib.resources import files

import lark

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


def one_pass_parser() -> lark.Lark:
    """Build the one-pass parser out of journal.lark's own terminals and rules of details."""
    grammar = files("backbud_grammar").joinpath("journal.lark").read_text(encoding="utf-8")
    selections = grammar[grammar.index("_selections:") : grammar.index("// ------------------------------------------------------------------ one detail")]
    details = grammar[grammar.index("_item:") :]
    # In one pass a word or a handle ends at a comma and at the line's end too.
    details = details.replace(r'WORD:        /[^\s"]+/', r'WORD:        /(?!--[ \t\n])[^\s",]+(?:,[^\s",]+)*/')
    details = re.sub(r"\(\?!\[\^\\s\"", r'(?![^\\s,"', details)
    return lark.Lark(_OUTLINE + selections + details, parser="lalr", lexer="contextual",
                     maybe_placeholders=False)
