"""Only what this person named on this machine is asked, whatever a journal's settings say."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest
from tests.views.test_schema import validator

from backbud.cli import main
from backbud.person import config_folder
from backbud.services.agreed import agreed, forget_named

SETTINGS = 'language = 1\nhome = "yard"\n'


@pytest.fixture
def asked(journal, met, kit, capsys):
    """Run the command: its exit status and what it printed."""
    met.answers(kit.COMPACT, kit.compact(kit.NOW.replace(year=date.today().year + 1), (1.0,) * 3))

    def run(*more: str) -> tuple[int, str]:
        status = main(["weather", str(journal), *more])
        said = capsys.readouterr()
        return status, said.out + said.err

    yield run
    forget_named(str(journal))


def test_a_cloned_journal_that_names_a_service_asks_nobody(asked, journal, met):
    (journal / "backbud.toml").write_text(f'{SETTINGS}[weather]\nfrom = "met-norway"\n')
    status, said = asked("--server", met.url)
    assert status == 2
    assert "--contact" in said
    status, said = asked("--server", met.url, "--contact", "una@example.org")
    assert (status, met.asked, agreed(str(journal))) == (3, [], None)
    assert "coordinates  51.50, 0.10 (two decimals, about a kilometre)" in said
    assert "who asks     backbud, una@example.org" in said
    assert "Nothing was asked. A script says --yes." in said


def test_what_was_named_is_kept_outside_the_journal_and_used_from_then_on(asked, journal, met):
    said = ("--server", met.url, "--contact", "una@example.org", "--yes")
    asked("--from", "met-norway", *said)
    assert len(met.asked) == 1
    known = agreed(str(journal))
    assert (known.service, known.place, known.latitude) == ("met-norway", "yard", "51.50")
    inside = [path.read_bytes() for path in journal.rglob("*") if path.is_file()]
    assert not any(b"una@example.org" in content for content in inside)
    status, said = asked()
    assert (status, len(met.asked)) == (0, 1)
    assert "holds until the next is out; nobody was asked" in said
    found = json.loads(asked("--json")[1])
    validator("weather").validate(found)
    assert (found["forecast"]["came"], found["failed"]) == ("not asked", [])


def test_another_service_or_place_in_the_settings_asks_again(asked, journal, met):
    asked("--from", "met-norway", "--server", met.url, "--contact", "u@example.org", "--yes")
    (journal / "backbud.toml").write_text(f'{SETTINGS}[weather]\nfrom = "us-weather-service"\n')
    status, said = asked()
    assert (status, len(met.asked)) == (2, 1)
    assert "the settings name “us-weather-service”, and you named “met-norway”" in said
    (journal / "backbud.toml").write_text(SETTINGS)
    cards = (journal / "cards.txt").read_text()
    (journal / "cards.txt").write_text(cards.replace("51.503", "48.2"))
    status, said = asked()
    assert (status, len(met.asked)) == (2, 1)
    assert "“yard” lies at 48.20, 0.10 now" in said


def test_a_record_that_others_may_write_is_as_good_as_none(asked, journal, met):
    asked("--from", "met-norway", "--server", met.url, "--contact", "u@example.org", "--yes")
    (record,) = (
        path
        for path in Path(config_folder()).glob("weather/*.json")
        if json.loads(path.read_text())["journal"] == str(journal.resolve())
    )
    record.chmod(0o666)
    assert agreed(str(journal)) is None


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (
            ("--from", "met-norwya"),
            "no met service is called “met-norwya”. Did you mean “met-norway”?",
        ),
        (("--from", "met-norway", "--place", "moon"), "no place is called “moon”"),
        (("--from", "met-norway", "--contact", "a\nb: c"), "is no address that a service can read"),
        (("--from", "met-norway", "--station", "x"), "no station of GHCN-Daily"),
        (("--from", "met-norway", "--contact", "x", "--server", "http://a.b"), "only https"),
        ((), "nobody named a met service"),
    ],
)
def test_what_cannot_be_named_is_told(asked, more, said):
    status, told = asked(*more, "--yes")
    assert status == 2
    assert said in told


def test_a_wish_in_the_settings_is_checked(written):
    session = written("", settings="[weather]\nform = 1\n", any_problems=True)
    assert [one.code for one in session.problems()] == ["bad-settings"]
