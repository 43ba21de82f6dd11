"""A customer's tree, from its coming to its bill, in a folder of its own."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from backbud.papers.gather import papers_of
from backbud.session import Session, open_session
from backbud.views.paper import PapersView

SETTINGS = """\
language = 1
name = "The yard at Sallow"
currency = "EUR"
keeper = "una"
home = "yard"

[tax]
name = "VAT"
rate = 20
materials = 5.5
number = "XX 123"
"""
JOURNAL = """\
place yard
  latitude 56 N
  low   0 0 1 3 5 8 10 10 8 5 3 1 C
  high  6 7 9 12 15 17 19 18 16 12 9 6 C
place roof
  name  Ada's roof
  low   4 4 6 8 11 14 16 16 13 10 7 5 C
  high  11 12 15 18 22 26 29 29 25 20 14 11 C
person una
  name Una Wren
  town Sallow
  rate 40 EUR/h
person ada
  name Ada Pell
  town Quay
  place roof
  experience beginner
  contact sevenseven
person bo
  name Bo Marl
material akadama
  sold in bag of 14 L
  price 21 EUR
mix maple
  akadama 1
pot tray
  inside 30 x 20 x 6 cm
  owner ada
tree hoshi
  name Old Star
  kind trident maple
  owner ada
  place yard
  origin from seed
  passport XX-99
  trunk 5 cm
tree other
  name Bramble
  kind trident maple
  owner bo
  place yard

2026-03-06
hoshi
  received from ada for repotting, condition "two cracked branches", in tray
  agreed rate 40 EUR/h, by 2026-05, for repotting, risk "the low branch may die", deposit 20 EUR
  insured 2400 EUR
  paid 20 EUR deposit
2026-03-07
hoshi, other
  repotted same pot, 2 cm off below, wedges N E, mix maple 3 L, tied 2 mm x 2 -- a whisper
  worked 2 h 40, by bo
hoshi
  used akadama 3 L
  wired 2 mm Al on left 2
  noted grumbling neighbour
  private haggles
2026-04-06
hoshi
  ready
  billed 57.83 EUR, number 2026-01
  returned to ada
2026-04-20
hoshi
  paid 30 EUR by transfer
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("papers")
    (made / "backbud.toml").write_text(SETTINGS)
    (made / "journal.txt").write_text(JOURNAL)
    return made


@pytest.fixture(scope="module")
def session(folder: Path) -> Session:
    opened = open_session(str(folder), date(2026, 4, 25), as_of=True)
    assert opened.problems() == ()
    return opened


@pytest.fixture(scope="module")
def ada(session: Session) -> PapersView:
    found = papers_of(session, "ada")
    assert found is not None
    return found
