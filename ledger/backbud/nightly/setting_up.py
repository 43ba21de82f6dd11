"""Writes what sets a nightly run up: for systemd, launchd, the scheduler of Windows, and cron.

Twice a day, before dawn and an hour before the alarm at three in the afternoon, so that a frost
first foretold by day still rings that evening; at a minute that hangs on the journal, so that not
everybody asks at once.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from hashlib import blake2b
from xml.sax.saxutils import escape

# Ours, no source: each run ends before an alarm rings (calendar/entries.py, BEFORE_DUSK).
HOURS = (4, 13)
# By cron what slept runs, from waking on, where the last run is older than this: as long as
# from one run to the next by day, and short enough that a missed one is made up for before three.
OLDER_HOURS = 9


def minute_of(journal: str) -> int:
    """A minute of the hour, the same for a journal each time."""
    digest = blake2b(os.path.realpath(journal).encode("utf-8", "surrogatepass"), digest_size=2)
    return int.from_bytes(digest.digest(), "big") % 50 + 5


def program() -> tuple[str, ...]:
    """The words that run this very program."""
    return sys.executable, "-m", "backbud"


def help_text(journal: str) -> Iterator[str]:
    """All of it, for a person who copies what fits."""
    yield "# Linux with systemd: two files, then one command."
    yield "# ~/.config/systemd/user/backbud-nightly.service"
    yield service_unit(journal)
    yield "# ~/.config/systemd/user/backbud-nightly.timer"
    yield timer_unit(journal)
    yield "# then:  systemctl --user enable --now backbud-nightly.timer"
    yield "# and, so that it runs while nobody is logged in:  loginctl enable-linger"
    yield ""
    yield "# macOS: one file, then one command."
    yield "# ~/Library/LaunchAgents/backbud.nightly.plist"
    yield plist(journal)
    yield "# then:  launchctl bootstrap gui/$(id -u) ~/Library/LaunchAgents/backbud.nightly.plist"
    yield ""
    yield "# Windows: one file, then one command."
    yield "# backbud-nightly.xml"
    yield task(journal)
    yield "# then:  schtasks /create /tn backbud-nightly /xml backbud-nightly.xml"
    yield ""
    yield "# cron, where there is nothing else (crontab -e), two lines: twice a day, the second"
    yield "# time before the alarm at three in the afternoon; and each half hour by day it looks"
    yield f"# whether the last run is older than {OLDER_HOURS} hours, so what slept catches up."
    yield cron_lines(journal)


def service_unit(journal: str) -> str:
    """A oneshot unit of systemd."""
    command = " ".join(_systemd(word) for word in (*program(), "nightly", os.path.abspath(journal)))
    return f"""[Unit]
Description=backbud: fetch the forecast, make and publish the journal
Wants=network-online.target
After=network-online.target

[Service]
Type=oneshot
ExecStart={command}
TimeoutStartSec=30min
Nice=10
"""


def timer_unit(journal: str) -> str:
    """Its timer; Persistent lets a computer that slept catch up."""
    when = "\n".join(f"OnCalendar=*-*-* {hour:02}:{minute_of(journal):02}:00" for hour in HOURS)
    return f"""[Unit]
Description=backbud: before dawn, and before the alarm at three in the afternoon

[Timer]
{when}
Persistent=true
RandomizedDelaySec=5min

[Install]
WantedBy=timers.target
"""


def _systemd(word: str) -> str:
    """A word of a command line as systemd reads it: specifiers and variables doubled, quoted."""
    plain = word.replace("\\", "\\\\").replace('"', '\\"').replace("%", "%%").replace("$", "$$")
    return f'"{plain}"'


def plist(journal: str) -> str:
    """A job of launchd, which runs what was missed once the computer wakes."""
    words = (*program(), "nightly", os.path.abspath(journal))
    arguments = "\n".join(f"    <string>{escape(word)}</string>" for word in words)
    minute = minute_of(journal)
    times = "\n".join(
        f"    <dict><key>Hour</key><integer>{hour}</integer>"
        f"<key>Minute</key><integer>{minute}</integer></dict>"
        for hour in HOURS
    )
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE plist PUBLIC "-//Apple//DTD PLIST 1.0//EN" "http://www.apple.com/DTDs/PropertyList-1.0.dtd">
<plist version="1.0">
<dict>
  <key>Label</key><string>backbud.nightly</string>
  <key>ProgramArguments</key>
  <array>
{arguments}
  </array>
  <key>StartCalendarInterval</key>
  <array>
{times}
  </array>
  <key>ProcessType</key><string>Background</string>
</dict>
</plist>
"""


def task(journal: str) -> str:
    """A task of the scheduler of Windows; StartWhenAvailable lets it catch up."""
    command, *words = program()
    arguments = " ".join(f'"{one}"' for one in (*words, "nightly", os.path.abspath(journal)))
    minute = minute_of(journal)
    triggers = "\n".join(
        f"    <CalendarTrigger><StartBoundary>2020-01-01T{hour:02}:{minute:02}:00</StartBoundary>"
        "<ScheduleByDay><DaysInterval>1</DaysInterval></ScheduleByDay></CalendarTrigger>"
        for hour in HOURS
    )
    return f"""<?xml version="1.0"?>
<Task version="1.2" xmlns="http://schemas.microsoft.com/windows/2004/02/mit/task">
  <Triggers>
{triggers}
  </Triggers>
  <Settings>
    <MultipleInstancesPolicy>IgnoreNew</MultipleInstancesPolicy>
    <StartWhenAvailable>true</StartWhenAvailable>
    <RunOnlyIfNetworkAvailable>false</RunOnlyIfNetworkAvailable>
    <ExecutionTimeLimit>PT30M</ExecutionTimeLimit>
  </Settings>
  <Actions>
    <Exec><Command>{escape(command)}</Command><Arguments>{escape(arguments)}</Arguments></Exec>
  </Actions>
</Task>
"""


def cron_lines(journal: str) -> str:
    """Two lines of a crontab, where a percent sign would end the command: at the hours, and where
    that was slept through."""
    minute = minute_of(journal)
    # Not at the minute of a run by the hours.
    first = (minute + 15) % 30
    hours = ",".join(map(str, HOURS))
    by_day = f"{HOURS[0]}-21"
    return "\n".join(
        (
            f"{minute} {hours} * * * {_command(journal)}",
            f"{first},{first + 30} {by_day} * * * {_command(journal, f'--if-older={OLDER_HOURS}')}",
        )
    )


def _command(journal: str, *options: str) -> str:
    words = (*program(), "nightly", *options, os.path.abspath(journal))
    command = " ".join(_shell(word) for word in words).replace("%", "\\%")
    return f"{command} >/dev/null 2>&1"


def _shell(word: str) -> str:
    from shlex import quote

    return quote(word)
