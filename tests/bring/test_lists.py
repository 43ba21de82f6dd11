"""Lists in plain text go in; cards, acts and notes in words of the language come out.

The expected lines are worked out by hand from the manual (grammar/README.md).
"""

from __future__ import annotations

import pytest
from tests.bring.conftest import Desk, body

from backbud.bring.sheet import BringError

WORKS = """\
When,What,Which tree,Details,Notes,Weather,Hours,Pot
2021-04-03,Repotted,Old Nell,"2 cm off below, same mix",,rain,2,tray-7
2021-06-05,wired,anvil & Old Nell,2 mm Al on left 1,went well,,,
"""


def test_a_list_of_works_becomes_pages(desk: Desk) -> None:
    view = desk.written(WORKS)
    assert body(view) == (
        "2021-04-03\n\n"
        "heron\n"
        "  Repotted    2 cm off below, same mix, into tray-7\n"
        "  noted       Weather: rain\n"
        "  worked      2 h\n\n"
        "2021-06-05\n\n"
        "anvil, heron\n"
        "  wired       2 mm Al on left 1 -- went well"
    )
    assert (view.acts, view.notes, view.not_read, view.asks) == (3, 1, (), ())
    assert (desk.folder / "brought/list.txt").read_text() == view.text
    assert desk.problems() == []


def test_a_list_of_trees_becomes_cards(desk: Desk) -> None:
    view = desk.written(
        "Name;Species;Acquired;Height (cm);Trunk, mm;Pot;Location;Owner;Last repotted;Pests;No.\n"
        "Big maple;Japanese maple;2014;52,5;70;blue oval;South bench;E. Marrow;13/03/2021;"
        "scale;T-4\n"
        "Little elm;Chinese elm;spring 2015;;;blue oval;yard;E. Marrow;2020;;9\n"
    )
    assert body(view) == (
        "tree big-maple\n"
        "  name       Big maple\n"
        "  formerly   t-4\n"
        "  kind       Japanese maple\n"
        "  since      2014\n"
        "  height     52,5 cm\n"
        "  trunk      70 mm\n"
        "  pot        blue-oval\n"
        "  place      south-bench\n"
        "  owner      e-marrow\n"
        "  note       Pests: scale\n\n"
        "pot blue-oval\n"
        "  name       blue oval\n\n"
        "place south-bench\n"
        "  name       South bench\n\n"
        "person e-marrow\n"
        "  name       E. Marrow\n\n"
        "tree little-elm\n"
        "  name       Little elm\n"
        "  formerly   tree-9\n"
        "  kind       Chinese elm\n"
        "  since      2015-21\n"
        "  pot        blue-oval-2\n"
        "  place      yard\n"
        "  owner      e-marrow\n\n"
        "pot blue-oval-2\n"
        "  name       blue oval\n\n"
        "2020\n\nlittle-elm\n  repotted\n\n"
        "2021-03-13\n\nbig-maple\n  repotted"
    )
    assert desk.problems() == []


def test_bringing_twice_adds_nothing_twice(desk: Desk) -> None:
    desk.written(WORKS)
    again = desk.shown(WORKS)
    assert (again.text, again.before, again.not_read) == ("", 2, ())
    # Under another name, with its columns in another order, after the mapping was lost.
    (desk.folder / "brought/list.csv.toml").unlink()
    other = desk.shown(
        "Which tree;When;What;Details;Notes;Hours;Pot;Weather\n"
        "Old Nell;2021-04-03;Repotted;2 cm off below, same mix;;2;tray-7;rain\n"
        "anvil;2021-06-06;watered;;;;;\n",
        "other list.csv",
    )
    assert other.before == 1
    assert body(other) == "2021-06-06\n\nanvil\n  watered"


def test_two_rows_that_are_the_same_stand_twice_and_no_third_time(desk: Desk) -> None:
    row = "2021-06-06,watered,anvil\n"
    view = desk.written(f"Date,Work,Tree\n{row}{row}")
    assert body(view).count("watered") == 2
    assert desk.shown(f"Date,Work,Tree\n{row}{row}").text == ""
    assert body(desk.shown(f"Date,Work,Tree\n{row}{row}{row}")).count("watered") == 1


def test_rows_that_were_brought_are_known_when_their_lines_moved(desk: Desk) -> None:
    desk.written(WORKS)
    (desk.folder / "brought/list.txt").rename(desk.folder / "mine.txt")
    assert desk.shown(WORKS).before == 2


@pytest.mark.parametrize(
    ("dates", "order", "asks"),
    [
        (["13/03/2021", "04/05/2021"], "day-first", ""),
        (["03/13/2021", "04/05/2021"], "month-first", ""),
        (["05/05/2021"], "", ""),
        (["05/05/2021", "13/05/2021"], "day-first", ""),
        (["2021-04-05", "5 April 2021", "Mar 2021"], "", ""),
        (["04/05/2021"], "", "row 2: “04/05/2021” is 2021-05-04 (day-first) or 2021-04-05 "),
        (["13/03/2021", "03/13/2021"], "", "no one order reads all of its dates"),
        (
            ["31.12.19"],
            "",
            "row 2: “31.12.19” is 2019-12-31 (day-first) or 1931-12-19 (year-first)",
        ),
        (["31.12.19", "31.12.99", "04.05.32"], "day-first", ""),
        (
            ["04.05.06"],
            "",
            "row 2: “04.05.06” is 2006-05-04 (day-first) or 2006-04-05 (month-first)",
        ),
        (["44197"], "", "row 2: “44197” is 2021-01-01 (counted from 1900) or 2025-01-02 (counted "),
    ],
)
def test_dates_that_can_be_read_in_two_ways_are_asked(
    desk: Desk, dates: list[str], order: str, asks: str
) -> None:
    """Serial numbers by ECMA-376 part 1, 18.17.4.1: 44197 is 1 January 2021, by the later system
    four years and a day on."""
    view = desk.shown("Date,Work,Tree\n" + "".join(f"{one},watered,anvil\n" for one in dates))
    assert view.sheets[0].dates == order
    assert [one.message.startswith(asks) for one in view.asks] == ([True] if asks else [])
    assert bool(view.text) != bool(asks)


def test_what_a_mapping_leaves_open_or_says_twice_is_asked(desk: Desk) -> None:
    columns = '[[sheet]]\nrows = "works"\n[sheet.columns]\n'
    text = "A,B,C\n2021-06-01,watered,anvil\n"
    twice = f'file = "list.csv"\n{columns}A = "date"\nB = "act"\nC = "act"\n'
    assert [one.message for one in desk.shown(text, mapping=twice).asks] == [
        "the columns B and C both mean “act”"
    ]
    none = f'file = "list.csv"\n{columns}B = "act"\nC = "tree"\n'
    assert [one.message for one in desk.shown(text, mapping=none).asks] == [
        "no column says which date a row is of"
    ]
    nobody = desk.shown("Species name?,Colour\nx,y\n", rows="pots", heading=1)
    assert [one.message for one in nobody.asks] == ["no column says which pot a row is of"]


def test_only_what_was_said_or_shown_is_kept_for_the_next_list(desk: Desk) -> None:
    """5 May says nothing of the next list's order, nor do this list's letters of its own."""
    desk.written("Date;Work;Tree\n05/05/2021;watered;anvil\n".encode("utf-16"))
    mapping = (desk.folder / "brought/list.csv.toml").read_text()
    assert '\n# dates = "day-first"' in mapping
    assert "encoding" not in mapping and "separator" not in mapping
    view = desk.shown("Date,Work,Tree\n05/06/2021,watered,anvil\n", mapping=mapping)
    assert view.asks[0].message.startswith("row 2: “05/06/2021” is 2021-06-05 (day-first) or ")


def test_an_answer_is_kept_in_the_mapping_and_used_again(desk: Desk) -> None:
    text = "Date,Work,Tree\n04/05/2021,watered,anvil\n"
    view = desk.written(text, dates=("month-first",))
    assert "2021-04-05" in body(view)
    mapping = (desk.folder / "brought/list.csv.toml").read_text()
    assert 'dates = "month-first"' in mapping
    more = desk.shown(f"{text}06/07/2021,watered,heron\n", mapping=mapping)
    assert body(more) == "2021-06-07\n\nheron\n  watered"
    with pytest.raises(BringError, match="the mapping says dates = “month-first”; edit it there"):
        desk.shown(text, mapping=mapping, dates=("day-first",))


def test_what_does_not_read_as_an_act_is_noted_with_all_its_words(desk: Desk) -> None:
    view = desk.written(
        "Date,Work,Tree,Details,Notes\n"
        "2021-06-01,Wired,anvil,took off the old wire,\n"
        "2021-06-02,returned,anvil,,NOT yet\n"
        "2021-06-03,thought about it,anvil,,\n"
        "2021-06-04,# one,anvil,,\n"
        "2009-06-05,pruned,heron,before it came,\n"
        "2021-06-06,,,hail,\n"
        "2021-06-07,watered,,,\n"
    )
    assert body(view) == (
        "2009-06-05\n\nyard\n  noted       heron: pruned. before it came\n\n"
        "2021-06-01\n\nanvil\n  noted       Wired. took off the old wire\n\n"
        "2021-06-02\n\nanvil\n  noted       returned. NOT yet\n\n"
        "2021-06-03\n\nanvil\n  noted       thought about it\n\n"
        "2021-06-04\n\nanvil\n  noted       # one\n\n"
        "2021-06-06\n\nyard\n  noted       hail\n\n"
        "2021-06-07\n\nyard\n  noted       watered"
    )
    assert (view.acts, view.notes) == (0, 7)
    assert [(one.row, one.words) for one in view.noted] == [
        (2, "Wired. took off the old wire"),
        (3, "returned. NOT yet"),
        (4, "thought about it"),
        (6, "pruned. before it came"),
    ]
    assert desk.problems() == []


def test_what_cannot_be_filed_is_told_row_by_row_and_comes_once_it_can(desk: Desk) -> None:
    view = desk.written(
        "Date,Work,Tree\n2027-06-06,pruned,heron\n,pruned,anvil\nsoon,wired,anvil\n"
        "2021-06-01,watered,anvil\n"
    )
    assert [(one.row, one.words, one.why) for one in view.not_read] == [
        (
            2,
            "Date: 2027-06-06; Work: pruned; Tree: heron",
            "2027-06-06 has not come yet; what is still to come is planned by you",
        ),
        (3, "Work: pruned; Tree: anvil", "no date stands there"),
        (4, "Date: soon; Work: wired; Tree: anvil", "“soon” cannot be read as a date"),
    ]
    mended = desk.shown("Date,Work,Tree\n2021-06-06,pruned,heron\n2021-06-01,watered,anvil\n")
    assert (mended.before, body(mended)) == (1, "2021-06-06\n\nheron\n  pruned")


def test_a_tree_that_is_known_gets_no_second_card(desk: Desk) -> None:
    view = desk.shown("Tree,Species,Height (cm)\nOld Nell,trident maple,60\n")
    assert view.text == ""
    assert [(one.heading, one.words) for one in view.not_read] == [("Height (cm)", "60")]
    assert "heron is a tree that is known" in view.not_read[0].why


def test_a_known_tree_is_told_only_what_neither_its_card_nor_the_diary_says(desk: Desk) -> None:
    first = "No,Tree,Species,Location,Height (cm),Last repotted\n7,Oak,oak,South shelf,"
    desk.written(first + '"60,5",2024-03-14\n')
    # The same from a workbook (a point for the comma), once as it was and once with news.
    assert desk.shown(first + "60.5,2024-03-14\n", "again.csv").not_read == ()
    told = desk.shown(first.replace("South", "North") + "0.5,2025-03-14\n", "news.csv").not_read
    assert [(one.heading, one.words) for one in told] == [
        ("Location", "North shelf"),
        ("Height (cm)", "0.5"),
        ("Last repotted", "2025-03-14"),
    ]
    assert told[1].why.endswith("and does not say this")
    assert told[2].why.endswith("and the diary does not say this")


def test_a_name_that_may_be_a_slip_is_asked_and_answered_in_the_mapping(desk: Desk) -> None:
    text = "Date,Work,Tree\n2021-06-01,watered,Herron\n2021-06-02,watered,everything\n"
    view = desk.shown(text)
    assert [one.message for one in view.asks] == [
        "no tree is called “Herron”, but one is called heron",
        "who is meant by “everything”",
    ]
    assert view.text == ""
    mapping = 'file = "list.csv"\n[names]\nHerron = "heron"\neverything = "anvil, heron"\n'
    assert body(desk.shown(text, mapping=mapping)) == (
        "2021-06-01\n\nheron\n  watered\n\n2021-06-02\n\nanvil, heron\n  watered"
    )


def test_a_name_that_is_a_word_of_the_language_makes_another_handle(desk: Desk) -> None:
    view = desk.written("Tree,Species\nMay,juniper\nAll,juniper\nwatered,juniper\n007,juniper\n")
    assert [one.handle for one in view.cards] == [
        "tree-may",
        "tree-all",
        "tree-watered",
        "tree-007",
    ]
    assert {one.partition(" ")[2] for one in desk.problems()} == {"unknown-species"}


def test_what_nobody_can_tell_of_plain_text_is_asked(desk: Desk) -> None:
    latin = "Tree;Species\nKüche;juniper\n".encode("cp1252")
    asked = desk.shown(latin).asks
    assert "its letters are not UTF-8 (line 2): “Küche;juniper” by cp1252" in asked[0].message
    assert desk.shown(latin, encoding="cp1252").cards[0].handle == "küche"
    for encoding in ("utf-8-sig", "utf-16", "utf-32"):
        view = desk.shown("Tree;Species\nKüche;juniper\n".encode(encoding))
        assert [one.handle for one in view.cards] == ["küche"], encoding
    assert "nought bytes" in desk.shown("Tree;Species\n".encode("utf-16-le")).asks[0].message
    assert desk.shown("a,b\n1,2\n").asks[0].message.startswith("no row of the list holds headings")
    assert desk.shown("Name,Town\nx,y\n").asks[0].message.startswith("nothing in the list tells")
    both = desk.shown("Date,Work,Tree\n2021-06-01,watered,anvil\n", rows="works")
    assert both.sheets[0].rows == "works"


def test_a_heading_may_stand_below_a_title(desk: Desk) -> None:
    view = desk.shown("My trees 2021\n\nDate\tWork\tTree\n2021-06-01\twatered\tanvil\n")
    assert body(view) == "2021-06-01\n\nanvil\n  watered"
    assert [(one.row, one.words) for one in view.not_read] == [(1, "My trees 2021")]


def test_empty_cells_mean_the_same_as_above_only_where_that_is_said(desk: Desk) -> None:
    text = "Date,Work,Tree\n2021-06-01,watered,anvil\n,fed,\n"
    assert desk.shown(text).not_read[0].why == "no date stands there"
    mapping = 'file = "list.csv"\n[[sheet]]\nas_above = ["Date", "Tree"]\n'
    assert body(desk.shown(text, mapping=mapping)) == "2021-06-01\n\nanvil\n  watered\n  fed"


@pytest.mark.parametrize(
    ("mapping", "told"),
    [
        ("file = 3", "Expected `str`, got `int` - at `$.file`"),
        ('file = "list.csv"\nrow = "trees"', "unknown field `row`"),
        ('file = "list.csv"\n[[sheet]]\nrows = "work"', "rows: no “work”"),
        ('file = "list.csv"\n[[sheet]]\nrows = "works"\n[sheet.columns]\nWork = "akt"', "“akt”"),
        ('file = "list.csv"\n[[sheet]]\nrows = "trees"\n[sheet.columns]\nA = "act repoted"', "act"),
        ('file = "list.csv"\n[[sheet]]\nrows = "trees"\n[sheet.columns]\nA = "height, yd"', "yd"),
        ('file = "other.csv"', "its mapping is that of “other.csv”"),
        ("file = ", "its mapping: "),
    ],
)
def test_a_mapping_that_cannot_be_meant_is_told(desk: Desk, mapping: str, told: str) -> None:
    with pytest.raises(BringError) as error:
        desk.shown("Date,Work,Tree\n", mapping=mapping)
    assert told in str(error.value)


def test_a_mapping_says_what_a_column_means(desk: Desk) -> None:
    mapping = (
        'file = "list.csv"\n[[sheet]]\nrows = "trees"\n[sheet.columns]\n'
        'Who = "tree"\nTall = "height, inch"\nSecret = "left out"\nCut = "act pruned"\n'
    )
    view = desk.shown("Who,Tall,Secret,Cut\nBig maple,20,0000,2021-03-04\n", mapping=mapping)
    assert body(view) == (
        "tree big-maple\n  name       Big maple\n  height     20 inch\n\n"
        "2021-03-04\n\nbig-maple\n  pruned"
    )
    assert view.left_out == {"Secret": 1}


def test_a_list_may_call_an_act_by_its_word_in_ing(desk: Desk) -> None:
    """And by nothing more than that word: a question and a sentence stay words."""
    view = desk.written(
        "Date,Tree,Activity,Details\n2021-03-01,anvil,Repotting,1/3 off below\n"
        "2021-03-02,anvil,WIRING,\n2021-03-03,anvil,Pruning?,\n"
        "2021-03-04,anvil,pruning next week,\n"
    )
    assert body(view) == (
        "2021-03-01\n\nanvil\n  repot       1/3 off below\n\n2021-03-02\n\nanvil\n  wire\n\n"
        "2021-03-03\n\nanvil\n  noted       Pruning?\n\n"
        "2021-03-04\n\nanvil\n  noted       pruning next week"
    )
    assert (view.acts, view.notes) == (2, 2)


def test_cards_of_every_sort(desk: Desk) -> None:
    """Two lists more, each by its own labels; what a label does not take is a note."""
    people = desk.written(
        "Customer,Phone,Town,Place,Hourly rate (EUR)\nE. Marrow,0000 1,Oxley,by the mill,30\n",
        "people.csv",
    )
    assert body(people) == (
        "person e-marrow\n  name       E. Marrow\n  contact    0000 1\n  town       Oxley\n"
        "  note       Place: by the mill\n  rate       30 EUR"
    )
    stock = desk.written("Item,Pack size,Cost (EUR),NPK\nGrit,bag of 20 L,7,none\n", "stock.csv")
    assert body(stock) == (
        "material grit\n  name       Grit\n  sold in    bag of 20 L\n  price      7 EUR\n"
        "  note       NPK: none"
    )
    trees = desk.written(
        "Species,Quantity,Owner,Health\n"
        "Chinese elm,1,E. Marrow,poor\nChinese elm,5 cuttings,,weak\n",
        "trees.csv",
    )
    assert body(trees) == (
        "tree chinese-elm\n  kind       Chinese elm\n  note       Quantity: 1\n"
        "  owner      e-marrow\n  note       Health: poor\n\n"
        "tree chinese-elm-2\n  kind       Chinese elm\n  count      5 cuttings\n"
        "  strength   weak"
    )
    assert desk.problems() == []


def test_a_long_note_stands_on_several_lines(desk: Desk) -> None:
    words = " ".join(f"word{n}" for n in range(3_600))
    view = desk.written(f"Date,Work,Tree\n2021-06-01,{words},anvil\n")
    lines = [line.strip() for line in body(view).splitlines() if "noted" in line]
    assert len(lines) == 4 and max(map(len, lines)) < 8_100
    assert " ".join(line.split(None, 1)[1] for line in lines) == words
    assert desk.problems() == []


def test_hours_and_materials_are_read_where_they_read(desk: Desk) -> None:
    view = desk.written(
        "Date,Work,Tree,Minutes,Materials\n"
        "2021-06-01,repotted,anvil,90,2 bags akadama\n2021-06-02,pruned,anvil,a while,my wits\n"
    )
    assert body(view) == (
        "2021-06-01\n\nanvil\n  repotted\n  worked      90 min\n  used        2 bags akadama\n\n"
        "2021-06-02\n\nanvil\n  pruned\n  noted       Minutes: a while\n"
        "  noted       Materials: my wits"
    )
    assert desk.problems() == []


def test_lines_are_not_jotted_into_what_was_brought(desk: Desk) -> None:
    """The next page of the diary goes to the diary."""
    from datetime import date

    from backbud.jot.write import place_in_diary
    from backbud.session import open_session

    desk.written("Date,Work,Tree\n2026-11-19,watered,anvil\n")
    session = open_session(str(desk.folder), date(2026, 11, 20), keeps=False)
    assert place_in_diary(date(2026, 11, 19))(session).file == "diary/2026.txt"
