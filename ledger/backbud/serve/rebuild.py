"""Running `make` again and again in one process, and telling how each run went.

Where the journal cannot be read as a whole, or a run fails, the last good pages stay and the
reason is shown on top of them.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from datetime import date

from msgspec import Struct

from backbud.fault_report import last_word
from backbud.make import Made, make
from backbud.memo import Memo
from backbud.publish import MADE
from backbud.publish.manifest import own_digests, read_own
from backbud.publish.refused import BusyError, PublishError
from backbud.publish.unchanged import installed_mark, make_arguments
from backbud.whole import Broken, check_settings
from backbud.words import in_words
from backbud_grammar.problems import show

RESTART = "backbud itself was changed: stop watching and start again."


class News(Struct, frozen=True):
    """How the last run went.

    `failure`: why the pages are those of an earlier run, or "". `problems`: each as `backbud check`
    shows it. `written`: how many files changed. `again`: it is worth trying once more. `note`: a
    word for the terminal.
    """

    day: date
    seconds: float = 0.0
    written: int = 0
    failure: str = ""
    problems: tuple[str, ...] = ()
    again: bool = False
    note: str = ""


class Rebuilder:
    """Brings made/ up to date, again and again in one process, and keeps what helps next time."""

    def __init__(
        self,
        folder: str,
        ask_today: Callable[[], date] = date.today,
        show: Callable[[News], None] | None = None,
    ) -> None:
        """`show`: is told of a run as soon as its pages are there, before the run has ended."""
        self._folder, self._ask_today, self._show = folder, ask_today, show
        self._kept = Memo()
        # What is published now, by relative POSIX path: at first what this person's last run left.
        self.files: Mapping[str, bytes] = files_of_last_run(folder)
        self._program = installed_mark()

    def rebuild(self) -> News:
        """Run once; whatever goes wrong is told and never raised."""
        today, began = self._ask_today(), time.perf_counter()
        try:
            return self._made(today, began)
        except Broken as error:
            shown = tuple(show(problem) for problem in error.problems)
            return News(today, failure=str(error), problems=shown)
        except PublishError as error:
            return News(today, failure=str(error), again=isinstance(error, BusyError))
        except OSError as error:
            return News(today, failure=in_words(error))
        except Exception as error:
            # A fault of ours, or of a species that was installed: the pages stay, work goes on.
            return News(today, failure=f"The run was stopped by {last_word(self._folder, error)}")

    def _made(self, today: date, began: float) -> News:
        check_settings(self._folder)
        installed = installed_mark()
        is_same_program = installed == self._program
        note = "" if is_same_program else RESTART

        def news_of(made: Made) -> News:
            return News(
                today,
                time.perf_counter() - began,
                made.written + made.removed,
                problems=tuple(show(problem) for problem in made.problems),
                note=note,
            )

        def published(made: Made) -> None:
            self.files = made.files
            if self._show is not None:
                self._show(news_of(made))

        made = make(
            self._folder,
            today,
            arguments=make_arguments(False, False),
            kept=self._kept,
            with_files=True,
            # What an older program made must not pass for what the new one would make.
            remembered=is_same_program,
            when_published=published,
            installed=installed,
        )
        return news_of(made)


def files_of_last_run(folder: str) -> dict[str, bytes]:
    """What this person's backbud wrote into made/ and nobody has changed since."""
    digests = own_digests(folder, MADE)
    try:
        found = {name: read_own(folder, MADE, name, digests) for name in digests}
    except OSError:
        return {}
    return {name: content for name, content in found.items() if content is not None}
