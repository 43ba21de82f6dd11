"""Where the command begins: a `make` with nothing to do is answered here, all else by `cli.py`.

Only this module and what it imports runs before the answer, so nothing here may import more.
"""

from __future__ import annotations

import os
import sys
import time

from backbud.import_path import leave_current_folder

# An empty entry in PYTHONPATH stands for it too.
leave_current_folder()

from backbud.publish.unchanged import make_arguments, nothing_to_do  # noqa: E402

SETTINGS = "backbud.toml"
FAILED = 3
NOTHING_CHANGED = "Nothing changed."


def run() -> None:
    """Run the command line and end the process at once.

    To take a large journal's values apart again one by one takes a tenth of a second, and nobody
    needs them any more.
    """
    try:
        status = main()
    except SystemExit as leaving:
        status = leaving.code if isinstance(leaving.code, int) else 2
    except BrokenPipeError:
        # Whoever read along, as `head` does, has seen enough.
        os._exit(0)
    except KeyboardInterrupt:
        status = 130
    except Exception as error:
        from backbud.fault_report import last_word
        from backbud.say import CannotSay, warn

        if isinstance(error, (CannotSay, OSError)):
            warn(f"backbud: {error}")
        else:
            folder = _journal_above(os.getcwd()) or ""
            warn(f"backbud was stopped by {last_word(folder, error)}")
        status = FAILED
    try:
        # What a species of others may have printed.
        for stream in (sys.stdout, sys.stderr):
            if stream is not None:
                stream.flush()
    except OSError:
        status = status or FAILED
    os._exit(status)


def main() -> int:
    """Run the command line of this process; returns the exit status."""
    argv = sys.argv[1:]
    try:
        here = os.getcwd()
    except OSError as error:
        raise OSError(f"the folder you stand in is gone: {error.strerror}") from error
    request = make_request(argv, here, time.strftime("%Y-%m-%d"))
    if request is not None:
        last = nothing_to_do(*request)
        if last is not None:
            status, summary = last
            from backbud.say import say, say_json

            if request[2].endswith("json"):
                say_json(summary)
            else:
                say(NOTHING_CHANGED, *summary.split("\n"))
            return status
    import gc
    from importlib import import_module

    # Nor is it worth looking for cycles among them in between (`watch` and `editor` do at rest).
    gc.disable()
    return int(import_module("backbud.cli").main(argv))


def make_request(argv: list[str], here: str, today: str) -> tuple[str, str, str] | None:
    """What a `make` asks for: the journal's folder, the day, and the arguments in one spelling.

    These are what `fingerprint` and `nothing_to_do` take. None for any other command, for arguments
    that are not plainly `make [FOLDER] [--on DATE] [--json]`, and where there is no journal.
    """
    if argv[:1] != ["make"]:
        return None
    folders: list[str] = []
    days: list[str] = []
    is_json = False
    rest = iter(argv[1:])
    for argument in rest:
        if argument == "--json":
            is_json = True
        elif argument == "--on":
            days.append(next(rest, ""))
        elif argument.startswith("--on="):
            days.append(argument.removeprefix("--on="))
        elif argument.startswith("-"):
            return None
        else:
            folders.append(argument)
    if len(folders) > 1 or len(days) > 1:
        return None
    journal = _journal_here(folders[0]) if folders else _journal_above(here)
    if journal is None:
        return None
    return journal, days[0] if days else today, make_arguments(bool(days), is_json)


def _journal_here(folder: str) -> str | None:
    return folder if os.path.isfile(os.path.join(folder, SETTINGS)) else None


def _journal_above(folder: str) -> str | None:
    """The nearest folder from this one upward that holds settings."""
    while _journal_here(folder) is None:
        above = os.path.dirname(folder)
        if above == folder:
            return None
        folder = above
    return folder
