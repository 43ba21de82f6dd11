"""The words of the table as types are those of the table, and every trait is somebody's."""

from __future__ import annotations

from typing import get_args

from backbud_grammar.acts import ACTS, acts_with, words
from backbud_grammar.acts.generate import WORDS_FILE, words_file
from backbud_grammar.forms import ActForm, Trait


def test_the_types_are_made_of_the_table() -> None:
    assert WORDS_FILE.read_text(encoding="utf-8") == f"{words_file()}\n"


def test_the_types_hold_past_forms_names_and_words() -> None:
    acts, names = set(get_args(words.ActWord)), set(get_args(words.DetailName))
    assert len(acts) == len(ACTS)
    assert {"repotted", "unwired"} <= acts
    assert not {"repot", "unwraped"} & acts
    assert {"into", "off below", "same pot"} <= names
    assert "intoo" not in names
    assert {"trunk chop", "into"} <= set(get_args(words.DetailWord))
    assert {"checked wire", "unwired"} <= set(get_args(words.SettledBy))
    assert "checked wyre" not in get_args(words.SettledBy)


def test_every_trait_is_of_some_act() -> None:
    assert [trait for trait in get_args(Trait) if not acts_with(trait)] == []


def test_acts_are_looked_up_by_any_of_the_traits_in_any_table() -> None:
    assert acts_with("potting") == {"repotted", "potted-on", "slipped"}
    assert acts_with("cuts_roots", "raised") == {
        "repotted", "root-pruned", "lifted", "collected", "sown", "struck",
    }  # fmt: skip
    own = ActForm("sung-to", "sing-to", "Keep", traits=("no_work",))
    assert acts_with("no_work", acts=(own,)) == {"sung-to"}
