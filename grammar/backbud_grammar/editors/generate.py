"""Writing the files that colour the language in common editors.

`python -m backbud_grammar.editors.generate [FOLDER]` writes them, beside this file if no folder
is named.
"""

from __future__ import annotations

import sys
from pathlib import Path

from backbud_grammar.editors.emacs import emacs_mode
from backbud_grammar.editors.nano import nano_syntax
from backbud_grammar.editors.textmate import (
    extension_configuration,
    extension_manifest,
    textmate_grammar,
)
from backbud_grammar.editors.vim import vim_detection, vim_syntax

HERE = Path(__file__).parent


def files() -> dict[str, str]:
    """Every file's name, with `/`, and its text."""
    return {
        "vim/ftdetect/backbud.vim": vim_detection(),
        "vim/syntax/backbud.vim": vim_syntax(),
        "vscode/package.json": extension_manifest(),
        "vscode/language-configuration.json": extension_configuration(),
        "vscode/backbud.tmLanguage.json": textmate_grammar(),
        "emacs/backbud-mode.el": emacs_mode(),
        "nano/backbud.nanorc": nano_syntax(),
    }


def write(folder: Path) -> None:
    """Write every file below the folder."""
    for name, text in files().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    write(Path(sys.argv[1]) if len(sys.argv) > 1 else HERE)
