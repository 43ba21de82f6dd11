"""The command itself, as a process: it follows what is saved, and it ends when it is told to."""

from __future__ import annotations

import asyncio
import os
import shutil
import signal
import socket
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from backbud.serve.watch import listen

BACKBUD = str(Path(sys.executable).with_name("backbud"))
ADDED = "\n2026-03-09\n\nyuki\n  noted     two buds open\n"


def test_a_save_is_on_the_page_and_in_the_feed(journal: Path, watch: Any) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    diary = journal / "diary" / "2026.txt"
    diary.write_text(diary.read_text() + ADDED + "  planned   repot, to 2027-03\n")
    server.page_with("trees/yuki.html", "two buds open")
    server.page_with("calendars/trees/yuki.ics", "planned/repotted-2026-03-09")


def test_a_save_by_rename_is_on_the_page(journal: Path, watch: Any) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    diary = journal / "diary" / "2026.txt"
    new = journal / "diary" / ".2026.txt.new"
    new.write_text(diary.read_text() + ADDED)
    os.replace(new, diary)
    server.page_with("trees/yuki.html", "two buds open")


def test_a_file_written_piece_by_piece_is_whole_in_the_end(journal: Path, watch: Any) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    whole = (journal / "diary" / "2026.txt").read_text() + ADDED
    with (journal / "diary" / "2026.txt").open("w") as file:
        for sign in whole:
            file.write(sign)
            file.flush()
    server.page_with("trees/yuki.html", "two buds open")
    assert "problem" not in server.get("trees/yuki.html").text


def test_a_folder_that_goes_and_comes_back_is_followed(journal: Path, watch: Any) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    os.rename(journal / "diary", journal.parent / "diary")
    server.until("trees/yuki.html", lambda said: "buds are swelling" not in said.text)
    os.rename(journal.parent / "diary", journal / "diary")
    server.page_with("trees/yuki.html", "buds are swelling")
    (journal / "diary" / "2027.txt").write_text(ADDED)
    server.page_with("trees/yuki.html", "two buds open")


def test_a_journal_that_goes_and_comes_back_is_followed(journal: Path, watch: Any) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    away = journal.parent / "away"
    os.rename(journal, away)
    server.told_of("The journal's folder is not there.")
    shutil.copytree(away, journal)
    (journal / "diary" / "2027.txt").write_text(ADDED)
    server.page_with("trees/yuki.html", "two buds open")


def test_problems_stand_on_top_of_every_page_and_in_the_terminal(journal: Path, watch: Any) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    diary = journal / "diary" / "2026.txt"
    good = diary.read_text()
    diary.write_text(f"{good}  reptted   <b>same</b> pot\n")
    for path in ("index.html", "trees.html", "trees/yuki.html"):
        said = server.page_with(path, "1 problem in the journal").text
        assert said.index("backbud-watch") < said.index("<main")
        assert "reptted   &lt;b&gt;same&lt;/b&gt; pot" in said
    server.told_of("reptted")
    assert "backbud-watch" not in (journal / "made" / "trees.html").read_text()
    diary.write_text(good)
    server.until("index.html", lambda said: "1 problem" not in said.text)


def test_a_broken_journal_keeps_its_last_good_pages(journal: Path, watch: Any) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    settings = journal / "backbud.toml"
    good = settings.read_text()
    settings.write_text(good[:-5])
    # Just after the first run, the pages may still be said to be from before it.
    said = server.page_with("trees/yuki.html", "backbud.toml is not TOML").text
    assert "buds are swelling" in said
    assert "These pages are from before." in said
    server.told_of("The pages stay as they were. backbud.toml is not TOML")
    settings.write_text(good)
    server.until("trees/yuki.html", lambda said: "from before" not in said.text)


def test_a_journal_that_was_never_good_says_so_on_every_page(journal: Path, watch: Any) -> None:
    (journal / "backbud.toml").write_text("language =")
    server = watch()
    said = server.page_with("", "backbud.toml is not TOML", status=404)
    assert "<script" in said.text
    (journal / "backbud.toml").write_text('language = 1\nname = "Mended"\n')
    server.page_with("", "Mended")


def test_changes_are_told_to_an_open_page(journal: Path, watch: Any) -> None:
    """Server-sent events (WHATWG HTML, 9.2), read by hand."""
    import http.client
    import re
    from html import unescape

    server = watch()
    text = server.page_with("trees/yuki.html", "buds are swelling").text
    found = re.search(r'data-changes="([^"]+)"', text)
    assert found is not None
    connection = http.client.HTTPConnection("127.0.0.1", server.port, timeout=20)
    connection.request("GET", unescape(found[1]))
    said = connection.getresponse()
    assert said.headers["content-type"].startswith("text/event-stream")
    assert said.readline() == b": \n"
    (journal / "diary" / "2027.txt").write_text(ADDED)
    assert b"event: changed" in said.read()
    connection.close()
    # Who asks with what is not there any more is told at once.
    connection.request("GET", unescape(found[1]))
    assert b"event: changed" in connection.getresponse().read()
    connection.close()


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_it_ends_cleanly_with_a_page_open(journal: Path, watch: Any, number: int) -> None:
    server = watch()
    text = server.page_with("index.html", "hoshi").text
    address = text.partition('data-changes="')[2].partition('"')[0].replace("&amp;", "&")
    with socket.create_connection(("127.0.0.1", server.port)) as page:
        page.sendall(f"GET {address} HTTP/1.1\r\nHost: localhost\r\n\r\n".encode())
        assert b"200 OK" in page.recv(4096)
        assert server.stop(number) == 0
    rest = server.process.stdout.read().decode()
    assert (server.told + rest).endswith("Stopped.\n")
    assert "Traceback" not in server.told + rest
    assert not (journal / ".backbud" / "commitment").exists()
    # The port is free again at once.
    with socket.socket() as again:
        again.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        again.bind(("127.0.0.1", server.port))


def test_a_busy_port_is_one_sentence(journal: Path) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        run = subprocess.run(
            [BACKBUD, "watch", str(journal), "--port", str(port)], capture_output=True, text=True
        )
    assert (run.returncode, run.stdout) == (2, "")
    assert run.stderr == (
        f"backbud: port {port} cannot be used: another program uses it. "
        "Choose another one: --port 8643\n"
    )


@pytest.mark.parametrize("port", ["-1", "65536"])
def test_a_port_that_is_none_is_misuse(journal: Path, port: str) -> None:
    run = subprocess.run(
        [BACKBUD, "watch", str(journal), f"--port={port}"], capture_output=True, text=True
    )
    assert run.returncode == 2
    assert "--port is a number from 0 (any that is free) to 65535" in run.stderr


def test_the_server_is_imported_by_no_other_command() -> None:
    code = (
        "import sys, backbud.cli, backbud.make; backbud.cli.main(['check', sys.argv[1]]); "
        "print(sorted({'starlette', 'uvicorn', 'watchdog', 'asyncio'} & sys.modules.keys()))"
    )
    example = Path(__file__).parents[2] / "example_journal"
    run = subprocess.run(
        [sys.executable, "-c", code, str(example)], capture_output=True, text=True, check=True
    )
    assert run.stdout.splitlines()[-1] == "[]"


def test_the_end_of_an_answer_does_not_wait_for_its_beginning() -> None:
    """TCP_NODELAY on what is accepted: else each page waits for a delayed ACK (RFC 1122, 4.2.3)."""

    async def nodelay() -> int:
        found: list[int] = []

        def accepted(_: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
            connection = writer.get_extra_info("socket")
            found.append(connection.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
            writer.close()

        listening = listen(0, on_lan=False)
        async with await asyncio.start_server(accepted, sock=listening):
            reader, writer = await asyncio.open_connection(*listening.getsockname())
            await reader.read()
            writer.close()
        return found[0]

    assert asyncio.run(nodelay()) != 0
