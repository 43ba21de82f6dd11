"""What the server gives, and what it does not: spoken to over HTTP."""

from __future__ import annotations

import os
import re
import shutil
import socket
from base64 import b64encode
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from tests.serve.conftest import Watching, write_journal

from backbud.serve.lan import host_is_ours, secret_path

Watch = Any


@pytest.fixture
def served(journal: Path, watch: Watch) -> Any:
    """A server whose first pages are there."""
    server = watch()
    server.told_of(r"\d+ files changed")
    return server


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """The same for many tests that only ask."""
    folder = tmp_path_factory.mktemp("asked") / "journal"
    write_journal(folder)
    server = Watching(folder)
    server.told_of(r"\d+ files changed")
    yield server
    server.close()


# ------------------------------------------------------------------ what it gives


@pytest.mark.parametrize(
    ("path", "sort"),
    [
        ("", "text/html; charset=utf-8"),
        ("index.html", "text/html; charset=utf-8"),
        ("trees/yuki.html", "text/html; charset=utf-8"),
        ("calendars/all.ics", "text/calendar; charset=utf-8"),
    ],
)
def test_pages_and_feeds_are_served(asked: Any, path: str, sort: str) -> None:
    said = asked.get(path)
    assert (said.status, said.headers["content-type"]) == (200, sort)
    assert said.headers["x-content-type-options"] == "nosniff"
    assert said.headers["referrer-policy"] == "no-referrer"
    assert said.headers["x-frame-options"] == "DENY"
    assert said.headers["cross-origin-resource-policy"] == "same-origin"
    assert said.headers["cache-control"] == "private, no-cache"
    assert "server" not in said.headers


def test_a_feed_is_served_as_it_was_made(served: Any, journal: Path) -> None:
    said = served.get("calendars/all.ics")
    assert said.body == (journal / "made" / "calendars" / "all.ics").read_bytes()
    assert said.body.startswith(b"BEGIN:VCALENDAR\r\n")


def test_what_a_page_links_to_is_served(asked: Any) -> None:
    found = re.search(r'href="(assets/[^"]+\.css)"', asked.get().text)
    assert found is not None
    said = asked.get(found[1])
    assert (said.status, said.headers["content-type"]) == (200, "text/css; charset=utf-8")


def test_an_unchanged_page_is_not_sent_again(asked: Any) -> None:
    """RFC 9110, 13.1.2 and 15.4.5."""
    first = asked.get("index.html")
    tag = first.headers["etag"]
    assert re.fullmatch(r'"[0-9a-f]{32}"', tag)
    for named in (tag, f"W/{tag}", f'"other", {tag}', "*"):
        again = asked.get("index.html", If_None_Match=named)
        assert (again.status, again.body, again.headers["etag"]) == (304, b"", tag)
        assert again.headers["cache-control"] == "private, no-cache"
    other = asked.get("index.html", If_None_Match='"other"')
    assert (other.status, other.body) == (200, first.body)


def test_a_changed_page_has_another_tag_and_an_unchanged_one_keeps_its_own(
    served: Any, journal: Path
) -> None:
    hoshi, yuki = (served.get(f"trees/{name}.html").headers["etag"] for name in ("hoshi", "yuki"))
    diary = journal / "diary" / "2026.txt"
    diary.write_text(diary.read_text().replace("2 cm off below", "3 cm off below"))
    served.page_with("trees/hoshi.html", "3 cm off below")
    assert served.get("trees/hoshi.html", If_None_Match=hoshi).status == 200
    assert served.get("trees/yuki.html", If_None_Match=yuki).status == 304


def test_head_tells_the_same_without_the_page(asked: Any) -> None:
    whole, head = asked.get("index.html"), asked.get("index.html", method="HEAD")
    assert (head.status, head.body) == (200, b"")
    assert head.headers["content-length"] == str(len(whole.body))
    assert head.headers["etag"] == whole.headers["etag"]


def test_only_the_servers_own_script_may_run(served: Any, journal: Path) -> None:
    """Content Security Policy Level 3: a digest of the script's text lets it run."""
    said = served.get("index.html")
    (script,) = re.findall(r"<script[^>]*>(.*?)</script>", said.text)
    digest = b64encode(sha256(script.encode()).digest()).decode()
    policy = said.headers["content-security-policy"]
    assert f"script-src 'sha256-{digest}';" in policy
    assert "worker-src 'none'" in policy
    assert "default-src 'self'" in policy
    assert "frame-ancestors 'none'" in policy
    # It is in the answer only.
    assert b"<script" not in (journal / "made" / "index.html").read_bytes()


# ------------------------------------------------------------------ what it does not


@pytest.mark.parametrize(
    "path",
    [
        "/trees",
        "/trees/",
        "/calendars/",
        "/assets/",
        "/.manifest",
        "/../backbud.toml",
        "/%2e%2e/backbud.toml",
        "/..%2fbackbud.toml",
        "/trees/../../backbud.toml",
        "/trees/..%2f..%2fdiary/2026.txt",
        "/..\\backbud.toml",
        "//etc/passwd",
        "/%2fetc/passwd",
        "/index.html%00.txt",
        "/.backbud/lock",
        "/nowhere.ics",
        "/index.html/",
        "/%ff%fe.html",
    ],
)
def test_nothing_else_is_served(asked: Any, path: str) -> None:
    said = asked.get(path, raw=True)
    assert said.status == 404
    assert b"language" not in said.body and b"root:" not in said.body


def test_no_link_is_followed_and_nothing_is_served_that_others_put_there(
    served: Any, journal: Path, tmp_path: Path
) -> None:
    (tmp_path / "secret.html").write_text("a secret")
    made = journal / "made"
    (made / "other.html").write_text("a secret")
    os.symlink(tmp_path / "secret.html", made / "link.html")
    for name in ("other.html", "link.html"):
        said = served.get(name)
        assert said.status == 404
        assert "a secret" not in said.text
    # Not even in the place of a page, or of the folder of one: the page is given as it was made.
    (made / "trees.html").unlink()
    os.symlink(tmp_path / "secret.html", made / "trees.html")
    (tmp_path / "trees").mkdir()
    (tmp_path / "trees" / "hoshi.html").write_text("a secret")
    shutil.rmtree(made / "trees")
    os.symlink(tmp_path / "trees", made / "trees")
    for name in ("trees.html", "trees/hoshi.html"):
        said = served.get(name)
        assert said.status == 200
        assert "hoshi" in said.text and "a secret" not in said.text


def test_a_manifest_that_leads_out_serves_nothing(served: Any, journal: Path) -> None:
    manifest = journal / "made" / ".manifest"
    manifest.write_text(manifest.read_text() + "../backbud.toml\n../diary/2026.txt\n")
    for path in ("/../backbud.toml", "/..%2fdiary%2f2026.txt"):
        assert served.get(path, raw=True).status == 404


def test_nothing_can_be_sent(asked: Any) -> None:
    for method in ("POST", "PUT", "DELETE", "OPTIONS", "PATCH"):
        said = asked.get("index.html", method=method)
        assert (said.status, said.headers["allow"]) == (405, "GET, HEAD")


@pytest.mark.parametrize(
    "host",
    ["trees.example", "trees.example:80", "localhost.trees.example", "192.168.1.9", "",
     "127.0.0.1@x", "[::1", "a b"],
)  # fmt: skip
def test_a_foreign_host_is_turned_away(asked: Any, host: str) -> None:
    said = asked.get("index.html", Host=host)
    assert said.status in (400, 421)
    assert "hoshi" not in said.text


@pytest.mark.parametrize(
    "host", ["localhost", "LOCALHOST:9", "127.0.0.1", "127.0.0.1:1", "[::1]:7"]
)
def test_this_machine_is_not(asked: Any, host: str) -> None:
    assert asked.get("index.html", Host=host).status == 200


def test_a_request_without_host_is_turned_away(asked: Any) -> None:
    with socket.create_connection(("127.0.0.1", asked.port)) as one:
        one.sendall(b"GET / HTTP/1.0\r\n\r\n")
        assert one.recv(4096).split()[1] in (b"400", b"421")


# ------------------------------------------------------------------ in the house


@pytest.fixture
def in_the_house(journal: Path, watch: Watch) -> Any:
    server = watch("--on-lan")
    server.told_of(r"\d+ files changed")
    return server


def test_on_a_lan_only_the_secret_path_leads_in(in_the_house: Any, journal: Path) -> None:
    server = in_the_house
    secret = server.below.strip("/")
    # 24 bytes of chance in base64 (RFC 4648): 32 letters.
    assert re.fullmatch(r"[A-Za-z0-9_-]{32}", secret)
    for path in ("/", "/index.html", "/trees/hoshi.html", f"/{secret[:-1]}/", f"/x{secret}/",
                 f"/{secret}", "/-changes", f"/{secret.swapcase()}/index.html"):  # fmt: skip
        said = server.get(path, raw=True)
        assert said.status == 404
        assert secret not in said.text and "hoshi" not in said.text
    assert server.get("index.html").status == 200
    assert server.get("index.html", Host="192.168.1.9:8642").status == 200
    assert server.get("index.html", Host="trees.example").status == 421
    assert server.get("calendars/all.ics").status == 200
    assert (journal / ".backbud" / "lan-path").stat().st_mode & 0o777 == 0o600


def test_the_secret_path_is_told_once_and_kept(in_the_house: Any, journal: Path) -> None:
    in_the_house.get("index.html")
    in_the_house.stop()
    assert in_the_house.told.count(in_the_house.below) == 1
    assert secret_path(str(journal)) == in_the_house.below.strip("/")
    for page in (journal / "made").rglob("*.html"):
        assert in_the_house.below not in page.read_text()


def test_a_damaged_secret_is_made_anew(journal: Path) -> None:
    first = secret_path(str(journal))
    assert secret_path(str(journal)) == first
    for damage in ("", "short", first + "/../..", "x" * 33):
        (journal / ".backbud" / "lan-path").write_text(damage)
        assert secret_path(str(journal)) not in (first, damage)


def test_loopback_is_not_reached_from_the_house(asked: Any) -> None:
    """It listens on 127.0.0.1 alone: another address of this machine refuses."""
    with socket.socket() as other:
        assert other.connect_ex(("127.0.0.2", asked.port)) != 0


@pytest.mark.parametrize(
    ("host", "on_loopback", "on_lan"),
    [
        ("localhost:8642", True, True),
        ("127.0.0.1:8642", True, True),
        ("[::1]:8642", True, True),
        ("192.168.1.9:8642", False, True),
        ("[fe80::1]:8642", False, True),
        (f"{socket.gethostname()}:8642", False, True),
        ("trees.example", False, False),
        ("127.0.0.1.trees.example", False, False),
        ("", False, False),
        ("localhost:", False, False),
        ("localhost:8642:1", False, False),
    ],
)
def test_which_hosts_are_ours(host: str, on_loopback: bool, on_lan: bool) -> None:
    assert host_is_ours(host, False) is on_loopback
    assert host_is_ours(host, True) is on_lan
