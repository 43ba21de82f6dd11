"""Before much of a calendar goes without a reason, or anything is taken over, it is asked."""

from __future__ import annotations

import os
import shutil
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from backbud.cli import main
from backbud.plan import run
from backbud.subscribe.errors import NotAgreed
from backbud.subscribe.losses import Explained, Gone, unexplained
from backbud.whole import Broken

ALL, TASKS = "backbud-upper-yard-own", "backbud-upper-yard-tasks-all"


@pytest.fixture(autouse=True)
def one_by_one(request: pytest.FixtureRequest) -> None:
    """Each work by itself: the keeper's own trees, and the tasks."""
    if "yard" in request.fixturenames:
        request.getfixturevalue("yard").settings('publish = ["own", "tasks/all"]\n')


class Asked:
    """Whoever is asked: what they were shown, and the answer they give."""

    def __init__(self, answer: bool) -> None:
        self.answer, self.shown = answer, list[str]()

    def __call__(self, lines: Any, question: str) -> bool:
        self.shown += [*lines, question]
        return self.answer


@pytest.mark.parametrize("damage", ["utf-16", "empty"])
def test_cards_that_cannot_be_read_take_nothing_out(yard: Any, client: Any, damage: str) -> None:
    yard.publish()
    before = client.stamps(ALL) | client.stamps(TASKS)
    cards = yard.folder / "cards.txt"
    if damage == "empty":
        cards.write_bytes(b"")
    else:
        cards.write_text(cards.read_text(), encoding="utf-16")
    with pytest.raises(Broken, match=r"^Not read as a whole: cards.txt\.$"):
        yard.publish(ask=Asked(True))
    assert client.stamps(ALL) | client.stamps(TASKS) == before


def test_cards_that_were_cut_short_are_asked_about(yard: Any, client: Any) -> None:
    """Here the card of yuki, and what the diary says of her stands alone."""
    yard.publish()
    before = client.stamps(ALL) | client.stamps(TASKS)
    of_yuki = sum("yuki" in uid for uid in client.read(ALL))
    whole = len(client.read(ALL))
    assert of_yuki * 5 > whole
    cards = yard.folder / "cards.txt"
    text = cards.read_text()
    cards.write_text(text[: text.index("tree yuki")])
    asked = Asked(False)
    with pytest.raises(NotAgreed, match=r"^Nothing was written\.$"):
        yard.publish(ask=asked)
    assert asked.shown[0] == (
        f"A yard: Own trees: {of_yuki} of {whole} entries would go, and nothing in the journal "
        "says why. Is a file missing or cut short?"
    )
    assert "  yuki: prune" in asked.shown
    assert asked.shown[-1] == "Take them out all the same?"
    with pytest.raises(NotAgreed):  # nobody can be asked
        yard.publish()
    assert client.stamps(ALL) | client.stamps(TASKS) == before
    assert yard.publish(ask=Asked(True)).sent[0].removed == of_yuki
    assert not [uid for uid in client.read(ALL) if "yuki" in uid]


def test_a_fault_of_backbud_takes_nothing_out(
    yard: Any, client: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A tree that planning fails for has no entries in the feeds; hers on the server stay."""
    yard.publish()
    before = client.stamps(ALL) | client.stamps(TASKS)
    of_tree = run._of_tree

    def failing(tree: Any, *more: Any) -> Any:
        if tree.handle == "yuki":
            raise RuntimeError("a fault")
        return of_tree(tree, *more)

    monkeypatch.setattr(run, "_of_tree", failing)
    published = yard.publish()
    assert "fault" in {problem.code for problem in published.problems}
    assert list(published.lines())[-1] == (
        "backbud itself had a fault, which check tells, so nothing was taken out."
    )
    assert client.stamps(ALL) | client.stamps(TASKS) == before


def test_a_page_that_is_gone_is_asked_about(yard: Any, client: Any) -> None:
    yard.publish()
    yard.diary.write_text("2027-03-07\n\nyuki\n  watered\n")
    with pytest.raises(NotAgreed):
        yard.publish()


@pytest.mark.parametrize(
    "line",
    ["sold", "died", "unwired", "lent        -- for a show"],
)
def test_what_the_diary_tells_is_not_asked_about(yard: Any, client: Any, line: str) -> None:
    """A tree that left; what is off the tree."""
    yard.publish()
    yard.write(f"2027-03-20\n\nhoshi, yuki\n  {line}\n")
    assert yard.publish().sent[0].removed > 0


def test_what_was_dated_otherwise_is_not_asked_about(yard: Any, client: Any) -> None:
    yard.publish()
    before = set(client.read(ALL))
    yard.diary.write_text(yard.diary.read_text().replace("2027-02-27", "2027-02-26"))
    (sent, _) = yard.publish().sent
    after = set(client.read(ALL))
    assert len(before - after) == len(after - before) == sent.removed > 0


def test_a_year_that_passed_is_not_asked_about(yard: Any, client: Any) -> None:
    yard.publish()
    assert yard.publish(date(2028, 6, 20)).sent[0].removed > 0
    assert yard.publish(date(2031, 6, 20)).sent[0].removed > 0


def test_settings_that_name_no_list_of_feeds_clear_no_calendar(yard: Any, client: Any) -> None:
    yard.settings('publish = ["all", "own"]\n')
    yard.publish()
    own = client.stamps("backbud-upper-yard-own")
    yard.settings('publish = "all"\n')
    assert [p.code for p in yard.publish().problems] == ["bad-settings"]
    assert client.stamps("backbud-upper-yard-own") == own


@pytest.mark.parametrize(
    ("uid", "last", "new", "is_explained"),
    [
        ("hoshi/wire-off/wired-2027-02-27/left-1@yard", "2027-05-01", (), False),
        # the plan has it, whatever became of it; its task has a UID of its own
        ("hoshi/planned/pruned-2027-03-06@yard", "2027-05-01", (), True),
        ("task:hoshi/planned/pruned-2027-03-06@yard", "2027-05-01", (), False),
        # the same rule hangs on another day now, once for each
        ("hoshi/wire-off/wired-2027-02-27@yard", "2027-05-01",
         ("hoshi/wire-off/wired-2027-02-26@yard",), True),
        ("hoshi/wire-off/wired-2027-02-27@yard", "2027-05-01",
         ("yuki/wire-off/wired-2027-02-26@yard", "hoshi/wire-check/wired-2027-02-26@yard"), False),
        # the tree left; it never was
        ("old-nell/feed/2028@yard", "2028-05-01", (), True),
        ("kaze/feed/2027@yard", "2027-02-01", (), False),
        # a season that is over, and one to come; a year and more after any other
        ("hoshi/feed/2027@yard", "2027-03-19", (), True),
        ("hoshi/feed/2027@yard", "2027-03-20", (), False),
        ("hoshi/feed/2026-27@yard", "2027-03-19", (), True),
        ("hoshi/wire-off/wired-2026-02-27@yard", "2026-05-01", (), False),
        ("hoshi/wire-off/wired-2025-02-27@yard", "2026-03-18", (), True),
        # what stands for several works: there is such work, and such a place or kind, or not
        ("must:pruned/old%20bench/2027-W14@yard", "2027-04-05", (), True),
        ("must:pruned/tunnel/2027-W14@yard", "2027-04-05", (), False),
        ("must:fed/old%20bench/2027-W14@yard", "2027-04-05", (), False),
        ("may:checked%20wire/trident%20maple/2027-W14@yard", "2027-04-05", (), True),
        ("may:checked%20wire/satsuki%20azalea/2027-W14@yard", "2027-04-05", (), False),
        ("place:old%20bench/2027-W14@yard", "2027-04-05", (), True),
        ("kind:satsuki%20azalea/2027-W14@yard", "2027-04-05", (), False),
        ("chances:2027-W14@yard", "2027-04-05", (), True),
        ("late:@yard", "2027-04-05", (), True),
        ("ended:calendars/tasks/own.ics@yard", "2027-04-05", (), True),
        # a long id is a digest, which tells nothing
        (f"{'0f' * 32}@yard", "2020-01-01", (), False),
        ("", None, (), False),
    ],
)  # fmt: skip
def test_what_explains_that_an_entry_goes(
    uid: str, last: str | None, new: tuple[str, ...], is_explained: bool
) -> None:
    explained = Explained(
        frozenset({"hoshi/planned/pruned-2027-03-06@yard"}),
        frozenset({"hoshi", "yuki", "old-nell"}),
        frozenset({"old-nell"}),
        date(2027, 3, 20),
        frozenset({"pruned", "checked wire"}),
        frozenset({"", "old bench", "trident maple"}),
    )
    gone = Gone(uid, "work", date.fromisoformat(last) if last else None)
    assert unexplained([gone], new, explained) == (() if is_explained else (gone,))
    # of two, a new one stands for one
    both = (gone, gone._replace(title="other"))
    assert len(unexplained(both, new, explained)) == (
        1 if new and is_explained else 0 if is_explained else 2
    )


# ------------------------------------------------------------------ another machine


@pytest.fixture
def elsewhere(yard: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """The yard once it was published, on another machine."""
    yard.publish()
    monkeypatch.setenv("BACKBUD_CONFIG", str(tmp_path / "another machine"))
    # Version control brings the journal there, and not what was made of it.
    shutil.rmtree(yard.folder / "made")
    return yard


def test_on_a_new_machine_what_stands_there_is_left_and_told(elsewhere: Any, client: Any) -> None:
    before = client.stamps(ALL) | client.stamps(TASKS)
    there = len(client.read(ALL)) + len(client.read(TASKS))
    elsewhere.write("2027-03-20\n\nyuki\n  skipped     prune\n")
    published = elsewhere.publish()
    assert [(one.written, one.removed, one.kept) for one in published.sent] == [(0, 0, 0)] * 2
    assert f"{there} entries there may not be of this journal and were left alone. " in "\n".join(
        published.lines()
    )
    assert not published.is_whole
    assert client.stamps(ALL) | client.stamps(TASKS) == before


def test_it_is_adopted_once_the_keeper_agrees(elsewhere: Any, client: Any) -> None:
    there = len(client.read(ALL)) + len(client.read(TASKS))
    before = client.stamps(ALL)
    asked = Asked(False)
    with pytest.raises(NotAgreed, match=r"^Nothing was taken over and nothing was written\.$"):
        elsewhere.publish(adopt=True, ask=asked)
    assert asked.shown[0] == (
        f"{there} entries there bear no mark of yours, but look like this journal's:"
    )
    assert asked.shown[-1] == "Take them over, to change and remove them from now on?"
    assert client.stamps(ALL) == before
    elsewhere.write("2027-03-20\n\nyuki\n  skipped     prune\n")
    (events, _) = elsewhere.publish(adopt=True, ask=Asked(True)).sent
    assert (events.removed, events.unmarked) == (1, ())
    assert set(client.read(ALL)) == elsewhere.uids("own")
    again = elsewhere.publish()
    assert again.is_whole
    assert [(one.written, one.removed) for one in again.sent] == [(0, 0)] * 2


def test_a_tick_on_a_new_machine_comes_in_once_it_was_adopted(elsewhere: Any, client: Any) -> None:
    uid = "task:yuki/wire-off/wired-2027-03-06/left-2@upper-yard"
    client.tick(TASKS, uid)
    collected = elsewhere.collect()
    assert (collected.offers, collected.refused) == ((), ())
    assert list(collected.lines()) == [
        "Nothing new was ticked off.",
        "1 task ticked off there may not be of this journal and was left out: yuki: unwire on "
        "left 2. If they are, backbud publish --adopt takes them over.",
    ]
    elsewhere.publish(adopt=True, ask=Asked(True))
    assert client.read(TASKS)[uid].status.value == "COMPLETED"
    collected = elsewhere.collect()
    assert collected.unmarked == ()
    assert len(collected.offers) + len(collected.refused) == 1


def test_a_strangers_task_writes_nothing_into_the_diary(yard: Any, client: Any) -> None:
    """With a UID like ours, in our calendar, ticked off."""
    yard.publish()
    uid = "task:yuki/wire-off/wired-2027-03-06/left-2@upper-yard"
    name = client.file_of(TASKS, uid)
    text = client.ask("GET", f"{TASKS}/{name}")
    client.ask("DELETE", f"{TASKS}/{name}")
    lines = [line for line in text.splitlines() if not line.startswith("X-BACKBUD")]
    lines.insert(lines.index("END:VTODO"), "COMPLETED:20270318T101500Z")
    client.ask("PUT", f"{TASKS}/from-a-stranger.ics", "\r\n".join((*lines, "")))
    collected = yard.collect()
    assert (collected.offers, collected.refused) == ((), ())
    assert collected.unmarked == ("yuki: unwire on left 2",)
    assert yard.publish().sent[1].unmarked == ("yuki: unwire on left 2",)
    assert "from-a-stranger.ics" in client.entries(TASKS)


# ------------------------------------------------------------------ the command


def test_the_command_refuses_without_a_yes(
    yard: Any, client: Any, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name, value in client.environ.items():
        monkeypatch.setenv(name, value)
    words = ["publish", str(yard.folder), "--to", client.url]
    yard.diary.write_text("2020-03-06\n\nhoshi\n  wired       2 mm Al on left 1\n")
    assert main(words) == 0
    cards = yard.folder / "cards.txt"
    text = cards.read_text()
    cards.write_text(text[: text.index("tree hoshi")])
    yard.diary.write_text("2020-03-06\n")
    before = client.stamps(ALL)
    capsys.readouterr()
    assert main(words) == 1
    told = capsys.readouterr()
    assert "entries would go, and nothing in the journal says why" in told.err
    assert told.err.endswith("backbud: Nothing was written.\n")
    assert told.out == "--yes does it all the same.\n"
    assert client.stamps(ALL) == before
    cards.write_bytes(text.encode("utf-16"))
    assert main([*words, "--yes"]) == 1
    assert capsys.readouterr().err.splitlines()[-1] == (
        "Not read as a whole: cards.txt. It was read before, so all stays as it was made last."
    )
    assert client.stamps(ALL) == before
    cards.write_text(text[: text.index("tree hoshi")])
    assert main([*words, "--yes"]) == 0
    assert client.read(ALL) == {}


def test_a_feed_in_the_output_that_this_run_did_not_make_is_not_published(
    yard: Any, client: Any
) -> None:
    from backbud.subscribe.errors import SubscribeError

    yard.publish()
    os.makedirs(yard.folder / "made/calendars/own2", exist_ok=True)
    (yard.folder / "made/calendars/own2/x.ics").write_text("BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n")
    yard.settings('publish = ["own2/x"]\n')
    with pytest.raises(SubscribeError, match=r"^no feed is called “own2/x”"):
        yard.publish()
