"""Makes a new journal a git repository, with a hook that tells what `check` finds.

By `dulwich` where it is installed, else by git: in a folder that was just made, no settings of
anybody else can run a program.
"""

from __future__ import annotations

import os
import shlex
import shutil
import subprocess
import sys
from importlib.util import find_spec

# A diary is a record: what is wrong in it is told, and never keeps it from being kept.
_HOOK = """\
#!/bin/sh
# Tells before each commit what is wrong in the journal, and stops nothing.
{python} -P -m backbud check . || true
"""


def can_begin_repository() -> bool:
    """Whether anything is there that can make a repository."""
    return find_spec("dulwich") is not None or shutil.which("git") is not None


def begin_repository(folder: str, *, hook: bool) -> None:
    """Make a folder a repository with nothing in it. OSError."""
    if find_spec("dulwich") is not None:
        from dulwich.repo import Repo

        Repo.init(folder).close()
    else:
        _by_git(folder)
    if hook:
        hooks = os.path.join(folder, ".git", "hooks")
        os.makedirs(hooks, exist_ok=True)
        path = os.path.join(hooks, "pre-commit")
        with open(path, "w", encoding="utf-8", newline="\n") as file:
            file.write(_HOOK.format(python=shlex.quote(sys.executable)))
        os.chmod(path, 0o755)


def _by_git(folder: str) -> None:
    try:
        subprocess.check_output(["git", "init", "--quiet", "--", folder], stderr=subprocess.STDOUT)
    except subprocess.CalledProcessError as error:
        why = error.output.decode(errors="replace").strip()
        raise OSError(0, why or "git init failed", folder) from None
