"""Places and changes in a client's counting go in; characters and lines come out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lsprotocol import types as lsp

from backbud.editor.text import OpenText, characters, units


@pytest.mark.parametrize(
    ("encoding", "length"), [("utf-8", 4 + 2 + 1), ("utf-16", 2 + 1 + 1), ("utf-32", 3)]
)
def test_an_emoji_an_accent_and_a_letter(encoding: str, length: int) -> None:
    assert units("🌱éa", encoding) == length


def test_a_place_within_an_emoji_is_before_it() -> None:
    assert [characters("a🌱b", n, "utf-16") for n in range(6)] == [0, 1, 1, 2, 3, 3]


@given(
    st.text(alphabet="aé🌱\n", max_size=12),
    st.text(alphabet="bü🌳\n", max_size=4),
    st.data(),
)
def test_a_change_is_what_python_does_to_the_text(old: str, new: str, data) -> None:
    """The places are worked out by encoding what stands before them, apart from our own code."""
    begin = data.draw(st.integers(0, len(old)))
    end = data.draw(st.integers(begin, len(old)))

    def place(at: int) -> lsp.Position:
        line = old.count("\n", 0, at)
        start = old.rfind("\n", 0, at) + 1
        return lsp.Position(line, len(old[start:at].encode("utf-16-le")) // 2)

    change = lsp.TextDocumentContentChangePartial(lsp.Range(place(begin), place(end)), new)
    text = OpenText.of("a.txt", "file:///a.txt", 1, old).changed([change], 2)
    assert "\n".join(text.lines) == old[:begin] + new + old[end:]
    assert text.version == 2
