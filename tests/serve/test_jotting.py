"""The page to jot on from a phone, spoken to and attacked over HTTP."""

from __future__ import annotations

import http.client
import re
import socket
from datetime import date
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest

from backbud.serve.pairing import (
    CODE_SECONDS,
    CODE_TRIES,
    Devices,
    Pairing,
    forget_devices,
    form_token,
)

TODAY = date.today()
PATIENCE_S = 60


class Phone:
    """A device that keeps its cookie, and sends forms as a browser does."""

    def __init__(self, port: int) -> None:
        self.port, self.cookie, self.host = port, "", f"127.0.0.1:{port}"

    def ask(
        self, method: str, path: str, body: bytes | str = b"", **headers: str
    ) -> tuple[int, str, dict[str, str]]:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE_S)
        named = {"Host": self.host}
        if self.cookie:
            named["Cookie"] = self.cookie
        named |= {name.replace("_", "-"): value for name, value in headers.items()}
        named = {name: value for name, value in named.items() if value}
        try:
            connection.request(method, path, body=body or None, headers=named)
            said = connection.getresponse()
            return said.status, said.read().decode(), {k.lower(): v for k, v in said.getheaders()}
        finally:
            connection.close()

    def send(self, form: dict[str, str], **headers: str) -> tuple[int, str, dict[str, str]]:
        usual = {
            "Origin": f"http://{self.host}",
            "Content_Type": "application/x-www-form-urlencoded",
        }
        status, text, said = self.ask("POST", "/jot", urlencode(form), **{**usual, **headers})
        if "set-cookie" in said:
            self.cookie = said["set-cookie"].split(";")[0]
        return status, text, said

    @property
    def token(self) -> str:
        return form_token(self.cookie.partition("=")[2])

    def line(self, line: str, **more: str) -> tuple[int, str, dict[str, str]]:
        return self.send({"token": self.token, "line": line, **more})


@pytest.fixture
def served(watch: Any) -> Any:
    """A server that a phone may jot on."""
    return watch("--on-lan", "--jot")


def code_of(server: Any) -> str:
    return str(server.told_of(r"Code: (\S+)")[1])


@pytest.fixture
def phone(served: Any) -> Phone:
    """A phone that was paired."""
    phone = Phone(served.port)
    assert phone.send({"code": code_of(served)})[0] == 303
    return phone


def once_in(page: str) -> str:
    found = re.search(r'name="once" value="([^"]+)"', page)
    assert found is not None, page
    return found[1]


def jotted(journal: Path) -> Path:
    return journal / "diary" / "jotted" / f"{TODAY}.txt"


# ------------------------------------------------------------------ as it is meant


def test_a_line_is_shown_as_it_reads_and_then_written(
    served: Any, phone: Phone, journal: Path
) -> None:
    before = (journal / "diary" / "2026.txt").read_bytes()
    status, page, said = phone.ask("GET", "/jot")
    assert (status, 'name="line"' in page, "plain HTTP" in page) == (200, True, True)
    assert "<script" not in page and "http://" not in page.replace("HTTP:", "")
    assert said["referrer-policy"] == "same-origin"
    assert "form-action 'self'" in said["content-security-policy"]

    status, page, _ = phone.line("hoshi pruned 2 cm off -- <b>dry</b>")
    assert status == 200
    assert '<span class="detail">2 cm off</span>' in page
    assert "&lt;b&gt;dry&lt;/b&gt;" in page and "<b>dry" not in page
    assert not jotted(journal).exists()

    line, once = "hoshi pruned 2 cm off -- <b>dry</b>", once_in(page)
    assert phone.line(line, once=once, write="yes")[0] == 303
    text = f"{TODAY}\n\nhoshi\n  pruned    2 cm off -- <b>dry</b>\n"
    assert jotted(journal).read_text() == text
    # A second tap writes nothing.
    assert phone.line(line, once=once, write="yes")[0] == 303
    assert jotted(journal).read_text() == text
    assert (journal / "diary" / "2026.txt").read_bytes() == before
    served.told_of(r"From a phone, into diary/jotted/\S+: hoshi pruned 2 cm off")


def test_what_is_not_understood_is_asked_and_kept_all_the_same(phone: Phone, journal: Path) -> None:
    _, page, _ = phone.line("hoshy watered")
    assert "Nothing is done by this line" in page
    assert "Did you mean “hoshi”?" in page
    assert phone.line("hoshy watered", once=once_in(page), write="yes")[0] == 303
    assert jotted(journal).read_text() == f"{TODAY}\n\nhoshy\n  watered\n"


def test_nothing_is_written_that_was_not_shown(phone: Phone, journal: Path) -> None:
    _, page, _ = phone.line("hoshi watered")
    assert phone.line("hoshi fed", once=once_in(page), write="yes")[0] == 200
    assert phone.line("hoshi fed", once="invented", write="yes")[0] == 200
    assert phone.line("hoshi fed", write="yes")[0] == 200
    assert not jotted(journal).exists()


NEEDS_KEYBOARD = (
    "hoshi died",
    "hoshi sold to somebody",
    "hoshi returned",
    "hoshi lost",
    "hoshi lent to somebody",
    "hoshi handed back",
    "hoshi died back on left 1",
    "hoshi agreed repot, 50 EUR",
    "hoshi worked 2 h",
    "hoshi billed 20 EUR",
    "hoshi paid 20 EUR",
    "hoshi bought from somebody, 20 EUR",
    "hoshi corrected died 2026-03-06, not done",
    "hoshy died",
    "all watered",
    "all in yard watered",
    "all trident maple watered",
)


def test_what_needs_the_keyboard_is_refused(phone: Phone, journal: Path) -> None:
    for line in NEEDS_KEYBOARD:
        status, page, _ = phone.line(line)
        assert (status, "at the keyboard." in page) == (400, True), line
        assert 'name="write"' not in page
    assert not jotted(journal).exists()


# ------------------------------------------------------------------ attacks


FOREIGN = (
    {"Origin": "http://evil.example"},
    {"Origin": "null"},
    {"Origin": ""},
    {"Origin": "https://127.0.0.1"},
    {"Sec_Fetch_Site": "cross-site"},
    {"Sec_Fetch_Site": "same-site"},
    # A foreign name that leads to this machine.
    {"Host": "evil.example", "Origin": "http://evil.example"},
)


def test_a_form_of_another_site_is_refused(phone: Phone, journal: Path) -> None:
    """With the cookie and even with the right token."""
    _, page, _ = phone.line("hoshi watered")
    form = {"token": phone.token, "line": "hoshi watered", "once": once_in(page), "write": "yes"}
    for headers in FOREIGN:
        assert phone.send(form, **headers)[0] in (403, 405, 421), headers
    assert not jotted(journal).exists()
    assert phone.send(form)[0] == 303


def test_without_cookie_or_token_nothing_is_done(phone: Phone, journal: Path) -> None:
    other = Phone(phone.port)
    assert other.send({"line": "hoshi watered", "token": phone.token, "write": "yes"})[0] == 403
    other.cookie = "backbud-jot=invented"
    assert other.line("hoshi watered")[0] == 403
    assert phone.send({"line": "hoshi watered"})[0] == 403
    assert phone.send({"line": "hoshi watered", "token": "x"})[0] == 403
    assert not jotted(journal).exists()


def test_a_code_is_good_once(served: Any) -> None:
    code, first, second = code_of(served), Phone(served.port), Phone(served.port)
    status, _, said = first.send({"code": code.lower().replace("-", " ")})
    assert status == 303
    cookie = said["set-cookie"]
    assert "HttpOnly" in cookie and "SameSite=strict" in cookie and "Path=/jot" in cookie
    status, page, said = second.send({"code": code})
    assert (status, "set-cookie" in said) == (403, False)
    assert "The code is used up" in page


def test_the_sixth_try_is_too_late(served: Any) -> None:
    phone = Phone(served.port)
    for _ in range(CODE_TRIES):
        assert phone.send({"code": "AAAA-AAAA"})[0] == 403
    status, page, said = phone.send({"code": code_of(served)})
    assert (status, "set-cookie" in said, "used up" in page) == (403, False, True)


def test_a_code_ends_with_its_time() -> None:
    now = [100.0]
    pairing = Pairing(lambda: now[0])
    code = pairing.shown
    assert re.fullmatch(r"[A-HJKMNP-Z2-9]{4}-[A-HJKMNP-Z2-9]{4}", code)
    now[0] += CODE_SECONDS - 1
    assert pairing.is_open
    now[0] += 1
    assert not pairing.is_open and not pairing.takes(code)


def test_a_line_break_is_refused(phone: Phone, journal: Path) -> None:
    for sign in ("\n", "\r\n", "\u2028", "\x0b", "\x1b"):
        status, page, _ = phone.line(f"hoshi watered{sign}2020-01-01")
        assert (status, "Not written" in page) == (400, True)
        assert 'name="write"' not in page


def test_a_huge_or_odd_body_is_refused(phone: Phone, journal: Path) -> None:
    assert phone.line("x" * 100_000)[0] == 413
    assert phone.line("hoshi noted " + "x" * 2500)[0] == 400
    assert phone.send({"line": "x"}, Content_Type="text/plain")[0] == 415
    assert phone.send({"line": "x"}, Content_Type="multipart/form-data; boundary=x")[0] == 415
    body = urlencode([("token", phone.token), ("line", "hoshi fed"), ("line", "yuki fed")])
    usual = {"Origin": f"http://{phone.host}", "Content_Type": "application/x-www-form-urlencoded"}
    assert phone.ask("POST", "/jot", body, **usual)[0] == 400
    assert phone.ask("POST", "/jot", b"line=%ff%fe", **usual)[0] == 400
    assert not jotted(journal).exists()


def test_too_many_are_refused_and_a_stranger_takes_none_of_a_phones(phone: Phone) -> None:
    """Thirty a minute; the pairing was one."""
    stranger = Phone(phone.port)
    said = [stranger.send({"line": "x"})[0] for _ in range(32)]
    assert said[:29] == [403] * 29 and said[29:] == [429] * 3
    assert phone.line("hoshi watered")[0] == 200


def test_it_opens_no_other_page(served: Any, phone: Phone) -> None:
    """Neither what is served below the secret path, nor anything beside it."""
    secret = served.below
    for path in ("/", "/index.html", "/jot/index.html", "/jot/../index.html", "/jot/x"):
        assert phone.ask("GET", path)[0] == 404, path
    page = phone.ask("GET", "/jot")[1] + phone.line("hoshi watered")[1]
    assert secret.strip("/") not in page
    assert phone.ask("GET", "/jot/style.css")[0] == 200
    assert phone.ask("PUT", "/jot")[0] == 405


def test_a_forgotten_device_may_not_jot_any_more(phone: Phone, journal: Path) -> None:
    assert phone.line("hoshi watered")[0] == 200
    assert forget_devices(str(journal)) == 1
    assert phone.line("hoshi watered")[0] == 403
    assert 'name="line"' not in phone.ask("GET", "/jot")[1]


def test_a_device_list_that_somebody_else_wrote_counts_for_nothing(
    journal: Path, tmp_path: Path
) -> None:
    devices = Devices(str(journal))
    key = devices.add()
    assert devices.knows(key)
    kept = journal / ".backbud" / "jot-devices"
    assert key.encode() not in kept.read_bytes()
    first, *rest = kept.read_bytes()
    kept.write_bytes(bytes((first ^ 1, *rest)))
    assert not devices.knows(key)


def test_it_is_off_unless_asked_for(watch: Any) -> None:
    server = watch("--on-lan")
    assert Phone(server.port).ask("GET", "/jot")[0] == 404
    assert Phone(server.port).send({"code": "x"})[0] == 405


def test_a_body_that_never_ends_holds_nobody_up(served: Any, phone: Phone) -> None:
    with socket.create_connection(("127.0.0.1", served.port)) as slow:
        slow.sendall(
            f"POST /jot HTTP/1.1\r\nHost: {phone.host}\r\nOrigin: http://{phone.host}\r\n"
            f"Cookie: {phone.cookie}\r\nContent-Length: 500\r\n"
            "Content-Type: application/x-www-form-urlencoded\r\n\r\nline=".encode()
        )
        assert phone.line("hoshi watered")[0] == 200
