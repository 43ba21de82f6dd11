"""A journal that runs by itself: what is told, what is kept, and that two runs never collide."""

from __future__ import annotations

import configparser
import json
import plistlib
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from xml.etree import ElementTree

import pytest
from tests.views.test_schema import validator

from backbud.cli import main
from backbud.nightly import log
from backbud.nightly.run import LOCK, run
from backbud.nightly.setting_up import cron_lines, minute_of, plist, service_unit, task, timer_unit
from backbud.publish.lock import lock
from backbud.services.agreed import agree, forget_named
from backbud.views.published import as_json

NOW = datetime(2027, 3, 6, 16, 20, tzinfo=UTC)
TREE = "\ntree hoshi\n  kind   trident maple\n  place  yard\n\n2026-06-01\nhoshi\n  noted  well\n"


@pytest.fixture
def night(journal, named, met, kit):
    (journal / "cards.txt").write_text((journal / "cards.txt").read_text() + TREE)
    agree(str(journal), named)

    def at(now: datetime, **more):
        return run(str(journal), now, {}, **more)

    yield at
    forget_named(str(journal))


def test_the_line_tells_the_frost_and_the_next_run_has_nothing_to_tell(night, journal, met, kit):
    met.answers(kit.COMPACT, kit.compact(NOW, (2.0, -12.0, 3.0, 3.0)))
    first = night(NOW)
    assert first.whole
    assert first.line.startswith(
        "forecast of 2027-03-06 16:20 UTC; protect against frost in the night to Monday 8 March, "
        "−12 °C (1 tree); "
    )
    feed = journal / "made/calendars/all.ics"
    assert "UID:frost:yard/2026-27@backbud\r\nSUMMARY:Frost −12: protect hoshi\r\n" in (
        feed.read_bytes().decode()
    )
    # A milder forecast lets it go.
    later = NOW + timedelta(hours=1)
    met.answers(kit.COMPACT, kit.compact(later, (2.0, 3.0, 3.0, 3.0)))
    second = night(later)
    assert "protect against frost" not in second.line
    assert "UID:frost:" not in feed.read_text()
    # Nobody is asked again, and nothing is another.
    third = night(later + timedelta(minutes=5))
    assert (third.whole, third.line) == (True, "nothing changed")
    validator("nightly").validate(json.loads(as_json(third)))


def test_where_the_service_fails_the_pages_are_made_all_the_same(night, journal, met, kit):
    met.replies[kit.COMPACT] = kit.with_body(b"", 500)
    told = night(NOW)
    assert not told.whole
    assert told.line.endswith(
        f"No forecast came: {met.url} answers 500. There is none from before; all goes by the "
        "climate."
    )
    assert (journal / "made/index.html").exists()


def test_a_young_run_is_enough_and_what_slept_catches_up(night, met, kit):
    met.answers(kit.COMPACT, kit.compact(NOW, (2.0, 3.0, 3.0)))
    assert night(NOW, if_older_hours=10.0).ran
    assert not night(NOW + timedelta(hours=9), if_older_hours=10.0).ran
    assert night(NOW + timedelta(hours=11), if_older_hours=10.0).ran


def test_two_runs_never_collide(night, journal, met, kit):
    met.answers(kit.COMPACT, kit.compact(NOW, (2.0, 3.0, 3.0)))
    # Another process, since a thread may take its own lock twice.
    code = (
        "import sys, time\nfrom backbud.publish.lock import lock\n"
        f"with lock({str(journal)!r}, 1.0, {LOCK!r}):\n"
        "    print('held', flush=True)\n    sys.stdin.read()\n"
    )
    other = subprocess.Popen(
        [sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert other.stdout.readline() == "held\n"
    told = night(NOW)
    assert (told.whole, told.line) == (
        False,
        "Another nightly run is at work on this journal; this one ends here.",
    )
    assert met.asked == []
    other.communicate("")
    assert night(NOW).whole
    with lock(str(journal), 0.0, LOCK):
        pass


def test_the_log_keeps_a_line_a_run_and_never_grows_for_ever(journal, monkeypatch):
    path = log.log_file(str(journal))
    monkeypatch.setattr(log, "MOST_BYTES", 200)
    for n in range(20):
        log.add_to_log(str(journal), NOW, f"run {n}\nand more", n % 2 == 0)
    kept = [f"{path}{end}" for end in ("", ".1", ".2", ".3")]
    lines = [line for one in reversed(kept) for line in Path(one).read_text().splitlines()]
    assert not Path(f"{path}.4").exists()
    assert "run 19" in lines[-1] and " NOT WHOLE " in lines[-1]
    assert all(line.startswith("2027-03-06 16:20") for line in lines)
    assert str(journal) not in [str(one) for one in journal.rglob("nightly*")]


def test_what_sets_it_up_is_well_formed(tmp_path):
    journal = str(tmp_path / 'my "trees" 100 % $HOME & more')
    for text in (service_unit(journal), timer_unit(journal)):
        parsed = configparser.RawConfigParser(strict=False)
        parsed.optionxform = str
        parsed.read_string(text)
        assert parsed.has_section("Unit")
    assert "100 %% $$HOME" in service_unit(journal)
    assert "Persistent=true" in timer_unit(journal)
    words = plistlib.loads(plist(journal).encode())["ProgramArguments"]
    assert words[-2:] == ["nightly", journal]
    root = ElementTree.fromstring(task(journal))
    space = "{http://schemas.microsoft.com/windows/2004/02/mit/task}"
    assert root.find(f"{space}Settings/{space}StartWhenAvailable").text == "true"
    for line in cron_lines(journal).split("\n"):
        assert "100 \\% $HOME" in line
        assert line.split(" ")[2:5] == ["*"] * 3


@pytest.mark.parametrize("name", [f"trees-{n}" for n in range(20)])
def test_each_form_runs_before_dawn_and_before_the_alarm_at_three(tmp_path, name):
    """A frost first foretold by day still rings at 15:00; a run takes minutes, not an hour."""
    journal = str(tmp_path / name)
    minute = minute_of(journal)
    assert 5 <= minute <= 54
    by_systemd = [one for one in timer_unit(journal).splitlines() if one.startswith("OnCal")]
    assert by_systemd == [f"OnCalendar=*-*-* {hour}:{minute:02}:00" for hour in ("04", "13")]
    assert plistlib.loads(plist(journal).encode())["StartCalendarInterval"] == [
        {"Hour": hour, "Minute": minute} for hour in (4, 13)
    ]
    starts = [f"2020-01-01T{hour}:{minute:02}:00" for hour in ("04", "13")]
    assert all(f"<StartBoundary>{start}</StartBoundary>" in task(journal) for start in starts)
    twice, catching_up = (line.split(" ") for line in cron_lines(journal).split("\n"))
    assert twice[:2] == [str(minute), "4,13"] and "--if-older=9" not in twice
    assert catching_up[1] == "4-21" and "--if-older=9" in catching_up
    # Never at one minute with the other; and awake all day it finds nothing to catch up with.
    looks = [int(one) for one in catching_up[0].split(",")]
    assert minute not in looks
    assert 21 * 60 + max(looks) - (13 * 60 + minute) < 9 * 60
    # Slept through at 13 and awake by 14:29, it is made up for before three.
    by_half_past = [14 * 60 + look for look in looks if look >= 30]
    assert by_half_past[0] - (4 * 60 + minute) >= 9 * 60


def test_the_command_prints_all_four(journal, capsys):
    assert main(["nightly", str(journal), "--install-help"]) == 0
    said = capsys.readouterr().out
    for word in ("[Timer]", "StartCalendarInterval", "StartWhenAvailable", "--if-older=9"):
        assert word in said
