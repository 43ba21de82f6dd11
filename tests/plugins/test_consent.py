"""Code in a journal's folder runs only once the person has seen and trusted these very bytes."""

from __future__ import annotations

import io
import json
import os
import py_compile
import subprocess
import sys
from pathlib import Path

import pytest

from backbud.consent.place import record_path
from backbud.person import CONFIG_VARIABLE
from backbud.publish.unchanged import make_arguments, nothing_to_do

COMMANDS = ("make", "check", "due")


@pytest.fixture
def ran(tmp_path: Path) -> Path:
    """The file that a plugin writes when it runs."""
    return tmp_path / "ran"


@pytest.mark.parametrize("command", COMMANDS)
def test_untrusted_code_never_runs_and_the_rest_compiles(yard, writes, ran, command) -> None:
    yard.plugin(writes(ran))
    status, out, err = yard.run(command)
    assert not ran.exists()
    assert status == 0
    (line,) = [line for line in (out + err).splitlines() if "plugins/" in line]
    assert line == (
        "Left out: 1 plugin file in plugins/, which you have not trusted. "
        f"Look at it: backbud trust {yard.folder}"
    )
    if command == "make":
        assert (yard.folder / "made/trees/hoshi.html").is_file()


@pytest.mark.parametrize("command", COMMANDS)
def test_trusted_code_runs(yard, writes, ran, command) -> None:
    yard.plugin(writes(ran))
    assert yard.run("trust", "--yes", yard.digest())[0] == 0
    assert not ran.exists(), "to trust is not to run"
    status, out, err = yard.run(command)
    assert (status, ran.read_text()) == (0, "it ran")
    assert "Left out" not in out + err


def test_make_in_json_says_what_was_left_out(yard, writes, ran) -> None:
    yard.plugin(writes(ran))
    assert json.loads(yard.run("make", "--json")[1])["left_out"].startswith("Left out: 1 plugin")
    yard.trust()
    assert json.loads(yard.run("make", "--json")[1])["left_out"] == ""


# ------------------------------------------------------------------ any change asks again


def change(folder: Path) -> None:
    (folder / "plugins/helper.py").write_text("NAME = 'changed'\n")


def add(folder: Path) -> None:
    (folder / "plugins/new.py").write_text("")


def take_away(folder: Path) -> None:
    (folder / "plugins/helper.py").unlink()


def rename(folder: Path) -> None:
    (folder / "plugins/helper.py").rename(folder / "plugins/helpers.py")


def move_a_byte(folder: Path) -> None:
    """The same bytes in the same order, parted otherwise among the files."""
    helper, own = folder / "plugins/helper.py", folder / "plugins/own.py"
    text = helper.read_text()
    helper.write_text(text[:-1])
    own.write_text(text[-1] + own.read_text())


def add_below(folder: Path) -> None:
    (folder / "plugins/more").mkdir()
    (folder / "plugins/more/deep.py").write_text("")


@pytest.mark.parametrize(
    ("done", "named"),
    [
        (change, "helper.py"),
        (add, "new.py"),
        (take_away, "helper.py"),
        (rename, "helper.py and 1 more"),
        (move_a_byte, "helper.py and 1 more"),
        (add_below, "more/deep.py"),
    ],
)
def test_any_change_to_the_set_asks_again(yard, writes, ran, done, named) -> None:
    yard.plugin(writes(ran))
    yard.plugin("NAME = 'helper'\n", "helper.py")
    yard.trust()
    done(yard.folder)
    status, _, err = yard.run("check")
    assert not ran.exists()
    assert status == 0
    assert f"plugins/, changed since you trusted it: plugins/{named}. Look at it: " in err


def test_what_changed_is_shown_against_what_was_trusted(yard) -> None:
    yard.plugin("a = 1\nb = 2\n")
    yard.plugin("c = 3\n", "gone.py")
    yard.trust()
    yard.plugin("a = 1\nb = 20\n")
    yard.plugin("d = 4\n", "new.py")
    (yard.folder / "plugins/gone.py").unlink()
    status, out, _ = yard.run("trust")
    assert status == 1
    assert "plugins/own.py  (2 lines)\n  1  a = 1\n  2  b = 20\n" in out
    assert (
        "--- plugins/own.py as trusted\n+++ plugins/own.py now\n@@ -1,2 +1,2 @@\n"
        " a = 1\n-b = 2\n+b = 20\n"
    ) in out
    assert "plugins/gone.py is gone.\n" in out
    assert "plugins/new.py is new.\n" in out


def test_the_same_bytes_again_are_trusted_again(yard, writes, ran) -> None:
    path = yard.plugin(writes(ran))
    yard.trust()
    text = path.read_text()
    path.write_text("")
    yard.run("check")
    assert not ran.exists()
    path.write_text(text)
    yard.run("check")
    assert ran.exists()


# ------------------------------------------------------------------ only this set


def test_a_shipped_pyc_is_never_run(yard, writes, ran, tmp_path) -> None:
    """Neither beside its source, nor in __pycache__, nor in the place of a source."""
    evil = tmp_path / "evil.py"
    evil.write_text(writes(ran))
    plugins = yard.folder / "plugins"
    (plugins / "__pycache__").mkdir()
    tag = sys.implementation.cache_tag
    yard.plugin("from . import helper\n")
    yard.plugin("NAME = 'helper'\n", "helper.py")
    for target in (
        plugins / "own.pyc",
        plugins / "alone.pyc",
        plugins / "__pycache__" / f"helper.{tag}.pyc",
        plugins / "__pycache__" / f"own.{tag}.pyc",
    ):
        # Unchecked by its source's time: an importer that looked would run it (PEP 552).
        py_compile.compile(
            str(evil),
            str(target),
            doraise=True,
            invalidation_mode=py_compile.PycInvalidationMode.UNCHECKED_HASH,
        )
    yard.trust()
    assert yard.problems() == []
    assert not ran.exists()
    yard.plugin("from . import alone\n")
    assert "cannot import name 'alone'" in yard.fault().message
    assert not ran.exists()


def test_no_bytecode_is_written(yard) -> None:
    yard.plugin("from . import helper\n")
    yard.plugin("NAME = 'helper'\n", "helper.py")
    yard.trust()
    assert yard.problems() == []
    assert sorted(path.name for path in yard.folder.rglob("*")) == [
        ".backbud",
        ".gitignore",
        "backbud.toml",
        "helper.py",
        "journal.txt",
        "kinds",
        "own.py",
        "plugins",
        "syntax.msgpack",
    ]


@pytest.mark.parametrize("statement", ["import helper", "import journal_code", "import tools.evil"])
def test_nothing_else_of_the_folder_can_be_imported(yard, writes, ran, statement) -> None:
    yard.plugin(statement)
    yard.plugin("", "helper.py")
    (yard.folder / "journal_code.py").write_text(writes(ran))
    (yard.folder / "plugins/journal_code").mkdir()
    (yard.folder / "tools").mkdir()
    (yard.folder / "tools/evil.py").write_text(writes(ran))
    before = list(sys.path)
    problem = yard.fault()
    assert (problem.code, problem.file, problem.line) == ("plugin-failed", "plugins/own.py", 1)
    assert problem.message.startswith("ModuleNotFoundError: No module named")
    assert not ran.exists()
    assert sys.path == before


def test_files_import_each_other_and_deeper_ones(yard, tmp_path) -> None:
    out = tmp_path / "out"
    yard.plugin(
        f"""\
        from pathlib import Path
        from ._shared import NAME
        from .more.deep import DEPTH
        Path({str(out)!r}).write_text(f"{{NAME}} {{DEPTH}} {{__package__ != ''}}")
        """
    )
    yard.plugin("NAME = 'shared'\n", "_shared.py")
    yard.plugin("from .._shared import NAME\nDEPTH = NAME.upper()\n", "more/deep.py")
    yard.trust()
    assert yard.problems() == []
    assert out.read_text() == "shared SHARED True"


# ------------------------------------------------------------------ what is no file of the set


@pytest.mark.parametrize("trusted", [False, True])
def test_a_link_is_not_followed(yard, writes, ran, tmp_path, trusted) -> None:
    evil = tmp_path / "evil.py"
    evil.write_text(writes(ran))
    (yard.folder / "plugins/linked.py").symlink_to(evil)
    (tmp_path / "more").mkdir()
    (tmp_path / "more/deep.py").write_text(writes(ran))
    (yard.folder / "plugins/more").symlink_to(tmp_path / "more")
    yard.plugin("NAME = 'own'\n")
    if trusted:
        yard.trust()
    found = [(p.code, p.file) for p in yard.problems()]
    assert found == [("link", "plugins/linked.py"), ("link", "plugins/more")]
    assert not ran.exists()


def test_plugins_that_is_itself_a_link_is_not_followed(yard, writes, ran, tmp_path) -> None:
    (yard.folder / "plugins").rmdir()
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere/own.py").write_text(writes(ran))
    (yard.folder / "plugins").symlink_to(tmp_path / "elsewhere")
    assert [(p.code, p.file) for p in yard.problems()] == [("link", "plugins")]
    assert "no plugins here" in yard.run("trust")[1]
    assert not ran.exists()


def test_what_is_no_regular_file_or_too_large_is_left_out(yard) -> None:
    os.mkfifo(yard.folder / "plugins/pipe.py")
    yard.plugin("#" * (1 << 20) + "\n", "large.py")
    yard.plugin("", "own.py")
    yard.trust()
    found = [(p.code, p.file) for p in yard.problems()]
    assert found == [("large-file", "plugins/large.py"), ("no-file", "plugins/pipe.py")]


# ------------------------------------------------------------------ the command


def test_the_digest_shown_is_that_of_names_and_bytes_and_is_the_one_to_give(yard) -> None:
    """Computed here as its docstring has it, with Python's own blake2b."""
    import hashlib

    yard.plugin("x = 1\n", "b.py")
    yard.plugin("", "a.py")
    whole = b"12:plugins/a.py0:" + b"12:plugins/b.py6:" + b"x = 1\n"
    expected = hashlib.blake2b(whole, digest_size=32).hexdigest()
    status, out, _ = yard.run("trust")
    assert status == 1
    assert f"2 files with the digest\n  {expected}\n" in out
    assert "It can do anything that you can do" in out.replace("\n", " ")
    assert "it is no cage" in out
    assert yard.run("trust", "--yes", expected)[0] == 0
    assert yard.run("trust")[0] == 0


@pytest.mark.parametrize("wrong", ["abc", "0" * 64, " "])
def test_a_wrong_digest_is_refused(yard, writes, ran, wrong) -> None:
    yard.plugin(writes(ran))
    status, _, err = yard.run("trust", "--yes", wrong)
    assert status == 2
    assert "another digest than the one you gave; nothing was recorded" in err
    yard.run("check")
    assert not ran.exists()


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("answer", "status"), [("yes\n", 0), ("YES \n", 0), ("no\n", 1), ("y\n", 1), ("\n", 1), ("", 1)]
)
def test_on_a_terminal_only_yes_is_yes(yard, writes, ran, monkeypatch, answer, status) -> None:
    yard.plugin(writes(ran))
    monkeypatch.setattr(sys, "stdin", Terminal(answer))
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    assert yard.run("trust")[0] == status
    yard.run("check")
    assert ran.exists() == (status == 0)


def test_what_is_recorded_is_what_was_shown(yard, ran, writes, monkeypatch) -> None:
    """A file that is changed while the person reads is not trusted."""
    path = yard.plugin("harmless = 1\n")

    class Slow(Terminal):
        def readline(self, *_: object) -> str:
            path.write_text(writes(ran))
            return "yes\n"

    monkeypatch.setattr(sys, "stdin", Slow())
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    assert yard.run("trust")[0] == 0
    yard.run("check")
    assert not ran.exists()


def test_forget_takes_it_back(yard, writes, ran) -> None:
    yard.plugin(writes(ran))
    yard.trust()
    assert yard.run("trust", "--forget")[0] == 0
    yard.run("check")
    assert not ran.exists()
    assert yard.run("trust", "--forget") == (0, "Nothing of this journal was trusted.\n", "")


def test_nothing_can_hide_from_the_eye(yard) -> None:
    """Escapes of a terminal, letters that turn the line round, a lone carriage return."""
    yard.plugin("a = 1  # \x1b[2K\u202e\r", "own.py")
    (yard.folder / "plugins/own.py").write_bytes(b"a = 1 # \x1b[2K \xe2\x80\xae\rb = 2\n")
    out = yard.run("trust")[1]
    assert "  1  a = 1 # \\x1b[2K \\u202e\n  2  b = 2\n" in out
    assert "\x1b" not in out


def test_what_is_shown_is_what_runs_whatever_encoding_it_names(yard, ran) -> None:
    """PEP 263: as UTF-7 the second line would be code; as UTF-8, which is shown, it is none."""
    hidden = f"+AAo-open({str(ran)!r},'w').write('it ran')"
    (yard.folder / "plugins/own.py").write_text(f"# coding: utf-7\n# {hidden}\n")
    yard.trust()
    assert yard.problems() == []
    assert not ran.exists()


# ------------------------------------------------------------------ the record


def test_the_record_lies_outside_the_journal_and_by_its_real_path(yard, config, tmp_path) -> None:
    yard.plugin("")
    yard.trust()
    (found,) = config.rglob("*.json")
    assert json.loads(found.read_text())["journal"] == str(yard.folder)
    assert found.parent.stat().st_mode & 0o077 == 0
    link = tmp_path / "by another way"
    link.symlink_to(yard.folder)
    assert record_path(str(link)) == record_path(str(yard.folder))


def test_another_journal_with_the_same_bytes_asks_for_itself(yard, writes, ran) -> None:
    yard.plugin(writes(ran))
    yard.trust()
    yard.folder = yard.folder.rename(yard.folder.with_name("moved"))
    yard.run("check")
    assert not ran.exists()


@pytest.mark.parametrize("text", ["", "{}", "[]", "null", '{"head": "backbud trusted 1"}', "\xff{"])
def test_a_torn_record_is_none(yard, writes, ran, config, text) -> None:
    yard.plugin(writes(ran))
    yard.trust()
    (found,) = config.rglob("*.json")
    found.write_text(text)
    yard.run("check")
    assert not ran.exists()


def test_a_record_whose_bytes_were_changed_is_none(yard, writes, ran, config) -> None:
    path = yard.plugin("")
    yard.trust()
    (found,) = config.rglob("*.json")
    path.write_text(writes(ran))
    from base64 import b64encode

    record = json.loads(found.read_text())
    record["files"]["plugins/own.py"] = b64encode(path.read_bytes()).decode()
    found.write_text(json.dumps(record))
    yard.run("check")
    assert not ran.exists()


def test_a_record_that_others_may_write_is_none(yard, writes, ran, config) -> None:
    yard.plugin(writes(ran))
    yard.trust()
    (found,) = config.rglob("*.json")
    found.parent.chmod(0o777)
    yard.run("check")
    assert not ran.exists()
    assert yard.run("trust", "--yes", yard.digest())[0] == 2


def test_a_record_in_the_journal_itself_counts_for_nothing(yard, writes, ran, monkeypatch) -> None:
    monkeypatch.setenv(CONFIG_VARIABLE, str(yard.folder / "config"))
    yard.plugin(writes(ran))
    status, _, err = yard.run("trust", "--yes", yard.digest())
    assert status == 2
    assert "BACKBUD_CONFIG" in err
    yard.run("check")
    assert not ran.exists()


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        ({"XDG_CONFIG_HOME": "/somewhere"}, "/somewhere/backbud"),
        # XDG Base Directory Specification: a path that is not absolute is to be ignored.
        ({"XDG_CONFIG_HOME": "some/where", "HOME": "/home/rowan"}, "/home/rowan/.config/backbud"),
        ({"HOME": "/home/rowan"}, "/home/rowan/.config/backbud"),
        ({"BACKBUD_CONFIG": "/own", "XDG_CONFIG_HOME": "/somewhere"}, "/own"),
    ],
)
def test_where_the_consent_is_kept_on_linux(monkeypatch, given, expected) -> None:
    from backbud.person import config_folder

    monkeypatch.setattr(sys, "platform", "linux")
    for name in ("BACKBUD_CONFIG", "XDG_CONFIG_HOME", "HOME"):
        monkeypatch.delenv(name, raising=False)
    for name, value in given.items():
        monkeypatch.setenv(name, value)
    assert config_folder() == expected


# ------------------------------------------------------------------ what a run remembers


def last(folder: Path) -> tuple[int, str] | None:
    return nothing_to_do(str(folder), "2026-11-20", make_arguments(True, False))


def test_make_after_trust_and_after_forget_does_its_work_again(yard, writes, ran) -> None:
    yard.plugin(writes(ran))
    make = ("make", "--on", "2026-11-20")
    yard.run(*make)
    assert last(yard.folder) is not None
    assert "Left out" in last(yard.folder)[1]  # type: ignore[index]
    yard.trust()
    assert last(yard.folder) is None
    yard.run(*make)
    assert ran.exists()
    assert "Left out" not in last(yard.folder)[1]  # type: ignore[index]
    yard.run("trust", "--forget")
    assert last(yard.folder) is None
    yard.run(*make)
    assert "Left out" in last(yard.folder)[1]  # type: ignore[index]


def test_another_person_s_consent_is_not_taken_for_one_s_own(
    yard, writes, ran, monkeypatch
) -> None:
    yard.plugin(writes(ran))
    yard.trust()
    yard.run("make", "--on", "2026-11-20")
    assert last(yard.folder) is not None
    monkeypatch.setenv(CONFIG_VARIABLE, str(yard.folder.with_name("another")))
    assert last(yard.folder) is None


def test_what_was_read_with_the_acts_of_a_plugin_is_not_kept_without_it(yard) -> None:
    yard.plugin(
        """\
        from backbud.species import ActForm, Species

        acts = (ActForm("charmed", "charm", "Own"),)


        class Own(Species):
            botanical = "Arbor propria"
            common = ("own tree",)
        """
    )
    yard.append("  charmed\ntree sora\n  kind own tree\n")
    for _ in range(2):
        yard.trust()
        for _ in range(2):
            assert yard.problems() == []
        yard.run("trust", "--forget")
        for _ in range(2):
            session = yard.open()
            found = [(p.code, p.line) for p in (*session.words_kept(), *session.problems())]
            assert found == [("unread-line", 12), ("unknown-species", 14)]


# ------------------------------------------------------------------ light to start


def test_without_plugins_nothing_more_is_imported(yard) -> None:
    (yard.folder / "plugins").rmdir()
    code = (
        "import sys; from datetime import date; from backbud.session import open_session; "
        f"open_session({str(yard.folder)!r}, date(2026, 11, 20)); "
        "its = ('backbud.consent.', 'backbud.plugins.'); "
        "print(sorted(m for m in sys.modules if m.startswith(its)))"
    )
    # A second run, when the kinds of tree are known.
    for _ in range(2):
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    light = [f"backbud.{name}" for name in ("consent.place", "plugins.added", "plugins.load")]
    assert done.stdout.strip() == str(light), done.stderr


def test_help_imports_nothing_of_it() -> None:
    code = (
        "import sys; from backbud import cli\n"
        "try: cli.main(['--help'])\n"
        "except SystemExit: pass\n"
        "its = ('backbud.consent', 'backbud.plugins', 'backbud.commands.'); "
        "print(sorted(m for m in sys.modules if m.startswith(its)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.stdout.splitlines()[-1] == (
        "['backbud.commands.every', 'backbud.commands.parser', 'backbud.commands.status']"
    ), done.stderr
