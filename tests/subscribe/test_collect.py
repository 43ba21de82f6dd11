"""What was ticked off on a real CalDAV server becomes diary lines that settle just that."""

from __future__ import annotations

import shutil
import sys
from datetime import date
from types import SimpleNamespace
from typing import Any

import pytest
from tests.views.test_schema import validator

from backbud.cli import main
from backbud.session import open_session
from backbud.subscribe.collect import collect, remember_ticks, write_offered
from backbud.subscribe.errors import SubscribeError
from backbud.subscribe.heirs import heir_of
from backbud_grammar.tidy import tidy_text

TASKS = "backbud-upper-yard-tasks-all"
UNWIRE = "yuki/wire-off/wired-2027-03-06/left-2"
CHECK = "hoshi/wire-check/wired-2027-02-27/apex"
PRUNE = "yuki/planned/pruned-2027-03-06"
LATER = date(2027, 6, 20)


def uid(follow_up: str) -> str:
    return f"task:{follow_up}@upper-yard"


def state(yard: Any, follow_up: str, today: date = LATER) -> tuple[str, str]:
    """How a follow-up stands once the journal is read anew, and the line that settled it."""
    session = open_session(str(yard.folder), today)
    assert session.problems() == ()
    (found,) = session.plan().find(follow_up)
    return found.outcome, found.settled.written if found.settled else ""


def test_a_ticked_task_becomes_a_line_once_the_keeper_agrees(yard: Any, client: Any) -> None:
    yard.publish(LATER)
    client.tick(TASKS, uid(UNWIRE), "20270618T101500Z")
    client.tick(TASKS, uid(CHECK), "20270618T101600Z", COMMENT="fine\\, but look again; soon 🌳")
    before = yard.diary.read_text()
    collected = yard.collect(LATER)
    assert list(collected.lines()) == [
        "diary/2027.txt, a new page of 2027-06-18:",
        "  hoshi",
        "    checked     wire on apex -- fine, but look again; soon 🌳",
        "  yuki",
        "    unwired     on left 2",
    ]
    assert yard.diary.read_text() == before
    write_offered(str(yard.folder), LATER, collected)
    after = yard.diary.read_text()
    assert after == before + (
        "\n2027-06-18\n\nhoshi\n"
        "  checked     wire on apex -- fine, but look again; soon 🌳\n"
        "\nyuki\n  unwired     on left 2\n"
    )
    assert tidy_text(after) == after
    assert state(yard, UNWIRE) == ("done", "unwired on left 2")
    assert state(yard, CHECK) == ("done", "checked wire on apex")
    assert state(yard, "hoshi/wire-check/wired-2027-02-27/left-1")[0] == "open"


def test_a_tick_is_never_offered_twice(yard: Any, client: Any) -> None:
    yard.publish(LATER)
    client.tick(TASKS, uid(UNWIRE), "20270618T101500Z")
    write_offered(str(yard.folder), LATER, yard.collect(LATER))
    written = yard.diary.read_text()
    assert list(yard.collect(LATER).lines()) == ["Nothing new was ticked off."]
    # not when all that was remembered is lost: it is settled
    shutil.rmtree(yard.folder / ".backbud")
    again = yard.collect(LATER)
    assert (again.offers, again.refused) == ((), ())
    assert [tick.uid for tick in again.settled] == [uid(UNWIRE)]
    remember_ticks(str(yard.folder), again.settled)
    # not when the keeper takes the line out again: the tick was dealt with
    yard.diary.write_text(written.replace("  unwired     on left 2\n", "  watered\n"))
    assert yard.collect(LATER).offers == ()
    # the server then has it open again; and a new tick is a new one
    yard.publish(LATER)
    assert client.read(TASKS)[uid(UNWIRE)].status.value == "NEEDS-ACTION"
    client.tick(TASKS, uid(UNWIRE), "20270619T070000Z")
    assert [offer.line.day for offer in yard.collect(LATER).offers] == [date(2027, 6, 19)]


def test_what_was_collected_leaves_the_server(yard: Any, client: Any) -> None:
    yard.publish(LATER)
    client.tick(TASKS, uid(UNWIRE), "20270618T101500Z")
    write_offered(str(yard.folder), LATER, yard.collect(LATER))
    (_, tasks) = yard.publish(LATER).sent
    assert (tasks.waiting, tasks.removed >= 1) == (0, True)
    assert uid(UNWIRE) not in client.read(TASKS)


def test_the_note_is_what_was_added_to_the_text(yard: Any, client: Any) -> None:
    yard.publish(LATER)
    text = client.read(TASKS)[uid(UNWIRE)].description.value
    raw = text.replace("\\", "\\\\").replace("\n", "\\n").replace(",", "\\,").replace(";", "\\;")
    client.tick(TASKS, uid(UNWIRE), DESCRIPTION=f"one scar\\n{raw}\\n\\n  שלום -- left of it\\n")
    (offer,) = yard.collect(LATER).offers
    assert offer.line.text == "  unwired     on left 2 -- one scar שלום -- left of it"
    # the same where it was forgotten what had been published
    shutil.rmtree(yard.folder / ".backbud")
    (offer,) = yard.collect(LATER).offers
    assert offer.line.text == "  unwired     on left 2 -- one scar שלום -- left of it"
    write_offered(str(yard.folder), LATER, yard.collect(LATER))
    assert state(yard, UNWIRE) == ("done", "unwired on left 2")


def test_a_long_note_is_cut(yard: Any, client: Any) -> None:
    yard.publish(LATER)
    client.tick(TASKS, uid(UNWIRE), COMMENT="a word " * 900)
    (offer,) = yard.collect(LATER).offers
    assert offer.line.text.endswith((" a word a…", " a word a word…"))
    assert 2000 < len(offer.line.text) < 2100


# Without a moment, the day it was last changed counts; a day to come counts as today.
@pytest.mark.parametrize(
    ("properties", "day"),
    [
        ({"STATUS": "COMPLETED", "COMPLETED": "20270612T120000Z"}, "2027-06-12"),
        ({"STATUS": "NEEDS-ACTION", "COMPLETED": "20270612T120000Z"}, "2027-06-12"),
        ({"PERCENT_COMPLETE": "100", "LAST_MODIFIED": "20270611T120000Z"}, "2027-06-11"),
        ({"STATUS": "COMPLETED", "LAST_MODIFIED": "20270610T120000Z"}, "2027-06-10"),
        ({"STATUS": "COMPLETED", "COMPLETED": "20280612T120000Z"}, "2027-06-20"),
    ],
)
def test_the_day_of_a_tick(yard: Any, client: Any, properties: dict[str, str], day: str) -> None:
    yard.publish(LATER)
    client.change(TASKS, uid(UNWIRE), **properties)
    assert [offer.line.day.isoformat() for offer in yard.collect(LATER).offers] == [day]


def test_what_is_not_ticked_off_is_not_collected(yard: Any, client: Any) -> None:
    yard.publish(LATER)
    client.change(TASKS, uid(UNWIRE), STATUS="IN-PROCESS", PERCENT_COMPLETE="90")
    client.change(TASKS, uid(CHECK), STATUS="CANCELLED")
    assert list(yard.collect(LATER).lines()) == ["Nothing new was ticked off."]


def test_what_cannot_be_written_is_said(yard: Any, client: Any) -> None:
    """Too early, of what nobody asks for any more, and what needs more than an act."""
    yard.publish(LATER)
    client.tick(TASKS, uid("hoshi/winter-frost/2027"), "20270601T100000Z", COMMENT="twice")
    client.tick(TASKS, uid(PRUNE))
    yard.diary.write_text(yard.diary.read_text().replace("  planned ", "  noted "))
    collected = yard.collect(LATER)
    assert collected.offers == ()
    gone, early = sorted(collected.refused, key=lambda why: "no line" in why)
    assert gone == (
        "yuki: prune, ticked off for 2027-03-18: nothing in the journal asks for it any more."
    )
    assert early.startswith(
        "hoshi: protect against winter frost, ticked off for 2027-06-01: no line of that day "
        "settles it; its time begins on 2027-11-01"
    )
    assert early.endswith(". Its note: twice")


def test_a_plan_is_written_as_it_was_planned(yard: Any, client: Any) -> None:
    """Its details are in the diary's own words; where a tree goes home nothing more is asked."""
    yard.write("""\
        2027-03-10

        hoshi
          planned     move yard, to 2027-03-16
          planned     sell, to 2027-03-19
        yuki
          planned     wire 2 mm Al on apex, to 2027-03-14
        """)
    yard.publish(LATER)
    ids = {
        "hoshi/planned/moved-2027-03-10": "  moved       yard",
        "hoshi/planned/sold-2027-03-10": "  sold",
        "yuki/planned/wired-2027-03-10/apex": "  wired       2 mm Al on apex",
    }
    for n, ident in enumerate(ids):
        client.tick(TASKS, uid(ident), f"202703{16 + n}T100000Z")
    collected = yard.collect(LATER)
    assert collected.refused == ()
    assert {offer.follow_up: offer.line.text for offer in collected.offers} == ids
    write_offered(str(yard.folder), LATER, collected)
    assert state(yard, "yuki/planned/wired-2027-03-10/apex")[0] == "done"


def test_one_line_may_settle_two_tasks(yard: Any, client: Any) -> None:
    """The second is then in the diary already."""
    yard.write("2027-03-10\n\nhoshi\n  planned     unwire on apex, to 2027-05\n")
    yard.publish(LATER)
    client.tick(TASKS, uid("hoshi/planned/unwired-2027-03-10/apex"), "20270618T100000Z")
    client.tick(TASKS, uid(CHECK), "20270618T110000Z")
    collected = yard.collect(LATER)
    lines = [offer.line.text for offer in collected.offers]
    assert "  unwired     on apex" in lines
    write_offered(str(yard.folder), LATER, collected)
    assert state(yard, CHECK)[0] == "done"


def test_a_task_whose_work_became_another_is_collected(yard: Any, client: Any) -> None:
    """A plan takes the place of what a rule asked for; who ticked off the old task did it."""
    yard.publish(LATER)
    client.tick(TASKS, uid(UNWIRE), "20270618T101500Z")
    yard.write("2027-03-10\n\nyuki\n  planned     unwire on left 2, to 2027-12\n")
    plan = "yuki/planned/unwired-2027-03-10/left-2"
    assert state(yard, UNWIRE)[0] == "replaced"
    (offer,) = yard.collect(LATER).offers
    assert (offer.follow_up, offer.line.text) == (plan, "  unwired     on left 2")
    write_offered(str(yard.folder), LATER, yard.collect(LATER))
    assert state(yard, plan)[0] == "done"


@pytest.mark.parametrize(
    ("ids", "ticked", "heir"),
    [
        # works on two parts that are one work now
        (["a/wire-off/wired-1"], "a/wire-off/wired-1/left-2", "a/wire-off/wired-1"),
        # nobody can tell which of two it was
        (["a/wire-off/wired-1/l", "a/wire-off/wired-1/r"], "a/wire-off/wired-1", None),
        (["a/wire-off/wired-2", "b/wire-off/wired-1"], "a/wire-off/wired-1/left-2", None),
    ],
)
def test_what_stands_for_an_id_that_is_no_more(
    ids: list[str], ticked: str, heir: str | None
) -> None:
    class Planned:
        def all(self) -> list[Any]:
            return [SimpleNamespace(id=one, outcome="open") for one in ids]

    found: Any = heir_of(f"task:{ticked}@yard", None, Planned())  # type: ignore[arg-type]
    assert (found and found.id) == heir


def test_the_end_of_a_calendar_that_was_ticked_off_is_dealt_with(yard: Any, client: Any) -> None:
    """A feed of tasks that is made no more: its calendar says where they went."""
    old = yard.folder / "made/calendars/tasks/places"
    yard.settings('publish = ["places/bench", "places/shed"]\n')
    cards = yard.folder / "cards.txt"
    text = cards.read_text()
    cards.write_text(f"{text}\nplace shed\n  within  yard\n")
    yard.publish()
    assert len(client.read("backbud-upper-yard-places-shed")) == 0
    cards.write_text(text)
    yard.publish()
    assert not old.exists()
    (entry,) = client.read("backbud-upper-yard-places-shed").values()
    assert entry.uid.value == "ended:calendars/places/shed.ics@upper-yard"
    assert entry.summary.value == "this calendar has ended"
    assert entry.dtstart.value == date(2027, 3, 20)
    assert entry.description.value == (
        "Its works stand in calendars/all.ics: subscribe to that. "
        "This address ends on 19 March 2028."
    )
    assert yard.publish(date(2028, 3, 19)).sent[1].kept == 1
    with pytest.raises(SubscribeError, match=r"^no feed is called “places/shed”"):
        yard.publish(date(2028, 3, 20))


def test_line_ends_and_the_byte_order_mark_stay(yard: Any, client: Any) -> None:
    data = b"\xef\xbb\xbf" + yard.diary.read_bytes().replace(b"\n", b"\r\n")
    yard.diary.write_bytes(data)
    yard.diary.chmod(0o640)
    yard.publish(LATER)
    client.tick(TASKS, uid(UNWIRE), "20270618T101500Z")
    write_offered(str(yard.folder), LATER, yard.collect(LATER))
    expected = b"\r\n2027-06-18\r\n\r\nyuki\r\n  unwired     on left 2\r\n"
    assert yard.diary.read_bytes() == data + expected
    if sys.platform != "win32":
        assert yard.diary.stat().st_mode & 0o777 == 0o640
    assert [path.name for path in yard.diary.parent.iterdir()] == ["2027.txt"]


def test_a_diary_that_changed_meanwhile_is_left_alone(yard: Any, client: Any) -> None:
    yard.publish(LATER)
    client.tick(TASKS, uid(UNWIRE))
    collected = yard.collect(LATER)
    yard.write("2027-06-19\n\nyuki\n  watered\n")
    now = yard.diary.read_text()
    with pytest.raises(SubscribeError, match=r"^diary/2027.txt was changed meanwhile; nothing"):
        write_offered(str(yard.folder), LATER, collected)
    assert yard.diary.read_text() == now
    assert len(yard.collect(LATER).offers) == 1


def test_a_journal_that_then_reads_otherwise_has_its_old_files_back(yard: Any, client: Any) -> None:
    """As where the tree's card went between the question and the answer."""
    yard.publish(LATER)
    client.tick(TASKS, uid(UNWIRE))
    collected = yard.collect(LATER)
    before = yard.diary.read_text()
    second = yard.folder / "more.txt"
    second.write_text("2027-06-20\n\nyuki\n  corrected   unwired 2027-03-18, not done\n")
    with pytest.raises(SubscribeError, match=r"did not settle yuki/wire-off"):
        write_offered(str(yard.folder), LATER, collected)
    assert yard.diary.read_text() == before


# ------------------------------------------------------------------ the command


@pytest.fixture
def at_home(yard: Any, client: Any, monkeypatch: pytest.MonkeyPatch) -> Any:
    """The yard, with the login in the environment, and what falls due today ticked off."""
    for name, value in client.environ.items():
        monkeypatch.setenv(name, value)
    today = date.today()
    yard.diary.write_text(
        f"{today.replace(day=1)}\n\nyuki\n  planned     water, to {today} -- well\n"
    )
    yard.publish(today)
    client.tick(TASKS, uid(f"yuki/planned/watered-{today.replace(day=1)}"), "20200101T000000Z")
    client.change(
        TASKS,
        uid(f"yuki/planned/watered-{today.replace(day=1)}"),
        COMPLETED=f"{today:%Y%m%d}T120000Z",
    )
    return yard


def run(yard: Any, *words: str) -> int:
    return main(["collect", str(yard.folder), "--to", yard.client.url, *words])


def test_without_a_terminal_nothing_is_written_without_yes(
    at_home: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    before = at_home.diary.read_text()
    assert run(at_home) == 0
    out = capsys.readouterr().out
    assert "\n  yuki\n    watered\n" in out
    assert out.endswith("Nothing was written; --yes writes these lines.\n")
    assert at_home.diary.read_text() == before
    assert run(at_home, "--yes") == 0
    assert capsys.readouterr().out.endswith("    watered\nWritten.\n")
    assert at_home.diary.read_text().startswith(before)
    assert at_home.diary.read_text().endswith("\nyuki\n  watered\n")
    assert run(at_home, "--yes") == 0
    assert capsys.readouterr().out == "Nothing new was ticked off.\n"


@pytest.mark.parametrize(
    ("answer", "written"), [("y", True), ("Yes ", True), ("", False), ("n", False), ("ya", False)]
)
def test_at_a_terminal_it_asks(
    at_home: Any, monkeypatch: pytest.MonkeyPatch, answer: str, written: bool
) -> None:
    before = at_home.diary.read_text()
    asked: list[str] = []
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    monkeypatch.setattr("builtins.input", lambda question: asked.append(question) or answer)
    assert run(at_home) == 0
    assert asked == ["Write these lines into the diary? [y/N] "]
    assert (at_home.diary.read_text() != before) is written


def test_a_program_reads_json_and_writes_nothing(
    at_home: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    import json

    before = at_home.diary.read_text()
    assert run(at_home, "--json") == 0
    read = json.loads(capsys.readouterr().out)
    validator("collect").validate(read)
    today = date.today()
    assert read == {
        "offered": [
            {
                "id": f"yuki/planned/watered-{today.replace(day=1)}",
                "file": "diary/2027.txt",
                "date": today.isoformat(),
                "tree": "yuki",
                "line": "watered",
            }
        ],
        "not_to_be_written": [],
        "in_the_diary_already": [],
        "not_marked": [],
        "not_understood": [],
    }
    assert at_home.diary.read_text() == before


def test_without_anything_ticked_off_the_journal_is_not_even_read(yard: Any, client: Any) -> None:
    yard.publish(LATER)
    (yard.folder / "cards.txt").write_text("nonsense")
    assert yard.collect(LATER).texts == {}
    with pytest.raises(SubscribeError):
        collect(str(yard.folder), LATER, "http://127.0.0.1:9/", client.environ)


@pytest.mark.parametrize(
    ("follow_up", "note", "line"),
    [
        # Its act with its details, and with a remark; the handle may stand in front.
        (PRUNE, "pruned 2 cm off -- sap ran", "  pruned      2 cm off -- sap ran"),
        (PRUNE, "Yuki pruned 2 cm off on apex", "  pruned      2 cm off on apex"),
        (
            CHECK,
            "checked wire on apex, fine, again in 3 weeks",
            "  checked     wire on apex, fine, again in 3 weeks",
        ),
        # In the bench's words, and in those of a card `words`.
        (UNWIRE, "wire off left 2", "  wire off left 2"),
        (UNWIRE, "Yuki: wire off L2. 20 min", "  wire off L2. 20 min"),
        (PRUNE, "kirimodoshi done, hard", "  kirimodoshi done, hard"),
        (PRUNE, "schnitt 2 cm off", "  schnitt     2 cm off"),
        # Not all of it is understood; another act; no act: a remark, as ever.
        (CHECK, "checked zyxxy", "  checked     wire on apex -- checked zyxxy"),
        (CHECK, "died", "  checked     wire on apex -- died"),
        (CHECK, "fine", "  checked     wire on apex -- fine"),
        # Another place on the tree does not settle what was asked.
        (
            UNWIRE,
            "unwired on right 2",
            "  unwired     on left 2 -- unwired on right 2",
        ),
    ],
    ids=[
        "remark",
        "handle",
        "check",
        "bench",
        "bench-handle",
        "trade",
        "own",
        "unread",
        "died",
        "no-act",
        "elsewhere",
    ],
)
def test_a_note_that_reads_as_the_act(
    yard: Any, client: Any, follow_up: str, note: str, line: str
) -> None:
    with (yard.folder / "cards.txt").open("a") as cards:
        cards.write("\nwords mine\n  since  2027-01-01\n  schnitt  pruned\n")
    yard.publish(LATER)
    client.tick(TASKS, uid(follow_up), COMMENT=note.replace(",", "\\,"))
    collected = yard.collect(LATER)
    assert [offer.line.text for offer in collected.offers] == [line]
    # Only after a yes.
    before = yard.diary.read_text()
    assert line not in before
    write_offered(str(yard.folder), LATER, collected)
    assert line in yard.diary.read_text()
    assert state(yard, follow_up)[0] == "done"


def test_a_note_that_may_say_otherwise_is_told_and_nothing_is_offered(
    yard: Any, client: Any
) -> None:
    yard.publish(LATER)
    notes = {UNWIRE: "wire off left 2, not the tip", CHECK: "she's dead"}
    for follow_up, note in notes.items():
        client.tick(TASKS, uid(follow_up), COMMENT=note.replace(",", "\\,"))
    collected = yard.collect(LATER)
    assert collected.offers == ()
    assert len(collected.refused) == 2
    assert all(note in " ".join(collected.refused) for note in notes.values())
