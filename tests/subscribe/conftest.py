"""A CalDAV server that others wrote (Radicale), and a client that speaks to it with bare HTTP."""

from __future__ import annotations

import base64
import re
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from textwrap import dedent
from typing import Any
from urllib.parse import unquote, urlsplit
from xml.etree import ElementTree

import pytest
import vobject

from backbud.subscribe.collect import Collected, collect
from backbud.subscribe.publish import PublishedFeeds, publish_feeds

TODAY = date(2027, 3, 20)
PASSWORD = "a-secret-of-una"

CONFIG = """\
[server]
hosts = 127.0.0.1:{port}
[auth]
type = htpasswd
htpasswd_filename = {folder}/users
htpasswd_encryption = plain
delay = 0
[rights]
type = from_file
file = {folder}/rights
[storage]
filesystem_folder = {folder}/data
[logging]
level = warning
"""
# Everybody may do everything below their own name, but the reader only read.
RIGHTS = """\
[root]
user: .+
collection:
permissions: R
[reader]
user: reader
collection: reader(/.*)?
permissions: Rr
[own]
user: (?!reader).+
collection: {user}(/.*)?
permissions: RWrw
"""
EVERY_ENTRY = """\
<C:calendar-query xmlns:D="DAV:" xmlns:C="urn:ietf:params:xml:ns:caldav">
  <D:prop><C:calendar-data/></D:prop>
  <C:filter><C:comp-filter name="VCALENDAR"/></C:filter>
</C:calendar-query>
"""


class Client:
    """A calendar client that knows nothing of ours: bare HTTP, and vobject to read."""

    def __init__(self, url: str, data: Path, user: str) -> None:
        self.url, self.user, self.data = url, user, data
        token = base64.b64encode(f"{user}:{PASSWORD}".encode()).decode()
        self._login = {"Authorization": f"Basic {token}"}

    @property
    def environ(self) -> dict[str, str]:
        """What the keeper of this login has in the environment."""
        return {
            "BACKBUD_CALDAV_USER": self.user,
            "BACKBUD_CALDAV_PASSWORD": PASSWORD,
        }

    def ask(self, method: str, path: str, body: str = "", **headers: str) -> str:
        request = urllib.request.Request(
            f"{self.url}{self.user}/{path}",
            body.encode(),
            {"Content-Type": "text/calendar", **self._login, **headers},
            method=method,
        )
        with urllib.request.urlopen(request) as answer:
            text: str = answer.read().decode()
            return text

    def calendars(self) -> list[str]:
        """The last part of each calendar's address."""
        return sorted(p.name for p in (self.data / "collection-root" / self.user).iterdir()
                      if p.is_dir() and not p.name.startswith("."))  # fmt: skip

    def entries(self, calendar: str) -> dict[str, str]:
        """Every entry of a calendar by its file, as the server gives it out."""
        answer = self.ask("REPORT", f"{calendar}/", EVERY_ENTRY, Depth="1")
        return {
            unquote(one.findtext("{DAV:}href", "")).rpartition("/")[2]: one.findtext(
                ".//{urn:ietf:params:xml:ns:caldav}calendar-data", ""
            )
            .replace("\r", "")
            .replace("\n", "\r\n")
            for one in ElementTree.fromstring(answer).iter("{DAV:}response")
        }

    def read(self, calendar: str) -> dict[str, Any]:
        """Every event or task of a calendar by its UID, as vobject reads it."""
        found: dict[str, Any] = {}
        for text in self.entries(calendar).values():
            (entry,) = (
                one
                for one in vobject.readOne(text).getChildren()
                if one.name in ("VEVENT", "VTODO")
            )
            found[entry.uid.value] = entry
        return found

    def file_of(self, calendar: str, uid: str) -> str:
        """The file that holds the entry of a UID."""
        (found,) = (
            name for name, text in self.entries(calendar).items() if f"UID:{uid}" in unfolded(text)
        )
        return found

    def tick(self, calendar: str, uid: str, stamp: str = "20270318T101500Z", **more: str) -> None:
        """Tick a task off, as a client does; `more`: properties to set."""
        self.change(calendar, uid, STATUS="COMPLETED", COMPLETED=stamp, **more)

    def change(self, calendar: str, uid: str, **properties: str) -> None:
        """Set raw properties of an entry."""
        name = self.file_of(calendar, uid)
        lines = unfolded(self.ask("GET", f"{calendar}/{name}")).split("\r\n")
        end = next(i for i, line in enumerate(lines) if line.startswith("END:V"))
        kept = [
            line
            for line in lines[:end]
            if line.split(":")[0].split(";")[0].replace("-", "_") not in properties
        ]
        new = [f"{key.replace('_', '-')}:{value}" for key, value in properties.items()]
        self.ask("PUT", f"{calendar}/{name}", "\r\n".join((*kept, *new, *lines[end:])))

    def stamps(self, calendar: str) -> dict[str, int]:
        """When the server wrote each file of a calendar, in nanoseconds."""
        folder = self.data / "collection-root" / self.user / calendar
        return {path.name: path.stat().st_mtime_ns for path in folder.glob("*.ics")}


def unfolded(text: str) -> str:
    return text.replace("\r\n ", "")


@pytest.fixture(autouse=True)
def person(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A person of each test's own, with a secret of their own."""
    monkeypatch.setenv("BACKBUD_CONFIG", str(tmp_path / "settings of una"))


@pytest.fixture(scope="session")
def radicale(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """A running server: its address, and the folder of its data."""
    folder = tmp_path_factory.mktemp("radicale")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    (folder / "users").write_text("")
    (folder / "rights").write_text(RIGHTS)
    (folder / "config").write_text(CONFIG.format(port=port, folder=folder))
    with open(folder / "log", "wb") as log:
        server = subprocess.Popen(
            [sys.executable, "-m", "radicale", "--config", str(folder / "config")],
            stdout=log,
            stderr=log,
        )
    try:
        for _ in range(600):
            with socket.socket() as there:
                if there.connect_ex(("127.0.0.1", port)) == 0:
                    break
            assert server.poll() is None, (folder / "log").read_text()
            time.sleep(0.05)
        yield f"http://127.0.0.1:{port}/", folder / "data"
    finally:
        server.terminate()
        server.wait(20)


@pytest.fixture
def client(radicale: tuple[str, Path], request: pytest.FixtureRequest) -> Client:
    """A login of its own for each test."""
    url, data = radicale
    user = re.sub(r"[^a-z0-9]+", "-", request.node.name.lower())[:60]
    return _login(url, data, user)


@pytest.fixture
def reader(radicale: tuple[str, Path]) -> Client:
    """A login that may read its calendars and not write them."""
    (radicale[1] / "collection-root" / "reader").mkdir(parents=True, exist_ok=True)
    return _login(*radicale, "reader")


def _login(url: str, data: Path, user: str) -> Client:
    users = data.parent / "users"
    if f"{user}:" not in users.read_text():
        # The server reads the file again when it changed.
        users.write_text(f"{users.read_text()}{user}:{PASSWORD}\n")
    return Client(url, data, user)


SETTINGS = """\
language = 1
name = "A yard"
home = "yard"
keeper = "wrenfold"
journal_id = "upper-yard"
"""
CARDS = """\
person wrenfold

place yard
  latitude  52 N

place bench
  within    yard

tree hoshi
  name      Hoshi; the star, 星 שלום 🌳
  kind      trident maple
  since     2011-03
  place     bench

tree yuki
  kind      trident maple
  since     2015-03
  place     bench
"""
DIARY = """\
2027-02-27

hoshi
  repotted    same pot, tied 2 mm x 2
  wired       2 mm Al on left 1, 3 mm Al on apex

2027-03-06

yuki
  wired       3 mm Al on left 2
  planned     prune, to 2027-03-15/2027-04-10 -- as the buds say, or later; no more than a third
"""


class Yard:
    """A journal in a folder."""

    def __init__(self, folder: Path, client: Client) -> None:
        self.folder, self.client = folder, client
        (folder / "diary").mkdir(parents=True)
        (folder / "cards.txt").write_text(CARDS)
        self.diary = folder / "diary" / "2027.txt"
        self.diary.write_text(DIARY)
        self.settings()

    def settings(self, more: str = "") -> None:
        (self.folder / "backbud.toml").write_text(SETTINGS + more)

    def write(self, text: str) -> None:
        """Write more into the diary."""
        self.diary.write_text(f"{self.diary.read_text()}\n{dedent(text)}")

    def publish(
        self, today: date = TODAY, environ: Mapping[str, str] | None = None, **more: Any
    ) -> PublishedFeeds:
        environ = environ or self.client.environ
        return publish_feeds(str(self.folder), today, self.client.url, environ, **more)

    def collect(self, today: date = TODAY) -> Collected:
        return collect(str(self.folder), today, self.client.url, self.client.environ)

    def uids(self, feed: str) -> set[str]:
        """The UIDs that a feed of the output names."""
        text = unfolded((self.folder / f"made/calendars/{feed}.ics").read_bytes().decode())
        return set(re.findall(r"^UID:(.+)\r$", text, re.MULTILINE))

    def port(self) -> int:
        return urlsplit(self.client.url).port or 0


@pytest.fixture
def yard(tmp_path: Path, client: Client) -> Yard:
    return Yard(tmp_path / "yard", client)
