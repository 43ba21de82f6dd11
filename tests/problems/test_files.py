"""Files that are broken, empty, huge or no text: a problem each, and the rest is read."""

from __future__ import annotations

import builtins
import os

import pytest

GOOD = b"2027-03-06\nhoshi\n  watered\n"


@pytest.mark.parametrize(
    "data", [b"", b"\n", b"   \n\t\n \n", b"\xef\xbb\xbf", b"\r\n\r\n", b"\f\n"]
)
def test_nothing_but_blanks_is_no_problem(tell, data) -> None:
    assert tell(data).codes == []
    assert tell("", cards=data.decode()).codes == ["unknown-handle"]  # home = "yard"


def test_a_binary_file_is_one_problem(tell) -> None:
    picture = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\1\xf4" + bytes(range(256))
    told = tell(GOOD, files={"z.txt": picture})
    problem = told.only()
    assert (problem.code, problem.file, problem.line, problem.column) == (
        "binary-file",
        "z.txt",
        1,
        1,
    )
    assert problem.message == "this is no text file"
    assert told.acts == ["hoshi watered"]


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_utf_16_is_said_to_be(tell, encoding) -> None:
    told = tell(GOOD, files={"z.txt": GOOD.decode().encode(encoding)})
    assert (told.only().code, told.acts) == ("binary-file", ["hoshi watered"])


def test_a_nought_byte_in_a_line_leaves_the_other_lines(tell, mark) -> None:
    told = tell(b"2027-03-06\nhoshi\n  wat\0ered\n  turned\nyuki\n  watered\n")
    assert [(p.code, p.line, p.column) for p in told.problems] == [
        ("unknown-act", 3, 3),
        ("no-text", 3, 6),
    ]
    # The line is kept as words, with a sign for the nought.
    assert told.acts == ["hoshi noted wat\ufffdered", "hoshi turned", "yuki watered"]


def test_noughts_that_a_power_cut_left_behind(tell) -> None:
    told = tell(GOOD + b"\0" * 4096)
    problem = told.only()
    assert (problem.code, problem.line, problem.column) == ("no-text", 4, 1)
    assert told.acts == ["hoshi watered"]


def test_invalid_utf_8_is_told_where_it_stands(tell, mark) -> None:
    told = tell(
        b"2027-03-06\nhoshi\n  noted caf\xe9 au lait\n  watered\n  noted \xc3\xa9 \xff\xfe\n"
    )
    assert [(p.code, p.line, p.column, mark(p)) for p in told.problems] == [
        ("not-utf-8", 3, 12, "\N{REPLACEMENT CHARACTER}"),
        ("not-utf-8", 5, 11, "\N{REPLACEMENT CHARACTER}"),
    ]
    assert told.acts == [
        "hoshi noted caf\N{REPLACEMENT CHARACTER} au lait",
        "hoshi watered",
        "hoshi noted é \N{REPLACEMENT CHARACTER}\N{REPLACEMENT CHARACTER}",
    ]


def test_a_line_of_fifty_megabytes_is_set_aside(tell) -> None:
    told = tell(GOOD + b"  noted " + b"x" * 50_000_000 + b"\n  turned\n")
    problem = told.only()
    assert (problem.code, problem.line, problem.column) == ("long-line", 4, 1)
    assert problem.message == "a line of 50000008 characters"
    assert len(problem.source) <= 10_000
    assert told.acts == ["hoshi watered", "hoshi turned"]


def test_a_long_line_is_shown_around_its_mark(tell) -> None:
    from backbud_grammar.problems import show

    told = tell(GOOD + b"  repotted " + b"moss, " * 200 + b"mosss, soaked\n")
    lines = show(told.only()).splitlines()
    assert len(lines[1]) < 120
    at = lines[2].index("^")
    assert lines[1][at : at + 5] == "mosss"


def test_an_unreadable_file(tell, monkeypatch) -> None:
    # Root may read everything, so the system's refusal is played.
    real = builtins.open

    def refuse(path, *rest, **more):
        if str(path).endswith("z.txt") and "r" in (rest[0] if rest else "r"):
            raise PermissionError(13, "Permission denied", path)
        return real(path, *rest, **more)

    tell(GOOD, files={"z.txt": b"2027-03-06\nyuki\n  watered\n"})
    monkeypatch.setattr(builtins, "open", refuse)
    told = tell(GOOD, files={"y.txt": b"2027-03-06\nyuki\n  turned\n"})
    problem = told.only()
    assert (problem.code, problem.file, problem.line) == ("unreadable", "z.txt", 1)
    assert problem.message == "this file cannot be read: Permission denied"
    assert told.acts == ["hoshi watered", "yuki turned"]


@pytest.mark.skipif(os.name == "nt", reason="such names cannot be made there")
def test_a_file_name_that_is_no_text(tell, tmp_path) -> None:
    (tmp_path / os.fsdecode(b"caf\xe9.txt")).write_bytes(GOOD)
    problem = tell(GOOD).only()
    assert (problem.code, problem.file) == ("bad-file-name", r"caf\xe9.txt")
    problem.file.encode()


def test_mixed_line_ends_count_as_one_each(tell, mark) -> None:
    told = tell(b"2027-03-06\r\nhoshi\r  watered\n  waterd\r\n\r  turned\r\n")
    problem = told.only()
    assert (problem.code, problem.line, problem.column, mark(problem)) == (
        "unknown-act",
        4,
        3,
        "waterd",
    )
    assert told.acts == ["hoshi watered", "hoshi noted waterd", "hoshi turned"]


def test_a_text_of_another_sort_is_one_problem(tell) -> None:
    told = tell(GOOD, files={"z.txt": "Dear all,\n\n  thank you for the trees.\n" * 500})
    problem = told.only()
    assert (problem.code, problem.file, problem.line) == ("no-date", "z.txt", 1)
    assert problem.message == "this file has no date and no card, so nothing of it was read"
    assert problem.hint.endswith("give it another ending than .txt.")


def test_a_flood_from_one_file_is_cut_and_counted(tell) -> None:
    told = tell(GOOD + b"  waterd\n" * 500)
    assert len(told.problems) == 201
    assert (told.problems[-1].code, told.problems[-1].message) == (
        "many-problems",
        "300 more problems in this file",
    )
    assert told.acts == ["hoshi watered", *["hoshi noted waterd"] * 500]


# ------------------------------------------------------------------ backbud.toml


def test_no_settings_at_all(tell) -> None:
    told = tell(GOOD, settings=None)
    assert told.codes == ["unreadable", "bad-settings"]
    assert told.acts == ["hoshi watered"]


@pytest.mark.parametrize(
    ("settings", "line", "column", "message", "hint"),
    [
        ("", 1, 1, "the settings do not say which language", "Add the line: language = 1"),
        ('language = 1\nhomee = "yard"\n', 2, 1, "“homee” is no setting", "Did you mean “home”?"),
        (
            "language = 2\n",
            1,
            1,
            "language 2 is not known to this version",
            "This version reads language 1.",
        ),
        (
            "language = true\n",
            1,
            1,
            "language True is not known to this version",
            "This version reads language 1.",
        ),
        ('language = 1\nhome = "yrd"\n', 2, 9, "no place is called “yrd”", "Did you mean “yard”?"),
        (
            'language = 1\nkeeper = "yard"\n',
            2,
            11,
            "“yard” is a place, not a person",
            "Its card stands in cards.txt:3.",
        ),
        (
            'language = 1\n  currency = "EURO"\n',
            2,
            3,
            "“EURO” is no ISO 4217 currency",
            "Did you mean “EUR”?",
        ),
        ("language = 1\nname = 3\n", 2, 1, "“name” is a text", 'For example: name = "…"'),
        (
            "language = 1\nhours_per_week = 200\n",
            2,
            1,
            "“hours_per_week” is a number from 0 to 168",
            "For example: hours_per_week = 10",
        ),
        (
            'language = 1\nshow = "all"\n',
            2,
            1,
            "“show” is “best day” or “window”",
            'For example: show = "window"',
        ),
        (
            'language = 1\n\n[figures]\nx = "warm"\n',
            4,
            1,
            "“x” of [figures] is a number",
            "For example: decandle_from_c = 14",
        ),
        (
            "language = 1\n[figures]\nx = nan\n",
            3,
            1,
            "“x” of [figures] is a number",
            "For example: decandle_from_c = 14",
        ),
        (
            'language = 1\njournal_id = "a b"\n',
            2,
            1,
            "“journal_id” is letters, digits, dots and hyphens",
            'For example: "upper-yard"',
        ),
    ],
)
def test_a_setting_that_is_wrong(tell, settings, line, column, message, hint) -> None:
    told = tell(GOOD, settings=settings)
    problem = told.only()
    assert (problem.file, problem.line, problem.column) == ("backbud.toml", line, column)
    assert (problem.message, problem.hint) == (message, hint)
    assert told.acts == ["hoshi watered"]


@pytest.mark.parametrize(
    ("settings", "line", "column"),
    [
        (b"language = 1\nname = yard\n", 2, 8),
        (b'language = 1\nname = "yard\n', 2, 13),
        (b"language = 1\nlanguage = 1\n", 2, 13),
        (b"a = " + b"[" * 5000, 1, 1),
        (b"a = " + b"9" * 5000, 1, 1),
    ],
)
def test_settings_that_are_no_toml(tell, settings, line, column) -> None:
    told = tell(GOOD, settings=settings)
    problem = told.only()
    assert (problem.code, problem.file, problem.line, problem.column) == (
        "bad-settings",
        "backbud.toml",
        line,
        column,
    )
    assert problem.message.startswith("this is not TOML: ")
    assert told.acts == ["hoshi watered"]


@pytest.mark.parametrize("settings", [b"\xff\xfe", b"\0\0\0", b'name = "\xff"\nlanguage = 1\n'])
def test_settings_that_are_no_text(tell, settings) -> None:
    told = tell(GOOD, settings=settings)
    assert {p.file for p in told.problems} == {"backbud.toml"}
    assert told.acts == ["hoshi watered"]


def test_a_bare_amount_needs_a_currency_in_the_settings(tell, mark) -> None:
    diary = "2027-03-06\nhoshi\n  paid 120\n  billed 30 EUR\n"
    cards = "tree hoshi\n  kind  trident maple\n  value  300\nmaterial wire\n  price 9 EUR\n"
    told = tell(diary, cards=cards, settings="language = 1\n")
    assert [(p.code, p.file, p.line, p.message) for p in told.problems] == [
        ("no-currency", "cards.txt", 3, "“300” has no currency"),
        ("no-currency", "diary.txt", 3, "“120” has no currency"),
    ]
    assert told.problems[0].hint == "Write 120 EUR, or name the currency once in backbud.toml."
    assert tell(diary, cards=cards, settings='language = 1\ncurrency = "CHF"\n').codes == []


def test_a_memory_that_leaves_out_some_of_a_file_is_no_harm(tell, tmp_path) -> None:
    from backbud.journal.remember import SYNTAX_FILE, Memory, read_memory, write_memory
    from backbud.publish.memory import MemoryOf

    tell(GOOD)
    memory = read_memory(MemoryOf(str(tmp_path)), SYNTAX_FILE, Memory)
    assert memory is not None and memory.files
    memory.files = {digest: [] for digest in memory.files}
    write_memory(MemoryOf(str(tmp_path)), SYNTAX_FILE, memory)
    assert tell(GOOD).acts == ["hoshi watered"]
    (tmp_path / ".backbud" / SYNTAX_FILE).write_bytes(b"\xc1 torn")
    assert tell(GOOD).acts == ["hoshi watered"]


POT_CARDS = "place yard\nmix maple\n  akadama 2\npot tray-1\ntree hoshi\n  kind trident maple\n"
POT_DIARY = """\
2027-03-06   low 1 C, high 9 C, rain 4 mm

hoshi
  repotted    into tray-1, 2 cm off below, wedges N E, mix maple 4.5 L
  watered     -- dry wind
  noted       two roots crossed
"""


def test_what_is_remembered_is_what_was_read(tell) -> None:
    def all_of(told) -> tuple:
        journal, trees = told.journal, told.histories.trees
        blocks = [block for page in journal.pages for block in page.blocks]
        return (
            [(block.text, block.line, block.subjects, block.events) for block in blocks],
            [(tree.handle, tree.pot, tree.entries) for tree in trees.values()],
            journal.weather,
            told.problems,
        )

    first, again = (tell(POT_DIARY, cards=POT_CARDS) for _ in range(2))
    assert all_of(first) == all_of(again)
    (block,) = again.journal.pages[0].blocks
    assert [event.written for event in block.events] == [
        "repotted into tray-1, 2 cm off below, wedges N E, mix maple 4.5 L",
        "watered",
        "noted two roots crossed",
    ]
    assert block.events[1].remark == "dry wind"
    assert [(w.name, w.value, w.unit) for w in again.journal.weather] == [
        ("low", 1.0, "C"),
        ("high", 9.0, "C"),
        ("rain", 4.0, "mm"),
    ]


def test_a_page_that_was_sound_is_looked_at_again_when_a_handle_is_gone(tell) -> None:
    without = POT_CARDS.replace("pot tray-1", "pot tray-2")
    assert tell(POT_DIARY, cards=POT_CARDS).codes == []
    assert tell(POT_DIARY, cards=without).codes == ["unknown-handle"]
    # The problem is told each time, and gone with its cause.
    assert tell(POT_DIARY, cards=without).codes == ["unknown-handle"]
    assert tell(POT_DIARY, cards=POT_CARDS).codes == []


def test_a_page_that_was_left_out_on_an_earlier_day_is_not_taken_for_sound(tell) -> None:
    without = POT_CARDS.replace("pot tray-1", "pot tray-2")
    assert tell(POT_DIARY, cards=POT_CARDS).codes == []
    assert tell(POT_DIARY, cards=without, as_of="2027-01-01").codes == []
    assert tell(POT_DIARY, cards=without).codes == ["unknown-handle"]


def test_a_card_may_have_a_hard_space_in_its_first_line(tell) -> None:
    told = tell(POT_DIARY, cards=POT_CARDS.replace("tree hoshi", "tree\N{NO-BREAK SPACE}hoshi"))
    assert told.codes == []
    assert list(told.histories.trees) == ["hoshi"]
