"""`backbud watch` from its start to Ctrl-C: it waits for changes, rebuilds, and tells.

The steps, over and over:
    changes   something in the folder changed, and it is quiet again (changes.py)
    rebuild   made/ is brought up to date, or stays as it was (rebuild.py)
    tell      in the terminal, and to every open page that changed (reload.py, site.py)
"""

from __future__ import annotations

import asyncio
import errno
import gc
import signal
import socket
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import date
from typing import TYPE_CHECKING

from backbud.fault_report import last_word
from backbud.say import say, warn
from backbud.serve.changes import Changes
from backbud.serve.lan import EVERYWHERE, LOOPBACK, lan_address, secret_path
from backbud.serve.rebuild import News, Rebuilder
from backbud.serve.reload import Hub
from backbud.serve.site import PATH, Banner, Site

if TYPE_CHECKING:
    import uvicorn

    from backbud.serve.jotting import JotDesk

PORT = 8642
SHOWN_PROBLEMS = 20
_IDLE_SECONDS = 1.0
_TRY_AGAIN_SECONDS = 2.0
_STOP_SECONDS = 2


class CannotServe(Exception):
    """The address cannot be listened on; the sentence says why."""


def watch(
    folder: str,
    port: int = PORT,
    *,
    on_lan: bool = False,
    jot: bool = False,
    ask_today: Callable[[], date] = date.today,
) -> None:
    """Watch and serve a journal until Ctrl-C or SIGTERM. CannotServe where the port is not free,
    PublishError or OSError where the secret path cannot be kept."""
    listening = listen(port, on_lan)
    secret = secret_path(folder) if on_lan else ""
    asyncio.run(_Watching(folder, ask_today).run(listening, secret, jot=jot))


def listen(port: int, on_lan: bool) -> socket.socket:
    """Take the port; CannotServe says in one sentence why it is not to be had."""
    # Only where the protocol is named, asyncio sends the end of an answer without waiting for the
    # other side to have got its beginning (TCP_NODELAY); that took 40 ms for each page.
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    if sys.platform == "win32":
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
    else:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((EVERYWHERE if on_lan else LOOPBACK, port))
        listening.listen(128)
    except OSError as error:
        listening.close()
        if error.errno == errno.EADDRINUSE:
            why = "another program uses it"
        elif error.errno == errno.EACCES:
            why = "only the system's own programs may"
        else:
            why = error.strerror or str(error)
        raise CannotServe(
            f"port {port} cannot be used: {why}. Choose another one: --port {PORT + 1}"
        ) from None
    return listening


class _Watching:
    """One run of the command; `news` is set by the thread that rebuilds."""

    def __init__(self, folder: str, ask_today: Callable[[], date]) -> None:
        self._rebuilder = Rebuilder(folder, ask_today, self._show)
        self._folder, self._ask_today = folder, ask_today
        self._news = News(ask_today(), failure="The journal is being read.")
        self._told: tuple[tuple[str, ...], str] = ((), "")
        self._resting: threading.Timer | None = None
        self._is_frozen = False

    async def run(self, listening: socket.socket, secret: str, *, jot: bool) -> None:
        import uvicorn

        from backbud.serve.doors import Door

        self._loop, self._hub = asyncio.get_running_loop(), Hub()
        desk = self._desk() if jot else None
        site = Site(lambda: self._rebuilder.files, self._banner, self._hub, secret, desk)
        # No list of requests: it would show the secret path.
        config = uvicorn.Config(
            site, log_level="error", access_log=False, log_config=None, lifespan="off",
            server_header=False,
            timeout_graceful_shutdown=_STOP_SECONDS, ws="none", http=Door,
        )  # fmt: skip
        server = _server(config)
        self._loop.set_exception_handler(lambda _, told: self._fault(told.get("exception")))
        self._changes = Changes(self._folder, self._rebuild, self._ask_today)
        with (
            _logged("uvicorn.error", self._fault),
            _signals(self._loop, lambda: self._stop(server)),
        ):
            self._greet(listening.getsockname()[1], secret)
            if desk is not None:
                _greet_phones(listening.getsockname()[1], desk)
            self._changes.start()
            await server.serve([listening])
            self._rest(None)
            self._changes.stop(_STOP_SECONDS)
        say("Stopped.")

    def _desk(self) -> JotDesk:
        from backbud.serve.jotting import JotDesk

        return JotDesk(self._folder, self._ask_today, lambda line: say(f"{_clock()}  {line}"))

    def _fault(self, error: BaseException | None) -> None:
        """What nobody foresaw in serving a page: said in one sentence, and watching goes on."""
        if error is not None:
            warn(f"{_clock()}  A page was not served because of {last_word(self._folder, error)}")

    def _stop(self, server: uvicorn.Server) -> None:
        """The first time cleanly; the second time at once."""
        server.force_exit = server.should_exit
        server.should_exit = True
        self._hub.close()

    def _banner(self) -> Banner:
        return Banner(self._news.failure, self._news.problems)

    # -------------------------------------------------------------- in the thread that rebuilds

    def _rebuild(self) -> None:
        self._rest(None)
        news = self._rebuilder.rebuild()
        if news.failure:
            self._show(news)
        self._tell(news)
        if news.again:
            self._rest(threading.Timer(_TRY_AGAIN_SECONDS, self._changes.note))
        else:
            self._rest(threading.Timer(_IDLE_SECONDS, self._tidy))

    def _show(self, news: News) -> None:
        """To the open pages."""
        self._news = news
        with suppress(RuntimeError):  # the loop has ended
            self._loop.call_soon_threadsafe(self._hub.turn)

    def _rest(self, timer: threading.Timer | None) -> None:
        """What is to be done once nothing happens any more."""
        if self._resting is not None:
            self._resting.cancel()
        self._resting = timer
        if timer is not None:
            timer.daemon = True
            timer.start()

    def _tidy(self) -> None:
        """Free what a run left in cycles; what the first one left is not looked at again."""
        gc.collect()
        if not self._is_frozen:
            gc.freeze()
            self._is_frozen = True

    def _tell(self, news: News) -> None:
        """Say in the terminal what was done, and what is wrong where that is new."""
        if news.failure:
            say(f"{_clock()}  The pages stay as they were. {news.failure}")
        else:
            files = "1 file" if news.written == 1 else f"{news.written} files"
            say(f"{_clock()}  {files} changed, {news.seconds * 1000:.0f} ms.")
        if (news.problems, news.note) == self._told:
            return
        self._told = (news.problems, news.note)
        if news.note:
            warn(news.note)
        for problem in news.problems[:SHOWN_PROBLEMS]:
            warn(*problem.split("\n"))
        if len(news.problems) > SHOWN_PROBLEMS:
            more = len(news.problems) - SHOWN_PROBLEMS
            warn(f"… and {more} more; backbud check shows all.")

    def _greet(self, port: int, secret: str) -> None:
        if secret:
            say(f"Pages for this house: http://{lan_address()}:{port}/{secret}/")
            say("Who has this address can read them; what is sent is not encrypted.")
        else:
            say(f"Pages: http://{LOOPBACK}:{port}/")
        say(f"Watching {self._folder}. Ctrl-C stops it.")


def _greet_phones(port: int, desk: JotDesk) -> None:
    """Where a phone jots, and the code that pairs it."""
    say(f"Jot from a phone: http://{lan_address()}:{port}{PATH}")
    say(f"Code: {desk.pairing.shown}  (one device, ten minutes, five tries)")
    say("It is plain HTTP: who listens on this network can read it, and write as that phone does.")
    if len(desk.devices):
        say(f"Paired before: {len(desk.devices)}. To forget them: backbud watch --forget-devices")


def _clock() -> str:
    return time.strftime("%H:%M:%S")


def _server(config: uvicorn.Config) -> uvicorn.Server:
    """A server that leaves the signals to us."""
    import uvicorn

    class QuietServer(uvicorn.Server):
        @contextmanager
        def capture_signals(self) -> Iterator[None]:
            yield

    return QuietServer(config)


@contextmanager
def _logged(name: str, tell: Callable[[BaseException | None], None]) -> Iterator[None]:
    """Tell of each error that a library logs, which it would else print with its traceback."""
    import logging

    class ErrorTeller(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            tell(record.exc_info[1] if record.exc_info else None)

    logger, handler = logging.getLogger(name), ErrorTeller(logging.ERROR)
    logger.addHandler(handler)
    before, logger.propagate = logger.propagate, False
    try:
        yield
    finally:
        logger.removeHandler(handler)
        logger.propagate = before


@contextmanager
def _signals(loop: asyncio.AbstractEventLoop, stop: Callable[[], None]) -> Iterator[None]:
    """Call `stop` in the loop on Ctrl-C and on SIGTERM."""
    wanted = (signal.SIGINT, signal.SIGTERM)
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = [
        signal.signal(number, lambda *_: loop.call_soon_threadsafe(stop)) for number in wanted
    ]
    try:
        yield
    finally:
        for number, handler in zip(wanted, before, strict=True):
            signal.signal(number, handler)
