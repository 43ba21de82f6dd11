"""How lines become pages, subject lines, acts, continuations, remarks and prose."""

from __future__ import annotations

from datetime import date

import pytest

PAGE = "2027-03-06\nhoshi\n"

# ------------------------------------------------------------------ dates


@pytest.mark.parametrize(
    ("written", "first", "exact"),
    [
        ("2027-03-06", date(2027, 3, 6), True),
        ("20270306", date(2027, 3, 6), True),
        ("2014", date(2014, 1, 1), False),
        ("2014-05", date(2014, 5, 1), False),
        ("2014~", date(2014, 1, 1), False),
        ("2014-05-06~", date(2014, 5, 6), False),
        ("2014-21", date(2014, 3, 1), False),
        ("2027-W10", date(2027, 3, 8), False),
        ("2027-W10-3", date(2027, 3, 10), True),
        ("201X", date(2010, 1, 1), False),
    ],
)
def test_a_digit_at_the_left_edge_begins_a_page(read, written, first, exact) -> None:
    journal = read(f"{written}\nhoshi\n  watered\n")
    assert journal.problems == []
    assert [(e.day, e.exact) for e in journal.events] == [(first, exact)]


def test_a_season_is_that_of_the_hemisphere(read) -> None:
    south = "place yard\n  latitude 33 S\ntree hoshi\n  kind maple\n"
    assert read("2014-21\nhoshi\n  watered\n", cards=south).events[0].day == date(2014, 9, 1)


def test_pages_go_by_their_earliest_day_then_file_then_line(read) -> None:
    journal = read(
        "2020\nhoshi\n  noted rough\n2019-12-31\nhoshi\n  noted before\n"
        "2020-01-01\nhoshi\n  noted first\n2020-01-01\nhoshi\n  noted second\n",
        files={"a.txt": "2020-01-01\nhoshi\n  noted of a.txt\n"},
    )
    assert [e.text for e in journal.events] == ["before", "of a.txt", "rough", "first", "second"]


def test_an_act_after_the_real_day_is_a_problem_and_with_on_it_is_not_there_yet(read) -> None:
    diary = "2027-06-01\nhoshi\n  watered\n2027-06-02\nhoshi\n  turned\n"
    journal = read(diary)  # the fixture's day is 2027-06-01
    assert journal.problems == ["future-date"]
    assert journal.acts == ["2027-06-01 hoshi | watered"]
    journal = read(diary, as_of="2027-05-31")
    assert journal.problems == []
    assert journal.acts == []


# ------------------------------------------------------------------ the day's weather


def test_the_days_weather_is_of_the_home_place_or_of_the_one_named(read) -> None:
    journal = read(
        "2027-03-06   low -1,5 C, high 9 C, rain 4 mm, frost\n"
        "2027-03-07   low 30 F, at Tunnel\n2027-03-08\n"
    )
    assert journal.problems == []
    assert [(w.day.day, w.place, w.name, w.value, w.unit) for w in journal.journal.weather] == [
        (6, "", "low", -1.5, "C"),
        (6, "", "high", 9.0, "C"),
        (6, "", "rain", 4.0, "mm"),
        (6, "", "frost", 1.0, ""),
        (7, "tunnel", "low", 30.0, "F"),
    ]


def test_weather_on_a_rough_day_is_no_weather(read) -> None:
    journal = read("2027-03   low 1 C\nhoshi\n  watered\n")
    assert journal.problems == ["rough-weather"]
    assert journal.journal.weather == ()
    assert journal.acts == ["2027-03 hoshi | watered"]


# ------------------------------------------------------------------ subject lines


@pytest.mark.parametrize(
    ("line", "chosen", "left_out"),
    [
        ("hoshi", [("handle", "hoshi")], []),
        ("hoshi, Yuki", [("handle", "hoshi"), ("handle", "Yuki")], []),
        ("hoshi,yuki ,  kaze", [("handle", h) for h in ("hoshi", "yuki", "kaze")], []),
        ("all", [("all", "")], []),
        ("all in tunnel", [("in", "tunnel")], []),
        ("All In tunnel", [("in", "tunnel")], []),
        ("all of marrow", [("of", "marrow")], []),
        ("all trident maple", [("kind", "trident maple")], []),
        ("all  trident   maple", [("kind", "trident maple")], []),
        (
            "all in tunnel except hoshi, yuki",
            [("in", "tunnel")],
            [("handle", "hoshi"), ("handle", "yuki")],
        ),
        (
            "yuki, all in tunnel except all of marrow",
            [("handle", "yuki"), ("in", "tunnel")],
            [("of", "marrow")],
        ),
        ("all maple Except kaze", [("kind", "maple")], [("handle", "kaze")]),
        ("allium, inn", [("handle", "allium"), ("handle", "inn")], []),
    ],
)
def test_a_subject_line(read, line, chosen, left_out) -> None:
    block = read(f"2027-03-06\n{line}\n  watered\n").journal.pages[0].blocks[0]
    assert [(s.by, s.words) for s in block.subjects.chosen] == chosen
    assert [(s.by, s.words) for s in block.subjects.left_out] == left_out


# ------------------------------------------------------------------ acts


@pytest.mark.parametrize(
    ("written", "act"),
    [
        ("repotted", "repotted"),
        ("repot", "repotted"),
        ("Repotted", "repotted"),
        ("REPOT", "repotted"),
        ("put-off repot", "put-off"),
        ("vigour 3", "vigour"),
        ("vigor 3", "vigour"),
        ("fertilised liquid", "fed"),
        ("sprayed with soap", "treated"),
        ("potted into tray-1", "potted-on"),
        ("rotated", "turned"),
    ],
)
def test_past_and_bare_form_and_any_case_mean_the_same(read, written, act) -> None:
    journal = read(f"{PAGE}  {written}\n")
    assert journal.problems == []
    assert [e.act for e in journal.events] == [act]


def test_a_deeper_line_goes_on_with_the_one_above(read) -> None:
    journal = read(f"{PAGE}  repotted  same pot,\n     2 cm off below,\n       moss\n  watered\n")
    assert journal.acts == [
        "2027-03-06 hoshi | repotted same pot, 2 cm off below, moss",
        "2027-03-06 hoshi | watered",
    ]


def test_a_continuation_may_stand_alone_below_the_act_word(read) -> None:
    journal = read(f"{PAGE}  repotted\n     same pot,\n     moss\n")
    assert journal.acts == ["2027-03-06 hoshi | repotted same pot, moss"]


def test_a_detail_may_go_on_over_the_line_end(read) -> None:
    journal = read(f"{PAGE}  repotted same pot, 2 cm off\n     below\n")
    assert journal.events[0].measure("off below").within("cm") == 2.0


def test_a_deeper_line_that_begins_with_an_act_word_is_never_swallowed(read) -> None:
    for above in ("repotted same pot,", "noted the roots were", "watered -- well"):
        journal = read(f"{PAGE}  {above.rstrip(',')}\n      moved tunnel\n")
        assert journal.problems == ["deeper-act"]
        assert [e.act for e in journal.events] == [above.split()[0]]


# ------------------------------------------------------------------ remarks and prose


@pytest.mark.parametrize(
    ("line", "details", "remark"),
    [
        ("watered -- dry wind, since Tuesday", "", "dry wind, since Tuesday"),
        ("watered well -- dry -- wind", "well", "dry -- wind"),
        ("watered well — dry wind", "well", "dry wind"),
        ("watered well --\n    dry wind", "well", "dry wind"),
        ("watered well\n    -- dry\n    wind", "well", "dry wind"),
        ('watered with "rain--water"', 'with "rain--water"', ""),
    ],
)
def test_two_hyphens_open_a_remark(read, line, details, remark) -> None:
    journal = read(f"{PAGE}  {line}\n")
    assert journal.problems == []
    assert [(e.text, e.remark) for e in journal.events] == [(details, remark)]


@pytest.mark.parametrize("word", ["noted", "private", "note"])
def test_noted_and_private_take_everything_as_prose(read, word) -> None:
    text = "2 cm, roots -- crossed \"here; and 'there, # 3 — all, wired 3 mm"
    journal = read(f"{PAGE}  {word}   {text}\n        on and on\n")
    assert journal.problems == []
    assert [(e.text, e.remark) for e in journal.events] == [(f"{text} on and on", "")]
    assert [d.words for d in journal.events[0].details] == [f"{text} on and on"]


def test_a_weather_line_and_a_subject_line_have_no_acts_of_the_other(read) -> None:
    journal = read("2027-03-06 low 1 C\nhoshi\n  watered\nyuki\n  turned\n")
    assert journal.acts == ["2027-03-06 hoshi | watered", "2027-03-06 yuki | turned"]


@pytest.mark.parametrize(
    ("line", "act", "said"),
    [
        ("thinned by a third", "thinned", ["by a third"]),
        ("thinned off 1/3 on left 1", "thinned", [""]),
        ("pruned twigs", "pruned", ["twigs"]),
        ("handed back to marrow", "returned", [""]),
        ("put off repot", "put-off", []),
        ("Put Off repot", "put-off", []),
        ("cut back hard", "pruned", ["hard"]),
        ("top dressed moss", "top-dressed", [""]),
    ],
)
def test_said_at_the_bench(read, line, act, said) -> None:
    (event,) = read(f"2027-03-06\nhoshi\n  {line}\n").events
    assert (event.act, [detail.words for detail in event.details]) == (act, said)
