"""Serves one editor over standard input and output, until it goes away."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable
from datetime import date

from backbud.editor.features import add_features
from backbud.editor.server import EditorServer


def serve(ask_today: Callable[[], date]) -> None:
    """`ask_today`: what day it is; a server may run for days."""
    server = EditorServer(ask_today)
    add_features(server)
    # The command line turns it off, since its runs end soon.
    gc.enable()
    # Nobody else may write among what is told to the editor, such as a species that prints.
    stdin, stdout = os.fdopen(os.dup(0), "rb"), os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    server.start_io(stdin, stdout)
